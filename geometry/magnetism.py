"""The earth's magnetic field from the World Magnetic Model 2025, for arrays of places, heights and years."""

from __future__ import annotations

import calendar
import datetime
import math
from typing import NamedTuple

import numpy as np

from . import wmm2025
from .units import FT_M

# The reference sphere of the model and the WGS 84 ellipsoid (World Magnetic Model 2025 report, from memory).
_REFERENCE_RADIUS_KM = 6371.2
_ELLIPSOID_A_KM = 6378.137
_ELLIPSOID_F = 1.0 / 298.257223563
_E2 = _ELLIPSOID_F * (2.0 - _ELLIPSOID_F)

LOWEST_KM, HIGHEST_KM = -1.0, 850.0
"""Heights for which the model is offered (World Magnetic Model 2025 report, from memory)."""

D_ERROR_DEG, D_ERROR_NT = 0.26, 5417.0
"""Error model of the declination: one standard deviation is the root of 0.26^2 + (5417 / H)^2 degrees, H in nT
(World Magnetic Model 2025, error model published by NOAA NCEI)."""

BLACKOUT_NT, CAUTION_NT = 2000.0, 6000.0
"""Horizontal field below which a compass is unreliable, and to be used with caution (NOAA NCEI, as above)."""

# Places computed at a time, so that the working arrays of one chunk stay in the processor's cache.
_CHUNK = 4096


class Field(NamedTuple):
    """North, east, down, horizontal and total field, dip, declination, and the change of each in a year."""

    x_nt: np.ndarray
    y_nt: np.ndarray
    z_nt: np.ndarray
    h_nt: np.ndarray
    f_nt: np.ndarray
    i_deg: np.ndarray
    d_deg: np.ndarray
    dx_nt: np.ndarray
    dy_nt: np.ndarray
    dz_nt: np.ndarray
    dh_nt: np.ndarray
    df_nt: np.ndarray
    di_deg: np.ndarray
    dd_deg: np.ndarray


def decimal_year(date: datetime.date) -> float:
    """A date as a decimal year: days since 1 January over the length of that year.

    Parameters: date. Returns: the year at the start of that day. Source: World Magnetic Model 2025 report.

    >>> round(decimal_year(datetime.date(2026, 7, 4)), 5)
    2026.50411
    """
    return date.year + (date.timetuple().tm_yday - 1) / (366 if calendar.isleap(date.year) else 365)


def field(lon, lat, height_km, year) -> Field:
    """Field vector and its yearly change, by the spherical harmonics of degree and order 12.

    Parameters: lon, any longitude, and lat -90 to 90, degrees on WGS 84 (at a pole north is that of the
    longitude given); height_km above the ellipsoid, -1 to 850; year, decimal, 2025.0 <= year < 2030.0. They
    broadcast together.
    Returns: Field of the broadcast shape; nT and degrees, declination east positive and dip down positive;
    the yearly changes in nT and degrees per year. NaN, or a place or height out of range, gives NaN for that
    row only.
    Errors: ValueError if any finite year is outside the model's years.
    Source: World Magnetic Model 2025 report (NOAA NCEI / UK DGC), formulas from memory, checked against its
    test values; see DEVELOPERS.md.
    """
    arrays = np.broadcast_arrays(*[np.asarray(a, dtype=np.float64) for a in (lon, lat, height_km, year)])
    shape = arrays[0].shape
    lon, lat, height, year = (np.ascontiguousarray(a).ravel() for a in arrays)
    _refuse_years(year)
    good = np.isfinite(lon) & (np.abs(lat) <= 90.0) & (height >= LOWEST_KM) & (height <= HIGHEST_KM) & np.isfinite(year)
    out = np.full((len(Field._fields), lon.size), np.nan)
    rows = np.flatnonzero(good)
    for start in range(0, rows.size, _CHUNK):
        part = rows[start : start + _CHUNK]
        out[:, part] = _elements(*_vectors(lon[part], lat[part], height[part], year[part] - wmm2025.EPOCH))
    return Field(*(row.reshape(shape) for row in out))


def declination_deg(lon, lat, alt_ft=0.0, *, year) -> np.ndarray:
    """Magnetic variation at places: the declination of `field`, east positive.

    Parameters: lon, lat degrees; alt_ft above sea level, taken as height above the ellipsoid (the difference
    is below 0.001 degree outside the polar regions); year, decimal. They broadcast together.
    Returns: degrees, -180 to 180, of the broadcast shape. NaN and errors: as field.

    >>> round(float(declination_deg(151.2093, -33.8688, year=2026.50411)), 4)
    12.8208
    """
    return field(lon, lat, _km(alt_ft), year).d_deg


def horizontal_nt(lon, lat, alt_ft=0.0, *, year) -> np.ndarray:
    """Horizontal intensity at places, nT: what a compass needle has to turn it. Parameters as declination_deg."""
    return field(lon, lat, _km(alt_ft), year).h_nt


def uncertainty_deg(h_nt) -> np.ndarray:
    """One standard deviation of the model's declination where the horizontal field is h_nt.

    Parameters: h_nt, nT, >= 0, any shape. Returns: degrees of the same shape, at most 180 (no knowledge at
    all); NaN where h_nt is NaN or negative. Source: D_ERROR_DEG, D_ERROR_NT.

    >>> round(float(uncertainty_deg(20000.0)), 2)
    0.38
    """
    h = np.asarray(h_nt, dtype=np.float64)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        sigma = np.minimum(np.hypot(D_ERROR_DEG, D_ERROR_NT / h), 180.0)
    return np.where(h >= 0.0, sigma, np.nan)


