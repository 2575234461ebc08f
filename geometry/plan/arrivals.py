"""Which of some lines arrive at which fixes, and on what course."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import geodesy
from ..angles import wrap180
from ..routes import Route

NM_PER_DEG = 59.7
"""Less than a degree of latitude is long anywhere on the ellipsoid: a window in degrees that is never too narrow."""


class Arrivals(NamedTuple):
    """Arrivals at fixes, A in all, fix by fix: owner, the fix; line, the line; true course at its end there; how far
    that end lies from the fix."""

    owner: np.ndarray
    line: np.ndarray
    course_true_deg: np.ndarray
    apart_nm: np.ndarray


def find_arrivals(lines: list[Route], lon, lat, within_nm: float) -> Arrivals:
    """The lines that arrive at fixes.

    A line arrives where one of its segments ends near the fix: the one that ends nearest to it, the last of them
    where several do. Its course is the segment's at that end, in the direction in which the line is drawn.
    Parameters: lines, M; lon, lat (N,), NaN for a fix without a place; within_nm > 0. Returns: Arrivals.
    """
    lon, lat = np.atleast_1d(np.asarray(lon, float)), np.atleast_1d(np.asarray(lat, float))
    empty = np.zeros(0)
    line = np.repeat(np.arange(len(lines)), [len(one.leg_nm) for one in lines])
    end_lon = np.concatenate([empty, *[one.lon[1:] for one in lines]])
    end_lat = np.concatenate([empty, *[one.lat[1:] for one in lines]])
    course = np.concatenate([empty, *[one.course_end_deg for one in lines]])
    order = np.argsort(end_lat, kind="stable")
    window = within_nm / NM_PER_DEG
    low = np.searchsorted(end_lat[order], lat - window, side="left")
    high = np.searchsorted(end_lat[order], lat + window, side="right")
    size = np.where(np.isfinite(lon + lat), high - low, 0)
    owner = np.repeat(np.arange(len(lon)), size)
    end = order[np.arange(size.sum()) - np.repeat(np.cumsum(size) - size - low, size)]
    widest = window / np.maximum(np.cos(np.radians(np.minimum(np.abs(lat) + window, 89.9))), 1e-3)
    near = np.abs(wrap180(end_lon[end] - lon[owner])) <= widest[owner]
    owner, end = owner[near], end[near]
    apart = geodesy.inverse(end_lon[end], end_lat[end], lon[owner], lat[owner])[2]
    owner, end, apart = (a[apart <= within_nm] for a in (owner, end, apart))
    # Nearest first of each fix and line; of equals, to a micrometre, the last.
    order = np.lexsort((-end, np.round(apart, 9), line[end], owner))
    owner, end, apart = owner[order], end[order], apart[order]
    first = np.ones(len(owner), dtype=bool)
    first[1:] = (owner[1:] != owner[:-1]) | (line[end][1:] != line[end][:-1])
    return Arrivals(owner[first], line[end[first]], course[end[first]], apart[first])
