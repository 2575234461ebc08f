"""What happens when in a flown hold: crossings, turns, abeam, the stopwatch, each as a point with a sentence."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, text
from .segments import ARRIVAL, INBOUND, INTERCEPT, OUTBOUND, ROLL_OUT, TURN_IN, TURN_OUT, Segments

EVENTS = (
    "arrival", "slow_down", "turn_end", "outbound_end", "on_course", "fix", "turn_start", "abeam", "stopwatch",
)  # fmt: skip
"""Words by code; the order of events at the same moment."""
A_ARRIVAL, SLOW_DOWN, TURN_END, OUTBOUND_END, ON_COURSE, FIX, TURN_START, ABEAM, STOPWATCH = range(len(EVENTS))


class SlowDown(NamedTuple):
    before_fix_s: float
    source: str


SLOW_DOWN_RULE = SlowDown(180.0, "FAA AIM 5-3-8 d and j.8(a)")
_COURSES = np.array([text.format_course(float(deg)) for deg in range(360)], dtype=object)


class Marks(NamedTuple):
    """What the events need beside the motion.

    abeam_s and clock_s (N, K), at the columns of outbound legs: seconds from roll-out to abeam and to the start of
    the stopwatch, negative while still turning, NaN for none. on_course (N, K), true at the columns of inbound
    legs that are on the course. leg_end (N, K), what ends an outbound leg without a stopwatch, '' for one with it.
    N rows each: entry, words ('' for none); leaves, whether the last crossing is for leaving; ias_kt; var_deg, east,
    at the fix.
    """

    abeam_s: np.ndarray
    clock_s: np.ndarray
    on_course: np.ndarray
    entry: np.ndarray
    leaves: np.ndarray
    leg_end: np.ndarray
    ias_kt: np.ndarray
    var_deg: np.ndarray


class Events(NamedTuple):
    """Events of N flights, E in all, by flight and time.

    row, its flight; event, codes of EVENTS; circuit (0: arrival and entry); crossing, number of the fix crossing
    (0: none); time_s from the first crossing; lon (unwrapped to the fix), lat; true heading and track in the frame
    of the fix; gs_kt; drift_deg, track less heading, positive right; text, whose headings are magnetic by the model;
    offsets (N + 1,).
    """

    row: np.ndarray
    event: np.ndarray
    circuit: np.ndarray
    crossing: np.ndarray
    time_s: np.ndarray
    lon: np.ndarray
    lat: np.ndarray
    heading_true_deg: np.ndarray
    track_true_deg: np.ndarray
    gs_kt: np.ndarray
    drift_deg: np.ndarray
    text: np.ndarray
    offsets: np.ndarray


def events(segments: Segments, marks: Marks, lon, lat) -> Events:
    """Events of flights, in the order flown.

    Parameters: segments, N flights; marks; lon, lat of the fixes (N,). Rows that hold NaN have none. The slow-down
    is an event where the arrival leg is long enough. Returns: Events. Source: SLOW_DOWN_RULE; FAA AIM 5-3-8 j;
    ICAO Doc 8168 Vol I, I-6-1 (from memory).
    """
    kind = segments.kind
    finite = np.isfinite(segments.end_s)
    present = segments.present & finite[:, None]
    arrives = np.zeros(present.shape, dtype=bool)
    arrives[:, kind == ARRIVAL] = finite[:, None]
    turns = present & np.isin(kind, (TURN_OUT, TURN_IN, ROLL_OUT))
    outbound, inbound = present & (kind == OUTBOUND), present & (kind == INBOUND)
    duration = segments.duration_s
    with np.errstate(invalid="ignore"):
        found = [
            _pick(A_ARRIVAL, arrives & present, np.zeros(duration.shape)),
            _pick(
                SLOW_DOWN, arrives & (duration >= SLOW_DOWN_RULE.before_fix_s), duration - SLOW_DOWN_RULE.before_fix_s
            ),
            _pick(TURN_END, turns, duration),
            _pick(ABEAM, outbound & (marks.abeam_s <= duration), marks.abeam_s),
            _pick(STOPWATCH, outbound & (marks.clock_s <= duration), marks.clock_s),
            _pick(OUTBOUND_END, outbound, duration),
            _pick(ON_COURSE, inbound & marks.on_course, np.zeros(duration.shape)),
            _pick(FIX, arrives | inbound, duration),
            _pick(TURN_START, turns, np.zeros(duration.shape)),
        ]
    row, column, into, event = (np.concatenate(parts) for parts in zip(*found))
    time = segments.start_s[row, column] + into
    time = np.where(np.abs(time) < 1e-9, 0.0, time)
    order = np.lexsort((event, np.round(time, 6), row))
    row, column, into, event, time = (a[order] for a in (row, column, into, event, time))
    # Before roll-out the state is that of the turn before the outbound leg.
    early = into < 0.0
    at = column - early
    state = segments.state(row, at, np.where(early, segments.duration_s[row, at] + into, into))
    out_lon, out_lat = geodesy.place(
        np.asarray(lon)[row], np.asarray(lat)[row], segments.inbound_true_deg[row], segments.side[row],
        state.u_nm, state.s_nm,
    )  # fmt: skip
    following = _following(present)[row, column]
    ends = event == FIX
    last = np.where(following < 0, segments.circuit[column], segments.circuit[np.maximum(following, 0)])
    count = np.cumsum(ends)
    offsets = np.searchsorted(row, np.arange(len(finite) + 1))
    before = np.concatenate([[0], count])[offsets[:-1]][row]
    return Events(
        row=row,
        event=event,
        circuit=np.where(ends, last, segments.circuit[column]),
        crossing=np.where(ends, count - before, 0),
        time_s=time,
        lon=out_lon,
        lat=out_lat,
        heading_true_deg=state.heading_true_deg,
        track_true_deg=state.track_true_deg,
        gs_kt=state.gs_kt,
        drift_deg=state.drift_deg,
        text=_sentences(segments, marks, row, column, event, following),
        offsets=offsets,
    )


def _pick(event: int, mask, seconds):
    row, column = np.nonzero(mask)
    return row, column, seconds[row, column], np.full(len(row), event)


def _following(present) -> np.ndarray:
    """The next segment that is there (N, K), -1 after the last."""
    out = np.full(present.shape, -1, dtype=np.int64)
    for column in range(present.shape[1] - 2, -1, -1):
        out[:, column] = np.where(present[:, column + 1], column + 1, out[:, column + 1])
    return out


def _sentences(segments: Segments, marks: Marks, row, column, event, following) -> np.ndarray:
    """One plain sentence for each event."""
    duration = segments.duration_s[row, column]
    turned = segments.turned_rad[row, column]
    now = np.degrees(segments.heading_rad[row, column])
    after = now + np.degrees(turned)
    magnetic = segments.inbound_true_deg[row] - marks.var_deg[row]
    side = segments.side[row]
    circuit, kind = segments.circuit[column], segments.kind[column]
    followed = np.where(following < 0, 0, segments.circuit[np.maximum(following, 0)])
    out = np.full(len(row), "", dtype=object)

    def course(angle_deg, at) -> np.ndarray:
        return _COURSES[np.floor(magnetic[at] + side[at] * angle_deg[at] + 0.5).astype(np.int64) % 360]

    def fill(mask, write) -> None:
        at = np.flatnonzero(mask)
        if len(at):
            out[at] = write(at)

    def each(values, write) -> np.ndarray:
        return np.array([write(value) for value in values], dtype=object)

    def durations(seconds) -> np.ndarray:
        return each(seconds, text.format_duration)

    turn = event == TURN_START
    fill(event == A_ARRIVAL, lambda at: "To the fix on heading " + course(now, at))
    fill(
        event == SLOW_DOWN,
        lambda at: "Three minutes to the fix: slow to " + each(marks.ias_kt[row[at]], "{:.0f}".format) + " kt",
    )
    hand = np.where(turned * side > 0.0, "Turn right to ", "Turn left to ").astype(object)
    fill(turn, lambda at: hand[at] + course(after, at))
    into_intercept = turn & (segments.kind[np.maximum(following, 0)] == INTERCEPT)
    fill(into_intercept, lambda at: out[at] + " to intercept the inbound course")
    fill(event == TURN_END, lambda at: "Heading " + course(after, at))
    fill(event == ABEAM, lambda at: "Abeam the fix")
    clock = marks.clock_s[row, column]
    at_abeam = np.abs(clock - marks.abeam_s[row, column]) < 1e-6
    fill(
        event == STOPWATCH,
        lambda at: np.where(at_abeam[at], "Abeam: start the stopwatch", "Turn complete: start the stopwatch"),
    )
    timed = (event == OUTBOUND_END) & (clock <= duration)
    fill(event == OUTBOUND_END, lambda at: "End of the outbound leg" + marks.leg_end[row[at], column[at]])
    fill(timed, lambda at: "End of the outbound leg: " + durations((duration - clock)[at]) + " on the stopwatch")
    fill(event == ON_COURSE, lambda at: "On the inbound course: " + durations(duration[at]) + " to the fix")
    crossing = event == FIX
    names = each(np.arange(int(segments.circuit.max(initial=0)) + 1), "circuit {}".format)
    fill(crossing & (following < 0), lambda at: np.where(
        marks.leaves[row[at]], "Fix: leave the hold", np.where(
            circuit[at] > 0, "Fix: end of " + names[circuit[at]], "Fix: end of the entry")))  # fmt: skip
    fill(crossing & (following >= 0) & (followed > 0), lambda at: "Fix: " + names[followed[at]])
    entering = crossing & (following >= 0) & (followed == 0)
    fill(entering & (kind == ARRIVAL), lambda at: "Fix: " + marks.entry[row[at]] + " entry")
    fill(entering & (kind == INBOUND), lambda at: np.full(len(at), "Fix: turn to join the hold", dtype=object))
    return out
