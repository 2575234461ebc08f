"""The airspace test in QGIS: three kinds of layers, limits as people write them, and what is done to bad shapes.

All names and places are invented.
"""

from __future__ import annotations

import math
import sys

import numpy as np
import pytest

from fixwright.tests.algorithms.layers import Feedback, core, expression, field, layer, refusal, rows, run

LON, LAT = 20.0, 45.0
FIELDS = ("name:string", "kind:string", "lower:string", "upper:string", "hours:string", "contact:string")


def disc(lon, lat, radius_nm, n=36) -> str:
    from fixwright.geometry import geodesy

    x, y, _ = geodesy.direct(lon, lat, np.linspace(0.0, 360.0, n), radius_nm)
    x = geodesy.unwrap(x, lon)
    x[-1], y[-1] = x[0], y[0]
    return "POLYGON((" + ",".join(f"{a:.9f} {b:.9f}" for a, b in zip(x, y)) + "))"


def areas(*more, hold="H1", part="basic", alt=4000.0, lon=LON, lat=LAT):
    return layer(("hold:string", "part:string", "alt_ft:double"), [(disc(lon, lat, 5.0), hold, part, alt), *more],
                 kind="Polygon")  # fmt: skip


def holds(*rows_):
    return layer(("hold:string", "fix:string", "alt_ft:double", "alt_to_ft:double", "qnh_hpa:double"),
                 [((LON, LAT), *row) for row in rows_])  # fmt: skip


def airspace(*more, shape=None, lower="GND", upper="4500 ft AMSL", name="Zone", crs="EPSG:4326", kind="Polygon"):
    return layer(FIELDS, [(shape or disc(LON, LAT, 8.0), name, "control zone", lower, upper, "H24", "Tower 118.350"),
                          *more], crs=crs, kind=kind)  # fmt: skip


def found_by(**parameters):
    parameters.setdefault("AREAS", areas())
    return run("airspacetest", **parameters)


def only(made, name="TESTS") -> dict:
    (row,) = made.rows(name)
    return row


# --- polygons, lines, points


def test_a_zone():
    made = found_by(AIRSPACE=airspace())
    row, test = only(made, "CONTACTS"), only(made)
    assert (row["hold"], row["airspace"], row["ok"], row["relation"]) == ("H1", "Zone", 0, "inside")
    assert (row["lower"], row["upper"], row["lower_ft"], row["upper_ft"]) == ("GND", "4500 ft AMSL", None, 4500.0)
    assert (row["hours"], row["contact"], row["distance_nm"], row["distance_ft"]) == ("H24", "Tower 118.350", 0.0, 0.0)
    assert row["overlap_nm2"] == pytest.approx(math.pi * 25.0, rel=0.01)
    assert (test["test"], test["ok"], test["value"], test["limit_value"], test["unit"]) == (
        "airspace",
        0,
        0.0,
        2.0,
        "NM",
    )
    assert test["text"] == row["text"] and test["text"].startswith("The holding area lies inside Zone, control zone (")
    assert made.counts == (2, 2, 0)


def test_routes_and_places():
    routes = layer((*FIELDS, "half_width_nm:double"), [
        ("LINESTRING(19 45.2, 21 45.2)", "Q1", "airway", "FL 35", "FL 245", "", "", 5.0),
        ("LINESTRING(19 45.2, 21 45.2)", "Q2", "airway", "FL 35", "FL 245", "", "", 10.0),
    ], kind="LineString")  # fmt: skip
    places = layer((*FIELDS, "radius_nm:double"), [
        ((LON + 0.25, LAT), "Drop", "parachuting", "GND", "FL 140", "weekends", "Drop 129.9", 2.5),
        ((LON + 2.0, LAT), "Far", "circuits", "GND", "1500 ft AMSL", "", "", 2.0),
    ])  # fmt: skip
    found = {row["airspace"]: row for row in found_by(ROUTES=routes, PLACES=places, DISTANCE_NM=4).rows("CONTACTS")}
    assert set(found) == {"Q1", "Q2", "Drop"}
    # 12 NM north of the middle, less 5 of the area and 5 or 10 of the route; 10.6 NM east, less 5 and 2.5
    assert found["Q1"]["distance_nm"] == pytest.approx(2.0, abs=0.05)
    assert (found["Q2"]["relation"], found["Q2"]["distance_nm"]) == ("overlaps", 0.0)
    assert found["Drop"]["distance_nm"] == pytest.approx(3.1, abs=0.1)
    assert found["Drop"]["edge_nm"] == pytest.approx(found["Drop"]["distance_nm"] + 2.5, abs=1e-6)


