"""What can be said of the reception of fixes: a row for each test of each pair."""

from __future__ import annotations

import numpy as np

from .. import navaids, reasons, text
from ..cones import CONES, NO_CONE, cone_radius_nm, dme_overhead_nm
from ..fixes import SAME_PLACE_NM
from ..flight import ICAO
from ..sources import said
from .cuts import LEAST_CUTS, Cut, cut_keys, least_cut_deg
from .pairs import Pairs
from .profile import Clearance
from .sight import EFFECTIVE_RADIUS_SOURCE, sight_over_ground_nm
from .verdicts import Tests, lacking, part, who
from .volumes import NDB_VOLUMES, VOLUMES, service_volume_nm, volume_keys

TESTS = (
    "status", "service_volume", "service_volume_dme", "line_of_sight", "terrain", "cone", "dme_overhead", "cut_angle"
)  # fmt: skip


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


def _radial(pairs: Pairs) -> np.ndarray:
    """Where a radial is read at the fix, which comes by VHF as a DME's distance does."""
    return pairs.azimuth & navaids.gives_radials(pairs.station.kind)


def _status(pairs: Pairs) -> Tests:
    def sentence(i: int) -> str:
        return f"{who(pairs, i)} is {'in' if pairs.in_service[i] else 'out of'} service by the table of navaids"

    rows = pairs.azimuth | pairs.distance
    return part("status", rows, pairs.in_service, True, np.nan, np.nan, "", "the table of navaids", sentence)


def _service_volume(pairs: Pairs, of_dme: bool) -> Tests:
    at = pairs.station
    keys = volume_keys(pairs.classes, at.kind, np.full(len(pairs.lon), of_dme))
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
        name = f"{what}{who(pairs, i)}"
        if not keys[i]:
            of_kind = "a DME" if of_dme else "its kind"
            written = pairs.classes[i]
            why = f"the class '{written}' is not one of {of_kind}" if written else "no class is given"
            return f"The service volume of {name} is not known: {why}; see the coverage published by the state"
        if not known[i]:
            return f"The service volume of {name} cannot be tested: {lacking(pairs, i, elevation[i])}"
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
        return part(test, rows, dist <= radius, known, dist, radius, "NM", sources, sentence)


def _volume_source(key: str) -> str:
    if not key:
        return "FAA AIM 1-1-8"
    return said(NDB_VOLUMES[key[4:]] if key.startswith("NDB ") else VOLUMES[key][0])


def _line_of_sight(pairs: Pairs, terrain: Clearance | None, antenna_ft: float) -> Tests:
    rows = _radial(pairs) | pairs.distance
    if terrain is not None:
        rows = rows & (terrain.samples == 0)
    elevation, dist = _site(pairs)
    limit = sight_over_ground_nm(elevation + antenna_ft, elevation, pairs.alt_ft)
    known = np.isfinite(limit) & np.isfinite(dist)

    def sentence(i: int) -> str:
        if not known[i]:
            return f"The line of sight to {who(pairs, i)} cannot be tested: {lacking(pairs, i, elevation[i])}"
        return (
            f"Over flat ground {who(pairs, i)} is in sight to {text.format_nm(limit[i])}; the fix is "
            f"{text.format_nm(dist[i])} away; terrain was not looked at"
        )

    with np.errstate(invalid="ignore"):
        ok = dist <= limit
    return part("line_of_sight", rows, ok, known, dist, limit, "NM", EFFECTIVE_RADIUS_SOURCE, sentence)


def _site(pairs: Pairs) -> tuple[np.ndarray, np.ndarray]:
    """Elevation and distance of the VHF antenna that is read: the DME's where no radial is."""
    dme = ~_radial(pairs)
    at = pairs.station
    return np.where(dme, at.dme_elev_ft, at.elev_ft), np.where(dme, pairs.dme_nm, pairs.dist_nm)


