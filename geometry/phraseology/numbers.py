"""Numbers of clearances: read as figures or as words, written digit by digit."""

from __future__ import annotations

from typing import NamedTuple

from .tokens import Token
from .words import DIGITS, POINT, TEENS, TENS, UNITS

MOST_FIGURES = 9
_HALF = (
    ("and", "a", "half"),
    ("and", "one", "half"),
    ("and", "one", "-", "half"),
    ("and", "1", "/", "2"),
    ("1", "/", "2"),
    ("-", "1", "/", "2"),
)
_HALF_STARTS = {phrase[0] for phrase in _HALF}
_SPOKEN = {**{word: str(value) for word, value in UNITS.items()}, **{w: str(v) for w, v in TEENS.items()}}


class Num(NamedTuple):
    """A number: its value; its figures as given, zeros in front kept, '' where they are not whole; the next token."""

    value: float
    figures: str
    end: int


def number(found: list[Token], i: int, most: int = MOST_FIGURES) -> Num | None:
    """The number that begins at a token; None where there is none.

    045, 5,000, 17.5; zero four five, forty five, two seventy, fourteen thirty; five thousand five hundred; one seven
    point five; one and a half, 1 1/2. most: how many figures such a number has at most, so that those said one by one
    end there: radial zero nine zero, two minute legs.
    """
    figures, j = _run(found, i, most)
    if not figures:
        return None
    if _word(found, j) == "thousand":
        return _thousands(found, figures, j + 1)
    if _word(found, j) == "hundred":
        value, j = _hundreds(found, figures, j + 1)
        return Num(float(value), f"{value:0{len(figures) + 2}d}", j)
    if "." in figures:
        return Num(float(figures), "", j)
    if _word(found, j) in POINT.values():
        decimals, end = _run(found, j + 1)
        if decimals and "." not in decimals:
            return Num(float(f"{figures}.{decimals}"), "", end)
    for phrase in _HALF if _word(found, j) in _HALF_STARTS else ():
        if tuple(token.text for token in found[j : j + len(phrase)]) == phrase:
            return Num(float(figures) + 0.5, "", j + len(phrase))
    return Num(float(figures), figures, j)


def _word(found: list[Token], i: int) -> str:
    return found[i].text if i < len(found) else ""


def _run(found: list[Token], i: int, most: int = MOST_FIGURES) -> tuple[str, int]:
    """Figures that stand together, and the next token. A number of several figures stands alone."""
    figures, single = "", True
    while i < len(found) and len(figures) < most:
        if figures and found[i].text == "-" and found[i - 1].text in UNITS and _word(found, i + 1) in UNITS:
            i += 1  # zero-nine-zero
        token = found[i]
        if token.kind == "number" and len(token.text) <= MOST_FIGURES:
            if figures and (not (single and len(token.text) == 1) or _word(found, i + 1) == "/"):
                break
            figures += token.text
            single = len(token.text) == 1
            i += 1
            if not single:
                break
        elif len(figures + _SPOKEN.get(token.text, "")) > most:
            break
        elif token.text in _SPOKEN:
            figures += _SPOKEN[token.text]
            i += 1
        elif token.text == "o" and (figures or _word(found, i + 1) in _SPOKEN):
            figures += "0"
            i += 1
        elif token.text in TENS and len(figures) + 2 <= most:
            tens = TENS[token.text]
            i += 1
            if _word(found, i) == "-" and 1 <= UNITS.get(_word(found, i + 1), 0):
                i += 1
            unit = UNITS.get(_word(found, i), 0)
            i += unit > 0
            figures += str(tens + unit)
        else:
            break
    return figures, i


def _hundreds(found: list[Token], figures: str, i: int) -> tuple[int, int]:
    """So many hundreds and what follows below a hundred."""
    value = int(float(figures) * 100)
    j = i + (_word(found, i) == "and" and _word(found, i + 1) in {**_SPOKEN, **TENS})
    rest, end = _run(found, j)
    if j < len(found) and found[j].kind == "word" and rest and len(rest) <= 2:
        return value + int(rest), end
    return value, i


def _thousands(found: list[Token], figures: str, i: int) -> Num:
    """So many thousands, and what follows below a thousand."""
    value = float(figures) * 1000.0
    j = i + (_word(found, i) == "and" and _word(found, i + 1) in {**_SPOKEN, **TENS})
    rest, end = _run(found, j)
    if rest and rest.isdigit() and _word(found, end) == "hundred" and len(rest) == 1:
        more, end = _hundreds(found, rest, end + 1)
        value += more
    elif rest and rest.isdigit() and len(rest) == 3:
        value += int(rest)
    else:
        end = i
    return Num(value, str(int(value)), end)


def digit_by_digit(figures: str, wording: str) -> str:
    """Figures as they are read aloud.

    >>> digit_by_digit("090", "faa"), digit_by_digit("17.5", "icao")
    ('zero niner zero', 'one seven decimal five')
    """
    return " ".join(POINT[wording] if char == "." else DIGITS[int(char)] for char in figures)


def altitude_words(feet: float, wording: str) -> str:
    """An altitude as it is read aloud: thousands digit by digit, then hundreds.

    Source: FAA AIM 4-2-9; ICAO Annex 10 Vol II, 5.2.1.4 (from memory).

    >>> altitude_words(12500.0, "faa")
    'one two thousand five hundred'
    """
    whole = round(feet)
    thousands, rest = divmod(whole, 1000)
    if whole <= 0 or rest % 100:
        return digit_by_digit(str(max(whole, 0)), wording)
    parts = [f"{digit_by_digit(str(thousands), wording)} thousand"] if thousands else []
    parts += [f"{DIGITS[rest // 100]} hundred"] if rest else []
    return " ".join(parts)


def trimmed(value: float) -> str:
    """A distance or a time with one decimal where it has one.

    >>> trimmed(17.0), trimmed(17.46)
    ('17', '17.5')
    """
    return f"{value:.1f}".rstrip("0").rstrip(".")
