"""Makes the layer styles beside this file, one QML a layer, and in dark/ the same for dark maps; by QGIS's Python:

    QT_HASH_SEED=0 python3 plugin/styles/build.py [FOLDER]

Symbols go into the styles themselves, so that a style kept in a GeoPackage or a project needs no file elsewhere.
QGIS 3.22 makes them, so that every later version reads them. The seed keeps their lines in the same order.
"""

from __future__ import annotations

import base64
import os
import re
import sys
from pathlib import Path

from qgis.core import (
    QgsApplication,
    QgsCategorizedSymbolRenderer,
    QgsFeatureRequest,
    QgsFillSymbol,
    QgsGeometryGeneratorSymbolLayer,
    QgsLabeling,
    QgsLabelObstacleSettings,
    QgsLinePatternFillSymbolLayer,
    QgsLineSymbol,
    QgsMapLayer,
    QgsMarkerLineSymbolLayer,
    QgsMarkerSymbol,
    QgsMarkerSymbolLayer,
    QgsPalLayerSettings,
    QgsProperty,
    QgsRendererCategory,
    QgsRuleBasedLabeling,
    QgsRuleBasedRenderer,
    QgsSimpleFillSymbolLayer,
    QgsSimpleLineSymbolLayer,
    QgsSimpleMarkerSymbolLayer,
    QgsSingleSymbolRenderer,
    QgsSvgMarkerSymbolLayer,
    QgsSymbol,
    QgsSymbolLayer,
    QgsTextBackgroundSettings,
    QgsTextBufferSettings,
    QgsTextFormat,
    QgsUnitTypes,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
    QgsVectorLayerTemporalProperties,
    QgsWkbTypes,
)
from qgis.PyQt.QtCore import QSizeF
from qgis.PyQt.QtGui import QColor, QFont

FOLDER = Path(__file__).resolve().parent
if __package__:
    from . import inks
else:
    sys.path.insert(0, str(FOLDER))
    import inks

SHAPES = {
    "navaids": "Point",
    "fixes": "Point",
    "holds": "Point",
    "failing": "MultiPolygon",
    "patterns": "MultiPolygon",
    "tracks": "MultiLineString",
    "sectors": "MultiPolygon",
    "flown": "MultiLineStringM",
    "by_rule": "MultiLineStringM",
    "events": "Point",
    "areas": "MultiPolygon",
    "construction_lines": "MultiLineString",
    "lines": "MultiLineString",
    "tolerances": "MultiPolygon",
    "findings": "Point",
    "controlling": "Point",
}
FIELDS = {
    "navaids": "ident:string kind:string freq:string decl_deg:double status:string",
    "fixes": "fix:string method:string",
    "holds": "hold:string fix:string alt_ft:double alt_to_ft:double failed:string",
    "failing": "hold:string tests:string",
    "patterns": "hold:string",
    "tracks": "hold:string leg:string time_s:double course_model_deg:double",
    "sectors": "hold:string entry:string from_deg:double to_deg:double",
    "flown": "hold:string circuit:int start_utc:string end_utc:string",
    "events": "hold:string event:string utc:string text:string",
    "by_rule": "hold:string rule:string",
    "areas": "hold:string construction:string part:string moc_ft:double levels:string",
    "construction_lines": "hold:string kind:string letter:string radius_nm:double text:string",
    "lines": "line:string radial_deg:double distance_nm:double",
    "tolerances": "fix:string",
    "findings": "navaid:string severity:string finding:string",
    "controlling": "hold:string name:string controls:int elev_ft:double",
}

DARK_FOLDER = "dark"
NEAR, CLOSE = 750_000.0, 300_000.0
"""Scale numbers up to which a map has room for more than names, and for what is read at the table only."""
DEGREE_M = 111_320.0
"""A degree of latitude, near enough for what is measured on paper."""
HEAD_MM, LABELLED_MM = 3.2, 15.0
"""Arrow heads where there is room; a line so long takes the course along it."""


def course(field: str) -> str:
    """Expression of a course in three figures, 360 for north."""
    return f"lpad(to_string((round(\"{field}\") + 359) % 360 + 1), 3, '0')"


COURSE = course("course_model_deg")
OUT = "lower(coalesce(\"status\", '')) IN ('out of service', 'u/s', 'unserviceable', 'decommissioned', 'shutdown')"
HAS_ROSE = "\"kind\" IN ('VOR', 'VOR/DME', 'VORTAC', 'TACAN') AND \"decl_deg\" IS NOT NULL"
WIDE_ROSE = f"(@rose_mm IS NOT NULL OR @map_scale <= {CLOSE:.0f})"
ROSE_MM = f"coalesce(@rose_mm, if({WIDE_ROSE}, 30, 16))"
"""Width of a rose; sheets set it by a variable of the layer. In a narrow one figures would be too small to read."""
NOT_OVERHEAD = "coalesce(\"method\", '') <> 'overhead'"
LINE_VALUE = (
    "CASE WHEN \"line\" = 'radial' THEN 'R' || lpad(to_string((round(\"radial_deg\") + 359) % 360 + 1), 3, '0') "
    "ELSE 'D' || format_number(\"distance_nm\", 1, 'en_US') END"
)


