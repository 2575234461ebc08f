"""Reception of fixes: every test row, nothing passes unseen, and estimates that hold against the geometry itself."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import cones, crossings, flight, geodesy, magnetism, navaids, reasons, sources
from fixwright.geometry.coverage import checks, cuts, errors, other_ways, sight, verdicts, volumes
from fixwright.geometry.coverage.cuts import Cut
from fixwright.geometry.coverage.other_ways import Accuracy
from fixwright.geometry.coverage.pairs import Pairs
from fixwright.geometry.coverage.profile import profile_clearance, profile_points
from fixwright.geometry.fixes import Station
from fixwright.geometry.tolerance import accuracy
from fixwright.geometry.tolerance.overhead import overhead_cone

KIND = np.array(["VOR/DME"], dtype=object)
MEASURED = {"service_volume", "line_of_sight", "cone", "dme_overhead"}
MARKS = {sources.PUBLISHED, sources.FROM_MEMORY, sources.CHOSEN_HERE}


def _pair(kind="VOR/DME", alt_ft=5_000.0, elev_ft=1_000.0, dist_nm=20.0, **more) -> Pairs:
    """A fix due east of an invented station on the sea."""
    lon, lat, _ = geodesy.direct(-20.0, 40.0, 90.0, dist_nm)
    station = Station.of(-20.0, 40.0, elev_ft, 5.0, np.array([kind], dtype=object))
    more = {"ident": "XQV", "classes": "L", "azimuth": True, "distance": True, **more}
    return Pairs.of(lon, lat, alt_ft, station, **more)


def _by_test(rows: verdicts.Tests) -> dict[str, dict]:
    names = list(rows.test)
    assert len(names) == len(set(names))
    return {name: {f: getattr(rows, f)[i] for f in rows._fields} for i, name in enumerate(names)}


def test_every_entry_of_every_table_has_a_source_and_a_mark():
    entries = [band for bands in volumes.VOLUMES.values() for band in bands]
    for table in (volumes.NDB_VOLUMES, volumes.UNKNOWN_CLASS_NM, cones.CONES, cuts.LEAST_CUTS):
        entries += list(table.values())
    for entry in entries:
        assert entry.source and entry.mark in MARKS
    assert sight.LINE_OF_SIGHT_SOURCE and sight.EFFECTIVE_RADIUS_SOURCE


def test_the_cone_of_the_tolerance_areas_is_the_same():
    heights = np.array([100.0, 6_000.0, 30_000.0])
    for kind in ("VOR", "NDB"):
        np.testing.assert_allclose(cones.cone_radius_nm(heights, kind), overhead_cone(heights, kind)[0])


@pytest.mark.parametrize(
    ("written", "kind", "distance", "height", "radius"),
    [
        ("h", "VOR", False, 10_000.0, 40.0),
        (" (H) ", "VORTAC", False, 10_000.0, 40.0),
        ("H", "", False, 10_000.0, 40.0),
        ("H", "NDB", False, 10_000.0, 50.0),
        ("MHW", "NDB", False, 500.0, 25.0),
        ("MHW/LOM", "NDB", False, 500.0, 15.0),
        ("MH", "", False, np.nan, 25.0),
        ("Compass Locator", "", False, np.nan, 15.0),
        ("MH", "VOR", False, 10_000.0, np.nan),
        ("MH", "NDB/DME", True, 10_000.0, np.nan),
        ("MH DH", "NDB/DME", True, 20_000.0, 130.0),
        ("DH", "VOR/DME", False, 20_000.0, np.nan),
        ("DH", "VOR/DME", True, 20_000.0, 130.0),
        ("DH", "DME", False, 20_000.0, 130.0),
        ("VL", "VOR/DME", True, 10_000.0, 70.0),
        ("", "VOR", False, 10_000.0, np.nan),
        (None, "VOR", False, 10_000.0, np.nan),
        ("Z", "VOR", False, 10_000.0, np.nan),
        ("L", "VOR", False, np.nan, np.nan),
        ("H", "VOR", False, 14_500.0, 40.0),
        ("H", "VOR", False, 14_501.0, 100.0),
        ("L", "VOR", False, -100.0, 0.0),
    ],
)
def test_classes_as_they_are_written(written, kind, distance, height, radius):
    got = volumes.service_volume_nm(written, height, kind, distance)
    assert got.shape == ()
    assert float(got) == radius or (np.isnan(got) and np.isnan(radius))


def test_service_volumes_broadcast():
    classes = np.array(["T", "H", "??"], dtype=object)[:, np.newaxis]
    got = volumes.service_volume_nm(classes, [500.0, 5_000.0, 20_000.0, np.nan], "VOR")
    np.testing.assert_array_equal(got, [[0, 25, 0, np.nan], [0, 40, 130, np.nan], [np.nan] * 4])
    assert volumes.service_volume_nm([], []).shape == (0,)


@given(st.sampled_from(sorted(volumes.VOLUMES)), st.floats(0.0, 70_000.0))
def test_a_volume_is_the_widest_of_the_bands_that_hold_the_height(name, height):
    got = float(volumes.service_volume_nm(name, height, "DME", True))
    assert 0.0 <= got <= 140.0
    inside = [b for b in volumes.VOLUMES[name] if b.low_ft < height < b.high_ft]
    for band in inside:
        assert got >= (float(sight.line_of_sight_nm(height, 0.0)) if np.isnan(band.radius_nm) else band.radius_nm)
    on_edge = any(height in (b.low_ft, b.high_ft) for b in volumes.VOLUMES[name])
    assert on_edge or (got > 0.0) == bool(inside)


@given(st.floats(0.0, 50_000.0), st.floats(0.0, 50_000.0))
def test_line_of_sight(h1, h2):
    got = float(sight.line_of_sight_nm(h1, h2))
    assert got == pytest.approx(float(sight.line_of_sight_nm(h2, h1)), rel=1e-12)
    parts = sight.line_of_sight_nm(h1, 0.0) + sight.line_of_sight_nm(0.0, h2)
    assert got == pytest.approx(float(parts), rel=1e-12)
    assert sight.line_of_sight_nm(h1 + 100.0, h2) > got
    # just in sight over the sea: the ray touches it
    if h1 > 1.0 and h2 > 1.0:
        dist = np.linspace(0.0, got, 2001)[np.newaxis]
        clearance = profile_clearance(dist, np.zeros_like(dist), got, h1, h2)
        assert clearance.margin_ft[0] == pytest.approx(0.0, abs=max(h1, h2) * 1e-5 + 0.01)


def test_heights_below_the_surface_see_from_the_surface():
    assert float(sight.line_of_sight_nm(-82.0, 4_000.0)) == float(sight.line_of_sight_nm(0.0, 4_000.0))
    assert np.isnan(sight.line_of_sight_nm(np.nan, 1_000.0))
    assert float(sight.line_of_sight_rule_nm(-82.0, 10_000.0)) == pytest.approx(123.0)


@given(
    st.floats(-179.9, 179.9),
    st.floats(-80.0, 80.0),
    st.floats(0.0, 360.0),
    st.floats(0.01, 150.0),
    st.floats(0.2, 20.0),
)
def test_profile_points(lon, lat, course, dist, step):
    lon2, lat2, _ = geodesy.direct(lon, lat, course, dist)
    profile = profile_points(lon, lat, lon2, lat2, step)
    at = profile.dist_nm[0]
    assert np.isfinite(at).all() and at[0] == 0.0
    assert at[-1] == pytest.approx(dist, abs=1e-6)
    assert (np.diff(at) <= step * (1.0 + 1e-8)).all()
    assert len(at) == max(int(np.ceil(dist / step - 1e-9)), 1) + 1
    _, _, back = geodesy.inverse(lon, lat, profile.lon[0], profile.lat[0])
    np.testing.assert_allclose(back, at, atol=1e-7)


def test_profile_rows_are_padded_and_bad_rows_spoil_themselves_alone():
    profile = profile_points([10.0, 10.0, np.nan], 50.0, 10.0, [50.5, 50.1, 50.1], 2.0)
    assert profile.dist_nm.shape == profile.lon.shape == profile.lat.shape == (3, 17)
    assert np.isfinite(profile.dist_nm).sum(axis=1).tolist() == [17, 5, 0]
    assert np.isfinite(profile.lon).sum(axis=1).tolist() == [17, 5, 0]
    assert profile_points([], [], [], [], 2.0).dist_nm.shape[0] == 0
    same = profile_points(10.0, 50.0, 10.0, 50.0, 2.0)
    assert same.dist_nm.tolist() == [[0.0, 0.0]]
    for step in (0.0, -1.0, np.nan, np.inf):
        with pytest.raises(ValueError, match="step_nm is"):
            profile_points(10.0, 50.0, 10.0, 50.1, step)


def test_the_smallest_margin_and_where():
    """Two ridges; the ray's heights worked by hand at 10 and 30 NM of 40: bulge 198.71 ft at both."""
    x = np.array([[10.0, 20.0, 30.0]])
    got = profile_clearance(x, [[900.0, 0.0, 2_000.0]], 40.0, 1_000.0, 3_000.0)
    assert got.margin_ft[0] == pytest.approx(2_500.0 - 198.71 - 2_000.0, abs=0.01)
    assert got.at_nm[0] == 30.0 and got.clear[0] and got.samples[0] == 3 and got.missing[0] == 0


