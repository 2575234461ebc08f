"""Fix tolerance areas: no place within the accuracy of the aids lies outside, and no smaller polygon would do.

Whether a place lies within the accuracy is judged by geographiclib alone, from the tolerances written out here.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from fixwright.geometry import crossings, reasons
from fixwright.geometry.fixes import Station
from fixwright.geometry.tolerance import accuracy
from fixwright.geometry.tolerance.areas import areas
from fixwright.geometry.tolerance.methods import ARC_ARC, GNSS, OVERHEAD, RADIAL_ARC, RADIAL_RADIAL

NM = 1852.0
FT_PER_NM = 1852.0 / 0.3048
WGS84 = Geodesic.WGS84

LATITUDES = st.one_of(st.floats(-85.0, 85.0), st.floats(80.0, 85.0), st.floats(-85.0, -80.0))
LONGITUDES = st.one_of(st.floats(-180.0, 180.0), st.floats(179.0, 180.0), st.floats(-180.0, -179.0))
AZIMUTHS = st.floats(0.0, 360.0)
# ICAO Doc 8168 Vol II, Table I-2-2-1, and FAA Order 8260.3, section on fixes, both from memory: track, crossing.
ANGLES = {
    (0, "VOR/DME"): (5.2, 4.5), (0, "NDB/DME"): (6.9, 6.2), (0, "LOC"): (2.4, 1.4),
    (1, "VOR/DME"): (4.5, 3.6), (1, "NDB/DME"): (5.0, 5.0), (1, "LOC"): (1.0, 0.5),
}  # fmt: skip


def _dme(slant: float, rules: int) -> float:
    """ICAO Doc 8168 Vol I, I-2-2, 2.4.2; FAA Order 8260.3, section on fixes, from memory."""
    return 0.25 + 0.0125 * slant if rules == 0 else max(0.5, 0.03 * slant)


def _wrap(angle: float) -> float:
    return math.remainder(angle, 360.0)


def _direct(lon, lat, azimuth, nm):
    at = WGS84.Direct(lat, lon, azimuth, nm * NM)
    return at["lon2"], at["lat2"], at["azi2"]


def _inverse(lon1, lat1, lon2, lat2):
    line = WGS84.Inverse(lat1, lon1, lat2, lon2)
    return line["azi1"], line["azi2"], line["s12"] / NM


class Radial:
    """A radial through the fix; errors are of the azimuth at the station, over the tolerance."""

    def __init__(self, lon, lat, fix, kind, rules, tracking) -> None:
        self.lon, self.lat, self.kind = lon, lat, kind
        self.value = _inverse(lon, lat, *fix)[0]
        self.tolerance = ANGLES[rules, kind][0 if tracking else 1]

    def error(self, lon, lat) -> float:
        return _wrap(_inverse(self.lon, self.lat, lon, lat)[0] - self.value) / self.tolerance

    def limit(self, share: float) -> float:
        return self.value + share * self.tolerance


class Arc:
    """A DME arc through the fix; errors are of the slant range, over the tolerance."""

    def __init__(self, lon, lat, fix, height_nm, rules) -> None:
        self.lon, self.lat, self.kind, self.height = lon, lat, "VOR/DME", height_nm
        self.value = math.hypot(_inverse(lon, lat, *fix)[2], height_nm)
        self.tolerance = _dme(self.value, rules)

    def error(self, lon, lat) -> float:
        return (math.hypot(_inverse(self.lon, self.lat, lon, lat)[2], self.height) - self.value) / self.tolerance

    def limit(self, share: float) -> float:
        slant = self.value + share * self.tolerance
        return math.sqrt(max(slant**2 - self.height**2, 0.0)) if slant > abs(self.height) else 0.0


class Case:
    """A fix with its two lines, and the area of it."""

    def __init__(self, method, fix, course, lines, rules, alt_ft, same_site, tolerance_m) -> None:
        self.method, self.fix, self.course, self.lines = method, fix, course, lines
        self.rules, self.alt_ft, self.same_site, self.tolerance_m = rules, alt_ft, same_site, tolerance_m
        self.got = self.areas(tolerance_m)
        self.polygon = Polygon(self.got.coords) if len(self.got.coords) else None

    def areas(self, tolerance_m: float):
        one, two = self.lines
        first = Station.of(one.lon, one.lat, 0.0, 0.0, one.kind)
        second = None if self.same_site else Station.of(two.lon, two.lat, 0.0, 0.0, two.kind)
        return areas(self.method, first, second, *self.fix, self.course,
                               alt_ft=self.alt_ft, rules=self.rules, tolerance_m=tolerance_m)  # fmt: skip

    def worst(self, lon, lat) -> float:
        return max(abs(line.error(lon, lat)) for line in self.lines)

    def contains(self, lon, lat) -> bool:
        return self.polygon.covers(Point(self.fix[0] + _wrap(lon - self.fix[0]), lat))

    def meet(self, share_1: float, share_2: float):
        """The place near the fix with these errors; checked by geographiclib, whoever found it."""
        one, two = self.lines
        places = []
        if self.same_site:
            places = [_direct(one.lon, one.lat, one.limit(share_1), two.limit(share_2))[:2]]
        else:
            solve = (crossings.radial_arc, crossings.radial_radial, crossings.arc_arc)[self.method]
            found = solve(one.lon, one.lat, one.limit(share_1), two.lon, two.lat, two.limit(share_2))
            for at in (found,) if self.method == RADIAL_RADIAL else found:
                if at.code[0] == reasons.OK:
                    places.append((float(at.lon[0]), float(at.lat[0])))
        assert places
        lon, lat = min(places, key=lambda place: _inverse(*self.fix, *place)[2])
        assert one.error(lon, lat) == pytest.approx(share_1, abs=1e-5)
        assert two.error(lon, lat) == pytest.approx(share_2, abs=1e-5)
        return lon, lat


@st.composite
def cases(draw, methods=(RADIAL_ARC, RADIAL_RADIAL, ARC_ARC), tolerance_m=5.0, latitudes=LATITUDES):
    """Two invented aids 5 to 45 NM from a fix, at a cut that lets all limits cross, and a course on a line or not."""
    method, rules = draw(st.sampled_from(methods)), draw(st.sampled_from([0, 1]))
    fix = (draw(LONGITUDES), draw(latitudes))
    bearing, apart = draw(AZIMUTHS), draw(st.floats(5.0, 45.0))
    same_site = method == RADIAL_ARC and draw(st.booleans())
    between = draw(st.floats(40.0, 140.0)) * draw(st.sampled_from([-1.0, 1.0]))
    if method == RADIAL_ARC:  # the arc crosses the radial at right angles where its centre lies on the radial
        between = draw(st.sampled_from([0.0, 180.0])) + draw(st.floats(-40.0, 40.0))
    alt_ft = draw(st.floats(0.0, 20000.0))
    place_1 = _direct(*fix, bearing, apart)[:2]
    place_2 = place_1 if same_site else _direct(*fix, bearing + between, draw(st.floats(5.0, 45.0)))[:2]
    assume(abs(place_1[1]) <= 85.0 and abs(place_2[1]) <= 85.0)
    kinds = [draw(st.sampled_from(["VOR/DME", "NDB/DME", "LOC"])) for _ in range(2)]
    flown = draw(st.sampled_from(["first", "second", "neither"]))
    along = [_inverse(*place, *fix)[1] for place in (place_1, place_2)]
    off = draw(st.floats(-4.9, 4.9))
    turn = draw(st.sampled_from([0.0, 180.0]))
    course = {"first": along[0] + off, "second": along[1] + off, "neither": along[0] + 25.0}[flown] + turn
    on_second = method == RADIAL_RADIAL and flown == "second"
    height = alt_ft / FT_PER_NM
    lines = [
        Arc(*place, fix, height, rules) if arc else Radial(*place, fix, kind, rules, tracking)
        for place, arc, kind, tracking in zip(
            (place_1, place_2), (method == ARC_ARC, method != RADIAL_RADIAL), kinds, (not on_second, on_second)
        )
    ]
    if same_site:
        lines[0].kind = "VOR/DME" if kinds[0] == "LOC" else kinds[0]
        lines[0].tolerance = ANGLES[rules, lines[0].kind][0]
    assume(not (flown == "neither" and method == RADIAL_RADIAL and abs(_wrap(2.0 * (course - along[1])) / 2.0) < 6.0))
    assume(all(not isinstance(line, Arc) or line.value - line.tolerance > height + 0.2 for line in lines))
    case = Case(method, fix, course, lines, rules, alt_ft, same_site, tolerance_m)
    assume(case.got.code[0] == reasons.OK)
    return case


def test_most_cases_are_good():
    """The assumption on the code above must not empty the tests: a fair fix has an area."""
    for method in (RADIAL_ARC, RADIAL_RADIAL, ARC_ARC):
        fix = (170.0, -60.0)
        one, two = _direct(*fix, 40.0, 20.0)[:2], _direct(*fix, 40.0 if method == RADIAL_ARC else 120.0, 30.0)[:2]
        first, second = Station.of(*one, 0.0, 0.0, "VOR/DME"), Station.of(*two, 0.0, 0.0, "VOR/DME")
        assert areas(method, first, second, *fix, 220.0, alt_ft=6000.0).code[0] == reasons.OK


@given(case=cases(), shares=st.lists(st.tuples(st.floats(-1.3, 1.3), st.floats(-1.3, 1.3)), min_size=40, max_size=40))
@settings(max_examples=120)
def test_every_place_within_the_accuracy_lies_inside(case, shares):
    """Places drawn over the area's box; those whose errors geographiclib finds within both tolerances are inside."""
    got = case.got
    ahead, behind = got.along_ahead_nm[0], got.along_behind_nm[0]
    left, right = got.across_left_nm[0], got.across_right_nm[0]
    for a, b in shares:
        u, s = a * (ahead if a > 0.0 else behind), b * (right if b > 0.0 else left)
        lon, lat, _ = _direct(*case.fix, case.course + math.degrees(math.atan2(s, u)), math.hypot(u, s))
        if case.worst(lon, lat) <= 1.0:
            assert case.contains(lon, lat)
    for corner in case.got.corners[0]:
        assert case.worst(*corner) == pytest.approx(1.0, abs=1e-5)
        assert case.contains(*corner)
    for share in np.linspace(-1.0, 1.0, 9):
        for at in ((1.0, share), (-1.0, share), (share, 1.0), (share, -1.0)):
            assert case.contains(*case.meet(*at))
    assert case.contains(*case.fix)


