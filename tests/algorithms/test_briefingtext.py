"""The column for a phone and the logbook: what a hold's layers say, escaped, rounded, and nothing that runs."""

from __future__ import annotations

import csv
import html.parser
import io
import re
import resource
import xml.dom.minidom
from pathlib import Path

import pytest

from fixwright.tests.algorithms.layers import (
    DATE,
    Feedback,
    core,
    layer,
    refusal,
    rows,
    run,
    some_fixes,
    some_holds,
    stations,
)
from fixwright.tests.published.test_formats_published import HOSTILE

WIND = {"WIND_FROM": 240, "WIND_SPEED": 20, "ARRIVAL_COURSE": 120, "DATE": DATE}


def related(holds):
    flown = run("flyholds", INPUT=holds, START_UTC="14:05", CIRCUITS=3, **WIND).layer("FLOWN")
    entries = run("entrysectors", INPUT=holds, **WIND).layer("ENTRIES")
    slips = run("fixslips", INPUT=some_fixes(), DATE=DATE).layer("SLIPS")
    fields = ("hold:string", "test:string", "ok:int", "text:string")
    first = next(holds.getFeatures())["hold"]
    results = (("reception", 1, "all received"), ("terrain", 0, "3 500 ft is too low"),
               ("airspace", None, "no airspace given"))  # fmt: skip
    tests = layer(fields, [(None, first, *result) for result in results], kind="None")
    return {
        "FLOWN": flown,
        "ENTRIES": entries,
        "SLIPS": slips,
        "TESTS": tests,
        "NAVAIDS": stations(),
        "FIXES": some_fixes(),
    }


def written(tmp_path, ending, holds=None, **more):
    out = tmp_path / f"o.{ending}"
    holds = some_holds() if holds is None else holds
    made = run("briefingtext", INPUT=holds, OUTPUT=str(out), LOGBOOK=str(tmp_path / "log.csv"), **more)
    said = out.read_text(encoding="utf-8").replace("\u00a0", " ")
    return made, said, list(logbook(tmp_path / "log.csv"))


def logbook(path):
    text = path.read_bytes().decode("utf-8-sig")
    return csv.DictReader(io.StringIO(text, newline=""), strict=True)


class Seen(html.parser.HTMLParser):
    """Tags, attributes and texts of a page."""

    def __init__(self, page):
        super().__init__(convert_charrefs=True)
        self.tags, self.attributes, self.texts = [], [], []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data):
        self.texts.append(data)


TAGS = set("html head meta title style body h1 h2 h3 ul li a section p table tr th td".split())


def check_page(page):
    """A page of our own tags, well-formed, that loads and runs nothing. Returns: its texts."""
    seen = Seen(page)
    assert set(seen.tags) <= TAGS
    for name, value in seen.attributes:
        assert name in ("lang", "charset", "name", "content", "http-equiv", "dir", "href", "id", "class"), name
        assert name != "href" or re.fullmatch("#h[0-9]+", value)
    assert "default-src 'none'" in dict(seen.attributes).values() or "default-src 'none'" in page
    xml.dom.minidom.parseString(page.encode())
    return seen.texts


def test_figures_are_those_of_the_layers(tmp_path):
    """To the stated rounding: courses in whole degrees, times to five seconds, distances in tenths."""
    holds = some_holds()
    inputs = related(holds)
    made, page, _ = written(
        tmp_path, "html", holds, **inputs, TITLE="Quillandra Reach", NAVAID_DATA="invented, August 2026"
    )
    assert made.counts == (3, 3, 0)
    texts = check_page(page)
    hold = rows(holds)[0]
    at = texts.index("Inbound, magnetic")
    assert texts[at + 1] == f"{int(hold['inbound_model_deg'] + 0.5):03d}"
    circuit = next(row for row in rows(inputs["FLOWN"]) if row["hold"] == hold["hold"] and row["circuit"] == 1)
    inbound = 5 * int(circuit["inbound_s"] / 5 + 0.5)
    assert f"Inbound {round(circuit['inbound_heading_deg']):03d}, {inbound // 60}:{inbound % 60:02d}" in page
    assert f"{circuit['start_utc'][11:]}Z to {circuit['end_utc'][11:]}Z" in texts
    far = max(row["distance_nm"] for row in rows(inputs["SLIPS"]) if row["fix"] == hold["fix"])
    assert f"{far:.1f} NM" in texts
    results = ("NOT MET: 3 500 ft is too low", "not tested: no airspace given", "met: all received")
    failed, open_, met = map(texts.index, results)
    assert failed < open_ < met
    whole = " ".join(texts)
    for said in ("not for navigation", f"World Magnetic Model 2025 of {DATE}", "Navaid data: invented, August 2026.",
                 "Word to stop", "Quillandra Reach", "Rules of ICAO Doc 8168"):  # fmt: skip
        assert said in whole


