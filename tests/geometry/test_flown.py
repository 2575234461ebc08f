"""Whole flights against an aeroplane flown step by step, and what must hold of any flight."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import circuit, entries, flown, hold_events, holds, leaving, racetrack, reasons, segments
from fixwright.tests.geometry.aeroplane import Aeroplane

NM_M = 1852.0
YEAR = 2026.5
EVENT = {name: code for code, name in enumerate(hold_events.EVENTS)}


def some_holds(seed: int, rows: int, **fixed) -> tuple[holds.Holds, dict, np.random.Generator]:
    """Random holds of both rules and sides with every leg end, a station 15 to 40 NM off ahead or behind, and wind."""
    rng = np.random.default_rng(seed)
    inbound = rng.uniform(0.0, 360.0, rows)
    lon, lat = rng.uniform(-180.0, 180.0, rows), rng.uniform(-70.0, 70.0, rows)
    ahead = rng.choice([0.0, 180.0], rows) + inbound
    far = rng.uniform(15.0, 40.0, rows)
    there = [Geodesic.WGS84.Direct(*four) for four in zip(lat, lon, ahead, far * NM_M)]
    station = flown.Station(np.array([p["lon2"] for p in there]), np.array([p["lat2"] for p in there]), 500.0)
    distance = rng.random(rows) < 0.6
    values = {
        "inbound_deg": inbound, "north": 2, "side": rng.choice([-1, 1], rows), "rules": rng.integers(0, 2, rows),
        "leg_min": np.where(distance, np.nan, rng.choice([1.0, 1.5], rows)),
        "leg_nm": np.where(distance, rng.uniform(3.0, 8.0, rows), np.nan), "leg_end": rng.integers(0, 3, rows),
        "ias_kt": rng.uniform(80.0, 250.0, rows), "alt_ft": rng.uniform(1500.0, 18000.0, rows),
        "navaid_lon": station.lon, "navaid_lat": station.lat, "navaid_elev_ft": 500.0,
    }  # fmt: skip
    hold = holds.design(lon, lat, **{**values, **fixed}, year=YEAR)
    wind = rng.uniform(0.0, 0.35, rows) * hold.tas_kt
    flies = {"wind_from_deg": rng.uniform(0.0, 360.0, rows), "wind_kt": wind, "station": station,
             "timing": int(rng.integers(0, 2)), "arrival_true_deg": rng.uniform(0.0, 360.0, rows)}  # fmt: skip
    return hold, flies, rng


@settings(max_examples=6)
@given(st.integers(0, 2**32 - 1), st.booleans())
def test_a_flight_flown_step_by_step(seed, rolls):
    """Each segment's turn and time given to the aeroplane, 3 000 flights of both rules and sides with every leg end: it
    is over the fix at every crossing within 1 m, on the course at the end of every entry, and where the path says at
    each segment's end; with rolling in and out too."""
    hold, flies, rng = some_holds(seed, 500)
    roll = rng.uniform(0.5, 10.0, 500) if rolls else np.zeros(500)
    flight = flown.fly(hold, **flies, circuits=2, roll_s=roll)
    good = np.flatnonzero(flight.code == reasons.OK)
    assert len(good) > 300
    path = flight.segments.take(good)
    hold, wind_from, wind = hold.take(good), flies["wind_from_deg"][good], flies["wind_kt"][good]
    heading = flight.arrival.heading_deg[good]
    plane = Aeroplane(heading, hold.tas_kt, hold.rate_dps, wind_from, wind, roll[good])
    rows = np.arange(len(good))
    for column in range(1, len(path.kind)):
        angle = np.degrees(path.turned_rad[:, column]) * hold.side
        turns = path.rate_rad_s[:, column] != 0.0
        plane.turn(np.where(turns & path.present[:, column], angle, 0.0))
        plane.straight(np.where(turns, 0.0, path.duration_s[:, column]))
        state = path.state(rows, np.full(len(rows), column), path.duration_s[:, column])
        off = np.hypot(plane.along(hold.inbound_true_deg) - state.u_nm,
                       hold.side * plane.right_of(hold.inbound_true_deg) - state.s_nm)  # fmt: skip
        assert (off * NM_M < 1e-3).all()
        apart = (np.degrees(plane.heading) - state.heading_true_deg + 180.0) % 360.0 - 180.0
        assert (np.abs(apart[path.present[:, column]]) < 1e-6).all()
        assert np.abs(plane.t - path.start_s[:, column] - path.duration_s[:, column]).max() < 0.05
        if path.kind[column] == segments.INBOUND:
            assert (np.hypot(plane.x, plane.y) * NM_M < 1.0).all()
            last_of_entry = path.circuit[column] == 0 and path.circuit[column + 1] == 1
            if path.circuit[column] > 0 or last_of_entry:
                track = np.degrees(np.arctan2(*plane.ground()))
                assert (np.abs((track - hold.inbound_true_deg + 180.0) % 360.0 - 180.0) < 1e-6).all()
    np.testing.assert_allclose(plane.t, path.end_s, rtol=0.0, atol=0.05)


