"""Circuits by the rules of thumb beside those that are exact: where each leaves the aeroplane at roll-out."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import circuit, flown, holds, reasons, rules_of_thumb, text
from ..angles import wrap360
from ..rules_of_thumb import ADJUSTMENT_SOURCE, DRIFT_RULES, RolledOut
from ..segments import sample
from .flying import Flights, MeasuredLayer

ON_COURSE_NM = 0.005
"""Less than this off the course is told as on it."""


TIMINGS = ("exact", "adjusted")
"""How long the outbound leg of a row is: as the hold's rules end it, or by the handbook's adjustment."""
EXACT, ADJUSTED = range(2)


class _Rule(NamedTuple):
    """Rules of drift at holds, N rows: row, the flight; rule, of DRIFT_RULES, and its times the correction; what
    circuit.solve is asked, and what ends the hold's leg."""

    row: np.ndarray
    rule: np.ndarray
    times: np.ndarray
    hold: holds.Holds
    asked: tuple[np.ndarray, ...]
    air: circuit.Air
    leg: flown.Leg

    def take(self, index) -> _Rule:
        """The rows of an index."""
        return _Rule(
            *[values[index] for values in self[:3]], self.hold.take(index), tuple(a[index] for a in self.asked),
            circuit.Air(*[a[index] for a in self.air]), flown.Leg(*[a[index] for a in self.leg]),
        )  # fmt: skip

    def outbound_s(self, given, value) -> np.ndarray:
        """Straight seconds outbound, on the rule's heading, until what is given."""
        eps, leg = rules_of_thumb.outbound_eps_rad(self.air, self.times), self.leg
        return circuit.outbound_s(self.air, eps, given, value, leg.clock, leg.station_u_nm, leg.station_s_nm)

    def by_clock_s(self, seconds) -> np.ndarray:
        """The same for seconds on the stopwatch."""
        return self.outbound_s(np.full(len(self.row), circuit.OUTBOUND_TIME), seconds)

    def track(self, outbound_s):
        """The circuit with an outbound leg of so many seconds, as rules_of_thumb.track."""
        return rules_of_thumb.track(*self.asked, self.times, outbound_s, self.air.roll_s)

    def inbound_s(self, found: RolledOut) -> np.ndarray:
        """Seconds inbound from where a circuit rolls out; NaN past the fix, and where the hold does not time them."""
        timed = (self.leg.given == circuit.INBOUND_TIME) & (found.before_fix_nm > 0.0)
        return np.where(timed, found.before_fix_nm / self.air.gs, np.nan)


def rule_rows(flights: Flights, tolerance_m: float = 5.0) -> MeasuredLayer:
    """A circuit by each rule, from the fix to the end of the turn inbound: a MeasuredLayer with the fields of by_rule.

    The outbound leg ends as the hold's rules end it, on the rule's own heading. Where they time the inbound leg it
    lasts as long as in the exact circuit; beside that stands what the handbook gives: a first outbound leg of the
    standard time on the stopwatch, and the next, longer by what the inbound leg was too short, as a row of its own.
    Parameters: flights of N rows; tolerance_m > 0. Returns: a flight that can be flown has a row for each of
    DRIFT_RULES, in their order, and behind them the adjusted ones; seconds from the crossing of the fix; a rule by
    which there is no outbound leg has no vertices. Source: rules_of_thumb.DRIFT_RULES and ADJUSTMENT_SOURCE.
    """
    by = _rules(flights)
    wanted = by.leg.value
    with np.errstate(invalid="ignore"):
        _, first = by.track(by.by_clock_s(wanted))
        inbound = by.inbound_s(first)
        following = _next_s(wanted, inbound, wanted)
        again = np.flatnonzero(np.isfinite(by.by_clock_s(following)))
        lasts = np.where(
            np.isin(by.leg.given, (circuit.INBOUND_TIME, circuit.INBOUND_LENGTH)),
            flights.flight.usual.outbound_s[by.row],
            by.outbound_s(by.leg.given, wanted),
        )
        timing = np.concatenate([np.full(len(by.row), EXACT), np.full(len(again), ADJUSTED)])
        index = np.concatenate([np.arange(len(by.row)), again])
        order = np.lexsort((by.rule[index], timing, by.row[index]))
        index, timing = index[order], timing[order]
        by, adjusted = by.take(index), timing == ADJUSTED
        clock = np.where(adjusted, following[index], np.nan)
        outbound = np.where(adjusted, by.by_clock_s(clock), lasts[index])
        track, found = by.track(outbound)
        inbound = np.where(adjusted, by.inbound_s(found), inbound[index])
        following = np.where(adjusted, _next_s(clock, inbound, wanted[index]), following[index])
    lines = sample(track, by.hold.lon, by.hold.lat, tolerance_m)
    columns = {
        "hold": flights.keys[by.row],
        "rule": np.array([rule.name for rule in DRIFT_RULES], dtype=object)[by.rule],
        "timing": np.array(TIMINGS, dtype=object)[timing],
        "outbound_heading_deg": wrap360(found.heading_out_deg - by.hold.var_deg),
        "outbound_s": outbound,
        "off_course_nm": found.off_course_nm,
        "before_fix_nm": found.before_fix_nm,
        "from_fix_nm": found.from_fix_nm,
        "inbound_s": inbound,
        "next_outbound_s": following,
    }
    columns["text"] = _texts(columns, by, clock)
    return MeasuredLayer(columns, lines.coords, lines.seconds, lines.offsets)


