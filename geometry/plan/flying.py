"""What is flown at the holds of a layer: entry sectors, entries, and flights in wind with their events.

Angles that go out are from the magnetic model's north at the fix, which a compass shows there.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from .. import circuit, entries, flight, flown, hold_events, holds, leaving, navaids, reasons, text
from ..angles import wrap180, wrap360
from ..flown import Flight
from ..holds import Holds
from ..segments import INBOUND, OUTBOUND, TURN_OUT, Segments
from .holding import HoldRows
from .layer import Layer

EFC_SOURCE = "14 CFR 91.185"
ON_COURSE_DEG = 0.5
"""A turn of less than this is not told."""
LATER_CLOCK = "with the stopwatch from the later of abeam and turn complete (common practice) there is one"
FIRST_OF_ENTRY = 1
"""The column of a flight's segments in which an entry begins: behind that of the arrival."""


class Wind(NamedTuple):
    """Wind of N rows: true direction it comes from, 0 where it is calm, and knots."""

    from_true_deg: np.ndarray
    speed_kt: np.ndarray


class EntryRows(NamedTuple):
    """Entries of A arrivals: columns of the layer; reasons, object array of str, why there is none."""

    columns: dict[str, np.ndarray]
    reasons: np.ndarray


class MeasuredLayer(NamedTuple):
    """A Layer whose vertices carry seconds (T,)."""

    columns: dict[str, np.ndarray]
    coords: np.ndarray
    seconds: np.ndarray
    offsets: np.ndarray


@dataclass(frozen=True)
class Flights:
    """Flights at the good rows of a holds layer.

    index, those rows; holds and flight, theirs; keys, their holds; wind, timing, station and roll_s, what they were
    flown with; reasons (N,) of all rows.
    """

    index: np.ndarray
    holds: Holds
    flight: Flight
    keys: np.ndarray
    wind: Wind
    timing: np.ndarray
    station: flown.Station
    roll_s: np.ndarray
    reasons: np.ndarray


def true_bearing(rows: HoldRows, value_deg, north) -> tuple[np.ndarray, np.ndarray]:
    """Bearings at the fixes of holds, counted from one of the three norths, as true ones.

    From station north as on the course selector: with the declination carried to the fix, like the inbound course.

    Parameters: value_deg (N,), NaN for none; north, codes of navaids.NORTHS. Returns: degrees [0, 360), NaN for
    none; code, NO_DECLINATION where the station's north is asked for and not known. Source: navaids.true_from.
    """
    carried = wrap180(rows.holds.inbound_true_deg - rows.holds.inbound_station_deg)
    by_station = np.where(np.isfinite(rows.columns.get("navaid_decl_deg", np.nan)), carried, np.nan)
    true = wrap360(navaids.true_from(value_deg, north, by_station, rows.holds.var_deg))
    lost = np.isfinite(value_deg) & ~np.isfinite(true) & (np.asarray(north) == navaids.STATION)
    return true, reasons.where(lost, reasons.NO_DECLINATION)


def sector_rows(rows: HoldRows, radius_nm, tolerance_m: float = 5.0) -> Layer:
    """Entry sectors of the good holds: a Layer with the fields of sectors, three a hold in the order of
    entries.ENTRIES. Parameters: radius_nm (N,) > 0; tolerance_m > 0."""
    index = np.flatnonzero(rows.good)
    hold = rows.holds.take(index)
    radius = np.broadcast_to(np.asarray(radius_nm, float), rows.good.shape)[index]
    coords, offsets = entries.sector_rings(hold.lon, hold.lat, hold.inbound_true_deg, hold.side, radius, tolerance_m)
    low, high = entries.sector_headings(hold.inbound_model_deg, hold.side)
    columns = {
        "hold": np.repeat(rows.columns["hold"][index], len(entries.ENTRIES)),
        "entry": np.tile(np.array(entries.ENTRIES, dtype=object), len(index)),
        "from_deg": low.ravel(),
        "to_deg": high.ravel(),
    }
    return Layer(columns, coords, offsets)


