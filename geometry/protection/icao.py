"""The holding area of ICAO Doc 8168 Volume II as a construction: which hold is built how, and its figures."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ..atmosphere import icao_wind_kt
from ..units import FT_PER_NM
from . import icao_dme, icao_drawing, icao_entries, icao_rnav, icao_speeds, parts, shapes
from .areas import AS_ENTERED, Area, Construction, Designs, LineValue, Options
from .icao_basic import MOC_FT, basic_areas, basic_support
from .icao_entries import Arrivals
from .icao_lines import DOC, K_UP_TO_FT, LINES, MEMORY_NOTE, Line, lines, own_lines, tas_kt, template_tas_kt
from .icao_template import POINT_FIX, check_step, discs, inbound_part, template

__all__ = [
    "CONSTRUCTION", "DOC", "K_UP_TO_FT", "LINES", "MEMORY_NOTE", "MOC_FT", "POINT_FIX", "Line", "areas",
    "basic_areas", "basic_support", "discs", "lines", "refusals", "template_tas_kt", "values",
]  # fmt: skip

TIMED, RNAV, DME = range(3)
AT_ONCE = 256
"""Designs computed together: enough to fill numpy's loops, few enough to keep memory flat."""
ENTRIES = ("all", "arrivals", "none")
NAVIGATIONS = ("conventional", "rnav")


class Figures(NamedTuple):
    """What the designs and the options come to, N rows: kind, lines of the template and of the slow flight that is
    considered too (NaN rows where none is), tolerance areas, arrivals; lines of VOR/DME holds, empty where none is."""

    kind: np.ndarray
    values: dict[str, np.ndarray]
    slow: dict[str, np.ndarray]
    tolerance_areas_nm: list
    arrivals: Arrivals
    dme: dict[str, np.ndarray]

    def take(self, index) -> Figures:
        """The rows of an index."""
        cut = [{name: a[index] for name, a in table.items()} for table in (self.values, self.slow, self.dme)]
        arrivals = Arrivals(*[a[index] for a in self.arrivals])
        return Figures(self.kind[index], *cut[:2], [self.tolerance_areas_nm[i] for i in index], arrivals, cut[2])


def figures(designs: Designs, options: Options) -> Figures:
    """Lines and kinds of N designs. Errors: ValueError for options that make no sense."""
    _check(options)
    count = len(designs.alt_ft)
    ias, alt, minutes = (np.asarray(a, dtype=np.float64) for a in designs[:3])
    if options.turbulence:
        ias = np.fmax(ias, icao_speeds.area_ias_kt(alt, options.category, turbulence=True))
    wind = icao_wind_kt(alt) if np.isnan(options.wind_kt) else np.full(count, options.wind_kt)
    values = lines(ias, alt, minutes, tas_kt=tas_kt(ias, alt, options.tas), wind_kt=wind)
    slow_ias = np.where(options.slow_ias_kt < ias, options.slow_ias_kt, np.nan)
    slow = lines(slow_ias, alt, minutes, tas_kt=tas_kt(slow_ias, alt, options.tas), wind_kt=wind)
    leg, station = (np.asarray(a, dtype=np.float64) for a in (designs.leg_nm, designs.station_u_nm))
    rnav = options.navigation == "rnav"
    kind = np.full(count, RNAV) if rnav else np.where(np.isfinite(leg) & np.isfinite(station), DME, TIMED)
    tolerance_areas = designs.tolerance_areas_nm
    if rnav:
        values, slow = (icao_rnav.lines(v, np.where(np.isfinite(leg), leg, v["L"])) for v in (values, slow))
        if np.isfinite(options.att_nm) or np.isfinite(options.xtt_nm):
            tolerance_areas = [icao_rnav.tolerance_area(options.att_nm, options.xtt_nm)] * count
    if options.entries == "arrivals":
        given = designs.arrivals_deg
    else:
        given = [None if options.entries == "all" else np.zeros(0)] * count
    dme = icao_dme.lines(values, station, designs.station_elev_ft, alt, leg) if (kind == DME).any() else {}
    return Figures(kind, values, slow, tolerance_areas, Arrivals.of(given), dme)


