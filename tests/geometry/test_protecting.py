"""From rows of holds to a construction's frame and back to the earth; what a construction is given and what it gives.

The constructions themselves are tested elsewhere: most of these tests use one of their own, made of boxes.
"""

from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

pytest.importorskip("shapely", reason="shapely is not installed (the extra 'areas')")

from shapely import wkb as shapely_wkb
from shapely.geometry import Point, Polygon

from fixwright.geometry import plan, polygons, wkb
from fixwright.geometry.plan import protecting
from fixwright.geometry.plan.levels import read_levels
from fixwright.geometry.protection import outline
from fixwright.geometry.protection.areas import Area, Construction, Designs, Drawn, LineValue, Options

YEAR = 2026.5
NM = 1852.0


def holds(n=1, **changes):
    """Hold rows; changes by name of a column, one value or N. Inbound true, one minute, right turns, 150 kt."""
    given = dict(
        lon=10.0, lat=50.0, inbound=70.0, turn=0, leg_min=1.0, leg_nm=np.nan, leg_end=-1, ias=90.0, area_ias=150.0,
        alt=4000.0, alt_to=np.nan, rules=0, navaid_lon=np.nan, navaid_lat=np.nan, navaid_elev_ft=np.nan,
        navaid_kind="",
    )  # fmt: skip
    given.update(changes)
    wide = {name: np.array(np.broadcast_to(np.asarray(value), n)) for name, value in given.items()}
    wide["leg_min"] = np.where(np.isfinite(wide["leg_nm"]), np.nan, wide["leg_min"])
    fix = {name: wide[name] for name in ("lon", "lat", "navaid_lon", "navaid_lat", "navaid_elev_ft")}
    fix["navaid_kind"] = wide["navaid_kind"].astype(object)
    rows = plan.design_holds(
        fix, np.array([f"H{i}" for i in range(n)], dtype=object), plan.Keys(), inbound_deg=wide["inbound"], north=2,
        turn=wide["turn"], leg_min=wide["leg_min"], leg_nm=wide["leg_nm"], leg_end=wide["leg_end"],
        ias_kt=wide["ias"], area_ias_kt=wide["area_ias"], alt_ft=wide["alt"], alt_to_ft=wide["alt_to"], isa_dev_c=0.0,
        rules=wide["rules"], var_date="", year=YEAR,
    )  # fmt: skip
    return rows


def box(west, south, east, north):
    return np.array([[west, south], [east, south], [east, north], [west, north]], float)


class Boxes:
    """A construction of boxes that grow with the level: a basic one, and a ring of a mile around it. Keeps what it is
    given; refuses speeds above 200 kt and levels above 15 000 ft."""

    def __init__(self):
        self.designs: Designs | None = None

    def construction(self):
        return Construction("boxes", self.refusals, self.areas, self.values, self.drawing)

    def refusals(self, designs, options):
        fast = np.where(designs.ias_kt > 200.0, "too fast", "").astype(object)
        return np.where(designs.alt_ft > 15_000.0, "too high", fast)

    def areas(self, designs, options):
        self.designs, out = designs, []
        for i, alt in enumerate(designs.alt_ft):
            half = 2.0 + alt / 10_000.0
            inner = box(-3.0 * half, -half, half, 2.0 * half)
            outer = box(-3.0 * half - 1.0, -half - 1.0, half + 1.0, 2.0 * half + 1.0)
            out.append(Area(i, "basic", ((inner,),), 984.0, alt, 100.0 + alt / 100.0, 50.0, "as a test"))
            out.append(Area(i, "buffer_1", ((outer, inner[::-1]),), 492.0, alt, 100.0, np.nan, ""))
        return out

    def values(self, designs, options):
        return [LineValue(i, "1", "half", "2 + alt", float(a), "ft", "a test", "derived")
                for i, a in enumerate(designs.alt_ft)]  # fmt: skip

    def drawing(self, designs, options):
        path = np.array([[0.0, 0.0], [-60.0, 0.0]])
        return [Drawn(i, kind, letter, path[:size], np.nan, "drawn") for i in range(len(designs.alt_ft))
                for kind, letter, size in (("point", "a", 1), ("line", "", 2))]  # fmt: skip


@pytest.fixture
def boxes(monkeypatch):
    made = Boxes()
    monkeypatch.setitem(protecting.CONSTRUCTIONS, "boxes", made.construction())
    return made