def test_the_station_s_own_cell_is_no_obstacle():
    x, terrain = [[0.0, 0.3, 5.0]], [[1_200.0, 1_200.0, 0.0]]
    assert not profile_clearance(x, terrain, 20.0, 1_000.0, 3_000.0).clear[0]
    beyond = profile_clearance(x, terrain, 20.0, 1_000.0, 3_000.0, own_cell_nm=0.3)
    assert beyond.clear[0] and beyond.samples[0] == 1
    inside = profile_clearance([[0.0, 0.2]], [[50.0, 50.0]], 0.2, 10.0, 900.0, own_cell_nm=0.3)
    assert inside.clear[0] and inside.samples[0] == 0 and np.isnan(inside.margin_ft[0])


def test_missing_terrain_is_never_clear():
    nan = np.nan
    x = np.array([[5.0, 10.0], [5.0, 10.0], [5.0, 10.0], [nan, nan], [5.0, nan]])
    terrain = np.array([[0.0, nan], [nan, nan], [9_000.0, nan], [nan, nan], [0.0, nan]])
    got = profile_clearance(x, terrain, 20.0, 1_000.0, 3_000.0)
    assert got.clear.tolist() == [False, False, False, False, True]
    no, ok = reasons.NO_TERRAIN, reasons.OK
    assert got.code.tolist() == [no, no, ok, no, ok]  # known terrain in the way decides, whatever is missing
    assert got.missing.tolist() == [1, 2, 1, 0, 0] and got.samples.tolist() == [2, 2, 2, 0, 1]
    assert got.margin_ft[2] < 0.0
    heights = profile_clearance(x[:2], np.zeros((2, 2)), 20.0, [nan, 1_000.0], [3_000.0, nan])
    assert heights.code.tolist() == [reasons.NO_ELEVATION, reasons.NO_ALTITUDE] and not heights.clear.any()
    with pytest.raises(ValueError, match="terrain_ft has the shape"):
        profile_clearance(x, terrain[:2], 20.0, 1_000.0, 3_000.0)


