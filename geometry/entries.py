"""Entry sectors of holds: which entry a heading at the fix calls for, and the headings to fly."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import flight, geodesy
from .angles import wrap180, wrap360

ENTRIES = ("direct", "teardrop", "parallel")
"""Words by code. ICAO Doc 8168 says 'offset' for the teardrop entry."""
DIRECT, TEARDROP, PARALLEL = range(3)
WORDS = {"icao": ("direct", "offset", "parallel"), "faa": ("direct", "teardrop", "parallel")}


class Sector(NamedTuple):
    """Headings of a sector relative to the inbound course, towards the holding side, and its source."""

    from_deg: float
    to_deg: float
    entry: int
    source: str


_RULE = "FAA AIM 5-3-8 j.3, FIG 5-3-4; ICAO Doc 8168 Vol I, Part I, Section 6, Chapter 1"
SECTORS = (
    Sector(-70.0, 110.0, DIRECT, _RULE),
    Sector(110.0, 180.0, TEARDROP, _RULE),
    Sector(180.0, 290.0, PARALLEL, _RULE),
)
FREEDOM_DEG = 5.0
"""Zone of flexibility on either side of a boundary; same sources (j.8(d))."""
OFFSET_DEG = 30.0
"""Angle between the teardrop's outbound leg and the reciprocal of the inbound course; same sources."""
FAA_FIRST_LEG_S = 60.0
FAA_FIRST_LEG_SOURCE = "FAA AIM 5-3-8 j.3: one minute at every level"
ICAO_LONGEST_OFFSET_S = 90.0
ICAO_LONGEST_OFFSET_SOURCE = "ICAO Doc 8168 Vol I, I-6-1 (from memory): the 30 degree track at most 1.5 minutes"


class Entry(NamedTuple):
    """Entry by heading, N rows: code; also, the other code allowed within the freedom (-1: none)."""

    entry: np.ndarray
    also: np.ndarray


def entry(heading_deg, inbound_deg, side) -> Entry:
    """Entry for a heading at the fix.

    x = side * (heading - inbound): direct in [0, 110] and [290, 360), teardrop in (110, 180], parallel in
    (180, 290). Both ends of the 70 degree line go to direct. Parameters: degrees from one north; side +1
    right, -1 left; they broadcast. Returns: Entry; code -1 where a value is not finite. Source: SECTORS.

    >>> int(entry(120.0, 360.0, 1).entry), int(entry(200.0, 360.0, 1).entry), int(entry(300.0, 360.0, 1).entry)
    (1, 2, 0)
    """
    x = wrap360(np.round(np.asarray(side, float) * (np.asarray(heading_deg, float) - inbound_deg), 9))
    ends = [sector.to_deg for sector in SECTORS]
    inside = [x <= ends[DIRECT], x <= ends[TEARDROP], x < ends[PARALLEL], x < 360.0]
    code = np.select(inside, [DIRECT, TEARDROP, PARALLEL, DIRECT], default=-1)
    also = np.select(
        [np.abs(x - end) <= FREEDOM_DEG + 1e-9 for end in ends],
        [
            np.where(code == DIRECT, TEARDROP, DIRECT),
            np.where(code == TEARDROP, PARALLEL, TEARDROP),
            np.where(code == PARALLEL, DIRECT, PARALLEL),
        ],
        default=-1,
    )
    return Entry(code, np.where(code < 0, -1, also))


ARC_SOURCE = "ICAO Doc 8168 Vol I, I-6-1 (from memory): along a DME arc the entry is sector 1 or sector 3"


def along_arc(found: Entry, heading_deg, inbound_deg, side) -> tuple[Entry, np.ndarray]:
    """Entries of arrivals along a DME arc: no teardrop; its neighbour whose boundary is nearer takes its place.

    Parameters: found, by the sectors; headings and side as entry. Returns: Entry, and true where it was changed.
    Source: ARC_SOURCE; which neighbour: our own choice.
    """
    x = wrap360(np.asarray(side, float) * (np.asarray(heading_deg, float) - inbound_deg))
    barred = found.entry == TEARDROP
    middle = (SECTORS[TEARDROP].from_deg + SECTORS[TEARDROP].to_deg) / 2.0
    code = np.where(barred, np.where(x < middle, DIRECT, PARALLEL), found.entry)
    also = np.where((found.also == TEARDROP) | (found.also == code), -1, found.also)
    return Entry(code, also), barred


class Arrival(NamedTuple):
    """An arrival at a fix, N rows: headings in degrees from the north of the courses given.

    heading_deg at the fix; by_heading and by_course, Entries; barred, true where the heading calls for a teardrop
    which an arc does not allow; outbound_heading_deg and first_leg_s of the first leg, NaN for a direct entry or where
    the wind allows none.
    """

    heading_deg: np.ndarray
    by_heading: Entry
    by_course: Entry
    barred: np.ndarray
    outbound_heading_deg: np.ndarray
    first_leg_s: np.ndarray