def entry_rows(rows: HoldRows, owner, course_true_deg, names, wind: Wind, on_arc=False) -> EntryRows:
    """Entries of arrivals at holds: columns with the fields of entries.

    Along a DME arc there is no teardrop entry. Parameters: owner (A,), the row of rows each arrival belongs to;
    course_true_deg (A,) at the fix; names (A,) of the arrivals; wind (N,) of the rows; on_arc (N,) or one. Returns:
    EntryRows. Source: entries.SECTORS; entries.ARC_SOURCE; figures of the first leg as flown.fly flies it.
    """
    owner = np.asarray(owner, dtype=np.int64)
    hold, keys = rows.holds.take(owner), rows.columns["hold"][owner]
    wind_from, wind_kt = wind.from_true_deg[owner], wind.speed_kt[owner]
    arc = np.broadcast_to(np.asarray(on_arc, dtype=bool), rows.good.shape)[owner]
    station = _station(rows, owner)
    flight_ = flown.fly(
        hold, wind_from, wind_kt, station=station, arrival_true_deg=course_true_deg, circuits=0, on_arc=arc
    )
    arrival = flight_.arrival
    entry, also = arrival.by_heading
    first = _first_legs(hold, flight_, wind_from, wind_kt, station)
    inbound = flight.heading_for_course(hold.inbound_true_deg, hold.tas_kt, wind_from, wind_kt).heading_deg
    by_distance = np.isfinite(flight_.first_leg_nm)
    columns = {
        "hold": keys,
        "arrival_course_deg": wrap360(np.asarray(course_true_deg, float) - hold.var_deg),
        "arrival_heading_deg": wrap360(arrival.heading_deg - hold.var_deg),
        "entry": _word(entries.ENTRIES, entry),
        "also": _word(entries.ENTRIES, also),
        "entry_by_course": _word(entries.ENTRIES, arrival.by_course.entry),
        "outbound_heading_deg": wrap360(first.heading_true_deg - hold.var_deg),
        "inbound_heading_deg": wrap360(inbound - hold.var_deg),
        "time_s": np.where(by_distance, np.nan, first.seconds),
        "distance_nm": flight_.first_leg_nm,
        "arrival": np.asarray(names, dtype=object),
        "wind_from_true_deg": wind_from,
        "wind_kt": wind_kt,
    }
    why = reasons.sentences(reasons.first(hold.code, reasons.where(entry < 0, reasons.WIND_TOO_STRONG)))
    why = np.where(
        (why == reasons.sentence(reasons.WIND_TOO_STRONG)), "the wind is too strong for the arrival course", why
    ).astype(object)
    columns["text"] = _entry_texts(hold, flight_, columns, first, why)
    return EntryRows(columns, why)


class _FirstLeg(NamedTuple):
    """First legs of arrivals: true heading; seconds, of a direct entry what the stopwatch shows; the turn to it in
    degrees, positive right; code, why a direct entry has none."""

    heading_true_deg: np.ndarray
    seconds: np.ndarray
    turn_deg: np.ndarray
    code: np.ndarray


def _first_legs(hold: Holds, flight_: Flight, wind_from, wind_kt, station) -> _FirstLeg:
    """First legs as flown, and where no circuit can be flown by the same rules."""
    arrival, segments = flight_.arrival, flight_.segments
    flies = flight_.code == reasons.OK
    direct = arrival.by_heading.entry == entries.DIRECT
    out = _of_kind(segments, flight_.marks, 0, OUTBOUND)
    turn = _of_kind(segments, flight_.marks, 0, TURN_OUT)
    one = flown.circuit_of(hold, wind_from, wind_kt, circuit.ABEAM, station, arrival.heading_deg)
    one = one.where(one.code == reasons.OK, flight_.usual)
    heading = np.where(direct, one.heading_out_deg, arrival.outbound_heading_deg)
    seconds = np.where(direct, one.stopwatch_s, arrival.first_leg_s)
    heading = np.where(flies, out.heading_true_deg, heading)
    clock = np.where(np.isfinite(out.stopwatch_s), out.stopwatch_s, np.where(direct, np.nan, out.seconds))
    seconds = np.where(flies, clock, seconds)
    to_leg = wrap180(heading - arrival.heading_deg)
    round_the_side = np.where(direct & (hold.side * to_leg < 0.0), to_leg + hold.side * 360.0, to_leg)
    flown_turn = np.degrees(turn.turned_rad) * hold.side
    turned = np.where(flies, np.where(np.isfinite(flown_turn), flown_turn, 0.0), round_the_side)
    return _FirstLeg(heading, seconds, turned, np.where(direct, one.code, reasons.OK))


