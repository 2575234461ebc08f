"""What exercises say of each other: rows of pairs, of levels that cannot be used, and of tests, in sentences."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import separation
from ..meetings import RELATIONS
from ..separation import AIRSPACE, EXERCISE, Bands, Pairs
from ..text import format_altitude, format_nm

LOWEST_SOURCE = "Minimum altitudes, airspace and exercises as the layers of this run give them; derived here"


class Exercises(NamedTuple):
    """N exercises: keys, fixes ('' where not known), levels (NaN where not known), minimum altitudes (NaN likewise)."""

    keys: np.ndarray
    fix: np.ndarray
    low_ft: np.ndarray
    high_ft: np.ndarray
    minimum_ft: np.ndarray


def pair_rows(of: Exercises, found: Pairs, overlap_nm2, *, separation_ft: float, step_ft: float) -> dict:
    """Columns of the layer of pairs. Parameters: of; found, of separation.pairs; overlap_nm2 (K,); separation_ft;
    step_ft, of the levels that free them. Returns: columns, K rows."""
    i, j = found.first, found.second
    free = _free(of, found, separation_ft, step_ft)
    return {
        "hold": of.keys[i],
        "hold_2": of.keys[j],
        "ok": np.where(found.ok < 0, None, found.ok.astype(object)),
        "relation": np.array(RELATIONS, dtype=object)[found.relation],
        "distance_nm": found.distance_nm,
        "overlap_nm2": np.asarray(overlap_nm2, dtype=np.float64),
        "alt_ft": of.low_ft[i],
        "alt_to_ft": of.high_ft[i],
        "alt_2_ft": of.low_ft[j],
        "alt_to_2_ft": of.high_ft[j],
        "distance_ft": found.gap_ft,
        "free_ft": free[0],
        "free_2_ft": free[1],
        "text": _objects([_pair(of, found, k, separation_ft, free[:, k]) for k in range(len(i))]),
    }


def separation_test_rows(of: Exercises, found: Pairs, *, separation_ft: float, step_ft: float, unsure=None) -> dict:
    """Columns of the tests layer, a row an exercise: whether its levels separate it from all whose areas overlap.

    Parameters: as pair_rows; unsure (N,), '' or why an exercise is not wholly known. Returns: columns.
    """
    n = len(of.keys)
    unsure = np.full(n, "", dtype=object) if unsure is None else np.asarray(unsure, dtype=object)
    bands = separation.pair_bands(found, of.low_ft, of.high_ft, separation_ft)
    free = separation.lowest_levels(of.low_ft, bands, step_ft=step_ft)
    ok, value, text = [], [], []
    for i in range(n):
        mine = np.flatnonzero((found.first == i) | (found.second == i))
        gaps, states = found.gap_ft[mine], found.ok[mine]
        if (states == 0).any():
            ok.append(0)
        else:
            ok.append(None if unsure[i] or (states < 0).any() else 1)
        value.append(np.nanmin(gaps) if np.isfinite(gaps).any() else np.nan)
        text.append(_separated(of, found, i, mine, free[i], separation_ft, unsure[i]))
    return _tests(of.keys, "separation", ok, value, np.full(n, separation_ft), separation.SEPARATION_SOURCE, text)


def level_rows(of: Exercises, bands: Bands, lowest_ft, names) -> dict:
    """Columns of the layer of levels that cannot be used, exercise by exercise, from below.

    Parameters: of; bands, all of them; lowest_ft (N,), of lowest_rows; names, index of an airspace to its name.
    Returns: columns.
    """
    order = np.lexsort((bands.to_ft, bands.from_ft, bands.row))
    row = bands.row[order]
    return {
        "hold": of.keys[row],
        "fix": of.fix[row],
        "from_ft": bands.from_ft[order],
        "to_ft": bands.to_ft[order],
        "cause": bands.cause[order],
        "who": _objects([_who(of, bands, k, names) for k in order]),
        "lowest_ft": np.asarray(lowest_ft)[row],
        "text": _objects([_band(of, bands, k, names) for k in order]),
    }


def all_bands(of: Exercises, found: Pairs, contacts: Bands, separation_ft: float) -> Bands:
    """Every band of every exercise: minimum altitudes, airspace, other exercises."""
    known = np.flatnonzero(np.isfinite(of.minimum_ft))
    return separation.joined(
        [
            separation.minimum_bands(known, of.minimum_ft[known]),
            contacts,
            separation.pair_bands(found, of.low_ft, of.high_ft, separation_ft),
        ]
    )


def lowest_rows(of: Exercises, bands: Bands, names, *, step_ft: float, unsure=None) -> tuple[np.ndarray, dict]:
    """The lowest level that each exercise can use (N,), and columns of the tests layer that say so and why.

    Looked for from the minimum altitude up; where none is known, from the planned altitude, and then it has no ok.
    Parameters: of; bands; names; step_ft; unsure (N,). Returns: feet, NaN where there is none; columns,
    value the lowest level, limit_value the planned one.
    """
    n = len(of.keys)
    unsure = np.full(n, "", dtype=object) if unsure is None else np.asarray(unsure, dtype=object)
    known = np.isfinite(of.minimum_ft)
    lowest = separation.lowest_levels(np.where(known, of.minimum_ft, of.low_ft), bands, step_ft=step_ft)
    ok, text = [], []
    for i in range(n):
        mine = np.flatnonzero(bands.row == i)
        free = bool(separation.usable(of.low_ft[i], bands, mine).all()) if np.isfinite(of.low_ft[i]) else None
        if free is False:
            ok.append(0)
        else:
            ok.append(1 if free and known[i] and not unsure[i] else None)
        text.append(_lowest(of, bands, mine, i, lowest[i], bool(known[i]), names, unsure[i]))
    return lowest, _tests(of.keys, "lowest_level", ok, lowest, of.low_ft, LOWEST_SOURCE, text)


def _tests(keys, test: str, ok: list, value, limit, source: str, text: list) -> dict:
    n = len(keys)
    return {
        "hold": np.asarray(keys, dtype=object),
        "test": np.full(n, test, dtype=object),
        "ok": _objects(ok),
        "value": np.asarray(value, dtype=np.float64),
        "limit_value": np.asarray(limit, dtype=np.float64),
        "unit": np.full(n, "ft", dtype=object),
        "source": np.full(n, source, dtype=object),
        "text": _objects(text),
    }


def _free(of: Exercises, found: Pairs, separation_ft: float, step_ft: float) -> np.ndarray:
    """The lowest levels, from its own up, at which the first and the second of each pair are clear of the other (2, K).

    Each end of a pair stands as an exercise of its own, so that other pairs do not matter.
    """
    k = len(found.first)
    ends = np.concatenate([found.first, found.second])
    apart = found._replace(first=np.arange(k), second=np.arange(k) + k)
    low, high = of.low_ft[ends], of.high_ft[ends]
    bands = separation.pair_bands(apart, low, high, separation_ft)
    return separation.lowest_levels(low, bands, step_ft=step_ft).reshape(2, k)


def _block(of: Exercises, i: int) -> str:
    low, high = of.low_ft[i], of.high_ft[i]
    if not np.isfinite(low):
        return "unknown levels"
    return format_altitude(low) if not high > low else f"{format_altitude(low)[:-3]} to {format_altitude(high)}"


def _pair(of: Exercises, found: Pairs, k: int, separation_ft: float, free: np.ndarray) -> str:
    i, j = int(found.first[k]), int(found.second[k])
    where = "overlap" if found.relation[k] else f"come within {format_nm(found.distance_nm[k])}"
    sentence = f"The areas of {of.keys[i]} ({_block(of, i)}) and {of.keys[j]} ({_block(of, j)}) {where}"
    if found.ok[k] < 0:
        return f"{sentence}; whether their levels separate them cannot be told"
    if found.ok[k]:
        return f"{sentence}; {format_altitude(found.gap_ft[k])} between their levels separate them"
    ways = [f"{of.keys[a]} at {format_altitude(feet)} or above" for a, feet in zip((i, j), free) if np.isfinite(feet)]
    lacking = (
        f"{format_altitude(max(found.gap_ft[k], 0.0))} between their levels, {format_altitude(separation_ft)} needed"
    )
    return f"{sentence}: {lacking}. Free with {', or '.join(ways)}" if ways else f"{sentence}: {lacking}"


def _separated(of: Exercises, found: Pairs, i: int, mine, free: float, separation_ft: float, unsure: str) -> str:
    bad = [k for k in mine if found.ok[k] == 0]
    unknown = [k for k in mine if found.ok[k] < 0]
    other = [_other(found, k, i) for k in bad]
    if bad:
        whom = ", ".join(f"{of.keys[j]} ({_block(of, j)})" for j in other)
        sentence = f"At {_block(of, i)} not {format_altitude(separation_ft)} from {whom}"
        sentence += f"; free of all from {format_altitude(free)} up" if np.isfinite(free) else ""
    elif len(mine):
        sentence = f"At least {format_altitude(separation_ft)} from every exercise whose area overlaps"
    else:
        sentence = "No other exercise's area overlaps"
    if unknown:
        whom = ", ".join(str(of.keys[_other(found, k, i)]) for k in unknown)
        sentence += f"; not to be told against {whom}, since a level is not known"
    return f"{unsure}. {sentence}, as far as it is known" if unsure else sentence


def _other(found: Pairs, k: int, i: int) -> int:
    return int(found.second[k] if found.first[k] == i else found.first[k])


def _who(of: Exercises, bands: Bands, k: int, names) -> str:
    if bands.cause[k] == EXERCISE:
        return str(of.keys[bands.who[k]])
    return str(names[bands.who[k]]) if bands.cause[k] == AIRSPACE else ""


def _band(of: Exercises, bands: Bands, k: int, names) -> str:
    low, high = bands.from_ft[k], bands.to_ft[k]
    who = _who(of, bands, k, names)
    if bands.cause[k] == EXERCISE:
        who = f"the exercise {who} at {_block(of, bands.who[k])}"
    elif bands.cause[k] != AIRSPACE:
        who = "the minimum altitude"
    if not np.isfinite(high):
        return f"{who} takes {'every level' if not np.isfinite(low) else f'all above {format_altitude(low)}'}"
    if not np.isfinite(low):
        return f"{who} takes all below {format_altitude(high)}"
    return f"{who} takes {format_altitude(low)} to {format_altitude(high)}"


def _lowest(of: Exercises, bands: Bands, mine, i: int, lowest: float, known: bool, names, unsure: str) -> str:
    if np.isfinite(lowest):
        below = [k for k in mine if bands.from_ft[k] < lowest]
        sentence = f"Lowest usable level {format_altitude(lowest)}"
    else:
        below, sentence = mine, "No usable level" if np.isfinite(of.low_ft[i]) or known else "The levels are not known"
    if len(below):
        order = sorted(below, key=lambda k: (bands.from_ft[k], bands.to_ft[k]))
        sentence += ": " + "; ".join(_band(of, bands, k, names) for k in order)
    if not known:
        sentence += ". No minimum altitude is known, so terrain and obstacles are not counted"
    return f"{unsure}. {sentence}" if unsure else sentence


def _objects(values: list) -> np.ndarray:
    out = np.empty(len(values), dtype=object)
    out[:] = values
    return out
