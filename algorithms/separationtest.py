"""Which exercises share the sky at one level, and the lowest level that each can use."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common import areablocks
from .common.base import FixwrightAlgorithm
from .common.specs import Number
from .common.texts import tr
from .common.values import field_index

MINIMUM_TEST = "minimum_altitude"
"""Rows of a tests layer whose value is a hold's minimum altitude."""
_CONTACT_FIELDS = ("hold", "airspace", "ok", "lower_ft", "upper_ft")


class SeparationTest(FixwrightAlgorithm):
    """Separation test."""

    ID = "separationtest"
    GROUP = "tests"

    def displayName(self):
        return tr("Separation test")

    def tags(self):
        return tr("separation,levels,stack,overlap,exercises,holds,altitude block,vertical,lowest level").split(",")

    def what(self):
        return tr(
            "Finds the pairs of exercises whose areas overlap, or come within a distance, while their altitudes are "
            "not separated, and the lowest altitudes that free them. For each exercise, and so for the levels of one "
            "fix, it also tells the lowest level that can be used and what takes the levels below it: the minimum "
            "altitude, airspace, other exercises."
        )

    def assumed(self):
        return tr(
            "An exercise takes all levels of its block, alt_ft to alt_to_ft, the whole time: hours are not weighed. "
            "One separation holds at every level; above flight level 290 more may be needed. A level is the bottom of "
            "the block, in whole steps of STEP; the block keeps its thickness. Levels are looked for from the minimum "
            "altitude up, which MINIMA gives; where it is not known, from the planned altitude, and the test has no "
            "ok. Airspace counts as CONTACTS lists it: an airspace whose limits are not known leaves the test without "
            "ok. Whether airspace may be used with a clearance is for the pilot to ask."
        )

    def cited(self):
        return tr(
            "ICAO Doc 4444, 5.3.2 (1 000 ft below flight level 290) and 5.4.1 (no vertical separation where areas do "
            "not overlap); both from memory."
        )

    def declare(self):
        areablocks.declare(self)
        self.add_source(
            "MINIMA",
            tr("Minimum altitudes"),
            QgsProcessing.SourceType.TypeVector,
            tr("The tests layer of the Minimum altitude test: its rows {}, whose value is the minimum.").format(
                MINIMUM_TEST
            ),
            optional=True,
        )
        self.add_source(
            "CONTACTS",
            tr("Airspace near"),
            QgsProcessing.SourceType.TypeVector,
            tr("The airspace_contacts layer of the Airspace test."),
            optional=True,
        )
        self.add(
            Number(
                "SEPARATION", tr("Vertical separation"), 0, 10000, tr("Between the levels of two exercises."), "ft",
                default=1000, dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number(
                "DISTANCE_NM", tr("Distance sideways"), 0, 100,
                tr("Areas nearer than this count as sharing the sky; 0: only areas that overlap or touch."), "NM",
                default=0, dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number(
                "DISTANCE_FT", tr("Distance in height from airspace"), 0, 20000,
                tr("That levels keep from the airspace in CONTACTS."), "ft", default=500, dynamic=False,
            )
        )  # fmt: skip
        self.add(Number("STEP", tr("Step of levels"), 10, 5000, tr("Levels are its multiples."), "ft", default=100,
                        dynamic=False, advanced=True))  # fmt: skip
        self.add_sink("TESTS", "tests")
        self.add_sink("PAIRS", "pairs")
        self.add_sink("LEVELS", "levels")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        problem = areablocks.problem(self, parameters, context)
        for layer, needed in (("MINIMA", ("hold", "test", "ok", "value", "unit")), ("CONTACTS", _CONTACT_FIELDS)):
            if not problem and layer in parameters:
                fields = self.source_fields(parameters, context, layer)
                missing = [name for name in needed if field_index(fields, name) < 0]
                if missing:
                    problem = tr("{} has no field {}; its fields are {}.").format(
                        layer, ", ".join(missing), ", ".join(f.name() for f in fields)
                    )
        return problem

    def compute(self, run):
        import numpy as np

        from ..geometry import meetings, polygons, separation, shapes
        from ..geometry.plan import separations

        tests, pairs, levels = run.sink("TESTS"), run.sink("PAIRS"), run.sink("LEVELS")
        run.sink("REJECTS")
        blocks = areablocks.read(run)
        if run.feedback.isCanceled():
            run.feedback.pushInfo(tr("stopped before anything was compared"))
            return
        unsure = np.array(blocks.unsure, dtype=object)
        of = separations.Exercises(
            np.array(blocks.keys, dtype=object), np.array(blocks.fix, dtype=object), blocks.low_ft, blocks.high_ft,
            self._minima(run, blocks, unsure),
        )  # fmt: skip
        areas = shapes.gather(blocks.paths, filled=True)
        apart, step = run.constant("SEPARATION"), run.constant("STEP")
        found = separation.pairs(
            areas, of.low_ft, of.high_ft, within_nm=run.constant("DISTANCE_NM"), separation_ft=apart
        )
        run.feedback.setProgress(60)
        if pairs.connected:
            if not polygons.available():
                run.feedback.pushWarning(tr("overlap_nm2 is left empty: the Python of this QGIS has no shapely"))
            overlap = np.zeros(len(found.first))
            for k in np.flatnonzero(found.relation > 0):
                overlap[k] = meetings.overlap_nm2(areas, int(found.first[k]), areas, int(found.second[k]))
            pairs.write(separations.pair_rows(of, found, overlap, separation_ft=apart, step_ft=step))
        tests.write(separations.separation_test_rows(of, found, separation_ft=apart, step_ft=step, unsure=unsure))
        contacts, names = self._contacts(run, blocks, of, unsure)
        bands = separations.all_bands(of, found, contacts, apart)
        lowest, rows = separations.lowest_rows(of, bands, names, step_ft=step, unsure=unsure)
        tests.write(rows)
        levels.write(separations.level_rows(of, bands, lowest, names))

    def _minima(self, run, blocks, unsure):
        """Minimum altitudes of the exercises, feet, the highest of each; NaN where none is given.

        One that was not wholly told (unknown terrain, an obstacle without its top) goes into unsure.
        """
        import numpy as np

        from ..geometry.units import FT_M

        out = np.full(len(blocks), np.nan)
        source = run.source("MINIMA")
        if source is None:
            return out
        at = {key: i for i, key in enumerate(blocks.keys)}
        texts = {name: name for name in ("hold", "test", "unit")}
        numbers = {name: name for name in ("ok", "value")}
        for rows in run.reader(source, texts=texts, numbers=numbers, of="MINIMA", shapes=True):
            for i in range(len(rows)):
                if rows["test"][i] != MINIMUM_TEST or rows["hold"][i] not in at:
                    continue
                k = at[rows["hold"][i]]
                out[k] = np.fmax(out[k], rows["value"][i] / (FT_M if rows["unit"][i] == "m" else 1.0))
                if not np.isfinite(rows["ok"][i]):
                    _add(unsure, k, tr("The minimum altitude is not wholly known"))
        return out

    def _contacts(self, run, blocks, of, unsure):
        """Bands of the airspace near each exercise's area, and the names; what is not known goes into unsure."""
        import numpy as np

        from ..geometry import separation

        names, row, lower, upper = [], [], [], []
        source = run.source("CONTACTS")
        if source is not None:
            at = {key: i for i, key in enumerate(blocks.keys)}
            texts = {"hold": "hold", "airspace": "airspace"}
            numbers = {name: name for name in ("ok", "lower_ft", "upper_ft")}
            for rows in run.reader(source, texts=texts, numbers=numbers, of="CONTACTS", shapes=True):
                for i in range(len(rows)):
                    if rows["hold"][i] not in at:
                        continue
                    k = at[rows["hold"][i]]
                    if not np.isfinite(rows["ok"][i]):
                        _add(unsure, k, tr("The levels of {} are not known").format(rows["airspace"][i]))
                        continue
                    row.append(k)
                    names.append(rows["airspace"][i])
                    lower.append(rows["lower_ft"][i])
                    upper.append(rows["upper_ft"][i])
        index = np.array(row, dtype=np.int64)
        lower = np.where(np.isfinite(lower), lower, -np.inf)
        upper = np.where(np.isfinite(upper), upper, np.inf)
        thickness = np.where(np.isfinite(of.low_ft), of.high_ft - of.low_ft, 0.0)[index]
        who = np.arange(len(index))
        return separation.airspace_bands(index, lower, upper, run.constant("DISTANCE_FT"), thickness, who), names


def _add(unsure, k: int, said: str) -> None:
    """One more reason why an exercise is not wholly known, each once."""
    if said not in unsure[k]:
        unsure[k] = "; ".join(part for part in (unsure[k], said) if part)
