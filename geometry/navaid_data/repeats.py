"""Rows of a table that repeat an earlier one."""

from __future__ import annotations

import math

import numpy as np

from .. import geodesy
from .sites import SAME_SITE_M


def refuse_repeats(out: dict[str, np.ndarray], why: np.ndarray) -> None:
    """A reason for each row of an earlier row's ident, kind and place.

    Places are hashed into cubes of earth-centred space as wide as the tolerance, so that any two within it lie
    in the same or neighbouring cubes.
    """
    groups: dict[tuple[str, str], list[int]] = {}
    for i in np.flatnonzero(why == ""):
        groups.setdefault((out["ident"][i].upper(), out["kind"][i]), []).append(int(i))
    neighbours = [(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1)]
    for rows in groups.values():
        if len(rows) == 1:
            continue
        earth_centred = _earth_centred_m(out["lon"][rows], out["lat"][rows])
        cubes, xyz = np.floor(earth_centred / SAME_SITE_M).astype(np.int64).tolist(), earth_centred.tolist()
        kept: dict[tuple[int, int, int], list[int]] = {}
        for k, (cx, cy, cz) in enumerate(cubes):
            near = (j for x, y, z in neighbours for j in kept.get((cx + x, cy + y, cz + z), ()))
            same = min((j for j in near if math.dist(xyz[j], xyz[k]) <= SAME_SITE_M), default=-1)
            if same >= 0:
                why[rows[k]] = f"it repeats row {rows[same] + 1}: the same ident, kind and place"
            else:
                kept.setdefault((cx, cy, cz), []).append(k)


def _earth_centred_m(lon, lat) -> np.ndarray:
    phi, lam = np.radians(lat), np.radians(lon)
    e2 = geodesy.GEOD.es
    normal = geodesy.GEOD.a / np.sqrt(1.0 - e2 * np.sin(phi) ** 2)
    across = normal * np.cos(phi)
    return np.stack([across * np.cos(lam), across * np.sin(lam), normal * (1.0 - e2) * np.sin(phi)], axis=-1)
