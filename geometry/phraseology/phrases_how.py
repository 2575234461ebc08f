"""Phrases that say how to hold, how high and how fast."""

from __future__ import annotations

from .cursor import Cursor
from .heard import Heard
from .numbers import Num
from .tokens import RefusedError
from .words import FEET, KNOTS, LEG, MILE, MINUTE, PATTERN, SECOND, TURNS, UTC

LEAST_ALTITUDE_FT = 100.0
MOST_ALTITUDE_FT = 60_000.0
LEVEL_FIGURES, SPEED_FIGURES = 3, 3
_NO_ALTITUDE = KNOTS | UTC | MILE | MINUTE | SECOND | {"nautical", "dme", "radial", "bearing"}
"""Words after a number that say it is something else."""


def turn(at: Cursor, heard: Heard) -> bool:
    """Left turns; left hand pattern; turns to the left; standard turns; after hold, turn left, or left alone.

    Before hold, turn left is an instruction to the aeroplane, and left of a line is a place: neither is the pattern's.
    """
    start, holding = at.i, bool(heard.get("hold"))
    side = at.take_of(TURNS)
    if side:
        at.take("-")
        hand = bool(at.take("hand", "handed")) or side in ("lh", "rh") or side.endswith("hand")
        named = _pattern(at)
        if not (named or hand) and (not holding or at.word() == "of"):
            return False
        if named.startswith("pattern"):
            heard.wording.add("icao")
        elif named.startswith("turn") and not hand:
            heard.wording.add("faa")
        if named in ("hold", "holding"):
            heard.single["hold"] = True
        side = TURNS[side]
    elif at.take("turns", *(("turn", "turning") if holding else ())):
        at.skip("to", "the", "are", "all")
        side = TURNS.get(at.take_of(TURNS), "")
    elif at.take("nonstandard") or at.take_all(("non", "standard")):
        side = "left" if _pattern(at) else ""
    elif at.take("standard"):
        side = "right" if _pattern(at) else ""
    if not side:
        return False
    heard.put("turn", side, at.quote(start, at.i - 1))
    return True


def _pattern(at: Cursor) -> str:
    """What is flown round, if it is next: turns, pattern, holding pattern. The last word of it."""
    named = ""
    while word := at.take_of(PATTERN):
        named = word
    return named


def leg(at: Cursor, heard: Heard) -> bool:
    """5 mile legs; one and a half minute legs; outbound leg 2 minutes; one minute outbound; standard legs."""
    start = at.i
    if at.take("standard") and at.take_of(LEG):
        at.take("length", "time", "timing")
        heard.put("standard_leg", True, at.quote(start, at.i - 1))
        return True
    at.i = start
    for read in (_number_then_leg, _leg_then_number, _minute_and_a_half):
        found = read(at)
        if found is not None:
            value, name, side, wording = found
            words = at.quote(start, at.i - 1)
            if value <= 0.0:
                raise RefusedError(f"“{words}” is no leg")
            heard.put(name, value, words)
            if side:
                heard.put("leg_side", side, words)
            if wording:
                heard.wording.add(wording)
            return True
        at.i = start
    return False


def _side(at: Cursor) -> str:
    return {"inbd": "inbound", "outbd": "outbound"}.get(found := at.take("inbound", "outbound", "inbd", "outbd"), found)


def _unit(at: Cursor) -> str:
    """mile, dme, minute or second, if it is next."""
    at.take("nautical")
    for unit, words in (("mile", MILE), ("minute", MINUTE), ("second", SECOND), ("dme", {"dme"})):
        if at.take_of(words):
            at.take("-")
            if unit in ("mile", "dme"):
                at.take("dme", "mile", "miles")
            return unit
    return ""


def _measure(at: Cursor) -> tuple[float, str] | None:
    """So many miles, minutes or seconds, or minutes and seconds, and their unit."""
    found = at.number()
    unit = _unit(at) if found else ""
    if not unit:
        return None
    here = at.i
    at.take("and")
    seconds = at.number() if unit == "minute" else None
    if seconds and at.take_of(SECOND):
        at.take("-")
        return found.value + seconds.value / 60.0, unit
    at.i = here
    return found.value, unit


def _measured(value: float, unit: str, side: str, wording: str):
    if unit in ("minute", "second"):
        return (value / 60.0 if unit == "second" else value), "leg_min", side, wording
    return value, "leg_nm", "", wording


def _number_then_leg(at: Cursor):
    found = _measure(at)
    if found is None:
        return None
    value, unit = found
    side = _side(at)
    named = at.take_of(LEG) or (unit in ("minute", "second") and at.take_of(PATTERN))
    if not named and not (side and unit != "dme"):
        return None
    side = side or _side(at)
    return _measured(value, unit, side, "faa" if named in LEG else "")


def _leg_then_number(at: Cursor):
    side = _side(at)
    named = at.take_of(LEG)
    side = side or (_side(at) if named else "")
    named = at.take("time", "timing", "length", "distance") or named
    if not side and not named:
        return None
    at.skip("time", "length", "distance", "of", "is", "are", "for", "to", ":")
    found = _measure(at)
    if found is None or (found[1] == "dme" and not named):  # outbound 22 DME: as long, or as far?
        return None
    if side:
        at.take_of(LEG)
    return _measured(*found, side, "icao" if side == "outbound" else "")


