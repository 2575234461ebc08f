"""The files of a training area in their folder: layers, project, sheet; all made beside, then put in their places."""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import tempfile
import zipfile

from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsDateTimeRange,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProject,
    QgsProjectMetadata,
    QgsRectangle,
    QgsReferencedRectangle,
    QgsUnitTypes,
    QgsVectorLayer,
)
from qgis.PyQt.QtCore import QDateTime, Qt

from . import failing, geopackage, local, schema, styling
from .specs import shown
from .tables import Table
from .texts import caution, tr

GEOPACKAGE, PROJECT, SHEET = "training-area.gpkg", "training-area.qgz", "briefing.pdf"
WHOLE, OLDER = "whole-", "older-"
"""What goes before the names of files that are ready to be put in their places, and of those they take the place of."""

MADE = ("fixes", "holds", "patterns", "tracks", "sectors", "entries", "flown", "events", "by_rule", "tolerances",
        "areas", "tests", "failing", "controlling", "airspace_contacts", "pairs", "levels", "slips", "alternatives",
        "rejects")  # fmt: skip
"""The layers that are computed; the navaids come with them."""
TESTED = ("tests", "failing", "controlling", "airspace_contacts", "pairs", "levels", "slips", "alternatives")
"""Those that the tests fill; empty until they have run."""
DRAWN = ("holds", "fixes", "navaids", "controlling", "events", "flown", "by_rule", "tracks", "patterns", "failing",
         "sectors", "tolerances", "areas")  # fmt: skip
"""Layers of the project, the topmost first; the rejects, if there are any, stand below them."""
IF_ANY = ("tolerances",)
"""Of these, what is left out of the project where it is empty."""
HIDDEN = ("controlling", "events", "flown", "by_rule", "sectors")
"""Layers of the project that are switched on when they are wanted."""
FRAME_S = 10.0
"""How much of a flight the temporal controller plays in a frame."""


def described() -> list[schema.LayerSchema]:
    """What the file holds."""
    return [schema.LAYERS[name] for name in ("navaids", *MADE)]


