"""Holds as they are flown in a steady wind: circuits, entries, the arrival, and leaving on time.

Everything is flown at the hold's airspeed and rate of turn. The wind is steady over the hold and true. Paths live in
the frame of the hold (geodesy.place).
"""

from .flight import (
    ADJUST,
    ADJUST_ALL,
    ADJUST_LAST,
    ARRIVAL_S,
    MOST_CIRCUITS,
    Flight,
    events,
    fly,
    lines,
)
from .legs import NO_STATION, Leg, Station, circuit_of, leg_of

__all__ = [
    "ADJUST",
    "ADJUST_ALL",
    "ADJUST_LAST",
    "ARRIVAL_S",
    "MOST_CIRCUITS",
    "NO_STATION",
    "Flight",
    "Leg",
    "Station",
    "circuit_of",
    "events",
    "fly",
    "leg_of",
    "lines",
]
