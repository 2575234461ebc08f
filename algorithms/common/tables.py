"""A table read whole: cells as plain values, for what is computed row by row of a plan."""

from __future__ import annotations

from .values import given, text


class Table:
    """All rows of a source: cells by column name as numbers and text, whole rows, feature ids, fields."""

    def __init__(self, source):
        self.fields = source.fields()
        features = list(source.getFeatures())
        self.ids = [str(feature.id()) for feature in features]
        self.rows = [feature.attributes() for feature in features]
        self.cells = {field.name(): [_cell(row[i]) for row in self.rows] for i, field in enumerate(self.fields)}


def _cell(value):
    """A cell as a number or text, None where it is empty."""
    if not given(value):
        return None
    return value if isinstance(value, (int, float, str)) else text(value)
