"""Holds as they are flown in a steady wind: circuits, entries, the arrival, and leaving on time.

Everything is flown at the hold's airspeed and rate of turn; rolling in and out of turns takes no time. The wind is
steady over the hold and true. Paths live in the frame of the hold (geodesy.place).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from . import circuit, entries, entry_paths, flight_parts, geodesy, hold_events, holds, leaving, navaids, reasons
from .angles import wrap180
from .circuit import Circuit
from .flight_parts import Part
from .holds import Holds
from .segments import Lines, Segments, sample

ARRIVAL_S = 240.0
"""Straight arrival that is flown unless another is given: the slow-down three minutes before the fix is on it."""
MOST_CIRCUITS = 99
ADJUST = ("last", "all")
"""Which circuits are changed to leave on time."""
ADJUST_LAST, ADJUST_ALL = range(2)


class Station(NamedTuple):
    """The DME that ends the legs, N rows or one; NaN where there is none."""

    lon: np.ndarray
    lat: np.ndarray
    elev_ft: np.ndarray


NO_STATION = Station(np.nan, np.nan, np.nan)


class Leg(NamedTuple):
    """What circuit.solve is asked, N rows; code."""

    given: np.ndarray
    value: np.ndarray
    clock: np.ndarray
    station_u_nm: np.ndarray
    station_s_nm: np.ndarray
    code: np.ndarray


@dataclass(frozen=True)
class Flight:
    """Flights of N rows.

    segments; usual, the circuit of the hold in this wind; arrival, entries.Arrival with true headings (NaN where
    no arrival was given); entry_s, from the first crossing to the end of the entry; circuits, how many follow;
    leaving, the plan to leave on time, or None; marks for the events; code; notes, object array of sentences.
    """

    segments: Segments
    usual: Circuit
    arrival: entries.Arrival
    entry_s: np.ndarray
    circuits: np.ndarray
    leaving: leaving.Leaving | None
    marks: hold_events.Marks
    code: np.ndarray
    notes: np.ndarray


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
    start_heading_true_deg=np.nan,
) -> Circuit:  # fmt: skip
    """Circuits of holds in a wind, by their rules and legs.

    Parameters: hold, N rows; wind_from_deg true; wind_kt; timing and station as leg_of; start_heading_true_deg, of
    a direct entry, NaN for the inbound heading. Returns: Circuit; its code is the hold's, the leg's or its own.
    Source: leg_of, circuit.solve.
    """
    leg = leg_of(hold, timing, station)
    one = circuit.solve(
        hold.inbound_true_deg, hold.side, hold.tas_kt, hold.rate_dps, wind_from_deg, wind_kt, leg.given, leg.value,
        clock=leg.clock, station_u_nm=leg.station_u_nm, station_s_nm=leg.station_s_nm,
        start_heading_deg=start_heading_true_deg,
    )  # fmt: skip
    return replace(one, code=reasons.first(hold.code, leg.code, one.code))


def fly(
    hold: Holds,
    wind_from_deg,
    wind_kt,
    *,
    timing=circuit.ABEAM,
    station: Station = NO_STATION,
    arrival_true_deg=np.nan,
    arrival_s=ARRIVAL_S,
    circuits=1,
    leave_s=np.nan,
    adjust=ADJUST_LAST,
) -> Flight:
    """Fly holds: straight arrival, entry by the heading at the fix, circuits.

    Without an arrival the aeroplane comes on the inbound course and needs no entry. Where an entry meets the course
    only past the fix it goes to the fix and joins by one more circuit from the heading it has there. With leave_s
    the circuits are as many as fit until then, the last or all of them changed; where that cannot be done, the
    circuits asked are flown and a note says why.
    Parameters: hold, N rows; wind true, from, kt; timing, station as leg_of; arrival_true_deg, course to the fix;
    arrival_s >= 0, seconds of straight arrival; circuits after the entry, 0 to MOST_CIRCUITS; leave_s from the first
    crossing; adjust, codes of ADJUST. They broadcast. Returns: Flight; rows whose code is not 0 hold NaN.
    Errors: ValueError for circuits out of range or a negative arrival_s.
    Source: circuit.solve, entries.arrive, entry_paths.path, leaving.leave.
    """
    n = len(hold.lon)
    wind_from, wind, course, arrival_s, leave_s = (
        np.broadcast_to(np.asarray(a, float), (n,))
        for a in (wind_from_deg, wind_kt, arrival_true_deg, arrival_s, leave_s)
    )
    circuits = np.broadcast_to(np.asarray(circuits, dtype=np.int64), (n,))
    if ((circuits < 0) | (circuits > MOST_CIRCUITS)).any():
        raise ValueError(f"circuits is {circuits}; it must be 0 to {MOST_CIRCUITS}")
    if (arrival_s < 0.0).any():
        raise ValueError("arrival_s is negative; it must be 0 or more seconds")
    asked = (hold.inbound_true_deg, hold.side, hold.tas_kt, hold.rate_dps, wind_from, wind)
    with np.errstate(invalid="ignore"):
        usual = circuit_of(hold, wind_from, wind, timing, station)
        air = circuit.air_of(*asked)
        entry = _enter(hold, usual, air, wind_from, wind, timing, station, course)
        plan, last, each, number, leaves = None, usual, usual, circuits, np.zeros(n, dtype=bool)
        if np.isfinite(leave_s).any():
            plan = leaving.leave(*asked, usual, leave_s - entry.seconds)
            planned = plan.code == reasons.OK
            leaves = planned & (plan.circuits <= MOST_CIRCUITS)
            number = np.where(planned, np.minimum(plan.circuits, MOST_CIRCUITS), circuits)
            changed = leaves & (number > 0)
            by_all = changed & (np.asarray(adjust) == ADJUST_ALL)
            each = plan.each.where(by_all, usual)
            last = plan.last.where(changed & ~by_all, each)
        parts = _parts(hold, air, entry, each, last, number, arrival_s, timing)
    code = reasons.first(usual.code, entry.code)
    segments, at = flight_parts.side_by_side(parts, air, hold.inbound_true_deg, hold.side, code == reasons.OK)
    words = np.array([entries.WORDS[rules] for rules in holds.RULES], dtype=object)
    marks = hold_events.Marks(
        **at,
        entry=np.where(entry.given, words[hold.rules, entry.arrival.by_heading.entry], ""),
        leaves=leaves,
        leg_end=_leg_end_words(hold),
        ias_kt=hold.ias_kt,
        var_deg=hold.var_deg,
    )
    notes = _notes(hold, usual, entry, plan, leave_s, code)
    return Flight(segments, usual, entry.arrival, entry.seconds, number, plan, marks, code, notes)


def lines(hold: Holds, flight: Flight, tolerance_m: float = 5.0, by_circuit: bool = False) -> Lines:
    """Flights as lines with seconds from the first crossing.

    Parameters: hold and its flight; tolerance_m > 0; by_circuit, one line for arrival and entry and one for each
    circuit, instead of one a flight. Returns: segments.Lines.
    """
    part = flight.segments.circuit if by_circuit else None
    return sample(flight.segments, hold.lon, hold.lat, tolerance_m, part)


def events(hold: Holds, flight: Flight) -> hold_events.Events:
    """Events of flights. Parameters: hold and its flight. Returns: hold_events.Events."""
    return hold_events.events(flight.segments, flight.marks, hold.lon, hold.lat)


class _Entry(NamedTuple):
    """The arrival, the path of its entry and, where that does not end on the course, of joining."""

    arrival: entries.Arrival
    start_rad: np.ndarray
    given: np.ndarray
    path: entry_paths.EntryPath
    direct: Circuit
    joins: np.ndarray
    longer_s: np.ndarray
    joining: entry_paths.EntryPath | None
    joined: Circuit | None
    seconds: np.ndarray
    code: np.ndarray


def _enter(hold, usual, air, wind_from, wind, timing, station, course) -> _Entry:
    """Entries of all rows; those without an arrival begin on the inbound heading and take no time."""
    given = ~np.isnan(course)
    theta, side = hold.inbound_true_deg, hold.side
    leg_s = np.where(hold.leg_kind == holds.TIME, hold.leg_min * 60.0, hold.straight_nm / hold.tas_kt * 3600.0)
    arrival = entries.arrive(course, theta, side, hold.tas_kt, wind_from, wind, hold.rules, leg_s)
    which = arrival.by_heading.entry

    def in_frame(true_deg):
        return np.radians(wrap180(side * (true_deg - theta)))

    start = np.where(given, in_frame(arrival.heading_deg), air.kappa_rad)
    direct = circuit_of(hold, wind_from, wind, timing, station, arrival.heading_deg)
    as_usual = np.pi - usual.eps_rad
    leg_heading = np.where(which == entries.DIRECT, as_usual, in_frame(arrival.outbound_heading_deg))
    leg_s = np.where(which == entries.DIRECT, usual.outbound_s, arrival.first_leg_s)
    path = entry_paths.path(air, start, which, leg_heading, leg_s, direct)
    good = given & (path.code == reasons.OK)
    joins = good & ~path.on_course
    seconds = np.where(given, path.seconds, 0.0)
    code = np.where(given, path.code, reasons.OK)
    longer = path.longer_s
    joining = joined = None
    if joins.any():
        heading = np.where(joins, theta + side * np.degrees(path.end_heading_rad), np.nan)
        joined = circuit_of(hold, wind_from, wind, timing, station, heading)
        direct_code = np.full(len(theta), entries.DIRECT)
        joining = entry_paths.path(
            air, path.end_heading_rad, direct_code, as_usual, usual.outbound_s, joined, to_fix=False
        )
        lost = joins & (joining.code != reasons.OK)
        seconds = np.where(joins, seconds + joining.seconds, seconds)
        longer = np.where(joins, joining.longer_s, longer)
        code = np.where(lost, reasons.NO_ENTRY, code)
    unmade = given & (np.isnan(arrival.heading_deg) | np.isnan(leg_heading))
    code = reasons.first(
        usual.code,
        reasons.where(np.isinf(course), reasons.NOT_FINITE),
        reasons.where(unmade, reasons.WIND_TOO_STRONG),
        code,
    )
    return _Entry(arrival, start, given, path, direct, joins, longer, joining, joined, seconds, code)


def _parts(hold, air, entry: _Entry, each: Circuit, last: Circuit, number, arrival_s, timing) -> list[Part]:
    """Arrival, entry, joining where some row needs it, circuits."""
    timed = hold.leg_kind == holds.TIME

    def entering(path: entry_paths.EntryPath, direct: Circuit, mine) -> Part:
        clock = flight_parts.clock_start_s(direct, timing, timed)
        return Part(
            np.where(mine[:, None], path.duration_s, 0.0),
            path.rate_rad_s,
            path.heading_rad,
            entry_paths.COLUMNS,
            0,
            flight_parts.at_outbound(np.where(path.closes, direct.abeam_after_roll_out_s, np.nan), 6),
            flight_parts.at_outbound(np.where(path.closes, clock, 0.0), 6),
            np.repeat(path.on_course[:, None], 6, axis=1),
        )

    parts = [flight_parts.arrival(entry.start_rad, arrival_s)]
    if entry.given.any():
        parts.append(entering(entry.path, entry.direct, entry.given))
    if entry.joining is not None:
        parts.append(entering(entry.joining, entry.joined, entry.joins))
    for j in range(1, int(number.max(initial=0)) + 1):
        one = last.where(number == j, each)
        parts.append(flight_parts.one_circuit(one, air, j, number >= j, timing, timed))
    return parts


def _notes(hold: Holds, usual: Circuit, entry: _Entry, plan, leave_s, code) -> np.ndarray:
    """What a pilot should know of a flight."""
    notes = np.full(len(code), "", dtype=object)
    good = code == reasons.OK
    arrival = entry.arrival
    words = [entries.WORDS[rules] for rules in holds.RULES]

    def word(i: int, which) -> str:
        return words[int(hold.rules[i])][int(which[i])]

    reasons.note(
        notes,
        good & (hold.leg_kind == holds.DISTANCE) & (usual.inbound_s < holds.LEAST_INBOUND_S),
        lambda i: f"the inbound leg lasts {np.floor(usual.inbound_s[i] * 10.0) / 10.0:.1f} s in this wind, less than "
        f"{holds.LEAST_INBOUND_S:.0f} s ({holds.LEAST_INBOUND_SOURCE})",
    )
    by_heading, by_course = arrival.by_heading.entry, arrival.by_course.entry
    reasons.note(
        notes,
        good & entry.given & (by_heading != by_course),
        lambda i: f"the drift changes the entry: {word(i, by_course)} by the course, {word(i, by_heading)} by the "
        "heading",
    )
    reasons.note(
        notes,
        good & entry.given & (by_heading == entries.DIRECT) & ~entry.path.closes,
        lambda i: "in this wind the direct entry does not end on the course by the hold's own leg, so it flies the "
        "outbound leg of the circuit and intercepts",
    )
    reasons.note(
        notes,
        good & entry.joins,
        lambda i: "the entry meets the inbound course only past the fix, so it goes to the fix and joins from there",
    )
    reasons.note(
        notes,
        good & entry.given & (entry.longer_s > 0.0),
        lambda i: f"a leg of the entry is flown {entry.longer_s[i]:.0f} s longer, since in this wind its own time "
        "leads past both the course and the fix",
    )
    if plan is not None:
        asked = good & np.isfinite(leave_s)
        reasons.note(notes, asked & (plan.note != ""), lambda i: plan.note[i])
        reasons.note(
            notes,
            asked & (plan.circuits > MOST_CIRCUITS),
            lambda i: f"{plan.circuits[i]} circuits fit before the time to leave; the first {MOST_CIRCUITS} are flown",
        )
    return notes


def _leg_end_words(hold: Holds) -> np.ndarray:
    """What ends the outbound legs of distance holds, to stand after "End of the outbound leg"; '' for timed ones."""
    words = np.full(hold.lon.shape, "", dtype=object)
    distance = (hold.leg_kind == holds.DISTANCE) & (hold.code == reasons.OK)
    for leg_end, values, write in (
        (holds.DME_END, hold.outbound_end_dme_nm, ": DME {:.1f}".format),
        (holds.ALONG_TRACK, hold.leg_nm, ": {:.1f} NM along the track".format),
        (holds.INBOUND_LENGTH, hold.leg_nm, ": {:.1f} NM will be left inbound".format),
    ):
        reasons.note(words, distance & (hold.leg_end == leg_end), lambda i, v=values, w=write: w(v[i]))
    return words