def _entry_texts(hold: Holds, flight_: Flight, columns, first: _FirstLeg, why) -> np.ndarray:
    """What to fly, in sentences."""
    arrival = flight_.arrival
    entry, also = arrival.by_heading
    by_course, by_heading = arrival.by_course.entry, np.where(arrival.barred, entries.TEARDROP, entry)
    words = [entries.WORDS[rules] for rules in holds.RULES]
    out = np.full(len(why), "", dtype=object)
    for i in np.flatnonzero(why == ""):
        named = words[int(hold.rules[i])]
        heading = text.format_course(columns["outbound_heading_deg"][i])
        said = f"{named[entry[i]].capitalize()} entry: "
        if heading:
            said += f"{_turn_to(first.turn_deg[i], heading)}, {_leg(hold, flight_, columns, i)}"
        else:
            said += reasons.sentence(first.code[i])
        sentences = [said]
        if heading:
            hand = _hand(-hold.side[i] if entry[i] == entries.PARALLEL else hold.side[i])
            goal = "inbound" if entry[i] == entries.DIRECT else "to intercept the inbound course"
            # A path that would meet the course past the fix goes to the fix itself.
            to_fix = flight_.code[i] == reasons.OK and not flight_.marks.on_course[i, FIRST_OF_ENTRY]
            sentences[0] += f", then turn {hand} {'to the fix and join from there' if to_fix else goal}"
        if by_course[i] != by_heading[i]:
            shown = text.format_course(columns["arrival_heading_deg"][i])
            sentences.append(
                f"By course the entry would be {named[by_course[i]]}, by heading {shown} it is {named[by_heading[i]]}"
            )
        if arrival.barred[i]:
            sentences.append(f"Along the DME arc no {named[entries.TEARDROP]} entry, so {named[entry[i]]}")
        elif also[i] >= 0:
            sentences.append(
                f"Within {entries.FREEDOM_DEG:.0f} degrees of the boundary: {named[also[i]]} may be flown too"
            )
        out[i] = ". ".join(sentences) + "."
    return out


def _turn_to(turn_deg: float, heading: str) -> str:
    if abs(turn_deg) < ON_COURSE_DEG:
        return f"straight on, heading {heading}"
    return f"turn {_hand(turn_deg)} to {heading}"


def _hand(sign: float) -> str:
    return "right" if sign > 0.0 else "left"


def _leg(hold: Holds, flight_: Flight, columns, i: int) -> str:
    """How long the first leg of an entry is, in words."""
    if np.isfinite(columns["distance_nm"][i]):
        if hold.leg_end[i] == holds.DME_END:
            return f"outbound to DME {hold.outbound_end_dme_nm[i]:.1f}"
        length = f"outbound {columns['distance_nm'][i]:.1f} NM"
        if hold.leg_end[i] == holds.INBOUND_LENGTH and flight_.closes[i]:
            return f"{length} until so much is left inbound"
        return f"{length} along the track"
    seconds = text.format_duration(columns["time_s"][i])
    if not seconds:
        return "outbound as in the hold"
    direct = flight_.arrival.by_heading.entry[i] == entries.DIRECT
    return f"{seconds} on the stopwatch" if direct else f"{seconds} outbound"