def test_every_entry_and_every_way_of_ending_one_is_flown():
    """Else the test above would prove little: all three sectors, joining from the fix, and direct entries that do not
    end by the hold's own leg."""
    hold, flies, _ = some_holds(11, 1500)
    flight = flown.fly(hold, **flies)
    good = flight.code == reasons.OK
    which = flight.arrival.by_heading.entry
    assert all((good & (which == code)).sum() > 100 for code in range(3))
    assert sum("joins from there" in note for note in flight.notes) > 20
    assert sum("intercepts" in note for note in flight.notes) > 3
    assert sum(" s longer, since" in note for note in flight.notes) > 3
    assert sum("drift changes the entry" in note for note in flight.notes) > 20
    assert sum("meets no place where the hold's distance" in note for note in flight.notes) >= 1
    assert (flight.code == reasons.NO_ENTRY).mean() < 0.005


@settings(max_examples=8)
@given(st.integers(0, 2**32 - 1), st.booleans())
def test_the_first_leg_of_an_entry_to_a_distance_hold(seed, rolls):
    """FAA AIM 5-3-8 j.5: distances replace times; ICAO Doc 8168 Vol I, I-6-1 (from memory): to the limiting distance.
    Flown step by step, the leg ends at the DME reading of the hold's outbound end, at its distance along the course, or
    as far along as its outbound leg goes; it has no stopwatch. Timed holds keep the time."""
    hold, flies, rng = some_holds(seed, 300)
    roll = rng.uniform(0.5, 8.0, 300) if rolls else np.zeros(300)
    flight = flown.fly(hold, **flies, roll_s=roll)
    path, station = flight.segments, flies["station"]
    found = flown.events(hold, flight)
    leg = int(np.flatnonzero((path.circuit == 0) & (path.kind == segments.OUTBOUND))[0])
    own = int(np.flatnonzero((path.circuit == 1) & (path.kind == segments.OUTBOUND))[0])
    not_direct = flight.arrival.by_heading.entry != entries.DIRECT
    checked = np.zeros(3, dtype=int)
    for row in np.flatnonzero((flight.code == reasons.OK) & not_direct):
        by_distance = np.isfinite(flight.first_leg_nm[row])
        seconds = path.duration_s[row, leg]
        mine = (found.row == row) & (found.circuit == 0)
        clocks = found.time_s[mine & (found.event == EVENT["stopwatch"])]
        leg_starts = path.start_s[row, leg]
        assert (np.abs(clocks - leg_starts) < 1e-6).any() != by_distance
        if hold.leg_kind[row] == holds.TIME:
            assert not by_distance
            longest = 60.0 * hold.leg_min[row] if hold.rules[row] == holds.ICAO else 60.0
            teardrop = flight.arrival.by_heading.entry[row] == entries.TEARDROP
            usual = min(longest, 90.0) if teardrop and hold.rules[row] == holds.ICAO else longest
            assert (seconds - usual) % 5.0 == pytest.approx(0.0, abs=1e-6) or (seconds - usual) % 5.0 > 4.999999
            continue
        if not by_distance:
            assert "s longer, since" in flight.notes[row] or "is timed, since" in flight.notes[row]
            continue
        plane = Aeroplane(flight.arrival.heading_deg[row], hold.tas_kt[row], hold.rate_dps[row],
                          flies["wind_from_deg"][row], flies["wind_kt"][row], roll[row])  # fmt: skip
        plane.turn(np.degrees(path.turned_rad[row, leg - 1]) * hold.side[row])
        plane.straight(seconds)
        u = float(plane.along(hold.inbound_true_deg[row])[0])
        s = hold.side[row] * float(plane.right_of(hold.inbound_true_deg[row])[0])
        end = hold.leg_end[row]
        checked[end] += 1
        if end == holds.ALONG_TRACK:
            assert -u == pytest.approx(hold.leg_nm[row], abs=1.0 / NM_M)
        elif end == holds.INBOUND_LENGTH:
            there = path.state(np.array([row]), np.array([own]), path.duration_s[[row], own])
            assert -u == pytest.approx(-float(there.u_nm[0]), abs=1.0 / NM_M)
            assert -u == pytest.approx(flight.first_leg_nm[row], abs=1.0 / NM_M)
        else:
            beta = hold.inbound_true_deg[row] + hold.side[row] * np.degrees(np.arctan2(s, u))
            at = Geodesic.WGS84.Direct(hold.lat[row], hold.lon[row], beta, np.hypot(u, s) * NM_M)
            ground = [Geodesic.WGS84.Inverse(y, x, station.lat[row], station.lon[row])["s12"] / NM_M
                      for x, y in ((at["lon2"], at["lat2"]), (hold.lon[row], hold.lat[row]))]  # fmt: skip
            reading, at_fix = np.hypot(ground, (hold.alt_ft[row] - 500.0) * 0.3048 / NM_M)
            assert abs(reading - at_fix) == pytest.approx(hold.leg_nm[row], abs=0.003)
        ends = mine & (found.event == EVENT["outbound_end"]) & (np.abs(found.time_s - leg_starts - seconds) < 1e-6)
        said = f"DME {hold.outbound_end_dme_nm[row]:.1f}" if end == holds.DME_END else "NM along the track"
        assert found.text[ends][0].startswith("End of the outbound leg: ") and found.text[ends][0].endswith(said)
    assert (checked > 5).all()


