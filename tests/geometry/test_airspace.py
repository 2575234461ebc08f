"""Airspace and the levels flown: what is too near, what is clear, and what cannot be told."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import airspace, geodesy, shapes
from fixwright.geometry.airspace import CLEAR, CONTACT, UNKNOWN
from fixwright.geometry.plan import airspaces


def ring(lon, lat, radius_nm, n=48):
    x, y, _ = geodesy.direct(lon, lat, np.linspace(0.0, 360.0, n, endpoint=False), radius_nm)
    return np.stack([geodesy.unwrap(x, lon), y], axis=1)


AREA = shapes.gather([[[ring(20.0, 45.0, 5.0)]]], filled=True)


def zone(*limits, lon=20.0, radius_nm=8.0, **more):
    """Airspaces of one disc each, one for each pair of limits."""
    made = shapes.gather([[[ring(lon, 45.0, radius_nm)]] for _ in limits], filled=True)
    lower, upper = zip(*limits)
    return airspace.spaces(made, lower, upper, **more)


def found(others, low, high=None, **more):
    more = {"within_nm": 2.0, "within_ft": 500.0, **more}
    return airspace.contacts(AREA, low, low if high is None else high, others, **more)


# --- in height, by hand


@pytest.mark.parametrize(
    ("low", "high", "lower", "upper", "gap", "above", "state"),
    [
        (4000.0, 4000.0, -np.inf, 3500.0, 500.0, True, CLEAR),
        (4000.0, 4000.0, -np.inf, 3501.0, 499.0, True, CONTACT),
        (4000.0, 4000.0, 4500.0, 9500.0, 500.0, False, CLEAR),
        (4000.0, 5000.0, 5300.0, np.inf, 300.0, False, CONTACT),
        (4000.0, 5000.0, 4500.0, np.inf, -500.0, False, CONTACT),
        (4000.0, 4000.0, -np.inf, 4500.0, -500.0, None, CONTACT),
        (4000.0, 4000.0, -np.inf, np.inf, -np.inf, None, CONTACT),
        (np.nan, np.nan, -np.inf, np.inf, -np.inf, None, CONTACT),
        (np.nan, np.nan, 3000.0, 5000.0, np.nan, None, UNKNOWN),
        (4000.0, 4000.0, np.nan, 3000.0, 1000.0, True, CLEAR),
        (4000.0, 4000.0, np.nan, 4500.0, np.nan, None, UNKNOWN),
        (4000.0, 4000.0, 6000.0, np.nan, 2000.0, False, CLEAR),
        (4000.0, 4000.0, -np.inf, np.nan, np.nan, None, UNKNOWN),
        (4000.0, 4000.0, np.nan, np.nan, np.nan, None, UNKNOWN),
    ],
)
def test_levels(low, high, lower, upper, gap, above, state):
    got = airspace.vertical(low, high, lower, upper, 500.0)
    assert float(got[0]) == pytest.approx(gap, nan_ok=True)
    assert above is None or bool(got[1]) == above
    assert int(got[2]) == state


def test_a_shared_limit_with_no_distance_asked():
    """At 0 ft to keep, touching is too near and a foot more is clear."""
    assert int(airspace.vertical(4500.0, 4500.0, -np.inf, 4500.0, 0.0)[2]) == CONTACT
    assert int(airspace.vertical(4501.0, 4501.0, -np.inf, 4500.0, 0.0)[2]) == CLEAR


@given(*[st.floats(0.0, 50_000.0)] * 4, st.floats(0.0, 3000.0))
def test_clear_means_no_level_within_the_distance(a, b, c, d, within):
    low, high, lower, upper = min(a, b), max(a, b), min(c, d), max(c, d)
    gap, _, state = airspace.vertical(low, high, lower, upper, within)
    share = low <= upper and lower <= high
    nearest = 0.0 if share else min(abs(low - upper), abs(lower - high))
    assert (int(state) == CLEAR) == (not share and nearest >= within)
    assert max(float(gap), 0.0) == pytest.approx(nearest)


@given(st.floats(0.0, 20_000.0), st.floats(0.0, 20_000.0), st.booleans())
def test_less_known_is_never_clearer(low, lower, hide_lower):
    upper = lower + 2000.0
    _, _, known = airspace.vertical(low, low + 500.0, lower, upper, 300.0)
    hidden = (np.nan, upper) if hide_lower else (lower, np.nan)
    _, _, less = airspace.vertical(low, low + 500.0, *hidden, 300.0)
    assert int(less) in (int(known), UNKNOWN)
    assert int(less) != CONTACT


# --- limits as written


def test_limits_and_qnh():
    """QNH 977.17 hPa is the pressure at 1 000 ft of the standard atmosphere (ICAO Doc 7488): FL 55 is 4 500 ft."""
    others = zone(("FL 55", "FL 95"))
    high, low = found(others, 4000.0), found(others, 4000.0, qnh_hpa=977.166)
    assert high.gap_ft[0] == pytest.approx(1500.0) and high.state[0] == CLEAR
    assert low.gap_ft[0] == pytest.approx(500.0, abs=0.3)
    assert low.lower_ft[0] == pytest.approx(4500.0, abs=0.3)
    assert found(others, 4000.0, qnh_hpa=970.0).state[0] == CONTACT


def test_empty_limits_protect_and_are_said():
    others = zone(("", ""), ("GND", ""), (None, "3000 ft AMSL"))
    got = found(others, 4000.0)
    assert dict(zip(got.space.tolist(), got.state.tolist())) == {0: CONTACT, 1: CONTACT, 2: CLEAR}
    assert others.problems.tolist() == ["", "", ""]
    said = airspace.said(others, got, 1013.25)
    assert "the upper limit is empty: taken as none" in said[got.space.tolist().index(0)]


def test_a_limit_that_cannot_be_read_is_not_passed():
    others = zone(("GND", "by NOTAM"), ("FL 65", "by NOTAM"), ("GND", "3000 ft AMSL"))
    got = found(others, 4000.0)
    assert dict(zip(got.space.tolist(), got.state.tolist())) == {0: UNKNOWN, 1: CLEAR, 2: CLEAR}
    assert others.problems[0].startswith("upper limit: 'by NOTAM' says") and others.problems[2] == ""


def test_limits_in_the_wrong_order():
    others = zone(("FL 95", "FL 65"), ("FL 65", "6400 ft AMSL"))
    assert "lies above its upper one" in others.problems[0] and others.problems[1] == ""
    got = found(others, 6000.0)
    assert (got.state == UNKNOWN).all()
    assert all("lower limit" in text for text in airspace.said(others, got, 1013.25))


# --- above the ground


class Ground:
    """A slope to the east: 100 ft a hundredth of a degree from 20 E on; cells of a hundredth."""

    def __init__(self, hole=None):
        self.hole, self.asked = hole, 0

    def cells(self, lon, lat):
        return np.full(np.shape(lon), 0.4), np.full(np.shape(lon), 0.6)

    def highest_ft(self, lon, lat):
        self.asked += len(lon)
        out = np.floor((lon - 19.0) * 100.0) * 100.0
        return out if self.hole is None else np.where(lon > self.hole, np.nan, out)


def test_above_the_ground_needs_the_ground():
    others = zone(("GND", "1500 ft AGL"), ("1000 ft AGL", "FL 95"))
    got = found(others, 4000.0)
    assert (got.state == UNKNOWN).all()
    assert all("which is not known there" in text for text in airspace.said(others, got, 1013.25))


def test_above_the_ground_counts_from_the_highest_up_and_the_lowest_down():
    """A disc of 1 NM about 20 E 45 N reaches 0.0236 degrees either way: it touches ground of 9 700 to 10 200 ft. Cells
    within one diagonal of it, 0.6 NM or 0.014 degrees, may count too: 9 600 to 10 300 ft."""
    others = zone(("1000 ft AGL", "1500 ft AGL"), radius_nm=1.0)
    got = found(others, 13_000.0, terrain=Ground())
    assert 9600.0 + 1000.0 <= got.lower_ft[0] <= 9700.0 + 1000.0
    assert 10_200.0 + 1500.0 <= got.upper_ft[0] <= 10_300.0 + 1500.0
    assert (got.gap_ft[0], got.state[0]) == (13_000.0 - got.upper_ft[0], CLEAR)


def test_only_ground_within_reach_counts():
    """An airspace of 60 NM: the ground far away from the area does not raise its limit here."""
    others = zone(("GND", "1500 ft AGL"), radius_nm=60.0)
    got = found(others, 13_000.0, terrain=Ground())
    reach = (7.0 + 0.6) / 42.5  # 5 + 2 NM and a cell's diagonal in degrees of longitude at 45 N
    touched = 10_000.0 + math.floor(7.0 / 42.5 * 100.0) * 100.0
    assert 1500.0 + touched <= got.upper_ft[0] <= 1500.0 + 10_000.0 + math.ceil(reach * 1.05 * 100.0) * 100.0


def test_ground_that_is_not_known_somewhere():
    others = zone(("GND", "1500 ft AGL"))
    assert found(others, 13_000.0, terrain=Ground(hole=20.05)).state[0] == UNKNOWN
    assert found(others, 13_000.0, terrain=Ground(hole=25.0)).state[0] != UNKNOWN


def test_a_hole_in_the_ground_is_seen_however_many_points_are_read_at_a_time(monkeypatch):
    class South(Ground):
        def highest_ft(self, lon, lat):
            return np.where(lat < 44.95, np.nan, super().highest_ft(lon, lat))

    monkeypatch.setattr(airspace, "_POINTS_AT_A_TIME", 60)
    others = zone(("GND", "1500 ft AGL"))
    assert found(others, 14_000.0, terrain=South()).state[0] == UNKNOWN
    whole = found(others, 14_000.0, terrain=Ground())
    monkeypatch.undo()
    assert whole.upper_ft[0] == found(others, 14_000.0, terrain=Ground()).upper_ft[0]


def test_ground_under_a_radius_and_a_corridor():
    place = airspace.spaces(
        shapes.gather([[[np.array([[20.0, 45.0]])]], [[np.array([[20.0, 44.9], [20.0, 45.1]])]]], filled=False,
                      width_nm=1.0),
        ["GND", "GND"], ["1500 ft AGL", "1500 ft AGL"],
    )  # fmt: skip
    got = found(place, 13_000.0, terrain=Ground())
    assert ((got.upper_ft >= 10_200.0 + 1500.0) & (got.upper_ft <= 10_300.0 + 1500.0)).all()


def test_the_ground_is_not_read_where_no_limit_needs_it():
    ground = Ground()
    found(zone(("GND", "4500 ft AMSL"), ("FL 65", "UNL")), 4000.0, terrain=ground)
    assert ground.asked == 0


def test_bad_distances():
    with pytest.raises(ValueError, match="within_ft"):
        found(zone(("GND", "UNL")), 4000.0, within_ft=-1.0)
    with pytest.raises(ValueError, match="within_nm"):
        found(zone(("GND", "UNL")), 4000.0, within_nm=math.nan)


# --- what a pilot reads


def told(n, **more):
    columns = {"name": "Zone", "kind": "", "hours": "", "contact": "", "note": "", **more}
    return airspaces.Told(*(np.full(n, columns[name], dtype=object) for name in airspaces.Told._fields))


def rows(others, low, high=None, names=None, **more):
    got = found(others, low, high, **more)
    names = told(len(others.shapes), **(names or {}))
    columns = airspaces.contact_rows(["H1"], "area", others, names, got, np.zeros(len(got.row)), 1013.25)
    return got, columns


def test_a_sentence_says_what_where_when_and_whom_to_call():
    _, columns = rows(zone(("GND", "4500 FT AMSL")), 4000.0,
                      names={"kind": "control zone", "hours": "H24", "contact": "Tower 118.350"})  # fmt: skip
    assert columns["text"].tolist() == [
        "The holding area lies inside Zone, control zone (GND to 4500 FT AMSL) and shares its levels. Hours: H24. "
        "Contact: Tower 118.350"
    ]
    assert (columns["ok"][0], columns["distance_ft"][0], columns["relation"][0]) == (0, 0.0, "inside")


@pytest.mark.parametrize(
    ("low", "limits", "lon", "said"),
    [
        (5200.0, ("GND", "4500 ft AMSL"), 20.0, "lies inside Zone (GND to 4500 ft AMSL), 700 ft above it"),
        (6000.0, ("FL 65", "FL 95"), 20.2, "overlaps Zone (FL 65 to FL 95), 500 ft below it"),
        (4500.0, ("GND", "4500 ft AMSL"), 20.2, "overlaps Zone (GND to 4500 ft AMSL) and touches its levels"),
        (4000.0, ("GND", "UNL"), 20.34, "comes within 1.5 NM of Zone (GND to UNL) and shares its levels"),
        (4000.0, ("GND", "by NOTAM"), 20.0, "(GND to by NOTAM); how they lie in height cannot be told"),
    ],
)
def test_sentences(low, limits, lon, said):
    _, columns = rows(zone(limits, lon=lon), low)
    assert said in columns["text"][0]


def test_tests_of_holds():
    others = zone(("GND", "3000 ft AMSL"), ("GND", "4500 ft AMSL"), ("GND", "by NOTAM"))
    got, columns = rows(others, 4000.0)
    made = airspaces.airspace_test_rows(["H1"], "area", columns, got, within_nm=2.0, within_ft=500.0)
    assert made["ok"].tolist() == [0, None]
    assert made["unit"].tolist() == ["NM", "NM"] and made["limit_value"].tolist() == [2.0, 2.0]
    assert set(made["hold"]) == {"H1"} and set(made["test"]) == {"airspace"}
    got, columns = rows(zone(("GND", "3000 ft AMSL"), ("FL 65", "UNL")), 4000.0)
    made = airspaces.airspace_test_rows(["H1"], "area", columns, got, within_nm=2.0, within_ft=500.0)
    assert (made["ok"].tolist(), made["value"].tolist(), made["unit"].tolist()) == ([1], [1000.0], ["ft"])
    assert "No airspace comes within 2.0 NM and 500 ft of the holding area; nearest in height" in made["text"][0]


def test_a_hold_far_from_everything_and_one_that_is_not_wholly_known():
    others = zone(("GND", "UNL"), lon=30.0)
    got, columns = rows(others, 4000.0)
    for unsure, ok in (("", 1), ("The hold has no area that counts", None)):
        made = airspaces.airspace_test_rows(["H1"], "area", columns, got, within_nm=2.0, within_ft=500.0,
                                            unsure=[unsure], left_out=2)  # fmt: skip
        assert made["ok"].tolist() == [ok]
        assert made["text"][0].startswith(unsure or "No airspace comes within")
        assert "2 airspaces without a known shape or width are not among it" in made["text"][0]
