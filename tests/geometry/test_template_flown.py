"""Flights against the ICAO template: how much of them it leaves outside, and how near its area is to what is flown.

The template is not meant for the sum of all worst cases. The flights are marched in time by hold_simulator, which knows
nothing of the template; tolerances there: each uniform, full wind from any one direction, timed from the end of the
turn as the template is. Bounds: figures of an earlier simulation of our own (derived here), 40 designs of 90 to 265 kt
and 2 000 to 34 000 ft, point fix: 0.06 to 0.35 % of the time outside (median 0.14), the farthest 0.18 to 0.64 NM out,
area 0.96 to 1.00 of the hull of what is flown. The designs differ, so that each figure is given some room. A template
far from these figures is wrong.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pytest

from fixwright.geometry.protection import envelope, icao, icao_template, rings, shapes
from fixwright.geometry.protection.areas import Designs, Options
from fixwright.geometry.protection.envelope_states import CIRCUIT
from fixwright.tests.geometry import hold_simulator as simulator

ALPHA = np.radians(np.arange(0.0, 360.0, 1.0))
FLIGHTS = 5000


def holding(ias, alt):
    """Speeds, levels and the outbound times that are standard there."""
    ias, alt = np.asarray(ias, float), np.asarray(alt, float)
    return ias, alt, np.where(alt > 14000.0, 1.5, 1.0)


def drawn_designs(count: int, seed: int):
    rng = np.random.default_rng(seed)
    alt = rng.uniform(2000.0, 34000.0, count)
    return holding(rng.uniform(90.0, 265.0, count), alt)


def designs(ias, alt, minutes) -> Designs:
    n, nothing = len(ias), np.full(len(ias), np.nan)
    return Designs(ias, alt, minutes, nothing, nothing, nothing, [icao_template.POINT_FIX] * n, [None] * n)


def flights(values, k: int, name: str, rng, count: int = FLIGHTS, arrivals=None):
    """Places (K, F, 2) and the seconds before each (K, F), of uniform flights in full wind, timed from roll-out."""
    between = arrivals or simulator.MANOEUVRES[name].arrivals
    drawn = simulator.draw(rng, count, between, [(0.0, 0.0)], at_limits=0.0, from_abeam=0.0)
    drawn = drawn._replace(wind_share=np.ones(count))
    v, rate, w, t = (float(values[line][k]) for line in ("V", "R", "w", "t"))
    return simulator.fly(v, rate, w, t, name, drawn, pieces=12)


class Edge:
    """A convex shape's edge, by its support function every degree and at its own edges: how far places lie outside."""

    def __init__(self, alpha, height, ring):
        self.normals, self.height = np.stack([np.cos(alpha), np.sin(alpha)]), height
        self.area = simulator.area(ring)
        self.middle = ring.mean(axis=0)
        bearing = np.mod(np.arctan2(*(ring - self.middle).T[::-1]), 2.0 * np.pi)
        order = np.argsort(bearing)
        self.bearing, self.corners = bearing[order], ring[order]

    def outside(self, places) -> np.ndarray:
        """NM outside, 0 inside."""
        away = places - self.middle
        at = np.searchsorted(self.bearing, np.mod(np.arctan2(away[:, 1], away[:, 0]), 2.0 * np.pi)) % len(self.bearing)
        first, second = self.corners[at - 1], self.corners[at]
        edge = second - first
        off = edge[:, 1] * (places - first)[:, 0] - edge[:, 0] * (places - first)[:, 1]
        out = np.zeros(len(places))
        beyond = off > 0.0
        out[beyond] = np.maximum((places[beyond] @ self.normals - self.height).max(axis=1), 0.0)
        return out


def edges_of(shape: shapes.Reach, count: int) -> list[Edge]:
    """The edges of N shapes, to 0.2 m."""
    lines = rings.support_lines(shape, count, 1e-4)
    made = rings.split(lines, *rings.corners(lines, lines.height))
    out = []
    for k, ring in enumerate(made):
        alpha = np.concatenate([lines.ways.alpha_rad[lines.row == k], ALPHA])
        out.append(Edge(alpha, shape(np.full(len(alpha), k), shapes.Ways.of(alpha)).height, ring))
    return out


