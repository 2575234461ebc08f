"""The raster of a DEM layer: blocks of cells in feet, and where cells lie. What is not known stays unknown."""

from __future__ import annotations

import numpy as np
from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsGeometry,
    QgsProcessingException,
    QgsRectangle,
)

from ...geometry.terrain_grid import Grid
from ...geometry.units import FT_M
from .texts import tr

UNIT_FT = {"m": 1.0 / FT_M, "ft": 1.0}
BAND = 1
LOWEST_FT, HIGHEST_FT = -500.0 / FT_M, 9000.0 / FT_M
"""No land lies outside (the shore of the Dead Sea -430 m, Mount Everest 8 849 m: common knowledge): such a cell is
the bed of the sea, a mark for missing data or a height in another unit, and its terrain is unknown."""

_NUMPY = {
    Qgis.DataType.Byte: "u1",
    Qgis.DataType.UInt16: "u2",
    Qgis.DataType.Int16: "i2",
    Qgis.DataType.UInt32: "u4",
    Qgis.DataType.Int32: "i4",
    Qgis.DataType.Float32: "f4",
    Qgis.DataType.Float64: "f8",
}
_LINE = np.dtype([("order", "u1"), ("type", "<u4"), ("points", "<u4")])


class RasterBlocks:
    """A raster layer's first band. unit, a key of UNIT_FT.

    columns, rows; dx, dy, size of a cell; x0, y0, the upper left corner; geographic, whether columns are longitudes.
    Make it in the main thread: it works on a copy of the layer's provider, and may then go to another thread.
    """

    def __init__(self, layer, unit: str, transform_context):
        self._provider = layer.dataProvider().clone()
        self._feet = UNIT_FT[unit]
        extent = self._provider.extent()
        self.columns, self.rows = self._provider.xSize(), self._provider.ySize()
        self.x0, self.y0 = extent.xMinimum(), extent.yMaximum()
        self.dx, self.dy = extent.width() / self.columns, extent.height() / self.rows
        wgs84 = QgsCoordinateReferenceSystem("EPSG:4326")
        self._transform = None
        if layer.crs() != wgs84:
            self._transform = QgsCoordinateTransform(wgs84, layer.crs(), transform_context)
        self.geographic = layer.crs().isGeographic()
        file = _opened(self._provider)
        self._gaps = [] if file is None else [gap for gap in (_SparseFile.of(file), _Mask.of(file)) if gap is not None]

    def grid(self) -> Grid:
        """The raster as geometry searches it."""
        turn = 360.0 / self.dx if self.geographic else 0.0
        return Grid(self.columns, self.rows, self.read, self._places, self._cells, turn)

    def read(self, column: int, row: int, width: int, height: int) -> np.ndarray:
        """Heights in feet (height, width) of a window that lies on the raster; NaN where there is none."""
        window = QgsRectangle(
            self.x0 + column * self.dx,
            self.y0 - (row + height) * self.dy,
            self.x0 + (column + width) * self.dx,
            self.y0 - row * self.dy,
        )
        block = self._provider.block(BAND, window, width, height)
        kind = _NUMPY.get(block.dataType())
        if not block.isValid() or kind is None or (block.width(), block.height()) != (width, height):
            why = block.error().summary() or tr("no heights")
            raise QgsProcessingException(tr("DEM cannot be read: {}").format(why))
        values = np.frombuffer(block.data().data(), dtype=kind, count=width * height).astype(np.float64)
        if block.hasNoDataValue():
            values[np.isclose(values, block.noDataValue(), rtol=1e-6, atol=0.0)] = np.nan
        elif block.hasNoData():
            values[[block.isNoData(i) for i in range(width * height)]] = np.nan
        values *= self._feet
        with np.errstate(invalid="ignore"):
            values[~((values >= LOWEST_FT) & (values <= HIGHEST_FT))] = np.nan
        values = values.reshape(height, width)
        for gap in self._gaps:
            gap.blank(values, column, row)
        return values

    def projected(self, lon: np.ndarray, lat: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Places in the raster's CRS; NaN where there are none."""
        return (lon, lat) if self._transform is None else transformed(self._transform, lon, lat)

    def back(self, x: np.ndarray, y: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Longitudes and latitudes of places in the raster's CRS; NaN where there are none."""
        if self._transform is None:
            return x, y
        return transformed(self._transform, x, y, Qgis.TransformDirection.Reverse)

    def _places(self, column, row) -> tuple[np.ndarray, np.ndarray]:
        x = self.x0 + np.asarray(column, dtype=np.float64) * self.dx
        return self.back(x, self.y0 - np.asarray(row, dtype=np.float64) * self.dy)

    def _cells(self, lon, lat) -> tuple[np.ndarray, np.ndarray]:
        x, y = self.projected(np.asarray(lon, dtype=np.float64), np.asarray(lat, dtype=np.float64))
        if self.geographic and self._transform is not None:  # a transform forgets which turn a longitude was in
            x = x + 360.0 * np.round((lon - x) / 360.0)
        return (x - self.x0) / self.dx, (self.y0 - y) / self.dy


def _opened(provider):
    """GDAL's dataset behind a provider; None where there is none, or where its cells are not the provider's."""
    if provider.name() != "gdal":
        return None
    try:
        from osgeo import gdal

        dataset = gdal.Open(provider.dataSourceUri())
    except (ImportError, RuntimeError):
        return None
    if dataset is None or (dataset.RasterXSize, dataset.RasterYSize) != (provider.xSize(), provider.ySize()):
        return None
    _, _, turned, _, aside, down = dataset.GetGeoTransform()
    return None if turned or aside or down > 0.0 else dataset  # QGIS warps such a raster


class _Mask:
    """A mask or an alpha band beside the heights: what it leaves out has a figure too, mostly 0, and is not known."""

    def __init__(self, dataset, band):
        self._dataset, self._band = dataset, band

    @classmethod
    def of(cls, dataset) -> _Mask | None:
        """The mask of a dataset; None where all is valid or only a figure stands for what is not."""
        from osgeo import gdal

        for number in range(BAND + 1, dataset.RasterCount + 1):  # of heights in other types than bytes GDAL has no mask
            if dataset.GetRasterBand(number).GetColorInterpretation() == gdal.GCI_AlphaBand:
                return cls(dataset, dataset.GetRasterBand(number))
        heights = dataset.GetRasterBand(BAND)
        if heights.GetMaskFlags() & (gdal.GMF_ALL_VALID | gdal.GMF_NODATA):
            return None
        return cls(dataset, heights.GetMaskBand())

    def blank(self, values: np.ndarray, column: int, row: int) -> None:
        """Make the heights of a window NaN where the mask leaves them out."""
        from osgeo import gdal

        height, width = values.shape
        mask = self._band.ReadRaster(column, row, width, height, buf_type=gdal.GDT_Float64)
        values[np.frombuffer(mask, dtype=np.float64).reshape(height, width) == 0.0] = np.nan


class _SparseFile:
    """A file of which blocks may never have been written, or a mosaic with gaps: GDAL reads them as 0, but nothing is
    known there. Zeros that were written are zeros, though a file system may keep them as holes."""

    def __init__(self, dataset, empty: int):
        self._dataset, self._band, self._empty = dataset, dataset.GetRasterBand(BAND), empty
        self._tiff = dataset.GetDriver().ShortName in ("GTiff", "COG")
        self._wide, self._high = self._band.GetBlockSize()

    @classmethod
    def of(cls, dataset) -> _SparseFile | None:
        """The gaps of a dataset; None where GDAL cannot say which blocks are there."""
        from osgeo import gdal

        if dataset.GetDriver().ShortName not in ("GTiff", "COG", "VRT"):
            return None
        return cls(dataset, gdal.GDAL_DATA_COVERAGE_STATUS_EMPTY)

    def blank(self, values: np.ndarray, column: int, row: int) -> None:
        """Make the heights of a window NaN where nothing was ever written."""
        height, width = values.shape
        if not self._is_empty(column, row, width, height):
            return
        for down in range(row // self._high, (row + height - 1) // self._high + 1):
            for across in range(column // self._wide, (column + width - 1) // self._wide + 1):
                x0, x1 = max(across * self._wide, column), min((across + 1) * self._wide, column + width)
                y0, y1 = max(down * self._high, row), min((down + 1) * self._high, row + height)
                if self._tiff:
                    gone = self._band.GetMetadataItem(f"BLOCK_OFFSET_{across}_{down}", "TIFF") is None
                else:
                    gone = self._is_empty(x0, y0, x1 - x0, y1 - y0)
                if gone:
                    values[y0 - row : y1 - row, x0 - column : x1 - column] = np.nan

    def _is_empty(self, column: int, row: int, width: int, height: int) -> bool:
        """Whether any of a window is empty in GDAL's eyes."""
        return bool(self._band.GetDataCoverageStatus(column, row, width, height)[0] & self._empty)


def problem(layer) -> str:
    """Why a raster layer gives no terrain, in a sentence; '' where it does."""
    if layer is None or not layer.isValid():
        return tr("DEM is not a raster that can be read; give a layer of terrain heights.")
    if not layer.crs().isValid():
        return tr("DEM has no coordinate reference system; set the layer's own first.")
    provider = layer.dataProvider()
    if provider.xSize() < 1 or provider.ySize() < 1:
        return tr("DEM has no cells of its own; give a raster of terrain heights, such as a GeoTIFF file.")
    if provider.dataType(BAND) not in _NUMPY:
        return tr("DEM has no heights in its first band; give a raster of one number a cell.")
    return ""


def transformed(
    transform: QgsCoordinateTransform, x, y, direction=Qgis.TransformDirection.Forward
) -> tuple[np.ndarray, np.ndarray]:
    """Places transformed, all at once as one line; where that fails, one by one, NaN for those that cannot be."""
    out_x, out_y = np.full(x.shape, np.nan), np.full(x.shape, np.nan)
    known = np.flatnonzero(np.isfinite(x) & np.isfinite(y))
    if not len(known):
        return out_x, out_y
    line = QgsGeometry()
    head = np.array([(1, 2, len(known))], dtype=_LINE).tobytes()
    line.fromWkb(head + np.column_stack([x[known], y[known]]).astype("<f8").tobytes())
    try:
        line.transform(transform, direction)
    except QgsCsException:
        for i in known:
            try:
                place = transform.transform(x[i], y[i], direction)
                out_x[i], out_y[i] = place.x(), place.y()
            except QgsCsException:
                continue
    else:
        places = np.frombuffer(line.asWkb().data(), dtype="<f8", offset=_LINE.itemsize).reshape(-1, 2)
        out_x[known], out_y[known] = places[:, 0], places[:, 1]
    bad = ~(np.isfinite(out_x) & np.isfinite(out_y))
    out_x[bad], out_y[bad] = np.nan, np.nan
    return out_x, out_y