@pytest.mark.parametrize("width", [field("wide"), "field:wide", expression("wide * 1"), 2.5], ids=str)
def test_a_radius_from_anywhere(width):
    places = layer((*FIELDS, "wide:double"), [((LON + 0.25, LAT), "Drop", "", "GND", "UNL", "", "", 2.5)])
    row = only(found_by(PLACES=places, RADIUS=width, DISTANCE_NM=10), "CONTACTS")
    assert row["edge_nm"] - row["distance_nm"] == pytest.approx(2.5, abs=1e-9)


def test_a_place_without_its_radius_is_rejected_and_still_counts():
    places = layer((*FIELDS, "radius_nm:double"), [((LON, LAT), "Drop", "", "GND", "UNL", "", "", None)])
    made = found_by(PLACES=places)
    assert made.reasons() == {"PLACES 1": "Drop: its radius is not known"}
    assert only(made, "CONTACTS")["airspace"] == "Drop"
    assert made.counts == (2, 1, 1)


# --- levels


def test_a_block_from_the_holds():
    zone = airspace(lower="6000 ft AMSL", upper="FL 95")
    assert only(found_by(AIRSPACE=zone))["ok"] == 1
    made = found_by(AIRSPACE=zone, HOLDS=holds(("H1", "F", 4000.0, 5800.0, None)))
    assert (only(made)["ok"], only(made, "CONTACTS")["distance_ft"]) == (0, 200.0)


def test_flight_levels_by_qnh():
    """977.17 hPa is the pressure at 1 000 ft of the standard atmosphere (ICAO Doc 7488)."""
    zone = airspace(lower="FL 55", upper="FL 95")
    assert only(found_by(AIRSPACE=zone), "CONTACTS")["distance_ft"] == pytest.approx(1500.0, abs=0.5)
    for given in ({"QNH": 977.166}, {"HOLDS": holds(("H1", "F", 4000.0, None, 977.166))}):
        row = only(found_by(AIRSPACE=zone, **given), "CONTACTS")
        assert row["distance_ft"] == pytest.approx(500.0, abs=0.5)
        assert "FL 55 is 4 500 ft at QNH 977" in row["note"]


def test_a_limit_that_cannot_be_read():
    """The airspace is rejected, and the hold beside it neither passed nor lost."""
    made = found_by(AIRSPACE=airspace(upper="by NOTAM"))
    assert made.reasons() == {
        "AIRSPACE 1": "Zone: upper limit: 'by NOTAM' says that the limit stands elsewhere; write the limit itself"
    }
    assert (only(made)["ok"], only(made, "CONTACTS")["ok"]) == (None, None)
    assert "cannot be told" in only(made)["text"]


def test_figures_without_a_unit():
    zone = airspace(lower="0", upper="4500")
    assert "has no unit" in found_by(AIRSPACE=zone).reasons()["AIRSPACE 1"]
    row = only(found_by(AIRSPACE=zone, PLAIN_UNIT="ft"), "CONTACTS")
    assert (row["ok"], row["upper_ft"]) == (0, 4500.0)
    assert only(found_by(AIRSPACE=airspace(lower="0", upper="45"), PLAIN_UNIT="fl"), "CONTACTS")["upper_ft"] == 4500.0


def test_above_the_ground(tmp_path):
    """Flat ground of 700 m is 2 297 ft: 1 500 ft above it are 3 797 ft, 203 ft below the hold."""
    pytest.importorskip("osgeo.gdal", reason="needs GDAL for Python")
    from fixwright.tests.algorithms.test_coverage import raster

    zone = airspace(upper="1500 ft AGL")
    assert only(found_by(AIRSPACE=zone))["ok"] is None
    dem = raster(tmp_path / "dem.tif", np.full((120, 160), 700.0), 19.4, 45.5)
    row = only(found_by(AIRSPACE=zone, DEM=dem), "CONTACTS")
    assert row["upper_ft"] == pytest.approx(700.0 / 0.3048 + 1500.0)
    assert (row["ok"], row["distance_ft"]) == (0, pytest.approx(203.4, abs=0.1))
    assert only(found_by(AIRSPACE=zone, DEM=dem, DISTANCE_FT=200))["ok"] == 1
    short = raster(tmp_path / "short.tif", np.full((120, 60), 700.0), 19.4, 45.5)
    assert only(found_by(AIRSPACE=zone, DEM=short))["ok"] is None


