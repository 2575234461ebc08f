"""Styles and symbols: each layer's QML loads, carries its pictures, and is what its script makes."""

from __future__ import annotations

import base64
import os
import re
import subprocess
import sys
import xml.dom.minidom

import pytest
from qgis.core import (
    QgsExpression,
    QgsExpressionContext,
    QgsExpressionContextUtils,
    QgsFeature,
    QgsGeometry,
    QgsMapRendererSequentialJob,
    QgsMapSettings,
    QgsRectangle,
    QgsVectorLayer,
    QgsWkbTypes,
)
from qgis.PyQt.QtCore import QSize
from qgis.PyQt.QtGui import QColor

LAYERS = ("navaids", "fixes", "holds", "patterns", "tracks", "sectors", "flown", "events", "by_rule", "areas",
          "failing", "construction_lines", "lines", "tolerances", "findings", "controlling")  # fmt: skip


def empty_layer(name):
    from fixwright.algorithms.common.schema import LAYERS as DESCRIBED
    from fixwright.algorithms.common.schema import fields_of

    layer_schema = DESCRIBED[name]
    shape = QgsWkbTypes.displayString(layer_schema.wkb_type)
    layer = QgsVectorLayer(f"{shape}?crs=EPSG:4326", name, "memory")
    fields, _ = fields_of(layer_schema)
    layer.dataProvider().addAttributes(list(fields))
    layer.updateFields()
    return layer


def styled(root, name, wkt, **attributes):
    layer = empty_layer(name)
    message, good = layer.loadNamedStyle(str(root / "plugin" / "styles" / f"{name}.qml"))
    assert good, message
    feature = QgsFeature(layer.fields())
    feature.setGeometry(QgsGeometry.fromWkt(wkt))
    for key, value in attributes.items():
        feature[key] = value
    layer.dataProvider().addFeatures([feature])
    layer.updateExtents()
    return layer


def drawn(layer, box=(-0.2, -0.2, 0.2, 0.2)):
    settings = QgsMapSettings()
    settings.setLayers([layer])
    settings.setDestinationCrs(layer.crs())
    settings.setOutputSize(QSize(300, 300))
    settings.setExtent(QgsRectangle(*box))
    settings.setBackgroundColor(QColor("white"))
    job = QgsMapRendererSequentialJob(settings)
    job.start()
    job.waitForFinished()
    return job.renderedImage()


def inked(image, x0=0, y0=0, x1=300, y1=300):
    """Share of pixels that are not white."""
    dark = sum(image.pixelColor(x, y) != QColor("white") for x in range(x0, x1) for y in range(y0, y1))
    return dark / ((x1 - x0) * (y1 - y0))


def darkness(image, x0, y0, x1, y1):
    """How much ink there is, counting greys by their depth."""
    return sum(255 - image.pixelColor(x, y).lightness() for x in range(x0, x1) for y in range(y0, y1))


@pytest.mark.parametrize("name", LAYERS)
def test_style_loads(root, name):
    layer = empty_layer(name)
    message, good = layer.loadNamedStyle(str(root / "plugin" / "styles" / f"{name}.qml"))
    assert good, message
    assert layer.renderer() is not None
    assert layer.labelsEnabled() == (layer.labeling() is not None)


@pytest.mark.parametrize("name", LAYERS)
def test_expressions_of_a_style_can_be_read(root, name):
    """Filters and labels: an expression that cannot be parsed draws nothing, and nobody is told."""
    layer = empty_layer(name)
    layer.loadNamedStyle(str(root / "plugin" / "styles" / f"{name}.qml"))
    labeling = layer.labeling()
    found = []
    for key in labeling.subProviders() if labeling is not None else ():
        settings = labeling.settings(key)
        if settings.drawLabels:
            found.append(settings.fieldName if settings.isExpression else f'"{settings.fieldName}"')
    renderer = layer.renderer()
    found += [rule.filterExpression() for rule in renderer.rootRule().descendants()] if (
        renderer.type() == "RuleRenderer") else []  # fmt: skip
    found += [renderer.classAttribute()] if renderer.type() == "categorizedSymbol" else []
    for text in found:
        read = QgsExpression(text)
        assert not read.hasParserError(), (text, read.parserErrorString())
        assert set(read.referencedColumns()) <= set(layer.fields().names()), text


