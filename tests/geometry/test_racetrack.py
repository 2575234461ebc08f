from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import geodesy, racetrack

HOLDS = dict(
    lon=st.floats(-180.0, 180.0),
    lat=st.floats(-85.0, 85.0),
    inbound=st.floats(0.0, 360.0),
    side=st.sampled_from([1, -1]),
    radius=st.floats(0.1, 6.0),
    length=st.floats(0.2, 40.0),
)


def _frame(coords, lon, lat, inbound, side):
    return np.stack(geodesy.to_frame(lon, lat, inbound, side, coords[:, 0], coords[:, 1]), axis=1)


@settings(max_examples=40)
@given(**HOLDS)
def test_left_is_the_mirror_of_right(lon, lat, inbound, side, radius, length):
    one, _ = racetrack.rings(lon, lat, inbound, side, radius, length)
    other, _ = racetrack.rings(lon, lat, inbound, -side, radius, length)
    a, b = _frame(one, lon, lat, inbound, side), _frame(other, lon, lat, inbound, -side)
    assert a.shape == b.shape
    assert np.abs(a - b).max() * 1852.0 < 1e-3
    # Mirrored in the line of the inbound course, the same side for both.
    c = _frame(other, lon, lat, inbound, side)
    assert np.abs(a - c * [1.0, -1.0]).max() * 1852.0 < 1e-3


@settings(max_examples=40)
@given(**HOLDS, turn=st.floats(-180.0, 180.0))
def test_turning_the_inbound_course_turns_the_pattern(lon, lat, inbound, side, radius, length, turn):
    one, _ = racetrack.rings(lon, lat, inbound, side, radius, length)
    other, _ = racetrack.rings(lon, lat, inbound + turn, side, radius, length)
    a, b = _frame(one, lon, lat, inbound, side), _frame(other, lon, lat, inbound + turn, side)
    assert np.abs(a - b).max() * 1852.0 < 1e-3


@settings(max_examples=40)
@given(**HOLDS)
def test_a_ring_starts_at_the_fix_in_the_direction_of_flight(lon, lat, inbound, side, radius, length):
    coords, offsets = racetrack.rings(lon, lat, inbound, side, radius, length)
    assert coords[0].tolist() == coords[-1].tolist()
    _, _, dist = geodesy.inverse(lon, lat, *coords[0])
    assert float(dist) * 1852.0 < 1e-3
    points = _frame(coords, lon, lat, inbound, side)
    assert points[1, 0] > 0.0 and points[1, 1] > 0.0, "the first turn leads ahead and to the holding side"
    assert points[:, 1].min() > -1e-6 and points[:, 1].max() < 2.0 * radius + 1e-6
    assert points[:, 0].min() > -length - radius - 1e-6 and points[:, 0].max() < radius + 1e-6
    # Signed area in the frame: counter-clockwise, seen from u to s, as a turn with the frame's angle growing.
    u, s = points[:-1].T
    area = 0.5 * np.sum(u * np.roll(s, -1) - s * np.roll(u, -1))
    exact = np.pi * radius**2 + 2.0 * radius * length
    perimeter = 2.0 * np.pi * radius + 2.0 * length
    assert area == pytest.approx(exact, abs=perimeter * 5.0 / 1852.0)
    assert area < exact + 1e-6, "inscribed"


@settings(max_examples=30)
@given(**HOLDS, tolerance=st.sampled_from([0.1, 0.5, 50.0, 1000.0]))
def test_finer_tolerances_only_add_points(lon, lat, inbound, side, radius, length, tolerance):
    coords, _ = racetrack.rings(lon, lat, inbound, side, radius, length, tolerance)
    usual, _ = racetrack.rings(lon, lat, inbound, side, radius, length)
    assert (len(coords) >= len(usual)) == (tolerance <= 5.0) or len(coords) == len(usual)
    points = _frame(coords, lon, lat, inbound, side)
    from_centres = np.hypot(points[:, 0] - np.clip(points[:, 0], -length, 0.0), points[:, 1] - radius)
    assert np.abs(from_centres - radius).max() * 1852.0 < 0.01


