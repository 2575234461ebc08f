"""How areas in the frames of holds are placed on the earth."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import convex, frame_map, geodesy
from ..units import NM_M
from .areas import Area


def protecting_ring(alpha_rad, support_nm, tolerance_m: float) -> np.ndarray:
    """Frame ring that contains a convex area and, once placed, exceeds it by no more than the tolerance.

    Half of the tolerance goes to the support lines, a quarter is added all round, so that the chords in
    longitude and latitude, cut to the last quarter by place_rings, stay outside the area.
    Parameters: as convex.circumscribed, NM; tolerance_m > 0. Returns: (M, 2), counter-clockwise.
    Errors: ValueError for a tolerance that is not positive.
    """
    if not (np.isfinite(tolerance_m) and tolerance_m > 0.0):
        raise ValueError(f"tolerance_m is {tolerance_m}; it must be a positive number of metres")
    tolerance_nm = tolerance_m / NM_M
    return convex.circumscribed(alpha_rad, np.asarray(support_nm) + tolerance_nm / 4.0, tolerance_nm / 2.0)


def place_rings(lon, lat, inbound_true_deg, side, rings: list[np.ndarray], tolerance_m: float):
    """Frame rings of N holds as closed rings on the earth.

    Parameters: lon, lat, inbound_true_deg, side (N,); rings, N arrays (M, 2) in NM, open; tolerance_m > 0.
    Returns: coords (T, 2) of lon (unwrapped) and lat; offsets (N + 1,).
    Errors: ValueError for a tolerance that is not positive.
    """
    lon, lat, inbound, side = (np.asarray(a, dtype=np.float64) for a in (lon, lat, inbound_true_deg, side))
    reach = [float(np.hypot(ring[:, 0], ring[:, 1]).max()) for ring in rings]
    longest = geodesy.longest_piece_nm(np.abs(lat) + np.array(reach) / 60.0, tolerance_m / 4.0)
    return _place(lon, lat, inbound, side, rings, longest)


def _place(lon, lat, inbound, side, rings: list[np.ndarray], longest: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    if not len(rings):
        return np.zeros((0, 2)), np.zeros(1, dtype=np.int64)
    flat, starts = _split_closed(np.concatenate(rings), _starts(rings), longest)
    owner = np.repeat(np.arange(len(rings)), np.diff(starts))
    out_lon, out_lat = geodesy.place(lon[owner], lat[owner], inbound[owner], side[owner], flat[:, 0], flat[:, 1])
    return np.stack([out_lon, out_lat], axis=1), starts


def _starts(rings: list[np.ndarray]) -> np.ndarray:
    """Where each of some arrays begins once they are one."""
    return np.concatenate([[0], np.cumsum([len(ring) for ring in rings])]).astype(np.int64)


CHORD_SHARE = 0.05
"""Of the tolerance of areas, what is left to edges that are chords in longitude and latitude."""
HOLDS_TOGETHER = 64
"""Few enough for their corners to stay near the processor."""


class Placed(NamedTuple):
    """Areas on the earth: coords (T, 2), closed rings of lon (unwrapped) and lat; rings (R + 1,) where each begins;
    polygons (P + 1,) where the rings of each polygon begin, the outer one first; parts (F + 1,) where the polygons of
    each area begin; sizes_nm2 (F,) of the areas on the earth, their holes left out."""

    coords: np.ndarray
    rings: np.ndarray
    polygons: np.ndarray
    parts: np.ndarray
    sizes_nm2: np.ndarray


class _Rings(NamedTuple):
    """The rings of areas, each array once: the different ones, row after row, and the row of each; for every ring of
    the areas, which of these it is and whether it runs backwards; polygons and parts as in Placed."""

    different: list[np.ndarray]
    row: np.ndarray
    which: np.ndarray
    backwards: np.ndarray
    polygons: np.ndarray
    parts: np.ndarray

    @classmethod
    def of(cls, areas: list[Area]) -> _Rings:
        index: dict[tuple[int, int], int] = {}
        different, rows, which, backwards, polygons, parts = [], [], [], [], [0], [0]
        for area in areas:
            for polygon in area.polygons_nm:
                for ring in polygon:
                    turned = ring.base is not None and ring.strides[0] < 0 and ring.base.shape == ring.shape
                    whole = ring.base if turned else ring
                    key = (area.row, id(whole))
                    if key not in index:
                        index[key] = len(different)
                        different.append(whole)
                        rows.append(area.row)
                    which.append(index[key])
                    backwards.append(turned)
                polygons.append(len(which))
            parts.append(len(polygons) - 1)
        row = np.array(rows, dtype=np.int64)
        by_row = np.argsort(row, kind="stable")
        return cls(
            [different[k] for k in by_row], row[by_row], np.argsort(by_row)[np.array(which, dtype=np.int64)],
            np.array(backwards, dtype=bool), np.array(polygons), np.array(parts),
        )  # fmt: skip


def place_areas(lon, lat, inbound_true_deg, side, areas: list[Area], tolerance_m: float) -> Placed:
    """Areas of N holds on the earth, each at the hold of its row.

    A hole that is the same array as another ring of that row, run backwards, is placed once. An edge that two rings of
    a row share, whichever way it runs, has the same vertices. Left turns mirror the frame: rings run the other way.
    Parameters: lon, lat, inbound_true_deg, side (N,); areas, rows 0 to N - 1; tolerance_m > 0. Returns: Placed.
    """
    lon, lat, inbound, side = (np.asarray(a, dtype=np.float64) for a in (lon, lat, inbound_true_deg, side))
    of = _Rings.of(areas)
    blocks = np.searchsorted(of.row, np.arange(0, len(lat) + HOLDS_TOGETHER, HOLDS_TOGETHER))
    sizes, placed = [np.zeros(0)], []
    for block, (first, last) in enumerate(zip(blocks[:-1], blocks[1:])):
        if first < last:
            here = slice(block * HOLDS_TOGETHER, (block + 1) * HOLDS_TOGETHER)
            row, at = of.row[first:last] - here.start, (lon[here], lat[here], inbound[here], side[here])
            flat, starts = np.concatenate(of.different[first:last]), _starts(of.different[first:last])
            sizes.append(geodesy.frame_sizes_nm2(at[1][row], flat[:, 0], flat[:, 1], starts))
            placed += _place_block(*at, flat, starts, row, tolerance_m)
    pieces = [placed[k][:: -1 if back else 1] for k, back in zip(of.which.tolist(), of.backwards.tolist())]
    coords = np.concatenate([*pieces, np.zeros((0, 2))])
    return Placed(coords, _starts(pieces), of.polygons, of.parts, _sizes(of, np.concatenate(sizes)))


def _place_block(lon, lat, inbound, side, flat, starts, row, tolerance_m: float) -> list[np.ndarray]:
    """Open rings, flat, of some holds as closed ones on the earth. Parameters: row, the hold of each ring, rising."""
    # One length for all of a hold: an edge that two rings share is cut at the same places.
    far = np.zeros(len(lat))
    np.maximum.at(far, row, np.maximum.reduceat(np.hypot(flat[:, 0], flat[:, 1]), starts[:-1]))
    longest = geodesy.longest_piece_nm(np.abs(lat) + far / 60.0, tolerance_m * CHORD_SHARE)
    flat, starts = _split_closed(flat, starts, longest[row])
    of_row = np.concatenate([[0], np.cumsum(np.bincount(row, np.diff(starts), len(lat)))]).astype(np.int64)
    coords = np.stack(frame_map.place_runs(lon, lat, inbound, side, *flat.T, of_row), axis=1)
    return [coords[a:b] for a, b in zip(starts[:-1].tolist(), starts[1:].tolist())]


def _sizes(of: _Rings, sizes: np.ndarray) -> np.ndarray:
    """Size of each area, of those of the different rings."""
    own = sizes[of.which] * np.where(of.backwards, -1.0, 1.0)
    owner = np.repeat(np.arange(len(of.parts) - 1), np.diff(of.polygons[of.parts]))
    return np.bincount(owner, own, minlength=len(of.parts) - 1)


def split_edges(ring: np.ndarray, longest: float) -> np.ndarray:
    """Open ring (M, 2) to a closed one whose edges are no longer than a length, every vertex kept."""
    return _split_closed(ring, np.array([0, len(ring)]), np.array([longest]))[0]


def _split_closed(flat: np.ndarray, starts: np.ndarray, longest: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Open rings, flat, to closed ones with edges no longer than each ring's length; every vertex kept."""
    following = geodesy.following(flat, starts)
    along = following - flat
    ratio = np.hypot(along[:, 0], along[:, 1]) / np.repeat(longest, np.diff(starts))
    pieces = np.maximum(1, np.ceil(ratio - 1e-9)).astype(np.int64)
    # One more place a ring: its first vertex again.
    given = pieces.copy()
    given[starts[1:] - 1] += 1
    begins = np.cumsum(given) - given
    ends = begins[starts[1:] - 1] + given[starts[1:] - 1]
    points = np.empty((int(ends[-1]), 2))
    points[begins] = flat
    points[ends - 1] = flat[starts[:-1]]
    long = np.flatnonzero(pieces > 1)
    count = pieces[long] - 1
    owner = np.repeat(long, count)
    step = np.arange(len(owner)) - np.repeat(np.cumsum(count) - count, count) + 1
    # Cut from the same end whichever way the edge runs, so that the cuts are the same to the last bit.
    one, other = flat[owner], following[owner]
    swap = (one[:, 0] > other[:, 0]) | ((one[:, 0] == other[:, 0]) & (one[:, 1] > other[:, 1]))
    share = np.where(swap, pieces[owner] - step, step) / pieces[owner]
    one, other = np.where(swap[:, None], other, one), np.where(swap[:, None], one, other)
    points[begins[owner] + step] = one + (other - one) * share[:, None]
    return points, np.concatenate([[0], ends])
