"""Protected areas as an algorithm: parts, levels, outlines, arrivals, the sheet and the drawing, what is refused."""

from __future__ import annotations

import math
from itertools import groupby

import pytest

from fixwright.tests.algorithms.layers import (
    DATE,
    core,
    expression,
    field,
    layer,
    opened,
    refusal,
    rows,
    run,
    saved,
    some_holds,
)
from fixwright.tests.algorithms.test_same_result import command_line, plain  # noqa: F401 (a fixture)

POINTS = ("ident:string", "inbound:double", "turn:string", "alt:double", "to:double", "ias:double", "wind:double")
PLACES = (
    ((10.0, 50.0), "A", 72.0, "right", 4000.0, 6000.0, 150.0, 40.0),
    ((20.0, -33.0), "B", 310.0, "left", 9000.0, 9000.0, 210.0, 60.0),
    ((179.97, 12.0), "C", 5.0, "right", 3000.0, 3000.0, 120.0, 40.0),
)


def holds(places=PLACES, **more):
    """Three holds, one of them at the antimeridian; model north."""
    points = layer(POINTS, places)
    asked = {"FIX_FIELD": "ident", "INBOUND": field("inbound"), "NORTH": "model", "TURN": field("turn"), "IAS": 100,
             "AREA_IAS": field("ias"), "ALTITUDE": field("alt"), "ALTITUDE_TO": field("to"), "LEG_MIN": 1,
             "DATE": DATE}  # fmt: skip
    return run("designholds", INPUT=points, **{**asked, **more}).layer("HOLDS")


def by_part(found):
    return {(row["hold"], row["levels"], row["part"]): row for row in found}


# --- parts

RINGS = tuple(f"buffer_{k}" for k in range(1, 6))


@pytest.mark.parametrize("construction", ["template", "envelope"])
def test_parts_go_round_each_other(construction):
    """Basic, entry and five buffers, in this order, without overlaps, valid also at 180 degrees; together without a
    gap. Clearances by ICAO Doc 8168 Vol II, Table II-4-1-1 (its feet from memory)."""
    made = run("protectedareas", INPUT=holds(), CONSTRUCTION=construction)
    assert made.counts == (3, 3, 0)
    for hold, parts in groupby(made.rows("AREAS"), lambda row: row["hold"]):
        parts = list(parts)
        assert [row["part"] for row in parts] == ["basic", "entry", *RINGS]
        assert [row["moc_ft"] for row in parts] == [984.0, 984.0, 984.0, 492.0, 394.0, 294.0, 197.0]
        assert {row["construction"] for row in parts} == {construction}
        assert all(row["geometry"].isGeosValid() for row in parts)
        whole = core.QgsGeometry.unaryUnion([row["geometry"] for row in parts])
        assert whole.isGeosValid() and abs(whole.area() - sum(row["geometry"].area() for row in parts)) < 1e-9, hold
        assert len(whole.asGeometryCollection()) == (2 if hold == "C" else 1)
        assert not any(len(part.asPolygon()) > 1 for part in whole.asGeometryCollection())


@pytest.mark.parametrize("construction", ["template", "envelope"])
def test_buffers_are_a_mile_wide(construction):
    """Each reaches 1 NM farther than the one before: measured in a plane about the fix, along eight bearings."""
    made = run("protectedareas", INPUT=holds(PLACES[:1]), CONSTRUCTION=construction)
    crs = core.QgsCoordinateReferenceSystem.fromProj("+proj=aeqd +lat_0=50 +lon_0=10 +datum=WGS84 +units=m")
    to = core.QgsCoordinateTransform(
        core.QgsCoordinateReferenceSystem("EPSG:4326"), crs, core.QgsCoordinateTransformContext()
    )
    inside, shapes = None, []
    for row in made.rows("AREAS"):
        geometry = row["geometry"]
        geometry.transform(to)
        inside = geometry if inside is None else inside.combine(geometry)
        if row["part"] == "entry" or row["part"].startswith("buffer"):
            shapes.append(inside)
    for k, (inner, outer) in enumerate(zip(shapes, shapes[1:]), start=1):
        # a ring of exactly a mile about a polygon that already exceeds the area by less than the tolerance
        assert outer.buffer(6.0, 8).contains(inner.buffer(1852.0, 90)), k
        assert shapes[0].buffer(k * 1852.0 + 6.0, 360).contains(outer), k


