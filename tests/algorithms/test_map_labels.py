"""The sample area as a map from 1 : 100 000 to 1 : 2 000 000: what is written on it collides with nothing."""

from __future__ import annotations

import math

import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsExpressionContextUtils,
    QgsGeometry,
    QgsMapRendererSequentialJob,
    QgsMapSettings,
    QgsPointXY,
    QgsRectangle,
)
from qgis.PyQt.QtCore import QSize

from fixwright.tests.algorithms.layers import run

WIDE_MM, HIGH_MM, DPI = 400, 300, 96
MIDDLE = -40.02, 43.08
SCALES = (100_000, 250_000, 500_000, 700_000, 1_000_000, 2_000_000)
SYMBOL_MM = {"navaids": 2.3, "fixes": 1.4}
"""Half the size of what stands there, as the styles draw it."""


@pytest.fixture(scope="module")
def project_file(root, tmp_path_factory):
    folder = tmp_path_factory.mktemp("labels")
    samples = root / "sample_layers"
    made = run(
        "buildarea", NAVAIDS=f"{samples / 'navaids.gpkg'}|layername=navaids", PLAN=str(samples / "plan.csv"),
        AIRCRAFT=str(samples / "aircraft.csv"), DATE="2026-09-01", FOLDER=str(folder),
    )  # fmt: skip
    assert made.counts[0] == 12
    return folder / "training-area.qgz"


class Map:
    """A project's layers drawn at a scale, with the labels on them."""

    def __init__(self, project, scale: float, wanted: tuple[str, ...]):
        nodes = project.layerTreeRoot().findLayers()
        self.layers = {node.layer().source().partition("layername=")[2]: node.layer() for node in nodes
                       if node.isVisible() or node.layer().source().endswith(wanted)}  # fmt: skip
        for layer in self.layers.values():
            layer.setLabelsEnabled(True)
        self.mm = scale / 1000.0
        settings = QgsMapSettings()
        settings.setLayers(list(self.layers.values()))
        settings.setOutputDpi(DPI)
        settings.setOutputSize(QSize(round(WIDE_MM / 25.4 * DPI), round(HIGH_MM / 25.4 * DPI)))
        settings.setDestinationCrs(project.crs())
        settings.setTransformContext(project.transformContext())
        settings.setFlag(QgsMapSettings.Flag.DrawLabeling, True)
        self.project = project
        x, y = self.moved(QgsCoordinateReferenceSystem("EPSG:4326")).transform(QgsPointXY(*MIDDLE))
        half = QgsPointXY(WIDE_MM / 2.0 * self.mm, HIGH_MM / 2.0 * self.mm)
        self.view = QgsRectangle(x - half.x(), y - half.y(), x + half.x(), y + half.y())
        settings.setExtent(self.view)
        assert settings.scale() == pytest.approx(scale, rel=0.002)
        context = project.createExpressionContext()
        context.appendScope(QgsExpressionContextUtils.mapSettingsScope(settings))
        settings.setExpressionContext(context)
        job = QgsMapRendererSequentialJob(settings)
        job.start()
        job.waitForFinished()
        names = {layer.id(): name for name, layer in self.layers.items()}
        found = job.takeLabelingResults().allLabels()
        placed = {}
        for label in found:  # one that is never dropped can stand twice in the list, in the same place
            placed[(label.layerID, label.featureId, label.labelText, label.cornerPoints[0].toString(0))] = label
        self.placed = [(names[one.layerID], one.labelText, one.labelGeometry) for one in placed.values()]

    def moved(self, crs) -> QgsCoordinateTransform:
        return QgsCoordinateTransform(crs, self.project.crs(), self.project)

    def mm2(self, one: QgsGeometry, other: QgsGeometry) -> float:
        """What two shapes share, in square millimetres of the map."""
        return one.intersection(other).area() / self.mm**2

    def collisions(self):
        return [
            (one[:2], other[:2])
            for i, one in enumerate(self.placed)
            for other in self.placed[i + 1 :]
            if self.mm2(one[2], other[2]) > 0.1
        ]

    def symbols(self, name: str):
        """(feature, discs of a layer's symbols) within the view."""
        layer = self.layers[name]
        for feature in layer.getFeatures():
            shape = QgsGeometry(feature.geometry())
            shape.transform(self.moved(layer.crs()))
            if self.view.contains(shape.asPoint()):
                yield feature, shape.buffer(SYMBOL_MM.get(name, 0.5) * self.mm, 8)


@pytest.mark.parametrize("wanted", [(), ("flown", "events", "by_rule", "sectors")], ids=["as opened", "with flights"])
@pytest.mark.parametrize("scale", SCALES)
def test_labels_collide_with_nothing(empty_project, project_file, scale, wanted):
    """Labels of fixes too, which the project leaves off; and no name of a hold or inbound course is dropped."""
    assert empty_project.read(str(project_file))
    drawn = Map(empty_project, scale, wanted)
    assert drawn.collisions() == []
    for name in SYMBOL_MM:
        for feature, disc in drawn.symbols(name):
            if name == "fixes" and feature["method"] == "overhead":
                continue  # nothing is drawn over the navaid
            share = 0.1 * math.pi * SYMBOL_MM[name] ** 2
            assert [text for _, text, box in drawn.placed if drawn.mm2(box, disc) > share] == [], feature[0]
    said = [text.split("\n")[0] for name, text, _ in drawn.placed if name == "holds"]
    # Where there is too little room for both, a hold that fails is named by the label that says so: QGIS chooses.
    failing = {text.partition(" FAILS")[0] for name, text, _ in drawn.placed if name == "failing"}
    for feature, _ in drawn.symbols("holds"):
        assert said.count(feature["hold"]) == 1 or (said.count(feature["hold"]) == 0 and feature["hold"] in failing)
    idents = [text for name, text, _ in drawn.placed if name == "navaids"]
    assert {feature["ident"] for feature, _ in drawn.symbols("navaids")} <= set(idents)
    if scale <= 750_000:
        courses = [text for name, text, _ in drawn.placed if name == "tracks"]
        for feature, _ in drawn.symbols("holds"):
            course = (round(feature["inbound_model_deg"]) - 1) % 360 + 1
            assert f"{course:03d}" in courses


def test_arrow_heads_leave_the_pattern_to_be_seen(empty_project, project_file):
    """On a far map a head is no larger than a quarter of its pattern."""
    from qgis.core import QgsSymbolLayer

    assert empty_project.read(str(project_file))
    drawn = Map(empty_project, 2_000_000, ())
    layer = drawn.layers["patterns"]
    heads = layer.renderer().symbol().symbolLayers()[1].subSymbol().symbolLayers()[0].subSymbol().symbolLayers()[0]
    size = heads.dataDefinedProperties().property(QgsSymbolLayer.Property.PropertySize)
    for scale, most in ((2_000_000, 1.5), (100_000, 3.2)):
        context = empty_project.createExpressionContext()
        context.appendScope(layer.createExpressionContextScope())
        scope = context.lastScope()
        scope.setVariable("map_scale", scale)
        for feature in layer.getFeatures():
            context.setFeature(feature)
            mm, good = size.valueAsDouble(context, -1.0)
            shape = QgsGeometry(feature.geometry())
            shape.transform(drawn.moved(layer.crs()))
            box = shape.boundingBox()
            long_mm = math.hypot(box.width(), box.height()) / scale * 1000.0
            assert good and 0.0 < mm <= min(3.2, 0.27 * long_mm), (feature["hold"], scale, most)
