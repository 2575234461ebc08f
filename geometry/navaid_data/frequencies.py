"""Frequencies of navaids: their bands, and text as spoken."""

from __future__ import annotations

import re
from typing import NamedTuple

import numpy as np

from .. import navaids, text
from ..sources import PUBLISHED


class Band(NamedTuple):
    """Frequencies a kind of navaid can have. Mark: 'published' (read in the source or a quotation) or 'from memory'."""

    low_khz: float
    high_khz: float
    step_khz: float
    mark: str
    source: str


BANDS = {
    "vhf": Band(108_000.0, 117_950.0, 50.0, PUBLISHED, "FAA AIM 1-1-3 a; the step of 50 kHz from memory of Annex 10"),
    "ndb": Band(190.0, 1_750.0, 0.0, PUBLISHED, "FAA AIM 1-1-2 a, quoting ICAO Annex 10; beacons below it exist"),
}
FREQ_CHECKS = ("", "unusual", "impossible")
POSSIBLE, UNUSUAL, IMPOSSIBLE = range(3)
_FREQUENCY = re.compile(r"([^a-z]*?) ?(mhz|khz)?", re.IGNORECASE)


def frequency_khz(freqs, kinds) -> np.ndarray:
    """Frequencies in kHz from text as spoken: '113.90' of a VOR or DME is MHz, '365' of an NDB is kHz.

    A unit in the text goes before; 1 000 and more without one is kHz. Parameters: sequences of str of equal
    length. Returns: float64 (N,), NaN for empty text and for what is no frequency.

    >>> frequency_khz(["113.90", "365", "0.365 MHz", "113900"], ["VOR", "NDB", "NDB", "DME"]).tolist()
    [113900.0, 365.0, 365.0, 113900.0]
    """
    out = np.full(len(freqs), np.nan)
    medium = navaids.gives_bearings(kinds)
    for i, freq in enumerate(freqs):
        match = _FREQUENCY.fullmatch(str(freq).strip())
        value = text.parse_number(match[1]) if match else None
        if value is None:
            continue
        unit = (match[2] or "").lower() or ("khz" if medium[i] or abs(value) >= 1000.0 else "mhz")
        out[i] = round(value * (1000.0 if unit == "mhz" else 1.0), 3)
    return out


def frequency_text(khz: float, kind: str) -> str:
    """A frequency as spoken: MHz with two decimals, an NDB's kHz; '' for NaN.

    >>> frequency_text(113900.0, "VOR"), frequency_text(365.0, "NDB"), frequency_text(283.5, "NDB")
    ('113.90', '365', '283.5')
    """
    if not np.isfinite(khz):
        return ""
    if kind in ("NDB", "NDB/DME"):
        return f"{khz:.0f}" if khz == round(khz) else f"{khz:.3f}".rstrip("0").rstrip(".")
    return f"{khz / 1000.0:.2f}" if round(khz % 10.0, 3) == 0.0 else f"{khz / 1000.0:.3f}"


def frequency_codes(khz, kinds) -> np.ndarray:
    """POSSIBLE, UNUSUAL or IMPOSSIBLE for each frequency of a kind of navaid; NaN, WPT and '' are possible.

    An NDB outside its band is unusual only: such beacons are on the air. Parameters: (N,) each.
    Returns: int64 (N,). Source: BANDS.

    >>> frequency_codes([113900.0, 113920.0, 175.0, -1.0], ["VOR", "VOR", "NDB", "NDB"]).tolist()
    [0, 2, 1, 2]
    """
    khz = np.asarray(khz, dtype=np.float64)
    medium = navaids.gives_bearings(kinds)
    given = np.isfinite(khz) & ~np.isin(np.asarray(kinds, dtype=object), ["", "WPT"])
    vhf, ndb = BANDS["vhf"], BANDS["ndb"]
    with np.errstate(invalid="ignore"):
        in_band = (khz >= vhf.low_khz) & (khz <= vhf.high_khz)
        off_step = np.abs(khz / vhf.step_khz - np.round(khz / vhf.step_khz)) > 1e-6
        off_ndb = (khz < ndb.low_khz) | (khz > ndb.high_khz)
        impossible = given & np.where(medium, khz <= 0.0, ~in_band | off_step)
    return np.where(impossible, IMPOSSIBLE, np.where(given & medium & off_ndb, UNUSUAL, POSSIBLE))
