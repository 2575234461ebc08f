"""The atmosphere, airspeeds and ICAO's own conversions against printed tables and an independent library.

Every row of the data files names its source; 'computed' rows were computed elsewhere from the formulas named.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from fixwright.geometry import atmosphere as atm
from fixwright.geometry.units import KT_MS

# A value exactly half a unit off its print is still the print's rounding.
HAIR = 1e-9


def _rows(name: str) -> list[dict[str, str]]:
    with open(Path(__file__).parent / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _columns(rows: list[dict[str, str]], *names: str) -> list[np.ndarray]:
    return [np.array([float(row[name]) for row in rows]) for name in names]


def _check(got: np.ndarray, rows: list[dict[str, str]], name: str) -> None:
    expected, tolerance = _columns(rows, name, "tolerance")
    assert all(row["source"] for row in rows)
    off = ~(np.abs(got - expected) <= tolerance + HAIR)
    assert not off.any(), [(rows[i], float(got[i])) for i in np.flatnonzero(off)[:5]]


@pytest.mark.parametrize("row", _rows("isa_published.csv"), ids=lambda r: f"{r['alt_ft']} {r['quantity']}")
def test_published_atmosphere(row):
    """A university's table in geopotential feet, and ICAO Doc 7488 at the tropopause."""
    air = atm.isa(float(row["alt_ft"]))
    value = {
        "pressure_ratio": air.pressure_ratio,
        "density_ratio": air.density_ratio,
        "temperature_k": air.temperature_k,
        "pressure_pa": air.pressure_ratio * 101_325.0,
        "sound_m_s": air.sound_kt * KT_MS,
    }[row["quantity"]]
    assert value == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_computed_atmosphere():
    """0 to 45 000 ft each thousand, to the printed figure; the table's own constants above the
    tropopause were rounded (scale height 6341.62 m for 6341.616), which moves its pressure there by 0.0001 hPa and its
    density ratio by 1e-7."""
    rows = _rows("isa_computed.csv")
    assert len(rows) == 46
    air = atm.isa(*_columns(rows, "alt_ft"))
    for value, name, half in (
        (air.temperature_k, "temperature_k", 5e-4),
        (air.temperature_k - 273.15, "temperature_c", 5e-3),
        (air.pressure_ratio * 1013.25, "pressure_hpa", 6e-4),
        (air.pressure_ratio, "pressure_ratio", 5e-6),
        (air.density_ratio, "density_ratio", 5.2e-6),
        (air.sound_kt, "sound_kt", 5e-3),
    ):
        np.testing.assert_allclose(value, *_columns(rows, name), rtol=0.0, atol=half + HAIR, err_msg=name)


def test_calibrated_to_true():
    """Tables computed elsewhere: 70 to 280 kt, sea level to 45 000 ft, ISA-10 to ISA+15."""
    rows = _rows("cas_to_tas.csv")
    assert len(rows) > 300
    _check(atm.cas_to_tas_kt(*_columns(rows, "cas_kt", "alt_ft", "isa_dev_c")), rows, "tas_kt")


def test_true_to_calibrated():
    """The same tables read backwards; half a unit of the printed TAS is less than that in CAS."""
    rows = _rows("cas_to_tas.csv")
    tas, alt, dev = _columns(rows, "tas_kt", "alt_ft", "isa_dev_c")
    expected, tolerance = _columns(rows, "cas_kt", "tolerance")
    assert np.all(np.abs(atm.tas_to_cas_kt(tas, alt, dev) - expected) <= tolerance * 1.1)


