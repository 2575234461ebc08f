"""The coverage test in QGIS: layers in and out, terrain out of real raster files, worked by hand.

Formula of the ray: over an earth of 4/3 its radius it lies x (d - x) / (2 * 4/3 * R) below the straight line between
its ends (common practice; R = 6 371.0 km, mean radius of the IUGG). All idents and places are invented.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from fixwright.tests.algorithms.layers import DATE, Feedback, algorithm, core, expression, layer, refusal, rows, run
from fixwright.tests.algorithms.test_same_result import command_line  # noqa: F401

gdal = pytest.importorskip("osgeo.gdal", reason="needs GDAL for Python")
osr = pytest.importorskip("osgeo.osr", reason="needs GDAL for Python")

FIELDS = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double", "class:string", "status:string")
CELL = 1.0 / 120.0
WEST, EAST = 10.0, 10.5
"""Station and fix on the equator, on which the geodesic is the parallel: 30.05 NM, x proportional to longitude."""
EQUATOR_M = 2.0 * math.pi * 6_378_137.0
DISTANCE_NM = (EAST - WEST) / 360.0 * EQUATOR_M / 1852.0
STATION_FT, FIX_FT = 1_000.0, 3_000.0
RIDGE = 10.25
"""West edge of the one column of cells that stands up; the cells reach from 10.25 to 10.2583 degrees."""


def navaids(*more):
    return layer(FIELDS, [((WEST, 0.0), "QRA", "VOR/DME", STATION_FT, 0.0, "H", ""), *more])


def fixes(source=None, alt_ft=FIX_FT):
    made = run(
        "fixradialdistance", INPUT=source or navaids(), RADIAL=90, DISTANCE=DISTANCE_NM, ALTITUDE=alt_ft, DATE=DATE
    )
    return made.layer("FIXES")


def raster(path, heights, west, north, cell=CELL, crs="EPSG:4326", kind="int16", nodata=None) -> str:
    kinds = {"int16": gdal.GDT_Int16, "float32": gdal.GDT_Float32, "float64": gdal.GDT_Float64, "byte": gdal.GDT_Byte}
    rows_, columns = heights.shape
    made = gdal.GetDriverByName("GTiff").Create(str(path), columns, rows_, 1, kinds[kind])
    made.SetGeoTransform((west, cell, 0.0, north, 0.0, -cell))
    system = osr.SpatialReference()
    system.SetFromUserInput(crs)
    made.SetProjection(system.ExportToWkt())
    if nodata is not None:
        made.GetRasterBand(1).SetNoDataValue(nodata)
    made.GetRasterBand(1).WriteArray(heights)
    made.FlushCache()
    return str(path)


def ridge(path, height_m, ground_m=100.0, **more) -> str:
    """Ground with a ridge; 90 columns from 9.9 E, 25 rows, the middle one on the equator."""
    heights = np.full((25, 90), ground_m)
    heights[:, round((RIDGE - 9.9) / CELL)] = height_m
    return raster(path, heights, 9.9, 12.5 * CELL, **more)


def ray_ft(lon: float, station_ft=STATION_FT, fix_ft=FIX_FT) -> float:
    """Height of the ray above sea level over a longitude, by hand."""
    x, d = ((lon - WEST) / 360.0 * EQUATOR_M, (EAST - WEST) / 360.0 * EQUATOR_M)
    sag_m = x * (d - x) / (2.0 * 4.0 / 3.0 * 6_371_000.0)
    return station_ft + (fix_ft - station_ft) * x / d - sag_m / 0.3048


def terrain_row(**parameters) -> dict:
    parameters.setdefault("INPUT", fixes())
    made = run("coveragetest", DATE=DATE, **parameters)
    assert made.counts == (1, 1, 0)
    (row,) = [row for row in made.rows("TESTS") if row["test"] == "terrain"]
    assert not [row for row in made.rows("TESTS") if row["test"] == "line_of_sight"]
    return row


# Terrain by hand


def test_the_ray_by_hand():
    """The middle of 55.66 km lies 45.6 m lower: 2 000 ft - 150 ft; the flat ground is far below."""
    assert ray_ft(10.25) == pytest.approx(2_000.0 - 149.6, abs=0.5)


@pytest.mark.parametrize(("height_m", "ok"), [(600.0, 0), (500.0, 1)])
def test_a_ridge(tmp_path, height_m, ok):
    """600 m is 1 968.5 ft and stands in the ray's way; 500 m is 1 640.4 ft and does not.

    The lowest ray over the ridge is at its west edge, or up to a quarter of a cell before it.
    """
    row = terrain_row(DEM=ridge(tmp_path / "dem.tif", height_m))
    least, most = (ray_ft(lon) - height_m / 0.3048 for lon in (RIDGE - CELL / 4, RIDGE))
    assert least - 0.1 <= row["value"] <= most + 0.1
    assert (row["ok"], row["limit_value"], row["unit"]) == (ok, 0.0, "ft")
    if not ok:
        # The lowest altitude whose ray clears the ridge: lift the fix's end, which the ridge has half of.
        x = (RIDGE - WEST) / (EAST - WEST)
        needed = FIX_FT - most / x
        assert needed <= float(row["text"].split("clear from ")[1].split(" ft")[0].replace(" ", "")) <= needed + 125.0


def test_between_blocked_and_clear_is_an_altitude(tmp_path):
    """The altitude that the text names is the one where the test turns."""
    dem = ridge(tmp_path / "dem.tif", 600.0)
    text = terrain_row(DEM=dem)["text"]
    named = float(text.split("clear from ")[1].split(" ft")[0].replace("\N{NO-BREAK SPACE}", "").replace(" ", ""))
    assert terrain_row(DEM=dem, ALTITUDE=named)["ok"] == 1
    assert terrain_row(DEM=dem, ALTITUDE=named - 100.0)["ok"] == 0
    assert terrain_row(DEM=dem, ALTITUDE=expression(f"{named}"))["ok"] == 1


def test_the_antenna(tmp_path):
    """600 m are too high by 118 to 124 ft; half of 260 ft more at the station clears them."""
    dem = ridge(tmp_path / "dem.tif", 600.0)
    low, high = terrain_row(DEM=dem), terrain_row(DEM=dem, ANTENNA=260)
    assert (low["ok"], high["ok"]) == (0, 1)
    assert high["value"] - low["value"] == pytest.approx(130.0, abs=2.0)


def test_feet(tmp_path):
    metres = terrain_row(DEM=ridge(tmp_path / "m.tif", 600.0, kind="float64"))
    feet = terrain_row(
        DEM=ridge(tmp_path / "ft.tif", 600.0 / 0.3048, 100.0 / 0.3048, kind="float64"), DEM_UNIT="ft"
    )
    assert feet["value"] == pytest.approx(metres["value"], abs=1e-6)


@pytest.mark.parametrize("crs", ["EPSG:3857", "EPSG:32632"])
def test_another_crs(tmp_path, crs):
    """The same ridge in metres on a projection: cells of 500 m, the ridge on the same meridian within one cell."""
    from pyproj import Transformer

    to = Transformer.from_crs("EPSG:4326", crs, always_xy=True)
    west, south = to.transform(9.9, -0.1)
    back = Transformer.from_crs(crs, "EPSG:4326", always_xy=True)
    heights = np.full((50, 200), 100.0)
    x = west + (np.arange(200) + 0.5) * 500.0
    lon, _ = back.transform(x, np.full(200, south))
    heights[:, int(np.argmin(np.abs(lon - (RIDGE + CELL / 2))))] = 600.0
    dem = raster(tmp_path / "dem.tif", heights, west, south + 50 * 500.0, 500.0, crs)
    row = terrain_row(DEM=dem)
    assert row["ok"] == 0
    assert ray_ft(RIDGE - CELL) < row["value"] + 600.0 / 0.3048 < ray_ft(RIDGE + 2 * CELL)


def test_a_raster_from_0_to_360(tmp_path):
    """Longitudes of a station in the west are those of the raster less 360."""
    heights = np.full((25, 90), 100.0)
    heights[:, 42] = 600.0
    at_home = terrain_row(DEM=raster(tmp_path / "a.tif", heights, 9.9, 12.5 * CELL))
    west = layer(FIELDS, [((WEST - 30.0, 0.0), "QRA", "VOR/DME", STATION_FT, 0.0, "H", "")])
    far = terrain_row(INPUT=fixes(west), DEM=raster(tmp_path / "b.tif", heights, 339.9, 12.5 * CELL))
    assert far["value"] == pytest.approx(at_home["value"], abs=0.01)


def test_across_the_antimeridian(tmp_path):
    heights = np.full((25, 90), 100.0)
    heights[:, 42] = 600.0
    home = terrain_row(DEM=raster(tmp_path / "a.tif", heights, 9.9, 12.5 * CELL))
    for west in (179.65, -180.35):
        source = layer(FIELDS, [((179.75, 0.0), "QRA", "VOR/DME", STATION_FT, 0.0, "H", "")])
        row = terrain_row(INPUT=fixes(source), DEM=raster(tmp_path / f"{west}.tif", heights, west, 12.5 * CELL))
        assert row["value"] == pytest.approx(home["value"], abs=0.01)


# What is not known


def test_no_data_under_the_path(tmp_path):
    """One column without data: the test can say neither, and says where it knows nothing; a ridge in the way is one."""
    for height_m, ok in ((100.0, None), (600.0, 0)):
        heights = np.full((25, 90), 100.0)
        heights[:, 42], heights[:, 60] = height_m, -32768.0
        dem = raster(tmp_path / f"{height_m}.tif", heights, 9.9, 12.5 * CELL, nodata=-32768.0)
        row = terrain_row(DEM=dem)
        assert row["ok"] == ok
        if ok is None:
            assert row["text"].startswith("The terrain is not known at ")
            # the column and a quarter cell on either side, in steps of 0.45 cells
            assert 2 <= int(row["text"].split()[6]) <= 5


def test_no_data_beside_the_path_does_not_matter(tmp_path):
    heights = np.full((25, 90), 100.0)
    heights[:11], heights[14:] = -32768.0, -32768.0
    assert terrain_row(DEM=raster(tmp_path / "dem.tif", heights, 9.9, 12.5 * CELL, nodata=-32768.0))["ok"] == 1


@pytest.mark.parametrize(
    ("kind", "value", "nodata"),
    [("float32", math.nan, None), ("float32", -9999.0, -9999.0), ("float32", -3.4e38, None), ("float64", 1e6, None),
     ("float32", -3.4028234663852886e38, -3.4028234663852886e38), ("int16", -32768, None), ("byte", 0, 0)],
)  # fmt: skip
def test_heights_that_are_none(tmp_path, kind, value, nodata):
    """Marked as missing, not a number, or no height of any land: the terrain is unknown there."""
    heights = np.full((25, 90), 100.0)
    heights[:, 60] = value
    dem = raster(tmp_path / "dem.tif", heights, 9.9, 12.5 * CELL, kind=kind, nodata=nodata)
    row = terrain_row(DEM=dem)
    assert row["ok"] is None and "not known at" in row["text"]


def test_a_raster_that_ends_before_the_fix(tmp_path):
    heights = np.full((25, 60), 100.0)
    row = terrain_row(DEM=raster(tmp_path / "dem.tif", heights, 9.9, 12.5 * CELL))
    assert row["ok"] is None and "not known at" in row["text"]


def test_a_raster_elsewhere(tmp_path):
    heights = np.full((25, 60), 100.0)
    row = terrain_row(DEM=raster(tmp_path / "dem.tif", heights, -60.0, 50.0))
    assert (row["ok"], row["value"]) == (None, None)
    assert row["text"] == "The terrain between QRA and the fix is not known"


def test_the_stations_own_cell_is_no_obstacle(tmp_path):
    """A station beside a summit of its own cell: 450 m of ground, 1 000 ft published. A cell 1 NM on is in the way."""
    for column, ok in ((12, 1), (14, 0)):  # from 10.0 E, and from 10.0167 E
        heights = np.full((25, 90), 100.0)
        heights[12, column] = 450.0
        row = terrain_row(DEM=raster(tmp_path / f"{column}.tif", heights, 9.9, 12.5 * CELL))
        assert row["ok"] == ok


# The raster itself


@pytest.fixture
def rough(tmp_path):
    """A raster of distinct heights larger than a tile, and the array."""
    heights = np.arange(600 * 700, dtype=np.float64).reshape(600, 700) % 7919.0
    path = raster(tmp_path / "rough.tif", heights, 20.0, 50.0, 1.0 / 1200.0, kind="float64")
    return core.QgsRasterLayer(path, "rough"), heights


def test_every_cell_is_the_files_own(rough):
    from fixwright.algorithms.common.terrain import RasterTerrain

    made, heights = rough
    terrain = RasterTerrain(made, "m", core.QgsCoordinateTransformContext())
    row, column = np.divmod(np.arange(0, heights.size, 37), heights.shape[1])
    got = terrain.highest_ft(20.0 + (column + 0.5) / 1200.0, 50.0 - (row + 0.5) / 1200.0)
    np.testing.assert_allclose(got, heights[row, column] / 0.3048, rtol=1e-12)


def test_no_cell_of_a_path_is_left_out(rough):
    """The cells under a path, found by a walk of a hundredth of a cell, are never higher than what was told."""
    from fixwright.algorithms.common.terrain import RasterTerrain
    from fixwright.geometry.coverage.profile import profile_points
    from fixwright.geometry.plan.reception import STEP_CELLS

    made, heights = rough
    terrain = RasterTerrain(made, "m", core.QgsCoordinateTransformContext())
    for ends in ((20.01, 49.99, 20.57, 49.52), (20.3, 49.51, 20.31, 49.99), (20.02, 49.7, 20.55, 49.71)):
        side, _ = terrain.cells(np.array(ends[::2]), np.array(ends[1::2]))
        told = profile_points(*ends, STEP_CELLS * side.min())
        walk = profile_points(*ends, side.min() / 100.0)
        seen = terrain.highest_ft(told.lon[0], told.lat[0])
        row, column = (
            np.floor((50.0 - walk.lat[0]) * 1200.0).astype(int), np.floor((walk.lon[0] - 20.0) * 1200.0).astype(int)
        )  # fmt: skip
        under = heights[row, column] / 0.3048
        nearest = np.abs(told.dist_nm[0][:, np.newaxis] - walk.dist_nm[0]).argmin(axis=0)
        assert (seen[nearest] >= under - 1e-6).all()
        # and not much more than those: only cells within a quarter of a cell
        assert len(set(seen.round(3)) - {0.0}) > 100


def test_cells_on_the_ground(rough):
    """3 seconds at 49.5 to 50 north: 0.05 NM by 0.032 NM. Reference: the PyPI package geographiclib."""
    from geographiclib.geodesic import Geodesic

    from fixwright.algorithms.common.terrain import RasterTerrain

    terrain = RasterTerrain(rough[0], "m", core.QgsCoordinateTransformContext())
    side, diagonal = terrain.cells(np.array([20.2]), np.array([49.8]))
    across = Geodesic.WGS84.Inverse(49.8, 20.2, 49.8, 20.2 + 1 / 1200)["s12"] / 1852.0
    down = Geodesic.WGS84.Inverse(49.8, 20.2, 49.8 + 1 / 1200, 20.2)["s12"] / 1852.0
    assert side[0] == pytest.approx(across, rel=1e-3)
    assert diagonal[0] == pytest.approx(math.hypot(across, down), rel=1e-3)


def test_many_tiles_stay_few(rough):
    from fixwright.algorithms.common import terrain as terrains

    terrain = terrains.RasterTerrain(rough[0], "m", core.QgsCoordinateTransformContext())
    place = np.linspace(0.01, 0.49, 400)
    terrain.highest_ft(20.0 + np.repeat(place, 400), 50.0 - np.tile(place, 400))
    assert len(terrain._tiles) == 9 <= terrains.TILES_KEPT


# Layers in and out


def test_a_hold_is_tested_by_its_name_and_lowest_altitude(tmp_path):
    holds = run("designholds", INPUT=fixes(), ALTITUDE=FIX_FT, ALTITUDE_TO=9_000, DATE=DATE).layer("HOLDS")
    name = next(holds.getFeatures())["hold"]
    made = run("coveragetest", INPUT=holds, DEM=ridge(tmp_path / "dem.tif", 600.0), DATE=DATE)
    assert {row["hold"] for row in made.rows("TESTS")} == {name}
    assert [row["ok"] for row in made.rows("TESTS") if row["test"] == "terrain"] == [0]


def test_class_and_status_from_the_navaids():
    """Fixes that know nothing of them; the table's are those of ident, kind and place, not of a namesake."""
    plain = layer(FIELDS[:4], [((WEST, 0.0), "QRA", "VOR/DME", STATION_FT, 0.0)])
    source = fixes(plain)
    namesake = ((40.0, 0.0), "QRA", "VOR/DME", STATION_FT, 0.0, "T", "closed")
    beacon = ((WEST, 0.0), "QRA", "NDB", STATION_FT, None, "MH", "closed")

    def told(**more):
        rows_ = run("coveragetest", INPUT=source, DATE=DATE, **more).rows("TESTS")
        return {row["test"]: (row["ok"], row["text"]) for row in rows_}

    unknown = told()
    assert unknown["status"] == (None, "The status of QRA is not known: no table of navaids lists it")
    assert unknown["service_volume"][0] is None
    known = told(NAVAIDS=navaids(namesake, beacon))
    assert known["status"][0] == 1 and known["service_volume"] == (
        1, "Class H of QRA reaches 40.0 NM at 2 000 ft above it; the fix is 30.1 NM away"
    )  # fmt: skip
    silent = layer(FIELDS, [((WEST, 0.0), "QRA", "VOR/DME", STATION_FT, 0.0, "T", "Out of service")])
    gone = told(NAVAIDS=silent)
    assert gone["status"][0] == 0 and gone["service_volume"][0] == 0


