"""Fix tolerance areas: where an aircraft may be that reads its aids within their accuracy.

An area is bounded by four edges: the two limits of one line of position and the two of the other, or four edges
in the frame of the inbound course. Every edge starts from an origin in polar or in frame coordinates, is pushed
outwards by a small margin, and is placed by one geodesic call for all points of all rows.
"""

from __future__ import annotations

from dataclasses import fields
from typing import NamedTuple

import numpy as np

from . import crossings, geodesy, navaids, reasons
from .angles import cosd, sind, wrap180
from .fixes import DME_APART_NM, Station, position_codes
from .flight import RULES
from .units import NM_M

METHODS = ("radial_arc", "radial_radial", "arc_arc", "overhead", "gnss")
"""What defines a fix, in the order of the codes 0 to 4."""
RADIAL_ARC, RADIAL_RADIAL, ARC_ARC, OVERHEAD, GNSS = range(5)

AIDS = ("vor", "ndb", "localizer")
"""TACAN azimuth counts as VOR."""


class Figure(NamedTuple):
    """A figure of a rule: value, unit, mark (published | from memory | derived), source."""

    value: float
    unit: str
    mark: str
    source: str


_ICAO = "ICAO Doc 8168 Vol II, 5th ed. 2006, "
_TABLE = _ICAO + "Table I-2-2-1; the root sum square of its components gives it"
_COMPONENT = _ICAO + "II-3-1, Appendix B"
_FTT = _ICAO + "Part I, Section 2, Chapter 2"
_CONE = _ICAO + "p. I-2-2-4"
_DME = "ICAO Doc 8168 Vol I, 5th ed. 2006, I-2-2, 2.4.2; Vol II, p. I-4-3-App C-14"
_FAA = "FAA Order 8260.3, section on fixes (8260.3B, paras 281 to 287)"
_MEMORY, _PUBLISHED, _DERIVED = "from memory", "published", "derived"

FIGURES = {
    "icao_vor_track_deg": Figure(5.2, "deg", _MEMORY, _TABLE),
    "icao_vor_cross_deg": Figure(4.5, "deg", _MEMORY, _TABLE),
    "icao_ndb_track_deg": Figure(6.9, "deg", _MEMORY, _TABLE),
    "icao_ndb_cross_deg": Figure(6.2, "deg", _MEMORY, _TABLE),
    "icao_localizer_track_deg": Figure(2.4, "deg", _MEMORY, _TABLE),
    "icao_localizer_cross_deg": Figure(1.4, "deg", _MEMORY, _TABLE),
    "icao_dme_least_nm": Figure(0.25, "NM", _PUBLISHED, _DME),
    "icao_dme_share": Figure(0.0125, "of the slant range", _PUBLISHED, _DME),
    "icao_vor_cone_deg": Figure(50.0, "deg from the vertical", _PUBLISHED, _CONE),
    "icao_ndb_cone_deg": Figure(40.0, "deg from the vertical", _PUBLISHED, _CONE),
    "icao_cone_nm_per_thousand_ft": Figure(0.164, "NM/1000 ft", _PUBLISHED, _ICAO + "Table I-4-3-App C-1, line 11"),
    "icao_vor_entry_nm_per_thousand_ft": Figure(0.033, "NM/1000 ft", _PUBLISHED, _CONE),
    "icao_ndb_entry_deg": Figure(15.0, "deg", _PUBLISHED, _CONE),
    "icao_cone_track_deg": Figure(5.0, "deg", _PUBLISHED, _CONE),
    "faa_vor_track_deg": Figure(4.5, "deg", _MEMORY, _FAA),
    "faa_vor_cross_deg": Figure(3.6, "deg", _PUBLISHED, _FAA + ", seen in a quotation"),
    "faa_ndb_track_deg": Figure(5.0, "deg", _MEMORY, _FAA),
    "faa_ndb_cross_deg": Figure(5.0, "deg", _MEMORY, _FAA),
    "faa_localizer_track_deg": Figure(1.0, "deg", _MEMORY, _FAA),
    "faa_localizer_cross_deg": Figure(0.5, "deg", _MEMORY, _FAA),
    "faa_dme_least_nm": Figure(0.5, "NM", _MEMORY, _FAA),
    "faa_dme_share": Figure(0.03, "of the slant range", _MEMORY, _FAA),
    "gnss_along_nm": Figure(0.8, "NM", _MEMORY, "ICAO Doc 8168 Vol II, RNAV 1 within 30 NM of the aerodrome: ATT"),
    "gnss_across_nm": Figure(1.0, "NM", _MEMORY, "ICAO Doc 8168 Vol II, RNAV 1 within 30 NM of the aerodrome: XTT"),
    "on_course_deg": Figure(5.0, "deg", _DERIVED, "chosen here: a course this near a line is flown along that line"),
}
"""Every figure of this file with its source. The FAA's area overhead a station could not be seen: none is given."""

