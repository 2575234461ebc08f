"""The atmosphere and airspeeds: shapes, ranges, and that each function agrees with its inverse."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import atmosphere as atm

ALTITUDES = st.floats(atm.LOWEST_FT, 45_000.0)
DEVIATIONS = st.floats(-40.0, 40.0)
SPEEDS = st.floats(0.0, 300.0)


def test_every_figure_has_a_unit_a_mark_and_a_source():
    for name, figure in atm.FIGURES.items():
        assert np.isfinite(figure.value), name
        assert figure.unit and figure.source, name
        assert figure.mark in ("published", "from memory", "computed"), name


def test_sea_level_and_tropopause():
    """ICAO Doc 7488: 288.15 K and 1013.25 hPa by definition; 216.65 K from 11 to 20 km."""
    sea = atm.isa(0.0)
    assert (float(sea.pressure_ratio), float(sea.density_ratio), float(sea.temperature_k)) == (1.0, 1.0, 288.15)
    assert sea.sound_kt == pytest.approx(661.479, abs=0.001)
    high = atm.isa([11_000 / 0.3048, 15_000 / 0.3048, atm.HIGHEST_FT])
    np.testing.assert_allclose(high.temperature_k, 216.65, atol=1e-9)
    assert atm.HIGHEST_FT == pytest.approx(65_617, abs=0.5)


def test_the_atmosphere_has_no_step_at_the_tropopause():
    at = 11_000 / 0.3048
    below, above = atm.isa(at - 1e-6), atm.isa(at + 1e-6)
    for a, b in zip(below, above):
        assert a == pytest.approx(float(b), rel=1e-9)


def test_a_column_of_air_weighs_what_its_pressure_says():
    """dp = -rho g dh, summed over the layers by Simpson's rule: nothing of the formulas but density goes in."""
    metres = np.linspace(0.0, 20_000.0, 20_001)
    density = atm.isa(metres / 0.3048).density_ratio * 1.225
    weight = 9.80665 * (density[0] + 4 * density[1::2].sum() + 2 * density[2:-1:2].sum() + density[-1]) / 3.0
    assert atm.isa(20_000 / 0.3048).pressure_ratio * 101_325.0 == pytest.approx(101_325.0 - weight, abs=0.5)


@given(ALTITUDES, DEVIATIONS)
def test_temperature_changes_density_and_sound_but_not_pressure(alt, dev):
    standard, actual = atm.isa(alt), atm.isa(alt, dev)
    assert actual.pressure_ratio == standard.pressure_ratio
    warmth = (standard.temperature_k + dev) / standard.temperature_k
    assert actual.density_ratio == pytest.approx(float(standard.density_ratio / warmth), rel=1e-12)
    assert actual.sound_kt == pytest.approx(float(standard.sound_kt * np.sqrt(warmth)), rel=1e-12)


@given(SPEEDS, ALTITUDES, DEVIATIONS)
def test_there_and_back(cas, alt, dev):
    tas = atm.cas_to_tas_kt(cas, alt, dev)
    if np.isnan(tas):
        assert atm.mach_to_cas_kt(1.0, alt) < cas, "only beyond the speed of sound there is none"
        return
    assert atm.tas_to_cas_kt(tas, alt, dev) == pytest.approx(cas, rel=1e-9, abs=1e-9)
    air = atm.isa(alt, dev)
    assert atm.mach_to_cas_kt(tas / air.sound_kt, alt) == pytest.approx(cas, rel=1e-9, abs=1e-9)


@given(st.floats(0.01, 100.0), ALTITUDES, DEVIATIONS)
def test_a_slow_aeroplane_feels_density_alone(cas, alt, dev):
    """Common practice: TAS = CAS / sqrt(density ratio); what is left out grows as an eighth of the Mach number squared
    (the pitot equation's first term beyond it)."""
    air = atm.isa(alt, dev)
    simple = cas / np.sqrt(air.density_ratio)
    mach = max(float(simple / air.sound_kt), cas / 661.0)
    assert abs(atm.cas_to_tas_kt(cas, alt, dev) / simple - 1.0) <= mach**2 / 8.0 + 1e-12


