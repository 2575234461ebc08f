"""A training area computed from rows of a plan, as layers in a file, for tests of what is printed."""

from __future__ import annotations

import numpy as np
from qgis.core import QgsFields, QgsVectorLayer

from fixwright.algorithms.common import schema


def navaid_columns(navaids):
    """Columns from (ident, lon, lat, kind, elev_ft, decl_deg)."""
    ident, lon, lat, kind, elev, decl = zip(*navaids)
    texts = {"ident": ident, "kind": kind}
    numbers = {"lon": lon, "lat": lat, "elev_ft": elev, "decl_deg": decl}
    out = {name: np.array(values, dtype=object) for name, values in texts.items()}
    out.update({name: np.array(values, dtype=float) for name, values in numbers.items()})
    for name in ("name", "freq", "class", "status"):
        out[name] = np.full(len(navaids), "", dtype=object)
    return out


def _fields(cells) -> QgsFields:
    """Text fields of a plan's columns."""
    fields = QgsFields()
    for name in cells:
        fields.append(schema.new_field(name, schema.TEXT))
    return fields


def styled_layers(folder, navaids, plan, year=2026.67):
    """Layers by name of the area that a plan gives, in a GeoPackage in a folder, with the project's styles."""
    from fixwright.algorithms.common import areafiles
    from fixwright.geometry import plan as plans

    cells = {name: [row.get(name, "") for row in plan] for name in {name for row in plan for name in row}}
    columns = navaid_columns(navaids)
    built = plans.build(cells, columns, None, var_date="2026-09-01", year=year)
    assert not any(built.reasons), [reason for reason in built.reasons if reason]
    files = areafiles.Files(str(folder), "Area", "")

    class Table:
        fields, rows = _fields(cells), [[cells[name][i] for name in cells] for i in range(len(plan))]

    day = plans.fly_plan(cells, built.rows, built.kept, None, plans.FlightDay("2026-09-01"))
    files.write_layers(Table, columns, built, plans.sector_rows(built.kept, 3.0), day)
    files.dress_layers()
    files.put()
    files.discard()
    return {
        layer.name: QgsVectorLayer(files.source(layer.name), layer.title, "ogr") for layer in areafiles.described()
    }
