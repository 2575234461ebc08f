"""The envelope: the smallest convex area that no flight inside the tolerances can leave, up to a tolerance.

Each flight meets the fix somewhere in its tolerance area and then flies in one wind of any direction, with every
tolerance of envelope_states anywhere between its limits. The envelope is the hull of flights timed from roll-out and of
those timed from abeam the fix, summed with the hull of the fix tolerance area: its support function is the greatest
reach of a flight in each direction plus that of the tolerance area. No document defines it; derived here, see
DEVELOPERS.md.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import convex
from ..units import NM_M
from .envelope_hull import Hull, crossings
from .envelope_states import CIRCUIT, HEADING_DEG, MANOEUVRE_CODES, families

STRONGEST_WIND = 0.85
"""Wind over TAS above which no envelope is made: against it a clock from abeam may run for many minutes; our choice."""
CLOCKS = ("roll-out", "abeam")
DESIGNS_AT_A_TIME = 50
GAP_SHARE = 0.48
"""Part of the tolerance by which the polygon of all support lines may exceed the envelope; see outline for the rest."""


class Envelope(NamedTuple):
    """Support function of one area: alpha (D,) radians ascending in [0, 2 pi), closer than 10 degrees apart; reach
    (D,), NM. One direction and NaN where the wind is too strong for the speed."""

    alpha: np.ndarray
    reach: np.ndarray


def too_strong(tas_kt, wind_kt) -> np.ndarray:
    """Whether the wind is too strong, or a value not finite, for an envelope. Parameters broadcast; kt."""
    with np.errstate(invalid="ignore"):
        return ~(np.asarray(wind_kt, float) <= STRONGEST_WIND * np.asarray(tas_kt, float))


def support(
    tas_kt, rate_dps, wind_kt, outbound_s, manoeuvres, alpha_rad, *, arrivals_deg=None, clocks=CLOCKS
) -> tuple[np.ndarray, np.ndarray]:
    """How far flights from the point of the fix reach in given directions.

    Parameters: tas_kt, rate_dps, wind_kt, outbound_s (N,), positive; outbound_s is still-air time, of a leg that ends
    at a distance the time it takes at tas_kt; manoeuvres, codes of envelope_states.MANOEUVRES; alpha_rad (D,) or
    (N, D), from the inbound course towards the holding side; arrivals_deg as envelope_states.families; clocks, from
    where the outbound time counts. Returns: reach (N, D), NM, 0 where nothing is protected; how far to the left of
    each direction (towards larger angles) the place lies that gives it (N, D), NM. NaN for a row that is too_strong.
    Errors: ValueError for clocks that are not of CLOCKS. Source: tolerances and rules, see envelope_states.

    >>> reach, _ = support([263.08], [1.9357], [67.0], [60.0], [0], np.radians([0.0, 90.0]))
    >>> [round(float(h), 2) for h in reach[0]]
    [4.11, 8.77]
    """
    if not set(clocks) <= set(CLOCKS) or "roll-out" not in clocks:
        raise ValueError(f"clocks is {clocks}; it must be of {CLOCKS}, roll-out among them")
    columns = [np.atleast_1d(np.asarray(a, dtype=np.float64)) for a in (tas_kt, rate_dps, wind_kt, outbound_s)]
    tas, rate, wind, outbound = np.broadcast_arrays(*columns)
    alpha = np.broadcast_to(np.asarray(alpha_rad, dtype=np.float64), (len(tas), np.shape(alpha_rad)[-1]))
    out = np.full(alpha.shape, np.nan + 0j)
    rows = np.flatnonzero(_good(tas, rate, wind, outbound))
    for at in range(0, len(rows), DESIGNS_AT_A_TIME):
        some = rows[at : at + DESIGNS_AT_A_TIME]
        wanted = None if arrivals_deg is None else [arrivals_deg[n] for n in some]
        flights = families(tas[some], rate[some], wind[some], outbound[some], manoeuvres, wanted, "abeam" in clocks)
        out[some] = Hull(flights, len(some)).reach(alpha[some])
    return out.real, out.imag


def envelopes(
    tas_kt, rate_dps, wind_kt, outbound_s, manoeuvres, tolerance_m: float, *, tolerance_areas_nm=None, arrivals_deg=None
) -> list[Envelope]:
    """Envelopes of N designs over their fix tolerance areas, for outline.

    Directions are added until the polygon of all support lines exceeds the hull of the places that touch them by less
    than GAP_SHARE of the tolerance.
    Parameters: as support, (N,) each; tolerance_m > 0; tolerance_areas_nm, N arrays (V, 2), corners in the frame, None
    for points. Returns: N Envelopes. Errors: ValueError for a tolerance that is not positive. Equal designs share one
    computation.
    """
    if not (np.isfinite(tolerance_m) and tolerance_m > 0.0):
        raise ValueError(f"tolerance_m is {tolerance_m}; it must be a positive number of metres")
    columns = [np.atleast_1d(np.asarray(a, dtype=np.float64)) for a in (tas_kt, rate_dps, wind_kt, outbound_s)]
    tas, rate, wind, outbound = np.broadcast_arrays(*columns)
    corners = [np.zeros((1, 2))] * len(tas) if tolerance_areas_nm is None else tolerance_areas_nm
    corners = [np.asarray(c, dtype=np.float64).reshape(-1, 2) for c in corners]
    arrivals = [None] * len(tas) if arrivals_deg is None else arrivals_deg
    arrivals = [None if a is None else np.asarray(a, dtype=np.float64).reshape(-1, 2) for a in arrivals]
    keys = [
        (*one, corner.tobytes(), None if wanted is None else wanted.tobytes())
        for *one, corner, wanted in zip(tas, rate, wind, outbound, corners, arrivals)
    ]
    good = _good(tas, rate, wind, outbound)
    first: dict[tuple, int] = {}
    for n in np.flatnonzero(good):
        first.setdefault(keys[n], int(n))
    made: dict[tuple, Envelope] = {}
    rows = list(first.values())
    for at in range(0, len(rows), DESIGNS_AT_A_TIME):
        some = rows[at : at + DESIGNS_AT_A_TIME]
        flights = families(tas[some], rate[some], wind[some], outbound[some], manoeuvres, [arrivals[n] for n in some])
        edges = [convex.edge_normals_of_polygon(corners[n]) for n in some]
        found = Hull(flights, len(some)).refined(edges, GAP_SHARE * tolerance_m / NM_M)
        for n, (alpha, reach) in zip(some, found):
            made[keys[n]] = Envelope(alpha, reach + convex.support_of_points(alpha, corners[n]))
    nothing = Envelope(np.zeros(1), np.full(1, np.nan))
    return [made[key] if good[n] else nothing for n, key in enumerate(keys)]


def outline(envelope: Envelope, tolerance_m: float) -> np.ndarray:
    """Frame ring that contains an envelope and, once placed by placing.place_rings, exceeds it by no more than the
    tolerance that it was made for.

    All support lines, a quarter of the tolerance farther out, so that chords in longitude and latitude stay outside
    the area; another quarter is for how far those go out. Parameters: an Envelope with finite reach; tolerance_m.
    Returns: (D, 2), NM, counter-clockwise.
    """
    return crossings_nm(envelope._replace(reach=envelope.reach + tolerance_m / NM_M / 4.0))


def crossings_nm(envelope: Envelope) -> np.ndarray:
    """Where each support line of an envelope crosses the next: (D, 2), NM, in the frame, counter-clockwise."""
    corner = crossings(envelope.alpha, envelope.reach)
    return np.stack([corner.real, corner.imag], axis=1)


def hold_envelopes(
    tas_kt, rate_dps, wind_kt, outbound_s, tolerance_m: float, *, tolerance_areas_nm=None, arrivals_deg=None
) -> list[tuple[Envelope, Envelope]]:
    """For each of N designs the envelope of its circuit, and that of circuit and entries.

    Parameters: as envelopes, but arrivals_deg, N arrays of headings at the fix less the inbound course, in the frame:
    the arrivals to protect, each flown within the heading tolerance; None for arrivals from everywhere, an empty one
    for none.
    """
    n = len(np.atleast_1d(tas_kt))
    given = [None] * n if arrivals_deg is None else list(arrivals_deg)
    spread = np.array([-HEADING_DEG, HEADING_DEG])
    intervals = [None if a is None else np.asarray(a, dtype=np.float64).reshape(-1, 1) + spread for a in given]
    where = dict(tolerance_areas_nm=tolerance_areas_nm)
    circuits = envelopes(tas_kt, rate_dps, wind_kt, outbound_s, (CIRCUIT,), tolerance_m, **where)
    both = envelopes(
        tas_kt, rate_dps, wind_kt, outbound_s, MANOEUVRE_CODES, tolerance_m, arrivals_deg=intervals, **where
    )
    return list(zip(circuits, both))


def _good(tas, rate, wind, outbound) -> np.ndarray:
    return ~too_strong(tas, wind) & np.isfinite(rate) & np.isfinite(outbound)
