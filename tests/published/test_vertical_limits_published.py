"""Flight levels as altitudes, against the standard atmosphere and what handbooks say of altimeter settings."""

from __future__ import annotations

import pytest

from fixwright.geometry.vertical_limits import PRESSURE, altitude_ft

# ICAO Doc 7488, Manual of the ICAO Standard Atmosphere: pressure at a pressure altitude, hPa. An altimeter set to the
# pressure of H feet shows H feet less than one set to 1013.25.
PRESSURES = ((0.0, 1013.25), (1000.0, 977.166), (2000.0, 942.129), (3000.0, 908.117))


@pytest.mark.parametrize(("height_ft", "hpa"), PRESSURES)
def test_low_pressure_lowers_a_flight_level_by_the_height_of_that_pressure(height_ft, hpa):
    assert float(altitude_ft(PRESSURE, 9500.0, hpa)) == pytest.approx(9500.0 - height_ft, abs=0.3)


def test_the_navys_example():
    """Altimeter 31.12 inHg, 10 000 ft indicated: pressure altitude 8 800 ft, by 1 000 ft an inch.

    Source: US Navy, Flight Planning and Navigation student text (P-203 series), worked example. The rule of thumb is
    some 8 % more than the atmosphere, so the level differs by about 100 ft.
    """
    assert float(altitude_ft(PRESSURE, 8800.0, 31.12 * 33.8639)) == pytest.approx(10_000.0, abs=120.0)


def test_about_27_to_30_feet_a_hectopascal():
    """Common practice: 27 to 30 ft a hectopascal near sea level."""
    for qnh in (983.25, 1003.25, 1023.25, 1043.25):
        moved = float(altitude_ft(PRESSURE, 5000.0, qnh)) - 5000.0
        assert 26.5 <= moved / (qnh - 1013.25) <= 30.0
