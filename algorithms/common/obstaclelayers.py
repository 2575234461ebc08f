"""Reading obstacles: points, lines and polygons with their tops, and what cannot be used told."""

from __future__ import annotations

from dataclasses import dataclass

from qgis.core import QgsProcessing, QgsWkbTypes

from . import paths
from .specs import Choice, Number
from .texts import tr

UNITS = ("ft", "m")
LAYER = "OBSTACLES"


@dataclass
class Read:
    """N obstacles as geometry wants them (None where there are none), and their names."""

    obstacles: object
    names: object


def declare(algorithm) -> None:
    """Add the obstacles, their fields, unit and accuracies to an algorithm."""
    algorithm.add_source(
        LAYER,
        tr("Obstacles"),
        QgsProcessing.SourceType.TypeVectorAnyGeometry,
        tr("Points, lines or polygons with the elevation of their tops, or their height above the ground."),
        optional=True,
    )
    for name, label, found, text in (
        ("ELEVATION_FIELD", tr("Elevation of the top"), ("elev_ft", "elevation", "top_ft"), tr("Above sea level.")),
        (
            "HEIGHT_FIELD", tr("Height above the ground"), ("height_ft", "height", "agl_ft"),
            tr("Used where there is no elevation; it stands on the highest terrain under the obstacle."),
        ),
        ("NAME_FIELD", tr("Name of the obstacle"), ("name", "ident", "id"), tr("What the sentences call it.")),
    ):  # fmt: skip
        algorithm.add_field(name, label, found, text, source=LAYER)
    algorithm.add(
        Choice(
            "OBSTACLE_UNIT", tr("Unit of the obstacles"), UNITS,
            tr("Of elevations, heights and accuracies."), default="ft", dynamic=False,
        )
    )  # fmt: skip
    for name, label, text in (
        (
            "HORIZONTAL_ACCURACY", tr("Horizontal accuracy of the obstacles"),
            tr("How far an obstacle may stand from where it is drawn: it counts as that much wider."),
        ),
        (
            "VERTICAL_ACCURACY", tr("Vertical accuracy of the obstacles"),
            tr("How much higher an obstacle may be than its top says: it is added."),
        ),
    ):  # fmt: skip
        algorithm.add(Number(name, label, 0, 10000, text, default=0, advanced=True, of=LAYER))


def problem(algorithm, parameters: dict, context) -> str:
    """Why the obstacles cannot be read, in a sentence; '' where they can."""
    if LAYER not in parameters:
        return ""
    source = algorithm.parameterAsSource(parameters, LAYER, context)
    fields = source.fields()
    if not source.sourceCrs().isValid():
        return tr("{} has no coordinate reference system; set the layer's own first.").format(LAYER)
    if source.wkbType() == QgsWkbTypes.Type.NoGeometry:
        return tr("{} must have points, lines or polygons; the layer given is a table.").format(LAYER)
    if not any(algorithm.field(parameters, fields, name) for name in ("ELEVATION_FIELD", "HEIGHT_FIELD")):
        return tr(
            "{} has no field with the elevation or the height of the obstacles; its fields are {}; name one with "
            "ELEVATION_FIELD or HEIGHT_FIELD."
        ).format(LAYER, ", ".join(field.name() for field in fields) or tr("none"))
    return ""


def read(run) -> Read:
    """All obstacles. One without a top goes to the rejects, and stays where its place is known: what it stands under
    must not pass."""
    import numpy as np

    from ...geometry import obstacles, shapes
    from ...geometry.units import FT_M, NM_M

    source = run.source(LAYER)
    if source is None:
        return Read(None, np.zeros(0, dtype=object))
    feet = 1.0 / FT_M if run.constant("OBSTACLE_UNIT") == "m" else 1.0
    fields = {name: run.field(name, source) for name in ("ELEVATION_FIELD", "HEIGHT_FIELD", "NAME_FIELD")}
    grounded = "DEM" in run.parameters
    reader = run.reader(
        source, numbers={"top": fields["ELEVATION_FIELD"], "height": fields["HEIGHT_FIELD"]},
        texts={"name": fields["NAME_FIELD"]}, whole_rows=False, of=LAYER, shapes=True,
    )  # fmt: skip
    to_paths = {
        kind: paths.ToPaths(source.sourceCrs(), kind, run.context) for kind in (paths.POINT, paths.LINE, paths.POLYGON)
    }
    made, filled, columns = [], [], {name: [] for name in ("name", "top", "height", "across", "up")}
    for rows in reader:
        names = rows.names("name", tr("obstacle {}"))
        for i, feature in enumerate(rows.features):
            run.rows_in += 1
            geometry = feature.geometry()
            kind = QgsWkbTypes.geometryType(geometry.wkbType())
            shape, note, fault = to_paths.get(kind, to_paths[paths.POINT])(geometry)
            top, height = rows["top"][i], rows["height"][i]
            reason = fault or _no_top(top, height, fields, grounded) or rows.reasons[i]
            if reason:
                run.refuse([f"{LAYER} {rows.ids[i]}"], [reason])
            else:
                run.rows_out += 1
            if note:
                run.feedback.pushWarning(tr("{} {} ({}): {}").format(LAYER, rows.ids[i], names[i], note))
            if fault:
                continue
            known = not reason
            made.append(shape)
            filled.append(kind == paths.POLYGON)
            columns["name"].append(names[i])
            columns["top"].append(top * feet if known else np.nan)
            columns["height"].append(height * feet if known else np.nan)
            for name, of in (("across", "HORIZONTAL_ACCURACY"), ("up", "VERTICAL_ACCURACY")):
                columns[name].append(np.nan_to_num(rows[of][i]) * feet)
        if run.feedback.isCanceled():
            break
    names = np.array(columns.pop("name"), dtype=object)
    if not made:
        return Read(None, names)
    top, height, across, up = (np.array(columns[name], dtype=np.float64) for name in ("top", "height", "across", "up"))
    gathered = shapes.gather(made, filled=np.array(filled), width_nm=across * FT_M / NM_M)
    return Read(obstacles.obstacles(gathered, name=names, top_ft=top, height_ft=height, vertical_ft=up), names)


def _no_top(top: float, height: float, fields: dict, grounded: bool) -> str:
    """Why an obstacle has no top; '' where it has one."""
    if top == top or (height == height and grounded):
        return ""
    if height == height:
        return tr("it has only a height above the ground, and no DEM is given to stand it on")
    empty = [name for name in (fields["ELEVATION_FIELD"], fields["HEIGHT_FIELD"]) if name]
    return tr("it has no elevation: nothing stands in {}").format(tr(" or ").join(empty))
