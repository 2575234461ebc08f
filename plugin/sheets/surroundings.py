"""What lies round a hold on its map: airspace, terrain, a base map; the hatch of one that fails; entry, arrival."""

from __future__ import annotations

import math

from qgis.core import (
    QgsFeature,
    QgsFillSymbol,
    QgsGeometry,
    QgsLinePatternFillSymbolLayer,
    QgsLineSymbol,
    QgsMapLayer,
    QgsMarkerLineSymbolLayer,
    QgsMarkerSymbol,
    QgsRectangle,
    QgsSimpleLineSymbolLayer,
    QgsSingleSymbolRenderer,
    QgsUnitTypes,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
    QgsWkbTypes,
)
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtGui import QColor, QTransform

from ...geometry import text
from ..styles import inks
from . import figures, picture
from .content import Content, every, row_of
from .figures import Row

INNER_MM, HATCH_MM = 1.6, 1.0
ARROW_MM, ARROWS_MM = 2.6, 14.0
TRIANGLE_MM = 3.2


def beneath(content: Content) -> list[QgsMapLayer]:
    """Terrain shading and the user's own base map, which everything else lies on."""
    return list(content.under)


def airspace(content: Content, local: picture.Local, seen: QgsRectangle) -> list[QgsVectorLayer]:
    """Other people's airspace on a map: edges with an inner hatch, name and limits written."""
    found = []
    for source in content.airspace:
        features = []
        for feature in every(source):
            row = row_of(feature)
            name, lower, upper = (row.word(key) for key in ("name", "lower", "upper"))
            limits = "–".join(part for part in (lower, upper) if part)
            along = source.geometryType() == QgsWkbTypes.GeometryType.LineGeometry
            features.append((feature, (", " if along else "\n").join(part for part in (name, limits) if part)))
        found += _airspace_layers(local, source, features, seen)
    return found


def _airspace_layers(local: picture.Local, source: QgsVectorLayer, features, seen: QgsRectangle):
    kind = source.geometryType()
    shape = {
        QgsWkbTypes.GeometryType.PointGeometry: "Point",
        QgsWkbTypes.GeometryType.LineGeometry: "MultiLineString",
        QgsWkbTypes.GeometryType.PolygonGeometry: "MultiPolygon",
    }.get(kind)
    if shape is None:
        return []
    transform = local.transform(source.crs())
    layer = local.layer(f"{shape}?field=label:string", "airspace", None, [])
    moved = []
    for feature, label in features:
        geometry = QgsGeometry(feature.geometry())
        if geometry.isNull() or geometry.transform(transform) != QgsGeometry.OperationResult.Success:
            continue
        geometry = picture.joined(geometry)
        if not geometry.boundingBox().intersects(seen):
            continue
        if kind != QgsWkbTypes.GeometryType.PointGeometry:
            geometry.convertToMultiType()
        made = QgsFeature(layer.fields())
        made.setGeometry(geometry)
        made.setAttributes([label])
        moved.append(made)
    if not moved:
        return []
    layer.dataProvider().addFeatures(moved)
    layer.updateExtents()
    layer.setRenderer(QgsSingleSymbolRenderer(_airspace_symbol(shape)))
    settings = picture.label_settings(inks.NOTE_PT, "label")
    if shape == "MultiPolygon":
        settings.placement = type(settings).Placement.Horizontal
    elif shape == "MultiLineString":
        settings.placement = type(settings).Placement.Line
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
    layer.setLabelsEnabled(True)
    return [layer]


def _airspace_symbol(shape: str):
    if shape == "Point":
        return QgsMarkerSymbol.createSimple(
            {"name": "diamond", "size": "3", "color": inks.WHITE, "outline_color": inks.PURPLE, "outline_width": "0.4"}
        )
    if shape == "MultiLineString":
        return QgsLineSymbol.createSimple({"line_color": inks.PURPLE, "line_width": "0.4", "line_style": "dash dot"})
    fill = QgsFillSymbol.createSimple(
        {"style": "no", "outline_color": inks.PURPLE, "outline_width": "0.4", "outline_style": "solid"}
    )
    inner = QgsSimpleLineSymbolLayer(QColor(inks.PURPLE), INNER_MM)
    inner.setUseCustomDashPattern(True)
    inner.setCustomDashVector([0.2, HATCH_MM])
    inner.setPenCapStyle(Qt.PenCapStyle.FlatCap)
    inner.setOffset(INNER_MM / 2.0)
    inner.setDrawInsidePolygon(True)
    fill.appendSymbolLayer(inner)
    return fill


