"""Briefing sheets: an overview and a page a hold, for instructor, student, knee or talk, and set-up cards."""

from __future__ import annotations

import os
from collections.abc import Callable

from qgis.core import (
    QgsProcessing,
    QgsProcessingAlgorithm,
    QgsProcessingException,
    QgsProcessingParameterFileDestination,
    QgsProcessingParameterFolderDestination,
    QgsProcessingParameterMultipleLayers,
    QgsProcessingParameterRasterLayer,
    QgsProcessingParameterString,
    QgsVectorLayer,
)

from .common import areafinder, holdrows, shading, styling
from .common.base import FixwrightAlgorithm
from .common.run import Run
from .common.schema import LAYERS
from .common.specs import Choice
from .common.texts import tr
from .common.values import field_index, given, text

EDITIONS = ("instructor", "student", "knee", "talk", "card")
PAPERS = ("a4", "letter")


class BriefingSheet(FixwrightAlgorithm):
    """Briefing sheets. printer(layers, path, **options) prints, cancelled is what it raises when it is stopped."""

    ID = "briefingsheet"
    GROUP = "briefing"

    def __init__(self, printer: Callable):
        super().__init__()
        self.printer = printer
        self.files: dict[str, str] = {}

    def createInstance(self):
        return type(self)(self.printer)

    def flags(self):
        return super().flags() | QgsProcessingAlgorithm.Flag.FlagNoThreading

    def displayName(self):
        return tr("Briefing sheets")

    def tags(self):
        return tr("briefing,sheet,card,pdf,print,layout,student,kneeboard,talk,set-up").split(",")

    def what(self):
        return tr(
            "Prints holds for a briefing. Instructor: an overview with an index, then a page a hold with map, "
            "clearance, fix, entry, headings and times, tests, airspace, slips and room for the conduct of the "
            "exercise. Student: clearance and chart, the answers left blank. Knee: half a page a hold, ten numbers. "
            "Talk: a page 16:9 a hold. Card: what to set in whatever is in the panel, what must be seen, the trap. "
            "Text in the PDF is text; figures are rounded as flown."
        )

    def assumed(self):
        return tr(
            "The layers that belong to the holds (fixes, patterns, areas, entries, flown tracks, tests and so on) are "
            "those given in LAYERS, else those in the same GeoPackage; patterns, legs, basic areas, fixes and navaids "
            "that are not there are computed from the holds. Without an aircraft table the card shows every way."
        )

    def cited(self):
        return tr(
            "FAA AIM 5-3-8 and ICAO Doc 8168 Vol I, I-6-1 (what a hold is flown by); colours of Okabe and Ito, Color "
            "Universal Design; what a card says of equipment: common practice."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The holds layer of Build training area or of Design holds."),
        )
        self.add_other(
            QgsProcessingParameterMultipleLayers(
                "LAYERS", tr("Layers of the holds"), QgsProcessing.SourceType.TypeVector, None, True
            ),
            tr(
                "Layers that other algorithms of Fixwright made for these holds: navaids, fixes, patterns, tracks, "
                "areas, sectors, entries, flown, tests, slips, airspace contacts. Each is known by its fields. Not "
                "given: those in the file of the holds."
            ),
        )
        self.add_other(
            QgsProcessingParameterMultipleLayers(
                "AIRSPACE", tr("Airspace"), QgsProcessing.SourceType.TypeVectorAnyGeometry, None, True
            ),
            tr("Airspace, airways and places to draw on the maps, with fields name, lower and upper."),
        )
        self.add_other(
            QgsProcessingParameterRasterLayer("DEM", tr("Terrain"), None, True),
            tr("Heights of the ground, drawn as a quiet shading below everything."),
        )
        self.add_other(
            QgsProcessingParameterMultipleLayers(
                "BASEMAP", tr("Base map"), QgsProcessing.SourceType.TypeMapLayer, None, True
            ),
            tr("Your own layers to draw below everything, the topmost first."),
        )
        self.add_source(
            "AIRCRAFT",
            tr("Aircraft"),
            QgsProcessing.SourceType.TypeVector,
            tr("A table with aircraft and equipment: words such as radial and distance; a holding function."),
            optional=True,
        )
        self.add(Choice("EDITION", tr("Edition"), EDITIONS, tr("For whom."), default="instructor", dynamic=False))
        self.add(
            Choice("PAPER", tr("Paper"), PAPERS, tr("A talk is 16:9 whatever it says."), default="a4", dynamic=False)
        )
        self.add_other(
            QgsProcessingParameterString("TITLE", tr("Title"), None, False, True),
            tr("What stands above the overview. Not given: Training area."),
        )
        self.add_other(
            QgsProcessingParameterString("NAVAID_DATA", tr("Navaid data"), None, False, True),
            tr("What and of when the navaid data are, for the foot of each page."),
        )
        self.add_tolerance(tr("How far a drawn curve may lie off, where patterns are computed anew."))
        self.add_other(
            QgsProcessingParameterFileDestination("SHEET", tr("Sheets"), tr("PDF files (*.pdf)"), None, True),
            tr("The PDF to write; an older one of that name gives way when the new one is whole."),
        )
        self.add_other(
            QgsProcessingParameterFolderDestination("PICTURES", tr("Pages as pictures"), None, True, False),
            tr("A folder for each page as a PNG of 150 dots an inch."),
        )

    def check(self, parameters, context):
        problem = holdrows.missing_fields("INPUT", self.source_fields(parameters, context))
        if problem:
            return problem
        if not any(given(parameters.get(name)) for name in ("SHEET", "PICTURES")):
            return tr("Neither SHEET nor PICTURES is given, so there is nothing to print into.")
        if self.parameterAsSource(parameters, "INPUT", context).featureCount() == 0:
            return tr("INPUT has no holds, so there is nothing to brief.")
        if "AIRCRAFT" in parameters:
            fields = self.source_fields(parameters, context, "AIRCRAFT")
            for name in ("aircraft", "equipment"):
                if field_index(fields, name) < 0:
                    return tr("AIRCRAFT has no column {}.").format(name)
        return ""

    def compute(self, run: Run) -> None:
        holds = self.parameterAsVectorLayer(run.parameters, "INPUT", run.context)
        if holds is None:
            raise QgsProcessingException(tr("INPUT must be a layer, not a selection of one."))
        layers = areafinder.in_same_file(holds)
        for layer in self._layers(run, "LAYERS"):
            name = areafinder.recognised(layer)
            if name:
                layers[name] = layer
            else:
                run.feedback.pushWarning(tr("{} is none of the layers that a briefing shows").format(layer.name()))
        layers = areafinder.completed(run, holds, layers, run.constant("TOLERANCE"))
        layers = {name: self._dressed(layer, name) for name, layer in {**layers, "holds": holds}.items()}
        run.rows_in = run.rows_out = int(holds.featureCount())
        under = self._layers(run, "BASEMAP", vector=False)
        dem = self.parameterAsRasterLayer(run.parameters, "DEM", run.context)
        if dem is not None:
            under.append(shading.shaded(dem))
        options = dict(
            edition=run.constant("EDITION"),
            paper=run.constant("PAPER"),
            title=str(run.parameters.get("TITLE") or ""),
            navaid_data=str(run.parameters.get("NAVAID_DATA") or ""),
            aircraft=self._equipment(run),
            airspace=self._layers(run, "AIRSPACE"),
            under=under,
            cancelled=run.feedback.isCanceled,
            progress=lambda share: run.feedback.setProgress(100.0 * share),
        )
        self.files = {}
        for name, png in (("SHEET", False), ("PICTURES", True)):
            if not given(run.parameters.get(name)):
                continue
            reader = self.parameterAsString if png else self.parameterAsFileOutput
            path = reader(run.parameters, name, run.context)
            pages = self._print(run, layers, path, dict(options, png=png))
            if pages:
                self.files[name] = path
                run.feedback.pushInfo(tr("{} pages in {}").format(pages, path))

    @staticmethod
    def _dressed(layer: QgsVectorLayer, name: str) -> QgsVectorLayer:
        """A copy of a layer as it is to be printed, whatever it looks like where it comes from."""
        made = layer.clone()
        styling.dress(made, LAYERS[name])
        return made

    def _print(self, run: Run, layers: dict, path: str, options: dict) -> int:
        """Print once. Returns: pages; 0 where it was cancelled."""
        folder = os.path.dirname(os.path.abspath(path))
        if not os.path.isdir(folder):
            raise QgsProcessingException(tr("The folder {} is not there.").format(folder))
        pages = self.printer(layers, path, **options)
        if not pages:
            run.feedback.pushInfo(tr("stopped before the sheets were put in their place"))
        return pages

    def processAlgorithm(self, parameters, context, feedback):
        return {**super().processAlgorithm(parameters, context, feedback), **self.files}

    def _layers(self, run: Run, name: str, vector: bool = True) -> list:
        """The layers of a parameter of several; raster layers only where vector is false."""
        if name not in run.parameters:
            return []
        found = self.parameterAsLayerList(run.parameters, name, run.context) or []
        return [layer for layer in found if not vector or isinstance(layer, QgsVectorLayer)]

    def _equipment(self, run: Run) -> dict[str, str]:
        """Words of the equipment by aircraft."""
        source = run.source("AIRCRAFT")
        if source is None:
            return {}
        fields = source.fields()
        name, words = field_index(fields, "aircraft"), field_index(fields, "equipment")
        return {text(feature[name]): text(feature[words]) for feature in source.getFeatures()}
