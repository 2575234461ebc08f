"""The separation test in QGIS: pairs, what frees them, the lowest level of each exercise. All names are invented."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.tests.algorithms.layers import Feedback, layer, refusal, run
from fixwright.tests.algorithms.test_airspacetest import airspace, disc

LON, LAT = 20.0, 45.0


def areas(*rows):
    """Discs of 5 NM: (longitude, hold, altitude)."""
    return layer(("hold:string", "part:string", "alt_ft:double"),
                 [(disc(lon, LAT, 5.0), hold, "basic", alt) for lon, hold, alt in rows], kind="Polygon")  # fmt: skip


def holds(*rows):
    return layer(("hold:string", "fix:string", "alt_ft:double", "alt_to_ft:double"),
                 [((LON, LAT), *row) for row in rows])  # fmt: skip


def by_hold(made, test) -> dict:
    return {row["hold"]: row for row in made.rows("TESTS") if row["test"] == test}


def test_two_exercises_too_near():
    """500 ft apart where ICAO Doc 4444, 5.3.2 (from memory) asks for 1 000."""
    made = run("separationtest", AREAS=areas((LON, "E1", 4000.0), (LON + 0.1, "E2", 4500.0), (LON + 1.0, "E3", 4000.0)))
    (pair,) = made.rows("PAIRS")
    assert (pair["hold"], pair["hold_2"], pair["ok"], pair["relation"]) == ("E1", "E2", 0, "overlaps")
    assert (pair["alt_ft"], pair["alt_2_ft"], pair["distance_ft"]) == (4000.0, 4500.0, 500.0)
    assert (pair["free_ft"], pair["free_2_ft"]) == (5500.0, 5000.0)
    # two discs of 5 NM with 4.26 NM between their middles share 2 r^2 acos(d/2r) - d/2 sqrt(4 r^2 - d^2)
    d = 0.1 * 42.5733
    expected = 50.0 * np.arccos(d / 10.0) - d / 2.0 * np.sqrt(100.0 - d * d)
    assert pair["overlap_nm2"] == pytest.approx(expected, rel=0.02)
    tests = by_hold(made, "separation")
    assert {key: row["ok"] for key, row in tests.items()} == {"E1": 0, "E2": 0, "E3": 1}
    assert (tests["E1"]["value"], tests["E1"]["limit_value"], tests["E1"]["unit"]) == (500.0, 1000.0, "ft")
    assert tests["E3"]["text"] == "No other exercise's area overlaps"
    assert "free of all from 5 500 ft up" in tests["E1"]["text"]
    assert made.counts == (3, 3, 0)


def test_separation_is_a_parameter():
    source = areas((LON, "E1", 4000.0), (LON, "E2", 4500.0))
    assert run("separationtest", AREAS=source, SEPARATION=500).rows("PAIRS")[0]["ok"] == 1
    (pair,) = run("separationtest", AREAS=source, SEPARATION=2000, STEP=500).rows("PAIRS")
    assert (pair["ok"], pair["free_ft"], pair["free_2_ft"]) == (0, 6500.0, 6000.0)


def test_areas_that_only_come_near():
    source = areas((LON, "E1", 4000.0), (LON + 0.25, "E2", 4000.0))
    assert run("separationtest", AREAS=source).rows("PAIRS") == []
    (pair,) = run("separationtest", AREAS=source, DISTANCE_NM=1).rows("PAIRS")
    assert (pair["relation"], pair["ok"]) == ("near", 0)
    assert pair["distance_nm"] == pytest.approx(0.25 * 42.5733 - 10.0, abs=0.1)


def test_blocks_of_the_holds():
    source = areas((LON, "E1", 4000.0), (LON, "E2", 7000.0))
    made = run("separationtest", AREAS=source, HOLDS=holds(("E1", "F", 4000.0, 6500.0), ("E2", "F", 7000.0, None)))
    (pair,) = made.rows("PAIRS")
    assert (pair["ok"], pair["alt_to_ft"], pair["distance_ft"]) == (0, 6500.0, 500.0)
    # E1 keeps its 2 500 ft: above E2 from 8 000; E2 above E1 from 7 500
    assert (pair["free_ft"], pair["free_2_ft"]) == (8000.0, 7500.0)
    assert "E1 (4 000 to 6 500 ft)" in pair["text"]


def test_the_lowest_level_and_the_reasons_below_it():
    """Minimum altitude 2 330 ft, a zone to 3 000 ft, another exercise of the same fix at 4 000 ft."""
    source = areas((LON, "E1", 5000.0), (LON, "E2", 4000.0))
    blocks = holds(("E1", "F", 5000.0, None), ("E2", "F", 4000.0, None))
    contacts = run("airspacetest", AREAS=source, HOLDS=blocks, AIRSPACE=airspace(upper="3000 ft AMSL")).layer(
        "CONTACTS"
    )
    minima = layer(("hold:string", "test:string", "value:double", "unit:string", "ok:int"), [
        (None, "E1", "minimum_altitude", 2330.0, "ft", 1), (None, "E1", "cone", 99.0, "NM", 1),
        (None, "E9", "minimum_altitude", 9000.0, "ft", 1),
    ], kind="NoGeometry", crs="")  # fmt: skip
    made = run("separationtest", AREAS=source, HOLDS=blocks, CONTACTS=contacts, MINIMA=minima)
    lowest = by_hold(made, "lowest_level")
    assert (lowest["E1"]["ok"], lowest["E1"]["value"], lowest["E1"]["limit_value"]) == (1, 5000.0, 5000.0)
    assert lowest["E2"]["ok"] is None and "No minimum altitude is known" in lowest["E2"]["text"]
    bands = [(row["cause"], row["who"], row["from_ft"], row["to_ft"], row["lowest_ft"], row["fix"])
             for row in made.rows("LEVELS") if row["hold"] == "E1"]  # fmt: skip
    assert bands == [
        ("minimum_altitude", None, None, 2330.0, 5000.0, "F"),
        ("airspace", "Zone", None, 3500.0, 5000.0, "F"),
        ("exercise", "E2", 3000.0, 5000.0, 5000.0, "F"),
    ]


def test_airspace_that_is_not_known_leaves_no_ok():
    source = areas((LON, "E1", 5000.0))
    contacts = run("airspacetest", AREAS=source, AIRSPACE=airspace(upper="by NOTAM")).layer("CONTACTS")
    minima = layer(("hold:string", "test:string", "value:double", "unit:string", "ok:int"),
                   [(None, "E1", "minimum_altitude", 2000.0, "ft", 1)], kind="NoGeometry", crs="")  # fmt: skip
    row = by_hold(run("separationtest", AREAS=source, CONTACTS=contacts, MINIMA=minima), "lowest_level")["E1"]
    assert row["ok"] is None and row["text"].startswith(
        "The levels of Zone are not known. Lowest usable level 2 000 ft"
    )
    assert by_hold(run("separationtest", AREAS=source, MINIMA=minima), "lowest_level")["E1"]["ok"] == 1


def test_every_exercise_has_its_tests():
    """One without an area, one without an altitude, one of other parts only."""
    source = layer(("hold:string", "part:string", "alt_ft:double"), [
        (disc(LON, LAT, 5.0), "E1", "basic", 4000.0), (disc(LON, LAT, 5.0), "E2", "basic", None),
        (disc(LON, LAT, 5.0), "E3", "buffer_2", 4000.0), (None, "E4", "basic", 4000.0),
    ], kind="Polygon")  # fmt: skip
    made = run("separationtest", AREAS=source, HOLDS=holds(("E5", "F", 4000.0, None)))
    tests = by_hold(made, "separation")
    assert {key: row["ok"] for key, row in tests.items()} == {
        "E1": None,
        "E2": None,
        "E3": None,
        "E4": None,
        "E5": None,
    }
    assert "not to be told against E2, since a level is not known" in tests["E1"]["text"]
    assert set(by_hold(made, "lowest_level")) == set(tests)
    assert made.reasons() == {"AREAS 4": "the row has no shape"}
    (pair,) = made.rows("PAIRS")
    assert pair["ok"] is None and "cannot be told" in pair["text"]


def test_outputs_one_at_a_time_and_none():
    given = {"AREAS": areas((LON, "E1", 4000.0), (LON, "E2", 4500.0))}
    whole = run("separationtest", **given)
    outputs = {"TESTS", "PAIRS", "LEVELS", "REJECTS"}
    for name in outputs - {"REJECTS"}:
        alone = run("separationtest", skip=outputs - {name}, **given)
        assert [row["text"] for row in alone.rows(name)] == [row["text"] for row in whole.rows(name)]
        assert whole.rows(name)
    assert run("separationtest", skip=outputs, **given).counts == whole.counts


def test_cancelled_at_once(tmp_path):
    made = run("separationtest", AREAS=areas((LON, "E1", 4000.0)), feedback=Feedback(cancel_at=0),
               TESTS=str(tmp_path / "tests.gpkg"))  # fmt: skip
    assert made.counts == (0, 0, 0) and list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"SEPARATION": -1}, "SEPARATION is -1; it must be a number between 0 and 10000 ft."),
        ({"STEP": 0}, "STEP is 0; it must be a number between 10 and 5000 ft."),
        (
            {"MINIMA": holds(("E1", "F", 1.0, 1.0))},
            "MINIMA has no field test, ok, value, unit; its fields are hold, fix",
        ),
        (
            {"CONTACTS": holds(("E1", "F", 1.0, 1.0))},
            "CONTACTS has no field airspace, ok, lower_ft, upper_ft; its fields",
        ),
        ({"HOLDS": layer(("name:string",), [])}, "HOLDS has no field hold, alt_ft, alt_to_ft; its fields are name."),
    ],
)
def test_refused(changes, said):
    assert refusal("separationtest", AREAS=areas((LON, "E1", 4000.0)), **changes).startswith(said)


@pytest.mark.parametrize(("value", "unit", "ok", "said", "lowest"), [
    (700.0, "m", 1, 1, 2300.0),  # 700 m are 2 296.6 ft
    (2330.0, "ft", 1, 1, 2400.0),
    (2330.0, "ft", None, None, 2400.0),
    (6000.0, "ft", 0, 0, 6000.0),
])  # fmt: skip
def test_minimum_altitudes_as_the_test_of_terrain_gives_them(value, unit, ok, said, lowest):
    """In feet or metres; what is not wholly known leaves no ok."""
    minima = layer(("hold:string", "test:string", "value:double", "unit:string", "ok:int"),
                   [(None, "E1", "minimum_altitude", value, unit, ok)], kind="NoGeometry", crs="")  # fmt: skip
    row = by_hold(run("separationtest", AREAS=areas((LON, "E1", 5000.0)), MINIMA=minima), "lowest_level")["E1"]
    assert (row["ok"], row["value"], row["limit_value"]) == (said, lowest, 5000.0)
    assert ("not wholly known" in row["text"]) == (ok is None)
