"""Routes from a layer of lines."""

from __future__ import annotations

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsFeatureRequest,
    QgsProcessingFeatureSource,
)

from .texts import tr
from .values import field_index, text

NAME_FIELDS = ("route", "name", "ident")


def read_routes(run, parameter: str = "ROUTE") -> list:
    """(name, geometry.routes.Route) of every line of a layer, a part each; a line that is none is told and left out."""
    from ...geometry.routes import Route

    source = run.source(parameter)
    transform = QgsCoordinateTransform(
        source.sourceCrs(), QgsCoordinateReferenceSystem("EPSG:4326"), run.context.transformContext()
    )
    named = next((i for i in (field_index(source.fields(), n) for n in NAME_FIELDS) if i >= 0), -1)
    routes = []
    unchecked = QgsProcessingFeatureSource.Flag.FlagSkipGeometryValidityChecks  # one bad line does not end the run
    for feature in source.getFeatures(QgsFeatureRequest(), unchecked):
        name = (text(feature[named]) if named >= 0 else "") or tr("route {}").format(feature.id())
        geometry = feature.geometry()
        if geometry.isNull() or geometry.isEmpty():
            run.feedback.pushWarning(tr("{} is left out: {}").format(name, tr("it has no line")))
            continue
        try:
            geometry.transform(transform)
            for part in geometry.parts():
                corners = [(vertex.x(), vertex.y()) for vertex in part.vertices()]
                routes.append((name, Route([x for x, _ in corners], [y for _, y in corners])))
        except (QgsCsException, ValueError) as fault:
            run.feedback.pushWarning(tr("{} is left out: {}").format(name, fault))
    return routes
