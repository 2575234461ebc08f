from __future__ import annotations

import re
from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import geodesy, holds, magnetism, navaids, reasons

YEAR = 2026.5
ICAO, FAA = holds.ICAO, holds.FAA
FT_PER_NM = 1852.0 / 0.3048
BASE = dict(
    inbound_deg=90.0, north=navaids.TRUE, side=1, rules=ICAO, leg_min=1.0, leg_nm=np.nan, leg_end=holds.ALONG_TRACK,
    ias_kt=110.0, alt_ft=5000.0, year=YEAR,
)  # fmt: skip
FIGURES = [
    "lon", "lat", "inbound_true_deg", "inbound_model_deg", "inbound_station_deg", "outbound_model_deg", "tas_kt",
    "bank_deg", "rate_dps", "radius_nm", "straight_nm", "width_nm", "length_nm", "circuit_s", "var_deg",
]  # fmt: skip


def _hold(lon=10.0, lat=50.0, **changes) -> holds.Holds:
    return holds.design(lon, lat, **{**BASE, **changes})


def _angle(a, b) -> float:
    return float(np.max(np.abs((np.asarray(a) - b + 180.0) % 360.0 - 180.0)))


# --- why a row fails


CODES = [
    (reasons.OK, dict()),
    (reasons.NO_POSITION, dict(lon=np.nan)),
    (reasons.NO_POSITION, dict(lat=np.inf)),
    (reasons.NO_POSITION, dict(lat=91.0)),
    (reasons.NO_POSITION, dict(lon=1e6)),
    (reasons.NEAR_POLE, dict(lat=89.5)),
    (reasons.OK, dict(lat=85.0)),
    (reasons.OK, dict(lat=86.9)),
    (reasons.NO_COURSE, dict(inbound_deg=np.nan)),
    (reasons.COURSE_RANGE, dict(inbound_deg=-0.1)),
    (reasons.COURSE_RANGE, dict(inbound_deg=360.1)),
    (reasons.OK, dict(inbound_deg=0.0)),
    (reasons.OK, dict(inbound_deg=360.0)),
    (reasons.NO_ALTITUDE, dict(alt_ft=np.nan)),
    (reasons.ALTITUDE_RANGE, dict(alt_ft=-2000.1)),
    (reasons.ALTITUDE_RANGE, dict(alt_ft=60000.1)),
    (reasons.ALTITUDE_RANGE, dict(alt_to_ft=60000.1)),
    (reasons.OK, dict(alt_ft=-2000.0)),
    (reasons.OK, dict(alt_ft=60000.0)),
    (reasons.BLOCK_ORDER, dict(alt_ft=5000.0, alt_to_ft=4999.0)),
    (reasons.OK, dict(alt_ft=5000.0, alt_to_ft=5000.0)),
    (reasons.NO_SPEED, dict(ias_kt=np.nan)),
    (reasons.SPEED_RANGE, dict(ias_kt=29.9)),
    (reasons.SPEED_RANGE, dict(ias_kt=500.1)),
    (reasons.SPEED_RANGE, dict(area_ias_kt=29.9)),
    (reasons.SPEED_RANGE, dict(area_ias_kt=500.1)),
    (reasons.OK, dict(ias_kt=30.0)),
    (reasons.OK, dict(ias_kt=500.0)),
    (reasons.NOT_SUBSONIC, dict(ias_kt=450.0, alt_ft=50000.0)),
    (reasons.TEMPERATURE_RANGE, dict(isa_dev_c=60.1)),
    (reasons.TEMPERATURE_RANGE, dict(isa_dev_c=-80.1)),
    (reasons.TEMPERATURE_RANGE, dict(isa_dev_c=np.nan)),
    (reasons.OK, dict(isa_dev_c=60.0)),
    (reasons.OK, dict(isa_dev_c=-80.0)),
    (reasons.LEG_RANGE, dict(leg_min=0.09)),
    (reasons.LEG_RANGE, dict(leg_min=10.1)),
    (reasons.LEG_RANGE, dict(leg_min=np.nan)),
    (reasons.LEG_RANGE, dict(leg_nm=0.49)),
    (reasons.LEG_RANGE, dict(leg_nm=100.1)),
    (reasons.OK, dict(leg_min=0.1)),
    (reasons.OK, dict(leg_min=10.0)),
    (reasons.OK, dict(leg_nm=100.0)),
    (reasons.NO_DME, dict(leg_nm=5.0, leg_end=holds.DME_END)),
    (reasons.NO_DME, dict(leg_nm=5.0, leg_end=holds.DME_END, navaid_lon=10.3, navaid_lat=50.0)),
    (reasons.NO_DME, dict(leg_nm=5.0, leg_end=holds.DME_END, navaid_lon=10.3, navaid_lat=50.0, navaid_elev_ft=0.0,
                          has_dme=False)),
    (reasons.OK, dict(leg_nm=5.0, leg_end=holds.DME_END, navaid_lon=10.3, navaid_lat=50.0, navaid_elev_ft=0.0)),
    # Away, 6.4 NM from the station: a reading 8 NM less is below the height.
    (reasons.SLANT_TOO_SHORT, dict(leg_nm=8.0, leg_end=holds.DME_END, navaid_lon=9.83333, navaid_lat=50.0,
                                   navaid_elev_ft=0.0)),
    # The station abeam, 10 NM to the side where the pattern is not: 9 NM less is never read.
    (reasons.NO_LEG_END, dict(leg_nm=5.0, leg_end=holds.DME_END, navaid_lon=9.99, navaid_lat=50.1666,
                              navaid_elev_ft=0.0)),
]  # fmt: skip


