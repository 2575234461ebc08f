"""Export of waypoints as QGIS runs it: what is in the file, names, rejects, refusals, and what is left behind."""

from __future__ import annotations

import csv
import json
import os
import resource
import xml.dom.minidom
from pathlib import Path

import pytest

from fixwright.tests.algorithms.layers import (
    DATE,
    Feedback,
    core,
    layer,
    refusal,
    rows,
    run,
    saved,
    some_fixes,
    some_holds,
)
from fixwright.tests.algorithms.test_same_result import command_line  # noqa: F401
from fixwright.tests.published.test_formats_published import HOSTILE, apart, check_geojson, check_gpx, children, words

pytest.importorskip("osgeo.ogr", reason="needs GDAL for Python")


def named(node):
    return words(node.getElementsByTagName("name")[0])


def tops(root, tag):
    return [node for node in children(root) if node.tagName == tag]


def everything(**more):
    fixes = some_fixes()
    areas = run("protectedareas", INPUT=some_holds()).layer("AREAS")
    areas = areas.materialize(core.QgsFeatureRequest().setFilterExpression("part = 'basic'"))
    arrivals = layer(
        ("name:string",), [("LINESTRING(11.5 48.9, 11.2 48.75, 10.9603 48.6336)", "North gate")], kind="LineString"
    )
    return {"FIXES": fixes, "HOLDS": some_holds(), "ARRIVALS": arrivals, "AREAS": areas, **more}


def test_gpx_holds_fixes_routes_and_closed_tracks(tmp_path):
    out = tmp_path / "o.gpx"
    made = run("exportwaypoints", **everything(OUTPUT=str(out)))
    assert made.counts == (9, 9, 0) and made.results["OUTPUT"] == str(out)
    root = check_gpx(out.read_bytes())
    fixes = {row["fix"]: row["geometry"].asPoint() for row in rows(some_fixes())}
    found = {named(node): node for node in tops(root, "wpt")}
    assert list(found) == list(fixes)
    for name, place in fixes.items():
        assert float(found[name].getAttribute("lat")) == pytest.approx(place.y(), abs=1e-7)
        assert apart(float(found[name].getAttribute("lon")), place.x()) <= 1e-7
    routes = tops(root, "rte")
    assert [named(node) for node in routes] == ["QZB R305 14.0 NM North gate", "QLF R045.5 9.0 NM", "QAM R090 20.0 NM"]
    points = [named(node) for node in tops(routes[0], "rtept")]
    first = "QZB R305 14.0 NM"
    assert points == ["North gate 1", "North gate 2", "North gate 3", first, f"{first} OUT", f"{first} END",
                      f"{first} IN", first]  # fmt: skip
    tracks = [named(node) for node in tops(root, "trk")]
    assert len(tracks) == 6 and tracks[0] == first and tracks[3] == f"{first} basic"
    about = words(tops(root, "metadata")[0].getElementsByTagName("desc")[0])
    assert "not for navigation" in about
    assert made.rows("RENAMED") == []


def test_the_fix_of_a_hold_without_fixes_is_a_waypoint(tmp_path):
    out = tmp_path / "o.gpx"
    run("exportwaypoints", HOLDS=some_holds(), OUTPUT=str(out))
    root = check_gpx(out.read_bytes())
    assert [named(node) for node in tops(root, "wpt")] == [row["fix"] for row in rows(some_holds())]


def test_a_fix_of_the_same_name_elsewhere_is_another_waypoint(tmp_path):
    """An old fixes layer does not move the route of a hold."""
    out = tmp_path / "o.geojson"
    moved = layer(("fix:string",), [((11.0, 48.0), "QZB R305 14.0 NM")])
    made = run("exportwaypoints", FIXES=moved, HOLDS=some_holds(), OUTPUT=str(out))
    points = [f for f in json.loads(out.read_text())["features"] if f["geometry"]["type"] == "Point"]
    assert [f["properties"]["name"] for f in points][:2] == ["QZB R305 14.0 NM", "QZB R305 14.0 NM (2)"]
    assert points[0]["geometry"]["coordinates"] == [11.0, 48.0]
    assert points[1]["geometry"]["coordinates"][0] == pytest.approx(10.969, abs=1e-3)
    assert [row["written"] for row in made.rows("RENAMED")] == ["QZB R305 14.0 NM (2)"]