def _check(options: Options) -> None:
    check_step(options.step_deg)
    for name, allowed in (("entries", ENTRIES), ("navigation", NAVIGATIONS)):
        if getattr(options, name) not in allowed:
            raise ValueError(f"{name} is {getattr(options, name)!r}; it must be one of {', '.join(allowed)}")
    if not (np.isnan(options.wind_kt) or 0.0 <= options.wind_kt <= 300.0):
        raise ValueError(f"wind_kt is {options.wind_kt}; it must be from 0 to 300")


def refusals(designs: Designs, options: Options) -> np.ndarray:
    """Why a hold gets no area: object array (N,) of sentences, '' where it is built."""
    return _refusals(figures(designs, options), designs, options)


def _refusals(made: Figures, designs: Designs, options: Options) -> np.ndarray:
    out = np.full(len(made.kind), "", dtype=object)
    finite = np.isfinite(made.values["YE"]) & np.isfinite(made.values["XE"])
    for i in np.flatnonzero(~finite):
        out[i] = (
            f"no template for {designs.ias_kt[i]:g} kt, {designs.alt_ft[i]:g} ft, {designs.outbound_min[i]:g} min: "
            f"each must be a number, and the speed convertible at that level by {options.tas}"
        )
    slow_wind = finite & (made.values["w'"] >= made.values["v"])
    for i in np.flatnonzero(slow_wind):
        out[i] = f"the wind of {made.values['w'][i]:.0f} kt is no less than the speed of {made.values['V'][i]:.0f} kt"
    for rows in _groups(np.flatnonzero((made.kind == DME) & (out == "")), AT_ONCE):
        limits, bad = _dme_limits(made.take(rows), options)
        out[rows[bad]] = icao_dme.TOO_NEAR
        unread = np.isfinite(made.dme["DL"][rows]) & ~np.isfinite(limits.inner_nm)
        out[rows[unread]] = icao_dme.OVERHEAD
    return out


def _groups(rows: np.ndarray, size: int) -> list[np.ndarray]:
    return [rows[k : k + size] for k in range(0, len(rows), size)]


def _dme_limits(made: Figures, options: Options) -> tuple[icao_dme.Limits, np.ndarray]:
    """Limits of VOR/DME holds, the limiting radial where the arc alone may be missed; and which cannot be built."""
    towards = made.dme["towards"]
    station = np.where(towards, made.dme["Ds"], -made.dme["Ds"])
    fix = shapes.points(made.tolerance_areas_nm)
    none = np.full(len(towards), np.nan)
    limits = icao_dme.Limits(station, made.dme["DL1"], made.dme["DL2"], none)
    first = icao_dme.build(made.values, limits, fix, made.arrivals, options.step_deg)
    if first.made.all():
        return limits, ~first.made
    _, second = icao_dme.limiting_radial_deg(made.values, fix, station, options.step_deg)
    limits = limits._replace(radial_deg=np.where(first.made, np.nan, second))
    return limits, ~icao_dme.build(made.values, limits, fix, made.arrivals, options.step_deg).made


def areas(designs: Designs, options: Options) -> list[Area]:
    """Basic, entry and buffer areas of the holds that are not refused, hold by hold.

    Basic: the template over the fix tolerance area (the document draws it at each corner and joins by tangents, which
    is the sum of the two convex shapes, derived here), for area navigation and VOR/DME holds as icao_rnav and icao_dme
    say. Entry: icao_entries. Buffer: parts. Equal designs share one computation.
    Returns: Areas in the order of rows. Errors: ValueError for options that make no sense.
    Source: Doc 8168 Vol II, Part II, Section 4, Chapter 1, and I-4-3-App C, 3.3.3.
    """
    made = figures(designs, options)
    refused = _refusals(made, designs, options)
    done: dict[int, list[parts.Part]] = {}
    twins: dict[tuple, int] = {}
    first = np.zeros(len(made.kind), dtype=np.int64)
    for i in range(len(made.kind)):
        first[i] = twins.setdefault(_key(designs, made, i), i)
    for kind in (TIMED, RNAV, DME):
        rows = np.flatnonzero((refused == "") & (made.kind == kind) & (first == np.arange(len(first))))
        for some in _groups(rows, AT_ONCE):
            basic, whole = reaches(made.take(some), options)
            done.update(zip(some.tolist(), parts.build(len(some), basic, whole, options, parts.CLOSE)))
    needed = made.arrivals.any()
    out = []
    for i in np.flatnonzero(refused == ""):
        sentences = _sentences(made, int(i), bool(needed[i]), options)
        alt, tas, wind = float(designs.alt_ft[i]), float(made.values["V"][i]), float(made.values["w"][i])
        out += [
            Area(int(i), part.name, part.polygons_nm, part.moc_ft, alt, tas, wind, sentences)
            for part in done[int(first[i])]
        ]
    return out


