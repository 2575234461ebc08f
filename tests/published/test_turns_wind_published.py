"""Turns and the wind triangle against handbooks, printed exercises and figures computed from the laws they name."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from fixwright.geometry import flight
from fixwright.geometry.units import FT_PER_NM

with open(Path(__file__).parent / "data" / "turns_and_wind.csv", encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


def _wrapped(difference: float) -> float:
    return (difference + 180.0) % 360.0 - 180.0


def _value(row: dict[str, str]) -> float:
    given = {k: float(v) for k, v in row.items() if k.endswith(("_kt", "_deg")) and v}
    tas, bank, course = given.get("tas_kt"), given.get("bank_deg"), given.get("course_deg")
    wind = (given.get("wind_from_deg"), given.get("wind_kt"))
    quantity = row["quantity"]
    if quantity == "bank of 3 deg/s":
        return flight.bank_of_rate_deg(tas, 3.0)
    if quantity == "radius of 3 deg/s":
        # Slow enough for the rate to govern by the rules of the FAA (30 degrees).
        return flight.turn(tas, 1).radius_nm
    if quantity == "rate at bank":
        return flight.rate_of_bank_dps(tas, bank)
    if quantity == "radius at bank":
        rate = float(flight.rate_of_bank_dps(tas, bank))
        return tas / 3600.0 / (rate * 3.141592653589793 / 180.0) * FT_PER_NM
    if quantity == "correction":
        return flight.heading_for_course(course, tas, *wind).correction_deg
    if quantity == "ground speed":
        return flight.heading_for_course(course, tas, *wind).gs_kt
    if quantity == "outbound heading, correction tripled":
        return course + 180.0 - 3.0 * flight.heading_for_course(course, tas, *wind).correction_deg
    tas_needed, heading = flight.airspeed_for_track(course, given["gs_kt"], *wind)
    return {"airspeed for track": tas_needed, "heading for track": heading}[quantity]


@pytest.mark.parametrize("row", ROWS, ids=lambda r: f"{r['quantity']} {r['tas_kt']} {r['course_deg']}".strip())
def test_row(row):
    """FAA-H-8083-25 (from memory), FAA AIM 5-3-8 j.8(c), a wartime manual of navigation, and computed figures: the
    source stands in each row."""
    assert row["source"]
    difference = float(_value(row)) - float(row["expected"])
    if row["unit"] == "deg":
        difference = _wrapped(difference)
    assert abs(difference) <= float(row["tolerance"])


def test_all_rows_are_there():
    assert len(ROWS) == 33


def test_25_degrees_give_3_degrees_a_second_at_170_kt():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, I-4-3-7, note: above 170 kt TAS the bank is always 25 degrees; computed
    169.75 kt from the printed constant 509.26 / V of Table I-4-3-App C-1, line 4."""
    assert float(flight.rate_of_bank_dps(1.0, 25.0)) == pytest.approx(509.26, rel=1e-3)
    assert float(flight.turn(169.5, 0).rate_dps) == 3.0
    assert float(flight.turn(169.5, 0).bank_deg) < 25.0
    assert float(flight.turn(170.0, 0).bank_deg) == 25.0
    assert float(flight.turn(170.0, 0).rate_dps) < 3.0


def test_bank_of_the_faa():
    """FAA AIM 5-3-8 j.8(b): 3 degrees a second or 30 degrees of bank, whichever needs the least bank."""
    assert float(flight.turn(200.0, 1).rate_dps) == 3.0
    assert float(flight.turn(240.0, 1).bank_deg) == 30.0
    assert float(flight.turn(240.0, 1).rate_dps) == pytest.approx(2.627, abs=0.001)
