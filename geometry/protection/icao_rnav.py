"""Area navigation holds by ICAO: along and across tolerances, the lines XE and YE of their template, and its discs.

The document's steps for drawing this template could not be seen. The discs here are those that give its XE, which
counts wind in both turns and none along the outbound leg; the document's own steps can take their place in this file.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ..angles import cosd, sind
from . import shapes
from .icao_entries import Run
from .icao_lines import DOC, Line
from .icao_template import first_turn

_CHAPTER = f"{DOC}, Part III, Section 3, Chapter 7, p. III-3-7-4"
_PBN = "ICAO Doc 8168 Vol II, Part III, Section 1, ATT = 0.8 XTT"


class Specification(NamedTuple):
    """Along- and cross-track tolerance of a navigation specification with satellite navigation."""

    name: str
    xtt_nm: float
    att_nm: float
    source: str
    mark: str


SPECIFICATIONS = (
    Specification("RNAV 5, beyond 30 NM of the aerodrome", 2.51, 2.01, _PBN, "from memory"),
    Specification("RNAV 1, RNAV 2, RNP 1 within 30 NM of the aerodrome", 1.00, 0.80, _PBN, "from memory"),
    Specification("RNP APCH, initial and intermediate", 1.00, 0.80, _PBN, "from memory"),
    Specification("RNP APCH, final", 0.30, 0.24, _PBN, "from memory"),
)

LINES = (
    Line(1, "D", "length of the outbound leg", "NM", _CHAPTER, "published"),
    Line(2, "XE", "2 r + D + 11 v + (11 + 90 / R + 11 + 105 / R) w'", "NM",
         f"{_CHAPTER}, print damaged, read with care", "published"),
    Line(3, "YE", "11 v cos 20 + r sin 20 + r + (11 + 20 / R + 90 / R + 11 + 15 / R) w'", "NM",
         f"{_CHAPTER}, print damaged, read with care", "published"),
)  # fmt: skip
GIVEN = tuple(
    Line(n, name, f"{words} tolerance, half-width, as given", "NM", f"{_CHAPTER}, 7.5.2.3: the rectangle", "published")
    for n, name, words in ((4, "ATT", "along-track"), (5, "XTT", "cross-track"))
)
"""Lines whose values the user gives: the rectangle is the document's, the values are marked as entered."""
NOT_USED = (
    "ab", "gi1", "gi2", "Wb", "Wh", "Wo", "Wp", "Wi1", "Wi2", "Wj", "Wk", "Wm", "Wn3", "Wn4", "XE", "YE"
)  # fmt: skip
"""Lines of the conventional template that this one has no point for, or one of its own."""
NOTE = (
    "area navigation template derived here from the lines XE and YE of ICAO Doc 8168 Vol II, p. III-3-7-4, since its "
    "drawing steps could not be seen"
)


def tolerance_area(att_nm: float, xtt_nm: float) -> np.ndarray:
    """Corners of the fix tolerance rectangle in the frame, (4, 2). Source: Doc 8168 Vol II, III-3-7, 7.5.2.3.

    Errors: ValueError for a tolerance that is not positive.
    """
    for name, value in (("att_nm", att_nm), ("xtt_nm", xtt_nm)):
        if not (np.isfinite(value) and value > 0.0):
            raise ValueError(f"{name} is {value}; it must be a positive number of NM")
    return np.array([(-att_nm, -xtt_nm), (att_nm, -xtt_nm), (att_nm, xtt_nm), (-att_nm, xtt_nm)])


def lines(values: dict[str, np.ndarray], leg_nm) -> dict[str, np.ndarray]:
    """The lines of an area navigation hold: those of the template with D, XE and YE of their own.

    Parameters: values, as icao_lines.lines; leg_nm, D. They broadcast. Returns: arrays by name. Source: LINES.
    """
    v, r, rate, w = values["v"], values["r"], values["R"], values["w'"]
    leg = np.broadcast_to(np.asarray(leg_nm, dtype=np.float64), np.shape(v))
    x_e = 2.0 * r + leg + 11.0 * v + (11.0 + 90.0 / rate + 11.0 + 105.0 / rate) * w
    y_e = 11.0 * v * cosd(20.0) + r * sind(20.0) + r + (11.0 + 20.0 / rate + 90.0 / rate + 11.0 + 15.0 / rate) * w
    return {**values, "D": leg, "XE": x_e, "YE": y_e}


def run(values: dict[str, np.ndarray]) -> Run:
    """The outbound leg as XE and YE count it: the leg and 11 s of flight, 11 s of wind, no spread of heading."""
    return Run(values["D"] + 11.0 * values["v"], np.zeros_like(values["v"]), np.full_like(values["v"], 11.0))


def template(values: dict[str, np.ndarray], step_deg: float = 1.0) -> tuple[shapes.Reach, shapes.Reach]:
    """The template of N area navigation holds, and of it the inbound turn.

    The turn at the fix as in the conventional template; the end of the outbound leg, D beyond the abeam of the fix,
    with the wind of that turn; the inbound turn begun there at once or 11 s later, with the wind of both turns.
    Derived here, see NOTE.
    """
    count, r, e = len(values["v"]), values["r"], values["E45"] / 45.0
    late = 11.0 * values["v"]
    begin = -values["D"] - late
    turn = shapes.Turn(begin, 2.0 * r, 180.0, 1, r, values["Wg"] + 11.0 * values["w'"], e, 0.0, 180.0, step_deg)
    soon_u = np.stack([-values["D"], -values["D"]], axis=1)
    soon_s = np.stack([2.0 * r, np.zeros_like(r)], axis=1)
    soon_w = np.stack([values["Wg"], values["Wg"] + 180.0 * e], axis=1)
    inbound = shapes.Hull(shapes.Discs(soon_u, soon_s, soon_w), shapes.turning(turn, count))
    return shapes.Hull(shapes.turning(first_turn(values, 180.0, step_deg), count), inbound), inbound
