"""The envelope as a construction: its parts, sheet and drawing, for the speeds and winds of ICAO Doc 8168."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import convex
from . import icao, parts, rings
from .areas import Area, Construction, Designs, Drawn, LineValue, Options
from .envelope import GAP_SHARE, STRONGEST_WIND, Envelope, hold_envelopes, too_strong
from .envelope_states import PAST_THE_COURSE_DEG, TOLERANCES
from .placing import CHORD_SHARE
from .shapes import Reach, Touch

DERIVED = "derived here, see DEVELOPERS.md; no document defines the envelope"
NOTE = "the envelope is derived by us; no document defines it"
SHARES = parts.Shares(lines=0.35, join=0.08, outside=0.13)
GAP_FOR = (1.0 - CHORD_SHARE - SHARES.lines - 2.0 * SHARES.join - SHARES.outside) / GAP_SHARE
"""Share of the tolerance that envelopes are found for: GAP_SHARE of it may be missing, which is what is left."""


def refusals(designs: Designs, options: Options) -> np.ndarray:
    """Where no speed is known or the wind is too strong for it: object array (N,), '' elsewhere."""
    sheet = icao.figures(designs, options).values
    tas, wind = sheet["V"], sheet["w"]
    why = np.full(len(tas), "", dtype=object)
    for i in np.flatnonzero(too_strong(tas, wind)):
        if np.isfinite(tas[i] + wind[i]):
            limit = f"{STRONGEST_WIND:g} of the true airspeed of {tas[i]:.0f} kt"
            why[i] = f"the wind of {wind[i]:.0f} kt is more than {limit}, so that no envelope is made"
        else:
            why[i] = f"no true airspeed for {designs.ias_kt[i]:g} kt at {designs.alt_ft[i]:g} ft by {options.tas}"
    return why


def areas(designs: Designs, options: Options) -> list[Area]:
    """Basic area (the envelope of the circuits), what the entries add, and the buffers, of N holds.

    Source: envelope.hold_envelopes; parts.build for the buffers and their clearances.
    """
    if not len(designs.alt_ft):
        return []
    sheet, found = _envelopes(designs, options)
    tas, wind = sheet["V"], sheet["w"]
    basic = support_polygons([circuit for circuit, _ in found])
    whole = support_polygons([both for _, both in found])
    made = parts.build(len(found), basic, None if options.entries == "none" else whole, options, SHARES)
    limits = "; ".join([NOTE, *parts.notes(options)])
    out = []
    for i, own in enumerate(made):
        figures = float(designs.alt_ft[i]), float(tas[i]), float(wind[i])
        out += [Area(i, part.name, part.polygons_nm, part.moc_ft, *figures, limits) for part in own]
    return out


class _Polygons(NamedTuple):
    """Polygons of support lines: corners u, s (T,), each between a direction alpha (T,) and the next; where those of
    each polygon begin, starts (N + 1,)."""

    u: np.ndarray
    s: np.ndarray
    alpha: np.ndarray
    starts: np.ndarray


def support_polygons(envelopes: list[Envelope]) -> Reach:
    """The polygons cut out by all support lines of N envelopes, by how far they reach.

    Between two neighbouring directions the corner of their lines is what reaches farthest.
    """
    u, s, alpha, starts = _polygons(envelopes)
    keys = np.repeat(np.arange(len(envelopes)), np.diff(starts)) * 8.0 + alpha

    def reach(rows, ways):
        at = np.searchsorted(keys, rows * 8.0 + np.mod(ways.alpha_rad, 2.0 * np.pi), side="right") - 1
        at = np.where(at < starts[rows], starts[rows + 1] - 1, at)
        return Touch(u[at] * ways.cos + s[at] * ways.sin, u[at], s[at])

    return reach


def _polygons(envelopes: list[Envelope]) -> _Polygons:
    """Corners of the polygons of all support lines.

    A line that the crossing of its neighbours does not reach cuts nothing off; between near ones a hair too much in
    its height would make a long spike. Such lines are left out, every other one at a time, until none is left.
    """
    row = np.repeat(np.arange(len(envelopes)), [len(envelope.alpha) for envelope in envelopes])
    alpha = np.concatenate([envelope.alpha for envelope in envelopes])
    height = np.concatenate([envelope.reach for envelope in envelopes])
    while True:
        starts = np.searchsorted(row, np.arange(len(envelopes) + 1))
        after = np.arange(1, len(row) + 1)
        after[starts[1:] - 1] = starts[:-1]
        before = np.empty_like(after)
        before[after] = np.arange(len(row))
        ahead = np.mod(alpha[after] - alpha, 2.0 * np.pi)
        u, s = rings.crossings(alpha[before], height[before], alpha[before] + ahead[before] + ahead, height[after])
        idle = u * np.cos(alpha) + s * np.sin(alpha) <= height
        odd = (np.arange(len(row)) - starts[row]) % 2 == 1
        idle &= odd | ~(idle[before] | idle[after])
        if not idle.any():
            break
        row, alpha, height = row[~idle], alpha[~idle], height[~idle]
    u, s = rings.crossings(alpha, height, alpha + ahead, height[after])
    return _Polygons(u, s, alpha, starts)


def _envelopes(designs: Designs, options: Options):
    """Speeds, winds and times as the template's lines; and the envelopes of circuits and of all flights."""
    made = icao.figures(designs, options)
    sheet, count = made.values, len(designs.alt_ft)
    arrivals = {"none": [np.zeros(0)] * count, "all": [None] * count}.get(options.entries, designs.arrivals_deg)
    found = hold_envelopes(
        sheet["V"],
        sheet["R"],
        sheet["w"],
        sheet["t"],
        GAP_FOR * options.tolerance_m,
        tolerance_areas_nm=made.tolerance_areas_nm,
        arrivals_deg=arrivals,
    )
    return sheet, found


