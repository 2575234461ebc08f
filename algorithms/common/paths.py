"""Shapes of rows as lists of paths in WGS 84: curves cut, rings made sound, what cannot be used refused in words."""

from __future__ import annotations

import math
import struct

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsGeometry,
    QgsUnitTypes,
    QgsWkbTypes,
)

from .texts import tr

POLYGON, LINE, POINT = (
    QgsWkbTypes.GeometryType.PolygonGeometry,
    QgsWkbTypes.GeometryType.LineGeometry,
    QgsWkbTypes.GeometryType.PointGeometry,
)
LONGEST_EDGE_M = 2000.0
"""Edges of layers in metres are cut to it before they are brought into degrees, so that they stay where they were."""

_ASKED = {POLYGON: "polygon", LINE: "line", POINT: "point"}
_CODES = {1: POINT, 2: LINE, 3: POLYGON}
_LEAST = {POLYGON: 3, LINE: 2, POINT: 1}


class ToPaths:
    """Brings shapes of one layer into WGS 84. kind: POLYGON, LINE or POINT."""

    def __init__(self, crs: QgsCoordinateReferenceSystem, kind, context):
        self.kind = kind
        target = QgsCoordinateReferenceSystem("EPSG:4326")
        self._transform = None if crs == target else QgsCoordinateTransform(crs, target, context.transformContext())
        self._longest = 0.0
        if not crs.isGeographic() and kind != POINT:
            metre = QgsUnitTypes.fromUnitToUnitFactor(QgsUnitTypes.DistanceUnit.DistanceMeters, crs.mapUnits())
            self._longest = LONGEST_EDGE_M * metre

    def __call__(self, geometry: QgsGeometry) -> tuple[list, str, str]:
        """(paths, note, reason) of a row's shape.

        paths: lists of rings (M, 2) of lon, lat, a polygon each; of lines and points a list of one path each. note:
        what was mended; reason: why it cannot be used, '' where it can.
        """
        import numpy as np

        if geometry.isNull() or geometry.isEmpty():
            return [], "", tr("the row has no shape")
        found = QgsWkbTypes.geometryType(geometry.wkbType())
        if found not in (self.kind, QgsWkbTypes.GeometryType.UnknownGeometry):
            shown = QgsWkbTypes.displayString(geometry.wkbType())
            return [], "", tr("the row's shape is a {}, not a {}").format(shown, tr(_ASKED[self.kind]))
        try:
            paths = _paths(self._straight(geometry), self.kind)
        except QgsCsException:
            return [], "", tr("the shape cannot be brought into WGS 84 longitude and latitude")
        if not paths:
            return [], "", tr("the row has no {}").format(tr(_ASKED[self.kind]))
        places = np.concatenate([path for part in paths for path in part])
        if not np.isfinite(places).all() or (np.abs(places[:, 1]) > 90.0).any():
            return [], "", tr("the shape has a vertex that is no place on the earth")
        return _sound(paths) if self.kind == POLYGON else (paths, "", "")

    def _straight(self, geometry: QgsGeometry) -> QgsGeometry:
        """Two coordinates a vertex, curves as short chords, in WGS 84."""
        geometry = QgsGeometry(geometry)
        if QgsWkbTypes.isCurvedType(geometry.wkbType()):
            geometry = QgsGeometry(geometry.constGet().segmentize())
        geometry.get().dropZValue()
        geometry.get().dropMValue()
        if self._longest > 0.0:
            geometry = geometry.densifyByDistance(self._longest)
        if self._transform is not None:
            geometry.transform(self._transform)
        return geometry


def _paths(geometry: QgsGeometry, kind) -> list:
    """The parts of a kind, however nested; those with too few vertices are left out."""
    blob = geometry.asWkb().data()
    out: list = []
    _read(blob, 0, kind, out)
    return out


def _read(blob: bytes, at: int, kind, out: list) -> int:
    """Read one shape of a WKB text from a place on. Returns: where the next begins."""
    import numpy as np

    code = struct.unpack_from("<I", blob, at + 1)[0]
    at += 5
    if code == 1:
        rings, at = [np.frombuffer(blob, "<f8", 2, at).reshape(1, 2)], at + 16
    elif code in (2, 3):
        count = 1
        if code == 3:
            count, at = struct.unpack_from("<I", blob, at)[0], at + 4
        rings = []
        for _ in range(count):
            size, at = struct.unpack_from("<I", blob, at)[0], at + 4
            rings.append(np.frombuffer(blob, "<f8", 2 * size, at).reshape(-1, 2))
            at += 16 * size
    elif code > 7:  # surfaces made of triangles: nothing of the trade
        return len(blob)
    else:
        count, at = struct.unpack_from("<I", blob, at)[0], at + 4
        for _ in range(count):
            at = _read(blob, at, kind, out)
        return at
    rings = [ring for ring in rings if len(ring) >= _LEAST[kind] and not (kind == POINT and math.isnan(ring[0, 0]))]
    if _CODES[code] == kind and rings:
        out.append(rings)
    return at


def _sound(paths: list) -> tuple[list, str, str]:
    """Polygons whose rings run on across the 180th meridian, and neither cross themselves nor each other."""
    from ...geometry.shapes import goes_round_a_pole, running_on

    if any(goes_round_a_pole(ring) for rings in paths for ring in rings):
        return [], "", tr("its ring goes round a pole")
    paths = [[running_on(ring) for ring in rings] for rings in paths]
    geometry = QgsGeometry()
    geometry.fromWkb(_multipolygon(paths))
    if geometry.isGeosValid():
        return paths, "", ""
    faults = [fault.what() for fault in geometry.validateGeometry()]
    mended = _paths(_covered(paths), POLYGON)
    if not mended:
        return [], "", tr("its rings enclose nothing")
    what = faults[0] if faults else tr("it was not valid")
    return mended, tr("its shape was not valid and was repaired ({})").format(what), ""


def _covered(paths: list) -> QgsGeometry:
    """All that polygons cover whose rings cross: a repair never takes away what any of them encloses.

    QGIS's own leaves out what two parts share and what a ring runs round twice.
    """
    parts = []
    for rings in paths:
        shape = _enclosed(rings[0])
        for ring in rings[1:]:  # a hole; one that lies beyond the outer ring is a part of its own
            shape = shape.symDifference(_enclosed(ring))
        parts.append(shape)
    return QgsGeometry.unaryUnion(parts)


def _enclosed(ring) -> QgsGeometry:
    """What a ring runs round, however often; an empty shape where that is nothing."""
    from ...geometry.shapes import winding

    whole = QgsGeometry()
    whole.fromWkb(_multipolygon([[ring]]))
    if whole.isGeosValid():
        return whole
    line = QgsGeometry()
    line.fromWkb(struct.pack("<BII", 1, 2, len(ring)) + ring.astype("<f8").tobytes())
    faces = QgsGeometry.polygonize([QgsGeometry.unaryUnion([line])]).asGeometryCollection()
    inner = [(face, face.pointOnSurface().asPoint()) for face in faces]
    return QgsGeometry.unaryUnion([face for face, at in inner if winding(ring, at.x(), at.y())])


def _multipolygon(paths: list) -> bytes:
    import numpy as np

    parts = []
    for rings in paths:
        body = b"".join(struct.pack("<I", len(ring)) + np.ascontiguousarray(ring, "<f8").tobytes() for ring in rings)
        parts.append(struct.pack("<BII", 1, 3, len(rings)) + body)
    return struct.pack("<BII", 1, 6, len(parts)) + b"".join(parts)
