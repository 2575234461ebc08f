"""From the cells of a plan table to fixes, holds and what is drawn from them.

The navaids are invented and lie on open ocean.
"""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import geodesy, holds, plan
from fixwright.geometry.plan.cells import Cells
from fixwright.geometry.plan.directory import Directory

YEAR = 2026.5
NAVAIDS = {
    "ident": ["QLF", "QLF", "OAK", "ZED", "ZED", "ZED", "TAC", "NIL", "", "POL", "LOW"],
    "kind": ["VOR-DME", "NDB", "NDB", "VOR", "VOR/DME", "NDB", "VORTAC", "VOR/DME", "VOR", "VOR", "VOR/DME"],
    "lon": [-167.5, -150.0, -167.0, -160.0, -160.1, -161.0, -165.0, -166.0, 0.0, 0.0, 179.9],
    "lat": [41.4, 30.0, 41.0, 40.0, 45.0, 40.001, 42.0, 43.0, 0.0, 86.0, 10.0],
    "elev_ft": [1240.0, 10.0, np.nan, 20.0, 30.0, 40.0, 50.0, 60.0, 0.0, 0.0, 0.0],
    "decl_deg": [11.0, np.nan, np.nan, 9.0, 8.0, np.nan, 10.0, np.nan, 0.0, 0.0, 2.0],
    "status": ["", "", "Out of Service", None, "", "", "operational", "", "", "", "U/S"],
    "id": ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11"],
}
NAVAID_COLUMNS = {k: np.array(v, dtype=float if k in ("lon", "lat", "elev_ft", "decl_deg") else object)
                  for k, v in NAVAIDS.items()}  # fmt: skip
RADIAL = dict(navaid="QLF", navaid_kind="VOR/DME", radial_deg="150", distance_nm="12", alt_ft="5000")
FULL = dict(
    RADIAL, exercise="full", fix_method="radial_distance", distance_kind="ground", north="station", inbound_deg="330",
    turn="left", leg_min="1", ias_kt="100", area_ias_kt="170", isa_dev_c="5", rules="faa",
)  # fmt: skip


def _table(*rows) -> dict[str, list]:
    names = sorted(set().union(*rows))
    return {name: [row.get(name) for row in rows] for name in names}


def _build(*rows, **more) -> plan.Built:
    """Drawn coarsely: most tests look at figures and words."""
    columns = more.pop("navaids", NAVAID_COLUMNS)
    more.setdefault("tolerance_m", 50.0)
    return plan.build(_table(*rows), columns, var_date="2026-07-02", year=YEAR, **more)


def _good(row, **more) -> tuple[dict, dict]:
    """Fix and hold of the one row, which must be good."""
    built = _build(row, **more)
    assert built.reasons.tolist() == [""]
    return {k: v[0] for k, v in built.fixes.items()}, {k: v[0] for k, v in built.holds.items()}


def _reason(row, **more) -> str:
    built = _build(row, **more)
    assert len(built.rows) == 0 and built.reasons[0]
    return built.reasons[0]


PARTS = ("basic", "entry", *(f"buffer_{k}" for k in range(1, 6)))


# --- counting rows


def test_every_row_gives_a_hold_or_a_reason():
    bad = [dict(RADIAL, turn="X"), dict(navaid="none"), dict(RADIAL, alt_ft=""), dict(RADIAL, leg_min="99")]
    rows = [RADIAL, bad[0], FULL, *bad[1:]]
    built = _build(*rows)
    assert len(built.reasons) == len(rows)
    assert built.rows.tolist() == np.flatnonzero(built.reasons == "").tolist() == [0, 2]
    n = len(built.rows)
    for columns in (built.fixes, built.holds):
        assert {len(v) for v in columns.values()} == {n}
    for layer, per in ((built.patterns, 1), (built.tracks, 4)):
        assert {len(v) for v in layer.columns.values()} == {n * per}
        assert len(layer.offsets) == n * per + 1 and layer.offsets[-1] == len(layer.coords)
    assert built.patterns.columns["hold"].tolist() == built.holds["hold"].tolist()
    assert built.areas.columns["hold"].tolist() == np.repeat(built.holds["hold"], len(PARTS)).tolist()
    assert {len(v) for v in built.areas.columns.values()} == {n * len(PARTS)} == {len(built.areas.parts) - 1}
    assert built.tracks.columns["hold"].tolist() == np.repeat(built.holds["hold"], 4).tolist()
    assert built.tracks.columns["leg"].tolist() == list(holds.LEGS) * n
    assert built.fixes["fix"].tolist() == built.holds["fix"].tolist()