def told(edge: Edge, places, seconds) -> tuple[float, float]:
    """Percent of the time outside, of each step by its two ends; the farthest place, NM."""
    out = edge.outside(places.reshape(-1, 2)).reshape(seconds.shape)
    share = ((out[1:] > 0.0).astype(float) + (out[:-1] > 0.0)) / 2.0
    return 100.0 * float((share * seconds[1:]).sum() / seconds.sum()), float(out.max())


def farthest_possible(values, template: shapes.Reach) -> np.ndarray:
    """How far outside the template any flight can come, NM (N,): what all tolerances at once reach, less the template.

    Not every direction has a place so far off, since the reach of the template is that of its hull; no flight is
    farther.
    """
    count = len(values["V"])
    reach, _ = envelope.support(
        *(values[line] for line in ("V", "R", "w", "t")), [CIRCUIT], ALPHA, clocks=("roll-out",)
    )
    rows, ways = np.repeat(np.arange(count), len(ALPHA)), shapes.Ways.of(np.tile(ALPHA, count))
    return (reach - template(rows, ways).height.reshape(count, -1)).max(axis=1)


class Circuits(NamedTuple):
    """Of the circuits of each design: percent of the time outside the template; the farthest, NM, and the farthest
    possible; the template's area over that of the hull flown."""

    share: np.ndarray
    farthest: np.ndarray
    possible: np.ndarray
    size: np.ndarray


def circuits(ias, alt, step_deg: float = 1.0) -> Circuits:
    values = icao.lines(*holding(ias, alt))
    template = icao_template.template(values, step_deg)
    found = []
    for k, edge in enumerate(edges_of(template, len(ias))):
        places, seconds = flights(values, k, "circuit", np.random.default_rng(k))
        _, touch = simulator.reach(simulator.outermost(places.reshape(-1, 2)), ALPHA)
        found.append((*told(edge, places, seconds), edge.area / simulator.area(touch)))
    share, farthest, size = np.array(found).T
    return Circuits(share, farthest, farthest_possible(values, template), size)


def test_the_template_leaves_little_of_the_time_outside():
    """The farthest of 5 000 flights is a matter of luck: half to nine tenths of the farthest possible, which 12 s of
    wind that the template does not count and the spread of the roll-out make (1.08 NM at 265 kt and 33 200 ft, 0.29 NM
    at 90 kt and 2 000 ft). So 0.64 NM is passed only where more than 0.95 NM is possible: fast and above 31 000 ft."""
    levels = np.random.default_rng(40).permutation(np.linspace(2000.0, 34000.0, 40))
    found = circuits(np.linspace(90.0, 265.0, 40), levels)
    for name, column in found._asdict().items():
        print(f"{name}: {column.min():.3f} {np.median(column):.3f} {column.max():.3f}")
    assert found.share.min() > 0.05 and found.share.max() < 0.38 and 0.10 < np.median(found.share) < 0.18
    assert found.size.min() > 0.955 and found.size.max() < 1.005
    of_possible = found.farthest / found.possible
    assert of_possible.min() > 0.4 and of_possible.max() < 0.95 and 0.6 < np.median(of_possible) < 0.75
    usual = found.possible < 0.95
    assert usual.sum() >= 37 and found.farthest[usual].min() > 0.18 and found.farthest[usual].max() < 0.65


def test_the_tabulated_discs_alone_leave_more():
    """0.25 to 1.3 % of the time in the earlier simulation, the farthest 0.18 to 0.85 NM, area 0.958 to 0.983."""
    found = circuits([100.0, 170.0, 230.0], [6000.0] * 3, 45.0)
    assert found.share.min() > 0.2 and found.share.max() < 1.5
    assert found.farthest.max() < 0.9
    assert found.size.min() > 0.95 and found.size.max() < 0.99


