"""Cells of a plan table, as people write them, to columns; what cannot be read becomes the row's reason."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from .. import reasons, text


class Cells:
    """Reads a table of cells column by column; collects the reasons of rows that cannot be read."""

    def __init__(self, table: dict[str, Sequence], rows: int) -> None:
        ragged = [name for name, values in table.items() if len(values) != rows]
        if ragged:
            raise ValueError(f"column {ragged[0]} has {len(table[ragged[0]])} cells, not {rows}")
        self._table = {name.strip().lower(): values for name, values in table.items()}
        self._read_already: dict[tuple, np.ndarray] = {}
        self.rows = rows
        self.reasons = np.full(rows, "", dtype=object)

    def fail(self, row: int, reason: str) -> None:
        """Add a reason to a row; '' adds nothing."""
        if reason:
            self.reasons[row] = f"{self.reasons[row]}; {reason}" if self.reasons[row] else reason

    def text(self, name: str) -> np.ndarray:
        """Text cells, trimmed; '' for empty or missing ones."""
        values = self._table.get(name)
        if values is None:
            return np.full(self.rows, "", dtype=object)
        out = np.empty(self.rows, dtype=object)
        out[:] = ["" if _empty(v) else _plain(v) for v in values]
        return out

    def number(self, name: str) -> np.ndarray:
        """Numbers with decimal point or comma; NaN for empty cells."""
        return self._read(name, text.parse_number, "is not a number")

    def latitude(self, name: str) -> np.ndarray:
        """Latitudes in any of the usual notations, degrees; NaN for empty cells."""
        return self._read(name, _position(text.parse_latitude), "is not a latitude")

    def longitude(self, name: str) -> np.ndarray:
        """Longitudes in any of the usual notations, degrees; NaN for empty cells."""
        return self._read(name, _position(text.parse_longitude), "is not a longitude")

    def word(self, name: str, words: tuple[str, ...]) -> np.ndarray:
        """Codes of words; -1 for empty cells. An unknown word fails the row."""
        if (name, words) in self._read_already:
            return self._read_already[name, words].copy()
        codes = np.full(self.rows, -1, dtype=np.int64)
        table = {word: code for code, word in enumerate(words)}
        given = self.text(name)
        for i in np.flatnonzero(given != ""):
            codes[i] = table.get(given[i].lower().replace(" ", "_"), -2)
        reasons.note(self.reasons, codes == -2, lambda i: f"{name}: '{given[i][:40]}' is not one of {', '.join(words)}")
        self._read_already[name, words] = np.where(codes == -2, -1, codes)
        return self._read_already[name, words].copy()

    def _read(self, name: str, parse: Callable, complaint: str) -> np.ndarray:
        if (name, complaint) in self._read_already:
            return self._read_already[name, complaint].copy()
        out = np.full(self.rows, np.nan)
        values = self._table.get(name)
        if values is None:
            return out
        bad = np.zeros(self.rows, dtype=bool)
        for i, value in enumerate(values):
            if _empty(value):
                continue
            number = parse(value)
            bad[i] = number is None
            out[i] = np.nan if number is None else number
        reasons.note(self.reasons, bad, lambda i: f"{name}: '{str(values[i])[:40]}' {complaint}")
        self._read_already[name, complaint] = out
        return out.copy()


def _empty(value) -> bool:
    return value is None or (isinstance(value, float) and np.isnan(value)) or str(value).strip() == ""


def _plain(value) -> str:
    """Text of a cell; a whole number read as a float loses its '.0', so that an ident 123 stays 123."""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()


def _position(parse: Callable[[str], float]) -> Callable:
    def read(value):
        number = text.parse_number(value)
        if number is not None:
            value = f"{number:.12f}"
        try:
            return parse(str(value))
        except text.PositionError:
            return None

    return read
