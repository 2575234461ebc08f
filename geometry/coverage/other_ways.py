"""Other ways to define a fix, by stations that can be received there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from .. import geodesy, navaids, text
from ..angles import cosd, cut_angle, wrap180, wrap360
from ..cones import cone_radius_nm, dme_overhead_nm
from ..fixes import SAME_PLACE_NM, Station
from ..flight import FAA, ICAO
from ..magnetism import declination_deg
from .cuts import least_cut_deg
from .errors import crossing_error_nm, radial_distance_error_nm
from .sight import sight_over_ground_nm
from .volumes import UNKNOWN_CLASS_NM, radius_of_keys_nm, volume_keys

METHODS = ("radial_distance", "crossing")


class Accuracy(NamedTuple):
    """Accuracies of M stations: degrees giving track, degrees crossing, and the DME's NM of a slant range."""

    track_deg: np.ndarray
    cross_deg: np.ndarray
    dme_nm: Callable[[np.ndarray], np.ndarray]


class Alternatives(NamedTuple):
    """Other ways to define fixes, best first for each fix.

    fix, index of the fix; rank from 1; method, codes of METHODS; first, index of the station that gives the
    track; second, of the crossing one, -1 where radial and distance come from one station; radial_deg and
    radial_2_deg as read (an NDB: the bearing from it by today's variation at the fix); dist_nm, dist_2_nm along
    the ground; dme_nm, slant; cut_deg (90 for radial and distance); error_nm, see alternatives; text.
    """

    fix: np.ndarray
    rank: np.ndarray
    method: np.ndarray
    first: np.ndarray
    second: np.ndarray
    radial_deg: np.ndarray
    dist_nm: np.ndarray
    dme_nm: np.ndarray
    radial_2_deg: np.ndarray
    dist_2_nm: np.ndarray
    cut_deg: np.ndarray
    error_nm: np.ndarray
    text: np.ndarray


def alternatives(
    lon,
    lat,
    alt_ft,
    stations: Station,
    accuracy: Accuracy,
    *,
    ident="",
    classes="",
    in_service=True,
    rules: int = ICAO,
    count: int = 5,
    within_nm: float = 130.0,
    year: float,
) -> Alternatives:
    """Other ways to define fixes by stations that can be received there, the most accurate first.

    Radial and distance of one station, and crossings of two radials or bearings with enough cut. A station
    counts where it is in service, in its service volume (unknown class: UNKNOWN_CLASS_NM), in line of sight
    over flat ground (VHF), not overhead, and where what is needed is known: the declination of a radial, the
    elevation of a VHF aid. Terrain is not looked at. The error is radial_distance_error_nm or
    crossing_error_nm, of the two ways to share out track and crossing the better one.
    Parameters: lon, lat, alt_ft of N fixes; stations, M rows; accuracy, M rows; ident, classes, in_service, M
    or one; rules, a code of RULES; count >= 1, most ways for a fix; within_nm > 0; year of the variation.
    Returns: Alternatives. Errors: ValueError for rules or count out of range, or a year outside the model.
    Source: VOLUMES, NDB_VOLUMES, LEAST_CUTS, CONES; the estimate of the error is derived here.
    """
    if rules not in (ICAO, FAA):
        raise ValueError(f"rules is {rules}; it must be 0 (icao) or 1 (faa)")
    if count < 1:
        raise ValueError(f"count is {count}; it must be at least 1")
    lon, lat, alt = np.broadcast_arrays(*[np.atleast_1d(np.asarray(a, dtype=np.float64)) for a in (lon, lat, alt_ft)])
    aids = _Aids.of(stations, accuracy, ident, classes, in_service)
    var = declination_deg(lon, lat, year=year)
    found = [_ways(lon[i], lat[i], alt[i], var[i], aids, rules, count, within_nm) for i in range(len(lon))]
    fix = np.repeat(np.arange(len(lon)), [len(ways[0]) for ways in found])
    columns = [np.concatenate(values) for values in zip(*found)] if found else [np.empty(0)] * 10
    rank = np.concatenate([np.arange(1, len(ways[0]) + 1) for ways in found]) if found else np.empty(0)
    method, first, second = (values.astype(np.int64) for values in columns[:3])
    texts = _sentences(aids, method, first, second, *columns[3:])
    return Alternatives(fix, rank.astype(np.int64), method, first, second, *columns[3:], texts)


