"""Polygons, lines and points on the earth, many at a time, as flat arrays.

An edge between two vertices is straight in longitude and latitude, as a layer in degrees draws it. Longitudes of a part
run on: an edge longer than half a turn goes the short way.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from . import geodesy
from .angles import wrap180

_NM_PER_DEGREE = 59.7
"""Below any degree of latitude, so that boxes in degrees never leave out what lies within a distance."""


class Shapes(NamedTuple):
    """F features of one or more parts: a ring each, a line, or a single point.

    coords (T, 2) lon (running on within a part), lat; rings closed. parts (P + 1,), where each begins in coords; outer
    (P,), false for a hole of the polygon before it. features (F + 1,), where each begins in parts. filled (F,), true
    for polygons. width_nm (F,), how far to either side of its lines and points a feature reaches.
    """

    coords: np.ndarray
    parts: np.ndarray
    outer: np.ndarray
    features: np.ndarray
    filled: np.ndarray
    width_nm: np.ndarray

    def __len__(self) -> int:
        return len(self.filled)


class Edges(NamedTuple):
    """Edges of features (E, 2): begin and end as lon, lat; features (F + 1,), where those of each begin; part (E,),
    polygon (E,), rising, which part and which polygon of all an edge is of."""

    starts: np.ndarray
    ends: np.ndarray
    features: np.ndarray
    part: np.ndarray
    polygon: np.ndarray


class Boxes(NamedTuple):
    """Bounds: middle longitude, half the width, least and greatest latitude, degrees."""

    lon: np.ndarray
    half: np.ndarray
    south: np.ndarray
    north: np.ndarray


def gather(features: Sequence[Sequence[Sequence]], *, filled, width_nm=0.0) -> Shapes:
    """Shapes from nested lists.

    Parameters: features, F lists of polygons, each a list of rings (M, 2) of lon, lat, the outer one first, open or
    closed; of a line or a point, a list of that one path. filled, true for polygons; width_nm >= 0, NaN as 0; both
    broadcast to (F,). Returns: Shapes. Errors: ValueError for a path without a vertex.
    """
    paths, outer, counts = [], [], []
    filled = np.broadcast_to(np.asarray(filled, dtype=bool), (len(features),))
    for feature, ring in zip(features, filled.tolist()):
        counts.append(sum(len(polygon) for polygon in feature))
        for polygon in feature:
            for k, path in enumerate(polygon):
                path = running_on(np.asarray(path, dtype=np.float64).reshape(-1, 2))
                if not len(path):
                    raise ValueError("a path of features has no vertex")
                if ring and (path[0] != path[-1]).any():
                    path = np.concatenate([path, path[:1]])
                paths.append(path)
                outer.append(k == 0)
    width = np.broadcast_to(np.asarray(width_nm, dtype=np.float64), (len(features),))
    return Shapes(
        np.concatenate(paths) if paths else np.zeros((0, 2)),
        _offsets([len(path) for path in paths]),
        np.array(outer, dtype=bool),
        _offsets(counts),
        filled.copy(),
        np.where(np.isfinite(width), width, 0.0),
    )


def join(shapes: Sequence[Shapes]) -> Shapes:
    """Several shapes as one, feature after feature."""
    return Shapes(
        np.concatenate([s.coords for s in shapes]),
        _offsets(np.concatenate([np.diff(s.parts) for s in shapes])),
        np.concatenate([s.outer for s in shapes]),
        _offsets(np.concatenate([np.diff(s.features) for s in shapes])),
        np.concatenate([s.filled for s in shapes]),
        np.concatenate([s.width_nm for s in shapes]),
    )


def running_on(path: np.ndarray) -> np.ndarray:
    """A path (M, 2) of lon, lat whose edges longer than half a turn go the short way; a whole parallel stays one."""
    step = np.diff(path[:, 0])
    jumps = (np.abs(step) > 180.0) & (np.abs(step) < 360.0 - 1e-9)
    if not jumps.any():
        return path
    path = path.copy()
    path[1:, 0] += np.cumsum(np.where(jumps, -np.sign(step) * 360.0, 0.0))
    return path


def goes_round_a_pole(path) -> bool:
    """Whether a ring (M, 2) of lon, lat closes only after a whole turn: its inside has no box in degrees."""
    path = running_on(np.asarray(path, dtype=np.float64).reshape(-1, 2))
    return len(path) > 2 and abs(path[-1, 0] + wrap180(path[0, 0] - path[-1, 0]) - path[0, 0]) > 1.0


def winding(ring: np.ndarray, x: float, y: float) -> int:
    """How many times a closed ring (M, 2) runs round a point off it, counter-clockwise; 0 for a point outside.

    >>> winding(np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0], [0.0, 0.0]]), 1.0, 1.0)
    1
    """
    (ax, ay), (bx, by) = ring[:-1].T, ring[1:].T
    left = (bx - ax) * (y - ay) - (x - ax) * (by - ay)
    return int(((ay <= y) & (by > y) & (left > 0.0)).sum() - ((ay > y) & (by <= y) & (left < 0.0)).sum())


def edges(shapes: Shapes) -> Edges:
    """The edges of every feature, in order; a single point is an edge of no length."""
    counts = np.maximum(np.diff(shapes.parts) - 1, 1)
    part = np.repeat(np.arange(len(counts)), counts)
    start = shapes.parts[:-1][part] + _ranks(counts)
    end = np.minimum(start + 1, shapes.parts[1:][part] - 1)
    edge_parts = np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)
    polygon = np.cumsum(shapes.outer)[part]
    return Edges(shapes.coords[start], shapes.coords[end], edge_parts[shapes.features], part, polygon)


def part_boxes(shapes: Shapes) -> Boxes:
    """The bounds of every part (P,), its width counted in."""
    begin = shapes.parts[:-1]
    if not len(begin):
        return Boxes(*(np.zeros(0) for _ in range(4)))
    low, high = (ufunc.reduceat(shapes.coords, begin, axis=0) for ufunc in (np.minimum, np.maximum))
    width = np.repeat(shapes.width_nm, np.diff(shapes.features))
    return grown(Boxes((low[:, 0] + high[:, 0]) / 2.0, (high[:, 0] - low[:, 0]) / 2.0, low[:, 1], high[:, 1]), width)


def feature_boxes(shapes: Shapes) -> Boxes:
    """The bounds of every feature (F,): its parts brought near its first; NaN for one without parts."""
    boxes, count = part_boxes(shapes), np.diff(shapes.features)
    out = Boxes(*(np.full(len(shapes), np.nan) for _ in range(4)))
    there = np.flatnonzero(count > 0)
    if not len(there):
        return out
    begin = shapes.features[:-1][there]
    beside = wrap180(boxes.lon - np.repeat(boxes.lon[begin], count[there]))
    west, east = np.minimum.reduceat(beside - boxes.half, begin), np.maximum.reduceat(beside + boxes.half, begin)
    out.lon[there], out.half[there] = boxes.lon[begin] + (west + east) / 2.0, (east - west) / 2.0
    out.south[there], out.north[there] = (
        np.minimum.reduceat(boxes.south, begin),
        np.maximum.reduceat(boxes.north, begin),
    )
    return out


def grown(boxes: Boxes, by_nm) -> Boxes:
    """Boxes widened so that all within a distance lies in them; round the earth where that comes near a pole."""
    degrees = np.asarray(by_nm, dtype=np.float64) / _NM_PER_DEGREE
    south, north = boxes.south - degrees, boxes.north + degrees
    farthest = np.maximum(np.abs(south), np.abs(north))
    with np.errstate(divide="ignore", invalid="ignore"):
        wider = np.where(farthest < 89.0, degrees / np.cos(np.radians(farthest)), np.where(degrees > 0.0, 360.0, 0.0))
    return Boxes(boxes.lon, boxes.half + wider, south, north)


def box_pairs(first: Boxes, second: Boxes, rows_at_a_time: int = 256) -> tuple[np.ndarray, np.ndarray]:
    """Which of N boxes meet which of M: indices into both, by the first, then the second. NaN meets nothing."""
    found = []
    for begin in range(0, len(first.lon), rows_at_a_time):
        lon, half, south, north = (a[begin : begin + rows_at_a_time, np.newaxis] for a in first)
        with np.errstate(invalid="ignore"):
            meet = (south <= second.north) & (north >= second.south)
            meet &= np.abs(wrap180(lon - second.lon)) <= half + second.half
        row, other = np.nonzero(meet)
        found.append((row + begin, other))
    if not found:
        return np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64)
    rows, others = zip(*found)
    return np.concatenate(rows), np.concatenate(others)


def turned_near(lon, near_lon) -> np.ndarray:
    """Whole turns, in degrees, to add to longitudes so that they lie within half a turn of others."""
    return 360.0 * np.round((np.asarray(near_lon, dtype=np.float64) - lon) / 360.0)


def cut_edges(starts: np.ndarray, ends: np.ndarray, tolerance_m: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Edges (E, 2) cut so that each piece, straight in degrees, lies within a tolerance of its geodesic.

    Returns: starts, ends (K, 2) of the pieces; owner (K,), the edge each is of. Errors: ValueError for a tolerance
    that is not positive. Source: geodesy.longest_piece_nm.
    """
    lat = np.maximum(np.abs(starts[:, 1]), np.abs(ends[:, 1]))
    along = ends - starts
    middle = np.radians((starts[:, 1] + ends[:, 1]) / 2.0)
    length = 60.0 * np.hypot(along[:, 0] * np.cos(middle), along[:, 1])
    pieces = np.maximum(1, np.ceil(length / geodesy.longest_piece_nm(lat, tolerance_m) - 1e-9)).astype(np.int64)
    owner = np.repeat(np.arange(len(starts)), pieces)
    rank, count = _ranks(pieces), pieces[owner]
    begin, end = (starts[owner] + along[owner] * ((rank + k) / count)[:, np.newaxis] for k in (0, 1))
    last = rank == count - 1  # the very vertex, or a ring would no longer close to the last bit
    return begin, np.where(last[:, np.newaxis], ends[owner], end), owner


