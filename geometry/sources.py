"""Where the figures of a rule come from: the marks of their entries, and the words for it."""

from __future__ import annotations

from typing import NamedTuple

PUBLISHED = "published"
"""Read in the source, or in a text that quotes it."""
FROM_MEMORY = "from memory"
COMPUTED = "computed"
DERIVED = "derived"
CHOSEN_HERE = "chosen here"


class Figure(NamedTuple):
    """A figure of a rule: value, unit, mark (one of the above), source."""

    value: float
    unit: str
    mark: str
    source: str


def said(entry) -> str:
    """Source of a table's entry, with its mark where it was not read in the document.

    >>> said(Figure(0.5, "NM", FROM_MEMORY, "FAA Order 8260.3"))
    'FAA Order 8260.3 (from memory)'
    """
    return entry.source if entry.mark == PUBLISHED or entry.mark in entry.source else f"{entry.source} ({entry.mark})"
