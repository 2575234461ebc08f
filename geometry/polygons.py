"""Unions, differences and offsets of plane polygons that need not be convex: the one place that uses shapely.

A region is a tuple of polygons, each a tuple of open rings (M, 2): the outer one first, counter-clockwise, its holes
after it, clockwise. shapely is looked for when something is computed, so that what needs none of it runs without.
"""

from __future__ import annotations

from importlib.util import find_spec

import numpy as np

Region = tuple[tuple[np.ndarray, ...], ...]

_MITRE = 2
_ROUND = 1
_FARTHEST_MITRE = 2.0
"""A corner's mitre reaches at most twice the offset; a sharper corner is cut there."""


def available() -> bool:
    """Whether shapely is there; without it only area works, and the rest raises ImportError."""
    return find_spec("shapely") is not None


def is_simple(ring) -> bool:
    """Whether an open ring (M, 2) has an inside: at least three corners, no crossing and no touching of itself."""
    from shapely.geometry import Polygon

    ring = np.asarray(ring, dtype=np.float64)
    return len(ring) >= 3 and bool(Polygon(ring).is_valid) and Polygon(ring).area > 0.0


def contains(region: Region, point) -> bool:
    """Whether a point (2,) lies inside a region or on its edge."""
    from shapely.geometry import Point

    return bool(_shape(region).covers(Point(point)))


def area(region: Region) -> float:
    """Size of a region, in the square of its unit."""
    return sum(abs(_doubled(ring)) * (1 if k == 0 else -1) for rings in region for k, ring in enumerate(rings)) / 2.0


def united(regions: list[Region]) -> Region:
    """The union of regions. Returns: a region; empty for none."""
    from shapely.ops import unary_union

    return _region(unary_union([_shape(region) for region in regions]))


def without(region: Region, other: Region) -> Region:
    """What of a region lies outside another."""
    return _region(_shape(region).difference(_shape(other)))


def widened(region: Region, distance: float, tolerance: float) -> Region:
    """A region that contains every place within a distance of another, and exceeds that by no more than a tolerance.

    Round corners are drawn by tangents. Where the tolerance is not less than the distance the corners are mitred,
    at most to twice the distance. Parameters: one unit; distance >= 0, tolerance > 0.
    Errors: ValueError for a distance that is negative or a tolerance that is not positive. Derived here: a tangent's
    end lies 1 / cos(step / 2) as far out as the arc that it touches.
    """
    if not distance >= 0.0 or not tolerance > 0.0:
        raise ValueError(f"distance is {distance} and tolerance {tolerance}; they must be at least 0 and more than 0")
    shape = _shape(region)
    if tolerance >= distance:
        return _region(shape.buffer(distance, join_style=_MITRE, mitre_limit=_FARTHEST_MITRE))
    a_quarter = int(np.ceil(np.pi / 4.0 / np.arccos(distance / (distance + tolerance))))
    farther = distance / np.cos(np.pi / (4.0 * a_quarter))
    return _region(shape.buffer(farther, a_quarter, join_style=_ROUND))


def shared(region: Region, other: Region) -> Region:
    """What lies in both regions; their polygons may overlap or cross themselves. Where they only touch: nothing."""
    return _region(_sound(region).intersection(_sound(other)))


def around(paths: list[np.ndarray], distance: float, chords: int = 16) -> Region:
    """All within a distance of points and lines.

    Parameters: paths, arrays (M, 2), one corner for a point; distance > 0; chords for a quarter of a circle: the region
    is inscribed, with 16 a disc is 0.16 % short of its area. Errors: ValueError for a distance that is not positive.
    """
    if not distance > 0.0:
        raise ValueError(f"distance is {distance}; it must be more than 0")
    from shapely.geometry import LineString, Point
    from shapely.ops import unary_union

    made = [LineString(path) if len(path) > 1 else Point(path[0]) for path in paths]
    return _region(unary_union([shape.buffer(distance, chords) for shape in made]))


def _sound(region: Region):
    """shapely's form of any region: polygons that overlap are joined, a ring that crosses itself is parted."""
    from shapely.geometry import Polygon
    from shapely.ops import unary_union
    from shapely.validation import make_valid

    made = [Polygon(rings[0], list(rings[1:])) for rings in region]
    return unary_union([polygon if polygon.is_valid else make_valid(polygon) for polygon in made])


def _shape(region: Region):
    from shapely.geometry import MultiPolygon, Polygon

    return MultiPolygon([Polygon(rings[0], [hole for hole in rings[1:]]) for rings in region])


def _region(shape) -> Region:
    """The polygons of what shapely made; lines and points, where two shapes only touched, are left out."""
    parts = getattr(shape, "geoms", [shape])
    polygons = [part for part in parts if part.geom_type == "Polygon" and not part.is_empty]
    return tuple((_turned(p.exterior, 1), *(_turned(hole, -1) for hole in p.interiors)) for p in polygons)


def _turned(ring, wanted: int) -> np.ndarray:
    """An open ring in the direction wanted: 1 counter-clockwise, -1 clockwise."""
    corners = np.array(ring.coords, dtype=np.float64)[:-1, :2]
    return corners if _doubled(corners) * wanted > 0.0 else corners[::-1]


def _doubled(ring: np.ndarray) -> float:
    """Twice the signed area of an open ring, positive counter-clockwise."""
    x, y = (ring - ring[0]).T
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))