@pytest.mark.parametrize(("reason", "changes"), CODES, ids=lambda v: str(v))
def test_why_a_hold_fails(reason, changes):
    hold = _hold(**changes)
    assert hold.code.tolist() == [reason]
    for name in FIGURES:
        assert np.isfinite(getattr(hold, name)[0]) == (reason == reasons.OK), name
    if reason:
        assert hold.limits[0] == ""


def test_a_year_outside_the_model_is_refused():
    with pytest.raises(ValueError, match="2025"):
        _hold(year=2031.0)


# --- rows do not touch each other


def _many(n=48):
    k = np.arange(n)
    return dict(
        lon=-180.0 + 7.5 * k, lat=-84.0 + 3.5 * k, inbound_deg=7.5 * k, north=k % 3, side=np.where(k % 2, 1, -1),
        rules=k % 2, leg_min=1.0, leg_nm=np.where(k % 4, np.nan, 5.0), leg_end=k % 3, ias_kt=80.0 + 3.0 * k,
        alt_ft=1000.0 * (k % 30), isa_dev_c=k % 10 - 5.0, navaid_lon=-180.0 + 7.5 * k + 0.2, navaid_lat=-84.2 + 3.5 * k,
        navaid_elev_ft=100.0, decl_deg=k % 7 - 3.0,
    )  # fmt: skip


def _design(values):
    values = dict(values)
    return holds.design(values.pop("lon"), values.pop("lat"), **{**BASE, **values})


def test_the_same_row_alone_and_in_a_batch():
    values = _many()
    whole = _design(values)
    assert (whole.code == 0).sum() > 40
    for i in range(48):
        alone = _design({k: v if np.isscalar(v) else v[i] for k, v in values.items()})
        for f in fields(holds.Holds):
            one, of_many = getattr(alone, f.name), getattr(whole, f.name)[i : i + 1]
            assert (one.tolist() == of_many.tolist()) or np.array_equal(one, of_many, equal_nan=True), (i, f.name)


@pytest.mark.parametrize("name", ["lon", "lat", "inbound_deg", "ias_kt", "alt_ft", "isa_dev_c"])
def test_nan_spoils_its_own_row_only(name):
    values = _many()
    whole = _design(values)
    spoilt = np.arange(48) % 5 == 2
    values[name] = np.where(spoilt, np.nan, values[name])
    part = _design(values)
    assert (part.code[spoilt] != 0).all()
    for figure in FIGURES:
        assert np.isnan(getattr(part, figure)[spoilt]).all()
        assert getattr(part, figure)[~spoilt].tobytes() == getattr(whole, figure)[~spoilt].tobytes()


