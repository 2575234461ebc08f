"""Radials and slant range against published rules and figures computed from them."""

from __future__ import annotations

import pytest

from fixwright.geometry import navaids
from fixwright.geometry.units import FT_M, FT_PER_NM, KT_MS, NM_M

DOC = "ICAO Doc 8168 Vol II, 5th ed. 2006, p. I-4-3-App C-13"

SLANT = [
    # slant NM, height ft, ground NM, tolerance, source
    (5.0, 10_000.0, 4.721, 0.003, f"computed, plane triangle of {DOC}"),
    (10.0, 10_000.0, 9.864, 0.003, f"computed, plane triangle of {DOC}"),
    (20.0, 6_000.0, 19.976, 0.003, f"computed, plane triangle of {DOC}"),
    (15.0, 35_000.0, 13.850, 0.003, f"computed, plane triangle of {DOC}"),
    (30.0, 14_000.0, 29.912, 0.002, f"computed from the published formula, {DOC}"),
    (14.0, 7_260.0, 13.9489, 0.0002, "computed, plane triangle"),
    (12.0, 10_760.0, 11.8686, 0.0002, "computed, plane triangle"),
    (17.0, 10_760.0, 16.9075, 0.0002, "computed, plane triangle"),
    (7.0, 10_760.0, 6.7723, 0.0002, "computed, plane triangle"),
]


@pytest.mark.parametrize(("slant", "height_ft", "ground", "tolerance", "source"), SLANT)
def test_ground_distance_of_a_slant_range(slant, height_ft, ground, tolerance, source):
    assert source
    got, code = navaids.ground_from_slant_nm(slant, navaids.height_nm(height_ft, 0.0))
    assert int(code) == 0
    assert float(got) == pytest.approx(ground, abs=tolerance)
    # The document's own rounded constant, 0.027 h^2 with h in thousand feet, agrees to a hundredth of a mile.
    rounded = (slant**2 - 0.027 * (height_ft / 1000.0) ** 2) ** 0.5
    assert float(got) == pytest.approx(rounded, abs=0.01)


@pytest.mark.parametrize(("slant", "height_ft"), [(20.0, 6_000.0), (5.0, 10_000.0), (17.0, 10_760.0)])
def test_slant_range_of_a_ground_distance(slant, height_ft):
    """The same triangle the other way."""
    height = navaids.height_nm(height_ft, 0.0)
    ground, _ = navaids.ground_from_slant_nm(slant, height)
    assert float(navaids.slant_from_ground_nm(ground, height)) == pytest.approx(slant, abs=1e-12)


def test_overhead_a_dme_reads_the_height():
    """6 076 ft above the station a DME overhead reads 1 NM: common practice."""
    assert float(navaids.slant_from_ground_nm(0.0, navaids.height_nm(6076.115, 0.0))) == pytest.approx(1.0, abs=1e-6)


RADIALS = [
    # radial, station declination (east positive), true azimuth
    (360.0, 4.0, 4.0),
    (90.0, -12.0, 78.0),
    (350.0, 15.0, 5.0),
    (305.0, 11.0, 316.0),
]


@pytest.mark.parametrize(("radial", "declination", "true"), RADIALS)
def test_true_azimuth_of_a_radial(radial, declination, true):
    """A radial is counted from the station's own north: true = radial + station declination, east positive (FAA
    Pilot/Controller Glossary, radial; slaved variation). Computed."""
    got = float(navaids.true_from(radial, navaids.STATION, declination, -99.0))
    assert got % 360.0 == true


def test_units():
    """BIPM, The International System of Units (nautical mile 1852 m, knot); agreement of 1959 (foot 0.3048 m)."""
    assert NM_M == 1852.0
    assert FT_M == 0.3048
    assert KT_MS == pytest.approx(0.514444444, abs=1e-9)
    assert FT_PER_NM == pytest.approx(6076.115486, abs=1e-6)
