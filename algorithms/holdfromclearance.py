"""A holding clearance, as it is typed, to its fix, hold, pattern and sheet."""

from __future__ import annotations

import dataclasses
import datetime
import math
import os
from collections.abc import Callable

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFields,
    QgsProcessing,
    QgsProcessingException,
    QgsProcessingParameterFileDestination,
    QgsProcessingParameterPoint,
    QgsProcessingParameterString,
)

from .briefingsheet import EDITIONS
from .common import help as helps
from .common import schema
from .common.base import FixwrightAlgorithm
from .common.moments import read_moment
from .common.navaidtable import navaid_columns, no_ident
from .common.onepage import OnePage
from .common.run import Run
from .common.specs import Choice, Number
from .common.texts import tr

RULES = ("icao", "faa")
SECTOR_RADIUS_NM = 3.0
MAX_LATITUDE_DEG = 85.0
FOREIGN = ("clearance", "efc_utc", "leave_utc")
"""What the words say that the layers have no field for: it follows theirs."""
_SAID = {"ALTITUDE": "alt_ft", "IAS": "ias_kt", "RULES": "rules"}
"""Parameters that fill a cell where the words do not."""
_CELLS = {**_SAID, "WIND_FROM": "wind_from_deg", "WIND_SPEED": "wind_kt", "ARRIVAL_COURSE": "arrival_deg"}