def test_everything_broadcasts():
    assert _hold().lon.shape == (1,)
    hold = _hold(lon=[10.0, 11.0], ias_kt=[[90.0], [100.0], [110.0]])
    assert hold.radius_nm.shape == (3, 2) and hold.limits.shape == (3, 2)
    part = _hold(lon=[10.0, 11.0, 12.0]).take(np.array([True, False, True]))
    assert part.lon.tolist() == [10.0, 12.0]


# --- figures


@settings(max_examples=25)
@given(st.floats(-180.0, 180.0), st.floats(-85.0, 85.0), st.floats(0.0, 360.0), st.floats(40.0, 300.0),
       st.floats(0.0, 14000.0), st.floats(0.5, 3.0), st.sampled_from([ICAO, FAA]))  # fmt: skip
def test_figures_belong_together(lon, lat, inbound, ias, alt, minutes, rules):
    hold = _hold(lon=lon, lat=lat, inbound_deg=inbound, ias_kt=ias, alt_ft=alt, leg_min=minutes, rules=rules)
    assert hold.code[0] == 0
    assert hold.width_nm[0] == pytest.approx(2.0 * hold.radius_nm[0])
    assert hold.length_nm[0] == pytest.approx(hold.straight_nm[0] + 2.0 * hold.radius_nm[0])
    assert hold.straight_nm[0] == pytest.approx(hold.tas_kt[0] * minutes / 60.0, rel=1e-12)
    around = 2.0 * np.pi * hold.radius_nm[0] + 2.0 * hold.straight_nm[0]
    assert hold.circuit_s[0] == pytest.approx(around / hold.tas_kt[0] * 3600.0, rel=1e-9)
    assert _angle(hold.inbound_true_deg, inbound) < 1e-9
    assert _angle(hold.inbound_model_deg, inbound - hold.var_deg[0]) < 1e-9
    assert _angle(hold.outbound_model_deg, hold.inbound_model_deg + 180.0) < 1e-9
    for name in ("inbound_true_deg", "inbound_model_deg", "inbound_station_deg", "outbound_model_deg"):
        assert 0.0 <= getattr(hold, name)[0] < 360.0


def test_left_and_right_have_the_same_figures():
    right, left = _hold(side=1), _hold(side=-1)
    for name in FIGURES:
        assert getattr(right, name).tobytes() == getattr(left, name).tobytes()
    assert (right.side[0], left.side[0]) == (1, -1)


def test_scale_with_speed():
    """In the same air at 3 degrees a second all lengths grow with the true airspeed; times stay."""
    slow, fast = _hold(ias_kt=60.0), _hold(ias_kt=120.0)
    factor = fast.tas_kt[0] / slow.tas_kt[0]
    for name in ("radius_nm", "straight_nm", "width_nm", "length_nm"):
        assert getattr(fast, name)[0] / getattr(slow, name)[0] == pytest.approx(factor, rel=1e-12)
    assert fast.circuit_s[0] == pytest.approx(slow.circuit_s[0], rel=1e-12) == pytest.approx(240.0)


def test_the_kind_of_leg():
    timed, by_distance = _hold(), _hold(leg_nm=5.0)
    assert (timed.leg_kind[0], timed.leg_min[0]) == (holds.TIME, 1.0) and np.isnan(timed.leg_nm[0])
    assert (by_distance.leg_kind[0], by_distance.leg_nm[0]) == (holds.DISTANCE, 5.0)
    assert np.isnan(by_distance.leg_min[0])
    assert by_distance.straight_nm[0] == 5.0
    assert len(holds.LEG_KINDS) == 2 and holds.LEG_ENDS[holds.ALONG_TRACK] == "along_track"
    assert holds.LEG_ENDS[holds.DME_END] == "dme" and holds.LEG_ENDS[holds.INBOUND_LENGTH] == "inbound_length"


def test_a_single_level_is_its_own_block():
    assert _hold().alt_to_ft[0] == 5000.0
    assert _hold(alt_to_ft=7000.0).alt_to_ft[0] == 7000.0


# --- the inbound course in three norths


@settings(max_examples=20)
@given(st.floats(-180.0, 180.0), st.floats(-80.0, 80.0), st.floats(0.0, 360.0), st.floats(-30.0, 30.0),
       st.floats(0.01, 80.0), st.floats(0.0, 360.0))  # fmt: skip
