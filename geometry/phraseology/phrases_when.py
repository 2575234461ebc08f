"""Phrases of time: when to expect further clearance, when to leave, what time it is."""

from __future__ import annotations

import math

from .cursor import Cursor
from .heard import Heard
from .numbers import Num
from .times import later_utc, next_utc
from .tokens import RefusedError
from .words import MINUTE, UTC


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
    if at.take("efc", "efct"):
        pass
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
    at.skip("time", "at", "is", ":", "of")
    moment = _moment(at, now)
    if not moment:
        raise RefusedError(f"“{at.quote(start, min(at.i, len(at.found) - 1))}” gives no time such as 1430")
    heard.put("efc", moment, at.quote(start, at.i - 1))
    return True


def _delay(at: Cursor, heard: Heard, start: int) -> bool:
    """Additional delay: said, and not used (FAA Order 7110.65 4-6-1, note)."""
    at.skip("an", "a")
    if not at.take("additional", "further"):
        return False
    found = at.number()
    if found is None or not (at.take_of(MINUTE) or at.take("hour", "hours")):
        return False
    at.skip("en", "route", "terminal")
    if not at.take("delay"):
        return False
    if at.take("at", "of"):
        at.place(True)
    heard.understood.append(f"“{at.quote(start, at.i - 1)}”, which does not change the hold")
    return True


def anticipate(at: Cursor, heard: Heard) -> bool:
    """Anticipate additional 10 minute delay."""
    start = at.i
    return bool(at.take("anticipate")) and _delay(at, heard, start)


def leave(at: Cursor, heard: Heard, now: str) -> bool:
    """Leave the fix at 1440; hold until 1440."""
    start = at.i
    if at.take("leave", "leaving", "depart", "departing"):
        at.skip("the", "fix", "hold", "holding", "pattern", "it")
        if at.word() not in ("at", "time"):
            at.place(True)
    elif not at.take("until", "till"):
        return False
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
    heard.understood.append(f"“{at.quote(start, at.i - 1)}”, which does not change the hold")
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
        found = at.number()
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
