"""Routes: distances along them, feet of points, courses on both sides, all measured with geographiclib."""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import reasons
from fixwright.geometry.routes import Route

WGS84 = Geodesic.WGS84
NM = 1852.0
MM = 1e-3
LON = np.array([10.0, 10.8, 11.1, 10.4])
LAT = np.array([50.0, 50.2, 50.9, 51.3])


def _inverse(lat1, lon1, lat2, lon2):
    line = WGS84.Inverse(*(float(v) for v in (lat1, lon1, lat2, lon2)))
    return line["azi1"], line["azi2"], line["s12"]


def _wrap(angle: float) -> float:
    return math.remainder(angle, 360.0)


def _walk(lon, lat, metres: float):
    """The place so far from the start, leg by leg with geographiclib: lat, lon, course."""
    for lat1, lon1, lat2, lon2 in zip(lat, lon, lat[1:], lon[1:]):
        course, _, length = _inverse(lat1, lon1, lat2, lon2)
        if metres <= length + 1e-6:
            at = WGS84.Direct(lat1, lon1, course, metres)
            return at["lat2"], at["lon2"], at["azi2"]
        metres -= length
    raise AssertionError("past the end")


def _starts(lon, lat) -> np.ndarray:
    """Metres from the start to each vertex."""
    return np.cumsum([0.0] + [_inverse(*ends)[2] for ends in zip(lat, lon, lat[1:], lon[1:])])


@st.composite
def chains(draw):
    """A route over the antimeridian or anywhere, legs of 0.1 to 150 NM."""
    lat, lon = [draw(st.floats(-70.0, 70.0))], [draw(st.one_of(st.floats(-180.0, 180.0), st.floats(178.0, 180.0)))]
    for _ in range(draw(st.integers(1, 5))):
        at = WGS84.Direct(lat[-1], lon[-1], draw(st.floats(0.0, 360.0)), draw(st.floats(0.1, 150.0)) * NM)
        lat.append(max(-80.0, min(80.0, at["lat2"])))
        lon.append(at["lon2"])
    return np.array(lon), np.array(lat)


@settings(max_examples=60)
@given(chains(), st.floats(0.001, 0.999))
def test_a_place_from_the_start(chain, share):
    lon, lat = chain
    route = Route(lon, lat)
    total = _starts(lon, lat)[-1]
    assert route.start_nm[-1] * NM == pytest.approx(total, abs=MM)
    at = route.at(share * total / NM)
    want = _walk(lon, lat, share * total)
    assert at.code[0] == reasons.OK
    assert _inverse(at.lat[0], at.lon[0], *want[:2])[2] < MM
    assert at.from_start_nm[0] * NM == pytest.approx(share * total, abs=MM)
    if np.min(np.abs(_starts(lon, lat) - share * total)) > 2.0:
        for course in (at.course_deg[0], at.course_after_deg[0]):
            assert abs(_wrap(course - want[2])) < 1e-7
        assert _starts(lon, lat)[at.leg[0]] < share * total < _starts(lon, lat)[at.leg[0] + 1]


@settings(max_examples=60)
@given(chains(), st.data())
def test_before_and_beyond_a_vertex(chain, data):
    lon, lat = chain
    starts = _starts(lon, lat)
    vertex = data.draw(st.integers(1, len(lon)))
    beyond = data.draw(st.booleans())
    room = starts[-1] - starts[vertex - 1] if beyond else starts[vertex - 1]
    metres = data.draw(st.floats(0.0, 1.2)) * room
    at = Route(lon, lat).from_vertex(vertex, metres / NM, beyond)
    if metres > room + MM:
        assert at.code[0] == reasons.OFF_ROUTE and np.isnan(at.lat[0])
    elif metres < room - MM:
        want = _walk(lon, lat, starts[vertex - 1] + (metres if beyond else -metres))
        assert at.code[0] == reasons.OK
        assert _inverse(at.lat[0], at.lon[0], *want[:2])[2] < MM


def test_a_route_on_the_equator_by_hand():
    """Legs of 1 degree along the equator are 60.1081 NM each: 6 378 137 m times 1 degree (WGS 84's semi-major axis)."""
    degree = 6378137.0 * math.pi / 180.0 / NM
    route = Route([178.0, 179.0, -180.0, -179.0], [0.0] * 4)
    assert route.leg_nm == pytest.approx([degree] * 3)
    at = route.from_vertex(2, [0.5 * degree, 1.5 * degree, 0.5 * degree], [True, True, False])
    assert at.lon == pytest.approx([179.5, -179.5, 178.5])
    assert at.course_deg == pytest.approx([90.0] * 3)
    assert at.leg.tolist() == [1, 2, 0]


# --- courses on both sides


def _courses_at(i: int) -> tuple[float, float]:
    """Course at the end of the leg before vertex i and at the start of the leg after it."""
    before = _inverse(LAT[i - 1], LON[i - 1], LAT[i], LON[i])[1]
    after = _inverse(LAT[i], LON[i], LAT[i + 1], LON[i + 1])[0]
    return before % 360.0, after % 360.0


