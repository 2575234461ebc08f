"""Rows of tolerance areas and of slips from rows of the fixes and the holds layer: which aid counts for what.

The areas themselves are tested in test_tolerance, the slips in test_slips; here it is what a row means.
"""

from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import geodesy, plan, reasons, slips
from fixwright.geometry.fix_crossing import DISTANCE, RADIAL, Lines
from fixwright.geometry.fixes import Station
from fixwright.geometry.plan import accuracy
from fixwright.geometry.plan.accuracy import AIDS, GNSS, slip_rows, tolerance_rows
from fixwright.geometry.plan.marking import Naming
from fixwright.geometry.tolerance import methods

NM = 1852.0
YEAR = 2026.66575
ICAO, FAA = range(2)
ALT_FT = 6000.0
SITES = {"A": (10.0, 50.0), "B": (10.9, 50.5)}


def _station(ident="A", kind="VOR/DME", decl=0.0, elev=0.0, **dme) -> Station:
    return Station.of([SITES[ident][0]], SITES[ident][1], elev, decl, kind, **dme)


def _naming(*idents) -> Naming:
    return Naming(np.array(idents, dtype=object), plan.Keys(), "2026-09-01")


def _radial_distance(radial=73.0, distance=20.0, alt_ft=ALT_FT, slant=True, **station):
    return plan.mark_radial_distance(
        _station(**station), _naming("A"), radial, distance, slant=slant, alt_ft=alt_ft, north=2, year=YEAR
    ).columns


def _crossing(kinds, values, alt_ft=ALT_FT, aids=("VOR/DME", "VOR/DME"), which=0):
    first, second = (
        Lines(_station(ident, aid), np.array([kind]), np.array([value]))
        for ident, aid, kind, value in zip("AB", aids, kinds, values)
    )
    second_ident = np.array(["B"], dtype=object)
    return plan.mark_crossing(first, second, _naming("A"), second_ident, slant=True, alt_ft=alt_ft, north=2, year=YEAR)[
        which
    ].columns


def _area(columns, basis=AIDS, rules=ICAO, along=0.8, across=1.0, **more):
    layer, index, why = tolerance_rows({**columns, **more}, basis=basis, rules=rules, along_nm=along, across_nm=across)
    return layer, index, why


def _one(columns, **more) -> dict:
    layer, index, why = _area(columns, **more)
    assert why.tolist() == [""] and index.tolist() == [0]
    return {name: values[0] for name, values in layer.columns.items()}


def _ring(columns, **more) -> np.ndarray:
    layer = _area(columns, **more)[0]
    return layer.coords[layer.offsets[0] : layer.offsets[1]]


# --- which area a row has


def test_radial_and_dme_has_the_annular_sector():
    """50 N 10 E, radial 073 true, D 20.0, 6 000 ft, 5.2 degrees and 0.5 NM: ground radii 19.474981, 19.975608 and
    20.476203 NM, plane area 3.630285 NM squared, computed with geographiclib on WGS 84 (accuracies of ICAO Doc 8168
    Vol II, Table I-2-2-1, from memory). Flown inbound, the corners of the near arc reach farthest ahead."""
    row = _one(_radial_distance())
    assert (row["aids"], row["rules"]) == ("radial_arc", "icao")
    assert (row["angle_1_deg"], row["range_2_nm"]) == pytest.approx((5.2, 0.5))
    assert np.isnan(row["angle_2_deg"]) and np.isnan(row["range_1_nm"])
    assert row["area_nm2"] == pytest.approx(3.630285, rel=0.01)
    assert row["area_nm2"] > 3.63
    assert row["along_ahead_nm"] == pytest.approx(19.975608 - 19.474981 * np.cos(np.radians(5.2)), abs=0.004)
    assert row["along_behind_nm"] == pytest.approx(20.476203 - 19.975608, abs=0.004)
    for name in ("across_left_nm", "across_right_nm"):
        assert row[name] == pytest.approx(20.476203 * np.sin(np.radians(5.2)), abs=0.006)
    assert "from memory" in row["limits"]


