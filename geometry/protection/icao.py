"""The holding area of ICAO Doc 8168 Volume II: numbered lines, template, basic area.

The template is the hull of discs: places an aircraft may be without wind, widened by the wind since the fix.
The frame is that of geodesy.place: u along the inbound course, s to the holding side.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import convex
from ..angles import cosd, sind
from ..atmosphere import icao_holding_tas_kt, icao_k_factor, icao_wind_kt
from ..units import NM_M
from .areas import Area, protecting_ring

DOC = "ICAO Doc 8168 Vol II, 5th ed. 2006"
K_UP_TO_FT = 14_000.0
"""Above this level the factor K, which ignores compressibility, overstates the speed; the document's own
compressible form (Part II, Section 4, Chapter 1, Appendix A) takes over."""
ISA_DEVIATION_C = 15.0
MOC_FT = 984.0
"""Obstacle clearance in the area, 300 m printed in feet; from memory of Doc 8168 Vol II, II-4-1."""


class Line(NamedTuple):
    """A numbered line of the template's table: name, formula, unit, paragraph, mark (published | from memory)."""

    number: int
    name: str
    formula: str
    unit: str
    source: str
    mark: str


_C1 = f"{DOC}, Table I-4-3-App C-1 (form of the sister table)"
_C4 = f"{DOC}, Table I-4-3-App C-4"
_PUBLISHED = "published"
_MEMORY = "from memory"

LINES = (
    Line(1, "K", "conversion factor IAS to TAS at ISA+15", "", _C1, _PUBLISHED),
    Line(2, "V", "K * IAS", "kt", _C1, _PUBLISHED),
    Line(3, "v", "V / 3600", "NM/s", _C1, _PUBLISHED),
    Line(4, "R", "509.26 / V, at most 3", "deg/s", _C1, _PUBLISHED),
    Line(5, "r", "V / (62.83 R)", "NM", _C1, _PUBLISHED),
    Line(6, "h", "altitude", "1000 ft", _C1, _PUBLISHED),
    Line(7, "w", "2 h + 47", "kt", _C1, _PUBLISHED),
    Line(8, "w'", "w / 3600", "NM/s", _C1, _PUBLISHED),
    Line(9, "E45", "45 w' / R", "NM", _C4, _MEMORY),
    Line(10, "t", "60 T", "s", _C1, _PUBLISHED),
    Line(11, "L", "v t", "NM", _C1, _PUBLISHED),
    Line(12, "ab", "5 v", "NM", _C4, _MEMORY),
    Line(13, "ac", "11 v", "NM", _C4, _MEMORY),
    Line(14, "gi1", "(t - 5) v = gi3", "NM", _C4, _MEMORY),
    Line(15, "gi2", "(t + 21) v = gi4", "NM", _C4, _MEMORY),
    Line(16, "Wb", "5 w'", "NM", _C4, _MEMORY),
    Line(17, "Wc", "11 w'", "NM", _C4, _MEMORY),
    Line(18, "Wd", "Wc + E45", "NM", _C4, _MEMORY),
    Line(19, "We", "Wc + 2 E45", "NM", _C4, _MEMORY),
    Line(20, "Wf", "Wc + 3 E45", "NM", _C4, _MEMORY),
    Line(21, "Wg", "Wc + 4 E45", "NM", _C4, _MEMORY),
    Line(22, "Wh", "Wb + 4 E45", "NM", _C4, _MEMORY),
    Line(23, "Wo", "Wb + 5 E45", "NM", _C4, _MEMORY),
    Line(24, "Wp", "Wb + 6 E45", "NM", _C4, _MEMORY),
    Line(25, "Wi1", "(t + 6) w' + 4 E45 = Wi3", "NM", _C4, _MEMORY),
    Line(26, "Wi2", "Wi1 + 14 w' = Wi4", "NM", _C4, _MEMORY),
    Line(27, "Wj", "Wi2 + E45", "NM", _C4, _MEMORY),
    Line(28, "Wk", "Wi2 + 2 E45 = Wl", "NM", _C4, _MEMORY),
    Line(29, "Wm", "Wi2 + 3 E45", "NM", _C4, _MEMORY),
    Line(30, "Wn3", "Wi1 + 4 E45", "NM", _C4, _MEMORY),
    Line(31, "Wn4", "Wi2 + 4 E45", "NM", _C4, _MEMORY),
    Line(32, "XE", "2 r + (t + 15) v + (t + 26 + 195 / R) w'", "NM", _C4, _MEMORY),
    Line(33, "YE", "11 v cos 20 + r sin 20 + r + (t + 15) v tan 5 + (t + 26 + 125 / R) w'", "NM", _C4, _MEMORY),
)
"""Line numbers past 15 are our own counting; the document's numbering could not be seen."""

MEMORY_NOTE = (
    "template formulas from memory of ICAO Doc 8168 Vol II Table I-4-3-App C-4, to be confirmed against the document"
)


