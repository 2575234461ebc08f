"""Polygons that contain convex shapes of many holds at once, and the rings between them.

A polygon is cut out by support lines. All shapes of one hold use the same directions, so that their edges are
parallel, an offset's corners lie on lines, and what one shape has more than another is told corner by corner.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import geodesy
from .shapes import Reach, Touch, Ways, ready, sector_starts

MOST_ROUNDS = 60
_LIKE_AN_ARC = 0.6
_SPARE = 1.05
_HAIR_NM = 1e-7


class Lines(NamedTuple):
    """Directions of support lines: row (T,) and the ways, ascending in each row; offsets (N + 1,); how far the shape
    reaches; and which are new where the directions of another shape were kept."""

    row: np.ndarray
    offsets: np.ndarray
    ways: Ways
    height: np.ndarray
    new: np.ndarray


def support_lines(
    shape: Reach, count: int, tolerance_nm: float, grow_nm: float = 0.0, start: Lines | None = None
) -> Lines:
    """Directions whose support lines cut out polygons that exceed N shapes by no more than a tolerance.

    Between two directions, the corner of their lines is held against the points where the shape touches: near enough
    to the chord between them it stays; else the shape is tried square to the chord. Where it bulges there like an arc,
    the gap is cut evenly, as often as the excess asks for; where it is flat, the direction tried is kept, and is an
    edge's own or soon will be.
    Parameters: shape; count N; tolerance_nm > 0; grow_nm, an offset all round for which the directions serve as well;
    start, directions of another shape, all of which are kept.
    Errors: ValueError for a tolerance that is not positive. Derived here, see DEVELOPERS.md.
    """
    if not (np.isfinite(tolerance_nm) and tolerance_nm > 0.0):
        raise ValueError(f"tolerance_nm is {tolerance_nm}; it must be positive")
    row, ways = sector_starts(count)
    touch, alpha = ready(shape, row, ways), ways.alpha_rad
    if start is not None:
        row, alpha = start.row, start.ways.alpha_rad
        touch = shape(row, start.ways)
    unsure, fresh = np.ones(len(alpha), dtype=bool), np.zeros(len(alpha), dtype=bool)
    for _ in range(MOST_ROUNDS):
        ends = np.flatnonzero(np.append(row[1:] != row[:-1], True)) if len(row) else np.zeros(0, np.int64)
        following = np.arange(1, len(row) + 1)
        following[ends] = np.concatenate([[0], ends[:-1] + 1])[: len(ends)]
        gap = np.flatnonzero(unsure)
        if not len(gap):
            break
        new, settled = _cut(shape, row, alpha, touch, gap, following[gap], tolerance_nm, grow_nm)
        unsure[gap[settled]] = False
        row, alpha = np.concatenate([row, new[0]]), np.concatenate([alpha, new[1]])
        touch = Touch(*[np.concatenate(pair) for pair in zip(touch, new[2])])
        unsure, fresh = (np.concatenate([a, np.ones(len(new[0]), dtype=bool)]) for a in (unsure, fresh))
        if not len(new[0]):
            continue
        order = np.argsort(row * 8.0 + alpha, kind="stable")
        row, alpha, unsure, fresh = row[order], alpha[order], unsure[order], fresh[order]
        touch = Touch(*[a[order] for a in touch])
    offsets = np.concatenate([[0], np.cumsum(np.bincount(row, minlength=count))])
    return Lines(row, offsets, Ways.of(alpha), touch.height, fresh)


def _cut(shape, row, alpha, touch, first, second, tolerance, grow):
    """New directions in gaps, and which gaps need none.

    A shape grown all round holds the chord between two touches grown as much: how far a corner lies beyond that is its
    distance from the chord less grow.
    """
    a, b = alpha[first], alpha[second] + np.where(second <= first, 2.0 * np.pi, 0.0)
    (h1, u1, s1), (h2, u2, s2) = (Touch(*[x[k] for x in touch]) for k in (first, second))
    corner = crossings(a, h1 + grow, b, h2 + grow)
    settled = (_to_chord(*corner, u1, s1, u2, s2) - grow <= tolerance) | (b - a < 1e-7)
    left = np.flatnonzero(~settled)
    gap = _Gap(row[first[left]], a[left], b[left], u1[left], s1[left], u2[left], s2[left])
    x, y = corner[0][left], corner[1][left]
    ways, middle = _square(shape, gap, grow)
    near = np.fmin(
        _to_chord(x, y, gap.u1, gap.s1, middle.u, middle.s), _to_chord(x, y, middle.u, middle.s, gap.u2, gap.s2)
    )
    enough = near - grow <= tolerance
    settled[left[enough]] = True
    excess = x * ways.cos + y * ways.sin - middle.height - grow
    bulge = middle.height - (gap.u1 * ways.cos + gap.s1 * ways.sin) + grow * (1.0 - np.cos(ways.alpha_rad - gap.a))
    arc = bulge > _LIKE_AN_ARC * excess
    even, flat = ~enough & arc, np.flatnonzero(~enough & ~arc)
    pieces = np.clip(np.ceil(_SPARE * np.sqrt(np.maximum(excess, 0.0) / tolerance)), 2, 64).astype(np.int64)
    cuts = pieces[even] - 1
    owner = np.repeat(np.flatnonzero(even), cuts)
    step = np.arange(len(owner)) - np.repeat(np.cumsum(cuts) - cuts, cuts) + 1
    more = gap.a[owner] + (gap.b - gap.a)[owner] * step / pieces[owner]
    cut = shape(gap.row[owner], Ways.of(more))
    joined = Touch(*[np.concatenate([one[flat], other]) for one, other in zip(middle, cut)])
    angle = np.mod(np.concatenate([ways.alpha_rad[flat], more]), 2.0 * np.pi)
    return (np.concatenate([gap.row[flat], gap.row[owner]]), angle, joined), settled


class _Gap(NamedTuple):
    """Gaps between two directions, and the points where the shape touches at each."""

    row: np.ndarray
    a: np.ndarray
    b: np.ndarray
    u1: np.ndarray
    s1: np.ndarray
    u2: np.ndarray
    s2: np.ndarray


def _square(shape, gap: _Gap, grow) -> tuple[Ways, Touch]:
    """The direction square to the chord of each gap of the grown shape, well inside it, and where the shape touches
    there."""
    du = gap.u1 - gap.u2 + grow * (np.cos(gap.a) - np.cos(gap.b))
    ds = gap.s2 - gap.s1 + grow * (np.sin(gap.b) - np.sin(gap.a))
    square = gap.a + np.mod(np.arctan2(du, ds) - gap.a, 2.0 * np.pi)
    square = np.where(square < gap.b, square, (gap.a + gap.b) / 2.0)
    inset = 1e-3 * (gap.b - gap.a)
    ways = Ways.of(np.clip(square, gap.a + inset, gap.b - inset))
    return ways, shape(gap.row, ways)


def _to_chord(x, y, u1, s1, u2, s2) -> np.ndarray:
    """Distance of points from chords."""
    du, ds = u2 - u1, s2 - s1
    square = du * du + ds * ds
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.clip(np.where(square > 0.0, ((x - u1) * du + (y - s1) * ds) / square, 0.0), 0.0, 1.0)
    return np.hypot(x - u1 - share * du, y - s1 - share * ds)


def crossings(a1, h1, a2, h2) -> tuple[np.ndarray, np.ndarray]:
    """Crossings of support lines u cos a + s sin a = h."""
    turn = np.sin(a2 - a1)
    return (h1 * np.sin(a2) - h2 * np.sin(a1)) / turn, (h2 * np.cos(a1) - h1 * np.cos(a2)) / turn


def corners(lines: Lines, *heights: np.ndarray) -> list[np.ndarray]:
    """Corners (T, 2) of the polygons of support lines at some heights, the k-th between direction k and the next of its
    row."""
    alpha, c, d, _ = lines.ways
    next_alpha, next_c, next_d = (geodesy.following(a, lines.offsets) for a in (alpha, c, d))
    turn = np.sin(next_alpha - alpha)
    out = []
    for height in heights:
        after = geodesy.following(height, lines.offsets)
        at = np.empty((len(height), 2))
        at[:, 0] = (height * next_d - after * d) / turn
        at[:, 1] = (after * c - height * next_c) / turn
        out.append(at)
    return out


def split(lines: Lines, vertices: np.ndarray) -> list[np.ndarray]:
    """Rings (M, 2) of each row, arrays of their own."""
    return [vertices[a:b].copy() for a, b in zip(lines.offsets[:-1], lines.offsets[1:])]


def _edges(lines: Lines, height: np.ndarray) -> np.ndarray:
    """Length of the edge on each line, negative where its neighbours leave none."""
    (at,) = corners(lines, height)
    before = np.arange(-1, len(at) - 1)
    filled = np.diff(lines.offsets) > 0
    before[lines.offsets[:-1][filled]] = lines.offsets[1:][filled] - 1
    edge = at - at[before]
    return edge[:, 1] * lines.ways.cos - edge[:, 0] * lines.ways.sin


def joined(lines: Lines, inner: np.ndarray, outer: np.ndarray, hair_nm: float) -> np.ndarray:
    """Heights of an inner shape, made those of the outer one where no more than a hair is between them: no slivers.

    A line that would leave no edge to itself or a neighbour stays where it was.
    """
    near = outer - inner <= hair_nm
    for _ in range(MOST_ROUNDS):
        height = np.where(near, outer, inner)
        lost = np.flatnonzero((_edges(lines, height) < 0.0) & near)
        if not len(lost):
            break
        near[lost] = False
    # Rounding alone.
    return np.where(near | (outer - inner < _HAIR_NM), outer, inner)


def without_twins(lines: Lines, heights: list[np.ndarray], apart_deg: float, most_nm: float) -> np.ndarray:
    """Which lines to keep where two have nearly one direction: one goes if no polygon grows by more than most_nm.

    Two edges that hardly differ in direction make corners so blunt that they may cross once their edges are chords.
    Parameters: heights, of each shape that the lines cut out. Returns: mask (T,).
    """
    alpha = lines.ways.alpha_rad
    keep = np.ones(len(alpha), dtype=bool)
    inside = np.zeros(len(alpha), dtype=bool)
    inside[1:-1] = (lines.row[2:] == lines.row[:-2])[: max(0, len(alpha) - 2)]
    before, after = np.roll(alpha, 1), np.roll(alpha, -1)
    gap = np.minimum(alpha - before, after - alpha)
    close = np.flatnonzero(inside & (gap < np.radians(apart_deg)))
    grows = np.zeros(len(close))
    for height in heights:
        u, s = crossings(before[close], np.roll(height, 1)[close], after[close], np.roll(height, -1)[close])
        grows = np.fmax(grows, u * lines.ways.cos[close] + s * lines.ways.sin[close] - height[close])
    for k, growth in zip(close, grows):
        if growth <= most_nm and keep[k - 1]:
            keep[k] = False
    return keep


def kept(lines: Lines, keep: np.ndarray) -> Lines:
    """The lines of a mask."""
    row = lines.row[keep]
    offsets = np.concatenate([[0], np.cumsum(np.bincount(row, minlength=len(lines.offsets) - 1))])
    return Lines(row, offsets, lines.ways.take(keep), lines.height[keep], lines.new[keep])


def between(inner: np.ndarray, outer: np.ndarray, shared: np.ndarray) -> tuple[tuple[np.ndarray, ...], ...]:
    """What a polygon has more than one inside it, both cut out by the same directions.

    Where a support line is the same for both, the inner edge lies on the outer one. From one such line to the next the
    corners of both bound a piece, or are one corner; without such a line the outer ring has the inner one as its hole.
    Parameters: open rings (M, 2), counter-clockwise, corner k between lines k and k + 1; shared (M,), whether line k is
    the same. Returns: polygons as Area holds them. Derived here.
    """
    at = np.flatnonzero(shared)
    if not len(at):
        return ((outer, inner[::-1]),)
    out = []
    for first, last in zip(at, np.append(at[1:], at[0] + len(shared))):
        if last - first > 1:
            run = np.arange(first, last) % len(shared)
            out.append((np.concatenate([outer[run], inner[run][::-1]]),))
    return tuple(out)


def woven(lines: Lines, inner: np.ndarray, outer: np.ndarray, shared: np.ndarray) -> list[np.ndarray]:
    """The outer ring of between with the inner one's corners on its edges, so that all parts meet vertex to vertex.

    On a shared line both edges follow one another: outer corner, inner corner, inner corner, outer corner.
    Parameters: corners (T, 2) of the polygons of all rows; shared (T,). Returns: a ring of each row.
    """
    apart = (inner[:, 0] != outer[:, 0]) | (inner[:, 1] != outer[:, 1])
    keep = np.stack([apart & shared, np.ones_like(apart), apart & geodesy.following(shared, lines.offsets)], axis=1)
    begins = np.concatenate([[0], np.cumsum(keep.sum(axis=1))])[lines.offsets]
    vertices = np.stack([inner, outer, inner], axis=1)[keep]
    return [vertices[a:b].copy() for a, b in zip(begins[:-1], begins[1:])]