@pytest.mark.parametrize(("rule", "said"), [("single", "1×"), ("double", "2×"), ("triple", "3×")])
def test_a_circuit_by_a_rule_of_thumb_is_labelled(root, rule, said):
    layer = styled(root, "by_rule", "MULTILINESTRINGM((-0.1 0 0, 0.1 0 60))", rule=rule)
    (key,) = layer.labeling().subProviders()
    context = QgsExpressionContext(QgsExpressionContextUtils.globalProjectLayerScopes(layer))
    context.setFeature(next(layer.getFeatures()))
    assert QgsExpression(layer.labeling().settings(key).fieldName).evaluate(context) == said


def test_rules_of_thumb_are_told_apart_without_colour(root):
    """The share of ink along the line grows with the rule, and each is thinner than what is flown."""
    wkt = "MULTILINESTRINGM((-0.19 0 0, 0.19 0 60))"
    shares = []
    for rule in ("single", "double", "triple"):
        layer = styled(root, "by_rule", wkt, rule=rule)
        layer.setLabelsEnabled(False)
        shares.append(inked(drawn(layer), 20, 148, 280, 153))
    assert 0.0 < shares[0] < 0.8 * shares[1] and shares[1] < 0.95 * shares[2]
    flown = styled(root, "flown", wkt, circuit=1)
    assert inked(drawn(flown), 60, 140, 100, 160) > 1.2 * shares[2] * 5 / 20


@pytest.mark.parametrize("name", LAYERS)
def test_style_refers_to_no_file(root, name):
    """Every picture stands in the style, so that a style in a GeoPackage or a project needs no file elsewhere."""
    text = (root / "plugin" / "styles" / f"{name}.qml").read_text(encoding="utf-8")
    assert not re.search(r'"[^"]*\.svg"', text)
    assert "/home/" not in text and "/usr/" not in text
    pictures = set(re.findall(r'"base64:([^"]*)"', text))
    assert len(pictures) == {"navaids": 9, "fixes": 1}.get(name, 0)
    ours = {path.read_bytes() for path in (root / "plugin" / "symbols").glob("*.svg")}
    assert {base64.b64decode(picture) for picture in pictures} <= ours


def test_every_layer_with_a_shape_has_a_style():
    from fixwright.algorithms.common.schema import LAYERS as DESCRIBED
    from fixwright.algorithms.common.schema import TABLE

    assert {name for name, layer in DESCRIBED.items() if layer.geometry != TABLE} == set(LAYERS)


def test_every_symbol_and_icon_is_plain_svg(root):
    for folder in ("symbols", "icons"):
        files = sorted((root / "plugin" / folder).glob("*.svg"))
        assert files
        for path in files:
            top = xml.dom.minidom.parse(str(path)).documentElement
            assert top.tagName == "svg", path.name
            assert top.getElementsByTagName("title"), path.name
            text = path.read_text(encoding="utf-8")
            assert "<script" not in text and "href" not in text and "<!--" not in text, path.name
            if folder == "symbols":
                assert "param(outline)" in text, path.name


def test_every_algorithm_has_its_icon(root, provider):
    for algorithm in provider.algorithms():
        assert (root / "plugin" / "icons" / f"{algorithm.name()}.svg").is_file(), algorithm.name()


@pytest.mark.parametrize("kind", ["VOR", "VOR/DME", "VORTAC", "TACAN", "DME", "NDB", "NDB/DME", "WPT", "unheard of"])
def test_each_kind_of_navaid_draws(root, kind):
    layer = styled(root, "navaids", "POINT(0 0)", kind=kind)
    layer.setLabelsEnabled(False)
    assert inked(drawn(layer), 130, 130, 170, 170) > 0.02, kind