def _km(alt_ft) -> np.ndarray:
    return np.asarray(alt_ft, dtype=np.float64) * (FT_M / 1000.0)


def _refuse_years(year: np.ndarray) -> None:
    with np.errstate(invalid="ignore"):
        outside = ~np.isnan(year) & ~((year >= wmm2025.EPOCH) & (year < wmm2025.VALID_UNTIL))
    if outside.any():
        raise ValueError(
            f"year is {year[outside][0]:g}; the World Magnetic Model 2025 holds from {wmm2025.EPOCH} up to, but not "
            f"including, {wmm2025.VALID_UNTIL}"
        )


def _coefficients_by_order() -> list[list[tuple[float, float, float, float]]]:
    """Coefficients as [m][n] -> (g, h, yearly change of g, of h), zero where the model has none."""
    size = wmm2025.DEGREE + 1
    table = [[(0.0, 0.0, 0.0, 0.0)] * size for _ in range(size)]
    for n, m, g, h, g_year, h_year in wmm2025.COEFFICIENTS:
        table[m][n] = (g, h, g_year, h_year)
    return table


_COEFFICIENTS = _coefficients_by_order()


def _vectors(lon, lat, height_km, years) -> tuple[np.ndarray, np.ndarray]:
    """Field (north, east, down) and its yearly change, each (3, k), for k good places.

    The Schmidt functions of order m > 0 are carried divided by the cosine of the latitude, so that the east
    component needs no division and a pole is a place like any other.
    """
    phi, lam = np.radians(lat), np.radians(lon)
    sin_geodetic, cos_geodetic = np.sin(phi), np.cos(phi)
    normal = _ELLIPSOID_A_KM / np.sqrt(1.0 - _E2 * sin_geodetic**2)
    across = (normal + height_km) * cos_geodetic
    along = (normal * (1.0 - _E2) + height_km) * sin_geodetic
    radius = np.hypot(across, along)
    s, c = along / radius, across / radius
    ratio = _REFERENCE_RADIUS_KM / radius
    powers = [ratio**2]
    for _ in range(wmm2025.DEGREE):
        powers.append(powers[-1] * ratio)

    geocentric = np.zeros((2, 3, lon.size))
    diagonal = np.ones_like(s)
    for m in range(wmm2025.DEGREE + 1):
        if m >= 2:
            diagonal = diagonal * (math.sqrt((2.0 * m - 1.0) / (2.0 * m)) * c)
        sums = _sums_of_order(m, s, c, diagonal, powers)
        cos_m, sin_m = np.cos(m * lam), np.sin(m * lam)
        for row in range(2):
            (north_g, east_g, down_g), (north_h, east_h, down_h) = sums[2 * row], sums[2 * row + 1]
            geocentric[row, 0] -= north_g * cos_m + north_h * sin_m
            geocentric[row, 1] += m * (east_g * sin_m - east_h * cos_m)
            geocentric[row, 2] -= down_g * cos_m + down_h * sin_m

    cos_turn = c * cos_geodetic + s * sin_geodetic
    sin_turn = s * cos_geodetic - c * sin_geodetic
    x, y, z = geocentric[:, 0], geocentric[:, 1], geocentric[:, 2]
    main, change = np.stack([x * cos_turn - z * sin_turn, y, x * sin_turn + z * cos_turn], axis=1)
    return main + change * years, change


def _sums_of_order(m: int, s, c, diagonal, powers) -> np.ndarray:
    """Sums over the degrees n of one order m: (4 coefficients, 3 components, k).

    diagonal is the Schmidt function of degree and order m, divided by c for m > 0.
    """
    sums = np.zeros((4, 3, s.size))
    scale = c if m else 1.0
    q_before, d_before = np.zeros_like(s), np.zeros_like(s)
    q = diagonal
    # Slope with latitude of c**m times a constant: -m s c**(m - 1).
    d = -m * s * diagonal
    for n in range(m, wmm2025.DEGREE + 1):
        if n > m:
            back = math.sqrt((n - 1.0) ** 2 - m * m)
            root = math.sqrt(n * n - m * m)
            twice = 2.0 * n - 1.0
            q_next = (twice * s * q - back * q_before) / root
            d_next = (twice * (s * d + c * (q * scale)) - back * d_before) / root
            q_before, d_before, q, d = q, d, q_next, d_next
        north = powers[n] * d
        east = powers[n] * q
        down = (n + 1.0) * east * scale
        for k, value in enumerate(_COEFFICIENTS[m][n]):
            if value:
                sums[k, 0] += value * north
                sums[k, 1] += value * east
                sums[k, 2] += value * down
    return sums


def _elements(main: np.ndarray, change: np.ndarray) -> np.ndarray:
    """The fourteen quantities of Field, (14, k), from the vectors."""
    (x, y, z), (dx, dy, dz) = main, change
    h = np.hypot(x, y)
    f = np.hypot(h, z)
    with np.errstate(divide="ignore", invalid="ignore"):
        dh = (x * dx + y * dy) / h
        df = (x * dx + y * dy + z * dz) / f
        di = np.degrees((h * dz - z * dh) / f**2)
        dd = np.degrees((x * dy - y * dx) / h**2)
    return np.stack(
        [x, y, z, h, f, np.degrees(np.arctan2(z, h)), np.degrees(np.arctan2(y, x)), dx, dy, dz, dh, df, di, dd]
    )
