"""Shapes as WKB: read back by two other libraries, split at the 180th meridian without loss."""

from __future__ import annotations

import struct
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import wkb

shapely = pytest.importorskip("shapely", reason="shapely is not installed (the extra 'areas')")
from shapely import affinity  # noqa: E402
from shapely import wkb as shapely_wkb  # noqa: E402
from shapely.geometry import LineString, MultiPolygon, Polygon, box  # noqa: E402
from shapely.ops import unary_union  # noqa: E402


def _batch(*shapes):
    arrays = [np.asarray(shape, dtype=float).reshape(-1, 2) for shape in shapes]
    return np.concatenate(arrays), np.concatenate([[0], np.cumsum([len(a) for a in arrays])])


def _polygon(ring):
    """The one feature of a ring, read back; every part valid and within the range."""
    made = shapely_wkb.loads(wkb.multipolygons(*_batch(ring))[0])
    assert made.geom_type == "MultiPolygon" and made.is_valid
    assert made.bounds[0] >= -180.0 and made.bounds[2] <= 180.0
    return made


def _line(line, m=None):
    coords, offsets = _batch(line)
    return wkb.multilines(coords, offsets)[0] if m is None else wkb.multilines_m(coords, m, offsets)[0]


def _parts(geometry):
    return [list(part.coords) for part in geometry.geoms]


def _expected(ring, turns=range(-3, 4)):
    """The same by another road: the ring cut by shapely with bands of 360 degrees, each moved into range."""
    polygon = Polygon(ring)
    bands = [(k, polygon.intersection(box(-180 + 360 * k, -90, 180 + 360 * k, 90))) for k in turns]
    return unary_union([affinity.translate(band.buffer(0.0), -360 * k) for k, band in bands if band.area > 0.0])


SQUARE = np.array([[179.0, 0.0], [181.0, 0.0], [181.0, 1.0], [179.0, 1.0], [179.0, 0.0]])


def test_bytes_are_those_of_the_standard():
    """OGC 06-103r4 / ISO 13249-3: byte order, type and counts, then the coordinates; built here field by field."""
    ring = SQUARE - [170.0, 0.0]
    polygon = struct.pack("<BIII10d", 1, 3, 1, 5, *ring.ravel())
    assert wkb.multipolygons(*_batch(ring)) == [struct.pack("<BII", 1, 6, 1) + polygon]
    line = struct.pack("<BII4d", 1, 2, 2, 1.0, 2.0, 3.0, 4.0)
    assert wkb.multilines([[1, 2], [3, 4]], [0, 2]) == [struct.pack("<BII", 1, 5, 1) + line]
    line = struct.pack("<BII6d", 1, 2002, 2, 1.0, 2.0, 9.0, 3.0, 4.0, 8.0)
    assert wkb.multilines_m([[1, 2], [3, 4]], [9, 8], [0, 2]) == [struct.pack("<BII", 1, 2005, 1) + line]
    assert wkb.points([1.0], [2.0]) == [struct.pack("<BIdd", 1, 1, 1.0, 2.0)]


@pytest.mark.skipif(sys.byteorder != "little", reason="shapely writes in the byte order of the machine")
def test_shapely_writes_the_same_bytes():
    ring = SQUARE - [20.0, 0.0]
    same = MultiPolygon([Polygon(ring)])
    assert wkb.multipolygons(*_batch(ring))[0] == shapely_wkb.dumps(same)


def test_a_batch_of_unlike_shapes():
    small, large = SQUARE - [100.0, 0.0], np.array([[0, 0], [1, 0], [2, 1], [1, 2], [0, 2], [-1, 1], [0, 0]], float)
    broken = large.copy()
    broken[3, 1] = np.nan
    coords, offsets = _batch(small, broken, SQUARE, np.empty((0, 2)), large, small[:3], large + [360.0, 0.0])
    made = wkb.multipolygons(coords, offsets)
    assert [m is None for m in made] == [False, True, False, True, False, True, False]
    assert made[0] == wkb.multipolygons(*_batch(small))[0]
    assert made[2] == wkb.multipolygons(*_batch(SQUARE))[0]
    assert made[4] == made[6] == wkb.multipolygons(*_batch(large))[0]


def test_no_shapes():
    assert wkb.multipolygons(np.empty((0, 2)), [0]) == []
    assert wkb.multilines(np.empty((0, 2)), [0, 0]) == [None]
    assert wkb.points([], []) == []


