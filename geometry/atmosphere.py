"""The standard atmosphere, airspeeds, and the ICAO holding criteria's own conversion and wind."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .sources import Figure
from .units import FT_M, G_MS2, KT_MS

_ISA = "ICAO Doc 7488, Manual of the ICAO Standard Atmosphere"
_DOC_8168 = "ICAO Doc 8168 Vol II, 5th ed. 2006, "
_K = _DOC_8168 + "Part I, Section 2, Chapter 1, Appendix"
_HOLDING_TAS = _DOC_8168 + "Part II, Section 4, Chapter 1, Appendix A"
_WIND = _DOC_8168 + "p. I-4-3-7 e)"

FIGURES = {
    "sea_level_temperature_k": Figure(288.15, "K", "published", _ISA),
    "sea_level_pressure_pa": Figure(101325.0, "Pa", "published", _ISA),
    "lapse_k_per_m": Figure(0.0065, "K/m", "published", _ISA),
    "tropopause_m": Figure(11000.0, "m geopotential", "published", _ISA),
    "top_m": Figure(20000.0, "m geopotential", "published", _ISA),
    "bottom_ft": Figure(-5000.0, "ft", "computed", "chosen here: below any aerodrome under the highest pressures"),
    "gas_constant": Figure(287.05287, "J/(kg K)", "from memory", _ISA),
    "heat_ratio": Figure(1.4, "-", "from memory", _ISA),
    "k_factor": Figure(171233.0, "-", "from memory", _K + "; gives its published 1.1231 at 6 000 ft, ISA+15"),
    "k_temperature_k": Figure(288.0, "K", "from memory", _K),
    "k_lapse_per_ft": Figure(0.00198, "K/ft", "from memory", _K),
    "k_lapse_per_m": Figure(0.006496, "K/m", "from memory", _K),
    "k_exponent": Figure(2.628, "-", "from memory", _K),
    "holding_isa_dev_c": Figure(15.0, "K", "published", _DOC_8168 + "p. I-4-3-App A-2"),
    "holding_tas_kt_factor": Figure(55.1088, "kt/K^0.5", "from memory", _HOLDING_TAS),
    "holding_tas_kt_pressure": Figure(0.0023157, "hPa/kt^2", "from memory", _HOLDING_TAS),
    "holding_tas_kt_square": Figure(1750200.0, "kt^2", "from memory", _HOLDING_TAS),
    "holding_tas_kmh_factor": Figure(102.06, "km/h/K^0.5", "from memory", _HOLDING_TAS),
    "holding_tas_kmh_pressure": Figure(0.00067515, "hPa/(km/h)^2", "from memory", _HOLDING_TAS),
    "holding_tas_kmh_square": Figure(6003025.0, "(km/h)^2", "from memory", _HOLDING_TAS),
    "wind_kt": Figure(47.0, "kt", "published", _WIND),
    "wind_kt_per_thousand_ft": Figure(2.0, "kt/1000 ft", "published", _WIND),
    "wind_kmh": Figure(87.0, "km/h", "published", _WIND),
    "wind_kmh_per_km": Figure(12.0, "(km/h)/km", "published", _WIND),
}
"""Every constant of this file with its source."""

_V = {name: figure.value for name, figure in FIGURES.items()}
_T0 = _V["sea_level_temperature_k"]
_P0_HPA = _V["sea_level_pressure_pa"] / 100.0
_R, _GAMMA = _V["gas_constant"], _V["heat_ratio"]
_TROPOPAUSE_K = _T0 - _V["lapse_k_per_m"] * _V["tropopause_m"]
_EXPONENT = G_MS2 / (_V["lapse_k_per_m"] * _R)
_SCALE_HEIGHT_M = _R * _TROPOPAUSE_K / G_MS2
_ISENTROPIC = _GAMMA / (_GAMMA - 1.0)
_SOUND_SEA_LEVEL_KT = float(np.sqrt(_GAMMA * _R * _T0)) / KT_MS

LOWEST_FT = _V["bottom_ft"]
HIGHEST_FT = _V["top_m"] / FT_M
"""Pressure altitudes of this atmosphere: -5 000 ft to 20 km (65 617 ft); outside, every result is NaN."""


STANDARD_QNH_HPA = _P0_HPA


class Isa(NamedTuple):
    pressure_ratio: np.ndarray
    density_ratio: np.ndarray
    temperature_k: np.ndarray
    sound_kt: np.ndarray


def isa(alt_ft, isa_dev_c=0.0) -> Isa:
    """Pressure, density, temperature and speed of sound in the standard atmosphere.

    Parameters: alt_ft, geopotential pressure altitude, LOWEST_FT to HIGHEST_FT; isa_dev_c, temperature
    deviation (it changes density and sound, not pressure). They broadcast together.
    Returns: Isa of the broadcast shape: pressure and density over those of ISA at sea level; kelvin; kt.
    NaN for a row out of range or with no temperature above absolute zero. Source: FIGURES (ICAO Doc 7488).

    >>> round(float(isa(10000.0).pressure_ratio), 4), round(float(isa(10000.0).density_ratio), 4)
    (0.6877, 0.7385)
    """
    alt, dev = _broadcast(alt_ft, isa_dev_c)
    metres = np.where((alt >= LOWEST_FT) & (alt <= HIGHEST_FT), alt, np.nan) * FT_M
    standard = np.maximum(_T0 - _V["lapse_k_per_m"] * metres, _TROPOPAUSE_K)
    above = np.maximum(metres - _V["tropopause_m"], 0.0)
    temperature = np.where(standard + dev > 0.0, standard + dev, np.nan)
    temperature = np.where(np.isfinite(temperature), temperature, np.nan)
    pressure = (standard / _T0) ** _EXPONENT * np.exp(-above / _SCALE_HEIGHT_M)
    pressure = np.where(np.isnan(temperature), np.nan, pressure)
    return Isa(pressure, pressure * _T0 / temperature, temperature, np.sqrt(_GAMMA * _R * temperature) / KT_MS)


def pressure_altitude_ft(alt_ft, qnh_hpa=STANDARD_QNH_HPA) -> np.ndarray:
    """Pressure altitude of an altitude that an altimeter set to a QNH shows.

    The altimeter's scale is shifted by the height at which the standard atmosphere has the QNH. Parameters: alt_ft;
    qnh_hpa > 0; they broadcast. Returns: ft. Source: FIGURES (ICAO Doc 7488), troposphere.

    >>> round(float(pressure_altitude_ft(5000.0, 1003.25)))
    5274
    """
    alt, qnh = _broadcast(alt_ft, qnh_hpa)
    with np.errstate(invalid="ignore"):
        shift_m = _T0 / _V["lapse_k_per_m"] * (1.0 - (qnh / STANDARD_QNH_HPA) ** (1.0 / _EXPONENT))
    return alt + shift_m / FT_M


def cas_to_tas_kt(cas_kt, alt_ft, isa_dev_c=0.0) -> np.ndarray:
    """True airspeed of a calibrated airspeed, by the isentropic pitot equations (compressible, subsonic).

    Parameters: cas_kt >= 0; alt_ft, isa_dev_c as isa. They broadcast together. Returns: kt of the broadcast
    shape; NaN for a row out of range or beyond Mach 1. Source: common practice (isentropic flow), from memory.

    >>> round(float(cas_to_tas_kt(230.0, 10000.0, 15.0)), 2)
    273.23
    """
    cas, alt, dev = _broadcast(cas_kt, alt_ft, isa_dev_c)
    air = isa(alt, dev)
    return _mach(_impact(cas / _SOUND_SEA_LEVEL_KT) / air.pressure_ratio) * air.sound_kt


def tas_to_cas_kt(tas_kt, alt_ft, isa_dev_c=0.0) -> np.ndarray:
    """Calibrated airspeed of a true airspeed: the inverse of cas_to_tas_kt, same parameters and limits."""
    tas, alt, dev = _broadcast(tas_kt, alt_ft, isa_dev_c)
    air = isa(alt, dev)
    return _mach(_impact(tas / air.sound_kt) * air.pressure_ratio) * _SOUND_SEA_LEVEL_KT


def mach_to_cas_kt(mach, alt_ft) -> np.ndarray:
    """Calibrated airspeed of a Mach number (the temperature has no part in it).

    Parameters: mach 0 to 1; alt_ft as isa. They broadcast together. Returns: kt; NaN for a row out of range.
    Source: as cas_to_tas_kt.
    """
    mach, alt = _broadcast(mach, alt_ft)
    return _mach(_impact(mach) * isa(alt).pressure_ratio) * _SOUND_SEA_LEVEL_KT


def icao_k_factor(alt_ft, isa_dev_c=_V["holding_isa_dev_c"]) -> np.ndarray:
    """ICAO's factor from indicated to true airspeed, V = K * IAS, which ignores compressibility.

    K = 171233 sqrt(288 + dev - 0.00198 H) / (288 - 0.00198 H)^2.628. Parameters: alt_ft, LOWEST_FT to the
    tropopause (36 089 ft); isa_dev_c. They broadcast together. Returns: the factor; NaN for a row out of range.
    Source: FIGURES (ICAO Doc 8168 Vol II Part I, Section 2, Chapter 1, Appendix; the formula from memory).

    >>> round(float(icao_k_factor(6000.0)), 4)
    1.1231
    """
    return _k_factor(alt_ft, isa_dev_c, _V["k_lapse_per_ft"], FT_M)


def icao_k_factor_si(alt_m, isa_dev_c=_V["holding_isa_dev_c"]) -> np.ndarray:
    """icao_k_factor with the document's constant for altitudes in metres (0.006496 in place of 0.00198)."""
    return _k_factor(alt_m, isa_dev_c, _V["k_lapse_per_m"], 1.0)


