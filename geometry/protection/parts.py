"""The parts of protected areas: basic, what entries add, and the rings of the buffer with their clearances."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import clearances
from ..units import NM_M
from . import rings, shapes
from .areas import LineValue, Options

BASIC, ENTRY = "basic", "entry"


INSIDE, *_OUTSIDE = clearances.ICAO
BUFFER = tuple(_OUTSIDE)
_H = clearances.ICAO_HELICOPTER[-1]
BUFFER_H = (
    _H._replace(part="buffer_1", to_nm=_H.to_nm / 2.0, outer_ft=_H.inner_ft / 2.0, outer_m=_H.inner_m / 2.0),
    _H._replace(part="buffer_2", inner_ft=_H.inner_ft / 2.0, inner_m=_H.inner_m / 2.0),
)
"""The clearance of category H falls evenly; each ring has that of its inner edge, the greatest in it (derived here)."""


class Part(NamedTuple):
    """One part of one hold: its name, polygons as Area holds them, clearance."""

    name: str
    polygons_nm: tuple[tuple[np.ndarray, ...], ...]
    moc_ft: float


def buffer_rings(options: Options) -> tuple[clearances.Ring, ...]:
    """The rings of the buffer that the options ask for."""
    return BUFFER_H if options.category_h else BUFFER


def moc_ft(ring: clearances.Ring, options: Options) -> float:
    """Clearance of a ring, that of its inner edge. Errors: ValueError for a factor outside 1 to 2.

    >>> moc_ft(INSIDE, Options()), moc_ft(INSIDE, Options(moc_factor=2.0))
    (984.0, 1969.0)
    """
    least, most = clearances.FACTORS
    if not least <= options.moc_factor <= most:
        raise ValueError(f"moc_factor is {options.moc_factor}; it must be from {least:g} to {most:g}")
    return ring.edges_ft(options.moc_factor, options.moc_metres)[0]


def notes(options: Options) -> list[str]:
    """Sentences on the buffer for `limits`."""
    out = ["buffer clearances between its first and last ring are from memory of ICAO Doc 8168 Vol II, II-4-1"]
    if options.category_h:
        out = ["buffer of category H from memory of ICAO Doc 8168 Vol II, II-4-1; each ring has its inner edge's value"]
    if options.moc_factor > 1.0:
        out.append(f"clearances times {options.moc_factor:g} for high terrain ({clearances.FACTORS_SOURCE})")
    return out


def clearance_values(row: int, options: Options) -> list[LineValue]:
    """The clearances of one hold as lines of its sheet, each with what was done to the document's value."""
    named = [("clearance inside", INSIDE)]
    named += [(f"clearance to {ring.to_nm:g} NM outside", ring) for ring in buffer_rings(options)]
    formula = "even fall, at the inner edge" if options.category_h else "by steps"
    if options.moc_metres:
        formula += ", metres turned into feet"
    out = []
    for n, (name, ring) in enumerate(named):
        source, mark = ring.source, ring.mark
        if options.moc_factor > 1.0:
            name, source, mark = f"{name}, times {options.moc_factor:g}", clearances.FACTORS_SOURCE, "from memory"
        out.append(LineValue(row, f"M{n}", name, formula, moc_ft(ring, options), "ft", source, mark))
    return out


LINES_SHARE, JOIN_SHARE, OUTSIDE_SHARE = 0.42, 0.08, 0.25


class Shares(NamedTuple):
    """How a tolerance is shared: what the support lines may exceed; join, below what an inner edge is put on the outer
    one, and again a line left out whose neighbour has nearly its direction; outside, what is added all round for the
    chords on the earth, at least placing.CHORD_SHARE. With that share, lines, twice join and outside make at most 1.
    """

    lines: float
    join: float
    outside: float


ROOMY = Shares(LINES_SHARE, JOIN_SHARE, OUTSIDE_SHARE)
CLOSE = Shares(lines=0.72, join=0.08, outside=0.06)
"""With a quarter all round; and with as much as may be for the lines, which gives the fewest corners."""
TWINS_DEG = 0.1


def build(
    count: int, basic: shapes.Reach, whole: shapes.Reach | None, options: Options, shares: Shares = ROOMY
) -> list[list[Part]]:
    """Parts of N holds: basic area, entry (what the whole has more), and the buffer's rings round the whole.

    The whole must hold the basic area; None: there are no entries. Each polygon contains its true area and, once
    placed, exceeds it by no more than the tolerance, which is shared as shares say. The rings are offsets, ring k
    without ring k - 1. All parts of a hold meet vertex to vertex.
    Returns: N lists of Parts. Errors: ValueError for a tolerance that is not positive or a moc_factor outside 1 to 2.
    Source: ICAO Doc 8168 Vol II, Part II, Section 4, Chapter 1 (holding area and buffer area).
    """
    if not (np.isfinite(options.tolerance_m) and options.tolerance_m > 0.0):
        raise ValueError(f"tolerance_m is {options.tolerance_m}; it must be a positive number of metres")
    tolerance = options.tolerance_m / NM_M
    buffer, outside, hair = buffer_rings(options), shares.outside * tolerance, shares.join * tolerance
    moc = [moc_ft(ring, options) for ring in (INSIDE, *buffer)]
    full = basic if whole is None else whole
    far = rings.support_lines(full, count, shares.lines * tolerance, buffer[-1].to_nm)
    widths = [far.height + outside + ring.to_nm for ring in buffer]
    outer = [rings.split(far, at) for at in rings.corners(far, *widths)]
    near = rings.support_lines(basic, count, shares.lines * tolerance, start=far)
    if whole is None:
        made = [(ring, ring, ()) for ring in rings.split(near, *rings.corners(near, near.height + outside))]
    else:
        made = _inner_and_outer(near, far, whole, outside, hair)
    out = []
    for i, (inner, edge, more) in enumerate(made):
        parts = [Part(BASIC, ((inner,),), moc[0])]
        if more:
            parts.append(Part(ENTRY, more, moc[0]))
        hole = edge
        for k, ring in enumerate(outer):
            parts.append(Part(f"buffer_{k + 1}", ((ring[i], hole[::-1]),), moc[k + 1]))
            hole = ring[i]
        out.append(parts)
    return out


def _inner_and_outer(near: rings.Lines, far: rings.Lines, whole: shapes.Reach, outside: float, hair: float) -> list:
    """Basic ring, ring round the whole, and the polygons between them, of each hold."""
    around = np.empty_like(near.height)
    around[~near.new] = far.height
    around[near.new] = whole(near.row[near.new], near.ways.take(near.new)).height
    around = np.fmax(around, near.height)
    keep = rings.without_twins(near, [near.height, around], TWINS_DEG, hair)
    near, around = rings.kept(near, keep), around[keep] + outside
    height = rings.joined(near, near.height + outside, around, hair)
    inner, edge = rings.corners(near, height, around)
    shared = height == around
    rows = zip(rings.split(near, inner), rings.split(near, edge), rings.woven(near, inner, edge, shared), near.offsets)
    made = []
    for basic, edge_ring, ring, first in rows:
        same = shared[first : first + len(basic)]
        if same.all():
            made.append((basic, basic, ()))
        else:
            made.append((basic, ring, rings.between(basic, edge_ring if same.any() else ring, same)))
    return made