def to_plane(lon, lat, points: np.ndarray) -> np.ndarray:
    """Places (K, 2) of lon, lat in the azimuthal equidistant plane at one place: NM east and north."""
    azimuth, _, dist = geodesy.inverse(lon, lat, points[:, 0], points[:, 1])
    azimuth = np.radians(azimuth)
    return np.stack([dist * np.sin(azimuth), dist * np.cos(azimuth)], axis=1)


def from_plane(lon, lat, points: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Places (K, 2) of such planes, each at its own lon, lat (K,), back as lon, lat."""
    azimuth = np.degrees(np.arctan2(points[:, 0], points[:, 1]))
    out_lon, out_lat, _ = geodesy.direct(lon, lat, azimuth, np.hypot(points[:, 0], points[:, 1]))
    return out_lon, out_lat


def ranges(begin: np.ndarray, end: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """All indices of several ranges, one after the other, and which range each is of."""
    counts = end - begin
    owner = np.repeat(np.arange(len(counts)), counts)
    return begin[owner] + _ranks(counts), owner


def _ranks(counts: np.ndarray) -> np.ndarray:
    """0, 1, 2, ... within each of several runs."""
    total = int(counts.sum())
    return np.arange(total) - np.repeat(np.cumsum(counts) - counts, counts)


def _offsets(counts) -> np.ndarray:
    return np.concatenate([[0], np.cumsum(np.asarray(counts, dtype=np.int64))]).astype(np.int64)
