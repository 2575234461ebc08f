"""Holds: the figures of a hold, its racetrack in still air, and the limits of the rules.

The racetrack lives in the frame of the hold (geodesy.place): straight (-L, 0) to the fix, half circle to
(0, 2r), straight to (-L, 2r), half circle back. Left turns are its mirror image.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import NamedTuple

import numpy as np

from . import flight, geodesy, navaids, reasons
from .angles import wrap180, wrap360
from .atmosphere import STANDARD_QNH_HPA, cas_to_tas_kt, mach_to_cas_kt, pressure_altitude_ft
from .magnetism import declination_deg
from .navaids import MODEL, STATION

RULES, ICAO, FAA = flight.RULES, flight.ICAO, flight.FAA
TURNS = ("right", "left")
LEG_KINDS = ("time", "distance")
TIME, DISTANCE = range(2)
LEG_ENDS = ("dme", "along_track", "inbound_length")
DME_END, ALONG_TRACK, INBOUND_LENGTH = range(3)
LEGS = ("turn_out", "outbound", "turn_in", "inbound")


class SpeedLimit(NamedTuple):
    up_to_ft: float
    ias_kt: float
    mach: float
    source: str


SPEED_LIMITS = {
    "icao": (
        SpeedLimit(14_000.0, 230.0, np.nan, "ICAO Doc 8168 Vol II, 5th ed., Table II-4-1-2"),
        SpeedLimit(20_000.0, 240.0, np.nan, "ICAO Doc 8168 Vol II, 5th ed., Table II-4-1-2"),
        SpeedLimit(34_000.0, 265.0, np.nan, "ICAO Doc 8168 Vol II, 5th ed., Table II-4-1-2"),
        SpeedLimit(np.inf, np.nan, 0.83, "ICAO Doc 8168 Vol II, 5th ed., Table II-4-1-2"),
    ),
    "faa": (
        SpeedLimit(6_000.0, 200.0, np.nan, "FAA AIM 5-3-8 j.2(a)"),
        SpeedLimit(14_000.0, 230.0, np.nan, "FAA AIM 5-3-8 j.2(a)"),
        SpeedLimit(np.inf, 265.0, np.nan, "FAA AIM 5-3-8 j.2(a)"),
    ),
}
"""Highest holding speed by altitude, normal conditions, no published restriction."""


class LegRule(NamedTuple):
    up_to_ft: float
    minutes: float
    timed_leg: str
    source: str


LEG_RULES = {
    "icao": (
        LegRule(14_000.0, 1.0, "outbound", "ICAO Doc 8168, outbound still-air time, as carried in AIPs, ENR 1.5"),
        LegRule(np.inf, 1.5, "outbound", "ICAO Doc 8168, outbound still-air time, as carried in AIPs, ENR 1.5"),
    ),
    "faa": (
        LegRule(14_000.0, 1.0, "inbound", "FAA AIM 5-3-8 j.4(a)"),
        LegRule(np.inf, 1.5, "inbound", "FAA AIM 5-3-8 j.4(a)"),
    ),
}
"""Standard leg time by altitude, and the leg that the rules time."""

LEAST_SPEED_KT = 90.0
LEAST_SPEED_SOURCE = "FAA AIM 5-3-8 j.2"
LEAST_INBOUND_S = 30.0
LEAST_INBOUND_SOURCE = "ICAO Doc 8168 Vol II, 5th ed., II-4-1-4, 1.3.2.3"
MOST_OFF_STATION_DEG = 23.0
MOST_OFF_STATION_SOURCE = "ICAO Doc 8168 Vol II, I-2-2, from memory"


def _by_altitude(table, alt_ft, column: str) -> np.ndarray:
    tops = np.array([row.up_to_ft for row in table])
    values = np.array([getattr(row, column) for row in table])
    alt = np.asarray(alt_ft, dtype=np.float64)
    index = np.searchsorted(tops, np.where(np.isfinite(alt), alt, 0.0), side="left")
    return np.where(np.isfinite(alt), values[np.minimum(index, len(table) - 1)], np.nan)


def maximum_ias_kt(alt_ft, rules) -> np.ndarray:
    """Highest holding IAS at an altitude where nothing lower is published.

    Parameters: alt_ft; rules, codes of RULES; they broadcast. Returns: kt; above the ICAO table's last speed
    the IAS of its Mach number in the ISA. Source: SPEED_LIMITS.

    >>> float(maximum_ias_kt(6001.0, FAA)), float(maximum_ias_kt(20000.0, ICAO))
    (230.0, 240.0)
    """
    alt, rules = np.broadcast_arrays(np.asarray(alt_ft, float), np.asarray(rules))
    out = np.full(alt.shape, np.nan)
    for code, name in enumerate(RULES):
        ias = _by_altitude(SPEED_LIMITS[name], alt, "ias_kt")
        mach = _by_altitude(SPEED_LIMITS[name], alt, "mach")
        high = np.isfinite(mach)
        if high.any():
            ias[high] = mach_to_cas_kt(mach[high], alt[high])
        out = np.where(rules == code, ias, out)
    return out


def _limits_in_block(alt_ft, alt_to_ft, rules) -> np.ndarray:
    """Every holding speed limit that holds somewhere between two altitudes: (..., L), NaN where it does not."""
    low, high, rules = np.broadcast_arrays(np.asarray(alt_ft, float), np.asarray(alt_to_ft, float), np.asarray(rules))
    found = [maximum_ias_kt(low, rules), maximum_ias_kt(high, rules)]
    for code, name in enumerate(RULES):
        for row in SPEED_LIMITS[name][:-1]:
            for edge in (row.up_to_ft, row.up_to_ft + 1.0):
                inside = (rules == code) & (low <= edge) & (edge <= high)
                found.append(np.where(inside, maximum_ias_kt(edge, code), np.nan))
    return np.stack(found, axis=-1)


def maximum_ias_in_block_kt(alt_ft, alt_to_ft, rules) -> np.ndarray:
    """Highest holding IAS anywhere between two altitudes, which an area for the block must hold.

    Parameters broadcast; alt_to_ft >= alt_ft. Returns: kt. Source: SPEED_LIMITS.

    >>> float(maximum_ias_in_block_kt(13000.0, 16000.0, ICAO))
    240.0
    """
    return np.fmax.reduce(_limits_in_block(alt_ft, alt_to_ft, rules), axis=-1)


def least_maximum_ias_in_block_kt(alt_ft, alt_to_ft, rules) -> np.ndarray:
    """Lowest holding speed limit anywhere between two altitudes, which an aeroplane in the block must keep.

    Parameters and source as maximum_ias_in_block_kt.

    >>> float(least_maximum_ias_in_block_kt(13000.0, 16000.0, ICAO))
    230.0
    """
    return np.fmin.reduce(_limits_in_block(alt_ft, alt_to_ft, rules), axis=-1)


def standard_leg_min(alt_ft, rules) -> np.ndarray:
    """Standard leg time in minutes. Parameters broadcast. Source: LEG_RULES.

    >>> float(standard_leg_min(14000.0, FAA)), float(standard_leg_min(14001.0, ICAO))
    (1.0, 1.5)
    """
    alt, rules = np.broadcast_arrays(np.asarray(alt_ft, float), np.asarray(rules))
    out = np.full(alt.shape, np.nan)
    for code, name in enumerate(RULES):
        out = np.where(rules == code, _by_altitude(LEG_RULES[name], alt, "minutes"), out)
    return out


@dataclass(frozen=True)
class Holds:
    """Holds of N rows: the essentials, the figures derived from them, code and limits.

    Field names are those of the holds layer; side is +1 for right turns, -1 for left; rules, leg_kind,
    leg_end are codes of RULES, LEG_KINDS, LEG_ENDS; code as reasons; limits, object array of sentences.
    """

    lon: np.ndarray
    lat: np.ndarray
    inbound_true_deg: np.ndarray
    side: np.ndarray
    leg_kind: np.ndarray
    leg_min: np.ndarray
    leg_nm: np.ndarray
    leg_end: np.ndarray
    ias_kt: np.ndarray
    area_ias_kt: np.ndarray
    alt_ft: np.ndarray
    alt_to_ft: np.ndarray
    isa_dev_c: np.ndarray
    qnh_hpa: np.ndarray
    rules: np.ndarray
    inbound_model_deg: np.ndarray
    inbound_station_deg: np.ndarray
    outbound_model_deg: np.ndarray
    tas_kt: np.ndarray
    bank_deg: np.ndarray
    rate_dps: np.ndarray
    radius_nm: np.ndarray
    straight_nm: np.ndarray
    width_nm: np.ndarray
    length_nm: np.ndarray
    circuit_s: np.ndarray
    outbound_end_dme_nm: np.ndarray
    var_deg: np.ndarray
    code: np.ndarray
    limits: np.ndarray

    def take(self, index) -> Holds:
        """The rows of an index or mask."""
        return Holds(*[getattr(self, f.name)[index] for f in fields(self)])


def inbound_true(
    lon, lat, inbound_deg, north, *, navaid_lon=np.nan, navaid_lat=np.nan, decl_deg=np.nan, year: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """True inbound course at a fix from a course given in one of the norths, and back in all three.

    Station north is the value on the course selector: the line is the station's radial carried to the fix,
    so the convergence between station and fix is added; where the station is not known, or is the fix, it is
    0; without a declination the selector value is the model's. Model north is the model at the fix.
    Parameters broadcast; degrees. Returns: inbound_true_deg, inbound_model_deg, inbound_station_deg,
    var_deg. Source: definition of station declination (aeronautical glossary, slaved declination); derived here.
    """
    var = declination_deg(lon, lat, year=year)
    to_station, at_station, dist = geodesy.inverse(lon, lat, navaid_lon, navaid_lat)
    convergence = np.where(np.isfinite(dist) & (dist > 1.0 / 1852.0), wrap180(to_station - at_station), 0.0)
    decl = np.asarray(decl_deg, dtype=np.float64)
    station_add = np.where(np.isfinite(decl), decl + convergence, var)
    add = np.where(np.asarray(north) == STATION, station_add, np.where(np.asarray(north) == MODEL, var, 0.0))
    true = wrap360(np.asarray(inbound_deg, dtype=np.float64) + add)
    return true, wrap360(true - var), wrap360(true - station_add), var


def design(
    lon,
    lat,
    *,
    inbound_deg,
    north,
    side,
    rules,
    leg_min,
    leg_nm,
    leg_end,
    ias_kt,
    area_ias_kt=np.nan,
    alt_ft,
    alt_to_ft=np.nan,
    isa_dev_c=0.0,
    qnh_hpa=STANDARD_QNH_HPA,
    navaid_lon=np.nan,
    navaid_lat=np.nan,
    navaid_elev_ft=np.nan,
    decl_deg=np.nan,
    has_dme=True,
    year: float,
) -> Holds:
    """Design holds: courses, speed, turn, legs, and what limits are broken.

    A finite leg_nm makes a distance leg, otherwise leg_min is flown in still air (the outbound leg by ICAO,
    the inbound leg by FAA: the same figure in still air). A distance ends as leg_end says: at a slant reading
    (the fix's reading plus the distance where the inbound course leads towards the station, minus it where it
    leads away), along the track, or as the inbound length.

    Parameters: lon, lat of the fixes; inbound_deg by north (codes of navaids.NORTHS); side +1 right, -1 left;
    rules codes; leg_min; leg_nm NaN for a timed leg; leg_end codes; ias_kt of the aircraft; area_ias_kt, NaN
    for the category's maximum; alt_ft, alt_to_ft (NaN: one level); isa_dev_c; qnh_hpa; the station's place, elevation
    and declination, NaN where there is none; has_dme, whether it gives range; year. They broadcast.
    Returns: Holds; rows whose code is not 0 hold NaN. Errors: ValueError for a year outside the model.
    Source: FAA AIM 5-3-8 j; ICAO Doc 8168 Vol II, II-4-1; frame and racetrack derived here, see DEVELOPERS.md.
    """
    given = (lon, lat, inbound_deg, leg_min, leg_nm, ias_kt, area_ias_kt, alt_ft, alt_to_ft, isa_dev_c, qnh_hpa)
    station = (navaid_lon, navaid_lat, navaid_elev_ft, decl_deg)
    flags = (north, side, rules, leg_end, has_dme)
    shape = np.broadcast_shapes((1,), *[np.shape(a) for a in given + station + flags])
    lon, lat, inbound, leg_min, leg_nm, ias, area_ias, alt, alt_to, isa, qnh = [_spread(a, shape) for a in given]
    s_lon, s_lat, s_elev, decl = [_spread(a, shape) for a in station]
    north, side, rules, leg_end, has_dme = [np.broadcast_to(np.asarray(a), shape) for a in flags]

    leg_kind = np.where(np.isfinite(leg_nm), DISTANCE, TIME)
    alt_to = np.where(np.isfinite(alt_to), alt_to, alt)
    with np.errstate(invalid="ignore"):
        leg_bad = np.where(
            leg_kind == TIME, ~((leg_min >= 0.1) & (leg_min <= 10.0)), ~((leg_nm >= 0.5) & (leg_nm <= 100.0))
        )
        code = reasons.first(
            reasons.where(~((np.abs(lon) <= 360.0) & (np.abs(lat) <= 90.0)), reasons.NO_POSITION),
            reasons.where(np.abs(lat) > 89.0, reasons.NEAR_POLE),
            reasons.where(~np.isfinite(inbound), reasons.NO_COURSE),
            reasons.where((inbound < 0.0) | (inbound > 360.0), reasons.COURSE_RANGE),
            reasons.where(~np.isfinite(alt), reasons.NO_ALTITUDE),
            reasons.where((alt < -2000.0) | (alt > 60_000.0) | (alt_to > 60_000.0), reasons.ALTITUDE_RANGE),
            reasons.where(alt_to < alt, reasons.BLOCK_ORDER),
            reasons.where(~np.isfinite(ias), reasons.NO_SPEED),
            reasons.where((ias < 30.0) | (ias > 500.0) | (area_ias < 30.0) | (area_ias > 500.0), reasons.SPEED_RANGE),
            reasons.where(~((isa >= -80.0) & (isa <= 60.0)), reasons.TEMPERATURE_RANGE),
            reasons.where(leg_bad, reasons.LEG_RANGE),
        )
    lon, lat = np.where(code == 0, lon, np.nan), np.where(code == 0, lat, np.nan)
    true, model, selector, var = inbound_true(
        lon, lat, inbound, north, navaid_lon=s_lon, navaid_lat=s_lat, decl_deg=decl, year=year
    )
    tas = cas_to_tas_kt(ias, pressure_altitude_ft(alt, qnh), isa)
    bank, rate, radius = flight.turn(tas, rules)
    u_station, s_station = geodesy.to_frame(lon, lat, true, side, s_lon, s_lat)
    height = navaids.height_nm(alt, s_elev)
    by_dme, dme_code = dme_leg_nm(leg_nm, u_station, s_station, radius, np.where(has_dme, height, np.nan))
    ends_by_dme = (leg_kind == DISTANCE) & (leg_end == DME_END)
    straight = np.where(leg_kind == TIME, tas / 3600.0 * 60.0 * leg_min, np.where(ends_by_dme, by_dme, leg_nm))
    code = reasons.first(
        code, reasons.where(~np.isfinite(tas), reasons.NOT_SUBSONIC), np.where(ends_by_dme, dme_code, reasons.OK)
    )
    end_lon, end_lat = geodesy.place(lon, lat, true, side, -straight, 2.0 * radius)
    _, _, end_dist = geodesy.inverse(end_lon, end_lat, s_lon, s_lat)
    end_dme = np.where(has_dme, navaids.slant_from_ground_nm(end_dist, height), np.nan)
    area_ias = np.where(np.isfinite(area_ias), area_ias, maximum_ias_in_block_kt(alt, alt_to, rules))
    leg_s = straight / tas * 3600.0
    good = code == reasons.OK

    def clean(values):
        return np.where(good, values, np.nan)

    hold = Holds(
        lon=wrap180(clean(lon)),
        lat=clean(lat),
        inbound_true_deg=clean(true),
        side=side,
        leg_kind=leg_kind,
        leg_min=np.where(leg_kind == TIME, leg_min, np.nan),
        leg_nm=leg_nm,
        leg_end=leg_end,
        ias_kt=ias,
        area_ias_kt=area_ias,
        alt_ft=alt,
        alt_to_ft=alt_to,
        isa_dev_c=isa,
        qnh_hpa=qnh,
        rules=rules,
        inbound_model_deg=clean(model),
        inbound_station_deg=clean(selector),
        outbound_model_deg=wrap360(clean(model) + 180.0),
        tas_kt=clean(tas),
        bank_deg=clean(bank),
        rate_dps=clean(rate),
        radius_nm=clean(radius),
        straight_nm=clean(straight),
        width_nm=clean(2.0 * radius),
        length_nm=clean(straight + 2.0 * radius),
        circuit_s=clean(360.0 / rate + 2.0 * leg_s),
        outbound_end_dme_nm=clean(end_dme),
        var_deg=clean(var),
        code=code,
        limits=np.full(shape, "", dtype=object),
    )
    off_station = np.degrees(np.arctan2(np.abs(s_station), np.abs(u_station)))
    return Holds(*[getattr(hold, f.name) for f in fields(hold)][:-1], limits(hold, leg_s, ends_by_dme, off_station))


def dme_leg_nm(leg_nm, u_station_nm, s_station_nm, radius_nm, height_nm) -> tuple[np.ndarray, np.ndarray]:
    """Straight outbound length whose end reads the fix's slant range plus or minus a leg, in still air.

    In the frame the outbound end is (-L, 2r): solve |(-L, 2r) - station| = ground distance of the reading.
    Parameters: leg_nm; the station in the frame; radius_nm; height_nm above the station; they broadcast.
    Returns: L in NM (NaN where not good), code. Source: FAA AIM 5-3-8 j, FIG 5-3-5 and 5-3-6.
    """
    leg, us, ss, r, h = np.broadcast_arrays(
        *[np.asarray(a, float) for a in (leg_nm, u_station_nm, s_station_nm, radius_nm, height_nm)]
    )
    fix_dme = np.hypot(np.hypot(us, ss), h)
    reading = fix_dme + np.where(us >= 0.0, leg, -leg)
    with np.errstate(invalid="ignore"):
        ground, short = navaids.ground_from_slant_nm(reading, h)
        across = 2.0 * r - ss
        half_chord = np.sqrt(ground**2 - across**2)
        length = np.where(us >= 0.0, half_chord - us, -us - half_chord)
        reached = np.isfinite(half_chord) & (length > 0.0)
    missing = ~np.isfinite(fix_dme)
    code = reasons.first(
        reasons.where(missing, reasons.NO_DME), short, reasons.where(~reached, reasons.NO_LEG_END)
    )
    return np.where(code == reasons.OK, length, np.nan), code


def limits(hold: Holds, leg_s, ends_by_dme, off_station_deg) -> np.ndarray:
    """Sentences for the limits a hold breaks, each with its paragraph.

    Parameters: hold; leg_s, seconds on a straight leg in still air; ends_by_dme; off_station_deg, angle
    between the course and the line to the station. Returns: object array of str, '' where none is broken.
    """
    least = least_maximum_ias_in_block_kt(hold.alt_ft, hold.alt_to_ft, hold.rules)
    most = maximum_ias_in_block_kt(hold.alt_ft, hold.alt_to_ft, hold.rules)
    texts = np.full(hold.lon.shape, "", dtype=object)
    good = hold.code == reasons.OK

    def over(ias, limit, i: int, what: str) -> str:
        source = SPEED_LIMITS[RULES[int(hold.rules[i])]][0].source
        block = f"from {hold.alt_ft[i]:.0f} to {hold.alt_to_ft[i]:.0f} ft"
        where = block if hold.alt_to_ft[i] > hold.alt_ft[i] else f"at {hold.alt_ft[i]:.0f} ft"
        return f"{what}{ias[i]:.0f} kt is faster than {limit[i]:.0f} kt {where} ({source})"

    with np.errstate(invalid="ignore"):
        reasons.note(texts, good & (hold.ias_kt > least + 1e-9), lambda i: over(hold.ias_kt, least, i, ""))
        reasons.note(
            texts, good & (hold.area_ias_kt > most + 1e-9), lambda i: over(hold.area_ias_kt, most, i, "the area's ")
        )
        reasons.note(
            texts,
            good & (hold.ias_kt > hold.area_ias_kt + 1e-9) & (hold.area_ias_kt < most - 1e-9),
            lambda i: f"{hold.ias_kt[i]:.0f} kt is faster than the {hold.area_ias_kt[i]:.0f} kt of the area",
        )
        reasons.note(
            texts,
            good & (hold.rules == FAA) & (hold.ias_kt < LEAST_SPEED_KT),
            lambda i: f"{hold.ias_kt[i]:.0f} kt is slower than {LEAST_SPEED_KT:.0f} kt ({LEAST_SPEED_SOURCE})",
        )
        reasons.note(
            texts,
            good & (hold.leg_kind == DISTANCE) & (leg_s < LEAST_INBOUND_S),
            lambda i: f"the inbound leg lasts {leg_s[i]:.0f} s, less than {LEAST_INBOUND_S:.0f} s "
            f"({LEAST_INBOUND_SOURCE})",
        )
        reasons.note(
            texts,
            good & ends_by_dme & (off_station_deg > MOST_OFF_STATION_DEG),
            lambda i: f"the DME lies {off_station_deg[i]:.0f} degrees off the course, more than "
            f"{MOST_OFF_STATION_DEG:.0f} ({MOST_OFF_STATION_SOURCE})",
        )
    return texts


def _spread(value, shape) -> np.ndarray:
    return np.broadcast_to(np.asarray(value, dtype=np.float64), shape)
