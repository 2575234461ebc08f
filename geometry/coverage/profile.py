"""The terrain between a station and a fix: where it is asked for, and how the ray clears it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import geodesy, reasons
from ..units import FT_M, NM_M
from .sight import EFFECTIVE_RADIUS_M


class Profile(NamedTuple):
    """Places along geodesics, (N, K) each, padded with NaN: distance from the first end, longitude, latitude."""

    dist_nm: np.ndarray
    lon: np.ndarray
    lat: np.ndarray


class Clearance(NamedTuple):
    """How rays clear the terrain, N rows.

    margin_ft: the smallest height of the ray above known terrain, negative where terrain stands above it, NaN
    where nothing is known or nothing lies between; at_nm from the station, where that is; needed_ft: the least
    altitude at the fix whose ray clears all known terrain; missing, samples: how many places were asked for
    terrain, and how many had none; code: NO_TERRAIN where terrain is missing and no known terrain is in the way.
    """

    margin_ft: np.ndarray
    at_nm: np.ndarray
    needed_ft: np.ndarray
    missing: np.ndarray
    samples: np.ndarray
    code: np.ndarray

    @property
    def clear(self) -> np.ndarray:
        """True where the whole profile is known and the ray is nowhere below the terrain."""
        return (self.code == reasons.OK) & ~(self.margin_ft < 0.0)


def profile_points(lon1, lat1, lon2, lat2, step_nm: float) -> Profile:
    """Places at which terrain is asked for, from stations (1) to fixes (2), both ends included.

    Evenly spaced on the geodesic, no farther apart than the step. Parameters: degrees, N rows or what
    broadcasts; step_nm > 0, no more than half a cell of the terrain.
    Returns: Profile (N, K), K that of the longest row. A row with NaN is all NaN.
    Errors: ValueError for a step that is not positive. Source: geodesics as geodesy.direct.

    >>> profile_points(10.0, 50.0, 10.0, 50.1, 2.0).dist_nm.round(3).tolist()
    [[0.0, 1.501, 3.003, 4.504, 6.006]]
    """
    if not (np.isfinite(step_nm) and step_nm > 0.0):
        raise ValueError(f"step_nm is {step_nm}; it must be a positive number of NM")
    ends = [np.atleast_1d(np.asarray(a, dtype=np.float64)) for a in (lon1, lat1, lon2, lat2)]
    lon1, lat1, lon2, lat2 = np.broadcast_arrays(*ends)
    course, _, total = geodesy.inverse(lon1, lat1, lon2, lat2)
    known = np.isfinite(total)
    pieces = np.maximum(np.ceil(np.where(known, total, 0.0) / step_nm - 1e-9), 1.0)
    k = np.arange(int(pieces.max(initial=1.0)) + 1)
    share = np.where(known[:, np.newaxis] & (k <= pieces[:, np.newaxis]), k / pieces[:, np.newaxis], np.nan)
    dist = share * total[:, np.newaxis]
    lon, lat, _ = geodesy.direct(lon1[:, np.newaxis], lat1[:, np.newaxis], course[:, np.newaxis], dist)
    return Profile(dist, lon, lat)


def profile_clearance(dist_nm, terrain_ft, total_nm, station_ft, aircraft_ft, own_cell_nm=0.0) -> Clearance:
    """How the ray from a station's antenna to an aircraft clears sampled terrain.

    At x of d the ray is at z1 + (z2 - z1) x / d - x (d - x) / (2 a), a being 4/3 of the earth's radius.
    Parameters: dist_nm (N, K) from the station, NaN where the row is padded; terrain_ft (N, K) of the highest
    cell each sample touches, NaN where there is no data; total_nm d > 0, station_ft the antenna above sea
    level, aircraft_ft, (N,) or what broadcasts; own_cell_nm: samples no farther than that from the station are
    left out, since its own cell (one diagonal) is no obstacle to it.
    Returns: Clearance of N rows; NO_ELEVATION, NO_ALTITUDE where a height is missing.
    Errors: ValueError for terrain of another shape than the distances. Source: EFFECTIVE_RADIUS_SOURCE; derived here.

    >>> ridge = profile_clearance([[10.0]], [[1000.0]], 40.0, 1000.0, 3000.0)
    >>> round(float(ridge.margin_ft[0]), 2), float(ridge.at_nm[0])
    (301.29, 10.0)
    """
    x, terrain = (np.atleast_2d(np.asarray(a, dtype=np.float64)) for a in (dist_nm, terrain_ft))
    if x.shape != terrain.shape:
        raise ValueError(f"terrain_ft has the shape {terrain.shape}; it must be that of dist_nm, {x.shape}")
    total, z1, z2, own = (_column(a, len(x)) for a in (total_nm, station_ft, aircraft_ft, own_cell_nm))
    with np.errstate(invalid="ignore", divide="ignore"):
        between = np.isfinite(x) & (x > own)
        seen = between & np.isfinite(terrain)
        bulge = x * (total - x) * (NM_M**2 / (2.0 * EFFECTIVE_RADIUS_M) / FT_M)
        margin = np.where(seen, z1 + (z2 - z1) * (x / total) - bulge - terrain, np.nan)
        needed = np.where(seen & (x > 0.0), z1 + (terrain + bulge - z1) * (total / x), np.nan)
    worst = np.argmin(np.where(np.isfinite(margin), margin, np.inf), axis=1) if x.shape[1] else np.zeros(len(x), int)
    rows = np.arange(len(x))
    any_seen = np.isfinite(margin).any(axis=1)
    least = np.full(len(x), np.nan)
    at, altitude = least.copy(), least.copy()
    least[any_seen], at[any_seen] = margin[rows, worst][any_seen], x[rows, worst][any_seen]
    with np.errstate(invalid="ignore"):
        altitude[any_seen] = np.max(np.where(np.isfinite(needed), needed, -np.inf), axis=1, initial=-np.inf)[any_seen]
        blocked = least < 0.0
    samples = between.sum(axis=1)
    missing = samples - seen.sum(axis=1)
    nowhere = ~np.isfinite(x).any(axis=1)
    code = reasons.first(
        reasons.where(~np.isfinite(z1[:, 0]), reasons.NO_ELEVATION),
        reasons.where(~np.isfinite(z2[:, 0]), reasons.NO_ALTITUDE),
        reasons.where(((missing > 0) | nowhere) & ~blocked, reasons.NO_TERRAIN),
    )
    return Clearance(least, at, altitude, missing, samples, code)


def _column(values, n: int) -> np.ndarray:
    return np.broadcast_to(np.asarray(values, dtype=np.float64), (n,))[:, np.newaxis]
