"""Minimum altitudes: exact where the answer is known, and the same as a slow separate way through all the cells."""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import clearances, geodesy, nearness, obstacles, shapes, terrain_cells
from fixwright.geometry.terrain_cells import Frame
from fixwright.tests.geometry.terrain import (
    array_grid,
    faa_moc,
    icao_moc,
    plane,
    slow_controlling,
    slow_distances,
)

LON, LAT = -40.0, 43.0
METRE = 1.0 / 1852.0
SQUARE = [np.array([(-3.0, -2.0), (3.0, -2.0), (3.0, 2.0), (-3.0, 2.0)])]
"""A holding area in the frame, NM: 6 by 4."""


def _area(rings=None, polygons=None, lon=LON, lat=LAT, course=0.0, side=1.0) -> obstacles.Holding:
    frame = Frame(lon, lat, course, side)
    return obstacles.in_frame(frame, [SQUARE] if polygons is None else polygons, rings or clearances.icao())


def _one(area, **more) -> obstacles.Minimum:
    grid, others = more.pop("grid", None), more.pop("others", None)
    (made,) = obstacles.minimum_altitudes([area], grid, others, **more)
    return made


def _obstacles(features, filled=False, name="X", accuracy_m=0.0, **more) -> obstacles.Obstacles:
    """Obstacles from lists of paths of longitude and latitude."""
    made = shapes.gather([[paths] for paths in features], filled=filled, width_nm=accuracy_m / 1852.0)
    return obstacles.obstacles(made, name=name, **more)


def _points(area, uv, tops, **more) -> obstacles.Obstacles:
    """Obstacles at points of the frame."""
    places = np.stack(area.frame.places(np.asarray(uv, dtype=float)), axis=1)
    return _obstacles([[place[None]] for place in places], name=[f"N{i}" for i in range(len(places))], top_ft=tops,
                      **more)  # fmt: skip


# The rings' edges


EDGES = [(1.0, 984.0, 492.0), (2.0, 492.0, 394.0), (3.0, 394.0, 294.0), (4.0, 294.0, 197.0), (5.0, 197.0, None)]


def _moc_at(area, u, s) -> float | None:
    control = _one(area, others=_points(area, [(u, s)], 0.0)).control
    return None if control is None else control.moc_ft


@pytest.mark.parametrize("edge", EDGES, ids=lambda edge: f"{edge[0]:g} NM")
@pytest.mark.parametrize("course", [0.0, 137.0])
@pytest.mark.parametrize("side", [1.0, -1.0])
@pytest.mark.parametrize("lat", [0.5, 43.0, -84.0])
def test_a_metre_inside_and_outside_each_edge(edge, course, side, lat):
    """Off a side and off a corner of the area, the distance measured in the frame of the hold."""
    to_nm, inner, outer = edge
    area = _area(lat=lat, course=course, side=side)
    diagonal = math.sqrt(0.5)
    for away, expected in ((to_nm - METRE, inner), (to_nm, inner), (to_nm + METRE, outer)):
        assert _moc_at(area, 3.0 + away, 0.7) == expected
        assert _moc_at(area, -3.0 - away * diagonal, 2.0 + away * diagonal) == expected


@pytest.mark.parametrize("edge", EDGES[:4], ids=lambda edge: f"{edge[0]:g} NM")
@settings(max_examples=20)
@given(angle=st.floats(0.0, 360.0), off_m=st.floats(1.0, 900.0))
def test_anywhere_round_a_point(edge, angle, off_m):
    """About an area that is nearly a point, the distance from the fix decides. Reference: geographiclib's direct."""
    to_nm, inner, outer = edge
    tiny = [[np.array([(-1e-7, -1e-7), (1e-7, -1e-7), (0.0, 1e-7)])]]
    area = _area(polygons=tiny)
    for sign, expected in ((-1, inner), (1, outer)):
        at = Geodesic.WGS84.Direct(LAT, LON, angle, to_nm * 1852.0 + sign * off_m)
        one = _one(area, others=_obstacles([[[(at["lon2"], at["lat2"])]]], top_ft=0.0)).control
        assert one.moc_ft == expected


