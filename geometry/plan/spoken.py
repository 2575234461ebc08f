"""The plan's column clearance: spoken words fill the cells that are empty."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from .. import geodesy, navaids, phraseology, text
from ..angles import wrap180, wrap360
from ..magnetism import declination_deg
from ..phraseology import Clearance, Reading, octants
from ..phraseology import clearance as said
from .cells import Cells
from .directory import Directory

COLUMN = "clearance"
ON_RADIAL_DEG = 5.0
"""A named point farther than this from the radial on which one is to hold there is not on it: our own choice."""
NEAR_RADIAL_DEG = 1.0
_ANGLES = {"radial_deg", "radial_2_deg", "course_deg", "inbound_deg"}
_OTHER_FIX = ("radial_deg", "distance_nm", "navaid_2", "radial_2_deg", "distance_2_nm", "along_nm", "lat", "lon")
_RULES_SAID = {"faa": "rules of FAA AIM 5-3-8, by the wording", "icao": "rules of ICAO Doc 8168, by the wording"}


@dataclass(frozen=True)
class Spoken:
    """A plan with its clearances read, N rows.

    plan: cells by column, the empty ones filled; readings, None for a row without a clearance; reasons, why a row's
    clearance cannot be used; limits, where a cell says otherwise; assumed.
    """

    plan: dict[str, Sequence]
    readings: list[Reading | None]
    reasons: np.ndarray
    limits: np.ndarray
    assumed: np.ndarray


class _RowError(ValueError):
    """Why the clearance of a row cannot be used."""


def spoken_rows(plan: dict[str, Sequence], directory: Directory, names, *, now: str, year: float) -> Spoken:
    """Read the clearances of a plan, and fill the cells that are empty.

    Parameters: plan, cells by column name, N a column; directory of the navaids and their names (or None); now, ISO to
    the minute in UTC, from which a time without a date is the next, '' for none; year, decimal. Returns: Spoken.
    A cell that is given counts before the words; where it differs a sentence stands in limits, and where it makes
    another fix, in reasons.
    """
    n = max((len(values) for values in plan.values()), default=0)
    blank = [np.full(n, "", dtype=object) for _ in range(3)]
    column = next((name for name in plan if name.strip().lower() == COLUMN), None)
    if column is None or not any(_given(value) for value in plan[column]):
        return Spoken(plan, [None] * n, *blank)
    out = {name.strip().lower(): list(values) for name, values in plan.items()}
    idents = phraseology.Idents(zip(directory.ident, names if names is not None else directory.ident))
    position = Cells(plan, n)
    start = _Start(
        position.longitude("from_lon"), position.latitude("from_lat"), position.text("from_ident"),
        position.number("course_deg"), position.number("arrival_deg"),
    )  # fmt: skip
    made = Spoken(out, [None] * n, *blank)
    for i, words in enumerate(out[COLUMN]):
        if not _given(words):
            continue
        reading = phraseology.read(words if isinstance(words, str) else str(words), now=now, idents=idents)
        made.readings[i] = reading
        if reading.clearance is None:
            made.reasons[i] = reading.refused
            continue
        assumed = list(reading.assumed)
        try:
            cells = _cells(reading.clearance, directory, start, i, year, assumed)
            limits = _fill(out, i, n, cells, assumed)
        except _RowError as error:
            made.reasons[i] = str(error)
            continue
        made.limits[i], made.assumed[i] = "; ".join(limits), "; ".join(assumed)
    return made


@dataclass(frozen=True)
class _Start:
    """Where the aeroplane is and what it flies, N rows."""

    lon: np.ndarray
    lat: np.ndarray
    ident: np.ndarray
    course_deg: np.ndarray
    arrival_deg: np.ndarray

    def place(self, directory: Directory, i: int) -> tuple[float, float]:
        """Longitude and latitude of a row, NaN where they are not known."""
        if math.isfinite(self.lon[i]) and math.isfinite(self.lat[i]):
            return self.lon[i], self.lat[i]
        row, _ = directory.find(self.ident[i]) if self.ident[i] else (-1, "")
        return (directory.lon[row], directory.lat[row]) if row >= 0 else (math.nan, math.nan)


def _cells(c: Clearance, directory: Directory, start: _Start, i: int, year: float, assumed: list[str]) -> dict:
    """Cells of a clearance, with what needs the places of navaids."""
    here = start.place(directory, i)
    row, problem = directory.find(c.fix.ident, c.fix.navaid_kind, "", *here)
    if problem:
        raise _RowError(problem)
    kind = directory.kind[row]
    if c.fix.unit == "dme" and kind and not bool(navaids.gives_range(kind)):
        raise _RowError(f"{c.fix.ident} is a {kind}, which gives no DME distance")
    for ident in dict.fromkeys((c.fix.ident if c.line.ident == "" else "", c.line.ident, c.fix.ident_2)):
        _check_line(c, ident, directory, here, assumed)
    if c.line.kind in said.ARRIVED_ON:
        c = _on_present_course(c, directory, row, start, i, year, assumed)
    elif c.fix.kind == said.OFFSET and math.isfinite(here[0]):
        assumed.append("the course is the one said, not the present one")
    cells = phraseology.plan_cells(c)
    if c.line.kind in said.ARRIVED_ON:
        if c.fix.kind == said.OVERHEAD or not math.isfinite(here[0]):
            cells["course_deg"] = c.inbound_deg
        cells.pop("inbound_deg", None)
    if c.line.ident and c.line.ident != c.fix.ident and c.fix.kind == said.OVERHEAD:
        cells.update(_on_other_radial(c, directory, row, year, assumed))
    elif c.fix.kind == said.CROSSING and c.line.ident == c.fix.ident_2:
        cells.update(navaid=c.fix.ident_2, navaid_2=c.fix.ident, radial_deg=c.fix.radial_2_deg,
                     radial_2_deg=c.fix.radial_deg, navaid_kind=c.line.navaid_kind)  # fmt: skip
    return cells


def _check_line(c: Clearance, ident: str, directory: Directory, here, assumed: list[str]) -> None:
    """Errors: _RowError for a radial of a navaid that has none. A named point has bearings, in a navigator."""
    row = directory.find(ident, "", "", *here)[0] if ident else -1
    by_arc = ident == c.fix.ident_2 and math.isfinite(c.fix.distance_2_nm)
    spoken = c.line.kind in (said.RADIAL, said.BEARING) or math.isfinite(c.fix.radial_deg)
    if row < 0 or by_arc or not spoken:
        return
    kind = directory.kind[row]
    if kind == "WPT":
        assumed.append(f"{ident} is a named point: its radial is taken as a magnetic bearing")
    elif kind and not (bool(navaids.gives_radials(kind)) or bool(navaids.gives_bearings(kind))):
        raise _RowError(f"{ident} is a {kind}, which gives no radial or bearing")


def _spoken_deg(true_deg: float, directory: Directory, row: int, lon: float, lat: float, year: float) -> float:
    """A true course at a place as it is spoken of a navaid: by its own north, or magnetic."""
    aligned = bool(navaids.gives_radials(directory.kind[row])) and math.isfinite(directory.decl_deg[row])
    north = directory.decl_deg[row] if aligned else float(declination_deg(lon, lat, year=year))
    return float(wrap360(true_deg - north))


def _on_present_course(c: Clearance, directory, row: int, start: _Start, i: int, year: float, assumed) -> Clearance:
    """The present course at the navaid, and which side of it a direction means."""
    lon, lat = directory.lon[row], directory.lat[row]
    from_lon, from_lat = start.place(directory, i)
    if c.fix.kind not in (said.OVERHEAD, said.OFFSET):
        raise _RowError("the present course leads to a navaid or a named point only: say the inbound course")
    if math.isfinite(from_lon):
        _, true, apart = geodesy.inverse(from_lon, from_lat, lon, lat)
        if not float(apart) > 0.01:
            raise _RowError(f"the position is overhead {c.fix.ident}, so there is no present course to it")
        course = _spoken_deg(float(true), directory, row, lon, lat, year)
    else:
        given = [value for value in (start.course_deg[i], start.arrival_deg[i]) if math.isfinite(value)]
        if not given:
            unsaid = "" if c.line.kind == said.PRESENT else "the clearance gives no radial, bearing or course, and "
            raise _RowError(f"{unsaid}the present course is not known: give the position, or the arrival course")
        course = float(given[0])
    said_as = text.format_course(course)
    fix = c.fix
    if fix.octant and not fix.side:
        beyond, before = octants.outside_deg(fix.octant, course), octants.outside_deg(fix.octant, course + 180.0)
        if min(beyond, before) > octants.ADJACENT_DEG:
            raise _RowError(f"a fix {octants.name(fix.octant)} of {fix.ident} is not on the present course {said_as}")
        fix = replace(fix, side="beyond" if beyond <= before else "before")
        assumed.append(f"the fix is {fix.side} {fix.ident} on the present course {said_as}")
    outside = octants.outside_deg(c.direction, course + 180.0) if c.direction else 0.0
    if outside > octants.ADJACENT_DEG:
        lies = octants.name(octants.octant(float(wrap360(course + 180.0))))
        raise _RowError(
            f"{octants.name(c.direction)} does not agree with the present course {said_as}: the pattern would lie "
            f"{lies}"
        )
    if fix.kind == said.OVERHEAD:
        assumed.append(f"the present course to {fix.ident} is {said_as}")
    return replace(c, fix=fix, inbound_deg=course)


def _on_other_radial(c: Clearance, directory: Directory, row: int, year: float, assumed: list[str]) -> dict:
    """A named point on the radial of another navaid: its place, seen from that navaid."""
    lon, lat = directory.lon[row], directory.lat[row]
    other, problem = directory.find(c.line.ident, c.line.navaid_kind, "", lon, lat)
    if problem:
        raise _RowError(problem)
    towards, on_arrival, apart = geodesy.inverse(lon, lat, directory.lon[other], directory.lat[other])
    if not float(apart) > 0.01:
        raise _RowError(f"{c.fix.ident} and {c.line.ident} are one place")
    bearings = bool(navaids.gives_bearings(directory.kind[other]))
    at = (lon, lat) if bearings else (directory.lon[other], directory.lat[other])
    true = float(towards if bearings else on_arrival) + 180.0
    lies = _spoken_deg(true, directory, other, *at, year)
    off = abs(float(wrap180(lies - c.line.deg)))
    where = f"{c.fix.ident} lies on the {text.format_course(lies)} radial of {c.line.ident}"
    if off > ON_RADIAL_DEG:
        raise _RowError(f"{where}, not on the {text.format_course(c.line.deg)}")
    if off > NEAR_RADIAL_DEG:
        assumed.append(where)
    return {"fix_method": "coordinates", "navaid": c.line.ident, "navaid_kind": c.line.navaid_kind,
            "lat": float(lat), "lon": float(lon)}  # fmt: skip


def _given(value) -> bool:
    return not (value is None or value != value or str(value).strip() == "")


def _fill(out: dict[str, list], i: int, n: int, cells: dict, assumed: list[str]) -> list[str]:
    """Fill the empty cells of a row. Returns: sentences of cells that say otherwise. Errors: _RowError."""

    def cell(name: str):
        return out[name][i] if name in out and _given(out[name][i]) else None

    cells = {name: value for name, value in cells.items() if value != ""}
    north = cell("north")
    if north is not None and str(north).strip().lower() != "station":
        raise _RowError(f"the cell north is {north}, but a clearance counts from the station's north, or magnetic")
    for name in _OTHER_FIX:
        if cell(name) is not None and name not in cells:
            raise _RowError(f"the cell {name} is {cell(name)}, but the clearance makes the fix without it")
    if cell("leg_min") is not None and "leg_nm" in cells or cell("leg_nm") is not None and "leg_min" in cells:
        given, words = ("leg_min", "leg_nm") if "leg_nm" in cells else ("leg_nm", "leg_min")
        limits = [f"the cell {given} is {cell(given)}, but the clearance says {words} {cells.pop(words):g}: the cell "
                  "counts"]  # fmt: skip
    else:
        limits = []
    for name in ("from_lat", "from_lon", "from_ident"):
        if cell(name) is not None and cells.get("fix_method") == "along_track" and "course_deg" in cells:
            out[name][i] = None
    for name, value in cells.items():
        there = cell(name)
        if there is None:
            if (
                name == "alt_to_ft"
                and cell("alt_ft") is not None
                and not _same("alt_ft", cell("alt_ft"), cells["alt_ft"])
            ):
                continue
            out.setdefault(name, [None] * n)[i] = value
            if name == "rules":
                assumed.append(_RULES_SAID[value])
        elif name not in ("rules", "navaid_kind") and not _same(name, there, value):
            shown = f"{value:g}" if isinstance(value, float) else value
            sentence = f"the cell {name} is {there}, but the clearance says {shown}"
            if name in phraseology.FIX_CELLS:
                raise _RowError(sentence)
            limits.append(f"{sentence}: the cell counts")
    return limits


def _same(name: str, there, value) -> bool:
    """Whether a cell says what the clearance says."""
    if isinstance(value, float):
        if name in ("lat", "lon"):
            read = text.parse_latitude if name == "lat" else text.parse_longitude
            try:
                number = text.parse_number(there)
                number = read(str(there)) if number is None else number
            except text.PositionError:
                return False
            return abs(number - value) < 1e-5
        number = text.parse_number(there)
        if number is None:
            return False
        apart = abs(float(wrap180(number - value))) if name in _ANGLES else abs(number - value)
        return apart <= 0.05
    if name in ("efc_utc", "leave_utc"):
        digits = "".join(char for char in str(there).upper().rpartition("T")[2] if char.isdigit())
        return digits[:4] == value[-5:].replace(":", "")
    return str(there).strip().lower().replace(" ", "_") == str(value).strip().lower()