def icao_holding_tas_kt(ias_kt, alt_ft, isa_dev_c=_V["holding_isa_dev_c"]) -> np.ndarray:
    """True airspeed for a holding area by ICAO's compressible formula, IAS taken as CAS.

    V = 55.1088 sqrt(T) sqrt(sqrt(1 + 0.0023157 IAS^2/P (1 + IAS^2/1750200)) - 1). Parameters: ias_kt >= 0;
    alt_ft, isa_dev_c as isa, ISA+15 by default. They broadcast together. Returns: kt; NaN for a row out of
    range. Source: FIGURES (ICAO Doc 8168 Vol II Part II, Section 4, Chapter 1, Appendix A; from memory).

    >>> round(float(icao_holding_tas_kt(230.0, 10000.0)), 2)
    273.28
    """
    return _holding_tas(ias_kt, alt_ft, isa_dev_c, "holding_tas_kt")


def icao_holding_tas_kmh(ias_kmh, alt_m, isa_dev_c=_V["holding_isa_dev_c"]) -> np.ndarray:
    """icao_holding_tas_kt with the document's constants for km/h and metres."""
    return _holding_tas(ias_kmh, np.asarray(alt_m, dtype=np.float64) / FT_M, isa_dev_c, "holding_tas_kmh")


def icao_wind_kt(alt_ft) -> np.ndarray:
    """ICAO omnidirectional wind for areas, w = 2 h + 47 kt with h in thousand feet.

    Parameters: alt_ft, any shape. Returns: kt of the same shape. Source: FIGURES (Doc 8168 Vol II, I-4-3-7 e)).

    >>> float(icao_wind_kt(6000.0))
    59.0
    """
    return _V["wind_kt_per_thousand_ft"] * np.asarray(alt_ft, dtype=np.float64) / 1000.0 + _V["wind_kt"]


