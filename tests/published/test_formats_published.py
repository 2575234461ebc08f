"""The files of waypoints against the standards of their formats, whatever the names are.

Sources: GPX 1.1 schema (order of elements, ranges of lon, lat and magvar); OGC 07-147r2, KML 2.2 (order of elements,
coordinates as lon,lat); RFC 7946 (GeoJSON: 3.1.6 right-hand rule, 3.1.9 antimeridian, 4 no crs, 11.2 decimals);
RFC 4180 (CSV); OWASP, CSV Injection. The orders below are the schemas', written out from memory of them.
"""

from __future__ import annotations

import csv
import io
import json
import math
import xml.dom.minidom

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

pytest.importorskip("qgis.core", reason="needs QGIS")
pytest.importorskip("osgeo.ogr", reason="needs GDAL for Python")

from fixwright.algorithms.common.safecells import safe
from fixwright.algorithms.common.waypointfiles import (
    POSITION_FORMATS,
    Place,
    Shape,
    Way,
    Waypoints,
    encoded,
)
from fixwright.geometry import wkb
from fixwright.geometry.text import parse_position
from fixwright.geometry.waypoint_names import clean, unique_names

POINT = ("ele time magvar geoidheight name cmt desc src link sym type fix sat hdop vdop pdop ageofdgpsdata dgpsid "
         "extensions").split()  # fmt: skip
GPX = {
    "gpx": ["metadata", "wpt", "rte", "trk", "extensions"],
    "metadata": ["name", "desc", "author", "copyright", "link", "time", "keywords", "bounds", "extensions"],
    "wpt": POINT, "rtept": POINT, "trkpt": POINT,
    "rte": ["name", "cmt", "desc", "src", "link", "number", "type", "extensions", "rtept"],
    "trk": ["name", "cmt", "desc", "src", "link", "number", "type", "extensions", "trkseg"],
    "trkseg": ["trkpt", "extensions"],
}  # fmt: skip
GPX_MANY = {"wpt", "rte", "trk", "rtept", "trkseg", "trkpt", "link"}
KML = {
    "kml": ["Document"],
    "Document": ["name", "description", "Style", "Schema", "Folder"],
    "Folder": ["name", "description", "Placemark"],
    "Placemark": ["name", "description", "Style", "ExtendedData", "Point", "LineString", "Polygon", "MultiGeometry"],
    "Style": ["LineStyle", "PolyStyle"],
    "Polygon": ["outerBoundaryIs", "innerBoundaryIs"],
}
KML_MANY = {"Folder", "Placemark", "innerBoundaryIs", "LineString", "Polygon", "Point"}

HOSTILE = [
    "</name><script>alert(1)</script>", "]]>", "a & b < c > \"d\" 'e'", "line\nbreak\r\n\ttab", "x" * 300,
    "שדה תעופה 12", "مطار \u202e abc", "\U0001f6e9\ufe0f\U0001f469\u200d\u2708\ufe0f", "nul\x00bell\x07esc\x1b",
    "half \ud83d", "\ufffe\uffff", "=cmd|' /C calc'!A0", "+1+1", "-2+3", "@SUM(1)", "\t=1", "", " ", "%00", "é" * 50,
    "\u2028line\u2029", "﷽" * 20,
]  # fmt: skip
NAMES = st.one_of(st.sampled_from(HOSTILE), st.text(st.characters(), max_size=40))
LON = st.one_of(
    st.sampled_from([-180.0, 180.0, 0.0, -0.0, 179.9999999999]), st.floats(-180, 180, allow_subnormal=False)
)
LAT = st.one_of(st.sampled_from([-90.0, 90.0, 0.0]), st.floats(-90, 90, allow_subnormal=False))


def shape(name, ring, kind="area"):
    coords = np.array(ring, dtype=float)
    blob = wkb.multipolygons(coords, np.array([0, len(coords)]))[0]
    return Shape(name, name, kind, "", blob, [[tuple(place) for place in ring]])


