"""The audit of navaids in QGIS: findings by field names of every form, rejects, and the real open table."""

from __future__ import annotations

from collections import Counter, defaultdict

import pytest

from fixwright.tests.algorithms.layers import DATE, Feedback, core, layer, opened, refusal, rows, run, saved
from fixwright.tests.algorithms.test_import import table, worldwide  # noqa: F401
from fixwright.tests.algorithms.test_same_result import command_line  # noqa: F401

FIELDS = ("ident:string", "kind:string", "freq:string", "elev_ft:double", "decl_deg:double", "status:string",
          "id:string")  # fmt: skip
CLEAN = ((11.25, 48.5), "QZA", "VOR/DME", "113.90", 640.0, 4.0, "", "1")


def changed(**changes):
    names = [field.partition(":")[0] for field in FIELDS]
    row = list(CLEAN)
    for name, value in changes.items():
        row[1 + names.index(name) if name != "place" else 0] = value
    return tuple(row)


def findings(*features, fields=FIELDS, **more) -> list[tuple]:
    made = run("auditnavaids", INPUT=layer(fields, features), DATE=DATE, **more)
    assert made.counts == (len(features), len(features), 0)
    return [(row["navaid"], row["finding"], row["severity"]) for row in made.rows("FINDINGS")]


def test_a_clean_navaid_has_no_findings():
    """Variation there is 4 east (World Magnetic Model 2025)."""
    assert findings(CLEAN) == []


@pytest.mark.parametrize(
    ("changes", "finding", "severity"),
    [
        ({"status": "Unserviceable"}, "out_of_service", "high"),
        ({"freq": "113.92"}, "frequency", "high"),
        ({"freq": "-1"}, "frequency", "high"),
        ({"kind": "NDB", "freq": "175", "decl_deg": None}, "frequency", "low"),
        ({"decl_deg": 0.0}, "declination_off", "medium"),
        ({"decl_deg": -4.0}, "declination_off", "high"),
        ({"decl_deg": None}, "no_declination", "high"),
        ({"elev_ft": None}, "no_elevation", "medium"),
    ],
)
def test_one_finding(changes, finding, severity):
    assert findings(changed(**changes)) == [("QZA", finding, severity)]


def test_one_row_in_full():
    made = run("auditnavaids", INPUT=layer(FIELDS, [changed(decl_deg=-4.0)]), DATE=DATE)
    (row,) = made.rows("FINDINGS")
    assert (row["kind"], row["unit"]) == ("VOR/DME", "deg") and row["value"] == pytest.approx(-8.0, abs=0.5)
    # 8.3 degrees at 20 NM: 2 * 20 * sin(8.3 / 2) is 2.9
    assert "2.9 NM at 20 NM" in row["text"] and "World Magnetic Model 2025" in row["source"]
    assert row["geometry"].asWkt(4) == "Point (11.25 48.5)"


def test_an_ident_shared_within_a_distance():
    """48.5 to 51.5 north is 180 NM."""
    pair = (CLEAN, changed(place=(11.25, 51.5), id="2", freq="114.00"))
    assert findings(*pair) == [("QZA", "ambiguous_ident", "medium")] * 2
    assert findings(*pair, SAME_IDENT_WITHIN=170) == []
    assert findings(*pair, SAME_IDENT_WITHIN=190) == [("QZA", "ambiguous_ident", "medium")] * 2


def test_two_aids_of_one_site():
    """100 m of latitude are 0.0009 degrees."""
    pair = (changed(kind="VOR"), changed(kind="DME", place=(11.25, 48.5009), decl_deg=None, elev_ft=740.0, id="2"))
    assert findings(*pair) == [("QZA", "site_elevation", "medium"), ("QZA", "site_position", "low")]


def test_fields_by_other_names():
    """Names of the public-domain worldwide table, and of a table of one's own with units in its cells."""
    other = ("ident:string", "type:string", "frequency_khz:integer", "elevation_ft:integer",
             "slaved_variation_deg:double")  # fmt: skip
    assert findings(((11.25, 48.5), "QZA", "VOR-DME", 113900, 640, 4.004), fields=other) == []
    wrong = ((11.25, 48.5), "QZA", "VOR-DME", 11495, 640, 4.004)
    assert findings(wrong, fields=other) == [("QZA", "frequency", "high")]
    texts = ("IDENT:string", "Kind:string", "Frequency:string", "ELEV_FT:string", "Declination:string")
    assert findings(((11.25, 48.5), "QZA", "vor-dme", "113,9 MHz", "640 ft", "4E"), fields=texts) == []
    assert findings(((11.25, 48.5), "QZA", "vor-dme", "113,9 MHz", "640 ft", "4W"), fields=texts) == [
        ("QZA", "declination_off", "high")
    ]


def test_another_crs():
    place = core.QgsCoordinateTransform(
        core.QgsCoordinateReferenceSystem("EPSG:4326"), core.QgsCoordinateReferenceSystem("EPSG:32632"),
        core.QgsCoordinateTransformContext(),
    ).transform(core.QgsPointXY(11.25, 48.5))  # fmt: skip
    source = layer(FIELDS, [((place.x(), place.y()), *changed(elev_ft=None)[1:])], crs="EPSG:32632")
    (row,) = run("auditnavaids", INPUT=source, DATE=DATE).rows("FINDINGS")
    assert row["geometry"].asWkt(6) == "Point (11.25 48.5)"


