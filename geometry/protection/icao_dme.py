"""VOR/DME holds by ICAO: the limiting distance and its rounding, the limiting radial, and the area they bound.

The outbound leg ends at a reading, not after a time: between the lines that protect it on either side (they widen by 5
degrees of heading and the drift of the full wind) it ends on the arcs of the limiting distance less and plus its
tolerance. From any place there the inbound turn is the template's turn at the fix, turned round.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ..tolerance.accuracy import dme_tolerance_nm
from ..tolerance.figures import FIGURES
from . import shapes
from .icao_entries import Arrivals, first_turns, sectors
from .icao_lines import DOC, Line
from .icao_template import early_turn, first_turn

_C13, _C14, _C22 = (f"{DOC}, p. I-4-3-App C-{page}" for page in (13, 14, 22))
_CONTEXT = f"{_C13}, form taken from its context"
SLANT_NM2 = 0.027
"""Square NM of slant range a thousand feet squared, as the document prints it; exactly 0.027085."""
ROUND_LOW, ROUND_HIGH, ROUND_UP_TO_FT = 0.25, 0.5, 14_000.0
"""Decimals below which a limiting distance is rounded down, up to 14 000 ft and above; away, those to round up are
above 0.75 and 0.5 (from memory). Source: Doc 8168 Vol II, p. I-4-3-App C-13."""
SPREAD_DEG = 5.0

LINES = (
    Line(1, "D", "slant range of the fix", "NM", _C13, "published"),
    Line(2, "hl", "height above the station", "1000 ft", _C13, "published"),
    Line(3, "Ds", "(D^2 - 0.027 hl^2)^0.5", "NM", _C13, "published"),
    Line(4, "ds", "outbound length, at least v t", "NM", f"{DOC}, II-4-1-4, 1.3.2.3", "published"),
    Line(5, "DL unrounded", "((Ds +- ds)^2 + 4 r^2 + 0.027 hl^2)^0.5", "NM", f"{_C13}; away from memory", "published"),
    Line(6, "DL", "rounded to whole NM", "NM", f"{_C13}; away from memory", "published"),
    Line(7, "DLs", "(DL^2 - 0.027 hl^2)^0.5", "NM", _CONTEXT, "from memory"),
    Line(8, "d1", "0.25 + 0.0125 D", "NM", _C14, "published"),
    Line(9, "d2", "0.25 + 0.0125 DL", "NM", _C14, "published"),
    Line(10, "DL1", "DLs - d2", "NM", _C14, "published"),
    Line(11, "DL2", "DLs + d2", "NM", _C14, "published"),
    Line(12, "RL", "angle at the station between the inbound radial and R, plus the radial's tolerance, up to a whole "
         "degree; R derived here as where the turn at the fix is touched; it ends the leg where the arc may be missed",
         "deg", _C22, "derived"),
    Line(13, "RL2", "RL plus the radial's tolerance", "deg", _C22, "published"),
)  # fmt: skip


def own_lines(table: dict[str, float]) -> list[Line]:
    """LINES as they are for one hold: away from the station the form and its rounding are from memory; a limit that is
    the leg's own reading is ours. Parameters: table, its lines() and the limiting radial."""
    found = []
    for line in LINES:
        if line.name == "DL" and table["by leg"]:
            line = line._replace(formula="the reading that the leg itself gives", source=OWN_READING, mark="derived")
        elif line.name in ("DL", "DL unrounded") and not table["towards"]:
            line = line._replace(mark="from memory")
        found.append(line)
    return found


OWN_READING = f"{_C13} rounds to a limit short of where the leg ends: derived here"
NOTE = (
    "VOR/DME area by ICAO Doc 8168 Vol II, I-4-3-App C-13 to C-15: limiting distance as published, curves of the "
    "outbound end and point R derived here"
)
TOO_NEAR = (
    "the outbound leg may pass the station without meeting the limiting distance: the fix lies too near for a "
    "VOR/DME hold with this leg (ICAO Doc 8168 Vol II, II-4-1-4, 1.3.2.4; derived here)"
)
OVERHEAD = "the limiting distance is not greater than the height above the station: no reading there"
CONE_DEG = 55.0
CONE_SOURCE = "ICAO Doc 8168 Vol II, I-4-3-App C, from memory: no DME fix nearer than the height times tan 55"
END_NOTE = "arrivals at the outbound end along its radial are not drawn"


