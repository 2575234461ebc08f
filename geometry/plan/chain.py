"""The whole line: a plan table and navaids to fixes, holds, patterns, tracks and basic holding areas."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .. import fix_crossing, geodesy, holds, navaids, reasons
from ..atmosphere import STANDARD_QNH_HPA
from ..fix_crossing import Lines
from ..tolerance.figures import FIGURES
from .accuracy import AIDS, BASES, GNSS, tolerance_rows
from .cells import Cells
from .directory import Directory
from .holding import HoldRows, design_holds, pattern_rows, track_rows
from .keys import Keys
from .layer import Layer, Shapes
from .marking import (
    METHODS,
    FixRows,
    Naming,
    mark_along_track,
    mark_coordinates,
    mark_crossing,
    mark_overhead,
    mark_radial_distance,
)
from .protecting import area_rows
from .spoken import Spoken, spoken_rows

SIDES = ("before", "beyond")
DISTANCE_KINDS = ("ground", "slant")
NOT_BUILT = ("route",)
POINT = "point"
FIX_BASES = (POINT, *BASES)
"""What the areas of holds lie over: the fix as a point, or its tolerance area by the aids that define it or by GNSS."""
PLAN_COLUMNS = (
    "exercise", "fix_method", "navaid", "navaid_kind", "navaid_id", "radial_deg", "distance_nm", "distance_kind",
    "navaid_2", "radial_2_deg", "distance_2_nm", "course_deg", "from_ident", "from_lat", "from_lon", "along_nm",
    "along_side", "lat", "lon", "north", "inbound_deg", "turn", "leg_min", "leg_nm", "leg_end", "ias_kt", "area_ias_kt",
    "alt_ft", "alt_to_ft", "isa_dev_c", "arrival_deg", "rules", "aircraft", "clearance",
)  # fmt: skip
"""Columns of a plan that build reads; others are left alone."""
GROUND, SLANT = range(2)
_OUT_OF_SERVICE = ("out of service", "u/s", "unserviceable", "decommissioned", "shutdown")


@dataclass(frozen=True)
class Built:
    """An area built from a plan of N rows.

    reasons: object array (N,), '' for rows that gave a hold. rows: index of the plan row of each hold. fixes,
    holds: columns of those layers, one row each; kept, the figures of those
    holds. patterns, tracks, Layers, and areas, Shapes; their `hold` joins them. tolerances, Layer of the fix tolerance
    areas that the areas lie over, empty where the fixes are points. spoken, the plan with the cells that
    its clearances fill, and how they were read.
    """

    reasons: np.ndarray
    rows: np.ndarray
    fixes: dict[str, np.ndarray]
    holds: dict[str, np.ndarray]
    kept: HoldRows
    patterns: Layer
    tracks: Layer
    areas: Shapes
    tolerances: Layer
    spoken: Spoken

    def say(self, limits, assumed) -> None:
        """Add sentences to `limits` and `assumed` of the holds, N each."""
        for name, more in (("limits", limits), ("assumed", assumed)):
            self.holds[name] = reasons.join(self.holds[name], more)


def build(
    plan: dict[str, Sequence],
    navaid_columns: dict[str, np.ndarray],
    aircraft: dict[str, Sequence] | None = None,
    *,
    var_date: str,
    year: float,
    tolerance_m: float = 5.0,
    qnh_hpa: float = STANDARD_QNH_HPA,
    now: str = "",
    fix_basis: str = POINT,
) -> Built:
    """Build a training area from a plan table.

    Parameters: plan, cells by column name, text or numbers, N a column, see PLAN_COLUMNS; navaid_columns, see
    Directory; aircraft, cells by column name (aircraft, ias_kt, area_ias_kt); var_date, the date as text;
    year, the same as decimal year; tolerance_m > 0; qnh_hpa, altimeter setting; now, ISO to the minute in UTC, from
    which a time in a clearance is the next, '' where none is known; fix_basis, one of FIX_BASES.
    Returns: Built. What the trade assumes for an empty cell
    stands in `assumed` of the row. Errors: ValueError for a year outside the magnetic model, or a fix_basis that there
    is not.
    """
    if fix_basis not in FIX_BASES:
        raise ValueError(f"fix_basis is {fix_basis!r}; it must be one of {', '.join(FIX_BASES)}")
    n = max((len(values) for values in plan.values()), default=0)
    directory = Directory(navaid_columns)
    spoken = spoken_rows(plan, directory, navaid_columns.get("name"), now=now, year=year)
    cells = Cells(spoken.plan, n)
    cells.reasons[:] = spoken.reasons
    exercise = cells.text("exercise")
    fix, assumed = _mark(cells, directory, var_date, year)
    fix.columns["assumed"] = reasons.join(spoken.assumed, assumed, fix.columns["assumed"])
    fix.columns["limits"] = reasons.join(spoken.limits, fix.columns["limits"])
    rows = _hold(cells, fix, exercise, aircraft, var_date, year, qnh_hpa)
    why = np.where(cells.reasons != "", cells.reasons, np.where(fix.reasons != "", fix.reasons, rows.reasons))
    why = np.where(spoken.reasons != "", spoken.reasons, why)
    good = np.flatnonzero(why == "")
    kept = rows.take(good)
    kept_fixes = {k: np.asarray(v)[good] for k, v in fix.columns.items()}
    for columns, key in ((kept_fixes, "fix"), (kept.columns, "hold")):
        columns[key], notes = Keys().make(columns[key])
        columns["assumed"] = reasons.join(columns["assumed"], notes)
    kept.columns["fix"] = kept_fixes["fix"]
    tolerances, rings, limits = _tolerances(kept, fix_basis, tolerance_m)
    kept.columns["limits"] = reasons.join(kept.columns["limits"], limits)
    return Built(
        reasons=why.astype(object),
        rows=good,
        fixes=kept_fixes,
        holds=kept.columns,
        kept=kept,
        patterns=pattern_rows(kept, tolerance_m),
        tracks=track_rows(kept, tolerance_m),
        areas=area_rows(kept, rings, tolerance_m),
        tolerances=tolerances,
        spoken=spoken,
    )


def _tolerances(kept: HoldRows, basis: str, tolerance_m: float) -> tuple[Layer, list, np.ndarray]:
    """Fix tolerance areas of N holds by their rules: the layer, none over points; the corners of each hold's, None
    where it has none; and sentences (N,) that say why it has none where one was asked for."""
    count = len(kept.good)
    some = kept.take(np.arange(0 if basis == POINT else count))
    along, across = (FIGURES[name].value for name in ("gnss_along_nm", "gnss_across_nm"))
    layer, index, why = tolerance_rows(
        some.columns, basis=GNSS if basis == BASES[GNSS] else AIDS, rules=some.holds.rules, along_nm=along,
        across_nm=across, tolerance_m=tolerance_m,
    )  # fmt: skip
    rings: list = [None] * count
    for k, i in enumerate(index.tolist()):
        rings[i] = layer.coords[layer.offsets[k] : layer.offsets[k + 1] - 1]
    limits = np.full(count, "", dtype=object)
    reasons.note(limits, why != "", lambda i: f"its areas lie over the fix as a point, without a tolerance: {why[i]}")
    return layer, rings, limits


def _mark(cells: Cells, directory: Directory, var_date: str, year: float) -> tuple[FixRows, np.ndarray]:
    """Fix rows of every plan row, by the method it names or implies."""
    n = cells.rows
    ident, kind, key = cells.text("navaid"), cells.text("navaid_kind"), cells.text("navaid_id")
    radial, distance, along = cells.number("radial_deg"), cells.number("distance_nm"), cells.number("along_nm")
    distance_kind = cells.word("distance_kind", DISTANCE_KINDS)
    course, arrival, alt = cells.number("course_deg"), cells.number("arrival_deg"), cells.number("alt_ft")
    ident_2, radial_2, distance_2 = cells.text("navaid_2"), cells.number("radial_2_deg"), cells.number("distance_2_nm")
    lat, lon = cells.latitude("lat"), cells.longitude("lon")
    from_lat, from_lon = cells.latitude("from_lat"), cells.longitude("from_lon")
    from_ident = cells.text("from_ident")
    north, side = cells.word("north", navaids.NORTHS), cells.word("along_side", SIDES)
    method = cells.word("fix_method", METHODS)
    assumed = np.full(n, "", dtype=object)

    code = {name: i for i, name in enumerate(METHODS)}
    implied = np.select(
        [
            np.isfinite(lat) & np.isfinite(lon),
            np.isfinite(along),
            ident_2 != "",
            np.isfinite(radial) & np.isfinite(distance),
            ident != "",
        ],
        [code["coordinates"], code["along_track"], code["crossing"], code["radial_distance"], code["overhead"]],
        default=-1,
    )
    empty = (method < 0) & (implied >= 0)
    method = np.where(empty, implied, method)
    reasons.note(assumed, empty, lambda i: f"fix method {METHODS[int(method[i])].replace('_', ' ')}")
    complain = cells.reasons
    for pair, one, other in (("lat and lon", lat, lon), ("from_lat and from_lon", from_lat, from_lon)):
        half = (np.isfinite(one) != np.isfinite(other)) & (complain == "")
        reasons.note(complain, half, lambda i, pair=pair: f"{pair} must both be given")
    reasons.note(complain, method < 0, lambda i: "nothing says how the fix is defined")
    for name in NOT_BUILT:
        reasons.note(complain, method == code[name], lambda i, name=name: f"fixes by {name} are not computed yet")

    row, near_lon = np.full(n, -1), np.where(np.isfinite(lon), lon, from_lon)
    near_lat = np.where(np.isfinite(lat), lat, from_lat)
    from_row, row_2 = np.full(n, -1), np.full(n, -1)
    for i in range(n):
        if ident[i]:
            row[i], problem = directory.find(ident[i], kind[i], key[i], near_lon[i], near_lat[i])
            cells.fail(i, problem)
        elif method[i] != code["coordinates"]:
            cells.fail(i, "the row names no navaid")
        if from_ident[i]:
            here = (directory.lon[row[i]], directory.lat[row[i]]) if row[i] >= 0 else (np.nan, np.nan)
            from_row[i], problem = directory.find(from_ident[i], lon=here[0], lat=here[1])
            cells.fail(i, f"from_ident: {problem}" if problem else "")
        if method[i] == code["crossing"]:
            here = (near_lon[i], near_lat[i])
            if row[i] >= 0 and not np.isfinite(here[0] + here[1]):
                here = (directory.lon[row[i]], directory.lat[row[i]])
            row_2[i], problem = directory.find(ident_2[i], lon=here[0], lat=here[1]) if ident_2[i] else (-1, "is empty")
            cells.fail(i, f"navaid_2: {problem}" if problem else "")
    station, start, station_2 = directory.station(row), directory.station(from_row), directory.station(row_2)
    from_lon, from_lat = np.where(from_row >= 0, start.lon, from_lon), np.where(from_row >= 0, start.lat, from_lat)

    angled = np.isfinite(radial) | np.isfinite(course) | np.isfinite(arrival) | np.isfinite(radial_2)
    angled |= np.isfinite(cells.number("inbound_deg")) & np.isfinite(station.decl_deg)
    reasons.note(assumed, (north < 0) & angled & (row >= 0), lambda i: _north_note(station.kind[i]))
    north = np.where(north < 0, navaids.STATION, north)
    can_slant = navaids.gives_range(station.kind) & (station.kind != "") & np.isfinite(station.elev_ft + alt)
    by_radial = method == code["radial_distance"]
    reasons.note(
        assumed,
        by_radial & (distance_kind < 0),
        lambda i: "the distance is a DME reading" if can_slant[i] else "the distance is along the ground",
    )
    by_arc = (method == code["crossing"]) & ~(np.isfinite(radial) & np.isfinite(radial_2))
    reasons.note(assumed, by_arc & (distance_kind < 0), lambda i: "the distance is a DME reading")
    distance_kind = np.where(distance_kind < 0, np.where(can_slant | by_arc, SLANT, GROUND), distance_kind)
    along_track = method == code["along_track"]
    reasons.note(assumed, along_track & (side < 0), lambda i: "before the navaid")

    for one, other, who in ((radial, distance, ident), (radial_2, distance_2, ident_2)):
        both = (method == code["crossing"]) & np.isfinite(one) & np.isfinite(other)
        reasons.note(assumed, both, lambda i, who=who: f"of {who[i]} the radial makes the crossing, not the distance")

    def idents(rows, written):
        names = np.where(rows >= 0, directory.ident[rows], "") if len(directory.ident) else written
        return names.astype(object)

    def naming(index):
        return Naming(idents(row[index], ident[index]), None, var_date)

    def marked(index, which: str) -> FixRows:
        at, who = station.take(index), naming(index)
        if which == "radial_distance":
            return mark_radial_distance(
                at, who, radial[index], distance[index], slant=distance_kind[index] == SLANT, alt_ft=alt[index],
                north=north[index], year=year,
            )
        if which == "along_track":
            return mark_along_track(
                at, who, along[index], beyond=side[index] == 1, course_deg=course[index], north=north[index],
                from_lon=from_lon[index], from_lat=from_lat[index], alt_ft=alt[index], year=year,
            )
        if which == "crossing":
            lines = (
                _line(at, radial[index], distance[index]),
                _line(station_2.take(index), radial_2[index], distance_2[index]),
            )
            both = mark_crossing(
                *lines, who, idents(row_2[index], ident_2[index]), slant=distance_kind[index] != GROUND,
                alt_ft=alt[index], north=north[index], year=year,
            )
            return _one_of(*both, near_lon[index], near_lat[index])
        if which == "coordinates":
            return mark_coordinates(lon[index], lat[index], at, who, alt_ft=alt[index], year=year)
        arriving = np.where(np.isfinite(course), course, arrival)
        return mark_overhead(at, who, course_deg=arriving[index], north=north[index], alt_ft=alt[index], year=year)

    columns: dict[str, np.ndarray] = {}
    why = np.full(n, "", dtype=object)
    for which in ("radial_distance", "along_track", "crossing", "coordinates", "overhead"):
        index = np.flatnonzero((method == code[which]) & (complain == ""))
        part = marked(index, which)
        for name, values in part.columns.items():
            values = np.asarray(values)
            empty = np.full(n, np.nan) if values.dtype.kind == "f" else np.full(n, "", dtype=object)
            columns.setdefault(name, empty)[index] = values
        why[index] = part.reasons
    out = row >= 0
    silent = np.array([out[i] and directory.status[row[i]].lower() in _OUT_OF_SERVICE for i in range(n)], dtype=bool)
    reasons.note(columns["limits"], silent, lambda i: f"{ident[i]} is out of service")
    return FixRows(columns, why), assumed


def _hold(cells: Cells, fix: FixRows, exercise, aircraft, var_date: str, year: float, qnh_hpa: float) -> HoldRows:
    """Hold rows of every plan row; the fix's reason stands first where it failed."""
    ias, area_ias = cells.number("ias_kt"), cells.number("area_ias_kt")
    by_type = cells.text("aircraft")
    assumed = np.full(cells.rows, "", dtype=object)
    table = _aircraft(aircraft)
    for name, values in (("ias_kt", ias), ("area_ias_kt", area_ias)):
        known = np.array([table.get(a.lower(), {}).get(name, np.nan) for a in by_type])
        fill = ~np.isfinite(values) & np.isfinite(known)
        values[fill] = known[fill]
        what = "speed" if name == "ias_kt" else "area speed"
        reasons.note(assumed, fill, lambda i, v=values, what=what: f"{what} {v[i]:.0f} kt of the {by_type[i]}")
    unknown = np.array([bool(a) and bool(table) and a.lower() not in table for a in by_type], dtype=bool)
    reasons.note(assumed, unknown, lambda i: f"the aircraft table has no {by_type[i]}")
    fix.columns["assumed"] = reasons.join(fix.columns["assumed"], assumed)
    failed = (fix.reasons != "") | (cells.reasons != "")
    return design_holds(
        {**fix.columns, "lon": np.where(failed, np.nan, fix.columns["lon"])},
        np.where(failed, "", np.where(exercise != "", exercise, fix.columns["fix"])),
        None,
        inbound_deg=cells.number("inbound_deg"),
        north=cells.word("north", navaids.NORTHS),
        turn=cells.word("turn", holds.TURNS),
        leg_min=cells.number("leg_min"),
        leg_nm=cells.number("leg_nm"),
        leg_end=cells.word("leg_end", holds.LEG_ENDS),
        ias_kt=ias,
        area_ias_kt=area_ias,
        alt_ft=cells.number("alt_ft"),
        alt_to_ft=cells.number("alt_to_ft"),
        isa_dev_c=cells.number("isa_dev_c"),
        rules=cells.word("rules", holds.RULES),
        qnh_hpa=qnh_hpa,
        var_date=var_date,
        year=year,
    )