def on_paper_mm(degrees: str) -> str:
    """Expression of how long so many degrees of latitude are on the map."""
    return f"({degrees} * {DEGREE_M * 1000.0:.0f} / coalesce(@map_scale, 250000))"


def across_mm(shape: str) -> str:
    """Expression of the diagonal of a shape's box on the map; of a straight line, its length."""
    wide, high = f"bounds_width({shape})", f"bounds_height({shape})"
    shrunk = f"{wide} * cos(radians(y(centroid({shape}))))"
    return on_paper_mm(f"sqrt(({shrunk})^2 + {high}^2)")


# A leg shorter than its label, drawn out from where it begins: beyond its other end stand the fix and its name.
DRAWN_OUT = (
    "with_variable('leg', geometry_n($geometry, 1), extend(@leg, length(@leg) * "
    f"max(0, {LABELLED_MM:g} / {across_mm('@leg')} - 1), 0))"
)
ROOM_ALONG = f"{across_mm('$geometry')} >= {LABELLED_MM:g}"
LEG_TIME = "to_string(floor(round(\"time_s\") / 60)) || ':' || lpad(to_string(round(\"time_s\") % 60), 2, '0')"


def grouped(value: str) -> str:
    """Expression of a whole number with its thousands set off by a space, whatever the locale."""
    return f"regexp_replace(to_string(round({value})), '(?<=\\\\d)(?=(\\\\d{{3}})+$)', ' ')"


ALTITUDE = (
    f"CASE WHEN \"alt_to_ft\" > \"alt_ft\" THEN {grouped(chr(34) + 'alt_ft' + chr(34))} || '–' ELSE '' END || "
    f"{grouped('coalesce(' + chr(34) + 'alt_to_ft' + chr(34) + ', ' + chr(34) + 'alt_ft' + chr(34) + ')')} || ' ft'"
)

# The legs of a racetrack: the sides of its ring that are long against the chords of its turns, but not the seam where
# it was split at 180 degrees.
LEGS = (
    "with_variable('rings', boundary($geometry), collect_geometries(array_cat(array(), "
    "array_filter(array_foreach(generate_series(1, num_points(@rings) - 1), "
    "make_line(point_n(@rings, @element), point_n(@rings, @element + 1))), "
    "length(@element) > perimeter($geometry) / 12 AND length(@element) < 90 "
    "AND NOT (abs(x(start_point(@element))) >= 180 AND abs(x(end_point(@element))) >= 180)))))"
)


def unseamed(edges: str) -> str:
    """Expression of a shape's edges without the seam where it was split at 180 degrees."""
    return (
        f"CASE WHEN x_max($geometry) >= 180 AND x_min($geometry) <= -180 THEN difference({edges}, "
        "collect_geometries(make_line(make_point(180, -90), make_point(180, 90)), "
        f"make_line(make_point(-180, -90), make_point(-180, 90)))) ELSE {edges} END"
    )


EDGE = unseamed("boundary($geometry)")


def outer_rings(shape: str) -> str:
    """Expression of the outer edges of a shape of several polygons."""
    each = f"array_foreach(generate_series(1, num_geometries({shape})), exterior_ring(geometry_n({shape}, @element)))"
    return f"collect_geometries({each})"


# Of areas that lie ring by ring around each other only the outer edge is drawn: the inner one is its neighbour's. Where
# a ring was split at 180 degrees its pieces have no inner edge, so they are joined beyond it first, and brought back.
_WEST, _EAST = (f"geom_from_wkt('POLYGON(({x} -90, {x + 180} -90, {x + 180} 90, {x} 90, {x} -90))')" for x in (0, 180))
_JOINED = (
    "collect_geometries(array(buffer(collect_geometries(array_foreach(generate_series(1, num_geometries($geometry)), "
    "with_variable('piece', geometry_n($geometry, @element), "
    "if(x_min(@piece) < 0, translate(@piece, 360, 0), @piece)))), 0)))"
)
OUTER_EDGE = (
    "CASE WHEN x_max($geometry) >= 180 AND x_min($geometry) <= -180 THEN "
    f"with_variable('joined', {_JOINED}, with_variable('edges', {outer_rings('@joined')}, collect_geometries("
    f"intersection(@edges, {_WEST}), translate(intersection(@edges, {_EAST}), -360, 0)))) "
    f"ELSE {outer_rings('$geometry')} END"
)


def embedded(name: str) -> str:
    """An SVG of plugin/symbols as a path that carries the picture."""
    data = (FOLDER.parent / "symbols" / f"{name}.svg").read_bytes()
    return "base64:" + base64.b64encode(data).decode("ascii")


def svg(name: str, size_mm: float, outline: str = inks.BLACK, inside: str = inks.WHITE, width_mm: float = 0.3):
    """A marker of one of our symbols."""
    return QgsSvgMarkerSymbolLayer.create(
        {
            "name": embedded(name),
            "size": str(size_mm),
            "color": inside,
            "outline_color": outline,
            "outline_width": str(width_mm),
            "outline_width_unit": "MM",
        }
    )


