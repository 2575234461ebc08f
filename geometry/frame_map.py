"""Many places in the frames of holds at once: geodesy.place by a polynomial for each hold.

Longitude and latitude are smooth in the frame, so that a polynomial through a few exact places gives all others
within a fraction of a millimetre, at a third of the time. It is held against exact places between its nodes; where
it is not good enough, as near a pole, every place is computed exactly.
"""

from __future__ import annotations

import numpy as np

from . import geodesy
from .units import NM_M

DEGREES = (4, 6)
"""Tried one after the other: the lower does for a hold of usual size up to middle latitudes, at half the time."""
ALLOWED_M = 1e-4
"""A place that is checked may be off by no more than this."""
FEWEST = 150
"""With fewer places to a hold than this the polynomial does not pay."""


def _powers(degree: int) -> list[tuple[int, int]]:
    """Powers of x and y of a polynomial's terms, in the order of its coefficients."""
    return [(i, j) for j in range(degree + 1) for i in range(degree + 1 - j)]


def _nodes(degree: int) -> tuple[np.ndarray, np.ndarray]:
    """x and y of the places that a polynomial is fitted to."""
    one = np.cos(np.pi * (np.arange(degree + 2) + 0.5) / (degree + 2))
    x, y = np.meshgrid(one, one)
    return x.ravel(), y.ravel()


def _fit(degree: int) -> np.ndarray:
    """Least squares at the nodes: coefficients (terms, nodes) from values there.

    Chebyshev polynomials are orthogonal over these nodes, so that each has a sum of its own; then they are written out
    in powers. A general solver would do, but gives other last bits in a process that links another one.
    Source: common practice (discrete orthogonality at Chebyshev nodes).
    """
    n = degree + 2
    angle = np.pi * (np.arange(n) + 0.5) / n
    sums = np.cos(np.arange(degree + 1)[:, None] * angle) * np.where(np.arange(degree + 1) == 0, 1.0, 2.0)[:, None] / n
    written = np.zeros((degree + 1, degree + 1))  # written[i, k]: power k in polynomial i, whole numbers
    written[0, 0] = written[1, 1] = 1.0
    for i in range(2, degree + 1):
        written[i, 1:] = 2.0 * written[i - 1, :-1]
        written[i] -= written[i - 2]
    powers = _powers(degree)
    out = np.zeros((len(powers), n * n))
    for i, j in powers:
        own = (sums[j][:, None] * sums[i]).ravel()  # x runs along a row of nodes, y from row to row
        for k, (x_power, y_power) in enumerate(powers):
            out[k] += written[i, x_power] * written[j, y_power] * own
    return out


_FITS = {degree: _fit(degree) for degree in DEGREES}
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
    exact = np.ones(len(lon), dtype=bool)
    out = np.empty((2, len(u)))
    for degree in DEGREES:
        many = np.flatnonzero((sizes >= FEWEST) & exact)
        if not len(many):
            break
        fix = (lon[many, None], lat[many, None], inbound[many, None], side[many, None])
        coefficients = _fitted(degree, fix, reach[many])
        good = _good(degree, fix, reach[many], coefficients)
        exact[many[good]] = False
        for k in np.flatnonzero(good):
            row = many[k]
            here = slice(starts[row], starts[row + 1])
            x, y = u[here] / reach[row], s[here] / reach[row]
            out[:, here] = _value(degree, coefficients[:, :, k : k + 1], x, y)[:, 0]
    owner = np.repeat(np.arange(len(lon)), sizes)
    left = np.flatnonzero(exact[owner])
    of = owner[left]
    out[:, left] = geodesy.place(lon[of], lat[of], inbound[of], side[of], u[left], s[left])
    return out[0], out[1]


def _fitted(degree: int, fix, reach) -> np.ndarray:
    """Coefficients (terms, 2, N, 1) of longitude and latitude, in the frame divided by each hold's reach."""
    x, y = _nodes(degree)
    at = geodesy.place(*fix, x * reach[:, None], y * reach[:, None])
    return np.einsum("tn,cmn->tcm", _FITS[degree], np.stack(at))[:, :, :, None]


def _good(degree: int, fix, reach, coefficients) -> np.ndarray:
    lon, lat = geodesy.place(*fix, _CHECK_X * reach[:, None], _CHECK_Y * reach[:, None])
    found_lon, found_lat = _value(degree, coefficients, _CHECK_X, _CHECK_Y)
    apart = np.hypot((found_lon - lon) * np.cos(np.radians(lat)), found_lat - lat) * 60.0 * NM_M
    with np.errstate(invalid="ignore"):
        return (apart <= ALLOWED_M).all(axis=1)


def _value(degree: int, c: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Longitude and latitude (2, N, P): each power of y has a polynomial of x, both by Horner's rule."""
    shape = np.broadcast_shapes(c[0].shape, x.shape)
    out, last = None, len(c)
    for j in range(degree, -1, -1):
        first = last - (degree + 1 - j)
        inner = _horner(c[first:last], x, shape)
        if out is None:
            out = inner
        else:
            out *= y
            out += inner
        last = first
    return out


def _horner(c: np.ndarray, x: np.ndarray, shape: tuple) -> np.ndarray:
    """A polynomial of x, in place: most of the time would go into new arrays."""
    out = np.empty(shape)
    out[...] = c[-1]
    for of_power in c[-2::-1]:
        out *= x
        out += of_power
    return out
