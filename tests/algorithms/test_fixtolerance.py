"""Fix tolerance areas as an algorithm: over the sample area's fixes and holds, over crossings, into protected areas.

What the areas are is tested in tests/geometry; figures beside a source are those of the published tests.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from geographiclib.geodesic import Geodesic

from fixwright.tests.algorithms.layers import (
    DATE,
    core,
    expression,
    layer,
    of_stations,
    opened,
    refusal,
    rows,
    run,
    saved,
    some_fixes,
    stations,
)

WGS84 = Geodesic.WGS84
NM = 1852.0
WIDTHS = ("along_ahead_nm", "along_behind_nm", "across_left_nm", "across_right_nm")
NO_OVERHEAD = ("the FAA's tolerance area overhead a station is not known here, so none is drawn; choose rules 'icao'")


@pytest.fixture(scope="module")
def demo(root, provider, tmp_path_factory):
    """The sample area's file: fixes and holds of twelve exercises."""
    from fixwright.algorithms.buildarea import BuildArea

    folder = tmp_path_factory.mktemp("demo")
    algorithm = BuildArea(lambda layers, path, **options: Path(path).write_bytes(b"%PDF-"))
    algorithm.initAlgorithm()
    samples = root / "sample_layers"
    parameters = {
        "NAVAIDS": f"{samples / 'navaids.gpkg'}|layername=navaids", "PLAN": str(samples / "plan.csv"),
        "AIRCRAFT": str(samples / "aircraft.csv"), "DATE": DATE, "FOLDER": str(folder),
    }  # fmt: skip
    _, good = algorithm.run(parameters, core.QgsProcessingContext(), core.QgsProcessingFeedback(False))
    assert good
    return lambda name: f"{folder / 'training-area.gpkg'}|layername={name}"


def _fix_rows(source) -> dict[str, dict]:
    return {row["fix"]: row for row in rows(opened(source))}


def _slant(one, row, fix, which="") -> float:
    from math import hypot

    place = row[f"navaid{which}_lat"], row[f"navaid{which}_lon"]
    ground = WGS84.Inverse(*place, one[1], one[0])["s12"] / NM
    return hypot(ground, (fix["alt_ft"] - row[f"navaid{which}_elev_ft"]) * 0.3048 / NM)


# --- the sample area


@pytest.mark.parametrize("name", ["fixes", "holds"])
def test_every_fix_of_the_sample_area_has_an_area(demo, name):
    """A position without a station has no course of its own; its hold has one."""
    made = run("fixtolerance", INPUT=demo(name))
    fixes = _fix_rows(demo(name))
    lost = [key for key, row in fixes.items() if name == "fixes" and row["course_true_deg"] is None]
    assert made.counts == (12, 12 - len(lost), len(lost))
    assert [row["exercise"] for row in made.rows("REJECTS")] == (["E10"] if name == "fixes" else [])
    areas = made.rows("AREAS")
    assert [row["fix"] for row in areas] == [key for key in fixes if key not in lost]
    for row in areas:
        fix = fixes[row["fix"]]
        assert row["geometry"].isGeosValid() and row["geometry"].contains(fix["geometry"]), row["fix"]
        assert row["rules"] == "icao" and row["limits"]
        assert all(0.0 < row[width] < 20.0 for width in WIDTHS)
        box = (row["along_ahead_nm"] + row["along_behind_nm"]) * (row["across_left_nm"] + row["across_right_nm"])
        assert 0.2 * box < row["area_nm2"] < 1.01 * box
    kinds = {fixes[row["fix"]]["method"]: row["aids"] for row in areas}
    assert kinds["overhead"] == "overhead" and kinds["coordinates"] == "gnss"
    assert kinds["crossing"] == kinds["radial_distance"] == "radial_arc"


def test_the_fixes_of_the_sample_area_by_what_defines_them(demo):
    made = {row["fix"]: row for row in run("fixtolerance", INPUT=demo("holds")).rows("AREAS")}
    holds = {row["hold"]: row for row in rows(opened(demo("holds")))}
    aids = {key: made[hold["fix"]]["aids"] for key, hold in holds.items()}
    # E05 and E07 lie before waypoints, E09 and E10 are positions: no aid gives their distance
    assert aids == {
        "E01": "overhead", "E02": "radial_arc", "E03": "radial_arc", "E04": "radial_arc", "E05": "gnss",
        "E06": "radial_arc", "E07": "gnss", "E08": "overhead", "E09": "gnss", "E10": "gnss", "E11": "radial_arc",
        "E12": "radial_arc",
    }  # fmt: skip
    ndb = made[holds["E12"]["fix"]]
    assert ndb["angle_1_deg"] == 6.9, "NDB, tracking: ICAO Doc 8168 Vol II, Table I-2-2-1, from memory"
    slant = holds["E12"]["dme_nm"]
    assert ndb["range_2_nm"] == pytest.approx(0.25 + 0.0125 * slant), "ICAO Doc 8168 Vol I, I-2-2, 2.4.2"


