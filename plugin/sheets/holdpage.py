"""The instructor's page of a hold: name and altitude, figures to fly by, pictures, then all there is to check by."""

from __future__ import annotations

from ...algorithms.common.texts import tr
from ..styles import inks
from . import blocks, figures, holdmap, page, words
from .blocks import Block, Item
from .content import Content
from .figures import Row
from .page import GUTTER_MM, Sheet, line_height

PICTURE_MM, PICTURE_STEP_MM = (68.0, 140.0), 2.0
"""Least and greatest height of the pictures; the words take the rest of the page."""
BANNER_MM = 7.0
CONDUCT_MM = 18.0
NOTE_LINES = (99, 6, 4, 3, 2)
"""How many lines of a note are tried."""
STRIP = (0, 2, 4, 6, 7, 10)
"""Grid columns of the figures to fly by."""


def put(sheet: Sheet, content: Content, hold: Row) -> None:
    """A hold's page; what has no room goes on to another one."""
    paper = sheet.paper
    sheet.new_page()
    top = strip(sheet, hold, head(sheet, content, hold))
    across = [block for block in (words.clearance(content, hold), words.on_the_day(content, hold)) if block]
    threes = [
        Block(tr("Fix"), words.items(figures.fix_lines(hold, content.fix_row(hold), content.navaid_of(hold)))),
        Block(tr("Times in still air"), words.items(figures.timing_lines(hold))),
        Block(tr("Speeds and sizes"), words.items(figures.size_lines(hold, words.area_of(content, hold)))),
    ]
    box = Block(tr("Conduct of the exercise"), words.conduct(), inks.NOTE_PT, CONDUCT_MM)
    checks, notes = [*words.checks(content, hold), box], words.notes(content, hold)
    between = holdmap.BELOW_MAP_MM + sum(blocks.height(block, paper.span(12)) for block in across)
    between += max(_three_heights(sheet, threes))
    tall = _picture_height(sheet, checks + notes, top, between)
    y = holdmap.put_pictures(sheet, content, hold, top, tall)
    for block in across:
        y = blocks.put(sheet, block, paper.left, y, paper.span(12))
        sheet.hairline(y - 0.8)
    y = _threes(sheet, hold, threes, y)
    sheet.hairline(y - 0.8)
    blocks.flow(sheet, _fitting(sheet, checks, notes, y), y, 3, lambda: continued(sheet, hold))


def _fitting(sheet: Sheet, checks: list[Block], notes: list[Block], y: float) -> list[Block]:
    """Checks and notes, the last note cut short first where they would open another page: the layers have all."""
    width, more = sheet.paper.span(4), tr("… all of it in the layer")
    for kept in range(len(notes), 0, -1):
        for lines in NOTE_LINES:
            made = [*checks, *notes[: kept - 1], blocks.cut(notes[kept - 1], width, lines, more)]
            if blocks.fits(sheet, made, y, 3):
                return made
    said = Block("", [Item(tr("What was assumed, and what the area leaves open, stands in the layers."))], inks.NOTE_PT)
    return [*checks, said]


def _picture_height(sheet: Sheet, below: list[Block], top: float, between: float) -> float:
    """The greatest height of the pictures that leaves the page room for all words."""
    least, most = PICTURE_MM
    tall = min(most, sheet.paper.foot - top - between)
    while tall > least and not blocks.fits(sheet, below, top + tall + between, 3):
        tall -= PICTURE_STEP_MM
    return max(tall, least)


def continued(sheet: Sheet, hold: Row) -> float:
    """Another page of the same hold. Returns: where its text begins."""
    paper = sheet.paper
    sheet.new_page()
    name = page.shortened(tr("{}, continued").format(hold.word("hold")), paper.span(12), inks.NAME_PT, True)
    sheet.text(paper.left, paper.margin_mm, name, inks.NAME_PT, bold=True)
    y = paper.margin_mm + line_height(inks.NAME_PT) + 1.0
    sheet.hairline(y)
    return y + 2.0


