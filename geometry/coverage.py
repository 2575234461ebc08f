"""Can a fix be received? Service volumes, line of sight, terrain, the cone overhead, cut angles, and what else
could define the fix.

A pair is a fix and a station that defines it. Nothing here promises reception: volumes do not allow for
terrain, terrain data do not know masts and trees, and a station may be restricted by notice.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from . import geodesy, navaids, reasons, text
from .angles import cosd, sind, wrap180, wrap360
from .cones import CONES, NO_CONE, cone_radius_nm, dme_overhead_nm
from .fixes import SAME_PLACE_NM, Station
from .flight import RULES
from .geodesy import MEAN_RADIUS_M
from .magnetism import declination_deg
from .units import FT_M, NM_M

ICAO, FAA = range(2)
PUBLISHED, FROM_MEMORY, CHOSEN_HERE = "published", "from memory", "chosen here"


class Volume(NamedTuple):
    """A band of heights above the transmitter and the radius in it; radius NaN: the line-of-sight distance.

    Mark: 'published' (read in the document or a text that quotes it) or 'from memory'.
    """

    low_ft: float
    low_included: bool
    high_ft: float
    high_included: bool
    radius_nm: float
    mark: str
    source: str


_AIM = "FAA AIM 1-1-8 TBL 1-1-1"
VOLUMES = {
    "T": (Volume(1_000.0, True, 12_000.0, True, 25.0, PUBLISHED, _AIM),),
    "L": (Volume(1_000.0, True, 18_000.0, True, 40.0, PUBLISHED, _AIM),),
    "H": (
        Volume(1_000.0, True, 14_500.0, True, 40.0, PUBLISHED, _AIM),
        Volume(14_500.0, False, 60_000.0, True, 100.0, PUBLISHED, _AIM),
        Volume(18_000.0, True, 45_000.0, True, 130.0, PUBLISHED, _AIM),
    ),
    "VL": (
        Volume(1_000.0, True, 5_000.0, False, 40.0, PUBLISHED, _AIM),
        Volume(5_000.0, True, 18_000.0, False, 70.0, PUBLISHED, _AIM),
    ),
    "VH": (
        Volume(1_000.0, True, 5_000.0, False, 40.0, PUBLISHED, _AIM),
        Volume(5_000.0, True, 14_500.0, False, 70.0, PUBLISHED, _AIM),
        Volume(14_500.0, True, 60_000.0, True, 100.0, PUBLISHED, _AIM),
        Volume(18_000.0, True, 45_000.0, True, 130.0, PUBLISHED, _AIM),
    ),
    "DL": (
        Volume(0.0, True, 12_900.0, False, np.nan, FROM_MEMORY, _AIM),
        Volume(12_900.0, True, 18_000.0, False, 130.0, FROM_MEMORY, _AIM),
    ),
    "DH": (
        Volume(0.0, True, 12_900.0, False, np.nan, FROM_MEMORY, _AIM),
        Volume(12_900.0, True, 60_000.0, True, 100.0, FROM_MEMORY, _AIM),
        Volume(12_900.0, True, 45_000.0, True, 130.0, FROM_MEMORY, _AIM),
    ),
}
"""Standard service volumes, VOR, TACAN azimuth and DME. Where bands overlap the greatest radius holds; where the
text gives a height to two bands (H at 14 500 ft) the lower band, with the shorter radius, has it. Below the lowest
band the volume is a curve of the document's figures, which is not held here."""


class Radius(NamedTuple):
    """Radius of an NDB's service volume, the same at all heights."""

    radius_nm: float
    mark: str
    source: str


_NDB = "FAA AIM 1-1-8 TBL 1-1-2"
NDB_VOLUMES = {
    "COMPASS LOCATOR": Radius(15.0, PUBLISHED, _NDB),
    "MH": Radius(25.0, PUBLISHED, _NDB),
    "H": Radius(50.0, PUBLISHED, _NDB + "; that of a single beacon may be less"),
    "HH": Radius(75.0, PUBLISHED, _NDB),
}
_LOCATORS = {"LOCATOR", "LOM", "LMM", "COMPASS"}
_WITH_KIND = re.compile(r"(VL|VH|DL|DH|T|L|H)(?:VORTAC|VOR|DME|TACAN)")

UNKNOWN_CLASS_NM = {
    "vhf": Radius(40.0, CHOSEN_HERE, "the radius that classes L, H, VL and VH share from 1 000 ft up"),
    "ndb": Radius(25.0, CHOSEN_HERE, "the radius of class MH"),
}
"""How far a station of unknown class is offered as another way to define a fix."""

