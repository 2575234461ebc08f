"""The layers that belong to a layer of holds: given, in the same file, or made anew from the holds."""

from __future__ import annotations

from qgis.core import QgsProviderRegistry, QgsVectorLayer, QgsWkbTypes

from . import holdrows, schema, styling
from .schema import LAYERS, TABLE
from .texts import tr

KNOWN = (
    "navaids", "fixes", "patterns", "tracks", "areas", "sectors", "entries", "flown", "by_rule", "tests", "slips",
    "controlling", "airspace_contacts",
)  # fmt: skip
"""Layers that a briefing can show beside the holds."""
_ENOUGH = 0.999
"""Share of its fields that a layer must have to be taken for one of ours."""


def recognised(layer: QgsVectorLayer) -> str:
    """Which of our layers a layer is, by its fields; '' for none. A navaids layer needs ident and kind only."""
    there = {field.name().lower() for field in layer.fields()}
    best, most = "", 0
    for name in KNOWN:
        described = LAYERS.get(name)
        if described is None:
            continue
        wanted = {"ident", "kind"} if name == "navaids" else set(described.names)
        shape = (described.geometry == TABLE) == (layer.wkbType() == QgsWkbTypes.Type.NoGeometry)
        if shape and len(wanted & there) >= _ENOUGH * len(wanted) and len(wanted) > most:
            best, most = name, len(wanted)
    return best


def in_same_file(holds: QgsVectorLayer) -> dict[str, QgsVectorLayer]:
    """Our layers that stand beside the holds in their file."""
    if holds.providerType() != "ogr":
        return {}
    parts = QgsProviderRegistry.instance().decodeUri("ogr", holds.source())
    path = str(parts.get("path", ""))
    if not path.lower().endswith(".gpkg"):
        return {}
    found = {}
    for name in KNOWN:
        if name not in LAYERS:
            continue
        layer = QgsVectorLayer(f"{path}|layername={name}", tr(LAYERS[name].title), "ogr")
        if layer.isValid() and recognised(layer) == name:
            found[name] = layer
    return found


def completed(run, holds: QgsVectorLayer, layers: dict[str, QgsVectorLayer], tolerance_m: float) -> dict:
    """All layers a briefing needs: those there are, and the rest computed from the holds, styled as ours.

    Errors: none for rows that are no hold; they have no pattern.
    """
    needed = [name for name in ("fixes", "navaids", "patterns", "tracks", "areas") if name not in layers]
    made = dict(layers)
    if not needed:
        return made
    rows = _hold_rows(run, holds)
    for name in needed:
        columns, shapes = _computed(name, holds, rows, tolerance_m)
        made[name] = in_memory(name, columns, shapes)
    return made


def _hold_rows(run, holds: QgsVectorLayer):
    """The holds computed from their essentials, with the station of each."""
    from ...geometry import plan, wmm2025

    source = run.source()
    reader = holdrows.hold_reader(run, source, max(1, int(source.featureCount())))
    for rows in reader:
        return plan.holds_from_columns(holdrows.hold_columns(rows), wmm2025.EPOCH)
    return None


def _computed(name: str, holds: QgsVectorLayer, rows, tolerance_m: float):
    from ...geometry import plan, wkb

    if name in ("fixes", "navaids"):
        return _stations(holds) if name == "navaids" else _fixes(holds)
    if rows is None:
        return {column: [] for column in LAYERS[name].names}, []
    maker = {"patterns": plan.pattern_rows, "tracks": plan.track_rows}.get(name)
    if maker:
        layer = maker(rows, tolerance_m)
        shaper = wkb.multilines if name == "tracks" else wkb.multipolygons
        return layer.columns, shaper(layer.coords, layer.offsets)
    layer = plan.area_rows(rows, None, tolerance_m)
    return layer.columns, wkb.polygons_with_holes(layer.coords, layer.rings, layer.polygons, layer.parts)


def _features(holds: QgsVectorLayer) -> list[dict]:
    names = holds.fields().names()
    return [dict(zip(names, feature.attributes())) for feature in holds.getFeatures()]


def _fixes(holds: QgsVectorLayer):
    """The fixes of holds as the holds tell of them; each once."""
    seen = {row.get("fix"): row for row in _features(holds)}
    columns = {name: [row.get(name) for row in seen.values()] for name in LAYERS["fixes"].names}
    return columns, _points(columns["lon"], columns["lat"])


def _stations(holds: QgsVectorLayer):
    """The navaids of holds; each once."""
    from .values import number, text

    seen = {}
    for row in _features(holds):
        ident, lon, lat = text(row.get("navaid")), number(row.get("navaid_lon")), number(row.get("navaid_lat"))
        if ident and lon is not None and lat is not None:
            seen[ident, lon, lat] = row
    columns = {name: [None] * len(seen) for name in LAYERS["navaids"].names}
    for name, of in (
        ("ident", "navaid"), ("kind", "navaid_kind"), ("elev_ft", "navaid_elev_ft"), ("decl_deg", "navaid_decl_deg"),
        ("lat", "navaid_lat"), ("lon", "navaid_lon"),
    ):  # fmt: skip
        columns[name] = [row.get(of) for row in seen.values()]
    return columns, _points(columns["lon"], columns["lat"])


def _points(lon, lat):
    import numpy as np

    from ...geometry import wkb

    return wkb.points(np.array(lon, dtype=np.float64), np.array(lat, dtype=np.float64))


def in_memory(name: str, columns: dict, shapes) -> QgsVectorLayer:
    """One of our layers in memory, with its style."""
    from . import sinks

    described = LAYERS[name]
    kind = QgsWkbTypes.displayString(described.wkb_type) if described.geometry != TABLE else "None"
    layer = QgsVectorLayer(f"{kind}?crs=EPSG:4326", tr(described.title), "memory")
    fields, _ = schema.fields_of(described)
    layer.dataProvider().addAttributes(list(fields))
    layer.updateFields()
    count = len(next(iter(columns.values()), ()))
    ours = [sinks.python_values(columns[n]) if n in columns else [None] * count for n in described.names]
    layer.dataProvider().addFeatures(sinks.feature_list(ours, shapes))
    layer.updateExtents()
    styling.dress(layer, described)
    return layer

