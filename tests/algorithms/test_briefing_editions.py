"""Editions of the briefing as files: pages, boxes of the text, fonts, what a student may not see, cancel."""

from __future__ import annotations

import datetime
import math
import re
import subprocess

import pytest

from .areas import styled_layers
from .pdfs import fonts, overlapping, pages

NAVAIDS = [
    ("QZA", 11.0, 48.0, "VOR/DME", 1200, 3.0),
    ("QZB", 11.7, 48.3, "VORTAC", 400, 4.0),
    ("WYR", 10.6, 47.7, "NDB", 1900, math.nan),
]
LONG = "Ein sehr langer Name einer Übung mit Bögen"
RIGHT_TO_LEFT = "תרגיל המתנה ראשון"
PLAN = [
    {"exercise": "E1", "navaid": "QZA", "radial_deg": "90", "distance_nm": "6", "alt_ft": "5000",
     "arrival_deg": "200", "wind_from_deg": "300", "wind_kt": "20", "start_utc": "14:00",
     "leave_utc": "14:20", "efc_utc": "14:30"},
    {"exercise": LONG, "navaid": "QZB", "radial_deg": "211", "distance_nm": "17", "alt_ft": "8000", "leg_nm": "5",
     "alt_to_ft": "10000", "turn": "left", "leg_end": "dme", "rules": "faa", "aircraft": "Bracken"},
    {"exercise": RIGHT_TO_LEFT, "navaid": "WYR", "fix_method": "overhead", "inbound_deg": "75", "alt_ft": "3000"},
    {"exercise": "E4", "navaid": "QZA", "course_deg": "150", "along_nm": "8", "alt_ft": "6000"},
]  # fmt: skip
MADE = datetime.date(2026, 9, 2)
PAGES = {"instructor": 5, "student": 5, "knee": 2, "talk": 4, "card": 4}
SHARED = 0.25
"""Share of a word's box that another's may lie over: boxes of turned words on the maps are larger than the words."""


@pytest.fixture(scope="module")
def area(tmp_path_factory):
    folder = tmp_path_factory.mktemp("area")
    layers = styled_layers(folder, NAVAIDS, PLAN)
    yield layers
    layers.clear()


def printed(area, folder, edition, **options):
    from fixwright.plugin.sheets import print_briefing

    path = folder / f"{edition}.pdf"
    count = print_briefing(area, str(path), edition=edition, made=MADE, title="Quillandra Reach", **options)
    return path, count


def rows(area, name):
    fields = area[name].fields().names()
    return [dict(zip(fields, feature.attributes())) for feature in area[name].getFeatures()]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("edition", list(PAGES))
def test_pages_boxes_and_fonts(area, tmp_path, edition, paper):
    """Every word inside its page and its margins, none over another, all fonts embedded."""
    path, count = printed(area, tmp_path, edition, paper=paper)
    found = pages(path)
    assert count == len(found) == PAGES[edition]
    for number, page in enumerate(found, start=1):
        assert page.words
        for word in page.words:
            assert word.left >= 20.0 and word.right <= page.width - 20.0, (number, word)
            assert word.top >= 15.0 and word.bottom <= page.height - 15.0, (number, word)
        assert overlapping(page, SHARED) == [], number
    assert fonts(path) and all(re.search(r" yes (yes|no) +(yes|no) ", line) for line in fonts(path))
    size = {"talk": (720.0, 405.0)}.get(edition, {"a4": (595.0, 842.0), "letter": (612.0, 792.0)}[paper])
    assert (found[0].width, found[0].height) == pytest.approx(size, abs=1.0)


def words_of(path):
    return [[word.text for word in page.words] for page in pages(path)]