def fly_rows(
    rows: HoldRows, wind: Wind, *, timing, arrival_true_deg, circuits, leave_s=np.nan, adjust=flown.ADJUST_LAST,
    on_arc=False, roll_s=0.0,
) -> Flights:  # fmt: skip
    """Flights at the good holds.

    Parameters: wind (N,); timing, codes of circuit.CLOCKS; arrival_true_deg, course to the fix, NaN for none;
    circuits 0 to flown.MOST_CIRCUITS; leave_s from the first crossing, NaN for none; adjust, codes of
    flown.ADJUST; on_arc, true where it arrives along a DME arc; roll_s >= 0, in which the bank is built up, and taken
    off; N rows each or one. Returns: Flights. Source: flown.fly.
    """
    index = np.flatnonzero(rows.good)
    hold = rows.holds.take(index)
    timing, course, circuits, leave_s, adjust, on_arc, roll_s = (
        np.broadcast_to(np.asarray(a), rows.good.shape)[index]
        for a in (timing, arrival_true_deg, circuits, leave_s, adjust, on_arc, roll_s)
    )
    mine = Wind(wind.from_true_deg[index], wind.speed_kt[index])
    station = _station(rows, index)
    made = flown.fly(
        hold, *mine, timing=timing, station=station, arrival_true_deg=course, circuits=circuits, leave_s=leave_s,
        adjust=adjust, on_arc=on_arc, roll_s=roll_s,
    )  # fmt: skip
    why = rows.reasons.copy()
    why[index] = reasons.join(
        reasons.sentences(made.code), _other_clock(hold, mine, timing, station, roll_s, made.code)
    )
    return Flights(index, hold, made, rows.columns["hold"][index], mine, timing, station, roll_s, why)


def _other_clock(hold: Holds, wind: Wind, timing, station: flown.Station, roll_s, code) -> np.ndarray:
    """Sentences for holds that have no circuit while the stopwatch runs from abeam but have one with the later clock:
    a wind that brings the aeroplane abeam early in its turn leaves too little of the time for the straight."""
    words = np.full(len(code), "", dtype=object)
    none = np.isin(code, (reasons.NO_CIRCUIT, reasons.NO_INBOUND_LEG)) & (timing == circuit.ABEAM)
    at = np.flatnonzero(none & (hold.leg_kind == holds.TIME) & (hold.rules == holds.ICAO))
    if len(at):
        station = flown.Station(*[np.broadcast_to(a, code.shape)[at] for a in station])
        clock = np.full(len(at), circuit.LATER_OF_BOTH)
        later = flown.circuit_of(
            hold.take(at), wind.from_true_deg[at], wind.speed_kt[at], clock, station, roll_s=roll_s[at]
        )
        words[at[later.code == reasons.OK]] = LATER_CLOCK
    return words