def test_one_bad_row_changes_nothing_for_the_others():
    alone = _build(RADIAL, FULL)
    with_bad = _build(RADIAL, dict(RADIAL, ias_kt="450", alt_ft="50000"), dict(FULL, leg_nm="3"), FULL)
    assert with_bad.rows.tolist() == [0, 3]
    for one, other in ((alone.fixes, with_bad.fixes), (alone.holds, with_bad.holds)):
        for name, values in one.items():
            assert np.array_equal(values, other[name], equal_nan=values.dtype.kind == "f"), name
    for layer in ("patterns", "tracks", "areas"):
        assert getattr(alone, layer).coords.tobytes() == getattr(with_bad, layer).coords.tobytes()


@pytest.mark.parametrize("table", [{}, {"exercise": []}, {"navaid": [], "alt_ft": []}])
def test_an_empty_plan(table):
    built = plan.build(table, NAVAID_COLUMNS, var_date="", year=YEAR)
    assert len(built.reasons) == len(built.rows) == 0
    assert built.patterns.coords.shape == (0, 2) and built.patterns.offsets.tolist() == [0]
    assert built.tracks.offsets.tolist() == [0] and built.areas.rings.tolist() == [0]
    assert len(built.fixes["fix"]) == len(built.holds["hold"]) == 0


def test_a_plan_of_bad_rows_only():
    built = _build(dict(navaid="none"), dict(RADIAL, turn="X"))
    assert len(built.rows) == 0 and (built.reasons != "").all()
    assert built.areas.coords.shape == (0, 2)


def test_no_navaids():
    nothing = {k: v[:0] for k, v in NAVAID_COLUMNS.items()}
    assert _reason(RADIAL, navaids=nothing) == "no navaid QLF with a usable position"
    place = dict(lat="41", lon="-167", inbound_deg="90", north="true", alt_ft="3000")
    fix, _ = _good(place, navaids=nothing)
    assert fix["navaid"] == "" and np.isnan(fix["navaid_lat"])


def test_columns_of_unequal_length_are_refused():
    with pytest.raises(ValueError, match="radial_deg"):
        plan.build({"navaid": ["QLF", "QLF"], "radial_deg": [150]}, NAVAID_COLUMNS, var_date="", year=YEAR)


def test_unknown_columns_are_no_harm_and_names_have_no_case():
    fix, _ = _good({**RADIAL, "Colour": "blue", "remarks": "x"})
    upper, _ = _good({k.upper() if k != "navaid" else " Navaid ": v for k, v in RADIAL.items()})
    assert fix["lon"] == upper["lon"]


@pytest.mark.parametrize("tolerance", [0.0, -1.0, np.nan])
def test_a_tolerance_that_makes_no_sense_is_refused(tolerance):
    with pytest.raises(ValueError, match="tolerance"):
        _build(RADIAL, tolerance_m=tolerance)


def test_a_year_outside_the_model_is_refused():
    with pytest.raises(ValueError, match="2025"):
        plan.build(_table(RADIAL), NAVAID_COLUMNS, var_date="", year=2024.0)


# --- cells as people write them


@pytest.mark.parametrize(
    "cells",
    [
        dict(radial_deg=150, distance_nm=12.0, alt_ft=5000),
        dict(radial_deg="150.0", distance_nm="12,0", alt_ft="5 000"),
        dict(radial_deg=" 150 ", distance_nm="12.", alt_ft=5000.0),
        dict(radial_deg=np.int64(150), distance_nm=np.float32(12.0), alt_ft=np.int32(5000)),
    ],
)
def test_a_number_is_a_number_however_written(cells):
    fix, hold = _good({**RADIAL, **cells})
    expected, _ = _good(RADIAL)
    assert (fix["lon"], fix["lat"]) == (expected["lon"], expected["lat"])
    assert hold["alt_ft"] == 5000.0


def test_columns_may_be_arrays():
    table = {k: np.array([v, v]) for k, v in RADIAL.items()}
    table["radial_deg"] = np.array([150, 151])
    built = plan.build(table, NAVAID_COLUMNS, var_date="", year=YEAR)
    assert built.reasons.tolist() == ["", ""]


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("alt_ft", "high", "alt_ft: 'high' is not a number"),
        ("radial_deg", "NW", "radial_deg: 'NW' is not a number"),
        ("alt_ft", "5,000", "alt_ft: '5,000' is not a number"),
        ("ias_kt", "inf", "ias_kt: 'inf' is not a number"),
        ("leg_min", True, "leg_min: 'True' is not a number"),
        ("turn", "X", "turn: 'X' is not one of right, left"),
        ("rules", "jaa", "rules: 'jaa' is not one of icao, faa"),
        ("north", "grid", "north: 'grid' is not one of station, model, true"),
        ("leg_end", "dist", "leg_end: 'dist' is not one of dme, along_track, inbound_length"),
        ("distance_kind", "nm", "distance_kind: 'nm' is not one of ground, slant"),
        ("fix_method", "guess", "fix_method: 'guess' is not one of radial_distance"),
        ("along_side", "past", "along_side: 'past' is not one of before, beyond"),
        ("navaid_kind", "ILS", "navaid_kind 'ILS' is not one of VOR"),
        ("lat", "95 N", "lat: '95 N' is not a latitude"),
        ("lon", "abc", "lon: 'abc' is not a longitude"),
    ],
)
def test_a_cell_that_cannot_be_read_is_named(name, value, words):
    assert words in _reason({**RADIAL, name: value})


