"""Convex shapes of many holds at once, each by how far it reaches in a direction and where it touches there.

A Reach takes rows (M,) of holds and as many Ways, and gives height h (M,) and the point touched (M,), (M,): sums of
shapes are sums, hulls are maxima, and discs grow along a turn in closed form.
"""

from __future__ import annotations

from typing import Callable, NamedTuple

import numpy as np


class Ways(NamedTuple):
    """Directions: angle from the inbound course towards the holding side, its cosine and sine; (M,) each."""

    alpha_rad: np.ndarray
    cos: np.ndarray
    sin: np.ndarray

    @classmethod
    def of(cls, alpha_rad) -> Ways:
        """The ways of angles."""
        alpha = np.asarray(alpha_rad, dtype=np.float64)
        return cls(alpha, np.cos(alpha), np.sin(alpha))

    def take(self, index) -> Ways:
        """The ways of an index or mask."""
        return Ways(*[a[index] for a in self])


class Touch(NamedTuple):
    """How far a shape reaches, and the point of it that does; NM, (M,) each."""

    height: np.ndarray
    u: np.ndarray
    s: np.ndarray


Reach = Callable[[np.ndarray, Ways], Touch]


def discs(u, s, radius) -> Reach:
    """Hull of K discs of each of N holds. Parameters: (N, K) each; a point is a disc of radius 0."""
    u, s, radius = (np.ascontiguousarray(a.T) for a in np.broadcast_arrays(
        *[np.asarray(a, dtype=np.float64) for a in (u, s, radius)]
    ))  # fmt: skip
    many, count = u.shape

    def reach(rows, ways):
        best = u[0][rows] * ways.cos + s[0][rows] * ways.sin + radius[0][rows]
        owner = rows.copy()
        for k in range(1, many):
            height = u[k][rows] * ways.cos + s[k][rows] * ways.sin + radius[k][rows]
            better = height > best
            np.copyto(best, height, where=better)
            np.copyto(owner, rows + k * count, where=better)
        w = radius.ravel()[owner]
        return Touch(best, u.ravel()[owner] + w * ways.cos, s.ravel()[owner] + w * ways.sin)

    return reach


def points(corners: list[np.ndarray]) -> Reach:
    """Hull of the corners of each of N holds. Parameters: N arrays (V, 2), V of 1 or more and different."""
    most = max((len(c) for c in corners), default=1)
    padded = np.stack([np.concatenate([c, np.repeat(c[:1], most - len(c), axis=0)]) for c in corners])
    return discs(padded[:, :, 0], padded[:, :, 1], 0.0)


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


def turning(turns: list[Turn], count: int) -> Reach:
    """Hull of the discs of turns that share radius, growth, way and step, each over headings of its own.

    The reach grows by r cos(heading - alpha) + wind for each radian turned: it is greatest where that is 0, beyond the
    beam by asin(wind / r), or at an end. Of the sampled discs it is one of the two beside that heading, or an end.
    """
    way = turns[0].way
    wide = [[np.broadcast_to(np.asarray(a, np.float64), (count,)) for a in t[:2] + t[4:7]] for t in turns]
    radius, growth = wide[0][2], np.degrees(wide[0][4])
    with np.errstate(divide="ignore", invalid="ignore"):
        beam = np.arccos(np.clip(-growth / radius, -1.0, 1.0))
    # Seen from the side turned to, all turns run clockwise through their headings; the first begins at 0.
    begin = way * turns[0].heading_deg + turns[0].from_deg
    flat, edges, ends = [], [], []
    for turn, (u, s, r, wind, per_deg) in zip(turns, wide):
        lean = np.radians(turn.heading_deg)
        start = np.mod(way * turn.heading_deg + turn.from_deg - begin, 360.0)
        theta = sampled(turn.from_deg, turn.to_deg, turn.step_deg)
        edges.append((start, start + turn.to_deg - turn.from_deg, len(theta) - 1))
        flat.append((u - way * r * np.sin(lean), s + way * r * np.cos(lean), wind - per_deg * (start - turn.from_deg)))
        ends.append([part[:, [0, -1]] for part in turn.places()])
    centre_u, centre_s, wind_0 = (np.concatenate(parts) for parts in zip(*flat))
    at_ends = discs(*[np.concatenate([np.broadcast_to(e[k], (count, 2)) for e in ends], axis=1) for k in range(3)])
    tables = [np.radians(start + (stop - start) * np.arange(n + 1) / n) for start, stop, n in edges]
    offsets = np.cumsum([0] + [len(table) for table in tables])
    angle = np.concatenate(tables)
    heading = angle + np.radians(begin)
    sines, cosines = np.sin(heading), np.cos(heading)

    def reach(rows, ways):
        touch = at_ends(rows, ways)
        peak = np.mod(way * ways.alpha_rad + beam[rows] - np.radians(begin), 2.0 * np.pi)
        below = np.full(len(rows), -1)
        owner = rows
        for k, (table, first) in enumerate(zip(tables, offsets)):
            inside = (peak >= table[0]) & (peak < table[-1])
            step = (table[-1] - table[0]) / (len(table) - 1)
            below = np.where(inside, ((peak - table[0]) / step).astype(np.int64) + first, below)
            owner = np.where(inside, rows + k * count, owner)
        at = np.flatnonzero(below >= 0)
        if not len(at):
            return touch
        rows, owner, below = rows[at], owner[at], below[at]
        cos, sin = ways.cos[at], ways.sin[at]
        r, e, aside = radius[rows], growth[rows], way * sin
        low = r * (sines[below] * cos - cosines[below] * aside) + e * angle[below]
        high = r * (sines[below + 1] * cos - cosines[below + 1] * aside) + e * angle[below + 1]
        chosen = np.where(high > low, below + 1, below)
        u, s, w = centre_u[owner], centre_s[owner], wind_0[owner] + e * angle[chosen]
        height = u * cos + s * sin + np.where(high > low, high, low) + wind_0[owner]
        u, s = u + r * sines[chosen] + w * cos, s - way * r * cosines[chosen] + w * sin
        better = height > touch.height[at]
        for part, new in zip(touch, (height, u, s)):
            part[at[better]] = new[better]
        return touch

    return reach


def arc(centre_u, centre_s, radius, from_rad, to_rad) -> Reach:
    """Hull of an arc of each of N holds, counter-clockwise from one direction to another. Parameters: (N,)."""
    u, s, radius, start, end = np.broadcast_arrays(
        *[np.asarray(a, dtype=np.float64) for a in (centre_u, centre_s, radius, from_rad, to_rad)]
    )
    ends = discs(
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


def hull(*shapes: Reach) -> Reach:
    """Convex hull of shapes."""

    def reach(rows, ways):
        best = shapes[0](rows, ways)
        for shape in shapes[1:]:
            best = farther(best, shape(rows, ways))
        return best

    return reach


def added(*shapes: Reach) -> Reach:
    """Sum of shapes: one moved over all places of the others."""

    def reach(rows, ways):
        return Touch(*[sum(parts) for parts in zip(*[shape(rows, ways) for shape in shapes])])

    return reach


def only_where(given: np.ndarray, shape: Reach) -> Reach:
    """A shape for the holds of a mask (N,), nothing for the others: for hulls with shapes that all have."""

    def reach(rows, ways):
        touch = shape(rows, ways)
        return Touch(np.where(given[rows], touch.height, -np.inf), touch.u, touch.s)

    return reach


def farther(one: Touch, other: Touch) -> Touch:
    """Of two touches, the one that reaches farther; the first where both reach as far."""
    better = other.height > one.height
    return Touch(*[np.where(better, b, a) for a, b in zip(one, other)])
