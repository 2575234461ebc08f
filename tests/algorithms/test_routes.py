"""Fix along a track with ROUTE: lines of any kind of layer, from a vertex, from the start, abeam.

Routes and navaids are invented and lie on open ocean. Distances are measured with geographiclib.
"""

from __future__ import annotations

import pytest
from geographiclib.geodesic import Geodesic

from fixwright.tests.algorithms.layers import DATE, core, expression, field, layer, refusal, run

WGS84 = Geodesic.WGS84
NM = 1852.0
POINT_FIELDS = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double", "number:double")
POINTS = (
    ((-40.4, 43.2), "QLF", "VOR/DME", 600.0, -14.0, 1.0),
    ((-39.8, 43.1), "KVT", "VOR", 300.0, -15.0, 2.0),
    ((-20.0, 10.0), "FAR", "VOR/DME", 10.0, -10.0, 9.0),
)
BAY = ((-41.0, 43.0), (-40.4, 43.2), (-39.8, 43.1), (-39.2, 43.4))
NORTH = ((-40.4, 42.0), (-40.4, 43.25))
OFF = "no route passes within the distance allowed"


def _wkt(*lines) -> str:
    parts = ["(" + ", ".join(f"{x!r} {y!r}" for x, y in line) + ")" for line in lines]
    return f"LINESTRING {parts[0]}" if len(lines) == 1 else f"MULTILINESTRING ({', '.join(parts)})"


def _routes(*features, crs="EPSG:4326", kind="LineString", fields=("route:string",)):
    return layer(fields, features, crs=crs, kind=kind)


def _bay():
    return _routes((_wkt(BAY), "Bay"))


def _points():
    return layer(POINT_FIELDS, POINTS)


def _follow(**parameters):
    parameters.setdefault("INPUT", _points())
    parameters.setdefault("ROUTE", _bay())
    return run("fixalongtrack", **{"DISTANCE": 5, "DATE": DATE, **parameters})


def _leg(one, two):
    return WGS84.Inverse(one[1], one[0], two[1], two[0])


def _on(line, leg: int, nm: float):
    """A place so far along a leg (0 for the first): lon, lat, course there."""
    out = _leg(line[leg], line[leg + 1])
    at = WGS84.Direct(line[leg][1], line[leg][0], out["azi1"], nm * NM)
    return at["lon2"], at["lat2"], at["azi2"] % 360.0


def _is_at(row, lon, lat, course=None):
    point = row["geometry"].asPoint()
    assert (point.x(), point.y()) == (row["lon"], row["lat"])
    assert WGS84.Inverse(row["lat"], row["lon"], lat, lon)["s12"] < 1e-3
    if course is not None:
        assert row["course_true_deg"] == pytest.approx(course, abs=1e-6)


def _nm(line, leg: int) -> float:
    return _leg(line[leg], line[leg + 1])["s12"] / NM


# --- from a vertex


def test_before_and_beyond_the_nearest_vertex():
    """Two of the three navaids lie on the route; the third is a reject, not a place on a far route."""
    made = _follow(SIDE="beyond")
    assert made.counts == (3, 2, 1)
    first, second = made.rows("FIXES")
    _is_at(first, *_on(BAY, 1, 5.0))
    _is_at(second, *_on(BAY, 2, 5.0))
    assert [row["fix"] for row in (first, second)] == ["QLF 5.0 beyond on Bay", "KVT 5.0 beyond on Bay"]
    assert made.reasons() == {"3": OFF}
    (reject,) = made.rows("REJECTS")
    assert reject["ident"] == "FAR"
    before = _follow(SIDE="before").rows("FIXES")
    _is_at(before[0], *_on(BAY, 0, _nm(BAY, 0) - 5.0))
    _is_at(before[1], *_on(BAY, 1, _nm(BAY, 1) - 5.0))


def test_the_fields_of_a_fix_on_a_route():
    row = _follow(SIDE="beyond", ALTITUDE=6000).rows("FIXES")[0]
    course = _leg(BAY[1], BAY[2])["azi1"]
    assert (row["method"], row["navaid"], row["navaid_kind"]) == ("route", "QLF", "VOR/DME")
    assert row["dist_nm"] == pytest.approx(5.0, abs=1e-6) and row["dme_nm"] > 5.0
    assert row["radial_deg"] == pytest.approx(course + 14.0, abs=1e-6)
    assert row["course_station_deg"] == pytest.approx(course + 14.0, abs=1e-6)
    assert row["course_model_deg"] == pytest.approx(row["course_true_deg"] - row["var_deg"], abs=1e-9)
    assert row["kind"] == "VOR/DME" and row["number"] == 1.0, "the input's own fields follow"


def test_at_a_vertex_both_courses_are_told():
    row = _follow(DISTANCE=0).rows("FIXES")[0]
    before, after = _leg(BAY[0], BAY[1])["azi2"], _leg(BAY[1], BAY[2])["azi1"]
    _is_at(row, *BAY[1], before)
    assert row["assumed"] == f"at the vertex the true course changes from {round(before):03d} to {round(after):03d}"