def simple_marker(name: str, size_mm: float, inside: str, outline: str = "0,0,0,0", width_mm: float = 0.0):
    properties = {"name": name, "size": str(size_mm), "color": inside, "outline_color": outline}
    return QgsSimpleMarkerSymbolLayer.create({**properties, "outline_width": str(width_mm)})


def simple_line(ink: str, width_mm: float, style: str = "solid", dashes: str = ""):
    properties = {"line_color": ink, "line_width": str(width_mm), "line_style": style, "joinstyle": "round"}
    if dashes:
        properties |= {"use_custom_dash": "1", "customdash": dashes, "customdash_unit": "MM", "capstyle": "round"}
    return QgsSimpleLineSymbolLayer.create(properties)


def arrow_heads(ink: str = inks.BLUE, share: float = 0.4):
    """Arrow heads on the middle of each line, no larger than a share of what is drawn."""
    heads = QgsMarkerLineSymbolLayer.create({"placement": "centralpoint", "rotate": "1"})
    head = simple_marker("filled_arrowhead", HEAD_MM, ink)
    size = QgsProperty.fromExpression(f"min({HEAD_MM:g}, {share:g} * {across_mm('$geometry')})")
    head.setDataDefinedProperty(QgsSymbolLayer.Property.PropertySize, size)
    heads.setSubSymbol(marker(head))
    return heads


def stacked(symbol: QgsSymbol, *layers: QgsSymbolLayer) -> QgsSymbol:
    """A symbol of these layers, the first at the bottom."""
    symbol.changeSymbolLayer(0, layers[0])
    for layer in layers[1:]:
        symbol.appendSymbolLayer(layer)
    return symbol


def marker(*layers: QgsSymbolLayer) -> QgsSymbol:
    return stacked(QgsMarkerSymbol(), *layers)


def line(*layers: QgsSymbolLayer) -> QgsSymbol:
    return stacked(QgsLineSymbol(), *layers)


def fill(*layers: QgsSymbolLayer) -> QgsSymbol:
    return stacked(QgsFillSymbol(), *layers)


def edge(*layers: QgsSymbolLayer, of: str = EDGE) -> QgsSymbolLayer:
    """Line layers along the edge of polygons, without the seam at 180 degrees."""
    generated = QgsGeometryGeneratorSymbolLayer.create({"geometryModifier": of, "SymbolType": "Line"})
    generated.setSubSymbol(line(*layers))
    return generated


def tint(ink: str, share: float) -> QgsSymbolLayer:
    """A flat tint without an edge."""
    colour = QColor(ink)
    rgba = f"{colour.red()},{colour.green()},{colour.blue()},{round(255 * share)}"
    return QgsSimpleFillSymbolLayer.create({"color": rgba, "outline_style": "no"})


def when(layer: QgsMarkerSymbolLayer, expression: str, size: str = "", in_legend: bool = False):
    """A marker that is drawn only where an expression is true: elsewhere, and if so in a legend, its size is 0."""
    size = QgsProperty.fromExpression(f"if({expression}, {size or f'{layer.size():g}'}, 0)")
    layer.setDataDefinedProperty(QgsSymbolLayer.Property.PropertySize, size)
    if not in_legend:
        layer.setSize(0.0)
    return layer


def drawn_where(layer: QgsSymbolLayer, expression: str) -> QgsSymbolLayer:
    """A symbol layer of any kind that is drawn only where an expression is true."""
    layer.setDataDefinedProperty(QgsSymbolLayer.Property.PropertyLayerEnabled, QgsProperty.fromExpression(expression))
    return layer


def text_format(points: float, ink: str = inks.BLACK, bold: bool = False) -> QgsTextFormat:
    """Type with the white halo of labels."""
    font = QFont(inks.FAMILIES[0])
    font.setWeight(QFont.Weight.Bold if bold else QFont.Weight.Normal)
    form = QgsTextFormat()
    form.setFont(font)
    form.setFamilies(list(inks.FAMILIES))
    form.setNamedStyle("Bold" if bold else "Book")
    form.setSize(points)
    form.setSizeUnit(QgsUnitTypes.RenderUnit.RenderPoints)
    form.setColor(QColor(ink))
    halo = QgsTextBufferSettings()
    halo.setEnabled(True)
    halo.setSize(inks.HALO_MM)
    halo.setSizeUnit(QgsUnitTypes.RenderUnit.RenderMillimeters)
    halo.setColor(QColor(inks.WHITE))
    form.setBuffer(halo)
    return form


