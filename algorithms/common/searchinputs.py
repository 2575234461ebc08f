"""What a search is tested against, read as the tests of their own read it: terrain, obstacles, airspace."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterRasterLayer, QgsProperty

from . import airspacelayers, obstaclelayers
from .run import Run
from .specs import Choice, Number
from .texts import tr
from .values import field_index

DEM_UNITS = ("m", "ft")
ACCURACIES = {"HORIZONTAL_ACCURACY": "across_ft", "VERTICAL_ACCURACY": "up_ft"}
"""Accuracies of obstacles and the fields that give them, where the layer has them, as in a built area."""


class _Reading(Run):
    """A run of another algorithm that only reads: what it refuses is told in the log."""

    def refuse(self, source_ids: list, reasons: list) -> None:
        super().refuse(source_ids, reasons)
        for which, why in zip(source_ids, reasons):
            self.feedback.pushWarning(f"{which}: {why}")


def declare(algorithm) -> None:
    """Add the layers and the distances from airspace to an algorithm."""
    algorithm.add_other(
        QgsProcessingParameterRasterLayer("DEM", tr("Terrain"), None, True),
        tr("Raster of terrain heights above sea level in its first band, in any CRS. Not given: not tested."),
    )
    algorithm.add(
        Choice("DEM_UNIT", tr("Unit of the terrain"), DEM_UNITS, tr("Metres or feet."), default="m", dynamic=False)
    )
    algorithm.add_source(
        "OBSTACLES",
        tr("Obstacles"),
        QgsProcessing.SourceType.TypeVectorAnyGeometry,
        tr(
            "Points, lines or polygons with the field elev_ft, or height_ft above ground; across_ft and up_ft, how far "
            "off it may be. Not given: not tested."
        ),
        optional=True,
    )
    for name, label, kind, text in (
        ("AIRSPACE", tr("Airspace"), QgsProcessing.SourceType.TypeVectorPolygon,
         tr("Polygons with the fields name, lower and upper.")),
        ("ROUTES", tr("Airways and other routes"), QgsProcessing.SourceType.TypeVectorLine,
         tr("Lines with the same fields and half_width_nm.")),
        ("PLACES", tr("Places of activity"), QgsProcessing.SourceType.TypeVectorPoint,
         tr("Points with the same fields and radius_nm: parachuting, gliding, circuits.")),
    ):  # fmt: skip
        algorithm.add_source(name, label, kind, text, optional=True)
    for name, label, unit, most, default in (
        ("DISTANCE_NM", tr("Distance sideways from airspace"), "NM", 100, 2),
        ("DISTANCE_FT", tr("Distance in height from airspace"), "ft", 20000, 500),
    ):
        text = tr("How near is too near.")
        algorithm.add(Number(name, label, 0, most, text, unit, default=default, dynamic=False))


def problem(algorithm, parameters: dict, context) -> str:
    """Why the layers cannot be used, in the words of the tests that read them; '' where they can."""
    from ..airspacetest import AirspaceTest
    from ..minimumaltitude import MinimumAltitude
    from . import rasterblocks

    said = ""
    if "DEM" in parameters:
        said = rasterblocks.problem(algorithm.parameterAsRasterLayer(parameters, "DEM", context))
    if not said and any(name in parameters for name in airspacelayers.LAYERS):
        said = airspacelayers.problem(AirspaceTest().create(), parameters, context)
    return said or obstaclelayers.problem(MinimumAltitude().create(), parameters, context)


def rasters(algorithm, parameters: dict, context) -> tuple:
    """The terrain's heights in blocks, and the same for rays; None each where there is no DEM. In the main thread."""
    if "DEM" not in parameters:
        return None, None
    from .rasterblocks import RasterBlocks
    from .terrain import RasterTerrain

    layer = algorithm.parameterAsRasterLayer(parameters, "DEM", context)
    unit = algorithm.constant(parameters, "DEM_UNIT")
    return tuple(made(layer, unit, context.transformContext()) for made in (RasterBlocks, RasterTerrain))


def read(run: Run, blocks, terrain):
    """The surroundings of a search. blocks, terrain, of rasters()."""
    from ...geometry.plan.candidates import Surroundings

    return Surroundings(
        None if blocks is None else blocks.grid(), terrain, _obstacles(run), _spaces(run), run.constant("DISTANCE_NM"),
        run.constant("DISTANCE_FT"),
    )  # fmt: skip


def _as_read_by(algorithm, run: Run, names: tuple[str, ...]) -> _Reading:
    given = {name: run.parameters[name] for name in names if name in run.parameters}
    return _Reading(algorithm.create(), given, run.context, run.feedback)


def _obstacles(run: Run):
    from ..minimumaltitude import MinimumAltitude

    source = run.source("OBSTACLES")
    if source is None:
        return None
    reading = _as_read_by(MinimumAltitude(), run, ("DEM", "DEM_UNIT", "OBSTACLES"))
    for name, field in ACCURACIES.items():
        if field_index(source.fields(), field) >= 0:
            reading.parameters[name] = QgsProperty.fromField(field)
    return obstaclelayers.read(reading).obstacles


def _spaces(run: Run):
    import numpy as np

    from ...geometry import airspace, shapes
    from ..airspacetest import AirspaceTest

    if not any(name in run.parameters for name in airspacelayers.LAYERS):
        return None
    reading = _as_read_by(AirspaceTest(), run, tuple(airspacelayers.LAYERS))
    read_ = airspacelayers.read(reading)
    if read_.left_out:
        said = tr("{} airspaces without a known shape or width are not among those that are tested")
        run.feedback.pushWarning(said.format(read_.left_out))
    columns = {name: np.array(values, dtype=object) for name, values in read_.texts.items()}
    made = shapes.gather(read_.paths, filled=np.array(read_.filled, dtype=bool), width_nm=np.array(read_.width_nm))
    problems = np.empty(len(read_), dtype=object)
    problems[:] = read_.problems
    return airspace.spaces(made, columns["lower"], columns["upper"], reading.constant("PLAIN_UNIT"), problems)
