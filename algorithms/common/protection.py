"""What Protected areas reads beside the holds: tolerance areas, arrivals, and a state's templates as tables."""

from __future__ import annotations

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsFeatureRequest,
    QgsProcessingFeatureSource,
    QgsWkbTypes,
)

from .tables import Table
from .texts import tr
from .values import field_index, number, text

ENTRY_FIELDS = ("hold", "arrival_heading_deg")
OUTLINE_FIELDS = ("name", "along_nm", "across_nm")
SELECTION_FIELD = "outline"
SELECTION_NUMBERS = (
    "alt_from_ft", "alt_to_ft", "ias_from_kt", "ias_to_kt", "distance_from_nm", "distance_to_nm",
)  # fmt: skip


def rings_by_fix(run):
    """The corners of each fix's tolerance area as longitude and latitude (V, 2); None where no layer is given."""
    import numpy as np

    source = run.source("FIX_TOLERANCE")
    if source is None:
        return None
    index = field_index(source.fields(), "fix")
    transform = QgsCoordinateTransform(
        source.sourceCrs(), QgsCoordinateReferenceSystem("EPSG:4326"), run.context.transformContext()
    )
    rings: dict[str, list] = {}
    flags = QgsProcessingFeatureSource.Flag.FlagSkipGeometryValidityChecks  # only the corners count, as a convex shape
    for feature in source.getFeatures(QgsFeatureRequest(), flags):
        geometry = feature.geometry()
        if geometry.isNull():
            continue
        try:
            geometry.transform(transform)
        except QgsCsException:
            run.feedback.pushWarning(tr("a fix tolerance area cannot be brought into WGS 84 and is left out"))
            continue
        corners = [(vertex.x(), vertex.y()) for vertex in geometry.vertices()]
        rings.setdefault(text(feature[index]), []).extend(corners)
    return {fix: np.array(corners) for fix, corners in rings.items() if corners}


def arrivals_problem(source) -> str:
    """Why a layer holds no arrivals: neither lines nor the entries of holds. '' where it does."""
    if _is_lines(source):
        return "" if source.sourceCrs().isValid() else tr(
            "ARRIVALS has no coordinate reference system; set the layer's own first."
        )  # fmt: skip
    missing = [name for name in ENTRY_FIELDS if field_index(source.fields(), name) < 0]
    if not missing:
        return ""
    return tr("ARRIVALS has neither lines nor the field {} of the entries that Entry sectors gives.").format(
        ", ".join(missing)
    )


def _is_lines(source) -> bool:
    return QgsWkbTypes.geometryType(source.wkbType()) == QgsWkbTypes.GeometryType.LineGeometry


class Arrivals:
    """Where arrivals at holds come from: headings by hold out of the table of entries, or lines towards the fixes."""

    def __init__(self, run):
        self.within_nm = run.constant("WITHIN")
        source = run.source("ARRIVALS")
        self.headings, self.routes = {}, []
        if _is_lines(source):
            from .routes import read_routes

            self.routes = [route for _, route in read_routes(run, "ARRIVALS")]
            return
        hold, heading = (field_index(source.fields(), name) for name in ENTRY_FIELDS)
        for feature in source.getFeatures():
            value = number(feature[heading])
            if value is not None:
                self.headings.setdefault(text(feature[hold]), []).append(value)

    def true_headings(self, made) -> list:
        """Arrays of true headings at the fix, one a row of holds; along a line its course."""
        import numpy as np

        from ...geometry import plan

        var = np.nan_to_num(made.holds.var_deg)
        found = [np.array(self.headings.get(key, []), float) + var[i] for i, key in enumerate(made.columns["hold"])]
        if self.routes:
            lon, lat = (np.where(made.good, a, np.nan) for a in (made.holds.lon, made.holds.lat))
            by_line = plan.find_arrivals(self.routes, lon, lat, self.within_nm)
            for i, course in zip(by_line.owner.tolist(), by_line.course_true_deg.tolist()):
                found[i] = np.append(found[i], course)
        return found


def outlines(source, selection, terrain: float, secondary_nm: float):
    """The templates of two tables, selection None where there is only one. Returns: protection.outline.Outlines, None
    where something is wrong; '' or what it is, naming the parameter."""
    from ...geometry.protection import outline

    table = Table(source)
    corners = []
    for name in OUTLINE_FIELDS[1:]:
        column, problem = _numbers(table, name, "OUTLINES")
        if problem:
            return None, problem
        corners.append(column)
    made, problem = outline.read_outlines(_texts(table, "name"), _texts(table, "part"), *corners)
    if problem:
        return None, tr("OUTLINES: {}.").format(problem)
    bands = ()
    if selection is not None:
        table = Table(selection)
        columns = {SELECTION_FIELD: _texts(table, SELECTION_FIELD)}
        for name in SELECTION_NUMBERS:
            columns[name], problem = _numbers(table, name, "OUTLINE_SELECTION", optional=True)
            if problem:
                return None, problem
        bands, problem = outline.read_bands(columns, made)
        if problem:
            return None, tr("OUTLINE_SELECTION: {}.").format(problem)
    elif len(made) > 1:
        return None, tr("OUTLINES holds {} outlines ({}); give OUTLINE_SELECTION to choose among them.").format(
            len(made), ", ".join(made)
        )
    primary = outline.CLEARANCES["primary"].value * terrain
    return outline.Outlines(made, bands, secondary_nm, primary), ""


def fields_problem(parameter: str, source, needed) -> str:
    """The sentence for a table that lacks a field; '' where it has all."""
    missing = [name for name in needed if field_index(source.fields(), name) < 0]
    return tr("{} has no field {}.").format(parameter, ", ".join(missing)) if missing else ""


def _column(table: Table, name: str):
    index = field_index(table.fields, name)
    return None if index < 0 else table.cells[table.fields[index].name()]


def _texts(table: Table, name: str):
    """A column as texts, '' where it is empty or not there."""
    import numpy as np

    return np.array([text(cell) for cell in _column(table, name) or [None] * len(table.ids)], dtype=object)


def _numbers(table: Table, name: str, parameter: str, optional: bool = False):
    """A column as numbers, NaN where it is empty; and the sentence for a cell that is none."""
    import numpy as np

    cells = _column(table, name)
    if cells is None:
        return np.full(len(table.ids), np.nan), ""
    found = [np.nan if cell is None else number(cell) for cell in cells]
    for i, value in enumerate(found):
        if value is None or (value != value and not optional):
            shown = tr("empty") if cells[i] is None else repr(cells[i])
            return None, tr("{}: {} of row {} is {}; it must be a number.").format(parameter, name, i + 1, shown)
    return np.array(found, dtype=np.float64), ""