LINE_OF_SIGHT_FACTOR, LINE_OF_SIGHT_SOURCE = 1.23, "ICAO Doc 8168 Vol II, 5th ed., III-1-3-App-3 (worked example)"
"""The rule 1.23 sqrt(h), NM and feet."""
EFFECTIVE_RADIUS_M = 4.0 / 3.0 * MEAN_RADIUS_M
EFFECTIVE_RADIUS_SOURCE = "rays bend so that the earth seems 4/3 as large: common practice, from memory"


class LeastCut(NamedTuple):
    """Least angle between two lines of position; more by per_nm degrees for each NM of the crossing aid beyond."""

    deg: float
    beyond_nm: float
    per_nm: float
    mark: str
    source: str


_I2 = "ICAO Doc 8168 Vol II, Part I, Section 2, Chapter 2"
_287 = "FAA Order 8260.3B para 287 b"
LEAST_CUTS = {
    ("icao", "radials"): LeastCut(30.0, np.inf, 0.0, FROM_MEMORY, _I2),
    ("icao", "ndb"): LeastCut(45.0, np.inf, 0.0, FROM_MEMORY, _I2),
    ("icao", "radial and arc"): LeastCut(67.0, np.inf, 0.0, FROM_MEMORY, _I2 + ": line to the DME within 23 degrees"),
    ("faa", "radials"): LeastCut(45.0, 45.0, 0.5, FROM_MEMORY, _287),
    ("faa", "ndb"): LeastCut(45.0, 30.0, 1.0, FROM_MEMORY, _287),
    ("faa", "radial and arc"): LeastCut(67.0, np.inf, 0.0, FROM_MEMORY, "FAA Order 8260.3B, DME within 23 degrees"),
}
"""'ndb' holds where either aid (icao) or the crossing aid (faa) is an NDB. None is known for two arcs."""

TESTS = (
    "status", "service_volume", "service_volume_dme", "line_of_sight", "terrain", "cone", "dme_overhead", "cut_angle"
)  # fmt: skip
METHODS = ("radial_distance", "crossing")


@dataclass(frozen=True)
class Pairs:
    """Fixes and the stations that define them, N pairs: degrees, feet.

    classes: text such as 'VH', 'VL/DH' (the bearing's and the DME's), an NDB's 'MH'. azimuth and distance: what
    of the station is read at the fix. dist_nm from the navaid's site, dme_nm from the DME's, along the ground.
    """

    lon: np.ndarray
    lat: np.ndarray
    alt_ft: np.ndarray
    station: Station
    ident: np.ndarray
    classes: np.ndarray
    in_service: np.ndarray
    azimuth: np.ndarray
    distance: np.ndarray
    dist_nm: np.ndarray
    dme_nm: np.ndarray

    @classmethod
    def of(
        cls, lon, lat, alt_ft, station: Station, *, ident="", classes="", in_service=True, azimuth=True, distance=False
    ) -> Pairs:
        """Pairs from anything that broadcasts to the station's N rows; what a kind does not give is not read."""
        n = len(station.lon)
        lon, lat, alt = (np.broadcast_to(np.asarray(a, dtype=np.float64), n) for a in (lon, lat, alt_ft))
        ident, classes = (np.broadcast_to(np.asarray(a, dtype=object), n) for a in (ident, classes))
        working, azimuth, distance = (np.broadcast_to(np.asarray(a, bool), n) for a in (in_service, azimuth, distance))
        azimuth = azimuth & (navaids.gives_radials(station.kind) | navaids.gives_bearings(station.kind))
        distance = distance & navaids.gives_range(station.kind)
        dist = geodesy.inverse(lon, lat, station.lon, station.lat)[2]
        dme = geodesy.inverse(lon, lat, station.dme_lon, station.dme_lat)[2]
        return cls(lon, lat, alt, station, ident, classes, working, azimuth, distance, dist, dme)


class Profile(NamedTuple):
    """Places along geodesics, (N, K) each, padded with NaN: distance from the first end, longitude, latitude."""

    dist_nm: np.ndarray
    lon: np.ndarray
    lat: np.ndarray


class Clearance(NamedTuple):
    """How rays clear the terrain, N rows.

    margin_ft: the smallest height of the ray above known terrain, negative where terrain stands above it, NaN
    where nothing is known or nothing lies between; at_nm from the station, where that is; needed_ft: the least
    altitude at the fix whose ray clears all known terrain; missing, samples: how many places were asked for
    terrain, and how many had none; code: NO_TERRAIN where terrain is missing and no known terrain is in the way.
    """

    margin_ft: np.ndarray
    at_nm: np.ndarray
    needed_ft: np.ndarray
    missing: np.ndarray
    samples: np.ndarray
    code: np.ndarray

    @property
    def clear(self) -> np.ndarray:
        """True where the whole profile is known and the ray is nowhere below the terrain."""
        return (self.code == reasons.OK) & ~(self.margin_ft < 0.0)