def test_no_entries():
    made = run("protectedareas", INPUT=holds(), ENTRY="none")
    assert {row["part"] for row in made.rows("AREAS")} == {"basic", *RINGS}
    every = by_part(run("protectedareas", INPUT=holds()).rows("AREAS"))
    for key, row in by_part(made.rows("AREAS")).items():
        if key[2] == "basic":
            assert row["area_nm2"] == pytest.approx(every[key]["area_nm2"], rel=1e-4)


def test_entries_of_the_arrivals_used():
    """From the entries of Entry sectors and from lines: the same. A hold without an arrival has no entry area."""
    source = holds()
    first = next(source.getFeatures())
    x, y = first.geometry().asPoint()
    away = [(x - math.sin(a), y - 0.6 * math.cos(a)) for a in (math.radians(210.0),)]
    line = layer(("name:string",), [(f"LINESTRING({away[0][0]} {away[0][1]}, {x} {y})", "in")], kind="LineString")
    entries = run("entrysectors", INPUT=source, ARRIVALS=line, DATE=DATE)
    by_table, by_line = (
        run("protectedareas", INPUT=source, ENTRY="arrivals", ARRIVALS=given, DATE=DATE)
        for given in (entries.layer("ENTRIES"), line)
    )
    parts = {(row["hold"], row["part"]) for row in by_table.rows("AREAS")}
    assert {hold for hold, part in parts if part == "entry"} <= {"A"}
    assert "2 holds have no arrival, and so no entry area" in by_table.log
    sizes = [[round(row["area_nm2"], 6) for row in made.rows("AREAS")] for made in (by_table, by_line)]
    assert sizes[0] == pytest.approx(sizes[1], abs=1e-4)
    whole = sum(r["area_nm2"] for r in run("protectedareas", INPUT=source).rows("AREAS") if r["hold"] == "A")
    assert sum(r["area_nm2"] for r in by_table.rows("AREAS") if r["hold"] == "A") < whole


# --- levels


def test_levels_and_their_union():
    """An area a level and the union behind them: it contains each, and is as large as the largest where they nest."""
    made = run("protectedareas", INPUT=holds(), LEVELS="every 1000")
    found = by_part(made.rows("AREAS"))
    assert all(row["geometry"].isGeosValid() for row in found.values())
    assert {key[1] for key in found if key[0] == "A"} == {"4000", "5000", "6000", "4000, 5000, 6000"}
    assert {key[1] for key in found if key[0] == "B"} == {"9000"}
    together = "4000, 5000, 6000"
    for level in ("4000", "5000", "6000"):
        assert (
            found["A", together, "basic"]["geometry"].buffer(1e-9, 4).contains(found["A", level, "basic"]["geometry"])
        )
    assert found["A", together, "basic"]["area_nm2"] == pytest.approx(found["A", "6000", "basic"]["area_nm2"], rel=1e-3)
    assert found["A", together, "basic"]["alt_ft"] == 6000.0
    whole = [row["geometry"] for key, row in found.items() if key[:2] == ("A", together)]
    assert len(whole) == 7
    union = core.QgsGeometry.unaryUnion(whole)
    assert abs(union.area() - sum(geometry.area() for geometry in whole)) < 1e-9
    sizes = [found["A", level, "basic"]["area_nm2"] for level in ("4000", "5000", "6000")]
    assert sizes == sorted(sizes) and sizes[0] < sizes[2]
    plainly = run("protectedareas", INPUT=holds(), LEVELS="9000").rows("AREAS")
    assert {row["levels"] for row in plainly} == {"9000"} and {row["alt_ft"] for row in plainly} == {9000.0}


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("high", "LEVELS is 'high'; it must be altitudes in feet such as 3000, 4000, 5000, or a step within each block "
         "such as every 1000; each is between -2000 and 60000 ft"),
        ("5,000", "LEVELS is '5,000'; it must be altitudes in feet such as 3000, 4000, 5000, or a step within each "
         "block such as every 1000; a comma before three figures can mean two things, write semicolons between levels"),
        (field("alt"), "LEVELS takes one value for the whole run, not a field or an expression."),
    ],
)  # fmt: skip
def test_levels_that_are_none(value, said):
    assert refusal("protectedareas", INPUT=some_holds(), LEVELS=value).rstrip(".") == said.rstrip(".")


