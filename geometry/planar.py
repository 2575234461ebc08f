"""Points, edges and rings in a plane, by numpy alone: what lies inside, what crosses, how far apart.

Edges are two arrays (E, 2), where each begins and ends; a point is an edge of no length. All in one unit.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

_CELLS_AT_A_TIME = 1_000_000
"""Pairs of edges looked at in one go: some 50 MB."""


class Nearest(NamedTuple):
    """Of each edge of a second set (B,): distance to the first set, 0 where they cross; the places (B, 2) on either."""

    distance: np.ndarray
    on_first: np.ndarray
    on_second: np.ndarray


def inside(points, starts, ends, polygon=None) -> np.ndarray:
    """Whether points lie inside any of several polygons, by the parity of crossings to the east: a ring in a ring of
    the same polygon is a hole.

    Parameters: points (P, 2); starts, ends (E, 2), the edges of closed rings; polygon (E,), rising, which each is of,
    default all of one. Returns: bool (P,); of a point on an edge either may come out.
    Source: common practice (even-odd rule).
    """
    points = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    out = np.zeros(len(points), dtype=bool)
    for rows, held in _held(points, starts, ends, polygon):
        out[rows] = held.any(axis=1)
    return out


def holders(points, starts, ends, polygon) -> np.ndarray:
    """Which of several polygons hold any of some points, as inside tells it.

    Parameters: as inside; each polygon has an edge. Returns: bool, one for each polygon in the order of its edges.
    """
    points, polygon = np.asarray(points, dtype=np.float64).reshape(-1, 2), np.asarray(polygon)
    out = np.zeros(int(np.count_nonzero(np.diff(polygon))) + 1 if len(polygon) else 0, dtype=bool)
    for _, held in _held(points, starts, ends, polygon):
        out |= held.any(axis=0)
    return out


def _held(points, starts, ends, polygon):
    """Rows of points, some at a time, and whether each polygon holds them: slice, bool (rows, polygons)."""
    starts, ends = (np.asarray(a, dtype=np.float64).reshape(-1, 2) for a in (starts, ends))
    if not len(starts):
        return
    begins = np.zeros(1, dtype=np.int64)
    if polygon is not None:
        begins = np.flatnonzero(np.concatenate([[True], np.diff(polygon) != 0]))
    (x0, y0), (x1, y1) = starts.T, ends.T
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = (x1 - x0) / (y1 - y0)
    for rows in _pieces(len(points), len(starts)):
        x, y = (points[rows, k, np.newaxis] for k in (0, 1))
        spans = (y0 > y) != (y1 > y)
        with np.errstate(invalid="ignore"):
            east = x < x0 + (y - y0) * slope
        yield rows, np.add.reduceat(spans & east, begins, axis=1, dtype=np.int64) % 2 == 1


def _pieces(rows: int, columns: int) -> list[slice]:
    """Rows in pieces that make no more than _CELLS_AT_A_TIME pairs with the columns."""
    step = max(1, _CELLS_AT_A_TIME // max(columns, 1))
    return [slice(i, min(i + step, rows)) for i in range(0, rows, step)]


def point_to_edges(points, starts, ends) -> tuple[np.ndarray, np.ndarray]:
    """Distances from points to edges, and how far along each edge its nearest place lies.

    Parameters: points (P, 2); starts, ends (E, 2). Returns: distance (P, E); share 0 to 1 (P, E).
    """
    along = ends - starts
    length_2 = (along**2).sum(axis=1)
    x, y = points[:, 0, np.newaxis] - starts[:, 0], points[:, 1, np.newaxis] - starts[:, 1]
    share = np.clip((x * along[:, 0] + y * along[:, 1]) / np.where(length_2 > 0.0, length_2, 1.0), 0.0, 1.0)
    return np.hypot(x - share * along[:, 0], y - share * along[:, 1]), share


def distances(points, starts, ends) -> np.ndarray:
    """Distance of each point (P, 2) to the nearest of edges (E, 2), E > 0. Returns: (P,)."""
    out = np.empty(len(points))
    for part in _pieces(len(points), len(starts)):
        out[part] = point_to_edges(points[part], starts, ends)[0].min(axis=1)
    return out


def to_points(points, starts, ends) -> np.ndarray:
    """Distance of each of some edges (E, 2) to the nearest of points (P, 2), P > 0. Returns: (E,)."""
    out = np.empty(len(starts))
    for part in _pieces(len(starts), len(points)):
        out[part] = point_to_edges(points, starts[part], ends[part])[0].min(axis=0)
    return out


def crossed(first_starts, first_ends, second_starts, second_ends) -> np.ndarray:
    """Whether each edge of a second set crosses any of the first inside both; those that only touch are 0 apart by
    their ends. Parameters: as nearest. Returns: bool (B,)."""

    def side(p, q, r):
        return (q[..., 0] - p[..., 0]) * (r[..., 1] - p[..., 1]) - (q[..., 1] - p[..., 1]) * (r[..., 0] - p[..., 0])

    c, d = first_starts, first_ends
    out = np.zeros(len(second_starts), dtype=bool)
    for rows in _pieces(len(second_starts), len(c)):
        a, b = second_starts[rows][:, np.newaxis], second_ends[rows][:, np.newaxis]
        out[rows] = ((side(a, b, c) * side(a, b, d) < 0.0) & (side(c, d, a) * side(c, d, b) < 0.0)).any(axis=1)
    return out


def nearest(first_starts, first_ends, second_starts, second_ends) -> Nearest:
    """How near each edge of a second set comes to any of the first.

    The least distance of two edges that do not cross is from an end of one to the other. Parameters: (A, 2) twice,
    A > 0; (B, 2) twice. Returns: Nearest. Source: common practice (plane geometry).
    """
    a0, a1, b0, b1 = (np.asarray(x, dtype=np.float64) for x in (first_starts, first_ends, second_starts, second_ends))
    out = Nearest(np.full(len(b0), np.inf), np.full((len(b0), 2), np.nan), np.full((len(b0), 2), np.nan))
    for part in _pieces(len(b0), len(a0)):
        _nearest(a0, a1, b0[part], b1[part], Nearest(*(values[part] for values in out)))
    return out


def _nearest(a0, a1, b0, b1, out: Nearest) -> None:
    for points in (a0, a1):
        apart, share = point_to_edges(points, b0, b1)
        row = apart.argmin(axis=0)
        column = np.arange(len(b0))
        _keep(out, apart[row, column], points[row], _between(b0, b1, share[row, column]))
    for points in (b0, b1):
        apart, share = point_to_edges(points, a0, a1)
        column, row = apart.argmin(axis=1), np.arange(len(b0))
        _keep(out, apart[row, column], _between(a0[column], a1[column], share[row, column]), points)
    cross, share = _crossing(a0, a1, b0, b1)
    row, met = cross.argmax(axis=0), cross.any(axis=0)
    place = _between(b0, b1, np.where(met, share[row, np.arange(len(b0))], 0.0))
    _keep(out, np.where(met, 0.0, np.inf), place, place)


def _keep(out: Nearest, distance: np.ndarray, first: np.ndarray, second: np.ndarray) -> None:
    better = distance < out.distance
    for values, found in zip(out, (distance, first, second)):
        values[better] = found[better]


def _between(starts: np.ndarray, ends: np.ndarray, share: np.ndarray) -> np.ndarray:
    return starts + (ends - starts) * share[:, np.newaxis]


def _crossing(a0, a1, b0, b1) -> tuple[np.ndarray, np.ndarray]:
    """Which edges cross inside both, (A, B), and how far along the second."""
    along_a, along_b = (a1 - a0)[:, np.newaxis], b1 - b0
    apart = b0 - a0[:, np.newaxis]
    turn = along_a[..., 0] * along_b[:, 1] - along_a[..., 1] * along_b[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        on_a = (apart[..., 0] * along_b[:, 1] - apart[..., 1] * along_b[:, 0]) / turn
        on_b = (apart[..., 0] * along_a[..., 1] - apart[..., 1] * along_a[..., 0]) / turn
        cross = (turn != 0.0) & (on_a >= 0.0) & (on_a <= 1.0) & (on_b >= 0.0) & (on_b <= 1.0)
    return cross, np.where(cross, on_b, 0.0)
