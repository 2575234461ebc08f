from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import geodesy

lons = st.one_of(st.floats(-180.0, 180.0), st.sampled_from([180.0, -180.0, 0.0]))
lats = st.one_of(st.floats(-85.0, 85.0), st.sampled_from([85.0, -85.0, 0.0]))
courses = st.one_of(st.floats(0.0, 360.0), st.sampled_from([0.0, 90.0, 180.0, 270.0, 360.0]))
sides = st.sampled_from([1, -1])
MM_NM = 1e-3 / 1852.0


def _apart_nm(lon1, lat1, lon2, lat2) -> float:
    return float(geodesy.inverse(lon1, lat1, lon2, lat2)[2])


@given(lons, lats, courses, st.floats(-400.0, 400.0))
def test_there_and_back(lon, lat, course, dist):
    """Along a geodesic and back on its course: a millimetre."""
    there = geodesy.direct(lon, lat, course, dist)
    back = geodesy.direct(there[0], there[1], there[2], -dist)
    assert _apart_nm(lon, lat, back[0], back[1]) < MM_NM


@given(lons, lats, courses, st.floats(-400.0, 400.0), st.floats(0.1, 100.0), sides)
def test_the_foot_of_a_point_set_off_square_to_a_geodesic(lon, lat, course, along, apart, side):
    """A point reached square from a place on the geodesic has its foot there, at the distance it was set off."""
    on_lon, on_lat, there = geodesy.direct(lon, lat, course, along)
    point = geodesy.direct(on_lon, on_lat, there + 90.0 * side, apart)
    got_along, got_apart = geodesy.foot(*(np.array([float(v)]) for v in (lon, lat, course, *point[:2])))
    assert abs(got_along[0] - along) < MM_NM and abs(got_apart[0] - apart) < MM_NM


@given(lons, lats, courses, sides, st.floats(-40.0, 40.0), st.floats(-40.0, 40.0))
def test_frame_there_and_back(lon, lat, inbound, side, u, s):
    place = geodesy.place(lon, lat, inbound, side, u, s)
    back = geodesy.to_frame(lon, lat, inbound, side, *place)
    assert np.hypot(back[0] - u, back[1] - s) < MM_NM


@given(lons, lats, courses, st.floats(-40.0, 40.0), st.floats(-40.0, 40.0))
def test_left_is_the_mirror_of_right(lon, lat, inbound, u, s):
    right = geodesy.place(lon, lat, inbound, 1, u, s)
    left = geodesy.place(lon, lat, inbound, -1, u, -s)
    assert _apart_nm(*right, *left) < MM_NM


@given(lons, lats, courses, sides, st.floats(-40.0, 40.0), st.floats(-40.0, 40.0), st.floats(-180.0, 180.0))
def test_turning_the_course_turns_the_frame(lon, lat, inbound, side, u, s, turn):
    """A frame point turned by an angle is the same place in the frame of the course turned by it."""
    a = np.radians(turn)
    turned = (u * np.cos(a) + s * np.sin(a), s * np.cos(a) - u * np.sin(a))
    one = geodesy.place(lon, lat, inbound, side, u, s)
    other = geodesy.place(lon, lat, inbound + side * turn, side, *turned)
    assert _apart_nm(*one, *other) < MM_NM


@given(lats, courses, sides, st.floats(-30.0, 30.0), st.floats(-30.0, 30.0), st.floats(-180.0, 180.0))
def test_nothing_changes_with_the_longitude(lat, inbound, side, u, s, lon):
    here = geodesy.place(lon, lat, inbound, side, u, s)
    at_zero = geodesy.place(0.0, lat, inbound, side, u, s)
    assert abs(float(here[0] - lon) - float(at_zero[0])) < 1e-9
    assert abs(float(here[1] - at_zero[1])) < 1e-12