@pytest.mark.parametrize("ending", ["gpx", "kml", "geojson", "csv"])
@pytest.mark.parametrize("more", [{}, {"NAME_LENGTH": 6}, {"NAME_LENGTH": 8, "NAME_CHARACTERS": "letters_figures"}])
def test_hostile_names_never_break_a_file(ending, more, tmp_path):
    names = [name for name in HOSTILE if "\ud83d" not in name]  # QGIS's own text holds no half of a surrogate pair
    places = [(i * 0.01, 10.0) for i in range(len(names))]
    fixes = layer(("fix:string(400)",), list(zip(places, names)))
    holds = some_holds()
    index = holds.fields().indexOf("hold")
    changes = {f.id(): {index: names[i]} for i, f in enumerate(holds.getFeatures())}
    assert holds.dataProvider().changeAttributeValues(changes)
    squares = [(f"POLYGON(({x} 0,{x + 0.005} 0,{x} 1,{x} 0))", name) for (x, _), name in zip(places, names)]
    areas = layer(("name:string(400)",), squares, kind="Polygon")
    out = tmp_path / f"o.{ending}"
    made = run("exportwaypoints", FIXES=fixes, HOLDS=holds, AREAS=areas, TITLE=names[0], OUTPUT=str(out), **more)
    assert made.counts == (2 * len(names) + 3, 2 * len(names) + 3, 0)
    data = out.read_bytes()
    if ending == "gpx":
        found = [named(node) for node in tops(check_gpx(data), "wpt")][: len(names)]
    elif ending == "kml":
        marks = xml.dom.minidom.parseString(data).getElementsByTagName("Placemark")
        found = [named(node) for node in marks][: len(names)]
    elif ending == "geojson":
        found = [f["properties"]["name"] for f in check_geojson(data)["features"]][: len(names)]
    else:
        found = [row["name"] for row in csv.DictReader(data.decode("utf-8").splitlines(), strict=True)][: len(names)]
    assert len({name.casefold() for name in found}) == len(names)
    if more:
        assert max(map(len, found)) <= more["NAME_LENGTH"]
    if "NAME_CHARACTERS" in more:
        assert all(name.isascii() and name.isalnum() and name == name.upper() for name in found)
    told = {row["name"] for row in made.rows("RENAMED") if row["what"] == "fix"}
    kept = [name for name, written in zip(names, found) if name == written]
    assert not told & set(kept)
    assert core.QgsVectorLayer(str(out), "o", "ogr").isValid()


def test_renamed_tells_what_is_not_as_it_was(tmp_path):
    made = run("exportwaypoints", FIXES=some_fixes(), NAME_LENGTH=8, OUTPUT=str(tmp_path / "o.gpx"))
    assert [(row["what"], row["name"], row["written"]) for row in made.rows("RENAMED")] == [
        ("fix", "QZB R305 14.0 NM", "QZB R305"),
        ("fix", "QLF R045.5 9.0 NM", "QLF R045"),
        ("fix", "QAM R090 20.0 NM", "QAM R090"),
    ]
    assert "3 names are not as they were; RENAMED tells which" in made.log


@pytest.mark.parametrize(
    ("position_format", "latitude", "longitude"),
    [
        ("decimal", "41.188066667", "-167.749650000"),
        ("dm3", "41°11.284'N", "167°44.979'W"),
        ("dm2", "41°11.28'N", "167°44.98'W"),
        ("dms", "41°11'17.0\"N", "167°44'58.7\"W"),
    ],
)
def test_position_formats(position_format, latitude, longitude, tmp_path):
    """41.18806667 N 167.74965 W is 41 11.284 N 167 44.979 W and 411117.0N 1674458.7W: by arithmetic."""
    out = tmp_path / "o.csv"
    source = layer(("name:string",), [((-167.74965, 41.188066667), "A")])
    run("exportwaypoints", FIXES=source, POSITION_FORMAT=position_format, OUTPUT=str(out))
    (row,) = csv.DictReader(out.read_text(encoding="utf-8").splitlines())
    assert (row["latitude"], row["longitude"]) == (latitude, longitude)


