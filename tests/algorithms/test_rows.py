"""Rows as they come from the world: what cannot be computed goes to REJECTS with its own fields and a reason."""

from __future__ import annotations

import math

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
    run,
    some_fixes,
    some_holds,
    stations,
)


def test_places_that_are_none():
    rest = STATIONS[0][1:]
    source = layer(
        NAVAIDS,
        [
            (None, *rest),
            ("POINT EMPTY", *rest),
            ((11.0, 48.0), *rest),
            ((math.nan, 48.0), *rest),
            ((11.0, 86.0), *rest),
            ((11.0, 91.0), *rest),
        ],
    )
    made = run("fixradialdistance", INPUT=source, **of_stations())
    assert made.counts == (6, 1, 5)
    assert made.reasons() == {
        "1": "the row has no point",
        "2": "the row has no point",
        "4": "the row has no point",
        "5": "the position lies nearer a pole than 85 degrees of latitude",
        "6": "the row has no usable position",
    }


def test_multipoints():
    """One with a single point is a point; more than one is not."""
    rest = STATIONS[0][1:]
    source = layer(
        NAVAIDS,
        [("MULTIPOINT((11.25 48.5))", *rest), ("MULTIPOINT((1 2),(3 4))", *rest), (None, *rest)],
        kind="MultiPoint",
    )
    made = run("fixradialdistance", INPUT=source, **of_stations())
    assert made.counts == (3, 1, 2)
    assert made.reasons() == {"2": "the row has 2 points; it must have one", "3": "the row has no point"}
    (one,) = made.rows("FIXES")
    same = run("fixradialdistance", INPUT=stations(), **of_stations()).rows("FIXES")[0]
    assert (one["lon"], one["lat"]) == (same["lon"], same["lat"])


def test_points_with_heights():
    rest = STATIONS[0][1:]
    source = layer(NAVAIDS, [("POINTZ(11.25 48.5 400)", *rest)], kind="PointZ")
    (one,) = run("fixradialdistance", INPUT=source, **of_stations()).rows("FIXES")
    same = run("fixradialdistance", INPUT=stations(), **of_stations()).rows("FIXES")[0]
    assert (one["lon"], one["lat"]) == (same["lon"], same["lat"])
    assert one["geometry"].wkbType() == core.QgsWkbTypes.Type.Point


@pytest.mark.parametrize(
    ("kind", "value", "said"),
    [
        ("double", 400.0, "RADIAL is 400; it must be a number between 0 and 360 degrees"),
        ("double", None, "RADIAL is empty; it must be a number between 0 and 360 degrees"),
        ("double", math.nan, "RADIAL is nan; it must be a number between 0 and 360 degrees"),
        ("double", math.inf, "RADIAL is inf; it must be a number between 0 and 360 degrees"),
        ("integer", -1, "RADIAL is -1; it must be a number between 0 and 360 degrees"),
        ("string", "north", "RADIAL is 'north'; it must be a number between 0 and 360 degrees"),
        ("string", "", "RADIAL is empty; it must be a number between 0 and 360 degrees"),
        ("string", "045", ""),
        ("string", "45,5", ""),
    ],
)
def test_a_radial_from_a_field(kind, value, said):
    source = layer((f"rad:{kind}", "decl_deg:double"), [((11.0, 48.0), value, 2.0)])
    made = run("fixradialdistance", INPUT=source, RADIAL=field("rad"), DISTANCE=10, DATE=DATE)
    assert made.reasons() == ({"1": said} if said else {})
    for row in made.rows("REJECTS"):
        assert row["decl_deg"] == 2.0


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("to_int('x')", "RADIAL cannot be computed: Cannot convert 'x' to int"),
        ("NULL", "RADIAL is empty; it must be a number between 0 and 360 degrees"),
        ("1e308 * 10", "RADIAL is inf; it must be a number between 0 and 360 degrees"),
        ("'X'", "RADIAL is 'X'; it must be a number between 0 and 360 degrees"),
    ],
)
def test_a_radial_from_an_expression(text, said):
    made = run("fixradialdistance", INPUT=stations(), **of_stations(RADIAL=expression(text)))
    assert made.counts == (3, 0, 3)
    assert set(made.reasons().values()) == {said}


def test_an_expression_may_use_the_place():
    made = run("fixradialdistance", INPUT=stations(), **of_stations(RADIAL=expression("abs($x) / 1000")))
    assert made.rows("FIXES")[0]["fix"].startswith("QZB R000.01 ")


