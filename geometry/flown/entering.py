"""The entry of a flight: the path from the fix, and where that does not end on the course, of joining by a circuit."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import entries, entry_paths, flight_parts, holds, reasons
from ..angles import wrap180
from ..circuit import Air, Circuit
from ..flight_parts import Part
from ..holds import Holds
from .legs import Station, circuit_of, entry_end_words, entry_leg, leg_end_words, leg_of, leg_time_s


class Way(NamedTuple):
    """One path to the course, N rows: the path; direct, the circuit it follows where it closes; first_leg_nm, the
    distance that ends its first leg, NaN where a time does; missed, true where the leg should have ended at a distance
    and meets none."""

    path: entry_paths.EntryPath
    direct: Circuit
    first_leg_nm: np.ndarray
    missed: np.ndarray


class Entering(NamedTuple):
    """Entries of N rows: arrival with true headings; start_rad at the fix in the frame; given, false where there is no
    arrival; way; joins, true where the way ends past the fix and joining follows; longer_s, by what a leg is
    lengthened; seconds; code."""

    arrival: entries.Arrival
    start_rad: np.ndarray
    given: np.ndarray
    way: Way
    joins: np.ndarray
    joining: Way | None
    longer_s: np.ndarray
    seconds: np.ndarray
    code: np.ndarray


def enter(
    hold: Holds, usual: Circuit, air: Air, wind_from_deg, wind_kt, timing, station: Station, course_true_deg, on_arc
) -> Entering:
    """Entries of holds; rows without an arrival begin on the inbound heading and take no time.

    Parameters: hold, its usual circuit and air, N rows; wind true, from, kt; timing and station as legs.leg_of;
    course_true_deg to the fix, NaN for no arrival; on_arc, true along a DME arc. Returns: Entering; WIND_TOO_STRONG,
    NO_ENTRY, or the usual circuit's code where it has one. Source: entries.arrive, entry_paths.path,
    legs.ENTRY_DISTANCE_RULE.
    """
    given = ~np.isnan(course_true_deg)
    theta, side = hold.inbound_true_deg, hold.side
    arrival = entries.arrive(
        course_true_deg, theta, side, hold.tas_kt, wind_from_deg, wind_kt, hold.rules, leg_time_s(hold), on_arc
    )
    which = arrival.by_heading.entry
    leg = leg_of(hold, timing, station)

    def in_frame(true_deg):
        return np.radians(wrap180(side * (true_deg - theta)))

    def way(start_rad, start_deg, which, heading, timed_s, to_fix: bool) -> Way:
        direct = circuit_of(hold, wind_from_deg, wind_kt, timing, station, start_deg, air.roll_s)
        by_distance_s, distance = entry_leg(hold, leg, usual, air, start_rad, heading)
        seconds = np.where(np.isnan(by_distance_s), timed_s, by_distance_s)
        path = entry_paths.path(air, start_rad, which, heading, seconds, direct, to_fix)
        distance = np.where(path.closes & (hold.leg_kind == holds.DISTANCE), hold.leg_nm, distance)
        missed = (hold.leg_kind == holds.DISTANCE) & np.isnan(distance)
        return Way(path, direct, np.where(path.longer_s > 0.0, np.nan, distance), missed)

    start = np.where(given, in_frame(arrival.heading_deg), air.kappa_rad)
    as_usual = np.pi - usual.eps_rad
    leg_heading = np.where(which == entries.DIRECT, as_usual, in_frame(arrival.outbound_heading_deg))
    leg_s = np.where(which == entries.DIRECT, usual.outbound_s, arrival.first_leg_s)
    first = way(start, arrival.heading_deg, which, leg_heading, leg_s, True)
    path = first.path
    joins = given & (path.code == reasons.OK) & ~path.on_course
    seconds = np.where(given, path.seconds, 0.0)
    code = np.where(given, path.code, reasons.OK)
    longer, joining = path.longer_s, None
    if joins.any():
        heading = np.where(joins, theta + side * np.degrees(path.end_heading_rad), np.nan)
        direct = np.full(len(theta), entries.DIRECT)
        joining = way(path.end_heading_rad, heading, direct, as_usual, usual.outbound_s, False)
        seconds = np.where(joins, seconds + joining.path.seconds, seconds)
        longer = np.where(joins, joining.path.longer_s, longer)
        code = np.where(joins & (joining.path.code != reasons.OK), reasons.NO_ENTRY, code)
    unmade = given & (np.isnan(arrival.heading_deg) | np.isnan(leg_heading))
    code = reasons.first(
        usual.code,
        reasons.where(np.isinf(course_true_deg), reasons.NOT_FINITE),
        reasons.where(unmade, reasons.WIND_TOO_STRONG),
        code,
    )
    return Entering(arrival, start, given, first, joins, joining, longer, seconds, code)


def parts(hold: Holds, entry: Entering, timing) -> list[Part]:
    """The entry and the joining, where some row needs them. Parameters: hold, its entry; timing as legs.leg_of."""
    timed = hold.leg_kind == holds.TIME

    def part(way: Way, mine) -> Part:
        path, direct = way.path, way.direct
        clock = flight_parts.clock_start_s(direct, timing, timed)
        from_roll_out = np.where(np.isnan(way.first_leg_nm), 0.0, np.nan)
        words = np.where(path.closes, leg_end_words(hold), entry_end_words(hold, way.first_leg_nm))
        return Part(
            np.where(mine[:, None], path.duration_s, 0.0),
            path.rate_rad_s,
            path.heading_rad,
            entry_paths.COLUMNS,
            0,
            flight_parts.at_outbound(np.where(path.closes, direct.abeam_after_roll_out_s, np.nan), 6),
            flight_parts.at_outbound(np.where(path.closes, clock, from_roll_out), 6),
            np.repeat(path.on_course[:, None], 6, axis=1),
            words.astype(object),
        )

    out = [part(entry.way, entry.given)] if entry.given.any() else []
    if entry.joining is not None:
        out.append(part(entry.joining, entry.joins))
    return out