def made_of(names, places, length=None, text="it < is & so"):
    """Fixes of these names at these places, a route through them, and a small square at the first one."""
    written = unique_names(names, length=length).written
    fixes = [Place(w, clean(n), "fix", lon, lat, clean(n), 4.25) for w, n, (lon, lat) in zip(written, names, places)]
    made = Waypoints(clean(names[0]), text, fixes)
    if len(fixes) > 1:
        lon = np.unwrap([place.lon for place in fixes], period=360.0)
        lon -= 360.0 * math.floor((lon[0] + 180.0) / 360.0)
        line = np.column_stack([lon, [place.lat for place in fixes]])
        blob = wkb.multilines(line, np.array([0, len(line)]))[0]
        made.ways.append(Way(written[0], clean(names[0]), text, fixes, blob))
    x, y = places[0][0] * 0.99, places[0][1] * 0.9
    made.shapes.append(shape(written[0], [(x, y), (x + 0.01, y), (x + 0.01, y + 0.01), (x, y + 0.01), (x, y)]))
    return made


ANYTHING = st.lists(st.tuples(NAMES, st.tuples(LON, LAT)), min_size=1, max_size=6)


def children(node):
    return [child for child in node.childNodes if child.nodeType == child.ELEMENT_NODE]


def words(node):
    return "".join(
        child.data for child in node.childNodes if child.nodeType in (child.TEXT_NODE, child.CDATA_SECTION_NODE)
    )


def check_order(node, order, many):
    """Every child is known, in order, and there once where it may be there once."""
    if node.tagName in order:
        tags = [child.tagName for child in children(node)]
        assert set(tags) <= set(order[node.tagName]), (node.tagName, tags)
        places = [order[node.tagName].index(tag) for tag in tags]
        assert places == sorted(places), (node.tagName, tags)
        assert all(tags.count(tag) == 1 for tag in set(tags) - many), (node.tagName, tags)
    for child in children(node):
        check_order(child, order, many)


def check_gpx(data: bytes):
    """A document of GPX 1.1. Returns: its root."""
    root = xml.dom.minidom.parseString(data).documentElement
    assert root.tagName == "gpx" and root.namespaceURI == "http://www.topografix.com/GPX/1/1"
    assert root.getAttribute("version") == "1.1" and root.getAttribute("creator") == "Fixwright"
    check_order(root, GPX, GPX_MANY)
    for tag in ("wpt", "rtept", "trkpt"):
        for node in root.getElementsByTagName(tag):
            assert -90.0 <= float(node.getAttribute("lat")) <= 90.0
            assert -180.0 <= float(node.getAttribute("lon")) < 180.0
            assert set(node.attributes.keys()) == {"lat", "lon"}
    for node in root.getElementsByTagName("magvar"):
        assert 0.0 <= float(words(node)) < 360.0
    for node in root.getElementsByTagName("trkseg"):
        first, last = children(node)[0], children(node)[-1]
        assert (first.getAttribute("lat"), first.getAttribute("lon")) == (
            last.getAttribute("lat"),
            last.getAttribute("lon"),
        )
    return root


def apart(a, b):
    """Difference of two longitudes."""
    return abs((a - b + 180.0) % 360.0 - 180.0)


@given(ANYTHING, st.one_of(st.none(), st.integers(5, 20)))
@example([("A", (-180.0, -90.0)), ("B", (179.99999999999997, -90.0))], None)
@settings(max_examples=60)
def test_gpx_is_valid_and_reads_back(rows, length):
    names, places = [name for name, _ in rows], [place for _, place in rows]
    made = made_of(names, places, length)
    root = check_gpx(encoded(made, "gpx", "decimal"))
    found = root.getElementsByTagName("wpt")
    assert len(found) == len(rows)
    for node, place in zip(found, made.places):
        assert words(node.getElementsByTagName("name")[0]) == place.name
        assert float(node.getAttribute("lat")) == pytest.approx(place.lat, abs=1e-7)
        assert apart(float(node.getAttribute("lon")), place.lon) <= 1e-7
        assert float(words(node.getElementsByTagName("magvar")[0])) == pytest.approx(4.25, abs=0.051)
    assert "it < is & so" in words(root.getElementsByTagName("metadata")[0].getElementsByTagName("desc")[0])
    assert len({words(node.getElementsByTagName("name")[0]) for node in found}) == len(rows)


