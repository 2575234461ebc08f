"""Clearances against what the documents publish."""

from __future__ import annotations

import math

import pytest

from fixwright.geometry import phraseology
from fixwright.geometry.phraseology import Clearance, Fix, Line, numbers, octants


def read(text):
    reading = phraseology.read(text, now="2026-09-01T14:00")
    assert reading.refused == ""
    return reading.clearance


def spoken(**more):
    given = {
        "fix": Fix("overhead", "OBL"),
        "line": Line("radial", 45.0),
        "direction": "NE",
        "inbound_deg": 225.0,
        **more,
    }
    return Clearance(**given)


def test_direction_is_that_of_the_pattern():
    """Source: FAA AIM 5-3-8 i.1 (eight points; the pattern lies there): northeast on the 045 radial is inbound 225."""
    assert read("Hold northeast of OBL on the 045 radial").inbound_deg == 225.0


@pytest.mark.parametrize("radial", range(0, 360, 5))
def test_the_compass_point_is_the_octant_of_the_outbound_course(radial):
    """Source: FAA AIM 5-3-8 i.1 and its eight compass points; inbound is the reciprocal."""
    written = phraseology.write(
        spoken(
            line=Line("radial", float(radial)), direction=octants.octant(radial), inbound_deg=(radial + 180.0) % 360.0
        ),
        "faa",
    )
    assert f"hold {phraseology.NAMES[int((radial + 22.5) // 45) % 8]} of" in written.text.lower()
    assert read(written.text).inbound_deg == (radial + 180.0) % 360.0


def test_elements_in_their_order():
    """Source: FAA AIM 5-3-8 i.1 to i.6: direction, fix, radial, leg, left turns, expect further clearance."""
    text = phraseology.write(spoken(turn="left", leg_min=2.0, efc="14:30"), "faa").text
    places = [text.lower().index(part) for part in ("northeast", "obl", "045 radial", "2 minute leg", "left turns",
                                                    "expect further clearance 1430")]  # fmt: skip
    assert places == sorted(places)


@pytest.mark.parametrize("wording", ["faa", "icao"])
def test_right_turns_and_standard_legs_are_not_said(wording):
    """Source: FAA AIM 5-3-8 i.4 and i.5 (leg only if DME or asked, turns only if left); ICAO by analogy."""
    text = phraseology.write(spoken(turn="right"), wording).text
    assert "right" not in text and "leg" not in text and "minute" not in text


def test_time_is_spoken_digit_by_digit():
    """Source: FAA Order 7110.65 4-6-1, examples of EFC in four figures, digit by digit."""
    assert phraseology.write(spoken(efc="09:05"), "faa").spoken.endswith(
        "expect further clearance zero niner zero five."
    )


def test_maximum_holding_airspeed():
    """Source: FAA AIM 5-3-8 j.2(c), the words of the advice."""
    said = phraseology.write(spoken(area_ias_kt=175.0), "faa")
    assert "maximum holding airspeed is 175 knots" in said.text
    assert "maximum holding airspeed is one seven five knots" in said.spoken
    assert read(said.text).area_ias_kt == 175.0


@pytest.mark.parametrize(
    ("words", "fix", "leg", "inbound"),
    [
        ("hold on the OBL 045 radial northeast of the 10 DME fix, 5 mile legs", 10.0, 5.0, 225.0),
        ("hold southwest of the 28 DME fix on the OBL 045 radial, 5 mile legs", 28.0, 5.0, 45.0),
    ],
)
def test_dme_holds_towards_and_away(words, fix, leg, inbound):
    """Source: FAA AIM 5-3-8, FIG 5-3-5 (fix 10 DME, leg 5, inbound towards: outbound end at 15) and the case of FIG
    5-3-6 (inbound away, the leg subtracted), with figures of our own."""
    clearance = read(words)
    assert (clearance.fix.distance_nm, clearance.leg_nm, clearance.inbound_deg) == (fix, leg, inbound)


@pytest.mark.parametrize("via", ["via KVN, expect further clearance 1430", "via direct KVN 1430"])
def test_the_route_beyond_does_not_change_the_hold(via):
    """Source: FAA Order 7110.65 4-6-1: expect further clearance via (routing); the time apart."""
    clearance = read(f"Hold east of OBL on the 090 radial, expect further clearance {via}")
    assert (clearance.efc, clearance.fix.ident, clearance.inbound_deg) == ("2026-09-01T14:30", "OBL", 270.0)