def on_a_line(form: QgsTextFormat) -> QgsTextFormat:
    """Type on a white ground, for labels that interrupt the line they belong to: a halo lets it through the spaces."""
    ground = QgsTextBackgroundSettings()
    ground.setEnabled(True)
    ground.setType(QgsTextBackgroundSettings.ShapeType.ShapeRectangle)
    ground.setSizeType(QgsTextBackgroundSettings.SizeType.SizeBuffer)
    ground.setSizeUnit(QgsUnitTypes.RenderUnit.RenderMillimeters)
    ground.setSize(QSizeF(0.4, 0.0))
    ground.setFillColor(QColor(inks.WHITE))
    ground.setStrokeColor(QColor(0, 0, 0, 0))
    ground.setStrokeWidth(0.0)
    form.setBackground(ground)
    return form


def generated(settings: QgsPalLayerSettings, expression: str, kind) -> QgsPalLayerSettings:
    """Label settings for a shape that an expression makes of the feature's."""
    settings.geometryGenerator, settings.geometryGeneratorType = expression, kind
    settings.geometryGeneratorEnabled = True
    return settings


def in_nobodys_way() -> QgsLabelObstacleSettings:
    """For shapes over which labels may stand, those of their neighbours too."""
    settings = QgsLabelObstacleSettings()
    settings.setIsObstacle(False)
    return settings


def label(expression: str, form: QgsTextFormat, priority: int, *, always: bool = False, along: float | None = None):
    """Label settings: beside a point, or at a share of a line's length, on the side where there is room.

    always is for labels that have one place only: of the others QGIS then draws some twice, over each other.
    """
    settings = QgsPalLayerSettings()
    settings.fieldName = expression
    settings.isExpression = True
    settings.setFormat(form)
    settings.priority = priority
    settings.displayAll = always
    settings.dist = 1.0
    settings.distUnits = QgsUnitTypes.RenderUnit.RenderMillimeters
    if along is not None:
        settings.placement = QgsPalLayerSettings.Placement.Line
        settings.dist = 0.6
        side = QgsLabeling.LinePlacementFlag
        settings.lineSettings().setLineAnchorPercent(along)
        settings.lineSettings().setPlacementFlags(side.AboveLine | side.BelowLine | side.MapOrientation)
    else:
        settings.placement = QgsPalLayerSettings.Placement.OrderedPositionsAroundPoint
        settings.offsetType = QgsPalLayerSettings.OffsetType.FromSymbolBounds
        prefer(settings, "R L TR BR TL BL TSR BSR TSL BSL T B")
    return settings


def prefer(settings: QgsPalLayerSettings, places: str) -> QgsPalLayerSettings:
    """Where a label beside a point may stand, the likeliest first: top, bottom, right, left, slightly."""
    collection = settings.dataDefinedProperties()
    order = QgsProperty.fromValue(places.replace(" ", ","))
    collection.setProperty(QgsPalLayerSettings.Property.PredefinedPositionOrder, order)
    settings.setDataDefinedProperties(collection)
    return settings


def off_a_symbol(settings: QgsPalLayerSettings) -> QgsPalLayerSettings:
    """Label settings that keep off a navaid's symbol, also one below another mark, but not off its rose."""
    settings.offsetType = QgsPalLayerSettings.OffsetType.FromPoint
    settings.dist = inks.SYMBOL_MM / 2 + 1.0
    return settings


def labels(*rules: tuple) -> QgsRuleBasedLabeling:
    """Rule-based labels: (filter or '', settings), and where not always, the smallest scale that shows them."""
    root = QgsRuleBasedLabeling.Rule(None)
    root.setRuleKey("root")
    for number, (condition, settings, *scale) in enumerate(rules):
        rule = QgsRuleBasedLabeling.Rule(settings, 0, *(scale or [0]), condition, condition or "all")
        rule.setRuleKey(f"rule {number}")
        root.appendChild(rule)
    return QgsRuleBasedLabeling(root)


def style_navaids(layer: QgsVectorLayer) -> None:
    """By kind, after the published chart conventions; a rose on each station's own north."""
    categories = []
    for kind, name in [*inks.SYMBOLS.items(), ("", None)]:
        if name is None:
            mark = simple_marker("circle", 2.4, inks.WHITE, inks.BLACK, 0.4)
        else:
            mark = svg(name, inks.SYMBOL_MM)
        rose = svg("rose", 16.0, inks.GREY, inks.WHITE, 0.12)
        rose.setDataDefinedProperty(QgsSymbolLayer.Property.PropertyAngle, QgsProperty.fromField("decl_deg"))
        figured = QgsProperty.fromExpression(f"if({WIDE_ROSE}, '{embedded('rose')}', '{embedded('rose_small')}')")
        rose.setDataDefinedProperty(QgsSymbolLayer.Property.PropertyName, figured)
        crossed = simple_marker("cross2", 6.0, inks.BLACK, inks.BLACK, 0.5)
        symbol = marker(when(rose, HAS_ROSE, ROSE_MM), mark, when(crossed, OUT))
        categories.append(QgsRendererCategory(kind, symbol, kind or "other"))
    layer.setRenderer(QgsCategorizedSymbolRenderer("kind", categories))
    ident = off_a_symbol(label('"ident"', text_format(inks.TEXT_PT, bold=True), 9))
    prefer(ident, "TR TL T R L BR BL TSR TSL BSR BSL B")
    freq = off_a_symbol(label('"freq"', text_format(inks.NOTE_PT), 1))
    for settings in (ident, freq):  # as an obstacle a wide rose would leave no room for what stands inside it
        collection = settings.dataDefinedProperties()
        hinders = QgsProperty.fromExpression(f"NOT coalesce({HAS_ROSE} AND {WIDE_ROSE}, false)")
        collection.setProperty(QgsPalLayerSettings.Property.IsObstacle, hinders)
        settings.setDataDefinedProperties(collection)
    layer.setLabeling(labels(("", ident), ('"freq" IS NOT NULL', freq, CLOSE)))


