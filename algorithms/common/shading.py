"""Terrain as a quiet shading below a map."""

from __future__ import annotations

from qgis.core import Qgis, QgsHillshadeRenderer, QgsRasterDataProvider, QgsRasterLayer

LIGHT_FROM_DEG, LIGHT_ABOVE_DEG = 315.0, 45.0
"""Light from the north-west, as cartographers draw relief."""
OPACITY = 0.3
BRIGHTER = 75
"""Level ground is then white, of the 255 steps there are: the shading is of slopes alone."""
STEEPER = 3.0
"""Heights are drawn so many times as high: on a map of this scale hills would else be flat."""
METRES_A_DEGREE = 111_320.0


def shaded(terrain: QgsRasterLayer) -> QgsRasterLayer:
    """A copy of a layer of heights, drawn as a shading at 30 %."""
    layer = terrain.clone()
    renderer = QgsHillshadeRenderer(layer.dataProvider(), 1, LIGHT_FROM_DEG, LIGHT_ABOVE_DEG)
    renderer.setZFactor(STEEPER / METRES_A_DEGREE if layer.crs().isGeographic() else STEEPER)
    renderer.setMultiDirectional(True)
    layer.setRenderer(renderer)
    # The heights are made smooth, not the shading of them: else each cell larger than a dot shows its edges.
    provider, method = layer.dataProvider(), QgsRasterDataProvider.ResamplingMethod
    if provider.enableProviderResampling(True):
        provider.setZoomedInResamplingMethod(method.Cubic)
        provider.setZoomedOutResamplingMethod(method.Bilinear)
        layer.setResamplingStage(Qgis.RasterResamplingStage.Provider)
    layer.brightnessFilter().setBrightness(BRIGHTER)
    layer.setOpacity(OPACITY)
    return layer
