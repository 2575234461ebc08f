"""Fixes along a route: by distance from a vertex or from the start, and abeam a navaid.

A route is a chain of geodesic legs between its vertices.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import geodesy, reasons
from .geodesy import MEAN_RADIUS_M
from .units import NM_M

RADIUS_NM = MEAN_RADIUS_M / NM_M
ROUNDS = 20


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
    """One route of V vertices: lon, lat in degrees. Repeated vertices are dropped.

    Errors: ValueError for fewer than two different vertices or a vertex that is not finite.
    """

    def __init__(self, lon, lat) -> None:
        lon, lat = np.asarray(lon, dtype=np.float64), np.asarray(lat, dtype=np.float64)
        if not (np.isfinite(lon).all() and np.isfinite(lat).all()):
            raise ValueError("a route has a vertex without a position")
        if len(lon) > 1:
            _, _, legs = geodesy.inverse(lon[:-1], lat[:-1], lon[1:], lat[1:])
            keep = np.concatenate([[True], legs > 1.0 / NM_M])
            lon, lat = lon[keep], lat[keep]
        if len(lon) < 2:
            raise ValueError("a route needs at least two different vertices")
        self.lon, self.lat = lon, lat
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
        at_vertex = inside & (np.abs(along) < 1.0 / NM_M) & (leg > 0)
        before = np.where(at_vertex, self.course_end_deg[np.maximum(leg - 1, 0)], course)
        code = reasons.where(~inside, reasons.OFF_ROUTE)
        return RouteFixes(lon, lat, before, course, np.where(inside, dist, np.nan), leg, code)

    def from_vertex(self, vertex, distance_nm, beyond) -> RouteFixes:
        """Places before or beyond a vertex, measured along the route.

        Parameters: vertex, 1 for the first; distance_nm >= 0; beyond, true in the direction of the route.
        """
        vertex, dist, beyond = np.broadcast_arrays(
            np.atleast_1d(np.asarray(vertex)), np.asarray(distance_nm, dtype=np.float64), np.asarray(beyond)
        )
        known = (vertex >= 1) & (vertex <= len(self.lon))
        start = self.start_nm[np.where(known, vertex - 1, 0).astype(np.int64)]
        found = self.at(np.where(known, start + np.where(beyond, dist, -dist), np.nan))
        return found._replace(code=reasons.first(reasons.where(~known, reasons.NO_VERTEX), found.code))

    def abeam(self, lon, lat, within_nm: float) -> tuple[np.ndarray, RouteFixes, np.ndarray]:
        """Where the route passes abeam of points: on each leg the foot of the point, if it lies on the leg.

        Parameters: lon, lat (M,) of the points; within_nm, the farthest that counts. Returns: index of the
        point of each abeam place, RouteFixes, distance in NM from the point. Source: foot of a point on a
        geodesic by repeated projection; derived here.
        """
        lon, lat = np.atleast_1d(np.asarray(lon, float)), np.atleast_1d(np.asarray(lat, float))
        legs, points = len(self.leg_nm), len(lon)
        owner, leg = np.repeat(np.arange(points), legs), np.tile(np.arange(legs), points)
        along = np.zeros(len(owner))
        for _ in range(ROUNDS):
            p_lon, p_lat, course = geodesy.direct(self.lon[leg], self.lat[leg], self.course_deg[leg], along)
            towards, _, apart = geodesy.inverse(p_lon, p_lat, lon[owner], lat[owner])
            with np.errstate(invalid="ignore"):
                move = RADIUS_NM * np.arctan(np.tan(apart / RADIUS_NM) * np.cos(np.radians(towards - course)))
            along = along + move
            if not np.any(np.abs(move) > 1e-8):
                break
        with np.errstate(invalid="ignore"):
            on_leg = (along >= 0.0) & (along < self.leg_nm[leg]) & (apart <= within_nm)
        rows = np.flatnonzero(on_leg)
        return owner[rows], self.at(self.start_nm[leg[rows]] + along[rows]), apart[rows]
