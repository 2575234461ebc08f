"""The circuit in wind against aeroplanes flown step by step, and what must hold of any circuit."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import circuit, reasons
from fixwright.tests.geometry.aeroplane import Aeroplane, abeam_in_turn, touches_abeam, turn_degrees

NM_M = 1852.0
ROWS, EXAMPLES = 500, 16
CLOCKED = circuit.OUTBOUND_TIME
TIMES = np.concatenate([np.arange(0.0, 4000.0, 2.0), np.arange(4000.0, 60000.0, 50.0)])[:, None]


def cases(seed: int, rows: int, direct: bool = False, rolls: bool = False) -> dict[str, np.ndarray]:
    """Random holds of both sides with every leg end, in winds up to 0.6 of the airspeed and a few up to 0.95."""
    rng = np.random.default_rng(seed)
    given = rng.integers(0, 6, rows)
    tas = rng.uniform(60.0, 300.0, rows)
    share = np.where(rng.random(rows) < 0.1, rng.uniform(0.6, 0.95, rows), rng.uniform(0.0, 0.6, rows))
    inbound, side = rng.uniform(0.0, 360.0, rows), rng.choice([-1.0, 1.0], rows)
    nm = rng.uniform(1.5, 12.0, rows)
    far = rng.uniform(14.0, 60.0, rows)
    station_u = far * rng.choice([-1.0, 1.0], rows)
    value = np.select(
        [np.isin(given, (circuit.INBOUND_TIME, circuit.OUTBOUND_TIME)), given == circuit.CIRCUIT_TIME],
        [rng.uniform(30.0, 180.0, rows), rng.uniform(160.0, 600.0, rows)],
        default=nm,
    )
    value = np.where(given == circuit.OUTBOUND_DME, far + np.sign(station_u) * nm, value)
    start = inbound + side * rng.uniform(-70.0, 110.0, rows)
    return {
        "inbound_true_deg": inbound,
        "side": side,
        "tas_kt": tas,
        "rate_dps": rng.choice([1.5, 2.4, 3.0], rows),
        "wind_from_deg": rng.uniform(0.0, 360.0, rows),
        "wind_kt": share * tas,
        "given": given,
        "value": value,
        "clock": rng.integers(0, 3, rows),
        "station_u_nm": station_u,
        "station_s_nm": rng.uniform(-2.0, 2.0, rows),
        "start_heading_deg": start if direct else np.full(rows, np.nan),
        "roll_s": rng.uniform(0.5, 10.0, rows) if rolls else np.zeros(rows),
    }


def fly(c, heading_in, heading_out, straight_s=None, ramped=False) -> tuple[Aeroplane, dict[str, np.ndarray]]:
    """One circuit on two headings, its outbound leg ended by the clock, the distance or the reading of each case, or
    after straight_s where the case gives no outbound leg. Ends at the end of the second turn; the times flown."""
    inbound, side, value = c["inbound_true_deg"], c["side"], c["value"]
    start = np.where(np.isnan(c["start_heading_deg"]), heading_in, c["start_heading_deg"])
    plane = Aeroplane(start, c["tas_kt"], c["rate_dps"], c["wind_from_deg"], c["wind_kt"], c["roll_s"], ramped)
    states, step, rates = plane.turn(turn_degrees(start, heading_out, side))
    turn_out, plane.touches = plane.t, touches_abeam(plane, states, inbound)
    vx, vy = plane.ground()
    speed = plane.along(inbound, vx, vy)
    u, before = plane.along(inbound), abeam_in_turn(plane, states, step, rates, inbound)
    with np.errstate(invalid="ignore", divide="ignore"):
        abeam = np.where(u > 0.0, np.where(speed < 0.0, -u / speed, np.nan), -before)
        clock = np.select([c["clock"] == circuit.ABEAM, c["clock"] == circuit.LATER_OF_BOTH],
                          [abeam, np.maximum(abeam, 0.0)], 0.0)  # fmt: skip
        along = np.where(speed < 0.0, (-value - u) / speed, np.nan)
        outbound = np.select(
            [c["given"] == circuit.OUTBOUND_TIME, c["given"] == circuit.OUTBOUND_ALONG],
            [value + clock, along],
            np.nan if straight_s is None else straight_s,
        )
    dme = c["given"] == circuit.OUTBOUND_DME
    if dme.any():
        outbound = np.where(dme, _until_reading(plane, c), outbound)
    plane.straight(outbound)
    before_turn = plane.t
    plane.turn(turn_degrees(heading_out, heading_in, side))
    flown = {"turn_out_s": turn_out, "outbound_s": outbound, "turn_in_s": plane.t - before_turn,
             "abeam_after_roll_out_s": abeam, "stopwatch_s": outbound - clock}  # fmt: skip
    return plane, flown


def _until_reading(plane, c):
    """Seconds until the ground distance from the station is the value, growing where the station is ahead of the fix,
    falling where it is behind; NaN where it never is, or was already at roll-out."""
    course = np.radians(c["inbound_true_deg"])
    u, s = c["station_u_nm"], c["side"] * c["station_s_nm"]
    sx, sy = u * np.sin(course) + s * np.cos(course), u * np.cos(course) - s * np.sin(course)
    vx, vy = plane.ground()

    def short(t):
        return np.sign(u) * (np.hypot(plane.x + vx * t - sx, plane.y + vy * t - sy) - c["value"]) < 0.0

    before = short(TIMES)
    met = before[:-1] & ~before[1:] & before[0]
    first = np.argmax(met, axis=0)
    low, high = TIMES[first, 0], TIMES[first + 1, 0]
    for _ in range(50):
        middle = (low + high) / 2.0
        still = short(middle)
        low, high = np.where(still, middle, low), np.where(still, high, middle)
    return np.where(met.any(axis=0), (low + high) / 2.0, np.nan)


def take(c, rows):
    return {name: values[rows] for name, values in c.items()}


@settings(max_examples=EXAMPLES)
@given(st.integers(0, 2**32 - 1), st.booleans(), st.booleans())
def test_closes_when_flown_step_by_step(seed, direct, rolls):
    """8 000 cases, more than 5 000 of which have a circuit: the second turn ends on the course within 1 m, every time
    agrees within 0.05 s, and what was given is what is flown. Direct entries begin on any heading of their sector;
    rolling in and out takes no time, or up to 10 s."""
    c = cases(seed, ROWS, direct, rolls)
    found = circuit.solve(**c)
    good = np.flatnonzero(found.code == reasons.OK)
    assert len(good) > (0.6 if rolls else 0.65) * ROWS
    c, found = take(c, good), found.take(good)
    plane, flown = fly(c, found.heading_in_deg, found.heading_out_deg, found.outbound_s)
    inbound = c["inbound_true_deg"]
    for name, seconds in flown.items():
        there = ~np.isnan(seconds) & ~plane.touches & ~((name == "stopwatch_s") & ~(seconds > 0.05))
        np.testing.assert_allclose(getattr(found, name)[there], seconds[there], rtol=0.0, atol=0.05, err_msg=name)
    never = np.isnan(flown["abeam_after_roll_out_s"])
    assert np.isnan(found.abeam_after_roll_out_s[never]).all()
    assert plane.touches.mean() < 0.02
    assert (np.abs(plane.right_of(inbound)) * NM_M < 1.0).all()
    before_fix = -plane.along(inbound)
    assert (before_fix > 0.0).all()
    vx, vy = plane.ground()
    to_fix = before_fix / plane.along(inbound, vx, vy)
    plane.straight(to_fix)
    assert (np.hypot(plane.x, plane.y) * NM_M < 1.0).all()
    np.testing.assert_allclose(found.inbound_s, to_fix, rtol=0.0, atol=0.05)
    np.testing.assert_allclose(found.inbound_nm, before_fix, rtol=0.0, atol=1.0 / NM_M)
    np.testing.assert_allclose(found.circuit_s, plane.t, rtol=0.0, atol=0.05)
    for kind, value, tolerance in (
        (circuit.INBOUND_TIME, to_fix, 0.05),
        (circuit.INBOUND_LENGTH, before_fix, 1.0 / NM_M),
        (circuit.CIRCUIT_TIME, plane.t, 0.05),
    ):
        mine = c["given"] == kind
        np.testing.assert_allclose(value[mine], c["value"][mine], rtol=0.0, atol=tolerance)


@settings(max_examples=6)
@given(st.integers(0, 2**32 - 1))
def test_refuses_only_what_cannot_be_flown(seed):
    """Where an outbound leg is given and no circuit found, no outbound heading within 90 degrees of the reciprocal, on
    the side against the drift, brings a flown aeroplane back over the course."""
    c = cases(seed, ROWS)
    found = circuit.solve(**c)
    none = (c["given"] >= CLOCKED) & np.isin(found.code, (reasons.NO_CIRCUIT, reasons.NO_LEG_END))
    c = take(c, np.flatnonzero(none)[:60])
    count = len(c["value"])
    heading_in = np.repeat(_heading_in(c), 91)
    eta = np.tile(np.linspace(0.0, 90.0, 91), count)
    wide = {name: np.repeat(values, 91) for name, values in c.items()}
    from_right = np.sign(np.sin(np.radians(wide["wind_from_deg"] - wide["inbound_true_deg"])))
    plane, flown = fly(wide, heading_in, wide["inbound_true_deg"] + 180.0 - from_right * eta)
    across = np.where(flown["outbound_s"] > 0.0, -from_right * plane.right_of(wide["inbound_true_deg"]), np.nan)
    across = across.reshape(count, 91)
    crossed = (across[:, :-1] > 1e-6) & (across[:, 1:] < -1e-6)
    assert not crossed.any(), np.flatnonzero(crossed.any(axis=1))


@settings(max_examples=6)
@given(st.integers(0, 2**32 - 1))
def test_takes_the_outbound_heading_nearest_to_the_reciprocal(seed):
    """Between the reciprocal and the heading found, on the side against the drift, no other closes the circuit."""
    c = cases(seed, 200)
    found = circuit.solve(**c)
    rows = np.flatnonzero((c["given"] >= CLOCKED) & (found.code == reasons.OK) & (np.abs(found.eps_rad) > 0.01))
    c, found = take(c, rows), found.take(rows)
    share = np.tile(np.linspace(0.0, 0.999, 60), len(rows))
    wide = {name: np.repeat(values, 60) for name, values in c.items()}
    heading = wide["inbound_true_deg"] + wide["side"] * (180.0 - share * np.degrees(np.repeat(found.eps_rad, 60)))
    plane, flown = fly(wide, np.repeat(found.heading_in_deg, 60), heading)
    across = np.where(flown["outbound_s"] > 0.0, wide["side"] * plane.right_of(wide["inbound_true_deg"]), np.nan)
    across = across.reshape(len(rows), 60) * np.sign(found.eps_rad)[:, None]
    assert not (across > 1e-7).any()


def _heading_in(c):
    off = np.radians(c["wind_from_deg"] - c["inbound_true_deg"])
    return c["inbound_true_deg"] + np.degrees(np.arcsin(c["wind_kt"] / c["tas_kt"] * np.sin(off)))


def test_rolling_against_a_rate_that_grows_and_falls_evenly():
    """Half the roll time straight on stands for a rate of turn that grows evenly while the bank is built up. Flown with
    such a rate on the headings and times found, with 5 s of roll: where a turn begins, and where it ends, the track is
    shifted by v omega t^2 / 24, 3.4 m at 120 kt and 3 degrees a second, so a turn ends up to 10 m off; over a whole
    circuit the four shifts cancel to less than a metre."""
    after_turn, closing = 0.0, 0.0
    for seed in range(8):
        c = cases(seed, 400, rolls=True)
        c["roll_s"] = np.full(400, 5.0)
        # Bank, and so v omega, as the rules have it: 3 degrees a second, at most 25 degrees of bank.
        least = np.degrees(9.80665 * np.tan(np.radians(25.0)) / (c["tas_kt"] * 1852.0 / 3600.0))
        c["rate_dps"] = np.minimum(3.0, least)
        found = circuit.solve(**c)
        rows = np.flatnonzero((found.code == reasons.OK) & (np.minimum(found.turn_out_s, found.turn_in_s) > 10.0))
        c, found = take(c, rows), found.take(rows)
        assert len(rows) > 200
        motion = (found.heading_in_deg, c["tas_kt"], c["rate_dps"], c["wind_from_deg"], c["wind_kt"], 5.0)
        model, plane = Aeroplane(*motion), Aeroplane(*motion, ramped=True)
        for one in (model, plane):
            one.turn(turn_degrees(found.heading_in_deg, found.heading_out_deg, c["side"]))
            np.testing.assert_allclose(one.t, found.turn_out_s, rtol=0.0, atol=1e-9)
        off = np.hypot(plane.x - model.x, plane.y - model.y) * NM_M
        shift = c["tas_kt"] / 3600.0 * np.radians(c["rate_dps"]) * 5.0**2 / 24.0 * NM_M
        assert (off < 2.01 * shift).all()
        plane.straight(found.outbound_s)
        plane.turn(turn_degrees(found.heading_out_deg, found.heading_in_deg, c["side"]))
        plane.straight(found.inbound_s)
        np.testing.assert_allclose(plane.t, found.circuit_s, rtol=0.0, atol=1e-9)
        after_turn = max(after_turn, float(off.max()))
        closing = max(closing, float(np.hypot(plane.x, plane.y).max() * NM_M))
    assert 5.0 < after_turn < 10.0 and closing < 1.0, (after_turn, closing)


@pytest.mark.parametrize("wind_from", [0.0, 80.0, 200.0, 300.0])
def test_the_shortest_circuit_with_rolling(wind_from):
    """None is shorter, flown step by step; at it no inbound leg is left."""
    asked = (72.0, 1, 118.0, 3.0, wind_from, 22.0)
    air = circuit.air_of(*asked, 6.0)
    on_heading = (air.wa * np.cos(air.kappa_rad) + air.wc * np.sin(air.kappa_rad)) * 3600.0
    least = float(circuit.shortest_s(118.0, 3.0, 22.0, 6.0, on_heading))
    times = least + np.array([-5.0, -0.01, 0.01, 60.0])
    found = circuit.solve(*asked, circuit.CIRCUIT_TIME, times, roll_s=6.0)
    assert (found.code[:2] == reasons.CIRCUIT_TOO_SHORT).all()
    if found.code[2] == reasons.OK:
        assert found.inbound_s[2] < 0.05
    if wind_from == 80.0:
        assert (found.code[2:] != reasons.OK).any() or found.inbound_s[3] > 0.0
    assert circuit.shortest_s(118.0, 3.0, 0.0, 6.0) == pytest.approx(120.0 + 2.0 * 6.0)


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("clock", range(3))
@pytest.mark.parametrize("roll", [0.0, 5.0])
def test_no_wind_gives_the_racetrack(side, clock, roll):
    """Turns of half a circle, legs of equal time, whatever is given; with rolling each turn takes so much longer."""
    c = {"inbound_true_deg": 50.0, "side": side, "tas_kt": 120.0, "rate_dps": 3.0, "wind_from_deg": 200.0,
         "wind_kt": 0.0, "roll_s": roll}  # fmt: skip
    seconds, nm = 60.0, 2.0
    two_radii = 2.0 * 120.0 / 3600.0 / np.radians(3.0)
    reading = np.hypot(10.0 + nm, two_radii)
    for kind, value in ((circuit.INBOUND_TIME, seconds), (circuit.INBOUND_LENGTH, nm),
                        (circuit.CIRCUIT_TIME, 240.0 + 2.0 * roll), (circuit.OUTBOUND_TIME, seconds),
                        (circuit.OUTBOUND_ALONG, nm), (circuit.OUTBOUND_DME, reading)):  # fmt: skip
        one = circuit.solve(**c, given=kind, value=value, clock=clock, station_u_nm=10.0)
        assert one.code[0] == reasons.OK
        assert float(one.heading_in_deg[0]) == pytest.approx(50.0, abs=1e-9)
        assert float(one.heading_out_deg[0]) == pytest.approx(230.0, abs=1e-9)
        for name in ("outbound_s", "inbound_s"):
            assert float(getattr(one, name)[0]) == pytest.approx(60.0, abs=1e-9), name
        for name in ("turn_out_s", "turn_in_s"):
            assert float(getattr(one, name)[0]) == pytest.approx(60.0 + roll, abs=1e-9), name
        assert float(one.stopwatch_s[0]) == pytest.approx(60.0, abs=1e-9)
        assert float(one.abeam_after_roll_out_s[0]) == pytest.approx(0.0, abs=1e-9)


@given(st.integers(0, 2**32 - 1), st.booleans())
@settings(max_examples=10)
def test_the_mirror_image_of_a_circuit(seed, direct):
    """The other side with the wind and the arrival mirrored in the course: the same times, mirrored headings."""
    c = cases(seed, 100, direct, rolls=seed % 2 == 1)
    mirrored = dict(c, side=-c["side"], wind_from_deg=2.0 * c["inbound_true_deg"] - c["wind_from_deg"],
                    start_heading_deg=2.0 * c["inbound_true_deg"] - c["start_heading_deg"])  # fmt: skip
    one, other = circuit.solve(**c), circuit.solve(**mirrored)
    np.testing.assert_array_equal(one.code, other.code)
    for name in ("turn_out_s", "outbound_s", "turn_in_s", "inbound_s", "circuit_s", "stopwatch_s", "gs_in_kt"):
        np.testing.assert_allclose(getattr(one, name), getattr(other, name), rtol=0.0, atol=1e-6, err_msg=name)
    good = one.code == reasons.OK
    for name in ("heading_in_deg", "heading_out_deg"):
        both = getattr(one, name) + getattr(other, name) - 2.0 * c["inbound_true_deg"]
        assert (np.abs((both[good] + 180.0) % 360.0 - 180.0) < 1e-7).all()


@given(st.integers(0, 2**32 - 1), st.floats(0.0, 360.0))
@settings(max_examples=10)
def test_turns_with_the_compass(seed, by):
    """Course, wind and arrival turned alike: the same circuit, turned."""
    c = cases(seed, 60, True)
    turned = {name: (values + by if name in ("inbound_true_deg", "wind_from_deg", "start_heading_deg") else values)
              for name, values in c.items()}  # fmt: skip
    one, other = circuit.solve(**c), circuit.solve(**turned)
    both = (one.code == reasons.OK) & (other.code == reasons.OK)
    assert both.sum() >= (one.code == reasons.OK).sum() - 1
    np.testing.assert_allclose(one.circuit_s[both], other.circuit_s[both], rtol=0.0, atol=1e-5)
    off = (other.heading_out_deg - one.heading_out_deg - by + 180.0) % 360.0 - 180.0
    assert (np.abs(off[both]) < 1e-5).all()


def test_a_start_on_the_inbound_heading_is_the_circuit():
    c = cases(7, 200)
    one = circuit.solve(**c)
    same = circuit.solve(**dict(c, start_heading_deg=np.where(np.isnan(one.heading_in_deg), 0.0, one.heading_in_deg)))
    good = one.code == reasons.OK
    np.testing.assert_array_equal(one.code[good], same.code[good])
    np.testing.assert_allclose(one.circuit_s[good], same.circuit_s[good], rtol=0.0, atol=1e-6)


def test_shortest_circuit():
    """Below it there is none; at it no inbound leg is left, and the way back is flown against the wind."""
    for wind_from in (0.0, 60.0, 140.0, 290.0):
        least = float(circuit.shortest_s(118.0, 3.0, 22.0))
        assert least == pytest.approx(120.0 / (1.0 - 22.0 / 118.0))
        short = circuit.solve(72.0, 1, 118.0, 3.0, wind_from, 22.0, circuit.CIRCUIT_TIME, [least - 0.01, least + 0.001])
        assert short.code[0] == reasons.CIRCUIT_TOO_SHORT
        if short.code[1] == reasons.OK:
            assert short.inbound_s[1] < 0.01
            assert abs((short.heading_out_deg[1] - wind_from + 180.0) % 360.0 - 180.0) < 1.0
        else:
            # Where the wind blows from the inbound side the way back would point inbound.
            assert abs((wind_from - 252.0 + 180.0) % 360.0 - 180.0) > 90.0


def test_codes():
    def code(**changes):
        c = {"inbound_true_deg": 50.0, "side": 1, "tas_kt": 120.0, "rate_dps": 3.0, "wind_from_deg": 110.0,
             "wind_kt": 25.0, "given": circuit.INBOUND_TIME, "value": 60.0}  # fmt: skip
        return int(circuit.solve(**{**c, **changes}).code[0])

    assert code() == reasons.OK
    assert code(roll_s=np.nan) == reasons.NOT_FINITE
    assert code(wind_kt=np.nan) == code(value=np.nan) == code(inbound_true_deg=np.inf) == reasons.NOT_FINITE
    assert code(wind_kt=120.0) == code(wind_kt=150.0, wind_from_deg=50.0) == reasons.WIND_TOO_STRONG
    assert code(given=circuit.CIRCUIT_TIME, value=100.0) == reasons.CIRCUIT_TOO_SHORT
    # The wind carries the turns farther than a minute inbound brings back.
    assert code(wind_from_deg=50.0, wind_kt=45.0) == reasons.NO_CIRCUIT
    assert code(given=circuit.OUTBOUND_TIME, value=60.0, wind_from_deg=230.0, wind_kt=70.0) == reasons.NO_INBOUND_LEG
    assert code(given=circuit.OUTBOUND_DME, value=3.0, station_u_nm=10.0) == reasons.NO_LEG_END


def test_a_bad_row_leaves_its_neighbours_alone():
    found = circuit.solve(50.0, 1, 120.0, 3.0, [110.0, np.nan, 110.0], [25.0, 25.0, 130.0], circuit.OUTBOUND_TIME, 60.0)
    alone = circuit.solve(50.0, 1, 120.0, 3.0, 110.0, 25.0, circuit.OUTBOUND_TIME, 60.0)
    assert found.code.tolist() == [reasons.OK, reasons.NOT_FINITE, reasons.WIND_TOO_STRONG]
    assert found.circuit_s[0] == alone.circuit_s[0]
    assert np.isnan(found.circuit_s[1:]).all() and np.isnan(found.heading_out_deg[1:]).all()


def test_wind_along_the_track():
    """Two half turns of 60 s drift 2 x 60 s of headwind outbound: V 120 kt, 60 s inbound, derived from the words of FAA
    AIM 5-3-8 j: 25.7 s against 20 kt of headwind inbound, 108.0 s with 20 kt behind."""
    found = circuit.solve(360.0, 1, 120.0, 3.0, [360.0, 180.0], 20.0, circuit.INBOUND_TIME, 60.0)
    np.testing.assert_allclose(found.outbound_s, [25.714, 108.0], atol=0.001)
    np.testing.assert_allclose(found.heading_out_deg, 180.0, atol=1e-9)


def test_multiple_of_the_drift():
    """Clock from the end of the turn: the sine of the outbound correction is (Tt + t) / t times that of the inbound;
    three for one-minute turns and legs, 2.33 for legs of a minute and a half. Derived here."""
    for seconds, times in ((60.0, 3.0), (90.0, 7.0 / 3.0)):
        one = circuit.solve(360.0, 1, 120.0, 3.0, 270.0, 10.0, circuit.OUTBOUND_TIME, seconds, clock=circuit.TURN_END)
        assert np.sin(one.eps_rad[0]) / np.sin(one.kappa_rad[0]) == pytest.approx(times)
