"""The still-air racetrack of many holds at once, as rings and as single legs.

Vertices lie on the true curve (inscribed). Arcs are cut by the chord tolerance; straight legs too, since a
layer in degrees draws the chord in longitude and latitude. Holds that need the same number of chords share one
base shape: u = cL * L + cr * r, s = cs * r, so that a batch is a few outer products and one geodesic call.
"""

from __future__ import annotations

import numpy as np

from . import geodesy


def _straight(n: int, start: float, end: float, across: float) -> np.ndarray:
    """Base rows (cL, cr, cs) of a straight leg of n pieces from start * L to end * L, across * r out."""
    along = np.linspace(start, end, n + 1)
    return np.stack([along, np.zeros(n + 1), np.full(n + 1, across)], axis=1)


def _half_circle(n: int, at_outbound_end: bool) -> np.ndarray:
    """Base rows of a half circle of n chords: the turn at the fix, or the one at the outbound end."""
    chi = np.pi * np.arange(n + 1) / n
    sine, cosine = np.sin(chi), np.cos(chi)
    sine[-1], cosine[-1] = 0.0, -1.0
    if at_outbound_end:
        return np.stack([np.full(n + 1, -1.0), -sine, 1.0 + cosine], axis=1)
    return np.stack([np.zeros(n + 1), sine, 1.0 - cosine], axis=1)


def _base_legs(n_arc: int, n_leg: int) -> list[np.ndarray]:
    return [
        _half_circle(n_arc, False),
        _straight(n_leg, 0.0, -1.0, 2.0),
        _half_circle(n_arc, True),
        _straight(n_leg, -1.0, 0.0, 0.0),
    ]


def _base_ring(n_arc: int, n_leg: int) -> np.ndarray:
    legs = _base_legs(n_arc, n_leg)
    return np.concatenate([legs[0][:1]] + [leg[1:] for leg in legs])


def _counts(lat, radius_nm, straight_nm, tolerance_m: float) -> tuple[np.ndarray, np.ndarray]:
    reach = np.abs(lat) + (straight_nm + 2.0 * radius_nm) / 60.0
    piece = geodesy.longest_piece_nm(reach, tolerance_m)
    n_arc = geodesy.chord_count(np.pi, radius_nm, tolerance_m)
    # an arc's chord strays in longitude and latitude too, by its share of what the longest piece would
    share = (np.pi * radius_nm / n_arc / piece) ** 2
    n_arc = np.ceil(n_arc / np.sqrt(np.maximum(1.0 - share, 0.25)) - 1e-9).astype(np.int64)
    return n_arc, np.maximum(1, np.ceil(straight_nm / piece - 1e-9)).astype(np.int64)


def _build(lon, lat, inbound_true_deg, side, radius_nm, straight_nm, tolerance_m, base_of):
    """Coordinates of every row's shape: base_of(n_arc, n_leg) gives (base rows, lengths of its parts)."""
    lon, lat, inbound, side, radius, straight = np.broadcast_arrays(
        *[np.atleast_1d(np.asarray(a, float)) for a in (lon, lat, inbound_true_deg, side, radius_nm, straight_nm)]
    )
    if not all(np.isfinite(a).all() for a in (lon, lat, inbound, side, radius, straight)):
        raise ValueError("a racetrack needs finite places, courses, radii and lengths; leave failed rows out")
    if (radius <= 0.0).any() or (straight < 0.0).any():
        raise ValueError("a racetrack needs a positive radius and a length that is not negative")
    n_arc, n_leg = _counts(lat, radius, straight, tolerance_m)
    key = n_arc * 100_000 + n_leg
    groups = []
    size = np.zeros(len(lon), dtype=np.int64)
    part_sizes = None
    for value in np.unique(key):
        rows = np.flatnonzero(key == value)
        base, parts = base_of(int(n_arc[rows[0]]), int(n_leg[rows[0]]))
        if part_sizes is None:
            part_sizes = np.zeros((len(lon), len(parts)), dtype=np.int64)
        size[rows] = len(base)
        part_sizes[rows] = parts
        groups.append((rows, base))
    starts = np.concatenate([[0], np.cumsum(size)])
    owner = np.repeat(np.arange(len(lon)), size)
    u, s = np.empty(starts[-1]), np.empty(starts[-1])
    for rows, base in groups:
        index = starts[rows, None] + np.arange(len(base))
        u[index] = straight[rows, None] * base[:, 0] + radius[rows, None] * base[:, 1]
        s[index] = radius[rows, None] * base[:, 2]
    out_lon, out_lat = geodesy.place(lon[owner], lat[owner], inbound[owner], side[owner], u, s)
    offsets = np.concatenate([[0], np.cumsum(part_sizes.ravel() if part_sizes is not None else [])]).astype(np.int64)
    return np.stack([out_lon, out_lat], axis=1), offsets


def rings(
    lon, lat, inbound_true_deg, side, radius_nm, straight_nm, tolerance_m: float = 5.0
) -> tuple[np.ndarray, np.ndarray]:
    """Closed rings of racetracks, starting at the fix in the direction of flight.

    Parameters: lon, lat of N fixes; inbound_true_deg; side +1 right, -1 left; radius_nm; straight_nm, length
    of the straight legs; tolerance_m > 0. All finite; they broadcast. Returns: coords (T, 2) of lon
    (unwrapped to the fix) and lat; offsets (N + 1,), ring i being coords[offsets[i]:offsets[i + 1]].
    Errors: ValueError for a value that is not finite or a tolerance that is not positive.
    Source: racetrack of FAA AIM 5-3-8 and ICAO Doc 8168 Vol I, I-6-1; frame derived here, see DEVELOPERS.md.
    """

    def base(n_arc, n_leg):
        ring = _base_ring(n_arc, n_leg)
        return ring, [len(ring)]

    return _build(lon, lat, inbound_true_deg, side, radius_nm, straight_nm, tolerance_m, base)


def legs(
    lon, lat, inbound_true_deg, side, radius_nm, straight_nm, tolerance_m: float = 5.0
) -> tuple[np.ndarray, np.ndarray]:
    """The four legs of racetracks in the order flown: turn out, outbound, turn in, inbound.

    Parameters as rings. Returns: coords (T, 2); offsets (4N + 1,), hold by hold.
    """

    def base(n_arc, n_leg):
        parts = _base_legs(n_arc, n_leg)
        return np.concatenate(parts), [len(part) for part in parts]

    return _build(lon, lat, inbound_true_deg, side, radius_nm, straight_nm, tolerance_m, base)
