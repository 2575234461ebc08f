"""Protected areas of the rows of a holds layer: from holds to a construction's frame, and back to the earth."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import geodesy, holds, navaids, polygons, reasons
from ..angles import wrap180
from ..holds import Holds
from ..protection.areas import Area, Construction, Designs, Options
from ..protection.constructions import CONSTRUCTIONS
from ..protection.icao_lines import template_tas_kt
from ..protection.placing import place_areas
from .drawing import drawn_paths, value_rows
from .holding import HoldRows
from .layer import Paths, Shapes
from .levels import Levels

ILLUSTRATION = "the area of ICAO Doc 8168 shown for illustration; it is not the area of FAA Order 8260.3"
DISTANCE_LEG = "the time outbound is that of the distance leg at the area's speed, at least the standard time"
POINT_FIX = np.zeros((1, 2))
AT_A_POINT = "over the fix as a point: what its tolerance adds is not in this area"
USERS_OWN = ("outline",)
"""Constructions whose figures are the user's: nothing is said of the rules or times of others."""
STRAIGHT_NM = 1e-9
"""A vertex nearer to the line between its neighbours, 2 micrometres, lies on it."""
SLIVER_NM2 = 1e-8
"""What is smaller, 0.03 square metres, is no part of an area, but what is left where two edges nearly meet."""
OUTWARD = ("basic", "primary", "entry", "secondary", "buffer_1", "buffer_2", "buffer_3", "buffer_4", "buffer_5")
"""Parts from the inside outward."""


class Protected(NamedTuple):
    """Areas of the rows of a holds layer: areas, a Shapes; values, columns of the line values; lines, a Paths;
    reasons (N,), object array of str: why a row has none."""

    areas: Shapes
    values: dict[str, np.ndarray]
    lines: Paths
    reasons: np.ndarray


class _Asked(NamedTuple):
    """What is built, K in all, the levels of each hold together and upward: index, the row; designs."""

    index: np.ndarray
    designs: Designs


def protect(
    rows: HoldRows,
    construction: str = "template",
    options: Options | None = None,
    *,
    tolerance_areas=None,
    arrivals=None,
    levels: Levels | None = None,
    explained: bool = False,
) -> Protected:
    """Protected areas of the good holds by a construction.

    Each area is made for the hold's area speed and its highest level, or for each of some levels, and then for their
    union too. Parameters: construction, a key of constructions.CONSTRUCTIONS; options; tolerance_areas, a fix tolerance
    area a row as lon, lat (V, 2), or None for a point, N in all, or None for points everywhere; arrivals, N arrays of
    true headings at the fix, or None where options.entries does not ask for them; levels; explained: whether line
    values and construction lines are made. Returns: Protected; a row that the construction refuses has a reason.
    Errors: ValueError for a construction that there is not.
    """
    if construction not in CONSTRUCTIONS:
        raise ValueError(f"construction is {construction!r}; it must be one of {', '.join(CONSTRUCTIONS)}")
    built, options = CONSTRUCTIONS[construction], options or Options()
    asked = _asked(rows, tolerance_areas, arrivals, levels)
    why, asked = _refused(rows, built, asked, options)
    made = rows.holds.take(asked.index)
    parts = built.areas(asked.designs, options)
    notes = _notes(made, asked, construction, options)
    parts = [part._replace(limits=_joined(notes[part.row], part.limits)) for part in parts]
    keys = rows.columns["hold"][asked.index]
    sheet = built.values(asked.designs, options) if explained else []
    values = value_rows(asked.designs.alt_ft, keys, construction, sheet)
    drawn = built.drawing(asked.designs, options) if explained else []
    lines = drawn_paths(made, asked.designs.alt_ft, keys, construction, drawn, options.tolerance_m)
    levels_of = [f"{alt:.0f}" for alt in asked.designs.alt_ft.tolist()]
    if levels is not None:
        parts, levels_of, index = _with_unions(parts, levels_of, asked.index)
        made, keys = rows.holds.take(index), rows.columns["hold"][index]
    placed = place_areas(made.lon, made.lat, made.inbound_true_deg, made.side, parts, options.tolerance_m)
    columns = _columns(keys, construction, parts, levels_of, placed.sizes_nm2)
    areas = Shapes(columns, placed.coords, placed.rings, placed.polygons, placed.parts)
    return Protected(areas, values, lines, why)


def area_rows(rows: HoldRows, tolerance_areas=None, tolerance_m: float = 5.0) -> Shapes:
    """Areas of the good holds by the template, with what arrivals from everywhere add and the buffers."""
    return protect(rows, options=Options(tolerance_m), tolerance_areas=tolerance_areas).areas


