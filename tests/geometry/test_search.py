"""Choosing among places: score, thinning, and bounds that never promise less than a close look finds.

What is compared with here: the same choice made by testing everything, the exact minimum altitudes and distances of the
project (which have their own outside checks), and geographiclib for distances.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import clearances, geodesy, meetings, obstacles, search, search_bounds, shapes
from fixwright.tests.geometry.terrain import array_grid

MIDDLE = (-40.0, 43.0)
NM_M = 1852.0

# Places, shares, scores


def test_the_places_of_two_navaids():
    found = search.places(2, 90, 10.0, 20.0, 5.0)
    assert len(found.navaid) == 2 * 4 * 3
    assert sorted(set(found.radial_deg)) == [90.0, 180.0, 270.0, 360.0]
    assert sorted(set(found.distance_nm)) == [10.0, 15.0, 20.0]
    assert len(set(zip(*found))) == 24


def test_steps_that_do_not_meet_the_end():
    found = search.places(1, 7, 1.0, 1.35, 0.1)
    assert found.radial_deg.max() == 357.0
    assert sorted(set(found.distance_nm)) == pytest.approx([1.0, 1.1, 1.2, 1.3])


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ((1, 0, 1.0, 2.0, 1.0), "radial_step_deg is 0"),
        ((1, 7.5, 1.0, 2.0, 1.0), "radial_step_deg is 7.5"),
        ((1, 10, 3.0, 2.0, 1.0), "from_nm is 3.0 and to_nm 2.0"),
        ((1, 10, 0.0, 2.0, 1.0), "from_nm is 0.0"),
        ((1, 10, 1.0, 2.0, 0.0), "step_nm is 0.0"),
    ],
)
def test_places_that_make_no_sense(asked, said):
    with pytest.raises(ValueError, match=said):
        search.places(*asked)


margin_values = st.floats(0.0, 1e5, allow_nan=False)


@given(st.fixed_dictionaries({name: margin_values for name in search.MARGINS}), st.sampled_from(sorted(search.MARGINS)),
       st.floats(0.01, 1e4))  # fmt: skip
def test_the_score_grows_with_each_margin(margins, name, more):
    """More to spare, a smaller slip, a shorter way home: never less, and within sensible figures strictly more."""
    better = {**margins, name: margins[name] + more if search.MARGINS[name].more else max(margins[name] - more, 0.0)}
    before, after = (float(search.score({k: np.array([v]) for k, v in m.items()})[0]) for m in (margins, better))
    assert 0.0 <= before <= after <= 100.0
    half = search.MARGINS[name].half
    if abs(better[name] - margins[name]) > 1e-6 * half and max(margins[name], better[name]) < 1000.0 * half:
        assert after > before


def test_what_was_not_tested_does_not_count():
    assert search.score({"home": [0.0], "slip": [0.0]})[0] == 100.0
    assert search.score({"home": [20.0], "terrain": [np.inf]})[0] == 75.0
    with pytest.raises(ValueError, match="margins is empty"):
        search.score({})


# The choice


def everything_tested(exact, fails, place, spacing, count):
    """The same choice by looking at all: sorted, the first kept, what is too near it left out."""
    chosen = []
    for i in sorted(range(len(exact)), key=lambda i: (-exact[i], i)):
        if len(chosen) < count and not fails[i] and all(abs(place[i] - place[j]) >= spacing for j in chosen):
            chosen.append(i)
    return chosen


some_candidates = st.lists(
    st.tuples(st.integers(0, 12), st.integers(0, 6), st.integers(0, 6), st.booleans(), st.integers(0, 2),
              st.floats(0, 20)),
    max_size=25,
)  # fmt: skip


@given(some_candidates, st.floats(0, 8), st.integers(0, 12))
def test_the_choice_is_that_of_testing_everything(rows, spacing, count):
    """exact, what each of two looks takes off what was hoped for, whether and at which look it fails, its place."""
    exact = [row[0] for row in rows]
    place = np.array([row[5] for row in rows], dtype=float)
    looked = set()

    def look(i, stage):
        assert (i, stage) not in looked and (stage == 0 or (i, 0) in looked)
        looked.add((i, stage))
        score, _, last, fails, when, _ = rows[i]
        return "terrain" if fails and stage == when else "", score + (last if stage == 0 else 0)

    fails = [row[3] and row[4] < 2 for row in rows]
    most = np.array([row[0] + row[1] + row[2] for row in rows], dtype=float)
    found = search.pick(most, 2, look, lambda i: np.abs(place - place[i]), spacing_nm=spacing, count=count)
    assert found.chosen.tolist() == everything_tested(exact, fails, place, spacing, count)
    assert set(found.fate) <= {"terrain", search.CHOSEN, search.NEAR, search.NOT_NEEDED}
    assert (np.flatnonzero(found.fate == search.CHOSEN)).tolist() == sorted(found.chosen.tolist())
    assert all(fails[i] for i in np.flatnonzero(found.fate == "terrain"))


def test_only_what_may_be_the_best_is_looked_at():
    looked = []

    def look(i, stage):
        looked.append(i)
        return "", float(10 - i)

    most = np.arange(10.0, 0.0, -1.0)
    search.pick(most, 1, look, lambda i: np.full(10, 99.0), spacing_nm=1.0, count=3)
    assert looked == [0, 1, 2]


def test_what_clashes_is_left_out():
    asked = []

    def clashes(i, j, closely):
        asked.append(closely)
        return closely and i == 1

    found = search.pick(np.array([3.0, 2.0, 1.0]), 0, None, lambda i: np.full(3, 9.0), spacing_nm=1.0, count=3,
                        clashes=clashes)  # fmt: skip
    assert found.chosen.tolist() == [0, 2] and found.fate[1] == search.NEAR
    assert True in asked


def test_stopped():
    found = search.pick(np.array([3.0, 2.0, np.nan]), 0, None, lambda i: np.full(3, 9.0), spacing_nm=1.0, count=3,
                        go_on=lambda many: many < 1)  # fmt: skip
    assert found.fate.tolist() == [search.CHOSEN, search.STOPPED, ""]


# Bounds


def area_in_frame():
    """A lopsided hexagon about the fix, NM."""
    return [[np.array([[6.0, -2.0], [7.0, 3.0], [2.0, 7.0], [-5.0, 6.0], [-6.0, 0.0], [0.0, -3.0]])]]


def geographic(lon, lat, inbound, side, ring):
    """The same polygon on the earth, by geographiclib."""
    out = []
    for u, s in ring:
        bearing = inbound + side * math.degrees(math.atan2(s, u))
        line = Geodesic.WGS84.Direct(lat, lon, bearing, math.hypot(u, s) * NM_M)
        out.append((line["lon2"], line["lat2"]))
    return np.array(out)


def somewhere(rng, count, far_nm=40.0):
    x, y = rng.uniform(-far_nm, far_nm, (2, count)) / 1.5
    lon, lat, _ = geodesy.direct(*MIDDLE, np.degrees(np.arctan2(x, y)), np.hypot(x, y))
    return lon, lat, rng.uniform(0.0, 360.0, count), rng.choice([-1.0, 1.0], count)


def yes(share):
    return True


@pytest.mark.parametrize("lat", [0.0, 50.0, 75.0])
def test_the_plane_is_straight_enough(lat):
    """Places of a frame 30 NM about a fix up to the farthest from the middle, against geographiclib."""
    rng = np.random.default_rng(4)
    away, course = rng.uniform(0.0, search_bounds.FARTHEST_NM - 100.0, 40), rng.uniform(0.0, 360.0, 40)
    lon, lat_, _ = geodesy.direct(-40.0, lat, course, away)
    inbound, side = rng.uniform(0.0, 360.0, 40), rng.choice([-1.0, 1.0], 40)
    at = search_bounds.frames((-40.0, lat), lon, lat_, inbound, side, 30.0)
    uv = rng.uniform(-20.0, 20.0, (15, 2))
    for i in range(40):
        points = geographic(lon[i], lat_[i], inbound[i], side[i], uv)
        plane = shapes.to_plane(-40.0, lat, points)
        back = (plane - at.origin[i]) @ at.to_frame[i].T
        assert np.abs(back - uv).max() < search_bounds.SLACK_NM / 2.0


@pytest.mark.parametrize("cell_deg", [1.0 / 120.0, 1.0 / 1200.0, 0.05])
def test_the_least_that_terrain_asks_for(cell_deg):
    """Never more than the exact search finds; near it, or it would be of no use; unknown only where something is."""
    rng = np.random.default_rng(7)
    n = int(2.4 / cell_deg)
    rough = rng.uniform(0.0, 3000.0, (n // max(1, int(0.05 / cell_deg)) + 2,) * 2)
    heights = np.kron(rough, np.ones((max(1, int(0.05 / cell_deg)),) * 2))[:n, :n].copy()
    heights[: int(0.4 * n), : int(0.4 * n)] = np.nan
    grid = array_grid(heights, MIDDLE[0] - 1.2, MIDDLE[1] + 1.2, cell_deg)
    table = search_bounds.Table(area_in_frame(), 5.0)
    marks = search_bounds.terrain_marks(grid, MIDDLE, 60.0, yes)
    assert len(marks)
    rings = clearances.icao()
    lon, lat, inbound, side = somewhere(rng, 40)
    at = search_bounds.frames(MIDDLE, lon, lat, inbound, side, table.reach_nm)
    short, unknown = [], 0
    for i in range(40):
        frame = obstacles.Frame(lon[i], lat[i], inbound[i], side[i])
        exact = obstacles.minimum_altitudes([obstacles.in_frame(frame, area_in_frame(), rings)], grid, None)[0]
        least, missing = search_bounds.least_required_ft(marks, table, rings, at, i)
        assert least <= exact.required_ft + 1e-6
        assert not missing or exact.unknown is not None
        short.append(exact.required_ft - least)
        unknown += missing
    assert unknown > 0
    if cell_deg < 0.05:
        assert np.median(short) < 600.0


def test_the_least_that_obstacles_ask_for():
    rng = np.random.default_rng(9)
    lon, lat, inbound, side = somewhere(rng, 60)
    x, y, *_ = somewhere(rng, 50)
    of = shapes.gather([[[np.array([[a, b]])]] for a, b in zip(x, y)], filled=False, width_nm=0.1)
    made = obstacles.obstacles(of, name="mast", top_ft=rng.uniform(500.0, 3000.0, 50), vertical_ft=30.0)
    marks = search_bounds.obstacle_marks(made.boxes, made.top_ft + made.vertical_ft, MIDDLE)
    table, rings = search_bounds.Table(area_in_frame(), 5.0), clearances.icao()
    at = search_bounds.frames(MIDDLE, lon, lat, inbound, side, table.reach_nm)
    found = 0
    for i in range(60):
        frame = obstacles.Frame(lon[i], lat[i], inbound[i], side[i])
        exact = obstacles.minimum_altitudes([obstacles.in_frame(frame, area_in_frame(), rings)], None, made)[0]
        least, _ = search_bounds.least_required_ft(marks, table, rings, at, i)
        if np.isfinite(least):
            found += 1
            assert least <= exact.required_ft + 1e-6
    assert found > 20


@settings(deadline=None, max_examples=20)
@given(st.integers(0, 2**32 - 1))
def test_the_most_that_airspace_may_be_away(seed):
    """Edges, half-widths and radii; what lies inside is told apart; within reach no more than 1.5 NM too far."""
    rng = np.random.default_rng(seed)
    x, y, *_ = somewhere(rng, 6)
    turn = np.radians(np.arange(0.0, 360.0, 30.0))
    made, filled, width = [], [], []
    for k in range(6):
        size = rng.uniform(0.05, 0.3)
        ring = np.stack([x[k] + size * np.sin(turn) / 0.73, y[k] + size * np.cos(turn)], axis=1)
        made.append([[[ring], [ring[:4]], [ring[:1]]][k % 3]])
        filled.append(k % 3 == 0)
        width.append(0.0 if k % 3 == 0 else 2.0)
    of = shapes.gather(made, filled=filled, width_nm=width)
    table = search_bounds.Table(area_in_frame(), 12.0)
    marks = search_bounds.edge_marks(of, MIDDLE, 80.0)
    lon, lat, inbound, side = somewhere(rng, 8)
    at = search_bounds.frames(MIDDLE, lon, lat, inbound, side, table.reach_nm)
    within = search_bounds.inside(of, MIDDLE, at.origin)
    for i in range(8):
        area = geographic(lon[i], lat[i], inbound[i], side[i], area_in_frame()[0][0])
        met = meetings.meetings(shapes.gather([[[area]]], filled=True), of, 40.0)
        exact = met.distance_nm.min(initial=np.inf)
        most = search_bounds.most_apart_nm(marks, table, at, i)
        assert not within[i] or exact == 0.0
        if not within[i]:
            assert most >= min(exact, 11.0) - 1e-6
            assert exact > 9.0 or most <= exact + 1.5


def test_some_of_the_shapes():
    of = shapes.gather([[[np.array([[0.0, 0], [1, 0], [1, 1]])], [np.array([[5.0, 0], [6, 0], [6, 1]])]],
                        [[np.array([[2.0, 2], [3, 3]])]], [[np.array([[9.0, 9]])]]],
                       filled=[True, False, False], width_nm=[0.0, 1.0, 2.0])  # fmt: skip
    some = search_bounds.taken(of, np.array([0, 2]))
    assert len(some) == 2 and some.width_nm.tolist() == [0.0, 2.0]
    assert (shapes.edges(some).starts == shapes.edges(of).starts[[0, 1, 2, 3, 4, 5, 7]]).all()


def test_ground_that_none_exceeds():
    """The highest cell within a box, and NaN where one is not known."""
    heights = np.zeros((200, 200))
    heights[100, 100] = 4000.0
    heights[190, 100] = np.nan
    grid = array_grid(heights, MIDDLE[0] - 1.0, MIDDLE[1] + 1.0, 0.01)
    marks = search_bounds.terrain_marks(grid, MIDDLE, 65.0, yes)
    at = search_bounds.frames(MIDDLE, *(np.array([a]) for a in (*MIDDLE, 0.0, 1.0)), 10.0)
    wide = np.array([[-99.0, -99.0], [99.0, 99.0]])
    assert search_bounds.highest_ft(marks, at, 0, 10.0, wide) == 4000.0
    assert search_bounds.highest_ft(marks, at, 0, 10.0, np.array([[5.0, 5.0], [9.0, 9.0]])) == 0.0
    assert math.isnan(search_bounds.highest_ft(marks, at, 0, 60.0, wide))