@given(
    st.lists(st.tuples(st.floats(0.5, 59.5), st.floats(0.0, 12_000.0)), min_size=1, max_size=8),
    st.floats(0.0, 5_000.0),
    st.floats(0.0, 20_000.0),
)
def test_the_altitude_needed_just_clears(ridges, station, aircraft):
    x, terrain = (np.array([values]) for values in zip(*ridges))
    got = profile_clearance(x, terrain, 60.0, station, aircraft)
    at_it = profile_clearance(x, terrain, 60.0, station, got.needed_ft)
    assert at_it.margin_ft[0] == pytest.approx(0.0, abs=1e-6)
    assert bool(got.clear[0]) == bool(aircraft >= got.needed_ft[0]) or abs(got.margin_ft[0]) < 1e-6


def test_rows_of_a_radial_and_dme_fix():
    rows = checks.tests(_pair(classes="VL/DH"))
    expected = ["status", "service_volume", "service_volume_dme", "line_of_sight", "cone", "dme_overhead"]
    assert list(rows.test) == expected
    assert rows.ok.all() and rows.known.all() and all(rows.source) and (rows.pair == 0).all()
    found = _by_test(rows)
    assert found["service_volume"]["limit_value"] == 40.0 and found["service_volume"]["unit"] == "NM"
    assert found["service_volume"]["value"] == pytest.approx(20.0)
    seen_nm = float(sight.line_of_sight_nm(4_000.0, 0.0))
    assert found["line_of_sight"]["limit_value"] == found["service_volume_dme"]["limit_value"] == seen_nm
    assert "from memory" in found["service_volume_dme"]["source"]
    assert "from memory" in found["dme_overhead"]["source"]
    assert "terrain was not looked at" in found["line_of_sight"]["text"]
    sentence = "Class VL of XQV reaches 40.0 NM at 4 000 ft above it; the fix is 20.0 NM away"
    assert found["service_volume"]["text"] == sentence