@pytest.mark.parametrize(("away", "moc"), [(METRE, 500.0 * (1 - METRE / 2.0)), (0.5, 375.0), (2.0, 0.0)])
def test_the_taper_of_the_secondary(away, moc):
    area = _area(clearances.faa())
    assert _moc_at(area, 3.0 + away, 0.0) == pytest.approx(moc, abs=1e-4)
    assert _moc_at(area, 3.0, 0.0) == 1000.0
    assert _moc_at(area, 3.0 - METRE, 0.0) == 1000.0
    assert _moc_at(area, 3.0 + 2.0 + METRE, 0.0) is None
    assert _moc_at(_area(clearances.faa(mountainous=True)), 0.0, 0.0) == 2000.0
    assert _moc_at(_area(clearances.faa(secondary_nm=4.0)), 3.0 + 2.0, 0.0) == pytest.approx(250.0, abs=1e-4)


def test_category_h_and_high_terrain():
    """Category H: 300 m falling evenly to nothing at 2 NM (ICAO Doc 8168 Vol II, II-4-1, from memory)."""
    area = _area(clearances.icao(helicopter=True))
    assert _moc_at(area, 3.0, 0.0) == 984.0
    assert _moc_at(area, 4.0, 0.0) == pytest.approx(492.0, abs=1e-4)
    assert _moc_at(area, 5.0 + METRE, 0.0) is None
    assert _moc_at(_area(clearances.icao(factor=2.0)), 3.0 + 1.5, 0.0) == 984.0
    assert _moc_at(_area(clearances.icao(metres=True)), 3.0 + 3.5, 0.0) == pytest.approx(90.0 / 0.3048, abs=1e-9)
    assert _moc_at(_area(clearances.icao(buffer=False)), 3.0 + METRE, 0.0) is None


@pytest.mark.parametrize("make", [clearances.icao, clearances.faa, lambda: clearances.icao(helicopter=True)])
def test_clearance_never_grows_outwards(make):
    distance = np.linspace(0.0, 6.0, 6001)
    moc = clearances.moc_ft(make(), distance)
    known = np.isfinite(moc)
    assert known[: known.sum()].all() and not known[known.sum() :].any()
    assert (np.diff(moc[known]) <= 0.0).all()


@pytest.mark.parametrize("call", [lambda: clearances.icao(factor=2.5), lambda: clearances.faa(secondary_nm=0.0),
                                  lambda: obstacles.holding([], clearances.icao()),
                                  lambda: nearness.polygons([[]])])  # fmt: skip
def test_calls_that_make_no_sense(call):
    with pytest.raises(ValueError):
        call()


# Obstacles


def test_widened_by_the_horizontal_accuracy():
    """1 NM and 100 m away: within 1 NM once it may be 100 m nearer, outside by a metre with 99 m."""
    area = _area()
    for accuracy_m, moc in ((100.0, 984.0), (101.0, 984.0), (99.0, 492.0)):
        others = _points(area, [(4.0 + 100.0 * METRE, 0.0)], 500.0, accuracy_m=accuracy_m)
        assert _one(area, others=others).control.moc_ft == moc


def test_the_greatest_required_altitude_decides_not_the_highest_top():
    """A mast of 1 400 ft inside asks for 2 384 ft; one of 1 800 ft 4.5 NM out for 1 997 ft."""
    area = _area()
    made = _one(area, others=_points(area, [(7.5, 0.0), (0.0, 0.0)], np.array([1800.0, 1400.0]))).control
    assert (made.name, made.required_ft, made.part) == ("N1", 2384.0, "inside")


def test_ties_go_to_the_nearer_then_to_the_lower_row():
    area = _area()
    tops = np.array([1000.0, 1000.0, 1000.0])
    assert _one(area, others=_points(area, [(3.9, 0.0), (3.3, 0.0), (3.6, 0.0)], tops)).control.name == "N1"
    assert _one(area, others=_points(area, [(4.9, 0.0), (1.0, 0.0), (0.0, 0.0)], tops)).control.name == "N1"


