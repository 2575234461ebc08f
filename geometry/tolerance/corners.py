"""Where the limits of two lines of position cross: the corners of an area."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import crossings, geodesy, reasons
from ..angles import cosd, wrap180
from .given import Fix
from .lines import Line
from .methods import ARC_ARC, RADIAL_ARC, RADIAL_RADIAL

_CORNER_1, _CORNER_2 = np.array([0, 0, 1, 1]), np.array([0, 1, 0, 1])


def corners(fix: Fix, one: Line, two: Line, code):
    """Corners A1 to A4 of lines of position, (N, 4) each, and codes of N rows."""
    lon, lat = np.full((len(code), 4), np.nan), np.full((len(code), 4), np.nan)
    out = np.zeros(len(code), dtype=np.int16)
    one_site = (one.lon == two.lon) & (one.lat == two.lat)
    cases = (
        ((fix.method == RADIAL_ARC) & one_site, _on_one_site),
        ((fix.method == RADIAL_ARC) & ~one_site, _radial_and_arc),
        (fix.method == RADIAL_RADIAL, _two_radials),
        (fix.method == ARC_ARC, _two_arcs),
    )
    for mask, solve in cases:
        rows = np.flatnonzero(mask & (code == reasons.OK))
        if not len(rows):
            continue
        each = np.repeat(rows, 4)
        limit_1, limit_2 = one.limits[rows][:, _CORNER_1].ravel(), two.limits[rows][:, _CORNER_2].ravel()
        at = solve(fix, one, two, each, limit_1, limit_2)
        lon[rows], lat[rows] = at.lon.reshape(-1, 4), at.lat.reshape(-1, 4)
        codes = at.code.reshape(-1, 4)
        same = (codes == reasons.SAME_STATION).any(axis=1)
        lost = (codes != reasons.OK).any(axis=1) | ~np.isfinite(lat[rows]).all(axis=1)
        out[rows] = reasons.first(
            reasons.where(same, reasons.SAME_STATION), reasons.where(lost, reasons.TOLERANCE_UNBOUNDED)
        )
    return lon, lat, out


class _Corner(NamedTuple):
    lon: np.ndarray
    lat: np.ndarray
    code: np.ndarray


def _on_one_site(fix, one, two, rows, azimuth, radius) -> _Corner:
    lon, lat, _ = geodesy.direct(one.lon[rows], one.lat[rows], azimuth, radius)
    return _Corner(lon, lat, np.zeros(len(rows), dtype=np.int16))


def _two_radials(fix, one, two, rows, azimuth_1, azimuth_2) -> _Corner:
    at = crossings.radial_radial(one.lon[rows], one.lat[rows], azimuth_1, two.lon[rows], two.lat[rows], azimuth_2)
    return _Corner(at.lon, at.lat, at.code)


def _radial_and_arc(fix, one, two, rows, azimuth, radius) -> _Corner:
    """The crossings on the fix's own side: all where the ray nears the arc's centre, or all where it leaves it."""
    near, far = crossings.radial_arc(one.lon[rows], one.lat[rows], azimuth, two.lon[rows], two.lat[rows], radius)

    def nears(lon, lat) -> np.ndarray:
        along = geodesy.inverse(one.lon[rows], one.lat[rows], lon, lat)[1]
        return cosd(along - geodesy.inverse(lon, lat, two.lon[rows], two.lat[rows])[0]) > 0.0

    wanted = nears(fix.lon[rows], fix.lat[rows])
    found = [(at.code == reasons.OK) & (nears(at.lon, at.lat) == wanted) for at in (near, far)]
    lon, lat = np.where(found[0], near.lon, far.lon), np.where(found[0], near.lat, far.lat)
    return _Corner(lon, lat, reasons.where(~(found[0] | found[1]), reasons.TOLERANCE_UNBOUNDED))


def _two_arcs(fix, one, two, rows, radius_1, radius_2) -> _Corner:
    """The crossings on the fix's side of the line between the centres; touching arcs bound nothing."""
    place_1, place_2 = (one.lon[rows], one.lat[rows]), (two.lon[rows], two.lat[rows])
    left, right = crossings.arc_arc(*place_1, radius_1, *place_2, radius_2)
    base = geodesy.inverse(*place_1, *place_2)[0]
    on_left = wrap180(geodesy.inverse(*place_1, fix.lon[rows], fix.lat[rows])[0] - base) < 0.0
    lon, lat, cut = (np.where(on_left, getattr(left, n), getattr(right, n)) for n in ("lon", "lat", "cut_deg"))
    touching = reasons.where(~(cut >= crossings.LEAST_CUT_DEG), reasons.TOLERANCE_UNBOUNDED)
    return _Corner(lon, lat, reasons.first(np.where(on_left, left.code, right.code), touching))