def test_what_a_kind_does_not_give_is_not_tested():
    assert set(checks.tests(_pair("NDB", classes="MH")).test) == {"status", "service_volume", "cone"}
    assert set(checks.tests(_pair("DME", classes="DH")).test) == {
        "status", "service_volume_dme", "line_of_sight", "dme_overhead"
    }  # fmt: skip
    assert set(checks.tests(_pair("VOR")).test) == {"status", "service_volume", "line_of_sight", "cone"}
    tacan = checks.tests(_pair("TACAN", distance=False)).test
    assert set(tacan) == {"status", "service_volume", "line_of_sight", "dme_overhead"}
    assert len(checks.tests(_pair("WPT")).test) == 0


def test_what_fails():
    found = _by_test(checks.tests(_pair(in_service=False, dist_nm=60.0)))
    assert not found["status"]["ok"] and "out of service" in found["status"]["text"]
    assert not found["service_volume"]["ok"] and found["line_of_sight"]["ok"]
    low = _by_test(checks.tests(_pair(alt_ft=1_600.0, dist_nm=45.0)))
    assert not low["line_of_sight"]["ok"]
    assert low["service_volume"]["limit_value"] == 0.0 and "below the volume" in low["service_volume"]["text"]
    high = _by_test(checks.tests(_pair(alt_ft=20_000.0)))
    assert not high["service_volume"]["ok"] and "above the volume" in high["service_volume"]["text"]
    near = _by_test(checks.tests(_pair(alt_ft=10_000.0, dist_nm=1.7)))
    assert not near["cone"]["ok"] and not near["dme_overhead"]["ok"]
    between = _by_test(checks.tests(_pair(alt_ft=10_000.0, dist_nm=1.9)))
    assert between["cone"]["ok"] and not between["dme_overhead"]["ok"]


def test_overhead_the_station_there_is_no_cone_to_stay_out_of():
    assert "cone" not in checks.tests(_pair(dist_nm=0.0, distance=False)).test
    assert not _by_test(checks.tests(_pair(dist_nm=0.0)))["dme_overhead"]["ok"]


