"""The day of the flight: what a plan's holds are flown like in its wind and at its times."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .. import circuit, clock, navaids, reasons, text
from ..ranges import MOST_WIND_KT
from .by_rule import rule_rows
from .cells import Cells
from .flying import MeasuredLayer, Wind, entry_rows, event_rows, flown_rows, fly_rows, true_bearing
from .holding import HoldRows

CIRCUITS = 3
"""Circuits flown where no time to leave is given: our own choice."""
MOST_ENDURANCE_H = 100
"""Fuel for longer than this is a slip of the pen: our own choice."""


@dataclass(frozen=True)
class FlightDay:
    """What holds for all rows of a plan: the day as ISO text; wind true, from, kt, NaN where the plan's own cells
    count; start, when each fix is first crossed, or None."""

    day: str
    wind_from_deg: float = np.nan
    wind_kt: float = np.nan
    start: np.datetime64 | None = None


@dataclass(frozen=True)
class Flown:
    """Entries as columns; flights, circuits by the rules of thumb, events with places (E, 2); sentences (N,) of holds
    that cannot be flown in the wind, and of what was assumed."""

    entries: dict[str, np.ndarray]
    flown: MeasuredLayer
    by_rule: MeasuredLayer
    events: dict[str, np.ndarray]
    places: np.ndarray
    limits: np.ndarray
    assumed: np.ndarray


def read_clock(value: str, day: str, after: np.datetime64 | None = None) -> np.datetime64 | None:
    """A time of a plan in UTC; without a day of its own that day, or the first such time not before another.

    Parameters: value as clock.parse_clock takes it; day, ISO; after. Returns: the moment, None for text that is none.

    >>> str(read_clock("00:10", "2026-09-01", np.datetime64("2026-09-01T23:50:00")))
    '2026-09-02T00:10:00'
    """
    found = clock.parse_clock(value)
    if found is None:
        return None
    moment = np.datetime64(f"{found.day or day}T{found.time.isoformat()}", "s")
    if after is not None and found.day is None and moment < after:
        moment += np.timedelta64(1, "D")
    return moment


def fly_plan(
    plan: dict[str, Sequence], rows: np.ndarray, kept: HoldRows, aircraft: dict[str, Sequence] | None, day: FlightDay
) -> Flown:
    """Fly the holds of a plan.

    Parameters: plan, cells of N rows (wind_from_deg, wind_kt true; arrival_deg by north; start_utc, leave_utc,
    efc_utc; aircraft); rows, the plan row of each of the kept holds; aircraft, cells with fuel_flow and usable_fuel
    in one unit of volume or mass and per hour; day. Returns: Flown, its N the kept holds. A hold that cannot be
    flown stays a hold: its `limits` say why.
    """
    cells = Cells(plan, max((len(v) for v in plan.values()), default=0))
    n = len(rows)
    limits, assumed = np.full(n, "", dtype=object), np.full(n, "", dtype=object)
    wind = _wind(cells, rows, day, limits, assumed)
    north = cells.word("north", navaids.NORTHS)[rows]
    course, lost = true_bearing(kept, cells.number("arrival_deg")[rows], np.where(north < 0, navaids.STATION, north))
    times = _times(cells, rows, day, limits)
    has = np.flatnonzero(np.isfinite(course))
    entered = entry_rows(kept, has, course[has], kept.columns["hold"][has], wind)
    good = np.flatnonzero(entered.reasons == "")
    for i in np.flatnonzero(entered.reasons != ""):
        reasons.note(limits, np.arange(n) == has[i], lambda _, i=i: str(entered.reasons[i]))
    reasons.note(limits, lost != reasons.OK, lambda i: reasons.sentence(lost[i]))

    start, leave, efc = times
    leave_s = np.array([np.nan if x is None else (x - s) / np.timedelta64(1, "s") for s, x in zip(start, leave)])
    fuel = _fuel(cells.text("aircraft")[rows], aircraft, limits)
    layers, rules, found, places = [], [], [], []
    for key in sorted({(str(s), str(e)) for s, e in zip(start, efc)}):
        index = np.array([i for i in range(n) if (str(start[i]), str(efc[i])) == key])
        part = kept.take(index)
        flights = fly_rows(
            part, Wind(*(w[index] for w in wind)), timing=circuit.ABEAM, arrival_true_deg=course[index],
            circuits=CIRCUITS, leave_s=leave_s[index],
        )  # fmt: skip
        for i, why in zip(index, flights.reasons):
            if why and not limits[i]:
                limits[i] = f"cannot be flown in this wind: {why}"
        layer = flown_rows(flights, start[index[0]], efc[index[0]])
        _say_fuel(layer.columns, dict(zip(part.columns["hold"], fuel[index])), start[index[0]], efc[index[0]])
        layers.append(layer)
        rules.append(rule_rows(flights))
        columns, where = event_rows(flights, start[index[0]])
        found.append(columns)
        places.append(where)
    return Flown(
        {k: v[good] for k, v in entered.columns.items()}, _together(layers), _together(rules), _columns(found),
        np.concatenate(places) if places else np.zeros((0, 2)), limits, assumed,
    )  # fmt: skip


def _wind(cells: Cells, rows, day: FlightDay, limits, assumed) -> Wind:
    """The wind of each hold: the day's, else the row's own, else calm."""
    if np.isfinite(day.wind_kt):
        return Wind(np.full(len(rows), np.nan_to_num(day.wind_from_deg)), np.full(len(rows), day.wind_kt))
    wind_from, speed = cells.number("wind_from_deg"), cells.number("wind_kt")
    with np.errstate(invalid="ignore"):
        for name, values, most in (("wind_from_deg", wind_from, 360.0), ("wind_kt", speed, MOST_WIND_KT)):
            beyond = (values < 0.0) | (values > most)
            reasons.note(
                cells.reasons, beyond, lambda i, n=name, v=values, m=most: f"{n} is {v[i]:g}; it must be 0 to {m:g}"
            )
            values[beyond] = np.nan
    wrong, wind_from, speed = cells.reasons[rows], wind_from[rows], speed[rows]
    reasons.note(limits, wrong != "", lambda i: wrong[i])
    unknown = ~(np.isfinite(wind_from) & np.isfinite(speed))
    reasons.note(assumed, unknown, lambda i: "flown in calm: no wind is given")
    return Wind(np.where(unknown, 0.0, wind_from), np.where(unknown, 0.0, speed))


def _times(cells: Cells, rows, day: FlightDay, limits):
    """Start, time to leave and time to expect further clearance of each hold, None where there is none."""
    out: tuple[list, list, list] = ([], [], [])
    given = [cells.text(name)[rows] for name in ("start_utc", "leave_utc", "efc_utc")]
    for i in range(len(rows)):
        start = day.start if day.start is not None else _moment(given[0][i], "start_utc", day.day, None, limits, i)
        moments = [start]
        for name, words in (("leave_utc", given[1][i]), ("efc_utc", given[2][i])):
            moments.append(_moment(words, name, day.day, start, limits, i))
        if start is None and moments[1] is not None:
            reasons.note(limits, np.arange(len(rows)) == i, lambda _: "leave_utc is given without start_utc")
            moments[1] = None
        for column, moment in zip(out, moments):
            column.append(moment)
    return out


def _moment(words: str, name: str, day: str, after, limits, i: int):
    if not words:
        return None
    moment = read_clock(words, day, after)
    if moment is None:
        mine = np.arange(len(limits)) == i
        reasons.note(limits, mine, lambda _: f"{name}: '{words[:40]}' is not a time such as 14:05 or 2026-09-01T14:05")
    return moment


def _fuel(names, aircraft: dict[str, Sequence] | None, limits) -> np.ndarray:
    """Seconds that the usable fuel of each hold's aircraft lasts, NaN where that is not known; cells that are no such
    figure are told."""
    cells = Cells(aircraft or {}, max((len(v) for v in (aircraft or {}).values()), default=0))
    if not cells.rows:
        return np.full(len(names), np.nan)
    flow, usable = cells.number("fuel_flow"), cells.number("usable_fuel")
    with np.errstate(divide="ignore", invalid="ignore"):
        lasts_s = usable / flow * 3600.0
        reasons.note(cells.reasons, flow <= 0.0, lambda i: f"fuel_flow is {flow[i]:g}; it must be more than 0")
        reasons.note(cells.reasons, usable < 0.0, lambda i: f"usable_fuel is {usable[i]:g}; it must be 0 or more")
        too_long = (cells.reasons == "") & (lasts_s > MOST_ENDURANCE_H * 3600.0)
        said = f"hours; at most {MOST_ENDURANCE_H} count"
        reasons.note(
            cells.reasons, too_long, lambda i: f"usable_fuel over fuel_flow gives {lasts_s[i] / 3600.0:.4g} {said}"
        )
    called = cells.text("aircraft")
    found = dict(zip((name.lower() for name in called), range(cells.rows)))
    row = np.array([found.get(str(name).lower(), -1) if name else -1 for name in names], dtype=np.int64)
    wrong = np.where(row < 0, "", cells.reasons[row])
    reasons.note(limits, wrong != "", lambda i: f"the fuel of the {called[row[i]]} is left out: {wrong[i]}")
    return np.where((row < 0) | (wrong != ""), np.nan, lasts_s[row])


def _say_fuel(columns: dict[str, np.ndarray], seconds: dict, start, efc) -> None:
    """How long the fuel lasts, beside the first line of each flight, and whether that is shorter than what is flown
    here or than the time to expect further clearance."""
    lasts = np.array([seconds[hold] for hold in columns["hold"]], dtype=np.float64)
    ends = dict(zip(columns["hold"], columns["end_s"]))  # the last line of a hold stands last
    first = (columns["circuit"] == 0) & np.isfinite(lasts)

    def say(i: int) -> str:
        said = f"fuel for {text.format_duration(lasts[i])} from the first crossing, no reserve kept back"
        if start is not None:
            latest = start + np.timedelta64(int(lasts[i]), "s")
            said += f": leave by {str(np.datetime_as_string(latest, unit='s'))[11:]}Z at the latest"
        too_late = ["the end of these circuits"] if ends[columns["hold"][i]] > lasts[i] else []
        if start is not None and efc is not None and efc > latest:
            too_late.append("the time to expect further clearance")
        return f"{said}, which is before {' and before '.join(too_late)}" if too_late else said

    reasons.note(columns["text"], first, say)


def _columns(parts: list[dict[str, np.ndarray]]) -> dict[str, np.ndarray]:
    return {name: np.concatenate([part[name] for part in parts]) for name in parts[0]} if parts else {}


def _together(layers: list[MeasuredLayer]) -> MeasuredLayer:
    """Layers one after the other."""
    if not layers:
        return MeasuredLayer({}, np.zeros((0, 2)), np.zeros(0), np.zeros(1, dtype=np.int64))
    sizes = np.concatenate([np.diff(layer.offsets) for layer in layers])
    return MeasuredLayer(
        _columns([layer.columns for layer in layers]),
        np.concatenate([layer.coords for layer in layers]),
        np.concatenate([layer.seconds for layer in layers]),
        np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64),
    )
