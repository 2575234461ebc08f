"""The simplified rectangle of ICAO Doc 8168 Volume II: extents by formula from speed, wind and time, nothing drawn."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import icao, parts, shapes
from .areas import Area, Construction, Designs, Drawn, LineValue, Options
from .icao_lines import DOC


class Extent(NamedTuple):
    """TAS (tas_t t + tas_0) + W (wind_t t + wind_0) + least_t t + least, NM; t in minutes, TAS and W in kt."""

    tas_t: float
    tas_0: float
    wind_t: float
    wind_0: float
    least_t: float
    least: float
    source: str
    mark: str


_TABLE = f"{DOC}, Table I-4-3-App C-5, p. I-4-3-App C-31, non-SI"
_SEEN, _MEMORY = "published", "from memory"

EXTENTS = {
    "45/180": {
        "x_max": Extent(0.0165, 0.0431, 0.0165, 0.0278, 0.0, 1.8, f"{_TABLE}, a)", _SEEN),
        "y_max": Extent(0.002, 0.022, 0.002, 0.0333, 0.0, -0.4, f"{_TABLE}, a)", _SEEN),
        "y_min": Extent(-0.002, -0.0137, -0.002, -0.0594, 0.0, 0.9, f"{_TABLE}, a)", _SEEN),
    },
    "80/260": {
        "x_max": Extent(0.0165, 0.0421, 0.0165, 0.0489, 0.0, -1.8, f"{_TABLE}, b)", _SEEN),
        "y_max": Extent(0.002, 0.0263, 0.002, 0.0322, 0.0, -1.0, f"{_TABLE}, b)", _SEEN),
        "y_min": Extent(-0.002, -0.01, -0.002, -0.0591, 0.0, 0.7, f"{_TABLE}, b)", _SEEN),
    },
    "racetrack": {
        "x_max": Extent(0.0167, 0.0297, 0.0167, 0.0381, 0.0, -0.9, f"{_TABLE}, d)", _MEMORY),
        "x_min": Extent(0.0, -0.0241, 0.0, -0.037, 0.0, 1.1, f"{_TABLE}, d)", _MEMORY),
        "y_max": Extent(0.0012, 0.0266, 0.0158, 0.0368, 0.455, -2.9, f"{_TABLE}, d)", _MEMORY),
        "y_min": Extent(-0.0015, -0.0202, -0.0167, -0.027, 0.0, 0.7, f"{_TABLE}, d)", _MEMORY),
    },
}
"""Extents by procedure; x outbound from the fix, y to the holding side. The base turn's constants are cut off in the
print that was seen, so it has no row. Holds use the racetrack's."""


class Validity(NamedTuple):
    """Between which values the formulas hold."""

    least: float
    most: float
    unit: str
    source: str


VALID = {
    "TAS": Validity(90.0, 290.0, "kt", _TABLE),
    "wind": Validity(0.0, 65.0, "kt", _TABLE),
    "outbound time": Validity(1.0, 3.0, "min", _TABLE),
}
NOTE = (
    "simplified rectangle from memory of ICAO Doc 8168 Vol II Table I-4-3-App C-5 d), to be confirmed against the "
    "document; it holds template and entries and is moved over the fix tolerance area (derived here)"
)


def extents(procedure: str, tas, wind_kt, minutes) -> dict[str, np.ndarray]:
    """Extents of the rectangle of a procedure, NM.

    Parameters: procedure, a key of EXTENTS; tas, wind_kt, minutes broadcast. Returns: by name, NM from the fix; NaN
    outside VALID. Errors: ValueError for a procedure that is none. Source: EXTENTS.

    >>> round(float(extents("racetrack", 160.0, 59.0, 1.0)["x_max"]), 3)
    9.757
    """
    if procedure not in EXTENTS:
        raise ValueError(f"procedure is {procedure!r}; it must be one of {', '.join(EXTENTS)}")
    tas, wind, t = np.broadcast_arrays(*[np.asarray(a, dtype=np.float64) for a in (tas, wind_kt, minutes)])
    good = np.ones(tas.shape, dtype=bool)
    with np.errstate(invalid="ignore"):
        for name, value in zip(VALID, (tas, wind, t)):
            good &= (value >= VALID[name].least - 1e-9) & (value <= VALID[name].most + 1e-9)
    out = {}
    for name, e in EXTENTS[procedure].items():
        value = tas * (e.tas_t * t + e.tas_0) + wind * (e.wind_t * t + e.wind_0) + e.least_t * t + e.least
        out[name] = np.where(good, value, np.nan)
    return out


def _figures(designs: Designs, options: Options):
    """Lines of the holds as for their template, and of these TAS, wind and minutes outbound."""
    lines = icao.figures(designs, options).values
    return lines, (lines["V"], lines["w"], lines["t"] / 60.0)


