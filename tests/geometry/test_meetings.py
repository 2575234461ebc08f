"""Which shapes meet: by hand, and against routes that share nothing with ours (shapely, geographiclib)."""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import geodesy, planar, shapes
from fixwright.geometry.meetings import INSIDE, NEAR, OVERLAPS, meetings, overlap_nm2


def ring(lon, lat, radius_nm, n=72, start=0.0):
    azimuth = start + np.linspace(0.0, 360.0, n, endpoint=False)
    x, y, _ = geodesy.direct(lon, lat, azimuth, radius_nm)
    return np.stack([geodesy.unwrap(x, lon), y], axis=1)


def one(path, filled=True, width_nm=0.0):
    return shapes.gather([[[path]]], filled=filled, width_nm=width_nm)


def box(west, south, east, north):
    return np.array([[west, south], [east, south], [east, north], [west, north]], float)


def only(first, second, within_nm=50.0):
    met = meetings(first, second, within_nm)
    assert len(met.row) == 1
    return met


# --- distances


@pytest.mark.parametrize("lat", [0.0, 43.0, -60.0, 80.0])
@pytest.mark.parametrize("apart_nm", [0.5, 7.0, 30.0])
@pytest.mark.parametrize("bearing", [0.0, 77.0, 180.0, 310.0])
def test_two_discs(lat, apart_nm, bearing):
    """Discs of 3 and 4 NM whose nearest vertices lie on the line between the middles. Reference: geographiclib."""
    there = Geodesic.WGS84.Direct(lat, 20.0, bearing, (7.0 + apart_nm) * 1852.0)
    a = ring(20.0, lat, 3.0, start=bearing)
    b = ring(there["lon2"], there["lat2"], 4.0, start=there["azi2"] + 180.0)
    nearest = Geodesic.WGS84.Inverse(a[0, 1], a[0, 0], b[0, 1], b[0, 0])["s12"] / 1852.0
    met = only(one(a), one(b))
    assert met.distance_nm[0] == pytest.approx(nearest, abs=0.002)
    assert met.distance_nm[0] == pytest.approx(apart_nm, abs=0.002)
    assert met.relation[0] == NEAR


def test_the_nearest_place_of_a_long_edge():
    """A meridian as an edge of 600 NM: the nearest place is abeam, not at a vertex. Reference: geographiclib."""
    line = one(np.array([[21.0, 38.0], [21.0, 48.0]]), filled=False)
    point = one(np.array([[20.0, 43.0]]), filled=False)
    met = only(point, line)
    best = min(Geodesic.WGS84.Inverse(43.0, 20.0, 43.0 + d, 21.0)["s12"] / 1852.0 for d in np.linspace(0.0, 0.02, 2001))
    assert met.distance_nm[0] == pytest.approx(best, abs=1e-4)
    assert met.lon[0] == pytest.approx(21.0, abs=1e-4)


def test_an_edge_is_straight_in_degrees():
    """At 60 N a parallel of 5 degrees is an edge: 2.5 degrees along, the geodesic would lie 1.4 NM to the north.

    The nearest place to a point north of its middle is on the parallel. Reference: geographiclib along the meridian.
    """
    edge = one(np.array([[20.0, 60.0], [25.0, 60.0]]), filled=False)
    met = only(one(np.array([[22.5, 60.1]]), filled=False), edge)
    expected = Geodesic.WGS84.Inverse(60.0, 22.5, 60.1, 22.5)["s12"] / 1852.0
    assert met.distance_nm[0] == pytest.approx(expected, abs=0.002)


def test_width_counts():
    line = one(np.array([[19.0, 50.0], [21.0, 50.0]]), filled=False, width_nm=4.0)
    far, near = ring(20.0, 50.2, 5.0), ring(20.0, 50.1, 5.0)
    bare = only(one(far), one(np.array([[19.0, 50.0], [21.0, 50.0]]), filled=False))
    met = only(one(far), line)
    assert met.distance_nm[0] == pytest.approx(bare.distance_nm[0] - 4.0, abs=1e-9)
    assert met.edge_nm[0] == bare.edge_nm[0]
    met = only(one(near), line)
    assert (met.distance_nm[0], met.relation[0]) == (0.0, OVERLAPS)


