"""Fix rows along routes: which routes and vertices count for which point, names, courses, reasons."""

from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import plan, reasons
from fixwright.geometry.fixes import Station
from fixwright.geometry.plan.marking import Naming
from fixwright.geometry.routes import Route

WGS84 = Geodesic.WGS84
NM = 1852.0
YEAR = 2026.66575
NAN = np.nan
# an invented route over open ocean, by way of the two stations at its second and third vertex
LON, LAT = np.array([-41.0, -40.4, -39.8, -39.2]), np.array([43.0, 43.2, 43.1, 43.4])
ROUTE = Route(LON, LAT)
OTHER = Route([-30.0, -29.0], [40.0, 40.0])


def _follow(start="vertex", distance=5.0, routes=(("Bay", ROUTE),), points=((-40.4, 43.2),), **more):
    lon, lat = np.array(points, dtype=float).T
    n = len(lon)
    station = Station.of(lon, lat, 100.0, more.pop("decl", -12.0), more.pop("kind", "VOR/DME"))
    given = {"beyond": False, "vertex": NAN, "within_nm": 10.0, "alt_ft": np.full(n, 5000.0), **more}
    naming = Naming(np.array([f"QL{i}" for i in range(n)], dtype=object), plan.Keys(), "2026-09-01")
    spread = {k: np.broadcast_to(v, n) for k, v in given.items() if k in ("beyond", "vertex")}
    return plan.follow(
        station, naming, list(routes), start, np.broadcast_to(np.asarray(distance, float), n), year=YEAR,
        **{**given, **spread},
    )  # fmt: skip


def _along(found, i: int = 0) -> float:
    """NM from the route's start to a fix, by geographiclib along the legs."""
    lon, lat = found.columns["lon"][i], found.columns["lat"][i]
    total = 0.0
    for lat1, lon1, lat2, lon2 in zip(LAT, LON, LAT[1:], LON[1:]):
        leg = WGS84.Inverse(lat1, lon1, lat2, lon2)
        there = WGS84.Inverse(lat1, lon1, lat, lon)
        if there["s12"] <= leg["s12"] + 1e-3 and abs(there["azi1"] - leg["azi1"]) * there["s12"] < 1e-3:
            return total + there["s12"] / NM
        total += leg["s12"] / NM
    raise AssertionError("not on the route")


def test_before_and_beyond_the_vertex_nearest_to_the_point():
    at_vertex = ROUTE.start_nm[1]
    before, beyond = _follow(), _follow(beyond=True)
    assert _along(before) == pytest.approx(at_vertex - 5.0, abs=1e-6)
    assert _along(beyond) == pytest.approx(at_vertex + 5.0, abs=1e-6)
    assert before.columns["fix"][0] == "QL0 5.0 before on Bay" and beyond.columns["fix"][0] == "QL0 5.0 beyond on Bay"
    for found in (before, beyond):
        assert found.reasons.tolist() == [""] and found.owner.tolist() == [0]
        assert found.columns["method"].tolist() == ["route"]
        assert found.columns["dist_nm"][0] == pytest.approx(5.0, abs=1e-6)
        assert found.columns["navaid"][0] == "QL0" and found.columns["navaid_kind"][0] == "VOR/DME"


def test_the_course_is_that_of_the_route_in_three_norths():
    found = _follow(beyond=True)
    leg = WGS84.Inverse(LAT[1], LON[1], LAT[2], LON[2])
    there = WGS84.Direct(LAT[1], LON[1], leg["azi1"], 5.0 * NM)
    columns = {name: values[0] for name, values in found.columns.items()}
    assert columns["course_true_deg"] == pytest.approx(there["azi2"], abs=1e-6)
    assert columns["course_model_deg"] == pytest.approx(there["azi2"] - columns["var_deg"], abs=1e-6)
    # away from the station along its radial, the selector shows the radial
    assert columns["course_station_deg"] == pytest.approx(leg["azi1"] + 12.0, abs=1e-6)
    assert columns["radial_deg"] == pytest.approx(leg["azi1"] + 12.0, abs=1e-6)


def test_at_a_vertex_both_courses_are_told():
    found = _follow(distance=0.0)
    before = WGS84.Inverse(LAT[0], LON[0], LAT[1], LON[1])["azi2"] % 360.0
    after = WGS84.Inverse(LAT[1], LON[1], LAT[2], LON[2])["azi1"] % 360.0
    assert found.columns["course_true_deg"][0] == pytest.approx(before, abs=1e-4)
    assert found.columns["assumed"][0] == (
        f"at the vertex the true course changes from {round(before):03d} to {round(after):03d}"
    )
    assert _follow(distance=5.0).columns["assumed"][0] == ""


def test_a_vertex_by_its_number_counts_wherever_the_point_is():
    found = _follow(vertex=3.0, points=((-10.0, 20.0),), distance=4.0)
    assert found.reasons.tolist() == [""]
    assert _along(found) == pytest.approx(ROUTE.start_nm[2] - 4.0, abs=1e-6)
    assert found.columns["fix"][0] == "Bay 4.0 before vertex 3"


