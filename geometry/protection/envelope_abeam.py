"""How far flights reach whose outbound time counts from abeam the fix.

The clock then depends on the wind, so that its worst direction is not simply the one looked at. For one wind and one
outbound heading the moment abeam is linear in where the first turn began, which leaves few places: a cloud of them over
wind directions and outbound headings gives a start, from which both are improved until the reach grows no more.
Only a clock that starts on the outbound straight is looked at; one that starts in the turn leaves a shorter straight,
which stays inside the other flights' area (shown by simulation; for one that starts over the fix envelope_states has
families of its own). Less wind adds nothing (likewise).
Derived here, see DEVELOPERS.md.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .envelope_reach import SLACK, farthest_of, level, lifted
from .envelope_states import Families

WIND_STEP_DEG = 10.0
ROUNDS = 4
FIRST_STEP_RAD = np.radians(5.0)
SHRINK = 0.35
STARTS, CLOCKS, ARRIVALS = 2, 2, 4
"""Limits of start and clock; arrival headings: both limits and both points where the derivative is zero."""
KINDS = STARTS * CLOCKS * ARRIVALS


def _outbound_end(f: Families, phi, goal, kind):
    """Where the outbound straight ends, in the frame, for a wind towards phi, an outbound heading and a kind of flight.

    Families hold (M,) or are shaped to broadcast. Returns: complex place; NaN where the aeroplane is not abeam on the
    straight, or there is no such flight.
    """
    start_i, clock_i, arrival_i = kind // (CLOCKS * ARRIVALS), kind // ARRIVALS % CLOCKS, kind % ARRIVALS
    t0 = np.where(start_i == 0, f.start_s[..., 0], f.start_s[..., 1])
    clock = np.where(clock_i == 0, f.clock_s[..., 0], f.clock_s[..., 1])
    r, wind = f.v / f.omega, f.wind * np.exp(1j * phi)
    ground = f.v * np.exp(1j * goal) + wind
    away = -ground.real
    with np.errstate(invalid="ignore", divide="ignore"):
        # What a start adds to the place abeam acts in one direction only, whatever is looked at.
        towards = np.arctan2(1.0, np.where(away > 0.0, ground.imag / away, np.nan))
        both = level(f.first, -f.omega * t0, f.wind / f.v * np.cos(phi - towards))
        a_low, a_high = f.a_rad[..., 0], f.a_rad[..., 1]
        a = np.where(arrival_i == 0, a_low, a_high)
        zero = lifted(towards + np.where(arrival_i == 2, both[..., 0], both[..., 1]), a_low, a_high)
        a = np.where(arrival_i >= 2, zero, a)
        a = np.where((f.first * (goal - a) >= -SLACK) & ~((arrival_i == 1) & (a_low == a_high)), a, np.nan)
        turned = -1j * f.first * r * (np.exp(1j * goal) - np.exp(1j * a))
        rolled_out = f.v * t0 * np.exp(1j * a) + turned + wind * (t0 + f.first * (goal - a) / f.omega)
        wait = rolled_out.real / away
        return np.where((wait >= 0.0) & (away > 0.0), rolled_out + (wait + clock) * ground, np.nan)


def _whole_turn(f: Families, phi, goal, place):
    """A place, moved back by what the second turn would have done up to the outbound heading."""
    r, wind = f.v / f.omega, f.wind * np.exp(1j * phi)
    return place + f.second * (1j * r * np.exp(1j * goal) - wind * goal / f.omega)


def _beam(f: Families, alpha, phi):
    """Heading in the second turn at which the aeroplane no longer comes nearer to alpha."""
    turn = np.arccos(np.clip(-f.wind / f.v * np.cos(phi - alpha), -1.0, 1.0))
    low = np.minimum(f.goal_rad[..., 0], f.end_rad)
    return lifted(alpha + f.second * turn, low, np.maximum(f.goal_rad[..., 1], f.end_rad))


def _second_turn(f: Families, alpha, phi, psi):
    """What the second turn does up to a heading, seen along alpha."""
    wind = f.wind * np.exp(1j * phi)
    return f.second * (-1j * f.v / f.omega * np.exp(1j * psi) + wind * psi / f.omega) * np.exp(-1j * alpha)


def _flown(f: Families, alpha, phi, goal, kind):
    """Reach along alpha (real) and to its left (imaginary), at the end of the straight or in the second turn."""
    end = _outbound_end(f, phi, goal, kind)
    begun = _whole_turn(f, phi, goal, end) * np.exp(-1j * alpha)
    beam = _beam(f, alpha, phi)
    with np.errstate(invalid="ignore"):
        beam = np.where(f.second * (beam - goal) >= -SLACK, beam, np.nan)
    turns = [begun + _second_turn(f, alpha, phi, psi) for psi in (beam, f.end_rad)]
    return farthest_of(np.stack(np.broadcast_arrays(end * np.exp(-1j * alpha), *turns)), axis=0)


def _spread(flights: Families, axes: int) -> Families:
    """Families whose columns broadcast over more axes; pairs of limits stay on the last one."""
    return Families(*[column.reshape(len(column), *(1,) * axes, *column.shape[1:]) for column in flights])


class Cloud(NamedTuple):
    """Ends of outbound straights of M families, (M, W, G, KINDS): complex places, at the end of the straight and moved
    back by the second turn; NaN where there is no such flight. phi (W,), goal (M, G)."""

    phi: np.ndarray
    goal: np.ndarray
    ends: np.ndarray
    moved: np.ndarray


def cloud(flights: Families) -> Cloud:
    """The cloud of M families."""
    f = _spread(flights, 3)
    phi = np.radians(np.arange(0.0, 360.0, WIND_STEP_DEG))
    low, high = flights.goal_rad.T
    goal = np.stack([low, (low + high) / 2.0, high], axis=1)
    at = phi[:, None, None], goal[:, None, :, None]
    ends = _outbound_end(f, *at, np.arange(KINDS))
    ends = np.where(flights.abeam[:, None, None, None], ends, np.nan)
    return Cloud(phi, goal, ends, _whole_turn(f, *at, ends))


def roughly(flights: Families, made: Cloud, which, alpha):
    """The farthest of clouds: of each class of flights, those at one outbound heading and of one kind, in the wind that
    takes it farthest, once at the end of the straight and once in the second turn.

    Parameters: flights, M families; their cloud; which (P,), rising indices of families; alpha (P,). Returns: reach
    (2, P, C), NM, -inf where there is none; index of the wind direction (2, P, C). Class c: outbound heading
    c // KINDS, kind c % KINDS.
    """
    f, at = _spread(flights.take(which), 1), (alpha[:, None], made.phi)
    turn = np.fmax(*[_second_turn(f, *at, psi).real for psi in (_beam(f, *at), f.end_rad)]).T.astype(np.float32)
    normal = np.stack([np.cos(alpha), np.sin(alpha)]).astype(np.float32)
    classes = made.ends.shape[2] * KINDS
    reach = np.full((2, len(alpha), classes), -np.inf, dtype=np.float32)
    wind_i = np.zeros(reach.shape, dtype=np.int16)
    bounds = np.searchsorted(which, np.arange(len(flights.v) + 1))
    for j, places in enumerate((made.ends, made.moved)):
        flat = places.reshape(len(places), len(made.phi), classes)
        there = ~np.isnan(flat)
        xy = np.where(there, flat, 0.0)
        xy = np.stack([xy.real, xy.imag]).astype(np.float32)
        for m in np.flatnonzero(np.diff(bounds) > 0):
            part = slice(bounds[m], bounds[m + 1])
            some = np.flatnonzero(there[m].any(axis=0))
            if not len(some):
                continue
            w = np.flatnonzero(there[m].any(axis=1))
            x, y = (each[np.ix_(w, some)][..., None] for each in xy[:, m])
            along = x * normal[0, part] + y * normal[1, part]
            if j:
                along += turn[w, None, part]
            along += np.where(there[m][np.ix_(w, some)], 0.0, -np.inf).astype(np.float32)[..., None]
            best = np.argmax(along, axis=0)
            reach[j][part, some] = np.take_along_axis(along, best[None], axis=0)[0].T
            wind_i[j][part, some] = w[best].T
    return reach, wind_i


def improved(flights: Families, alpha, phi, goal, kind, first: int = 0, last: int = ROUNDS):
    """The reach from a start in wind direction and outbound heading, each moved in turn to the top of a parabola.

    Parameters: flights, M families; alpha, phi, goal, kind (M,); first and last round, each with smaller steps.
    Returns: complex (M,) as envelope_reach.farthest; phi, goal (M,) of it.
    """
    best = _flown(flights, alpha, phi, goal, kind)
    where = np.stack([phi, goal])
    low = np.stack([np.full_like(phi, -np.inf), flights.goal_rad[:, 0]])
    high = np.stack([np.full_like(phi, np.inf), flights.goal_rad[:, 1]])
    for number in range(first, last):
        step = FIRST_STEP_RAD * SHRINK**number
        for axis in (0, 1):
            tried = []
            for sign in (-1.0, 1.0):
                at = where.copy()
                at[axis] = np.clip(at[axis] + sign * step, low[axis], high[axis])
                tried.append((at, _flown(flights, alpha, *at, kind)))
            at = where.copy()
            at[axis] = np.clip(_top(where[axis], best, tried, axis), low[axis], high[axis])
            tried.append((at, _flown(flights, alpha, *at, kind)))
            for at, value in tried:
                with np.errstate(invalid="ignore"):
                    farther = (value.real > best.real) | np.isnan(best.real)
                best, where = np.where(farther, value, best), np.where(farther, at, where)
    return best, *where


def _top(x, best, tried, axis):
    """Top of the parabola through a point and one on either side of it; the point itself where there is none."""
    (low, value_low), (high, value_high) = tried
    below, above = x - low[axis], high[axis] - x
    down, up = best.real - value_low.real, best.real - value_high.real
    with np.errstate(invalid="ignore", divide="ignore"):
        top = x + 0.5 * (down * above**2 - up * below**2) / (down * above + up * below)
        return np.where(np.isfinite(top) & (top > low[axis]) & (top < high[axis]), top, x)