def test_a_turn_of_x():
    source = some_fixes()
    for value, said in (("'X'", "'X'"), ("'up'", "'up'"), ("2", "2"), ("NULL", "empty"), ("1.5", "1.5")):
        made = run("designholds", INPUT=source, TURN=expression(value), DATE=DATE)
        assert set(made.reasons().values()) == {f"TURN is {said}; it must be one of 0 right, 1 left"}
        assert made.counts == (3, 0, 3)


def test_an_empty_inbound():
    """Asked for from a field, an empty course is a reject and never the course of the fix in silence."""
    source = some_fixes()
    made = run("designholds", INPUT=source, INBOUND=field("cut_deg"), DATE=DATE)
    assert made.counts == (3, 0, 3)
    assert set(made.reasons().values()) == {"INBOUND is empty; it must be a number between 0 and 360 degrees"}
    assert run("designholds", INPUT=source, DATE=DATE).counts == (3, 3, 0)


def test_a_slant_range_shorter_than_the_height():
    """20 000 ft is 3.29 NM: a DME reading of 3 NM cannot be."""
    given = of_stations(DISTANCE=expression("if(ident = 'QLF', 3, 14)"), DISTANCE_KIND="slant", ALTITUDE=20000)
    made = run("fixradialdistance", INPUT=stations(), **given)
    assert made.reasons() == {
        "2": "the slant range is not longer than the height above or below the station",
        "3": "this kind of station gives no distance",
    }


def test_text_where_a_number_should_be():
    source = layer(("ident:string", "decl_deg:string", "elev_ft:string"), [
        ((11.0, 48.0), "QZB", "2.0", "unknown"), ((12.0, 48.0), "QZC", "two", ""), ((13.0, 48.0), "QZD", "-1,5", None),
    ])  # fmt: skip
    made = run("fixradialdistance", INPUT=source, RADIAL=90, DISTANCE=10, DATE=DATE)
    assert made.reasons() == {
        "1": "the field elev_ft is 'unknown', which is not a number",
        "2": "the field decl_deg is 'two', which is not a number",
    }
    (good,) = made.rows("FIXES")
    assert (good["navaid_decl_deg"], good["navaid_elev_ft"]) == (-1.5, None)


def test_an_ident_twice():
    source = layer(NAVAIDS, [STATIONS[0], STATIONS[0], STATIONS[0]])
    made = run("fixradialdistance", INPUT=source, **of_stations())
    assert [r["fix"] for r in made.rows("FIXES")] == [
        "QZB R305 14.0 NM", "QZB R305 14.0 NM (2)", "QZB R305 14.0 NM (3)",
    ]  # fmt: skip
    assert "is taken" in made.rows("FIXES")[1]["assumed"]


def test_a_rejected_row_takes_no_name():
    """The first of two equal names is rejected for its altitude; the second keeps the plain name."""
    source = layer(("ident:string", "decl_deg:double", "alt:double"), [
        ((11.0, 48.0), "QZB", 2.0, None), ((11.0, 48.0), "QZB", 2.0, 3000.0),
    ])  # fmt: skip
    made = run("fixradialdistance", INPUT=source, RADIAL=90, DISTANCE=10, ALTITUDE=field("alt"), DATE=DATE)
    assert made.reasons() == {"1": "ALTITUDE is empty; it must be a number between -2000 and 60000 ft"}
    assert [r["fix"] for r in made.rows("FIXES")] == ["QZB R090 10.0 NM"]


def test_no_ident():
    source = layer(("decl_deg:double",), [((11.0, 48.0), 2.0)])
    (row,) = run("fixradialdistance", INPUT=source, RADIAL=90, DISTANCE=10, DATE=DATE).rows("FIXES")
    assert row["fix"] == "point 1 R090 10.0 NM"


@pytest.mark.parametrize("name", ["kind", "type", "KIND", "what"])
def test_kind_of_navaid(name):
    """An NDB has no radials; found by its field it needs no declination."""
    source = layer(("ident:string", f"{name}:string"), [((11.0, 48.0), "QB", "NDB")])
    more = {"KIND_FIELD": "what"} if name == "what" else {}
    (row,) = run("fixradialdistance", INPUT=source, RADIAL=90, DISTANCE=10, DATE=DATE, **more).rows("FIXES")
    assert (row["navaid_kind"], row["fix"]) == ("NDB", "QB B090 10.0 NM")