def test_input_is_left_alone():
    coords, offsets = _batch(SQUARE, SQUARE + [360.0, 0.0])
    before = coords.copy()
    wkb.multipolygons(coords, offsets)
    wkb.multilines(coords, offsets)
    np.testing.assert_array_equal(coords, before)


def test_calls_that_make_no_sense():
    coords, offsets = _batch(SQUARE)
    with pytest.raises(ValueError, match="coords has shape"):
        wkb.multipolygons(coords.ravel(), offsets)
    for wrong in ([0, 4], [1, 5], [0, 6, 5], [], [[0, 5]]):
        with pytest.raises(ValueError, match="offsets must rise"):
            wkb.multipolygons(coords, wrong)
    with pytest.raises(ValueError, match="parts must rise"):
        wkb.multipolygons(coords, offsets, parts=[0, 2])
    with pytest.raises(ValueError, match="ring 1 of coords is not closed"):
        wkb.multipolygons(*_batch(SQUARE, SQUARE[:-1]))
    with pytest.raises(ValueError, match="m has shape"):
        wkb.multilines_m(coords, [1.0], offsets)


def test_a_square_across_the_meridian():
    made = _polygon(SQUARE)
    assert len(made.geoms) == 2
    assert made.area == pytest.approx(2.0, rel=1e-12)
    assert made.equals(MultiPolygon([box(179, 0, 180, 1), box(-180, 0, -179, 1)]))


@pytest.mark.parametrize("turns", [-3, -1, 0, 1, 2])
def test_any_number_of_turns_gives_the_same(turns):
    assert wkb.multipolygons(*_batch(SQUARE + [360.0 * turns, 0.0])) == wkb.multipolygons(*_batch(SQUARE))
    inside = SQUARE + [0.5 + 360.0 * turns - 3.0, 0.0]
    assert wkb.multipolygons(*_batch(inside)) == wkb.multipolygons(*_batch(SQUARE + [-2.5, 0.0]))


@pytest.mark.parametrize(
    ("ring", "pieces"),
    [
        ([[178, 0], [180, 0], [180, 1], [178, 1], [178, 0]], 1),
        ([[180, 0], [182, 0], [182, 1], [180, 1], [180, 0]], 1),
        ([[-180, 0], [-182, 0], [-182, 1], [-180, 1], [-180, 0]], 1),
        ([[178, 0], [180, 0.5], [178, 1], [178, 0]], 1),
        ([[180, 0.5], [182, 0], [182, 1], [180, 0.5]], 1),
        ([[179, 0], [180, 0], [181, 0], [181, 1], [180, 1], [179, 1], [179, 0]], 2),
        ([[180, 0], [181, 1], [180, 2], [179, 1], [180, 0]], 2),
        ([[179, 0], [181, 0], [181, 1], [180, 0.5], [179, 1], [179, 0]], 2),
        ([[179, 0], [181, 0], [181, 1], [179, 1], [180, 0.5], [179, 0]], 3),
        ([[181, 0], [181, 1], [179, 1], [179, 0], [180, 0.5], [181, 0]], 2),
        ([[180, -1], [179, 0], [180, 0], [179, 1], [181, 2], [181, -1], [180, -1]], 3),
        ([[179, 0], [181, 0], [181, 3], [179, 3], [179, 2], [180.5, 2], [180.5, 1], [179, 1], [179, 0]], 3),
        ([[179, 0], [181, 0], [181, 3], [179, 3], [179, 2], [180, 2], [180, 1], [179, 1], [179, 0]], 3),
        ([[180, 0], [181, 0], [181, 2], [180, 2], [180, 1.5], [179, 1], [180, 0.5], [180, 0]], 2),
    ],
)
def test_vertices_and_edges_on_the_meridian(ring, pieces):
    for turned in (ring, ring[::-1], ring[1:] + ring[1:2], ring[2:] + ring[1:3]):
        made = _polygon(turned)
        assert len(made.geoms) == pieces
        assert made.area == pytest.approx(Polygon(ring).area, rel=1e-12)
        assert made.equals(_expected(ring))


