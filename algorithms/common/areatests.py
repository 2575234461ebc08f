"""The tests of a whole area: each step that tests, run on the layers just made."""

from __future__ import annotations

from collections.abc import Callable

from qgis.core import QgsFeature

from ..airspacetest import AirspaceTest
from ..coveragetest import CoverageTest
from ..fixslips import FixSlips
from ..minimumaltitude import MinimumAltitude
from ..separationtest import SeparationTest
from .steps import run_step

MADE = ("tests", "controlling", "airspace_contacts", "pairs", "levels", "slips", "alternatives")
"""The layers that the steps fill."""
GROUND = ("DEM", "DEM_UNIT", "OBSTACLES")
ACCURACIES = ("HORIZONTAL_ACCURACY", "VERTICAL_ACCURACY")
SPACES = ("AIRSPACE", "ROUTES", "PLACES")
INPUTS = (*GROUND, *SPACES)
STEPS = 5
"""How many there are at most."""
"""What an area is tested against, by the names that the steps give it."""


def test_area(
    source: Callable[[str], str],
    inputs: dict,
    day: str,
    qnh_hpa: float | None,
    into: Callable,
    context,
    feedback,
    between: tuple[float, float] = (0.0, 100.0),
) -> dict[str, list[QgsFeature]]:
    """Run the steps on the layers of one file.

    Parameters: source(layer), where a layer is; inputs, values of INPUTS, those not given left out; day, ISO;
    qnh_hpa, None for each hold's own; into(name, features), writes a table that a later step reads and gives its
    source; between, what of the whole progress is the tests', percent. Returns: features by layer of MADE, in the
    fields of their schema.
    """
    holds, areas, fixes = source("holds"), source("areas"), source("fixes")
    made: dict[str, list[QgsFeature]] = {name: [] for name in MADE}
    wide = (between[1] - between[0]) / STEPS
    shares = [(between[0] + k * wide, between[0] + (k + 1) * wide) for k in range(STEPS)]

    def step(algorithm, parameters, **layers) -> None:
        if feedback.isCanceled():
            return
        found = run_step(algorithm, parameters, tuple(layers), context, feedback, shares.pop(0))
        for sink, layer in layers.items():
            made[layer] += found[sink]

    terrain = {name: inputs[name] for name in ("DEM", "DEM_UNIT") if name in inputs and "DEM" in inputs}
    step(
        CoverageTest(), {"INPUT": holds, "NAVAIDS": source("navaids"), "DATE": day, **terrain},
        TESTS="tests", ALTERNATIVES="alternatives",
    )  # fmt: skip
    step(FixSlips(), {"INPUT": fixes, "DATE": day}, SLIPS="slips")
    further = {}
    ground = {name: inputs[name] for name in (*GROUND, *ACCURACIES) if name in inputs}
    if "DEM" in ground or "OBSTACLES" in ground:
        step(MinimumAltitude(), {"AREAS": areas, "HOLDS": holds, **ground}, TESTS="tests", CONTROLLING="controlling")
        further["MINIMA"] = into("tests", made["tests"])
    spaces = {name: inputs[name] for name in SPACES if name in inputs}
    if spaces:
        qnh = {} if qnh_hpa is None else {"QNH": qnh_hpa}
        step(
            AirspaceTest(), {"AREAS": areas, "HOLDS": holds, "TRACKS": source("flown"), **spaces, **terrain, **qnh},
            TESTS="tests", CONTACTS="airspace_contacts",
        )  # fmt: skip
        further["CONTACTS"] = into("airspace_contacts", made["airspace_contacts"])
    step(SeparationTest(), {"AREAS": areas, "HOLDS": holds, **further}, TESTS="tests", PAIRS="pairs", LEVELS="levels")
    return made