def test_another_crs():
    """The same stations in Web Mercator give the same fixes; expressions see the layer's own coordinates."""
    source = stations()
    transform = core.QgsCoordinateTransform(
        source.crs(), core.QgsCoordinateReferenceSystem("EPSG:3857"), core.QgsCoordinateTransformContext()
    )
    moved = []
    for feature, row in zip(source.getFeatures(), STATIONS):
        place = transform.transform(feature.geometry().asPoint())
        moved.append(((place.x(), place.y()), *row[1:]))
    other = layer(NAVAIDS, moved, crs="EPSG:3857")
    expected = run("fixradialdistance", INPUT=source, **of_stations()).rows("FIXES")
    made = run("fixradialdistance", INPUT=other, **of_stations()).rows("FIXES")
    for a, b in zip(made, expected):
        assert (a["lon"], a["lat"]) == pytest.approx((b["lon"], b["lat"]), abs=1e-9)


def test_a_place_that_cannot_be_transformed():
    rest = STATIONS[0][1:]
    source = layer(NAVAIDS, [((500000.0, 5372000.0), *rest), ((1e30, 1e30), *rest)], crs="EPSG:32632")
    made = run("fixradialdistance", INPUT=source, **of_stations())
    assert made.reasons() == {"2": "the position cannot be brought into WGS 84 longitude and latitude"}


def test_across_the_antimeridian():
    """QAM lies 3 NM west of it: the fix beyond lies east, longitudes stay in range, the pattern is cut in two."""
    made = run("fixradialdistance", INPUT=stations(), **of_stations(DISTANCE=3.2, RADIAL=82))
    fix = made.rows("FIXES")[2]
    assert -180.0 <= fix["lon"] < -179.9
    assert fix["geometry"].asPoint().x() == fix["lon"]
    holds = run("designholds", INPUT=made.layer("FIXES"), DATE=DATE)
    pattern = holds.rows("PATTERNS")[2]["geometry"]
    assert pattern.constGet().numGeometries() == 2
    box = pattern.boundingBox()
    assert (box.xMinimum(), box.xMaximum()) == (-180.0, 180.0)
    key = holds.rows("HOLDS")[2]["hold"]
    areas = [row for row in run("protectedareas", INPUT=holds.layer("HOLDS")).rows("AREAS") if row["hold"] == key]
    assert len(areas) == 7
    for row in areas:
        assert row["geometry"].constGet().numGeometries() >= 2 and row["geometry"].isGeosValid()


def test_lat_and_another_lat():
    """Two fields that differ in case only, both named like one of ours: ours wins."""
    source = layer(("lat:double", "LAT:double", "decl_deg:double"), [((11.0, 48.0), 1.0, 2.0, 2.0)])
    made = run("fixradialdistance", INPUT=source, RADIAL=field("lat"), DISTANCE=10, DATE=DATE)
    (row,) = made.rows("FIXES")
    assert row["fix"] == "point 1 R001 10.0 NM"
    made = run("fixradialdistance", INPUT=source, RADIAL=field("LAT"), DISTANCE=10, DATE=DATE)
    (row,) = made.rows("FIXES")
    assert row["fix"] == "point 1 R002 10.0 NM"
    assert [name for name in row if name.lower() == "lat"] == ["lat"]
    made = run("fixradialdistance", INPUT=source, RADIAL=expression("-1"), DISTANCE=10, DATE=DATE)
    (row,) = made.rows("REJECTS")
    assert (row["lat"], row["LAT_2"]) == (1.0, 2.0)


# Holds


def test_points_that_are_no_fixes():
    """Any points will do, with an inbound course; what is assumed is said."""
    source = layer(("name:string",), [((11.0, 48.0), "Lake"), ((12.0, 48.0), "")])
    made = run("designholds", INPUT=source, FIX_FIELD="name", INBOUND=90, NORTH="true", DATE=DATE)
    first, second = made.rows("HOLDS")
    assert (first["hold"], first["fix"], second["hold"], second["fix"]) == ("Lake", "Lake", "hold 2", None)
    assert (first["alt_ft"], first["leg_min"], first["leg_kind"]) == (5000.0, 1.0, "time")
    assert "altitude 5 000 ft" in first["assumed"]
    assert first["inbound_true_deg"] == 90.0


def test_the_altitude_of_the_fix():
    fixes = run("fixradialdistance", INPUT=stations(), **of_stations(ALTITUDE=7000)).layer("FIXES")
    rows = run("designholds", INPUT=fixes, DATE=DATE).rows("HOLDS")
    assert {row["alt_ft"] for row in rows} == {7000.0}
    assert not any("altitude" in row["assumed"] for row in rows)
    rows = run("designholds", INPUT=fixes, DATE=DATE, ALTITUDE=4000, ALTITUDE_TO=6000).rows("HOLDS")
    assert {(row["alt_ft"], row["alt_to_ft"]) for row in rows} == {(4000.0, 6000.0)}