def flown_rows(
    flights: Flights, start_utc: np.datetime64 | None = None, efc_utc: np.datetime64 | None = None,
    tolerance_m: float = 5.0,
) -> MeasuredLayer:  # fmt: skip
    """Lines of flights, one for arrival and entry and one for each circuit: a MeasuredLayer with the fields of flown.

    Parameters: start_utc, when the fix is first crossed, or None; efc_utc, the time to expect further clearance, or
    None; tolerance_m > 0. Returns: MeasuredLayer, seconds from the first crossing.
    """
    made, segments = flights.flight, flights.flight.segments
    lines = flown.lines(flights.holds, made, tolerance_m, by_circuit=True)
    parts = int(segments.circuit.max(initial=0)) + 1
    size = np.diff(lines.offsets)
    kept = np.flatnonzero(size)
    row, part = kept // parts, kept % parts
    begins, ends = lines.offsets[:-1][kept], lines.offsets[1:][kept] - 1
    outbound = [_of_kind(segments, made.marks, p, OUTBOUND) for p in range(parts)]
    inbound = [_of_kind(segments, made.marks, p, INBOUND, last=True) for p in range(parts)]

    def of(legs, name: str) -> np.ndarray:
        return np.stack([getattr(leg, name) for leg in legs], axis=1)[row, part]

    var = flights.holds.var_deg[row]
    start, end = lines.seconds[begins], lines.seconds[ends]
    columns = {
        "hold": flights.keys[row],
        "circuit": part,
        "entry": np.where(part == 0, _word(entries.ENTRIES, made.arrival.by_heading.entry)[row], "").astype(object),
        "start_s": start,
        "end_s": end,
        "start_utc": utc(start_utc, start),
        "end_utc": utc(start_utc, end),
        "outbound_heading_deg": wrap360(of(outbound, "heading_true_deg") - var),
        "stopwatch_s": of(outbound, "stopwatch_s"),
        "outbound_s": of(outbound, "seconds"),
        "inbound_heading_deg": wrap360(of(inbound, "heading_true_deg") - var),
        "inbound_s": of(inbound, "seconds"),
        "wind_from_true_deg": flights.wind.from_true_deg[row],
        "wind_kt": flights.wind.speed_kt[row],
        "text": _flight_texts(flights, start_utc, efc_utc, row, part),
    }
    return MeasuredLayer(columns, lines.coords, lines.seconds, np.concatenate([[0], np.cumsum(size[kept])]))


def event_rows(flights: Flights, start_utc: np.datetime64 | None = None) -> tuple[dict[str, np.ndarray], np.ndarray]:
    """Events of flights: columns with the fields of events, and where they happen, lon and lat (E, 2).

    Parameters: as flown_rows.
    """
    found = flown.events(flights.holds, flights.flight)
    var = flights.holds.var_deg[found.row]
    columns = {
        "hold": flights.keys[found.row],
        "circuit": found.circuit,
        "event": _word(hold_events.EVENTS, found.event),
        "time_s": found.time_s,
        "utc": utc(start_utc, found.time_s),
        "heading_model_deg": wrap360(found.heading_true_deg - var),
        "track_model_deg": wrap360(found.track_true_deg - var),
        "gs_kt": found.gs_kt,
        "drift_deg": found.drift_deg,
        "text": found.text,
    }
    return columns, np.stack([found.lon, found.lat], axis=1)


def utc(start_utc: np.datetime64 | None, seconds) -> np.ndarray:
    """Times as ISO text without a zone, to the whole second; '' without a start.

    Parameters: start_utc, at 0 s; seconds (E,). Returns: object array of str.

    >>> utc(np.datetime64("2026-09-01T23:59:30"), [-30.0, 45.5])
    array(['2026-09-01T23:59:00', '2026-09-02T00:00:16'], dtype=object)
    """
    seconds = np.asarray(seconds, float)
    if start_utc is None:
        return np.full(seconds.shape, "", dtype=object)
    whole = np.floor(seconds + 0.5 + 1e-6).astype("timedelta64[s]")
    return np.datetime_as_string(start_utc.astype("datetime64[s]") + whole, unit="s").astype(object)


def _station(rows: HoldRows, index) -> flown.Station:
    """The stations whose distance ends the legs of some holds; NaN where there is none or its kind gives none."""
    columns, n = rows.columns, len(rows.good)
    kind = np.array([navaids.clean_kind(k) for k in columns.get("navaid_kind", [""] * n)], dtype=object)
    has_dme = navaids.gives_range(kind)
    names = ("navaid_lon", "navaid_lat", "navaid_elev_ft")
    return flown.Station(*[np.where(has_dme, columns.get(name, np.full(n, np.nan)), np.nan)[index] for name in names])


class _Leg(NamedTuple):
    """Segments of one kind in one circuit, a flight each, NaN where there is none."""

    heading_true_deg: np.ndarray
    seconds: np.ndarray
    stopwatch_s: np.ndarray
    turned_rad: np.ndarray


