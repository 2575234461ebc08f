"""Levels of holds as text: altitudes for all of them, or a step within each hold's own block."""

from __future__ import annotations

import re
from typing import NamedTuple

import numpy as np

from ..text import parse_number

LEAST_FT, MOST_FT = -2000.0, 60_000.0
LEAST_STEP_FT, MOST_LEVELS = 100.0, 60
_AMBIGUOUS = re.compile(r"(?<!\d)\d{1,3},\d{3}(?!\d)")
_ALLOWED = "it must be altitudes in feet such as 3000, 4000, 5000, or a step within each block such as every 1000"


class Levels(NamedTuple):
    """Altitudes for all holds, ascending, or, where there is none, the step within each hold's block; feet."""

    alt_ft: tuple[float, ...]
    every_ft: float

    def of(self, alt_ft: float, alt_to_ft: float) -> np.ndarray:
        """The levels of one hold, ascending; of a block its bottom, every step above it and its top."""
        if self.alt_ft:
            return np.array(self.alt_ft)
        between = np.arange(alt_ft, alt_to_ft, max(self.every_ft, (alt_to_ft - alt_ft) / (MOST_LEVELS - 1)))
        return np.append(between, alt_to_ft)


def read_levels(given: str) -> tuple[Levels | None, str]:
    """Levels from text. Returns: Levels, None where nothing is given; '' or what is wrong with it.

    >>> read_levels("5000; 3000")[0].of(0.0, 0.0).tolist(), read_levels("every 1000")[0].of(4000.0, 5500.0).tolist()
    ([3000.0, 5000.0], [4000.0, 5000.0, 5500.0])
    """
    words = given.strip().lower()
    if not words:
        return None, ""
    if words.startswith("every"):
        step = parse_number(words[len("every") :])
        if step is None or not LEAST_STEP_FT <= step <= MOST_FT:
            return None, f"{_ALLOWED}; a step is between {LEAST_STEP_FT:.0f} and {MOST_FT:.0f} ft"
        return Levels((), float(step)), ""
    if _AMBIGUOUS.search(words):
        return None, f"{_ALLOWED}; a comma before three figures can mean two things, write semicolons between levels"
    found = [parse_number(part) for part in words.replace(";", ",").split(",")]
    if any(alt is None or not LEAST_FT <= alt <= MOST_FT for alt in found):
        return None, f"{_ALLOWED}; each is between {LEAST_FT:.0f} and {MOST_FT:.0f} ft"
    if len(set(found)) > MOST_LEVELS:
        return None, f"it has {len(set(found))} levels; at most {MOST_LEVELS} are built"
    return Levels(tuple(sorted(map(float, set(found)))), np.nan), ""
