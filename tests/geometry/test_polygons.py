"""Plane polygons that need not be convex."""

from __future__ import annotations

import numpy as np
import pytest

pytest.importorskip("shapely", reason="shapely is not installed (the extra 'areas')")

from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import polygons


def box(west, south, east, north):
    return np.array([[west, south], [east, south], [east, north], [west, north]], float)


def region(*rings):
    return (tuple(rings),)


L_SHAPE = np.array([[0, 0], [6, 0], [6, 2], [2, 2], [2, 5], [0, 5]], float)


def signed(ring):
    x, y = ring.T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def test_area_and_direction():
    made = polygons.united([region(L_SHAPE[::-1]), region(box(10, 0, 11, 1))])
    assert polygons.area(made) == pytest.approx(12.0 + 6.0 + 1.0)
    assert len(made) == 2 and all(signed(rings[0]) > 0.0 for rings in made)


def test_a_part_inside_leaves_a_hole():
    made = polygons.without(region(box(0, 0, 9, 9)), region(box(2, 2, 4, 4)))
    ((outer, hole),) = made
    assert (signed(outer), signed(hole)) == (81.0, -4.0)
    assert polygons.area(made) == 77.0
    assert polygons.without(region(box(0, 0, 1, 1)), region(box(-1, -1, 2, 2))) == ()
    assert polygons.without(region(box(0, 0, 1, 1)), region(box(1, 0, 2, 1)))[0][0].shape == (4, 2)


def test_simple_rings():
    assert polygons.is_simple(L_SHAPE) and polygons.is_simple(L_SHAPE[::-1])
    assert not polygons.is_simple([[0, 0], [2, 2], [2, 0], [0, 2]])  # crosses itself
    assert not polygons.is_simple([[0, 0], [2, 2]])
    assert not polygons.is_simple([[0, 0], [1, 1], [2, 2]])  # no inside


def test_contains():
    holed = region(box(0, 0, 9, 9), box(2, 2, 4, 4)[::-1])
    assert polygons.contains(holed, (1, 1)) and polygons.contains(holed, (0, 5)) and polygons.contains(holed, (2, 3))
    assert not polygons.contains(holed, (3, 3)) and not polygons.contains(holed, (10, 3))


@given(st.floats(0.01, 5.0), st.floats(0.001, 1.0), st.sampled_from([L_SHAPE, box(-1, -2, 3, 4)]))
def test_widened(distance, tolerance, ring):
    """Every corner and edge of it lies at least the distance from the ring, and at most the tolerance more.

    The distance of a place from a ring is computed here edge by edge.
    """
    (rings,) = polygons.widened(region(ring), distance, tolerance)
    made = rings[0]
    between = np.concatenate([made + share * (np.roll(made, -1, axis=0) - made) for share in np.linspace(0, 1, 21)])
    start, end = ring, np.roll(ring, -1, axis=0)
    along = np.clip(
        np.einsum("pij,ij->pi", between[:, None] - start, end - start) / np.sum((end - start) ** 2, axis=1), 0, 1
    )
    apart = np.linalg.norm(between[:, None] - (start + along[:, :, None] * (end - start)), axis=2).min(axis=1)
    assert apart.min() >= distance * (1 - 1e-9)
    if tolerance < distance:
        assert apart.max() <= distance + tolerance * 1.0001
    else:
        assert apart.max() <= 2.0 * distance * (1 + 1e-9)


def test_nothing_is_widened_by_nothing():
    (rings,) = polygons.widened(region(L_SHAPE), 0.0, 0.1)
    assert polygons.area((rings,)) == pytest.approx(18.0)


@pytest.mark.parametrize(("distance", "tolerance"), [(-1.0, 0.1), (1.0, 0.0), (np.nan, 0.1), (1.0, np.nan)])
def test_no_sense(distance, tolerance):
    with pytest.raises(ValueError, match="they must be"):
        polygons.widened(region(L_SHAPE), distance, tolerance)
