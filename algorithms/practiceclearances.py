"""Holding clearances to practise on, and their answers apart."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common.base import FixwrightAlgorithm
from .common.navaidtable import navaid_columns, no_ident
from .common.run import Run
from .common.specs import Choice, Number
from .common.texts import tr
from .common.values import field_index
from .holdfromclearance import RULES

ALTITUDES_FT = tuple(range(3000, 9001, 500))
MOST = 1000


class PracticeClearances(FixwrightAlgorithm):
    """Clearances to practise on."""

    ID = "practiceclearances"
    GROUP = "holds"

    def displayName(self):
        return tr("Clearances to practise on")

    def tags(self):
        return tr("clearance,phraseology,practice,exercise,ATC,radio,words,hold,questions,answers,training").split(",")

    def what(self):
        return tr(
            "Makes holding clearances round given navaids, as text and as they are read aloud, and their answers in a "
            "table apart. By option a share of them is wrong on purpose. The same SEED gives the same clearances. The "
            "clearances are themselves a plan for Build training area."
        )

    def assumed(self):
        return tr(
            "Fixes lie overhead navaids or 8 to 30 NM from those with DME; legs, turns and altitudes are such as "
            "trainers fly. With a plan only its navaids and altitudes are used. A navaid that is out of service, a VOR "
            "without a declination and anything without radials or bearings are left out."
        )

    def cited(self):
        return tr(
            "FAA AIM 5-3-8 i; ICAO Doc 4444, 12.3 (from memory). What is drawn by lot, and how often, is our own "
            "choice."
        )

    def declare(self):
        self.add_source(
            "NAVAIDS",
            tr("Navaids"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("Points with the fields ident, kind and, where known, elev_ft, decl_deg, status; in any CRS."),
        )
        self.add_source(
            "PLAN",
            tr("Plan"),
            QgsProcessing.SourceType.TypeVector,
            tr("A table with the columns navaid and, where known, alt_ft: the clearances are round these."),
            optional=True,
        )
        count = tr("How many clearances.")
        self.add(Number("COUNT", tr("Clearances"), 1, MOST, count, default=10, dynamic=False, decimals=0))
        share = tr("Share of them that is wrong on purpose.")
        self.add(Number("FAULTY", tr("Wrong ones"), 0, 100, share, "%", default=0, dynamic=False, decimals=0))
        seed = tr("Another number gives other clearances.")
        self.add(Number("SEED", tr("Seed"), 0, 999999, seed, default=1, dynamic=False, decimals=0))
        rules = tr("Whose wording and rules.")
        self.add(Choice("RULES", tr("Rules"), RULES, rules, default="faa", dynamic=False))
        self.add_date()
        self.add_sink("CLEARANCES", "clearances")
        self.add_sink("ANSWERS", "answers")

    def check(self, parameters, context):
        problem = no_ident("NAVAIDS", self.source_fields(parameters, context, "NAVAIDS"))
        if problem:
            return problem
        for name in ("COUNT", "SEED"):
            value = self.constant(parameters, name)
            if value != int(value):
                return tr("{} is {:g}; it must be a whole number.").format(name, value)
        if "PLAN" in parameters:
            fields = self.source_fields(parameters, context, "PLAN")
            if field_index(fields, "navaid") < 0:
                there = ", ".join(field.name() for field in fields) or tr("none")
                return tr("PLAN has no column navaid; its columns are {}.").format(there)
        return ""

    def compute(self, run: Run) -> None:
        import numpy as np

        from ..geometry import phraseology, plan
        from ..geometry.plan.answers import answer_rows, practice_sources

        day = run.day()
        stations = navaid_columns(run, run.source("NAVAIDS"))
        idents, altitudes = self._plan(run)
        clearances, answers = run.sink("CLEARANCES"), run.sink("ANSWERS")
        sources = practice_sources(stations, idents)
        count, rules = int(run.constant("COUNT")), run.constant("RULES")
        run.rows_in = count
        if not sources:
            run.rows_rejected = count
            run.feedback.pushWarning(tr("No navaid can be used: none has radials with a declination, or bearings."))
            return
        generator = np.random.Generator(np.random.PCG64(int(run.constant("SEED"))))
        draws = generator.random((count, phraseology.DRAWS))
        tasks = phraseology.practice(sources, altitudes, draws, rules, run.constant("FAULTY") / 100.0)
        columns = {
            "exercise": np.array([str(i + 1) for i in range(count)], dtype=object),
            "clearance": np.array([task.phrase.text for task in tasks], dtype=object),
        }
        built = plan.build(
            {**columns, "rules": [rules] * count}, stations, None, var_date=day.text, year=day.year, tolerance_m=1000.0
        )
        run.rows_out = count
        clearances.write({**columns, "spoken": np.array([task.phrase.spoken for task in tasks], dtype=object)})
        answers.write(answer_rows(built, columns["exercise"], [task.fault for task in tasks]))

    def _plan(self, run: Run) -> tuple[set[str], list[float]]:
        """Idents and altitudes of the plan, none and the usual ones without it."""
        from ..geometry.plan.cells import Cells
        from .common.tables import Table

        if "PLAN" not in run.parameters:
            return set(), list(ALTITUDES_FT)
        table = Table(run.source("PLAN"))
        cells = Cells(table.cells, len(table.rows))
        altitudes = cells.number("alt_ft")
        found = sorted({float(feet) for feet in altitudes if feet >= 100.0})
        return {ident.upper() for ident in cells.text("navaid") if ident}, found or list(ALTITUDES_FT)