class HoldFromClearance(FixwrightAlgorithm):
    """Hold from a clearance. printer(layers, path, **options) prints the sheet."""

    ID = "holdfromclearance"
    GROUP = "holds"

    def __init__(self, printer: Callable):
        super().__init__()
        self.printer = printer
        self.page: OnePage | None = None
        self.sheet = ""
        self.options: dict = {}
        self.results: dict = {}

    def createInstance(self):
        return type(self)(self.printer)

    def displayName(self):
        return tr("Hold from a clearance")

    def tags(self):
        return tr("clearance,phraseology,ATC,radio,words,hold,EFC,present course,training,sheet").split(",")

    def what(self):
        return tr(
            "Reads a holding clearance in the words of the FAA or of ICAO, in the orders and variants people use, and "
            "gives its fix, hold and pattern, and a sheet on demand. The log says what was understood, what was "
            "assumed and what is refused, and the whole clearance in full and as it is read aloud. The direction of a "
            "clearance is that of the pattern as seen from the fix; where miles stand before it, that of the fix as "
            "seen from the navaid."
        )

    def assumed(self):
        return tr(
            "What the words and the parameters leave open is assumed as in a plan: right turns, the standard leg, "
            "90 kt. A direction may lie up to 5 degrees outside its eighth of the compass, with a note. A word that is "
            "not understood refuses the clearance. Times are UTC, the next such time from NOW. The time to expect "
            "further clearance is no time to leave. Angles count from the station's own north, or magnetic where it "
            "has none."
        )

    def cited(self):
        return tr(
            "FAA AIM 5-3-8 (holding, what a clearance contains), Order 7110.65 4-6-1 and, from memory, 4-6-4; "
            "ICAO Doc 4444, 12.3 (from memory); 14 CFR 91.185 (what an EFC is for); variants of the words: common "
            "practice."
        )

    def shortHelpString(self):
        inputs = [(d.description(), d.help()) for d in self.parameterDefinitions() if d.name() not in self.sinks]
        return helps.compose(self.what(), inputs, list(self.sinks.values()), self.assumed(), self.cited())

    def declare(self):
        self.add_source(
            "NAVAIDS",
            tr("Navaids"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr(
                "Points with the fields ident and, where known, name, kind, elev_ft, decl_deg, status, id; in any CRS. "
                "The clearance may use idents, names, or letters spelled out."
            ),
        )
        self.add_other(
            QgsProcessingParameterString("CLEARANCE", tr("Clearance"), None, True),
            tr(
                "Such as: hold northeast of OBL on the 045 radial, left turns, maintain 5000, EFC 1430. Numbers as "
                "figures or as words."
            ),
        )
        self.add_other(
            QgsProcessingParameterPoint("POSITION", tr("Position"), None, True),
            tr("Of the aircraft, for 'on present course', as 'longitude,latitude' or 'x,y [EPSG:code]'."),
        )
        altitude = tr("Where the clearance says none.")
        self.add(Number("ALTITUDE", tr("Altitude"), -2000, 60000, altitude, "ft", optional=True, dynamic=False))
        speed = tr("Indicated airspeed flown, where the clearance says none.")
        self.add(Number("IAS", tr("Indicated airspeed"), 30, 500, speed, "kt", optional=True, dynamic=False))
        rules = tr("Where given, before what the wording tells.")
        self.add(Choice("RULES", tr("Rules"), RULES, rules, optional=True, dynamic=False))
        arrival = tr("Course on which the fix is first crossed, from the station's own north, or magnetic.")
        self.add(
            Number("ARRIVAL_COURSE", tr("Arrival course"), 0, 360, arrival, tr("degrees"), optional=True, dynamic=False)
        )
        wind = tr("Where the wind comes from. Not given: calm.")
        self.add(Number("WIND_FROM", tr("Wind from"), 0, 360, wind, tr("degrees true"), optional=True, dynamic=False))
        speed = tr("Goes with WIND_FROM.")
        self.add(Number("WIND_SPEED", tr("Wind speed"), 0, 200, speed, "kt", optional=True, dynamic=False))
        self.add_other(
            QgsProcessingParameterString("NAME", tr("Name of the hold"), None, False, True), tr("Not given: the fix.")
        )
        self.add_other(
            QgsProcessingParameterString("NOW", tr("Time now (UTC)"), None, False, True),
            tr(
                "Times of the clearance are the next such from it, such as 14:05 (on DATE) or 2026-09-01T14:05. Not "
                "given: the clock's, on DATE."
            ),
        )
        self.add_date()
        edition = tr("Which of the briefing sheets SHEET is.")
        self.add(Choice("EDITION", tr("Edition of the sheet"), EDITIONS, edition, default="instructor", dynamic=False))
        self.add_tolerance(tr("How far a chord may lie off the true curve."))
        self.add_sink("FIXES", "fixes")
        self.add_sink("HOLDS", "holds")
        self.add_sink("PATTERNS", "patterns")
        self.add_sink("REJECTS", "rejects")
        self.add_other(
            QgsProcessingParameterFileDestination("SHEET", tr("Sheet"), tr("PDF files (*.pdf)"), None, True, False),
            tr("A PDF of the hold, ready to brief."),
        )

    def check(self, parameters, context):
        problem = no_ident("NAVAIDS", self.source_fields(parameters, context, "NAVAIDS"))
        if problem:
            return problem
        if ("WIND_FROM" in parameters) != ("WIND_SPEED" in parameters):
            return tr("WIND_FROM and WIND_SPEED go together; give both, or neither.")
        lon, lat = self._position(parameters, context)
        if "POSITION" in parameters and not (math.isfinite(lon) and abs(lat) <= MAX_LATITUDE_DEG and abs(lon) <= 360.0):
            return tr(
                "POSITION is {}, {}; it must be a longitude between -360 and 360 and a latitude between -85 and 85 "
                "degrees."
            ).format(f"{lon:.10g}", f"{lat:.10g}")
        if "SHEET" in parameters and parameters["SHEET"] != QgsProcessing.TEMPORARY_OUTPUT:
            folder = os.path.dirname(os.path.abspath(str(parameters["SHEET"])))
            if not os.path.isdir(folder):
                return tr("The folder {} for SHEET is not there.").format(folder)
        return read_moment(parameters.get("NOW"), "NOW")[1]

    def compute(self, run: Run) -> None:
        from ..geometry import plan as plans

        day, navaids = run.day(), run.source("NAVAIDS")
        foreign = QgsFields()
        for name in FOREIGN:
            foreign.append(schema.new_field(name, schema.TEXT))
        sinks = {name: run.sink(name, foreign) for name in ("FIXES", "HOLDS", "PATTERNS", "REJECTS")}
        stations = navaid_columns(run, navaids)
        run.rows_in = 1
        words = str(run.parameters["CLEARANCE"])
        now = self._now(run, day.text)
        cells = self._cells(run, words, stations, now)
        built = plans.build(
            {name: [value] for name, value in cells.items()}, stations, None, var_date=day.text, year=day.year,
            tolerance_m=run.constant("TOLERANCE"), now=now,
        )  # fmt: skip
        self._say(run, built, day.year)
        spoken = {name: built.spoken.plan.get(name, [None])[0] for name in FOREIGN}
        row = [[spoken[name] for name in FOREIGN]]
        if not len(built.rows):
            run.rows_rejected = 1
            sinks["REJECTS"].write({"source_id": ["1"], "reason": [built.reasons[0]]}, None, row)
            return
        run.rows_out = 1
        wanted, windy = "SHEET" in run.parameters, "WIND_FROM" in run.parameters
        flight = None
        if wanted or windy:
            flight = plans.fly_plan(built.spoken.plan, built.rows, built.kept, None, plans.FlightDay(day.text))
        if windy:
            built.say(flight.limits, flight.assumed)
        self._write(sinks, built, row)
        if wanted and not run.feedback.isCanceled():
            self.sheet = self.parameterAsFileOutput(run.parameters, "SHEET", run.context)
            sectors = plans.sector_rows(built.kept, SECTOR_RADIUS_NM, run.constant("TOLERANCE"))
            self.options = {
                "edition": run.constant("EDITION"),
                "overview": False,
                "title": str(run.parameters.get("NAME") or tr("Hold from a clearance")),
                "navaid_data": tr("{}, no date given").format(navaids.sourceName() or tr("navaids")),
            }
            self.page = OnePage(stations, built, sectors, flight, foreign, row)

    def _cells(self, run: Run, words: str, stations: dict, now: str) -> dict:
        """The row of a plan: the words, and what the parameters say besides."""
        from ..geometry import phraseology

        idents = phraseology.Idents(zip(stations["ident"], stations["name"]))
        reading = phraseology.read(words, now=now, idents=idents)
        said = phraseology.plan_cells(reading.clearance) if reading.clearance else {}
        lon, lat = self._position(run.parameters, run.context)
        cells = {"exercise": run.parameters.get("NAME"), "clearance": words, "from_lon": lon, "from_lat": lat}
        for name, column in _CELLS.items():
            value = run.constant(name)
            if value is not None and column in said and name != "RULES" and said[column] != value:
                run.feedback.pushWarning(
                    tr("{} is {:g}, but the clearance says {:g}, which counts").format(name, value, said[column])
                )
            elif value is not None:
                cells[column] = value
        return cells

    def _say(self, run: Run, built, year: float) -> None:
        """What was understood, assumed and refused, and which limits are broken, a line each; the whole in full."""
        from ..geometry import phraseology

        reading = built.spoken.readings[0]
        for text in reading.understood:
            run.feedback.pushInfo(tr("understood: {}").format(text))
        made = bool(len(built.rows))
        assumed = built.holds["assumed"][0] if made else built.spoken.assumed[0]
        for text in filter(None, str(assumed).split("; ")):
            run.feedback.pushInfo(tr("assumed: {}").format(text))
        for text in filter(None, str(built.holds["limits"][0]).split("; ") if made else ()):
            run.feedback.pushWarning(tr("limit: {}").format(text))
        if not made:
            run.feedback.pushWarning(tr("refused: {}").format(built.reasons[0]))
            return
        times = (built.spoken.plan.get(name) for name in ("efc_utc", "leave_utc"))
        (whole,), _ = phraseology.from_holds(built.holds, year, *times)
        if whole is not None:
            if reading.clearance.level and reading.clearance.alt_ft == whole.alt_ft:
                whole = dataclasses.replace(whole, level=reading.clearance.level)
            phrase = phraseology.write(whole, str(built.holds["rules"][0]))
            run.feedback.pushInfo(tr("in full: {}").format(phrase.text))
            run.feedback.pushInfo(tr("read aloud: {}").format(phrase.spoken))

    def _write(self, sinks: dict, built, row: list[list]) -> None:
        from ..geometry import wkb

        for name, columns in (("FIXES", built.fixes), ("HOLDS", built.holds)):
            sinks[name].write(columns, wkb.points(columns["lon"], columns["lat"]), row)
        patterns = built.patterns
        sinks["PATTERNS"].write(patterns.columns, wkb.multipolygons(patterns.coords, patterns.offsets))

    def _position(self, parameters, context) -> tuple[float, float]:
        """Longitude and latitude of the aircraft; NaN where they are not given."""
        if "POSITION" not in parameters:
            return math.nan, math.nan
        point = self.parameterAsPoint(parameters, "POSITION", context, QgsCoordinateReferenceSystem("EPSG:4326"))
        return point.x(), point.y()

    def _now(self, run: Run, day: str) -> str:
        """The moment from which times count, to the minute."""
        moment, _ = read_moment(run.parameters.get("NOW"), "NOW")
        on = datetime.date.fromisoformat(day)
        if moment is None:
            clock = datetime.datetime.now(datetime.timezone.utc).time().replace(tzinfo=None)
            return datetime.datetime.combine(on, clock).isoformat(timespec="minutes")
        return moment.on(on).isoformat(timespec="minutes")

    def processAlgorithm(self, parameters, context, feedback):
        self.page, self.sheet = None, ""
        self.results = super().processAlgorithm(parameters, context, feedback)
        return self.results

    def postProcessAlgorithm(self, context, feedback):
        super().postProcessAlgorithm(context, feedback)
        if self.page is None:
            return {}
        page, self.page, results = self.page, None, dict(self.results)
        try:
            page.print_to(self.printer, self.sheet, **self.options)
            results["SHEET"] = self.sheet
        except (QgsProcessingException, OSError, ValueError) as error:
            feedback.reportError(str(error), True)
        return results
