from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import angles

any_angle = st.floats(-1e6, 1e6)


@given(any_angle)
def test_wrap360_keeps_the_direction(deg):
    out = float(angles.wrap360(deg))
    assert 0.0 <= out < 360.0
    assert math.isclose(math.cos(math.radians(out)), math.cos(math.radians(deg)), abs_tol=1e-7)
    assert math.isclose(math.sin(math.radians(out)), math.sin(math.radians(deg)), abs_tol=1e-7)


@given(any_angle)
def test_wrap180_keeps_the_direction(deg):
    out = float(angles.wrap180(deg))
    assert -180.0 < out <= 180.0
    assert abs((out - deg + 180.0) % 360.0 - 180.0) < 1e-7


@given(any_angle, any_angle)
def test_lines_cut_at_the_angle_of_their_directions_either_way(first, second):
    """Its cosine is that of the angle between the directions, without the sign."""
    out = float(angles.cut_angle(first, second))
    assert 0.0 <= out <= 90.0
    assert math.isclose(math.cos(math.radians(out)), abs(math.cos(math.radians(first - second))), abs_tol=1e-7)


@pytest.mark.parametrize(
    ("deg", "by_360", "by_180"),
    [
        (0.0, 0.0, 0.0),
        (360.0, 0.0, 0.0),
        (-360.0, 0.0, 0.0),
        (180.0, 180.0, 180.0),
        (-180.0, 180.0, 180.0),
        (540.0, 180.0, 180.0),
        (-0.5, 359.5, -0.5),
        (359.5, 359.5, -0.5),
        (-1e-18, 0.0, 0.0),
        (-1e-300, 0.0, 0.0),
    ],
)
def test_edges(deg, by_360, by_180):
    assert float(angles.wrap360(deg)) == by_360
    assert float(angles.wrap180(deg)) == pytest.approx(by_180, abs=1e-13)


def test_shapes_and_nan():
    """An angle that is not finite has no direction, and says so without a warning."""
    with np.errstate(all="raise"):
        out = angles.wrap360([np.nan, 10.0, np.inf])
    assert np.isnan(out[0]) and out[1] == 10.0 and np.isnan(out[2])
    for wrap in (angles.wrap360, angles.wrap180):
        assert wrap(5.0).shape == ()
        assert wrap(np.zeros((2, 3))).shape == (2, 3)
        assert wrap(np.zeros((2, 3))).dtype == np.float64


@pytest.mark.parametrize("deg", [0.0, 30.0, 45.0, 90.0, 123.4, -200.0])
def test_sine_and_cosine(deg):
    assert float(angles.sind(deg)) == pytest.approx(math.sin(math.radians(deg)), abs=1e-15)
    assert float(angles.cosd(deg)) == pytest.approx(math.cos(math.radians(deg)), abs=1e-15)
    assert angles.sind([[deg]]).shape == (1, 1)


@pytest.mark.parametrize(
    ("deg", "index"),
    [(0.0, 0), (22.4, 0), (22.6, 1), (45.0, 1), (90.0, 2), (180.0, 4), (315.0, 7), (337.4, 7), (337.6, 0), (360.0, 0),
     (-45.0, 7), (719.0, 0), (math.nan, -1), (math.inf, -1)],
)  # fmt: skip
def test_octant(deg, index):
    assert int(angles.octant(deg)) == index


@given(st.floats(0.0, 360.0))
def test_octant_is_the_nearest_compass_point(deg):
    nearest = min(range(8), key=lambda k: abs((deg - 45.0 * k + 180.0) % 360.0 - 180.0))
    off = abs((deg - 45.0 * nearest + 180.0) % 360.0 - 180.0)
    if off < 22.5 - 1e-9:
        assert int(angles.octant(deg)) == nearest
