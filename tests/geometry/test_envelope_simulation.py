"""The envelope against flights marched in time: none leaves it, and it is hardly larger than what they reach.

Each design is flown with the circuit and the three entries, 5 000 flights each, half of them with every tolerance at
one of its limits, half counting the outbound time from abeam the fix. Places are checked against every support line.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest

from fixwright.geometry.protection import envelope, icao_lines
from fixwright.tests.geometry import hold_simulator as simulator

FLIGHTS = 5000
METRES = 1852.0
OUTSIDE_M = 0.01
LARGER = 0.03
TOLERANCE_M = 1.0


class Design(NamedTuple):
    tas_kt: float
    rate_dps: float
    wind_kt: float
    outbound_s: float
    corners_nm: np.ndarray


def designs(count: int = 40, seed: int = 2026) -> list[Design]:
    """Holds from 90 to 265 kt and from 2 000 to 34 000 ft, wind and rate of turn by ICAO Doc 8168, each with a fix
    tolerance area of its own."""
    rng = np.random.default_rng(seed)
    out = []
    for ias, alt in zip(np.linspace(90.0, 265.0, count), rng.permutation(np.linspace(2000.0, 34000.0, count))):
        minutes = 1.0 if alt <= 14000.0 else 1.5
        line = icao_lines.lines(ias, alt, minutes)
        near, far = rng.uniform(0.2, 0.7, 2)
        left, right = rng.uniform(0.3, 1.2, 2)
        corners = np.array([(-near, -left), (far, -left * 1.1), (far, right * 1.1), (-near, right)])
        out.append(Design(float(line["V"]), float(line["R"]), float(line["w"]), 60.0 * minutes, corners))
    return out


class Compared(NamedTuple):
    """How far places lie outside, m, and by what share the envelope is larger than the hull reached."""

    outside_m: float
    larger: float


def compared(design: Design, flights: int, seed: int) -> dict[str, Compared]:
    """Envelope and flights of one design: the circuit, all manoeuvres, and those over the fix tolerance area."""
    rng = np.random.default_rng(seed)
    air = [[value] for value in design[:4]]
    point, over = [], []
    for name, rule in simulator.MANOEUVRES.items():
        drawn = simulator.draw(rng, flights, rule.arrivals, design.corners_nm)
        places, _ = simulator.fly(*design[:4], name, drawn)
        point.append(simulator.outermost(places.reshape(-1, 2)))
        over.append(simulator.outermost((places + drawn.p).reshape(-1, 2)))
    both = envelope.hold_envelopes(*air, TOLERANCE_M)[0]
    wide = envelope.hold_envelopes(*air, TOLERANCE_M, tolerance_areas_nm=[design.corners_nm])[0]
    pairs = {
        "circuit": (both[0], point[0]),
        "entries": (both[1], np.concatenate(point)),
        "circuit over the tolerance area": (wide[0], over[0]),
        "entries over the tolerance area": (wide[1], np.concatenate(over)),
    }
    out = {}
    for name, (made, places) in pairs.items():
        reach, touch = simulator.reach(places, made.alpha)
        whole = simulator.area(envelope.crossings_nm(made))
        out[name] = Compared(float((reach - made.reach).max()) * METRES, whole / simulator.area(touch) - 1.0)
    return out


@pytest.mark.parametrize("number", range(40))
def test_no_flight_leaves_the_envelope(number):
    for name, found in compared(designs()[number], FLIGHTS, number).items():
        assert found.outside_m <= OUTSIDE_M, name
        assert found.larger <= LARGER, name


@pytest.mark.parametrize("number", range(0, 40, 2))
def test_no_arrival_leaves_the_envelope_made_for_it(number):
    """Entries of one arrival heading, flown within 5 degrees; also of those close to square to the course, on which the
    clock may start over the fix."""
    design, rng = designs()[number], np.random.default_rng(number)
    alpha = np.radians(np.arange(0.0, 360.0, 2.0))
    for heading in (rng.uniform(0.0, 360.0), rng.uniform(80.0, 110.0), rng.uniform(-115.0, -65.0)):
        between = np.array([(heading - 5.0, heading + 5.0)])
        air = [[value] for value in design[:4]]
        reach, _ = envelope.support(*air, range(4), alpha, arrivals_deg=[between])
        for name, rule in list(simulator.MANOEUVRES.items())[1:]:
            low, high = (end + 360.0 * np.round((np.mean(rule.arrivals) - heading) / 360.0) for end in between[0])
            low, high = max(low, rule.arrivals[0]), min(high, rule.arrivals[1])
            if low < high:
                drawn = simulator.draw(rng, 1000, (low, high), [[0.0, 0.0]], from_abeam=0.7)
                places = simulator.outermost(simulator.fly(*design[:4], name, drawn)[0].reshape(-1, 2))
                farthest, _ = simulator.reach(places, alpha)
                assert (farthest - reach[0]).max() * METRES <= OUTSIDE_M, (name, heading)


def test_an_envelope_too_small_would_be_noticed():
    """One without the clock from abeam, or of a tenth less wind, is left by the flights of the test above."""
    design = designs()[10]
    drawn = simulator.draw(np.random.default_rng(1), FLIGHTS, (0.0, 0.0), [[0.0, 0.0]])
    places = simulator.fly(*design[:4], "circuit", drawn)[0].reshape(-1, 2)
    alpha = np.radians(np.arange(0.0, 360.0, 2.0))
    reach, _ = simulator.reach(simulator.outermost(places), alpha)
    air = np.array(design[:4])[:, None]
    for changed, clocks in ((1.0, ("roll-out",)), (0.9, envelope.CLOCKS)):
        smaller, _ = envelope.support(*(air * np.array([[1.0], [1.0], [changed], [1.0]])), [0], alpha, clocks=clocks)
        assert (reach - smaller[0]).max() * METRES > 100.0


def test_the_simulator_comes_back_in_still_air():
    """Without wind or errors a circuit is a racetrack: it ends 11 s past where the first turn began, less the time
    flown outbound, on the inbound course. A parallel entry ends where 225 degrees to the left lead. By hand."""
    zeros = np.zeros(1)
    drawn = simulator.Drawn(np.zeros((1, 2)), zeros, zeros + 11.0, zeros, zeros, zeros + 5.0, zeros, zeros, zeros > 0.0)
    places, seconds = simulator.fly(120.0, 3.0, 0.0, 60.0, "circuit", drawn)
    np.testing.assert_allclose(places[-1, 0], [(11.0 - 65.0) / 30.0, 0.0], atol=1e-6)
    assert seconds.sum() == pytest.approx(11.0 + 60.0 + 65.0 + 60.0)
    late, _ = simulator.fly(120.0, 3.0, 0.0, 60.0, "circuit", drawn._replace(from_abeam=zeros == 0.0))
    np.testing.assert_allclose(late[-1, 0], [-65.0 / 30.0, 0.0], atol=1e-6)
    places, _ = simulator.fly(120.0, 3.0, 0.0, 60.0, "parallel", drawn._replace(arrival=zeros - 180.0))
    r, half = 2.0 / np.pi, np.sqrt(0.5)
    np.testing.assert_allclose(places[-1, 0], [-(11.0 + 65.0) / 30.0 + r * half, r * (1.0 + half)], atol=1e-6)
