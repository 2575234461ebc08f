"""Text in columns: blocks with a head and lines, as even as they go, over as many pages as they take."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from ..styles import inks
from .page import Sheet, line_height, shortened, text_width, wrapped

BELOW_MM = 1.6
"""Room below a block."""
ABOVE_FOOT_MM = 1.0
BETWEEN_MM = 1.5
"""Least room between what a line is and its figures."""
SHORT = 4
"""Paragraphs of no more lines stay in one column."""


@dataclass(frozen=True)
class Item:
    """A line of a block: words, and figures set to the right; words wrap, figures do not; keep, with the next item."""

    words: str
    figures: str = ""
    bold: bool = False
    keep: bool = False


@dataclass(frozen=True)
class Block:
    """A head and items in one size; box_mm, an empty box to write in below them."""

    head: str
    items: list[Item] = field(default_factory=list)
    points: float = inks.TEXT_PT
    box_mm: float = 0.0


@dataclass(frozen=True)
class _Set:
    """One line ready to print."""

    words: str
    figures: str
    points: float
    bold: bool
    height: float
    box: bool = False
    keep: bool = False
    """The line stays with the one that follows."""


def sentences(head: str, text: str, points: float = inks.TEXT_PT) -> Block | None:
    """A block of running text; None where there is none."""
    return Block(head, [Item(text)], points) if text else None


def _lines(block: Block, width: float) -> list[_Set]:
    """The lines of a block in a column of a width."""
    made = []
    if block.head:
        made += [
            _Set(words, "", inks.TEXT_PT, True, line_height(inks.TEXT_PT), keep=True)
            for words in wrapped(block.head, width, inks.TEXT_PT, True)
        ]
    tall = line_height(block.points)
    for item in block.items:
        room = width
        if item.figures:
            figures = shortened(item.figures, width * 0.75, block.points, item.bold)
            room = width - text_width(figures, block.points, item.bold) - BETWEEN_MM
        else:
            figures = ""
        lines = wrapped(item.words, max(room, 0.25 * width), block.points, item.bold) or [""]
        for number, words in enumerate(lines, start=1):
            keep = bool(block.box_mm) or _stays(number, len(lines)) or (item.keep and number == len(lines))
            made.append(_Set(words, figures if number == 1 else "", block.points, item.bold, tall, keep=keep))
        if item is block.items[-1] and len(lines) == 1 and len(made) > 1:
            made[-2] = replace(made[-2], keep=True)  # a last line is not alone
    if block.box_mm:
        made.append(_Set("", "", block.points, False, block.box_mm, box=True))
    return made


def _stays(number: int, count: int) -> bool:
    """Whether a line of a paragraph stays with its next: a short one is not divided, no line of a long one is alone."""
    return number < count and (count <= SHORT or number == 1 or number == count - 1)


def height(block: Block, width: float) -> float:
    """How tall a block is in a column of a width, with the room below it."""
    return sum(line.height for line in _lines(block, width)) + BELOW_MM


def put(sheet: Sheet, block: Block, x: float, y: float, width: float) -> float:
    """Print a block. Returns: the y below it."""
    for line in _lines(block, width):
        _put(sheet, line, x, y, width)
        y += line.height
    return y + BELOW_MM


def _put(sheet: Sheet, line: _Set, x: float, y: float, width: float) -> None:
    if line.box:
        sheet.frame(x, y + 0.8, width, line.height - 0.8)
        return
    sheet.text(x, y, line.words, line.points, bold=line.bold)
    if line.figures:
        sheet.text(x + width, y, line.figures, line.points, bold=line.bold, right=True)


def cut(block: Block, width: float, lines: int, more: str) -> Block:
    """A block of running text in no more than so many lines; the last then ends with more."""
    text = " ".join(item.words for item in block.items)
    found = wrapped(text, width, block.points)
    if len(found) <= lines:
        return block
    end = wrapped(more, width, block.points)[0]
    last = found[lines - 1].split()
    while last and text_width(" ".join([*last, end]), block.points) > width:
        last.pop()
    shown = [*found[: lines - 1], " ".join([*last, end])]
    return Block(block.head, [Item(line) for line in shown], block.points)


def fits(sheet: Sheet, blocks: list[Block], top: float, columns: int) -> bool:
    """Whether blocks go into columns on what is left of a page."""
    room = sheet.paper.foot - ABOVE_FOOT_MM - top
    lines = _all_lines(blocks, sheet.paper.span(12 // columns))
    return room > 0.0 and not _fill(lines, room, columns, room)[1]


def _all_lines(blocks: list[Block], width: float) -> list[_Set]:
    """Lines of blocks with gaps between them."""
    lines: list[_Set] = []
    for block in blocks:
        lines += ([_Set("", "", inks.NOTE_PT, False, BELOW_MM)] if lines else []) + _lines(block, width)
    return lines


def flow(sheet: Sheet, blocks: list[Block], top: float, columns: int, next_page) -> float:
    """Print blocks one after the other in even columns down to the foot; next_page() opens another page.

    next_page returns the y at which that page's columns begin. Returns: the y below the longest column.
    """
    paper = sheet.paper
    count = 12 // columns
    width = paper.span(count)
    lines = _all_lines(blocks, width)
    while lines:
        room = paper.foot - ABOVE_FOOT_MM - top
        if room < 3.0 * line_height(inks.TEXT_PT):
            top = next_page()
            continue
        parts, lines = _fill(lines, _even(lines, columns, room), columns, room)
        bottom = top
        for number, part in enumerate(parts):
            y = top
            for line in part:
                _put(sheet, line, paper.column(number * count), y, width)
                y += line.height
            bottom = max(bottom, y)
        top = bottom + BELOW_MM
        if lines:
            top = next_page()
    return top


def _even(lines: list[_Set], columns: int, room: float) -> float:
    """The least height at which all lines fit into columns; the room there is where they do not."""
    low, high = max(line.height for line in lines), room
    if _fill(lines, high, columns, room)[1]:
        return room
    for _ in range(24):
        middle = (low + high) / 2.0
        if _fill(lines, middle, columns, room)[1]:
            low = middle
        else:
            high = middle
    return high


def _fill(lines: list[_Set], tall: float, columns: int, room: float) -> tuple[list[list[_Set]], list[_Set]]:
    """Lines into columns of a height: the columns, and what is left over."""
    rest = list(lines)
    parts: list[list[_Set]] = []
    for _ in range(columns):
        part: list[_Set] = []
        used = 0.0
        while rest:
            line = rest[0]
            if not part and not line.words and not line.box:
                rest.pop(0)  # no gap at the top of a column
                continue
            needs = line.height
            for before, after in zip(rest, rest[1:]):
                if not before.keep:
                    break
                needs += after.height
            if used + needs > tall + 1e-6 and (part or tall < room):
                break
            part.append(rest.pop(0))
            used += line.height
        parts.append(part)
    return parts, rest
