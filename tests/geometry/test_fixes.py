from __future__ import annotations

from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import fixes, geodesy, navaids, reasons
from fixwright.geometry.fixes import Fixes, Station

YEAR = 2026.5
MM_NM = 1e-3 / 1852.0
lons, lats = st.floats(-180.0, 180.0), st.floats(-85.0, 85.0)
angles = st.floats(0.0, 360.0)
NUMBERS = [f.name for f in fields(Fixes) if f.name not in ("code", "alt_ft")]


def _vor(lon=10.0, lat=50.0, **more) -> Station:
    return Station.of(lon, lat, **{"decl_deg": 4.0, "kind": "VOR/DME", "elev_ft": 500.0, **more})


def _apart_nm(one: Fixes, other: Fixes) -> float:
    return float(np.max(geodesy.inverse(one.lon, one.lat, other.lon, other.lat)[2]))


def _angle(a, b) -> float:
    return float(np.max(np.abs((np.asarray(a) - b + 180.0) % 360.0 - 180.0)))


# --- why a row fails


RADIAL_DISTANCE = [
    # reason, what makes it
    (reasons.OK, dict()),
    (reasons.NO_POSITION, dict(lon=np.nan)),
    (reasons.NO_POSITION, dict(lat=np.inf)),
    (reasons.NO_POSITION, dict(lat=90.1)),
    (reasons.NO_POSITION, dict(lon=360.1)),
    (reasons.OK, dict(lat=85.0)),
    (reasons.OK, dict(lat=-85.0)),
    (reasons.NEAR_POLE, dict(lat=85.0001)),
    (reasons.NEAR_POLE, dict(lat=-90.0)),
    (reasons.NOT_FINITE, dict(radial=np.nan)),
    (reasons.NOT_FINITE, dict(distance=np.inf)),
    (reasons.RADIAL_RANGE, dict(radial=-0.001)),
    (reasons.RADIAL_RANGE, dict(radial=360.001)),
    (reasons.OK, dict(radial=360.0)),
    (reasons.OK, dict(radial=0.0)),
    (reasons.DISTANCE_RANGE, dict(distance=0.0)),
    (reasons.DISTANCE_RANGE, dict(distance=-1.0)),
    (reasons.DISTANCE_RANGE, dict(distance=400.001)),
    (reasons.OK, dict(distance=400.0)),
    (reasons.OK, dict(distance=0.001)),
    (reasons.NO_DECLINATION, dict(decl_deg=np.nan)),
    (reasons.OK, dict(decl_deg=np.nan, north=navaids.MODEL)),
    (reasons.OK, dict(decl_deg=np.nan, north=navaids.TRUE)),
    (reasons.OK, dict(decl_deg=np.nan, kind="NDB")),
    (reasons.NO_ELEVATION, dict(slant=True, elev_ft=np.nan, alt=8000.0)),
    (reasons.NO_ALTITUDE, dict(slant=True)),
    (reasons.OK, dict(elev_ft=np.nan, alt=np.nan)),
    (reasons.OK, dict(slant=True, alt=8000.0)),
    (reasons.NO_RANGE, dict(slant=True, alt=8000.0, kind="VOR")),
    (reasons.NO_RANGE, dict(slant=True, alt=8000.0, kind="NDB")),
    (reasons.OK, dict(kind="VOR")),
    (reasons.SLANT_TOO_SHORT, dict(slant=True, alt=70000.0, distance=5.0)),
]


@pytest.mark.parametrize(("reason", "changes"), RADIAL_DISTANCE, ids=lambda v: str(v))
def test_why_a_radial_and_distance_fails(reason, changes):
    c = dict(changes)
    place = {k: c.pop(k) for k in ("lon", "lat", "decl_deg", "kind", "elev_ft") if k in c}
    fix = fixes.radial_distance(
        _vor(**place), c.get("radial", 90.0), c.get("distance", 12.0), slant=c.get("slant", False),
        alt_ft=c.get("alt", np.nan), north=c.get("north", navaids.STATION), year=YEAR,
    )  # fmt: skip
    assert fix.code.tolist() == [reason]
    for name in NUMBERS:
        value = getattr(fix, name)[0]
        if reason:
            assert np.isnan(value), name
        elif name not in ("radial_deg", "dme_nm"):
            assert np.isfinite(value), name


