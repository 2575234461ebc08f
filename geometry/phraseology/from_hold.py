"""From a row of the holds layer to the clearance that gives it."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np

from .. import geodesy, holds, navaids
from ..angles import wrap180
from ..magnetism import declination_deg
from . import clearance as said
from . import octants
from .clearance import Clearance, Fix, Line

SAME_DEG = 1.0
"""An inbound course within this of a radial is on it: radials are spoken to the degree."""
FLIGHT_LEVELS_FROM_FT = 18_000.0
"""Of the USA; elsewhere the transition altitude is not known here. Source: FAA AIM 7-2-1 (from memory)."""
MOST_SPOKEN_NM = 399.0


def from_holds(columns: dict[str, Any], year: float, efc=None, leave=None) -> tuple[list[Clearance | None], list[str]]:
    """What to say for holds.

    Parameters: columns of the holds layer, N rows; year, decimal, for the variation at a navaid; efc, leave, N texts of
    UTC times, such as 14:30, or None. Angles become whole degrees, distances tenths.
    Returns: a Clearance each and '', or None and why a hold cannot be said.
    Source: FAA AIM 5-3-8 i: the direction is that of the pattern from the fix, the octant of the outbound course.
    """
    n = len(columns["hold"])
    columns = {**columns, **_by_rules(columns), **_at_point(columns, year)}
    rows = [{name: column[i] for name, column in columns.items()} for i in range(n)]
    made: list[Clearance | None] = []
    reasons: list[str] = []
    for i, row in enumerate(rows):
        try:
            one = _from_row(row)
            extra = {"efc": efc[i] if efc is not None else "", "leave": leave[i] if leave is not None else ""}
            made.append(replace(one, **{k: v or "" for k, v in extra.items()}))
            reasons.append("")
        except _UnsayableError as error:
            made.append(None)
            reasons.append(str(error))
    return made, reasons


class _UnsayableError(ValueError):
    """A hold that the words of a clearance do not reach."""


def _by_rules(columns: dict) -> dict:
    """The standard leg and the highest holding speed of each hold."""
    alt, top = np.asarray(columns["alt_ft"], dtype=np.float64), np.asarray(columns["alt_to_ft"], dtype=np.float64)
    rules = np.array([holds.RULES.index(str(word)) for word in columns["rules"]], dtype=np.int64)
    most = holds.maximum_ias_in_block_kt(alt, np.fmax(alt, top), rules)
    return {"standard_min": holds.standard_leg_min(alt, rules), "most_ias_kt": most}


def _at_point(columns: dict, year: float) -> dict:
    """Courses at the navaid and at the fix along the line between them, true, and the variation at the navaid."""
    lon, lat, s_lon, s_lat = (np.asarray(columns[name], float) for name in ("lon", "lat", "navaid_lon", "navaid_lat"))
    towards, on_arrival, _ = geodesy.inverse(lon, lat, s_lon, s_lat)
    return {"to_point_deg": towards, "at_point_deg": on_arrival,
            "point_var_deg": declination_deg(s_lon, s_lat, year=year)}  # fmt: skip


def _from_row(row: dict) -> Clearance:
    kind, ident = _word(row, "navaid_kind"), _word(row, "navaid")
    aligned = bool(navaids.gives_radials(kind)) and math.isfinite(_number(row, "navaid_decl_deg"))
    inbound = _number(row, "inbound_station_deg" if aligned else "inbound_model_deg")
    if not math.isfinite(inbound):
        raise _UnsayableError("the hold has no inbound course")
    if not ident:
        raise _UnsayableError("the fix has no navaid, and a position alone is not said in a clearance")
    bearings = bool(navaids.gives_bearings(kind))
    fix = _fix(row, ident, aligned)
    fix = replace(fix, bearing=bearings and math.isfinite(fix.radial_deg))
    if fix.kind == said.OFFSET:
        inbound = _course_at_point(row, aligned, fix.side)
    on_line = aligned or bearings
    inbound = _whole(inbound)
    along = fix.radial_deg
    if fix.kind == said.OVERHEAD and on_line:
        line = Line(said.BEARING if bearings else said.RADIAL, _whole(inbound + 180.0))
    elif math.isfinite(along) and on_line and _apart(inbound, along + 180.0) <= SAME_DEG:
        line, inbound = Line(said.BEARING if bearings else said.RADIAL, along), _whole(along + 180.0)
    elif math.isfinite(along) and on_line and _apart(inbound, along) <= SAME_DEG:
        line, inbound = Line(said.BEARING if bearings else said.RADIAL, along), along
    else:
        line = Line(said.INBOUND, inbound)
    rules = _word(row, "rules")
    alt, alt_to = _number(row, "alt_ft"), _number(row, "alt_to_ft")
    standard = _number(row, "standard_min")
    leg_min, leg_nm = _number(row, "leg_min"), _number(row, "leg_nm")
    area = _number(row, "area_ias_kt")
    top = alt_to if math.isfinite(alt_to) else alt
    restricted = round(area) < round(_number(row, "most_ias_kt"))
    return Clearance(
        fix=fix,
        line=line,
        direction=octants.octant((inbound + 180.0) % 360.0),
        inbound_deg=inbound,
        turn="left" if _word(row, "turn") == "left" else "right",
        leg_min=math.nan if math.isfinite(leg_nm) or leg_min == standard else leg_min,
        leg_nm=leg_nm,
        level="fl" if rules == "faa" and alt >= FLIGHT_LEVELS_FROM_FT and alt % 100 == top % 100 == 0 else "ft",
        alt_ft=alt,
        alt_to_ft=alt_to if alt_to > alt else math.nan,
        area_ias_kt=area if restricted else math.nan,
        rules=rules,
    )


def _fix(row: dict, ident: str, aligned: bool) -> Fix:
    """The fix as it is named from its station."""
    method, dist, dme = _word(row, "method"), _number(row, "dist_nm"), _number(row, "dme_nm")
    radial = _number(row, "radial_deg")
    if method == "overhead" or not dist > 0.05:
        return Fix(said.OVERHEAD, ident)
    if method == "crossing" and _word(row, "navaid_2") not in ("", ident):
        return _crossing(row, ident)
    if method == "along_track" and not (aligned and math.isfinite(dme)):
        return _offset(row, ident, dist)
    if not math.isfinite(radial):
        raise _UnsayableError(f"the fix has no radial or bearing of {ident}")
    if not 0.0 < dist <= MOST_SPOKEN_NM:
        raise _UnsayableError(f"the fix lies {dist:.0f} NM from {ident}, too far to be named from it")
    if math.isfinite(dme):
        return Fix(said.RADIAL_DISTANCE, ident, radial_deg=_whole(radial), distance_nm=round(dme, 1), unit="dme")
    return Fix(said.RADIAL_DISTANCE, ident, radial_deg=_whole(radial), distance_nm=round(dist, 1), unit="mile")


def _crossing(row: dict, ident: str) -> Fix:
    """A radial and another navaid's radial or arc; the one with the radial first."""
    second = _word(row, "navaid_2")
    if _word(row, "line") == "distance":
        raise _UnsayableError(f"the fix is made by a distance of {ident}, and a hold needs a radial of it")
    given = dict(radial_deg=_whole(_number(row, "radial_deg")), ident_2=second)
    if _word(row, "line_2") == "distance":
        return Fix(said.CROSSING, ident, distance_2_nm=round(_number(row, "dme_2_nm"), 1), **given)
    bearing_2 = bool(navaids.gives_bearings(_word(row, "navaid_2_kind")))
    return Fix(said.CROSSING, ident, radial_2_deg=_whole(_number(row, "radial_2_deg")), bearing_2=bearing_2, **given)


