"""What the legs of a hold ask of its circuit and of its entry, by rules and leg end."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

import numpy as np

from .. import circuit, entry_paths, geodesy, holds, leg_ends, navaids, reasons
from ..circuit import Air, Circuit
from ..holds import Holds
from ..segments import displacement


class Station(NamedTuple):
    """The DME that ends the legs, N rows or one; NaN where there is none."""

    lon: np.ndarray
    lat: np.ndarray
    elev_ft: np.ndarray


NO_STATION = Station(np.nan, np.nan, np.nan)


class EntryDistance(NamedTuple):
    source: str


ENTRY_DISTANCE_RULE = EntryDistance(
    "FAA AIM 5-3-8 j.5 (DME and RNAV: distances replace times); ICAO Doc 8168 Vol I, I-6-1 (from memory): the entry's "
    "outbound leg is flown for the time or to the limiting distance"
)
"""The first leg of an entry to a distance hold ends where the hold's own distance does."""


class Leg(NamedTuple):
    """What circuit.solve is asked, N rows; code."""

    given: np.ndarray
    value: np.ndarray
    clock: np.ndarray
    station_u_nm: np.ndarray
    station_s_nm: np.ndarray
    code: np.ndarray


def leg_of(hold: Holds, timing, station: Station = NO_STATION) -> Leg:
    """What a hold's rules and leg ask of its circuit.

    A timed leg is the inbound by FAA and the outbound by ICAO, by a clock; a distance ends as leg_end says, a DME
    reading at the ground distance of the slant range. Parameters: hold, N rows; timing, circuit.ABEAM or
    LATER_OF_BOTH; station. Returns: Leg; NO_DME or SLANT_TOO_SHORT where a reading has no station or no ground
    distance. Source: FAA AIM 5-3-8 j; ICAO Doc 8168 Vol II, II-4-1; later of both: common practice.
    """
    shape = hold.lon.shape
    lon, lat, elev = (np.broadcast_to(np.asarray(a, float), shape) for a in station)
    us, ss = geodesy.to_frame(hold.lon, hold.lat, hold.inbound_true_deg, hold.side, lon, lat)
    height = navaids.height_nm(hold.alt_ft, elev)
    with np.errstate(invalid="ignore"):
        fix_dme = np.hypot(np.hypot(us, ss), height)
        ground, short = navaids.ground_from_slant_nm(fix_dme + np.where(us >= 0.0, 1.0, -1.0) * hold.leg_nm, height)
    timed, by_dme = hold.leg_kind == holds.TIME, hold.leg_end == holds.DME_END
    given = np.select(
        [timed & (hold.rules == holds.FAA), timed, by_dme, hold.leg_end == holds.ALONG_TRACK],
        [circuit.INBOUND_TIME, circuit.OUTBOUND_TIME, circuit.OUTBOUND_DME, circuit.OUTBOUND_ALONG],
        default=circuit.INBOUND_LENGTH,
    )
    value = np.where(timed, hold.leg_min * 60.0, np.where(by_dme, ground, hold.leg_nm))
    dme_code = reasons.first(reasons.where(~np.isfinite(fix_dme), reasons.NO_DME), short)
    return Leg(given, value, np.broadcast_to(timing, shape), us, ss, np.where(timed | ~by_dme, reasons.OK, dme_code))


def circuit_of(
    hold: Holds, wind_from_deg, wind_kt, timing=circuit.ABEAM, station: Station = NO_STATION,
    start_heading_true_deg=np.nan, roll_s=0.0,
) -> Circuit:  # fmt: skip
    """Circuits of holds in a wind, by their rules and legs.

    Parameters: hold, N rows; wind_from_deg true; wind_kt; timing and station as leg_of; start_heading_true_deg, of
    a direct entry, NaN for the inbound heading; roll_s as circuit.solve. Returns: Circuit; its code is the hold's, the
    leg's or its own. Source: leg_of, circuit.solve.
    """
    leg = leg_of(hold, timing, station)
    one = circuit.solve(
        hold.inbound_true_deg, hold.side, hold.tas_kt, hold.rate_dps, wind_from_deg, wind_kt, leg.given, leg.value,
        clock=leg.clock, station_u_nm=leg.station_u_nm, station_s_nm=leg.station_s_nm,
        start_heading_deg=start_heading_true_deg, roll_s=roll_s,
    )  # fmt: skip
    return replace(one, code=reasons.first(hold.code, leg.code, one.code))


def leg_time_s(hold: Holds) -> np.ndarray:
    """Seconds of a hold's leg in still air (N,): what the rules time, or what its distance takes."""
    return np.where(hold.leg_kind == holds.TIME, hold.leg_min * 60.0, hold.straight_nm / hold.tas_kt * 3600.0)


def entry_leg(hold: Holds, leg: Leg, usual: Circuit, air: Air, start_rad, heading_rad) -> tuple[np.ndarray, np.ndarray]:
    """How an entry's first leg ends in a distance hold, which is where the hold's outbound leg ends.

    At the DME reading; at the distance along the inbound course; for a given inbound length as far along as the
    circuit's own outbound leg goes in this wind. Parameters: hold, its leg and circuit, air, N rows; start_rad,
    heading at the fix, and heading_rad of the leg, in the frame. Returns: seconds from roll-out, and the distance in NM
    that the hold says (along the course where it is an inbound length); NaN for timed holds, and where the leg
    meets no such distance. Source: ENTRY_DISTANCE_RULE.
    """
    out = np.pi - usual.eps_rad
    in_u, _ = displacement(air.v, air.wa, air.wc, out, air.omega, usual.turn_in_s, air.roll_s)
    along = np.where(hold.leg_end == holds.INBOUND_LENGTH, usual.inbound_nm + in_u, hold.leg_nm)
    _, u, s = entry_paths.first_turn(air, start_rad, heading_rad)
    vu, vs = air.v * np.cos(heading_rad) + air.wa, air.v * np.sin(heading_rad) + air.wc
    seconds = np.where(
        hold.leg_end == holds.DME_END,
        leg_ends.until_reading_s(leg.value, u, s, vu, vs, leg.station_u_nm, leg.station_s_nm),
        leg_ends.until_along_s(along, u, vu),
    )
    met = (hold.leg_kind == holds.DISTANCE) & (seconds > 0.0)
    return np.where(met, seconds, np.nan), np.where(met, along, np.nan)


def leg_end_words(hold: Holds) -> np.ndarray:
    """What ends the outbound legs of distance holds, to stand after "End of the outbound leg"; '' for timed ones."""
    words = entry_end_words(hold, hold.leg_nm)
    inbound = (hold.leg_kind == holds.DISTANCE) & (hold.leg_end == holds.INBOUND_LENGTH) & (hold.code == reasons.OK)
    words[inbound] = ""
    reasons.note(words, inbound, lambda i: f": {hold.leg_nm[i]:.1f} NM will be left inbound")
    return words


def entry_end_words(hold: Holds, distance_nm) -> np.ndarray:
    """The same for the first leg of an entry that ends at a distance (N,); '' where it is NaN."""
    words = np.full(hold.lon.shape, "", dtype=object)
    distance = (hold.leg_kind == holds.DISTANCE) & (hold.code == reasons.OK) & np.isfinite(distance_nm)
    by_dme = hold.leg_end == holds.DME_END
    reasons.note(words, distance & by_dme, lambda i: f": DME {hold.outbound_end_dme_nm[i]:.1f}")
    reasons.note(words, distance & ~by_dme, lambda i: f": {distance_nm[i]:.1f} NM along the track")
    return words
