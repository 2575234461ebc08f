"""A printed page against the layers: figures by their labels, what stands on the pictures, what a student may see."""

from __future__ import annotations

import datetime
import math
import re
import subprocess
from collections import Counter

import pytest

from .areas import styled_layers
from .pdfs import pages

NAVAIDS = [
    ("QZA", 11.0, 48.0, "VOR/DME", 1200, 3.0),
    ("QZB", 11.7, 48.3, "VORTAC", 400, 4.0),
    ("WYR", 10.6, 47.7, "NDB", 1900, math.nan),
]
PLAN = [
    {"exercise": "Alder", "navaid": "QZA", "radial_deg": "87", "distance_nm": "6", "alt_ft": "5000",
     "arrival_deg": "203", "wind_from_deg": "300", "wind_kt": "23", "start_utc": "14:00",
     "leave_utc": "14:21", "efc_utc": "14:30"},
    {"exercise": "Birch", "navaid": "QZB", "radial_deg": "211", "distance_nm": "17.3", "alt_ft": "8000", "leg_nm": "5",
     "alt_to_ft": "10000", "turn": "left", "leg_end": "dme", "rules": "faa", "arrival_deg": "227", "wind_kt": "31",
     "wind_from_deg": "95"},
    {"exercise": "Cedar", "navaid": "QZA", "radial_deg": "63", "navaid_2": "QZB", "distance_2_nm": "14",
     "fix_method": "crossing", "alt_ft": "6000", "inbound_deg": "243", "rules": "icao"},
    {"exercise": "Dogwood", "lat": "48.2", "lon": "11.31", "inbound_deg": "97", "alt_ft": "7000"},
]  # fmt: skip
MADE = datetime.date(2026, 9, 2)
SAME_LINE_PT, PT_PER_MM = 2.5, 72.0 / 25.4


@pytest.fixture(scope="module")
def area(tmp_path_factory):
    layers = styled_layers(tmp_path_factory.mktemp("area"), NAVAIDS, PLAN)
    yield layers
    layers.clear()


@pytest.fixture(scope="module")
def printed(area, tmp_path_factory):
    """Path of an edition, printed once."""
    from fixwright.plugin.sheets import print_briefing

    folder, made = tmp_path_factory.mktemp("printed"), {}

    def path(edition):
        if edition not in made:
            made[edition] = folder / f"{edition}.pdf"
            print_briefing(area, str(made[edition]), edition=edition, made=MADE, title="Quillandra Reach")
        return made[edition]

    return path


def rows(area, name):
    fields = area[name].fields().names()
    return [dict(zip(fields, feature.attributes())) for feature in area[name].getFeatures()]


def labelled(page, label):
    """What stands beside a label at the edge of one of the three columns of a page."""
    wanted, gutter = label.split(), 4.0 * PT_PER_MM
    width = (page.width - 24.0 * PT_PER_MM - 2.0 * gutter) / 3.0
    for left in (12.0 * PT_PER_MM + number * (width + gutter) for number in range(3)):
        for first in page.words:
            if first.text != wanted[0] or abs(first.left - left) > 1.0:
                continue
            line = [
                word for word in page.words
                if abs(word.bottom - first.bottom) < SAME_LINE_PT and left - 1.0 < word.left < left + width
            ]  # fmt: skip
            said = [word.text for word in sorted(line, key=lambda word: word.left)]
            if said[: len(wanted)] == wanted and len(said) > len(wanted):
                return " ".join(said[len(wanted) :])
    return None


def drawn(area, name):
    """Of each hold's page but the overview, the words and shapes of a kind of layer on its maps."""
    from qgis.core import QgsLayoutItemMap

    from fixwright.plugin.sheets.briefing import Briefing, Options

    briefing = Briefing(area, Options(overview=False, made=MADE))
    briefing.set()
    found = [[] for _ in range(briefing.sheet.page_count)]
    for item in briefing.layout.items():
        if isinstance(item, QgsLayoutItemMap):
            for layer in item.layers():
                if layer.name() == name:
                    found[item.page()] += [(f["label"], f.geometry()) for f in layer.getFeatures()]
    briefing.close()
    return found


def clock(seconds):
    """To five seconds, halves up."""
    whole = 5 * math.floor(seconds / 5.0 + 0.5)
    return f"{whole // 60}:{whole % 60:02d}"


def course(deg):
    return f"{math.floor(deg + 0.5) % 360 or 360:03d}"


