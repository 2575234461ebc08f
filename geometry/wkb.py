"""Shapes as little-endian ISO WKB, whole batches at a time, split where they cross the 180th meridian.

A batch is flat: the vertices of all shapes in one array and the offsets where each begins. Longitudes run on
beyond +-180, each shape in one piece; what is written lies within [-180, 180].
"""

from __future__ import annotations

import struct
from typing import NamedTuple

import numpy as np

from .meridian import FEWEST_IN_A_RING, SNAP_DEG, split_line, split_polygon, split_ring


class _Kind(NamedTuple):
    multi: int
    part: int
    ring: bool
    fewest: int


# ISO 13249-3 geometry type codes; +2000 for M.
_POLYGON = _Kind(6, 3, True, FEWEST_IN_A_RING)
_LINE = _Kind(5, 2, False, 2)
_LINE_M = _Kind(2005, 2002, False, 2)


def multipolygons(coords, offsets, parts=None) -> list[bytes | None]:
    """MultiPolygon WKB of closed rings, one polygon a ring (or more where the ring crosses the meridian).

    Parameters: coords (T, 2) longitude unwrapped, latitude, degrees; offsets (N + 1,) where each ring begins,
    from 0 to T; each ring simple and closed, its last vertex equal to its first; parts (F + 1,) where the
    rings of each feature begin, from 0 to N, default one ring a feature.
    Returns: F values of bytes; None for a feature without a ring, or where any ring has fewer than four
    vertices or a vertex that is not finite.
    Errors: ValueError for offsets or parts that do not fit, or a ring that is not closed.
    Source: ISO 13249-3 / OGC 06-103r4 well-known binary.
    """
    return _features(_vertices(coords), offsets, parts, _POLYGON)


def polygons_with_holes(coords, offsets, polygons, parts) -> list[bytes | None]:
    """MultiPolygon WKB of polygons with holes.

    Parameters: coords, offsets, the rings as multipolygons takes them; polygons (P + 1,) where the rings of each
    polygon begin, the outer one first, its holes after it; parts (F + 1,) where the polygons of each feature begin.
    A hole lies inside the outer ring and touches other rings in single places at most.
    Returns: F values of bytes; None for a feature without a polygon, or with a ring that is None in multipolygons.
    Errors: as multipolygons. Source: as multipolygons.
    """
    vertices = _vertices(coords)
    offsets = _offsets("offsets", offsets, len(vertices))
    polygons = _offsets("polygons", polygons, offsets.size - 1)
    parts = _offsets("parts", parts, polygons.size - 1)
    return _Holed(vertices, offsets, polygons.tolist()).grouped(parts.tolist())


def multilines(coords, offsets, parts=None) -> list[bytes | None]:
    """MultiLineString WKB of lines of at least two vertices. Parameters, returns, errors as multipolygons."""
    return _features(_vertices(coords), offsets, parts, _LINE)


def multilines_m(coords, m, offsets, parts=None) -> list[bytes | None]:
    """MultiLineStringM WKB of lines with a measure, m (T,). The rest as multilines."""
    xy = _vertices(coords)
    m = np.asarray(m, dtype=np.float64)
    if m.shape != (len(xy),):
        raise ValueError(f"m has shape {m.shape}; it must have one value for each of the {len(xy)} vertices")
    return _features(np.column_stack([xy, m]), offsets, parts, _LINE_M)


def points(lon, lat) -> list[bytes | None]:
    """Point WKB, the longitude brought into [-180, 180].

    Parameters: lon, lat degrees; they broadcast together and are read flat. Returns: bytes, or None where a
    coordinate is not finite.
    """
    lon, lat = np.broadcast_arrays(np.asarray(lon, dtype=np.float64), np.asarray(lat, dtype=np.float64))
    record = np.empty(lon.size, dtype=[("order", "u1"), ("type", "<u4"), ("lon", "<f8"), ("lat", "<f8")])
    record["order"], record["type"], record["lon"], record["lat"] = 1, 1, into_range(lon.ravel()), lat.ravel()
    good = np.isfinite(record["lon"]) & np.isfinite(record["lat"])
    blob, size = record.tobytes(), record.itemsize
    return [blob[i * size : (i + 1) * size] if ok else None for i, ok in enumerate(good.tolist())]


