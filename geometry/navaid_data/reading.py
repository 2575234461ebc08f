"""From the cells of a table to the columns of its navaids, whatever form it has."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from .. import geodesy, navaids, reasons
from . import government, plain, worldwide
from .cells import Cells
from .repeats import refuse_repeats
from .sites import keep_separate_dme, on_earth
from .status import in_service
from .tuning import write_frequencies

FORMS = {"government": government, "worldwide": worldwide, "plain": plain}
"""The first that fits: by the headers nav_id and nav_type; by latitude_deg, longitude_deg and type; any other with
ident and a position."""

TEXTS = ("id", "ident", "name", "kind", "freq", "channel", "class", "status", "country", "limits")
NUMBERS = ("lon", "lat", "elev_ft", "decl_deg", "dme_lon", "dme_lat", "dme_elev_ft")
CHECKS = ("freq_check", "in_service")

_USUAL_IDENT = re.compile(r"[A-Za-z0-9]{1,4}")


@dataclass(frozen=True)
class NavaidTable:
    """Navaids of N rows in the order of the input.

    form, one of FORMS. columns: TEXTS, object arrays of str, '' where not given; NUMBERS, float64, NaN where
    not given: degrees, feet, declination east positive; the DME's own place only where it stands apart;
    limits, notes on what is doubtful. CHECKS: freq_check, words of FREQ_CHECKS; in_service, bool.
    reasons: object array, '' for the rows that can be used.
    """

    form: str
    columns: dict[str, np.ndarray]
    reasons: np.ndarray

    @property
    def good(self) -> np.ndarray:
        """Mask of the rows that can be used."""
        return self.reasons == ""

    def taken(self) -> dict[str, np.ndarray]:
        """The columns of the rows that can be used."""
        return {name: values[self.good] for name, values in self.columns.items()}


def read(columns: Mapping[str, Sequence]) -> NavaidTable:
    """Navaids from a table of text cells.

    The form is told from the headers, see FORMS. A government's declination is whole degrees with E or W, and
    none for a DME; the worldwide table's is rounded to 0.1, its last digits being a conversion's residue, and
    a name that says closed gives the status. A plain table takes positions in every notation of text, one
    cell or two, decimal commas, and E or W in a declination.
    Parameters: columns, header -> cells, all of N rows; headers are compared without case.
    Returns: NavaidTable of N rows. Rows without ident or position, of a kind not in navaids.KINDS, nearer a
    pole than 85 degrees, and repeats of an earlier row (ident, kind, and place within 10 m) carry a reason;
    rows in it are counted from 1.
    Errors: ValueError for headers of no known form and for columns of unequal length.
    Source: FAA NASR layout of NAV_BASE; column names of the worldwide table; common practice.
    """
    cells = Cells(columns)
    form = _form(cells)
    out = FORMS[form].columns(cells)
    kinds = out["kind"]
    write_frequencies(cells, out)
    keep_separate_dme(cells, out)
    usual = [i == "" or k == "WPT" or bool(_USUAL_IDENT.fullmatch(i)) for i, k in zip(out["ident"], kinds)]
    odd = ~np.array(usual, dtype=bool)
    cells.note(odd, lambda i: f"the ident {out['ident'][i]} is not one to four letters or figures")
    why = _reasons(cells, out)
    refuse_repeats(out, why)
    out["id"] = _keys(out["id"], out["ident"], kinds)
    out["limits"] = cells.notes
    out["in_service"] = in_service(out["status"])
    return NavaidTable(form, {name: out[name] for name in TEXTS + NUMBERS + CHECKS}, why)


def _form(cells: Cells) -> str:
    for name, form in FORMS.items():
        if form.fits(cells):
            return name
    raise ValueError(
        f"the columns are {', '.join(cells.headers)[:200] or 'none'}; a table of navaids has ident and position, or "
        "ident, lat and lon, or is one of the two published forms (nav_id, nav_type; type, latitude_deg, longitude_deg)"
    )


def _reasons(cells: Cells, out: dict[str, np.ndarray]) -> np.ndarray:
    lon, lat = out["lon"], out["lat"]
    somewhere = on_earth(lon, lat)
    with np.errstate(invalid="ignore"):
        polar = somewhere & (np.abs(lat) > geodesy.MAX_LATITUDE_DEG)
    why = np.full(cells.rows, "", dtype=object)
    why[polar] = reasons.SENTENCES[reasons.NEAR_POLE]
    why[~somewhere] = reasons.SENTENCES[reasons.NO_POSITION]
    unread = ~somewhere & (cells.unreadable != "")
    why[unread] = cells.unreadable[unread]
    for i in np.flatnonzero((out["kind"] == "") & (out["written"] != "")):
        why[i] = f"the kind '{out['written'][i][:40]}' is not one of {', '.join(navaids.KINDS)}"
    why[out["ident"] == ""] = "the row has no ident"
    return why


def _keys(given: np.ndarray, idents: np.ndarray, kinds: np.ndarray) -> np.ndarray:
    """The table's own ids; where there are none, ident and kind, numbered from the second on."""
    out = given.copy()
    seen: dict[str, int] = {}
    for i in np.flatnonzero(given == ""):
        key = f"{idents[i]} {kinds[i]}".strip()
        seen[key] = seen.get(key, 0) + 1
        out[i] = key if seen[key] == 1 else f"{key} {seen[key]}"
    return out
