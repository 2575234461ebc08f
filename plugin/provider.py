"""The provider: what the Processing toolbox, models, scripts and qgis_process see."""

from __future__ import annotations

import configparser
from pathlib import Path

from qgis.core import QgsProcessingProvider
from qgis.PyQt.QtGui import QIcon

from ..algorithms.auditnavaids import AuditNavaids
from ..algorithms.buildarea import BuildArea
from ..algorithms.coveragetest import CoverageTest
from ..algorithms.designholds import DesignHolds
from ..algorithms.entrysectors import EntrySectors
from ..algorithms.fixalongtrack import FixAlongTrack
from ..algorithms.fixcrossing import FixCrossing
from ..algorithms.fixradialdistance import FixRadialDistance
from ..algorithms.fixslips import FixSlips
from ..algorithms.fixtolerance import FixTolerance
from ..algorithms.flyholds import FlyHolds
from ..algorithms.importnavaids import ImportNavaids
from ..algorithms.protectedareas import ProtectedAreas
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
            BuildArea(print_briefing),
            CoverageTest(),
            ImportNavaids(),
            AuditNavaids(),
        ):
            self.addAlgorithm(made)
