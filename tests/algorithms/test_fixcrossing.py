"""Fix at a crossing: every pair of lines, the lines drawn, what is refused and what is rejected.

Navaids are invented and lie on open ocean. Places are measured back with geographiclib.
"""

from __future__ import annotations

import math

import pytest
from geographiclib.geodesic import Geodesic

from fixwright.tests.algorithms.layers import DATE, core, layer, refusal, run

WGS84 = Geodesic.WGS84
NM, FT_PER_NM = 1852.0, 1852.0 / 0.3048
FIELDS = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double", "dme_lat:double", "dme_lon:double",
          "dme_elev_ft:double")  # fmt: skip
STATIONS = (
    ((-40.0, 43.0), "QLF", "VOR/DME", 600.0, -14.0, None, None, None),
    ((-39.2, 43.5), "KVT", "VOR/DME", 300.0, -15.0, None, None, None),
    ((-40.6, 43.4), "NDX", "NDB", 100.0, None, None, None, None),
    ((-39.6, 42.7), "SIT", "VOR", 100.0, -13.0, None, None, None),
    ((-39.6, 42.7), "SIT", "NDB", 100.0, None, None, None, None),
    ((-38.9, 43.1), "APD", "VOR/DME", 200.0, -15.0, 43.11, -38.92, 400.0),
    ((179.8, -17.2), "QAN", "VOR", 50.0, 12.0, None, None, None),
    ((-179.6, -17.6), "QAM", "VOR/DME", 50.0, 12.0, None, None, None),
)
RADIALS = dict(A_IDENT="QLF", A_KIND="radial", A_VALUE=75, B_IDENT="KVT", B_KIND="radial", B_VALUE=210, DATE=DATE)
RADIAL_ARC = {**RADIALS, "B_KIND": "distance", "B_VALUE": 25, "ALTITUDE": 6000}
ARCS = {**RADIAL_ARC, "A_KIND": "distance", "A_VALUE": 30}


def _navaids():
    return layer(FIELDS, STATIONS)


def _found(**parameters):
    return run("fixcrossing", INPUT=_navaids(), **parameters)


def _inverse(one, two):
    line = WGS84.Inverse(one[1], one[0], two[1], two[0])
    return line["azi1"] % 360.0, line["s12"] / NM


def _place(row):
    point = row["geometry"].asPoint()
    assert (row["lon"], row["lat"]) == (point.x(), point.y())
    return point.x(), point.y()


QLF, KVT = STATIONS[0][0], STATIONS[1][0]


def test_two_radials():
    made = _found(**RADIALS)
    assert made.counts == (1, 1, 0)
    (row,) = made.rows("FIXES")
    assert _inverse(QLF, _place(row))[0] == pytest.approx(61.0, abs=1e-8)
    assert _inverse(KVT, _place(row))[0] == pytest.approx(195.0, abs=1e-8)
    assert (row["fix"], row["method"], row["line"], row["line_2"]) == (
        "QLF R075 + KVT R210", "crossing", "radial", "radial",
    )  # fmt: skip
    assert (row["navaid"], row["navaid_2"], row["navaid_2_kind"]) == ("QLF", "KVT", "VOR/DME")
    assert (row["radial_deg"], row["radial_2_deg"]) == pytest.approx((75.0, 210.0), abs=1e-8)
    assert row["dist_2_nm"] == pytest.approx(_inverse(KVT, _place(row))[1], abs=1e-6)
    assert 40.0 < row["cut_deg"] < 50.0 and row["var_date"] == DATE
    assert made.layer("REJECTS").featureCount() == 0


def test_radial_and_arc_both_places_the_nearer_first():
    made = _found(**RADIAL_ARC)
    assert made.counts == (1, 1, 0)
    near, far = made.rows("FIXES")
    ground = math.sqrt(25.0**2 - (5700.0 / FT_PER_NM) ** 2)
    for row in (near, far):
        assert _inverse(QLF, _place(row))[0] == pytest.approx(61.0, abs=1e-8)
        assert _inverse(KVT, _place(row))[1] == pytest.approx(ground, abs=1e-6)
        assert row["dme_2_nm"] == pytest.approx(25.0, abs=1e-6)
    assert near["dist_nm"] < far["dist_nm"]
    assert (near["fix"], far["fix"]) == ("QLF R075 + KVT D25.0", "QLF R075 + KVT D25.0 (2)")
    assert "is taken" in far["assumed"] and near["assumed"] is None


