"""Lines of position: the origin of each, its tolerance and its two limits."""

from __future__ import annotations

from dataclasses import fields

import numpy as np

from .. import crossings, geodesy, navaids, reasons
from ..angles import cut_angle
from ..fixes import DME_APART_NM, Station, position_codes
from ..flight import ICAO
from .accuracy import aid_of, angle_tolerance_deg, dme_tolerance_nm
from .figures import FIGURES
from .given import Fix
from .methods import ARC_ARC, OVERHEAD, RADIAL_ARC, RADIAL_RADIAL


class Line:
    """One line of position, N rows: an arc or a radial, its origin, value, tolerance, limits (N, 2), code."""

    def __init__(self, arc, lon, lat, value, height, kind, miss, code) -> None:
        self.arc, self.lon, self.lat, self.value, self.height = arc, lon, lat, value, height
        self.kind, self.miss, self.code = kind, miss, code
        self.tolerance = np.full(len(arc), np.nan)
        self.limits = np.full((len(arc), 2), np.nan)


def or_first(second: Station | None, first: Station, fix: Fix) -> Station:
    """The second station, the first standing in for it where the arc of a radial has no station of its own."""
    second = (Station.of(np.nan, np.nan) if second is None else second).spread(fix.lon.shape)
    missing = (fix.method == RADIAL_ARC) & ~np.isfinite(second.lon)
    return Station(*[np.where(missing, getattr(first, f.name), getattr(second, f.name)) for f in fields(Station)])


def line_of(fix: Fix, station: Station, arc, used, azimuth, slant) -> Line:
    """The line of a station: an arc or a radial, measured to the fix where no value is given; used, where it counts."""
    shape = fix.lon.shape
    at = station.spread(shape)
    azimuth, slant = [np.broadcast_to(np.asarray(a, dtype=np.float64), shape) for a in (azimuth, slant)]
    lon, lat = np.where(arc, at.dme_lon, at.lon), np.where(arc, at.dme_lat, at.lat)
    code = np.where(used, position_codes(lon, lat), reasons.OK)
    lon = np.where(code == 0, lon, np.nan)
    to_fix, at_fix, distance = geodesy.inverse(lon, lat, fix.lon, fix.lat)
    height = navaids.height_nm(fix.alt, at.dme_elev_ft)
    slant = np.where(np.isfinite(slant), slant, navaids.slant_from_ground_nm(distance, height))
    azimuth = np.where(np.isfinite(azimuth), azimuth, to_fix)
    with np.errstate(invalid="ignore"):
        arc_code = reasons.first(
            reasons.where(~navaids.gives_range(at.kind), reasons.NO_RANGE),
            reasons.where(~np.isfinite(at.dme_elev_ft), reasons.NO_ELEVATION),
            reasons.where(~np.isfinite(fix.alt), reasons.NO_ALTITUDE),
            reasons.where((slant <= 0.0) | (slant > crossings.FARTHEST_NM), reasons.DISTANCE_RANGE),
            reasons.where(np.abs(height) >= slant, reasons.SLANT_TOO_SHORT),
        )
    radial_code = reasons.where(aid_of(at.kind) < 0, reasons.NO_BEARING)
    code = reasons.first(code, np.where(used, np.where(arc, arc_code, radial_code), reasons.OK))
    return Line(arc, lon, lat, np.where(arc, slant, azimuth), height, at.kind, cut_angle(fix.course, at_fix), code)


def set_one_site(fix: Fix, one: Line, two: Line) -> None:
    """A DME beside its VOR is taken to stand on it."""
    apart = geodesy.inverse(one.lon, one.lat, two.lon, two.lat)[2]
    with np.errstate(invalid="ignore"):
        same = (fix.method == RADIAL_ARC) & (apart <= DME_APART_NM)
    two.lon, two.lat = np.where(same, one.lon, two.lon), np.where(same, one.lat, two.lat)


def set_limits(fix: Fix, one: Line, two: Line, margin_nm: float) -> None:
    """Tolerances and limits of both lines: azimuths, or ground radii (0 where the reading may be overhead)."""
    with np.errstate(invalid="ignore"):
        on_second = (two.miss <= FIGURES["on_course_deg"].value) & (two.miss < one.miss)
    on_second &= fix.method == RADIAL_RADIAL
    for line, tracking in ((one, ~on_second), (two, on_second)):
        angle = angle_tolerance_deg(line.kind, tracking, fix.rules)
        line.tolerance = np.where(line.arc, dme_tolerance_nm(line.value, fix.rules), angle)
        for k, sign in enumerate((-1.0, 1.0)):
            limit = line.value + sign * line.tolerance
            ground = np.sqrt(np.maximum(limit**2 - line.height**2, 0.0))
            # an inner radius of the margin's size would turn inside out when pushed
            ground = np.where((limit > np.abs(line.height)) & (ground >= 2.0 * margin_nm), ground, 0.0)
            line.limits[:, k] = np.where(line.arc, ground, limit)


def own_codes(fix: Fix, first: Station, one: Line, two: Line) -> np.ndarray:
    """What only one method asks for."""
    elev, kind = first.elev_ft, first.kind
    overhead, aid = fix.method == OVERHEAD, aid_of(kind)
    two_sites = (one.lon != two.lon) | (one.lat != two.lat)
    with np.errstate(invalid="ignore"):
        inner_lost = (one.arc & (one.limits[:, 0] == 0.0)) | (two.arc & (two.limits[:, 0] == 0.0) & two_sites)
        return reasons.first(
            reasons.where(overhead & (fix.rules != ICAO), reasons.NO_OVERHEAD_TOLERANCE),
            reasons.where(overhead & (aid != 0) & (aid != 1), reasons.NO_CONE),
            reasons.where(overhead & ~np.isfinite(elev), reasons.NO_ELEVATION),
            reasons.where(overhead & ~np.isfinite(fix.alt), reasons.NO_ALTITUDE),
            reasons.where(overhead & (fix.alt <= elev), reasons.NOT_ABOVE_STATION),
            reasons.where((fix.method <= ARC_ARC) & inner_lost, reasons.TOLERANCE_UNBOUNDED),
        )
