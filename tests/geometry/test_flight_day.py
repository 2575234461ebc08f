"""The day of the flight: a plan's holds flown in its wind and at its times."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import plan
from fixwright.geometry.plan.flight_day import read_clock

NAVAIDS = {
    "ident": np.array(["QLF"], object), "kind": np.array(["VOR/DME"], object), "lon": np.array([-167.5]),
    "lat": np.array([41.4]), "elev_ft": np.array([1240.0]), "decl_deg": np.array([11.0]),
}  # fmt: skip
AIRCRAFT = {"aircraft": ["Tansy"], "ias_kt": ["100"], "fuel_flow": ["30"], "usable_fuel": ["45"]}


def _flown(*rows, day=None, aircraft=None):
    cells = {name: [row.get(name, "") for row in rows] for name in {name for row in rows for name in row}}
    built = plan.build(cells, NAVAIDS, aircraft, var_date="2026-09-01", year=2026.66575)
    assert built.reasons.tolist() == [""] * len(rows)
    return plan.fly_plan(cells, built.rows, built.kept, aircraft, day or plan.FlightDay("2026-09-01")), built


def _row(**more):
    return dict(exercise="A", navaid="QLF", radial_deg=305, distance_nm=14, distance_kind="ground", alt_ft=4000, **more)


def test_to_leave_on_time():
    """Inbound 072 true at 118 kt TAS, wind 340/22: at the fix 18 minutes after the first crossing means four circuits,
    the last of 329.5 s (AIM 5-3-8 k; computed from the vector sum of air legs and wind)."""
    ias = 118.0
    row = dict(
        exercise="A", navaid="QLF", north="true", inbound_deg="072", alt_ft=0, isa_dev_c=0, ias_kt=ias,
        rules="faa", wind_from_deg=340, wind_kt=22, start_utc="09:40", leave_utc="09:58",
    )  # fmt: skip
    made, built = _flown(row)
    assert built.holds["tas_kt"][0] == pytest.approx(118.0, abs=0.01)
    circuits = made.flown.columns["end_s"] - made.flown.columns["start_s"]
    assert circuits[1:].tolist() == pytest.approx([250.18, 250.18, 250.18, 329.46], abs=0.1)
    assert made.flown.columns["end_utc"][-1] == "2026-09-01T09:58:00"
    assert "4 circuits, the last of 5:29" in made.flown.columns["text"][0]


def test_the_days_wind_goes_before_the_rows_own():
    rows = _row(wind_from_deg=10, wind_kt=5)
    own, _ = _flown(rows)
    day, _ = _flown(rows, day=plan.FlightDay("2026-09-01", 300.0, 25.0))
    assert set(own.flown.columns["wind_kt"]) == {5.0} and set(day.flown.columns["wind_kt"]) == {25.0}
    calm, _ = _flown(_row())
    assert set(calm.flown.columns["wind_kt"]) == {0.0}
    assert calm.assumed[0] == "flown in calm: no wind is given" and own.assumed[0] == ""


@pytest.mark.parametrize(
    ("cells", "said"),
    [({"wind_from_deg": "west", "wind_kt": 20}, "wind_from_deg: 'west' is not a number"),
     ({"wind_from_deg": 270, "wind_kt": -5}, "wind_kt is -5; it must be 0 to 300"),
     ({"wind_from_deg": 361, "wind_kt": 5}, "wind_from_deg is 361; it must be 0 to 360"),
     ({"wind_from_deg": 270, "wind_kt": 301}, "wind_kt is 301; it must be 0 to 300")],
)  # fmt: skip
def test_a_wind_that_is_none_is_told(cells, said):
    """Flown in calm, but never without a word."""
    made, _ = _flown(_row(**cells), {**_row(), "exercise": "B"})
    assert made.limits.tolist() == [said, ""]
    assert set(made.flown.columns["wind_kt"]) == {0.0}
    day, _ = _flown(_row(**cells), day=plan.FlightDay("2026-09-01", 300.0, 25.0))
    assert day.limits.tolist() == [""] and set(day.flown.columns["wind_kt"]) == {25.0}


def test_circuits_by_rules_of_thumb_come_with_it():
    made, _ = _flown(_row(wind_from_deg=10, wind_kt=20), {**_row(wind_from_deg=10, wind_kt=150), "exercise": "B"})
    assert made.by_rule.columns["hold"].tolist() == ["A"] * 3
    assert made.by_rule.columns["rule"].tolist() == ["single", "double", "triple"]
    assert (np.diff(made.by_rule.offsets) > 10).all()


def test_a_hold_that_cannot_be_flown_stays_and_says_so():
    made, _ = _flown(_row(wind_from_deg=10, wind_kt=150))
    assert "cannot be flown in this wind: the wind is too strong" in made.limits[0]
    assert len(made.flown.columns["hold"]) == 0


def test_an_arrival_gives_an_entry():
    made, _ = _flown(_row(arrival_deg=305, north="station"), {**_row(), "exercise": "B"})
    assert made.entries["hold"].tolist() == ["A"]
    assert made.entries["entry"].tolist() == ["teardrop"]


def test_times_that_are_none():
    made, _ = _flown(_row(start_utc="25:00"), {**_row(leave_utc="10:00"), "exercise": "B"})
    assert "start_utc: '25:00' is not a time" in made.limits[0]
    assert made.limits[1] == "leave_utc is given without start_utc"


def test_expect_further_clearance_is_no_time_to_leave():
    made, _ = _flown(_row(start_utc="14:00", efc_utc="14:30"))
    assert "14:30:00Z: no clearance to leave" in made.flown.columns["text"][0]
    assert "14 CFR 91.185" in made.flown.columns["text"][0]


def test_fuel_gives_the_latest_time_to_leave():
    """45 of fuel at 30 an hour lasts an hour and a half."""
    made, _ = _flown(_row(aircraft="tansy", start_utc="14:00"), aircraft=AIRCRAFT)
    assert "leave by 15:30:00Z at the latest" in made.flown.columns["text"][0]
    assert "no reserve kept back" in made.flown.columns["text"][0]


def test_fuel_that_is_used_up_too_soon_is_told():
    """An hour and a half of fuel from 14:00 on: 15:30. Later are leaving at 15:45 and an EFC of 15:40; not 15:20."""
    row = _row(aircraft="tansy", start_utc="14:00", wind_from_deg=10, wind_kt=20)
    late, efc, soon = (
        _flown({**row, **more}, aircraft=AIRCRAFT)[0].flown.columns["text"][0]
        for more in ({"leave_utc": "15:45", "efc_utc": "15:40"}, {"efc_utc": "15:40"}, {"leave_utc": "15:20"})
    )
    by = "leave by 15:30:00Z at the latest"
    further = "before the time to expect further clearance"
    assert f"{by}, which is before the end of these circuits and {further}" in late
    assert f"{by}, which is {further}" in efc and efc.endswith(further)
    assert soon.endswith(by)


@pytest.mark.parametrize(
    ("flow", "usable", "said"),
    [("-30", "45", "fuel_flow is -30; it must be more than 0"), ("0", "45", "fuel_flow is 0; it must be more than 0"),
     ("30", "-4", "usable_fuel is -4; it must be 0 or more"), ("30", "much", "usable_fuel: 'much' is not a number"),
     ("0,01", "45", "usable_fuel over fuel_flow gives 4500 hours; at most 100 count")],
)  # fmt: skip
def test_fuel_that_is_none_is_told(flow, usable, said):
    """Beside the hold, which is flown all the same; empty cells are no fuel that is known."""
    table = {**AIRCRAFT, "fuel_flow": [flow], "usable_fuel": [usable]}
    made, _ = _flown(_row(aircraft="tansy", start_utc="14:00"), {**_row(), "exercise": "B"}, aircraft=table)
    assert made.limits.tolist() == [f"the fuel of the Tansy is left out: {said}", ""]
    assert not any("fuel for" in text for text in made.flown.columns["text"])
    made, _ = _flown(_row(aircraft="tansy"), aircraft={**AIRCRAFT, "fuel_flow": [""]})
    assert made.limits.tolist() == [""] and "fuel for" not in made.flown.columns["text"][0]
    made, _ = _flown(_row(aircraft="tansy"), aircraft={name: [] for name in AIRCRAFT})
    assert made.limits.tolist() == [""]


def test_holds_with_an_arrival_beside_holds_without():
    """A plan gives an arrival to some rows only; each hold has its whole track, from arrival to the last crossing."""
    made, _ = _flown(
        _row(arrival_deg=305, wind_from_deg=10, wind_kt=20), {**_row(wind_from_deg=10, wind_kt=20), "exercise": "B"}
    )
    assert np.isfinite(made.flown.coords).all() and np.isfinite(made.places).all()
    lines = made.flown.columns
    assert lines["hold"].tolist() == ["A"] * 4 + ["B"] * 4 and lines["circuit"].tolist() == [0, 1, 2, 3] * 2
    np.testing.assert_allclose(lines["start_s"][[0, 4]], -240.0)
    for hold in (slice(0, 4), slice(4, 8)):
        np.testing.assert_allclose(lines["start_s"][hold][1:], lines["end_s"][hold][:-1], atol=1e-6)
    assert lines["start_s"][5] == 0.0 and lines["end_s"][4] == 0.0


def test_one_start_for_all_rows():
    day = plan.FlightDay("2026-09-01", start=np.datetime64("2026-09-02T08:00:00"))
    made, _ = _flown(_row(start_utc="14:00"), {**_row(), "exercise": "B"}, day=day)
    first = made.events["event"] == "fix"
    assert {utc for utc, t in zip(made.events["utc"][first], made.events["time_s"][first]) if t == 0.0} == {
        "2026-09-02T08:00:00"
    }


@pytest.mark.parametrize(
    ("words", "moment"),
    [
        ("14:05", "2026-09-01T14:05:00"), ("14:05:20Z", "2026-09-01T14:05:20"), (" 14:05 ", "2026-09-01T14:05:00"),
        ("2026-09-03T00:10", "2026-09-03T00:10:00"), ("24:00", None), ("14.05", None), ("2026-02-30T10:00", None),
        ("noon", None), ("14:60", None), ("1405", "2026-09-01T14:05:00"), ("14:05Z", "2026-09-01T14:05:00"),
        ("1405 z", "2026-09-01T14:05:00"), ("2026-09-03 1405Z", "2026-09-03T14:05:00"), ("905", None), ("2460", None),
        ("1405-06", None), ("14:05ZZ", None), ("1899-01-01T10:00", None),
    ],
)  # fmt: skip
def test_clocks(words, moment):
    found = read_clock(words, "2026-09-01")
    assert found == (None if moment is None else np.datetime64(moment))


def test_no_holds():
    nothing = _flown(_row())[1].kept.take([])
    made = plan.fly_plan({}, np.zeros(0, dtype=int), nothing, None, plan.FlightDay("2026-09-01"))
    assert len(made.places) == 0 and made.flown.offsets.tolist() == [0]


def test_altimeter_setting_moves_the_true_airspeed():
    """A low pressure is a high pressure altitude: 27 to 30 ft a hectopascal (rule of thumb, common practice)."""
    cells = {name: [value] for name, value in _row().items()}
    low, standard = (
        plan.build(cells, NAVAIDS, None, var_date="2026-09-01", year=2026.66575, qnh_hpa=qnh)
        for qnh in (983.25, 1013.25)
    )
    assert low.holds["qnh_hpa"][0] == 983.25
    ratio = low.holds["tas_kt"][0] / standard.holds["tas_kt"][0]
    assert 1.0 + 27 * 30 * 1.4e-5 < ratio < 1.0 + 30 * 30 * 1.7e-5
