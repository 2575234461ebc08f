"""Exercises that share the sky: which pairs are too near, which levels free them, and the lowest level of a fix.

A level here is the bottom of an exercise's block of altitudes; its thickness goes along wherever it is moved.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .meetings import meetings
from .shapes import Shapes

SEPARATION_FT = 1000.0
SEPARATION_SOURCE = (
    "ICAO Doc 4444, 5.3.2: 1 000 ft below flight level 290, above it where reduced minima apply; from memory"
)

MINIMUM, AIRSPACE, EXERCISE = "minimum_altitude", "airspace", "exercise"
"""Causes of a band that is not usable."""


class Pairs(NamedTuple):
    """K pairs of exercises whose areas come within a distance.

    first < second, rows; distance_nm, 0 where areas overlap; relation of the first to the second, as
    meetings.RELATIONS; gap_ft, between their levels, below 0 by how much they overlap, NaN where a level is not known;
    ok, 1 separated, 0 not, -1 not to be told.
    """

    first: np.ndarray
    second: np.ndarray
    distance_nm: np.ndarray
    relation: np.ndarray
    gap_ft: np.ndarray
    ok: np.ndarray


class Bands(NamedTuple):
    """K bands of levels that a row cannot use: row; from_ft, to_ft; closed, true where the two ends are no more usable
    than what lies between; cause; who, the index of the airspace or exercise, -1 for none."""

    row: np.ndarray
    from_ft: np.ndarray
    to_ft: np.ndarray
    closed: np.ndarray
    cause: np.ndarray
    who: np.ndarray


def pairs(areas: Shapes, low_ft, high_ft, *, within_nm: float = 0.0, separation_ft: float = SEPARATION_FT) -> Pairs:
    """Pairs of exercises whose areas overlap, or come within a distance, and whether their levels separate them.

    Parameters: areas, N; low_ft <= high_ft (N,), NaN for one not known; within_nm, separation_ft >= 0.
    Returns: Pairs, by first, then nearness. Errors: ValueError for a distance or separation below 0.
    Source: SEPARATION_SOURCE; areas that do not overlap: Doc 4444, 5.4.1 (lateral separation; from memory).
    """
    if not separation_ft >= 0.0:
        raise ValueError(f"separation_ft is {separation_ft}; it must be 0 or more")
    low, high = (np.broadcast_to(np.asarray(a, dtype=np.float64), (len(areas),)) for a in (low_ft, high_ft))
    met = meetings(areas, areas, within_nm, once=True)
    i, j = met.row, met.other
    gap = np.maximum(low[i] - high[j], low[j] - high[i])
    ok = np.where(np.isnan(gap), -1, (gap >= separation_ft).astype(np.int64))
    return Pairs(i, j, met.distance_nm, met.relation, gap, ok)


def pair_bands(found: Pairs, low_ft, high_ft, separation_ft: float = SEPARATION_FT) -> Bands:
    """The levels that each exercise of a pair takes from the other: two bands a pair whose levels are known."""
    low, high = np.asarray(low_ft, dtype=np.float64), np.asarray(high_ft, dtype=np.float64)
    row, who = np.concatenate([found.first, found.second]), np.concatenate([found.second, found.first])
    bottom, top = low[who] - separation_ft - (high - low)[row], high[who] + separation_ft
    return _bands(row, bottom, top, False, EXERCISE, who)


def airspace_bands(row, lower_ft, upper_ft, within_ft: float, thickness_ft, who) -> Bands:
    """The levels that airspace takes: from its lower limit less the distance and the block's thickness, up to its upper
    limit and the distance. lower -inf for the ground, upper inf for no limit; NaN is taken so. With no distance the
    limits themselves are taken too, as airspace.vertical does. Parameters: (K,); thickness_ft (K,), of the row's block.
    """
    lower, upper = np.asarray(lower_ft, dtype=np.float64), np.asarray(upper_ft, dtype=np.float64)
    bottom = np.where(np.isnan(lower), -np.inf, lower) - within_ft - np.asarray(thickness_ft, dtype=np.float64)
    return _bands(row, bottom, np.where(np.isnan(upper), np.inf, upper) + within_ft, within_ft == 0.0, AIRSPACE, who)


def minimum_bands(row, minimum_ft) -> Bands:
    """The levels below minimum altitudes (K,)."""
    minimum = np.asarray(minimum_ft, dtype=np.float64)
    return _bands(row, np.full(minimum.shape, -np.inf), minimum, False, MINIMUM, np.full(minimum.shape, -1))


def joined(bands: list[Bands]) -> Bands:
    """Several sets of bands as one."""
    return Bands(*(np.concatenate(columns) for columns in zip(*bands)))


def lowest_levels(from_ft, bands: Bands, *, step_ft: float = 100.0, highest_ft: float = 60_000.0) -> np.ndarray:
    """The lowest level of each row that lies in none of its bands.

    Parameters: from_ft (N,), where to begin, NaN gives NaN; bands; step_ft > 0, levels are its whole multiples;
    highest_ft, where to end. Returns: feet (N,), NaN where there is none. Errors: ValueError for a step that is not
    positive. Derived here: upwards, each band that holds the level lifts it to the band's top.

    >>> bands = joined([minimum_bands([0], [2330.0]), airspace_bands([0], [3000.0], [4500.0], 500.0, [0.0], [7])])
    >>> lowest_levels([0.0], bands).tolist(), lowest_levels([2600.0], bands).tolist()
    ([2400.0], [5000.0])
    """
    if not step_ft > 0.0:
        raise ValueError(f"step_ft is {step_ft}; it must be more than 0")
    start = np.asarray(from_ft, dtype=np.float64)
    out = _up(start, step_ft)
    order = np.argsort(bands.row, kind="stable")
    begins = np.searchsorted(bands.row[order], np.arange(len(out) + 1))
    for i in range(len(out)):
        mine = order[begins[i] : begins[i + 1]]
        out[i] = _lowest(out[i], bands, mine, step_ft, highest_ft)
    return out


def usable(level_ft: float, bands: Bands, mine: np.ndarray) -> np.ndarray:
    """Which of some bands (indices) a level lies in none of: true where the band leaves it usable."""
    low, high = bands.from_ft[mine], bands.to_ft[mine]
    inside = (level_ft > low) & (level_ft < high)
    return ~(inside | (bands.closed[mine] & (level_ft >= low) & (level_ft <= high)))


def _lowest(level: float, bands: Bands, mine: np.ndarray, step_ft: float, highest_ft: float) -> float:
    while level <= highest_ft:
        held = mine[~usable(level, bands, mine)]
        if not len(held):
            return level
        top = bands.to_ft[held].max()
        if not np.isfinite(top):
            return np.nan
        higher = float(_up(np.array(top), step_ft))
        level = higher if higher > level else level + step_ft
    return np.nan


def _up(feet: np.ndarray, step_ft: float) -> np.ndarray:
    """Up to a whole multiple of the step; a hair above one is that one."""
    return step_ft * np.ceil(feet / step_ft - 1e-9)


def _bands(row, bottom, top, closed: bool, cause: str, who) -> Bands:
    row = np.asarray(row, dtype=np.int64)
    bottom, top, who = (np.broadcast_to(np.asarray(a), row.shape) for a in (bottom, top, who))
    known = ~(np.isnan(bottom) | np.isnan(top))
    n = int(known.sum())
    return Bands(row[known], bottom[known], top[known], np.full(n, closed), np.full(n, cause, dtype=object), who[known])
