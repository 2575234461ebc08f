"""A clearance as people type it, to what it says; what it leaves open, contradicts or gets wrong in a sentence."""

from __future__ import annotations

from dataclasses import dataclass

from . import phrases_fix, phrases_how, phrases_when
from .clearance import Clearance
from .cursor import Cursor
from .heard import Heard
from .idents import Idents
from .numbers import number
from .settling import settle
from .tokens import RefusedError, plain, shown, tokens
from .words import BEARING, FILLERS, HOLD, NEEDS_LEVEL, ROUTES, STARTS, STOPS, TEENS, TENS, UNITS, VOCABULARY

_ROLES = {"of": "fix", "at": "fix", "over": "fix", "overhead": "fix", "to": "limit", "direct": "limit"}
_BEGIN_NO_PHRASE = {"of", "the", "is", "and", "in", "with", "by", "on", "please"}
_KEEPS_LINE = {"at", "the"}
_MOST_GREETING, _MOST_LEFT = 8, 8
_KEEPS_ROLE = {"the", "of", "direct", "-"}
_NUMBER_WORDS = {*UNITS, *TEENS, *TENS, "zulu"}
_MARKS = ",.;:-()/"


@dataclass(frozen=True)
class Reading:
    """What was read: a clearance, or None where refused says why in a sentence; sentences of what was understood and
    of what was assumed."""

    clearance: Clearance | None
    understood: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    refused: str = ""


def read(text, *, now: str = "", idents: Idents | None = None) -> Reading:
    """A holding clearance in the words, orders and variants that people use.

    Parameters: text; now, ISO to the minute in UTC, from which a time without a date is the next, '' where it is not
    known (times then stay without a date); idents of the navaids there are, without which every word in the place of an
    ident is one. Returns: Reading. A word that is not understood refuses the whole: it may be the one that matters.
    Source: FAA AIM 5-3-8 i and Order 7110.65 4-6-1, 4-6-4 (from memory); ICAO Doc 4444, 12.3 (from memory); the
    variants are common practice.
    """
    try:
        heard = _listen(plain(text), idents or Idents(), now)
        clearance = settle(heard)
    except RefusedError as error:
        return Reading(None, refused=str(error))
    return Reading(clearance, tuple(heard.understood), tuple(heard.assumed))


def _listen(text: str, idents: Idents, now: str) -> Heard:
    """All elements of plain text. Errors: RefusedError."""
    at, heard = Cursor(tokens(text), text, idents), Heard()
    first = next((i for i, token in enumerate(at.found) if token.text in STARTS), None)
    if first is None or not any(token.text in HOLD for token in at.found):
        raise RefusedError(f"“{shown(text)}” is no holding clearance: it does not say “hold”")
    role, after_hold, after_line, phrases = "", False, False, 0
    greeting: list[int] = []
    leftover: list[int] = []
    while not at.ended:
        here = at.i
        token = at.found[here]
        if token.kind == "mark" and token.text in _MARKS:
            at.i += 1
            role = role if token.text == "-" else ""
            continue
        if len(leftover) == _MOST_LEFT:
            break
        begins_none = token.text in _BEGIN_NO_PHRASE and not (role and at.idents.knows(at.found, here))
        if not begins_none and _phrase(at, heard, now, role, after_hold, after_line, here < first):
            phrases += 1
            after_line = _is_line(heard, at, here)
            after_hold, role = token.text in HOLD, ""
            if leftover:
                break
            continue
        at.i = here
        if token.text in STOPS:
            raise RefusedError(f"“{token.text}” turns the clearance round; say it again without that word")
        elif token.text in ROUTES:
            raise RefusedError(
                f"“{at.quote(here, min(here + 1, len(at.found) - 1))}” names a route or localizer, which is not known "
                "here; say the radial, bearing or course"
            )
        elif (token.text in FILLERS or token.text in STARTS) and not _before_decimals(at):
            if token.text in NEEDS_LEVEL:
                raise RefusedError(f"after “{token.text}” there is no altitude or speed")
            at.i += 1
            role = role if token.text in _KEEPS_ROLE and role else _ROLES.get(token.text, "")
            after_line = after_line and token.text in _KEEPS_LINE
        elif here < first and not phrases:
            at.i += 1
            greeting.append(here)
            role = ""
        else:
            at.i += 1
            leftover.append(here)
            role = ""
    _greeting(at, heard, greeting)
    if leftover:
        raise _not_understood(at, leftover)
    return heard


def _not_understood(at: Cursor, words: list[int]) -> RefusedError:
    """The first words of some that stand together."""
    last = next((i for i, j in zip(words, words[1:]) if j != i + 1), words[-1])
    return RefusedError(f"“{at.quote(words[0], last)}” is not understood")


def _before_decimals(at: Cursor) -> bool:
    """Point five: half a mile is not five. A point 5 miles away is a place."""
    return at.word() == "point" and at.word(-1) not in ("a", "the") and number(at.found, at.i + 1) is not None


def _greeting(at: Cursor, heard: Heard, words: list[int]) -> None:
    """Whom the clearance is for: a name or letters before it. Errors: RefusedError for what is none."""
    odd = [i for i in words if at.found[i].text in VOCABULARY and at.found[i].text not in _NUMBER_WORDS]
    if words and number(at.found, words[0]):
        odd = words
    if odd or len(words) > _MOST_GREETING:
        raise _not_understood(at, [i for i in words if not odd or i >= odd[0]])
    if words:
        heard.assumed.append(f"“{at.quote(words[0], words[-1])}” is whom the clearance is for")


def _phrase(
    at: Cursor, heard: Heard, now: str, role: str, after_hold: bool, after_line: bool, before_start: bool
) -> bool:
    """One phrase that begins here. Before the clearance begins, letters are a call sign's, not a navaid's."""
    here = at.i
    named = bool(role) and at.idents.knows(at.found, here)
    for read_phrase in (
        lambda: named and phrases_fix.line(at, heard),
        lambda: named and phrases_fix.distance(at, heard, after_line),
        lambda: named and phrases_fix.place(at, heard, role),
        lambda: phrases_when.efc(at, heard, now),
        lambda: phrases_when.leave(at, heard, now),
        lambda: phrases_when.time_now(at, heard),
        lambda: phrases_when.anticipate(at, heard),
        lambda: phrases_when.routing(at, heard),
        lambda: phrases_fix.outbound_end(at, heard),
        lambda: phrases_how.leg(at, heard),
        lambda: phrases_fix.between(at, heard),
        lambda: phrases_fix.offset(at, heard),
        lambda: phrases_fix.line(at, heard),
        lambda: phrases_fix.bearing_to(at, heard),
        lambda: phrases_fix.distance(at, heard, after_line),
        lambda: phrases_how.level(at, heard),
        lambda: phrases_how.speed(at, heard),
        lambda: phrases_how.turn(at, heard),
        lambda: phrases_fix.direction(at, heard, after_hold),
        lambda: phrases_fix.present(at, heard),
        lambda: phrases_fix.published(at, heard),
        lambda: phrases_fix.hold(at, heard),
        lambda: not before_start and phrases_fix.place(at, heard, role),
    ):
        if read_phrase():
            return True
        at.i = here
    return False


def _is_line(heard: Heard, at: Cursor, here: int) -> bool:
    """Whether the phrase just read was a radial or bearing, so that miles after it are the fix's."""
    return bool(heard.lines) and any(
        token.text in ("radial", "r", *BEARING, "qdm", "qdr") for token in at.found[here : at.i]
    )