def test_within_is_a_distance():
    a, b = one(ring(20.0, 50.0, 3.0)), one(ring(20.3, 50.0, 3.0))
    exact = meetings(a, b, 50.0).distance_nm[0]
    assert len(meetings(a, b, exact + 1e-6).row) == 1
    assert len(meetings(a, b, exact - 1e-6).row) == 0
    for bad in (-1.0, math.nan):
        with pytest.raises(ValueError, match="within_nm"):
            meetings(a, b, bad)


# --- how they lie


def test_inside_round_and_across():
    small, large = one(ring(20.0, 50.0, 3.0)), one(ring(20.02, 50.0, 10.0))
    assert only(small, large).relation[0] == INSIDE
    assert only(large, small).relation[0] == OVERLAPS
    across = only(one(ring(20.25, 50.0, 3.0)), large)
    assert (across.relation[0], across.distance_nm[0], across.edge_nm[0]) == (OVERLAPS, 0.0, 0.0)
    assert only(small, large).distance_nm[0] == 0.0
    assert only(small, large).edge_nm[0] > 6.0


def test_in_a_hole_is_outside():
    outer, hole = ring(20.0, 50.0, 20.0), ring(20.0, 50.0, 10.0)[::-1]
    with_hole = shapes.gather([[[outer, hole]]], filled=True)
    met = only(one(ring(20.0, 50.0, 3.0)), with_hole)
    assert met.relation[0] == NEAR and met.distance_nm[0] == pytest.approx(7.0, abs=0.02)
    round_the_hole = only(one(ring(20.0, 50.0, 12.0)), with_hole)
    assert round_the_hole.relation[0] == OVERLAPS
    assert only(one(ring(20.2, 50.0, 0.5)), with_hole).relation[0] == NEAR
    assert only(one(ring(20.4, 50.0, 0.5)), with_hole).relation[0] == INSIDE


def test_parts_that_overlap_each_other_have_no_hole():
    """Basic and entry area of a hold lie on each other: what lies in both is inside."""
    area = shapes.gather([[[ring(20.0, 50.0, 5.0)], [ring(20.05, 50.0, 5.0)]]], filled=True)
    assert only(area, one(ring(20.03, 50.0, 1.0))).distance_nm[0] == 0.0
    assert only(one(ring(20.03, 50.0, 1.0)), area).relation[0] == INSIDE


def test_inside_a_radius_and_a_corridor():
    place = one(np.array([[20.0, 50.0]]), filled=False, width_nm=5.0)
    assert only(one(ring(20.0, 50.01, 3.0)), place).relation[0] == INSIDE
    assert only(one(ring(20.0, 50.05, 3.0)), place).relation[0] == OVERLAPS
    corridor = one(np.array([[19.0, 50.0], [21.0, 50.2]]), filled=False, width_nm=5.0)
    assert only(one(ring(20.0, 50.11, 3.0)), corridor).relation[0] == INSIDE


def test_a_line_through_and_a_line_within():
    zone = one(box(19.5, 49.5, 20.5, 50.5))
    through = one(np.array([[19.0, 50.0], [21.0, 50.0]]), filled=False)
    within = one(np.array([[19.9, 50.0], [20.1, 50.1]]), filled=False)
    assert only(through, zone).relation[0] == OVERLAPS
    assert only(within, zone).relation[0] == INSIDE


def test_the_180th_meridian():
    """The same shapes at 20 E and at 180: in one piece beyond 180, cut in two, or drawn from 179 to -179."""
    home = only(one(ring(20.0, 10.0, 5.0)), one(ring(20.2, 10.0, 4.0)))
    area, zone = ring(180.0 - 0.05, 10.0, 5.0), ring(180.0 + 0.15, 10.0, 4.0)
    forms = {"beyond": zone, "back": zone - [360.0, 0.0], "wrapped": np.column_stack([wrapped(zone[:, 0]), zone[:, 1]])}
    for name, form in forms.items():
        met = only(one(area), one(form))
        assert met.distance_nm[0] == pytest.approx(home.distance_nm[0], abs=1e-6), name
        assert met.relation[0] == home.relation[0]
    box_home = only(one(ring(20.0, 10.0, 3.0)), one(box(19.8, 9.8, 20.2, 10.2))).relation[0]
    halves = shapes.gather([[[box(179.8, 9.8, 180.0, 10.2)], [box(-180.0, 9.8, -179.8, 10.2)]]], filled=True)
    assert only(one(ring(180.0, 10.0, 3.0)), halves).distance_nm[0] == 0.0
    assert box_home == INSIDE


def wrapped(lon):
    return (lon + 180.0) % 360.0 - 180.0


