"""The ICAO holding template: numbered lines against printed and recomputed values, and its outline against a hull of
discs made here from the formulas, scalar, in plane and on the earth.

Formulas of ICAO Doc 8168 Vol II, 5th ed. 2006, Table I-4-3-App C-4, are from memory; the sister Table App C-1 (base
turn) is published with a worked example. The exact hull is found in two ways: a convex hull of densely drawn circles
(shapely), and the integral of the support function.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Polygon

from fixwright.geometry import convex, flight
from fixwright.geometry.protection import icao, placing

WGS84 = Geodesic.WGS84
DATA = Path(__file__).parent / "data"


def _rows(name: str) -> list[dict[str, str]]:
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


# --- numbered lines


def _line(values, name: str) -> float:
    """A line of the table; those of the base turn from the lines that both tables share."""
    v, w, t = values["v"], values["w'"], values["t"]
    # 0.164 h tan 40, the NDB's cone of the base turn example (station at 0 ft), is no line of the holding table.
    cone = 0.164 * float(values["h"]) * math.tan(math.radians(40.0))
    if name == "R uncapped":
        return float(flight.rate_of_bank_dps(values["V"], 25.0))
    if name == "E":
        return float(values["E45"] / 45.0)
    if name.endswith(" E"):
        return float(name[:-2]) * float(values["E45"] / 45.0)
    if name == "ab1":
        return float((t - 5.0) * (v - w) - cone)
    if name == "ab2":
        return float((t + 21.0) * (v + w) + cone)
    return float(values[name])


@pytest.mark.parametrize("row", _rows("icao_template_lines.csv"), ids=lambda r: f"{r['table']} {r['line']}")
def test_line(row):
    """Base turn: the document's printed example, 140 kt at 6 000 ft, 2 minutes. Holding: recomputed, 220 kt at
    10 000 ft, 1 minute, with K 1.1958 as tabulated."""
    assert row["source"]
    ias = float(row["ias_kt"])
    tas = None if row["table"] == "base turn" or row["line"] == "K" else 1.1958 * ias
    values = icao.lines(ias, float(row["alt_ft"]), float(row["minutes"]), tas_kt=tas)
    assert _line(values, row["line"]) == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
    if row["number"]:
        entry = icao.LINES[int(row["number"]) - 1]
        assert (entry.number, entry.name, entry.unit or "-") == (int(row["number"]), row["line"], row["unit"])


def test_every_line_is_checked():
    assert [r["line"] for r in _rows("icao_template_lines.csv") if r["number"]] == [line.name for line in icao.LINES]


def test_lines_that_equal_others():
    """ICAO Doc 8168 Vol II, Table I-4-3-App C-4 (from memory): W of i3, i4 and l are those of i1, i2 and k; the time
    of i2 is 14 s after that of i1, and the turns take 4 E45 for a half circle."""
    for ias, alt, minutes in ((90.0, 2000.0, 1.0), (265.0, 30000.0, 1.5)):
        g = {k: float(v) for k, v in icao.lines(ias, alt, minutes).items()}
        half = 180.0 / g["R"]
        assert g["Wi1"] == pytest.approx(g["w'"] * (g["t"] + 6.0 + half), abs=1e-12)
        assert g["Wi2"] == pytest.approx(g["w'"] * (g["t"] + 20.0 + half), abs=1e-12)
        assert g["Wn4"] == pytest.approx(g["w'"] * (g["t"] + 20.0 + 2.0 * half), abs=1e-12)
        assert g["Wg"] == pytest.approx(g["w'"] * (11.0 + half), abs=1e-12)
        assert g["Wp"] == pytest.approx(g["w'"] * (5.0 + 1.5 * half), abs=1e-12)


# --- the outline, made here


def _discs_by_hand(ias, alt, minutes, step, tas=None):
    """(u, s, radius) of the discs, scalar, from the formulas."""
    k = 171233.0 * math.sqrt(288.0 + 15.0 - 0.00198 * alt) / (288.0 - 0.00198 * alt) ** 2.628
    speed = tas if tas else k * ias
    v, rate = speed / 3600.0, min(509.26 / speed, 3.0)
    r, w, t = speed / (62.83 * rate), (2.0 * alt / 1000.0 + 47.0) / 3600.0, 60.0 * minutes
    drift = w / rate
    c5, s5 = math.cos(math.radians(5.0)), math.sin(math.radians(5.0))
    near, far = (t - 5.0) * v, (t + 21.0) * v
    late = w * (t + 20.0) + 180.0 * drift

    def turn(u, s, sign, angle):
        return u + sign * r * math.sin(math.radians(angle)), s + sign * r * (1.0 - math.cos(math.radians(angle)))

    out = []
    count = round(180.0 / step)
    for k in range(count + 1):
        angle = k * step
        out.append((*turn(11.0 * v, 0.0, 1.0, angle), 11.0 * w + angle * drift))
        outer, inner = 2.0 * r + far * s5, 2.0 * r - far * s5
        if angle <= 90.0:
            out.append((*turn(11.0 * v - far * c5, outer, -1.0, angle), late + angle * drift))
        if angle >= 90.0:
            out.append((*turn(11.0 * v - far * c5, inner, -1.0, angle), late + angle * drift))
    out.append((11.0 * v - near * c5, 2.0 * r + near * s5, w * (t + 6.0) + 180.0 * drift))
    out.append((11.0 * v - near * c5, -near * s5, w * (t + 6.0) + 360.0 * drift))
    # Not on the outline by the document; if they were, the hull would show it.
    out.append((11.0 * v - near * c5, 2.0 * r - near * s5, w * (t + 6.0) + 180.0 * drift))
    out.append((11.0 * v - far * c5, 2.0 * r - far * s5, late))
    return np.array(out)


def _reach(discs, alpha):
    """Support function of the hull of discs."""
    best = np.full(len(alpha), -np.inf)
    cos, sin = np.cos(alpha), np.sin(alpha)
    for u, s, w in discs:
        np.maximum(best, u * cos + s * sin + w, out=best)
    return best


FINE = np.radians(np.arange(0.0, 360.0, 0.1))


def _directions(discs, shifts):
    """Directions in which to measure: every tenth of a degree, and across the straight edges, which lie between;
    without them a long edge would seem to be metres off."""
    low, high = FINE, np.append(FINE[1:], 2.0 * np.pi)
    reach = discs[:, :1] * np.cos(low) + discs[:, 1:2] * np.sin(low) + discs[:, 2:]
    here = np.argmax(reach, axis=0)
    after = np.roll(here, -1)
    turn = here != after
    low, high, one, two = low[turn], high[turn], discs[here[turn]], discs[after[turn]]
    for _ in range(50):  # halving: where both discs reach equally far
        middle = (low + high) / 2.0
        lead = (one - two)[:, 0] * np.cos(middle) + (one - two)[:, 1] * np.sin(middle) + (one - two)[:, 2]
        low, high = np.where(lead > 0.0, middle, low), np.where(lead > 0.0, high, middle)
    sides = (shifts[:, None] - shifts[None]).reshape(-1, 2)
    sides = sides[np.hypot(sides[:, 0], sides[:, 1]) > 0.0]
    return np.concatenate([FINE, low, np.arctan2(sides[:, 0], -sides[:, 1])])


def _outside_m(points, discs, tolerance_area=((0.0, 0.0),)):
    """How far points lie outside the hull of discs moved over a tolerance area, metres; negative inside."""
    shifts = np.array(tolerance_area)
    alpha = _directions(discs, shifts)
    h = _reach(discs, alpha)
    h = h + np.max(np.cos(alpha)[:, None] * shifts[:, 0] + np.sin(alpha)[:, None] * shifts[:, 1], axis=1)
    return (points[:, :1] * np.cos(alpha) + points[:, 1:] * np.sin(alpha) - h).max(axis=1) * 1852.0


def _hull_area(discs, every_deg) -> float:
    """Area of the convex hull of circles drawn point by point."""
    a = np.radians(np.arange(0.0, 360.0, every_deg))
    ring = np.stack([np.cos(a), np.sin(a)], axis=-1)
    drawn = (discs[:, None, :2] + discs[:, 2, None, None] * ring).reshape(-1, 2)
    return MultiPoint(drawn).convex_hull.area


def _integral_area(discs) -> float:
    """Area as half the integral of h^2 - h'^2, the support function and its slope."""
    step = np.radians(0.02)
    alpha = np.arange(0.0, 2.0 * np.pi, step) + step / 2.0
    cos, sin = np.cos(alpha), np.sin(alpha)
    h, slope = np.full(len(alpha), -np.inf), np.zeros(len(alpha))
    for u, s, w in discs:
        reach = u * cos + s * sin + w
        slope = np.where(reach > h, s * cos - u * sin, slope)
        np.maximum(h, reach, out=h)
    return float(np.sum(h**2 - slope**2)) * step / 2.0


