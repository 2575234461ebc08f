"""Clearances in words: variants that are typed, numbers, octants, times, and what is no clearance at all."""

from __future__ import annotations

import re
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import phraseology
from fixwright.geometry.phraseology import numbers, octants, times, tokens, words
from fixwright.geometry.phraseology import reading as reading_module
from fixwright.tests.geometry.clearance_variants import NAVAIDS, NOW, REFUSED, ROWS

IDENTS = phraseology.Idents(NAVAIDS)
SHORT = {
    "radial_deg": "r", "distance_nm": "d", "navaid_2": "n2", "radial_2_deg": "r2", "distance_2_nm": "d2",
    "along_nm": "along", "along_side": "side", "course_deg": "crs", "inbound_deg": "in", "turn": "turn",
    "leg_min": "min", "leg_nm": "nm", "ias_kt": "ias", "area_ias_kt": "max", "alt_ft": "alt", "alt_to_ft": "to",
    "efc_utc": "efc", "leave_utc": "leave", "rules": "rules",
}  # fmt: skip


def short(clearance) -> str:
    """A row as the table of variants writes it: every cell but the kind of the navaid."""
    cells = phraseology.plan_cells(clearance)
    assert set(cells) <= {"fix_method", "navaid", "navaid_kind", "distance_kind", *SHORT}
    shown = [f"{s}={cells[k]:g}" if isinstance(cells[k], float) else f"{s}={cells[k]}"
             for k, s in SHORT.items() if k in cells]  # fmt: skip
    return " ".join([f"{cells['fix_method']}:{cells['navaid']}", *shown])


def read(text, **more):
    return phraseology.read(text, **{"now": NOW, "idents": IDENTS, **more})


def test_there_are_enough_variants():
    assert len(ROWS) + len(REFUSED) >= 120
    assert len({text for text, _ in ROWS + REFUSED}) == len(ROWS) + len(REFUSED)


@pytest.mark.parametrize(("text", "row"), ROWS, ids=[text[:60] for text, _ in ROWS])
def test_a_variant_and_its_row(text, row):
    reading = read(text)
    assert reading.refused == ""
    assert short(reading.clearance) == row


@pytest.mark.parametrize(("text", "why"), REFUSED, ids=[text[:60] for text, _ in REFUSED])
def test_a_variant_and_why_it_is_refused(text, why):
    reading = read(text)
    assert reading.clearance is None
    assert why in reading.refused
    assert "\n" not in reading.refused and ". " not in reading.refused


def test_typed_without_stops():
    """While somebody talks: small letters, no commas or full stops but those inside a number."""
    for text, row in ROWS:
        reading = read(re.sub(r"[,;](?!\d)|\.(?!\d)", "", text).lower())
        assert (reading.refused, reading.clearance and short(reading.clearance)) == ("", row), text


@pytest.mark.parametrize("change", [str.upper, str.lower, str.title])
def test_capitals_do_not_matter(change):
    for text, row in ROWS:
        reading = read(change(text))
        assert (reading.refused, short(reading.clearance)) == ("", row), text


def test_two_directions_are_kept_apart():
    """Source: FAA AIM 5-3-8 i: the direction of a clearance is that of the pattern from the fix; miles before it make
    it the fix's from the navaid (common practice)."""
    clearance = read("hold southeast of the fix 9 miles northwest of OBL on course 315").clearance
    assert (clearance.fix.octant, clearance.fix.side, clearance.direction) == ("NW", "beyond", "SE")
    assert clearance.inbound_deg == 315.0


def test_the_adjacent_octant_has_a_note():
    assert read("hold northeast of OBL on the 060 radial").assumed == ()
    (note,) = read("hold northeast of OBL on the 072 radial").assumed
    assert note == "the 072 radial lies 4.5 degrees outside northeast, taken as meant"


@given(st.sampled_from(octants.OCTANTS), st.integers(0, 359))
def test_octants(point, radial):
    """Eighths of 45 degrees about the eight points: a radial has its own, or at the edge either."""
    apart = abs((radial - 45 * octants.OCTANTS.index(point) + 180) % 360 - 180)
    reading = read(f"hold {point} of OBL on the {radial:03d} radial")
    assert (reading.refused == "") == (apart <= 27.5)
    assert bool(reading.assumed) == (22.5 < apart <= 27.5)


@given(st.integers(0, 359))
def test_written_octant_is_never_doubted(radial):
    assert octants.outside_deg(octants.octant(float(radial)), float(radial)) == 0.0


def test_an_efc_is_no_time_to_leave():
    """Source: 14 CFR 91.185(c)(3): the EFC matters when radio contact is lost."""
    clearance = read("hold east of OBL on the 090 radial, EFC 1430").clearance
    assert (clearance.efc, clearance.leave) == ("2026-09-01T14:30", "")
    clearance = read("hold east of OBL on the 090 radial, leave OBL at 1440").clearance
    assert (clearance.efc, clearance.leave) == ("", "2026-09-01T14:40")