def test_the_students_edition_holds_no_answer(area, tmp_path):
    """Courses, headings, positions, entries of the layers stand nowhere on it but in what is given."""
    path, _ = printed(area, tmp_path, "student")
    said = words_of(path)
    entries = {row["hold"]: row for row in rows(area, "entries")}
    for row, words in zip(rows(area, "holds"), said[1:]):
        text = " ".join(words)
        answers = [f"{row['inbound_true_deg']:05.1f}", f"{row['inbound_model_deg']:05.1f}", row["position"] or "#"] if (
            "position" in row
        ) else [f"{row['inbound_true_deg']:05.1f}", f"{row['inbound_model_deg']:05.1f}"]
        for answer in answers:
            assert answer not in text, (row["hold"], answer)
        if row["hold"] in entries:
            entry = entries[row["hold"]]
            assert entry["entry"] not in text.lower()
            assert f"{entry['outbound_heading_deg']:03.0f}" not in words
        for question in ("Inbound course", "Entry", "Stopwatch outbound"):
            assert question in text
    for fix in (row["fix"] for row in rows(area, "fixes")):
        assert fix not in " ".join(said[0]), "the index gives the fix away"


def test_the_knee_edition_has_ten_figures_of_the_layers(area, tmp_path):
    from fixwright.plugin.sheets import content, knee

    path, _ = printed(area, tmp_path, "knee")
    text = " ".join(words_of(path)[0])
    made = content.Content(area, "")
    lines = knee.ten(made, made.holds[0][1])
    made.close()
    assert len(lines) == 10
    hold = rows(area, "holds")[0]
    entry = rows(area, "entries")[0]
    flown = next(row for row in rows(area, "flown") if row["hold"] == "E1" and row["circuit"] == 1)
    for figure in (
        f"QZA R{hold['radial_deg']:03.0f} D{hold['dme_nm']:.1f}",
        f"{hold['inbound_model_deg']:03.0f}",
        entry["entry"],
        f"{entry['outbound_heading_deg']:03.0f}",
        f"{flown['outbound_heading_deg']:03.0f}",
        f"{flown['inbound_heading_deg']:03.0f}",
        "14:20",
    ):
        assert figure in text, figure
    stopwatch = 5.0 * math.floor(flown["stopwatch_s"] / 5.0 + 0.5)
    assert f"{stopwatch // 60:.0f}:{stopwatch % 60:02.0f}" in text


def test_figures_of_the_instructors_page_are_those_of_the_layers(area, tmp_path):
    """Three-figure courses, tenths of a mile, times to five seconds."""
    path, _ = printed(area, tmp_path, "instructor")
    said = words_of(path)
    for number, hold in enumerate(rows(area, "holds"), start=1):
        text = " ".join(said[number])
        for figure in (
            f"{round(hold['inbound_model_deg']) or 360:03d}",
            f"{hold['inbound_true_deg']:05.1f}",
            f"{hold['ias_kt']:.0f} kt IAS",
            f"{hold['tas_kt']:.0f} kt",
            f"{hold['radius_nm']:.2f} NM",
            f"{hold['width_nm']:.1f} NM",
        ):
            assert figure in text, (hold["hold"], figure)
        times = [m for m in re.findall(r"(?:turn|leg|Circuit|circuit) (\d+:\d\d)", text)]
        assert times and all(int(t.partition(":")[2]) % 5 == 0 for t in times), times


def test_a_hold_that_fails_is_said_so_everywhere(area, tmp_path):
    from fixwright.algorithms.common import areafinder

    test = dict(hold="E1", test="minimum_altitude", ok=0, value=6200.0, limit_value=5000.0, unit="ft", source="s",
                text="5 000 ft is below the minimum holding altitude 6 200 ft")  # fmt: skip
    tests = areafinder.in_memory("tests", {name: [value] for name, value in test.items()}, None)
    found = {}
    for edition in PAGES:
        path, _ = printed({**area, "tests": tests}, tmp_path, edition)
        found[edition] = [" ".join(words) for words in words_of(path)]
    assert "FAILS" in found["instructor"][0] and "FAILS: minimum altitude" in found["instructor"][1]
    assert "below the minimum holding altitude 6 200 ft" in found["instructor"][1]
    assert "FAILS" not in found["instructor"][2]
    assert "FAILS" in found["knee"][0] and "FAILS" in found["talk"][0] and "FAILS" in found["card"][0]


