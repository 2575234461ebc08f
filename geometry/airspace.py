"""Which holding areas and flights come near which airspace, sideways and in height.

What cannot be told (a limit that is not read, ground that is not known) is never taken as clear.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import planar
from .atmosphere import STANDARD_QNH_HPA
from .meetings import Meetings, meetings, overlap_nm2
from .shapes import Boxes, Shapes, cut_edges, edges, feature_boxes, grown, part_boxes, ranges, to_plane, turned_near
from .text import format_altitude
from .vertical_limits import GROUND, PRESSURE, UNLIMITED, UNREAD, Limits, altitude_ft, read_limits

CONTACT, CLEAR, UNKNOWN = 0, 1, -1
"""What a meeting in both directions is: too near; far enough in height; not to be told."""

_SAMPLES_A_CELL = 0.5
"""Distance of samples of the ground in cells: each cell has one in its middle half, and so gives its own height."""
_POINTS_AT_A_TIME = 200_000
_EDGE_M = 10.0
"""How far an edge, cut for the plane, may lie off itself: less than any cell of terrain."""


class Spaces(NamedTuple):
    """S airspaces: shapes; lower and upper limits as columns; problems (S,), '' or why one is not fully known."""

    shapes: Shapes
    lower: Limits
    upper: Limits
    problems: np.ndarray


class Contacts(NamedTuple):
    """K meetings with airspace: as Meetings, then in height.

    lower_ft, upper_ft: altitudes of its limits there, -inf for the ground, inf for none, NaN where not known. gap_ft:
    how far the levels flown stay from its own, below 0 how far they reach into them; NaN where not known. above: the
    levels flown lie above it. state: CONTACT, CLEAR or UNKNOWN.
    """

    row: np.ndarray
    space: np.ndarray
    distance_nm: np.ndarray
    edge_nm: np.ndarray
    relation: np.ndarray
    lon: np.ndarray
    lat: np.ndarray
    lower_ft: np.ndarray
    upper_ft: np.ndarray
    gap_ft: np.ndarray
    above: np.ndarray
    state: np.ndarray


def spaces(shapes: Shapes, lower_texts, upper_texts, plain_unit: str = "none", problems=None) -> Spaces:
    """Airspaces from shapes and limits as people write them.

    An empty lower limit is taken as the ground and an empty upper one as none, which protects, and is said in assumed;
    a limit that is refused, or a lower one above the upper, stands in problems, and its airspace stays among them.
    Parameters: S shapes and texts; plain_unit as vertical_limits.read_limit; problems (S,), what is wrong besides.
    Returns: Spaces. Errors: ValueError for an unknown plain_unit.
    """
    lower, upper = read_limits(lower_texts, plain_unit), read_limits(upper_texts, plain_unit)
    _fill(lower, GROUND, 0.0, "the lower limit is empty: taken as the ground")
    _fill(upper, UNLIMITED, np.inf, "the upper limit is empty: taken as none")
    said = np.full(len(shapes), "", dtype=object) if problems is None else np.array(problems, dtype=object)
    for i in range(len(shapes)):
        parts = [said[i]]
        for which, limits in (("lower", lower), ("upper", upper)):
            parts.append(f"{which} limit: {limits.problem[i]}" if limits.problem[i] else "")
        if lower.reference[i] == upper.reference[i] and lower.value_ft[i] > upper.value_ft[i]:
            parts.append(f"its lower limit, {lower.text[i]}, lies above its upper one, {upper.text[i]}")
        said[i] = "; ".join(part for part in parts if part)
    return Spaces(shapes, lower, upper, said)


def contacts(
    first: Shapes, low_ft, high_ft, others: Spaces, *, within_nm: float, within_ft: float, qnh_hpa=STANDARD_QNH_HPA,
    terrain=None,
) -> Contacts:  # fmt: skip
    """What comes within a distance of airspace sideways, and whether it keeps one in height.

    Levels and airspace are too near where they share a level or come nearer than within_ft. A limit above the ground
    counts from the lowest ground (lower limit) and the highest (upper) of what of the airspace lies within reach.
    Parameters: first, N shapes; low_ft, high_ft (N,), the levels flown, NaN for one not known; others; within_nm >= 0;
    within_ft >= 0; qnh_hpa (N,) > 0, for flight levels; terrain, with cells(lon, lat) and highest_ft(lon, lat) as
    plan.reception.Terrain, or None. Returns: Contacts, by row, then nearness: all within within_nm, whatever their
    height. Errors: ValueError for a distance below 0 or NaN. Source: derived here; flight levels by ICAO Doc 7488.
    """
    if not within_ft >= 0.0:
        raise ValueError(f"within_ft is {within_ft}; it must be 0 or more")
    low, high, qnh = (
        np.broadcast_to(np.asarray(a, dtype=np.float64), (len(first),)) for a in (low_ft, high_ft, qnh_hpa)
    )
    met = meetings(first, others.shapes, within_nm)
    ground = _grounds(first, others, met, within_nm, terrain)
    lower = altitude_ft(others.lower.reference[met.other], others.lower.value_ft[met.other], qnh[met.row], ground[0])
    upper = altitude_ft(others.upper.reference[met.other], others.upper.value_ft[met.other], qnh[met.row], ground[1])
    # from the ground up, however high the ground: nothing flies lower
    on_ground = (others.lower.reference[met.other] == GROUND) & (others.lower.value_ft[met.other] <= 0.0)
    lower = np.where(on_ground, -np.inf, lower)
    unsound = lower > upper
    lower, upper = (np.where(unsound, np.nan, values) for values in (lower, upper))
    gap, above, state = vertical(low[met.row], high[met.row], lower, upper, within_ft)
    return Contacts(met.row, met.other, met.distance_nm, met.edge_nm, met.relation, met.lon, met.lat, lower, upper, gap,
                    above, state)  # fmt: skip


def vertical(low_ft, high_ft, lower_ft, upper_ft, within_ft) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """How levels flown lie to the levels of an airspace.

    Parameters: feet; low <= high; lower -inf for the ground, upper inf for no limit, NaN for what is not known; within
    >= 0. They broadcast. Returns: gap_ft, negative where they overlap, NaN where not known; above, bool; state.
    Clear is what keeps a gap of more than 0 and at least within_ft, by the limits that are known.

    >>> [float(a) for a in vertical(4000.0, 5000.0, 5300.0, np.inf, 500.0)]
    [300.0, 0.0, 0.0]
    """
    low, high, lower, upper, within = np.broadcast_arrays(
        *(np.asarray(a, dtype=np.float64) for a in (low_ft, high_ft, lower_ft, upper_ft, within_ft))
    )
    with np.errstate(invalid="ignore"):
        below, above = lower - high, low - upper
        # no level needs to be known to lie within an airspace without limits
        everywhere = (lower == -np.inf) & (upper == np.inf)
        below = np.where(everywhere, -np.inf, below)
        above = np.where(everywhere, -np.inf, above)
        clear = ((below >= within) & (below > 0.0)) | ((above >= within) & (above > 0.0))
        known = ~(np.isnan(below) | np.isnan(above))
        gap = np.where(known, np.maximum(below, above), np.where(clear, np.fmax(below, above), np.nan))
        over = np.where(np.isnan(below), above >= 0.0, np.where(np.isnan(above), False, above > below))
    return gap, over, np.where(clear, CLEAR, np.where(known, CONTACT, UNKNOWN))


def overlaps_nm2(first: Shapes, others: Spaces, found: Contacts) -> np.ndarray:
    """The area that each contact shares with its airspace, NM squared (K,); 0 where they do not overlap.

    NaN where shapely is missing. Source: meetings.overlap_nm2.
    """
    out = np.zeros(len(found.row))
    for k in np.flatnonzero(found.relation > 0):
        out[k] = overlap_nm2(first, int(found.row[k]), others.shapes, int(found.space[k]))
    return out


def said(others: Spaces, found: Contacts, qnh_hpa) -> np.ndarray:
    """What there is to know of how each contact's limits were understood: sentences (K,).

    Parameters: others; found; qnh_hpa (N,) or one, as contacts was given. Returns: object array of str.
    """
    out = np.full(len(found.row), "", dtype=object)
    qnh = np.asarray(qnh_hpa, dtype=np.float64)
    for k, (i, s) in enumerate(zip(found.row.tolist(), found.space.tolist())):
        parts = []
        for limits, feet in ((others.lower, found.lower_ft[k]), (others.upper, found.upper_ft[k])):
            parts.append(limits.assumed[s])
            if limits.reference[s] == PRESSURE and np.isfinite(feet):
                parts.append(f"{limits.text[s]} is {format_altitude(feet)} at QNH {qnh[i] if qnh.ndim else qnh:.0f}")
            elif limits.reference[s] == GROUND and limits.value_ft[s] > 0.0:
                there = np.isfinite(feet)
                parts.append(
                    f"{limits.text[s]} is {format_altitude(feet)} above the sea there"
                    if there
                    else f"{limits.text[s]} counts from the ground, which is not known there"
                )
        if not others.problems[s] and _crossed(others, found, k, s):
            parts.append("its lower limit lies above its upper one there")
        parts.append(others.problems[s])
        out[k] = "; ".join(dict.fromkeys(part for part in parts if part))
    return out


def _crossed(others: Spaces, found: Contacts, k: int, s: int) -> bool:
    """Whether limits of two references came out in the wrong order."""
    if not (np.isnan(found.lower_ft[k]) and np.isnan(found.upper_ft[k])):
        return False
    return all(
        limits.reference[s] != UNREAD and (limits.reference[s] != GROUND or limits.value_ft[s] <= 0.0)
        for limits in (others.lower, others.upper)
    )


def _fill(limits: Limits, reference: int, value_ft: float, assumed: str) -> None:
    """What stands for an empty limit."""
    empty = limits.text == ""
    limits.reference[empty], limits.value_ft[empty] = reference, value_ft
    limits.assumed[empty], limits.problem[empty] = assumed, ""


def _grounds(first: Shapes, others: Spaces, met: Meetings, within_nm: float, terrain) -> np.ndarray:
    """Lowest and highest ground under what of each meeting's airspace lies within reach, (2, K); NaN where unknown."""
    out = np.full((2, len(met.row)), np.nan)
    if terrain is None:
        return out
    needs = [(limits.reference == GROUND) & (limits.value_ft > 0.0) for limits in (others.lower, others.upper)]
    wanted = np.flatnonzero((needs[0] | needs[1])[met.other])
    if not len(wanted):
        return out
    reach, boxes = grown(feature_boxes(first), within_nm), feature_boxes(others.shapes)
    sides = edges(others.shapes), part_boxes(others.shapes)
    for k in wanted:
        out[:, k] = _ground(
            others.shapes, int(met.other[k]), sides, _box(reach, met.row[k]), _box(boxes, met.other[k]), terrain
        )
    return out