def refusals(designs: Designs, options: Options) -> np.ndarray:
    """Why a hold gets no rectangle: object array (N,) of sentences naming value and range, '' where it is built."""
    given = dict(zip(VALID, _figures(designs, options)[1]))
    out = np.full(len(designs.alt_ft), "", dtype=object)
    for name, values in given.items():
        allowed = VALID[name]
        for i in np.flatnonzero(~((values >= allowed.least - 1e-9) & (values <= allowed.most + 1e-9))):
            out[i] = out[i] or (
                f"the simplified rectangle is for {name} from {allowed.least:g} to {allowed.most:g} {allowed.unit}; "
                f"here it is {values[i]:.4g} {allowed.unit} ({allowed.source})"
            )
    if options.navigation == "rnav":
        out[:] = "the simplified rectangle is not for area navigation"
    return out


def areas(designs: Designs, options: Options) -> list[Area]:
    """Rectangle over the fix tolerance area and the buffer round it, of the holds that are not refused; it has no
    entry part of its own. Returns: Areas in the order of rows. Source: EXTENTS; parts."""
    _, (tas, wind, minutes) = _figures(designs, options)
    rows = np.flatnonzero(refusals(designs, options) == "")
    if not len(rows):
        return []
    made = extents("racetrack", tas[rows], wind[rows], minutes[rows])
    rectangle = _corners(made)
    fix = shapes.points([designs.tolerance_areas_nm[i] for i in rows])
    shape = shapes.Sum(shapes.Discs(rectangle[..., 0], rectangle[..., 1], 0.0), fix)
    limits = "; ".join([NOTE, *parts.notes(options)])
    out = []
    for i, built in zip(rows.tolist(), parts.build(len(rows), shape, None, options, parts.CLOSE)):
        figures = (float(designs.alt_ft[i]), float(tas[i]), float(wind[i]))
        out += [Area(i, part.name, part.polygons_nm, part.moc_ft, *figures, limits) for part in built]
    return out


def _corners(made: dict[str, np.ndarray]) -> np.ndarray:
    """Corners (N, 4, 2) in the frame: x is outbound, against u; y is s."""
    far, near, left, right = -made["x_max"], -made["x_min"], made["y_min"], made["y_max"]
    return np.stack([np.stack(c, axis=-1) for c in ((far, left), (near, left), (near, right), (far, right))], axis=-2)


def values(designs: Designs, options: Options) -> list[LineValue]:
    """TAS, wind, time and the four extents of the holds that are not refused, and the clearances."""
    lines, given = _figures(designs, options)
    own = icao.sheet_lines(lines, designs, options)
    made = extents("racetrack", *given)
    out = []
    for i in np.flatnonzero(refusals(designs, options) == ""):
        row, said = int(i), {line.name: line for line in own[i]}
        ias = icao.speed_line(designs, options, row)
        speed = float(lines["V"][i] / lines["K"][i])
        out.append(LineValue(row, "0", ias.name, ias.formula, speed, ias.unit, ias.source, ias.mark))
        for n, (name, line, value) in enumerate(zip(VALID, ("V", "w", "t"), given), start=1):
            like = said[line]
            words = like.formula if line != "t" else "T"
            out.append(LineValue(row, str(n), name, words, float(value[i]), VALID[name].unit, like.source, like.mark))
        for n, (name, e) in enumerate(EXTENTS["racetrack"].items(), start=4):
            out.append(LineValue(row, str(n), name, formula(e), float(made[name][i]), "NM", e.source, e.mark))
        out += parts.clearance_values(row, options)
    return out


def formula(e: Extent) -> str:
    """An extent's formula in words.

    >>> formula(EXTENTS["racetrack"]["x_min"])
    'TAS (0 t - 0.0241) + W (0 t - 0.037) + 0 t + 1.1'
    """
    text = f"TAS ({e.tas_t:g} t {e.tas_0:+g}) + W ({e.wind_t:g} t {e.wind_0:+g}) {e.least_t:+g} t {e.least:+g}"
    return text.replace(" +", " + ").replace(" -", " - ").replace("+  ", "+ ")


def drawing(designs: Designs, options: Options) -> list[Drawn]:
    """The rectangle over a point fix, and its corners lettered."""
    made = _corners(extents("racetrack", *_figures(designs, options)[1]))
    out = []
    for i in np.flatnonzero(refusals(designs, options) == ""):
        ring = np.concatenate([made[i], made[i][:1]])
        out.append(Drawn(int(i), "outline", "", ring, np.nan, "simplified rectangle of a point fix"))
        for letter, corner in zip(("P1", "P2", "P3", "P4"), made[i]):
            out.append(Drawn(int(i), "point", letter, corner[None], np.nan, "corner of the simplified rectangle"))
    return out


CONSTRUCTION = Construction("rectangle", refusals, areas, values, drawing)
