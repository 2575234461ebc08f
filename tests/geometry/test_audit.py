"""Findings about a table of navaids, each made by hand, and that nothing else is found."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import audit, geodesy, magnetism
from fixwright.geometry.audit import audit as run
from fixwright.geometry.navaid_data import reading

YEAR = 2026.5
LON, LAT = -20.0, 40.0
TODAY = float(magnetism.declination_deg(LON, LAT, year=YEAR))


def _columns(*rows: dict) -> dict[str, np.ndarray]:
    """Clean columns of invented navaids; a row without changes gives no finding."""
    good = {"ident": "XQV", "kind": "VOR/DME", "freq": "113.90", "elev_ft": "1000", "decl_deg": f"{TODAY:.1f}",
            "class": "", "status": "", "lat": LAT, "lon": LON}  # fmt: skip
    assert all(set(row) <= set(good) for row in rows)
    return reading.read({name: [row.get(name, value) for row in rows] for name, value in good.items()}).taken()


def _found(*rows: dict, **more) -> list[tuple]:
    got = run(_columns(*rows), YEAR, **more)
    return list(zip(got.row.tolist(), got.finding, got.severity))


def _away(nm: float, course: float = 90.0) -> dict:
    lon, lat, _ = geodesy.direct(LON, LAT, course, nm)
    return {"lon": float(lon), "lat": float(lat)}


def test_tables_name_their_sources():
    assert set(audit.SOURCES) == set(audit.FINDINGS) and all(audit.SOURCES.values())
    for steps in audit.THRESHOLDS.values():
        assert all(step.source and step.mark in ("published", "common practice", "chosen here") for step in steps)
        assert [step.value for step in steps] == sorted(step.value for step in steps)
        assert all(step.severity in audit.SEVERITIES for step in steps)
    assert set(audit.SEVERITY.values()) <= set(audit.SEVERITIES)


def test_a_good_table_and_an_empty_one():
    assert _found({}) == []
    empty = run({name: np.array([], dtype=object) for name in audit.NEEDED}, YEAR)
    assert all(len(column) == 0 for column in empty)


@pytest.mark.parametrize(
    ("row", "finding", "severity"),
    [
        ({"status": "out of service"}, "out_of_service", "high"),
        ({"freq": "11.495"}, "frequency", "high"),
        ({"freq": "113.92"}, "frequency", "high"),
        ({"kind": "NDB", "freq": "175"}, "frequency", "low"),
        ({"kind": "NDB", "freq": "-1"}, "frequency", "high"),
        ({"decl_deg": ""}, "no_declination", "high"),
        ({"elev_ft": ""}, "no_elevation", "medium"),
        ({"kind": "NDB", "freq": "365", "elev_ft": ""}, "no_elevation", "low"),
        ({"kind": "DME", "elev_ft": ""}, "no_elevation", "medium"),
        ({"decl_deg": f"{TODAY + 2.1:.3f}"}, "declination_off", "medium"),
        ({"decl_deg": f"{TODAY - 2.1:.3f}"}, "declination_off", "medium"),
        ({"decl_deg": f"{TODAY + 6.1:.3f}"}, "declination_off", "high"),
    ],
)
def test_one_fault_one_finding(row, finding, severity):
    assert _found({"ident": "XQW", **_away(20.0)}, row) == [(1, finding, severity)]


@pytest.mark.parametrize(
    "row",
    [
        {"decl_deg": f"{TODAY + 1.9:.3f}"},
        {"kind": "NDB", "freq": "365", "decl_deg": ""},
        {"kind": "NDB", "freq": "365", "decl_deg": "40"},
        {"kind": "DME", "decl_deg": ""},
        {"kind": "WPT", "freq": "", "decl_deg": "", "elev_ft": ""},
        {"kind": "", "freq": "", "decl_deg": "", "elev_ft": ""},
    ],
)
def test_what_is_no_fault(row):
    assert _found(row) == []


def test_the_declination_sentence():
    """2.98 degrees at 20 NM: 2 x 20 x sin(1.49) = 1.04 NM, by hand."""
    got = run(_columns({"decl_deg": f"{TODAY + 2.98:.6f}"}), YEAR)
    assert got.value[0] == pytest.approx(2.98, abs=0.01) and got.unit[0] == "deg"
    assert "is 3.0 degrees from today's variation" in got.text[0]
    assert got.text[0].endswith(": 1.0 NM at 20 NM")
    assert (got.navaid[0], got.kind[0], got.lon[0], got.lat[0]) == ("XQV", "VOR/DME", LON, LAT)


def test_true_north_and_weak_fields_are_told():
    """Northern Canada, where stations are aligned to true north: variation 20 degrees and more, a weak field."""
    got = run(_columns({"decl_deg": "0", "lat": 75.0, "lon": -85.0}), YEAR)
    assert got.finding.tolist() == ["declination_off"]
    assert "aligned to true north" in got.text[0] and "the field is weak there" in got.text[0]
    plain = run(_columns({"decl_deg": "0", "lat": 40.0, "lon": -120.0}), YEAR)
    assert "true north" in plain.text[0] and "weak" not in plain.text[0]


def test_declinations_that_differ_through_180():
    """South of the magnetic pole 179 west against 179 east differs by 2 degrees, not by 358."""
    lon = np.linspace(130.0, 150.0, 801)
    d = magnetism.declination_deg(lon, -70.0, year=YEAR)
    k = int(np.argmax(d))
    assert d[k] > 178.0
    got = run(_columns({"decl_deg": f"{d[k] + 5.0 - 360.0:.4f}", "lat": -70.0, "lon": float(lon[k])}), YEAR)
    assert got.value[0] == pytest.approx(5.0, abs=0.2)


def test_ambiguous_idents():
    vor, ndb = {}, {"kind": "NDB", "freq": "365"}
    far = {**_away(301.0), "decl_deg": "", "kind": "NDB", "freq": "365"}
    assert _found(vor, {**ndb, **_away(299.0)}) == [(0, "ambiguous_ident", "low"), (1, "ambiguous_ident", "low")]
    assert _found(vor, far) == []
    assert _found(vor, far, same_ident_nm=302.0) == [(0, "ambiguous_ident", "low"), (1, "ambiguous_ident", "low")]
    assert _found(vor, {**ndb, "ident": "XQW", **_away(20.0)}) == []
    alike = [(0, "ambiguous_ident", "medium"), (1, "ambiguous_ident", "medium")]
    assert _found(vor, {"freq": "114.00", **_away(20.0)}) == alike
    assert _found(vor, {"ident": "xqv", "freq": "114.00", **_away(20.0)}) == alike  # people write idents either way
    same = [(0, "ambiguous_ident", "high"), (1, "ambiguous_ident", "high")]
    assert _found(vor, _away(20.0)) == same


def test_the_nearest_of_several_is_named():
    got = run(_columns({}, {"freq": "114.00", **_away(20.0)}, {"freq": "115.00", **_away(50.0)}), YEAR)
    assert got.finding.tolist() == ["ambiguous_ident"] * 3 and got.row.tolist() == [0, 1, 2]
    np.testing.assert_allclose(got.value, [20.0, 20.0, 30.0], atol=1e-3)
    assert "2 other navaids within 300 NM" in got.text[0] and "id XQV VOR/DME 2 is 20.0 NM away" in got.text[0]


def test_one_ident_across_the_antimeridian():
    pair = [{"lon": lon, "lat": -17.0, "decl_deg": "", "freq": freq} for lon, freq in ((179.9, "113"), (-179.9, "114"))]
    assert [f for f in _found(*pair) if f[1] == "ambiguous_ident"] == [
        (0, "ambiguous_ident", "medium"), (1, "ambiguous_ident", "medium")
    ]  # fmt: skip


def test_aids_on_one_site_that_differ():
    tacan = {"kind": "TACAN"}
    assert _found({}, tacan) == []
    assert _found({}, {**tacan, **_away(9.0 / 1852.0)}) == []
    assert _found({}, {**tacan, **_away(11.0 / 1852.0)}) == [(0, "site_position", "low")]
    assert _found({}, {**tacan, "elev_ft": "1051"}) == [(0, "site_elevation", "medium")]
    assert _found({}, {**tacan, "elev_ft": "1050"}) == []
    assert _found({}, {**tacan, "decl_deg": f"{round(TODAY, 1) + 0.6:.1f}"}) == [(0, "site_declination", "medium")]
    assert _found({}, {"kind": "NDB", "freq": "365", "decl_deg": "30"}) == []  # an NDB has no declination of its own
    assert _found({}, {**tacan, **_away(0.51)}) == [(0, "ambiguous_ident", "high"), (1, "ambiguous_ident", "high")]
    assert _found({}, {**tacan, **_away(0.49)}) == [(0, "site_position", "low")]
    assert _found({}, {**tacan, **_away(0.51)}, together_nm=0.6) == [(0, "site_position", "low")]


def test_the_gravest_come_first():
    got = run(_columns({"elev_ft": ""}, {"ident": "XQW", "status": "closed"}, {"ident": "XQX", "decl_deg": "60"}), YEAR)
    assert got.severity.tolist() == sorted(got.severity, key=audit.SEVERITIES.index)
    assert got.row.tolist() == [1, 2, 0]


def test_rows_without_a_place_are_left_out_and_numbers_stay_those_of_the_input():
    table = {"ident": ["XQV", "XQW"], "kind": ["VOR", "VOR"], "lat": ["", "40"], "lon": ["", "-20"]}
    got = run(reading.read(table).columns, YEAR)
    assert set(got.row.tolist()) == {1} and set(got.finding) == {"no_declination", "no_elevation"}


def test_bad_calls():
    columns = _columns({})
    with pytest.raises(ValueError, match="columns lack in_service, status"):
        run({name: values for name, values in columns.items() if name not in ("status", "in_service")}, YEAR)
    for more in ({"same_ident_nm": 0.4}, {"together_nm": -1.0}, {"same_ident_nm": np.nan}):
        with pytest.raises(ValueError, match="together_nm is"):
            run(columns, YEAR, **more)
    with pytest.raises(ValueError, match="year is"):
        run(columns, 2031.0)


PLACES = st.tuples(st.sampled_from(["A", "B"]), st.floats(-180.0, 180.0), st.floats(-84.0, 84.0))


@given(st.lists(PLACES, min_size=2, max_size=12), st.floats(1.0, 3_000.0))
def test_pairs_of_one_ident_are_all_found(rows, within):
    """Against every pair, one by one: nothing is lost where rows are compared with their neighbours only."""
    ident, lon, lat = zip(*rows)
    table = audit._Table({
        **{name: np.full(len(rows), "", dtype=object) for name in ("id", "kind", "freq", "freq_check", "status")},
        "ident": np.array(ident, dtype=object), "lon": np.array(lon), "lat": np.array(lat),
        "elev_ft": np.zeros(len(rows)), "decl_deg": np.zeros(len(rows)), "in_service": np.ones(len(rows), dtype=bool),
    })  # fmt: skip
    first, second, apart = audit._same_ident(table, within)
    expected = {}
    for i in range(len(rows)):
        for j in range(i + 1, len(rows)):
            nm = float(geodesy.inverse(lon[i], lat[i], lon[j], lat[j])[2])
            if ident[i] == ident[j] and nm <= within:
                expected[i, j] = nm
    assert dict(zip(zip(first.tolist(), second.tolist()), apart.tolist())) == pytest.approx(expected)