class Cut(NamedTuple):
    """Cut angles of N pairs with a second line of position; deg NaN where there is none.

    other_kind, kind of the other station, which counts as the crossing one; other_nm, its distance; other_arc,
    true where the other line is a DME arc.
    """

    deg: np.ndarray
    other_kind: np.ndarray
    other_nm: np.ndarray
    other_arc: np.ndarray


class Tests(NamedTuple):
    """Rows of the tests layer, pair by pair.

    pair, index of the pair; test, one of TESTS; ok; known, false where a figure is missing and the test could
    not be made (ok is false too: nothing passes unseen); value and limit_value in unit; source; text.
    """

    pair: np.ndarray
    test: np.ndarray
    ok: np.ndarray
    known: np.ndarray
    value: np.ndarray
    limit_value: np.ndarray
    unit: np.ndarray
    source: np.ndarray
    text: np.ndarray


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


def service_volume_nm(classes, height_above_transmitter_ft, kinds="", distance=False) -> np.ndarray:
    """Radius of the standard service volume at a height above the transmitter.

    Parameters: classes, text: T, L, H, VL, VH, DL, DH, also before a kind (HVORTAC) or two of them, bearing and
    DME (VL/DH); an NDB's: MH, H, HH, compass locator, a W (no voice) behind them; height in feet; kinds of
    navaids.KINDS, by which an NDB's H is told from a VOR's ('': a VOR's); distance, true for the DME's volume.
    They broadcast. Returns: NM, 0 below and above the class's heights, NaN for an unknown class or no height
    (an NDB's needs none). Source: VOLUMES, NDB_VOLUMES.

    >>> service_volume_nm(["T", "H", "VL/DH"], [12_000.0, 18_000.0, 4_999.0]).tolist()
    [25.0, 130.0, 40.0]
    """
    classes, height, kinds, distance = np.broadcast_arrays(
        np.asarray(classes, dtype=object),
        np.asarray(height_above_transmitter_ft, dtype=np.float64),
        np.asarray(kinds, dtype=object),
        np.asarray(distance, dtype=bool),
    )
    return _radius_of_keys_nm(_volume_keys(classes, kinds, distance), height)


def _radius_of_keys_nm(keys: np.ndarray, height: np.ndarray) -> np.ndarray:
    out = np.full(height.shape, np.nan)
    for key in sorted(set(keys.ravel())):
        rows = keys == key
        if key[:4] == "NDB ":
            out[rows] = NDB_VOLUMES[key[4:]].radius_nm
        elif key:
            out[rows] = _radius_nm(VOLUMES[key], height[rows])
    return out


def _radius_nm(bands: tuple[Volume, ...], height_ft: np.ndarray) -> np.ndarray:
    out = np.where(np.isfinite(height_ft), 0.0, np.nan)
    sight = line_of_sight_nm(height_ft, 0.0)
    with np.errstate(invalid="ignore"):
        for band in bands:
            above = height_ft >= band.low_ft if band.low_included else height_ft > band.low_ft
            below = height_ft <= band.high_ft if band.high_included else height_ft < band.high_ft
            radius = sight if np.isnan(band.radius_nm) else band.radius_nm
            out = np.where(above & below, np.maximum(out, radius), out)
    return out


def _volume_keys(classes: np.ndarray, kinds: np.ndarray, distance: np.ndarray) -> np.ndarray:
    """Key of VOLUMES, 'NDB ' and key of NDB_VOLUMES, or '' for each row."""
    known: dict[tuple, str] = {}
    flat = []
    for row in zip(classes.ravel(), kinds.ravel(), distance.ravel()):
        if row not in known:
            known[row] = _volume_key(*row)
        flat.append(known[row])
    out = np.empty(classes.size, dtype=object)
    out[:] = flat
    return out.reshape(classes.shape)


def _volume_key(written, kind: str, distance: bool) -> str:
    words = re.findall("[A-Z]+", str(written or "").upper())
    matches = [_WITH_KIND.fullmatch(word) for word in words]
    found = [match[1] if match else word for word, match in zip(words, matches)]
    bearing = [word for word in found if word in ("T", "L", "H", "VL", "VH")]
    range_only = [word for word in found if word in ("DL", "DH")]
    beacon = kind in ("NDB", "NDB/DME")  # the class given is the beacon's own, not that of its DME
    distance = distance or kind == "DME"
    if not beacon and bearing and not (distance and range_only):
        return bearing[0]
    if range_only and (distance or not kind):
        return range_only[0]
    if not kind or (beacon and not distance):
        names = {"COMPASS LOCATOR" if word in _LOCATORS else re.sub("W$", "", word) for word in words}
        known = names & set(NDB_VOLUMES)
        if known:
            return "NDB " + min(known, key=lambda name: NDB_VOLUMES[name].radius_nm)
    return ""


