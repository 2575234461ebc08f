"""Proposals for holds, from navaids to rows of a plan: against testing every place by the steps of a built area.

Places and idents are invented.
"""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import airspace, clearances, geodesy, obstacles, plan, search, shapes
from fixwright.geometry.plan import candidates, cleared, searching
from fixwright.geometry.plan.candidates import Candidates, Surroundings
from fixwright.geometry.plan.limit_tests import limit_test_rows
from fixwright.geometry.plan.searching import Wishes, find
from fixwright.tests.geometry.terrain import array_grid

HOME = (-40.0, 43.0)
DAY = {"var_date": "2026-09-01", "year": 2026.67}
WISHES = Wishes(
    home=HOME, radius_nm=30.0, radial_step_deg=60, from_nm=8.0, to_nm=24.0, step_nm=8.0, sides=(0, 1), towards=True,
    alt_ft=4000.0, alt_to_ft=5000.0, ias_kt=95.0, area_ias_kt=120.0, rules=0, spacing_nm=4.0, count=50, overlap=True,
)  # fmt: skip


def table(*rows):
    """Columns of navaids from (ident, kind, lon, lat, class)."""
    n = len(rows)
    ident, kind, lon, lat, classes = (list(values) for values in zip(*rows)) if rows else ([],) * 5
    out = {name: np.array(values, dtype=object) for name, values in
           dict(ident=ident, kind=kind, name=[""] * n, status=[""] * n, id=[""] * n).items()}  # fmt: skip
    out["class"] = np.array(classes, dtype=object)
    out.update(lon=np.array(lon, dtype=float), lat=np.array(lat, dtype=float))
    out.update(elev_ft=np.full(n, 300.0), decl_deg=np.full(n, -14.0))
    out.update({name: np.full(n, np.nan) for name in ("dme_lon", "dme_lat", "dme_elev_ft")})
    return out


TWO = table(("QXA", "VOR/DME", -40.1, 43.05, "H"), ("QXB", "VORTAC", -39.8, 42.9, "L"))


class Rays:
    """Terrain for rays over the same array as the grid."""

    def __init__(self, heights, west, north, cell):
        self.heights, self.west, self.north, self.cell = heights, west, north, cell

    def cells(self, lon, lat):
        side = np.full(np.shape(lon), 60.0 * self.cell * 0.7)
        return side, side * 1.8

    def highest_ft(self, lon, lat):
        column = np.floor(np.mod(np.asarray(lon) - self.west, 360.0) / self.cell).astype(int)
        row = np.floor((self.north - np.asarray(lat)) / self.cell).astype(int)
        good = (column >= 0) & (column < self.heights.shape[1]) & (row >= 0) & (row < self.heights.shape[0])
        return np.where(good, self.heights[row * good, column * good], np.nan)


def surroundings(east=0.0):
    """Hills to the north-east, a mast, one airspace at the levels, one above them, two that count from the ground; all
    of it so many degrees farther east."""
    west, north, cell, n = -41.0 + east, 44.0, 1.0 / 60.0, 120
    r, c = np.mgrid[0:n, 0:n]
    heights = np.where((c > 70) & (r < 55), 2500.0, 50.0) + 100.0 * np.sin(c / 5.0)
    ring = np.array([[-40.4, 42.8], [-40.2, 42.8], [-40.2, 42.95], [-40.4, 42.95]]) + [east, 0.0]
    spaces = airspace.spaces(
        shapes.gather([[[ring]], [[ring + 0.3]], [[ring + [0.6, 0.0]]], [[ring + [0.2, 0.15]]]], filled=True),
        np.array(["GND", "FL 95", "GND", "500 ft AGL"], dtype=object),
        np.array(["6000 ft AMSL", "UNL", "1200 ft AGL", "1500 ft AMSL"], dtype=object),
    )
    mast = shapes.gather([[[np.array([[-39.9 + east, 42.7]])]]], filled=False, width_nm=0.05)
    made = obstacles.obstacles(mast, name="mast", top_ft=3400.0, vertical_ft=50.0)
    return Surroundings(
        array_grid(heights, west, north, cell), Rays(heights, west, north, cell), made, spaces, 2.0, 500.0
    )


