"""What a parameter or a cell holds: given or not, a field or an expression, a number, a text."""

from __future__ import annotations

import math
import numbers

from qgis.core import NULL, QgsExpression, QgsFields, QgsProperty

from .texts import tr

_FIELD, _EXPRESSION = "field:", "expression:"


def given(value) -> bool:
    """Whether there is a value: missing, None, NULL and empty text all mean that there is none."""
    if value is None or value == NULL:
        return False
    if isinstance(value, str):
        return bool(value.strip())
    if isinstance(value, QgsProperty):
        return value.isActive() and value.propertyType() != QgsProperty.Type.InvalidProperty
    return True


def healed(value):
    """A parameter's value in the form this code works with.

    Text that begins with field: or expression: becomes a QgsProperty (QGIS 3.22 leaves it as text); a
    property that only wraps a constant becomes the constant; nothing at all becomes None.
    """
    if isinstance(value, QgsProperty) and value.propertyType() == QgsProperty.Type.StaticProperty:
        value = value.staticValue()
    if not given(value):
        return None
    if isinstance(value, str):
        if value.startswith(_FIELD):
            return QgsProperty.fromField(value[len(_FIELD) :])
        if value.startswith(_EXPRESSION):
            return QgsProperty.fromExpression(value[len(_EXPRESSION) :])
    return value


def number(value) -> float | None:
    """A finite number from a number or from text; None where it is none."""
    if isinstance(value, bool):
        return None
    if isinstance(value, numbers.Real):
        return float(value) if math.isfinite(value) else None
    if isinstance(value, str):
        from ...geometry.text import parse_number

        parsed = parse_number(value)
        return parsed if parsed is not None and math.isfinite(parsed) else None
    return None


def text(value) -> str:
    """A cell as text: '' for none, a whole number without a point, dates in their ISO form."""
    if isinstance(value, str):
        return value.strip()
    if not given(value):
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    if hasattr(value, "toPyDate"):
        return value.toPyDate().isoformat()
    if hasattr(value, "toPyDateTime"):
        return value.toPyDateTime().isoformat()
    return str(value)


def field_index(fields: QgsFields, name: str) -> int:
    """Where a field stands, -1 where there is none: by its exact name, else by the first that differs in case only."""
    names = [field.name() for field in fields]
    if name in names:
        return names.index(name)
    folded = [n.lower() for n in names]
    return folded.index(name.lower()) if name.lower() in folded else -1


def property_problem(parameter: str, wanted: QgsProperty, fields: QgsFields) -> str:
    """Why a field or an expression cannot be evaluated over a layer with these fields, in a sentence; '' if it can."""
    if wanted.propertyType() == QgsProperty.Type.FieldBasedProperty:
        names = [wanted.field()]
    else:
        expression = QgsExpression(wanted.expressionString())
        if expression.hasParserError():
            fault = " ".join(expression.parserErrorString().split())
            return tr("{} is the expression {}, which cannot be read: {}.").format(
                parameter, repr(wanted.expressionString()), fault
            )
        names = sorted(n for n in expression.referencedColumns() if not n.startswith("#!"))
    for name in names:
        if field_index(fields, name) < 0:
            return no_field(parameter, name, fields)
    return ""


def no_field(parameter: str, name: str, fields: QgsFields) -> str:
    """The sentence for a named field that does not exist."""
    there = ", ".join(field.name() for field in fields) or tr("none")
    return tr("{} names the field {}, which the input does not have; its fields are {}.").format(
        parameter, repr(name), there
    )
