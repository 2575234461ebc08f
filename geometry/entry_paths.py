"""The path of an entry, from the fix until the aeroplane is over it again on the inbound course.

Frame of the hold, computed as a right hold. Direct: turn right to the outbound heading, straight, turn right to
the inbound heading, on the course by the circuit's own algebra. Parallel: turn the shorter way to the reciprocal
course, straight, turn left towards the holding side, intercept. Teardrop: turn the shorter way to the offset leg,
straight, turn right, intercept. Derived here from the documents' words, see DEVELOPERS.md.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import reasons
from .circuit import BISECTIONS, Air, Circuit
from .entries import DIRECT, PARALLEL
from .segments import INBOUND, INTERCEPT, OUTBOUND, ROLL_OUT, TURN_IN, TURN_OUT, displacement


class Intercept(NamedTuple):
    angle_deg: float
    mark: str
    source: str


INTERCEPT_RULE = Intercept(45.0, "common practice", "taught for intercepting a course after a reversal; no document")
COLUMNS = (TURN_OUT, OUTBOUND, TURN_IN, INTERCEPT, ROLL_OUT, INBOUND)
"""Kinds of the six segments of an entry."""
ON_COURSE_NM = 1e-9
NO_TURN_RAD = 1e-9
"""A turn of no more than this is none, and has no rolling."""
TURN_STEPS = 360
LONGER_STEP_S, MOST_LONGER_S = 5.0, 300.0
TRIED_AT_ONCE = 2000
LEAST_TO_FIX_S = 1.0
"""A first leg is lengthened by whole steps, until the course is met at least so long before the fix: our own choice."""


class EntryPath(NamedTuple):
    """Entries of N rows: duration_s, rate_rad_s, heading_rad (N, 6) by COLUMNS; on_course, false where the course is
    met only past the fix, so that the path goes to the fix itself; closes, true where a direct entry ends on the
    course by the hold's own leg; longer_s, by what the first leg is lengthened; end_heading_rad over the fix; seconds;
    code."""

    duration_s: np.ndarray
    rate_rad_s: np.ndarray
    heading_rad: np.ndarray
    on_course: np.ndarray
    closes: np.ndarray
    longer_s: np.ndarray
    end_heading_rad: np.ndarray
    seconds: np.ndarray
    code: np.ndarray


class _Way(NamedTuple):
    """A path after the first leg: the angles of its two turns, the straight between, and the way to the fix."""

    turn_rad: np.ndarray
    intercept_s: np.ndarray
    roll_rad: np.ndarray
    to_fix_s: np.ndarray


def path(air: Air, start_rad, which, leg_heading_rad, leg_s, direct: Circuit, to_fix: bool = True) -> EntryPath:
    """Paths of entries.

    A direct entry follows direct where its code is 0; otherwise it turns the shorter way to leg_heading_rad and
    goes on like a teardrop. Intercept: a plain turn to the inbound heading would end e off the course; so turn
    to 45 degrees towards the course, straight, roll out on it; if that would pass the course, the greatest
    intercept angle that needs no straight. Where the roll-out lies past the fix the turn ends when the fix is
    ahead on the track, and the path goes there. Where the wind lets it do neither, the first leg is lengthened.
    Parameters: air, N rows; start_rad, heading at the fix; which, codes of entries.ENTRIES; leg_heading_rad, the
    first leg's heading; leg_s, its seconds; direct, circuits from that start; to_fix, false to lengthen the leg
    rather than go to the fix. Angles in the frame.
    Returns: EntryPath; NO_ENTRY where neither the course nor the fix can be met. Source: FAA AIM 5-3-8 j.3;
    ICAO Doc 8168 Vol I, I-6-1 (from memory); intercept as INTERCEPT_RULE; a longer leg: common practice.
    """
    start, which, leg_heading, leg_s = np.broadcast_arrays(start_rad, which, leg_heading_rad, leg_s)
    closes = (which == DIRECT) & (direct.code == reasons.OK)
    first_rad, u1, s1 = first_turn(air, start, leg_heading)
    first_s = _turn_s(air, first_rad)
    u2, s2 = displacement(air.v, air.wa, air.wc, leg_heading, 0.0, leg_s)
    hand = np.where(which == PARALLEL, -1.0, 1.0)
    with np.errstate(invalid="ignore", divide="ignore"):
        way = _Way(*[np.array(a) for a in _to_course(air, u1 + u2, s1 + s2, leg_heading, hand)])
        on_course, longer = closes | (way.to_fix_s > 0.0), np.zeros(len(start))
        for other in (_to_fix, _longer) if to_fix else (_longer,):
            rows = np.flatnonzero(~(closes | (way.to_fix_s > 0.0)) & np.isfinite(air.gs + first_s + leg_s))
            part = Air(*[a[rows] for a in air])
            found, extra = other(part, (u1 + u2)[rows], (s1 + s2)[rows], leg_heading[rows], hand[rows])
            for whole, values in zip(way, found):
                whole[rows] = values
            longer[rows] = extra
        on_course |= longer > 0.0
    zero = np.zeros(len(start))
    turn = [air.omega * (seconds - air.roll_s) for seconds in (direct.turn_out_s, direct.turn_in_s)]
    first_rad = np.where(closes, turn[0], first_rad)
    second_rad = np.where(closes, turn[1], hand * way.turn_rad)
    roll_rad = np.where(closes, 0.0, way.roll_rad)
    outbound = np.where(closes, np.pi - direct.eps_rad, leg_heading)
    after = outbound + second_rad
    end = np.where(on_course, air.kappa_rad, after)
    duration = [
        np.where(closes, direct.turn_out_s, first_s),
        np.where(closes, direct.outbound_s, leg_s + longer),
        np.abs(second_rad) / air.omega + air.roll_s,
        np.where(closes, 0.0, way.intercept_s),
        _turn_s(air, roll_rad),
        np.where(closes, direct.inbound_s, way.to_fix_s),
    ]
    rate = [np.sign(first_rad) * air.omega, zero, np.sign(second_rad) * air.omega, zero,
            np.sign(roll_rad) * air.omega, zero]  # fmt: skip
    heading = [start, outbound, outbound, after, after, end]
    seconds = np.sum(duration, axis=0)
    return EntryPath(
        np.stack(duration, axis=1), np.stack(rate, axis=1), np.stack(np.broadcast_arrays(*heading), axis=1),
        on_course, closes, longer, _shorter(end), seconds, reasons.where(~np.isfinite(seconds), reasons.NO_ENTRY),
    )  # fmt: skip


def first_turn(air: Air, start_rad, leg_heading_rad) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """The turn the shorter way to the heading of the first leg: signed angle, and place u, s at its end.

    Parameters as path. Returns: rad, NM, NM.
    """
    angle = _shorter(leg_heading_rad - start_rad)
    angle = np.where(np.abs(angle) <= NO_TURN_RAD, 0.0, angle)
    rate = np.sign(angle) * air.omega
    return angle, *displacement(air.v, air.wa, air.wc, start_rad, rate, _turn_s(air, angle), air.roll_s)


def _shorter(angle_rad) -> np.ndarray:
    """Angle in (-pi, pi]."""
    return np.pi - np.mod(np.pi - angle_rad, 2.0 * np.pi)


def _turn_s(air: Air, angle_rad) -> np.ndarray:
    """Seconds of a turn with its rolling; 0 where there is none."""
    return np.where(angle_rad == 0.0, 0.0, np.abs(angle_rad) / air.omega + air.roll_s)


def _to_course(air: Air, u, s, heading, hand) -> _Way:
    """The intercept from the end of the first leg; to_fix_s not positive, or NaN, where there is none."""
    plain = np.mod(hand * (air.kappa_rad - heading), 2.0 * np.pi)
    off = s + _turned(air, heading, hand, plain)[1]
    toward = np.where(np.abs(off) < ON_COURSE_NM, 0.0, -np.sign(off))
    most = np.abs(toward) * np.radians(INTERCEPT_RULE.angle_deg)
    most = np.where(hand * toward < 0.0, np.minimum(most, plain), most)

    def without_straight(angle):
        """Place at roll-out if nothing is flown straight."""
        turned = _turned(air, heading, hand, plain + hand * toward * angle)
        rolled = _turned(air, air.kappa_rad + toward * angle, -toward, angle)
        return tuple(at + a + np.where(toward == 0.0, 0.0, b) for at, a, b in zip((u, s), turned, rolled))

    low, high = np.zeros(len(u)), most
    passed = toward * without_straight(most)[1] > 0.0
    for _ in range(BISECTIONS):
        middle = (low + high) / 2.0
        beyond = toward * without_straight(middle)[1] > 0.0
        low, high = np.where(beyond, low, middle), np.where(beyond, middle, high)
    angle = np.where(passed, low, most)
    u_end, s_end = without_straight(angle)
    course = air.kappa_rad + toward * angle
    closing = toward * (air.v * np.sin(course) + air.wc)
    straight = np.where(passed | (toward == 0.0), 0.0, np.where(closing > 0.0, -toward * s_end / closing, np.nan))
    u_end = u_end + (air.v * np.cos(course) + air.wa) * straight
    return _Way(plain + hand * toward * angle, straight, -toward * angle, -u_end / air.gs)


def _longer(air: Air, u, s, heading, hand) -> tuple[_Way, np.ndarray]:
    """The intercept after the shortest lengthening that meets the course before the fix, and the lengthening; NaN and 0
    where none does."""
    vu, vs = displacement(air.v, air.wa, air.wc, heading, 0.0, 1.0)
    way = _Way(*[np.full(len(u), np.nan) for _ in _Way._fields])
    longer = np.zeros(len(u))
    steps = np.arange(LONGER_STEP_S, MOST_LONGER_S + 1e-9, LONGER_STEP_S)
    while steps.size and (left := np.flatnonzero(longer == 0.0)).size:
        now, steps = np.split(steps, [max(1, TRIED_AT_ONCE // left.size)])
        row, extra = np.repeat(left, now.size), np.tile(now, left.size)
        part = Air(*[a[row] for a in air])
        tried = _to_course(part, u[row] + vu[row] * extra, s[row] + vs[row] * extra, heading[row], hand[row])
        met = (tried.to_fix_s > LEAST_TO_FIX_S).reshape(left.size, now.size)
        found, shortest = np.flatnonzero(met.any(axis=1)), met.argmax(axis=1)
        at = found * now.size + shortest[found]
        for whole, values in zip(way, tried):
            whole[left[found]] = values[at]
        longer[left[found]] = extra[at]
    return way, longer


def _to_fix(air: Air, u, s, heading, hand) -> tuple[_Way, float]:
    """Turn until the fix lies ahead on the track, then go there; NaN where it never does."""

    def bearing(turn):
        """Place, ground velocity and how far the track points past the fix."""
        du, ds = _turned(air, heading, hand, turn)
        now = heading + hand * turn
        vu, vs = air.v * np.cos(now) + air.wa, air.v * np.sin(now) + air.wc
        return u + du, s + ds, vu, vs, (u + du) * vs - (s + ds) * vu

    low, high = np.full(len(u), np.nan), np.full(len(u), np.nan)
    steps = np.linspace(0.0, 2.0 * np.pi, TURN_STEPS + 1)
    before = bearing(np.zeros(len(u)))[4]
    for left, right in zip(steps[:-1], steps[1:]):
        pu, ps, vu, vs, here = bearing(np.full(len(u), right))
        met = (np.sign(before) != np.sign(here)) & (pu * vu + ps * vs < 0.0) & np.isnan(low)
        low, high = np.where(met, left, low), np.where(met, right, high)
        before = here
    side = np.sign(bearing(low)[4])
    for _ in range(BISECTIONS):
        middle = (low + high) / 2.0
        same = np.sign(bearing(middle)[4]) == side
        low, high = np.where(same, middle, low), np.where(same, high, middle)
    turn = (low + high) / 2.0
    pu, ps, vu, vs, _ = bearing(turn)
    zero = np.zeros(len(u))
    return _Way(turn, zero, zero, np.hypot(pu, ps) / np.hypot(vu, vs)), 0.0


def _turned(air: Air, heading, hand, angle) -> tuple[np.ndarray, np.ndarray]:
    """Way made good in a turn of an angle, not negative, to the right (+1) or left (-1) of the frame, with rolling."""
    seconds = angle / air.omega + air.roll_s
    return displacement(air.v, air.wa, air.wc, heading, hand * air.omega, seconds, air.roll_s)
