"""An aeroplane that is flown step by step, to check closed forms against: true headings, east and north, no frames.

Fourth-order steps that end exactly where a turn ends; straight parts end at the moment asked. Nothing of geometry/ is
used here.
"""

from __future__ import annotations

import numpy as np

TURN_STEPS = 60
HALVINGS = 45


class Aeroplane:
    """Many aeroplanes at once, over the fix at first: x east, y north in NM, heading true in rad, t in s."""

    def __init__(self, heading_deg, tas_kt, rate_dps, wind_from_deg, wind_kt):
        arrays = np.broadcast_arrays(heading_deg, tas_kt, rate_dps, wind_from_deg, wind_kt)
        heading, tas, rate, wind_from, wind = (np.array(np.atleast_1d(a), float) for a in arrays)
        self.heading = np.radians(heading)
        self.v, self.rate = tas / 3600.0, np.radians(rate)
        self.wx = -wind / 3600.0 * np.sin(np.radians(wind_from))
        self.wy = -wind / 3600.0 * np.cos(np.radians(wind_from))
        self.x, self.y, self.t = (np.zeros(len(self.v)) for _ in range(3))

    def ground(self, heading=None):
        """Velocity over the ground, east and north."""
        heading = self.heading if heading is None else heading
        return self.v * np.sin(heading) + self.wx, self.v * np.cos(heading) + self.wy

    def stepped(self, state, rate, seconds):
        """A state (x, y, heading) one fourth-order step later."""

        def slope(s):
            vx, vy = self.ground(s[2])
            return np.stack([vx, vy, np.broadcast_to(rate, vx.shape)])

        k1 = slope(state)
        k2 = slope(state + k1 * seconds / 2.0)
        k3 = slope(state + k2 * seconds / 2.0)
        k4 = slope(state + k3 * seconds)
        return state + (k1 + 2.0 * k2 + 2.0 * k3 + k4) * seconds / 6.0

    def turn(self, degrees):
        """Turn by signed degrees, right positive. Returns the states passed (steps + 1, 3, N) and a step's seconds."""
        angle = np.radians(np.broadcast_to(degrees, self.v.shape))
        seconds = np.abs(angle) / self.rate / TURN_STEPS
        rate = np.sign(angle) * self.rate
        states = [np.stack([self.x, self.y, self.heading])]
        for _ in range(TURN_STEPS):
            states.append(self.stepped(states[-1], rate, seconds))
        self.x, self.y, self.heading = states[-1]
        self.t = self.t + seconds * TURN_STEPS
        return np.array(states), seconds

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


def abeam_in_turn(plane: Aeroplane, states, seconds, inbound_deg, side):
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
    low, high = np.zeros(len(rows)), seconds.copy()
    start = states[last, :, rows].T
    if fell[0].any():
        low = np.where(last == 0, 1e-6, low)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        now = plane.stepped(start, side * plane.rate, middle)
        ahead = plane.along(inbound_deg, now[0], now[1]) > 0.0
        low, high = np.where(ahead, middle, low), np.where(ahead, high, middle)
    before_end = (len(fell) - last) * seconds - (low + high) / 2.0
    before_end = np.where(fell.any(axis=0), before_end, len(fell) * seconds)
    return np.where(along[-1] > 0.0, np.nan, before_end)