def _box(boxes: Boxes, i: int) -> Boxes:
    return Boxes(*(float(values[i]) for values in boxes))


def _ground(shapes: Shapes, feature: int, sides, reach: Boxes, box: Boxes, terrain) -> tuple[float, float]:
    """Lowest and highest ground under what of a feature lies in a box, and up to a cell's diagonal round it.

    By samples in every cell; NaN where any is unknown.
    """
    side, diagonal = (
        float(a[0]) for a in terrain.cells(np.array([reach.lon]), np.array([(reach.south + reach.north) / 2.0]))
    )
    if not np.isfinite(side):
        return np.nan, np.nan
    width = float(shapes.width_nm[feature]) + diagonal
    lon = box.lon + float(turned_near(box.lon, reach.lon))
    west, east = max(reach.lon - reach.half, lon - box.half), min(reach.lon + reach.half, lon + box.half)
    south, north = max(reach.south, box.south), min(reach.north, box.north)
    step = side * _SAMPLES_A_CELL / 60.0
    x = _steps(west, east, step / max(0.01, np.cos(np.radians((south + north) / 2.0))))
    y = _steps(south, north, step)
    edge = _edges_near(feature, sides, reach.lon)
    low, high = np.inf, -np.inf
    rows = max(1, _POINTS_AT_A_TIME // len(x))
    for begin in range(0, len(y), rows):
        points = np.stack([a.ravel() for a in np.meshgrid(x, y[begin : begin + rows])], axis=1)
        points = points[_within(points, edge, bool(shapes.filled[feature]), width, reach)]
        heights = terrain.highest_ft(points[:, 0], points[:, 1])
        if np.isnan(heights).any():
            return np.nan, np.nan
        low, high = min(low, heights.min(initial=np.inf)), max(high, heights.max(initial=-np.inf))
    return (low, high) if np.isfinite(low) else (np.nan, np.nan)


def _edges_near(feature: int, sides, lon: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """All edges of a feature turned near a longitude, and which polygon each is of."""
    of_all, part = sides
    index, _ = ranges(of_all.features[[feature]], of_all.features[[feature + 1]])
    starts, ends = of_all.starts[index], of_all.ends[index]
    turn = turned_near(part.lon[of_all.part[index]], lon)
    starts[:, 0] += turn
    ends[:, 0] += turn
    return starts, ends, of_all.polygon[index]


def _within(points: np.ndarray, edge, filled: bool, width_nm: float, reach: Boxes) -> np.ndarray:
    """Which points lie within a feature or a width of its edges; those outside it only where its edges are near."""
    starts, ends, polygon = edge
    out = planar.inside(points, starts, ends, polygon) if filled else np.zeros(len(points), dtype=bool)
    wide = grown(reach, width_nm)
    low, high = np.minimum(starts, ends), np.maximum(starts, ends)
    close = (low[:, 0] <= wide.lon + wide.half) & (high[:, 0] >= wide.lon - wide.half)
    close &= (low[:, 1] <= wide.north) & (high[:, 1] >= wide.south)
    rest = np.flatnonzero(~out)
    if close.any() and len(rest):
        begin, end, _ = cut_edges(starts[close], ends[close], _EDGE_M)
        plane = to_plane(reach.lon, (reach.south + reach.north) / 2.0, np.concatenate([points[rest], begin, end]))
        p, a, b = np.split(plane, [len(rest), len(rest) + len(begin)])
        out[rest] = planar.distances(p, a, b) <= width_nm
    return out


def _steps(begin: float, end: float, step: float) -> np.ndarray:
    """Evenly from one end to the other, no farther apart than a step."""
    return np.linspace(begin, end, max(2, int(np.ceil((end - begin) / step)) + 1))
