"""Holds at fixes: their figures, patterns and legs."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common import schema
from .common.base import FixwrightAlgorithm
from .common.specs import Choice, Number
from .common.stations import NORTHS
from .common.texts import tr

TURNS = ("right", "left")
LEG_ENDS = ("dme", "along_track", "inbound_length")
RULES = ("icao", "faa")

ASSUMED_ALT_FT = 5000.0
"""Where neither ALTITUDE nor the input says one; our own choice, said in `assumed`."""

OF_THE_FIX = ("course_true_deg", "alt_ft", "limits", "assumed")
"""What a hold takes from its fix besides the columns that tell of the stations."""


class DesignHolds(FixwrightAlgorithm):
    """Design holds."""

    ID = "designholds"
    GROUP = "holds"

    def displayName(self):
        return tr("Design holds")

    def tags(self):
        return tr("hold,holding pattern,racetrack,inbound,outbound,turn,leg,timing").split(",")

    def what(self):
        return tr(
            "Designs a hold at each fix: courses in three norths, true airspeed, bank, radius of turn, size, time of "
            "a circuit, and the limits it breaks. Gives the holds, which every later step reads, and draws the "
            "still-air pattern as a polygon and as four legs."
        )

    def assumed(self):
        return tr(
            "Not given: inbound along the course of the fix (course_true_deg); the leg time that the rules give for "
            "the altitude; a distance leg ends at a DME reading where the station has one, else along the track; the "
            "altitude of the fix (alt_ft), else 5 000 ft; the fastest speed that the rules allow for the area. What "
            "was assumed for a row stands in its field assumed. A wind is not used: patterns are those of still air."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, 5th ed., Part II, Section 4, Chapter 1, and Table II-4-1-2 (speeds); ICAO Doc "
            "8168 Vol I, I-6-1 (the pattern); FAA AIM 5-3-8 (pattern, speeds, timing); World Magnetic Model 2025."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Fixes or any points"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr(
                "The fixes layer of an earlier step, whose station columns are used where they are there, or any "
                "points."
            ),
        )
        self.add_field("FIX_FIELD", tr("Key of the fix"), ("fix",), tr("What the hold is called by."))
        self.add_field(
            "DECLINATION_FIELD",
            tr("Declination"),
            ("navaid_decl_deg", "decl_deg"),
            tr("Declination of the station that the inbound course is a radial of, degrees east of true."),
        )
        inbound = tr(
            "Inbound course, in the direction of travel, by the north below. Not given: the field course_true_deg."
        )
        self.add(Number("INBOUND", tr("Inbound course"), 0, 360, inbound, tr("degrees"), optional=True))
        self.add(
            Choice(
                "NORTH",
                tr("North"),
                NORTHS,
                tr(
                    "What the inbound course is counted from: the station's radial carried to the fix (what the "
                    "course selector shows), the World Magnetic Model at the fix, or true north."
                ),
                default="station",
            )
        )
        self.add(Choice("TURN", tr("Turns"), TURNS, tr("To which side the pattern turns."), default="right"))
        leg_min = tr(
            "Minutes on the leg that the rules time: outbound by icao, inbound by faa. Not both this and LEG_NM."
        )
        self.add(Number("LEG_MIN", tr("Leg time"), 0.1, 10, leg_min, "min", optional=True))
        leg_nm = tr("Length of a distance leg. Not both this and LEG_MIN.")
        self.add(Number("LEG_NM", tr("Leg distance"), 0.5, 100, leg_nm, "NM", optional=True))
        self.add(
            Choice(
                "LEG_END",
                tr("What ends a distance leg"),
                LEG_ENDS,
                tr(
                    "A slant reading at the outbound end, a distance along the track, or the length of the inbound leg."
                ),
                optional=True,
            )
        )
        self.add(
            Number(
                "IAS", tr("Indicated airspeed"), 30, 500, tr("What this aeroplane flies in the hold."), "kt", default=90
            )
        )
        area_ias = tr(
            "The fastest that may use the hold: protected areas are made for it. Not given: the rules' maximum."
        )
        self.add(Number("AREA_IAS", tr("Fastest airspeed for the area"), 30, 500, area_ias, "kt", optional=True))
        alt = tr("Lowest altitude of the hold. Not given: the field alt_ft, else 5 000 ft.")
        self.add(Number("ALTITUDE", tr("Altitude"), -2000, 60000, alt, "ft", optional=True))
        alt_to = tr("Highest altitude of the hold. Not given: one level.")
        self.add(Number("ALTITUDE_TO", tr("Altitude up to"), -2000, 60000, alt_to, "ft", optional=True))
        isa = tr("How far the temperature lies off the standard atmosphere.")
        self.add(Number("ISA_DEVIATION", tr("Temperature off ISA"), -80, 60, isa, tr("degrees Celsius"), default=0))
        rules = tr("ICAO Doc 8168 or FAA AIM 5-3-8: speeds, leg times, bank, and which leg is timed.")
        self.add(Choice("RULES", tr("Rules"), RULES, rules, default="icao"))
        self.add_date()
        self.add_tolerance(tr("How far a chord may lie off the true curve."))
        self.add_sink("HOLDS", "holds")
        self.add_sink("PATTERNS", "patterns")
        self.add_sink("TRACKS", "tracks")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        if self.constant(parameters, "LEG_MIN") is not None and self.constant(parameters, "LEG_NM") is not None:
            return tr("LEG_MIN and LEG_NM are both given; a leg ends by time or by distance, give one of them.")
        names = [field.name() for field in self.source_fields(parameters, context)]
        if "INBOUND" not in parameters and "course_true_deg" not in names:
            return tr(
                "INBOUND is not given, and the input has no field course_true_deg to take the inbound course from."
            )
        low, high = self.constant(parameters, "ALTITUDE"), self.constant(parameters, "ALTITUDE_TO")
        if low is not None and high is not None and high < low:
            return tr("ALTITUDE_TO is {}; it must not be lower than ALTITUDE, {} ft.").format(f"{high:g}", f"{low:g}")
        return ""

    def compute(self, run):
        from ..geometry import plan, wkb

        source, day = run.source(), run.day()
        holds, patterns, tracks, _ = [
            run.sink(name, source.fields()) for name in ("HOLDS", "PATTERNS", "TRACKS", "REJECTS")
        ]
        tolerance, keys = run.constant("TOLERANCE"), plan.Keys()
        reader, columns = self._reader(run, source, whole_rows=holds.connected or run.keeps_rejects)

        for rows in run.batches(reader):
            fix, names, alt = self._fix_columns(run, rows, columns)
            made = plan.design_holds(
                fix,
                names,
                keys,
                inbound_deg=rows["INBOUND"],
                north=rows["NORTH"],
                turn=rows["TURN"],
                leg_min=rows["LEG_MIN"],
                leg_nm=rows["LEG_NM"],
                leg_end=rows["LEG_END"],
                ias_kt=rows["IAS"],
                area_ias_kt=rows["AREA_IAS"],
                alt_ft=alt,
                alt_to_ft=rows["ALTITUDE_TO"],
                isa_dev_c=rows["ISA_DEVIATION"],
                rules=rows["RULES"],
                var_date=day.text,
                year=day.year,
            )
            good = run.settle(rows, made.reasons)
            if holds.connected:
                shapes = wkb.points(made.columns["lon"], made.columns["lat"])
                holds.write_rows(good, made.columns, shapes, rows)
            if patterns.connected:
                layer = plan.pattern_rows(made, tolerance)
                patterns.write(layer.columns, wkb.multipolygons(layer.coords, layer.offsets))
            if tracks.connected:
                layer = plan.track_rows(made, tolerance)
                tracks.write(layer.columns, wkb.multilines(layer.coords, layer.offsets))

    def _reader(self, run, source, whole_rows):
        """A reader of the input, and which of a fix's columns the input has."""
        from ..geometry.plan.marking import STATION_COLUMNS

        there = {field.name() for field in source.fields()}
        kinds = {column.name: column.kind for column in schema.LAYERS["fixes"].columns}
        wanted = [name for name in (*STATION_COLUMNS, *OF_THE_FIX) if name in there]
        numbers = {name: name for name in wanted if kinds[name] == schema.DOUBLE}
        texts = {name: name for name in wanted if kinds[name] == schema.TEXT}
        declination = run.field("DECLINATION_FIELD", source)
        if declination:
            numbers["navaid_decl_deg"] = declination
        texts["fix"] = run.field("FIX_FIELD", source)
        return run.reader(source, numbers=numbers, texts=texts, whole_rows=whole_rows), [*numbers, *texts]

    def _fix_columns(self, run, rows, columns):
        """What plan.design_holds takes of a batch: columns of the fixes, names of the holds, altitudes."""
        import numpy as np

        from ..geometry import reasons

        fix = {name: rows[name] for name in columns}
        fix["lon"], fix["lat"] = rows.lon, rows.lat
        n = len(rows)
        names = rows.names("fix", tr("hold {}"))
        alt = rows["ALTITUDE"]
        if "ALTITUDE" not in run.parameters and "alt_ft" in fix:
            alt = fix["alt_ft"]
        unknown = ~np.isfinite(alt) & (rows.reasons == "")
        notes = np.full(n, "", dtype=object)
        reasons.note(notes, unknown, lambda i: tr("altitude 5 000 ft"))
        alt = np.where(unknown, ASSUMED_ALT_FT, alt)
        fix["assumed"] = reasons.join(fix.get("assumed", ""), notes)
        return fix, names, alt