@dataclass(frozen=True)
class _Aids:
    """Stations that can define a fix at all, and their rows in the caller's table."""

    row: np.ndarray
    station: Station
    ident: np.ndarray
    volume: np.ndarray
    dme_volume: np.ndarray
    track_deg: np.ndarray
    cross_deg: np.ndarray
    dme_nm: Callable[[np.ndarray], np.ndarray]

    @classmethod
    def of(cls, stations: Station, accuracy: Accuracy, ident, classes, in_service) -> _Aids:
        m = len(stations.lon)
        names, written = (np.broadcast_to(np.asarray(a, dtype=object), m) for a in (ident, classes))
        working = np.broadcast_to(np.asarray(in_service, dtype=bool), m)
        useful = navaids.gives_radials(stations.kind) | navaids.gives_bearings(stations.kind)
        row = np.flatnonzero(working & useful & np.isfinite(stations.lon) & np.isfinite(stations.lat))
        track, cross = (np.broadcast_to(np.asarray(a, float), m)[row] for a in (accuracy.track_deg, accuracy.cross_deg))
        at, written = stations.take(row), written[row]
        volumes = [volume_keys(written, at.kind, np.full(len(row), of_dme)) for of_dme in (False, True)]
        return cls(row, at, names[row], *volumes, track, cross, accuracy.dme_nm)


def _ways(lon, lat, alt, var, aids: _Aids, rules: int, count: int, within_nm: float) -> list[np.ndarray]:
    """Columns of the best ways for one fix, in the order of Alternatives from method to error_nm."""
    near = np.flatnonzero(_roughly_within(lon, lat, aids.station, within_nm))
    at = aids.station.take(near)
    towards, at_station, dist = geodesy.inverse(lon, lat, at.lon, at.lat)
    volumes = aids.volume[near], aids.dme_volume[near]
    azimuth_ok, distance_ok, dme_ground = _usable(lon, lat, alt, at, *volumes, dist, within_nm)
    beacon = navaids.gives_bearings(at.kind)
    radial = wrap360(np.where(beacon, towards + 180.0 - var, at_station + 180.0 - at.decl_deg))
    slant = navaids.slant_from_ground_nm(dme_ground, navaids.height_nm(alt, at.dme_elev_ft))

    one = np.flatnonzero(azimuth_ok & distance_ok)
    error = radial_distance_error_nm(dist[one], aids.track_deg[near[one]], aids.dme_nm(slant[one]))
    blank, none, square = (np.full(len(one), value) for value in (np.nan, -1.0, 90.0))
    by_distance = [np.zeros(len(one)), one, none, radial[one], dist[one], slant[one], blank, blank, square, error]

    able = np.flatnonzero(azimuth_ok)
    i, j = (able[k] for k in np.triu_indices(len(able), 1))
    cut = cut_angle(towards[i], towards[j])
    shared = [_shared(a, b, cut, at.kind, dist, aids, near, rules) for a, b in ((i, j), (j, i))]
    swap = shared[1] < shared[0]
    error = np.where(swap, shared[1], shared[0])
    good = np.isfinite(error)
    a, b, cut, error = np.where(swap, j, i)[good], np.where(swap, i, j)[good], cut[good], error[good]
    with_dme = np.where(distance_ok[a], slant[a], np.nan)
    crossing = [np.ones(len(a)), a, b, radial[a], dist[a], with_dme, radial[b], dist[b], cut, error]

    columns = [np.concatenate(values) for values in zip(by_distance, crossing)]
    order = np.lexsort((columns[2], columns[1], columns[0], columns[9]))[:count]
    columns = [values[order] for values in columns]
    station = aids.row[near]
    columns[1] = station[columns[1].astype(np.int64)]
    second = columns[2].astype(np.int64)
    columns[2] = np.where(second < 0, -1, station[np.maximum(second, 0)]) if len(station) else second
    return columns


