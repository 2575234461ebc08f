"""Fixes where two lines of position of navaids cross: radials, NDB bearings, DME arcs."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from . import crossings, geodesy, navaids, reasons
from .angles import wrap180
from .crossings import Crossing
from .fixes import Fixes, Station, describe, position_codes
from .magnetism import declination_deg
from .navaids import STATION, TRUE

LINE_KINDS = ("radial", "distance")
RADIAL, DISTANCE = range(2)


@dataclass(frozen=True)
class Lines:
    """Lines of position, N rows: the station, kind (codes of LINE_KINDS), value in degrees or NM."""

    station: Station
    kind: np.ndarray
    value: np.ndarray


@dataclass(frozen=True)
class CrossingFixes:
    """Fixes measured from their first station; the same measures from the second; the cut angle."""

    fix: Fixes
    radial_2_deg: np.ndarray
    dist_2_nm: np.ndarray
    dme_2_nm: np.ndarray
    cut_deg: np.ndarray

    def take(self, index) -> CrossingFixes:
        """The rows of an index or mask."""
        fix = Fixes(**{f.name: getattr(self.fix, f.name)[index] for f in fields(Fixes)})
        return CrossingFixes(fix, *[getattr(self, f.name)[index] for f in fields(self)[1:]])


def cross(first: Lines, second: Lines, *, slant=True, alt_ft=np.nan, north=STATION, year: float):
    """Both fixes where two lines of position meet.

    Radials are geodesics at radial + declination; an NDB bearing is read at the fix with the model's variation
    there; an arc has the ground radius of its slant range. Order: radial and arc by distance along the radial;
    two arcs left of the geodesic from the first to the second centre first; two radials give one fix.
    Parameters: first, second, N rows each; slant, true where distances are DME; alt_ft; north codes of
    navaids.NORTHS; year. They broadcast. Returns: two CrossingFixes, N rows each, with codes.
    Source: ICAO Doc 8168 Vol II, 5th ed., I-2-2 (intersection fixes); constructions derived here.
    """
    n = len(first.station.lon)
    slant, north = np.broadcast_to(slant, n), np.broadcast_to(north, n)
    alt = np.broadcast_to(np.asarray(alt_ft, dtype=np.float64), n)
    a, b = _resolve(first, slant, alt, north, year), _resolve(second, slant, alt, north, year)
    code = reasons.first(a.code, b.code)
    one, two = _solve(a, b, code)
    for _ in range(20):
        turned = [_turn_bearings(line, one, two, year) for line in (a, b)]
        if max(turned) < 1e-10:
            break
        one, two = _solve(a, b, code)
    return _measure(first, second, one, alt, year, code), _measure(first, second, two, alt, year, code)


@dataclass
class _Resolved:
    """A line ready for the solvers; azimuth of NDB bearings is turned in place while the fix is sought."""

    station: Station
    arc: np.ndarray
    azimuth_deg: np.ndarray
    radius_nm: np.ndarray
    bearing_deg: np.ndarray
    code: np.ndarray

    @property
    def place(self):
        """Where the line starts: an arc from the DME's own site."""
        at = self.station
        return np.where(self.arc, at.dme_lon, at.lon), np.where(self.arc, at.dme_lat, at.lat)


def _resolve(line: Lines, slant, alt, north, year: float) -> _Resolved:
    at, arc, value = line.station, np.asarray(line.kind) == DISTANCE, np.asarray(line.value, dtype=np.float64)
    height = navaids.height_nm(alt, at.dme_elev_ft)
    ground, short = navaids.ground_from_slant_nm(value, height)
    read_at_fix = ~arc & navaids.gives_bearings(at.kind) & (north != TRUE)
    needs_decl = ~arc & (north == STATION) & ~read_at_fix & ~np.isfinite(at.decl_deg)
    by_slant = arc & slant
    with np.errstate(invalid="ignore"):
        code = reasons.first(
            position_codes(at.lon, at.lat),
            reasons.where(~np.isfinite(value), reasons.NOT_FINITE),
            reasons.where(~arc & ((value < 0.0) | (value > 360.0)), reasons.RADIAL_RANGE),
            reasons.where(arc & ((value <= 0.0) | (value > crossings.FARTHEST_NM)), reasons.DISTANCE_RANGE),
            reasons.where(needs_decl, reasons.NO_DECLINATION),
            reasons.where(arc & ~navaids.gives_range(at.kind), reasons.NO_RANGE),
            reasons.where(
                ~arc & ~navaids.gives_radials(at.kind) & ~navaids.gives_bearings(at.kind), reasons.NO_BEARING
            ),
            reasons.where(by_slant & ~np.isfinite(at.dme_elev_ft), reasons.NO_ELEVATION),
            reasons.where(by_slant & ~np.isfinite(alt), reasons.NO_ALTITUDE),
            np.where(by_slant, short, reasons.OK),
        )
    var = declination_deg(np.where(code == 0, at.lon, np.nan), at.lat, year=year)
    azimuth = np.where(read_at_fix, value + var, navaids.true_from(value, north, at.decl_deg, var))
    return _Resolved(
        at, arc, azimuth, np.where(slant, ground, value), np.where(read_at_fix & (code == 0), value, np.nan), code
    )


