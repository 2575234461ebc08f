"""Parameters: what is refused before anything runs, and that every way of giving a value means the same."""

from __future__ import annotations

import datetime
import math
import re
import sys

import pytest

from fixwright.tests.algorithms.layers import (
    DATE,
    NAVAIDS,
    STATIONS,
    core,
    expression,
    field,
    layer,
    of_stations,
    refusal,
    run,
    some_fixes,
    some_holds,
    stations,
)

RADIAL_ALLOWED = "it must be a number between 0 and 360 degrees."


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (400, "RADIAL is 400; " + RADIAL_ALLOWED),
        (-0.5, "RADIAL is -0.5; " + RADIAL_ALLOWED),
        (math.nan, "RADIAL is nan; " + RADIAL_ALLOWED),
        (math.inf, "RADIAL is inf; " + RADIAL_ALLOWED),
        ("400", "RADIAL is 400; " + RADIAL_ALLOWED),
        ("north", "RADIAL is 'north'; " + RADIAL_ALLOWED),
        ("nan", "RADIAL is 'nan'; " + RADIAL_ALLOWED),
        ("1e400", "RADIAL is '1e400'; " + RADIAL_ALLOWED),
        (True, "RADIAL is True; " + RADIAL_ALLOWED),
        (None, "RADIAL is not given; " + RADIAL_ALLOWED),
        ("", "RADIAL is not given; " + RADIAL_ALLOWED),
        ("  ", "RADIAL is not given; " + RADIAL_ALLOWED),
        (core.NULL, "RADIAL is not given; " + RADIAL_ALLOWED),
        (core.QgsProperty(), "RADIAL is not given; " + RADIAL_ALLOWED),
        (core.QgsProperty.fromValue(400), "RADIAL is 400; " + RADIAL_ALLOWED),
        (core.QgsProperty.fromValue(45.0), ""),
        ("45,5", ""),
        (360, ""),
        (0, ""),
    ],
)
def test_a_number(value, said):
    assert refusal("fixradialdistance", INPUT=stations(), **of_stations(RADIAL=value)) == said


def test_a_missing_number():
    parameters = of_stations()
    del parameters["RADIAL"]
    assert refusal("fixradialdistance", INPUT=stations(), **parameters) == "RADIAL is not given; " + RADIAL_ALLOWED


@pytest.mark.parametrize("value", ["nowhere", 3, -1, 1.5, "3", math.nan, True])
def test_a_choice_that_does_not_exist(value):
    said = refusal("fixradialdistance", INPUT=stations(), **of_stations(NORTH=value))
    assert said.startswith("NORTH is ") and said.endswith("; it must be one of 0 station, 1 model, 2 true.")


@pytest.mark.parametrize("value", ["model", "MODEL", " Model ", 1, "1", 1.0, core.QgsProperty.fromValue("model")])
def test_a_choice_by_word_or_index(value):
    expected = run("fixradialdistance", INPUT=stations(), **of_stations(NORTH="model")).rows("FIXES")
    made = run("fixradialdistance", INPUT=stations(), **of_stations(NORTH=value)).rows("FIXES")
    assert [row["lon"] for row in made] == [row["lon"] for row in expected]
    by_station = run("fixradialdistance", INPUT=stations(), **of_stations()).rows("FIXES")
    assert all(abs(a["lon"] - b["lon"]) > 1e-4 for a, b in zip(made, by_station))


@pytest.mark.parametrize("value", [None, "", core.NULL])
def test_nothing_means_the_default(value):
    given = of_stations(NORTH=value, DISTANCE_KIND=value, ALTITUDE=value, IDENT_FIELD=value, DECLINATION_FIELD=value)
    made = run("fixradialdistance", INPUT=stations(), **given)
    expected = run("fixradialdistance", INPUT=stations(), **of_stations())
    assert [r["fix"] for r in made.rows("FIXES")] == [r["fix"] for r in expected.rows("FIXES")]
    assert made.rows("FIXES")[0]["fix"] == "QZB R305 14.0 NM"


@pytest.mark.parametrize(
    "value",
    [field("rad"), "field:rad", field("RAD"), expression('"rad"'), 'expression:"rad"', "expression:rad + 0"],
    ids=str,
)
def test_a_number_from_each_row(value):
    made = run("fixradialdistance", INPUT=stations(), **of_stations(RADIAL=value))
    assert [row["fix"] for row in made.rows("FIXES")] == ["QZB R305 14.0 NM", "QLF R045.5 9.0 NM", "QAM R090 20.0 NM"]


@pytest.mark.parametrize("value", [field("turn"), "field:turn", "expression:upper(turn)",
                                   "expression:if(turn = 'left', 1, 0)"], ids=str)  # fmt: skip
