"""How far off a slip puts a fix."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common import fixrows
from .common.base import FixwrightAlgorithm
from .common.specs import Number
from .common.stations import DME_SITE
from .common.texts import tr


class FixSlips(FixwrightAlgorithm):
    """Slips in setting a fix."""

    ID = "fixslips"
    GROUP = "tests"

    def displayName(self):
        return tr("Slips in setting a fix")

    def tags(self):
        return tr("slip,error,reciprocal,declination,variation,slant range,rounding,radial,fix").split(",")

    def what(self):
        return tr(
            "Tells how far from each fix one lands by a slip: the radial rounded, the reciprocal set, the wrong north "
            "or sign of declination, DME taken for distance along the ground, a position cut short, before taken for "
            "beyond. One row a fix and slip, the farthest first."
        )

    def assumed(self):
        return tr("Slips that do not apply to a fix (no radial, no DME) give no row.")

    def cited(self):
        return tr(
            "Aeronautical glossary, slaved declination; ICAO Doc 8168 Vol II, I-4-3-App C-13 (slant range); the rest "
            "common practice, each row names its own."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Fixes or holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The fixes layer of an earlier step, or the holds layer."),
        )
        least = tr("Slips that move the fix by less are left out.")
        self.add(Number("LEAST", tr("Least distance"), 0, 400, least, "NM", default=0.1, dynamic=False))
        self.add_date()
        self.add_sink("SLIPS", "slips")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        return fixrows.missing_fields("INPUT", self.source_fields(parameters, context))

    def compute(self, run):
        import numpy as np

        from ..geometry.plan.accuracy import slip_rows

        source, day = run.source(), run.day()
        out = run.sink("SLIPS")
        run.sink("REJECTS", source.fields())
        for rows, columns in fixrows.batches(run, source, more_numbers=DME_SITE):
            good = run.settle(rows, np.full(len(rows), "", dtype=object))
            kept = {name: np.asarray(column)[good] for name, column in columns.items()}
            out.write(slip_rows(kept, day.year, run.constant("LEAST")))
