"""Worked exercises with an invented station on open ocean: every input, and the result a practitioner expects.

The station, QLF, does not exist: VOR/DME, 41.4 N 167.5 W, elevation 1 240 ft, station declination 11 E; date
1 September 2026. Places computed with geographiclib on WGS 84 (two libraries, equal to 1e-9 degree); variation with an
independent evaluation of the World Magnetic Model 2025; airspeed with the ISA and the compressible equations; patterns
in the plane of the fix. Rules: FAA AIM 5-3-8. Tolerances: place 1e-6 degree (2 m where a pattern's point), true course
0.002, model course 0.03, 0.002 NM, 0.1 s.
"""

from __future__ import annotations

import datetime
import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import fixes, geodesy, holds, magnetism, plan, text
from fixwright.geometry.fixes import Station

WGS84 = Geodesic.WGS84
YEAR = magnetism.decimal_year(datetime.date(2026, 9, 1))
QLF = Station.of(-167.5, 41.4, elev_ft=1240.0, decl_deg=11.0, kind="VOR/DME")
PLACE = 1e-6
COURSE, MODEL_COURSE, NM = 0.002, 0.03, 0.002
STATION, MODEL, TRUE = range(3)


def _apart_nm(a, b) -> float:
    return WGS84.Inverse(float(a.lat[0]), float(a.lon[0]), float(b.lat[0]), float(b.lon[0]))["s12"] / 1852.0


def _at(lat: float, lon: float):
    return fixes.coordinates(lon, lat, year=YEAR)


def _is_at(fix, lat: float, lon: float, tolerance: float = PLACE) -> None:
    assert fix.lat[0] == pytest.approx(lat, abs=tolerance)
    assert fix.lon[0] == pytest.approx(lon, abs=tolerance)


def test_date_and_variation_of_the_station():
    assert YEAR == pytest.approx(2026.66575, abs=1e-5)
    assert float(magnetism.declination_deg(-167.5, 41.4, year=YEAR)) == pytest.approx(7.857, abs=MODEL_COURSE)


# --- radial 305, DME 14.0, at 8 500 ft: three norths, slant range


def _radial_305(north, slant=True):
    return fixes.radial_distance(QLF, 305.0, 14.0, slant=slant, alt_ft=8500.0, north=north, year=YEAR)


def test_ground_distance_of_dme_14():
    """7 260 ft above the station: 13.9489 NM, 94.6 m less (plane triangle, ICAO Doc 8168 Vol II, I-4-3-App C-13)."""
    fix = _radial_305(STATION)
    assert fix.dist_nm[0] == pytest.approx(13.9489, abs=NM)
    assert (14.0 - fix.dist_nm[0]) * 1852.0 == pytest.approx(94.6, abs=0.1)
    assert fix.dme_nm[0] == pytest.approx(14.0, abs=1e-9)


@pytest.mark.parametrize(
    ("north", "slant", "lat", "lon", "place"),
    [
        (STATION, True, 41.5671181, -167.7151469, PLACE),
        (MODEL, True, 41.5579835, -167.7270081, 1e-6),
        (TRUE, True, 41.5331356, -167.7535720, PLACE),
        (STATION, False, 41.5677294, -167.7159368, PLACE),
    ],
)
def test_one_radial_in_three_norths_and_as_ground_distance(north, slant, lat, lon, place):
    """316.000 true by the station's declination, 312.857 by the model's variation, 305 taken as true. The model's place
    moves 4e-6 degree for a hundredth of a degree of variation, hence its tolerance."""
    _is_at(_radial_305(north, slant), lat, lon, place)


def test_how_far_the_wrong_norths_lie():
    right = _radial_305(STATION)
    assert _apart_nm(right, _radial_305(MODEL)) == pytest.approx(0.765, abs=0.003)
    assert _apart_nm(right, _radial_305(TRUE)) == pytest.approx(2.674, abs=NM)


def test_courses_at_the_fix():
    """To QLF 135.857 true, 128.08 by the model; the course selector shows 125, the reciprocal of the radial: needle and
    navigator differ by 3 degrees (how a VOR works; FAA Pilot/Controller Glossary)."""
    fix = _radial_305(STATION)
    assert fix.course_true_deg[0] == pytest.approx(135.857, abs=COURSE)
    assert fix.course_model_deg[0] == pytest.approx(128.08, abs=MODEL_COURSE)
    assert fix.course_station_deg[0] == pytest.approx(125.0, abs=1e-6)
    assert fix.radial_deg[0] == pytest.approx(305.0, abs=1e-6)


