"""The set-up card: ways by equipment, both radial numbers, what setting costs, what is left out."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from fixwright.geometry import geodesy, setup_card
from fixwright.geometry.setup_card import Facts

NAN = math.nan
LON, LAT = (float(v) for v in geodesy.direct(10.0, 50.0, 62.37, 15.03)[:2])
VOR_DME = Facts(
    ident="QZA", gives_radial=True, gives_bearing=True, on_track=False, side="before", radial_station_deg=62.37,
    radial_model_deg=59.37, ground_nm=15.03, slant_nm=15.05, second="", lon=LON, lat=LAT, station_lon=10.0,
    station_lat=50.0,
    decl_deg=0.0, inbound_model_deg=239.6, inbound_selector_deg=242.4, outbound_model_deg=59.6, turn="right",
    leg="1:00 inbound", heading_out_deg=70.0, heading_in_deg=235.0, leg_end="0:55 on the stopwatch",
    outbound_end_dme_nm=17.1, arrival_model_deg=200.0, entry="offset",
)  # fmt: skip


def only(parts, way):
    (found,) = [part for part in parts if part.way == way]
    return found


@pytest.mark.parametrize(
    ("words", "points", "ways"),
    [
        ("", setup_card.POINTS, setup_card.WAYS),
        ("needles and stopwatch", ("not_at_all",), ("needles",)),
        ("Radial and distance; a holding function", ("radial_distance",), ("function",)),
        ("latitude and longitude", ("position",), setup_card.WAYS),
        ("a course with sequencing suspended", setup_card.POINTS, ("suspended",)),
        ("distance along the track, latitude and longitude; holding function, needles",
         ("along_track", "position"), ("function", "needles")),
    ],
)  # fmt: skip
def test_equipment(words, points, ways):
    assert setup_card.equipment(words) == (points, ways)


def test_a_radial_is_given_by_both_norths():
    part = only(setup_card.point_parts(VOR_DME), "radial_distance")
    assert "Radial 062.4 where" in part.set and "059.4 where it uses its own model" in part.set
    assert "15.0 NM along the ground" in part.set
    assert "Course 240, the distance to go counting down; over the point QZA radial 062.4, DME 15.1." == part.see
    same = only(setup_card.point_parts(replace(VOR_DME, radial_model_deg=62.38)), "radial_distance")
    assert "062.4 where the equipment uses the station's declination, and the same where" in same.set
    assert "other number" not in same.trap


def test_what_the_steps_cost():
    """187.973 m by whole degrees, 57.436 m by tenths: computed with geographiclib."""
    part = only(setup_card.point_parts(VOR_DME), "radial_distance")
    coarse, fine = (float(v) for v in re.findall(r"by (\d\.\d\d) NM", part.set))
    assert (coarse, fine) == (round(187.973 / 1852.0, 2), round(57.436 / 1852.0, 2))


def test_the_wrong_north_and_the_reciprocal_are_the_trap():
    """2 D sin(3 / 2 degrees) and twice the distance."""
    part = only(setup_card.point_parts(VOR_DME), "radial_distance")
    assert f"lands {2 * 15.03 * math.sin(math.radians(1.5)):.2f} NM off" in part.trap
    assert "reciprocal lands 30.1 NM off" in part.trap


def test_position_is_given_in_the_steps_it_takes():
    part = only(setup_card.point_parts(replace(VOR_DME, lon=10.342948431, lat=50.116745770)), "position")
    assert "50°07.00'N 010°20.58'E" in part.set
    assert "moves the point 10 m" in part.set, "9.541 m: computed with geographiclib"


def test_ways_that_do_not_apply_are_left_out():
    assert [p.way for p in setup_card.point_parts(VOR_DME)] == ["radial_distance", "position", "not_at_all"]
    along = replace(VOR_DME, on_track=True)
    assert "15.0 NM before QZA" in only(setup_card.point_parts(along), "along_track").set
    ndb = replace(VOR_DME, gives_radial=False, slant_nm=NAN, radial_model_deg=NAN)
    assert [p.way for p in setup_card.point_parts(ndb)] == ["position", "not_at_all"]
    waypoint = replace(ndb, gives_bearing=False)
    assert [p.way for p in setup_card.point_parts(waypoint)] == ["position"], "no needle points to a waypoint"
    nowhere = replace(ndb, ident="", lon=NAN, lat=NAN)
    assert setup_card.point_parts(nowhere) == []


def test_the_days_headings_stand_where_the_hold_is_flown_by_hand():
    for way in ("suspended", "needles"):
        assert "outbound 070, 0:55 on the stopwatch, inbound 235" in only(setup_card.hold_parts(VOR_DME), way).see
    calm = replace(VOR_DME, heading_out_deg=NAN)
    by_dme = replace(VOR_DME, leg_end="to DME 17.1")
    assert (
        only(setup_card.hold_parts(by_dme), "needles").see == "In the day's wind outbound 070 to DME 17.1, inbound 235."
    )
    assert "still air outbound 060" in only(setup_card.hold_parts(calm), "needles").see
    assert "DME 17.1 at the outbound end" in only(setup_card.hold_parts(VOR_DME), "needles").see


def test_overhead_the_navaid_is_the_point():
    """No radial leads there; the DME shows the height, and a needle that it is passed."""
    overhead = replace(VOR_DME, ground_nm=0.0, slant_nm=0.8, radial_station_deg=NAN, radial_model_deg=NAN)
    parts = setup_card.point_parts(overhead)
    assert [p.way for p in parts] == ["radial_distance", "position", "not_at_all"]
    assert only(parts, "radial_distance").set == "QZA itself, by its ident: no radial and no distance."
    assert only(parts, "not_at_all").see == "Overhead, to becomes from; the DME goes no lower than 0.8."
    beacon = replace(overhead, gives_radial=False, slant_nm=NAN)
    assert only(setup_card.point_parts(beacon), "not_at_all").see == "Overhead, the needle falls to its tail."


def test_the_words_are_those_of_the_navaid():
    """Nothing of a course selector for a beacon; what the other navaid of a crossing shows; the entry."""
    ndb = replace(VOR_DME, gives_radial=False, inbound_selector_deg=NAN)
    for part in setup_card.point_parts(ndb) + setup_card.hold_parts(ndb):
        assert "selector" not in " ".join(part), part
    assert only(setup_card.point_parts(ndb), "not_at_all").see == "Over the point QZA bearing 062.4, DME 15.1."
    crossing = replace(VOR_DME, slant_nm=NAN, second="QZB DME 23.0")
    part = only(setup_card.point_parts(crossing), "not_at_all")
    assert part.see == "Over the point QZA radial 062.4 and QZB DME 23.0."
    assert "Without a distance" not in part.trap
    assert "arriving on 200, its entry is offset" in only(setup_card.hold_parts(VOR_DME), "function").see


def test_every_way_says_all_five_things_and_no_gap_shows():
    bare = dict(slant_nm=NAN, decl_deg=NAN, heading_out_deg=NAN, leg_end="", arrival_model_deg=NAN, entry="")
    ndb = replace(VOR_DME, gives_radial=False, inbound_selector_deg=NAN, **bare)
    placed = replace(VOR_DME, ident="", gives_radial=True, gives_bearing=False, ground_nm=NAN, **bare)
    for facts in (VOR_DME, replace(VOR_DME, on_track=True), replace(VOR_DME, **bare), ndb, placed):
        for part in setup_card.point_parts(facts) + setup_card.hold_parts(facts):
            assert part.way in setup_card.TITLES
            for said in (part.set, part.see, part.trap, part.onward):
                assert said and said[0] == said[0].upper(), (part.way, said)
                assert "nan" not in said.lower() and "  " not in said and " ." not in said and said.endswith(".")


def test_a_way_that_is_none_is_refused():
    with pytest.raises(ValueError, match="teleport"):
        setup_card.point_parts(VOR_DME, ("teleport",))
