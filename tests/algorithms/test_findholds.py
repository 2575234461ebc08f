"""Find holds in QGIS: proposals over the sample area, built and tested as any plan is. All places are invented."""

from __future__ import annotations

import itertools

import pytest
from geographiclib.geodesic import Geodesic

from fixwright.tests.algorithms.layers import DATE, Feedback, core, layer, opened, refusal, rows, run
from fixwright.tests.algorithms.test_same_result import command_line  # noqa: F401

HOME = "-39.965,43.005"
SPACING = 8.0
FIELDS = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double", "class:string", "status:string")
NM_M = 1852.0


@pytest.fixture(scope="module")
def samples(root):
    folder = root / "sample_layers"
    return {
        "NAVAIDS": f"{folder}/navaids.gpkg|layername=navaids",
        "DEM": f"{folder}/terrain.tif",
        "OBSTACLES": f"{folder}/obstacles.gpkg|layername=obstacles",
        "AIRSPACE": f"{folder}/airspace.gpkg|layername=airspace",
        "ROUTES": f"{folder}/airspace.gpkg|layername=routes",
        "PLACES": f"{folder}/airspace.gpkg|layername=places",
    }


def asked(samples, **more) -> dict:
    return {**samples, "HOME": HOME, "RADIUS": 40, "RADIAL_STEP": 20, "DISTANCE_FROM": 6, "DISTANCE_TO": 24,
            "DISTANCE_STEP": 3, "ALTITUDE": 2500, "ALTITUDE_TO": 3500, "IAS": 95, "AREA_IAS": 120, "COUNT": 5,
            "SPACING": SPACING, "DATE": DATE, **more}  # fmt: skip


def stations(*more):
    return layer(FIELDS, [((-40.02, 43.03), "OBL", "VOR/DME", 640.0, -14.0, "H", "in service"), *more])


def bare(**more) -> dict:
    """A search over one invented station, without anything to test against."""
    return {"NAVAIDS": stations(), "HOME": HOME, "RADIAL_STEP": 60, "DISTANCE_STEP": 5, "DATE": DATE, **more}


@pytest.fixture(scope="module")
def found(samples):
    return run("findholds", **asked(samples))


@pytest.fixture(scope="module")
def built(samples, found, tmp_path_factory):
    """The plan as found, handed to the whole line with the same layers."""
    folder = tmp_path_factory.mktemp("area")
    import processing

    around = {name: samples[name] for name in samples if name != "NAVAIDS"}
    given = {"NAVAIDS": samples["NAVAIDS"], "PLAN": found.layer("PLAN"), "DATE": DATE, "FOLDER": str(folder), **around}
    processing.run("fixwright:buildarea", given, feedback=Feedback())
    return folder / "training-area.gpkg"


def test_a_plan_that_needs_no_edits(found, built):
    """Each proposal gives a hold, and every test of every hold passes: reception, ground, airspace, each other."""
    plan = found.rows("PLAN")
    assert len(plan) >= 4
    tests = rows(opened(f"{built}|layername=tests"))
    assert [(row["hold"], row["text"]) for row in tests if row["ok"] != 1] == []
    by_test = {name: {row["hold"] for row in tests if row["test"] == name} for name in {row["test"] for row in tests}}
    for name in ("speed", "area_speed", "leg_time", "status", "service_volume", "terrain", "dme_overhead",
                 "minimum_altitude", "airspace", "airspace_track", "separation"):  # fmt: skip
        assert by_test[name] == {row["exercise"] for row in plan}, name


def test_the_margin_is_that_of_the_test(found, built):
    tests = {row["hold"]: row for row in rows(opened(f"{built}|layername=tests")) if row["test"] == "minimum_altitude"}
    for row in found.rows("PLAN"):
        assert row["margin_terrain_ft"] == tests[row["exercise"]]["limit_value"] - tests[row["exercise"]]["value"]


def test_the_airspace_margin_is_not_more_than_what_is_there(found, built):
    """Contacts within the distance allowed that are not clear in height: there are none."""
    contacts = rows(opened(f"{built}|layername=airspace_contacts"))
    assert contacts and all(row["ok"] == 1 for row in contacts)
    assert all(0.0 < row["margin_airspace_nm"] <= 10.0 for row in found.rows("PLAN"))


