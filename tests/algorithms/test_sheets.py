"""The briefing as a file: pages, words, figures; long names, many holds, the antimeridian, far navaids."""

from __future__ import annotations

import datetime
import math
import re
import shutil
import subprocess
import unicodedata

import pytest

from .areas import styled_layers

NAVAIDS = [
    ("QZA", 179.9, -10.0, "VOR/DME", 100, 12.0),
    ("QZB", -179.6, -10.3, "VORTAC", 20, 10.0),
    ("FAR", 178.9, -10.9, "VOR/DME", 300, -45.0),
    ("WYR", -179.9, -9.6, "NDB", 0, math.nan),
]
CAUTION = "not for navigation"
MADE = datetime.date(2026, 9, 2)


def pages(path):
    """Text of a PDF, page by page, in the order of reading."""
    if shutil.which("pdftotext") is None:
        pytest.fail("pdftotext is not there: install poppler-utils")
    run = subprocess.run(["pdftotext", "-layout", str(path), "-"], capture_output=True, check=True)
    text = unicodedata.normalize("NFKC", run.stdout.decode("utf-8"))  # the type has a sign of its own for "fi"
    return text.split("\f")[:-1]


def brief(folder, plan, **options):
    from fixwright.plugin.sheets import print_briefing

    layers = styled_layers(folder, NAVAIDS, plan)
    path = folder / "briefing.pdf"
    count = print_briefing(layers, str(path), made=MADE, **options)
    layers.clear()
    found = pages(path)
    assert len(found) == count
    return found


def exercise(name, **cells):
    return {"exercise": name, "navaid": "QZA", "radial_deg": "90", "distance_nm": "6", "alt_ft": "5000", **cells}


def test_one_hold(tmp_path):
    """Figures as the layer has them, once: 360 for north, three digits, units."""
    given = dict(navaid="WYR", fix_method="overhead", inbound_deg="360", leg_min="1", ias_kt="100", turn="left")
    plan = [exercise("E1", **given)]
    overview, page = brief(tmp_path, plan, title="Quillandra Reach", navaid_data="navaids of 2026-08-13")
    assert "Quillandra Reach" in overview and "1 hold" in overview
    for wanted in ("E1", "WYR overhead", "5 000 ft", "left", "1:00 outbound", "100 kt IAS", "Rules of ICAO Doc 8168"):
        assert wanted in page, wanted
    assert re.search(r"Inbound, magnetic.*\n *360 ", page)
    assert re.search(r"Inbound +\d{3}\.\d +360\.0", page)
    for text in (overview, page):
        assert CAUTION in text
        assert "navaids of 2026-08-13" in text
        assert "World Magnetic Model 2025 of 2026-09-01" in text
        assert "Made 2026-09-02" in text


def test_courses_in_three_norths_and_both_distances(tmp_path):
    """Source: the layers themselves; true = magnetic + variation, the selector's by the radial."""
    _, page = brief(tmp_path, [exercise("E1", distance_kind="slant", north="station")])
    true, magnetic, selector = (float(v) for v in re.search(r"Inbound +([\d.]+) +([\d.]+) +([\d.]+)", page).groups())
    assert selector == 270.0
    variation = float(re.search(r"Variation, model +([\d.]+)°E", page).group(1))
    assert (true - magnetic - variation + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=0.15)
    assert (true - selector - 12.0 + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=0.15)
    assert re.search(r"Distance, DME +6\.0 NM", page)
    ground = float(re.search(r"Distance, ground +([\d.]+) NM", page).group(1))
    assert ground == pytest.approx(math.sqrt(36.0 - (4900.0 / 6076.115) ** 2), abs=0.051)


def test_long_names_stand_whole_on_their_page(tmp_path):
    names = ["Exercise about holding with a long name", "Every letter of a name of forty letters!", "W" * 40]
    plan = [exercise(name, radial_deg=str(30 * i)) for i, name in enumerate(names)]
    found = brief(tmp_path, plan, title="A title so long that it has no room in a line of sixteen points on this page")
    assert len(found) == 4
    for name, page in zip(names, found[1:]):
        assert "".join(name.split()) in "".join(page.split()).replace("5000ft", "", 1)
    for name, number in zip(names, (1, 2, 3)):
        assert re.search(rf"\b{number} ?{name[:5]}", found[0]) or str(number) in found[0]