def test_two_radials_have_their_overlap():
    """Radials 062 of 50 N 10 E and 171 of 50.5 N 10.9 E: 13.61938 NM squared with 5.2 and 4.5 degrees, computed with
    geographiclib on WGS 84. The first is the one tracked, since the course of the fix is towards it."""
    row = _one(_crossing((RADIAL, RADIAL), (62.0, 171.0)))
    assert row["aids"] == "radial_radial" and (row["angle_1_deg"], row["angle_2_deg"]) == (5.2, 4.5)
    assert row["area_nm2"] == pytest.approx(13.61938, rel=0.002)


def test_the_hold_s_inbound_course_says_which_aid_is_tracked():
    columns = _crossing((RADIAL, RADIAL), (62.0, 171.0))
    to_second = float(geodesy.inverse(columns["lon"][0], columns["lat"][0], *SITES["B"])[0])
    row = _one({**columns, "inbound_true_deg": np.array([to_second])})
    assert (row["angle_1_deg"], row["angle_2_deg"]) == (4.5, 5.2)
    empty = _one({**columns, "inbound_true_deg": np.array([np.nan])})
    assert (empty["angle_1_deg"], empty["angle_2_deg"]) == (5.2, 4.5)


def test_radial_and_arc_whichever_comes_first():
    """The radial of A and the arc of B: the same area as when B's arc is the row's first line."""
    one = _crossing((RADIAL, DISTANCE), (62.0, 22.0))
    row = _one(one)
    assert row["aids"] == "radial_arc" and row["angle_1_deg"] == 5.2
    assert row["range_2_nm"] == pytest.approx(0.25 + 0.0125 * 22.0)
    first, second = (
        Lines(_station(ident), np.array([kind]), np.array([value]))
        for ident, kind, value in (("B", DISTANCE, 22.0), ("A", RADIAL, 62.0))
    )
    turned = plan.mark_crossing(first, second, _naming("B"), np.array(["A"], dtype=object), slant=True, alt_ft=ALT_FT,
                                north=2, year=YEAR)[0].columns  # fmt: skip
    assert turned["line"][0] == "distance"
    course = {"inbound_true_deg": np.array([one["course_true_deg"][0]])}
    same = _one({**turned, **course})
    for name in ("aids", "angle_1_deg", "range_2_nm", "area_nm2", "along_ahead_nm", "across_left_nm"):
        assert same[name] == pytest.approx(row[name], rel=1e-6) if name != "aids" else same[name] == row[name]


def test_two_arcs():
    row = _one(_crossing((DISTANCE, DISTANCE), (30.0, 25.0)))
    assert row["aids"] == "arc_arc"
    assert (row["range_1_nm"], row["range_2_nm"]) == pytest.approx((0.25 + 0.0125 * 30.0, 0.25 + 0.0125 * 25.0))
    assert np.isnan(row["angle_1_deg"]) and np.isnan(row["angle_2_deg"])


def test_along_a_track_and_on_a_route_with_a_dme():
    """Before a VOR/DME on a course to it, the fix is made by radial and DME."""
    along = plan.mark_along_track(
        _station(), _naming("A"), 12.0, beyond=False, course_deg=253.0, north=2, from_lon=np.nan, from_lat=np.nan,
        alt_ft=ALT_FT, year=YEAR,
    ).columns  # fmt: skip
    assert _one(along)["aids"] == "radial_arc"
    route = {**along, "method": np.array(["route"], dtype=object)}
    assert _one(route)["aids"] == "radial_arc"
    without = {**along, "navaid_kind": np.array(["VOR"], dtype=object)}
    assert _one(without)["aids"] == "gnss"


def test_overhead():
    """6 000 ft over a VOR: the cone's radius is 1.1727 NM, entry points 1.1558 NM behind, far ones 1.1039 NM ahead,
    0.3957 NM to the sides; the arc between those reaches the full radius (ICAO Doc 8168 Vol II, p. I-2-2-4)."""
    over = plan.mark_overhead(_station(), _naming("A"), course_deg=90.0, north=2, alt_ft=ALT_FT, year=YEAR).columns
    row = _one(over)
    assert row["aids"] == "overhead"
    assert row["along_ahead_nm"] == pytest.approx(1.1727, abs=0.003)
    assert row["along_behind_nm"] == pytest.approx(1.1727, abs=0.003)
    assert row["across_left_nm"] == pytest.approx(0.3957, abs=0.004)
    assert np.isnan(row["angle_1_deg"])
    _, index, why = _area(over, rules=FAA)
    assert len(index) == 0 and why[0] == reasons.sentence(reasons.NO_OVERHEAD_TOLERANCE)