def test_the_arc_may_come_first():
    turned = {**RADIAL_ARC, "A_IDENT": "KVT", "A_KIND": "distance", "A_VALUE": 25,
              "B_IDENT": "QLF", "B_KIND": "radial", "B_VALUE": 75}  # fmt: skip
    for one, other in zip(_found(**RADIAL_ARC).rows("FIXES"), _found(**turned).rows("FIXES")):
        assert _place(one) == pytest.approx(_place(other), abs=1e-10)
        assert (other["line"], other["line_2"], other["navaid"]) == ("distance", "radial", "KVT")
        assert other["dme_nm"] == pytest.approx(25.0, abs=1e-6)


def test_two_arcs_the_left_first():
    left, right = _found(**ARCS).rows("FIXES")
    base = _inverse(QLF, KVT)[0]
    for row, sign in ((left, -1.0), (right, 1.0)):
        assert sign * math.remainder(_inverse(QLF, _place(row))[0] - base, 360.0) > 0.0
        assert (row["dme_nm"], row["dme_2_nm"]) == pytest.approx((30.0, 25.0), abs=1e-6)


def test_distance_along_the_ground_needs_no_altitude():
    given = {name: value for name, value in RADIAL_ARC.items() if name != "ALTITUDE"}
    for row in _found(**given, DISTANCE_KIND="ground").rows("FIXES"):
        assert _inverse(KVT, _place(row))[1] == pytest.approx(25.0, abs=1e-7)
        assert row["dme_2_nm"] is None and row["alt_ft"] is None


def test_radial_and_distance_of_one_navaid():
    given = {**RADIAL_ARC, "B_IDENT": "QLF"}
    (row,) = _found(**given, DISTANCE_KIND="ground").rows("FIXES")
    assert _inverse(QLF, _place(row)) == pytest.approx((61.0, 25.0), abs=1e-7)
    assert row["cut_deg"] == pytest.approx(90.0)


def test_an_arc_round_a_dme_of_its_own_site():
    given = {**RADIAL_ARC, "B_IDENT": "APD", "B_VALUE": 30}
    made = _found(**given)
    site = (-38.92, 43.11)
    for row in made.rows("FIXES"):
        slant = math.hypot(_inverse(site, _place(row))[1], 5600.0 / FT_PER_NM)
        assert slant == pytest.approx(30.0, abs=1e-6)
        assert row["dme_2_nm"] == pytest.approx(30.0, abs=1e-6)
    arc = made.rows("LINES")[1]["geometry"]
    reach = [_inverse(site, (point.x(), point.y()))[1] for point in arc.vertices()]
    assert max(reach) - min(reach) < 1e-6


def test_a_bearing_of_an_ndb_is_read_at_the_fix():
    given = {**RADIALS, "A_IDENT": "ndx", "A_VALUE": 130, "B_VALUE": 240}
    (row,) = _found(**given).rows("FIXES")
    to_ndb = _inverse(_place(row), STATIONS[2][0])[0]
    assert math.remainder(to_ndb - 310.0 - row["var_deg"], 360.0) == pytest.approx(0.0, abs=1e-7)
    assert row["fix"] == "NDX B130 + KVT R240"
    assert row["radial_deg"] == pytest.approx(130.0, abs=1e-7)


@pytest.mark.parametrize("north", ["station", "model", "true"])
def test_three_norths(north):
    (row,) = _found(**RADIALS, NORTH=north).rows("FIXES")
    from fixwright.geometry.magnetism import declination_deg

    azimuth = _inverse(QLF, _place(row))[0]
    add = {"station": -14.0, "true": 0.0, "model": float(declination_deg(*QLF, year=2026.66575))}[north]
    assert azimuth == pytest.approx(75.0 + add, abs=1e-5)


def test_another_crs():
    source = _navaids()
    to = core.QgsCoordinateTransform(
        source.crs(), core.QgsCoordinateReferenceSystem("EPSG:3857"), core.QgsCoordinateTransformContext()
    )
    moved = [((p.x(), p.y()), *rest) for p, rest in
             ((to.transform(core.QgsPointXY(*place)), rest) for place, *rest in STATIONS)]  # fmt: skip
    other = run("fixcrossing", INPUT=layer(FIELDS, moved, crs="EPSG:3857"), **RADIALS).rows("FIXES")
    for one, row in zip(_found(**RADIALS).rows("FIXES"), other):
        assert _place(one) == pytest.approx(_place(row), abs=1e-9)