def test_all_that_is_wrong_with_a_row_is_told_at_once():
    text = _reason({**RADIAL, "radial_deg": "NW", "north": "grid"})
    assert "radial_deg" in text and "north" in text


def test_a_long_cell_is_cut():
    assert len(_reason({**RADIAL, "turn": "x" * 5000})) < 120


@pytest.mark.parametrize("empty", [None, "", "  ", float("nan")])
def test_empty_cells_are_empty(empty):
    fix, hold = _good({**RADIAL, "turn": empty, "ias_kt": empty, "lat": empty, "exercise": empty, "north": empty})
    assert hold["turn"] == "right" and "right turns" in hold["assumed"]


@pytest.mark.parametrize("words", [dict(turn="LEFT", rules="FAA"), dict(turn=" left ", rules="Faa")])
def test_words_have_no_case(words):
    _, hold = _good({**RADIAL, **words})
    assert (hold["turn"], hold["rules"]) == ("left", "faa")


def test_words_of_two_parts():
    _, hold = _good({**RADIAL, "leg_nm": "5", "leg_end": "Along Track", "fix_method": "Radial Distance"})
    assert (hold["leg_end"], hold["leg_kind"], hold["leg_nm"]) == ("along_track", "distance", 5.0)


@pytest.mark.parametrize(
    ("lat", "lon"),
    [("41.5", "-167.25"), (41.5, -167.25), ("41 30 00 N", "167 15 00 W"), ("N41°30.0'", "W167°15.0'"),
     ("41,5", "-167,25"), ("4130N", "16715W"), ("413000N", "1671500W")],
)  # fmt: skip
def test_places_in_any_notation(lat, lon):
    fix, _ = _good(dict(lat=lat, lon=lon, alt_ft=3000, inbound_deg=90, north="true"))
    assert fix["lat"] == pytest.approx(41.5, abs=1e-12) and fix["lon"] == pytest.approx(-167.25, abs=1e-12)
    assert fix["method"] == "coordinates"


@pytest.mark.parametrize("tiny", [1e-5, -1e-7, 0.0, 1e-13])
def test_places_near_the_equator_and_the_meridian(tiny):
    fix, _ = _good(dict(lat=tiny, lon=tiny, alt_ft=3000, inbound_deg=90, north="true"))
    assert fix["lat"] == pytest.approx(tiny, abs=1e-11) and fix["lon"] == pytest.approx(tiny, abs=1e-11)


@pytest.mark.parametrize(("given", "missing"), [("lat", "lon"), ("lon", "lat"), ("from_lat", "from_lon")])
def test_half_a_position_is_no_position(given, missing):
    text = _reason({**RADIAL, given: "41"})
    assert given in text and missing in text


# --- ways to define a fix


def test_method_that_is_named_or_implied():
    for row, method in (
        (RADIAL, "radial_distance"),
        (dict(navaid="TAC", along_nm=5, course_deg=30, alt_ft=3000), "along_track"),
        (dict(lat=41, lon=-167, inbound_deg=90, alt_ft=3000), "coordinates"),
        (dict(navaid="TAC", arrival_deg=30, alt_ft=3000), "overhead"),
    ):
        fix, hold = _good(row)
        assert fix["method"] == hold["method"] == method
        assert f"fix method {method.replace('_', ' ')}" in fix["assumed"]
        named, _ = _good({**row, "fix_method": method})
        assert "fix method" not in named["assumed"]
        assert (named["lon"], named["lat"]) == (fix["lon"], fix["lat"])
        # It stands in the fix and in the hold made from it.
        assert f"fix method {method.replace('_', ' ')}" in hold["assumed"]


def test_a_row_that_says_nothing():
    assert "nothing says how the fix is defined" in _reason(dict(exercise="x"))


@pytest.mark.parametrize("method", ["along_track", "coordinates", "route"])
def test_a_method_without_its_values(method):
    assert _reason({**RADIAL, "fix_method": method})