def _roughly_within(lon, lat, at: Station, within_nm: float) -> np.ndarray:
    """Stations that may lie within a distance: a band of latitude, and of longitude away from the poles."""
    band = within_nm / 59.5
    with np.errstate(invalid="ignore"):
        high = min(abs(float(lat)) + band, 90.0) if np.isfinite(lat) else 90.0
        width = band / cosd(high) if high < 89.0 else 360.0
        return (np.abs(at.lat - lat) <= band) & (np.abs(wrap180(at.lon - lon)) <= width)


def _usable(lon, lat, alt, at: Station, volume, dme_volume, dist, within_nm: float):
    """Where the bearing, where the distance of stations can be used at a fix, and the ground distance of the DME."""
    radials, beacon = navaids.gives_radials(at.kind), navaids.gives_bearings(at.kind)
    dme = geodesy.inverse(lon, lat, at.dme_lon, at.dme_lat)[2]
    # of a beacon without elevation the lowest is taken, which makes its cone the widest
    height = alt - np.where(beacon & np.isnan(at.elev_ft), 0.0, at.elev_ft)
    dme_height = alt - at.dme_elev_ft
    vhf = UNKNOWN_CLASS_NM["vhf"].radius_nm
    unknown = np.where(beacon, UNKNOWN_CLASS_NM["ndb"].radius_nm, vhf)
    reach = np.where(volume == "", unknown, radius_of_keys_nm(volume, height))
    dme_reach = np.where(dme_volume == "", vhf, radius_of_keys_nm(dme_volume, dme_height))
    overhead = np.where(at.kind == "TACAN", dme_overhead_nm(dme_height), cone_radius_nm(height, at.kind))
    aligned = beacon | (radials & np.isfinite(at.decl_deg))
    with np.errstate(invalid="ignore"):
        sight = beacon | (dist <= sight_over_ground_nm(at.elev_ft, at.elev_ft, alt))
        azimuth_ok = (
            aligned & sight & (dist >= np.maximum(overhead, SAME_PLACE_NM)) & (dist <= np.minimum(reach, within_nm))
        )
        distance_ok = (
            navaids.gives_range(at.kind)
            & (dme <= sight_over_ground_nm(at.dme_elev_ft, at.dme_elev_ft, alt))
            & (dme >= dme_overhead_nm(dme_height))
            & (dme <= np.minimum(dme_reach, within_nm))
        )
    return azimuth_ok, distance_ok, dme


def _shared(track, cross, cut, kind, dist, aids: _Aids, near, rules: int) -> np.ndarray:
    """Errors of crossings with the first station giving track; inf where the cut is too shallow."""
    least = least_cut_deg(kind[track], kind[cross], dist[cross], rules)
    error = crossing_error_nm(dist[track], aids.track_deg[near[track]], dist[cross], aids.cross_deg[near[cross]], cut)
    with np.errstate(invalid="ignore"):
        return np.where((cut >= least) & np.isfinite(error), error, np.inf)


def _sentences(aids: _Aids, method, first, second, radial, dist, dme, radial_2, dist_2, cut, error) -> np.ndarray:
    place = {int(row): k for k, row in enumerate(aids.row)}
    beacon = navaids.gives_bearings(aids.station.kind)

    def line(row: int, deg: float) -> str:
        k = place[int(row)]
        word = "bearing" if beacon[k] else "radial"
        return f"{word} {text.format_course(deg)} of {aids.ident[k] or 'a station'}"

    out = np.empty(len(method), dtype=object)
    for i in range(len(method)):
        off = f"about {text.format_nm(error[i])} either way"
        if method[i] == 0:
            out[i] = f"{line(first[i], radial[i])} at DME {dme[i]:.1f}: {off}"
        else:
            cross = line(second[i], radial_2[i])
            out[i] = f"{line(first[i], radial[i])} and {cross}, cutting at {cut[i]:.0f} degrees: {off}"
    return out