def line_of_sight_nm(height_1_ft, height_2_ft) -> np.ndarray:
    """Farthest two antennas see each other over a smooth earth of 4/3 its radius.

    sqrt(2 a) (sqrt(h1) + sqrt(h2)). Parameters: heights above the surface between, feet, below 0 taken as 0;
    they broadcast. Returns: NM. NaN in, NaN out. Source: EFFECTIVE_RADIUS_SOURCE.

    >>> round(float(line_of_sight_nm(10_000.0, 0.0)), 2)
    122.87
    """
    h1, h2 = (np.maximum(np.asarray(h, dtype=np.float64), 0.0) for h in (height_1_ft, height_2_ft))
    return np.sqrt(2.0 * EFFECTIVE_RADIUS_M * FT_M) / NM_M * (np.sqrt(h1) + np.sqrt(h2))


def line_of_sight_rule_nm(height_1_ft, height_2_ft) -> np.ndarray:
    """The same by the rounded rule, 1.23 (sqrt(h1) + sqrt(h2)). Source: LINE_OF_SIGHT_SOURCE.

    >>> round(float(line_of_sight_rule_nm(10_000.0, 0.0)), 6)
    123.0
    """
    h1, h2 = (np.maximum(np.asarray(h, dtype=np.float64), 0.0) for h in (height_1_ft, height_2_ft))
    return LINE_OF_SIGHT_FACTOR * (np.sqrt(h1) + np.sqrt(h2))


def profile_points(lon1, lat1, lon2, lat2, step_nm: float) -> Profile:
    """Places at which terrain is asked for, from stations (1) to fixes (2), both ends included.

    Evenly spaced on the geodesic, no farther apart than the step. Parameters: degrees, N rows or what
    broadcasts; step_nm > 0, no more than half a cell of the terrain.
    Returns: Profile (N, K), K that of the longest row. A row with NaN is all NaN.
    Errors: ValueError for a step that is not positive. Source: geodesics as geodesy.direct.

    >>> profile_points(10.0, 50.0, 10.0, 50.1, 2.0).dist_nm.round(3).tolist()
    [[0.0, 1.501, 3.003, 4.504, 6.006]]
    """
    if not (np.isfinite(step_nm) and step_nm > 0.0):
        raise ValueError(f"step_nm is {step_nm}; it must be a positive number of NM")
    ends = [np.atleast_1d(np.asarray(a, dtype=np.float64)) for a in (lon1, lat1, lon2, lat2)]
    lon1, lat1, lon2, lat2 = np.broadcast_arrays(*ends)
    course, _, total = geodesy.inverse(lon1, lat1, lon2, lat2)
    known = np.isfinite(total)
    pieces = np.maximum(np.ceil(np.where(known, total, 0.0) / step_nm - 1e-9), 1.0)
    k = np.arange(int(pieces.max(initial=1.0)) + 1)
    share = np.where(known[:, np.newaxis] & (k <= pieces[:, np.newaxis]), k / pieces[:, np.newaxis], np.nan)
    dist = share * total[:, np.newaxis]
    lon, lat, _ = geodesy.direct(lon1[:, np.newaxis], lat1[:, np.newaxis], course[:, np.newaxis], dist)
    return Profile(dist, lon, lat)


