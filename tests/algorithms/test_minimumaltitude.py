"""Minimum altitudes in QGIS: real raster files, real layers, sums by hand.

Clearances: ICAO Doc 8168 Vol II, Part II, Section 4, Chapter 1 (rings between the first and the last from memory);
FAA-H-8261-1, chapter 3. Places and names are invented; distances by geographiclib in the plane of the fix.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from fixwright.tests.algorithms.layers import Feedback, core, field, layer, refusal, run, some_holds
from fixwright.tests.algorithms.test_coverage import raster
from fixwright.tests.algorithms.test_same_result import command_line  # noqa: F401
from fixwright.tests.geometry.terrain import plane

gdal = pytest.importorskip("osgeo.gdal", reason="needs GDAL for Python")

LON, LAT = -40.0, 43.0
CELL = 1.0 / 120.0
SHAPE = (96, 120)
WEST, NORTH = LON - 60 * CELL, LAT + 48 * CELL
AREAS = ("hold:string", "construction:string", "part:string", "moc_ft:double", "alt_ft:double")
HOLDS = ("hold:string", "alt_ft:double", "alt_to_ft:double")
OBSTACLES = ("name:string", "elev_ft:double", "height_ft:double", "off_ft:double", "up_ft:double")
HALF_LON, HALF_LAT = 0.06, 0.04
"""Half the sides of the square area: about 2.6 and 2.4 NM."""


def square(lon=LON, lat=LAT, grow=0.0) -> str:
    """A square as WKT; grow, NM on every side along the meridian and the parallel."""
    x, y = HALF_LON + grow / 60.0 / math.cos(math.radians(lat)), HALF_LAT + grow / 60.0
    corners = [(lon - x, lat - y), (lon + x, lat - y), (lon + x, lat + y), (lon - x, lat + y), (lon - x, lat - y)]
    return "POLYGON((" + ", ".join(f"{a!r} {b!r}" for a, b in corners) + "))"


def areas(*rows):
    rows = rows or ((square(), "H1", "template", "basic", 984.0, 5000.0),)
    return layer(AREAS, rows, kind="Polygon")


def holds(alt_ft=5000.0, hold="H1"):
    return layer(HOLDS, [((LON, LAT), hold, alt_ft, None)])


def obstacles(*rows, kind="Point"):
    return layer(OBSTACLES, rows, kind=kind)


def mast(lon=LON, lat=LAT, name="MAST", elev=1000.0, height=None, off=0.0, up=0.0):
    return ((lon, lat), name, elev, height, off, up)


def ground(height_m=100.0):
    return np.full(SHAPE, height_m)


def dem(folder, heights=None, name="dem.tif", **more) -> str:
    heights = ground() if heights is None else heights
    more = {"west": WEST, "north": NORTH, "cell": CELL, "kind": "float64", **more}
    return raster(folder / name, heights, more.pop("west"), more.pop("north"), more.pop("cell"), **more)


def result(**parameters):
    """The one row of the tests and the controlling rows of one area."""
    parameters.setdefault("AREAS", areas())
    made = run("minimumaltitude", **parameters)
    (row,) = made.rows("TESTS")
    assert (row["hold"], row["test"]) == ("H1", "minimum_altitude")
    return row, made.rows("CONTROLLING")


# Terrain


def test_the_cell_that_decides(tmp_path):
    """A cell of 700 m in the middle of 100 m: 2 296.6 + 984 = 3 280.6 ft, so 3 300; planned 5 000, 1 700 to spare."""
    heights = ground()
    heights[48, 60] = 700.0
    row, controlling = result(DEM=dem(tmp_path, heights), HOLDS=holds())
    assert (row["value"], row["limit_value"], row["unit"], row["ok"]) == (3300.0, 5000.0, "ft", 1)
    assert row["source"].startswith("ICAO Doc 8168 Vol II, 5th ed. 2006, Part II, Section 4, Chapter 1")
    assert "2 296.6 + 984 clearance = 3 280.6 ft" in row["text"] and "1 700 ft above it" in row["text"]
    (one,) = controlling
    assert (one["what"], one["controls"], one["part"], one["distance_nm"]) == ("terrain", 1, "inside", 0.0)
    assert (one["lon"], one["lat"]) == pytest.approx((WEST + 60.5 * CELL, NORTH - 48.5 * CELL), abs=1e-9)
    assert one["elev_ft"] == pytest.approx(700.0 / 0.3048, abs=1e-9)
    assert one["required_ft"] == pytest.approx(700.0 / 0.3048 + 984.0, abs=1e-9)
    assert (one["minimum_ft"], one["alt_ft"], one["margin_ft"]) == (3300.0, 5000.0, 1700.0)
    place = one["geometry"].asPoint()
    assert (place.x(), place.y()) == (one["lon"], one["lat"])


@pytest.mark.parametrize(("alt_ft", "ok"), [(3300.0, 1), (3299.0, 0), (None, None)])
def test_the_planned_altitude(tmp_path, alt_ft, ok):
    heights = ground()
    heights[48, 60] = 700.0
    row, _ = result(DEM=dem(tmp_path, heights), HOLDS=holds(alt_ft))
    assert (row["ok"], row["value"], row["limit_value"]) == (ok, 3300.0, alt_ft)
    if ok == 0:
        assert "1 ft below it" in row["text"]


def test_without_holds_there_is_no_margin(tmp_path):
    row, (one,) = result(DEM=dem(tmp_path))
    assert (row["ok"], row["limit_value"], one["margin_ft"]) == (None, None, None)
    assert row["value"] == 1400.0  # 328.1 + 984 = 1 312.1


def test_feet_and_another_crs_and_allowances(tmp_path):
    """The same heights in feet, and on a projection whose cells lie elsewhere: the summit is a block of 1.5 NM."""
    heights = ground()
    heights[45:51, 57:63] = 700.0
    metres, _ = result(DEM=dem(tmp_path, heights, "m.tif"))
    feet, _ = result(DEM=dem(tmp_path, heights / 0.3048, "ft.tif"), DEM_UNIT="ft")
    assert metres["value"] == feet["value"] == 3300.0
    more, (one,) = result(DEM=dem(tmp_path, heights, "m.tif"), ALLOWANCE=80, DEM_ACCURACY=30)
    assert more["value"] == 3400.0 and (one["accuracy_ft"], one["allowance_ft"]) == (30.0, 80.0)
    warped = str(tmp_path / "utm.tif")
    gdal.Warp(warped, gdal.Open(str(tmp_path / "m.tif")), dstSRS="EPSG:32624", xRes=500, yRes=500, dstNodata=-9999.0)
    utm, (there,) = result(DEM=warped)
    assert utm["value"] == 3300.0 and there["elev_ft"] == pytest.approx(700.0 / 0.3048, abs=1e-6)
    middle = (WEST + 60 * CELL, NORTH - 48 * CELL)
    assert (there["lon"], there["lat"]) == pytest.approx(middle, abs=4 * CELL)


def test_a_vertical_result_in_metres(tmp_path):
    """700 m + 300 m = 1 000 m, a multiple of 50."""
    heights = ground()
    heights[48, 60] = 700.0
    row, (one,) = result(DEM=dem(tmp_path, heights), HOLDS=holds(5000.0), UNIT="m")
    assert (row["value"], row["unit"], row["ok"]) == (1000.0, "m", 1)
    assert row["limit_value"] == pytest.approx(1524.0, abs=1e-9)
    assert "700 + 300 clearance = 1 000 m" in row["text"]
    assert one["minimum_ft"] == pytest.approx(1000.0 / 0.3048, abs=1e-9)


# What is not known


def not_passed(row):
    assert row["ok"] is None and row["text"].endswith("not passed")


@pytest.mark.parametrize(
    ("kind", "value", "nodata"),
    [
        ("int16", -32768, -32768),
        ("float32", -9999.0, -9999.0),
        ("float64", math.nan, None),
        ("float32", -3.4e38, None),
    ],
)
def test_a_cell_without_a_height(tmp_path, kind, value, nodata):
    """In the fifth ring too: the area is not passed, though 5 000 ft clears all that is known."""
    for column, away in ((60, "inside the area"), (79, "4.")):
        heights = ground()
        heights[48, column] = value
        path = dem(tmp_path, heights, f"{column}.tif", kind=kind, nodata=nodata)
        row, _ = result(DEM=path, HOLDS=holds())
        not_passed(row)
        assert "The raster has no terrain height at 42°59.750'N" in row["text"] and away in row["text"]
        assert row["value"] == 1400.0
    heights = ground()
    heights[48, 82] = value  # 9 NM from the middle
    assert result(DEM=dem(tmp_path, heights, "far.tif", kind=kind, nodata=nodata), HOLDS=holds())[0]["ok"] == 1


def test_too_low_is_too_low_whatever_is_unknown(tmp_path):
    heights = ground()
    heights[48, 60], heights[48, 62] = 1500.0, math.nan
    row, _ = result(DEM=dem(tmp_path, heights), HOLDS=holds())
    assert row["ok"] == 0 and row["text"].endswith("not passed")


def test_all_nodata(tmp_path):
    row, controlling = result(DEM=dem(tmp_path, np.full(SHAPE, -9999.0), nodata=-9999.0), HOLDS=holds())
    not_passed(row)
    assert row["value"] is None and not controlling
    assert row["text"].startswith("No terrain or obstacle that is known lies within reach of the area. The raster has")


def test_off_the_raster(tmp_path):
    for west in (LON - 0.05, LON + 3.0, 100.0):
        row, _ = result(DEM=dem(tmp_path, name=f"{west}.tif", west=west), HOLDS=holds())
        not_passed(row)
        assert "he area runs off the raster of the terrain at" in row["text"]


@pytest.mark.parametrize("nodata", [None, -9999.0])
def test_a_sparse_file(tmp_path, nodata):
    """Blocks never written read as 0 or as the mark of missing data: nothing is known there."""
    path = str(tmp_path / "sparse.tif")
    options = ["SPARSE_OK=TRUE", "TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=16"]
    made = gdal.GetDriverByName("GTiff").Create(path, SHAPE[1], SHAPE[0], 1, gdal.GDT_Float32, options)
    made.SetGeoTransform((WEST, CELL, 0.0, NORTH, 0.0, -CELL))
    made.SetProjection(core.QgsCoordinateReferenceSystem("EPSG:4326").toWkt())
    band = made.GetRasterBand(1)
    if nodata is not None:
        band.SetNoDataValue(nodata)
    for left in range(0, SHAPE[1] - 15, 16):
        for top in range(0, SHAPE[0], 16):
            if (left, top) != (64, 48):
                band.WriteArray(np.full((16, 16), 100.0), left, top)
    band.FlushCache()
    made = band = None
    row, _ = result(DEM=path, HOLDS=holds())
    not_passed(row)
    assert "The raster has no terrain height" in row["text"] and row["value"] == 1400.0


def test_a_mosaic_with_a_gap(tmp_path):
    """Two pieces with 3 NM between them in a virtual raster without a mark for missing data."""
    west, east = (dem(tmp_path, ground()[:, :52], "w.tif"), dem(tmp_path, ground()[:, :60], "e.tif", west=LON))
    path = str(tmp_path / "both.vrt")
    gdal.BuildVRT(path, [west, east]).FlushCache()
    row, _ = result(DEM=path, HOLDS=holds())
    not_passed(row)
    assert "The raster has no terrain height" in row["text"]


@pytest.mark.parametrize("kind", ["mask", "alpha"])
def test_a_mask_or_an_alpha_band(tmp_path, kind):
    """Warped rasters tell so what lies off the old one: the figure there is 0, which is not the sea."""
    path = str(tmp_path / "masked.tif")
    bands = 2 if kind == "alpha" else 1
    options = ["ALPHA=YES"] if kind == "alpha" else []
    made = gdal.GetDriverByName("GTiff").Create(path, SHAPE[1], SHAPE[0], bands, gdal.GDT_Int16, options)
    made.SetGeoTransform((WEST, CELL, 0.0, NORTH, 0.0, -CELL))
    made.SetProjection(core.QgsCoordinateReferenceSystem("EPSG:4326").toWkt())
    known = np.full(SHAPE, 255)
    known[:, 70:] = 0
    made.GetRasterBand(1).WriteArray(np.where(known, 100, 0))
    if kind == "alpha":
        made.GetRasterBand(2).WriteArray(known)
    else:
        made.CreateMaskBand(gdal.GMF_PER_DATASET)
        made.GetRasterBand(1).GetMaskBand().WriteArray(known)
    made.FlushCache()
    made = None
    row, _ = result(DEM=path, HOLDS=holds())
    not_passed(row)
    assert "The raster has no terrain height" in row["text"] and row["value"] == 1400.0


def test_a_sea_of_zeros_is_known(tmp_path):
    """Zeros that were written are heights, though the file system may keep them as holes."""
    assert result(DEM=dem(tmp_path, ground(0.0), kind="int16"), HOLDS=holds())[0]["ok"] == 1


def test_no_terrain_at_all():
    row, _ = result(OBSTACLES=obstacles(mast()), HOLDS=holds())
    assert row["ok"] is None and row["value"] == 2000.0
    assert row["text"].endswith("The terrain was not tested: no DEM was given")


def test_only_what_lies_under_the_areas_is_read(tmp_path, monkeypatch):
    from fixwright.algorithms.common import rasterblocks

    seen, real = [], rasterblocks.RasterBlocks.read

    def read(self, column, row, width, height):
        seen.append((column, row, width, height))
        return real(self, column, row, width, height)

    monkeypatch.setattr(rasterblocks.RasterBlocks, "read", read)
    heights = np.zeros((2000, 2000))
    heights[1000, 1000] = 50.0
    path = dem(tmp_path, heights, west=LON - 1000 * CELL / 4, north=LAT + 1000 * CELL / 4, cell=CELL / 4, kind="int16")
    row, (one,) = result(DEM=path, HOLDS=holds())
    assert row["ok"] == 1, row["text"]
    assert one["elev_ft"] == pytest.approx(50.0 / 0.3048)
    # the area and its rings are 15 by 15 NM: 500 by 370 cells, so tiles of 256 cells about the middle
    assert 0 < len(seen) <= 16
    assert len(set(seen)) == len(seen)
    for column, top, width, height in seen:
        assert 300 < column + width and column < 1700 and 300 < top + height and top < 1700


# What is refused


@pytest.mark.parametrize("given", ["/no/such/file.tif", "nothing"])
def test_a_raster_that_is_not_there(given):
    said = refusal("minimumaltitude", AREAS=areas(), DEM=given)
    assert "DEM" in said and said.count("\n") == 0


def test_a_raster_without_a_crs(tmp_path):
    path = str(tmp_path / "no.tif")
    made = gdal.GetDriverByName("GTiff").Create(path, 10, 10, 1, gdal.GDT_Int16)
    made.SetGeoTransform((WEST, CELL, 0.0, NORTH, 0.0, -CELL))
    made = None
    said = refusal("minimumaltitude", AREAS=areas(), DEM=core.QgsRasterLayer(path, "no"))
    assert said == "DEM has no coordinate reference system; set the layer's own first."


def test_a_raster_in_the_wrong_crs(tmp_path):
    """Degrees called metres: the area runs off it, which is said."""
    row, _ = result(DEM=dem(tmp_path, crs="EPSG:32624"), HOLDS=holds())
    not_passed(row)
    assert "runs off the raster" in row["text"]


def test_parameters_that_are_refused(tmp_path):
    assert refusal("minimumaltitude", AREAS=areas()) == (
        "Neither DEM nor OBSTACLES is given; give at least one of them."
    )
    path = dem(tmp_path)
    bare = layer(("name:string",), [(square(), "x")], kind="Polygon")
    assert refusal("minimumaltitude", AREAS=bare, DEM=path).startswith("AREAS has no field hold, part; its fields are")
    no_tops = layer(("name:string", "z:double"), [((LON, LAT), "x", 1.0)])
    said = refusal("minimumaltitude", AREAS=areas(), OBSTACLES=no_tops)
    assert said.startswith("OBSTACLES has no field with the elevation or the height of the obstacles; its fields are")
    assert refusal("minimumaltitude", AREAS=areas(), OBSTACLES=no_tops, ELEVATION_FIELD="z") == ""
    assert "it must be a number between 1 and 2" in refusal("minimumaltitude", AREAS=areas(), DEM=path, MOC_FACTOR=3)
    said = refusal("minimumaltitude", AREAS=areas(), OBSTACLES=obstacles(mast()), VERTICAL_ACCURACY="field:nix")
    assert said.startswith(
        "VERTICAL_ACCURACY names the field 'nix', which the input does not have; its fields are name"
    )


# Obstacles


def test_ring_edges_of_a_real_template(tmp_path):
    """A metre inside and outside each edge of the rings about the template of a hold, along two bearings.

    The template's distance by shapely in the plane of the fix, points and their distances by geographiclib.
    """
    from geographiclib.geodesic import Geodesic
    from shapely.geometry import Point, Polygon
    from shapely.ops import unary_union

    source = some_holds()
    drawn = run("protectedareas", INPUT=source).layer("AREAS")
    hold = next(source.getFeatures())
    key, lon, lat = hold["hold"], hold["lon"], hold["lat"]
    rings = [
        polygon[0]
        for f in drawn.getFeatures()
        if f["hold"] == key and f["part"] in ("basic", "entry")
        for polygon in f.geometry().asMultiPolygon()
    ]
    shape = unary_union([Polygon([plane(lon, lat, p.x(), p.y()) for p in ring]).buffer(0) for ring in rings])

    def at(bearing, to_nm):
        """The place on a bearing from the fix whose distance from the template is so many NM."""
        low, high = 0.0, 60.0
        for _ in range(60):
            middle = (low + high) / 2.0
            angle = math.radians(bearing)
            near = shape.distance(Point(middle * math.sin(angle), middle * math.cos(angle)))
            low, high = (middle, high) if near < to_nm else (low, middle)
        line = Geodesic.WGS84.Direct(lat, lon, bearing, low * 1852.0)
        return line["lon2"], line["lat2"]

    edges = [(1.0, 984.0, 492.0), (2.0, 492.0, 394.0), (3.0, 394.0, 294.0), (4.0, 294.0, 197.0), (5.0, 197.0, None)]
    for bearing in (17.0, 251.0):
        for to_nm, inner, outer in edges:
            for metres, moc in ((-1.0, inner), (1.0, outer)):
                place = at(bearing, to_nm + metres / 1852.0)
                made = run("minimumaltitude", AREAS=drawn, HOLDS=source, OBSTACLES=obstacles(mast(*place)))
                got = [row["moc_ft"] for row in made.rows("CONTROLLING") if row["hold"] == key]
                assert got == ([] if moc is None else [moc]), (bearing, to_nm, metres)


def test_accuracies_constant_from_fields_and_in_metres(tmp_path):
    """The mast stands 3.0 NM north of the edge less 20 m: beyond the ring of 394 ft by its place alone, by 20 m."""
    lat = LAT + HALF_LAT
    north = lat + (3.0 * 1852.0 + 20.0) / 111_200.0
    from geographiclib.geodesic import Geodesic

    at = Geodesic.WGS84.Direct(lat, LON, 0.0, 3.0 * 1852.0 + 20.0)
    assert at["lat2"] == pytest.approx(north, abs=0.001)
    source = obstacles(mast(LON, at["lat2"], off=70.0, up=25.0))
    row, (one,) = result(OBSTACLES=source)
    assert (one["moc_ft"], one["part"], one["required_ft"]) == (294.0, "buffer_4", 1294.0)
    _, (one,) = result(OBSTACLES=source, HORIZONTAL_ACCURACY=field("off_ft"), VERTICAL_ACCURACY=field("up_ft"))
    assert (one["moc_ft"], one["accuracy_ft"], one["required_ft"]) == (394.0, 25.0, 1419.0)
    assert one["text"].startswith("MAST at ") and "1 000 + 25 accuracy + 394 clearance = 1 419 ft" in one["text"]
    _, (one,) = result(OBSTACLES=source, HORIZONTAL_ACCURACY=21, OBSTACLE_UNIT="m")
    assert one["moc_ft"] == 394.0 and one["elev_ft"] == pytest.approx(1000.0 / 0.3048)
    _, (one,) = result(OBSTACLES=source, HORIZONTAL_ACCURACY=15, OBSTACLE_UNIT="m")
    assert one["moc_ft"] == 294.0


def test_lines_and_polygons(tmp_path):
    line = layer(OBSTACLES, [(f"LINESTRING({LON - 1} {LAT}, {LON + 1} {LAT})", "CABLE", 800.0, None, 0.0, 0.0)],
                 kind="LineString")  # fmt: skip
    _, (one,) = result(OBSTACLES=line)
    assert (one["name"], one["distance_nm"], one["required_ft"]) == ("CABLE", 0.0, 1784.0)
    park = obstacles((square(LON, LAT + 0.14), "PARK", 900.0, None, 0.0, 0.0), kind="Polygon")
    _, (one,) = result(OBSTACLES=park)
    # from 43.04 to 43.10 is 3.6 NM
    assert one["distance_nm"] == pytest.approx(3.6, abs=0.01) and one["moc_ft"] == 294.0


def test_terrain_and_obstacle_each_have_their_point(tmp_path):
    heights = ground()
    heights[48, 60] = 300.0
    row, controlling = result(DEM=dem(tmp_path, heights), OBSTACLES=obstacles(mast()), HOLDS=holds())
    assert [(c["what"], c["controls"]) for c in controlling] == [("terrain", 0), ("obstacle", 1)]
    assert row["value"] == 2000.0 and row["ok"] == 1 and "MAST at " in row["text"]


def test_heights_above_the_ground(tmp_path):
    heights = ground()
    heights[47:49, 59:61] = 200.0
    source = obstacles(mast(elev=None, height=150.0), mast(LON + 0.02, LAT + 0.02, "LOW", None, 100.0))
    made = run("minimumaltitude", AREAS=areas(), DEM=dem(tmp_path, heights), OBSTACLES=source, HOLDS=holds())
    (one,) = [row for row in made.rows("CONTROLLING") if row["what"] == "obstacle"]
    assert one["name"] == "MAST" and one["elev_ft"] == pytest.approx(200.0 / 0.3048 + 150.0)
    assert made.counts == (4, 4, 0)
    made = run("minimumaltitude", AREAS=areas(), OBSTACLES=source, HOLDS=holds())
    assert set(made.reasons().values()) == {"it has only a height above the ground, and no DEM is given to stand it on"}
    assert made.rows("TESTS")[0]["ok"] is None


def test_an_obstacle_without_an_elevation_loses_no_hold(tmp_path):
    """It goes to the rejects; the hold has its row and its other obstacle, and is not passed."""
    source = obstacles(mast(name="BARE", elev=None), mast(LON + 0.01), mast(LON + 5.0, name="FAR", elev=None))
    made = run("minimumaltitude", AREAS=areas(), DEM=dem(tmp_path), OBSTACLES=source, HOLDS=holds())
    (row,) = made.rows("TESTS")
    assert row["value"] == 2000.0
    not_passed(row)
    assert "The top of BARE is not known" in row["text"]
    assert made.reasons() == {
        "OBSTACLES 1": "it has no elevation: nothing stands in elev_ft or height_ft",
        "OBSTACLES 3": "it has no elevation: nothing stands in elev_ft or height_ft",
    }
    assert made.counts == (5, 3, 2)


def test_an_obstacle_without_a_place():
    source = obstacles(mast(), (None, "NOWHERE", 500.0, None, 0.0, 0.0))
    made = run("minimumaltitude", AREAS=areas(), OBSTACLES=source)
    assert made.reasons() == {"OBSTACLES 2": "the row has no shape"}
    assert len(made.rows("TESTS")) == 1


# Areas


def test_primary_and_secondary(tmp_path):
    """A secondary of 3 NM drawn about the primary: half way out 250 ft; its own clearance of 600 ft: 300 ft."""
    outer = square(grow=3.0)
    ring = outer[8:-1] + ", " + square()[8:-1]
    both = ((square(), "H1", "outline", "primary", 1000.0, 5000.0),
            (f"POLYGON({ring})", "H1", "outline", "secondary", 500.0, 5000.0))  # fmt: skip
    lon = LON + HALF_LON + 1.5 * 1852.0 / (math.cos(math.radians(LAT)) * 111_494.0)
    source = obstacles(mast(lon))
    # the corners of the square stand 3 sqrt(2) NM from the primary's: the width is taken for the widest, and told
    row, (one,) = result(AREAS=areas(*both), OBSTACLES=source)
    assert one["part"] == "secondary" and "not of one width" in row["text"]
    row, (one,) = result(AREAS=areas(*both), OBSTACLES=source, SECONDARY_WIDTH=3)
    assert one["moc_ft"] == pytest.approx(250.0, abs=0.5) and "not of one width" not in row["text"]
    own = (both[0], (*both[1][:4], 600.0, 5000.0))
    _, (one,) = result(AREAS=areas(*own), OBSTACLES=source, SECONDARY_WIDTH=3)
    assert one["moc_ft"] == pytest.approx(300.0, abs=0.5)
    row, (one,) = result(AREAS=areas(both[0]), OBSTACLES=obstacles(mast()), MOUNTAINOUS="yes")
    assert (one["moc_ft"], one["part"], row["value"]) == (2000.0, "primary", 3000.0)
    assert row["source"].startswith("FAA Order 8260.3")
    row, controlling = result(AREAS=areas(both[0]), OBSTACLES=source, BUFFER="no")
    assert not controlling and row["value"] is None


def test_an_outline_with_an_even_secondary():
    """A round secondary of 2.5 NM about a round primary, as an offset draws it: the width is measured."""
    from geographiclib.geodesic import Geodesic

    def circle(radius_nm):
        places = [Geodesic.WGS84.Direct(LAT, LON, a, radius_nm * 1852.0) for a in range(0, 360, 3)]
        text = ", ".join(f"{p['lon2']!r} {p['lat2']!r}" for p in [*places, places[0]])
        return f"({text})"

    both = ((f"POLYGON({circle(4.0)})", "H1", "outline", "primary", None, 5000.0),
            (f"POLYGON({circle(6.5)}, {circle(4.0)})", "H1", "outline", "secondary", None, 5000.0))  # fmt: skip
    at = Geodesic.WGS84.Direct(LAT, LON, 90.0, 5.25 * 1852.0)
    row, (one,) = result(AREAS=areas(*both), OBSTACLES=obstacles(mast(at["lon2"], at["lat2"])))
    assert one["moc_ft"] == pytest.approx(250.0, abs=2.0) and "not of one width" not in row["text"]


def test_basic_and_entry_are_one_area_and_drawn_buffers_are_not_needed():
    """The mast stands in the entry area, and in a buffer drawn over it."""
    rows = ((square(), "H1", "template", "basic", 984.0, 5000.0),
            (square(LON + 2 * HALF_LON), "H1", "template", "entry", 984.0, 5000.0),
            (square(grow=5.0), "H1", "template", "buffer_5", 197.0, 5000.0))  # fmt: skip
    source = obstacles(mast(LON + 2.5 * HALF_LON))
    _, (one,) = result(AREAS=areas(*rows), OBSTACLES=source)
    assert (one["moc_ft"], one["distance_nm"]) == (984.0, 0.0)
    made = run("minimumaltitude", AREAS=areas(*rows), OBSTACLES=source)
    assert "1 areas of other parts are not needed" in made.log and made.counts == (3, 3, 0)


def test_options_of_icao():
    source = obstacles(mast(LON + HALF_LON + 1.0 / 60.0 / math.cos(math.radians(LAT))))
    _, (one,) = result(OBSTACLES=source, HELICOPTER="yes")
    assert one["moc_ft"] == pytest.approx(492.0, abs=2.0)
    _, (one,) = result(OBSTACLES=obstacles(mast()), MOC_FACTOR=1.5)
    assert one["moc_ft"] == 1476.0


def test_two_constructions_of_one_hold_are_two_areas(tmp_path):
    rows = ((square(), "H1", "template", "basic", 984.0, 5000.0), (square(), "H1", "outline", "primary", None, 5000.0))
    made = run("minimumaltitude", AREAS=areas(*rows), OBSTACLES=obstacles(mast()), HOLDS=holds())
    assert [row["value"] for row in made.rows("TESTS")] == [2000.0, 2000.0]
    assert [(row["construction"], row["moc_ft"]) for row in made.rows("CONTROLLING")] == [
        ("template", 984.0), ("outline", 1000.0)
    ]  # fmt: skip


def test_no_hold_is_lost(tmp_path):
    """A row without a shape, one without a hold, a hold with buffers alone, a hold without an area."""
    rows = (
        (square(), "H1", "template", "basic", 984.0, 5000.0),
        (None, "H2", "template", "basic", 984.0, 5000.0),
        (square(), None, "template", "basic", 984.0, 5000.0),
        (square(), "H3", "template", "buffer_1", 984.0, 5000.0),
    )
    planned = layer(HOLDS, [((LON, LAT), name, 5000.0, None) for name in ("H1", "H4")])
    made = run("minimumaltitude", AREAS=areas(*rows), DEM=dem(tmp_path), HOLDS=planned)
    assert {row["hold"]: row["ok"] for row in made.rows("TESTS")} == {"H1": 1, "H2": None, "H3": None, "H4": None}
    assert {row["text"] for row in made.rows("TESTS") if row["hold"] != "H1"} == {
        "The hold has no basic or primary area to test"
    }
    assert all(row["unit"] == "ft" and row["source"] for row in made.rows("TESTS"))
    assert {row["hold"]: row["limit_value"] for row in made.rows("TESTS")} == {
        "H1": 5000.0, "H2": None, "H3": None, "H4": 5000.0}  # fmt: skip
    assert made.reasons() == {
        "AREAS 2": "the row has no shape", "AREAS 3": "hold is empty; the tests join on it"
    }  # fmt: skip


def test_an_area_across_the_antimeridian(tmp_path):
    """Two pieces that meet at 180 degrees over a raster that ends there on both sides: all of it is known."""
    lat = LAT
    rows = []
    for a, b in ((180.0 - HALF_LON, 180.0), (-180.0, -180.0 + HALF_LON)):
        corners = [(a, lat - 0.04), (b, lat - 0.04), (b, lat + 0.04), (a, lat + 0.04), (a, lat - 0.04)]
        rows.append("((" + ", ".join(f"{x!r} {y!r}" for x, y in corners) + "))")
    both = layer(AREAS, [(f"MULTIPOLYGON({', '.join(rows)})", "H1", "template", "basic", 984.0, 5000.0)],
                 kind="MultiPolygon")  # fmt: skip
    heights = np.full((180, 720), 10.0)
    heights[(90 - 43) * 1 - 1, 0] = 900.0  # 43 to 44 N, the first half degree east of 180
    heights[46, 0], heights[94, 0] = 900.0, 5.0
    heights = np.repeat(heights, 2, axis=0)
    path = raster(tmp_path / "round.tif", heights, -180.0, 90.0, 0.5, kind="float64")
    made = run("minimumaltitude", AREAS=both, DEM=path, HOLDS=holds())
    (row,) = made.rows("TESTS")
    assert row["ok"] == 1 and row["value"] == 4000.0  # 2 952.8 + 984 = 3 936.8


# The whole


def test_the_sample_area(root, tmp_path):
    """Holds of the plan over the invented islands: one stands too low over Tarn Ridge, and only that one."""
    folder = root / "sample_layers"
    plan = run("buildarea", NAVAIDS=f"{folder / 'navaids.gpkg'}|layername=navaids", PLAN=str(folder / "plan.csv"),
               AIRCRAFT=str(folder / "aircraft.csv"), DATE="2026-09-01", FOLDER=str(tmp_path))  # fmt: skip
    source = plan.layer("HOLDS")
    drawn = run("protectedareas", INPUT=source).layer("AREAS")
    made = run(
        "minimumaltitude", AREAS=drawn, HOLDS=source, DEM=str(folder / "terrain.tif"),
        OBSTACLES=f"{folder / 'obstacles.gpkg'}|layername=obstacles", HORIZONTAL_ACCURACY=field("across_ft"),
        VERTICAL_ACCURACY=field("up_ft"), ALLOWANCE=60,
    )  # fmt: skip
    ok = {row["hold"]: row["ok"] for row in made.rows("TESTS")}
    assert len(ok) == 12
    assert [hold for hold, good in ok.items() if good == 0] == ["E05"]
    (why,) = [row for row in made.rows("CONTROLLING") if row["hold"] == "E05" and row["controls"] == 1]
    assert why["name"] == "Tarn Ridge mast" and why["margin_ft"] < 0
    assert {row["name"] for row in made.rows("CONTROLLING") if row["controls"]} & {"Helm relay", None}
    assert [reason for reason in made.reasons().values()] == [
        "it has no elevation: nothing stands in elev_ft or height_ft"
    ]


def test_cancelled(tmp_path):
    rows = [(square(), f"H{i}", "template", "basic", 984.0, 5000.0) for i in range(60)]
    made = run("minimumaltitude", Feedback(cancel_at=30), AREAS=areas(*rows), DEM=dem(tmp_path))
    assert 25 <= len(made.rows("TESTS")) < 60
    assert "stopped after 25 of 60 areas" in made.log


def test_by_the_command_line(command_line, tmp_path):  # noqa: F811
    from fixwright.tests.algorithms.layers import opened, rows, saved

    heights = ground()
    heights[48, 60] = 700.0
    words = {
        "AREAS": saved(areas(), tmp_path / "areas.gpkg"), "HOLDS": saved(holds(), tmp_path / "holds.gpkg"),
        "DEM": dem(tmp_path, heights), "OBSTACLES": saved(obstacles(mast(up=20.0)), tmp_path / "obstacles.gpkg"),
        "VERTICAL_ACCURACY": "field:up_ft", "TESTS": str(tmp_path / "tests.gpkg"),
    }  # fmt: skip
    said = command_line("run", "fixwright:minimumaltitude", "--", *(f"{k}={v}" for k, v in words.items()))
    assert said.returncode == 0, said.stdout
    (shell,) = rows(opened(words["TESTS"]))
    words["TESTS"] = str(tmp_path / "python.gpkg")
    (python,) = rows(opened(run("minimumaltitude", **words).results["TESTS"]))
    assert {**shell, "geometry": None} == {**python, "geometry": None}
