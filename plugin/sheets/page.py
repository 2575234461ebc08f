"""Setting type on a page: sheets of paper, text line by line, hairlines. Millimetres from the page's corner."""

from __future__ import annotations

import functools
import math
import re
from typing import NamedTuple

from qgis.core import (
    QgsLayoutItem,
    QgsLayoutItemPage,
    QgsLayoutPoint,
    QgsLayoutSize,
    QgsPrintLayout,
    QgsUnitTypes,
)
from qgis.PyQt.QtCore import QPointF, QRectF, Qt
from qgis.PyQt.QtGui import QColor, QFont, QFontInfo, QFontMetricsF, QPainter, QPen, QPolygonF

from ..styles import inks

GUTTER_MM = 4.0
FOOT_MM = 9.0
"""Room for the caution and the dates above the lower margin."""
MM_PER_PT = 25.4 / 72.0
LEADING = 1.3
BASELINE = 1.05
"""Baseline below the top of a line, in sizes of the type."""
HAIRLINE_MM = 0.15

_METRICS_PX = 200
ITEM_TYPE = 65_536 + 5_000
"""Above Qt's QGraphicsItem.UserType and the numbers that QGIS has given out since."""


class Paper(NamedTuple):
    """A page: its size and margin in mm, and a grid of twelve columns."""

    name: str
    width_mm: float
    height_mm: float
    margin_mm: float

    @property
    def left(self) -> float:
        return self.margin_mm

    @property
    def right(self) -> float:
        return self.width_mm - self.margin_mm

    @property
    def bottom(self) -> float:
        return self.height_mm - self.margin_mm

    @property
    def foot(self) -> float:
        """Where the caution begins, and nothing else may be."""
        return self.bottom - FOOT_MM

    def column(self, number: int) -> float:
        """Left edge of a grid column, 0 to 11."""
        return self.left + number * (self._column_mm + GUTTER_MM)

    def span(self, count: int) -> float:
        """Width of several grid columns with the gutters between them."""
        return count * self._column_mm + (count - 1) * GUTTER_MM

    @property
    def _column_mm(self) -> float:
        return (self.width_mm - 2.0 * self.margin_mm - 11.0 * GUTTER_MM) / 12.0


A4 = Paper("a4", 210.0, 297.0, 12.0)
LETTER = Paper("letter", 215.9, 279.4, 12.0)
WIDE = Paper("16:9", 254.0, 142.875, 9.0)
PAPERS = (A4, LETTER)


def line_height(points: float) -> float:
    """From one baseline to the next."""
    return points * MM_PER_PT * LEADING


def font(points: float, bold: bool = False) -> QFont:
    """The sheets' type: the first of our families that the machine has."""
    made = QFont(_family())
    made.setPointSizeF(points)
    made.setWeight(QFont.Weight.Bold if bold else QFont.Weight.Normal)
    return made


@functools.lru_cache(maxsize=1)
def _family() -> str:
    for family in inks.FAMILIES:
        if QFontInfo(QFont(family)).family() == family:
            return family
    return QFont().family()


@functools.lru_cache(maxsize=4096)
def text_width(text: str, points: float, bold: bool = False) -> float:
    """Width of a line of text in mm; a page asks for the same many times until all of it fits."""
    measured = font(points, bold)
    measured.setPixelSize(_METRICS_PX)
    return QFontMetricsF(measured).horizontalAdvance(text) / _METRICS_PX * points * MM_PER_PT


def wrapped(text: str, width: float, points: float, bold: bool = False) -> list[str]:
    """Text in lines no wider than a width; a word that is wider by itself is cut, and none stands alone at the end."""
    lines: list[list[str]] = []
    for word in _words(text):
        if lines and text_width(" ".join([*lines[-1], word]), points, bold) <= width:
            lines[-1].append(word)
            continue
        while len(word) > 1 and text_width(word, points, bold) > width:
            cut = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or text_width(word[:n], points, bold) <= width)
            lines.append([word[:cut]])
            word = word[cut:]
        lines.append([word])
    if len(lines) > 1 and len(lines[-1]) == 1 and len(lines[-2]) > 2:
        company = [lines[-2][-1], *lines[-1]]
        if text_width(" ".join(company), points, bold) <= width:
            lines[-2:] = [lines[-2][:-1], company]
    return [" ".join(line) for line in lines]