def profile_clearance(dist_nm, terrain_ft, total_nm, station_ft, aircraft_ft, own_cell_nm=0.0) -> Clearance:
    """How the ray from a station's antenna to an aircraft clears sampled terrain.

    At x of d the ray is at z1 + (z2 - z1) x / d - x (d - x) / (2 a), a being 4/3 of the earth's radius.
    Parameters: dist_nm (N, K) from the station, NaN where the row is padded; terrain_ft (N, K) of the highest
    cell each sample touches, NaN where there is no data; total_nm d > 0, station_ft the antenna above sea
    level, aircraft_ft, (N,) or what broadcasts; own_cell_nm: samples no farther than that from the station are
    left out, since its own cell (one diagonal) is no obstacle to it.
    Returns: Clearance of N rows; NO_ELEVATION, NO_ALTITUDE where a height is missing.
    Errors: ValueError for terrain of another shape than the distances. Source: EFFECTIVE_RADIUS_SOURCE; derived here.

    >>> ridge = profile_clearance([[10.0]], [[1000.0]], 40.0, 1000.0, 3000.0)
    >>> round(float(ridge.margin_ft[0]), 2), float(ridge.at_nm[0])
    (301.29, 10.0)
    """
    x, terrain = (np.atleast_2d(np.asarray(a, dtype=np.float64)) for a in (dist_nm, terrain_ft))
    if x.shape != terrain.shape:
        raise ValueError(f"terrain_ft has the shape {terrain.shape}; it must be that of dist_nm, {x.shape}")
    total, z1, z2, own = (_column(a, len(x)) for a in (total_nm, station_ft, aircraft_ft, own_cell_nm))
    with np.errstate(invalid="ignore", divide="ignore"):
        between = np.isfinite(x) & (x > own)
        seen = between & np.isfinite(terrain)
        bulge = x * (total - x) * (NM_M**2 / (2.0 * EFFECTIVE_RADIUS_M) / FT_M)
        margin = np.where(seen, z1 + (z2 - z1) * (x / total) - bulge - terrain, np.nan)
        needed = np.where(seen & (x > 0.0), z1 + (terrain + bulge - z1) * (total / x), np.nan)
    worst = np.argmin(np.where(np.isfinite(margin), margin, np.inf), axis=1) if x.shape[1] else np.zeros(len(x), int)
    rows = np.arange(len(x))
    any_seen = np.isfinite(margin).any(axis=1)
    least = np.full(len(x), np.nan)
    at, altitude = least.copy(), least.copy()
    least[any_seen], at[any_seen] = margin[rows, worst][any_seen], x[rows, worst][any_seen]
    with np.errstate(invalid="ignore"):
        altitude[any_seen] = np.max(np.where(np.isfinite(needed), needed, -np.inf), axis=1, initial=-np.inf)[any_seen]
        blocked = least < 0.0
    samples = between.sum(axis=1)
    missing = samples - seen.sum(axis=1)
    nowhere = ~np.isfinite(x).any(axis=1)
    code = reasons.first(
        reasons.where(~np.isfinite(z1[:, 0]), reasons.NO_ELEVATION),
        reasons.where(~np.isfinite(z2[:, 0]), reasons.NO_ALTITUDE),
        reasons.where(((missing > 0) | nowhere) & ~blocked, reasons.NO_TERRAIN),
    )
    return Clearance(least, at, altitude, missing, samples, code)


def _column(values, n: int) -> np.ndarray:
    return np.broadcast_to(np.asarray(values, dtype=np.float64), (n,))[:, np.newaxis]


def least_cut_deg(first_kind, second_kind, second_nm, rules, *, first_arc=False, second_arc=False) -> np.ndarray:
    """Least cut angle of two lines of position; the second aid counts as the crossing one.

    Parameters: kinds of navaids.KINDS; second_nm, distance of the second aid from the fix (NaN: not counted);
    rules, codes of RULES; first_arc, second_arc, true where that line is a DME arc. They broadcast.
    Returns: degrees between the lines, NaN for two arcs, for which no rule is known. Source: LEAST_CUTS.

    >>> float(least_cut_deg("VOR", "VOR", 20.0, 0)), float(least_cut_deg("VOR", "NDB", 34.0, 1))
    (30.0, 49.0)
    """
    keys, dist = _cut_keys(first_kind, second_kind, second_nm, rules, first_arc, second_arc)
    out = np.full(keys.shape, np.nan)
    for name, rule in LEAST_CUTS.items():
        rows = keys == "/".join(name)
        beyond = np.nan_to_num(np.maximum(dist[rows] - rule.beyond_nm, 0.0), nan=0.0, posinf=0.0)
        out[rows] = rule.deg + rule.per_nm * beyond
    return out


def _cut_keys(first_kind, second_kind, second_nm, rules, first_arc, second_arc) -> tuple[np.ndarray, np.ndarray]:
    one, two = (navaids.gives_bearings(kind) for kind in (first_kind, second_kind))
    one, two, dist, rules, arc1, arc2 = np.broadcast_arrays(
        one, two, np.asarray(second_nm, float), rules, np.asarray(first_arc, bool), np.asarray(second_arc, bool)
    )
    beacon = np.where(rules == FAA, two, one | two)
    lines = np.where(arc1 & arc2, "arcs", np.where(arc1 | arc2, "radial and arc", np.where(beacon, "ndb", "radials")))
    return np.char.add(np.char.add(np.array(RULES)[rules], "/"), lines), dist


def tests(
    pairs: Pairs, *, rules=ICAO, cut: Cut | None = None, terrain: Clearance | None = None, antenna_ft: float = 0.0
) -> Tests:
    """What can be said of the reception of each fix, one row a test.

    status; service_volume of the bearing (or of a DME read alone) and service_volume_dme where the DME has a
    class of its own; line_of_sight over a smooth surface at the lower of station and aircraft, for VHF and DME,
    where no terrain was given; terrain; cone overhead; dme_overhead; cut_angle. A WPT is not received: no row.
    Parameters: pairs, N; rules, codes of RULES, N or one; cut, N rows; terrain, N rows of profile_clearance
    along the same pairs; antenna_ft above the station's elevation.
    Returns: Tests. Source: each row names its own, with 'from memory' where it is.
    """
    rules = np.broadcast_to(np.asarray(rules, dtype=np.int64), len(pairs.lon))
    parts = [
        _status(pairs),
        _service_volume(pairs, False),
        _service_volume(pairs, True),
        _line_of_sight(pairs, terrain, antenna_ft),
        *([] if terrain is None else [_terrain(pairs, terrain)]),
        _cone(pairs),
        _dme_overhead(pairs),
        *([] if cut is None else [_cut(pairs, cut, rules)]),
    ]
    columns = [np.concatenate(values) for values in zip(*parts)]
    order = np.argsort(columns[0], kind="stable")
    return Tests(*[values[order] for values in columns])


