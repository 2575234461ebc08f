"""Entry sectors and entries as an algorithm."""

from __future__ import annotations

import pytest
from geographiclib.geodesic import Geodesic

from fixwright.tests.algorithms.layers import (
    DATE,
    core,
    expression,
    field,
    layer,
    opened,
    refusal,
    rows,
    run,
    saved,
    some_holds,
)
from fixwright.tests.algorithms.test_same_result import command_line, plain  # noqa: F401 (a fixture)

POINTS = ("ident:string", "inbound:double", "turn:string", "course:double", "from:double", "kt:double")
W = (
    ("A", 195.0, "right", 121.0, 70.0, 24.0),
    ("B", 195.0, "left", 268.0, 355.0, 28.0),
    ("C", 22.0, "left", 131.0, 60.0, 25.0),
    ("D", 340.0, "right", 55.0, 130.0, 20.0),
    ("E", 110.0, "right", 290.0, 20.0, 18.0),
)


def five_holds():
    """Five holds of TAS 100 kt, all angles from the model's north, their arrivals and winds beside them."""
    points = layer(POINTS, [((10.0 + i, 50.0), *row) for i, row in enumerate(W)])
    asked = {"FIX_FIELD": "ident", "INBOUND": field("inbound"), "NORTH": "model", "TURN": field("turn"), "IAS": 100,
             "ALTITUDE": 0, "LEG_MIN": 1, "RULES": "faa", "DATE": DATE}  # fmt: skip
    return run("designholds", INPUT=points, **asked).layer("HOLDS")


def of_five(**more):
    asked = {"ARRIVAL_COURSE": field("course"), "ARRIVAL_NORTH": "model", "WIND_FROM": field("from"),
             "WIND_SPEED": field("kt"), "WIND_NORTH": "model", "DATE": DATE}  # fmt: skip
    return run("entrysectors", INPUT=five_holds(), **{**asked, **more})


def test_entries_by_heading():
    """Headings by the wind triangle; sectors by FAA AIM 5-3-8 j.3; 5 degrees of freedom by j.8(d)."""
    found = of_five().rows("ENTRIES")
    assert [row["hold"] for row in found] == ["A", "B", "C", "D", "E"]
    expected = [110.25, 284.24, 117.33, 66.14, 300.37]
    assert [row["arrival_heading_deg"] for row in found] == pytest.approx(expected, abs=0.05)
    assert [row["arrival_course_deg"] for row in found] == pytest.approx([row[3] for row in W])
    assert [row["entry"] for row in found] == ["parallel", "parallel", "parallel", "direct", "parallel"]
    assert [row["entry_by_course"] for row in found] == ["parallel", "parallel", "parallel", "direct", "teardrop"]
    assert [row["also"] for row in found] == [None] * 5
    changed = ["By course the entry would be teardrop, by heading 300 it is parallel." in row["text"] for row in found]
    assert changed == [False] * 4 + [True]


def test_calm_course_is_heading():
    found = of_five(WIND_SPEED=0, WIND_FROM=None).rows("ENTRIES")
    assert [row["arrival_heading_deg"] for row in found] == pytest.approx([row[3] for row in W])
    assert [row["also"] for row in found] == ["direct", "direct", None, None, "parallel"]
    assert not any("By course" in row["text"] for row in found)


def test_true_and_magnetic_wind():
    """The same number from another north is another wind: the difference is the variation."""
    model = of_five().rows("ENTRIES")
    true = of_five(WIND_NORTH=None).rows("ENTRIES")
    assert [row["wind_from_true_deg"] for row in true] == [row[4] for row in W]
    var = [feature["var_deg"] for feature in five_holds().getFeatures()]
    moved = [row["wind_from_true_deg"] for row in model]
    assert moved == pytest.approx([(row[4] + v) % 360 for row, v in zip(W, var)])


def test_sectors():
    made = run("entrysectors", INPUT=some_holds(), DATE=DATE, RADIUS=5)
    assert made.counts == (3, 3, 0)
    found = made.rows("SECTORS")
    assert [row["entry"] for row in found] == ["direct", "teardrop", "parallel"] * 3
    assert made.rows("ENTRIES") == []
    for row, width in zip(found, (180.0, 70.0, 110.0) * 3):
        assert (row["to_deg"] - row["from_deg"]) % 360.0 == pytest.approx(width)
    last = core.QgsGeometry.unaryUnion([row["geometry"] for row in found[-3:]])
    box = last.boundingBox()  # the third hold lies at the 180th meridian: nothing reaches round the earth
    assert all(-180.0 <= x <= 180.0 for x in (box.xMinimum(), box.xMaximum()))
    first = core.QgsGeometry.unaryUnion([row["geometry"] for row in found[:3]])
    assert first.area() > 0 and first.boundingBox().width() < 0.5