def test_the_fixs_own_fields_tell_it_without_navaids():
    """The fields of the navaids pass into the fixes layer."""
    rows_ = run("coveragetest", INPUT=fixes(), DATE=DATE).rows("TESTS")
    assert {row["test"]: row["ok"] for row in rows_} == {
        "status": 1, "service_volume": 1, "line_of_sight": 1, "cone": 1, "dme_overhead": 1
    }  # fmt: skip


def test_alternatives():
    """A VOR/DME 20 NM from the fix is nearer than the one that defines it."""
    more = (
        ((10.5, 0.33), "QRB", "VOR/DME", 900.0, 2.0, "H", ""),
        ((10.9, 0.05), "QRC", "VOR/DME", 900.0, 2.0, "H", "u/s"),
        ((10.3, -0.4), "QRD", "NDB", None, None, "H", ""),
    )
    made = run("coveragetest", INPUT=fixes(), NAVAIDS=navaids(*more), DATE=DATE, COUNT=3)
    ways = made.rows("ALTERNATIVES")
    assert [row["rank"] for row in ways] == [1, 2, 3]
    assert (ways[0]["method"], ways[0]["navaid"], ways[0]["navaid_2"]) == ("radial_distance", "QRB", None)
    assert ways[0]["radial_deg"] == pytest.approx(178.0, abs=0.1)  # from its own north, 2 east
    assert "QRC" not in {row["navaid"] for row in ways} | {row["navaid_2"] for row in ways}
    assert not [row for row in ways if row["method"] == "radial_distance" and row["navaid"] == "QRA"]
    errors = [row["error_nm"] for row in ways]
    assert errors == sorted(errors)
    (one,) = run("coveragetest", INPUT=fixes(), NAVAIDS=navaids(*more), DATE=DATE, COUNT=1).rows("ALTERNATIVES")
    assert one["text"] == ways[0]["text"]