def test_a_slow_flight_that_is_none():
    said = "SLOW_IAS is 5; it must be 0 for none, or between 30 and 300 kt"
    assert refusal("protectedareas", INPUT=some_holds(), SLOW_IAS=5).rstrip(".") == said


# --- outlines: the templates of the sample layers, invented


@pytest.fixture
def tables(root):
    return {name: str(root / "sample_layers" / f"{file}.csv")
            for name, file in (("OUTLINES", "outlines"), ("OUTLINE_SELECTION", "outline_selection"))}  # fmt: skip


def test_outlines(tables):
    """The invented templates of the sample: which one each hold gets, its size from its corners, mirrored by turn."""
    source = holds()
    made = run("protectedareas", INPUT=source, CONSTRUCTION="outline", **tables)
    assert made.counts == (3, 3, 0)
    found = made.rows("AREAS")
    assert [(row["hold"], row["part"], row["moc_ft"]) for row in found] == [
        (hold, part, moc) for hold in "ABC" for part, moc in (("primary", 1000.0), ("secondary", 500.0))
    ]
    assert all("as entered by the user" in row["limits"] for row in found)
    assert all(row["geometry"].isGeosValid() for row in found)
    # These fixes have no navaid, so the band with a distance is not theirs. Shoelace of the corners of make.py.
    corners = [(6, -6), (6, 9), (2, 11), (-11, 11), (-15, 8), (-15, -4), (-11, -7), (2, -7)]
    size = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1]))) / 2.0
    for row in found[::2]:
        assert row["area_nm2"] == pytest.approx(size, rel=2e-3)
    assert {row["levels"] for row in found} == {"6000", "9000", "3000"}


def test_outline_of_the_first_band(tables):
    """With a navaid near, slow and low: the small one."""
    demo = some_holds(AREA_IAS=200, ALTITUDE=5000)
    made = run("protectedareas", INPUT=demo, CONSTRUCTION="outline", **tables)
    small = [(3, -3), (3, 5), (1, 6), (-6, 6), (-8, 4), (-8, -2), (-6, -4), (1, -4)]
    size = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(small, small[1:] + small[:1]))) / 2.0
    sizes = [row["area_nm2"] for row in made.rows("AREAS") if row["part"] == "primary"]
    assert sizes[:2] == pytest.approx([size, size], rel=2e-3)  # 14 and 9 NM from their stations
    assert sizes[2] > 2.0 * size  # 20 NM


def test_no_outline_for_a_hold(tables):
    fast = holds([(*PLACES[0][:6], 290.0, 0.0), PLACES[1]])
    made = run("protectedareas", INPUT=fast, CONSTRUCTION="outline", **tables)
    assert made.counts == (2, 1, 1)
    assert made.reasons() == {"1": "no outline is chosen for 290 kt at 6000 ft, the navaid's distance unknown"}


def test_clearances_of_outlines(tables):
    high = run("protectedareas", INPUT=holds(), CONSTRUCTION="outline", HIGH_TERRAIN=2, SECONDARY_WIDTH=0, **tables)
    assert [(row["part"], row["moc_ft"]) for row in high.rows("AREAS")] == [("primary", 2000.0)] * 3


def corner_rows(*corners, name="x", part=None):
    return [(None, name, part, u, s) for u, s in corners]


OUTLINE = ("name:string", "part:string", "along_nm:double", "across_nm:double")
TRIANGLE = ((5.0, -5.0), (5.0, 9.0), (-20.0, 0.0))


