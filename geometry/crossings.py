"""Where lines of position cross: radials (geodesic rays) and DME arcs (geodesic circles), on the ellipsoid.

Each solver starts on a sphere from the geodesic between the stations and iterates on the ellipsoid until the
place is good to 0.1 mm. Vectorised: rows that have no crossing carry a code.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, reasons
from .angles import cosd, sind, wrap180, wrap360
from .geodesy import MEAN_RADIUS_M
from .units import NM_M

RADIUS_NM = MEAN_RADIUS_M / NM_M
STEP_NM = 1e-5 / NM_M
"""Iteration ends when no place moves by more than 0.01 mm."""
TOUCH_NM = 1e-3 / NM_M
NEAREST_NM = 1.0 / NM_M
FARTHEST_NM = 400.0
LEAST_CUT_DEG = 0.1
ROUNDS = 30


class Crossing(NamedTuple):
    """Crossings of N rows: place, distance from either station in NM, cut angle 0 to 90 degrees, code."""

    lon: np.ndarray
    lat: np.ndarray
    first_nm: np.ndarray
    second_nm: np.ndarray
    cut_deg: np.ndarray
    code: np.ndarray


def _rows(*arrays) -> list[np.ndarray]:
    both = np.broadcast_arrays(*[np.atleast_1d(np.asarray(a, dtype=np.float64)) for a in arrays])
    return [np.ascontiguousarray(a) for a in both]


def _cut(first_deg, second_deg) -> np.ndarray:
    angle = np.abs(wrap180(first_deg - second_deg))
    return np.minimum(angle, 180.0 - angle)


def _finish(lon, lat, first, second, cut, code) -> Crossing:
    with np.errstate(invalid="ignore"):
        solved = np.isfinite(lon) & np.isfinite(first) & np.isfinite(second)
        code = reasons.first(
            code,
            reasons.where(~solved, reasons.CROSSING_NOT_SOLVED),
            reasons.where((first < NEAREST_NM) | (second < NEAREST_NM), reasons.BEHIND_STATION),
            reasons.where((first > FARTHEST_NM) | (second > FARTHEST_NM), reasons.CROSSING_RANGE),
        )
    good = code == reasons.OK
    keep = [np.where(good, v, np.nan) for v in (wrap180(lon), lat, first, second, cut)]
    return Crossing(*keep, code)


def radial_radial(lon1, lat1, azimuth1_deg, lon2, lat2, azimuth2_deg) -> Crossing:
    """Crossing of two radials.

    Newton in the tangent plane at the first ray's place: both rays are moved until they meet.
    Parameters: stations in degrees; true azimuths at the stations; they broadcast. Returns: Crossing.
    Source: geodesic intersection on WGS 84, derived here; checked against a general library in the tests.
    """
    lon1, lat1, az1, lon2, lat2, az2 = _rows(lon1, lat1, azimuth1_deg, lon2, lat2, azimuth2_deg)
    base1, base2, base = geodesy.inverse(lon1, lat1, lon2, lat2)
    s1, s2 = _sphere_start(base / RADIUS_NM, az1 - base1, az2 - base2)
    active = np.flatnonzero(np.isfinite(s1) & np.isfinite(s2) & (base >= NEAREST_NM))
    lon, lat, cut = (np.full(len(s1), np.nan) for _ in range(3))
    for _ in range(ROUNDS):
        if not len(active):
            break
        a_lon, a_lat, course1 = geodesy.direct(lon1[active], lat1[active], az1[active], s1[active])
        b_lon, b_lat, course2 = geodesy.direct(lon2[active], lat2[active], az2[active], s2[active])
        at_a, at_b, gap = geodesy.inverse(a_lon, a_lat, b_lon, b_lat)
        turn = course2 + at_a - at_b - course1
        to_b = at_a - course1
        with np.errstate(divide="ignore", invalid="ignore"):
            sine = sind(turn)
            e1 = gap * (cosd(to_b) - sind(to_b) * cosd(turn) / sine)
            e2 = -gap * sind(to_b) / sine
        lon[active], lat[active], cut[active] = a_lon, a_lat, _cut(turn, 0.0)
        moved = np.maximum(np.abs(e1), np.abs(e2))
        lost = ~np.isfinite(moved) | (moved > 3.0 * RADIUS_NM)
        step = np.where(lost, 0.0, 1.0)
        s1[active] += np.where(lost, 0.0, e1) * step
        s2[active] += np.where(lost, 0.0, e2) * step
        lon[active[lost]] = np.nan
        # the place used is one step old: a last move below the limit leaves it within the tolerance
        active = active[~lost & (moved >= STEP_NM)]
    lon[active] = np.nan
    code = reasons.first(
        reasons.where(base < NEAREST_NM, reasons.SAME_STATION),
        reasons.where(np.isfinite(base) & ~(cut >= LEAST_CUT_DEG), reasons.LINES_PARALLEL),
    )
    return _finish(lon, lat, s1, s2, cut, code)


def _sphere_start(base_rad, angle1_deg, angle2_deg) -> tuple[np.ndarray, np.ndarray]:
    """Distances in NM along two rays of a sphere whose stations lie base apart on the equator.

    Angles are those between ray and base, both measured in the direction from 1 to 2.
    """
    zero = np.zeros_like(base_rad)
    p1, p2 = _vector(1.0 + zero, zero, zero), _vector(np.cos(base_rad), np.sin(base_rad), zero)
    d1 = _vector(zero, cosd(angle1_deg), -sind(angle1_deg))
    d2 = _vector(-np.sin(base_rad) * cosd(angle2_deg), np.cos(base_rad) * cosd(angle2_deg), -sind(angle2_deg))
    meet = np.cross(np.cross(p1, d1), np.cross(p2, d2))
    s1, s2 = np.arctan2(_dot(meet, d1), _dot(meet, p1)), np.arctan2(_dot(meet, d2), _dot(meet, p2))
    o1, o2 = np.arctan2(-_dot(meet, d1), -_dot(meet, p1)), np.arctan2(-_dot(meet, d2), -_dot(meet, p2))
    nearer = np.abs(s1) <= np.abs(o1)
    return np.where(nearer, s1, o1) * RADIUS_NM, np.where(nearer, s2, o2) * RADIUS_NM


def _vector(x, y, z) -> np.ndarray:
    return np.stack([x, y, z], axis=-1)


def _dot(a, b) -> np.ndarray:
    return np.einsum("...i,...i", a, b)


def radial_arc(lon1, lat1, azimuth_deg, lon2, lat2, radius_nm) -> tuple[Crossing, Crossing]:
    """Crossings of a radial and an arc, by distance along the radial: the nearer first.

    The foot of the centre on the ray, then Newton along the ray on either side of it. Within 1 mm of touching
    there is one solution, the touching point, and the second carries ARC_NOT_REACHED.
    Parameters: station of the radial, true azimuth; centre and ground radius of the arc; they broadcast.
    Returns: two Crossings. Source: derived here.
    """
    lon1, lat1, az, lon2, lat2, radius = _rows(lon1, lat1, azimuth_deg, lon2, lat2, radius_nm)
    foot = np.zeros(len(az))
    for _ in range(ROUNDS):
        f_lon, f_lat, course = geodesy.direct(lon1, lat1, az, foot)
        to_centre, _, apart = geodesy.inverse(f_lon, f_lat, lon2, lat2)
        with np.errstate(invalid="ignore"):
            move = RADIUS_NM * np.arctan(np.tan(apart / RADIUS_NM) * cosd(to_centre - course))
        foot = foot + move
        if not np.any(np.abs(move) > 1e-4):
            break
    missed = apart > radius + TOUCH_NM
    touching = ~missed & (apart > radius - TOUCH_NM)
    with np.errstate(invalid="ignore", divide="ignore"):
        half = RADIUS_NM * np.arccos(np.clip(np.cos(radius / RADIUS_NM) / np.cos(apart / RADIUS_NM), -1.0, 1.0))
    solutions = []
    for side in (-1.0, 1.0):
        s = np.where(touching, foot, foot + side * half)
        lon, lat, dist, cut = _slide(lon1, lat1, az, lon2, lat2, radius, s, foot, side, missed | touching)
        only_once = touching & (side > 0.0)
        code = reasons.first(
            reasons.where(missed | only_once, reasons.ARC_NOT_REACHED),
            reasons.where(~touching & np.isfinite(apart) & (cut < LEAST_CUT_DEG), reasons.LINES_PARALLEL),
        )
        solutions.append(_finish(lon, lat, s, dist, cut, code))
    near, far = solutions
    swap = (near.code != reasons.OK) & (far.code == reasons.OK)
    return _select(swap, far, near), _select(swap, near, far)


def _slide(lon1, lat1, az, lon2, lat2, radius, s, foot, side: float, settled):
    """Newton on the distance along a ray until it lies on an arc; s is changed in place."""
    n = len(s)
    lon, lat, dist, cut = (np.full(n, np.nan) for _ in range(4))
    active = np.flatnonzero(np.isfinite(s))
    for _ in range(ROUNDS):
        if not len(active):
            break
        p_lon, p_lat, course = geodesy.direct(lon1[active], lat1[active], az[active], s[active])
        to_centre, _, apart = geodesy.inverse(p_lon, p_lat, lon2[active], lat2[active])
        lon[active], lat[active], dist[active] = p_lon, p_lat, apart
        cut[active] = _cut(course, to_centre + 90.0)
        with np.errstate(divide="ignore", invalid="ignore"):
            move = (apart - radius[active]) / cosd(to_centre - course)
        done = settled[active] | ~np.isfinite(move)
        ahead = s[active] + np.where(done, 0.0, move)
        beyond = (ahead - foot[active]) * side < 0.0
        ahead = np.where(beyond, (s[active] + foot[active]) / 2.0, ahead)
        done |= np.abs(ahead - s[active]) < STEP_NM
        s[active] = np.where(settled[active], s[active], ahead)
        active = active[~done]
    lon[active] = np.nan
    return lon, lat, dist, cut


def _select(mask, first: Crossing, second: Crossing) -> Crossing:
    return Crossing(*[np.where(mask, a, b) for a, b in zip(first, second)])


def arc_arc(lon1, lat1, radius1_nm, lon2, lat2, radius2_nm) -> tuple[Crossing, Crossing]:
    """Crossings of two arcs: first the one left of the geodesic from the first centre to the second.

    Newton on the bearing from the first centre. Within 1 mm of touching there is one solution.
    Parameters: centres and ground radii; they broadcast. Returns: two Crossings. Source: derived here.
    """
    lon1, lat1, radius1, lon2, lat2, radius2 = _rows(lon1, lat1, radius1_nm, lon2, lat2, radius2_nm)
    base1, _, base = geodesy.inverse(lon1, lat1, lon2, lat2)
    over = np.maximum(base - radius1 - radius2, np.abs(radius1 - radius2) - base)
    missed, touching = over > TOUCH_NM, (over <= TOUCH_NM) & (over > -TOUCH_NM)
    inside = radius2 > radius1 + base / 2.0
    r1, r2, d = radius1 / RADIUS_NM, radius2 / RADIUS_NM, base / RADIUS_NM
    with np.errstate(invalid="ignore", divide="ignore"):
        cosine = (np.cos(r2) - np.cos(r1) * np.cos(d)) / (np.sin(r1) * np.sin(d))
        opening = np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0)))
    solutions = []
    for side in (-1.0, 1.0):
        bearing = np.where(touching, base1 + np.where(inside, 180.0, 0.0), base1 + side * opening)
        lon, lat, dist, cut = _swing(lon1, lat1, radius1, lon2, lat2, radius2, bearing, missed | touching)
        only_once = touching & (side > 0.0)
        code = reasons.first(
            reasons.where(base < NEAREST_NM, reasons.SAME_STATION),
            reasons.where(missed | only_once, reasons.ARC_NOT_REACHED),
            reasons.where(~touching & np.isfinite(base) & (cut < LEAST_CUT_DEG), reasons.LINES_PARALLEL),
        )
        solutions.append(_finish(lon, lat, radius1, dist, cut, code))
    return solutions[0], solutions[1]


def _swing(lon1, lat1, radius1, lon2, lat2, radius2, bearing, settled):
    """Newton on the bearing from the first centre until the place lies on the second arc."""
    n = len(bearing)
    lon, lat, dist, cut = (np.full(n, np.nan) for _ in range(4))
    active = np.flatnonzero(np.isfinite(bearing) & np.isfinite(radius1))
    for _ in range(ROUNDS):
        if not len(active):
            break
        p_lon, p_lat, course = geodesy.direct(lon1[active], lat1[active], bearing[active], radius1[active])
        to_second, _, apart = geodesy.inverse(p_lon, p_lat, lon2[active], lat2[active])
        lon[active], lat[active], dist[active] = p_lon, p_lat, apart
        cut[active] = _cut(course, to_second)
        lever = RADIUS_NM * np.sin(radius1[active] / RADIUS_NM)
        with np.errstate(divide="ignore", invalid="ignore"):
            move = (apart - radius2[active]) / (sind(to_second - course) * lever)
        done = settled[active] | ~np.isfinite(move) | (np.abs(move) * lever < STEP_NM)
        bearing[active] = wrap360(bearing[active] + np.degrees(np.where(done, 0.0, np.clip(move, -0.1, 0.1))))
        active = active[~done]
    lon[active] = np.nan
    return lon, lat, dist, cut