def _aircraft(table: dict[str, Sequence] | None) -> dict[str, dict[str, float]]:
    """Speeds by aircraft, compared without case."""
    if not table:
        return {}
    cells = Cells(table, max(len(v) for v in table.values()))
    names, speeds = cells.text("aircraft"), {k: cells.number(k) for k in ("ias_kt", "area_ias_kt")}
    return {name.lower(): {k: v[i] for k, v in speeds.items()} for i, name in enumerate(names) if name}


def _line(station, radial, distance) -> Lines:
    """The line of position a row means: its radial where one is given, else its distance."""
    by_radial = np.isfinite(radial)
    kind = np.where(by_radial, fix_crossing.RADIAL, fix_crossing.DISTANCE)
    return Lines(station, kind, np.where(by_radial, radial, distance))


def _one_of(first: FixRows, second: FixRows, near_lon, near_lat) -> FixRows:
    """Of two crossings the one nearer to a given position, else the first; a note says that there are two."""
    _, _, to_first = geodesy.inverse(near_lon, near_lat, first.columns["lon"], first.columns["lat"])
    _, _, to_second = geodesy.inverse(near_lon, near_lat, second.columns["lon"], second.columns["lat"])
    both = (first.reasons == "") & (second.reasons == "")
    with np.errstate(invalid="ignore"):
        other = ((first.reasons != "") & (second.reasons == "")) | (both & (to_second < to_first))
    columns = {k: np.where(other, second.columns[k], v) for k, v in first.columns.items()}
    note = np.full(len(other), "", dtype=object)
    reasons.note(
        note,
        both,
        lambda i: f"of two crossings the {'second' if other[i] else 'first'}, at {columns['position'][i]}",
    )
    columns["assumed"] = reasons.join(first.columns["assumed"], note)
    return FixRows(columns, np.where(other, second.reasons, first.reasons))


def _north_note(kind: str) -> str:
    aligned = bool(navaids.gives_radials(kind))
    return "angles from the station's own north" if aligned else "angles from the aircraft's magnetic north"