def in_frame(rows, k, coords):
    """Places as frame coordinates of hold k, by geographiclib."""
    made = rows.holds
    out = []
    for lon, lat in coords:
        line = Geodesic.WGS84.Inverse(made.lat[k], made.lon[k], lat, lon)
        beta = np.radians(made.side[k] * (line["azi1"] - made.inbound_true_deg[k]))
        out.append([line["s12"] / NM * np.cos(beta), line["s12"] / NM * np.sin(beta)])
    return np.array(out)


def shapes_of(areas):
    return wkb.polygons_with_holes(areas.coords, areas.rings, areas.polygons, areas.parts)


# --- what a construction is given


def test_speed_level_and_time(boxes):
    """The area's speed, the top of the block; above 14 000 ft a minute and a half is standard (ICAO Doc 8168 Vol II,
    II-4-1, 1.3.2.2), which a lower hold's own minute does not say."""
    tops, speeds = [np.nan, 6000.0, 15_000.0, np.nan], [90.0, 150.0, 170.0, 80.0]
    rows = holds(4, alt_to=tops, leg_min=[1.0, 0.5, 1.0, 2.0], area_ias=speeds)
    plan.protect(rows, "boxes")
    assert boxes.designs.ias_kt.tolist() == speeds
    assert boxes.designs.alt_ft.tolist() == [4000.0, 6000.0, 15_000.0, 4000.0]
    assert boxes.designs.outbound_min.tolist() == [1.0, 1.0, 1.5, 2.0]
    assert np.isnan(boxes.designs.leg_nm).all() and np.isnan(boxes.designs.station_u_nm).all()


def test_a_distance_leg_takes_its_time(boxes):
    """10 NM at 150 kt IAS, 6 000 ft, ISA+15: K 1.1231 (ICAO Doc 8168 Vol II, Table I-4-3-App C-1, its example)."""
    rows = holds(2, alt=6000.0, leg_nm=[10.0, 1.0], leg_end=1)
    plan.protect(rows, "boxes")
    assert boxes.designs.leg_nm.tolist() == [10.0, 1.0]
    assert boxes.designs.outbound_min[0] == pytest.approx(10.0 / (150.0 * 1.1231) * 60.0, rel=1e-4)
    assert boxes.designs.outbound_min[1] == 1.0  # at least the standard time


@pytest.mark.parametrize(("behind", "sign"), [(False, 1.0), (True, -1.0)])
def test_where_the_dme_lies(boxes, behind, sign):
    """Ahead along the inbound course positive, behind negative; only for a leg that its distance ends."""
    at = Geodesic.WGS84.Direct(50.0, 10.0, 70.0 + 180.0 * behind, 20.0 * NM)
    rows = holds(
        3, leg_nm=[5.0, 5.0, np.nan], leg_end=[0, 1, -1], navaid_lon=at["lon2"], navaid_lat=at["lat2"],
        navaid_elev_ft=700.0, navaid_kind="VOR/DME",
    )  # fmt: skip
    plan.protect(rows, "boxes")
    np.testing.assert_allclose(boxes.designs.station_u_nm, [sign * 20.0, np.nan, np.nan], atol=1e-6)
    np.testing.assert_allclose(boxes.designs.station_elev_ft, [700.0, np.nan, np.nan])
    np.testing.assert_allclose(boxes.designs.navaid_nm, [20.0, 20.0, 20.0], atol=1e-6)


def test_arrivals_are_turned_into_the_frame(boxes):
    """A heading 50 degrees more than the inbound course is +50 with right turns and -50 with left turns."""
    rows = holds(3, turn=[0, 1, 0], inbound=[350.0, 350.0, 10.0])
    plan.protect(rows, "boxes", arrivals=[np.array([40.0, 350.0]), np.array([40.0]), np.zeros(0)])
    assert [a.tolist() for a in boxes.designs.arrivals_deg] == [[50.0, 0.0], [-50.0], []]
    plan.protect(rows, "boxes")
    assert boxes.designs.arrivals_deg == [None] * 3


def test_tolerance_areas_are_brought_into_the_frame(boxes):
    rows = holds(2, turn=[1, 0])
    ring = np.array([[10.02, 50.0], [10.0, 50.03], [9.97, 49.99]])
    plan.protect(rows, "boxes", tolerance_areas=[ring, None])
    given = boxes.designs.tolerance_areas_nm
    np.testing.assert_allclose(given[0], in_frame(rows, 0, ring), atol=1e-6)
    assert given[1].tolist() == [[0.0, 0.0]]


def test_only_what_is_good_and_not_refused(boxes):
    rows = holds(4, lat=[50.0, np.nan, 50.0, 50.0], area_ias=[150.0, 150.0, 230.0, 150.0])
    got = plan.protect(rows, "boxes")
    assert got.reasons.tolist() == ["", "the row has no usable position", "too fast", ""]
    assert got.areas.columns["hold"].tolist() == ["H0", "H0", "H3", "H3"]
    assert len(boxes.designs.ias_kt) == 2
    with pytest.raises(ValueError, match="construction is 'circle'; it must be one of template"):
        plan.protect(rows, "circle")