def test_a_leg_that_meets_no_distance_is_timed():
    """The turn of a parallel entry ends beyond half a mile outbound already: one minute, and a sentence."""
    hold = _plain(leg_min=np.nan, leg_nm=0.5, leg_end=holds.ALONG_TRACK, ias_kt=200.0)
    flight = flown.fly(hold, 0.0, 0.0, arrival_true_deg=275.0)
    assert flight.arrival.by_heading.entry[0] == entries.PARALLEL and np.isnan(flight.first_leg_nm[0])
    assert (
        "a leg of the entry is timed, since it meets no place where the hold's distance would end it"
        in (flight.notes[0])
    )
    assert "End of the outbound leg: 1:00 on the stopwatch" in flown.events(hold, flight).text


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("rules", [holds.ICAO, holds.FAA])
def test_along_an_arc_no_teardrop_is_flown(side, rules):
    """ICAO Doc 8168 Vol I, I-6-1 (from memory): sector 1 or 3 only. What takes its place ends on the course."""
    hold = _plain(side=side, rules=rules).take(np.zeros(360, dtype=int))
    course = np.arange(360.0)
    plain, arc = (flown.fly(hold, 300.0, 15.0, arrival_true_deg=course, on_arc=on_arc) for on_arc in (False, True))
    was, now = plain.arrival.by_heading.entry, arc.arrival.by_heading.entry
    barred = was == entries.TEARDROP
    assert 60 < barred.sum() < 80 and (arc.arrival.barred == barred).all()
    assert (now[~barred] == was[~barred]).all() and set(now[barred]) == {entries.DIRECT, entries.PARALLEL}
    assert (arc.code == reasons.OK).all()
    word = entries.WORDS[holds.RULES[rules]][entries.TEARDROP]
    said = [f"along the DME arc no {word} entry, so " in note for note in arc.notes]
    assert (np.array(said) == barred).all()
    path = arc.segments
    state = path.at(arc.entry_s[:, None] - 1e-3)
    assert (np.hypot(state.u_nm, state.s_nm)[:, 0] < 1e-4).all()
    assert "Fix: teardrop entry" not in flown.events(hold, arc).text


def test_one_turn_start_and_one_turn_end_a_turn():
    """With rolling too: the turn starts over the fix, where the bank begins, and ends with the wings level, five
    seconds more than half a circle at 3 degrees a second takes; the legs are those of the hold. Still air."""
    found = flown.events(_plain(), flown.fly(_plain(), 0.0, 0.0, roll_s=5.0))
    words = [hold_events.EVENTS[code] for code in found.event]
    times = dict(zip(zip(words, np.cumsum([word == "turn_start" for word in words])), found.time_s))
    assert words.count("turn_start") == words.count("turn_end") == 2
    assert times["turn_start", 1] == 0.0 and times["turn_end", 1] == pytest.approx(65.0)
    # Half of the rolling out is flown outbound before the wings are level, and as much rolling in carried it past.
    assert times["abeam", 1] == times["stopwatch", 1] == pytest.approx(65.0)
    assert times["turn_start", 2] == pytest.approx(125.0) and times["turn_end", 2] == pytest.approx(190.0)
    assert times["on_course", 2] == pytest.approx(190.0) and times["fix", 2] == pytest.approx(250.0)


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("rules", [holds.ICAO, holds.FAA])
@pytest.mark.parametrize("leg", [(1.0, np.nan, 0), (np.nan, 5.0, 0), (np.nan, 5.0, 1), (np.nan, 5.0, 2)])
def test_no_wind_gives_the_racetrack(side, rules, leg):
    """The four legs end where those of the drawn racetrack do, and take its time."""
    hold = holds.design(
        10.0, 50.0, inbound_deg=73.0, north=2, side=side, rules=rules, ias_kt=120.0, alt_ft=6000.0, navaid_lon=10.2,
        navaid_lat=50.05, navaid_elev_ft=500.0, year=YEAR, **dict(zip(("leg_min", "leg_nm", "leg_end"), leg)),
    )  # fmt: skip
    flight = flown.fly(hold, 0.0, 0.0, station=flown.Station(10.2, 50.05, 500.0))
    coords, offsets = racetrack.legs(
        hold.lon, hold.lat, hold.inbound_true_deg, hold.side, hold.radius_nm, hold.straight_nm
    )
    at = flight.segments.start_s[0] + flight.segments.duration_s[0]
    made = flown.lines(hold, flight)
    for leg_number in range(4):
        end = coords[offsets[leg_number + 1] - 1]
        k = np.argmin(np.abs(made.seconds - at[1 + leg_number]))
        there = Geodesic.WGS84.Inverse(made.coords[k, 1], made.coords[k, 0], end[1], end[0])["s12"]
        assert there < 1e-3
    assert flight.segments.end_s[0] == pytest.approx(hold.circuit_s[0], abs=1e-6)
    assert len(made.seconds) >= offsets[-1] - 4