def go(share):
    return True


def found(wishes=WISHES, navaids=TWO, around=None, **more):
    return find(wishes._replace(**more), navaids, around or Surroundings(), **DAY, go_on=go)


def built(out):
    return plan.build(out.plan, TWO, **DAY)


def polygons(areas, k):
    return [[areas.coords[areas.rings[r] : areas.rings[r + 1]] for r in range(*areas.polygons[q : q + 2])]
            for q in range(*areas.parts[k : k + 2])]  # fmt: skip


def area_of(areas, hold):
    return {areas.columns["part"][k]: polygons(areas, k) for k in np.flatnonzero(areas.columns["hold"] == hold)}


def stands(around, made, i):
    """Whether a hold of a built area passes, and its margins, by the steps that test such an area."""
    key, hold = made.holds["hold"][i], made.kept.take([i])
    parts = area_of(made.areas, key)
    fix = (made.holds["lon"][i], made.holds["lat"][i])
    area, _ = cleared.cleared_area(parts, dict.fromkeys(parts, np.nan), cleared.Options(), fix)
    ground = obstacles.minimum_altitudes([area], around.grid, around.obstacles)[0]
    spare = made.holds["alt_ft"][i] - float(clearances.minimum_ft(ground.required_ft))
    first = shapes.gather([parts["basic"] + parts["entry"]], filled=True)
    levels = (made.holds["alt_ft"][i], made.holds["alt_to_ft"][i])
    flown = plan.flown_rows(plan.fly_rows(hold, plan.Wind(np.zeros(1), np.zeros(1)), timing=0,
                                          arrival_true_deg=np.nan, circuits=3))  # fmt: skip
    lines = [[line] for line in np.split(flown.coords, flown.offsets[1:-1])]
    clear = all(
        (airspace.contacts(of, *levels, around.spaces, within_nm=2.0, within_ft=500.0, terrain=around.terrain).state
         == airspace.CLEAR).all()
        for of in (first, shapes.gather([lines], filled=False))
    )  # fmt: skip
    return spare, bool(spare >= 0.0 and ground.unknown is None and clear and (limit_test_rows(hold)["ok"] == 1).all())


@pytest.fixture(scope="module")
def around():
    return surroundings()


@pytest.fixture(scope="module")
def proposals(around):
    return found(around=around)


def test_each_proposal_passes_the_tests_of_a_built_area(proposals, around):
    made = built(proposals)
    assert (made.reasons == "").all() and len(made.rows) == len(proposals.plan["rank"]) >= 5
    for i in range(len(made.rows)):
        spare, good = stands(around, made, i)
        assert good and spare == proposals.plan["margin_terrain_ft"][i]


def test_every_place_that_passes_is_proposed_or_near_one_that_is(proposals, around):
    """All places of the steps, each tested as a built area is; airspace that counts from the ground lies low, so that
    its bound decides as a close look does."""
    where = search.places(2, 60, 8.0, 24.0, 8.0)
    rows = [(n, r, d, t) for n, r, d in zip(*where) for t in ("right", "left")]
    everything = {
        "exercise": [f"X{k}" for k in range(len(rows))], "navaid": [TWO["ident"][row[0]] for row in rows],
        "radial_deg": [row[1] for row in rows], "distance_nm": [row[2] for row in rows],
        "distance_kind": ["slant"] * len(rows), "turn": [row[3] for row in rows], "leg_min": [1.0] * len(rows),
        "ias_kt": [95.0] * len(rows), "area_ias_kt": [120.0] * len(rows), "alt_ft": [4000.0] * len(rows),
        "alt_to_ft": [5000.0] * len(rows), "rules": ["icao"] * len(rows),
    }  # fmt: skip
    made = plan.build(everything, TWO, **DAY)
    heard = plan_reception(made, around)
    home = geodesy.inverse(*HOME, made.holds["lon"], made.holds["lat"])[2]
    passing = {
        (row[0], row[1], row[2], row[3])
        for k, row in enumerate(rows)
        if home[k] <= 30.0 and heard[k] and stands(around, made, k)[1]
    }
    chosen = {
        (list(TWO["ident"]).index(n), r, d, t)
        for n, r, d, t in zip(*(proposals.plan[name] for name in ("navaid", "radial_deg", "distance_nm", "turn")))
    }
    assert chosen <= passing
    one_side = {place[:3] for place in passing}
    near = {place[:3] for place in chosen}
    for place in one_side - near:  # all others lie too near one that was chosen
        k = next(i for i, row in enumerate(rows) if row[:3] == place)
        apart = geodesy.inverse(
            made.holds["lon"][k], made.holds["lat"][k], proposals.holds["lon"], proposals.holds["lat"]
        )[2]
        assert apart.min() < WISHES.spacing_nm
    assert 0 < len(passing) < len(rows)