@pytest.mark.parametrize(
    ("figures", "now", "found"),
    [
        ("1430", "2026-09-01T14:00", "2026-09-01T14:30"),
        ("1400", "2026-09-01T14:00", "2026-09-01T14:00"),
        ("1359", "2026-09-01T14:00", "2026-09-02T13:59"),
        ("0005", "2026-12-31T23:58", "2027-01-01T00:05"),
        ("2400", "2026-09-01T14:00", "2026-09-02T00:00"),
        ("05", "2026-09-01T14:00", "2026-09-01T14:05"),
        ("05", "2026-09-01T23:58", "2026-09-02T00:05"),
        ("1430", "", "14:30"),
    ],
)
def test_the_next_such_time(figures, now, found):
    assert times.next_utc(figures, now) == found


@pytest.mark.parametrize("figures", ["2401", "2360", "1", "123", "12345", "99"])
def test_what_is_no_time(figures):
    with pytest.raises(tokens.RefusedError, match="no time"):
        times.next_utc(figures, "2026-09-01T14:00")


def value(text):
    found = numbers.number(tokens.tokens(text), 0)
    return None if found is None else (found.value, found.figures)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("zero niner zero", (90.0, "090")),
        ("0 9 0", (90.0, "090")),
        ("oh nine oh", (90.0, "090")),
        ("o nine zero", (90.0, "090")),
        ("forty-five", (45.0, "45")),
        ("two seventy", (270.0, "270")),
        ("one twenty five", (125.0, "125")),
        ("fourteen thirty", (1430.0, "1430")),
        ("fourteen hundred", (1400.0, "1400")),
        ("zero nine hundred", (900.0, "0900")),
        ("zero-nine-zero", (90.0, "090")),
        ("three hundred sixty", (360.0, "360")),
        ("three hundred and sixty", (360.0, "360")),
        ("one two thousand", (12000.0, "12000")),
        ("twelve thousand five hundred", (12500.0, "12500")),
        ("five thousand five hundred", (5500.0, "5500")),
        ("five thousand two fifty", (5250.0, "5250")),
        ("12 thousand", (12000.0, "12000")),
        ("tree fife", (35.0, "35")),
        ("one seven point five", (17.5, "")),
        ("one seven decimal five", (17.5, "")),
        ("17.5", (17.5, "")),
        ("17,5", (17.5, "")),
        ("5,000", (5000.0, "5000")),
        ("one and a half", (1.5, "")),
        ("1 1/2", (1.5, "")),
        ("north", None),
        ("hundred", None),
        ("9" * 60, None),
    ],
)
def test_numbers_as_people_write_and_say_them(text, expected):
    assert value(text) == expected


@pytest.mark.parametrize(
    ("text", "most", "figures", "left"),
    [
        ("zero nine zero two minute", 3, "090", "two"),
        ("two seven zero two minute", 3, "270", "two"),
        ("two five ten mile", 3, "25", "ten"),
        ("one four three zero two minute", 4, "1430", "two"),
        ("045017", 3, "045017", ""),
    ],
)
def test_figures_end_where_their_kind_of_number_does(text, most, figures, left):
    """A course or level has three figures, a time four: what is said next is another number."""
    found = tokens.tokens(text)
    read_number = numbers.number(found, 0, most)
    assert read_number.figures == figures
    assert (found[read_number.end].text if read_number.end < len(found) else "") == left


@given(st.integers(0, 9999), st.sampled_from(["faa", "icao"]))
def test_digit_by_digit_reads_back(number, wording):
    figures = f"{number:04d}"
    assert value(numbers.digit_by_digit(figures, wording)) == (float(number), figures)


@given(st.integers(1, 600), st.sampled_from(["faa", "icao"]))
def test_altitudes_read_back(hundreds, wording):
    assert value(numbers.altitude_words(hundreds * 100.0, wording))[0] == hundreds * 100.0


@given(st.integers(1, 4000), st.sampled_from(["faa", "icao"]))
def test_tenths_read_back(tenths, wording):
    assert value(numbers.digit_by_digit(numbers.trimmed(tenths / 10.0), wording))[0] == tenths / 10.0


def test_without_navaids_any_word_in_their_place_is_one():
    reading = phraseology.read("hold east of ABC on the 090 radial")
    assert short(reading.clearance) == "overhead:ABC in=270 rules=faa"


def test_an_ident_that_is_a_word_of_the_phraseology():
    """Where only a navaid can stand, it is one."""
    idents = phraseology.Idents([("LEG", ""), ("FIX", "Left Hand")])
    reading = phraseology.read("hold east of LEG on the 090 radial, 2 minute legs", idents=idents)
    assert short(reading.clearance) == "overhead:LEG in=270 min=2 rules=faa"
    reading = phraseology.read("hold east of left hand on the 090 radial, left turns", idents=idents)
    assert short(reading.clearance) == "overhead:FIX in=270 turn=left rules=faa"


