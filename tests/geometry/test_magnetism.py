"""The magnetic field: shapes, poles, years, and that its parts agree with each other."""

from __future__ import annotations

import datetime

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import magnetism, wmm2025

YEARS = st.floats(2025.0, 2030.0, exclude_max=True)
LATITUDES = st.floats(-90.0, 90.0)
LONGITUDES = st.floats(-180.0, 180.0)
HEIGHTS = st.floats(-1.0, 100.0)


def test_the_table_is_whole():
    """World Magnetic Model 2025: degree and order 12, 90 rows; its first two rows as printed."""
    keys = [(n, m) for n, m, *_ in wmm2025.COEFFICIENTS]
    assert keys == [(n, m) for n in range(1, 13) for m in range(n + 1)]
    assert wmm2025.COEFFICIENTS[0] == (1, 0, -29351.8, 0.0, 12.0, 0.0)
    assert wmm2025.COEFFICIENTS[1] == (1, 1, -1410.8, 4545.4, 9.7, -21.5)
    assert all(h == 0.0 and h_year == 0.0 for _, m, _, h, _, h_year in wmm2025.COEFFICIENTS if m == 0)
    assert wmm2025.SOURCE


@pytest.mark.parametrize("year", [2024.999, 2030.0, 2020.0, 0.0, 1e9, np.inf, -np.inf])
def test_years_outside_the_model_are_refused(year):
    for years in (year, [2026.0, year], [np.nan, year]):
        with pytest.raises(ValueError, match=r"year is .*2025\.0 .*2030\.0"):
            magnetism.declination_deg(10.0, 50.0, year=years)
        with pytest.raises(ValueError, match="year is"):
            magnetism.field(10.0, 50.0, 0.0, years)


def test_years_at_the_ends_are_taken():
    assert np.isfinite(magnetism.declination_deg(10.0, 50.0, year=[2025.0, np.nextafter(2030.0, 0.0)])).all()


def test_decimal_years():
    """Days since 1 January over the length of the year, counted by hand."""
    assert magnetism.decimal_year(datetime.date(2025, 1, 1)) == 2025.0
    assert magnetism.decimal_year(datetime.date(2026, 9, 1)) == pytest.approx(2026 + 243 / 365, abs=1e-12)
    assert magnetism.decimal_year(datetime.date(2028, 3, 1)) == pytest.approx(2028 + 60 / 366, abs=1e-12)
    assert magnetism.decimal_year(datetime.date(2029, 12, 31)) == pytest.approx(2029 + 364 / 365, abs=1e-12)
    assert magnetism.decimal_year(datetime.date(2029, 12, 31)) < wmm2025.VALID_UNTIL


def test_shapes_broadcast():
    lon, lat = np.linspace(-170.0, 170.0, 4)[:, np.newaxis], np.array([-40.0, 0.0, 60.0])
    both = magnetism.field(lon, lat, 1.0, 2026.5)
    assert all(a.shape == (4, 3) and a.dtype == np.float64 for a in both)
    one = magnetism.field(lon[2, 0], lat[1], 1.0, 2026.5)
    assert all(a.shape == () for a in one)
    assert [float(a[2, 1]) for a in both] == [float(a) for a in one]
    assert magnetism.declination_deg([], [], year=2026.0).shape == (0,)
    with pytest.raises(ValueError):
        magnetism.declination_deg([1.0, 2.0], [1.0, 2.0, 3.0], year=2026.0)


def test_a_bad_row_spoils_itself_alone():
    lon = np.array([10.0, np.nan, 10.0, 10.0, 10.0, 10.0, np.inf, 10.0, 10.0])
    lat = np.array([50.0, 50.0, np.nan, 91.0, 50.0, 50.0, 50.0, 50.0, 50.0])
    alt = np.array([0.0, 0.0, 0.0, 0.0, np.nan, 3e6, 0.0, -1e5, 0.0])
    year = np.array([2026.0] * 8 + [np.nan])
    good = magnetism.declination_deg(lon, lat, alt, year=year)
    assert np.isfinite(good).tolist() == [True] + [False] * 8
    assert good[0] == magnetism.declination_deg(10.0, 50.0, year=2026.0)


def test_many_places_are_the_same_as_one_at_a_time():
    rng = np.random.default_rng(20250101)
    n = 10_000
    lon, lat, height = rng.uniform(-180, 180, n), rng.uniform(-90, 90, n), rng.uniform(-1, 50, n)
    year = rng.uniform(2025, 2030, n)
    many = magnetism.field(lon, lat, height, year)
    for i in (0, 4095, 4096, 4097, 8191, 8192, n - 1):
        one = magnetism.field(lon[i], lat[i], height[i], year[i])
        np.testing.assert_allclose([a[i] for a in many], [float(a) for a in one], rtol=1e-12, atol=1e-9)


