"""The state space of the envelope: which flights it holds, as families of two turns and two straights.

Frame of the hold, computed as a right hold: headings from +u towards +s, so a right turn increases them. A flight
keeps its arrival heading for start_s after the fix, turns to the outbound heading, flies straight, turns again and
ends at end_rad. Headings are flown without drift correction, at one rate, in one wind. Derived here, see
DEVELOPERS.md; no document defines this area.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ..entries import FREEDOM_DEG, ICAO_LONGEST_OFFSET_S, OFFSET_DEG, SECTORS

_FLIGHT = "ICAO Doc 8168 Vol II, 5th ed. 2006, p. I-4-3-7 h)"


class Tolerance(NamedTuple):
    """How far a flight may differ from the one intended: name, least, greatest, unit, source, mark."""

    name: str
    least: float
    greatest: float
    unit: str
    source: str
    mark: str


TOLERANCES = (
    Tolerance("start", 5.0, 11.0, "s", f"{_FLIGHT}: bank established 5 s after a reaction of 0 to 6 s", "published"),
    Tolerance("heading", -5.0, 5.0, "deg", _FLIGHT, "from memory"),
    Tolerance("timing", -10.0, 10.0, "s", _FLIGHT, "published"),
    Tolerance("second turn", 5.0, 11.0, "s", f"{_FLIGHT}: bank established 5 s after 0 to 6 s", "published"),
)
_BY_NAME = {row.name: row for row in TOLERANCES}
START_S = (_BY_NAME["start"].least, _BY_NAME["start"].greatest)
HEADING_DEG = _BY_NAME["heading"].greatest
REACT_S = (_BY_NAME["second turn"].least, _BY_NAME["second turn"].greatest)
CLOCK_S = (_BY_NAME["timing"].least + REACT_S[0], _BY_NAME["timing"].greatest + REACT_S[1])
"""What the least and the greatest outbound straight add to the outbound time: -5 and 21 s."""

MANOEUVRES = ("circuit", "direct", "teardrop", "parallel")
CIRCUIT, DIRECT, TEARDROP, PARALLEL = range(4)
MANOEUVRE_CODES = (CIRCUIT, DIRECT, TEARDROP, PARALLEL)
SLICE_DEG = 10.0
"""Headings at the fix are cut into slices where the latest straight depends on the turn: a finer cut holds less."""
PAST_THE_COURSE_DEG = 45.0
"""A parallel entry's second turn goes on so far past the inbound course, to cut it: derived here."""


class Manoeuvre(NamedTuple):
    """Degrees in the frame: arrival headings from and to, outbound heading, end of the second turn; directions of the
    first turn (0: the shorter way) and of the second, +1 right; the longest outbound time; whether that may count from
    abeam the fix: the teardrop's leg leaves the fix, so that its clock starts there or at roll-out."""

    from_deg: float
    to_deg: float
    outbound_deg: float
    end_deg: float
    first: int
    second: int
    longest_s: float
    from_abeam: bool


def _widened(sector, turns: float) -> tuple[float, float]:
    return sector.from_deg - FREEDOM_DEG + turns, sector.to_deg + FREEDOM_DEG + turns


RULES = {
    CIRCUIT: Manoeuvre(0.0, 0.0, 180.0, 360.0, 1, 1, np.inf, True),
    DIRECT: Manoeuvre(*_widened(SECTORS[0], 0.0), 180.0, 360.0, 1, 1, np.inf, True),
    TEARDROP: Manoeuvre(*_widened(SECTORS[1], 0.0), 180.0 - OFFSET_DEG, 360.0, 0, 1, ICAO_LONGEST_OFFSET_S, False),
    PARALLEL: Manoeuvre(*_widened(SECTORS[2], -360.0), -180.0, -360.0 - PAST_THE_COURSE_DEG, 0, -1, np.inf, True),
}


class Families(NamedTuple):
    """M families of flights; (M,) unless said. NM/s, rad/s, rad, s.

    design: the row that a family belongs to; manoeuvre, code of MANOEUVRES; v, omega, wind; start_s (M, 2), straight
    before the first turn; a_rad (M, 2), arrival headings; goal_rad (M, 2), outbound headings; first, second, +1 right;
    end_rad; clock_s (M, 2), the outbound straight from roll-out, or from abeam the fix; abeam, whether a clock from
    abeam means something.
    """

    design: np.ndarray
    manoeuvre: np.ndarray
    v: np.ndarray
    omega: np.ndarray
    wind: np.ndarray
    start_s: np.ndarray
    a_rad: np.ndarray
    goal_rad: np.ndarray
    first: np.ndarray
    second: np.ndarray
    end_rad: np.ndarray
    clock_s: np.ndarray
    abeam: np.ndarray

    def take(self, index) -> Families:
        return Families(*[column[index] for column in self])


