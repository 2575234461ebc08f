"""The cells of a terrain raster near a region: which asks for the highest altitude, found without looking at them all.

Cells are closed rectangles of the raster, brought into the plane by their corners. A tile, a block of it or a cell
asks for no more than its highest height with the clearance of its nearest point, so what asks for less than a cell
already found is never opened. What is found is what a look at every cell would find.
"""

from __future__ import annotations

from typing import Callable, NamedTuple

import numpy as np

from . import geodesy, nearness
from .terrain_grid import SPANS, Grid, greatest

AT_ONCE = 6
"""Nodes that are opened in one step: enough for numpy, few enough not to open what need not be."""
_MARGIN = 1.02
"""What sampled sizes of cells and windows may fall short by; it costs time, never a cell."""
_TOUCH_NM = 1e-7
"""Within 0.2 mm things touch: rounding must not leave a cell out."""
_ALIKE_NM = 1e-4
"""Unknown cells whose distances differ by less are equally near."""
_FEW = 8
"""Squares along a side that a search begins with, at most, and into which a square larger than a tile is opened."""
_EDGE_M = 0.05
"""How far a straight edge of a cell in the plane may lie off the true one; wider cells get more corners."""


class Frame(NamedTuple):
    """The plane at a place: that of geodesy.place. lon, lat, inbound_true_deg, side."""

    lon: float
    lat: float
    inbound_true_deg: float = 0.0
    side: float = 1.0

    def places(self, uv) -> tuple[np.ndarray, np.ndarray]:
        """Longitudes and latitudes of points in NM (N, 2)."""
        return geodesy.place(*self, uv[..., 0], uv[..., 1])

    def points(self, lon, lat) -> np.ndarray:
        """Points in NM (N, 2) of places."""
        return np.stack(geodesy.to_frame(*self, lon, lat), axis=-1)


class Cell(NamedTuple):
    """A cell: column, row; height in feet, NaN where it is unknown; distance of its nearest point to the region, NM;
    what it asks for; its middle; whether it lies off the raster."""

    column: int
    row: int
    height_ft: float
    distance_nm: float
    required_ft: float
    lon: float
    lat: float
    off: bool


def highest(grid: Grid, frame: Frame, region: nearness.Region, asked_ft: Callable, reach_nm: float) -> Cell | None:
    """The cell near a region that asks for the highest altitude: its height and the clearance at its nearest point.

    Of equal ones the nearer, then the one with the lower row number. Unknown cells are left out: see unknown().
    Parameters: region in the frame, NM; asked_ft(distance_nm), clearance in feet, which never grows with the
    distance, NaN for none; reach_nm, beyond which it is none. Returns: Cell; None where no cell with a height is
    within reach. Derived here: branch and bound.
    """
    return _Search(grid, frame, region, asked_ft, reach_nm, False).best()


def unknown(grid: Grid, frame: Frame, region: nearness.Region, reach_nm: float) -> Cell | None:
    """A cell nearest to a region without a height, or off the raster; None where all within reach have one.

    Its distance is the least to 0.2 m. Parameters as for highest. Returns: Cell, its required_ft 0.
    """
    found = _Search(grid, frame, region, np.negative, reach_nm, True).best()
    return None if found is None else found._replace(height_ft=np.nan, required_ft=0.0)