def test_a_name_made_safe_in_a_table_fits_and_is_told(tmp_path):
    """The apostrophe counts among the characters of a name, and RENAMED tells of it; a number stays as it is."""
    out = tmp_path / "o.csv"
    names = ("=SUM(A1)", "-5", "@home", "plain")
    source = layer(("name:string",), [((i, 0), name) for i, name in enumerate(names)])
    made = run("exportwaypoints", FIXES=source, NAME_LENGTH=6, OUTPUT=str(out))
    written = [row["name"] for row in csv.DictReader(out.read_text(encoding="utf-8").splitlines())]
    assert written == ["'=SUM(", "-5", "'@home", "plain"]
    told = {row["name"]: (row["written"], row["text"]) for row in made.rows("RENAMED")}
    assert set(told) == {"=SUM(A1)", "@home"} and told["@home"][0] == "'@home"
    assert told["@home"][1] == "a spreadsheet would take it for a formula"
    made = run("exportwaypoints", FIXES=source, OUTPUT=str(tmp_path / "o.gpx"))
    assert made.rows("RENAMED") == []


def test_a_fix_overhead_a_navaid_is_called_so(tmp_path):
    fields = ("fix:string", "navaid:string", "radial_deg:double", "dist_nm:double", "dme_nm:double", "alt_ft:double")
    source = layer(fields, [((1, 2), "OBL overhead", "OBL", None, 0.0, 0.55, 4000.0)])
    out = tmp_path / "o.gpx"
    run("exportwaypoints", FIXES=source, OUTPUT=str(out))
    (place,) = tops(check_gpx(out.read_bytes()), "wpt")
    assert words(place.getElementsByTagName("desc")[0]) == "overhead OBL, at 4 000 ft"


def test_rows_that_cannot_be_used(tmp_path):
    fixes = layer(("fix:string",), [((1, 2), "good"), (None, "nowhere"), ((1, 91), "beyond"), ((1, 3), None)])
    off_the_globe = "POLYGON((179 0,181 0,181 1,179 0))"
    shapes = [("POLYGON((0 0,1 0,1 1,0 0))", "good"), (None, "none"), (off_the_globe, "off the globe")]
    areas = layer(("name:string",), shapes, kind="Polygon")
    holds = some_holds()
    second = [f.id() for f in holds.getFeatures()][1]
    holds.dataProvider().changeAttributeValues({second: {holds.fields().indexOf("turn"): "X"}})
    made = run("exportwaypoints", FIXES=fixes, HOLDS=holds, AREAS=areas, OUTPUT=str(tmp_path / "o.gpx"))
    assert made.counts == (10, 5, 5)
    said = sorted(row["reason"] for row in made.rows("REJECTS"))
    assert said == [
        "AREAS: the row has no polygon in WGS 84 longitude and latitude",
        "AREAS: the row has no polygon in WGS 84 longitude and latitude",
        "FIXES: the latitude is beyond 90 degrees",
        "FIXES: the row has no point",
        "HOLDS: turn is 'X'; it must be one of right, left",
    ]
    names = [named(node) for node in tops(check_gpx((tmp_path / "o.gpx").read_bytes()), "wpt")]
    assert names[:2] == ["good", "point 4"]


def test_no_good_row_gives_no_file(tmp_path):
    made = run("exportwaypoints", FIXES=layer(("fix:string",), [(None, "x")]), OUTPUT=str(tmp_path / "o.gpx"))
    assert made.counts == (1, 0, 1) and "OUTPUT" not in made.results
    assert list(tmp_path.iterdir()) == []
    assert "No row could be used, so there is no file." in made.log


def test_another_crs(tmp_path):
    out = tmp_path / "o.geojson"
    source = layer(("name:string",), [((1_000_000.0, 6_000_000.0), "A")], crs="EPSG:3857")
    run("exportwaypoints", FIXES=source, OUTPUT=str(out))
    to = core.QgsCoordinateTransform(source.crs(), core.QgsCoordinateReferenceSystem("EPSG:4326"),
                                     core.QgsCoordinateTransformContext())  # fmt: skip
    place = to.transform(core.QgsPointXY(1_000_000.0, 6_000_000.0))
    (feature,) = json.loads(out.read_text())["features"]
    assert feature["geometry"]["coordinates"] == pytest.approx([place.x(), place.y()], abs=1e-7)


def test_the_same_bytes_twice(tmp_path):
    for ending in ("gpx", "kml", "geojson", "csv"):
        paths = [tmp_path / f"{i}.{ending}" for i in (1, 2)]
        for path in paths:
            run("exportwaypoints", **everything(OUTPUT=str(path)))
        assert paths[0].read_bytes() == paths[1].read_bytes(), ending