def icao_wind_kmh(alt_m) -> np.ndarray:
    """icao_wind_kt in SI units, w = 12 h + 87 km/h with h in km."""
    return _V["wind_kmh_per_km"] * np.asarray(alt_m, dtype=np.float64) / 1000.0 + _V["wind_kmh"]


def _broadcast(*arrays) -> list[np.ndarray]:
    return list(np.broadcast_arrays(*[np.asarray(a, dtype=np.float64) for a in arrays]))


def _impact(mach: np.ndarray) -> np.ndarray:
    """Impact pressure over static pressure at a Mach number 0 to 1, NaN outside."""
    mach = np.where((mach >= 0.0) & (mach <= 1.0), mach, np.nan)
    return np.expm1(_ISENTROPIC * np.log1p((_GAMMA - 1.0) / 2.0 * mach**2))


def _mach(impact: np.ndarray) -> np.ndarray:
    """Mach number of an impact pressure over static pressure, NaN beyond 1 (but for rounding)."""
    mach = np.sqrt(2.0 / (_GAMMA - 1.0) * np.expm1(np.log1p(impact) / _ISENTROPIC))
    return np.where(mach <= 1.0 + 1e-12, mach, np.nan)


def _k_factor(alt, isa_dev_c, lapse: float, unit_m: float) -> np.ndarray:
    alt, dev = _broadcast(alt, isa_dev_c)
    good = (alt * unit_m >= LOWEST_FT * FT_M) & (alt * unit_m <= _V["tropopause_m"])
    standard = _V["k_temperature_k"] - lapse * np.where(good, alt, np.nan)
    actual = np.where(np.isfinite(dev) & (standard + dev > 0.0), standard + dev, np.nan)
    return _V["k_factor"] * np.sqrt(actual) / standard ** _V["k_exponent"]


def _holding_tas(ias, alt_ft, isa_dev_c, form: str) -> np.ndarray:
    ias, alt, dev = _broadcast(ias, alt_ft, isa_dev_c)
    air = isa(alt, dev)
    square = np.where((ias >= 0.0) & np.isfinite(ias), ias, np.nan) ** 2
    x = _V[form + "_pressure"] * square / (air.pressure_ratio * _P0_HPA) * (1.0 + square / _V[form + "_square"])
    # sqrt(1 + x) - 1 without the cancellation.
    return _V[form + "_factor"] * np.sqrt(air.temperature_k) * np.sqrt(x / (1.0 + np.sqrt(1.0 + x)))
