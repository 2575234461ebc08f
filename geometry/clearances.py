"""Obstacle clearance in a holding area and in the rings around it, by distance from the area, and what it asks for.

A ring reaches from the one before it to its outer edge; the edge belongs to it, as the inner and higher one.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from .units import FT_M

EDGE_NM = 1e-7
"""A distance within 0.2 mm of an edge lies on it: rounding must not take clearance away."""
STEP_FT, STEP_M = 100.0, 50.0
"""Minimum altitudes are rounded up to these; the feet by the FAA-H-8261-1, chapter 3, the metres common practice."""
_WHOLE = 1e-9
"""Steps by which a required altitude may exceed a whole one and still count as it."""

FACTORS = (1.0, 2.0)
FACTORS_SOURCE = (
    "ICAO Doc 8168 Vol II, Part II, Section 4, Chapter 1, Appendix B: over high terrain or mountains up to 600 m "
    "(1 969 ft) in place of 300 m; from memory, how it falls in the buffer derived here"
)


class Ring(NamedTuple):
    """A ring: part, how far it reaches outside the holding area in NM, clearance at its inner and at its outer edge.

    In feet, and in metres where the document has a value of its own; NaN where it has none.
    """

    part: str
    to_nm: float
    inner_ft: float
    outer_ft: float
    inner_m: float
    outer_m: float
    source: str
    mark: str

    def edges_ft(self, factor: float = 1.0, metres: bool = False) -> tuple[float, float]:
        """Clearance at the inner and at the outer edge, feet: as printed; by metres, those turned into feet.

        Times a factor the metres count too, to whole feet: twice 300 m is 1 969 ft, which twice 984 ft is not.

        >>> ICAO[0].edges_ft(2.0)
        (1969.0, 1969.0)
        """
        if math.isnan(self.inner_m):
            return self.inner_ft * factor, self.outer_ft * factor
        inner, outer = self.inner_m * factor / FT_M, self.outer_m * factor / FT_M
        if metres:
            return inner, outer
        if factor == 1.0:
            return self.inner_ft, self.outer_ft
        return float(math.floor(inner + 0.5)), float(math.floor(outer + 0.5))


_NONE = float("nan")
_HOLDING = "ICAO Doc 8168 Vol II, 5th ed. 2006, Part II, Section 4, Chapter 1 (obstacle clearance in the buffer area)"
_HANDBOOK = "FAA-H-8261-1 Instrument Procedures Handbook, chapter 3; FAA Order 8260.3 (holding)"
_SEEN, _MEMORY = "published", "from memory"

ICAO = (
    Ring("inside", 0.0, 984.0, 984.0, 300.0, 300.0, _HOLDING, _SEEN),
    Ring("buffer_1", 1.0, 984.0, 984.0, 300.0, 300.0, _HOLDING, _SEEN),
    Ring("buffer_2", 2.0, 492.0, 492.0, 150.0, 150.0, _HOLDING, _MEMORY),
    Ring("buffer_3", 3.0, 394.0, 394.0, 120.0, 120.0, _HOLDING, _MEMORY),
    Ring("buffer_4", 4.0, 294.0, 294.0, 90.0, 90.0, _HOLDING, _MEMORY),
    Ring("buffer_5", 5.0, 197.0, 197.0, 60.0, 60.0, _HOLDING, _SEEN),
)
"""Low flat terrain, by steps; 90 m is 295 ft, the document prints 294 (from memory). What is marked published is as
quoted in licence examination texts."""

ICAO_HELICOPTER = (
    Ring("inside", 0.0, 984.0, 984.0, 300.0, 300.0, _HOLDING, _SEEN),
    Ring("buffer", 2.0, 984.0, 0.0, 300.0, 0.0, _HOLDING, _MEMORY),
)

FAA = (
    Ring("primary", 0.0, 1000.0, 1000.0, _NONE, _NONE, _HANDBOOK, _SEEN),
    Ring("secondary", 2.0, 500.0, 0.0, _NONE, _NONE, _HANDBOOK, _SEEN),
)
FAA_MOUNTAINOUS = Ring(
    "primary", 0.0, 2000.0, 2000.0, _NONE, _NONE, "FAA Order 8260.3 (holding in mountainous areas)", _MEMORY
)


class Clearances(NamedTuple):
    """Rings from the holding area outwards: parts, outer edges in NM, feet at inner and outer edges; source."""

    parts: tuple[str, ...]
    to_nm: np.ndarray
    inner_ft: np.ndarray
    outer_ft: np.ndarray
    source: str

    @property
    def reach_nm(self) -> float:
        """How far outside the holding area anything is asked for."""
        return float(self.to_nm[-1])


def icao(*, factor: float = 1.0, helicopter: bool = False, buffer: bool = True, metres: bool = False) -> Clearances:
    """Clearances about a basic area with its entries.

    Parameters: factor, 1 to 2, for high terrain; helicopter, the buffer of category H; buffer, false for the area
    alone; metres, the document's values in metres rather than those it prints in feet.
    Errors: ValueError for a factor outside its range. Source: the tables ICAO and ICAO_HELICOPTER.
    """
    if not FACTORS[0] <= factor <= FACTORS[1]:
        raise ValueError(f"factor is {factor}; it must be from {FACTORS[0]:g} to {FACTORS[1]:g}")
    return _of(ICAO_HELICOPTER if helicopter else ICAO, buffer, metres, factor)


def faa(
    *, mountainous: bool = False, secondary_nm: float = 2.0, buffer: bool = True, primary_ft: float = _NONE,
    secondary_ft: float = _NONE,
) -> Clearances:  # fmt: skip
    """Clearances about a primary area: 500 (1 - D / width) in the secondary.

    Parameters: mountainous, the primary's higher value at least; secondary_nm, width of the secondary; buffer, false
    for the primary alone; primary_ft, and secondary_ft at the inner edge, where an area has its own, NaN for the
    tables'. Errors: ValueError for a width that is not positive. Source: the tables FAA and FAA_MOUNTAINOUS.
    """
    if not (np.isfinite(secondary_nm) and secondary_nm > 0.0):
        raise ValueError(f"secondary_nm is {secondary_nm}; it must be a positive number of NM")
    inner, outer = FAA
    if np.isfinite(primary_ft):
        inner = inner._replace(inner_ft=float(primary_ft), outer_ft=float(primary_ft))
    if mountainous and inner.inner_ft < FAA_MOUNTAINOUS.inner_ft:
        inner = FAA_MOUNTAINOUS
    if np.isfinite(secondary_ft):
        outer = outer._replace(inner_ft=float(secondary_ft))
    return _of((inner, outer._replace(to_nm=float(secondary_nm))), buffer, False, 1.0)


def _of(rings: tuple[Ring, ...], buffer: bool, metres: bool, factor: float) -> Clearances:
    rings = rings if buffer else rings[:1]
    inner, outer = (np.array(side, dtype=np.float64) for side in zip(*[r.edges_ft(factor, metres) for r in rings]))
    sources = [f"{r.source}{', in part from memory' if r.mark == _MEMORY else ''}" for r in rings]
    source = next((s for s in sources if s.endswith("memory")), sources[0])
    return Clearances(tuple(r.part for r in rings), np.array([r.to_nm for r in rings]), inner, outer, source)


def ring(clearances: Clearances, distance_nm) -> np.ndarray:
    """The ring at distances from the holding area, as an index into parts; -1 beyond the last, and for NaN.

    Parameters: distance_nm of any shape, 0 inside. Returns: int64 of that shape.
    """
    distance = np.asarray(distance_nm, dtype=np.float64)
    found = np.searchsorted(clearances.to_nm + EDGE_NM, distance, side="left")
    return np.where(found < len(clearances.parts), found, -1)  # NaN sorts last


def moc_ft(clearances: Clearances, distance_nm) -> np.ndarray:
    """Obstacle clearance at distances from the holding area, feet; NaN beyond the last ring.

    Parameters: distance_nm of any shape, 0 inside. Returns: feet of that shape; it never grows with the distance.

    >>> float(moc_ft(icao(), 1.0)), float(moc_ft(icao(), 1.001)), float(moc_ft(faa(), 0.5))
    (984.0, 492.0, 375.0)
    """
    distance = np.asarray(distance_nm, dtype=np.float64)
    where = ring(clearances, distance)
    to = clearances.to_nm[where]
    before = np.concatenate([[0.0], clearances.to_nm[:-1]])[where]
    inner, outer = clearances.inner_ft[where], clearances.outer_ft[where]
    wide = to - before
    with np.errstate(invalid="ignore"):
        share = np.clip((distance - before) / np.where(wide > 0.0, wide, 1.0), 0.0, 1.0)
    return np.where(where >= 0, inner + (outer - inner) * share, np.nan)


def minimum_ft(required_ft) -> np.ndarray:
    """Required altitudes rounded up to 100 ft: 100 ceil(required / 100 - 1e-9). NaN stays.

    >>> float(minimum_ft(2162.0)), float(minimum_ft(2100.0))
    (2200.0, 2100.0)
    """
    return STEP_FT * np.ceil(np.asarray(required_ft, dtype=np.float64) / STEP_FT - _WHOLE)


def minimum_m(required_ft) -> np.ndarray:
    """Required altitudes in feet rounded up to 50 m, in metres. NaN stays.

    >>> float(minimum_m(1000.0 / 0.3048)), float(minimum_m(1000.1 / 0.3048))
    (1000.0, 1050.0)
    """
    return STEP_M * np.ceil(np.asarray(required_ft, dtype=np.float64) * FT_M / STEP_M - _WHOLE)