def test_no_holds(boxes):
    rows = holds(2, lat=np.nan)
    for levels in (None, read_levels("3000, 4000")[0]):
        got = plan.protect(rows, "boxes", levels=levels, explained=True)
        assert len(got.areas.columns["hold"]) == 0 and shapes_of(got.areas) == []
        assert wkb.multilines(*got.lines[1:]) == [] and len(got.values["hold"]) == 0


# --- what comes out


@pytest.mark.parametrize("turn", [0, 1])
def test_placed_on_the_earth(boxes, turn):
    """Every corner by geographiclib in the frame again: the box to a centimetre, a left turn's mirrored."""
    rows = holds(1, turn=turn)
    areas = plan.protect(rows, "boxes").areas
    basic = in_frame(rows, 0, areas.coords[areas.rings[0] : areas.rings[1]])
    half = 2.4
    assert basic.min(axis=0) == pytest.approx([-3.0 * half, -half], abs=0.01 / NM)
    assert basic.max(axis=0) == pytest.approx([half, 2.0 * half], abs=0.01 / NM)
    assert areas.columns["part"].tolist() == ["basic", "buffer_1"]
    north = areas.coords[areas.rings[0] : areas.rings[1], 1].max() - 50.0
    south = 50.0 - areas.coords[areas.rings[0] : areas.rings[1], 1].min()
    assert (north < south) == (turn == 0)  # inbound east-north-east: right turns lie to the south


def test_turning_the_inbound_course_turns_the_area(boxes):
    """In the frame of each hold the same, to a centimetre, wherever it lies and whichever way it points."""
    rows = holds(5, inbound=[0.0, 70.0, 133.0, 250.0, 359.9], lon=[10.0, -179.99, 179.99, 0.0, 77.0],
                 lat=[50.0, 0.0, -60.0, 84.0, 1.0])  # fmt: skip
    areas = plan.protect(rows, "boxes").areas
    for k in range(5):
        begin = areas.rings[areas.polygons[areas.parts[2 * k]]]
        frame = in_frame(rows, k, areas.coords[begin : areas.rings[areas.polygons[areas.parts[2 * k]] + 1]])
        assert frame.min(axis=0) == pytest.approx([-7.2, -2.4], abs=0.01 / NM)
        assert frame.max(axis=0) == pytest.approx([2.4, 4.8], abs=0.01 / NM)


def test_sizes_leave_the_hole_out(boxes):
    """Geodesic areas by geographiclib, the ring without what it goes round."""
    areas = plan.protect(holds(1), "boxes").areas
    sizes = []
    for k in range(3):
        made = Geodesic.WGS84.Polygon()
        for lon, lat in areas.coords[areas.rings[k] : areas.rings[k + 1] - 1]:
            made.AddPoint(lat, lon)
        sizes.append(abs(made.Compute()[2]) / NM**2)
    assert sizes[0] == pytest.approx(sizes[2], rel=1e-9)
    assert areas.columns["area_nm2"].tolist() == pytest.approx([sizes[0], sizes[1] - sizes[0]], rel=2e-7)


def test_across_the_antimeridian(boxes):
    """A ring-shaped part split at 180 degrees: valid, within the range, and of the same size."""
    there, here = (plan.protect(holds(1, lon=lon, lat=5.0), "boxes").areas for lon in (179.98, 20.0))
    for made, same in zip(shapes_of(there), shapes_of(here)):
        split, whole = shapely_wkb.loads(made), shapely_wkb.loads(same)
        assert split.is_valid and -180.0 <= split.bounds[0] and split.bounds[2] <= 180.0
        assert split.area == pytest.approx(whole.area, rel=1e-9) and len(split.geoms) == 2


# --- levels


@pytest.mark.parametrize(
    ("given", "levels"),
    [
        ("3000", [3000.0]),
        ("5000, 3000;4 000", [3000.0, 4000.0, 5000.0]),
        ("5000;5000", [5000.0]),
        ("-100; 60000", [-100.0, 60000.0]),
        ("every 1000", [4000.0, 5000.0, 6000.0, 6500.0]),
        ("EVERY 2 500 ", [4000.0, 6500.0]),
    ],
)
def test_levels(given, levels):
    made, problem = read_levels(given)
    assert problem == "" and made.of(4000.0, 6500.0).tolist() == levels