def _part(test: str, rows, ok, known, value, limit, unit: str, source, sentence: Callable[[int], str]) -> Tests:
    """Tests of the pairs of a mask. ok, known, value, limit: N; source: one text, or N; sentence(i) of pair i."""
    index = np.flatnonzero(rows)
    n = len(rows)

    def words(values) -> np.ndarray:
        out = np.empty(len(index), dtype=object)
        out[:] = values
        return out

    def taken(values, dtype) -> np.ndarray:
        return np.broadcast_to(np.asarray(values, dtype=dtype), n)[index]

    known = taken(known, bool)
    return Tests(
        index,
        words([test] * len(index)),
        taken(ok, bool) & known,
        known,
        taken(value, np.float64),
        taken(limit, np.float64),
        words([unit] * len(index)),
        words([source] * len(index) if isinstance(source, str) else [source[i] for i in index]),
        words([sentence(i) for i in index]),
    )


def _said(entry) -> str:
    """Source of a table's entry, with its mark where it was not read in the document."""
    return entry.source if entry.mark == PUBLISHED or entry.mark in entry.source else f"{entry.source} ({entry.mark})"


def _who(pairs: Pairs, i: int) -> str:
    return str(pairs.ident[i]) or "the station"


def _heard(pairs: Pairs) -> np.ndarray:
    """Where something of the station is read at the fix."""
    return pairs.azimuth | pairs.distance


def _status(pairs: Pairs) -> Tests:
    def sentence(i: int) -> str:
        return f"{_who(pairs, i)} is {'in' if pairs.in_service[i] else 'out of'} service by the table of navaids"

    return _part("status", _heard(pairs), pairs.in_service, True, np.nan, np.nan, "", "the table of navaids", sentence)


def _lacking(pairs: Pairs, i: int, elevation: float) -> str:
    """What is missing for a height above the station; '' for nothing."""
    if not np.isfinite(pairs.alt_ft[i]):
        return "the altitude at the fix is not given"
    return "" if np.isfinite(elevation) else f"the elevation of {_who(pairs, i)} is not given"


def _service_volume(pairs: Pairs, of_dme: bool) -> Tests:
    at = pairs.station
    keys = _volume_keys(pairs.classes, at.kind, np.full(len(pairs.lon), of_dme))
    if of_dme:
        # an NDB's class says nothing of its DME; another station's one class is told once, with the bearing
        own = np.isin(keys, ["DL", "DH"]) | ~pairs.azimuth | navaids.gives_bearings(at.kind)
        rows = pairs.distance & own
        elevation, dist = at.dme_elev_ft, pairs.dme_nm
    else:
        rows, elevation, dist = pairs.azimuth, at.elev_ft, pairs.dist_nm
    height = pairs.alt_ft - elevation
    radius = service_volume_nm(pairs.classes, height, at.kind, of_dme)
    known = np.isfinite(radius) & np.isfinite(dist)
    what = "the DME of " if of_dme else ""

    def sentence(i: int) -> str:
        name = f"{what}{_who(pairs, i)}"
        if not keys[i]:
            of_kind = "a DME" if of_dme else "its kind"
            written = pairs.classes[i]
            why = f"the class '{written}' is not one of {of_kind}" if written else "no class is given"
            return f"The service volume of {name} is not known: {why}; see the coverage published by the state"
        lacking = _lacking(pairs, i, elevation[i])
        if not known[i]:
            return f"The service volume of {name} cannot be tested: {lacking or 'a position is missing'}"
        here = f"the fix is {text.format_nm(dist[i])} away"
        key = keys[i].removeprefix("NDB ")
        if radius[i] == 0.0:
            side = "below" if height[i] <= VOLUMES[key][0].low_ft else "above"
            return f"At {text.format_altitude(height[i])} above {name} the fix lies {side} the volume of class {key}"
        high = "" if keys[i].startswith("NDB ") else f" at {text.format_altitude(height[i])} above it"
        return f"Class {key} of {name} reaches {text.format_nm(radius[i])}{high}; {here}"

    sources = [_volume_source(key) for key in keys]
    test = "service_volume_dme" if of_dme else "service_volume"
    with np.errstate(invalid="ignore"):
        return _part(test, rows, dist <= radius, known, dist, radius, "NM", sources, sentence)


