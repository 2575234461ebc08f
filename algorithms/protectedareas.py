"""Areas that protect holds."""

from __future__ import annotations

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsFeatureRequest,
    QgsProcessing,
    QgsProcessingFeatureSource,
)

from .common import holdrows
from .common.base import FixwrightAlgorithm
from .common.specs import Choice
from .common.texts import tr
from .common.values import field_index, text

CONSTRUCTIONS = ("template", "rectangle", "outline", "envelope")
ENTRIES = ("all", "arrivals", "none")
ROWS_AT_A_TIME = 100


class ProtectedAreas(FixwrightAlgorithm):
    """Protected areas."""

    ID = "protectedareas"
    GROUP = "holds"

    def displayName(self):
        return tr("Protected areas")

    def tags(self):
        return tr("hold,holding area,template,protection,obstacle clearance,MOC").split(",")

    def what(self):
        return tr(
            "Draws the basic holding area of each hold: the area that holds an aeroplane of the fastest speed "
            "allowed, at the highest level, in the rules' wind, with the rules' tolerances. The polygon contains the "
            "true area and exceeds it by no more than the tolerance."
        )

    def assumed(self):
        return tr(
            "The fix is a point, unless its tolerance area is given. The area is made for area_ias_kt and for the "
            "higher of alt_ft and alt_to_ft, at ISA+15. A distance leg is given the time that it takes at that "
            "speed, at least the standard time. For a hold by the FAA's rules the ICAO template is shown for "
            "illustration."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, Part I, Section 4, Chapter 3, Appendix C (the template; some of its formulas from "
            "memory, which limits says), and Part II, Section 4, Chapter 1."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The holds layer of Design holds. Its essentials are read; what is derived is computed anew."),
        )
        self.add(
            Choice(
                "CONSTRUCTION",
                tr("Construction"),
                CONSTRUCTIONS,
                tr("How the area is made. This version builds the template."),
                default="template",
                dynamic=False,
            )
        )
        self.add_source(
            "FIX_TOLERANCE",
            tr("Fix tolerance areas"),
            QgsProcessing.SourceType.TypeVectorPolygon,
            tr(
                "Polygons with a field fix: within them the aeroplane may be when it is thought to be over that fix. "
                "Each is taken as convex. Not given: the fixes are points."
            ),
            optional=True,
        )
        self.add(
            Choice(
                "ENTRY",
                tr("Entries protected"),
                ENTRIES,
                tr("For which arrivals an entry area is added. This version adds none."),
                default="none",
                dynamic=False,
            )
        )
        self.add_tolerance(tr("How far the polygon may exceed the true area."))
        self.add_sink("AREAS", "areas")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        for name, built in (("CONSTRUCTION", "template"), ("ENTRY", "none")):
            if self.constant(parameters, name) != built:
                return tr("{} is {}; this version builds only {}.").format(name, self.constant(parameters, name), built)
        if "FIX_TOLERANCE" in parameters:
            if field_index(self.source_fields(parameters, context, "FIX_TOLERANCE"), "fix") < 0:
                return tr("FIX_TOLERANCE has no field fix to join the holds by.")
        return holdrows.missing_fields("INPUT", self.source_fields(parameters, context))

    def compute(self, run):
        import numpy as np

        from ..geometry import plan, wkb, wmm2025

        source = run.source()
        areas = run.sink("AREAS")
        run.sink("REJECTS", source.fields())
        rings = _rings_by_fix(run)
        reader = holdrows.hold_reader(run, source, ROWS_AT_A_TIME, whole_rows=run.keeps_rejects)
        tolerance = run.constant("TOLERANCE")

        for rows in run.batches(reader):
            columns = holdrows.hold_columns(rows)
            if rings is not None:
                for i, fix in enumerate(rows["fix"]):
                    if fix not in rings:
                        rows.refuse(i, tr("FIX_TOLERANCE has no polygon for the fix {}").format(repr(fix)))
            # The true course is an essential, so nothing in an area depends on the year.
            made = plan.holds_from_columns(columns, wmm2025.EPOCH)
            made.reasons[:] = np.where(rows.reasons != "", rows.reasons, made.reasons)
            run.settle(rows, made.reasons)
            if areas.connected:
                per_hold = None if rings is None else [rings.get(fix) for fix in rows["fix"]]
                layer = plan.area_rows(made, per_hold, tolerance)
                areas.write(layer.columns, wkb.multipolygons(layer.coords, layer.offsets))


def _rings_by_fix(run):
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