@pytest.mark.parametrize(
    ("change", "tests", "words"),
    [
        ({"classes": ""}, {"service_volume"}, "no class is given"),
        ({"classes": "QQ"}, {"service_volume"}, "'QQ'"),
        ({"classes": "MH"}, {"service_volume"}, "the class 'MH' is not one of its kind"),
        ({"elev_ft": np.nan}, MEASURED, "the elevation of XQV is not given"),
        ({"alt_ft": np.nan}, MEASURED, "the altitude at the fix is not given"),
        ({"dist_nm": np.nan}, MEASURED, "a position is missing"),
    ],
)
def test_what_is_not_known_is_said_and_never_ok(change, tests, words):
    rows = checks.tests(_pair(**change))
    unknown = {row["test"]: row for row in _by_test(rows).values() if not row["known"]}
    assert set(unknown) == tests
    for row in unknown.values():
        assert not row["ok"] and words in row["text"]


def test_terrain_rows():
    """46 NM from 1 000 to 5 000 ft: 19 to 21 NM out the ray is between 2 300 and 2 450 ft, the earth's bulge off."""
    kinds = np.array(["VOR", "VOR", "VOR", "NDB"], dtype=object)
    station = Station.of([-20.0] * 4, 40.0, 1_000.0, 5.0, kinds)
    pairs = Pairs.of([-19.0] * 4, 40.0, 5_000.0, station, ident="XQV", classes="H")
    profile = profile_points(station.lon, station.lat, pairs.lon, pairs.lat, 0.5)
    ridge = np.where(np.abs(profile.dist_nm - 20.0) < 1.0, 1_500.0, 0.0)
    terrain = np.where(np.isfinite(profile.dist_nm), ridge, np.nan)
    terrain[1] *= 2.0
    terrain[2, 5] = np.nan
    clearance = profile_clearance(profile.dist_nm, terrain, pairs.dist_nm, 1_000.0, pairs.alt_ft, 0.3)
    rows = checks.tests(pairs, terrain=clearance)
    assert "line_of_sight" not in rows.test  # terrain says it better
    chosen = rows.test == "terrain"
    assert rows.pair[chosen].tolist() == [0, 1, 2]  # an NDB needs no line of sight
    assert rows.ok[chosen].tolist() == [True, False, False]
    assert rows.known[chosen].tolist() == [True, True, False]
    blocked = rows.text[chosen][1]
    needed = re.search(r"clear from ([0-9 ]+) ft up", blocked)
    assert needed and 0.0 <= float(needed[1].replace(" ", "")) - clearance.needed_ft[1] < 100.0
    unknown = checks.tests(pairs, terrain=profile_clearance(
        profile.dist_nm, np.full_like(terrain, np.nan), pairs.dist_nm, 1_000.0, pairs.alt_ft))  # fmt: skip
    assert not unknown.ok[unknown.test == "terrain"].any()
    assert all("is not known" in words for words in unknown.text[unknown.test == "terrain"])


def test_a_hole_in_the_terrain_is_told_with_its_size():
    pairs = _pair("VOR", alt_ft=9_000.0)
    clearance = profile_clearance([[5.0, 10.0, 15.0]], [[0.0, np.nan, 0.0]], 20.0, 1_000.0, 9_000.0)
    row = _by_test(checks.tests(pairs, terrain=clearance))["terrain"]
    assert not row["ok"] and not row["known"] and "1 of 3 places" in row["text"]


def test_without_a_profile_the_smooth_earth_is_tested_and_says_so():
    empty = profile_clearance([[np.nan]], [[np.nan]], 20.0, 1_000.0, 5_000.0)
    found = _by_test(checks.tests(_pair(), terrain=empty))
    assert "terrain" not in found and "terrain was not looked at" in found["line_of_sight"]["text"]


