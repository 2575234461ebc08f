"""Places of training fixes: by radial and distance, along a track, overhead, by position.

Every function takes a Station (arrays of N rows) and returns a Fixes of N rows with a code each.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

import numpy as np

from . import crossings, geodesy, navaids, reasons
from .angles import wrap180, wrap360
from .magnetism import declination_deg
from .navaids import MODEL, STATION, TRUE

MAX_DISTANCE_NM = 400.0
"""Farther than any of the defining aids is received; common practice."""
SAME_PLACE_NM = 1.0 / 1852.0
DME_APART_NM = 10.0 / 1852.0
"""A DME farther than this from its VOR has an arc of its own; common practice for co-located aids."""


@dataclass(frozen=True)
class Station:
    """Navaids or points that define fixes, N rows: degrees, feet, east positive; kind as navaids.KINDS or ''.

    dme_lon, dme_lat, dme_elev_ft: the DME's own site where it stands apart, else those of the navaid.
    """

    lon: np.ndarray
    lat: np.ndarray
    elev_ft: np.ndarray
    decl_deg: np.ndarray
    kind: np.ndarray
    dme_lon: np.ndarray
    dme_lat: np.ndarray
    dme_elev_ft: np.ndarray

    @classmethod
    def of(
        cls, lon, lat, elev_ft=np.nan, decl_deg=np.nan, kind="", dme_lon=np.nan, dme_lat=np.nan, dme_elev_ft=np.nan
    ) -> Station:
        """A Station from anything that broadcasts; a DME site that is not finite is the navaid's."""
        given = (lon, lat, elev_ft, decl_deg, dme_lon, dme_lat, dme_elev_ft)
        shape = np.broadcast_shapes((1,), np.shape(kind), *[np.shape(a) for a in given])
        lon, lat, elev, decl, d_lon, d_lat, d_elev = [
            np.broadcast_to(np.asarray(a, dtype=np.float64), shape) for a in given
        ]
        apart = np.isfinite(d_lon) & np.isfinite(d_lat)
        return cls(
            lon,
            lat,
            elev,
            decl,
            np.broadcast_to(np.asarray(kind, dtype=object), shape),
            np.where(apart, d_lon, lon),
            np.where(apart, d_lat, lat),
            np.where(apart & np.isfinite(d_elev), d_elev, elev),
        )

    def spread(self, shape) -> Station:
        """The same stations broadcast to a shape."""
        return Station(*[np.broadcast_to(getattr(self, f.name), shape) for f in fields(self)])

    def dme_apart_nm(self) -> np.ndarray:
        """Distance between the navaid and its DME."""
        return geodesy.inverse(self.lon, self.lat, self.dme_lon, self.dme_lat)[2]

    def take(self, index) -> Station:
        """The rows of an index or mask."""
        return Station(*[getattr(self, f.name)[index] for f in fields(self)])


@dataclass(frozen=True)
class Fixes:
    """Fixes of N rows.

    lon, lat; radial_deg by the station's own north (an NDB: the bearing read at the fix); dist_nm along the
    ground; dme_nm, slant; the course at the fix in three norths (course_station_deg is what a course selector
    shows for that line); var_deg of the model at the fix; code, see reasons.
    """

    lon: np.ndarray
    lat: np.ndarray
    radial_deg: np.ndarray
    dist_nm: np.ndarray
    dme_nm: np.ndarray
    course_true_deg: np.ndarray
    course_model_deg: np.ndarray
    course_station_deg: np.ndarray
    var_deg: np.ndarray
    alt_ft: np.ndarray
    code: np.ndarray


def position_codes(lon, lat) -> np.ndarray:
    """Codes of input positions: not finite, or nearer a pole than 85 degrees."""
    lon, lat = np.broadcast_arrays(np.asarray(lon, float), np.asarray(lat, float))
    good = np.isfinite(lon) & np.isfinite(lat) & (np.abs(lat) <= 90.0) & (np.abs(lon) <= 360.0)
    with np.errstate(invalid="ignore"):
        polar = np.abs(lat) > geodesy.MAX_LATITUDE_DEG
    return reasons.first(reasons.where(~good, reasons.NO_POSITION), reasons.where(polar, reasons.NEAR_POLE))