@pytest.mark.parametrize("along", [0.3, 0.8])
def test_gnss_has_the_values_given(along):
    """By basis, or because no aid gives a distance; nothing about aids in limits."""
    position = plan.mark_coordinates(
        np.array([10.5]), np.array([50.2]), _station(), _naming("A"), alt_ft=ALT_FT, year=YEAR
    ).columns
    waypoint = _radial_distance(kind="WPT", slant=False)
    for columns, basis in ((position, AIDS), (waypoint, AIDS), (_radial_distance(), GNSS)):
        row = _one(columns, basis=basis, along=along, across=0.5)
        assert row["aids"] == "gnss" and row["limits"] == accuracy.GNSS_NOTE
        assert row["along_ahead_nm"] == pytest.approx(along, abs=0.004)
        assert row["across_right_nm"] == pytest.approx(0.5, abs=0.004)
        assert row["area_nm2"] == pytest.approx(4.0 * along * 0.5, rel=0.02)


def test_a_dme_that_stands_apart_bounds_from_its_own_site():
    """The layer passes dme_lon and dme_lat on: the sector is cut by arcs round that place, by geographiclib."""
    dme_lon, dme_lat, _ = (float(v) for v in geodesy.direct(*SITES["A"], 150.0, 2.0))
    fix = _radial_distance(dme_lon=dme_lon, dme_lat=dme_lat, dme_elev_ft=0.0)
    site = {name: np.array([value]) for name, value in (("dme_lon", dme_lon), ("dme_lat", dme_lat))}
    ring = _ring({**fix, **site, "dme_elev_ft": np.array([0.0])})
    height = ALT_FT * 0.3048 / NM
    slants = [np.hypot(Geodesic.WGS84.Inverse(dme_lat, dme_lon, lat, lon)["s12"] / NM, height) for lon, lat in ring]
    assert min(slants) == pytest.approx(19.5, abs=0.005) and max(slants) == pytest.approx(20.5, abs=0.005)


def test_rows_without_an_area_say_why_and_spoil_no_other():
    rows = [_radial_distance(), _radial_distance(distance=1.0), _radial_distance(radial=10.0)]
    columns = {name: np.concatenate([np.asarray(row[name]) for row in rows]) for name in rows[0]}
    columns["inbound_true_deg"] = np.array([np.nan] * 3)
    columns["course_true_deg"] = columns["course_true_deg"].copy()
    columns["course_true_deg"][1] = np.nan
    layer, index, why = _area(columns)
    assert index.tolist() == [0, 2]
    assert why.tolist()[::2] == ["", ""] and "no course" in why[1]
    assert len(layer.offsets) == 3 and layer.columns["fix"].tolist() == [columns["fix"][0], columns["fix"][2]]
    alone = _ring(rows[2])
    assert layer.coords[layer.offsets[1] : layer.offsets[2]].tobytes() == alone.tobytes()


def test_nothing_good_and_nothing_at_all():
    columns = _radial_distance()
    columns["course_true_deg"] = np.array([np.nan])
    layer, index, _ = _area(columns)
    assert layer.coords.shape == (0, 2) and layer.offsets.tolist() == [0] and len(index) == 0
    empty = {name: np.asarray(values)[:0] for name, values in columns.items()}
    layer, index, why = _area(empty)
    assert len(why) == len(index) == 0 and set(layer.columns) == set(_one(_radial_distance()))


def test_rules_by_row():
    """20 NM: 5.2 and 4.5 degrees, 0.5 and 0.6 NM (ICAO Doc 8168 and FAA Order 8260.3, from memory)."""
    rows = [_radial_distance(), _radial_distance()]
    columns = {name: np.concatenate([np.asarray(row[name]) for row in rows]) for name in rows[0]}
    layer = _area(columns, rules=np.array([ICAO, FAA]))[0]
    assert layer.columns["angle_1_deg"].tolist() == [5.2, 4.5]
    assert layer.columns["range_2_nm"] == pytest.approx([0.5, 0.6])
    assert layer.columns["rules"].tolist() == ["icao", "faa"]
    assert "8168" in layer.columns["limits"][0] and "8260.3" in layer.columns["limits"][1]


