"""The help of an algorithm, composed in one form for all: what, inputs, outputs, assumed, sources, caution."""

from __future__ import annotations

from . import schema
from .specs import Choice, Number
from .texts import caution, tr


def spec_help(spec: Number | Choice) -> str:
    """Help of a number or a choice: its own words, what it may be, its default, and where it may come from."""
    parts = [spec.help]
    allowed = spec.allowed[0].upper() + spec.allowed[1:]
    parts.append(f"{allowed}{_by_index(spec)}.")
    if spec.default is not None:
        default = spec.default if isinstance(spec, Choice) else f"{spec.default:g}"
        parts.append(tr("Not given: {}.").format(default))
    if spec.dynamic:
        parts.append(tr("A constant, a field or an expression."))
    return " ".join(parts)


def _by_index(spec: Number | Choice) -> str:
    return tr(", by word or by index") if isinstance(spec, Choice) else ""


def sink_help(layer: str) -> str:
    """Help of an output: what the layer holds."""
    return _layer_help(schema.LAYERS[layer])


def _layer_help(layer: schema.LayerSchema) -> str:
    kinds = {
        schema.POINT: tr("points"),
        schema.LINE: tr("lines"),
        schema.LINE_M: tr("lines whose M is the time in seconds"),
        schema.POLYGON: tr("polygons"),
        schema.TABLE: tr("table"),
    }
    columns = "; ".join(f"{column.name}: {tr(column.meaning)}" for column in layer.columns)
    foreign = " " + tr("The input's own fields follow.") if layer.takes_foreign else ""
    return f"{tr(layer.title)} ({kinds[layer.geometry]}). {columns}.{foreign}"


def compose(what: str, inputs: list[tuple[str, str]], layers: list[str], assumed: str, sources: str) -> str:
    """The whole help. QGIS shows each line as a paragraph.

    Parameters: what the algorithm does; inputs as (label, help); names of the layers it writes; what is assumed
    for empty values; sources, document and paragraph.
    """
    lines = [what, "", tr("INPUTS")]
    lines += [f"{label}: {text}" for label, text in inputs]
    lines += ["", tr("OUTPUTS")]
    lines += [_layer_help(schema.LAYERS[name]) for name in layers]
    lines += ["", tr("WHAT IS ASSUMED"), assumed, "", tr("SOURCES"), sources, "", tr("CAUTION"), caution()]
    return "\n".join(lines)
