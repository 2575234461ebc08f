"""Clearances to practise on: seeded, answers apart, and themselves a plan."""

from __future__ import annotations

import pytest

from fixwright.tests.algorithms.layers import DATE, core, layer, refusal, run
from fixwright.tests.algorithms.test_holdfromclearance import NAVAIDS, PLACES, navaids

FIRST_OF_SEED_1 = (
    "Hold north of the 29 DME fix on the OBL 342 radial, 8 mile legs, maintain 6 500, expect further clearance 0045.",
    "Hold south of KUD on the 163 radial, 2 minute legs, left turns, maintain 6 000, expect further clearance 2357.",
)


def made(**more):
    return run("practiceclearances", **{"NAVAIDS": navaids(), "COUNT": 12, "DATE": DATE, "SEED": 7, **more})


def words(run_made):
    return [row["clearance"] for row in run_made.rows("CLEARANCES")]


def test_clearances_and_answers_apart():
    both = made()
    assert both.counts == (12, 12, 0)
    clearances, answers = both.rows("CLEARANCES"), both.rows("ANSWERS")
    assert [row["exercise"] for row in clearances] == [row["exercise"] for row in answers]
    assert set(clearances[0]) == {"exercise", "clearance", "spoken", "geometry"}
    assert all(row["right"] == 1 and row["fault"] is None and "inbound" in row["answer"] for row in answers)
    assert not any(char.isdigit() for row in clearances for char in row["spoken"])
    assert not {"KUD", "WYR", "OBL"}.isdisjoint(" ".join(words(both)).split())


def test_the_same_seed_gives_the_same_clearances():
    """The same on every numpy: the words themselves are held."""
    assert words(made()) == words(made())
    assert words(made()) != words(made(SEED=8))
    assert tuple(words(made(COUNT=2, RULES="faa", SEED=1))) == FIRST_OF_SEED_1


@pytest.mark.parametrize("share", [0, 50, 100])
def test_wrong_on_purpose(share):
    answers = made(FAULTY=share, COUNT=40).rows("ANSWERS")
    assert all((row["right"] == 0) == (row["fault"] is not None) for row in answers)
    wrong = sum(row["right"] == 0 for row in answers)
    assert {0: wrong == 0, 50: 8 <= wrong <= 32, 100: wrong == 40}[share]


def test_the_wording_of_the_rules():
    assert all(text.startswith("Cleared to") for text in words(made(RULES="icao")))
    assert all(text.startswith("Hold ") for text in words(made(RULES="faa")))


def test_only_the_navaids_and_altitudes_of_a_plan():
    plan = layer(("navaid:string", "alt_ft:double"), [(None, "KUD", 3300.0), (None, "ZZZ", None)], kind="NoGeometry")
    both = made(PLAN=plan)
    assert all(" KUD " in text for text in words(both))
    assert {row["alt_ft"] for row in both.rows("ANSWERS")} == {3300.0}


def test_no_navaid_that_serves():
    both = run("practiceclearances", NAVAIDS=layer(NAVAIDS, PLACES[3:]), DATE=DATE)
    assert both.counts == (10, 0, 10)
    assert any(line.startswith("No navaid can be used") for line in both.log)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"COUNT": 2.5}, "COUNT is 2.5; it must be a whole number."),
        ({"COUNT": 0}, "COUNT is 0; it must be a number between 1 and 1000."),
        ({"SEED": -1}, "SEED is -1; it must be a number between 0 and 999999."),
        ({"FAULTY": 101}, "FAULTY is 101; it must be a number between 0 and 100 %."),
    ],
)
def test_parameters_that_are_refused(more, said):
    assert refusal("practiceclearances", NAVAIDS=navaids(), **more) == said


def test_a_plan_without_navaids():
    plan = layer(("exercise:string",), [(None, "a")], kind="NoGeometry")
    said = refusal("practiceclearances", NAVAIDS=navaids(), PLAN=plan)
    assert said == "PLAN has no column navaid; its columns are exercise."


def test_the_clearances_are_a_plan(tmp_path):
    """What is practised on can be built, and the answers are its holds."""
    from pathlib import Path

    from fixwright.algorithms.buildarea import BuildArea

    both = made(RULES="faa")
    build = BuildArea(lambda layers, path, **options: Path(path).write_bytes(b"%PDF-"))
    build.initAlgorithm()
    given = {"NAVAIDS": navaids(), "PLAN": both.layer("CLEARANCES"), "DATE": DATE, "FOLDER": str(tmp_path)}
    results, good = build.run(given, core.QgsProcessingContext(), core.QgsProcessingFeedback(False))
    assert good and results["ROWS_OUT"] == 12
    holds = {f["hold"]: f["inbound_true_deg"] - f["var_deg"]
             for f in core.QgsVectorLayer(results["HOLDS"], "holds", "ogr").getFeatures()}  # fmt: skip
    for row in both.rows("ANSWERS"):
        assert (holds[row["exercise"]] - row["inbound_model_deg"] + 180.0) % 360.0 == pytest.approx(180.0, abs=1e-6)
