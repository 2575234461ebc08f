"""The raster of terrain heights that tests take: its parameters, what is wrong with it, and how it is read."""

from __future__ import annotations

from qgis.core import QgsProcessingParameterRasterLayer

from .specs import Choice
from .texts import tr

UNITS = ("m", "ft")


def declare(algorithm, more: str) -> None:
    """Add DEM and DEM_UNIT to an algorithm. more, how the sentence on the raster goes on."""
    algorithm.add_other(
        QgsProcessingParameterRasterLayer("DEM", tr("Terrain"), None, True),
        tr("Raster of terrain heights above sea level in its first band, in any CRS") + more,
    )
    algorithm.add(
        Choice("DEM_UNIT", tr("Unit of the terrain"), UNITS, tr("Metres or feet."), default="m", dynamic=False)
    )


def problem(algorithm, parameters: dict, context) -> str:
    """Why the raster cannot be used; '' where it can, or none is given."""
    if "DEM" not in parameters:
        return ""
    from . import rasterblocks

    return rasterblocks.problem(algorithm.parameterAsRasterLayer(parameters, "DEM", context))


def blocks(algorithm, parameters: dict, context):
    """The heights in blocks, or None where no raster is given. In the main thread."""
    from .rasterblocks import RasterBlocks

    return _opened(RasterBlocks, algorithm, parameters, context)


def terrain(algorithm, parameters: dict, context):
    """The heights along rays and at places, or None where no raster is given. In the main thread."""
    from .terrain import RasterTerrain

    return _opened(RasterTerrain, algorithm, parameters, context)


def _opened(kind: type, algorithm, parameters: dict, context):
    if "DEM" not in parameters:
        return None
    layer = algorithm.parameterAsRasterLayer(parameters, "DEM", context)
    return kind(layer, algorithm.constant(parameters, "DEM_UNIT"), context.transformContext())