@pytest.mark.parametrize("at_a_time", [2, 5000])
def test_rejected_rows(monkeypatch, at_a_time):
    from fixwright.algorithms.common import columns

    monkeypatch.setattr(columns, "ROWS_AT_A_TIME", at_a_time)
    features = [
        CLEAN, changed(place=None), changed(ident=""), changed(kind="radar"), changed(place=(0.0, 88.0)), CLEAN
    ]  # fmt: skip
    made = run("auditnavaids", INPUT=layer(FIELDS, features), DATE=DATE)
    assert made.counts == (6, 1, 5)
    said = list(made.reasons().values())
    assert said[0] == "the row has no point" and said[1] == "the row has no ident" and "'radar'" in said[2]
    assert "nearer a pole" in said[3] and said[4] == "it repeats row 1: the same ident, kind and place"
    assert [row["kind"] for row in made.rows("REJECTS")] == ["VOR/DME", "VOR/DME", "radar", "VOR/DME", "VOR/DME"]
    assert made.rows("FINDINGS") == []


def test_no_navaids():
    made = run("auditnavaids", INPUT=layer(FIELDS, []), DATE=DATE)
    assert made.counts == (0, 0, 0) and made.rows("FINDINGS") == []


def test_refused():
    assert refusal("auditnavaids", INPUT=layer(("name:string",), [((0.0, 0.0), "x")])) == (
        "INPUT has no field ident; its fields are name."
    )
    source = layer(FIELDS, [CLEAN])
    assert refusal("auditnavaids", INPUT=source, SAME_IDENT_WITHIN=0.1) == (
        "SAME_IDENT_WITHIN is 0.1; it must be a number between 0.5 and 5000 NM."
    )
    assert refusal("auditnavaids", INPUT=source, DATE="2035-01-01").startswith("DATE is 2035-01-01; it must be")
    line = layer(FIELDS, [("LINESTRING(0 0, 1 1)", *CLEAN[1:])], kind="LineString")
    assert refusal("auditnavaids", INPUT=line) == "INPUT must have points; the layer given has LineString."


def test_cancelled_at_once(tmp_path):
    out = tmp_path / "out.gpkg"
    made = run("auditnavaids", feedback=Feedback(cancel_at=0), INPUT=layer(FIELDS, [CLEAN]), FINDINGS=str(out))
    assert made.counts == (0, 0, 0) and not out.exists()


def test_outputs_skipped():
    source = layer(FIELDS, [changed(elev_ft=None), changed(place=None)])
    whole = run("auditnavaids", INPUT=source, DATE=DATE)
    for name in ("FINDINGS", "REJECTS"):
        alone = run("auditnavaids", INPUT=source, DATE=DATE, skip={"FINDINGS", "REJECTS"} - {name})
        assert alone.counts == whole.counts == (2, 1, 1)
        assert [dict(row, geometry=None) for row in alone.rows(name)] == [
            dict(row, geometry=None) for row in whole.rows(name)
        ]


def test_sample_area(root):
    """The sample area is made with one station out of service and a few aligned for another year."""
    table_ = f"{root / 'sample_layers' / 'navaids.gpkg'}|layername=navaids"
    made = run("auditnavaids", INPUT=table_, DATE=DATE)
    assert made.counts[0] == made.counts[1] + made.counts[2] == opened(table_).featureCount()
    by_kind = defaultdict(set)
    for row in made.rows("FINDINGS"):
        by_kind[row["finding"]].add(row["navaid"])
    assert by_kind["out_of_service"] == {
        feature["ident"] for feature in opened(table_).getFeatures() if feature["status"] == "out of service"
    }
    assert not by_kind["frequency"] and not by_kind["no_declination"]


def test_the_real_table(worldwide, tmp_path):  # noqa: F811
    """Through the layer of the import; what needs no geodesy is counted anew with a CSV reader."""
    source = [row for row in table(worldwide) if abs(float(row["latitude_deg"])) <= 85.0]
    out = str(tmp_path / "n.gpkg")
    run("importnavaids", INPUT=str(worldwide), NAVAIDS=out)
    made = run("auditnavaids", INPUT=out, DATE=DATE)
    assert made.counts == (len(source), len(source), 0)
    counted = Counter(row["finding"] for row in made.rows("FINDINGS"))
    radials = [row for row in source if row["type"] in ("VOR", "VOR-DME", "VORTAC", "TACAN")]
    assert counted["no_declination"] == sum(row["slaved_variation_deg"] == "" for row in radials) > 400
    assert counted["no_elevation"] == sum(row["elevation_ft"] == "" for row in source) > 3_800
    assert counted["out_of_service"] == sum("closed" in row["name"].lower() for row in source) == 4
    # A frequency that is none was left out by the import and stands in its limits; one of a wrong size stays.
    beacons = [float(row["frequency_khz"]) for row in source if row["type"].startswith("NDB")]
    vhf = [float(row["frequency_khz"]) for row in source if row["type"] in ("VOR", "VOR-DME", "VORTAC")]
    odd = sum(0.0 < khz < 190.0 or khz > 1_750.0 for khz in beacons)
    wrong = sum(khz > 0.0 and not (108_000.0 <= khz <= 117_950.0 and khz % 50.0 == 0.0) for khz in vhf)
    assert counted["frequency"] == odd + wrong and wrong == 1
    order = [("high", "medium", "low").index(row["severity"]) for row in made.rows("FINDINGS")]
    assert order == sorted(order)


def test_found_and_run_by_the_command_line(command_line, tmp_path):  # noqa: F811
    assert "not for navigation" in command_line("help", "fixwright:auditnavaids").stdout
    source, out = saved(layer(FIELDS, [changed(elev_ft=None)]), tmp_path / "n.gpkg"), tmp_path / "out.gpkg"
    said = command_line("run", "fixwright:auditnavaids", "--", f"INPUT={source}", f"DATE={DATE}", f"FINDINGS={out}")
    assert said.returncode == 0, said.stdout
    assert [row["finding"] for row in rows(opened(str(out)))] == ["no_elevation"]