def test_along_track_both_sides_and_the_present_course():
    row = dict(navaid="TAC", along_nm=5, alt_ft=3000, north="true", course_deg=60)
    before, _ = _good(row)
    assert "before the navaid" in before["assumed"]
    beyond, _ = _good({**row, "along_side": "beyond"})
    _, _, apart = geodesy.inverse(before["lon"], before["lat"], beyond["lon"], beyond["lat"])
    assert float(apart) == pytest.approx(10.0, abs=1e-6)
    present, hold = _good(dict(navaid="TAC", along_nm=5, alt_ft=3000, from_lat="41.5", from_lon="-166"))
    assert "present course" in present["assumed"] and "NM to go to the fix" in present["assumed"]
    course, _, _ = geodesy.inverse(-166.0, 41.5, present["lon"], present["lat"])
    assert hold["inbound_true_deg"] == pytest.approx(present["course_true_deg"], abs=1e-9)
    assert abs(hold["inbound_true_deg"] - float(course)) < 1.0


def test_present_course_from_another_navaid():
    fix, _ = _good(dict(navaid="TAC", along_nm=5, alt_ft=3000, from_ident="QLF", from_kind="VOR/DME"))
    by_place, _ = _good(dict(navaid="TAC", along_nm=5, alt_ft=3000, from_lat=41.4, from_lon=-167.5))
    assert (fix["lon"], fix["lat"]) == (by_place["lon"], by_place["lat"])
    assert "from_ident: no navaid" in _reason(dict(navaid="TAC", along_nm=5, alt_ft=3000, from_ident="none"))


def test_a_fix_already_passed_is_told():
    fix, hold = _good(dict(navaid="TAC", along_nm=60, alt_ft=3000, from_lat=42.1, from_lon=-165.0))
    assert "already passed" in fix["limits"] and "already passed" in hold["limits"]


def test_an_overhead_fix_needs_an_arrival_course():
    assert "no course" in _reason(dict(navaid="TAC", alt_ft=3000))
    _, hold = _good(dict(navaid="TAC", alt_ft=3000, arrival_deg=30))
    assert hold["inbound_true_deg"] == pytest.approx(40.0)
    _, hold = _good(dict(navaid="TAC", alt_ft=3000, inbound_deg=30))
    assert hold["inbound_true_deg"] == pytest.approx(40.0)


# --- which navaid


def test_an_ident_that_fits_several():
    row = dict(navaid="ZED", radial_deg=90, distance_nm=10, alt_ft=3000)
    text = _reason(row)
    assert "3 navaids have the ident ZED" in text and "NDB, VOR, VOR/DME" in text and "navaid_kind" in text
    for kind, lat in (("VOR", 40.0), ("VOR/DME", 45.0), ("vor-dme", 45.0), ("ndb", 40.001), ("NDB", 40.001)):
        fix, _ = _good({**row, "navaid_kind": kind})
        assert fix["navaid_lat"] == lat
    for key, lat in (("4", 40.0), ("5", 45.0), (6, 40.001)):
        fix, _ = _good({**row, "navaid_id": key})
        assert fix["navaid_lat"] == lat
    assert "of that kind or id" in _reason({**row, "navaid_id": "99"})
    assert "of that kind or id" in _reason({**row, "navaid_id": "4", "navaid_kind": "NDB"})


def test_a_kind_finds_its_family():
    """A VOR is found in a VOR/DME, a DME in it too, and a VORTAC is a VOR with a TACAN."""
    row = dict(radial_deg=90, distance_nm=10, alt_ft=3000)
    for ident, kind, lat in (
        ("QLF", "VOR", 41.4), ("QLF", "DME", 41.4), ("QLF", "NDB", 30.0), ("TAC", "VORTAC", 42.0), ("TAC", "VOR", 42.0),
        ("TAC", "TACAN", 42.0), ("TAC", "DME", 42.0),
    ):  # fmt: skip
        fix, _ = _good({**row, "navaid": ident, "navaid_kind": kind})
        assert fix["navaid_lat"] == lat, (ident, kind)
    # An exact kind goes before a family.
    fix, _ = _good({**row, "navaid": "ZED", "navaid_kind": "VOR"})
    assert fix["navaid_kind"] == "VOR"


def test_nearness_to_a_given_position():
    for lat, lon, found in ((45.1, -160.0, 45.0), (40.2, -159.0, 40.0), (40.2, -162.0, 40.001)):
        fix, _ = _good(dict(navaid="ZED", along_nm=2, alt_ft=3000, from_lat=lat, from_lon=lon))
        assert fix["navaid_lat"] == found


