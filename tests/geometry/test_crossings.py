"""Crossings measured back: places drawn first, so that the solution exists, and every answer judged by geographiclib.

A place is drawn, stations 1 m to 400 NM from it, and the lines that cross there. Whether another crossing exists is
found by false position along the line with geographiclib, which shares nothing with the solver.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fixwright.geometry import crossings, geodesy, reasons

WGS84 = Geodesic.WGS84
NM = 1852.0
MM = 1e-3
NEAREST_M, FARTHEST_M = 1.0, 400.0 * NM
HAIR_M = 1e-4
"""By so much a place may lie on the other side of a limit, or a line be touched or not."""
LEAST_CUT = 0.1

lons = st.one_of(st.floats(-180.0, 180.0), st.floats(179.0, 180.0), st.floats(-180.0, -179.0))
lats = st.one_of(st.floats(-80.0, 80.0), st.floats(79.0, 80.0), st.floats(-80.0, -79.0))
bearings = st.one_of(st.floats(0.0, 360.0), st.sampled_from([0.0, 90.0, 180.0, 270.0]))
sides = st.sampled_from([-1.0, 1.0])
ends = st.sampled_from([0.0, 180.0])


def _spread(low: float, high: float):
    """Numbers of a range, evenly and by size."""
    by_size = st.floats(math.log(low), math.log(high)).map(lambda x: min(max(math.exp(x), low), high))
    return st.one_of(st.floats(low, high), by_size)


metres = _spread(NEAREST_M + HAIR_M, FARTHEST_M - HAIR_M)
cuts = _spread(LEAST_CUT + 1e-5, 90.0)


def _direct(lat, lon, azimuth, m):
    at = WGS84.Direct(lat, lon, azimuth, m)
    return at["lat2"], at["lon2"], at["azi2"]


def _inverse(one, two):
    line = WGS84.Inverse(*one, *two)
    return line["azi1"], line["azi2"], line["s12"]


def _wrap(angle: float) -> float:
    return math.remainder(angle, 360.0)


def _undirected(angle: float) -> float:
    angle = abs(_wrap(angle))
    return min(angle, 180.0 - angle)


class Radial:
    """The ray from a station m metres away from a place, through the place."""

    def __init__(self, place, bearing: float, m: float) -> None:
        lat, lon, course = _direct(*place, bearing, m)
        self.at, self.azimuth = (lat, lon), course + 180.0
        self.line = WGS84.Line(lat, lon, self.azimuth)

    def off_m(self, place) -> float:
        """How far a place lies off the ray; endless where it lies behind."""
        azimuth, _, dist = _inverse(self.at, place)
        off = math.radians(_wrap(azimuth - self.azimuth))
        return dist * abs(math.sin(off)) if math.cos(off) > 0.0 else math.inf

    def walk(self, m: float):
        at = self.line.Position(m)
        return at["lat2"], at["lon2"], at["azi2"]

    def course(self, place) -> float:
        return _inverse(self.at, place)[1]


class Arc:
    """The geodesic circle round a station m metres away from a place, through the place."""

    def __init__(self, place, bearing: float, m: float) -> None:
        self.at = _direct(*place, bearing, m)[:2]
        self.radius = m

    def off_m(self, place) -> float:
        return abs(_inverse(self.at, place)[2] - self.radius)

    def course(self, place) -> float:
        return _inverse(self.at, place)[1] + 90.0


def _args(line):
    lat, lon = line.at
    return lon, lat, line.azimuth if isinstance(line, Radial) else line.radius / NM


def _check(at: crossings.Crossing, one, two) -> tuple[float, float]:
    """Measure a crossing back: both lines within 1 mm, and its own figures; gives the place."""
    place = float(at.lat[0]), float(at.lon[0])
    assert one.off_m(place) < MM and two.off_m(place) < MM
    assert -180.0 < place[1] <= 180.0
    for line, told in ((one, at.first_nm), (two, at.second_nm)):
        dist = _inverse(line.at, place)[2]
        assert told[0] * NM == pytest.approx(dist, abs=MM)
        assert NEAREST_M - MM < dist < FARTHEST_M + MM
    return place


def _cut_is_told(at, one, two, place) -> None:
    """The angle at the place between both lines; it counts as far as a millimetre lets it be measured."""
    nearest = min(_inverse(line.at, place)[2] for line in (one, two))
    told, cut = float(at.cut_deg[0]), _undirected(one.course(place) - two.course(place))
    assert told == pytest.approx(cut, abs=1e-6 + math.degrees(MM / nearest))


def _is_the_place(found, place, cut: float) -> bool:
    return _inverse(found, place)[2] * math.sin(math.radians(cut)) < MM


# --- two radials


@settings(max_examples=700)
@given(lons, lats, bearings, cuts, sides, ends, metres, metres)
def test_two_radials(lon, lat, bearing, cut, side, end, first_m, second_m):
    place = lat, lon
    one, two = Radial(place, bearing, first_m), Radial(place, bearing + side * cut + end, second_m)
    at = crossings.radial_radial(*_args(one), *_args(two))
    if _inverse(one.at, two.at)[2] < NEAREST_M + HAIR_M:
        assert at.code[0] in (reasons.SAME_STATION, reasons.OK)
        assume(at.code[0] == reasons.OK)
    assert at.code[0] == reasons.OK
    found = _check(at, one, two)
    assert _is_the_place(found, place, cut)
    _cut_is_told(at, one, two, found)


# --- radial and arc


def _root(rising, low: float, high: float) -> float:
    """Where a function that rises from below 0 at low to above it at high is 0: false position between two sides."""
    below, above = rising(low), rising(high)
    assert below <= 0.0 <= above
    last = 0
    for _ in range(200):
        at = (low * above - high * below) / (above - below) if above > below else low
        value = rising(at)
        if abs(value) < 1e-8 or high - low < 1e-7:
            return at
        if value > 0.0:
            high, above, below = at, value, below / (2.0 if last > 0 else 1.0)
            last = 1
        else:
            low, below, above = at, value, above / (2.0 if last < 0 else 1.0)
            last = -1
    return (low + high) / 2.0


def _foot(ray: Radial, centre) -> tuple[float, float]:
    """Way along the ray to where it passes nearest to a centre, and that distance: where the distance stops falling."""

    def nears(m: float) -> float:
        at = ray.walk(m)
        azimuth, _, dist = _inverse(at[:2], centre)
        return -math.cos(math.radians(azimuth - at[2])) * dist

    reach = _inverse(ray.at, centre)[2] + 1.0
    foot = _root(nears, -reach, reach)
    return foot, _inverse(ray.walk(foot)[:2], centre)[2]


@settings(max_examples=650)
@given(lons, lats, bearings, cuts, sides, ends, metres, metres)
def test_a_radial_and_an_arc(lon, lat, bearing, cut, side, end, first_m, radius_m):
    """All crossings in front and in range, and no other; the nearer along the radial first."""
    place = lat, lon
    ray, arc = Radial(place, bearing, first_m), Arc(place, bearing + 90.0 + side * cut + end, radius_m)
    found = crossings.radial_arc(*_args(ray), *_args(arc))
    solutions = [_check(at, ray, arc) for at in found if at.code[0] == reasons.OK]
    foot, least = _foot(ray, arc.at)
    if least > radius_m - MM - HAIR_M:  # touching: one solution, which meets both lines, at the foot
        out_of_range = min(foot, least) < NEAREST_M + HAIR_M or foot > FARTHEST_M - HAIR_M
        assert len(solutions) == 1 or least < radius_m - MM + HAIR_M or out_of_range
        return
    assert any(_is_the_place(at, place, cut) for at in solutions)
    assert found[0].code[0] == reasons.OK
    expected = []
    for way in (-1.0, 1.0):
        beyond = _root(lambda m, way=way: _inverse(ray.walk(foot + way * m)[:2], arc.at)[2] - radius_m,
                       0.0, radius_m + least + 1.0)  # fmt: skip
        m = foot + way * beyond
        assume(min(abs(m - NEAREST_M), abs(m - FARTHEST_M)) > HAIR_M)
        at = ray.walk(m)
        its_cut = _undirected(at[2] - arc.course(at[:2]))
        assume(abs(its_cut - LEAST_CUT) > 1e-5)
        if NEAREST_M < m < FARTHEST_M and its_cut > LEAST_CUT:
            expected.append(at[:2])
    assert len(solutions) == len(expected)
    for at, good in zip(solutions, expected):
        assert _inverse(at, good)[2] * math.sin(math.radians(min(cut, 90.0))) < 2.0 * MM
    for at in found:
        if at.code[0] == reasons.OK:
            _cut_is_told(at, ray, arc, (float(at.lat[0]), float(at.lon[0])))
        else:
            assert at.code[0] in (reasons.BEHIND_STATION, reasons.CROSSING_RANGE, reasons.LINES_PARALLEL)


# --- two arcs


@settings(max_examples=650)
@given(lons, lats, bearings, cuts, sides, ends, metres, metres)
def test_two_arcs(lon, lat, bearing, cut, side, end, first_m, second_m):
    """Two crossings, left and right of the line from the first centre to the second, in that order."""
    place = lat, lon
    one, two = Arc(place, bearing, first_m), Arc(place, bearing + side * cut + end, second_m)
    base, _, apart = _inverse(one.at, two.at)
    assume(apart > NEAREST_M + HAIR_M)
    found = crossings.arc_arc(*_args(one), *_args(two))
    solutions = [_check(at, one, two) for at in found if at.code[0] == reasons.OK]
    over = max(apart - first_m - second_m, abs(first_m - second_m) - apart)
    if over > -MM - HAIR_M:  # touching: one solution, which meets both lines
        assert len(solutions) == 1 or over < -MM + HAIR_M
        return
    assert any(_is_the_place(at, place, cut) for at in solutions)
    if cut > 0.101:  # a mirror image cuts by the same angle but for the earth's shape
        assert len(solutions) == 2
    for at, left in zip(found, (True, False)):
        if at.code[0] != reasons.OK:
            assert at.code[0] == reasons.LINES_PARALLEL
            continue
        there = float(at.lat[0]), float(at.lon[0])
        off_m = math.sin(math.radians(_wrap(_inverse(one.at, there)[0] - base))) * first_m
        assert off_m < 0.0 if left else off_m > 0.0
        _cut_is_told(at, one, two, there)


# --- touching


@settings(max_examples=60)
@given(lons, lats, bearings, _spread(1e3, 3e5), _spread(1e3, 3e5), st.floats(-8e-4, 8e-4))
def test_touching_within_a_millimetre_is_one_solution(lon, lat, bearing, first_m, second_m, miss_m):
    """A ray that passes an arc, and arcs beside and inside one another, up to 0.8 mm short of or over touching."""
    place = lat, lon
    assume(abs(first_m - second_m) > 10.0)
    ray = Radial(place, bearing, first_m)
    arc = Arc(place, bearing + 90.0, second_m)
    cases = [(crossings.radial_arc, ray, arc)]
    one = Arc(place, bearing, first_m)
    cases += [(crossings.arc_arc, one, Arc(place, bearing + turn, second_m)) for turn in (180.0, 0.0)]
    for solve, line, other in cases:
        other.radius += miss_m
        touching, none = solve(*_args(line), *_args(other))
        assert touching.code[0] == reasons.OK and none.code[0] == reasons.ARC_NOT_REACHED
        found = float(touching.lat[0]), float(touching.lon[0])
        assert line.off_m(found) < MM and other.off_m(found) < MM
        assert _inverse(found, place)[2] < 2.0 * MM
        other.radius = second_m - 3e-3
        missed = solve(*_args(line), *_args(other))
        if not (other is cases[2][2] and second_m > first_m):  # a smaller ring round the first arc crosses it
            assert [at.code[0] for at in missed] == [reasons.ARC_NOT_REACHED] * 2


def test_the_touching_point_of_a_small_arc_beside_a_large_one():
    """The small arc lies outside the large one: it touches between the centres, not on its far side."""
    for small, large in ((1.0, 30.0), (5.0, 20.0), (12.0, 13.0)):
        lon, lat, _ = (float(v) for v in geodesy.direct(10.0, 50.0, 40.0, small + large))
        for first, second in (((10.0, 50.0, small), (lon, lat, large)), ((lon, lat, large), (10.0, 50.0, small))):
            at, _ = crossings.arc_arc(*first, *second)
            assert at.code[0] == reasons.OK
            assert _inverse((50.0, 10.0), (float(at.lat[0]), float(at.lon[0])))[2] == pytest.approx(small * NM, abs=MM)
            assert _inverse((lat, lon), (float(at.lat[0]), float(at.lon[0])))[2] == pytest.approx(large * NM, abs=MM)
            assert (at.first_nm[0], at.second_nm[0]) == pytest.approx((first[2], second[2]), abs=1e-6)


# --- why there is none


def _east(nm: float, lat: float = 50.0) -> tuple[float, float]:
    lon, lat, _ = geodesy.direct(10.0, lat, 90.0, nm)
    return float(lon), float(lat)


def _towards(place, lon: float, lat: float) -> tuple[float, float, float]:
    """A ray from a station through a place."""
    return lon, lat, float(geodesy.inverse(lon, lat, *place)[0])


FAR = _east(20.0)
BEYOND = tuple(float(v) for v in geodesy.direct(10.0, 50.0, 0.0, 410.0)[:2])
ALONG = float(geodesy.inverse(10.0, 50.0, *FAR)[1])
RADIALS = [
    # what, azimuth of the first from 50 N 10 E, second station and azimuth, code
    ("one line, one way", 90.0, (*FAR, ALONG), reasons.LINES_PARALLEL),
    ("one line, towards each other", 90.0, (*FAR, ALONG + 180.0), reasons.LINES_PARALLEL),
    ("side by side", 0.0, (*FAR, 0.0), reasons.CROSSING_RANGE),
    ("a twentieth of a degree", 0.0, (10.0, 51.0, 180.05), reasons.LINES_PARALLEL),
    ("behind the first", 180.0, (*FAR, 315.0), reasons.BEHIND_STATION),
    ("behind the second", 45.0, (*FAR, 135.0), reasons.BEHIND_STATION),
    ("behind both", 225.0, (*FAR, 135.0), reasons.BEHIND_STATION),
    ("at the second station", 90.0, (*FAR, 0.0), reasons.BEHIND_STATION),
    ("at the first station", 30.0, _towards((10.0, 50.0), *FAR), reasons.BEHIND_STATION),
    ("410 NM away", 0.0, _towards(BEYOND, *_east(200.0)), reasons.CROSSING_RANGE),
    ("one station", 0.0, (10.0, 50.0, 90.0), reasons.SAME_STATION),
    ("stations half a metre apart", 0.0, (10.000007, 50.0, 270.0), reasons.SAME_STATION),
    ("no station", 0.0, (np.nan, 50.0, 90.0), reasons.CROSSING_NOT_SOLVED),
    ("no azimuth", np.nan, (*FAR, 90.0), reasons.CROSSING_NOT_SOLVED),
]


@pytest.mark.parametrize(("what", "azimuth", "second", "code"), RADIALS, ids=[row[0] for row in RADIALS])
def test_why_two_radials_do_not_cross(what, azimuth, second, code):
    at = crossings.radial_radial(10.0, 50.0, azimuth, *second)
    assert at.code[0] == code
    assert all(np.isnan(v[0]) for v in at[:5])


ARCS = [
    ("behind the station", (180.0, (10.0, 51.0), 20.0), [reasons.BEHIND_STATION] * 2),
    ("past the centre", (90.0, (10.0, 51.0), 20.0), [reasons.ARC_NOT_REACHED] * 2),
    ("one in front", (0.0, (10.0, 50.1), 20.0), [reasons.OK, reasons.BEHIND_STATION]),
    ("round the station itself", (77.0, (10.0, 50.0), 20.0), [reasons.OK, reasons.BEHIND_STATION]),
    ("one in range", (0.0, (10.0, 56.0), 100.0), [reasons.OK, reasons.CROSSING_RANGE]),
    ("none in range", (0.0, (10.0, 58.0), 60.0), [reasons.CROSSING_RANGE] * 2),
    ("too large", (0.0, (10.0, 50.0), 401.0), [reasons.BEHIND_STATION, reasons.CROSSING_RANGE]),
    ("no radius", (0.0, (10.0, 51.0), np.nan), [reasons.CROSSING_NOT_SOLVED] * 2),
    ("no centre", (0.0, (np.nan, 51.0), 20.0), [reasons.CROSSING_NOT_SOLVED] * 2),
]


@pytest.mark.parametrize(("what", "lines", "codes"), ARCS, ids=[row[0] for row in ARCS])
def test_why_a_radial_and_an_arc_do_not_cross(what, lines, codes):
    azimuth, centre, radius = lines
    found = crossings.radial_arc(10.0, 50.0, azimuth, *centre, radius)
    assert [at.code[0] for at in found] == codes
    for at in found:
        assert at.code[0] == reasons.OK or all(np.isnan(v[0]) for v in at[:5])


def test_a_ray_along_an_arc_is_nearly_parallel():
    """Two metres inside touching, the cut is under 0.1 degree on a large arc: 2 m of 300 NM."""
    place = 50.0, 10.0
    ray, arc = Radial(place, 200.0, 60.0 * NM), Arc(place, 290.0, 300.0 * NM)
    arc.radius += 0.2
    assert [at.code[0] for at in crossings.radial_arc(*_args(ray), *_args(arc))] == [reasons.LINES_PARALLEL] * 2
    arc.radius += 5.0
    assert [at.code[0] for at in crossings.radial_arc(*_args(ray), *_args(arc))] == [reasons.OK] * 2
    one, two = Arc(place, 20.0, 300.0 * NM), Arc(place, 200.0, 300.0 * NM)
    two.radius += 0.2
    assert [at.code[0] for at in crossings.arc_arc(*_args(one), *_args(two))] == [reasons.LINES_PARALLEL] * 2
    two.radius += 5.0
    assert [at.code[0] for at in crossings.arc_arc(*_args(one), *_args(two))] == [reasons.OK] * 2


def test_why_two_arcs_do_not_cross():
    one = (10.0, 50.0)
    for second, radii, code in (
        ((10.0, 51.0), (20.0, 30.0), reasons.ARC_NOT_REACHED),  # too far apart
        ((10.0, 50.1), (20.0, 30.0), reasons.ARC_NOT_REACHED),  # one inside the other
        ((10.0, 50.1), (30.0, 20.0), reasons.ARC_NOT_REACHED),
        ((10.0, 50.0), (20.0, 20.0), reasons.SAME_STATION),
        ((10.000007, 50.0), (20.0, 20.0), reasons.SAME_STATION),
        ((10.0, 57.0), (401.0, 100.0), reasons.CROSSING_RANGE),
        ((10.0, 57.0), (100.0, 401.0), reasons.CROSSING_RANGE),
        ((10.0, 51.0), (np.nan, 30.0), reasons.CROSSING_NOT_SOLVED),
        ((10.0, np.nan), (30.0, 30.0), reasons.CROSSING_NOT_SOLVED),
    ):
        found = crossings.arc_arc(*one, radii[0], *second, radii[1])
        assert [at.code[0] for at in found] == [code] * 2, (second, radii)
        assert all(np.isnan(v[0]) for at in found for v in at[:5])


def test_a_step_too_far_is_halved():
    """Where the distance hardly rises at the start, Newton's step leaves the way: a cube, its root 0.1 of 10."""

    def cube(rows, x):
        nothing = np.zeros(len(x))
        return nothing, nothing, x**3, 3.0 * x**2, nothing

    start = np.array([1e-3, 0.3])
    x, *_ = crossings._slide(cube, np.full(2, 1e-3), start, np.full(2, 10.0), np.zeros(2, bool))
    assert x == pytest.approx([0.1, 0.1], abs=1e-7)


