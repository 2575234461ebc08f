"""Fixes measured back by an independent geodesic library (geographiclib on WGS 84), and tables of places.

What a fix is defined by is measured again from its place: a millimetre, from 85 south to 85 north and across the
antimeridian. Bearings of an NDB are read at the fix with the variation of an independent evaluation of the magnetic
model (pygeomag).
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from pygeomag import GeoMag

from fixwright.geometry import fixes, navaids
from fixwright.geometry.fixes import Station

WGS84 = Geodesic.WGS84
MODEL = GeoMag(coefficients_file="wmm/WMM_2025.COF")
YEAR = 2026.66575
MM = 1e-3
FT_PER_NM = 1852.0 / 0.3048


def _rows(name: str) -> list[dict[str, str]]:
    with open(Path(__file__).parent / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _variation(lon: float, lat: float) -> float:
    return MODEL.calculate(glat=lat, glon=lon, alt=0.0, time=YEAR).d


def _residuals(lon, lat, azimuth_deg, ground_nm, fix) -> tuple[float, float]:
    """How far a fix lies off its radial and off its distance, metres."""
    back = WGS84.Inverse(lat, lon, float(fix.lat[0]), float(fix.lon[0]))
    across = back["s12"] * math.sin(math.radians(back["azi1"] - azimuth_deg))
    along = back["s12"] * math.cos(math.radians(back["azi1"] - azimuth_deg))
    assert along > 0.0, "on the reciprocal"
    return abs(across), abs(back["s12"] - ground_nm * 1852.0)


lons = st.one_of(st.floats(-180.0, 180.0), st.floats(179.0, 180.0), st.floats(-180.0, -179.0))
lats = st.one_of(st.floats(-85.0, 85.0), st.sampled_from([-85.0, 85.0, 0.0]))
angles = st.one_of(st.floats(0.0, 360.0), st.sampled_from([0.0, 90.0, 360.0]))
declinations = st.floats(-60.0, 60.0)
distances = st.floats(0.1, 400.0)


@settings(max_examples=50)
@given(lons, lats, declinations, angles, distances, st.sampled_from([0, 1, 2]))
def test_radial_and_distance_in_three_norths(lon, lat, decl, radial, dist, north):
    at = Station.of(lon, lat, decl_deg=decl, kind="VOR/DME")
    fix = fixes.radial_distance(at, radial, dist, north=north, year=YEAR)
    assert fix.code[0] == 0
    add = (decl, float(fixes.declination_deg(lon, lat, year=YEAR)), 0.0)[north]
    across, along = _residuals(lon, lat, radial + add, dist, fix)
    assert across < MM
    assert along < MM
    assert -180.0 < fix.lon[0] <= 180.0


@settings(max_examples=25)
@given(lons, st.floats(-70.0, 70.0), angles, distances)
def test_model_north_is_the_model_at_the_station(lon, lat, radial, dist):
    """The variation computed by pygeomag; two evaluations of one model agree to 1e-4 degree away from the poles."""
    fix = fixes.radial_distance(Station.of(lon, lat), radial, dist, north=navaids.MODEL, year=YEAR)
    back = WGS84.Inverse(lat, lon, float(fix.lat[0]), float(fix.lon[0]))
    assert abs((back["azi1"] - radial - _variation(lon, lat) + 180.0) % 360.0 - 180.0) < 2e-3


@settings(max_examples=35)
@given(lons, lats, angles, st.floats(0.2, 300.0), st.floats(-1000.0, 12000.0), st.floats(-1000.0, 45000.0))
def test_slant_range_both_ways(lon, lat, radial, slant, elev_ft, alt_ft):
    """A DME fix lies where its slant range over the height is the ground distance; the fix's dme_nm gives it back."""
    height = (alt_ft - elev_ft) / FT_PER_NM
    assume(abs(height) < slant * 0.999)
    at = Station.of(lon, lat, elev_ft=elev_ft, decl_deg=3.0, kind="VOR/DME")
    fix = fixes.radial_distance(at, radial, slant, slant=True, alt_ft=alt_ft, year=YEAR)
    assert fix.code[0] == 0
    across, along = _residuals(lon, lat, radial + 3.0, math.sqrt(slant**2 - height**2), fix)
    assert across < MM
    assert along < MM
    assert abs(fix.dme_nm[0] - slant) * 1852.0 < MM * max(1.0, slant / fix.dist_nm[0])
    ground = fixes.radial_distance(at, radial, fix.dist_nm[0], alt_ft=alt_ft, year=YEAR)
    assert WGS84.Inverse(fix.lat[0], fix.lon[0], ground.lat[0], ground.lon[0])["s12"] < MM


