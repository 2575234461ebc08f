"""The four edges of an area: on lines of position, or in the frame of the inbound course."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import geodesy
from ..angles import cosd, sind, wrap180
from .figures import FIGURES
from .given import Fix
from .lines import Line
from .methods import OVERHEAD

# Edges in the order of the ring A1 A2 A4 A3: the line each lies on, which of its two limits, from corner, to corner.
_EDGE_LINE, _EDGE_LIMIT = np.array([0, 1, 0, 1]), np.array([0, 1, 1, 0])
_FROM, _TO = np.array([0, 1, 3, 2]), np.array([1, 3, 2, 0])


class Edges(NamedTuple):
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


def line_edges(one: Line, two: Line, corner_lon, corner_lat, margin_nm: float) -> Edges:
    """Edges on the limits of two lines between the corners A1 to A4, (N, 4) each."""
    shape = corner_lon.shape
    out = Edges(*[np.zeros(shape) for _ in range(8)], np.zeros(shape, bool), np.zeros(shape, bool))
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


def frame_edges(fix: Fix, frame, radius, margin_nm: float) -> Edges:
    """Edges between corners u, s of the frame; overhead, the far and near ones are arcs of the radius."""
    u, s = frame
    arc = (fix.method == OVERHEAD)[:, None] & (_EDGE_LINE == 1)
    u0, s0, du, ds = u[:, _FROM], s[:, _FROM], u[:, _TO] - u[:, _FROM], s[:, _TO] - s[:, _FROM]
    with np.errstate(invalid="ignore", divide="ignore"):
        out_u, out_s = margin_nm * ds / np.hypot(du, ds), -margin_nm * du / np.hypot(du, ds)
    course = np.broadcast_to(fix.course[:, None], arc.shape)
    start, end = np.degrees(np.arctan2(s0, u0)), np.degrees(np.arctan2(s0 + ds, u0 + du))
    reach = np.broadcast_to(radius[:, None] + margin_nm, arc.shape)
    nothing = np.zeros(arc.shape)
    return Edges(
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


def frame_corners(fix: Fix, radius, eta) -> tuple[np.ndarray, np.ndarray]:
    """Corners A1 to A4 (near left, far left, near right, far right) in the frame, s to the right: u, s of (N, 4)."""
    out = eta + 2.0 * FIGURES["icao_cone_track_deg"].value
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