def style_fixes(layer: QgsVectorLayer) -> None:
    """An open triangle, left out overhead a navaid, with the fix's name, unless a hold's label that says it too is in
    its way."""
    triangle = when(svg("fix", 3.6), NOT_OVERHEAD, in_legend=True)
    layer.setRenderer(QgsSingleSymbolRenderer(marker(triangle)))
    named = label('"fix"', text_format(inks.NOTE_PT), 7)
    overhead = label('"fix"', text_format(inks.NOTE_PT), 1)  # the navaid's own label says it too
    layer.setLabeling(labels((NOT_OVERHEAD, named, NEAR), ("ELSE", overhead, NEAR)))


def style_holds(layer: QgsVectorLayer) -> None:
    """A dot at the fix with the hold's name, that it fails where it does, on near maps its altitudes, and on
    closer ones its fix."""
    dot = simple_marker("circle", 1.4, inks.BLUE, inks.WHITE, 0.2)
    layer.setRenderer(QgsSingleSymbolRenderer(marker(dot)))
    fix = f'CASE WHEN @map_scale <= {CLOSE:.0f} AND "fix" <> "hold" THEN \'\n\' || "fix" ELSE \'\' END'
    more = f"coalesce({fix}, '') || coalesce('\n' || {ALTITUDE}, '')"
    fails = "CASE WHEN \"failed\" <> '' THEN '\nFAILS' ELSE '' END"
    name = f"\"hold\" || coalesce({fails}, '') || CASE WHEN @map_scale <= {NEAR:.0f} THEN {more} ELSE '' END"
    said = off_a_symbol(label(name, text_format(inks.TEXT_PT, inks.BLUE, bold=True), 10))
    prefer(said, "BR BL TR TL R L BSR BSL TSR TSL B T")
    layer.setLabeling(labels(("", said)))


def style_failing(layer: QgsVectorLayer) -> None:
    """Holds that fail a test: hatched and framed in black, with the word and the tests, dropped only on far maps.

    There the label of the hold still has the word.
    """
    hatch = QgsLinePatternFillSymbolLayer()
    hatch.setLineAngle(45.0)
    hatch.setDistance(inks.HATCH_MM)
    hatch.setSubSymbol(line(simple_line(inks.BLACK, inks.HATCH_LINE_MM)))
    layer.setRenderer(QgsSingleSymbolRenderer(fill(hatch, edge(simple_line(inks.BLACK, inks.FAILING_MM)))))
    top = "closest_point(boundary($geometry), make_point((x_min($geometry) + x_max($geometry)) / 2, y_max($geometry)))"
    said = generated(
        label("\"hold\" || ' FAILS: ' || wordwrap(\"tests\", 40)", on_a_line(text_format(inks.TEXT_PT, bold=True)), 10,
              always=True), top, QgsWkbTypes.GeometryType.PointGeometry,
    )  # fmt: skip
    said.placement = QgsPalLayerSettings.Placement.OverPoint
    said.quadOffset = QgsPalLayerSettings.QuadrantPosition.QuadrantAbove
    said.yOffset, said.offsetUnits = -inks.FAILING_MM, QgsUnitTypes.RenderUnit.RenderMillimeters
    said.setObstacleSettings(in_nobodys_way())
    layer.setLabeling(labels(("", said, 2.0 * NEAR)))


def style_patterns(layer: QgsVectorLayer) -> None:
    """The design track: an open racetrack with arrow heads on its legs. Labels of other layers keep out of it."""
    heads = QgsGeometryGeneratorSymbolLayer.create({"geometryModifier": LEGS, "SymbolType": "Line"})
    heads.setSubSymbol(line(arrow_heads(share=0.25)))
    symbol = fill(edge(simple_line(inks.BLUE, inks.PATTERN_MM)), heads)
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))
    obstacle = QgsPalLayerSettings()
    obstacle.drawLabels = False
    inside = QgsLabelObstacleSettings()
    inside.setIsObstacle(True)
    inside.setFactor(1.5)
    inside.setType(QgsLabelObstacleSettings.ObstacleType.PolygonInterior)
    obstacle.setObstacleSettings(inside)
    layer.setLabeling(QgsVectorLayerSimpleLabeling(obstacle))