@settings(max_examples=5)
@given(st.integers(0, 2**32 - 1), st.booleans())
def test_lines(seed, by_circuit):
    """Seconds increase; each vertex is on the path; between vertices the path is within the tolerance of the chord; the
    line begins at the arrival, is over the fix at 0 s and ends there."""
    hold, flies, rng = some_holds(seed, 25)
    roll = rng.choice([0.0, 6.0])
    flight = flown.fly(hold, **flies, circuits=rng.integers(0, 4, 25), roll_s=roll)
    tolerance = float(rng.choice([0.5, 5.0, 50.0]))
    made = flown.lines(hold, flight, tolerance, by_circuit)
    parts = (len(made.offsets) - 1) // len(hold.lon)
    assert parts == (1 + flight.circuits.max() if by_circuit else 1)
    for line in range(len(made.offsets) - 1):
        row = line // parts
        coords = made.coords[made.offsets[line] : made.offsets[line + 1]]
        seconds = made.seconds[made.offsets[line] : made.offsets[line + 1]]
        if flight.code[row] != reasons.OK or (line % parts) > flight.circuits[row] and by_circuit:
            assert len(seconds) == 0
            continue
        assert len(seconds) >= 2 and (np.diff(seconds) > 0.0).all()
        if line % parts == 0:
            assert seconds[0] == pytest.approx(-flown.ARRIVAL_S)
        if not by_circuit:
            assert seconds[-1] == pytest.approx(flight.segments.end_s[row])
            assert seconds[-1] == pytest.approx(flight.entry_s[row] + flight.circuits[row] * _circuit_s(flight, row))
        end = Geodesic.WGS84.Inverse(coords[-1, 1], coords[-1, 0], hold.lat[row], hold.lon[row])["s12"]
        assert end < 1e-3
        one = flight.segments.take([row])
        middle = (seconds[:-1] + seconds[1:]) / 2.0
        state = one.at(np.concatenate([seconds[1:-1], middle])[None, :])
        u, s = state.u_nm[0], state.s_nm[0]
        x, y = _in_frame(hold, row, coords[1:-1])
        assert np.hypot(x - u[: len(x)], y - s[: len(x)]).max(initial=0.0) * NM_M < 1e-2
        fx, fy = _in_frame(hold, row, (coords[:-1] + coords[1:]) / 2.0)
        px, py = u[len(x) :], s[len(x) :]
        dx, dy = _in_frame(hold, row, coords[1:])
        bx, by = _in_frame(hold, row, coords[:-1])
        off = np.abs((px - fx) * (dy - by) - (py - fy) * (dx - bx)) / np.hypot(dx - bx, dy - by)
        assert off.max() * NM_M < tolerance * 1.05


def _circuit_s(flight, row):
    return flight.usual.circuit_s[row] if flight.circuits[row] else 0.0


def _in_frame(hold, row, coords):
    """Plane of the fix, by geographiclib."""
    found = [Geodesic.WGS84.Inverse(hold.lat[row], hold.lon[row], lat, lon) for lon, lat in coords]
    dist = np.array([f["s12"] for f in found]) / NM_M
    beta = hold.side[row] * np.radians(np.array([f["azi1"] for f in found]) - hold.inbound_true_deg[row])
    return dist * np.cos(beta), dist * np.sin(beta)


def test_later_circuits_lie_over_the_first():
    """They are placed once; whole numbers of circuits apart the line has the same places."""
    hold, flies, _ = some_holds(3, 40)
    flight = flown.fly(hold, **flies, circuits=3)
    made = flown.lines(hold, flight, by_circuit=True)
    compared = 0
    for row in np.flatnonzero(flight.code == reasons.OK):
        lines = [slice(made.offsets[4 * row + k], made.offsets[4 * row + k + 1]) for k in range(4)]
        for later in (2, 3):
            np.testing.assert_allclose(made.coords[lines[later]], made.coords[lines[1]], rtol=0.0, atol=1e-11)
            apart = made.seconds[lines[later]] - made.seconds[lines[1]]
            np.testing.assert_allclose(apart, (later - 1) * flight.usual.circuit_s[row], rtol=0.0, atol=1e-6)
            compared += 1
    assert compared > 50


def test_the_mirror_image_of_a_flight():
    """The other side, with wind and arrival mirrored in the course: the same times, mirrored headings."""
    hold, flies, _ = some_holds(5, 80, leg_end=1)
    course = hold.inbound_true_deg
    mirrored = {**flies, "wind_from_deg": 2.0 * course - flies["wind_from_deg"],
                "arrival_true_deg": 2.0 * course - flies["arrival_true_deg"]}  # fmt: skip
    one = flown.fly(hold, **flies, circuits=1, roll_s=4.0)
    other = flown.fly(dataclasses.replace(hold, side=-hold.side), **mirrored, circuits=1, roll_s=4.0)
    np.testing.assert_array_equal(one.code, other.code)
    np.testing.assert_allclose(one.segments.duration_s, other.segments.duration_s, rtol=0.0, atol=1e-5)
    np.testing.assert_array_equal(np.sign(one.segments.rate_rad_s), np.sign(other.segments.rate_rad_s))