def into_range(lon) -> np.ndarray:
    """Longitude in [-180, 180]; one already there stays as it is, 180 and -180 too. Any shape, degrees."""
    lon = np.asarray(lon, dtype=np.float64)
    with np.errstate(invalid="ignore"):
        moved = lon - 360.0 * np.floor((lon + 180.0) / 360.0)
        return np.where(np.abs(lon) <= 180.0, lon, np.clip(moved, -180.0, 180.0))


def _vertices(coords) -> np.ndarray:
    xy = np.asarray(coords, dtype=np.float64)
    if xy.ndim != 2 or xy.shape[1] != 2:
        raise ValueError(f"coords has shape {xy.shape}; it must be (T, 2), longitude and latitude")
    return xy


def _offsets(name: str, values, total: int) -> np.ndarray:
    offsets = np.asarray(values, dtype=np.int64)
    if offsets.ndim != 1 or offsets.size < 1 or offsets[0] != 0 or offsets[-1] != total or np.any(np.diff(offsets) < 0):
        raise ValueError(f"{name} must rise from 0 to {total}, one value more than there are items")
    return offsets


def _features(vertices: np.ndarray, offsets, parts, kind: _Kind) -> list[bytes | None]:
    offsets = _offsets("offsets", offsets, len(vertices))
    shapes = _Shapes(vertices, offsets, kind)
    if parts is None:
        return shapes.features()
    parts = _offsets("parts", parts, offsets.size - 1)
    return shapes.grouped(parts.tolist())


class _Batch:
    """Shapes moved into range, those that can be written (good) and those that need a cut (cut) known."""

    kind: _Kind
    good: np.ndarray
    cut: np.ndarray

    def grouped(self, parts: list[int]) -> list[bytes | None]:
        """Several shapes as one feature; None for one without a shape, or with a shape that is not good."""
        good, cut = self.good.tolist(), self.cut.tolist()
        out: list[bytes | None] = []
        for first, last in zip(parts, parts[1:]):
            if first == last or not all(good[first:last]):
                out.append(None)
                continue
            pieces: list[bytes] = []
            for i in range(first, last):
                pieces += self._pieces(i) if cut[i] else [self._whole(i)]
            out.append(self._multi(pieces))
        return out

    def _multi(self, pieces: list[bytes]) -> bytes:
        return struct.pack("<BII", 1, self.kind.multi, len(pieces)) + b"".join(pieces)

    def _whole(self, i: int) -> bytes:
        """A shape that needs no cut."""
        raise NotImplementedError

    def _pieces(self, i: int) -> list[bytes]:
        """The pieces of a shape that is cut."""
        raise NotImplementedError


class _Shapes(_Batch):
    """Lines, or rings that are polygons each."""

    def __init__(self, vertices: np.ndarray, offsets: np.ndarray, kind: _Kind):
        self.kind = kind
        self.starts = offsets.tolist()
        counts = np.diff(offsets)
        self.good = _whole(vertices, offsets) & (counts >= kind.fewest)
        if kind.ring:
            _refuse_open(vertices, offsets, self.good)
        self.vertices, self.cut = _shifted(vertices, offsets, self.good)
        self.width = vertices.shape[1] * 8
        self.blob = memoryview(np.ascontiguousarray(self.vertices, dtype="<f8").tobytes())

    def features(self) -> list[bytes | None]:
        """Each shape as one feature: a header and a slice of the batch's bytes."""
        heads: dict[int, bytes] = {}
        out: list[bytes | None] = []
        width, blob, starts = self.width, self.blob, self.starts
        for i, (good, cut) in enumerate(zip(self.good.tolist(), self.cut.tolist())):
            if not good:
                out.append(None)
            elif cut:
                out.append(self._multi(self._pieces(i)))
            else:
                count = starts[i + 1] - starts[i]
                head = heads.get(count)
                if head is None:
                    head = heads[count] = self._multi([self._head(count)])
                out.append(b"".join((head, blob[starts[i] * width : starts[i + 1] * width])))
        return out

    def _head(self, count: int) -> bytes:
        if self.kind.ring:
            return struct.pack("<BIII", 1, self.kind.part, 1, count)
        return struct.pack("<BII", 1, self.kind.part, count)

    def _whole(self, i: int) -> bytes:
        first, last = self.starts[i], self.starts[i + 1]
        return b"".join((self._head(last - first), self.blob[first * self.width : last * self.width]))

    def _pieces(self, i: int) -> list[bytes]:
        shape = self.vertices[self.starts[i] : self.starts[i + 1]]
        split = split_ring if self.kind.ring else split_line
        return [self._head(len(p)) + np.ascontiguousarray(p, dtype="<f8").tobytes() for p in split(shape)]


