"""The whole line from a plan table and navaids to fixes, holds, patterns, tracks and areas: columns in, columns out.

A column is an array of N rows: float64 with NaN for an empty cell, or an object array of str with '' for one.
"""

from ..atmosphere import STANDARD_QNH_HPA
from .arrivals import Arrivals, find_arrivals
from .by_rule import rule_rows
from .chain import Built, build
from .flight_day import FlightDay, fly_plan
from .flying import Flights, Wind, entry_rows, event_rows, flown_rows, fly_rows, sector_rows, true_bearing
from .following import follow
from .holding import HoldRows, design_holds, holds_from_columns, pattern_rows, track_rows
from .keys import Keys
from .layer import Layer, Paths, Shapes
from .levels import Levels, read_levels
from .marking import (
    FixRows,
    mark_along_track,
    mark_coordinates,
    mark_crossing,
    mark_overhead,
    mark_radial_distance,
    mark_route,
)
from .protecting import Protected, area_rows, protect

__all__ = [
    "Arrivals",
    "Built",
    "STANDARD_QNH_HPA",
    "FixRows",
    "FlightDay",
    "Flights",
    "HoldRows",
    "Keys",
    "Layer",
    "Levels",
    "Paths",
    "Protected",
    "Shapes",
    "Wind",
    "area_rows",
    "build",
    "design_holds",
    "entry_rows",
    "event_rows",
    "find_arrivals",
    "flown_rows",
    "fly_rows",
    "fly_plan",
    "follow",
    "holds_from_columns",
    "mark_along_track",
    "mark_coordinates",
    "mark_crossing",
    "mark_overhead",
    "mark_radial_distance",
    "mark_route",
    "pattern_rows",
    "rule_rows",
    "protect",
    "read_levels",
    "sector_rows",
    "track_rows",
    "true_bearing",
]