def controlling(content: Content, local: picture.Local, hold: Row) -> list[QgsVectorLayer]:
    """The obstacle or the ground that controls the minimum altitude: a filled triangle with its elevation."""
    rows = content.features["controlling"].get(hold.word("hold"), [])
    found = [feature for feature in rows if row_of(feature).number("controls") == 1.0]
    if not found:
        return []
    layer = local.layer("Point?field=label:string", "controlling", None, [])
    moved = local.copy(content.layers["controlling"], found)
    for feature in every(moved):
        drawn = QgsFeature(layer.fields())
        drawn.setGeometry(feature.geometry())
        drawn.setAttributes([text.format_altitude(row_of(feature).number("elev_ft"))])
        layer.dataProvider().addFeatures([drawn])
    layer.updateExtents()
    layer.setRenderer(QgsSingleSymbolRenderer(QgsMarkerSymbol.createSimple(
        {"name": "triangle", "size": str(TRIANGLE_MM), "color": inks.BLACK, "outline_color": inks.WHITE,
         "outline_width": "0.2"}
    )))  # fmt: skip
    settings = picture.label_settings(inks.NOTE_PT, "label", bold=True)
    settings.placement = type(settings).Placement.AroundPoint
    settings.dist, settings.distUnits = TRIANGLE_MM / 2.0 + 0.4, QgsUnitTypes.RenderUnit.RenderMillimeters
    settings.priority = 9
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
    layer.setLabelsEnabled(True)
    return [layer]


def failed_hatch(local: picture.Local, areas: QgsVectorLayer) -> list[QgsVectorLayer]:
    """A hatch and a bold edge over the basic area of a hold that fails a test; nobody misses it, in any colour."""
    shapes = [feature for feature in every(areas) if row_of(feature).word("part") in ("basic", "primary", "")]
    layer = local.layer("MultiPolygon", "failed", None, [])
    made = []
    for shape in shapes:
        feature = QgsFeature(layer.fields())
        geometry = QgsGeometry(shape.geometry())
        geometry.convertToMultiType()
        feature.setGeometry(geometry)
        made.append(feature)
    if not made:
        return []
    layer.dataProvider().addFeatures(made)
    layer.updateExtents()
    symbol = QgsFillSymbol.createSimple(
        {"style": "no", "outline_color": inks.BLACK, "outline_width": str(inks.FAILING_MM), "outline_style": "solid"}
    )
    hatch = QgsLinePatternFillSymbolLayer()
    hatch.setLineAngle(45.0)
    hatch.setDistance(inks.HATCH_MM)
    hatch.setSubSymbol(QgsLineSymbol.createSimple({"line_color": inks.BLACK, "line_width": str(inks.HATCH_LINE_MM)}))
    symbol.insertSymbolLayer(0, hatch)
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))
    return [layer]


def entry(content: Content, local: picture.Local, hold: Row) -> list[QgsVectorLayer]:
    """The arrival and the entry as flown, with arrows."""
    flown = content.features["flown"].get(hold.word("hold"), [])
    first = [feature for feature in flown if row_of(feature).number("circuit") == 0.0 and row_of(feature).word("entry")]
    if not first:
        return []
    layer = local.copy(content.layers["flown"], first[:1])
    layer.setRenderer(QgsSingleSymbolRenderer(_arrival_symbol()))
    layer.setLabelsEnabled(False)
    return [layer]


def widen_sectors(sectors: QgsVectorLayer, seen: QgsRectangle) -> None:
    """Draw entry sectors, which end at a circle about the fix, as far as a picture goes."""
    reach = 2.0 * math.hypot(*(max(abs(low), abs(high)) for low, high in (
        (seen.xMinimum(), seen.xMaximum()), (seen.yMinimum(), seen.yMaximum()),
    )))  # fmt: skip
    moved = {}
    for feature in every(sectors):
        geometry = QgsGeometry(feature.geometry())
        far = max((math.hypot(p.x(), p.y()) for p in geometry.vertices()), default=0.0)
        if far > 0.0:
            geometry.transform(QTransform.fromScale(reach / far, reach / far))
            moved[feature.id()] = geometry
    sectors.dataProvider().changeGeometryValues(moved)
    sectors.updateExtents()
    sectors.setLabelsEnabled(False)


def sector_words(content: Content, hold: Row) -> list[tuple[str, float, float]]:
    """Entry sectors: the entry with the magnetic headings it is for, and true directions from the fix it lies between.

    A sector lies where one comes from.
    """
    variation = hold.number("var_deg")
    found = []
    for row in content.rows("sectors", hold):
        start, end = row.number("from_deg"), row.number("to_deg")
        if all(math.isfinite(value) for value in (start, end, variation)):
            words = f"{figures.entry(hold, row.word('entry'))}\n{figures.course(start)}–{figures.course(end)}"
            found.append((words, start + variation + 180.0, end + variation + 180.0))
    return found


def _arrival_symbol() -> QgsLineSymbol:
    symbol = QgsLineSymbol.createSimple(
        {"line_color": inks.GREEN, "line_width": "0.6", "use_custom_dash": "1", "customdash": "3;1.2"}
    )
    arrow = QgsMarkerLineSymbolLayer.create(
        {"placement": "interval", "interval": str(ARROWS_MM), "offset_along_line": str(ARROWS_MM / 2.0), "rotate": "1"}
    )
    arrow.setSubSymbol(
        QgsMarkerSymbol.createSimple(
            {"name": "filled_arrowhead", "size": str(ARROW_MM), "color": inks.GREEN, "outline_style": "no"}
        )
    )
    symbol.appendSymbolLayer(arrow)
    return symbol