@given(case=cases(tolerance_m=0.2))
@settings(max_examples=100)
def test_a_place_just_beyond_a_limit_lies_outside(case):
    """1 % of the tolerance beyond, in the middle of each edge."""
    for at in ((1.01, 0.0), (-1.01, 0.0), (0.0, 1.01), (0.0, -1.01), (1.01, 0.7), (-0.7, -1.01)):
        assert not case.contains(*case.meet(*at))
    for at in ((0.99, 0.0), (-0.99, 0.0), (0.0, 0.99), (0.0, -0.99)):
        assert case.contains(*case.meet(*at))


def _in_frame(fix, course, coords) -> np.ndarray:
    out = []
    for lon, lat in coords:
        azimuth, _, nm = _inverse(*fix, lon, lat)
        angle = math.radians(azimuth - course)
        out.append((nm * math.cos(angle), nm * math.sin(angle)))
    return np.array(out)


@given(case=cases())
@settings(max_examples=25)
def test_the_polygon_exceeds_the_area_by_no_more_than_the_tolerance(case):
    """Against the same area drawn a hundred times as finely, in metres round the fix."""
    fine = case.areas(case.tolerance_m / 100.0)
    np.testing.assert_allclose(fine.corners, case.got.corners, rtol=0.0, atol=1e-9)
    coarse = Polygon(_in_frame(case.fix, case.course, case.got.coords) * NM)
    exact = Polygon(_in_frame(case.fix, case.course, fine.coords) * NM)
    assert coarse.is_valid and exact.is_valid
    assert coarse.buffer(0.01).covers(exact)
    assert exact.buffer(case.tolerance_m).covers(coarse)


