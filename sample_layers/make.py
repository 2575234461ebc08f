"""Makes the invented demo area: navaids, a plan of twelve exercises, aircraft, the land. Run it with QGIS's Python.

    python3 sample_layers/make.py [FOLDER]

Nothing here is real: the place is open ocean, and every ident, name, frequency and figure is made up.
"""

from __future__ import annotations

import csv
import os
import sys

import airspace
import terrain
from osgeo import gdal, ogr, osr

MADE = "2026-09-01T00:00:00.000Z"  # stands in the databases as their date, so that each run gives the same bytes

NAVAID_FIELDS = ("ident", "name", "kind", "freq", "elev_ft", "decl_deg", "class", "status")
IN_SERVICE, OUT = "in service", "out of service"
NAVAIDS = (
    # lon, lat, then NAVAID_FIELDS; declinations were set in different years, KVN's this one
    (-40.02, 43.03, "OBL", "Ombrell", "VOR/DME", "114.30", 640, -14.0, "H", IN_SERVICE),
    (-40.86, 43.42, "KVN", "Kelvane", "VORTAC", "116.80", 1210, -12.5, "H", IN_SERVICE),
    (-39.28, 43.47, "FYX", "Fyxholm", "VOR/DME", "112.55", 330, -15.0, "L", IN_SERVICE),
    (-41.02, 42.66, "YOX", "Yoxendale", "VOR/DME", "113.95", 85, -10.0, "L", IN_SERVICE),
    (-39.52, 42.50, "THK", "Thessock", "VOR", "115.20", 410, -13.0, "T", OUT),
    (-40.30, 42.38, "KUD", "Kudresh", "VOR", "109.40", 150, -16.0, "T", IN_SERVICE),
    (-39.04, 42.98, "DRV", "Druvik", "TACAN", "108.20", 905, -12.0, "H", IN_SERVICE),
    (-40.46, 43.62, "HOX", "Hoxterly", "DME", "110.70", 520, None, "L", IN_SERVICE),
    (-39.70, 43.66, "WYR", "Wyrrimar", "NDB", "352", 40, None, "MH", IN_SERVICE),
    (-41.14, 43.06, "MIV", "Mivoren", "NDB", "417", 25, None, "H", IN_SERVICE),
    (-39.92, 42.60, "BKQ", "Brakkel", "NDB/DME", "284", 260, None, "MH", IN_SERVICE),
    (-40.52, 42.92, "QEL", "Quellane", "WPT", None, None, None, None, IN_SERVICE),
    (-39.50, 43.20, "ZUV", "Zuvarra", "WPT", None, None, None, None, IN_SERVICE),
    (-38.82, 42.60, "XIL", "Xilmoor", "WPT", None, None, None, None, IN_SERVICE),
)

