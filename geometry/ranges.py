"""The most that is taken of an input, where more is a slip: our own choice."""

from __future__ import annotations

MOST_WIND_KT = 300.0
MOST_ROLL_S = 15.0
MOST_CIRCUITS = 99