# --- the lines


def test_lines_of_two_radials():
    """Each from its station through the fix; 3 NM past it."""
    made = _found(**RADIALS)
    (fix,) = made.rows("FIXES")
    lines = made.rows("LINES")
    assert [(row["fix"], row["navaid"], row["line"], row["radial_deg"], row["distance_nm"]) for row in lines] == [
        ("QLF R075 + KVT R210", "QLF", "radial", 75.0, None),
        ("QLF R075 + KVT R210", "KVT", "radial", 210.0, None),
    ]
    for row, station in zip(lines, (QLF, KVT)):
        points = [(point.x(), point.y()) for point in row["geometry"].vertices()]
        assert points[0] == pytest.approx(station, abs=1e-9)
        assert _inverse(station, points[-1])[1] == pytest.approx(_inverse(station, _place(fix))[1] + 3.0, abs=1e-6)
        assert row["geometry"].distance(fix["geometry"]) * 60.0 * NM < 5.0
        assert row["geometry"].wkbType() == core.QgsWkbTypes.Type.MultiLineString


def test_lines_of_both_places():
    made = _found(**RADIAL_ARC)
    fixes = {row["fix"]: row["geometry"] for row in made.rows("FIXES")}
    lines = made.rows("LINES")
    assert len(fixes) == 2 and [row["fix"] for row in lines] == [key for key in fixes for _ in range(2)]
    assert [(row["line"], row["radial_deg"], row["distance_nm"]) for row in lines] == [
        ("radial", 75.0, None), ("distance", None, 25.0),
    ] * 2  # fmt: skip
    for row in lines:
        assert row["geometry"].distance(fixes[row["fix"]]) * 60.0 * NM < 5.0


def test_over_the_antimeridian():
    """The fix has a longitude in range, the lines are cut at 180 degrees."""
    given = {**RADIALS, "A_IDENT": "QAN", "A_VALUE": 65, "B_IDENT": "QAM", "B_VALUE": 320}
    made = _found(**given)
    (fix,) = made.rows("FIXES")
    assert _inverse(STATIONS[6][0], _place(fix))[0] == pytest.approx(77.0, abs=1e-8)
    assert _inverse(STATIONS[7][0], _place(fix))[0] == pytest.approx(332.0, abs=1e-8)
    assert -180.0 < fix["lon"] < -179.0
    first, second = (row["geometry"] for row in made.rows("LINES"))
    assert first.constGet().numGeometries() == 2 and second.constGet().numGeometries() == 1
    assert first.boundingBox().xMinimum() == -180.0 and first.boundingBox().xMaximum() == 180.0
    for part in first.asMultiPolyline():
        assert max(p.x() for p in part) - min(p.x() for p in part) < 1.0


def test_outputs_one_at_a_time_and_none():
    whole = _found(**RADIAL_ARC)
    for kept in ("FIXES", "LINES", "REJECTS"):
        skip = {"FIXES", "LINES", "REJECTS"} - {kept}
        alone = run("fixcrossing", skip=skip, INPUT=_navaids(), **RADIAL_ARC)
        assert [row["geometry"].asWkt(9) for row in alone.rows(kept)] == [
            row["geometry"].asWkt(9) for row in whole.rows(kept)
        ]
        assert not skip & set(alone.results)
    assert run("fixcrossing", skip=("FIXES", "LINES", "REJECTS"), INPUT=_navaids(), **RADIAL_ARC).counts == (1, 1, 0)


# --- what cannot be


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"A_VALUE": 361}, "A_VALUE is 361; a radial must be a number between 0 and 360 degrees."),
        ({"A_VALUE": 401}, "A_VALUE is 401; it must be a number between 0 and 400"),
        ({"B_KIND": "distance", "B_VALUE": 0}, "B_VALUE is 0; a distance must be more than 0 and up to 400 NM."),
        ({"B_KIND": "distance", "B_VALUE": 20}, "DISTANCE_KIND is slant, which needs ALTITUDE"),
        ({"A_KIND": "arc"}, "A_KIND is 'arc'"),
        ({"A_VALUE": None}, "A_VALUE"),
        ({"NORTH": "grid"}, "NORTH is 'grid'"),
        ({"DATE": "2019-01-01"}, "2025-01-01 to 2029-12-31"),
    ],
)
def test_bad_parameters(change, words):
    assert words in refusal("fixcrossing", INPUT=_navaids(), **{**RADIALS, **change})


