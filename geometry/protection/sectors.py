"""Which of many convex shapes may make up their hull in which directions, told from how far they reach in a few."""

from __future__ import annotations

import numpy as np

SECTORS = 16
"""Equal sectors of the directions, the first from the inbound course towards the holding side."""
WIDTH_RAD = 2.0 * np.pi / SECTORS
_SURE_NM = 1e-9
"""A shape that falls short by less than this may still be needed: rounding."""
_FAR_NM = 1e9
"""Stands for nothing reached at all, so that products are numbers."""


def starts_rad(count: int) -> np.ndarray:
    """Where the sectors of N holds begin, (N * SECTORS,)."""
    return np.tile(2.0 * np.pi * np.arange(SECTORS) / SECTORS, count)


def of(alpha_rad: np.ndarray) -> np.ndarray:
    """The sector that each direction lies in."""
    return np.floor(alpha_rad / WIDTH_RAD).astype(np.int64) % SECTORS


def needed(heights: np.ndarray, top: np.ndarray, u: np.ndarray, s: np.ndarray) -> np.ndarray:
    """Whether each of K shapes may reach as far as the hull of all anywhere in a sector: a mask (K, N * SECTORS).

    Between two directions, a and b, a convex shape reaches no farther than the crossing of its support lines. Where
    that lies inside some point of the chord between the hull's own touches, as seen from both, the shape is not
    needed: with h how far it reaches, H the hull, T1 and T2 the hull's touches, if a share t of the chord exists with
    h(a) <= H(a) - t (H(a) - T2 a) and h(b) <= H(b) - (1 - t) (H(b) - T1 b).
    Parameters: heights (K, N * SECTORS) of the shapes, top of the hull, and its touch u, s, (N * SECTORS,), all where
    the sectors begin; -infinity for nothing. Each must be convex, so no disc of negative radius. Derived here.
    """
    ways = starts_rad(1)
    (c, c_end), (d, d_end) = (_both(turn(ways)) for turn in (np.cos, np.sin))
    (top, top_end), (u, u_end), (s, s_end) = (_both(a.reshape(-1, SECTORS)) for a in (top, u, s))
    lost, lost_end = top - u_end * c - s_end * d, top_end - u * c_end - s * d_end
    with np.errstate(invalid="ignore"):  # a hold for which no shape is there
        short, short_end = _both(np.fmin(top - heights.reshape(len(heights), -1, SECTORS) - _SURE_NM, _FAR_NM))
        inside = (short >= 0.0) & (short_end >= 0.0) & (short * lost_end + short_end * lost >= lost * lost_end)
    return ~inside.reshape(len(heights), -1)


def _both(values: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Values (..., SECTORS) where the sectors begin, and where they end."""
    return values, np.concatenate([values[..., 1:], values[..., :1]], axis=-1)