def plan_reception(made, around):
    from fixwright.geometry.plan import reception

    heard = reception.heard(made.holds, TWO)
    tests = reception.test_rows(made.holds, heard, rules=0, terrain=around.terrain)
    bad = {hold for hold, ok in zip(tests["hold"], tests["ok"]) if ok != 1}
    return [hold not in bad for hold in made.holds["hold"]]


def test_the_order_is_that_of_the_score(proposals):
    assert (np.diff(proposals.plan["score"]) <= 0.0).all()
    assert proposals.plan["rank"].tolist() == list(range(1, len(proposals.plan["rank"]) + 1))


def test_proposals_lie_apart(proposals):
    lon, lat = proposals.holds["lon"], proposals.holds["lat"]
    for i in range(len(lon)):
        apart = np.delete(geodesy.inverse(lon[i], lat[i], lon, lat)[2], i)
        assert apart.min() >= WISHES.spacing_nm


def test_areas_that_do_not_overlap(around):
    out = found(around=around, overlap=False)
    made = built(out)
    areas = shapes.gather(
        [area_of(made.areas, key)["basic"] + area_of(made.areas, key)["entry"] for key in made.holds["hold"]],
        filled=True,
    )
    from fixwright.geometry import meetings

    assert len(out.plan["rank"]) >= 2
    assert len(meetings.meetings(areas, areas, 0.0, once=True).row) == 0
    assert len(out.plan["rank"]) < len(found(around=around).plan["rank"])


def test_areas_that_overlap_by_a_hair():
    """Two areas moved apart until they hardly touch: only the close look tells, and it tells what meetings does."""
    from fixwright.geometry import meetings

    def two(apart_nm):
        lon, lat, _ = geodesy.direct(*HOME, 70.0, apart_nm)
        rows = {"exercise": ["A", "B"], "lat": [HOME[1], float(lat)], "lon": [HOME[0], float(lon)]}
        same = {"inbound_deg": 200.0, "north": "true", "ias_kt": 95.0, "area_ias_kt": 120.0, "alt_ft": 4000.0}
        made = plan.build({**rows, **{name: [value] * 2 for name, value in same.items()}}, TWO, **DAY)
        areas = [shapes.gather([area_of(made.areas, key)["basic"] + area_of(made.areas, key)["entry"]], filled=True)
                 for key in ("A", "B")]  # fmt: skip
        many = Candidates(HOME, 30.0, made.kept, Surroundings(), go)
        return many, bool(len(meetings.meetings(*areas, 0.0).row))

    low, high = 1.0, 30.0
    while high - low > 0.002:
        middle = (low + high) / 2.0
        low, high = (middle, high) if two(middle)[1] else (low, middle)
    together, apart = two(low)[0], two(high)[0]
    assert together.overlap(0, 1, True) and together.overlap(1, 0, True)
    assert not together.overlap(0, 1, False) and two(low - 1.0)[0].overlap(0, 1, False)
    assert not apart.overlap(0, 1, True) and not two(30.0)[0].overlap(0, 1, True)


def test_the_counts_add_up(proposals):
    assert proposals.counts["candidates"].sum() == proposals.looked_at == 2 * 6 * 3 * 2
    counts = dict(zip(proposals.counts["test"], proposals.counts["candidates"]))
    assert counts["chosen"] == len(proposals.plan["rank"])
    assert {"home", "minimum_altitude", "airspace"} <= set(counts)
    assert set(counts) <= set(searching.FATES)


