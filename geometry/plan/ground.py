"""What terrain and obstacles ask of holds: rows of tests and of controlling points, with the sums in words."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import clearances
from ..obstacles import Control, Holding, Minimum
from ..text import format_nm, format_position
from ..units import FT_M

TEST = "minimum_altitude"
UNITS = ("ft", "m")


class Asked(NamedTuple):
    """What was asked of N areas: key and construction of each, the area, the lowest altitude planned in feet (NaN
    where not known), and unsure, '' or why the area may not be passed whatever is found."""

    keys: list[str]
    constructions: list[str]
    holdings: list[Holding]
    alt_ft: np.ndarray
    unsure: list[str]


def minimum_test_rows(
    asked: Asked, found: list[Minimum], names: np.ndarray, *, unit: str = "ft", with_terrain: bool = True
) -> dict:
    """Columns of the tests layer, a row an area.

    ok is 1 where the lowest altitude planned is not below the minimum and everything within reach is known, 0 where
    it is below, None else: an area with unknown terrain, or with an obstacle of unknown top, is never passed.
    Parameters: asked; found, of obstacles.minimum_altitudes; names of the obstacles; unit, of UNITS; with_terrain,
    false where no terrain was given. Returns: columns.
    """
    n = len(found)
    minimum = _minimum(found, unit)
    planned = asked.alt_ft * (FT_M if unit == "m" else 1.0)
    open_ = [_unknown(one, asked.unsure[i], names, with_terrain) for i, one in enumerate(found)]
    ok, text = np.full(n, None, dtype=object), np.full(n, "", dtype=object)
    for i, one in enumerate(found):
        if planned[i] < minimum[i]:
            ok[i] = 0
        elif planned[i] >= minimum[i] and not open_[i]:
            ok[i] = 1
        parts = [_result(one, minimum[i], planned[i], unit), *open_[i]]
        text[i] = ". ".join(part[0].upper() + part[1:] for part in parts if part)
    return {
        "hold": np.array(asked.keys, dtype=object),
        "test": np.full(n, TEST, dtype=object),
        "ok": ok,
        "value": minimum,
        "limit_value": planned,
        "unit": np.full(n, unit, dtype=object),
        "source": np.array([area.clearances.source for area in asked.holdings], dtype=object),
        "text": text,
    }


def untested_rows(keys: list[str], alt_ft, *, unit: str = "ft") -> dict:
    """Columns of the tests layer for holds that have no area to test.

    Parameters: their keys; alt_ft (N,), the lowest altitudes planned; unit, of UNITS. Returns: columns.
    """
    n = len(keys)
    return {
        "hold": np.array(keys, dtype=object),
        "test": np.full(n, TEST, dtype=object),
        "ok": np.full(n, None, dtype=object),
        "limit_value": np.asarray(alt_ft, dtype=np.float64) * (FT_M if unit == "m" else 1.0),
        "unit": np.full(n, unit, dtype=object),
        "source": np.full(n, clearances.icao().source, dtype=object),
        "text": np.full(n, "The hold has no basic or primary area to test", dtype=object),
    }


def controlling_rows(asked: Asked, found: list[Minimum], *, unit: str = "ft") -> tuple[dict, np.ndarray]:
    """Columns of the layer of controlling points and their places (K, 2): of each area the terrain and the obstacle
    that ask for the highest altitude, the one that decides with controls 1. Parameters: as minimum_test_rows."""
    rows = [
        (i, control, control is one.control)
        for i, one in enumerate(found)
        for control in (one.terrain, one.obstacle)
        if control is not None
    ]
    of = np.array([i for i, _, _ in rows], dtype=np.int64)
    controls = [control for _, control, _ in rows]
    required = np.array([control.required_ft for control in controls], dtype=np.float64)
    minimum = clearances.minimum_m(required) / FT_M if unit == "m" else clearances.minimum_ft(required)
    alt = asked.alt_ft[of]
    columns = {
        "hold": np.array([asked.keys[i] for i in of], dtype=object),
        "construction": np.array([asked.constructions[i] for i in of], dtype=object),
        "controls": np.array([int(first) for _, _, first in rows], dtype=np.int64),
        "required_ft": required,
        "minimum_ft": minimum,
        "alt_ft": alt,
        "margin_ft": alt - minimum,
        "source": np.array([asked.holdings[i].clearances.source for i in of], dtype=object),
        "text": np.array([_sum(control, unit) for control in controls], dtype=object),
    }
    for name in ("what", "name", "part"):
        columns[name] = np.array([getattr(control, name) for control in controls], dtype=object)
    for name in ("lat", "lon", "elev_ft", "accuracy_ft", "allowance_ft", "moc_ft", "distance_nm"):
        columns[name] = np.array([getattr(control, name) for control in controls], dtype=np.float64)
    columns["lon"] = columns["lon"] - 360.0 * np.floor((columns["lon"] + 180.0) / 360.0)
    return columns, np.stack([columns["lon"], columns["lat"]], axis=1)


def _minimum(found: list[Minimum], unit: str) -> np.ndarray:
    required = np.array([one.required_ft for one in found], dtype=np.float64)
    return clearances.minimum_m(required) if unit == "m" else clearances.minimum_ft(required)


def _result(one: Minimum, minimum: float, planned: float, unit: str) -> str:
    if one.control is None:
        return "no terrain or obstacle that is known lies within reach of the area"
    parts = [f"the lowest altitude is {_whole(minimum, unit)}: {_sum(one.control, unit)}"]
    margin = planned - minimum
    if np.isfinite(margin):
        side = "above" if margin >= 0.0 else "below"
        parts.append(f"{_whole(planned, unit)}, the lowest altitude planned, is {_whole(abs(margin), unit)} {side} it")
    else:
        parts.append("no planned altitude was given to hold against it")
    return "; ".join(parts)


def _unknown(one: Minimum, unsure: str, names: np.ndarray, with_terrain: bool) -> list[str]:
    """Why an area cannot be passed, in sentences."""
    out = [unsure] if unsure else []
    if not with_terrain:
        out.append("the terrain was not tested: no DEM was given")
    elif one.unknown is not None:
        cell = one.unknown
        what = "the area runs off the raster of the terrain" if cell.off else "the raster has no terrain height"
        out.append(f"{what} at {format_position(cell.lon, cell.lat)}, {_where(cell.distance_nm)}: not passed")
    if one.undecided:
        first = names[one.undecided[0]] or "one without a name"
        many = len(one.undecided)
        who = f"the top of {first} is" if many == 1 else f"the tops of {many} obstacles, {first} among them, are"
        out.append(f"{who} not known: not passed")
    return out


def _sum(control: Control, unit: str) -> str:
    """What decides and its sum: 'MAST at ..., 1.40 NM outside the area, in buffer_2: 1 650 + ...'."""
    who = "terrain" if control.what == "terrain" else (control.name or "an obstacle without a name")
    part = "" if control.distance_nm == 0.0 else f", in {control.part}"
    place = f"{format_position(control.lon, control.lat)}, {_where(control.distance_nm)}{part}"
    terms = [_figure(control.elev_ft, unit)]
    for value, name in ((control.accuracy_ft, "accuracy"), (control.allowance_ft, "allowance")):
        if value:
            terms.append(f"{_figure(value, unit)} {name}")
    terms.append(f"{_figure(control.moc_ft, unit)} clearance")
    return f"{who} at {place}: {' + '.join(terms)} = {_figure(control.required_ft, unit)} {unit}"


def _where(distance_nm: float) -> str:
    if distance_nm == 0.0:
        return "inside the area"
    return f"{format_nm(distance_nm, 3 if distance_nm < 0.995 else 2)} outside the area"


def _figure(feet: float, unit: str) -> str:
    """A height with a decimal only where it is no whole one."""
    value = feet * FT_M if unit == "m" else feet
    return _spaced(value, 0 if abs(value - round(value)) < 0.05 else 1)


def _whole(value: float, unit: str) -> str:
    return f"{_spaced(value, 0)} {unit}"


def _spaced(value: float, digits: int) -> str:
    return f"{value:,.{digits}f}".replace(",", " ")
