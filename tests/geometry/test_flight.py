from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fixwright.geometry import flight

speeds = st.floats(40.0, 500.0)
degrees = st.floats(0.0, 360.0)


@given(speeds, st.sampled_from([0, 1]))
def test_turn_takes_the_lesser_bank(tas, rules):
    turn = flight.turn(tas, rules)
    rule = flight.TURN_RULES[flight.RULES[rules]]
    assert float(turn.bank_deg) <= rule.bank_deg + 1e-9
    assert float(turn.rate_dps) <= rule.rate_dps + 1e-9
    # One of the two governs.
    assert float(turn.bank_deg) == rule.bank_deg or float(turn.rate_dps) == rule.rate_dps
    # And they belong together: r = V / rate, tan(bank) = V rate / g.
    v = tas * 1852.0 / 3600.0
    rate = math.radians(float(turn.rate_dps))
    assert float(turn.radius_nm) * 1852.0 == pytest.approx(v / rate, rel=1e-12)
    assert math.tan(math.radians(float(turn.bank_deg))) == pytest.approx(v * rate / 9.80665, rel=1e-9)


@pytest.mark.parametrize("rules", [0, 1])
def test_radius_scales_with_speed(rules):
    """At 3 degrees a second with the speed; at a fixed bank with its square."""
    slow = flight.turn([60.0, 120.0], rules)
    assert float(slow.radius_nm[1] / slow.radius_nm[0]) == pytest.approx(2.0, rel=1e-12)
    fast = flight.turn([250.0, 500.0], rules)
    assert float(fast.radius_nm[1] / fast.radius_nm[0]) == pytest.approx(4.0, rel=1e-12)


@pytest.mark.parametrize("rules", [0, 1])
def test_turn_is_continuous_where_the_bank_takes_over(rules):
    rule = flight.TURN_RULES[flight.RULES[rules]]
    switch = 9.80665 * math.tan(math.radians(rule.bank_deg)) / math.radians(rule.rate_dps) * 3600.0 / 1852.0
    below, above = flight.turn(switch - 1e-6, rules), flight.turn(switch + 1e-6, rules)
    for name in flight.Turn._fields:
        assert float(getattr(below, name)) == pytest.approx(float(getattr(above, name)), rel=1e-6)


@given(speeds, st.floats(1.0, 60.0))
def test_bank_and_rate_are_inverses(tas, bank):
    rate = flight.rate_of_bank_dps(tas, bank)
    assert float(flight.bank_of_rate_deg(tas, rate)) == pytest.approx(bank, rel=1e-12)


def test_turn_shapes_and_nan():
    assert flight.turn(100.0, 0).rate_dps.shape == ()
    turn = flight.turn([[100.0], [np.nan]], [0, 1])
    for values in turn:
        assert np.shape(values) == (2, 2)
        assert np.isnan(values[1]).all() and np.isfinite(values[0]).all()


@given(degrees, speeds, degrees, st.floats(0.0, 200.0))
def test_a_heading_makes_the_course_good(course, tas, wind_from, wind):
    """Air velocity and wind add up to the course at the ground speed, or there is no heading."""
    out = flight.heading_for_course(course, tas, wind_from, wind)
    if np.isnan(out.heading_deg):
        angle = math.radians(wind_from - course)
        cross = abs(wind * math.sin(angle))
        along = math.sqrt(max(tas**2 - cross**2, 0.0)) - wind * math.cos(angle)
        assert cross > tas * (1.0 - 1e-9) or along <= 1e-6
        return

    def vector(deg, length):
        return length * np.array([math.sin(math.radians(deg)), math.cos(math.radians(deg))])

    over_ground = vector(float(out.heading_deg), tas) - vector(wind_from, wind)
    np.testing.assert_allclose(over_ground, vector(course, float(out.gs_kt)), rtol=0.0, atol=1e-6)
    assert 0.0 <= float(out.heading_deg) < 360.0
    assert abs(float(out.correction_deg)) <= 90.0


@given(degrees, speeds, degrees, st.floats(0.0, 200.0))
def test_airspeed_for_track_gives_the_triangle_back(course, tas, wind_from, wind):
    out = flight.heading_for_course(course, tas, wind_from, wind)
    assume(np.isfinite(out.gs_kt) and float(out.gs_kt) > 1.0)
    speed, heading = flight.airspeed_for_track(course, float(out.gs_kt), wind_from, wind)
    assert float(speed) == pytest.approx(tas, abs=1e-6)
    assert abs((float(heading) - float(out.heading_deg) + 180.0) % 360.0 - 180.0) < 1e-5


@given(degrees, degrees, st.floats(0.0, 39.0), st.floats(-360.0, 360.0))
def test_wind_triangle_turned_and_mirrored(course, wind_from, wind, turn):
    one = flight.heading_for_course(course, 40.0, wind_from, wind)
    turned = flight.heading_for_course(course + turn, 40.0, wind_from + turn, wind)
    mirrored = flight.heading_for_course(-course, 40.0, -wind_from, wind)
    assert float(turned.correction_deg) == pytest.approx(float(one.correction_deg), abs=1e-5)
    assert float(mirrored.correction_deg) == pytest.approx(-float(one.correction_deg), abs=1e-5)
    assert float(mirrored.gs_kt) == pytest.approx(float(one.gs_kt), abs=1e-6)


@pytest.mark.parametrize("course", [0.0, 45.0, 90.0, 180.0, 270.0, 360.0])
@pytest.mark.parametrize("across", [-90.0, 90.0])
def test_a_crosswind_as_fast_as_the_aeroplane(course, across):
    """Nothing is left to fly forward with: no heading, whatever the rounding of a sine."""
    out = flight.heading_for_course(course, 120.0, (course + across) % 360.0, 120.0)
    assert np.isnan(out.correction_deg) and np.isnan(out.heading_deg) and np.isnan(out.gs_kt)


def test_no_heading_against_a_stronger_headwind_and_one_with_a_stronger_tailwind():
    against = flight.heading_for_course(90.0, 60.0, 90.0, 60.0)
    assert np.isnan(against.gs_kt)
    before = flight.heading_for_course(90.0, 60.0, 270.0, 80.0)
    assert float(before.gs_kt) == pytest.approx(140.0)


def test_calm_and_a_wind_that_is_not_known():
    out = flight.heading_for_course([10.0, 10.0], 100.0, 200.0, [0.0, np.nan])
    assert out.heading_deg[0] == pytest.approx(10.0) and out.gs_kt[0] == 100.0
    assert np.isnan(out.heading_deg[1]) and np.isnan(out.gs_kt[1]) and np.isnan(out.correction_deg[1])
    assert flight.heading_for_course(10.0, 0.0, 200.0, 10.0).gs_kt.shape == ()
