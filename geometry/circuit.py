"""The exact circuit of a hold in a steady wind.

Frame of the hold (geodesy.place), computed as a right hold: v air speed, omega rate of turn, wind (wa, wc)
along and across. Turns start at the fix and at the end of the outbound leg at a constant rate. The first starts
on heading a, the inbound heading kappa or, on a direct entry, the arrival's; the second ends on kappa. Together
they move the aeroplane through the air by a known amount, none where a is kappa, and the wind by its speed times
their time. The outbound air direction is (-cos eps, sin eps). Rolling in and out: the bank is built up and taken off
evenly in a time, which to first order is half of it straight on before and after a turn at the constant rate; a turn
takes that time longer, and is complete when the wings are level. Derived here, see DEVELOPERS.md.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import NamedTuple

import numpy as np

from . import leg_ends, reasons
from .angles import wrap180, wrap360

INBOUND_TIME, INBOUND_LENGTH, CIRCUIT_TIME, OUTBOUND_TIME, OUTBOUND_ALONG, OUTBOUND_DME = range(6)
"""What is given: seconds inbound, NM inbound, seconds of the circuit, seconds on the outbound clock, NM from
abeam along the track, a ground distance from the station."""
CLOCKS = ("abeam", "later_of_both", "turn_end")
ABEAM, LATER_OF_BOTH, TURN_END = range(3)
SEARCH_STEPS = 180
BISECTIONS = 60
CLOSED_NM = 1e-7
"""Across the course, as near as a searched circuit has to come to count as found."""


@dataclass(frozen=True)
class Circuit:
    """Circuits of N rows: true headings, seconds, NM; angles of the frame in radians.

    start_rad is the heading at the fix, kappa_rad the inbound heading, eps_rad the outbound direction.
    turn_out_s, outbound_s (straight, from roll-out), turn_in_s, inbound_s; turns with the time of rolling in and
    out; abeam_after_roll_out_s is negative where the aeroplane is abeam while still turning; stopwatch_s, what the
    clock shows at the end of the outbound leg (NaN where it never started); code as reasons.
    """

    heading_in_deg: np.ndarray
    heading_out_deg: np.ndarray
    start_rad: np.ndarray
    kappa_rad: np.ndarray
    eps_rad: np.ndarray
    gs_in_kt: np.ndarray
    turn_out_s: np.ndarray
    outbound_s: np.ndarray
    turn_in_s: np.ndarray
    inbound_s: np.ndarray
    inbound_nm: np.ndarray
    abeam_after_roll_out_s: np.ndarray
    stopwatch_s: np.ndarray
    circuit_s: np.ndarray
    code: np.ndarray

    def take(self, index) -> Circuit:
        """The rows of an index or mask."""
        return Circuit(*[getattr(self, f.name)[index] for f in fields(self)])

    def where(self, mask, other: Circuit) -> Circuit:
        """These rows where mask is true, elsewhere those of another."""
        return Circuit(*[np.where(mask, getattr(self, f.name), getattr(other, f.name)) for f in fields(self)])


class Air(NamedTuple):
    """Speed and wind of N rows in the frame: NM/s, rad/s; kappa_rad, the inbound heading; gs, NM/s on it; roll_s,
    by how much longer a turn takes for rolling in and out.

    kappa_rad and gs are NaN where the inbound course cannot be made good.
    """

    v: np.ndarray
    omega: np.ndarray
    wa: np.ndarray
    wc: np.ndarray
    kappa_rad: np.ndarray
    gs: np.ndarray
    roll_s: np.ndarray


def wind_in_frame(inbound_true_deg, side, wind_from_deg, wind_kt) -> tuple[np.ndarray, np.ndarray]:
    """Wind along the inbound course and towards the holding side, in the units of wind_kt.

    wa = -w cos(from - inbound), wc = -side w sin(from - inbound). Parameters broadcast.
    """
    angle = np.radians(np.asarray(wind_from_deg, float) - inbound_true_deg)
    wind = np.asarray(wind_kt, float)
    with np.errstate(invalid="ignore"):
        return -wind * np.cos(angle), -np.asarray(side, float) * wind * np.sin(angle)


def air_of(inbound_true_deg, side, tas_kt, rate_dps, wind_from_deg, wind_kt, roll_s=0.0) -> Air:
    """Speed and wind of holds in their frames. Parameters as solve; they broadcast. Returns: Air."""
    wa, wc = (a / 3600.0 for a in wind_in_frame(inbound_true_deg, side, wind_from_deg, wind_kt))
    v, omega, wa, wc, roll = np.broadcast_arrays(
        np.asarray(tas_kt, float) / 3600.0, np.radians(rate_dps), wa, wc, np.asarray(roll_s, float)
    )
    with np.errstate(invalid="ignore", divide="ignore"):
        kappa = np.arcsin(-wc / v)
        gs = v * np.cos(kappa) + wa
        good = (np.hypot(wa, wc) < v * (1.0 - 1e-9)) & (gs > 0.0)
    return Air(v, omega, wa, wc, np.where(good, kappa, np.nan), np.where(good, gs, np.nan), roll)


def solve(
    inbound_true_deg,
    side,
    tas_kt,
    rate_dps,
    wind_from_deg,
    wind_kt,
    given,
    value,
    *,
    clock=ABEAM,
    station_u_nm=np.nan,
    station_s_nm=0.0,
    start_heading_deg=np.nan,
    roll_s=0.0,
) -> Circuit:
    """Circuits in a steady wind.

    A given inbound leg or circuit time has a closed form. A given outbound leg is solved for the heading from
    which the turn ends on the course: the root nearest to no correction. A DME reading is met going away from a
    station ahead of the fix, or coming nearer to one behind it.
    Parameters: inbound_true_deg; side +1 right, -1 left; tas_kt; rate_dps; wind true, from; given, codes
    above; value, seconds or NM as given says; clock, codes of CLOCKS (OUTBOUND_TIME); the station in the frame
    (OUTBOUND_DME); start_heading_deg, true, at the fix: of a direct entry, NaN for the inbound heading; roll_s >= 0,
    in which the bank is built up, and taken off. They
    broadcast. Returns: Circuit, N rows; NO_CIRCUIT, NO_LEG_END, NO_INBOUND_LEG, CIRCUIT_TOO_SHORT,
    WIND_TOO_STRONG where there is none. Source: FAA AIM 5-3-8 j (inbound timed), ICAO Doc 8168 (outbound
    timed from over or abeam the fix, whichever is later); algebra derived here.

    >>> one = solve(50.0, 1, 120.0, 3.0, 110.0, 25.0, INBOUND_TIME, 60.0)
    >>> round(float(one.heading_out_deg[0]), 4), round(float(one.outbound_s[0]), 4)
    (189.714, 46.4425)
    """
    theta, side, tas, rate, wind_from, wind, given, value, clock, us, ss, heading, roll = (
        np.array(a, dtype=np.float64)
        for a in np.broadcast_arrays(
            *[
                np.atleast_1d(np.asarray(a, float))
                for a in (inbound_true_deg, side, tas_kt, rate_dps, wind_from_deg, wind_kt, given, value, clock,
                          station_u_nm, station_s_nm, start_heading_deg, roll_s)
            ]
        )
    )  # fmt: skip
    air = air_of(theta, side, tas, rate, wind_from, wind, roll)
    start = np.where(np.isnan(heading), air.kappa_rad, np.radians(wrap180(side * (heading - theta))))
    path = _Path(*air, start)
    turn_s = path.turn_s
    with np.errstate(invalid="ignore", divide="ignore"):
        eps, outbound, inbound, short = _closed(path, given, value)
        searched = np.isfinite(path.gs) & (given >= OUTBOUND_TIME)
        rows = np.flatnonzero(searched)
        unended = np.zeros(len(theta), dtype=bool)
        if len(rows):
            part = path.take(rows)
            leg = _Leg(given[rows], value[rows], clock[rows], us[rows], ss[rows], part.abeam_s())
            eps[rows], outbound[rows], unended[rows] = _search(part, leg)
        length = -path.along_without_inbound(eps, outbound)
        inbound = np.where(searched, length / path.gs, inbound)
        turn_out = path.turn_out_s(eps)
        numbers = theta + side + tas + rate + wind_from + wind + given + value + clock + roll
        code = reasons.first(
            reasons.where(~np.isfinite(numbers) | np.isinf(heading), reasons.NOT_FINITE),
            reasons.where(np.isnan(path.gs), reasons.WIND_TOO_STRONG),
            reasons.where(short, reasons.CIRCUIT_TOO_SHORT),
            reasons.where(unended & (given == OUTBOUND_DME), reasons.NO_LEG_END),
            reasons.where(~(np.isfinite(eps) & (outbound >= 0.0)), reasons.NO_CIRCUIT),
            reasons.where(searched & (length <= 0.0), reasons.NO_INBOUND_LEG),
            reasons.where((np.cos(eps) <= 0.0) | (turn_out < roll), reasons.NO_CIRCUIT),
        )
        abeam = path.abeam_after_roll_out(eps, path.abeam_s())
        late = clock_start_s(clock, abeam)
    good = code == reasons.OK

    def keep(values):
        return np.where(good, values, np.nan)

    return Circuit(
        heading_in_deg=keep(wrap360(theta + side * np.degrees(air.kappa_rad))),
        heading_out_deg=keep(wrap360(theta + side * (180.0 - np.degrees(eps)))),
        start_rad=keep(start),
        kappa_rad=keep(air.kappa_rad),
        eps_rad=keep(eps),
        gs_in_kt=keep(air.gs * 3600.0),
        turn_out_s=keep(turn_out),
        outbound_s=keep(outbound),
        turn_in_s=keep(turn_s - turn_out),
        inbound_s=keep(inbound),
        inbound_nm=keep(inbound * air.gs),
        abeam_after_roll_out_s=keep(abeam),
        stopwatch_s=keep(np.where(late <= outbound, outbound - late, np.nan)),
        circuit_s=keep(turn_s + outbound + inbound),
        code=code,
    )


def outbound_s(air: Air, eps_rad, given, value, clock, station_u_nm, station_s_nm) -> np.ndarray:
    """Straight outbound seconds from roll-out on a heading of one's own, in a circuit from the inbound heading.

    Parameters: air; eps_rad, the outbound direction as in Circuit; given, OUTBOUND_TIME, OUTBOUND_ALONG or
    OUTBOUND_DME; value, clock and station as solve; N rows each. Returns: s; NaN where the leg never ends.
    """
    path = _Path(*air, air.kappa_rad)
    with np.errstate(invalid="ignore", divide="ignore"):
        leg = _Leg(given, value, clock, station_u_nm, station_s_nm, path.abeam_s())
        return leg.seconds(path, np.asarray(eps_rad, dtype=np.float64))


def shortest_s(tas_kt, rate_dps, wind_kt, roll_s=0.0, wind_on_heading_kt=0.0) -> np.ndarray:
    """Shortest circuit from the inbound heading in a wind: a full turn and the way back against its drift.

    Tt / (1 - w / v) without rolling; with it, the T of |roll v h + W T| = v (T - Tt - roll), h the inbound heading.
    Parameters: tas_kt; rate_dps; wind_kt; roll_s; wind_on_heading_kt, what of the wind blows along the inbound
    heading, which only rolling asks for; they broadcast.
    Returns: s; NaN where the wind is not less than the airspeed. Derived here, see DEVELOPERS.md.

    >>> round(float(shortest_s(118.0, 3.0, 22.0)), 1)
    147.5
    """
    v, w, roll = (np.asarray(a, dtype=np.float64) for a in (tas_kt, wind_kt, roll_s))
    whole = 360.0 / np.asarray(rate_dps, float) + roll
    with np.errstate(invalid="ignore", divide="ignore"):
        b = v**2 * whole + v * roll * wind_on_heading_kt
        a, c = v**2 - w**2, v**2 * (whole**2 - roll**2)
        return np.where(w < v, (b + np.sqrt(b**2 - a * c)) / a, np.nan)


def clock_start_s(clock, abeam_after_roll_out_s) -> np.ndarray:
    """Seconds from roll-out to the start of a clock; negative while still turning. Parameters broadcast."""
    abeam = np.asarray(abeam_after_roll_out_s, float)
    clock = np.asarray(clock)
    return np.where(clock == LATER_OF_BOTH, np.maximum(abeam, 0.0), np.where(clock == TURN_END, 0.0, abeam))


@dataclass(frozen=True)
class _Path:
    """Motion through the air in the frame: NM/s, rad/s, rad, s."""

    v: np.ndarray
    omega: np.ndarray
    wa: np.ndarray
    wc: np.ndarray
    kappa: np.ndarray
    gs: np.ndarray
    roll: np.ndarray
    start: np.ndarray

    @property
    def turn_s(self) -> np.ndarray:
        """Seconds of both turns."""
        return (2.0 * np.pi + self.kappa - self.start) / self.omega + 2.0 * self.roll

    @property
    def du(self) -> np.ndarray:
        """Way through the air along the course in both turns, but for rolling on the outbound heading."""
        turned = self.v / self.omega * (np.sin(self.kappa) - np.sin(self.start))
        return turned + self.v * self.roll / 2.0 * (np.cos(self.start) + np.cos(self.kappa))

    @property
    def ds(self) -> np.ndarray:
        """The same towards the holding side."""
        turned = self.v / self.omega * (np.cos(self.start) - np.cos(self.kappa))
        return turned + self.v * self.roll / 2.0 * (np.sin(self.start) + np.sin(self.kappa))

    def take(self, rows) -> _Path:
        return _Path(*[getattr(self, f.name)[rows] for f in fields(self)])

    def turn_out_s(self, eps) -> np.ndarray:
        """Seconds of the first turn."""
        return (np.pi - eps - self.start) / self.omega + self.roll

    def turning_at(self, psi) -> np.ndarray:
        """u at heading psi of the first turn."""
        rolled = self.roll / 2.0 * (self.v * np.cos(self.start) + self.wa)
        turned = self.v / self.omega * (np.sin(psi) - np.sin(self.start))
        return rolled + turned + self.wa * (psi - self.start) / self.omega

    def velocity(self, eps) -> tuple[np.ndarray, np.ndarray]:
        """Over the ground on the outbound heading."""
        return -self.v * np.cos(eps) + self.wa, self.v * np.sin(eps) + self.wc

    def roll_out(self, eps) -> tuple[np.ndarray, np.ndarray]:
        """Place at the end of the first turn."""
        t1 = self.turn_out_s(eps)
        r, rolled = self.v / self.omega, self.v * self.roll / 2.0
        u = r * (np.sin(eps) - np.sin(self.start)) + rolled * (np.cos(self.start) - np.cos(eps)) + self.wa * t1
        s = r * (np.cos(self.start) + np.cos(eps)) + rolled * (np.sin(self.start) + np.sin(eps)) + self.wc * t1
        return u, s

    def along_without_inbound(self, eps, outbound) -> np.ndarray:
        """u at the end of the second turn."""
        return self.du + self.wa * (self.turn_s + outbound) - self.v * (outbound + self.roll) * np.cos(eps)

    def across(self, eps, outbound) -> np.ndarray:
        """s at the end of the second turn: 0 on the course."""
        return self.ds + self.wc * (self.turn_s + outbound) + self.v * (outbound + self.roll) * np.sin(eps)

    def abeam_s(self) -> np.ndarray:
        """Seconds into the first turn from which on the fix lies behind. inf: not in that turn.

        u rises while the heading is within peak of the course, then falls until 2 pi - peak. Where it never
        comes ahead of the fix, the aeroplane is abeam at the fix itself.
        """
        peak = np.arccos(np.clip(-self.wa / self.v, -1.0, 1.0))
        low, high = np.maximum(peak, self.start), 2.0 * np.pi - peak
        at_fix = self.turning_at(low) <= 0.0
        never = self.turning_at(high) > 0.0
        for _ in range(BISECTIONS):
            middle = (low + high) / 2.0
            ahead = self.turning_at(middle) > 0.0
            low, high = np.where(ahead, middle, low), np.where(ahead, high, middle)
        turning = self.roll / 2.0 + ((low + high) / 2.0 - self.start) / self.omega
        return np.where(at_fix, 0.0, np.where(never, np.inf, turning))

    def abeam_after_roll_out(self, eps, abeam_s) -> np.ndarray:
        """Seconds from roll-out to abeam; negative while still turning; NaN where abeam is never reached."""
        closing = -self.velocity(eps)[0]
        levelling = self.turning_at(np.pi - eps)
        after = np.where(closing > 0.0, levelling / closing, np.nan) - self.roll / 2.0
        return np.where(levelling > 0.0, after, abeam_s - self.turn_out_s(eps))


def _closed(path: _Path, given, value):
    """eps, straight outbound seconds, inbound seconds for a given inbound leg or circuit time; too short."""
    # What rolling covers on the outbound heading counts as outbound: air_s without it, away with it.
    v, air_s = path.v, path.turn_s - path.roll
    v2, w2 = v**2, path.wa**2 + path.wc**2
    by_circuit = given == CIRCUIT_TIME
    rest = value - air_s
    qu, qs = path.du + path.wa * value, path.ds + path.wc * value
    q2 = qu**2 + qs**2
    from_circuit = (v2 * rest**2 - q2) / (2.0 * v * (qu * np.cos(path.kappa) + qs * np.sin(path.kappa) + v * rest))
    inbound = np.select(
        [given == INBOUND_TIME, given == INBOUND_LENGTH, by_circuit],
        [value, value / path.gs, from_circuit],
        default=np.nan,
    )
    short = by_circuit & (v * rest < np.sqrt(q2) - 1e-12)
    pu, ps = inbound * path.gs + path.du + path.wa * air_s, path.ds + path.wc * air_s
    dot, norm = pu * path.wa + ps * path.wc, pu**2 + ps**2
    away = np.where(by_circuit, rest - inbound, (dot + np.sqrt(dot**2 + (v2 - w2) * norm)) / (v2 - w2))
    eps = np.arctan2(-(ps + path.wc * away), pu + path.wa * away)
    return eps, away - path.roll, inbound, short | (by_circuit & (away < path.roll))


@dataclass(frozen=True)
class _Leg:
    """What ends the outbound leg."""

    given: np.ndarray
    value: np.ndarray
    clock: np.ndarray
    us: np.ndarray
    ss: np.ndarray
    abeam_s: np.ndarray

    def seconds(self, path: _Path, eps) -> np.ndarray:
        """Straight outbound seconds for an outbound direction; NaN where the leg never ends."""
        late = clock_start_s(self.clock, path.abeam_after_roll_out(eps, self.abeam_s))
        place, velocity = path.roll_out(eps), path.velocity(eps)
        along = leg_ends.until_along_s(self.value, place[0], velocity[0])
        by_dme = leg_ends.until_reading_s(self.value, *place, *velocity, self.us, self.ss)
        seconds = np.select(
            [self.given == OUTBOUND_TIME, self.given == OUTBOUND_ALONG, self.given == OUTBOUND_DME],
            [self.value + late, along, by_dme],
            default=np.nan,
        )
        turned = np.pi - eps >= path.start
        return np.where((seconds > 0.0) & turned, seconds, np.nan)


def _search(path: _Path, leg: _Leg) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Outbound direction nearest to no correction from which the turn ends on the course, its seconds, and
    whether the leg ends nowhere in any direction."""
    none = np.zeros(len(path.v))
    straight = leg.seconds(path, none)
    miss = path.across(none, np.where(np.isfinite(straight), straight, 0.0))
    away = np.sign(miss)

    def left_over(eta):
        """Across distance at the end of the circuit, positive on the side where no correction leaves it."""
        eps = -away * eta
        seconds = leg.seconds(path, eps)
        return away * path.across(eps, seconds), seconds

    calm = np.isfinite(straight) & (np.abs(miss) < 1e-14)
    steps = np.linspace(0.0, np.pi / 2.0, SEARCH_STEPS + 1)
    low, high = np.full(len(path.v), np.nan), np.full(len(path.v), np.nan)
    previous, unended = left_over(none)[0], ~np.isfinite(straight)
    for left, right in zip(steps[:-1], steps[1:]):
        here, _ = left_over(np.full(len(path.v), right))
        crossed = (previous > 0.0) & (here <= 0.0) & np.isnan(low)
        low, high = np.where(crossed, left, low), np.where(crossed, right, high)
        unended &= ~np.isfinite(here)
        previous = here
    for _ in range(BISECTIONS):
        middle = (low + high) / 2.0
        above = left_over(middle)[0] > 0.0
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    eta = np.where(calm, 0.0, (low + high) / 2.0)
    rest, seconds = left_over(eta)
    found = calm | (np.abs(rest) < CLOSED_NM)
    return np.where(found, -away * eta, np.nan), np.where(found, seconds, np.nan), unended