def _batch():
    n = 40
    lon, lat = np.linspace(-180.0, 180.0, n), np.linspace(-85.0, 85.0, n)
    inbound, side = np.linspace(0.0, 360.0, n), np.where(np.arange(n) % 2, 1, -1)
    return lon, lat, inbound, side, np.linspace(0.3, 3.0, n), np.linspace(1.0, 20.0, n)


@pytest.mark.parametrize("make", [racetrack.rings, racetrack.legs])
def test_one_hold_alone_and_in_a_batch(make):
    """The same bytes, whatever holds share the call, in the order given."""
    values = _batch()
    coords, offsets = make(*values)
    per = (len(offsets) - 1) // len(values[0])
    assert offsets[0] == 0 and offsets[-1] == len(coords)
    for i in range(len(values[0])):
        alone, ends = make(*[v[i] for v in values])
        here = coords[offsets[per * i] : offsets[per * (i + 1)]]
        assert here.tobytes() == alone.tobytes()
        assert (offsets[per * i : per * (i + 1) + 1] - offsets[per * i]).tolist() == ends.tolist()


def test_legs_meet():
    coords, offsets = racetrack.legs(*_batch())
    first, last = coords[offsets[:-1]], coords[offsets[1:] - 1]
    for leg in range(3):
        np.testing.assert_array_equal(last[leg::4], first[leg + 1 :: 4])
    np.testing.assert_array_equal(last[3::4], first[0::4])


def test_crossing_the_antimeridian_changes_nothing():
    here, _ = racetrack.rings([179.99, 9.99], 70.0, 80.0, -1, 1.5, 6.0)
    n = len(here) // 2
    np.testing.assert_allclose(here[:n, 0] - 170.0, here[n:, 0], rtol=0.0, atol=1e-9)
    assert here[:n, 0].max() > 180.0, "in one piece, past 180"


@pytest.mark.parametrize("course", [0.0, 360.0])
def test_north_has_two_names(course):
    one, _ = racetrack.rings(10.0, 50.0, course, 1, 1.0, 4.0)
    zero, _ = racetrack.rings(10.0, 50.0, 0.0, 1, 1.0, 4.0)
    np.testing.assert_allclose(one, zero, rtol=0.0, atol=1e-12)


def test_no_holds():
    assert racetrack.rings(np.zeros(0), 0.0, 0.0, 1, 1.0, 1.0)[1].tolist() == [0]
    coords, offsets = racetrack.legs(np.zeros(0), 0.0, 0.0, 1, 1.0, 1.0)
    assert coords.shape == (0, 2) and offsets.tolist() == [0]


@pytest.mark.parametrize("which", range(6))
@pytest.mark.parametrize("value", [np.nan, np.inf])
def test_a_value_that_is_not_finite_is_refused(which, value):
    values = [10.0, 50.0, 90.0, 1.0, 1.0, 4.0]
    values[which] = value
    with pytest.raises(ValueError, match="finite"):
        racetrack.rings(*values)


@pytest.mark.parametrize(("radius", "length"), [(-1.0, 4.0), (1.0, -4.0)])
def test_a_negative_size_is_refused(radius, length):
    with pytest.raises(ValueError):
        racetrack.rings(10.0, 50.0, 90.0, 1, radius, length)


@pytest.mark.parametrize("tolerance", [0.0, -5.0, np.nan, np.inf])
def test_a_tolerance_that_makes_no_sense_is_refused(tolerance):
    with pytest.raises(ValueError, match="tolerance_m"):
        racetrack.rings(10.0, 50.0, 90.0, 1, 1.0, 4.0, tolerance)


@pytest.mark.parametrize(("radius", "length"), [(1e-6, 0.5), (0.05, 100.0), (12.0, 0.5)])
@pytest.mark.parametrize("lat", [0.0, 85.0])
def test_extreme_shapes(radius, length, lat):
    for tolerance in (0.1, 5.0, 1000.0):
        coords, _ = racetrack.rings(10.0, lat, 45.0, 1, radius, length, tolerance)
        assert np.isfinite(coords).all() and len(coords) >= 5
        points = _frame(coords, 10.0, lat, 45.0, 1)
        assert points[:, 0].min() <= -length + 1e-9