def test_good_parameters():
    for given in (RADIALS, RADIAL_ARC, ARCS, {**RADIALS, "A_VALUE": 360}):
        assert refusal("fixcrossing", INPUT=_navaids(), **given) == ""


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"A_IDENT": "XYZ"}, "no navaid XYZ with a usable position"),
        ({"A_IDENT": "XYZ", "B_IDENT": "ZYX"}, "no navaid XYZ with a usable position; no navaid ZYX"),
        ({"A_IDENT": "SIT"}, "2 navaids have the ident SIT (NDB, VOR)"),
        ({"A_IDENT": "QLF", "A_NAVAID_KIND": "NDB"}, "no navaid QLF of that kind or id"),
        ({"B_VALUE": 30}, "the lines meet only behind a station"),
        ({"B_IDENT": "QLF"}, "both lines start from the same place"),
        ({"B_KIND": "distance", "B_VALUE": 3, "ALTITUDE": 5000}, "the arc is not reached"),
        ({"B_KIND": "distance", "B_IDENT": "NDX", "B_VALUE": 30, "ALTITUDE": 5000}, "gives no distance"),
        ({"B_KIND": "distance", "B_VALUE": 5, "ALTITUDE": 40000}, "not longer than the height"),
    ],
)
def test_rejects(change, words):
    made = _found(**{**RADIALS, **change})
    assert made.counts == (1, 0, 1)
    (reject,) = made.rows("REJECTS")
    assert words in reject["reason"] and any(words in line for line in made.log)
    assert reject["source_id"].count("+") == 1
    assert made.layer("FIXES").featureCount() == made.layer("LINES").featureCount() == 0


def test_a_kind_tells_two_of_one_ident_apart():
    given = {**RADIALS, "A_IDENT": "SIT", "A_NAVAID_KIND": "VOR", "A_VALUE": 20, "B_VALUE": 220}
    (row,) = _found(**given).rows("FIXES")
    assert (row["navaid_kind"], row["navaid_decl_deg"]) == ("VOR", -13.0)
    (row,) = _found(**{**given, "A_NAVAID_KIND": "ndb"}).rows("FIXES")
    assert (row["navaid_kind"], row["fix"]) == ("NDB", "SIT B020 + KVT R220")


def test_fields_by_other_names():
    named = [field.replace("ident", "call").replace("decl_deg", "north") for field in FIELDS]
    source = layer(named, STATIONS)
    made = run("fixcrossing", INPUT=source, IDENT_FIELD="call", DECLINATION_FIELD="north", **RADIALS)
    (row,) = made.rows("FIXES")
    assert _place(row) == _place(_found(**RADIALS).rows("FIXES")[0])


# --- the sample area


def test_the_sample_plan_has_a_crossing(root):
    """One exercise of the demo lies where a radial meets another station's DME arc; both lines are met there."""
    import csv

    with open(root / "sample_layers" / "plan.csv", encoding="utf-8", newline="") as file:
        (row,) = [row for row in csv.DictReader(file) if row["fix_method"] == "crossing"]
    made = run(
        "fixcrossing", INPUT=f"{root / 'sample_layers' / 'navaids.gpkg'}|layername=navaids", A_IDENT=row["navaid"],
        A_KIND="radial", A_VALUE=float(row["radial_deg"]), B_IDENT=row["navaid_2"], B_KIND="distance",
        B_VALUE=float(row["distance_2_nm"]), ALTITUDE=float(row["alt_ft"]), DATE=DATE,
    )  # fmt: skip
    first, second = made.rows("FIXES")
    assert first["dist_nm"] < second["dist_nm"]
    for fix in (first, second):
        station, other = ((fix[f"navaid{k}_lon"], fix[f"navaid{k}_lat"]) for k in ("", "_2"))
        azimuth = _inverse(station, _place(fix))[0]
        assert abs(math.remainder(azimuth - float(row["radial_deg"]) - fix["navaid_decl_deg"], 360.0)) < 1e-8
        slant = math.hypot(_inverse(other, _place(fix))[1], (16000.0 - fix["navaid_2_elev_ft"]) / FT_PER_NM)
        assert slant == pytest.approx(float(row["distance_2_nm"]), abs=1e-6)