@given(case=cases())
@settings(max_examples=40)
def test_half_widths_and_area_are_those_of_the_polygon(case):
    """Frame by geographiclib; area between the vertices by geographiclib's own polygon."""
    got = case.got
    frame = _in_frame(case.fix, case.course, got.coords)
    expected = [frame[:, 0].max(), -frame[:, 0].min(), -frame[:, 1].min(), frame[:, 1].max()]
    widths = [got.along_ahead_nm[0], got.along_behind_nm[0], got.across_left_nm[0], got.across_right_nm[0]]
    np.testing.assert_allclose(widths, expected, rtol=0.0, atol=1e-6)
    ring = WGS84.Polygon()
    for lon, lat in got.coords[:-1]:
        ring.AddPoint(lat, lon)
    assert got.area_nm2[0] == pytest.approx(abs(ring.Compute()[2]) / NM**2, rel=1e-5)
    assert got.coords[0] == pytest.approx(got.coords[-1], abs=0.0)
    assert np.all(np.abs(got.coords[:, 0] - case.fix[0]) < 180.0)


def _in_frame(fix, course, coords) -> np.ndarray:
    """Frame of the inbound course, s to the right, NM; by geographiclib."""
    out = []
    for lon, lat in coords:
        azimuth, _, nm = _inverse(*fix, lon, lat)
        angle = math.radians(azimuth - course)
        out.append((nm * math.cos(angle), nm * math.sin(angle)))
    return np.array(out)