def test_a_choice_from_each_row(value):
    source = run("fixradialdistance", INPUT=stations(), **of_stations()).layer("FIXES")
    made = run("designholds", INPUT=source, TURN=value, DATE=DATE)
    assert [row["turn"] for row in made.rows("HOLDS")] == ["right", "left", "right"]


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("field:nix", "RADIAL names the field 'nix', which the input does not have"),
        (field("nix"), "RADIAL names the field 'nix', which the input does not have"),
        ("field:", "RADIAL names the field '', which the input does not have"),
        ('expression:"nix" + 1', "RADIAL names the field 'nix', which the input does not have"),
        ("expression:1 +", "RADIAL is the expression '1 +', which cannot be read: syntax error"),
    ],
    ids=str,
)
def test_a_field_or_expression_that_cannot_be(value, said):
    got = refusal("fixradialdistance", INPUT=stations(), **of_stations(RADIAL=value))
    assert got.startswith(said) and got.endswith(".") and "\n" not in got


def test_one_value_for_the_run():
    said = refusal("protectedareas", INPUT=some_holds(), TOLERANCE="field:alt_ft")
    assert said == "TOLERANCE takes one value for the whole run, not a field or an expression."


@pytest.mark.parametrize("name", ["IDENT_FIELD", "DECLINATION_FIELD", "ELEVATION_FIELD", "KIND_FIELD"])
def test_a_named_field_that_does_not_exist(name):
    said = refusal("fixradialdistance", INPUT=stations(), **of_stations(**{name: "nix"}))
    assert said.startswith(f"{name} names the field 'nix', which the input does not have; its fields are ident, kind")


@pytest.mark.parametrize("value", ["1.9.2026", "2026-9-1", "2026-02-30", "today", "20260901", 5])
def test_a_date_that_is_none(value):
    said = refusal("fixradialdistance", INPUT=stations(), **of_stations(DATE=value))
    assert said.startswith("DATE is ") and "it must be a date such as 2026-09-01" in said


@pytest.mark.parametrize("value", ["2024-12-31", "2030-01-01"])
def test_a_date_outside_the_model(value):
    """Source: World Magnetic Model 2025, valid from 2025.0 to 2030.0."""
    said = refusal("fixradialdistance", INPUT=stations(), **of_stations(DATE=value))
    assert said == (
        f"DATE is {value}; it must be from 2025-01-01 to 2029-12-31, the years of the World Magnetic Model 2025."
    )


@pytest.mark.parametrize("value", ["2025-01-01", "2029-12-31", datetime.date(2026, 9, 1)])
def test_a_date_within_the_model(value):
    made = run("fixradialdistance", INPUT=stations(), **of_stations(DATE=value))
    assert {row["var_date"] for row in made.rows("FIXES")} == {str(value)}


@pytest.mark.parametrize("value", [None, ""])
def test_no_date_is_today(value):
    before = datetime.datetime.now(datetime.timezone.utc).date().isoformat()
    made = run("fixradialdistance", INPUT=stations(), **of_stations(DATE=value))
    after = datetime.datetime.now(datetime.timezone.utc).date().isoformat()
    assert {row["var_date"] for row in made.rows("FIXES")} <= {before, after}


def test_no_crs():
    source = layer(NAVAIDS, STATIONS)
    source.setCrs(core.QgsCoordinateReferenceSystem())
    said = refusal("fixradialdistance", INPUT=source, **of_stations())
    assert said == "INPUT has no coordinate reference system; set the layer's own first."


def test_not_points():
    source = layer(NAVAIDS, [("LINESTRING(0 0, 1 1)", *STATIONS[0][1:])], kind="LineString")
    assert refusal("fixradialdistance", INPUT=source, **of_stations()) == (
        "INPUT must have points; the layer given has LineString."
    )


def test_no_declination_anywhere():
    source = layer(("ident:string",), [((1, 50), "QZB")])
    said = refusal("fixradialdistance", INPUT=source, RADIAL=1, DISTANCE=5)
    assert said.startswith("NORTH is station, but the input has no field with the stations' declination;")
    assert refusal("fixradialdistance", INPUT=source, RADIAL=1, DISTANCE=5, NORTH="true") == ""
    assert refusal("fixradialdistance", INPUT=source, RADIAL=1, DISTANCE=5, NORTH="expression:'true'") == ""
    assert refusal("fixalongtrack", INPUT=source, COURSE=1, DISTANCE=5).startswith("NORTH is station, but")
    assert refusal("fixalongtrack", INPUT=source, FROM="2,50", DISTANCE=5) == ""


