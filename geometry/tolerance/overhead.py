"""A fix overhead a station: the cone in which its bearing is lost, and how it is entered."""

from __future__ import annotations

import numpy as np

from .. import cones
from .accuracy import aid_of
from .figures import FIGURES

_VOR_ENTRY_NM_PER_FT = FIGURES["icao_vor_entry_nm_per_thousand_ft"].value / 1000.0


def overhead_cone(height_ft, kinds) -> tuple[np.ndarray, np.ndarray]:
    """Cone overhead a VOR or NDB by the ICAO rule.

    Radius 0.164 h tan(50) (VOR) or tan(40) (NDB), h in thousand feet above the station. The aircraft enters
    eta off the line through the station: sin(eta) = 0.033 h / radius (VOR), eta = 15 (NDB).
    Parameters: height_ft above the station, > 0; kinds. They broadcast. Returns: radius NM, eta degrees; NaN
    for no height and for a kind without a cone. Source: cones.CONES, FIGURES.

    >>> radius, eta = overhead_cone(6000.0, "VOR")
    >>> round(float(radius), 4), round(float(eta), 3)
    (1.1727, 9.721)
    """
    aid, height = np.broadcast_arrays(aid_of(kinds), np.asarray(height_ft, dtype=np.float64))
    vor, ndb = cones.nm_per_foot("vor"), cones.nm_per_foot("ndb")
    vor_eta = np.degrees(np.arcsin(_VOR_ENTRY_NM_PER_FT / vor))
    with np.errstate(invalid="ignore"):
        good = (height > 0.0) & ((aid == 0) | (aid == 1))
    eta = np.where(aid == 1, FIGURES["icao_ndb_entry_deg"].value, vor_eta)
    return np.where(good, np.where(aid == 1, ndb, vor) * height, np.nan), np.where(good, eta, np.nan)
