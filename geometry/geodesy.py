"""Geodesics on WGS 84, and the frame of a hold.

Geodesics are pyproj's. Our own part is the frame: every pattern, area and flown path of a hold is defined in
the azimuthal equidistant plane at its fix, u along the inbound course, s to the holding side.
"""

from __future__ import annotations

import numpy as np
from pyproj import Geod

from .angles import cosd, wrap180, wrap360
from .units import NM_M

GEOD = Geod(ellps="WGS84")
MEAN_RADIUS_M = 6_371_000.0
MEAN_RADIUS_NM = MEAN_RADIUS_M / NM_M
MAX_LATITUDE_DEG = 85.0
"""Inputs nearer a pole are refused; a result may lie further."""
FOOT_ROUNDS = 30
FOOT_STEP_NM = 1e-5 / NM_M
"""A foot is found when it moves by no more than 0.01 mm."""


def _solved(solver, *arrays) -> list[np.ndarray]:
    """pyproj's solver over arrays that broadcast; NaN in, NaN out for that row.

    One row is passed twice: newer pyproj takes an array of one for a scalar.
    """
    both = np.broadcast_arrays(*[np.asarray(a, dtype=np.float64) for a in arrays])
    shape = both[0].shape
    flat = [np.resize(a, 2) if a.size == 1 else np.ascontiguousarray(a).ravel() for a in both]
    results = solver(*flat)
    missing = np.isnan(flat[0] + flat[1] + flat[2] + flat[3])
    if missing.any():
        for values in results:
            values[missing] = np.nan
    return [values[:1].reshape(shape) if both[0].size == 1 else values.reshape(shape) for values in results]


def direct(lon, lat, azimuth_deg, dist_nm) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Place at a distance along a geodesic, and the course there.

    Parameters: lon, lat degrees; azimuth_deg, true, at the start; dist_nm, signed. They broadcast together.
    Returns: lon, lat, course_deg at the end in the direction of travel for a positive distance, each of the
    broadcast shape. NaN in, NaN out for that row.
    Source: Karney, Algorithms for geodesics, J. Geodesy 87 (2013), through pyproj.

    >>> lon, lat, course = direct(10.0, 50.0, 73.0, -12.0)
    >>> round(float(lon), 9), round(float(lat), 9)
    (9.703928178, 49.941204623)
    """
    lon2, lat2, back = _solved(GEOD.fwd, lon, lat, azimuth_deg, np.asarray(dist_nm, dtype=np.float64) * NM_M)
    return lon2, lat2, wrap360(back + 180.0)


def inverse(lon1, lat1, lon2, lat2) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Courses at both ends of the geodesic from 1 to 2, and its length.

    Parameters: degrees; they broadcast together. Returns: course_deg at 1, course_deg at 2 (both in the
    direction from 1 to 2), dist_nm. NaN in, NaN out for that row. Source: as direct.
    """
    az, back, dist = _solved(GEOD.inv, lon1, lat1, lon2, lat2)
    return wrap360(az), wrap360(back + 180.0), dist / NM_M


def foot(lon, lat, azimuth_deg, lon_p, lat_p) -> tuple[np.ndarray, np.ndarray]:
    """Where geodesics pass nearest to points, by repeated projection.

    Parameters: lon, lat of a place on each geodesic; azimuth_deg, true, there; lon_p, lat_p the points; N rows each.
    Returns: dist_nm from the place to the foot, signed, good to 0.01 mm, and the least distance in NM. NaN in, NaN out.
    Derived here: each step solves the right-angled spherical triangle of the place reached, the foot and the point.

    >>> along, apart = foot(np.array([0.0]), np.array([0.0]), np.array([90.0]), np.array([1.0]), np.array([0.5]))
    >>> along.round(3).tolist(), apart.round(3).tolist()
    ([60.108], [29.853])
    """
    along, apart = np.zeros(len(azimuth_deg)), np.full(len(azimuth_deg), np.nan)
    active = np.arange(len(along))
    for _ in range(FOOT_ROUNDS):
        on_lon, on_lat, course = direct(lon[active], lat[active], azimuth_deg[active], along[active])
        towards, _, apart[active] = inverse(on_lon, on_lat, lon_p[active], lat_p[active])
        move = MEAN_RADIUS_NM * np.arctan(np.tan(apart[active] / MEAN_RADIUS_NM) * cosd(towards - course))
        along[active] += move
        active = active[np.abs(move) > FOOT_STEP_NM]
        if not len(active):
            break
    return along, apart


def unwrap(lon, lon_ref) -> np.ndarray:
    """Longitude brought to within 180 degrees of a reference, so that shapes stay in one piece."""
    return np.asarray(lon_ref, dtype=np.float64) + wrap180(np.asarray(lon, dtype=np.float64) - lon_ref)


def place(lon, lat, inbound_true_deg, side, u_nm, s_nm) -> tuple[np.ndarray, np.ndarray]:
    """Frame coordinates of holds to places on the earth.

    P(u, s) = direct(fix, inbound + side * atan2(s, u), hypot(u, s)). Parameters: lon, lat of the fix;
    inbound_true_deg at the fix; side +1 right turns, -1 left; u_nm along the inbound course, s_nm to the
    holding side. They broadcast. Returns: lon (unwrapped to the fix), lat. Derived here, see DEVELOPERS.md.

    >>> lon, lat = place(10.0, 50.0, 73.0, 1, -4.0, 1.8)
    >>> round(float(lat), 9), round(float(lon), 9)
    (49.951835199, 9.914868593)
    """
    u = np.asarray(u_nm, dtype=np.float64)
    s = np.asarray(s_nm, dtype=np.float64)
    bearing = inbound_true_deg + np.asarray(side, dtype=np.float64) * np.degrees(np.arctan2(s, u))
    lon2, lat2, _ = direct(lon, lat, bearing, np.hypot(u, s))
    return unwrap(lon2, lon), lat2


