"""A projection about a place: true north up and distances true there, whatever meridian is near."""

from __future__ import annotations

from qgis.core import QgsCoordinateReferenceSystem


def middle(lon, lat) -> tuple[float, float]:
    """The middle of places on the globe, in degrees."""
    import numpy as np

    lon, lat = np.radians(np.asarray(lon, dtype=float)), np.radians(np.asarray(lat, dtype=float))
    x, y, z = (np.cos(lat) * np.cos(lon)).mean(), (np.cos(lat) * np.sin(lon)).mean(), np.sin(lat).mean()
    return float(np.degrees(np.arctan2(y, x))), float(np.degrees(np.arctan2(z, np.hypot(x, y))))


def crs(lon: float, lat: float) -> QgsCoordinateReferenceSystem:
    """The azimuthal equidistant projection about a place, in metres."""
    return QgsCoordinateReferenceSystem.fromProj(
        f"+proj=aeqd +lat_0={lat:.9f} +lon_0={lon:.9f} +datum=WGS84 +units=m +no_defs"
    )
