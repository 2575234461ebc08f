"""Flights in holds: arrival, entry, circuits, as many as asked or as fit before the time to leave."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .. import circuit, entries, flight_parts, hold_events, holds, leaving, reasons
from ..circuit import Air, Circuit
from ..flight_parts import Part
from ..holds import Holds
from ..ranges import MOST_CIRCUITS
from ..segments import Lines, Segments, sample
from . import entering, notes
from .legs import NO_STATION, Station, circuit_of, leg_end_words

ARRIVAL_S = 240.0
"""Straight arrival that is flown unless another is given: the slow-down three minutes before the fix is on it."""
ADJUST = ("last", "all")
"""Which circuits are changed to leave on time."""
ADJUST_LAST, ADJUST_ALL = range(2)


@dataclass(frozen=True)
class Flight:
    """Flights of N rows.

    segments; usual, the circuit of the hold in this wind; arrival, entries.Arrival with true headings (NaN where
    no arrival was given); entry_s, from the first crossing to the end of the entry; first_leg_nm, the distance that
    ends the entry's first leg, NaN where a time does; closes, true where a direct entry ends on the course by the
    hold's own leg; circuits, how many follow; leaving, the plan to leave on time, or None; marks for the events; code;
    notes, object array of sentences.
    """

    segments: Segments
    usual: Circuit
    arrival: entries.Arrival
    entry_s: np.ndarray
    first_leg_nm: np.ndarray
    closes: np.ndarray
    circuits: np.ndarray
    leaving: leaving.Leaving | None
    marks: hold_events.Marks
    code: np.ndarray
    notes: np.ndarray


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
    on_arc=False,
    roll_s=0.0,
) -> Flight:
    """Fly holds: straight arrival, entry by the heading at the fix, circuits.

    Without an arrival the aeroplane comes on the inbound course and needs no entry. Where an entry meets the course
    only past the fix it goes to the fix and joins by one more circuit from the heading it has there. With leave_s
    the circuits are as many as fit until then, the last or all of them changed; where that cannot be done, the
    circuits asked are flown and a note says why.
    Parameters: hold, N rows; wind true, from, kt; timing, station as leg_of; arrival_true_deg, course to the fix;
    arrival_s >= 0, seconds of straight arrival; circuits after the entry, 0 to MOST_CIRCUITS; leave_s from the first
    crossing; adjust, codes of ADJUST; on_arc, true where it arrives along a DME arc; roll_s >= 0, in which the
    bank is built up, and taken off. They broadcast. Returns: Flight; rows whose code is not 0 hold NaN.
    Errors: ValueError for circuits out of range, a negative arrival_s or roll_s.
    Source: circuit.solve, entering.enter, leaving.leave.
    """
    n = len(hold.lon)
    wind_from, wind, course, arrival_s, leave_s, roll_s = (
        np.broadcast_to(np.asarray(a, float), (n,))
        for a in (wind_from_deg, wind_kt, arrival_true_deg, arrival_s, leave_s, roll_s)
    )
    circuits = np.broadcast_to(np.asarray(circuits, dtype=np.int64), (n,))
    if ((circuits < 0) | (circuits > MOST_CIRCUITS)).any():
        raise ValueError(f"circuits is {circuits}; it must be 0 to {MOST_CIRCUITS}")
    if (arrival_s < 0.0).any():
        raise ValueError("arrival_s is negative; it must be 0 or more seconds")
    if (roll_s < 0.0).any():
        raise ValueError("roll_s is negative; it must be 0 or more seconds")
    asked = (hold.inbound_true_deg, hold.side, hold.tas_kt, hold.rate_dps, wind_from, wind)
    with np.errstate(invalid="ignore"):
        usual = circuit_of(hold, wind_from, wind, timing, station, roll_s=roll_s)
        air = circuit.air_of(*asked, roll_s)
        entry = entering.enter(hold, usual, air, wind_from, wind, timing, station, course, on_arc)
        plan, last, each, number, leaves = None, usual, usual, circuits, np.zeros(n, dtype=bool)
        if np.isfinite(leave_s).any():
            plan = leaving.leave(*asked, usual, leave_s - entry.seconds, roll_s)
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
        ias_kt=hold.ias_kt,
        var_deg=hold.var_deg,
    )
    said = notes.of_flights(hold, usual, entry, code)
    if plan is not None:
        notes.of_leaving(said, plan, (code == reasons.OK) & np.isfinite(leave_s), MOST_CIRCUITS)
    closes = entry.given & entry.way.path.closes
    return Flight(
        segments, usual, entry.arrival, entry.seconds, entry.way.first_leg_nm, closes, number, plan, marks, code, said
    )


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


def _parts(
    hold: Holds, air: Air, entry: entering.Entering, each: Circuit, last: Circuit, number, arrival_s, timing
) -> list[Part]:
    """Arrival, entry, joining where some row needs it, circuits."""
    timed, words = hold.leg_kind == holds.TIME, leg_end_words(hold)
    parts = [flight_parts.arrival(entry.start_rad, arrival_s), *entering.parts(hold, entry, timing)]
    for j in range(1, int(number.max(initial=0)) + 1):
        one = last.where(number == j, each)
        parts.append(flight_parts.one_circuit(one, air, j, number >= j, timing, timed, words))
    return parts