def test_legs_both_ways_in_one_row():
    made = run("designholds", INPUT=some_fixes(), LEG_MIN=1, LEG_NM=expression("4"), DATE=DATE)
    assert set(made.reasons().values()) == {"the leg is given both in minutes and in NM"}


def test_children_join_on_their_hold():
    made = run("designholds", INPUT=some_fixes(), DATE=DATE)
    keys = [row["hold"] for row in made.rows("HOLDS")]
    assert [row["hold"] for row in made.rows("PATTERNS")] == keys
    legs = [(row["hold"], row["leg"]) for row in made.rows("TRACKS")]
    assert legs == [(key, leg) for key in keys for leg in ("turn_out", "outbound", "turn_in", "inbound")]


def test_a_finer_tolerance_gives_more_vertices():
    source = some_fixes()
    coarse, fine = [
        run("designholds", INPUT=source, DATE=DATE, TOLERANCE=tolerance).rows("PATTERNS")[0]["geometry"]
        for tolerance in (50, 0.5)
    ]
    assert fine.constGet().nCoordinates() > 3 * coarse.constGet().nCoordinates()


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("turn", "X", "turn is 'X'; it must be one of right, left"),
        ("turn", "", "turn is empty; it must be one of right, left"),
        ("leg_kind", "miles", "leg_kind is 'miles'; it must be one of time, distance"),
        ("rules", "easa", "rules is 'easa'; it must be one of icao, faa"),
        ("leg_end", "soon", "leg_end is 'soon'; it must be one of dme, along_track, inbound_length"),
        ("leg_kind", "distance", "leg_nm is empty"),
        ("hold", "", "hold is empty; later layers join on it"),
        ("ias_kt", None, "ias_kt is empty"),
        ("inbound_true_deg", math.inf, "the field inbound_true_deg is inf, which is not a number"),
        ("inbound_true_deg", 361.0, "the course is not between 0 and 360 degrees"),
    ],
)
def test_a_hold_that_is_none(name, value, said):
    source = some_holds()
    second = [feature.id() for feature in source.getFeatures()][1]
    assert source.dataProvider().changeAttributeValues({second: {source.fields().indexOf(name): value}})
    made = run("protectedareas", INPUT=source)
    assert made.counts == (3, 2, 1)
    assert made.reasons() == {str(second): said}
    assert made.rows("REJECTS")[0]["fix"] == "QLF R045.5 9.0 NM"


def test_derived_fields_are_not_trusted():
    """A tas_kt changed by hand changes nothing: areas are made from the essentials."""
    expected = [row["area_nm2"] for row in run("protectedareas", INPUT=some_holds()).rows("AREAS")]
    source = some_holds()
    changes = {source.fields().indexOf(name): 9999.0 for name in ("tas_kt", "radius_nm", "length_nm", "lat", "lon")}
    assert source.dataProvider().changeAttributeValues({f.id(): changes for f in source.getFeatures()})
    assert [row["area_nm2"] for row in run("protectedareas", INPUT=source).rows("AREAS")] == expected


def test_fix_tolerance_areas():
    """The area over a tolerance area contains the one over the point; a fix without one is a reject, not a point."""
    holds = some_holds()
    keys = [feature["fix"] for feature in holds.getFeatures()]
    places = [feature.geometry().asPoint() for feature in holds.getFeatures()]
    shapes = []
    for key, place in list(zip(keys, places))[:2]:
        ring = core.QgsGeometry.fromPointXY(place).buffer(0.02, 4)
        shapes.append((ring.asWkt(12), key))
    areas = layer(("fix:string",), shapes, kind="Polygon")
    made = run("protectedareas", INPUT=holds, FIX_TOLERANCE=areas)
    assert made.counts == (3, 2, 1)
    assert made.reasons() == {"3": f"FIX_TOLERANCE has no polygon for the fix {keys[2]!r}"}
    points = run("protectedareas", INPUT=holds)
    pairs = list(zip(_basic(made), _basic(points)))
    assert len(pairs) == 2
    for wide, narrow in pairs:
        assert wide["hold"] == narrow["hold"]
        assert wide["geometry"].contains(narrow["geometry"])
        assert wide["area_nm2"] > narrow["area_nm2"]


def _basic(made) -> list[dict]:
    return [row for row in made.rows("AREAS") if row["part"] == "basic"]