def test_kinds_of_navaids_look_different(root):
    seen = set()
    for kind in ("VOR", "VOR/DME", "VORTAC", "TACAN", "DME", "NDB", "NDB/DME", "WPT"):
        layer = styled(root, "navaids", "POINT(0 0)", kind=kind)
        layer.setLabelsEnabled(False)
        image = drawn(layer)
        seen.add(tuple(image.pixel(x, y) for x in range(130, 170) for y in range(130, 170)))
    assert len(seen) == 8


def test_out_of_service_is_crossed(root):
    good = drawn(styled(root, "navaids", "POINT(0 0)", kind="VOR", status="in service"))
    out = drawn(styled(root, "navaids", "POINT(0 0)", kind="VOR", status="out of service"))
    assert inked(out) > inked(good)


def test_the_rose_stands_on_the_stations_north(root):
    """Turned by the declination: with 0 and 90 degrees the arrow of north is at the top and at the right."""
    up = styled(root, "navaids", "POINT(0 0)", kind="VOR", decl_deg=0.0)
    right = styled(root, "navaids", "POINT(0 0)", kind="VOR", decl_deg=90.0)
    for layer in (up, right):
        layer.setLabelsEnabled(False)
    at_top, at_right = (147, 120, 154, 127), (174, 147, 181, 154)
    assert darkness(drawn(up), *at_top) > 1.2 * darkness(drawn(right), *at_top)
    assert darkness(drawn(right), *at_right) > 1.2 * darkness(drawn(up), *at_right)


def test_a_failing_hold_is_hatched_and_framed_without_colour(root):
    """Black on white: ink all over the area, and a frame that is thicker than that of a holding area."""
    wkt = "MULTIPOLYGON(((-0.15 -0.15, 0.15 -0.15, 0.15 0.15, -0.15 0.15, -0.15 -0.15)))"
    frames = []
    for name, values in (
        ("failing", {"hold": "E05", "tests": "status"}),
        ("areas", {"part": "basic", "construction": "template"}),
    ):
        layer = styled(root, name, wkt, **values)
        layer.setLabelsEnabled(False)
        image = drawn(layer)
        frames.append(sum(image.pixelColor(x, 150).lightness() < 210 for x in range(30, 46)))
        if name == "failing":
            for x in range(60, 240, 45):
                for y in range(60, 240, 45):
                    assert 0.0 < inked(image, x, y, x + 45, y + 45) < 0.5
            colours = {image.pixelColor(x, y).saturation() for x in range(300) for y in range(0, 300, 7)}
            assert colours == {0}
    assert frames[0] >= 2 * frames[1] > 0


def label_of(layer) -> str:
    (key,) = layer.labeling().subProviders()
    context = QgsExpressionContext(QgsExpressionContextUtils.globalProjectLayerScopes(layer))
    context.setFeature(next(layer.getFeatures()))
    return QgsExpression(layer.labeling().settings(key).fieldName).evaluate(context)


def test_a_failing_hold_has_the_word(root):
    for name, wkt, values, said in (
        (
            "failing",
            "MULTIPOLYGON(((0 0, 1 0, 1 1, 0 0)))",
            {"tests": "status, airspace"},
            "E05 FAILS: status, airspace",
        ),
        ("holds", "POINT(0 0)", {"failed": "status"}, "E05\nFAILS"),
        ("holds", "POINT(0 0)", {}, "E05"),
    ):
        layer = styled(root, name, wkt, hold="E05", **values)
        assert label_of(layer) == said
        (key,) = layer.labeling().subProviders()
        settings = layer.labeling().settings(key)
        assert settings.priority == 10 and settings.displayAll == (name == "failing")


