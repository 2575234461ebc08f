"""Positions as text against examples printed elsewhere."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from fixwright.geometry import text, units

with open(Path(__file__).parent / "data" / "angle_text.csv", encoding="utf-8", newline="") as file:
    ANGLES = list(csv.DictReader(file))


@pytest.mark.parametrize("row", ANGLES, ids=lambda row: row["text"])
def test_degrees_minutes_seconds(row):
    parse = text.parse_latitude if row["text"][0] in "NS" else text.parse_longitude
    assert parse(row["text"]) == pytest.approx(float(row["degrees"]), abs=float(row["tolerance"]))


def test_the_same_row_as_a_position():
    """FAA NASR, NAV_BASE layout, example row: LAT_DECIMAL 47.00905216 (cut off, not rounded)."""
    lon, lat = text.parse_position("N47 00 32.5878 W096 48 54.6606")
    assert lat == pytest.approx(47.00905216, abs=1e-8)
    assert lon == pytest.approx(-96.8151835, abs=5e-7)


def test_iso_6709_with_height():
    """ISO 6709 examples in the documentation of public converters: the heights of two mountains."""
    assert text.parse_iso6709("+27.5916+086.5640+8850CRSWGS_84/") == (27.5916, 86.5640, 8850.0)
    assert text.parse_position("+27.5916+086.5640+8850CRSWGS_84/") == (86.5640, 27.5916)
    lat, lon, height = text.parse_iso6709("+35.36083+138.72750+3776CRSWGS_84/")
    assert text.format_position(lon, lat, "dms", 3) == "35°21'38.988\"N 138°43'39.000\"E"
    assert height == 3776.0


def test_flight_plan_forms():
    """ICAO Doc 4444, Appendix 2, item 15, from memory."""
    lon, lat = text.parse_position("4620N07805W")
    assert (lat, lon) == pytest.approx((46.333333, -78.083333), abs=1e-6)
    assert text.parse_position("46N078W") == (-78.0, 46.0)
    assert text.parse_bearing_distance("DUB180040") == ("DUB", 180.0, 40.0)


def test_units():
    """The nautical mile (International Hydrographic Conference, 1929) and the foot (international agreement, 1959) by
    definition; the knot computed from the first."""
    assert units.NM_M == 1852.0
    assert units.FT_M == 0.3048
    assert units.KT_MS == pytest.approx(0.514444444, abs=1e-9)
    assert units.FT_PER_NM == pytest.approx(6076.115, abs=5e-4)