def test_every_method_of_areas_is_met():
    assert methods.METHODS == ("radial_arc", "radial_radial", "arc_arc", "overhead", "gnss")
    assert accuracy.BASES == ("aids", "gnss")


# --- slips


def _slips(columns, least=0.0) -> dict[str, dict]:
    out = slip_rows(columns, YEAR, least)
    return {slip: {name: values[i] for name, values in out.items()} for i, slip in enumerate(out["slip"])}


def test_slips_are_sorted_and_told_in_words():
    found = slip_rows(_radial_distance(radial=62.37, distance=15.0, decl=5.0), YEAR, 0.0)
    distances = found["distance_nm"].tolist()
    assert distances == sorted(distances, reverse=True) and found["slip"][0] == "radial_reciprocal"
    told = {slip.key: slip for slip in slips.SLIPS}
    for key, text, source in zip(found["slip"], found["text"], found["source"]):
        assert (text, source) == (told[key].sentence, told[key].source)
    assert set(found["fix"]) == {"A R062.37 D15.0"}


def test_slips_under_the_least_are_left_out():
    columns = _radial_distance(radial=62.37, distance=15.0, decl=5.0)
    every = _slips(columns)
    least = _slips(columns, 0.1)
    assert set(least) == {key for key, row in every.items() if row["distance_nm"] >= 0.1}
    assert 0 < len(least) < len(every)
    assert slip_rows(columns, YEAR, 400.0)["slip"].tolist() == []


def test_before_for_beyond_is_a_slip_of_an_along_track_fix_only():
    along = plan.mark_along_track(
        _station(), _naming("A"), 9.0, beyond=True, course_deg=320.0, north=2, from_lon=np.nan, from_lat=np.nan,
        alt_ft=ALT_FT, year=YEAR,
    ).columns  # fmt: skip
    assert _slips(along)["side"]["distance_nm"] == pytest.approx(18.0, abs=1e-4)
    assert "side" not in _slips(_radial_distance())


def test_rows_fix_by_fix():
    rows = [_radial_distance(radial=62.37), _radial_distance(radial=200.5)]
    columns = {name: np.concatenate([np.asarray(row[name]) for row in rows]) for name in rows[0]}
    columns["fix"] = np.array(["one", "two"], dtype=object)
    found = slip_rows(columns, YEAR)
    cut = found["fix"].tolist().index("two")
    assert set(found["fix"][:cut]) == {"one"} and set(found["fix"][cut:]) == {"two"}
    for part in (found["distance_nm"][:cut], found["distance_nm"][cut:]):
        assert (np.diff(part) <= 0.0).all()


def test_a_dme_apart_is_the_one_misread():
    """Read as ground distance from its own site: the reading less the ground distance there."""
    dme_lon, dme_lat, _ = (float(v) for v in geodesy.direct(*SITES["A"], 150.0, 2.0))
    fix = _radial_distance(alt_ft=20000.0, dme_lon=dme_lon, dme_lat=dme_lat, dme_elev_ft=0.0)
    site = {name: np.array([value]) for name, value in (("dme_lon", dme_lon), ("dme_lat", dme_lat))}
    ground = Geodesic.WGS84.Inverse(dme_lat, dme_lon, fix["lat"][0], fix["lon"][0])["s12"] / NM
    got = _slips({**fix, **site, "dme_elev_ft": np.array([0.0])})["dme_as_ground"]["distance_nm"]
    assert got == pytest.approx(20.0 - ground, abs=1e-6)


def test_rows_of_a_plain_layer():
    """Columns that are not there count as empty: a position has the slips of a position."""
    columns = {"lon": np.array([10.5]), "lat": np.array([50.2]), "fix": np.array(["X"], dtype=object)}
    assert set(_slips(columns)) == {"position_0_1", "position_0_01", "position_0_001"}


def test_a_dme_fix_without_an_altitude_is_rejected_not_given_other_values():
    """A slant range without an altitude has no ground distance (ICAO Doc 8168 Vol II, I-4-3-App C-13)."""
    columns = _radial_distance(slant=False, alt_ft=np.nan)
    assert _area(columns)[2].tolist() == [reasons.sentence(reasons.NO_ALTITUDE)]
    assert _one(columns, basis=GNSS)["aids"] == "gnss"
