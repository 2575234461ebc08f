from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import convex, geodesy
from fixwright.geometry.protection import envelope, envelope_states, icao_lines, placing
from fixwright.geometry.protection.envelope_states import CIRCUIT, DIRECT, MANOEUVRE_CODES, PARALLEL, TEARDROP
from fixwright.tests.geometry import hold_simulator as simulator

WGS84 = Geodesic.WGS84
ALPHA = np.radians(np.arange(0.0, 360.0, 3.0))
SQUARE = np.array([(-0.4, -0.9), (0.5, -1.0), (0.5, 1.0), (-0.4, 0.9)])
levels = st.tuples(st.floats(90.0, 265.0), st.floats(2000.0, 30000.0), st.sampled_from([60.0, 90.0, 120.0]))


def air(ias, alt, outbound_s=60.0):
    """TAS, rate of turn, wind by ICAO Doc 8168, and the outbound time, (1,) each."""
    line = icao_lines.lines(ias, alt, outbound_s / 60.0)
    return np.array([[float(line[name])] for name in ("V", "R", "w")] + [[outbound_s]])


def size(one) -> float:
    return simulator.area(envelope.crossings_nm(one))


# Against dense sampling


def sampled(design, alpha, count=61) -> np.ndarray:
    """Reach of a circuit timed from roll-out by trying many flights: one line of algebra a phase, scalar winds."""
    v, omega, w, outbound = (float(c[0]) for c in design)
    v, omega, w = v / 3600.0, np.radians(omega), w / 3600.0
    goal = np.radians(np.linspace(175.0, 185.0, count))
    best = np.zeros(len(alpha))
    for t0 in (5.0, 11.0):
        for psi in np.radians(np.linspace(0.0, 185.0, 800)):
            at = v * t0 + v / omega * np.sin(psi), v / omega * (1.0 - np.cos(psi))
            reach = at[0] * np.cos(alpha) + at[1] * np.sin(alpha) + w * (t0 + psi / omega)
            best = np.fmax(best, reach)
        for x in (outbound - 5.0, outbound + 21.0):
            for g in goal:
                u = v * t0 + v / omega * np.sin(g) + v * x * np.cos(g)
                s = v / omega * (1.0 - np.cos(g)) + v * x * np.sin(g)
                psi = np.linspace(g, 2.0 * np.pi, 800)[:, None]
                u, s = u + v / omega * (np.sin(psi) - np.sin(g)), s - v / omega * (np.cos(psi) - np.cos(g))
                reach = u * np.cos(alpha) + s * np.sin(alpha) + w * (t0 + x + psi / omega)
                best = np.fmax(best, reach.max(axis=0))
    return best


@pytest.mark.parametrize("design", [(100.0, 3000.0, 60.0), (220.0, 10000.0, 60.0), (265.0, 30000.0, 90.0)])
def test_reach_of_the_circuit_is_that_of_dense_sampling(design):
    """Never below it, and at most a few centimetres above, which the sampling misses."""
    design = air(*design)
    reach, _ = envelope.support(*design, [CIRCUIT], ALPHA, clocks=("roll-out",))
    more = reach[0] - sampled(design, ALPHA)
    assert more.min() > -1e-9
    assert more.max() < 1e-4


@pytest.mark.parametrize("design", [(95.0, 5000.0, 60.0), (220.0, 10000.0, 60.0)])
@pytest.mark.parametrize("name", ["circuit", "direct", "parallel"])
def test_flights_from_abeam_at_every_limit_fill_the_envelope(design, name):
    """Winds and outbound headings on a grid, limits of the rest, flown by the simulator: none farther than the reach,
    and the reach no farther than what a grid misses. The circuit is always protected with an entry."""
    rule = simulator.MANOEUVRES[name]
    arrivals = np.unique(np.linspace(*rule.arrivals, 20))
    wind, heading, start, timing, arrival, late = (
        grid.ravel()
        for grid in np.meshgrid(
            np.arange(0.0, 360.0, 4.0), [-5.0, -2.0, 1.0, 5.0], [5.0, 11.0], [0, 1], arrivals, [False, True]
        )
    )
    count = len(wind)
    error, react = np.where(timing == 0, -10.0, 10.0), np.where(timing == 0, 5.0, 11.0)
    point = np.zeros((count, 2))
    drawn = simulator.Drawn(point, arrival, start, heading, error, react, wind, np.ones(count), late > 0.0)
    design = air(*design)
    code = envelope_states.MANOEUVRES.index(name)
    reach, _ = envelope.support(*design, [CIRCUIT, code], ALPHA)
    circuit, _ = envelope.support(*design, [CIRCUIT], ALPHA)
    flown, _ = simulator.fly(*design[:, 0], name, drawn)
    farthest, _ = simulator.reach(simulator.outermost(flown.reshape(-1, 2)), ALPHA)
    assert (farthest - reach[0]).max() * 1852.0 < 0.005
    assert (reach[0] - np.fmax(farthest, circuit[0])).max() < 0.01 * reach.max()