def test_nothing_meets_nothing():
    nothing = shapes.gather([], filled=True)
    disc = one(ring(20.0, 50.0, 3.0))
    for a, b in ((nothing, disc), (disc, nothing), (nothing, nothing)):
        assert len(meetings(a, b, 100.0).row) == 0
    empty = shapes.gather([[], [[ring(20.0, 50.0, 3.0)]]], filled=True)
    assert meetings(empty, disc, 1.0).row.tolist() == [1]
    assert meetings(disc, empty, 1.0).other.tolist() == [1]


def test_a_pair_is_told_once():
    three = shapes.gather([[[ring(20.0 + 0.05 * i, 50.0, 3.0)]] for i in range(3)], filled=True)
    met = meetings(three, three, 0.0, once=True)
    assert list(zip(met.row.tolist(), met.other.tolist())) == [(0, 1), (0, 2), (1, 2)]


def test_rings_round_a_pole():
    assert shapes.goes_round_a_pole(np.array([[0, 80], [90, 80], [180, 80], [-90, 80], [0, 80]], float))
    assert not shapes.goes_round_a_pole(box(170.0, -10.0, -170.0, 10.0))


# --- against shapely in a projection of its own


@pytest.mark.parametrize("seed", range(6))
def test_the_same_as_shapely(seed):
    """Ragged rings over a region: shapely's distance, intersection and containment in an equal-distance projection that
    pyproj makes at each first shape (PROJ, aeqd)."""
    geometry = pytest.importorskip("shapely.geometry", reason="needs shapely")
    pyproj = pytest.importorskip("pyproj")
    random = np.random.default_rng(seed)
    lat = (50.0, 5.0, -35.0, 70.0, 82.0, 0.0)[seed]

    def ragged(count, spread, size):
        out = []
        for _ in range(count):
            lon, y = 20.0 + random.uniform(-spread, spread) / max(0.2, math.cos(math.radians(lat))), lat
            y += random.uniform(-spread, spread)
            n = int(random.integers(3, 40))
            azimuth = np.sort(random.uniform(0.0, 360.0, n))
            x, y, _ = geodesy.direct(lon, y, azimuth, random.uniform(0.4, 1.0, n) * size)
            out.append(np.stack([geodesy.unwrap(x, lon), y], axis=1))
        return out

    firsts, seconds = ragged(10, 0.4, 6.0), ragged(20, 0.5, 12.0)
    firsts = [r for r in firsts if geometry.Polygon(r).is_valid]
    seconds = [r for r in seconds if geometry.Polygon(r).is_valid]
    within = 8.0
    met = meetings(shapes.gather([[[r]] for r in firsts], filled=True),
                   shapes.gather([[[r]] for r in seconds], filled=True), within)  # fmt: skip
    ours = {(int(i), int(j)): (d, int(r)) for i, j, d, r in zip(met.row, met.other, met.distance_nm, met.relation)}
    seen = set()
    for i, first in enumerate(firsts):
        middle = first.mean(axis=0)
        to = pyproj.Proj(proj="aeqd", lat_0=middle[1], lon_0=middle[0], ellps="WGS84")

        def plane(path, to=to):
            steps = np.linspace(0.0, 1.0, 16)[:-1, None]
            after = np.roll(path, -1, axis=0)
            fine = np.concatenate([a + (b - a) * steps for a, b in zip(path, after)])
            x, y = to(fine[:, 0], fine[:, 1])
            return geometry.Polygon(np.stack([x, y], axis=1) / 1852.0)

        a = plane(first)
        for j, second in enumerate(seconds):
            b = plane(second)
            distance = a.distance(b)
            if distance <= within - 0.01:
                assert (i, j) in ours, (i, j, distance)
            if (i, j) in ours:
                seen.add((i, j))
                assert ours[i, j][0] == pytest.approx(distance, abs=0.005)
                if distance == 0.0 and a.intersection(b).area > 1e-3:
                    deep = b.buffer(-0.002).contains(a) == b.buffer(0.002).contains(a)
                    assert not deep or (ours[i, j][1] == INSIDE) == b.contains(a)
                    assert ours[i, j][1] in (OVERLAPS, INSIDE)
    assert seen == set(ours) and len(seen) > 30


