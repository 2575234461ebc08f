"""The fixes that areas are asked for, and how they are made."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import crossings, reasons
from ..fixes import Station, position_codes
from ..flight import RULES
from .methods import GNSS, METHODS


class Fix(NamedTuple):
    """N fixes: code of the method, place, inbound course, altitude, code of the rules, GNSS values, code."""

    method: np.ndarray
    lon: np.ndarray
    lat: np.ndarray
    course: np.ndarray
    alt: np.ndarray
    rules: np.ndarray
    along: np.ndarray
    across: np.ndarray
    code: np.ndarray


def fix_of(method, first: Station, second: Station | None, lon, lat, course, alt, rules, along, across) -> Fix:
    """The fixes of areas.areas, broadcast; ValueError for a method or rules code that does not exist."""
    method, rules = _codes_of("method", method, METHODS), _codes_of("rules", rules, RULES)
    numbers = [np.asarray(a, dtype=np.float64) for a in (lon, lat, course, alt, along, across)]
    rows = [first.lon] + ([] if second is None else [second.lon])
    shape = np.broadcast_shapes((1,), method.shape, rules.shape, *[a.shape for a in numbers + rows])
    method, rules = np.broadcast_to(method, shape), np.broadcast_to(rules, shape)
    lon, lat, course, alt, along, across = [np.broadcast_to(a, shape) for a in numbers]
    with np.errstate(invalid="ignore"):
        gnss_good = (np.minimum(along, across) > 0.0) & (np.maximum(along, across) <= crossings.FARTHEST_NM)
        code = reasons.first(
            position_codes(lon, lat),
            reasons.where(~np.isfinite(course), reasons.NO_COURSE),
            reasons.where((method == GNSS) & ~gnss_good, reasons.GNSS_RANGE),
        )
    return Fix(method, np.where(code == 0, lon, np.nan), lat, course, alt, rules, along, across, code)


def _codes_of(name: str, values, names: tuple[str, ...]) -> np.ndarray:
    values = np.asarray(values)
    wrong = ~np.isin(values, np.arange(len(names)))
    if wrong.any():
        allowed = ", ".join(f"{i} {word}" for i, word in enumerate(names))
        raise ValueError(f"{name} is {values[wrong].ravel()[0]}; it must be one of {allowed}")
    return values.astype(np.int64)
