"""What a holding clearance says, and nothing else: the elements between the words and a row of a plan."""

from __future__ import annotations

import math
from dataclasses import dataclass

OVERHEAD, RADIAL_DISTANCE, CROSSING, OFFSET = "overhead", "radial_distance", "crossing", "offset"
RADIAL, BEARING, COURSE, INBOUND, OUTBOUND, PRESENT = "radial", "bearing", "course", "inbound", "outbound", "present"
UNSAID = "unsaid"
ARRIVED_ON = (PRESENT, UNSAID)
"""Lines that are the course on which the fix is reached."""


@dataclass(frozen=True)
class Fix:
    """Where to hold, N of one.

    kind: OVERHEAD ident; RADIAL_DISTANCE; CROSSING of a radial with ident_2's radial or distance; OFFSET, distance
    before or beyond ident on a course, or towards a point of the compass as seen from it. unit: dme or mile.
    navaid_kind: '' or the kind that was said. side: before, beyond or ''; octant: '' or the fix as seen from ident.
    bearing, bearing_2: whether its line, or the second, is called a bearing.
    """

    kind: str
    ident: str
    navaid_kind: str = ""
    radial_deg: float = math.nan
    distance_nm: float = math.nan
    unit: str = ""
    ident_2: str = ""
    radial_2_deg: float = math.nan
    distance_2_nm: float = math.nan
    side: str = ""
    octant: str = ""
    bearing: bool = False
    bearing_2: bool = False

    @property
    def line_name(self) -> str:
        """What its line is called."""
        return "bearing" if self.bearing else "radial"

    @property
    def line_2_name(self) -> str:
        """What the second line is called."""
        return "bearing" if self.bearing_2 else "radial"


@dataclass(frozen=True)
class Line:
    """The line on which to hold: a radial of ident, a bearing from it, a course (inbound, outbound, or whichever way
    the direction says), the present course, or UNSAID.

    ident: '' for the fix's own navaid. either: a COURSE said as a bearing, neither from nor to a navaid.
    """

    kind: str
    deg: float = math.nan
    ident: str = ""
    navaid_kind: str = ""
    either: bool = False


@dataclass(frozen=True)
class Clearance:
    """A holding clearance. Angles are as spoken (a radial's own north, or magnetic); NaN and '' were not said.

    direction: the pattern as seen from the fix. inbound_deg: NaN on the present course. efc and leave: UTC, such as
    14:30 or 2026-09-01T14:30. level: ft or fl. rules: icao, faa or '' where the wording does not tell.
    """

    fix: Fix
    line: Line
    direction: str = ""
    inbound_deg: float = math.nan
    turn: str = ""
    leg_min: float = math.nan
    leg_nm: float = math.nan
    level: str = ""
    alt_ft: float = math.nan
    alt_to_ft: float = math.nan
    ias_kt: float = math.nan
    area_ias_kt: float = math.nan
    efc: str = ""
    leave: str = ""
    rules: str = ""