COMPONENTS = {
    "icao_vor_cross_deg": (
        Figure(3.5, "deg", _PUBLISHED, _COMPONENT + ": ground"),
        Figure(1.0, "deg", _PUBLISHED, _COMPONENT + ": monitor"),
        Figure(2.7, "deg", _PUBLISHED, _COMPONENT + ": receiver"),
    ),
    "icao_vor_track_deg": (
        Figure(3.5, "deg", _PUBLISHED, _COMPONENT + ": ground"),
        Figure(1.0, "deg", _PUBLISHED, _COMPONENT + ": monitor"),
        Figure(2.7, "deg", _PUBLISHED, _COMPONENT + ": receiver"),
        Figure(2.5, "deg", _MEMORY, _FTT + ": flight technical"),
    ),
    "icao_ndb_cross_deg": (
        Figure(3.0, "deg", _PUBLISHED, _COMPONENT + ": ground"),
        Figure(5.4, "deg", _PUBLISHED, _COMPONENT + ": receiver"),
    ),
    "icao_ndb_track_deg": (
        Figure(3.0, "deg", _PUBLISHED, _COMPONENT + ": ground"),
        Figure(5.4, "deg", _PUBLISHED, _COMPONENT + ": receiver"),
        Figure(3.0, "deg", _MEMORY, _FTT + ": flight technical"),
    ),
    "icao_localizer_cross_deg": (
        Figure(1.0, "deg", _MEMORY, _FTT + ": ground"),
        Figure(1.0, "deg", _MEMORY, _FTT + ": receiver"),
    ),
    "icao_localizer_track_deg": (
        Figure(1.0, "deg", _MEMORY, _FTT + ": ground"),
        Figure(1.0, "deg", _MEMORY, _FTT + ": receiver"),
        Figure(2.0, "deg", _MEMORY, _FTT + ": flight technical"),
    ),
}
"""What the ICAO angles are made of: ground, monitor and receiver; the aid that gives track adds the pilot's part."""

_V = {name: figure.value for name, figure in FIGURES.items()}
_ANGLES = np.array([[[_V[f"{r}_{a}_{use}_deg"] for use in ("track", "cross")] for a in AIDS] for r in RULES])
_DME_LEAST = np.array([_V[f"{r}_dme_least_nm"] for r in RULES])
_DME_SHARE = np.array([_V[f"{r}_dme_share"] for r in RULES])
_CORNER_1, _CORNER_2 = np.array([0, 0, 1, 1]), np.array([0, 1, 0, 1])
# Edges in the order of the ring A1 A2 A4 A3: the line each lies on, which of its two limits, from corner, to corner.
_EDGE_LINE, _EDGE_LIMIT = np.array([0, 1, 0, 1]), np.array([0, 1, 1, 0])
_FROM, _TO = np.array([0, 1, 3, 2]), np.array([1, 3, 2, 0])
_ARC_SHARE, _MARGIN_SHARE = 0.5, 0.2


class ToleranceAreas(NamedTuple):
    """Fix tolerance areas of N rows.

    coords (T, 2), lon (unwrapped to the fix) and lat of closed rings, row i from offsets[i] to offsets[i + 1]
    (empty where code is not 0); the four half-widths and area_nm2 of that polygon in the frame of the inbound
    course, left and right as seen flying inbound (one is negative where the fix lies outside its area); corners
    (N, 4, 2), A1 to A4: A1 and A2 on the lower limit of the first line (near, far), A3 and A4 on the upper one;
    the tolerances used, NaN where a line has none; code, see reasons.
    """

    coords: np.ndarray
    offsets: np.ndarray
    along_ahead_nm: np.ndarray
    along_behind_nm: np.ndarray
    across_left_nm: np.ndarray
    across_right_nm: np.ndarray
    area_nm2: np.ndarray
    corners: np.ndarray
    angle_1_deg: np.ndarray
    angle_2_deg: np.ndarray
    range_1_nm: np.ndarray
    range_2_nm: np.ndarray
    code: np.ndarray


def aid_of(kinds) -> np.ndarray:
    """Index in AIDS of station kinds, -1 for a kind without bearings. '' counts as VOR. Shape of kinds."""
    localizer = np.isin(np.asarray(kinds, dtype=object), navaids.LOCALIZERS)
    by_kind = np.where(navaids.gives_bearings(kinds), 1, np.where(navaids.gives_radials(kinds), 0, -1))
    return np.where(localizer, 2, by_kind)


