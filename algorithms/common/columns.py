"""From a layer to columns: batches of rows as arrays, each with the reason why it cannot be read, if it cannot."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property
from itertools import islice

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsExpression,
    QgsFeature,
    QgsFeatureRequest,
    QgsProcessingFeatureSource,
    QgsProperty,
    QgsWkbTypes,
)

from .specs import Choice, Number, shown, wrong
from .texts import tr
from .values import field_index, given, number, text

ROWS_AT_A_TIME = 5000
"""Rows of a batch: enough for numpy, few enough for progress, cancel and memory."""

_POINT = np.dtype([("order", "u1"), ("type", "<u4"), ("x", "<f8"), ("y", "<f8")])


@dataclass
class Rows:
    """A batch of N rows.

    features, as QGIS gives them; lon, lat in EPSG:4326, NaN for a row with a reason; reasons, '' or why the row
    cannot be read; values, columns by the name under which they were asked for: numbers with NaN and codes with -1
    for "not given", texts with ''.
    """

    features: list[QgsFeature]
    lon: np.ndarray
    lat: np.ndarray
    reasons: np.ndarray
    values: dict[str, np.ndarray] = field(default_factory=dict)

    def __len__(self) -> int:
        return len(self.features)

    def __getitem__(self, name: str) -> np.ndarray:
        return self.values[name]

    @cached_property
    def ids(self) -> list[str]:
        """Feature ids as text."""
        return [str(feature.id()) for feature in self.features]

    def names(self, column: str, otherwise: str) -> np.ndarray:
        """A column of texts, `otherwise` with the feature id where one is empty."""
        names = self.values[column].copy()
        for i in np.flatnonzero(names == ""):
            names[i] = otherwise.format(self.ids[i])
        return names

    def attributes(self, index) -> list[list]:
        """The input's whole rows of an index."""
        return [self.features[i].attributes() for i in index]

    def refuse(self, row: int, reason: str) -> None:
        """Give a row a reason; the first one stands."""
        if not self.reasons[row]:
            self.reasons[row] = reason


class Reader:
    """Reads a source batch by batch.

    numbers and texts: columns to read, name -> field of the source, or None for a column of nothing; parameters:
    spec -> constant or QgsProperty, as the base class heals them; whole_rows: read all attributes, for outputs that
    pass them on.
    """

    def __init__(
        self, source: QgsProcessingFeatureSource, context, expression_context, *, numbers=None, texts=None,
        parameters=None, whole_rows: bool = True, rows_at_a_time: int = ROWS_AT_A_TIME,
    ):  # fmt: skip
        self.source = source
        self.fields = source.fields()
        self.numbers: dict[str, str | None] = dict(numbers or {})
        self.texts: dict[str, str | None] = dict(texts or {})
        self.parameters: dict[Number | Choice, object] = dict(parameters or {})
        self.whole_rows = whole_rows
        self.rows_at_a_time = rows_at_a_time
        self.expression_context = expression_context
        self.expression_context.setFields(self.fields)
        self.to_wgs84 = _to_wgs84(source.sourceCrs(), context)

    def __iter__(self):
        features = self.source.getFeatures(
            self._request(), QgsProcessingFeatureSource.Flag.FlagSkipGeometryValidityChecks
        )
        while True:
            batch = list(islice(features, self.rows_at_a_time))
            if not batch:
                return
            yield self._rows(batch)

    def _request(self) -> QgsFeatureRequest:
        request = QgsFeatureRequest()
        if self.whole_rows:
            return request
        wanted = {field_index(self.fields, name) for name in (*self.numbers.values(), *self.texts.values()) if name}
        for value in self.parameters.values():
            if isinstance(value, QgsProperty):
                names = value.referencedFields(self.expression_context)
                if QgsFeatureRequest.ALL_ATTRIBUTES in names:
                    return request
                wanted |= {field_index(self.fields, name) for name in names}
        request.setSubsetOfAttributes(sorted(wanted - {-1}))
        return request

    def _rows(self, batch: list) -> Rows:
        n = len(batch)
        rows = Rows(batch, *self._places(batch))
        if self.to_wgs84 is not None:
            self._reproject(rows)
        for name, column in self.numbers.items():
            rows.values[name] = self._number_column(rows, batch, column)
        for name, column in self.texts.items():
            rows.values[name] = _texts(self._cells(batch, column)) if column else np.full(n, "", dtype=object)
        for spec, value in self.parameters.items():
            rows.values[spec.name] = self._parameter_column(rows, batch, spec, value)
        failed = rows.reasons != ""
        rows.lon[failed], rows.lat[failed] = np.nan, np.nan
        return rows

    def _places(self, batch: list) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        return _points(batch)

    def _cells(self, batch: list, column: str | None) -> list:
        index = field_index(self.fields, column) if column else -1
        return [feature[index] for feature in batch] if index >= 0 else [None] * len(batch)

    def _reproject(self, rows: Rows) -> None:
        transform = self.to_wgs84.transform
        for i in np.flatnonzero(np.isfinite(rows.lon) & np.isfinite(rows.lat)).tolist():
            try:
                place = transform(rows.lon[i], rows.lat[i])
                rows.lon[i], rows.lat[i] = place.x(), place.y()
            except QgsCsException:
                rows.lon[i] = rows.lat[i] = math.inf
        for i in np.flatnonzero(np.isinf(rows.lon) | np.isinf(rows.lat)):
            rows.refuse(i, tr("the position cannot be brought into WGS 84 longitude and latitude"))

    def _number_column(self, rows: Rows, batch: list, column: str | None) -> np.ndarray:
        """A field as numbers, NaN where it is empty; text that is no number refuses the row."""
        cells = self._cells(batch, column)
        if set(map(type, cells)) <= {float, int}:
            values = np.array(cells, dtype=np.float64)
            odd = np.flatnonzero(np.isinf(values)).tolist()
        else:
            values = np.full(len(cells), np.nan)
            odd = []
            for i, cell in enumerate(cells):
                if given(cell) and cell == cell:  # a NaN in the data is an empty cell
                    parsed = number(cell)
                    if parsed is None:
                        odd.append(i)
                    else:
                        values[i] = parsed
        for i in odd:
            values[i] = np.nan
            rows.refuse(i, tr("the field {} is {}, which is not a number").format(column, shown(cells[i])))
        return values

    def _parameter_column(self, rows: Rows, batch: list, spec: Number | Choice, value) -> np.ndarray:
        kind = np.float64 if isinstance(spec, Number) else np.int64
        if not isinstance(value, QgsProperty):
            return np.full(len(batch), spec.missing if value is None else value, dtype=kind)
        cells = self._evaluate(rows, batch, spec, value)
        if isinstance(spec, Choice):
            return _codes(rows, spec, cells)
        return _numbers(rows, spec, cells)

    def _evaluate(self, rows: Rows, batch: list, spec, wanted: QgsProperty) -> list:
        """A field's or an expression's value for each row; None for one that failed, which is refused."""
        if wanted.propertyType() == QgsProperty.Type.FieldBasedProperty and wanted.transformer() is None:
            return self._cells(batch, wanted.field())
        cells = []
        context = self.expression_context
        for i, feature in enumerate(batch):
            context.setFeature(feature)
            value, good = wanted.value(context)
            if not good:
                value = None
                fault = _expression_fault(wanted, context)
                if fault:
                    rows.refuse(i, tr("{} cannot be computed: {}").format(spec.name, fault))
            cells.append(value)
        return cells


