"""Limits of speed and standard leg times against the published rules."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from fixwright.geometry import atmosphere, holds

with open(Path(__file__).parent / "data" / "holding_speeds_and_legs.csv", encoding="utf-8", newline="") as file:
    RULES = list(csv.DictReader(file))


@pytest.mark.parametrize("row", RULES, ids=lambda r: f"{r['rules']} {r['quantity']} {r['alt_ft']}")
def test_limit_of_the_rules(row):
    """FAA AIM 5-3-8 j.2(a) and j.4(a); ICAO Doc 8168 as carried in AIPs: each row names its source."""
    assert row["source"]
    rules = holds.RULES.index(row["rules"])
    alt, expected = float(row["alt_ft"]), float(row["expected"])
    if row["quantity"] == "leg":
        assert float(holds.standard_leg_min(alt, rules)) == expected
    elif row["quantity"] == "mach":
        ias = float(holds.maximum_ias_kt(alt, rules))
        # The Mach number that this speed is in the standard atmosphere, by the isentropic pitot equations.
        tas = float(atmosphere.cas_to_tas_kt(ias, alt))
        assert tas / float(atmosphere.isa(alt).sound_kt) == pytest.approx(expected, abs=1e-9)
    else:
        assert float(holds.maximum_ias_kt(alt, rules)) == expected


def test_which_leg_the_rules_time():
    """ICAO Doc 8168 times the outbound leg, FAA AIM 5-3-8 j.4 the inbound leg."""
    assert {row.timed_leg for row in holds.LEG_RULES["icao"]} == {"outbound"}
    assert {row.timed_leg for row in holds.LEG_RULES["faa"]} == {"inbound"}