def test_cut_rows():
    def row(deg, other, arc=False, rules=flight.ICAO, nm=20.0, **pair):
        return _by_test(checks.tests(_pair(**pair), rules=rules, cut=Cut(deg, other, nm, arc)))["cut_angle"]

    assert row(30.0, "VOR")["ok"] and not row(29.9, "VOR")["ok"]
    assert not row(44.0, "NDB")["ok"] and not row(44.0, "VOR", rules=flight.FAA)["ok"]
    assert row(45.0, "VOR", rules=flight.FAA)["limit_value"] == 45.0
    assert row(60.0, "VOR", rules=flight.FAA, nm=85.0)["limit_value"] == 65.0
    assert row(66.0, "DME", arc=True)["limit_value"] == 67.0 and "from memory" in row(66.0, "DME", arc=True)["source"]
    arcs = row(80.0, "DME", arc=True, kind="DME", classes="DH")
    assert not arcs["known"] and not arcs["ok"] and "no least angle" in arcs["text"]
    assert "cut_angle" not in checks.tests(_pair(), cut=Cut(np.nan, "VOR", 20.0, False)).test


def test_rows_come_pair_by_pair():
    station = Station.of([-20.0, -20.0], 40.0, 0.0, 5.0, np.array(["VOR", "NDB"], dtype=object))
    rows = checks.tests(Pairs.of([-19.5, -19.5], 40.0, 3_000.0, station, ident=["XQV", "QV"], classes=["T", "MH"]))
    assert rows.pair.tolist() == sorted(rows.pair.tolist())
    for pair in (0, 1):
        order = [checks.TESTS.index(name) for name in rows.test[rows.pair == pair]]
        assert order == sorted(order)
    none = checks.tests(Pairs.of([], [], [], Station.of(np.empty(0), np.empty(0), kind=np.empty(0, dtype=object))))
    assert len(none.test) == 0


def test_a_dme_that_stands_apart_is_measured_from_its_own_site():
    station = Station.of(-20.0, 40.0, 0.0, 5.0, KIND, dme_lon=-19.9, dme_lat=40.0, dme_elev_ft=900.0)
    found = _by_test(checks.tests(Pairs.of(-19.8, 40.0, 6_000.0, station, classes="VL/DH", distance=True)))
    assert found["service_volume"]["value"] == pytest.approx(2.0 * found["service_volume_dme"]["value"], rel=1e-6)
    assert found["dme_overhead"]["limit_value"] == float(cones.dme_overhead_nm(5_100.0))


@given(
    st.floats(5.0, 60.0), st.floats(5.0, 60.0), st.floats(30.0, 90.0), st.floats(1.0, 7.0), st.floats(1.0, 7.0),
)  # fmt: skip
def test_crossing_error_against_the_corners_of_the_area(first_nm, second_nm, cut, alpha, beta):
    """The corners are crossings of the limits of both radials on the ellipsoid; the estimate takes parallel bands."""
    lon, lat = 10.0, 50.0
    lon1, lat1, at_fix_1 = geodesy.direct(lon, lat, 200.0, first_nm)
    lon2, lat2, at_fix_2 = geodesy.direct(lon, lat, 200.0 + cut, second_nm)
    small = 0.05  # angles so small that the bands are parallel: then it must agree
    corners = crossings.radial_radial(
        lon1, lat1, at_fix_1 + 180.0 + small * alpha * np.array([1, 1, -1, -1]),
        lon2, lat2, at_fix_2 + 180.0 + small * beta * np.array([1, -1, 1, -1]),
    )  # fmt: skip
    _, _, off = geodesy.inverse(lon, lat, corners.lon, corners.lat)
    estimate = float(errors.crossing_error_nm(first_nm, small * alpha, second_nm, small * beta, cut))
    assert off.max() == pytest.approx(estimate, rel=0.06)


def test_errors_of_simple_cases():
    assert float(errors.radial_distance_error_nm(20.0, 0.0, 0.5)) == 0.5
    assert float(errors.radial_distance_error_nm(20.0, 5.2, 0.5)) == pytest.approx(np.hypot(1.8201, 0.5), abs=1e-4)
    square = float(errors.crossing_error_nm(20.0, 5.2, 20.0, 5.2, 90.0))
    assert square == pytest.approx(1.8201 * np.sqrt(2.0), abs=2e-4)
    assert np.isinf(errors.crossing_error_nm(20.0, 5.2, 20.0, 4.5, 0.0))