def test_what_was_not_given_is_said():
    said = " ".join(found().notes)
    for word in ("terrain was not tested", "obstacles were not tested", "airspace was not tested"):
        assert word in said
    assert np.isnan(found().plan["margin_terrain_ft"]).all() and np.isnan(found().plan["margin_airspace_nm"]).all()


def test_the_area_and_the_flight_are_those_of_a_built_area(around):
    """Made once in the frame and placed: the same vertices as built one by one."""
    out = found(around=around, count=3)
    made = built(out)
    many = Candidates(HOME, 30.0, made.kept, around, go)
    for i, key in enumerate(made.holds["hold"]):
        theirs = area_of(made.areas, key)
        for part, rings in many.polygons(i).items():
            for mine, other in zip(rings, theirs[part]):
                assert all((a == b).all() for a, b in zip(mine, other))
        flown = plan.fly_plan(out.plan, made.rows, made.kept, None, plan.FlightDay("2026-09-01")).flown
        one = flown.columns["hold"] == key
        coords = np.concatenate([flown.coords[a:b] for a, b, mine in
                                 zip(flown.offsets[:-1], flown.offsets[1:], one) if mine])  # fmt: skip
        lon, lat = geodesy.place(*many._at(i), *np.concatenate(many._track).T)
        assert np.abs(np.stack([lon, lat], axis=1) - coords).max() < 1e-9


@pytest.mark.parametrize(("towards", "turned"), [(True, 180.0), (False, 0.0)])
def test_the_inbound_course(towards, turned):
    """On the radial, towards the station or away from it: by the selector it is the radial or its reciprocal."""
    out = found(towards=towards)
    course = (out.plan["radial_deg"] + turned) % 360.0
    assert (out.plan["inbound_deg"] % 360.0 == course).all()
    off = (out.holds["inbound_station_deg"] - out.plan["inbound_deg"] + 180.0) % 360.0 - 180.0
    assert np.abs(off).max() < 1e-6
    to_station = geodesy.inverse(out.holds["lon"], out.holds["lat"], out.holds["navaid_lon"], out.holds["navaid_lat"])
    off = (out.holds["inbound_true_deg"] - to_station[0] + (180.0 - turned) + 180.0) % 360.0 - 180.0
    assert np.abs(off).max() < 1e-6


def test_a_beacon_with_a_distance():
    """Of an NDB the bearing is read at the fix; its class says nothing of its DME, so it needs classless."""
    beacon = table(("QXN", "NDB/DME", -40.1, 43.05, "MH"))
    assert not len(found(navaids=beacon).plan["rank"])
    out = found(navaids=beacon, classless=True)
    assert len(out.plan["rank"]) and set(out.plan["navaid_kind"]) == {"NDB/DME"}
    made = plan.build(out.plan, beacon, **DAY)
    assert (made.reasons == "").all()
    assert (made.holds["inbound_true_deg"] == out.holds["inbound_true_deg"]).all()
    assert np.abs((made.holds["radial_deg"] - out.plan["radial_deg"] + 180.0) % 360.0 - 180.0).max() < 1e-6


def test_unknown_class_is_left_out_unless_asked():
    unknown = table(("QXA", "VOR/DME", -40.1, 43.05, ""))
    out = found(navaids=unknown)
    assert not len(out.plan["rank"]) and "service_volume" in out.counts["test"]
    assert len(found(navaids=unknown, classless=True).plan["rank"])


def test_navaids_that_do_not_define_a_fix_are_left_out():
    others = table(("QXV", "VOR", -40.1, 43.0, "H"), ("QXD", "DME", -40.1, 43.0, "H"), ("QXW", "WPT", -40.0, 43.0, ""))
    out = found(navaids=others)
    assert out.looked_at == 0 and "3 navaids within reach give no radial and distance" in " ".join(out.notes)
    assert searching.nothing_found(out).startswith("No navaid within reach of home")