@pytest.mark.parametrize("seed", range(3))
def test_overlaps_the_same_as_shapely(seed):
    geometry = pytest.importorskip("shapely.geometry", reason="needs shapely")
    random = np.random.default_rng(seed)
    for _ in range(10):
        a = ring(20.0, 45.0, random.uniform(3.0, 8.0), 30)
        b = ring(20.0 + random.uniform(0.0, 0.2), 45.0 + random.uniform(0.0, 0.1), random.uniform(3.0, 8.0), 30)
        shared = geometry.Polygon(a).intersection(geometry.Polygon(b))
        expected = geodesy.ring_area_nm2(*np.array(shared.exterior.coords).T) if shared.area else 0.0
        assert overlap_nm2(one(a), 0, one(b), 0) == pytest.approx(expected, rel=1e-3, abs=1e-3)


def test_overlap_with_widths_by_hand():
    """A disc of 5 NM wholly within an area is pi 25; a corridor of 2 NM each side over a box of 0.5 by 0.5 degrees."""
    pytest.importorskip("shapely", reason="needs shapely")
    area = one(box(19.5, -0.5, 20.5, 0.5))
    place = one(np.array([[20.0, 0.0]]), filled=False, width_nm=5.0)
    assert overlap_nm2(area, 0, place, 0) == pytest.approx(math.pi * 25.0, rel=3e-3)
    line = one(np.array([[19.0, 0.0], [21.0, 0.0]]), filled=False, width_nm=2.0)
    across_nm = 1.0 / 360.0 * 2.0 * math.pi * 6_378_137.0 / 1852.0
    assert overlap_nm2(area, 0, line, 0) == pytest.approx(4.0 * across_nm, rel=2e-3)


def test_overlap_with_a_shape_as_large_as_a_continent():
    pytest.importorskip("shapely", reason="needs shapely")
    area = ring(20.0, 50.0, 4.0)
    huge = one(box(-60.0, -60.0, 110.0, 80.0))
    assert only(one(area), huge, 1.0).relation[0] == INSIDE
    assert overlap_nm2(one(area), 0, huge, 0) == pytest.approx(geodesy.ring_area_nm2(*area.T), rel=1e-3)


def test_without_shapely_the_overlap_is_not_known(monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "shapely", None)
    area = one(ring(20.0, 50.0, 4.0))
    assert math.isnan(overlap_nm2(area, 0, area, 0))
    assert only(area, area).distance_nm[0] == 0.0


# --- properties


@given(
    st.floats(-180.0, 180.0), st.floats(-75.0, 75.0), st.floats(0.0, 360.0), st.floats(0.0, 40.0), st.floats(0.5, 9.0)
)
def test_the_distance_is_the_same_both_ways(lon, lat, bearing, apart, radius):
    x, y, _ = geodesy.direct(lon, lat, bearing, apart)
    a, b = one(ring(lon, lat, radius, 24)), one(ring(float(x), float(y), 5.0, 31))
    there, back = only(a, b), only(b, a)
    assert there.distance_nm[0] == pytest.approx(back.distance_nm[0], abs=0.003)
    assert (there.relation[0] == NEAR) == (back.relation[0] == NEAR)


@given(st.floats(-30.0, 30.0), st.floats(-30.0, 30.0), st.integers(3, 30))
def test_inside_a_convex_ring_by_its_half_planes(x, y, n):
    angle = np.linspace(0.0, 2.0 * math.pi, n, endpoint=False)
    corners = 20.0 * np.stack([np.cos(angle), np.sin(angle)], axis=1)
    after = np.roll(corners, -1, axis=0)
    side = (after - corners)[:, 0] * (y - corners[:, 1]) - (after - corners)[:, 1] * (x - corners[:, 0])
    if np.abs(side).min() > 1e-6:
        assert planar.inside([[x, y]], corners, after)[0] == (side > 0.0).all()


@given(st.lists(st.floats(-10.0, 10.0), min_size=8, max_size=8))
def test_edges_apart_as_by_many_points(places):
    a0, a1, b0, b1 = np.array(places).reshape(4, 2)
    found = planar.nearest([a0], [a1], [b0], [b1])
    share = np.linspace(0.0, 1.0, 201)[:, None]
    p, q = a0 + (a1 - a0) * share, b0 + (b1 - b0) * share
    brute = np.hypot(*(p[:, None] - q[None]).transpose(2, 0, 1)).min()
    assert found.distance[0] <= brute + 1e-9
    assert brute <= found.distance[0] + 0.15  # two steps of at most 0.14 apart, half of each
    assert np.hypot(*(found.on_first[0] - found.on_second[0])) == pytest.approx(found.distance[0], abs=1e-9)
