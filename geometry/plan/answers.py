"""Clearances to practise on: which navaids serve, and the answers to what was made of them."""

from __future__ import annotations

import numpy as np

from .. import navaids, text
from ..phraseology import Source
from .chain import _OUT_OF_SERVICE, Built
from .directory import Directory


def practice_sources(navaid_columns: dict[str, np.ndarray], idents: set[str]) -> list[Source]:
    """Navaids that a clearance may name without doubt: one of its ident, in service, with radials or bearings.

    Parameters: navaid_columns, see Directory; idents in capitals, empty for all. Returns: Sources by ident, so that
    their order does not depend on the layer's.
    """
    directory = Directory(navaid_columns)
    found = {}
    for i, ident in enumerate(directory.ident):
        if not ident or (idents and ident.upper() not in idents) or directory.find(ident)[0] != i:
            continue
        kind = directory.kind[i]
        bearings = bool(navaids.gives_bearings(kind))
        aligned = bool(kind) and bool(navaids.gives_radials(kind)) and np.isfinite(directory.decl_deg[i])
        if (bearings or aligned) and directory.status[i].lower() not in _OUT_OF_SERVICE:
            has_dme = bool(navaids.gives_range(kind)) and bool(np.isfinite(directory.elev_ft[i]))
            found[ident] = Source(ident, bearings, has_dme)
    return [found[ident] for ident in sorted(found)]


def answer_rows(built: Built, exercise, faults: list[str]) -> dict[str, np.ndarray]:
    """Columns of the answers, a row a clearance: the hold it gives, or why it is refused.

    Parameters: built from the clearances, N rows; exercise (N,); faults, N words. Returns: columns of the layer.
    """
    n = len(built.reasons)
    at = np.full(n, -1)
    at[built.rows] = np.arange(len(built.rows))
    right = at >= 0

    def of(columns: dict, name: str):
        values = columns[name]
        if values.dtype.kind == "f":
            out = np.full(n, np.nan)
        else:
            out = np.full(n, "", dtype=object)
        out[right] = values[at[right]]
        return out

    columns = {
        "exercise": np.asarray(exercise, dtype=object),
        "right": right.astype(np.int64),
        "fault": np.array(faults, dtype=object),
    }
    same = ("turn", "inbound_station_deg", "inbound_model_deg", "outbound_model_deg", "leg_min", "leg_nm",
            "outbound_end_dme_nm", "alt_ft", "lat", "lon")  # fmt: skip
    columns.update({name: of(built.holds, name) for name in same})
    columns.update(fix=of(built.fixes, "fix"), position=of(built.fixes, "position"))
    efc = built.spoken.plan.get("efc_utc", [None] * n)
    columns["efc"] = np.array([str(value) if value and ok else "" for value, ok in zip(efc, right)], dtype=object)
    columns["answer"] = np.array(
        [_sentence(columns, i) if right[i] else str(built.reasons[i]) for i in range(n)], dtype=object
    )
    return columns


def _sentence(columns: dict, i: int) -> str:
    inbound = columns["inbound_station_deg"][i]
    leg = f"{columns['leg_nm'][i]:g} NM" if np.isfinite(columns["leg_nm"][i]) else f"{columns['leg_min'][i]:g} min"
    return (
        f"{columns['fix'][i]}: inbound {text.format_course(inbound)}, {columns['turn'][i]} turns, legs of {leg}, "
        f"{text.format_altitude(columns['alt_ft'][i])}"
    )