# --- bad shapes


BOW = "POLYGON((19.8 44.8, 20.2 45.2, 20.2 44.8, 19.8 45.2, 19.8 44.8))"
"""Crosses itself in the middle."""


def test_rings_that_cross_are_repaired_and_said():
    made = found_by(AIRSPACE=airspace(shape=BOW))
    row = only(made, "CONTACTS")
    assert "its shape was not valid and was repaired" in row["note"] and "repaired" in row["text"]
    assert any("AIRSPACE 1 (Zone): its shape was not valid and was repaired" in line for line in made.log)
    assert (row["ok"], made.counts[2]) == (0, 0)
    # two triangles left and right of the middle, no square: a slope of 12 to 8.49 NM passes 9 NM south of the area's
    # middle, 9 * 8.49 / 14.7 = 5.20 NM from it
    beside = only(found_by(AREAS=areas(lat=45.15), AIRSPACE=airspace(shape=BOW)), "CONTACTS")
    assert (beside["relation"], beside["distance_nm"]) == ("near", pytest.approx(0.2, abs=0.03))


def box(west, south, east, north) -> str:
    return f"({west} {south}, {east} {south}, {east} {north}, {west} {north}, {west} {south})"


@pytest.mark.parametrize(
    ("shape", "holds_it"),
    [
        # what two parts share, a part within a part, what a ring runs round twice: all of it is airspace
        (f"MULTIPOLYGON(({box(19, 44.5, 20.5, 45.5)}), ({box(19.5, 44.4, 21, 45.6)}))", True),
        (f"MULTIPOLYGON(({box(19, 44, 21, 46)}), ({box(19.5, 44.5, 20.5, 45.5)}))", True),
        ("POLYGON((19 44, 21 44, 21 46, 19 46, 19 44, 19.5 44.5, 20.5 44.5, 20.5 45.5, 19.5 45.5, 19.5 44.5, 19 44))",
         True),
        # a second ring beyond the first is no hole
        (f"POLYGON({box(21, 44.5, 22, 45.5)}, {box(19.5, 44.5, 20.5, 45.5)})", True),
        # a hole in one ring, out and back by the same cut
        ("POLYGON((19 44, 21 44, 21 46, 19 46, 19 44, 19.5 44.5, 19.5 45.5, 20.5 45.5, 20.5 44.5, 19.5 44.5, 19 44))",
         False),
        # a hole that runs over the edge
        (f"POLYGON({box(19, 44, 21, 46)}, {box(19.5, 44.5, 21.5, 45.5)})", False),
    ],
)  # fmt: skip
def test_a_repair_takes_nothing_away(shape, holds_it):
    kind = shape.partition("(")[0].replace("MULTIPOLYGON", "MultiPolygon").replace("POLYGON", "Polygon")
    made = found_by(AIRSPACE=airspace(shape=shape, kind=kind))
    if holds_it:
        row = only(made, "CONTACTS")
        assert (row["relation"], row["ok"]) == ("inside", 0) and "repaired" in row["note"]
    else:
        assert only(made)["ok"] == 1 and not made.rows("CONTACTS")
        assert any("repaired" in line for line in made.log)


def test_shapes_that_are_none():
    spike = "POLYGON((20 45, 21 46, 22 47, 20 45))"
    more = [(shape, f"Z{i}", "", "GND", "UNL", "", "") for i, shape in enumerate((spike, None, "POLYGON EMPTY"))]
    made = found_by(AIRSPACE=airspace(*more))
    assert made.reasons() == {
        "AIRSPACE 2": "Z0: its rings enclose nothing", "AIRSPACE 3": "Z1: the row has no shape",
        "AIRSPACE 4": "Z2: the row has no shape",
    }  # fmt: skip
    assert made.counts == (5, 2, 3)
    assert [row["airspace"] for row in made.rows("CONTACTS")] == ["Zone"]
    clear = found_by(AREAS=areas(lon=30.0), AIRSPACE=airspace(*more))
    assert "3 airspaces without a known shape or width are not among it" in only(clear)["text"]


