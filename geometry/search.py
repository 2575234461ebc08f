"""Choosing among many places: the candidates, their score by margins, and the best that differ from each other."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Mapping
from typing import NamedTuple

import numpy as np

CHOSEN, NEAR, NOT_NEEDED, STOPPED = "chosen", "near_a_better_one", "not_needed", "stopped"
"""What may become of a candidate besides the test that it fails."""


class Margin(NamedTuple):
    """How a margin counts: its unit, where it is worth half of what it can be, and whether more of it is better."""

    unit: str
    half: float
    more: bool


MARGINS = {
    "terrain": Margin("ft", 1000.0, True),
    "airspace": Margin("NM", 5.0, True),
    "reception": Margin("", 0.25, True),
    "slip": Margin("NM", 2.0, False),
    "home": Margin("NM", 20.0, False),
}
"""Our own choice: each counts alike, and growing it counts the less, the larger it is."""


class Places(NamedTuple):
    """F places by radial and distance: navaid, index of it; radial_deg, whole degrees from 1 to 360; distance_nm."""

    navaid: np.ndarray
    radial_deg: np.ndarray
    distance_nm: np.ndarray


class Picks(NamedTuple):
    """chosen (K,), indices of candidates, the best first; fate (N,), object array of str: a constant of this file, or
    the test that the candidate fails."""

    chosen: np.ndarray
    fate: np.ndarray


def places(navaids: int, radial_step_deg: int, from_nm: float, to_nm: float, step_nm: float) -> Places:
    """Every navaid with every whole radial and distance of a step, navaid by navaid.

    Parameters: how many navaids; radial_step_deg, whole, 1 to 360; from_nm > 0, to_nm >= from_nm; step_nm > 0.
    Returns: Places. Errors: ValueError for what is outside these. Derived here.

    >>> places(2, 90, 10.0, 15.0, 5.0).radial_deg.tolist()[:4], len(places(20, 10, 5.0, 50.0, 5.0).navaid)
    ([90.0, 90.0, 180.0, 180.0], 7200)
    """
    if not (radial_step_deg == int(radial_step_deg) and 1 <= radial_step_deg <= 360):
        raise ValueError(f"radial_step_deg is {radial_step_deg}; it must be a whole number from 1 to 360")
    if not (0.0 < from_nm <= to_nm):
        raise ValueError(f"from_nm is {from_nm} and to_nm {to_nm}; from must be above 0, to not below it")
    if not step_nm > 0.0:
        raise ValueError(f"step_nm is {step_nm}; it must be more than 0")
    radial = np.arange(1, 360 // int(radial_step_deg) + 1) * float(radial_step_deg)
    distance = from_nm + step_nm * np.arange(int(np.floor((to_nm - from_nm) / step_nm + 1e-9)) + 1)
    who, angle, far = np.meshgrid(np.arange(navaids), radial, distance, indexing="ij")
    return Places(who.ravel(), angle.ravel(), far.ravel())


def share(name: str, margin) -> np.ndarray:
    """What a margin counts, 0 to 1: strictly better with more of it, or with less where less is better.

    Parameters: name, a key of MARGINS; margin of any shape, below 0 as 0, infinity allowed. Returns: its shape.

    >>> float(share("terrain", 1000.0)), float(share("home", 0.0)), float(share("terrain", np.inf))
    (0.5, 1.0, 1.0)
    """
    how = MARGINS[name]
    rest = how.half / (np.maximum(np.asarray(margin, dtype=np.float64), 0.0) + how.half)
    return 1.0 - rest if how.more else rest


def score(margins: Mapping[str, np.ndarray]) -> np.ndarray:
    """The mean of what margins count, 0 to 100: it grows with each of them. What was not tested is left out.

    Parameters: margins by the keys of MARGINS, (N,) each or broadcasting. Returns: (N,); NaN for a NaN.
    Errors: ValueError for none. Derived here.
    """
    if not margins:
        raise ValueError("margins is empty; it must hold one of " + ", ".join(MARGINS))
    return 100.0 * np.mean(np.broadcast_arrays(*(share(name, value) for name, value in margins.items())), axis=0)


def pick(
    most: np.ndarray, stages: int, look: Callable[[int, int], tuple[str, float]],
    apart_nm: Callable[[int], np.ndarray], *, spacing_nm: float, count: int,
    clashes: Callable[[int, int, bool], bool] | None = None,
    go_on: Callable[[int], bool] | None = None,
) -> Picks:  # fmt: skip
    """The best candidates that pass every test and lie a distance apart, testing no more of them than needed.

    As if all were tested and taken from the best down, each that is not too near one taken before; of equal scores
    the earlier. A candidate is looked at only while what it may score is the most of all that are left.
    Parameters: most (N,), what each can score, NaN for one that is out; stages >= 0, how many looks make a score sure;
    look(i, stage), the test that i fails, '' for none, and what it can score after that look, never more than before;
    apart_nm(i), how far the others lie from i (N,); spacing_nm >= 0, least distance of two chosen; count >= 0, how
    many are wanted; clashes(i, j, closely), whether i may not stand beside the chosen j, asked closely before i is
    taken; go_on(chosen), false to stop. Returns: Picks, fate '' where most is NaN. Derived here.
    """
    most = np.asarray(most, dtype=np.float64)
    fate = np.full(len(most), "", dtype=object)
    waiting = [(-most[i], int(i), 0) for i in np.flatnonzero(np.isfinite(most))]
    heapq.heapify(waiting)
    near = np.zeros(len(most), dtype=bool)
    chosen: list[int] = []
    asked: dict[int, int] = {}  # beside how many of those chosen each was looked at
    going = True
    while waiting and len(chosen) < count:
        going = go_on is None or go_on(len(chosen))
        if not going:
            break
        least, i, stage = heapq.heappop(waiting)
        if not near[i] and clashes is not None:
            begin = 0 if stage == stages else asked.get(i, 0)
            near[i] = any(clashes(i, j, stage == stages) for j in chosen[begin:])
            asked[i] = len(chosen)
        if near[i]:
            fate[i] = NEAR
        elif stage == stages:
            fate[i] = CHOSEN
            chosen.append(i)
            near |= apart_nm(i) < spacing_nm
        else:
            fate[i], better = look(i, stage)
            if not fate[i]:
                heapq.heappush(waiting, (-min(-least, better), i, stage + 1))
    for _, i, _ in waiting:
        fate[i] = STOPPED if not going else NEAR if near[i] else NOT_NEEDED
    return Picks(np.array(chosen, dtype=np.int64), fate)
