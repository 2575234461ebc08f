"""The public-domain worldwide table."""

from __future__ import annotations

import numpy as np

from .cells import Cells, clean_kinds


def fits(cells: Cells) -> bool:
    """Whether the headers are those of this form."""
    return cells.has("ident", "type", "latitude_deg", "longitude_deg")


def columns(cells: Cells) -> dict[str, np.ndarray]:
    """Columns as reading.read wants them; the last digits of a declination are a conversion's residue."""
    name = cells.text("name")
    closed = np.array(["closed" in n.lower() for n in name], dtype=bool)
    return {
        "id": cells.text("id"),
        "ident": cells.text("ident"),
        "name": name,
        "kind": clean_kinds(cells.text("type")),
        "khz": cells.number("frequency_khz"),
        "channel": cells.text("dme_channel"),
        "class": np.full(cells.rows, "", dtype=object),
        "status": np.where(closed, "closed", "").astype(object),
        "country": cells.text("iso_country"),
        "elev_ft": cells.number("elevation_ft"),
        "decl_deg": np.round(cells.number("slaved_variation_deg"), 1) + 0.0,
        "lon": cells.number("longitude_deg"),
        "lat": cells.number("latitude_deg"),
        "dme_lon": cells.number("dme_longitude_deg"),
        "dme_lat": cells.number("dme_latitude_deg"),
        "dme_elev_ft": cells.number("dme_elevation_ft"),
        "written": cells.text("type"),
    }
