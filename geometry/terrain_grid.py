"""A raster of terrain heights in tiles, with the highest of each block kept, so that few cells need to be looked at."""

from __future__ import annotations

from collections import OrderedDict
from typing import Callable

import numpy as np

from . import geodesy

SPANS = (256, 32, 4, 1)
"""Cells along a side of a tile, of a block, of a small block, and of a cell."""
TILES_KEPT = 256


class Grid:
    """A raster of terrain heights, read tile by tile when wanted.

    columns, rows: its size. read(column, row, width, height): feet (height, width), NaN where unknown.
    to_places(column, row): lon, lat of points counted in cells from the upper left corner. to_cells(lon, lat): back,
    NaN where there are none; where columns are longitudes, turn is how many make a whole turn, else 0.
    """

    def __init__(
        self, columns: int, rows: int, read: Callable, to_places: Callable, to_cells: Callable, turn: float = 0.0
    ):
        self.columns, self.rows, self.turn = columns, rows, turn
        self.around = abs(turn - columns) < 0.5
        self.to_places, self._to_cells, self._read = to_places, to_cells, read
        self._tiles: OrderedDict[tuple[int, int], np.ndarray] = OrderedDict()
        self._summaries: dict[tuple[int, int], tuple[np.ndarray, np.ndarray]] = {}
        self.tiles_read = 0

    def to_cells(self, lon, lat, middle: float) -> tuple[np.ndarray, np.ndarray]:
        """Columns and rows of places near a longitude, in one piece, on the side of the raster where it is nearer."""
        lon = geodesy.unwrap(lon, middle)
        column, row = self._to_cells(lon, lat)
        if self.turn:
            at, _ = self._to_cells(np.array([middle], dtype=np.float64), np.zeros(1))
            column = column - self.turn * np.round((at - self.columns / 2.0) / self.turn)
        return column, row

    def off(self, column, row) -> np.ndarray:
        """Whether cells lie off the raster."""
        aside = False if self.around else (column < 0) | (column >= self.columns)
        return aside | (row < 0) | (row >= self.rows)

    def number(self, column, row) -> np.ndarray:
        """Row numbers of cells: row by row from the upper left."""
        return row * self.columns + (np.mod(column, self.columns) if self.around else column)

    def least_number(self, column, row) -> np.ndarray:
        """A row number that no cell right of and below another goes below."""
        return row * self.columns + (0 if self.around else column)

    def meets(self, column, row, span: int) -> np.ndarray:
        """Whether any cell of squares of a side, by their upper left cells, lies on the raster."""
        aside = self.around or ((column < self.columns) & (column + span > 0))
        return aside & (row < self.rows) & (row + span > 0)

    def _holds(self, across: int, down: int) -> bool:
        return bool(self.meets(across * SPANS[0], down * SPANS[0], SPANS[0]))

    def tile(self, across: int, down: int) -> np.ndarray:
        """Heights of a tile, NaN where it is unknown or off the raster."""
        if not self._holds(across, down):
            return np.full((SPANS[0], SPANS[0]), np.nan)
        key = (across, down)
        if key in self._tiles:
            self._tiles.move_to_end(key)
            return self._tiles[key]
        self._tiles[key] = self._fetch(across, down)
        if len(self._tiles) > TILES_KEPT:
            self._tiles.popitem(last=False)
        return self._tiles[key]

    def summary(self, across: int, down: int) -> tuple[np.ndarray, np.ndarray]:
        """Highest heights of the blocks of a tile, -inf where there is none, and whether any cell is unknown."""
        if not self._holds(across, down):
            return _NO_HEIGHTS, _NO_HEIGHTS == -np.inf
        key = (across, down)
        if key not in self._summaries:
            heights = self.tile(across, down)
            self._summaries[key] = (greatest(heights, SPANS[1]), greatest(np.isnan(heights), SPANS[1]))
        return self._summaries[key]

    def _fetch(self, across: int, down: int) -> np.ndarray:
        span = SPANS[0]
        out = np.full((span, span), np.nan)
        top, bottom = down * span, min((down + 1) * span, self.rows)
        left, right = across * span, (across + 1) * span
        at = left
        while at < right:
            column = at % self.columns if self.around else at
            if not 0 <= column < self.columns:
                break
            width = min(right - at, self.columns - column)
            out[: bottom - top, at - left : at - left + width] = self._read(column, top, width, bottom - top)
            self.tiles_read += 1
            at += width
        return out


_NO_HEIGHTS = np.full((SPANS[0] // SPANS[1],) * 2, -np.inf)


def greatest(values: np.ndarray, span: int) -> np.ndarray:
    """The greatest of each block of a square (N, N): -inf for heights without any, true where any is true.

    Parameters: values, float with NaN or bool; span, side of a block, a divisor of N. Returns: (N / span, N / span).
    """
    n = len(values) // span
    cut = values.reshape(n, span, n, span)
    if values.dtype == bool:
        return cut.any(axis=(1, 3))
    return np.where(np.isnan(cut), -np.inf, cut).max(axis=(1, 3))