EXACT = [
    # ias, alt, step, area of the exact hull NM2
    (220.0, 10000.0, 45.0, 157.662),
    (220.0, 10000.0, 1.0, 159.908),
    (170.0, 5000.0, 45.0, 65.143),
    (170.0, 5000.0, 1.0, 65.783),
]


@pytest.mark.parametrize(("ias", "alt", "step", "area"), EXACT)
def test_area_of_the_exact_template(ias, alt, step, area):
    """Hull of discs by two routes of this file, and by the module with a hair's tolerance: within 0.01 NM2."""
    discs = _discs_by_hand(ias, alt, 1.0, step)
    by_hull, by_integral = _hull_area(discs, 0.5), _integral_area(discs)
    assert by_hull == pytest.approx(by_integral, abs=0.003)
    assert by_integral == pytest.approx(area, abs=0.003)
    alpha, h = icao.basic_support(icao.lines(ias, alt, 1.0), step_deg=step)
    assert Polygon(convex.circumscribed(alpha, h, 1e-4)).area == pytest.approx(by_integral, abs=0.01)


EXTENTS = _rows("icao_template_extents.csv")


@pytest.mark.parametrize("row", EXTENTS, ids=lambda r: f"{r['ias_kt']} {r['step_deg']} {r['extent']}")
def test_extents_of_the_template(row):
    """Computed from the line formulas (from memory): hull of the tabulated discs, and of discs every degree."""
    assert row["source"]
    values = icao.lines(float(row["ias_kt"]), float(row["alt_ft"]), float(row["minutes"]))
    alpha, h = icao.basic_support(values, step_deg=float(row["step_deg"]))
    polygon = Polygon(convex.circumscribed(alpha, h, 1e-4))
    got = {**dict(zip(("xmin", "ymin", "xmax", "ymax"), polygon.bounds)), "area": polygon.area}[row["extent"]]
    assert got == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


