"""Templates that a user enters as outlines. The template here is invented: it is nobody's."""

from __future__ import annotations

import numpy as np
import pytest

pytest.importorskip("shapely", reason="shapely is not installed (the extra 'areas')")

from fixwright.geometry import polygons
from fixwright.geometry.protection import outline
from fixwright.geometry.protection.areas import Designs, Options
from fixwright.geometry.protection.outline import Band, Outlines

# An invented template with a dent, so that nothing here leans on its being convex.
DENTED = [(4.0, -3.0), (4.0, 5.0), (-4.0, 5.0), (-5.0, 2.0), (-9.0, 4.0), (-9.0, -3.0)]
BOX = [(2.0, -2.0), (2.0, 3.0), (-6.0, 3.0), (-6.0, -2.0)]


def read(rows):
    name, part, along, across = zip(*rows)
    return outline.read_outlines(np.array(name, object), np.array(part, object), np.array(along), np.array(across))


def rows_of(name, corners, part="primary"):
    return [(name, part, float(u), float(s)) for u, s in corners]


def book(**more):
    made, problem = read(rows_of("dented", DENTED) + rows_of("box", BOX))
    assert problem == ""
    bands = (Band("box", np.nan, 6000.0, np.nan, 200.0, np.nan, 14.9), Band("dented", *[np.nan] * 6))
    return Outlines(made, bands, **more)


def designs(ias=(150.0, 230.0), alt=(5000.0, 9000.0), away=(8.0, 20.0)):
    n = len(ias)
    nothing = np.full(n, np.nan)
    return Designs(
        np.array(ias), np.array(alt), np.ones(n), nothing, nothing, nothing, [np.zeros((1, 2))] * n, [None] * n,
        np.array(away),
    )  # fmt: skip


def options(made=None, tolerance_m=5.0):
    return Options(tolerance_m, outlines=made or book())


def distance_from(ring, points):
    """Distance of points from the edge of a ring, edge by edge."""
    start, end = ring, np.roll(ring, -1, axis=0)
    along = np.einsum("pij,ij->pi", points[:, None] - start, end - start) / np.sum((end - start) ** 2, axis=1)
    nearest = start + np.clip(along, 0.0, 1.0)[:, :, None] * (end - start)
    return np.linalg.norm(points[:, None] - nearest, axis=2).min(axis=1)


def test_outlines_are_read_in_their_order():
    made, problem = read(rows_of("dented", [*DENTED, DENTED[0]]) + rows_of("box", BOX[::-1], ""))
    assert problem == "" and list(made) == ["dented", "box"]
    assert made["dented"].primary.tolist() == [list(c) for c in DENTED]
    assert made["box"].primary.tolist() == [list(c) for c in BOX[::-1]]
    assert made["box"].secondary is None


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([("", "", 1.0, 1.0)], "row 1 has no name"),
        ([("a", "third", 1.0, 1.0)], "a: part is 'third'; it must be one of primary, secondary"),
        ([("a", "", np.nan, 1.0)], "a: row 1 must have along_nm and across_nm between -200 and 200"),
        ([("a", "", 1.0, 300.0)], "a: row 1 must have along_nm and across_nm between -200 and 200"),
        (rows_of("a", BOX[:2]), "a, primary: an outline needs at least three corners"),
        (rows_of("a", [BOX[0], BOX[2], BOX[1], BOX[3]]), "a, primary: the outline crosses or touches itself; enter"),
        (rows_of("a", BOX, "secondary"), "a has a secondary area and no primary one"),
        (rows_of("a", [(u + 30.0, s) for u, s in BOX]), "a does not contain the fix, which lies at along_nm 0,"),
        (rows_of("a", DENTED) + rows_of("a", BOX, "secondary"), "a: the secondary outline does not go round"),
    ],
)
def test_tables_that_are_wrong(rows, said):
    made, problem = read(rows)
    assert made == {} or problem
    assert problem.startswith(said)


def test_bands():
    made = book().outlines
    columns = {"outline": np.array(["box", "dented"], object), "alt_to_ft": np.array([6000.0, np.nan])}
    bands, problem = outline.read_bands(columns, made)
    assert problem == "" and bands[0].alt_to_ft == 6000.0 and np.isnan(bands[0].ias_to_kt)
    columns["outline"][1] = "other"
    assert outline.read_bands(columns, made)[1] == "row 2 names the outline 'other'; there are dented, box"
    columns = {"outline": np.array(["box"], object), "alt_from_ft": np.array([9.0]), "alt_to_ft": np.array([3.0])}
    assert outline.read_bands(columns, made)[1] == "row 1: alt_from_ft is 9, more than alt_to_ft, 3"


@pytest.mark.parametrize(
    ("ias", "alt", "away", "chosen"),
    [
        (200.0, 6000.0, 14.9, "box"),
        (200.0, 6000.0, 14.91, "dented"),  # rounded up to 15.0: between 14.9 and 15.0 the wider one
        (200.2, 6000.0, 10.0, "dented"),
        (200.0, 6000.2, 10.0, "dented"),
        (200.0, 6000.0, 0.0, "box"),
        (200.0, 6000.0, np.nan, "dented"),  # its distance is not known
    ],
)
def test_the_first_band_that_fits(ias, alt, away, chosen):
    assert outline.choose(book(), designs([ias], [alt], [away])).tolist() == [chosen]


