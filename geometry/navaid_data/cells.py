"""The cells of a table of navaids: columns of text by name, and what could not be read of them."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from .. import navaids, reasons, text

_PLAIN_DECIMAL = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")


class Cells:
    """Columns of text cells by name; collects the notes on what could not be read and the reasons of bad positions."""

    def __init__(self, columns: Mapping[str, Sequence]) -> None:
        self._columns = {name.strip('\ufeff \t"').lower(): values for name, values in columns.items()}
        lengths = {len(values) for values in self._columns.values()}
        if len(lengths) > 1:
            raise ValueError(f"columns have {min(lengths)} to {max(lengths)} rows; they must be as many")
        self.rows = lengths.pop() if lengths else 0
        self.notes = np.full(self.rows, "", dtype=object)
        self.unreadable = np.full(self.rows, "", dtype=object)

    def has(self, *names: str) -> bool:
        return all(name in self._columns for name in names)

    @property
    def headers(self) -> list[str]:
        return sorted(self._columns)

    def note(self, mask, write: Callable[[int], str]) -> None:
        reasons.note(self.notes, mask, write)

    def text(self, *names: str) -> np.ndarray:
        """Trimmed cells of the first of the names that is there; '' for empty and missing ones."""
        out = np.full(self.rows, "", dtype=object)
        values = next((self._columns[name] for name in names if name in self._columns), None)
        if values is not None:
            out[:] = [v.strip() if type(v) is str else _cell(v) for v in values]
        return out

    def number(self, *names: str, parse: Callable[[str], float | None] | None = None) -> np.ndarray:
        """Numbers of cells; NaN for empty ones, and for unreadable ones, which are noted."""
        read_cell = parse or read_number
        cells = self.text(*names)
        out = np.full(self.rows, np.nan)
        bad = []
        for i, cell in enumerate(cells):
            if cell:
                value = read_cell(cell)
                if value is None:
                    bad.append(i)
                else:
                    out[i] = value
        self.note(_mask(bad, self.rows), lambda i: f"{names[0]} '{cells[i][:40]}' cannot be read")
        return out

    def angle(self, *names: str, parse: Callable[[str], float]) -> np.ndarray:
        """Latitudes or longitudes in any notation of text; what cannot be read is the row's reason."""
        cells = self.text(*names)
        out = np.full(self.rows, np.nan)
        for i, cell in enumerate(cells):
            if not cell:
                continue
            if _PLAIN_DECIMAL.fullmatch(cell) and abs(float(cell)) <= 90.0:
                out[i] = float(cell)
                continue
            try:
                out[i] = parse(cell)
            except text.PositionError as error:
                self.unreadable[i] = str(error)
        return out


def _cell(value) -> str:
    """Text of a cell that is not; a number in full, since 1e-05 could be one degree east."""
    if value is None or value != value:
        return ""
    is_float = isinstance(value, (float, np.floating))
    return np.format_float_positional(value, trim="-") if is_float else str(value).strip()


def _mask(rows: list[int], n: int) -> np.ndarray:
    out = np.zeros(n, dtype=bool)
    out[rows] = True
    return out


def read_number(cell: str) -> float | None:
    """A number as people write it; None for what is none."""
    return float(cell) if _PLAIN_DECIMAL.fullmatch(cell) else text.parse_number(cell)


def clean_kinds(cells: np.ndarray) -> np.ndarray:
    """Words of navaids.KINDS for the words of a column; '' for what is none."""
    known = {word: navaids.clean_kind(word) for word in set(cells)}
    out = np.empty(len(cells), dtype=object)
    out[:] = [known[word] for word in cells]
    return out