def _turn_bearings(line: _Resolved, one: Crossing, two: Crossing, year: float) -> float:
    """Turn NDB bearings by what is read wrong at the first solution (or the only one); the largest turn."""
    rows = np.flatnonzero(np.isfinite(line.bearing_deg))
    if not len(rows):
        return 0.0
    use_two = np.isfinite(two.lon[rows]) & ~np.isfinite(one.lon[rows])
    lon = np.where(use_two, two.lon[rows], one.lon[rows])
    lat = np.where(use_two, two.lat[rows], one.lat[rows])
    to_station, _, _ = geodesy.inverse(lon, lat, line.station.lon[rows], line.station.lat[rows])
    error = wrap180(line.bearing_deg[rows] + 180.0 + declination_deg(lon, lat, year=year) - to_station)
    error = np.where(np.isfinite(error), error, 0.0)
    line.azimuth_deg[rows] += error
    return float(np.max(np.abs(error)))


def _solve(a: _Resolved, b: _Resolved, code) -> tuple[Crossing, Crossing]:
    n = len(code)
    empty = Crossing(*[np.full(n, np.nan) for _ in range(5)], np.zeros(n, dtype=np.int16))
    one = Crossing(*[v.copy() for v in empty[:5]], reasons.where(np.ones(n, bool), reasons.CROSSING_NOT_SOLVED))
    two = Crossing(*[v.copy() for v in one])
    (lon1, lat1), (lon2, lat2) = a.place, b.place
    good = code == reasons.OK

    def put(rows, first: Crossing, second: Crossing | None, swapped: bool = False) -> None:
        for out, found in ((one, first), (two, second)):
            if found is None:
                out.code[rows] = reasons.ONE_CROSSING
                continue
            order = (0, 1, 3, 2, 4, 5) if swapped else range(6)
            for target, source in zip(out, (found[i] for i in order)):
                target[rows] = source

    rows = np.flatnonzero(good & ~a.arc & ~b.arc)
    if len(rows):
        put(rows, crossings.radial_radial(
            lon1[rows], lat1[rows], a.azimuth_deg[rows], lon2[rows], lat2[rows], b.azimuth_deg[rows]), None)
    rows = np.flatnonzero(good & ~a.arc & b.arc)
    if len(rows):
        put(rows, *crossings.radial_arc(
            lon1[rows], lat1[rows], a.azimuth_deg[rows], lon2[rows], lat2[rows], b.radius_nm[rows]))
    rows = np.flatnonzero(good & a.arc & ~b.arc)
    if len(rows):
        put(rows, *crossings.radial_arc(
            lon2[rows], lat2[rows], b.azimuth_deg[rows], lon1[rows], lat1[rows], a.radius_nm[rows]), swapped=True)
    rows = np.flatnonzero(good & a.arc & b.arc)
    if len(rows):
        put(rows, *crossings.arc_arc(
            lon1[rows], lat1[rows], a.radius_nm[rows], lon2[rows], lat2[rows], b.radius_nm[rows]))
    return one, two


def _measure(first: Lines, second: Lines, at: Crossing, alt, year: float, code) -> CrossingFixes:
    code = reasons.first(code, at.code)
    fix = describe(first.station, at.lon, at.lat, alt_ft=alt, year=year, code=code)
    other = describe(second.station, at.lon, at.lat, alt_ft=alt, year=year, code=code)
    return CrossingFixes(fix, other.radial_deg, other.dist_nm, other.dme_nm, at.cut_deg)