@settings(max_examples=15)
@given(levels, st.sampled_from(MANOEUVRE_CODES))
def test_touching_places_belong_to_the_reach(design, manoeuvre):
    """The place that gives the reach in one direction lies within that of every other: it is one of the area."""
    reach, left = envelope.support(*air(*design), [manoeuvre], ALPHA)
    touch = (reach[0] + 1j * left[0]) * np.exp(1j * ALPHA)
    along = (touch[:, None] * np.exp(-1j * ALPHA)).real
    assert (along - reach[0]).max() < 1e-5


# How it grows


@settings(max_examples=20)
@given(levels, st.sampled_from(["speed", "level", "wind", "time", "tolerance"]))
def test_areas_grow(design, what):
    """With the speed in one wind, the level, the wind, the outbound time, the fix tolerance area; so do entries. Very
    slow aircraft in a storm are left out: the faster then is the sooner abeam."""
    one = air(*design)
    if what == "speed" and one[2, 0] > 0.5 * one[0, 0]:
        one[2] = 0.5 * one[0]
    more = {
        "speed": one * [[1.1], [1.0], [1.0], [1.0]],
        "level": air(design[0], design[1] + 2000.0, design[2]),
        "wind": one * [[1.0], [1.0], [1.1], [1.0]],
        "time": one + [[0.0], [0.0], [0.0], [15.0]],
        "tolerance": one,
    }[what]
    if what == "speed":
        more[1] = min(3.0, 509.26 / more[0, 0])
    if envelope.too_strong(more[0], more[2]) or (what == "level" and more[2, 0] > 0.5 * more[0, 0]):
        return
    wider = SQUARE * (1.2 if what == "tolerance" else 1.0)
    before = envelope.hold_envelopes(*one, 1.0, tolerance_areas_nm=[SQUARE])[0]
    after = envelope.hold_envelopes(*more, 1.0, tolerance_areas_nm=[wider])[0]
    for small, large in zip(before, after):
        assert size(large) > size(small)


@settings(max_examples=10)
@given(levels, st.sampled_from(MANOEUVRE_CODES))
def test_reach_grows_with_wind_everywhere(design, manoeuvre):
    one = air(*design)
    calmer, _ = envelope.support(*(one * [[1.0], [1.0], [0.7], [1.0]]), [manoeuvre], ALPHA)
    reach, _ = envelope.support(*one, [manoeuvre], ALPHA)
    assert (reach - calmer).min() > -1e-5


def test_the_entries_hold_the_circuit_and_the_tolerance_area_adds_itself():
    one = air(180.0, 8000.0)
    circuit, both = envelope.hold_envelopes(*one, 1.0)[0]
    at, _ = envelope.support(*one, [CIRCUIT], both.alpha)
    assert (both.reach - at[0]).min() > -1e-9
    wide, _ = envelope.hold_envelopes(*one, 1.0, tolerance_areas_nm=[SQUARE])[0]
    at, _ = envelope.support(*one, [CIRCUIT], wide.alpha)
    np.testing.assert_allclose(wide.reach - at[0], convex.support_of_points(wide.alpha, SQUARE), atol=1e-5)
    assert set(np.round(convex.edge_normals_of_polygon(SQUARE), 9)) <= set(np.round(wide.alpha, 9))


# Arrivals