def horizontal_nm(slant_nm, height_kft) -> np.ndarray:
    """Horizontal distance of a slant range, (D^2 - 0.027 hl^2)^0.5; NaN below the height. Source: _C13.

    >>> round(float(horizontal_nm(30.0, 14.0)), 3)
    29.912
    """
    with np.errstate(invalid="ignore"):
        return np.sqrt(np.asarray(slant_nm, float) ** 2 - SLANT_NM2 * np.asarray(height_kft, float) ** 2)


def rounded_limit_nm(limit_nm, towards, alt_ft) -> np.ndarray:
    """Limiting distance in whole NM by the document's rule.

    Towards the station (outbound away from it) up, but down where the decimals are below 0.25, above 14 000 ft below
    0.5. Away from it down, but up where they are above 0.75, above 14 000 ft above 0.5 (from memory).
    Parameters broadcast. Source: Doc 8168 Vol II, p. I-4-3-App C-13.

    >>> float(rounded_limit_nm(35.24, True, 14000.0)), float(rounded_limit_nm(35.25, True, 14000.0))
    (35.0, 36.0)
    """
    limit = np.round(np.asarray(limit_nm, dtype=np.float64), 9)
    least = np.where(np.asarray(alt_ft, dtype=np.float64) <= ROUND_UP_TO_FT, ROUND_LOW, ROUND_HIGH)
    whole, decimals = np.floor(limit), limit - np.floor(limit)
    up = whole + (decimals >= least - 1e-9) * (decimals > 1e-9)
    down = whole + (decimals > 1.0 - least + 1e-9)
    return np.where(towards, up, down)


def lines(values: dict[str, np.ndarray], station_u_nm, station_elev_ft, alt_ft, leg_nm=np.nan) -> dict[str, np.ndarray]:
    """The lines of N VOR/DME holds, but for the limiting radial.

    Parameters: values, the template's lines; station_u_nm, ahead of the fix (towards) or behind (away); leg_nm, by
    how much the reading changes along the leg, NaN: as the still-air leg gives. Returns: arrays by name. Source: LINES.
    """
    towards = np.asarray(station_u_nm) >= 0.0
    height = (np.asarray(alt_ft, float) - np.asarray(station_elev_ft, float)) / 1000.0
    ground = np.abs(np.asarray(station_u_nm, dtype=np.float64))
    square = SLANT_NM2 * height**2
    slant = np.sqrt(ground**2 + square)
    along = values["L"]
    end = np.where(towards, ground + along, ground - along)
    raw = np.where(end > 0.0, np.sqrt(end**2 + 4.0 * values["r"] ** 2 + square), np.nan)
    rounded = rounded_limit_nm(raw, towards, alt_ft)
    own = np.where(towards, slant + leg_nm, slant - leg_nm)
    limit = np.where(np.isnan(own), rounded, np.where(towards, np.maximum(rounded, own), np.minimum(rounded, own)))
    first, second = dme_tolerance_nm(slant, 0), dme_tolerance_nm(limit, 0)
    flat = horizontal_nm(limit, height)
    return {
        "towards": towards, "D": slant, "hl": height, "Ds": ground, "ds": along, "DL unrounded": raw, "DL": limit,
        "DLs": flat, "d1": first, "d2": second, "DL1": flat - second, "DL2": flat + second,
        "by leg": limit != rounded,
    }  # fmt: skip


class Limits(NamedTuple):
    """What ends the outbound leg of N holds: station ahead along the course, arcs, and the radial RL2 where one is
    needed (NaN elsewhere), degrees from the inbound radial to the holding side."""

    station_u_nm: np.ndarray
    inner_nm: np.ndarray
    outer_nm: np.ndarray
    radial_deg: np.ndarray


class End(NamedTuple):
    """Corners C of the outbound end (N, K, 2), its shape, and where it could be made (N,)."""

    corners_nm: np.ndarray
    shape: shapes.Reach
    made: np.ndarray


def drift_rad(values: dict[str, np.ndarray]) -> np.ndarray:
    """Angle by which full wind from the side carries off a heading."""
    return np.arcsin(np.clip(values["w'"] / values["v"], 0.0, 0.999))