def test_the_crossing_of_the_sample_area_lies_between_the_limits_of_both_aids(demo):
    """The radial of one station, 5.2 degrees either side, and the arc of another, 0.25 NM and 1.25 % either side."""
    hold = next(row for row in rows(opened(demo("holds"))) if row["hold"] == "E11")
    area = next(row for row in run("fixtolerance", INPUT=demo("holds")).rows("AREAS") if row["fix"] == hold["fix"])
    azimuth = hold["radial_deg"] + hold["navaid_decl_deg"]
    off, slants = [], []
    for point in area["geometry"].vertices():
        line = WGS84.Inverse(hold["navaid_lat"], hold["navaid_lon"], point.y(), point.x())
        off.append((line["azi1"] - azimuth + 180.0) % 360.0 - 180.0)
        slants.append(_slant((point.x(), point.y()), hold, hold, "_2"))
    assert (min(off), max(off)) == pytest.approx((-5.2, 5.2), abs=0.02)
    tolerance = 0.25 + 0.0125 * 23.0
    assert (min(slants), max(slants)) == pytest.approx((23.0 - tolerance, 23.0 + tolerance), abs=0.005)
    assert area["range_2_nm"] == pytest.approx(tolerance) and area["angle_1_deg"] == 5.2


def test_overhead_by_the_faa_is_refused_with_its_reason(demo):
    made = run("fixtolerance", INPUT=demo("holds"), RULES="faa")
    assert made.counts == (12, 10, 2)
    assert set(made.reasons().values()) == {NO_OVERHEAD}
    assert [row["hold"] for row in made.rows("REJECTS")] == ["E01", "E08"]
    assert {row["rules"] for row in made.rows("AREAS")} == {"faa"}


def test_rules_of_each_row(demo):
    made = run("fixtolerance", INPUT=demo("holds"), RULES=core.QgsProperty.fromField("rules"))
    holds = rows(opened(demo("holds")))
    assert [row["rules"] for row in made.rows("AREAS")] == [row["rules"] for row in holds]


def test_gnss_has_the_values_given(demo):
    made = run("fixtolerance", INPUT=demo("holds"), BASIS="gnss", GNSS_ALONG=0.3, GNSS_ACROSS=0.5)
    assert made.counts == (12, 12, 0)
    for row in made.rows("AREAS"):
        assert row["aids"] == "gnss" and row["limits"].startswith("along-track and cross-track values as given")
        assert [row[width] for width in WIDTHS] == pytest.approx([0.3, 0.3, 0.5, 0.5], abs=0.004)
        assert row["angle_1_deg"] is None and row["range_2_nm"] is None


def test_the_inbound_course_of_the_hold_turns_the_area(demo):
    """E09 is a position with a true inbound course of 300: its rectangle lies along 300, not along the course to its
    station, as the fix itself has it. Corners measured with geographiclib."""
    hold = next(row for row in rows(opened(demo("holds"))) if row["hold"] == "E09")
    assert hold["inbound_true_deg"] == pytest.approx(300.0)
    given = dict(BASIS="gnss", GNSS_ALONG=0.4, GNSS_ACROSS=1.6)
    for name, course in (("holds", 300.0), ("fixes", None)):
        area = next(row for row in run("fixtolerance", INPUT=demo(name), **given).rows("AREAS")
                    if row["fix"] == hold["fix"])  # fmt: skip
        if course is None:
            course = _fix_rows(demo("fixes"))[hold["fix"]]["course_true_deg"]
            assert abs((course - 300.0 + 180.0) % 360.0 - 180.0) > 10.0
        off = set()
        for point in area["geometry"].vertices():
            line = WGS84.Inverse(hold["lat"], hold["lon"], point.y(), point.x())
            if line["s12"] > 1.64 * NM:
                off.add(round((line["azi1"] - course) % 360.0))
        assert off == {76, 104, 256, 284}  # atan(1.6 / 0.4) is 75.96 degrees


# --- crossings


FIELDS = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double")
NAVAIDS = (((10.0, 50.0), "QLF", "VOR/DME", 0.0, 0.0), ((10.9, 50.5), "KVT", "VOR/DME", 0.0, 0.0))
CROSSING = dict(A_IDENT="QLF", A_KIND="radial", A_VALUE=62, B_IDENT="KVT", B_KIND="radial", B_VALUE=171, DATE=DATE,
                NORTH="true", ALTITUDE=6000)  # fmt: skip