def style_tracks(layer: QgsVectorLayer) -> None:
    """The legs as flown in still air: arrow heads and magnetic courses on the straight ones."""
    heads = drawn_where(arrow_heads(), "\"leg\" IN ('inbound', 'outbound')")
    layer.setRenderer(QgsSingleSymbolRenderer(line(simple_line(inks.BLUE, inks.PATTERN_MM), heads)))
    bold, plain = text_format(inks.TEXT_PT, bold=True), text_format(inks.TEXT_PT)
    inbound = generated(label(COURSE, bold, 10, along=0.5), DRAWN_OUT, QgsWkbTypes.GeometryType.LineGeometry)
    outbound = f"\"leg\" = 'outbound' AND {ROOM_ALONG}"
    layer.setLabeling(
        labels(
            ("\"leg\" = 'inbound'", inbound, NEAR),
            (outbound, label(COURSE, plain, 2, along=0.65), NEAR),
            (outbound, label(LEG_TIME, text_format(inks.NOTE_PT), 3, along=0.25), NEAR),
        )
    )


def style_sectors(layer: QgsVectorLayer) -> None:
    """Entry sectors: dashed, the deeper the tint the rarer the entry, with its name and the headings it is for."""
    shares = {"direct": 0.06, "parallel": 0.14, "teardrop": 0.24}
    categories = []
    for entry, share in shares.items():
        dashed = edge(simple_line(inks.GREEN, inks.AREA_MM, dashes="4;2"))
        categories.append(QgsRendererCategory(entry, fill(tint(inks.GREEN, share), dashed), entry))
    layer.setRenderer(QgsCategorizedSymbolRenderer("entry", categories))
    headings = f"{course('from_deg')} || '–' || {course('to_deg')}"
    said = label(f"\"entry\" || '\n' || {headings}", text_format(inks.NOTE_PT, inks.GREEN, bold=True), 3)
    said.placement = QgsPalLayerSettings.Placement.Horizontal
    said.setObstacleSettings(in_nobodys_way())
    layer.setLabeling(labels(("", said, CLOSE)))


def style_flown(layer: QgsVectorLayer) -> None:
    """The track in wind: arrival and entry dashed, circuits solid; each plays from its start to its end."""
    forms = (
        ('"circuit" = 0', "arrival and entry", inks.GREEN, "6;2"),
        ('"circuit" > 0', "circuits", inks.VERMILION, ""),
    )
    root = QgsRuleBasedRenderer.Rule(None)
    root.setRuleKey("root")
    for number, (condition, title, ink, dashes) in enumerate(forms):
        symbol = line(simple_line(ink, inks.FLOWN_MM, dashes=dashes), arrow_heads(ink))
        rule = QgsRuleBasedRenderer.Rule(symbol, 0, 0, condition, title)
        rule.setRuleKey(f"rule {number}")
        root.appendChild(rule)
    layer.setRenderer(QgsRuleBasedRenderer(root))
    plays = layer.temporalProperties()
    plays.setMode(QgsVectorLayerTemporalProperties.TemporalMode.FeatureDateTimeStartAndEndFromFields)
    plays.setStartField("start_utc")
    plays.setEndField("end_utc")
    plays.setIsActive(True)


def style_by_rule(layer: QgsVectorLayer) -> None:
    """Circuits by rules of thumb: thin, the more drift is held the longer the dashes, with the multiple on it."""
    forms = {"single": "0.4;1.2", "double": "2;1.2", "triple": "5;1.2"}
    categories = [
        QgsRendererCategory(rule, line(simple_line(inks.BLACK, inks.RULE_MM, dashes=dashes)), f"{rule} drift")
        for rule, dashes in forms.items()
    ]
    layer.setRenderer(QgsCategorizedSymbolRenderer("rule", categories))
    times = "to_string(array_find(array('single', 'double', 'triple'), \"rule\") + 1) || '×'"
    said = label(times, text_format(inks.NOTE_PT), 1, along=0.65)
    said.setObstacleSettings(in_nobodys_way())
    layer.setLabeling(labels(("", said, CLOSE)))


def style_events(layer: QgsVectorLayer) -> None:
    """What happens on the way: dots with time and text, each played for a minute."""
    dot = simple_marker("circle", 1.6, inks.VERMILION, inks.WHITE, 0.2)
    layer.setRenderer(QgsSingleSymbolRenderer(marker(dot)))
    said = "coalesce(substr(\"utc\", 12, 8) || 'Z ', '') || \"text\""
    told = label(said, text_format(inks.NOTE_PT), 2)
    told.setObstacleSettings(in_nobodys_way())
    layer.setLabeling(labels(("", told, CLOSE)))
    plays = layer.temporalProperties()
    plays.setMode(QgsVectorLayerTemporalProperties.TemporalMode.FeatureDateTimeInstantFromField)
    plays.setStartField("utc")
    plays.setFixedDuration(1.0)
    plays.setDurationUnits(QgsUnitTypes.TemporalUnit.TemporalMinutes)
    plays.setIsActive(True)