def test_fix_tolerance_areas_in_another_crs():
    holds = some_holds()
    ring = core.QgsGeometry.fromPointXY(next(holds.getFeatures()).geometry().asPoint()).buffer(0.02, 4)
    key = next(holds.getFeatures())["fix"]
    plain = layer(("fix:string",), [(ring.asWkt(12), key)], kind="Polygon")
    ring.transform(
        core.QgsCoordinateTransform(
            core.QgsCoordinateReferenceSystem("EPSG:4326"),
            core.QgsCoordinateReferenceSystem("EPSG:3857"),
            core.QgsCoordinateTransformContext(),
        )
    )
    other = layer(("fix:string",), [(ring.asWkt(6), key)], crs="EPSG:3857", kind="Polygon")
    sizes = [run("protectedareas", INPUT=holds, FIX_TOLERANCE=areas).rows("AREAS")[0]["area_nm2"]
             for areas in (plain, other)]  # fmt: skip
    assert sizes[0] == pytest.approx(sizes[1], rel=1e-6)


# Along a track


def test_from_a_position():
    """The present course is the geodesic's at the point. Reference: the PyPI package geographiclib."""
    from geographiclib.geodesic import Geodesic

    source = layer(("ident:string",), [((11.25, 48.5), "QZB")])
    made = run("fixalongtrack", INPUT=source, FROM="10.0,50.0", DISTANCE=9, SIDE="before", DATE=DATE)
    (row,) = made.rows("FIXES")
    line = Geodesic.WGS84.Inverse(50.0, 10.0, 48.5, 11.25)
    at = Geodesic.WGS84.Direct(50.0, 10.0, line["azi1"], line["s12"] - 9 * 1852.0)
    assert (row["lat"], row["lon"]) == pytest.approx((at["lat2"], at["lon2"]), abs=1e-9)
    assert row["course_true_deg"] == pytest.approx(at["azi2"] % 360.0, abs=1e-7)


@pytest.mark.parametrize("crs", ["EPSG:4326", "EPSG:3857"])
def test_from_a_position_in_a_crs(crs):
    source = layer(("ident:string",), [((11.25, 48.5), "QZB")])
    place = core.QgsPointXY(10.0, 50.0)
    system = core.QgsCoordinateReferenceSystem(crs)
    to = core.QgsCoordinateTransform(
        core.QgsCoordinateReferenceSystem("EPSG:4326"), system, core.QgsCoordinateTransformContext()
    )
    place = to.transform(place)
    for given in (f"{place.x()!r},{place.y()!r} [{crs}]", core.QgsReferencedPointXY(place, system)):
        (row,) = run("fixalongtrack", INPUT=source, FROM=given, DISTANCE=9, DATE=DATE).rows("FIXES")
        (plain,) = run("fixalongtrack", INPUT=source, FROM="10,50", DISTANCE=9, DATE=DATE).rows("FIXES")
        assert (row["lon"], row["lat"]) == pytest.approx((plain["lon"], plain["lat"]), abs=1e-9)


def test_before_and_beyond_by_word_from_each_row():
    made = run("fixalongtrack", INPUT=stations(), COURSE=90, NORTH="true", DISTANCE=9, DATE=DATE,
               SIDE=expression("if(turn = 'left', 'beyond', 'BEFORE')"))  # fmt: skip
    assert [row["fix"].split()[2] for row in made.rows("FIXES")] == ["before", "beyond", "before"]
    signs = [1 if row["lon"] > station[0][0] else -1 for row, station in zip(made.rows("FIXES"), STATIONS)]
    assert signs == [-1, 1, -1]


def test_a_tolerance_area_that_is_not_valid_counts_by_its_corners():
    """A polygon that crosses itself, and a row without one, do not end the run."""
    holds = some_holds()
    first, second = list(holds.getFeatures())[:2]
    lon, lat = first["lon"], first["lat"]
    bow = (f"POLYGON(({lon - 0.02} {lat - 0.02}, {lon + 0.02} {lat + 0.02}, {lon + 0.02} {lat - 0.02}, "
           f"{lon - 0.02} {lat + 0.02}, {lon - 0.02} {lat - 0.02}))")  # fmt: skip
    areas = layer(("fix:string",), [(bow, first["fix"]), (None, second["fix"])], kind="Polygon")
    made = run("protectedareas", INPUT=holds, FIX_TOLERANCE=areas)
    assert made.counts[1] == 1
    assert f"FIX_TOLERANCE has no polygon for the fix {second['fix']!r}" in made.reasons().values()