@pytest.mark.parametrize(
    ("var_deg", "said"), [(4.0, 4.0), (-4.0, 356.0), (0.0, 0.0), (-0.01, 0.0), (359.97 - 360.0, 0.0), (math.nan, None)]
)
def test_magvar_of_gpx(var_deg, said):
    """Source: GPX 1.1 schema, degreesType: 0 <= value < 360, so 4 degrees west is 356."""
    root = check_gpx(encoded(Waypoints("t", "a", [Place("A", "A", "fix", 1.0, 2.0, "", var_deg)]), "gpx", "decimal"))
    found = [float(words(node)) for node in root.getElementsByTagName("magvar")]
    assert found == ([] if said is None else [pytest.approx(said, abs=1e-6)])


def test_a_track_at_180_degrees_stays_on_its_side():
    """The western half of a shape that is split there ends a hair before 180, not at -180 on the far side."""
    half = shape("W", [(179.9, 0.0), (180.0, 0.0), (180.0, 0.1), (179.9, 0.0)])
    root = check_gpx(encoded(Waypoints("t", "a", [], [], [half]), "gpx", "decimal"))
    lons = [float(node.getAttribute("lon")) for node in root.getElementsByTagName("trkpt")]
    assert min(lons) == pytest.approx(179.9, abs=1e-9) and 180.0 - max(lons) == pytest.approx(1e-9, abs=1e-12)


@given(ANYTHING)
@settings(max_examples=40)
def test_kml_is_valid_and_reads_back(rows):
    made = made_of([name for name, _ in rows], [place for _, place in rows])
    root = xml.dom.minidom.parseString(encoded(made, "kml", "decimal")).documentElement
    assert root.namespaceURI == "http://www.opengis.net/kml/2.2"
    check_order(root, KML, KML_MANY)
    top = children(children(root)[0])
    assert [node.tagName for node in top[:2]] == ["name", "description"] and words(top[1]) == "it < is & so"
    for node in root.getElementsByTagName("coordinates"):
        for lon, lat in (map(float, pair.split(",")[:2]) for pair in words(node).split()):
            assert -180.0 <= lon <= 180.0 and -90.0 <= lat <= 90.0
    for ring in root.getElementsByTagName("LinearRing"):
        pairs = words(ring.getElementsByTagName("coordinates")[0]).split()
        assert pairs[0] == pairs[-1] and len(pairs) >= 4
    points = [mark for mark in root.getElementsByTagName("Placemark") if mark.getElementsByTagName("Point")]
    assert len(points) == len(rows)
    for mark, place in zip(points, made.places):
        assert words(mark.getElementsByTagName("name")[0]) == place.name
        lon, lat = map(float, words(mark.getElementsByTagName("coordinates")[0]).split(",")[:2])
        assert apart(lon, place.lon) <= 1e-7 and lat == pytest.approx(place.lat, abs=1e-7)
        # a viewer shows a description as HTML: what a name holds must stay text there too
        assert "<" not in words(mark.getElementsByTagName("description")[0] if mark.getElementsByTagName("description")
                                else mark.ownerDocument.createElement("none"))  # fmt: skip


def rings_of(geometry):
    if geometry["type"] == "Polygon":
        return [geometry["coordinates"]]
    return geometry["coordinates"] if geometry["type"] == "MultiPolygon" else []


def signed_area(ring):
    x0, y0 = ring[0]
    return sum((a[0] - x0) * (b[1] - y0) - (b[0] - x0) * (a[1] - y0) for a, b in zip(ring, ring[1:])) / 2.0