@pytest.mark.parametrize("given", ["high", "3000,,5000", "3000; ft", "70000", "every", "every 0", "every ten", "5,000",
                                   "3000; nan", ", ".join(str(100 * k) for k in range(61))])  # fmt: skip
def test_levels_that_are_none(given):
    made, problem = read_levels(given)
    assert made is None and problem


def test_no_levels():
    assert read_levels("  ") == (None, "")


def test_a_deep_block_has_no_more_levels_than_are_allowed():
    made, _ = read_levels("every 100")
    assert len(made.of(0.0, 60_000.0)) == 60


def test_each_level_and_their_union(boxes):
    """Upward and then the union: each part of it holds, at any place, the innermost part of any level."""
    rows = holds(2, alt=[4000.0, 3000.0], alt_to=[6000.0, np.nan])
    areas = plan.protect(rows, "boxes", levels=read_levels("every 1000")[0]).areas
    columns = {name: values.tolist() for name, values in areas.columns.items()}
    assert columns["hold"] == ["H0"] * 8 + ["H1"] * 2
    assert columns["part"] == ["basic", "buffer_1"] * 5
    assert columns["levels"] == ["4000"] * 2 + ["5000"] * 2 + ["6000"] * 2 + ["4000, 5000, 6000"] * 2 + ["3000"] * 2
    assert columns["alt_ft"][:8] == [4000.0] * 2 + [5000.0] * 2 + [6000.0] * 4
    assert columns["tas_kt"][6] == 160.0 and columns["wind_kt"][6] == 50.0 and np.isnan(columns["wind_kt"][7])
    assert columns["limits"][6] == f"{protecting.AT_A_POINT}; as a test; union of 3 levels"
    shapes = [shapely_wkb.loads(made) for made in shapes_of(areas)]
    # boxes grow with the level, so the union is the area of the highest
    for part in (0, 1):
        assert shapes[6 + part].symmetric_difference(shapes[4 + part]).area < 1e-9


def test_union_of_areas_that_are_not_nested():
    """Two crossing boxes with a ring each: the union's ring goes round both, and takes nothing of either basic part."""
    levels = []
    for inner in (box(0, 0, 10, 2), box(4, -4, 6, 6)):
        outer = inner + np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
        levels.append([Area(0, "basic", ((inner,),), 984.0, 1.0, 1.0, np.nan, ""),
                       Area(0, "buffer_1", ((outer, inner[::-1]),), 492.0, 1.0, 1.0, np.nan, "")])  # fmt: skip
    basic, ring = protecting.union(levels, 7)
    assert (basic.row, ring.row, basic.part, ring.part) == (7, 7, "basic", "buffer_1")
    assert polygons.area(basic.polygons_nm) == pytest.approx(20.0 + 20.0 - 4.0)
    whole = Polygon(levels[0][1].polygons_nm[0][0]).union(Polygon(levels[1][1].polygons_nm[0][0]))
    assert polygons.area(ring.polygons_nm) == pytest.approx(whole.area - 36.0)
    assert polygons.contains(ring.polygons_nm, (3.5, -0.5)) and not polygons.contains(ring.polygons_nm, (5.0, -3.0))


def test_a_union_has_no_slivers():
    """What one level has by a rounding more than what lies inside is not drawn as a piece of its own."""
    square = np.array([(-2.0, -2.0), (2.0, -2.0), (2.0, 2.0), (-2.0, 2.0)])

    def part(level, name, *polygons):
        return Area(level, name, polygons, 984.0, 5000.0, 150.0, 50.0, "")

    low = [part(0, "entry", (square,)), part(0, "buffer_1", (2.0 * square, 1.1 * square[::-1]))]
    high = [part(1, "entry", (square,)), part(1, "buffer_1", (square * (1.0 + 1e-11),))]
    names = [(area.part, len(area.polygons_nm)) for area in protecting.union([low, high], 2)]
    assert names == [("entry", 1), ("buffer_1", 1)]
    speck = (square * 1e-7)[::-1]
    low, high = [part(0, "entry", (square, speck))], [part(1, "entry", (square, speck))]
    (whole,) = protecting.union([low, high], 2)
    assert [[len(ring) for ring in rings] for rings in whole.polygons_nm] == [[4]]


def test_a_hold_is_refused_as_a_whole(boxes):
    rows = holds(2, alt_to=[16_000.0, np.nan])
    got = plan.protect(rows, "boxes", levels=read_levels("3000; 15500; 16000")[0])
    assert got.reasons.tolist() == ["at 15500 ft: too high"] * 2
    got = plan.protect(rows, "boxes", levels=read_levels("every 2000")[0])
    assert got.reasons.tolist() == ["at 16000 ft: too high", ""]
    assert got.areas.columns["levels"].tolist() == ["4000", "4000"]