# --- "hold 9 miles northwest of QLF on present course", arriving from the southeast


@pytest.fixture(name="beyond", scope="module")
def _beyond():
    return fixes.along_track(
        QLF, 9.0, beyond=True, from_lon=-167.2446590, from_lat=41.1697774, alt_ft=4000.0, year=YEAR
    )


def test_a_fix_beyond_on_present_course(beyond):
    """18.0 NM southeast on 320.168 true, 320.000 arriving at QLF; the fix lies beyond on the same geodesic: 319.915
    there, 312.11 by the model, radial 309.0, DME 9.011, 27.0 NM to fly. Computed with geographiclib on WGS 84."""
    fix, to_go, passed = beyond
    there = WGS84.Inverse(41.1697774, -167.2446590, 41.4, -167.5)
    assert there["azi1"] % 360.0 == pytest.approx(320.168, abs=COURSE)
    assert there["azi2"] % 360.0 == pytest.approx(320.000, abs=COURSE)
    _is_at(fix, 41.5148944, -167.6283464)
    assert fix.course_true_deg[0] == pytest.approx(319.915, abs=COURSE)
    assert fix.course_model_deg[0] == pytest.approx(312.11, abs=MODEL_COURSE)
    assert fix.radial_deg[0] == pytest.approx(309.0, abs=COURSE)
    assert fix.dme_nm[0] == pytest.approx(9.011, abs=NM)
    assert to_go[0] == pytest.approx(27.0, abs=NM)
    assert not passed[0]


def test_the_fix_on_the_wrong_side_is_18_miles_off(beyond):
    before, to_go, _ = fixes.along_track(
        QLF, 9.0, beyond=False, from_lon=-167.2446590, from_lat=41.1697774, alt_ft=4000.0, year=YEAR
    )
    assert _apart_nm(beyond[0], before) == pytest.approx(18.0, abs=NM)
    assert to_go[0] == pytest.approx(9.0, abs=NM)


def test_the_pattern_lies_between_fix_and_station():
    """The inbound course is the present course, so outbound is 132.11 by the model, towards the southeast (the
    direction in a clearance is that of the pattern from the fix: FAA AIM 5-3-8 i)."""
    row = {
        "navaid": ["QLF"], "fix_method": ["along_track"], "along_nm": ["9"], "along_side": ["beyond"],
        "from_lat": ["41.1697774"], "from_lon": ["-167.2446590"], "alt_ft": ["4000"],
    }  # fmt: skip
    built = _build(row)
    assert built.holds["outbound_model_deg"][0] == pytest.approx(132.11, abs=MODEL_COURSE)
    ring = built.patterns.coords
    fix_lat, fix_lon = built.fixes["lat"][0], built.fixes["lon"][0]
    reach = [WGS84.Inverse(fix_lat, fix_lon, y, x) for x, y in ring]
    farthest = max(reach, key=lambda r: r["s12"])
    assert 90.0 < farthest["azi1"] % 360.0 < 180.0, "not southeast of the fix"
    to_station = WGS84.Inverse(fix_lat, fix_lon, 41.4, -167.5)
    assert abs(farthest["azi1"] - to_station["azi1"]) < 30.0


def _build(rows):
    navaid_columns = {
        "ident": np.array(["QLF"], object), "kind": np.array(["VOR/DME"], object), "lon": np.array([-167.5]),
        "lat": np.array([41.4]), "elev_ft": np.array([1240.0]), "decl_deg": np.array([11.0]),
    }  # fmt: skip
    built = plan.build(rows, navaid_columns, var_date="2026-09-01", year=YEAR)
    assert built.reasons.tolist() == [""] * len(built.reasons)
    return built


# --- "5 mile legs" at a DME fix, 12 000 ft, 120 KIAS, right turns, FAA


@pytest.fixture(name="dme_12", scope="module")
def _dme_12():
    return fixes.radial_distance(QLF, 150.0, 12.0, slant=True, alt_ft=12000.0, year=YEAR)


def _five_miles(fix, inbound_deg, leg_end) -> holds.Holds:
    return holds.design(
        fix.lon, fix.lat, inbound_deg=inbound_deg, north=STATION, side=1, rules=holds.FAA, leg_min=np.nan, leg_nm=5.0,
        leg_end=leg_end, ias_kt=120.0, alt_ft=12000.0, navaid_lon=QLF.lon, navaid_lat=QLF.lat, navaid_elev_ft=1240.0,
        decl_deg=11.0, year=YEAR,
    )  # fmt: skip