def check_geojson(data: bytes):
    """A FeatureCollection of RFC 7946. Returns: its features."""
    made = json.loads(data.decode("utf-8"))
    assert made["type"] == "FeatureCollection" and "crs" not in made  # 4
    for feature in made["features"]:
        assert feature["type"] == "Feature" and "crs" not in feature
        if feature["geometry"] is None:  # 3.2: a feature without a place
            continue
        flat = np.array(list(positions(feature["geometry"]["coordinates"])))
        assert (np.abs(flat[:, 0]) <= 180.0).all() and (np.abs(flat[:, 1]) <= 90.0).all()  # 3.1.1
        for polygon in rings_of(feature["geometry"]):
            for number, ring in enumerate(polygon):
                assert len(ring) >= 4 and ring[0] == ring[-1]  # 3.1.6
                assert signed_area(ring) > 0.0 if number == 0 else signed_area(ring) < 0.0
        for line in lines_of(feature["geometry"]):  # 3.1.9: no part of anything crosses the antimeridian
            assert all(abs(a[0] - b[0]) <= 180.0 for a, b in zip(line, line[1:]))
    return made


def positions(coordinates):
    if coordinates and isinstance(coordinates[0], (int, float)):
        yield coordinates
    else:
        for part in coordinates:
            yield from positions(part)


def lines_of(geometry):
    kind, coordinates = geometry["type"], geometry["coordinates"]
    if kind == "LineString":
        return [coordinates]
    if kind == "MultiLineString":
        return coordinates
    return [ring for polygon in rings_of(geometry) for ring in polygon]


def all_in_one_place(places):
    """Nothing of a line through these places is left in eight decimals."""
    (lon, lat), *others = places
    return all(apart(x, lon) <= 2e-8 and abs(y - lat) <= 2e-8 for x, y in others)


@given(ANYTHING)
@example([("A", (-180.0, -90.0)), ("B", (179.9999999999, -90.0))])
@example([("A", (-180.0, -90.0)), ("B", (179.9999999999, -90.0)), ("C", (-1.0, -90.0))])
@example([("A", (-180.0, -10.099999859463054))])
@example([("A", (-180.0, 90.0)), ("B", (-180.0, -90.0)), ("C", (-180.0, 90.0))])
@settings(max_examples=60)
def test_geojson_is_valid_and_reads_back(rows):
    made = made_of([name for name, _ in rows], [place for _, place in rows])
    places = [place for _, place in rows]
    read = check_geojson(encoded(made, "geojson", "decimal"))
    assert read["description"] == "it < is & so"
    points = [feature for feature in read["features"] if feature["properties"]["kind"] == "fix"]
    assert len(points) == len(rows)
    kinds = {"fix": {"Point"}, "route": {"LineString", "MultiLineString"}, "area": {"Polygon", "MultiPolygon"}}
    for feature in read["features"]:
        kind, geometry = feature["properties"]["kind"], feature["geometry"]
        if geometry is None:
            assert kind == "route" and all_in_one_place(places)
        else:
            assert geometry["type"] in kinds[kind]
    for feature, place in zip(points, made.places):
        assert feature["properties"]["name"] == place.name
        assert (feature["properties"]["full_name"] or "") == place.full
        lon, lat = feature["geometry"]["coordinates"]
        assert apart(lon, place.lon) <= 1e-7 and lat == pytest.approx(place.lat, abs=1e-7)