def _key(designs: Designs, made: Figures, i: int) -> tuple:
    return (
        np.array([np.asarray(a)[i] for a in designs[:6]], dtype=np.float64).tobytes(),
        np.asarray(made.tolerance_areas_nm[i], dtype=np.float64).tobytes(),
        bool(made.arrivals.everywhere[i]),
        made.arrivals.heading_deg[i].tobytes(),
    )


def reaches(made: Figures, options: Options) -> tuple[shapes.Reach, shapes.Reach | None]:
    """Basic area and the whole with entries of designs of one kind; no whole where none has an entry to protect."""
    fix = shapes.points(made.tolerance_areas_nm)
    circle = np.array([float(np.hypot(*np.asarray(corners).T).max()) for corners in made.tolerance_areas_nm])
    entries_asked = bool(made.arrivals.any().any())
    if made.kind[0] == DME:
        limits, _ = _dme_limits(made, options)
    slower = np.isfinite(made.slow["V"])
    # A row without a slow flight takes the fast one's figures, and is left out of the hull.
    slow = {name: np.where(slower, a, made.values[name]) for name, a in made.slow.items()} if slower.any() else None
    if made.kind[0] == DME:
        both = [(np.ones_like(slower), icao_dme.build(made.values, limits, fix, made.arrivals, options.step_deg))]
        if slow:
            built = icao_dme.build(slow, limits, fix, made.arrivals, options.step_deg)
            both.append((slower & built.made, built))
        basic, whole = (shapes.Hull(*[shapes.OnlyWhere(g, one[k]) for g, one in both]) for k in (0, 1))
        return basic, whole if entries_asked else None
    shape, inbound = _template(made.kind[0], made.values, options)
    if slow:
        slow_shape, slow_inbound = _template(made.kind[0], slow, options)
        shape = shapes.Hull(shape, shapes.OnlyWhere(slower, slow_shape))
        inbound = shapes.Hull(inbound, shapes.OnlyWhere(slower, slow_inbound))
    basic = shapes.Sum(shape, fix)
    if not entries_asked:
        return basic, None
    run = icao_rnav.run(made.values) if made.kind[0] == RNAV else icao_entries.timed_run(made.values)
    return basic, icao_entries.whole(shape, inbound, made.values, run, made.arrivals, fix, circle, options.step_deg)


def _template(kind: int, values: dict[str, np.ndarray], options: Options) -> tuple[shapes.Reach, shapes.Reach]:
    if kind == RNAV:
        return icao_rnav.template(values, options.step_deg)
    return template(values, options.step_deg), inbound_part(values, options.step_deg)


def _sentences(made: Figures, i: int, entry: bool, options: Options) -> str:
    out = [MEMORY_NOTE]
    if made.kind[i] == RNAV:
        out.append(icao_rnav.NOTE)
    elif made.kind[i] == DME:
        limit, ground, end, height = (float(made.dme[name][i]) for name in ("DL", "Ds", "DL1", "hl"))
        out += [f"limiting distance {limit:g} NM DME", icao_dme.NOTE]
        if min(ground, end) < height * 1000.0 / FT_PER_NM * np.tan(np.radians(icao_dme.CONE_DEG)):
            out.append(f"part of the hold lies in the cone above the station ({icao_dme.CONE_SOURCE})")
    if entry and made.kind[i] == DME:
        out.append(icao_dme.END_NOTE)
    elif entry:
        out.append(icao_entries.NOTE)
    if np.isfinite(made.slow["V"][i]):
        out.append(f"a flight of {options.slow_ias_kt:g} kt is considered too ({icao_speeds.SLOW_SOURCE})")
    if options.turbulence:
        out.append("made for the turbulence speed where it is the faster (needs a clearance unless published)")
    return "; ".join(out + parts.notes(options))