def test_the_error_of_an_alternative_by_hand():
    """ICAO: a VOR that gives track 5.2 degrees, a DME 0.25 NM + 1.25 % (ICAO Doc 8168 Vol II, from memory)."""
    made = run("coveragetest", INPUT=fixes(), NAVAIDS=navaids(((10.5, 0.33), "QRB", "VOR/DME", 900.0, 2.0, "H", "")),
               DATE=DATE, COUNT=1)  # fmt: skip
    (way,) = made.rows("ALTERNATIVES")
    slant = math.hypot(way["dist_nm"], 2_100.0 / 6_076.115)
    assert way["dme_nm"] == pytest.approx(slant, abs=1e-6)
    expected = math.hypot(way["dist_nm"] * math.tan(math.radians(5.2)), 0.25 + 0.0125 * slant)
    assert way["error_nm"] == pytest.approx(expected, abs=1e-6)


def test_both_stations_of_a_crossing_and_their_cut():
    """Radials 090 and 180 cross at a right angle; the second station's status comes from the table."""
    import processing

    from fixwright.algorithms.fixcrossing import FixCrossing

    two = (((10.5, 0.33), "QRB", "VOR", 900.0, 0.0, "T", "closed"),)
    lines = {"A_IDENT": "QRA", "A_KIND": "radial", "A_VALUE": 90, "B_IDENT": "QRB", "B_KIND": "radial", "B_VALUE": 180}
    parameters = {"INPUT": navaids(*two), **lines, "ALTITUDE": FIX_FT, "DATE": DATE, "FIXES": "memory:"}
    source = processing.run(FixCrossing().create(), parameters)["FIXES"]
    made = run("coveragetest", INPUT=source, NAVAIDS=navaids(*two), DATE=DATE)
    rows_ = made.rows("TESTS")
    assert [row["ok"] for row in rows_ if row["test"] == "status"] == [1, 0]
    (cut,) = [row for row in rows_ if row["test"] == "cut_angle"]
    assert cut["value"] == pytest.approx(90.0, abs=0.01) and cut["limit_value"] == 30.0 and cut["ok"] == 1
    faa = run("coveragetest", INPUT=source, NAVAIDS=navaids(*two), DATE=DATE, RULES="faa").rows("TESTS")
    assert [row["limit_value"] for row in faa if row["test"] == "cut_angle"] == [45.0]


