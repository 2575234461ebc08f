"""Areas that protect holds."""

from __future__ import annotations

from qgis.core import QgsProcessing, QgsProcessingParameterString, QgsProperty

from .common import holdrows, protection
from .common.base import FixwrightAlgorithm
from .common.libraries import missing_libraries
from .common.specs import Choice, Number, shown
from .common.texts import tr
from .common.values import field_index

CONSTRUCTIONS = ("template", "rectangle", "outline", "envelope")
ENTRIES = ("all", "arrivals", "none")
SPEEDS = ("document", "k", "compressible")
YES_NO = ("no", "yes")
CATEGORIES = {"any": "", "a/b": "A/B", "h": "H"}
"""Words of CATEGORY, and what the construction calls them."""
NAVIGATIONS = ("conventional", "rnav")
TURNS = {"sampled": 1.0, "tabulated": 45.0}
"""Words of TEMPLATE_TURNS, and the step in degrees that they mean."""
FEET_METRES = ("feet", "metres")
ROWS_AT_A_TIME = 256
SLOWEST_KT = 30
"""No slow flight is slower: it would only be blown about."""


class ProtectedAreas(FixwrightAlgorithm):
    """Protected areas."""

    ID = "protectedareas"
    GROUP = "holds"

    def displayName(self):
        return tr("Protected areas")

    def tags(self):
        return tr(
            "hold,holding area,template,rectangle,outline,envelope,protection,entry,buffer,obstacle clearance,MOC"
        ).split(",")

    def what(self):
        return tr(
            "Draws the area that protects each hold, part by part: what an aeroplane needs of the fastest speed "
            "allowed, at the highest level, in the rules' wind, with the rules' tolerances; what the entries add; and "
            "the buffers around with their clearances. By one of four constructions: the template of ICAO Doc 8168, "
            "its simplified rectangle, a state's own template as an outline that you enter, or an envelope that no "
            "flight within the tolerances leaves. Each polygon contains the true area and exceeds it by no more than "
            "the tolerance. CONSTRUCTION_LINES and LINE_VALUES show how an area arises, line by line."
        )

    def assumed(self):
        return tr(
            "The fix is a point, unless its tolerance area is given. The area is made for area_ias_kt and for the "
            "higher of alt_ft and alt_to_ft, or for LEVELS. A distance leg is given the time that it takes at that "
            "speed, at least the standard time. For a hold by the FAA's rules the areas of ICAO are shown for "
            "illustration; the FAA's own templates do not come with Fixwright: enter them from the order as OUTLINES. "
            "An outline holds the tolerance of the fix, the speed and the wind of its own document; nothing is added "
            "but the secondary area around it."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, Part I, Section 4, Chapter 3, Appendix C (the template and the rectangle; some of "
            "their formulas from memory, which limits and LINE_VALUES say), and Part II, Section 4, Chapter 1; FAA "
            "Order 8260.3, chapter on holding (from memory), and FAA-H-8261-1, chapter 3 (clearances of outlines). The "
            "envelope is derived by us."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The holds layer of Design holds. Its essentials are read; what is derived is computed anew."),
        )
        how = tr(
            "How the area is made: by ICAO's template; by its simplified rectangle, within the speeds, winds and times "
            "it is valid for; by an outline out of OUTLINES; or as the envelope of all flights within the tolerances."
        )
        self.add(Choice("CONSTRUCTION", tr("Construction"), CONSTRUCTIONS, how, default="template", dynamic=False))
        self.add_source(
            "FIX_TOLERANCE",
            tr("Fix tolerance areas"),
            QgsProcessing.SourceType.TypeVectorPolygon,
            tr(
                "Polygons with a field fix: within them the aeroplane may be when it is thought to be over that fix. "
                "Each is taken as convex. Not given: the fixes are points."
            ),
            optional=True,
        )
        entry = tr(
            "For which arrivals an entry area is added: from everywhere, only those in ARRIVALS, or none. An outline "
            "has none of its own."
        )
        self.add(Choice("ENTRY", tr("Entries protected"), ENTRIES, entry, default="all", dynamic=False))
        self.add_source(
            "ARRIVALS",
            tr("Arrivals"),
            QgsProcessing.SourceType.TypeVector,
            tr(
                "With ENTRY arrivals: the entries of Entry sectors (a table with hold and arrival_heading_deg), or "
                "lines drawn towards the fixes, whose course there is taken as the heading."
            ),
            optional=True,
        )
        self._add_text(
            "LEVELS",
            tr("Levels"),
            tr(
                "An area for each of several levels, and their union: altitudes in feet such as 3000, 4000, 5000, or a "
                "step within each hold's own block such as every 1000. Not given: the highest level of the hold."
            ),
        )
        self._declare_outlines()
        self._declare_options()
        self.add_tolerance(tr("How far the polygon may exceed the true area."))
        self.add_sink("AREAS", "areas")
        self.add_sink("CONSTRUCTION_LINES", "construction_lines")
        self.add_sink("LINE_VALUES", "line_values")
        self.add_sink("REJECTS", "rejects")

    def _declare_outlines(self):
        self.add_source(
            "OUTLINES",
            tr("Outlines"),
            QgsProcessing.SourceType.TypeVector,
            tr(
                "With CONSTRUCTION outline: a table of corners in order, a row each: name of the template, part "
                "(primary or secondary; empty: primary), along_nm (ahead of the fix along the inbound course), "
                "across_nm (to the holding side). Drawn for right turns; for left turns it is mirrored."
            ),
            optional=True,
        )
        self.add_source(
            "OUTLINE_SELECTION",
            tr("Selection of outlines"),
            QgsProcessing.SourceType.TypeVector,
            tr(
                "Which template is for which hold: a table with outline and, where it has them, alt_from_ft, "
                "alt_to_ft, ias_from_kt, ias_to_kt, distance_from_nm, distance_to_nm (of the fix from its navaid). The "
                "first row that fits is taken; an empty cell is no bound. Not needed where there is one template."
            ),
            optional=True,
        )
        width = tr("Of outlines: how far the secondary area reaches beyond the primary one. 0: there is none.")
        self.add(
            Number(
                "SECONDARY_WIDTH", tr("Width of the secondary area"), 0, 20, width, "NM", default=2, dynamic=False,
                advanced=True,
            )
        )  # fmt: skip

    def _declare_options(self):
        within = tr("How near the fix a segment of a line in ARRIVALS must end.")
        self.add(
            Number("WITHIN", tr("Arrivals within"), 0.01, 60, within, "NM", default=2, dynamic=False, advanced=True)
        )
        wind = tr(
            "The wind by statistics that 95 % of all winds do not exceed, in place of the document's formula; from any "
            "direction."
        )
        self.add(Number("WIND", tr("Wind by statistics"), 0, 300, wind, "kt", optional=True, advanced=True))
        tas = tr(
            "How the indicated airspeed becomes a true one at ISA+15: as the document has it (its factor up to "
            "14 000 ft, compressible above), by the factor k alone, or compressible alone."
        )
        self._add_option("TAS", tr("True airspeed"), SPEEDS, tas, "document")
        turbulence = tr("Whether the area is made for the holding speed in turbulence where that is faster.")
        self._add_option("TURBULENCE", tr("Turbulence"), YES_NO, turbulence, "no")
        category = tr("Category that the hold is limited to: its holding speeds in turbulence are others.")
        self._add_option("CATEGORY", tr("Category"), tuple(CATEGORIES), category, "any")
        slow = tr(
            "A slow flight that the template considers too, as the document asks for: a strong wind may carry it where "
            "the fast one does not come. 0: none."
        )
        self.add(Number("SLOW_IAS", tr("Slow flight"), 0, 300, slow, "kt", default=90, dynamic=False, advanced=True))
        rnav = tr(
            "Whether the hold is flown by aids and needles, or by area navigation, for which the document has lines of "
            "its own."
        )
        self._add_option("NAVIGATION", tr("Navigation"), NAVIGATIONS, rnav, "conventional")
        for name, label in (("ATT", tr("Along-track tolerance")), ("XTT", tr("Cross-track tolerance"))):
            both = tr("With NAVIGATION rnav, ATT and XTT together in place of FIX_TOLERANCE: half-widths of the fix.")
            self.add(Number(name, label, 0.01, 30, both, "NM", optional=True, dynamic=False, advanced=True))
        turns = tr(
            "Whether the template's turns are sampled degree by degree, or at the document's lettered points alone."
        )
        self._add_option("TEMPLATE_TURNS", tr("Turns of the template"), tuple(TURNS), turns, "sampled")
        terrain = tr(
            "Factor of the clearance over high terrain or in mountains: up to 2, as the state has it. 1: none."
        )
        self.add(
            Number(
                "HIGH_TERRAIN", tr("Clearance over high terrain"), 1, 2, terrain, default=1, dynamic=False,
                advanced=True,
            )
        )  # fmt: skip
        narrow = tr("Whether the buffer is the narrow one of helicopters (category H).")
        self._add_option("CATEGORY_H", tr("Buffer of helicopters"), YES_NO, narrow, "no")
        metres = tr("Whether clearances are the document's printed feet, or its metres turned into feet.")
        self._add_option("CLEARANCE", tr("Clearances by"), FEET_METRES, metres, "feet")
        self._add_text(
            "DATE",
            tr("Date of the magnetic variation"),
            tr("The day for which headings in ARRIVALS are turned to true ones, such as 2026-09-01. Not given: today "
               "(UTC)."),
            advanced=True,
        )  # fmt: skip

    def _add_option(self, name: str, label: str, words: tuple, text: str, default: str) -> None:
        self.add(Choice(name, label, words, text, default=default, dynamic=False, advanced=True))

    def _add_text(self, name: str, label: str, text: str, advanced: bool = False) -> None:
        self.add_other(QgsProcessingParameterString(name, label, None, False, True), text, advanced)

    def check(self, parameters, context):
        if "FIX_TOLERANCE" in parameters:
            if field_index(self.source_fields(parameters, context, "FIX_TOLERANCE"), "fix") < 0:
                return tr("FIX_TOLERANCE has no field fix to join the holds by.")
        return (
            holdrows.missing_fields("INPUT", self.source_fields(parameters, context))
            or self._entry_problem(parameters, context)
            or self._navigation_problem(parameters)
            or self._slow_problem(parameters)
            or self._levels(parameters)[1]
            or self._outlines(parameters, context)[1]
        )

    def _entry_problem(self, parameters, context) -> str:
        entry, given = self.constant(parameters, "ENTRY"), "ARRIVALS" in parameters
        if (entry == "arrivals") != given:
            if given:
                return tr("ARRIVALS is given, but ENTRY is {}; choose arrivals, or leave it out.").format(entry)
            return tr("ENTRY is arrivals, but ARRIVALS is not given; give it, or choose all or none.")
        return protection.arrivals_problem(self.parameterAsSource(parameters, "ARRIVALS", context)) if given else ""

    def _slow_problem(self, parameters) -> str:
        slow = self.constant(parameters, "SLOW_IAS")
        if 0.0 < slow < SLOWEST_KT:
            said = tr("SLOW_IAS is {}; it must be 0 for none, or between {} and 300 kt.")
            return said.format(shown(slow), SLOWEST_KT)
        return ""

    def _navigation_problem(self, parameters) -> str:
        given = [name for name in ("ATT", "XTT") if name in parameters]
        if not given:
            return ""
        if self.constant(parameters, "NAVIGATION") != "rnav":
            return tr("{} is given, but NAVIGATION is conventional; choose rnav, or leave it out.").format(given[0])
        if len(given) == 1:
            return tr("{} is given without {}; give both, or neither.").format(
                given[0], "XTT" if given == ["ATT"] else "ATT"
            )
        if "FIX_TOLERANCE" in parameters:
            return tr("FIX_TOLERANCE and ATT are given; give one of them.")
        return ""

    def _levels(self, parameters):
        """The levels asked for, None for the highest; and '' or why they cannot be."""
        value = parameters.get("LEVELS")
        if value is None:
            return None, ""
        if isinstance(value, QgsProperty):
            return None, tr("{} takes one value for the whole run, not a field or an expression.").format("LEVELS")
        from ..geometry import plan

        levels, problem = plan.read_levels(str(value))
        if problem:
            return None, tr("LEVELS is {}; {}.").format(shown(str(value)), problem)
        return levels, missing_libraries(("shapely",))

    def _outlines(self, parameters, context):
        """The templates of the outline construction, None for another; and '' or why they cannot be."""
        wanted = self.constant(parameters, "CONSTRUCTION") == "outline"
        for name in ("OUTLINES", "OUTLINE_SELECTION"):
            if name in parameters and not wanted:
                return None, tr("{} is given, but CONSTRUCTION is {}; choose outline, or leave it out.").format(
                    name, self.constant(parameters, "CONSTRUCTION")
                )
        if not wanted:
            return None, ""
        if "OUTLINES" not in parameters:
            return None, tr("CONSTRUCTION is outline, but OUTLINES is not given; no template comes with Fixwright.")
        problem = missing_libraries(("shapely",))
        needed = {"OUTLINES": protection.OUTLINE_FIELDS, "OUTLINE_SELECTION": (protection.SELECTION_FIELD,)}
        tables = [self.parameterAsSource(parameters, name, context) if name in parameters else None for name in needed]
        for table, (name, fields) in zip(tables, needed.items()):
            if table is not None:
                problem = problem or protection.fields_problem(name, table, fields)
        if problem:
            return None, problem
        factor, width = (self.constant(parameters, name) for name in ("HIGH_TERRAIN", "SECONDARY_WIDTH"))
        return protection.outlines(*tables, factor, width)

    def _options(self, run):
        """What the parameters say to all holds; the wind is each row's own."""
        from ..geometry.protection.areas import Options

        return Options(
            tolerance_m=run.constant("TOLERANCE"),
            entries=run.constant("ENTRY"),
            tas=run.constant("TAS"),
            turbulence=run.constant("TURBULENCE") == "yes",
            slow_ias_kt=run.constant("SLOW_IAS") or float("nan"),
            navigation=run.constant("NAVIGATION"),
            att_nm=_or_nan(run.constant("ATT")),
            xtt_nm=_or_nan(run.constant("XTT")),
            step_deg=TURNS[run.constant("TEMPLATE_TURNS")],
            moc_metres=run.constant("CLEARANCE") == "metres",
            category=CATEGORIES[run.constant("CATEGORY")],
            moc_factor=run.constant("HIGH_TERRAIN"),
            category_h=run.constant("CATEGORY_H") == "yes",
            outlines=self._outlines(run.parameters, run.context)[0],
        )

    def compute(self, run):
        import numpy as np

        from ..geometry import plan, wkb

        source, day = run.source(), run.day()
        areas, lines, values = (run.sink(name) for name in ("AREAS", "CONSTRUCTION_LINES", "LINE_VALUES"))
        run.sink("REJECTS", source.fields())
        rings = protection.rings_by_fix(run)
        arrivals = protection.Arrivals(run) if "ARRIVALS" in run.parameters else None
        levels, options = self._levels(run.parameters)[0], self._options(run)
        explained = lines.connected or values.connected
        without = 0

        for rows in run.batches(holdrows.hold_reader(run, source, ROWS_AT_A_TIME, whole_rows=run.keeps_rejects)):
            columns = holdrows.hold_columns(rows)
            if rings is not None:
                for i, fix in enumerate(rows["fix"]):
                    if fix not in rings:
                        rows.refuse(i, tr("FIX_TOLERANCE has no polygon for the fix {}").format(repr(fix)))
            made = plan.holds_from_columns(columns, day.year)
            made.reasons[:] = np.where(rows.reasons != "", rows.reasons, made.reasons)
            wind = rows["WIND"]
            headings = None if arrivals is None else arrivals.true_headings(made)
            for one in np.unique(wind):  # an array of NaN gives one NaN
                index = np.flatnonzero((wind == one) | (np.isnan(wind) & np.isnan(one)))
                got = plan.protect(
                    made.take(index),
                    run.constant("CONSTRUCTION"),
                    options._replace(wind_kt=float(one)),
                    tolerance_areas=None if rings is None else [rings.get(rows["fix"][i]) for i in index],
                    arrivals=None if headings is None else [headings[i] for i in index],
                    levels=levels,
                    explained=explained,
                )
                made.reasons[index] = got.reasons
                if areas.connected:
                    a = got.areas
                    areas.write(a.columns, wkb.polygons_with_holes(a.coords, a.rings, a.polygons, a.parts))
                if lines.connected:
                    lines.write(got.lines.columns, wkb.multilines(*got.lines[1:]))
                values.write(got.values)
            run.settle(rows, made.reasons)
            if headings is not None:
                without += sum(len(headings[i]) == 0 for i in np.flatnonzero(made.good))
        if without:
            run.feedback.pushInfo(tr("{} holds have no arrival, and so no entry area").format(without))


def _or_nan(value) -> float:
    return float("nan") if value is None else value
