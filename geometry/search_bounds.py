"""What can be said of an area at very many places without looking closely: the least that terrain, obstacles and
airspace ask for there.

An area of one shape is moved about in one plane. Things around it are marks: points within a known distance of which
something lies. How far the area is from any point of its own frame is tabulated once, so that a place costs a look-up.
What comes out is never more than what a close look finds, so a place that fails here fails.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from . import clearances, geodesy, nearness, planar, shapes
from .clearances import Clearances
from .nearness import Region
from .terrain_grid import SPANS, Grid, greatest

STEP_NM = 0.3
"""Distance of the places at which the distance from the area is tabulated."""
SLACK_NM = 0.1
"""More than what the one plane is off near any place of it, up to FARTHEST_NM from its middle, and what the outline
that is tabulated lies off the true one."""
FARTHEST_NM = 350.0
THIN_NM = 0.4
"""How finely the outline of the area is taken."""
BLOCK_NM = 0.6
"""Cells of terrain are taken together into blocks with sides up to this."""
SAMPLE_NM = 0.5
"""Edges of airspace are marked at distances up to this."""
_BIN_NM = 3.0
_EDGE_M = 10.0
"""How far an edge, cut for the plane, may lie off itself."""
_MARGIN = 1.05
"""What sampled sizes of cells may fall short by."""


class Frames(NamedTuple):
    """N frames in the plane at a place: origin (N, 2), NM east and north; to_frame (N, 2, 2), plane to u, s."""

    origin: np.ndarray
    to_frame: np.ndarray


def frames(middle: tuple[float, float], lon, lat, inbound_true_deg, side, reach_nm: float) -> Frames:
    """The frames of holds as laid into one plane; within reach_nm they are straight to SLACK_NM.

    Parameters: middle, lon and lat of the plane; lon, lat, inbound_true_deg, side (N,) as of geodesy.place; reach_nm
    > 0. Returns: Frames. Derived here: the azimuthal equidistant plane is nearly straight over a hold.
    """
    u, s = np.array([0.0, 1.0, -1.0, 0.0, 0.0]) * reach_nm, np.array([0.0, 0.0, 0.0, 1.0, -1.0]) * reach_nm
    at = [np.asarray(a, dtype=np.float64)[:, np.newaxis] for a in (lon, lat, inbound_true_deg, side)]
    x, y = geodesy.place(*at, u, s)
    points = shapes.to_plane(*middle, np.stack([x.ravel(), y.ravel()], axis=1)).reshape(len(x), 5, 2)
    axes = np.stack([points[:, 1] - points[:, 2], points[:, 3] - points[:, 4]], axis=2) / (2.0 * reach_nm)
    return Frames(points[:, 0], np.linalg.inv(axes))


class Table:
    """How far an area lies from places of its frame, tabulated to a reach.

    polygons_nm, the area: polygons of rings (K, 2); reach_nm > 0.
    """

    def __init__(self, polygons_nm: list, reach_nm: float):
        region = Region(nearness.polygons([[thinned(ring) for ring in polygon] for polygon in polygons_nm]))
        self.reach_nm = float(np.hypot(*region.corners.T).max()) + reach_nm
        self.low = region.corners.min(axis=0) - reach_nm
        self.size = np.ceil((region.corners.max(axis=0) + reach_nm - self.low) / STEP_NM).astype(np.int64) + 1
        u, s = (self.low[k] + STEP_NM * np.arange(self.size[k]) for k in (0, 1))
        nodes = np.stack(np.meshgrid(u, s, indexing="ij"), axis=-1).reshape(-1, 2)
        values = region.distance(nodes).reshape(self.size) + STEP_NM * np.sqrt(0.5)
        values[[0, -1], :] = values[:, [0, -1]] = np.inf  # all that lies beyond falls on the rim
        self._values = values.ravel()

    def most_nm(self, x, y, at: Frames, i: int) -> np.ndarray:
        """Distances from the area at a place that points of the plane (K,) do not exceed (K,); infinity beyond the
        reach. at, i, the place."""
        (a, b), (c, d) = at.to_frame[i].tolist()
        x0, y0 = at.origin[i].tolist()
        x, y = (x - x0) / STEP_NM, (y - y0) / STEP_NM
        u, s = (a * x + b * y) + (0.5 - self.low[0] / STEP_NM), (c * x + d * y) + (0.5 - self.low[1] / STEP_NM)
        u, s = (np.clip(q, 0, n - 1).astype(np.int64) for q, n in zip((u, s), self.size))
        return self._values[u * self.size[1] + s]


def thinned(ring: np.ndarray) -> np.ndarray:
    """Some of the vertices of a ring, no more of them left out than lie within THIN_NM along it."""
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    before = np.floor(along / THIN_NM)
    keep = np.concatenate([[True], before[1:] != before[:-1]])
    keep[:-1] |= keep[1:]  # both ends of a long edge stay
    return ring[keep] if keep.sum() > 2 else ring


class Marks:
    """Points of the plane (M, 2), each with something all of which lies within spread_nm of it and reaches width_nm
    farther; height_ft, of the highest of it, -inf where none is known; unknown, whether a height is missing there."""

    def __init__(self, points, spread_nm, width_nm=0.0, height_ft=-np.inf, unknown=False):
        points = np.asarray(points, dtype=np.float64).reshape(-1, 2)
        good = np.isfinite(points).all(axis=1)
        columns = [np.broadcast_to(a, good.shape)[good] for a in (spread_nm, width_nm, height_ft, unknown)]
        points = points[good]
        cell = np.floor(points / _BIN_NM).astype(np.int64)
        self._low = cell.min(axis=0) if len(cell) else np.zeros(2, dtype=np.int64)
        self._wide = int(cell[:, 0].max() - self._low[0]) + 1 if len(cell) else 1
        key = (cell[:, 1] - self._low[1]) * self._wide + cell[:, 0] - self._low[0]
        order = np.argsort(key, kind="stable")
        self._key = key[order]
        self.x, self.y = (np.ascontiguousarray(points[order, k]) for k in (0, 1))
        self.spread_nm, self.width_nm, self.height_ft, self.unknown = (a[order] for a in columns)
        self.more_nm = self.spread_nm - self.width_nm + SLACK_NM
        self.farthest_nm = float((self.spread_nm + self.width_nm).max()) if len(cell) else 0.0

    def __len__(self) -> int:
        return len(self.x)

    def about(self, place: np.ndarray, reach_nm: float) -> np.ndarray:
        """Indices of marks, all that lie within a reach of a place among them."""
        low, high = (np.floor((place + d) / _BIN_NM).astype(np.int64) - self._low for d in (-reach_nm, reach_nm))
        x0, x1 = max(int(low[0]), 0), min(int(high[0]), self._wide - 1)
        if x1 < x0 or high[1] < 0:
            return np.zeros(0, dtype=np.int64)
        rows = np.arange(max(int(low[1]), 0), int(high[1]) + 1) * self._wide
        begin, end = np.searchsorted(self._key, rows + x0), np.searchsorted(self._key, rows + x1, side="right")
        return shapes.ranges(begin, end)[0]


def least_required_ft(marks: Marks, table: Table, rings: Clearances, at: Frames, i: int) -> tuple[float, bool]:
    """The least altitude that marks ask for at a place, and whether a height is surely missing within reach.

    Parameters: marks; table, of the area; rings about it; at, i, the place. Returns: feet, -inf for none; bool.
    """
    index, far = _far(marks, table, at, i)
    height, missing = marks.height_ft[index], bool((marks.unknown[index] & (far <= rings.reach_nm)).any())
    most = float(clearances.moc_ft(rings, 0.0))
    inner = far <= rings.to_nm[min(1, len(rings.to_nm) - 1)]
    best = height[inner].max(initial=-np.inf) + float(clearances.moc_ft(rings, far[inner].max(initial=0.0)))
    rest = (height + most > best) & (far <= rings.reach_nm)
    required = height[rest] + clearances.moc_ft(rings, far[rest])
    return float(required.max(initial=best)), missing


def most_apart_nm(marks: Marks, table: Table, at: Frames, i: int) -> float:
    """A distance that the nearest mark's thing does not exceed at a place; infinity where none is within reach."""
    return float(_far(marks, table, at, i)[1].min(initial=np.inf))