def _minute_and_a_half(at: Cursor):
    at.take("a")
    if at.take_all(("minute", "and", "a", "half")) and at.take_of(LEG):
        return 1.5, "leg_min", "", "faa"
    return None


def level(at: Cursor, heard: Heard) -> bool:
    """Maintain 5 000; descend and maintain four thousand; FL150; at 5000 feet; block 8000 through 10000."""
    start = at.i
    open_end = at.take_all(("at", "or", "above"))
    at.take("climb", "descend", "climbing", "descending")
    at.skip("and", "to")
    asked = bool(at.take("maintain", "maintaining", "altitude", "level")) or at.i > start
    open_end = at.take_all(("at", "or", "above")) or open_end
    at.skip("at", "an", "altitude", "of", "level")
    asked = bool(at.take("block")) or asked
    at.skip("altitude", "level", "from")
    joins = ("through", "thru", "to", "-", *(("and",) if at.take("between") else ()))
    one = _level(at, asked)
    if one is None:
        return False
    words = at.quote(start, at.i - 1)
    heard.put("level", one[1], words)
    heard.put("alt_ft", one[0], words)
    here = at.i
    if at.take_of(joins):
        other = _level(at, True, after=one[1])
        if other is None:
            at.i = here
        else:
            words = at.quote(start, at.i - 1)
            if other[1] != one[1]:
                raise RefusedError(f"“{words}” is a flight level as well as an altitude")
            if other[0] < one[0]:
                raise RefusedError(f"“{words}” ends below where it begins")
            heard.put("alt_to_ft", other[0], words)
    _sure_unit(at, start, one)
    at.skip("msl", "amsl")
    if at.take_all(("or", "above")) or at.take_all(("or", "higher")) or open_end:
        heard.assumed.append(f"“{at.quote(start, at.i - 1)}” is taken as that altitude")
    return True


def _sure_unit(at: Cursor, start: int, one: tuple[float, str]) -> None:
    """Errors: RefusedError for level 180, which may be either."""
    words = {token.text for token in at.found[start : at.i]}
    if one[1] == "ft" and one[0] < 1000.0 and "level" in words and not words & FEET:
        raise RefusedError(f"“{at.quote(start, at.i - 1)}” is a flight level or an altitude; say which")


def _level(at: Cursor, asked: bool, after: str = "") -> tuple[float, str] | None:
    """Feet, and whether they are a flight level's. after: fl, where a flight level's upper end is next."""
    start = at.i
    if at.take("fl") or at.take_all(("flight", "level")):
        found = at.number(LEVEL_FIGURES)
        if found is None:
            return None
        return _within(at, start, found.value * 100.0), "fl"
    found = at.number()
    if found is None or not found.figures:
        return None
    found = _grouped(at, found)
    feet = at.take_of(FEET)
    if not feet and (not asked or at.word() in _NO_ALTITUDE):
        return None
    if after == "fl" and not feet and len(found.figures) <= LEVEL_FIGURES:
        return _within(at, start, found.value * 100.0), "fl"
    return _within(at, start, found.value), "ft"


def _grouped(at: Cursor, found: Num) -> Num:
    """5 000 as one number."""
    after = at.found[at.i] if not at.ended else None
    if after and after.kind == "number" and len(after.text) == 3 and after.text.isdigit() and found.value < 100.0:
        at.i += 1
        return Num(found.value * 1000.0 + int(after.text), found.figures + after.text, at.i)
    return found


def _within(at: Cursor, start: int, feet: float) -> float:
    if not LEAST_ALTITUDE_FT <= feet <= MOST_ALTITUDE_FT:
        raise RefusedError(f"“{at.quote(start, at.i - 1)}” is no altitude from 100 to 60 000 ft")
    return feet


def speed(at: Cursor, heard: Heard) -> bool:
    """Maximum holding airspeed is 175 knots; do not exceed 200 knots; 95 knots."""
    start = at.i
    most = at.take_all(("do", "not", "exceed")) or at.take_all(("not", "exceeding")) or bool(at.take("maximum", "max"))
    at.skip("maintain", "holding", "indicated")
    at.take_all(("air", "speed"))
    asked = most or at.i > start
    named = bool(at.take("speed", "airspeed", "ias")) or asked and at.found[at.i - 1].text == "speed"
    at.skip("is", "of", "to", "at", ":")
    found = at.number(SPEED_FIGURES)
    if found is None:
        return False
    knots = at.take_of(KNOTS)
    at.skip("indicated")
    if not knots and not (named or (most and not _other_unit(at))):
        return False
    most = at.take_all(("or", "less")) or at.take_all(("or", "slower")) or bool(at.take("maximum", "max")) or most
    words = at.quote(start, at.i - 1)
    if not 30.0 <= found.value <= 500.0:
        raise RefusedError(f"“{words}” is no speed from 30 to 500 kt")
    heard.put("area_ias_kt" if most else "ias_kt", found.value, words)
    return True


def _other_unit(at: Cursor) -> bool:
    return at.word() in FEET | MILE | MINUTE
