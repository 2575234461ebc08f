"""Fixes on radials at distances from navaids."""

from __future__ import annotations

from .common.specs import Choice, Number
from .common.stations import StationAlgorithm
from .common.texts import tr

DISTANCE_KINDS = ("ground", "slant")


class FixRadialDistance(StationAlgorithm):
    """Fix by radial and distance."""

    ID = "fixradialdistance"

    def displayName(self):
        return tr("Fix by radial and distance")

    def tags(self):
        return tr("radial,distance,DME,VOR,NDB,bearing,slant range,fix,navaid").split(",")

    def what(self):
        return tr(
            "Places a fix on a radial of each navaid, at a distance along the ground or by DME. One row gives one "
            "fix; give a layer with a row for each radial, and take radial and distance from its fields, to place "
            "many."
        )

    def assumed(self):
        return tr(
            "A station of unknown kind is taken for one that has radials and gives distance. An NDB has no "
            "alignment: its bearing is read in the aircraft, with the magnetic model's variation at the fix. A point "
            "without an ident is called by its feature id."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, I-2-2 (fixes) and I-4-3-App C-13 (slant range); aeronautical glossary, "
            "slaved declination; geodesics on WGS 84 by Karney, J. Geodesy 87 (2013); World Magnetic Model 2025."
        )

    def declare(self):
        self.declare_stations()
        self.add(
            Number("RADIAL", tr("Radial"), 0, 360, tr("Radial from the station, by the north below."), tr("degrees"))
        )
        self.add(Number("DISTANCE", tr("Distance"), 0.01, 400, tr("Distance from the station."), "NM"))
        self.add(
            Choice(
                "DISTANCE_KIND",
                tr("Kind of distance"),
                DISTANCE_KINDS,
                tr("Along the ground, as a satellite receiver shows it, or slant, as DME shows it."),
                default="ground",
            )
        )
        self.add(
            Number("ALTITUDE", tr("Altitude"), -2000, 60000, tr("Where slant ranges are read."), "ft", optional=True)
        )
        self.add_north()
        self.add_date()
        self.add_sink("FIXES", "fixes")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        if self.constant(parameters, "DISTANCE_KIND") == "slant":
            if "ALTITUDE" not in parameters:
                return tr("DISTANCE_KIND is slant, which needs ALTITUDE; give it, or choose ground.")
            if self.fields_found(parameters, context)["elev"] is None:
                return tr(
                    "DISTANCE_KIND is slant, but the input has no field with the stations' elevation; name it in "
                    "ELEVATION_FIELD, or choose ground."
                )
        return self.no_declination(parameters, context)

    def compute(self, run):
        from ..geometry import plan

        year = run.day().year

        def mark(rows, station, naming):
            return plan.mark_radial_distance(
                station,
                naming,
                rows["RADIAL"],
                rows["DISTANCE"],
                slant=rows["DISTANCE_KIND"] == DISTANCE_KINDS.index("slant"),
                alt_ft=rows["ALTITUDE"],
                north=rows["NORTH"],
                year=year,
            )

        self.write_fixes(run, mark)