def test_parts_of_the_arrivals_make_the_whole():
    one = air(150.0, 6000.0)
    whole, _ = envelope.support(*one, [DIRECT, TEARDROP, PARALLEL], ALPHA)
    halves = [
        envelope.support(*one, [DIRECT, TEARDROP, PARALLEL], ALPHA, arrivals_deg=[np.array(part)])[0]
        for part in ([(0.0, 70.0), (100.0, 150.0)], [(70.0, 100.0), (150.0, 250.0), (250.0, 360.0)])
    ]
    np.testing.assert_allclose(np.fmax(*halves), whole, atol=1e-5)
    assert max(half.min() for half in halves) >= 0.0


def test_arrivals_by_their_headings():
    """None adds nothing to the circuit; one adds its own entry; more add more; a turn's difference is none."""
    one = np.repeat(air(150.0, 6000.0), 6, axis=1)
    arrivals = [np.zeros(0), np.array([0.0]), np.array([90.0]), np.array([-270.0]), np.array([90.0, 200.0]), None]
    made = envelope.hold_envelopes(*one, 1.0, arrivals_deg=arrivals)
    circuit = size(made[0][0])
    sizes = [size(both) for _, both in made]
    assert sizes[0] == pytest.approx(circuit, rel=1e-3)
    assert circuit < sizes[1] < sizes[5]
    assert sizes[2] == pytest.approx(sizes[3], rel=1e-9)
    assert sizes[2] < sizes[4] < sizes[5]


@pytest.mark.parametrize(
    ("heading", "manoeuvres"),
    [(0.0, {DIRECT}), (108.0, {DIRECT, TEARDROP}), (140.0, {TEARDROP}), (181.0, {TEARDROP, PARALLEL}),
     (230.0, {PARALLEL}), (-72.0, {DIRECT, PARALLEL})],
)  # fmt: skip
def test_an_arrival_near_a_boundary_may_fly_either_entry(heading, manoeuvres):
    """Zone of flexibility of 5 degrees: ICAO Doc 8168 Vol I, Part I, Section 6, Chapter 1."""
    made = envelope_states.families(*air(150.0, 6000.0), MANOEUVRE_CODES, [np.array([(heading, heading)])])
    assert set(made.manoeuvre.tolist()) == manoeuvres | {CIRCUIT}


# As a polygon, and on the earth


@pytest.mark.parametrize("tolerance_m", [0.5, 5.0, 200.0])
@pytest.mark.parametrize("design", [(90.0, 3000.0, 60.0), (265.0, 34000.0, 90.0)])
def test_the_outline_holds_the_area_and_exceeds_it_by_no_more_than_the_tolerance(design, tolerance_m):
    one = air(*design)
    for made, manoeuvres in zip(envelope.hold_envelopes(*one, tolerance_m)[0], ([CIRCUIT], MANOEUVRE_CODES)):
        assert np.diff(made.alpha).min() > 0.0 and np.diff(made.alpha).max() < np.radians(10.0)
        ring = envelope.outline(made, tolerance_m)
        fine = np.unique(np.concatenate([np.radians(np.arange(0.0, 360.0, 1.0)), made.alpha]))
        reach, _ = envelope.support(*one, manoeuvres, fine)
        outside = (ring @ np.stack([np.cos(fine), np.sin(fine)]) - reach[0]).max(axis=1) * 1852.0
        assert outside.min() > 0.0
        assert outside.max() <= 0.75 * tolerance_m
        assert (convex.support_of_points(fine, ring) >= reach[0]).all()


