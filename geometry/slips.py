"""Where one lands when a fix is set wrong: the slips people make, and what coarse settings cost.

A slip is judged by the distance between the place meant and the place set, both on the ellipsoid. Two numbers
are never mixed: what a slip does to this fix, and the worst that a step of setting can do to any fix there.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, navaids
from .angles import cosd, sind, wrap180
from .fixes import Station
from .units import NM_M

HALF_WAY = 1e-7
"""A value that is half a step to within this part of a step counts as half: it is rounded away from zero."""
POSITION_STEPS_MIN = (0.1, 0.01, 0.001)


class Slip(NamedTuple):
    """One slip: its key, what happened in words a pilot uses, where the sentence comes from, and its mark."""

    key: str
    sentence: str
    source: str
    mark: str


_PRACTICE = "common practice"
_NORTH = "aeronautical glossary, slaved declination: a radial keeps the north its station was set to"
_SLANT = "ICAO Doc 8168 Vol II, 5th ed. 2006, I-4-3-App C-13: a DME reads slant range"
_PUBLISHED = "published"

SLIPS = (
    Slip("radial_whole", "the radial is set in whole degrees", "finest step of many selectors", _PRACTICE),
    Slip("radial_tenth", "the radial is set in tenths of a degree", "finest step of many navigators", _PRACTICE),
    Slip("radial_reciprocal", "the reciprocal of the radial is set", "radial and course confused", _PRACTICE),
    Slip(
        "course_reciprocal_station",
        "the reciprocal of the course shown to the station is set as a radial, by the station's declination",
        "the course shown is by today's variation, the radial by the station's declination",
        _PRACTICE,
    ),
    Slip(
        "course_reciprocal_model",
        "the reciprocal of the course shown to the station is set as a radial, by today's variation there",
        "the course changes along the line, and so does the variation",
        _PRACTICE,
    ),
    Slip("north_model", "the radial is drawn by today's variation, not the station's declination", _NORTH, _PUBLISHED),
    Slip("declination_sign", "the station's declination is taken with the wrong sign", _NORTH, _PUBLISHED),
    Slip("dme_as_ground", "the DME reading is set as a distance along the ground", _SLANT, _PUBLISHED),
    Slip("position_0_1", "latitude and longitude are set to 0.1 minute", "finest step of some navigators", _PRACTICE),
    Slip("position_0_01", "latitude and longitude are set to 0.01 minute", "step of many navigators", _PRACTICE),
    Slip("position_0_001", "latitude and longitude are set to 0.001 minute", "step of many navigators", _PRACTICE),
    Slip("side", "the fix is set on the other side of the point: before for beyond, or beyond for before",
         "wrong sign of the distance along the track", _PRACTICE),
)  # fmt: skip
"""Every slip, in the order of a card."""


def slips(
    station: Station,
    lon,
    lat,
    *,
    radial_deg=np.nan,
    dme_nm=np.nan,
    var_station_deg=np.nan,
    var_fix_deg=np.nan,
    point_lon=np.nan,
    point_lat=np.nan,
) -> dict[str, np.ndarray]:
    """How far from each fix one lands by every slip of SLIPS.

    A wrong radial turns the line from the station to the fix and keeps its length; the course shown at the fix is
    that of the geodesic to the station less the model's variation at the fix. The reciprocal of the course shown
    to an NDB is its bearing, no slip; declination slips need a station with a declination of its own.

    Parameters: station, N rows (NaN position: none); lon, lat of the fixes; radial_deg by the station's own north
    (an NDB: the bearing read at the fix), [0, 360]; dme_nm, slant range read at the fix; var_station_deg and
    var_fix_deg, the model's variation at the station and at the fix, east positive; point_lon, point_lat, the
    point that an along-track fix is counted from. They broadcast; NaN where there is none.
    Returns: one array of N rows by key, NM; NaN where a slip does not apply. Source: SLIPS; distances are
    geodesic, derived here.

    >>> vor = Station.of(10.0, 50.0, 0.0, 0.0, "VOR/DME")
    >>> lon, lat, _ = geodesy.direct([10.0], [50.0], [62.37], [15.03])
    >>> out = slips(vor, lon, lat, radial_deg=62.37)
    >>> round(float(out["radial_whole"][0]), 3), round(float(out["radial_reciprocal"][0]), 2)
    (0.097, 30.06)
    """
    numbers = (lon, lat, radial_deg, dme_nm, var_station_deg, var_fix_deg, point_lon, point_lat)
    arrays = [np.asarray(a, dtype=np.float64) for a in numbers]
    shape = np.broadcast_shapes((1,), station.lon.shape, *[a.shape for a in arrays])
    lon, lat, radial, dme, var_station, var_fix, point_lon, point_lat = [np.broadcast_to(a, shape) for a in arrays]
    station = station.spread(shape)
    s_lon, s_lat, decl, kind = station.lon, station.lat, station.decl_deg, station.kind
    azimuth, _, ground = geodesy.inverse(s_lon, s_lat, lon, lat)
    shown = geodesy.inverse(lon, lat, s_lon, s_lat)[0] - var_fix

    own_north = navaids.gives_radials(kind)
    has_radial = np.isfinite(radial) & (own_north | navaids.gives_bearings(kind))
    aligned = has_radial & own_north & np.isfinite(decl)
    turns = {
        "radial_whole": (has_radial, round_half_away(radial, 1.0) - radial),
        "radial_tenth": (has_radial, round_half_away(radial, 0.1) - radial),
        "radial_reciprocal": (has_radial, np.full(shape, 180.0)),
        "course_reciprocal_station": (aligned, shown + 180.0 + decl - azimuth),
        "course_reciprocal_model": (aligned, shown + 180.0 + var_station - azimuth),
        "north_model": (aligned, var_station - decl),
        "declination_sign": (aligned, -2.0 * decl),
    }
    out = {key: _turned_nm(s_lon, s_lat, lon, lat, azimuth + np.where(ok, turn, np.nan), ground)
           for key, (ok, turn) in turns.items()}  # fmt: skip
    reads = np.where(navaids.gives_range(kind), dme, np.nan)
    from_dme = geodesy.inverse(station.dme_lon, station.dme_lat, lon, lat)[0]
    out["dme_as_ground"] = _turned_nm(station.dme_lon, station.dme_lat, lon, lat, from_dme, reads)
    for step in POSITION_STEPS_MIN:
        out["position_" + str(step).replace(".", "_")] = rounded_position_nm(lon, lat, step)
    out["side"] = 2.0 * geodesy.inverse(point_lon, point_lat, lon, lat)[2]
    return {slip.key: out[slip.key] for slip in SLIPS}


def _turned_nm(s_lon, s_lat, lon, lat, azimuth, ground) -> np.ndarray:
    set_lon, set_lat, _ = geodesy.direct(s_lon, s_lat, azimuth, ground)
    return geodesy.inverse(lon, lat, set_lon, set_lat)[2]


def round_half_away(value, step: float) -> np.ndarray:
    """Value rounded to a step, half a step away from zero.

    Parameters: value, any shape; step > 0. Returns: the same shape. Errors: ValueError for a step that is not
    positive.

    >>> [float(v) for v in round_half_away([62.5, -0.5, 62.49], 1.0)]
    [63.0, -1.0, 62.0]
    """
    value = np.asarray(value, dtype=np.float64)
    return np.sign(value) * np.floor(np.abs(value) / _positive("step", step) + 0.5 + HALF_WAY) * step


def rounded_radial_distance_nm(
    lon, lat, radial_deg, decl_deg, distance_nm, radial_step_deg: float, distance_step_nm: float
) -> np.ndarray:
    """How far this fix moves when its radial and distance are rounded, half away from zero.

    Parameters: lon, lat of the station; radial_deg; decl_deg, its declination; distance_nm along the ground;
    they broadcast; steps > 0. Returns: NM. Errors: ValueError for a step that is not positive.
    Source: derived here (setting error).

    >>> round(float(rounded_radial_distance_nm(10.0, 50.0, 62.37, 0.0, 15.03, 1.0, 0.1)) * 1852.0, 2)
    187.97
    """
    radial, distance = np.asarray(radial_deg, dtype=np.float64), np.asarray(distance_nm, dtype=np.float64)
    set_radial = round_half_away(radial, _positive("radial_step_deg", radial_step_deg))
    set_distance = round_half_away(distance, _positive("distance_step_nm", distance_step_nm))
    meant = geodesy.direct(lon, lat, radial + decl_deg, distance)[:2]
    return geodesy.inverse(*meant, *geodesy.direct(lon, lat, set_radial + decl_deg, set_distance)[:2])[2]


def rounded_position_nm(lon, lat, step_min: float) -> np.ndarray:
    """How far this fix moves when its latitude and longitude are rounded to a step of minutes, half away from zero.

    Parameters: lon, lat degrees, which broadcast; step_min > 0. Returns: NM. Errors: ValueError for a step that
    is not positive. Source: derived here (setting error).

    >>> round(float(rounded_position_nm(10.342948431, 50.116745770, 0.01)) * 1852.0, 2)
    9.54
    """
    step = _positive("step_min", step_min)
    set_lon, set_lat = (round_half_away(np.asarray(a, float) * 60.0, step) / 60.0 for a in (lon, lat))
    return geodesy.inverse(lon, lat, set_lon, set_lat)[2]


def worst_radial_distance_nm(distance_nm, radial_step_deg, distance_step_nm) -> np.ndarray:
    """Farthest that any fix at a distance can move when radial and distance are set in steps: half a step of each.

    sqrt(D^2 + D'^2 - 2 D D' cos(q / 2)), D' = D + half a distance step, q the radial step.
    Parameters: distance_nm D > 0; radial_step_deg, distance_step_nm >= 0 (0: exact). They broadcast.
    Returns: NM. Source: derived here (law of cosines in a plane).

    >>> round(float(worst_radial_distance_nm(20.0, 1.0, 0.1)) * 1852.0, 1)
    336.6
    """
    near, q, step = (np.asarray(a, dtype=np.float64) for a in (distance_nm, radial_step_deg, distance_step_nm))
    far = near + step / 2.0
    return np.hypot(far - near, 2.0 * np.sqrt(near * far) * sind(q / 4.0))


def worst_position_nm(lat, step_min) -> np.ndarray:
    """Farthest that any fix at a latitude can move when latitude and longitude are set in steps of minutes.

    hypot(M q / 2, N cos(lat) q / 2), q the step as an angle, M and N the radii of curvature of WGS 84.
    Parameters: lat degrees; step_min >= 0. They broadcast. Returns: NM. Source: derived here.

    >>> round(float(worst_position_nm(50.0, 0.1)) * 1852.0, 3)
    110.278
    """
    lat, step = np.broadcast_arrays(np.asarray(lat, dtype=np.float64), np.asarray(step_min, dtype=np.float64))
    half = np.radians(step / 120.0)
    a, e2 = geodesy.GEOD.a / NM_M, geodesy.GEOD.es
    w2 = 1.0 - e2 * sind(lat) ** 2
    north, east = a * (1.0 - e2) / w2**1.5, a / np.sqrt(w2) * cosd(lat)
    return np.hypot(north, east) * half


def wrong_north_nm(distance_nm, error_deg) -> np.ndarray:
    """How far a fix at a distance moves when its radial is drawn from a north that is wrong by an angle.

    2 D sin(error / 2). Parameters: distance_nm >= 0; error_deg, either sign. They broadcast. Returns: NM.
    Source: derived here (chord of a circle).

    >>> round(float(wrong_north_nm(14.0, 1.0)), 5)
    0.24434
    """
    return 2.0 * np.asarray(distance_nm, dtype=np.float64) * np.abs(sind(np.asarray(wrap180(error_deg)) / 2.0))


def _positive(name: str, value: float) -> float:
    if not (np.isfinite(value) and value > 0.0):
        raise ValueError(f"{name} is {value}; it must be a positive number")
    return float(value)