def test_a_vertex_by_its_number():
    made = _follow(VERTEX=3, SIDE="beyond", DISTANCE=4)
    assert made.counts == (3, 3, 0)
    for row in made.rows("FIXES"):
        _is_at(row, *_on(BAY, 2, 4.0))
    assert [row["fix"] for row in made.rows("FIXES")] == [
        f"Bay 4.0 beyond vertex 3{more}" for more in ("", " (2)", " (3)")
    ]


def test_a_vertex_of_each_row():
    made = _follow(VERTEX=field("number"), SIDE="beyond", DISTANCE=4)
    assert made.counts == (3, 2, 1)
    first, second = made.rows("FIXES")
    _is_at(first, *_on(BAY, 0, 4.0))
    _is_at(second, *_on(BAY, 1, 4.0))
    assert made.reasons() == {"3": "the route has no such vertex"}


def test_off_the_ends():
    made = _follow(VERTEX=expression("if(ident = 'QLF', 1, 4)"), DISTANCE=3, SIDE="before")
    assert made.reasons() == {"1": "the place lies off the ends of the route"}
    assert len(made.rows("FIXES")) == 2


# --- from the start


@pytest.mark.parametrize("side", ["before", "beyond"])
def test_from_the_start(side):
    """The side does not count: there is nothing before the start."""
    first = _nm(BAY, 0)
    made = _follow(ROUTE_FROM="start", DISTANCE=expression(f"if(ident = 'KVT', {first + 6.0}, 10)"), SIDE=side)
    assert made.counts == (3, 3, 0)
    one, two, _ = made.rows("FIXES")
    _is_at(one, *_on(BAY, 0, 10.0))
    _is_at(two, *_on(BAY, 1, 6.0))
    assert one["fix"] == "Bay 10.0 from its start"


# --- abeam


def test_abeam_of_navaids():
    """6 NM to the right and 3 NM to the left of places on the route; a third navaid is too far."""
    places = [_on(BAY, 1, 12.0), _on(BAY, 2, 8.0)]
    out = [WGS84.Direct(lat, lon, course + turn, nm * NM)
           for (lon, lat, course), turn, nm in zip(places, (90.0, -90.0), (6.0, 3.0))]  # fmt: skip
    features = [((at["lon2"], at["lat2"]), *POINTS[i][1:]) for i, at in enumerate(out)] + [POINTS[2]]
    made = _follow(INPUT=layer(POINT_FIELDS, features), ROUTE_FROM="abeam", DISTANCE=0)
    assert made.counts == (3, 2, 1)
    for row, place in zip(made.rows("FIXES"), places):
        _is_at(row, *place)
    assert [row["dist_nm"] for row in made.rows("FIXES")] == pytest.approx([6.0, 3.0], abs=1e-6)
    assert made.rows("FIXES")[0]["fix"] == "abeam QLF on Bay"
    near = _follow(INPUT=layer(POINT_FIELDS, features), ROUTE_FROM="abeam", DISTANCE=0, ROUTE_WITHIN=5)
    assert [row["navaid"] for row in near.rows("FIXES")] == ["KVT"]
    beyond = _follow(INPUT=layer(POINT_FIELDS, features), ROUTE_FROM="abeam", DISTANCE=2, SIDE="beyond")
    _is_at(beyond.rows("FIXES")[0], *_on(BAY, 1, 14.0))


def test_abeam_of_navaids_on_the_route():
    made = _follow(ROUTE_FROM="abeam", DISTANCE=0)
    assert [row["fix"] for row in made.rows("FIXES")] == ["abeam QLF on Bay", "abeam KVT on Bay"]
    for row, corner in zip(made.rows("FIXES"), BAY[1:]):
        _is_at(row, *corner)


# --- layers of routes


def test_several_lines():
    routes = _routes((_wkt(BAY), "Bay"), (_wkt(NORTH), "North"))
    made = _follow(ROUTE=routes, DISTANCE=2)
    assert [row["fix"] for row in made.rows("FIXES")] == [
        "QLF 2.0 before on Bay", "QLF 2.0 before on North", "KVT 2.0 before on Bay",
    ]  # fmt: skip
    assert made.counts == (3, 2, 1)
    _is_at(made.rows("FIXES")[1], *_on(NORTH, 0, _nm(NORTH, 0) - 2.0))
    assert [row["ident"] for row in made.rows("FIXES")] == ["QLF", "QLF", "KVT"]


def test_a_multi_line_is_a_route_a_part():
    routes = _routes((_wkt(BAY, NORTH), "Both"), kind="MultiLineString")
    made = _follow(ROUTE=routes, DISTANCE=2)
    assert [row["fix"] for row in made.rows("FIXES")] == [
        "QLF 2.0 before on Both", "QLF 2.0 before on Both (2)", "KVT 2.0 before on Both",
    ]  # fmt: skip


def test_lines_with_heights():
    line = "LINESTRINGZ (" + ", ".join(f"{x!r} {y!r} 100" for x, y in BAY) + ")"
    row = _follow(ROUTE=_routes((line, "Bay"), kind="LineStringZ"), SIDE="beyond").rows("FIXES")[0]
    _is_at(row, *_on(BAY, 1, 5.0))


