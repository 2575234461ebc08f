"""Fix rows along routes: from a vertex, from the start, abeam of a navaid."""

from __future__ import annotations

import numpy as np

from .. import geodesy
from ..fixes import Station
from ..routes import Route, RouteFixes
from .marking import FixRows, Naming, mark_route

STARTS = ("vertex", "start", "abeam")


def follow(
    station: Station,
    naming: Naming,
    routes: list[tuple[str, Route]],
    start: str,
    distance_nm,
    *,
    beyond,
    vertex,
    within_nm: float,
    alt_ft,
    year: float,
) -> FixRows:
    """Fixes of N points along routes, any number a point.

    Parameters: station, N points; routes, names and Routes; start, a word of STARTS: the vertex nearest to the
    point or the one of a number, the first vertex, or where the route passes abeam of the point; distance_nm, beyond
    (true, and from the start always: on in the direction of the route), vertex (1 for the first, NaN: the nearest),
    alt_ft, N each; within_nm, how far from the point the nearest vertex or the route abeam may be. Returns: FixRows
    with owner.
    Errors: ValueError for a word that is not in STARTS.
    """
    if start not in STARTS:
        raise ValueError(f"start is {start}; it must be one of {', '.join(STARTS)}")
    n = len(station.lon)
    forwards = np.broadcast_to(beyond, n) | (start == "start")
    signed = np.where(forwards, 1.0, -1.0) * np.broadcast_to(distance_nm, n)
    vertex = np.broadcast_to(np.asarray(vertex, dtype=np.float64), n)
    found: list[tuple[np.ndarray, RouteFixes, list[str]]] = []
    for name, route in routes:
        owner, place = _places(station, route, start, vertex, signed, within_nm)
        found.append((owner, place, [_name(naming.ident[i], name, start, vertex[i], signed[i]) for i in owner]))
    owner = np.concatenate([f[0] for f in found] + [np.zeros(0, dtype=np.int64)])
    order = np.argsort(owner, kind="stable")
    owner = owner[order]
    empty = Route([0.0, 1.0], [0.0, 0.0]).at(np.zeros(0))
    places = RouteFixes(*[np.concatenate(parts)[order] for parts in zip(empty, *[f[1] for f in found])])
    names = np.array([w for f in found for w in f[2]] + [""], dtype=object)[:-1][order]
    at = station.take(owner)
    own = Naming(np.asarray(naming.ident, dtype=object)[owner], naming.keys, naming.var_date)
    rows = mark_route(places, at, own, names, alt_ft=np.broadcast_to(alt_ft, n)[owner], year=year)
    return FixRows(rows.columns, rows.reasons, owner)


def _places(station: Station, route: Route, start: str, vertex, signed, within_nm: float):
    """Rows that a route counts for, and their places on it; a row may come several times."""
    rows = np.flatnonzero(np.isfinite(station.lon))
    if start == "start":
        return rows, route.at(signed[rows])
    if start == "abeam":
        owner, at, _ = route.abeam(station.lon[rows], station.lat[rows], within_nm)
        rows = rows[owner]
        return rows, route.at(at.from_start_nm + signed[rows])
    _, _, apart = geodesy.inverse(station.lon[rows, None], station.lat[rows, None], route.lon, route.lat)
    nearest = np.argmin(apart, axis=1)
    close = apart[np.arange(len(rows)), nearest] <= within_nm
    numbered = np.isfinite(vertex[rows])
    number = np.where(numbered, vertex[rows], route.number[nearest])
    use = numbered | close
    return rows[use], route.from_vertex(number[use], np.abs(signed[rows[use]]), signed[rows[use]] >= 0.0)


def _name(ident: str, route: str, start: str, vertex: float, signed_nm: float) -> str:
    side = "beyond" if signed_nm >= 0.0 else "before"
    if start == "start":
        return f"{route} {signed_nm:.1f} from its start"
    if start == "abeam":
        offset = "" if signed_nm == 0.0 else f" {abs(signed_nm):.1f} {side}"
        return f"abeam {ident} on {route}{offset}"
    if np.isfinite(vertex):
        return f"{route} {abs(signed_nm):.1f} {side} vertex {vertex:.0f}"
    return f"{ident} {abs(signed_nm):.1f} {side} on {route}"
