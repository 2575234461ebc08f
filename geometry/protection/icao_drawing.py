"""How the ICAO template arises: its lettered points, wind circles, tangents, lines and outline, in the frame."""

from __future__ import annotations

import numpy as np

from ..units import NM_M
from . import icao_dme, rings, shapes
from .areas import Drawn, Options
from .icao_template import early_turn, first_turn, inbound_turns, legs_end
from .icao_template import template as template_reach

OUTLINE_LETTERS = ("c", "d", "e", "f", "g", "i1", "i2", "j", "k", "l", "m", "n3", "n4")
TEXTS = {
    "a": "the fix: origin of the template",
    "b": "earliest start of the turn, 5 s after the fix",
    "c": "latest start of the turn, 11 s after the fix",
    "d": "45 degrees turned from c",
    "e": "90 degrees turned from c",
    "f": "135 degrees turned from c",
    "g": "180 degrees turned from c",
    "h": "180 degrees turned from b",
    "o": "225 degrees turned from b",
    "p": "270 degrees turned from b",
    "i1": "earliest end of the outbound leg, heading 5 degrees away from the axis",
    "i2": "latest end of the outbound leg, heading 5 degrees away from the axis",
    "i3": "earliest end of the outbound leg, heading 5 degrees towards the axis",
    "i4": "latest end of the outbound leg, heading 5 degrees towards the axis",
    "j": "45 degrees of the inbound turn from i2",
    "k": "90 degrees of the inbound turn from i2",
    "l": "90 degrees of the inbound turn from i4",
    "m": "135 degrees of the inbound turn from i4",
    "n3": "180 degrees of the inbound turn from i3",
    "n4": "180 degrees of the inbound turn from i4",
    "E": "point moved round the circle through the tolerance area for entries from everywhere",
    "C": "the C axis: outbound from the fix",
    "D": "the D axis: from the fix away from the holding side",
    "3": "line 3: protection of the outbound leg away from the holding side",
    "R": "lowest limiting radial touches the protection of the turn at the fix here",
}


def lettered(values: dict[str, np.ndarray]) -> dict[str, tuple[np.ndarray, np.ndarray, np.ndarray]]:
    """Points of N templates by letter: u, s and wind radius, (N,) each.

    Source: Doc 8168 Vol II, I-4-3-App C (drawing from memory; places derived).
    """
    ends = legs_end(values)
    out = {"a": tuple(np.zeros_like(values["V"]) for _ in range(3))}
    out["b"] = (values["ab"], np.zeros_like(values["ab"]), values["Wb"])
    late = first_turn(values, 180.0, 45.0).places()
    early = early_turn(values, 270.0, 45.0).places()
    begun_2, begun_4 = (turn.places() for turn in inbound_turns(values, 45.0))
    for letters, turn in (("cdefg", late), ("hop", early), (("i2", "j", "k"), begun_2), (("l", "m", "n4"), begun_4)):
        for k, letter in enumerate(letters):
            out[letter] = tuple(part[:, k] for part in turn)
    out.update(ends)
    out["n3"] = (ends["i3"][0], ends["i3"][1] - 2.0 * values["r"], values["Wn3"])
    return out


def template(rows: np.ndarray, values: dict[str, np.ndarray], options: Options) -> list[Drawn]:
    """The drawing of N templates. Parameters: rows, their numbers; values, their lines; options. Returns: Drawn."""
    points, shape = lettered(values), template_reach(values, options.step_deg)
    outlines = _outlines(shape, len(rows), options)
    every = np.arange(len(rows))
    least_u, least_s = (-shape(every, shapes.Ways.of(np.full(len(rows), a))).height for a in (np.pi, 1.5 * np.pi))
    out = []
    for k, row in enumerate(rows.tolist()):
        mine = {letter: tuple(float(part[k]) for part in point) for letter, point in points.items()}
        out += _points_and_circles(row, mine, options)
        out += _tangents(row, mine)
        out += _line_3(row, mine)
        extreme = np.array([least_u[k], least_s[k]])
        at_e = extreme + (float(values["XE"][k]), float(values["YE"][k]))
        out += _axes(row, *extreme)
        out.append(_point(row, "E", at_e))
        out.append(Drawn(row, "outline", "", outlines[k], np.nan, "outline of the template"))
    return out


def outline_only(rows: np.ndarray, shape: shapes.Reach, options: Options) -> list[Drawn]:
    """The outline alone, of a template whose drawing steps could not be seen."""
    text = "outline of the area navigation template (derived here)"
    made = _outlines(shape, len(rows), options)
    return [Drawn(int(row), "outline", "", ring, np.nan, text) for row, ring in zip(rows, made)]


