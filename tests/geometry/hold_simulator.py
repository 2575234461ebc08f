"""Many flights through a hold or into it, marched in time over the ground, to check areas against.

Plane of the hold: u along the inbound course, s to the holding side, NM; headings from u towards s, so a right turn
increases them. Fourth-order steps that end exactly where a turn ends and where the clock starts. Nothing of geometry/
is used here. Tolerances: ICAO Doc 8168 Vol II, p. I-4-3-7 h): outbound timing 10 s, reaction 0 to 6 s and bank
established 5 s later, heading 5 degrees; sectors: Vol I, Part I, Section 6, Chapter 1, with their zone of 5 degrees.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

STEPS = 45
HALVINGS = 30


class Manoeuvre(NamedTuple):
    """Arrival headings from and to; the outbound heading; the end of the second turn; directions of the turns, +1
    right, 0 the shorter way; the longest outbound time; whether the clock may start over the fix."""

    arrivals: tuple[float, float]
    outbound: float
    end: float
    first: int
    second: int
    longest_s: float
    over: bool


MANOEUVRES = {
    "circuit": Manoeuvre((0.0, 0.0), 180.0, 360.0, 1, 1, np.inf, True),
    "direct": Manoeuvre((-75.0, 115.0), 180.0, 360.0, 1, 1, np.inf, True),
    "teardrop": Manoeuvre((105.0, 185.0), 150.0, 360.0, 0, 1, 90.0, False),
    "parallel": Manoeuvre((-185.0, -65.0), -180.0, -405.0, 0, -1, np.inf, False),
}


class Drawn(NamedTuple):
    """What differs from flight to flight, (F,) each; p (F, 2), where over the fix tolerance area it meets the fix."""

    p: np.ndarray
    arrival: np.ndarray
    start_s: np.ndarray
    heading_error: np.ndarray
    timing_error_s: np.ndarray
    react_s: np.ndarray
    wind_towards: np.ndarray
    wind_share: np.ndarray
    from_abeam: np.ndarray


def draw(rng, count: int, arrivals, corners, *, at_limits: float = 0.5, from_abeam: float = 0.5) -> Drawn:
    """Flights, a share of them with every tolerance at one of its limits and full wind, the others uniform; a share
    that counts the outbound time from abeam the fix. Each combination of limits is flown about equally often, in winds
    spread evenly round the compass from a drawn one on, so that few flights find much of what can be reached."""
    corners = np.asarray(corners, float)
    extremes = round(at_limits * count)
    late = np.arange(extremes) < from_abeam * extremes
    ways = (len(corners), len(set(arrivals)), 2, 2, 2, 2)
    combinations = int(np.prod(ways))
    number = np.arange(extremes) + np.where(late, 0, -np.count_nonzero(late))
    at = np.stack(np.unravel_index(rng.permutation(combinations)[number % combinations], ways), axis=1)
    flown = np.where(late, np.count_nonzero(late), extremes - np.count_nonzero(late)) / combinations
    wind = (number // combinations / flown * 360.0 + rng.uniform(0.0, 360.0, 2 * combinations)[
        number % combinations + combinations * late]) % 360.0  # fmt: skip
    rest = count - extremes
    weight = rng.exponential(size=(rest, len(corners)))

    def column(place, low, high):
        return np.concatenate([np.where(at[:, place] == 0, low, high), rng.uniform(low, high, rest)])

    return Drawn(
        np.concatenate([corners[at[:, 0]], weight / weight.sum(axis=1, keepdims=True) @ corners]),
        column(1, *arrivals),
        column(2, 5.0, 11.0),
        column(3, -5.0, 5.0),
        column(4, -10.0, 10.0),
        column(5, 5.0, 11.0),
        np.concatenate([wind, rng.uniform(0.0, 360.0, rest)]),
        np.concatenate([np.ones(extremes), rng.random(rest)]),
        np.concatenate([late, rng.random(rest) < from_abeam]),
    )


class _Marching:
    """The state of F flights, and where they have been: places and seconds since the place before."""

    def __init__(self, tas_kt, rate_dps, wind_kt, drawn: Drawn):
        self.v, self.rate = tas_kt / 3600.0, np.radians(rate_dps)
        towards = np.radians(drawn.wind_towards)
        wind = wind_kt / 3600.0 * drawn.wind_share
        self.wind = np.stack([wind * np.cos(towards), wind * np.sin(towards)], axis=1)
        self.at = np.zeros_like(self.wind)
        self.heading = np.radians(drawn.arrival)
        self.places, self.seconds = [self.at], [np.zeros(len(wind))]

    def ground(self, heading):
        return self.v * np.stack([np.cos(heading), np.sin(heading)], axis=1) + self.wind

    def record(self, seconds):
        self.places.append(self.at)
        self.seconds.append(seconds)

    def straight(self, seconds, pieces=1):
        velocity = self.ground(self.heading)
        for _ in range(pieces):
            self.at = self.at + velocity * (seconds / pieces)[:, None]
            self.record(seconds / pieces)

    def stepped(self, at, heading, rate, seconds):
        """Fourth-order step; the heading itself changes evenly, so the two middle slopes are one."""
        first, last = self.ground(heading), self.ground(heading + rate * seconds)
        middle = self.ground(heading + rate * seconds / 2.0)
        return at + (first + 4.0 * middle + last) * (seconds / 6.0)[:, None]

    def turn(self, angle):
        """Turn by signed radians."""
        rate, seconds = np.sign(angle) * self.rate, np.abs(angle) / self.rate / STEPS
        begun = self.heading
        for k in range(STEPS):
            self.at = self.stepped(self.at, begun + rate * seconds * k, rate, seconds)
            self.record(seconds)
        self.heading = begun + angle
        return seconds, rate, begun

    def fell_back(self, seconds, rate, begun):
        """Seconds since the last moment of the turn just flown at which it fell back abeam the fix; NaN for never."""
        along = np.stack([at[:, 0] for at in self.places[-STEPS - 1 :]])
        fell = (along[:-1] > 0.0) & (along[1:] <= 0.0)
        last = STEPS - 1 - np.argmax(fell[::-1], axis=0)
        rows = np.arange(len(last))
        start = np.stack(self.places[-STEPS - 1 :])[last, rows]
        low, high = np.zeros(len(last)), seconds
        for _ in range(HALVINGS):
            middle = (low + high) / 2.0
            ahead = self.stepped(start, begun + rate * seconds * last, rate, middle)[:, 0] > 0.0
            low, high = np.where(ahead, middle, low), np.where(ahead, high, middle)
        return np.where(fell.any(axis=0), (STEPS - last) * seconds - high, np.nan)


def fly(tas_kt: float, rate_dps: float, wind_kt: float, outbound_s: float, name: str, drawn: Drawn, pieces: int = 1):
    """Places (K, F, 2) of flights that met the fix at its point, and the seconds before each (K, F). Add drawn.p for
    those over the tolerance area. A clock that counts from abeam starts when the aeroplane last comes abeam the fix
    from ahead, on the straight or in a turn; where it was never ahead, over the fix, or at roll-out of those entries
    whose time is that of a heading."""
    rule = MANOEUVRES[name]
    plane = _Marching(tas_kt, rate_dps, wind_kt, drawn)
    plane.straight(drawn.start_s, pieces)
    goal = np.radians(rule.outbound + drawn.heading_error)
    angle = goal - plane.heading
    if rule.first:
        angle = rule.first * np.mod(rule.first * angle, 2.0 * np.pi)
    turn = plane.turn(angle)

    clock = min(outbound_s, rule.longest_s) + drawn.timing_error_s
    since = plane.fell_back(*turn)
    ahead, closing = plane.at[:, 0], -plane.ground(plane.heading)[:, 0]
    behind = np.where(np.isnan(since), np.sum(plane.seconds, axis=0) if rule.over else 0.0, since)
    wait = np.where(ahead > 0.0, ahead / closing, -behind)
    assert (wait[ahead > 0.0] > 0.0).all(), "never abeam: the wind is too strong for this check"
    clock = np.where(drawn.from_abeam, np.maximum(clock + wait, 0.0), clock)
    plane.straight(clock + drawn.react_s, pieces)

    end = np.radians(rule.end) - plane.heading
    plane.turn(rule.second * np.mod(rule.second * end, 2.0 * np.pi))
    return np.stack(plane.places), np.stack(plane.seconds)


def outermost(points: np.ndarray, directions=(8, 32, 128)) -> np.ndarray:
    """Those of many points (P, 2) that may lie on their hull: what is inside the polygon of the farthest few goes."""
    for count in directions:
        angle = np.arange(count) * 2.0 * np.pi / count
        corners = points[np.unique(np.argmax(points @ np.stack([np.cos(angle), np.sin(angle)]), axis=0))]
        middle = corners.mean(axis=0)
        corners = corners[np.argsort(np.arctan2(*(corners - middle).T[::-1]))]
        points = points[outside(points, corners)]
    return points


def outside(points: np.ndarray, corners: np.ndarray) -> np.ndarray:
    """Whether points (P, 2) are not inside a convex ring of corners (M, 2), counter-clockwise; on it counts too."""
    out = np.zeros(len(points), dtype=bool)
    for a, b in zip(corners, np.roll(corners, -1, axis=0)):
        edge = b - a
        out |= points @ np.array([edge[1], -edge[0]]) >= a[0] * edge[1] - a[1] * edge[0] - 1e-12
    return out


def reach(points: np.ndarray, alpha) -> tuple[np.ndarray, np.ndarray]:
    """How far points reach in directions (D,), and the points that do (D, 2)."""
    along = points @ np.stack([np.cos(alpha), np.sin(alpha)])
    best = np.argmax(along, axis=0)
    return along[best, np.arange(len(best))], points[best]


def area(ring: np.ndarray) -> float:
    """Area of a ring of points (M, 2), counter-clockwise."""
    x, y = ring.T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))
