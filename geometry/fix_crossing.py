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
BEARING_ROUNDS = 40


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
    one, two = _solve(a, b)
    turning = np.flatnonzero(np.isfinite(a.bearing_deg) | np.isfinite(b.bearing_deg))
    if len(turning):
        for out, found in zip((one, two), _at_bearings(a.take(turning), b.take(turning), year)):
            _put(out, turning, found)
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

    def take(self, index) -> _Resolved:
        """A copy of the rows of an index."""
        rest = [getattr(self, f.name)[index].copy() for f in fields(self)[1:]]
        return _Resolved(self.station.take(index), *rest)


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
            reasons.where(
                ~arc & ~navaids.gives_radials(at.kind) & ~navaids.gives_bearings(at.kind), reasons.NO_BEARING
            ),
            reasons.where(needs_decl, reasons.NO_DECLINATION),
            reasons.where(arc & ~navaids.gives_range(at.kind), reasons.NO_RANGE),
            reasons.where(by_slant & ~np.isfinite(at.dme_elev_ft), reasons.NO_ELEVATION),
            reasons.where(by_slant & ~np.isfinite(alt), reasons.NO_ALTITUDE),
            np.where(by_slant, short, reasons.OK),
        )
    var = declination_deg(np.where(code == 0, at.lon, np.nan), at.lat, year=year)
    azimuth = np.where(read_at_fix, value + var, navaids.true_from(value, north, at.decl_deg, var))
    return _Resolved(
        at, arc, azimuth, np.where(slant, ground, value), np.where(read_at_fix & (code == 0), value, np.nan), code
    )


def _at_bearings(a: _Resolved, b: _Resolved, year: float) -> tuple[Crossing, Crossing]:
    """Crossings of lines with NDB bearings among them, which are turned until they are read at the fix.

    Both places have bearings of their own, since variation and the meridian's direction differ from one to the other.
    The start is the bearing as it is at the NDB; where that leaves a place out, as it is beside the other station.
    """
    found = [_read_there(a, b, which, year) for which in (0, 1)]
    again = np.flatnonzero((found[0].code != reasons.OK) | (found[1].code != reasons.OK))
    if len(again):
        pair = a.take(again), b.take(again)
        beside = _as_read_beside(*pair, year), _as_read_beside(*pair[::-1], year)
        other = [_read_there(*beside, which, year) for which in (0, 1)]
        more = sum(at.code == reasons.OK for at in other) > sum(at.code[again] == reasons.OK for at in found)
        for out, at in zip(found, other):
            _put(out, again[more], Crossing(*[v[more] for v in at]))
    return found[0], found[1]


def _read_there(a: _Resolved, b: _Resolved, which: int, year: float) -> Crossing:
    """The first or the second crossing, bearings turned by what is read wrong there until nothing is."""
    a, b = a.take(slice(None)), b.take(slice(None))
    out = _solve(a, b)[which]
    left = np.zeros(len(a.code))
    active = np.arange(len(a.code))
    for _ in range(BEARING_ROUNDS):
        here = a.take(active), b.take(active)
        found = _solve(*here)[which]
        _put(out, active, found)
        errors = [_reading_error(line, found, year) for line in here]
        for line, error in zip((a, b), errors):
            line.azimuth_deg[active] += error
        left[active] = np.maximum(*np.abs(errors))
        active = active[left[active] >= 1e-10]
        if not len(active):
            break
    code = reasons.first(out.code, reasons.where(left > 1e-8, reasons.BEARING_NOT_SOLVED))
    return Crossing(*[np.where(code == reasons.OK, v, np.nan) for v in out[:5]], code)


def _as_read_beside(line: _Resolved, other: _Resolved, year: float) -> _Resolved:
    """A copy of the line, its bearing turned to what it is at the distance of the other station."""
    line = line.take(slice(None))
    lon, lat = other.place
    _, _, away = geodesy.inverse(line.station.lon, line.station.lat, lon, lat)
    for _ in range(5):
        p_lon, p_lat, _ = geodesy.direct(line.station.lon, line.station.lat, line.azimuth_deg, away)
        error = _reading_error(line, Crossing(p_lon, p_lat, away, away, away, line.code), year)
        line.azimuth_deg += np.where(away >= crossings.NEAREST_NM, error, 0.0)
    return line


def _reading_error(line: _Resolved, at: Crossing, year: float) -> np.ndarray:
    """How far the bearing that an NDB gives at a place is from the one wanted; 0 for other lines and no place."""
    place = np.isfinite(line.bearing_deg) & np.isfinite(at.lon)
    if not place.any():
        return np.zeros(len(place))
    lon, lat = np.where(place, at.lon, np.nan), np.where(place, at.lat, np.nan)
    to_station, _, _ = geodesy.inverse(lon, lat, line.station.lon, line.station.lat)
    error = wrap180(line.bearing_deg + 180.0 + declination_deg(lon, lat, year=year) - to_station)
    return np.where(place, error, 0.0)


def _put(out: Crossing, rows, found: Crossing) -> None:
    """Write crossings into rows of others. Their distances are those of the solver's own order: measured anew later."""
    for target, values in zip(out, found):
        target[rows] = values


def _solve(a: _Resolved, b: _Resolved) -> tuple[Crossing, Crossing]:
    """Both crossings of lines as they stand; rows whose lines are not good have none."""
    code = reasons.first(a.code, b.code)
    n = len(code)
    empty = Crossing(*[np.full(n, np.nan) for _ in range(5)], np.zeros(n, dtype=np.int16))
    one = Crossing(*[v.copy() for v in empty[:5]], reasons.where(np.ones(n, bool), reasons.CROSSING_NOT_SOLVED))
    two = Crossing(*[v.copy() for v in one])
    good = code == reasons.OK

    def at(line, kind, rows):
        lon, lat = line.place
        return lon[rows], lat[rows], (line.radius_nm if kind else line.azimuth_deg)[rows]

    rows = np.flatnonzero(good & ~a.arc & ~b.arc)
    if len(rows):
        _put(one, rows, crossings.radial_radial(*at(a, RADIAL, rows), *at(b, RADIAL, rows)))
        two.code[rows] = reasons.ONE_CROSSING
    for ray, arc in ((a, b), (b, a)):
        rows = np.flatnonzero(good & ~ray.arc & arc.arc)
        if len(rows):
            found = crossings.radial_arc(*at(ray, RADIAL, rows), *at(arc, DISTANCE, rows))
            _put(one, rows, found[0])
            _put(two, rows, found[1])
    rows = np.flatnonzero(good & a.arc & b.arc)
    if len(rows):
        found = crossings.arc_arc(*at(a, DISTANCE, rows), *at(b, DISTANCE, rows))
        _put(one, rows, found[0])
        _put(two, rows, found[1])
    return one, two


def _measure(first: Lines, second: Lines, at: Crossing, alt, year: float, code) -> CrossingFixes:
    code = reasons.first(code, at.code)
    fix = describe(first.station, at.lon, at.lat, alt_ft=alt, year=year, code=code)
    other = describe(second.station, at.lon, at.lat, alt_ft=alt, year=year, code=code)
    return CrossingFixes(fix, other.radial_deg, other.dist_nm, other.dme_nm, at.cut_deg)
