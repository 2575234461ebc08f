"""Circuits by rules of thumb: what is shown is what an aeroplane flown by the rule does."""

from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import circuit, holds, plan, reasons, rules_of_thumb
from fixwright.tests.geometry.aeroplane import Aeroplane, abeam_in_turn, turn_degrees
from fixwright.tests.geometry.test_flying import a_wind, flights, some_holds

NM_M = 1852.0


def flown_by(rule: float, hold, wind, roll: float, straight_s):
    """An aeroplane at the end of the turn inbound: on the rule's outbound heading for straight_s, or what that gives
    for the seconds from roll-out to abeam."""
    theta, side = float(hold.inbound_true_deg[0]), float(hold.side[0])
    across = wind[1] / hold.tas_kt[0] * np.sin(np.radians(wind[0] - theta))
    into = np.degrees(np.arcsin(across))
    heading_in, heading_out = theta + into, theta + 180.0 - rule * into
    plane = Aeroplane(heading_in, hold.tas_kt, hold.rate_dps, *wind, roll)
    states, step, rates = plane.turn(turn_degrees(heading_in, heading_out, side))
    vx, vy = plane.ground()
    u, speed = plane.along(theta), plane.along(theta, vx, vy)
    abeam = np.where(u > 0.0, -u / speed, -abeam_in_turn(plane, states, step, rates, theta))
    plane.straight(straight_s(float(abeam[0]), float(u[0]), float(speed[0])))
    plane.turn(turn_degrees(heading_out, heading_in, side))
    return plane, heading_out, float(plane.along(theta, *plane.ground())[0])