def test_the_card_follows_the_equipment(area, tmp_path):
    equipment = {"Bracken": "radial and distance; a course with sequencing suspended"}
    path, _ = printed(area, tmp_path, "card", aircraft=equipment)
    said = [" ".join(words) for words in words_of(path)]
    assert "sequencing suspended" in said[1] and "holding function" not in said[1]
    assert "Radial and distance" in said[1] and "Latitude and longitude" not in said[1]
    assert "A holding function" in said[0] and "Needles and stopwatch" in said[0]


def test_the_clearance_is_written_from_the_hold(area, tmp_path):
    """A place alone is not said in a clearance, and nothing is made up for it."""
    path, _ = printed(area, tmp_path, "instructor")
    said = [" ".join(words) for words in words_of(path)]
    assert "Cleared to the 090 radial of QZA" in said[1] and "hold east" in said[1]
    assert "Hold southwest of the 17 DME fix on the QZB 211 radial, 5 mile legs, left turns" in said[2]
    layers = styled_layers(tmp_path, NAVAIDS, [{"exercise": "P", "lat": "48.2", "lon": "11.3", "inbound_deg": "90",
                                                "alt_ft": "5000"}])  # fmt: skip
    path, _ = printed(layers, tmp_path, "instructor")
    layers.clear()
    text = " ".join(words_of(path)[1])
    assert "Clearance" not in text and "nan" not in text.split()


def test_pictures_of_the_pages(area, tmp_path):
    from fixwright.plugin.sheets import print_briefing

    folder = tmp_path / "pictures"
    assert print_briefing(area, str(folder), edition="talk", png=True, made=MADE) == 4
    made = sorted(folder.iterdir())
    assert [path.name for path in made] == [f"briefing-{n:02d}.png" for n in range(1, 5)]
    assert all(path.read_bytes().startswith(b"\x89PNG") for path in made)


@pytest.mark.parametrize("png", [False, True])
def test_cancel_leaves_nothing(area, tmp_path, png):
    from fixwright.plugin.sheets import print_briefing

    asked = []

    def cancelled():
        asked.append(True)
        return len(asked) > 2

    where = tmp_path / ("pictures" if png else "briefing.pdf")
    assert print_briefing(area, str(where), png=png, cancelled=cancelled) == 0
    assert not where.exists() or not list(where.iterdir())


def test_the_algorithm_finds_the_layers_of_the_file(area, provider, tmp_path):
    from .layers import run

    made = run("briefingsheet", INPUT=area["holds"].source(), EDITION="instructor", SHEET=str(tmp_path / "b.pdf"))
    text = [" ".join(words) for words in words_of(made.results["SHEET"])]
    assert len(text) == 5
    assert "Entry" not in text[0] and "entry" in text[1].lower(), "the entries of the file were not found"


def test_the_algorithm_makes_what_is_not_there(area, provider, tmp_path):
    """Holds alone in a file: patterns, legs, areas, fixes and navaids are computed from them."""
    from .layers import run, saved

    alone = saved(area["holds"], tmp_path / "alone.gpkg")
    made = run("briefingsheet", INPUT=alone, SHEET=str(tmp_path / "b.pdf"))
    assert made.counts == (4, 4, 0)
    found = words_of(made.results["SHEET"])
    assert len(found) == 5 and "QZA" in found[0]


def test_nothing_to_print_into_is_refused(area, provider):
    from .layers import refusal

    assert "nothing to print into" in refusal("briefingsheet", INPUT=area["holds"].source())


def test_names_that_could_break_a_page(tmp_path):
    """Markup, quotes, lines, 300 characters, right-to-left, emoji."""
    from fixwright.plugin.sheets import print_briefing

    names = ["<b>&amp;\"'", "two\nlines", "x" * 300, "א" * 30, "🛩️ hold"]
    plan = [{"exercise": name, "navaid": "QZA", "radial_deg": str(60 * i), "distance_nm": "9", "alt_ft": "4000"}
            for i, name in enumerate(names)]  # fmt: skip
    layers = styled_layers(tmp_path, NAVAIDS, plan)
    path = tmp_path / "b.pdf"
    assert print_briefing(layers, str(path)) == 6
    layers.clear()
    for page in pages(path):
        assert all(word.right <= page.width for word in page.words)
    assert subprocess.run(["pdfinfo", str(path)], capture_output=True).returncode == 0