def limited(rows, values, limits: icao_dme.Limits, built: icao_dme.Made, options: Options) -> list[Drawn]:
    """VOR/DME holds: the turn at the fix, arcs of the limiting distance, corners C of the outbound end, outline."""
    points = lettered(values)
    outlines = _outlines(built.basic, len(rows), options)
    out = []
    for k, row in enumerate(rows.tolist()):
        mine = {letter: tuple(float(part[k]) for part in points[letter]) for letter in "abcdefghop"}
        out += _points_and_circles(row, mine, options)
        station, corners = float(limits.station_u_nm[k]), built.corners_nm[k]
        for n, corner in enumerate(corners):
            out.append(_point(row, f"C{n + 1}", corner, "corner of the outbound end (derived here)"))
        angles = np.arctan2(corners[:, 1], corners[:, 0] - station)
        middle = np.pi if station >= 0.0 else 0.0
        spread = np.mod(angles - middle + np.pi, 2.0 * np.pi) - np.pi
        for letter, radius in (("DL1", limits.inner_nm[k]), ("DL2", limits.outer_nm[k])):
            path = _arc(station, 0.0, float(radius), middle + spread.min(), middle + spread.max(), options)
            out.append(Drawn(row, "arc", letter, path, float(radius), "limiting distance and its tolerance"))
        if np.isfinite(limits.radial_deg[k]):
            way = np.radians(limits.radial_deg[k])
            end = (station + np.cos(way) * abs(station), np.sin(way) * abs(station))
            out.append(Drawn(row, "line", "RL2", np.array([(station, 0.0), end]), np.nan, "limiting radial, far limit"))
        out.append(Drawn(row, "outline", "", outlines[k], np.nan, "outline of the basic area"))
    return out


def _outlines(shape: shapes.Reach, count: int, options: Options) -> list[np.ndarray]:
    """Closed outlines, drawn by where the shape touches: on the curve itself."""
    lines = rings.support_lines(shape, count, options.tolerance_m / NM_M / 2.0)
    touch = shape(lines.row, lines.ways)
    made = rings.split(lines, np.stack([touch.u, touch.s], axis=1))
    return [np.concatenate([ring, ring[:1]]) for ring in made]


def _point(row: int, letter: str, at, text: str = "") -> Drawn:
    return Drawn(row, "point", letter, np.array([at], dtype=np.float64), np.nan, text or TEXTS[letter])


def _points_and_circles(row: int, points, options: Options) -> list[Drawn]:
    out = []
    for letter, (u, s, wind) in points.items():
        out.append(_point(row, letter, (u, s)))
        if wind > 0.0:
            path = _arc(u, s, wind, 0.0, 2.0 * np.pi, options)
            out.append(Drawn(row, "arc", letter, path, wind, f"wind circle of {letter}, radius {wind:.2f} NM"))
    return out


def _arc(u: float, s: float, radius: float, start: float, end: float, options: Options) -> np.ndarray:
    tolerance = options.tolerance_m / NM_M
    step = 2.0 * np.arccos(max(-1.0, 1.0 - tolerance / radius))
    angle = np.linspace(start, end, int(np.ceil((end - start) / step - 1e-9)) + 1 if end > start else 2)
    return np.stack([u + radius * np.cos(angle), s + radius * np.sin(angle)], axis=1)


def _tangents(row: int, points) -> list[Drawn]:
    """Common tangents of the tabulated discs round their hull."""
    names = OUTLINE_LETTERS
    u, s, w = (np.array([[points[name][k] for name in names]]) for k in range(3))
    hull = shapes.Discs(u, s, w)
    lines = rings.support_lines(hull, 1, 0.05 / NM_M)
    touch = hull(lines.row, lines.ways)
    reach = u * lines.ways.cos[:, None] + s * lines.ways.sin[:, None] + w
    owner = np.argmax(reach, axis=1)
    out = []
    for k in np.flatnonzero(owner != np.roll(owner, -1)):
        after = (k + 1) % len(owner)
        one, two = int(owner[k]), int(owner[after])
        path = _tangent(*(float(x[0, n]) for n in (one, two) for x in (u, s, w)), near=float(lines.ways.alpha_rad[k]))
        if path is None:
            path = np.array([(touch.u[n], touch.s[n]) for n in (k, after)])
        letters = f"{names[one]}-{names[two]}"
        out.append(Drawn(row, "tangent", letters, path, np.nan, f"common tangent of {names[one]} and {names[two]}"))
    return out


def _tangent(u1, s1, w1, u2, s2, w2, *, near: float):
    """Outer common tangent of two discs whose normal is next to an angle, as its two points; None without one."""
    gap = float(np.hypot(u2 - u1, s2 - s1))
    if gap <= abs(w1 - w2):
        return None
    lean, half = np.arctan2(s2 - s1, u2 - u1), np.arccos((w1 - w2) / gap)
    normal = min((lean - half, lean + half), key=lambda a: abs(np.mod(a - near + np.pi, 2.0 * np.pi) - np.pi))
    n = np.array([np.cos(normal), np.sin(normal)])
    return np.array([(u1, s1), (u2, s2)]) + np.array([[w1], [w2]]) * n


def _line_3(row: int, points) -> list[Drawn]:
    out = []
    for one, two in (("g", "i3"), ("i3", "i4")):
        path = _tangent(*points[one], *points[two], near=np.radians(275.0))
        if path is not None:
            out.append(Drawn(row, "line", "3", path, np.nan, f"{TEXTS['3']}: common tangent of {one} and {two}"))
    return out


def _axes(row: int, least_u: float, least_s: float) -> list[Drawn]:
    ends = (("C", (least_u, 0.0)), ("D", (0.0, least_s)))
    return [Drawn(row, "line", name, np.array([(0.0, 0.0), end]), np.nan, TEXTS[name]) for name, end in ends]
