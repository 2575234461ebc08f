"""Entry sectors of holds, and the entry that an arrival calls for."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common import holdrows, winds
from .common.base import FixwrightAlgorithm
from .common.specs import Number
from .common.texts import tr

ROWS_AT_A_TIME = 1000


class EntrySectors(FixwrightAlgorithm):
    """Entry sectors."""

    ID = "entrysectors"
    GROUP = "holds"

    def displayName(self):
        return tr("Entry sectors")

    def tags(self):
        return tr("hold,entry,direct,parallel,teardrop,offset,arrival,wind,drift,heading").split(",")

    def what(self):
        return tr(
            "Draws the three entry sectors of each hold on the side the aeroplane comes from, and says for each "
            "arrival which entry it calls for. The heading at the fix decides, so wind and true airspeed are used: "
            "where drift changes the sector, the text says so. Gives the headings to fly and the time or distance "
            "on the entry's first leg."
        )

    def assumed(self):
        return tr(
            "Calm, unless a wind is given. A hold without an arrival gives its sectors only. A heading on either end "
            "of the 70 degree line counts as direct. The first leg of a parallel or teardrop entry lasts one minute "
            "by the FAA's rules at every level, by ICAO's the outbound time, on the 30 degree track at most a minute "
            "and a half; in a hold by distance it ends where the hold's distance does. The figures of a direct entry "
            "are those that bring the aeroplane back to the course, the stopwatch started abeam the fix. The word for "
            "teardrop is offset in the text of a hold by ICAO's rules."
        )

    def cited(self):
        return tr(
            "FAA AIM 5-3-8 j.3, j.5 (distances replace times) and j.8(d), FIG 5-3-4; ICAO Doc 8168 Vol I, Part I, "
            "Section 6, Chapter 1 (from memory: the offset track's 1.5 minutes, or the limiting distance; along a DME "
            "arc sectors 1 and 3 only)."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Holds"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("The holds layer of Design holds. Its essentials are read; what is derived is computed anew."),
        )
        self.add_source(
            "ARRIVALS",
            tr("Arrivals"),
            QgsProcessing.SourceType.TypeVectorLine,
            tr(
                "Lines drawn towards the fixes. A line arrives at each hold near which one of its segments ends, on "
                "the course of that segment: the one that ends nearest to the fix. A line that only begins there is "
                "no arrival."
            ),
            optional=True,
        )
        within = tr("How near the fix a segment of a line in ARRIVALS must end.")
        self.add(
            Number("WITHIN", tr("Arrivals within"), 0.01, 60, within, "NM", default=2, dynamic=False, advanced=True)
        )
        winds.add_arrival(
            self, tr("Course on which the aeroplane arrives at the fix, in the direction of travel; beside ARRIVALS.")
        )
        winds.add_wind(self)
        winds.add_arc(self)
        radius = tr("How large the sectors are drawn.")
        self.add(Number("RADIUS", tr("Radius of the sectors"), 0.1, 60, radius, "NM", default=3))
        self.add_date()
        self.add_tolerance(tr("How far a chord may lie off the true curve."))
        self.add_sink("SECTORS", "sectors")
        self.add_sink("ENTRIES", "entries")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        missing = holdrows.missing_fields("INPUT", self.source_fields(parameters, context))
        return missing or winds.wind_problem(self, parameters)

    def compute(self, run):
        import numpy as np

        from ..geometry import plan, wkb

        source, day = run.source(), run.day()
        sectors, entries = run.sink("SECTORS"), run.sink("ENTRIES")
        run.sink("REJECTS", source.fields())
        lines = _arrival_lines(run)
        reader = holdrows.hold_reader(run, source, ROWS_AT_A_TIME, whole_rows=run.keeps_rejects)
        tolerance, without = run.constant("TOLERANCE"), 0

        for rows in run.batches(reader):
            made = plan.holds_from_columns(holdrows.hold_columns(rows), day.year)
            wind, course = winds.wind_of(rows, made), winds.arrival_of(rows, made)
            made.reasons[:] = np.where(rows.reasons != "", rows.reasons, made.reasons)
            owner, true, names = _arrivals(made, lines, course, run.constant("WITHIN"))
            found = plan.entry_rows(made, owner, true, names, wind, rows["ON_ARC"] == 1)
            for i in np.flatnonzero(found.reasons != "")[::-1]:  # the first one of a hold stands
                made.reasons[owner[i]] = tr("{} ({})").format(found.reasons[i], names[i])
            run.settle(rows, made.reasons)
            if sectors.connected:
                layer = plan.sector_rows(made, rows["RADIUS"], tolerance)
                sectors.write(layer.columns, wkb.multipolygons(layer.coords, layer.offsets))
            kept = made.good[owner]
            entries.write({name: column[kept] for name, column in found.columns.items()})
            without += int(np.count_nonzero(made.good)) - len(set(owner[kept].tolist()))
        if without and (lines or "ARRIVAL_COURSE" in run.parameters):
            run.feedback.pushInfo(tr("{} holds have no arrival").format(without))


def _arrival_lines(run) -> list:
    """(name, Route) of the lines in ARRIVALS; none where there is no layer."""
    from .common.routes import read_routes

    return read_routes(run, "ARRIVALS") if "ARRIVALS" in run.parameters else []


def _arrivals(made, lines: list, course, within_nm: float):
    """Arrivals at the good holds, hold by hold, the course before the lines: row, true course, name."""
    import numpy as np

    from ..geometry import plan

    good = made.good
    lon, lat = (np.where(good, a, np.nan) for a in (made.holds.lon, made.holds.lat))
    found = plan.find_arrivals([route for _, route in lines], lon, lat, within_nm)
    by_course = np.flatnonzero(good & np.isfinite(course))
    owner = np.concatenate([by_course, found.owner])
    true = np.concatenate([course[by_course], found.course_true_deg])
    names = [tr("course")] * len(by_course) + [lines[i][0] for i in found.line.tolist()]
    order = np.argsort(owner, kind="stable")
    return owner[order], true[order], np.array(names, dtype=object)[order]
