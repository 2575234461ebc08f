"""Can fixes be received, and what else could define them."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common import demlayer, fixrows
from .common.base import FixwrightAlgorithm
from .common.navaidtable import navaid_columns, no_ident
from .common.specs import Choice, Number, wrong
from .common.texts import tr

RULES = ("icao", "faa")
ROWS_AT_A_TIME = 100
"""Few, since a fix may read many cells of terrain, or be compared with many navaids."""


class CoverageTest(FixwrightAlgorithm):
    """Coverage test."""

    ID = "coveragetest"
    GROUP = "tests"

    def __init__(self):
        super().__init__()
        self.terrain = None

    def displayName(self):
        return tr("Coverage test")

    def tags(self):
        return tr(
            "reception,service volume,line of sight,terrain,cone,cut angle,VOR,DME,NDB,out of service,alternative,fix"
        ).split(",")

    def what(self):
        return tr(
            "Tests whether fixes can be received: the status of the stations that define them, their service "
            "volumes, line of sight over a smooth earth or over terrain, the cone overhead, and the angle at which "
            "two lines cut. Both stations of a crossing are tested. With a layer of navaids it also tells the other "
            "ways to define each fix, the most accurate first."
        )

    def assumed(self):
        return tr(
            "Class, status and the DME's own place come from NAVAIDS, by ident, kind and place; else from the input's "
            "fields class, status, dme_lat, dme_lon and dme_elev_ft, which tell of the first station. An empty status "
            "counts as in service. What cannot be tested has no ok and says what is missing: a station without a "
            "class, a fix without an altitude, terrain that is not known everywhere. A hold is tested at its lowest "
            "altitude. Terrain is taken cell by cell, the highest within a quarter of a cell of the path, over an "
            "earth of 4/3 its radius; heights below -500 m or above 9 000 m are none; the station's own cell is no "
            "obstacle. Other ways are looked for within 130 NM over flat ground. Trees, masts and notices are not "
            "known."
        )

    def cited(self):
        return tr(
            "FAA AIM 1-1-8 (service volumes, in part from memory); ICAO Doc 8168 Vol II, 5th ed., I-2-2-4 (cones), "
            "I-2-2 (cut angles, from memory); FAA Order 8260.3 (cut angles, from memory); rays over an earth of 4/3 "
            "its radius: common practice. Each row of the tests names its own."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Fixes or holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The fixes layer of an earlier step, or the holds layer."),
        )
        self.add_source(
            "NAVAIDS",
            tr("Navaids"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr(
                "Points with the fields ident and, where known, kind, elev_ft, decl_deg, class, status. Gives class "
                "and status of the stations that define the fixes, and the other navaids."
            ),
            optional=True,
        )
        self.add(
            Choice(
                "RULES", tr("Rules"), RULES,
                tr("Whose least cut angles and accuracies: ICAO Doc 8168 or FAA Order 8260.3."), default="icao",
                dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number(
                "ALTITUDE", tr("Altitude"), -2000, 60000,
                tr("Where reception is tested. Not given: the input's field alt_ft."), "ft", optional=True,
            )
        )  # fmt: skip
        demlayer.declare(self, tr("; the sea as 0. Not given: line of sight over a smooth earth."))
        self.add(
            Number(
                "ANTENNA", tr("Height of the antenna"), 0, 500,
                tr("Of the station's antenna above its elevation."), "ft", default=0, dynamic=False, advanced=True,
            )
        )  # fmt: skip
        self.add(
            Number(
                "COUNT", tr("Other ways for a fix"), 1, 50, tr("How many are told, at most."), default=5, dynamic=False
            )
        )
        self.add_date()
        self.add_sink("TESTS", "tests")
        self.add_sink("ALTERNATIVES", "alternatives")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        problem = fixrows.missing_fields("INPUT", self.source_fields(parameters, context))
        if not problem and "NAVAIDS" in parameters:
            problem = no_ident("NAVAIDS", self.source_fields(parameters, context, "NAVAIDS"))
        count = self.constant(parameters, "COUNT")
        if not problem and count != int(count):
            problem = wrong(self.specs["COUNT"], count) + tr(", and a whole one.")
        return problem or demlayer.problem(self, parameters, context)

    def prepareAlgorithm(self, parameters, context, feedback):
        good = super().prepareAlgorithm(parameters, context, feedback)
        if good:
            self.terrain = demlayer.terrain(self, self.healed(parameters), context)
        return good

    def compute(self, run):
        import numpy as np

        from ..geometry.plan import reception

        source, day = run.source(), run.day()
        tests, others = run.sink("TESTS"), run.sink("ALTERNATIVES")
        run.sink("REJECTS", source.fields())
        navaids = run.source("NAVAIDS")
        table = None if navaids is None else navaid_columns(run, navaids)
        rules = self.specs["RULES"].code(run.constant("RULES"))
        count = int(run.constant("COUNT"))
        batches = fixrows.batches(
            run, source, more_numbers=("dme_lon", "dme_lat", "dme_elev_ft"), more_texts=("class", "status"),
            rows_at_a_time=ROWS_AT_A_TIME,
        )  # fmt: skip
        for rows, columns in batches:
            columns["alt_ft"] = np.where(np.isfinite(rows["ALTITUDE"]), rows["ALTITUDE"], columns["alt_ft"])
            for i in np.flatnonzero(reception.names(columns) == ""):
                rows.refuse(i, tr("fix is empty; the tests join on it"))
            good = rows.reasons == ""
            columns = {name: np.asarray(values)[good] for name, values in columns.items()}
            found = reception.heard(columns, table)
            told, other = np.zeros(good.sum(), dtype=bool), None
            told[found.row] = True
            if table is not None:
                other, of_fix = reception.alternative_rows(
                    columns, found, table, rules=rules, count=count, year=day.year
                )
                told[of_fix] = True
            why = rows.reasons.copy()
            why[good] = np.where(told, "", tr("no navaid defines the fix, so nothing is received there"))
            run.settle(rows, why)
            if tests.connected:
                tests.write(
                    reception.test_rows(
                        columns, found, rules=rules, terrain=self.terrain, antenna_ft=run.constant("ANTENNA")
                    )
                )
            if other is not None:
                others.write(other)
