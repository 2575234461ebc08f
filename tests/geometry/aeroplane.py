"""An aeroplane that is flown step by step, to check closed forms against: true headings, east and north, no frames.

Fourth-order steps that end exactly where a turn ends; straight parts end at the moment asked. With a roll time a turn
begins and ends with half of it straight on, or, ramped, its rate grows and falls evenly in it. Nothing of geometry/ is
used here.
"""

from __future__ import annotations

import numpy as np

TURN_STEPS = 60
ROLL_STEPS = 12
HALVINGS = 45


class Aeroplane:
    """Many aeroplanes at once, over the fix at first: x east, y north in NM, heading true in rad, t in s."""

    def __init__(self, heading_deg, tas_kt, rate_dps, wind_from_deg, wind_kt, roll_s=0.0, ramped=False):
        arrays = np.broadcast_arrays(heading_deg, tas_kt, rate_dps, wind_from_deg, wind_kt, roll_s)
        heading, tas, rate, wind_from, wind, self.roll = (np.array(np.atleast_1d(a), float) for a in arrays)
        self.ramped = ramped
        self.heading = np.radians(heading)
        self.v, self.rate = tas / 3600.0, np.radians(rate)
        self.wx = -wind / 3600.0 * np.sin(np.radians(wind_from))
        self.wy = -wind / 3600.0 * np.cos(np.radians(wind_from))
        self.x, self.y, self.t = (np.zeros(len(self.v)) for _ in range(3))

    def ground(self, heading=None):
        """Velocity over the ground, east and north."""
        heading = self.heading if heading is None else heading
        return self.v * np.sin(heading) + self.wx, self.v * np.cos(heading) + self.wy

    def stepped(self, state, rates, seconds):
        """A state (x, y, heading) one fourth-order step later. rates: of turn at its start, middle and end, or one."""
        first, middle, last = rates if isinstance(rates, tuple) else (rates, rates, rates)

        def slope(s, rate):
            vx, vy = self.ground(s[2])
            return np.stack([vx, vy, np.broadcast_to(rate, vx.shape)])

        k1 = slope(state, first)
        k2 = slope(state + k1 * seconds / 2.0, middle)
        k3 = slope(state + k2 * seconds / 2.0, middle)
        k4 = slope(state + k3 * seconds, last)
        return state + (k1 + 2.0 * k2 + 2.0 * k3 + k4) * seconds / 6.0

    def turn(self, degrees):
        """Turn by signed degrees, right positive; 0 is no turn. Returns the states passed (steps + 1, 3, N), and each
        step's seconds and rate of turn (steps, N)."""
        angle = np.radians(np.broadcast_to(degrees, self.v.shape))
        full = np.sign(angle) * self.rate
        roll = np.where(angle == 0.0, 0.0, self.roll)
        turning = np.abs(angle) / self.rate - (roll if self.ramped else 0.0)
        assert (turning >= 0.0).all(), "too small a turn for the full bank"
        none = np.zeros(len(angle))
        whole, rolling = (roll, full) if self.ramped else (roll / 2.0, none)
        pieces = [(ROLL_STEPS, whole, none, rolling), (TURN_STEPS, turning, full, full),
                  (ROLL_STEPS, whole, rolling, none)]  # fmt: skip
        states, seconds, rates = [np.stack([self.x, self.y, self.heading])], [], []
        for steps, lasts, begins, ends in pieces if roll.any() else pieces[1:2]:
            for k in range(steps):
                at = [begins + (ends - begins) * (k + part) / steps for part in (0.0, 0.5, 1.0)]
                states.append(self.stepped(states[-1], tuple(at), lasts / steps))
                seconds.append(lasts / steps)
                rates.append(at[1])
        self.x, self.y, self.heading = states[-1]
        self.t = self.t + np.sum(seconds, axis=0)
        return np.array(states), np.array(seconds), np.array(rates)

    def straight(self, seconds):
        vx, vy = self.ground()
        self.x, self.y, self.t = self.x + vx * seconds, self.y + vy * seconds, self.t + seconds

    def along(self, course_deg, x=None, y=None):
        """Distance past the fix along a course."""
        course = np.radians(course_deg)
        return (self.x if x is None else x) * np.sin(course) + (self.y if y is None else y) * np.cos(course)

    def right_of(self, course_deg):
        """Distance right of the line through the fix on a course."""
        course = np.radians(course_deg)
        return self.x * np.cos(course) - self.y * np.sin(course)


def turn_degrees(from_deg, to_deg, side):
    """Signed degrees from one heading to another, turning to one side."""
    return side * np.mod(side * (to_deg - from_deg), 360.0)


def touches_abeam(plane: Aeroplane, states, inbound_deg, nm=0.003):
    """True where the aeroplane comes within so little of abeam from behind in a turn: between steps it may be ahead."""
    along = plane.along(inbound_deg, states[:, 0], states[:, 1])
    top = (along[1:-1] >= along[:-2]) & (along[1:-1] >= along[2:])
    return (top & (along[1:-1] > -nm) & (along[1:-1] <= 0.0)).any(axis=0)


def abeam_in_turn(plane: Aeroplane, states, seconds, rates, inbound_deg):
    """Seconds before the end of a turn at which the aeroplane last fell back abeam the fix; 0 s into the turn where it
    never was ahead of it; NaN where it is still ahead at the end."""
    rows = np.arange(states.shape[2])
    along = plane.along(inbound_deg, states[:, 0], states[:, 1])
    along[0] = 0.0
    fell = (along[:-1] > 0.0) & (along[1:] <= 0.0)
    # The first step begins at the fix: ahead of it where the heading made good is.
    vx, vy = plane.ground(states[0, 2])
    fell[0] = (along[1] <= 0.0) & (plane.along(inbound_deg, vx, vy) > 0.0)
    last = len(fell) - 1 - np.argmax(fell[::-1], axis=0)
    low, high = np.zeros(len(rows)), seconds[last, rows]
    start = states[last, :, rows].T
    if fell[0].any():
        low = np.where(last == 0, 1e-6, low)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        now = plane.stepped(start, rates[last, rows], middle)
        ahead = plane.along(inbound_deg, now[0], now[1]) > 0.0
        low, high = np.where(ahead, middle, low), np.where(ahead, high, middle)
    to_end = np.cumsum(seconds[::-1], axis=0)[::-1]
    before_end = np.where(fell.any(axis=0), to_end[last, rows] - (low + high) / 2.0, to_end[0])
    return np.where(along[-1] > 0.0, np.nan, before_end)