def test_refused_where_no_band_fits():
    made = book()._replace(bands=book().bands[:1])
    why = outline.refusals(designs(), options(made))
    assert why.tolist() == ["", "no outline is chosen for 230 kt at 9000 ft, 20.0 NM from the navaid"]
    assert {a.row for a in outline.areas(designs(), options(made))} == {0}
    why = outline.refusals(designs(away=(np.nan, np.nan)), options(made))
    assert why[0].endswith("the navaid's distance unknown")


def test_one_outline_needs_no_band():
    made, _ = read(rows_of("box", BOX))
    assert outline.choose(Outlines(made, ()), designs()).tolist() == ["box", "box"]
    assert outline.choose(Outlines(book().outlines, ()), designs()).tolist() == ["", ""]


@pytest.mark.parametrize("tolerance_m", [5.0, 200.0])
def test_areas_contain_the_outline_and_its_surroundings(tolerance_m):
    """The primary area lies outside the outline by at most the tolerance; the secondary reaches 2 NM from it."""
    found = outline.areas(designs(), options(tolerance_m=tolerance_m))
    assert [(a.row, a.part, a.moc_ft) for a in found] == [
        (0, "primary", 1000.0), (0, "secondary", 500.0), (1, "primary", 1000.0), (1, "secondary", 500.0),
    ]  # fmt: skip
    tolerance = tolerance_m / 1852.0
    true = np.array(DENTED)
    primary, secondary = found[2], found[3]
    assert polygons.without(((true,),), primary.polygons_nm) == ()
    edge = primary.polygons_nm[0][0]
    assert distance_from(true, edge).max() <= tolerance
    (outer, hole), = secondary.polygons_nm  # fmt: skip
    between = np.concatenate([outer + k / 10.0 * (np.roll(outer, -1, axis=0) - outer) for k in range(10)])
    away = distance_from(true, between)
    assert away.min() >= 2.0 and away.max() <= 2.0 + tolerance
    np.testing.assert_allclose(sorted(hole.tolist()), sorted(edge.tolist()))
    assert primary.alt_ft == 9000.0 and np.isnan(primary.tas_kt) and "as entered by the user" in primary.limits
    assert "falling to 0" in secondary.limits


def test_a_secondary_outline_of_its_own():
    around = [(u * 1.5, s * 1.5) for u, s in BOX]
    made, problem = read(rows_of("box", BOX) + rows_of("box", around, "secondary"))
    assert problem == ""
    primary, secondary = outline.areas(designs([150.0], [5000.0], [8.0]), options(Outlines(made, ())))
    assert polygons.area(primary.polygons_nm) == pytest.approx(40.0, rel=1e-3)
    assert polygons.area(secondary.polygons_nm) == pytest.approx(40.0 * 1.25, rel=2e-3)
    outer = secondary.polygons_nm[0][0]
    assert distance_from(np.array(around), outer).max() < 5.0 / 1852.0


def test_no_secondary_area():
    found = outline.areas(designs(), options(book(secondary_nm=0.0)))
    assert [a.part for a in found] == ["primary", "primary"]


def test_clearances_given():
    found = outline.areas(designs(), options(book(primary_ft=2000.0, secondary_ft=400.0)))
    assert [a.moc_ft for a in found] == [2000.0, 400.0, 2000.0, 400.0]


def test_values_are_the_table():
    """Every corner stands in the sheet as it was entered; the clearances with their document."""
    found = [v for v in outline.values(designs(), options()) if v.row == 1]
    along = [v.value for v in found if v.name.startswith("along")]
    across = [v.value for v in found if v.name.startswith("across")]
    assert list(zip(along, across)) == DENTED
    assert {v.mark for v in found if v.number.startswith("P")} == {"as entered"}
    rest = {v.name: (v.value, v.mark) for v in found if not v.number.startswith("P")}
    assert rest["width of the secondary area"] == (2.0, "from memory")
    assert rest["clearance in the primary area"] == (1000.0, "published")
    mountainous = outline.values(designs(), options(book(primary_ft=2000.0)))
    assert {v.mark for v in mountainous if v.value == 2000.0 and v.unit == "ft"} == {"from memory"}
    other = outline.values(designs(), options(book(primary_ft=1200.0)))
    assert {v.mark for v in other if v.value == 1200.0} == {"as entered"}


def test_drawing():
    drawn = [d for d in outline.drawing(designs(), options()) if d.row == 0]
    assert [d.kind for d in drawn] == ["outline"] + ["point"] * 4
    assert [d.letter for d in drawn[1:]] == ["P1", "P2", "P3", "P4"]
    assert drawn[0].path_nm.tolist() == [list(c) for c in [*BOX, BOX[0]]]
    assert [d.path_nm.tolist() for d in drawn[1:]] == [[list(c)] for c in BOX]


def test_no_outline_comes_with_the_code():
    """The templates of a state are its own: their dimensions are entered, never shipped."""
    assert not any(isinstance(value, (outline.Outline, Outlines)) for value in vars(outline).values())
    assert all(entry.source and entry.mark in ("published", "from memory") for entry in outline.CLEARANCES.values())