def test_the_holds_are_those_of_the_built_area(found, built):
    theirs = {row["hold"]: row for row in rows(opened(f"{built}|layername=holds"))}
    mine = found.rows("HOLDS")
    assert len(mine) == len(theirs)
    for row in mine:
        for name in ("lon", "lat", "inbound_true_deg", "turn", "leg_min", "tas_kt", "area_ias_kt", "alt_to_ft", "fix"):
            assert row[name] == theirs[row["hold"]][name], name


def test_proposals_lie_apart_and_near_home(found):
    plan = found.rows("PLAN")
    places = {row["hold"]: (row["lat"], row["lon"]) for row in found.rows("HOLDS")}
    for one, other in itertools.combinations(places.values(), 2):
        assert Geodesic.WGS84.Inverse(*one, *other)["s12"] / NM_M >= SPACING
    for row in plan:
        home = Geodesic.WGS84.Inverse(43.005, -39.965, *places[row["exercise"]])["s12"] / NM_M
        assert row["home_nm"] == pytest.approx(home, abs=1e-6) and home <= 40.0


def test_whole_radials_and_distances(found):
    for row in found.rows("PLAN"):
        assert row["radial_deg"] % 20 == 0 and 20 <= row["radial_deg"] <= 360
        assert row["distance_nm"] in (6, 9, 12, 15, 18, 21, 24) and row["distance_kind"] == "slant"
        assert row["inbound_deg"] == (row["radial_deg"] + 180 - 1) % 360 + 1
    scores = [row["score"] for row in found.rows("PLAN")]
    assert scores == sorted(scores, reverse=True)


def test_the_counts(found):
    counts = {row["test"]: row["candidates"] for row in found.rows("COUNTS")}
    assert sum(counts.values()) == found.results["ROWS_IN"]
    assert counts["chosen"] == found.results["ROWS_OUT"] == len(found.rows("PLAN"))
    assert found.counts[1] + found.counts[2] == found.counts[0]
    assert {"minimum_altitude", "airspace", "service_volume_dme"} <= set(counts)
    for row in found.rows("COUNTS"):
        assert f"{row['candidates']} places: {row['text']}" in found.log


def test_what_is_left_out_is_told(found):
    said = " ".join(found.log)
    assert "OBSTACLES 10: it has no elevation" in said
    assert "give no radial and distance together: left out" in said
    assert "not tested" not in said


def test_what_was_not_given_is_told():
    made = run("findholds", **bare())
    said = " ".join(made.log)
    assert "terrain was not tested" in said and "no DEM was given" in said
    assert "obstacles were not tested" in said and "airspace was not tested" in said
    for row in made.rows("PLAN"):
        assert row["margin_terrain_ft"] is None and row["margin_airspace_nm"] is None
        assert row["alt_to_ft"] is None and row["area_ias_kt"] is None and 0.0 < row["reception"] < 1.0


def test_nothing_found():
    made = run("findholds", **bare(IAS=300))
    assert made.counts[1] == 0 and made.rows("PLAN") == [] and made.rows("HOLDS") == []
    (said,) = [line for line in made.log if line.startswith("No hold passes every test")]
    assert said.endswith("the speed is too fast for the rules.") and said.count(".") == 1


def test_no_navaid_in_reach():
    made = run("findholds", **bare(HOME="10,50"))
    assert made.counts == (0, 0, 0)
    assert "No navaid within reach of home gives a radial and a distance, so there is no place to look at." in made.log


def test_home_in_another_crs():
    transform = core.QgsCoordinateTransform(
        core.QgsCoordinateReferenceSystem("EPSG:4326"), core.QgsCoordinateReferenceSystem("EPSG:3857"),
        core.QgsCoordinateTransformContext(),
    )  # fmt: skip
    place = transform.transform(core.QgsPointXY(-39.965, 43.005))
    one = run("findholds", **bare()).rows("PLAN")
    other = run("findholds", **bare(HOME=f"{place.x()!r},{place.y()!r} [EPSG:3857]")).rows("PLAN")
    assert [row["text"] for row in one] == [row["text"] for row in other] != []


def test_away_from_the_navaid_and_one_side():
    made = run("findholds", **bare(INBOUND="from", SIDES="left", COUNT=3))
    assert len(made.rows("PLAN")) == 3
    for row, hold in zip(made.rows("PLAN"), made.rows("HOLDS")):
        assert row["inbound_deg"] == row["radial_deg"] and row["turn"] == hold["turn"] == "left"