def test_two_aids_on_one_site_stay_ambiguous():
    navaids = {
        "ident": np.array(["TWO", "TWO"], object), "kind": np.array(["VOR", "NDB"], object),
        "lon": np.array([0.0, 0.001]), "lat": np.array([0.0, 0.001]), "decl_deg": np.array([1.0, np.nan]),
    }  # fmt: skip
    row = dict(navaid="TWO", along_nm=2, alt_ft=3000, from_lat=1, from_lon=1)
    assert "2 navaids have the ident TWO" in _reason(row, navaids=navaids)
    fix, _ = _good({**row, "navaid_kind": "VOR"}, navaids=navaids)
    assert fix["navaid_kind"] == "VOR"


def test_idents_have_no_case_and_a_bad_position_is_not_found():
    fix, _ = _good({**RADIAL, "navaid": "qlf"})
    assert fix["navaid"] == "QLF"
    assert "no navaid POL with a usable position" in _reason({**RADIAL, "navaid": "POL", "navaid_kind": None})
    directory = Directory(NAVAID_COLUMNS)
    assert directory.find("") == (-1, "no navaid  with a usable position")


def test_only_idents_and_places_are_needed():
    navaids = {k: NAVAID_COLUMNS[k][:1] for k in ("ident", "lon", "lat")}
    row = {**RADIAL, "navaid_kind": None}
    assert "declination is missing" in _reason(row, navaids=navaids)
    fix, _ = _good({**row, "north": "model"}, navaids=navaids)
    assert fix["navaid_kind"] == "" and np.isnan(fix["navaid_elev_ft"])


def test_out_of_service_is_a_limit():
    for ident in ("OAK", "LOW"):
        fix, hold = _good(dict(navaid=ident, radial_deg=100, distance_nm=10, alt_ft=3000))
        assert f"{ident} is out of service" in fix["limits"] and f"{ident} is out of service" in hold["limits"]
    fix, _ = _good(dict(navaid="TAC", radial_deg=100, distance_nm=10, alt_ft=3000))
    assert fix["limits"] == ""


# --- what is assumed, in words


ASSUMED = [
    # what is left out of a full row, what stands in `assumed`
    ("fix_method", "fix method radial distance"),
    ("north", "angles from the station's own north"),
    ("distance_kind", "the distance is a DME reading"),
    ("inbound_deg", "inbound along the course of the fix"),
    ("turn", "right turns"),
    ("leg_min", "1 min inbound"),
    ("ias_kt", "90 kt, the least for holding by FAA AIM 5-3-8 j.2"),
    ("area_ias_kt", "the area for 200 kt, the most that may hold here"),
    ("isa_dev_c", "ISA temperature"),
    ("rules", "rules of ICAO Doc 8168"),
]


def test_nothing_is_assumed_of_a_full_row():
    fix, hold = _good(FULL)
    assert fix["assumed"] == hold["assumed"] == ""
    assert (hold["hold"], hold["turn"], hold["rules"], hold["leg_kind"]) == ("full", "left", "faa", "time")
    assert (hold["ias_kt"], hold["area_ias_kt"], hold["isa_dev_c"]) == (100.0, 170.0, 5.0)


@pytest.mark.parametrize(("name", "words"), ASSUMED)
def test_each_assumption_is_noted_alone(name, words):
    _, hold = _good({k: v for k, v in FULL.items() if k != name})
    assert hold["assumed"] == words


def test_the_standard_leg_by_rules_and_altitude():
    for rules, alt, words in (
        ("icao", 5000, "1 min outbound"), ("icao", 15000, "1.5 min outbound"), ("faa", 14000, "1 min inbound"),
        ("faa", 14001, "1.5 min inbound"),
    ):  # fmt: skip
        _, hold = _good({**RADIAL, "rules": rules, "alt_ft": alt})
        assert words in hold["assumed"] and hold["leg_min"] == float(words.split()[0])


def test_what_ends_a_distance_leg():
    _, by_dme = _good({**FULL, "leg_min": None, "leg_nm": 5})
    assert by_dme["leg_end"] == "dme" and by_dme["assumed"] == "the leg ends at a DME reading"
    place = dict(lat=41, lon=-167, inbound_deg=90, north="true", alt_ft=3000, leg_nm=5)
    _, along = _good(place)
    assert along["leg_end"] == "along_track" and "the leg ends by distance along the track" in along["assumed"]
    _, timed = _good(FULL)
    assert timed["leg_end"] == ""


def test_ground_where_no_dme_can_read():
    for row in (dict(RADIAL, navaid="OAK", navaid_kind=None), dict(RADIAL, navaid="ZED", navaid_kind="VOR")):
        fix, _ = _good(row)
        assert "the distance is along the ground" in fix["assumed"]
        assert fix["dist_nm"] == pytest.approx(12.0)


def test_north_by_the_kind_of_navaid():
    fix, _ = _good(dict(RADIAL, navaid="OAK", navaid_kind=None))
    assert "angles from the aircraft's magnetic north" in fix["assumed"]


