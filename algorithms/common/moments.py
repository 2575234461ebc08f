"""Moments in UTC: wall-clock digits read as UTC, whatever the machine's time zone."""

from __future__ import annotations

import datetime

from .specs import shown
from .texts import tr
from .values import given


class Moment:
    """A time of day, and its day where one was given."""

    def __init__(self, day: datetime.date | None, time: datetime.time):
        self.day, self.time = day, time

    def on(self, day: datetime.date) -> datetime.datetime:
        """The moment, on a day where it has none of its own."""
        return datetime.datetime.combine(self.day or day, self.time)

    def after(self, start: datetime.datetime) -> datetime.datetime:
        """The moment; without a day of its own the first such time of day that is not before a start."""
        found = self.on(start.date())
        if self.day is None and found < start:
            found += datetime.timedelta(days=1)
        return found


def read_moment(value, name: str) -> tuple[Moment | None, str]:
    """The moment of a parameter, None where none is given.

    Takes text as geometry.clock does, and any of Python's and Qt's dates and times, whose digits count and whose zone
    does not. Returns: the moment and '', or None and the sentence of what is wrong.
    """
    if not given(value):
        return None, ""
    from ...geometry.clock import YEARS, year_is_good

    moment = _as_moment(value)
    if moment is None or (moment.day and not year_is_good(moment.day)):
        return None, tr(
            "{} is {}; it must be a time in UTC such as 14:05, 14:05:20 or 2026-09-01T14:05:20, in the years {} to "
            "{}, or empty."
        ).format(name, shown(value), *YEARS)
    return moment, ""


def _as_moment(value) -> Moment | None:
    for convert in ("toPyDateTime", "toPyTime"):
        if hasattr(value, convert):
            value = getattr(value, convert)()
    if isinstance(value, datetime.datetime):
        return Moment(value.date(), value.time().replace(tzinfo=None, microsecond=0))
    if isinstance(value, datetime.time):
        return Moment(None, value.replace(tzinfo=None, microsecond=0))
    from ...geometry.clock import parse_clock

    found = parse_clock(str(value))
    return None if found is None else Moment(*found)