def test_a_row_does_not_depend_on_its_neighbours():
    """Alone or among others, with an arrival or without, one that fails among them: the same line, times and events."""
    rows = 20
    hold, flies, _ = some_holds(9, rows)
    flies["wind_kt"][4], flies["arrival_true_deg"][1::2] = 400.0, np.nan
    circuits = np.arange(rows) % 3
    flight = flown.fly(hold, **flies, circuits=circuits)
    found, lines = flown.events(hold, flight), flown.lines(hold, flight, by_circuit=True)
    parts = (len(lines.offsets) - 1) // rows
    assert flight.code[4] == reasons.WIND_TOO_STRONG and (flight.code == reasons.OK).sum() > rows / 2
    for row in range(rows):
        single = {name: value[row] if isinstance(value, np.ndarray) else value for name, value in flies.items()}
        single["station"] = flown.Station(flies["station"].lon[row], flies["station"].lat[row], 500.0)
        alone_hold = hold.take([row])
        alone = flown.fly(alone_hold, **single, circuits=circuits[row])
        assert alone.code[0] == flight.code[row] and alone.notes[0] == flight.notes[row]
        events, line = flown.events(alone_hold, alone), flown.lines(alone_hold, alone, by_circuit=True)
        mine = slice(found.offsets[row], found.offsets[row + 1])
        assert events.text.tolist() == found.text[mine].tolist()
        for name in ("time_s", "lon", "lat", "heading_true_deg", "track_true_deg", "gs_kt"):
            expected = getattr(events, name)
            assert np.isfinite(expected).all()
            np.testing.assert_allclose(getattr(found, name)[mine], expected, rtol=0.0, atol=1e-7, err_msg=name)
        mine = slice(lines.offsets[row * parts], lines.offsets[(row + 1) * parts])
        assert np.isfinite(line.coords).all()
        np.testing.assert_allclose(lines.coords[mine], line.coords, rtol=0.0, atol=1e-9)
        np.testing.assert_allclose(lines.seconds[mine], line.seconds, rtol=0.0, atol=1e-7)
        assert (flight.code[row] != reasons.OK) == (len(events.row) == 0) == (len(line.seconds) == 0)


def test_failed_rows_say_why():
    """A hold that failed, no station for a DME leg, no wind given: a code each, nothing drawn."""
    hold = holds.design(
        [10.0, np.nan, 10.0, 10.0], 50.0, inbound_deg=73.0, north=2, side=1, rules=holds.ICAO, leg_min=1.0,
        leg_nm=np.nan, leg_end=0, ias_kt=120.0, alt_ft=6000.0, year=YEAR,
    )  # fmt: skip
    by_dme = dataclasses.replace(hold, leg_kind=np.array([0, 0, 1, 0]), leg_nm=np.array([np.nan, np.nan, 5.0, np.nan]))
    flight = flown.fly(by_dme, 20.0, [20.0, 20.0, 20.0, np.nan], arrival_true_deg=20.0)
    assert flight.code.tolist() == [reasons.OK, reasons.NO_POSITION, reasons.NO_DME, reasons.NOT_FINITE]
    made = flown.lines(by_dme, flight)
    assert np.diff(made.offsets)[1:].tolist() == [0, 0, 0] and made.offsets[1] > 10
    assert set(flown.events(by_dme, flight).row.tolist()) == {0}
    assert np.isnan(flight.segments.at(np.zeros(4)).u_nm[1:]).all()


def test_calls_that_make_no_sense():
    hold, flies, _ = some_holds(1, 3)
    with pytest.raises(ValueError, match="circuits"):
        flown.fly(hold, **flies, circuits=-1)
    with pytest.raises(ValueError, match="circuits"):
        flown.fly(hold, **flies, circuits=100)
    with pytest.raises(ValueError, match="arrival_s"):
        flown.fly(hold, **flies, arrival_s=-1.0)
    with pytest.raises(ValueError, match="roll_s"):
        flown.fly(hold, **flies, roll_s=-1.0)
    with pytest.raises(ValueError, match="tolerance_m"):
        flown.lines(hold, flown.fly(hold, **flies), 0.0)


def test_no_holds_at_all():
    hold, flies, _ = some_holds(1, 3)
    none = hold.take(np.zeros(3, dtype=bool))
    flight = flown.fly(none, 20.0, 20.0)
    assert flown.lines(none, flight).offsets.tolist() == [0]
    assert len(flown.events(none, flight).row) == 0


# --- events


def _plain(**changes):
    """Inbound 360 at 50 N 10 E, 120 kt TAS, right turns, variation whatever the model says."""
    values = {"inbound_deg": 0.0, "north": 2, "side": 1, "rules": holds.FAA, "leg_min": 1.0, "leg_nm": np.nan,
              "leg_end": 0, "ias_kt": 120.0, "alt_ft": 0.0}  # fmt: skip
    return holds.design(10.0, 50.0, **{**values, **changes}, year=YEAR)


