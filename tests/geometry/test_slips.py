"""Slips: what applies to which station, worst cases that are never passed, shapes."""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import geodesy, slips
from fixwright.geometry.fixes import Station

NM = 1852.0
LONGITUDES, LATITUDES, AZIMUTHS = st.floats(-180.0, 180.0), st.floats(-84.0, 84.0), st.floats(0.0, 360.0)
BY_RADIAL = ("radial_whole", "radial_tenth", "radial_reciprocal")
BY_DECLINATION = ("course_reciprocal_station", "course_reciprocal_model", "north_model", "declination_sign")


def _landed(kind="VOR/DME", decl=5.0, **more):
    station = Station.of(10.0, 50.0, 300.0, decl, kind)
    lon, lat, _ = geodesy.direct([10.0], [50.0], [67.3], [12.0])
    given = {"radial_deg": 62.3, "dme_nm": 12.1, "var_station_deg": 3.0, "var_fix_deg": 3.1, **more}
    return slips.slips(station, lon, lat, **given)


def _applies(got) -> set[str]:
    return {key for key, value in got.items() if np.isfinite(value[0])}


def test_the_table_tells_every_slip():
    keys = [slip.key for slip in slips.SLIPS]
    assert len(set(keys)) == len(keys) == len({slip.sentence for slip in slips.SLIPS})
    assert list(_landed()) == keys
    for slip in slips.SLIPS:
        assert slip.sentence and slip.source
        assert slip.mark in ("published", "from memory", "common practice", "derived")


def test_which_slips_apply():
    position = {f"position_{step}" for step in ("0_1", "0_01", "0_001")}
    assert _applies(_landed()) == {*BY_RADIAL, *BY_DECLINATION, "dme_as_ground", *position}
    assert _applies(_landed("VOR")) == {*BY_RADIAL, *BY_DECLINATION, *position}
    assert _applies(_landed("NDB")) == {*BY_RADIAL, *position}
    assert _applies(_landed("DME")) == {"dme_as_ground", *position}
    assert _applies(_landed("WPT")) == position
    assert _applies(_landed(decl=np.nan)) == {*BY_RADIAL, "dme_as_ground", *position}
    assert _applies(_landed(radial_deg=np.nan)) == {"dme_as_ground", *position}
    assert _applies(_landed(point_lon=10.0, point_lat=50.0)) - _applies(_landed()) == {"side"}
    nowhere = slips.slips(Station.of(np.nan, np.nan), [10.0, np.nan], [50.0, 50.0])
    assert {key for key, value in nowhere.items() if np.isfinite(value[0])} == position
    assert all(np.isnan(value[1]) for value in nowhere.values())


def test_a_dme_of_its_own_site_is_the_one_read():
    """The reading is counted from the DME, wherever the VOR stands."""
    dme_lon, dme_lat, _ = geodesy.direct(10.0, 50.0, 200.0, 0.4)
    station = Station.of(10.0, 50.0, 300.0, 5.0, "VOR/DME", dme_lon, dme_lat, 300.0)
    lon, lat, _ = geodesy.direct([10.0], [50.0], [67.3], [12.0])
    ground = geodesy.inverse(dme_lon, dme_lat, lon, lat)[2]
    got = slips.slips(station, lon, lat, dme_nm=ground + 0.07)
    assert got["dme_as_ground"][0] == pytest.approx(0.07, abs=1e-9)


@given(LONGITUDES, LATITUDES, AZIMUTHS, st.floats(1.0, 100.0), st.floats(-25.0, 25.0), st.floats(-25.0, 25.0))
def test_slips_by_an_angle_are_chords(lon, lat, azimuth, ground, decl, var):
    """A turn of the line by an angle moves the fix by 2 D sin(angle / 2), less what the earth's curve takes."""
    at = Geodesic.WGS84.Direct(lat, lon, azimuth, ground * NM)
    radial = (azimuth - decl) % 360.0
    got = slips.slips(Station.of(lon, lat, 0.0, decl, "VOR"), at["lon2"], at["lat2"], radial_deg=radial,
                      var_station_deg=var, var_fix_deg=var)  # fmt: skip
    whole = math.remainder(radial, 1.0)
    for key, turn in (("radial_whole", whole), ("north_model", var - decl), ("declination_sign", 2.0 * decl)):
        chord = float(slips.wrong_north_nm(ground, turn))
        assert got[key][0] == pytest.approx(chord, rel=5e-4, abs=2e-6)
    assert got["radial_reciprocal"][0] == pytest.approx(2.0 * ground, rel=1e-9)
    # the course shown differs from the radial's reciprocal by variation and by the convergence between the two places
    convergence = math.remainder(at["azi2"] - azimuth, 360.0)
    expected = float(slips.wrong_north_nm(ground, convergence - var + decl))
    assert got["course_reciprocal_station"][0] == pytest.approx(expected, rel=5e-4, abs=2e-6)
    assert got["course_reciprocal_model"][0] == pytest.approx(
        float(slips.wrong_north_nm(ground, convergence)), rel=5e-4, abs=2e-6
    )