def head(sheet: Sheet, content: Content, hold: Row, fix: bool = True) -> float:
    """Name, altitude, fix, rules, remarks; across all of it a band where a test does not hold."""
    paper = sheet.paper
    top = paper.margin_mm
    height = figures.altitude(hold)
    sheet.text(paper.right, top, height, inks.NAME_PT, bold=True, right=True)
    room = paper.span(12) - page.text_width(height, inks.NAME_PT, True) - 2.0 * GUTTER_MM
    name = page.clipped(hold.word("hold"), room, inks.NAME_PT, 2, True)
    y = sheet.texts(paper.left, top, name, inks.NAME_PT, bold=True)
    if fix and hold.word("fix") != hold.word("hold"):
        room = paper.span(12) - page.text_width(figures.rules(hold), inks.TEXT_PT) - GUTTER_MM
        sheet.text(paper.right, y + 0.5, figures.rules(hold), right=True)
        named = page.wrapped(hold.word("fix"), room, inks.FIGURE_PT, True)[:2]
        y = sheet.texts(paper.left, y, named, inks.FIGURE_PT, bold=True)
    if hold.word("remarks"):
        y = sheet.texts(paper.left, y, page.clipped(hold.word("remarks"), paper.span(12), inks.TEXT_PT, 2))
    failed = content.failed(hold) if fix else []
    if failed:
        y = sheet.band(y + 0.8, BANNER_MM, _banner(failed, paper.span(12) - 4.0))
    return y + 1.5


def _banner(failed: list[Row], width: float) -> str:
    """The tests that do not hold, as many as have room, and how many more."""
    names = list(dict.fromkeys(words.test_name(row) for row in failed))
    for shown in range(len(names), 0, -1):
        more = [tr("and {} more").format(len(names) - shown)] if shown < len(names) else []
        said = tr("FAILS: {}").format(", ".join(names[:shown] + more))
        if page.text_width(said, inks.FIGURE_PT, True) <= width:
            break
    return page.shortened(said, width, inks.FIGURE_PT, True)


def strip(sheet: Sheet, hold: Row, y: float) -> float:
    """The figures to fly by, in a row between hairlines."""
    sheet.hairline(y)
    for place, line in zip(STRIP, figures.strip(hold)):
        sheet.text(sheet.paper.column(place), y + 0.8, line.name, inks.NOTE_PT, ink=inks.GREY)
        sheet.text(sheet.paper.column(place), y + 4.0, line.value, inks.FIGURE_PT, bold=True)
    sheet.hairline(y + 9.6)
    return y + 11.6


def _three_heights(sheet: Sheet, threes: list[Block]) -> list[float]:
    width = sheet.paper.span(4)
    heights = [blocks.height(block, width) for block in threes]
    heights[1] += 4.0 * line_height(inks.TEXT_PT)
    return heights


def _threes(sheet: Sheet, hold: Row, threes: list[Block], top: float) -> float:
    """The fix, courses and times, speeds."""
    paper, width = sheet.paper, sheet.paper.span(4)
    starts = (top, course_table(sheet, hold, paper.column(4), top, width), top)
    ends = [
        blocks.put(sheet, block, paper.column(4 * number), y, width)
        for number, (block, y) in enumerate(zip(threes, starts))
    ]
    return max(ends)


def course_table(sheet: Sheet, hold: Row, left: float, y: float, width: float) -> float:
    """Courses by the three norths."""
    sheet.text(left, y, tr("Courses"), bold=True)
    for number, cells in enumerate(figures.course_table(hold)):
        points = inks.TEXT_PT if number else inks.NOTE_PT
        ink = inks.BLACK if number else inks.GREY
        if number:
            y += line_height(inks.TEXT_PT)
        sheet.text(left, y, cells[0], points, ink=ink)
        for k, value in enumerate(cells[1:]):
            x = left + width - (2 - k) * 15.0
            sheet.text(x, y + (0.0 if number else 0.6), value, points, ink=ink, right=True)
    return y + line_height(inks.TEXT_PT) + 1.6