def _area(kinds, **change) -> tuple[Station, Accuracy]:
    """Invented stations round a fix at 40 N 20 W: 20 NM west, south, east and north."""
    kinds = np.array(kinds, dtype=object)
    lon, lat, _ = geodesy.direct(-20.0, 40.0, np.array([270.0, 180.0, 90.0, 0.0])[: len(kinds)], 20.0)
    given = {"elev_ft": 0.0, "decl_deg": 5.0, **change}
    station = Station.of(lon, lat, given["elev_ft"], given["decl_deg"], kinds)
    track, cross = (accuracy.angle_tolerance_deg(kinds, use, 0) for use in (True, False))
    return station, Accuracy(track, cross, lambda slant: accuracy.dme_tolerance_nm(slant, 0))


def _alternatives(kinds, alt_ft=6_000.0, change=None, **more):
    station, accuracy = _area(kinds, **(change or {}))
    names = ["AAX", "BBX", "CCX", "DDX"][: len(kinds)]
    return other_ways.alternatives(-20.0, 40.0, alt_ft, station, accuracy, ident=names, year=2026.5, **more)


def test_alternatives_are_ranked_by_their_error():
    got = _alternatives(["VOR/DME", "VOR", "NDB"])
    assert got.rank.tolist() == [1, 2, 3] and (np.diff(got.error_nm) >= 0.0).all()
    assert got.method[0] == 0 and (got.first[0], got.second[0]) == (0, -1)
    assert {frozenset(pair) for pair in zip(got.first[1:], got.second[1:])} == {frozenset((0, 1)), frozenset((1, 2))}
    assert got.cut_deg.tolist() == pytest.approx([90.0, 90.0, 90.0], abs=0.3)
    assert got.text[0].startswith("radial 085 of AAX at DME 20.0")
    assert any("bearing" in words and "CCX" in words for words in got.text)
    assert len(_alternatives(["VOR/DME", "VOR", "NDB"], count=1).fix) == 1


@pytest.mark.parametrize(
    "change",
    [
        {"in_service": False},
        {"alt_ft": 100.0},
        {"alt_ft": np.nan},
        {"classes": "T", "alt_ft": 20_000.0},
        {"within_nm": 10.0},
        {"change": {"elev_ft": np.nan}},
        {"change": {"decl_deg": np.nan}},
    ],
)
def test_stations_that_do_not_count(change):
    assert len(_alternatives(["VOR/DME", "VOR"], **change).fix) == 0


@pytest.mark.parametrize("kind", ["VOR", "NDB", "TACAN"])
def test_a_station_overhead_gives_no_way(kind):
    """30 000 ft: the cones reach 5.9 NM (VOR), 4.1 (NDB), 7.1 (DME); a station 4 NM off is inside."""
    lon, lat, _ = geodesy.direct(-20.0, 40.0, np.array([0.0, 90.0]), np.array([4.0, 30.0]))
    kinds = np.array([kind, "VOR"], dtype=object)
    accuracy = Accuracy(5.0, 5.0, lambda slant: 0.01 * slant)

    def ways(alt_ft):
        station = Station.of(lon, lat, 0.0, 5.0, kinds)
        return other_ways.alternatives(-20.0, 40.0, alt_ft, station, accuracy, year=2026.5).second.tolist()

    assert ways(30_000.0) == []
    assert 0 in ways(3_000.0) or 1 in ways(3_000.0)