def test_every_figure_of_the_columns_is_the_layers(area, printed):
    """Read back by place and label; the rounding is done here anew: tenths of a mile, whole knots, five seconds."""
    found = pages(printed("instructor"))[1:]
    for hold, page in zip(rows(area, "holds"), found):
        turn = 180.0 / hold["rate_dps"]
        wanted = {
            "IAS": f"{hold['ias_kt']:.0f} kt",
            "Radius of turn": f"{hold['radius_nm']:.2f} NM",
            "Pattern, length": f"{hold['length_nm']:.1f} NM",
            "Pattern, width": f"{hold['width_nm']:.1f} NM",
            "Rate of turn": f"{hold['rate_dps']:.1f}°/s",
            "Bank": f"{hold['bank_deg']:.0f}°",
            "Area, made for": f"{hold['area_ias_kt']:.0f} kt IAS",
            "Each turn": clock(turn),
            "Each straight leg": clock((hold["circuit_s"] - 2.0 * turn) / 2.0),
            "Circuit": clock(hold["circuit_s"]),
            "Variation, model": f"{abs(hold['var_deg']):.1f}°{'E' if hold['var_deg'] > 0 else 'W'}",
        }
        if hold["navaid"]:
            wanted["Distance, ground"] = f"{hold['dist_nm']:.1f} NM"
            wanted["Distance, DME"] = f"{hold['dme_nm']:.1f} NM"
            wanted["Radial"] = f"{hold['radial_deg']:05.1f}"
        for label, value in wanted.items():
            assert labelled(page, label) == value, (hold["hold"], label)
        true, magnetic, *_ = labelled(page, "Inbound").split() + [""] * 3
        assert (true, magnetic) == (f"{hold['inbound_true_deg']:05.1f}", f"{hold['inbound_model_deg']:05.1f}")
    assert labelled(found[2], "And from") == "QZB DME 14.0"


def test_the_days_figures_are_the_layers(area, printed):
    found = pages(printed("instructor"))[1:]
    flown = {row["hold"]: row for row in rows(area, "flown") if row["circuit"] == 1}
    for hold, page in zip(rows(area, "holds"), found):
        text, row = " ".join(word.text for word in page.words), flown[hold["hold"]]
        assert f"Outbound {course(row['outbound_heading_deg'])}, " in text
        assert f"Inbound {course(row['inbound_heading_deg'])}, {clock(row['inbound_s'])} on the course" in text
        assert f"One circuit {clock(row['end_s'] - row['start_s'])}." in text
        times = re.findall(r"(?<![\d:])\d+:\d\d(?::\d\d)?(?![\d:])", text)
        assert times and all(int(time[-2:]) % 5 == 0 for time in times), times
        assert ("rule of thumb" in text) == (row["wind_kt"] > 0.0), "in still air there is no drift to triple"


def test_each_picture_has_its_courses_and_entries(area, printed):
    """The three sectors in the words of the hold's rules, both courses, what ends the leg, the fix's lines."""
    found = pages(printed("instructor"))[1:]
    for hold, page in zip(rows(area, "holds"), found):
        said = Counter(word.text for word in page.words)
        middle = "teardrop" if hold["rules"] == "faa" else "offset"
        for word in ("direct", "parallel", middle):
            assert said[word] >= 1, (hold["hold"], word)
        assert said["teardrop" if middle == "offset" else "offset"] == 0
        for row in rows(area, "sectors"):
            if row["hold"] == hold["hold"]:
                assert said[f"{course(row['from_deg'])}–{course(row['to_deg'])}"] == 1
    ends = {"Alder": "1:00", "Birch": "D22.3", "Cedar": "1:00", "Dogwood": "1:00"}
    for hold, labels in zip(rows(area, "holds"), drawn(area, "labels")):
        words = Counter(label for label, _ in labels)
        assert words[course(hold["inbound_model_deg"])] == 2, "on the map and on the pattern"
        assert words[f"{course(hold['outbound_model_deg'])}  {ends[hold['hold']]}"] >= 1
    assert "QZB DME 14.0" in [label for label, _ in drawn(area, "line")[2]]


def test_the_overview_names_each_hold_on_its_map(printed):
    said = Counter(word.text for word in pages(printed("instructor"))[0].words)
    assert all(said[row["exercise"]] == 2 for row in PLAN), "once on the map, once in the index"