@given(LONGITUDES, LATITUDES, HEIGHTS, YEARS)
def test_the_elements_agree(lon, lat, height, year):
    f = magnetism.field(lon, lat, height, year)
    assert f.h_nt == pytest.approx(float(np.hypot(f.x_nt, f.y_nt)), rel=1e-12)
    assert f.f_nt == pytest.approx(float(np.sqrt(f.x_nt**2 + f.y_nt**2 + f.z_nt**2)), rel=1e-12)
    assert f.h_nt * np.sin(np.radians(f.d_deg)) == pytest.approx(float(f.y_nt), abs=1e-6)
    assert f.h_nt * np.cos(np.radians(f.d_deg)) == pytest.approx(float(f.x_nt), abs=1e-6)
    assert f.f_nt * np.sin(np.radians(f.i_deg)) == pytest.approx(float(f.z_nt), abs=1e-6)
    assert 10_000.0 < f.f_nt < 80_000.0


@given(LONGITUDES, LATITUDES, st.floats(2025.1, 2029.9))
def test_the_yearly_change_is_the_slope_in_time(lon, lat, year):
    step = 0.01
    before = magnetism.field(lon, lat, 0.0, year - step)
    now = magnetism.field(lon, lat, 0.0, year)
    after = magnetism.field(lon, lat, 0.0, year + step)
    if now.h_nt < 500.0:
        return  # near a dip pole the declination turns too fast for a straight slope
    for name in ("x_nt", "y_nt", "z_nt", "h_nt", "f_nt", "i_deg", "d_deg"):
        slope = getattr(after, name) - getattr(before, name)
        if name == "d_deg":
            slope = (slope + 180.0) % 360.0 - 180.0
        assert slope / (2.0 * step) == pytest.approx(float(getattr(now, "d" + name)), rel=1e-3, abs=1e-4)


@given(LONGITUDES, st.sampled_from([-90.0, 90.0]), YEARS)
def test_a_pole_is_a_place_like_any_other(lon, pole, year):
    """At a pole north is that of the longitude given, so the vector turns with it and nothing else changes."""
    at, zero = magnetism.field(lon, pole, 2.0, year), magnetism.field(0.0, pole, 2.0, year)
    beside = magnetism.field(lon, pole * (1.0 - 1e-9), 2.0, year)
    for name in ("x_nt", "y_nt", "z_nt"):
        assert getattr(at, name) == pytest.approx(float(getattr(beside, name)), abs=1e-3)
    assert at.h_nt == pytest.approx(float(zero.h_nt), rel=1e-9)
    turned = (at.d_deg - zero.d_deg) - np.sign(pole) * lon
    assert abs((turned + 180.0) % 360.0 - 180.0) < 1e-6


@given(LONGITUDES, st.floats(-89.0, 89.0), YEARS)
def test_whole_turns_of_longitude_change_nothing(lon, lat, year):
    here, round_the_earth = magnetism.field(lon, lat, 0.0, year), magnetism.field(lon + 360.0, lat, 0.0, year)
    np.testing.assert_allclose(np.array(here[:5]), np.array(round_the_earth[:5]), rtol=0.0, atol=1e-6)


@given(LONGITUDES, st.floats(-85.0, 85.0), YEARS)
def test_the_field_has_a_potential_and_no_source(lon, lat, year):
    """Curl-free round a small loop on the ellipsoid: east times its side closes against north times its own."""
    step = 1e-3
    a, e2 = 6378137.0, 0.00669437999014
    x = magnetism.field([lon - step, lon + step], lat, 0.0, year).x_nt
    phi = np.radians([lat - step, lat + step])
    y = magnetism.field(lon, [lat - step, lat + step], 0.0, year).y_nt
    parallel = a / np.sqrt(1.0 - e2 * np.sin(phi) ** 2) * np.cos(phi)
    middle = np.radians(lat)
    meridian = a * (1.0 - e2) / (1.0 - e2 * np.sin(middle) ** 2) ** 1.5
    assert (x[1] - x[0]) * meridian == pytest.approx(float(y[1] * parallel[1] - y[0] * parallel[0]), abs=2e4)


def test_heights_are_feet_for_pilots_and_kilometres_for_the_model():
    in_feet = magnetism.declination_deg(-77.0, 59.0, 40_000.0, year=2027.0)
    in_km = magnetism.field(-77.0, 59.0, 40_000.0 * 0.0003048, 2027.0)
    assert in_feet == in_km.d_deg
    assert magnetism.horizontal_nt(-77.0, 59.0, 40_000.0, year=2027.0) == in_km.h_nt


def test_uncertainty():
    sigma = magnetism.uncertainty_deg([20_000.0, 0.0, np.nan, -1.0, np.inf])
    assert sigma[0] == pytest.approx(np.sqrt(0.26**2 + (5417.0 / 20_000.0) ** 2))
    assert sigma[1] == 180.0
    assert np.isnan(sigma[2:4]).all()
    assert sigma[4] == pytest.approx(0.26)
