"""Fixes, routes to holds and areas as files that navigators and planning tools read."""

from __future__ import annotations

from pathlib import Path

from qgis.core import QgsProcessing, QgsProcessingParameterString

from .common import holdrows
from .common.fileoutput import FileAlgorithm
from .common.specs import Choice, Number, shown
from .common.texts import caution, tr

FORMATS = ("gpx", "kml", "geojson", "csv")
POSITION_FORMATS = ("decimal", "dm2", "dm3", "dms")
CHARACTERS = ("any", "letters_figures")
LAYERS = ("FIXES", "HOLDS", "AREAS")
_ENDINGS = {".gpx": "gpx", ".kml": "kml", ".geojson": "geojson", ".json": "geojson", ".csv": "csv"}


class ExportWaypoints(FileAlgorithm):
    """Export waypoints."""

    ID = "exportwaypoints"
    GROUP = "briefing"
    NEEDS = ("numpy", "pyproj", "osgeo")

    def displayName(self):
        return tr("Export waypoints")

    def tags(self):
        return tr("gpx,kml,geojson,csv,waypoint,route,track,navigator,position format,export").split(",")

    def what(self):
        return tr(
            "Writes fixes as waypoints, a route to each hold (arrival, fix, corners of the pattern in the order flown, "
            "fix again) and areas and patterns as closed tracks or polygons into one file: GPX 1.1, KML, GeoJSON by "
            "RFC 7946, or CSV. Names are cut to a length and made unique; RENAMED tells which are not as they were. "
            "The caution stands in the file. A cancelled or failed run leaves no file and keeps an older one."
        )

    def assumed(self):
        return tr(
            "A navigator flies a route's corners as straight legs and knows no turns of a hold: the corners show the "
            "pattern, they do not fly it. Corners are called by the hold with OUT (start of the outbound leg), END "
            "(its end) and IN (start of the inbound leg). GPX holds no heights: an altitude to fly stands in the "
            "description, since a waypoint's elevation means the ground. Longitudes of 180 degrees are written as "
            "-180, in tracks a tenth of a millimetre west of it."
        )

    def cited(self):
        return tr(
            "GPX 1.1 schema; OGC 07-147r2 (KML 2.2); RFC 7946 (GeoJSON); RFC 4180 (CSV); OWASP, CSV Injection (cells "
            "that begin with = + - @); which characters navigators take is common practice."
        )

    def declare(self):
        self.add_source(
            "FIXES", tr("Fixes"), QgsProcessing.SourceType.TypeVectorPoint,
            tr("Points that become waypoints: the fixes layer, or any other."), optional=True,
        )  # fmt: skip
        named = tr("Field with the names of the fixes.")
        self.add_field("NAME_FIELD", tr("Name of a fix"), ("fix", "ident", "name"), named, "FIXES")
        self.add_source(
            "HOLDS", tr("Holds"), QgsProcessing.SourceType.TypeVectorPoint,
            tr("The holds layer of Design holds: a route and a pattern for each; fixes not in FIXES become waypoints."),
            optional=True,
        )  # fmt: skip
        self.add_source(
            "ARRIVALS", tr("Arrivals"), QgsProcessing.SourceType.TypeVectorLine,
            tr("Lines drawn towards the fixes; each leads the route of every hold near which a segment of it ends."),
            optional=True,
        )  # fmt: skip
        within = tr("How near the fix a segment of a line in ARRIVALS must end.")
        self.add(
            Number("WITHIN", tr("Arrivals within"), 0.01, 60, within, "NM", default=2, dynamic=False, advanced=True)
        )
        self.add_source(
            "AREAS", tr("Areas"), QgsProcessing.SourceType.TypeVectorPolygon,
            tr("Polygons that become closed tracks or polygons: protected areas, fix tolerance areas, any other."),
            optional=True,
        )  # fmt: skip
        named = tr("Field with the names of the areas.")
        self.add_field("AREA_NAME_FIELD", tr("Name of an area"), ("hold", "fix", "ident", "name"), named, "AREAS")
        self.add(
            Choice("FORMAT", tr("Format"), FORMATS, tr("Not given: by the ending of OUTPUT, else gpx."),
                   optional=True, dynamic=False)
        )  # fmt: skip
        position = tr(
            "How a CSV file has positions: decimal degrees; degrees and minutes with 2 or 3 decimals (to 9 m, 1 m); "
            "degrees, minutes and seconds with one decimal (to 2 m). The other formats have their own."
        )
        self.add(
            Choice("POSITION_FORMAT", tr("Positions in CSV"), POSITION_FORMATS, position, "decimal", dynamic=False)
        )
        length = tr("Most characters of a name. Not given: as long as they are.")
        self.add(Number("NAME_LENGTH", tr("Length of names"), 5, 255, length, optional=True, dynamic=False, decimals=0))
        characters = tr(
            "What names may hold: any sign that can be shown, or only capital letters A to Z and figures, as older "
            "navigators want them."
        )
        self.add(
            Choice("NAME_CHARACTERS", tr("Characters of names"), CHARACTERS, characters, "any", dynamic=False,
                   advanced=True)
        )  # fmt: skip
        self.add_other(
            QgsProcessingParameterString("TITLE", tr("Title"), None, False, True),
            tr("What the file is called inside. Not given: Training area."),
        )
        self.add_tolerance(tr("How far a chord of a pattern may lie off the true curve."))
        self.add_file(
            "OUTPUT", tr("File"),
            tr("GPX (*.gpx);;KML (*.kml);;GeoJSON (*.geojson);;CSV (*.csv)"),
            tr("The file; its folder must be there. It takes the place of an older one only when it is whole."),
        )  # fmt: skip
        self.add_sink("RENAMED", "renames")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        if not any(name in parameters for name in LAYERS):
            return tr("None of FIXES, HOLDS and AREAS is given; give at least one of them.")
        if "ARRIVALS" in parameters and "HOLDS" not in parameters:
            return tr("ARRIVALS is given without HOLDS; an arrival leads to a hold.")
        length = self.constant(parameters, "NAME_LENGTH")
        if length is not None and length != int(length):
            return tr("NAME_LENGTH is {}; it must be a whole number from 5 to 255.").format(shown(length))
        output = self.wanted_file(parameters, "OUTPUT")
        ending, kind = Path(output).suffix.lower(), self.constant(parameters, "FORMAT")
        if output and kind is None and ending not in _ENDINGS:
            return tr("OUTPUT is {}, whose ending tells no format; give FORMAT, or an ending of {}.").format(
                shown(output), ", ".join(_ENDINGS)
            )
        if output and kind is not None and _ENDINGS.get(ending, kind) != kind:
            return tr("OUTPUT is {}, but FORMAT is {}; make them agree.").format(shown(output), kind)
        if "HOLDS" in parameters:
            return holdrows.missing_fields("HOLDS", self.source_fields(parameters, context, "HOLDS"))
        return ""

    def compute(self, run):
        from .common import exportnames
        from .common import exportrows as rows
        from .common.routes import read_routes
        from .common.waypointfiles import Waypoints, encoded

        renamed = run.sink("RENAMED")
        run.sink("REJECTS")
        fixes, holds, arrivals, areas = [], [], [], []
        if "FIXES" in run.parameters:
            source = run.source("FIXES")
            fixes = rows.read_fixes(run, source, run.field("NAME_FIELD", source))
        if "HOLDS" in run.parameters:
            arrivals = read_routes(run, "ARRIVALS") if "ARRIVALS" in run.parameters else []
            holds = rows.read_holds(
                run, run.source("HOLDS"), arrivals, run.constant("WITHIN"), run.constant("TOLERANCE")
            )
        if "AREAS" in run.parameters:
            source = run.source("AREAS")
            areas = rows.read_areas(run, source, run.field("AREA_NAME_FIELD", source))
        if run.feedback.isCanceled():
            return
        length = run.constant("NAME_LENGTH")
        output = self.wanted_file(run.parameters, "OUTPUT")
        kind = run.constant("FORMAT") or _ENDINGS.get(Path(output).suffix.lower(), FORMATS[0])
        whole = None if length is None else int(length)
        namer = exportnames.Namer(whole, run.constant("NAME_CHARACTERS"), kind == "csv")
        about = caution() + " " + tr("Positions: WGS 84.")
        waypoints = Waypoints(_title(run.parameters), about)
        exportnames.assemble(waypoints, fixes, holds, arrivals, areas, namer)
        renamed.write(namer.renamed)
        if namer.renamed["name"]:
            run.feedback.pushInfo(
                tr("{} names are not as they were; RENAMED tells which").format(len(namer.renamed["name"]))
            )
        if not waypoints:
            run.feedback.pushWarning(tr("No row could be used, so there is no file."))
            return
        data = encoded(waypoints, kind, run.constant("POSITION_FORMAT"))
        self.made["OUTPUT"] = {self.place_of(run.parameters, "OUTPUT", kind): data}


def _title(parameters: dict) -> str:
    from ..geometry.waypoint_names import clean

    return clean(parameters.get("TITLE", "")) or tr("Training area")