def test_the_dme_fix(dme_12):
    """Fix at 11.8686 NM ground; to QLF 341.056 true, 333.16 by the model, selector 330."""
    assert dme_12.dist_nm[0] == pytest.approx(11.8686, abs=NM)
    _is_at(dme_12, 41.2128337, -167.4146690)
    assert dme_12.course_true_deg[0] == pytest.approx(341.056, abs=COURSE)
    assert dme_12.course_model_deg[0] == pytest.approx(333.16, abs=MODEL_COURSE)
    assert dme_12.course_station_deg[0] == pytest.approx(330.0, abs=1e-6)


def test_speed_and_turn(dme_12):
    """TAS 143.80, 3 degrees a second, radius 0.7629 NM, bank 21.6 (FAA AIM 5-3-8 j.8(b)); 120 KIAS, ISA."""
    hold = _five_miles(dme_12, 330.0, holds.DME_END)
    assert hold.tas_kt[0] == pytest.approx(143.80, abs=0.01)
    assert hold.rate_dps[0] == 3.0
    assert hold.radius_nm[0] == pytest.approx(0.7629, abs=0.0001)
    assert hold.bank_deg[0] == pytest.approx(21.6, abs=0.05)
    assert hold.width_nm[0] == pytest.approx(2.0 * 0.7629, abs=0.0002)


def _outbound_end(hold: holds.Holds):
    lon, lat = geodesy.place(
        hold.lon, hold.lat, hold.inbound_true_deg, hold.side, -hold.straight_nm, 2.0 * hold.radius_nm
    )
    return _at(float(lat[0]), float(lon[0]))


LEGS = [
    # inbound, leg end, reading, straight NM, outbound end, source
    (330.0, holds.DME_END, 17.0, 4.970, (41.1426841, -167.3472424), "FAA AIM 5-3-8 j, FIG 5-3-5, towards"),
    (330.0, holds.ALONG_TRACK, 17.03, 5.000, None, "FAA AIM 5-3-8, FIG 5-3-8: length along the track"),
    (150.0, holds.DME_END, 7.0, 5.270, (41.2876814, -167.4844015), "FAA AIM 5-3-8 j, FIG 5-3-6, away"),
    (150.0, holds.ALONG_TRACK, 7.26, 5.000, None, "FAA AIM 5-3-8, FIG 5-3-8: length along the track"),
]


@pytest.mark.parametrize(("inbound", "leg_end", "reading", "straight", "place", "source"), LEGS)
def test_where_the_outbound_leg_ends(dme_12, inbound, leg_end, reading, straight, place, source):
    assert source
    hold = _five_miles(dme_12, inbound, leg_end)
    assert hold.code[0] == 0
    # Readings to two decimals are rounded figures; DME ends are exact.
    assert hold.outbound_end_dme_nm[0] == pytest.approx(reading, abs=NM if leg_end == holds.DME_END else 0.005)
    assert hold.straight_nm[0] == pytest.approx(straight, abs=NM)
    if place:
        lat, lon = place
        assert _apart_nm(_outbound_end(hold), _at(lat, lon)) * 1852.0 < 2.0


def test_inbound_length_is_along_the_track_in_still_air(dme_12):
    """FAA AIM 5-3-8, FIG 5-3-8: some navigators take the figure as the inbound length; in still air the same."""
    one, two = (_five_miles(dme_12, 330.0, end) for end in (holds.ALONG_TRACK, holds.INBOUND_LENGTH))
    assert one.straight_nm[0] == two.straight_nm[0] == 5.0


def test_ground_distances_of_the_readings(dme_12):
    """17.0 reads 16.9075 NM over the ground and 7.0 reads 6.7723, 10 760 ft above the station: measured from the
    outbound ends with geographiclib."""
    for inbound, ground in ((330.0, 16.9075), (150.0, 6.7723)):
        end = _outbound_end(_five_miles(dme_12, inbound, holds.DME_END))
        assert _apart_nm(end, _at(41.4, -167.5)) == pytest.approx(ground, abs=NM)


def test_times(dme_12):
    """124.4 s on the straight leg in still air; the circuit is two half turns of 60 s and two such legs."""
    hold = _five_miles(dme_12, 330.0, holds.DME_END)
    leg_s = hold.straight_nm[0] / hold.tas_kt[0] * 3600.0
    assert leg_s == pytest.approx(124.4, abs=0.1)
    assert hold.circuit_s[0] == pytest.approx(120.0 + 2.0 * leg_s, abs=1e-6)
    assert hold.limits[0] == ""