def test_unknown_class():
    some = layer(FIELDS, [((-40.02, 43.03), "OBL", "VOR/DME", 640.0, -14.0, None, None)])
    assert run("findholds", **bare(NAVAIDS=some)).counts[1] == 0
    assert run("findholds", **bare(NAVAIDS=some, UNKNOWN_CLASS="yes")).counts[1] > 0


def test_areas_may_overlap():
    apart, over = (run("findholds", **bare(OVERLAP=word, SPACING=3)).counts[1] for word in ("no", "yes"))
    assert 0 < apart < over


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"HOME": "10,86"}, "HOME is 10,86; it must be a place with a latitude between -85 and 85."),
        ({"RADIAL_STEP": 7.5}, "RADIAL_STEP is 7.5; it must be a number between 1 and 360 degrees, and a whole one."),
        ({"COUNT": 2.5}, "COUNT is 2.5; it must be a number between 1 and 1000, and a whole one."),
        ({"DISTANCE_TO": 3}, "DISTANCE_TO is 3; it must not be lower than DISTANCE_FROM, 5 NM."),
        ({"ALTITUDE_TO": 3000}, "ALTITUDE_TO is 3000; it must not be lower than ALTITUDE, 5000 ft."),
        ({"SIDES": "up"}, "SIDES is 'up'; it must be one of 0 both, 1 right, 2 left."),
        ({"INBOUND": "field:ident"}, "INBOUND takes one value for the whole run, not a field or an expression."),
        ({"DATE": "2031-01-01"}, "DATE is 2031-01-01; it must be from 2025-01-01 to 2029-12-31"),
    ],
)
def test_refused(more, said):
    assert refusal("findholds", **bare(**more)).startswith(said)


def test_refused_layers():
    plain = layer(("name:string",), [((-40.0, 43.0), "x")])
    assert refusal("findholds", **bare(NAVAIDS=plain)).startswith("NAVAIDS has no field ident; its fields are name.")
    area = layer(("name:string",), [("POLYGON((0 0,1 0,1 1,0 0))", "x")], kind="Polygon")
    assert refusal("findholds", **bare(AIRSPACE=area)).startswith("AIRSPACE has no field for the limit LOWER_FIELD")
    assert "OBSTACLES has no field with the elevation" in refusal("findholds", **bare(OBSTACLES=plain))
    assert refusal("findholds", **{k: v for k, v in bare().items() if k != "HOME"}) != ""


def test_too_much_to_search():
    with pytest.raises(core.QgsProcessingException, match="Too much to search: there are .* places and sides"):
        run("findholds", **bare(RADIAL_STEP=1, DISTANCE_STEP=0.1, DISTANCE_FROM=1, DISTANCE_TO=45, RADIUS=200,
                                NAVAIDS=stations(((-40.1, 43.1), "ZZB", "VOR/DME", 0.0, 0.0, "H", ""))))  # fmt: skip


def test_cancelled_on_the_way(samples):
    """What was found before stays; the counts still add up; the log says so."""
    made = run("findholds", Feedback(cancel_at=55), **asked(samples))
    counts = {row["test"]: row["candidates"] for row in made.rows("COUNTS")}
    assert counts["stopped"] > 0 and sum(counts.values()) == made.results["ROWS_IN"]
    assert len(made.rows("PLAN")) == made.results["ROWS_OUT"] < 5
    assert f"stopped after {made.results['ROWS_OUT']} of 5 proposals" in made.log


@pytest.mark.parametrize("at", [0, 7, 20, 35])
def test_cancelled_early(samples, at, tmp_path):
    made = run("findholds", Feedback(cancel_at=at), **asked(samples), PLAN=str(tmp_path / "plan.gpkg"))
    assert made.results["ROWS_OUT"] == 0
    if at == 0:
        assert list(tmp_path.iterdir()) == []


def test_by_the_command_line(command_line, tmp_path, samples):  # noqa: F811
    words = [f"{name}={value}" for name, value in asked(samples, COUNT=2).items()]
    made = command_line("run", "fixwright:findholds", "--", *words, f"PLAN={tmp_path / 'plan.gpkg'}")
    assert made.returncode == 0, made.stdout
    shell = rows(opened(str(tmp_path / "plan.gpkg")))
    python = run("findholds", **asked(samples, COUNT=2)).rows("PLAN")
    assert len(shell) == 2
    for one, other in zip(shell, python):
        assert all(one[name] == other[name] for name in other if name != "geometry")