@pytest.mark.parametrize(
    ("table", "said"),
    [
        (corner_rows(*TRIANGLE[:2]), "OUTLINES: x, primary: an outline needs at least three corners."),
        (corner_rows(*TRIANGLE, part="third"), "OUTLINES: x: part is 'third'; it must be one of primary, secondary."),
        (corner_rows(*TRIANGLE) + corner_rows(*TRIANGLE, name="y"), "OUTLINES holds 2 outlines (x, y); give "
         "OUTLINE_SELECTION to choose among them."),
        (corner_rows((5.0, None), *TRIANGLE), "OUTLINES: across_nm of row 1 is empty; it must be a number."),
        (corner_rows(*((u + 30.0, s) for u, s in TRIANGLE)), "OUTLINES: x does not contain the fix, which lies at "
         "along_nm 0, across_nm 0."),
        ([], "OUTLINES: there is no row."),
    ],
)  # fmt: skip
def test_outlines_that_are_wrong(table, said):
    source = layer(OUTLINE, table, kind="None")
    assert refusal("protectedareas", INPUT=some_holds(), CONSTRUCTION="outline", OUTLINES=source) == said


def test_tables_that_are_missing_or_too_many(tables):
    holds = some_holds()
    said = refusal("protectedareas", INPUT=holds, CONSTRUCTION="outline")
    assert said == "CONSTRUCTION is outline, but OUTLINES is not given; no template comes with Fixwright."
    said = refusal("protectedareas", INPUT=holds, OUTLINES=tables["OUTLINES"])
    assert said == "OUTLINES is given, but CONSTRUCTION is template; choose outline, or leave it out."
    given = {"INPUT": holds, "CONSTRUCTION": "outline", "OUTLINES": tables["OUTLINES"]}
    said = refusal("protectedareas", **given, OUTLINE_SELECTION=layer(("name:string",), [], kind="None"))
    assert said == "OUTLINE_SELECTION has no field outline."
    selection = layer(("outline:string", "alt_to_ft:string"), [(None, "Invented small", "high")], kind="None")
    said = refusal("protectedareas", **given, OUTLINE_SELECTION=selection)
    assert said == "OUTLINE_SELECTION: alt_to_ft of row 1 is 'high'; it must be a number."
    selection = layer(("outline:string",), [(None, "another")], kind="None")
    said = refusal("protectedareas", **given, OUTLINE_SELECTION=selection)
    assert said == "OUTLINE_SELECTION: row 1 names the outline 'another'; there are Invented small, Invented large."


def test_shapely_is_asked_for_only_where_it_is_needed(tables, monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "shapely", None)
    assert run("protectedareas", INPUT=holds()).counts == (3, 3, 0)
    for more in ({"LEVELS": "every 1000"}, {"CONSTRUCTION": "outline", **tables}):
        said = refusal("protectedareas", INPUT=some_holds(), **more)
        assert said.startswith("The Python of this QGIS has no shapely; install it there")


# --- arrivals that cannot be


def test_arrivals_and_entry_go_together():
    holds = some_holds()
    said = refusal("protectedareas", INPUT=holds, ENTRY="arrivals")
    assert said == "ENTRY is arrivals, but ARRIVALS is not given; give it, or choose all or none."
    table = layer(("hold:string",), [], kind="None")
    said = refusal("protectedareas", INPUT=holds, ARRIVALS=table)
    assert said == "ARRIVALS is given, but ENTRY is all; choose arrivals, or leave it out."
    said = refusal("protectedareas", INPUT=holds, ENTRY="arrivals", ARRIVALS=table)
    assert said == (
        "ARRIVALS has neither lines nor the field arrival_heading_deg of the entries that Entry sectors gives."
    )
    lines = layer(("name:string",), [("LINESTRING(0 0, 1 1)", "x")], kind="LineString")
    lines.setCrs(core.QgsCoordinateReferenceSystem())
    said = refusal("protectedareas", INPUT=holds, ENTRY="arrivals", ARRIVALS=lines)
    assert said == "ARRIVALS has no coordinate reference system; set the layer's own first."


# --- wind of statistics