def test_rejected_rows():
    source = core.QgsVectorLayer("Point?crs=EPSG:4326&field=fix:string&field=method:string", "f", "memory")
    features = []
    wanted = (((10.0, 0.0), "Lake", "coordinates"), (None, "Nowhere", "coordinates"), ((10.0, 0.0), "", ""))
    for place, *values in wanted:
        feature = core.QgsFeature(source.fields())
        feature.setAttributes(values)
        if place:
            feature.setGeometry(core.QgsGeometry.fromPointXY(core.QgsPointXY(*place)))
        features.append(feature)
    assert source.dataProvider().addFeatures(features)[0]
    made = run("coveragetest", INPUT=source, DATE=DATE)
    assert made.counts == (3, 0, 3)
    assert list(made.reasons().values()) == [
        "no navaid defines the fix, so nothing is received there",
        "the row has no point",
        "fix is empty; the tests join on it",
    ]
    # with navaids about, the same place has other ways to define it
    about = navaids(((10.1, 0.2), "QRB", "VOR/DME", 900.0, 2.0, "H", ""))
    made = run("coveragetest", INPUT=source, NAVAIDS=about, ALTITUDE=5_000, DATE=DATE)
    assert made.counts == (3, 1, 2)
    assert {row["fix"] for row in made.rows("ALTERNATIVES")} == {"Lake"} and not made.rows("TESTS")