def test_routes_in_another_crs():
    to = core.QgsCoordinateTransform(
        core.QgsCoordinateReferenceSystem("EPSG:4326"), core.QgsCoordinateReferenceSystem("EPSG:3857"),
        core.QgsCoordinateTransformContext(),
    )  # fmt: skip
    moved = [to.transform(core.QgsPointXY(*corner)) for corner in BAY]
    routes = _routes((_wkt([(p.x(), p.y()) for p in moved]), "Bay"), crs="EPSG:3857")
    for a, b in zip(_follow(ROUTE=routes).rows("FIXES"), _follow().rows("FIXES")):
        assert (a["lon"], a["lat"]) == pytest.approx((b["lon"], b["lat"]), abs=1e-9)


@pytest.mark.parametrize(
    ("name", "value", "called"), [("name", "Bay", "Bay"), ("IDENT", "Q7", "Q7"), ("x", "?", "route 1")]
)
def test_names_of_routes(name, value, called):
    routes = _routes((_wkt(BAY), value), fields=(f"{name}:string",))
    assert _follow(ROUTE=routes).rows("FIXES")[0]["fix"] == f"QLF 5.0 before on {called}"


def test_lines_that_are_no_routes_are_told_and_left_out():
    routes = _routes((_wkt(BAY), "Bay"), (None, "Nothing"), ("LINESTRING EMPTY", "Empty"),
                     ("LINESTRING (-40 43, -40 43)", "Dot"))  # fmt: skip
    made = _follow(ROUTE=routes)
    assert [row["fix"] for row in made.rows("FIXES")] == ["QLF 5.0 before on Bay", "KVT 5.0 before on Bay"]
    for name in ("Nothing", "Empty", "Dot"):
        assert any(line.startswith(f"{name} is left out") for line in made.log), name


def test_a_layer_without_lines():
    made = _follow(ROUTE=_routes())
    assert made.counts == (3, 0, 3) and set(made.reasons().values()) == {OFF}


def test_over_the_antimeridian():
    line = ((179.0, -17.0), (-179.0, -17.4))
    points = layer(POINT_FIELDS, [((179.0, -17.0), "QAN", "VOR", 0.0, 12.0, 1.0)])
    made = _follow(INPUT=points, ROUTE=_routes((_wkt(line), "Date")), DISTANCE=80, SIDE="beyond")
    (row,) = made.rows("FIXES")
    _is_at(row, *_on(line, 0, 80.0))
    assert -180.0 < row["lon"] < -179.0


def test_a_hold_on_a_route():
    """The course of the route is the inbound course of a hold made from it."""
    made = _follow(SIDE="before")
    hold = run("designholds", INPUT=made.layer("FIXES"), DATE=DATE).rows("HOLDS")[0]
    assert hold["inbound_true_deg"] == pytest.approx(made.rows("FIXES")[0]["course_true_deg"], abs=1e-9)
    assert hold["method"] == "route"


# --- rows and parameters


def test_rows_without_a_place_are_rejects_of_their_own():
    points = layer(POINT_FIELDS, [(None, *POINTS[0][1:]), POINTS[1]])
    made = _follow(INPUT=points)
    assert made.counts == (2, 1, 1) and made.reasons() == {"1": "the row has no point"}


def test_a_distance_from_a_field_that_is_empty():
    features = [POINTS[0], (POINTS[1][0], *POINTS[1][1:5], None)]
    made = _follow(INPUT=layer(POINT_FIELDS, features), DISTANCE=field("number"))
    assert made.counts == (2, 1, 1)
    assert made.reasons() == {"2": "DISTANCE is empty; it must be a number between 0 and 400 NM"}


def test_one_of_course_position_and_route():
    given = {"INPUT": _points(), "DISTANCE": 5, "DATE": DATE}
    assert "None of COURSE, FROM and ROUTE is given" in refusal("fixalongtrack", **given)
    assert refusal("fixalongtrack", **given, ROUTE=_bay()) == ""
    for more, names in (({"COURSE": 90}, "COURSE and ROUTE"), ({"FROM": "0,0"}, "FROM and ROUTE")):
        assert f"{names} are given" in refusal("fixalongtrack", **given, ROUTE=_bay(), **more)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"VERTEX": 0}, "VERTEX is 0; it must be a number between 1 and 10000"),
        ({"ROUTE_FROM": "end"}, "ROUTE_FROM is 'end'; it must be one of 0 vertex, 1 start, 2 abeam"),
        ({"ROUTE_WITHIN": 401}, "ROUTE_WITHIN is 401"),
        ({"ROUTE_FROM": "field:kind"}, "ROUTE_FROM takes one value for the whole run"),
    ],
)
def test_bad_parameters(change, words):
    assert words in refusal("fixalongtrack", INPUT=_points(), ROUTE=_bay(), DISTANCE=5, DATE=DATE, **change)


def test_points_are_no_route():
    assert "ROUTE must have lines" in refusal("fixalongtrack", INPUT=_points(), ROUTE=_points(), DISTANCE=5)
