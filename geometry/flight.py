"""Turns of an aeroplane and the wind triangle."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .angles import cosd, sind, wrap360
from .units import G_MS2, KT_MS

RULES = ("icao", "faa")
ICAO, FAA = range(2)
"""Rule sets by document, in the order of the codes 0 and 1."""


class TurnRule(NamedTuple):
    rate_dps: float
    bank_deg: float
    source: str


TURN_RULES = {
    "icao": TurnRule(3.0, 25.0, "ICAO Doc 8168 Vol II, 5th ed., I-4-3-7 f)"),
    "faa": TurnRule(3.0, 30.0, "FAA AIM 5-3-8 j.8(b)"),
}
"""The lesser bank of a standard rate and a fixed bank. With a flight director the FAA bank is 25 degrees."""


class Turn(NamedTuple):
    bank_deg: np.ndarray
    rate_dps: np.ndarray
    radius_nm: np.ndarray


def turn(tas_kt, rules) -> Turn:
    """Bank, rate and radius of the turn that a rule set prescribes in still air.

    The lesser of the bank that gives the rule's rate, tan(bank) = rate * V / g, and the rule's bank.
    Parameters: tas_kt > 0; rules, codes 0 icao, 1 faa; they broadcast. Returns: Turn of the broadcast shape.
    Source: TURN_RULES; radius = V / rate.

    >>> t = turn(120.0, 0)
    >>> round(float(t.bank_deg), 2), float(t.rate_dps), round(float(t.radius_nm), 4)
    (18.24, 3.0, 0.6366)
    """
    rules = np.asarray(rules, dtype=np.int64)
    rate_limit = np.array([TURN_RULES[name].rate_dps for name in RULES])[rules]
    bank_limit = np.array([TURN_RULES[name].bank_deg for name in RULES])[rules]
    speed_ms = np.asarray(tas_kt, dtype=np.float64) * KT_MS
    bank_for_rate = bank_of_rate_deg(tas_kt, rate_limit)
    bank = np.minimum(bank_for_rate, bank_limit)
    with np.errstate(divide="ignore", invalid="ignore"):
        rate = np.where(bank_for_rate <= bank_limit, rate_limit, rate_of_bank_dps(tas_kt, bank))
        radius_nm = np.asarray(tas_kt, dtype=np.float64) / 3600.0 / np.radians(rate)
    rate = np.where(np.isfinite(speed_ms), rate, np.nan)
    return Turn(bank, rate, np.where(np.isfinite(speed_ms), radius_nm, np.nan))


def bank_of_rate_deg(tas_kt, rate_dps) -> np.ndarray:
    """Bank that gives a rate of turn: tan(bank) = rate * V / g. Parameters broadcast; returns degrees."""
    speed_ms = np.asarray(tas_kt, dtype=np.float64) * KT_MS
    return np.degrees(np.arctan(np.radians(rate_dps) * speed_ms / G_MS2))


def rate_of_bank_dps(tas_kt, bank_deg) -> np.ndarray:
    """Rate of turn at a bank: g tan(bank) / V. Parameters broadcast, tas_kt > 0; returns degrees a second."""
    speed_ms = np.asarray(tas_kt, dtype=np.float64) * KT_MS
    return np.degrees(G_MS2 * np.tan(np.radians(bank_deg)) / speed_ms)


class WindTriangle(NamedTuple):
    correction_deg: np.ndarray
    heading_deg: np.ndarray
    gs_kt: np.ndarray


def heading_for_course(course_deg, tas_kt, wind_from_deg, wind_kt) -> WindTriangle:
    """Heading and ground speed that make a course good.

    correction = asin(w / V * sin(from - course)), positive right. Parameters: degrees all from one north;
    knots; they broadcast. Returns: WindTriangle; NaN where the crosswind is not less than the airspeed or the
    ground speed is not positive, for there the course cannot be made good.
    Source: vector sum of air velocity and wind.

    >>> round(float(heading_for_course(360.0, 120.0, 270.0, 20.0).correction_deg), 2)
    -9.59
    """
    angle = np.asarray(wind_from_deg, dtype=np.float64) - course_deg
    tas_kt = np.asarray(tas_kt, dtype=np.float64)
    with np.errstate(invalid="ignore", divide="ignore"):
        correction = np.degrees(np.arcsin(wind_kt / tas_kt * sind(angle)))
        gs = tas_kt * cosd(correction) - wind_kt * cosd(angle)
        good = gs > 1e-9
    correction = np.where(good, correction, np.nan)
    return WindTriangle(correction, wrap360(course_deg + correction), np.where(good, gs, np.nan))


def airspeed_for_track(track_deg, gs_kt, wind_from_deg, wind_kt) -> tuple[np.ndarray, np.ndarray]:
    """Airspeed and heading that give a track and a ground speed in a wind.

    Parameters: degrees all from one north; knots; they broadcast. Returns: tas_kt, heading_deg.
    Source: vector difference of ground velocity and wind.
    """
    angle = np.asarray(wind_from_deg, dtype=np.float64) - track_deg
    along = gs_kt + wind_kt * cosd(angle)
    across = wind_kt * sind(angle)
    return np.hypot(along, across), wrap360(track_deg + np.degrees(np.arctan2(across, along)))