def test_the_edges_of_all_parts_of_an_area_are_drawn(area):
    """With the clearance of each; the middle of the map lies within them, as 180 degrees would."""
    for hold, edges in zip(rows(area, "holds"), drawn(area, "edge")):
        parts = [r for r in rows(area, "areas") if r["hold"] == hold["hold"] and r["part"] not in ("basic", "primary")]
        assert len(parts) > 3 and len(edges) == len(parts)
        assert all(not line.isEmpty() and line.length() > 10_000.0 for _, line in edges)
        assert {label.rpartition("entry ")[2] for label, _ in edges} == {f"{row['moc_ft']:.0f} ft" for row in parts}


def test_words_of_sectors_stand_in_their_sector_and_the_picture_off_each_other():
    """Whatever the pattern; the frame leaves 17 mm about the fix."""
    from fixwright.plugin.sheets import placed

    pattern = [(x / 2.0, y) for x in range(-40, 1) for y in (0.0, 8.0)]
    for inbound in range(0, 360, 15):
        turned = [_turned(at, inbound - 90.0) for at in pattern]
        sectors = [(f"{name}\n000–000", inbound + a, inbound + b) for name, a, b in
                   (("direct", 110.0, 290.0), ("offset", 290.0, 360.0), ("parallel", 0.0, 110.0))]  # fmt: skip
        left, bottom = (min(min(p[k] for p in turned) - 8.0, -17.0) for k in (0, 1))
        right, top = (max(max(p[k] for p in turned) + 8.0, 17.0) for k in (0, 1))
        made = placed.sector_labels(sectors, turned, (left, bottom, right, top))
        assert [words for words, _ in made] == [words for words, *_ in sectors], inbound
        for (_, (x, y)), (_, start, end) in zip(made, sectors):
            assert left < x < right and bottom < y < top
            assert 0.0 < (math.degrees(math.atan2(x, y)) - start) % 360.0 < end - start
        for i, (_, a) in enumerate(made):
            assert all(abs(a[0] - b[0]) > 10.0 or abs(a[1] - b[1]) > 5.0 for _, b in made[:i]), inbound


def _turned(at, degrees):
    angle = math.radians(degrees)
    x, y = at
    return x * math.cos(angle) + y * math.sin(angle), y * math.cos(angle) - x * math.sin(angle)


def test_a_student_is_told_only_what_is_given(area, printed):
    """What the layers know and the clearance does not say is nowhere: pages, index, names and facts of the file."""
    found = pages(printed("student"))
    info = subprocess.run(["pdfinfo", str(printed("student"))], capture_output=True, text=True, check=True).stdout
    index = {word.text for word in found[0].words}
    entered = {row["hold"]: row for row in rows(area, "entries")}
    flown = {row["hold"]: row for row in rows(area, "flown") if row["circuit"] == 1}
    for hold, page in zip(rows(area, "holds"), found[1:]):
        words = [word for word in sorted(page.words, key=lambda word: (word.top, word.left)) if word.text]
        end = next(word.top for word in words if word.text == "Speed")
        given = {word.text.strip(".,") for word in words if word.top < end + SAME_LINE_PT}
        rest = {word.text.strip(".,") for word in words} - given
        row, entry = flown[hold["hold"]], entered.get(hold["hold"])
        answers = {
            course(hold["inbound_model_deg"]), course(hold["outbound_model_deg"]), f"{hold['inbound_true_deg']:05.1f}",
            course(row["outbound_heading_deg"]), course(row["inbound_heading_deg"]), clock(row["outbound_s"]),
            "direct", "offset", "teardrop", "parallel", hold["turn"], "FAILS",
        }  # fmt: skip
        if math.isfinite(hold["dme_nm"] or math.nan):
            answers |= {f"{hold['dme_nm']:.1f}", f"{hold['dist_nm']:.1f}"}
        if entry:
            answers |= {course(entry["outbound_heading_deg"]), course(entry["arrival_heading_deg"])}
        assert not answers & rest, (hold["hold"], answers & rest)
        for name in ("fix", "inbound_model_deg"):
            value = course(hold[name]) if name != "fix" else hold[name]
            assert value not in info and value not in index
    dogwood = " ".join(word.text for word in found[4].words)
    assert "Hold at 48°12.000'N 011°18.600'E, inbound 097 magnetic, right turns, 1:00 outbound." in dogwood


def test_the_words_on_the_knee_and_in_a_talk_are_those_of_the_rules(area, printed):
    knee = [" ".join(word.text for word in page.words) for page in pages(printed("knee"))]
    assert "14:21Z; EFC 14:30Z" in knee[0]
    entered = {row["hold"]: row["entry"] for row in rows(area, "entries")}
    assert entered["Birch"] == "teardrop" and "teardrop entry" in " ".join(
        word.text for word in pages(printed("talk"))[1].words
    )