class Files:
    """The three files in their folder, all made beside their places and put there together.

    Errors: QgsProcessingException for a folder that cannot be written into.
    """

    def __init__(self, folder: str, title: str, navaid_data: str):
        self.folder, self.title, self.navaid_data = os.path.abspath(folder), title, navaid_data
        self.geopackage, self.project, self.sheet = (
            os.path.join(self.folder, name) for name in (GEOPACKAGE, PROJECT, SHEET)
        )
        self._made_folder = not os.path.isdir(self.folder)
        try:
            os.makedirs(self.folder, exist_ok=True)
            self._beside = tempfile.mkdtemp(prefix=".training-area-", dir=self.folder)
        except OSError as error:
            raise QgsProcessingException(
                tr("FOLDER is {}, which cannot be written into: {}.").format(shown(folder), error.strerror)
            ) from error

    def source(self, layer: str) -> str:
        """Where a layer is, as QGIS writes it."""
        return f"{self.geopackage}|layername={layer}"

    def write_layers(self, table: Table, stations: dict, built, sectors, day) -> None:
        """Write all layers into a new GeoPackage beside its place.

        built, of plan.build; sectors, a Layer; day, of plan.fly_plan.
        """
        from ...geometry import wkb

        self._write(schema.LAYERS["navaids"], stations, wkb.points(stations["lon"], stations["lat"]))
        kept = [table.rows[i] for i in built.rows.tolist()]
        for name in ("fixes", "holds"):
            columns = getattr(built, name)
            self._write(schema.LAYERS[name], columns, wkb.points(columns["lon"], columns["lat"]), table.fields, kept)
        for name, shapes in (("patterns", wkb.multipolygons), ("tracks", wkb.multilines)):
            layer = getattr(built, name)
            self._write(schema.LAYERS[name], layer.columns, shapes(layer.coords, layer.offsets))
        areas = built.areas
        shapes = wkb.polygons_with_holes(areas.coords, areas.rings, areas.polygons, areas.parts)
        self._write(schema.LAYERS["areas"], areas.columns, shapes)
        tolerances = built.tolerances
        shapes = wkb.multipolygons(tolerances.coords, tolerances.offsets)
        self._write(schema.LAYERS["tolerances"], tolerances.columns, shapes)
        self._write(schema.LAYERS["sectors"], sectors.columns, wkb.multipolygons(sectors.coords, sectors.offsets))
        self._write(schema.LAYERS["entries"], day.entries, None)
        for name, layer in (("flown", day.flown), ("by_rule", day.by_rule)):
            lines = wkb.multilines_m(layer.coords, layer.seconds, layer.offsets)
            self._write(schema.LAYERS[name], layer.columns, lines)
        self._write(schema.LAYERS["events"], day.events, wkb.points(*day.places.T))
        bad = (built.reasons != "").nonzero()[0].tolist()
        columns = {"source_id": [table.ids[i] for i in bad], "reason": [built.reasons[i] for i in bad]}
        self._write(schema.LAYERS["rejects"], columns, None, table.fields, [table.rows[i] for i in bad])
        for name in TESTED:
            self.write_features(name, [])

    def _write(self, layer: schema.LayerSchema, columns: dict, shapes, foreign=None, rows=None) -> None:
        from . import sinks

        fields, passed = schema.fields_of(layer, foreign)
        nothing = [None] * len(next(iter(columns.values()), ()))
        ours = [sinks.python_values(columns[name]) if name in columns else nothing for name in layer.names]
        more = [[row[i] for i in passed] for row in rows] if rows is not None else None
        features = sinks.feature_list(ours, shapes, more)
        geopackage.write_layer(self._new(GEOPACKAGE), layer.name, tr(layer.title), fields, layer.wkb_type, features)

    def working(self, layer: str) -> str:
        """Where a layer is before the file is put in its place."""
        return f"{self._new(GEOPACKAGE)}|layername={layer}"

    def features(self, name: str, columns: dict, shapes=None) -> list:
        """Rows of one of our layers as features."""
        from . import sinks

        layer = schema.LAYERS[name]
        return sinks.feature_list([sinks.python_values(columns[column]) for column in layer.names], shapes)

    def write_features(self, name: str, features: list) -> str:
        """Write a layer from features in the fields of its schema, over one of that name. Returns: where it is."""
        layer = schema.LAYERS[name]
        fields, _ = schema.fields_of(layer)
        geopackage.write_layer(self._new(GEOPACKAGE), name, tr(layer.title), fields, layer.wkb_type, features)
        return self.working(name)

    def mark_failing(self, tests: list) -> None:
        """Fill the layer of failing holds from rows of tests, and say in the holds which tests they fail."""
        failed = failing.failed_tests(tests)
        areas, patterns, holds = (QgsVectorLayer(self.working(name), name, "ogr") for name in (
            "areas", "patterns", "holds"))  # fmt: skip
        self.write_features("failing", failing.failing_features(failed, areas.getFeatures(), patterns.getFeatures()))
        index = holds.fields().indexOf("failed")
        changes = {f.id(): {index: failing.in_words(failed[f["hold"]])} for f in holds.getFeatures()
                   if f["hold"] in failed}  # fmt: skip
        if changes and not holds.dataProvider().changeAttributeValues(changes):
            raise QgsProcessingException(tr("The holds that fail cannot be marked in {}.").format(self.geopackage))

    def dress_layers(self) -> None:
        """Give the new layers their styles and metadata, and set a copy aside: what is read is never what is put."""
        for layer in described():
            styling.dress_file(self.working(layer.name), layer)
        shutil.copyfile(self._new(GEOPACKAGE), self._new(WHOLE + GEOPACKAGE))

    def open_layers(self) -> dict[str, QgsVectorLayer]:
        """All layers by name, before they are put in their place.

        Errors: QgsProcessingException where one cannot be read back.
        """
        layers = {}
        for layer in described():
            layers[layer.name] = QgsVectorLayer(self.working(layer.name), tr(layer.title), "ogr")
            if not layers[layer.name].isValid():
                raise QgsProcessingException(tr("{} cannot be read back.").format(self.source(layer.name)))
        return layers

    def write_project(self, layers: dict[str, QgsVectorLayer], context: QgsProcessingContext) -> None:
        """Write the project beside its place.

        Errors: QgsProcessingException where it cannot be written.
        """
        project = QgsProject()
        project.setTitle(self.title)
        project.setFilePathStorage(Qgis.FilePathType.Relative)
        project.setEllipsoid("EPSG:7030")
        about = QgsProjectMetadata()
        about.setTitle(self.title)
        about.setAuthor("")
        about.setAbstract(caution())
        project.setMetadata(about)
        shown_below = ("rejects",) if layers["rejects"].featureCount() else ()
        drawn = [name for name in DRAWN if name not in IF_ANY or layers[name].featureCount()]
        for name in (*drawn, *shown_below):
            layer = layers[name].clone()
            layer.loadDefaultStyle()  # QGIS 3.22 forgets temporal settings when it opens a file and when it clones
            if name == "fixes":
                layer.setLabelsEnabled(False)  # the labels of the holds say it too
            project.addMapLayer(layer, False)
            project.layerTreeRoot().addLayer(layer).setItemVisibilityChecked(name not in HIDDEN)
        project.setCrs(QgsCoordinateReferenceSystem("EPSG:4326"))
        view = _view(layers, context)
        if view:
            project.setCrs(view.crs())
            project.viewSettings().setDefaultViewExtent(view)
        _set_clock(project, layers["flown"])
        good, why = project.write(self._new("raw.qgz")), project.error()
        project.clear()
        if not good:
            raise QgsProcessingException(tr("The project {} cannot be written: {}").format(self.project, why))
        _neutral_copy(self._new("raw.qgz"), self._new(WHOLE + PROJECT))

    def working_sheet(self) -> str:
        """Where the briefing is printed before it is put in its place."""
        return self._new(WHOLE + SHEET)

    def put(self) -> None:
        """Put the files that were made in their places, all of them or none.

        Errors: QgsProcessingException where one cannot be put there; then the older ones are still there.
        """
        made = [name for name in (GEOPACKAGE, PROJECT, SHEET) if os.path.exists(self._new(WHOLE + name))]
        # logs of an older file of this name go too: the database would mix them into the new one
        logs = [GEOPACKAGE + log for log in ("-wal", "-shm")]
        older = []
        place = ""
        try:
            for name in (*logs, *made):
                place = os.path.join(self.folder, name)
                if os.path.isdir(place):
                    raise QgsProcessingException(in_the_way(place))
                if os.path.lexists(place):
                    os.replace(place, self._new(OLDER + name))
                older.append(name)
                if name in made:
                    os.replace(self._new(WHOLE + name), place)
        except BaseException as error:
            for name in older:
                self._put_back(name)
            if not isinstance(error, OSError):
                raise
            raise QgsProcessingException(
                tr("{} cannot be replaced ({}); close what has it open, or choose another FOLDER.").format(
                    place, error.strerror
                )
            ) from error

    def _put_back(self, name: str) -> None:
        """What was there before a file was put in its place, or nothing."""
        place, before = os.path.join(self.folder, name), self._new(OLDER + name)
        with contextlib.suppress(OSError):
            if os.path.lexists(before):
                os.replace(before, place)
            else:
                os.unlink(place)

    def discard(self) -> None:
        """Remove what is left beside, and the folder where it was made for this and nothing was put into it."""
        shutil.rmtree(self._beside, ignore_errors=True)
        if self._made_folder:
            with contextlib.suppress(OSError):
                os.rmdir(self.folder)

    def _new(self, name: str) -> str:
        return os.path.join(self._beside, name)


