"""Where lines of position cross: radials (geodesic rays) and DME arcs (geodesic circles), on the ellipsoid.

Each solver starts on a sphere from the geodesic between the stations and iterates on the ellipsoid until the
place is good to 0.1 mm. Vectorised: rows that have no crossing carry a code.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, reasons
from .angles import cosd, cut_angle, sind, wrap180
from .geodesy import MEAN_RADIUS_NM
from .units import NM_M

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
    base1, base2, base_rad = _on_sphere(lon1, lat1, lon2, lat2)
    s1, s2 = _sphere_start(base_rad, np.radians(az1) - base1, np.radians(az2) - base2)
    base = base_rad * MEAN_RADIUS_NM
    close = np.flatnonzero(base < 2.0 * NEAREST_NM)
    if len(close):
        base[close] = geodesy.inverse(lon1[close], lat1[close], lon2[close], lat2[close])[2]
    active = np.flatnonzero(np.isfinite(s1) & np.isfinite(s2) & (base >= NEAREST_NM))
    lon, lat, turn = (np.full(len(s1), np.nan) for _ in range(3))
    for _ in range(ROUNDS):
        if not len(active):
            break
        a_lon, a_lat, course1 = geodesy.direct(lon1[active], lat1[active], az1[active], s1[active])
        b_lon, b_lat, course2 = geodesy.direct(lon2[active], lat2[active], az2[active], s2[active])
        at_a, at_b, gap = geodesy.inverse(a_lon, a_lat, b_lon, b_lat)
        to_b = np.radians(at_a - course1)
        crossing = to_b + np.radians(course2 - at_b)
        with np.errstate(divide="ignore", invalid="ignore"):
            e2 = -gap * np.sin(to_b) / np.sin(crossing)
            e1 = gap * np.cos(to_b) + e2 * np.cos(crossing)
            moved = np.maximum(np.abs(e1), np.abs(e2))
            sound = moved <= 3.0 * MEAN_RADIUS_NM
        lon[active], lat[active], turn[active] = np.where(sound, a_lon, np.nan), a_lat, crossing
        s1[active] += e1
        s2[active] += e2
        # the place used is one step old: a last move below the limit leaves it within the tolerance
        active = active[sound & (moved >= STEP_NM)]
    lon[active] = np.nan
    cut = cut_angle(np.degrees(turn), 0.0)
    code = reasons.first(
        reasons.where(base < NEAREST_NM, reasons.SAME_STATION),
        reasons.where(np.isfinite(base + az1 + az2) & ~(cut >= LEAST_CUT_DEG), reasons.LINES_PARALLEL),
    )
    return _finish(lon, lat, s1, s2, cut, code)


def _on_sphere(lon1, lat1, lon2, lat2) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Courses at both ends of the great circle from 1 to 2, and its length, all in radians: a start for iterations.

    With geocentric latitudes the courses are nearly those of the ellipsoid: within 0.03 degree up to 800 NM.
    """
    y, x = (1.0 - geodesy.GEOD.es) * np.stack([sind(lat1), sind(lat2)]), np.stack([cosd(lat1), cosd(lat2)])
    (sin1, sin2), (cos1, cos2) = y / np.hypot(y, x), x / np.hypot(y, x)
    sin_lon, cos_lon = sind(lon2 - lon1), cosd(lon2 - lon1)
    east1, north1 = cos2 * sin_lon, cos1 * sin2 - sin1 * cos2 * cos_lon
    east2, north2 = cos1 * sin_lon, cos1 * sin2 * cos_lon - sin1 * cos2
    length = np.arctan2(np.hypot(east1, north1), sin1 * sin2 + cos1 * cos2 * cos_lon)
    return np.arctan2(east1, north1), np.arctan2(east2, north2), length


def _sphere_start(base_rad, angle1_rad, angle2_rad) -> tuple[np.ndarray, np.ndarray]:
    """Distances in NM along two rays of a sphere whose stations lie base apart, to where they cross.

    Angles are those between ray and base, both measured in the direction from 1 to 2. Of the two opposite crossings of
    the great circles the one nearer to the first station.
    """
    sin1, cos1, sin2, cos2 = np.sin(angle1_rad), np.cos(angle1_rad), np.sin(angle2_rad), np.cos(angle2_rad)
    sin_base, cos_base = np.sin(base_rad), np.cos(base_rad)
    along1, along2 = sin1 * cos2 - cos1 * cos_base * sin2, cos_base * sin1 * cos2 - cos1 * sin2
    sign = np.where(along1 >= 0.0, 1.0, -1.0)
    s1, s2 = np.arctan2(-sin_base * sin2 * sign, along1 * sign), np.arctan2(-sin_base * sin1 * sign, along2 * sign)
    return s1 * MEAN_RADIUS_NM, s2 * MEAN_RADIUS_NM