@pytest.mark.parametrize(
    ("lon", "lat", "inbound", "side"),
    [(10.0, 50.0, 73.0, 1), (179.99, -33.5, 262.5, -1), (-20.0, 85.0, 10.0, 1), (0.0, 0.0, 45.0, 1)],
)
def test_the_outline_on_the_earth(lon, lat, inbound, side):
    """Points on chords in longitude and latitude, brought to the frame with geographiclib: never inside the area, never
    farther outside than the tolerance."""
    one, tolerance_m = air(220.0, 10000.0), 5.0
    made = envelope.hold_envelopes(*one, tolerance_m, tolerance_areas_nm=[SQUARE])[0][1]
    coords, _ = placing.place_rings([lon], [lat], [inbound], [side], [envelope.outline(made, tolerance_m)], tolerance_m)
    points = []
    for a, b in zip(coords, coords[1:]):
        for k in (0.0, 0.5):
            x, y = a + k * (b - a)
            out = WGS84.Inverse(lat, lon, y, x)
            beta = np.radians(side * ((out["azi1"] - inbound + 180.0) % 360.0 - 180.0))
            points.append((out["s12"] / 1852.0 * np.cos(beta), out["s12"] / 1852.0 * np.sin(beta)))
    fine = np.unique(np.concatenate([np.radians(np.arange(0.0, 360.0, 1.0)), made.alpha]))
    reach = envelope.support(*one, MANOEUVRE_CODES, fine)[0][0] + convex.support_of_points(fine, SQUARE)
    outside = (np.array(points) @ np.stack([np.cos(fine), np.sin(fine)]) - reach).max(axis=1) * 1852.0
    assert outside.min() >= 0.0
    assert outside.max() <= tolerance_m


def test_sides_mirror_and_courses_turn_the_area():
    ring = envelope.outline(envelope.hold_envelopes(*air(210.0, 9000.0), 5.0)[0][1], 5.0)
    right, _ = placing.place_rings([179.9], [-60.0], [40.0], [1], [ring], 5.0)
    u, s = geodesy.to_frame(179.9, -60.0, 40.0, 1, right[:, 0], right[:, 1])
    for inbound, side, sign in ((40.0, -1, -1.0), (163.0, 1, 1.0), (280.0, -1, -1.0)):
        other, _ = placing.place_rings([179.9], [-60.0], [inbound], [side], [ring], 5.0)
        v, t = geodesy.to_frame(179.9, -60.0, inbound, 1, other[:, 0], other[:, 1])
        assert np.abs(np.stack([u - v, s - sign * t])).max() * 1852.0 < 0.01


# Rows and refusals


def test_many_designs_at_once_are_what_each_is_alone():
    many = np.concatenate([air(ias, alt) for ias, alt in ((120.0, 4000.0), (230.0, 12000.0), (120.0, 4000.0))], axis=1)
    made = envelope.hold_envelopes(*many, 5.0)
    assert made[0][1] is made[2][1]
    for k in (0, 1):
        alone = envelope.hold_envelopes(*many[:, k : k + 1], 5.0)[0]
        for ours, its in zip(made[k], alone):
            np.testing.assert_allclose(ours.alpha, its.alpha, atol=1e-9)
            np.testing.assert_allclose(ours.reach, its.reach, atol=1e-9)


def test_a_wind_too_strong_gives_no_area():
    """The other rows are not touched. 0.85 of the speed is our own limit: see the module."""
    tas, wind = np.array([60.0, 150.0, np.nan]), np.array([55.0, 55.0, 55.0])
    assert envelope.too_strong(tas, wind).tolist() == [True, False, True]
    made = envelope.hold_envelopes(tas, np.full(3, 3.0), wind, np.full(3, 60.0), 5.0)
    assert [bool(np.isfinite(both.reach).all()) for _, both in made] == [False, True, False]
    reach, _ = envelope.support(tas, [3.0] * 3, wind, [60.0] * 3, [CIRCUIT], ALPHA)
    assert np.isnan(reach).all(axis=1).tolist() == [True, False, True]


def test_no_designs():
    assert envelope.hold_envelopes([], [], [], [], 5.0) == []


def test_calm_is_a_hold_too():
    reach, _ = envelope.support([120.0], [3.0], [0.0], [60.0], [CIRCUIT], np.array([0.0]))
    assert reach[0, 0] == pytest.approx(11.0 / 30.0 + 2.0 / np.pi, abs=1e-5)


@pytest.mark.parametrize("tolerance", [0.0, -1.0, np.nan])
def test_a_tolerance_that_makes_no_sense_is_refused(tolerance):
    with pytest.raises(ValueError, match="tolerance_m"):
        envelope.hold_envelopes(*air(150.0, 6000.0), tolerance)


@pytest.mark.parametrize("clocks", [("abeam",), ("roll-out", "sundial"), ()])
def test_clocks_are_checked(clocks):
    with pytest.raises(ValueError, match="clocks"):
        envelope.support(*air(150.0, 6000.0), [CIRCUIT], ALPHA, clocks=clocks)
