"""The cone over a station in which its signal is not used."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import navaids
from .sources import FROM_MEMORY, PUBLISHED
from .units import FT_PER_NM


class Cone(NamedTuple):
    """Half-angle from the vertical of the cone over a station in which its signal is not used."""

    half_angle_deg: float
    nm_per_thousand_ft: float
    mark: str
    source: str


_CONE = "ICAO Doc 8168 Vol II, 5th ed., I-2-2-4"
CONES = {
    "vor": Cone(50.0, 0.164, PUBLISHED, _CONE + ", 2.5.1"),
    "ndb": Cone(40.0, 0.164, PUBLISHED, _CONE + ", 2.5.2"),
    "dme": Cone(55.0, 1_000.0 / FT_PER_NM, FROM_MEMORY, "ICAO Doc 8168 Vol II, VOR/DME holding; from memory, unsure"),
}
"""The ICAO's 0.164 NM for 1 000 ft also stands in Table I-4-3-App C-1, line 11. Where a document's NM formula has
rounded feet, so has the table. No cone of a TACAN's azimuth was seen: its DME's, the wider one, stands in."""
NO_CONE = ("TACAN", *navaids.LOCALIZERS)


def cone_radius_nm(height_ft, kinds) -> np.ndarray:
    """Radius of the cone overhead in which a bearing is not used.

    0.164 h tan(50) over a VOR, 0.164 h tan(40) over an NDB, h in thousand feet. Parameters: height_ft above the
    station; kinds; they broadcast. Returns: NM, 0 at and below the station's level; NaN for no height and for
    kinds without such a cone (a localizer; a TACAN: see dme_overhead_nm). Source: CONES.

    >>> round(float(cone_radius_nm(6000.0, "VOR")), 4), round(float(cone_radius_nm(6000.0, "NDB")), 4)
    (1.1727, 0.8257)
    """
    height, kinds = np.broadcast_arrays(np.asarray(height_ft, dtype=np.float64), np.asarray(kinds, dtype=object))
    radius = [np.maximum(height, 0.0) * nm_per_foot(name) for name in ("vor", "ndb")]
    azimuth = navaids.gives_radials(kinds) & ~np.isin(kinds, NO_CONE)
    return np.where(azimuth, radius[0], np.where(navaids.gives_bearings(kinds), radius[1], np.nan))


def dme_overhead_nm(height_ft) -> np.ndarray:
    """Ground distance from a DME below which its reading is not used: h tan(55), h the height above it.

    Parameters: height_ft, any shape. Returns: NM, 0 at and below its level. Source: CONES, low confidence.

    >>> round(float(dme_overhead_nm(6000.0)), 3)
    1.41
    """
    return np.maximum(np.asarray(height_ft, dtype=np.float64), 0.0) * nm_per_foot("dme")


def nm_per_foot(name: str) -> float:
    """Radius of a cone of CONES for each foot above the station, NM."""
    cone = CONES[name]
    return cone.nm_per_thousand_ft / 1000.0 * float(np.tan(np.radians(cone.half_angle_deg)))
