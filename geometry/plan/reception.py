"""Rows about the reception of fixes: tests of the stations that define them, and other ways to define them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from .. import geodesy, navaids, reasons
from ..angles import cut_angle
from ..coverage import checks, other_ways
from ..coverage.cuts import Cut
from ..coverage.other_ways import Accuracy
from ..coverage.pairs import Pairs
from ..coverage.profile import Clearance, profile_clearance, profile_points
from ..fixes import SAME_PLACE_NM, Station
from ..navaid_data.status import in_service
from ..tolerance.accuracy import angle_tolerance_deg, dme_tolerance_nm
from .directory import SAME_SITE_NM

STEP_CELLS = 0.45
"""Distance of samples in cells; below the half that a sample covers, since cells change their size along a path."""
OWN_CELLS = 1.25
"""Diagonals of a cell about the station that are no obstacle: its own, and the quarter cell that samples reach out."""
WITHOUT_CELLS_NM = 1.0
"""Distance of samples where the terrain has no cells; they only say that nothing is known."""


class Terrain(Protocol):
    """Terrain in cells, as an algorithm holds it."""

    def cells(self, lon, lat) -> tuple[np.ndarray, np.ndarray]:
        """The shorter side and the diagonal of the cell at places, NM; NaN where there is none."""

    def highest_ft(self, lon, lat) -> np.ndarray:
        """Height of the highest cell within a quarter cell of places, feet; NaN where one of them is unknown."""


@dataclass(frozen=True)
class Heard:
    """The stations of N fixes as P pairs.

    row (P,), index of the fix; pairs, cut, as coverage wants them; listed (P,), true where something says what the
    station's status is; first, second (N,), rows of the table of navaids, -1 where it has no such station.
    """

    row: np.ndarray
    pairs: Pairs
    cut: Cut
    listed: np.ndarray
    first: np.ndarray
    second: np.ndarray


def heard(columns: Mapping[str, np.ndarray], table: Mapping[str, np.ndarray] | None = None) -> Heard:
    """What is received at fixes: a radial or bearing and a DME of one station, or a line each of two.

    Overhead, only the bearing. Class, status, the DME's own place and a missing elevation come from the table of
    navaids, by ident, kind and place; for the first station otherwise from the fix's own columns class, status,
    dme_lon, dme_lat and dme_elev_ft, where it has them.
    Parameters: columns of the fixes or the holds layer, N rows; table, columns of the navaids layer, or None.
    Returns: Heard; a fix without a station that gives anything has no pair. Source: common practice.
    """
    n = len(columns["lon"])
    first, second = (_Aid.of(columns, table, suffix, n) for suffix in ("", "_2"))
    method, line, line_2 = (_column(columns, name, n, object) for name in ("method", "line", "line_2"))
    crossing = method == "crossing"
    radial, arc = ~crossing | (line != "distance"), np.where(crossing, line == "distance", method != "overhead")
    radial_2, arc_2 = crossing & (line_2 != "distance"), crossing & (line_2 == "distance")
    one_site = crossing & second.same_as(first)
    radial, arc = radial | (one_site & radial_2), arc | (one_site & arc_2)
    fix = [_column(columns, name, n, float) for name in ("lon", "lat", "alt_ft")]
    one = first.pairs(fix, radial, arc)
    two = second.pairs(fix, radial_2, arc_2)
    cut = _cut(one, two, crossing & ~one_site)
    rows = [
        np.flatnonzero((pairs.azimuth | pairs.distance) & np.isfinite(pairs.dist_nm) & np.isfinite(fix[0]) & wanted)
        for pairs, wanted in ((one, True), (two, crossing & ~one_site))
    ]
    none = np.full(len(rows[1]), np.nan)
    row = np.concatenate(rows)
    order = np.argsort(row, kind="stable")
    joined = _joined(_taken(one, rows[0]), _taken(two, rows[1]))
    cuts = [np.concatenate([a[rows[0]], b]) for a, b in zip(cut, (none, two.station.kind[rows[1]], none, none > 0))]
    listed = np.concatenate([first.listed[rows[0]], second.listed[rows[1]]])
    return Heard(
        row[order],
        _taken(joined, order),
        Cut(*[values[order] for values in cuts]),
        listed[order],
        first.row,
        second.row,
    )


def test_rows(
    columns: Mapping[str, np.ndarray],
    found: Heard,
    *,
    rules: int,
    terrain: Terrain | None = None,
    antenna_ft: float = 0.0,
) -> dict[str, np.ndarray]:
    """Columns of the tests layer.

    ok is 1, 0 or None where the test could not be made. A station that no table lists has an unknown status.
    Parameters: columns, as for heard; found; rules, a code of flight.RULES; terrain; antenna_ft above the
    station's elevation. Returns: columns, fix by fix. Source: see coverage.checks.tests.
    """
    clearance = None if terrain is None else clearances(found.pairs, terrain, antenna_ft)
    made = checks.tests(found.pairs, rules=rules, cut=found.cut, terrain=clearance, antenna_ft=antenna_ft)
    unlisted = (made.test == "status") & ~found.listed[made.pair]
    text = made.text.copy()
    for i in np.flatnonzero(unlisted):
        who = found.pairs.ident[made.pair[i]] or "the station"
        text[i] = f"The status of {who} is not known: no table of navaids lists it"
    known = made.known & ~unlisted
    key = names(columns)
    return {
        "hold": key[found.row[made.pair]],
        "test": made.test,
        "ok": np.where(known, made.ok.astype(np.int64).astype(object), None),
        "value": made.value,
        "limit_value": made.limit_value,
        "unit": made.unit,
        "source": made.source,
        "text": text,
    }


def names(columns: Mapping[str, np.ndarray]) -> np.ndarray:
    """The key that tests join on: the hold's, where holds are tested, else the fix's. '' where there is none."""
    n = len(columns["lon"])
    hold, fix = (_column(columns, name, n, object) for name in ("hold", "fix"))
    return np.where(hold != "", hold, fix)


def clearances(pairs: Pairs, terrain: Terrain, antenna_ft: float) -> Clearance:
    """How the rays to the VHF antennas of pairs clear the terrain, P rows.

    Pairs without one have no samples. Parameters: see test_rows. Source: see coverage.profile.
    """
    n = len(pairs.lon)
    least, at, needed = (np.full(n, np.nan) for _ in range(3))
    missing, samples = (np.zeros(n, dtype=np.int64) for _ in range(2))
    code = np.full(n, reasons.NO_TERRAIN, dtype=np.int16)
    out = (least, at, needed, missing, samples, code)
    by_radial = pairs.azimuth & navaids.gives_radials(pairs.station.kind)
    lon, lat, elev = (
        np.where(by_radial, getattr(pairs.station, name), getattr(pairs.station, "dme_" + name))
        for name in ("lon", "lat", "elev_ft")
    )
    rows = np.flatnonzero(by_radial | pairs.distance)
    if not len(rows):
        return Clearance(*out)
    course, _, total = geodesy.inverse(lon, lat, pairs.lon, pairs.lat)
    middle_lon, middle_lat, _ = geodesy.direct(lon, lat, course, total / 2.0)
    places = ((lon, lat), (middle_lon, middle_lat), (pairs.lon, pairs.lat))
    sizes = [terrain.cells(x[rows], y[rows]) for x, y in places]
    side = np.fmin.reduce([size[0] for size in sizes])
    step = np.where(np.isfinite(side) & (side > 0.0), STEP_CELLS * side, WITHOUT_CELLS_NM)
    own = OWN_CELLS * np.nan_to_num(sizes[0][1], nan=0.0)
    for k, i in enumerate(rows):
        profile = profile_points(lon[i], lat[i], pairs.lon[i], pairs.lat[i], float(step[k]))
        heights = terrain.highest_ft(profile.lon[0], profile.lat[0])
        ray = profile_clearance(
            profile.dist_nm, heights[np.newaxis], total[i], elev[i] + antenna_ft, pairs.alt_ft[i], own[k]
        )
        for target, values in zip(out, ray):
            target[i] = values[0]
    return Clearance(*out)


def alternative_rows(
    columns: Mapping[str, np.ndarray],
    found: Heard,
    table: Mapping[str, np.ndarray],
    *,
    rules: int,
    count: int,
    year: float,
) -> tuple[dict[str, np.ndarray], np.ndarray]:
    """Columns of the alternatives layer, and the index of the fix of each row.

    The way by which the fix is defined already is left out. Parameters: columns, found, as above; table, columns of
    the navaids layer; rules, a code of flight.RULES; count >= 1, most ways for a fix; year of the variation.
    Source: see coverage.other_ways; the accuracies, see tolerance.figures.FIGURES.
    """
    n = len(columns["lon"])
    accuracy = Accuracy(
        angle_tolerance_deg(table["kind"], True, rules),
        angle_tolerance_deg(table["kind"], False, rules),
        lambda slant_nm: dme_tolerance_nm(slant_nm, rules),
    )
    ways = other_ways.alternatives(
        *[_column(columns, name, n, float) for name in ("lon", "lat", "alt_ft")],
        _station_of(table),
        accuracy,
        ident=table["ident"],
        classes=table["class"],
        in_service=in_service(table["status"]),
        rules=rules,
        count=count + 1,
        year=year,
    )
    kept = np.flatnonzero(~_own_way(columns, found, ways))
    fix = ways.fix[kept]
    rank = np.arange(len(kept)) - np.searchsorted(fix, fix) + 1
    kept, fix, rank = (values[rank <= count] for values in (kept, fix, rank))
    second = ways.second[kept]
    ident = np.append(np.asarray(table["ident"], dtype=object), "")
    key = np.where(_column(columns, "fix", n, object) != "", _column(columns, "fix", n, object), names(columns))
    numbers = ("radial_deg", "dist_nm", "dme_nm", "radial_2_deg", "dist_2_nm", "cut_deg", "error_nm", "text")
    return {
        "fix": key[fix],
        "rank": rank,
        "method": np.array(other_ways.METHODS, dtype=object)[ways.method[kept]],
        "navaid": ident[ways.first[kept]],
        "navaid_2": ident[second],
        **{name: getattr(ways, name)[kept] for name in numbers},
    }, fix


def _own_way(columns: Mapping[str, np.ndarray], found: Heard, ways: other_ways.Alternatives) -> np.ndarray:
    """Ways that are the fix's own: the same station by radial and distance, or the same two by their radials."""
    n = len(columns["lon"])
    first, second = found.first[ways.fix], found.second[ways.fix]
    crossing = (_column(columns, "method", n, object) == "crossing")[ways.fix]
    one_station = (ways.method == 0) & (~crossing | (first == second)) & (ways.first == first)
    two_ways = ((ways.first == first) & (ways.second == second)) | ((ways.first == second) & (ways.second == first))
    arcs = [_column(columns, name, n, object) == "distance" for name in ("line", "line_2")]
    two_radials = crossing & ~(arcs[0] | arcs[1])[ways.fix]
    return one_station | ((ways.method == 1) & two_radials & two_ways)


