"""How far flights timed from roll-out reach in a direction, in the wind that carries them that way: in closed form.

With alpha the direction and e(x) = exp(i (x - alpha)), a place is a complex number: along alpha its real part, to the
left of it (towards larger angles) its imaginary part. A turn d from heading x to y moves by -i d r (e(y) - e(x)), and
the wind by its speed times the time. Each angle enters alone, so that the farthest place is found at limits and at
points where the derivative is zero. Derived here, see DEVELOPERS.md.
"""

from __future__ import annotations

import numpy as np

from .envelope_states import Families

TURN = 2.0 * np.pi
SLACK = 1e-12


def lifted(angle, low, high) -> np.ndarray:
    """The angle that differs by whole turns and is the first not below low; NaN where that is above high."""
    with np.errstate(invalid="ignore"):
        angle = angle + TURN * np.ceil((low - angle) / TURN - SLACK)
        return np.where(angle <= high + SLACK, angle, np.nan)


def level(a, b, wind_over_speed):
    """Both y with a cos y - b sin y = -a wind_over_speed, on a last axis of two; NaN where there is none."""
    size = np.hypot(a, b)
    with np.errstate(invalid="ignore", divide="ignore"):
        half = np.arccos(-a * wind_over_speed / size)
    middle = -np.arctan2(b, a)
    return np.stack(np.broadcast_arrays(middle - half, middle + half), axis=-1)


def farthest_of(values, axis=-1) -> np.ndarray:
    """The complex value of the greatest real part along an axis; NaN loses."""
    real = np.where(np.isnan(values.real), -np.inf, values.real)
    best = np.expand_dims(np.argmax(real, axis=axis), axis)
    return np.squeeze(np.take_along_axis(values, best, axis=axis), axis=axis)


def farthest(flights: Families, alpha) -> np.ndarray:
    """How far each family reaches, and where.

    Parameters: flights, M families; alpha (M,), radians. Returns: complex (M,), NM: the support function, and i times
    how far to the left of alpha the place lies that gives it. The fix itself belongs to every family.
    """
    f = flights
    v, omega, w, alpha = f.v[:, None], f.omega[:, None], f.wind[:, None], np.asarray(alpha, np.float64)[:, None]
    r, d1, d2, k = v / omega, f.first[:, None], f.second[:, None], w / v

    def e(angle):
        return np.exp(1j * (angle - alpha))

    def turned(d, angle):
        return -1j * d * r * e(angle) + w * d * angle / omega

    # Start: arrival heading a for t0, less what the first turn would have done before a.
    a_low, a_high = f.a_rad[:, :1], f.a_rad[:, 1:]
    start_a, start = [], []
    for t0 in (f.start_s[:, :1], f.start_s[:, 1:]):
        a = np.concatenate(
            [a_low, a_high, lifted(alpha + level(d1[:, 0], -omega[:, 0] * t0[:, 0], k[:, 0]), a_low, a_high)], axis=1
        )
        start_a.append(a)
        start.append(t0 * (v * e(a) + w) - turned(d1, a))
    start_a, start = np.concatenate(start_a, axis=1), np.concatenate(start, axis=1)

    def after(angle):
        """The farthest start whose first turn gets to each of the angles (M, K)."""
        possible = d1[..., None] * (angle[..., None] - start_a[:, None, :]) >= -SLACK
        return farthest_of(np.where(possible, start[:, None, :], np.nan))

    low, high = f.goal_rad[:, :1], f.goal_rad[:, 1:]
    clock = f.clock_s[:, :1], f.clock_s[:, 1:]
    beam = np.arccos(np.clip(-k, -1.0, 1.0))
    places = [np.zeros_like(start[:, :1])]
    a = np.concatenate([a_low, a_high, lifted(alpha, a_low, a_high)], axis=1)
    places.append(f.start_s[:, 1:] * (v * e(a) + w))
    # In the first turn, and at its last possible end.
    low1, high1 = np.where(d1 > 0.0, a_low, low), np.where(d1 > 0.0, high, a_high)
    psi = np.concatenate([lifted(alpha + d1 * beam, low1, high1), np.where(d1 > 0.0, high, low)], axis=1)
    places.append(after(psi) + turned(d1, psi))
    # At the end of the longest outbound straight.
    x = clock[1]
    goal = np.concatenate(
        [low, high, lifted(alpha + level(d1[:, 0], omega[:, 0] * x[:, 0], k[:, 0]), low, high)], axis=1
    )
    places.append(after(goal) + turned(d1, goal) + x * (v * e(goal) + w))
    # In the second turn.
    end = f.end_rad[:, None]
    low2, high2 = np.minimum(low, end), np.maximum(high, end)
    psi = np.concatenate([lifted(alpha + d2 * beam, low2, high2), end], axis=1)
    second = turned(d2, psi)
    for x in clock:
        both = level((d1 - d2)[:, 0], omega[:, 0] * x[:, 0], k[:, 0])
        goal = np.concatenate([low, high, lifted(alpha + both, low, high)], axis=1)
        begun = after(goal) + turned(d1, goal) - turned(d2, goal) + x * (v * e(goal) + w)
        possible = d2[..., None] * (psi[:, None, :] - goal[..., None]) >= -SLACK
        reach = np.where(possible, begun[..., None] + second[:, None, :], np.nan)
        places.append(reach.reshape(len(reach), reach.shape[1] * reach.shape[2]))
    return farthest_of(np.concatenate(places, axis=1))