@pytest.mark.parametrize("off_m", [0.0, -0.5, 0.5, -1e-6, 1e-6])
def test_both_courses_at_a_vertex(off_m):
    """At a vertex, within a metre of it, the course before it and the course after it; elsewhere they are one."""
    route = Route(LON, LAT)
    for i in (1, 2):
        at = route.at(route.start_nm[i] + off_m / NM)
        assert (at.course_deg[0], at.course_after_deg[0]) == pytest.approx(_courses_at(i), abs=1e-4)
    at = route.at(route.start_nm[1] + np.array([-5.0, 5.0]) / NM)
    assert at.course_deg == pytest.approx(at.course_after_deg)
    assert at.course_deg == pytest.approx(_courses_at(1), abs=1e-4)


def test_the_ends_have_one_course():
    route = Route(LON, LAT)
    at = route.at([0.0, route.start_nm[-1]])
    assert at.code.tolist() == [0, 0]
    assert at.course_deg == pytest.approx(at.course_after_deg)
    assert at.course_deg[0] == pytest.approx(_inverse(LAT[0], LON[0], LAT[1], LON[1])[0])
    assert at.course_deg[1] == pytest.approx(_inverse(LAT[2], LON[2], LAT[3], LON[3])[1] % 360.0)
    assert (at.lat[1], at.lon[1]) == pytest.approx((LAT[3], LON[3]), abs=1e-9)


def test_off_the_ends():
    route = Route(LON, LAT)
    at = route.at([-0.001, route.start_nm[-1] + 0.001, np.nan, 10.0])
    assert at.code.tolist() == [reasons.OFF_ROUTE] * 3 + [reasons.OK]
    assert np.isnan(at.lat[:3]).all() and np.isnan(at.from_start_nm[:3]).all() and np.isfinite(at.lat[3])


def test_a_vertex_that_is_none():
    route = Route(LON, LAT)
    at = route.from_vertex([0, 5, -1, 1.5, np.nan, 4], 1.0, [True, True, True, True, True, False])
    assert at.code.tolist() == [reasons.NO_VERTEX] * 5 + [reasons.OK]
    assert np.isnan(at.lat[:5]).all()


# --- abeam


def _distance_at(lon, lat, metres, point) -> float:
    at = _walk(lon, lat, metres)
    return _inverse(at[0], at[1], *point)[2]


@settings(max_examples=60)
@given(chains(), st.floats(0.02, 0.98), st.floats(0.2, 60.0), st.sampled_from([-1.0, 1.0]))
def test_abeam_of_a_point_beside_a_leg(chain, share, off_nm, side):
    """A point set off at a right angle from a known place: the foot is that place, the angle there 90 degrees."""
    lon, lat = chain
    starts = _starts(lon, lat)
    leg = int(np.searchsorted(starts, share * starts[-1], side="right")) - 1
    here = _walk(lon, lat, share * starts[-1])
    out = WGS84.Direct(here[0], here[1], here[2] + 90.0 * side, off_nm * NM)
    point = out["lat2"], out["lon2"]
    owner, at, apart = Route(lon, lat).abeam(point[1], point[0], 400.0)
    assert set(owner.tolist()) == {0} and (at.code == reasons.OK).all()
    assert np.min(np.abs(at.from_start_nm * NM - share * starts[-1])) < 0.01
    found = set()
    for i in range(len(owner)):
        metres, place = at.from_start_nm[i] * NM, (at.lat[i], at.lon[i])
        azimuth, _, dist = _inverse(*place, *point)
        assert apart[i] * NM == pytest.approx(dist, abs=MM)
        if np.min(np.abs(starts - metres)) > 2.0:
            angle = abs(_wrap(azimuth - at.course_deg[i]))
            assert abs(angle - 90.0) < 1e-6 or abs(math.radians(angle - 90.0)) * dist < MM
            step = min(50.0, np.min(np.abs(starts - metres)))  # on the same leg
            assert _distance_at(lon, lat, metres - step, point) >= dist - MM
            assert _distance_at(lon, lat, metres + step, point) >= dist - MM
        found.add(int(at.leg[i]))
    assert leg in found or np.min(np.abs(starts - share * starts[-1])) < 1.0


def test_abeam_within_a_distance():
    """One point 12 NM north of the middle of a leg along the equator, one 30 NM: by the distance allowed."""
    route = Route([10.0, 12.0], [0.0, 0.0])
    north = [WGS84.Direct(0.0, 11.0, 0.0, nm * NM)["lat2"] for nm in (12.0, 30.0)]
    for within, count in ((11.9, 0), (12.1, 1), (29.9, 1), (30.1, 2)):
        owner, at, apart = route.abeam([11.0, 11.0], north, within)
        assert owner.tolist() == list(range(count))
        assert at.lon == pytest.approx([11.0] * count, abs=1e-9) and at.lat == pytest.approx([0.0] * count, abs=1e-9)
        assert apart == pytest.approx([12.0, 30.0][:count], abs=1e-6)


