"""What every construction gives: polygons in the frame of a hold, and how they are placed on the earth."""

from __future__ import annotations

from typing import Callable, NamedTuple

import numpy as np

from .. import convex, frame_map, geodesy
from ..units import NM_M

AS_ENTERED = "as entered"
"""Mark of a value that the user gave, in place of one of the document's."""


class Designs(NamedTuple):
    """What a construction needs of N holds, in the frame of each: arrays (N,), lists of N where said.

    ias_kt: the fastest that may use the hold. alt_ft: the highest level. outbound_min: still air, of a distance leg
    the time that it takes. leg_nm: length of a distance leg, NaN for a timed one. station_u_nm: how far ahead of the
    fix along the inbound course the defining DME lies (behind it negative), NaN where none does. station_elev_ft.
    tolerance_areas_nm: N arrays (V, 2), corners of the fix tolerance area in the frame; one corner for a point.
    arrivals_deg: N arrays of headings at the fix less the inbound course, in the frame (right turns): the arrivals to
    protect; None for arrivals from everywhere, an empty array for none.
    navaid_nm: how far the navaid that defines the fix lies from it along the ground, NaN where none does.
    """

    ias_kt: np.ndarray
    alt_ft: np.ndarray
    outbound_min: np.ndarray
    leg_nm: np.ndarray
    station_u_nm: np.ndarray
    station_elev_ft: np.ndarray
    tolerance_areas_nm: list
    arrivals_deg: list
    navaid_nm: np.ndarray | None = None


class Options(NamedTuple):
    """What the user chooses for all holds of a run; a construction reads what concerns it.

    tolerance_m: how far a polygon may exceed the true area. step_deg: how finely the template's turns are sampled, a
    divisor of 45 (45: the tabulated discs alone). entries: all (omnidirectional), arrivals (those of the design) or
    none. wind_kt: the 95 % omnidirectional wind of statistics, NaN for the document's formula. tas: how IAS becomes
    TAS at ISA+15: document (K up to 14 000 ft, compressible above), k, or compressible. turbulence: areas take the
    turbulence speed of the level where the design's is slower; category: A/B or H where the hold is limited to these.
    slow_ias_kt: a slow flight that the
    areas consider too (ICAO Doc 8168 Vol II, II-4-1-4, 1.3.3.1.2), NaN for none. navigation: conventional or rnav;
    att_nm, xtt_nm: its along- and cross-track tolerance, NaN for that of the design's tolerance area.
    moc_factor: 1 to 2, of the clearance over high terrain or mountains. category_h: the narrow buffer of helicopters.
    moc_metres: clearances by the document's metres in place of its printed feet.
    outlines: of the outline construction, its templates (outline.Outlines).
    """

    tolerance_m: float = 5.0
    step_deg: float = 1.0
    entries: str = "all"
    wind_kt: float = np.nan
    tas: str = "document"
    turbulence: bool = False
    category: str = ""
    slow_ias_kt: float = 90.0
    navigation: str = "conventional"
    att_nm: float = np.nan
    xtt_nm: float = np.nan
    moc_factor: float = 1.0
    category_h: bool = False
    moc_metres: bool = False
    outlines: NamedTuple | None = None


class Area(NamedTuple):
    """One part of one hold's area: row of the hold, part name, polygons in the frame, figures, sentences.

    Parts of the same names whatever the construction: basic, entry (what the entries add), buffer_1 to buffer_5
    (rings without the one before), or primary and secondary. They do not overlap.
    polygons_nm: each a tuple of open rings (M, 2), the outer one first, counter-clockwise, holes after it, clockwise.
    """

    row: int
    part: str
    polygons_nm: tuple[tuple[np.ndarray, ...], ...]
    moc_ft: float
    alt_ft: float
    tas_kt: float
    wind_kt: float
    limits: str

    @property
    def ring_nm(self) -> np.ndarray:
        """The outer ring of the first polygon: of a part without holes, the whole of it."""
        return self.polygons_nm[0][0]


class LineValue(NamedTuple):
    """One line of a construction's sheet for one hold: number, name, formula, value, unit, paragraph, mark."""

    row: int
    number: str
    name: str
    formula: str
    value: float
    unit: str
    source: str
    mark: str