def radial_distance(
    station: Station, radial_deg, distance_nm, *, slant=False, alt_ft=np.nan, north=STATION, year: float
) -> Fixes:
    """Fixes on a radial (or NDB bearing from the station) at a distance.

    The geodesic from the station at radial + declination; a slant distance is first reduced to the ground.
    Where the DME stands more than 10 m from the navaid the fix is the crossing of the radial and its arc.
    An NDB has no alignment: from station or model north its bearing is read with the model's variation at
    the fix, so the place is solved there. Other kinds without radials use the model at the station.

    Parameters: station, N rows; radial_deg [0, 360]; distance_nm (0, 400]; slant, true where the distance is
    DME; alt_ft; north, codes of NORTHS (model: variation at the station); year, decimal. They broadcast.
    Returns: Fixes, the course towards the station. Errors: ValueError for a year outside the model.
    Source: ICAO Doc 8168 Vol II, 5th ed., I-2-2 (fixes by VOR and DME); aeronautical glossary, slaved
    declination (a radial keeps the station's own north).
    """
    station, radial, distance, alt, north, slant = _rows(station, radial_deg, distance_nm, alt_ft, north, slant)
    height = navaids.height_nm(alt, station.dme_elev_ft)
    from_slant, short = navaids.ground_from_slant_nm(distance, height)
    ground = np.where(slant, from_slant, distance)

    bearing_read_at_fix = navaids.gives_bearings(station.kind) & (north != TRUE)
    north = np.where((north == STATION) & ~navaids.gives_radials(station.kind), MODEL, north)
    need_decl = north == STATION
    with np.errstate(invalid="ignore"):
        code = reasons.first(
            position_codes(station.lon, station.lat),
            reasons.where(~(np.isfinite(radial) & np.isfinite(distance)), reasons.NOT_FINITE),
            reasons.where((radial < 0.0) | (radial > 360.0), reasons.RADIAL_RANGE),
            reasons.where((distance <= 0.0) | (distance > MAX_DISTANCE_NM), reasons.DISTANCE_RANGE),
            reasons.where(need_decl & ~np.isfinite(station.decl_deg), reasons.NO_DECLINATION),
            reasons.where(slant & ~navaids.gives_range(station.kind), reasons.NO_RANGE),
            reasons.where(slant & ~np.isfinite(station.dme_elev_ft), reasons.NO_ELEVATION),
            reasons.where(slant & ~np.isfinite(alt), reasons.NO_ALTITUDE),
            np.where(slant, short, reasons.OK),
        )
    good = code == reasons.OK
    lon0, lat0 = np.where(good, station.lon, np.nan), np.where(good, station.lat, np.nan)
    azimuth = navaids.true_from(radial, north, station.decl_deg, declination_deg(lon0, lat0, year=year))
    lon, lat, _ = geodesy.direct(lon0, lat0, azimuth, ground)
    apart = good & ~bearing_read_at_fix & (station.dme_apart_nm() > DME_APART_NM)
    if apart.any():
        site = station.take(apart)
        at, _ = crossings.radial_arc(site.lon, site.lat, azimuth[apart], site.dme_lon, site.dme_lat, ground[apart])
        lon, lat = lon.copy(), lat.copy()
        lon[apart], lat[apart], code[apart] = at.lon, at.lat, at.code
    ndb = good & bearing_read_at_fix
    if ndb.any():
        lon, lat = lon.copy(), lat.copy()
        lon[ndb], lat[ndb], solved = _on_bearing(station.take(ndb), radial[ndb], ground[ndb], year)
        code[ndb] = reasons.where(~solved, reasons.BEARING_NOT_SOLVED)
    return describe(station, lon, lat, alt_ft=alt, year=year, code=code)


def _on_bearing(station: Station, bearing_deg, ground_nm, year: float):
    """Places P at a distance where the course from P to the station is bearing + 180 + variation(P)."""
    azimuth = bearing_deg + declination_deg(station.lon, station.lat, year=year)
    lon, lat = np.full(len(azimuth), np.nan), np.full(len(azimuth), np.nan)
    before, error_before = np.full(len(azimuth), np.nan), np.full(len(azimuth), np.nan)
    active = np.arange(len(azimuth))
    solved = np.zeros(len(azimuth), dtype=bool)
    for _ in range(40):
        site, here = station.take(active), azimuth[active]
        p_lon, p_lat, _ = geodesy.direct(site.lon, site.lat, here, ground_nm[active])
        to_station, _, _ = geodesy.inverse(p_lon, p_lat, site.lon, site.lat)
        error = wrap180(bearing_deg[active] + 180.0 + declination_deg(p_lon, p_lat, year=year) - to_station)
        lon[active], lat[active] = p_lon, p_lat
        done = np.abs(error) < 1e-10
        solved[active] = np.abs(error) < 1e-8
        with np.errstate(divide="ignore", invalid="ignore"):
            slope = (error - error_before[active]) / (here - before[active])
            step = np.where(np.isfinite(slope) & (slope < -0.05), -error / slope, error)
        before[active], error_before[active] = here, error
        azimuth[active] = here + np.clip(step, -30.0, 30.0)
        active = active[~done & np.isfinite(error)]
        if not len(active):
            break
    return lon, lat, solved


