"""A state's own templates as outlines that the user enters from its document: chosen, placed, given their clearances.

No outline comes with this code. The dimensions are the user's, along and across the frame of a hold with right turns.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import clearances, polygons
from ..units import NM_M
from .areas import AS_ENTERED, Area, Construction, Designs, Drawn, LineValue, Options

PARTS = PRIMARY, SECONDARY = ("primary", "secondary")
THE_TABLE = "the table of outlines given"
FARTHEST_NM = 200.0
"""No corner lies farther from the fix: a number beyond it is a slip, or in another unit."""


class Clearance(NamedTuple):
    """A figure for the areas of outlines, with its document and how sure we are of it."""

    name: str
    value: float
    unit: str
    source: str
    mark: str


_WIDTH_SOURCE = "FAA Order 8260.3, chapter on holding"
_INNER, _OUTER, _HIGH = (*clearances.FAA, clearances.FAA_MOUNTAINOUS)
CLEARANCES = {
    "width": Clearance("width of the secondary area", _OUTER.to_nm, "NM", _WIDTH_SOURCE, "from memory"),
    "primary": Clearance("clearance in the primary area", _INNER.inner_ft, "ft", _INNER.source, _INNER.mark),
    "mountainous": Clearance(
        "clearance in the primary area, mountainous", _HIGH.inner_ft, "ft", _HIGH.source, _HIGH.mark
    ),
    "secondary": Clearance(
        "clearance at the inner edge of the secondary area, falling to 0 at its outer edge", _OUTER.inner_ft, "ft",
        _OUTER.source, _OUTER.mark,
    ),
}  # fmt: skip
"""What is taken where the user says nothing else."""


class Outline(NamedTuple):
    """A template by its corners (M, 2) in the order entered, NM in the frame; secondary, the outer edge of the
    secondary area, None where a width makes it."""

    primary: np.ndarray
    secondary: np.ndarray | None


class Band(NamedTuple):
    """When an outline is used: altitude, speed and distance to the navaid from and to, both included; NaN for no
    bound."""

    outline: str
    alt_from_ft: float
    alt_to_ft: float
    ias_from_kt: float
    ias_to_kt: float
    distance_from_nm: float
    distance_to_nm: float


class Outlines(NamedTuple):
    """A user's templates: outlines by name, the bands that choose among them in order, width and clearances of the
    parts."""

    outlines: dict[str, Outline]
    bands: tuple[Band, ...]
    secondary_nm: float = CLEARANCES["width"].value
    primary_ft: float = CLEARANCES["primary"].value
    secondary_ft: float = CLEARANCES["secondary"].value


def read_outlines(name, part, along_nm, across_nm) -> tuple[dict[str, Outline], str]:
    """Outlines from the rows of a table, corner by corner in the order of the rows.

    Parameters: name, part, object arrays of str, an empty part meaning primary; along_nm ahead of the fix along the
    inbound course, across_nm to the holding side; (N,) each, NaN for a cell that is no number.
    Returns: outlines by name, and '' or what is wrong with the table, naming the outline.
    """
    rows: dict[tuple[str, str], list[tuple[float, float]]] = {}
    for i, (whose, which) in enumerate(zip(name, part)):
        which = str(which).strip().lower() or PRIMARY
        if not whose:
            return {}, f"row {i + 1} has no name"
        if which not in PARTS:
            return {}, f"{whose}: part is {which!r}; it must be one of {', '.join(PARTS)}"
        corner = (float(along_nm[i]), float(across_nm[i]))
        if not max(map(abs, corner)) <= FARTHEST_NM:
            return {}, f"{whose}: row {i + 1} must have along_nm and across_nm between -200 and 200"
        rows.setdefault((str(whose), which), []).append(corner)
    made: dict[str, Outline] = {}
    for (whose, which), corners in rows.items():
        ring, fault = _ring(corners)
        if fault:
            return {}, f"{whose}, {which}: {fault}"
        old = made.get(whose, Outline(np.zeros((0, 2)), None))
        made[whose] = old._replace(**{which: ring})
    for whose, outline in made.items():
        if not len(outline.primary):
            return {}, f"{whose} has a secondary area and no primary one"
        if not polygons.contains(((outline.primary,),), (0.0, 0.0)):
            return {}, f"{whose} does not contain the fix, which lies at along_nm 0, across_nm 0"
        if outline.secondary is not None and polygons.without(((outline.primary,),), ((outline.secondary,),)):
            return {}, f"{whose}: the secondary outline does not go round the primary one"
    return made, "" if made else "there is no row"


def _ring(corners: list[tuple[float, float]]) -> tuple[np.ndarray, str]:
    """Corners as an open ring, repeated ones left out; and what is wrong with them."""
    ring = np.array(corners)
    repeats = np.all(ring == np.roll(ring, -1, axis=0), axis=1)
    ring = ring[~repeats] if len(ring) > 1 else ring
    if len(ring) < 3:
        return ring, "an outline needs at least three corners"
    if not polygons.is_simple(ring):
        return ring, "the outline crosses or touches itself; enter its corners in order"
    return ring, ""


def read_bands(columns: dict[str, np.ndarray], outlines: dict[str, Outline]) -> tuple[tuple[Band, ...], str]:
    """Bands from the columns of a selection table, in the order of the rows.

    Parameters: columns by the names of Band, outline as object array of str, the others (N,) with NaN for an empty
    cell; a missing column is no bound. Returns: bands, and '' or what is wrong with the table.
    """
    n = len(columns["outline"])
    found = []
    for i in range(n):
        numbers = [float(columns[name][i]) if name in columns else np.nan for name in Band._fields[1:]]
        band = Band(str(columns["outline"][i]).strip(), *numbers)
        if band.outline not in outlines:
            return (), f"row {i + 1} names the outline {band.outline!r}; there are {', '.join(outlines)}"
        for low, high in zip(Band._fields[1::2], Band._fields[2::2]):
            if getattr(band, low) > getattr(band, high):
                return (), f"row {i + 1}: {low} is {getattr(band, low):g}, more than {high}, {getattr(band, high):g}"
        found.append(band)
    return tuple(found), "" if found else "there is no row"


def choose(book: Outlines, designs: Designs) -> np.ndarray:
    """The outline of each hold: that of the first band that it falls into.

    Such tables are printed in whole feet, whole knots and tenths of a mile, with nothing between one band and the
    next; altitude, speed and distance are rounded up to that before they are compared. A hold whose distance from a
    navaid is not known falls only into bands without a distance. Without bands a single outline is for all.
    Returns: names (N,), '' where none fits. Derived here.
    """
    n = len(designs.alt_ft)
    if not book.bands:
        only = next(iter(book.outlines)) if len(book.outlines) == 1 else ""
        return np.full(n, only, dtype=object)
    alt, ias, distance = _printed(designs)
    chosen = np.full(n, "", dtype=object)
    for band in reversed(book.bands):
        fits = _within(alt, band.alt_from_ft, band.alt_to_ft) & _within(ias, band.ias_from_kt, band.ias_to_kt)
        chosen[fits & _within(distance, band.distance_from_nm, band.distance_to_nm)] = band.outline
    return chosen


def _printed(designs: Designs) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    distance = np.full(len(designs.alt_ft), np.nan) if designs.navaid_nm is None else designs.navaid_nm
    return np.ceil(designs.alt_ft - 1e-6), np.ceil(designs.ias_kt - 1e-6), np.ceil(distance * 10.0 - 1e-6) / 10.0


def _within(values: np.ndarray, low: float, high: float) -> np.ndarray:
    with np.errstate(invalid="ignore"):
        inside = (np.isnan(low) | (values >= low)) & (np.isnan(high) | (values <= high))
    return inside & (np.isfinite(values) | (np.isnan(low) & np.isnan(high)))


def refusals(designs: Designs, options: Options) -> np.ndarray:
    """Why a hold gets no outline: object array (N,), '' where it gets one. options.outlines, an Outlines."""
    why = np.full(len(designs.alt_ft), "", dtype=object)
    alt, ias, distance = _printed(designs)
    for i in np.flatnonzero(choose(options.outlines, designs) == ""):
        away = f"{distance[i]:.1f} NM from the navaid" if np.isfinite(distance[i]) else "the navaid's distance unknown"
        why[i] = f"no outline is chosen for {ias[i]:.0f} kt at {alt[i]:.0f} ft, {away}"
    return why


def areas(designs: Designs, options: Options) -> list[Area]:
    """Primary and secondary areas of N holds.

    The polygons contain the outline and what lies within the secondary width of it, and exceed that by no more than
    the tolerance. The tolerance of the fix, speed and wind are those that the state's template holds within it.
    Parameters: options.outlines, an Outlines; options.tolerance_m > 0. Returns: Areas, hold by hold; none for a hold
    that is refused. Source: the user's table; CLEARANCES.
    """
    book = options.outlines
    names = choose(book, designs)
    made = {name: _parts(book.outlines[name], book, options.tolerance_m) for name in set(names.tolist()) - {""}}
    out = []
    for i, name in enumerate(names.tolist()):
        for part, region in made.get(name, {}).items():
            clearance = book.primary_ft if part == PRIMARY else book.secondary_ft
            out.append(
                Area(i, part, region, clearance, float(designs.alt_ft[i]), np.nan, np.nan, _note(name, part, book))
            )
    return out


def _parts(outline: Outline, book: Outlines, tolerance_m: float) -> dict[str, polygons.Region]:
    """The parts of one outline: a quarter of the tolerance all round, half for round corners, the rest for chords."""
    tolerance_nm = tolerance_m / NM_M
    primary = polygons.widened(((outline.primary,),), tolerance_nm / 4.0, tolerance_nm / 2.0)
    if outline.secondary is not None:
        whole = polygons.widened(((outline.secondary,),), tolerance_nm / 4.0, tolerance_nm / 2.0)
    elif book.secondary_nm > 0.0:
        whole = polygons.widened(((outline.primary,),), book.secondary_nm + tolerance_nm / 4.0, tolerance_nm / 2.0)
    else:
        return {PRIMARY: primary}
    secondary = polygons.without(whole, primary)
    return {PRIMARY: primary, SECONDARY: secondary} if secondary else {PRIMARY: primary}


def _note(name: str, part: str, book: Outlines) -> str:
    note = f"outline {name!r} as entered by the user"
    if part == SECONDARY:
        note += f"; clearance {book.secondary_ft:.0f} ft at the inner edge, falling to 0 at the outer edge"
    return note


def values(designs: Designs, options: Options) -> list[LineValue]:
    """The corners of each hold's outline, and the width and clearances of its parts."""
    book = options.outlines
    out = []
    for i, name in enumerate(choose(book, designs).tolist()):
        if not name:
            continue
        outline = book.outlines[name]
        for letter, part, ring in _lettered(outline):
            for k, corner in enumerate(ring, start=1):
                for what, value in zip(("along", "across"), corner):
                    title = f"{what}, corner {k} of {part} outline {name}"
                    out.append(LineValue(i, f"{letter}{k}", title, "", float(value), "NM", THE_TABLE, AS_ENTERED))
        figures = [("primary", book.primary_ft), ("secondary", book.secondary_ft)]
        if outline.secondary is None:
            figures.insert(0, ("width", book.secondary_nm))
        for number, (key, value) in enumerate(figures, start=1):
            high = CLEARANCES["mountainous"]
            usual = high if key == "primary" and value == high.value else CLEARANCES[key]
            source, mark = (usual.source, usual.mark) if value == usual.value else ("parameter", AS_ENTERED)
            out.append(LineValue(i, str(number), usual.name, "", float(value), usual.unit, source, mark))
    return out


def drawing(designs: Designs, options: Options) -> list[Drawn]:
    """The outlines as entered, with their corners numbered: P1, P2 ... of the primary, S1 ... of the secondary."""
    book = options.outlines
    out = []
    for i, name in enumerate(choose(book, designs).tolist()):
        if not name:
            continue
        for letter, part, ring in _lettered(book.outlines[name]):
            closed = np.concatenate([ring, ring[:1]])
            out.append(Drawn(i, "outline", "", closed, np.nan, f"{part} outline {name} as entered"))
            for k, corner in enumerate(ring, start=1):
                text = f"{corner[0]:g} NM along, {corner[1]:g} NM across"
                out.append(Drawn(i, "point", f"{letter}{k}", corner[None], np.nan, text))
    return out


def _lettered(outline: Outline):
    found = [("P", PRIMARY, outline.primary)]
    return found if outline.secondary is None else [*found, ("S", SECONDARY, outline.secondary)]


CONSTRUCTION = Construction("outline", refusals, areas, values, drawing)
