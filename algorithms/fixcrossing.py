"""Fixes where two lines of position cross."""

from __future__ import annotations

from qgis.core import QgsProcessingParameterString

from .common.navaidtable import navaid_columns
from .common.specs import Choice, Number
from .common.stations import StationAlgorithm
from .common.texts import tr
from .fixradialdistance import DISTANCE_KINDS

LINE_KINDS = ("radial", "distance")


class FixCrossing(StationAlgorithm):
    """Fix at a crossing."""

    ID = "fixcrossing"

    def displayName(self):
        return tr("Fix at a crossing")

    def tags(self):
        return tr("crossing,intersection,radial,DME arc,bearing,line of position,fix,navaid").split(",")

    def what(self):
        return tr(
            "Finds the fix where two lines of position cross: radial and radial, radial and DME arc, arc and arc, of "
            "two navaids or of one. Where two places answer, both come out: by distance along the radial, or left of "
            "the line of centres first. Draws the lines."
        )

    def assumed(self):
        return tr(
            "An NDB bearing is read in the aircraft, with the magnetic model's variation at the fix. An ident that "
            "fits several navaids is refused; A_NAVAID_KIND and B_NAVAID_KIND tell them apart."
        )

    def cited(self):
        return tr(
            "ICAO Doc 8168 Vol II, I-2-2 (intersection fixes) and I-4-3-App C-13 (slant range); geodesics on WGS 84 "
            "by Karney, J. Geodesy 87 (2013); World Magnetic Model 2025. The crossings are solved to 0.1 mm; our own "
            "construction, see DEVELOPERS.md."
        )

    def declare(self):
        self.declare_stations()
        for letter, name in (("A", tr("first")), ("B", tr("second"))):
            self.add_other(
                QgsProcessingParameterString(f"{letter}_IDENT", tr("Ident of the {} navaid").format(name)),
                tr("Ident as it stands in the input."),
            )
            self.add_other(
                QgsProcessingParameterString(
                    f"{letter}_NAVAID_KIND", tr("Kind of the {} navaid").format(name), None, False, True
                ),
                tr("Where several navaids have the ident: VOR, VOR/DME, VORTAC, TACAN, DME, NDB or NDB/DME."),
                advanced=True,
            )
            self.add(
                Choice(
                    f"{letter}_KIND", tr("Line of the {} navaid").format(name), LINE_KINDS,
                    tr("A radial (an NDB: a bearing), or a DME distance."), default="radial", dynamic=False,
                )
            )  # fmt: skip
            self.add(
                Number(
                    f"{letter}_VALUE", tr("Its radial or distance"), 0, 400,
                    tr("Degrees by the north below, up to 360, or NM by the kind of distance below."), dynamic=False,
                )
            )  # fmt: skip
        self.add(
            Choice(
                "DISTANCE_KIND", tr("Kind of distance"), DISTANCE_KINDS[::-1],
                tr("Slant, as DME shows it, or along the ground."), default="slant", dynamic=False,
            )
        )  # fmt: skip
        self.add_north(dynamic=False)
        self.add(
            Number(
                "ALTITUDE", tr("Altitude"), -2000, 60000, tr("Where slant ranges are read."), "ft", optional=True,
                dynamic=False,
            )
        )  # fmt: skip
        self.add_date()
        self.add_sink("FIXES", "fixes")
        self.add_sink("LINES", "lines")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        for letter in "AB":
            kind, value = self.constant(parameters, f"{letter}_KIND"), self.constant(parameters, f"{letter}_VALUE")
            if kind == "radial" and value > 360:
                return tr(
                    "{}_VALUE is {}; a radial must be a number between 0 and 360 degrees."
                ).format(letter, f"{value:g}")
            if kind == "distance" and value == 0:
                return tr("{}_VALUE is 0; a distance must be more than 0 and up to 400 NM.").format(letter)
            slant = kind == "distance" and self.constant(parameters, "DISTANCE_KIND") == "slant"
            if slant and "ALTITUDE" not in parameters:
                return tr("DISTANCE_KIND is slant, which needs ALTITUDE; give it, or choose ground.")
        return ""

    def compute(self, run):
        import numpy as np

        from ..geometry import plan
        from ..geometry.fix_crossing import Lines
        from ..geometry.plan.directory import Directory
        from ..geometry.plan.marking import Naming

        source, day = run.source(), run.day()
        out, lines = run.sink("FIXES"), run.sink("LINES")
        rejects = run.sink("REJECTS")
        found = self.fields_found(run.parameters, run.context)
        named = {"ident": found["ident"], "decl_deg": found["decl"], "elev_ft": found["elev"], "kind": found["kind"]}
        directory = Directory(navaid_columns(run, source, named))
        run.rows_in = 1
        rows, idents, problems = [], [], []
        for letter in "AB":
            ident = str(run.parameters[f"{letter}_IDENT"]).strip()
            row, problem = directory.find(ident, str(run.parameters.get(f"{letter}_NAVAID_KIND", "")))
            rows.append(row)
            idents.append(directory.ident[row] if row >= 0 else ident)
            problems += [problem] if problem else []
        made = ()
        if not problems:
            code = {word: i for i, word in enumerate(LINE_KINDS)}
            pair = [
                Lines(
                    directory.station([row]),
                    np.array([code[run.constant(f"{letter}_KIND")]]),
                    np.array([float(run.constant(f"{letter}_VALUE"))]),
                )
                for letter, row in zip("AB", rows)
            ]
            alt = run.constant("ALTITUDE")
            made = plan.mark_crossing(
                *pair,
                Naming(np.array(idents[:1], dtype=object), plan.Keys(), day.text),
                np.array(idents[1:], dtype=object),
                slant=run.constant("DISTANCE_KIND") == "slant",
                alt_ft=np.nan if alt is None else float(alt),
                north=self.specs["NORTH"].code(run.constant("NORTH")),
                year=day.year,
            )
            problems = [] if any(m.reasons[0] == "" for m in made) else [str(made[0].reasons[0])]
        run.rows_out, run.rows_rejected = (0, 1) if problems else (1, 0)
        if problems:
            run.feedback.pushWarning("; ".join(problems))
            rejects.write({"source_id": [" + ".join(idents)], "reason": ["; ".join(problems)]})
            return
        for fix in made:
            if fix.reasons[0] == "":
                self._write(fix, pair, idents, out, lines)

    def _write(self, fix, pair, idents, out, lines):
        """One fix and the two lines that define it."""
        import numpy as np

        from ..geometry import wkb
        from ..geometry.position_lines import arc_line, radial_line

        columns = fix.columns
        out.write(columns, wkb.points(columns["lon"], columns["lat"]))
        shapes = []
        for line in pair:
            at = line.station
            draw = arc_line if line.kind[0] == LINE_KINDS.index("distance") else radial_line
            lon, lat = (at.dme_lon, at.dme_lat) if draw is arc_line else (at.lon, at.lat)
            shapes.append(draw(lon[0], lat[0], columns["lon"][0], columns["lat"][0]))
        values = [float(line.value[0]) for line in pair]
        kinds = [LINE_KINDS[int(line.kind[0])] for line in pair]
        lines.write(
            {
                "fix": np.array([columns["fix"][0]] * 2, dtype=object),
                "navaid": np.array(idents, dtype=object),
                "line": np.array(kinds, dtype=object),
                "radial_deg": np.array([v if k == "radial" else np.nan for v, k in zip(values, kinds)]),
                "distance_nm": np.array([v if k == "distance" else np.nan for v, k in zip(values, kinds)]),
            },
            wkb.multilines(np.concatenate(shapes), np.cumsum([0] + [len(s) for s in shapes])),
        )