def _terrain(pairs: Pairs, terrain: Clearance) -> Tests:
    rows = (_radial(pairs) | pairs.distance) & (terrain.samples > 0)
    known = terrain.code == reasons.OK

    def sentence(i: int) -> str:
        name = who(pairs, i)
        if terrain.code[i] in (reasons.NO_ELEVATION, reasons.NO_ALTITUDE):
            return f"The terrain between {name} and the fix cannot be tested: {reasons.sentence(terrain.code[i])}"
        if terrain.missing[i] == terrain.samples[i]:
            return f"The terrain between {name} and the fix is not known"
        margin, place = abs(terrain.margin_ft[i]), text.format_nm(terrain.at_nm[i])
        if terrain.margin_ft[i] < 0.0:
            return (
                f"Terrain {place} from {name} stands {margin:.0f} ft above the line to the fix, which is clear from "
                f"{text.format_altitude(_up_to_hundred(terrain.needed_ft[i]))} up"
            )
        clear = f"the line from {name} clears it by {margin:.0f} ft, {place} from the station"
        if known[i]:
            return f"Terrain: {clear}"
        return f"The terrain is not known at {terrain.missing[i]} of {terrain.samples[i]} places; elsewhere {clear}"

    return part("terrain", rows, terrain.clear, known, terrain.margin_ft, 0.0, "ft", EFFECTIVE_RADIUS_SOURCE, sentence)


def _up_to_hundred(feet: float) -> float:
    return 100.0 * float(np.ceil(feet / 100.0 - 1e-9))


def _overhead(pairs: Pairs, test: str, rows, elevation, dist, limit, sources, what: str) -> Tests:
    known = np.isfinite(limit) & np.isfinite(dist)

    def sentence(i: int) -> str:
        if not known[i]:
            return f"The cone over {who(pairs, i)} cannot be tested: {lacking(pairs, i, elevation[i])}"
        return (
            f"At {text.format_altitude(pairs.alt_ft[i] - elevation[i])} above {who(pairs, i)} its {what} is used from "
            f"{text.format_nm(limit[i], 2)} on; the fix is {text.format_nm(dist[i], 2)} away"
        )

    with np.errstate(invalid="ignore"):
        return part(test, rows, dist >= limit, known, dist, limit, "NM", sources, sentence)


def _cone(pairs: Pairs) -> Tests:
    at, n = pairs.station, len(pairs.lon)
    limit = cone_radius_nm(pairs.alt_ft - at.elev_ft, at.kind)
    overhead = pairs.dist_nm < SAME_PLACE_NM
    beacon = navaids.gives_bearings(at.kind)
    sources = [said(CONES["ndb" if beacon[i] else "vor"]) for i in range(n)]
    rows = pairs.azimuth & ~np.isin(at.kind, NO_CONE) & ~overhead
    return _overhead(pairs, "cone", rows, at.elev_ft, pairs.dist_nm, limit, sources, "bearing")


def _dme_overhead(pairs: Pairs) -> Tests:
    at = pairs.station
    limit = dme_overhead_nm(pairs.alt_ft - at.dme_elev_ft)
    tacan = pairs.azimuth & (at.kind == "TACAN") & ~(pairs.dist_nm < SAME_PLACE_NM)
    rows = pairs.distance | tacan
    return _overhead(pairs, "dme_overhead", rows, at.dme_elev_ft, pairs.dme_nm, limit, said(CONES["dme"]), "DME")


def _cut(pairs: Pairs, cut: Cut, rules: np.ndarray) -> Tests:
    n = len(pairs.lon)
    deg, other_nm = (np.broadcast_to(np.asarray(a, dtype=np.float64), n) for a in (cut.deg, cut.other_nm))
    other_kind = np.broadcast_to(np.asarray(cut.other_kind, dtype=object), n)
    other_arc = np.broadcast_to(np.asarray(cut.other_arc, dtype=bool), n)
    keys, _ = cut_keys(pairs.station.kind, other_kind, other_nm, rules, ~pairs.azimuth, other_arc)
    limit = least_cut_deg(
        pairs.station.kind, other_kind, other_nm, rules, first_arc=~pairs.azimuth, second_arc=other_arc
    )
    known = np.isfinite(limit)

    def sentence(i: int) -> str:
        if not known[i]:
            return f"The two arcs cut at {deg[i]:.0f} degrees; no least angle for two arcs is known here"
        return f"The two lines cut at {deg[i]:.1f} degrees; the least angle is {limit[i]:.1f}"

    by_key = {"/".join(name): said(rule) for name, rule in LEAST_CUTS.items()}
    sources = [by_key.get(str(key), "no rule known for two arcs") for key in keys]
    with np.errstate(invalid="ignore"):
        return part("cut_angle", np.isfinite(deg), deg >= limit, known, deg, limit, "deg", sources, sentence)
