"""Lines of position as they are drawn: a radial from its station past the fix, an arc on either side of it."""

from __future__ import annotations

import numpy as np

from . import geodesy

PAST_FIX_NM = 3.0
"""How far a radial is drawn past the fix: our own choice."""
ARC_HALF_DEG = 15.0
"""Half of the arc that is drawn, as seen from its station: our own choice."""
TOLERANCE_M = 5.0


def radial_line(lon, lat, fix_lon, fix_lat, tolerance_m: float = TOLERANCE_M) -> np.ndarray:
    """A radial from its station through a fix and a little past it.

    Parameters: one station and one fix, degrees. Returns: (K, 2) of lon (unwrapped) and lat, chords in degrees
    within the tolerance of the geodesic.
    """
    azimuth, _, dist = geodesy.inverse(lon, lat, fix_lon, fix_lat)
    total = float(dist) + PAST_FIX_NM
    piece = float(geodesy.longest_piece_nm(max(abs(float(lat)), abs(float(fix_lat))) + 0.1, tolerance_m))
    along = np.linspace(0.0, total, max(2, int(np.ceil(total / piece)) + 1))
    out_lon, out_lat, _ = geodesy.direct(lon, lat, azimuth, along)
    return np.stack([geodesy.unwrap(out_lon, lon), out_lat], axis=1)


def arc_line(lon, lat, fix_lon, fix_lat, tolerance_m: float = TOLERANCE_M) -> np.ndarray:
    """A piece of the arc round a station through a fix. Parameters and returns as radial_line.

    Half of the tolerance is for the chord of the arc, half for that of a map in degrees.
    """
    azimuth, _, dist = geodesy.inverse(lon, lat, fix_lon, fix_lat)
    angle, highest = np.radians(2.0 * ARC_HALF_DEG), min(abs(float(lat)) + float(dist) / 60.0, 89.0)
    piece = float(geodesy.longest_piece_nm(highest, tolerance_m / 2.0))
    chords = int(geodesy.chord_count(angle, float(dist), tolerance_m / 2.0))
    count = max(chords, int(np.ceil(angle * float(dist) / piece)))
    bearings = float(azimuth) + np.linspace(-ARC_HALF_DEG, ARC_HALF_DEG, count + 1)
    out_lon, out_lat, _ = geodesy.direct(lon, lat, bearings, dist)
    return np.stack([geodesy.unwrap(out_lon, lon), out_lat], axis=1)
