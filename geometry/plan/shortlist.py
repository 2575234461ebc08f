"""The candidates of a search and what is known of each: cheap tests of all, close looks at those in question."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from .. import geodesy, holds, navaids, slips
from ..angles import wrap360
from ..coverage import checks, verdicts
from ..magnetism import declination_deg
from ..search import Places, pick, places, score
from . import reception
from .candidates import Candidates, Surroundings, refusal
from .directory import Directory
from .holding import HoldRows, design_holds
from .limit_tests import limit_test_rows
from .marking import FixRows, Naming, mark_radial_distance

GROSS_SLIPS = ("radial_reciprocal", "side")
"""Slips left out of the margin: they end on the far side of the station, wherever the fix lies."""
RAY_HALF_FT = 1000.0
"""Height above the lowest from which the ray to the station clears the terrain, that counts half: our own choice."""


SURELY_NM, SURELY_SHARE = 12.0, 0.1
"""More than a fix may lie from the place that its radial and distance along the ground give, and the part of the
distance: a slant range from 60 000 ft, a DME that stands apart, a bearing read at the fix."""
MOST_CANDIDATES = 300_000
"""So many take some minutes and a part of a GB."""


class TooManyPlaces(ValueError):
    """A search over more candidates than MOST_CANDIDATES."""


class Wishes(NamedTuple):
    """What is looked for.

    home, lon and lat; radius_nm about it; radial_step_deg, whole; from_nm, to_nm, step_nm, distances; sides, codes of
    holds.TURNS; towards, inbound to the navaid, else from it; alt_ft, alt_to_ft (NaN: one level); ias_kt;
    area_ias_kt, NaN for the category's maximum; rules, a code of holds.RULES; spacing_nm, least distance of two
    proposals; count, how many at most; classless, whether a station of unknown class will do; overlap,
    whether areas of two proposals may.
    """

    home: tuple[float, float]
    radius_nm: float
    radial_step_deg: int
    from_nm: float
    to_nm: float
    step_nm: float
    sides: tuple[int, ...]
    towards: bool
    alt_ft: float
    alt_to_ft: float
    ias_kt: float
    area_ias_kt: float
    rules: int
    spacing_nm: float
    count: int
    classless: bool = False
    overlap: bool = False


class Shortlist:
    """All candidates of a search: what they are, and what is known of them. Candidate c is side c % S of fix c // S."""

    def __init__(self, wishes: Wishes, table: dict, keys: list, year: float, var_date: str):
        self.wishes, self.table, self.keys, self.year = wishes, table, keys, year
        self.directory, self.notes = Directory(table), []
        self.where, self.beyond = self._places()
        self.slant = np.isfinite(self.directory.elev_ft)
        self.sides = len(wishes.sides)
        self.fate = np.full(len(self.where.navaid) * self.sides, "", dtype=object)
        self.fixes = self._mark(var_date)
        self._far()
        self.holds = self._design(var_date)
        self.margins: dict[str, np.ndarray] = {"home": np.repeat(self.home_nm, self.sides)}
        self._rays: dict[int, tuple[str, float]] = {}
        self.worst = np.full(len(self.where.navaid), "", dtype=object)

    # Fixes and holds

    def _places(self) -> tuple[Places, int]:
        """The places that may lie within the radius, and how many candidates at others there are."""
        wishes, of = self.wishes, self.directory
        all_ = places(len(of.lon), wishes.radial_step_deg, wishes.from_nm, wishes.to_nm, wishes.step_nm)
        model = declination_deg(of.lon, of.lat, year=self.year)
        north = np.where(np.isfinite(of.decl_deg) & navaids.gives_radials(of.kind), of.decl_deg, model)
        who = all_.navaid
        lon, lat, _ = geodesy.direct(of.lon[who], of.lat[who], all_.radial_deg + north[who], all_.distance_nm)
        away = geodesy.inverse(*wishes.home, lon, lat)[2]
        near = away <= wishes.radius_nm + SURELY_NM + SURELY_SHARE * all_.distance_nm
        many = int(near.sum()) * len(wishes.sides)
        if many > MOST_CANDIDATES:
            raise TooManyPlaces(
                f"there are {many} places and sides to look at; larger steps of radials or distances, or a smaller "
                f"radius, must make them no more than {MOST_CANDIDATES}"
            )
        return Places(*(a[near] for a in all_)), len(wishes.sides) * int((~near).sum())

    def _mark(self, var_date: str) -> FixRows:
        at, who = self.where, self.where.navaid
        naming = Naming(self.directory.ident[who], None, var_date)
        return mark_radial_distance(
            self.directory.station(who), naming, at.radial_deg, at.distance_nm, slant=self.slant[who],
            alt_ft=self.wishes.alt_ft, north=navaids.STATION, year=self.year,
        )  # fmt: skip

    def _far(self) -> None:
        self.home_nm = geodesy.inverse(*self.wishes.home, self.fixes.columns["lon"], self.fixes.columns["lat"])[2]
        with np.errstate(invalid="ignore"):
            self._fail(np.repeat(self.home_nm > self.wishes.radius_nm, self.sides), "home")

    def _design(self, var_date: str) -> HoldRows:
        """The holds of all candidates, as build makes them of the plan's rows."""
        wishes, fix = self.wishes, np.arange(len(self.fate)) // max(self.sides, 1)
        columns = {name: np.asarray(values)[fix] for name, values in self.fixes.columns.items()}
        failed = (self.fixes.reasons[fix] != "") | (self.fate != "")
        columns["lon"] = np.where(failed, np.nan, columns["lon"])
        nothing = np.full(len(fix), np.nan)
        made = design_holds(
            columns, np.where(failed, "", columns["fix"]), None, inbound_deg=self.inbound_deg()[fix],
            north=navaids.STATION, turn=np.tile(np.array(wishes.sides, dtype=np.int64), len(self.where.navaid)),
            leg_min=self.leg_min(), leg_nm=nothing, leg_end=-1, ias_kt=wishes.ias_kt, area_ias_kt=wishes.area_ias_kt,
            alt_ft=wishes.alt_ft, alt_to_ft=wishes.alt_to_ft, isa_dev_c=nothing, rules=wishes.rules, var_date=var_date,
            year=self.year,
        )  # fmt: skip
        self._fail(made.reasons != "", "fix")
        return made

    def inbound_deg(self) -> np.ndarray:
        """The inbound courses, from 1 to 360, by fix."""
        turned = wrap360(self.where.radial_deg + (180.0 if self.wishes.towards else 0.0))
        return np.where(turned == 0.0, 360.0, turned)

    def leg_min(self) -> float:
        """The standard time of the highest level: the area is made for it."""
        top = np.fmax(self.wishes.alt_ft, self.wishes.alt_to_ft)
        return float(holds.standard_leg_min(top, self.wishes.rules))

    def _fail(self, mask, why: str) -> None:
        self.fate[(self.fate == "") & mask] = why

    def _left(self) -> np.ndarray:
        return np.flatnonzero(self.fate == "")

    # Cheap tests of all

    def _limits(self) -> None:
        """Speeds and leg are those of every candidate: one tells of all."""
        left = self._left()
        if not len(left):
            return
        one = self.holds.take(left[:1])
        said = refusal(one)
        if said:
            self._fail(True, "area")
            self.notes.append(f"no area can be made for these holds: {said}")
        told = limit_test_rows(one)
        for test, ok, text in zip(told["test"], told["ok"], told["text"]):
            if ok != 1:
                self._fail(True, test)
                self.notes.append(str(text))

    def _receive(self, with_rays: bool) -> None:
        """What can be told of reception without the terrain between; with_rays, that it is looked at later."""
        columns = {**self.fixes.columns, "alt_ft": np.full(len(self.where.navaid), self.wishes.alt_ft)}
        self.columns = columns
        share = np.full(len(self.where.navaid), np.nan)
        wanted = np.unique(self._left() // self.sides)
        self.margins["reception"] = np.zeros(len(self.fate))
        if not len(wanted):
            return
        mine = {name: np.asarray(values)[wanted] for name, values in columns.items()}
        found = reception.heard(mine, self.table)
        fix = wanted[found.row]
        made = checks.tests(found.pairs, rules=self.wishes.rules)
        count = made.test != "line_of_sight" if with_rays else np.ones(len(made.test), dtype=bool)
        why, share[wanted] = np.full(len(share), "", dtype=object), 1.0
        for test, pair, good, part in zip(made.test, made.pair, self._good(made), _shares(made)):
            at = fix[pair]
            if test == "line_of_sight" and with_rays:
                continue
            why[at] = why[at] or ("" if good else test)
            share[at] = min(share[at], part)
        heard = np.zeros(len(share), dtype=bool)
        heard[fix[made.pair[count]]] = True
        why[wanted] = np.where(heard[wanted], why[wanted], "status")
        for test in set(why[why != ""]):
            self._fail(np.repeat(why == test, self.sides), test)
        self.margins["reception"] = np.repeat(share, self.sides)

    def _good(self, made: verdicts.Tests) -> np.ndarray:
        """Tests that do not stand against a candidate: those passed, and with classless unknown service volumes."""
        volume = np.isin(made.test, ("service_volume", "service_volume_dme"))
        return made.ok | (self.wishes.classless & volume & ~made.known & ~np.isfinite(made.limit_value))

    def _slip(self) -> None:
        """The farthest that a slip puts each fix, gross ones left out."""
        columns, station = self.fixes.columns, self.directory.station(self.where.navaid)
        lon, lat = columns["lon"], columns["lat"]
        found = slips.slips(
            station, lon, lat, radial_deg=wrap360(columns["radial_deg"]), dme_nm=columns["dme_nm"],
            var_station_deg=declination_deg(station.lon, station.lat, year=self.year),
            var_fix_deg=declination_deg(lon, lat, year=self.year),
        )  # fmt: skip
        kinds = [slip for slip in slips.SLIPS if slip.key not in GROSS_SLIPS]
        far = np.stack([np.nan_to_num(found[slip.key], nan=-1.0) for slip in kinds])
        which = far.argmax(axis=0)
        self.worst = np.array([slip.sentence for slip in kinds], dtype=object)[which]
        self.margins["slip"] = np.repeat(np.maximum(far.max(axis=0), 0.0), self.sides)

    # The search

    def pick(self, around: Surroundings, go_on: Callable[[float], bool]):
        """The proposals: cheap tests for all, the others for those that come into question."""
        self._limits()
        self._receive(around.terrain is not None)
        self._slip()
        left = self._left()
        self.at = np.full(len(self.fate), -1)
        self.at[left] = np.arange(len(left))
        stages, many = [], None
        if len(left):
            many = Candidates(self.wishes.home, self.wishes.radius_nm, self.holds.take(left), around, go_on)
            stages = self._bound(left, many)
        most = np.full(len(self.fate), np.nan)
        left = self._left()
        most[left] = self.score_of(left)
        lon, lat = (np.repeat(self.fixes.columns[name], self.sides) for name in ("lon", "lat"))

        def apart_nm(i: int) -> np.ndarray:
            return geodesy.inverse(lon[i], lat[i], lon, lat)[2]

        def look(i: int, stage: int) -> tuple[str, float]:
            why = stages[stage](i)
            return why, float(self.score_of(np.array([i]))[0])

        def clashes(i: int, j: int, closely: bool) -> bool:
            return many.overlap(self.at[i], self.at[j], closely)

        wishes = self.wishes
        picks = pick(
            most, len(stages), look, apart_nm, spacing_nm=wishes.spacing_nm, count=wishes.count,
            clashes=None if wishes.overlap else clashes,
            go_on=lambda taken: go_on(0.5 + 0.5 * taken / max(wishes.count, 1)),
        )  # fmt: skip
        return picks._replace(fate=np.where(self.fate != "", self.fate, picks.fate))

    def score_of(self, index) -> np.ndarray:
        return score({name: values[index] for name, values in self.margins.items()})

    def _bound(self, left: np.ndarray, many: Candidates) -> list[Callable[[int], str]]:
        """What each can have at most, for all; and the close looks that are left to take."""
        around = many.around
        if around.spaces is not None:
            most = many.most_airspace_nm()
            self._set("airspace", left, most)
            self._fail(_spread(len(self.fate), left, most < 0.0), "airspace")
        with_ground = around.grid is not None or around.obstacles is not None
        if with_ground:
            left = self._left()
            most, unknown = many.most_terrain_ft(self.at[left])
            self._set("terrain", left, most)
            self._fail(_spread(len(self.fate), left, unknown), "terrain_unknown")
            self._fail(_spread(len(self.fate), left, most < 0.0), "minimum_altitude")
        # the cheaper first
        stages: list[Callable[[int], str]] = []
        if around.terrain is not None:
            stages.append(lambda i: self._ray(i, around.terrain))
        if with_ground:
            stages.append(lambda i: self._ground(i, many))
        if around.spaces is not None:
            stages.append(lambda i: self._take("airspace", i, many.airspace_nm(self.at[i]), "airspace"))
            stages.append(lambda i: "" if many.track_is_clear(self.at[i]) else "airspace_track")
        return stages

    def _set(self, name: str, left: np.ndarray, most: np.ndarray) -> None:
        self.margins[name] = np.full(len(self.fate), np.nan)
        self.margins[name][left] = most

    def _take(self, name: str, i: int, margin: float, why: str) -> str:
        self.margins[name][i] = margin
        return why if margin < 0.0 else ""

    def _ground(self, i: int, many: Candidates) -> str:
        margin, unknown = many.ground(self.at[i])
        return "terrain_unknown" if unknown else self._take("terrain", i, margin, "minimum_altitude")

    def _ray(self, i: int, terrain: reception.Terrain) -> str:
        """Reception with the terrain between station and fix, the same for both sides of a fix."""
        fix = i // self.sides
        if fix not in self._rays:
            one = {name: np.asarray(values)[fix : fix + 1] for name, values in self.columns.items()}
            found = reception.heard(one, self.table)
            clear = reception.clearances(found.pairs, terrain, 0.0)
            made = checks.tests(found.pairs, rules=self.wishes.rules, terrain=clear)
            bad = made.test[~self._good(made)]
            spare = np.nan_to_num(self.wishes.alt_ft - clear.needed_ft, nan=np.inf).clip(0.0)
            shares = np.concatenate([_shares(made), 1.0 - RAY_HALF_FT / (spare + RAY_HALF_FT)])
            self._rays[fix] = str(bad[0]) if len(bad) else "", float(shares.min())
        why, share = self._rays[fix]
        self.margins["reception"][i] = min(self.margins["reception"][i], share)
        return why


def _shares(made: verdicts.Tests) -> np.ndarray:
    """What part of each test of reception is to spare, 0 to 1; 1 where the test has no measure."""
    value, limit = made.value, made.limit_value
    with np.errstate(divide="ignore", invalid="ignore"):
        out = np.where(np.isin(made.test, ("cone", "dme_overhead")), 1.0 - limit / value, 1.0 - value / limit)
    known = ~np.isin(made.test, ("status", "terrain")) & np.isfinite(out)
    return np.where(known, np.clip(out, 0.0, 1.0), np.where(made.ok, 1.0, 0.0))


def _spread(n: int, index: np.ndarray, mask: np.ndarray) -> np.ndarray:
    out = np.zeros(n, dtype=bool)
    out[index[mask]] = True
    return out
