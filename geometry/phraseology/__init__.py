"""Holding clearances in words: written from holds, read as people type them."""

from .clearance import Clearance, Fix, Line
from .from_hold import from_holds
from .idents import Idents
from .octants import NAMES, OCTANTS, octant
from .plan_cells import FIX_CELLS, plan_cells
from .practice import DRAWS, FAULTS, Source, Task, practice
from .reading import Reading, read
from .tokens import MAX_CHARS
from .writing import WORDINGS, Phrase, write

__all__ = [
    "Clearance",
    "DRAWS",
    "FAULTS",
    "FIX_CELLS",
    "Fix",
    "Idents",
    "Line",
    "MAX_CHARS",
    "NAMES",
    "OCTANTS",
    "Phrase",
    "Reading",
    "Source",
    "Task",
    "WORDINGS",
    "from_holds",
    "octant",
    "plan_cells",
    "practice",
    "read",
    "write",
]