def test_slant_range_needs_altitude_and_elevation():
    slant = of_stations(DISTANCE_KIND="slant")
    said = refusal("fixradialdistance", INPUT=stations(), **slant)
    assert said == "DISTANCE_KIND is slant, which needs ALTITUDE; give it, or choose ground."
    source = layer(("ident:string", "decl_deg:double"), [((1, 50), "QZB", 1.0)])
    said = refusal("fixradialdistance", INPUT=source, RADIAL=1, DISTANCE=5, DISTANCE_KIND=1, ALTITUDE=3000)
    assert said.startswith("DISTANCE_KIND is slant, but the input has no field with the stations' elevation;")


def test_course_or_from_or_neither():
    given = {"INPUT": stations(), "DISTANCE": 5}
    assert refusal("fixalongtrack", **given) == "None of COURSE, FROM and ROUTE is given; give one of them."
    both = {**given, "COURSE": 90, "FROM": "11,48"}
    assert refusal("fixalongtrack", **both) == "COURSE and FROM are given; give one of them."
    route = layer(("name:string",), [("LINESTRING(0 0, 1 1)", "x")], kind="LineString")
    said = refusal("fixalongtrack", **given, COURSE=90, ROUTE=route)
    assert said == "COURSE and ROUTE are given; give one of them."
    assert "a latitude between -85 and 85" in refusal("fixalongtrack", **given, FROM="11,86")


def test_legs_that_exclude_each_other():
    said = refusal("designholds", INPUT=some_fixes(), LEG_MIN=1, LEG_NM=4)
    assert said == "LEG_MIN and LEG_NM are both given; a leg ends by time or by distance, give one of them."


def test_inbound_from_nowhere():
    said = refusal("designholds", INPUT=stations())
    assert said == "INBOUND is not given, and the input has no field course_true_deg to take the inbound course from."


def test_altitudes_in_order():
    said = refusal("designholds", INPUT=some_fixes(), ALTITUDE=5000, ALTITUDE_TO=4000)
    assert said == "ALTITUDE_TO is 4000; it must not be lower than ALTITUDE, 5000 ft."


def test_not_a_holds_layer():
    said = refusal("protectedareas", INPUT=some_fixes())
    assert said.startswith("INPUT is not a layer of holds: it has no field hold, rules, inbound_true_deg, leg_kind, ")


def test_tolerance_areas_without_fix():
    areas = layer(("name:string",), [("POLYGON((0 0,1 0,1 1,0 0))", "x")], kind="Polygon")
    said = refusal("protectedareas", INPUT=some_holds(), FIX_TOLERANCE=areas)
    assert said == "FIX_TOLERANCE has no field fix to join the holds by."


@pytest.mark.parametrize("target", ["{}/out.shp", "{}/out.SHP"])
def test_shapefile_is_refused(target, tmp_path):
    said = refusal("fixradialdistance", INPUT=stations(), **of_stations(FIXES=target.format(tmp_path)))
    assert said.startswith("FIXES is a Shapefile, which cuts field names to 10 letters (navaid_kind and others would")
    assert refusal("fixradialdistance", INPUT=stations(), **of_stations(REJECTS=f"{tmp_path}/out.shp")) == ""
    definition = core.QgsProcessingOutputLayerDefinition(target.format(tmp_path))
    assert refusal("fixradialdistance", INPUT=stations(), **of_stations(FIXES=definition)).startswith("FIXES is a")


@pytest.mark.parametrize("library", ["numpy", "pyproj"])
def test_a_missing_library(library, monkeypatch):
    monkeypatch.setitem(sys.modules, library, None)
    said = refusal("fixradialdistance", INPUT=stations(), **of_stations())
    assert said.startswith(f"The Python of this QGIS has no {library}; install it there")
    assert f"python3-{library}" in said and said.count(".") == 1


def test_the_source_is_read_as_chosen(tmp_path):
    """A selection and a filter on the input hold, as everywhere in Processing."""
    source = stations()
    core.QgsProject.instance().addMapLayer(source)
    source.selectByIds([2])
    chosen = core.QgsProcessingFeatureSourceDefinition(source.id(), selectedFeaturesOnly=True)
    made = run("fixradialdistance", INPUT=chosen, **of_stations())
    assert [row["navaid"] for row in made.rows("FIXES")] == ["QLF"]


def test_whole_numbers_are_shown_as_such(provider):
    """In dialogs without decimals, in the help without a power of ten."""
    whole = {"chartoverlay": ("SCALE", "DPI"), "exportwaypoints": ("NAME_LENGTH",), "flyholds": ("CIRCUITS",),
             "practiceclearances": ("COUNT", "FAULTY", "SEED")}  # fmt: skip
    for algorithm in provider.algorithms():
        for name in whole.get(algorithm.name(), ()):
            shown = algorithm.parameterDefinition(name).metadata()["widget_wrapper"]
            assert shown["decimals"] == 0, (algorithm.name(), name)
        assert not re.search(r"\de[+-]?\d", algorithm.shortHelpString()), algorithm.name()
        assert "::" not in algorithm.shortHelpString(), algorithm.name()
