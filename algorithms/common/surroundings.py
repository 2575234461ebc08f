"""Terrain, obstacles and airspace as a whole area or a search takes them: in the forms that their tests read."""

from __future__ import annotations

from qgis.core import QgsProcessing

from . import airspacelayers, demlayer, obstaclelayers
from .texts import tr

ACCURACIES = {"HORIZONTAL_ACCURACY": "across_ft", "VERTICAL_ACCURACY": "up_ft"}
"""Parameters of the minimum altitude, and the fields of the obstacles that give them, where the layer has them."""


def declare(algorithm) -> None:
    """Add DEM, OBSTACLES, AIRSPACE, ROUTES and PLACES to an algorithm."""
    demlayer.declare(algorithm, tr(". Not given: not tested."))
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
         tr("Polygons with the fields name, lower and upper, and where known kind, hours and contact.")),
        ("ROUTES", tr("Airways and other routes"), QgsProcessing.SourceType.TypeVectorLine,
         tr("Lines with the same fields and half_width_nm.")),
        ("PLACES", tr("Places of activity"), QgsProcessing.SourceType.TypeVectorPoint,
         tr("Points with the same fields and radius_nm: parachuting, gliding, circuits.")),
    ):  # fmt: skip
        algorithm.add_source(name, label, kind, text, optional=True)


def problem(algorithm, parameters: dict, context) -> str:
    """Why the layers cannot be used, in the words of the tests that read them; '' where they can."""
    from ..airspacetest import AirspaceTest
    from ..minimumaltitude import MinimumAltitude

    said = demlayer.problem(algorithm, parameters, context)
    if not said and any(name in parameters for name in airspacelayers.LAYERS):
        said = airspacelayers.problem(AirspaceTest().create(), parameters, context)
    return said or obstaclelayers.problem(MinimumAltitude().create(), parameters, context)