@pytest.mark.parametrize("lon", [179.9999, 180.0, -180.0, -179.9999])
def test_a_shape_stays_in_one_piece_across_the_antimeridian(lon):
    u, s = np.meshgrid(np.linspace(-30.0, 30.0, 7), np.linspace(-30.0, 30.0, 7))
    out, _ = geodesy.place(lon, 60.0, 45.0, 1, u, s)
    assert out.shape == (7, 7)
    assert np.all(np.abs(out - lon) < 2.1)


def test_courses_across_north():
    """360 and 0 are one course, and nothing jumps there."""
    for lat in (0.0, 50.0, -85.0):
        zero, full = (geodesy.direct(10.0, lat, c, 50.0) for c in (0.0, 360.0))
        assert _apart_nm(*zero[:2], *full[:2]) < MM_NM
        before, after = (geodesy.direct(10.0, lat, c, 50.0) for c in (359.999, 0.001))
        assert _apart_nm(*before[:2], *after[:2]) < 0.002


def test_shapes():
    for out in geodesy.direct(10.0, 50.0, 90.0, 5.0) + geodesy.inverse(10.0, 50.0, 11.0, 50.0):
        assert out.shape == () and out.dtype == np.float64
    assert geodesy.direct(np.zeros((2, 1)), 50.0, [90.0, 91.0, 92.0], 5.0)[0].shape == (2, 3)
    assert geodesy.place(10.0, 50.0, 90.0, [1, -1], 5.0, 1.0)[0].shape == (2,)
    assert geodesy.direct(np.zeros(0), 0.0, 0.0, 1.0)[0].shape == (0,)


@pytest.mark.parametrize("which", range(4))
def test_nan_spoils_its_own_row_only(which):
    values = [np.full(3, 10.0), np.full(3, 50.0), np.full(3, 70.0), np.full(3, 5.0)]
    whole = geodesy.direct(*values), geodesy.inverse(*values), geodesy.to_frame(*values[:3], 1, *values[2:])
    values[which] = values[which].copy()
    values[which][1] = np.nan
    part = geodesy.direct(*values), geodesy.inverse(*values), geodesy.to_frame(*values[:3], 1, *values[2:])
    for before, after in zip(whole, part):
        for a, b in zip(before, after):
            assert np.isnan(b[1])
            assert a[[0, 2]].tobytes() == b[[0, 2]].tobytes()


def test_the_same_input_gives_the_same_bytes_alone_and_in_a_batch():
    lon, lat = np.linspace(-180.0, 180.0, 101), np.linspace(-85.0, 85.0, 101)
    batch = geodesy.place(lon, lat, 30.0, 1, 3.0, -2.0)
    again = geodesy.place(lon, lat, 30.0, 1, 3.0, -2.0)
    alone = [geodesy.place(x, y, 30.0, 1, 3.0, -2.0) for x, y in zip(lon, lat)]
    for k in range(2):
        assert batch[k].tobytes() == again[k].tobytes()
        assert batch[k].tobytes() == np.array([float(a[k]) for a in alone]).tobytes()


def test_a_result_may_lie_nearer_the_pole():
    """From 84.9 north 120 NM north is 86.9; over the pole the course turns about."""
    lon, lat, course = geodesy.direct(20.0, 84.9, 0.0, 120.0)
    assert float(lat) == pytest.approx(86.9, abs=0.02)
    assert float(course) == pytest.approx(0.0, abs=1e-9)
    lon, lat, course = geodesy.direct(20.0, 84.9, 0.0, 400.0)
    assert float(lon) == pytest.approx(-160.0, abs=1e-9)
    assert float(course) == pytest.approx(180.0, abs=1e-9)


def test_courses_between_equal_places_are_no_crash():
    course, _, dist = geodesy.inverse(10.0, 50.0, 10.0, 50.0)
    assert float(dist) == 0.0 and 0.0 <= float(course) < 360.0


