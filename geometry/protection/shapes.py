"""Convex shapes of many holds at once, each by how far it reaches in a direction and where it touches there.

A Reach takes rows (M,) of holds and as many Ways, and gives height h (M,) and the point touched (M,), (M,): sums of
shapes are sums, hulls are maxima, and discs grow along a turn in closed form.
"""

from __future__ import annotations

import functools
from typing import Callable, NamedTuple

import numpy as np

from . import sectors


class Ways(NamedTuple):
    """Directions: angle from the inbound course towards the holding side, its cosine and sine, and the sector it lies
    in; (M,) each."""

    alpha_rad: np.ndarray
    cos: np.ndarray
    sin: np.ndarray
    sector: np.ndarray

    @classmethod
    def of(cls, alpha_rad) -> Ways:
        """The ways of angles."""
        alpha = np.asarray(alpha_rad, dtype=np.float64)
        return cls(alpha, np.cos(alpha), np.sin(alpha), sectors.of(alpha))

    def take(self, index) -> Ways:
        """The ways of an index or mask."""
        return Ways(*[a[index] for a in self])


class Touch(NamedTuple):
    """How far a shape reaches, and the point of it that does; NM, (M,) each."""

    height: np.ndarray
    u: np.ndarray
    s: np.ndarray


Reach = Callable[[np.ndarray, Ways], Touch]


class Shape:
    """A Reach that can be made ready: it then asks itself less in each direction."""

    _first: Touch | None = None

    def __call__(self, rows: np.ndarray, ways: Ways) -> Touch:
        raise NotImplementedError

    def _ready(self, rows: np.ndarray, ways: Ways) -> Touch:
        raise NotImplementedError

    def ready(self, rows: np.ndarray, ways: Ways) -> Touch:
        """Touches where the sectors of all holds begin, which are the rows and ways given."""
        if self._first is None:
            self._first = self._ready(rows, ways)
        return self._first


def sector_starts(count: int) -> tuple[np.ndarray, Ways]:
    """Rows and ways where the sectors of N holds begin, (N * SECTORS,)."""
    return np.repeat(np.arange(count), sectors.SECTORS), Ways.of(sectors.starts_rad(count))


def ready(shape: Reach, rows: np.ndarray, ways: Ways) -> Touch:
    """Touches of a shape where the sectors begin, rows and ways as of sector_starts for all its holds. What it is made
    of is then asked only where needed."""
    return shape.ready(rows, ways) if isinstance(shape, Shape) else shape(rows, ways)


