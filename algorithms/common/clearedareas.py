"""The areas that must be clear of terrain and obstacles: by hold and construction, with the levels planned there."""

from __future__ import annotations

from dataclasses import dataclass, field

from qgis.core import QgsProcessing

from . import paths
from .texts import tr
from .values import field_index

INSIDE = {"basic": "icao", "entry": "icao", "primary": "faa"}
"""Parts that make up the holding area, and whose clearances hold about it."""
SECONDARY = "secondary"
NEEDED = ("hold", "part")


@dataclass
class Area:
    """The area of one hold by one construction: polygons by part, lists of rings; moc_ft by part, NaN where empty."""

    hold: str
    construction: str
    polygons: dict[str, list] = field(default_factory=dict)
    moc_ft: dict[str, float] = field(default_factory=dict)
    unsure: str = ""


@dataclass
class Planned:
    """What the holds layer says of a hold: its fix (lon, lat), None where it has no place, its lowest altitude."""

    fix: tuple[float, float] | None
    alt_ft: float


def declare(algorithm) -> None:
    """Add the areas and the holds to an algorithm."""
    algorithm.add_source(
        "AREAS",
        tr("Areas"),
        QgsProcessing.SourceType.TypeVectorPolygon,
        tr(
            "The areas layer of Protected areas: polygons with the fields hold and part. Basic and entry areas, or "
            "primary and secondary ones, are read; the rings of the buffer follow from the distance."
        ),
    )
    algorithm.add_source(
        "HOLDS",
        tr("Holds"),
        QgsProcessing.SourceType.TypeVectorPoint,
        tr("The holds layer: gives each hold's lowest altitude, alt_ft, and the fix its distances are measured by."),
        optional=True,
    )


def problem(algorithm, parameters: dict, context) -> str:
    """Why the layers cannot be read, in a sentence; '' where they can."""
    for layer, names in (("AREAS", NEEDED), ("HOLDS", ("hold", "alt_ft"))):
        if layer in parameters:
            fields = algorithm.source_fields(parameters, context, layer)
            missing = [name for name in names if field_index(fields, name) < 0]
            if missing:
                return tr("{} has no field {}; its fields are {}.").format(
                    layer, ", ".join(missing), ", ".join(f.name() for f in fields) or tr("none")
                )
    return ""


def read_areas(run) -> list[Area]:
    """All areas in the order of the layer; rows that cannot be used go to the rejects, and their holds stay."""
    source = run.source("AREAS")
    there = [name for name in ("hold", "construction", "part") if field_index(source.fields(), name) >= 0]
    numbers = {"moc_ft": "moc_ft" if field_index(source.fields(), "moc_ft") >= 0 else None}
    reader = run.reader(
        source, texts={name: name for name in there}, numbers=numbers, whole_rows=False, of="AREAS", shapes=True
    )
    to_paths = paths.ToPaths(source.sourceCrs(), paths.POLYGON, run.context)
    made: dict[tuple[str, str], Area] = {}
    left_out = 0
    for rows in reader:
        for i, feature in enumerate(rows.features):
            hold, part = rows["hold"][i], rows["part"][i].lower()
            construction = rows["construction"][i] if "construction" in there else ""
            area = made.setdefault((hold, construction), Area(hold, construction)) if hold else None
            if area and part not in INSIDE and part != SECONDARY:
                left_out += 1
                continue
            run.rows_in += 1
            shape, note, fault = to_paths(feature.geometry())
            reason = rows.reasons[i] or ("" if hold else tr("hold is empty; the tests join on it")) or fault
            if reason:
                run.refuse([f"AREAS {rows.ids[i]}"], [reason])
                if area:
                    area.unsure = tr("an area of the hold cannot be read: {}").format(reason)
                continue
            run.rows_out += 1
            if note:
                run.feedback.pushWarning(tr("AREAS {} ({}): {}").format(rows.ids[i], hold, note))
            area.polygons.setdefault(part, []).extend(shape)
            area.moc_ft[part] = max(area.moc_ft.get(part, rows["moc_ft"][i]), rows["moc_ft"][i])
        if run.feedback.isCanceled():
            break
    if left_out:
        run.feedback.pushInfo(tr("{} areas of other parts are not needed").format(left_out))
    return list(made.values())


def read_holds(run) -> dict[str, Planned]:
    """The holds by key; empty where no layer is given."""
    source = run.source("HOLDS")
    out: dict[str, Planned] = {}
    if source is None:
        return out
    for rows in run.reader(source, texts={"hold": "hold"}, numbers={"alt_ft": "alt_ft"}, whole_rows=False, of="HOLDS"):
        for i, hold in enumerate(rows["hold"]):
            run.rows_in += 1
            reason = rows.reasons[i] or ("" if hold else tr("hold is empty; the tests join on it"))
            if reason:
                run.refuse([f"HOLDS {rows.ids[i]}"], [reason])
                continue
            run.rows_out += 1
            out[hold] = Planned((float(rows.lon[i]), float(rows.lat[i])), float(rows["alt_ft"][i]))
    return out
