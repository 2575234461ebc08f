"""How well aids are read: angles, slant ranges, and what becomes of them."""

from __future__ import annotations

import numpy as np

from .. import navaids
from ..angles import sind
from ..flight import RULES
from .figures import AIDS, FIGURES

_ANGLES = np.array([[[FIGURES[f"{r}_{a}_{use}_deg"].value for use in ("track", "cross")] for a in AIDS] for r in RULES])
_DME_LEAST = np.array([FIGURES[f"{r}_dme_least_nm"].value for r in RULES])
_DME_SHARE = np.array([FIGURES[f"{r}_dme_share"].value for r in RULES])


def aid_of(kinds) -> np.ndarray:
    """Index in AIDS of station kinds, -1 for a kind without bearings. '' counts as VOR. Shape of kinds."""
    localizer = np.isin(np.asarray(kinds, dtype=object), navaids.LOCALIZERS)
    by_kind = np.where(navaids.gives_bearings(kinds), 1, np.where(navaids.gives_radials(kinds), 0, -1))
    return np.where(localizer, 2, by_kind)


def angle_tolerance_deg(kinds, tracking, rules) -> np.ndarray:
    """Angular accuracy of an aid.

    Parameters: kinds, of navaids.KINDS; tracking, true for the aid that gives the course flown, false
    for the one that crosses it; rules, codes of RULES (0 icao, 1 faa). They broadcast.
    Returns: degrees either side, NaN for a kind without bearings. Source: FIGURES.

    >>> float(angle_tolerance_deg("VOR", True, 0)), float(angle_tolerance_deg("NDB", False, 1))
    (5.2, 5.0)
    """
    aid, use, rules = np.broadcast_arrays(aid_of(kinds), np.where(np.asarray(tracking, bool), 0, 1), rules)
    return np.where(aid < 0, np.nan, _ANGLES[rules, aid, use])


def dme_tolerance_nm(slant_nm, rules) -> np.ndarray:
    """Accuracy of a slant range: icao 0.25 NM + 1.25 %, faa the larger of 0.5 NM and 3 %.

    Parameters: slant_nm >= 0; rules, codes of RULES. They broadcast. Returns: NM either side. Source: FIGURES.

    >>> float(dme_tolerance_nm(20.0, 0)), float(dme_tolerance_nm(40.0, 1))
    (0.5, 1.2)
    """
    slant, rules = np.broadcast_arrays(np.asarray(slant_nm, dtype=np.float64), rules)
    least, part = _DME_LEAST[rules], _DME_SHARE[rules] * slant
    return np.where(rules == 0, least + part, np.maximum(least, part))


def root_sum_square(*components) -> np.ndarray:
    """Root of the sum of squares of independent errors, which broadcast. Source: Doc 8168 Vol II, I-2-2, 2.3.3.

    >>> round(float(root_sum_square(3.5, 1.0, 2.7)), 2)
    4.53
    """
    return np.sqrt(sum(np.asarray(c, dtype=np.float64) ** 2 for c in components))


def fix_displacement_nm(distance_nm, cut_deg, error_deg) -> tuple[np.ndarray, np.ndarray]:
    """How far along the course a crossing line shifts the fix, by the law of sines in a plane.

    On the side where the course nears the crossing aid: D sin B / sin(A + B); on the side where it leaves it:
    D sin B / sin(A - B). Parameters: distance_nm D to the crossing aid, >= 0; cut_deg A, 0 to 90; error_deg B,
    > 0. They broadcast. Returns: NM towards, NM away (inf where A <= B: the lines do not meet).
    Source: FAA Order 8260.3, section on fixes (fix error by law of sines); derived here.

    >>> [round(float(x), 3) for x in fix_displacement_nm(30.0, 45.0, 5.0)]
    [3.413, 4.068]
    """
    distance, cut, error = np.broadcast_arrays(*[np.asarray(a, float) for a in (distance_nm, cut_deg, error_deg)])
    with np.errstate(divide="ignore", invalid="ignore"):
        towards = distance * sind(error) / sind(cut + error)
        away = distance * sind(error) / sind(cut - error)
    return towards, np.where(cut <= error, np.inf, away)
