"""Times of a day in UTC, as people write them."""

from __future__ import annotations

import datetime
import re
from typing import NamedTuple

YEARS = (2000, 2099)
"""First and last year of a day that is written; another is a slip."""
_CLOCK = re.compile(
    r"(?:(\d{4}-\d\d-\d\d)[T ])?(?:(\d\d):(\d\d)(?::(\d\d))?|(\d\d)(\d\d)) ?Z?", re.ASCII | re.IGNORECASE
)


class ClockTime(NamedTuple):
    """A time of day, and its day where one was written."""

    day: datetime.date | None
    time: datetime.time


def parse_clock(value: str) -> ClockTime | None:
    """A time in UTC from text.

    Parameters: value such as 14:05, 14:05:20, 1405, 14:05Z or 2026-09-01T14:05. Returns: ClockTime; None for text that
    is none, a day that does not exist, or a year outside YEARS.

    >>> parse_clock("1405Z").time.isoformat(), parse_clock("2026-09-01 14:05").day.isoformat()
    ('14:05:00', '2026-09-01')
    >>> parse_clock("24:00") is parse_clock("905") is None
    True
    """
    found = _CLOCK.fullmatch(value.strip())
    if found is None:
        return None
    hours, minutes = found[2] or found[5], found[3] or found[6]
    try:
        day = None if found[1] is None else datetime.date.fromisoformat(found[1])
        time = datetime.time(int(hours), int(minutes), int(found[4] or 0))
    except ValueError:
        return None
    return ClockTime(day, time) if day is None or year_is_good(day) else None


def year_is_good(day: datetime.date) -> bool:
    """Whether a day lies in YEARS."""
    return YEARS[0] <= day.year <= YEARS[1]
