"""Fixes before or beyond points, along a course or on the present course from a position."""

from __future__ import annotations

import math

from qgis.core import QgsCoordinateReferenceSystem, QgsProcessing, QgsProcessingParameterPoint

from .common.specs import Choice, Number
from .common.stations import StationAlgorithm
from .common.texts import tr

SIDES = ("before", "beyond")
ROUTE_FROM = ("vertex", "start", "abeam")
MAX_LATITUDE_DEG = 85.0


class FixAlongTrack(StationAlgorithm):
    """Fix along a track."""

    ID = "fixalongtrack"

    def displayName(self):
        return tr("Fix along a track")

    def tags(self):
        return tr("along track,course,present course,before,beyond,route,abeam,fix,navaid").split(",")

    def what(self):
        return tr(
            "Places a fix at a distance before or beyond each point, on a course towards it or on the present course "
            "from a position. The present course is the geodesic from that position to the point; it is not one "
            "constant number along the way. With lines as ROUTE the distance is counted along them, from a vertex, "
            "from their start or from where they pass abeam of the point."
        )

    def assumed(self):
        return tr(
            "From station north, a course at a point that has no radials of its own (DME, NDB, waypoint) is counted "
            "from the magnetic model there. A point without an ident is called by its feature id."
        )

    def cited(self):
        return tr(
            "Geodesics on WGS 84 by Karney, J. Geodesy 87 (2013); aeronautical glossary, slaved declination; World "
            "Magnetic Model 2025; the wording 'on present course', common practice."
        )

    def declare(self):
        self.declare_stations()
        self.add(
            Number(
                "COURSE",
                tr("Course at the point"),
                0,
                360,
                tr("Direction of travel at the point, towards it, by the north below. Give this or FROM."),
                tr("degrees"),
                optional=True,
            )
        )
        self.add_other(
            QgsProcessingParameterPoint("FROM", tr("From position"), None, True),
            tr(
                "Position of the aircraft for 'on present course', as 'longitude,latitude' or 'x,y [EPSG:code]'. "
                "Give this or COURSE."
            ),
        )
        self.add_source(
            "ROUTE",
            tr("Route"),
            QgsProcessing.SourceType.TypeVectorLine,
            tr("Lines to follow in place of a course: the distance is counted along them. Give one of the three."),
            optional=True,
        )
        self.add(
            Choice(
                "ROUTE_FROM", tr("Counted from"), ROUTE_FROM,
                tr(
                    "Where on the route the distance starts: its vertex nearest to the point (or VERTEX), its first "
                    "vertex (SIDE does not count then), or where it passes abeam of the point (distance 0: the abeam "
                    "point itself)."
                ),
                default="vertex", dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number(
                "VERTEX", tr("Vertex"), 1, 10_000,
                tr("Number of the vertex, 1 for the first, on every route. Not given: the nearest."), optional=True,
            )
        )  # fmt: skip
        self.add(
            Number(
                "ROUTE_WITHIN", tr("Route within"), 0, 400,
                tr(
                    "How far from the point the nearest vertex of a route, or the route abeam, may be to count for it."
                ),
                "NM",
                default=10, dynamic=False,
            )
        )  # fmt: skip
        self.add(Number("DISTANCE", tr("Distance"), 0, 400, tr("Along the track, from the point."), "NM"))
        self.add(
            Choice("SIDE", tr("Side"), SIDES, tr("Before the point, on the way to it, or beyond it."), default="before")
        )
        self.add_north()
        self.add(
            Number("ALTITUDE", tr("Altitude"), -2000, 60000, tr("Where slant ranges are read."), "ft", optional=True)
        )
        self.add_date()
        self.add_sink("FIXES", "fixes")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        given = [name for name in ("COURSE", "FROM", "ROUTE") if name in parameters]
        if not given:
            return tr("None of COURSE, FROM and ROUTE is given; give one of them.")
        if len(given) > 1:
            return tr("{} are given; give one of them.").format(tr(" and ").join(given))
        if given == ["ROUTE"]:
            return ""
        if "FROM" in parameters:
            lon, lat = self._from(parameters, context)
            if not (math.isfinite(lon) and abs(lat) <= MAX_LATITUDE_DEG and abs(lon) <= 360.0):
                return tr(
                    "FROM is {}, {}; it must be a longitude between -360 and 360 and a latitude between -85 and 85 "
                    "degrees."
                ).format(f"{lon:.10g}", f"{lat:.10g}")
            return ""
        return self.no_declination(parameters, context)

    def compute(self, run):
        from ..geometry import plan

        year = run.day().year
        if "ROUTE" in run.parameters:
            self._follow(run, year)
            return
        from_lon, from_lat = self._from(run.parameters, run.context)

        def mark(rows, station, naming):
            return plan.mark_along_track(
                station,
                naming,
                rows["DISTANCE"],
                beyond=rows["SIDE"] == SIDES.index("beyond"),
                course_deg=rows["COURSE"],
                north=rows["NORTH"],
                from_lon=from_lon,
                from_lat=from_lat,
                alt_ft=rows["ALTITUDE"],
                year=year,
            )

        self.write_fixes(run, mark)

    def _follow(self, run, year):
        """Fixes along the lines of ROUTE."""
        from ..geometry import plan
        from .common.routes import read_routes

        routes = read_routes(run)
        start, within = run.constant("ROUTE_FROM"), run.constant("ROUTE_WITHIN")

        def mark(rows, station, naming):
            return plan.follow(
                station,
                naming,
                routes,
                start,
                rows["DISTANCE"],
                beyond=rows["SIDE"] == SIDES.index("beyond"),
                vertex=rows["VERTEX"],
                within_nm=within,
                alt_ft=rows["ALTITUDE"],
                year=year,
            )

        self.write_fixes(run, mark)

    def _from(self, parameters, context):
        """The position given, in longitude and latitude; NaN where there is none."""
        if "FROM" not in parameters:
            return math.nan, math.nan
        point = self.parameterAsPoint(parameters, "FROM", context, QgsCoordinateReferenceSystem("EPSG:4326"))
        return point.x(), point.y()