def angle_tolerance_deg(kinds, tracking, rules) -> np.ndarray:
    """Angular accuracy of an aid.

    Parameters: kinds, of navaids.KINDS; tracking, true for the aid that gives the course flown, false
    for the one that crosses it; rules, codes of RULES (0 icao, 1 faa). They broadcast.
    Returns: degrees either side, NaN for a kind without bearings. Source: FIGURES.

    >>> float(angle_tolerance_deg("VOR", True, 0)), float(angle_tolerance_deg("NDB", False, 1))
    (5.2, 5.0)
    """
    aid, use, rules = np.broadcast_arrays(aid_of(kinds), np.where(np.asarray(tracking, bool), 0, 1), rules)
    return np.where(aid < 0, np.nan, _ANGLES[rules, aid, use])


def dme_tolerance_nm(slant_nm, rules) -> np.ndarray:
    """Accuracy of a slant range: icao 0.25 NM + 1.25 %, faa the larger of 0.5 NM and 3 %.

    Parameters: slant_nm >= 0; rules, codes of RULES. They broadcast. Returns: NM either side. Source: FIGURES.

    >>> float(dme_tolerance_nm(20.0, 0)), float(dme_tolerance_nm(40.0, 1))
    (0.5, 1.2)
    """
    slant, rules = np.broadcast_arrays(np.asarray(slant_nm, dtype=np.float64), rules)
    least, part = _DME_LEAST[rules], _DME_SHARE[rules] * slant
    return np.where(rules == 0, least + part, np.maximum(least, part))


def root_sum_square(*components) -> np.ndarray:
    """Root of the sum of squares of independent errors, which broadcast. Source: Doc 8168 Vol II, I-2-2, 2.3.3.

    >>> round(float(root_sum_square(3.5, 1.0, 2.7)), 2)
    4.53
    """
    return np.sqrt(sum(np.asarray(c, dtype=np.float64) ** 2 for c in components))


def overhead_cone(height_ft, kinds) -> tuple[np.ndarray, np.ndarray]:
    """Cone overhead a VOR or NDB by the ICAO rule.

    Radius 0.164 h tan(50) (VOR) or tan(40) (NDB), h in thousand feet above the station. The aircraft enters
    eta off the line through the station: sin(eta) = 0.033 h / radius (VOR), eta = 15 (NDB).
    Parameters: height_ft above the station, > 0; kinds. They broadcast. Returns: radius NM, eta degrees; NaN
    for no height and for a kind without a cone. Source: FIGURES.

    >>> radius, eta = overhead_cone(6000.0, "VOR")
    >>> round(float(radius), 4), round(float(eta), 3)
    (1.1727, 9.721)
    """
    aid, height = np.broadcast_arrays(aid_of(kinds), np.asarray(height_ft, dtype=np.float64) / 1000.0)
    cone = np.where(aid == 1, _V["icao_ndb_cone_deg"], _V["icao_vor_cone_deg"])
    per_thousand = _V["icao_cone_nm_per_thousand_ft"] * np.tan(np.radians(cone))
    vor_eta = np.degrees(np.arcsin(_V["icao_vor_entry_nm_per_thousand_ft"] / per_thousand))
    with np.errstate(invalid="ignore"):
        good = (height > 0.0) & ((aid == 0) | (aid == 1))
    eta = np.where(aid == 1, _V["icao_ndb_entry_deg"], vor_eta)
    return np.where(good, per_thousand * height, np.nan), np.where(good, eta, np.nan)


def fix_displacement_nm(distance_nm, cut_deg, error_deg) -> tuple[np.ndarray, np.ndarray]:
    """How far along the course a crossing line shifts the fix, by the law of sines in a plane.

    On the side where the course nears the crossing aid: D sin B / sin(A + B); on the side where it leaves it:
    D sin B / sin(A - B). Parameters: distance_nm D to the crossing aid, >= 0; cut_deg A, 0 to 90; error_deg B,
    > 0. They broadcast. Returns: NM towards, NM away (inf where A <= B: the lines do not meet).
    Source: FAA Order 8260.3, section on fixes (fix error by law of sines); derived here.

    >>> [round(float(x), 3) for x in fix_displacement_nm(30.0, 45.0, 5.0)]
    [3.413, 4.068]
    """
    distance, cut, error = np.broadcast_arrays(*[np.asarray(a, float) for a in (distance_nm, cut_deg, error_deg)])
    with np.errstate(divide="ignore", invalid="ignore"):
        towards = distance * sind(error) / sind(cut + error)
        away = distance * sind(error) / sind(cut - error)
    return towards, np.where(cut <= error, np.inf, away)