@pytest.mark.parametrize("hair", [2.9e-14, -2.9e-14, 1e-12, -1e-12])
def test_a_hair_off_the_meridian_is_no_sliver(hair):
    west = np.array([[179.0, 0.0], [180.0, 0.0], [180.0 + hair, 0.5], [180.0, 1.0], [179.0, 1.0], [179.0, 0.0]])
    assert len(_polygon(west).geoms) == 1
    assert len(_polygon(west + [1.0, 0.0] * (np.abs(west - [180, 0])[:, :1] > 0.1)).geoms) == 1
    east = np.array([[181.0, 0.0], [180.0, 0.0], [180.0 + hair, 0.5], [180.0, 1.0], [181.0, 1.0], [181.0, 0.0]])
    assert len(_polygon(east).geoms) == 1
    assert len(_polygon(east - [360.0, 0.0]).geoms) == 1
    assert len(shapely_wkb.loads(_line([[179.0, 0.0], [180.0 + hair, 1.0], [179.0, 2.0]])).geoms) == 1


@given(
    st.floats(150.0, 210.0),
    st.floats(-80.0, 80.0),
    st.lists(st.floats(0.05, 1.0), min_size=3, max_size=24),
    st.floats(0.001, 9.0),
)
def test_star_shaped_rings_keep_their_area(lon, lat, spokes, size):
    radius = np.array(spokes) * size
    angle = np.linspace(0.0, 2.0 * np.pi, len(spokes), endpoint=False)
    ring = np.column_stack([lon + radius * np.cos(angle), lat + radius * np.sin(angle)])
    ring = np.vstack([ring, ring[:1]])
    if not Polygon(ring).is_valid or np.abs(ring[:, 0] - 180.0).min() < 1e-6:
        return
    made = _polygon(ring)
    assert made.area == pytest.approx(Polygon(ring).area, rel=1e-9, abs=1e-12)
    assert made.symmetric_difference(_expected(ring)).area < 1e-9 * max(made.area, 1.0)
    corners = [corner for part in made.geoms for corner in part.exterior.coords]
    assert {lat for lon, lat in corners if lon == 180.0} == {lat for lon, lat in corners if lon == -180.0}


CELLS = st.sets(st.tuples(st.integers(0, 5), st.integers(0, 5)), min_size=1, max_size=24)


@given(CELLS, st.integers(0, 6), st.booleans())
def test_ragged_rings_with_many_corners_on_the_meridian(cells, column, slanted):
    """Outlines of cells of a grid, one of whose columns stands on the meridian; slanted, only some corners do."""
    whole = unary_union([box(x, y, x + 1, y + 1) for x, y in cells])
    for part in getattr(whole, "geoms", [whole]):
        ring = np.array(part.exterior.coords)
        if slanted:
            ring[:, 0] += 0.25 * ring[:, 1]
        ring[:, 0] += 180.0 - column
        if not Polygon(ring).is_valid:
            continue
        made = _polygon(ring)
        assert made.area == pytest.approx(Polygon(ring).area, rel=1e-9)
        assert made.symmetric_difference(_expected(ring)).area < 1e-9


def test_a_ring_wider_than_the_world_s_half():
    ring = np.array([[100.0, 0.0], [280.0, 0.0], [280.0, 1.0], [100.0, 1.0], [100.0, 0.0]])
    assert _polygon(ring).area == pytest.approx(180.0, rel=1e-12)


def test_a_spike_without_width_leaves_nothing_behind():
    ring = [[179, 0], [180, 0], [180, 0.5], [180.1, 0.5], [180, 0.5], [180, 1], [179, 1], [179, 0]]
    assert _polygon(ring).equals(box(179, 0, 180, 1))


def test_a_ring_that_winds_twice_is_filled_between_its_turns():
    """Not a simple ring, so outside what is promised; it must still give closed rings (even-odd) and no failure."""
    angle = np.linspace(0.0, 2.0 * np.pi, 9) + 0.3
    once = np.column_stack([np.cos(angle), np.sin(angle)])
    ring = np.vstack([2.0 * once, once, 2.0 * once[:1]]) + [180.0, 0.0]
    made = shapely_wkb.loads(wkb.multipolygons(*_batch(ring))[0])
    assert made.bounds == pytest.approx((-180.0, -2.0, 180.0, 2.0), abs=0.2)
    west, east = made.geoms
    octagon = 2.0 * np.sqrt(2.0)
    assert west.is_valid and west.area == pytest.approx((4.0 - 1.0) * octagon / 2.0)
    assert east.bounds[0] == -180.0 and east.exterior.coords[0] == east.exterior.coords[-1]