@settings(max_examples=20)
@given(
    st.floats(0, 359), st.floats(0, 35), st.sampled_from([0, 1]), st.sampled_from([0, 1]), st.sampled_from([0.0, 4.0]),
    st.sampled_from(["time", "along", "length"]),
)  # fmt: skip
def test_a_rule_flown_step_by_step(wind_from, kt, turn, rules, roll, leg):
    """Roll-out within 1 m, times within 0.05 s; the line begins over the fix and ends where the aeroplane does."""
    by_distance = {"leg_min": np.nan, "leg_nm": 3.0}
    end = {"time": {}, "along": {**by_distance, "leg_end": holds.ALONG_TRACK},
           "length": {**by_distance, "leg_end": holds.INBOUND_LENGTH}}[leg]  # fmt: skip
    rows = some_holds(turn=turn, rules=rules, **end)
    made = plan.fly_rows(
        rows, a_wind(1, wind_from, kt), timing=circuit.ABEAM, arrival_true_deg=np.nan, circuits=1, roll_s=roll
    )
    layer = plan.rule_rows(made)
    if made.reasons[0]:
        assert len(layer.columns["rule"]) == 0
        return
    hold, exact = made.holds, float(made.flight.usual.outbound_s[0])
    inbound_timed = leg == "time" and rules == holds.FAA
    again = layer.columns["timing"] == "adjusted"
    assert layer.columns["rule"][~again].tolist() == ["single", "double", "triple"]
    asked = np.isfinite(layer.columns["next_outbound_s"][~again])
    assert not again.any() if not inbound_timed else set(layer.columns["rule"][again]) <= set(
        layer.columns["rule"][:3][asked])  # fmt: skip
    for i, name in enumerate(layer.columns["rule"]):
        rule = {"single": 1.0, "double": 2.0, "triple": 3.0}[name]
        clock = layer.columns["next_outbound_s"][layer.columns["rule"].tolist().index(name)] if again[i] else np.nan
        if not np.isfinite(layer.columns["off_course_nm"][i]):
            continue

        def lasts(abeam, u, speed, clock=clock):
            """By ICAO's rules a minute from abeam; so far along the course; the time the rule before asked for, from
            abeam; else what the exact circuit takes."""
            if np.isfinite(clock):
                return clock + abeam
            if leg == "time" and rules == holds.ICAO:
                return 60.0 + abeam
            return (-3.0 - u) / speed if leg == "along" else exact

        plane, heading_out, gs = flown_by(rule, hold, (wind_from, kt), roll, lasts)
        off = (plane.right_of(hold.inbound_true_deg) - layer.columns["off_course_nm"][i],
               -plane.along(hold.inbound_true_deg) - layer.columns["before_fix_nm"][i])  # fmt: skip
        assert np.hypot(*off)[0] * NM_M < 1.0
        assert layer.columns["from_fix_nm"][i] == pytest.approx(float(np.hypot(plane.x, plane.y)[0]), abs=1e-4)
        shown = layer.columns["outbound_heading_deg"][i] + hold.var_deg[0]
        assert abs((shown - heading_out + 180.0) % 360.0 - 180.0) < 1e-6
        coords = layer.coords[layer.offsets[i] : layer.offsets[i + 1]]
        seconds = layer.seconds[layer.offsets[i] : layer.offsets[i + 1]]
        assert seconds[0] == 0.0 and (np.diff(seconds) > 0.0).all()
        assert seconds[-1] == pytest.approx(float(plane.t[0]), abs=0.05)
        ends = [Geodesic.WGS84.Inverse(48.5, 11.25, y, x) for x, y in (coords[0], coords[-1])]
        assert ends[0]["s12"] < 0.01
        assert ends[1]["s12"] == pytest.approx(float(np.hypot(plane.x, plane.y)[0]) * NM_M, abs=1.0)
        if again[i]:
            inbound = -float(plane.along(hold.inbound_true_deg)[0]) / gs
            if inbound > 0.0:
                assert layer.columns["inbound_s"][i] == pytest.approx(inbound, abs=0.05)
                assert layer.columns["next_outbound_s"][i] == pytest.approx(
                    clock + 60.0 - inbound if clock + 60.0 > inbound else np.nan, abs=0.1, nan_ok=True
                )
        elif inbound_timed:
            first, _, gs = flown_by(rule, hold, (wind_from, kt), roll, lambda abeam, u, speed: 60.0 + abeam)
            inbound = float(-first.along(hold.inbound_true_deg)[0]) / gs
            if inbound > 0.0:
                assert layer.columns["inbound_s"][i] == pytest.approx(inbound, abs=0.05)
                following = 120.0 - inbound
                assert layer.columns["next_outbound_s"][i] == pytest.approx(
                    following if following > 0.0 else np.nan, abs=0.05, nan_ok=True
                )
        else:
            assert np.isnan(layer.columns["inbound_s"][i]) and np.isnan(layer.columns["next_outbound_s"][i])


def test_in_still_air_every_rule_is_the_racetrack():
    for rules in (holds.ICAO, holds.FAA):
        columns = plan.rule_rows(flights(some_holds(rules=rules))).columns
        np.testing.assert_allclose(columns["off_course_nm"], 0.0, atol=1e-9)
        np.testing.assert_allclose(columns["outbound_s"], 60.0)
        assert all("on the inbound course, 1.97 NM before the fix" in text for text in columns["text"])
    np.testing.assert_allclose(columns["inbound_s"], 60.0)
    np.testing.assert_allclose(columns["next_outbound_s"], 60.0)


def test_the_mirror_image_of_a_rule():
    """The other side with the wind mirrored in the course: as far off, on the other side of the course."""
    right = plan.rule_rows(flights(some_holds(), (340.0, 22.0))).columns
    left = plan.rule_rows(flights(some_holds(turn=1), (2.0 * 72.0 - 340.0, 22.0))).columns
    np.testing.assert_allclose(left["off_course_nm"], -right["off_course_nm"], atol=1e-9)
    for name in ("before_fix_nm", "from_fix_nm", "outbound_s", "inbound_s", "next_outbound_s"):
        np.testing.assert_allclose(left[name], right[name], atol=1e-6, err_msg=name)