def balanced(text: str, width: float, points: float) -> list[str]:
    """Text in as few lines as wrapped needs, all about as long."""
    lines = wrapped(text, width, points)
    if len(lines) > 1:
        mean = sum(text_width(line, points) for line in lines) / len(lines)
        for share in (1.0, 1.02, 1.05, 1.1, 1.2):
            tighter = wrapped(text, min(width, share * mean), points)
            if len(tighter) == len(lines):
                return tighter
    return lines


_GROUP, _FIGURE = re.compile(r"\W*(.*[–-])?\d{1,3}"), re.compile(r"\d{3}(?!\d)")
_UNITS = {"ft", "NM", "kt", "m", "s", "min", "feet", "knots", "degrees", "minutes", "miles", "mile", "DME", "radial"}
_BEFORE_FIGURES = {"FL", "DME", "QNH", "radial", "track", "Page"}


def _words(text: str) -> list[str]:
    """Words that a line may break between: not within 10 000, nor between a figure and its unit."""
    made: list[str] = []
    for word in text.split():
        before = made[-1].rsplit(" ", 1)[-1] if made else ""
        unit = before[-1:].isdigit() and word.rstrip(".,;:)") in _UNITS
        group = _GROUP.fullmatch(before) and _FIGURE.match(word)
        if unit or group or (before.lstrip("(") in _BEFORE_FIGURES and word[:1].isdigit()):
            made[-1] += " " + word
        else:
            made.append(word)
    return made


def shortened(text: str, width: float, points: float, bold: bool = False) -> str:
    """Text in one line; what does not fit is replaced by an ellipsis."""
    if text_width(text, points, bold) <= width:
        return text
    while text and text_width(text + "…", points, bold) > width:
        text = text[:-1].rstrip()
    return text + "…"


def clipped(text: str, width: float, points: float, lines: int, bold: bool = False) -> list[str]:
    """Text in no more than so many lines; what does not fit is replaced by an ellipsis."""
    found = wrapped(text, width, points, bold)
    if len(found) > lines:
        found[lines - 1 :] = [shortened(" ".join(found[lines - 1 :]), width, points, bold)]
    return found


class Mark(NamedTuple):
    """A line of text: left end, top and size of its line in mm."""

    x: float
    y: float
    text: str
    points: float
    bold: bool
    ink: str


class Stroke(NamedTuple):
    """A line through points in mm, with an arrow head of a width in mm at its end (0: none)."""

    points: list[tuple[float, float]]
    width_mm: float
    ink: str
    dashes: tuple[float, ...]
    arrow_mm: float


class Band(NamedTuple):
    """A black band with a line of white text in it."""

    x: float
    y: float
    width: float
    height: float
    text: str
    points: float


class Ink(QgsLayoutItem):
    """All type and lines of a page as one item: hundreds of single labels would make printing slow."""

    def __init__(self, layout: QgsPrintLayout, marks: list[Mark | Stroke | Band]):
        super().__init__(layout)
        self.marks = marks
        self.setBackgroundEnabled(False)

    def type(self):
        return ITEM_TYPE

    def draw(self, context):
        painter = context.renderContext().painter()
        dots = context.renderContext().scaleFactor()
        for mark in self.marks:
            painter.save()
            painter.scale(dots, dots)
            if isinstance(mark, Mark):
                _draw_text(painter, mark)
            elif isinstance(mark, Band):
                painter.fillRect(QRectF(mark.x, mark.y, mark.width, mark.height), QColor(inks.BLACK))
                y = mark.y + (mark.height - line_height(mark.points)) / 2.0
                _draw_text(painter, Mark(mark.x + 2.0, y, mark.text, mark.points, True, inks.WHITE))
            else:
                _draw_line(painter, mark)
            painter.restore()


def _draw_text(painter: QPainter, mark: Mark) -> None:
    made = font(mark.points, mark.bold)
    made.setPixelSize(_METRICS_PX)
    size = mark.points * MM_PER_PT
    painter.setFont(made)
    painter.setPen(QColor(mark.ink))
    painter.translate(mark.x, mark.y + size * BASELINE)
    painter.scale(size / _METRICS_PX, size / _METRICS_PX)
    painter.drawText(QPointF(0.0, 0.0), mark.text)