def test_expressions_belong_to_the_input():
    """A field for ALTITUDE is one of the fixes, whatever the navaids have."""
    source = fixes()
    assert "alt_ft" in source.fields().names()
    made = run("coveragetest", INPUT=source, NAVAIDS=navaids(), ALTITUDE=expression('"alt_ft" + 100'), DATE=DATE)
    assert made.counts == (1, 1, 0)


def test_sample_area(root):
    samples = root / "sample_layers"
    table = f"{samples / 'navaids.gpkg'}|layername=navaids"
    source = run("fixradialdistance", INPUT=table, RADIAL=90, DISTANCE=20, ALTITUDE=6_000, DATE=DATE)
    made = run("coveragetest", INPUT=source.layer("FIXES"), NAVAIDS=table, DATE=DATE)
    assert made.counts[0] == made.counts[1] + made.counts[2] == source.counts[1]
    by_fix = {}
    for row in made.rows("TESTS"):
        by_fix.setdefault(row["hold"].split()[0], {})[row["test"]] = row["ok"]
    assert by_fix["OBL"] == {"status": 1, "service_volume": 1, "line_of_sight": 1, "cone": 1, "dme_overhead": 1}
    assert by_fix["THK"]["status"] == 0  # out of service in the table
    assert all(row["error_nm"] > 0.0 for row in made.rows("ALTERNATIVES"))


