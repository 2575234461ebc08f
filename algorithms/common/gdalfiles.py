"""Vector files by GDAL's drivers, made in memory: whole bytes come out, or an exception."""

from __future__ import annotations

import itertools
import os

from qgis.core import QgsProcessingException

from .texts import tr

_numbers = itertools.count()


class MemoryFile:
    """A file that a driver writes into memory, layer by layer. Use as a context; data() once, at the end."""

    def __init__(self, driver: str, ending: str):
        from osgeo import gdal, osr

        self._gdal = gdal
        self.driver = driver
        self._fields: dict[str, dict[str, int]] = {}
        self._path = f"/vsimem/fixwright-{os.getpid()}-{next(_numbers)}.{ending}"
        self._wgs84 = osr.SpatialReference()
        self._wgs84.ImportFromEPSG(4326)
        self._wgs84.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)

    def __enter__(self):
        self._gdal.PushErrorHandler("CPLQuietErrorHandler")
        self._file = self._called(
            lambda: self._gdal.GetDriverByName(self.driver).Create(self._path, 0, 0, 0, self._gdal.GDT_Unknown)
        )
        return self

    def __exit__(self, *error):
        self._file = None
        self._gdal.Unlink(self._path)
        self._gdal.PopErrorHandler()

    def layer(self, name: str, shape, fields: tuple[str, ...] = (), options: tuple[str, ...] = (), table: bool = False):
        """A new layer with further fields of text. shape: GDAL's code; table: without a reference system."""
        from osgeo import ogr

        made = self._called(lambda: self._file.CreateLayer(name, None if table else self._wgs84, shape, list(options)))
        for field in fields:
            self._done(lambda field=field: made.CreateField(ogr.FieldDefn(field, ogr.OFTString)))
        return made

    def write(self, layer, wkb: bytes | None, values: dict, style: str = "") -> None:
        """A feature: its shape, and its fields by name."""
        from osgeo import ogr

        shape = layer.GetLayerDefn()
        fields = self._fields.get(layer.GetName())
        if fields is None:
            names = (shape.GetFieldDefn(i).GetName() for i in range(shape.GetFieldCount()))
            fields = self._fields[layer.GetName()] = {name: i for i, name in enumerate(names)}
        feature = ogr.Feature(shape)
        for name, value in values.items():
            feature.SetField(fields[name], value)
        if style:
            feature.SetStyleString(style)
        if wkb is not None:
            feature.SetGeometryDirectly(ogr.CreateGeometryFromWkb(wkb))
        self._done(lambda: layer.CreateFeature(feature))

    def data(self) -> bytes:
        """Close the file and give what is in it."""
        self._file = None
        size = self._called(lambda: self._gdal.VSIStatL(self._path)).size
        file = self._called(lambda: self._gdal.VSIFOpenL(self._path, "rb"))
        try:
            return bytes(self._gdal.VSIFReadL(1, size, file))
        finally:
            self._gdal.VSIFCloseL(file)

    def _called(self, call):
        """What a call gives; GDAL tells of a failure by None, or by an exception where somebody asked for these."""
        try:
            made = call()
        except RuntimeError as error:
            raise self._failed(str(error)) from error
        if made is None:
            raise self._failed(self._gdal.GetLastErrorMsg())
        return made

    def _done(self, call) -> None:
        """As _called, for a call that gives 0 when it is good."""
        if self._called(call) != 0:
            raise self._failed(self._gdal.GetLastErrorMsg())

    def _failed(self, why: str) -> QgsProcessingException:
        return QgsProcessingException(tr("The {} file cannot be made: {}").format(self.driver, why or tr("unknown")))