def test_no_delay_expected_is_no_hold():
    """Source: FAA Order 7110.65 4-6-1: cleared to (fix), no delay expected: no holding instructions are given."""
    assert "does not say “hold”" in phraseology.read("Cleared to OBL, no delay expected").refused


def test_a_charted_hold_needs_its_chart():
    """Source: FAA Order 7110.65 4-6-1: cleared to (fix), hold (direction), as published."""
    assert "refers to a chart" in phraseology.read("Cleared to OBL, hold west, as published").refused


def test_additional_delay_plays_no_part():
    """Source: FAA Order 7110.65 4-6-1, note: it is not what a pilot acts on after radio failure."""
    clearance = read("Hold east of OBL on the 090 radial, expect further clearance 1430, anticipate additional 30 "
                     "minute delay at OBL")  # fmt: skip
    assert (clearance.efc, clearance.leave) == ("2026-09-01T14:30", "")


def test_no_instructions_mean_the_course_of_arrival():
    """Source: FAA AIM 5-3-8 c: in the standard pattern on the course by which the fix was approached."""
    reading = phraseology.read("hold at OBL")
    assert reading.clearance.line.kind == "unsaid" and math.isnan(reading.clearance.inbound_deg)
    assert "AIM 5-3-8 c" in reading.assumed[0]


def test_nine_miles_northwest_on_present_course():
    """Common practice: with miles before the direction it is the fix's from the navaid, and the pattern lies behind the
    fix on the present course. Figures of the whole case: tests/geometry/test_spoken.py, by geographiclib."""
    clearance = read("Hold 9 miles northwest of QLF on present course")
    assert (clearance.fix.kind, clearance.fix.distance_nm, clearance.fix.octant) == ("offset", 9.0, "NW")
    assert clearance.direction == ""


@pytest.mark.parametrize(
    ("figures", "faa", "icao"),
    [
        ("090", "zero niner zero", "zero niner zero"),
        ("118.1", "one one eight point one", "one one eight decimal one"),
    ],
)
def test_figures_on_the_radio(figures, faa, icao):
    """Source: FAA AIM 4-2-8 to 4-2-11 (point); ICAO Annex 10 Vol II, 5.2.1.4 (decimal), from memory."""
    assert numbers.digit_by_digit(figures, "faa") == faa
    assert numbers.digit_by_digit(figures, "icao") == icao


@pytest.mark.parametrize(
    ("feet", "words"),
    [(500.0, "five hundred"), (4500.0, "four thousand five hundred"), (10000.0, "one zero thousand"),
     (13500.0, "one three thousand five hundred")],
)  # fmt: skip
def test_altitudes_on_the_radio(feet, words):
    """Source: FAA AIM 4-2-9 a (altitudes up to but not including 18 000 ft), from memory."""
    assert numbers.altitude_words(feet, "faa") == words


def test_flight_levels_on_the_radio():
    """Source: FAA AIM 4-2-9 b: the words flight level and the figures one by one, from memory."""
    said = phraseology.write(spoken(alt_ft=19000.0, level="fl"), "faa")
    assert "maintain flight level one niner zero" in said.spoken


def test_icao_elements():
    """Source: ICAO Doc 4444, 12.3 (from memory): level, inbound track in three figures, hand of the pattern, outbound
    leg time, expect further clearance at."""
    text = phraseology.write(spoken(turn="left", leg_min=2.0, alt_ft=5000.0, level="ft", efc="14:30"), "icao").text
    for part in ("maintain 5 000 feet", "inbound track 225 degrees", "left hand pattern", "outbound leg 2 minutes",
                 "expect further clearance at 1430"):  # fmt: skip
        assert part in text
    assert read(text).rules == "icao"


def test_between_two_dmes():
    """Source: ICAO Doc 4444, 12.3 (from memory): hold between two distances; the leg is what lies between."""
    clearance = read("Cleared to the 045 radial of the OBL VOR at 17 DME fix, hold between 17 and 22 DME, EAT 1430")
    assert (clearance.fix.distance_nm, clearance.leg_nm, clearance.inbound_deg) == (17.0, 5.0, 225.0)