def test_outputs_skipped(tmp_path):
    names = ("TESTS", "ALTERNATIVES", "REJECTS")
    whole = run("coveragetest", INPUT=fixes(), NAVAIDS=navaids(), DATE=DATE)
    for name in names:
        alone = run("coveragetest", INPUT=fixes(), NAVAIDS=navaids(), DATE=DATE, skip=set(names) - {name})
        assert alone.counts == whole.counts
        assert [dict(row, geometry=None) for row in alone.rows(name)] == [
            dict(row, geometry=None) for row in whole.rows(name)
        ]
    assert run("coveragetest", INPUT=fixes(), DATE=DATE, skip=names).counts == (1, 1, 0)


def test_batches_do_not_matter(monkeypatch):
    from fixwright.algorithms import coveragetest

    more = [((9.0 + i, 1.0), f"QR{i}", "VOR/DME", 900.0, 0.0, "H", "") for i in range(5)]
    source = fixes(navaids(*more))
    whole = run("coveragetest", INPUT=source, NAVAIDS=navaids(), DATE=DATE)
    monkeypatch.setattr(coveragetest, "ROWS_AT_A_TIME", 2)
    pieces = run("coveragetest", INPUT=source, NAVAIDS=navaids(), DATE=DATE)
    assert pieces.counts == whole.counts == (6, 6, 0)
    for name in ("TESTS", "ALTERNATIVES"):
        assert [dict(row, geometry=None) for row in pieces.rows(name)] == [
            dict(row, geometry=None) for row in whole.rows(name)
        ]