def _volume_source(key: str) -> str:
    if not key:
        return "FAA AIM 1-1-8"
    return _said(NDB_VOLUMES[key[4:]] if key.startswith("NDB ") else VOLUMES[key][0])


def _line_of_sight(pairs: Pairs, terrain: Clearance | None, antenna_ft: float) -> Tests:
    rows = (pairs.azimuth & navaids.gives_radials(pairs.station.kind)) | pairs.distance
    if terrain is not None:
        rows = rows & (terrain.samples == 0)
    elevation, dist = _site(pairs)
    limit = _sight_nm(elevation + antenna_ft, elevation, pairs.alt_ft)
    known = np.isfinite(limit) & np.isfinite(dist)

    def sentence(i: int) -> str:
        if not known[i]:
            lacking = _lacking(pairs, i, elevation[i]) or "a position is missing"
            return f"The line of sight to {_who(pairs, i)} cannot be tested: {lacking}"
        return (
            f"Over flat ground {_who(pairs, i)} is in sight to {text.format_nm(limit[i])}; the fix is "
            f"{text.format_nm(dist[i])} away; terrain was not looked at"
        )

    with np.errstate(invalid="ignore"):
        ok = dist <= limit
    return _part("line_of_sight", rows, ok, known, dist, limit, "NM", EFFECTIVE_RADIUS_SOURCE, sentence)


def _site(pairs: Pairs) -> tuple[np.ndarray, np.ndarray]:
    """Elevation and distance of the VHF antenna that is read: the DME's where no radial is."""
    dme = ~(pairs.azimuth & navaids.gives_radials(pairs.station.kind))
    at = pairs.station
    return np.where(dme, at.dme_elev_ft, at.elev_ft), np.where(dme, pairs.dme_nm, pairs.dist_nm)


def _sight_nm(antenna_ft, elevation_ft, alt_ft) -> np.ndarray:
    """Line of sight over a surface at the lower of the station's ground and the aircraft."""
    surface = np.minimum(elevation_ft, alt_ft)
    return line_of_sight_nm(antenna_ft - surface, alt_ft - surface)


def _terrain(pairs: Pairs, terrain: Clearance) -> Tests:
    rows = ((pairs.azimuth & navaids.gives_radials(pairs.station.kind)) | pairs.distance) & (terrain.samples > 0)
    known = terrain.code == reasons.OK

    def sentence(i: int) -> str:
        who = _who(pairs, i)
        if terrain.code[i] in (reasons.NO_ELEVATION, reasons.NO_ALTITUDE):
            return f"The terrain between {who} and the fix cannot be tested: {reasons.sentence(terrain.code[i])}"
        if terrain.missing[i] == terrain.samples[i]:
            return f"The terrain between {who} and the fix is not known"
        margin, place = abs(terrain.margin_ft[i]), text.format_nm(terrain.at_nm[i])
        if terrain.margin_ft[i] < 0.0:
            return (
                f"Terrain {place} from {who} stands {margin:.0f} ft above the line to the fix, which is clear from "
                f"{text.format_altitude(_up_to_hundred(terrain.needed_ft[i]))} up"
            )
        clear = f"the line from {who} clears it by {margin:.0f} ft, {place} from the station"
        if known[i]:
            return f"Terrain: {clear}"
        return f"The terrain is not known at {terrain.missing[i]} of {terrain.samples[i]} places; elsewhere {clear}"

    return _part("terrain", rows, terrain.clear, known, terrain.margin_ft, 0.0, "ft", EFFECTIVE_RADIUS_SOURCE, sentence)


def _up_to_hundred(feet: float) -> float:
    return 100.0 * float(np.ceil(feet / 100.0 - 1e-9))


def _overhead(pairs: Pairs, test: str, rows, elevation, dist, limit, sources, what: str) -> Tests:
    known = np.isfinite(limit) & np.isfinite(dist)

    def sentence(i: int) -> str:
        lacking = _lacking(pairs, i, elevation[i]) or "a position is missing"
        if not known[i]:
            return f"The cone over {_who(pairs, i)} cannot be tested: {lacking}"
        return (
            f"At {text.format_altitude(pairs.alt_ft[i] - elevation[i])} above {_who(pairs, i)} its {what} is used from "
            f"{text.format_nm(limit[i], 2)} on; the fix is {text.format_nm(dist[i], 2)} away"
        )

    with np.errstate(invalid="ignore"):
        return _part(test, rows, dist >= limit, known, dist, limit, "NM", sources, sentence)


