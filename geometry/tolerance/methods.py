"""What defines a fix."""

from __future__ import annotations

METHODS = ("radial_arc", "radial_radial", "arc_arc", "overhead", "gnss")
"""What defines a fix, in the order of the codes 0 to 4."""
RADIAL_ARC, RADIAL_RADIAL, ARC_ARC, OVERHEAD, GNSS = range(5)
