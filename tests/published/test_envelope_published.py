"""Reach of the envelope, against figures computed here by another route.

No document publishes them: the area is our own. They come from sampling the state space densely (derived here, see
DEVELOPERS.md): tolerances of ICAO Doc 8168 Vol II, p. I-4-3-7; speed by its factor K at ISA+15, wind 2 h + 47 kt, bank
25 degrees or 3 degrees a second. Point fix, right turns; NM in directions from the inbound course to the holding side.
"""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import atmosphere
from fixwright.geometry.protection import envelope
from fixwright.geometry.protection.envelope_states import CIRCUIT, DIRECT, MANOEUVRE_CODES, PARALLEL, TEARDROP

DIRECTIONS = np.radians(np.arange(0.0, 360.0, 45.0))
FINE = np.radians(np.arange(0.0, 360.0, 0.1))
ALL = MANOEUVRE_CODES
SOURCE = "computed here, flights timed from the end of the turn"
TABLE = [
    # ias, ft, manoeuvres, reach at 0, 45, ... 315 degrees, area NM2
    (220, 10000, (CIRCUIT,), (4.1071, 5.8336, 8.3547, 11.8022, 11.9833, 9.6088, 5.6891, 2.6743), 169.65),
    (220, 10000, (DIRECT,), (6.3215, 6.3459, 8.3693, 12.3877, 13.7725, 12.1983, 8.7896, 6.1338), 261.34),
    (220, 10000, (TEARDROP,), (0.0, 1.7350, 8.2783, 12.7058, 13.8507, 11.0869, 5.7877, 1.2365), 143.26),
    (220, 10000, (PARALLEL,), (1.0579, 4.2330, 8.3685, 12.3877, 13.7725, 12.3253, 7.2096, 3.1266), 186.29),
    (220, 10000, ALL, (6.3215, 6.3459, 8.3693, 12.7058, 13.8507, 12.3253, 8.7896, 6.1338), 264.68),
    (170, 5000, (CIRCUIT,), (2.4306, 3.3065, 5.1381, 7.6698, 8.0649, 6.6336, 3.9297, 1.7092), 70.68),
    (170, 5000, ALL, (3.5103, 3.5121, 5.7463, 8.5299, 9.0249, 8.0230, 5.7418, 3.5724), 106.18),
]  # fmt: skip


def air(ias: float, alt: float, outbound_s: float = 60.0):
    tas = float(atmosphere.icao_k_factor(alt)) * ias
    return [tas], [min(3.0, 509.26 / tas)], [2.0 * alt / 1000.0 + 47.0], [outbound_s]


def area(reach, left, step) -> float:
    """From the support function and its derivative."""
    return 0.5 * float(np.sum(reach**2 - left**2)) * step


@pytest.mark.parametrize(("ias", "alt", "manoeuvres", "expected", "size"), TABLE)
def test_reach_and_area_timed_from_roll_out(ias, alt, manoeuvres, expected, size):
    """Printed to four decimals, the area to two: half a unit more for its own sampling."""
    reach, _ = envelope.support(*air(ias, alt), manoeuvres, DIRECTIONS, clocks=("roll-out",))
    np.testing.assert_allclose(reach[0], expected, rtol=0.0, atol=1e-4)
    reach, left = envelope.support(*air(ias, alt), manoeuvres, FINE, clocks=("roll-out",))
    assert area(reach[0], left[0], np.radians(0.1)) == pytest.approx(size, abs=0.015)


# ias, ft, reach at 90 and 270 degrees, area of the hull of both clocks; the other six directions do not grow.
BOTH_CLOCKS = [(220, 10000, 8.770, 5.954, 171.7), (170, 5000, 5.459, 4.161, 71.8)]


@pytest.mark.parametrize(("ias", "alt", "at_90", "at_270", "size"), BOTH_CLOCKS)
def test_a_clock_from_abeam_reaches_farther_to_the_sides(ias, alt, at_90, at_270, size):
    """Computed here by sampling: wind every degree, outbound heading every degree, turns every degree."""
    reach, _ = envelope.support(*air(ias, alt), [CIRCUIT], DIRECTIONS)
    timed, _ = envelope.support(*air(ias, alt), [CIRCUIT], DIRECTIONS, clocks=("roll-out",))
    assert reach[0, [2, 6]] == pytest.approx([at_90, at_270], abs=6e-4)
    others = [0, 1, 3, 4, 5, 7]
    np.testing.assert_allclose(reach[0, others], timed[0, others], rtol=0.0, atol=1e-9)
    reach, _ = envelope.support(*air(ias, alt), [CIRCUIT], FINE)
    # The figure is of the polygon of support lines every degree.
    lines = envelope.crossings_nm(envelope.Envelope(FINE[::10], reach[0, ::10]))
    x, y = lines.T
    assert 0.5 * np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) == pytest.approx(size, abs=0.1)
