"""Fix tolerance areas against the documents' figures and against places computed with geographiclib.

ICAO Doc 8168 Vol II, 5th ed. 2006, Part I, Section 2, Chapter 2, and FAA Order 8260.3; every row of the data files
names its source and says what could be seen and what is from memory. The stations are invented.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import reasons
from fixwright.geometry.fixes import Station
from fixwright.geometry.tolerance import accuracy, figures
from fixwright.geometry.tolerance.areas import areas
from fixwright.geometry.tolerance.methods import GNSS, OVERHEAD, RADIAL_ARC, RADIAL_RADIAL
from fixwright.geometry.tolerance.overhead import overhead_cone

NM = 1852.0
ICAO, FAA = 0, 1


def _rows(name: str) -> list[dict[str, str]]:
    with open(Path(__file__).parent / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


QUANTITIES = {
    "icao_dme": lambda slant: accuracy.dme_tolerance_nm(slant, ICAO),
    "faa_dme": lambda slant: accuracy.dme_tolerance_nm(slant, FAA),
    "vor_cone": lambda h: overhead_cone(h, "VOR")[0],
    "ndb_cone": lambda h: overhead_cone(h, "NDB")[0],
    "vor_entry": lambda h: (lambda z, eta: z * math.sin(math.radians(eta)))(*overhead_cone(h, "VOR")),
    "displacement_towards": lambda *a: accuracy.fix_displacement_nm(*a)[0],
    "displacement_away": lambda *a: accuracy.fix_displacement_nm(*a)[1],
    "root_sum_square": accuracy.root_sum_square,
}


@pytest.mark.parametrize("row", _rows("fix_tolerance.csv"), ids=lambda row: f"{row['quantity']} {row['inputs']}")
def test_figures(row):
    got = QUANTITIES[row["quantity"]](*[float(x) for x in row["inputs"].split()])
    assert row["source"]
    assert float(got) == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize(
    ("kind", "rules", "track", "cross"),
    [
        ("VOR", ICAO, 5.2, 4.5),  # ICAO Doc 8168 Vol II, 5th ed., Table I-2-2-1, from memory
        ("NDB", ICAO, 6.9, 6.2),
        ("LOC", ICAO, 2.4, 1.4),
        ("VORTAC", FAA, 4.5, 3.6),  # FAA Order 8260.3, section on fixes, from memory; 3.6 seen in a quotation
        ("TACAN", FAA, 4.5, 3.6),
        ("NDB/DME", FAA, 5.0, 5.0),
        ("LOC", FAA, 1.0, 0.5),
    ],
)
def test_angles(kind, rules, track, cross):
    assert float(accuracy.angle_tolerance_deg(kind, True, rules)) == track
    assert float(accuracy.angle_tolerance_deg(kind, False, rules)) == cross


@pytest.mark.parametrize("name", sorted(figures.COMPONENTS))
def test_an_angle_is_made_of_its_components(name):
    """Doc 8168 Vol II, I-2-2, 2.3.3: the root sum square, to the printed tenth."""
    whole = accuracy.root_sum_square(*[part.value for part in figures.COMPONENTS[name]])
    assert float(whole) == pytest.approx(figures.FIGURES[name].value, abs=0.051)


def test_every_figure_has_a_mark_and_a_source():
    every = list(figures.FIGURES.values()) + [f for parts in figures.COMPONENTS.values() for f in parts]
    for figure in every:
        assert figure.value > 0.0 and figure.unit and figure.source
        assert figure.mark in ("published", "from memory", "derived")


def _direct(lon, lat, azimuth, nm):
    at = Geodesic.WGS84.Direct(lat, lon, azimuth, nm * NM)
    return at["lon2"], at["lat2"], at["azi2"]


def _geodesic_area_nm2(corners) -> float:
    """Area between geodesics through places (lon, lat), by geographiclib."""
    polygon = Geodesic.WGS84.Polygon()
    for lon, lat in corners:
        polygon.AddPoint(lat, lon)
    return abs(polygon.Compute()[2]) / NM**2


def _expected(case: str) -> np.ndarray:
    rows = [row for row in _rows("fix_tolerance_corners.csv") if row["case"] == case]
    return np.array([[float(row["lon_deg"]), float(row["lat_deg"])] for row in rows])


def test_radial_and_dme():
    """VOR/DME at sea level, radial 073 true, DME 20.0 at 6 000 ft: alpha 5.2, 0.25 NM + 1.25 %. Geographiclib."""
    lon, lat, course = _direct(10.0, 50.0, 73.0, 19.975608)
    vor = Station.of(10.0, 50.0, 0.0, 0.0, "VOR/DME")
    got = areas(RADIAL_ARC, vor, None, lon, lat, course, azimuth_2_deg=np.nan, azimuth_1_deg=73.0,
                          slant_2_nm=20.0, alt_ft=6000.0, tolerance_m=0.01)  # fmt: skip
    assert got.code[0] == reasons.OK
    assert (got.angle_1_deg[0], got.range_2_nm[0]) == (5.2, 0.5)
    np.testing.assert_allclose(got.corners[0], _expected("radial_dme"), rtol=0.0, atol=1e-9)
    ground = [Geodesic.WGS84.Inverse(50.0, 10.0, y, x)["s12"] / NM for x, y in got.corners[0]]
    np.testing.assert_allclose(ground, [19.474981, 20.476203] * 2, rtol=0.0, atol=1e-6)
    # the plane sector, (R^2 - r^2) alpha; on the earth an area at 20 NM is smaller by (20 / 3440)^2 / 6 of itself
    assert got.area_nm2[0] == pytest.approx(3.630285, rel=2e-5)
    # the four corners alone miss the arcs: 3.610
    assert _geodesic_area_nm2(got.corners[0][[0, 1, 3, 2]]) == pytest.approx(3.610, abs=5e-4)
    # the outer arc reaches rho (1 - cos alpha) beyond the chord of its corners, in the plane
    assert 20.476203 * (1.0 - math.cos(math.radians(5.2))) == pytest.approx(0.084, abs=5e-4)
    assert got.along_ahead_nm[0] == pytest.approx(20.476203 - 19.975608, abs=2e-5)
    assert got.along_behind_nm[0] == pytest.approx(
        19.975608 - 19.474981 * math.cos(math.radians(5.2)),
        abs=5e-4,  # the near corners hang back, in the plane
    )
    assert got.across_left_nm[0] == pytest.approx(20.476203 * math.sin(math.radians(5.2)), abs=5e-4)
    assert got.across_right_nm[0] == pytest.approx(got.across_left_nm[0], abs=1e-4)


def test_two_radials():
    """Radials 062 (course flown, 5.2) and 171 (crossing, 4.5) of two invented VORs. Geographiclib."""
    first, second = Station.of(10.0, 50.0, kind="VOR"), Station.of(10.9, 50.5, kind="VOR")
    course = Geodesic.WGS84.Inverse(50.0, 10.0, 50.317906984, 10.945042230)["azi2"]
    got = areas(RADIAL_RADIAL, first, second, 10.945042230, 50.317906984, course,
                          azimuth_1_deg=62.0, azimuth_2_deg=171.0, tolerance_m=0.01)  # fmt: skip
    assert (got.angle_1_deg[0], got.angle_2_deg[0]) == (5.2, 4.5)
    np.testing.assert_allclose(got.corners[0], _expected("two_radials"), rtol=0.0, atol=1.1e-9)
    assert _geodesic_area_nm2(_expected("two_radials")[[0, 1, 3, 2]]) == pytest.approx(13.61938, abs=5e-6)
    assert got.area_nm2[0] == pytest.approx(13.61938, abs=1e-4)


@pytest.mark.parametrize(
    ("kind", "radius", "near", "far"),
    [
        ("VOR", 1.1727, (-1.1558, 0.1980), (1.1039, 0.3957)),  # Doc 8168 Vol II p. I-2-2-4; exits computed
        ("NDB", 0.8257, (-0.7975, 0.2137), (0.7483, 0.3489)),
    ],
)
def test_overhead(kind, radius, near, far):
    """6 000 ft above the station: V1 and V2 (N1 and N2) in the frame of the course flown, left side first."""
    station = Station.of(10.0, 50.0, 1200.0, 0.0, kind)
    got = areas(OVERHEAD, station, None, 10.0, 50.0, 137.0, alt_ft=7200.0, tolerance_m=0.01)
    frame = []
    for lon, lat in got.corners[0]:
        line = Geodesic.WGS84.Inverse(50.0, 10.0, lat, lon)
        angle = math.radians(line["azi1"] - 137.0)
        frame.append((line["s12"] / NM * math.cos(angle), line["s12"] / NM * math.sin(angle)))
    expected = [(near[0], -near[1]), (far[0], -far[1]), near, far]
    np.testing.assert_allclose(frame, expected, rtol=0.0, atol=6e-5)
    # the arcs bulge over the corners: the area reaches one radius ahead and behind
    assert got.along_ahead_nm[0] == pytest.approx(radius, abs=1e-4)
    assert got.along_behind_nm[0] == pytest.approx(radius, abs=1e-4)
    assert got.across_right_nm[0] == pytest.approx(far[1], abs=1e-4)


def test_entry_angle_of_the_vor_is_the_same_at_every_height():
    """d = 0.033 h on a circle of 0.164 h tan 50: 9.721 degrees, derived from Doc 8168 Vol II p. I-2-2-4."""
    np.testing.assert_allclose(overhead_cone([100.0, 6000.0, 40000.0], "VOR")[1], 9.721, rtol=0.0, atol=5e-4)


def test_gnss_defaults():
    """RNAV 1 within 30 NM of the aerodrome: 0.8 along, 1.0 across (ICAO Doc 8168 Vol II, Part III, from memory)."""
    got = areas(GNSS, None, None, 10.0, 50.0, 30.0, tolerance_m=0.01)
    widths = [got.along_ahead_nm[0], got.along_behind_nm[0], got.across_left_nm[0], got.across_right_nm[0]]
    np.testing.assert_allclose(widths, [0.8, 0.8, 1.0, 1.0], rtol=0.0, atol=1e-5)
    assert got.area_nm2[0] == pytest.approx(3.2, abs=1e-4)