def arrival_lines(hold, *bearings, away=0.0, crs="EPSG:4326"):
    """Lines of two NM that end `away` NM before a hold's fix, drawn towards it from these bearings."""
    place = hold.geometry().asPoint()
    found = []
    for bearing in bearings:
        ends = [Geodesic.WGS84.Direct(place.y(), place.x(), bearing, way * 1852.0) for way in (away + 2.0, away)]
        wkt = ", ".join(f"{end['lon2']!r} {end['lat2']!r}" for end in ends)
        found.append((f"LINESTRING({wkt})", f"from {bearing}"))
    made = layer(("name:string",), found, kind="LineString")
    if crs == "EPSG:4326":
        return made
    moved = layer(("name:string",), [], crs=crs, kind="LineString")
    to = core.QgsCoordinateTransform(
        made.crs(), core.QgsCoordinateReferenceSystem(crs), core.QgsCoordinateTransformContext()
    )
    features = []
    for feature in made.getFeatures():
        shape = feature.geometry()
        shape.transform(to)
        feature.setGeometry(shape)
        features.append(feature)
    moved.dataProvider().addFeatures(features)
    return moved


@pytest.mark.parametrize("crs", ["EPSG:4326", "EPSG:3857"])
def test_arrivals_from_lines(crs):
    """Two lines at the first hold and none at the others: a row each, on their true course."""
    holds = some_holds()
    first = next(holds.getFeatures())
    made = run("entrysectors", INPUT=holds, ARRIVALS=arrival_lines(first, 40, 250, crs=crs), DATE=DATE)
    assert made.counts == (3, 3, 0)
    found = made.rows("ENTRIES")
    assert [(row["hold"], row["arrival"]) for row in found] == [(first["hold"], "from 40"), (first["hold"], "from 250")]
    courses = [(row["arrival_course_deg"] + first["var_deg"]) % 360.0 for row in found]
    assert courses == pytest.approx([220.0, 70.0], abs=0.01)
    assert any("2 holds have no arrival" in line for line in made.log)


def test_lines_and_a_course_together():
    holds = some_holds()
    first = next(holds.getFeatures())
    made = run("entrysectors", INPUT=holds, ARRIVALS=arrival_lines(first, 40), ARRIVAL_COURSE=100, DATE=DATE)
    assert [row["arrival"] for row in made.rows("ENTRIES")] == ["course", "from 40", "course", "course"]


def test_a_line_too_far_away():
    holds = some_holds()
    first = next(holds.getFeatures())
    lines = arrival_lines(first, 40, away=2.5)
    assert run("entrysectors", INPUT=holds, ARRIVALS=lines, DATE=DATE).rows("ENTRIES") == []
    assert len(run("entrysectors", INPUT=holds, ARRIVALS=lines, WITHIN=3, DATE=DATE).rows("ENTRIES")) == 1


def test_along_an_arc():
    """Heading 150 degrees off the inbound course: a teardrop entry, but along a DME arc parallel, the nearer one."""
    asked = {"INPUT": some_holds(), "ARRIVAL_COURSE": expression("(inbound_true_deg + 150) % 360"),
             "ARRIVAL_NORTH": "true", "DATE": DATE}  # fmt: skip
    assert {row["entry"] for row in run("entrysectors", **asked).rows("ENTRIES")} == {"teardrop"}
    found = run("entrysectors", ON_ARC="yes", **asked).rows("ENTRIES")
    assert {row["entry"] for row in found} == {"parallel"}


def test_the_word_offset_is_icaos():
    asked = {"ARRIVAL_COURSE": expression("(inbound_true_deg + 150) % 360"), "ARRIVAL_NORTH": "true", "DATE": DATE}
    icao = run("entrysectors", INPUT=some_holds(RULES="icao"), **asked).rows("ENTRIES")
    faa = run("entrysectors", INPUT=some_holds(RULES="faa"), **asked).rows("ENTRIES")
    assert all(row["text"].startswith("Offset entry") and row["entry"] == "teardrop" for row in icao)
    assert all(row["text"].startswith("Teardrop entry") and row["entry"] == "teardrop" for row in faa)


def test_a_wind_from_each_row():
    """An empty or odd wind refuses its row, and only that."""
    made = of_five(WIND_SPEED=expression("if(ident = 'B', NULL, if(ident = 'C', -5, kt))"),
                   WIND_FROM=expression("if(ident = 'D', 361, \"from\")"))  # fmt: skip
    assert made.counts == (5, 2, 3)
    assert made.reasons() == {
        "2": "WIND_SPEED is empty; it must be a number between 0 and 300 kt",
        "3": "WIND_SPEED is -5; it must be a number between 0 and 300 kt",
        "4": "WIND_FROM is 361; it must be a number between 0 and 360 degrees",
    }
    assert [row["hold"] for row in made.rows("ENTRIES")] == ["A", "E"]
    assert {row["hold"] for row in made.rows("SECTORS")} == {"A", "E"}