def test_twenty_holds_over_two_pages_of_index(tmp_path):
    plan = [
        exercise(f"Exercise {i:02d} of the long names, with a tail", radial_deg=str(17 * i), distance_nm=str(5 + i))
        for i in range(1, 21)
    ]
    found = brief(tmp_path, plan)
    assert len(found) == 22
    assert all(CAUTION in page for page in found)
    assert all(f"Page {i} of 22" in page for i, page in enumerate(found, start=1))
    for i, page in enumerate(found[2:], start=1):
        assert f"Exercise {i:02d}" in page.splitlines()[0] + page.splitlines()[1]
    index = found[0] + found[1]
    for i in range(1, 21):
        assert f"Exercise {i:02d}" in index
        assert re.search(rf"Exercise {i:02d} .*\b{i + 2}$", index, re.MULTILINE), f"no page number for {i}"


def test_a_hold_across_180_degrees_is_drawn_as_any_other(tmp_path):
    """The map's scale is that of the hold, not that of the world."""
    sixty = dict(navaid="FAR", radial_deg="100", distance_nm="60", turn="left")
    plan = [exercise("West", turn="left"), exercise("Far", **sixty)]
    overview, west, far = brief(tmp_path, plan)
    for page in (overview, west, far):
        scales = [int(s.replace(" ", "")) for s in re.findall(r"1 : ([\d ]+\d)", page)]
        assert scales and max(scales) <= 3_000_000, scales
    assert "FAR is 60.0 NM from the fix" in far


def test_a_far_navaid_is_told_by_course_and_distance(tmp_path):
    """Source: the geodesic of the PyPI package geographiclib from the fix to the navaid, less the variation printed."""
    from geographiclib.geodesic import Geodesic

    _, page = brief(tmp_path, [exercise("Far", radial_deg="200", distance_nm="45", distance_kind="ground")])
    course = int(re.search(r"QZA is 45\.0 NM from the fix, on course (\d{3})", page).group(1))
    out = Geodesic.WGS84.Direct(-10.0, 179.9, 212.0, 45 * 1852.0)
    back = (out["azi2"] + 180.0) % 360.0
    variation = float(re.search(r"Variation, model +([\d.]+)°E", page).group(1))
    assert (course - (back - variation) + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=0.7)


def test_broken_limits_and_assumptions_stand_on_the_page(tmp_path):
    overview, page = brief(tmp_path, [exercise("Fast", ias_kt="300", rules="faa")])
    assert "a limit is broken" in overview
    assert "300 kt is faster than 200 kt" in " ".join(page.split())
    assert "right turns" in " ".join(page.split())


def test_text_is_text_and_nobody_is_named(tmp_path):
    import getpass

    brief(tmp_path, [exercise("E1")])
    data = (tmp_path / "briefing.pdf").read_bytes()
    assert data.startswith(b"%PDF-")
    images = subprocess.run(["pdfimages", "-list", str(tmp_path / "briefing.pdf")], capture_output=True, text=True)
    assert len(images.stdout.splitlines()) <= 2, "a page is a picture"
    info = subprocess.run(["pdfinfo", str(tmp_path / "briefing.pdf")], capture_output=True, text=True).stdout
    assert not re.search(r"^Author: +\S", info, re.MULTILINE)
    assert f"/{getpass.getuser()}/" not in info


def test_a_place_that_cannot_be_written_is_refused_and_leaves_nothing(tmp_path):
    from qgis.core import QgsProcessingException

    from fixwright.plugin.sheets import print_briefing

    layers = styled_layers(tmp_path, NAVAIDS, [exercise("E1")])
    (tmp_path / "file").write_text("not a folder")
    before = sorted(tmp_path.iterdir())
    with pytest.raises(QgsProcessingException, match="cannot be written"):
        print_briefing(layers, str(tmp_path / "file" / "briefing.pdf"))
    layers.clear()
    assert sorted(tmp_path.iterdir()) == before


def test_layers_that_are_missing_or_empty_are_refused(tmp_path):
    from fixwright.plugin.sheets import print_briefing

    layers = styled_layers(tmp_path, NAVAIDS, [exercise("E1")])
    without = {name: layer for name, layer in layers.items() if name != "tracks"}
    with pytest.raises(ValueError, match="lacks tracks"):
        print_briefing(without, str(tmp_path / "briefing.pdf"))
    layers["holds"].setSubsetString("hold = 'nobody'")
    with pytest.raises(ValueError, match="no rows"):
        print_briefing(layers, str(tmp_path / "briefing.pdf"))
    layers.clear()
    assert not (tmp_path / "briefing.pdf").exists()


@pytest.mark.parametrize("text", ["", "one", "several words that need more than one line", "W" * 90])
def test_wrapping_keeps_all_letters_and_the_width(text):
    from fixwright.plugin.sheets import page

    lines = page.wrapped(text, 30.0, 9.0)
    assert "".join(lines) == "".join(text.split()) or " ".join(lines) == text
    assert all(page.text_width(line, 9.0) <= 30.0 for line in lines)
    assert page.text_width(page.shortened(text, 30.0, 9.0), 9.0) <= 30.0
