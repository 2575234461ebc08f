"""The hull of families of flights, by its support function: only what may be farthest is computed.

Between two directions a support function is at most what the crossing of the two support lines gives, and at least
what the two touching places give. The first bounds each family, the second their hull, so that most families need not
be looked at between the directions of a first grid. The same two bounds tell where more directions are needed.
"""

from __future__ import annotations

import numpy as np

from . import envelope_abeam
from .envelope_reach import TURN, farthest
from .envelope_states import Families

GRID_STEP = np.radians(8.0)
GRID = np.arange(0.0, TURN - GRID_STEP / 2.0, GRID_STEP)
MOST_ROUNDS = 30
CLOSE = 0.02
"""Part of a family's size by which the cloud of envelope_abeam may fall short of the farthest place."""
CLOSER = 0.001
"""The same after one round of improvement."""
MARGIN_NM = 2e-6
"""Added to reach that was found by improving a start; see the tests for how near that comes."""


class Hull:
    """The hull of families of N designs."""

    def __init__(self, flights: Families, count: int):
        """Parameters: flights, M families, those of one design together; count, N."""
        self.flights, self.count = flights, count
        self.first = np.searchsorted(flights.design, np.arange(count))
        self.families = np.searchsorted(flights.design, np.arange(count), side="right") - self.first
        f = flights
        self.abeam = f.abeam
        self.cloud = envelope_abeam.cloud(f.take(f.abeam))
        self.cloud_of = np.cumsum(self.abeam) - 1
        self.size = (f.v + f.wind) * (f.start_s[:, 1] + f.clock_s[:, 1]) + f.v / f.omega

    def reach(self, alpha) -> np.ndarray:
        """Complex reach (N, D) in directions (N, D); see envelope_reach. All families are looked at."""
        row = np.repeat(np.arange(self.count), alpha.shape[1])
        found = self._at(row, alpha.ravel(), None)[0].reshape(alpha.shape)
        return np.array([_with_all_places(*one) for one in zip(alpha, found)]).reshape(alpha.shape)

    def refined(self, more, tolerance: float) -> list[tuple[np.ndarray, np.ndarray]]:
        """Directions and reach (D,) of each design, fine enough that the crossing of two neighbouring support lines is
        less than a tolerance outside the chord of the places that touch them.

        Parameters: more, N arrays of directions wanted besides; tolerance, NM.
        """
        row = np.repeat(np.arange(self.count), len(GRID))
        alpha = np.tile(GRID, self.count)
        reach, rolled, late = self._at(row, alpha, None)
        bounds = self._bounds(reach, rolled, late)
        known = [(GRID, part) for part in reach.reshape(self.count, -1)]
        more = [
            np.setdiff1d(np.concatenate([given, _between(*one, tolerance)]), one[0]) for given, one in zip(more, known)
        ]
        for _ in range(MOST_ROUNDS):
            row, alpha = np.repeat(np.arange(self.count), [len(a) for a in more]), np.concatenate(more)
            if not len(row):
                break
            reach, _, _ = self._at(row, alpha, bounds)
            parts = np.split(reach, np.cumsum([len(a) for a in more])[:-1])
            for n in np.unique(row):
                angles, places = (np.concatenate(pair) for pair in zip(known[n], (more[n], parts[n])))
                order = np.argsort(angles)
                known[n] = angles[order], places[order]
                more[n] = np.setdiff1d(_between(*known[n], tolerance), angles)
        return [(alpha, _with_all_places(alpha, reach).real) for alpha, reach in known]

    def _bounds(self, reach, rolled, late):
        shape = (len(self.flights.v), len(GRID))
        return reach.reshape(self.count, -1) * np.exp(1j * GRID), rolled.reshape(shape), late.reshape(shape)

    def _at(self, row, alpha, bounds):
        """Reach (P,) of designs row (P,) in directions alpha (P,); and what each of their families reaches at most,
        timed from roll-out and from abeam, family by family.

        bounds: what the grid gave, see _bounds; None where nothing is known and all families are looked at.
        """
        f = self.flights
        most = int(self.families.max(initial=0))
        reach = np.zeros(len(row), dtype=np.complex128)
        # One pair for each family of each direction.
        pair = np.tile(np.arange(len(row)), most)
        nth = np.repeat(np.arange(most), len(row))
        there = nth < self.families[row[pair]]
        pair, nth = pair[there], nth[there]
        which = self.first[row[pair]] + nth
        order = np.argsort(which, kind="stable")
        pair, which = pair[order], which[order]
        timed = np.ones((2, len(pair)), dtype=bool)
        timed[1] = self.abeam[which]
        if bounds is not None:
            timed &= self._may_be_farthest(row, alpha, bounds, pair, which)
        rolled, late = np.full((2, len(pair)), -np.inf)
        chosen = np.flatnonzero(timed[0])
        value = farthest(f.take(which[chosen]), alpha[pair[chosen]])
        rolled[chosen] = value.real
        _raise(reach, pair[chosen], value)
        chosen = np.flatnonzero(timed[1])
        late[chosen] = self._from_abeam(which[chosen], alpha[pair[chosen]], pair[chosen], reach)
        return reach, rolled, late

    def _may_be_farthest(self, row, alpha, bounds, pair, which) -> np.ndarray:
        """Whether a family may reach farther than the touching places of the grid on either side, (2, pairs)."""
        touch, rolled, late = bounds
        left = np.minimum((alpha / GRID_STEP).astype(np.int64), len(GRID) - 1)
        right = (left + 1) % len(GRID)
        out = np.exp(-1j * alpha)
        least = np.fmax((touch[row, left] * out).real, (touch[row, right] * out).real)[pair]
        after = alpha - GRID[left]
        one = (np.sin(GRID_STEP - after) / np.sin(GRID_STEP))[pair]
        other = (np.sin(after) / np.sin(GRID_STEP))[pair]
        left, right = left[pair], right[pair]
        with np.errstate(invalid="ignore"):
            return np.stack([one * u[which, left] + other * u[which, right] >= least - 1e-9 for u in (rolled, late)])

    def _from_abeam(self, which, alpha, pair, reach) -> np.ndarray:
        """Raises reach by flights timed from abeam where they reach farther; returns what theirs is at most."""
        if not len(which):
            return np.zeros(0)
        late, flights = self.cloud_of[which], self.flights
        rough, wind_i = envelope_abeam.roughly(flights.take(self.abeam), self.cloud, late, alpha)
        most = rough.max(axis=(0, 2))
        short = CLOSE * self.size[which]
        j, p, c = np.nonzero(rough > (np.fmax(reach[pair].real, most) - short)[:, None])
        goal = self.cloud.goal[late[p], c // envelope_abeam.KINDS]
        start = self.cloud.phi[wind_i[j, p, c]], goal, c % envelope_abeam.KINDS
        value, phi, goal = envelope_abeam.improved(flights.take(which[p]), alpha[p], *start, 0, 1)
        known = reach.copy()
        _raise(known, pair[p], value)
        near = np.flatnonzero(value.real > known[pair[p]].real - CLOSER * self.size[which[p]])
        p = p[near]
        start = phi[near], goal[near], start[2][near]
        value, _, _ = envelope_abeam.improved(flights.take(which[p]), alpha[p], *start, 1)
        _raise(reach, pair[p], value + MARGIN_NM)
        return most + short


def _with_all_places(alpha, reach) -> np.ndarray:
    """Complex reach in directions of one design, none of them short of a place that another direction has found.

    Where the farthest flight changes from one kind to another, the search of a direction may keep to the wrong one.
    """
    places = reach * np.exp(1j * alpha)
    out = reach.copy()
    for some in np.array_split(np.arange(len(alpha)), max(1, len(alpha) // 256)):
        seen = places * np.exp(-1j * alpha[some, None])
        best = np.argmax(seen.real, axis=1)
        out[some] = seen[np.arange(len(some)), best]
    return out


def _raise(reach, pair, value) -> None:
    """Puts values in the place of smaller ones, several of which may go to one place."""
    order = np.argsort(value.real, kind="stable")
    pair, value = pair[order], value[order]
    higher = value.real > reach[pair].real
    reach[pair[higher]] = value[higher]  # the last of several to one place, the greatest, stays


def crossings(alpha, reach) -> np.ndarray:
    """Where each support line crosses the next, as complex places (D,).

    Parameters: alpha (D,), radians ascending in [0, 2 pi), closer than half a turn apart; reach (D,).
    """
    width = np.diff(alpha, append=alpha[0] + TURN)
    return np.exp(1j * alpha) * (reach + 1j * (np.roll(reach, -1) - reach * np.cos(width)) / np.sin(width))


def _between(alpha, reach, tolerance) -> np.ndarray:
    """Directions between neighbours whose support lines cross too far outside the chord of their touching places.

    The one square to the chord: it finds a straight edge at once, and halves a smooth one.
    """
    touch = reach * np.exp(1j * alpha)
    width = np.diff(alpha, append=alpha[0] + TURN)
    corner = crossings(alpha, reach.real)
    chord = np.roll(touch, -1) - touch
    length = np.abs(chord)
    with np.errstate(invalid="ignore", divide="ignore"):
        gap = ((corner - touch) * np.conj(-1j * chord / length)).real
        turn = np.mod(np.angle(-1j * chord) - alpha, TURN)
    turn = np.where((turn > 1e-9) & (turn < width - 1e-9), turn, width / 2.0)
    wanted = (length > 1e-9) & (gap > tolerance) & (width > 1e-7)
    return np.mod((alpha + turn)[wanted], TURN)