def test_events_of_a_circuit_in_still_air():
    """Four minutes of standard turns and one-minute legs: when each thing happens and what is said. Headings are
    magnetic, whole degrees."""
    hold = _plain()
    found = flown.events(hold, flown.fly(hold, 0.0, 0.0))
    north = f"{round(float(hold.inbound_model_deg[0])) % 360 or 360:03d}"
    south = f"{round(float(hold.outbound_model_deg[0])) % 360 or 360:03d}"
    expected = [
        (-240.0, "arrival", f"To the fix on heading {north}"),
        (-180.0, "slow_down", "Three minutes to the fix: slow to 120 kt"),
        (0.0, "fix", "Fix: circuit 1"),
        (0.0, "turn_start", f"Turn right to {south}"),
        (60.0, "turn_end", f"Heading {south}"),
        (60.0, "abeam", "Abeam the fix"),
        (60.0, "stopwatch", "Abeam: start the stopwatch"),
        (120.0, "outbound_end", "End of the outbound leg: 1:00 on the stopwatch"),
        (120.0, "turn_start", f"Turn right to {north}"),
        (180.0, "turn_end", f"Heading {north}"),
        (180.0, "on_course", "On the inbound course: 1:00 to the fix"),
        (240.0, "fix", "Fix: end of circuit 1"),
    ]
    assert [hold_events.EVENTS[code] for code in found.event] == [e[1] for e in expected]
    np.testing.assert_allclose(found.time_s, [e[0] for e in expected], atol=1e-6)
    assert found.text.tolist() == [e[2] for e in expected]
    assert found.crossing[found.event == EVENT["fix"]].tolist() == [1, 2]
    np.testing.assert_allclose(found.drift_deg, 0.0, atol=1e-9)
    np.testing.assert_allclose(found.gs_kt, hold.tas_kt[0], atol=1e-9)


def test_events_of_a_left_hold():
    hold = _plain(side=-1)
    found = flown.events(hold, flown.fly(hold, 0.0, 0.0, arrival_true_deg=200.0))
    turns = [text for text in found.text if text.startswith(("Turn right", "Turn left"))]
    # Outbound course 180, arrival 200: mirrored, 160 of a right hold, which is a teardrop.
    assert "Fix: teardrop entry" in found.text
    # The turn in passes the course a little, and rolls out the other way.
    assert [text.split()[1] for text in turns] == ["right", "left", "right", "left", "left"]
    icao = _plain(side=-1, rules=holds.ICAO)
    assert "Fix: offset entry" in flown.events(icao, flown.fly(icao, 0.0, 0.0, arrival_true_deg=200.0)).text


@settings(max_examples=5)
@given(st.integers(0, 2**32 - 1))
def test_events(seed):
    """Time never runs back; crossings are over the fix and counted; abeam is abeam; the stopwatch runs the leg's time
    by ICAO; drift is the angle from heading to track; the speed is the vector sum; the place is on the line."""
    hold, flies, _ = some_holds(seed, 50)
    flight = flown.fly(hold, **flies, circuits=2)
    found = flown.events(hold, flight)
    assert (found.text != "").all()
    for row in np.flatnonzero(flight.code == reasons.OK):
        mine = slice(found.offsets[row], found.offsets[row + 1])
        time, event, circuit_ = found.time_s[mine], found.event[mine], found.circuit[mine]
        assert (np.diff(time) >= -1e-6).all() and (found.row[mine] == row).all() and (np.diff(circuit_) >= 0).all()
        fixes = event == EVENT["fix"]
        assert found.crossing[mine][fixes].tolist() == list(range(1, fixes.sum() + 1))
        assert (found.crossing[mine][~fixes] == 0).all() and time[fixes][0] == 0.0
        u, s = _in_frame(hold, row, np.stack([found.lon[mine], found.lat[mine]], axis=1))
        assert (np.hypot(u, s)[fixes] * NM_M < 1e-2).all()
        assert (np.abs(u[event == EVENT["abeam"]]) * NM_M < 1e-2).all()
        on_course = event == EVENT["on_course"]
        assert (np.abs(s[on_course]) * NM_M < 1e-2).all() and (u[on_course] < 0.0).all()
        assert time[event == EVENT["slow_down"]] == pytest.approx([-180.0])
        heading, wind_from = np.radians(found.heading_true_deg[mine]), np.radians(flies["wind_from_deg"][row])
        vx = hold.tas_kt[row] * np.sin(heading) - flies["wind_kt"][row] * np.sin(wind_from)
        vy = hold.tas_kt[row] * np.cos(heading) - flies["wind_kt"][row] * np.cos(wind_from)
        np.testing.assert_allclose(found.gs_kt[mine], np.hypot(vx, vy), rtol=0.0, atol=1e-6)
        track = np.degrees(np.arctan2(vx, vy))
        assert (np.abs((track - found.track_true_deg[mine] + 180.0) % 360.0 - 180.0) < 1e-6).all()
        drift = (found.track_true_deg[mine] - found.heading_true_deg[mine] + 180.0) % 360.0 - 180.0
        np.testing.assert_allclose(found.drift_deg[mine], drift, rtol=0.0, atol=1e-6)
        if hold.leg_kind[row] == holds.TIME and hold.rules[row] == holds.ICAO:
            for number in (1, 2):
                here = circuit_ == number
                started = time[here & (event == EVENT["stopwatch"])]
                ended = time[here & (event == EVENT["outbound_end"])]
                np.testing.assert_allclose(ended - started, 60.0 * hold.leg_min[row], rtol=0.0, atol=1e-6)
        if hold.leg_kind[row] == holds.DISTANCE:
            assert not (event[circuit_ > 0] == EVENT["stopwatch"]).any()