def test_arcs_and_heights_in_shapes():
    """Real airspace comes as curves with a Z. Arcs of 0.13 degrees (5.5 NM to the east) hold the area's 5 NM; the four
    chords between their points (4.5 NM) would not."""
    arcs = "CURVEPOLYGON Z(CIRCULARSTRING Z(19.87 45 1, 20 45.13 1, 20.13 45 1, 20 44.87 1, 19.87 45 1))"
    row = only(found_by(AIRSPACE=airspace(shape=arcs, kind="CurvePolygonZ")), "CONTACTS")
    assert row["relation"] == "inside"


def test_another_crs():
    plain = only(found_by(AIRSPACE=airspace(shape=disc(LON + 0.3, LAT, 6.0)), DISTANCE_NM=9), "CONTACTS")
    source = airspace(shape=disc(LON + 0.3, LAT, 6.0))
    to = core.QgsCoordinateTransform(
        source.crs(), core.QgsCoordinateReferenceSystem("EPSG:3857"), core.QgsCoordinateTransformContext()
    )
    geometry = next(source.getFeatures()).geometry()
    geometry.transform(to)
    moved = only(found_by(AIRSPACE=airspace(shape=geometry.asWkt(3), crs="EPSG:3857"), DISTANCE_NM=9), "CONTACTS")
    assert moved["distance_nm"] == pytest.approx(plain["distance_nm"], abs=0.001)


def test_across_the_180th_meridian():
    """The area as our layers keep it, cut in two; the zone drawn from 179.8 to -179.8."""
    zone = airspace(shape=disc(20.3, 10.0, 8.0))
    home = only(found_by(AREAS=areas(lon=20.0, lat=10.0), AIRSPACE=zone, DISTANCE_NM=9), "CONTACTS")
    from fixwright.geometry import geodesy, wkb

    x, y, _ = geodesy.direct(180.0, 10.0, np.linspace(0.0, 360.0, 36), 5.0)
    ring = np.stack([geodesy.unwrap(x, 180.0), y], axis=1)
    ring[-1] = ring[0]
    cut = core.QgsGeometry()
    cut.fromWkb(wkb.multipolygons(ring, [0, len(ring)])[0])
    assert cut.constGet().numGeometries() == 2
    area = layer(("hold:string", "part:string", "alt_ft:double"), [(cut.asWkt(12), "H1", "basic", 4000.0)],
                 kind="MultiPolygon")  # fmt: skip
    row = only(found_by(AREAS=area, AIRSPACE=airspace(shape=disc(180.3, 10.0, 8.0)), DISTANCE_NM=9), "CONTACTS")
    assert row["distance_nm"] == pytest.approx(home["distance_nm"], abs=1e-4)
    wide = "POLYGON((179.7 9.8, -179.7 9.8, -179.7 10.2, 179.7 10.2, 179.7 9.8))"
    row = only(found_by(AREAS=area, AIRSPACE=airspace(shape=wide)), "CONTACTS")
    assert (row["relation"], row["note"]) == ("inside", None)


# --- holds are never lost


def test_every_hold_has_a_test():
    """One with an area, one with other parts only, one without, one whose area is no shape."""
    source = areas((disc(LON, LAT, 5.0), "H2", "buffer_1", 4000.0), (None, "H4", "basic", 4000.0))
    made = found_by(AREAS=source, HOLDS=holds(*[(key, "F", 4000.0, None, None) for key in ("H1", "H2", "H3")]),
                  AIRSPACE=airspace())  # fmt: skip
    told = {row["hold"]: row for row in made.rows("TESTS")}
    assert {key: row["ok"] for key, row in told.items()} == {"H1": 0, "H2": None, "H3": None, "H4": None}
    assert "The hold has no area that counts" in told["H2"]["text"]
    assert "An area of the hold cannot be read: the row has no shape" in told["H4"]["text"]
    assert made.reasons() == {"AREAS 3": "the row has no shape"}


def test_parts_that_count():
    source = areas((disc(LON, LAT, 9.0), "H1", "buffer_1", 4000.0))
    zone = airspace(shape=disc(LON + 0.35, LAT, 6.0))
    narrow, wide = (only(found_by(AREAS=source, AIRSPACE=zone, PARTS=parts, DISTANCE_NM=9), "CONTACTS")
                    for parts in ("area", "all"))  # fmt: skip
    assert narrow["distance_nm"] == pytest.approx(3.85, abs=0.15)
    assert wide["distance_nm"] == 0.0


def test_basic_and_entry_are_one_area():
    source = areas((disc(LON + 0.1, LAT, 5.0), "H1", "entry", 4000.0))
    made = found_by(AREAS=source, AIRSPACE=airspace(shape=disc(LON + 0.05, LAT, 1.0)))
    assert only(made, "CONTACTS")["relation"] == "overlaps"
    assert len(made.rows("TESTS")) == 1


