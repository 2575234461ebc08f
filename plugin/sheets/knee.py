"""The knee edition: half a page a hold, ten numbers and one small picture, two holds a sheet."""

from __future__ import annotations

import math

from ...algorithms.common.texts import tr
from ..styles import inks
from . import figures, holdmap, page
from .content import Content
from .figures import DASH, Line, Row
from .page import GUTTER_MM, Sheet, line_height

LINE_MM = 2.35
"""Lead of the ten numbers, in their own height."""


def put_pair(sheet: Sheet, content: Content, pair: list[Row]) -> None:
    """One sheet with a hold in each half."""
    paper = sheet.paper
    sheet.new_page()
    middle = paper.height_mm / 2.0
    for number, hold in enumerate(pair):
        top = paper.margin_mm if number == 0 else middle + 4.0
        bottom = middle - 4.0 if number == 0 else paper.foot - 2.0
        _half(sheet, content, hold, top, bottom)
    sheet.rule([(0.0, middle), (paper.width_mm, middle)], 0.15, inks.GREY, (2.0, 2.0))


def _half(sheet: Sheet, content: Content, hold: Row, top: float, bottom: float) -> None:
    paper = sheet.paper
    height = figures.altitude(hold)
    sheet.text(paper.right, top, height, inks.NAME_PT, bold=True, right=True)
    room = paper.span(12) - page.text_width(height, inks.NAME_PT, True) - GUTTER_MM
    sheet.text(paper.left, top, page.shortened(hold.word("hold"), room, inks.NAME_PT, True), inks.NAME_PT, bold=True)
    y = top + line_height(inks.NAME_PT)
    failed = content.failed(hold)
    fix = hold.word("fix") + ("   " + tr("FAILS A TEST: see the full page") if failed else "")
    sheet.text(paper.left, y, page.shortened(fix, paper.span(12), inks.FIGURE_PT, True), inks.FIGURE_PT, bold=True)
    y += line_height(inks.FIGURE_PT) + 1.0
    sheet.hairline(y)
    y += 2.0
    left, wide = paper.left, paper.span(7)
    step = min(LINE_MM * line_height(inks.FIGURE_PT), (bottom - y) / 10.0)
    for number, line in enumerate(ten(content, hold)):
        if number:
            between = y - (step - line_height(inks.TEXT_PT)) / 2.0
            sheet.rule([(left, between), (left + wide, between)], ink=inks.PALE)
        sheet.text(left, y, line.name, inks.TEXT_PT, ink=inks.BLACK)
        room = wide - page.text_width(line.name, inks.TEXT_PT) - 3.0
        value = page.shortened(line.value, room, inks.FIGURE_PT, True)
        sheet.text(left + wide, y - 0.4, value, inks.FIGURE_PT, bold=True, right=True)
        y += step
    side = paper.span(5)
    tall = bottom - (top + line_height(inks.NAME_PT) + line_height(inks.FIGURE_PT) + 3.0) - 8.0
    holdmap.put_pattern(sheet, content, hold, paper.column(7), bottom - tall - 6.0, side, tall)


def ten(content: Content, hold: Row) -> list[Line]:
    """The ten numbers to have on the knee."""
    flown = sorted(content.rows("flown", hold), key=lambda row: row.number("circuit"))
    circuit = next((row for row in flown if row.number("circuit") == 1.0), Row())
    entered = next(iter(content.rows("entries", hold)), Row())
    dme, radial = hold.number("dme_nm"), hold.number("radial_deg")
    made = " ".join(
        part
        for part in (
            hold.word("navaid"),
            f"R{figures.radial(radial)}" if math.isfinite(radial) else "",
            f"D{dme:.1f}" if math.isfinite(dme) else "",
        )
        if part
    )
    leave, further = (_zulu(hold.word(name)) for name in ("leave_utc", "efc_utc"))
    outbound = circuit.number("outbound_heading_deg")
    inbound = circuit.number("inbound_heading_deg")
    stopwatch = circuit.number("stopwatch_s")
    if not math.isfinite(stopwatch):
        stopwatch = circuit.number("outbound_s")
    first = entered.number("outbound_heading_deg")
    return [
        Line(tr("Fix"), made or DASH),
        Line(tr("Inbound, magnetic"), figures.course(hold.number("inbound_model_deg"))),
        Line(tr("Turns, leg"), f"{figures.turns(hold)}, {figures.leg(hold)}"),
        Line(tr("Entry"), figures.entry(hold, entered.word("entry")) or DASH),
        Line(tr("First heading"), figures.course(first)),
        Line(tr("Outbound heading"), figures.course(outbound)),
        Line(tr("Stopwatch outbound"), figures.timed(stopwatch) or DASH),
        Line(tr("DME, outbound end"), _tenths(hold.number("outbound_end_dme_nm"))),
        Line(tr("Inbound heading"), figures.course(inbound)),
        _last(leave, further),
    ]


def _last(leave: str, further: str) -> Line:
    """When to leave; a time to expect further clearance is said to be one, and is no time to leave."""
    if further and not leave:
        return Line(tr("Expect further clearance"), further)
    return Line(tr("Leave at"), tr("{}; EFC {}").format(leave, further) if further else leave or DASH)


def _zulu(clock: str) -> str:
    return clock.rstrip("Zz") + "Z" if clock else ""


def _tenths(value: float) -> str:
    return f"{value:.1f}" if math.isfinite(value) else DASH