def test_courses_there_and_back(lon, lat, course, decl, dist, bearing):
    """Given in any of the norths, the hold shows the same number in that north, and the three agree."""
    s_lon, s_lat, _ = geodesy.direct(lon, lat, bearing, dist)
    station = dict(navaid_lon=s_lon, navaid_lat=s_lat, decl_deg=decl)
    for north, name in enumerate(("inbound_station_deg", "inbound_model_deg", "inbound_true_deg")):
        hold = _hold(lon=lon, lat=lat, inbound_deg=course, north=north, **station)
        assert _angle(getattr(hold, name), course) < 1e-9
        again = _hold(lon=lon, lat=lat, inbound_deg=hold.inbound_true_deg, north=navaids.TRUE, **station)
        for other in ("inbound_station_deg", "inbound_model_deg", "inbound_true_deg"):
            assert _angle(getattr(again, other), getattr(hold, other)) < 1e-9


@settings(max_examples=25)
@given(st.floats(-180.0, 180.0), st.floats(-80.0, 80.0), st.floats(0.0, 360.0), st.floats(-30.0, 30.0),
       st.floats(0.5, 80.0))  # fmt: skip
def test_a_selector_course_is_the_radial_carried_to_the_fix(lon, lat, radial, decl, dist):
    """On the radial itself the selector shows the radial (away) or its reciprocal (towards), whatever the meridians do
    between station and fix."""
    there = geodesy.direct(lon, lat, radial + decl, dist)
    station = dict(navaid_lon=lon, navaid_lat=lat, decl_deg=decl)
    hold = _hold(lon=there[0], lat=there[1], inbound_deg=radial, north=navaids.STATION, **station)
    assert _angle(hold.inbound_true_deg, there[2]) < 1e-8 / np.sin(np.radians(dist / 60.0))
    towards = _hold(lon=there[0], lat=there[1], inbound_deg=(radial + 180.0) % 360.0, north=navaids.STATION, **station)
    assert _angle(towards.inbound_true_deg, there[2] + 180.0) < 1e-8 / np.sin(np.radians(dist / 60.0))


def test_station_north_without_a_station_is_the_model_s():
    var = float(magnetism.declination_deg(10.0, 50.0, year=YEAR))
    hold = _hold(north=navaids.STATION, inbound_deg=100.0)
    assert hold.inbound_true_deg[0] == pytest.approx(100.0 + var, abs=1e-9)
    overhead = _hold(north=navaids.STATION, inbound_deg=100.0, navaid_lon=10.0, navaid_lat=50.0, decl_deg=-3.0)
    assert overhead.inbound_true_deg[0] == pytest.approx(97.0, abs=1e-9)


# --- legs that end at a DME reading


@settings(max_examples=25)
@given(st.floats(0.5, 15.0), st.floats(-60.0, 60.0), st.floats(-8.0, 8.0), st.floats(0.2, 3.0), st.floats(-0.5, 4.0))
def test_the_dme_leg_measured_back(leg, us, ss, radius, height):
    length, code = holds.dme_leg_nm(leg, us, ss, radius, height)
    if int(code):
        assert np.isnan(length)
        return
    at_fix = np.sqrt(us**2 + ss**2 + height**2)
    at_end = np.sqrt((-float(length) - us) ** 2 + (2.0 * radius - ss) ** 2 + height**2)
    assert at_end == pytest.approx(at_fix + (leg if us >= 0.0 else -leg), abs=1e-9)
    assert float(length) > 0.0
    if us < 0.0:
        # Towards the station the reading falls to its least and grows again: the first time counts.
        assert float(length) <= -us + 1e-9


def test_a_dme_leg_with_the_station_on_the_course():
    """Plane figures by hand: no height, radius 0: 5 NM more or less."""
    for us, want in ((10.0, 5.0), (-10.0, 5.0)):
        length, code = holds.dme_leg_nm(5.0, us, 0.0, 0.0, 0.0)
        assert (float(length), int(code)) == (want, 0)
    # A turn diameter aside lengthens the ground distance: sqrt(15^2 - 2^2) - 10 towards, 10 - sqrt(5^2 - 2^2) away.
    assert float(holds.dme_leg_nm(5.0, 10.0, 0.0, 1.0, 0.0)[0]) == pytest.approx(np.sqrt(221.0) - 10.0)
    assert float(holds.dme_leg_nm(5.0, -10.0, 0.0, 1.0, 0.0)[0]) == pytest.approx(10.0 - np.sqrt(21.0))