def template_tas_kt(ias_kt, alt_ft) -> np.ndarray:
    """TAS of the area by the document's own conversion at ISA+15: K up to 14 000 ft, compressible above.

    Just above 14 000 ft the compressible form gives less than K gave at that level; the greater stands, so that a
    higher area is never smaller (derived here).

    Parameters broadcast. Returns: kt. Source: Doc 8168 Vol II, Part I, Section 2, Chapter 1, Appendix, and
    Part II, Section 4, Chapter 1, Appendix A (from memory).
    """
    alt, ias = np.broadcast_arrays(np.asarray(alt_ft, dtype=np.float64), np.asarray(ias_kt, dtype=np.float64))
    by_factor = icao_k_factor(np.minimum(alt, K_UP_TO_FT), ISA_DEVIATION_C) * ias
    return np.where(alt <= K_UP_TO_FT, by_factor, np.fmax(by_factor, icao_holding_tas_kt(ias, alt, ISA_DEVIATION_C)))


def lines(ias_kt, alt_ft, outbound_min, *, tas_kt=None, wind_kt=None) -> dict[str, np.ndarray]:
    """The numbered lines of the holding template.

    Parameters: ias_kt, alt_ft, outbound_min (still air) broadcast; tas_kt or wind_kt put a value in place of
    lines 2 and 7. Returns: arrays of the broadcast shape by line name, see LINES for units.
    Source: LINES, each with its table and mark.

    >>> values = lines(220.0, 10000.0, 1.0)
    >>> round(float(values["XE"]), 2), round(float(values["Wn4"]), 2)
    (13.28, 4.95)
    """
    ias, alt, minutes = np.broadcast_arrays(*[np.asarray(a, float) for a in (ias_kt, alt_ft, outbound_min)])
    out: dict[str, np.ndarray] = {}
    out["V"] = np.broadcast_to(template_tas_kt(ias, alt) if tas_kt is None else np.asarray(tas_kt, float), ias.shape)
    out["K"] = out["V"] / ias
    v = out["v"] = out["V"] / 3600.0
    rate = out["R"] = np.minimum(509.26 / out["V"], 3.0)
    r = out["r"] = out["V"] / (62.83 * rate)
    out["h"] = alt / 1000.0
    out["w"] = np.broadcast_to(icao_wind_kt(alt) if wind_kt is None else np.asarray(wind_kt, float), ias.shape)
    w = out["w'"] = out["w"] / 3600.0
    e45 = out["E45"] = 45.0 * w / rate
    t = out["t"] = 60.0 * minutes
    out["L"] = v * t
    out["ab"], out["ac"] = 5.0 * v, 11.0 * v
    out["gi1"], out["gi2"] = (t - 5.0) * v, (t + 21.0) * v
    out["Wb"], out["Wc"] = 5.0 * w, 11.0 * w
    for step, name in enumerate(("Wd", "We", "Wf", "Wg"), start=1):
        out[name] = out["Wc"] + step * e45
    for step, name in enumerate(("Wh", "Wo", "Wp"), start=4):
        out[name] = out["Wb"] + step * e45
    out["Wi1"] = (t + 6.0) * w + 4.0 * e45
    out["Wi2"] = out["Wi1"] + 14.0 * w
    for step, name in enumerate(("Wj", "Wk", "Wm"), start=1):
        out[name] = out["Wi2"] + step * e45
    out["Wn3"], out["Wn4"] = out["Wi1"] + 4.0 * e45, out["Wi2"] + 4.0 * e45
    out["XE"] = 2.0 * r + (t + 15.0) * v + (t + 26.0 + 195.0 / rate) * w
    out["YE"] = (
        11.0 * v * cosd(20.0)
        + r * sind(20.0)
        + r
        + (t + 15.0) * v * np.tan(np.radians(5.0))
        + (t + 26.0 + 125.0 / rate) * w
    )
    return out