def _offset(row: dict, ident: str, dist: float) -> Fix:
    """So many miles before or beyond a point, on the inbound course there."""
    ahead = abs(float(wrap180(_number(row, "to_point_deg") - _number(row, "inbound_true_deg"))))
    if not (ahead <= SAME_DEG or ahead >= 180.0 - SAME_DEG):
        raise _UnsayableError(f"the inbound course does not lead over {ident}")
    return Fix(said.OFFSET, ident, distance_nm=round(dist, 1), side="before" if ahead < 90.0 else "beyond")


def _course_at_point(row: dict, aligned: bool, side: str) -> float:
    """The inbound course where it leads over the point, from its own north or the model's there: the one spoken."""
    true = _number(row, "at_point_deg") + (0.0 if side == "before" else 180.0)
    return true - _number(row, "navaid_decl_deg" if aligned else "point_var_deg")


def _whole(deg: float) -> float:
    """A course as it is spoken: whole degrees, 0 for north."""
    return float(math.floor(deg + 0.5) % 360)


def _apart(one: float, other: float) -> float:
    return abs(float(wrap180(one - other)))


def _number(row: dict, name: str) -> float:
    value = row.get(name)
    return math.nan if value is None else float(value)


def _word(row: dict, name: str) -> str:
    value = row.get(name)
    return "" if value is None else str(value)
