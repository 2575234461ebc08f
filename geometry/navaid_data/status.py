"""Which words of a status forbid the use of a navaid."""

from __future__ import annotations

import re

import numpy as np

OUT_OF_SERVICE = (
    "unserviceable",
    "on test",
    "ontest",
    "false indication",
    "in construction",
    "out of service",
    "not operational",
    "not in service",
    "off the air",
    "inoperative",
    "decommissioned",
    "withdrawn",
    "suspended",
    "shutdown",
    "shut down",
    "closed",
    "u/s",
)
"""Words of a status that forbid use: the first five from the status values of AIXM 5.1, the others common practice."""

_SILENT = re.compile(r"(?<![a-z])(?:" + "|".join(re.escape(words) for words in OUT_OF_SERVICE) + r")(?![a-z])")


def in_service(statuses) -> np.ndarray:
    """False where a status says that the aid cannot be used; an empty one counts as in service.

    Parameters: object array of str, any shape. Returns: bool of that shape. Source: OUT_OF_SERVICE.

    >>> in_service(["", "OPERATIONAL IFR", "Out of service", "UNSERVICEABLE"]).tolist()
    [True, True, False, False]
    """
    statuses = np.asarray(statuses, dtype=object)
    known: dict[str, bool] = {}
    flat = []
    for status in statuses.ravel():
        word = "" if status is None else str(status)
        if word not in known:
            known[word] = not _SILENT.search(" ".join(word.lower().replace("_", " ").split()))
        flat.append(known[word])
    return np.array(flat, dtype=bool).reshape(statuses.shape)
