"""How far off a fix may be, in a plane."""

from __future__ import annotations

import numpy as np

from ..angles import cosd, sind


def radial_distance_error_nm(dist_nm, angle_deg, dme_error_nm) -> np.ndarray:
    """How far off a fix by radial and distance may be: the corner of its tolerance rectangle.

    hypot(D tan(angle), DME error). Parameters broadcast. Returns: NM. Derived here: plane estimate.
    """
    return np.hypot(np.asarray(dist_nm, dtype=np.float64) * np.tan(np.radians(angle_deg)), dme_error_nm)


def crossing_error_nm(dist_1_nm, angle_1_deg, dist_2_nm, angle_2_deg, cut_deg) -> np.ndarray:
    """How far off a crossing of two radials may be: half the long diagonal of the parallelogram of their bands.

    sqrt(a^2 + b^2 + 2 a b cos(cut)) / sin(cut), a and b being D tan(angle). Parameters: cut 0 to 90 degrees;
    they broadcast. Returns: NM, inf for parallel lines. Derived here: plane estimate.
    """
    a = np.asarray(dist_1_nm, dtype=np.float64) * np.tan(np.radians(angle_1_deg))
    b = np.asarray(dist_2_nm, dtype=np.float64) * np.tan(np.radians(angle_2_deg))
    sine = sind(cut_deg)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(sine > 0.0, np.sqrt(a**2 + b**2 + 2.0 * a * b * cosd(cut_deg)) / sine, np.inf)