def values(designs: Designs, options: Options) -> list[LineValue]:
    """Every numbered line of the holds that are not refused: template, area navigation, VOR/DME, clearances."""
    made = figures(designs, options)
    refused = _refusals(made, designs, options)
    own = sheet_lines(made.values, designs, options)
    out = []
    for rows in _groups(np.flatnonzero(refused == ""), AT_ONCE):
        some = made.take(rows)
        radial = None
        if (some.kind == DME).any():
            station = np.where(some.dme["towards"], some.dme["Ds"], -some.dme["Ds"])
            fix = shapes.points(some.tolerance_areas_nm)
            radial = icao_dme.limiting_radial_deg(some.values, fix, station, options.step_deg)
        for k, i in enumerate(rows.tolist()):
            rnav = some.kind[k] == RNAV
            out.append(_value(i, "0", speed_line(designs, options, i), some.values["V"][k] / some.values["K"][k]))
            for line in own[i]:
                if not (rnav and line.name in icao_rnav.NOT_USED):
                    out.append(_value(i, str(line.number), line, some.values[line.name][k]))
            if rnav:
                table = {name: a[k] for name, a in some.values.items()}
                table.update(ATT=options.att_nm, XTT=options.xtt_nm)
                given = [line._replace(mark=AS_ENTERED) for line in icao_rnav.GIVEN]
                out += _numbered(i, "N", [*icao_rnav.LINES, *given], table)
            if some.kind[k] == DME:
                table = {**{name: a[k] for name, a in some.dme.items()}, "RL": radial[0][k], "RL2": radial[1][k]}
                out += _numbered(i, "D", icao_dme.own_lines(table), table)
            out += parts.clearance_values(i, options)
    return out


def sheet_lines(values: dict[str, np.ndarray], designs: Designs, options: Options) -> list[tuple[Line, ...]]:
    """The numbered lines of each hold as its speed and wind came about."""
    return own_lines(values, designs.alt_ft, options.tas, not np.isnan(options.wind_kt))


def speed_line(designs: Designs, options: Options, i: int) -> Line:
    """The indicated airspeed that a hold's area is made for: the hold's own, or that of turbulence where it is more."""
    by_table = options.turbulence and designs.ias_kt[i] < float(
        icao_speeds.area_ias_kt(designs.alt_ft[i], options.category, turbulence=True)
    )
    if by_table:
        table = icao_speeds.SPEEDS["turbulence"][0]
        return Line(0, "IAS", "fastest in turbulence at that level", "kt", table.source, table.mark)
    return Line(0, "IAS", "fastest that may use the hold", "kt", "the hold", AS_ENTERED)


def _numbered(row: int, letter: str, given, table: dict) -> list[LineValue]:
    """The lines of one hold that have a value."""
    return [_value(row, f"{letter}{line.number}", line, table[line.name]) for line in given
            if np.isfinite(table[line.name])]  # fmt: skip


def _value(row: int, number: str, line: Line, value) -> LineValue:
    return LineValue(row, number, line.name, line.formula, float(value), line.unit, line.source, line.mark)


def drawing(designs: Designs, options: Options) -> list:
    """The template's lettered points, wind circles, tangents and outline of the holds that are not refused."""
    made = figures(designs, options)
    refused = _refusals(made, designs, options)
    out = []
    for rows in _groups(np.flatnonzero((refused == "") & (made.kind == TIMED)), AT_ONCE):
        out += icao_drawing.template(rows, made.take(rows).values, options)
    for rows in _groups(np.flatnonzero((refused == "") & (made.kind == RNAV)), AT_ONCE):
        some = made.take(rows)
        out += icao_drawing.outline_only(rows, icao_rnav.template(some.values, options.step_deg)[0], options)
    for rows in _groups(np.flatnonzero((refused == "") & (made.kind == DME)), AT_ONCE):
        some = made.take(rows)
        limits, _ = _dme_limits(some, options)
        fix = shapes.points(some.tolerance_areas_nm)
        built = icao_dme.build(some.values, limits, fix, some.arrivals, options.step_deg)
        out += icao_drawing.limited(rows, some.values, limits, built, options)
    return sorted(out, key=lambda drawn: drawn.row)


CONSTRUCTION = Construction("template", refusals, areas, values, drawing)
