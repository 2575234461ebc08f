"""Times of clearances: four figures of UTC, and the next moment they mean."""

from __future__ import annotations

from datetime import datetime, timedelta

from .tokens import RefusedError


def clock(figures: str) -> tuple[int, int]:
    """Hour and minute of four figures. Errors: RefusedError for what is none.

    >>> clock("1430"), clock("2400")
    ((14, 30), (0, 0))
    """
    if len(figures) != 4:
        raise RefusedError(f"“{figures}” is no time; a time has four figures, such as 1430")
    hour, minute = int(figures[:2]), int(figures[2:])
    if (hour, minute) == (24, 0):
        hour = 0
    if hour > 23 or minute > 59:
        raise RefusedError(f"“{figures}” is no time; hours go from 00 to 23 and minutes from 00 to 59")
    return hour, minute


def next_utc(figures: str, now: str) -> str:
    """The next moment of a time of day, or of the minutes of an hour, that is not before now.

    Parameters: figures, four or two; now, ISO to the minute, '' where it is not known. Returns: ISO to the minute;
    14:30 without a day where now is not known. Errors: RefusedError.

    >>> next_utc("0010", "2026-09-01T23:50"), next_utc("30", "2026-09-01T23:50"), next_utc("1430", "")
    ('2026-09-02T00:10', '2026-09-02T00:30', '14:30')
    """
    start = datetime.fromisoformat(now) if now else None
    if len(figures) == 2 and int(figures) < 60:
        if start is None:
            raise RefusedError(f"“{figures}” is minutes only, and the time now is not known; say four figures")
        found = start.replace(minute=int(figures))
        return (found if found >= start else found + timedelta(hours=1)).isoformat(timespec="minutes")
    hour, minute = clock(figures)
    if start is None:
        return f"{hour:02d}:{minute:02d}"
    found = start.replace(hour=hour, minute=minute)
    return (found if found >= start else found + timedelta(days=1)).isoformat(timespec="minutes")


def later_utc(minutes: float, now: str) -> str:
    """The moment so many minutes from now. Errors: RefusedError where now is not known."""
    if minutes > 1440.0:
        raise RefusedError(f"“in {minutes:g} minutes” is more than a day")
    if not now:
        raise RefusedError(f"“in {minutes:g} minutes” needs the time now; say four figures, such as 1430")
    return (datetime.fromisoformat(now) + timedelta(minutes=round(minutes))).isoformat(timespec="minutes")
