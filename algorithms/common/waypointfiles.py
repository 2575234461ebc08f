"""Places, routes and areas as files of open formats: GPX 1.1, KML 2.2, GeoJSON (RFC 7946), CSV.

Source: GPX 1.1 schema (order of elements; longitude -180 <= lon < 180; magvar 0 <= value < 360); OGC 07-147r2, KML 2.2;
RFC 7946; RFC 4180.
"""

from __future__ import annotations

import html
import math
import re
import struct
from dataclasses import dataclass, field
from typing import NamedTuple

from qgis.core import QgsGeometry

from .gdalfiles import MemoryFile
from .safecells import safe
from .texts import tr

ENDINGS = {"gpx": "gpx", "kml": "kml", "geojson": "geojson", "csv": "csv"}
"""Formats, and how their files end."""

POSITION_FORMATS = {"decimal": ("decimal", 9), "dm2": ("dm", 2), "dm3": ("dm", 3), "dms": ("dms", 1)}
"""Ways to write a position in a CSV file: style and decimals of geometry.text."""

GEOJSON_STEP_DEG = 1e-8
"""The last decimal written, a millimetre: with a decimal less GDAL's tidying of ...99 would cost up to 2e-7 degrees."""

JUST_WEST_OF_180 = 180.0 - 1e-9
"""A tenth of a millimetre off the meridian, as fifteen digits can still tell: GPX has no longitude of 180, and -180
would draw a line round the earth."""

_ROUTE_PEN, _AREA_PEN, _AREA_BRUSH = "PEN(c:#0072B2FF,w:2px)", "PEN(c:#56B4E9FF,w:2px)", "BRUSH(fc:#56B4E926)"
"""Colours of the set of Okabe and Ito, Color Universal Design, as our layers have them."""


class Place(NamedTuple):
    """A waypoint: name as written, full name, what it is, lon, lat, a description, variation (NaN: none)."""

    name: str
    full: str
    kind: str
    lon: float
    lat: float
    text: str = ""
    var_deg: float = math.nan


class Way(NamedTuple):
    """A route: name, full name, description, its places in order, and the line as drawn: WKB, split at 180 degrees."""

    name: str
    full: str
    text: str
    places: list[Place]
    line: bytes


class Shape(NamedTuple):
    """A closed shape: name, full name, what it is, description, WKB of its polygons, and its rings of lon, lat."""

    name: str
    full: str
    kind: str
    text: str
    wkb: bytes
    rings: list[list[tuple[float, float]]]


@dataclass
class Waypoints:
    """What goes into a file."""

    title: str
    about: str
    places: list[Place] = field(default_factory=list)
    ways: list[Way] = field(default_factory=list)
    shapes: list[Shape] = field(default_factory=list)

    def __bool__(self) -> bool:
        return bool(self.places or self.ways or self.shapes)


def encoded(waypoints: Waypoints, kind: str, position_format: str) -> bytes:
    """The whole file. kind, one of ENDINGS; position_format, one of POSITION_FORMATS, for CSV only.

    Errors: QgsProcessingException where GDAL cannot make it.
    """
    if kind == "csv":
        return _csv(waypoints, position_format)
    return {"gpx": _gpx, "kml": _kml, "geojson": _geojson}[kind](waypoints)


# GPX


def _gpx(waypoints: Waypoints) -> bytes:
    from osgeo import ogr

    with MemoryFile("GPX", "gpx") as file:
        if waypoints.places:
            layer = file.layer("waypoints", ogr.wkbPoint)
            for place in waypoints.places:
                file.write(layer, *_gpx_point(place))
        if waypoints.ways:
            layer = file.layer("route_points", ogr.wkbPoint)
            for number, way in enumerate(waypoints.ways):
                for order, place in enumerate(way.places):
                    wkb, values = _gpx_point(place)
                    values.update(route_fid=number, route_point_id=order, route_name=way.name)
                    file.write(layer, wkb, values)
        if waypoints.shapes:
            layer = file.layer("tracks", ogr.wkbMultiLineString)
            for shape in waypoints.shapes:
                values = {"name": shape.name, "desc": _described(shape), "type": shape.kind}
                file.write(layer, _gpx_track(shape.rings), values)
        data = file.data()
    title = f"<name>{html.escape(waypoints.title)}</name><desc>{html.escape(waypoints.about)}</desc>".encode()
    data = re.sub(rb'creator="[^"]*"', b'creator="Fixwright"', data, count=1)
    if b"<metadata>" in data:
        return data.replace(b"<metadata>", b"<metadata>" + title, 1)
    return re.sub(rb"(<gpx [^>]*>)", lambda found: found[1] + b"\n<metadata>" + title + b"</metadata>", data, count=1)


def _gpx_point(place: Place) -> tuple[bytes, dict]:
    values = {"name": place.name, "desc": _described(place), "type": place.kind}
    if math.isfinite(place.var_deg):
        values["magvar"] = round(place.var_deg % 360.0, 1) % 360.0
    lon = -180.0 if place.lon > JUST_WEST_OF_180 else place.lon
    return _point(lon, place.lat), {name: value for name, value in values.items() if value != ""}


def _gpx_track(rings: list[list[tuple[float, float]]]) -> bytes:
    """Rings as the segments of a track."""
    import numpy as np

    from ...geometry import wkb

    coords = np.concatenate([np.asarray(ring, dtype=float) for ring in rings])
    coords[coords[:, 0] > JUST_WEST_OF_180, 0] = JUST_WEST_OF_180
    offsets = np.cumsum([0, *map(len, rings)])
    return wkb.multilines(coords, offsets, [0, len(rings)])[0]