def discs(values: dict[str, np.ndarray], step_deg: float = 1.0) -> tuple[np.ndarray, np.ndarray]:
    """Discs whose hull is the template: centres in the frame and radii.

    The turns are sampled every step; between the tabulated points the wind radius grows evenly with the angle
    turned. A step of 45 degrees gives the tabulated discs alone.
    Parameters: values, the lines of N templates (shape (N,) or ()); step_deg, a divisor of 45.
    Returns: centres (..., K, 2), radii (..., K), NM. Errors: ValueError for a step that does not divide 45.
    Source: Doc 8168 Vol II, Part I, Section 4, Chapter 3, Appendix C (drawing from memory; places derived).
    """
    if not step_deg > 0.0 or abs(45.0 / step_deg - round(45.0 / step_deg)) > 1e-9:
        raise ValueError(f"step_deg is {step_deg}; it must divide 45")
    g = {name: np.asarray(value)[..., None] for name, value in values.items()}
    r, e = g["r"], g["E45"] / 45.0
    out_turn = np.arange(0.0, 180.0 + step_deg / 2.0, step_deg)
    first_half = np.arange(step_deg, 90.0 + step_deg / 2.0, step_deg)
    second_half = np.arange(90.0, 180.0 + step_deg / 2.0, step_deg)
    u_near = g["ac"] - g["gi1"] * cosd(5.0)
    u_far = g["ac"] - g["gi2"] * cosd(5.0)
    s_i1, s_i2 = 2.0 * r + g["gi1"] * sind(5.0), 2.0 * r + g["gi2"] * sind(5.0)
    s_i3, s_i4 = 2.0 * r - g["gi1"] * sind(5.0), 2.0 * r - g["gi2"] * sind(5.0)
    parts = [
        (g["ac"] + r * sind(out_turn), r * (1.0 - cosd(out_turn)), g["Wc"] + out_turn * e),
        (u_near, s_i1, g["Wi1"]),
        (u_far, s_i2, g["Wi2"]),
        (u_far - r * sind(first_half), s_i2 - r * (1.0 - cosd(first_half)), g["Wi2"] + first_half * e),
        (u_far - r * sind(second_half), s_i4 - r * (1.0 - cosd(second_half)), g["Wi2"] + second_half * e),
        (u_near, s_i3 - 2.0 * r, g["Wn3"]),
    ]
    centres = np.concatenate([np.stack(np.broadcast_arrays(u, s), axis=-1) for u, s, _ in parts], axis=-2)
    return centres, np.concatenate([np.broadcast_to(w, u.shape) for u, _, w in parts], axis=-1)


POINT_FIX = np.zeros((1, 2))


def basic_support(
    values: dict[str, np.ndarray], tolerance_area_nm=POINT_FIX, step_deg: float = 1.0, tolerance_m: float = 5.0
):
    """Support function of one basic area: the template over the fix tolerance area.

    The document draws the template at each corner of the tolerance area and joins them by tangents, which is
    the sum of the two convex shapes (derived here).
    Parameters: values, the lines of one template; tolerance_area_nm (V, 2) in the frame; tolerance_m, for
    which the directions are fine enough. Returns: alpha (D,) radians ascending, h (D,) NM.
    Source: Doc 8168 Vol II, I-4-3-App C-11, 3.3.3.1.
    """
    centres, radii = discs(values, step_deg)
    fine = convex.search_step_deg(float(np.max(radii)), tolerance_m / NM_M)
    alpha = np.concatenate(
        [
            np.radians(np.arange(0.0, 360.0 - fine / 2.0, fine)),
            convex.edge_normals_of_discs(centres, radii, fine),
            convex.edge_normals_of_polygon(tolerance_area_nm),
        ]
    )
    alpha = np.unique(np.round(np.mod(alpha, 2.0 * np.pi), 12))
    alpha = alpha[alpha < 2.0 * np.pi - 1e-11]
    template, _ = convex.support_of_discs(alpha, centres, radii)
    return alpha, template + convex.support_of_points(alpha, tolerance_area_nm)


def basic_areas(
    ias_kt, alt_ft, outbound_min, *, tolerance_areas_nm=None, tolerance_m: float = 5.0, step_deg: float = 1.0
) -> list[Area]:
    """Basic holding areas of N holds.

    Parameters: ias_kt, the fastest that may use the hold; alt_ft, the highest level; outbound_min, still
    air; (N,) each; tolerance_areas_nm, N arrays (V, 2) in the frame or None for points; tolerance_m > 0.
    Returns: N Areas, part 'basic', whose rings contain the true area and exceed it by no more than the
    tolerance. Source: basic_support. Equal designs share one computation.
    """
    ias, alt, minutes = np.broadcast_arrays(
        *[np.atleast_1d(np.asarray(a, float)) for a in (ias_kt, alt_ft, outbound_min)]
    )
    values = lines(ias, alt, minutes)
    if not np.isfinite(values["YE"]).all():
        raise ValueError("a basic area needs finite speeds, altitudes and times; leave failed rows out")
    made: dict[tuple, np.ndarray] = {}
    out = []
    for i in range(len(ias)):
        tolerance_area = POINT_FIX if tolerance_areas_nm is None else np.asarray(tolerance_areas_nm[i], float)
        key = (ias[i], alt[i], minutes[i], tolerance_area.tobytes())
        if key not in made:
            one = {name: value[i] for name, value in values.items()}
            made[key] = protecting_ring(
                *basic_support(one, tolerance_area, step_deg, tolerance_m), tolerance_m
            )
        tas, wind = float(values["V"][i]), float(values["w"][i])
        out.append(Area(i, "basic", made[key], MOC_FT, float(alt[i]), tas, wind, MEMORY_NOTE))
    return out
