"""Fix tolerance areas from aids and fixes."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import geodesy, reasons
from ..fixes import Station
from .corners import corners
from .edges import Edges, frame_corners, frame_edges, line_edges
from .figures import FIGURES
from .given import fix_of
from .lines import line_of, or_first, own_codes, set_limits, set_one_site
from .methods import ARC_ARC, OVERHEAD, RADIAL_ARC
from .overhead import overhead_cone
from .rings import MARGIN_SHARE, measures, rings


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
    margin_nm = MARGIN_SHARE * geodesy.positive_nm(tolerance_m)
    first = Station.of(np.nan, np.nan) if first is None else first
    fix = fix_of(method, first, second, lon, lat, course_true_deg, alt_ft, rules, gnss_along_nm, gnss_across_nm)
    first = first.spread(fix.lon.shape)
    arc_1, arc_2 = fix.method == ARC_ARC, (fix.method == ARC_ARC) | (fix.method == RADIAL_ARC)
    line_1 = line_of(fix, first, arc_1, fix.method <= ARC_ARC, azimuth_1_deg, slant_1_nm)
    second = or_first(second, first, fix)
    line_2 = line_of(fix, second, arc_2, fix.method <= ARC_ARC, azimuth_2_deg, slant_2_nm)
    set_one_site(fix, line_1, line_2)
    set_limits(fix, line_1, line_2, margin_nm)
    code = reasons.first(fix.code, line_1.code, line_2.code, own_codes(fix, first, line_1, line_2))

    corner_lon, corner_lat, corner_code = corners(fix, line_1, line_2, code)
    code = reasons.first(code, corner_code)
    radius, eta = overhead_cone(fix.alt - first.elev_ft, first.kind)
    frame = frame_corners(fix, radius, eta)
    in_frame = fix.method >= OVERHEAD
    placed_lon, placed_lat = geodesy.place(*(a[:, None] for a in (fix.lon, fix.lat, fix.course)), 1, *frame)
    corner_lon = np.where(in_frame[:, None], placed_lon, geodesy.unwrap(corner_lon, fix.lon[:, None]))
    corner_lat = np.where(in_frame[:, None], placed_lat, corner_lat)

    on_lines = line_edges(line_1, line_2, corner_lon, corner_lat, margin_nm)
    framed = frame_edges(fix, frame, radius, margin_nm)
    edges = Edges(*[np.where(in_frame[:, None], f, e) for f, e in zip(framed, on_lines)])
    reach = np.max(np.abs(np.column_stack([corner_lat, fix.lat])), axis=1) + 0.1
    coords, offsets, round_pole = rings(fix, edges, code == reasons.OK, reach, tolerance_m)
    code = reasons.first(code, reasons.where(round_pole, reasons.OVER_POLE))
    good = code == reasons.OK
    at_corners = np.where(good[:, None, None], np.stack([corner_lon, corner_lat], axis=2), np.nan)
    used = [
        np.where(good & mask, line.tolerance, np.nan)
        for mask, line in ((~line_1.arc, line_1), (~line_2.arc, line_2), (line_1.arc, line_1), (line_2.arc, line_2))
    ]
    return ToleranceAreas(coords, offsets, *measures(fix, coords, offsets), at_corners, *used, code)
