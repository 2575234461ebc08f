"""Minimum altitudes against the published clearances, with sums done by hand.

Clearances: ICAO Doc 8168 Vol II, Part II, Section 4, Chapter 1 (buffer of 5 NM, 984 ft inside and in its first NM,
197 ft in its last: seen in published study material; 492, 394 and 294 ft between them, category H: from memory of the
document); FAA-H-8261-1 Instrument Procedures Handbook, chapter 3 (1 000 ft in the primary area, 500 ft at the inner
edge of the secondary tapering to 0, altitudes rounded up to 100 ft); 2 NM and 2 000 ft in mountains: FAA Order 8260.3,
from memory. Heights and distances are invented; the sums are derived here.
"""

from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import clearances, obstacles, shapes
from fixwright.tests.geometry.terrain import array_grid

LON, LAT = 12.0, 47.0
SMALL_NM = 1e-6
"""The holding area here is nearly the fix itself, so that a distance from the fix is one from the area."""


def _area(rings):
    corner = SMALL_NM / 60.0
    ring = np.array([(LON - corner, LAT - corner), (LON + corner, LAT - corner), (LON, LAT + corner)])
    return obstacles.holding([[ring]], rings, (LON, LAT))


def _place(distance_nm, bearing=63.0):
    at = Geodesic.WGS84.Direct(LAT, LON, bearing, distance_nm * 1852.0)
    return at["lon2"], at["lat2"]


def _mast(distance_nm, top_ft, rings, accuracy_ft=0.0):
    shape = shapes.gather([[[[_place(distance_nm)]]]], filled=False)
    others = obstacles.obstacles(shape, name="MAST", top_ft=top_ft, vertical_ft=accuracy_ft)
    (made,) = obstacles.minimum_altitudes([_area(rings)], None, others)
    return made


def _rounded(made) -> float:
    return float(clearances.minimum_ft(made.required_ft))


def test_an_obstacle_with_its_accuracy_in_the_second_ring():
    """Top 1 650 ft, accuracy 20 ft, 1.4 NM outside: 1 650 + 20 + 492 = 2 162, so 2 200 ft."""
    made = _mast(1.4, 1650.0, clearances.icao(), 20.0)
    assert (made.required_ft, _rounded(made), made.control.part) == (2162.0, 2200.0, "buffer_2")


@pytest.mark.parametrize(("distance_nm", "required", "minimum"), [(1.0, 4104.0, 4200.0), (1.001, 3612.0, 3700.0)])
def test_terrain_at_the_edge_of_the_first_ring(distance_nm, required, minimum):
    """Terrain of 3 120 ft whose nearest point is 1.000 NM away: 4 104, so 4 200 ft; at 1.001 NM 3 612, so 3 700 ft.

    Due east of the fix on the equator, where the west edge of a column of cells is a geodesic's end.
    """
    degrees = distance_nm * 1852.0 / (2.0 * np.pi * 6_378_137.0) * 360.0
    heights = np.full((40, 60), -1000.0)
    heights[20, :] = 3120.0  # one row of cells, from the equator to the south, from so far east on
    corner = SMALL_NM / 60.0
    ring = np.array([(LON - 2 * corner, -corner), (LON, 0.0), (LON - 2 * corner, corner)])
    area = obstacles.holding([[ring]], clearances.icao(), (LON, 0.0))
    grid = array_grid(heights, LON + degrees, 20 / 120.0, 1 / 120.0)
    (made,) = obstacles.minimum_altitudes([area], grid, None)
    assert made.control.required_ft == required and _rounded(made) == minimum
    assert made.control.distance_nm == pytest.approx(distance_nm, abs=1e-6)
    assert made.unknown.off, "the raster begins east of the fix"


def test_the_taper_of_the_secondary_area():
    """Top 2 000 ft half a NM into a secondary of 2 NM: 500 (1 - 0.5 / 2) = 375, so 2 375 and 2 400 ft."""
    made = _mast(0.5 + SMALL_NM, 2000.0, clearances.faa())
    assert made.required_ft == pytest.approx(2375.0, abs=0.001) and _rounded(made) == 2400.0


@pytest.mark.parametrize(
    ("distance_nm", "feet"),
    [(0.0, 984.0), (0.999, 984.0), (1.5, 492.0), (2.5, 394.0), (3.5, 294.0), (4.5, 197.0)],
)
def test_rings_of_the_buffer(distance_nm, feet):
    assert _mast(distance_nm, 0.0, clearances.icao()).required_ft == feet


def test_nothing_is_asked_beyond_5_nm_nor_beyond_the_secondary():
    assert _mast(5.001, 9000.0, clearances.icao()).control is None
    assert _mast(2.001, 9000.0, clearances.faa()).control is None


def test_metres():
    """300, 150, 120, 90 and 60 m; a top of 951 m 1.4 NM out asks for 1 101 m, so 1 150 m."""
    made = _mast(1.4, 951.0 / 0.3048, clearances.icao(metres=True))
    assert made.required_ft * 0.3048 == pytest.approx(1101.0, abs=1e-9)
    assert float(clearances.minimum_m(made.required_ft)) == 1150.0


def test_the_clearances_in_feet_are_those_in_metres_as_the_document_prints_them():
    """300, 150, 120 and 60 m to the nearest foot; 90 m is 295.3 ft, printed 294."""
    for ring in clearances.ICAO:
        off = ring.inner_ft - ring.inner_m / 0.3048
        assert abs(off) < (1.5 if ring.inner_m == 90.0 else 0.5)


@pytest.mark.parametrize(("required", "minimum"), [(2100.0, 2100.0), (2100.00001, 2200.0), (2162.0, 2200.0),
                                                   (0.0, 0.0), (-250.0, -200.0), (1e-8, 0.0)])  # fmt: skip
def test_rounded_up_to_100_ft(required, minimum):
    """Source: FAA-H-8261-1, chapter 3 (to the next 100 ft)."""
    assert float(clearances.minimum_ft(required)) == minimum


def test_twice_the_clearance_over_high_terrain():
    """Doc 8168 Vol II, II-4-1 Appendix B: up to 600 m (1 969 ft) inside in place of 300 m (from memory)."""
    assert _mast(0.0, 0.0, clearances.icao(factor=2.0)).required_ft == 1969.0
