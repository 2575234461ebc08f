"""From a clearance to the cells of a plan's row."""

from __future__ import annotations

import math

from . import clearance as said
from .clearance import Clearance

FIX_CELLS = (
    "fix_method", "navaid", "radial_deg", "distance_nm", "distance_kind", "navaid_2", "radial_2_deg", "distance_2_nm",
    "course_deg", "along_nm", "along_side", "lat", "lon", "inbound_deg",
)  # fmt: skip
"""Cells that say where the fix is and which way it is crossed: a clearance gives all of them or none."""


def plan_cells(c: Clearance) -> dict[str, float | str]:
    """Cells by column that the words fill. Angles are in the station's north, or magnetic where it has none.

    On the present course, and where the line belongs to another navaid than the fix, what needs places is left out.
    """
    fix = c.fix
    cells: dict[str, float | str] = {"navaid": fix.ident, "navaid_kind": fix.navaid_kind}
    cells["fix_method"] = "along_track" if fix.kind == said.OFFSET else fix.kind
    if fix.kind == said.OFFSET:
        cells.update(along_nm=fix.distance_nm, along_side=fix.side)
        if c.line.kind not in said.ARRIVED_ON:
            cells["course_deg"] = c.inbound_deg
    else:
        cells.update(radial_deg=fix.radial_deg, distance_nm=fix.distance_nm, navaid_2=fix.ident_2)
        cells["distance_kind"] = "slant" if fix.unit == "dme" else ""
        cells.update(radial_2_deg=fix.radial_2_deg, distance_2_nm=fix.distance_2_nm, inbound_deg=c.inbound_deg)
    cells.update(turn=c.turn, leg_min=c.leg_min, leg_nm=c.leg_nm, ias_kt=c.ias_kt, area_ias_kt=c.area_ias_kt)
    cells.update(alt_ft=c.alt_ft, alt_to_ft=c.alt_to_ft, leave_utc=c.leave, efc_utc=c.efc, rules=c.rules)
    return {name: value for name, value in cells.items() if value != "" and value == value}


def same(one, other) -> bool:
    """Whether two cells say the same: numbers to a hundredth, 360 as 0 where an angle is meant, words without case."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, abs_tol=0.01)
    return str(one).strip().lower() == str(other).strip().lower()
