"""Proposals for holds: from navaids, whole radials and distances about a home to the best that pass every test, as
rows of a plan."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

import numpy as np

from .. import geodesy, navaids
from ..coverage import checks
from ..search import CHOSEN, NEAR, NOT_NEEDED, STOPPED
from .candidates import Surroundings
from .chain import build
from .directory import Directory
from .proposals import plan_columns
from .shortlist import Shortlist, TooManyPlaces, Wishes

__all__ = ["FATES", "Found", "TooManyPlaces", "Wishes", "find", "nothing_found", "untested", "usable_navaids"]

FATES = {
    "home": "the fix lies farther from home than the radius",
    "fix": "the navaid gives no such fix, or no hold can be made there",
    "area": "no area can be made for the hold",
    "speed": "the speed is too fast for the rules",
    "area_speed": "the area is made for less than is flown",
    "leg_time": "the leg is too short for the level",
    **{name: f"reception, {name.replace('_', ' ')}: it fails or cannot be tested" for name in checks.TESTS},
    "terrain_unknown": "terrain, or the top of an obstacle, is not known everywhere about the area",
    "minimum_altitude": "the lowest altitude is below the minimum over terrain and obstacles",
    "airspace": "the area comes too near airspace at the levels flown",
    "airspace_track": "the flown track comes too near airspace at the levels flown",
    NEAR: "passes the cheap tests, but lies too near a better one, or overlaps its area",
    NOT_NEEDED: "scores less than those proposed",
    STOPPED: "not looked at any more: stopped",
    CHOSEN: "proposed",
}
"""What may become of a place, in the order of the counts."""


class Found(NamedTuple):
    """plan, columns of the proposals, the best first; holds, columns of the holds layer that they give; counts,
    columns: test, candidates, text; looked_at, how many candidates there were; notes, sentences."""

    plan: dict[str, np.ndarray]
    holds: dict[str, np.ndarray]
    counts: dict[str, np.ndarray]
    looked_at: int
    notes: list[str]


def find(
    wishes: Wishes, table: Mapping[str, np.ndarray], around: Surroundings, *, var_date: str, year: float,
    go_on: Callable[[float], bool],
) -> Found:  # fmt: skip
    """The holds that pass every test of a built area, thinned, ranked by their margins.

    Parameters: wishes; table, columns of the navaids layer; around, what they are tested against; var_date, year of
    the magnetic variation; go_on(share), told how much is done, false to stop. Returns: Found.
    Errors: TooManyPlaces; ValueError for a year outside the magnetic model, and as of search.places. Source: the
    tests' own; score and thinning as in search.
    """
    rows, keys, notes = usable_navaids(table, wishes)
    mine = {name: np.asarray(values)[rows] for name, values in table.items()}
    looked = Shortlist(wishes, mine, keys, year, var_date)
    notes += untested(around)
    picks = looked.pick(around, go_on)
    chosen = picks.chosen
    plan = plan_columns(looked, chosen)
    built = build(plan, dict(table), var_date=var_date, year=year)
    notes += [f"{plan['exercise'][k]}: {built.reasons[k]}" for k in np.flatnonzero(built.reasons != "")]
    counts = _counts(np.concatenate([picks.fate, np.full(looked.beyond, "home", dtype=object)]))
    return Found(plan, built.holds, counts, len(picks.fate) + looked.beyond, notes + looked.notes)


def nothing_found(found: Found) -> str:
    """The sentence for a search without a proposal."""
    if not found.looked_at:
        return "No navaid within reach of home gives a radial and a distance, so there is no place to look at."
    order = np.argsort(-found.counts["candidates"], kind="stable")[:2]
    why = "; ".join(f"of {found.counts['candidates'][k]} {found.counts['text'][k]}" for k in order)
    return f"No hold passes every test: {found.looked_at} places were looked at; {why}."


def usable_navaids(table: Mapping[str, np.ndarray], wishes: Wishes) -> tuple[np.ndarray, list, list[str]]:
    """Navaids that give radials or bearings and a distance within reach of home, each told apart from all others by
    its ident, kind or id; their kinds and ids, as a plan needs them; and sentences on those left out."""
    kind = np.asarray(table["kind"], dtype=object)
    gives = (navaids.gives_radials(kind) | navaids.gives_bearings(kind)) & navaids.gives_range(kind)
    gives &= ~np.isin(kind, navaids.LOCALIZERS) & (kind != "")
    away = geodesy.inverse(*wishes.home, table["lon"], table["lat"])[2]
    with np.errstate(invalid="ignore"):
        near = away <= wishes.radius_nm + wishes.to_nm
    directory = Directory(dict(table))
    rows, keys, unclear = [], [], []
    for i in np.flatnonzero(near & gives):
        key = _key(directory, i)
        if key is None:
            unclear.append(str(table["ident"][i]) or "one without an ident")
        else:
            rows.append(i)
            keys.append(key)
    notes = []
    if (near & ~gives).any():
        notes.append(f"{(near & ~gives).sum()} navaids within reach give no radial and distance together: left out")
    if unclear:
        who = ", ".join(sorted(set(unclear)))
        notes.append(f"navaids that ident, kind and id do not tell apart are left out: {who}")
    return np.array(rows, dtype=np.int64), keys, notes


def _key(directory: Directory, i: int) -> tuple[str, str] | None:
    """Kind and id by which a plan finds a navaid; None where nothing does."""
    ident, kind, key = directory.ident[i], directory.kind[i], directory.id[i]
    for words in ((kind, ""), (kind, key)):
        if ident and directory.find(ident, *words)[0] == i:
            return words
    return None


def untested(around: Surroundings) -> list[str]:
    """Sentences on what nothing was given for."""
    out = []
    if around.grid is None:
        out.append("terrain was not tested, neither under the area nor between station and fix: no DEM was given")
    if around.obstacles is None:
        out.append("obstacles were not tested: no OBSTACLES were given")
    if around.spaces is None:
        out.append("airspace was not tested: none of AIRSPACE, ROUTES and PLACES was given")
    return out


def _counts(fate: np.ndarray) -> dict[str, np.ndarray]:
    """Columns of the counts: how many candidates each test left out, and what became of the others."""
    tests = [name for name in FATES if (fate == name).any()]
    text = np.empty(len(tests), dtype=object)
    text[:] = [FATES[name] for name in tests]
    return {
        "test": np.array(tests, dtype=object),
        "candidates": np.array([(fate == name).sum() for name in tests], dtype=np.int64),
        "text": text,
    }