def _cone(pairs: Pairs) -> Tests:
    at, n = pairs.station, len(pairs.lon)
    limit = cone_radius_nm(pairs.alt_ft - at.elev_ft, at.kind)
    overhead = pairs.dist_nm < SAME_PLACE_NM
    beacon = navaids.gives_bearings(at.kind)
    sources = [_said(CONES["ndb" if beacon[i] else "vor"]) for i in range(n)]
    rows = pairs.azimuth & ~np.isin(at.kind, NO_CONE) & ~overhead
    return _overhead(pairs, "cone", rows, at.elev_ft, pairs.dist_nm, limit, sources, "bearing")


def _dme_overhead(pairs: Pairs) -> Tests:
    at = pairs.station
    limit = dme_overhead_nm(pairs.alt_ft - at.dme_elev_ft)
    tacan = pairs.azimuth & (at.kind == "TACAN") & ~(pairs.dist_nm < SAME_PLACE_NM)
    rows = pairs.distance | tacan
    return _overhead(pairs, "dme_overhead", rows, at.dme_elev_ft, pairs.dme_nm, limit, _said(CONES["dme"]), "DME")


def _cut(pairs: Pairs, cut: Cut, rules: np.ndarray) -> Tests:
    n = len(pairs.lon)
    deg, other_nm = (np.broadcast_to(np.asarray(a, dtype=np.float64), n) for a in (cut.deg, cut.other_nm))
    other_kind = np.broadcast_to(np.asarray(cut.other_kind, dtype=object), n)
    other_arc = np.broadcast_to(np.asarray(cut.other_arc, dtype=bool), n)
    keys, _ = _cut_keys(pairs.station.kind, other_kind, other_nm, rules, ~pairs.azimuth, other_arc)
    limit = least_cut_deg(
        pairs.station.kind, other_kind, other_nm, rules, first_arc=~pairs.azimuth, second_arc=other_arc
    )
    known = np.isfinite(limit)

    def sentence(i: int) -> str:
        if not known[i]:
            return f"The two arcs cut at {deg[i]:.0f} degrees; no least angle for two arcs is known here"
        return f"The two lines cut at {deg[i]:.1f} degrees; the least angle is {limit[i]:.1f}"

    by_key = {"/".join(name): _said(rule) for name, rule in LEAST_CUTS.items()}
    sources = [by_key.get(str(key), "no rule known for two arcs") for key in keys]
    with np.errstate(invalid="ignore"):
        return _part("cut_angle", np.isfinite(deg), deg >= limit, known, deg, limit, "deg", sources, sentence)


def radial_distance_error_nm(dist_nm, angle_deg, dme_error_nm) -> np.ndarray:
    """How far off a fix by radial and distance may be: the corner of its tolerance rectangle.

    hypot(D tan(angle), DME error). Parameters broadcast. Returns: NM. Derived here: plane estimate.
    """
    return np.hypot(np.asarray(dist_nm, dtype=np.float64) * np.tan(np.radians(angle_deg)), dme_error_nm)


def crossing_error_nm(dist_1_nm, angle_1_deg, dist_2_nm, angle_2_deg, cut_deg) -> np.ndarray:
    """How far off a crossing of two radials may be: half the long diagonal of the parallelogram of their bands.

    sqrt(a^2 + b^2 + 2 a b cos(cut)) / sin(cut), a and b being D tan(angle). Parameters: cut 0 to 90 degrees;
    they broadcast. Returns: NM, inf for parallel lines. Derived here: plane estimate.
    """
    a = np.asarray(dist_1_nm, dtype=np.float64) * np.tan(np.radians(angle_1_deg))
    b = np.asarray(dist_2_nm, dtype=np.float64) * np.tan(np.radians(angle_2_deg))
    sine = sind(cut_deg)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(sine > 0.0, np.sqrt(a**2 + b**2 + 2.0 * a * b * cosd(cut_deg)) / sine, np.inf)


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
        volumes = [_volume_keys(written, at.kind, np.full(len(row), of_dme)) for of_dme in (False, True)]
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
    cut = np.abs(wrap180(towards[i] - towards[j]))
    cut = np.minimum(cut, 180.0 - cut)
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
    reach = np.where(volume == "", unknown, _radius_of_keys_nm(volume, height))
    dme_reach = np.where(dme_volume == "", vhf, _radius_of_keys_nm(dme_volume, dme_height))
    overhead = np.where(at.kind == "TACAN", dme_overhead_nm(dme_height), cone_radius_nm(height, at.kind))
    aligned = beacon | (radials & np.isfinite(at.decl_deg))
    with np.errstate(invalid="ignore"):
        sight = beacon | (dist <= _sight_nm(at.elev_ft, at.elev_ft, alt))
        azimuth_ok = (
            aligned & sight & (dist >= np.maximum(overhead, SAME_PLACE_NM)) & (dist <= np.minimum(reach, within_nm))
        )
        distance_ok = (
            navaids.gives_range(at.kind)
            & (dme <= _sight_nm(at.dme_elev_ft, at.dme_elev_ft, alt))
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
