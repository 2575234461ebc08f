"""Finding the navaid a plan means by its ident."""

from __future__ import annotations

import numpy as np

from .. import geodesy, navaids
from ..fixes import Station, position_codes

SAME_SITE_NM = 0.5
"""Aids of one ident this close together stand on one site; common practice."""


class Directory:
    """Navaids by ident: columns ident, kind, lon, lat and, where known, elev_ft, decl_deg, name, status, id and,
    where the DME stands apart, dme_lon, dme_lat, dme_elev_ft."""

    def __init__(self, columns: dict[str, np.ndarray]) -> None:
        n = len(columns["ident"])
        blank, unknown = np.full(n, "", dtype=object), np.full(n, np.nan)
        self.ident = np.array([str(v or "").strip() for v in columns["ident"]], dtype=object)
        self.kind = np.array([navaids.clean_kind(k) for k in columns.get("kind", blank)], dtype=object)
        self.status = np.array([str(s or "").strip() for s in columns.get("status", blank)], dtype=object)
        self.id = np.array([str(s if s is not None else "").strip() for s in columns.get("id", blank)], dtype=object)
        self.lon = np.asarray(columns["lon"], dtype=np.float64)
        self.lat = np.asarray(columns["lat"], dtype=np.float64)
        self.elev_ft = np.asarray(columns.get("elev_ft", unknown), dtype=np.float64)
        self.decl_deg = np.asarray(columns.get("decl_deg", unknown), dtype=np.float64)
        self.dme = [
            np.asarray(columns.get(name, unknown), dtype=np.float64) for name in ("dme_lon", "dme_lat", "dme_elev_ft")
        ]
        self._by_ident: dict[str, list[int]] = {}
        usable = position_codes(self.lon, self.lat) == 0
        for i, ident in enumerate(self.ident):
            if ident and usable[i]:
                self._by_ident.setdefault(ident.upper(), []).append(i)

    def find(self, ident: str, kind: str = "", key: str = "", lon=np.nan, lat=np.nan) -> tuple[int, str]:
        """Row of the navaid meant, or -1 and the reason.

        Several of one ident are told apart by kind or id, then by nearness to a given position.
        """
        rows = self._by_ident.get(ident.upper(), [])
        if not rows:
            return -1, f"no navaid {ident} with a usable position"
        if key:
            rows = [i for i in rows if self.id[i] == key]
        if kind:
            clean = navaids.clean_kind(kind)
            if not clean:
                return -1, f"navaid_kind '{kind[:40]}' is not one of {', '.join(navaids.KINDS)}"
            family = navaids.FAMILIES.get(clean, set())
            rows = [i for i in rows if self.kind[i] == clean] or [i for i in rows if self.kind[i] in family]
        if not rows:
            return -1, f"no navaid {ident} of that kind or id"
        if len(rows) > 1 and np.isfinite(lon) and np.isfinite(lat):
            _, _, dist = geodesy.inverse(lon, lat, self.lon[rows], self.lat[rows])
            near = np.flatnonzero(dist <= dist.min() + SAME_SITE_NM)
            rows = [rows[i] for i in near]
        if len(rows) > 1:
            kinds = ", ".join(sorted({self.kind[i] or "kind unknown" for i in rows}))
            return -1, f"{len(rows)} navaids have the ident {ident} ({kinds}); say which by navaid_kind or navaid_id"
        return rows[0], ""

    def station(self, rows) -> Station:
        """Station of rows; NaN where a row is -1."""
        rows = np.asarray(rows, dtype=np.int64)
        have = rows >= 0

        def of(values, missing):
            if not len(values):
                return np.full(len(rows), missing, dtype=values.dtype)
            return np.where(have, values[rows], missing)

        return Station.of(
            of(self.lon, np.nan),
            of(self.lat, np.nan),
            of(self.elev_ft, np.nan),
            of(self.decl_deg, np.nan),
            of(self.kind, "").astype(object),
            *[of(values, np.nan) for values in self.dme],
        )
