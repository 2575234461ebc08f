"""From columns to layers: sinks written in batches, and taken away again when a run fails."""

from __future__ import annotations

from concurrent.futures import Executor, Future, wait
from pathlib import Path

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsFeatureRequest,
    QgsFeatureSink,
    QgsFields,
    QgsGeometry,
    QgsProcessingException,
    QgsProviderConnectionException,
    QgsProviderRegistry,
    QgsVectorLayer,
)

from . import schema


def python_values(column) -> list:
    """A column as what QGIS stores: None for NaN, infinity and empty text."""
    array = np.asarray(column)
    if array.dtype.kind == "f":
        finite = np.isfinite(array)
        values = array.tolist()
        return values if finite.all() else [v if ok else None for v, ok in zip(values, finite.tolist())]
    if array.dtype.kind == "O":
        return [None if value is None or value == "" else value for value in array.tolist()]
    return array.tolist()


def feature_list(columns: list[list], shapes: list | None = None, foreign: list | None = None) -> list[QgsFeature]:
    """Features from columns of equal length.

    columns, values by field in order; shapes, WKB of each (None: no geometry); foreign, rows of values that follow.
    """
    rows = map(list, zip(*columns))
    if foreign is not None:
        rows = (row + more for row, more in zip(rows, foreign))
    out = []
    if shapes is None:
        for row in rows:
            feature = QgsFeature()
            feature.setAttributes(row)
            out.append(feature)
        return out
    for row, shape in zip(rows, shapes):
        feature = QgsFeature()
        feature.setAttributes(row)
        if shape is not None:
            geometry = QgsGeometry()
            geometry.fromWkb(shape)
            feature.setGeometry(geometry)
        out.append(feature)
    return out


class Sink:
    """One output of a run; not connected where the user skipped it, and then writing does nothing.

    writer, an executor of one thread that writes files behind the caller's back; layers in memory and databases
    are written at once, in the caller's own thread.
    """

    def __init__(
        self, algorithm, parameters, context, parameter: str, layer: str, foreign: QgsFields | None, writer: Executor
    ):
        self.algorithm, self.parameters, self.parameter = algorithm, parameters, parameter
        self.schema = schema.LAYERS[layer]
        fields, self._passed = schema.fields_of(self.schema, foreign)
        self._all_pass = foreign is not None and self._passed == list(range(len(foreign)))
        self.written = 0
        self.sink, self.destination = algorithm.parameterAsSink(
            parameters,
            parameter,
            context,
            fields,
            self.schema.wkb_type,
            QgsCoordinateReferenceSystem("EPSG:4326")
            if self.schema.geometry != schema.TABLE
            else QgsCoordinateReferenceSystem(),
            QgsFeatureSink.SinkFlag.RegeneratePrimaryKey,
        )
        if self.sink is None and algorithm.sink_is_wanted(parameters, parameter):
            raise QgsProcessingException(algorithm.invalidSinkError(parameters, parameter))
        self._writer = writer if self.connected and _file(self.destination) else None
        self._pending: Future | None = None

    @property
    def connected(self) -> bool:
        """Whether anything is to be written."""
        return self.sink is not None

    def write(self, columns: dict, shapes: list | None = None, attributes: list | None = None) -> None:
        """Write rows: columns by field name (a field without one stays empty), WKB, and the input's whole rows.

        Errors: QgsProcessingException where the sink takes none.
        """
        if self.sink is None:
            return
        n = len(next(iter(columns.values())))
        if n == 0:
            return
        nothing = [None] * n
        ours = [python_values(columns[name]) if name in columns else nothing for name in self.schema.names]
        foreign = None
        if attributes is not None and self._passed:
            if self._all_pass:
                foreign = attributes
            else:
                foreign = [[row[i] for i in self._passed] for row in attributes]
        features = feature_list(ours, shapes, foreign)
        self._wait()
        self.written += n
        if self._writer is not None:
            self._pending = self._writer.submit(self.sink.addFeatures, features, QgsFeatureSink.Flag.FastInsert)
        elif not self.sink.addFeatures(features, QgsFeatureSink.Flag.FastInsert):
            raise QgsProcessingException(self._write_error())

    def _wait(self) -> None:
        """Until the batch before is written."""
        pending, self._pending = self._pending, None
        if pending is not None and not pending.result():
            raise QgsProcessingException(self._write_error())

    def _write_error(self) -> str:
        return self.algorithm.writeFeatureError(self.sink, self.parameters, self.parameter)

    def write_rows(self, index, columns: dict, shapes: list, rows, owner=None) -> None:
        """Write the rows of an index out of columns and shapes of a whole batch, with the input's own fields.

        owner, the input row of each, where an input row gives several or none.
        """
        if self.sink is None or len(index) == 0:
            return
        columns = {name: columns[name][index] for name in self.schema.names if name in columns}
        theirs = (index if owner is None else owner[index]).tolist()
        self.write(columns, [shapes[i] for i in index.tolist()], rows.attributes(theirs) if self._passed else None)

    def close(self) -> None:
        """Let go of the file, so that others can read it.

        Errors: QgsProcessingException where the rows are not in it: QGIS writes the end of a file when the sink
        goes, and a full disk shows only then.
        """
        if self.sink is None:
            return
        self._wait()
        error = self._write_error()
        self.sink = None
        if rows_in_file(self.destination) not in (None, self.written):
            raise QgsProcessingException(error)

    def discard(self) -> None:
        """Take away what was begun: a file of its own, or the one table of a file that holds others."""
        if self._pending is not None:
            wait([self._pending])
        self._pending = self.sink = None
        if self.destination:
            remove(self.destination)


def _file(destination: str) -> Path | None:
    """The file that a destination writes to; None where it is none."""
    path = Path(destination.partition("|")[0])
    return path if path.is_file() else None


def rows_in_file(destination: str) -> int | None:
    """How many rows a written file gives back; None for a destination that is no file, -1 for a broken one."""
    path = _file(destination)
    if path is None:
        return None
    layer = QgsVectorLayer(destination, "", "ogr", QgsVectorLayer.LayerOptions(False))
    if not layer.isValid():
        return -1
    if path.suffix.lower() == ".gpkg":
        return layer.featureCount()
    # other formats count by a header that is written before the rows
    request = QgsFeatureRequest().setFlags(QgsFeatureRequest.Flag.NoGeometry).setSubsetOfAttributes([])
    return sum(1 for _ in layer.getFeatures(request))


def remove(destination: str) -> None:
    """Remove a sink's file, or its table where the file holds others; a layer in memory needs nothing."""
    file = _file(destination)
    if file is None:
        return
    table = dict(part.partition("=")[::2] for part in destination.split("|")[1:]).get("layername", "")
    if not (table and _dropped(file, table)):
        for beside in ("", "-wal", "-shm", "-journal"):
            Path(str(file) + beside).unlink(missing_ok=True)


def _dropped(file: Path, table: str) -> bool:
    """Drop one table of a GeoPackage that holds others. False where there are none, or it is too broken to tell."""
    if file.suffix.lower() != ".gpkg":
        return False
    try:
        connection = QgsProviderRegistry.instance().providerMetadata("ogr").createConnection(str(file), {})
        names = [item.tableName() for item in connection.tables("")]
        if table in names and len(names) > 1:
            connection.dropVectorTable("", table)
        return len(names) > 1
    except QgsProviderConnectionException:
        return False
