"""Tolerance areas of fixes."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common import fixrows
from .common.base import FixwrightAlgorithm
from .common.specs import Choice, Number
from .common.stations import DME_SITE
from .common.texts import tr

RULES = ("icao", "faa")
BASES = ("aids", "gnss")


class FixTolerance(FixwrightAlgorithm):
    """Fix tolerance areas."""

    ID = "fixtolerance"
    GROUP = "fixes"

    def displayName(self):
        return tr("Fix tolerance areas")

    def tags(self):
        return tr("tolerance,accuracy,VOR,NDB,DME,localizer,GNSS,intersection,overhead,cone,fix").split(",")

    def what(self):
        return tr(
            "Draws where an aeroplane may be that reads its aids within their accuracy: the annular sector of a "
            "radial and DME, the overlap of two lines, the cone overhead a VOR or NDB, the rectangle of GNSS; "
            "with how far the area reaches ahead, behind, left and right of the inbound course. Protected areas "
            "takes it as FIX_TOLERANCE."
        )

    def assumed(self):
        return tr(
            "The inbound course is that of the hold where the input has one (inbound_true_deg), else the course "
            "of the fix; the aid it lies on has the tracking accuracy. A fix by position, or by an aid that gives"
            " no distance, has the values for GNSS. The polygon contains the area."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, 5th ed., Part I, Section 2, Chapter 2 (the angles from memory, which limits says); "
            "FAA Order 8260.3, section on fixes (from memory)."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Fixes or holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The fixes layer of an earlier step, or the holds layer, whose inbound course then counts."),
        )
        rules = tr("Whose accuracies: ICAO Doc 8168 or FAA Order 8260.3.")
        self.add(Choice("RULES", tr("Rules"), RULES, rules, default="icao"))
        self.add(
            Choice(
                "BASIS", tr("What the fix is made by"), BASES,
                tr("The aids that define it, or GNSS with the values below."), default="aids",
            )
        )  # fmt: skip
        self.add(
            Number(
                "GNSS_ALONG", tr("GNSS along the track"), 0.01, 10,
                tr("Half-width along the inbound course. 0.8 is RNAV 1 within 30 NM of the aerodrome (from memory)."),
                "NM", default=0.8,
            )
        )  # fmt: skip
        self.add(
            Number(
                "GNSS_ACROSS", tr("GNSS across the track"), 0.01, 10,
                tr("Half-width across it. 1.0 is RNAV 1 within 30 NM of the aerodrome (from memory)."), "NM",
                default=1.0,
            )
        )  # fmt: skip
        self.add_tolerance(tr("How far the polygon may exceed the true area."))
        self.add_sink("AREAS", "tolerances")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        return fixrows.missing_fields("INPUT", self.source_fields(parameters, context))

    def compute(self, run):
        from ..geometry import wkb
        from ..geometry.plan.accuracy import tolerance_rows

        source = run.source()
        out = run.sink("AREAS")
        run.sink("REJECTS", source.fields())
        for rows, columns in fixrows.batches(run, source, more_numbers=DME_SITE):
            layer, _, why = tolerance_rows(
                columns,
                basis=rows["BASIS"],
                rules=rows["RULES"],
                along_nm=rows["GNSS_ALONG"],
                across_nm=rows["GNSS_ACROSS"],
                tolerance_m=run.constant("TOLERANCE"),
            )
            run.settle(rows, why)
            if out.connected:
                out.write(layer.columns, wkb.multipolygons(layer.coords, layer.offsets))
