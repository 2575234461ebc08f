"""DME channels: how they are written, and the VHF frequency that each is paired with."""

from __future__ import annotations

import re
from typing import NamedTuple

import numpy as np

from ..sources import FROM_MEMORY


class Pairing(NamedTuple):
    """VHF frequency of DME channels: first X channel, last, frequency of the first; 100 kHz a channel, Y 50 more."""

    first: int
    last: int
    first_khz: float
    spoken: bool
    mark: str
    source: str


_CHANNELS = "ICAO Annex 10 Vol I, table of DME channels"
PAIRINGS = (
    Pairing(1, 16, 134_400.0, False, FROM_MEMORY, _CHANNELS),
    Pairing(17, 59, 108_000.0, True, FROM_MEMORY, _CHANNELS),
    Pairing(60, 69, 133_300.0, False, FROM_MEMORY, _CHANNELS),
    Pairing(70, 126, 112_300.0, True, FROM_MEMORY, _CHANNELS),
)
"""spoken is false where no VHF navaid has the frequency: such a DME or TACAN is known by its channel alone."""
_CHANNEL = re.compile(r"(?:ch|chan|channel)?[ .]*0*([0-9]{1,3}) ?([xy])?", re.IGNORECASE)


def channel_khz(channel: str) -> tuple[float, bool]:
    """VHF frequency paired with a DME channel in kHz, and whether a VHF navaid can have it; NaN for no channel.

    Source: PAIRINGS.

    >>> channel_khz("84X"), channel_khz("51Y"), channel_khz("2X")
    ((113700.0, True), (111450.0, True), (134500.0, False))
    """
    match = _CHANNEL.fullmatch(channel.strip())
    if match:
        for pair in PAIRINGS:
            if pair.first <= int(match[1]) <= pair.last:
                y = 50.0 if (match[2] or "x").lower() == "y" else 0.0
                return pair.first_khz + 100.0 * (int(match[1]) - pair.first) + y, pair.spoken
    return np.nan, False


def channel_text(channel: str) -> str:
    """A channel as spoken, such as 84X; what is no channel stays as it is."""
    match = _CHANNEL.fullmatch(channel.strip())
    return f"{int(match[1])}{(match[2] or 'X').upper()}" if match else channel