def test_distance_and_bearing_of_one_station_have_their_own_reach():
    """An NDB of class HH reaches 75 NM; of its DME no class is known, so it counts to 40 NM, and not overhead."""
    accuracy = Accuracy(6.9, 6.2, lambda slant: 0.25 + 0.0125 * slant)
    ways = {}
    for nm in (0.8, 1.2, 1.5, 30.0, 41.0, 60.0):
        lon, lat, _ = geodesy.direct(-20.0, 40.0, 0.0, nm)
        station = Station.of(lon, lat, 0.0, np.nan, np.array(["NDB/DME"], dtype=object))
        found = other_ways.alternatives(-20.0, 40.0, 6_000.0, station, accuracy, classes="HH", year=2026.5)
        ways[nm] = len(found.fix)
    assert ways == {0.8: 0, 1.2: 0, 1.5: 1, 30.0: 1, 41.0: 0, 60.0: 0}


def test_a_bearing_of_an_ndb_is_read_by_today_s_variation_at_the_fix():
    station, accuracy = _area(["NDB", "NDB"])
    got = other_ways.alternatives(-20.0, 40.0, 6_000.0, station, accuracy, year=2026.5)
    var = float(magnetism.declination_deg(-20.0, 40.0, year=2026.5))
    assert abs(var) > 2.0
    for row, bearing in ((got.first[0], got.radial_deg[0]), (got.second[0], got.radial_2_deg[0])):
        towards, _, _ = geodesy.inverse(-20.0, 40.0, station.lon[row], station.lat[row])
        assert bearing == pytest.approx((float(towards) + 180.0 - var) % 360.0, abs=1e-9)


def test_alternatives_across_the_antimeridian():
    accuracy = Accuracy(5.0, 5.0, lambda slant: 0.5 + 0.0 * slant)
    for lon, station_lon in ((179.9, -179.8), (-179.9, 179.8), (180.0, -180.0)):
        station = Station.of(station_lon, -16.8, 0.0, 10.0, KIND)
        assert len(other_ways.alternatives(lon, -17.0, 6_000.0, station, accuracy, year=2026.5).fix) == 1


def test_an_antenna_sees_farther_from_a_mast():
    low, high = (_by_test(checks.tests(_pair(), antenna_ft=feet))["line_of_sight"] for feet in (0.0, 100.0))
    more = high["limit_value"] - low["limit_value"]
    assert more == pytest.approx(float(sight.line_of_sight_nm(100.0, 0.0)))


def test_an_ndb_needs_neither_declination_nor_elevation():
    got = _alternatives(["NDB", "NDB"], change={"elev_ft": np.nan, "decl_deg": np.nan})
    assert got.method.tolist() == [1]
    assert len(_alternatives(["DME", "WPT"]).fix) == 0


def test_an_alternative_measured_back_is_the_fix():
    got = _alternatives(["VOR/DME", "NDB", "VOR"], rules=flight.FAA)
    station, _ = _area(["VOR/DME", "NDB", "VOR"])
    for k in range(len(got.fix)):
        one = got.first[k]
        if station.kind[one] == "NDB":
            continue
        lon, lat, _ = geodesy.direct(station.lon[one], station.lat[one], got.radial_deg[k] + 5.0, got.dist_nm[k])
        assert geodesy.inverse(lon, lat, -20.0, 40.0)[2] < 1e-6
        if not np.isnan(got.dme_nm[k]):
            height = navaids.height_nm(6_000.0, 0.0)
            assert got.dme_nm[k] == pytest.approx(float(np.hypot(got.dist_nm[k], height)))


def test_alternatives_for_no_fixes_bad_places_and_bad_calls():
    station, accuracy = _area(["VOR/DME"])
    none = other_ways.alternatives([], [], [], station, accuracy, year=2026.5)
    assert len(none.fix) == len(none.text) == 0
    bad = other_ways.alternatives([np.nan, -20.0], [40.0, 40.0], 6_000.0, station, accuracy, year=2026.5)
    assert bad.fix.tolist() == [1]
    for more in ({"rules": 2}, {"count": 0}, {"year": 2031.0}):
        with pytest.raises(ValueError, match="rules is|count is|year is"):
            other_ways.alternatives(-20.0, 40.0, 6_000.0, station, accuracy, **{"year": 2026.5, **more})
