"""Hold from a clearance: layers, log, sheet; what is refused; the same from the command line, in seconds."""

from __future__ import annotations

import pytest

from fixwright.tests.algorithms.layers import DATE, Feedback, core, layer, refusal, run
from fixwright.tests.algorithms.pdfs import pages
from fixwright.tests.algorithms.test_same_result import command_line, opened, plain, saved

NAVAIDS = ("ident:string", "name:string", "kind:string", "elev_ft:double", "decl_deg:double")
PLACES = (
    ((-40.02, 43.03), "OBL", "Ombrell", "VOR/DME", 640.0, -14.0),
    ((-40.3, 42.38), "KUD", "Kudresh", "VOR", 150.0, -16.0),
    ((-39.7, 43.66), "WYR", "Wyrrimar", "NDB", 40.0, None),
    ((-40.52, 42.92), "QEL", "Quellane", "WPT", None, None),
)
WORDS = "Hold northeast of the 17 DME fix on the OBL 045 radial, 5 mile legs, left turns, maintain 5 000, EFC 1430"
NOW = "2026-09-01T14:00"

__all__ = ["command_line"]


def navaids():
    return layer(NAVAIDS, PLACES)


def held(words=WORDS, **more):
    return run("holdfromclearance", NAVAIDS=navaids(), CLEARANCE=words, DATE=DATE, NOW=NOW, **more)


def test_fix_hold_and_pattern():
    """Source of the hold's side and course: FAA AIM 5-3-8 i: northeast on the 045 radial is inbound 225."""
    made = held()
    assert made.counts == (1, 1, 0)
    (fix,), (hold,), (pattern,) = (made.rows(name) for name in ("FIXES", "HOLDS", "PATTERNS"))
    assert (fix["method"], fix["navaid"]) == ("radial_distance", "OBL")
    assert (fix["radial_deg"], fix["dme_nm"]) == (pytest.approx(45.0, abs=1e-6), pytest.approx(17.0, abs=1e-6))
    assert hold["inbound_station_deg"] == pytest.approx(225.0, abs=1e-6)
    assert (hold["turn"], hold["leg_nm"], hold["leg_end"], hold["alt_ft"]) == ("left", 5.0, "dme", 5000.0)
    assert (hold["rules"], hold["efc_utc"], hold["leave_utc"]) == ("faa", "2026-09-01T14:30", None)
    assert hold["clearance"] == WORDS
    assert pattern["hold"] == hold["hold"] and pattern["geometry"].isGeosValid()


def test_the_log_says_what_was_understood_and_assumed():
    log = held().log
    assert "understood: the fix is on the 045 radial of OBL at 17 DME" in log
    assert "understood: the pattern lies northeast of the fix: outbound 045, inbound 225" in log
    assert "understood: further clearance expected at 2026-09-01 14:30 UTC, which is no time to leave" in log
    assert "assumed: rules of FAA AIM 5-3-8, by the wording" in log
    assert "assumed: the leg ends at a DME reading" in log  # what the plan assumes besides, a line each
    assert not any(line.startswith(("refused: ", "limit: ")) for line in log)


def test_the_log_says_it_in_full_and_as_it_is_read_aloud():
    """Source: FAA AIM 5-3-8 i (elements), 4-2-8 to 4-2-12 (figures one by one, niner, thousands; from memory)."""
    log = held("hold ne obl r045 d17.5, 5 mile legs, left, 9500 ft, efc 1409").log
    assert ("in full: Hold northeast of the 17.5 DME fix on the OBL 045 radial, 5 mile legs, left turns, maintain "
            "9 500, expect further clearance 1409.") in log  # fmt: skip
    assert ("read aloud: Hold northeast of the one seven point five DME fix on the oscar bravo lima zero four five "
            "radial, five mile legs, left turns, maintain niner thousand five hundred, expect further clearance one "
            "four zero niner.") in log  # fmt: skip
    log = held("hold over OBL, inbound track 225, left hand pattern, FL190, leave at 1440").log
    (aloud,) = (line for line in log if line.startswith("read aloud: "))
    assert aloud.startswith("read aloud: Cleared to oscar bravo lima, maintain flight level one niner zero, hold")
    assert aloud.endswith("left hand pattern, leave the fix at one four four zero.")


def test_the_log_says_which_limit_is_broken():
    """Source: FAA AIM 5-3-8 j.2(a): 200 kt to 6 000 ft."""
    made = held("hold east of OBL on the 090 radial at 4000 feet, speed 300 knots")
    assert made.counts == (1, 1, 0)
    assert any(line.startswith("limit: 300 kt is faster than 200 kt") for line in made.log)


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ("hold west of OBL on the 090 radial at 4000 feet", "west does not agree with the 090 radial"),
        ("hold north of KUD 17 DME on the 010 radial at 4000 feet", "KUD is a VOR, which gives no DME distance"),
        ("hold east of ABC on the 090 radial at 4000 feet", "no navaid ABC with a usable position"),
        ("hold 9 miles northwest of OBL on present course at 4000 feet", "the present course is not known"),
        ("hold east of OBL on the 090 radial", "the altitude is missing"),
        ("blah", "is no holding clearance"),
    ],
)
def test_what_is_refused_is_said_in_a_sentence(words, reason):
    made = held(words)
    assert made.counts == (1, 0, 1)
    assert [made.layer(name).featureCount() for name in ("FIXES", "HOLDS", "PATTERNS")] == [0, 0, 0]
    (row,) = made.rows("REJECTS")
    assert reason in row["reason"] and "; " not in row["reason"]
    assert any(line.startswith("refused: ") and reason in line for line in made.log)