def along_track(
    point: Station,
    distance_nm,
    *,
    beyond=False,
    course_deg=np.nan,
    north=STATION,
    from_lon=np.nan,
    from_lat=np.nan,
    alt_ft=np.nan,
    year: float,
) -> tuple[Fixes, np.ndarray, np.ndarray]:
    """Fixes before or beyond a point on a course, or on the present course from a position.

    The course is the direction of travel at the point: as given from one of the norths (model: variation at
    the point), or, where a position is given, the course at the point of the geodesic from that position.
    Parameters: point, N rows; distance_nm [0, 400]; beyond, true past the point; course_deg [0, 360];
    north codes; from_lon, from_lat; alt_ft; year. They broadcast; a position goes before a course.
    Returns: Fixes with the course in the direction of travel; to_go_nm from the position to the fix (NaN
    without one; negative where the fix lies behind); passed, true where it lies behind.
    Source: geodesic along-track distance; wording "on present course", common practice.
    """
    point, distance, beyond, course, north, from_lon, from_lat, alt = _rows(
        point, distance_nm, beyond, course_deg, north, from_lon, from_lat, alt_ft
    )
    from_position = np.isfinite(from_lon) & np.isfinite(from_lat)
    _, present_course, to_point = geodesy.inverse(from_lon, from_lat, point.lon, point.lat)
    aligned = navaids.gives_radials(point.kind) & np.isfinite(point.decl_deg)
    unaligned_kind = ~navaids.gives_radials(point.kind)
    use_model = (north == MODEL) | ((north == STATION) & unaligned_kind)
    need_decl = (north == STATION) & ~use_model & ~from_position
    with np.errstate(invalid="ignore"):
        code = reasons.first(
            position_codes(point.lon, point.lat),
            np.where(from_position, position_codes(from_lon, from_lat), reasons.OK),
            reasons.where(~np.isfinite(distance), reasons.NOT_FINITE),
            reasons.where((distance < 0.0) | (distance > MAX_DISTANCE_NM), reasons.DISTANCE_RANGE),
            reasons.where(~from_position & ~np.isfinite(course), reasons.NO_COURSE),
            reasons.where(~from_position & ((course < 0.0) | (course > 360.0)), reasons.COURSE_RANGE),
            reasons.where(need_decl & ~np.isfinite(point.decl_deg), reasons.NO_DECLINATION),
            reasons.where(from_position & (to_point < SAME_PLACE_NM), reasons.SAME_PLACE),
        )
    good = code == reasons.OK
    lon0, lat0 = np.where(good, point.lon, np.nan), np.where(good, point.lat, np.nan)
    var = declination_deg(lon0, lat0, year=year)
    given = navaids.true_from(course, np.where(use_model, MODEL, north), point.decl_deg, var)
    at_point = np.where(from_position, present_course, given)
    signed = np.where(beyond, distance, -distance)
    lon, lat, at_fix = geodesy.direct(lon0, lat0, at_point, signed)
    fix = describe(point, lon, lat, alt_ft=alt, year=year, code=code, course_true_deg=at_fix)
    on_selector = np.where(aligned, wrap360(at_point - point.decl_deg), fix.course_model_deg)
    fix = replace(fix, course_station_deg=np.where(good, on_selector, np.nan))
    to_go = np.where(from_position & good, to_point + signed, np.nan)
    with np.errstate(invalid="ignore"):
        return fix, to_go, to_go < 0.0


