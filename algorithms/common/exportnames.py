"""Fixes, holds and areas as the places, routes and shapes of a file, with names that fit."""

from __future__ import annotations

import math

from qgis.core import QgsGeometry

from .exportrows import HoldList, Named, on_globe, oriented, rings_of
from .safecells import safe
from .texts import tr
from .waypointfiles import Place, Shape, Way

SAME_PLACE_DEG = 1e-5
"""A hold's fix this near to the fix of its name, to the north and to the east, is that fix: a metre."""
TAILS = {"outbound": " OUT", "outbound end": " END", "inbound": " IN"}
"""Ends of the names of a pattern's corners: start of the outbound leg, its end, start of the inbound leg."""


class Namer:
    """Gives names to places, routes and shapes, each kind apart, and keeps what was changed.

    table: they stand in cells that a spreadsheet opens, so that the mark of safe() counts among their characters.
    """

    def __init__(self, length: int | None, characters: str, table: bool = False):
        self.length, self.characters, self.table = length, characters, table
        self.renamed: dict[str, list[str]] = {"what": [], "name": [], "written": [], "text": []}

    def names(self, kinds, stems, tails) -> list[str]:
        """Names as written, one for each."""
        from ...geometry.waypoint_names import clean, letters_figures, unique_names

        otherwise = [letters_figures(kind)[:5] for kind in kinds]
        given = [safe(clean(stem)) for stem in stems] if self.table and self.characters == "any" else stems
        made = unique_names(given, tails, length=self.length, characters=self.characters, otherwise=otherwise)
        for kind, stem, tail, written, change in zip(kinds, stems, tails, made.written, made.changes):
            if written != stem + tail:
                change = change or tr("a spreadsheet would take it for a formula")
                for column, value in zip(self.renamed.values(), (kind, stem + tail, written, change)):
                    column.append(value)
        return made.written


def assemble(waypoints, fixes: list[Named], holds: list[HoldList], arrivals: list, areas: list, namer: Namer) -> None:
    """Fill a Waypoints with everything, named.

    arrivals, (name, Route) by the number that the routes of holds have.
    """
    from ...geometry import wkb
    from ...geometry.waypoint_names import clean

    wanted: list[Named] = list(fixes)
    by_key: dict[str, int] = {}
    for i, one in enumerate(fixes):
        by_key.setdefault(one.full, i)
    places: dict[tuple, int] = {}
    plans: list[tuple[HoldList, object, list[int]]] = []
    for batch in holds:
        for route in batch.routes:
            plans.append((batch, route, _places_of(batch, route, arrivals, wanted, by_key, places)))
    written = namer.names(*zip(*[(one.kind, one.full, one.tail) for one in wanted])) if wanted else []
    made = [
        Place(name, clean(one.full + one.tail), one.kind, one.lon, one.lat, clean(one.text), one.var_deg)
        for name, one in zip(written, wanted)
    ]
    waypoints.places = [place for place in made if place.kind == "fix"]
    _add_routes(waypoints, plans, arrivals, made, namer, wkb)
    _add_shapes(waypoints, plans, areas, namer)


def _places_of(batch: HoldList, route, arrivals, wanted, by_key, places) -> list[int]:
    """Where the places of a route stand in the list of all that get names; new ones are added to it."""
    hold = batch.holds[route.hold]
    index = []
    for order, what in enumerate(route.what):
        lon, lat = on_globe(route.lon[order]), float(route.lat[order])
        if what == "fix":
            index.append(_fix_of(batch.fixes[route.hold] or hold.full, hold, wanted, by_key, places))
            continue
        if what == "arrival":
            key = (what, route.arrival, order)
            new = Named(what, arrivals[route.arrival][0], f" {order + 1}", lon, lat, "", math.nan)
        else:
            key = (what, hold.full)
            new = Named(what, hold.full, TAILS[what], lon, lat, "", math.nan)
        if key not in places:
            places[key] = len(wanted)
            wanted.append(new)
        index.append(places[key])
    return index


def _fix_of(name: str, hold: Named, wanted, by_key, places) -> int:
    """The fix of a hold: the one of its name where it lies there, else a place of its own."""
    at = by_key.get(name)
    if at is not None:
        east = abs((wanted[at].lon - hold.lon + 180.0) % 360.0 - 180.0) * math.cos(math.radians(hold.lat))
        if max(east, abs(wanted[at].lat - hold.lat)) <= SAME_PLACE_DEG:
            return at
    key = ("fix", name, round(hold.lon, 6), round(hold.lat, 6))
    if key not in places:
        places[key] = len(wanted)
        wanted.append(Named("fix", name, "", on_globe(hold.lon), hold.lat, "", hold.var_deg))
    return places[key]


def _add_routes(waypoints, plans, arrivals, made: list[Place], namer: Namer, wkb) -> None:
    import numpy as np

    from ...geometry.waypoint_names import clean

    if not plans:
        return
    full = [batch.holds[route.hold].full for batch, route, _ in plans]
    full = [f"{hold} {arrivals[r.arrival][0]}" if r.arrival >= 0 else hold for hold, (_, r, _) in zip(full, plans)]
    offsets = np.cumsum([0, *[len(route.line) for _, route, _ in plans]])
    coords = np.concatenate([_begun_on_globe(route.line) for _, route, _ in plans])
    lines = wkb.multilines(coords, offsets)
    names = namer.names(["route"] * len(plans), full, [""] * len(plans))
    for (batch, route, index), name, whole, line in zip(plans, names, full, lines):
        said = batch.holds[route.hold].text
        waypoints.ways.append(Way(name, clean(whole), clean(said), [made[i] for i in index], line))


def _begun_on_globe(line):
    """A line moved by whole turns so that it begins on the globe."""
    import numpy as np

    return line - np.array([360.0 * math.floor((line[0, 0] + 180.0) / 360.0), 0.0])


def _add_shapes(waypoints, plans, areas: list, namer: Namer) -> None:
    """The patterns of the holds, each once, and the areas."""
    import numpy as np

    from ...geometry import wkb
    from ...geometry.waypoint_names import clean

    rows = []
    seen: set[str] = set()
    for batch, route, _ in plans:
        hold = batch.holds[route.hold]
        if hold.full in seen:
            continue
        seen.add(hold.full)
        ring = _begun_on_globe(route.ring)
        geometry = QgsGeometry()
        geometry.fromWkb(wkb.multipolygons(ring, np.array([0, len(ring)]))[0])
        rows.append(("pattern", hold.full, "", hold.text, oriented(geometry)))
    rows += areas
    if not rows:
        return
    names = namer.names(*zip(*[row[:3] for row in rows]))
    for name, (kind, full, tail, said, geometry) in zip(names, rows):
        blob = geometry.asWkb().data()
        waypoints.shapes.append(Shape(name, clean(full + tail), kind, clean(said), blob, rings_of(geometry)))