# Cone, entry angle; 5 degrees of tracking: Doc 8168 Vol II p. I-2-2-4.
CONES = {"VOR": (50.0, math.degrees(math.asin(0.033 / (0.164 * math.tan(math.radians(50.0)))))), "NDB": (40.0, 15.0)}


@given(
    st.sampled_from(sorted(CONES)), LONGITUDES, st.floats(-85.0, 85.0), AZIMUTHS, st.floats(500.0, 40000.0),
    st.lists(st.tuples(st.floats(-1.2, 1.2), st.floats(-1.2, 1.2)), min_size=40, max_size=40),
)  # fmt: skip
@settings(max_examples=60)
def test_overhead(kind, lon, lat, course, height_ft, shares):
    """Inside: not beyond the cone, and between the lines that leave the entry points 5 degrees outwards."""
    cone, eta = CONES[kind]
    z = 0.164 * height_ft / 1000.0 * math.tan(math.radians(cone))
    got = areas(OVERHEAD, Station.of(lon, lat, 300.0, 0.0, kind), None, lon, lat, course,
                          alt_ft=height_ft + 300.0, tolerance_m=0.2)  # fmt: skip
    polygon = Polygon(got.coords)
    entry, tangent = math.radians(eta), math.tan(math.radians(5.0))

    def beyond(u, s) -> float:
        """Metres outside, about; negative inside."""
        line = z * math.sin(entry) + (u + z * math.cos(entry)) * tangent
        return max(math.hypot(u, s) - z, (abs(s) - line) * math.cos(math.radians(5.0))) * NM

    def contains(u, s) -> bool:
        place = _direct(lon, lat, course + math.degrees(math.atan2(s, u)), math.hypot(u, s))
        return polygon.covers(Point(lon + _wrap(place[0] - lon), place[1]))

    for a, b in shares:
        u, s = a * z, b * z
        if beyond(u, s) <= 0.0:
            assert contains(u, s)
        if beyond(u, s) > 0.2:
            assert not contains(u, s)
    assert contains(z, 0.0) and contains(-z, 0.0)
    assert not contains(1.01 * z + 0.0002, 0.0) and not contains(-1.01 * z - 0.0002, 0.0)
    line = z * math.sin(entry) + z * math.cos(entry) * tangent
    assert contains(0.0, line) and contains(0.0, -line)
    assert not contains(0.0, 1.01 * line + 0.0002) and not contains(0.0, -1.01 * line - 0.0002)
    assert got.across_left_nm[0] == pytest.approx(got.across_right_nm[0], abs=1e-6)


