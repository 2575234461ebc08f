"""The whole line from a plan table and navaids to fixes, holds, patterns, tracks and areas: columns in, columns out.

A column is an array of N rows: float64 with NaN for an empty cell, or an object array of str with '' for one.
"""

from .chain import Built, build
from .following import follow
from .holding import HoldRows, area_rows, design_holds, holds_from_columns, pattern_rows, track_rows
from .keys import Keys
from .layer import Layer
from .marking import (
    FixRows,
    mark_along_track,
    mark_coordinates,
    mark_crossing,
    mark_overhead,
    mark_radial_distance,
    mark_route,
)

__all__ = [
    "Built",
    "FixRows",
    "HoldRows",
    "Keys",
    "Layer",
    "area_rows",
    "build",
    "design_holds",
    "follow",
    "holds_from_columns",
    "mark_along_track",
    "mark_coordinates",
    "mark_crossing",
    "mark_overhead",
    "mark_radial_distance",
    "mark_route",
    "pattern_rows",
    "track_rows",
]
