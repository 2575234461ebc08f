"""A CSV file as columns of text, as it was written: nothing in it is taken for missing, a number or a date."""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from .specs import shown
from .texts import tr

DELIMITERS = (",", ";", "\t")
MOST_BYTES = 500_000_000
_UTF16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_USUAL, _OTHERWISE = "utf-8-sig", "latin-1"


class TableError(ValueError):
    """A file that is no table, with the sentence that says why."""


@dataclass(frozen=True)
class CsvTable:
    """Headers and the rows below them, each of as many cells as there are headers or with a reason.

    reasons, '' or why the row's cells do not belong to the headers. note: what was assumed of the whole file.
    """

    headers: list[str]
    rows: list[list[str]]
    reasons: list[str]
    note: str

    def columns(self) -> dict[str, Sequence[str]]:
        """Cells by header; rows with a reason have empty ones."""
        blank = [""] * len(self.headers)
        rows = [blank if reason else row for row, reason in zip(self.rows, self.reasons)]
        return dict(zip(self.headers, zip(*rows))) if rows else {header: () for header in self.headers}


def read(path: str, encoding: str = "") -> CsvTable:
    """Read a file: comma, semicolon or tab, whichever its first line has most of. Empty lines are no rows.

    encoding, '' for UTF-8 (UTF-16 where the file begins so), and Latin-1 where it is no UTF-8.
    Errors: TableError for what is not a table.
    """
    text, note = _decoded(path, encoding)
    lines = _lines(text)
    headers, rows = _headers(lines[0]), lines[1:]
    width = len(headers)
    reasons = [""] * len(rows)
    for i, cells in enumerate(rows):
        if any(cell.strip() for cell in cells[width:]):
            reasons[i] = tr("the row has {} cells, but there are {} headers").format(len(cells), width)
        rows[i] = cells[:width] + [""] * (width - len(cells))
    return CsvTable(headers, rows, reasons, note)


def _decoded(path: str, encoding: str) -> tuple[str, str]:
    try:
        with open(path, "rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise TableError(tr("it cannot be read: {}").format(error.strerror or error)) from error
    if len(data) > MOST_BYTES:
        raise TableError(tr("it is larger than {} MB").format(MOST_BYTES // 1_000_000))
    if not data.strip():
        raise TableError(tr("it is empty"))
    note = ""
    if encoding:
        text = _as_text(data, encoding)
    elif data.startswith(_UTF16):
        text = _as_text(data, "utf-16")
    else:
        try:
            text = data.decode(_USUAL)
        except UnicodeDecodeError as error:
            text = data.decode(_OTHERWISE)
            line = data.count(b"\n", 0, error.start) + 1
            note = tr("line {} is no UTF-8, so the file was read as Latin-1; ENCODING says otherwise").format(line)
    if "\0" in text:
        raise TableError(tr("it is a binary file, not a table of text"))
    return text.lstrip("\ufeff"), note


def _as_text(data: bytes, encoding: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        raise TableError(tr("byte {} cannot be read as {}").format(error.start + 1, encoding)) from error
    except (LookupError, ValueError) as error:
        raise TableError(tr("{} is no encoding of text, such as utf-8 or latin-1").format(shown(encoding))) from error


def _lines(text: str) -> list[list[str]]:
    """Lines as cells. strict, since a quote that does not end would swallow the rows below it unseen."""
    first = next((line for line in io.StringIO(text) if line.strip()), "")
    delimiter = max(DELIMITERS, key=lambda mark: len(next(csv.reader([first], delimiter=mark), [])))
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        lines = [cells for cells in reader if cells]
    except csv.Error as error:
        raise TableError(tr("line {} cannot be read: {}").format(reader.line_num, error)) from error
    if not lines:
        raise TableError(tr("it is empty"))
    return lines


def _headers(cells: list[str]) -> list[str]:
    headers = [cell.strip() or f"column_{number}" for number, cell in enumerate(cells, 1)]
    lower = [header.lower() for header in headers]
    for number, name in enumerate(lower):
        if name in lower[:number]:
            raise TableError(tr("it has two columns {}").format(shown(headers[number])))
    return headers
