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
    point, the first vertex, or where the route passes abeam of the point; distance_nm, beyond (true: on in the
    direction of the route), vertex (1 for the first, NaN: the nearest), alt_ft, N each; within_nm, how far from
    the point the vertex or the route may be (from the start: anything). Returns: FixRows with owner.
    Errors: ValueError for a word that is not in STARTS.
    """
    if start not in STARTS:
        raise ValueError(f"start is {start}; it must be one of {', '.join(STARTS)}")
    n = len(station.lon)
    signed = np.where(np.broadcast_to(beyond, n), 1.0, -1.0) * np.broadcast_to(distance_nm, n)
    found: list[tuple[np.ndarray, RouteFixes, list[str]]] = []
    for name, route in routes:
        owner, base = _starts(station, route, start, np.broadcast_to(vertex, n), within_nm)
        keep = np.isfinite(base)
        owner, base = owner[keep], base[keep]
        words = [_name(naming.ident[i], name, start, signed[i]) for i in owner]
        found.append((owner, route.at(base + signed[owner]), words))
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


def _starts(station: Station, route: Route, start: str, vertex, within_nm: float):
    """Rows and the distance from the route's start at which their own distance begins; NaN where there is none."""
    n = len(station.lon)
    every = np.arange(n)
    if start == "start":
        return every, np.where(np.isfinite(station.lon), 0.0, np.nan)
    if start == "abeam":
        good = np.flatnonzero(np.isfinite(station.lon))
        owner, places, _ = route.abeam(station.lon[good], station.lat[good], within_nm)
        return good[owner], places.from_start_nm
    _, _, apart = geodesy.inverse(station.lon[:, None], station.lat[:, None], route.lon, route.lat)
    nearest = np.argmin(np.where(np.isfinite(apart), apart, np.inf), axis=1)
    close = apart[every, nearest] <= within_nm
    known = (vertex >= 1) & (vertex <= len(route.lon)) & (vertex == np.floor(vertex))
    chosen = np.where(np.isfinite(vertex), np.where(known, vertex - 1, 0), nearest).astype(np.int64)
    usable = np.where(np.isfinite(vertex), known, close) & np.isfinite(station.lon)
    return every, np.where(usable, route.start_nm[chosen], np.nan)


def _name(ident: str, route: str, start: str, signed_nm: float) -> str:
    side = "beyond" if signed_nm >= 0.0 else "before"
    if start == "start":
        return f"{route} {signed_nm:.1f} from its start"
    if start == "abeam":
        offset = "" if signed_nm == 0.0 else f" {abs(signed_nm):.1f} {side}"
        return f"abeam {ident} on {route}{offset}"
    return f"{ident} {abs(signed_nm):.1f} {side} on {route}"