@dataclass(frozen=True)
class _Aid:
    """The first or the second station of N fixes, with what the table of navaids says of it."""

    row: np.ndarray
    ident: np.ndarray
    station: Station
    classes: np.ndarray
    in_service: np.ndarray
    listed: np.ndarray

    @classmethod
    def of(cls, columns: Mapping, table: Mapping | None, suffix: str, n: int) -> _Aid:
        def own(name: str, kind) -> np.ndarray:
            return _column(columns, f"navaid{suffix}{name}", n, kind)

        ident, lon, lat, elev = own("", object), own("_lon", float), own("_lat", float), own("_elev_ft", float)
        kind = np.array([navaids.clean_kind(word) or word for word in own("_kind", object)], dtype=object)
        row = _rows_in(table, ident, kind, lon, lat)

        def said(name: str, of) -> np.ndarray:
            """What the table says, or the fix's own column, which is about its first station."""
            mine = _column(columns if not suffix else {}, name, n, of)
            if table is None or not len(table["lon"]):
                return mine
            return np.where(row >= 0, np.asarray(table[name], dtype=of)[row], mine)

        elev = np.where(np.isfinite(elev), elev, _of_table(table, "elev_ft", row))
        dme = [said(name, float) for name in ("dme_lon", "dme_lat", "dme_elev_ft")]
        station = Station.of(lon, lat, elev, own("_decl_deg", float), kind, *dme)
        listed = (row >= 0) | (not suffix and "status" in columns)
        return cls(row, ident, station, said("class", object), in_service(said("status", object)), listed)

    def same_as(self, other: _Aid) -> np.ndarray:
        """Where both are one station."""
        a, b = self.station, other.station
        with np.errstate(invalid="ignore"):
            near = geodesy.inverse(a.lon, a.lat, b.lon, b.lat)[2] < SAME_PLACE_NM
        return near & (a.kind == b.kind) & (self.ident == other.ident)

    def pairs(self, fix, azimuth, distance) -> Pairs:
        """Each fix and this station of it."""
        return Pairs.of(
            *fix, self.station, ident=self.ident, classes=self.classes, in_service=self.in_service, azimuth=azimuth,
            distance=distance,
        )  # fmt: skip


