"""Parts of the ICAO areas: that they contain what they should, tile the ground, grow, mirror and turn."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fixwright.geometry import geodesy
from fixwright.geometry.protection import areas, icao, icao_rnav, icao_speeds, parts, placing, rectangle, shapes
from fixwright.geometry.protection.areas import Designs, Options

NM = 1852.0
ALPHA = np.radians(np.arange(0.0, 360.0, 2.0))
QUADRILATERAL = np.array([(-0.5, -1.8), (0.6, -1.9), (0.6, 1.9), (-0.5, 1.8)])
POINT = np.zeros((1, 2))


def designs(ias=(170.0,), alt=(6000.0,), minutes=1.0, *, fix=POINT, arrivals=None, leg=np.nan, station=np.nan):
    given = [np.atleast_1d(np.asarray(a, float)) for a in (ias, alt, minutes, leg, station)]
    *figures, station = np.broadcast_arrays(*given)
    n = len(station)
    elevation = np.where(np.isfinite(station), 500.0, np.nan)
    return Designs(*figures, station, elevation, [fix] * n, [arrivals] * n)


def random_designs(count, seed=0, **more) -> Designs:
    rng = np.random.default_rng(seed)
    alt = rng.uniform(1000.0, 20000.0, count)
    return designs(rng.uniform(90.0, 270.0, count), alt, np.where(alt > 14000.0, 1.5, 1.0), **more)


def support(made: icao.Figures, which: int, options: Options, alpha=ALPHA) -> np.ndarray:
    """Reach of the basic area (0) or of the whole (1), (N, D)."""
    count = len(made.kind)
    shape = icao.reaches(made, options)[which]
    return shape(np.repeat(np.arange(count), len(alpha)), shapes.Ways.of(np.tile(alpha, count))).height.reshape(
        count, -1
    )


def by_row(made: list[areas.Area]) -> dict[int, dict[str, areas.Area]]:
    out: dict[int, dict[str, areas.Area]] = {}
    for area in made:
        out.setdefault(area.row, {})[area.part] = area
    return out


def size(polygons) -> float:
    return sum(_area(ring) for polygon in polygons for ring in polygon)


def _area(ring) -> float:
    x, y = np.asarray(ring).T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))


def reach(rings_of, alpha=ALPHA) -> np.ndarray:
    return (np.concatenate(rings_of) @ np.stack([np.cos(alpha), np.sin(alpha)])).max(axis=0)


# --- what the parts hold


@pytest.mark.parametrize("kind", ["timed", "rnav", "dme"])
@pytest.mark.parametrize("tolerance_m", [0.5, 5.0, 100.0])
def test_parts_contain_what_they_should_within_the_tolerance(kind, tolerance_m):
    leg = {"leg": 5.0, "station": np.array([30.0, -40.0, 22.0])} if kind == "dme" else {}
    given = designs([120.0, 200.0, 90.0], [3000.0, 9000.0, 5000.0], fix=QUADRILATERAL, **leg)
    options = Options(tolerance_m=tolerance_m, navigation="rnav" if kind == "rnav" else "conventional")
    made, rows = icao.figures(given, options), by_row(icao.areas(given, options))
    assert sorted(rows) == [0, 1, 2]
    for which, names in ((0, ["basic"]), (1, ["basic", "entry"])):
        true = support(made, which, options)
        for k, found in rows.items():
            over = (reach([p[0] for name in names if name in found for p in found[name].polygons_nm]) - true[k]) * NM
            chords = placing.CHORD_SHARE
            assert over.min() >= chords * tolerance_m and over.max() <= (1.0 - chords) * tolerance_m
    for k, found in rows.items():
        for miles in range(1, 6):
            ring, hole = found[f"buffer_{miles}"].polygons_nm[0]
            over = (reach([ring]) - true[k] - miles) * NM
            chords = placing.CHORD_SHARE
            assert over.min() >= chords * tolerance_m and over.max() <= (1.0 - chords) * tolerance_m
            assert _area(ring) > 0.0 > _area(hole)


def test_parts_tile_the_ground():
    """Sizes add up to the outermost ring; pieces run counter-clockwise, holes clockwise."""
    for options in (Options(), Options(entries="none"), Options(category_h=True)):
        for found in by_row(icao.areas(random_designs(20, 1, fix=QUADRILATERAL), options)).values():
            last = list(found.values())[-1]
            assert last.part == ("buffer_2" if options.category_h else "buffer_5")
            total = sum(size(area.polygons_nm) for area in found.values())
            assert total == pytest.approx(_area(last.polygons_nm[0][0]), abs=1e-9)
            assert ("entry" in found) == (options.entries == "all")
            for area in found.values():
                for ring, *holes in area.polygons_nm:
                    assert _area(ring) > 0.0 and all(_area(hole) < 0.0 for hole in holes)


def test_placed_parts_meet_vertex_to_vertex():
    """On the earth every edge of a hold belongs to two rings, one each way round, or to the outermost ring alone."""
    made = icao.areas(random_designs(6, 2, fix=QUADRILATERAL), Options())
    sides = np.array([1, -1, 1, -1, 1, -1])
    placed = placing.place_areas(np.full(6, 179.9), np.linspace(-70.0, 70.0, 6), np.arange(6) * 50.0, sides, made, 5.0)
    assert placed.parts[-1] == len(placed.polygons) - 1 and placed.polygons[-1] == len(placed.rings) - 1
    assert placed.rings[-1] == len(placed.coords) and len(placed.parts) == len(made) + 1
    for row in range(6):
        seen: dict[tuple, int] = {}
        for k, area in enumerate(made):
            if area.row == row:
                for ring in range(placed.polygons[placed.parts[k]], placed.polygons[placed.parts[k + 1]]):
                    line = [tuple(p) for p in placed.coords[placed.rings[ring] : placed.rings[ring + 1]]]
                    assert line[0] == line[-1]
                    for a, b in zip(line, line[1:]):
                        seen[(a, b)] = seen.get((a, b), 0) + 1
        assert set(seen.values()) == {1}
        alone = [edge for edge in seen if edge[::-1] not in seen]
        last = max(k for k, area in enumerate(made) if area.row == row)
        first = placed.polygons[placed.parts[last]]
        outermost = placed.coords[placed.rings[first] : placed.rings[first + 1]]
        assert {a for a, _ in alone} == {tuple(p) for p in outermost}


def test_placed_parts_are_valid():
    shapely = pytest.importorskip("shapely.geometry")
    count = 60
    made = icao.areas(random_designs(count, 3, fix=QUADRILATERAL), Options())
    lat = np.linspace(-80.0, 80.0, count)
    placed = placing.place_areas(np.zeros(count), lat, np.arange(count) * 17.0, np.ones(count), made, 5.0)
    for first, last in zip(placed.polygons, placed.polygons[1:]):
        ring, *holes = (placed.coords[placed.rings[k] : placed.rings[k + 1]] for k in range(first, last))
        assert shapely.Polygon(ring, holes).is_valid


def test_placed_parts_contain_the_true_area():
    """Points on the chords in degrees, brought back to the frame: outside the true area by at most the tolerance."""
    options = Options(tolerance_m=5.0)
    given = designs([230.0], [14000.0], fix=QUADRILATERAL)
    made = icao.areas(given, options)
    true = {"basic": 0, "buffer_5": 1}
    for lat in (0.0, 55.0, -84.0):
        placed = placing.place_areas([20.0], [lat], [73.0], [1], made, 5.0)
        for k, area in enumerate(made):
            if area.part in true:
                first = placed.polygons[placed.parts[k]]
                ring = placed.coords[placed.rings[first] : placed.rings[first + 1]]
                points = np.concatenate([ring[:-1] + share * np.diff(ring, axis=0) for share in (0.0, 0.25, 0.5, 0.75)])
                drawn = np.stack(geodesy.to_frame(20.0, lat, 73.0, 1, *points.T), axis=1)
                edge = np.diff(area.ring_nm, axis=0)
                alpha = np.concatenate([np.radians(np.arange(0.0, 360.0, 0.5)), np.arctan2(-edge[:, 0], edge[:, 1])])
                want = support(icao.figures(given, options), true[area.part], options, alpha)[0]
                want = want + (5.0 if area.part == "buffer_5" else 0.0)
                over = ((drawn @ np.stack([np.cos(alpha), np.sin(alpha)])) - want).max(axis=1) * NM
                assert over.min() > 0.0 and over.max() < 5.0


# --- growing, mirroring, turning


@settings(max_examples=40, deadline=None)
@given(
    st.floats(90.0, 250.0), st.floats(0.0, 13000.0), st.floats(1.0, 3.0), st.floats(0.0, 2.0),
    st.sampled_from(["wind", "fix", "minutes", "entries"]), st.sampled_from(["timed", "rnav"]),
)  # fmt: skip
def test_areas_grow_in_every_direction(ias, alt, minutes, more, what, kind):
    """With the wind, the fix tolerance, the outbound time, and with entries: the greater area holds the smaller one."""
    options = Options(navigation="rnav" if kind == "rnav" else "conventional")
    one = designs([ias], [alt], minutes, fix=QUADRILATERAL)
    if what == "wind":
        before, after = (icao.figures(one, options._replace(wind_kt=w)) for w in (30.0, 30.0 + 10.0 * more))
    elif what == "fix":
        other = designs([ias], [alt], minutes, fix=QUADRILATERAL * (1.0 + more))
        before, after = icao.figures(one, options), icao.figures(other, options)
    elif what == "minutes":
        before = icao.figures(one, options)
        after = icao.figures(designs([ias], [alt], minutes + more, fix=QUADRILATERAL), options)
    else:
        before = after = icao.figures(one, options)
        assert (support(after, 1, options) - support(before, 0, options)).min() >= -1e-9
    for which in (0, 1):
        if what == "minutes":
            # The outbound leg ends farther behind the fix: ahead of it the area may be a hair less.
            behind = ALPHA[np.cos(ALPHA) < -0.2]
            small, great = support(before, which, options, behind), support(after, which, options, behind)
        else:
            small, great = support(before, which, options), support(after, which, options)
        assert (great - small).min() >= -1e-9


@settings(max_examples=25, deadline=None)
@given(st.floats(90.0, 250.0), st.floats(0.0, 20000.0), st.floats(1.0, 30.0), st.floats(100.0, 5000.0))
def test_faster_and_higher_areas_are_larger(ias, alt, faster, higher):
    """In size: a fast flight turns wide where a slow one turns short. The slow flight of 90 kt is in all of them."""
    options = Options(tolerance_m=1.0)
    sizes = []
    for speed, level in ((ias, alt), (ias + faster, alt), (ias, alt + higher)):
        found = by_row(icao.areas(designs([speed], [level]), options))[0]
        sizes.append(
            [size(found["basic"].polygons_nm), size(found["basic"].polygons_nm) + size(found["entry"].polygons_nm)]
        )
    assert np.all(np.array(sizes[1]) > sizes[0]) and np.all(np.array(sizes[2]) > sizes[0])


def test_left_mirrors_right_and_a_turned_course_turns_the_area():
    """Same frame rings: on the earth within a centimetre, all parts."""
    made = icao.areas(designs([200.0], [9000.0], fix=QUADRILATERAL), Options())
    right = placing.place_areas([10.0], [60.0], [40.0], [1], made, 5.0).coords
    left = placing.place_areas([10.0], [60.0], [40.0], [-1], made, 5.0).coords
    turned = placing.place_areas([10.0], [60.0], [163.0], [1], made, 5.0).coords
    u, s = geodesy.to_frame(10.0, 60.0, 40.0, 1, *right.T)
    for other, inbound, sign in ((left, 40.0, -1.0), (turned, 163.0, 1.0)):
        v, t = geodesy.to_frame(10.0, 60.0, inbound, 1, *other.T)
        assert np.hypot(u - v, s - sign * t).max() * NM < 0.01


# --- entries


def test_an_arrival_along_the_inbound_track_needs_nothing():
    """ICAO Doc 8168 Vol II, 5th ed. 2006, p. I-4-3-App C-16 case 1.1 a)."""
    options = Options(entries="arrivals")
    for arrivals in (np.array([0.0]), np.array([-4.0, 3.0]), np.zeros(0)):
        found = by_row(icao.areas(designs(fix=QUADRILATERAL, arrivals=arrivals), options))[0]
        assert "entry" not in found
    none = by_row(icao.areas(designs(fix=QUADRILATERAL), Options(entries="none")))[0]
    assert found["basic"].ring_nm.tobytes() == none["basic"].ring_nm.tobytes()


@settings(max_examples=40, deadline=None)
@given(
    st.floats(80.0, 260.0), st.floats(0.0, 20000.0), st.sampled_from(["timed", "rnav"]),
    st.lists(st.floats(-180.0, 180.0), min_size=1, max_size=3), st.booleans(),
)  # fmt: skip
@example(200.0, 0.0, "timed", [-80.0], False)  # between the ends of the sector of parallel entries
def test_given_arrivals_need_no_more_than_all(ias, alt, kind, arrivals, tolerance_area):
    options = Options(entries="arrivals", navigation="rnav" if kind == "rnav" else "conventional")
    more = dict(minutes=1.5 if alt > 14000.0 else 1.0, fix=QUADRILATERAL if tolerance_area else POINT)
    some = icao.figures(designs([ias], [alt], arrivals=np.array(arrivals), **more), options)
    every = icao.figures(designs([ias], [alt], **more), options._replace(entries="all"))
    whole = support(every, 1, options)
    basic = support(some, 0, options)
    needed = icao.reaches(some, options)[1]
    mine = basic if needed is None else support(some, 1, options)
    assert (mine - basic).min() >= -1e-9
    assert (mine - whole).max() <= 1e-3


def test_more_arrivals_need_more():
    options = Options(entries="arrivals")
    few, many = (icao.figures(designs(arrivals=np.array(a)), options) for a in ([100.0], [100.0, 230.0, -60.0]))
    assert (support(many, 1, options) - support(few, 1, options)).min() >= -1e-9
    assert (support(many, 1, options) - support(few, 1, options)).max() > 0.5


def test_mixed_rows_are_what_each_is_alone():
    """Entries of one hold change no other; equal designs share their rings."""
    alone = []
    lists = [None, np.array([95.0]), np.zeros(0), None]
    for arrivals in lists[:3]:
        given = designs([200.0], [8000.0], fix=QUADRILATERAL, arrivals=arrivals)
        alone.append(icao.areas(given, Options(entries="arrivals")))
    given = designs([200.0] * 4, [8000.0] * 4, fix=QUADRILATERAL)._replace(arrivals_deg=lists)
    found = by_row(icao.areas(given, Options(entries="arrivals")))
    for k, want in enumerate(alone):
        assert [a.part for a in want] == list(found[k])
        for area in want:
            got = found[k][area.part].polygons_nm
            assert all(np.allclose(a, b, atol=5e-3) for p, q in zip(area.polygons_nm, got) for a, b in zip(p, q)
                       if len(a) == len(b))  # fmt: skip
            assert size(got) == pytest.approx(size(area.polygons_nm), rel=2e-3)
    assert found[0]["basic"].ring_nm is found[3]["basic"].ring_nm


# --- figures and options


def test_clearances():
    """ICAO Doc 8168 Vol II, Table II-4-1-1: 984 ft inside and in the first mile, 197 ft in the last (published); 492,
    394, 294 ft between (from memory); 600 m, 1 969 ft, at most over high terrain (from memory)."""
    found = by_row(icao.areas(designs(), Options()))[0]
    assert [a.moc_ft for a in found.values()] == [984.0, 984.0, 984.0, 492.0, 394.0, 294.0, 197.0]
    found = by_row(icao.areas(designs(), Options(moc_factor=2.0, entries="none")))[0]
    assert [a.moc_ft for a in found.values()] == [1969.0, 1969.0, 984.0, 787.0, 591.0, 394.0]
    found = by_row(icao.areas(designs(), Options(moc_metres=True, entries="none")))[0]
    metres = [a.moc_ft * 0.3048 for a in found.values()]
    assert metres == pytest.approx([300.0, 300.0, 150.0, 120.0, 90.0, 60.0])
    found = by_row(icao.areas(designs(), Options(category_h=True, entries="none")))[0]
    assert [(a.part, a.moc_ft) for a in found.values()] == [("basic", 984.0), ("buffer_1", 984.0), ("buffer_2", 492.0)]
    for factor in (0.5, 2.1, np.nan):
        with pytest.raises(ValueError, match="moc_factor"):
            icao.areas(designs(), Options(moc_factor=factor))


def test_wind_speed_and_turbulence_by_option():
    one = designs([200.0], [16000.0], 1.5)
    assert icao.figures(one, Options()).values["w"][0] == pytest.approx(79.0)
    assert icao.figures(one, Options(wind_kt=55.0)).values["w"][0] == 55.0
    k, compressible = (float(icao.figures(one, Options(tas=t)).values["V"][0]) for t in ("k", "compressible"))
    assert k > compressible and float(icao.figures(one, Options()).values["V"][0]) == pytest.approx(compressible)
    rough = icao.figures(one, Options(turbulence=True))
    assert float(rough.values["V"][0] / rough.values["K"][0]) == pytest.approx(280.0)
    slow = icao.figures(one, Options(turbulence=True, category="A/B"))
    assert float(slow.values["V"][0] / slow.values["K"][0]) == pytest.approx(280.0)
    low = icao.figures(designs([150.0], [8000.0]), Options(turbulence=True, category="A/B"))
    assert float(low.values["V"][0] / low.values["K"][0]) == pytest.approx(170.0)


@pytest.mark.parametrize(
    ("change", "word"),
    [({"entries": "some"}, "entries"), ({"navigation": "gps"}, "navigation"), ({"wind_kt": -5.0}, "wind_kt"),
     ({"tas": "x"}, "tas"), ({"step_deg": 7.0}, "step_deg"), ({"tolerance_m": 0.0}, "tolerance_m"),
     ({"turbulence": True, "category": "C"}, "category")],
)  # fmt: skip
def test_options_that_make_no_sense(change, word):
    with pytest.raises(ValueError, match=word):
        icao.areas(designs(), Options(**change))


def test_designs_that_cannot_be_built_are_refused_in_words():
    given = designs([np.nan, 170.0, 170.0, 90.0], [5000.0, np.nan, 5000.0, 5000.0])
    said = icao.refusals(given, Options(wind_kt=200.0))
    assert "no template" in said[0] and "no template" in said[1] and "200 kt" in said[3]
    said = icao.refusals(given, Options())
    assert [bool(text) for text in said] == [True, True, False, False]
    assert {a.row for a in icao.areas(given, Options())} == {2, 3}
    high = designs([250.0], [38000.0], 1.5)
    assert "by k" in icao.refusals(high, Options(tas="k"))[0] and icao.refusals(high, Options())[0] == ""


def test_no_holds():
    nothing = designs([], [], [])
    for construction in (icao.CONSTRUCTION, rectangle.CONSTRUCTION):
        assert len(construction.refusals(nothing, Options())) == 0
        for call in (construction.areas, construction.values, construction.drawing):
            assert call(nothing, Options()) == []


def test_what_is_from_memory_or_ours_is_said():
    found = by_row(icao.areas(designs(), Options()))[0]
    for area in found.values():
        assert (
            "from memory" in area.limits and "derived here" in area.limits and "90 kt is considered too" in area.limits
        )
    alone = icao.areas(designs(), Options(entries="none", slow_ias_kt=np.nan))[0].limits
    assert "entry area" not in alone and "considered too" not in alone
    assert icao_rnav.NOTE in icao.areas(designs(), Options(navigation="rnav"))[0].limits


def test_area_navigation_takes_its_rectangle():
    """ICAO Doc 8168 Vol II, III-3-7, 7.5.2.3: the origin moved round the rectangle of ATT and XTT."""
    options = Options(navigation="rnav", att_nm=0.8, xtt_nm=1.0)
    with_it = support(icao.figures(designs(), options), 0, options)
    point = support(icao.figures(designs(), Options(navigation="rnav")), 0, options)
    corners = reach([np.array([(0.8, 1.0), (-0.8, 1.0), (-0.8, -1.0), (0.8, -1.0)])])
    np.testing.assert_allclose(with_it[0], point[0] + corners, atol=1e-9)
    with pytest.raises(ValueError, match="att_nm"):
        icao.areas(designs(), Options(navigation="rnav", xtt_nm=1.0))


# --- values and drawing


def test_every_line_of_the_sheet():
    sheet = icao.values(designs([220.0], [10000.0]), Options())
    assert [v.number for v in sheet[: len(icao.LINES) + 1]] == ["0", *(str(line.number) for line in icao.LINES)]
    by_name = {v.name: v for v in sheet}
    assert by_name["XE"].value == pytest.approx(13.28, abs=0.005) and by_name["XE"].mark == "from memory"
    assert by_name["V"].mark == "published" and by_name["V"].unit == "kt"
    assert (by_name["IAS"].value, by_name["IAS"].mark) == (pytest.approx(220.0), "as entered")
    assert all(v.source and v.mark and np.isfinite(v.value) and v.row == 0 for v in sheet)
    assert [v.name for v in sheet if not v.unit] == ["K"]
    assert sum(v.number.startswith("M") for v in sheet) == 6


def sheet_of(options, given=None):
    return {v.name: v for v in icao.values(designs([220.0], [10000.0]) if given is None else given, options)}


def test_a_line_says_how_its_own_value_came_about():
    """What an option puts in place of the document's formula is not printed under that formula, nor as published."""
    wind = sheet_of(Options(wind_kt=40.0))["w"]
    assert (wind.value, wind.formula, wind.mark) == (40.0, "as given", "as entered")
    plain = sheet_of(Options())
    assert plain["w"].formula == "2 h + 47" and plain["w"].mark == "published"
    for asked, options in ((None, Options(tas="compressible")), (designs([240.0], [20000.0], 1.5), Options())):
        found = sheet_of(options, asked)
        assert found["V"].mark == found["K"].mark == "from memory" and "Appendix A" in found["V"].source
        assert found["V"].value == pytest.approx(found["K"].value * found["IAS"].value)
    assert sheet_of(Options(tas="k"), designs([240.0], [20000.0], 1.5))["V"].mark == "published"
    # Just above 14 000 ft the factor of that level stands: ours.
    assert sheet_of(Options(), designs([230.0], [14100.0], 1.5))["V"].mark == "derived"
    rough = sheet_of(Options(turbulence=True), designs([150.0], [8000.0]))["IAS"]
    assert (rough.value, rough.mark) == (pytest.approx(280.0), "published") and "II-4-1-2" in rough.source
    high = sheet_of(Options(moc_factor=2.0))["clearance inside, times 2"]
    assert (high.value, high.mark) == (1969.0, "from memory") and "Appendix B" in high.source
    metres = sheet_of(Options(moc_metres=True))["clearance to 4 NM outside"]
    assert metres.value == pytest.approx(90.0 / 0.3048) and "metres" in metres.formula
    box = {v.name: v for v in rectangle.values(designs([160.0], [6000.0]), Options(wind_kt=30.0))}
    assert (box["wind"].mark, box["TAS"].formula, box["outbound time"].value) == ("as entered", "K * IAS", 1.0)