def test_formats_by_ending_and_by_word(tmp_path):
    run("exportwaypoints", FIXES=some_fixes(), FORMAT="kml", OUTPUT=str(tmp_path / "places"))
    assert b"<kml" in (tmp_path / "places").read_bytes()
    made = run("exportwaypoints", FIXES=some_fixes(), FORMAT="geojson", OUTPUT="TEMPORARY_OUTPUT")
    assert made.results["OUTPUT"].endswith(".geojson")
    made = run("exportwaypoints", FIXES=some_fixes(), OUTPUT="TEMPORARY_OUTPUT")
    assert made.results["OUTPUT"].endswith(".gpx") and b"<gpx" in Path(made.results["OUTPUT"]).read_bytes()


def test_refused(tmp_path):
    fixes, out = some_fixes(), str(tmp_path / "o.gpx")
    lines = layer(("name:string",), [("LINESTRING(0 0, 1 1)", "x")], kind="LineString")
    (tmp_path / "file").write_text("")
    for more, said in (
        ({}, "None of FIXES, HOLDS and AREAS is given; give at least one of them."),
        ({"FIXES": fixes, "ARRIVALS": lines}, "ARRIVALS is given without HOLDS; an arrival leads to a hold."),
        ({"FIXES": fixes, "NAME_LENGTH": 4}, "NAME_LENGTH is 4; it must be a number between 5 and 255."),
        ({"FIXES": fixes, "NAME_LENGTH": 6.5}, "NAME_LENGTH is 6.5; it must be a whole number from 5 to 255."),
        ({"FIXES": fixes, "NAME_FIELD": "nix"}, "NAME_FIELD names the field 'nix', which the input does not have;"),
        ({"FIXES": fixes, "FORMAT": "shp"}, "FORMAT is 'shp'; it must be one of 0 gpx, 1 kml, 2 geojson, 3 csv."),
        ({"FIXES": fixes, "FORMAT": "kml"}, "but FORMAT is kml; make them agree."),
        (
            {"FIXES": fixes, "OUTPUT": str(tmp_path / "o.xyz")},
            "whose ending tells no format; give FORMAT, or an ending",
        ),
        ({"FIXES": fixes, "OUTPUT": str(tmp_path / "no" / "o.gpx")}, "but there is no folder"),
        ({"FIXES": fixes, "OUTPUT": str(tmp_path / "file" / "o.gpx")}, "but there is no folder"),
        ({"FIXES": fixes, "OUTPUT": str(tmp_path), "FORMAT": "gpx"}, "which is a folder; it must be a file."),
        ({"HOLDS": fixes}, "HOLDS is not a layer of holds: it has no field hold"),
    ):
        assert said in refusal("exportwaypoints", **{"OUTPUT": out, **more}), more
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_a_folder_without_the_right_to_write_is_refused(tmp_path):
    """Root may write everywhere; the kernel's own folder takes no file from anybody."""
    folder = tmp_path / "locked"
    folder.mkdir()
    folder.chmod(0o555)
    if os.access(folder, os.W_OK):
        with pytest.raises(core.QgsProcessingException, match="cannot be written"):
            run("exportwaypoints", FIXES=some_fixes(), OUTPUT="/proc/o.gpx")
    else:
        assert "cannot be written into" in refusal("exportwaypoints", FIXES=some_fixes(), OUTPUT=f"{folder}/o.gpx")


def test_a_full_disk_leaves_the_older_file_alone(tmp_path):
    out = tmp_path / "o.gpx"
    out.write_text("old")
    source = layer(("fix:string",), [((i * 0.001, 1.0), f"F{i}") for i in range(2000)])
    _, most = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, most))  # bytes a file: a write beyond gives an error
    try:
        with pytest.raises(core.QgsProcessingException, match="cannot be written"):
            run("exportwaypoints", FIXES=source, OUTPUT=str(out))
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    assert [path.name for path in tmp_path.iterdir()] == ["o.gpx"] and out.read_text() == "old"


@pytest.mark.parametrize("at", [0, 1, 100])
def test_a_cancel_leaves_the_older_file_alone(at, tmp_path):
    """Before the first row, after the first layer, and when everything is made but nothing written."""
    out = tmp_path / "o.gpx"
    out.write_text("old")
    made = run("exportwaypoints", Feedback(cancel_at=at), FIXES=some_fixes(), OUTPUT=str(out))
    assert "OUTPUT" not in made.results
    assert [path.name for path in tmp_path.iterdir()] == ["o.gpx"] and out.read_text() == "old"