def test_a_narrow_screen_breaks_no_figure(tmp_path):
    """Between the digits of a number and before its unit stands a space that holds them together."""
    page = tmp_path / "narrow.html"
    run("briefingtext", INPUT=some_holds(), OUTPUT=str(page))
    text = page.read_text(encoding="utf-8")
    assert re.search("[0-9]\u00a0[0-9]{3}\u00a0ft", text) and re.search("[0-9]\u00a0kt", text)
    assert not re.search(r"[0-9] (?:[0-9]{3}\b|ft|NM|kt)", text)


def test_text_says_the_same(tmp_path):
    holds = some_holds()
    inputs = related(holds)
    _, page, _ = written(tmp_path, "html", holds, **inputs)
    _, text, _ = written(tmp_path, "txt", holds, **inputs)
    lines = text.splitlines()
    for said in check_page(page):
        if re.fullmatch(r"\d{3}|.*Z to .*|NOT MET.*|Outbound .*", said):
            assert any(said in line for line in lines), said
    assert "not for navigation" in text and "<" not in text


def test_parts_that_are_not_given_are_left_out(tmp_path):
    _, page, (row, *_) = written(tmp_path, "html")
    texts = check_page(page)
    assert not {"Tests", "Slips", "Airspace", "Clearance"} & set(texts)
    assert not any(text.startswith("On the day") for text in texts)
    assert (row["entry"], row["circuits"], row["start_utc"], row["state"]) == ("", "", "", "planned")


def test_a_clearance_and_airspace(tmp_path):
    holds = some_holds()
    holds.dataProvider().addAttributes([core.QgsField("clearance", holds.fields().field("hold").type())])
    holds.updateFields()
    first = next(holds.getFeatures())
    holds.dataProvider().changeAttributeValues(
        {first.id(): {holds.fields().indexOf("clearance"): "hold <west> of QZB"}}
    )
    fields = ("hold:string", "text:string", "ok:int", "hours:string", "contact:string")
    contacts = [(None, first["hold"], "R & D area is near", 1, "SR to SS", "<Quillandra> 119.005"),
                (None, first["hold"], "TRA 7 overlaps", 0, "", "")]  # fmt: skip
    near = layer(fields, contacts, kind="None")
    _, page, _ = written(tmp_path, "html", holds, AIRSPACE=near)
    texts = check_page(page)
    assert "Hold <west> of QZB." in texts and "TRA 7 overlaps." in texts
    assert "R & D area is near; SR to SS; <Quillandra> 119.005." in texts


@pytest.mark.parametrize("ending", ["html", "txt"])
def test_hostile_names(ending, tmp_path):
    names = [name for name in HOSTILE if "\ud83d" not in name]
    for start in range(0, len(names), 3):
        holds, changes = some_holds(), {}
        for feature, name in zip(holds.getFeatures(), names[start : start + 3]):
            values = {"hold": name.strip() or "blank", "navaid": name, "limits": name, "assumed": name, "fix": name}
            changes[feature.id()] = {holds.fields().indexOf(key): value for key, value in values.items()}
        assert holds.dataProvider().changeAttributeValues(changes)
        made, text, log = written(tmp_path, ending, holds, TITLE=names[start], NAVAID_DATA=names[start])
        assert made.counts == (3, 3, 0)
        if ending == "html":
            check_page(text)
        assert not re.search("[\x00-\x09\x0b-\x1f\x7f\u202a-\u202e\u2066-\u2069]", text)
        assert len(log) == 3
        for row in log:
            assert None not in row and None not in row.values()
            for name in ("exercise", "fix", "navaid"):
                assert not row[name].startswith(("=", "+", "-", "@", "\t", "\r"))


def test_logbook(tmp_path):
    """A row an exercise, as planned; numbers are numbers."""
    holds = some_holds()
    inputs = related(holds)
    _, _, log = written(tmp_path, "html", holds, **inputs)
    assert len(log) == 3
    for row, hold in zip(log, rows(holds)):
        flown = [one for one in rows(inputs["FLOWN"]) if one["hold"] == hold["hold"]]
        entry = next(one["entry"] for one in rows(inputs["ENTRIES"]) if one["hold"] == hold["hold"])
        assert row["exercise"] == hold["hold"] and row["fix"] == hold["fix"] and row["navaid"] == hold["navaid"]
        assert row["entry"].split("; ")[0] == entry
        assert int(row["circuits"]) == max(one["circuit"] for one in flown) == 3
        assert row["date"] == DATE and row["start_utc"] == min(one["start_utc"] for one in flown)
        minutes = (max(one["end_s"] for one in flown) - min(one["start_s"] for one in flown)) / 60.0
        assert float(row["minutes"]) == pytest.approx(minutes, abs=0.051)
        assert (float(row["wind_from_true_deg"]), float(row["wind_kt"])) == (240.0, 20.0)
        assert (float(row["altitude_ft"]), row["state"], row["remarks"]) == (hold["alt_ft"], "planned", "")
    assert [row["tests_not_met"] for row in log] == ["terrain", "", ""]