def test_tracks():
    tracks = layer(("hold:string",), [("LINESTRING(20 45, 20.4 45)", "H1"), ("LINESTRING(0 0, 1 1)", "HX")],
                   kind="LineString")  # fmt: skip
    made = found_by(AIRSPACE=airspace(shape=disc(LON + 0.4, LAT, 4.0)), TRACKS=tracks)
    assert [(row["what"], row["relation"]) for row in made.rows("CONTACTS")] == [("track", "overlaps")]
    assert only(made, "CONTACTS")["text"].startswith("The flown track overlaps Zone")
    assert {row["test"]: row["ok"] for row in made.rows("TESTS")} == {"airspace": 1, "airspace_track": 0}
    assert made.reasons() == {"TRACKS 2": "its hold, 'HX', has neither an area nor a row in HOLDS"}


def test_far_away():
    row = only(found_by(AIRSPACE=airspace(shape=disc(30.0, LAT, 5.0))))
    assert (row["ok"], row["text"]) == (1, "No airspace comes within 2.0 NM and 500 ft of the holding area")


def test_without_shapely(monkeypatch):
    monkeypatch.setitem(sys.modules, "shapely", None)
    made = found_by(AIRSPACE=airspace())
    assert only(made, "CONTACTS")["overlap_nm2"] is None
    assert only(made)["ok"] == 0
    assert any("overlap_nm2 is left empty" in line for line in made.log)


def test_outputs_one_at_a_time_and_none():
    given = {"AREAS": areas(), "AIRSPACE": airspace()}
    whole = run("airspacetest", **given)
    for name in ("TESTS", "CONTACTS"):
        skip = {"TESTS", "CONTACTS", "REJECTS"} - {name}
        assert plain(run("airspacetest", skip=skip, **given).rows(name)) == plain(whole.rows(name))
    assert run("airspacetest", skip=("TESTS", "CONTACTS", "REJECTS"), **given).counts == whole.counts


def plain(made):
    return [{key: value for key, value in row.items() if key != "geometry"} for row in made]


def test_cancelled_at_once(tmp_path):
    made = found_by(AIRSPACE=airspace(), feedback=Feedback(cancel_at=0), TESTS=str(tmp_path / "tests.gpkg"))
    assert made.counts == (0, 0, 0) and list(tmp_path.iterdir()) == []


# --- what is refused


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"AIRSPACE": None}, "None of AIRSPACE, ROUTES and PLACES is given; give one of them."),
        ({"LOWER_FIELD": "nix"}, "LOWER_FIELD names the field 'nix', which the input does not have"),
        ({"DISTANCE_NM": -1}, "DISTANCE_NM is -1; it must be a number between 0 and 100 NM."),
        ({"PARTS": "some"}, "PARTS is 'some'; it must be one of 0 area, 1 all."),
        ({"QNH": 500}, "QNH is 500; it must be a number between 850 and 1100 hPa."),
    ],
)
def test_refused(changes, said):
    given = {"AREAS": areas(), "AIRSPACE": airspace(), **changes}
    assert refusal("airspacetest", **{k: v for k, v in given.items() if v is not None}).startswith(said)


def test_layers_that_lack_fields():
    bare = layer(("name:string",), [(BOW, "Z")], kind="Polygon")
    assert refusal("airspacetest", AREAS=areas(), AIRSPACE=bare).startswith("AIRSPACE has no field for the limit LOWER")
    assert refusal("airspacetest", AREAS=bare, AIRSPACE=airspace()).startswith("AREAS has no field hold, part, alt_ft;")
    lines = layer(FIELDS, [("LINESTRING(0 0, 1 1)", "Q", "", "GND", "UNL", "", "")], kind="LineString")
    assert refusal("airspacetest", AREAS=areas(), ROUTES=lines) == (
        "ROUTES has no field half_width_nm; give it one, or give HALF_WIDTH."
    )
    assert refusal("airspacetest", AREAS=areas(), ROUTES=lines, HALF_WIDTH=5) == ""
    assert "HALF_WIDTH names the field 'nix'" in refusal(
        "airspacetest", AREAS=areas(), ROUTES=lines, HALF_WIDTH="field:nix"
    )