def _column(columns: Mapping, name: str, n: int, kind) -> np.ndarray:
    """A column, or one of nothing."""
    return np.asarray(columns.get(name, np.full(n, "" if kind is object else np.nan, dtype=kind)), dtype=kind)


def _of_table(table: Mapping | None, name: str, row: np.ndarray) -> np.ndarray:
    if table is None or not len(table["lon"]):
        return np.full(len(row), np.nan)
    return np.where(row >= 0, np.asarray(table[name], dtype=np.float64)[row], np.nan)


def _station_of(table: Mapping) -> Station:
    names_of = ("lon", "lat", "elev_ft", "decl_deg", "kind", "dme_lon", "dme_lat", "dme_elev_ft")
    return Station.of(*[table[name] for name in names_of])


def _rows_in(table: Mapping | None, ident, kind, lon, lat) -> np.ndarray:
    """Rows of the table that are these stations: the nearest of ident and kind on the same site, -1 for none.

    A kind that is not given on one of the two sides is no difference.
    """
    out = np.full(len(ident), -1)
    if table is None:
        return out
    by_ident: dict[str, list[int]] = {}
    for k, name in enumerate(table["ident"]):
        by_ident.setdefault(str(name).upper(), []).append(k)
    known: dict[tuple, int] = {}
    for i, place in enumerate(zip(ident, kind, lon, lat)):
        if place not in known:
            candidates = [
                k
                for k in by_ident.get(str(ident[i]).upper(), ())
                if not kind[i] or not table["kind"][k] or table["kind"][k] == kind[i]
            ]
            known[place] = _nearest(candidates, table, lon[i], lat[i])
        out[i] = known[place]
    return out


