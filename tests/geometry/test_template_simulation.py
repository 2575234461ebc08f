"""The ICAO template against flights: it is not meant for the sum of all worst cases, but leaves little of the time out.

Flights of the circuit from the point of the fix, every tolerance uniform, full wind from any direction, timed from the
end of the turn as the template is. The bounds are figures of an earlier simulation of our own (derived here): over 40
designs 0.06 to 0.35 % of the time outside, the farthest 0.18 to 0.64 NM out, and an area of 0.96 to 1.00 of the hull
flown. The designs differ, so that each is given some room. A template far from these figures is wrong.
"""

from __future__ import annotations

import numpy as np

from fixwright.geometry import convex
from fixwright.geometry.protection import icao_lines, icao_template
from fixwright.tests.geometry import hold_simulator as simulator

FLIGHTS, PIECES, DESIGNS = 5000, 15, 40
ALPHA = np.radians(np.arange(0.0, 360.0, 1.0))
NORMALS = np.stack([np.cos(ALPHA), np.sin(ALPHA)])


def flown(ias: float, alt: float, seed: int, step_deg: float = 1.0) -> tuple[float, float, float]:
    """Percent of the time outside; the farthest, NM; area over that of the hull flown."""
    minutes = 1.0 if alt <= 14000.0 else 1.5
    line = icao_lines.lines(ias, alt, minutes)
    centres, radii = icao_template.discs(line, step_deg)
    reach, best = convex.support_of_discs(ALPHA, centres, radii)
    inner = (centres[best] + radii[best, None] * NORMALS.T)[::8]
    rng = np.random.default_rng(seed)
    drawn = simulator.draw(rng, FLIGHTS, (0.0, 0.0), [[0.0, 0.0]], at_limits=0.0, from_abeam=0.0)
    drawn = drawn._replace(wind_share=np.ones(FLIGHTS))
    air = float(line["V"]), float(line["R"]), float(line["w"])
    places, seconds = simulator.fly(*air, 60.0 * minutes, "circuit", drawn, pieces=PIECES)
    middle = ((places[1:] + places[:-1]) / 2.0).reshape(-1, 2)
    maybe = np.flatnonzero(simulator.outside(middle, inner))
    outside = maybe[(middle[maybe] @ NORMALS - reach).max(axis=1) > 0.0]
    share = 100.0 * float(seconds[1:].ravel()[outside].sum() / seconds.sum())
    ring = convex.circumscribed(ALPHA, reach, 1e-3)
    farthest, touch = simulator.reach(simulator.outermost(places.reshape(-1, 2)), ALPHA)
    return share, float((farthest - reach).max()), simulator.area(ring) / simulator.area(touch)


def figures(count: int = DESIGNS) -> np.ndarray:
    """Of designs from 90 to 265 kt and from 2 000 to 34 000 ft."""
    levels = np.random.default_rng(40).permutation(np.linspace(2000.0, 34000.0, count))
    return np.array([flown(*design, k) for k, design in enumerate(zip(np.linspace(90.0, 265.0, count), levels))])


def test_the_template_leaves_little_of_the_time_outside():
    share, farthest, size = figures().T
    assert share.min() > 0.05 and share.max() < 0.38
    assert 0.10 < np.median(share) < 0.18  # 0.14 in the earlier simulation
    # The farthest of 5 000 is a matter of luck: one design in forty, the fastest and highest, comes out past 0.64.
    assert np.mean((farthest > 0.18) & (farthest < 0.645)) > 0.9
    assert farthest.min() > 0.15 and farthest.max() < 0.85
    assert size.min() > 0.955 and size.max() < 1.005


def test_the_tabulated_discs_alone_leave_more():
    """0.25 to 1.3 % of the time in the earlier simulation, the farthest 0.18 to 0.85 NM, area 0.958 to 0.983."""
    share, farthest, size = np.array([flown(ias, 6000.0, 3, 45.0) for ias in (100.0, 170.0, 230.0)]).T
    assert share.min() > 0.2 and share.max() < 1.5
    assert farthest.max() < 0.9
    assert size.min() > 0.95 and size.max() < 0.99