ALONG_TRACK = [
    (reasons.OK, dict()),
    (reasons.OK, dict(distance=0.0)),
    (reasons.OK, dict(distance=400.0)),
    (reasons.DISTANCE_RANGE, dict(distance=-0.001)),
    (reasons.DISTANCE_RANGE, dict(distance=400.001)),
    (reasons.NOT_FINITE, dict(distance=np.nan)),
    (reasons.NO_POSITION, dict(lat=np.nan)),
    (reasons.NEAR_POLE, dict(lat=86.0)),
    (reasons.NO_COURSE, dict(course_deg=np.nan)),
    (reasons.COURSE_RANGE, dict(course_deg=361.0)),
    (reasons.COURSE_RANGE, dict(course_deg=-1.0)),
    (reasons.OK, dict(course_deg=360.0)),
    (reasons.NO_DECLINATION, dict(decl_deg=np.nan)),
    (reasons.OK, dict(decl_deg=np.nan, kind="NDB")),
    (reasons.OK, dict(decl_deg=np.nan, kind="WPT")),
    (reasons.OK, dict(decl_deg=np.nan, north=navaids.TRUE)),
    (reasons.OK, dict(from_lon=11.0, from_lat=51.0, course_deg=np.nan, decl_deg=np.nan)),
    (reasons.NEAR_POLE, dict(from_lon=11.0, from_lat=85.5)),
    (reasons.SAME_PLACE, dict(from_lon=10.0, from_lat=50.0)),
    (reasons.SAME_PLACE, dict(from_lon=-350.0, from_lat=50.0)),
    (reasons.OK, dict(from_lon=10.001, from_lat=50.0)),
]


@pytest.mark.parametrize(("reason", "changes"), ALONG_TRACK, ids=lambda v: str(v))
def test_why_a_fix_along_a_track_fails(reason, changes):
    c = {"course_deg": 73.0, **changes}
    place = {k: c.pop(k) for k in ("lon", "lat", "decl_deg", "kind") if k in c}
    fix, to_go, passed = fixes.along_track(_vor(**place), c.pop("distance", 12.0), year=YEAR, **c)
    assert fix.code.tolist() == [reason]
    if reason:
        assert all(np.isnan(getattr(fix, name)[0]) for name in NUMBERS)
        assert np.isnan(to_go[0]) and not passed[0]
    else:
        assert np.isfinite([fix.lon[0], fix.lat[0], fix.course_true_deg[0], fix.course_station_deg[0]]).all()
        assert np.isfinite(to_go[0]) == ("from_lon" in changes)


def test_a_bearing_that_cannot_be_solved_is_said_so(monkeypatch):
    """A variation that turns with the place faster than any bearing can follow."""
    monkeypatch.setattr(fixes, "declination_deg", lambda lon, lat, *, year: 90.0 * np.sin(1e9 * np.asarray(lon)))
    fix = fixes.radial_distance(_vor(kind="NDB"), 80.0, 25.0, north=navaids.MODEL, year=YEAR)
    assert fix.code.tolist() == [reasons.BEARING_NOT_SOLVED]
    assert np.isnan(fix.lon[0])


def test_other_ways_fail_alike():
    assert fixes.coordinates([10.0, np.nan, 10.0], [50.0, 50.0, 88.0], year=YEAR).code.tolist() == [
        reasons.OK, reasons.NO_POSITION, reasons.NEAR_POLE,
    ]  # fmt: skip
    assert fixes.overhead(_vor(lat=89.0), year=YEAR).code.tolist() == [reasons.NEAR_POLE]
    assert fixes.overhead(_vor(), course_deg=361.0, year=YEAR).code.tolist() == [reasons.COURSE_RANGE]
    assert fixes.overhead(_vor(), course_deg=np.inf, year=YEAR).code[0] != reasons.OK
    assert fixes.overhead(_vor(decl_deg=np.nan), course_deg=20.0, year=YEAR).code.tolist() == [reasons.NO_DECLINATION]