def families(tas_kt, rate_dps, wind_kt, outbound_s, manoeuvres, arrivals_deg=None, abeam: bool = True) -> Families:
    """Families of N designs.

    Where the first turn of an entry may go either way there are three: turning right, turning left, and flying
    straight on, which is the border between them. Where wind and heading may keep a direct entry from ever being
    ahead of the fix, its clock may start over the fix: as much of the outbound straight is missing as start and turn
    take, down to what the pilot takes to begin the second turn.
    Parameters: tas_kt, rate_dps, wind_kt, outbound_s (N,); manoeuvres, codes; arrivals_deg, None for every heading
    of a manoeuvre, or N items, each None or intervals (J, 2) of headings at the fix less the inbound course, in the
    frame, outside which no entry begins; abeam, whether clocks may start over or abeam the fix, too. The circuit always
    arrives on the inbound course.
    """
    tas, rate, wind, outbound = (np.asarray(a, dtype=np.float64) for a in (tas_kt, rate_dps, wind_kt, outbound_s))
    rows = []
    for n in range(len(tas)):
        wanted = None if arrivals_deg is None else arrivals_deg[n]
        for code in manoeuvres:
            rule = RULES[code]
            whole = (rule.from_deg, rule.to_deg)
            for part in [whole] if wanted is None or code == CIRCUIT else _common(whole, wanted):
                rows += [(n, code, *case, 0.0) for case in _cases(rule, *part)]
                if code == DIRECT:
                    slices = _common(part, _never_ahead(tas[n], wind[n])) if abeam else []
                    rows += [(n, code, *case, 1.0) for one in slices for case in _cases(rule, *one)]
    table = np.array(rows, dtype=np.float64).reshape(-1, 9)
    design, code = table[:, 0].astype(np.int64), table[:, 1].astype(np.int64)
    a, goal, first, straight_on, over = table[:, 2:4], table[:, 4:6], table[:, 6], table[:, 7] > 0.0, table[:, 8] > 0.0
    longest = np.array([rule.longest_s for rule in RULES.values()])[code]
    clock = np.minimum(outbound[design], longest)[:, None] + np.array(CLOCK_S)
    turn_s = np.where(straight_on, 0.0, np.max(np.abs(goal - a[:, ::-1]), axis=1)) / rate[design]
    earliest = np.minimum(clock[:, 0], np.fmax(REACT_S[0], clock[:, 0] - START_S[1] - turn_s))
    clock[:, 0] = np.where(over, earliest, clock[:, 0])
    return Families(
        design,
        code,
        tas[design] / 3600.0,
        np.radians(rate[design]),
        wind[design] / 3600.0,
        np.where(straight_on[:, None], START_S + clock, START_S),
        np.radians(a),
        np.radians(goal),
        first,
        np.array([float(rule.second) for rule in RULES.values()])[code],
        np.radians([rule.end_deg for rule in RULES.values()])[code],
        np.where(straight_on[:, None], 0.0, clock),
        abeam & ~straight_on & ~over & np.array([rule.from_abeam for rule in RULES.values()])[code],
    )


def _never_ahead(tas_kt: float, wind_kt: float) -> list[tuple[float, float]]:
    """Slices of headings at the fix, degrees, on which the wind may keep an aeroplane that turns right from ever being
    ahead of it: those on which it can fall back at once. (From headings on the other side it can only where wind and
    speed are nearly equal, and then nowhere farther than other flights: shown by simulation.)"""
    first = np.degrees(np.arccos(min(1.0, wind_kt / tas_kt)))
    cuts = np.append(np.arange(first, 180.0, SLICE_DEG), 180.0)
    return list(zip(cuts[:-1], cuts[1:]))


def _common(whole, intervals) -> list[tuple[float, float]]:
    """Parts of an interval of headings that lie in others, whole turns apart or not."""
    out = []
    for low, high in np.asarray(intervals, dtype=np.float64).reshape(-1, 2):
        for turn in (-360.0, 0.0, 360.0):
            a, b = max(whole[0], low + turn), min(whole[1], high + turn)
            if a <= b:
                out.append((a, b))
    return out


def _cases(rule: Manoeuvre, low: float, high: float):
    """(from, to, outbound from, to, first turn, straight on) of arrivals from low to high."""
    near, far = rule.outbound_deg - HEADING_DEG, rule.outbound_deg + HEADING_DEG
    if rule.first:
        return [(low, high, near, far, float(rule.first), 0.0)]
    out = []
    if low <= far:
        out.append((low, min(high, far), near, far, 1.0, 0.0))
    if high >= near:
        out.append((max(low, near), high, near, far, -1.0, 0.0))
    if low <= far and high >= near:
        out.append((max(low, near), min(high, far), rule.end_deg, rule.end_deg, float(rule.second), 1.0))
    return out