class Drawn(NamedTuple):
    """One line or lettered point of a construction's drawing: kind (point | arc | tangent | outline | line), letter,
    vertices (M, 2) in the frame (a point has one), radius of an arc, what it is in words."""

    row: int
    kind: str
    letter: str
    path_nm: np.ndarray
    radius_nm: float
    text: str


class Construction(NamedTuple):
    """A rule set: another one is one new file that makes one of these.

    name: as in CONSTRUCTION. areas(designs, options) -> list[Area]; a row it refuses gives no Area and a sentence in
    refusals(designs, options) -> object array (N,), '' where it is built. values(designs, options) -> list[LineValue];
    drawing(designs, options) -> list[Drawn]; both may be empty.
    """

    name: str
    refusals: Callable
    areas: Callable
    values: Callable
    drawing: Callable


def protecting_ring(alpha_rad, support_nm, tolerance_m: float) -> np.ndarray:
    """Frame ring that contains a convex area and, once placed, exceeds it by no more than the tolerance.

    Half of the tolerance goes to the support lines, a quarter is added all round, so that the chords in
    longitude and latitude, cut to the last quarter by place_rings, stay outside the area.
    Parameters: as convex.circumscribed, NM; tolerance_m > 0. Returns: (M, 2), counter-clockwise.
    Errors: ValueError for a tolerance that is not positive.
    """
    if not (np.isfinite(tolerance_m) and tolerance_m > 0.0):
        raise ValueError(f"tolerance_m is {tolerance_m}; it must be a positive number of metres")
    tolerance_nm = tolerance_m / NM_M
    return convex.circumscribed(alpha_rad, np.asarray(support_nm) + tolerance_nm / 4.0, tolerance_nm / 2.0)


def place_rings(lon, lat, inbound_true_deg, side, rings: list[np.ndarray], tolerance_m: float):
    """Frame rings of N holds as closed rings on the earth.

    Parameters: lon, lat, inbound_true_deg, side (N,); rings, N arrays (M, 2) in NM, open; tolerance_m > 0.
    Returns: coords (T, 2) of lon (unwrapped) and lat; offsets (N + 1,).
    Errors: ValueError for a tolerance that is not positive.
    """
    lon, lat, inbound, side = (np.asarray(a, dtype=np.float64) for a in (lon, lat, inbound_true_deg, side))
    reach = [float(np.hypot(ring[:, 0], ring[:, 1]).max()) for ring in rings]
    longest = geodesy.longest_piece_nm(np.abs(lat) + np.array(reach) / 60.0, tolerance_m / 4.0)
    return _place(lon, lat, inbound, side, rings, longest)


