"""The whole line at once: a plan table and navaids to layers, a project and a printed briefing in one folder."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from qgis.core import (
    QgsProcessing,
    QgsProcessingAlgorithm,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingOutputFile,
    QgsProcessingOutputVectorLayer,
    QgsProcessingParameterFolderDestination,
    QgsProcessingParameterString,
)

from ..geometry.ranges import MOST_WIND_KT
from .common import help as helps
from .common import schema, surroundings
from .common.base import FixwrightAlgorithm
from .common.moments import read_moment
from .common.navaidtable import navaid_columns, no_ident
from .common.run import Run
from .common.specs import Choice, Number, shown
from .common.texts import tr
from .common.values import field_index

LAYERS = {"FIXES": "fixes", "HOLDS": "holds", "PATTERNS": "patterns", "TRACKS": "tracks", "SECTORS": "sectors",
          "ENTRIES": "entries", "FLOWN": "flown", "EVENTS": "events", "BY_RULE": "by_rule",
          "TOLERANCES": "tolerances", "AREAS": "areas", "TESTS": "tests", "FAILING": "failing",
          "CONTROLLING": "controlling", "CONTACTS": "airspace_contacts", "PAIRS": "pairs", "LEVELS": "levels",
          "SLIPS": "slips", "ALTERNATIVES": "alternatives", "REJECTS": "rejects"}  # fmt: skip
"""Outputs and the layers they are."""
FIX_BASES = ("point", "aids", "gnss")
_FIX_BY = ("navaid", "lat", "lon", "clearance")
SECTOR_RADIUS_NM = 3.0
"""How large the entry sectors are drawn: our own choice."""


class BuildArea(FixwrightAlgorithm):
    """Build training area. printer(layers, path, title=, navaid_data=) prints the briefing."""

    ID = "buildarea"
    GROUP = "plan"
    NEEDS = ("numpy", "pyproj")

    def __init__(self, printer: Callable):
        super().__init__()
        self.printer = printer
        self.files = None
        self.in_place = False
        self.asked: dict = {}

    def createInstance(self):
        return type(self)(self.printer)

    def flags(self):
        """Printing belongs to the main thread, and what fails after a run there would count as a success."""
        return super().flags() | QgsProcessingAlgorithm.Flag.FlagNoThreading

    def displayName(self):
        return tr("Build training area")

    def tags(self):
        return tr("plan,exercises,briefing,sheet,pdf,project,training,holds,fixes").split(",")

    def what(self):
        return tr(
            "Builds a whole training area from a layer of navaids and one plan table, a row an exercise: fixes, "
            "holds, patterns, their legs and protected areas; entries and what is flown in the wind; and tests them: "
            "reception, slips, speeds, terrain and obstacles, airspace, and each exercise against the others. Writes "
            "training-area.gpkg (all layers, with their styles), training-area.qgz (the map as a project) and "
            "briefing.pdf (an overview and a page a hold) into a folder. A hold that fails a test is hatched, framed "
            "and named as failing on every map. The files take the place of older ones only when all of them are whole."
        )

    def assumed(self):
        return tr(
            "An empty cell means what the trade assumes: right turns; one minute, one and a half above 14 000 ft; "
            "inbound along the course to the navaid, overhead along the arrival course; the aircraft's speed from "
            "the aircraft table, else 90 kt; the rules of ICAO Doc 8168. What was assumed for a row stands in its "
            "field assumed. Areas lie over the fix as a point unless FIX_BASIS says otherwise: how well a fix can be "
            "made is then not in them. Cells may hold decimal commas, positions in any usual notation. Without DEM, "
            "OBSTACLES or airspace layers nothing is said of them; distances and clearances are those that the tests "
            "of their own take when nothing is given."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, 5th ed., Part II, Section 4, Chapter 1 (holds), Part I, Section 4, Chapter 3, "
            "Appendix C (areas); FAA AIM 5-3-8; World Magnetic Model 2025."
        )

    def shortHelpString(self):
        inputs = [(definition.description(), definition.help()) for definition in self.parameterDefinitions()]
        return helps.compose(self.what(), inputs, list(LAYERS.values()), self.assumed(), self.cited())

    def declare(self):
        self.add_source(
            "NAVAIDS",
            tr("Navaids"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr(
                "Points with the fields ident and, where known, name, kind, freq, elev_ft, decl_deg, class, status, "
                "id; in any CRS."
            ),
        )
        self.add_source(
            "PLAN",
            tr("Plan"),
            QgsProcessing.SourceType.TypeVector,
            tr(
                "A table, a row an exercise. Columns: exercise (needed); fix_method (radial_distance, along_track, "
                "crossing, coordinates, overhead), navaid, navaid_kind, navaid_id, radial_deg, distance_nm, "
                "distance_kind, navaid_2, radial_2_deg, distance_2_nm, course_deg, arrival_deg, from_ident, from_lat, "
                "from_lon, along_nm, along_side, lat, lon, north, inbound_deg, turn, leg_min, leg_nm, leg_end, ias_kt, "
                "area_ias_kt, alt_ft, alt_to_ft, isa_dev_c, wind_from_deg (true), wind_kt, start_utc, leave_utc, "
                "efc_utc, rules, aircraft, clearance (a holding clearance in words, which fills the cells left empty). "
                "Others are kept."
            ),
        )
        self.add_source(
            "AIRCRAFT",
            tr("Aircraft"),
            QgsProcessing.SourceType.TypeVector,
            tr(
                "A table for the plan's column aircraft: aircraft, ias_kt and, where known, area_ias_kt, fuel_flow and "
                "usable_fuel (one unit, and that unit an hour)."
            ),
            optional=True,
        )
        surroundings.declare(self)
        self.add(
            Number(
                "WIND_FROM", tr("Wind from"), 0, 360,
                tr("True direction of the wind for all exercises. Not given: each row's own wind."), tr("degrees true"),
                optional=True, dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number(
                "WIND_SPEED",
                tr("Wind speed"),
                0,
                MOST_WIND_KT,
                tr("Goes with WIND_FROM."),
                "kt",
                optional=True,
                dynamic=False,
            )
        )
        self.add(
            Number(
                "QNH", tr("QNH"), 850, 1100,
                tr("Altimeter setting: airspeeds are true for the pressure altitude. Not given: 1013.25."), "hPa",
                optional=True, dynamic=False,
            )
        )  # fmt: skip
        self.add_date()
        self.add_other(
            QgsProcessingParameterString("START", tr("First over the fix at (UTC)"), None, False, True),
            tr("For all exercises, such as 14:05 (on DATE) or 2026-09-01T14:05. Not given: each row's start_utc."),
        )
        self.add_other(
            QgsProcessingParameterString("TITLE", tr("Title"), None, False, True),
            tr("What the project and the briefing are called. Not given: Training area."),
        )
        basis = tr(
            "What the protected areas lie over: the fix as a point; or its tolerance area, as Fix tolerance areas has "
            "it by the aids that define the fix, or by GNSS (RNAV 1 within 30 NM of the aerodrome). A point leaves out "
            "how well the fix can be made."
        )
        self.add(Choice("FIX_BASIS", tr("Areas lie over"), FIX_BASES, basis, default="point", dynamic=False))
        self.add_tolerance(tr("How far a chord may lie off the true curve."))
        self.add_other(
            QgsProcessingParameterFolderDestination("FOLDER", tr("Folder")),
            tr("Where the three files go; made where it is not there."),
        )
        for name, layer in LAYERS.items():
            described = schema.LAYERS[layer]
            self.addOutput(QgsProcessingOutputVectorLayer(name, tr(described.title), described.source_type))
        self.addOutput(QgsProcessingOutputFile("PROJECT", tr("Project")))
        self.addOutput(QgsProcessingOutputFile("SHEET", tr("Briefing")))

    def check(self, parameters, context):
        problem = no_ident("NAVAIDS", self.source_fields(parameters, context, "NAVAIDS"))
        if problem:
            return problem
        plan = self.parameterAsSource(parameters, "PLAN", context)
        if field_index(plan.fields(), "exercise") < 0:
            return tr("PLAN has no column exercise; its columns are {}.").format(_listed(plan.fields()))
        if all(field_index(plan.fields(), name) < 0 for name in _FIX_BY):
            return tr(
                "PLAN has no column navaid, no columns lat and lon and no clearance, so nothing says where a fix is."
            )
        if plan.featureCount() == 0:
            return tr("PLAN has no rows; it must have one for each exercise.")
        if ("WIND_FROM" in parameters) != ("WIND_SPEED" in parameters):
            return tr("WIND_FROM and WIND_SPEED go together; give both, or neither.")
        if "START" in parameters and read_moment(parameters["START"], "START")[1]:
            return read_moment(parameters["START"], "START")[1]
        if "AIRCRAFT" in parameters:
            fields = self.source_fields(parameters, context, "AIRCRAFT")
            for name in ("aircraft", "ias_kt"):
                if field_index(fields, name) < 0:
                    return tr("AIRCRAFT has no column {}; its columns are {}.").format(name, _listed(fields))
        problem = surroundings.problem(self, parameters, context)
        if problem:
            return problem
        if "FOLDER" in parameters and parameters["FOLDER"] != QgsProcessing.TEMPORARY_OUTPUT:
            return _folder_problem(str(parameters["FOLDER"]))
        return ""

    def compute(self, run: Run) -> None:
        from ..geometry import plan as plans
        from .common.areafiles import Files
        from .common.tables import Table

        day = run.day()
        plan, navaids = run.source("PLAN"), run.source("NAVAIDS")
        table = Table(plan)
        stations = navaid_columns(run, navaids)
        speeds = Table(run.source("AIRCRAFT")).cells if "AIRCRAFT" in run.parameters else None
        run.rows_in = len(table.rows)
        if run.feedback.isCanceled():
            run.feedback.pushInfo(tr("stopped before anything was built"))
            return
        run.feedback.setProgress(10)
        built = plans.build(
            table.cells, stations, speeds, var_date=day.text, year=day.year, tolerance_m=run.constant("TOLERANCE"),
            qnh_hpa=run.constant("QNH") or plans.STANDARD_QNH_HPA, fix_basis=run.constant("FIX_BASIS"),
        )  # fmt: skip
        flight = plans.fly_plan(built.spoken.plan, built.rows, built.kept, speeds, self._flight_day(run, day))
        built.say(flight.limits, flight.assumed)
        sectors = plans.sector_rows(built.kept, SECTOR_RADIUS_NM, run.constant("TOLERANCE"))
        run.rows_out = len(built.rows)
        run.rows_rejected = run.rows_in - run.rows_out
        run.feedback.setProgress(50)
        if run.feedback.isCanceled():
            run.feedback.pushInfo(tr("stopped before anything was written"))
            return
        for i in (built.reasons != "").nonzero()[0].tolist():
            run.feedback.pushWarning(tr("row {}: {}").format(table.ids[i], built.reasons[i]))
        folder = self.parameterAsString(run.parameters, "FOLDER", run.context)
        title = str(run.parameters.get("TITLE") or tr("Training area"))
        self.files = Files(folder, title, tr("{}, no date given").format(navaids.sourceName() or tr("navaids")))
        try:
            self.files.write_layers(table, stations, built, sectors, flight)
            run.feedback.setProgress(60)
            if run.rows_out:
                self._test(run, day, built)
        except BaseException:
            self.files.discard()
            raise
        run.feedback.setProgress(80)

    def _test(self, run: Run, day, built) -> None:
        """Test the holds by every step there is, and keep what the steps say."""
        from ..geometry.plan.limit_tests import limit_test_rows
        from .common import areatests

        self.asked = dict(run.parameters)
        inputs = {name: self.asked[name] for name in areatests.INPUTS if name in self.asked}
        if "OBSTACLES" in inputs:
            fields = run.source("OBSTACLES").fields()
            inputs.update({k: f"field:{v}" for k, v in surroundings.ACCURACIES.items() if field_index(fields, v) >= 0})
        made = areatests.test_area(
            self.files.working, inputs, day.text, run.constant("QNH"), self.files.write_features, run.context,
            run.feedback, between=(60.0, 80.0),
        )  # fmt: skip
        for name, features in made.items():
            if name != "tests":
                self.files.write_features(name, features)
        tests = self.files.features("tests", limit_test_rows(built.kept)) + made["tests"]
        self.files.write_features("tests", tests)
        self.files.mark_failing(tests)

    def _flight_day(self, run: Run, day):
        """The wind and the start that hold for all rows, where they are given."""
        import datetime

        import numpy as np

        from ..geometry.plan import FlightDay

        moment, _ = read_moment(run.parameters.get("START"), "START")
        start = None if moment is None else np.datetime64(moment.on(datetime.date.fromisoformat(day.text)), "s")
        wind = [run.constant(name) for name in ("WIND_FROM", "WIND_SPEED")]
        return FlightDay(day.text, *[np.nan if value is None else float(value) for value in wind], start)

    def processAlgorithm(self, parameters, context, feedback):
        self.files, self.in_place = None, False
        results = super().processAlgorithm(parameters, context, feedback)
        if self.files is None:
            return results
        try:
            results.update(self._finish(results, context, feedback))
        finally:
            self.files.discard()
        return results

    def _finish(self, results: dict, context, feedback) -> dict:
        """Project and briefing of the layers, and all files in their places. Returns: outputs; none after a cancel.

        Errors: QgsProcessingException where one of them cannot be made; then no file is in its place.
        """
        files, layers, made = self.files, {}, {}
        try:
            if not feedback.isCanceled():
                files.dress_layers()
                layers = files.open_layers()
                files.write_project(layers, context)
                made["PROJECT"] = files.project
                if results["ROWS_OUT"]:
                    self._print(layers, context, feedback)
                    made["SHEET"] = files.sheet
                else:
                    feedback.pushWarning(tr("No row gave a hold, so there is no briefing."))
        except (OSError, ValueError) as error:
            raise QgsProcessingException(str(error)) from error
        finally:
            layers.clear()
        if feedback.isCanceled():
            feedback.pushInfo(tr("stopped before the files were put in their place"))
            return {}
        files.put()
        self.in_place = True
        return {**made, **{name: files.source(layer) for name, layer in LAYERS.items()}, "FOLDER": files.folder}

    def _print(self, layers: dict, context, feedback) -> None:
        self.printer(
            layers, self.files.working_sheet(), title=self.files.title, navaid_data=self.files.navaid_data,
            cancelled=feedback.isCanceled, progress=lambda share: feedback.setProgress(80.0 + 20.0 * share),
            **self._beside(context),
        )  # fmt: skip

    def postProcessAlgorithm(self, context, feedback):
        if self.in_place:
            _load_on_completion(self.files, context)
        return {}

    def _beside(self, context) -> dict:
        """What the sheets show beside the layers: airspace and terrain as they were given."""
        from .common import areatests, shading

        spaces = [
            self.parameterAsVectorLayer(self.asked, name, context) for name in areatests.SPACES if name in self.asked
        ]
        under = []
        if "DEM" in self.asked:
            under = [shading.shaded(self.parameterAsRasterLayer(self.asked, "DEM", context))]
        return {"airspace": [layer for layer in spaces if layer is not None], "under": under}


def _listed(fields) -> str:
    return ", ".join(field.name() for field in fields) or tr("none")


def _folder_problem(folder: str) -> str:
    """Why a folder cannot be written into, in a sentence; '' if it can."""
    from .common.areafiles import GEOPACKAGE, PROJECT, SHEET, in_the_way

    path = Path(folder).absolute()
    if path.exists() and not path.is_dir():
        return tr("FOLDER is {}, which is a file; it must be a folder.").format(shown(folder))
    above = next(parent for parent in (path, *path.parents) if parent.exists())
    for name in (GEOPACKAGE, PROJECT, SHEET):
        if (path / name).is_dir():
            return in_the_way(str(path / name))
    if not above.is_dir() or not os.access(above, os.W_OK | os.X_OK):
        return tr("FOLDER is {}, which cannot be written into; choose a folder of your own.").format(shown(folder))
    return ""


def _load_on_completion(files, context: QgsProcessingContext) -> None:
    """Ask for the layers in the project that is open, where there is one."""
    from .common import styling
    from .common.areafiles import described

    if context.project() is None:
        return
    for layer in described():
        details = QgsProcessingContext.LayerDetails(tr(layer.title), context.project(), layer.name)
        context.addLayerToLoadOnCompletion(files.source(layer.name), details)
        styling.dress_when_loaded(files.source(layer.name), layer, context)