def test_lines_and_polygons_by_their_nearest_point():
    """A line across the area without a vertex near it, a polygon about it, one whose hole holds it."""
    area = _area()

    def moc(parts, filled):
        places = [np.column_stack(area.frame.places(np.array(part, dtype=float))) for part in parts]
        made = _one(area, others=_obstacles([places], filled, top_ft=0.0)).control
        return None if made is None else made.moc_ft

    assert moc([[(-30.0, 0.0), (30.0, 1.0)]], False) == 984.0
    assert moc([[(-30.0, 3.5), (30.0, 3.5)]], False) == 492.0
    around = [(-20.0, -20.0), (20.0, -20.0), (20.0, 20.0), (-20.0, 20.0)]
    assert moc([around], True) == 984.0
    hole = [(-6.5, -5.5), (6.5, -5.5), (6.5, 5.5), (-6.5, 5.5)]
    assert moc([around, hole], True) == 294.0
    assert moc([[(3.5, -1.0), (9.0, -1.0), (9.0, 1.0)]], True) == 984.0


def test_an_obstacle_without_a_top_is_told_and_does_not_decide():
    area = _area()
    made = _one(area, others=_points(area, [(0.0, 0.0), (3.2, 0.0), (40.0, 0.0)], np.array([np.nan, 500.0, np.nan])))
    assert made.control.name == "N1" and made.undecided == (0,)


def test_nothing_within_reach():
    made = _one(_area(), others=_points(_area(), [(30.0, 0.0)], 9000.0))
    assert made.control is None and math.isnan(made.required_ft)
    assert made.undecided == ()


def test_across_the_antimeridian_and_across_pieces_of_an_area():
    """An area in two pieces that meet at 180 degrees, an obstacle written on either side."""
    pieces = [[np.array([(179.9, -1.0), (180.0, -1.0), (180.0, -0.9), (179.9, -0.9)])],
              [np.array([(-180.0, -1.0), (-179.9, -1.0), (-179.9, -0.9), (-180.0, -0.9)])]]  # fmt: skip
    area = obstacles.holding(pieces, clearances.icao())
    assert abs(area.frame.lon) == pytest.approx(180.0)
    for lon in (-180.0, 180.0, 179.99, -179.99, 180.01):
        others = _obstacles([[[(lon, -0.95)]]], top_ft=10.0)
        assert _one(area, others=others).control.distance_nm == 0.0


def test_many_holds_at_once_as_one_by_one():
    """Obstacles enough that the first look must leave most of them out."""
    places = np.stack(np.meshgrid(np.linspace(-41, -39, 40), np.linspace(42, 44, 40)), axis=-1).reshape(-1, 2)
    others = _obstacles([[p[None]] for p in places], name=np.arange(1600).astype(str),
                        top_ft=1000.0 + 7.0 * (np.arange(1600) % 113))  # fmt: skip
    areas = [_area(lon=-40.5 + 0.1 * k, lat=42.5 + 0.1 * k, course=31.0 * k) for k in range(8)]
    for area, made in zip(areas, obstacles.minimum_altitudes(areas, None, others)):
        distance = area.region.distance(area.frame.points(*places.T))
        required = others.top_ft + clearances.moc_ft(area.clearances, distance)
        assert made.required_ft == np.nanmax(required)


# Terrain


CELL = 1.0 / 60.0
SHAPE = (40, 50)
WEST, NORTH = LON - 25 * CELL, LAT + 20 * CELL