def _far(marks: Marks, table: Table, at: Frames, i: int) -> tuple[np.ndarray, np.ndarray]:
    """Marks about a place, and the distance that the nearest point of the farthest of each's thing does not exceed."""
    index = marks.about(at.origin[i], table.reach_nm)
    far = table.most_nm(marks.x[index], marks.y[index], at, i)
    far += marks.more_nm[index]
    return index, np.maximum(far, 0.0, out=far)


def highest_ft(marks: Marks, at: Frames, i: int, reach_nm: float, box: np.ndarray) -> float:
    """A height that no ground exceeds within a reach of a place, on either axis, and within a box of the plane.

    Parameters: marks, of terrain; at, i, the place; reach_nm; box, least and greatest x and y [[x, y], [x, y]].
    Returns: feet, -inf where no ground lies there; NaN where any is unknown.
    """
    low, high = np.maximum(at.origin[i] - reach_nm, box[0]), np.minimum(at.origin[i] + reach_nm, box[1])
    index = marks.about(at.origin[i], reach_nm + marks.farthest_nm)
    wide, x, y = marks.spread_nm[index] + SLACK_NM, marks.x[index], marks.y[index]
    there = (x >= low[0] - wide) & (x <= high[0] + wide) & (y >= low[1] - wide) & (y <= high[1] + wide)
    index = index[there]
    if marks.unknown[index].any():
        return float("nan")
    return float(marks.height_ft[index].max(initial=-np.inf))


