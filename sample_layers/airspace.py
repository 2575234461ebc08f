"""The invented airspace of the demo area: polygons, routes with a half-width, places with a radius."""

from __future__ import annotations

import os

from osgeo import ogr, osr

FIELDS = ("name", "kind", "lower", "upper", "hours", "contact")

AIRSPACE = (
    # FIELDS, then the corners as lon, lat; limits as different people write them
    ("Ombrell Zone", "control zone", "GND", "2500 FT AMSL", "H24", "Ombrell Tower 118.350",
     ((-40.20, 43.13), (-39.86, 43.15), (-39.83, 42.95), (-40.18, 42.91))),
    ("Ombrell Terminal", "terminal area", "6,500 ft AMSL", "FL 115", "H24", "Ombrell Approach 120.975",
     ((-40.45, 43.26), (-39.62, 43.30), (-39.58, 42.84), (-40.40, 42.78))),
    ("Tarn Slopes", "gliding", "SFC", "5 000 ft MSL", "weekends, sunrise to sunset", "Tarn Gliders 122.475",
     ((-39.44, 42.78), (-39.05, 42.82), (-38.98, 42.55), (-39.20, 42.47), (-39.46, 42.60))),
    ("Hoxter Range", "danger area", "GND", "by NOTAM", "as announced", "Quillandra Information 124.700",
     ((-40.62, 43.92), (-40.30, 43.94), (-40.28, 43.78), (-40.60, 43.76))),
)  # fmt: skip
ROUTE_FIELDS = (*FIELDS, "half_width_nm")
ROUTES = (
    ("Q7 Kelvane to Druvik", "airway", "FL 075", "FL135", "H24", "Quillandra Information 124.700", 5.0,
     ((-40.86, 43.42), (-40.02, 43.03), (-39.04, 42.98))),
    ("Wyrrimar approach", "approach", "500 ft AGL", "2000 ft AMSL", "daily 0700 to 1900", "Wyrrimar Radio 123.550",
     1.5,
     ((-39.98, 43.60), (-39.70, 43.66), (-39.55, 43.69))),
)  # fmt: skip
PLACE_FIELDS = (*FIELDS, "radius_nm")
PLACES = (
    ("Kudresh drop zone", "parachuting", "GND", "FL140", "Friday to Sunday, 0900 to sunset", "Kudresh Drop 129.925",
     2.5, (-40.45, 42.30)),
    ("Quellane strip", "circuits", "GND", "1200 ft AGL", "daylight", "Quellane Radio 122.800", 2.0, (-40.52, 42.90)),
    ("Zuvarra Point", "reporting point", "800 ft AGL", "1900'", "H24", "Ombrell Approach 120.975", 1.0,
     (-39.50, 43.20)),
)  # fmt: skip


def write(path: str) -> None:
    """Write the three layers into a new GeoPackage."""
    if os.path.exists(path):
        os.remove(path)
    source = ogr.GetDriverByName("GPKG").CreateDataSource(path)
    crs = osr.SpatialReference()
    crs.ImportFromEPSG(4326)
    crs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    for layer, kind, fields, rows, shape in (
        ("airspace", ogr.wkbPolygon, FIELDS, AIRSPACE, _polygon),
        ("routes", ogr.wkbLineString, ROUTE_FIELDS, ROUTES, _line),
        ("places", ogr.wkbPoint, PLACE_FIELDS, PLACES, _point),
    ):
        table = source.CreateLayer(layer, crs, kind, ["SPATIAL_INDEX=NO"])
        for name in fields:
            table.CreateField(ogr.FieldDefn(name, ogr.OFTReal if name.endswith("_nm") else ogr.OFTString))
        source.StartTransaction()
        for row in rows:
            feature = ogr.Feature(table.GetLayerDefn())
            for name, value in zip(fields, row):
                feature.SetField(name, value)
            feature.SetGeometry(shape(row[-1]))
            table.CreateFeature(feature)
        source.CommitTransaction()


def _point(place) -> ogr.Geometry:
    made = ogr.Geometry(ogr.wkbPoint)
    made.SetPoint_2D(0, *place)
    return made


def _line(places, kind: int = ogr.wkbLineString) -> ogr.Geometry:
    made = ogr.Geometry(kind)
    for place in places:
        made.AddPoint_2D(*place)
    return made


def _polygon(places) -> ogr.Geometry:
    made = ogr.Geometry(ogr.wkbPolygon)
    made.AddGeometry(_line((*places, places[0]), ogr.wkbLinearRing))
    return made