def test_a_dme_leg_overhead_the_station():
    """At the station 5 NM more than the height: the leg runs out to that reading."""
    length, code = holds.dme_leg_nm(5.0, 0.0, 0.0, 0.5, 1.0)
    assert int(code) == 0
    assert np.sqrt(float(length) ** 2 + 1.0 + 1.0) == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("values", "reason"),
    [
        ((5.0, np.nan, 0.0, 1.0, 0.0), reasons.NO_DME),
        ((5.0, 10.0, 0.0, 1.0, np.nan), reasons.NO_DME),
        ((5.0, -4.0, 0.0, 1.0, 0.5), reasons.SLANT_TOO_SHORT),
        ((9.0, -10.0, 0.0, 1.0, 0.0), reasons.NO_LEG_END),
        ((0.5, 0.0, 10.0, 1.0, 0.0), reasons.OK),
    ],
)
def test_why_a_dme_leg_fails(values, reason):
    assert int(holds.dme_leg_nm(*values)[1]) == reason


# --- limits: each raised just beyond its boundary, not on it, with its paragraph


def _limits(**changes) -> str:
    hold = _hold(**changes)
    assert hold.code.tolist() == [0]
    return hold.limits[0]


SPEED_EDGES = [
    # rules, altitude, highest speed there, paragraph
    (ICAO, 0.0, 230.0, "Doc 8168"),
    (ICAO, 14000.0, 230.0, "Doc 8168"),
    (ICAO, 14001.0, 240.0, "Doc 8168"),
    (ICAO, 20000.0, 240.0, "Doc 8168"),
    (ICAO, 20001.0, 265.0, "Doc 8168"),
    (ICAO, 34000.0, 265.0, "Doc 8168"),
    (FAA, 1000.0, 200.0, "AIM 5-3-8 j.2"),
    (FAA, 6000.0, 200.0, "AIM 5-3-8 j.2"),
    (FAA, 6001.0, 230.0, "AIM 5-3-8 j.2"),
    (FAA, 14000.0, 230.0, "AIM 5-3-8 j.2"),
    (FAA, 14001.0, 265.0, "AIM 5-3-8 j.2"),
    (FAA, 40000.0, 265.0, "AIM 5-3-8 j.2"),
]


@pytest.mark.parametrize(("rules", "alt", "most", "paragraph"), SPEED_EDGES)
def test_speed_limit(rules, alt, most, paragraph):
    assert _limits(rules=rules, alt_ft=alt, ias_kt=most) == ""
    text = _limits(rules=rules, alt_ft=alt, ias_kt=most + 1.0, area_ias_kt=most)
    assert f"{most + 1:.0f} kt is faster than {most:.0f} kt at {alt:.0f} ft" in text
    assert paragraph in text
    text = _limits(rules=rules, alt_ft=alt, area_ias_kt=most + 1.0)
    assert "area" in text and f"{most:.0f} kt" in text and paragraph in text
    # A hair above is as much above as anything, and must be told.
    assert "faster" in _limits(rules=rules, alt_ft=alt, ias_kt=most + 0.001)


def test_speed_above_the_table_is_a_mach_number():
    """ICAO above 34 000 ft: Mach 0.83."""
    most = float(holds.maximum_ias_kt(36000.0, ICAO))
    assert 250.0 < most < 300.0
    assert _limits(alt_ft=36000.0, ias_kt=most - 0.5) == ""
    assert "faster" in _limits(alt_ft=36000.0, ias_kt=most + 0.5)


def test_slower_than_the_least():
    """FAA AIM 5-3-8 j.2: 90 KIAS or more."""
    assert _limits(rules=FAA, ias_kt=90.0) == ""
    assert re.search(r"slower than 90 kt .*AIM 5-3-8", _limits(rules=FAA, ias_kt=89.0))
    assert _limits(rules=ICAO, ias_kt=60.0) == ""


def test_faster_than_the_area():
    assert _limits(ias_kt=150.0, area_ias_kt=150.0) == ""
    assert "of the area" in _limits(ias_kt=151.0, area_ias_kt=150.0)