def _draw_line(painter: QPainter, stroke: Stroke) -> None:
    pen = QPen(QColor(stroke.ink))
    pen.setWidthF(stroke.width_mm)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if stroke.dashes:
        pen.setDashPattern([length / stroke.width_mm for length in stroke.dashes])
    painter.setPen(pen)
    *_, before, end = points = [QPointF(x, y) for x, y in stroke.points]
    painter.drawPolyline(QPolygonF(points))
    if stroke.arrow_mm:
        length = math.hypot(end.x() - before.x(), end.y() - before.y()) or 1.0
        u, v = (end.x() - before.x()) / length, (end.y() - before.y()) / length
        back, half = 1.6 * stroke.arrow_mm, stroke.arrow_mm / 2.0
        foot = QPointF(end.x() - back * u, end.y() - back * v)
        sides = [QPointF(foot.x() - s * half * v, foot.y() + s * half * u) for s in (1.0, -1.0)]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(stroke.ink))
        painter.drawPolygon(QPolygonF([end, *sides]))


class Sheet:
    """A print layout with one current page; everything is placed on that page."""

    def __init__(self, layout: QgsPrintLayout, paper: Paper = A4):
        self.layout = layout
        self.paper = paper
        self.layout.pageCollection().clear()
        self.marks: list[list[Mark | Stroke | Band]] = []

    @property
    def page_count(self) -> int:
        """Pages so far."""
        return len(self.marks)

    def new_page(self) -> None:
        """Add a page and go there."""
        page, paper = QgsLayoutItemPage(self.layout), self.paper
        size = QgsLayoutSize(paper.width_mm, paper.height_mm, QgsUnitTypes.LayoutUnit.LayoutMillimeters)
        page.setPageSize(size)
        self.layout.pageCollection().addPage(page)
        self.marks.append([])
        self.go_to(self.page_count - 1)

    def go_to(self, number: int) -> None:
        """Make a page the current one, 0 for the first."""
        self._here = number
        self._offset = self.layout.pageCollection().page(number).pos().y()

    def finish(self) -> None:
        """Put type and lines on their pages, above the pictures."""
        for number, marks in enumerate(self.marks):
            self.go_to(number)
            self.place(Ink(self.layout, marks), 0.0, 0.0, self.paper.width_mm, self.paper.height_mm)

    def place(self, item: QgsLayoutItem, x: float, y: float, width: float, height: float) -> None:
        """Put an item on the current page."""
        self.layout.addLayoutItem(item)
        item.attemptMove(QgsLayoutPoint(x, y + self._offset, QgsUnitTypes.LayoutUnit.LayoutMillimeters))
        self.resize(item, width, height)

    def resize(self, item: QgsLayoutItem, width: float, height: float) -> None:
        """Give an item a size."""
        item.attemptResize(QgsLayoutSize(width, height, QgsUnitTypes.LayoutUnit.LayoutMillimeters))

    def text(
        self, x: float, y: float, text: str, points: float = inks.TEXT_PT, *, bold: bool = False,
        ink: str = inks.BLACK, right: bool = False,
    ) -> None:  # fmt: skip
        """One line of text; x is its left end, or its right end; y its top."""
        if right:
            x -= text_width(text, points, bold)
        if text:
            self.marks[self._here].append(Mark(x, y, text, points, bold, ink))

    def texts(self, x: float, y: float, lines: list[str], points: float = inks.TEXT_PT, **options) -> float:
        """Lines below each other; the y after the last."""
        for line in lines:
            self.text(x, y, line, points, **options)
            y += line_height(points)
        return y

    def rule(
        self, points: list[tuple[float, float]], width_mm: float = HAIRLINE_MM, ink: str = inks.GREY,
        dashes: tuple[float, ...] = (), arrow_mm: float = 0.0,
    ) -> None:  # fmt: skip
        """A line through points; dashes, lengths drawn and left out in mm; an arrow head of a width at its end."""
        self.marks[self._here].append(Stroke(points, width_mm, ink, dashes, arrow_mm))

    def hairline(self, y: float) -> None:
        """A hairline across."""
        self.rule([(self.paper.left, y), (self.paper.right, y)])

    def band(self, y: float, height: float, text: str, points: float = inks.FIGURE_PT) -> float:
        """A black band across with a line of white text. Returns: the y below it."""
        paper = self.paper
        self.marks[self._here].append(Band(paper.left, y, paper.right - paper.left, height, text, points))
        return y + height

    def frame(self, x: float, y: float, width: float, height: float) -> None:
        """A hairline round a picture."""
        self.rule([(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)])