class _Search:
    """One search. A node is a square of cells: level, column, row, a height it does not exceed.

    For unknown cells the height is 0 where there is one and -inf where not, and what is asked for is the nearness.
    """

    def __init__(self, grid: Grid, frame: Frame, region: nearness.Region, asked, reach_nm: float, unknown: bool):
        self.grid, self.frame, self.region = grid, frame, region
        self.asked, self.reach, self.unknown = asked, reach_nm, unknown
        self.best_key, self.found = (-np.inf, -np.inf, -np.inf), None

    def best(self) -> Cell | None:
        window = self._window()
        if window is None:
            return self._nowhere() if self.unknown else None
        self.window = window
        if self._size() is None:
            return self._nowhere() if self.unknown else None
        pool = self._first()
        while len(pool[0]):
            key = self._keys(pool)
            keep = self._beats(*key)
            pool = tuple(a[keep] for a in pool)
            if not len(pool[0]):
                break
            order = np.lexsort([k[keep] for k in key[::-1]])[::-1]
            opened, rest = order[:AT_ONCE], order[AT_ONCE:]
            children = self._open(tuple(a[opened] for a in pool))
            pool = tuple(np.concatenate([a[rest], b]) for a, b in zip(pool, children))
        return self.found

    # The window: the cells about the region's box

    def _window(self) -> tuple[int, int, int, int] | None:
        corners = self.region.corners
        low, high = corners.min(axis=0) - self.reach, corners.max(axis=0) + self.reach
        share = np.linspace(0.0, 1.0, 17)
        uv = np.stack(np.meshgrid(*(low[i] + share * (high[i] - low[i]) for i in (0, 1))), axis=-1).reshape(-1, 2)
        lon, lat = self.frame.places(uv)
        column, row = self.grid.to_cells(lon, lat, self.frame.lon)
        if not (np.isfinite(column).all() and np.isfinite(row).all()):
            return None
        out = []
        for values in (column, row):
            more = (_MARGIN - 1.0) * (values.max() - values.min()) + 1.0
            out += [int(np.floor(values.min() - more)), int(np.ceil(values.max() + more))]
        if self.grid.around and out[1] - out[0] > self.grid.columns:
            out[1] = out[0] + self.grid.columns
        return tuple(out)

    def _size(self) -> np.ndarray | None:
        """Width and height that no cell of the window exceeds, NM; None where the raster has no places there."""
        left, right, top, bottom = self.window
        c, r = (a.ravel() for a in np.meshgrid(np.linspace(left, right - 1, 5), np.linspace(top, bottom - 1, 5)))
        corner, beside, below = (self._points(c + i, r + j) for i, j in ((0, 0), (1, 0), (0, 1)))
        sizes = [np.hypot(*(other - corner).T) for other in (beside, below)]
        if not np.isfinite(sizes).any(axis=1).all():
            return None
        self.size = np.array([np.nanmax(size) for size in sizes]) * _MARGIN
        return self.size

    def _nowhere(self) -> Cell:
        """The whole region lies where the raster has no cells."""
        return Cell(-1, -1, np.nan, 0.0, 0.0, self.frame.lon, self.frame.lat, True)

    def _points(self, column, row) -> np.ndarray:
        return self.frame.points(*self.grid.to_places(column, row))

    # Nodes

    def _first(self):
        """Squares that cover the window: tiles, or larger ones where those would be very many."""
        left, right, top, bottom = self.window
        spans = list(SPANS)
        while max(right - left, bottom - top) > _FEW * spans[0]:
            spans.insert(0, _FEW * spans[0])
        self.spans, self.tiles = spans, len(spans) - len(SPANS)
        ranges = [np.arange(a // spans[0], (b - 1) // spans[0] + 1) for a, b in ((left, right), (top, bottom))]
        across, down = (a.ravel() for a in np.meshgrid(*ranges))
        return self._bounded(0, across * spans[0], down * spans[0], np.full(len(across), self._any()))

    def _any(self) -> float:
        """What a square may hold into which nobody has looked."""
        return 0.0 if self.unknown else np.inf

    def _with_heights(self, column, row, distance):
        """Tiles with the heights they do not exceed: these are read now, and no others."""
        span = SPANS[0]
        height = [self._heights(c // span, r // span).max() for c, r in zip(column.tolist(), row.tolist())]
        height = np.array(height, dtype=np.float64)
        keep = height > -np.inf
        return column[keep], row[keep], height[keep], distance[keep]

    def _heights(self, across: int, down: int) -> np.ndarray:
        """Heights that the blocks of a tile do not exceed."""
        highest, unknown = self.grid.summary(across, down)
        return np.where(unknown, 0.0, -np.inf) if self.unknown else highest

    def _open(self, nodes):
        """The children of nodes, bounded; cells are looked at at once and are no nodes any more."""
        columns, rows, heights, levels = [], [], [], []
        for level, column, row in zip(*(a.tolist() for a in nodes[:3])):
            inner = self._children(level, column, row)
            span = self.spans[level + 1]
            r, c = np.nonzero(inner > -np.inf)
            columns.append(column + c * span)
            rows.append(row + r * span)
            heights.append(inner[r, c])
            levels.append(np.full(len(r), level + 1))
        level, column, row, height = (np.concatenate(a) for a in (levels, columns, rows, heights))
        out = [tuple(a[:0] for a in nodes)]
        for each in np.unique(level).tolist():
            mine = level == each
            made = self._bounded(each, column[mine], row[mine], height[mine])
            if self.spans[each] == 1:
                self._look(*made[1:])
            else:
                out.append(made)
        return tuple(np.concatenate(a) for a in zip(*out))

    def _children(self, level: int, column: int, row: int) -> np.ndarray:
        """Heights that the squares within a node do not exceed."""
        if level < self.tiles:
            return np.full((_FEW, _FEW), self._any())
        across, down = column // SPANS[0], row // SPANS[0]
        if level == self.tiles:
            return self._heights(across, down)
        heights = self.grid.tile(across, down)
        c, r, span = column - across * SPANS[0], row - down * SPANS[0], self.spans[level]
        inner = heights[r : r + span, c : c + span]
        inner = np.where(np.isnan(inner), *((0.0, -np.inf) if self.unknown else (-np.inf, inner)))
        return inner if self.spans[level + 1] == 1 else greatest(inner, self.spans[level + 1])

    def _bounded(self, level: int, column, row, height):
        """Nodes within the window and within reach, each with a distance that none of its cells is nearer than."""
        left, right, top, bottom = self.window
        span = self.spans[level]
        c0, c1 = np.maximum(column, left), np.minimum(column + span, right)
        r0, r1 = np.maximum(row, top), np.minimum(row + span, bottom)
        good = (c0 < c1) & (r0 < r1)
        if not self.unknown:
            good &= self.grid.meets(column, row, span)
        good &= self._beats(height + self._most(np.zeros(len(height))), 0.0, -self.grid.least_number(column, row))
        column, row, height, c0, c1, r0, r1 = (a[good] for a in (column, row, height, c0, c1, r0, r1))
        radius = np.hypot((c1 - c0) * self.size[0], (r1 - r0) * self.size[1]) * (_MARGIN / 2.0)
        middle = self._points((c0 + c1) / 2.0, (r0 + r1) / 2.0)
        distance = np.maximum(self.region.at_least(middle) - radius, 0.0)
        near = distance <= self.reach + _TOUCH_NM  # a place that is none is near nothing
        column, row, height, distance = (a[near] for a in (column, row, height, distance))
        if level == self.tiles:
            column, row, height, distance = self._with_heights(column, row, distance)
        return np.full(len(column), level), column, row, height, distance

    def _most(self, distance) -> np.ndarray:
        asked = np.asarray(self.asked(distance), dtype=np.float64)
        return np.where(np.isnan(asked), -np.inf, asked)

    def _keys(self, nodes):
        _, column, row, height, distance = nodes
        return height + self._most(distance), -distance, -self.grid.least_number(column, row)

    def _beats(self, required, nearness_, number) -> np.ndarray:
        """Whether keys come before that of the cell found so far."""
        best = self.best_key
        if self.unknown:  # any of the nearest will do
            return required > best[0] + _ALIKE_NM
        same = required == best[0]
        nearer = (nearness_ > best[1]) | ((nearness_ == best[1]) & (number > best[2]))
        return (required > best[0]) | (same & nearer)

    # Cells

    def _look(self, column, row, height, bound) -> None:
        """Look at cells, the most promising first: each one's own distance decides."""
        most, number = height + self._most(bound), self.grid.number(column, row)
        order = np.lexsort((number, bound, -most))
        for begin in range(0, len(order), AT_ONCE):
            some = order[begin : begin + AT_ONCE]
            some = some[self._beats(most[some], -bound[some], -number[some])]
            if len(some):
                self._measure(column[some], row[some], height[some], number[some])

    def _measure(self, column, row, height, number) -> None:
        distance = self.region.distances(nearness.quads(self._corners(column, row)))
        distance = np.where(distance <= _TOUCH_NM, 0.0, distance)
        required = np.where(distance <= self.reach + _TOUCH_NM, height + self._most(distance), -np.inf)
        i = np.lexsort((number, distance, -required))[0]
        if required[i] > -np.inf and self._beats(required[i], -distance[i], -number[i]):
            self.best_key = (float(required[i]), -float(distance[i]), -float(number[i]))
            lon, lat = self.grid.to_places(column[i : i + 1] + 0.5, row[i : i + 1] + 0.5)
            self.found = Cell(
                int(column[i]), int(row[i]), float(height[i]), float(distance[i]), float(required[i]), float(lon[0]),
                float(lat[0]), bool(self.grid.off(column[i : i + 1], row[i : i + 1])[0]),
            )  # fmt: skip

    def _corners(self, column, row) -> np.ndarray:
        """Points round cells (N, K, 2): the corners, and more where an edge would be too far off straight."""
        longest = float(geodesy.longest_piece_nm(abs(self.frame.lat) + 1.0, _EDGE_M))
        pieces = max(1, int(np.ceil(self.size.max() / longest)))
        share = np.arange(pieces) / pieces
        one, none = np.ones(pieces), np.zeros(pieces)
        du = np.concatenate([share, one, 1.0 - share, none])
        dv = np.concatenate([none, share, one, 1.0 - share])
        points = self._points((column[:, None] + du).ravel(), (row[:, None] + dv).ravel())
        return points.reshape(len(column), -1, 2)