def test_from_the_start_whatever_the_side():
    for beyond in (False, True):
        found = _follow("start", 30.0, beyond=beyond, points=((-10.0, 20.0),))
        assert found.reasons.tolist() == [""]
        assert _along(found) == pytest.approx(30.0, abs=1e-6)
        assert found.columns["fix"][0] == "Bay 30.0 from its start"


def test_abeam_and_counted_from_there():
    """A point 6 NM to the right of the middle of the second leg, by geographiclib."""
    leg = WGS84.Inverse(LAT[1], LON[1], LAT[2], LON[2])
    middle = WGS84.Direct(LAT[1], LON[1], leg["azi1"], leg["s12"] / 2.0)
    out = WGS84.Direct(middle["lat2"], middle["lon2"], middle["azi2"] + 90.0, 6.0 * NM)
    point = (out["lon2"], out["lat2"])
    half = ROUTE.start_nm[1] + leg["s12"] / NM / 2.0
    abeam = _follow("abeam", 0.0, points=(point,))
    assert _along(abeam) == pytest.approx(half, abs=1e-5)
    assert abeam.columns["fix"][0] == "abeam QL0 on Bay"
    assert abeam.columns["dist_nm"][0] == pytest.approx(6.0, abs=1e-6)
    for beyond, side in ((True, "beyond"), (False, "before")):
        found = _follow("abeam", 3.0, points=(point,), beyond=beyond)
        assert _along(found) == pytest.approx(half + (3.0 if beyond else -3.0), abs=1e-5)
        assert found.columns["fix"][0] == f"abeam QL0 on Bay 3.0 {side}"


def test_a_point_may_have_several_routes_or_none():
    points = ((-40.4, 43.2), (-29.0, 40.0), (0.0, 0.0))
    crossing = Route([-40.4, -40.4], [42.0, 43.25])
    found = _follow(routes=(("Bay", ROUTE), ("North", crossing), ("Far", OTHER)), points=points, distance=1.0)
    assert found.owner.tolist() == [0, 0, 1]
    names = ["QL0 1.0 before on Bay", "QL0 1.0 before on North", "QL1 1.0 before on Far"]
    assert found.columns["fix"].tolist() == names
    assert found.row_reasons(3).tolist() == ["", "", reasons.sentence(reasons.NOT_ON_ROUTE)]


def test_within_is_the_distance_to_the_nearest_vertex():
    """6 NM south of the second vertex."""
    point = WGS84.Direct(LAT[1], LON[1], 180.0, 6.0 * NM)
    for within, count in ((5.9, 0), (6.1, 1)):
        assert len(_follow(points=((point["lon2"], point["lat2"]),), within_nm=within).owner) == count


def test_off_the_ends_and_vertices_that_are_none():
    found = _follow(distance=500.0)
    assert found.row_reasons(1).tolist() == [reasons.sentence(reasons.OFF_ROUTE)]
    assert found.columns["fix"].tolist() == [""] and np.isnan(found.columns["lat"][0])
    for vertex in (9.0, 2.5, 0.0):
        found = _follow(vertex=vertex)
        assert found.row_reasons(1).tolist() == [reasons.sentence(reasons.NO_VERTEX)]


def test_one_good_route_is_enough():
    """The vertex 3 is on one of two routes only; a row that gave a fix is no reject."""
    found = _follow(routes=(("Far", OTHER), ("Bay", ROUTE)), vertex=3.0, distance=1.0)
    assert sorted(found.reasons.tolist()) == ["", reasons.sentence(reasons.NO_VERTEX)]
    assert found.row_reasons(1).tolist() == [""]


def test_rows_without_a_place_and_no_routes():
    found = _follow(points=((NAN, NAN), (-40.4, 43.2)))
    assert found.owner.tolist() == [1]
    assert found.row_reasons(2)[0] == reasons.sentence(reasons.NOT_ON_ROUTE)
    for start in ("vertex", "start", "abeam"):
        none = _follow(start, routes=())
        assert len(none.owner) == 0 and none.row_reasons(1).tolist() == [reasons.sentence(reasons.NOT_ON_ROUTE)]
        assert len(none.columns["fix"]) == 0


def test_a_route_over_the_antimeridian():
    route = Route([179.0, -179.0], [-10.0, -10.0])
    found = _follow("start", 100.0, routes=(("Date", route),), points=((179.0, -10.0),))
    leg = WGS84.Inverse(-10.0, 179.0, -10.0, -179.0)
    there = WGS84.Direct(-10.0, 179.0, leg["azi1"], 100.0 * NM)
    assert found.columns["lon"][0] == pytest.approx(there["lon2"], abs=1e-8) and found.columns["lon"][0] < -179.0
    assert found.columns["lat"][0] == pytest.approx(there["lat2"], abs=1e-8)


def test_equal_names_get_a_number():
    found = _follow("start", 10.0, points=((-40.4, 43.2), (-39.8, 43.1)))
    assert found.columns["fix"].tolist() == ["Bay 10.0 from its start", "Bay 10.0 from its start (2)"]


def test_a_word_that_is_none():
    with pytest.raises(ValueError, match="start is middle"):
        _follow("middle")
