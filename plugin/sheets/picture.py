"""Maps of a sheet, each in a projection of its own: true north up and distances true from its centre.

Features are brought into that projection first, and pieces that were split at 180 degrees are joined there, so that
a hold across the antimeridian looks like any other.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from qgis.core import (
    QgsBasicNumericFormat,
    QgsCategorizedSymbolRenderer,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsExpressionContextUtils,
    QgsFeature,
    QgsGeometry,
    QgsLayoutItemMap,
    QgsLayoutItemScaleBar,
    QgsLineSymbol,
    QgsNullSymbolRenderer,
    QgsPalLayerSettings,
    QgsPointXY,
    QgsProject,
    QgsProperty,
    QgsRectangle,
    QgsRuleBasedLabeling,
    QgsSingleSymbolRenderer,
    QgsTextBufferSettings,
    QgsTextFormat,
    QgsUnitTypes,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
    QgsWkbTypes,
)
from qgis.PyQt.QtGui import QColor

from ...algorithms.common.local import crs as local_crs
from ..styles import inks
from . import page

M_PER_NM = 1852.0
JOIN_M = 0.5
SCALES = (
    25, 30, 40, 50, 75, 100, 150, 200, 250, 300, 400, 500, 750, 1000, 1250, 1500, 2000, 2500, 3000, 4000, 5000, 7500,
    10_000, 15_000, 20_000, 30_000, 40_000, 50_000, 75_000, 100_000, 150_000, 200_000,
)  # fmt: skip
"""Scales of maps, the numbers below the line in thousands: the roundest ones."""
BAR_NM = (0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)


class Local:
    """A projection about a place, and layers in it."""

    def __init__(self, project: QgsProject, lon: float, lat: float):
        self.project = project
        self.crs = local_crs(lon, lat)
        self.kept: list[QgsVectorLayer] = []

    def transform(self, crs: QgsCoordinateReferenceSystem) -> QgsCoordinateTransform:
        return QgsCoordinateTransform(crs, self.crs, self.project.transformContext())

    def point(self, lon: float, lat: float) -> QgsPointXY:
        """A place in this projection."""
        return self.transform(QgsCoordinateReferenceSystem("EPSG:4326")).transform(QgsPointXY(lon, lat))

    def copy(self, source: QgsVectorLayer, features: Iterable[QgsFeature], keep: Callable | None = None):
        """Features of a layer in this projection, styled as it is; keep(geometry) picks by place."""
        transform = self.transform(source.crs())
        moved = []
        for feature in features:
            geometry = QgsGeometry(feature.geometry())
            if geometry.isNull() or geometry.transform(transform) != QgsGeometry.OperationResult.Success:
                continue
            geometry = joined(geometry)
            if keep is None or keep(geometry):
                copied = QgsFeature(feature)
                copied.setGeometry(geometry)
                moved.append(copied)
        layer = self.layer(QgsWkbTypes.displayString(source.wkbType()), source.name(), source.fields(), moved)
        layer.setRenderer(source.renderer().clone())
        if source.labeling():
            layer.setLabeling(source.labeling().clone())
            layer.setLabelsEnabled(source.labelsEnabled())
        return layer

    def layer(self, shape: str, name: str, fields, features: list[QgsFeature]) -> QgsVectorLayer:
        """A layer in memory, kept as long as this projection is."""
        layer = QgsVectorLayer(shape, name, "memory")
        layer.setCrs(self.crs)
        provider = layer.dataProvider()
        if fields is not None:
            provider.addAttributes(list(fields))
            layer.updateFields()
        provider.addFeatures(features)
        layer.updateExtents()
        self.kept.append(layer)
        return layer

    def lines(self, lines: list[tuple[list[QgsPointXY], str, str]], width_mm: float = inks.DEFINING_MM):
        """Lines with a label along each: (points, label, line style)."""
        made = []
        for points, label, style in lines:
            layer = self.layer("LineString?field=label:string", "line", None, [])
            feature = QgsFeature(layer.fields())
            feature.setGeometry(QgsGeometry.fromPolylineXY(points))
            feature.setAttributes([label])
            layer.dataProvider().addFeatures([feature])
            layer.updateExtents()
            symbol = QgsLineSymbol.createSimple(
                {"line_color": inks.BLACK, "line_width": str(width_mm), "line_style": style}
            )
            layer.setRenderer(QgsSingleSymbolRenderer(symbol))
            layer.setLabeling(QgsVectorLayerSimpleLabeling(_along(inks.NOTE_PT)))
            layer.setLabelsEnabled(bool(label))
            made.append(layer)
        return made


def label_settings(points: float, field: str, bold: bool = False, ink: str = inks.BLACK) -> QgsPalLayerSettings:
    """Labels of a size with a white halo."""
    form = QgsTextFormat.fromQFont(page.font(points, bold))
    form.setSize(points)
    form.setSizeUnit(QgsUnitTypes.RenderUnit.RenderPoints)
    form.setColor(QColor(ink))
    halo = QgsTextBufferSettings()
    halo.setEnabled(True)
    halo.setSize(inks.HALO_MM)
    halo.setSizeUnit(QgsUnitTypes.RenderUnit.RenderMillimeters)
    halo.setColor(QColor(inks.WHITE))
    form.setBuffer(halo)
    settings = QgsPalLayerSettings()
    settings.setFormat(form)
    settings.fieldName = field
    return settings


def _along(points: float) -> QgsPalLayerSettings:
    """Labels along a line, dropped early where room is short."""
    settings = label_settings(points, "label")
    settings.placement = QgsPalLayerSettings.Placement.Line
    settings.dist = 0.6
    settings.distUnits = QgsUnitTypes.RenderUnit.RenderMillimeters
    settings.priority = 4
    return settings


def joined(geometry: QgsGeometry) -> QgsGeometry:
    """Pieces that were split at 180 degrees as one shape again."""
    if not geometry.isMultipart() or geometry.constGet().numGeometries() < 2:
        return geometry
    if geometry.type() == QgsWkbTypes.GeometryType.PolygonGeometry:
        return QgsGeometry.unaryUnion([part.buffer(JOIN_M, 4) for part in geometry.asGeometryCollection()])
    if geometry.type() == QgsWkbTypes.GeometryType.LineGeometry:
        return QgsGeometry.fromPolylineXY(_chained(geometry.asMultiPolyline()))
    return geometry


def _chained(lines: list[list[QgsPointXY]]) -> list[QgsPointXY]:
    """Lines one after the other: each next one is that which starts nearest to where the last ended."""
    ends = [line[-1] for line in lines]
    first = max(range(len(lines)), key=lambda i: min(e.distance(lines[i][0]) for j, e in enumerate(ends) if j != i))
    chain, rest = list(lines[first]), [line for i, line in enumerate(lines) if i != first]
    while rest:
        following = min(rest, key=lambda line: line[0].distance(chain[-1]))
        rest.remove(following)
        chain += following[1:]
    return chain


def fitted(
    boxes: list[tuple[QgsRectangle, float]], width_mm: float, height_mm: float, least: float = 0.0
) -> tuple[float, QgsRectangle]:
    """The roundest scale at which boxes fit into a picture, each with a border in mm, and what the picture then shows.

    Returns: scale number, at least `least`; extent, centred on what it has to show.
    """
    for thousands in SCALES:
        scale = 1000.0 * thousands
        seen = QgsRectangle()
        seen.setMinimal()
        for box, border_mm in boxes:
            seen.combineExtentWith(box.buffered(border_mm * scale / 1000.0))
        if scale >= least and seen.width() <= width_mm * scale / 1000.0 and seen.height() <= height_mm * scale / 1000.0:
            break
    half_x, half_y = width_mm * scale / 2000.0, height_mm * scale / 2000.0
    centre = seen.center()
    return scale, QgsRectangle(centre.x() - half_x, centre.y() - half_y, centre.x() + half_x, centre.y() + half_y)


def put_map(
    sheet: page.Sheet, local: Local, layers: list[QgsVectorLayer], seen: QgsRectangle,
    x: float, y: float, width: float, height: float,
) -> QgsLayoutItemMap:  # fmt: skip
    """A map on the current page, with a hairline round it."""
    item = QgsLayoutItemMap(sheet.layout)
    item.setCrs(local.crs)
    item.setLayers(layers)
    item.setKeepLayerSet(True)
    item.setBackgroundColor(QColor(inks.WHITE))
    sheet.place(item, x, y, width, height)
    item.setExtent(seen)  # without an extent QGIS 3.22 leaves the map blank; with one it changes the item's shape
    sheet.resize(item, width, height)
    item.zoomToExtent(seen)
    sheet.frame(x, y, width, height)
    return item


def put_scale_bar(sheet: page.Sheet, item: QgsLayoutItemMap, scale: float, x: float, y: float, room: float) -> None:
    """A scale bar in NM below a map, with the scale in figures at its right end."""
    nm_mm = M_PER_NM * 1000.0 / scale
    segment = max((s for s in BAR_NM if 2.0 * s * nm_mm <= room), default=BAR_NM[0])
    bar = QgsLayoutItemScaleBar(sheet.layout)
    bar.setStyle("Line Ticks Up")
    bar.setLinkedMap(item)
    bar.setUnits(QgsUnitTypes.DistanceUnit.DistanceNauticalMiles)
    bar.setUnitLabel("NM")
    figures = QgsBasicNumericFormat()
    figures.setShowThousandsSeparator(False)
    bar.setNumericFormat(figures)
    bar.setUnitsPerSegment(segment)
    bar.setNumberOfSegments(2)
    bar.setNumberOfSegmentsLeft(0)
    bar.setHeight(1.2)
    bar.setBoxContentSpace(0.0)
    bar.setLabelBarSpace(0.8)
    bar.setLineSymbol(QgsLineSymbol.createSimple({"line_color": inks.BLACK, "line_width": str(inks.DEFINING_MM)}))
    form = QgsTextFormat.fromQFont(page.font(inks.NOTE_PT))
    form.setSize(inks.NOTE_PT)
    form.setSizeUnit(QgsUnitTypes.RenderUnit.RenderPoints)
    bar.setTextFormat(form)
    sheet.place(bar, x, y, 10.0, 6.0)
    bar.update()


def label_at_every_scale(layer: QgsVectorLayer) -> None:
    """Show all labels of a layer, also those that its style keeps for maps of a larger scale."""
    labeling = layer.labeling()
    if isinstance(labeling, QgsRuleBasedLabeling):
        for rule in labeling.rootRule().children():
            rule.setMinimumScale(0.0)


POSITIONS = {
    "R": (1, 0), "L": (-1, 0), "BR": (1, -1), "TR": (1, 1), "BL": (-1, -1), "TL": (-1, 1), "B": (0, -1), "T": (0, 1),
}  # fmt: skip
"""Places of a label beside a point: right or left of it, above or below; the likelier one first."""
OFF_POINT_MM = 3.0
SYMBOL_HALF_MM = 1.8
ENOUGH_MM = 2.5
"""A label this far from everything stands well."""


def roomiest(width_mm: float, height_mm: float, taken: list[tuple[float, float]]) -> str:
    """The place of POSITIONS for a label beside a point that has most room.

    taken, what is drawn near, as points in mm from it, y upwards. Of places with enough room the likelier is taken.
    """

    def room(name: str) -> float:
        right, up = POSITIONS[name]
        off = SYMBOL_HALF_MM + OFF_POINT_MM
        x, y = right * (off + width_mm / 2.0), up * (off + height_mm / 2.0)
        return min(
            (
                math.hypot(max(abs(px - x) - width_mm / 2.0, 0.0), max(abs(py - y) - height_mm / 2.0, 0.0))
                for px, py in taken
            ),
            default=ENOUGH_MM,
        )

    return max(POSITIONS, key=lambda name: min(room(name), ENOUGH_MM))


def label_at(layer: QgsVectorLayer, place: str) -> None:
    """Put the labels of a layer's points at one place of POSITIONS, whatever else is there."""
    order = QgsProperty.fromValue(place)
    labeling = layer.labeling()
    if isinstance(labeling, QgsRuleBasedLabeling):
        for rule in labeling.rootRule().children():
            settings = rule.settings()
            collection = settings.dataDefinedProperties()
            collection.setProperty(QgsPalLayerSettings.Property.PredefinedPositionOrder, order)
            settings.setDataDefinedProperties(collection)
            settings.dist = OFF_POINT_MM
            settings.displayAll = not rule.isElse()  # overhead a navaid the navaid's label names the fix
            rule.setSettings(settings)