SIDES = (
    ("ahead of the fix", 0.0),
    ("to the holding side", 90.0),
    ("behind the fix", 180.0),
    ("to the other side", 270.0),
)


def values(designs: Designs, options: Options) -> list[LineValue]:
    """Speeds, times and tolerances of the flights, and how far the envelope reaches on each side of the fix."""
    if not len(designs.alt_ft):
        return []
    sheet, found = _envelopes(designs, options)
    own = icao.sheet_lines(sheet, designs, options)
    out = []
    for i, pair in enumerate(found):
        by_name = {line.name: line for line in (icao.speed_line(designs, options, i), *own[i])}
        given = {"IAS": sheet["V"][i] / sheet["K"][i], **{name: sheet[name][i] for name in ("V", "R", "r", "w", "t")}}
        rows = []
        for name, value in given.items():
            line = by_name[name]
            rows.append((name, line.formula, float(value), line.unit, line.source, line.mark))
        for one in TOLERANCES:
            for end, value in (("least", one.least), ("greatest", one.greatest)):
                rows.append((f"{one.name}, {end}", "", value, one.unit, one.source, one.mark))
        past = "the second turn of a parallel entry goes on past the inbound course"
        rows.append((past, "", PAST_THE_COURSE_DEG, "deg", DERIVED, "derived"))
        for whose, envelope in zip(("circuit", "circuit and entries"), pair):
            for side, angle in SIDES:
                reach = float(np.interp(np.radians(angle), envelope.alpha, envelope.reach, period=2.0 * np.pi))
                rows.append((f"reach {side}, {whose}", "greatest reach of a flight", reach, "NM", DERIVED, "derived"))
        out += [LineValue(i, str(number), *row) for number, row in enumerate(rows, start=1)]
    return out


def drawing(designs: Designs, options: Options) -> list[Drawn]:
    """The fix tolerance area and the envelopes of the circuits and of all flights."""
    if not len(designs.alt_ft):
        return []
    out = []
    for i, pair in enumerate(_envelopes(designs, options)[1]):
        out.append(Drawn(i, "point", "a", np.zeros((1, 2)), np.nan, "the fix"))
        corners = convex.hull(designs.tolerance_areas_nm[i])
        if len(corners) > 2:
            out.append(Drawn(i, "outline", "A", _closed(corners), np.nan, "where the fix may be crossed"))
        for letter, envelope, text in zip("CE", pair, ("envelope of the circuits", "envelope of circuits and entries")):
            ring = _polygons([envelope])
            out.append(Drawn(i, "outline", letter, _closed(np.stack(ring[:2], axis=1)), np.nan, text))
    return out


def _closed(ring: np.ndarray) -> np.ndarray:
    return np.concatenate([ring, ring[:1]])


CONSTRUCTION = Construction("envelope", refusals, areas, values, drawing)
