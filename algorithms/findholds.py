"""Where a hold could be: from navaids to a plan of proposals that pass every test."""

from __future__ import annotations

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessing,
    QgsProcessingException,
    QgsProcessingParameterPoint,
)

from .common import searchinputs, surroundings
from .common.base import FixwrightAlgorithm
from .common.navaidtable import navaid_columns, no_ident
from .common.specs import Choice, Number, wrong
from .common.texts import tr

RULES = ("icao", "faa")
SIDES = ("both", "right", "left")
INBOUND = ("to", "from")
NO_YES = ("no", "yes")
MOST_RADIUS_NM, MOST_DISTANCE_NM = 200, 130


class FindHolds(FixwrightAlgorithm):
    """Find holds."""

    ID = "findholds"
    GROUP = "plan"

    def __init__(self):
        super().__init__()
        self.rasters = (None, None)

    def displayName(self):
        return tr("Find holds")

    def tags(self):
        return tr("hold,search,propose,place,training,plan,margin,terrain,airspace,reception,rank").split(",")

    def what(self):
        return tr(
            "Proposes holds: of all whole radials and distances of the navaids about a home, on one side or both, "
            "those that pass every test of a built area (speeds, leg, reception, terrain and obstacles, airspace about "
            "the area and the flight in calm), thinned so that they lie a distance apart, the one with the most to "
            "spare first. PLAN is a plan table for Build training area, with the margins of each proposal; COUNTS "
            "tells how many places each test left out."
        )

    def assumed(self):
        return tr(
            "All holds share altitudes, speed and rules; legs last the standard time of the highest level. Distances "
            "are DME readings where the navaid's elevation is known, else along the ground. Areas are ICAO's template "
            "about a point, with arrivals from everywhere, without wind in the flight. The score is the mean of what "
            "the margins count: height above the minimum altitude (1 000 ft count half), distance from airspace at the "
            "levels flown beyond the one allowed (5 NM count half, 10 NM count as all there is), the least part of a "
            "test of reception to spare (a quarter counts half), how far the worst slip puts the fix off (2 NM count "
            "half; the reciprocal of the radial is left out) and the distance from home (20 NM count half). What was "
            "not given is not tested, not counted, and said. A navaid of unknown class is left out unless "
            "UNKNOWN_CLASS says otherwise. Airspace whose limits count from the ground is judged by the highest ground "
            "about it, so that a place may be left out which a close look would pass. Unless OVERLAP says otherwise, "
            "the areas of proposals do not overlap, so that all may be flown at once. Notices, hours and the agreement "
            "of those whose airspace it is are for the pilot."
        )

    def cited(self):
        return tr(
            "The tests' own: FAA AIM 1-1-8 and 5-3-8; ICAO Doc 8168 Vol II, 5th ed., I-2-2-4 and II-4-1, in part from "
            "memory. Score, thinning and their figures: our own choice."
        )

    def declare(self):
        self.add_source(
            "NAVAIDS",
            tr("Navaids"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr(
                "Points with the fields ident, kind, elev_ft, decl_deg, class and, where known, status and id; in any "
                "CRS. Those that give a radial or bearing and a distance are used."
            ),
        )
        self.add_other(
            QgsProcessingParameterPoint("HOME", tr("Home")),
            tr("From where the holds are flown to, as 'longitude,latitude' or 'x,y [EPSG:code]'."),
        )
        for name, label, low, high, default, unit, text in (
            ("RADIUS", tr("Radius"), 1, MOST_RADIUS_NM, 40, "NM", tr("How far from home a fix may lie.")),
            ("RADIAL_STEP", tr("Step of radials"), 1, 360, 10, tr("degrees"),
             tr("Radials are its multiples: whole degrees, from the station's own north.")),
            ("DISTANCE_FROM", tr("Shortest distance"), 1, MOST_DISTANCE_NM, 5, "NM", tr("From the navaid.")),
            ("DISTANCE_TO", tr("Longest distance"), 1, MOST_DISTANCE_NM, 30, "NM", tr("From the navaid.")),
            ("DISTANCE_STEP", tr("Step of distances"), 0.1, MOST_DISTANCE_NM, 1, "NM", tr("From the shortest on.")),
        ):  # fmt: skip
            self.add(Number(name, label, low, high, text, unit, default=default, dynamic=False))
        self.add(Choice("SIDES", tr("Turns"), SIDES, tr("Which turns are proposed."), default="both", dynamic=False))
        text = tr("to: towards the navaid; from: away from it.")
        self.add(Choice("INBOUND", tr("Inbound course"), INBOUND, text, default="to", dynamic=False))
        self._declare_flying()
        for name, label, low, high, default, unit, text in (
            ("SPACING", tr("Distance between proposals"), 0, 200, 10, "NM", tr("Fixes lie at least so far apart.")),
            ("COUNT", tr("Proposals"), 1, 1000, 20, "", tr("How many, at most.")),
        ):
            self.add(Number(name, label, low, high, text, unit, default=default, dynamic=False))
        self.add(
            Choice(
                "OVERLAP", tr("Areas may overlap"), NO_YES,
                tr("no: all proposals may be flown at the same time; yes: they are alternatives."), default="no",
                dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Choice(
                "UNKNOWN_CLASS", tr("Navaids of unknown class"), NO_YES,
                tr("yes: propose holds of navaids whose service volume cannot be tested."), default="no",
                dynamic=False, advanced=True,
            )
        )  # fmt: skip
        searchinputs.declare(self)
        self.add_date()
        self.add_sink("PLAN", "plan")
        self.add_sink("HOLDS", "holds")
        self.add_sink("COUNTS", "search_counts")

    def _declare_flying(self):
        low, high = -2000, 60000
        self.add(Number("ALTITUDE", tr("Altitude"), low, high, tr("The lowest."), "ft", default=5000, dynamic=False))
        self.add(
            Number(
                "ALTITUDE_TO", tr("Highest altitude"), low, high, tr("Of a block. Not given: one level."), "ft",
                optional=True, dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number("IAS", tr("Indicated airspeed"), 30, 500, tr("What is flown."), "kt", default=90, dynamic=False)
        )
        self.add(
            Number(
                "AREA_IAS", tr("Indicated airspeed of the areas"), 30, 500,
                tr("The fastest that may use the holds. Not given: the most that the rules allow."), "kt",
                optional=True, dynamic=False,
            )
        )  # fmt: skip
        text = tr("Speeds and legs by ICAO Doc 8168 or FAA AIM 5-3-8.")
        self.add(Choice("RULES", tr("Rules"), RULES, text, default="icao", dynamic=False))

    def check(self, parameters, context):
        said = no_ident("NAVAIDS", self.source_fields(parameters, context, "NAVAIDS"))
        if said:
            return said
        values = {name: self.constant(parameters, name) for name in self.specs}
        for name in ("RADIAL_STEP", "COUNT"):
            if values[name] != int(values[name]):
                return wrong(self.specs[name], values[name]) + tr(", and a whole one.")
        for low, high, unit in (("DISTANCE_FROM", "DISTANCE_TO", "NM"), ("ALTITUDE", "ALTITUDE_TO", "ft")):
            if values[high] is not None and values[high] < values[low]:
                said = tr("{} is {:g}; it must not be lower than {}, {:g} {}.")
                return said.format(high, values[high], low, values[low], unit)
        return self._home_problem(parameters, context) or surroundings.problem(self, parameters, context)

    def _home_problem(self, parameters, context) -> str:
        at = self._home(parameters, context)
        if not (abs(at[1]) <= 85.0 and abs(at[0]) <= 360.0):
            return tr("HOME is {:g},{:g}; it must be a place with a latitude between -85 and 85.").format(*at)
        return ""

    def _home(self, parameters, context) -> tuple[float, float]:
        point = self.parameterAsPoint(parameters, "HOME", context, QgsCoordinateReferenceSystem("EPSG:4326"))
        return point.x(), point.y()

    def prepareAlgorithm(self, parameters, context, feedback):
        good = super().prepareAlgorithm(parameters, context, feedback)
        if good:
            self.rasters = searchinputs.rasters(self, self.healed(parameters), context)
        return good

    def compute(self, run):
        from ..geometry import wkb
        from ..geometry.plan import searching

        day = run.day()
        plan, holds, counts = run.sink("PLAN"), run.sink("HOLDS"), run.sink("COUNTS")
        table = navaid_columns(run, run.source("NAVAIDS"))
        around = searchinputs.read(run, *self.rasters)

        def go_on(share: float) -> bool:
            run.feedback.setProgress(100.0 * share)
            return not run.feedback.isCanceled()

        try:
            found = searching.find(self._wishes(run), table, around, var_date=day.text, year=day.year, go_on=go_on)
        except searching.TooManyPlaces as error:
            raise QgsProcessingException(tr("Too much to search: {}.").format(error)) from error
        plan.write(found.plan)
        holds.write(found.holds, wkb.points(found.holds["lon"], found.holds["lat"]))
        counts.write(found.counts)
        run.rows_in, run.rows_out = found.looked_at, len(found.plan["rank"])
        run.rows_rejected = run.rows_in - run.rows_out
        for note in found.notes:
            run.feedback.pushWarning(note)
        for many, text in zip(found.counts["candidates"], found.counts["text"]):
            run.feedback.pushInfo(tr("{} places: {}").format(many, text))
        if run.feedback.isCanceled():
            run.feedback.pushInfo(
                tr("stopped after {} of {} proposals").format(run.rows_out, int(run.constant("COUNT")))
            )
        elif not run.rows_out:
            run.feedback.pushWarning(searching.nothing_found(found))

    def _wishes(self, run):
        from ..geometry import holds
        from ..geometry.plan.shortlist import Wishes

        def value(name: str) -> float:
            found = run.constant(name)
            return float("nan") if found is None else float(found)

        sides = {"both": (0, 1), "right": (0,), "left": (1,)}[run.constant("SIDES")]
        return Wishes(
            home=self._home(run.parameters, run.context), radius_nm=value("RADIUS"),
            radial_step_deg=int(value("RADIAL_STEP")), from_nm=value("DISTANCE_FROM"), to_nm=value("DISTANCE_TO"),
            step_nm=value("DISTANCE_STEP"), sides=sides, towards=run.constant("INBOUND") == "to",
            alt_ft=value("ALTITUDE"), alt_to_ft=value("ALTITUDE_TO"), ias_kt=value("IAS"),
            area_ias_kt=value("AREA_IAS"), rules=holds.RULES.index(run.constant("RULES")),
            spacing_nm=value("SPACING"), count=int(value("COUNT")), classless=run.constant("UNKNOWN_CLASS") == "yes",
            overlap=run.constant("OVERLAP") == "yes",
        )  # fmt: skip
