"""Wind and arrival: parameters that the algorithms share which fly a hold."""

from __future__ import annotations

from ...geometry.ranges import MOST_WIND_KT
from .specs import Choice, Number, shown
from .stations import NORTHS
from .texts import tr

YES_NO = ("no", "yes")


def add_wind(algorithm) -> None:
    """Add the wind."""
    algorithm.add(
        Number(
            "WIND_FROM",
            tr("Wind from"),
            0,
            360,
            tr("Direction the wind comes from. Needed where the wind is not calm."),
            tr("degrees"),
            optional=True,
        )
    )
    speed = tr("Speed of the wind, steady over the hold.")
    algorithm.add(Number("WIND_SPEED", tr("Wind speed"), 0, MOST_WIND_KT, speed, "kt", default=0))
    algorithm.add(
        Choice(
            "WIND_NORTH",
            tr("North of the wind"),
            NORTHS,
            tr(
                "What the wind's direction is counted from: the station's own north, the World Magnetic Model at the "
                "fix (as a tower says it), or true north (as a forecast says it)."
            ),
            default="true",
        )
    )


def add_arrival(algorithm, text: str) -> None:
    """Add the arrival course; text, its help."""
    algorithm.add(Number("ARRIVAL_COURSE", tr("Arrival course"), 0, 360, text, tr("degrees"), optional=True))
    algorithm.add(
        Choice(
            "ARRIVAL_NORTH",
            tr("North of the arrival course"),
            NORTHS,
            tr(
                "What ARRIVAL_COURSE is counted from: the station's own north, the World Magnetic Model at the fix, "
                "or true north."
            ),
            default="model",
        )
    )


def add_arc(algorithm) -> None:
    """Add whether the arrival is along a DME arc; its column is 1 where it is."""
    on_arc = tr(
        "Whether the aeroplane arrives along the DME arc of the fix: then no teardrop entry, only parallel or direct."
    )
    algorithm.add(Choice("ON_ARC", tr("Arrives along a DME arc"), YES_NO, on_arc, default="no", advanced=True))


def wind_problem(algorithm, parameters: dict) -> str:
    """Why a constant wind cannot be: a speed without a direction. '' where it can."""
    speed = algorithm.constant(parameters, "WIND_SPEED")
    if speed and "WIND_FROM" not in parameters:
        return tr(
            "WIND_FROM is not given, though WIND_SPEED is {} kt; it must be a number between 0 and 360 degrees."
        ).format(shown(float(speed)))
    return ""


def wind_of(rows, made):
    """The plan.Wind of a batch. Rows whose wind has no direction are refused. made, their HoldRows."""
    import numpy as np

    from ...geometry import plan

    calm = rows["WIND_SPEED"] == 0.0
    for i in np.flatnonzero(~calm & ~np.isfinite(rows["WIND_FROM"])):
        rows.refuse(i, tr("WIND_FROM is empty, though WIND_SPEED is {} kt").format(shown(float(rows["WIND_SPEED"][i]))))
    true = _true(rows, made, "WIND_FROM", "WIND_NORTH", ~calm)
    return plan.Wind(np.where(calm | ~np.isfinite(true), 0.0, true), np.nan_to_num(rows["WIND_SPEED"]))


def arrival_of(rows, made):
    """True arrival courses of a batch, NaN for none."""
    return _true(rows, made, "ARRIVAL_COURSE", "ARRIVAL_NORTH", True)


def _true(rows, made, name: str, north: str, needed):
    import numpy as np

    from ...geometry import plan

    true, code = plan.true_bearing(made, rows[name], rows[north])
    for i in np.flatnonzero((code != 0) & needed):
        rows.refuse(
            i,
            tr("{} counts from the station's north, but the hold's station has no declination; choose model or true")
            .format(name),
        )  # fmt: skip
    return true