@given(
    LONGITUDES, LATITUDES, st.floats(0.0, 359.999), st.floats(0.6, 60.0), st.floats(-30.0, 30.0),
    st.sampled_from([0.1, 1.0, 5.0]), st.sampled_from([0.1, 0.5, 1.0]),
)  # fmt: skip
@settings(max_examples=200)
def test_no_rounding_of_radial_and_distance_passes_the_worst_case(lon, lat, radial, distance, decl, q, step):
    moved = slips.rounded_radial_distance_nm(lon, lat, radial, decl, distance, q, step)
    assert moved <= slips.worst_radial_distance_nm(distance, q, step) * (1.0 + 1e-6) + 1e-9


@given(LATITUDES, AZIMUTHS, st.floats(1.0, 60.0), st.sampled_from([0.1, 1.0, 5.0]), st.sampled_from([0.1, 0.5]))
def test_the_worst_case_of_radial_and_distance_is_reached(lat, azimuth, distance, q, step):
    """Half a step of each, by geographiclib; on the earth a chord is shorter than in the plane, at 60 NM by 5e-5."""
    meant = Geodesic.WGS84.Direct(lat, 0.0, azimuth, distance * NM)
    put = Geodesic.WGS84.Direct(lat, 0.0, azimuth + q / 2.0, (distance + step / 2.0) * NM)
    moved = Geodesic.WGS84.Inverse(meant["lat2"], meant["lon2"], put["lat2"], put["lon2"])["s12"] / NM
    assert float(slips.worst_radial_distance_nm(distance, q, step)) == pytest.approx(moved, rel=1e-4)


@given(LONGITUDES, LATITUDES, st.sampled_from([1.0, 0.1, 0.01, 0.001]))
@settings(max_examples=200)
def test_no_rounding_of_a_position_passes_the_worst_case(lon, lat, step):
    nearer_equator = abs(lat) - step / 60.0  # where a minute of longitude is longer
    worst = max(float(slips.worst_position_nm(x, step)) for x in (lat, nearer_equator))
    assert slips.rounded_position_nm(lon, lat, step) <= worst * (1.0 + 1e-5) + 1e-9


@given(st.floats(-85.0, 85.0), st.sampled_from([0.1, 0.01]))
def test_the_worst_case_of_a_position_is_reached(lat, step):
    put = Geodesic.WGS84.Inverse(lat - step / 240.0, 0.0, lat + step / 240.0, step / 120.0)["s12"] / NM
    assert float(slips.worst_position_nm(lat, step)) == pytest.approx(put, rel=1e-5)


@given(st.floats(-400.0, 400.0), st.sampled_from([1.0, 0.1, 0.05]))
def test_rounding(value, step):
    rounded = float(slips.round_half_away(value, step))
    assert abs(rounded - value) <= step / 2.0 * (1.0 + 1e-6)
    assert rounded / step == pytest.approx(round(rounded / step), abs=1e-6)
    assert float(slips.round_half_away(-value, step)) == -rounded


@pytest.mark.parametrize(("value", "rounded"), [(0.5, 1.0), (1.5, 2.0), (2.5, 3.0), (-2.5, -3.0), (2.4999, 2.0)])
def test_half_goes_away_from_zero(value, rounded):
    assert float(slips.round_half_away(value, 1.0)) == rounded


def test_half_that_was_measured_back_is_still_half():
    """A radial of 062.5, measured from its place, must round as typed."""
    lon, lat, _ = geodesy.direct(10.0, 50.0, 62.5 + 3.0, 40.0)
    measured = geodesy.inverse(10.0, 50.0, lon, lat)[0] - 3.0
    for nudge in (-1e-9, 0.0, 1e-9):
        assert float(slips.round_half_away(measured + nudge, 1.0)) == 63.0


def test_positions_beyond_the_antimeridian_round_alike():
    a, b = slips.rounded_position_nm(180.00123, 10.0, 0.1), slips.rounded_position_nm(-179.99877, 10.0, 0.1)
    assert float(a) == pytest.approx(float(b), abs=1e-9)
    assert float(slips.rounded_position_nm(179.9999, 10.0, 0.1)) < 0.01


def test_shapes():
    station = Station.of(10.0, 50.0, 0.0, 0.0, "VOR/DME")
    lon = np.array([10.1, 10.2, np.nan])
    got = slips.slips(station, lon, 50.0, radial_deg=[90.0, 90.0, 90.0], var_station_deg=1.0, var_fix_deg=1.0)
    assert {value.shape for value in got.values()} == {(3,)}
    assert np.isnan(got["position_0_1"][2]) and np.isfinite(got["position_0_1"][:2]).all()
    assert slips.worst_radial_distance_nm(20.0, 1.0, 0.1).shape == ()
    assert slips.worst_position_nm([0.0, 50.0], 0.1).shape == (2,)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: slips.round_half_away(1.0, 0.0), "step is 0.0"),
        (lambda: slips.rounded_position_nm(0.0, 0.0, math.nan), "step_min is nan"),
        (lambda: slips.rounded_radial_distance_nm(0.0, 0.0, 1.0, 0.0, 1.0, -1.0, 0.1), "radial_step_deg is -1.0"),
        (lambda: slips.rounded_radial_distance_nm(0.0, 0.0, 1.0, 0.0, 1.0, 1.0, 0.0), "distance_step_nm is 0.0"),
    ],
)
def test_calls_that_make_no_sense(call, words):
    with pytest.raises(ValueError, match=words):
        call()