def test_idents_that_are_not_told_apart():
    """Two alike are left out; with an id each they are used, and the plan names the id."""
    twins = table(("QXA", "VOR/DME", -40.1, 43.05, "H"), ("QXA", "VOR/DME", -39.8, 42.9, "H"))
    out = found(navaids=twins)
    assert out.looked_at == 0 and "left out: QXA" in " ".join(out.notes)
    twins["id"] = np.array(["1", "2"], dtype=object)
    out = found(navaids=twins)
    assert set(out.plan["navaid_id"]) == {"1", "2"}
    made = plan.build(out.plan, twins, **DAY)
    assert (made.reasons == "").all() and (made.holds["lon"] == out.holds["lon"]).all()


def test_out_of_service():
    silent = {**TWO, "status": np.array(["out of service", ""], dtype=object)}
    assert set(found(navaids=silent).plan["navaid"]) == {"QXB"}


@pytest.mark.parametrize(
    ("more", "test"),
    [
        ({"ias_kt": 250.0, "area_ias_kt": np.nan}, "speed"),
        ({"ias_kt": 140.0, "area_ias_kt": 120.0}, "area_speed"),
        ({"radius_nm": 0.5}, "home"),
    ],
)
def test_limits_that_all_break(more, test):
    out = found(**more)
    assert not len(out.plan["rank"]) and test in out.counts["test"]
    said = searching.nothing_found(out)
    assert said.startswith("No hold passes every test: 72 places were looked at; of ") and said.count(".") == 1


def test_the_leg_is_the_standard_of_the_highest_level():
    """Source: ICAO Doc 8168 Vol II, II-4-1, 1.3.4 (one minute up to 14 000 ft, one and a half above)."""
    assert set(found(alt_ft=13000.0, alt_to_ft=15000.0).plan["leg_min"]) == {1.5}
    assert set(found().plan["leg_min"]) == {1.0}


def test_one_level():
    out = found(alt_to_ft=np.nan)
    assert np.isnan(out.plan["alt_to_ft"]).all() and (out.holds["alt_to_ft"] == 4000.0).all()


def test_across_the_antimeridian():
    """The same places, 220 degrees farther east: the same pass, with the same to spare."""

    def passing(out):
        names = ("navaid", "radial_deg", "distance_nm", "turn")
        margins = zip(*(out.plan[name] for name in ("margin_terrain_ft", "margin_airspace_nm", "home_nm")))
        return dict(zip(zip(*(out.plan[name] for name in names)), margins))

    here = passing(found(around=surroundings(), spacing_nm=0.0, count=500))
    there = passing(found(around=surroundings(220.0), spacing_nm=0.0, count=500, home=(180.0, 43.0),
                          navaids={**TWO, "lon": TWO["lon"] + 220.0 - np.array([0.0, 360.0])}))  # fmt: skip
    assert len(here) >= 10 and set(here) == set(there)
    for place, margins in here.items():
        assert margins == pytest.approx(there[place], abs=1e-6)


def test_stopped_at_once(around):
    out = find(WISHES, TWO, around, **DAY, go_on=lambda share: False)
    assert not len(out.plan["rank"]) and "stopped" in out.counts["test"]


def test_too_many_places():
    with pytest.raises(searching.TooManyPlaces, match="no more than 300000"):
        found(radial_step_deg=1, from_nm=1.0, to_nm=24.0, step_nm=0.01)


def test_progress_rises(around):
    seen = []
    find(WISHES, TWO, around, **DAY, go_on=lambda share: seen.append(share) or True)
    assert seen == sorted(seen) and 0.0 <= seen[0] and seen[-1] <= 1.0


def test_terrain_that_ends(around):
    """Beyond the raster nothing passes."""
    west = around._replace(grid=array_grid(np.zeros((40, 30)), -40.2, 43.3, 1.0 / 60.0), spaces=None, obstacles=None,
                           terrain=None)  # fmt: skip
    out = found(around=west)
    assert not len(out.plan["rank"]) and "terrain_unknown" in out.counts["test"]


def test_far_airspace_counts_as_far():
    assert candidates.FAR_NM == 10.0
    ring = np.array([[-38.0, 42.8], [-37.9, 42.8], [-37.9, 42.95]])
    spaces = airspace.spaces(shapes.gather([[[ring]]], filled=True), ["GND"], ["UNL"])
    assert set(found(around=Surroundings(spaces=spaces)).plan["margin_airspace_nm"]) == {10.0}
