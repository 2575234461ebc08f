"""Where a straight leg ends that a distance ends: how long it takes to get there."""

from __future__ import annotations

import numpy as np


def until_along_s(distance_nm, u_nm, vu_nm_s) -> np.ndarray:
    """Seconds until an aeroplane is so far behind the fix, measured along the inbound course.

    Parameters: distance_nm along the course; u_nm, where it is now, positive past the fix; vu_nm_s, its ground
    velocity along the course, negative outbound; they broadcast. Returns: s, negative where it is farther out
    already; NaN where it does not fly outbound.
    """
    vu = np.asarray(vu_nm_s, dtype=np.float64)
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(vu < 0.0, (np.asarray(distance_nm, float) + u_nm) / -vu, np.nan)


def until_reading_s(ground_nm, u_nm, s_nm, vu_nm_s, vs_nm_s, station_u_nm, station_s_nm) -> np.ndarray:
    """Seconds until an aeroplane is a ground distance from a station.

    With the station ahead of the fix the reading grows outbound, and the leg ends going away from it; with the
    station behind, it shrinks, and the leg ends coming nearer. Parameters: ground_nm; place and ground velocity
    in the frame of the hold; the station in that frame; they broadcast. Returns: s, negative where that was before;
    NaN where it never is, or where the aeroplane is farther than the reading already and comes nearer first.
    Source: FAA AIM 5-3-8 j, FIG 5-3-5 and 5-3-6.
    """
    us = np.asarray(station_u_nm, dtype=np.float64)
    du, ds = np.asarray(u_nm, float) - us, np.asarray(s_nm, float) - station_s_nm
    a = np.asarray(vu_nm_s, float) ** 2 + np.asarray(vs_nm_s, float) ** 2
    b = du * vu_nm_s + ds * vs_nm_s
    c = du**2 + ds**2 - np.asarray(ground_nm, float) ** 2
    with np.errstate(invalid="ignore", divide="ignore"):
        root = np.sqrt(b**2 - a * c)
        entered, left = (-b - root) / a, (-b + root) / a
        return np.where(us >= 0.0, np.where(entered <= 0.0, left, np.nan), entered)
