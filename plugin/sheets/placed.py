"""Labels that a sheet places itself, because they must always be there: courses beside the legs, entries in sectors.

Places are in mm of the picture from the fix, x to the right, y upwards.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from qgis.core import (
    QgsFeature,
    QgsGeometry,
    QgsLabeling,
    QgsLabelLineSettings,
    QgsNullSymbolRenderer,
    QgsPalLayerSettings,
    QgsPointXY,
    QgsRectangle,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
)

from ...geometry import text
from ..styles import inks
from . import figures, page, picture
from .content import every, row_of
from .figures import Row

BESIDE_MM = 3.6
"""From a leg to the middle of its course: past the arrow head."""
SHORT_LEG_MM = 9.0
"""On a map the outbound course is left out on a shorter leg: the picture beside it says it."""
SECTOR_STEPS = (8.0, 10.0, 12.5, 15.0, 18.0, 22.0, 26.0, 31.0, 37.0)
SECTOR_PARTS = 24
ENOUGH_MM = 1.5
EDGE_MM = 1.0

Place = tuple[float, float]


class LegLabel(NamedTuple):
    """Words along a leg: both ends of the line that they stand on."""

    words: str
    bold: bool
    start: Place
    end: Place

    def covers(self) -> list[Place]:
        """Places that the words take."""
        (x0, y0), (x1, y1) = self.start, self.end
        length = math.hypot(x1 - x0, y1 - y0)
        across = page.line_height(inks.TEXT_PT) / 2.0 / length
        return [
            (x0 + k * (x1 - x0) / 6.0 - s * across * (y1 - y0), y0 + k * (y1 - y0) / 6.0 + s * across * (x1 - x0))
            for k in range(7)
            for s in (-1.0, 0.0, 1.0)
        ]


def leg_words(hold: Row) -> str:
    """What ends the leg, as short as it goes: '1:00', '4.0 NM', 'D23.0'."""
    if hold.word("leg_kind") != "distance":
        return text.format_duration(hold.number("leg_min") * 60.0)
    if hold.word("leg_end") == "dme":
        return f"D{hold.number('outbound_end_dme_nm'):.1f}"
    return text.format_nm(hold.number("leg_nm"))


def leg_labels(hold: Row, tracks: QgsVectorLayer, scale: float, least_mm: float = SHORT_LEG_MM) -> list[LegLabel]:
    """Courses of the two legs, outside the pattern; the outbound one only beside a leg that is not too short."""
    legs = {}
    for feature in every(tracks):
        name = row_of(feature).word("leg")
        if name in ("inbound", "outbound"):
            line = [QgsPointXY(vertex) for vertex in feature.geometry().vertices()]
            legs[name] = [(p.x() * 1000.0 / scale, p.y() * 1000.0 / scale) for p in (line[0], line[-1])]
    said = {
        "inbound": figures.course(hold.number("inbound_model_deg")),
        "outbound": "  ".join(
            part for part in (figures.course(hold.number("outbound_model_deg")), leg_words(hold)) if part
        ),
    }
    made = []
    for name, ((x0, y0), (x1, y1)) in legs.items():
        length = math.hypot(x1 - x0, y1 - y0)
        if length == 0.0 or (name == "outbound" and length < least_mm):
            continue
        u, v = (x1 - x0) / length, (y1 - y0) / length
        middle = (x0 + x1) / 2.0, (y0 + y1) / 2.0
        other = legs.get("outbound" if name == "inbound" else "inbound", [(0.0, 0.0)])
        inner = sum(p[0] for p in other) / len(other), sum(p[1] for p in other) / len(other)
        side = 1.0 if (middle[0] - inner[0]) * -v + (middle[1] - inner[1]) * u >= 0.0 else -1.0
        x, y = middle[0] - side * BESIDE_MM * v, middle[1] + side * BESIDE_MM * u
        half = page.text_width(said[name], inks.TEXT_PT, name == "inbound") / 2.0 + 0.5
        made.append(LegLabel(said[name], name == "inbound", (x - half * u, y - half * v), (x + half * u, y + half * v)))
    return made


def leg_layers(local: picture.Local, labels: list[LegLabel], scale: float) -> list[QgsVectorLayer]:
    """The labels of legs as layers."""
    made = []
    for bold in (True, False):
        shapes = [
            (QgsGeometry.fromPolylineXY([_point(at, scale) for at in (label.start, label.end)]), label.words)
            for label in labels
            if label.bold == bold
        ]
        if shapes:
            settings = picture.label_settings(inks.TEXT_PT, "label", bold=bold)
            settings.placement = QgsPalLayerSettings.Placement.Line
            line = settings.lineSettings()
            line.setPlacementFlags(QgsLabeling.LinePlacementFlag.OnLine)
            line.setAnchorType(QgsLabelLineSettings.AnchorType.Strict)
            line.setLineAnchorPercent(0.5)
            line.setOverrunDistance(5.0)
            made.append(_layer(local, "LineString", shapes, settings))
    return made


def sector_labels(
    sectors: list[tuple[str, float, float]], taken: list[Place], frame: tuple[float, float, float, float]
) -> list[tuple[str, Place]]:
    """Where the words of entry sectors stand: in their sector and the frame, off what is drawn.

    sectors, words of two lines and the true directions from the fix between which the sector lies, clockwise; taken,
    what is drawn; frame, its left, bottom, right and top. Returns: words and the middle of their place.
    """
    made: list[tuple[str, Place]] = []
    taken = list(taken)
    left, bottom, right, top = frame
    tall = 2.0 * page.line_height(inks.NOTE_PT)
    for words, start, end in sectors:
        wide = max(page.text_width(line, inks.NOTE_PT, True) for line in words.split("\n"))
        tried = _in_sector(start, (end - start) % 360.0 or 360.0)
        x, y, w, h = tried.x, tried.y, wide / 2.0, tall / 2.0
        outside = np.max([left + w - x, x + w - right, bottom + h - y, y + h - top], axis=0)
        edges = [(t * math.sin(math.radians(a)), t * math.cos(math.radians(a)))
                 for a in (start, end) for t in range(int(SECTOR_STEPS[-1] + wide) + 1)]  # fmt: skip
        room = np.minimum(_apart(tried, taken + edges, w, h), ENOUGH_MM)
        room[outside > -EDGE_MM] = -math.inf
        best = np.lexsort((-tried.effort, room))[-1]
        if room[best] > -math.inf:
            found = float(x[best]), float(y[best])
            made.append((words, found))
            taken += [(found[0] + i * w, found[1] + j * h) for i in (-1, -0.5, 0, 0.5, 1) for j in (-1, 0, 1)]
    return made


class _Tried(NamedTuple):
    """Places for words, and how far they are from the best one of the sector where there is room enough."""

    x: np.ndarray
    y: np.ndarray
    effort: np.ndarray


def _in_sector(start_deg: float, width_deg: float) -> _Tried:
    far, k = (grid.ravel() for grid in np.meshgrid(SECTOR_STEPS, np.arange(1, SECTOR_PARTS), indexing="ij"))
    angle = np.radians(start_deg + width_deg * k / SECTOR_PARTS)
    return _Tried(far * np.sin(angle), far * np.cos(angle), far + np.abs(k - SECTOR_PARTS / 2) / SECTOR_PARTS * 2.0)


def _apart(tried: _Tried, places: list[Place], half_wide: float, half_tall: float) -> np.ndarray:
    """How far the nearest of places is from words that stand at each place tried."""
    at = np.array(places)
    across = np.maximum(np.abs(at[:, 0] - tried.x[:, np.newaxis]) - half_wide, 0.0)
    up = np.maximum(np.abs(at[:, 1] - tried.y[:, np.newaxis]) - half_tall, 0.0)
    return np.hypot(across, up).min(axis=1)


def sector_layer(local: picture.Local, labels: list[tuple[str, Place]], scale: float) -> QgsVectorLayer:
    """The words of sectors as a layer."""
    settings = picture.label_settings(inks.NOTE_PT, "label", bold=True, ink=inks.GREEN)
    settings.placement = QgsPalLayerSettings.Placement.OverPoint
    settings.quadOffset = QgsPalLayerSettings.QuadrantPosition.QuadrantOver
    settings.multilineAlign = QgsPalLayerSettings.MultiLineAlign.MultiCenter
    shapes = [(QgsGeometry.fromPointXY(_point(at, scale)), words) for words, at in labels]
    return _layer(local, "Point", shapes, settings)


def frame_mm(seen: QgsRectangle, scale: float) -> tuple[float, float, float, float]:
    """The frame of a picture about the fix."""
    mm = 1000.0 / scale
    return seen.xMinimum() * mm, seen.yMinimum() * mm, seen.xMaximum() * mm, seen.yMaximum() * mm


def _point(at: Place, scale: float) -> QgsPointXY:
    return QgsPointXY(at[0] * scale / 1000.0, at[1] * scale / 1000.0)


def _layer(local: picture.Local, shape: str, shapes: list[tuple[QgsGeometry, str]], settings) -> QgsVectorLayer:
    layer = local.layer(f"{shape}?field=label:string", "labels", None, [])
    for geometry, words in shapes:
        feature = QgsFeature(layer.fields())
        feature.setGeometry(geometry)
        feature.setAttributes([words])
        layer.dataProvider().addFeatures([feature])
    layer.updateExtents()
    settings.displayAll = True
    settings.priority = 10
    layer.setRenderer(QgsNullSymbolRenderer())
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
    layer.setLabelsEnabled(True)
    return layer
