"""The plan's column clearance: what fills a cell, what contradicts one, and what needs the places of navaids."""

from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import plan
from fixwright.geometry.plan.answers import answer_rows, practice_sources

NAVAIDS = (
    ("OBL", "Ombrell", "VOR/DME", -40.02, 43.03, 640.0, -14.0, ""),
    ("KUD", "Kudresh", "VOR", -40.3, 42.38, 150.0, -16.0, ""),
    ("WYR", "Wyrrimar", "NDB", -39.7, 43.66, 40.0, np.nan, ""),
    ("QEL", "Quellane", "WPT", -40.52, 42.92, np.nan, np.nan, ""),
    ("THK", "Thessock", "VOR", -39.52, 42.5, 410.0, -13.0, "out of service"),
    ("HOX", "Hoxterly", "DME", -40.46, 43.62, 520.0, np.nan, ""),
    ("QLF", "", "VOR/DME", -167.5, 41.4, 1240.0, 11.0, ""),
)
WORDS = "Hold northeast of the 17 DME fix on the OBL 045 radial, 5 mile legs, left turns, maintain 5 000, EFC 1430"
NOW = "2026-09-01T14:00"


def navaid_columns():
    names = ("ident", "name", "kind", "lon", "lat", "elev_ft", "decl_deg", "status")
    text = ("ident", "name", "kind", "status")
    return {name: np.array(column, dtype=object if name in text else float)
            for name, column in zip(names, zip(*NAVAIDS))}  # fmt: skip


def build(*rows, now=NOW):
    """A plan of rows of cells."""
    names = dict.fromkeys(name for row in rows for name in row)
    table = {name: [row.get(name) for row in rows] for name in names}
    return plan.build(
        table, navaid_columns(), None, var_date="2026-09-01", year=2026.66575, tolerance_m=1000.0, now=now
    )


def one(words, **cells):
    """The hold of one row, and its fix; the reason where there is none."""
    built = build({"clearance": words, "alt_ft": 4000, **cells})
    if built.reasons[0]:
        return built.reasons[0]
    columns = {f"fix_{name}": values[0] for name, values in built.fixes.items()}
    return {**columns, **{name: values[0] for name, values in built.holds.items()}}


def test_words_fill_a_row_as_cells_would():
    by_words = build({"clearance": WORDS})
    cells = dict(fix_method="radial_distance", navaid="OBL", radial_deg=45, distance_nm=17, inbound_deg=225,
                 turn="left", leg_nm=5, alt_ft=5000, rules="faa")  # fmt: skip
    by_cells = build(cells)
    assert by_words.reasons[0] == by_cells.reasons[0] == ""
    for name in set(by_cells.holds) - {"assumed"}:
        assert np.array_equal(
            by_words.holds[name], by_cells.holds[name], equal_nan=by_cells.holds[name].dtype.kind == "f"
        )
    assert by_words.spoken.plan["efc_utc"] == ["2026-09-01T14:30"]
    assert by_words.spoken.plan.get("leave_utc") is None


def test_a_row_without_words_is_left_alone():
    built = build({"navaid": "OBL", "inbound_deg": 90, "alt_ft": 4000}, {"clearance": WORDS}, {"clearance": "  "})
    assert list(built.reasons[:2]) == ["", ""] and built.reasons[2] != ""
    assert [reading is None for reading in built.spoken.readings] == [True, False, True]
    assert built.holds["inbound_station_deg"][0] == pytest.approx(90.0)


def test_times_of_a_plan_without_now_have_no_day():
    assert build({"clearance": WORDS}, now="").spoken.plan["efc_utc"] == ["14:30"]


@pytest.mark.parametrize(
    ("cells", "limit"),
    [
        ({"turn": "right"}, "the cell turn is right, but the clearance says left: the cell counts"),
        ({"alt_ft": 6000}, "the cell alt_ft is 6000, but the clearance says 5000: the cell counts"),
        ({"leg_min": 2}, "the cell leg_min is 2, but the clearance says leg_nm 5: the cell counts"),
        ({"leg_nm": "4"}, "the cell leg_nm is 4, but the clearance says 5: the cell counts"),
        ({"efc_utc": "14:45"}, "the cell efc_utc is 14:45, but the clearance says 2026-09-01T14:30: the cell counts"),
    ],
)
def test_a_cell_that_says_otherwise_counts_and_is_told(cells, limit):
    built = build({"clearance": WORDS, **cells})
    assert built.reasons[0] == "" and limit in built.holds["limits"][0]