def style_areas(layer: QgsVectorLayer) -> None:
    """Protected areas: tinted where basic or primary, else told apart by their edge and the clearance written on it."""

    def tinted(*line_of) -> QgsSymbol:
        return fill(tint(inks.SKY, 0.15), edge(simple_line(*line_of)))

    def outlined(ink: str, width_mm: float, style: str = "solid", dashes: str = "") -> QgsSymbol:
        return fill(tint(inks.WHITE, 0.0), edge(simple_line(ink, width_mm, style, dashes), of=OUTER_EDGE))

    forms = {
        "basic": ("basic area", tinted(inks.SKY, inks.AREA_MM)),
        "primary": ("primary area", tinted(inks.SKY, inks.AREA_MM)),
        "envelope": ("envelope", tinted(inks.GREY, inks.AREA_MM, "dash dot")),
        "entry": ("entry area", outlined(inks.GREY, inks.AREA_MM, dashes="2.4;1.2")),
        "secondary": ("secondary area", outlined(inks.GREY, inks.AREA_MM, dashes="6;1.2")),
        "buffer": ("buffers", outlined(inks.GREY, inks.BUFFER_MM, "dot")),
        "": ("other", outlined(inks.GREY, inks.AREA_MM)),
    }
    which = (
        "CASE WHEN \"construction\" = 'envelope' AND \"part\" = 'basic' THEN 'envelope' "
        "WHEN \"part\" LIKE 'buffer%' THEN 'buffer' ELSE \"part\" END"
    )
    categories = [QgsRendererCategory(part, symbol, title) for part, (title, symbol) in forms.items()]
    renderer = QgsCategorizedSymbolRenderer(which, categories)
    # What lies inside is drawn last: its edge is the whole of it, and its neighbour's stands below.
    inside_last = QgsFeatureRequest.OrderByClause("CASE WHEN \"part\" IN ('basic', 'primary') THEN 1 ELSE 0 END")
    renderer.setOrderBy(QgsFeatureRequest.OrderBy([inside_last]))
    renderer.setOrderByEnabled(True)
    layer.setRenderer(renderer)
    feet = f"{grouped(chr(34) + 'moc_ft' + chr(34))} || ' ft'"
    known = ' AND "moc_ft" IS NOT NULL'
    rules = []
    for where, said in (
        ("\"part\" LIKE 'buffer%'", feet),
        ("\"part\" = 'secondary'", f"'secondary ' || {feet} || ' to 0'"),
        ("\"part\" IN ('basic', 'primary')", feet),
    ):
        clearance = generated(
            label(said, on_a_line(text_format(inks.NOTE_PT, inks.GREY)), 6, along=0.5), OUTER_EDGE,
            QgsWkbTypes.GeometryType.LineGeometry,
        )  # fmt: skip
        clearance.lineSettings().setPlacementFlags(QgsLabeling.LinePlacementFlag.OnLine)
        clearance.setObstacleSettings(in_nobodys_way())
        rules.append((where + known, clearance, CLOSE))
    # A crescent's edge is its neighbour's for half its length: its own name stands where it is widest.
    widest = "pole_of_inaccessibility($geometry, sqrt(area($geometry)) / 50)"
    entry = generated(
        label(f"'entry ' || {feet}", text_format(inks.NOTE_PT, inks.GREY), 6), widest,
        QgsWkbTypes.GeometryType.PointGeometry,
    )  # fmt: skip
    entry.placement = QgsPalLayerSettings.Placement.OverPoint
    entry.setObstacleSettings(in_nobodys_way())
    rules.append(("\"part\" = 'entry'" + known, entry, CLOSE))
    layer.setLabeling(labels(*rules))


def style_construction_lines(layer: QgsVectorLayer) -> None:
    """How an area arises: crosses with their letters, arcs with letter and radius, tangents dashed."""
    forms = {
        "point": ("points", simple_line(inks.BLACK, inks.DEFINING_MM)),
        "outline": ("outlines", simple_line(inks.BLACK, inks.AREA_MM)),
        "arc": ("arcs", simple_line(inks.GREY, inks.BUFFER_MM)),
        "tangent": ("tangents", simple_line(inks.BLACK, inks.BUFFER_MM, dashes="3;1")),
        "line": ("lines", simple_line(inks.BLACK, inks.BUFFER_MM, "dash dot")),
        "": ("other", simple_line(inks.GREY, inks.BUFFER_MM)),
    }
    categories = [QgsRendererCategory(kind, line(drawn), title) for kind, (title, drawn) in forms.items()]
    layer.setRenderer(QgsCategorizedSymbolRenderer("kind", categories))
    letter = label('"letter"', text_format(inks.NOTE_PT, bold=True), 8)
    generated(letter, "centroid($geometry)", QgsWkbTypes.GeometryType.PointGeometry)
    radius = "coalesce(' ' || format_number(\"radius_nm\", 2, 'en_US') || ' NM', '')"
    named = label(f'"letter" || {radius}', text_format(inks.NOTE_PT), 2, along=0.5)
    where = '"letter" <> \'\' AND "kind"'
    layer.setLabeling(labels((f"{where} = 'point'", letter, NEAR), (f"{where} <> 'point'", named, NEAR)))