def outbound_end(start: shapes.Reach, values: dict[str, np.ndarray], heading_deg: float, limits: Limits) -> End:
    """Where a leg flown on a heading from a start shape may meet its limiting distance.

    The lines on either side touch the start and turn outwards by SPREAD_DEG and the drift; they meet the arcs at the
    corners. On the holding side, where the arc is missed or the radial is met first, the radial RL2 takes its place.
    """
    count = len(values["v"])
    every, station = np.arange(count), np.stack([limits.station_u_nm, np.zeros(count)], axis=1)
    wide, lean = np.radians(SPREAD_DEG) + drift_rad(values), np.radians(heading_deg)
    found, made = [], np.ones(count, dtype=bool)
    radial = np.radians(limits.radial_deg)
    has_radial = np.isfinite(radial)
    for way in (1.0, -1.0):
        out = lean - way * wide
        normal = out - way * np.pi / 2.0
        height, begin_u, begin_s = start(every, shapes.Ways.of(normal))
        n, t = _unit(normal), _unit(out)
        beside = height - np.sum(station * n, axis=1)
        foot = station + beside[:, None] * n
        on_arcs = []
        for radius in (limits.inner_nm, limits.outer_nm):
            with np.errstate(invalid="ignore"):
                half = np.sqrt(np.where(radius > 0.0, radius**2 - beside**2, np.nan))
            # Away from the station the leg meets the arc after its foot, towards it before.
            on_arcs.append(foot + (np.where(limits.station_u_nm >= 0.0, half, -half)[:, None]) * t)
        if way > 0.0 and has_radial.any():
            ray, (back_u, back_s) = _unit(radial), (station - foot).T
            with np.errstate(divide="ignore", invalid="ignore"):
                run = (back_u * ray[:, 1] - back_s * ray[:, 0]) / np.sin(radial - out)
                # The radial ends the leg where it is met before the arc; at once where the turn has passed it.
                first = np.sum((on_arcs[0] - foot) * t, axis=1)
                run = np.fmax(run, np.sum((np.stack([begin_u, begin_s], axis=1) - foot) * t, axis=1))
                ended = (has_radial & ~(first <= run))[:, None]
            on_radial = [station + radius[:, None] * ray for radius in (limits.inner_nm, limits.outer_nm)]
            found.append(np.where(ended, foot + run[:, None] * t, on_arcs[0]))
            on_arcs = [np.where(ended, r, a) for r, a in zip(on_radial, on_arcs)]
        found += on_arcs
    corners = np.stack(found, axis=1)
    made &= np.isfinite(corners).all(axis=(1, 2))
    corners = np.where(np.isfinite(corners), corners, 0.0)
    pieces = [shapes.Discs(corners[..., 0], corners[..., 1], 0.0)]
    bearing = np.arctan2(corners[..., 1], corners[..., 0] - limits.station_u_nm[:, None])
    # The outer arc bulges outwards where the leg leads away from the station.
    middle = np.where(limits.station_u_nm >= 0.0, np.pi, 0.0)[:, None]
    turn = np.mod(bearing - middle + np.pi, 2.0 * np.pi) - np.pi
    on_outer = np.isclose(np.hypot(corners[..., 0] - limits.station_u_nm[:, None], corners[..., 1]),
                          limits.outer_nm[:, None], atol=1e-6)  # fmt: skip
    low = np.where(on_outer, turn, np.inf).min(axis=1)
    high = np.where(on_outer, turn, -np.inf).max(axis=1)
    low, high = (np.where(np.isfinite(x), x, 0.0) + middle[:, 0] for x in (low, high))
    radius = np.where(np.isfinite(limits.outer_nm), limits.outer_nm, 0.0)
    pieces.append(shapes.arc(limits.station_u_nm, 0.0, radius, low, high))
    return End(corners, shapes.Hull(*pieces), made)


def _unit(angle_rad) -> np.ndarray:
    return np.stack([np.cos(angle_rad), np.sin(angle_rad)], axis=-1)


def turn_back(values: dict[str, np.ndarray], heading_deg: float, turned_deg: float, way: int, step_deg: float):
    """The template's turn at the fix begun on another heading, at the origin: its Reach, point c 11 s after."""
    c, d = np.cos(np.radians(heading_deg)), np.sin(np.radians(heading_deg))
    turn = first_turn(values, turned_deg, step_deg)
    turn = turn._replace(u=values["ac"] * c, s=values["ac"] * d, heading_deg=heading_deg, way=way)
    return shapes.turning(turn, len(values["v"]))