def test_lines_are_cut_where_they_cross():
    line = shapely_wkb.loads(_line([[179.0, 10.0], [181.0, 20.0], [182.0, 20.0], [178.0, 0.0]]))
    assert _parts(line) == [
        [(179.0, 10.0), (180.0, 15.0)],
        [(-180.0, 15.0), (-179.0, 20.0), (-178.0, 20.0), (-180.0, 10.0)],
        [(180.0, 10.0), (178.0, 0.0)],
    ]


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ([[179, 0], [180, 1], [181, 2]], [[(179, 0), (180, 1)], [(-180, 1), (-179, 2)]]),
        ([[179, 0], [180, 1], [179, 2]], [[(179, 0), (180, 1), (179, 2)]]),
        ([[181, 0], [180, 1], [181, 2]], [[(-179, 0), (-180, 1), (-179, 2)]]),
        ([[180, 0], [181, 1]], [[(-180, 0), (-179, 1)]]),
        ([[180, 0], [179, 1]], [[(180, 0), (179, 1)]]),
        ([[179, 0], [180, 0]], [[(179, 0), (180, 0)]]),
        ([[180, 0], [180, 1], [180, 2]], [[(180, 0), (180, 1), (180, 2)]]),
        ([[179, 0], [180, 1], [180, 2], [181, 2]], [[(179, 0), (180, 1), (180, 2)], [(-180, 2), (-179, 2)]]),
        ([[180, 0], [180, 1], [179, 1], [181, 3]], [[(180, 0), (180, 1), (179, 1), (180, 2)], [(-180, 2), (-179, 3)]]),
        (
            [[179, 0], [181, 0], [180, 0], [180, 9]],
            [[(179, 0), (180, 0)], [(-180, 0), (-179, 0), (-180, 0), (-180, 9)]],
        ),
        ([[-179, 0], [-181, 0]], [[(-179, 0), (-180, 0)], [(180, 0), (179, 0)]]),
        ([[899, 0], [901, 2]], [[(179, 0), (180, 1)], [(-180, 1), (-179, 2)]]),
    ],
)
def test_lines_that_touch_the_meridian(line, parts):
    assert _parts(shapely_wkb.loads(_line(line))) == parts


@given(
    st.lists(st.tuples(st.integers(-8, 8), st.floats(-80.0, 80.0)), min_size=2, max_size=20),
    st.sampled_from([0.0, 360.0, -360.0]),
)
def test_lines_keep_their_length(steps, turn):
    line = np.array([(180.0 + turn + x / 4.0, y) for x, y in steps])
    made = shapely_wkb.loads(_line(line))
    assert made.bounds[0] >= -180.0 and made.bounds[2] <= 180.0
    assert made.length == pytest.approx(LineString(line).length, rel=1e-9, abs=1e-12)
    parts = [np.array(part) for part in _parts(made)]
    for before, after in zip(parts, parts[1:]):
        assert abs(before[-1, 0]) == 180.0 and before[-1, 0] == -after[0, 0]
        assert before[-1, 1] == after[0, 1]
        assert len(before) > 1 and len(after) > 1


def test_measures_are_cut_with_the_line():
    blob = _line([[179.0, 10.0], [183.0, 20.0]], [100.0, 200.0])
    first = struct.pack("<BII6d", 1, 2002, 2, 179.0, 10.0, 100.0, 180.0, 12.5, 125.0)
    second = struct.pack("<BII6d", 1, 2002, 2, -180.0, 12.5, 125.0, -177.0, 20.0, 200.0)
    assert blob == struct.pack("<BII", 1, 2005, 2) + first + second
    assert _line([[1.0, 2.0], [3.0, 4.0]], [0.0, np.nan]) is None


