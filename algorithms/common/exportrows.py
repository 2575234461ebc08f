"""Fixes, holds and areas as an export reads them out of layers."""

from __future__ import annotations

import math
from typing import NamedTuple

from qgis.core import QgsCsException, QgsGeometry, QgsPointXY, QgsWkbTypes

from . import holdrows
from .texts import tr
from .values import field_index

FIX_NUMBERS = ("radial_deg", "dist_nm", "dme_nm", "radial_2_deg", "dist_2_nm", "var_deg", "alt_ft")
FIX_TEXTS = ("navaid", "navaid_2", "var_date")


class Named(NamedTuple):
    """What is to get a name: what it is, its full name, the end that must stay, where it is, a description."""

    kind: str
    full: str
    tail: str
    lon: float
    lat: float
    text: str
    var_deg: float


def read_fixes(run, source, name_field: str | None) -> list[Named]:
    """The good rows of a layer of points."""
    import numpy as np

    fields = source.fields()
    numbers = {name: name for name in FIX_NUMBERS if field_index(fields, name) >= 0}
    texts = {name: name for name in FIX_TEXTS if field_index(fields, name) >= 0}
    reader = run.reader(source, numbers=numbers, texts={**texts, "name": name_field}, whole_rows=False)
    found = []
    for rows in run.batches(reader):
        for i in (np.abs(rows.lat) > 90.0).nonzero()[0].tolist():
            rows.refuse(i, tr("the latitude is beyond 90 degrees"))
        _say_layer(rows, "FIXES")
        names = rows.names("name", tr("point {}"))
        for i in run.settle(rows, np.full(len(rows), "", dtype=object)).tolist():
            row = {name: rows[name][i] for name in (*numbers, *texts)}
            var = float(row.get("var_deg", math.nan))
            lon, lat = on_globe(rows.lon[i]), float(rows.lat[i])
            found.append(Named("fix", names[i], "", lon, lat, _fix_text(row), var))
    return found


def _fix_text(row: dict) -> str:
    """How a fix is defined, its altitude, the variation and its day."""
    from ...geometry import text as words

    parts = []
    for navaid, radial, dist, dme in (("navaid", "radial_deg", "dist_nm", "dme_nm"),
                                      ("navaid_2", "radial_2_deg", "dist_2_nm", "")):  # fmt: skip
        ident = row.get(navaid, "")
        if not ident:
            continue
        line = words.format_course_tenths(row.get(radial, math.nan))
        measured = words.format_nm(row.get(dist, math.nan), 2)
        slant = words.format_nm(row.get(dme, math.nan), 2)
        if row.get(dist, math.nan) < 0.005:
            parts.append(tr("overhead {}").format(ident))
            continue
        said = (
            ident,
            tr("radial {}").format(line) if line else "",
            measured,
            tr("DME {}").format(slant) if slant else "",
        )
        parts.append(" ".join(word for word in said if word))
    altitude = words.format_altitude(row.get("alt_ft", math.nan))
    if altitude:
        parts.append(tr("at {}").format(altitude))
    variation = words.format_variation(row.get("var_deg", math.nan))
    if variation:
        day = row.get("var_date", "")
        parts.append(tr("variation {}").format(variation) + (tr(" of {}").format(day) if day else ""))
    return ", ".join(parts)


class HoldList(NamedTuple):
    """Routes of the good holds (geometry.plan.hold_routes) with what is said of each hold, by its row."""

    routes: list
    holds: dict[int, Named]
    fixes: dict[int, str]


def read_holds(run, source, arrivals: list, within_nm: float, tolerance_m: float) -> list[HoldList]:
    """The good holds of a layer, batch by batch."""
    import numpy as np

    from ...geometry import plan, wmm2025
    from ...geometry.plan.hold_routes import hold_routes

    reader = holdrows.hold_reader(run, source, whole_rows=False, more_numbers=("var_deg",), more_texts=("var_date",))
    found = []
    for rows in run.batches(reader):
        # The true course is an essential, so no place depends on the year.
        made = plan.holds_from_columns(holdrows.hold_columns(rows), wmm2025.EPOCH)
        made.reasons[:] = np.where(rows.reasons != "", rows.reasons, made.reasons)
        for i in np.flatnonzero(made.reasons != "").tolist():
            made.reasons[i] = f"HOLDS: {made.reasons[i]}"
        rows.reasons[:] = ""
        good = run.settle(rows, made.reasons).tolist()
        routes = hold_routes(made, [line for _, line in arrivals], within_nm, tolerance_m)
        holds = {}
        for i in good:
            place, var = (float(made.holds.lon[i]), float(made.holds.lat[i])), float(rows["var_deg"][i])
            said = _hold_text(made.columns, i, var, rows["var_date"][i])
            holds[i] = Named("hold", rows["hold"][i], "", *place, said, var)
        found.append(HoldList(routes, holds, {i: rows["fix"][i] for i in good}))
    return found


