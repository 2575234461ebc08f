"""A GeoPackage that an algorithm writes itself, layer by layer, with styles and metadata inside."""

from __future__ import annotations

import os
from pathlib import Path

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransformContext,
    QgsFeature,
    QgsFields,
    QgsProcessingException,
    QgsVectorFileWriter,
    QgsWkbTypes,
)

from .texts import tr


def write_layer(
    path: str, name: str, title: str, fields: QgsFields, wkb_type: QgsWkbTypes.Type, features: list[QgsFeature]
) -> None:
    """Write a layer in EPSG:4326, or a table, into a GeoPackage; the file is made where there is none.

    Errors: QgsProcessingException where the file takes the layer or its rows not.
    """
    options = QgsVectorFileWriter.SaveVectorOptions()
    options.driverName = "GPKG"
    options.layerName = name
    options.layerOptions = [f"IDENTIFIER={title}"]
    action = QgsVectorFileWriter.ActionOnExistingFile
    options.actionOnExistingFile = (
        action.CreateOrOverwriteLayer if os.path.exists(path) else action.CreateOrOverwriteFile
    )
    table = wkb_type == QgsWkbTypes.Type.NoGeometry
    crs = QgsCoordinateReferenceSystem() if table else QgsCoordinateReferenceSystem("EPSG:4326")
    writer = QgsVectorFileWriter.create(path, fields, wkb_type, crs, QgsCoordinateTransformContext(), options)
    good = writer.hasError() == QgsVectorFileWriter.WriterError.NoError and writer.addFeatures(features)
    good = good and writer.flushBuffer()
    message = writer.errorMessage()
    del writer  # closes the file
    if not good:
        raise QgsProcessingException(tr("{} cannot be written into {}: {}").format(name, path, message))


def remove_file(path: str) -> None:
    """Remove a GeoPackage with what the database leaves beside it."""
    for beside in ("", "-wal", "-shm", "-journal"):
        Path(path + beside).unlink(missing_ok=True)
