"""The student's page: clearance and chart are given, the answers are left blank."""

from __future__ import annotations

import math

from qgis.core import QgsRectangle

from ...algorithms.common.texts import tr
from ...geometry import text
from ..styles import inks
from . import blocks, figures, holdpage, picture, surroundings, words
from .blocks import Block, Item
from .content import Content, station
from .figures import Row
from .holdmap import BELOW_MAP_MM, ROSE_MM, scale_text
from .page import Sheet, line_height

ROW_MM = 8.2
"""Height of a line to write on."""
CHART_MM = 165.0
MARGIN_NM = 12.0
"""How far the chart reaches beyond navaid and fix, so that its middle gives nothing away."""
LEAST_NAVAIDS, FAR_NM = 3, 60.0
"""How many navaids a chart shows at least, if they are no farther than this."""


def put(sheet: Sheet, content: Content, hold: Row) -> None:
    """A page of one exercise with nothing answered."""
    paper = sheet.paper
    sheet.new_page()
    y = holdpage.head(sheet, content, _question(hold), fix=False)
    sheet.hairline(y)
    y += 1.5
    for block in (words.clearance(content, hold), Block(tr("Given"), [Item(line) for line in _given(content, hold)])):
        if block:
            y = blocks.put(sheet, block, paper.left, y, paper.span(12))
    lines = max(len(column) for _, column in _blanks(hold))
    needs = lines * ROW_MM + 2.0 * line_height(inks.TEXT_PT)
    tall = min(CHART_MM, paper.foot - y - BELOW_MAP_MM - needs)
    _chart(sheet, content, hold, y, tall)
    y += tall + BELOW_MAP_MM
    for number, (name, column) in enumerate(_blanks(hold)):
        _column(sheet, name, column, paper.column(4 * number), y, paper.span(4))


def _question(hold: Row) -> Row:
    """The row without what it is the exercise to find; remarks may tell of the hold, so they go too."""
    return Row({**hold, "remarks": None, "limits": None})


def _given(content: Content, hold: Row) -> list[str]:
    """What the student has to work with."""
    said = [tr("Speed {:.0f} kt IAS, temperature ISA{}.").format(hold.number("ias_kt"), _isa(hold))]
    flown = content.rows("flown", hold) or content.rows("entries", hold)
    said[0] += " " + (tr("Calm.") if figures.is_calm(flown) else tr("{} kt, true.").format(figures.wind(flown)))
    for row in content.rows("entries", hold):
        said.append(tr("Arriving on course {}.").format(figures.course(row.number("arrival_course_deg"))))
    for name, words_ in (("start_utc", tr("First over the fix at {}Z.")), ("leave_utc", tr("To leave at {}Z."))):
        if hold.word(name):
            said.append(words_.format(hold.word(name).rstrip("Zz")))
    given = [" ".join(said)]
    if not content.clearance(hold):  # a place alone is said in no clearance
        given.insert(0, tr("Hold at {}, inbound {} magnetic, {} turns, {}.").format(
            hold.word("fix"), figures.course(hold.number("inbound_model_deg")), figures.turns(hold), figures.leg(hold)
        ))  # fmt: skip
    return given


def _isa(hold: Row) -> str:
    deviation = hold.number("isa_dev_c")
    return f"{deviation:+.0f}" if math.isfinite(deviation) and round(deviation) else ""


def _blanks(hold: Row) -> list[tuple[str, list[str]]]:
    """What is asked, in three columns."""
    return [
        (
            tr("The fix"),
            [tr("Navaid, frequency"), tr("Radial"), tr("DME over the fix"), tr("Latitude"), tr("Longitude"),
             tr("How I make the point")],
        ),
        (
            tr("The hold"),
            [tr("Inbound course"), tr("On the selector"), tr("Outbound course"), tr("Turns"), tr("Leg ends at"),
             tr("Heading at the fix")],
        ),
        (
            tr("The flight"),
            [tr("Entry"), tr("First heading, time"), tr("Inbound heading"), tr("Outbound heading"),
             tr("Stopwatch outbound"), tr("Circuits, leave at")],
        ),
    ]  # fmt: skip


def _column(sheet: Sheet, head: str, asked: list[str], x: float, y: float, width: float) -> None:
    sheet.text(x, y, head, bold=True)
    y += line_height(inks.TEXT_PT) + 1.0
    for line in asked:
        sheet.text(x, y, line, inks.NOTE_PT, ink=inks.GREY)
        y += ROW_MM
        sheet.rule([(x, y - 1.2), (x + width, y - 1.2)])


def _chart(sheet: Sheet, content: Content, hold: Row, top: float, tall: float) -> None:
    """Navaids, airspace and terrain round the place, without the hold."""
    paper = sheet.paper
    wide = paper.span(12)
    at = station(hold) or (hold.number("lon"), hold.number("lat"))
    local = content.local(*at)
    here, fix = local.point(*at), local.point(hold.number("lon"), hold.number("lat"))
    reach = here.distance(fix) + MARGIN_NM * picture.M_PER_NM
    places = [content.lon_lat(feature, "navaids") for feature, _ in content.navaids]
    near = sorted(here.distance(local.point(*place)) / picture.M_PER_NM for place in places if place)[:LEAST_NAVAIDS]
    reach = max([reach, *((away + MARGIN_NM / 3.0) * picture.M_PER_NM for away in near if away < FAR_NM)])
    box = QgsRectangle(here.x() - reach, here.y() - reach, here.x() + reach, here.y() + reach)
    scale, seen = picture.fitted([(box, 0.0)], wide, tall)
    navaids = content.seen_navaids(local, seen, scale)
    picture.widen_roses(navaids, ROSE_MM)
    picture.label_at_every_scale(navaids)
    order = [navaids] + surroundings.airspace(content, local, seen) + surroundings.beneath(content)
    item = picture.put_map(sheet, local, order, seen, paper.left, top, wide, tall)
    below = top + tall + 1.0
    picture.put_scale_bar(sheet, item, scale, paper.left, below + 0.2, 40.0)
    north = tr("True north is up. Variation {}.   {}").format(
        text.format_variation(hold.number("var_deg")), scale_text(scale)
    )
    sheet.text(paper.right, below, north, inks.NOTE_PT, right=True)