def _crossing(**more):
    return run("fixcrossing", INPUT=layer(FIELDS, NAVAIDS), **{**CROSSING, **more}).layer("FIXES")


def test_two_radials():
    """Radials 062 of 50 N 10 E and 171 of 50.5 N 10.9 E, 5.2 and 4.5 degrees: 13.61938 NM squared and four corners,
    computed with geographiclib (angles of ICAO Doc 8168 Vol II, Table I-2-2-1, from memory)."""
    made = run("fixtolerance", INPUT=_crossing(), TOLERANCE=0.5)
    (row,) = made.rows("AREAS")
    assert (row["aids"], row["angle_1_deg"], row["angle_2_deg"]) == ("radial_radial", 5.2, 4.5)
    assert row["area_nm2"] == pytest.approx(13.61938, rel=5e-4)
    points = [(point.y(), point.x()) for point in row["geometry"].vertices()]
    for corner in ((50.390005690, 10.941303874), (50.379240821, 10.914862707), (50.262306555, 10.989009194),
                   (50.247238191, 10.931022516)):  # fmt: skip
        assert min(WGS84.Inverse(*corner, *point)["s12"] for point in points) < 1.0


def test_every_pair_of_lines():
    for change, aids in (
        ({}, "radial_radial"),
        ({"B_KIND": "distance", "B_VALUE": 22}, "radial_arc"),
        ({"A_KIND": "distance", "A_VALUE": 40, "B_VALUE": 200}, "radial_arc"),
        ({"A_KIND": "distance", "A_VALUE": 30, "B_KIND": "distance", "B_VALUE": 25}, "arc_arc"),
    ):
        fixes = _crossing(**change)
        made = run("fixtolerance", INPUT=fixes)
        places = {row["fix"]: row["geometry"] for row in rows(fixes)}
        assert places and made.counts[1] == len(places), change
        for row in made.rows("AREAS"):
            assert row["aids"] == aids
            assert row["geometry"].isGeosValid() and row["geometry"].contains(places[row["fix"]])


def test_a_shallow_cut_has_no_area():
    """Radials that meet at 9 degrees, tolerances 5.2 and 4.5: some limits never cross."""
    made = run("fixtolerance", INPUT=_crossing(A_VALUE=42, B_VALUE=33))
    assert made.counts == (1, 0, 1)
    (why,) = made.reasons().values()
    assert why.startswith("the limits of the two aids do not all cross, so the tolerance area has no bounds")


# --- into protected areas


def test_protected_areas_grow_by_the_tolerance(demo):
    """The area over the tolerance area contains the one over the point, and reaches farther on every side by no more
    than the tolerance area does."""
    areas = run("fixtolerance", INPUT=demo("holds"))
    wide = run("protectedareas", INPUT=demo("holds"), FIX_TOLERANCE=areas.layer("AREAS"))
    point = run("protectedareas", INPUT=demo("holds"))
    assert wide.counts == point.counts == (12, 12, 0)
    tolerances = {row["fix"]: row for row in areas.rows("AREAS")}
    holds = {row["hold"]: row for row in rows(opened(demo("holds")))}
    basic = [[row for row in made.rows("AREAS") if row["part"] == "basic"] for made in (wide, point)]
    assert [len(rows) for rows in basic] == [12, 12]
    for large, small in zip(*basic):
        assert large["hold"] == small["hold"]
        # both may end at one DME arc, and each exceeds its true area by up to 5 m there
        assert large["geometry"].buffer(5.0 / 75_000.0, 16).contains(small["geometry"]), large["hold"]
        assert large["area_nm2"] > small["area_nm2"] + tolerances[holds[large["hold"]]["fix"]]["area_nm2"]
        by = max(tolerances[holds[large["hold"]]["fix"]][width] for width in WIDTHS) * 1.6 / 60.0
        assert small["geometry"].buffer(by * 1.5, 16).contains(large["geometry"]), large["hold"]


def test_a_tolerance_layer_from_a_file(demo, tmp_path):
    kept = saved(run("fixtolerance", INPUT=demo("fixes")).layer("AREAS"), tmp_path / "tolerances.gpkg")
    by_file = run("protectedareas", INPUT=demo("holds"), FIX_TOLERANCE=kept)
    in_memory = run("protectedareas", INPUT=demo("holds"),
                    FIX_TOLERANCE=run("fixtolerance", INPUT=demo("fixes")).layer("AREAS"))  # fmt: skip
    assert [row["area_nm2"] for row in by_file.rows("AREAS")] == pytest.approx(
        [row["area_nm2"] for row in in_memory.rows("AREAS")], rel=1e-9
    )