def test_the_sheet_of_area_navigation_has_the_lines_that_are_used():
    """Its template has no point i: changing what it leaves out changes nothing."""
    options = Options(navigation="rnav", att_nm=0.8, xtt_nm=1.0)
    own = {v.number: v for v in icao.values(designs(), options)}
    assert {"N1", "N2", "N3"} <= set(own) and "32" not in own and "14" not in own
    assert (own["N4"].value, own["N5"].value, own["N4"].mark) == (0.8, 1.0, "as entered")
    assert "N4" not in {v.number for v in icao.values(designs(), options._replace(att_nm=np.nan, xtt_nm=np.nan))}
    values = icao.figures(designs(), options).values
    other = {name: a + 1.0 if name in icao_rnav.NOT_USED and name not in ("XE", "YE") else a
             for name, a in values.items()}  # fmt: skip
    ways = shapes.Ways.of(ALPHA)
    rows = np.zeros(len(ALPHA), dtype=np.int64)
    for one, two in zip(icao_rnav.template(values), icao_rnav.template(other)):
        np.testing.assert_array_equal(one(rows, ways).height, two(rows, ways).height)


def test_the_drawing_of_the_template():
    """All letters once as points; circles of the tabulated radii; tangents touch both discs from outside; the outline
    holds every disc of the hull."""
    drawn = icao.drawing(designs([220.0], [10000.0]), Options())
    values = {name: float(a[0]) for name, a in icao.figures(designs([220.0], [10000.0]), Options()).values.items()}
    points = {d.letter: d.path_nm[0] for d in drawn if d.kind == "point"}
    letters = "a b c d e f g h o p i1 i2 i3 i4 j k l m n3 n4 E".split()
    assert sorted(points) == sorted(letters)
    circles = {d.letter: d for d in drawn if d.kind == "arc"}
    for letter, line in (("b", "Wb"), ("g", "Wg"), ("h", "Wh"), ("p", "Wp"), ("i1", "Wi1"), ("i3", "Wi1"),
                         ("k", "Wk"), ("l", "Wk"), ("m", "Wm"), ("n3", "Wn3"), ("n4", "Wn4")):  # fmt: skip
        assert circles[letter].radius_nm == pytest.approx(values[line], abs=1e-12)
        far = np.hypot(*(circles[letter].path_nm - points[letter]).T)
        np.testing.assert_allclose(far, values[line], atol=1e-9)
    np.testing.assert_allclose(points["c"], (values["ac"], 0.0), atol=1e-12)
    np.testing.assert_allclose(points["g"], (values["ac"], 2.0 * values["r"]), atol=1e-12)
    np.testing.assert_allclose(points["p"], (values["ab"] - values["r"], values["r"]), atol=1e-12)
    np.testing.assert_allclose(points["n3"] - points["i3"], (0.0, -2.0 * values["r"]), atol=1e-12)
    discs = {k: (points[k], circles[k].radius_nm) for k in circles}
    tangents = [d for d in drawn if d.kind == "tangent"]
    assert len(tangents) >= 8
    for d in tangents:
        one, two = d.letter.split("-")
        for end, letter in zip(d.path_nm, (one, two)):
            assert np.hypot(*(end - discs[letter][0])) == pytest.approx(discs[letter][1], abs=1e-9)
        edge = np.diff(d.path_nm, axis=0)[0]
        if np.hypot(*edge) > 1e-6:
            normal = np.array([edge[1], -edge[0]]) / np.hypot(*edge)
            for letter in "c d e f g i1 i2 j k l m n3 n4".split():
                centre, radius = discs[letter]
                assert (centre - d.path_nm[0]) @ normal + radius <= 1e-9
    outline = next(d for d in drawn if d.kind == "outline").path_nm
    assert outline[0].tolist() == outline[-1].tolist()
    gone = reach([outline], ALPHA)
    for centre, radius in discs.values():
        assert (centre @ np.stack([np.cos(ALPHA), np.sin(ALPHA)]) + radius - gone).max() < 5.0 / NM
    # E: XE from the extreme on the C axis, YE from that on the D axis.
    np.testing.assert_allclose(points["E"], outline.min(axis=0) + (values["XE"], values["YE"]), atol=2.0 / NM)
    lines = {d.letter for d in drawn if d.kind == "line"}
    assert lines == {"3", "C", "D"}