def style_lines(layer: QgsVectorLayer) -> None:
    """Lines of position: thin and black, with the radial or the distance along them."""
    layer.setRenderer(QgsSingleSymbolRenderer(line(simple_line(inks.BLACK, inks.DEFINING_MM))))
    layer.setLabeling(labels(("", label(LINE_VALUE, text_format(inks.NOTE_PT), 1, along=0.5), NEAR)))


def style_tolerances(layer: QgsVectorLayer) -> None:
    """Where the fix may be by the aids' accuracies: a tinted cell with a thin black edge."""
    symbol = fill(tint(inks.ORANGE, 0.25), edge(simple_line(inks.BLACK, inks.DEFINING_MM)))
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))
    layer.setLabeling(labels(("", label('"fix"', text_format(inks.NOTE_PT), 2), NEAR)))


def style_findings(layer: QgsVectorLayer) -> None:
    """What was found about navaids: the graver, the larger and darker the mark."""
    marks = {
        "high": simple_marker("triangle", 5.0, inks.VERMILION, inks.BLACK, 0.4),
        "medium": simple_marker("triangle", 4.0, inks.WHITE, inks.VERMILION, 0.5),
        "low": simple_marker("circle", 2.4, inks.WHITE, inks.GREY, 0.4),
        "": simple_marker("circle", 2.4, inks.GREY),
    }
    categories = [QgsRendererCategory(grade, marker(mark), grade or "other") for grade, mark in marks.items()]
    layer.setRenderer(QgsCategorizedSymbolRenderer("severity", categories))
    said = label("\"navaid\" || ': ' || replace(\"finding\", '_', ' ')", text_format(inks.NOTE_PT), 4)
    layer.setLabeling(labels(("", said, NEAR)))


def style_controlling(layer: QgsVectorLayer) -> None:
    """What decides a minimum altitude: a filled triangle with the height of its top; an open one for the runner-up."""
    decides = simple_marker("triangle", 3.2, inks.BLACK, inks.WHITE, 0.2)
    other = simple_marker("triangle", 2.6, inks.WHITE, inks.BLACK, 0.4)
    categories = [
        QgsRendererCategory(1, marker(decides), "decides the minimum altitude"),
        QgsRendererCategory(0, marker(other), "the highest of the other kind"),
    ]
    layer.setRenderer(QgsCategorizedSymbolRenderer("controls", categories))
    height = grouped('"elev_ft"')
    said = label(height, text_format(inks.NOTE_PT, bold=True), 8)
    less = label(height, text_format(inks.NOTE_PT), 2)
    layer.setLabeling(labels(('"controls" = 1', said, NEAR), ("ELSE", less, NEAR)))


STYLES = {
    "navaids": style_navaids,
    "fixes": style_fixes,
    "holds": style_holds,
    "failing": style_failing,
    "patterns": style_patterns,
    "tracks": style_tracks,
    "sectors": style_sectors,
    "flown": style_flown,
    "events": style_events,
    "by_rule": style_by_rule,
    "areas": style_areas,
    "construction_lines": style_construction_lines,
    "lines": style_lines,
    "tolerances": style_tolerances,
    "findings": style_findings,
    "controlling": style_controlling,
}


def build(folder: Path) -> list[Path]:
    """Write every style into a folder; the paths written."""
    category = QgsMapLayer.StyleCategory
    written = []
    for name, style in STYLES.items():
        fields = "&".join(f"field={field}" for field in FIELDS[name].split())
        layer = QgsVectorLayer(f"{SHAPES[name]}?crs=EPSG:4326&{fields}", name, "memory")
        style(layer)
        layer.setLabelsEnabled(True)
        path = folder / f"{name}.qml"
        kept = category.Symbology | category.Labeling
        if layer.temporalProperties().isActive():
            kept |= category.Temporal
        message, good = layer.saveNamedStyle(str(path), kept)
        if not good:
            raise OSError(message)
        dark = folder / DARK_FOLDER / f"{name}.qml"
        dark.parent.mkdir(exist_ok=True)
        dark.write_text(darkened(path.read_text(encoding="utf-8")), encoding="utf-8")
        written += [path, dark]
    return written


def darkened(style: str) -> str:
    """A style in the inks of a dark map."""
    inks_of = {_figures(light): _figures(dark) for light, dark in inks.DARK.items()}
    pattern = "|".join(re.escape(figures) for figures in inks_of)
    return re.sub(rf'(?<=")({pattern})(?=,\d+")', lambda found: inks_of[found.group(1)], style)


def _figures(ink: str) -> str:
    """An ink as styles write it: '0,114,178'."""
    return ",".join(str(int(ink[i : i + 2], 16)) for i in (1, 3, 5))


def main() -> None:
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    QgsApplication.setPrefixPath(os.environ.get("QGIS_PREFIX_PATH", "/usr"), True)
    application = QgsApplication([], False)
    application.initQgis()
    build(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
    application.exitQgis()


if __name__ == "__main__":
    main()