class _Holed(_Batch):
    """Polygons with holes, each moved into range as a whole."""

    kind = _POLYGON

    def __init__(self, vertices: np.ndarray, offsets: np.ndarray, polygons: list[int]):
        counts = np.diff(offsets)
        whole = _whole(vertices, offsets) & (counts >= _POLYGON.fewest)
        _refuse_open(vertices, offsets, whole)
        self.polygons, self.starts = polygons, offsets.tolist()
        of_polygon = offsets[polygons]
        self.good = _per_shape(np.logical_and, whole, np.asarray(polygons), False)
        self.vertices, self.cut = _shifted(vertices, of_polygon, self.good)
        self.blob = memoryview(np.ascontiguousarray(self.vertices, dtype="<f8").tobytes())

    def _whole(self, i: int) -> bytes:
        first, last = self.polygons[i], self.polygons[i + 1]
        out = [struct.pack("<BII", 1, _POLYGON.part, last - first)]
        for k in range(first, last):
            begin, end = self.starts[k], self.starts[k + 1]
            out += [struct.pack("<I", end - begin), self.blob[begin * 16 : end * 16]]
        return b"".join(out)

    def _pieces(self, i: int) -> list[bytes]:
        rings = [self.vertices[self.starts[k] : self.starts[k + 1]] for k in range(*self.polygons[i : i + 2])]
        return [_polygon_bytes(piece) for piece in split_polygon(rings)]


def _polygon_bytes(rings: list[np.ndarray]) -> bytes:
    out = [struct.pack("<BII", 1, _POLYGON.part, len(rings))]
    for ring in rings:
        out += [struct.pack("<I", len(ring)), np.ascontiguousarray(ring, dtype="<f8").tobytes()]
    return b"".join(out)


def _per_shape(ufunc: np.ufunc, values: np.ndarray, offsets: np.ndarray, empty) -> np.ndarray:
    """ufunc reduced over each shape; `empty` for a shape without a vertex."""
    filled = np.diff(offsets) > 0
    out = np.full(filled.size, empty, dtype=values.dtype)
    if filled.any():
        out[filled] = ufunc.reduceat(values, offsets[:-1][filled])
    return out


def _whole(vertices: np.ndarray, offsets: np.ndarray) -> np.ndarray:
    """True for a shape whose every number is finite."""
    return _per_shape(np.logical_and, np.isfinite(vertices).all(axis=1), offsets, False)


def _refuse_open(vertices: np.ndarray, offsets: np.ndarray, good: np.ndarray) -> None:
    rows = np.flatnonzero(good)
    open_rows = rows[np.any(vertices[offsets[rows]] != vertices[offsets[rows + 1] - 1], axis=1)]
    if open_rows.size:
        raise ValueError(f"ring {open_rows[0]} of coords is not closed; its last vertex must equal its first")


def _shifted(vertices: np.ndarray, offsets: np.ndarray, good: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Vertices with each shape moved by whole turns so that it begins in [-180, 180), and which need a cut."""
    lon = vertices[:, 0]
    low = np.where(good, _per_shape(np.minimum, lon, offsets, np.nan), 0.0)
    high = np.where(good, _per_shape(np.maximum, lon, offsets, np.nan), 0.0)
    outside = (low < -180.0) | (high > 180.0)
    if not outside.any():
        return vertices, outside
    turns = np.where(outside, np.floor((low + 180.0 + SNAP_DEG) / 360.0), 0.0)
    cut = outside & (high - 360.0 * turns > 180.0 + SNAP_DEG)
    counts = np.diff(offsets)
    moved = vertices.copy()
    moved[:, 0] -= 360.0 * np.repeat(turns, counts)
    snap = np.repeat(outside & ~cut, counts)
    moved[snap, 0] = np.clip(moved[snap, 0], -180.0, 180.0)
    return moved, cut