class Discs(Shape):
    """Hull of K discs of each of N holds. Parameters: (N, K) each; a point is a disc of radius 0."""

    def __init__(self, u, s, radius):
        self._u, self._s, self._radius = (np.ascontiguousarray(a.T) for a in np.broadcast_arrays(
            *[np.asarray(a, dtype=np.float64) for a in (u, s, radius)]
        ))  # fmt: skip
        self._needed: np.ndarray | None = None

    def __call__(self, rows, ways):
        many, count = self._u.shape
        if self._needed is None:
            owner, best = rows.copy(), self._height(rows, ways)
            for k in range(1, many):
                height = self._height(rows + k * count, ways)
                better = height > best
                np.copyto(best, height, where=better)
                np.copyto(owner, rows + k * count, where=better)
            return self._touch(best, owner, ways)
        where = rows * sectors.SECTORS + ways.sector
        owner = self._needed[0][where]
        best = self._height(owner, ways)
        for needed in self._needed[1:]:
            other = needed[where]
            at = np.flatnonzero(other >= 0)
            other = other[at]
            height = self._height(other, ways.take(at))
            better = np.flatnonzero(height > best[at])
            best[at[better]], owner[at[better]] = height[better], other[better]
        return self._touch(best, owner, ways)

    def places(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Centres u, s and radii, (N, K) each."""
        return self._u.T, self._s.T, self._radius.T

    def _height(self, owner, ways) -> np.ndarray:
        return self._u.take(owner) * ways.cos + self._s.take(owner) * ways.sin + self._radius.take(owner)

    def _touch(self, height, owner, ways) -> Touch:
        w = self._radius.take(owner)
        return Touch(height, self._u.take(owner) + w * ways.cos, self._s.take(owner) + w * ways.sin)

    def _ready(self, rows, ways):
        first, (many, count) = self(rows, ways), self._u.shape
        if many > 1:
            heights = np.stack([self._height(rows + k * count, ways) for k in range(many)])
            needed = sectors.needed(heights, *first)
            number = np.cumsum(needed, axis=0)
            disc, where = np.nonzero(needed)
            self._needed = np.full((number[-1].max(), len(rows)), -1)
            self._needed[number[disc, where] - 1, where] = rows[where] + disc * count
        return first


class Origin(Shape):
    """The fix itself. A sum leaves it out."""

    def __call__(self, rows, ways):
        nothing = np.zeros(len(rows))
        return Touch(nothing, nothing, nothing)

    def _ready(self, rows, ways):
        return self(rows, ways)


def points(corners: list[np.ndarray]) -> Reach:
    """Hull of the corners of each of N holds. Parameters: N arrays (V, 2), V of 1 or more and different."""
    if all(len(c) == 1 and not c.any() for c in corners):
        return Origin()
    most = max((len(c) for c in corners), default=1)
    padded = np.stack([np.concatenate([c, np.repeat(c[:1], most - len(c), axis=0)]) for c in corners])
    return Discs(padded[:, :, 0], padded[:, :, 1], 0.0)


class Turn(NamedTuple):
    """A turn of each of N holds, the aeroplane's place without wind and the wind since: arrays (N,) or scalars.

    Begins at (u, s) on a heading in the frame, way +1 to the holding side or -1 away from it; radius, NM; wind radius
    at angle 0 and its growth a degree; from and to which angle turned, degrees; angles in steps.
    """

    u: np.ndarray
    s: np.ndarray
    heading_deg: float
    way: int
    radius: np.ndarray
    wind: np.ndarray
    wind_per_deg: np.ndarray
    from_deg: float
    to_deg: float
    step_deg: float

    def places(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Centres u, s and radii of the discs, (N, K) each."""
        theta = sampled(self.from_deg, self.to_deg, self.step_deg)
        u, s, radius, wind, growth = [np.atleast_1d(np.asarray(a, float))[:, None] for a in self[:2] + self[4:7]]
        along, across = radius * np.sin(np.radians(theta)), self.way * radius * (1.0 - np.cos(np.radians(theta)))
        c, d = np.cos(np.radians(self.heading_deg)), np.sin(np.radians(self.heading_deg))
        return u + along * c - across * d, s + along * d + across * c, wind + growth * theta


def sampled(from_deg: float, to_deg: float, step_deg: float) -> np.ndarray:
    """Angles from one to another in equal steps, none longer than a step, both ends among them."""
    count = max(1, int(np.ceil((to_deg - from_deg) / step_deg - 1e-9)))
    return from_deg + (to_deg - from_deg) * np.arange(count + 1) / count


def turning(turn: Turn, count: int) -> Reach:
    """Hull of the discs of a turn of each of N holds.

    The reach grows by r cos(heading - alpha) + wind for each radian turned: it is greatest where that is 0, beyond the
    beam by asin(wind / r), or at an end. Of the sampled discs it is one of the two beside that heading, or where the
    turn does not come through it, an end. Only after a very long turn or in much wind its end may reach farther still.
    """
    way, e_deg = turn.way, turn.wind_per_deg
    u, s, radius, wind, growth = (
        np.broadcast_to(np.asarray(a, np.float64), (count,)) for a in (turn.u, turn.s, turn.radius, turn.wind, e_deg)
    )
    growth = np.degrees(growth)
    with np.errstate(divide="ignore", invalid="ignore"):
        beam = np.arccos(np.clip(-growth / radius, -1.0, 1.0))
    # Seen from the side turned to, the turn runs clockwise through its headings.
    lean = np.radians(turn.heading_deg)
    centre_u, centre_s = u - way * radius * np.sin(lean), s + way * radius * np.cos(lean)
    angle = np.radians(sampled(turn.from_deg, turn.to_deg, turn.step_deg))
    heading = way * lean + angle
    sines, cosines = np.sin(heading), np.cos(heading)
    begin, step, last = heading[0], (angle[-1] - angle[0]) / (len(angle) - 1), len(angle) - 1
    span = angle[-1] - angle[0]
    end_counts = bool((np.sin(beam + span) - np.sin(beam) - span * np.cos(beam) > -1e-9).any())

    def reach(rows, ways):
        r, e, aside = radius[rows], growth[rows], way * ways.sin
        below = np.mod(way * ways.alpha_rad + beam[rows] - begin, 2.0 * np.pi) / step
        # Past its end a turn reaches farthest at one of its ends.
        below = np.where(below < last, below.astype(np.int64), -1)
        first, second = np.where(below < 0, last, below), np.where(below < 0, 0, below + 1)
        low = r * (sines[first] * ways.cos - cosines[first] * aside) + e * angle[first]
        high = r * (sines[second] * ways.cos - cosines[second] * aside) + e * angle[second]
        chosen = np.where(high > low, second, first)
        if end_counts:
            end = r * (sines[last] * ways.cos - cosines[last] * aside) + e * angle[last]
            chosen = np.where(end > np.fmax(low, high), last, chosen)
        w = wind[rows] + e * angle[chosen]
        u, s = centre_u[rows] + r * sines[chosen], centre_s[rows] - way * r * cosines[chosen]
        return Touch(u * ways.cos + s * ways.sin + w, u + w * ways.cos, s + w * ways.sin)

    return reach


def arc(centre_u, centre_s, radius, from_rad, to_rad) -> Reach:
    """Hull of an arc of each of N holds, counter-clockwise from one direction to another. Parameters: (N,)."""
    u, s, radius, start, end = np.broadcast_arrays(
        *[np.asarray(a, dtype=np.float64) for a in (centre_u, centre_s, radius, from_rad, to_rad)]
    )
    ends = Discs(
        np.stack([u + radius * np.cos(start), u + radius * np.cos(end)], axis=1),
        np.stack([s + radius * np.sin(start), s + radius * np.sin(end)], axis=1),
        0.0,
    )
    span = np.mod(end - start, 2.0 * np.pi)

    def reach(rows, ways):
        touch, w = ends(rows, ways), radius[rows]
        inside = np.mod(ways.alpha_rad - start[rows], 2.0 * np.pi) <= span[rows]
        x, y = u[rows] + w * ways.cos, s[rows] + w * ways.sin
        bulge = Touch(u[rows] * ways.cos + s[rows] * ways.sin + w, x, y)
        return Touch(*[np.where(inside, b, a) for a, b in zip(touch, bulge)])

    return reach


class Hull(Shape):
    """Convex hull of shapes. Those of a hull among them count as its own, and discs are put together: fewer are
    asked."""

    def __init__(self, *shapes: Reach):
        pieces = [piece for shape in shapes for piece in _pieces(shape)]
        discs = [piece for piece in pieces if isinstance(piece, Discs)]
        self._shapes = [piece for piece in pieces if not isinstance(piece, Discs)]
        if discs:
            self._shapes.append(Discs(*[np.concatenate(parts, axis=1) for parts in zip(*[d.places() for d in discs])]))
        self._needed: np.ndarray | None = None

    def __call__(self, rows, ways):
        if self._needed is None:
            return functools.reduce(farther, (shape(rows, ways) for shape in self._shapes))
        where = rows * sectors.SECTORS + ways.sector
        best = Touch(np.full(len(rows), -np.inf), np.zeros(len(rows)), np.zeros(len(rows)))
        for shape, needed in zip(self._shapes, self._needed):
            at = np.flatnonzero(needed[where])
            if len(at):
                touch = shape(rows[at], ways.take(at))
                better = np.flatnonzero(touch.height > best.height[at])
                for part, new in zip(best, touch):
                    part[at[better]] = new[better]
        return best

    def _ready(self, rows, ways):
        touches = [ready(shape, rows, ways) for shape in self._shapes]
        first = functools.reduce(farther, touches)
        if len(touches) > 1:
            self._needed = sectors.needed(np.stack([touch.height for touch in touches]), *first)
        return first

    def pieces(self) -> list[Reach]:
        """Shapes whose hull it is."""
        return self._shapes


class Sum(Shape):
    """Sum of shapes: one moved over all places of the others."""

    def __init__(self, *shapes: Reach):
        self._shapes = [shape for shape in shapes if not isinstance(shape, Origin)] or shapes[:1]

    def __call__(self, rows, ways):
        return self._added([shape(rows, ways) for shape in self._shapes])

    def _ready(self, rows, ways):
        return self._added([ready(shape, rows, ways) for shape in self._shapes])

    def _added(self, touches) -> Touch:
        return Touch(*[sum(parts) for parts in zip(*touches)])


class OnlyWhere(Shape):
    """A shape for the holds of a mask (N,), nothing for the others: for hulls with shapes that all have."""

    def __init__(self, given: np.ndarray, shape: Reach):
        self._given, self._shape, self._all = given, shape, bool(given.all())

    def __call__(self, rows, ways):
        return self._masked(rows, self._shape(rows, ways))

    def _ready(self, rows, ways):
        return self._masked(rows, ready(self._shape, rows, ways))

    def _masked(self, rows, touch: Touch) -> Touch:
        if self._all:
            return touch
        return touch._replace(height=np.where(self._given[rows], touch.height, -np.inf))

    def pieces(self) -> list[Reach]:
        """Shapes whose hull it is."""
        pieces = _pieces(self._shape)
        return pieces if self._all else [OnlyWhere(self._given, piece) for piece in pieces]


def _pieces(shape: Reach) -> list[Reach]:
    return shape.pieces() if isinstance(shape, (Hull, OnlyWhere)) else [shape]


def farther(one: Touch, other: Touch) -> Touch:
    """Of two touches, the one that reaches farther; the first where both reach as far."""
    better = other.height > one.height
    return Touch(*[np.where(better, b, a) for a, b in zip(one, other)])