@settings(max_examples=35)
@given(lons, lats, declinations, angles, distances)
def test_radial_course_and_selector_at_the_fix(lon, lat, decl, radial, dist):
    """The radial comes back; the course towards the station is the azimuth of the geodesic; the selector shows the
    reciprocal of the radial, the line's number at the station."""
    fix = fixes.radial_distance(Station.of(lon, lat, decl_deg=decl, kind="VOR"), radial, dist, year=YEAR)
    back = WGS84.Inverse(float(fix.lat[0]), float(fix.lon[0]), lat, lon)
    metres = np.radians(1.0) * back["s12"]
    for got, want in (
        (fix.radial_deg[0], radial),
        (fix.course_true_deg[0], back["azi1"]),
        (fix.course_station_deg[0], radial + 180.0),
        (fix.course_model_deg[0], back["azi1"] - fix.var_deg[0]),
    ):
        assert 0.0 <= got < 360.0
        assert abs((got - want + 180.0) % 360.0 - 180.0) * metres < MM


@settings(max_examples=35)
@given(lons, lats, declinations, angles, distances, st.booleans(), st.sampled_from([0, 1, 2]))
def test_along_track(lon, lat, decl, course, dist, beyond, north):
    """Before the point the geodesic from the fix reaches the point on the course; beyond it leaves on the course."""
    point = Station.of(lon, lat, decl_deg=decl, kind="VOR")
    fix, _, passed = fixes.along_track(point, dist, beyond=beyond, course_deg=course, north=north, year=YEAR)
    assert fix.code[0] == 0 and not passed[0]
    true = course + (decl, float(fixes.declination_deg(lon, lat, year=YEAR)), 0.0)[north]
    across, along = _residuals(lon, lat, true + (0.0 if beyond else 180.0), dist, fix)
    assert across < MM
    assert along < MM
    if beyond:
        travel = WGS84.Inverse(lat, lon, float(fix.lat[0]), float(fix.lon[0]))["azi2"]
    else:
        travel = WGS84.Inverse(float(fix.lat[0]), float(fix.lon[0]), lat, lon)["azi1"]
    off = (fix.course_true_deg[0] - travel + 180.0) % 360.0 - 180.0
    assert abs(np.radians(off)) * dist * 1852.0 < MM


@settings(max_examples=35)
@given(lons, lats, angles, st.floats(0.5, 400.0), st.floats(0.0, 400.0), st.booleans())
def test_present_course_from_a_position(lon, lat, bearing, away, dist, beyond):
    """The present course is the geodesic from the position to the point, extended beyond it: the fix lies on it,
    at its distance from the point, and what is left to fly is what lies between."""
    start = WGS84.Direct(lat, lon, bearing, away * 1852.0)
    assume(abs(start["lat2"]) <= 85.0)
    point = Station.of(lon, lat, decl_deg=0.0, kind="VOR")
    fix, to_go, passed = fixes.along_track(
        point, dist, beyond=beyond, from_lon=start["lon2"], from_lat=start["lat2"], year=YEAR
    )
    assert fix.code[0] == 0
    whole = WGS84.Inverse(start["lat2"], start["lon2"], lat, lon)
    want = WGS84.Direct(lat, lon, whole["azi2"], dist * 1852.0 * (1.0 if beyond else -1.0))
    assert WGS84.Inverse(want["lat2"], want["lon2"], fix.lat[0], fix.lon[0])["s12"] < MM
    left = whole["s12"] + dist * 1852.0 * (1.0 if beyond else -1.0)
    assert abs(to_go[0] * 1852.0 - left) < MM
    assert bool(passed[0]) == (to_go[0] < 0.0)
    turned = np.radians((fix.course_true_deg[0] - want["azi2"] + 180.0) % 360.0 - 180.0)
    assert abs(turned) * max(dist, 1.0) * 1852.0 < MM


@settings(max_examples=25)
@given(lons, st.floats(-50.0, 60.0), angles, st.floats(0.5, 75.0), st.sampled_from([0, 1]))
def test_a_bearing_of_an_ndb_is_read_at_the_fix(lon, lat, bearing, dist, north):
    """An NDB has no alignment: the course from the fix to it is bearing + 180 + the variation at the fix (common
    practice). Measured back with geographiclib to a millimetre; against the variation of pygeomag to its accuracy."""
    fix = fixes.radial_distance(Station.of(lon, lat, kind="NDB"), bearing, dist, north=north, year=YEAR)
    assert fix.code[0] == 0
    there = (float(fix.lon[0]), float(fix.lat[0]))
    back = WGS84.Inverse(there[1], there[0], lat, lon)
    own = float(fixes.declination_deg(*there, year=YEAR))
    off = (back["azi1"] - bearing - 180.0 - own + 180.0) % 360.0 - 180.0
    assert abs(math.radians(off)) * back["s12"] < MM
    assert abs(back["s12"] - dist * 1852.0) < MM
    assert abs(own - _variation(*there)) < 2e-3
    assert abs((fix.radial_deg[0] - bearing + 180.0) % 360.0 - 180.0) < 1e-6