def test_geojson_of_polygons_with_holes_and_halves():
    """RFC 7946, 3.1.6 and 3.1.9."""
    from qgis.core import QgsGeometry

    from fixwright.algorithms.common.exportrows import oriented
    from fixwright.algorithms.common.exportrows import rings_of as all_rings

    wkt = ("MULTIPOLYGON(((0 0,0 9,9 9,9 0,0 0),(2 2,4 2,4 4,2 2)),"
           "((179 0,179 1,180 1,180 0,179 0)),((-180 0,-180 1,-179 1,-179 0,-180 0)))")  # fmt: skip
    geometry = oriented(QgsGeometry.fromWkt(wkt))
    one = Shape("A", "A", "area", "", geometry.asWkb().data(), all_rings(geometry))
    read = check_geojson(encoded(Waypoints("t", "a", [], [], [one]), "geojson", "decimal"))
    (feature,) = read["features"]
    assert [len(polygon) for polygon in feature["geometry"]["coordinates"]] == [2, 1, 1]
    # KML 2.2, 10.8: outer boundaries counter-clockwise
    root = xml.dom.minidom.parseString(encoded(Waypoints("t", "a", [], [], [one]), "kml", "decimal"))
    for outer in root.getElementsByTagName("outerBoundaryIs"):
        pairs = words(outer.getElementsByTagName("coordinates")[0]).split()
        assert signed_area([tuple(map(float, pair.split(",")[:2])) for pair in pairs]) > 0.0


def test_a_line_across_the_antimeridian_is_cut():
    """RFC 7946, 3.1.9, whose own example is a line from 170 east to 170 west."""
    line = np.array([(170.0, 45.0), (190.0, 45.0)])
    way = Way("A", "A", "", [], wkb.multilines(line, np.array([0, 2]))[0])
    read = check_geojson(encoded(Waypoints("t", "a", [], [way], []), "geojson", "decimal"))
    assert read["features"][0]["geometry"]["coordinates"] == [
        [[170.0, 45.0], [180.0, 45.0]], [[-180.0, 45.0], [-170.0, 45.0]],
    ]  # fmt: skip


ERROR_DEG = {"decimal": 1e-7, "dm3": 0.5001e-3 / 60, "dm2": 0.5001e-2 / 60, "dms": 0.5001e-1 / 3600}
"""Half of the last decimal of each position format."""


@given(ANYTHING, st.sampled_from(sorted(POSITION_FORMATS)))
@settings(max_examples=60)
def test_csv_reads_back_and_holds_no_formula(rows, position_format):
    made = made_of([name for name, _ in rows], [place for _, place in rows])
    data = encoded(made, "csv", position_format).decode("utf-8")
    read = list(csv.DictReader(io.StringIO(data, newline=""), strict=True))
    fixes = [row for row in read if row["kind"] == "fix"]
    assert len(fixes) == len(rows)
    for row, place in zip(fixes, made.places):
        assert None not in row and None not in row.values()
        assert row["name"] == safe(place.name) and row["full_name"] == safe(place.full)
        lon, lat = parse_position(f"{row['latitude']}, {row['longitude']}" if position_format == "decimal"
                                  else f"{row['latitude']} {row['longitude']}")  # fmt: skip
        assert lat == pytest.approx(place.lat, abs=ERROR_DEG[position_format])
        assert apart(lon, place.lon) <= ERROR_DEG[position_format]
    for row in read:
        for name in ("kind", "name", "full_name", "description", "note"):
            assert not row[name].lstrip().startswith(("=", "+", "-", "@", "\t", "\r")) or is_number(row[name])
        if position_format == "decimal":
            float(row["latitude"]), float(row["longitude"])


def is_number(cell):
    try:
        float(cell)
    except ValueError:
        return False
    return True


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("=1+1", "'=1+1"), ("+SUM(A1)", "'+SUM(A1)"), ("-2+3", "'-2+3"), ("@A1", "'@A1"), ("\t=1", "'\t=1"),
        ("\r=1", "'\r=1"), (" =1", "' =1"), ("＝1", "'＝1"), ("-10.5", "-10.5"), ("+3", "+3"), ("-1e-7", "-1e-7"),
        (-10.5, -10.5), (7, 7), (None, None), ("", ""), ("QZB R305", "QZB R305"), ("-", "'-"), ("a=b", "a=b"),
    ],
)  # fmt: skip
def test_safe_cells(cell, said):
    """Source: OWASP, CSV Injection. Numbers stay numbers."""
    assert safe(cell) == said