def to_frame(lon, lat, inbound_true_deg, side, lon_p, lat_p) -> tuple[np.ndarray, np.ndarray]:
    """Places on the earth to frame coordinates of holds: the inverse of place.

    Parameters: as place; lon_p, lat_p the places. They broadcast. Returns: u_nm, s_nm.
    """
    az, _, dist = inverse(lon, lat, lon_p, lat_p)
    beta = np.radians(np.asarray(side, dtype=np.float64) * wrap180(az - inbound_true_deg))
    return dist * np.cos(beta), dist * np.sin(beta)


def chord_count(angle_rad, radius_nm, tolerance_m: float) -> np.ndarray:
    """Number of chords for an arc whose sagitta stays within a tolerance.

    n = ceil(angle / (2 arccos(1 - tol / radius))), at least 1. Parameters broadcast; tolerance_m > 0.
    Errors: ValueError for a tolerance that is not positive. Derived here (sagitta of a chord).

    >>> int(chord_count(3.141592653589793, 0.9, 5.0)), int(chord_count(3.141592653589793, 2.2, 0.5))
    (21, 101)
    """
    tolerance_nm = positive_nm(tolerance_m)
    angle, radius = np.broadcast_arrays(np.asarray(angle_rad, float), np.asarray(radius_nm, float))
    with np.errstate(invalid="ignore", divide="ignore"):
        step = 2.0 * np.arccos(np.clip(1.0 - tolerance_nm / radius, -1.0, 1.0))
        count = np.ceil(np.abs(angle) / step - 1e-12)
    return np.where(np.isfinite(count), np.maximum(count, 1.0), 1.0).astype(np.int64)


def longest_piece_nm(lat, tolerance_m: float) -> np.ndarray:
    """Longest straight piece whose chord in longitude and latitude stays within a tolerance of the geodesic.

    sqrt(6 R tol / tan|lat|), at most 60 NM. Parameters: lat degrees; tolerance_m > 0. Returns NM of lat's
    shape. Errors: ValueError for a tolerance that is not positive. Derived here, see DEVELOPERS.md.
    """
    tolerance_m = positive_nm(tolerance_m) * NM_M
    tangent = np.tan(np.radians(np.minimum(np.abs(np.asarray(lat, dtype=np.float64)), 89.0)))
    with np.errstate(divide="ignore"):
        piece = np.sqrt(6.0 * MEAN_RADIUS_M * tolerance_m / tangent) / NM_M
    return np.minimum(piece, 60.0)


def positive_nm(tolerance_m: float) -> float:
    """A tolerance of shapes in NM. Errors: ValueError where it is not positive."""
    if not (np.isfinite(tolerance_m) and tolerance_m > 0.0):
        raise ValueError(f"tolerance_m is {tolerance_m}; it must be a positive number of metres")
    return float(tolerance_m) / NM_M


def ring_area_nm2(lon, lat) -> float:
    """Geodesic area of one ring in NM squared, whatever its direction. Source: as direct."""
    area, _ = GEOD.polygon_area_perimeter(lon, lat)
    return abs(area) / NM_M**2


def following(corners: np.ndarray, starts: np.ndarray) -> np.ndarray:
    """Of each corner of open rings, or what belongs to it, the next one; of the last the first.

    Parameters: corners (T,) or (T, 2); starts (N + 1,) where each ring begins; a ring may be empty.
    """
    out = np.empty_like(corners)
    out[:-1] = corners[1:]
    filled = np.flatnonzero(np.diff(starts) > 0)
    out[starts[1:][filled] - 1] = corners[starts[:-1][filled]]
    return out


def frame_sizes_nm2(lat, u_nm, s_nm, starts) -> np.ndarray:
    """Sizes on the earth of open rings in the frames of holds, positive where a ring runs counter-clockwise there.

    In the azimuthal equidistant plane an element at a distance d from the fix is 1 / (1 - K d^2 / 6) times too large,
    K the curvature of the ellipsoid at the fix: the ring's own area less K / 6 of its second moment. Left out is the
    fourth power of d over the earth's radius: 1e-9 at 60 NM.
    Parameters: lat (N,) of the fixes; u_nm, s_nm (T,); starts (N + 1,) where each ring begins, of three corners at
    least. Returns: NM squared, (N,). Derived here; Gauss's expansion of the length of a geodesic circle.
    """
    starts = np.asarray(starts, dtype=np.int64)
    if len(starts) < 2:
        return np.zeros(0)
    x, y = (np.ascontiguousarray(a, dtype=np.float64) for a in (u_nm, s_nm))
    x2, y2 = following(x, starts), following(y, starts)
    cross = x * y2 - x2 * y
    moment = cross * ((x + x2) ** 2 + (y + y2) ** 2 - x * x2 - y * y2)
    area, second = (np.add.reduceat(terms, starts[:-1]) for terms in (cross / 2.0, moment / 12.0))
    flatter = 1.0 - GEOD.es * np.sin(np.radians(np.asarray(lat, dtype=np.float64))) ** 2
    curvature = flatter**2 / ((GEOD.a / NM_M) ** 2 * (1.0 - GEOD.es))
    return area - curvature / 6.0 * second