DESIGNS = st.tuples(
    st.floats(70.0, 280.0), st.floats(0.0, 14000.0), st.floats(1.0, 3.0), st.sampled_from([45.0, 5.0, 1.0])
)


@settings(max_examples=25)
@given(DESIGNS)
def test_the_template_is_the_hull_of_the_document_s_discs(design):
    """Its support function equals that of the discs made here, i3 and i4 among them, in every direction."""
    ias, alt, minutes, step = design
    alpha, h = icao.basic_support(icao.lines(ias, alt, minutes), step_deg=step)
    np.testing.assert_allclose(h, _reach(_discs_by_hand(ias, alt, minutes, step), alpha), rtol=0.0, atol=1e-9)


# --- polygons that protect

corners = st.lists(st.tuples(st.floats(-3.0, 3.0), st.floats(-3.0, 3.0)), min_size=1, max_size=5)


def _contains(ring, centres, radii) -> float:
    """Least gap, NM, between an open counter-clockwise ring and discs inside: negative where one sticks out."""
    edge = np.roll(ring, -1, axis=0) - ring
    normal = np.stack([edge[:, 1], -edge[:, 0]], axis=1) / np.hypot(edge[:, 0], edge[:, 1])[:, None]
    return float((np.sum(normal * ring, axis=1)[:, None] - normal @ centres.T - radii).min())


