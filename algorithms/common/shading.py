"""Terrain as a quiet shading below a map."""

from __future__ import annotations

from qgis.core import QgsBilinearRasterResampler, QgsHillshadeRenderer, QgsRasterLayer

LIGHT_FROM_DEG, LIGHT_ABOVE_DEG = 315.0, 45.0
"""Light from the north-west, as cartographers draw relief."""
OPACITY = 0.3
BRIGHTER = 75
"""Level ground is then white, of the 255 steps there are: the shading is of slopes alone."""
METRES_A_DEGREE = 111_320.0


def shaded(terrain: QgsRasterLayer) -> QgsRasterLayer:
    """A copy of a layer of heights, drawn as a shading at 30 %."""
    layer = terrain.clone()
    renderer = QgsHillshadeRenderer(layer.dataProvider(), 1, LIGHT_FROM_DEG, LIGHT_ABOVE_DEG)
    renderer.setZFactor(1.0 / METRES_A_DEGREE if layer.crs().isGeographic() else 1.0)
    renderer.setMultiDirectional(True)
    layer.setRenderer(renderer)
    for set_ in (layer.resampleFilter().setZoomedInResampler, layer.resampleFilter().setZoomedOutResampler):
        set_(QgsBilinearRasterResampler())  # else cells that are larger than a dot show as stripes
    layer.brightnessFilter().setBrightness(BRIGHTER)
    layer.setOpacity(OPACITY)
    return layer