def test_wind_from_each_row():
    """A wind by statistics from a field: what a run with that wind gives; more wind, more area."""
    source = holds()
    by_field = by_part(run("protectedareas", INPUT=source, WIND=expression("if(hold = 'B', 60, 40)")).rows("AREAS"))
    for value, names in ((40, "AC"), (60, "B")):
        alone = by_part(run("protectedareas", INPUT=source, WIND=value).rows("AREAS"))
        for key, row in alone.items():
            if key[0] in names:
                assert by_field[key]["area_nm2"] == row["area_nm2"] and row["wind_kt"] == value
    less, more = (by_part(run("protectedareas", INPUT=source, WIND=kt).rows("AREAS")) for kt in (20, 50))
    assert all(less[key]["area_nm2"] < more[key]["area_nm2"] for key in less if key[2] == "basic")


# --- what the document leaves to choose


def sizes(**more):
    found = run("protectedareas", INPUT=holds(PLACES[:1]), **more).rows("AREAS")
    return {row["part"]: row["area_nm2"] for row in found}, {row["part"]: row["moc_ft"] for row in found}, found[0]


def test_clearances():
    """Metres in place of printed feet, more over high terrain, helicopters' buffer: ICAO Doc 8168 Vol II, II-4-1 (what
    lies between its first and last ring, and of helicopters, from memory)."""
    assert sizes(CLEARANCE="metres")[1]["buffer_2"] == pytest.approx(150.0 / 0.3048)
    assert sizes(HIGH_TERRAIN=2)[1]["basic"] == 1969.0
    assert set(sizes(CATEGORY_H="yes")[1]) == {"basic", "entry", "buffer_1", "buffer_2"}


def test_speeds():
    """280 kt in turbulence up to 14 000 ft, 170 kt of categories A and B: ICAO Doc 8168 Vol II, Table II-4-1-2."""
    plain, _, row = sizes()
    assert row["tas_kt"] == pytest.approx(150.0 * 1.1231, abs=0.01)
    rough, _, row = sizes(TURBULENCE="yes")
    assert row["tas_kt"] == pytest.approx(280.0 * 1.1231, abs=0.02) and rough["basic"] > plain["basic"]
    assert sizes(TURBULENCE="yes", CATEGORY="a/b")[2]["tas_kt"] == pytest.approx(170.0 * 1.1231, abs=0.02)
    by_k, by_air = (sizes(TAS=word)[2]["tas_kt"] for word in ("k", "compressible"))
    assert by_k == row["tas_kt"] / 280.0 * 150.0 and 0.0 < by_k - by_air < 2.0  # K ignores compressibility


def test_turns_and_slow_flights():
    fine = sizes()[0]["basic"]
    assert 0.97 * fine < sizes(TEMPLATE_TURNS="tabulated")[0]["basic"] < fine
    # Unless told otherwise the slow flight of 90 kt is in the area, as the document asks (II-4-1-4, 1.3.3.1.2): here,
    # in the wind of 6 000 ft, beside a fast one of 150 kt it needs room of its own.
    none = sizes(SLOW_IAS=0)[0]["basic"]
    assert none < fine * 0.999 and sizes(SLOW_IAS=90)[0]["basic"] == fine


def test_area_navigation():
    """The rectangle of both tolerances in place of a tolerance area; one without the other makes no sense."""
    point, wide = (sizes(NAVIGATION="rnav", **more)[0]["basic"] for more in ({}, {"ATT": 0.8, "XTT": 1.0}))
    assert wide > point
    source = some_holds()
    said = refusal("protectedareas", INPUT=source, ATT=0.8, XTT=1.0)
    assert said == "ATT is given, but NAVIGATION is conventional; choose rnav, or leave it out."
    said = refusal("protectedareas", INPUT=source, NAVIGATION="rnav", XTT=1.0)
    assert said == "XTT is given without ATT; give both, or neither."
    areas = layer(("fix:string",), [("POLYGON((0 0,1 0,1 1,0 0))", "x")], kind="Polygon")
    said = refusal("protectedareas", INPUT=source, NAVIGATION="rnav", ATT=0.8, XTT=1.0, FIX_TOLERANCE=areas)
    assert said == "FIX_TOLERANCE and ATT are given; give one of them."


# --- how the area arises