@given(LONGITUDES, st.floats(-85.0, 85.0), AZIMUTHS, st.floats(0.1, 20.0), st.floats(0.1, 20.0))
def test_gnss(lon, lat, course, along, across):
    """The rectangle in the frame of the inbound course."""
    got = areas(GNSS, None, None, lon, lat, course, gnss_along_nm=along, gnss_across_nm=across, tolerance_m=1.0)
    frame = Polygon(_in_frame((lon, lat), course, got.coords))
    rectangle = Polygon([(-along, -across), (along, -across), (along, across), (-along, across)])
    assert frame.buffer(1e-7).covers(rectangle)
    assert rectangle.buffer(1.0 / NM).covers(frame)
    corners = _in_frame((lon, lat), course, got.corners[0])
    expected = [(-along, -across), (along, -across), (-along, across), (along, across)]
    np.testing.assert_allclose(corners, expected, rtol=0.0, atol=1e-7)


def _widths(got) -> np.ndarray:
    return np.array([got.along_ahead_nm, got.along_behind_nm, got.across_left_nm, got.across_right_nm, got.area_nm2])


def _area(method, lon, lat, course, place_1, place_2, **more):
    stations = [Station.of(*place, 100.0, 0.0, "VOR/DME") for place in (place_1, place_2)]
    return areas(method, *stations, lon, lat, course, alt_ft=7000.0, tolerance_m=0.1, **more)


@given(st.integers(0, 4), LATITUDES, AZIMUTHS, st.floats(-180.0, 180.0), st.floats(60.0, 120.0))
def test_turned_round_the_axis_and_mirrored(method, lat, bearing, shift, between):
    """The earth is round about its axis, and its hemispheres are alike: left and right change places."""
    if method == RADIAL_ARC:
        between -= 90.0
    place_1, place_2 = _direct(0.0, lat, bearing, 18.0)[:2], _direct(0.0, lat, bearing + between, 25.0)[:2]
    course = bearing + 170.0
    here = _area(method, 0.0, lat, course, place_1, place_2)
    assume(here.code[0] == reasons.OK)
    turned = [(_wrap(x + shift), y) for x, y in (place_1, place_2)]
    there = _area(method, _wrap(shift), lat, course, *turned)
    np.testing.assert_allclose(_widths(there), _widths(here), rtol=0.0, atol=1e-7)
    np.testing.assert_allclose(there.coords[:, 1], here.coords[:, 1], rtol=0.0, atol=1e-9)
    south = [(x, -y) for x, y in (place_1, place_2)]
    mirrored = _area(method, 0.0, -lat, 180.0 - course, *south)
    np.testing.assert_allclose(_widths(mirrored)[[0, 1, 3, 2, 4]], _widths(here), rtol=0.0, atol=1e-6)


def test_across_the_antimeridian_the_ring_stays_in_one_piece():
    place_1, place_2 = _direct(179.99, 10.0, 80.0, 30.0)[:2], _direct(179.99, 10.0, 350.0, 30.0)[:2]
    assert place_1[0] < 0.0
    got = _area(RADIAL_RADIAL, 179.99, 10.0, 260.0, place_1, place_2)
    assert got.coords[:, 0].min() < 180.0 < got.coords[:, 0].max() < 181.0
    assert Polygon(got.coords).is_valid and Polygon(got.coords).area < 0.1


