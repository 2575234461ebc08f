"""The rules of thumb for wind in a hold, and where they leave the aeroplane."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import circuit, segments
from .angles import wrap360


class DriftRule(NamedTuple):
    """How many times the inbound correction is held outbound."""

    name: str
    times: float
    mark: str
    source: str


DRIFT_RULES = (
    DriftRule("single", 1.0, "common practice", "each leg corrected for its own drift"),
    DriftRule("double", 2.0, "common practice", "older teaching; US Navy CNATRA P-1244 gives two to three times"),
    DriftRule("triple", 3.0, "published", "FAA AIM 5-3-8 j.8(c)"),
)


ADJUSTMENT_SOURCE = "US Navy CNATRA P-871, chapter 4; FAA AIM 5-3-8 j.4 (outbound adjusted for the inbound time)"


class RolledOut(NamedTuple):
    """Where the second turn ends, N rows.

    heading_out_deg true; off_course_nm, positive right of the inbound course as flown; before_fix_nm along it,
    negative past the fix; from_fix_nm in a straight line. NaN where the wind allows no inbound heading.
    """

    heading_out_deg: np.ndarray
    off_course_nm: np.ndarray
    before_fix_nm: np.ndarray
    from_fix_nm: np.ndarray


def track(
    inbound_true_deg, side, tas_kt, rate_dps, wind_from_deg, wind_kt, times, outbound_s, roll_s=0.0
) -> tuple[segments.Segments, RolledOut]:
    """A circuit flown by a rule: turn, outbound with the inbound correction times a number, turn to the
    inbound heading; it ends where that turn does.

    Parameters: as circuit.solve; times, of DRIFT_RULES; outbound_s, straight seconds from roll-out, such as the
    exact circuit's; roll_s as circuit.solve. They broadcast to N rows. Returns: Segments of three columns, RolledOut.
    Source: DRIFT_RULES; motion derived here.

    >>> _, found = track(72.0, 1, 118.0, 3.0, 340.0, 22.0, 3.0, 70.18)
    >>> round(float(found.off_course_nm[0]), 3), round(float(found.before_fix_nm[0]), 3)
    (-0.065, 1.906)
    """
    theta, side, tas, rate, wind_from, wind, times, outbound, roll = np.broadcast_arrays(
        *[
            np.atleast_1d(np.asarray(a, float))
            for a in (inbound_true_deg, side, tas_kt, rate_dps, wind_from_deg, wind_kt, times, outbound_s, roll_s)
        ]
    )
    air = circuit.air_of(theta, side, tas, rate, wind_from, wind, roll)
    out = np.pi - outbound_eps_rad(air, times)
    turns = [out - air.kappa_rad, 2.0 * np.pi + air.kappa_rad - out]
    zero = np.zeros(len(theta))
    flown = segments.Segments(
        duration_s=np.stack(
            [np.abs(turns[0]) / air.omega + roll, outbound, np.abs(turns[1]) / air.omega + roll], axis=1
        ),
        rate_rad_s=np.stack([np.sign(turns[0]) * air.omega, zero, np.sign(turns[1]) * air.omega], axis=1),
        heading_rad=np.stack([air.kappa_rad, out, out], axis=1),
        kind=np.array([segments.TURN_OUT, segments.OUTBOUND, segments.TURN_IN]),
        circuit=np.ones(3, dtype=np.int64),
        first=0,
        v=air.v,
        wa=air.wa,
        wc=air.wc,
        inbound_true_deg=theta,
        side=side,
        roll_s=air.roll_s,
    )
    end = flown.state(np.arange(len(theta)), np.full(len(theta), 2), flown.duration_s[:, 2])
    heading = wrap360(theta + side * np.degrees(out))
    return flown, RolledOut(heading, side * end.s_nm, -end.u_nm, np.hypot(end.u_nm, end.s_nm))


def outbound_eps_rad(air: circuit.Air, times) -> np.ndarray:
    """Outbound direction by a rule, as circuit.Circuit has it: so many times the inbound correction, against the drift.

    Parameters: air, N rows; times, of DRIFT_RULES. Returns: rad. Source: DRIFT_RULES.
    """
    return np.asarray(times, dtype=np.float64) * air.kappa_rad


def adjusted_outbound_s(last_outbound_s, last_inbound_s, wanted_inbound_s) -> np.ndarray:
    """Next outbound time: the last, longer by what the inbound leg fell short of the wanted time.

    Parameters broadcast, s. Returns: s; not positive where the rule asks for no outbound leg. Source:
    ADJUSTMENT_SOURCE.

    >>> float(adjusted_outbound_s(60.0, 48.0, 60.0))
    72.0
    """
    return np.asarray(last_outbound_s, float) + (np.asarray(wanted_inbound_s, float) - last_inbound_s)
