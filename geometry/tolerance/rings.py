"""Edges to closed rings, and the measures of rings."""

from __future__ import annotations

import numpy as np

from .. import geodesy
from ..angles import cosd
from .edges import Edges
from .given import Fix

ARC_SHARE, MARGIN_SHARE = 0.5, 0.2
"""Of the tolerance: what arcs may be off, and by how much every edge is pushed out and may be off in degrees."""


def rings(fix: Fix, edges: Edges, good, reach_lat, tolerance_m: float):
    """Closed rings of the good rows: coords, offsets, and the rows whose ring runs round a pole.

    A bulging arc becomes its tangents, ends included; a hollow one its chords; every piece is short enough for
    its chord in longitude and latitude to stay within the margin.
    """
    n = len(good)
    angle = np.radians(np.abs(edges.db))
    length = np.where(edges.db == 0.0, np.hypot(edges.dx, edges.dy), angle * np.abs(edges.x0))
    piece = geodesy.longest_piece_nm(reach_lat, MARGIN_SHARE * tolerance_m)[:, None]
    draw = good[:, None] & ~edges.skip
    with np.errstate(invalid="ignore"):
        chords = np.where(draw, np.ceil(length / piece - 1e-9), 1.0)
        for_arc = geodesy.chord_count(angle, np.maximum(edges.x0, 1e-6), ARC_SHARE * tolerance_m)
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


def measures(fix: Fix, coords, offsets):
    """Half-widths ahead, behind, left, right, and area of rings, in the frame of the inbound course; NaN if empty."""
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
    out[4][rows] = np.abs(geodesy.frame_sizes_nm2(fix.lat[rows], u, s, np.append(starts, len(u))))
    return out
