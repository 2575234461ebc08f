"""Standard service volumes: how far a station of a class is to be received, by height."""

from __future__ import annotations

import re
from typing import NamedTuple

import numpy as np

from ..sources import CHOSEN_HERE, FROM_MEMORY, PUBLISHED
from .sight import line_of_sight_nm


class Volume(NamedTuple):
    """A band of heights above the transmitter and the radius in it; radius NaN: the line-of-sight distance.

    Mark: 'published' (read in the document or a text that quotes it) or 'from memory'.
    """

    low_ft: float
    low_included: bool
    high_ft: float
    high_included: bool
    radius_nm: float
    mark: str
    source: str


_AIM = "FAA AIM 1-1-8 TBL 1-1-1"
VOLUMES = {
    "T": (Volume(1_000.0, True, 12_000.0, True, 25.0, PUBLISHED, _AIM),),
    "L": (Volume(1_000.0, True, 18_000.0, True, 40.0, PUBLISHED, _AIM),),
    "H": (
        Volume(1_000.0, True, 14_500.0, True, 40.0, PUBLISHED, _AIM),
        Volume(14_500.0, False, 60_000.0, True, 100.0, PUBLISHED, _AIM),
        Volume(18_000.0, True, 45_000.0, True, 130.0, PUBLISHED, _AIM),
    ),
    "VL": (
        Volume(1_000.0, True, 5_000.0, False, 40.0, PUBLISHED, _AIM),
        Volume(5_000.0, True, 18_000.0, False, 70.0, PUBLISHED, _AIM),
    ),
    "VH": (
        Volume(1_000.0, True, 5_000.0, False, 40.0, PUBLISHED, _AIM),
        Volume(5_000.0, True, 14_500.0, False, 70.0, PUBLISHED, _AIM),
        Volume(14_500.0, True, 60_000.0, True, 100.0, PUBLISHED, _AIM),
        Volume(18_000.0, True, 45_000.0, True, 130.0, PUBLISHED, _AIM),
    ),
    "DL": (
        Volume(0.0, True, 12_900.0, False, np.nan, FROM_MEMORY, _AIM),
        Volume(12_900.0, True, 18_000.0, False, 130.0, FROM_MEMORY, _AIM),
    ),
    "DH": (
        Volume(0.0, True, 12_900.0, False, np.nan, FROM_MEMORY, _AIM),
        Volume(12_900.0, True, 60_000.0, True, 100.0, FROM_MEMORY, _AIM),
        Volume(12_900.0, True, 45_000.0, True, 130.0, FROM_MEMORY, _AIM),
    ),
}
"""Standard service volumes, VOR, TACAN azimuth and DME. Where bands overlap the greatest radius holds; where the
text gives a height to two bands (H at 14 500 ft) the lower band, with the shorter radius, has it. Below the lowest
band the volume is a curve of the document's figures, which is not held here."""


class Radius(NamedTuple):
    """Radius of an NDB's service volume, the same at all heights."""

    radius_nm: float
    mark: str
    source: str


_NDB = "FAA AIM 1-1-8 TBL 1-1-2"
NDB_VOLUMES = {
    "COMPASS LOCATOR": Radius(15.0, PUBLISHED, _NDB),
    "MH": Radius(25.0, PUBLISHED, _NDB),
    "H": Radius(50.0, PUBLISHED, _NDB + "; that of a single beacon may be less"),
    "HH": Radius(75.0, PUBLISHED, _NDB),
}
_LOCATORS = {"LOCATOR", "LOM", "LMM", "COMPASS"}
_WITH_KIND = re.compile(r"(VL|VH|DL|DH|T|L|H)(?:VORTAC|VOR|DME|TACAN)")

UNKNOWN_CLASS_NM = {
    "vhf": Radius(40.0, CHOSEN_HERE, "the radius that classes L, H, VL and VH share from 1 000 ft up"),
    "ndb": Radius(25.0, CHOSEN_HERE, "the radius of class MH"),
}
"""How far a station of unknown class is offered as another way to define a fix."""


