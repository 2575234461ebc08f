"""Line of sight over a smooth earth."""

from __future__ import annotations

import numpy as np

from ..geodesy import MEAN_RADIUS_M
from ..units import FT_M, NM_M

LINE_OF_SIGHT_FACTOR, LINE_OF_SIGHT_SOURCE = 1.23, "ICAO Doc 8168 Vol II, 5th ed., III-1-3-App-3 (worked example)"
"""The rule 1.23 sqrt(h), NM and feet."""
EFFECTIVE_RADIUS_M = 4.0 / 3.0 * MEAN_RADIUS_M
EFFECTIVE_RADIUS_SOURCE = "rays bend so that the earth seems 4/3 as large: common practice, from memory"


def line_of_sight_nm(height_1_ft, height_2_ft) -> np.ndarray:
    """Farthest two antennas see each other over a smooth earth of 4/3 its radius.

    sqrt(2 a) (sqrt(h1) + sqrt(h2)). Parameters: heights above the surface between, feet, below 0 taken as 0;
    they broadcast. Returns: NM. NaN in, NaN out. Source: EFFECTIVE_RADIUS_SOURCE.

    >>> round(float(line_of_sight_nm(10_000.0, 0.0)), 2)
    122.87
    """
    h1, h2 = (np.maximum(np.asarray(h, dtype=np.float64), 0.0) for h in (height_1_ft, height_2_ft))
    return np.sqrt(2.0 * EFFECTIVE_RADIUS_M * FT_M) / NM_M * (np.sqrt(h1) + np.sqrt(h2))


def line_of_sight_rule_nm(height_1_ft, height_2_ft) -> np.ndarray:
    """The same by the rounded rule, 1.23 (sqrt(h1) + sqrt(h2)). Source: LINE_OF_SIGHT_SOURCE.

    >>> round(float(line_of_sight_rule_nm(10_000.0, 0.0)), 6)
    123.0
    """
    h1, h2 = (np.maximum(np.asarray(h, dtype=np.float64), 0.0) for h in (height_1_ft, height_2_ft))
    return LINE_OF_SIGHT_FACTOR * (np.sqrt(h1) + np.sqrt(h2))


def sight_over_ground_nm(antenna_ft, elevation_ft, alt_ft) -> np.ndarray:
    """Line of sight over a surface at the lower of the station's ground and the aircraft."""
    surface = np.minimum(elevation_ft, alt_ft)
    return line_of_sight_nm(antenna_ft - surface, alt_ft - surface)
