"""Fixes along a route: by distance from a vertex or from the start, and abeam a navaid.

A route is a chain of geodesic legs between its vertices.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, reasons
from .units import NM_M

SAME_VERTEX_NM = 1e-3 / NM_M
"""Vertices nearer together are one."""
AT_VERTEX_NM = 1.0 / NM_M
"""A place this near to a vertex lies at it and has the courses of both its legs."""


class RouteFixes(NamedTuple):
    """Places on a route, N rows: place, course there in the direction of the route, courses of the leg before
    and after (they differ at a vertex only), distance from the start, leg index, code."""

    lon: np.ndarray
    lat: np.ndarray
    course_deg: np.ndarray
    course_after_deg: np.ndarray
    from_start_nm: np.ndarray
    leg: np.ndarray
    code: np.ndarray


class Route:
    """One route of V vertices: lon, lat in degrees. A repeated vertex keeps its number and gives no leg.

    Errors: ValueError for fewer than two different vertices or a vertex that is not finite.
    """

    def __init__(self, lon, lat) -> None:
        lon, lat = np.asarray(lon, dtype=np.float64), np.asarray(lat, dtype=np.float64)
        if not (np.isfinite(lon).all() and np.isfinite(lat).all()):
            raise ValueError("a route has a vertex without a position")
        _, _, legs = geodesy.inverse(lon[:-1], lat[:-1], lon[1:], lat[1:])
        keep = np.concatenate([[True], legs > SAME_VERTEX_NM])
        if np.count_nonzero(keep[: len(lon)]) < 2:
            raise ValueError("a route needs at least two different vertices")
        self.lon, self.lat = lon[keep], lat[keep]
        self.index, self.number = np.cumsum(keep) - 1, np.flatnonzero(keep) + 1
        lon, lat = self.lon, self.lat
        self.course_deg, self.course_end_deg, self.leg_nm = geodesy.inverse(lon[:-1], lat[:-1], lon[1:], lat[1:])
        self.start_nm = np.concatenate([[0.0], np.cumsum(self.leg_nm)])

    def at(self, from_start_nm) -> RouteFixes:
        """Places at distances from the start. Beyond either end: code OFF_ROUTE."""
        dist = np.atleast_1d(np.asarray(from_start_nm, dtype=np.float64))
        total = self.start_nm[-1]
        with np.errstate(invalid="ignore"):
            inside = (dist >= -1e-9) & (dist <= total + 1e-9)
        leg = np.searchsorted(self.start_nm, np.where(inside, dist, 0.0), side="right") - 1
        leg = np.clip(leg, 0, len(self.leg_nm) - 1)
        along = np.where(inside, dist - self.start_nm[leg], np.nan)
        lon, lat, course = geodesy.direct(self.lon[leg], self.lat[leg], self.course_deg[leg], along)
        begins = inside & (leg > 0) & (along < AT_VERTEX_NM)
        ends = inside & (leg < len(self.leg_nm) - 1) & (self.leg_nm[leg] - along < AT_VERTEX_NM)
        before = np.where(begins, self.course_end_deg[np.maximum(leg - 1, 0)], course)
        after = np.where(ends, self.course_deg[np.minimum(leg + 1, len(self.leg_nm) - 1)], course)
        code = reasons.where(~inside, reasons.OFF_ROUTE)
        return RouteFixes(lon, lat, before, after, np.where(inside, dist, np.nan), leg, code)

    def from_vertex(self, vertex, distance_nm, beyond) -> RouteFixes:
        """Places before or beyond a vertex, measured along the route.

        Parameters: vertex, 1 for the first of those given, repeated ones counted; distance_nm >= 0; beyond, true in the
        direction of the route. Codes: NO_VERTEX, OFF_ROUTE.
        """
        vertex, dist, beyond = np.broadcast_arrays(
            np.atleast_1d(np.asarray(vertex)), np.asarray(distance_nm, dtype=np.float64), np.asarray(beyond)
        )
        known = (vertex >= 1) & (vertex <= len(self.index)) & (vertex == np.floor(vertex))
        start = self.start_nm[self.index[np.where(known, vertex - 1, 0).astype(np.int64)]]
        found = self.at(np.where(known, start + np.where(beyond, dist, -dist), np.nan))
        return found._replace(code=reasons.first(reasons.where(~known, reasons.NO_VERTEX), found.code))

    def abeam(self, lon, lat, within_nm: float) -> tuple[np.ndarray, RouteFixes, np.ndarray]:
        """Where the route passes abeam of points: on each leg the foot of the point, if it lies on the leg.

        Parameters: lon, lat (M,) of the points; within_nm, the farthest that counts. Returns: index of the
        point of each abeam place, RouteFixes, distance in NM from the point; a point at a vertex is abeam of it
        once. Source: foot of a point on a geodesic by repeated projection; derived here.
        """
        lon, lat = np.atleast_1d(np.asarray(lon, float)), np.atleast_1d(np.asarray(lat, float))
        owner, leg = (a.ravel() for a in np.indices((len(lon), len(self.leg_nm))))
        _, _, apart = geodesy.inverse(self.lon[leg], self.lat[leg], lon[owner], lat[owner])
        with np.errstate(invalid="ignore"):
            within_reach = apart <= within_nm + self.leg_nm[leg]
        owner, leg = owner[within_reach], leg[within_reach]
        along, apart = geodesy.foot(self.lon[leg], self.lat[leg], self.course_deg[leg], lon[owner], lat[owner])
        on_leg = (along > -AT_VERTEX_NM) & (along < self.leg_nm[leg] + AT_VERTEX_NM) & (apart <= within_nm)
        owner, leg, along, apart = owner[on_leg], leg[on_leg], along[on_leg], apart[on_leg]
        place = self.start_nm[leg] + np.clip(along, 0.0, self.leg_nm[leg])
        again = (owner[1:] == owner[:-1]) & (leg[1:] == leg[:-1] + 1) & (place[1:] - place[:-1] < 2.0 * AT_VERTEX_NM)
        once = ~np.concatenate([np.zeros(min(len(owner), 1), bool), again])
        return owner[once], self.at(place[once]), apart[once]