PLAN_FIELDS = (
    "exercise fix_method navaid navaid_kind radial_deg distance_nm distance_kind navaid_2 radial_2_deg distance_2_nm "
    "course_deg from_ident from_lat from_lon along_nm along_side lat lon north inbound_deg turn leg_min leg_nm leg_end "
    "ias_kt area_ias_kt alt_ft alt_to_ft isa_dev_c wind_from_deg wind_kt arrival_deg start_utc leave_utc efc_utc rules "
    "aircraft remarks"
).split()
PLAN_WORDS = frozenset(
    "exercise fix_method navaid navaid_kind distance_kind navaid_2 from_ident from_lat from_lon along_side lat lon "
    "north turn leg_end start_utc leave_utc efc_utc rules aircraft remarks".split()
)
PLAN = (
    dict(
        exercise="E01", fix_method="overhead", navaid="OBL", north="station", inbound_deg=90, turn="right", leg_min=1,
        ias_kt=95, alt_ft=4000, rules="icao", aircraft="Tansy", wind_from_deg=310, wind_kt=18, arrival_deg=210,
        start_utc="13:00", remarks="First hold: everything given.",
    ),
    dict(
        exercise="E02", fix_method="radial_distance", navaid="OBL", radial_deg=320, distance_nm=17, alt_ft=5000,
        remarks="Everything assumed: inbound on the radial, right turns, one minute, 90 kt.",
    ),
    dict(
        exercise="E03", fix_method="radial_distance", navaid="KVN", radial_deg=230, distance_nm=18,
        distance_kind="slant", turn="left", leg_nm=5, leg_end="dme", alt_ft=8000, alt_to_ft=10000, rules="faa",
        aircraft="Bracken", wind_from_deg=330, wind_kt=22, arrival_deg=230, start_utc="14:00", leave_utc="14:20",
        efc_utc="14:30",
        remarks="DME leg, left turns, a block of altitudes.",
    ),
    dict(
        exercise="E04", fix_method="radial_distance", navaid="FYX", radial_deg="110,5", distance_nm="14,5",
        distance_kind="ground", north="station", leg_nm=4, leg_end="along_track", ias_kt=180, area_ias_kt=200,
        alt_ft=6000, rules="icao", remarks="Leg by distance along the track; decimal commas in the table.",
    ),
    dict(
        exercise="E05", fix_method="along_track", navaid="QEL", along_nm=8, along_side="before", course_deg=250,
        north="model", turn="right", leg_min=1, alt_ft=3000, rules="icao", aircraft="Tansy",
        wind_from_deg=290, wind_kt=25, remarks="Before a waypoint on a given course.",
    ),
    dict(
        exercise="E06", fix_method="along_track", navaid="YOX", from_ident="KVN", along_nm=9, along_side="beyond",
        turn="left", alt_ft=7000, rules="icao", aircraft="Bracken",
        remarks="Beyond a navaid on the course from another.",
    ),
    dict(
        exercise="E07", fix_method="along_track", navaid="ZUV", from_lat="43°02.0'N", from_lon="039°54.0'W", along_nm=5,
        along_side="before", leg_min=1, alt_ft=2500, rules="faa", aircraft="Tansy",
        remarks="Present course from a position to a waypoint.",
    ),
    dict(
        exercise="E08", fix_method="overhead", navaid="WYR", navaid_kind="NDB", course_deg=75, turn="left", leg_min=1.5,
        ias_kt=110, alt_ft=3000, isa_dev_c=10, rules="icao", remarks="Overhead an NDB, inbound as the arrival course.",
    ),
    dict(
        exercise="E09", fix_method="coordinates", navaid="THK", lat="42°37.500'N", lon="039°07.250'W", north="true",
        inbound_deg=300, turn="right", leg_nm=3.5, leg_end="inbound_length", alt_ft=5500, rules="icao",
        aircraft="Bracken", wind_from_deg=240, wind_kt=20, arrival_deg=90,
        remarks="A place by its position, the inbound leg by its length.",
    ),
    dict(
        exercise="E10", fix_method="coordinates", lat="43.60", lon="-41.05", north="model", inbound_deg=180,
        alt_ft=15000, rules="icao", aircraft="Sorrel", remarks="Above 14 000 ft: one and a half minutes.",
    ),
    dict(
        exercise="E11", fix_method="crossing", navaid="DRV", radial_deg=20, navaid_2="FYX", distance_2_nm=23,
        distance_kind="slant", north="station", inbound_deg=20, leg_min=1.5, alt_ft=16000, alt_to_ft=18000,
        rules="faa", aircraft="Sorrel",
        remarks="Where a radial meets another station's DME arc; inbound away from the first.",
    ),
    dict(
        exercise="E12", fix_method="radial_distance", navaid="BKQ", radial_deg=200, distance_nm=9,
        distance_kind="slant", north="model", turn="left", leg_min=1, ias_kt=100, alt_ft=4500, rules="icao",
        remarks="A bearing of an NDB with the distance of its DME.",
    ),
)

AIRCRAFT_FIELDS = (
    "aircraft", "type", "registration", "ias_kt", "area_ias_kt", "equipment", "fuel_flow", "usable_fuel", "remarks",
)  # fmt: skip
AIRCRAFT = (
    ("Tansy", "single-engine trainer", "any", 95, None, "needles and stopwatch", 32, 110,
     "invented; the area for the fastest that may hold; fuel in litres"),
    ("Bracken", "twin-engine trainer", "any", 130, 170, "radial and distance; a course with sequencing suspended",
     85, 260, "invented; litres"),
    ("Sorrel", "jet trainer", "any", 210, 240, "latitude and longitude; a holding function",
     420, 700, "invented; litres"),
)

