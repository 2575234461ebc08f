"""What every construction gives: polygons in the frame of a hold, and how they are placed on the earth."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import convex, geodesy
from ..units import NM_M


class Area(NamedTuple):
    """One part of one hold's area: row of the hold, part name, ring in the frame (M, 2), figures, sentences."""

    row: int
    part: str
    ring_nm: np.ndarray
    moc_ft: float
    alt_ft: float
    tas_kt: float
    wind_kt: float
    limits: str


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
    """
    shapes = []
    for i, ring in enumerate(rings):
        reach = abs(float(lat[i])) + float(np.hypot(ring[:, 0], ring[:, 1]).max()) / 60.0
        shapes.append(split_edges(ring, float(geodesy.longest_piece_nm(reach, tolerance_m / 4.0))))
    sizes = np.array([len(s) for s in shapes], dtype=np.int64)
    offsets = np.concatenate([[0], np.cumsum(sizes)])
    if not shapes:
        return np.zeros((0, 2)), offsets
    owner = np.repeat(np.arange(len(shapes)), sizes)
    flat = np.concatenate(shapes)
    lon, lat, inbound, side = (np.asarray(a, dtype=np.float64) for a in (lon, lat, inbound_true_deg, side))
    out_lon, out_lat = geodesy.place(lon[owner], lat[owner], inbound[owner], side[owner], flat[:, 0], flat[:, 1])
    return np.stack([out_lon, out_lat], axis=1), offsets


def split_edges(ring: np.ndarray, longest: float) -> np.ndarray:
    """Open ring (M, 2) to a closed one whose edges are no longer than a length, every vertex kept."""
    after = np.roll(ring, -1, axis=0)
    pieces = np.maximum(1, np.ceil(np.hypot(*(after - ring).T) / longest - 1e-9)).astype(np.int64)
    owner = np.repeat(np.arange(len(ring)), pieces)
    step = np.arange(len(owner)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
    points = ring[owner] + (after - ring)[owner] * (step / pieces[owner])[:, None]
    return np.concatenate([points, points[:1]])
