"""Where lines of position cross: radials (geodesic rays) and DME arcs (geodesic circles), on the ellipsoid.

Each solver starts on a sphere from the geodesic between the stations and iterates on the ellipsoid until the
place is good to 0.1 mm. Vectorised: rows that have no crossing carry a code.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, reasons
from .angles import cosd, sind, wrap180
from .geodesy import MEAN_RADIUS_M
from .units import NM_M

RADIUS_NM = MEAN_RADIUS_M / NM_M
STEP_NM = 1e-5 / NM_M
"""Iteration ends when no place moves by more than 0.01 mm."""
TOUCH_NM = 1e-3 / NM_M
"""Lines that pass each other by no more touch; limits of range are kept to within it."""
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
            reasons.where(np.minimum(first, second) < NEAREST_NM - TOUCH_NM, reasons.BEHIND_STATION),
            reasons.where(np.maximum(first, second) > FARTHEST_NM + TOUCH_NM, reasons.CROSSING_RANGE),
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
        s1[active] += np.where(lost, 0.0, e1)
        s2[active] += np.where(lost, 0.0, e2)
        lon[active[lost]] = np.nan
        # the place used is one step old: a last move below the limit leaves it within the tolerance
        active = active[~lost & (moved >= STEP_NM)]
    lon[active] = np.nan
    code = reasons.first(
        reasons.where(base < NEAREST_NM, reasons.SAME_STATION),
        reasons.where(np.isfinite(base + az1 + az2) & ~(cut >= LEAST_CUT_DEG), reasons.LINES_PARALLEL),
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
    foot, apart = _foot(lon1, lat1, az, lon2, lat2)
    missed = apart > radius + TOUCH_NM
    touching = ~missed & (apart > radius - TOUCH_NM)
    with np.errstate(invalid="ignore"):
        product = np.tan((radius - apart) / (2.0 * RADIUS_NM)) * np.tan((radius + apart) / (2.0 * RADIUS_NM))
        half = 2.0 * RADIUS_NM * np.arctan(np.sqrt(np.maximum(product, 0.0)))
    half = np.where(touching, 0.0, half)
    solutions = []
    for side in (-1.0, 1.0):

        def along(rows, x, side=side):
            p_lon, p_lat, course = geodesy.direct(lon1[rows], lat1[rows], az[rows], foot[rows] + side * x)
            to_centre, _, dist = geodesy.inverse(p_lon, p_lat, lon2[rows], lat2[rows])
            return p_lon, p_lat, dist, -side * cosd(to_centre - course), _cut(course, to_centre + 90.0)

        x, lon, lat, dist, cut = _slide(along, radius, half, radius + apart, missed | touching)
        only_once = touching & (side > 0.0)
        code = reasons.first(
            reasons.where(missed | only_once, reasons.ARC_NOT_REACHED),
            reasons.where(~touching & np.isfinite(apart) & (cut < LEAST_CUT_DEG), reasons.LINES_PARALLEL),
        )
        solutions.append(_finish(lon, lat, foot + side * x, dist, cut, code))
    near, far = solutions
    swap = (near.code != reasons.OK) & (far.code == reasons.OK)
    return _select(swap, far, near), _select(swap, near, far)


def _foot(lon1, lat1, az, lon2, lat2) -> tuple[np.ndarray, np.ndarray]:
    """Where rays pass nearest to points: distance along the ray, and least distance, by repeated projection."""
    foot, apart = np.zeros(len(az)), np.full(len(az), np.nan)
    active = np.arange(len(az))
    for _ in range(ROUNDS):
        lon, lat, course = geodesy.direct(lon1[active], lat1[active], az[active], foot[active])
        towards, _, apart[active] = geodesy.inverse(lon, lat, lon2[active], lat2[active])
        move = RADIUS_NM * np.arctan(np.tan(apart[active] / RADIUS_NM) * cosd(towards - course))
        foot[active] += move
        active = active[np.abs(move) > STEP_NM]
        if not len(active):
            break
    return foot, apart


def _slide(along, target, start, farthest, settled):
    """Newton on a way along a line until it lies at a distance from the other line's station.

    The distance rises with the way from its least at 0 to its most at `farthest`; a step that leaves what is known to
    hold the solution becomes half of it. along(rows, x) gives the place, its distance, how the distance rises with x,
    and the cut; settled rows stay where they start. Returns: x, lon, lat, distance, cut; NaN where not solved.
    """
    n = len(start)
    x, low, high = start.copy(), np.zeros(n), farthest.copy()
    lon, lat, dist, cut = (np.full(n, np.nan) for _ in range(4))
    active = np.flatnonzero(np.isfinite(start) & np.isfinite(target))
    for _ in range(ROUNDS):
        if not len(active):
            break
        here = x[active]
        lon[active], lat[active], dist[active], slope, cut[active] = along(active, here)
        short = dist[active] - target[active]
        low[active], high[active] = np.where(short < 0.0, here, low[active]), np.where(short < 0.0, high[active], here)
        with np.errstate(divide="ignore", invalid="ignore"):
            ahead = here - short / slope
        held = (ahead >= low[active]) & (ahead <= high[active])
        ahead = np.where(held, ahead, (low[active] + high[active]) / 2.0)
        done = settled[active] | (np.abs(ahead - here) < STEP_NM)
        x[active] = np.where(done, here, ahead)
        active = active[~done]
    lon[active] = np.nan
    return x, lon, lat, dist, cut


def _select(mask, first: Crossing, second: Crossing) -> Crossing:
    return Crossing(*[np.where(mask, a, b) for a, b in zip(first, second)])


def arc_arc(lon1, lat1, radius1_nm, lon2, lat2, radius2_nm) -> tuple[Crossing, Crossing]:
    """Crossings of two arcs: first the one left of the geodesic from the first centre to the second.

    Newton along the smaller arc, on either side of the line of centres. Within 1 mm of touching there is one
    solution, the touching point, and the second carries ARC_NOT_REACHED.
    Parameters: centres and ground radii; they broadcast. Returns: two Crossings. Source: derived here.
    """
    lon1, lat1, radius1, lon2, lat2, radius2 = _rows(lon1, lat1, radius1_nm, lon2, lat2, radius2_nm)
    base1, base2, base = geodesy.inverse(lon1, lat1, lon2, lat2)
    over = np.maximum(base - radius1 - radius2, np.abs(radius1 - radius2) - base)
    missed, touching = over > TOUCH_NM, (over <= TOUCH_NM) & (over > -TOUCH_NM)

    second = radius2 < radius1
    lon, lat, to_lon, to_lat = (
        np.where(second, a, b) for a, b in ((lon2, lon1), (lat2, lat1), (lon1, lon2), (lat1, lat2))
    )
    radius, target = np.minimum(radius1, radius2), np.maximum(radius1, radius2)
    towards = np.where(second, base2 + 180.0, base1)
    lever = RADIUS_NM * np.sin(radius / RADIUS_NM)
    opening = _angle_of_sides(radius / RADIUS_NM, base / RADIUS_NM, target / RADIUS_NM)
    # arcs touch between the centres, or on the far side of the smaller one where it lies within the other
    opening = np.where(touching, np.where(target > base, np.pi, 0.0), opening)
    solutions = []
    for left in (-1.0, 1.0):
        side = np.where(second, -left, left)

        def along(rows, x, side=side):
            bearing = towards[rows] + side[rows] * np.degrees(x / lever[rows])
            p_lon, p_lat, course = geodesy.direct(lon[rows], lat[rows], bearing, radius[rows])
            to_other, _, dist = geodesy.inverse(p_lon, p_lat, to_lon[rows], to_lat[rows])
            return p_lon, p_lat, dist, -side[rows] * sind(to_other - course), _cut(course, to_other)

        _, p_lon, p_lat, dist, cut = _slide(along, target, opening * lever, np.pi * lever, missed | touching)
        only_once = touching & (left > 0.0)
        code = reasons.first(
            reasons.where(base < NEAREST_NM, reasons.SAME_STATION),
            reasons.where(missed | only_once, reasons.ARC_NOT_REACHED),
            reasons.where(~touching & np.isfinite(base) & (cut < LEAST_CUT_DEG), reasons.LINES_PARALLEL),
        )
        first, other = np.where(second, dist, radius), np.where(second, radius, dist)
        solutions.append(_finish(p_lon, p_lat, first, other, cut, code))
    return solutions[0], solutions[1]


def _angle_of_sides(b, c, a) -> np.ndarray:
    """Angle between the sides b and c of a spherical triangle whose third side is a, all in radians."""
    s = (a + b + c) / 2.0
    with np.errstate(invalid="ignore"):
        opposite, adjacent = (
            np.sqrt(np.maximum(product, 0.0)) for product in (np.sin(s - b) * np.sin(s - c), np.sin(s) * np.sin(s - a))
        )
    return 2.0 * np.arctan2(opposite, adjacent)