def boxes(of: shapes.Shapes, middle: tuple[float, float], more_nm: float) -> np.ndarray:
    """Boxes of shapes in the plane, as of highest_ft (S, 2, 2), widths counted in and more_nm all round."""
    out = np.empty((len(of), 2, 2))
    starts, ends, owner = _edges(of, middle)
    for k, (which, worst, sign) in enumerate(((np.minimum, np.inf, -1.0), (np.maximum, -np.inf, 1.0))):
        out[:, k] = worst
        for points in (starts, ends):
            which.at(out[:, k], owner, points)
        out[:, k] += sign * (of.width_nm + more_nm + SLACK_NM)[:, np.newaxis]
    return out


def terrain_marks(grid: Grid, middle: tuple[float, float], radius_nm: float, go_on: Callable[[float], bool]) -> Marks:
    """A raster's highest cells block by block, within a radius, read once; what lies off it is marked as unknown.

    Parameters: grid; middle, lon and lat of the plane; radius_nm > 0; go_on(share), false to stop. Returns: Marks.
    """
    window = _window(grid, middle, radius_nm)
    if window is None:
        return Marks(np.zeros((0, 2)), 0.0)
    left, right, top, bottom = window
    size = _cell_nm(grid, middle, window)
    span = SPANS[1]
    while span > 1 and span * size.max() > BLOCK_NM:
        span //= 2
    n = SPANS[0] // span
    inner = (np.arange(n) + 0.5) * span
    points, heights, unknown = [], [], []
    first, last = top // SPANS[0], bottom // SPANS[0]
    for down in range(first, last + 1):
        if not go_on((down - first) / (last + 1 - first)):
            break
        for across in range(left // SPANS[0], right // SPANS[0] + 1):
            row, column = np.meshgrid(down * SPANS[0] + inner, across * SPANS[0] + inner, indexing="ij")
            place = np.stack(grid.to_places(column.ravel(), row.ravel()), axis=1)
            place = shapes.to_plane(*middle, place)
            within = np.hypot(*place.T) <= radius_nm
            if not within.any():
                continue
            tile = grid.tile(across, down)
            points.append(place[within])
            heights.append(greatest(tile, span).ravel()[within])
            unknown.append(greatest(np.isnan(tile), span).ravel()[within])
    if not points:
        return Marks(np.zeros((0, 2)), 0.0)
    spread = float(np.hypot(*size)) * span * _MARGIN / 2.0
    return Marks(np.concatenate(points), spread, 0.0, np.concatenate(heights), np.concatenate(unknown))


def _window(grid: Grid, middle, radius_nm: float) -> tuple[int, int, int, int] | None:
    share = np.linspace(-1.0, 1.0, 33) * radius_nm * _MARGIN
    x, y = (a.ravel() for a in np.meshgrid(share, share))
    lon, lat, _ = geodesy.direct(*middle, np.degrees(np.arctan2(x, y)), np.hypot(x, y))
    column, row = grid.to_cells(lon, lat, middle[0])
    good = np.isfinite(column) & np.isfinite(row)
    if not good.any():
        return None
    sides = [f(a[good]) for a in (column, row) for f in (np.min, np.max)]
    return tuple(int(np.floor(a)) for a in sides)


def _cell_nm(grid: Grid, middle, window) -> np.ndarray:
    """Width and height that no cell near the middle exceeds, NM."""
    left, right, top, bottom = window
    c, r = (a.ravel() for a in np.meshgrid(np.linspace(left, right, 5), np.linspace(top, bottom, 5)))
    corner, beside, below = (np.stack(grid.to_places(c + i, r + j), axis=1) for i, j in ((0, 0), (1, 0), (0, 1)))
    sizes = [geodesy.inverse(*corner.T, *other.T)[2] for other in (beside, below)]
    return np.array([np.nanmax(np.where(np.isfinite(size), size, 0.0)) for size in sizes])


def obstacle_marks(boxes: shapes.Boxes, height_ft, middle: tuple[float, float]) -> Marks:
    """Obstacles by their boxes. Parameters: boxes (M,), widths counted in; height_ft (M,), NaN where unknown."""
    south, north = boxes.south, boxes.north
    points = shapes.to_plane(*middle, np.stack([boxes.lon, (south + north) / 2.0], axis=1))
    corners = [
        shapes.to_plane(*middle, np.stack([boxes.lon + i * boxes.half, lat], axis=1))
        for i in (-1.0, 1.0)
        for lat in (south, north)
    ]
    spread = np.max([np.hypot(*(corner - points).T) for corner in corners], axis=0) * _MARGIN
    height = np.asarray(height_ft, dtype=np.float64)
    return Marks(points, spread, 0.0, np.where(np.isfinite(height), height, -np.inf))


def edge_marks(of: shapes.Shapes, middle: tuple[float, float], radius_nm: float) -> Marks:
    """Edges of shapes within a radius, marked at distances up to SAMPLE_NM."""
    starts, ends, owner = _edges(of, middle)
    width, length = of.width_nm[owner], np.hypot(*(ends - starts).T)
    near = np.hypot(*((starts + ends) / 2.0).T) - length / 2.0 - width <= radius_nm
    starts, ends, length, width = starts[near], ends[near], length[near], width[near]
    pieces = np.maximum(1, np.ceil(length / SAMPLE_NM)).astype(np.int64)
    index, edge = shapes.ranges(np.zeros(len(pieces), dtype=np.int64), pieces)
    points = starts[edge] + ((index + 0.5) / pieces[edge])[:, np.newaxis] * (ends - starts)[edge]
    return Marks(points, (length / pieces)[edge] / 2.0, width[edge])


def inside(of: shapes.Shapes, middle: tuple[float, float], points: np.ndarray) -> np.ndarray:
    """Whether points of the plane (N, 2) lie within any of the shapes that are filled (N,)."""
    out = np.zeros(len(points), dtype=bool)
    for feature in np.flatnonzero(of.filled).tolist():
        one = taken(of, np.array([feature]))
        starts, ends, _ = _edges(one, middle)
        low, high = starts.min(axis=0), starts.max(axis=0)
        rest = np.flatnonzero(~out & ((points >= low) & (points <= high)).all(axis=1))
        if len(rest):
            out[rest] = planar.inside(points[rest], starts, ends, _polygons(one))
    return out


def taken(of: shapes.Shapes, index: np.ndarray) -> shapes.Shapes:
    """The features of an index."""
    parts, feature = shapes.ranges(of.features[index], of.features[index + 1])
    points, part = shapes.ranges(of.parts[parts], of.parts[parts + 1])
    return shapes.Shapes(
        of.coords[points], _offsets(part, len(parts)), of.outer[parts], _offsets(feature, len(index)),
        of.filled[index], of.width_nm[index],
    )  # fmt: skip


def _offsets(owner: np.ndarray, count: int) -> np.ndarray:
    return np.concatenate([[0], np.cumsum(np.bincount(owner, minlength=count))]).astype(np.int64)


def _edges(of: shapes.Shapes, middle) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Edges in the plane, cut where they would not be straight: starts, ends (E, 2), the feature of each."""
    edges = shapes.edges(of)
    starts, ends, edge = shapes.cut_edges(edges.starts, edges.ends, _EDGE_M)
    owner = np.repeat(np.arange(len(of)), np.diff(edges.features))[edge]
    return shapes.to_plane(*middle, starts), shapes.to_plane(*middle, ends), owner


def _polygons(of: shapes.Shapes) -> np.ndarray:
    """The polygon of each edge that _edges gives."""
    edges = shapes.edges(of)
    return edges.polygon[shapes.cut_edges(edges.starts, edges.ends, _EDGE_M)[2]]
