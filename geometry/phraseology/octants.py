"""Directions of a clearance: the eight points of the compass, and whether one agrees with a course."""

from __future__ import annotations

import math

from ..angles import wrap180

OCTANTS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
NAMES = ("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest")
HALF_OCTANT_DEG = 22.5
ADJACENT_DEG = 5.0
"""How far outside its octant a course may lie and still be what was meant: our own choice."""


def octant(course_deg: float) -> str:
    """The point of the compass nearest to a course; on the line between two, the one clockwise.

    >>> octant(45.0), octant(22.5), octant(359.0)
    ('NE', 'NE', 'N')
    """
    return OCTANTS[math.floor(course_deg / 45.0 + 0.5) % 8]


def name(point: str) -> str:
    """A point of the compass in words.

    >>> name("SE")
    'southeast'
    """
    return NAMES[OCTANTS.index(point)]


def middle_deg(point: str) -> float:
    """The course in the middle of a point's octant."""
    return 45.0 * OCTANTS.index(point)


def outside_deg(point: str, course_deg: float) -> float:
    """How far a course lies outside a point's octant, degrees; 0 inside.

    >>> outside_deg("NE", 70.0), outside_deg("NE", 67.0)
    (2.5, 0.0)
    """
    return max(0.0, abs(float(wrap180(course_deg - middle_deg(point)))) - HALF_OCTANT_DEG)


def fits(point: str, course_deg: float) -> bool:
    """Whether a course lies in a point's octant or within ADJACENT_DEG of it."""
    return outside_deg(point, course_deg) <= ADJACENT_DEG
