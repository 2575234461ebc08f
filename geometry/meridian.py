"""Shapes in longitude and latitude cut at the 180th meridian, so that every part lies within [-180, 180].

Longitudes of a shape run on beyond 180. A cut's latitude (and M) is interpolated in degrees, since a layer draws the
chord between two vertices straight in degrees.
"""

from __future__ import annotations

from typing import Callable

import numpy as np

SNAP_DEG = 1e-11
"""A vertex within a micrometre of the meridian lies on it: a hair's breadth beyond must not become a sliver."""
FEWEST_IN_A_RING = 4
_TURN = np.array([360.0, 0.0, 0.0])


def split_line(line: np.ndarray) -> list[np.ndarray]:
    """A line beginning in [-180, 180) cut wherever it crosses the 180th meridian, its parts moved into range.

    Parameters: line (k, 2) or (k, 3), longitude, latitude and any measure. Returns: the parts in order. A line
    that only touches the meridian, or runs along it, is not cut there.
    """
    return _split(line, _cut_line)


def split_ring(ring: np.ndarray) -> list[np.ndarray]:
    """A closed simple ring, convex or not, cut like split_line; each part a closed ring, together the same area."""
    return _split(ring, _cut_ring)


def _split(shape: np.ndarray, cut: Callable[[np.ndarray, np.ndarray], list[np.ndarray]]) -> list[np.ndarray]:
    shape = shape.copy()
    lon = shape[:, 0]
    lon[np.abs(lon - 180.0) <= SNAP_DEG] = 180.0
    np.maximum(lon, -180.0, out=lon)
    side = np.sign(lon - 180.0)
    if not (side > 0.0).any():
        return [shape]
    if not (side < 0.0).any():
        return _split(shape - _TURN[: shape.shape[1]], cut)
    return [piece for part in cut(shape, side) for piece in _split(part, cut)]


def _crossing(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """Where the chord between two vertices meets the meridian; the same whichever comes first."""
    west, east = (a, b) if a[0] < b[0] else (b, a)
    point = west + (180.0 - west[0]) / (east[0] - west[0]) * (east - west)
    point[0] = 180.0
    return point


def _cut_line(line: np.ndarray, side: np.ndarray) -> list[np.ndarray]:
    """Parts of a line on either side; a vertex on the meridian belongs to the part before it."""
    off = np.flatnonzero(side)
    last_off = np.maximum.accumulate(np.where(side != 0.0, np.arange(side.size), off[0]))
    belongs = side[last_off]
    parts, begin = [], line[:0]
    start = 0
    for i in np.flatnonzero(belongs[1:] != belongs[:-1]):
        point = line[i] if side[i] == 0.0 else _crossing(line[i], line[i + 1])
        inner = line[start : i + 1] if side[i] != 0.0 else line[start:i]
        parts.append(np.vstack([begin, inner, point]))
        begin, start = point[np.newaxis], i + 1
    parts.append(np.vstack([begin, line[start:]]))
    return parts


def _cut_ring(ring: np.ndarray, side: np.ndarray) -> list[np.ndarray]:
    return _half([(ring[:-1], side[:-1])], -1.0) + _half([(ring[:-1], side[:-1])], 1.0)


def split_polygon(rings: list[np.ndarray]) -> list[list[np.ndarray]]:
    """A polygon with holes cut like split_line: rings, the outer one first, each polygon of the result likewise.

    A hole across the meridian becomes part of the outer rings of the pieces; any other stays in the piece around it.
    """
    rings = [ring.copy() for ring in rings]
    for ring in rings:
        lon = ring[:, 0]
        lon[np.abs(lon - 180.0) <= SNAP_DEG] = 180.0
        np.maximum(lon, -180.0, out=lon)
    sides = [np.sign(ring[:, 0] - 180.0) for ring in rings]
    if not (sides[0] > 0.0).any():
        return [rings]
    if not (sides[0] < 0.0).any():
        return split_polygon([ring - _TURN[:2] for ring in rings])
    out = []
    for wanted in (-1.0, 1.0):
        broken, kept = [], []
        for ring, side in zip(rings, sides):
            one_sided = (side * wanted >= 0.0).all()
            if one_sided and np.count_nonzero(side[:-1] == 0.0) <= 1:
                kept.append(ring)
            elif (side == wanted).any():
                broken.append((ring[:-1], side[:-1]))
        for outer, holes in _around(_half(broken, wanted), kept):
            out += split_polygon([outer, *holes])
    return out


def _around(outers: list[np.ndarray], holes: list[np.ndarray]):
    """Each outer ring with the holes inside it."""
    owned: list[list[np.ndarray]] = [[] for _ in outers]
    for hole in holes:
        inside = [int(np.count_nonzero(_inside(outer, hole))) for outer in outers]
        owned[inside.index(max(inside))].append(hole)
    return zip(outers, owned)


def _inside(ring: np.ndarray, points: np.ndarray) -> np.ndarray:
    """Which points a closed ring goes round, by the number of its edges to the east of each."""
    (x1, y1), (x2, y2) = ring[:-1].T, ring[1:].T
    x, y = points[:, :1], points[:, 1:]
    spans = (y1 > y) != (y2 > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        meets = x1 + (y - y1) / (y2 - y1) * (x2 - x1)
    return np.count_nonzero(spans & (meets > x), axis=1) % 2 == 1


def _half(rings: list[tuple[np.ndarray, np.ndarray]], wanted: float) -> list[np.ndarray]:
    """Outer rings of the part of a polygon strictly on one side; rings: corners and their sides, holes among them.

    The rings' runs on that side each end on the meridian. Sorted along a line a hair inside it, the ends
    bound the interior in pairs; joining the pairs closes the runs to rings.
    """
    runs, ends = [], []
    for corners, side in rings:
        turn = int(np.flatnonzero(side != wanted)[0])
        corners, inside = np.roll(corners, -turn, axis=0), np.roll(side == wanted, -turn)
        on_meridian = np.roll(side == 0.0, -turn)
        steps = np.diff(np.concatenate([inside, [False]]).astype(np.int8))
        for first, last in zip(np.flatnonzero(steps == 1) + 1, np.flatnonzero(steps == -1)):
            before, after = first - 1, (last + 1) % len(corners)
            points = []
            for outer, inner in ((before, first), (after, last)):
                points.append(corners[outer] if on_meridian[outer] else _crossing(corners[outer], corners[inner]))
                d_lon, d_lat = corners[inner] - corners[outer]
                ends.append((points[-1][1], wanted * d_lat / d_lon, len(ends)))
            runs.append(np.vstack([points[0], corners[first : last + 1], points[1]]))
    return _joined(runs, [end for _, _, end in sorted(ends)])


def _joined(runs: list[np.ndarray], order: list[int]) -> list[np.ndarray]:
    """Runs closed to rings. End 2 k is the start of run k, 2 k + 1 its end; `order` lists them along the meridian."""
    partner: dict[int, int] = {}
    for a, b in zip(order[::2], order[1::2]):
        partner[a], partner[b] = b, a
    rings, left = [], set(range(len(runs)))
    while left:
        begin = end = 2 * min(left)
        points = []
        while True:
            left.discard(end // 2)
            points.append(runs[end // 2][:: -1 if end % 2 else 1])
            end = partner[end ^ 1]
            if end == begin:
                break
        ring = np.vstack([*points, points[0][:1]])
        ring = ring[np.concatenate([[True], np.any(ring[1:] != ring[:-1], axis=1)])]
        if len(ring) >= FEWEST_IN_A_RING:
            rings.append(ring)
    return rings