@settings(max_examples=25)
@given(lons, lats, lons, lats)
def test_coordinates(lon, lat, station_lon, station_lat):
    """The place stays; what it is from the station is the geodesic's."""
    at = Station.of(station_lon, station_lat, decl_deg=7.0, kind="VOR/DME", elev_ft=0.0)
    fix = fixes.coordinates(lon, lat, at, alt_ft=0.0, year=YEAR)
    assert fix.code[0] == 0
    assert fix.lat[0] == lat
    assert abs((fix.lon[0] - lon + 180.0) % 360.0 - 180.0) < 1e-12
    back = WGS84.Inverse(lat, lon, station_lat, station_lon, Geodesic.STANDARD | Geodesic.REDUCEDLENGTH)
    assert abs(fix.dist_nm[0] * 1852.0 - back["s12"]) < MM
    assert fix.dme_nm[0] == pytest.approx(fix.dist_nm[0], abs=1e-9)
    if 1.0 < back["s12"] < 1.9e7:
        off = (fix.radial_deg[0] + 7.0 - back["azi2"] - 180.0 + 180.0) % 360.0 - 180.0
        assert abs(math.radians(off) * back["m12"]) < MM
    elif back["s12"] < 1.0:
        assert math.isnan(fix.radial_deg[0])


@pytest.mark.parametrize("row", _rows("radial_distance.csv"), ids=lambda r: f"{r['lat_deg']} {r['radial_deg']}")
def test_place_bearing_distance(row):
    """Computed with geographiclib on WGS 84: radials by the station's declination, east positive."""
    g = {k: float(v) for k, v in row.items() if k != "source"}
    at = Station.of(g["lon_deg"], g["lat_deg"], decl_deg=g["decl_deg"], kind="VOR/DME")
    fix = fixes.radial_distance(at, g["radial_deg"], g["ground_nm"], year=YEAR)
    assert fix.lat[0] == pytest.approx(g["fix_lat_deg"], abs=g["tolerance_deg"])
    assert fix.lon[0] == pytest.approx(g["fix_lon_deg"], abs=g["tolerance_deg"])


@pytest.mark.parametrize("row", _rows("along_track.csv"), ids=lambda r: f"{r['lat_deg']} {r['along_nm']}")
def test_along_a_track(row):
    """Computed with geographiclib on WGS 84 to 1e-9 degree; the course given at the point, or by a position flown
    from."""
    g = {k: float(v) if v else math.nan for k, v in row.items() if k != "source"}
    fix, to_go, _ = fixes.along_track(
        Station.of(g["lon_deg"], g["lat_deg"]),
        abs(g["along_nm"]),
        beyond=g["along_nm"] > 0.0,
        course_deg=g["course_true_deg"],
        north=navaids.TRUE,
        from_lon=g["from_lon_deg"],
        from_lat=g["from_lat_deg"],
        year=YEAR,
    )
    assert fix.lat[0] == pytest.approx(g["fix_lat_deg"], abs=2e-9)
    assert fix.lon[0] == pytest.approx(g["fix_lon_deg"], abs=2e-9)
    assert fix.course_true_deg[0] == pytest.approx(g["course_at_fix_deg"], abs=1e-7)
    if math.isfinite(g["from_lon_deg"]):
        # 94.528483 NM from the position to the point, course 139.0613140 there and 140.2977881 at the point.
        assert to_go[0] == pytest.approx(94.528483 + g["along_nm"], abs=2e-6)


def test_an_ndb_bearing_with_the_same_variation_everywhere(monkeypatch):
    """NDB 50 N 10 E, bearing 080, 25 NM, variation 5 E everywhere: the place at which the bearing is read is 398 m
    from the geodesic 085 of the station; azimuth there 84.5070374. Computed with geographiclib on WGS 84."""
    monkeypatch.setattr(fixes, "declination_deg", lambda lon, lat, *, year: np.full(np.shape(lon), 5.0))
    fix = fixes.radial_distance(Station.of(10.0, 50.0, kind="NDB"), 80.0, 25.0, north=navaids.MODEL, year=YEAR)
    assert fix.lat[0] == pytest.approx(50.038063227, abs=2e-9)
    assert fix.lon[0] == pytest.approx(10.643334896, abs=2e-9)
    out = WGS84.Inverse(50.0, 10.0, fix.lat[0], fix.lon[0])
    assert out["azi1"] == pytest.approx(84.5070374, abs=1e-7)
    straight = WGS84.Direct(50.0, 10.0, 85.0, 25.0 * 1852.0)
    apart = WGS84.Inverse(straight["lat2"], straight["lon2"], fix.lat[0], fix.lon[0])["s12"]
    assert apart == pytest.approx(398.0, abs=1.0)
    assert fix.radial_deg[0] == pytest.approx(80.0, abs=1e-8)