def test_features_of_several_shapes():
    near, far = SQUARE - [100.0, 0.0], SQUARE - [50.0, 0.0]
    broken = near * np.nan
    coords, offsets = _batch(near, far, SQUARE, near, broken, far)
    made = wkb.multipolygons(coords, offsets, parts=[0, 2, 2, 4, 5, 6])
    assert made[1] is None and made[3] is None
    pair, mixed, single = (shapely_wkb.loads(made[i]) for i in (0, 2, 4))
    assert pair.equals(MultiPolygon([Polygon(near), Polygon(far)]))
    assert len(mixed.geoms) == 3 and mixed.area == pytest.approx(4.0)
    assert made[4] == wkb.multipolygons(*_batch(far))[0] and single.area == pytest.approx(2.0)
    assert wkb.multipolygons(coords, offsets, parts=[0, 6]) == [None]
    lines = shapely_wkb.loads(wkb.multilines(coords, offsets, parts=[0, 4, 6])[0])
    assert len(lines.geoms) == 6
    assert wkb.multilines(coords, offsets, parts=range(7)) == wkb.multilines(coords, offsets)


def test_points_come_into_range():
    lon = [10.0, 180.0, -180.0, 180.5, -180.5, 540.0, 725.0, np.nan, 10.0, np.inf]
    lat = [0.0] * 8 + [np.nan, 0.0]
    made = wkb.points(lon, lat)
    assert [m is None for m in made] == [False] * 7 + [True] * 3
    got = [shapely_wkb.loads(m).x for m in made[:7]]
    assert got == [10.0, 180.0, -180.0, -179.5, 179.5, -180.0, 5.0]


@given(st.floats(-1e6, 1e6))
def test_longitudes_come_into_range(lon):
    into = wkb.into_range(lon)
    assert -180.0 <= into <= 180.0
    if abs(lon) <= 180.0:
        assert into == lon
    assert abs((into - lon + 180.0) % 360.0 - 180.0) < 1e-9


def test_gdal_reads_them():
    ogr = pytest.importorskip("osgeo.ogr", reason="GDAL's Python bindings are not installed (they come with QGIS)")
    ogr.UseExceptions()
    coords, offsets = _batch(SQUARE, SQUARE - [50.0, 0.0])
    for blob, parts in zip(wkb.multipolygons(coords, offsets), (2, 1)):
        made = ogr.CreateGeometryFromWkb(blob)
        assert made.GetGeometryName() == "MULTIPOLYGON" and made.GetGeometryCount() == parts
        assert made.Area() == pytest.approx(2.0) and bytes(made.ExportToIsoWkb(ogr.wkbNDR)) == blob
    m = np.arange(10.0)
    for blob, parts in zip(wkb.multilines_m(coords, m, offsets), (3, 1)):
        made = ogr.CreateGeometryFromWkb(blob)
        assert made.IsMeasured() and not made.Is3D() and made.GetGeometryCount() == parts
        assert bytes(made.ExportToIsoWkb(ogr.wkbNDR)) == blob
    (blob,) = wkb.points(181.0, 5.0)
    made = ogr.CreateGeometryFromWkb(blob)
    assert (made.GetX(), made.GetY()) == (-179.0, 5.0)


# Holes


def _holed(*polygons):
    """The one feature of polygons, each a list of rings, read back."""
    rings = [ring for polygon in polygons for ring in polygon]
    coords, offsets = _batch(*rings)
    starts = np.concatenate([[0], np.cumsum([len(polygon) for polygon in polygons])])
    made = shapely_wkb.loads(wkb.polygons_with_holes(coords, offsets, starts, [0, len(polygons)])[0])
    assert made.geom_type == "MultiPolygon" and made.is_valid
    assert made.bounds[0] >= -180.0 and made.bounds[2] <= 180.0
    return made


def _box_ring(west, south, east, north):
    return np.array([[west, south], [east, south], [east, north], [west, north], [west, south]], float)


def test_a_hole_without_a_cut():
    """The bytes of OGC 06-103r4: a polygon's rings, each with its count; shapely writes the same."""
    outer, hole = _box_ring(0, 0, 9, 9), _box_ring(2, 2, 4, 4)[::-1]
    coords, offsets = _batch(outer, hole)
    (made,) = wkb.polygons_with_holes(coords, offsets, [0, 2], [0, 1])
    rings = b"".join(struct.pack("<I10d", 5, *ring.ravel()) for ring in (outer, hole))
    assert made == struct.pack("<BII", 1, 6, 1) + struct.pack("<BII", 1, 3, 2) + rings
    assert shapely_wkb.loads(made).equals(MultiPolygon([Polygon(outer, [hole])]))