INLAND = st.tuples(*(st.integers(n // 2 - 6, n // 2 + 5) for n in SHAPE))
"""Cells within 0.1 degree of the middle: all within reach of SQUARE."""


@given(at=INLAND, height=st.integers(5_000, 20_000), noise=st.integers(0, 2**32 - 1))
def test_the_highest_cell_is_known(at, height, noise):
    """Whatever the ground below 4 000 ft: one cell stands out by more than the clearances differ, and is found."""
    ground = np.random.default_rng(noise).integers(0, 4_000, SHAPE).astype(float)
    ground[at] = height
    area = _area()
    made = _one(area, grid=array_grid(ground, WEST, NORTH, CELL)).control
    lon, lat = WEST + (at[1] + 0.5) * CELL, NORTH - (at[0] + 0.5) * CELL
    assert (made.lon, made.lat) == pytest.approx((lon, lat), abs=1e-12)
    assert made.elev_ft == height
    assert made.required_ft == height + clearances.moc_ft(area.clearances, made.distance_nm)


@pytest.fixture(scope="module")
def slow():
    """Distances of every cell of the raster from SQUARE, by shapely and geographiclib."""
    from shapely.geometry import Polygon

    shape = Polygon([(s, u) for u, s in SQUARE[0]])  # u is north, s east
    return slow_distances(shape, LON, LAT, WEST, NORTH, CELL, *SHAPE)


@pytest.mark.parametrize(("rings", "moc"), [(clearances.icao(), icao_moc), (clearances.faa(), faa_moc)],
                         ids=["icao", "faa"])  # fmt: skip
@settings(max_examples=60)
@given(noise=st.integers(0, 2**32 - 1), relief=st.sampled_from([0, 3, 300, 3_000]), holes=st.booleans())
def test_the_same_cell_as_the_slow_way(slow, rings, moc, noise, relief, holes):
    """From a flat sea, where only the ties decide, to hills; with and without cells that are unknown."""
    random = np.random.default_rng(noise)
    ground = random.integers(0, relief + 1, SHAPE).astype(float)
    if holes:
        ground[random.random(SHAPE) < 0.1] = np.nan
    r, c, distance, required = slow_controlling(ground, slow, moc)
    area = _area(rings)
    grid = array_grid(ground, WEST, NORTH, CELL)
    found = terrain_cells.highest(grid, area.frame, area.region, lambda d: clearances.moc_ft(rings, d), rings.reach_nm)
    assert (found.row, found.column) == (r, c)
    assert found.distance_nm == pytest.approx(distance, abs=2e-5)
    assert found.required_ft == pytest.approx(required, abs=0.01)
    gone = terrain_cells.unknown(grid, area.frame, area.region, rings.reach_nm)
    unknown = np.where(np.isnan(ground), slow, np.inf)
    if unknown.min() > rings.reach_nm:
        assert gone is None
    else:
        assert gone.distance_nm == pytest.approx(unknown.min(), abs=1.2e-4)
        assert slow[gone.row, gone.column] == pytest.approx(unknown.min(), abs=1.2e-4)


@pytest.fixture(scope="module")
def large():
    """A raster of several tiles, hills with noise: cells of 3 seconds."""
    n = 1200
    y, x = np.mgrid[0:n, 0:n] / n
    random = np.random.default_rng(7)
    return np.round(1500 + 900 * np.sin(9 * x) * np.cos(7 * y) + random.normal(0, 60, (n, n)))


@pytest.mark.parametrize("place", [(10.5, 46.5, 30.0, 1.0), (10.25, 46.7, 200.0, -1.0), (10.6, 46.33, 91.0, 1.0)])
@pytest.mark.parametrize("rings", [clearances.icao(), clearances.faa()], ids=["icao", "faa"])
def test_the_same_cell_in_many_tiles(large, place, rings):
    """Against all 1.4 million cells by their corners and middles: shapely for the ones that could decide."""
    from shapely.geometry import Polygon

    lon, lat, course, side = place
    angle = np.radians(np.arange(0.0, 360.0, 7.0))
    two = [[np.stack([6 * np.cos(angle) + 2, 3 * np.sin(angle) + 2], axis=1)],
           [np.array([(-9.0, -1.0), (0.0, -1.0), (0.0, 1.0), (-9.0, 1.0)])]]  # fmt: skip
    area = _area(rings, two, lon, lat, course, side)
    log = []
    found = _one(area, grid=array_grid(large, 10.0, 47.0, 1 / 1200, log=log)).terrain
    union = Polygon(two[0][0]).union(Polygon(two[1][0]))
    c, r = np.meshgrid(np.arange(1201), np.arange(1201))
    u, s = geodesy.to_frame(lon, lat, course, side, 10.0 + c / 1200, 47.0 - r / 1200)
    moc = clearances.moc_ft
    # no cell can be nearer than a corner by more than its diagonal, 0.08 NM
    bound = np.hypot(u, s)[:-1, :-1] - area.radius_nm - 0.08
    could = large + np.nan_to_num(moc(rings, np.maximum(bound, 0.0)), nan=-np.inf)
    order = np.argsort(-could, axis=None)
    best = None
    for i in order:
        a, b = np.unravel_index(i, large.shape)
        if best is not None and could[a, b] < best[0]:
            break
        ring = [(u[y, x], s[y, x]) for y, x in ((a, b), (a, b + 1), (a + 1, b + 1), (a + 1, b))]
        distance = Polygon(ring).distance(union)
        required = large[a, b] + np.nan_to_num(moc(rings, distance), nan=-np.inf)
        key = (required, -distance, -i)
        best = max(best, key) if best is not None else key
    assert found.required_ft == pytest.approx(best[0], abs=1e-6)
    assert found.distance_nm == pytest.approx(-best[1], abs=1e-6)
    row, column = np.unravel_index(-best[2], large.shape)
    assert (found.lon, found.lat) == pytest.approx((10.0 + (column + 0.5) / 1200, 47.0 - (row + 0.5) / 1200), abs=1e-9)
    # and only what lies near was read
    reach = (area.radius_nm + rings.reach_nm) / 60.0
    for left, top, width, height in log:
        west, north = 10.0 + left / 1200, 47.0 - top / 1200
        assert west < lon + 2 * reach and west + width / 1200 > lon - 2 * reach
        assert north > lat - 1.5 * reach and north - height / 1200 < lat + 1.5 * reach


def test_off_the_raster():
    """A raster whose edge passes nearer than 5 NM is run off, but not by the area without its rings.

    The edge is a meridian, nearest to the corner that lies nearest the pole.
    """
    ground = np.full(SHAPE, 100.0)
    for edge in (LON + 0.14, LON + 0.17):
        grid = array_grid(ground, edge - 50 * CELL, NORTH, CELL)
        lat = np.linspace(LAT - 0.05, LAT + 0.06, 2201)
        apart = min(math.hypot(max(abs(e) - 2.0, 0.0), max(abs(n) - 3.0, 0.0))
                    for e, n in (plane(LON, LAT, edge, y) for y in lat))  # fmt: skip
        found = _one(_area(), grid=grid).unknown
        if apart > 5.0:
            assert found is None
        else:
            assert found.off and found.distance_nm == pytest.approx(apart, abs=1.2e-4)
        assert _one(_area(clearances.icao(buffer=False)), grid=grid).unknown is None
    assert apart > 5.0


@pytest.mark.parametrize("west", [120.0, -46.0, LON + 2.0])
def test_a_raster_elsewhere(west):
    log = []
    made = _one(_area(), grid=array_grid(np.zeros(SHAPE), west, NORTH, CELL, log=log))
    assert made.terrain is None and made.unknown.off and log == []


def test_cells_of_millimetres_far_from_the_area():
    """A raster in the wrong system: thousands of millions of cells would cover the area, and none of them is there."""
    grid = array_grid(np.zeros((10, 10)), LON + 1.0, LAT, 1e-7)
    made = _one(_area(), grid=grid)
    assert made.terrain is None and made.unknown.off and made.unknown.distance_nm == 0.0


def test_a_place_that_the_raster_has_none_for():
    """A projection that ends before the area."""
    grid = array_grid(np.zeros(SHAPE), WEST, NORTH, CELL)
    grid._to_cells = lambda lon, lat: (np.full(np.shape(lon), np.nan), np.full(np.shape(lon), np.nan))
    made = _one(_area(), grid=grid)
    assert made.terrain is None and made.unknown.off


@pytest.mark.parametrize("west", [-180.0, 0.0, 179.5])
def test_columns_that_go_round_the_earth(west):
    """A summit beyond the raster's own seam, wherever the seam is."""
    cell = 0.5
    ground = np.full((340, 720), 10.0)
    seam = (west + 180.0) % 360.0 - 180.0
    ground[170, 0], ground[170, 719] = 900.0, 800.0  # 0 to 0.5 S of the equator, on both sides of the seam
    area = _area(lon=seam, lat=-0.25)
    made = _one(area, grid=array_grid(ground, west, 85.0, cell))
    assert made.unknown is None
    assert made.terrain.elev_ft == 900.0 and made.terrain.distance_nm == 0.0
    ground[170, 0] = 10.0
    assert _one(area, grid=array_grid(ground, west, 85.0, cell)).terrain.elev_ft == 800.0


@pytest.mark.parametrize("turns", [-1, 0, 1])
def test_a_raster_numbered_from_another_meridian(turns):
    """An area over the west edge of a raster that is written 360 degrees away: what is there is still found."""
    ground = np.full(SHAPE, 100.0)
    ground[20, 1] = 650.0
    grid = array_grid(ground, LON - 0.03 + 360.0 * turns, NORTH, CELL)
    made = _one(_area(), grid=grid)
    assert made.terrain.elev_ft == 650.0 and made.terrain.distance_nm == 0.0
    assert made.unknown.off and made.unknown.distance_nm == 0.0


def test_one_cell_larger_than_the_area():
    """Half a degree a cell: the area lies within it, and no corner of the cell does."""
    made = _one(_area(lon=-40.25, lat=43.25), grid=array_grid(np.full((10, 10), 777.0), -42.5, 45.5, 0.5))
    assert (made.terrain.elev_ft, made.terrain.distance_nm, made.unknown) == (777.0, 0.0, None)


def test_allowance_and_accuracy():
    grid = array_grid(np.full(SHAPE, 1000.0), WEST, NORTH, CELL)
    made = _one(_area(), grid=grid, allowance_ft=100.0, accuracy_ft=30.0).control
    assert made.required_ft == 1000.0 + 30.0 + 100.0 + 984.0


# Heights above the ground


def test_a_height_above_ground_stands_on_the_highest_terrain_under_it():
    """A mast beside a cell's edge: on its own cell, and on the higher neighbour once its place may be 50 m off."""
    ground = np.full(SHAPE, 100.0)
    ground[20, 26] = 700.0
    grid = array_grid(ground, WEST, NORTH, CELL)
    lat, edge = NORTH - 20.5 * CELL, WEST + 26 * CELL
    lon = edge - 30.0 / 1852.0 / 60.0 / math.cos(math.radians(lat))
    for accuracy_m, base in ((0.0, 100.0), (50.0, 700.0)):
        others = _obstacles([[[(lon, lat)]]], top_ft=np.nan, height_ft=250.0, accuracy_m=accuracy_m)
        made = _one(_area(), grid=grid, others=others)
        assert made.obstacle.elev_ft == base + 250.0 and made.undecided == ()
    ground[20, 26] = np.nan
    made = _one(_area(), grid=array_grid(ground, WEST, NORTH, CELL), others=others)
    assert made.obstacle is None and made.undecided == (0,)
    assert _one(_area(), others=others).undecided == (0,)


def test_a_line_above_ground_stands_on_the_highest_cell_under_it():
    ground = np.full(SHAPE, 100.0)
    ground[20, 25] = 400.0
    grid = array_grid(ground, WEST, NORTH, CELL)
    lat = NORTH - 20.5 * CELL
    line = np.array([[WEST + 22.5 * CELL, lat], [WEST + 27.5 * CELL, lat]])
    others = _obstacles([[line]], top_ft=np.nan, height_ft=60.0)
    assert _one(_area(), grid=grid, others=others).obstacle.elev_ft == 460.0


# Distances in the plane


@settings(max_examples=150)
@given(st.data())
def test_distances_as_shapely_has_them(data):
    from shapely.geometry import LineString, MultiPolygon, Point, Polygon

    place = st.tuples(st.integers(-20, 20), st.integers(-20, 20))

    def ring(spread):
        x, y = data.draw(place)
        reach = data.draw(st.lists(st.floats(1.0, spread), min_size=3, max_size=7))
        angle = np.sort(np.array([2 * np.pi * (k + 0.3) / len(reach) for k in range(len(reach))]))
        return np.stack([x + reach * np.cos(angle), y + reach * np.sin(angle)], axis=1)

    one, two = ring(12.0), ring(6.0)
    region = nearness.Region(nearness.polygons([[one], [two]]))
    union = Polygon(one).union(Polygon(two))
    assert isinstance(union, (Polygon, MultiPolygon))
    point, line = (np.array([data.draw(place) for _ in range(k)], dtype=float) for k in (1, 2))
    other = ring(9.0)
    ring_of = nearness.polygons([[other]])
    mixed = nearness.Shapes(
        np.concatenate([point, line[:1], ring_of.starts]), np.concatenate([point, line[1:], ring_of.ends]),
        np.concatenate([[0, 1], ring_of.owner + 2]), np.array([False, False, True]),
    )  # fmt: skip
    expected = [Point(point[0]).distance(union), LineString(line).distance(union) if (line[0] != line[1]).any()
                else Point(line[0]).distance(union), Polygon(other).distance(union)]  # fmt: skip
    np.testing.assert_allclose(region.distances(mixed), expected, atol=1e-9)
    # and the other way round: distances are mutual
    back = nearness.Region(ring_of).distances(nearness.polygons([[one], [two]]))
    assert back.min() == pytest.approx(expected[2], abs=1e-9)
