"""Leaving a hold at a time: how many circuits fit, and how the last one or all of them are changed."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import circuit, reasons, text
from .circuit import Circuit

SAME_S = 0.05
"""Times nearer than this are the same."""


class Leaving(NamedTuple):
    """Plans of N rows: circuits, how many; last, the last of them if it alone is changed, each, all of them if
    all are; shortest_s, the shortest circuit there is; code, 0 where it can be done; note, a sentence where not.
    """

    circuits: np.ndarray
    last: Circuit
    each: Circuit
    shortest_s: np.ndarray
    code: np.ndarray
    note: np.ndarray


def leave(
    inbound_true_deg, side, tas_kt, rate_dps, wind_from_deg, wind_kt, usual: Circuit, available_s, roll_s=0.0
) -> Leaving:
    """Circuits that end over the fix at a time.

    As many usual circuits as fit; what is left over is flown as a shorter last circuit if it is long enough for
    one, and otherwise lengthens the last. Parameters: as circuit.solve; usual, the circuit of the hold;
    available_s, seconds from the crossing at which the first circuit begins; roll_s as circuit.solve. They broadcast
    to N rows.
    Returns: Leaving; NOT_FINITE without a time, CIRCUIT_TOO_SHORT where no circuit fits, the usual circuit's
    code where it has one. Source: FAA AIM 5-3-8 k (leave at the time, by adjusting the pattern); derived here.
    """
    n = len(usual.circuit_s)
    available = np.broadcast_to(np.asarray(available_s, float), (n,))
    hold = (inbound_true_deg, side, tas_kt, rate_dps, wind_from_deg, wind_kt)
    air = circuit.air_of(*hold, roll_s)
    with np.errstate(invalid="ignore"):
        on_heading = (air.wa * np.cos(air.kappa_rad) + air.wc * np.sin(air.kappa_rad)) * 3600.0
    on_heading = np.where(np.isfinite(on_heading), on_heading, 0.0)
    shortest = np.broadcast_to(circuit.shortest_s(tas_kt, rate_dps, wind_kt, roll_s, on_heading), (n,))

    def of_time(seconds) -> Circuit:
        return circuit.solve(*hold, circuit.CIRCUIT_TIME, seconds, roll_s=roll_s)

    with np.errstate(invalid="ignore", divide="ignore"):
        full = np.floor(available / usual.circuit_s + 1e-9)
        rest = available - full * usual.circuit_s
        one_more, longer = of_time(rest), of_time(rest + usual.circuit_s)
        more = (one_more.code == reasons.OK) & (available >= 0.0)
        count = np.where(more, full + 1.0, full)
        at_once = np.abs(available) <= SAME_S
        each = of_time(available / count)
        last = one_more.where(more, longer)
        fits = at_once | ((count >= 1.0) & (last.code == reasons.OK))
        code = reasons.first(
            reasons.where(~np.isfinite(available), reasons.NOT_FINITE),
            usual.code,
            reasons.where(~fits & (available < shortest), reasons.CIRCUIT_TOO_SHORT),
            reasons.where(~fits, reasons.NO_CIRCUIT),
        )
    note = np.full(n, "", dtype=object)
    reasons.note(
        note,
        (code == reasons.CIRCUIT_TOO_SHORT) & (available < 0.0),
        lambda i: f"the time to leave lies {text.format_duration(-available[i])} before the first circuit can begin",
    )
    reasons.note(
        note,
        (code == reasons.CIRCUIT_TOO_SHORT) & (available >= 0.0),
        lambda i: (
            f"the time to leave is {text.format_duration(available[i])} after the first circuit can begin; "
            f"the shortest circuit in this wind takes {text.format_duration(shortest[i])}"
        ),
    )
    reasons.note(
        note,
        (code == reasons.NO_CIRCUIT) & (usual.code == reasons.OK),
        lambda i: "no circuit of the time that is left can be flown in this wind",
    )
    good = (code == reasons.OK) & ~at_once
    return Leaving(np.where(good, count, 0.0).astype(np.int64), last, each, shortest, code, note)