@pytest.mark.parametrize("year", [2024.9, 2030.0, 1990.0])
def test_a_year_outside_the_model_is_refused(year):
    for call in (
        lambda: fixes.radial_distance(_vor(), 90.0, 5.0, year=year),
        lambda: fixes.along_track(_vor(), 5.0, course_deg=90.0, year=year),
        lambda: fixes.overhead(_vor(), year=year),
        lambda: fixes.coordinates(10.0, 50.0, year=year),
    ):
        with pytest.raises(ValueError, match="2025"):
            call()


# --- rows do not touch each other


def _many(n=60):
    k = np.arange(n)
    kinds = np.array(["VOR/DME", "NDB", "", "TACAN", "WPT"], dtype=object)[k % 5]
    at = Station.of(-180.0 + 6.0 * k, -70.0 + 2.3 * k, elev_ft=10.0 * k, decl_deg=k % 20 - 10.0, kind=kinds)
    slant = (k % 2 == 0) & np.isin(kinds, ["VOR/DME", "", "TACAN"])
    return at, 6.0 * k, 5.0 + 2.0 * k, slant, 3000.0 + 10.0 * k, k % 3


def _solve(at, radial, distance, slant, alt, north):
    return fixes.radial_distance(at, radial, distance, slant=slant, alt_ft=alt, north=north, year=YEAR)


def test_the_same_row_alone_and_in_a_batch():
    """The same bytes, whichever rows share the call: chunks of a layer give what the whole layer gives."""
    at, *values = _many()
    whole = _solve(at, *values)
    assert whole.code.tolist() == [0] * 60
    for i in range(60):
        alone = _solve(at.take([i]), *[v[i : i + 1] for v in values])
        for name in [f.name for f in fields(Fixes)]:
            assert getattr(alone, name).tobytes() == getattr(whole, name)[i : i + 1].tobytes(), (i, name)


@pytest.mark.parametrize("spoil", range(5))
def test_nan_spoils_its_own_row_only(spoil):
    at, radial, distance, slant, alt, north = _many()
    whole = _solve(at, radial, distance, slant, alt, north)
    spoilt = np.arange(60) % 7 == 3
    lon, lat = at.lon.copy(), at.lat.copy()
    (lon, lat, radial, distance, alt)[spoil][spoilt] = np.nan
    part = _solve(
        Station.of(lon, lat, at.elev_ft, at.decl_deg, at.kind), radial, distance, slant, alt, north
    )
    bad = spoilt & (slant if spoil == 4 else True)
    assert (part.code[bad] != 0).all() and np.isnan(part.lon[bad]).all()
    for name in NUMBERS:
        assert getattr(part, name)[~spoilt].tobytes() == getattr(whole, name)[~spoilt].tobytes()


def test_values_are_spread_over_the_stations_and_stations_over_the_values():
    at, *_ = _many()
    assert fixes.radial_distance(at, 90.0, 12.0, north=2, year=YEAR).lon.shape == (60,)
    assert fixes.radial_distance(_vor(), [10.0, 20.0, 30.0], 12.0, year=YEAR).lon.shape == (3,)
    assert fixes.along_track(_vor(), [10.0, 20.0], course_deg=30.0, year=YEAR)[0].lon.shape == (2,)
    assert fixes.overhead(_vor(), course_deg=[10.0, 20.0], year=YEAR).lon.shape == (2,)


def test_station_rows():
    at, *_ = _many()
    part = at.take([3, 1])
    assert part.lon.tolist() == [at.lon[3], at.lon[1]] and part.kind.tolist() == [at.kind[3], at.kind[1]]
    one = Station.of(10.0, 50.0)
    assert one.lon.shape == (1,) and np.isnan(one.decl_deg[0]) and one.kind.tolist() == [""]


# --- what must hold of every fix


@settings(max_examples=25)
@given(lons, lats, angles, st.floats(0.5, 300.0), st.floats(-40.0, 40.0))
def test_declination_only_turns_the_radial(lon, lat, radial, dist, decl):
    by_station = fixes.radial_distance(_vor(lon, lat, decl_deg=decl), radial, dist, year=YEAR)
    true = fixes.radial_distance(_vor(lon, lat, decl_deg=decl), (radial + decl) % 360.0, dist, north=2, year=YEAR)
    assert _apart_nm(by_station, true) < MM_NM
    assert _angle(by_station.radial_deg, true.radial_deg) * dist < 1e-6