def areas(
    method,
    first: Station | None,
    second: Station | None,
    lon,
    lat,
    course_true_deg,
    *,
    azimuth_1_deg=np.nan,
    azimuth_2_deg=np.nan,
    slant_1_nm=np.nan,
    slant_2_nm=np.nan,
    alt_ft=np.nan,
    rules=0,
    gnss_along_nm=FIGURES["gnss_along_nm"].value,
    gnss_across_nm=FIGURES["gnss_across_nm"].value,
    tolerance_m: float = 5.0,
) -> ToleranceAreas:
    """Fix tolerance areas.

    radial_arc: between the radial's limits and the ground radii of the slant range less and plus its tolerance,
    one site or two; radial_radial and arc_arc: between the limits of both lines, edges true geodesics and arcs;
    overhead: the part of the cone's circle between the lines that leave the entry points 5 degrees outwards;
    gnss: the rectangle of the along-track and cross-track values. The aid that carries the inbound course has
    the tracking accuracy: the one whose line at the fix is nearest to the course within 5 degrees, else the
    first. The polygon contains the area and exceeds it by no more than tolerance_m.

    Parameters: method, codes of METHODS, N rows; first, second, N rows or None: the radial of radial_arc from
    the first, its arc from the DME of the second (none or NaN: of the first); overhead uses the first, gnss none;
    lon, lat of the fix; course_true_deg, inbound, at the fix; azimuth_n_deg, true at station n, and
    slant_n_nm of its DME, NaN: measured to the fix; alt_ft; rules, codes of RULES; gnss values > 0, NM;
    tolerance_m > 0. All but tolerance_m broadcast.
    Returns: ToleranceAreas; a line limit that misses another gives TOLERANCE_UNBOUNDED.
    Errors: ValueError for a method or rules code that does not exist, and for tolerance_m not positive.
    Source: FIGURES; ICAO Doc 8168 Vol II, 5th ed. 2006, Part I, Section 2, Chapter 2 (fix tolerance area: the
    overlap of both aids' bands; part of the circle overhead read from the figure's description, from memory).

    >>> vor = Station.of(10.0, 50.0, 0.0, 0.0, "VOR/DME")
    >>> lon, lat, course = geodesy.direct([10.0], [50.0], [73.0], [19.975608])
    >>> area = areas(RADIAL_ARC, vor, None, lon, lat, course, slant_2_nm=20.0, alt_ft=6000.0)
    >>> round(float(area.along_ahead_nm[0]), 2), round(float(area.across_left_nm[0]), 2)
    (0.5, 1.86)
    """
    margin_nm = _MARGIN_SHARE * _positive(tolerance_m) / NM_M
    first = Station.of(np.nan, np.nan) if first is None else first
    fix = _fix(method, first, second, lon, lat, course_true_deg, alt_ft, rules, gnss_along_nm, gnss_across_nm)
    first = first.spread(fix.lon.shape)
    arc_1, arc_2 = fix.method == ARC_ARC, (fix.method == ARC_ARC) | (fix.method == RADIAL_ARC)
    line_1 = _line(fix, first, arc_1, fix.method <= ARC_ARC, azimuth_1_deg, slant_1_nm)
    second = _or_first(second, first, fix)
    line_2 = _line(fix, second, arc_2, fix.method <= ARC_ARC, azimuth_2_deg, slant_2_nm)
    _one_site(fix, line_1, line_2)
    _limits(fix, line_1, line_2, margin_nm)
    code = reasons.first(fix.code, line_1.code, line_2.code, _own_codes(fix, first, line_1, line_2))

    corner_lon, corner_lat, corner_code = _corners(fix, line_1, line_2, code)
    code = reasons.first(code, corner_code)
    radius, eta = overhead_cone(fix.alt - first.elev_ft, first.kind)
    frame = _frame_corners(fix, radius, eta)
    in_frame = fix.method >= OVERHEAD
    placed_lon, placed_lat = geodesy.place(*(a[:, None] for a in (fix.lon, fix.lat, fix.course)), 1, *frame)
    corner_lon = np.where(in_frame[:, None], placed_lon, geodesy.unwrap(corner_lon, fix.lon[:, None]))
    corner_lat = np.where(in_frame[:, None], placed_lat, corner_lat)

    edges = _line_edges(fix, line_1, line_2, corner_lon, corner_lat, margin_nm)
    frame_edges = _frame_edges(fix, frame, radius, margin_nm)
    edges = _Edges(*[np.where(in_frame[:, None], f, e) for f, e in zip(frame_edges, edges)])
    reach = np.max(np.abs(np.column_stack([corner_lat, fix.lat])), axis=1) + 0.1
    coords, offsets, round_pole = _rings(fix, edges, code == reasons.OK, reach, tolerance_m)
    code = reasons.first(code, reasons.where(round_pole, reasons.OVER_POLE))
    good = code == reasons.OK
    measures = _measure(fix, coords, offsets)
    corners = np.where(good[:, None, None], np.stack([corner_lon, corner_lat], axis=2), np.nan)
    used = [
        np.where(good & mask, line.tolerance, np.nan)
        for mask, line in ((~line_1.arc, line_1), (~line_2.arc, line_2), (line_1.arc, line_1), (line_2.arc, line_2))
    ]
    return ToleranceAreas(coords, offsets, *measures, corners, *used, code)