def _asked(rows: HoldRows, tolerance_areas, arrivals, levels: Levels | None) -> _Asked:
    good = np.flatnonzero(rows.good)
    made = rows.holds.take(good)
    top = np.maximum(made.alt_ft, made.alt_to_ft)
    if levels is None:
        owner, alt = np.arange(len(good)), top
    else:
        each = [levels.of(low, high) for low, high in zip(made.alt_ft.tolist(), top.tolist())]
        owner = np.repeat(np.arange(len(good)), [len(one) for one in each])
        alt = np.concatenate([*each, np.zeros(0)])
    frames = [_in_frame(made, k, None if tolerance_areas is None else tolerance_areas[i]) for k, i in enumerate(good)]
    turned = [None if arrivals is None else _turned(made, k, arrivals[i]) for k, i in enumerate(good)]
    station_u, away = _station(rows, good, made)
    distance = made.leg_kind == holds.DISTANCE
    elev = np.asarray(rows.columns.get("navaid_elev_ft", np.full(len(rows.good), np.nan)))[good]
    designs = Designs(
        ias_kt=made.area_ias_kt[owner],
        alt_ft=alt,
        outbound_min=outbound_min(made.take(owner), alt),
        leg_nm=np.where(distance, made.straight_nm, np.nan)[owner],
        station_u_nm=station_u[owner],
        station_elev_ft=np.where(np.isfinite(station_u), elev, np.nan)[owner],
        tolerance_areas_nm=[frames[k] for k in owner],
        arrivals_deg=[turned[k] for k in owner],
        navaid_nm=away[owner],
    )
    return _Asked(good[owner], designs)


def outbound_min(made: Holds, alt_ft: np.ndarray) -> np.ndarray:
    """Minutes outbound for which an area at a level is made: a timed leg its own, above the hold's lowest level at
    least the standard time there; a distance leg the time that it takes at the area's speed, at least the standard
    time. Parameters: made, N holds; alt_ft (N,). Returns: (N,)."""
    standard = holds.standard_leg_min(alt_ft, made.rules)
    by_distance = np.fmax(made.straight_nm / template_tas_kt(made.area_ias_kt, alt_ft) * 60.0, standard)
    by_time = np.where(alt_ft > made.alt_ft, np.fmax(made.leg_min, standard), made.leg_min)
    return np.where(made.leg_kind == holds.DISTANCE, by_distance, by_time)


def _station(rows: HoldRows, good: np.ndarray, made: Holds) -> tuple[np.ndarray, np.ndarray]:
    """How far ahead of the fix the DME lies that ends the leg, NaN where none does; and how far away the navaid is."""
    nothing = np.full(len(rows.good), np.nan)
    lon, lat = (np.asarray(rows.columns.get(name, nothing))[good] for name in ("navaid_lon", "navaid_lat"))
    u, s = geodesy.to_frame(made.lon, made.lat, made.inbound_true_deg, made.side, lon, lat)
    away = np.hypot(u, s)
    kinds = np.asarray(rows.columns.get("navaid_kind", np.full(len(nothing), "", dtype=object)))[good]
    by_dme = (made.leg_kind == holds.DISTANCE) & (made.leg_end == holds.DME_END) & navaids.gives_range(kinds)
    return np.where(by_dme, np.copysign(away, u), np.nan), away


def _turned(made: Holds, k: int, headings) -> np.ndarray:
    """True headings as headings in the frame: less the inbound course, for right turns."""
    return wrap180(made.side[k] * (np.asarray(headings, dtype=np.float64) - made.inbound_true_deg[k]))


def _in_frame(made: Holds, k: int, ring) -> np.ndarray:
    if ring is None:
        return POINT_FIX
    ring = np.asarray(ring, dtype=np.float64)
    u, s = geodesy.to_frame(made.lon[k], made.lat[k], made.inbound_true_deg[k], made.side[k], ring[:, 0], ring[:, 1])
    return np.stack([u, s], axis=1)


def _refused(rows: HoldRows, built: Construction, asked: _Asked, options: Options) -> tuple[np.ndarray, _Asked]:
    """Reasons of all rows, and what is left to build; a hold is refused as a whole where one of its levels is."""
    why = rows.reasons.copy()
    said = built.refusals(asked.designs, options)
    many = np.bincount(asked.index, minlength=len(why)) > 1
    for i in np.flatnonzero(said != "")[::-1]:  # the lowest level of a hold speaks
        row = asked.index[i]
        why[row] = f"at {asked.designs.alt_ft[i]:.0f} ft: {said[i]}" if many[row] else said[i]
    kept = np.flatnonzero(why[asked.index] == "")
    if len(kept) == len(asked.index):
        return why, asked
    return why, _Asked(asked.index[kept], _take(asked.designs, kept))