def test_a_hold_prints_the_same_whatever_its_layer_looks_like(area, printed, provider, tmp_path):
    """The layer given comes without a style, or with the user's own; a sheet has ours."""
    from .layers import run

    made = run("briefingsheet", INPUT=area["holds"].source(), SHEET=str(tmp_path / "b.pdf"), TITLE="Quillandra Reach")
    first, other = (pages(path)[0] for path in (printed("instructor"), made.results["SHEET"]))
    names = [row["exercise"] for row in PLAN]
    for page in (first, other):
        assert Counter(word.text for word in page.words if word.text in names) == Counter(names * 2)


def test_more_tests_fail_than_a_line_has_room_for(area, tmp_path):
    """What is not named is counted; all of them stand on the page, if need be on a second one, each in one piece."""
    from fixwright.algorithms.common import areafinder
    from fixwright.plugin.sheets import print_briefing

    names = ("minimum_altitude", "status", "cone", "terrain", "service_volume", "separation", "lowest_level", "speed",
             "leg_time", "cut_angle", "line_of_sight", "dme_overhead", "area_speed", "a", "b", "c")  # fmt: skip
    said = "This does not hold, because the lowest altitude is higher than what is planned by 1 200 ft, at a far place"
    row = dict(hold="Alder", ok=0, value=6200.0, limit_value=5000.0, unit="ft", source="s", text=said)
    columns = {name: [value] * len(names) for name, value in row.items()}
    tests = areafinder.in_memory("tests", {**columns, "test": list(names)}, None)
    path = tmp_path / "b.pdf"
    assert print_briefing({**area, "tests": tests}, str(path), made=MADE) == 6
    first, second = (" ".join(word.text for word in page.words) for page in pages(path)[1:3])
    more = int(re.search(r"FAILS: minimum altitude, navaid in service, .*? and (\d+) more", first).group(1))
    assert 5 < more < len(names)
    assert (first + " " + second).count("at a far place") == len(names)
    assert "Alder, continued" in second and second.count("FAILS") == second.count("at a far place")


def test_no_wind_is_called_calm_that_is_not(area, tmp_path):
    """Where no circuit can be flown in the wind, the page says so."""
    from fixwright.plugin.sheets import print_briefing

    layers = dict(area)
    layers["flown"] = area["flown"].clone()
    layers["flown"].setSubsetString("hold <> 'Alder'")
    path = tmp_path / "b.pdf"
    print_briefing(layers, str(path), made=MADE)
    text = " ".join(word.text for word in pages(path)[1].words)
    assert "On the day: wind 300/23 kt, true No circuit can be flown in this wind as the hold is." in text


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("the last of 7:59; fuel for 3:03:32", "the last of 8:00; fuel for 3:03:30"),
        ("leave by 17:03:34Z at the latest, 0:58 early", "leave by 17:03:30Z at the latest, 1:00 early"),
        ("over the fix at 23:59:58Z, EFC 14:30Z", "over the fix at 00:00:00Z, EFC 14:30Z"),
        ("FL 115 at 43°12.750'N, QNH 1013.25", "FL 115 at 43°12.750'N, QNH 1013.25"),
    ],
)
def test_times_in_sentences_are_to_five_seconds(said, wanted):
    """How long the fuel lasts is never rounded up."""
    from fixwright.plugin.sheets import figures

    assert figures.as_flown(said) == wanted


def test_a_figure_is_not_divided(area):
    """Neither 10 000 in itself nor a figure from its unit, however narrow the column; no word ends alone."""
    from fixwright.plugin.sheets import page

    text = "maintain block 8 000 through 10 000 (or FL 115), 2 500 ft below 14 000–16 000 ft and 3.5 NM off at QNH 1013"
    whole = ("8 000", "10 000", "FL 115", "2 500 ft", "14 000–16 000 ft", "3.5 NM", "QNH 1013")
    for width in range(32, 120):
        lines = page.wrapped(text, float(width), 9.0)
        assert " ".join(lines) == text
        for figure in whole:
            assert any(figure in line for line in lines), (width, figure, lines)
        assert all(page.text_width(line, 9.0) <= width for line in lines)
    assert page.wrapped("three words and a widow", page.text_width("three words and a w", 9.0), 9.0)[-1] == "a widow"
