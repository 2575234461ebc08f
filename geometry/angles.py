"""Angles in degrees, wrapped in one way everywhere."""

from __future__ import annotations

import numpy as np


def wrap360(deg) -> np.ndarray:
    """Angle in [0, 360).

    Parameters: deg, any shape, degrees. Returns: float64 of the same shape. A tiny negative angle gives 0,
    never 360, since a field must hold one value for north.

    >>> float(wrap360(-90.0)), float(wrap360(360.0)), float(wrap360(-1e-18))
    (270.0, 0.0, 0.0)
    """
    with np.errstate(invalid="ignore"):
        out = np.mod(np.asarray(deg, dtype=np.float64), 360.0)
    return np.where(out >= 360.0, 0.0, out)


def wrap180(deg) -> np.ndarray:
    """Angle in (-180, 180].

    Parameters: deg, any shape, degrees. Returns: float64 of the same shape.

    >>> float(wrap180(190.0)), float(wrap180(-180.0))
    (-170.0, 180.0)
    """
    return 180.0 - wrap360(180.0 - np.asarray(deg, dtype=np.float64))


def cut_angle(first_deg, second_deg) -> np.ndarray:
    """Angle at which two lines cut, whichever way along them their directions point.

    Parameters: directions in degrees; they broadcast. Returns: degrees, 0 to 90.

    >>> float(cut_angle(10.0, 100.0)), float(cut_angle(350.0, 190.0))
    (90.0, 20.0)
    """
    angle = np.abs(wrap180(np.asarray(first_deg, dtype=np.float64) - second_deg))
    return np.minimum(angle, 180.0 - angle)


def sind(deg) -> np.ndarray:
    """Sine of an angle in degrees, any shape."""
    return np.sin(np.radians(deg))


def cosd(deg) -> np.ndarray:
    """Cosine of an angle in degrees, any shape."""
    return np.cos(np.radians(deg))


def octant(deg) -> np.ndarray:
    """Index of the nearest of the eight compass points (0 north, 1 northeast, ...), any shape; NaN gives -1."""
    deg = np.asarray(deg, dtype=np.float64)
    index = np.floor(wrap360(np.where(np.isfinite(deg), deg, 0.0) + 22.5) / 45.0).astype(np.int64) % 8
    return np.where(np.isfinite(deg), index, -1)