def test_a_short_arrival_has_no_slow_down():
    """Three minutes before the fix (FAA AIM 5-3-8 d) is not on a shorter leg; without one it begins at the fix."""
    hold = _plain()
    for seconds, first in ((179.0, "arrival"), (0.0, "fix")):
        found = flown.events(hold, flown.fly(hold, 0.0, 0.0, arrival_s=seconds))
        assert EVENT["slow_down"] not in found.event
        assert hold_events.EVENTS[found.event[0]] == first and found.time_s[0] == -seconds
    assert EVENT["slow_down"] in flown.events(hold, flown.fly(hold, 0.0, 0.0, arrival_s=180.0)).event


def test_clock_from_the_later_of_both():
    """Wind from the holding side brings the aeroplane abeam in the turn: the clock waits for its end."""
    hold = _plain(rules=holds.ICAO, side=-1)
    texts = [
        flown.events(hold, flown.fly(hold, 60.0, 25.0, timing=timing)).text.tolist()
        for timing in (circuit.ABEAM, circuit.LATER_OF_BOTH)
    ]
    assert "Abeam: start the stopwatch" in texts[0] and "Turn complete: start the stopwatch" in texts[1]
    assert all("End of the outbound leg: 1:00 on the stopwatch" in text for text in texts)


# --- legs, notes


@settings(max_examples=5)
@given(st.integers(0, 2**32 - 1))
def test_circuit_of_asks_what_rules_and_leg_say(seed):
    """FAA times the inbound leg, ICAO the outbound by the clock; a distance ends as leg_end says, in any wind."""
    hold, flies, _ = some_holds(seed, 80)
    timing = flies["timing"]
    found = flown.circuit_of(hold, flies["wind_from_deg"], flies["wind_kt"], timing, flies["station"])
    good = found.code == reasons.OK
    assert good.mean() > 0.7
    timed, faa = hold.leg_kind == holds.TIME, hold.rules == holds.FAA
    seconds = 60.0 * hold.leg_min
    at = good & timed & faa
    np.testing.assert_allclose(found.inbound_s[at], seconds[at], atol=1e-9)
    at = good & timed & ~faa
    np.testing.assert_allclose(found.stopwatch_s[at], seconds[at], atol=1e-9)
    at = good & ~timed & (hold.leg_end == holds.INBOUND_LENGTH)
    np.testing.assert_allclose(found.inbound_nm[at], hold.leg_nm[at], atol=1e-9)
    flight = flown.fly(hold, flies["wind_from_deg"], flies["wind_kt"], timing=timing, station=flies["station"])
    events = flown.events(hold, flight)
    ends = events.event == EVENT["outbound_end"]
    for row, lon, lat in zip(events.row[ends], events.lon[ends], events.lat[ends]):
        if timed[row]:
            continue
        u, _ = _in_frame(hold, row, [(lon, lat)])
        if hold.leg_end[row] == holds.ALONG_TRACK:
            assert -u[0] == pytest.approx(hold.leg_nm[row], abs=1e-5)
        elif hold.leg_end[row] == holds.DME_END:
            station = flies["station"]
            ground = [Geodesic.WGS84.Inverse(y, x, station.lat[row], station.lon[row])["s12"] / NM_M
                      for x, y in ((lon, lat), (hold.lon[row], hold.lat[row]))]  # fmt: skip
            reading, at_fix = np.hypot(ground, (hold.alt_ft[row] - 500.0) * 0.3048 / NM_M)
            assert abs(reading - at_fix) == pytest.approx(hold.leg_nm[row], abs=0.002)


def test_a_short_inbound_leg_is_noted():
    """ICAO Doc 8168 Vol II, 5th ed., II-4-1-4, 1.3.2.3: at least 30 s inbound, for distance legs."""
    hold = _plain(leg_min=np.nan, leg_nm=1.5, leg_end=holds.ALONG_TRACK)
    assert flown.fly(hold, 0.0, 0.0).notes[0] == ""
    note = flown.fly(hold, 180.0, 25.0).notes[0]
    assert note.startswith("the inbound leg lasts ") and "less than 30 s (ICAO Doc 8168" in note
    timed = flown.fly(_plain(leg_min=0.3), 0.0, 0.0)
    assert timed.usual.inbound_s[0] == pytest.approx(18.0) and timed.notes[0] == ""


def test_the_way_to_the_fix_where_the_course_is_met_past_it():
    """Wind from behind on the inbound course: the parallel entry cannot roll out before the fix. It goes there, and the
    next turn starts on the heading it has."""
    hold = _plain()
    flight = flown.fly(hold, 180.0, 30.0, arrival_true_deg=230.0)
    assert flight.arrival.by_heading.entry[0] == entries.PARALLEL and flight.code[0] == reasons.OK
    assert "goes to the fix and joins from there" in flight.notes[0]
    found = flown.events(hold, flight)
    assert "Fix: turn to join the hold" in found.text
    fixes = found.event == EVENT["fix"]
    assert fixes.sum() == 4
    track = found.track_true_deg[fixes][1]
    assert abs((track + 180.0) % 360.0 - 180.0) > 5.0
    assert EVENT["on_course"] not in found.event[(found.time_s > 0.0) & (found.time_s < found.time_s[fixes][1])]


