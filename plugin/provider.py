"""The provider: what the Processing toolbox, models, scripts and qgis_process see."""

from __future__ import annotations

import configparser
from pathlib import Path

from qgis.core import QgsProcessingProvider
from qgis.PyQt.QtGui import QIcon

from ..algorithms.airspacetest import AirspaceTest
from ..algorithms.auditnavaids import AuditNavaids
from ..algorithms.briefingsheet import BriefingSheet
from ..algorithms.briefingtext import BriefingText
from ..algorithms.buildarea import BuildArea
from ..algorithms.chartoverlay import ChartOverlay
from ..algorithms.coveragetest import CoverageTest
from ..algorithms.designholds import DesignHolds
from ..algorithms.entrysectors import EntrySectors
from ..algorithms.exportwaypoints import ExportWaypoints
from ..algorithms.findholds import FindHolds
from ..algorithms.fixalongtrack import FixAlongTrack
from ..algorithms.fixcrossing import FixCrossing
from ..algorithms.fixradialdistance import FixRadialDistance
from ..algorithms.fixslips import FixSlips
from ..algorithms.fixtolerance import FixTolerance
from ..algorithms.flyholds import FlyHolds
from ..algorithms.holdfromclearance import HoldFromClearance
from ..algorithms.importnavaids import ImportNavaids
from ..algorithms.minimumaltitude import MinimumAltitude
from ..algorithms.practiceclearances import PracticeClearances
from ..algorithms.protectedareas import ProtectedAreas
from ..algorithms.separationtest import SeparationTest
from .phone import word_hold
from .sheets import print_briefing

ROOT = Path(__file__).resolve().parents[1]


class FixwrightProvider(QgsProcessingProvider):
    """All algorithms of Fixwright."""

    def id(self):
        return "fixwright"

    def name(self):
        return "Fixwright"

    def longName(self):
        return "Fixwright"

    def versionInfo(self):
        metadata = configparser.ConfigParser(interpolation=None)
        metadata.read(ROOT / "metadata.txt", encoding="utf-8")
        return metadata.get("general", "version", fallback="")

    def svgIconPath(self):
        return str(ROOT / "plugin" / "icons" / "fixwright.svg")

    def icon(self):
        return QIcon(self.svgIconPath())

    def loadAlgorithms(self):
        for made in (
            FixRadialDistance(),
            FixAlongTrack(),
            FixCrossing(),
            FixTolerance(),
            FixSlips(),
            DesignHolds(),
            EntrySectors(),
            FlyHolds(),
            ProtectedAreas(),
            HoldFromClearance(print_briefing),
            PracticeClearances(),
            FindHolds(),
            BuildArea(print_briefing),
            BriefingSheet(print_briefing),
            CoverageTest(),
            MinimumAltitude(),
            AirspaceTest(),
            SeparationTest(),
            ImportNavaids(),
            AuditNavaids(),
            ExportWaypoints(),
            BriefingText(word_hold),
            ChartOverlay(),
        ):
            self.addAlgorithm(made)