def _take(designs: Designs, index: np.ndarray) -> Designs:
    columns = designs._asdict().items()
    return Designs(**{name: [a[i] for i in index] if isinstance(a, list) else a[index] for name, a in columns})


def _notes(made: Holds, asked: _Asked, construction: str, options: Options) -> np.ndarray:
    """What is to be said of each area besides the construction's own sentences."""
    notes = np.full(len(asked.index), "", dtype=object)
    if construction in USERS_OWN:
        return notes
    at_a_point = [area is POINT_FIX for area in asked.designs.tolerance_areas_nm]
    if not (options.navigation == "rnav" and np.isfinite(options.att_nm)):
        reasons.note(notes, np.array(at_a_point, dtype=bool), lambda i: AT_A_POINT)
    reasons.note(notes, made.rules == holds.FAA, lambda i: ILLUSTRATION)
    by_time = ~np.isfinite(asked.designs.station_u_nm)
    reasons.note(notes, (made.leg_kind == holds.DISTANCE) & by_time, lambda i: DISTANCE_LEG)
    minutes, alt = asked.designs.outbound_min, asked.designs.alt_ft
    longer = (made.leg_kind == holds.TIME) & (minutes > made.leg_min)
    reasons.note(notes, longer, lambda i: f"made for the {minutes[i]:g} min that are standard at {alt[i]:.0f} ft")
    return notes


def _with_unions(parts: list[Area], levels_of: list[str], index) -> tuple[list[Area], list[str], np.ndarray]:
    """The areas of each hold's levels, and behind them those of their union where there are several.

    Returns: areas; the levels and the row of the hold that each area's row means.
    """
    by_row: list[list[Area]] = [[] for _ in index]
    for part in parts:
        by_row[part.row].append(part)
    out, names, rows = [], list(levels_of), index.tolist()
    first = np.flatnonzero(np.diff(index, prepend=-1)).tolist()
    for begin, end in zip(first, [*first[1:], len(by_row)]):
        out += [part for own in by_row[begin:end] for part in own]
        if end - begin > 1:
            out += union(by_row[begin:end], len(rows))
            names.append(", ".join(levels_of[begin:end]))
            rows.append(rows[begin])
    return out, names, np.array(rows, dtype=np.int64)


def union(levels: list[list[Area]], row: int) -> list[Area]:
    """The parts of a hold's levels as parts of the whole block: each place keeps the innermost part that it has at
    any level. Parameters: Areas by level, upward; row, for the result. Returns: Areas without overlaps."""
    there = [name for name in OUTWARD if any(part.part == name for own in levels for part in own)]
    out: list[Area] = []
    inner: polygons.Region = ()
    for name in there:
        same = [part for own in levels for part in own if part.part == name]
        whole = polygons.united([inner, *(part.polygons_nm for part in same)])
        region = _without_slivers(polygons.without(whole, inner) if inner else whole)
        inner = whole
        if region:
            figures = [float(np.fmax.reduce([getattr(part, name) for part in same]))
                       for name in ("moc_ft", "alt_ft", "tas_kt", "wind_kt")]  # fmt: skip
            out.append(Area(row, name, region, *figures, _joined(same[-1].limits, f"union of {len(levels)} levels")))
    return out


def _without_slivers(region: polygons.Region) -> polygons.Region:
    """A region without polygons and holes of no size, such as shapely leaves where two shapes share an edge."""
    solid = [[ring for ring in rings if polygons.area(((ring,),)) > SLIVER_NM2] for rings in region
             if polygons.area((rings,)) > SLIVER_NM2]  # fmt: skip
    return tuple(tuple(_straightened(ring) for ring in rings) for rings in solid)


def _straightened(ring: np.ndarray) -> np.ndarray:
    """Ring without vertices on a straight edge: of two parts that share it one may have them, and then be cut elsewhere
    on the earth."""
    before, after = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
    off = np.abs(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0])
    return ring[off > STRAIGHT_NM * np.hypot(*(before + after).T)]


def _joined(*texts: str) -> str:
    return "; ".join(text for text in texts if text)


def _columns(keys, construction: str, parts: list[Area], levels_of: list[str], sizes_nm2) -> dict:
    owner = np.array([part.row for part in parts], dtype=np.int64)
    figures = {
        name: np.array([getattr(part, name) for part in parts], dtype=np.float64)
        for name in ("moc_ft", "alt_ft", "tas_kt", "wind_kt")
    }
    return {
        "hold": keys[owner],
        "construction": np.full(len(parts), construction, dtype=object),
        "part": np.array([part.part for part in parts], dtype=object),
        **figures,
        "area_nm2": sizes_nm2,
        "levels": np.array([levels_of[k] for k in owner], dtype=object),
        "limits": np.array([part.limits for part in parts], dtype=object),
    }
