"""Navaids of a layer as columns: one reader for all algorithms that look stations up."""

from __future__ import annotations

from . import schema
from .texts import tr
from .values import field_index

OTHER_NAMES = {
    "kind": ("type",),
    "freq": ("frequency", "frequency_khz"),
    "channel": ("dme_channel",),
    "elev_ft": ("elevation_ft",),
    "decl_deg": ("declination", "slaved_variation_deg"),
    "country": ("iso_country",),
    "id": ("navaid_id",),
    "dme_lat": ("dme_latitude_deg",),
    "dme_lon": ("dme_longitude_deg",),
    "dme_elev_ft": ("dme_elevation_ft",),
}
"""What a navaid's field may be called besides its own name in the navaids layer."""


def navaid_fields(fields, named: dict[str, str | None] | None = None) -> dict[str, str | None]:
    """The field of a layer for each column of navaids but the place; None where there is none.

    named, column -> field that goes before what is found by its name.
    """
    found = {}
    for column in schema.LAYERS["navaids"].columns:
        if column.name not in ("lat", "lon"):
            names = (column.name, *OTHER_NAMES.get(column.name, ()))
            index = next((i for i in (field_index(fields, name) for name in names) if i >= 0), -1)
            found[column.name] = fields[index].name() if index >= 0 else None
    found.update({name: field for name, field in (named or {}).items() if field})
    return found


def no_ident(parameter: str, fields) -> str:
    """The sentence for a layer that names no navaids; '' where it does."""
    if field_index(fields, "ident") >= 0:
        return ""
    there = ", ".join(field.name() for field in fields) or tr("none")
    return tr("{} has no field ident; its fields are {}.").format(parameter, there)


def navaid_columns(run, source, named: dict[str, str | None] | None = None) -> dict:
    """Columns of the navaids that have a place: those of the navaids layer, empty where the source has no such field.

    Rows without a place are left out with a warning. named as in navaid_fields.
    """
    import numpy as np

    from ...geometry.navaids import clean_kind
    from .columns import Reader

    found = navaid_fields(source.fields(), named)
    kinds = {column.name: column.kind for column in schema.LAYERS["navaids"].columns}
    # not run.reader: fields and expressions of parameters belong to INPUT, which may be another layer
    reader = Reader(
        source,
        run.context,
        run.algorithm.createExpressionContext(run.parameters, run.context, source),
        numbers={name: field for name, field in found.items() if kinds[name] == schema.DOUBLE},
        texts={name: field for name, field in found.items() if kinds[name] == schema.TEXT},
        whole_rows=False,
    )
    parts: dict[str, list] = {name: [] for name in kinds}
    for rows in reader:
        good = rows.reasons == ""
        for i in (~good).nonzero()[0].tolist():
            run.feedback.pushWarning(tr("navaid {}: {}; it is left out").format(rows.ids[i], rows.reasons[i]))
        for name, part in parts.items():
            values = getattr(rows, name) if name in ("lon", "lat") else rows[name]
            part.append(np.asarray(values)[good])
    out = {}
    for name, part in parts.items():
        kind = np.float64 if kinds[name] == schema.DOUBLE else object
        out[name] = np.concatenate(part).astype(kind) if part else np.empty(0, dtype=kind)
    out["kind"] = np.array([clean_kind(kind) or kind for kind in out["kind"]], dtype=object)
    return out
