"""A clearance told back in plain sentences."""

from __future__ import annotations

import math

from ..text import format_altitude, format_course
from . import clearance as said
from . import octants
from .clearance import Clearance


def understood(c: Clearance) -> list[str]:
    """Sentences of what was understood, the two directions kept apart."""
    fix, out = c.fix, []
    if fix.kind == said.RADIAL_DISTANCE:
        unit = "DME" if fix.unit == "dme" else "NM"
        radial = _line(fix.radial_deg, fix.bearing, fix.ident)
        out.append(f"the fix is on {radial} at {fix.distance_nm:g} {unit}")
    elif fix.kind == said.CROSSING:
        second = (
            _line(fix.radial_2_deg, fix.bearing_2, fix.ident_2)
            if math.isfinite(fix.radial_2_deg)
            else f"{fix.distance_2_nm:g} DME of {fix.ident_2}"
        )
        first = _line(fix.radial_deg, fix.bearing, fix.ident)
        out.append(f"the fix is where {first} meets {second}")
    elif fix.kind == said.OFFSET:
        seen = "" if fix.side and not fix.octant else f", {octants.name(fix.octant)} as seen from it"
        out.append(f"the fix lies {fix.distance_nm:g} NM {fix.side or 'from'} {fix.ident}{seen}")
    else:
        out.append(f"the fix is {fix.ident}")
    if math.isfinite(c.inbound_deg):
        outbound = (c.inbound_deg + 180.0) % 360.0
        lies = octants.name(octants.octant(outbound))
        out.append(
            f"the pattern lies {lies} of the fix: outbound {format_course(outbound)}, inbound "
            f"{format_course(c.inbound_deg)}"
        )
    else:
        said_as = "the present course" if c.line.kind == said.PRESENT else "the course on which the fix is reached"
        out.append(f"inbound along {said_as}")
    if c.turn:
        out.append(f"{c.turn} turns")
    if math.isfinite(c.leg_min):
        out.append(f"legs of {c.leg_min:g} min")
    if math.isfinite(c.leg_nm):
        out.append(f"legs of {c.leg_nm:g} NM")
    if math.isfinite(c.alt_ft):
        block = f" to {format_altitude(c.alt_to_ft)}" if math.isfinite(c.alt_to_ft) else ""
        out.append(f"at {format_altitude(c.alt_ft)}{block}")
    for name, value in (("flown at", c.ias_kt), ("at most", c.area_ias_kt)):
        if math.isfinite(value):
            out.append(f"{name} {value:g} kt")
    if c.efc:
        out.append(f"further clearance expected at {c.efc.replace('T', ' ')} UTC, which is no time to leave")
    if c.leave:
        out.append(f"leave the fix at {c.leave.replace('T', ' ')} UTC")
    return out


def _line(deg: float, bearing: bool, ident: str) -> str:
    """A radial of a navaid, or a bearing from it."""
    return f"the {format_course(deg)} {'bearing from' if bearing else 'radial of'} {ident}"
