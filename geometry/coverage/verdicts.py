"""Rows of the tests layer: how a verdict on a pair is written."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from .pairs import Pairs


class Tests(NamedTuple):
    """Rows of the tests layer, pair by pair.

    pair, index of the pair; test, one of checks.TESTS; ok; known, false where a figure is missing and the test could
    not be made (ok is false too: nothing passes unseen); value and limit_value in unit; source; text.
    """

    pair: np.ndarray
    test: np.ndarray
    ok: np.ndarray
    known: np.ndarray
    value: np.ndarray
    limit_value: np.ndarray
    unit: np.ndarray
    source: np.ndarray
    text: np.ndarray


def part(test: str, rows, ok, known, value, limit, unit: str, source, sentence: Callable[[int], str]) -> Tests:
    """Tests of the pairs of a mask. ok, known, value, limit: N; source: one text, or N; sentence(i) of pair i."""
    index = np.flatnonzero(rows)
    n = len(rows)

    def words(values) -> np.ndarray:
        out = np.empty(len(index), dtype=object)
        out[:] = values
        return out

    def taken(values, dtype) -> np.ndarray:
        return np.broadcast_to(np.asarray(values, dtype=dtype), n)[index]

    known = taken(known, bool)
    return Tests(
        index,
        words([test] * len(index)),
        taken(ok, bool) & known,
        known,
        taken(value, np.float64),
        taken(limit, np.float64),
        words([unit] * len(index)),
        words([source] * len(index) if isinstance(source, str) else [source[i] for i in index]),
        words([sentence(i) for i in index]),
    )


def who(pairs: Pairs, i: int) -> str:
    """A pair's station by its ident."""
    return str(pairs.ident[i]) or "the station"


def lacking(pairs: Pairs, i: int, elevation: float) -> str:
    """What is missing where a pair cannot be tested, by the elevation of what is read."""
    if not np.isfinite(pairs.alt_ft[i]):
        return "the altitude at the fix is not given"
    return "a position is missing" if np.isfinite(elevation) else f"the elevation of {who(pairs, i)} is not given"
