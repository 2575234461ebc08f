"""Many places in frames at once, against geodesy.place one by one (itself tested against geographiclib)."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import frame_map, geodesy


def off_by_m(lon, lat, inbound, side, u, s, starts):
    """How far each place of runs lies from its exact one, metres."""
    owner = np.repeat(np.arange(len(lon)), np.diff(starts))
    found = frame_map.place_runs(lon, lat, inbound, side, u, s, starts)
    exact = geodesy.place(lon[owner], lat[owner], inbound[owner], side[owner], u, s)
    return np.hypot((found[0] - exact[0]) * np.cos(np.radians(exact[1])), found[1] - exact[1]) * 111_120.0


@given(
    st.floats(-180.0, 180.0), st.floats(-85.0, 85.0), st.floats(0.0, 360.0), st.sampled_from([-1.0, 1.0]),
    st.floats(0.1, 120.0), st.integers(0, 400),
)  # fmt: skip
def test_any_hold(lon, lat, inbound, side, reach, count):
    """Within a millimetre anywhere: by the polynomial where it is good, exactly where it is not or does not pay."""
    k = np.arange(count)
    away, turn = reach * np.sqrt((k * 0.618034) % 1.0), k * 2.399963
    one = [np.array([value]) for value in (lon, lat, inbound, side)]
    off = off_by_m(*one, away * np.cos(turn), away * np.sin(turn), np.array([0, count]))
    assert len(off) == count and (off <= 1e-3).all()


@pytest.mark.parametrize(("lat", "reach", "exact"), [(45.0, 25.0, False), (85.0, 60.0, True)])
def test_where_the_polynomial_serves(lat, reach, exact):
    k = np.arange(300)
    u, s = reach * np.cos(k), reach * np.sin(k)
    one = [np.array([value]) for value in (179.9, lat, 77.0, -1.0)]
    off = off_by_m(*one, u, s, np.array([0, 300]))
    assert (off.max() == 0.0) == exact and off.max() < 1e-4


def test_runs_of_several_holds():
    """Runs of no, few and many places; each at its own hold, longitudes in one piece."""
    lon, lat = np.array([179.95, 10.0, -60.0, 30.0]), np.array([0.0, 50.0, -33.0, 85.0])
    inbound, side = np.array([10.0, 100.0, 200.0, 300.0]), np.array([1.0, -1.0, 1.0, -1.0])
    starts = np.array([0, 200, 200, 210, 700])
    k = np.arange(700)
    off = off_by_m(lon, lat, inbound, side, 20.0 * np.cos(k), 20.0 * np.sin(3.0 * k), starts)
    assert off.max() < 1e-3
    east, _ = frame_map.place_runs(lon, lat, inbound, side, 20.0 * np.cos(k), 20.0 * np.sin(3.0 * k), starts)
    assert east[:200].max() > 180.0
    nothing = frame_map.place_runs(lon[:0], lat[:0], inbound[:0], side[:0], k[:0], k[:0], np.array([0]))
    assert [len(part) for part in nothing] == [0, 0]


def test_the_same_place_gives_the_same_bits():
    """Wherever it stands in its run: edges that two rings share stay the same."""
    k = np.arange(400)
    u, s = np.tile(9.0 * np.cos(k[:200]), 2), np.tile(9.0 * np.sin(k[:200]), 2)
    u, s = np.roll(u, 3), np.roll(s, 3)
    one = [np.array([value]) for value in (10.0, 50.0, 77.0, 1.0)]
    lon, lat = frame_map.place_runs(*one, u, s, np.array([0, 400]))
    assert np.array_equal(lon[:200], lon[200:]) and np.array_equal(lat[:200], lat[200:])
