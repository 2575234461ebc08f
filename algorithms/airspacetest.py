"""Which holding areas and flights come near which airspace."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common import airspacelayers, areablocks, demlayer, paths
from .common.base import FixwrightAlgorithm
from .common.specs import Number
from .common.texts import tr
from .common.values import field_index

ROWS_AT_A_TIME = 200


class AirspaceTest(FixwrightAlgorithm):
    """Airspace test."""

    ID = "airspacetest"
    GROUP = "tests"

    def __init__(self):
        super().__init__()
        self.terrain = None

    def displayName(self):
        return tr("Airspace test")

    def tags(self):
        return tr(
            "airspace,control zone,CTR,TMA,airway,parachuting,gliding,restricted,hold,contact,flight level,QNH"
        ).split(",")

    def what(self):
        return tr(
            "Tells which holding areas, and which flown tracks, come within a distance of which airspace, and by how "
            "much, sideways and in height: control zones and other polygons, airways and approaches as lines with a "
            "half-width, parachuting, gliding and circuits as points with a radius. Limits are read in the forms "
            "people write; hours and contact go along to the briefing. Whatever cannot be told, such as a limit given "
            "by NOTAM, has no ok and is never passed as clear."
        )

    def assumed(self):
        return tr(
            "Too near is what comes within DISTANCE_NM and shares a level or comes nearer than DISTANCE_FT; airspace "
            "within DISTANCE_NM that keeps that height is listed with ok 1. Edges are straight in longitude and "
            "latitude, as a layer in degrees draws them. A limit without a reference is above mean sea level; an empty "
            "lower limit is the ground, an empty upper one none. A flight level is the altitude that the QNH makes it; "
            "the hold's altitudes are those of an altimeter set to it. Limits above the ground need DEM: a lower one "
            "counts from the lowest ground under the airspace within reach of the area, an upper one from the highest. "
            "An airspace whose limits cannot be read is rejected, and what comes near it sideways is not passed. "
            "Hours are not weighed: airspace counts as active all the time."
        )

    def cited(self):
        return tr(
            "ICAO Annex 11 and Annex 15 (kinds of airspace, vertical limits; from memory); ICAO Doc 7488 (flight "
            "levels and QNH). The distances are no rule: to keep 2 NM and some hundred feet from controlled airspace "
            "without a clearance is common practice."
        )

    def declare(self):
        areablocks.declare(self)
        self.add_source(
            "TRACKS",
            tr("Flown tracks"),
            QgsProcessing.SourceType.TypeVectorLine,
            tr("Lines with the field hold, such as the flown layer of Fly holds in wind; at the levels of their hold."),
            optional=True,
        )
        airspacelayers.declare(self)
        self.add(
            Number(
                "DISTANCE_NM", tr("Distance sideways"), 0, 100, tr("How near is too near."), "NM", default=2,
                dynamic=False,
            )
        )  # fmt: skip
        self.add(
            Number(
                "DISTANCE_FT", tr("Distance in height"), 0, 20000, tr("How near is too near."), "ft", default=500,
                dynamic=False,
            )
        )  # fmt: skip
        areablocks.declare_qnh(self)
        demlayer.declare(self, tr(", for limits above the ground."))
        self.add_sink("TESTS", "tests")
        self.add_sink("CONTACTS", "airspace_contacts")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        problem = areablocks.problem(self, parameters, context) or airspacelayers.problem(self, parameters, context)
        if not problem and "TRACKS" in parameters:
            if field_index(self.source_fields(parameters, context, "TRACKS"), "hold") < 0:
                problem = tr("TRACKS has no field hold to join the holds by.")
        return problem or demlayer.problem(self, parameters, context)

    def prepareAlgorithm(self, parameters, context, feedback):
        good = super().prepareAlgorithm(parameters, context, feedback)
        if good:
            self.terrain = demlayer.terrain(self, self.healed(parameters), context)
        return good

    def compute(self, run):
        from ..geometry import airspace, polygons, shapes

        tests, told = run.sink("TESTS"), run.sink("CONTACTS")
        run.sink("REJECTS")
        blocks = areablocks.read(run)
        tracks = self._tracks(run, blocks)
        others, names, left_out = self._spaces(run)
        if not polygons.available():
            run.feedback.pushWarning(tr("overlap_nm2 is left empty: the Python of this QGIS has no shapely"))
        kinds = [("area", blocks.paths, True, blocks.unsure), *tracks]
        total, done = sum(len(made) for _, made, _, _ in kinds), 0
        for what, made, filled, unsure in kinds:
            for begin in range(0, len(made), ROWS_AT_A_TIME):
                if run.feedback.isCanceled():
                    run.feedback.pushInfo(tr("stopped after {} of {} areas and tracks").format(done, total))
                    return
                part = slice(begin, begin + ROWS_AT_A_TIME)
                first = shapes.gather(made[part], filled=filled)
                rows = airspace.contacts(
                    first, blocks.low_ft[part], blocks.high_ft[part], others, within_nm=run.constant("DISTANCE_NM"),
                    within_ft=run.constant("DISTANCE_FT"), qnh_hpa=blocks.qnh_hpa[part], terrain=self.terrain,
                )  # fmt: skip
                self._write(run, tests, told, what, first, rows, others, names, blocks, part, unsure[part], left_out)
                done += len(first)
                run.feedback.setProgress(100.0 * done / total)

    def _write(self, run, tests, told, what, first, rows, others, names, blocks, part, unsure, left_out):
        import numpy as np

        from ..geometry import airspace
        from ..geometry.plan import airspaces

        overlap = np.full(len(rows.row), np.nan)
        if told.connected:
            overlap = airspace.overlaps_nm2(first, others, rows)
        columns = airspaces.contact_rows(blocks.keys[part], what, others, names, rows, overlap, blocks.qnh_hpa[part])
        told.write(columns)
        there = np.diff(first.features) > 0
        wanted = np.flatnonzero(there | (what == "area"))
        if len(wanted):
            made = airspaces.airspace_test_rows(
                blocks.keys[part], what, columns, rows, within_nm=run.constant("DISTANCE_NM"),
                within_ft=run.constant("DISTANCE_FT"), unsure=unsure, wanted=wanted, left_out=left_out,
            )  # fmt: skip
            tests.write(made)

    def _tracks(self, run, blocks) -> list:
        """The flown tracks by hold, as areas are; a track of an unknown hold is told and rejected."""
        source = run.source("TRACKS")
        if source is None:
            return []
        at = {key: i for i, key in enumerate(blocks.keys)}
        made, unsure = [[] for _ in blocks.keys], [""] * len(blocks)
        to_paths = paths.ToPaths(source.sourceCrs(), paths.LINE, run.context)
        for rows in run.reader(source, texts={"hold": "hold"}, of="TRACKS", shapes=True):
            for i, feature in enumerate(rows.features):
                run.rows_in += 1
                key = rows["hold"][i]
                shape, _, reason = to_paths(feature.geometry())
                if key not in at:
                    reason = tr("its hold, {}, has neither an area nor a row in HOLDS").format(repr(key))
                if reason:
                    run.refuse([f"TRACKS {rows.ids[i]}"], [reason])
                    if key in at:
                        unsure[at[key]] = tr("A track of the hold cannot be read: {}").format(reason)
                    continue
                run.rows_out += 1
                made[at[key]] += shape
        return [("track", made, False, unsure)]

    def _spaces(self, run):
        """The airspaces of all layers; those that are not wholly read go to the rejects, and stay among them."""
        import numpy as np

        from ..geometry import airspace, shapes
        from ..geometry.plan.airspaces import Told

        read = airspacelayers.read(run)
        columns = {name: np.array(values, dtype=object) for name, values in read.texts.items()}
        made = shapes.gather(read.paths, filled=np.array(read.filled, dtype=bool), width_nm=np.array(read.width_nm))
        problems = np.empty(len(read), dtype=object)
        problems[:] = read.problems
        others = airspace.spaces(made, columns["lower"], columns["upper"], run.constant("PLAIN_UNIT"), problems)
        bad = np.flatnonzero(others.problems != "")
        run.refuse([read.source_ids[i] for i in bad], [f"{columns['name'][i]}: {others.problems[i]}" for i in bad])
        run.rows_out += len(read) - len(bad)
        notes = np.empty(len(read), dtype=object)
        notes[:] = read.notes
        return (
            others,
            Told(columns["name"], columns["kind"], columns["hours"], columns["contact"], notes),
            read.left_out,
        )