def service_volume_nm(classes, height_above_transmitter_ft, kinds="", distance=False) -> np.ndarray:
    """Radius of the standard service volume at a height above the transmitter.

    Parameters: classes, text: T, L, H, VL, VH, DL, DH, also before a kind (HVORTAC) or two of them, bearing and
    DME (VL/DH); an NDB's: MH, H, HH, compass locator, a W (no voice) behind them; height in feet; kinds of
    navaids.KINDS, by which an NDB's H is told from a VOR's ('': a VOR's); distance, true for the DME's volume.
    They broadcast. Returns: NM, 0 below and above the class's heights, NaN for an unknown class or no height
    (an NDB's needs none). Source: VOLUMES, NDB_VOLUMES.

    >>> service_volume_nm(["T", "H", "VL/DH"], [12_000.0, 18_000.0, 4_999.0]).tolist()
    [25.0, 130.0, 40.0]
    """
    classes, height, kinds, distance = np.broadcast_arrays(
        np.asarray(classes, dtype=object),
        np.asarray(height_above_transmitter_ft, dtype=np.float64),
        np.asarray(kinds, dtype=object),
        np.asarray(distance, dtype=bool),
    )
    return radius_of_keys_nm(volume_keys(classes, kinds, distance), height)


def radius_of_keys_nm(keys: np.ndarray, height: np.ndarray) -> np.ndarray:
    """Radius at heights above the transmitter, feet, by volume_keys; NaN where the key is ''."""
    out = np.full(height.shape, np.nan)
    for key in sorted(set(keys.ravel())):
        rows = keys == key
        if key[:4] == "NDB ":
            out[rows] = NDB_VOLUMES[key[4:]].radius_nm
        elif key:
            out[rows] = _radius_nm(VOLUMES[key], height[rows])
    return out


def _radius_nm(bands: tuple[Volume, ...], height_ft: np.ndarray) -> np.ndarray:
    out = np.where(np.isfinite(height_ft), 0.0, np.nan)
    sight = line_of_sight_nm(height_ft, 0.0)
    with np.errstate(invalid="ignore"):
        for band in bands:
            above = height_ft >= band.low_ft if band.low_included else height_ft > band.low_ft
            below = height_ft <= band.high_ft if band.high_included else height_ft < band.high_ft
            radius = sight if np.isnan(band.radius_nm) else band.radius_nm
            out = np.where(above & below, np.maximum(out, radius), out)
    return out


def volume_keys(classes: np.ndarray, kinds: np.ndarray, distance: np.ndarray) -> np.ndarray:
    """Key of VOLUMES, 'NDB ' and key of NDB_VOLUMES, or '' for each row."""
    known: dict[tuple, str] = {}
    flat = []
    for row in zip(classes.ravel(), kinds.ravel(), distance.ravel()):
        if row not in known:
            known[row] = _volume_key(*row)
        flat.append(known[row])
    out = np.empty(classes.size, dtype=object)
    out[:] = flat
    return out.reshape(classes.shape)


def _volume_key(written, kind: str, distance: bool) -> str:
    words = re.findall("[A-Z]+", str(written or "").upper())
    matches = [_WITH_KIND.fullmatch(word) for word in words]
    found = [match[1] if match else word for word, match in zip(words, matches)]
    bearing = [word for word in found if word in ("T", "L", "H", "VL", "VH")]
    range_only = [word for word in found if word in ("DL", "DH")]
    beacon = kind in ("NDB", "NDB/DME")  # the class given is the beacon's own, not that of its DME
    distance = distance or kind == "DME"
    if not beacon and bearing and not (distance and range_only):
        return bearing[0]
    if range_only and (distance or not kind):
        return range_only[0]
    if not kind or (beacon and not distance):
        names = {"COMPASS LOCATOR" if word in _LOCATORS else re.sub("W$", "", word) for word in words}
        known = names & set(NDB_VOLUMES)
        if known:
            return "NDB " + min(known, key=lambda name: NDB_VOLUMES[name].radius_nm)
    return ""
