"""What a navaid gives: bearings from one of three norths, and slant range."""

from __future__ import annotations

import numpy as np

from . import reasons
from .units import FT_PER_NM

NORTHS = ("station", "model", "true")
"""Norths by name, in the order of the codes 0, 1, 2: the station's own declination, the magnetic model, true."""
STATION, MODEL, TRUE = range(3)

LOCALIZERS = ("LOC", "LOC/DME")
KINDS = ("VOR", "VOR/DME", "VORTAC", "TACAN", "DME", "NDB", "NDB/DME", "WPT", *LOCALIZERS)
"""Kinds of navaids. A localizer's one course is a radial by its declination."""
_RADIALS = {"VOR", "VOR/DME", "VORTAC", "TACAN", *LOCALIZERS}
_BEARINGS = {"NDB", "NDB/DME"}
_RANGES = {"VOR/DME", "VORTAC", "TACAN", "DME", "NDB/DME", "LOC/DME"}

FAMILIES = {
    "VOR": {"VOR", "VOR/DME", "VORTAC"},
    "DME": {"DME", "VOR/DME", "VORTAC", "TACAN", "NDB/DME", "LOC/DME"},
    "TACAN": {"TACAN", "VORTAC"},
    "NDB": {"NDB", "NDB/DME"},
    "LOC": set(LOCALIZERS),
}
"""Kinds of site where an aid of a kind stands: a VORTAC is a VOR with a TACAN, and a TACAN gives DME."""


def clean_kind(kind) -> str:
    """A kind as people write it, in the contract's spelling: 'vor-dme' gives 'VOR/DME', unknown text ''."""
    if kind is None:
        return ""
    text = "/".join(str(kind).upper().replace("-", " ").replace("/", " ").split())
    return text if text in KINDS else ""


def _flags(kinds, members: set[str], unknown: bool) -> np.ndarray:
    kinds = np.asarray(kinds, dtype=object)
    flat = [(k in members) if k else unknown for k in kinds.ravel()]
    return np.array(flat, dtype=bool).reshape(kinds.shape)


def gives_radials(kinds) -> np.ndarray:
    """True where a kind has radials by its own declination. Object array of clean kinds; '' counts as true."""
    return _flags(kinds, _RADIALS, True)


def gives_bearings(kinds) -> np.ndarray:
    """True where a kind gives bearings read from the aircraft's own north (NDB). '' counts as false."""
    return _flags(kinds, _BEARINGS, False)


def gives_range(kinds) -> np.ndarray:
    """True where a kind gives slant range. '' counts as true: an unknown station is not refused."""
    return _flags(kinds, _RANGES, True)


def height_nm(alt_ft, elev_ft) -> np.ndarray:
    """Height of the aircraft above a station in NM, positive above. Parameters broadcast."""
    return (np.asarray(alt_ft, dtype=np.float64) - elev_ft) / FT_PER_NM


def ground_from_slant_nm(slant_nm, height_nm_) -> tuple[np.ndarray, np.ndarray]:
    """Ground distance of a slant range, by the documents' plane triangle.

    ground = sqrt(D^2 - h^2). Parameters: slant_nm; height_nm_ above the station; they broadcast.
    Returns: ground NM (NaN where not good), code (SLANT_TOO_SHORT where the range is not longer than the
    height). Source: ICAO Doc 8168 Vol II, 5th ed., I-4-3-App C-13 (0.027 h^2, h in thousand feet).

    >>> round(float(ground_from_slant_nm(20.0, 6000.0 / FT_PER_NM)[0]), 3)
    19.976
    """
    slant, height = np.broadcast_arrays(np.asarray(slant_nm, float), np.asarray(height_nm_, float))
    short = np.abs(height) >= slant
    with np.errstate(invalid="ignore"):
        ground = np.where(short, np.nan, np.sqrt(slant**2 - height**2))
    return ground, reasons.where(short, reasons.SLANT_TOO_SHORT)


def slant_from_ground_nm(ground_nm, height_nm_) -> np.ndarray:
    """Slant range of a ground distance: sqrt(ground^2 + h^2). Parameters broadcast. Source: as above."""
    return np.hypot(np.asarray(ground_nm, dtype=np.float64), height_nm_)


def true_from(value_deg, north, decl_deg, var_deg) -> np.ndarray:
    """A bearing given from one of the three norths, as a true bearing.

    true = value + declination (station), + variation (model), + 0 (true); east positive. Parameters
    broadcast; north codes as NORTHS. Returns degrees, not wrapped. Source: definition.

    >>> float(true_from(350.0, STATION, 15.0, 3.0))
    365.0
    """
    north = np.asarray(north)
    add = np.where(north == STATION, decl_deg, np.where(north == MODEL, var_deg, 0.0))
    return np.asarray(value_deg, dtype=np.float64) + add
