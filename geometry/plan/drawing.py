"""A construction's drawing and its sheet of values as layers: how an area arises, to be followed by hand."""

from __future__ import annotations

import numpy as np

from .. import geodesy
from ..holds import Holds
from ..protection.areas import Drawn, LineValue
from .layer import Paths

CROSS_NM = 0.1
"""Half the width of the cross that marks a lettered point."""
_CROSS = CROSS_NM * np.array([[[-1.0, 0.0], [1.0, 0.0]], [[0.0, -1.0], [0.0, 1.0]]])


def drawn_paths(made: Holds, alt_ft, keys, construction: str, drawn: list[Drawn], tolerance_m: float) -> Paths:
    """Lines of a drawing on the earth; a lettered point is a cross.

    Parameters: made, K holds, that of each row of drawn; alt_ft, keys (K,); tolerance_m, of chords. Returns: Paths
    with the fields of construction_lines.
    """
    pieces, counts = [], [0]
    for one in drawn:
        own = list(one.path_nm + _CROSS) if one.kind == "point" else [one.path_nm]
        pieces += own
        counts.append(len(own))
    owner = np.repeat(np.array([one.row for one in drawn], dtype=np.int64), np.diff(np.cumsum(counts)))
    coords, offsets = _placed(made, owner, pieces, tolerance_m)
    row = np.array([one.row for one in drawn], dtype=np.int64)
    columns = {
        "hold": np.asarray(keys, dtype=object)[row],
        "construction": np.full(len(drawn), construction, dtype=object),
        "alt_ft": np.asarray(alt_ft, dtype=np.float64)[row],
        "kind": _texts(one.kind for one in drawn),
        "letter": _texts(one.letter for one in drawn),
        "radius_nm": np.array([one.radius_nm for one in drawn], dtype=np.float64),
        "text": _texts(one.text for one in drawn),
    }
    return Paths(columns, coords, offsets, np.cumsum(counts))


def value_rows(alt_ft, keys, construction: str, values: list[LineValue]) -> dict[str, np.ndarray]:
    """Columns of line_values. Parameters: alt_ft, keys (K,), of the rows of values."""
    row = np.array([one.row for one in values], dtype=np.int64)
    columns = {
        "hold": np.asarray(keys, dtype=object)[row],
        "construction": np.full(len(values), construction, dtype=object),
        "alt_ft": np.asarray(alt_ft, dtype=np.float64)[row],
        "value": np.array([one.value for one in values], dtype=np.float64),
    }
    for name in ("number", "name", "formula", "unit", "source", "mark"):
        columns[name] = _texts(str(getattr(one, name)) for one in values)
    return columns


def _texts(words) -> np.ndarray:
    words = list(words)
    out = np.empty(len(words), dtype=object)
    out[:] = words
    return out


def _placed(made: Holds, owner, pieces: list[np.ndarray], tolerance_m: float) -> tuple[np.ndarray, np.ndarray]:
    """Open lines in the frames of holds on the earth, cut so that their chords in degrees stay within the tolerance."""
    sizes = np.array([len(piece) for piece in pieces], dtype=np.int64)
    if not len(pieces):
        return np.zeros((0, 2)), np.zeros(1, dtype=np.int64)
    flat = np.concatenate(pieces)
    last = np.cumsum(sizes) - 1
    hold = np.repeat(owner, sizes)
    reach = np.abs(made.lat[hold]) + np.hypot(flat[:, 0], flat[:, 1]) / 60.0
    step = np.diff(flat, axis=0, append=flat[-1:])
    step[last] = 0.0
    cuts = np.ceil(np.hypot(step[:, 0], step[:, 1]) / geodesy.longest_piece_nm(reach, tolerance_m) - 1e-9)
    cuts = np.maximum(1, cuts).astype(np.int64)
    source = np.repeat(np.arange(len(flat)), cuts)
    share = (np.arange(len(source)) - np.repeat(np.cumsum(cuts) - cuts, cuts)) / cuts[source]
    u, s = (flat[source] + step[source] * share[:, None]).T
    who = hold[source]
    lon, lat = geodesy.place(made.lon[who], made.lat[who], made.inbound_true_deg[who], made.side[who], u, s)
    offsets = np.concatenate([[0], np.cumsum(cuts)[last]])
    return np.stack([lon, lat], axis=1), offsets