def test_without_holes_as_multipolygons():
    coords, offsets = _batch(SQUARE - [100.0, 0.0], SQUARE, SQUARE + [360.0, 3.0])
    with_none = wkb.polygons_with_holes(coords, offsets, [0, 1, 2, 3], [0, 1, 3, 3])
    assert with_none == wkb.multipolygons(coords, offsets, [0, 1, 3, 3])
    assert with_none[2] is None
    coords[2, 1] = np.nan
    assert wkb.polygons_with_holes(coords, offsets, [0, 1, 2, 3], [0, 1, 3])[0] is None


@pytest.mark.parametrize("turns", [-1, 0, 2])
@pytest.mark.parametrize(
    ("holes", "pieces", "left"),
    [
        ([(178, 2, 179, 3)], 2, 1),
        ([(181, 2, 182, 3)], 2, 1),
        ([(179, 2, 181, 3)], 2, 0),
        ([(179, 2, 181, 3), (177, 2, 178, 3), (182, 6, 183, 7)], 2, 2),
        ([(179, 2, 181, 3), (178, 5, 182, 6)], 2, 0),
        ([(180, 2, 181, 3)], 2, 0),
        ([(179, 2, 180, 3)], 2, 0),
    ],
)
def test_holes_at_the_meridian(holes, pieces, left, turns):
    """Against shapely's own cut by bands of 360 degrees; holes across the meridian open into the pieces' edges."""
    outer = _box_ring(175, 0, 185, 9) + [360.0 * turns, 0.0]
    rings = [outer, *(_box_ring(*hole)[::-1] + [360.0 * turns, 0.0] for hole in holes)]
    made = _holed(rings)
    polygon = Polygon(rings[0], rings[1:])
    bands = [(k, polygon.intersection(box(-180 + 360 * k, -90, 180 + 360 * k, 90))) for k in range(-3, 4)]
    expected = unary_union([affinity.translate(band, -360 * k) for k, band in bands if band.area > 0.0])
    assert made.symmetric_difference(expected).area < 1e-9
    assert len(made.geoms) == pieces
    assert sum(len(part.interiors) for part in made.geoms) == left


def test_a_hole_that_touches_the_meridian_in_one_place():
    """It stays a hole: opened, it would make an outer ring that touches itself."""
    diamond = np.array([[180.0, 4.0], [179.0, 5.0], [178.0, 4.0], [179.0, 3.0], [180.0, 4.0]])
    made = _holed([_box_ring(175, 0, 185, 9), diamond])
    assert made.area == pytest.approx(90.0 - 2.0) and [len(part.interiors) for part in made.geoms] == [1, 0]


def test_a_ring_all_round_a_hole():
    """A ring-shaped area cut in two has no holes left and the same area."""
    turn = np.linspace(0.0, 2.0 * np.pi, 73)
    circle = np.stack([np.cos(turn), np.sin(turn)], axis=1)
    circle[-1] = circle[0]
    centre = np.array([180.2, 10.0])
    made = _holed([centre + 3.0 * circle, (centre + circle)[::-1]])
    assert len(made.geoms) == 2 and not any(len(part.interiors) for part in made.geoms)
    assert made.area == pytest.approx(8.0 * Polygon(circle).area, rel=1e-12)


@given(
    st.floats(-2.5, 2.5), st.lists(st.tuples(st.floats(0.1, 0.9), st.floats(0.0, 6.28)), min_size=1, max_size=2),
    st.integers(3, 40),
)  # fmt: skip
def test_any_holes_anywhere(east, holes, corners):
    """Discs in a disc, wherever the meridian runs: the area is kept, every piece valid."""
    turn = np.linspace(0.0, 2.0 * np.pi, corners + 1)
    circle = np.stack([np.cos(turn), np.sin(turn)], axis=1)
    circle[-1] = circle[0]
    centre = np.array([180.0 + east, 0.0])
    rings = [centre + 3.0 * circle]
    for k, (radius, angle) in enumerate(holes):
        # the second hole opposite the first, so that they keep apart; both inside the outer ring's chords
        bearing = holes[0][1] + np.pi * k + 0.1 * angle * (k == 0)
        reach = 0.3 * radius
        rings.append((centre + 0.7 * np.array([np.cos(bearing), np.sin(bearing)]) + reach * circle)[::-1])
    made = _holed(rings)
    polygon = Polygon(rings[0], rings[1:])
    assert polygon.is_valid
    assert made.area == pytest.approx(polygon.area, rel=1e-9)