def test_the_sheet_and_the_drawing():
    """Every value has a unit or is a factor, a paragraph and a mark; the drawing lies about the fix."""
    made = run("protectedareas", INPUT=holds(), TOLERANCE=10)
    values, lines = made.rows("LINE_VALUES"), made.rows("CONSTRUCTION_LINES")
    assert {row["hold"] for row in values} == {row["hold"] for row in lines} == set("ABC")
    assert {row["mark"] for row in values} <= {"published", "from memory", "derived", "as entered"}
    assert all(row["source"] and row["name"] and row["value"] is not None for row in values)
    assert {row["name"] for row in values if not row["unit"]} == {"K"}
    by_name = {(row["hold"], row["name"]): row["value"] for row in values}
    # ICAO Doc 8168 Vol II, Table I-4-3-App C-1: K at 6 000 ft and ISA+15, and w = 2 h + 47
    assert by_name["A", "K"] == pytest.approx(1.1231, abs=5e-5)
    assert by_name["A", "V"] == pytest.approx(150.0 * 1.1231, abs=0.01) and by_name["A", "w"] == pytest.approx(59.0)
    assert {row["kind"] for row in lines} <= {"point", "arc", "tangent", "outline", "line"}
    assert {"a", "c", "g"} <= {row["letter"] for row in lines if row["kind"] == "point" and row["hold"] == "A"}
    for row in lines:
        assert not row["geometry"].isEmpty()
        # an arc says how far it lies from its centre
        assert (row["radius_nm"] is None) == (row["kind"] != "arc")


def test_an_outline_is_drawn_with_its_corners(tables):
    made = run("protectedareas", INPUT=holds(), CONSTRUCTION="outline", **tables)
    letters = [row["letter"] for row in made.rows("CONSTRUCTION_LINES") if row["hold"] == "A"]
    assert letters == [None, *(f"P{k}" for k in range(1, 9))]
    marks = {row["mark"] for row in made.rows("LINE_VALUES")}
    assert marks == {"as entered", "published", "from memory"}


# --- the rectangle


def test_the_rectangle_is_refused_outside_its_validity():
    """ICAO Doc 8168 Vol II, Part I, Section 4, Chapter 3, Appendix C, 3.4: TAS 90 to 290 kt, wind up to 65 kt, one to
    three minutes. At 9 000 ft 2 h + 47 is 65 kt, at 9 500 ft it is 66."""
    places = [PLACES[0], ((10, 51), "H", 0.0, "right", 9500.0, 9500.0, 150.0, 0.0),
              ((10, 52), "F", 0.0, "right", 8000.0, 8000.0, 265.0, 0.0),
              ((10, 53), "N", 0.0, "right", 9000.0, 9000.0, 150.0, 0.0)]  # fmt: skip
    made = run("protectedareas", INPUT=holds(places), CONSTRUCTION="rectangle")
    assert made.counts == (4, 2, 2)
    assert set(made.reasons()) == {"2", "3"}
    assert "wind" in made.reasons()["2"] and "65" in made.reasons()["2"]
    assert "290" in made.reasons()["3"]
    found = made.rows("AREAS")
    assert {row["hold"] for row in found} == {"A", "N"} and "basic" in {row["part"] for row in found}


# --- one result


@pytest.mark.parametrize("construction", ["outline", "envelope"])
def test_by_the_command_line(command_line, tables, tmp_path, construction):  # noqa: F811
    """To the last bit, though that process may link other libraries."""
    source = saved(holds(), tmp_path / "holds.gpkg")
    given = {"INPUT": source, "CONSTRUCTION": construction, **(tables if construction == "outline" else {}),
             "LEVELS": "3000; 5000"}  # fmt: skip
    outputs = ("AREAS", "CONSTRUCTION_LINES", "LINE_VALUES", "REJECTS")
    python = {sink: str(tmp_path / f"python-{sink}.gpkg") for sink in outputs}
    shell = {sink: str(tmp_path / f"shell-{sink}.gpkg") for sink in outputs}
    run("protectedareas", **given, **python)
    said = command_line("run", "fixwright:protectedareas", "--", *[f"{k}={v}" for k, v in {**given, **shell}.items()])
    assert said.returncode == 0, said.stdout
    for sink in outputs:
        assert plain(opened(python[sink])) == plain(opened(shell[sink])), sink
    assert len(rows(opened(python["AREAS"]))) == 3 * 3 * (2 if construction == "outline" else 7)