def radial_arc(lon1, lat1, azimuth_deg, lon2, lat2, radius_nm) -> tuple[Crossing, Crossing]:
    """Crossings of a radial and an arc, by distance along the radial: the nearer first.

    The foot of the centre on the ray, then Newton along the ray on either side of it. Within 1 mm of touching
    there is one solution, the touching point, and the second carries ARC_NOT_REACHED.
    Parameters: station of the radial, true azimuth; centre and ground radius of the arc; they broadcast.
    Returns: two Crossings. Source: derived here.
    """
    lon1, lat1, az, lon2, lat2, radius = _rows(lon1, lat1, azimuth_deg, lon2, lat2, radius_nm)
    foot, apart = geodesy.foot(lon1, lat1, az, lon2, lat2)
    missed = apart > radius + TOUCH_NM
    touching = ~missed & (apart > radius - TOUCH_NM)
    with np.errstate(invalid="ignore"):
        product = np.tan((radius - apart) / (2.0 * MEAN_RADIUS_NM)) * np.tan((radius + apart) / (2.0 * MEAN_RADIUS_NM))
        half = 2.0 * MEAN_RADIUS_NM * np.arctan(np.sqrt(np.maximum(product, 0.0)))
    half = np.where(touching, 0.0, half)
    solutions = []
    for side in (-1.0, 1.0):

        def along(rows, x, side=side):
            p_lon, p_lat, course = geodesy.direct(lon1[rows], lat1[rows], az[rows], foot[rows] + side * x)
            to_centre, _, dist = geodesy.inverse(p_lon, p_lat, lon2[rows], lat2[rows])
            return p_lon, p_lat, dist, -side * cosd(to_centre - course), cut_angle(course, to_centre + 90.0)

        x, lon, lat, dist, cut = _slide(along, radius, half, radius + apart + NEAREST_NM, missed | touching)
        only_once = touching & (side > 0.0)
        code = reasons.first(
            reasons.where(missed | only_once, reasons.ARC_NOT_REACHED),
            reasons.where(~touching & np.isfinite(apart) & (cut < LEAST_CUT_DEG), reasons.LINES_PARALLEL),
        )
        solutions.append(_finish(lon, lat, foot + side * x, dist, cut, code))
    near, far = solutions
    swap = (near.code != reasons.OK) & (far.code == reasons.OK)
    return _select(swap, far, near), _select(swap, near, far)


def _slide(along, target, start, farthest, settled):
    """Newton on a way along a line until it lies at a distance from the other line's station.

    The distance rises with the way, from less than the target at 0 to more at `farthest`; a step that leaves what is
    known to hold the solution becomes half of it. along(rows, x) gives the place, its distance, how the distance rises
    with x, and the cut; settled rows stay where they start. Returns: x, lon, lat, distance, cut; NaN where not solved.
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
    lever = MEAN_RADIUS_NM * np.sin(radius / MEAN_RADIUS_NM)
    opening = _angle_of_sides(radius / MEAN_RADIUS_NM, base / MEAN_RADIUS_NM, target / MEAN_RADIUS_NM)
    # arcs touch between the centres, or on the far side of the smaller one where it lies within the other
    opening = np.where(touching, np.where(target > base, np.pi, 0.0), opening)
    solutions = []
    for left in (-1.0, 1.0):
        side = np.where(second, -left, left)

        def along(rows, x, side=side):
            bearing = towards[rows] + side[rows] * np.degrees(x / lever[rows])
            p_lon, p_lat, course = geodesy.direct(lon[rows], lat[rows], bearing, radius[rows])
            to_other, _, dist = geodesy.inverse(p_lon, p_lat, to_lon[rows], to_lat[rows])
            return p_lon, p_lat, dist, -side[rows] * sind(to_other - course), cut_angle(course, to_other)

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
