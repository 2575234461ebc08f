"""Unique, readable keys of fixes and holds."""

from __future__ import annotations

import numpy as np


class Keys:
    """Gives each name once; a repeat gets a numbered suffix and a note. Keeps count across batches."""

    def __init__(self) -> None:
        self._used: dict[str, int] = {}

    def make(self, names) -> tuple[np.ndarray, np.ndarray]:
        """Keys and notes of a batch.

        Parameters: names (N,), '' for rows that get no key. Returns: keys and notes, object arrays of str.
        Compared without case, since many file formats do.
        """
        keys = np.full(len(names), "", dtype=object)
        notes = np.full(len(names), "", dtype=object)
        for i, name in enumerate(names):
            if not name:
                continue
            key = name
            while key.lower() in self._used:
                self._used[name.lower()] = self._used.get(name.lower(), 1) + 1
                key = f"{name} ({self._used[name.lower()]})"
            self._used[key.lower()] = 1
            keys[i] = key
            if key != name:
                notes[i] = f"the name {name} is taken, so this one is {key}"
        return keys, notes


def unique(keys: Keys | None, names) -> tuple[np.ndarray, np.ndarray]:
    """Keys and notes by Keys.make, or the names as they are and no notes without keys."""
    if keys is not None:
        return keys.make(names)
    plain = np.empty(len(names), dtype=object)
    plain[:] = list(names)
    return plain, np.full(len(names), "", dtype=object)