class ShapeReader(Reader):
    """Reads rows whose shapes are not points: lon and lat are NaN, and no row is refused for its shape."""

    def _places(self, batch: list) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        n = len(batch)
        return np.full(n, np.nan), np.full(n, np.nan), np.full(n, "", dtype=object)


def _to_wgs84(crs: QgsCoordinateReferenceSystem, context) -> QgsCoordinateTransform | None:
    """The transform to EPSG:4326; None where the source is there already."""
    target = QgsCoordinateReferenceSystem("EPSG:4326")
    if crs == target:
        return None
    return QgsCoordinateTransform(crs, target, context.transformContext())


def _points(features: list) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """x, y and reasons of features that should be one point each."""
    n = len(features)
    reasons = np.full(n, "", dtype=object)
    blobs = [feature.geometry().asWkb().data() for feature in features]
    if set(map(len, blobs)) == {_POINT.itemsize}:
        record = np.frombuffer(b"".join(blobs), dtype=_POINT)
        if (record["type"] == 1).all() and (record["order"] == 1).all():
            x, y = record["x"].copy(), record["y"].copy()
            for i in np.flatnonzero(~(np.isfinite(x) & np.isfinite(y))):
                reasons[i] = tr("the row has no point")
            return x, y, reasons
    x, y = np.full(n, np.nan), np.full(n, np.nan)
    for i, feature in enumerate(features):
        geometry = feature.geometry()
        reasons[i] = _fault(geometry)
        if not reasons[i]:
            point = next(geometry.vertices())
            x[i], y[i] = point.x(), point.y()
    return x, y, reasons


def _fault(geometry) -> str:
    """Why a geometry is not one point with a place; '' if it is."""
    if geometry.isNull() or geometry.isEmpty():
        return tr("the row has no point")
    if QgsWkbTypes.geometryType(geometry.wkbType()) != QgsWkbTypes.GeometryType.PointGeometry:
        return tr("the row's shape is a {}, not a point").format(QgsWkbTypes.displayString(geometry.wkbType()))
    points = list(geometry.vertices())
    if len(points) != 1:
        return tr("the row has {} points; it must have one").format(len(points))
    if not (math.isfinite(points[0].x()) and math.isfinite(points[0].y())):
        return tr("the row has no point")
    return ""


def _numbers(rows: Rows, spec: Number, cells: list) -> np.ndarray:
    """Cells as numbers of a parameter; a row whose cell is empty, no number or out of range is refused."""
    if set(map(type, cells)) <= {float, int}:
        values = np.array(cells, dtype=np.float64)
    else:
        parsed = [number(cell) for cell in cells]
        values = np.array([np.nan if value is None else value for value in parsed], dtype=np.float64)
    with np.errstate(invalid="ignore"):
        good = (values >= spec.minimum) & (values <= spec.maximum)
    for i in np.flatnonzero(~good).tolist():
        values[i] = np.nan
        rows.refuse(i, wrong(spec, cells[i]))
    return values


def _codes(rows: Rows, spec: Choice, cells: list) -> np.ndarray:
    """Cells as codes of a choice; a row whose cell is neither word nor index is refused."""
    codes = np.full(len(cells), -1, dtype=np.int64)
    for i, cell in enumerate(cells):
        code = spec.code(cell) if given(cell) else None
        if code is None:
            rows.refuse(i, wrong(spec, cell))
        else:
            codes[i] = code
    return codes


def _expression_fault(wanted: QgsProperty, context) -> str:
    """What an expression says about its failure; '' where it only gave nothing."""
    expression = QgsExpression(wanted.expressionString())
    expression.prepare(context)
    expression.evaluate(context)
    return " ".join(expression.evalErrorString().split())


def _texts(cells: list) -> np.ndarray:
    """Cells as texts."""
    out = np.empty(len(cells), dtype=object)
    out[:] = list(map(str.strip, cells)) if set(map(type, cells)) == {str} else list(map(text, cells))
    return out
