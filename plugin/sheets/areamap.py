"""The areas of a hold on its map: the basic one tinted, the edges of those about it with the clearance written there.

Of areas that lie ring by ring about each other only the outer edges are drawn: an inner one is its neighbour's.
"""

from __future__ import annotations

import math

from qgis.core import (
    QgsFeature,
    QgsFillSymbol,
    QgsGeometry,
    QgsLabeling,
    QgsLabelObstacleSettings,
    QgsLineSymbol,
    QgsPalLayerSettings,
    QgsSingleSymbolRenderer,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
)
from qgis.PyQt.QtGui import QColor

from ...algorithms.common.texts import tr
from ...geometry import text
from ..styles import inks
from . import picture
from .content import every, row_of
from .figures import Row

INNER = ("basic", "primary")
"""Parts of areas that a map is drawn to show whole; rings about them may run off it."""
TINT = 0.15
ENVELOPE = {"line_color": inks.GREY, "line_width": str(inks.AREA_MM), "line_style": "dash dot"}
EDGES = {
    "entry": {"line_width": str(inks.AREA_MM), "use_custom_dash": "1", "customdash": "2.4;1.2"},
    "secondary": {"line_width": str(inks.AREA_MM), "use_custom_dash": "1", "customdash": "6;1.2"},
    "buffer": {"line_width": str(inks.BUFFER_MM), "line_style": "dot"},
    "": {"line_width": str(inks.AREA_MM)},
}
"""Lines of parts; a part is known by how its name begins."""


def inner(areas: QgsVectorLayer) -> list[QgsFeature]:
    """The basic or primary areas of a layer."""
    return [feature for feature in every(areas) if row_of(feature).word("part") in INNER]


def tinted(local: picture.Local, areas: QgsVectorLayer) -> list[QgsVectorLayer]:
    """The basic or primary areas as a quiet fill; an envelope with an edge of its own."""
    made = []
    for envelope in (False, True):
        shapes = [f for f in inner(areas) if (row_of(f).word("construction") == "envelope") == envelope]
        if shapes:
            layer = local.layer("MultiPolygon", "area", None, [_bare(shape) for shape in shapes])
            edge = ENVELOPE if envelope else {"line_color": inks.SKY, "line_width": str(inks.AREA_MM)}
            color = QColor(edge["line_color"])
            color.setAlphaF(TINT)
            symbol = QgsFillSymbol.createSimple(
                {
                    "color": ",".join(str(value) for value in color.getRgb()),
                    "outline_color": edge["line_color"],
                    "outline_width": edge["line_width"],
                    "outline_style": edge.get("line_style", "solid"),
                }
            )
            layer.setRenderer(QgsSingleSymbolRenderer(symbol))
            made.append(layer)
    return made


def edges(local: picture.Local, areas: QgsVectorLayer) -> list[QgsVectorLayer]:
    """The outer edges of all other parts, the clearance on each."""
    made = []
    for begins, line in EDGES.items():
        features = [f for f in every(areas) if _kind(row_of(f)) == begins]
        if not features:
            continue
        layer = local.layer("MultiLineString?field=label:string", "edge", None, [])
        for feature in features:
            drawn = QgsFeature(layer.fields())
            drawn.setGeometry(_outer(feature.geometry()))
            drawn.setAttributes([_clearance(row_of(feature))])
            layer.dataProvider().addFeatures([drawn])
        layer.updateExtents()
        layer.setRenderer(QgsSingleSymbolRenderer(QgsLineSymbol.createSimple({"line_color": inks.GREY, **line})))
        settings = picture.label_settings(inks.NOTE_PT, "label", ink=inks.GREY)
        settings.placement = QgsPalLayerSettings.Placement.Line
        settings.lineSettings().setPlacementFlags(QgsLabeling.LinePlacementFlag.OnLine)
        settings.priority = 1
        free = QgsLabelObstacleSettings()
        free.setIsObstacle(False)
        settings.setObstacleSettings(free)
        layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
        layer.setLabelsEnabled(True)
        made.append(layer)
    return made


def _kind(row: Row) -> str | None:
    part = row.word("part")
    return None if part in INNER else next(begins for begins in EDGES if part.startswith(begins))


def _clearance(row: Row) -> str:
    """'entry 984 ft', '492 ft'; '' where it is not known."""
    if not math.isfinite(row.number("moc_ft")):
        return ""
    feet, part = text.format_altitude(row.number("moc_ft")), row.word("part")
    if part == "secondary":
        return tr("secondary {} to 0").format(feet)
    return tr("entry {}").format(feet) if part == "entry" else feet


def _bare(feature: QgsFeature) -> QgsFeature:
    made = QgsFeature()
    geometry = QgsGeometry(feature.geometry())
    geometry.convertToMultiType()
    made.setGeometry(geometry)
    return made


def _outer(geometry: QgsGeometry) -> QgsGeometry:
    """Outer rings of polygons as lines."""
    whole = QgsGeometry(geometry)
    whole.convertToMultiType()
    return QgsGeometry.fromMultiPolylineXY([rings[0] for rings in whole.asMultiPolygon() if rings])
