"""The land of the sample area: heights in a raster, obstacles, aerodromes. Called by make.py.

Invented like everything here: islands in the open ocean, whose hills stand where exercises are flown.
"""

from __future__ import annotations

import os

import numpy as np
from osgeo import gdal, ogr, osr

WEST, NORTH, CELL_DEG, COLUMNS, ROWS = -41.9, 44.2, 1.0 / 120.0, 456, 288
"""Cells of half a minute, 41.9 to 38.1 W and 44.2 to 41.8 N."""
FT_M = 0.3048
NM_DEG = 1.0 / 60.0

# lon, lat, top in feet, how far its foot reaches along and across in NM, direction of its ridge from north in degrees
HILLS = (
    (-40.02, 43.03, 640, 9, 7, 40), (-40.86, 43.42, 1210, 11, 8, 130), (-39.28, 43.47, 330, 8, 8, 0),
    (-41.02, 42.66, 85, 7, 6, 20), (-39.52, 42.50, 410, 8, 6, 100), (-40.30, 42.38, 150, 7, 6, 75),
    (-39.04, 42.98, 905, 9, 7, 160), (-40.46, 43.62, 520, 7, 6, 60), (-39.70, 43.66, 40, 6, 5, 10),
    (-41.14, 43.06, 25, 5, 5, 0), (-39.92, 42.60, 260, 7, 6, 90),
)  # fmt: skip
"""A hill under every navaid that stands on land."""
RANGE = (
    (-40.62, 42.98, 2350, 6, 3, 35), (-40.50, 43.10, 3050, 7, 3.5, 35), (-40.38, 43.21, 2680, 6, 3, 35),
    (-40.27, 43.33, 1700, 6, 3.5, 35), (-39.10, 43.13, 1900, 7, 4, 150),
)  # fmt: skip
"""Tarn Ridge, north-west of OBL and between several holds, and a ridge north of DRV."""

OBSTACLE_FIELDS = ("name", "kind", "elev_ft", "height_ft", "across_ft", "up_ft")
OBSTACLES = (
    # lon, lat, then OBSTACLE_FIELDS: an empty elevation stands on the terrain, and one row has neither
    (-40.504, 43.096, "Tarn Ridge mast", "mast", 3290, None, 50, 20),
    (-40.372, 43.214, "Helm relay", "mast", 2655, None, 50, 20),
    (-40.105, 43.005, "Ombrell chimney", "chimney", 585, None, 30, 10),
    (-40.905, 43.385, "Kelvane tower", "tower", 1015, None, 50, 20),
    (-39.085, 43.115, "Druvik turbines, east", "wind turbine", None, 490, 250, 50),
    (-39.125, 43.145, "Druvik turbines, west", "wind turbine", None, 490, 250, 50),
    (-39.255, 43.445, "Fyxholm stack", "chimney", 472, None, 30, 10),
    (-41.045, 42.690, "Yoxen light", "lighthouse", 168, None, 30, 10),
    (-39.940, 42.580, "Brakkel crane", "crane", None, 310, 100, 30),
    (-40.330, 42.395, "Kudresh silo", "silo", None, None, None, None),
)
CABLE_FIELDS = ("name", "elev_ft", "up_ft")
CABLES = (
    (((-40.60, 43.00), (-40.545, 43.045), (-40.505, 43.095)), "Tarn Ridge cable", 2960, 50),
    (((-40.88, 43.41), (-40.80, 43.43)), "Kelvane cable", 1490, 50),
)

AERODROME_FIELDS = ("ident", "name", "elev_ft", "circuit_ft", "remarks")
AERODROMES = (
    (-39.965, 43.005, "XTWK", "Tarnwick", 328, 1300, "home of the Tarnwick Instrument Circle"),
    (-39.560, 42.515, "XTHS", "Thessock Strand", 269, 1300, "grass"),
)

_TEXT = {"name", "kind", "ident", "remarks"}


def heights_m() -> np.ndarray:
    """Heights of the cells in whole metres above sea level, the sea 0, (ROWS, COLUMNS)."""
    lon = WEST + (np.arange(COLUMNS) + 0.5) * CELL_DEG
    lat = (NORTH - (np.arange(ROWS) + 0.5) * CELL_DEG)[:, None]
    out = np.zeros((ROWS, COLUMNS))
    for hill in (*HILLS, *RANGE):
        at_lon, at_lat, top_ft, along_nm, across_nm, direction = hill
        east, north = (lon - at_lon) / NM_DEG * np.cos(np.radians(at_lat)), (lat - at_lat) / NM_DEG
        turn = np.radians(direction)
        along = (east * np.sin(turn) + north * np.cos(turn)) / along_nm
        across = (east * np.cos(turn) - north * np.sin(turn)) / across_nm
        far = np.hypot(along, across)
        spurs = 1.0 + 0.10 * np.sin(9.0 * far) * np.sin(3.0 * np.arctan2(across, along) + at_lon)
        out = np.maximum(out, top_ft * FT_M * np.maximum(1.0 - far * spurs, 0.0) ** 1.3)
    return np.floor(out).astype(np.int16)


def write_raster(path: str) -> None:
    """The heights as a GeoTIFF."""
    options = ["COMPRESS=DEFLATE", "PREDICTOR=2", "ZLEVEL=9", "TILED=YES", "BLOCKXSIZE=128", "BLOCKYSIZE=128"]
    made = gdal.GetDriverByName("GTiff").Create(path, COLUMNS, ROWS, 1, gdal.GDT_Int16, options)
    made.SetGeoTransform((WEST, CELL_DEG, 0.0, NORTH, 0.0, -CELL_DEG))
    made.SetProjection(_wgs84().ExportToWkt())
    band = made.GetRasterBand(1)
    band.SetNoDataValue(-32768)
    band.SetUnitType("m")
    band.WriteArray(heights_m())
    made.FlushCache()


def write_vectors(folder: str) -> None:
    """Obstacles with their cables, and aerodromes, as GeoPackages."""
    points = [(ogr.wkbPoint, [row[:2]], row[2:]) for row in OBSTACLES]
    cables = [(ogr.wkbLineString, places, values) for places, *values in CABLES]
    layers = (("obstacles", OBSTACLE_FIELDS, points), ("cables", CABLE_FIELDS, cables))
    _write(os.path.join(folder, "obstacles.gpkg"), layers)
    fields = [(ogr.wkbPoint, [row[:2]], row[2:]) for row in AERODROMES]
    _write(os.path.join(folder, "aerodromes.gpkg"), (("aerodromes", AERODROME_FIELDS, fields),))


def _write(path: str, layers) -> None:
    if os.path.exists(path):
        os.remove(path)
    source = ogr.GetDriverByName("GPKG").CreateDataSource(path)
    for name, fields, rows in layers:
        table = source.CreateLayer(name, _wgs84(), rows[0][0], ["SPATIAL_INDEX=NO"])
        for field in fields:
            table.CreateField(ogr.FieldDefn(field, ogr.OFTString if field in _TEXT else ogr.OFTReal))
        for kind, places, values in rows:
            feature = ogr.Feature(table.GetLayerDefn())
            for field, value in zip(fields, values):
                if value is not None:
                    feature.SetField(field, value)
            shape = ogr.Geometry(kind)
            for place in places:
                shape.AddPoint_2D(*place)
            feature.SetGeometry(shape)
            table.CreateFeature(feature)


def _wgs84() -> osr.SpatialReference:
    made = osr.SpatialReference()
    made.ImportFromEPSG(4326)
    made.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return made