def test_the_aid_that_carries_the_course_has_the_tracking_accuracy():
    """ICAO Doc 8168 Vol II, I-2-2: tracking and crossing aid; along either way; else the first."""
    fix = (10.0, 50.0)
    one, two = _direct(*fix, 240.0, 20.0)[:2], _direct(*fix, 330.0, 20.0)[:2]
    stations = Station.of(*one, kind="VOR"), Station.of(*two, kind="NDB")
    courses = np.array([60.0, 240.0, 64.9, 65.2, 150.0, 330.0, 334.9, 105.0])
    got = areas(RADIAL_RADIAL, *stations, *fix, courses)
    np.testing.assert_array_equal(got.code, 0)
    np.testing.assert_array_equal(got.angle_1_deg, [5.2, 5.2, 5.2, 5.2, 4.5, 4.5, 4.5, 5.2])
    np.testing.assert_array_equal(got.angle_2_deg, [6.2, 6.2, 6.2, 6.2, 6.9, 6.9, 6.9, 6.2])
    assert np.isnan(got.range_1_nm).all() and np.isnan(got.range_2_nm).all()


@given(st.floats(0.5, 3.0), st.floats(0.0, 1.0), AZIMUTHS)
def test_where_the_dme_may_be_overhead_the_sector_starts_at_the_station(slant, share, azimuth):
    """D - d1 not longer than the height: inner radius 0, and the station belongs to the area."""
    tolerated = _dme(slant, 0)
    height = max(slant - tolerated, 0.0) + share * 0.9 * min(tolerated, slant)
    assume(0.05 < height < slant - 0.02)
    lon, lat, course = _direct(10.0, 50.0, azimuth, math.sqrt(slant**2 - height**2))
    station = Station.of(10.0, 50.0, 0.0, 0.0, "VOR/DME")
    got = areas(RADIAL_ARC, station, None, lon, lat, course, alt_ft=height * FT_PER_NM)
    assert got.code[0] == reasons.OK
    polygon = Polygon(got.coords)
    assert polygon.is_valid
    assert polygon.covers(Point(10.0, 50.0))
    np.testing.assert_allclose(got.corners[0][[0, 2]], [[10.0, 50.0]] * 2, rtol=0.0, atol=1e-12)
    outer = math.sqrt((slant + tolerated) ** 2 - height**2)
    assert got.area_nm2[0] == pytest.approx(math.radians(5.2) * outer**2, abs=0.02)
    for off in (-5.1, 0.0, 5.1):
        assert polygon.covers(Point(_direct(10.0, 50.0, azimuth + off, 0.999 * outer)[:2]))


def test_a_dme_ten_metres_away_makes_no_jump():
    """VOR and DME of one site are one station; a little farther apart they are two: the same area, nearly."""
    lon, lat, course = _direct(10.0, 50.0, 40.0, 15.0)
    sites = [_direct(10.0, 50.0, 130.0, metres / NM)[:2] for metres in (0.0, 9.0, 11.0, 40.0)]
    station = Station.of(10.0, 50.0, 0.0, 0.0, "VOR/DME", [s[0] for s in sites], [s[1] for s in sites], 0.0)
    got = areas(RADIAL_ARC, station, None, lon, lat, course, alt_ft=5000.0)
    np.testing.assert_array_equal(got.code, 0)
    np.testing.assert_allclose(_widths(got)[:4], _widths(got)[:4, :1] @ np.ones((1, 4)), rtol=0.0, atol=0.03)
    # the second of two sites may come as a second station as well
    far = Station.of([s[0] for s in sites], [s[1] for s in sites], 0.0, 0.0, "DME")
    again = areas(RADIAL_ARC, station, far, lon, lat, course, alt_ft=5000.0)
    np.testing.assert_allclose(again.coords, got.coords, rtol=0.0, atol=1e-12)


