"""Circuits, entries and times to leave in wind: worked figures, and the rules of thumb of the handbooks.

Figures marked "derived here" were computed apart from this package, from the words of the rule named in each row: the
vector sum of air legs and wind, checked by marching in small steps.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import circuit, entries, entry_paths, flight, flown, holds, leaving, rules_of_thumb, segments

DATA = Path(__file__).parent / "data"
GIVEN = {
    "inbound_time": circuit.INBOUND_TIME, "inbound_length": circuit.INBOUND_LENGTH,
    "circuit_time": circuit.CIRCUIT_TIME, "outbound_time": circuit.OUTBOUND_TIME,
    "outbound_along": circuit.OUTBOUND_ALONG, "outbound_dme": circuit.OUTBOUND_DME,
}  # fmt: skip
FT_PER_NM = 1852.0 / 0.3048


def _rows(name: str) -> list[dict[str, str]]:
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _name(*columns):
    return lambda row: " ".join(row[column] for column in columns)


# --- circuits of a hold with inbound course 050, 120 kt, 3 degrees a second


@pytest.mark.parametrize("row", _rows("wind_circuits.csv"), ids=_name("turn", "given", "clock", "wind_from_deg"))
def test_circuit(row):
    value, station = float(row["value"]), np.nan
    if row["given"] == "outbound_dme":
        # Slant to ground by the documents' plane triangle, ICAO Doc 8168 Vol II, I-4-3-App C-13.
        height = float(row["above_station_ft"]) / FT_PER_NM
        fix = float(row["fix_dme_nm"])
        value, station = np.sqrt(value**2 - height**2), np.sign(fix) * np.sqrt(fix**2 - height**2)
    found = circuit.solve(
        50.0, {"right": 1, "left": -1}[row["turn"]], 120.0, 3.0, float(row["wind_from_deg"]), float(row["wind_kt"]),
        GIVEN[row["given"]], value, clock=circuit.CLOCKS.index(row["clock"]), station_u_nm=station,
    )  # fmt: skip
    assert row["source"]
    if not row["circuit_s"]:
        assert found.code[0] != 0 and np.isnan(found.circuit_s[0])
        return
    assert found.code[0] == 0
    for name in ("heading_in_deg", "heading_out_deg", "abeam_after_roll_out_s", "outbound_s", "turn_out_s",
                 "inbound_nm", "inbound_s", "circuit_s"):  # fmt: skip
        if row[name]:
            assert float(getattr(found, name)[0]) == pytest.approx(float(row[name]), abs=5.1e-5), name


# --- entries of a hold at 120 kt, 3 degrees a second, first leg of 60 s


def _entry(which: str, heading_deg: float, wind_along: float, wind_across: float):
    """The entry in the frame: inbound course north, right turns."""
    speed = np.hypot(wind_along, wind_across)
    wind_from = np.degrees(np.arctan2(-wind_across, -wind_along))
    air = circuit.air_of(np.zeros(1), 1.0, 120.0, 3.0, wind_from, speed)
    direct = circuit.solve(
        0.0, 1, 120.0, 3.0, wind_from, speed, circuit.INBOUND_TIME, 60.0, start_heading_deg=heading_deg
    )
    track = {"parallel": 180.0, "teardrop": 150.0, "direct": 0.0}[which]
    leg = np.radians(flight.heading_for_course(track, 120.0, wind_from, speed).heading_deg)
    code = entries.ENTRIES.index(which)
    path = entry_paths.path(air, np.radians([heading_deg]), np.array([code]), np.array([leg]), np.array([60.0]), direct)
    flown_path = segments.Segments(
        path.duration_s, path.rate_rad_s, path.heading_rad, np.array(entry_paths.COLUMNS), np.zeros(6, int), 0,
        air.v, air.wa, air.wc, np.zeros(1), np.ones(1), air.roll_s,
    )  # fmt: skip
    return path, flown_path, direct


MOMENTS = ("outbound heading", "end of outbound", "intercept heading", "start of roll-out", "on course")


@pytest.mark.parametrize("row", _rows("entry_paths.csv"), ids=_name("entry", "wind_along_kt", "moment"))
def test_entry_path(row):
    """FAA AIM 5-3-8 j.3, ICAO Doc 8168 Vol I, I-6-1 (from memory); intercept at 45 degrees: common practice."""
    path, flown_path, _ = _entry(
        row["entry"], *(float(row[name]) for name in ("heading_from_inbound_deg", "wind_along_kt", "wind_across_kt"))
    )
    column = MOMENTS.index(row["moment"])
    time = flown_path.start_s[0, column] + flown_path.duration_s[0, column]
    state = flown_path.state(np.array([0]), np.array([column]), flown_path.duration_s[:, column])
    assert path.on_course[0]
    assert time == pytest.approx(float(row["time_s"]), abs=6e-4)
    assert state.u_nm[0] == pytest.approx(float(row["u_nm"]), abs=6e-6)
    assert state.s_nm[0] == pytest.approx(float(row["s_nm"]), abs=6e-6)


def test_teardrop_with_no_room_for_45_degrees():
    """In still air the greatest intercept that needs no straight is 27.22472 degrees; in the wind 45. Derived here."""
    for wind, degrees in (((0.0, 0.0), 27.22472), ((-12.0, 16.0), 45.0)):
        path, _, _ = _entry("teardrop", 160.0, *wind)
        assert abs(np.degrees(path.rate_rad_s[0, 4] * path.duration_s[0, 4])) == pytest.approx(degrees, abs=6e-6)


@pytest.mark.parametrize(
    ("heading", "wind", "heading_out", "outbound"),
    [(-40.0, (0.0, 0.0), 176.4624, 72.4143), (-40.0, (-12.0, 16.0), 203.5695, 49.2990),
     (90.0, (0.0, 0.0), 154.9701, 45.1407), (90.0, (-12.0, 16.0), 168.0891, 21.3957)],
)  # fmt: skip
def test_direct_entry(heading, wind, heading_out, outbound):
    """Ends on the course with 60 s inbound (FAA AIM 5-3-8 j.3 c, j.4). Derived here."""
    path, flown_path, direct = _entry("direct", heading, *wind)
    assert direct.heading_out_deg[0] == pytest.approx(heading_out, abs=5.1e-5)
    assert direct.outbound_s[0] == pytest.approx(outbound, abs=5.1e-5)
    assert path.closes[0] and path.duration_s[0, 5] == pytest.approx(60.0)
    end = flown_path.state(np.array([0]), np.array([5]), path.duration_s[:, 5])
    assert np.hypot(end.u_nm, end.s_nm)[0] < 1e-9


# --- one minute inbound in a crosswind: inbound 072 true, 118 kt, 3 degrees a second, wind 340/22, FAA

HOLD = {"inbound_true_deg": 72.0, "tas_kt": 118.0, "rate_dps": 3.0, "wind_from_deg": 340.0, "wind_kt": 22.0}


@pytest.mark.parametrize(
    ("side", "turns", "abeam", "stopwatch"), [(1, (73.69, 46.31), 67.61, 76.3), (-1, (46.31, 73.69), 53.77, 62.7)]
)
def test_one_minute_inbound_in_a_crosswind(side, turns, abeam, stopwatch):
    """Vector sum, checked by stepping every 5 ms; timing from abeam: FAA AIM 5-3-8 j.4."""
    one = circuit.solve(**HOLD, side=side, given=circuit.INBOUND_TIME, value=60.0)
    assert one.heading_in_deg[0] == pytest.approx(61.26, abs=0.005)
    assert one.gs_in_kt[0] == pytest.approx(116.70, abs=0.005)
    assert 72.0 - one.heading_in_deg[0] == pytest.approx(10.74, abs=0.005)
    assert one.heading_out_deg[0] == pytest.approx(282.33, abs=0.005)
    correction = one.heading_out_deg[0] - 252.0
    assert correction == pytest.approx(30.33, abs=0.005)
    assert correction / (72.0 - one.heading_in_deg[0]) == pytest.approx(2.82, abs=0.005)
    assert one.outbound_s[0] == pytest.approx(70.18, abs=0.005)
    assert one.circuit_s[0] == pytest.approx(250.18, abs=0.005)
    assert (one.turn_out_s[0], one.turn_in_s[0]) == pytest.approx(turns, abs=0.005)
    assert one.turn_out_s[0] + one.abeam_after_roll_out_s[0] == pytest.approx(abeam, abs=0.01)
    assert one.stopwatch_s[0] == pytest.approx(stopwatch, abs=0.05)


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize(
    ("times", "right", "before_fix"), [(1.0, 0.733, 2.220), (2.0, 0.319, 2.100), (3.0, -0.065, 1.906)]
)
def test_where_rules_of_thumb_roll_out(side, times, right, before_fix):
    """Single drift, double (older teaching: common practice), triple (FAA AIM 5-3-8 j.8(c)) with the exact outbound
    time; both sides alike. The distance is that along the course."""
    exact = circuit.solve(**HOLD, side=side, given=circuit.INBOUND_TIME, value=60.0)
    _, found = rules_of_thumb.track(**HOLD, side=side, times=times, outbound_s=exact.outbound_s)
    assert found.off_course_nm[0] == pytest.approx(right, abs=6e-4)
    assert found.before_fix_nm[0] == pytest.approx(before_fix, abs=6e-4)


@pytest.mark.parametrize(
    ("minutes", "circuits", "last_s", "outbound_heading", "outbound_s", "inbound_s", "each_s"),
    [(18.0, 4, 329.5, 275.01, 109.3, 100.2, 270.0), (20.0, 5, 199.3, 294.27, 46.0, 33.3, 240.0)],
)
def test_leaving_at_a_time(minutes, circuits, last_s, outbound_heading, outbound_s, inbound_s, each_s):
    """First crossing 09:40:00, to be at the fix at 09:58:00 and at 10:00:00; adjusting the pattern to leave at a given
    time: FAA AIM 5-3-8 k. Figures derived here."""
    usual = circuit.solve(**HOLD, side=1, given=circuit.INBOUND_TIME, value=60.0)
    plan = leaving.leave(**HOLD, side=1, usual=usual, available_s=minutes * 60.0)
    assert plan.code[0] == 0 and plan.note[0] == ""
    assert plan.circuits[0] == circuits
    assert plan.shortest_s[0] == pytest.approx(147.5, abs=0.05)
    assert plan.last.circuit_s[0] == pytest.approx(last_s, abs=0.05)
    assert plan.last.heading_out_deg[0] == pytest.approx(outbound_heading, abs=0.005)
    assert plan.last.outbound_s[0] == pytest.approx(outbound_s, abs=0.05)
    assert plan.last.inbound_s[0] == pytest.approx(inbound_s, abs=0.05)
    assert plan.each.circuit_s[0] == pytest.approx(each_s, abs=0.005)


def test_a_fifth_circuit_would_have_79_seconds():
    """18 minutes hold four usual circuits and 79.3 s: less than the shortest, 147.5 s. Derived here."""
    usual = circuit.solve(**HOLD, side=1, given=circuit.INBOUND_TIME, value=60.0)
    left = 18.0 * 60.0 - 4.0 * usual.circuit_s[0]
    assert left == pytest.approx(79.3, abs=0.05)
    plan = leaving.leave(**HOLD, side=1, usual=usual, available_s=left)
    assert plan.code[0] != 0 and "shortest circuit in this wind takes 2:28" in plan.note[0]


# --- rules of thumb


def test_triple_drift():
    """FAA AIM 5-3-8 j.8(c): 8 degrees left inbound, 24 right outbound."""
    wind_kt = 120.0 * np.sin(np.radians(8.0))
    _, found = rules_of_thumb.track(360.0, 1, 120.0, 3.0, 270.0, wind_kt, 3.0, 60.0)
    assert found.heading_out_deg[0] == pytest.approx(180.0 + 24.0)
    rule = next(rule for rule in rules_of_thumb.DRIFT_RULES if rule.name == "triple")
    assert rule.times == 3.0 and rule.source == "FAA AIM 5-3-8 j.8(c)"


@pytest.mark.parametrize(
    ("inbound", "tas", "wind_from", "wind", "expected"),
    [(360.0, 120.0, 270.0, 20.0, 208.8), (90.0, 100.0, 130.0, 15.0, 253.4), (30.0, 110.0, 210.0, 25.0, 210.0)],
)
def test_tripled_correction(inbound, tas, wind_from, wind, expected):
    """Computed, wind triangle; rule FAA AIM 5-3-8 j.8(c)."""
    _, found = rules_of_thumb.track(inbound, 1, tas, 3.0, wind_from, wind, 3.0, 60.0)
    assert found.heading_out_deg[0] == pytest.approx(expected, abs=0.2)
    one = circuit.solve(inbound, 1, tas, 3.0, wind_from, wind, circuit.INBOUND_TIME, 60.0)
    by_triangle = flight.heading_for_course(inbound, tas, wind_from, wind)
    assert one.heading_in_deg[0] == pytest.approx(float(by_triangle.heading_deg))
    assert one.gs_in_kt[0] == pytest.approx(float(by_triangle.gs_kt))


def test_next_outbound_time():
    """US Navy CNATRA P-871, chapter 4: wanted 60 s, last outbound 60 s, last inbound 48 s: 72 s."""
    assert rules_of_thumb.adjusted_outbound_s(60.0, 48.0, 60.0) == 72.0


# --- a DME hold flown in wind: fix on radial 150 of an invented station, DME 12, 12 000 ft


def _dme_hold(inbound_true: float) -> holds.Holds:
    return holds.design(
        -167.4146690, 41.2128337, inbound_deg=inbound_true, north=2, side=1, rules=holds.FAA, leg_min=np.nan,
        leg_nm=5.0, leg_end=holds.DME_END, ias_kt=120.0, alt_ft=12000.0, navaid_lon=-167.5, navaid_lat=41.4,
        navaid_elev_ft=1240.0, decl_deg=11.0, year=2026.66575,
    )  # fmt: skip


@pytest.mark.parametrize(("inbound", "reading"), [(341.056, 17.0), (161.056, 7.0)], ids=["towards", "away"])
@pytest.mark.parametrize("wind_kt", [0.0, 30.0])
def test_outbound_leg_ends_at_the_reading(inbound, reading, wind_kt):
    """FAA AIM 5-3-8 j, FIG 5-3-5 (towards, the leg added) and 5-3-6 (away, subtracted), in wind too: the slant range at
    the turn, measured with geographiclib, is the reading."""
    station = flown.Station(-167.5, 41.4, 1240.0)
    hold = _dme_hold(inbound)
    flight_ = flown.fly(hold, 40.0, wind_kt, station=station)
    found = flown.events(hold, flight_)
    ends = np.flatnonzero(found.text == f"End of the outbound leg: DME {reading:.1f}")
    assert len(ends) == 1
    lon, lat = found.lon[ends[0]], found.lat[ends[0]]
    ground = Geodesic.WGS84.Inverse(lat, lon, 41.4, -167.5)["s12"] / 1852.0
    assert np.hypot(ground, 10760.0 / FT_PER_NM) == pytest.approx(reading, abs=0.002)
    if wind_kt == 0.0:
        assert flight_.usual.outbound_s[0] == pytest.approx(hold.straight_nm[0] / hold.tas_kt[0] * 3600.0, abs=1e-6)
        if reading == 17.0:
            assert flight_.usual.outbound_s[0] == pytest.approx(124.4, abs=0.1)