@pytest.mark.parametrize("manoeuvre", ["circuit", "direct", "teardrop", "parallel"])
def test_entries_leave_their_area_no_more_than_circuits_do(manoeuvre):
    """The entry area is partly derived here; what shows it right is that flights of every entry, the zone of 5 degrees
    with them, stay inside as circuits stay in the template; the template alone would not do."""
    ias, alt, minutes = drawn_designs(12, 3)
    made = icao.figures(designs(ias, alt, minutes), Options(slow_ias_kt=np.nan))
    basic, whole = (edges_of(shape, len(ias)) for shape in icao.reaches(made, Options(slow_ias_kt=np.nan)))
    rng = np.random.default_rng(4)
    worst_share = worst_far = alone = 0.0
    for k in range(len(ias)):
        flown = flights(made.values, k, manoeuvre, rng, 2000)
        share, far = told(whole[k], *flown)
        worst_share, worst_far = max(worst_share, share), max(worst_far, far)
        alone = max(alone, told(basic[k], *flown)[0])
    print(f"{manoeuvre}: outside {worst_share:.3f} %, {worst_far:.2f} NM; template alone {alone:.1f} %")
    assert worst_share <= 0.2 and worst_far <= 1.0
    assert manoeuvre == "circuit" or alone > 2.0


@pytest.mark.parametrize("heading", [45.0, 105.0, 112.0, 140.0, 178.0, -178.0, -120.0, -90.0, -66.0, -50.0])
def test_an_arrival_stays_in_the_area_made_for_it(heading):
    """ENTRY arrivals: of one heading each entry that may be flown leaves its area about as little as circuits leave the
    template; the slow flight at 28 000 ft, in a wind of three fifths of its speed, the most."""
    ias, alt, minutes = holding([108.0, 165.0, 210.0, 257.0], [28000.0, 4700.0, 13000.0, 20600.0])
    given = designs(ias, alt, minutes)._replace(arrivals_deg=[np.array([heading])] * 4)
    options = Options(entries="arrivals", slow_ias_kt=np.nan)
    made = icao.figures(given, options)
    edges, rng = edges_of(icao.reaches(made, options)[1], len(ias)), np.random.default_rng(8)
    flown = 0
    for name, rule in list(simulator.MANOEUVRES.items())[1:]:
        low, high = rule.arrivals
        at = heading + 360.0 * np.round(((low + high) / 2.0 - heading) / 360.0)
        if low <= at <= high:
            for k in range(len(ias)):
                share, far = told(edges[k], *flights(made.values, k, name, rng, 1000, (at, at)))
                flown += 1
                assert share <= 0.5 and far <= 0.64, (name, k, share, far)
    assert flown >= 4


def test_the_slow_flight_is_held_too():
    """Areas for 230 kt hold flights of 90 kt as a template for 90 kt does (Doc 8168 Vol II, II-4-1-4, 1.3.3.1.2)."""
    alt = np.array([2000.0, 6000.0, 10000.0, 14000.0])
    ias, minutes = np.array([130.0, 170.0, 230.0, 230.0]), np.ones(4)
    made = icao.figures(designs(ias, alt, minutes), Options())
    basic, whole = (edges_of(shape, 4) for shape in icao.reaches(made, Options()))
    bare, _ = icao.reaches(icao.figures(designs(ias, alt, minutes), Options(slow_ias_kt=np.nan)), Options())
    bare = edges_of(bare, 4)
    rng, better = np.random.default_rng(5), 0.0
    for k in range(4):
        for name in simulator.MANOEUVRES:
            flown = flights(made.slow, k, name, rng, 2000)
            share, far = told((basic if name == "circuit" else whole)[k], *flown)
            assert share <= 0.35 and far <= 0.64
            if name == "circuit":
                better = max(better, told(bare[k], *flown)[1] - far)
    assert better > 0.2