def arrive(course_deg, inbound_deg, side, tas_kt, wind_from_deg, wind_kt, rules, leg_s, on_arc=False) -> Arrival:
    """Entry of an arrival on a course in a wind.

    The heading at the fix is course and wind correction; the entry follows from it. First leg: parallel, the
    reciprocal of the inbound course as a track; teardrop, 30 degrees into the pattern, a track by ICAO and a
    heading by FAA; direct, none. Time: FAA one minute at every level, ICAO the outbound time, the 30 degree
    track at most 90 s. Parameters: degrees from one north; kt; rules 0 icao, 1 faa; leg_s, the outbound time
    of the hold; on_arc, true where it arrives along a DME arc; they broadcast. Returns: Arrival. Source: SECTORS;
    FAA_FIRST_LEG_SOURCE; ICAO_LONGEST_OFFSET_SOURCE; ARC_SOURCE.
    """
    given = (course_deg, inbound_deg, side, tas_kt, wind_from_deg, wind_kt, rules, leg_s, on_arc)
    course, inbound, side, tas_kt, wind_from_deg, wind_kt, rules, leg_s, on_arc = np.broadcast_arrays(
        *[np.asarray(a, float) for a in given]
    )
    heading = flight.heading_for_course(course, tas_kt, wind_from_deg, wind_kt).heading_deg
    by_heading, by_course = entry(heading, inbound, side), entry(course, inbound, side)
    allowed, changed = along_arc(by_heading, heading, inbound, side)
    barred = (on_arc != 0.0) & changed
    by_heading = Entry(*[np.where(on_arc != 0.0, a, b) for a, b in zip(allowed, by_heading)])
    back = wrap360(inbound + 180.0)
    offset = wrap360(back - side * OFFSET_DEG)
    corrected_back = flight.heading_for_course(back, tas_kt, wind_from_deg, wind_kt).heading_deg
    corrected_offset = flight.heading_for_course(offset, tas_kt, wind_from_deg, wind_kt).heading_deg
    which = by_heading.entry
    outbound = np.select(
        [which == PARALLEL, (which == TEARDROP) & (rules == 0), which == TEARDROP],
        [corrected_back, corrected_offset, offset],
        default=np.nan,
    )
    icao_s = np.where(which == TEARDROP, np.minimum(leg_s, ICAO_LONGEST_OFFSET_S), leg_s)
    first = np.where((which == DIRECT) | (which < 0), np.nan, np.where(rules == 0, icao_s, FAA_FIRST_LEG_S))
    return Arrival(heading, by_heading, by_course, barred, outbound, first)


def sector_headings(inbound_deg, side) -> tuple[np.ndarray, np.ndarray]:
    """Headings that bound each sector, clockwise from one to the other.

    Parameters: inbound_deg (N,), side (N,). Returns: from_deg, to_deg (N, 3) by ENTRIES, in [0, 360).
    """
    inbound, side = np.atleast_1d(np.asarray(inbound_deg, float)), np.atleast_1d(np.asarray(side, float))
    ends = np.array([[s.from_deg, s.to_deg] for s in SECTORS])
    right = inbound[:, None, None] + side[:, None, None] * ends[None]
    low, high = (
        np.where(side[:, None] > 0, right[..., 0], right[..., 1]),
        np.where(side[:, None] > 0, right[..., 1], right[..., 0]),
    )
    return wrap360(low), wrap360(high)


def sector_rings(lon, lat, inbound_true_deg, side, radius_nm, tolerance_m: float = 5.0):
    """Sectors as pieces of a circle round the fix, on the side the aircraft comes from.

    An aircraft on a heading comes from the bearing heading + 180. Parameters: lon, lat, inbound_true_deg,
    side (N,); radius_nm > 0. Returns: coords (T, 2) of lon (unwrapped) and lat, offsets (3N + 1,), hold by
    hold in the order of ENTRIES; closed rings.
    """
    lon, lat, inbound, side, radius = np.broadcast_arrays(
        *[np.atleast_1d(np.asarray(a, float)) for a in (lon, lat, inbound_true_deg, side, radius_nm)]
    )
    low, high = sector_headings(inbound, side)
    width = wrap180(high - low)
    width = np.where(width <= 0.0, width + 360.0, width)
    pieces = radius / geodesy.longest_piece_nm(np.abs(lat) + radius / 60.0, tolerance_m)
    count = int(np.max(geodesy.chord_count(np.radians(180.0), radius, tolerance_m), initial=1))
    spokes = int(np.max(np.ceil(pieces), initial=1.0))
    bearing = low[..., None] + 180.0 + width[..., None] * np.linspace(0.0, 1.0, count + 1)
    out = np.linspace(0.0, 1.0, spokes + 1)
    all_bearings = np.concatenate(
        [np.repeat(bearing[..., :1], spokes, -1), bearing, np.repeat(bearing[..., -1:], spokes, -1)], axis=-1
    )
    share = np.concatenate([out[:-1], np.ones(count + 1), out[::-1][1:]])
    p_lon, p_lat, _ = geodesy.direct(
        lon[:, None, None], lat[:, None, None], all_bearings, radius[:, None, None] * share
    )
    p_lon = geodesy.unwrap(p_lon, lon[:, None, None])
    p_lon[..., 0], p_lat[..., 0] = lon[:, None], lat[:, None]
    p_lon[..., -1], p_lat[..., -1] = lon[:, None], lat[:, None]
    coords = np.stack([p_lon, p_lat], axis=-1)
    per = coords.shape[2]
    return coords.reshape(-1, 2), np.arange(0, len(lon) * 3 * per + 1, per)