# --- the sheet and the drawing


def test_values_and_lines(boxes):
    rows = holds(2, turn=[0, 1])
    got = plan.protect(rows, "boxes", levels=read_levels("3000; 5000")[0], explained=True)
    assert got.values["hold"].tolist() == ["H0", "H0", "H1", "H1"]
    assert got.values["alt_ft"].tolist() == got.values["value"].tolist() == [3000.0, 5000.0] * 2
    assert set(got.values["mark"]) == {"derived"} and set(got.values["construction"]) == {"boxes"}
    lines = [shapely_wkb.loads(made) for made in wkb.multilines(*got.lines[1:])]
    assert got.lines.columns["kind"].tolist() == ["point", "line"] * 4
    assert [len(one.geoms) for one in lines] == [2, 1] * 4
    for cross in lines[::2]:
        assert cross.centroid.distance(Point(10.0, 50.0)) < 1e-6
        assert all(0.001 < arm.length < 0.01 for arm in cross.geoms)
    end = in_frame(rows, 0, lines[1].geoms[0].coords)[-1]
    assert end == pytest.approx([-60.0, 0.0], abs=1e-6)
    assert len(lines[1].geoms[0].coords) > 2  # cut, so that its chords keep to the course
    nothing = plan.protect(rows, "boxes")
    assert len(nothing.values["hold"]) == 0 and len(nothing.lines.columns["hold"]) == 0


# --- outlines

CORNERS = [(4.0, -3.0), (4.0, 5.0), (-4.0, 5.0), (-5.0, 2.0), (-9.0, 4.0), (-9.0, -3.0)]
"""An invented template: it is nobody's."""


def outlines():
    along, across = np.array(CORNERS).T
    names = np.full(len(CORNERS), "invented", dtype=object)
    made, problem = outline.read_outlines(names, np.full(len(CORNERS), "", dtype=object), along, across)
    assert problem == ""
    return outline.Outlines(made, ())


@pytest.mark.parametrize("turn", [0, 1])
def test_an_outline_is_placed_and_mirrored(turn):
    """Each corner of the table lies in the primary area, within the tolerance of its edge, by geographiclib."""
    rows = holds(1, turn=turn, inbound=133.0)
    areas = plan.protect(rows, "outline", Options(5.0, outlines=outlines())).areas
    assert areas.columns["part"].tolist() == ["primary", "secondary"]
    assert areas.columns["moc_ft"].tolist() == [1000.0, 500.0]
    assert np.isnan(areas.columns["tas_kt"]).all() and np.isnan(areas.columns["wind_kt"]).all()
    primary = Polygon(in_frame(rows, 0, areas.coords[areas.rings[0] : areas.rings[1]]))
    assert primary.covers(Polygon(CORNERS)) and primary.area == pytest.approx(Polygon(CORNERS).area, rel=2e-3)
    whole = Polygon(in_frame(rows, 0, areas.coords[areas.rings[1] : areas.rings[2]]))
    around = Polygon(CORNERS).buffer(2.0, 400)
    assert whole.covers(around.buffer(-1e-4)) and whole.area == pytest.approx(around.area, rel=2e-3)
    assert "illustration" not in areas.columns["limits"][0]


def test_no_outline_fits():
    book = outlines()._replace(bands=(outline.Band("invented", np.nan, 3000.0, *[np.nan] * 4),))
    got = plan.protect(holds(2, alt=[3000.0, 4000.0]), "outline", Options(outlines=book))
    assert got.reasons.tolist() == ["", "no outline is chosen for 150 kt at 4000 ft, the navaid's distance unknown"]


# --- what is said


def test_illustration_and_times(boxes):
    """For a hold by the FAA's rules, ICAO's areas are an illustration; a distance leg and a longer time are told."""
    rows = holds(3, rules=[1, 0, 0], leg_nm=[np.nan, 6.0, np.nan], leg_end=1, alt_to=[np.nan, np.nan, 15_000.0])
    limits = plan.protect(rows, "boxes").areas.columns["limits"][::2].tolist()
    assert all(text.startswith(f"{protecting.AT_A_POINT}; ") for text in limits)
    limits = [text.partition("; ")[2] for text in limits]
    assert limits[0] == f"{protecting.ILLUSTRATION}; as a test"
    assert limits[1] == f"{protecting.DISTANCE_LEG}; as a test"
    assert limits[2] == "made for the 1.5 min that are standard at 15000 ft; as a test"
