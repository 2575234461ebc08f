"""The lowest altitude of holds over terrain and obstacles."""

from __future__ import annotations

from .common import clearedareas, demlayer, obstaclelayers
from .common.base import FixwrightAlgorithm
from .common.specs import Choice, Number
from .common.texts import tr

UNITS = ("ft", "m")
NO_YES = ("no", "yes")
AREAS_AT_A_TIME = 25


class MinimumAltitude(FixwrightAlgorithm):
    """Minimum altitude."""

    ID = "minimumaltitude"
    GROUP = "tests"

    def __init__(self):
        super().__init__()
        self.raster = None

    def displayName(self):
        return tr("Minimum altitude")

    def tags(self):
        return tr("terrain,obstacle,clearance,MOC,minimum holding altitude,DEM,controlling obstacle,buffer").split(",")

    def what(self):
        return tr(
            "Tells the lowest altitude at which each hold clears terrain and obstacles: in its area, and in the rings "
            "around it, the clearance of the ring of the nearest point. Every raster cell that touches them counts, "
            "and every obstacle, as much wider and higher as its accuracy says. Gives the sum that decides, rounded "
            "up, the point that it belongs to, and how far the lowest altitude planned lies above it. An area that "
            "runs off the raster, or over cells without a height, is said to do so and is never passed."
        )

    def assumed(self):
        return tr(
            "Basic and entry areas have ICAO's clearances with a buffer of 5 NM, primary and secondary ones the FAA's; "
            "the moc_ft of a primary or secondary area goes before the usual value. Rings are distances in the plane "
            "of the fix, or of the middle of the area where HOLDS is not given, not the polygons drawn; an edge "
            "belongs to the ring inside it. The secondary's width is that of its polygon, else 2 NM. Of equal "
            "altitudes the nearer point decides, then the earlier row. ALLOWANCE is added to terrain, not to "
            "obstacles. Heights below -500 m or above 9 000 m, and blocks that a sparse file never held, are unknown. "
            "An obstacle without a top is rejected, and no hold within its reach is passed. Without HOLDS there is "
            "no margin. Temporary obstacles and cold-temperature corrections are not known."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, Part II, Section 4, Chapter 1 (clearance in holding areas and their buffer; the "
            "rings between the first and the last NM, category H and twice the clearance over high terrain from "
            "memory); FAA-H-8261-1, chapter 3, and FAA Order 8260.3 (1 000 ft in the primary area, 500 ft falling to 0 "
            "in the secondary, 2 000 ft in mountains and the width of 2 NM from memory)."
        )

    def declare(self):
        clearedareas.declare(self)
        demlayer.declare(self, tr("; the sea as 0."))
        for name, label, text in (
            ("ALLOWANCE", tr("Allowance for vegetation"), tr("Added to every height of the terrain.")),
            ("DEM_ACCURACY", tr("Vertical accuracy of the terrain"), tr("Added to every height of the terrain.")),
        ):
            self.add(Number(name, label, 0, 1000, text, "ft", default=0, dynamic=False))
        obstaclelayers.declare(self)
        self._declare_clearances()
        self.add_sink("TESTS", "tests")
        self.add_sink("CONTROLLING", "controlling")
        self.add_sink("REJECTS", "rejects")

    def _declare_clearances(self):
        for name, label, text, default in (
            ("BUFFER", tr("Rings around the area"), tr("yes: buffer or secondary too; no: the area alone."), "yes"),
            ("HELICOPTER", tr("Category H"), tr("yes: the buffer of helicopters, by ICAO's rules 2 NM."), "no"),
            ("MOUNTAINOUS", tr("Mountainous area"), tr("yes: 2 000 ft in primary areas, by the FAA's rules."), "no"),
        ):
            self.add(Choice(name, label, NO_YES, text, default=default, dynamic=False))
        self.add(
            Number(
                "MOC_FACTOR", tr("Clearance over high terrain"), 1, 2,
                tr("By what ICAO's clearances are multiplied: up to twice over mountains."), default=1, dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number(
                "SECONDARY_WIDTH", tr("Width of secondary areas"), 0.1, 20,
                tr("Where the clearance reaches 0. Not given: that of the polygon, else 2 NM."), "NM", optional=True,
                dynamic=False, advanced=True,
            )
        )  # fmt: skip
        self.add(
            Choice(
                "UNIT", tr("Unit of the result"), UNITS,
                tr("ft: rounded up to 100 ft; m: ICAO's clearances in metres, rounded up to 50 m."), default="ft",
                dynamic=False,
            )
        )  # fmt: skip

    def check(self, parameters, context):
        problem = clearedareas.problem(self, parameters, context) or obstaclelayers.problem(self, parameters, context)
        if not problem and "DEM" not in parameters and obstaclelayers.LAYER not in parameters:
            problem = tr("Neither DEM nor OBSTACLES is given; give at least one of them.")
        return problem or demlayer.problem(self, parameters, context)

    def prepareAlgorithm(self, parameters, context, feedback):
        good = super().prepareAlgorithm(parameters, context, feedback)
        if good:
            self.raster = demlayer.blocks(self, self.healed(parameters), context)
        return good

    def compute(self, run):
        from ..geometry import obstacles, wkb
        from ..geometry.plan import ground

        tests, controlling = run.sink("TESTS"), run.sink("CONTROLLING")
        run.sink("REJECTS")
        areas, holds = clearedareas.read_areas(run), clearedareas.read_holds(run)
        others = obstaclelayers.read(run)
        asked, bare = self._asked(run, areas, holds)
        grid = None if self.raster is None else self.raster.grid()
        tops = None if others.obstacles is None else obstacles.Tops(grid, others.obstacles)
        unit = run.constant("UNIT")
        total = len(asked.keys)
        for begin in range(0, total, AREAS_AT_A_TIME):
            if run.feedback.isCanceled():
                run.feedback.pushInfo(tr("stopped after {} of {} areas").format(begin, total))
                return
            part = ground.Asked(*(values[begin : begin + AREAS_AT_A_TIME] for values in asked))
            found = obstacles.minimum_altitudes(
                part.holdings, grid, others.obstacles, allowance_ft=run.constant("ALLOWANCE"),
                accuracy_ft=run.constant("DEM_ACCURACY"), tops=tops,
            )  # fmt: skip
            tests.write(ground.minimum_test_rows(part, found, others.names, unit=unit, with_terrain=grid is not None))
            columns, places = ground.controlling_rows(part, found, unit=unit)
            controlling.write(columns, wkb.points(*places.T))
            run.feedback.setProgress(100.0 * min(begin + AREAS_AT_A_TIME, total) / total)
        planned = [holds[hold].alt_ft if hold in holds else float("nan") for hold in bare]
        tests.write(ground.untested_rows(bare, planned, unit=unit))

    def _asked(self, run, areas, holds):
        """The areas as geometry wants them, and the holds that have none."""
        import numpy as np

        from ..geometry.plan import cleared, ground

        options = self._options(run)
        keys, constructions, holdings, altitudes, unsure, bare = [], [], [], [], [], []
        for area in areas:
            planned = holds.get(area.hold)
            made, doubt = cleared.cleared_area(
                area.polygons, area.moc_ft, options, None if planned is None else planned.fix
            )
            if made is None:
                bare.append(area.hold)
                continue
            keys.append(area.hold)
            constructions.append(area.construction)
            holdings.append(made)
            altitudes.append(float("nan") if planned is None else planned.alt_ft)
            unsure.append("; ".join(text for text in (area.unsure, doubt) if text))
        there = set(keys) | set(bare)
        bare += [hold for hold in holds if hold not in there]
        return ground.Asked(keys, constructions, holdings, np.array(altitudes, dtype=np.float64), unsure), bare

    def _options(self, run):
        from ..geometry.plan.cleared import Options

        width = run.constant("SECONDARY_WIDTH")
        return Options(
            buffer=run.constant("BUFFER") == "yes",
            helicopter=run.constant("HELICOPTER") == "yes",
            mountainous=run.constant("MOUNTAINOUS") == "yes",
            factor=run.constant("MOC_FACTOR"),
            secondary_nm=float("nan") if width is None else width,
            metres=run.constant("UNIT") == "m",
        )
