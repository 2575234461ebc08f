"""The magnetic model against the test values printed with it, its on-line calculator, and an independent program.

The tables of the model of 2020 have no place here: dates outside 2025.0 to 2030.0 are refused, which is tested too.
"""

from __future__ import annotations

import csv
import datetime
from pathlib import Path

import numpy as np
import pytest

from fixwright.geometry import magnetism


def _rows(name: str) -> list[dict[str, str]]:
    with open(Path(__file__).parent / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _column(rows: list[dict[str, str]], name: str) -> np.ndarray:
    return np.array([float(row[name]) for row in rows])


# Printed column, our name, and the largest difference allowed: the print's rounding. The official X, and H and F with
# it, differ from an evaluation of the same coefficients in extended precision by up to 0.0007 nT; Y, Z and the
# changes do not. Ours agrees with that evaluation, so the allowance is the table's.
QUANTITIES = [
    ("D_deg", "d_deg", 0.005),
    ("I_deg", "i_deg", 0.005),
    ("H_nT", "h_nt", 0.001),
    ("X_nT", "x_nt", 0.001),
    ("Y_nT", "y_nt", 5e-6),
    ("Z_nT", "z_nt", 5e-6),
    ("F_nT", "f_nt", 0.001),
    ("dD_deg_yr", "dd_deg", 1e-6),
    ("dI_deg_yr", "di_deg", 1e-6),
    ("dH_nT_yr", "dh_nt", 2e-6),
    ("dX_nT_yr", "dx_nt", 2e-6),
    ("dY_nT_yr", "dy_nt", 2e-6),
    ("dZ_nT_yr", "dz_nt", 2e-6),
    ("dF_nT_yr", "df_nt", 2e-6),
]


@pytest.mark.parametrize(("printed", "name", "tolerance"), QUANTITIES)
def test_official_test_values(printed, name, tolerance):
    """World Magnetic Model 2025, official test values, NOAA NCEI 2024: 80 of its rows, every quantity."""
    rows = _rows("wmm2025_test_values.csv")
    assert len(rows) == 80
    field = magnetism.field(*(_column(rows, c) for c in ("lon_deg", "lat_deg", "height_km", "decimal_year")))
    np.testing.assert_allclose(getattr(field, name), _column(rows, printed), rtol=0.0, atol=tolerance)


@pytest.mark.parametrize("row", _rows("wmm2025_declination.csv"), ids=lambda row: " ".join(list(row.values())[:4]))
def test_declinations(row):
    """Each row names its source: the model's report, its test values, or its on-line calculator."""
    if "-" in row["year"]:
        year = magnetism.decimal_year(datetime.date.fromisoformat(row["year"]))
    else:
        year = float(row["year"])
    alt_ft = float(row["height_km"]) / 0.0003048
    got = magnetism.declination_deg(float(row["lon_deg"]), float(row["lat_deg"]), alt_ft, year=year)
    assert got == pytest.approx(float(row["d_deg"]), abs=float(row["tolerance"]))


def test_declination_grid():
    """Computed elsewhere from the model's coefficients; places with a horizontal field of 6 000 nT and more."""
    rows = [row for row in _rows("wmm2025_grid.csv") if float(row["H_2025.0_nT"]) >= 6000.0]
    assert len(rows) > 550
    lon, lat = _column(rows, "lon_deg"), _column(rows, "lat_deg")
    last_instant = np.nextafter(2030.0, 0.0)
    declinations = []
    for year, name in ((2025.0, "D_2025.0_deg"), (2027.5, "D_2027.5_deg"), (last_instant, "D_2030.0_deg")):
        field = magnetism.field(lon, lat, 0.0, year)
        declinations.append(field.d_deg)
        np.testing.assert_allclose(field.d_deg, _column(rows, name), rtol=0.0, atol=0.001)
        if year == 2025.0:
            np.testing.assert_allclose(field.h_nt, _column(rows, "H_2025.0_nT"), rtol=0.0, atol=0.5)
    change = (declinations[2] - declinations[0]) / 5.0
    np.testing.assert_allclose(change, _column(rows, "mean_change_deg_per_year"), rtol=0.0, atol=1e-4)


def test_an_independent_program():
    """pygeomag 1.1.0, its own implementation and its own copy of the coefficients: 500 places and dates."""
    pygeomag = pytest.importorskip("pygeomag", reason="pygeomag is not installed (tests/requirements.txt)")
    model = pygeomag.GeoMag(coefficients_file="wmm/WMM_2025.COF")
    rng = np.random.default_rng(2025)
    n = 500
    lon, lat = rng.uniform(-180.0, 180.0, n), np.degrees(np.arcsin(rng.uniform(-0.999, 0.999, n)))
    alt_ft, year = rng.uniform(0.0, 45_000.0, n), rng.uniform(2025.0, 2029.999, n)
    field = magnetism.field(lon, lat, alt_ft * 0.0003048, year)
    theirs = [
        model.calculate(glat=float(y), glon=float(x), alt=float(a) * 0.0003048, time=float(t))
        for x, y, a, t in zip(lon, lat, alt_ft, year)
    ]
    for name, of in (("d_deg", "d"), ("i_deg", "i")):
        np.testing.assert_allclose(getattr(field, name), [getattr(r, of) for r in theirs], rtol=0.0, atol=1e-6)
    for name, of in (("x_nt", "x"), ("y_nt", "y"), ("z_nt", "z"), ("h_nt", "h"), ("f_nt", "f")):
        np.testing.assert_allclose(getattr(field, name), [getattr(r, of) for r in theirs], rtol=0.0, atol=1e-4)
    np.testing.assert_allclose(
        magnetism.declination_deg(lon, lat, alt_ft, year=year), [r.d for r in theirs], rtol=0.0, atol=1e-6
    )
    uncertainties = [r.calculate_uncertainty().d for r in theirs]
    np.testing.assert_allclose(magnetism.uncertainty_deg([r.h for r in theirs]), uncertainties, rtol=0.0, atol=1e-9)


def test_the_coefficients_are_those_published():
    """The file WMM_2025.COF as carried by pygeomag 1.1.0, number for number."""
    pygeomag = pytest.importorskip("pygeomag", reason="pygeomag is not installed (tests/requirements.txt)")
    from fixwright.geometry import wmm2025

    lines = (Path(pygeomag.__file__).parent / "wmm" / "WMM_2025.COF").read_text(encoding="ascii").splitlines()
    assert float(lines[0].split()[0]) == wmm2025.EPOCH
    rows = [line.split() for line in lines[1:] if len(line.split()) == 6]
    assert [(int(n), int(m), *map(float, rest)) for n, m, *rest in rows] == list(wmm2025.COEFFICIENTS)


@pytest.mark.parametrize("year", [2020.0, 2024.99, 2030.0, 2031.5])
def test_other_years_are_refused(year):
    """World Magnetic Model 2025: valid from 2025.0 to 2030.0; other years need another model."""
    with pytest.raises(ValueError, match="World Magnetic Model 2025"):
        magnetism.declination_deg(0.0, 80.0, year=year)