@pytest.mark.parametrize(
    "cells",
    [{"turn": "LEFT"}, {"alt_ft": "5 000"}, {"efc_utc": "1430Z"}, {"efc_utc": "14:30"}, {"navaid": "obl"},
     {"rules": "icao"}, {"radial_deg": "45,0"}, {"navaid_kind": "VOR/DME"}, {"north": "station"},
     {"fix_method": "Radial distance"}],
    ids=str,
)  # fmt: skip
def test_a_cell_that_agrees_is_not_told(cells):
    built = build({"clearance": WORDS, **cells})
    assert (built.reasons[0], built.holds["limits"][0]) == ("", "")


@pytest.mark.parametrize(
    ("cells", "reason"),
    [
        ({"navaid": "KUD"}, "the cell navaid is KUD, but the clearance says OBL"),
        ({"radial_deg": 50}, "the cell radial_deg is 50, but the clearance says 45"),
        ({"inbound_deg": 45}, "the cell inbound_deg is 45, but the clearance says 225"),
        ({"lat": 43.0, "lon": -40.0}, "the cell lat is 43.0, but the clearance makes the fix without it"),
        ({"north": "true"}, "the cell north is true, but a clearance counts from the station's north, or magnetic"),
        ({"fix_method": "overhead"}, "the cell fix_method is overhead, but the clearance says radial_distance"),
    ],
)
def test_a_cell_that_makes_another_fix_rejects_the_row(cells, reason):
    assert list(build({"clearance": WORDS, **cells}).reasons) == [reason]


def test_nine_miles_northwest_on_present_course():
    """Computed with geographiclib: the point 9 NM past the navaid on the geodesic from a place 18 NM away."""
    earth = Geodesic.WGS84
    there = earth.Direct(41.4, -167.5, 140.0, 18 * 1852.0)
    hold = one("Hold 9 miles northwest of QLF on present course", from_lat=there["lat2"], from_lon=there["lon2"])
    arrives = earth.Inverse(there["lat2"], there["lon2"], 41.4, -167.5)["azi2"]
    fix = earth.Direct(41.4, -167.5, arrives, 9 * 1852.0)
    assert hold["lat"] == pytest.approx(fix["lat2"], abs=1e-8) and hold["lon"] == pytest.approx(fix["lon2"], abs=1e-8)
    assert hold["inbound_true_deg"] == pytest.approx(fix["azi2"] % 360.0, abs=1e-6)
    assert "the fix is beyond QLF on the present course 309" in hold["assumed"]
    southeast = one("Hold 9 miles southeast of QLF on present course", from_lat=there["lat2"], from_lon=there["lon2"])
    fix = earth.Direct(41.4, -167.5, arrives, -9 * 1852.0)
    assert southeast["lat"] == pytest.approx(fix["lat2"], abs=1e-8)
    assert "9.0 NM to go" in southeast["assumed"]


def test_present_course_by_the_arrival_course():
    hold = one("Hold 9 miles before OBL on present course", arrival_deg=320)
    assert hold["inbound_station_deg"] == pytest.approx(320.0, abs=0.1) and hold["fix_method"] == "along_track"
    hold = one("Hold at OBL", arrival_deg=320)
    assert hold["inbound_station_deg"] == pytest.approx(320.0, abs=1e-6)
    assert "the present course to OBL is 320" in hold["assumed"]


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ("Hold 9 miles east of OBL on present course", "a fix east of OBL is not on the present course 3"),
        ("Hold northeast of OBL on present course", "northeast does not agree with the present course 3"),
        ("Hold northeast of the OBL 045 radial 17 DME fix on present course", "the present course leads to a navaid"),
        ("Hold north of KUD 17 DME on the 010 radial", "KUD is a VOR, which gives no DME distance"),
        ("Hold east of ABC on the 090 radial", "no navaid ABC with a usable position"),
        ("Hold east of the OBL NDB on the 090 bearing", "no navaid OBL of that kind or id"),
        ("Hold east of HOX on the 090 radial", "HOX is a DME, which gives no radial or bearing"),
        ("Hold southwest of QEL on the OBL 230 radial", "QEL lies on the 267 radial of OBL, not on the 230"),
    ],
)
def test_what_the_places_do_not_allow(words, reason):
    said = one(words, from_lat=42.9, from_lon=-39.86)
    assert isinstance(said, str) and said.startswith(reason) and "; " not in said