def _code(method, first, second, **more) -> int:
    return int(areas(method, first, second, 10.0, 50.0, 90.0, **more).code[0])


def test_why_a_row_has_no_area():
    vor, ndb = Station.of(9.5, 50.0, 0.0, 0.0, "VOR/DME"), Station.of(10.0, 50.0, 0.0, 0.0, "NDB")
    beside, dme = Station.of(9.4, 49.97, 0.0, 0.0, "VOR"), Station.of(10.4, 50.3, 0.0, 0.0, "DME")
    assert _code(RADIAL_RADIAL, vor, beside) == reasons.TOLERANCE_UNBOUNDED  # a cut of about 4 degrees
    assert _code(RADIAL_RADIAL, vor, Station.of(10.0, 50.005, kind="VOR")) == reasons.TOLERANCE_UNBOUNDED
    assert _code(RADIAL_RADIAL, vor, vor) == reasons.SAME_STATION
    assert _code(RADIAL_RADIAL, vor, None) == reasons.NO_POSITION
    assert _code(RADIAL_RADIAL, vor, dme) == reasons.NO_BEARING
    assert _code(RADIAL_ARC, vor, None) == reasons.NO_ALTITUDE
    assert _code(RADIAL_ARC, Station.of(9.5, 50.0, kind="VOR/DME"), None, alt_ft=5000.0) == reasons.NO_ELEVATION
    assert _code(RADIAL_ARC, ndb, None, alt_ft=5000.0) == reasons.NO_RANGE
    assert _code(RADIAL_ARC, vor, None, alt_ft=5000.0, slant_2_nm=0.5) == reasons.SLANT_TOO_SHORT
    assert _code(RADIAL_ARC, vor, None, alt_ft=5000.0, slant_2_nm=401.0) == reasons.DISTANCE_RANGE
    north = Station.of(10.0, 50.4, 0.0, 0.0, "DME")
    assert _code(RADIAL_ARC, vor, north, alt_ft=5000.0) == reasons.TOLERANCE_UNBOUNDED  # the arc runs along the radial
    close = Station.of(10.02, 50.0, 0.0, 0.0, "DME")
    assert _code(RADIAL_ARC, vor, close, alt_ft=3000.0) == reasons.TOLERANCE_UNBOUNDED  # the reading may be overhead
    assert _code(ARC_ARC, vor, Station.of(10.5, 50.0, 0.0, 0.0, "DME"), alt_ft=0.0) == reasons.TOLERANCE_UNBOUNDED
    assert _code(OVERHEAD, ndb, None, alt_ft=5000.0, rules=1) == reasons.NO_OVERHEAD_TOLERANCE
    assert _code(OVERHEAD, dme, None, alt_ft=5000.0) == reasons.NO_CONE
    assert _code(OVERHEAD, Station.of(10.0, 50.0, 0.0, 0.0, "LOC"), None, alt_ft=5000.0) == reasons.NO_CONE
    assert _code(OVERHEAD, ndb, None, alt_ft=0.0) == reasons.NOT_ABOVE_STATION
    assert _code(OVERHEAD, ndb, None) == reasons.NO_ALTITUDE
    assert _code(OVERHEAD, Station.of(10.0, 50.0, kind="VOR"), None, alt_ft=5000.0) == reasons.NO_ELEVATION
    assert _code(GNSS, None, None, gnss_along_nm=0.0) == reasons.GNSS_RANGE
    assert _code(GNSS, None, None, gnss_across_nm=np.nan) == reasons.GNSS_RANGE
    lon, lat, course = [10.0, np.nan, 10.0, 10.0], [50.0, 50.0, 85.1, 50.0], [90.0, 90.0, 90.0, np.nan]
    bad = areas(GNSS, None, None, lon, lat, course)
    np.testing.assert_array_equal(bad.code, [0, reasons.NO_POSITION, reasons.NEAR_POLE, reasons.NO_COURSE])
    np.testing.assert_array_equal(np.diff(bad.offsets) > 0, [True, False, False, False])
    assert np.isnan(bad.corners[1:]).all() and np.isnan(_widths(bad)[:, 1:]).all()
    round_pole = areas(GNSS, None, None, 10.0, 85.0, 0.0, gnss_along_nm=350.0, gnss_across_nm=100.0)
    assert round_pole.code[0] == reasons.OVER_POLE and len(round_pole.coords) == 0