# KML


def _kml(waypoints: Waypoints) -> bytes:
    from osgeo import ogr

    with MemoryFile("KML", "kml") as file:
        for title, items in ((tr("Fixes"), waypoints.places), (tr("Routes"), waypoints.ways),
                             (tr("Areas"), waypoints.shapes)):  # fmt: skip
            if not items:
                continue
            layer = file.layer(title, ogr.wkbUnknown, ("Name", "Description"))
            for item in items:
                values = {"Name": item.name, "Description": html.escape(_described(item))}
                file.write(layer, _wkb_of(item), values, _style_of(item))
        data = file.data()
    about = f"<name>{html.escape(waypoints.title)}</name><description>{html.escape(waypoints.about)}</description>"
    return re.sub(rb"(<Document[^>]*>)", lambda found: found[1] + about.encode(), data, count=1)


def _style_of(item) -> str:
    if isinstance(item, Place):
        return ""
    return _ROUTE_PEN if isinstance(item, Way) else f"{_AREA_PEN};{_AREA_BRUSH}"


# GeoJSON


def _geojson(waypoints: Waypoints) -> bytes:
    from osgeo import ogr

    # our shapes are cut at 180 degrees already; GDAL would lose those that run along it
    options = ("RFC7946=YES", "WRAPDATELINE=NO", "COORDINATE_PRECISION=8", f"DESCRIPTION={waypoints.about}")
    with MemoryFile("GeoJSON", "geojson") as file:
        layer = file.layer(waypoints.title, ogr.wkbUnknown, ("name", "kind", "full_name", "description"), options)
        for item in (*waypoints.places, *waypoints.ways, *waypoints.shapes):
            kind = "route" if isinstance(item, Way) else item.kind
            values = {"name": item.name, "kind": kind, "full_name": item.full, "description": item.text}
            file.write(layer, _wkb_of(item) if isinstance(item, Place) else _on_grid(_wkb_of(item)), values)
        return file.data()


def _on_grid(blob: bytes) -> bytes | None:
    """A line or polygons without the parts that vanish in the decimals written; None where nothing is left.

    A cut at 180 degrees can leave such slivers, and newer releases of GDAL turn them into shapes of another kind.
    None becomes a feature without a place (RFC 7946, 3.2).
    """
    whole = QgsGeometry()
    whole.fromWkb(blob)
    parts = [QgsGeometry(part.clone()) for part in whole.constParts()]
    kept = [part for part in parts if _survives(part)]
    return QgsGeometry.collectGeometry(kept).asWkb().data() if kept else None


def _survives(part: QgsGeometry) -> bool:
    """Whether a line keeps two different ends, or a polygon some area, in the decimals written."""
    if part.constGet().dimension() == 1:
        box = part.boundingBox()
        return max(box.width(), box.height()) > GEOJSON_STEP_DEG
    return part.snappedToGrid(GEOJSON_STEP_DEG, GEOJSON_STEP_DEG).area() > GEOJSON_STEP_DEG**2


# CSV


def _csv(waypoints: Waypoints, position_format: str) -> bytes:
    from osgeo import ogr

    names = ("kind", "name", "part", "number", "latitude", "longitude", "variation_deg", "full_name", "description",
             "note")  # fmt: skip
    note = tr("For training and briefing, not for navigation.")

    def row(kind: str, name: str, part, number, place: Place) -> dict:
        latitude, longitude = _written(place.lon, place.lat, position_format)
        variation = f"{place.var_deg:.1f}" if math.isfinite(place.var_deg) else ""
        cells = (kind, name, str(part), str(number), latitude, longitude, variation, place.full, place.text, note)
        return {key: safe(cell) for key, cell in zip(names, cells)}

    with MemoryFile("CSV", "csv") as file:
        options = ("STRING_QUOTING=IF_NEEDED", "LINEFORMAT=CRLF")
        layer = file.layer("waypoints", ogr.wkbNone, names, options, table=True)
        for place in waypoints.places:
            file.write(layer, None, row(place.kind, place.name, "", "", place))
        for way in waypoints.ways:
            for number, place in enumerate(way.places, 1):
                file.write(layer, None, row("route", place.name, way.name, number, place))
        for shape in waypoints.shapes:
            if shape.kind == "pattern":  # its corners stand in the route; a curve's vertices are nobody's waypoints
                continue
            for part, ring in enumerate(shape.rings, 1):
                for number, (lon, lat) in enumerate(ring, 1):
                    corner = Place(shape.name, shape.full, shape.kind, lon, lat, shape.text)
                    file.write(layer, None, row(shape.kind, shape.name, part, number, corner))
        return file.data()


def _written(lon: float, lat: float, position_format: str) -> tuple[str, str]:
    """Latitude and longitude as text."""
    from ...geometry import text

    style, digits = POSITION_FORMATS[position_format]
    latitude, longitude = text.format_position(lon, lat, style, digits).split(" ")
    return latitude.rstrip(","), longitude


# Shapes


def _described(item) -> str:
    """The description, with the full name before it where the name as written is another."""
    parts = [item.full if item.full != item.name else "", item.text]
    return ". ".join(part for part in parts if part)


def _wkb_of(item) -> bytes:
    if isinstance(item, Place):
        return _point(item.lon, item.lat)
    return item.line if isinstance(item, Way) else item.wkb


def _point(lon: float, lat: float) -> bytes:
    """Little-endian WKB of a point."""
    return struct.pack("<BIdd", 1, 1, lon, lat)