class _Fix(NamedTuple):
    method: np.ndarray
    lon: np.ndarray
    lat: np.ndarray
    course: np.ndarray
    alt: np.ndarray
    rules: np.ndarray
    along: np.ndarray
    across: np.ndarray
    code: np.ndarray


class _Line:
    """One line of position, N rows: an arc or a radial, its origin, value, tolerance, limits (N, 2), code."""

    def __init__(self, arc, lon, lat, value, height, kind, miss, code) -> None:
        self.arc, self.lon, self.lat, self.value, self.height = arc, lon, lat, value, height
        self.kind, self.miss, self.code = kind, miss, code
        self.tolerance = np.full(len(arc), np.nan)
        self.limits = np.full((len(arc), 2), np.nan)


def _positive(tolerance_m: float) -> float:
    if not (np.isfinite(tolerance_m) and tolerance_m > 0.0):
        raise ValueError(f"tolerance_m is {tolerance_m}; it must be a positive number of metres")
    return float(tolerance_m)


def _codes_of(name: str, values, names: tuple[str, ...]) -> np.ndarray:
    values = np.asarray(values)
    wrong = ~np.isin(values, np.arange(len(names)))
    if wrong.any():
        allowed = ", ".join(f"{i} {word}" for i, word in enumerate(names))
        raise ValueError(f"{name} is {values[wrong].ravel()[0]}; it must be one of {allowed}")
    return values.astype(np.int64)


def _fix(method, first, second, lon, lat, course, alt, rules, along, across) -> _Fix:
    method, rules = _codes_of("method", method, METHODS), _codes_of("rules", rules, RULES)
    numbers = [np.asarray(a, dtype=np.float64) for a in (lon, lat, course, alt, along, across)]
    rows = [first.lon] + ([] if second is None else [second.lon])
    shape = np.broadcast_shapes((1,), method.shape, rules.shape, *[a.shape for a in numbers + rows])
    method, rules = np.broadcast_to(method, shape), np.broadcast_to(rules, shape)
    lon, lat, course, alt, along, across = [np.broadcast_to(a, shape) for a in numbers]
    with np.errstate(invalid="ignore"):
        gnss_good = (np.minimum(along, across) > 0.0) & (np.maximum(along, across) <= crossings.FARTHEST_NM)
        code = reasons.first(
            position_codes(lon, lat),
            reasons.where(~np.isfinite(course), reasons.NO_COURSE),
            reasons.where((method == GNSS) & ~gnss_good, reasons.GNSS_RANGE),
        )
    return _Fix(method, np.where(code == 0, lon, np.nan), lat, course, alt, rules, along, across, code)


def _or_first(second: Station | None, first: Station, fix: _Fix) -> Station:
    """The second station, the first standing in for it where the arc of a radial has no station of its own."""
    second = (Station.of(np.nan, np.nan) if second is None else second).spread(fix.lon.shape)
    missing = (fix.method == RADIAL_ARC) & ~np.isfinite(second.lon)
    return Station(*[np.where(missing, getattr(first, f.name), getattr(second, f.name)) for f in fields(Station)])


def _line(fix: _Fix, station: Station, arc, used, azimuth, slant) -> _Line:
    shape = fix.lon.shape
    at = station.spread(shape)
    azimuth, slant = [np.broadcast_to(np.asarray(a, dtype=np.float64), shape) for a in (azimuth, slant)]
    lon, lat = np.where(arc, at.dme_lon, at.lon), np.where(arc, at.dme_lat, at.lat)
    code = np.where(used, position_codes(lon, lat), reasons.OK)
    lon = np.where(code == 0, lon, np.nan)
    to_fix, at_fix, distance = geodesy.inverse(lon, lat, fix.lon, fix.lat)
    off = np.abs(wrap180(fix.course - at_fix))
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
    return _Line(arc, lon, lat, np.where(arc, slant, azimuth), height, at.kind, np.minimum(off, 180.0 - off), code)


def _one_site(fix: _Fix, one: _Line, two: _Line) -> None:
    """A DME beside its VOR is taken to stand on it."""
    apart = geodesy.inverse(one.lon, one.lat, two.lon, two.lat)[2]
    with np.errstate(invalid="ignore"):
        same = (fix.method == RADIAL_ARC) & (apart <= DME_APART_NM)
    two.lon, two.lat = np.where(same, one.lon, two.lon), np.where(same, one.lat, two.lat)


def _limits(fix: _Fix, one: _Line, two: _Line, margin_nm: float) -> None:
    """Tolerances and limits of both lines: azimuths, or ground radii (0 where the reading may be overhead)."""
    with np.errstate(invalid="ignore"):
        on_second = (two.miss <= _V["on_course_deg"]) & (two.miss < one.miss)
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