def limiting_radial_deg(values: dict[str, np.ndarray], fix: shapes.Reach, station_u_nm, step_deg: float = 1.0):
    """Lowest limiting radial RL and RL2, away from the station: degrees from the inbound radial to the holding side.

    RL leaves the protection of the turn at the fix, up to more than 180 degrees (arcs c to g, h, o, p over the
    tolerance area), on one side: the angle at the station of its tangent, plus the tolerance of a radial that crosses,
    rounded up. NaN towards the station or where the station lies inside that area. Returns: RL, RL2, (N,) each.
    Source: Doc 8168 Vol II, p. I-4-3-App C-22; the tangent in place of the drawn point R derived here.
    """
    count = len(values["v"])
    every, station = np.arange(count), np.asarray(station_u_nm, dtype=np.float64)
    late, early = first_turn(values, 180.0, step_deg), early_turn(values, 270.0, step_deg)
    turns = shapes.Sum(shapes.Hull(shapes.turning(late, count), shapes.turning(early, count)), fix)

    def past(angle):
        ways = shapes.Ways.of(angle + np.pi / 2.0)
        return turns(every, ways).height - station * ways.cos

    low, high = np.zeros(count), np.full(count, np.pi / 2.0)
    clear = (station < 0.0) & (past(high) <= 0.0)
    for _ in range(50):
        middle = (low + high) / 2.0
        above = past(middle) > 0.0
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    beta = float(FIGURES["icao_vor_cross_deg"].value)
    radial = np.where(clear, np.ceil(np.degrees(high) + beta - 1e-6), np.nan)
    return radial, radial + beta


class Made(NamedTuple):
    """Areas of N VOR/DME holds: basic and whole, corners C (N, K, 2), and whether each could be made."""

    basic: shapes.Reach
    whole: shapes.Reach
    corners_nm: np.ndarray
    made: np.ndarray


def build(values, limits: Limits, fix: shapes.Reach, arrivals: Arrivals, step_deg: float = 1.0) -> Made:
    """Basic area of VOR/DME holds, and with the entries: arrivals along the inbound radial and along the fix's arc.

    Basic: the turn at the fix over the tolerance area, the outbound end, the turn inbound from every place of it,
    joined by common tangents. Entries: direct and parallel ones as for other holds to the same arcs; against the
    inbound radial on a track 30 degrees off to the limiting distance. Arrivals from everywhere are these:
    along the radial both ways and along the arc both ways.
    Source: Doc 8168 Vol II, pp. I-4-3-App C-14 to C-16; curves derived here.
    """
    count = len(values["v"])
    origin = shapes.Discs(np.zeros((count, 1)), np.zeros((count, 1)), 0.0)
    start = shapes.Sum(shapes.turning(first_turn(values, 180.0, step_deg), count), fix)
    back = turn_back(values, 180.0, 180.0, 1, step_deg)
    end = outbound_end(start, values, 180.0, limits)
    basic = shapes.Hull(start, fix, end.shape, shapes.Sum(end.shape, back))
    given = np.where(arrivals.everywhere[:, None], np.array([90.0, -90.0, 180.0]), np.nan)
    both = Arrivals(np.zeros(count, dtype=bool), np.concatenate([given, arrivals.heading_deg], axis=1))
    parts, made = [basic], end.made.copy()
    for kind, way, heading, turned in ((0, 1, 180.0, 180.0), (2, -1, 180.0, 225.0), (1, 1, 150.0, 210.0)):
        for one in sectors(both, kind):
            if kind == 1:
                # From c on the arrival heading, turned by up to 30 degrees: the 30 degree track.
                a = np.radians(one.from_deg)
                wind = values["Wc"] + 30.0 * values["E45"] / 45.0
                turns = shapes.Discs(*[x[:, None] for x in (values["ac"] * np.cos(a), values["ac"] * np.sin(a), wind)])
            else:
                turns = first_turns(values, one.from_deg, one.to_deg, way)
            begin = shapes.Sum(turns, fix)
            there = outbound_end(begin, values, heading, limits)
            made &= there.made | ~one.given
            turning = turn_back(values, heading, turned, way, step_deg)
            more = shapes.Hull(begin, there.shape, shapes.Sum(there.shape, shapes.Hull(origin, turning)))
            parts.append(shapes.OnlyWhere(one.given & there.made, more))
    return Made(basic, shapes.Hull(*parts), end.corners_nm, made)
