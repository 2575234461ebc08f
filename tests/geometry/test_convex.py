"""Hulls and support functions, against shapely where it has the same."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Point, Polygon

from fixwright.geometry import convex

coordinate = st.floats(-20.0, 20.0, allow_subnormal=False).map(lambda x: round(x, 6))
point_lists = st.lists(st.tuples(coordinate, coordinate), min_size=1, max_size=12)
disc_lists = st.lists(st.tuples(coordinate, coordinate, st.floats(0.01, 8.0)), min_size=1, max_size=8)
EVERY_HALF_DEGREE = np.radians(np.arange(0.0, 360.0, 0.5))


def _split(discs):
    discs = np.array(discs)
    return discs[:, :2], discs[:, 2]


def _support(discs, step_deg=0.5):
    centres, radii = _split(discs)
    alpha = np.concatenate(
        [np.radians(np.arange(0.0, 360.0, step_deg)), convex.edge_normals_of_discs(centres, radii, step_deg)]
    )
    alpha = np.unique(np.mod(alpha, 2.0 * np.pi))
    return alpha, convex.support_of_discs(alpha, centres, radii)[0]


def _signed_area(ring) -> float:
    x, y = ring.T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))


@given(point_lists)
def test_hull_is_shapely_s(points):
    ours, theirs = convex.hull(points), MultiPoint(points).convex_hull
    if theirs.geom_type != "Polygon":
        assert len(ours) <= 2 or abs(_signed_area(ours)) < 1e-9
        return
    assert _signed_area(ours) == pytest.approx(theirs.area, abs=1e-9)
    assert Polygon(ours).hausdorff_distance(theirs) < 1e-9
    assert len({tuple(p) for p in ours}) == len(ours)


@pytest.mark.parametrize(
    ("points", "count"),
    [([(1, 2)], 1), ([(1, 2), (1, 2)], 1), ([(1, 2), (3, 4)], 2), ([(0, 0), (1, 1), (2, 2)], 2),
     ([(0, 0), (0, 0), (0, 0)], 1), ([(0, 0), (4, 0), (2, 0), (2, 1)], 3),
     ([(0, 0), (1, 0), (1, 1), (0, 1), (0.5, 0.5)], 4)],
)  # fmt: skip
def test_hull_of_few(points, count):
    assert len(convex.hull(points)) == count


def test_edges_of_few_points():
    assert convex.edge_normals_of_polygon([(1.0, 2.0)]).shape == (0,)
    both = np.sort(convex.edge_normals_of_polygon([(0.0, 0.0), (1.0, 0.0)]))
    np.testing.assert_allclose(both, [np.pi / 2.0, 3.0 * np.pi / 2.0])
    square = np.sort(convex.edge_normals_of_polygon([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]))
    np.testing.assert_allclose(square, [0.0, np.pi / 2.0, np.pi, 1.5 * np.pi], atol=1e-12)


@given(point_lists)
def test_support_of_points(points):
    h = convex.support_of_points(EVERY_HALF_DEGREE, points)
    for alpha, reach in list(zip(EVERY_HALF_DEGREE, h))[::90]:
        assert reach == pytest.approx(max(x * np.cos(alpha) + y * np.sin(alpha) for x, y in points), abs=1e-12)


@given(disc_lists)
def test_support_of_discs(discs):
    centres, radii = _split(discs)
    h, which = convex.support_of_discs(EVERY_HALF_DEGREE, centres, radii)
    direction = np.stack([np.cos(EVERY_HALF_DEGREE), np.sin(EVERY_HALF_DEGREE)], axis=1)
    np.testing.assert_allclose(h, (direction @ centres.T + radii)[np.arange(len(h)), which], atol=1e-12)
    assert np.all(h + 1e-12 >= (direction @ centres.T + radii).max(axis=1))


@settings(max_examples=50)
@given(disc_lists, st.sampled_from([0.001, 0.02, 1.0, 100.0]))
def test_circumscribed_contains_and_keeps_its_tolerance(discs, tolerance):
    """Every disc lies inside; no vertex lies farther from the hull than the tolerance (and the sampling's error)."""
    centres, radii = _split(discs)
    alpha, h = _support(discs, 0.1 if tolerance < 0.01 else 0.5)
    ring = convex.circumscribed(alpha, h, tolerance)
    assert _signed_area(ring) > 0.0
    edge = np.roll(ring, -1, axis=0) - ring
    length = np.hypot(edge[:, 0], edge[:, 1])
    kept = length > 1e-9
    normal = np.stack([edge[:, 1], -edge[:, 0]], axis=1)[kept] / length[kept, None]
    gap = np.sum(normal * ring[kept], axis=1)[:, None] - normal @ centres.T - radii
    assert gap.min() > -1e-8
    fine, exact = _support(discs, 0.05)
    outside = (ring @ np.stack([np.cos(fine), np.sin(fine)]) - exact).max(axis=1)
    assert outside.max() <= tolerance * 1.01 + 1e-6
    if tolerance >= 100.0:
        assert len(ring) <= 10, "a loose tolerance needs few vertices"


def test_circle_by_hand():
    """A unit circle, circumscribed within 0.01: a regular polygon of at least pi / acos(1 / 1.01) = 22.3 sides."""
    ring = convex.circumscribed(EVERY_HALF_DEGREE, np.ones(720), 0.01)
    assert 23 <= len(ring) <= 26
    assert np.hypot(*ring.T).max() <= 1.01 + 1e-9
    assert Polygon(ring).contains(Point(0.0, 0.0).buffer(0.9999))


def test_a_support_that_makes_no_polygon_is_refused():
    for tolerance in (0.0, -1.0, np.nan, np.inf):
        with pytest.raises(ValueError, match="tolerance is"):
            convex.circumscribed(EVERY_HALF_DEGREE, np.ones(720), tolerance)
    spoilt = np.ones(720)
    spoilt[5] = np.nan
    with pytest.raises(ValueError, match="support"):
        convex.circumscribed(EVERY_HALF_DEGREE, spoilt, 0.01)


@given(disc_lists)
def test_tangents_touch_two_discs(discs):
    """A direction where one disc takes over from another is that of their common tangent: both reach as far."""
    centres, radii = _split(discs)
    alpha = convex.edge_normals_of_discs(centres, radii, 0.5)
    assert np.all((alpha >= 0.0) & (alpha < 2.0 * np.pi + 1e-12))
    reach = np.sort(np.stack([np.cos(alpha), np.sin(alpha)], axis=1) @ centres.T + radii, axis=1)
    if len(alpha):
        # Where a third disc shows for less than the step the middle stands in; elsewhere the first two are level.
        level = reach[:, -1] - reach[:, -2] < 1e-9
        assert level.mean() >= 0.5


@given(disc_lists, st.floats(0.1, 10.0))
def test_scale(discs, factor):
    one = np.array(discs)
    _, h = _support(discs)
    centres, radii = _split(one * factor)
    alpha, _ = _support(discs)
    np.testing.assert_allclose(convex.support_of_discs(alpha, centres, radii)[0], h * factor, rtol=1e-9, atol=1e-9)
