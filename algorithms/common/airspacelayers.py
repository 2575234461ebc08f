"""Airspace out of three layers: polygons, lines with a half-width, points with a radius."""

from __future__ import annotations

from dataclasses import dataclass, field

from qgis.core import QgsProcessing

from . import paths
from .specs import Choice, Number
from .texts import tr
from .values import field_index

FIELDS = {
    "NAME_FIELD": ("name", "airspace", "ident"),
    "KIND_FIELD": ("kind", "class", "type"),
    "LOWER_FIELD": ("lower", "lower_limit", "floor"),
    "UPPER_FIELD": ("upper", "upper_limit", "ceiling"),
    "HOURS_FIELD": ("hours", "active"),
    "CONTACT_FIELD": ("contact", "frequency", "freq"),
}
"""Field parameters and the names that are found by themselves."""
COLUMNS = {"NAME_FIELD": "name", "KIND_FIELD": "kind", "LOWER_FIELD": "lower", "UPPER_FIELD": "upper",
           "HOURS_FIELD": "hours", "CONTACT_FIELD": "contact"}  # fmt: skip

LAYERS = {"AIRSPACE": paths.POLYGON, "ROUTES": paths.LINE, "PLACES": paths.POINT}
_WIDTHS = {"ROUTES": ("HALF_WIDTH", "half_width_nm"), "PLACES": ("RADIUS", "radius_nm")}
PLAIN_UNITS = ("none", "ft", "m", "fl")


@dataclass
class Read:
    """S airspaces as read: paths, columns of texts, widths, problems, notes; how many lack a known shape or width."""

    paths: list = field(default_factory=list)
    filled: list = field(default_factory=list)
    width_nm: list = field(default_factory=list)
    problems: list = field(default_factory=list)
    notes: list = field(default_factory=list)
    source_ids: list = field(default_factory=list)
    left_out: int = 0
    texts: dict = field(default_factory=lambda: {name: [] for name in COLUMNS.values()})

    def __len__(self) -> int:
        return len(self.paths)


def declare(algorithm, optional: bool = False) -> None:
    """Add the layers, their fields and what they need to an algorithm."""
    algorithm.add_source(
        "AIRSPACE",
        tr("Airspace"),
        QgsProcessing.SourceType.TypeVectorPolygon,
        tr("Polygons, each with its name and its lower and upper limit as text: 4500 ft AMSL, 1500 ft AGL, FL 95, GND, "
           "UNL."),
        optional=True,
    )  # fmt: skip
    algorithm.add_source(
        "ROUTES",
        tr("Airways and other routes"),
        QgsProcessing.SourceType.TypeVectorLine,
        tr("Lines with a half-width, and the same fields: airways, approaches, departures, low-level routes."),
        optional=True,
    )
    algorithm.add_source(
        "PLACES",
        tr("Places of activity"),
        QgsProcessing.SourceType.TypeVectorPoint,
        tr("Points with a radius, and the same fields: parachuting, gliding, circuits, reporting points."),
        optional=True,
    )
    labels = {
        "NAME_FIELD": tr("Name"), "KIND_FIELD": tr("Kind or class"), "LOWER_FIELD": tr("Lower limit"),
        "UPPER_FIELD": tr("Upper limit"), "HOURS_FIELD": tr("Hours"), "CONTACT_FIELD": tr("Contact"),
    }  # fmt: skip
    for name, found in FIELDS.items():
        algorithm.add_field(
            name, labels[name], found, tr("Its field, in all three layers that have it."), source="AIRSPACE"
        )
    for layer, (name, column) in _WIDTHS.items():
        wide = tr("Half-width of routes") if layer == "ROUTES" else tr("Radius of places")
        algorithm.add(
            Number(
                name, wide, 0, 100, tr("Of {}. Not given: the field {}.").format(layer, column), "NM", optional=True,
                of=layer,
            )
        )  # fmt: skip
    algorithm.add(
        Choice(
            "PLAIN_UNIT", tr("Limits without a unit"), PLAIN_UNITS,
            tr("What figures alone are taken in: none refuses them in words."), default="none", dynamic=False,
            advanced=True,
        )
    )  # fmt: skip


def problem(algorithm, parameters: dict, context) -> str:
    """Why the layers cannot be read, in a sentence; '' where they can."""
    given = [name for name in LAYERS if name in parameters]
    if not given:
        return tr("None of AIRSPACE, ROUTES and PLACES is given; give one of them.")
    for layer in given:
        fields = algorithm.source_fields(parameters, context, layer)
        if layer in _WIDTHS:
            name, column = _WIDTHS[layer]
            if name not in parameters and field_index(fields, column) < 0:
                return tr("{} has no field {}; give it one, or give {}.").format(layer, column, name)
        for limit in ("LOWER_FIELD", "UPPER_FIELD"):
            if _field(parameters, fields, limit) is None:
                return tr("{} has no field for the limit {}; its fields are {}.").format(
                    layer, limit, ", ".join(f.name() for f in fields)
                )
    return ""


def read(run) -> Read:
    """All airspaces of the layers that are given. What cannot be used goes to the rejects.

    An airspace whose shape is known and whose width is not stays, with its problem: it may be near all the same.
    """
    import numpy as np

    out = Read()
    for layer, kind in LAYERS.items():
        source = run.source(layer)
        if source is None:
            continue
        fields = source.fields()
        texts = {COLUMNS[name]: _field(run.parameters, fields, name) for name in FIELDS}
        spec, column = _WIDTHS.get(layer, (None, None))
        numbers = {"width": column} if column and field_index(fields, column) >= 0 else {}
        reader = run.reader(source, texts=texts, numbers=numbers, of=layer, shapes=True)
        to_paths = paths.ToPaths(source.sourceCrs(), kind, run.context)
        for rows in reader:
            run.rows_in += len(rows)
            if run.feedback.isCanceled():
                break
            width = np.zeros(len(rows))
            if spec:
                width = np.where(
                    np.isfinite(rows[spec]), rows[spec], rows.values.get("width", np.full(len(rows), np.nan))
                )
            for i, feature in enumerate(rows.features):
                shape, note, reason = to_paths(feature.geometry())
                name = rows["name"][i] or tr("{} {}").format(layer.lower(), rows.ids[i])
                if reason:
                    run.refuse([f"{layer} {rows.ids[i]}"], [f"{name}: {rows.reasons[i] or reason}"])
                    out.left_out += 1
                    continue
                fault = rows.reasons[i]
                if spec and not fault and not width[i] >= 0.0:
                    fault = tr("its {} is {}").format(spec.lower().replace("_", "-"), _width(width[i]))
                out.left_out += bool(spec and not width[i] >= 0.0)
                if note:
                    run.feedback.pushWarning(tr("{} {} ({}): {}").format(layer, rows.ids[i], name, note))
                out.paths.append(shape)
                out.filled.append(kind == paths.POLYGON)
                out.width_nm.append(width[i] if width[i] >= 0.0 else 0.0)
                out.problems.append(fault)
                out.notes.append(note)
                out.source_ids.append(f"{layer} {rows.ids[i]}")
                for column_name in COLUMNS.values():
                    out.texts[column_name].append(name if column_name == "name" else rows[column_name][i])
    return out


def _width(value: float) -> str:
    return tr("not known") if value != value else f"{value:g} NM"


def _field(parameters: dict, fields, name: str) -> str | None:
    """The field that a parameter names, where this layer has it, else the first usual one that it has."""
    for wanted in ([str(parameters[name])] if name in parameters else []) + list(FIELDS[name]):
        at = field_index(fields, wanted)
        if at >= 0:
            return fields[at].name()
    return None
