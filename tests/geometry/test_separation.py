"""Exercises that share the sky: pairs, what frees them, and the lowest level of each."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import geodesy, separation, shapes
from fixwright.geometry.plan import separations


def ring(lon, lat=45.0, radius_nm=5.0):
    x, y, _ = geodesy.direct(lon, lat, np.linspace(0.0, 360.0, 36, endpoint=False), radius_nm)
    return np.stack([geodesy.unwrap(x, lon), y], axis=1)


def areas(*lons):
    return shapes.gather([[[ring(lon)]] for lon in lons], filled=True)


def exercises(low, high, minimum=None):
    n = len(low)
    keys = np.array([f"E{i + 1:02d}" for i in range(n)], dtype=object)
    minimum = np.full(n, np.nan) if minimum is None else np.array(minimum, float)
    return separations.Exercises(
        keys, np.full(n, "FIX", dtype=object), np.array(low, float), np.array(high, float), minimum
    )


@pytest.mark.parametrize(
    ("low", "high", "gap", "ok"),
    [
        ((4000, 5000), (4000, 5000), 1000.0, 1),  # ICAO Doc 4444, 5.3.2 (from memory): 1 000 ft
        ((4000, 4900), (4000, 4900), 900.0, 0),
        ((4000, 4000), (4000, 4000), 0.0, 0),
        ((4000, 5000), (6000, 5000), -1000.0, 0),
        ((4000, 7000), (6000, 8000), 1000.0, 1),
        ((4000, np.nan), (6000, np.nan), np.nan, -1),
    ],
)
def test_levels_of_a_pair(low, high, gap, ok):
    found = separation.pairs(areas(20.0, 20.05), low, high)
    assert (found.first.tolist(), found.second.tolist()) == ([0], [1])
    assert found.gap_ft[0] == pytest.approx(gap, nan_ok=True)
    assert found.ok[0] == ok


def test_areas_apart_share_nothing():
    assert len(separation.pairs(areas(20.0, 20.5), [4000, 4000], [4000, 4000]).first) == 0
    near = separation.pairs(areas(20.0, 20.25), [4000, 4000], [4000, 4000], within_nm=2.0)
    assert near.ok.tolist() == [0] and 0.0 < near.distance_nm[0] < 2.0
    assert len(separation.pairs(areas(20.0, 20.25), [4000, 4000], [4000, 4000]).first) == 0


def test_a_stack_at_one_fix():
    """Four exercises over one fix at 3, 4, 4.5 and 6 thousand feet: 4.5 is not separated from 4, all others are."""
    low = np.array([3000.0, 4000.0, 4500.0, 6000.0])
    found = separation.pairs(areas(20.0, 20.0, 20.0, 20.0), low, low)
    assert len(found.first) == 6
    bad = found.ok == 0
    assert list(zip(found.first[bad], found.second[bad])) == [(1, 2)]
    made = separations.separation_test_rows(exercises(low, low), found, separation_ft=1000.0, step_ft=100.0)
    assert made["ok"].tolist() == [1, 0, 0, 1]
    assert "At 4 500 ft not 1 000 ft from E02 (4 000 ft); free of all from 5 000 ft up" in made["text"][2]
    # E02 is free of E03 at 5 500, but there E04 at 6 000 is too near: 7 000
    assert "free of all from 7 000 ft up" in made["text"][1]
    pairs = separations.pair_rows(exercises(low, low), found, np.zeros(6), separation_ft=1000.0, step_ft=100.0)
    (k,) = np.flatnonzero(bad)
    assert (pairs["free_ft"][k], pairs["free_2_ft"][k]) == (5500.0, 5000.0)
    assert (
        "500 ft between their levels, 1 000 ft needed. Free with E02 at 5 500 ft or above, or E03 at 5 000 ft or"
        in (pairs["text"][k])
    )
    good = np.flatnonzero(~bad)
    np.testing.assert_array_equal(pairs["free_ft"][good], low[found.first[good]])


def test_blocks_keep_their_thickness():
    """4 000 to 6 000 under 7 500 to 8 000: the bottom would have to be 4 500 lower than 8 000, or 9 000."""
    found = separation.pairs(areas(20.0, 20.0), [5000.0, 7500.0], [7000.0, 8000.0])
    bands = separation.pair_bands(found, [5000.0, 7500.0], [7000.0, 8000.0])
    first = bands.row.tolist().index(0)
    assert (bands.from_ft[first], bands.to_ft[first]) == (7500.0 - 1000.0 - 2000.0, 8000.0 + 1000.0)
    assert separation.lowest_levels([5000.0, np.nan], bands).tolist()[0] == 9000.0
    assert separation.lowest_levels([4400.0, np.nan], bands).tolist()[0] == 4400.0


def test_the_lowest_level_and_what_takes_those_below():
    """Terrain to 2 330 ft, a zone to 3 000, an exercise at 4 000: 2 400 and 2 500 lie in the zone's 500 ft, 3 500 too
    near the exercise, 5 000 is the first that is free."""
    of = exercises([5000.0, 4000.0], [5000.0, 4000.0], [2330.0, np.nan])
    found = separation.pairs(areas(20.0, 20.0), of.low_ft, of.high_ft)
    contacts = separation.airspace_bands([0], [-np.inf], [3000.0], 500.0, [0.0], [0])
    bands = separations.all_bands(of, found, contacts, 1000.0)
    lowest, made = separations.lowest_rows(of, bands, ["Zone"], step_ft=100.0)
    assert lowest.tolist() == [5000.0, 4000.0]
    assert made["ok"].tolist() == [1, None]
    assert made["value"].tolist() == [5000.0, 4000.0]
    assert made["text"][0] == (
        "Lowest usable level 5 000 ft: the minimum altitude takes all below 2 330 ft; Zone takes all below 3 500 ft; "
        "the exercise E02 at 4 000 ft takes 3 000 ft to 5 000 ft"
    )
    assert "No minimum altitude is known" in made["text"][1]
    rows = separations.level_rows(of, bands, lowest, ["Zone"])
    assert rows["cause"].tolist()[:3] == ["minimum_altitude", "airspace", "exercise"]
    assert rows["who"].tolist()[:3] == ["", "Zone", "E02"]
    assert set(rows["lowest_ft"][rows["hold"] == "E01"]) == {5000.0}


def test_a_planned_level_that_is_taken_fails():
    of = exercises([2800.0], [2800.0], [2000.0])
    contacts = separation.airspace_bands([0], [-np.inf], [3000.0], 500.0, [0.0], [0])
    none = separation.pairs(areas(20.0), of.low_ft, of.high_ft)
    lowest, made = separations.lowest_rows(
        of, separations.all_bands(of, none, contacts, 1000.0), ["Zone"], step_ft=100.0
    )
    assert (made["ok"].tolist(), lowest.tolist()) == ([0], [3500.0])


def test_no_level_at_all():
    of = exercises([2800.0], [2800.0], [2000.0])
    contacts = separation.airspace_bands([0], [2500.0], [np.inf], 500.0, [0.0], [0])
    none = separation.pairs(areas(20.0), of.low_ft, of.high_ft)
    bands = separations.all_bands(of, none, contacts, 1000.0)
    lowest, made = separations.lowest_rows(of, bands, ["Zone"], step_ft=100.0)
    assert np.isnan(lowest[0]) or lowest[0] == 2000.0
    assert lowest[0] == 2000.0  # 2 000 is 500 ft below the zone
    of = exercises([2800.0], [2800.0], [2100.0])
    bands = separations.all_bands(of, none, contacts, 1000.0)
    lowest, made = separations.lowest_rows(of, bands, ["Zone"], step_ft=100.0)
    assert (
        np.isnan(lowest[0])
        and "No usable level" in made["text"][0]
        and "Zone takes all above 2 000 ft" in made["text"][0]
    )


def test_airspace_edges_as_the_airspace_test_takes_them():
    """With a distance its far end is usable, with none the limits themselves are not."""
    for within, level, free in (
        (500.0, 5000.0, True),
        (500.0, 4999.0, False),
        (0.0, 4500.0, False),
        (0.0, 4501.0, True),
    ):
        bands = separation.airspace_bands([0], [-np.inf], [4500.0], within, [0.0], [0])
        assert separation.usable(level, bands, np.array([0]))[0] == free
        from fixwright.geometry.airspace import CLEAR, vertical

        assert (int(vertical(level, level, -np.inf, 4500.0, within)[2]) == CLEAR) == free


@given(
    st.lists(st.tuples(st.integers(0, 200), st.integers(0, 60), st.booleans()), max_size=8), st.integers(0, 100),
    st.sampled_from([100.0, 500.0, 1000.0]),
)  # fmt: skip
def test_the_lowest_level_is_the_first_of_all_steps_that_is_free(pieces, start, step):
    """Against a walk through every step."""
    n = len(pieces)
    low = np.array([100.0 * a for a, _, _ in pieces])
    high = low + np.array([100.0 * b for _, b, _ in pieces])
    bands = separation.Bands(np.zeros(n, dtype=int), low, high, np.array([c for *_, c in pieces], dtype=bool),
                             np.full(n, "x", dtype=object), np.arange(n))  # fmt: skip
    got = separation.lowest_levels([100.0 * start], bands, step_ft=step)[0]
    level = step * np.ceil(100.0 * start / step)
    while not all(
        not (a < level < b or (closed and a <= level <= b))
        for a, b, closed in zip(bands.from_ft, bands.to_ft, bands.closed)
    ):
        level += step
    assert got == level


def test_calls_that_make_no_sense():
    with pytest.raises(ValueError, match="separation_ft"):
        separation.pairs(areas(20.0), [1.0], [1.0], separation_ft=-1.0)
    with pytest.raises(ValueError, match="step_ft"):
        separation.lowest_levels([1.0], separation.minimum_bands([0], [1.0]), step_ft=0.0)
