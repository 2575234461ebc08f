"""Fixes where lines of navaids cross, and radial/distance fixes of a DME that stands apart: measured back.

Every figure is measured again with geographiclib; bearings of an NDB with the variation of an independent evaluation
of the magnetic model (pygeomag) too.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from pygeomag import GeoMag

from fixwright.geometry import fix_crossing, fixes, plan, reasons
from fixwright.geometry.fix_crossing import DISTANCE, RADIAL, Lines
from fixwright.geometry.fixes import Station
from fixwright.geometry.magnetism import declination_deg

WGS84 = Geodesic.WGS84
MODEL = GeoMag(coefficients_file="wmm/WMM_2025.COF")
NM, FT_PER_NM = 1852.0, 1852.0 / 0.3048
MM = 1e-3
YEAR = 2026.66575
STATION, BY_MODEL, TRUE = range(3)

lons = st.one_of(st.floats(-180.0, 180.0), st.floats(179.0, 180.0), st.floats(-180.0, -179.0))
lats = st.floats(-80.0, 80.0)
bearings = st.floats(0.0, 360.0)
declinations = st.floats(-40.0, 40.0)
cuts = st.floats(1.0, 90.0)
sides = st.sampled_from([-1.0, 1.0])
norths = st.sampled_from([STATION, BY_MODEL, TRUE])


def _wrap(angle: float) -> float:
    return math.remainder(angle, 360.0)


def _direct(lat, lon, azimuth, nm):
    at = WGS84.Direct(lat, lon, azimuth, nm * NM)
    return at["lat2"], at["lon2"]


def _inverse(one, two):
    line = WGS84.Inverse(*(float(v) for v in (*one, *two)))
    return line["azi1"], line["azi2"], line["s12"] / NM


def _variation(lat: float, lon: float) -> float:
    return float(declination_deg(lon, lat, year=YEAR))


def _place(fix, row: int = 0):
    return float(fix.lat[row]), float(fix.lon[row])


def _lines(station: Station, kind: int, value: float) -> Lines:
    return Lines(station, np.array([kind]), np.array([value], dtype=float))


def _at(place, kind="VOR/DME", elev=0.0, decl=0.0, **dme) -> Station:
    return Station.of(place[1], place[0], elev, decl, kind, **dme)


# --- VOR and DME


@settings(max_examples=40)
@given(lons, lats, bearings, cuts, sides, st.floats(1.0, 390.0), st.floats(1.0, 390.0), declinations, norths)
def test_two_radials_in_three_norths(lon, lat, bearing, cut, side, one_nm, two_nm, decl, north):
    place = lat, lon
    stations = _direct(*place, bearing, one_nm), _direct(*place, bearing + side * cut, two_nm)
    assume(all(abs(at[0]) < 85.0 for at in stations))
    assume(_inverse(*stations)[2] > 0.01)
    decls = decl, -0.5 * decl
    radials = []
    for at, own in zip(stations, decls):
        add = (own, _variation(*at), 0.0)[north]
        radials.append((_inverse(at, place)[0] - add) % 360.0)
    first, second = (
        _lines(_at(at, "VOR", decl=own), RADIAL, radial) for at, own, radial in zip(stations, decls, radials)
    )
    one, two = fix_crossing.cross(first, second, north=north, year=YEAR)
    assert one.fix.code[0] == reasons.OK and two.fix.code[0] == reasons.ONE_CROSSING
    assert _inverse(place, _place(one.fix))[2] * NM * math.sin(math.radians(cut)) < MM
    off = [abs(_wrap(_inverse(at, _place(one.fix))[0] - _inverse(at, place)[0])) for at in stations]
    assert max(math.radians(o) * d for o, d in zip(off, (one_nm, two_nm))) * NM < MM
    assert one.cut_deg[0] == pytest.approx(cut, abs=1e-4)
    for radial, told, own, at in zip((one.fix.radial_deg[0], one.radial_2_deg[0]), radials, decls, stations):
        station_radial = told + (0.0 if north == STATION else (_variation(*at) if north == BY_MODEL else 0.0) - own)
        assert abs(_wrap(radial - station_radial)) < 1e-4
    assert (one.fix.dist_nm[0], one.dist_2_nm[0]) == pytest.approx((one_nm, two_nm), abs=1e-4)
    assert np.isnan(two.cut_deg[0]) and np.isnan(two.fix.lat[0]) and np.isnan(two.radial_2_deg[0])


heights = st.tuples(st.floats(-500.0, 9000.0), st.floats(0.0, 45000.0))


def _slant(ground_nm: float, elev_ft: float, alt_ft: float) -> float:
    return math.hypot(ground_nm, (alt_ft - elev_ft) / FT_PER_NM)


@settings(max_examples=40)
@given(lons, lats, bearings, cuts, sides, st.floats(1.0, 300.0), st.floats(1.0, 300.0), heights, st.booleans())
def test_radial_and_dme(lon, lat, bearing, cut, side, one_nm, two_nm, height, dme_first):
    """The DME reads slant range by the plane triangle (ICAO Doc 8168 Vol II, 5th ed. 2006, I-4-3-App C-13)."""
    place, (elev, alt) = (lat, lon), height
    vor, dme = _direct(*place, bearing, one_nm), _direct(*place, bearing + 90.0 + side * cut, two_nm)
    assume(all(abs(at[0]) < 85.0 for at in (vor, dme)))
    slant = _slant(two_nm, elev, alt)
    radial = _lines(_at(vor, "VOR"), RADIAL, _inverse(vor, place)[0] % 360.0)
    arc = _lines(_at(dme, "DME", elev), DISTANCE, slant)
    pair = (arc, radial) if dme_first else (radial, arc)
    found = fix_crossing.cross(*pair, alt_ft=alt, year=YEAR)
    good = [c for c in found if c.fix.code[0] == reasons.OK]
    assert good and found[0].fix.code[0] == reasons.OK
    assert any(_inverse(place, _place(c.fix))[2] * NM * math.sin(math.radians(cut)) < 2.0 * MM for c in good)
    along = []
    for c in good:
        at = _place(c.fix)
        azimuth, _, from_vor = _inverse(vor, at)
        _, _, from_dme = _inverse(dme, at)
        along.append(from_vor)
        off = math.radians(_wrap(azimuth - _inverse(vor, place)[0]))
        assert from_vor * NM * abs(math.sin(off)) < MM and math.cos(off) > 0.0
        assert abs(from_dme - two_nm) * NM < MM
        told = (c.fix.dme_nm[0], c.dme_2_nm[0], c.fix.dist_nm[0], c.dist_2_nm[0])
        want = (math.nan, slant, from_vor, from_dme)
        for got, value in zip(told, (slant, math.nan, from_dme, from_vor) if dme_first else want):
            assert got == pytest.approx(value, abs=1e-6, nan_ok=True)
    assert along == sorted(along)


def test_dme_as_slant_range_needs_elevation_and_altitude_and_ground_distance_does_not():
    dme = _at((50.0, 10.0), "DME", np.nan)
    arcs = _lines(dme, DISTANCE, 20.0), _lines(_at((50.3, 10.3), "DME", 300.0), DISTANCE, 15.0)
    codes = [c.fix.code[0] for c in fix_crossing.cross(*arcs, alt_ft=5000.0, year=YEAR)]
    assert codes == [reasons.NO_ELEVATION] * 2
    assert fix_crossing.cross(*arcs[::-1], alt_ft=5000.0, year=YEAR)[0].fix.code[0] == reasons.NO_ELEVATION
    assert fix_crossing.cross(arcs[1], arcs[1], year=YEAR)[0].fix.code[0] == reasons.NO_ALTITUDE
    one, two = fix_crossing.cross(*arcs, slant=False, year=YEAR)
    assert one.fix.code[0] == two.fix.code[0] == reasons.OK
    for c in (one, two):
        assert _inverse((50.0, 10.0), _place(c.fix))[2] == pytest.approx(20.0, abs=1e-7)
        assert _inverse((50.3, 10.3), _place(c.fix))[2] == pytest.approx(15.0, abs=1e-7)


def test_an_arc_starts_from_the_dmes_own_site_and_a_radial_from_the_vors():
    dme = {"dme_lat": 50.01, "dme_lon": 10.02, "dme_elev_ft": 800.0}
    vor = _at((50.0, 10.0), elev=200.0, **dme)
    other = _at((50.5, 10.9))
    one, _ = fix_crossing.cross(
        _lines(vor, DISTANCE, 25.0), _lines(other, RADIAL, 200.0), alt_ft=9000.0, year=YEAR
    )
    ground = _inverse((50.01, 10.02), _place(one.fix))[2]
    assert math.hypot(ground, 8200.0 / FT_PER_NM) == pytest.approx(25.0, abs=1e-7)
    assert one.fix.dme_nm[0] == pytest.approx(25.0, abs=1e-7)
    one, _ = fix_crossing.cross(_lines(vor, RADIAL, 62.0), _lines(other, RADIAL, 171.0), year=YEAR)
    assert _inverse((50.0, 10.0), _place(one.fix))[0] == pytest.approx(62.0, abs=1e-9)


# --- NDB


@settings(max_examples=20)
@given(lons, st.floats(-50.0, 60.0), bearings, st.floats(25.0, 90.0), sides, st.floats(1.0, 75.0), st.floats(1.0, 75.0))
def test_bearings_are_read_at_the_fix(lon, lat, bearing, cut, side, one_nm, two_nm):
    """Two NDBs: at the fix the course to each is its bearing + 180 + the variation there (common practice), to 1 mm;
    and the variation is pygeomag's to the accuracy of the model's evaluations."""
    place = lat, lon
    here = _variation(*place)
    stations = [_direct(*place, b, d) for b, d in ((bearing, one_nm), (bearing + side * cut, two_nm))]
    read = [(_inverse(place, at)[0] - here + 180.0) % 360.0 for at in stations]
    pair = [_lines(_at(at, "NDB", decl=np.nan), RADIAL, value) for at, value in zip(stations, read)]
    one, two = fix_crossing.cross(*pair, year=YEAR)
    assert one.fix.code[0] == reasons.OK and two.fix.code[0] == reasons.ONE_CROSSING
    at = _place(one.fix)
    assert _inverse(place, at)[2] * NM < MM / math.sin(math.radians(cut))
    for station, value in zip(stations, read):
        course, _, dist = _inverse(at, station)
        off = math.radians(_wrap(course - 180.0 - value - _variation(*at)))
        assert abs(off) * dist * NM < MM
    assert abs(_variation(*at) - MODEL.calculate(glat=at[0], glon=at[1], alt=0.0, time=YEAR).d) < 2e-3
    assert abs(_wrap(one.fix.radial_deg[0] - read[0])) < 1e-6 and abs(_wrap(one.radial_2_deg[0] - read[1])) < 1e-6


@settings(max_examples=25)
@given(lons, st.floats(-50.0, 60.0), bearings, st.floats(30.0, 90.0), st.floats(20.0, 75.0), st.floats(2.0, 15.0))
def test_each_of_two_places_has_its_own_bearing(lon, lat, bearing, cut, ndb_nm, radius_nm):
    """An NDB bearing through a DME arc: read right at both places, though variation and meridians differ there."""
    place = lat, lon
    ndb, dme = _direct(*place, bearing, ndb_nm), _direct(*place, bearing + 90.0 + cut, radius_nm)
    read = (_inverse(place, ndb)[0] - _variation(*place) + 180.0) % 360.0
    one, two = fix_crossing.cross(
        _lines(_at(ndb, "NDB"), RADIAL, read), _lines(_at(dme, "DME"), DISTANCE, radius_nm), slant=False, year=YEAR
    )
    assert one.fix.code[0] == reasons.OK
    found = [c for c in (one, two) if c.fix.code[0] == reasons.OK]
    assert any(_inverse(place, _place(c.fix))[2] * NM < 2.0 * MM for c in found)
    for c in found:
        at = _place(c.fix)
        course, _, dist = _inverse(at, ndb)
        assert abs(math.radians(_wrap(course - 180.0 - read - _variation(*at)))) * dist * NM < MM
        assert abs(_inverse(dme, at)[2] - radius_nm) * NM < MM
    if len(found) == 2:
        assert found[0].fix.dist_nm[0] < found[1].fix.dist_nm[0]
    else:
        assert two.fix.code[0] == reasons.BEHIND_STATION


def test_a_bearing_by_true_north_is_a_geodesic_of_the_station():
    ndb = _lines(_at((60.0, 10.0), "NDB"), RADIAL, 90.0)
    vor = _lines(_at((60.6, 11.5), "VOR"), RADIAL, 180.0)
    at, _ = fix_crossing.cross(ndb, vor, north=TRUE, year=YEAR)
    assert _inverse((60.0, 10.0), _place(at.fix))[0] == pytest.approx(90.0, abs=1e-9)


def test_a_bearing_that_cannot_be_solved_is_said_so(monkeypatch):
    """A variation that jumps from place to place has no reading that settles."""
    calls = iter(range(10_000))

    def jumping(lon, lat, *, year):
        return np.full(np.shape(lon), 5.0 * (next(calls) % 2))

    monkeypatch.setattr(fix_crossing, "declination_deg", jumping)
    ndb = _lines(_at((50.0, 10.0), "NDB"), RADIAL, 62.0)
    vor = _lines(_at((50.5, 10.9), "VOR"), RADIAL, 171.0)
    at, _ = fix_crossing.cross(ndb, vor, year=YEAR)
    assert at.fix.code[0] == reasons.BEARING_NOT_SOLVED and np.isnan(at.fix.lat[0])


# --- why there is none


VOR = {"place": (50.0, 10.0)}
WHY = [
    # code, kind of line, value, what the first station is
    (reasons.NO_POSITION, RADIAL, 62.0, {"place": (math.nan, 10.0)}),
    (reasons.NEAR_POLE, RADIAL, 62.0, {"place": (86.0, 10.0)}),
    (reasons.NOT_FINITE, RADIAL, math.nan, VOR),
    (reasons.NOT_FINITE, DISTANCE, math.inf, VOR),
    (reasons.RADIAL_RANGE, RADIAL, 360.5, VOR),
    (reasons.RADIAL_RANGE, RADIAL, -1.0, VOR),
    (reasons.DISTANCE_RANGE, DISTANCE, 0.0, VOR),
    (reasons.DISTANCE_RANGE, DISTANCE, 401.0, VOR),
    (reasons.NO_DECLINATION, RADIAL, 62.0, {**VOR, "decl": math.nan}),
    (reasons.NO_BEARING, RADIAL, 62.0, {**VOR, "kind": "DME"}),
    (reasons.NO_BEARING, RADIAL, 62.0, {**VOR, "kind": "DME", "decl": math.nan}),
    (reasons.NO_BEARING, RADIAL, 62.0, {**VOR, "kind": "WPT"}),
    (reasons.NO_RANGE, DISTANCE, 20.0, {**VOR, "kind": "VOR"}),
    (reasons.NO_RANGE, DISTANCE, 20.0, {**VOR, "kind": "NDB"}),
    (reasons.NO_ELEVATION, DISTANCE, 20.0, {**VOR, "elev": math.nan}),
    (reasons.SLANT_TOO_SHORT, DISTANCE, 0.9, VOR),
    (reasons.BEHIND_STATION, RADIAL, 242.0, VOR),
    (reasons.CROSSING_RANGE, RADIAL, 353.0, VOR),
    (reasons.ARC_NOT_REACHED, DISTANCE, 2.0, VOR),
    (reasons.OK, RADIAL, 62.0, VOR),
    (reasons.OK, RADIAL, 0.0, {"place": (50.0, 11.0)}),
    (reasons.OK, DISTANCE, 40.0, VOR),
    (reasons.OK, DISTANCE, 40.0, {**VOR, "kind": ""}),
]


@pytest.mark.parametrize(("code", "kind", "value", "station"), WHY)
def test_why_lines_do_not_cross(code, kind, value, station):
    """The other line: radial 171 of a VOR. The reason is the same whichever line comes first."""
    line = _lines(_at(**station), kind, value)
    other = _lines(_at((50.5, 10.9), "VOR"), RADIAL, 353.0 if code == reasons.CROSSING_RANGE else 171.0)
    for pair in ((line, other), (other, line)):
        at, _ = fix_crossing.cross(*pair, alt_ft=6000.0, year=YEAR)
        assert at.fix.code[0] == code
        assert math.isfinite(at.fix.lat[0]) == (code == reasons.OK)
        assert math.isfinite(at.cut_deg[0]) == (code == reasons.OK)


def test_one_station_has_no_crossing_with_itself_but_with_its_own_arc():
    vor = _at((50.0, 10.0), decl=4.0)
    one, two = fix_crossing.cross(_lines(vor, RADIAL, 30.0), _lines(vor, RADIAL, 60.0), year=YEAR)
    assert one.fix.code[0] == reasons.SAME_STATION
    assert two.fix.code[0] != reasons.OK
    one, two = fix_crossing.cross(_lines(vor, RADIAL, 30.0), _lines(vor, DISTANCE, 20.0), slant=False, year=YEAR)
    same = fixes.radial_distance(vor, 30.0, 20.0, year=YEAR)
    assert _inverse(_place(one.fix), _place(same))[2] * NM < MM and one.cut_deg[0] == pytest.approx(90.0)
    assert two.fix.code[0] == reasons.BEHIND_STATION


def test_rows_of_every_kind_at_once():
    """Radial and radial, radial and arc, arc and radial, arc and arc, and a bad row: each as if it were alone."""
    one = Station.of([10.0] * 5, 50.0, 0.0, 0.0, "VOR/DME")
    two = Station.of([10.9] * 5, 50.5, 0.0, [0.0, 0.0, 0.0, 0.0, np.nan], "VOR/DME")
    first = Lines(one, np.array([RADIAL, RADIAL, DISTANCE, DISTANCE, RADIAL]), np.array([62.0, 62.0, 40.0, 30.0, 62.0]))
    second = Lines(
        two, np.array([RADIAL, DISTANCE, RADIAL, DISTANCE, RADIAL]), np.array([171.0, 22.0, 200.0, 25.0, 171.0])
    )
    both = fix_crossing.cross(first, second, slant=False, year=YEAR)
    assert both[0].fix.code.tolist() == [0, 0, 0, 0, reasons.NO_DECLINATION]
    for row in range(5):
        alone = fix_crossing.cross(
            Lines(one.take([row]), first.kind[[row]], first.value[[row]]),
            Lines(two.take([row]), second.kind[[row]], second.value[[row]]), slant=False, year=YEAR,
        )  # fmt: skip
        for c, lone in zip(both, alone):
            taken = c.take(np.array([row]))
            assert taken.fix.lat.tobytes() == lone.fix.lat.tobytes()
            assert taken.fix.code[0] == lone.fix.code[0]
            assert taken.dist_2_nm.tobytes() == lone.dist_2_nm.tobytes()


def test_a_year_outside_the_model_is_refused():
    vor = _lines(_at((50.0, 10.0)), RADIAL, 10.0)
    with pytest.raises(ValueError, match="2025"):
        fix_crossing.cross(vor, _lines(_at((50.5, 10.9)), RADIAL, 171.0), year=2019.0)


# --- a DME that stands apart from its VOR


@settings(max_examples=50)
@given(lons, lats, bearings, bearings, st.floats(15.0, 3000.0), st.floats(4.0, 150.0), declinations, heights)
def test_a_radial_and_a_dme_apart_cross(lon, lat, radial, to_dme, apart_m, slant, decl, height):
    """The fix lies on the VOR's radial and at the DME's ground distance, each from its own site, to 1 mm."""
    elev, alt = height
    high = (alt - elev) / FT_PER_NM
    assume(abs(high) < slant - 0.1)
    ground = math.sqrt(slant**2 - high**2)
    assume(ground > 1.1 * apart_m / NM)
    dme = _direct(lat, lon, to_dme, apart_m / NM)
    station = _at((lat, lon), decl=decl, elev=20000.0, dme_lat=dme[0], dme_lon=dme[1], dme_elev_ft=elev)
    fix = fixes.radial_distance(station, radial, slant, slant=True, alt_ft=alt, year=YEAR)
    assert fix.code[0] == reasons.OK
    azimuth, _, from_vor = _inverse((lat, lon), _place(fix))
    off = math.radians(_wrap(azimuth - radial - decl))
    assert from_vor * NM * abs(math.sin(off)) < MM and math.cos(off) > 0.0
    assert abs(_inverse(dme, _place(fix))[2] - ground) * NM < MM
    assert fix.dme_nm[0] == pytest.approx(slant, abs=1e-6)
    assert fix.dist_nm[0] == pytest.approx(from_vor, abs=1e-6)
    at_vor = fixes.radial_distance(_at((lat, lon), decl=decl), radial, ground, year=YEAR)
    moved = _inverse(_place(fix), _place(at_vor))[2] * NM
    assert moved < 1.2 * apart_m + 1.0  # a small angle at the DME: the fix moves by no more than it stands apart


@pytest.mark.parametrize(("apart_m", "same"), [(9.9, True), (10.1, False)])
def test_ten_metres_are_one_site(apart_m, same):
    """Common practice: aids on one site count as one; beyond 10 m the arc has a centre of its own."""
    dme = _direct(50.0, 10.0, 90.0, apart_m / NM)
    apart = _at((50.0, 10.0), dme_lat=dme[0], dme_lon=dme[1], dme_elev_ft=0.0)
    fix = fixes.radial_distance(apart, 90.0, 20.0, year=YEAR)
    plain = fixes.radial_distance(_at((50.0, 10.0)), 90.0, 20.0, year=YEAR)
    moved = _inverse(_place(fix), _place(plain))[2] * NM
    assert moved == pytest.approx(0.0 if same else apart_m, abs=MM)


def test_a_dme_apart_that_no_radial_reaches():
    """3 NM abeam of the radial, 2 NM ground distance: refused with the reason, not drawn from the VOR."""
    dme = _direct(50.0, 10.0, 0.0, 3.0)
    station = _at((50.0, 10.0), dme_lat=dme[0], dme_lon=dme[1], dme_elev_ft=0.0)
    fix = fixes.radial_distance(station, 90.0, 2.0, year=YEAR)
    assert fix.code[0] == reasons.ARC_NOT_REACHED and math.isnan(fix.lat[0])


# --- crossings of a plan table

NAVAIDS = [
    # ident, kind, lon, lat, elevation, declination: invented, over open ocean
    ("QLF", "VOR/DME", -40.0, 43.0, 600.0, -14.0),
    ("KVT", "VOR/DME", -39.2, 43.5, 300.0, -15.0),
    ("NDX", "NDB", -40.6, 43.4, 100.0, np.nan),
    ("TWO", "VOR", -39.5, 42.6, 100.0, -13.0),
    ("TWO", "NDB", -30.0, 42.6, 100.0, np.nan),
    ("SIT", "VOR", -39.6, 42.7, 100.0, -13.0),
    ("SIT", "DME", -39.6, 42.7, 100.0, np.nan),
]
NAVAID_COLUMNS = {
    name: np.array(values, dtype=object if name in ("ident", "kind") else float)
    for name, values in zip(("ident", "kind", "lon", "lat", "elev_ft", "decl_deg"), zip(*NAVAIDS))
}
ROW = dict(exercise="X", fix_method="crossing", navaid="QLF", north="station", inbound_deg=90, turn="right", leg_min=1,
           ias_kt=90, area_ias_kt=170, alt_ft=6000, isa_dev_c=0, rules="icao")  # fmt: skip
TWO_RADIALS = dict(ROW, radial_deg=75, navaid_2="KVT", radial_2_deg=210)
RADIAL_AND_ARC = dict(ROW, radial_deg=75, navaid_2="KVT", distance_2_nm=25)


def _built(row, **columns):
    table = {name: [value] for name, value in row.items()}
    return plan.build(table, {**NAVAID_COLUMNS, **columns}, var_date="2026-09-01", year=YEAR, tolerance_m=50.0)


def _planned(row, **columns) -> dict:
    built = _built(row, **columns)
    assert built.reasons.tolist() == [""]
    fix = {name: values[0] for name, values in built.fixes.items()}
    for name in ("navaid_2", "cut_deg", "line", "line_2", "radial_2_deg", "method"):
        assert built.holds[name][0] == fix[name]
    return fix


def _refused(row, **columns) -> str:
    built = _built(row, **columns)
    assert len(built.rows) == 0
    return built.reasons[0]


def test_two_radials_of_a_plan():
    """Radials 075 and 210 by declinations 14 and 15 W: true 061 and 195."""
    fix = _planned(TWO_RADIALS)
    assert _inverse((43.0, -40.0), (fix["lat"], fix["lon"]))[0] == pytest.approx(61.0, abs=1e-7)
    assert _inverse((43.5, -39.2), (fix["lat"], fix["lon"]))[0] % 360.0 == pytest.approx(195.0, abs=1e-7)
    assert fix["fix"] == "QLF R075 + KVT R210"
    assert (fix["method"], fix["navaid"]) == ("crossing", "QLF")
    assert (fix["navaid_2"], fix["navaid_2_kind"]) == ("KVT", "VOR/DME")
    assert (fix["line"], fix["line_2"]) == ("radial", "radial")
    assert (fix["navaid_2_lat"], fix["navaid_2_lon"], fix["navaid_2_elev_ft"]) == (43.5, -39.2, 300.0)
    assert (fix["radial_deg"], fix["radial_2_deg"]) == pytest.approx((75.0, 210.0), abs=1e-7)
    assert fix["assumed"] == "", "nothing is assumed of a full row"


def test_the_method_is_implied_by_a_second_navaid():
    fix = _planned({**TWO_RADIALS, "fix_method": ""})
    assert fix["method"] == "crossing" and fix["assumed"] == "fix method crossing"


def test_of_two_places_the_first_and_it_is_said():
    fix = _planned({**RADIAL_AND_ARC, "distance_kind": "slant"})
    assert fix["fix"] == "QLF R075 + KVT D25.0"
    assert fix["assumed"] == f"of two crossings the first, at {fix['position']}"
    assert fix["dme_2_nm"] == pytest.approx(25.0, abs=1e-7)
    assert fix["dist_nm"] < 25.0


@pytest.mark.parametrize("names", [("lat", "lon"), ("from_lat", "from_lon")])
def test_of_two_places_the_nearer_to_a_position(names):
    first = _planned({**RADIAL_AND_ARC, "distance_kind": "slant"})
    north_east = {**RADIAL_AND_ARC, "distance_kind": "slant", names[0]: 44.0, names[1]: -38.8}
    second = _planned(north_east)
    assert second["assumed"] == f"of two crossings the second, at {second['position']}"
    assert second["dist_nm"] > first["dist_nm"] + 10.0 and second["dme_2_nm"] == pytest.approx(25.0, abs=1e-7)
    assert second["fix"] == "QLF R075 + KVT D25.0"
    near_first = _planned({**north_east, names[0]: first["lat"], names[1]: first["lon"]})
    assert (near_first["lat"], near_first["lon"]) == (first["lat"], first["lon"])


def test_one_place_only_has_no_such_note():
    """An arc that holds the station: the other crossing lies behind it."""
    fix = _planned({**RADIAL_AND_ARC, "distance_kind": "slant", "distance_2_nm": 60})
    assert fix["assumed"] == ""


def test_an_arc_is_a_dme_reading_unless_said_otherwise():
    fix = _planned(RADIAL_AND_ARC)
    assert fix["assumed"].startswith("the distance is a DME reading; of two crossings")
    assert fix["dme_2_nm"] == pytest.approx(25.0, abs=1e-7) and fix["dist_2_nm"] < 25.0 - 0.01
    ground = _planned({**RADIAL_AND_ARC, "distance_kind": "ground"})
    assert "DME reading" not in ground["assumed"] and ground["dist_2_nm"] == pytest.approx(25.0, abs=1e-7)
    assert "DME reading" not in _planned(TWO_RADIALS)["assumed"]


def test_two_arcs_of_a_plan():
    fix = _planned({**ROW, "distance_nm": 30, "navaid_2": "kvt", "distance_2_nm": 25, "distance_kind": "slant"})
    assert fix["fix"] == "QLF D30.0 + KVT D25.0" and (fix["line"], fix["line_2"]) == ("distance", "distance")
    assert fix["navaid_2"] == "KVT", "the ident as the navaids have it"
    assert (fix["dme_nm"], fix["dme_2_nm"]) == pytest.approx((30.0, 25.0), abs=1e-7)
    azimuth, base = (_inverse((43.0, -40.0), at)[0] for at in ((fix["lat"], fix["lon"]), (43.5, -39.2)))
    assert _wrap(azimuth - base) < 0.0, "left of the line of centres first"


def test_a_bearing_of_an_ndb_in_a_plan():
    lines = {"navaid": "NDX", "radial_deg": 130, "navaid_2": "KVT", "radial_2_deg": 240}
    fix = _planned({**ROW, **lines, "inbound_deg": 320})
    assert fix["fix"] == "NDX B130 + KVT R240"
    here = fix["lat"], fix["lon"]
    course = _inverse(here, (43.4, -40.6))[0]
    assert _wrap(course - 310.0 - _variation(*here)) == pytest.approx(0.0, abs=1e-7)


def test_a_line_given_twice_is_told():
    """A radial and a distance for one navaid of a crossing: the radial makes it."""
    fix = _planned({**TWO_RADIALS, "distance_nm": 12})
    assert fix["assumed"] == "of QLF the radial makes the crossing, not the distance"
    assert (fix["line"], fix["fix"]) == ("radial", "QLF R075 + KVT R210")


def test_a_dme_of_its_own_site_in_a_plan():
    """The navaids' columns dme_lon and dme_lat: the arc is drawn round that place."""
    sites = {name: np.full(len(NAVAIDS), np.nan) for name in ("dme_lon", "dme_lat", "dme_elev_ft")}
    sites["dme_lon"][1], sites["dme_lat"][1], sites["dme_elev_ft"][1] = -39.21, 43.51, 500.0
    fix = _planned({**RADIAL_AND_ARC, "distance_kind": "slant"}, **sites)
    ground = _inverse((43.51, -39.21), (fix["lat"], fix["lon"]))[2]
    assert math.hypot(ground, 5500.0 / FT_PER_NM) == pytest.approx(25.0, abs=1e-7)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"navaid_2": ""}, "navaid_2: is empty"),
        ({"navaid_2": "XYZ"}, "navaid_2: no navaid XYZ with a usable position"),
        ({"navaid_2": "SIT"}, "navaid_2: 2 navaids have the ident SIT (DME, VOR)"),
        ({"navaid": ""}, "the row names no navaid"),
        ({"radial_2_deg": ""}, "a number is missing"),
        ({"radial_2_deg": 400}, "the radial is not between 0 and 360 degrees"),
        ({"radial_2_deg": 30}, "behind a station"),
        ({"navaid_2": "QLF"}, "both lines start from the same place"),
        ({"navaid_2": "NDX", "radial_2_deg": "", "distance_2_nm": 10}, "gives no distance"),
        ({"radial_2_deg": "", "distance_2_nm": 3}, "the arc is not reached"),
        ({"alt_ft": 35000, "radial_2_deg": "", "distance_2_nm": 5}, "not longer than the height"),
    ],
)
def test_what_is_wrong_with_a_crossing_of_a_plan(change, words):
    assert words in _refused({**TWO_RADIALS, **change})


def test_of_two_navaids_with_one_ident_the_nearer_to_the_first():
    fix = _planned({**TWO_RADIALS, "radial_deg": 150, "navaid_2": "TWO", "radial_2_deg": 350, "inbound_deg": 0})
    assert (fix["navaid_2_lon"], fix["navaid_2_kind"]) == (-39.5, "VOR")
