"""A plain table with our own column names, and values as people write them."""

from __future__ import annotations

import re

import numpy as np

from .. import text
from .cells import Cells, clean_kinds, read_number
from .frequencies import frequency_khz

_DECLINATION = re.compile(r"([EW])? ?([^A-Z°º]+?) ?[°º]? ?([EW])?", re.IGNORECASE)
_FEET = re.compile(r" ?(?:ft|feet)\.?$", re.IGNORECASE)

_PLAIN_NAMES = {
    "id": ("id", "navaid_id"),
    "ident": ("ident",),
    "name": ("name",),
    "kind": ("kind", "type"),
    "freq": ("freq", "frequency"),
    "channel": ("channel",),
    "elev_ft": ("elev_ft", "elevation_ft"),
    "decl_deg": ("decl_deg", "declination"),
    "class": ("class",),
    "status": ("status",),
    "country": ("country",),
    "lat": ("lat", "latitude"),
    "lon": ("lon", "longitude"),
    "position": ("position",),
    "dme_lat": ("dme_lat",),
    "dme_lon": ("dme_lon",),
    "dme_elev_ft": ("dme_elev_ft",),
}


def fits(cells: Cells) -> bool:
    """Whether the headers are those of this form."""
    return cells.has("ident") and (cells.has("position") or _has_both(cells, "lat", "lon"))


def _has_both(cells: Cells, *names: str) -> bool:
    return all(any(cells.has(name) for name in _PLAIN_NAMES[column]) for column in names)


def columns(cells: Cells) -> dict[str, np.ndarray]:
    """Columns as reading.read wants them."""

    def named(column: str) -> tuple[str, ...]:
        return _PLAIN_NAMES[column]

    out = {name: cells.text(*named(name)) for name in ("id", "ident", "name", "channel", "class", "status", "country")}
    out["written"] = cells.text(*named("kind"))
    out["kind"] = clean_kinds(out["written"])
    freq = cells.text(*named("freq"))
    out["khz"] = frequency_khz(freq, out["kind"])
    cells.note((freq != "") & np.isnan(out["khz"]), lambda i: f"freq '{freq[i][:40]}' cannot be read")
    out["elev_ft"] = cells.number(*named("elev_ft"), parse=_feet)
    out["decl_deg"] = cells.number(*named("decl_deg"), parse=parse_declination)
    out["lat"] = cells.angle(*named("lat"), parse=text.parse_latitude)
    out["lon"] = cells.angle(*named("lon"), parse=text.parse_longitude)
    for i, position in enumerate(cells.text("position")):
        if position and np.isnan(out["lat"][i]) and np.isnan(out["lon"][i]):
            try:
                out["lon"][i], out["lat"][i] = text.parse_position(position)
            except text.PositionError as error:
                cells.unreadable[i] = str(error)
    out["dme_lat"] = cells.angle(*named("dme_lat"), parse=text.parse_latitude)
    out["dme_lon"] = cells.angle(*named("dme_lon"), parse=text.parse_longitude)
    out["dme_elev_ft"] = cells.number(*named("dme_elev_ft"), parse=_feet)
    return out


def parse_declination(cell: str) -> float | None:
    """A declination or variation as people write it, east positive.

    Parameters: cell, such as '4E', 'W 3.5', '3,5° W', '-3.5'. Returns: degrees, NaN for an empty cell, None
    for what is no declination. A sign and a letter together are refused. Source: common practice.

    >>> parse_declination("4E"), parse_declination("W 3,5"), parse_declination("-3.5"), parse_declination("4 N")
    (4.0, -3.5, -3.5, None)
    """
    if not cell.strip():
        return np.nan
    match = _DECLINATION.fullmatch(cell.strip())
    if not match or (match[1] and match[3]):
        return None
    letter = (match[1] or match[3] or "").upper()
    value = text.parse_number(match[2].replace(",", "."))
    if value is None or not abs(value) <= 180.0 or (letter and not match[2].strip()[0].isdigit()):
        return None
    return -value if letter == "W" and value else value


def _feet(cell: str) -> float | None:
    return read_number(_FEET.sub("", cell))