def test_names_with_accents():
    idents = phraseology.Idents([("ZQE", "Zoë-Öst")])
    assert short(phraseology.read("hold E of zoë öst R090", idents=idents).clearance).startswith("overhead:ZQE in=270")
    assert short(phraseology.read("hold E of ZOE OST R090", idents=idents).clearance).startswith("overhead:ZQE in=270")


def test_no_state_is_kept_between_readings():
    once = [repr(read(text)) for text, _ in ROWS]  # as text: what is not known is NaN, which equals nothing
    assert [repr(read(text)) for text, _ in reversed(ROWS)] == once[::-1]


NONSENSE = [
    "", " ", "\n\t", "a" * 995, "hold " + "a" * 990, "hold " + "the " * 190, "9" * 1000, "hold " + "1 " * 190,
    "hold " + "north " * 160, "hold " + "between 1 and " * 60, "hold " + "oscar bravo lima " * 55, "x" * 10_000,
    "hold " * 2_000, "\x00" * 10, "hold\x07", "hold \u202e east", "(" * 990, "hold " + "OBL 045 " * 90, "🛩 hold",
    "hold " + "five thousand " * 60, "hold " + "1/2 " * 60, "hold " + "-" * 190, "hold " + "\u0301" * 900,
    "Удерживайте к северо-востоку", "待機せよ", "maintenez l'attente au nord-est du VOR OBL", None, 5, float("nan"),
    b"hold",
]  # fmt: skip


@pytest.mark.parametrize("text", NONSENSE, ids=[repr(text)[:40] for text in NONSENSE])
def test_nonsense_is_one_sentence_at_once(text, monkeypatch):
    """The work is bounded by the count of words, which is bounded itself: one look for a phrase at each."""
    looks = []
    look = reading_module._phrase
    monkeypatch.setattr(reading_module, "_phrase", lambda *given: looks.append(1) or look(*given))
    reading = read(text)
    assert reading.clearance is None
    assert 0 < len(reading.refused) < 300 and reading.refused.isprintable()
    assert len(looks) <= tokens.MAX_TOKENS


@given(st.text(max_size=1200))
def test_any_text_is_read_or_refused(text):
    reading = read(text)
    assert (reading.clearance is None) == (reading.refused != "")
    assert "\n" not in reading.refused


PIECES = sorted(words.VOCABULARY) + ["OBL", "KVN", "QEL", "045", "17", "5,000", "5", "1430", "14:30", "5 000", ",", ".",
          "/", "-", "½", "oscar", "bravo", "lima", "inbound track", "expect further clearance", "of the",
          "on the 090 radial", "mile legs", "9 miles before", "on present course", *string.digits]  # fmt: skip


@given(st.lists(st.sampled_from(PIECES), max_size=14), st.sampled_from(["", NOW]))
def test_any_words_of_the_trade_are_read_or_refused(pieces, now):
    """Never an exception; and what is read is written in both wordings."""
    reading = read("hold " + " ".join(pieces), now=now)
    assert (reading.clearance is None) == (reading.refused != "")
    if reading.clearance:
        for wording in phraseology.WORDINGS:
            assert phraseology.write(reading.clearance, wording).text.startswith(("Hold", "Cleared"))


def test_another_wording_makes_no_sense():
    clearance = read("hold east of OBL on the 090 radial").clearance
    with pytest.raises(ValueError, match="wording is 'raf'; it must be one of icao, faa"):
        phraseology.write(clearance, "raf")


def test_a_dme_distance_is_a_slant_range():
    """What is said to be DME is; miles are left to the plan, which says what it takes them for."""
    for place, kind in (("17 DME fix", "slant"), ("17 mile fix", None)):
        cells = phraseology.plan_cells(read(f"hold northeast of the {place} on the OBL 045 radial").clearance)
        assert cells.get("distance_kind") == kind


def test_whom_a_clearance_is_for_is_said():
    (note,) = read("Skyfox 45, hold east of OBL on the 090 radial").assumed
    assert note == "“Skyfox 45” is whom the clearance is for"


@pytest.mark.parametrize(
    ("words", "note"),
    [
        ("hold over OBL, inbound track 270, right hand pattern, inbound leg 2 minutes",
         "“inbound leg 2 minutes” is taken for the outbound leg, which these rules time"),
        ("hold east of OBL on the 090 radial, left turns, 2 minutes outbound",
         "“2 minutes outbound” is taken for the inbound leg, which these rules time"),
        ("hold south of the intersection of the OBL 270 radial and the KVN 180 radial",
         "held on the 180 radial of KVN, the one in that direction"),
        ("hold 9 DME before QEL on course 250", "“9 DME before QEL” is measured along the ground"),
    ],
)  # fmt: skip
def test_what_is_taken_for_something_else_is_said(words, note):
    assert read(words).assumed == (note,)


def test_a_bearing_is_told_as_a_bearing():
    """An NDB has no radials."""
    told = read("hold at the intersection of the OBL 090 radial and the 345 bearing from WYR").understood[0]
    assert told == "the fix is where the 090 radial of OBL meets the 345 bearing from WYR"
