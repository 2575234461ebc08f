"""The angle at which two lines of position cut, and the least that will do."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import navaids
from ..flight import FAA, RULES
from ..sources import FROM_MEMORY


class LeastCut(NamedTuple):
    """Least angle between two lines of position; more by per_nm degrees for each NM of the crossing aid beyond."""

    deg: float
    beyond_nm: float
    per_nm: float
    mark: str
    source: str


_I2 = "ICAO Doc 8168 Vol II, Part I, Section 2, Chapter 2"
_287 = "FAA Order 8260.3B para 287 b"
LEAST_CUTS = {
    ("icao", "radials"): LeastCut(30.0, np.inf, 0.0, FROM_MEMORY, _I2),
    ("icao", "ndb"): LeastCut(45.0, np.inf, 0.0, FROM_MEMORY, _I2),
    ("icao", "radial and arc"): LeastCut(67.0, np.inf, 0.0, FROM_MEMORY, _I2 + ": line to the DME within 23 degrees"),
    ("faa", "radials"): LeastCut(45.0, 45.0, 0.5, FROM_MEMORY, _287),
    ("faa", "ndb"): LeastCut(45.0, 30.0, 1.0, FROM_MEMORY, _287),
    ("faa", "radial and arc"): LeastCut(67.0, np.inf, 0.0, FROM_MEMORY, "FAA Order 8260.3B, DME within 23 degrees"),
}
"""'ndb' holds where either aid (icao) or the crossing aid (faa) is an NDB. None is known for two arcs."""


class Cut(NamedTuple):
    """Cut angles of N pairs with a second line of position; deg NaN where there is none.

    other_kind, kind of the other station, which counts as the crossing one; other_nm, its distance; other_arc,
    true where the other line is a DME arc.
    """

    deg: np.ndarray
    other_kind: np.ndarray
    other_nm: np.ndarray
    other_arc: np.ndarray


def least_cut_deg(first_kind, second_kind, second_nm, rules, *, first_arc=False, second_arc=False) -> np.ndarray:
    """Least cut angle of two lines of position; the second aid counts as the crossing one.

    Parameters: kinds of navaids.KINDS; second_nm, distance of the second aid from the fix (NaN: not counted);
    rules, codes of RULES; first_arc, second_arc, true where that line is a DME arc. They broadcast.
    Returns: degrees between the lines, NaN for two arcs, for which no rule is known. Source: LEAST_CUTS.

    >>> float(least_cut_deg("VOR", "VOR", 20.0, 0)), float(least_cut_deg("VOR", "NDB", 34.0, 1))
    (30.0, 49.0)
    """
    keys, dist = cut_keys(first_kind, second_kind, second_nm, rules, first_arc, second_arc)
    out = np.full(keys.shape, np.nan)
    for name, rule in LEAST_CUTS.items():
        rows = keys == "/".join(name)
        beyond = np.nan_to_num(np.maximum(dist[rows] - rule.beyond_nm, 0.0), nan=0.0, posinf=0.0)
        out[rows] = rule.deg + rule.per_nm * beyond
    return out


def cut_keys(first_kind, second_kind, second_nm, rules, first_arc, second_arc) -> tuple[np.ndarray, np.ndarray]:
    """Keys of LEAST_CUTS joined by a slash, or those of two arcs, which have no rule; and the distances, broadcast."""
    one, two = (navaids.gives_bearings(kind) for kind in (first_kind, second_kind))
    one, two, dist, rules, arc1, arc2 = np.broadcast_arrays(
        one, two, np.asarray(second_nm, float), rules, np.asarray(first_arc, bool), np.asarray(second_arc, bool)
    )
    beacon = np.where(rules == FAA, two, one | two)
    lines = np.where(arc1 & arc2, "arcs", np.where(arc1 | arc2, "radial and arc", np.where(beacon, "ndb", "radials")))
    return np.char.add(np.char.add(np.array(RULES)[rules], "/"), lines), dist
