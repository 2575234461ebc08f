"""Crossings of radials and arcs against tables of places (geographiclib on WGS 84) and a general library's crossings.

The general library is the PyPI package pygeodesy: geodesic intersections by Karney's method, and intersections of
geodesic circles.
"""

from __future__ import annotations

import csv
import math
import warnings
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import crossings, fix_crossing, reasons
from fixwright.geometry.fix_crossing import DISTANCE, RADIAL, Lines
from fixwright.geometry.fixes import Station

WGS84 = Geodesic.WGS84
NM = 1852.0
YEAR = 2026.66575
NO_GENERAL_LIBRARY = "needs the package pygeodesy of tests/requirements.txt"


def _rows(name: str) -> list[dict[str, str]]:
    with open(Path(__file__).parent / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _cross(lines: str, *given):
    found = getattr(crossings, lines)(*given)
    return (found,) if lines == "radial_radial" else found


def _apart_m(lat1, lon1, lat2, lon2) -> float:
    return WGS84.Inverse(float(lat1), float(lon1), float(lat2), float(lon2))["s12"]


# --- tables


@pytest.mark.parametrize("row", _rows("crossings.csv"), ids=lambda r: f"{r['lines']} {r['lat_1_deg']} {r['number']}")
def test_places(row):
    """The place to its own tolerance, distances to 1e-6 NM, the cut to 1e-5 degree; of two the order is the table's."""
    g = {k: float(v) if v else math.nan for k, v in row.items() if k not in ("lines", "source")}
    found = _cross(
        row["lines"], g["lon_1_deg"], g["lat_1_deg"], g["value_1"], g["lon_2_deg"], g["lat_2_deg"], g["value_2"]
    )
    at = found[int(g["number"]) - 1]
    assert at.code[0] == reasons.OK
    assert at.lat[0] == pytest.approx(g["lat_deg"], abs=g["tolerance_deg"])
    assert at.lon[0] == pytest.approx(g["lon_deg"], abs=g["tolerance_deg"])
    for name, tolerance in (("first_nm", 1e-6), ("second_nm", 1e-6), ("cut_deg", 1e-5)):
        if math.isfinite(g[name]):
            assert getattr(at, name)[0] == pytest.approx(g[name], abs=tolerance), name


def test_an_arc_that_a_radial_does_not_reach():
    """Ray 100 of 41 N 30 W and the arc 18.0 of 41.2 N 29 W: the least distance is 19.930748 NM, computed with
    geographiclib on WGS 84. With that radius the ray touches, one solution; a little less and there is none."""
    ray, centre = (-30.0, 41.0, 100.0), (-29.0, 41.2)
    for at in crossings.radial_arc(*ray, *centre, 18.0):
        assert at.code[0] == reasons.ARC_NOT_REACHED and np.isnan(at.lat[0])
    touching, other = crossings.radial_arc(*ray, *centre, 19.930748)
    assert touching.code[0] == reasons.OK and other.code[0] == reasons.ARC_NOT_REACHED
    assert _apart_m(41.2, -29.0, touching.lat[0], touching.lon[0]) == pytest.approx(19.930748 * NM, abs=1e-3)
    assert crossings.radial_arc(*ray, *centre, 19.930746)[0].code[0] == reasons.ARC_NOT_REACHED
    assert [at.code[0] for at in crossings.radial_arc(*ray, *centre, 19.940)] == [reasons.OK, reasons.OK]


def test_arcs_too_far_apart():
    """Arcs 20.0 and 25.0 of 50 N 10 E and 50.5 N 10.9 E: the centres are 45.859891 NM apart, computed with
    geographiclib on WGS 84."""
    one, two = (10.0, 50.0), (10.9, 50.5)
    assert _apart_m(50.0, 10.0, 50.5, 10.9) / NM == pytest.approx(45.859891, abs=1e-6)
    for at in crossings.arc_arc(*one, 20.0, *two, 25.0):
        assert at.code[0] == reasons.ARC_NOT_REACHED and np.isnan(at.lat[0])
    touching, other = crossings.arc_arc(*one, 20.0, *two, 25.859891)
    assert touching.code[0] == reasons.OK and other.code[0] == reasons.ARC_NOT_REACHED
    assert touching.cut_deg[0] < 0.1
    assert _apart_m(50.5, 10.9, touching.lat[0], touching.lon[0]) == pytest.approx(25.859891 * NM, abs=1e-3)


def test_a_bearing_crosses_where_it_is_read(monkeypatch):
    """NDB 50 N 10 E, bearing 080, variation 5 E everywhere, and its own arc of 25 NM: the place at which the bearing is
    read, not that on the geodesic 085. Computed with geographiclib on WGS 84."""
    monkeypatch.setattr(fix_crossing, "declination_deg", lambda lon, lat, *, year: np.full(np.shape(lon), 5.0))
    ndb = Station.of(10.0, 50.0, kind="NDB/DME")
    bearing = Lines(ndb, np.array([RADIAL]), np.array([80.0]))
    arc = Lines(ndb, np.array([DISTANCE]), np.array([25.0]))
    for first, second in ((bearing, arc), (arc, bearing)):
        one, two = fix_crossing.cross(first, second, slant=False, year=YEAR)
        assert one.fix.lat[0] == pytest.approx(50.038063227, abs=2e-9)
        assert one.fix.lon[0] == pytest.approx(10.643334896, abs=2e-9)
        assert one.cut_deg[0] == pytest.approx(90.0, abs=1e-6)
        assert two.fix.code[0] == reasons.BEHIND_STATION


# --- a general library


def _cases(count: int, seed: int, least_cut_deg: float):
    """Places first, 80 S to 80 N, a quarter about the antimeridian; then two stations 1 to 390 NM from each."""
    rng = np.random.default_rng(seed)
    lat = np.degrees(np.arcsin(rng.uniform(-math.sin(math.radians(80)), math.sin(math.radians(80)), count)))
    lon = rng.uniform(-180.0, 180.0, count)
    lon[::4] = 180.0 + rng.uniform(-2.0, 2.0, len(lon[::4]))
    bearing = rng.uniform(0.0, 360.0, count)
    turn = rng.uniform(least_cut_deg, 180.0 - least_cut_deg, count) * rng.choice([-1.0, 1.0], count)
    one, two = rng.uniform(1.0, 390.0, (2, count))
    return zip(lat, lon, bearing, bearing + turn, one, two)


def test_two_radials_and_a_general_library():
    """200 crossings by the geodesic intersections of pygeodesy (Intersector.Closest): the same to 1 mm."""
    geodesici = pytest.importorskip("pygeodesy.geodesici", reason=NO_GENERAL_LIBRARY)
    ellipsoids = pytest.importorskip("pygeodesy.ellipsoids", reason=NO_GENERAL_LIBRARY)
    solver = geodesici.Intersector(ellipsoids.Ellipsoids.WGS84.geodesic)
    compared = 0
    for lat, lon, to_one, to_two, one_nm, two_nm in _cases(200, 1, 1.0):
        one, two = (WGS84.Direct(lat, lon, b, d * NM) for b, d in ((to_one, one_nm), (to_two, two_nm)))
        lines = [(at["lat2"], at["lon2"], at["azi2"] + 180.0) for at in (one, two)]
        at = crossings.radial_radial(*_lon_lat(lines[0]), *_lon_lat(lines[1]))
        rays = [solver.Line(*line) for line in lines]
        met = solver.Closest(*rays)
        theirs = rays[0].Position(met.sA)
        assert at.code[0] == reasons.OK
        assert _apart_m(at.lat[0], at.lon[0], theirs["lat2"], theirs["lon2"]) < 1e-3
        assert abs(at.first_nm[0] * NM - met.sA) < 1e-3 and abs(at.second_nm[0] * NM - met.sB) < 1e-3
        compared += 1
    assert compared == 200


def _lon_lat(line):
    return line[1], line[0], line[2]


def test_two_arcs_and_a_general_library():
    """100 crossings by the circle intersections of pygeodesy (ellipsoidalKarney.intersections2): the same to 1 mm. Of
    circles that nearly touch it says that they are too far apart, so cuts are 20 degrees and more."""
    karney = pytest.importorskip("pygeodesy.ellipsoidalKarney", reason=NO_GENERAL_LIBRARY)
    for lat, lon, to_one, to_two, one_nm, two_nm in _cases(100, 2, 20.0):
        one, two = (WGS84.Direct(lat, lon, b, d * NM) for b, d in ((to_one, one_nm), (to_two, two_nm)))
        ours = crossings.arc_arc(one["lon2"], one["lat2"], one_nm, two["lon2"], two["lat2"], two_nm)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # it warns which projection it chose
            theirs = karney.intersections2(
                karney.LatLon(one["lat2"], one["lon2"]), one_nm * NM,
                karney.LatLon(two["lat2"], two["lon2"]), two_nm * NM, height=0, tol=1e-5,
            )  # fmt: skip
        for at in ours:
            assert at.code[0] == reasons.OK
            assert min(_apart_m(at.lat[0], at.lon[0], place.lat, place.lon) for place in theirs) < 1e-3