def test_a_course_whose_north_is_assumed_is_told():
    """Inbound and arrival courses too: nobody may fly a number whose north was guessed in silence."""
    _, hold = _good(dict(lat=41, lon=-167, inbound_deg=90, alt_ft=3000))
    assert "magnetic north" in hold["assumed"]
    _, hold = _good(dict(navaid="TAC", arrival_deg=30, alt_ft=3000))
    assert "station's own north" in hold["assumed"]
    _, hold = _good(dict(navaid="OAK", inbound_deg=30, alt_ft=3000))
    assert "magnetic north" in hold["assumed"] and "station" not in hold["assumed"]


def test_station_north_without_a_declination_is_refused():
    row = dict(navaid="NIL", inbound_deg=30, alt_ft=3000)
    assert "declination is missing" in _reason(row)
    assert "declination is missing" in _reason({**row, "north": "station"})
    _, hold = _good({**row, "north": "model"})
    assert hold["inbound_model_deg"] == pytest.approx(30.0)


def test_a_leg_in_minutes_and_in_miles_is_refused():
    assert "both in minutes and in NM" in _reason({**RADIAL, "leg_min": 1, "leg_nm": 5})


def test_speeds_of_the_aircraft_table():
    table = {"Aircraft": ["Trainer", "fast"], "ias_kt": ["95", 140], "area_ias_kt": [None, "170"]}
    _, hold = _good({**RADIAL, "aircraft": "trainer"}, aircraft=table)
    assert hold["ias_kt"] == 95.0 and "speed 95 kt of the trainer" in hold["assumed"] and hold["area_ias_kt"] == 230.0
    _, hold = _good({**RADIAL, "aircraft": "FAST"}, aircraft=table)
    assert (hold["ias_kt"], hold["area_ias_kt"]) == (140.0, 170.0) and "area speed 170 kt" in hold["assumed"]
    _, hold = _good({**RADIAL, "aircraft": "fast", "ias_kt": 120}, aircraft=table)
    assert hold["ias_kt"] == 120.0 and "speed 140" not in hold["assumed"]
    _, hold = _good({**RADIAL, "aircraft": "other"}, aircraft=table)
    assert "the aircraft table has no other" in hold["assumed"] and hold["ias_kt"] == 90.0


def test_a_slow_trainer_never_shrinks_the_area():
    slow, fast = _build({**RADIAL, "ias_kt": 80}), _build({**RADIAL, "ias_kt": 200})
    assert slow.areas.coords.tobytes() == fast.areas.coords.tobytes()
    assert slow.patterns.columns["ias_kt"][0] == 80.0


# --- keys


def test_names_of_fixes():
    for cells, name in (
        (dict(), "QLF R150 D12.0"),
        (dict(distance_kind="ground"), "QLF R150 12.0 NM"),
        (dict(radial_deg="5.25"), "QLF R005.25 D12.0"),
        (dict(radial_deg="45,25"), "QLF R045.25 D12.0"),
        (dict(radial_deg=210.7), "QLF R210.7 D12.0"),
        (dict(radial_deg="0"), "QLF R000 D12.0"),
        (dict(radial_deg=0.001), "QLF R000 D12.0"),
        (dict(radial_deg=359.999), "QLF R360 D12.0"),
        (dict(navaid="OAK", navaid_kind=None), "OAK B150 12.0 NM"),
        (dict(navaid="TAC", navaid_kind=None, radial_deg=None, distance_nm=None, arrival_deg=30), "TAC overhead"),
        (dict(navaid="TAC", navaid_kind=None, radial_deg=None, along_nm=5, course_deg=7), "TAC 5.0 before 007"),
        (dict(navaid=None, navaid_kind=None, lat=41, lon=-167, inbound_deg=9), "41°00.000'N 167°00.000'W"),
    ):
        fix, hold = _good({**RADIAL, **cells})
        assert fix["fix"] == hold["hold"] == name


def test_repeated_names_get_a_number_and_a_note():
    built = _build(RADIAL, RADIAL, *[{**RADIAL, "exercise": name} for name in ("One", "one", "One")])
    assert built.fixes["fix"].tolist() == ["QLF R150 D12.0"] + [f"QLF R150 D12.0 ({k})" for k in (2, 3, 4, 5)]
    assert built.holds["hold"].tolist() == ["QLF R150 D12.0", "QLF R150 D12.0 (2)", "One", "one (2)", "One (3)"]
    assert "the name One is taken, so this one is One (3)" in built.holds["assumed"][4]
    assert "taken" not in built.holds["assumed"][0]
    assert built.patterns.columns["hold"].tolist() == built.holds["hold"].tolist()
    assert built.holds["fix"].tolist() == built.fixes["fix"].tolist()


