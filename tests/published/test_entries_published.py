"""Entry sectors against the rule's published wording, for every whole degree and both sides, and worked arrivals."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from fixwright.geometry import entries

DATA = Path(__file__).parent / "data"


def _rows(name: str) -> list[dict[str, str]]:
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _side(row) -> int:
    return {"right": 1, "left": -1}[row["turn"]]


def _word(code) -> str:
    return entries.ENTRIES[int(code)] if int(code) >= 0 else ""


def _name(row) -> str:
    return f"{row['inbound_deg']} {row['turn']} {row.get('heading_deg')}"


@pytest.mark.parametrize("row", _rows("entry_sectors.csv"), ids=_name)
def test_row(row):
    """FAA AIM 5-3-8 j.3 and US Navy CNATRA P-821 fig. 3-8: the source stands in each row."""
    assert row["source"]
    found = entries.entry(float(row["heading_deg"]), float(row["inbound_deg"]), _side(row))
    assert _word(found.entry) == row["entry"]
    if row["also"]:
        assert _word(found.also) == row["also"]


def test_all_rows_are_there():
    assert len(_rows("entry_sectors.csv")) == 21 and len(_rows("entry_arrivals.csv")) == 5


@pytest.mark.parametrize("turn", [1, -1], ids=["right", "left"])
@pytest.mark.parametrize("inbound", [0, 7, 90, 181, 359])
def test_every_whole_degree(inbound, turn):
    """US Navy CNATRA P-821 fig. 3-8, with right turns: outbound course up to 110 degrees left of the nose parallel, up
    to 70 degrees right of it teardrop, otherwise direct; left turns the mirror. A heading exactly on the 70 degree line
    is ours to place (the documents leave it to the 5 degrees of freedom): direct. Dead ahead: teardrop."""
    headings = np.arange(0, 361)
    found = entries.entry(headings, inbound, turn)
    outbound = (inbound + 180) % 360
    for heading, code, also in zip(headings, found.entry, found.also):
        right_of_nose = (outbound - int(heading)) % 360
        nose = turn * (right_of_nose - 360 if right_of_nose > 180 else right_of_nose)
        if -110 < nose < 0:
            expected = "parallel"
        elif 0 <= nose < 70:
            expected = "teardrop"
        else:
            expected = "direct"
        assert _word(code) == expected, (heading, nose)
        # 5 degrees either side of each boundary, FAA AIM 5-3-8 j.8(d): the neighbour may be flown instead.
        near = [pair for edge, pair in ((-110, "parallel direct"), (0, "parallel teardrop"), (70, "teardrop direct"))
                if abs(nose - edge) <= 5]  # fmt: skip
        assert _word(also) == (near[0].replace(expected, "").strip() if near else ""), (heading, nose)


@pytest.mark.parametrize("turn", [1, -1], ids=["right", "left"])
def test_sizes_of_the_sectors(turn):
    """ICAO Doc 8168 Vol I, I-6-1 (from memory) and FAA AIM FIG 5-3-4: 110, 70 and 180 degrees."""
    low, high = entries.sector_headings(50.0, turn)
    sizes = dict(zip(entries.ENTRIES, (high[0] - low[0]) % 360.0))
    assert sizes == pytest.approx({"direct": 180.0, "teardrop": 70.0, "parallel": 110.0})


def test_words_of_the_rules():
    """ICAO Doc 8168 says offset where the AIM says teardrop."""
    assert entries.WORDS["icao"] == ("direct", "offset", "parallel")
    assert entries.WORDS["faa"] == ("direct", "teardrop", "parallel")


@pytest.mark.parametrize("row", _rows("entry_arrivals.csv"), ids=_name)
def test_worked_arrivals(row):
    """Heading by the wind triangle (computed); its sector decides, not that of the course (FAA AIM 5-3-8 j)."""
    number = {k: float(v) for k, v in row.items() if k.endswith(("_deg", "_kt"))}
    found = entries.arrive(
        number["course_deg"], number["inbound_deg"], _side(row), number["tas_kt"], number["wind_from_deg"],
        number["wind_kt"], 1, 60.0,
    )  # fmt: skip
    assert float(found.heading_deg) == pytest.approx(number["heading_deg"], abs=0.005)
    assert _word(found.by_course.entry) == row["by_course"]
    if row["by_course_also"]:
        assert _word(found.by_course.also) == row["by_course_also"]
    assert _word(found.by_heading.entry) == row["by_heading"]