def test_fields_by_any_name():
    odd = layer(("what:string", "from:string", "to:string"), [(disc(LON, LAT, 8.0), "Zone", "SFC", "FL 95")],
                kind="Polygon")  # fmt: skip
    row = only(found_by(AIRSPACE=odd, NAME_FIELD="what", LOWER_FIELD="from", UPPER_FIELD="to"), "CONTACTS")
    assert (row["airspace"], row["lower"], row["upper"], row["ok"]) == ("Zone", "SFC", "FL 95", 0)


# --- the sample area


def test_the_sample_area(root):
    """Holds about the sample navaids against the sample airspace: each is tested, one airspace is refused."""
    samples = root / "sample_layers"
    fixes = run("fixradialdistance", INPUT=f"{samples / 'navaids.gpkg'}|layername=navaids", RADIAL=120, DISTANCE=9,
                NORTH="true", DATE="2026-09-01").layer("FIXES")  # fmt: skip
    made_holds = run("designholds", INPUT=fixes, ALTITUDE=4000, DATE="2026-09-01").layer("HOLDS")
    made_areas = run("protectedareas", INPUT=made_holds).layer("AREAS")
    layers_ = {
        name: f"{samples / 'airspace.gpkg'}|layername={name.lower()}" for name in ("AIRSPACE", "ROUTES", "PLACES")
    }
    made = run("airspacetest", AREAS=made_areas, HOLDS=made_holds, **layers_)
    assert {row["hold"] for row in made.rows("TESTS")} == {row["hold"] for row in rows(made_holds)}
    assert list(made.reasons()) == ["AIRSPACE 4"] and "by NOTAM" in made.reasons()["AIRSPACE 4"]
    near = {row["airspace"] for row in made.rows("CONTACTS")}
    assert {"Ombrell Terminal", "Q7 Kelvane to Druvik", "Tarn Slopes"} <= near
    assert {row["kind"] for row in made.rows("CONTACTS")} >= {"terminal area", "airway", "gliding"}


# --- real outlines as stand-ins


def test_countries_as_airspace():
    """Outlines with thousands of corners, many parts and the 180th meridian: areas lie to them as QGIS's own geometry
    says. Source: Natural Earth countries in world_map.gpkg, which comes with QGIS."""
    from pathlib import Path

    path = Path(core.QgsApplication.pkgDataPath()) / "resources" / "data" / "world_map.gpkg"
    if not path.is_file():
        pytest.skip("needs QGIS's world_map.gpkg")
    source = core.QgsVectorLayer(f"{path}|layername=countries", "countries", "ogr")
    assert source.isValid() and source.featureCount() > 200
    places = ((-179.5, 67.0), (179.2, -16.6), (8.2, 47.0), (10.45, 47.3), (-170.0, 25.0), (30.0, -29.0), (28.3, -29.5),
              (12.45, 41.9), (37.6, 55.8), (-69.0, -53.8), (6.1, 50.75), (179.99, 68.5))  # fmt: skip
    shape_of = [disc(lon, lat, 4.0) for lon, lat in places]
    area = layer(("hold:string", "part:string", "alt_ft:double"),
                 [(shape, f"H{i}", "basic", 4000.0) for i, shape in enumerate(shape_of)], kind="Polygon")  # fmt: skip
    name = next(field.name() for field in source.fields() if field.name().lower() == "name")
    made = found_by(AREAS=area, AIRSPACE=source, NAME_FIELD=name, LOWER_FIELD=name, UPPER_FIELD=name, DISTANCE_NM=0)
    ours = {(row["hold"], row["airspace"]): row["relation"] for row in made.rows("CONTACTS")}
    expected = {}
    for i, wkt in enumerate(shape_of):
        ring = core.QgsGeometry.fromWkt(wkt)
        for turn in (-360.0, 0.0, 360.0):
            moved = core.QgsGeometry(ring)
            moved.translate(turn, 0.0)
            for feature in source.getFeatures(moved.boundingBox()):
                country = feature.geometry()
                if country.intersects(moved):
                    within = country.contains(moved) and expected.get((f"H{i}", feature[name])) is None
                    expected[f"H{i}", feature[name]] = "inside" if within else "overlaps"
    assert len(expected) >= 10 and "inside" in expected.values() and "overlaps" in expected.values()
    assert set(ours) == set(expected)
    # an area cut by the meridian in the middle of a country is inside it for us, in two pieces for QGIS
    for key, relation in expected.items():
        assert ours[key] == relation or (ours[key] == "inside" and relation == "overlaps"), key
