"""Many places in the frames of holds at once: geodesy.place by a polynomial for each hold.

Longitude and latitude are smooth in the frame, so that a polynomial through a few exact places gives all others
within a fraction of a millimetre, at a third of the time. It is held against exact places between its nodes; where
it is not good enough, as near a pole, every place is computed exactly.
"""

from __future__ import annotations

import numpy as np

from . import geodesy
from .units import NM_M

DEGREE = 6
ALLOWED_M = 1e-4
"""A place that is checked may be off by no more than this."""
FEWEST = 150
"""With fewer places to a hold than this the polynomial does not pay."""

_POWERS = [(i, j) for j in range(DEGREE + 1) for i in range(DEGREE + 1 - j)]
_NODES = np.cos(np.pi * (np.arange(DEGREE + 2) + 0.5) / (DEGREE + 2))
_X, _Y = (a.ravel() for a in np.meshgrid(_NODES, _NODES))


def _fit() -> np.ndarray:
    """Least squares at the nodes: coefficients of _POWERS (terms, nodes) from values there.

    Chebyshev polynomials are orthogonal over these nodes, so that each has a sum of its own; then they are written out
    in powers. A general solver would do, but gives other last bits in a process that links another one.
    Source: common practice (discrete orthogonality at Chebyshev nodes).
    """
    n = DEGREE + 2
    angle = np.pi * (np.arange(n) + 0.5) / n
    sums = np.cos(np.arange(DEGREE + 1)[:, None] * angle) * np.where(np.arange(DEGREE + 1) == 0, 1.0, 2.0)[:, None] / n
    written = np.zeros((DEGREE + 1, DEGREE + 1))  # written[i, k]: power k in polynomial i, whole numbers
    written[0, 0] = written[1, 1] = 1.0
    for i in range(2, DEGREE + 1):
        written[i, 1:] = 2.0 * written[i - 1, :-1]
        written[i] -= written[i - 2]
    out = np.zeros((len(_POWERS), n * n))
    for i, j in _POWERS:
        own = (sums[j][:, None] * sums[i]).ravel()  # _X runs along a row of nodes, _Y from row to row
        for k, (x_power, y_power) in enumerate(_POWERS):
            out[k] += written[i, x_power] * written[j, y_power] * own
    return out


_FIT = _fit()
_ROUND = np.radians(np.arange(0.0, 360.0, 24.0))
_CHECK_X = np.concatenate([r * np.cos(_ROUND + r) for r in (0.45, 0.98)])
_CHECK_Y = np.concatenate([r * np.sin(_ROUND + r) for r in (0.45, 0.98)])


def place_runs(lon, lat, inbound_true_deg, side, u_nm, s_nm, starts) -> tuple[np.ndarray, np.ndarray]:
    """geodesy.place of runs of places, a run a hold.

    Parameters: lon, lat, inbound_true_deg, side (N,) of the holds; u_nm, s_nm (T,); starts (N + 1,) where the places of
    each hold begin. Returns: lon (unwrapped to the fix), lat, (T,) each, within ALLOWED_M of geodesy.place.
    """
    lon, lat, inbound, side = (np.asarray(a, dtype=np.float64) for a in (lon, lat, inbound_true_deg, side))
    u, s = np.asarray(u_nm, dtype=np.float64), np.asarray(s_nm, dtype=np.float64)
    sizes = np.diff(starts)
    reach = np.ones(len(lon))
    filled = sizes > 0
    if filled.any():
        reach[filled] = np.fmax(np.maximum.reduceat(np.hypot(u, s), np.asarray(starts)[:-1][filled]), 1e-3)
    many = np.flatnonzero(sizes >= FEWEST)
    exact = np.ones(len(lon), dtype=bool)
    out = np.empty((2, len(u)))
    if len(many):
        fix = (lon[many, None], lat[many, None], inbound[many, None], side[many, None])
        coefficients = _fitted(fix, reach[many])
        good = _good(fix, reach[many], coefficients)
        exact[many[good]] = False
        for k in np.flatnonzero(good):
            row = many[k]
            here = slice(starts[row], starts[row + 1])
            out[:, here] = _value(coefficients[:, :, k : k + 1], u[here] / reach[row], s[here] / reach[row])[:, 0]
    owner = np.repeat(np.arange(len(lon)), sizes)
    left = np.flatnonzero(exact[owner])
    of = owner[left]
    out[:, left] = geodesy.place(lon[of], lat[of], inbound[of], side[of], u[left], s[left])
    return out[0], out[1]


def _fitted(fix, reach) -> np.ndarray:
    """Coefficients (terms, 2, N, 1) of longitude and latitude, in the frame divided by each hold's reach."""
    at = geodesy.place(*fix, _X * reach[:, None], _Y * reach[:, None])
    return np.einsum("tn,cmn->tcm", _FIT, np.stack(at))[:, :, :, None]


def _good(fix, reach, coefficients) -> np.ndarray:
    lon, lat = geodesy.place(*fix, _CHECK_X * reach[:, None], _CHECK_Y * reach[:, None])
    found_lon, found_lat = _value(coefficients, _CHECK_X, _CHECK_Y)
    apart = np.hypot((found_lon - lon) * np.cos(np.radians(lat)), found_lat - lat) * 60.0 * NM_M
    with np.errstate(invalid="ignore"):
        return (apart <= ALLOWED_M).all(axis=1)


def _value(c: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Longitude and latitude (2, N, P): each power of y has a polynomial of x, both by Horner's rule."""
    out, last = None, len(_POWERS)
    for j in range(DEGREE, -1, -1):
        first = last - (DEGREE + 1 - j)
        inner = c[last - 1]
        for k in range(last - 2, first - 1, -1):
            inner = inner * x + c[k]
        out = inner if out is None else out * y + inner
        last = first
    return out