def _own_codes(fix: _Fix, first: Station, one: _Line, two: _Line) -> np.ndarray:
    """What only one method asks for."""
    elev, kind = first.elev_ft, first.kind
    overhead, aid = fix.method == OVERHEAD, aid_of(kind)
    two_sites = (one.lon != two.lon) | (one.lat != two.lat)
    with np.errstate(invalid="ignore"):
        inner_lost = (one.arc & (one.limits[:, 0] == 0.0)) | (two.arc & (two.limits[:, 0] == 0.0) & two_sites)
        return reasons.first(
            reasons.where(overhead & (fix.rules != RULES.index("icao")), reasons.NO_OVERHEAD_TOLERANCE),
            reasons.where(overhead & (aid != 0) & (aid != 1), reasons.NO_CONE),
            reasons.where(overhead & ~np.isfinite(elev), reasons.NO_ELEVATION),
            reasons.where(overhead & ~np.isfinite(fix.alt), reasons.NO_ALTITUDE),
            reasons.where(overhead & (fix.alt <= elev), reasons.NOT_ABOVE_STATION),
            reasons.where((fix.method <= ARC_ARC) & inner_lost, reasons.TOLERANCE_UNBOUNDED),
        )


def _corners(fix: _Fix, one: _Line, two: _Line, code):
    """Corners A1 to A4 of lines of position, (N, 4) each, and codes of N rows."""
    lon, lat = np.full((len(code), 4), np.nan), np.full((len(code), 4), np.nan)
    out = np.zeros(len(code), dtype=np.int16)
    one_site = (one.lon == two.lon) & (one.lat == two.lat)
    cases = (
        ((fix.method == RADIAL_ARC) & one_site, _on_one_site),
        ((fix.method == RADIAL_ARC) & ~one_site, _radial_and_arc),
        (fix.method == RADIAL_RADIAL, _two_radials),
        (fix.method == ARC_ARC, _two_arcs),
    )
    for mask, solve in cases:
        rows = np.flatnonzero(mask & (code == reasons.OK))
        if not len(rows):
            continue
        each = np.repeat(rows, 4)
        limit_1, limit_2 = one.limits[rows][:, _CORNER_1].ravel(), two.limits[rows][:, _CORNER_2].ravel()
        at = solve(fix, one, two, each, limit_1, limit_2)
        lon[rows], lat[rows] = at.lon.reshape(-1, 4), at.lat.reshape(-1, 4)
        codes = at.code.reshape(-1, 4)
        same = (codes == reasons.SAME_STATION).any(axis=1)
        lost = (codes != reasons.OK).any(axis=1) | ~np.isfinite(lat[rows]).all(axis=1)
        out[rows] = reasons.first(
            reasons.where(same, reasons.SAME_STATION), reasons.where(lost, reasons.TOLERANCE_UNBOUNDED)
        )
    return lon, lat, out


class _Corner(NamedTuple):
    lon: np.ndarray
    lat: np.ndarray
    code: np.ndarray


def _on_one_site(fix, one, two, rows, azimuth, radius) -> _Corner:
    lon, lat, _ = geodesy.direct(one.lon[rows], one.lat[rows], azimuth, radius)
    return _Corner(lon, lat, np.zeros(len(rows), dtype=np.int16))


def _two_radials(fix, one, two, rows, azimuth_1, azimuth_2) -> _Corner:
    at = crossings.radial_radial(one.lon[rows], one.lat[rows], azimuth_1, two.lon[rows], two.lat[rows], azimuth_2)
    return _Corner(at.lon, at.lat, at.code)


def _radial_and_arc(fix, one, two, rows, azimuth, radius) -> _Corner:
    """The crossings on the fix's own side: all where the ray nears the arc's centre, or all where it leaves it."""
    near, far = crossings.radial_arc(one.lon[rows], one.lat[rows], azimuth, two.lon[rows], two.lat[rows], radius)

    def nears(lon, lat) -> np.ndarray:
        along = geodesy.inverse(one.lon[rows], one.lat[rows], lon, lat)[1]
        return cosd(along - geodesy.inverse(lon, lat, two.lon[rows], two.lat[rows])[0]) > 0.0

    wanted = nears(fix.lon[rows], fix.lat[rows])
    found = [(at.code == reasons.OK) & (nears(at.lon, at.lat) == wanted) for at in (near, far)]
    lon, lat = np.where(found[0], near.lon, far.lon), np.where(found[0], near.lat, far.lat)
    return _Corner(lon, lat, reasons.where(~(found[0] | found[1]), reasons.TOLERANCE_UNBOUNDED))