def test_fields_are_those_of_the_table(tmp_path):
    from fixwright.algorithms.common import schema

    made = run("coveragetest", INPUT=fixes(), NAVAIDS=navaids(), DATE=DATE)
    for name, described in (("TESTS", "tests"), ("ALTERNATIVES", "alternatives")):
        assert tuple(made.layer(name).fields().names()) == schema.LAYERS[described].names


def test_cancelled_at_once(tmp_path):
    made = run("coveragetest", feedback=Feedback(cancel_at=0), INPUT=fixes(), TESTS=str(tmp_path / "t.gpkg"), DATE=DATE)
    assert made.counts == (0, 0, 0) and not list(tmp_path.iterdir())


def test_in_a_thread_of_its_own(qgis_app, tmp_path):
    """As the dialog runs it: the raster is read by a copy of its provider, not by the layer of the main thread."""
    dem = core.QgsRasterLayer(ridge(tmp_path / "dem.tif", 600.0), "dem")
    core.QgsProject.instance().addMapLayer(dem, False)
    context, feedback = core.QgsProcessingContext(), Feedback()
    context.setProject(core.QgsProject.instance())
    parameters = {"INPUT": fixes(), "DEM": dem.id(), "DATE": DATE, "TESTS": "memory:"}
    made = algorithm("coveragetest")
    assert made.checkParameterValues(parameters, context) == (True, "")
    task = core.QgsProcessingAlgRunnerTask(made, parameters, context, feedback)
    results = []
    task.executed.connect(lambda good, values: results.append((good, values)))
    core.QgsApplication.taskManager().addTask(task)
    while not results:
        qgis_app.processEvents()
    good, values = results[0]
    assert good, feedback.lines
    threaded = rows(core.QgsProcessingUtils.mapLayerFromString(values["TESTS"], context))
    assert [row["ok"] for row in threaded if row["test"] == "terrain"] == [0]


