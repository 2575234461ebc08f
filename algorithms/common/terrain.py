"""Terrain heights out of a raster layer: only tiles that a path touches are read, and unknown cells stay unknown."""

from __future__ import annotations

from collections import OrderedDict

import numpy as np

from ...geometry import geodesy
from .rasterblocks import RasterBlocks, problem

__all__ = ["RasterTerrain", "problem"]

REACH_CELLS = 0.25
"""How far from a place cells are looked at: half of the widest distance of samples on a path."""
TILE_CELLS, TILES_KEPT = 256, 64


class RasterTerrain:
    """Heights of a raster layer's first band. unit, a key of UNIT_FT.

    Make it in the main thread: it works on a copy of the layer's provider, and may then go to another thread.
    """

    def __init__(self, layer, unit: str, transform_context):
        self._raster = RasterBlocks(layer, unit, transform_context)
        self._columns, self._rows = self._raster.columns, self._raster.rows
        self._x0, self._y0, self._dx, self._dy = (getattr(self._raster, name) for name in ("x0", "y0", "dx", "dy"))
        self._geographic = self._raster.geographic
        self._round_the_earth = self._geographic and abs(self._columns * self._dx - 360.0) < self._dx / 2.0
        self._tiles: OrderedDict[tuple[int, int], np.ndarray] = OrderedDict()

    def cells(self, lon, lat) -> tuple[np.ndarray, np.ndarray]:
        """The shorter side and the diagonal of a cell at places, NM; NaN where there is none."""
        lon, lat = np.asarray(lon, dtype=np.float64), np.asarray(lat, dtype=np.float64)
        x, y = self._projected(lon, lat)
        half_x, half_y = self._dx / 2.0, self._dy / 2.0
        with np.errstate(invalid="ignore"):
            if self._geographic:  # cells beyond a pole are none
                y = np.clip(y, -90.0 + half_y, 90.0 - half_y)
        corners = [self._raster.back(x + i * half_x, y + j * half_y) for i in (-1, 1) for j in (-1, 1)]
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
        x, y = self._raster.projected(lon, lat)
        if self._geographic:
            x = self._x0 + np.mod(x - self._x0, 360.0)
        return x, y

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
        self._tiles[key] = self._raster.read(left, top, width, height)
        if len(self._tiles) > TILES_KEPT:
            self._tiles.popitem(last=False)
        return self._tiles[key]


def _apart_nm(one, two) -> np.ndarray:
    return geodesy.inverse(*one, *two)[2]
