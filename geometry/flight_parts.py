"""The parts of a flight in a hold, put side by side: the arrival, an entry, each circuit."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import circuit
from .circuit import Air, Circuit
from .segments import ARRIVAL, INBOUND, OUTBOUND, TURN_IN, TURN_OUT, Segments


class Part(NamedTuple):
    """Segments of N rows: duration_s, rate_rad_s, heading_rad (N, m) as segments.Segments; kind, m codes; circuit, the
    number of them all; outbound legs with abeam_s and clock_s, inbound legs with on_course (N, m) as
    hold_events.Marks; leg_end (N,), words of what ends the outbound leg where no clock does."""

    duration_s: np.ndarray
    rate_rad_s: np.ndarray
    heading_rad: np.ndarray
    kind: tuple[int, ...]
    circuit: int
    abeam_s: np.ndarray
    clock_s: np.ndarray
    on_course: np.ndarray
    leg_end: np.ndarray


def arrival(heading_rad, seconds) -> Part:
    """Straight to the fix on a heading. Parameters: (N,), rad in the frame and s."""
    none = np.full((len(heading_rad), 1), np.nan)
    return Part(
        np.asarray(seconds)[:, None], np.zeros(none.shape), np.asarray(heading_rad)[:, None], (ARRIVAL,), 0,
        none, none, np.zeros(none.shape, dtype=bool), np.full(len(none), "", dtype=object),
    )  # fmt: skip


def one_circuit(one: Circuit, air: Air, number: int, flies, clock, timed, leg_end) -> Part:
    """A circuit from the inbound course to the fix. Parameters: one and air, N rows; its number; flies (N,), true
    where it is flown; clock, code of circuit.CLOCKS; timed (N,), true where the leg has a clock; leg_end (N,) as
    Part."""
    zero = np.zeros(len(air.v))
    out = np.pi - one.eps_rad
    seconds = np.stack([one.turn_out_s, one.outbound_s, one.turn_in_s, one.inbound_s], axis=1)
    return Part(
        np.where(np.asarray(flies)[:, None], seconds, 0.0),
        np.stack([air.omega, zero, air.omega, zero], axis=1),
        np.stack([air.kappa_rad, out, out, air.kappa_rad], axis=1),
        (TURN_OUT, OUTBOUND, TURN_IN, INBOUND),
        number,
        at_outbound(one.abeam_after_roll_out_s, 4),
        at_outbound(clock_start_s(one, clock, timed), 4),
        np.ones((len(zero), 4), dtype=bool),
        leg_end,
    )


def clock_start_s(one: Circuit, clock, timed) -> np.ndarray:
    """Seconds from roll-out to the start of the stopwatch (N,); NaN where the leg has none."""
    return np.where(timed, circuit.clock_start_s(clock, one.abeam_after_roll_out_s), np.nan)


def at_outbound(values, columns: int) -> np.ndarray:
    """Values (N,) at the second of some columns, where the outbound leg stands; NaN at the others."""
    out = np.full((len(values), columns), np.nan)
    out[:, 1] = values
    return out


def side_by_side(parts: list[Part], air: Air, inbound_true_deg, side, good) -> tuple[Segments, dict[str, np.ndarray]]:
    """Parts in the order flown, the first of them the arrival, which ends over the fix at 0 s.

    Parameters: parts, air, N rows; inbound_true_deg, side (N,); good (N,), false where nothing is flown.
    Returns: Segments, and abeam_s, clock_s, on_course, leg_end (N, K) by name. Rows that are not good last NaN
    seconds.
    """

    def wide(name: str) -> np.ndarray:
        return np.concatenate([getattr(part, name) for part in parts], axis=1)

    duration = wide("duration_s")
    # What a row does not fly has no heading either, and must not reach what it flies.
    absent = duration == 0.0
    flown = Segments(
        duration_s=np.where(np.asarray(good)[:, None], duration, np.nan),
        rate_rad_s=np.where(absent, 0.0, wide("rate_rad_s")),
        heading_rad=np.where(absent, 0.0, wide("heading_rad")),
        kind=np.concatenate([part.kind for part in parts]),
        circuit=np.concatenate([np.full(len(part.kind), part.circuit) for part in parts]),
        first=len(parts[0].kind),
        v=air.v,
        wa=air.wa,
        wc=air.wc,
        inbound_true_deg=np.asarray(inbound_true_deg),
        side=np.asarray(side),
        roll_s=air.roll_s,
    )
    marks = {name: wide(name) for name in ("abeam_s", "clock_s", "on_course")}
    ends = [np.broadcast_to(part.leg_end[:, None], part.duration_s.shape) for part in parts]
    return flown, {**marks, "leg_end": np.concatenate(ends, axis=1)}