# Refused


@pytest.mark.parametrize(
    ("parameters", "said"),
    [
        ({"COUNT": 2.5}, "COUNT is 2.5; it must be a number between 1 and 50, and a whole one."),
        ({"COUNT": 0}, "COUNT is 0; it must be a number between 1 and 50."),
        ({"ANTENNA": -1}, "ANTENNA is -1; it must be a number between 0 and 500 ft."),
        ({"RULES": "easa"}, "RULES is 'easa'; it must be one of 0 icao, 1 faa."),
        ({"DEM_UNIT": "yards"}, "DEM_UNIT is 'yards'; it must be one of 0 m, 1 ft."),
        ({"DATE": "soon"}, "DATE is 'soon'"),
    ],
)
def test_parameters(parameters, said):
    assert refusal("coveragetest", INPUT=fixes(), **parameters).startswith(said)


def test_layers_that_will_not_do(tmp_path):
    nothing = layer(("name:string",), [((10.0, 0.0), "Lake")])
    assert refusal("coveragetest", INPUT=nothing) == (
        "INPUT has no field fix and no field method; give the fixes or the holds layer of an earlier step."
    )
    assert refusal("coveragetest", INPUT=fixes(), NAVAIDS=nothing) == "NAVAIDS has no field ident; its fields are name."
    text = tmp_path / "dem.txt"
    text.write_text("no raster", encoding="utf-8")
    assert refusal("coveragetest", INPUT=fixes(), DEM=str(text))
    no_crs = core.QgsRasterLayer(ridge(tmp_path / "dem.tif", 100.0), "dem")
    no_crs.setCrs(core.QgsCoordinateReferenceSystem())
    assert refusal("coveragetest", INPUT=fixes(), DEM=no_crs) == (
        "DEM has no coordinate reference system; set the layer's own first."
    )


def test_found_and_run_by_the_command_line(command_line, tmp_path):  # noqa: F811
    from fixwright.tests.algorithms.layers import opened, saved

    said = command_line("help", "fixwright:coveragetest")
    assert said.returncode == 0 and "not for navigation" in said.stdout
    source = saved(fixes(), tmp_path / "fixes.gpkg")
    dem = ridge(tmp_path / "dem.tif", 600.0)
    said = command_line("run", "fixwright:coveragetest", "--", f"INPUT={source}", f"DEM={dem}", f"DATE={DATE}",
                        f"TESTS={tmp_path / 'tests.gpkg'}")  # fmt: skip
    assert said.returncode == 0, said.stdout
    assert "1 rows in, 1 gave output, 0 rejected" in said.stdout
    assert [row["ok"] for row in rows(opened(str(tmp_path / "tests.gpkg"))) if row["test"] == "terrain"] == [0]