OUTLINE_FIELDS = ("name", "part", "along_nm", "across_nm", "remarks")
NOBODYS = "invented: the template of no state"
OUTLINES = tuple(
    (name, "primary", along, across, NOBODYS)
    for name, corners in (
        ("Invented small", ((3, -3), (3, 5), (1, 6), (-6, 6), (-8, 4), (-8, -2), (-6, -4), (1, -4))),
        ("Invented large", ((6, -6), (6, 9), (2, 11), (-11, 11), (-15, 8), (-15, -4), (-11, -7), (2, -7))),
    )
    for along, across in corners
)
SELECTION_FIELDS = (
    "outline", "alt_from_ft", "alt_to_ft", "ias_to_kt", "distance_from_nm", "distance_to_nm", "remarks",
)  # fmt: skip
SELECTION = (
    ("Invented small", None, 6000, 200, None, 14.9, NOBODYS),
    ("Invented large", None, 14000, 230, None, None, NOBODYS),
    ("Invented large", 14001, None, 265, None, None, NOBODYS),
)

_TYPES = {"text": ogr.OFTString, "number": ogr.OFTReal}


def number(value) -> float | None:
    """A cell as the number it means: plan.csv keeps the comma that somebody typed, plan.gpkg the number."""
    return None if value is None else float(str(value).replace(",", "."))


def write_csv(path: str, names, rows) -> None:
    """A table as comma-separated text, empty cells for None."""
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(names)
        writer.writerows([["" if value is None else value for value in row] for row in rows])


def write_gpkg(path: str, layer: str, names, words, rows, places=None) -> None:
    """A layer of a new GeoPackage: fields in words are text, the others numbers; places are (lon, lat) or None."""
    if os.path.exists(path):
        os.remove(path)
    source = ogr.GetDriverByName("GPKG").CreateDataSource(path)
    crs = osr.SpatialReference()
    crs.ImportFromEPSG(4326)
    crs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    kind = ogr.wkbNone if places is None else ogr.wkbPoint
    table = source.CreateLayer(layer, crs if places else None, kind, ["SPATIAL_INDEX=NO"])
    for name in names:
        table.CreateField(ogr.FieldDefn(name, _TYPES["text" if name in words else "number"]))
    source.StartTransaction()
    for i, row in enumerate(rows):
        feature = ogr.Feature(table.GetLayerDefn())
        for name, value in zip(names, row):
            if value is not None:
                feature.SetField(name, str(value) if name in words else number(value))
        if places:
            point = ogr.Geometry(ogr.wkbPoint)
            point.SetPoint_2D(0, *places[i])
            feature.SetGeometry(point)
        table.CreateFeature(feature)
    source.CommitTransaction()


def main(folder: str) -> None:
    """Write all sample files into a folder."""
    gdal.UseExceptions()
    ogr.UseExceptions()
    gdal.SetConfigOption("OGR_CURRENT_DATE", MADE)
    os.makedirs(folder, exist_ok=True)

    def at(name: str) -> str:
        return os.path.join(folder, name)

    stations = [row[2:] for row in NAVAIDS]
    words = {"ident", "name", "kind", "freq", "class", "status"}
    write_gpkg(at("navaids.gpkg"), "navaids", NAVAID_FIELDS, words, stations, [row[:2] for row in NAVAIDS])
    write_csv(at("navaids.csv"), ("lon", "lat", *NAVAID_FIELDS), NAVAIDS)

    exercises = [[row.get(name) for name in PLAN_FIELDS] for row in PLAN]
    write_gpkg(at("plan.gpkg"), "plan", PLAN_FIELDS, PLAN_WORDS, exercises)
    write_csv(at("plan.csv"), PLAN_FIELDS, exercises)
    write_csv(at("aircraft.csv"), AIRCRAFT_FIELDS, AIRCRAFT)

    terrain.write_raster(at("terrain.tif"))
    terrain.write_vectors(folder)
    write_csv(at("obstacles.csv"), ("lon", "lat", *terrain.OBSTACLE_FIELDS), terrain.OBSTACLES)
    airspace.write(at("airspace.gpkg"))
    write_csv(at("outlines.csv"), OUTLINE_FIELDS, OUTLINES)
    write_csv(at("outline_selection.csv"), SELECTION_FIELDS, SELECTION)


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__)))
