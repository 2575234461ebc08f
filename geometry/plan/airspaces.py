"""What airspace says of holds: rows of contacts and of tests, with the sentences that a pilot reads."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from ..airspace import CLEAR, CONTACT, UNKNOWN, Contacts, Spaces, said
from ..meetings import RELATIONS
from ..text import format_altitude, format_nm

AREA, TRACK = "area", "track"
TESTS = {AREA: "airspace", TRACK: "airspace_track"}
"""What of a hold is tested, and the name of its test."""

_SUBJECT = {AREA: "The holding area", TRACK: "The flown track"}
_VERBS = {"near": "comes within {} of", "overlaps": "overlaps", "inside": "lies inside"}
SOURCE = "Airspace as its layer gives it; how near is too near was chosen for this run"


class Told(NamedTuple):
    """What an airspace layer says besides (S,): name, kind, hours, contact, and what was done to its shape."""

    name: np.ndarray
    kind: np.ndarray
    hours: np.ndarray
    contact: np.ndarray
    note: np.ndarray


def contact_rows(keys, what: str, others: Spaces, told: Told, found: Contacts, overlap_nm2, qnh_hpa) -> dict:
    """Columns of the layer of contacts.

    Parameters: keys (N,), the holds; what, AREA or TRACK; others, told, the airspaces; found, of airspace.contacts;
    overlap_nm2 (K,), of airspace.overlaps_nm2; qnh_hpa (N,) as contacts was given. Returns: columns, K rows.
    """
    s, n = found.space, len(found.row)
    notes = said(others, found, qnh_hpa)
    texts = np.full(n, "", dtype=object)
    for k in range(n):
        notes[k] = "; ".join(part for part in (notes[k], told.note[s[k]]) if part)
        texts[k] = _sentence(what, others, told, found, k, notes[k])
    return {
        "hold": np.asarray(keys, dtype=object)[found.row],
        "what": np.full(n, what, dtype=object),
        "airspace": told.name[s],
        "kind": told.kind[s],
        "ok": _ok(found.state),
        "relation": np.array(RELATIONS, dtype=object)[found.relation],
        "distance_nm": found.distance_nm,
        "edge_nm": found.edge_nm,
        "overlap_nm2": np.asarray(overlap_nm2, dtype=np.float64),
        "distance_ft": np.maximum(found.gap_ft, 0.0),
        "lower": others.lower.text[s],
        "upper": others.upper.text[s],
        "lower_ft": found.lower_ft,
        "upper_ft": found.upper_ft,
        "hours": told.hours[s],
        "contact": told.contact[s],
        "lat": found.lat,
        "lon": found.lon,
        "note": notes,
        "text": texts,
    }


def airspace_test_rows(
    keys, what: str, contacts: Mapping[str, np.ndarray], found: Contacts, *, within_nm: float, within_ft: float,
    unsure=None, wanted=None, left_out: int = 0,
) -> dict:  # fmt: skip
    """Columns of the tests layer: a row for each contact that is too near or not to be told; one for a hold with none.

    Parameters: keys (N,), the holds; what; contacts, columns of contact_rows; found; within_nm, within_ft, as contacts
    was given; unsure (N,), '' or why a hold without contact is not known to be clear; wanted, which rows, default
    all; left_out, how many airspaces could not be placed. Returns: columns.
    """
    keys = np.asarray(keys, dtype=object)
    unsure = np.full(len(keys), "", dtype=object) if unsure is None else np.asarray(unsure, dtype=object)
    hold, ok, value, limit, unit, text = [], [], [], [], [], []
    for i in range(len(keys)) if wanted is None else np.asarray(wanted).tolist():
        mine = _run_of(found.row, i)
        bad = mine[found.state[mine] != CLEAR]
        for k in bad[np.argsort(found.state[bad] == UNKNOWN, kind="stable")].tolist():
            hold.append(keys[i])
            ok.append(0 if found.state[k] == CONTACT else None)
            value.append(found.distance_nm[k])
            limit.append(within_nm)
            unit.append("NM")
            text.append(contacts["text"][k])
        if not len(bad):
            hold.append(keys[i])
            ok.append(None if unsure[i] else 1)
            nearest = mine[np.argmin(found.gap_ft[mine])] if len(mine) else -1
            value.append(found.gap_ft[nearest] if len(mine) else np.nan)
            limit.append(within_ft if len(mine) else within_nm)
            unit.append("ft" if len(mine) else "NM")
            text.append(_clear(what, contacts, mine, nearest, within_nm, within_ft, unsure[i], left_out))
    n = len(hold)
    return {
        "hold": _objects(hold),
        "test": np.full(n, TESTS[what], dtype=object),
        "ok": _objects(ok),
        "value": np.array(value, dtype=np.float64),
        "limit_value": np.array(limit, dtype=np.float64),
        "unit": _objects(unit),
        "source": np.full(n, SOURCE, dtype=object),
        "text": _objects(text),
    }


def _ok(state: np.ndarray) -> np.ndarray:
    """States as the layers keep them: 1, 0, or None for what cannot be told."""
    return np.where(state == UNKNOWN, None, state.astype(object))


def _sentence(what: str, others: Spaces, told: Told, found: Contacts, k: int, note: str) -> str:
    s = int(found.space[k])
    relation = RELATIONS[found.relation[k]]
    verb = _VERBS[relation].format(format_nm(found.distance_nm[k]))
    name = told.name[s] + (f", {told.kind[s]}" if told.kind[s] else "")
    levels = f"{others.lower.text[s] or 'GND'} to {others.upper.text[s] or 'UNL'}"
    parts = [f"{_SUBJECT[what]} {verb} {name} ({levels}){_in_height(found, k)}"]
    parts += [
        f"{label}: {values[s]}" for label, values in (("Hours", told.hours), ("Contact", told.contact)) if values[s]
    ]
    if note:
        parts.append(note[0].upper() + note[1:])
    return ". ".join(parts)


def _in_height(found: Contacts, k: int) -> str:
    gap = found.gap_ft[k]
    if np.isnan(gap):
        return "; how they lie in height cannot be told"
    if gap < 0.0:
        return " and shares its levels"
    if gap == 0.0:
        return " and touches its levels"
    return f", {format_altitude(gap)} {'above' if found.above[k] else 'below'} it"


def _clear(what, contacts, mine, nearest: int, within_nm, within_ft, unsure: str, left_out: int) -> str:
    margin = f"{format_nm(within_nm)} and {format_altitude(within_ft)}"
    sentence = f"No airspace comes within {margin} of {_SUBJECT[what].lower()}"
    if len(mine):
        sentence += f"; nearest in height: {contacts['text'][nearest]}"
    if left_out:
        which = "an airspace" if left_out == 1 else f"{left_out} airspaces"
        sentence += f"; {which} without a known shape or width {'is' if left_out == 1 else 'are'} not among it"
    return f"{unsure}. {sentence}, as far as it is known" if unsure else sentence


def _run_of(row: np.ndarray, i: int) -> np.ndarray:
    return np.arange(*np.searchsorted(row, (i, i + 1)))


def _objects(values: list) -> np.ndarray:
    out = np.empty(len(values), dtype=object)
    out[:] = values
    return out