def test_every_reason_has_its_sentence():
    own = ("TOLERANCE_UNBOUNDED", "NO_OVERHEAD_TOLERANCE", "NO_CONE", "NOT_ABOVE_STATION", "OVER_POLE", "GNSS_RANGE")
    assert len({reasons.sentence(getattr(reasons, name)) for name in own} - {""}) == len(own)


def test_many_rows_are_as_good_as_one():
    """Methods, rules and failures mixed: each row as if it were alone."""
    n = 40
    k = np.arange(n)
    lon, lat = np.linspace(-179.0, 179.0, n), np.linspace(-80.0, 80.0, n)
    between = np.where(k % 5 == 0, 20.0, 80.0)
    there = [_direct(x, y, 7.0 * i, 20.0)[:2] for i, x, y in zip(k, lon, lat)]
    other = [_direct(x, y, 7.0 * i + turn, 25.0)[:2] for i, x, y, turn in zip(k, lon, lat, between)]
    kinds = np.array(["VOR/DME", "NDB/DME", "DME"], dtype=object)[k % 3]
    first, second = (Station.of(*np.array(p).T, 50.0, 0.0, kinds) for p in (there, other))
    course, alt = 7.0 * k + 180.0, np.where(k % 7 == 6, np.nan, 6000.0)
    together = areas(k % 5, first, second, lon, lat, course, alt_ft=alt, rules=k % 2)
    assert 10 < (together.code == reasons.OK).sum() < n
    for i in range(n):
        stations = first.take([i]), second.take([i])
        alone = areas(i % 5, *stations, lon[i], lat[i], course[i], alt_ft=alt[i], rules=i % 2)
        assert alone.code[0] == together.code[i]
        np.testing.assert_array_equal(alone.coords, together.coords[together.offsets[i] : together.offsets[i + 1]])
        np.testing.assert_array_equal(_widths(alone)[:, 0], _widths(together)[:, i])


def test_no_rows():
    nothing = np.zeros(0)
    got = areas(np.zeros(0, int), Station.of(nothing, nothing), None, nothing, nothing, nothing)
    assert got.coords.shape == (0, 2) and got.offsets.tolist() == [0] and got.corners.shape == (0, 4, 2)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"tolerance_m": 0.0}, "tolerance_m is 0.0"),
        ({"tolerance_m": math.nan}, "tolerance_m is nan"),
        ({"rules": 2}, "rules is 2"),
        ({"method": 5}, "method is 5"),
    ],
)
def test_calls_that_make_no_sense(more, words):
    method = more.pop("method", GNSS)
    with pytest.raises(ValueError, match=words):
        areas(method, None, None, 10.0, 50.0, 90.0, **more)


@given(st.floats(1.0, 100.0), st.floats(20.0, 90.0), st.floats(0.1, 15.0))
def test_displacement_is_that_of_the_triangle(distance, cut, error):
    """Law of sines against the crossing found by coordinates: aid at the origin, the fix at (distance, 0)."""
    towards, away = accuracy.fix_displacement_nm(distance, cut, error)
    for shift, sign in ((towards, 1.0), (away, -1.0)):
        # along the course from the fix, which nears the aid at the cut angle
        x = distance - sign * float(shift) * math.cos(math.radians(cut))
        y = sign * float(shift) * math.sin(math.radians(cut))
        assert math.degrees(math.atan2(y, x)) == pytest.approx(sign * error, abs=1e-9)
    assert np.isinf(accuracy.fix_displacement_nm(distance, error, error)[1])