@settings(max_examples=25)
@given(lats, angles, st.floats(0.5, 300.0), lons)
def test_mirrored_in_the_meridian(lat, radial, dist, lon):
    one = fixes.radial_distance(_vor(lon, lat), radial, dist, north=2, year=YEAR)
    other = fixes.radial_distance(_vor(lon, lat), (360.0 - radial) % 360.0, dist, north=2, year=YEAR)
    assert abs(one.lat[0] - other.lat[0]) < 1e-10
    assert abs((one.lon[0] + other.lon[0] - 2.0 * lon + 180.0) % 360.0 - 180.0) < 1e-8
    assert _angle(one.course_true_deg, -other.course_true_deg) * dist < 1e-5


@pytest.mark.parametrize("lat", [0.0, 50.0, -85.0])
@pytest.mark.parametrize("kind", ["VOR/DME", "NDB"])
def test_radials_across_north(lat, kind):
    zero, full, before, after = (
        fixes.radial_distance(_vor(lat=lat, kind=kind), r, 50.0, year=YEAR) for r in (0.0, 360.0, 359.999, 0.001)
    )
    assert _apart_nm(zero, full) < MM_NM
    # At 85 degrees an NDB's variation changes by a good part of the angle itself.
    assert _apart_nm(before, after) < 0.004
    assert zero.radial_deg[0] < 360.0


@pytest.mark.parametrize("lon", [180.0, -180.0])
def test_both_names_of_the_antimeridian(lon):
    one = fixes.radial_distance(_vor(lon=lon), 90.0, 20.0, year=YEAR)
    assert one.lon[0] == pytest.approx(-179.48, abs=0.02)
    west = fixes.radial_distance(_vor(lon=lon), 270.0, 20.0, year=YEAR)
    assert west.lon[0] == pytest.approx(179.48, abs=0.02)
    overhead = fixes.overhead(_vor(lon=lon), year=YEAR)
    assert overhead.lon[0] == 180.0


@settings(max_examples=25)
@given(lons, lats, angles, st.floats(0.0, 200.0))
def test_before_and_beyond_lie_opposite(lon, lat, course, dist):
    """On one line through the point, as far on either side; before on a course is beyond on its reciprocal."""
    point = _vor(lon, lat)
    before, _, _ = fixes.along_track(point, dist, course_deg=course, north=2, year=YEAR)
    beyond, _, _ = fixes.along_track(point, dist, beyond=True, course_deg=course, north=2, year=YEAR)
    other, _, _ = fixes.along_track(point, dist, beyond=True, course_deg=(course + 180.0) % 360.0, north=2, year=YEAR)
    assert _apart_nm(before, other) < MM_NM
    assert abs(float(geodesy.inverse(before.lon, before.lat, beyond.lon, beyond.lat)[2][0]) - 2.0 * dist) < 2.0 * MM_NM
    assert _angle(before.course_true_deg, other.course_true_deg + 180.0) < 1e-6
    # A course selector keeps one number the whole way.
    assert _angle(before.course_station_deg, beyond.course_station_deg) < 1e-9
    assert _angle(before.course_station_deg, course - 4.0) < 1e-9


def test_no_distance_is_the_point_itself():
    fix, to_go, passed = fixes.along_track(_vor(), 0.0, course_deg=73.0, north=2, year=YEAR)
    np.testing.assert_allclose([fix.lon[0], fix.lat[0], fix.dist_nm[0]], [10.0, 50.0, 0.0], rtol=0.0, atol=1e-12)
    assert fix.course_true_deg[0] == pytest.approx(73.0, abs=1e-12)
    assert np.isnan(fix.radial_deg[0]) and np.isnan(to_go[0]) and not passed[0]