def _of_kind(segments: Segments, marks: hold_events.Marks, number: int, kind: int, last: bool = False) -> _Leg:
    """The first or the last segment of a kind in a circuit."""
    columns = np.flatnonzero((segments.circuit == number) & (segments.kind == kind))
    n = len(segments.v)
    if not len(columns):
        return _Leg(*[np.full(n, np.nan)] * 4)
    if last:
        columns = columns[::-1]
    there = segments.present[:, columns]
    row, column = np.arange(n), columns[np.argmax(there, axis=1)]
    seconds = segments.duration_s[row, column]
    heading = segments.inbound_true_deg + segments.side * np.degrees(segments.heading_rad[row, column])
    with np.errstate(invalid="ignore"):
        stopwatch = seconds - marks.clock_s[row, column]
        stopwatch = np.where(stopwatch >= 0.0, stopwatch, np.nan)
    values = (wrap360(heading), seconds, stopwatch, segments.turned_rad[row, column])
    return _Leg(*[np.where(there.any(axis=1), value, np.nan) for value in values])


def _flight_texts(flights: Flights, start_utc, efc_utc, row, part) -> np.ndarray:
    """What to know of a flight, beside its first line; what is changed, beside the circuit that is."""
    made = flights.flight
    plan = made.leaving
    whole = np.full(len(made.code), "", dtype=object)
    changed = np.full((len(made.code), int(part.max(initial=0)) + 1), "", dtype=object)
    if plan is not None:
        leaves = made.marks.leaves & (made.code == reasons.OK)
        usual = made.usual.circuit_s
        for i in np.flatnonzero(leaves):
            whole[i] = _leaving_text(flights, plan, i, start_utc)
        last_s = _circuit_seconds(made)
        for i, j in zip(*np.nonzero(leaves[:, None] & (np.abs(last_s - usual[:, None]) > leaving.SAME_S))):
            changed[i, j + 1] = f"changed to leave on time: {text.format_duration(last_s[i, j])} in all"
    whole = reasons.join(whole, made.notes)
    if efc_utc is not None:
        said = f"expect further clearance at {_clock(efc_utc)}: no clearance to leave; it matters when radio contact"
        whole = reasons.join(whole, np.full(len(whole), f"{said} is lost ({EFC_SOURCE})", dtype=object))
    return np.where(part == 0, whole[row], changed[row, part]).astype(object)


def _circuit_seconds(made: Flight) -> np.ndarray:
    """Seconds of each circuit (K, circuits), NaN where it is not flown."""
    segments = made.segments
    out = np.full((len(made.code), int(segments.circuit.max(initial=0))), np.nan)
    for j in range(out.shape[1]):
        seconds = segments.duration_s[:, segments.circuit == j + 1].sum(axis=1)
        out[:, j] = np.where(made.circuits > j, seconds, np.nan)
    return out


def _leaving_text(flights: Flights, plan, i: int, start_utc) -> str:
    made = flights.flight
    number = int(made.circuits[i])
    when = text.format_duration(made.segments.end_s[i])
    end_s = np.timedelta64(int(round(made.segments.end_s[i])), "s")
    at = "" if start_utc is None else f" at {_clock(start_utc + end_s)}"
    if number == 0:
        return f"over the fix to leave{at} at the end of the entry"
    seconds = _circuit_seconds(made)[i, :number]
    count = "1 circuit" if number == 1 else f"{number} circuits"
    if np.ptp(seconds) > leaving.SAME_S:
        each = f", the last of {text.format_duration(seconds[-1])}"
    else:
        each = f" of {text.format_duration(seconds[0])}"
    return f"over the fix to leave{at}, {when} after the first crossing: {count}{each}"


def _clock(moment: np.datetime64) -> str:
    return str(np.datetime_as_string(moment, unit="s"))[11:] + "Z"


def _word(words, codes) -> np.ndarray:
    """Words of codes, '' for -1."""
    return np.array([*words, ""], dtype=object)[np.asarray(codes, dtype=np.int64)]