def test_a_leg_is_flown_longer_where_neither_course_nor_fix_can_be_met():
    """A stronger wind yet carries the turn round the fix. By whole steps of 5 s, no more than it takes: a step less and
    the course is met only past the fix."""
    hold = _plain()
    flight = flown.fly(hold, 180.0, 45.0, arrival_true_deg=230.0)
    assert flight.code[0] == reasons.OK and flight.notes[0].startswith("a leg of the entry is flown 90 s longer")
    path = flight.segments
    leg, inbound = (int(np.flatnonzero(path.kind == kind)[0]) for kind in (segments.OUTBOUND, segments.INBOUND))
    assert path.duration_s[0, leg] == 60.0 + 90.0
    assert 1.0 < path.duration_s[0, inbound] < 15.0
    found = flown.events(hold, flight)
    assert "End of the outbound leg: 2:30 on the stopwatch" in found.text
    on_course = found.event == EVENT["on_course"]
    u, s = _in_frame(hold, 0, np.stack([found.lon[on_course], found.lat[on_course]], axis=1))
    assert (u < 0.0).all() and (np.abs(s) * NM_M < 1e-2).all()


# --- leaving


@settings(max_examples=8)
@given(st.integers(0, 2**32 - 1), st.sampled_from([flown.ADJUST_LAST, flown.ADJUST_ALL]))
def test_leaving_on_time(seed, adjust):
    """Over the fix on the course at the time asked, as near to the usual circuits as can be; else a sentence."""
    hold, flies, rng = some_holds(seed, 60)
    leave, roll = rng.uniform(0.0, 3000.0, 60), rng.choice([0.0, 5.0], 60)
    flight = flown.fly(hold, **flies, leave_s=leave, adjust=adjust, circuits=0, roll_s=roll)
    plan, usual = flight.leaving, flight.usual
    for row in np.flatnonzero(flight.code == reasons.OK):
        available = leave[row] - flight.entry_s[row]
        if plan.code[row] != reasons.OK:
            assert plan.note[row] and plan.note[row] in flight.notes[row]
            assert available < plan.shortest_s[row] or plan.code[row] == reasons.NO_CIRCUIT
            assert flight.segments.end_s[row] == pytest.approx(flight.entry_s[row])
            continue
        assert flight.segments.end_s[row] == pytest.approx(leave[row], abs=0.06)
        state = flight.segments.at(np.where(np.arange(60) == row, leave - 0.07, np.nan))
        assert np.hypot(state.u_nm[row], state.s_nm[row]) < 0.02
        each = np.add.reduceat(
            flight.segments.duration_s[row], np.flatnonzero(np.diff(flight.segments.circuit, prepend=-1))
        )[1 : 1 + plan.circuits[row]]
        assert len(each) == plan.circuits[row]
        if adjust == flown.ADJUST_ALL:
            np.testing.assert_allclose(each, available / plan.circuits[row], atol=1e-6)
        elif len(each):
            np.testing.assert_allclose(each[:-1], usual.circuit_s[row], atol=1e-6)
            assert plan.shortest_s[row] - 1e-6 <= each[-1] < 2.0 * usual.circuit_s[row] + 1e-6
            if each[-1] > usual.circuit_s[row] + 1e-6:
                # What is left over could not be flown as a circuit of its own.
                one_more = circuit.solve(
                    hold.inbound_true_deg[row], hold.side[row], hold.tas_kt[row], hold.rate_dps[row],
                    flies["wind_from_deg"][row], flies["wind_kt"][row], circuit.CIRCUIT_TIME,
                    each[-1] - usual.circuit_s[row], roll_s=roll[row],
                )  # fmt: skip
                assert one_more.code[0] in (reasons.CIRCUIT_TOO_SHORT, reasons.NO_CIRCUIT)


def test_leaving_too_early():
    hold = _plain()
    usual = flown.circuit_of(hold, 0.0, 0.0)
    args = (hold.inbound_true_deg, hold.side, hold.tas_kt, hold.rate_dps, 0.0, 0.0, usual)
    times = (-61.0, 0.0, 100.0, 480.0, np.nan)
    early, at_once, short, exact, never = (leaving.leave(*args, seconds) for seconds in times)
    assert early.code[0] == reasons.CIRCUIT_TOO_SHORT and "lies 1:01 before the first circuit" in early.note[0]
    assert at_once.code[0] == reasons.OK and at_once.circuits[0] == 0
    assert short.code[0] == reasons.CIRCUIT_TOO_SHORT
    assert short.note[0] == (
        "the time to leave is 1:40 after the first circuit can begin; the shortest circuit in this wind takes 2:00"
    )
    assert exact.circuits[0] == 2 and exact.last.circuit_s[0] == pytest.approx(240.0)
    assert never.code[0] == reasons.NOT_FINITE and never.note[0] == ""


def test_leaving_after_more_circuits_than_are_drawn():
    hold = _plain()
    flight = flown.fly(hold, 0.0, 0.0, leave_s=240.0 * 150.0)
    assert flight.circuits[0] == flown.MOST_CIRCUITS
    assert flight.notes[0] == "150 circuits fit before the time to leave; the first 99 are flown"


def test_leaving_is_said_at_the_last_crossing():
    hold = _plain()
    texts = flown.events(hold, flown.fly(hold, 300.0, 20.0, leave_s=900.0)).text
    assert texts[-1] == "Fix: leave the hold"
    assert flown.events(hold, flown.fly(hold, 300.0, 20.0)).text[-1] == "Fix: end of circuit 1"
