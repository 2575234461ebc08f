"""What a phone shows of a hold: the column of the sheet as sections, in the sheet's own words and rounding."""

from __future__ import annotations

import math

from ...algorithms.common.columntext import Column, Section, conduct
from ...algorithms.common.texts import tr
from ...geometry import text
from ..sheets import figures
from ..sheets.figures import Row


def column(hold: dict, fix: dict, navaid: dict, tables: dict[str, list[dict]], least_slip_nm: float) -> Column:
    """Everything that is said of a hold.

    Parameters: attributes of the hold, its fix and its navaid by field name; rows of other layers that join on it:
    entries, flown, tests, slips, airspace_contacts; slips that move the fix by less are left out.
    """
    row, fix, navaid = Row(hold), Row(fix), Row(navaid)
    rows = {name: [Row(one) for one in found] for name, found in tables.items()}
    sections = [
        Section(tr("Clearance"), [], _some(row.word("clearance"))),
        Section(tr("To fly by"), _pairs(figures.strip(row)), []),
        Section(tr("The fix"), _pairs(figures.fix_lines(row, fix, navaid)), []),
        Section(tr("Courses"), _courses(row), []),
        Section(tr("Without wind"), _pairs(figures.timing_lines(row)), []),
        _day(rows.get("flown", []), rows.get("entries", [])),
        Section(tr("Sizes and speeds"), _pairs(figures.size_lines(row, Row())), []),
        Section(tr("Tests"), [], _tests(rows.get("tests", []))),
        Section(tr("Slips"), _slips(rows.get("slips", []), least_slip_nm), []),
        Section(tr("Airspace"), [], _airspace(rows.get("airspace_contacts", []))),
        Section(tr("Limits"), [], _some(row.word("limits"))),
        Section(tr("Assumed"), [], _some(row.word("assumed"))),
        conduct(),
    ]
    fix_name = row.word("fix") if row.word("fix") != row.word("hold") else ""
    below = ", ".join(filter(None, (fix_name, figures.altitude(row), figures.rules(row))))
    return Column(row.word("hold"), below, [one for one in sections if one.lines or one.sentences])


def _pairs(lines: list[figures.Line]) -> list[tuple[str, str]]:
    """Lines of figures; one without a name of its own goes on with the line before."""
    pairs: list[tuple[str, str]] = []
    for line in lines:
        if line.name or not pairs:
            pairs.append((line.name, line.value))
        else:
            pairs[-1] = (pairs[-1][0], f"{pairs[-1][1]} {line.value}")
    return pairs


def _some(words: str) -> list[str]:
    """A sentence, with a capital and a full stop; none where there is nothing to say."""
    return [words[0].upper() + words[1:] + ("" if words.endswith((".", "!", "?")) else ".")] if words else []


def _courses(row: Row) -> list[tuple[str, str]]:
    head, *lines = figures.course_table(row)
    return [
        (line[0], ", ".join(f"{value} {north}" for north, value in zip(head[1:], line[1:]) if value != figures.DASH))
        for line in lines
    ]


def _day(flown: list[Row], entered: list[Row]) -> Section:
    """Headings and times in the wind, and when each circuit begins and ends, UTC."""
    if not flown and not entered:
        return Section("", [], [])
    clocks = []
    for one in sorted(flown, key=lambda one: one.number("circuit")):
        first, last = (_clock(one.word(name)) for name in ("start_utc", "end_utc"))
        if first and last:
            number = one.number("circuit")
            name = tr("Circuit {}").format(f"{number:.0f}") if number else tr("Arrival and entry")
            clocks.append((name, tr("{} to {}").format(first, last)))
    return Section(figures.day_head(flown or entered), clocks, figures.day_sentences(flown, entered))


def _clock(utc: str) -> str:
    """'2026-09-01T14:05:20' as '14:05:20Z'."""
    _, mark, time = utc.partition("T")
    return f"{time}Z" if mark and time else ""


def _tests(tests: list[Row]) -> list[str]:
    """What does not hold, before what could not be tested and what holds."""
    words = {0.0: tr("NOT MET: {}"), 1.0: tr("met: {}")}
    order = sorted(tests, key=lambda one: {0.0: 0, 1.0: 2}.get(one.number("ok"), 1))
    return [
        words.get(one.number("ok"), tr("not tested: {}")).format(one.word("text") or one.word("test")) for one in order
    ]


def _airspace(contacts: list[Row]) -> list[str]:
    """Airspace near, what is too near first, with its hours and whom to call."""
    order = sorted(contacts, key=lambda one: {0.0: 0, 1.0: 2}.get(one.number("ok"), 1))
    said = []
    for one in order:
        words = one.word("text") or one.word("airspace")
        more = [word for word in (one.word("hours"), one.word("contact")) if word and word not in words]
        said += _some("; ".join(filter(None, (words.rstrip("."), *more))))
    return said


def _slips(slips: list[Row], least_nm: float) -> list[tuple[str, str]]:
    far = [one for one in slips if math.isfinite(one.number("distance_nm")) and one.number("distance_nm") >= least_nm]
    far.sort(key=lambda one: -one.number("distance_nm"))
    return [(one.word("text") or one.word("slip"), text.format_nm(one.number("distance_nm"))) for one in far]