def _hold_text(columns: dict, i: int, var_deg: float, day: str) -> str:
    """What is flown: inbound course, turns, altitude, speed."""
    from ...geometry import text as words

    true = float(columns["inbound_true_deg"][i])
    inbound = tr("inbound {} true").format(words.format_course(true))
    if math.isfinite(var_deg):
        inbound = tr("inbound {} magnetic (variation {}").format(
            words.format_course(true - var_deg), words.format_variation(var_deg)
        )
        inbound += (tr(" of {}").format(day) if day else "") + ")"
    parts = [
        inbound,
        tr("left turns") if columns["turn"][i] == "left" else tr("right turns"),
        words.format_altitude(columns["alt_ft"][i]),
        tr("{} kt IAS").format(f"{columns['ias_kt'][i]:.0f}"),
    ]
    return ", ".join(part for part in parts if part)


def read_areas(run, source, name_field: str | None) -> list[tuple[str, str, str, str, QgsGeometry]]:
    """(kind, name, tail of the name, description, polygons in WGS 84) of the good rows of a layer of polygons."""
    import numpy as np

    from ...geometry import text as words

    part, alt = ("part" if field_index(source.fields(), "part") >= 0 else None,
                 "alt_ft" if field_index(source.fields(), "alt_ft") >= 0 else None)  # fmt: skip
    reader = run.reader(source, numbers={"alt": alt}, texts={"name": name_field, "part": part}, whole_rows=False,
                        shapes=True)  # fmt: skip
    found = []
    for rows in run.batches(reader):
        shapes = [_in_wgs84(feature, reader.to_wgs84) for feature in rows.features]
        for i, shape in enumerate(shapes):
            if shape is None:
                rows.refuse(i, tr("the row has no polygon in WGS 84 longitude and latitude"))
        _say_layer(rows, "AREAS")
        names = rows.names("name", tr("area {}"))
        for i in run.settle(rows, np.full(len(rows), "", dtype=object)).tolist():
            feet = words.format_altitude(rows["alt"][i])
            tail = f" {rows['part'][i]}" if rows["part"][i] else ""
            found.append(("area", names[i], tail, tr("up to {}").format(feet) if feet else "", shapes[i]))
    return found


def _in_wgs84(feature, to_wgs84) -> QgsGeometry | None:
    """The polygons of a feature, oriented; None where there are none."""
    geometry = QgsGeometry(feature.geometry())
    try:
        if to_wgs84 is not None:
            geometry.transform(to_wgs84)
    except QgsCsException:
        return None
    return oriented(geometry)


def oriented(geometry: QgsGeometry) -> QgsGeometry | None:
    """Polygons with outer rings counter-clockwise and holes clockwise, closed; None where there is none on the globe.

    Source: RFC 7946, 3.1.6.
    """
    if geometry.isNull() or QgsWkbTypes.geometryType(geometry.wkbType()) != QgsWkbTypes.GeometryType.PolygonGeometry:
        return None
    polygons = geometry.asMultiPolygon() if geometry.isMultipart() else [geometry.asPolygon()]
    made = []
    for rings in polygons:
        turned = [_turned(ring, 1.0 if i == 0 else -1.0) for i, ring in enumerate(rings)]
        if turned and all(turned):
            made.append(turned)
        elif turned:
            return None
    return QgsGeometry.fromMultiPolygonXY(made) if made else None


def _turned(ring: list[QgsPointXY], wanted: float) -> list[QgsPointXY]:
    """A closed ring in a direction; [] for one that is none, or leaves the globe."""
    ring = [QgsPointXY(point) for point in ring]
    if ring and ring[0] != ring[-1]:
        ring.append(ring[0])
    # a hair beyond the meridian is on it
    on_globe = all(abs(point.x()) <= 180.0 + 1e-9 and abs(point.y()) <= 90.0 for point in ring)
    if len(ring) < 4 or not on_globe:
        return []
    ring = [QgsPointXY(max(-180.0, min(180.0, point.x())), point.y()) for point in ring]
    x0, y0 = ring[0].x(), ring[0].y()
    area = sum((a.x() - x0) * (b.y() - y0) - (b.x() - x0) * (a.y() - y0) for a, b in zip(ring, ring[1:]))
    return ring if area * wanted >= 0.0 else ring[::-1]


def rings_of(geometry: QgsGeometry) -> list[list[tuple[float, float]]]:
    """All rings of polygons as longitude and latitude."""
    return [[(p.x(), p.y()) for p in ring] for rings in geometry.asMultiPolygon() for ring in rings]


def _say_layer(rows, name: str) -> None:
    """Say of which layer a refused row is."""
    for i in (rows.reasons != "").nonzero()[0].tolist():
        rows.reasons[i] = f"{name}: {rows.reasons[i]}"


def on_globe(lon: float) -> float:
    from ...geometry.angles import wrap180

    return float(lon if -180.0 <= lon <= 180.0 else wrap180(lon))