def test_rejected_rows_take_no_names():
    built = _build(*[{**RADIAL, "exercise": "E", **bad} for bad in (
        dict(turn="X"), dict(alt_ft=None), dict(leg_min="99"), dict(rules="?"), dict())])  # fmt: skip
    assert built.rows.tolist() == [4]
    assert built.fixes["fix"].tolist() == ["QLF R150 D12.0"] and built.holds["hold"].tolist() == ["E"]
    assert "taken" not in built.holds["assumed"][0]


def test_keys_over_batches():
    keys = plan.Keys()
    first, notes = keys.make(["A", "", "a", "A (2)"])
    assert first.tolist() == ["A", "", "a (2)", "A (2) (2)"] and notes[0] == "" and "taken" in notes[2]
    again, _ = keys.make(["A", "B"])
    assert again.tolist() == ["A (3)", "B"]
    assert len({k.lower() for k in [*first, *again] if k}) == 5


# --- holds, tracks, areas


def test_a_holds_layer_read_again_gives_the_same_holds():
    """Everything after the holds layer recomputes from its essentials, whatever stands in the derived fields."""
    built = _build(
        RADIAL, FULL, {**FULL, "exercise": "dme", "leg_min": None, "leg_nm": 5},
        {**RADIAL, "alt_to_ft": 9000, "exercise": "block"},
        dict(navaid="LOW", arrival_deg=30, alt_ft=15000, exercise="over"),
    )  # fmt: skip
    assert len(built.rows) == 5
    columns = {k: v.copy() for k, v in built.holds.items()}
    for derived in ("tas_kt", "radius_nm", "circuit_s", "inbound_model_deg"):
        columns[derived][:] = -1.0
    again = plan.holds_from_columns(columns, YEAR)
    assert again.reasons.tolist() == [""] * 5 and again.good.all()
    assert again.columns["hold"].tolist() == built.holds["hold"].tolist()
    for name, values in built.holds.items():
        if name in ("assumed", "limits", "var_date"):
            continue
        got = again.columns[name]
        if values.dtype.kind == "f":
            np.testing.assert_allclose(got, values, rtol=1e-9, atol=1e-9, err_msg=name)
        else:
            assert got.tolist() == values.tolist(), name
    assert again.columns["assumed"].tolist() == [""] * 5
    areas = plan.area_rows(again, tolerance_m=50.0)
    np.testing.assert_allclose(areas.coords, built.areas.coords, rtol=0.0, atol=1e-9)


def test_design_holds_on_any_points():
    """Points without a station: one call, a row that fails keeps its reason and no key."""
    fix = {"lon": np.array([10.0, np.nan, 30.0]), "lat": np.array([50.0, 50.0, -60.0])}
    empty = np.full(3, np.nan)
    rows = plan.design_holds(
        fix, np.array(["a", "b", "a"], object), plan.Keys(), inbound_deg=np.array([90.0, 90.0, 360.0]),
        north=np.full(3, 2), turn=np.full(3, -1), leg_min=empty, leg_nm=empty, leg_end=np.full(3, -1), ias_kt=empty,
        area_ias_kt=empty, alt_ft=np.full(3, 3000.0), alt_to_ft=empty, isa_dev_c=empty, rules=np.full(3, -1),
        var_date="2026-07-02", year=YEAR,
    )  # fmt: skip
    assert rows.columns["hold"].tolist() == ["a", "", "a (2)"]
    assert rows.good.tolist() == [True, False, True] and "position" in rows.reasons[1]
    pattern = plan.pattern_rows(rows)
    assert pattern.columns["hold"].tolist() == ["a", "a (2)"] and len(pattern.offsets) == 3


def test_tracks():
    built = _build(FULL)
    t = {k: v.tolist() for k, v in built.tracks.columns.items()}
    hold = {k: v[0] for k, v in built.holds.items()}
    assert t["leg"] == ["turn_out", "outbound", "turn_in", "inbound"]
    assert sum(t["time_s"]) == pytest.approx(hold["circuit_s"])
    assert sum(t["length_nm"]) == pytest.approx(hold["circuit_s"] * hold["tas_kt"] / 3600.0)
    assert t["course_true_deg"][3] == pytest.approx(hold["inbound_true_deg"])
    assert t["course_true_deg"][1] == pytest.approx((hold["inbound_true_deg"] + 180.0) % 360.0)
    assert t["course_model_deg"][1] == pytest.approx(hold["outbound_model_deg"])
    assert np.isnan(t["course_true_deg"][0]) and np.isnan(t["course_model_deg"][2])
    assert t["time_s"][3] == pytest.approx(60.0)


