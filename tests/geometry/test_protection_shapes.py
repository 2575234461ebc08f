"""Convex shapes of many holds and the polygons cut round them, against plain hulls of many discs."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry.protection import icao_entries, icao_lines, icao_template, rings, sectors, shapes

ALPHA = np.radians(np.arange(0.0, 360.0, 1.7))
NM = 1852.0


def touch(shape, count, alpha=ALPHA):
    """Height and touch of each of N shapes in each direction: (N, D)."""
    rows = np.repeat(np.arange(count), len(alpha))
    found = shape(rows, shapes.Ways.of(np.tile(alpha, count)))
    return [part.reshape(count, len(alpha)) for part in found]


def of_discs(u, s, w, alpha=ALPHA):
    """The same from all discs (N, K)."""
    return (u[..., None] * np.cos(alpha) + s[..., None] * np.sin(alpha) + w[..., None]).max(axis=1)


def some_lines(count=6, seed=0):
    rng = np.random.default_rng(seed)
    return icao_lines.lines(rng.uniform(70.0, 280.0, count), rng.uniform(0.0, 14000.0, count), np.ones(count))


@pytest.mark.parametrize("step", [45.0, 5.0, 1.0])
def test_the_template_in_closed_form_is_the_hull_of_its_discs(step):
    values = some_lines()
    centres, radii = icao_template.discs(values, step)
    height, u, s = touch(icao_template.template(values, step), 6)
    np.testing.assert_allclose(height, of_discs(centres[..., 0], centres[..., 1], radii), rtol=0.0, atol=1e-12)
    np.testing.assert_allclose(u * np.cos(ALPHA) + s * np.sin(ALPHA), height, rtol=0.0, atol=1e-12)


@settings(max_examples=40, deadline=None)
@given(
    st.floats(-180.0, 180.0), st.sampled_from([1, -1]), st.floats(0.0, 90.0), st.floats(1.0, 180.0),
    st.floats(0.1, 3.0), st.floats(0.0, 0.02), st.sampled_from([0.7, 5.0, 30.0]),
)  # fmt: skip
def test_one_turn_is_the_hull_of_its_discs(heading, way, start, length, radius, growth, step):
    """Whatever its heading and side, the drift a degree up to more than the turn itself."""
    one = np.ones(1)
    turn = shapes.Turn(0.3 * one, -0.7 * one, heading, way, radius * one, 0.1 * one, growth * one,
                       start, start + length, step)  # fmt: skip
    height, u, s = touch(shapes.turning(turn, 1), 1)
    np.testing.assert_allclose(height, of_discs(*turn.places()), rtol=0.0, atol=1e-11)
    np.testing.assert_allclose(u * np.cos(ALPHA) + s * np.sin(ALPHA), height, rtol=0.0, atol=1e-11)


def test_places_of_a_turn_by_hand():
    """A right turn of radius 2 from heading u: 90 degrees bring it to (2, 2) heading s; left, to (2, -2)."""
    one = np.ones(1)
    for way in (1, -1):
        turn = shapes.Turn(0.0 * one, 0.0 * one, 0.0, way, 2.0 * one, 0.1 * one, 0.01 * one, 0.0, 180.0, 90.0)
        u, s, w = turn.places()
        np.testing.assert_allclose(u, [[0.0, 2.0, 0.0]], atol=1e-12)
        np.testing.assert_allclose(s, [[0.0, way * 2.0, way * 4.0]], atol=1e-12)
        np.testing.assert_allclose(w, [[0.1, 1.0, 1.9]], atol=1e-12)


def test_an_arc_is_its_points():
    angle = np.linspace(2.0, 4.0, 2001)
    shape = shapes.arc([5.0], [1.0], [3.0], [2.0], [4.0])
    want = of_discs(5.0 + 3.0 * np.cos(angle)[None], 1.0 + 3.0 * np.sin(angle)[None], np.zeros((1, 2001)))
    np.testing.assert_allclose(touch(shape, 1)[0], want, atol=1e-6)


def test_sums_hulls_and_masks():
    square = shapes.points([np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]), np.zeros((1, 2))])
    disc = shapes.Discs(np.zeros((2, 1)), np.zeros((2, 1)), np.full((2, 1), 0.5))
    both, either = touch(shapes.Sum(square, disc), 2), touch(shapes.Hull(square, disc), 2)
    np.testing.assert_allclose(both[0], touch(square, 2)[0] + 0.5, atol=1e-12)
    np.testing.assert_allclose(either[0], np.maximum(touch(square, 2)[0], 0.5), atol=1e-12)
    masked = shapes.Hull(disc, shapes.OnlyWhere(np.array([True, False]), square))
    np.testing.assert_allclose(touch(masked, 2)[0][1], 0.5, atol=1e-12)
    np.testing.assert_allclose(touch(masked, 2)[0][0], either[0][0], atol=1e-12)


# --- turns of entries


@pytest.mark.parametrize(
    ("low", "high", "way"),
    [(-75.0, 115.0, 1), (65.0, 180.0, -1), (-30.0, -30.0, 1), (90.0, 90.0, 1), (180.0, 180.0, -1)],
)
def test_first_turns_hold_each_turn_and_no_more(low, high, way):
    """Against places sampled by arrival and heading: never inside them, and nearer to them the finer they are."""
    values = some_lines(4, 3)
    given = [np.full(4, low), np.full(4, high)]
    height, u, s = touch(icao_entries.first_turns(values, *given, way), 4)
    growth = np.degrees(values["E45"] / 45.0)[:, None]
    r, run = values["r"][:, None], values["ac"][:, None]
    found = np.full_like(height, -np.inf)
    for arrive in np.radians(np.linspace(low, high, 150 if high > low else 1)):
        heading = np.linspace(arrive, np.pi, 181)[None]
        at_u = run * np.cos(arrive) + r * (np.sin(heading) - np.sin(arrive))
        at_s = run * np.sin(arrive) + r * (np.cos(arrive) - np.cos(heading))
        w = values["Wc"][:, None] + growth * (heading - arrive)
        found = np.maximum(found, of_discs(at_u, way * at_s, w))
    assert (height - found).min() > -1e-12
    assert (height - found).max() < 1e-3
    np.testing.assert_allclose(u * np.cos(ALPHA) + s * np.sin(ALPHA), height, rtol=0.0, atol=1e-12)


# --- polygons


def outside_m(ring, height, alpha):
    """How far the corners of a ring lie outside a shape, told by its support in many directions."""
    return (ring @ np.stack([np.cos(alpha), np.sin(alpha)]) - height).max(axis=1) * NM


@pytest.mark.parametrize("grow", [0.0, 5.0])
@pytest.mark.parametrize("tolerance_m", [0.1, 2.5, 400.0])
def test_polygons_contain_their_shapes_within_the_tolerance(tolerance_m, grow):
    values = some_lines(5, 5)
    quadrilateral = np.array([(-0.5, -1.8), (0.6, -1.9), (0.6, 1.9), (-0.5, 1.8)])
    shape = shapes.Sum(icao_template.template(values), shapes.points([quadrilateral] * 5))
    lines = rings.support_lines(shape, 5, tolerance_m / NM, grow)
    np.testing.assert_allclose(lines.height, shape(lines.row, lines.ways).height, atol=1e-12)
    made = rings.split(lines, *rings.corners(lines, lines.height + grow))
    fine = np.radians(np.arange(0.0, 360.0, 0.2))
    own = [np.concatenate([fine, lines.ways.alpha_rad[lines.row == k]]) for k in range(5)]
    for k, ring in enumerate(made):
        height = shape(np.full(len(own[k]), k), shapes.Ways.of(own[k])).height + grow
        reach = (ring @ np.stack([np.cos(own[k]), np.sin(own[k])])).max(axis=0)
        assert (reach - height).min() > -1e-9
        assert 0.3 * tolerance_m < outside_m(ring, height, own[k]).max() <= tolerance_m * 1.0001
        assert len(ring) < {0.1: 2500, 2.5: 300, 400.0: 40}[tolerance_m]


def test_polygons_have_few_corners():
    """Not many more than the fewest: an arc of radius r needs 2 pi / (2 sqrt(2 tolerance / r)) of them."""
    shape = shapes.Discs(np.zeros((1, 1)), np.zeros((1, 1)), np.full((1, 1), 10.0))
    lines = rings.support_lines(shape, 1, 2.5 / NM)
    fewest = np.pi / np.sqrt(2.0 * 2.5 / NM / 10.0)
    assert fewest <= len(lines.row) <= 1.15 * fewest


def test_edges_find_their_own_directions():
    """The common tangents of three discs are among the lines to a tenth of a degree: a straight edge is one edge."""
    u, s = np.array([[0.0, 8.0, 3.0]]), np.array([[0.0, 1.0, 6.0]])
    lines = rings.support_lines(shapes.Discs(u, s, np.ones((1, 3))), 1, 1.0 / NM)
    for one, two in ((0, 1), (1, 2), (2, 0)):
        normal = np.arctan2(-(u[0, two] - u[0, one]), s[0, two] - s[0, one])
        assert np.abs(np.mod(lines.ways.alpha_rad - normal + np.pi, 2.0 * np.pi) - np.pi).min() < np.radians(0.1)


@pytest.mark.parametrize("bad", [0.0, -1.0, np.nan, np.inf])
def test_a_tolerance_that_makes_no_sense(bad):
    with pytest.raises(ValueError, match="tolerance_nm"):
        rings.support_lines(shapes.points([np.eye(3, 2)]), 1, bad)


# --- what is between two polygons


def polygon(heights, alpha):
    lines = rings.Lines(
        np.zeros(len(alpha), int), np.array([0, len(alpha)]), shapes.Ways.of(alpha), np.array(heights), None
    )
    return *rings.corners(lines, np.array(heights, float)), lines


def test_between_two_squares():
    """Two squares that share three edges: one oblong between; no edge: a hole; all edges: nothing."""
    alpha = np.radians([0.0, 90.0, 180.0, 270.0])
    inner, _ = polygon([1.0, 1.0, 1.0, 1.0], alpha)
    for heights, area, pieces in (([1.0, 1.0, 3.0, 1.0], 4.0, 1), ([2.0, 1.0, 3.0, 1.0], 6.0, 2),
                                  ([1.0, 1.0, 1.0, 1.0], 0.0, 0)):  # fmt: skip
        outer, _ = polygon(heights, alpha)
        made = rings.between(inner, outer, np.array(heights) == 1.0)
        assert len(made) == pieces
        assert sum(_area(ring) for (ring,) in made) == pytest.approx(area)
    outer, _ = polygon([2.0, 2.0, 2.0, 2.0], alpha)
    ((ring, hole),) = rings.between(inner, outer, np.zeros(4, bool))
    assert _area(ring) == pytest.approx(16.0) and _area(hole) == pytest.approx(-4.0)
    assert np.shares_memory(hole, inner)


def test_parts_meet_vertex_to_vertex():
    alpha = np.radians([0.0, 90.0, 180.0, 270.0])
    inner, lines = polygon([1.0, 1.0, 1.0, 1.0], alpha)
    outer, _ = polygon([1.0, 1.0, 3.0, 1.0], alpha)
    (ring,) = rings.woven(lines, inner, outer, np.array([True, True, False, True]))
    assert {tuple(np.round(p, 9)) for p in ring} == {tuple(np.round(p, 9)) for p in np.concatenate([inner, outer])}
    assert _area(ring) == pytest.approx(8.0)


def _area(ring) -> float:
    x, y = np.asarray(ring).T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))


def test_a_line_that_would_lose_its_edge_stays():
    alpha = np.radians(np.arange(0.0, 360.0, 10.0))
    inner = np.full(36, 2.0)
    outer = inner + np.where(np.arange(36) == 7, 0.1, 5.0)
    _, lines = polygon(inner, alpha)
    assert rings.joined(lines, inner, outer, 0.2).tolist() == inner.tolist()
    gentle = inner + np.where(np.arange(36) == 7, 0.01, 5.0)
    assert rings.joined(lines, inner, gentle, 0.2).tolist() == np.where(np.arange(36) == 7, 2.01, 2.0).tolist()


def test_a_hairs_breadth_is_no_gap():
    """An inner edge nearer than a hair goes onto the outer one; nothing shrinks."""
    alpha = np.radians(np.arange(0.0, 360.0, 30.0))
    outer = np.full(12, 2.0)
    inner = np.array([2.0, 1.999, 1.9, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5, 1.9995])
    _, lines = polygon(inner, alpha)
    made = rings.joined(lines, inner, outer, 0.01)
    assert made.tolist() == [2.0, 2.0, *inner[2:11], 2.0]
    (ring,) = rings.corners(lines, made)
    assert (ring @ np.stack([np.cos(alpha), np.sin(alpha)]) - made).max() < 1e-12


def test_twin_lines_go_where_that_costs_little():
    alpha = np.radians([0.0, 40.0, 40.05, 90.0, 180.0, 270.0])
    _, lines = polygon([1.0] * 6, alpha)
    keep = rings.without_twins(lines, [np.ones(6)], 0.1, 0.01)
    assert keep.sum() == 5 and keep[[0, 3, 4, 5]].all()
    assert rings.without_twins(lines, [np.ones(6)], 0.1, 1e-9).all()
    assert len(rings.kept(lines._replace(new=np.zeros(6, bool)), keep).row) == 5


# --- asked only where needed


def random_hull(rng, count):
    """Hulls within sums within hulls, of discs, points and turns, some of them missing in some rows."""

    def discs(many):
        return shapes.Discs(*rng.uniform(-3.0, 3.0, (2, count, many)), rng.uniform(0.0, 2.0, (count, many)))

    turn = shapes.Turn(*rng.uniform(-2.0, 2.0, (2, count)), rng.uniform(-180.0, 180.0), 1, rng.uniform(0.2, 2.0, count),
                       rng.uniform(0.0, 0.5, count), rng.uniform(0.0, 0.01, count), 0.0, 200.0, 5.0)  # fmt: skip
    some = shapes.OnlyWhere(rng.uniform(size=count) < 0.6, discs(2))
    inner = shapes.Hull(discs(5), shapes.turning(turn, count), some)
    lone = shapes.OnlyWhere(rng.uniform(size=count) < 0.5, shapes.Sum(discs(3), shapes.Hull(discs(4), discs(1))))
    return shapes.Hull(shapes.Sum(inner, discs(2)), lone, shapes.arc(*rng.uniform(0.0, 2.0, (5, count))))


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 8))
def test_made_ready_a_shape_reaches_as_far(seed, count):
    """Leaving out what a sector does not need changes no touch by a bit: at random directions, at the starts of the
    sectors and beside them."""
    starts = 2.0 * np.pi * np.arange(sectors.SECTORS) / sectors.SECTORS
    alpha = np.concatenate([np.random.default_rng(seed + 1).uniform(-7.0, 7.0, 200), starts, starts + 1e-9, -starts])
    plain = touch(random_hull(np.random.default_rng(seed), count), count, alpha)
    shape = random_hull(np.random.default_rng(seed), count)
    first = shapes.ready(shape, *shapes.sector_starts(count))
    for was, found in zip(plain, touch(shape, count, alpha)):
        np.testing.assert_array_equal(found, was)
    np.testing.assert_array_equal(first.height.reshape(count, -1), plain[0][:, 200 : 200 + sectors.SECTORS])


def test_most_shapes_are_left_out_of_most_sectors():
    """Twelve discs round a ring: a sector of 22.5 degrees needs the two or three that lie there."""
    angle = np.radians(np.arange(0.0, 360.0, 30.0))
    u, s = 10.0 * np.cos(angle), 10.0 * np.sin(angle)
    start = 2.0 * np.pi * np.arange(sectors.SECTORS) / sectors.SECTORS
    heights = u[:, None] * np.cos(start) + s[:, None] * np.sin(start) + 1.0
    first = shapes.Discs(u[None], s[None], np.ones((1, 12)))(np.zeros(sectors.SECTORS, int), shapes.Ways.of(start))
    needed = sectors.needed(heights, *first)
    assert needed.any(axis=0).all() and 1.5 < needed.sum(axis=0).mean() < 3.0


def test_a_sum_leaves_the_fix_out():
    discs = shapes.Discs([[1.0]], [[2.0]], [[0.5]])
    fix = shapes.points([np.zeros((1, 2))])
    for one, other in zip(touch(shapes.Sum(discs, fix), 1), touch(discs, 1)):
        np.testing.assert_array_equal(one, other)
    assert not np.any(touch(fix, 1)) and not np.any(touch(shapes.Sum(fix, fix), 1))
    assert not np.any(shapes.ready(fix, *shapes.sector_starts(1)))