def test_a_fix_already_passed():
    """10 NM to the point, the fix 15 before it: it lies 5 NM behind, computed and told."""
    lon, lat, _ = geodesy.direct(10.0, 50.0, 253.0, 10.0)
    fix, to_go, passed = fixes.along_track(_vor(), 15.0, from_lon=lon, from_lat=lat, year=YEAR)
    assert fix.code[0] == 0 and passed[0] and to_go[0] == pytest.approx(-5.0)
    _, to_go, passed = fixes.along_track(_vor(), 10.0 - 1e-9, from_lon=lon, from_lat=lat, year=YEAR)
    assert not passed[0] and to_go[0] == pytest.approx(0.0, abs=1e-8)


def test_a_position_goes_before_a_course():
    with_both, _, _ = fixes.along_track(_vor(), 5.0, course_deg=10.0, from_lon=9.0, from_lat=50.0, year=YEAR)
    position, _, _ = fixes.along_track(_vor(), 5.0, from_lon=9.0, from_lat=50.0, year=YEAR)
    assert _apart_nm(with_both, position) == 0.0


def test_overhead():
    """No radial, no distance; a DME reads the height; the arrival course where one is given."""
    fix = fixes.overhead(_vor(), alt_ft=6576.115486, year=YEAR)
    np.testing.assert_allclose([fix.lon[0], fix.lat[0], fix.dist_nm[0]], [10.0, 50.0, 0.0], rtol=0.0, atol=1e-12)
    assert fix.dme_nm[0] == pytest.approx(1.0, abs=1e-9)
    for name in ("radial_deg", "course_true_deg", "course_model_deg", "course_station_deg"):
        assert np.isnan(getattr(fix, name)[0])
    arriving = fixes.overhead(_vor(), course_deg=30.0, year=YEAR)
    assert arriving.course_true_deg[0] == pytest.approx(34.0)
    assert arriving.course_station_deg[0] == pytest.approx(30.0)
    assert arriving.course_model_deg[0] == pytest.approx(34.0 - arriving.var_deg[0])
    ndb = fixes.overhead(_vor(kind="NDB"), course_deg=30.0, year=YEAR)
    assert ndb.course_model_deg[0] == pytest.approx(30.0)
    assert np.isnan(ndb.dme_nm[0])


def test_courses_at_a_fix_without_alignment():
    """Towards an NDB the selector has no say: the model's number stands in its place."""
    fix = fixes.radial_distance(_vor(kind="NDB"), 80.0, 25.0, year=YEAR)
    assert fix.course_station_deg[0] == pytest.approx(fix.course_model_deg[0], abs=1e-9)
    assert fix.course_model_deg[0] == pytest.approx(260.0, abs=1e-8)
    place = fixes.coordinates(10.0, 50.0, year=YEAR)
    assert np.isnan(place.course_true_deg[0]) and np.isnan(place.dist_nm[0]) and np.isfinite(place.var_deg[0])


def test_a_waypoint_takes_the_model_s_north():
    named = fixes.radial_distance(_vor(kind="WPT", decl_deg=np.nan), 80.0, 25.0, year=YEAR)
    model = fixes.radial_distance(_vor(kind="WPT", decl_deg=np.nan), 80.0, 25.0, north=navaids.MODEL, year=YEAR)
    assert named.code[0] == 0 and _apart_nm(named, model) == 0.0


def test_a_dme_that_stands_apart():
    """The radial from the VOR, the distance from the DME, each measured at its own site."""
    at = Station.of(10.0, 50.0, 0.0, 3.0, "VOR/DME", dme_lon=10.05, dme_lat=50.02, dme_elev_ft=300.0)
    fix = fixes.radial_distance(at, 200.0, 20.0, slant=True, alt_ft=8000.0, year=YEAR)
    assert fix.code[0] == 0
    course, _, dist = geodesy.inverse(10.0, 50.0, fix.lon[0], fix.lat[0])
    assert np.radians(_angle(course, 203.0)) * float(dist) < MM_NM
    _, _, from_dme = geodesy.inverse(10.05, 50.02, fix.lon[0], fix.lat[0])
    assert np.hypot(float(from_dme), 7700.0 / 6076.115486) == pytest.approx(20.0, abs=MM_NM)
    assert fix.dme_nm[0] == pytest.approx(20.0, abs=MM_NM)