def test_a_distance_leg_of_less_than_30_seconds():
    """ICAO Doc 8168 Vol II, II-4-1-4, 1.3.2.3 a): at least 30 s on the inbound track. A timed leg is what it says."""
    tas = _hold().tas_kt[0]
    assert _limits(leg_nm=tas / 3600.0 * 30.1) == ""
    text = _limits(leg_nm=tas / 3600.0 * 29.0)
    assert "29 s, less than 30 s" in text and "II-4-1-4" in text
    assert _limits(leg_min=0.4) == ""


def test_a_dme_off_the_course():
    """More than 23 degrees between course and station: ICAO Doc 8168 Vol II, I-2-2 (from memory)."""
    for side in (-1.0, 1.0):
        for off, told in ((22.9, False), (23.1, True)):
            lon, lat, _ = geodesy.direct(10.0, 50.0, 90.0 + side * off, 30.0)
            text = _limits(leg_nm=5.0, leg_end=holds.DME_END, navaid_lon=lon, navaid_lat=lat, navaid_elev_ft=0.0)
            assert ("degrees off the course" in text) == told
            assert ("from memory" in text) == told
            # Only where the DME ends the leg.
            assert _limits(leg_nm=5.0, navaid_lon=lon, navaid_lat=lat, navaid_elev_ft=0.0) == ""
    # Behind the aircraft counts like ahead.
    lon, lat, _ = geodesy.direct(10.0, 50.0, 271.0, 30.0)
    assert _limits(leg_nm=5.0, leg_end=holds.DME_END, navaid_lon=lon, navaid_lat=lat, navaid_elev_ft=0.0) == ""


def test_several_limits_at_once():
    text = _limits(rules=FAA, alt_ft=5000.0, ias_kt=260.0, area_ias_kt=210.0, leg_nm=1.0)
    assert text.count("; ") == 2 and "AIM" in text and "II-4-1-4" in text


# --- blocks of levels


@pytest.mark.parametrize(
    ("rules", "low", "high", "most"),
    [(ICAO, 13000.0, 16000.0, 240.0), (ICAO, 5000.0, 14000.0, 230.0), (ICAO, 14000.0, 14001.0, 240.0),
     (ICAO, 10000.0, 30000.0, 265.0), (FAA, 5000.0, 6000.0, 200.0), (FAA, 5000.0, 6001.0, 230.0),
     (FAA, 13000.0, 16000.0, 265.0)],
)  # fmt: skip
def test_an_area_for_a_block_holds_its_fastest(rules, low, high, most):
    hold = _hold(rules=rules, alt_ft=low, alt_to_ft=high)
    assert hold.area_ias_kt[0] == most == float(holds.maximum_ias_in_block_kt(low, high, rules))
    assert hold.limits[0] == ""


@settings(max_examples=25)
@given(st.floats(0.0, 50000.0), st.floats(0.0, 10000.0), st.sampled_from([ICAO, FAA]))
def test_no_level_of_a_block_allows_more(low, up, rules):
    most = float(holds.maximum_ias_in_block_kt(low, low + up, rules))
    levels = np.linspace(low, low + up, 41)
    assert float(np.max(holds.maximum_ias_kt(levels, rules))) <= most + 1e-9


@pytest.mark.parametrize(
    ("low", "high", "ias", "told"),
    [(13000.0, 16000.0, 235.0, True), (13000.0, 16000.0, 230.0, False), (33000.0, 45000.0, 265.0, True),
     (33000.0, 45000.0, 220.0, False)],
)  # fmt: skip
def test_a_speed_must_be_allowed_at_every_level_of_its_block(low, high, ias, told):
    """Mach 0.83 at 45 000 ft is 225 kt: the slowest limit of a block may stand at its top."""
    assert ("faster" in _limits(alt_ft=low, alt_to_ft=high, ias_kt=ias)) == told


def test_rules_by_altitude_spread():
    alt = np.array([[np.nan, 14000.0, 14001.0]])
    got = holds.standard_leg_min(alt, [[ICAO], [FAA]])
    assert got.shape == (2, 3) and np.isnan(got[:, 0]).all()
    assert got[:, 1:].tolist() == [[1.0, 1.5], [1.0, 1.5]]
    assert np.isnan(holds.maximum_ias_kt(np.nan, FAA))
