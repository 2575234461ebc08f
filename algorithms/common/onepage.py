"""The layers of a hold in memory, for a sheet that is printed at once."""

from __future__ import annotations

from collections.abc import Callable

from qgis.core import QgsFields, QgsVectorLayer, QgsWkbTypes

from . import schema, styling
from .texts import tr

NEAR_NM = 100.0
"""Navaids farther from the fix than this are not drawn: our own choice."""


class OnePage:
    """What the layers hold until a sheet is printed from them, in the main thread.

    stations, columns of the navaids; built, of plan.build with one hold or more; sectors, a Layer; flight, of
    plan.fly_plan; foreign, fields that follow those of the holds, and their rows.
    """

    def __init__(self, stations: dict, built, sectors, flight, foreign: QgsFields, rows: list[list]):
        self.stations, self.built, self.sectors, self.flight = stations, built, sectors, flight
        self.foreign, self.rows = foreign, rows

    def layers(self) -> dict[str, QgsVectorLayer]:
        """The layers that a briefing shows, by name, styled."""
        from ...geometry import wkb

        built, flight = self.built, self.flight
        near = self._near()
        made = {"navaids": self._layer("navaids", near, wkb.points(near["lon"], near["lat"]))}
        for name in ("fixes", "holds"):
            columns = getattr(built, name)
            made[name] = self._layer(name, columns, wkb.points(columns["lon"], columns["lat"]), True)
        for name, layer in (("patterns", built.patterns), ("sectors", self.sectors)):
            made[name] = self._layer(name, layer.columns, wkb.multipolygons(layer.coords, layer.offsets))
        tracks, areas = built.tracks, built.areas
        made["tracks"] = self._layer("tracks", tracks.columns, wkb.multilines(tracks.coords, tracks.offsets))
        shapes = wkb.polygons_with_holes(areas.coords, areas.rings, areas.polygons, areas.parts)
        made["areas"] = self._layer("areas", areas.columns, shapes)
        made["entries"] = self._layer("entries", flight.entries, None)
        for name, layer in (("flown", flight.flown), ("by_rule", flight.by_rule)):
            made[name] = self._layer(name, layer.columns, wkb.multilines_m(layer.coords, layer.seconds, layer.offsets))
        return made

    def print_to(self, printer: Callable, path: str, **options) -> int:
        """Print. Returns: pages."""
        layers = self.layers()
        try:
            return printer(layers, path, **options)
        finally:
            layers.clear()

    def _near(self) -> dict:
        """The navaids about the first hold."""
        from ...geometry import geodesy

        holds, stations = self.built.holds, self.stations
        near = geodesy.inverse(holds["lon"][0], holds["lat"][0], stations["lon"], stations["lat"])[2] <= NEAR_NM
        near |= stations["ident"] == holds["navaid"][0]
        return {name: values[near] for name, values in stations.items()}

    def _layer(self, name: str, columns: dict, shapes: list | None, with_foreign: bool = False) -> QgsVectorLayer:
        from . import sinks

        described = schema.LAYERS[name]
        table = described.geometry == schema.TABLE
        kind = "None" if table else f"{QgsWkbTypes.displayString(described.wkb_type)}?crs=EPSG:4326"
        layer = QgsVectorLayer(kind, tr(described.title), "memory")
        fields, passed = schema.fields_of(described, self.foreign if with_foreign else None)
        layer.dataProvider().addAttributes(list(fields))
        layer.updateFields()
        count = len(next(iter(columns.values()), ()))
        ours = [sinks.python_values(columns[n]) if n in columns else [None] * count for n in described.names]
        more = [[row[i] for i in passed] for row in self.rows] if with_foreign else None
        layer.dataProvider().addFeatures(sinks.feature_list(ours, shapes, more))
        layer.updateExtents()
        styling.dress(layer, described)
        return layer