def _place(lon, lat, inbound, side, rings: list[np.ndarray], longest: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    if not len(rings):
        return np.zeros((0, 2)), np.zeros(1, dtype=np.int64)
    flat, starts = _split_closed(np.concatenate(rings), _starts(rings), longest)
    owner = np.repeat(np.arange(len(rings)), np.diff(starts))
    out_lon, out_lat = geodesy.place(lon[owner], lat[owner], inbound[owner], side[owner], flat[:, 0], flat[:, 1])
    return np.stack([out_lon, out_lat], axis=1), starts


def _starts(rings: list[np.ndarray]) -> np.ndarray:
    """Where each of some arrays begins once they are one."""
    return np.concatenate([[0], np.cumsum([len(ring) for ring in rings])]).astype(np.int64)


CHORD_SHARE = 0.12
"""Of the tolerance of areas, what is left to edges that are chords in longitude and latitude."""


class Placed(NamedTuple):
    """Areas on the earth: coords (T, 2), closed rings of lon (unwrapped) and lat; rings (R + 1,) where each begins;
    polygons (P + 1,) where the rings of each polygon begin, the outer one first; parts (F + 1,) where the polygons of
    each area begin."""

    coords: np.ndarray
    rings: np.ndarray
    polygons: np.ndarray
    parts: np.ndarray


def place_areas(lon, lat, inbound_true_deg, side, areas: list[Area], tolerance_m: float) -> Placed:
    """Areas of N holds on the earth, each at the hold of its row.

    A hole that is the same array as another ring of that row, run backwards, is placed once. An edge that two rings of
    a row share, whichever way it runs, has the same vertices. Left turns mirror the frame: rings run the other way.
    Parameters: lon, lat, inbound_true_deg, side (N,); areas, rows 0 to N - 1; tolerance_m > 0. Returns: Placed.
    """
    lon, lat, inbound, side = (np.asarray(a, dtype=np.float64) for a in (lon, lat, inbound_true_deg, side))
    index: dict[tuple[int, int], int] = {}
    unique, rows, order, backwards, polygons, parts = [], [], [], [], [0], [0]
    for area in areas:
        for polygon in area.polygons_nm:
            for ring in polygon:
                turned = ring.base is not None and ring.strides[0] < 0 and ring.base.shape == ring.shape
                whole = ring.base if turned else ring
                key = (area.row, id(whole))
                if key not in index:
                    index[key] = len(unique)
                    unique.append(whole)
                    rows.append(area.row)
                order.append(index[key])
                backwards.append(turned)
            polygons.append(len(order))
        parts.append(len(polygons) - 1)
    at = np.array(rows, dtype=np.int64)
    # One length for all of a hold: an edge that two rings share is cut at the same places.
    far = np.zeros(len(lat))
    for row, ring in zip(rows, unique):
        far[row] = max(far[row], float(np.hypot(ring[:, 0], ring[:, 1]).max()))
    longest = geodesy.longest_piece_nm(np.abs(lat) + far / 60.0, tolerance_m * CHORD_SHARE)
    by_row = np.argsort(at, kind="stable")
    order, at, unique = np.argsort(by_row)[order], at[by_row], [unique[k] for k in by_row]
    flat, starts = np.zeros((0, 2)), np.zeros(1, dtype=np.int64)
    if unique:
        flat, starts = _split_closed(np.concatenate(unique), _starts(unique), longest[at])
    of_row = np.concatenate([[0], np.cumsum(np.bincount(at, np.diff(starts), len(lat)))]).astype(np.int64)
    coords = np.stack(frame_map.place_runs(lon, lat, inbound, side, *flat.T, of_row), axis=1)
    pieces = [coords[starts[k] : starts[k + 1]][:: -1 if back else 1] for k, back in zip(order, backwards)]
    rings = np.concatenate([[0], np.cumsum([len(piece) for piece in pieces])]).astype(np.int64)
    return Placed(np.concatenate([*pieces, np.zeros((0, 2))]), rings, np.array(polygons), np.array(parts))


def split_edges(ring: np.ndarray, longest: float) -> np.ndarray:
    """Open ring (M, 2) to a closed one whose edges are no longer than a length, every vertex kept."""
    return _split_closed(ring, np.array([0, len(ring)]), np.array([longest]))[0]


def _split_closed(flat: np.ndarray, starts: np.ndarray, longest: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Open rings, flat, to closed ones with edges no longer than each ring's length; every vertex kept."""
    following = np.arange(1, len(flat) + 1)
    following[starts[1:] - 1] = starts[:-1]
    along = flat[following] - flat
    ratio = np.hypot(along[:, 0], along[:, 1]) / np.repeat(longest, np.diff(starts))
    pieces = np.maximum(1, np.ceil(ratio - 1e-9)).astype(np.int64)
    # One more place a ring: its first vertex again.
    given = pieces.copy()
    given[starts[1:] - 1] += 1
    begins = np.cumsum(given) - given
    ends = begins[starts[1:] - 1] + given[starts[1:] - 1]
    points = np.empty((int(ends[-1]), 2))
    points[begins] = flat
    points[ends - 1] = flat[starts[:-1]]
    long = np.flatnonzero(pieces > 1)
    count = pieces[long] - 1
    owner = np.repeat(long, count)
    step = np.arange(len(owner)) - np.repeat(np.cumsum(count) - count, count) + 1
    # Cut from the same end whichever way the edge runs, so that the cuts are the same to the last bit.
    one, other = flat[owner], flat[following[owner]]
    swap = (one[:, 0] > other[:, 0]) | ((one[:, 0] == other[:, 0]) & (one[:, 1] > other[:, 1]))
    share = np.where(swap, pieces[owner] - step, step) / pieces[owner]
    one, other = np.where(swap[:, None], other, one), np.where(swap[:, None], one, other)
    points[begins[owner] + step] = one + (other - one) * share[:, None]
    return points, np.concatenate([[0], ends])
