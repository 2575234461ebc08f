"""Names of waypoints for equipment that takes only so many characters: clean, cut to a length, each one once.

A name is cut between characters as a reader sees them, never inside one: an accent, a joined sign or a flag is kept
whole or left out.
"""

from __future__ import annotations

import unicodedata
from typing import NamedTuple

CHARACTERS = ("any", "letters_figures")
"""What a name may hold: anything that can be shown; capital letters A to Z, figures, and nothing else."""

FEWEST, MOST = 5, 255
"""Lengths to which names can be cut. Five figures tell a hundred thousand names apart."""

_JOINER, _NON_JOINER = "\u200d", "\u200c"
_SKIN = ("\U0001f3fb", "\U0001f3ff")
_FLAG = ("\U0001f1e6", "\U0001f1ff")


class Names(NamedTuple):
    """Names as written, one for each given, and why each is not as it was given, '' where it is."""

    written: list[str]
    changes: list[str]


def clean(text: str) -> str:
    """Text that every format can hold and every screen shows in one line.

    White space of any kind becomes one space. Control characters, halves of surrogate pairs, code points that are no
    characters, and marks that turn the direction of reading or have no width are left out; the joiners of emoji and
    of Persian stay. Parameters: text. Returns: text, '' where nothing is left.
    Source: W3C XML 1.0, 5th ed., 2.2 (characters allowed); The Unicode Standard, 23.7 (noncharacters) and Unicode
    Standard Annex 9 (marks of direction).

    >>> clean(" QZB\\n\\x00R305\\u202e ")
    'QZB R305'
    """
    line = " ".join(str(text).split())
    if line.isprintable():
        return line
    return " ".join("".join(filter(_can_stay, line)).split())


def _can_stay(char: str) -> bool:
    if char in (_JOINER, _NON_JOINER):
        return True
    code = ord(char)
    if code & 0xFFFE == 0xFFFE or 0xFDD0 <= code <= 0xFDEF:
        return False
    return unicodedata.category(char) not in ("Cc", "Cf", "Cs", "Zl", "Zp")


def letters_figures(text: str) -> str:
    """The capital letters A to Z and the figures of a text; a letter with an accent loses the accent.

    >>> letters_figures("Été R045.5"), letters_figures("שלום")
    ('ETER0455', '')
    """
    plain = unicodedata.normalize("NFKD", text).upper()
    return "".join(char for char in plain if char.isascii() and char.isalnum())


def cut(text: str, length: int) -> str:
    """The longest beginning of a text of at most so many characters that breaks no sign and ends in no space.

    >>> cut("QLF R045.5", 8), cut("e\\u0301e\\u0301", 3)
    ('QLF R045', 'e\u0301')
    """
    if len(text) <= length:
        return text
    end = max(length, 0)
    while end and not _may_break(text, end):
        end -= 1
    return text[:end].rstrip()


def _may_break(text: str, at: int) -> bool:
    """Whether a text may be cut before a place: the main rules of Unicode Standard Annex 29, grapheme clusters."""
    before, after = text[at - 1], text[at]
    if after in (_JOINER, _NON_JOINER) or before == _JOINER or unicodedata.category(after).startswith("M"):
        return False
    if _SKIN[0] <= after <= _SKIN[1]:
        return False
    flags = 0
    while flags < at and _FLAG[0] <= text[at - 1 - flags] <= _FLAG[1]:
        flags += 1
    return not (flags % 2 and _FLAG[0] <= after <= _FLAG[1])


def unique_names(names, tails=None, *, length: int | None = None, characters: str = "any", otherwise="P") -> Names:
    """Names cleaned, cut and made unique, compared without case.

    A name that fits as it is keeps its letters, wherever it stands; the others give way. Of a name that is cut the
    tail stays. A repeat gets a number, or, where there are only so many characters or only letters and figures, a
    letter in place of its end: a figure there would read as part of a radial.
    Parameters: names, N texts; tails, N texts or None, what must stay at the end of each; length, FEWEST to MOST, or
    None for as long as they are; characters, one of CHARACTERS; otherwise, what a name without a usable character
    is called, one text or N of them. Returns: Names.
    Errors: ValueError for a length out of range, an unknown word, or more names than so many characters can tell
    apart.

    >>> unique_names(["QLF R045.5", "QLF R045.7", "OBL"], length=8).written
    ['QLF R045', 'QLF R04B', 'OBL']
    """
    if characters not in CHARACTERS:
        raise ValueError(f"characters is {characters!r}; it must be one of {', '.join(CHARACTERS)}")
    if length is not None and not FEWEST <= length <= MOST:
        raise ValueError(f"length is {length}; it must be {FEWEST} to {MOST}")
    if length is not None and len(names) > 10**length:
        raise ValueError(f"{len(names)} names of {length} characters cannot all differ; give them more")
    full = list(zip(map(str, names), map(str, [""] * len(names) if tails is None else tails)))
    last = [otherwise] * len(full) if isinstance(otherwise, str) else list(otherwise)
    fitted = [_fitted(*pair, length, characters) or one for pair, one in zip(full, last)]
    written = [""] * len(full)
    used: set[str] = set()
    for unchanged in (True, False):
        for i, (name, (stem, tail)) in enumerate(zip(fitted, full)):
            if (name == stem + tail) is unchanged and name.casefold() not in used:
                written[i] = name
                used.add(name.casefold())
    repeats: dict[str, int] = {}
    plain = length is not None or characters != "any"
    for i, name in enumerate(fitted):
        while not written[i]:
            number = repeats[name.casefold()] = repeats.get(name.casefold(), 1) + 1
            mark = _letters(number) if plain else f" ({number})"
            made = (name if length is None else cut(name, length - len(mark))) + mark
            if made.casefold() not in used:
                written[i] = made
                used.add(made.casefold())
    return Names(written, [_change(stem + tail, name) for (stem, tail), name in zip(full, written)])


def _fitted(stem: str, tail: str, length: int | None, characters: str) -> str:
    """A name and its tail in allowed characters, at most so long."""
    stem, tail = clean(stem), " " * tail.startswith(" ") + clean(tail)
    if characters == "letters_figures":
        stem, tail = letters_figures(stem), letters_figures(tail)
    if length is not None and len(stem) + len(tail) > length:
        tail = cut(tail, length - 1)
        stem = cut(stem, length - len(tail))
    return (stem + tail).strip()


def _letters(number: int) -> str:
    """2 as B, 26 as Z, 27 as AA."""
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def _change(full: str, written: str) -> str:
    """What was done to a name; '' for nothing."""
    if written == full:
        return ""
    if written == clean(full):
        return "signs that a file or a screen cannot show were left out"
    return "it was too long, taken, or held signs that are not allowed"
