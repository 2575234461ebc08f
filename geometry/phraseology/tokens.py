"""Typed words to tokens: one pass, no backtracking, one sentence for what is no clearance at all."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

MAX_CHARS = 1000
"""Longer text is refused unread."""
MAX_TOKENS = 200
"""A clearance read aloud digit by digit has fewer than a hundred words."""

_SAME = str.maketrans({
    **dict.fromkeys("\u2212\u2013\u2014\u2010\u2011\ufe63\uff0d", "-"),
    **dict.fromkeys("\u2019\u2018\u02b9\u00b4`'\"\u201c\u201d\u201e\u00ab\u00bb", " "),
    **dict.fromkeys("\t\r\n", " "),
    "\u00b0": " degrees ", "\u00ba": " degrees ", "\u00bd": " 1/2 ",
})  # fmt: skip
_TOKEN = re.compile(
    r"(?P<clock>\d{1,2}:\d\d(?!\d))|(?P<grouped>\d{1,3}(?:,\d{3})+(?![\d,]))"
    r"|(?P<number>\d+(?:[.,]\d+)?|(?<![a-z\d])\.\d+)|(?P<word>[a-z]+)|(?P<mark>\S)",
    re.ASCII,
)


class RefusedError(ValueError):
    """Words that cannot be read; the message is one sentence for the user."""


class Token(NamedTuple):
    """A word, a number's figures or a mark. text: lower case, a number without separators and with a point; kind:
    word, number, clock or mark; start, end: where it stands in the plain text."""

    text: str
    kind: str
    start: int
    end: int


def shown(text, most: int = 40) -> str:
    """Typed text inside a sentence: cut short, nothing in it that cannot be printed."""
    text = str(text)
    plain = "".join(char if char.isprintable() else "?" for char in text[:most])
    return plain + ("..." if len(text) > most else "")


def plain(text) -> str:
    """Typed text in ASCII letters, figures and marks, accents taken off.

    Errors: RefusedError for no text, for too much, for characters that are no letters of a clearance.
    """
    if not isinstance(text, str):
        raise RefusedError(f"the clearance is {shown(text)}, which is no text")
    if len(text) > MAX_CHARS:
        raise RefusedError(f"the clearance is {len(text)} characters long; it may have {MAX_CHARS}")
    folded = unicodedata.normalize("NFKD", text.translate(_SAME))
    folded = " ".join("".join(char for char in folded if not unicodedata.combining(char)).split(" ")).strip()
    if not folded.strip():
        raise RefusedError("the clearance is empty")
    odd = next((char for char in folded if not " " <= char <= "~"), "")
    if odd:
        what = f"the character {odd}" if odd.isprintable() else f"a control character (U+{ord(odd):04X})"
        raise RefusedError(f"the clearance “{shown(text)}” cannot be read: {what} has no place in it")
    return folded


def tokens(plain_text: str) -> list[Token]:
    """Tokens of plain text. Errors: RefusedError for too many."""
    found = []
    for match in _TOKEN.finditer(plain_text.lower()):
        kind, text = str(match.lastgroup), match.group()
        if kind == "grouped":
            kind, text = "number", text.replace(",", "")
        elif kind == "number":
            text = text.replace(",", ".")
        found.append(Token(text, kind, match.start(), match.end()))
    if len(found) > MAX_TOKENS:
        raise RefusedError(f"the clearance has {len(found)} words and figures; it may have {MAX_TOKENS}")
    return found
