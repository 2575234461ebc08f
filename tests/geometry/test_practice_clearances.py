"""Clearances to practise on: right ones are accepted and wrong ones refused; the numbers alone decide."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import phraseology, plan
from fixwright.geometry.phraseology import DRAWS, FAULTS, Source, practice
from fixwright.geometry.plan.answers import practice_sources
from fixwright.tests.geometry.test_spoken import navaid_columns

ALTITUDES = [3000.0, 4500.0, 9000.0]


def draws(n, seed=1):
    return np.random.Generator(np.random.PCG64(seed)).random((n, DRAWS))


def made(wording, faulty, n=150, seed=1):
    """Tasks, and what a plan makes of their words."""
    sources = practice_sources(navaid_columns(), set())
    tasks = practice(sources, ALTITUDES, draws(n, seed), wording, faulty)
    table = {"clearance": [task.phrase.text for task in tasks], "rules": [wording] * n}
    built = plan.build(table, navaid_columns(), None, var_date="2026-09-01", year=2026.67, tolerance_m=1000.0)
    return tasks, built


@pytest.mark.parametrize("wording", phraseology.WORDINGS)
def test_right_ones_give_the_hold_that_was_meant(wording):
    tasks, built = made(wording, 0.0)
    assert set(built.reasons) == {""} and {task.fault for task in tasks} == {""}
    for i, task in enumerate(tasks):
        said = task.clearance
        spoken = "inbound_model_deg" if said.fix.ident == "WYR" else "inbound_station_deg"
        assert np.cos(np.radians(built.holds[spoken][i] - said.inbound_deg)) == pytest.approx(1.0, abs=1e-9)
        assert (built.holds["turn"][i], built.holds["alt_ft"][i]) == (said.turn, said.alt_ft)
        assert built.spoken.plan["efc_utc"][i] == said.efc


@pytest.mark.parametrize("wording", phraseology.WORDINGS)
def test_wrong_ones_are_refused_for_their_fault(wording):
    tasks, built = made(wording, 1.0)
    why = {
        "direction": "does not agree with",
        "time": "is no time",
        "line": "the clearance gives no radial, bearing or course, and the present course is not known",
        "dme": "which gives no DME distance",
    }
    assert {task.fault for task in tasks} == set(FAULTS) == set(why)
    for task, reason in zip(tasks, built.reasons):
        assert why[task.fault] in reason, (task.phrase.text, reason)


def test_a_share_is_wrong():
    tasks, built = made("faa", 0.3, n=200)
    assert [task.fault != "" for task in tasks] == [reason != "" for reason in built.reasons]
    assert 40 <= sum(task.fault != "" for task in tasks) <= 80


def test_the_numbers_alone_decide():
    def said(seed):  # as text: what is not known is NaN, which equals nothing
        return repr(practice([Source("ABC", False, True)], ALTITUDES, draws(20, seed), "faa", 0.2))

    assert said(5) == said(5)
    assert said(5) != said(6)


@pytest.mark.parametrize("edge", [0.0, np.nextafter(1.0, 0.0)])
def test_numbers_at_the_edges(edge):
    for sources in ([Source("ABC", False, True)], [Source("ABC", True, False)]):
        for faulty in (0.0, 1.0):
            (task,) = practice(sources, ALTITUDES, np.full((1, DRAWS), edge), "icao", faulty)
            assert task.phrase.text.startswith("Cleared to")


@pytest.mark.parametrize(
    ("sources", "altitudes", "numbers", "said"),
    [
        ([], ALTITUDES, draws(1), "sources and altitudes_ft must have one entry or more"),
        ([Source("ABC", False, True)], [], draws(1), "sources and altitudes_ft must have one entry or more"),
        ([Source("ABC", False, True)], ALTITUDES, np.zeros((1, 3)), r"draws has the shape \(1, 3\)"),
    ],
)
def test_calls_that_make_no_sense(sources, altitudes, numbers, said):
    with pytest.raises(ValueError, match=said):
        practice(sources, altitudes, numbers, "faa", 0.0)
