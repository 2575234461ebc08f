"""A government's survey table, the layout NAV_BASE of the FAA's NASR."""

from __future__ import annotations

import numpy as np

from .. import navaids
from .cells import Cells, clean_kinds
from .sites import SAME_SITE_M, apart_m, metres_text


def fits(cells: Cells) -> bool:
    """Whether the headers are those of this form."""
    return cells.has("nav_id", "nav_type")


def columns(cells: Cells) -> dict[str, np.ndarray]:
    """Columns as reading.read wants them: whole degrees of declination with E or W, and none for a DME."""
    kind = clean_kinds(cells.text("nav_type"))
    lat, lon = _survey_position(cells, "")
    dme_lat, dme_lon = _survey_position(cells, "tacan_dme_")
    of_vor, of_dme, of_ndb = cells.text("alt_code"), cells.text("dme_ssv"), cells.text("ndb_class_code")
    classes = np.array([_class(*row) for row in zip(kind, of_vor, of_dme, of_ndb)], dtype=object)
    freq, medium = cells.number("freq"), navaids.gives_bearings(kind)
    return {
        "id": np.full(cells.rows, "", dtype=object),
        "ident": cells.text("nav_id"),
        "name": cells.text("name"),
        "kind": kind,
        "khz": np.where(medium, freq, freq * 1000.0),
        "channel": cells.text("chan"),
        "class": classes,
        "status": cells.text("nav_status"),
        "country": cells.text("country_code"),
        "elev_ft": cells.number("elev"),
        "decl_deg": _survey_declination(cells, kind),
        "lon": lon,
        "lat": lat,
        "dme_lon": dme_lon,
        "dme_lat": dme_lat,
        "dme_elev_ft": np.full(cells.rows, np.nan),
        "written": cells.text("nav_type"),
    }


def _class(kind: str, of_vor: str, of_dme: str, of_ndb: str) -> str:
    """One text for the classes of a station, the bearing's first: VH/DH where VOR and DME differ."""
    if kind in ("NDB", "NDB/DME"):
        return of_ndb
    return "/".join(dict.fromkeys(c for c in (of_vor, of_dme) if c))


def _survey_position(cells: Cells, prefix: str) -> tuple[np.ndarray, np.ndarray]:
    """Signed decimals, or degrees, minutes, seconds and hemisphere where they are missing."""
    out = []
    by_parts = []
    for axis, letters in (("lat", "NS"), ("long", "EW")):
        decimal = cells.number(f"{prefix}{axis}_decimal")
        parts = [cells.number(f"{prefix}{axis}_{unit}") for unit in ("deg", "min", "sec")]
        letter = np.char.upper(cells.text(f"{prefix}{axis}_hemis").astype(str))
        sign = np.where(letter == letters[0], 1.0, np.where(letter == letters[1], -1.0, np.nan))
        with np.errstate(invalid="ignore"):
            good = (parts[0] >= 0.0) & (parts[1] >= 0.0) & (parts[1] < 60.0) & (parts[2] >= 0.0) & (parts[2] < 60.0)
        value = np.where(good, sign * (parts[0] + parts[1] / 60.0 + parts[2] / 3600.0), np.nan)
        by_parts.append(value)
        out.append(np.where(np.isfinite(decimal), decimal, value))
    (lat, lon), (lat2, lon2) = out, by_parts
    apart = apart_m(lon, lat, lon2, lat2)
    with np.errstate(invalid="ignore"):
        cells.note(
            apart > SAME_SITE_M,
            lambda i: (
                f"the decimal {'DME ' if prefix else ''}position and the degrees, minutes and seconds lie "
                f"{metres_text(apart[i])} apart"
            ),
        )
    return lat, lon


def _survey_declination(cells: Cells, kind: np.ndarray) -> np.ndarray:
    value = cells.number("mag_varn")
    letter = np.char.upper(cells.text("mag_varn_hemis").astype(str))
    used = np.isfinite(value) & ~np.isin(kind, ["", "DME"])
    with np.errstate(invalid="ignore"):
        lost = used & ((value < 0.0) | (value > 180.0) | ((value != 0.0) & ~np.isin(letter, ["E", "W"])))
    cells.note(lost, lambda i: f"the declination {value[i]:g} {letter[i]} has no side or no sense")
    return np.where(used & ~lost, np.where((letter == "W") & (value != 0.0), -value, value), np.nan)