def test_a_speed_from_each_row_without_a_direction():
    made = of_five(WIND_FROM=None, WIND_SPEED=expression("if(ident = 'B', 0, kt)"))
    assert made.counts == (5, 1, 4)
    assert made.reasons()["1"] == "WIND_FROM is empty, though WIND_SPEED is 24 kt"


def test_a_wind_as_fast_as_the_aeroplane():
    made = of_five(WIND_SPEED=150)
    assert made.counts[2] == 5
    assert set(made.reasons().values()) == {"the wind is too strong for the arrival course (course)"}


def test_the_stations_north_needs_a_declination():
    made = of_five(ARRIVAL_NORTH="station")
    assert made.counts == (5, 0, 5)
    assert "has no declination; choose model or true" in made.reasons()["1"]
    holds = some_holds()  # stations of known declination
    made = run("entrysectors", INPUT=holds, ARRIVAL_COURSE=100, ARRIVAL_NORTH="station", DATE=DATE)
    first = next(holds.getFeatures())
    row = made.rows("ENTRIES")[0]
    carried = first["inbound_true_deg"] - first["inbound_station_deg"]  # the declination, carried to the fix
    assert abs(carried - first["navaid_decl_deg"]) % 360.0 == pytest.approx(0.0, abs=0.5)
    assert row["arrival_course_deg"] == pytest.approx(100.0 + carried - first["var_deg"])


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"WIND_SPEED": -1}, "WIND_SPEED is -1; it must be a number between 0 and 300 kt."),
        ({"WIND_SPEED": 301}, "WIND_SPEED is 301; it must be a number between 0 and 300 kt."),
        ({"WIND_SPEED": "fresh"}, "WIND_SPEED is 'fresh'; it must be a number between 0 and 300 kt."),
        ({"WIND_SPEED": float("nan")}, "WIND_SPEED is nan; it must be a number between 0 and 300 kt."),
        ({"WIND_SPEED": 20},
         "WIND_FROM is not given, though WIND_SPEED is 20 kt; it must be a number between 0 and 360 degrees."),
        ({"WIND_FROM": 400, "WIND_SPEED": 20}, "WIND_FROM is 400; it must be a number between 0 and 360 degrees."),
        ({"WIND_NORTH": "grid"}, "WIND_NORTH is 'grid'; it must be one of 0 station, 1 model, 2 true."),
        ({"ARRIVAL_COURSE": -10}, "ARRIVAL_COURSE is -10; it must be a number between 0 and 360 degrees."),
        ({"RADIUS": 0}, "RADIUS is 0; it must be a number between 0.1 and 60 NM."),
        ({"WITHIN": 0}, "WITHIN is 0; it must be a number between 0.01 and 60 NM."),
        ({"ON_ARC": "maybe"}, "ON_ARC is 'maybe'; it must be one of 0 no, 1 yes."),
    ],
)  # fmt: skip
def test_refused(given, said):
    assert refusal("entrysectors", INPUT=some_holds(), DATE=DATE, **given) == said


def test_not_a_layer_of_holds():
    said = refusal("entrysectors", INPUT=layer(POINTS, []), DATE=DATE)
    assert said.startswith("INPUT is not a layer of holds")


def test_outputs_in_files(tmp_path):
    files = {name: str(tmp_path / f"{name}.gpkg") for name in ("SECTORS", "ENTRIES", "REJECTS")}
    holds = saved(some_holds(), tmp_path / "holds.gpkg")
    made = run("entrysectors", INPUT=holds, ARRIVAL_COURSE=120, DATE=DATE, **files)
    assert len(made.rows("SECTORS")) == 9 and len(made.rows("ENTRIES")) == 3
    assert "entry" in made.layer("SECTORS").renderer().classAttribute()


def test_the_command_line_gives_the_same(command_line, tmp_path):  # noqa: F811
    holds = some_holds()
    source = saved(holds, tmp_path / "holds.gpkg")
    lines = saved(arrival_lines(next(holds.getFeatures()), 40, 250), tmp_path / "lines.gpkg")
    asked = {"INPUT": source, "ARRIVALS": lines, "ARRIVAL_COURSE": "expression:round(inbound_model_deg / 2)",
             "WIND_FROM": "300", "WIND_SPEED": "expression:10 + $id", "ON_ARC": "yes", "DATE": DATE}  # fmt: skip
    outputs = ("SECTORS", "ENTRIES", "REJECTS")
    python, shell = ({name: str(tmp_path / f"{how}-{name}.gpkg") for name in outputs} for how in ("python", "shell"))
    run("entrysectors", **asked, **python)
    said = command_line("run", "fixwright:entrysectors", "--", *(f"{k}={v}" for k, v in {**asked, **shell}.items()))
    assert said.returncode == 0, said.stdout
    assert len(rows(opened(shell["ENTRIES"]))) == 5
    for name in outputs:
        assert plain(opened(python[name])) == plain(opened(shell[name]))