@given(st.floats(30.0, 280.0), st.floats(0.0, 34_000.0), DEVIATIONS)
def test_holding_formula_stays_near_the_exact_one(ias, alt, dev):
    """The document's compressible form is an approximation; within 0.5 % over the levels and speeds of holds."""
    assert atm.icao_holding_tas_kt(ias, alt, dev) == pytest.approx(float(atm.cas_to_tas_kt(ias, alt, dev)), rel=5e-3)


@given(st.floats(30.0, 280.0), st.floats(0.0, 10_000.0), DEVIATIONS)
def test_the_two_forms_of_a_rule_agree(ias, alt_m, dev):
    """The document prints its constants for kt and feet and again for km/h and metres, each rounded by itself."""
    alt_ft = alt_m / 0.3048
    in_kmh = atm.icao_holding_tas_kmh(ias * 1.852, alt_m, dev)
    assert in_kmh / 1.852 == pytest.approx(float(atm.icao_holding_tas_kt(ias, alt_ft, dev)), rel=1e-4)
    assert atm.icao_k_factor_si(alt_m, dev) == pytest.approx(float(atm.icao_k_factor(alt_ft, dev)), rel=1e-4)
    assert atm.icao_wind_kmh(alt_m) / 1.852 == pytest.approx(float(atm.icao_wind_kt(alt_ft)), abs=1.0)


def test_beyond_mach_one_there_is_no_answer():
    assert np.isnan(atm.cas_to_tas_kt(662.0, 0.0))
    assert np.isnan(atm.cas_to_tas_kt(500.0, 45_000.0))
    assert np.isnan(atm.tas_to_cas_kt(700.0, 0.0))
    assert np.isnan(atm.mach_to_cas_kt(1.01, 0.0))
    assert atm.mach_to_cas_kt(1.0, 0.0) == pytest.approx(float(atm.isa(0.0).sound_kt), rel=1e-12)


def test_a_bad_row_spoils_itself_alone():
    cas = np.array([100.0, np.nan, -1.0, 100.0, 100.0, 100.0, 100.0, 100.0, 100.0])
    alt = np.array([5e3, 5e3, 5e3, np.nan, -5001.0, 65_618.0, np.inf, 5e3, 5e3])
    dev = np.array([0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, np.nan, -279.0])
    expected = [True] + [False] * 8
    for function in (atm.cas_to_tas_kt, atm.tas_to_cas_kt, atm.icao_holding_tas_kt):
        assert np.isfinite(function(cas, alt, dev)).tolist() == expected
    assert np.isfinite(atm.icao_k_factor(alt, dev)).tolist() == [True, True, True] + [False] * 6
    assert np.isnan(atm.icao_k_factor(37_000.0)) and np.isnan(atm.icao_k_factor_si(11_001.0))
    for part in atm.isa(alt, dev):
        assert np.isfinite(part).tolist() == [True, True, True] + [False] * 6
    assert np.isnan(atm.icao_wind_kt([np.nan, 5e3])).tolist() == [True, False]


def test_shapes_broadcast():
    cas, alt = np.array([[90.0], [120.0]]), np.array([0.0, 5e3, 1e4])
    for function in (atm.cas_to_tas_kt, atm.tas_to_cas_kt, atm.icao_holding_tas_kt):
        out = function(cas, alt, 10.0)
        assert out.shape == (2, 3) and out.dtype == np.float64
        assert out[1, 2] == function(120.0, 1e4, 10.0)
    assert atm.cas_to_tas_kt(90.0, 0.0).shape == ()
    assert atm.icao_wind_kt(alt).shape == (3,)
    with pytest.raises(ValueError):
        atm.cas_to_tas_kt([1.0, 2.0], [1.0, 2.0, 3.0])
