"""Distances in the plane between shapes and a region: 0 where they touch or overlap, whatever their vertices."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import planar

WAYS = 64
_ANGLES = 2.0 * np.pi * np.arange(WAYS) / WAYS
_WAYS = np.stack([np.cos(_ANGLES), np.sin(_ANGLES)], axis=1)


class Shapes(NamedTuple):
    """S shapes of the plane, any one unit: points, lines, or areas whose rings fill by the even-odd rule.

    starts, ends (E, 2) of their edges, a point being an edge of no length and rings closed; owner (E,), ascending, the
    shape of each; filled (S,), whether a shape has an inside. Each shape has an edge.
    """

    starts: np.ndarray
    ends: np.ndarray
    owner: np.ndarray
    filled: np.ndarray

    def taken(self, index) -> Shapes:
        """The shapes of an ascending index."""
        index = np.asarray(index, dtype=np.int64)
        number = np.full(len(self.filled), -1, dtype=np.int64)
        number[index] = np.arange(len(index))
        keep = number[self.owner] >= 0
        return Shapes(self.starts[keep], self.ends[keep], number[self.owner[keep]], self.filled[index])


def polygons(rings: list[list[np.ndarray]]) -> Shapes:
    """Filled shapes. Parameters: S lists of open or closed rings (K, 2). Returns: Shapes.

    Errors: ValueError for a polygon without a vertex.
    """
    starts, ends, owner = [], [], []
    for i, polygon in enumerate(rings):
        if not sum(len(ring) for ring in polygon):
            raise ValueError(f"polygon {i} has no vertex")
        for ring in polygon:
            ring = np.asarray(ring, dtype=np.float64).reshape(-1, 2)
            starts.append(ring)
            ends.append(np.roll(ring, -1, axis=0))
            owner.append(np.full(len(ring), i, dtype=np.int64))
    return Shapes(np.concatenate(starts), np.concatenate(ends), np.concatenate(owner), np.full(len(rings), True))


def quads(corners) -> Shapes:
    """Filled shapes of equally many corners. Parameters: (S, K, 2), in order round each. Returns: Shapes."""
    corners = np.asarray(corners, dtype=np.float64)
    count, k = corners.shape[:2]
    ends = np.roll(corners, -1, axis=1)
    owner = np.repeat(np.arange(count), k)
    return Shapes(corners.reshape(-1, 2), ends.reshape(-1, 2), owner, np.full(count, True))


class Region:
    """The union of shapes, to which distances are measured."""

    def __init__(self, of: Shapes):
        self.shapes = of
        self._fills = of.filled[of.owner]
        self.corners = np.concatenate([of.starts, of.ends[~self._fills]])
        self._reach = (self.corners @ _WAYS.T).max(axis=0)

    def at_least(self, points) -> np.ndarray:
        """Distances that points are not below, quick to tell: to lines that touch the region from WAYS directions.

        About a convex region they fall short by a thousandth. Parameters: (N, 2). Returns: (N,), 0 or more; NaN for a
        point that is not finite.
        """
        points = np.asarray(points, dtype=np.float64).reshape(-1, 2)
        return np.maximum((points @ _WAYS.T - self._reach).max(axis=1), 0.0)

    def distance(self, points) -> np.ndarray:
        """Distances of points, 0 inside. Parameters: (N, 2). Returns: (N,); NaN for a point that is not finite."""
        points = np.asarray(points, dtype=np.float64).reshape(-1, 2)
        out = np.full(len(points), np.nan)
        good = np.flatnonzero(np.isfinite(points).all(axis=1))
        of, fills = self.shapes, self._fills
        within = planar.inside(points[good], of.starts[fills], of.ends[fills], of.owner[fills])
        out[good[within]] = 0.0
        rest = good[~within]
        out[rest] = planar.distances(points[rest], of.starts, of.ends)
        return out

    def distances(self, of: Shapes) -> np.ndarray:
        """Distances of shapes: of the nearest point of each to the nearest point of the region.

        Parameters: S shapes. Returns: (S,), 0 where they touch or overlap; NaN for one with a vertex that is none.
        """
        out = np.full(len(of.filled), np.inf)
        if not len(of.filled):
            return out
        np.minimum.at(out, of.owner, self.distance(of.starts))
        open_ = ~of.filled[of.owner]
        np.minimum.at(out, of.owner[open_], self.distance(of.ends[open_]))
        apart = np.flatnonzero(out > 0.0)
        if len(apart):
            out[apart] = np.fmin(out[apart], self._of_edges(of.taken(apart)))
        return out

    def _of_edges(self, of: Shapes) -> np.ndarray:
        """What corners do not tell: the region's corners beside the shapes' edges, crossings, the region inside."""
        out = np.full(len(of.filled), np.inf)
        nearest = planar.to_points(self.corners, of.starts, of.ends)
        nearest[planar.crossed(self.shapes.starts, self.shapes.ends, of.starts, of.ends)] = 0.0
        np.minimum.at(out, of.owner, nearest)
        out[planar.holders(self.corners, of.starts, of.ends, of.owner) & of.filled] = 0.0
        return out