def test_present_course_from_a_position():
    """The fix northwest of the navaid on the way northwest is beyond it; the pattern lies southeast of the fix."""
    made = held("hold 9 miles northwest of OBL on present course", POSITION="-39.86,42.9", ALTITUDE=4000)
    (hold,) = made.rows("HOLDS")
    assert hold["dist_nm"] == pytest.approx(9.0, abs=1e-6)
    assert 300.0 < hold["inbound_true_deg"] < 330.0 and hold["lat"] > 43.03
    assert any("beyond OBL on the present course" in line for line in made.log)


def test_what_the_words_do_not_say():
    made = held("hold east of OBL on the 090 radial", ALTITUDE=6000, IAS=110, RULES="icao", NAME="Evening hold")
    (hold,) = made.rows("HOLDS")
    assert (hold["hold"], hold["alt_ft"], hold["ias_kt"], hold["rules"]) == ("Evening hold", 6000.0, 110.0, "icao")
    made = held(ALTITUDE=6000)
    assert made.rows("HOLDS")[0]["alt_ft"] == 5000.0
    assert "ALTITUDE is 6000, but the clearance says 5000, which counts" in made.log


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"CLEARANCE": ""}, "Incorrect parameter value for CLEARANCE"),
        ({"WIND_SPEED": 20}, "WIND_FROM and WIND_SPEED go together; give both, or neither."),
        ({"POSITION": "11,86"}, "POSITION is 11, 86; it must be a longitude between -360 and 360"),
        ({"NOW": "noon"}, "NOW is 'noon'; it must be a time in UTC"),
        ({"SHEET": "/nowhere/at/all/sheet.pdf"}, "The folder /nowhere/at/all for SHEET is not there."),
    ],
)
def test_parameters_that_are_refused(more, said):
    assert refusal("holdfromclearance", **{"NAVAIDS": navaids(), "CLEARANCE": WORDS, **more}).startswith(said)


def test_a_sheet_of_one_page(tmp_path):
    path = tmp_path / "sheet.pdf"
    made = held(SHEET=str(path), WIND_FROM=240, WIND_SPEED=20)
    assert made.results["SHEET"] == str(path) and made.layer("HOLDS").featureCount() == 1
    (page,) = pages(path)
    said = " ".join(word.text for word in page.words)
    assert "OBL R045 D17.0" in said and "5 000 ft" in said and "not for navigation" in said
    assert [p.name for p in tmp_path.iterdir()] == ["sheet.pdf"]


def test_no_sheet_where_it_is_refused_or_cancelled(tmp_path):
    held("hold west of OBL on the 090 radial", SHEET=str(tmp_path / "sheet.pdf"))
    run("holdfromclearance", Feedback(cancel_at=0), NAVAIDS=navaids(), CLEARANCE=WORDS, DATE=DATE, NOW=NOW,
        SHEET=str(tmp_path / "sheet.pdf"))  # fmt: skip
    assert list(tmp_path.iterdir()) == []


def test_the_same_on_the_command_line(command_line, tmp_path):
    source = saved(navaids(), tmp_path / "navaids.gpkg")
    python, shell = str(tmp_path / "python.gpkg"), str(tmp_path / "shell.gpkg")
    sheet = tmp_path / "sheet.pdf"
    given = {"NAVAIDS": source, "CLEARANCE": WORDS, "DATE": DATE, "NOW": NOW}
    run("holdfromclearance", HOLDS=python, **given)
    words = [f"{key}={value}" for key, value in {**given, "HOLDS": shell, "SHEET": str(sheet)}.items()]
    said = command_line("run", "fixwright:holdfromclearance", "--", *words)
    assert said.returncode == 0, said.stdout
    assert "understood: left turns" in said.stdout
    assert plain(opened(python)) == plain(opened(shell))
    assert len(pages(sheet)) == 1


def test_a_column_of_a_plan(tmp_path):
    """The plan's clearance fills the cells that are empty; one that says otherwise is told, one that makes another fix
    is rejected."""
    from pathlib import Path

    from fixwright.algorithms.buildarea import BuildArea

    plan = core.QgsVectorLayer(
        "NoGeometry?field=exercise:string&field=clearance:string&field=turn:string&field=navaid:string"
        "&field=start_utc:string", "plan", "memory",
    )  # fmt: skip
    rows = (["A", WORDS, None, None, "14:05"], ["B", WORDS, "right", None, None], ["C", WORDS, None, "KUD", None],
            ["D", "hold", None, None, None])  # fmt: skip
    for values in rows:
        feature = core.QgsFeature(plan.fields())
        feature.setAttributes(values)
        plan.dataProvider().addFeature(feature)
    printed = BuildArea(lambda layers, path, **options: Path(path).write_bytes(b"%PDF-"))
    printed.initAlgorithm()
    given = {"NAVAIDS": navaids(), "PLAN": plan, "DATE": DATE, "FOLDER": str(tmp_path)}
    results, good = printed.run(given, core.QgsProcessingContext(), core.QgsProcessingFeedback(False))
    assert good
    holds = {f["hold"]: f for f in opened(results["HOLDS"]).getFeatures()}
    assert (holds["A"]["turn"], holds["B"]["turn"]) == ("left", "right")
    assert "the cell turn is right, but the clearance says left: the cell counts" in holds["B"]["limits"]
    reasons = {f["exercise"]: f["reason"] for f in opened(results["REJECTS"]).getFeatures()}
    assert reasons == {
        "C": "the cell navaid is KUD, but the clearance says OBL",
        "D": "the clearance names no fix and no navaid",
    }
    flown = [f for f in opened(results["FLOWN"]).getFeatures() if f["hold"] == "A" and f["circuit"] == 0]
    assert "14:30" in flown[0]["text"]
