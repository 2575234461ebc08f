"""Algorithms that write files of their own: made whole in memory, written beside their places, then renamed."""

from __future__ import annotations

import os
import shutil
import tempfile
from pathlib import Path

from qgis.core import (
    QgsProcessing,
    QgsProcessingException,
    QgsProcessingParameterFileDestination,
    QgsProcessingUtils,
)

from . import help as helps
from .base import FixwrightAlgorithm
from .specs import shown
from .texts import tr


class FileAlgorithm(FixwrightAlgorithm):
    """An algorithm whose compute() fills self.made: parameter of a file -> {path: bytes}, the main file last.

    Nothing is written before compute() and all sinks are done; after a cancel nothing is written.
    """

    def __init__(self):
        super().__init__()
        self.files: dict[str, str] = {}
        self.made: dict[str, dict[str, bytes]] = {}

    def add_file(self, name: str, label: str, kinds: str, text: str, optional: bool = False) -> None:
        """Add a file to write. kinds: a file filter, such as 'GPX (*.gpx);;KML (*.kml)'."""
        self.files[name] = kinds
        self.add_other(QgsProcessingParameterFileDestination(name, label, kinds, None, optional), text)

    def shortHelpString(self):
        inputs = [(d.description(), d.help()) for d in self.parameterDefinitions() if d.name() not in self.sinks]
        return helps.compose(self.what(), inputs, list(self.sinks.values()), self.assumed(), self.cited())

    def wanted_file(self, parameters: dict, name: str) -> str:
        """The path given for a file; '' where none is given or where it is left to QGIS."""
        if name not in parameters:
            return ""
        value = str(parameters[name]).strip()
        return "" if value == QgsProcessing.TEMPORARY_OUTPUT else value

    def place_of(self, parameters: dict, name: str, ending: str) -> str:
        """The path of a file that is asked for; a new temporary one where it is left to QGIS."""
        given = self.wanted_file(parameters, name)
        return os.path.abspath(given) if given else QgsProcessingUtils.generateTempFilename(f"{name.lower()}.{ending}")

    def checkParameterValues(self, parameters, context):
        good, text = super().checkParameterValues(parameters, context)
        if good:
            values = self.healed(parameters)
            problems = (file_problem(name, self.wanted_file(values, name)) for name in self.files)
            text = next((problem for problem in problems if problem), "")
        return not text, text

    def processAlgorithm(self, parameters, context, feedback):
        self.made = {}
        results = super().processAlgorithm(parameters, context, feedback)
        if feedback.isCanceled():
            feedback.pushInfo(tr("stopped before any file was written"))
            return results
        write_whole({path: data for files in self.made.values() for path, data in files.items()})
        results.update({name: list(files)[-1] for name, files in self.made.items()})
        self.made = {}
        return results


def file_problem(name: str, path: str) -> str:
    """Why a file cannot be written at a place, in a sentence; '' where nothing speaks against it."""
    if not path:
        return ""
    place = Path(path).absolute()
    if place.is_dir():
        return tr("{} is {}, which is a folder; it must be a file.").format(name, shown(path))
    if not place.parent.is_dir():
        return tr("{} is {}, but there is no folder {}; make it first.").format(
            name, shown(path), shown(str(place.parent))
        )
    if not os.access(place.parent, os.W_OK | os.X_OK):
        return tr("{} is {}, whose folder cannot be written into; choose a folder of your own.").format(
            name, shown(path)
        )
    return ""


def write_whole(files: dict[str, bytes]) -> None:
    """Write files beside their places, and put them there in order when all of them are whole.

    Errors: QgsProcessingException where one cannot be written; then the older files are still there, and nothing else.
    """
    beside: dict[str, str] = {}
    path = ""
    try:
        for path, data in files.items():
            folder = os.path.dirname(path)
            if folder not in beside:
                beside[folder] = tempfile.mkdtemp(prefix=".fixwright-", dir=folder)
            with open(_new(beside, path), "wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
        for path in files:
            os.replace(_new(beside, path), path)
    except OSError as error:
        raise QgsProcessingException(tr("{} cannot be written: {}.").format(path, error.strerror)) from error
    finally:
        for folder in beside.values():
            shutil.rmtree(folder, ignore_errors=True)


def _new(beside: dict[str, str], path: str) -> str:
    folder, name = os.path.split(path)
    return os.path.join(beside[folder], name)
