"""Rows of the fixes layer, by each way a fix is defined."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from .. import fix_crossing, fixes, holds, navaids, reasons, text
from ..fix_crossing import CrossingFixes, Lines
from ..fixes import Fixes, Station
from ..routes import RouteFixes
from .keys import Keys, unique

METHODS = ("radial_distance", "along_track", "crossing", "route", "coordinates", "overhead")
STATION_COLUMNS = (
    "method",
    "navaid",
    "navaid_kind",
    "navaid_lat",
    "navaid_lon",
    "navaid_elev_ft",
    "navaid_decl_deg",
    "radial_deg",
    "dist_nm",
    "dme_nm",
    "navaid_2",
    "navaid_2_kind",
    "navaid_2_lat",
    "navaid_2_lon",
    "navaid_2_elev_ft",
    "navaid_2_decl_deg",
    "radial_2_deg",
    "dist_2_nm",
    "dme_2_nm",
    "cut_deg",
    "line",
    "line_2",
)
"""Columns of a fix that its hold carries on, so that every later step can measure from its stations."""


@dataclass(frozen=True)
class FixRows:
    """Fixes as columns of the layer, N rows, and the reason of each that failed ('' for the good ones).

    owner: the input row of each fix, where a row gives several or none; None where they are the same.
    """

    columns: dict[str, np.ndarray]
    reasons: np.ndarray
    owner: np.ndarray | None = None

    def row_reasons(self, rows: int) -> np.ndarray:
        """Why each of the input rows gave no fix, '' where it gave one."""
        if self.owner is None:
            return self.reasons
        out = np.full(rows, reasons.sentence(reasons.NOT_ON_ROUTE), dtype=object)
        for row, why in zip(self.owner[::-1], self.reasons[::-1]):
            out[row] = why if why == "" or out[row] != "" else out[row]
        return out


@dataclass(frozen=True)
class Naming:
    """What a fix row carries besides its geometry: ident of the station, date of the variation, keys so far.

    Without keys the names are not made unique: a chain that may yet drop rows does that at its end.
    """

    ident: np.ndarray
    keys: Keys | None
    var_date: str


def mark_radial_distance(
    station: Station, naming: Naming, radial_deg, distance_nm, *, slant, alt_ft, north, year: float
) -> FixRows:
    """Fix rows by radial and distance; parameters as fixes.radial_distance."""
    fix = fixes.radial_distance(
        station, radial_deg, distance_nm, slant=slant, alt_ft=alt_ft, north=north, year=year
    )
    n = len(fix.lon)
    radial, distance = np.broadcast_to(radial_deg, n), np.broadcast_to(distance_nm, n)
    kind = np.broadcast_to(slant, n)
    names = [
        f"{who} {_radial_word(what)}{_trim(r)} {'D' if s else ''}{d:.1f}{'' if s else ' NM'}" if code == 0 else ""
        for who, what, r, d, s, code in zip(naming.ident, station.kind, radial, distance, kind, fix.code)
    ]
    return _rows(fix, station, naming, names, "radial_distance", _blank(n), _blank(n))


def mark_along_track(
    station: Station, naming: Naming, distance_nm, *, beyond, course_deg, north, from_lon, from_lat, alt_ft, year: float
) -> FixRows:
    """Fix rows before or beyond a point; parameters as fixes.along_track."""
    fix, to_go, passed = fixes.along_track(
        station,
        distance_nm,
        beyond=beyond,
        course_deg=course_deg,
        north=north,
        from_lon=from_lon,
        from_lat=from_lat,
        alt_ft=alt_ft,
        year=year,
    )
    n = len(fix.lon)
    distance, side = np.broadcast_to(distance_nm, n), np.broadcast_to(beyond, n)
    names = [
        f"{who} {d:.1f} {'beyond' if b else 'before'} {text.format_course(c)}" if code == 0 else ""
        for who, d, b, c, code in zip(naming.ident, distance, side, fix.course_station_deg, fix.code)
    ]
    assumed, limits = _blank(n), _blank(n)
    reasons.note(
        assumed, np.isfinite(to_go), lambda i: f"the course is the present course, {to_go[i]:.1f} NM to go to the fix"
    )
    reasons.note(limits, passed, lambda i: "the fix lies behind the position given: already passed")
    return _rows(fix, station, naming, names, "along_track", limits, assumed)


def mark_overhead(station: Station, naming: Naming, *, course_deg, north, alt_ft, year: float) -> FixRows:
    """Fix rows overhead navaids; parameters as fixes.overhead."""
    fix = fixes.overhead(station, course_deg=course_deg, north=north, alt_ft=alt_ft, year=year)
    names = [f"{who} overhead" if code == 0 else "" for who, code in zip(naming.ident, fix.code)]
    n = len(fix.lon)
    return _rows(fix, station, naming, names, "overhead", _blank(n), _blank(n))


def mark_coordinates(lon, lat, station: Station, naming: Naming, *, alt_ft, year: float) -> FixRows:
    """Fix rows by position; parameters as fixes.coordinates."""
    fix = fixes.coordinates(lon, lat, station, alt_ft=alt_ft, year=year)
    names = [
        text.format_position(x, y) if code == 0 else "" for x, y, code in zip(fix.lon, fix.lat, fix.code)
    ]
    n = len(fix.lon)
    return _rows(fix, station, naming, names, "coordinates", _blank(n), _blank(n))


def mark_crossing(
    first: Lines, second: Lines, naming: Naming, second_ident, *, slant, alt_ft, north, year: float
) -> tuple[FixRows, FixRows]:
    """Fix rows of both places where two lines cross; parameters as fix_crossing.cross.

    naming names the first stations, second_ident the second. A row whose second place does not exist carries
    its reason in the second FixRows.
    """
    one, two = fix_crossing.cross(first, second, slant=slant, alt_ft=alt_ft, north=north, year=year)
    words = [
        f"{a} {_line_word(k1, t1, v1)} + {b} {_line_word(k2, t2, v2)}"
        for a, k1, t1, v1, b, k2, t2, v2 in zip(
            naming.ident, first.station.kind, first.kind, first.value,
            second_ident, second.station.kind, second.kind, second.value,
        )
    ]
    return tuple(_crossing_rows(c, first, second, naming, second_ident, words) for c in (one, two))


def _crossing_rows(
    found: CrossingFixes, first: Lines, second: Lines, naming: Naming, second_ident, words
) -> FixRows:
    names = [word if code == reasons.OK else "" for word, code in zip(words, found.fix.code)]
    n = len(names)
    rows = _rows(found.fix, first.station, naming, names, "crossing", _blank(n), _blank(n))
    at = second.station
    kinds = np.array(fix_crossing.LINE_KINDS, dtype=object)
    rows.columns.update(
        navaid_2=np.asarray(second_ident, dtype=object),
        navaid_2_kind=np.asarray(at.kind, dtype=object),
        navaid_2_lat=at.lat,
        navaid_2_lon=at.lon,
        navaid_2_elev_ft=at.elev_ft,
        navaid_2_decl_deg=at.decl_deg,
        line=kinds[np.asarray(first.kind)],
        line_2=kinds[np.asarray(second.kind)],
    )
    for name in ("radial_2_deg", "dist_2_nm", "dme_2_nm", "cut_deg"):
        rows.columns[name] = getattr(found, name)
    return rows


def _line_word(kind: str, line: int, value: float) -> str:
    return f"D{value:.1f}" if line == fix_crossing.DISTANCE else f"{_radial_word(kind)}{_trim(value)}"


def mark_route(place: RouteFixes, station: Station, naming: Naming, names, *, alt_ft, year: float) -> FixRows:
    """Fix rows on a route, with the course in the direction of the route, measured from a station each.

    Parameters: place, N rows of routes.Route; names (N,) of the fixes. At a vertex the course before it stands in
    the columns and the change in `assumed`.
    """
    fix = fixes.describe(
        station, place.lon, place.lat, alt_ft=alt_ft, year=year, code=place.code, course_true_deg=place.course_deg
    )
    _, _, selector, _ = holds.inbound_true(
        fix.lon, fix.lat, fix.course_true_deg, navaids.TRUE, navaid_lon=station.lon, navaid_lat=station.lat,
        decl_deg=np.where(navaids.gives_radials(station.kind), station.decl_deg, np.nan), year=year,
    )
    fix = replace(fix, course_station_deg=selector)
    n = len(fix.lon)
    assumed = _blank(n)
    with np.errstate(invalid="ignore"):
        turns = np.abs(place.course_after_deg - place.course_deg) > 0.01
    reasons.note(
        assumed,
        turns & (fix.code == reasons.OK),
        lambda i: f"at the vertex the true course changes from {text.format_course(place.course_deg[i])} to "
        f"{text.format_course(place.course_after_deg[i])}",
    )
    return _rows(fix, station, naming, np.where(fix.code == reasons.OK, names, ""), "route", _blank(n), assumed)


def _rows(fix: Fixes, station: Station, naming: Naming, names, method: str, limits, assumed) -> FixRows:
    n = len(fix.lon)
    good = fix.code == reasons.OK
    keys, notes = unique(naming.keys, names)
    nothing = np.full(n, np.nan)
    columns = {
        "fix": keys,
        "method": np.full(n, method, dtype=object),
        "navaid": np.asarray(naming.ident, dtype=object),
        "navaid_kind": np.asarray(station.kind, dtype=object),
        "navaid_lat": station.lat,
        "navaid_lon": station.lon,
        "navaid_elev_ft": station.elev_ft,
        "navaid_decl_deg": station.decl_deg,
        "radial_deg": fix.radial_deg,
        "dist_nm": fix.dist_nm,
        "dme_nm": fix.dme_nm,
        "navaid_2": _blank(n),
        "navaid_2_kind": _blank(n),
        "navaid_2_lat": nothing,
        "navaid_2_lon": nothing,
        "navaid_2_elev_ft": nothing,
        "navaid_2_decl_deg": nothing,
        "radial_2_deg": nothing,
        "dist_2_nm": nothing,
        "dme_2_nm": nothing,
        "cut_deg": nothing,
        "line": _blank(n),
        "line_2": _blank(n),
        "course_true_deg": fix.course_true_deg,
        "course_model_deg": fix.course_model_deg,
        "course_station_deg": fix.course_station_deg,
        "var_deg": fix.var_deg,
        "var_date": np.where(good, naming.var_date, "").astype(object),
        "alt_ft": fix.alt_ft,
        "lat": fix.lat,
        "lon": fix.lon,
        "position": np.array(text.format_positions(fix.lon, fix.lat), dtype=object),
        "limits": limits,
        "assumed": reasons.join(assumed, notes),
    }
    return FixRows(columns, reasons.sentences(fix.code))


def _radial_word(kind: str) -> str:
    return "B" if navaids.gives_bearings(kind) else "R"


def _trim(deg: float) -> str:
    """Three digits before the point; a fraction only where there is one: 045, 210.7."""
    return f"{deg:06.2f}".rstrip("0").rstrip(".")


def _blank(n: int) -> np.ndarray:
    return np.full(n, "", dtype=object)