def overhead(station: Station, *, course_deg=np.nan, north=STATION, alt_ft=np.nan, year: float) -> Fixes:
    """Fixes overhead a navaid or point, with the arrival course where one is given.

    Parameters: station, N rows; course_deg [0, 360] in the direction of travel, north codes (station: the
    selector's; of an unaligned kind and model: variation there). Returns: Fixes; no radial overhead.
    """
    unknown = np.isnan(np.asarray(course_deg, dtype=np.float64))
    fix, _, _ = along_track(
        station, 0.0, course_deg=np.where(unknown, 0.0, course_deg), north=np.where(unknown, TRUE, north),
        alt_ft=alt_ft, year=year,
    )
    unknown = np.broadcast_to(unknown, fix.lon.shape)
    blank = {n: np.where(unknown, np.nan, getattr(fix, n)) for n in _COURSES}
    return replace(fix, radial_deg=np.full(fix.lon.shape, np.nan), **blank)


def coordinates(lon, lat, station: Station | None = None, *, alt_ft=np.nan, year: float) -> Fixes:
    """Fixes given by position, measured from a station where one is given; the course towards it.

    Parameters: lon, lat degrees, N rows; station, N rows with NaN positions where there is none.
    Returns: Fixes.
    """
    lon, lat = np.broadcast_arrays(np.atleast_1d(np.asarray(lon, float)), np.asarray(lat, float))
    if station is None:
        station = Station.of(np.full(lon.shape, np.nan), np.nan)
    has = np.isfinite(station.lon) & np.isfinite(station.lat)
    code = reasons.first(
        position_codes(lon, lat), np.where(has, position_codes(station.lon, station.lat), reasons.OK)
    )
    good = code == reasons.OK
    return describe(
        station, np.where(good, lon, np.nan), np.where(good, lat, np.nan), alt_ft=alt_ft, year=year, code=code
    )


_COURSES = ("course_true_deg", "course_model_deg", "course_station_deg")


def describe(station: Station, lon, lat, *, alt_ft, year: float, code, course_true_deg=None) -> Fixes:
    """Measure fixes from their stations: radial, distances, courses, variation.

    Parameters: station, N rows (NaN where there is none); lon, lat of the fixes; alt_ft; year; code so far;
    course_true_deg, the course at the fix where it is not the one towards the station.
    Returns: Fixes. Rows whose code is not 0 hold NaN.
    """
    good = np.asarray(code) == reasons.OK
    lon, lat = np.where(good, lon, np.nan), np.where(good, lat, np.nan)
    alt = np.broadcast_to(np.asarray(alt_ft, dtype=np.float64), lon.shape)
    towards, at_station, dist = geodesy.inverse(lon, lat, station.lon, station.lat)
    away_at_station = at_station + 180.0
    apart = dist >= SAME_PLACE_NM
    var = declination_deg(lon, lat, year=year)

    ndb = navaids.gives_bearings(station.kind)
    aligned = navaids.gives_radials(station.kind) & np.isfinite(station.decl_deg)
    radial = np.where(aligned, away_at_station - station.decl_deg, np.where(ndb, towards + 180.0 - var, np.nan))
    radial = np.where(apart, wrap360(radial), np.nan)
    selector_to = np.where(aligned, radial + 180.0, towards - var)
    if course_true_deg is None:
        course, on_selector = np.where(apart, towards, np.nan), np.where(apart, selector_to, np.nan)
    else:
        course, on_selector = course_true_deg, course_true_deg - var
    _, _, dme_dist = geodesy.inverse(lon, lat, station.dme_lon, station.dme_lat)
    slant = navaids.slant_from_ground_nm(dme_dist, navaids.height_nm(alt, station.dme_elev_ft))
    return Fixes(
        lon=wrap180(lon),
        lat=lat,
        radial_deg=radial,
        dist_nm=dist,
        dme_nm=np.where(navaids.gives_range(station.kind), slant, np.nan),
        course_true_deg=wrap360(course),
        course_model_deg=wrap360(course - var),
        course_station_deg=wrap360(on_selector),
        var_deg=var,
        alt_ft=alt,
        code=np.asarray(code, dtype=np.int16),
    )



def _rows(station: Station, *values):
    """Station and values broadcast to N rows: numbers as float64, flags and codes as they are."""
    arrays = [np.asarray(value) for value in values]
    arrays = [a if a.dtype.kind in "biu" else a.astype(np.float64) for a in arrays]
    shape = np.broadcast_shapes(station.lon.shape, *[a.shape for a in arrays])
    return station.spread(shape), *[np.broadcast_to(a, shape) for a in arrays]
