"""Highest holding speeds by ICAO for areas: by level, in turbulence, of slow categories and helicopters."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ..atmosphere import mach_to_cas_kt


class Speed(NamedTuple):
    """A holding speed up to a level, included: IAS or Mach number, the lesser where both are given."""

    up_to_ft: float
    ias_kt: float
    mach: float
    source: str
    mark: str


_TABLE = "ICAO Doc 8168 Vol II, 5th ed., Table II-4-1-2, as reproduced in AIPs (ENR 1.5) and AFMAN 11-217V1 (2005)"
_SEEN, _MEMORY = "published", "from memory"
_HELICOPTER = "ICAO Doc 8168 Vol II, Part II, Section 4, Chapter 1, helicopters"

SPEEDS = {
    "normal": (
        Speed(14_000.0, 230.0, np.nan, _TABLE, _SEEN),
        Speed(20_000.0, 240.0, np.nan, _TABLE, _SEEN),
        Speed(34_000.0, 265.0, np.nan, _TABLE, _SEEN),
        Speed(np.inf, np.nan, 0.83, _TABLE, _SEEN),
    ),
    "turbulence": (
        Speed(14_000.0, 280.0, np.nan, _TABLE, _SEEN),
        Speed(20_000.0, 280.0, 0.80, _TABLE, _SEEN),
        Speed(34_000.0, 280.0, 0.80, _TABLE, _SEEN),
        Speed(np.inf, np.nan, 0.83, _TABLE, _SEEN),
    ),
    "A/B": (Speed(14_000.0, 170.0, np.nan, _TABLE, _SEEN),),
    "H": (
        Speed(6_000.0, 100.0, np.nan, _HELICOPTER, _MEMORY),
        Speed(np.inf, 170.0, np.nan, _HELICOPTER, _MEMORY),
    ),
}
"""Above 14 000 ft a hold limited to categories A and B has the speed of all; so does turbulence for category H."""
CATEGORIES = ("", "A/B", "H")
SLOW_IAS_KT = 90.0
SLOW_SOURCE = "ICAO Doc 8168 Vol II, 5th ed., II-4-1-4, 1.3.3.1.2: the slow flight that areas must consider too"


def area_ias_kt(alt_ft, category: str = "", turbulence: bool = False) -> np.ndarray:
    """Fastest IAS that may hold at a level, which an area is made for.

    Parameters: alt_ft; category, one of CATEGORIES; turbulence: the higher speeds, which need a clearance unless the
    publication allows them. Returns: kt of the shape; a Mach number as the IAS that it is in the ISA at that level.
    Errors: ValueError for a category that is none. Source: SPEEDS.

    >>> area_ias_kt([14000.0, 14001.0]).tolist(), float(area_ias_kt(8000.0, "A/B", True))
    ([230.0, 240.0], 170.0)
    """
    if category not in CATEGORIES:
        raise ValueError(f"category is {category!r}; it must be one of {', '.join(map(repr, CATEGORIES))}")
    alt = np.asarray(alt_ft, dtype=np.float64)
    general = _at(SPEEDS["turbulence" if turbulence else "normal"], alt)
    return np.where(np.isnan(alt), np.nan, general if not category else np.fmin(_at(SPEEDS[category], alt), general))


def _at(rows: tuple[Speed, ...], alt: np.ndarray) -> np.ndarray:
    out = np.full(alt.shape, np.nan)
    for row in reversed(rows):
        mach = np.isfinite(row.mach)
        by_mach = mach_to_cas_kt(row.mach, alt) if mach else np.full(alt.shape, np.nan)
        out = np.where(alt <= row.up_to_ft, np.fmin(row.ias_kt, by_mach), out)
    return out
