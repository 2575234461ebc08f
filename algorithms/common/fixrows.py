"""Rows of a fixes or a holds layer, as the algorithms read them that look at how a fix is made."""

from __future__ import annotations

from .texts import tr
from .values import field_index

NUMBERS = (
    "navaid_lat", "navaid_lon", "navaid_elev_ft", "navaid_decl_deg", "radial_deg", "dist_nm", "dme_nm",
    "navaid_2_lat", "navaid_2_lon", "navaid_2_elev_ft", "navaid_2_decl_deg", "radial_2_deg", "dist_2_nm", "dme_2_nm",
    "cut_deg", "course_true_deg", "inbound_true_deg", "alt_ft",
)  # fmt: skip
TEXTS = ("fix", "hold", "method", "navaid", "navaid_kind", "navaid_2", "navaid_2_kind", "line", "line_2")
NEEDED = ("fix", "method")


def missing_fields(name: str, fields) -> str:
    """The sentence for a layer that is neither fixes nor holds; '' if it is one."""
    missing = [field for field in NEEDED if field_index(fields, field) < 0]
    if not missing:
        return ""
    return tr("{} has no field {}; give the fixes or the holds layer of an earlier step.").format(
        name, tr(" and no field ").join(missing)
    )


def batches(run, source, *, more_numbers=(), more_texts=(), rows_at_a_time: int | None = None):
    """Batches of rows with their columns by field name, lon and lat among them; fields that are not there are empty.

    more_numbers, more_texts: further fields, with a column only where the source has them.
    """
    there = {field.name() for field in source.fields()}
    more_numbers, more_texts = ([name for name in names if name in there] for names in (more_numbers, more_texts))
    numbers, texts = (*NUMBERS, *more_numbers), (*TEXTS, *more_texts)
    reader = run.reader(
        source,
        numbers={name: name if name in there else None for name in numbers},
        texts={name: name if name in there else None for name in texts},
        rows_at_a_time=rows_at_a_time,
    )
    for rows in run.batches(reader):
        columns = {name: rows[name] for name in (*numbers, *texts)}
        columns["lon"], columns["lat"] = rows.lon, rows.lat
        yield rows, columns
