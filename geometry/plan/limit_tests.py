"""The rules' own limits as tests: the speed flown, the speed of the area, the time of the leg at its level."""

from __future__ import annotations

import numpy as np

from .. import holds
from ..holds import DISTANCE, LEG_RULES, RULES, SPEED_LIMITS
from ..text import format_altitude, format_duration
from .holding import HoldRows

TESTS = ("speed", "area_speed", "leg_time")
COLUMNS = ("hold", "test", "ok", "value", "limit_value", "unit", "source", "text")


def limit_test_rows(rows: HoldRows) -> dict[str, np.ndarray]:
    """Columns of the tests layer, one row a good hold and test of TESTS.

    speed: the speed flown against the lowest limit in the block. area_speed: that the area is made for no less than
    what is flown there. leg_time: that a timed leg is not shorter than the standard of its highest level, which the
    area is made for; a distance leg has no ok where it leaves too little time inbound to judge.
    Source: holds.SPEED_LIMITS, holds.LEG_RULES, holds.LEAST_INBOUND_S.
    """
    index = np.flatnonzero(rows.good)
    hold = rows.holds.take(index)
    keys = rows.columns["hold"][index]
    top = np.maximum(hold.alt_ft, hold.alt_to_ft)
    least = holds.least_maximum_ias_in_block_kt(hold.alt_ft, top, hold.rules)
    standard = holds.standard_leg_min(top, hold.rules)
    straight_s = hold.straight_nm / hold.tas_kt * 3600.0
    made: dict[str, list] = {name: [] for name in COLUMNS}
    for i, key in enumerate(keys):
        rules = RULES[int(hold.rules[i])]
        level = _block(hold, i)
        flown, limit, area = hold.ias_kt[i], least[i], hold.area_ias_kt[i]
        held = flown <= limit + 1e-9
        _add(
            made, key, "speed", held, flown, limit, "kt", SPEED_LIMITS[rules][0].source,
            f"{flown:.0f} kt is {'not ' if held else ''}faster than {limit:.0f} kt {level}",
        )  # fmt: skip
        held = flown <= area + 1e-9
        _add(
            made, key, "area_speed", held, flown, area, "kt", "the area of this hold",
            f"{flown:.0f} kt is {'not ' if held else ''}faster than the {area:.0f} kt the area is made for",
        )  # fmt: skip
        if hold.leg_kind[i] == DISTANCE:
            value, limit = straight_s[i], holds.LEAST_INBOUND_S
            held = value >= limit
            said = f"the inbound leg lasts {format_duration(value)} in still air, at least {limit:.0f} s are wanted"
            _add(made, key, "leg_time", held, value, limit, "s", holds.LEAST_INBOUND_SOURCE, said)
            continue
        value, limit = hold.leg_min[i], standard[i]
        held = value >= limit - 1e-9
        leg = LEG_RULES[rules][0]
        said = f"{value:g} min {leg.timed_leg}; the standard {level} is {limit:g} min"
        _add(made, key, "leg_time", held, value, limit, "min", leg.source, said)
    return {
        name: np.array(values, dtype=np.float64) if name in ("value", "limit_value") else _objects(values)
        for name, values in made.items()
    }


def _add(made, hold, test, ok, value, limit, unit, source, text) -> None:
    row = dict(hold=hold, test=test, ok=int(bool(ok)), value=float(value), limit_value=float(limit), unit=unit,
               source=source, text=text[:1].upper() + text[1:])  # fmt: skip
    for name, cell in row.items():
        made[name].append(cell)


def _block(hold, i: int) -> str:
    if hold.alt_to_ft[i] > hold.alt_ft[i]:
        return f"from {format_altitude(hold.alt_ft[i])} to {format_altitude(hold.alt_to_ft[i])}"
    return f"at {format_altitude(hold.alt_ft[i])}"


def _objects(values: list) -> np.ndarray:
    out = np.empty(len(values), dtype=object)
    out[:] = values
    return out