def along(start: QgsPointXY, end: QgsPointXY, count: int = 24) -> list[QgsPointXY]:
    """Points evenly along a line, its ends included."""
    return [
        QgsPointXY(start.x() + (end.x() - start.x()) * k / count, start.y() + (end.y() - start.y()) * k / count)
        for k in range(count + 1)
    ]


def name_by(layer: QgsVectorLayer, field: str) -> None:
    """Name points by a field, every one of them, off what is drawn."""
    settings = label_settings(inks.TEXT_PT, field, bold=True, ink=inks.BLUE)
    settings.placement = QgsPalLayerSettings.Placement.OrderedPositionsAroundPoint
    settings.dist, settings.distUnits = SYMBOL_HALF_MM, QgsUnitTypes.RenderUnit.RenderMillimeters
    settings.displayAll = True
    settings.priority = 10
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
    layer.setLabelsEnabled(True)


def only_obstacle(layer: QgsVectorLayer) -> None:
    """Draw nothing of a layer; labels of others still keep out of it."""
    layer.setRenderer(QgsNullSymbolRenderer())


def widen_roses(layer: QgsVectorLayer, width_mm: float) -> None:
    """Draw the roses of a navaids layer at another width."""
    QgsExpressionContextUtils.setLayerVariable(layer, "rose_mm", str(width_mm))


def without_roses(layer: QgsVectorLayer) -> None:
    """Leave the roses of a navaids layer out."""
    renderer = layer.renderer()
    if not isinstance(renderer, QgsCategorizedSymbolRenderer):
        return
    for i, category in enumerate(renderer.categories()):
        symbol = category.symbol().clone()
        if symbol.symbolLayerCount() > 2:
            symbol.deleteSymbolLayer(0)
            renderer.updateCategorySymbol(i, symbol)


def box_of(layers: Iterable[QgsVectorLayer]) -> QgsRectangle:
    """What encloses all features of layers."""
    box = QgsRectangle()
    box.setMinimal()
    for layer in layers:
        if layer.featureCount():
            box.combineExtentWith(layer.extent())
    return box


def bearing(origin: QgsPointXY, target: QgsPointXY) -> float:
    """Direction in a projection, degrees from its north."""
    return math.degrees(math.atan2(target.x() - origin.x(), target.y() - origin.y())) % 360.0
