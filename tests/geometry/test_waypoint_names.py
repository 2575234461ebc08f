"""Names for equipment: clean, cut, unique, whatever is in them."""

from __future__ import annotations

import unicodedata
import xml.dom.minidom

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry.waypoint_names import CHARACTERS, FEWEST, MOST, clean, cut, letters_figures, unique_names

ANY = st.text(alphabet=st.characters(), max_size=320)
LENGTHS = st.one_of(st.none(), st.integers(FEWEST, 40))


@given(ANY)
def test_clean_text_can_stand_in_xml_and_in_one_line(text):
    """Source: W3C XML 1.0, 5th ed., 2.2: the parser refuses a document with a character that is not allowed."""
    made = clean(text)
    assert made == made.strip() and len(made.splitlines()) <= 1
    escaped = made.replace("&", "&amp;").replace("<", "&lt;")
    root = xml.dom.minidom.parseString(f"<t>{escaped}</t>".encode()).documentElement
    assert "".join(node.data for node in root.childNodes) == made
    assert clean(made) == made


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("A\u202eB\u2066C\u200fD\ufeff", "ABCD"),
        ("a\t\r\n b\u00a0c", "a b c"),
        ("\x00\x1f\x7f\x85", ""),
        ("half \ud83d", "half"),
        ("\ufffe\uffff\ufdd0\U0001ffff", ""),
        ("\U0001f469\u200d\u2708\ufe0f", "\U0001f469\u200d\u2708\ufe0f"),
        ("נקודה", "נקודה"),
    ],
)
def test_what_is_left_out(text, said):
    assert clean(text) == said


@given(ANY, st.integers(0, 60))
def test_a_cut_is_a_beginning(text, length):
    made = cut(text, length)
    assert len(made) <= length or made == text
    assert text.startswith(made)
    rest = text[len(made) :]
    if made and made != text:
        assert not unicodedata.category(rest[0]).startswith("M")
        assert made[-1] != "\u200d"


@pytest.mark.parametrize(
    ("text", "length", "said"),
    [
        ("\U0001f1e9\U0001f1ea\U0001f1eb\U0001f1f7", 3, "\U0001f1e9\U0001f1ea"),  # two flags of two letters each
        ("x\U0001f1e9\U0001f1ea", 2, "x"),
        ("\U0001f44d\U0001f3fd!", 1, ""),  # a thumb and the tone of its skin
        ("\U0001f469\u200d\u2708\ufe0f ab", 3, ""),
        ("ab cd", 3, "ab"),
        ("abc", 3, "abc"),
    ],
)
def test_no_sign_is_cut_in_two(text, length, said):
    """Source: Unicode Standard Annex 29, rules GB9, GB11, GB12 and GB13."""
    assert cut(text, length) == said


@given(st.lists(st.one_of(ANY, st.sampled_from(["OBL", "obl", "QLF R045.5", ""])), max_size=40), LENGTHS,
       st.sampled_from(CHARACTERS))  # fmt: skip
def test_names_are_unique_short_and_allowed(names, length, characters):
    made = unique_names(names, length=length, characters=characters)
    assert len(made.written) == len(made.changes) == len(names)
    assert len({name.casefold() for name in made.written}) == len(names)
    for name, written, change in zip(names, made.written, made.changes):
        assert written and clean(written) == written
        assert (change == "") == (written == name)
        assert length is None or len(written) <= length
        if characters == "letters_figures":
            assert written == letters_figures(written) == written.upper()


@given(st.lists(st.text("AB1 ", min_size=1, max_size=9), max_size=30), st.integers(FEWEST, 9))
def test_a_name_that_fits_keeps_its_letters(names, length):
    """The first of each that fits and needs no change is never renamed for the sake of a cut one."""
    made = unique_names(names, length=length)
    seen = set()
    for name, written in zip(names, made.written):
        if len(name) <= length and clean(name) == name and name.casefold() not in seen:
            assert written == name
        seen.add(name.casefold())


def test_many_repeats_in_few_letters():
    made = unique_names(["QLF R045.5"] * 1000, length=5)
    assert made.written[:3] == ["QLF R", "QLFB", "QLFC"]
    assert len(set(made.written)) == 1000
    assert max(map(len, made.written)) == 5


def test_a_tail_stays():
    made = unique_names(["A very long exercise"] * 2, [" OUT", " END"], length=8)
    assert made.written == ["A ve OUT", "A ve END"]


def test_figures_are_not_added_to_a_radial():
    """A repeat of a cut name does not look like another radial."""
    assert unique_names(["QLF R045.5", "QLF R045.7"], length=8).written[1] == "QLF R04B"
    assert unique_names(["E01", "E01"]).written == ["E01", "E01 (2)"]


def test_nothing_usable():
    made = unique_names(["\u202e", "שלום", "??"], length=6, characters="letters_figures", otherwise="FIX")
    assert made.written == ["FIX", "FIXB", "FIXC"]
    assert all(made.changes)


@pytest.mark.parametrize("more", [{"length": FEWEST - 1}, {"length": MOST + 1}, {"characters": "roman"}])
def test_a_call_that_makes_no_sense(more):
    with pytest.raises(ValueError, match="; it must be"):
        unique_names(["A"], **more)
    with pytest.raises(ValueError, match="cannot all differ"):
        unique_names(["A"] * 100_001, length=5)