def _two_arcs(fix, one, two, rows, radius_1, radius_2) -> _Corner:
    """The crossings on the fix's side of the line between the centres; touching arcs bound nothing."""
    place_1, place_2 = (one.lon[rows], one.lat[rows]), (two.lon[rows], two.lat[rows])
    left, right = crossings.arc_arc(*place_1, radius_1, *place_2, radius_2)
    base = geodesy.inverse(*place_1, *place_2)[0]
    on_left = wrap180(geodesy.inverse(*place_1, fix.lon[rows], fix.lat[rows])[0] - base) < 0.0
    lon, lat, cut = (np.where(on_left, getattr(left, n), getattr(right, n)) for n in ("lon", "lat", "cut_deg"))
    touching = reasons.where(~(cut >= crossings.LEAST_CUT_DEG), reasons.TOLERANCE_UNBOUNDED)
    return _Corner(lon, lat, reasons.first(np.where(on_left, left.code, right.code), touching))


def _frame_corners(fix: _Fix, radius, eta) -> tuple[np.ndarray, np.ndarray]:
    """Corners A1 to A4 (near left, far left, near right, far right) in the frame, s to the right: u, s of (N, 4)."""
    out = eta + 2.0 * _V["icao_cone_track_deg"]
    near, far = -radius * cosd(eta), radius * cosd(out)
    near_s, far_s = radius * sind(eta), radius * sind(out)
    over = (fix.method == OVERHEAD)[:, None]
    u = np.where(over, _columns(near, far, near, far), _columns(-fix.along, fix.along, -fix.along, fix.along))
    s = np.where(
        over, _columns(-near_s, -far_s, near_s, far_s), _columns(-fix.across, -fix.across, fix.across, fix.across)
    )
    return u, s


def _columns(*values) -> np.ndarray:
    return np.stack(values, axis=1)


class _Edges(NamedTuple):
    """Four edges of N rows, (N, 4) each.

    A point t of an edge lies x0 + t dx along the bearing b0 + t db from its origin and y0 + t dy clockwise of
    it, the margin included; convex marks arcs that bulge out of the area.
    """

    lon: np.ndarray
    lat: np.ndarray
    b0: np.ndarray
    db: np.ndarray
    x0: np.ndarray
    dx: np.ndarray
    y0: np.ndarray
    dy: np.ndarray
    convex: np.ndarray
    skip: np.ndarray


def _line_edges(fix: _Fix, one: _Line, two: _Line, corner_lon, corner_lat, margin_nm: float) -> _Edges:
    shape = corner_lon.shape
    out = _Edges(*[np.zeros(shape) for _ in range(8)], np.zeros(shape, bool), np.zeros(shape, bool))
    for number, line in enumerate((one, two)):
        place = line.lon[:, None], line.lat[:, None]
        bearing, _, distance = geodesy.inverse(*place, corner_lon, corner_lat)
        for edge in np.flatnonzero(_EDGE_LINE == number):
            begin, end, upper = _FROM[edge], _TO[edge], _EDGE_LIMIT[edge]
            limit, push = line.limits[:, upper], margin_nm * (1.0 if upper else -1.0)
            out.lon[:, edge], out.lat[:, edge] = line.lon, line.lat
            out.b0[:, edge] = np.where(line.arc, bearing[:, begin], limit)
            out.db[:, edge] = np.where(line.arc, wrap180(bearing[:, end] - bearing[:, begin]), 0.0)
            out.x0[:, edge] = np.where(line.arc, limit + push, distance[:, begin])
            out.dx[:, edge] = np.where(line.arc, 0.0, distance[:, end] - distance[:, begin])
            out.y0[:, edge] = np.where(line.arc, 0.0, push)
            out.convex[:, edge] = line.arc & bool(upper)
            out.skip[:, edge] = line.arc & (limit == 0.0)
    return out


def _frame_edges(fix: _Fix, frame, radius, margin_nm: float) -> _Edges:
    u, s = frame
    arc = (fix.method == OVERHEAD)[:, None] & (_EDGE_LINE == 1)
    u0, s0, du, ds = u[:, _FROM], s[:, _FROM], u[:, _TO] - u[:, _FROM], s[:, _TO] - s[:, _FROM]
    with np.errstate(invalid="ignore", divide="ignore"):
        out_u, out_s = margin_nm * ds / np.hypot(du, ds), -margin_nm * du / np.hypot(du, ds)
    course = np.broadcast_to(fix.course[:, None], arc.shape)
    start, end = np.degrees(np.arctan2(s0, u0)), np.degrees(np.arctan2(s0 + ds, u0 + du))
    reach = np.broadcast_to(radius[:, None] + margin_nm, arc.shape)
    nothing = np.zeros(arc.shape)
    return _Edges(
        lon=np.broadcast_to(fix.lon[:, None], arc.shape),
        lat=np.broadcast_to(fix.lat[:, None], arc.shape),
        b0=np.where(arc, course + start, course),
        db=np.where(arc, wrap180(end - start), nothing),
        x0=np.where(arc, reach, u0 + out_u),
        dx=np.where(arc, nothing, du),
        y0=np.where(arc, nothing, s0 + out_s),
        dy=np.where(arc, nothing, ds),
        convex=arc,
        skip=np.zeros(arc.shape, bool),
    )