# --- shapes and rows


def _many(count: int = 300):
    """Random lines of every kind; some rows have no crossing."""
    rng = np.random.default_rng(7)
    lon, lat = rng.uniform(-180.0, 180.0, count), rng.uniform(-80.0, 80.0, count)
    bearing, radius = rng.uniform(0.0, 360.0, (2, count)), rng.uniform(1.0, 150.0, (2, count))
    stations = [geodesy.direct(lon, lat, b, r) for b, r in zip(bearing, radius)]
    azimuth = [at[2] + np.where(rng.random(count) < 0.2, 90.0, 180.0) for at in stations]
    radius *= np.where(rng.random(count) < 0.2, 0.3, 1.0)
    return stations[0][:2], stations[1][:2], azimuth, radius


def _solved(rows):
    (lon, lat), (lon2, lat2), azimuth, radius = _many()
    one, two = (lon[rows], lat[rows]), (lon2[rows], lat2[rows])
    return [
        crossings.radial_radial(*one, azimuth[0][rows], *two, azimuth[1][rows]),
        *crossings.radial_arc(*one, azimuth[0][rows], *two, radius[1][rows]),
        *crossings.arc_arc(*one, radius[0][rows], *two, radius[1][rows]),
    ]


def test_a_row_is_the_same_alone_and_among_others():
    whole = _solved(slice(None))
    for at in whole:
        assert 30 < np.count_nonzero(at.code == reasons.OK) < 300
    for i in range(0, 300, 7):
        for at, alone in zip(whole, _solved(slice(i, i + 1))):
            assert [v[i].tobytes() for v in at] == [v[0].tobytes() for v in alone]


