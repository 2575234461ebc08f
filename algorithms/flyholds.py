"""Holds as they are flown in wind: tracks with times, and events."""

from __future__ import annotations

import datetime

from qgis.core import QgsProcessing, QgsProcessingParameterString, QgsProperty

from ..geometry.ranges import MOST_CIRCUITS, MOST_ROLL_S
from .common import holdrows, winds
from .common.base import FixwrightAlgorithm
from .common.dates import read_day
from .common.moments import read_moment
from .common.specs import Choice, Number
from .common.texts import tr

TIMINGS = ("abeam", "later_of_both")
ADJUST = ("last", "all")
ROWS_AT_A_TIME = 500


class FlyHolds(FixwrightAlgorithm):
    """Fly holds in wind."""

    ID = "flyholds"
    GROUP = "holds"

    def displayName(self):
        return tr("Fly holds in wind")

    def tags(self):
        return tr("hold,wind,drift,entry,circuit,outbound,stopwatch,timing,leave,EFC,temporal,triple").split(",")

    def what(self):
        return tr(
            "Flies each hold in a steady wind: the straight arrival, the entry by the heading at the fix, and the "
            "circuits, corrected so that each inbound turn ends on the course. Gives the tracks as lines whose M is "
            "the time in seconds, and every event (fix, turns, abeam, stopwatch) as a point with time, heading, "
            "track, ground speed, drift and what to do. With START_UTC the temporal controller of QGIS plays them; "
            "with LEAVE_UTC the circuits are adjusted to be over the fix on time. Beside the exact circuit BY_RULE "
            "shows where the rules of thumb (single, double, triple drift; the outbound time adjusted by the last "
            "inbound leg) would roll out."
        )

    def assumed(self):
        return tr(
            "Calm, unless a wind is given. Without an arrival course the aeroplane comes on the inbound course and "
            "needs no entry. The arrival is the last four minutes before the fix. In a hold by distance the entry's "
            "first leg ends where the hold's distance does. Turns are flown at the hold's rate; rolling in and out "
            "takes no time unless ROLL_TIME is given. By the FAA's rules the inbound leg lasts as long as asked; by "
            "ICAO's the outbound time runs from over or abeam the fix, even while still turning, or as TIMING says. "
            "Times are read as UTC whatever the time zone of the machine; M and time_s count from the first "
            "crossing of the fix. Where the time to leave cannot be met, CIRCUITS are flown and the text says why."
        )

    def cited(self):
        return tr(
            "FAA AIM 5-3-8 (timing and its adjustment, slow-down three minutes before the fix, entries, distances in "
            "place of times, triple drift); ICAO Doc 8168 Vol I, Part I, Section 6, Chapter 1 (from memory), and Vol "
            "II, Part II, Section 4, Chapter 1; US Navy CNATRA P-871, chapter 4 (next outbound time); intercepts of 45 "
            "degrees, single and double drift and the later of both clocks: common practice; 14 CFR 91.185 (expect "
            "further clearance)."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The holds layer of Design holds. Its essentials are read; what is derived is computed anew."),
        )
        winds.add_wind(self)
        winds.add_arrival(
            self,
            tr(
                "Course on which the aeroplane arrives at the fix, in the direction of travel. Not given: it comes on "
                "the inbound course."
            ),
        )
        winds.add_arc(self)
        timing = tr(
            "Where the stopwatch of a timed leg starts: abeam the fix, even while still turning, or abeam the fix and "
            "turn complete, whichever is later."
        )
        self.add(Choice("TIMING", tr("Stopwatch from"), TIMINGS, timing, default="abeam"))
        self._add_time(
            "START_UTC",
            tr("Over the fix first at (UTC)"),
            tr(
                "When the fix is crossed first, such as 14:05 or 14:05:20 (on DATE), or 2026-09-01T14:05:20. Not "
                "given: no UTC."
            ),
        )
        self._add_time(
            "LEAVE_UTC",
            tr("Leave the fix at (UTC)"),
            tr(
                "When to be over the fix to leave. A time without a day is the first such one after START_UTC, which "
                "it needs."
            ),
        )
        self._add_time(
            "EFC_UTC",
            tr("Expect further clearance at (UTC)"),
            tr(
                "Said in the text and used for nothing: it is no clearance to leave. It matters when radio contact is "
                "lost (14 CFR 91.185)."
            ),
        )
        adjust = tr("Which circuits are changed to leave on time: the last one, or all of them alike.")
        self.add(Choice("ADJUST", tr("Adjust"), ADJUST, adjust, default="last"))
        circuits = tr("How many circuits follow the entry, a whole number; with LEAVE_UTC as many as fit.")
        self.add(Number("CIRCUITS", tr("Circuits"), 0, MOST_CIRCUITS, circuits, default=3, decimals=0))
        roll = tr(
            "Time in which the bank is built up, and taken off again, evenly: each turn takes so much longer, as if "
            "half of it were flown straight on before and after. A turn is complete when the wings are level."
        )
        self.add(Number("ROLL_TIME", tr("Roll time"), 0, MOST_ROLL_S, roll, "s", default=0, advanced=True))
        self.add_date()
        self.add_tolerance(tr("How far a chord may lie off the true curve."))
        self.add_sink("FLOWN", "flown")
        self.add_sink("EVENTS", "events")
        self.add_sink("BY_RULE", "by_rule")
        self.add_sink("REJECTS", "rejects")

    def _add_time(self, name: str, label: str, text: str) -> None:
        self.add_other(QgsProcessingParameterString(name, label, None, False, True), text)

    def check(self, parameters, context):
        problem = holdrows.missing_fields("INPUT", self.source_fields(parameters, context))
        problem = problem or winds.wind_problem(self, parameters)
        circuits = self.constant(parameters, "CIRCUITS")
        if not problem and circuits is not None and circuits != int(circuits):
            problem = tr("CIRCUITS is {}; it must be a whole number from 0 to {}.").format(
                f"{circuits:g}", MOST_CIRCUITS
            )
        return problem or _times(parameters)[1]

    def compute(self, run):
        import numpy as np

        from ..geometry import plan, wkb

        source, day = run.source(), run.day()
        flown, events, by_rule = (run.sink(name) for name in ("FLOWN", "EVENTS", "BY_RULE"))
        run.sink("REJECTS", source.fields())
        reader = holdrows.hold_reader(run, source, ROWS_AT_A_TIME, whole_rows=run.keeps_rejects)
        times, _ = _times(run.parameters)
        start, leave, efc = (None if t is None else np.datetime64(t, "s") for t in times)
        leave_s = np.nan if leave is None else (leave - start) / np.timedelta64(1, "s")
        tolerance = run.constant("TOLERANCE")

        for rows in run.batches(reader):
            made = plan.holds_from_columns(holdrows.hold_columns(rows), day.year)
            wind, course = winds.wind_of(rows, made), winds.arrival_of(rows, made)
            circuits = rows["CIRCUITS"]
            for i in np.flatnonzero(circuits != np.floor(circuits)):
                rows.refuse(i, tr("CIRCUITS is {}; it must be a whole number").format(f"{circuits[i]:g}"))
            made.reasons[:] = np.where(rows.reasons != "", rows.reasons, made.reasons)
            flights = plan.fly_rows(
                made,
                wind,
                timing=rows["TIMING"],
                arrival_true_deg=course,
                circuits=np.nan_to_num(circuits).astype(np.int64),
                leave_s=leave_s,
                adjust=rows["ADJUST"],
                on_arc=rows["ON_ARC"] == 1,
                roll_s=np.nan_to_num(rows["ROLL_TIME"]),
            )
            run.settle(rows, flights.reasons)
            if flown.connected:
                layer = plan.flown_rows(flights, start, efc, tolerance)
                flown.write(layer.columns, wkb.multilines_m(layer.coords, layer.seconds, layer.offsets))
            if events.connected:
                columns, places = plan.event_rows(flights, start)
                events.write(columns, wkb.points(*places.T))
            if by_rule.connected:
                layer = plan.rule_rows(flights, tolerance)
                by_rule.write(layer.columns, wkb.multilines_m(layer.coords, layer.seconds, layer.offsets))


def _times(parameters: dict) -> tuple[list, str]:
    """START_UTC, LEAVE_UTC and EFC_UTC, None for those not given, and '' or what is wrong with them."""
    moments = []
    for name in ("START_UTC", "LEAVE_UTC", "EFC_UTC"):
        value = parameters.get(name)
        if isinstance(value, QgsProperty):
            return [], tr("{} takes one value for the whole run, not a field or an expression.").format(name)
        moment, problem = read_moment(value, name)
        if problem:
            return [], problem
        moments.append(moment)
    start, leave, efc = moments
    day = datetime.date.fromisoformat(read_day(parameters.get("DATE"))[0].text)
    if start is None:
        if leave is not None:
            return [], tr("LEAVE_UTC is given without START_UTC; the time to leave is counted from there.")
        return [None, None, efc and efc.on(day)], ""
    first = start.on(day)
    found = [first, leave and leave.after(first), efc and efc.after(first)]
    if leave and found[1] < first:
        return [], tr("LEAVE_UTC is {}; it must not be before START_UTC, {}.").format(
            found[1].isoformat(), first.isoformat()
        )
    return found, ""
