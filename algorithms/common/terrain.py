"""Terrain heights out of a raster layer: only tiles that a path touches are read, and unknown cells stay unknown."""

from __future__ import annotations

from collections import OrderedDict

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

from ...geometry import geodesy
from ...geometry.units import FT_M
from .texts import tr

UNIT_FT = {"m": 1.0 / FT_M, "ft": 1.0}
BAND = 1
REACH_CELLS = 0.25
"""How far from a place cells are looked at: half of the widest distance of samples on a path."""
TILE_CELLS, TILES_KEPT = 256, 64
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


class RasterTerrain:
    """Heights of a raster layer's first band. unit, a key of UNIT_FT.

    Make it in the main thread: it works on a copy of the layer's provider, and may then go to another thread.
    """

    def __init__(self, layer, unit: str, transform_context):
        self._provider = layer.dataProvider().clone()
        self._feet = UNIT_FT[unit]
        extent = self._provider.extent()
        self._columns, self._rows = self._provider.xSize(), self._provider.ySize()
        self._x0, self._y0 = extent.xMinimum(), extent.yMaximum()
        self._dx, self._dy = extent.width() / self._columns, extent.height() / self._rows
        wgs84 = QgsCoordinateReferenceSystem("EPSG:4326")
        self._transform = None
        if layer.crs() != wgs84:
            self._transform = QgsCoordinateTransform(wgs84, layer.crs(), transform_context)
        self._geographic = layer.crs().isGeographic()
        self._round_the_earth = self._geographic and abs(extent.width() - 360.0) < self._dx / 2.0
        self._tiles: OrderedDict[tuple[int, int], np.ndarray] = OrderedDict()

    def cells(self, lon, lat) -> tuple[np.ndarray, np.ndarray]:
        """The shorter side and the diagonal of a cell at places, NM; NaN where there is none."""
        lon, lat = np.asarray(lon, dtype=np.float64), np.asarray(lat, dtype=np.float64)
        x, y = self._projected(lon, lat)
        half_x, half_y = self._dx / 2.0, self._dy / 2.0
        with np.errstate(invalid="ignore"):
            if self._geographic:  # cells beyond a pole are none
                y = np.clip(y, -90.0 + half_y, 90.0 - half_y)
        corners = [self._back(x + i * half_x, y + j * half_y) for i in (-1, 1) for j in (-1, 1)]
        (a, b), (c, d) = corners[:2], corners[2:]  # west, from south to north, and east
        sides = [_apart_nm(*pair) for pair in ((a, b), (c, d), (a, c), (b, d))]
        return np.min(sides, axis=0), np.maximum(_apart_nm(a, d), _apart_nm(b, c))

    def highest_ft(self, lon, lat) -> np.ndarray:
        """Height of the highest cell within REACH_CELLS of places, feet; NaN where one of them is unknown."""
        x, y = self._projected(np.asarray(lon, dtype=np.float64), np.asarray(lat, dtype=np.float64))
        column, row = (x - self._x0) / self._dx, (self._y0 - y) / self._dy
        reach = (-REACH_CELLS, REACH_CELLS)
        heights = [self._cell_ft(np.floor(column + i), np.floor(row + j)) for i in reach for j in reach]
        return np.max(heights, axis=0)  # NaN where one of them is

    def _projected(self, lon: np.ndarray, lat: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Places in the raster's CRS; NaN where there are none. Longitudes count from the raster's west edge."""
        x, y = (lon, lat) if self._transform is None else _transformed(self._transform, lon, lat)
        if self._geographic:
            x = self._x0 + np.mod(x - self._x0, 360.0)
        return x, y

    def _back(self, x: np.ndarray, y: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        if self._transform is None:
            return x, y
        return _transformed(self._transform, x, y, Qgis.TransformDirection.Reverse)

    def _cell_ft(self, column: np.ndarray, row: np.ndarray) -> np.ndarray:
        """Heights of cells; NaN outside the raster and where there is no height."""
        out = np.full(column.shape, np.nan)
        if self._round_the_earth:
            column = np.mod(column, self._columns)
        with np.errstate(invalid="ignore"):
            inside = (column >= 0) & (column < self._columns) & (row >= 0) & (row < self._rows)
        place = np.flatnonzero(inside)
        column, row = column[place].astype(np.int64), row[place].astype(np.int64)
        wide = self._columns // TILE_CELLS + 1
        tile = (row // TILE_CELLS) * wide + column // TILE_CELLS
        for number in np.unique(tile):
            here = tile == number
            heights = self._tile(int(number // wide), int(number % wide))
            out[place[here]] = heights[row[here] % TILE_CELLS, column[here] % TILE_CELLS]
        return out

    def _tile(self, down: int, across: int) -> np.ndarray:
        key = (down, across)
        if key in self._tiles:
            self._tiles.move_to_end(key)
            return self._tiles[key]
        left, top = across * TILE_CELLS, down * TILE_CELLS
        width, height = min(TILE_CELLS, self._columns - left), min(TILE_CELLS, self._rows - top)
        window = QgsRectangle(
            self._x0 + left * self._dx,
            self._y0 - (top + height) * self._dy,
            self._x0 + (left + width) * self._dx,
            self._y0 - top * self._dy,
        )
        self._tiles[key] = self._read(window, width, height)
        if len(self._tiles) > TILES_KEPT:
            self._tiles.popitem(last=False)
        return self._tiles[key]

    def _read(self, window: QgsRectangle, width: int, height: int) -> np.ndarray:
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
        return values.reshape(height, width)


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


def _apart_nm(one, two) -> np.ndarray:
    return geodesy.inverse(*one, *two)[2]


def _transformed(
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
