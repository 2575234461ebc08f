"""Reading a holds layer: every step after the design starts here."""

from __future__ import annotations

from .texts import tr
from .values import field_index

NUMBERS = ("inbound_true_deg", "leg_min", "leg_nm", "ias_kt", "area_ias_kt", "alt_ft", "alt_to_ft", "isa_dev_c")
WORDS = {
    "rules": ("icao", "faa"),
    "turn": ("right", "left"),
    "leg_kind": ("time", "distance"),
    "leg_end": ("dme", "along_track", "inbound_length"),
}
ESSENTIALS = ("hold", "fix", "rules", "inbound_true_deg", "turn", "leg_kind", "leg_min", "leg_nm", "leg_end", "ias_kt",
              "area_ias_kt", "alt_ft", "alt_to_ft", "isa_dev_c")  # fmt: skip
"""What makes a hold; the rest of the layer is computed from these and never read back."""

STATION_NUMBERS = ("navaid_lat", "navaid_lon", "navaid_elev_ft", "navaid_decl_deg", "qnh_hpa")
STATION_TEXTS = ("navaid_kind",)

_FILLED = ("inbound_true_deg", "ias_kt", "area_ias_kt", "alt_ft", "isa_dev_c")
"""Numbers that every hold has; alt_to_ft may be empty (one level), and of the legs one."""


def missing_fields(parameter: str, fields) -> str:
    """The sentence for a layer that is not a holds layer; '' where it is one."""
    missing = [name for name in ESSENTIALS if field_index(fields, name) < 0]
    if not missing:
        return ""
    return tr("{} is not a layer of holds: it has no field {}; make it with Design holds.").format(
        parameter, ", ".join(missing)
    )


def hold_reader(
    run, source, rows_at_a_time: int | None = None, whole_rows: bool = True, more_numbers=(), more_texts=()
):
    """A reader of the essentials of holds, and of their stations where the layer has them.

    more_numbers, more_texts: further fields, with an empty column where the layer has them not.
    """
    fields = source.fields()
    numbers = {name: name for name in (*NUMBERS, *STATION_NUMBERS) if field_index(fields, name) >= 0}
    texts = {name: name for name in ("hold", "fix", *WORDS, *STATION_TEXTS) if field_index(fields, name) >= 0}
    for names, columns in ((more_numbers, numbers), (more_texts, texts)):
        columns.update({name: name if field_index(fields, name) >= 0 else None for name in names})
    return run.reader(source, numbers=numbers, texts=texts, whole_rows=whole_rows, rows_at_a_time=rows_at_a_time)


def hold_columns(rows) -> dict:
    """What plan.holds_from_columns takes of a batch. Rows that are no whole hold are refused in it."""
    import numpy as np

    for name, words in WORDS.items():
        optional = name == "leg_end"
        for i, word in enumerate(rows[name]):
            if word.lower() not in words and (word or not optional):
                shown = repr(word) if word else tr("empty")
                rows.refuse(i, tr("{} is {}; it must be one of {}").format(name, shown, ", ".join(words)))
    for i in np.flatnonzero(rows["hold"] == ""):
        rows.refuse(i, tr("hold is empty; later layers join on it"))
    kind = np.array([word.lower() for word in rows["leg_kind"]], dtype=object)
    needed = [(name, np.full(len(rows), True)) for name in _FILLED]
    needed += [("leg_min", kind == "time"), ("leg_nm", kind == "distance")]
    for name, where in needed:
        for i in np.flatnonzero(where & ~np.isfinite(rows[name])):
            rows.refuse(i, tr("{} is empty").format(name))
    for i in np.flatnonzero((kind == "distance") & (rows["leg_end"] == "")):
        rows.refuse(i, tr("leg_end is empty, though the leg is a distance"))
    failed = rows.reasons != ""
    rows.lon[failed], rows.lat[failed] = np.nan, np.nan
    return {**rows.values, "lon": rows.lon, "lat": rows.lat}