def test_no_seam_where_a_pattern_is_split_at_180_degrees(root):
    """Each half is drawn without the edge along the meridian."""
    west = "((179.9 -0.1, 180 -0.1, 180 0.1, 179.9 0.1, 179.9 -0.1))"
    east = "((-180 -0.1, -179.9 -0.1, -179.9 0.1, -180 0.1, -180 -0.1))"
    wkt = f"MULTIPOLYGON({west},{east})"
    for name in ("patterns", "areas", "failing"):
        layer = styled(root, name, wkt, **({"part": "basic", "construction": "template"} if name == "areas" else {}))
        if name == "failing":  # its hatch stands aside
            layer.setLabelsEnabled(False)
            layer.renderer().symbol().deleteSymbolLayer(0)
        image = drawn(layer, (179.8, -0.2, 180.2, 0.2))
        assert inked(image) > 0.0
        edge_at_180 = [image.pixelColor(149, y) for y in range(100, 200)]
        inside = [image.pixelColor(130, y) for y in range(100, 200)]
        assert edge_at_180 == inside, name


def test_a_ring_split_at_180_degrees_has_its_outer_edge_only(root):
    """The inner edge is the neighbour's: drawn twice, dashes and dots of both would mix."""
    west = ("((179.85 -0.15, 180 -0.15, 180 -0.07, 179.93 -0.07, 179.93 0.07, 180 0.07, 180 0.15, 179.85 0.15, "
            "179.85 -0.15))")  # fmt: skip
    east = ("((-180 -0.15, -179.85 -0.15, -179.85 0.15, -180 0.15, -180 0.07, -179.93 0.07, -179.93 -0.07, "
            "-180 -0.07, -180 -0.15))")  # fmt: skip
    layer = styled(root, "areas", f"MULTIPOLYGON({west},{east})", part="secondary", construction="outline")
    for box in ((179.8, -0.2, 180.2, 0.2), (-180.2, -0.2, -179.8, 0.2)):
        image = drawn(layer, box)
        left = box[0] > 0  # the half on this side of the meridian is seen
        outer, inner = ((33, 43), (92, 103)) if left else ((257, 267), (197, 208))
        assert inked(image, outer[0], 80, outer[1], 220) > 0.05
        assert inked(image, inner[0], 110, inner[1], 190) == 0.0
        assert inked(image, 146, 110, 154, 190) == 0.0  # no seam either


def test_the_script_makes_these_styles(root, tmp_path):
    """Byte for byte with the version that made them; what another version writes differs in form."""
    command = [sys.executable, str(root / "plugin" / "styles" / "build.py"), str(tmp_path)]
    run = subprocess.run(command, env={**os.environ, "QT_HASH_SEED": "0"}, capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    same_version = 'version="3.22.' in (tmp_path / "fixes.qml").read_text(encoding="utf-8")
    for name in (*LAYERS, *(f"dark/{name}" for name in LAYERS)):
        new, kept = ((folder / f"{name}.qml").read_bytes() for folder in (tmp_path, root / "plugin" / "styles"))
        assert new if not same_version else new == kept, name


@pytest.mark.parametrize("name", LAYERS)
def test_a_dark_map_has_its_own_inks(root, name):
    """Nothing is black there, halos are dark, and what is drawn is the same."""
    layer = empty_layer(name)
    message, good = layer.loadNamedStyle(str(root / "plugin" / "styles" / "dark" / f"{name}.qml"))
    assert good, message
    light, dark = ((root / "plugin" / "styles" / place / f"{name}.qml").read_text("utf-8") for place in ("", "dark"))
    assert '"0,0,0,255"' not in dark and '"255,255,255,255"' not in dark
    assert re.sub(r"\d+,\d+,\d+,", "", light) == re.sub(r"\d+,\d+,\d+,", "", dark)


def test_a_dark_pattern_is_light_on_dark(root):
    layer = empty_layer("fixes")
    assert layer.loadNamedStyle(str(root / "plugin" / "styles" / "dark" / "fixes.qml"))[1]
    labels = layer.labeling().rootRule().children()[0].settings().format()
    assert labels.color().lightness() > 200 and labels.buffer().color().lightness() < 60