def test_a_point_past_the_ends_or_outside_a_bend_is_not_abeam():
    route = Route([10.0, 11.0, 11.0], [0.0, 0.0, 1.0])
    owner, _, _ = route.abeam([9.9, 11.2, 11.0, 10.5], [0.1, -0.2, 1.1, 0.3], 60.0)
    assert sorted(owner.tolist()) == [3, 3]  # abeam of both legs inside the bend
    owner, at, _ = route.abeam(10.5, -0.3, 60.0)
    assert owner.tolist() == [0] and at.leg.tolist() == [0]


@pytest.mark.parametrize("vertex", [0, 1, 2, 3])
def test_a_point_at_a_vertex_is_abeam_of_it_once(vertex):
    """Routes run from navaid to navaid."""
    owner, at, apart = Route(LON, LAT).abeam(LON[vertex], LAT[vertex], 1.0)
    assert owner.tolist() == [0]
    assert apart[0] * NM < MM
    assert _inverse(at.lat[0], at.lon[0], LAT[vertex], LON[vertex])[2] < MM
    if 0 < vertex < 3:
        assert (at.course_deg[0], at.course_after_deg[0]) == pytest.approx(_courses_at(vertex), abs=1e-4)


def test_abeam_over_the_antimeridian():
    route = Route([179.5, -179.5], [-20.0, -20.0])
    at_edge = _walk(route.lon, route.lat, route.start_nm[-1] * NM / 2.0)
    out = WGS84.Direct(at_edge[0], at_edge[1], at_edge[2] - 90.0, 8.0 * NM)
    owner, at, apart = route.abeam([out["lon2"], 0.0], [out["lat2"], 50.0], 10.0)
    assert owner.tolist() == [0] and apart[0] == pytest.approx(8.0, abs=1e-6)
    assert abs(abs(at.lon[0]) - 180.0) < 1e-6
    assert at.from_start_nm[0] == pytest.approx(route.start_nm[-1] / 2.0, abs=1e-6)


def test_a_row_is_the_same_alone_and_among_others():
    route = Route(LON, LAT)
    lon, lat = np.linspace(9.5, 12.0, 40), np.linspace(51.5, 49.8, 40)
    owner, at, apart = route.abeam(lon, lat, 100.0)
    assert len(owner) > 20
    for i in range(0, 40, 3):
        _, alone, its_apart = route.abeam(lon[i], lat[i], 100.0)
        mine = owner == i
        assert at.lon[mine].tobytes() == alone.lon.tobytes() and apart[mine].tobytes() == its_apart.tobytes()


def test_points_nowhere_and_no_points():
    route = Route(LON, LAT)
    owner, at, apart = route.abeam([np.nan, 10.4], [50.0, np.nan], 100.0)
    assert len(owner) == len(at.lon) == len(apart) == 0
    assert len(route.abeam([], [], 10.0)[0]) == 0
    assert route.at([]).lon.shape == (0,)


# --- vertices


def test_repeated_vertices_keep_their_numbers():
    """A vertex digitised twice gives no leg, and the numbers after it are those that the map shows."""
    twice = Route(np.repeat(LON, [2, 1, 2, 1]), np.repeat(LAT, [2, 1, 2, 1]))
    plain = Route(LON, LAT)
    assert len(twice.leg_nm) == len(plain.leg_nm) == 3
    same = {1: 1, 2: 1, 3: 2, 4: 3, 5: 3, 6: 4}
    for number, original in same.items():
        there, here = twice.from_vertex(number, 1.0, number < 6), plain.from_vertex(original, 1.0, number < 6)
        assert there.lat.tobytes() == here.lat.tobytes()
    assert twice.from_vertex(7, 0.0, True).code[0] == reasons.NO_VERTEX


def test_a_route_digitised_finely_stays_a_route():
    """Vertices half a metre apart, 200 of them."""
    lat = 50.0 + np.arange(200) * 0.5 / 111_000.0
    route = Route(np.full(200, 10.0), lat)
    assert len(route.leg_nm) == 199
    assert route.start_nm[-1] * NM == pytest.approx(_inverse(lat[0], 10.0, lat[-1], 10.0)[2], abs=MM)


@pytest.mark.parametrize(
    ("lon", "lat", "words"),
    [
        ([], [], "two different vertices"),
        ([10.0], [50.0], "two different vertices"),
        ([10.0, 10.0, 10.0], [50.0, 50.0, 50.0], "two different vertices"),
        ([370.0, 10.0], [50.0, 50.0], "two different vertices"),
        ([10.0, np.nan], [50.0, 51.0], "without a position"),
        ([10.0, 11.0], [50.0, np.inf], "without a position"),
    ],
)
def test_what_is_no_route(lon, lat, words):
    with pytest.raises(ValueError, match=words):
        Route(lon, lat)