def test_no_position_and_no_arrival_course():
    assert one("Hold 9 miles before OBL on present course").startswith("the present course is not known")
    assert one("Hold at OBL").startswith("the clearance gives no radial, bearing or course, and the present course is")


def test_a_named_point_on_a_radial():
    """Inbound is the radial's line carried to the point: by geographiclib from the navaid's own north."""
    line = Geodesic.WGS84.Inverse(43.03, -40.02, 42.92, -40.52)
    radial = (line["azi1"] + 14.0) % 360.0
    hold = one("Hold west of QEL on the OBL 267 radial, left turns")
    assert (hold["lat"], hold["lon"], hold["navaid"]) == (pytest.approx(42.92), pytest.approx(-40.52), "OBL")
    assert hold["inbound_station_deg"] == pytest.approx(87.0, abs=1e-6)
    assert hold["radial_deg"] == pytest.approx(radial, abs=1e-6)
    hold = one("Hold east of QEL on the OBL 267 radial")
    assert hold["inbound_station_deg"] == pytest.approx(267.0, abs=1e-6)


def test_a_bearing_of_a_named_point():
    hold = one("Hold east of QEL on the 090 bearing from QEL")
    assert hold["inbound_model_deg"] == pytest.approx(270.0, abs=1e-6)
    assert "QEL is a named point: its radial is taken as a magnetic bearing" in hold["assumed"]


def test_a_crossing_held_on_its_second_radial():
    """The navaid of the holding radial comes first, since the hold's course counts from its north."""
    hold = one("Hold south of the intersection of the OBL 200 radial and the KUD 060 radial on the OBL 200 radial")
    assert (hold["navaid"], hold["navaid_2"]) == ("OBL", "KUD")
    hold = one("Hold northeast of the intersection of the OBL 200 radial and the KUD 060 radial on the KUD 060 radial")
    assert (hold["navaid"], hold["navaid_2"]) == ("KUD", "OBL")
    assert hold["inbound_station_deg"] == pytest.approx(240.0, abs=1e-6)


def test_answers_hold_what_the_holds_are():
    built = build({"clearance": WORDS}, {"clearance": "hold west of OBL on the 090 radial"})
    rows = answer_rows(built, np.array(["1", "2"], dtype=object), ["", "direction"])
    assert rows["right"].tolist() == [1, 0] and rows["fault"].tolist() == ["", "direction"]
    assert rows["answer"][0] == "OBL R045 D17.0: inbound 225, left turns, legs of 5 NM, 5 000 ft"
    assert rows["answer"][1].startswith("west does not agree with the 090 radial")
    assert rows["efc"].tolist() == ["2026-09-01T14:30", ""]
    assert np.isnan(rows["inbound_model_deg"][1]) and rows["lat"][0] == built.holds["lat"][0]


def test_navaids_to_practise_on():
    """In service, with radials and a declination, or bearings; the rest would make doubtful clearances."""
    columns = navaid_columns()
    assert [(s.ident, s.bearings, s.dme) for s in practice_sources(columns, set())] == [
        ("KUD", False, False), ("OBL", False, True), ("QLF", False, True), ("WYR", True, False),
    ]  # fmt: skip
    assert [s.ident for s in practice_sources(columns, {"WYR", "THK"})] == ["WYR"]


def test_a_dme_distance_counts_as_one_without_being_assumed():
    """What is said to be DME is a slant range; bare miles are taken for one at a navaid that gives it, with a note."""
    by_dme, by_mile = (one(f"Hold northeast of the 17 {unit} fix on the OBL 045 radial") for unit in ("DME", "mile"))
    assert by_dme["fix_dist_nm"] == by_mile["fix_dist_nm"]
    assert ["the distance is a DME reading" in hold["assumed"] for hold in (by_dme, by_mile)] == [False, True]
    assert one("Hold 9 DME northwest of KUD on the 310 radial") == "KUD is a VOR, which gives no DME distance"
    reason = one("Hold northeast of the 17 DME fix on the OBL 045 radial", distance_kind="ground")
    assert reason == "the cell distance_kind is ground, but the clearance says slant"
