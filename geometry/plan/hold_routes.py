"""Routes that lead to holds and once round: the places in order, and the line as it is drawn."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import geodesy
from ..routes import Route
from ..units import NM_M
from .arrivals import find_arrivals
from .holding import HoldRows, pattern_rows, track_rows

AT_FIX_NM = 10.0 / NM_M
"""An arrival that ends this near to the fix ends at it. Our own choice."""

ARRIVAL, FIX, OUTBOUND, OUTBOUND_END, INBOUND = "arrival", "fix", "outbound", "outbound end", "inbound"
"""What a place of a route is: on the arrival; the fix; the corners of the pattern in the order flown."""


class HoldRoute(NamedTuple):
    """A route: row of its hold and of its arrival line (-1: none); lon, lat (K,) of its places and what each is;
    line (M, 2), the arrival and the pattern's curve, longitude unwrapped; ring (R, 2), the pattern's curve alone."""

    hold: int
    arrival: int
    lon: np.ndarray
    lat: np.ndarray
    what: tuple[str, ...]
    line: np.ndarray
    ring: np.ndarray


def hold_routes(rows: HoldRows, arrivals: list[Route], within_nm: float, tolerance_m: float = 5.0) -> list[HoldRoute]:
    """Routes to the good holds: one for each arrival, one without for a hold that no line reaches.

    The arrival's vertices up to the one nearest to the fix, the fix, the corners of the still-air pattern in the
    order flown (start and end of the outbound leg, start of the inbound leg), and the fix again.
    Parameters: rows; arrivals, M lines; within_nm > 0, how near to the fix a line's segment must end; tolerance_m of
    the drawn curve. Returns: routes, hold by hold.
    """
    index = np.flatnonzero(rows.good)
    lon, lat = rows.holds.lon[index], rows.holds.lat[index]
    found = find_arrivals(arrivals, lon, lat, within_nm)
    pattern, legs = pattern_rows(rows, tolerance_m), track_rows(rows, tolerance_m)
    made = []
    for i, row in enumerate(index.tolist()):
        ring = pattern.coords[pattern.offsets[i] : pattern.offsets[i + 1]]
        corners = legs.coords[legs.offsets[4 * i + 1 : 4 * i + 4]]
        for line in found.line[found.owner == i].tolist() or [-1]:
            before = np.empty((0, 2)) if line < 0 else _arriving(arrivals[line], lon[i], lat[i])
            places = np.vstack([before, ring[:1], corners, ring[:1]])
            what = (*[ARRIVAL] * len(before), FIX, OUTBOUND, OUTBOUND_END, INBOUND, FIX)
            made.append(HoldRoute(row, line, places[:, 0], places[:, 1], what, np.vstack([before, ring]), ring))
    return made


def _arriving(line: Route, lon: float, lat: float) -> np.ndarray:
    """The vertices of a line up to the end of the segment nearest to a fix, the last of equals, without the fix.

    Longitudes run on from the fix, so that the whole is in one piece.
    """
    apart = geodesy.inverse(line.lon[1:], line.lat[1:], lon, lat)[2]
    near = np.round(apart, 9)
    last = len(near) - int(np.argmin(near[::-1]))
    keep = last if apart[last - 1] <= AT_FIX_NM else last + 1
    out = np.column_stack([line.lon[:keep], line.lat[:keep]])
    turns = np.round((np.diff(out[::-1, 0], prepend=lon)) / 360.0)
    out[:, 0] -= 360.0 * np.cumsum(turns)[::-1]
    return out