def test_a_spoilt_row_spoils_no_other():
    (lon, lat), (lon2, lat2), azimuth, _ = _many()
    spoilt = lon.copy()
    spoilt[5] = np.nan
    at, good = (crossings.radial_radial(x, lat, azimuth[0], lon2, lat2, azimuth[1]) for x in (spoilt, lon))
    others = np.arange(300) != 5
    assert at.code[5] != reasons.OK
    for a, b in zip(at, good):
        assert np.array_equal(a[others], b[others], equal_nan=True)


def test_lines_broadcast():
    azimuths = np.array([50.0, 62.0, 70.0])
    at = crossings.radial_radial(10.0, 50.0, azimuths, 10.9, 50.5, 171.0)
    assert at.lon.shape == at.code.shape == (3,) and at.code.dtype == np.int16
    near, far = crossings.radial_arc(10.0, 50.0, 62.0, 10.9, 50.5, np.array([20.0, 22.0]))
    assert near.lat.shape == far.lat.shape == (2,)


def test_the_order_of_the_stations_changes_the_order_of_the_figures_only():
    (lon, lat), (lon2, lat2), azimuth, radius = _many()
    one = crossings.radial_radial(lon, lat, azimuth[0], lon2, lat2, azimuth[1])
    other = crossings.radial_radial(lon2, lat2, azimuth[1], lon, lat, azimuth[0])
    good = one.code == reasons.OK
    assert np.array_equal(good, other.code == reasons.OK)
    assert np.nanmax(geodesy.inverse(one.lon, one.lat, other.lon, other.lat)[2][good]) * NM < 1e-3
    assert np.allclose(one.first_nm[good], other.second_nm[good], atol=1e-6)
    left, right = crossings.arc_arc(lon, lat, radius[0], lon2, lat2, radius[1])
    right_too, left_too = crossings.arc_arc(lon2, lat2, radius[1], lon, lat, radius[0])
    good = left.code == reasons.OK
    for a, b in ((left, left_too), (right, right_too)):
        assert np.nanmax(geodesy.inverse(a.lon, a.lat, b.lon, b.lat)[2][good]) * NM < 1e-3


def test_no_rows():
    nothing = np.zeros(0)
    assert crossings.radial_radial(*[nothing] * 6).lon.shape == (0,)
    assert [at.lon.shape for at in crossings.radial_arc(*[nothing] * 6)] == [(0,)] * 2
    assert [at.lon.shape for at in crossings.arc_arc(*[nothing] * 6)] == [(0,)] * 2