def test_areas():
    by_distance, block = {**RADIAL, "leg_nm": 5, "leg_end": "along_track"}, {**RADIAL, "alt_to_ft": 16000}
    built = _build({**RADIAL, "rules": "faa"}, by_distance, block)
    areas = {k: v.tolist() for k, v in built.areas.columns.items()}
    n = len(PARTS)
    assert areas["construction"] == ["template"] * 3 * n and areas["part"] == list(PARTS) * 3
    assert "not the area of FAA Order 8260.3" in areas["limits"][0]
    assert "distance leg" in areas["limits"][n]
    assert areas["alt_ft"][::n] == [5000.0, 5000.0, 16000.0]
    assert built.holds["area_ias_kt"].tolist() == [200.0, 230.0, 240.0]
    # At the top of the block an outbound leg of 1.5 minutes is standard, and 240 kt are allowed.
    alone = _build({**RADIAL, "alt_ft": 16000})
    assert areas["area_nm2"][2 * n] == pytest.approx(float(alone.areas.columns["area_nm2"][0]), rel=0.001)
    for k in range(3):
        first = built.areas.polygons[built.areas.parts[k * n]]
        ring = built.areas.coords[built.areas.rings[first] : built.areas.rings[first + 1]]
        assert geodesy.ring_area_nm2(*ring.T) == pytest.approx(areas["area_nm2"][k * n])


def test_an_area_over_a_fix_tolerance():
    built = _build(RADIAL, {**RADIAL, "exercise": "two"})
    rows = plan.holds_from_columns(built.holds, YEAR)
    lon, lat = rows.holds.lon[0], rows.holds.lat[0]
    square = np.array([lon, lat]) + 0.02 * np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)])
    with_area = plan.area_rows(rows, [square, None])
    plain = plan.area_rows(rows)
    sizes = [areas.columns["area_nm2"][:: len(PARTS)] for areas in (with_area, plain)]
    assert sizes[0][0] > sizes[1][0] * 1.05
    assert sizes[0][1] == sizes[1][1]


def test_areas_over_the_fix_tolerance_of_the_plan():
    """The tolerance area of each hold by its own rules; a hold without one lies over a point and says so."""
    far = {**RADIAL, "exercise": "three", "distance_nm": 120.0}
    rows = (RADIAL, {**RADIAL, "exercise": "two", "rules": "faa"}, far)
    plain, over = _build(*rows), _build(*rows, fix_basis="aids")
    assert len(plain.tolerances.offsets) == 1 and len(over.tolerances.offsets) == 4
    assert over.tolerances.columns["rules"].tolist() == ["icao", "faa", "icao"]
    assert set(over.tolerances.columns) == set(plain.tolerances.columns)
    again = plan.holds_from_columns(over.holds, YEAR)
    rings = np.split(over.tolerances.coords, over.tolerances.offsets[1:-1])
    same = plan.area_rows(again, rings, 50.0)
    np.testing.assert_allclose(over.areas.columns["area_nm2"], same.columns["area_nm2"], rtol=1e-9)
    sizes = over.areas.columns["area_nm2"][:: len(PARTS)] / plain.areas.columns["area_nm2"][:: len(PARTS)]
    assert sizes[1] > sizes[0] > 1.0 and sizes[2] > sizes[0]
    assert all("as a point" in text for text in plain.areas.columns["limits"])
    assert not any("as a point" in text for text in over.areas.columns["limits"])
    with pytest.raises(ValueError, match="fix_basis is 'lidar'; it must be one of point, aids, gnss"):
        _build(RADIAL, fix_basis="lidar")


def test_across_the_antimeridian():
    built = _build(dict(navaid="LOW", radial_deg=80, distance_nm=15, distance_kind="ground", alt_ft=5000))
    assert built.reasons.tolist() == [""]
    assert -180.0 < built.fixes["lon"][0] <= 180.0
    for layer in (built.patterns, built.areas):
        assert np.ptp(layer.coords[:, 0]) < 1.0


def test_the_same_plan_gives_the_same_bytes():
    one, other = _build(RADIAL, FULL), _build(RADIAL, FULL)
    for layer in ("patterns", "tracks", "areas"):
        assert getattr(one, layer).coords.tobytes() == getattr(other, layer).coords.tobytes()


def test_cells_count_once():
    """A column read twice is complained of once."""
    cells = Cells({"a": ["x"], "b": ["y"]}, 1)
    cells.number("a")
    cells.number("a")
    cells.word("b", ("u", "v"))
    cells.word("b", ("u", "v"))
    assert cells.reasons[0].count("a: 'x'") == 1 and cells.reasons[0].count("b: 'y'") == 1
    assert np.isnan(cells.number("missing")).all() and cells.text("missing").tolist() == [""]