def test_sentences():
    """Inbound 072, 118 kt, wind 340/22, one minute inbound by FAA. Figures by the vector sum, derived here."""
    single, _, triple, *_, adjusted = plan.rule_rows(flights(some_holds(), (340.0, 22.0))).columns["text"]
    assert single.startswith("Single drift (common practice): heading 258 for 1:10 after the turn rolls out 0.73 NM")
    assert triple.startswith("Triple drift (FAA AIM 5-3-8 j.8(c)): heading 280 for 1:10 after the turn rolls out 0.06")
    assert "NM right of the inbound course" in single and "NM left of the inbound course" in triple
    assert "A first outbound leg of 1:00 on the stopwatch leaves 0:44 inbound, so the next is 1:16." in triple
    assert adjusted.startswith(
        "Triple drift, the time adjusted by the last inbound leg (US Navy CNATRA P-871, chapter 4): heading 280 for "
        "1:16 on the stopwatch rolls out 0.05 NM left of the inbound course, 1.87 NM before the fix. That leaves 0:58"
    )


def test_the_adjusted_time_comes_to_a_standstill():
    """US Navy CNATRA P-871, chapter 4, flown again and again: where the inbound leg lasts as wanted nothing is adjusted
    any more. The row that is adjusted is nearer to that than the first leg."""
    columns = plan.rule_rows(flights(some_holds(), (340.0, 22.0))).columns
    first, then = columns["inbound_s"][:3], columns["inbound_s"][3:]
    assert columns["timing"].tolist() == ["exact"] * 3 + ["adjusted"] * 3
    assert (np.abs(then - 60.0) < np.abs(first - 60.0)).all()
    np.testing.assert_allclose(columns["off_course_nm"][3], columns["off_course_nm"][0], atol=1e-9)


def test_a_heading_on_which_the_leg_has_no_end():
    """Three times a great correction points inbound, where no distance outbound is reached: a row that says so, without
    a line, and its neighbours as if alone."""
    rows = some_holds(2, leg_min=np.nan, leg_nm=3.0, leg_end=holds.ALONG_TRACK)
    wind = plan.Wind(np.array([340.0, 340.0]), np.array([70.0, 22.0]))
    made = plan.fly_rows(rows, wind, timing=0, arrival_true_deg=np.nan, circuits=1)
    assert (made.flight.code == reasons.OK).all()
    layer = plan.rule_rows(made)
    sizes = np.diff(layer.offsets)
    assert sizes[2] == 0 and (sizes[[0, 3, 4, 5]] > 10).all()
    assert "no outbound leg can be flown on heading" in layer.columns["text"][2]
    assert np.isnan(layer.columns["off_course_nm"][2])
    alone = plan.rule_rows(flights(some_holds(leg_min=np.nan, leg_nm=3.0, leg_end=holds.ALONG_TRACK), (340.0, 22.0)))
    assert layer.columns["text"][3:].tolist() == alone.columns["text"].tolist()


def test_only_what_can_be_flown_has_rules():
    rows = some_holds(2, rules=holds.ICAO, ias_kt=80.0)
    wind = plan.Wind(np.array([252.0, 0.0]), np.array([60.0, 0.0]))
    made = plan.fly_rows(rows, wind, timing=0, arrival_true_deg=np.nan, circuits=1)
    assert plan.rule_rows(made).columns["hold"].tolist() == [rows.columns["hold"][1]] * 3
    nothing = plan.fly_rows(rows.take([]), wind.__class__(np.zeros(0), np.zeros(0)), timing=0, arrival_true_deg=np.nan,
                            circuits=1)  # fmt: skip
    assert plan.rule_rows(nothing).offsets.tolist() == [0]


def test_every_rule_has_a_source():
    assert all(rule.source and rule.mark for rule in rules_of_thumb.DRIFT_RULES)