def test_names_by_date(tmp_path):
    """The description says of what day the variation is."""
    out = tmp_path / "o.gpx"
    run("exportwaypoints", FIXES=some_fixes(), OUTPUT=str(out))
    text = out.read_text(encoding="utf-8")
    assert text.count(f"of {DATE}") == 3 and "QLF radial 045.5 9.00 NM" in text


def test_a_cancel_while_the_file_is_made(tmp_path, monkeypatch):
    from fixwright.algorithms.common import waypointfiles

    feedback, honest = Feedback(), waypointfiles.encoded
    monkeypatch.setattr(waypointfiles, "encoded", lambda *args: (feedback.cancel(), honest(*args))[1])
    made = run("exportwaypoints", feedback, FIXES=some_fixes(), OUTPUT=str(tmp_path / "o.gpx"))
    assert "OUTPUT" not in made.results and list(tmp_path.iterdir()) == []
    assert "stopped before any file was written" in made.log


def test_several_files_are_put_in_their_places_together_or_not_at_all(tmp_path):
    from fixwright.algorithms.common.fileoutput import write_whole

    small, large = tmp_path / "small", tmp_path / "large"
    small.write_text("old")
    _, most = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1_000, most))  # bytes a file: a write beyond gives an error
    try:
        with pytest.raises(core.QgsProcessingException, match="large cannot be written"):
            write_whole({str(small): b"new", str(large): bytes(2_000)})
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    assert [path.name for path in tmp_path.iterdir()] == ["small"] and small.read_text() == "old"
    write_whole({str(small): b"new", str(large): bytes(2_000)})
    assert sorted(path.name for path in tmp_path.iterdir()) == ["large", "small"] and small.read_text() == "new"


def test_places_that_routes_share_have_one_name(tmp_path):
    """Two arrivals at one hold: its corners and its fix are the same points in both routes."""
    out = tmp_path / "o.gpx"
    lines = [("LINESTRING(11.5 48.9, 10.9603 48.6336)", "North"), ("LINESTRING(10.5 48.9, 10.9603 48.6336)", "West")]
    arrivals = layer(("name:string",), lines, kind="LineString")
    made = run("exportwaypoints", FIXES=some_fixes(), HOLDS=some_holds(), ARRIVALS=arrivals, OUTPUT=str(out))
    root = check_gpx(out.read_bytes())
    north, west = ([named(p) for p in tops(node, "rtept")] for node in tops(root, "rte")[:2])
    assert north[2:] == west[2:] and made.rows("RENAMED") == []
    assert len([node for node in tops(root, "trk") if named(node).startswith("QZB")]) == 1, "the pattern is there once"


def test_qgis_process_gives_the_same_files(command_line, tmp_path):  # noqa: F811
    """Waypoints, briefing and logbook to the last byte; the overlay's georeferencing, its PDF has a time inside."""
    from osgeo import gdal

    holds = saved(some_holds(), tmp_path / "holds.gpkg")
    steps = (
        ("exportwaypoints", {"HOLDS": holds, "NAME_LENGTH": "8"}, {"OUTPUT": "o.gpx"}),
        ("briefingtext", {"INPUT": holds}, {"OUTPUT": "o.html", "LOGBOOK": "log.csv"}),
        ("chartoverlay", {"LAYERS": holds, "SCALE": "500000", "DPI": "72", "EXTENT": "10,12,48,49 [EPSG:4326]"},
         {"OUTPUT": "o.pdf"}),
    )  # fmt: skip
    for name, given, files in steps:
        for folder in ("python", "shell"):
            (tmp_path / folder).mkdir(exist_ok=True)
        run(name, **given, **{key: str(tmp_path / "python" / file) for key, file in files.items()})
        outputs = {key: str(tmp_path / "shell" / file) for key, file in files.items()}
        words_given = [f"{key}={value}" for key, value in {**given, **outputs}.items()]
        said = command_line("run", f"fixwright:{name}", "--", *words_given)
        assert said.returncode == 0, said.stdout
        for file in files.values():
            made = [tmp_path / folder / file for folder in ("python", "shell")]
            if file.endswith("pdf"):
                assert len({gdal.Open(str(path)).GetGeoTransform() for path in made}) == 1
            else:
                assert made[0].read_bytes() == made[1].read_bytes(), file
