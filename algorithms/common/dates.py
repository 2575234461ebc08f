"""The DATE parameter: the day whose magnetic variation is used."""

from __future__ import annotations

import datetime
import re
from typing import NamedTuple

from .specs import shown
from .texts import tr
from .values import given


class Day(NamedTuple):
    """A day as ISO text and as the decimal year that the magnetic model wants."""

    text: str
    year: float


def read_day(value, name: str = "DATE") -> tuple[Day | None, str]:
    """The day of a parameter, today (UTC) where none is given.

    Returns: the day and '', or None and the sentence that says what is wrong.
    """
    from ...geometry import magnetism, wmm2025

    first, last = f"{wmm2025.EPOCH:.0f}-01-01", f"{wmm2025.VALID_UNTIL - 1.0:.0f}-12-31"
    date = _as_date(value) if given(value) else datetime.datetime.now(datetime.timezone.utc).date()
    if date is None:
        return None, tr("{} is {}; it must be a date such as 2026-09-01, year first, or empty for today (UTC).").format(
            name, shown(value)
        )
    year = magnetism.decimal_year(date)
    if not wmm2025.EPOCH <= year < wmm2025.VALID_UNTIL:
        return None, tr("{} is {}; it must be from {} to {}, the years of the World Magnetic Model 2025.").format(
            name,
            date.isoformat() if given(value) else tr("empty and today is {}").format(date.isoformat()),
            first,
            last,
        )
    return Day(date.isoformat(), year), ""


def _as_date(value) -> datetime.date | None:
    """A date from ISO text or from any of Python's and Qt's dates; None where it is none."""
    if hasattr(value, "toPyDateTime"):
        value = value.toPyDateTime()
    elif hasattr(value, "toPyDate"):
        value = value.toPyDate()
    if isinstance(value, datetime.datetime):
        return value.date()
    if isinstance(value, datetime.date):
        return value
    text = str(value).strip()
    if not re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        return None
