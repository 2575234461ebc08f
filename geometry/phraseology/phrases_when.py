"""Phrases of time: when to expect further clearance, when to leave, what time it is."""

from __future__ import annotations

import math

from .cursor import Cursor
from .heard import Heard
from .numbers import Num, number
from .times import later_utc, next_utc
from .tokens import RefusedError
from .words import MINUTE, ROUTES, UTC

CLOCK_FIGURES = 4
_WAY = ("direct", "then", "to", "and", "the")
_NO_MOMENT = {"notice", "advice", "advised", "clearance", "instructions"}


def efc(at: Cursor, heard: Heard, now: str) -> bool:
    """Expect further clearance 1430; EFC 1430Z; expected approach time 1430; no delay expected."""
    start = at.i
    if at.take_all(("no", "delay", "expected")) or at.take_all(("no", "delay")):
        heard.understood.append("no delay is expected")
        return True
    if at.take_all(("delay", "not", "determined")):
        heard.understood.append("the delay is not determined")
        return True
    approach = False
    if at.take("efc", "efct") or at.take_all(("further", "clearance")):
        pass
    elif at.take_all(("onward", "clearance")) or at.take_all(("approach", "time")):
        approach = True
    elif at.take("eac", "eat"):
        approach = True
    elif at.take("expect", "expected", "exp"):
        approach = at.word() in ("approach", "onward")
        if not (at.take("further", "onward", "approach", "landing") or at.word() == "clearance"):
            return _delay(at, heard, start)
        at.skip("clearance", "time")
    else:
        return False
    if approach:
        heard.wording.add("icao")
    via = at.word() == "via" and _routing(at, heard)
    if via:
        _no_change(at, heard, start)
    at.skip("time", "at", "is", ":", "of")
    moment = _moment(at, now)
    if not moment and via:
        return True
    if not moment:
        raise RefusedError(f"“{at.quote(start, min(at.i, len(at.found) - 1))}” gives no time such as 1430")
    heard.put("efc", moment, at.quote(start, at.i - 1))
    return True


def _no_change(at: Cursor, heard: Heard, start: int) -> None:
    heard.understood.append(f"“{at.quote(start, at.i - 1)}”, which does not change the hold")


def routing(at: Cursor, heard: Heard) -> bool:
    """To a limit that is named already, via KVN: the way there (FAA Order 7110.65 4-6-1)."""
    start = at.i
    if not heard.places or at.word() != "via" or not _routing(at, heard):
        return False
    if heard.get("hold") and (at.word() in ("radial", "r") or number(at.found, at.i)):
        return False
    _no_change(at, heard, start)
    return True


def _routing(at: Cursor, heard: Heard) -> bool:
    """Via KVN; via V16 and KVN; via the KVN 045 radial. After hold a radial may be the one on which to hold."""
    at.take("via")
    named = False
    while at.take(*_WAY) or _airway(at) or at.place(True) or (named and not heard.get("hold") and _radial(at)):
        named = named or at.found[at.i - 1].text not in _WAY
    return named


def _radial(at: Cursor) -> bool:
    start, before = at.i, at.take("radial", "r")
    at.take("-")
    if at.degrees() is not None and (before or at.take("radial", "r")):
        return True
    at.i = start
    return False


def _airway(at: Cursor) -> bool:
    if not at.take_of(ROUTES):
        return False
    at.number()
    return True


def _delay(at: Cursor, heard: Heard, start: int) -> bool:
    """Delay: said, and not used (FAA Order 7110.65 4-6-1, note). Expect 20 minutes delay, delay 20 minutes."""
    at.skip("an", "a", "additional", "further")
    before = bool(at.take("delay"))
    at.skip("of", "is")
    found = at.number()
    if found is None or not (at.take_of(MINUTE) or at.take("hour", "hours")):
        return False
    at.skip("en", "route", "terminal", "of")
    if not (at.take("delay") or before):
        return False
    if at.take("at", "of"):
        at.place(True)
    _no_change(at, heard, start)
    return True


def anticipate(at: Cursor, heard: Heard) -> bool:
    """Anticipate additional 10 minute delay; delay 10 minutes."""
    start = at.i
    return (bool(at.take("anticipate")) or at.word() == "delay") and _delay(at, heard, start)


def leave(at: Cursor, heard: Heard, now: str) -> bool:
    """Leave the fix at 1440; hold until 1440."""
    start = at.i
    if at.take("leave", "leaving", "depart", "departing"):
        at.skip("the", "fix", "hold", "holding", "pattern", "it")
        if at.word() not in ("at", "time"):
            at.place(True)
    elif not at.take("until", "till"):
        return False
    elif at.take("further") and at.take_of(_NO_MOMENT) or at.take("advised"):
        heard.understood.append(f"“{at.quote(start, at.i - 1)}”, which is no time")
        return True
    at.skip("at", "time", "the", "fix")
    moment = _moment(at, now)
    if not moment:
        return False
    heard.put("leave", moment, at.quote(start, at.i - 1))
    return True


def time_now(at: Cursor, heard: Heard) -> bool:
    """Time now 1405."""
    start = at.i
    at.skip("time")
    at.skip("now", "is")
    if at.i == start or at.found[start].text != "time":
        return False
    found = at.number()
    if found is None and not at.ended and at.found[at.i].kind == "clock":
        at.i += 1
        found = Num(math.nan, "", at.i)
    if found is None:
        return False
    at.take_of(UTC)
    _no_change(at, heard, start)
    return True


def _moment(at: Cursor, now: str) -> str:
    """A time as ISO, '' where none is next."""
    if at.word() == "in":
        at.take("in")
        found = at.number()
        if found is None or not at.take_of(MINUTE):
            return ""
        return later_utc(found.value, now)
    at.take("t")
    if not at.ended and at.found[at.i].kind == "clock":
        hour, minute = at.found[at.i].text.split(":")
        figures, at.i = f"{hour:0>2}{minute}", at.i + 1
    else:
        found = at.number(CLOCK_FIGURES)
        if found is None:
            return ""
        if not found.figures:
            raise RefusedError(f"“{found.value:g}” is no time; a time has four figures, such as 1430")
        figures = found.figures
    moment = next_utc(figures, now)
    at.take_of(UTC)
    at.take("hours", "hrs")
    if at.take("local", "lt"):
        raise RefusedError(f"“{figures} local” is no time in UTC; a clearance's times are UTC")
    at.take_all(("past", "the", "hour")) or at.take("past")
    return moment