# --- rectangle


def test_the_rectangle_and_its_bounds():
    """Validity of Table I-4-3-App C-5: TAS 90 to 290 kt, wind to 65 kt, 1 to 3 minutes."""
    given = designs(
        [150.0, 60.0, 280.0, 150.0, 150.0], [5000.0, 2000.0, 9000.0, 12000.0, 5000.0], [1.0, 1.0, 1.0, 1.0, 4.0]
    )
    said = rectangle.refusals(given, Options())
    assert said[0] == ""
    for text, word in zip(said[1:], ("TAS from 90", "TAS from 90", "wind from 0 to 65", "outbound time from 1 to 3")):
        assert word in text and "Table I-4-3-App C-5" in text
    made = rectangle.areas(given, Options())
    assert {a.row for a in made} == {0} and [a.part for a in made] == ["basic", *[f"buffer_{k}" for k in range(1, 6)]]
    assert "from memory" in made[0].limits
    assert rectangle.refusals(given, Options(wind_kt=60.0))[3] == ""


def test_the_rectangle_holds_template_and_entries_of_a_point_fix():
    """Plausibility of formulas from memory: within their validity the rectangle holds the template in full."""
    given = designs([120.0, 170.0, 200.0], [3000.0, 5000.0, 8000.0])
    options = Options(slow_ias_kt=np.nan)
    template = support(icao.figures(given, options), 0, options)
    for k, found in by_row(rectangle.areas(given, options)).items():
        assert (reach([found["basic"].ring_nm]) - template[k]).min() > -0.1
    values = {v.name: v.value for v in rectangle.values(given, options) if v.row == 1}
    ring = by_row(rectangle.areas(given, options))[1]["basic"].ring_nm
    np.testing.assert_allclose(
        [ring[:, 0].min(), ring[:, 0].max(), ring[:, 1].min(), ring[:, 1].max()],
        [-values["x_max"], -values["x_min"], values["y_min"], values["y_max"]], atol=5.0 / NM,
    )  # fmt: skip
    drawn = [d for d in rectangle.drawing(given, options) if d.row == 1]
    assert sorted(d.letter for d in drawn) == ["", "P1", "P2", "P3", "P4"]


def test_speeds_by_level():
    assert icao_speeds.area_ias_kt(np.array([np.nan, 5000.0])).tolist()[1] == 230.0
    assert np.isnan(icao_speeds.area_ias_kt(np.nan))
    with pytest.raises(ValueError, match="category"):
        icao_speeds.area_ias_kt(5000.0, "C")


def test_rings_of_parts_have_no_holes_of_their_own():
    """A basic area is one ring; parts.build gives it whatever the entries are."""
    made = parts.build(1, shapes.points([QUADRILATERAL]), None, Options())
    assert [part.name for part in made[0]][0] == "basic" and len(made[0][0].polygons_nm[0]) == 1
