"""Which shapes on the earth meet which others, how far apart they are, and how much they share.

Two shapes are laid into the azimuthal equidistant plane at the first one; what is told is the geodesic between the
nearest places found there.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, planar, polygons
from .shapes import (
    Boxes,
    Shapes,
    box_pairs,
    cut_edges,
    edges,
    feature_boxes,
    from_plane,
    grown,
    part_boxes,
    ranges,
    to_plane,
    turned_near,
)

NEAR, OVERLAPS, INSIDE = 0, 1, 2
RELATIONS = ("near", "overlaps", "inside")
"""How a first shape lies to a second: apart from it; partly within it, or round it; wholly within it."""

_TOLERANCE_M = 2.0
"""How far an edge cut for the plane may lie off itself: small against the quarter of a mile that anybody reads."""


class Meetings(NamedTuple):
    """K meetings of a row of the first shapes with one of the others, by row, then nearness.

    distance_nm: between what belongs to them, 0 where they overlap. edge_nm: between their edges, widths left out.
    relation, as in RELATIONS. lon, lat: the place of the other's edge, line or point that is nearest to the first's.
    """

    row: np.ndarray
    other: np.ndarray
    distance_nm: np.ndarray
    edge_nm: np.ndarray
    relation: np.ndarray
    lon: np.ndarray
    lat: np.ndarray


def meetings(first: Shapes, others: Shapes, within_nm: float, *, once: bool = False) -> Meetings:
    """What comes within a distance of what.

    Parameters: first, others; within_nm >= 0; once, where both are the same shapes: each pair once, none with itself.
    Returns: Meetings. Errors: ValueError for a distance below 0 or NaN. Source: geodesics as in geodesy; the plane is
    derived here, see DEVELOPERS.md.
    """
    if not within_nm >= 0.0:
        raise ValueError(f"within_nm is {within_nm}; it must be 0 or more")
    middle = feature_boxes(first)
    reach = grown(middle, first.width_nm + within_nm)
    row, other = _candidates(reach, others)
    if once:
        row, other = row[other > row], other[other > row]
    sides = [(shapes, edges(shapes), part_boxes(shapes)) for shapes in (first, others)]
    found = []
    for begin, end in _runs(row):
        i = int(row[begin])
        box = Boxes(*(float(values[i]) for values in reach))
        centre = float(middle.lon[i]), float((middle.south[i] + middle.north[i]) / 2.0)
        found.append(_of_row(i, centre, box, *sides, other[begin:end]))
    return _told(found, first, others, within_nm)


def overlap_nm2(first: Shapes, row: int, others: Shapes, other: int) -> float:
    """The area that two features share, NM squared; NaN where shapely is missing, 0 for a first without area.

    Source: geometry.polygons in the azimuthal equidistant plane at the first.
    """
    if not polygons.available():
        return float("nan")
    if not first.filled[row]:
        return 0.0
    boxes = feature_boxes(first)
    box = Boxes(*(float(values[row]) for values in boxes))
    lon, lat = box.lon, (box.south + box.north) / 2.0
    return polygons.area(polygons.shared(_in_plane(first, row, lon, lat, box), _in_plane(others, other, lon, lat, box)))


class _Row(NamedTuple):
    """What one first shape gives: the others' indices, planes' centre, edges apart in the plane, places, relations."""

    row: int
    other: np.ndarray
    centre: tuple[float, float]
    plane_nm: np.ndarray
    on_first: np.ndarray
    on_second: np.ndarray
    within: np.ndarray
    wholly: np.ndarray


def _candidates(reach: Boxes, others: Shapes) -> tuple[np.ndarray, np.ndarray]:
    """Pairs whose boxes meet, each once."""
    row, part = box_pairs(reach, part_boxes(others))
    feature = np.repeat(np.arange(len(others)), np.diff(others.features))[part]
    if not len(row):
        return row, feature
    pair = np.unique(row * len(others) + feature)
    return pair // len(others), pair % len(others)


def _runs(row: np.ndarray):
    """(begin, end) of each run of equal values."""
    begins = _begins(row).tolist()
    return zip(begins, [*begins[1:], len(row)])


def _of_row(i: int, centre, box: Boxes, mine, theirs, wanted: np.ndarray) -> _Row:
    """One first shape against all others whose boxes meet its own. mine, theirs: shapes, their edges, part boxes."""
    first, others = mine[0], theirs[0]
    own, _ = _near_edges(mine, np.array([i]), centre[0])
    near, owner = _near_edges(theirs, wanted, centre[0])
    within, holds_it, wholly = _insides(bool(first.filled[i]), own, others.filled[wanted], near, owner)
    close = np.flatnonzero(_in_box(near, box, others.width_nm[wanted][owner]))
    a0, a1, _ = cut_edges(own.starts, own.ends, _TOLERANCE_M)
    b0, b1, of = cut_edges(near.starts[close], near.ends[close], _TOLERANCE_M)
    of = owner[close][of]
    plane = to_plane(*centre, np.concatenate([a0, a1, b0, b1]))
    a0, a1, b0, b1 = np.split(plane, np.cumsum([len(a0), len(a1), len(b0)]))
    apart = planar.nearest(a0, a1, b0, b1)
    best = np.lexsort((apart.distance, of))
    best = best[np.concatenate([[True], np.diff(of[best]) > 0])] if len(best) else best
    out = _Row(i, wanted, centre, *(_spread(len(wanted), of[best], values[best]) for values in apart),
               within | holds_it, wholly & ~holds_it)  # fmt: skip
    wide = np.flatnonzero(~others.filled[wanted] & (others.width_nm[wanted] > 0.0))
    for k in wide.tolist():
        its = of == k
        if its.any() and out.plane_nm[k] <= others.width_nm[wanted[k]]:
            farthest = planar.distances(np.concatenate([a0, a1]), b0[its], b1[its]).max()
            out.wholly[k] = farthest <= others.width_nm[wanted[k]]
    return out


class _Near(NamedTuple):
    """Edges turned near a longitude: starts, ends (E, 2), part and polygon (E,)."""

    starts: np.ndarray
    ends: np.ndarray
    part: np.ndarray
    polygon: np.ndarray


def _near_edges(side, wanted: np.ndarray, lon: float) -> tuple[_Near, np.ndarray]:
    """All edges of some features, each part turned near a longitude; and which of the features each is of."""
    _, of_all, boxes = side
    index, owner = ranges(of_all.features[wanted], of_all.features[wanted + 1])
    part = of_all.part[index]
    turn = turned_near(boxes.lon[part], lon)
    starts, ends = of_all.starts[index], of_all.ends[index]
    starts[:, 0] += turn
    ends[:, 0] += turn
    return _Near(starts, ends, part, of_all.polygon[index]), owner


def _insides(filled: bool, own: _Near, others_filled: np.ndarray, near: _Near, owner: np.ndarray):
    """For each other: whether a part of the first lies in it, a part of it in the first, all of the first in it.

    One vertex tells of a whole part where no edges cross; where they do, the distance is 0 anyway.
    """
    within, holds_it, wholly = (np.zeros(len(others_filled), dtype=bool) for _ in range(3))
    of_part = _begins(own.part)
    for k in np.flatnonzero(others_filled).tolist():
        its = slice(*np.searchsorted(owner, (k, k + 1)))
        inside = planar.inside(own.starts, near.starts[its], near.ends[its], near.polygon[its])
        within[k], wholly[k] = inside[of_part].any(), inside.all()
    if filled:
        begins = _begins(near.part)
        inside = planar.inside(near.starts[begins], own.starts, own.ends, own.polygon)
        holds_it[owner[begins[inside]]] = True
    return within, holds_it, wholly


def _begins(part: np.ndarray) -> np.ndarray:
    """Where each run of equal values begins."""
    return np.flatnonzero(np.concatenate([[True], np.diff(part) != 0])) if len(part) else np.zeros(0, dtype=np.int64)


def _in_box(near: _Near, box: Boxes, width_nm) -> np.ndarray:
    """Edges that come near enough to matter."""
    wide = grown(Boxes(np.full(len(near.starts), box.lon), box.half, box.south, box.north), width_nm)
    low, high = np.minimum(near.starts, near.ends), np.maximum(near.starts, near.ends)
    return (
        (low[:, 1] <= wide.north)
        & (high[:, 1] >= wide.south)
        & (low[:, 0] <= wide.lon + wide.half)
        & (high[:, 0] >= wide.lon - wide.half)
    )


def _spread(n: int, at: np.ndarray, values: np.ndarray) -> np.ndarray:
    """Values of some of n others; infinity for the rest, whose edges are all far."""
    out = np.full((n, *values.shape[1:]), np.inf)
    out[at] = values
    return out


def _told(found: list[_Row], first: Shapes, others: Shapes, within_nm: float) -> Meetings:
    """All rows together: geodesics between the nearest places, what is farther than asked left out."""
    if not found:
        nothing = np.zeros(0)
        index = np.zeros(0, dtype=np.int64)
        return Meetings(index, index, nothing, nothing, index, nothing, nothing)
    row = np.concatenate([np.full(len(one.other), one.row) for one in found])
    lon, lat = (np.concatenate([np.full(len(one.other), one.centre[k]) for one in found]) for k in (0, 1))
    other, plane, on_first, on_second, within, wholly = (
        np.concatenate([getattr(one, name) for one in found])
        for name in ("other", "plane_nm", "on_first", "on_second", "within", "wholly")
    )
    near = np.isfinite(plane)
    places = [from_plane(lon, lat, np.where(near[:, np.newaxis], points, np.nan)) for points in (on_first, on_second)]
    _, _, between = geodesy.inverse(*places[0], *places[1])
    edge = np.where(near, np.where(plane == 0.0, 0.0, between), np.inf)
    width = first.width_nm[row] + others.width_nm[other]
    overlap = within | (edge <= width)
    distance = np.where(overlap, 0.0, edge - width)
    relation = np.where(
        wholly & overlap & (~others.filled[other] | (edge > 0.0)), INSIDE, np.where(overlap, OVERLAPS, NEAR)
    )
    keep = np.flatnonzero(distance <= within_nm)
    order = keep[np.lexsort((other[keep], distance[keep], row[keep]))]
    edge = np.where(np.isfinite(edge), edge, np.nan)
    return Meetings(*(values[order] for values in (row, other, distance, edge, relation, *places[1])))


def _in_plane(shapes: Shapes, feature: int, lon: float, lat: float, box: Boxes) -> polygons.Region:
    """What belongs to a feature in the plane at a place, of a polygon only what lies in a box of degrees."""
    parts = range(shapes.features[feature], shapes.features[feature + 1])
    rings = []
    for p in parts:
        path = shapes.coords[shapes.parts[p] : shapes.parts[p + 1]].copy()
        middle = (path[:, 0].min() + path[:, 0].max()) / 2.0
        path[:, 0] += turned_near(middle, lon)
        rings.append(path)
    if not shapes.filled[feature]:
        width = float(shapes.width_nm[feature])
        if not width > 0.0:
            return ()
        return polygons.around([_plane_path(path, lon, lat, closed=False) for path in rings], width)
    made: list[list[np.ndarray]] = []
    for p, path in zip(parts, rings):
        if shapes.outer[p]:
            made.append([])
        made[-1].append(path[:-1])
    frame = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * (box.half, (box.north - box.south) / 2.0) + (lon, lat)
    cut = polygons.shared(tuple(map(tuple, made)), ((frame,),))
    return tuple(tuple(_plane_path(ring, lon, lat, closed=True) for ring in polygon) for polygon in cut)


def _plane_path(path: np.ndarray, lon: float, lat: float, closed: bool) -> np.ndarray:
    ends = np.concatenate([path[1:], path[:1]]) if closed else path[1:]
    starts = path if closed else path[:-1]
    if not len(starts):
        return to_plane(lon, lat, path)
    begin, end, _ = cut_edges(starts, ends, _TOLERANCE_M)
    return to_plane(lon, lat, begin if closed else np.concatenate([begin, end[-1:]]))
