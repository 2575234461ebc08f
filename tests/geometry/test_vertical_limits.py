"""Vertical limits in the forms that people write: each is read, or refused in words.

Where a form comes from stands beside its group. AIP practice is that of ICAO Annex 15 and Doc 8126 (from memory): GND,
SFC, UNL, FL, AMSL, AGL. The metre is 1/0.3048 ft (international foot of 1959).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import vertical_limits as vl

MSL, AGL, STD, UNL = vl.ALTITUDE, vl.GROUND, vl.PRESSURE, vl.UNLIMITED
M = 1.0 / 0.3048

READ = (
    # ground, sea level and no limit: AIP practice
    ("GND", AGL, 0.0), ("SFC", AGL, 0.0), ("gnd", AGL, 0.0), ("Surface", AGL, 0.0), ("Ground level", AGL, 0.0),
    ("GND/SFC", AGL, 0.0), ("SFC (GND)", AGL, 0.0), ("SFC / GND", AGL, 0.0), ("MSL/GND", AGL, 0.0),
    ("GND level", AGL, 0.0), ("MSL", MSL, 0.0), ("UNL", UNL, math.inf), ("UNLTD", UNL, math.inf),
    ("Unlimited", UNL, math.inf), ("0", AGL, 0.0),
    # flight levels: AIP practice, and what people make of it
    ("FL95", STD, 9500.0), ("FL 95", STD, 9500.0), ("FL095", STD, 9500.0), ("FL 095", STD, 9500.0),
    ("fl 660", STD, 66000.0), ("Flight Level 95", STD, 9500.0), ("F/L 95", STD, 9500.0), ("95 FL", STD, 9500.0),
    ("FL 95 STD", STD, 9500.0), ("FL 95 (STD)", STD, 9500.0), ("FL\u00a0195", STD, 19500.0), ("FL 999", STD, 99900.0),
    # the flight plan's: ICAO Doc 4444 Appendix 2, item 15 (from memory), hundreds of feet and tens of metres
    ("F095", STD, 9500.0), ("A045", MSL, 4500.0), ("S1130", STD, 11300.0 * M), ("M0840", MSL, 8400.0 * M),
    # feet above the sea: AIP practice
    ("4500 FT AMSL", MSL, 4500.0), ("4500ft MSL", MSL, 4500.0), ("4500FT AMSL", MSL, 4500.0),
    ("MSL 4500 FT", MSL, 4500.0), ("ALT 4500 FT", MSL, 4500.0), ("4500 ft (AMSL)", MSL, 4500.0),
    ("4500 feet above mean sea level", MSL, 4500.0), ("4500 ft above MSL", MSL, 4500.0),
    ("4500 ft a.s.l.", MSL, 4500.0), ("4500 ft a.m.s.l.", MSL, 4500.0), ("4500 ft M.S.L.", MSL, 4500.0),
    ("5000ftAMSL", MSL, 5000.0), ("5000 ft. AMSL.", MSL, 5000.0), ("-200 FT AMSL", MSL, -200.0),
    ("\u2212200 ft amsl", MSL, -200.0), ("3500 ft QNH", MSL, 3500.0),
    # thousands and decimals as countries write them: common practice
    ("4,500 FT AMSL", MSL, 4500.0), ("4.500 ft AMSL", MSL, 4500.0), ("4 500 ft MSL", MSL, 4500.0),
    ("4'500 ft MSL", MSL, 4500.0), ("10\u202f000 ft AMSL", MSL, 10000.0), ("1,500.5 ft AMSL", MSL, 1500.5),
    ("1.500,5 ft AMSL", MSL, 1500.5), ("4500,5 ft AMSL", MSL, 4500.5),
    # above the ground: AIP practice; HEI of AIXM (from memory)
    ("1500ft AGL", AGL, 1500.0), ("1500 FT ASFC", AGL, 1500.0), ("1500 FT GND", AGL, 1500.0),
    ("AGL 1500 ft", AGL, 1500.0), ("1500 ft A.G.L.", AGL, 1500.0), ("SFC+1500 ft", AGL, 1500.0),
    ("1500 ft above ground level", AGL, 1500.0), ("HEI 500 FT", AGL, 500.0), ("0 FT AGL", AGL, 0.0),
    # metres and kilometres
    ("1000 m AMSL", MSL, 1000.0 * M), ("300 M AGL", AGL, 300.0 * M), ("1.000 m MSL", MSL, 1000.0 * M),
    ("1 000 metres above sea level", MSL, 1000.0 * M), ("152.4 m AGL", AGL, 500.0), ("1524.000 m AMSL", MSL, 5000.0),
    ("1,5 km AMSL", MSL, 1500.0 * M),
    # pressure levels in feet: STD of AIXM (from memory)
    ("9500 FT STD", STD, 9500.0), ("STD 9500 ft", STD, 9500.0),
)  # fmt: skip

ASSUMED = (
    # no reference: above mean sea level
    ("4500 FT", MSL, 4500.0), ("4500'", MSL, 4500.0), ("1200 m", MSL, 1200.0 * M), ("2,500 ft", MSL, 2500.0),
)  # fmt: skip

ELSEWHERE, UNIT, TWO, DATUM, NONE, WAYS, GIVEN = (
    "stands elsewhere", "has no unit", "more than one limit", "not known here", "is no vertical limit", "in two ways",
    "no limit is given",
)  # fmt: skip
REFUSED = (
    ("NOTAM", ELSEWHERE), ("by NOTAM", ELSEWHERE), ("As notified", ELSEWHERE), ("TBN", ELSEWHERE),
    ("see AIP", ELSEWHERE),
    ("4500", UNIT), ("4500 AMSL", UNIT), ("2500.0", UNIT),
    ("FL 95 / 4500 ft", TWO), ("2500 ft MSL or 1000 ft GND", TWO), ("SFC - FL95", TWO), ("FL 65-FL 95", TWO),
    ("GND to 4500 ft", TWO), ("4500 ft AMSL, whichever is higher", TWO),
    ("1500 ft AAL", DATUM), ("1500 ft QFE", DATUM), ("4500 ft W84", DATUM), ("FLOOR", DATUM),
    ("H24", NONE), ("abc", NONE), ("FL", NONE), ("STD", NONE), ("FL95 ft", NONE), ("FL 95.5", NONE),
    ("up to FL 95", NONE),
    ("2500 ft AMSL (760 m)", NONE), ("4500 yd AMSL", NONE), ("?", NONE),
    ("N/A", GIVEN), ("n.a.", GIVEN), ("-", GIVEN), ("\u2013", GIVEN), ("none", GIVEN), ("nil", GIVEN),
    ("FL195 (excl.)", NONE), ("below FL 195", NONE), ("FL 245+", NONE), ("FL 95 AGL", NONE), ("FL-10", NONE),
    ("max 4500 ft AMSL", NONE), ("UNL (FL 660)", NONE), ("4500 MSL FT", NONE), ("F95", NONE), ("\u0661\u0662 ft", NONE),
    ("FL195/UNL", TWO), ("GND - UNL", TWO), ("higher of 1000 ft AGL and 3000 ft AMSL", TWO), ("base of TMA", DATUM),
    ("QNH 1013", UNIT), ("15.240 m AGL", WAYS), ("304.800 m AMSL", WAYS),
    ("1.500 km AMSL", WAYS), ("4,5,0 ft AMSL", WAYS), ("12.34.567 ft AMSL", WAYS),
    ("FL 1000", "more than three figures"), ("AMSL 4500 ft AGL", "two references"),
    ("200000 ft AMSL", "not between"), ("-5000 ft AMSL", "not between"), ("", "is empty"), ("   ", "is empty"),
    (None, "is empty"), (math.nan, "is empty"), ("9" * 200, "longer than"),
)  # fmt: skip


def test_the_table_is_long_enough():
    assert len(READ) + len(ASSUMED) + len(REFUSED) >= 80
    texts = [str(row[0]) for row in READ + ASSUMED + REFUSED]
    assert len(set(texts)) == len(texts)


@pytest.mark.parametrize(("text", "reference", "feet"), READ)
def test_read(text, reference, feet):
    limit = vl.read_limit(text)
    assert limit.problem == ""
    assert (limit.reference, limit.value_ft) == (reference, pytest.approx(feet, rel=1e-12))
    assert limit.assumed == ("" if text != "0" else "0 is taken as the ground")


@pytest.mark.parametrize(("text", "reference", "feet"), ASSUMED)
def test_read_and_said_what_was_assumed(text, reference, feet):
    limit = vl.read_limit(text)
    assert (limit.reference, limit.value_ft, limit.problem) == (reference, pytest.approx(feet, rel=1e-12), "")
    assert limit.assumed == f"{text} is taken above mean sea level"


@pytest.mark.parametrize(("text", "why"), REFUSED)
def test_refused_in_words(text, why):
    limit = vl.read_limit(text)
    assert limit.reference == vl.UNREAD and math.isnan(limit.value_ft)
    assert why in limit.problem and "\n" not in limit.problem


@pytest.mark.parametrize(
    ("unit", "text", "reference", "feet"),
    [("ft", "4500", MSL, 4500.0), ("m", "1000", MSL, 1000.0 * M), ("fl", "95", STD, 9500.0),
     ("ft", 4500.0, MSL, 4500.0),
     ("fl", 95, STD, 9500.0), ("ft", "1500 AGL", AGL, 1500.0), ("fl", "FL 95", STD, 9500.0),
     ("m", "4500 ft AMSL", MSL, 4500.0)],
)  # fmt: skip
def test_figures_alone_in_a_unit_that_the_user_names(unit, text, reference, feet):
    limit = vl.read_limit(text, unit)
    assert (limit.reference, limit.value_ft, limit.problem) == (reference, pytest.approx(feet), "")


@pytest.mark.parametrize("text", ["9500", "95.5", "-5", "95 AMSL"])
def test_figures_that_are_no_flight_level(text):
    assert vl.read_limit(text, "fl").problem.endswith("is no flight level")


def test_an_unknown_unit():
    with pytest.raises(ValueError, match="plain_unit is 'yd'"):
        vl.read_limit("4500", "yd")


@given(st.integers(0, 999))
def test_every_flight_level(level):
    for text in (f"FL{level}", f"FL {level:03d}", f"fl{level:03d} std"):
        assert vl.read_limit(text)[:2] == (STD, 100.0 * level)


@given(st.integers(1, 99_999), st.sampled_from([",", ".", " ", "'", "\u202f"]), st.sampled_from(["FT", " ft", " feet"]))
def test_every_altitude_with_any_mark_of_thousands(feet, mark, unit):
    text = f"{feet:,}".replace(",", mark) + f"{unit} AMSL"
    assert vl.read_limit(text)[:2] == (MSL, float(feet))


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text):
    """Never an exception, never a number without a reference, never a refusal without a sentence."""
    limit = vl.read_limit(text)
    assert (limit.problem == "") == (limit.reference != vl.UNREAD)
    assert math.isnan(limit.value_ft) == (limit.reference == vl.UNREAD)


def test_columns():
    limits = vl.read_limits(["GND", None, "FL 95", 4500.0])
    np.testing.assert_array_equal(limits.reference, [AGL, vl.UNREAD, STD, vl.UNREAD])
    assert limits.text.tolist() == ["GND", "", "FL 95", "4500"]
    assert len(vl.read_limits([]).reference) == 0


def test_altitudes():
    references = [MSL, AGL, AGL, STD, UNL, vl.UNREAD]
    feet = vl.altitude_ft(references, [4500.0, 1500.0, 1500.0, 9500.0, np.inf, np.nan], 1013.25,
                          [np.nan, 800.0, np.nan, np.nan, np.nan, 0.0])  # fmt: skip
    np.testing.assert_allclose(feet, [4500.0, 2300.0, np.nan, 9500.0, np.inf, np.nan])
    assert vl.altitude_ft(MSL, 4500.0, 980.0).shape == ()


@given(st.floats(870.0, 1080.0), st.floats(0.0, 45_000.0))
def test_a_flight_level_is_the_altitude_whose_pressure_altitude_it_is(qnh, feet):
    from fixwright.geometry.atmosphere import pressure_altitude_ft

    assert float(pressure_altitude_ft(vl.altitude_ft(STD, feet, qnh), qnh)) == pytest.approx(feet, abs=1e-6)
