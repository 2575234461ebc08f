"""Blocks of words of a hold: clearance, what is flown on the day, tests, slips, airspace, conduct, limits."""

from __future__ import annotations

import math

from ...algorithms.common.texts import tr
from ...geometry import text
from ..styles import inks
from . import figures
from .blocks import Block, Item, sentences
from .content import Content
from .figures import Row

LEAST_SLIP_NM = 0.1
"""Slips smaller than this are not worth a line."""
MOST_SLIPS = 6
MINIMUM, AIRSPACE = "minimum_altitude", "airspace"
TEST_NAMES = {
    "status": "navaid in service",
    "cone": "cone above the navaid",
    "dme_overhead": "DME overhead",
    "service_volume_dme": "service volume of the DME",
    "airspace_track": "airspace along the track",
    "lowest_level": "lowest usable level",
}
"""Names of tests whose codes say too little; of the others the code is the name."""


def items(lines: list[figures.Line]) -> list[Item]:
    """Lines of figures as items of a block."""
    return [Item(line.name, line.value) for line in lines]


def area_of(content: Content, hold: Row) -> Row:
    """The row of the basic or primary area of a hold."""
    rows = content.rows("areas", hold)
    return next((row for row in rows if row.word("part") in ("basic", "primary")), rows[0] if rows else Row())


def clearance(content: Content, hold: Row) -> Block | None:
    """The clearance in the words it is given in."""
    said = content.clearance(hold)
    return Block(tr("Clearance"), [Item(said)]) if said else None


def on_the_day(content: Content, hold: Row) -> Block | None:
    """What is flown in the wind, and the rule of thumb beside it."""
    flown, entered = content.rows("flown", hold), content.rows("entries", hold)
    by_rule = [] if figures.is_calm(flown) else content.rows("by_rule", hold)
    said = figures.day_sentences(flown, entered) + figures.thumb_sentences(by_rule)
    return Block(figures.day_head(flown or entered), [Item(line) for line in said]) if said else None


def checks(content: Content, hold: Row) -> list[Block]:
    """What limits the hold and what goes wrong: tests, limits, airspace, slips."""
    limits = hold.word("limits") or ("" if content.rows("tests", hold) else tr("no limit that was tested is broken"))
    made = [
        _tests(content, hold),
        _airspace(content, hold),
        sentences(tr("Limits"), _sentence(limits), inks.TEXT_PT if hold.word("limits") else inks.NOTE_PT),
        _slips(content, hold),
    ]
    return [block for block in made if block]


def notes(content: Content, hold: Row) -> list[Block]:
    """What was assumed, and what the area leaves open: the layers have them whole."""
    area_limits = dict.fromkeys(row.word("limits") for row in content.rows("areas", hold))
    made = [
        sentences(tr("Assumed"), _sentence(hold.word("assumed") or tr("nothing: all was given")), inks.NOTE_PT),
        sentences(tr("About the area"), _sentence("; ".join(filter(None, area_limits))), inks.NOTE_PT),
    ]
    return [block for block in made if block]


def conduct() -> list[Item]:
    """What the empty box is for."""
    return [
        Item(tr("Safety pilot, view-limiting device, lookout, weather minima, frequency, the word to stop:")),
    ]


def test_name(row: Row) -> str:
    """The name of a test in words."""
    name = row.word("test")
    return tr(TEST_NAMES[name]) if name in TEST_NAMES else name.replace("_", " ")


def _tests(content: Content, hold: Row) -> Block | None:
    """Tests: those that fail and those that could not be made in full, the rest in a line."""
    rows = content.rows("tests", hold)
    if not rows:
        return None
    bad = [row for row in rows if row.number("ok") == 0.0]
    open_ = [row for row in rows if math.isnan(row.number("ok"))]
    made: list[Item] = []
    for row, verdict in [*((row, tr("FAILS")) for row in bad), *((row, tr("open")) for row in open_)]:
        if row.word("test").startswith(AIRSPACE):
            continue
        made.append(Item(_capital(test_name(row)), verdict, bold=verdict == tr("FAILS"), keep=True))
        made.append(Item(row.word("text").replace("buffer_", tr("buffer") + " ")))
    for verdict, of in ((tr("FAILS"), bad), (tr("open"), open_)):
        if any(row.word("test").startswith(AIRSPACE) for row in of):
            made.append(Item(tr("Airspace, see there"), verdict, bold=verdict == tr("FAILS")))
    good = [row for row in rows if row.number("ok") == 1.0]
    for row in good:
        if row.word("test") == MINIMUM and math.isfinite(row.number("value")):
            lowest = f"{text.format_altitude(row.number('value'))[:-3]} {row.word('unit')}"
            made.append(Item(_capital(test_name(row)), lowest))
    names = dict.fromkeys(test_name(row) for row in good if row.word("test") != MINIMUM)
    if names:
        made.append(Item(tr("Tested, and good: {}.").format(", ".join(names))))
    return Block(tr("Tests"), made, inks.NOTE_PT)


def _airspace(content: Content, hold: Row) -> Block | None:
    """Airspace near the holding area, what is too near first; of the track only what the area does not say."""
    rows = content.rows("airspace_contacts", hold)
    areas = {row.word("airspace") for row in rows if row.word("what") == "area"}
    shown = [row for row in rows if row.word("what") == "area" or row.word("airspace") not in areas]
    shown.sort(key=lambda row: (row.number("ok") == 1.0, row.number("distance_nm")))
    made = []
    for row in shown:
        said = row.word("text") or row.word("airspace")
        more = [part for part in (row.word("hours"), row.word("contact")) if part and part not in said]
        bad = row.number("ok") == 0.0
        made.append(Item((tr("TOO NEAR: ") if bad else "") + "; ".join([said, *more]), bold=bad))
    return Block(tr("Airspace near"), made, inks.NOTE_PT) if made else None


def _slips(content: Content, hold: Row) -> Block | None:
    rows = [row for row in content.slips_of(hold) if row.number("distance_nm") >= LEAST_SLIP_NM]
    rows.sort(key=lambda row: -row.number("distance_nm"))
    made = [Item(_capital(row.word("text")), text.format_nm(row.number("distance_nm"))) for row in rows[:MOST_SLIPS]]
    return Block(tr("Slips, and how far off they land"), made, inks.NOTE_PT) if made else None


def _sentence(joined: str) -> str:
    """Sentences joined with semicolons, the first letter a capital, a full stop at the end."""
    return _capital(joined) + ("" if joined.endswith(".") else ".") if joined else ""


def _capital(said: str) -> str:
    return said[:1].upper() + said[1:]
