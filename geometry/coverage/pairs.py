"""Pairs of a fix and a station that defines it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .. import geodesy, navaids
from ..fixes import Station


@dataclass(frozen=True)
class Pairs:
    """Fixes and the stations that define them, N pairs: degrees, feet.

    classes: text such as 'VH', 'VL/DH' (the bearing's and the DME's), an NDB's 'MH'. azimuth and distance: what
    of the station is read at the fix. dist_nm from the navaid's site, dme_nm from the DME's, along the ground.
    """

    lon: np.ndarray
    lat: np.ndarray
    alt_ft: np.ndarray
    station: Station
    ident: np.ndarray
    classes: np.ndarray
    in_service: np.ndarray
    azimuth: np.ndarray
    distance: np.ndarray
    dist_nm: np.ndarray
    dme_nm: np.ndarray

    @classmethod
    def of(
        cls, lon, lat, alt_ft, station: Station, *, ident="", classes="", in_service=True, azimuth=True, distance=False
    ) -> Pairs:
        """Pairs from anything that broadcasts to the station's N rows; what a kind does not give is not read."""
        n = len(station.lon)
        lon, lat, alt = (np.broadcast_to(np.asarray(a, dtype=np.float64), n) for a in (lon, lat, alt_ft))
        ident, classes = (np.broadcast_to(np.asarray(a, dtype=object), n) for a in (ident, classes))
        working, azimuth, distance = (np.broadcast_to(np.asarray(a, bool), n) for a in (in_service, azimuth, distance))
        azimuth = azimuth & (navaids.gives_radials(station.kind) | navaids.gives_bearings(station.kind))
        distance = distance & navaids.gives_range(station.kind)
        dist = geodesy.inverse(lon, lat, station.lon, station.lat)[2]
        dme = geodesy.inverse(lon, lat, station.dme_lon, station.dme_lat)[2]
        return cls(lon, lat, alt, station, ident, classes, working, azimuth, distance, dist, dme)