def _nearest(candidates: list[int], table: Mapping, lon: float, lat: float) -> int:
    if not candidates or not (np.isfinite(lon) and np.isfinite(lat)):
        return -1
    _, _, apart = geodesy.inverse(lon, lat, table["lon"][candidates], table["lat"][candidates])
    apart = np.where(np.isfinite(apart), apart, np.inf)
    return candidates[int(np.argmin(apart))] if apart.min() <= SAME_SITE_NM else -1


def _cut(one: Pairs, two: Pairs, crossing: np.ndarray) -> Cut:
    """The angle between the lines of two stations at their fixes, measured anew; NaN for other fixes."""

    def direction(pairs: Pairs) -> np.ndarray:
        at, arc = pairs.station, ~pairs.azimuth
        lon, lat = np.where(arc, at.dme_lon, at.lon), np.where(arc, at.dme_lat, at.lat)
        return geodesy.inverse(pairs.lon, pairs.lat, lon, lat)[0] + np.where(arc, 90.0, 0.0)

    deg = np.where(crossing, cut_angle(direction(one), direction(two)), np.nan)
    return Cut(deg, two.station.kind, two.dist_nm, ~two.azimuth)


def _taken(pairs: Pairs, index: np.ndarray) -> Pairs:
    return Pairs(*[
        value.take(index) if isinstance(value, Station) else value[index] for value in vars(pairs).values()
    ])  # fmt: skip


def _joined(first: Pairs, second: Pairs) -> Pairs:
    def both(a, b):
        if isinstance(a, Station):
            return Station(*[np.concatenate([getattr(a, name), getattr(b, name)]) for name in vars(a)])
        return np.concatenate([a, b])

    return Pairs(*[both(a, b) for a, b in zip(vars(first).values(), vars(second).values())])