def _rules(flights: Flights) -> _Rule:
    """Every rule at every hold that can be flown, flight by flight."""
    made, count = flights.flight, len(DRIFT_RULES)
    row = np.repeat(np.flatnonzero(made.code == reasons.OK), count)
    rule = np.tile(np.arange(count), len(row) // count)
    hold = flights.holds.take(row)
    asked = (
        hold.inbound_true_deg, hold.side, hold.tas_kt, hold.rate_dps, flights.wind.from_true_deg[row],
        flights.wind.speed_kt[row],
    )  # fmt: skip
    station = flown.Station(*[np.broadcast_to(a, len(made.code))[row] for a in flights.station])
    return _Rule(
        row, rule, np.array([rule.times for rule in DRIFT_RULES])[rule], hold, asked,
        circuit.air_of(*asked, flights.roll_s[row]), flown.leg_of(hold, flights.timing[row], station),
    )  # fmt: skip


def _next_s(last_s, inbound_s, wanted_s) -> np.ndarray:
    """The next outbound leg on the stopwatch; NaN where the rule asks for none."""
    following = rules_of_thumb.adjusted_outbound_s(last_s, inbound_s, wanted_s)
    return np.where(following > 0.0, following, np.nan)


def _texts(columns, by: _Rule, clock_s) -> np.ndarray:
    """What each rule gives, in sentences. Parameters: clock_s, the adjusted time on the stopwatch, NaN for none."""
    out = np.empty(len(by.rule), dtype=object)
    for i, which in enumerate(by.rule):
        name = DRIFT_RULES[which].name.capitalize()
        source = DRIFT_RULES[which].source if DRIFT_RULES[which].mark == "published" else DRIFT_RULES[which].mark
        heading = text.format_course(columns["outbound_heading_deg"][i])
        if not np.isfinite(columns["off_course_nm"][i]):
            out[i] = f"{name} drift ({source}): no outbound leg can be flown on heading {heading} in this wind."
            continue
        there = f"rolls out {_off(columns['off_course_nm'][i])}, {_before(columns['before_fix_nm'][i])}"
        seconds = {key: text.format_duration(columns[key][i]) for key in ("outbound_s", "inbound_s", "next_outbound_s")}
        inbound, following = seconds["inbound_s"], seconds["next_outbound_s"]
        leaves = f"leaves {inbound} inbound" + (f", so the next is {following}" if following else "")
        if np.isfinite(clock_s[i]):
            source, time = ADJUSTMENT_SOURCE.partition(";")[0], text.format_duration(clock_s[i])
            said = f"{name} drift, the time adjusted by the last inbound leg ({source}): heading {heading} for {time}"
            out[i] = f"{said} on the stopwatch {there}." + (f" That {leaves}." if inbound else "")
            continue
        out[i] = f"{name} drift ({source}): heading {heading} for {seconds['outbound_s']} after the turn {there}."
        if inbound:
            first = text.format_duration(by.hold.leg_min[i] * 60.0)
            out[i] += f" A first outbound leg of {first} on the stopwatch {leaves}."
    return out


def _off(off_nm: float) -> str:
    if abs(off_nm) < ON_COURSE_NM:
        return "on the inbound course"
    return f"{abs(off_nm):.2f} NM {'right' if off_nm > 0.0 else 'left'} of the inbound course"


def _before(before_nm: float) -> str:
    return f"{abs(before_nm):.2f} NM {'before' if before_nm >= 0.0 else 'past'} the fix"
