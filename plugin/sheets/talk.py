"""A page for a talk, 16:9: the picture left, six lines right."""

from __future__ import annotations

import math

from ...algorithms.common.texts import tr
from ..styles import inks
from . import figures, holdmap, page
from .content import Content
from .figures import Row
from .page import Sheet, line_height


def put(sheet: Sheet, content: Content, hold: Row) -> None:
    """One hold on one page for a screen."""
    paper = sheet.paper
    sheet.new_page()
    top = paper.margin_mm
    altitude = figures.altitude(hold)
    room = paper.span(12) - page.text_width(altitude, inks.NAME_PT, True) - 4.0
    name = hold.word("hold")
    if hold.word("fix") != name:
        name = f"{name}   {hold.word('fix')}"
    sheet.text(paper.left, top, page.shortened(name, room, inks.NAME_PT, True), inks.NAME_PT, bold=True)
    sheet.text(paper.right, top, altitude, inks.NAME_PT, bold=True, right=True)
    y = top + line_height(inks.NAME_PT) + 1.0
    if content.failed(hold):
        y = sheet.band(y, 7.0, tr("FAILS a test: not to be flown as it is")) + 1.5
    tall = paper.foot - y - holdmap.BELOW_MAP_MM
    holdmap.put_map(sheet, content, hold, paper.left, y, paper.span(8), tall, notes=False)
    for words in six(content, hold):
        lines = page.wrapped(words, paper.span(4), inks.NAME_PT)[:3]
        y = sheet.texts(paper.column(8), y, lines, inks.NAME_PT) + 2.0


def six(content: Content, hold: Row) -> list[str]:
    """What to say of a hold, in six lines."""
    flown = sorted(content.rows("flown", hold), key=lambda row: row.number("circuit"))
    circuit = next((row for row in flown if row.number("circuit") == 1.0), Row())
    entered = next(iter(content.rows("entries", hold)), Row())
    said = [
        tr("Inbound {} magnetic, {} turns").format(
            figures.course(hold.number("inbound_model_deg")), figures.turns(hold)
        ),
        tr("Leg {}").format(figures.leg(hold)),
        tr("{:.0f} kt IAS, {:.0f} kt TAS").format(hold.number("ias_kt"), hold.number("tas_kt")),
    ]
    dme = hold.number("dme_nm")
    if math.isfinite(dme):
        said.append(tr("DME {:.1f} over the fix").format(dme))
    if entered.word("entry"):
        said.append(
            tr("Arriving on {}: {} entry").format(
                figures.course(entered.number("arrival_course_deg")), figures.entry(hold, entered.word("entry"))
            )
        )
    if circuit:
        said.append(
            tr("{}: {} out, {} in").format(
                figures.wind(flown),
                figures.course(circuit.number("outbound_heading_deg")),
                figures.course(circuit.number("inbound_heading_deg")),
            )
        )
    return said[:6]