def test_derived_fields_are_not_trusted(tmp_path):
    expected = check_page(written(tmp_path, "html")[1])
    holds = some_holds()
    changes = {
        holds.fields().indexOf(name): 99.0 for name in ("inbound_model_deg", "tas_kt", "circuit_s", "lat", "lon")
    }
    assert holds.dataProvider().changeAttributeValues({f.id(): changes for f in holds.getFeatures()})
    assert check_page(written(tmp_path, "html", holds)[1]) == expected


def test_tables_that_come_as_text(tmp_path):
    """A CSV file without types gives the same page as the layer it was written from."""
    holds = some_holds()
    entries = run("entrysectors", INPUT=holds, **WIND)
    expected = check_page(written(tmp_path, "html", holds, ENTRIES=entries.layer("ENTRIES"))[1])
    run("entrysectors", INPUT=holds, ENTRIES=str(tmp_path / "entries.csv"), **WIND)
    (tmp_path / "entries.csvt").unlink(missing_ok=True)
    table = core.QgsVectorLayer(f"{tmp_path / 'entries.csv'}|option:AUTODETECT_TYPE=NO", "entries", "ogr")
    assert {field.typeName() for field in table.fields()} == {"String"}
    assert check_page(written(tmp_path, "html", holds, ENTRIES=table)[1]) == expected


def test_a_hold_that_is_none(tmp_path):
    holds = some_holds()
    second, third = [f.id() for f in holds.getFeatures()][1:]
    index = holds.fields().indexOf
    changes = {second: {index("ias_kt"): None}, third: {index("var_date"): "1999-01-01"}}
    holds.dataProvider().changeAttributeValues(changes)
    made, page, log = written(tmp_path, "html", holds)
    assert made.counts == (3, 1, 2) and len(log) == 1
    reasons = made.reasons()
    assert reasons[str(second)] == "ias_kt is empty"
    assert reasons[str(third)].startswith("var_date is 1999-01-01; it must be from 2025-01-01 to 2029-12-31")
    assert "<ul>" not in page


def test_refused(tmp_path):
    holds, out = some_holds(), str(tmp_path / "o.html")
    for more, said in (
        ({"OUTPUT": None}, "Neither OUTPUT nor LOGBOOK is given; give at least one of them."),
        ({"SLIPS": holds.clone(), "OUTPUT": out, "TESTS": stations()}, "TESTS has no field hold to join the holds by."),
        ({"OUTPUT": str(tmp_path / "o.doc")}, "whose ending tells no format; give FORMAT, or an ending of"),
        ({"FORMAT": "text"}, "but FORMAT is text; make them agree."),
        ({"LOGBOOK": str(tmp_path / "log.xls")}, "its name must end in .csv."),
        ({"LOGBOOK": str(tmp_path / "no" / "log.csv")}, "but there is no folder"),
        ({"INPUT": some_fixes()}, "INPUT is not a layer of holds"),
    ):
        assert said in refusal("briefingtext", **{"INPUT": holds, "OUTPUT": out, **more}), more
    assert list(tmp_path.iterdir()) == []


def test_temporary_files(tmp_path):
    made = run("briefingtext", INPUT=some_holds(), OUTPUT="TEMPORARY_OUTPUT", FORMAT="text")
    assert made.results["OUTPUT"].endswith(".txt") and Path(made.results["OUTPUT"]).is_file()
    assert "LOGBOOK" not in made.results


@pytest.mark.parametrize("at", [0, 100])
def test_a_cancel_leaves_the_older_files_alone(at, tmp_path):
    for name in ("o.html", "log.csv"):
        (tmp_path / name).write_text("old")
    asked = {"OUTPUT": str(tmp_path / "o.html"), "LOGBOOK": str(tmp_path / "log.csv")}
    made = run("briefingtext", Feedback(cancel_at=at), INPUT=some_holds(), **asked)
    assert not {"OUTPUT", "LOGBOOK"} & set(made.results)
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {"o.html": "old", "log.csv": "old"}


def test_a_full_disk_leaves_the_older_files_alone(tmp_path):
    """Also the file that would still have had room: both are put in their places, or neither."""
    for name in ("o.html", "log.csv"):
        (tmp_path / name).write_text("old")
    _, most = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (3_000, most))  # bytes a file: a write beyond gives an error
    try:
        with pytest.raises(core.QgsProcessingException, match="cannot be written"):
            run("briefingtext", INPUT=some_holds(), OUTPUT=str(tmp_path / "o.html"), LOGBOOK=str(tmp_path / "log.csv"))
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {"o.html": "old", "log.csv": "old"}
