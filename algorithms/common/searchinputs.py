"""What a search is tested against, read as the tests of their own read it: terrain, obstacles, airspace."""

from __future__ import annotations

from qgis.core import QgsProperty

from . import airspacelayers, demlayer, obstaclelayers, surroundings
from .run import Run
from .specs import Number
from .texts import tr
from .values import field_index


class _Reading(Run):
    """A run of another algorithm that only reads: what it refuses is told in the log."""

    def refuse(self, source_ids: list, reasons: list) -> None:
        super().refuse(source_ids, reasons)
        for which, why in zip(source_ids, reasons):
            self.feedback.pushWarning(f"{which}: {why}")


def declare(algorithm) -> None:
    """Add the layers and the distances from airspace to an algorithm."""
    surroundings.declare(algorithm)
    for name, label, unit, most, default in (
        ("DISTANCE_NM", tr("Distance sideways from airspace"), "NM", 100, 2),
        ("DISTANCE_FT", tr("Distance in height from airspace"), "ft", 20000, 500),
    ):
        text = tr("How near is too near.")
        algorithm.add(Number(name, label, 0, most, text, unit, default=default, dynamic=False))


def rasters(algorithm, parameters: dict, context) -> tuple:
    """The terrain's heights in blocks, and the same for rays; None each where there is no DEM. In the main thread."""
    return demlayer.blocks(algorithm, parameters, context), demlayer.terrain(algorithm, parameters, context)


def read(run: Run, blocks, terrain):
    """The surroundings of a search. blocks, terrain, of rasters()."""
    from ...geometry.plan.candidates import Surroundings

    return Surroundings(
        None if blocks is None else blocks.grid(), terrain, _obstacles(run), _spaces(run), run.constant("DISTANCE_NM"),
        run.constant("DISTANCE_FT"),
    )  # fmt: skip


def _as_read_by(algorithm, run: Run, names: tuple[str, ...]) -> _Reading:
    given = {name: run.parameters[name] for name in names if name in run.parameters}
    return _Reading(algorithm.create(), given, run.context, run.feedback)


def _obstacles(run: Run):
    from ..minimumaltitude import MinimumAltitude

    source = run.source("OBSTACLES")
    if source is None:
        return None
    reading = _as_read_by(MinimumAltitude(), run, ("DEM", "DEM_UNIT", "OBSTACLES"))
    for name, field in surroundings.ACCURACIES.items():
        if field_index(source.fields(), field) >= 0:
            reading.parameters[name] = QgsProperty.fromField(field)
    return obstaclelayers.read(reading).obstacles


def _spaces(run: Run):
    import numpy as np

    from ...geometry import airspace, shapes
    from ..airspacetest import AirspaceTest

    if not any(name in run.parameters for name in airspacelayers.LAYERS):
        return None
    reading = _as_read_by(AirspaceTest(), run, tuple(airspacelayers.LAYERS))
    read_ = airspacelayers.read(reading)
    if read_.left_out:
        said = tr("{} airspaces without a known shape or width are not among those that are tested")
        run.feedback.pushWarning(said.format(read_.left_out))
    columns = {name: np.array(values, dtype=object) for name, values in read_.texts.items()}
    made = shapes.gather(read_.paths, filled=np.array(read_.filled, dtype=bool), width_nm=np.array(read_.width_nm))
    problems = np.empty(len(read_), dtype=object)
    problems[:] = read_.problems
    return airspace.spaces(made, columns["lower"], columns["upper"], reading.constant("PLAIN_UNIT"), problems)
