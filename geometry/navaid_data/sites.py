"""Where the antennas of a navaid stand, and how far apart places are."""

from __future__ import annotations

import numpy as np

from .. import geodesy, navaids
from ..units import NM_M
from .cells import Cells

SAME_SITE_M = 10.0
"""A DME this near its VOR stands with it, and two rows this near are one; derived here: the rounding of positions
published to a tenth of a second is 3 m, to a second 31 m."""


def keep_separate_dme(cells: Cells, out: dict[str, np.ndarray]) -> None:
    """The DME's own place where it stands apart, with a note; NaN where it stands with the other antenna."""
    has_range = navaids.gives_range(out["kind"])
    lon, lat = out["dme_lon"], out["dme_lat"]
    with np.errstate(invalid="ignore"):
        bad = (np.isfinite(lon) != np.isfinite(lat)) | (np.abs(lat) > 90.0) | (np.abs(lon) > 180.0)
        cells.note(bad, lambda i: "the place of the DME cannot be used")
        apart = apart_m(out["lon"], out["lat"], np.where(bad, np.nan, lon), np.where(bad, np.nan, lat))
        keep = has_range & ~bad & (apart > SAME_SITE_M)
    cells.note(keep, lambda i: f"the DME stands {metres_text(apart[i])} from the {_other_antenna(out['kind'][i])}")
    for name in ("dme_lon", "dme_lat", "dme_elev_ft"):
        out[name] = np.where(keep, out[name], np.nan)


def _other_antenna(kind: str) -> str:
    return {"NDB/DME": "NDB", "VOR/DME": "VOR", "VORTAC": "VOR"}.get(kind, "position given")


def on_earth(lon, lat) -> np.ndarray:
    """True for longitudes and latitudes that are a place."""
    with np.errstate(invalid="ignore"):
        return (np.abs(lat) <= 90.0) & (np.abs(lon) <= 180.0)


def apart_m(lon1, lat1, lon2, lat2) -> np.ndarray:
    """Distance in metres where all four are places; NaN elsewhere."""
    out = np.full(len(lon1), np.nan)
    rows = np.flatnonzero(on_earth(lon1, lat1) & on_earth(lon2, lat2))
    _, _, nm = geodesy.inverse(lon1[rows], lat1[rows], lon2[rows], lat2[rows])
    out[rows] = nm * NM_M
    return out


def metres_text(metres: float) -> str:
    """A distance as words: metres, from 1 000 on kilometres."""
    return f"{metres:.0f} m" if metres < 1000.0 else f"{metres / 1000.0:.1f} km"
