"""Circuits by the rules of thumb beside those that are exact: where each leaves the aeroplane at roll-out."""

from __future__ import annotations

import numpy as np

from .. import circuit, flown, holds, reasons, rules_of_thumb, text
from ..angles import wrap360
from ..rules_of_thumb import DRIFT_RULES
from ..segments import sample
from .flying import Flights, MeasuredLayer

ON_COURSE_NM = 0.005
"""Less than this off the course is told as on it."""


def rule_rows(flights: Flights, tolerance_m: float = 5.0) -> MeasuredLayer:
    """A circuit by each rule, from the fix to the end of the turn inbound: a MeasuredLayer with the fields of by_rule.

    The outbound leg ends as the hold's rules end it, on the rule's own heading. Where they time the inbound leg it
    lasts as long as in the exact circuit, and the first outbound leg that the handbook adjusts is the standard time on
    the stopwatch. Parameters: flights of N rows; tolerance_m > 0. Returns: three rows a flight that can be flown, in
    the order of DRIFT_RULES, seconds from the crossing of the fix; a rule by which there is no outbound leg has no
    vertices. Source: rules_of_thumb.DRIFT_RULES and ADJUSTMENT_SOURCE.
    """
    made, rules = flights.flight, len(DRIFT_RULES)
    row = np.repeat(np.flatnonzero(made.code == reasons.OK), rules)
    rule = np.tile(np.arange(rules), len(row) // rules)
    hold, usual = flights.holds.take(row), made.usual.take(row)
    times = np.array([rule.times for rule in DRIFT_RULES])[rule]
    asked = (
        hold.inbound_true_deg, hold.side, hold.tas_kt, hold.rate_dps, flights.wind.from_true_deg[row],
        flights.wind.speed_kt[row],
    )  # fmt: skip
    roll = flights.roll_s[row]
    air = circuit.air_of(*asked, roll)
    station = flown.Station(*[np.broadcast_to(a, len(made.code))[row] for a in flights.station])
    leg = flown.leg_of(hold, flights.timing[row], station)
    eps = rules_of_thumb.outbound_eps_rad(air, times)
    own = circuit.outbound_s(air, eps, leg.given, leg.value, leg.clock, leg.station_u_nm, leg.station_s_nm)
    inbound_given = np.isin(leg.given, (circuit.INBOUND_TIME, circuit.INBOUND_LENGTH))
    outbound = np.where(inbound_given, usual.outbound_s, own)
    track, found = rules_of_thumb.track(*asked, times, outbound, roll)
    inbound, following = _adjusted(hold, leg, air, eps, asked, times, roll)
    lines = sample(track, hold.lon, hold.lat, tolerance_m)
    columns = {
        "hold": flights.keys[row],
        "rule": np.array([rule.name for rule in DRIFT_RULES], dtype=object)[rule],
        "outbound_heading_deg": wrap360(found.heading_out_deg - hold.var_deg),
        "outbound_s": outbound,
        "off_course_nm": found.off_course_nm,
        "before_fix_nm": found.before_fix_nm,
        "from_fix_nm": found.from_fix_nm,
        "inbound_s": inbound,
        "next_outbound_s": following,
    }
    columns["text"] = _texts(columns, rule, hold)
    return MeasuredLayer(columns, lines.coords, lines.seconds, lines.offsets)


def _adjusted(hold, leg, air, eps, asked, times, roll) -> tuple[np.ndarray, np.ndarray]:
    """Seconds inbound after a first outbound leg of the standard time, and the next outbound leg on the stopwatch; NaN
    where the inbound leg is not timed, or the first circuit rolls out past the fix."""
    timed = leg.given == circuit.INBOUND_TIME
    by_clock = np.full(len(timed), circuit.OUTBOUND_TIME)
    first = circuit.outbound_s(air, eps, by_clock, leg.value, leg.clock, leg.station_u_nm, leg.station_s_nm)
    _, found = rules_of_thumb.track(*asked, times, np.where(timed, first, np.nan), roll)
    with np.errstate(invalid="ignore"):
        inbound = np.where(found.before_fix_nm > 0.0, found.before_fix_nm / air.gs, np.nan)
        following = rules_of_thumb.adjusted_outbound_s(leg.value, inbound, leg.value)
    return inbound, np.where(following > 0.0, following, np.nan)


def _texts(columns, rule, hold: holds.Holds) -> np.ndarray:
    """What each rule gives, in sentences."""
    out = np.empty(len(rule), dtype=object)
    for i, which in enumerate(rule):
        name = DRIFT_RULES[which].name.capitalize()
        source = DRIFT_RULES[which].source if DRIFT_RULES[which].mark == "published" else DRIFT_RULES[which].mark
        heading = text.format_course(columns["outbound_heading_deg"][i])
        if not np.isfinite(columns["off_course_nm"][i]):
            out[i] = f"{name} drift ({source}): no outbound leg can be flown on heading {heading} in this wind."
            continue
        sentences = [
            f"{name} drift ({source}): heading {heading} for {text.format_duration(columns['outbound_s'][i])} after "
            f"the turn rolls out {_off(columns['off_course_nm'][i])}, {_before(columns['before_fix_nm'][i])}"
        ]
        if np.isfinite(columns["inbound_s"][i]):
            said = (
                f"A first outbound leg of {text.format_duration(hold.leg_min[i] * 60.0)} on the stopwatch leaves "
                f"{text.format_duration(columns['inbound_s'][i])} inbound"
            )
            following = columns["next_outbound_s"][i]
            if np.isfinite(following):
                said += f", so the next is {text.format_duration(following)}"
            sentences.append(said)
        out[i] = ". ".join(sentences) + "."
    return out


def _off(off_nm: float) -> str:
    if abs(off_nm) < ON_COURSE_NM:
        return "on the inbound course"
    return f"{abs(off_nm):.2f} NM {'right' if off_nm > 0.0 else 'left'} of the inbound course"


def _before(before_nm: float) -> str:
    return f"{abs(before_nm):.2f} NM {'before' if before_nm >= 0.0 else 'past'} the fix"