def in_the_way(place: str) -> str:
    """That a folder stands where a file is to go, in a sentence."""
    return tr("{} is a folder, where a file is to be written; move it, or choose another FOLDER.").format(place)


def _neutral_copy(raw: str, new: str) -> None:
    """Copy a project and leave out the user's name, which QGIS writes into it."""
    with zipfile.ZipFile(raw) as old, zipfile.ZipFile(new, "w", zipfile.ZIP_DEFLATED) as out:
        for entry in old.namelist():
            data = old.read(entry)
            name = entry
            if entry.endswith(".qgs"):
                name = PROJECT.replace(".qgz", ".qgs")
                data = re.sub(rb'\b(saveUser|saveUserFull)="[^"]*"', rb'\1=""', data)
            out.writestr(name, data)


def _set_clock(project: QgsProject, flown: QgsVectorLayer) -> None:
    """What the temporal controller plays: from the first start to the last end, ten seconds a frame; in its own steps
    of an hour a flight is over before it is seen. Nothing where no flight has a time of day."""
    rows = [(row["start_utc"], row["end_utc"]) for row in flown.getFeatures()]
    ends = [QDateTime.fromString(str(time), Qt.DateFormat.ISODate) for row in rows for time in row if time]
    for end in ends:
        end.setTimeSpec(Qt.TimeSpec.UTC)
    if not ends:
        return
    clock = project.timeSettings()
    clock.setTemporalRange(QgsDateTimeRange(min(ends), max(ends)))
    clock.setTimeStep(FRAME_S)
    clock.setTimeStepUnit(QgsUnitTypes.TemporalUnit.TemporalSeconds)


def _view(layers: dict[str, QgsVectorLayer], context: QgsProcessingContext) -> QgsReferencedRectangle | None:
    """What shows the whole area in a projection about its middle; None where there is no hold."""
    holds = [feature.geometry().asPoint() for feature in layers["holds"].getFeatures()]
    if not holds:
        return None
    crs = local.crs(*local.middle([p.x() for p in holds], [p.y() for p in holds]))
    box = QgsRectangle()
    box.setMinimal()
    for name in ("areas", "patterns"):
        transform = QgsCoordinateTransform(layers[name].crs(), crs, context.transformContext())
        for feature in layers[name].getFeatures():
            geometry = feature.geometry()
            geometry.transform(transform)
            box.combineExtentWith(geometry.boundingBox())
    box.scale(1.1)
    return QgsReferencedRectangle(box, crs)
