"""What a briefing is made from: the layers of one area, their rows by hold, and the project they are drawn in."""

from __future__ import annotations

import datetime
import functools
import math

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsFeature,
    QgsFeatureRequest,
    QgsGeometry,
    QgsMapLayer,
    QgsProject,
    QgsProjectMetadata,
    QgsRectangle,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ...algorithms.common.schema import LAYERS, TEXT
from ...geometry import geodesy
from ..styles.inks import SYMBOL_MM
from . import picture
from .figures import Row

NEEDED = ("navaids", "fixes", "holds", "patterns", "tracks", "areas")
BY_HOLD = (
    "patterns", "tracks", "areas", "sectors", "entries", "flown", "by_rule", "tests", "controlling",
    "airspace_contacts",
)  # fmt: skip
"""Layers whose rows belong to a hold; those that are missing have none."""


class Content:
    """Layers by name, and what pages ask of them. Errors: ValueError for a needed layer that is not there."""

    def __init__(self, layers: dict[str, QgsVectorLayer], title: str, aircraft: dict[str, str] | None = None):
        missing = [name for name in NEEDED if name not in layers or not layers[name].isValid()]
        if missing:
            raise ValueError(f"layers lacks {', '.join(missing)}; a briefing needs all of {', '.join(NEEDED)}")
        self.layers = layers
        self.title = title
        self.aircraft = {name.casefold(): words for name, words in (aircraft or {}).items()}
        self.under: list[QgsMapLayer] = []
        self.airspace: list[QgsVectorLayer] = []
        self.project = QgsProject()
        self.project.setEllipsoid("EPSG:7030")
        nobody = QgsProjectMetadata()
        nobody.setTitle(title)
        nobody.setAuthor("")
        self.project.setMetadata(nobody)
        self.locals: list[picture.Local] = []
        self.features = {name: by_key(layers[name], "hold") if name in layers else {} for name in BY_HOLD}
        self.slips = by_key(layers["slips"], "fix") if "slips" in layers else {}
        self.holds = [(feature, row_of(feature)) for feature in every(layers["holds"])]
        self.fixes = {row_of(feature).word("fix"): feature for feature in every(layers["fixes"])}
        self.navaids = [(feature, row_of(feature)) for feature in every(layers["navaids"])]

    def clearance(self, hold: Row) -> str:
        """The clearance of a hold: the plan's own words where it has them, else written from the hold."""
        return hold.word("clearance") or self._written.get(hold.word("hold"), "")

    @functools.cached_property
    def _written(self) -> dict[str, str]:
        """Clearances written from the holds, by key; none of a hold that no words say."""
        import numpy as np

        from ...geometry import magnetism, phraseology

        made: dict[str, str] = {}
        for _, row in self.holds:
            date = row.word("var_date")
            if not date:
                continue
            columns = {
                column.name: np.array([row.word(column.name) if column.kind == TEXT else row.number(column.name)])
                for column in LAYERS["holds"].columns
            }
            year = magnetism.decimal_year(datetime.date.fromisoformat(date))
            efc = [row.word("efc_utc")] if row.word("efc_utc") else None
            (clearance,), _ = phraseology.from_holds(columns, year, efc)
            if clearance is not None:
                wording = "faa" if row.word("rules") == "faa" else "icao"
                made[row.word("hold")] = phraseology.write(clearance, wording).text
        return made

    def rows(self, name: str, hold: Row) -> list[Row]:
        """Rows of a layer that belong to a hold."""
        return [row_of(feature) for feature in self.features[name].get(hold.word("hold"), [])]

    def fix(self, hold: Row) -> QgsFeature | None:
        """The fix of a hold."""
        return self.fixes.get(hold.word("fix"))

    def fix_row(self, hold: Row) -> Row:
        found = self.fix(hold)
        return row_of(found) if found else Row()

    def slips_of(self, hold: Row) -> list[Row]:
        return [row_of(feature) for feature in self.slips.get(hold.word("fix"), [])]

    def failed(self, hold: Row) -> list[Row]:
        """Tests that do not hold."""
        return [row for row in self.rows("tests", hold) if row.number("ok") == 0.0]

    def local(self, lon: float, lat: float) -> picture.Local:
        """A projection about a place, kept until the briefing is done."""
        made = picture.Local(self.project, lon, lat)
        self.locals.append(made)
        return made

    def copy(self, local: picture.Local, name: str, hold: Row) -> QgsVectorLayer | None:
        """A layer's features of a hold in a projection, None where the layer is not there."""
        if name not in self.layers:
            return None
        return local.copy(self.layers[name], self.features[name].get(hold.word("hold"), []))

    def seen_navaids(self, local: picture.Local, seen: QgsRectangle, scale: float) -> QgsVectorLayer:
        """The navaids whose symbols are whole on a map."""
        seen = seen.buffered(-SYMBOL_MM / 2.0 * scale / 1000.0)

        def inside(geometry: QgsGeometry) -> bool:
            return geometry.type() == QgsWkbTypes.GeometryType.PointGeometry and seen.intersects(geometry.boundingBox())

        return local.copy(self.layers["navaids"], [feature for feature, _ in self.navaids], inside)

    def navaid_of(self, hold: Row) -> Row:
        """The navaid that defines a hold's fix: of its ident, the nearest to the place the hold knows."""
        at = station(hold)
        best, least = Row(), math.inf
        for feature, navaid in self.navaids:
            if not at or navaid.word("ident").upper() != hold.word("navaid").upper():
                continue
            place = self.lon_lat(feature, "navaids")
            if place:
                _, _, apart = geodesy.inverse(*at, *place)
                if float(apart) < least:
                    best, least = navaid, float(apart)
        return best

    def lon_lat(self, feature: QgsFeature, layer: str) -> tuple[float, float] | None:
        """The place of a point feature."""
        geometry = QgsGeometry(feature.geometry())
        if geometry.isNull() or geometry.isEmpty():
            return None
        geometry.transform(
            QgsCoordinateTransform(
                self.layers[layer].crs(), QgsCoordinateReferenceSystem("EPSG:4326"), self.project.transformContext()
            )
        )
        point = next(geometry.vertices())
        return point.x(), point.y()

    def close(self) -> None:
        """Let go of what belongs to the project."""
        self.locals.clear()
        self.project = None


def every(layer: QgsVectorLayer) -> list[QgsFeature]:
    return list(layer.getFeatures(QgsFeatureRequest()))


def row_of(feature: QgsFeature) -> Row:
    return Row(zip(feature.fields().names(), feature.attributes()))


def by_key(layer: QgsVectorLayer, key: str) -> dict[str, list[QgsFeature]]:
    """Features by the text of a field, in the layer's order."""
    found: dict[str, list[QgsFeature]] = {}
    for feature in every(layer):
        found.setdefault(row_of(feature).word(key), []).append(feature)
    return found


def station(hold: Row) -> tuple[float, float] | None:
    """Where the navaid of a hold is."""
    lon, lat = hold.number("navaid_lon"), hold.number("navaid_lat")
    return (lon, lat) if math.isfinite(lon) and math.isfinite(lat) else None