def test_icao_factor():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, Part I, Section 2, Chapter 1, Appendix: the factor K, feet and metres."""
    rows = _rows("icao_k_factor.csv")
    alt, dev = _columns(rows, "altitude", "isa_dev_c")
    metric = np.array([row["unit"] == "m" for row in rows])
    got = np.empty(len(rows))
    got[metric] = atm.icao_k_factor_si(alt[metric], dev[metric])
    got[~metric] = atm.icao_k_factor(alt[~metric], dev[~metric])
    _check(got, rows, "factor")


def test_icao_worked_example():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, Table I-4-3-App C-1: 140 kt at 6 000 ft, K 1.1231, V 157.23 kt.

    Its SI column prints 1.1244 for 1 850 m, which is read between the rows of a table for each 500 m.
    """
    assert round(float(atm.icao_k_factor(6000.0)), 4) == 1.1231
    assert 140.0 * atm.icao_k_factor(6000.0) == pytest.approx(157.23, abs=0.02)
    lower, upper = np.round(atm.icao_k_factor_si([1500.0, 2000.0]), 4)
    assert round(lower + 0.7 * (upper - lower), 4) == 1.1244


def test_icao_holding_speed():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, Part II, Section 4, Chapter 1, Appendix A; constants from memory."""
    rows = _rows("icao_holding_tas.csv")
    _check(atm.icao_holding_tas_kt(*_columns(rows, "ias_kt", "alt_ft", "isa_dev_c")), rows, "tas_kt")


def test_icao_wind():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, p. I-4-3-7 e): 2 h + 47 kt, 12 h + 87 km/h."""
    rows = _rows("icao_wind.csv")
    (alt,) = _columns(rows, "altitude")
    metric = np.array([row["unit"] == "m" for row in rows])
    _check(np.where(metric, atm.icao_wind_kmh(alt), atm.icao_wind_kt(alt)), rows, "wind")


def test_mach_crossover():
    """Mach and CAS by definition: at sea level Mach 0.5 is half the speed of sound; common practice: 280 kt is
    Mach 0.8 near 35 000 to 36 000 ft."""
    assert atm.mach_to_cas_kt(0.5, 0.0) == pytest.approx(661.4786 / 2.0, abs=0.001)
    assert atm.mach_to_cas_kt(0.8, 33_000.0) > 280.0 > atm.mach_to_cas_kt(0.8, 37_000.0)


def test_an_independent_library():
    """aerocalc3 0.10: calibrated to true and back over the holding levels, cold and warm."""
    airspeed = pytest.importorskip("aerocalc3.airspeed", reason="aerocalc3 is not installed (tests/requirements.txt)")
    rng = np.random.default_rng(8168)
    n = 400
    cas, alt, dev = rng.uniform(60.0, 280.0, n), rng.uniform(0.0, 45_000.0, n), rng.uniform(-30.0, 30.0, n)
    kelvin = atm.isa(alt, dev).temperature_k
    tas = atm.cas_to_tas_kt(cas, alt, dev)
    theirs = [airspeed.cas2tas(c, a, temp=t, temp_units="K") for c, a, t in zip(cas, alt, kelvin)]
    np.testing.assert_allclose(tas, theirs, rtol=0.0, atol=0.005)
    back = [airspeed.tas2cas(v, a, temp=t, temp_units="K") for v, a, t in zip(tas, alt, kelvin)]
    np.testing.assert_allclose(cas, back, rtol=0.0, atol=0.005)
    mach = tas / atm.isa(alt, dev).sound_kt
    theirs = [airspeed.mach_alt2cas(m, a) for m, a in zip(mach, alt)]
    np.testing.assert_allclose(atm.mach_to_cas_kt(mach, alt), theirs, rtol=0.0, atol=0.005)


def test_an_independent_atmosphere():
    """aerocalc3 0.10, std_atm: pressure, density, temperature and speed of sound of the standard atmosphere."""
    std_atm = pytest.importorskip("aerocalc3.std_atm", reason="aerocalc3 is not installed (tests/requirements.txt)")
    alt = np.arange(-2000.0, 60_001.0, 2500.0)
    air = atm.isa(alt)
    np.testing.assert_allclose(air.pressure_ratio, [std_atm.alt2press_ratio(a) for a in alt], rtol=2e-6)
    np.testing.assert_allclose(air.density_ratio, [std_atm.alt2density_ratio(a) for a in alt], rtol=2e-6)
    np.testing.assert_allclose(air.temperature_k, [std_atm.alt2temp(a, temp_units="K") for a in alt], rtol=1e-9)