@settings(max_examples=20)
@given(DESIGNS, corners, st.sampled_from([2.0, 5.0, 50.0]))
def test_the_drawn_area_holds_every_disc_at_every_corner(design, tolerance_area, tolerance_m):
    """And exceeds their hull by no more than the tolerance. Every disc is moved to every corner of the fix tolerance
    area, as the document draws its template there (I-4-3-App C-11, 3.3.3.1)."""
    ias, alt, minutes, step = design
    made = icao.basic_areas(
        ias, alt, minutes, tolerance_areas_nm=[np.array(tolerance_area)], tolerance_m=tolerance_m, step_deg=step
    )[0]
    discs = _discs_by_hand(ias, alt, minutes, step)
    shifts = np.array(tolerance_area)
    centres = (discs[:, None, :2] + shifts).reshape(-1, 2)
    assert _contains(made.ring_nm, centres, np.repeat(discs[:, 2], len(shifts))) >= 0.0
    assert _outside_m(made.ring_nm, discs, tolerance_area).max() <= tolerance_m


def test_the_sum_is_the_hull_of_shifted_copies():
    """Template and tolerance area added, against shapely's hull of the template drawn at each corner."""
    quadrilateral = np.array([(-0.5, -1.8), (0.6, -1.9), (0.6, 1.9), (-0.5, 1.8)])
    values = icao.lines(220.0, 10000.0, 1.0)
    alpha, h = icao.basic_support(values, quadrilateral)
    ours = Polygon(convex.circumscribed(alpha, h, 1e-4))
    discs = _discs_by_hand(220.0, 10000.0, 1.0, 1.0)
    ring = np.stack([np.cos(FINE[::10]), np.sin(FINE[::10])], axis=-1)
    drawn = (discs[:, None, :2] + discs[:, 2, None, None] * ring).reshape(-1, 2)
    template = np.array(MultiPoint(drawn).convex_hull.exterior.coords)
    theirs = MultiPoint((template[:, None] + quadrilateral).reshape(-1, 2)).convex_hull
    assert ours.symmetric_difference(theirs).area < 0.01
    assert ours.hausdorff_distance(theirs) * 1852.0 < 1.0


PLACES = [
    (10.0, 50.0, 73.0, 1),
    (179.99, -33.5, 262.5, -1),
    (-20.0, 85.0, 10.0, 1),
    (140.0, 85.0, 90.0, -1),
    (-60.0, -85.0, 300.0, 1),
    (0.0, 0.0, 45.0, 1),
    (-179.95, 70.0, 180.0, -1),
]


@pytest.mark.parametrize(("lon", "lat", "inbound", "side"), PLACES)
@pytest.mark.parametrize(
    ("ias", "alt", "minutes", "tolerance_m"),
    [(120.0, 5000.0, 1.0, 5.0), (280.0, 14000.0, 1.5, 50.0), (265.0, 34000.0, 1.5, 5.0)],
)
def test_the_area_on_the_earth(ias, alt, minutes, lon, lat, inbound, side, tolerance_m):
    """Points on the ring's chords, straight in longitude and latitude as a layer draws them, brought to the frame with
    geographiclib: never inside the exact hull, never farther outside than the tolerance."""
    made = icao.basic_areas(ias, alt, minutes, tolerance_m=tolerance_m)[0]
    coords, offsets = placing.place_rings([lon], [lat], [inbound], [side], [made.ring_nm], tolerance_m)
    assert offsets.tolist() == [0, len(coords)]
    assert coords[0].tolist() == coords[-1].tolist()
    points = []
    for a, b in zip(coords, coords[1:]):
        for k in (0.0, 0.33, 0.67):
            x, y = a + k * (b - a)
            out = WGS84.Inverse(lat, lon, y, x)
            beta = math.radians(side * ((out["azi1"] - inbound + 180.0) % 360.0 - 180.0))
            points.append((out["s12"] / 1852.0 * math.cos(beta), out["s12"] / 1852.0 * math.sin(beta)))
    # Above 14 000 ft the speed is the document's compressible conversion, which has tests of its own.
    discs = _discs_by_hand(ias, alt, minutes, 1.0, made.tas_kt if alt > 14000.0 else None)
    outside = _outside_m(np.array(points), discs)
    assert outside.min() >= 0.0
    assert outside.max() <= tolerance_m