def test_five_miles_through_the_plan():
    """The same hold as a row of a plan table gives the same figures."""
    row = {
        "navaid": ["QLF"], "radial_deg": ["150"], "distance_nm": ["12"], "distance_kind": ["slant"],
        "alt_ft": ["12000"], "leg_nm": ["5"], "ias_kt": ["120"], "rules": ["faa"], "turn": ["right"],
    }  # fmt: skip
    built = _build(row)
    assert built.holds["outbound_end_dme_nm"][0] == pytest.approx(17.0, abs=NM)
    assert built.holds["inbound_station_deg"][0] == pytest.approx(330.0, abs=1e-6)
    assert built.holds["inbound_true_deg"][0] == pytest.approx(341.056, abs=COURSE)
    lengths = dict(zip(built.tracks.columns["leg"], built.tracks.columns["length_nm"]))
    assert lengths["outbound"] == pytest.approx(4.970, abs=NM)
    assert lengths["turn_out"] == pytest.approx(math.pi * 0.7629, abs=NM)
    times = dict(zip(built.tracks.columns["leg"], built.tracks.columns["time_s"]))
    assert times["turn_out"] == pytest.approx(60.0, abs=0.01)


# --- one point, entered in different ways


@pytest.fixture(name="point", scope="module")
def _point():
    return fixes.radial_distance(QLF, 221.7, 17.0, north=TRUE, year=YEAR)


def test_one_point(point):
    """17.0 NM on true azimuth 221.7 of QLF; radial 210.70; to QLF 41.535 true, 33.74 by the model, selector 030.7."""
    _is_at(point, 41.1880661, -167.7496448)
    assert point.radial_deg[0] == pytest.approx(210.70, abs=COURSE)
    assert point.course_true_deg[0] == pytest.approx(41.535, abs=COURSE)
    assert point.course_model_deg[0] == pytest.approx(33.74, abs=MODEL_COURSE)
    assert point.course_station_deg[0] == pytest.approx(30.7, abs=COURSE)
    assert text.format_position(point.lon[0], point.lat[0], digits=4) == "41°11.2840'N 167°44.9787'W"


@pytest.mark.parametrize(
    ("radial", "north", "decl", "apart", "what"),
    [
        (211.0, STATION, 11.0, 0.089, "radial to the whole degree"),
        (210.7, MODEL, 11.0, 0.933, "the radial taken with the model's variation"),
        (213.74, STATION, 11.0, 0.902, "the reciprocal of the course displayed"),
        (213.74, MODEL, 11.0, 0.031, "the same with the model's variation"),
        (30.7, STATION, 11.0, 34.000, "the reciprocal radial by mistake"),
        (210.7, STATION, -11.0, 6.487, "the declination with the wrong sign"),
    ],
)
def test_how_far_each_entry_lies(point, radial, north, decl, apart, what):
    """Computed with geographiclib on WGS 84. The model's figures move 0.003 NM for a hundredth of a degree."""
    assert what
    station = Station.of(-167.5, 41.4, elev_ft=1240.0, decl_deg=decl, kind="VOR/DME")
    entered = fixes.radial_distance(station, radial, 17.0, north=north, year=YEAR)
    assert _apart_nm(point, entered) == pytest.approx(apart, abs=0.003 if north == MODEL else NM)


def test_slant_instead_of_ground(point):
    """DME 17.0 at 10 000 ft: 0.061 NM."""
    entered = fixes.radial_distance(QLF, 210.7, 17.0, slant=True, alt_ft=10000.0, year=YEAR)
    assert _apart_nm(point, entered) == pytest.approx(0.061, abs=NM)


@pytest.mark.parametrize(("digits", "metres", "tolerance"), [(1, 42.0, 0.5), (2, 7.6, 0.05), (3, 0.4, 0.05)])
def test_minutes_to_fewer_decimals(point, digits, metres, tolerance):
    """Latitude and longitude to 0.1, 0.01, 0.001 minute: 42, 7.6 and 0.4 m off."""
    written = text.format_position(point.lon[0], point.lat[0], digits=digits)
    lon, lat = text.parse_position(written)
    assert _apart_nm(point, _at(lat, lon)) * 1852.0 == pytest.approx(metres, abs=tolerance)


def test_half_a_degree_at_17_miles(point):
    """A radial half a degree off is 0.148 NM off at 17 NM."""
    entered = fixes.radial_distance(QLF, 211.2, 17.0, year=YEAR)
    assert _apart_nm(point, entered) == pytest.approx(0.148, abs=NM)