def _rings(fix: _Fix, edges: _Edges, good, reach_lat, tolerance_m: float):
    """Closed rings of the good rows: coords, offsets, and the rows whose ring runs round a pole.

    A bulging arc becomes its tangents, ends included; a hollow one its chords; every piece is short enough for
    its chord in longitude and latitude to stay within the margin.
    """
    n = len(good)
    angle = np.radians(np.abs(edges.db))
    length = np.where(edges.db == 0.0, np.hypot(edges.dx, edges.dy), angle * np.abs(edges.x0))
    piece = geodesy.longest_piece_nm(reach_lat, _MARGIN_SHARE * tolerance_m)[:, None]
    draw = good[:, None] & ~edges.skip
    with np.errstate(invalid="ignore"):
        chords = np.where(draw, np.ceil(length / piece - 1e-9), 1.0)
        for_arc = geodesy.chord_count(angle, np.maximum(edges.x0, 1e-6), _ARC_SHARE * tolerance_m)
    chords = np.maximum(np.maximum(chords, 1.0), np.where(edges.db != 0.0, for_arc, 1)).astype(np.int64)
    count = np.where(draw, chords + 1 + edges.convex, 0)

    owner = np.repeat(np.arange(4 * n), count.ravel())
    step = np.arange(len(owner)) - np.repeat(np.cumsum(count.ravel()) - count.ravel(), count.ravel())
    lon0, lat0, b0, db, x0, dx, y0, dy, convex = (a.ravel()[owner] for a in edges[:-1])
    pieces = chords.ravel()[owner]
    t = np.where(convex, np.clip((step - 0.5) / pieces, 0.0, 1.0), step / pieces)
    between = convex & (step > 0) & (step <= pieces)
    x = (x0 + t * dx) / np.where(between, cosd(np.abs(db) / (2.0 * pieces)), 1.0)
    y = y0 + t * dy
    bearing = b0 + t * db + np.degrees(np.arctan2(y, x))
    lon, lat, _ = geodesy.direct(lon0, lat0, bearing, np.hypot(x, y))

    sizes = count.sum(axis=1)
    row = np.repeat(np.arange(n), sizes + (sizes > 0))
    starts = np.cumsum(sizes) - sizes
    closed = np.cumsum(sizes + (sizes > 0)) - (sizes + (sizes > 0))
    at = np.arange(len(row)) - closed[row]
    index = starts[row] + np.where(at == sizes[row], 0, at)
    coords = np.stack([geodesy.unwrap(lon[index], fix.lon[row]), lat[index]], axis=1)
    jumps = (np.abs(np.diff(coords[:, 0])) > 180.0) & (row[1:] == row[:-1])
    round_pole = np.bincount(row[1:][jumps], minlength=n) > 0
    keep = ~round_pole[row]
    sizes = np.where(round_pole | (sizes == 0), 0, sizes + 1)
    return coords[keep], np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64), round_pole


def _measure(fix: _Fix, coords, offsets):
    """Half-widths ahead, behind, left, right, and area of rings, in the frame of the inbound course; NaN if empty.

    The area of the plane ring is corrected by the sine of distance over distance, to second order.
    """
    sizes = np.diff(offsets)
    rows = np.flatnonzero(sizes)
    out = [np.full(len(sizes), np.nan) for _ in range(5)]
    if not len(rows):
        return out
    row = np.repeat(np.arange(len(sizes)), sizes)
    u, s = geodesy.to_frame(fix.lon[row], fix.lat[row], fix.course[row], 1, coords[:, 0], coords[:, 1])
    starts = offsets[rows]
    for k, value in enumerate((u, -u, -s, s)):
        out[k][rows] = np.maximum.reduceat(value, starts)
    last = np.zeros(len(u), dtype=bool)
    last[offsets[rows + 1] - 1] = True
    u2, s2 = np.roll(u, -1), np.roll(s, -1)
    cross = np.where(last, 0.0, u * s2 - u2 * s)
    spread = u * u + u * u2 + u2 * u2 + s * s + s * s2 + s2 * s2
    plane = np.add.reduceat(cross, starts) / 2.0
    second = np.add.reduceat(cross * spread, starts) / 12.0
    out[4][rows] = np.abs(plane - second / (6.0 * _curvature_nm2(fix.lat[rows])))
    return out


def _curvature_nm2(lat) -> np.ndarray:
    """Product of the two radii of curvature at a latitude, NM squared."""
    a, e2 = geodesy.GEOD.a / NM_M, geodesy.GEOD.es
    return a**2 * (1.0 - e2) / (1.0 - e2 * sind(lat) ** 2) ** 2