@given(st.floats(0.01, 2 * np.pi), st.floats(0.05, 50.0), st.floats(0.1, 1000.0))
def test_chords_of_an_arc(angle, radius, tolerance):
    """The sagitta keeps to the tolerance, and one chord less would not."""
    n = int(geodesy.chord_count(angle, radius, tolerance))
    assert n >= 1

    def sagitta(count):
        half = min(angle / count / 2.0, np.pi)
        return radius * 1852.0 * (1.0 - np.cos(half))

    if angle / n / 2.0 <= np.pi / 2.0:
        assert sagitta(n) <= tolerance * (1.0 + 1e-9)
    if n > 1:
        assert sagitta(n - 1) > tolerance * (1.0 - 1e-6)


@given(st.floats(0.0, 89.0), st.floats(0.1, 1000.0))
def test_straight_pieces(lat, tolerance):
    piece = float(geodesy.longest_piece_nm(lat, tolerance))
    assert 0.0 < piece <= 60.0
    assert float(geodesy.longest_piece_nm(-lat, tolerance)) == piece
    assert float(geodesy.longest_piece_nm(min(lat + 1.0, 89.0), tolerance)) <= piece
    assert float(geodesy.longest_piece_nm(lat, tolerance / 4.0)) <= piece


@pytest.mark.parametrize("tolerance", [0.0, -1.0, np.nan, np.inf])
def test_a_tolerance_that_makes_no_sense_is_refused(tolerance):
    for call in (lambda: geodesy.chord_count(1.0, 1.0, tolerance), lambda: geodesy.longest_piece_nm(50.0, tolerance)):
        with pytest.raises(ValueError, match="tolerance_m is"):
            call()


def test_unwrap():
    assert float(geodesy.unwrap(-179.0, 179.0)) == pytest.approx(181.0)
    assert float(geodesy.unwrap(179.0, -179.0)) == pytest.approx(-181.0)
    assert float(geodesy.unwrap(10.0, 10.0)) == 10.0


def test_area_of_a_ring():
    """One square mile of small sides, either way round, also across the antimeridian."""
    side = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0), (0.0, 0.0)])
    for lon, lat in ((10.0, 50.0), (180.0, -85.0)):
        x, y = geodesy.place(lon, lat, 33.0, 1, side[:, 0], side[:, 1])
        assert geodesy.ring_area_nm2(x, y) == pytest.approx(1.0, abs=1e-6)
        assert geodesy.ring_area_nm2(x[::-1], y[::-1]) == pytest.approx(1.0, abs=1e-6)


def test_the_following_corner():
    """Rings of three, none and one: the last goes to the first of its own."""
    found = geodesy.following(np.array([10, 11, 12, 20]), np.array([0, 3, 3, 4]))
    assert found.tolist() == [11, 12, 10, 20]


@pytest.mark.parametrize("lat", [0.0, 35.0, -50.0, 84.0])
def test_sizes_of_rings_in_a_frame(lat):
    """Against geographiclib's polygon area: a fine ring of an odd shape, up to 60 NM from the fix, and it reversed."""
    from geographiclib.geodesic import Geodesic

    turn = np.linspace(0.0, 2.0 * np.pi, 2881)[:-1]
    away = 40.0 + 20.0 * np.cos(3.0 * turn)
    u, s = away * np.cos(turn) + 5.0, away * np.sin(turn) - 9.0
    made = Geodesic.WGS84.Polygon()
    for a, b in zip(u, s):
        bearing = np.degrees(np.arctan2(b, a))
        place = Geodesic.WGS84.Direct(lat, 10.0, bearing, np.hypot(a, b) * 1852.0)
        made.AddPoint(place["lat2"], place["lon2"])
    expected = abs(made.Compute()[2]) / 1852.0**2
    both = geodesy.frame_sizes_nm2(
        np.full(2, lat), np.concatenate([u, u[::-1]]), np.concatenate([s, s[::-1]]), [0, len(u), 2 * len(u)]
    )
    assert both[0] == pytest.approx(expected, rel=2e-7) and both[1] == pytest.approx(-both[0], rel=1e-12)
    assert len(geodesy.frame_sizes_nm2(np.zeros(0), [], [], [0])) == 0