# --- rows and parameters


def test_a_dme_of_its_own_site():
    """dme_lon and dme_lat pass through the fixes layer: the area is bounded by arcs round that place."""
    fields = (*FIELDS, "dme_lon:double", "dme_lat:double", "dme_elev_ft:double")
    source = layer(fields, [((10.0, 50.0), "QLF", "VOR/DME", 0.0, 0.0, 10.03, 49.98, 0.0)])
    fixes = run("fixradialdistance", INPUT=source, RADIAL=73, DISTANCE=20, DISTANCE_KIND="slant", ALTITUDE=6000,
                NORTH="true", DATE=DATE).layer("FIXES")  # fmt: skip
    (row,) = run("fixtolerance", INPUT=fixes).rows("AREAS")
    reach = [WGS84.Inverse(49.98, 10.03, point.y(), point.x())["s12"] / NM for point in row["geometry"].vertices()]
    height = 6000 * 0.3048 / NM
    assert min(reach) == pytest.approx((19.5**2 - height**2) ** 0.5, abs=0.005)
    assert max(reach) == pytest.approx((20.5**2 - height**2) ** 0.5, abs=0.005)


def test_rows_that_fail_and_rows_that_do_not():
    source = some_fixes()
    second = [feature.id() for feature in source.getFeatures()][1]
    assert source.dataProvider().changeAttributeValues({second: {source.fields().indexOf("course_true_deg"): None}})
    made = run("fixtolerance", INPUT=source, BASIS="gnss")
    assert made.counts == (3, 2, 1)
    assert made.reasons() == {str(second): "there is no course, neither given nor from a navaid or a track"}
    assert made.rows("REJECTS")[0]["fix"] == "QLF R045.5 9.0 NM"
    by_aids = run("fixtolerance", INPUT=some_fixes())  # two of a DME, whose reading needs an altitude, and a VOR
    assert sorted(by_aids.reasons().values()) == ["the altitude is missing"] * 2
    assert [row["aids"] for row in by_aids.rows("AREAS")] == ["gnss"]


def test_over_the_antimeridian():
    given = of_stations(DISTANCE=3.2, RADIAL=82, ALTITUDE=4000)
    fixes = run("fixradialdistance", INPUT=stations(kind="VOR/DME"), **given)
    made = run("fixtolerance", INPUT=fixes.layer("FIXES"), BASIS="gnss", GNSS_ALONG=2, GNSS_ACROSS=2)
    third = made.rows("AREAS")[2]
    assert third["geometry"].constGet().numGeometries() == 2 and third["geometry"].isGeosValid()
    assert third["area_nm2"] == pytest.approx(16.0, rel=0.01)


def test_a_finer_tolerance_is_a_smaller_area():
    source = _crossing(B_KIND="distance", B_VALUE=22)
    coarse, fine = (run("fixtolerance", INPUT=source, TOLERANCE=t).rows("AREAS")[0] for t in (200, 1))
    assert fine["area_nm2"] < coarse["area_nm2"]
    assert fine["geometry"].constGet().nCoordinates() > coarse["geometry"].constGet().nCoordinates()


def test_layers_and_parameters():
    from fixwright.algorithms.common import schema

    made = run("fixtolerance", INPUT=some_fixes())
    assert tuple(made.layer("AREAS").fields().names()) == schema.LAYERS["tolerances"].names
    assert made.layer("AREAS").crs().authid() == "EPSG:4326"
    assert run("fixtolerance", skip=("AREAS", "REJECTS"), INPUT=some_fixes(), BASIS="gnss").counts == (3, 3, 0)
    by_row = run("fixtolerance", INPUT=some_fixes(), BASIS="gnss", GNSS_ALONG=expression("if(ident = 'QLF', 0.5, 1.5)"))
    assert [row["along_ahead_nm"] for row in by_row.rows("AREAS")] == pytest.approx([1.5, 0.5, 1.5], abs=0.004)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"RULES": "easa"}, "RULES is 'easa'; it must be one of 0 icao, 1 faa"),
        ({"BASIS": "radar"}, "BASIS is 'radar'; it must be one of 0 aids, 1 gnss"),
        ({"GNSS_ALONG": 0}, "GNSS_ALONG is 0; it must be a number between 0.01 and 10"),
        ({"TOLERANCE": 0}, "TOLERANCE is 0"),
    ],
)
def test_bad_parameters(change, words):
    assert words in refusal("fixtolerance", INPUT=some_fixes(), **change)


def test_a_layer_that_is_none_of_fixes():
    assert "INPUT has no field fix and no field method; give the fixes or the holds layer" in refusal(
        "fixtolerance", INPUT=stations()
    )
