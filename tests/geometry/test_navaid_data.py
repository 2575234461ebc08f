"""Tables of navaids: every form read by its headers, what cannot be used said row by row, output read back."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import geodesy, navaids, reasons, text
from fixwright.geometry.navaid_data import channels, frequencies, reading
from fixwright.geometry.navaid_data.plain import parse_declination
from fixwright.geometry.navaid_data.reading import read
from fixwright.geometry.navaid_data.status import in_service

WORLDWIDE = {
    "id": "1", "filename": "", "ident": "XQV", "name": "Quiver", "type": "VOR-DME", "frequency_khz": "113900",
    "latitude_deg": "41.4", "longitude_deg": "-167.5", "elevation_ft": "1240", "iso_country": "NA",
    "dme_frequency_khz": "113900", "dme_channel": "086X", "dme_latitude_deg": "", "dme_longitude_deg": "",
    "dme_elevation_ft": "", "slaved_variation_deg": "11.007", "magnetic_variation_deg": "9.1", "usageType": "BOTH",
    "power": "HIGH", "associated_airport": "",
}  # fmt: skip
GOVERNMENT = {
    "NAV_ID": "XQV", "NAV_TYPE": "VOR/DME", "COUNTRY_CODE": "US", "NAV_STATUS": "OPERATIONAL IFR", "NAME": "QUIVER",
    "LAT_DECIMAL": "", "LAT_DEG": "41", "LAT_MIN": "24", "LAT_SEC": "0", "LAT_HEMIS": "N",
    "LONG_DECIMAL": "", "LONG_DEG": "167", "LONG_MIN": "30", "LONG_SEC": "0", "LONG_HEMIS": "W",
    "TACAN_DME_LAT_DECIMAL": "", "TACAN_DME_LONG_DECIMAL": "", "ELEV": "1240.5", "MAG_VARN": "11",
    "MAG_VARN_HEMIS": "E", "MAG_VARN_YEAR": "1995", "FREQ": "113.9", "CHAN": "086X", "ALT_CODE": "VH", "DME_SSV": "DH",
    "NDB_CLASS_CODE": "",
}  # fmt: skip
PLAIN = {
    "ident": "XQV", "name": "Quiver", "kind": "VOR/DME", "freq": "113.90", "elev_ft": "1240", "decl_deg": "11",
    "class": "H", "status": "", "lat": "41.4", "lon": "-167.5",
}  # fmt: skip


def _table(*rows: dict[str, str], of: dict[str, str]) -> dict[str, list[str]]:
    """Columns of rows that differ from a good one."""
    for row in rows:
        assert set(row) <= set(of), "a test that changes a column which is not there changes nothing"
    return {name: [row.get(name, value) for row in rows] for name, value in of.items()}


def _one(of: dict[str, str], **change) -> dict:
    got = read(_table(change, of=of))
    return {**{name: values[0] for name, values in got.columns.items()}, "reason": got.reasons[0], "form": got.form}


def test_tables_of_rules_have_sources():
    for entry in [*frequencies.BANDS.values(), *channels.PAIRINGS]:
        assert entry.mark in ("published", "from memory") and entry.source


@pytest.mark.parametrize(("of", "form"), [(WORLDWIDE, "worldwide"), (GOVERNMENT, "government"), (PLAIN, "plain")])
def test_forms_and_shapes(of, form):
    got = read(_table({}, {}, of=of))
    assert got.form == form
    assert set(got.columns) == set(reading.TEXTS + reading.NUMBERS + reading.CHECKS)
    for name in reading.TEXTS:
        assert got.columns[name].dtype == object and all(isinstance(v, str) for v in got.columns[name])
    for name in reading.NUMBERS:
        assert got.columns[name].dtype == np.float64
    assert got.columns["in_service"].dtype == bool
    assert got.good.tolist() == [True, False]
    assert {len(values) for values in got.taken().values()} == {1}
    one = _one(of)
    assert (one["ident"], one["kind"], one["freq"]) == ("XQV", "VOR/DME", "113.90")
    assert (one["reason"], one["limits"]) == ("", "")
    assert (one["lat"], one["lon"], one["decl_deg"]) == (41.4, -167.5, 11.0)
    empty = read({name: [] for name in of})
    assert len(empty.reasons) == 0 and len(empty.columns["lon"]) == 0


def test_headers_without_case_and_with_what_a_file_adds():
    table = {f" {name.upper()} ": values for name, values in _table({}, of=PLAIN).items()}
    table["\ufeffIDENT"] = table.pop(" IDENT ")
    assert read(table).good.all()


@pytest.mark.parametrize("names", [["name"], ["ident", "lat"], ["lat", "lon"], ["nav_type", "lat_decimal"], []])
def test_tables_of_no_known_form(names):
    with pytest.raises(ValueError, match="a table of navaids has"):
        read({name: ["1"] for name in names})
    with pytest.raises(ValueError, match="1 to 2 rows"):
        read({"ident": ["A", "B"], "position": ["1"]})


def test_na_is_a_name():
    one = _one(WORLDWIDE, ident="NA")
    assert (one["ident"], one["country"], one["reason"]) == ("NA", "NA", "")


def test_the_worldwide_table():
    one = _one(WORLDWIDE)
    assert (one["id"], one["channel"], one["elev_ft"], one["class"], one["status"]) == ("1", "86X", 1240.0, "", "")
    assert math.copysign(1.0, _one(WORLDWIDE, slaved_variation_deg="-0.012")["decl_deg"]) == 1.0
    assert _one(WORLDWIDE, slaved_variation_deg="-1.007")["decl_deg"] == -1.0
    assert math.isnan(_one(WORLDWIDE, slaved_variation_deg="")["decl_deg"])
    ndb = _one(WORLDWIDE, type="NDB", frequency_khz="365", dme_channel="", dme_frequency_khz="")
    assert (ndb["kind"], ndb["freq"], ndb["limits"]) == ("NDB", "365", "")
    closed = _one(WORLDWIDE, name="Quiver (Closed May 2016)", frequency_khz="-1", dme_channel="")
    assert (closed["status"], closed["in_service"], closed["freq"]) == ("closed", False, "")
    assert "-1 kHz is not possible" in closed["limits"] and closed["reason"] == ""


def test_a_dme_apart():
    lon, lat, _ = geodesy.direct(-167.5, 41.4, 90.0, 120.0 / 1852.0)
    apart = {"dme_latitude_deg": str(lat), "dme_longitude_deg": str(lon), "dme_elevation_ft": "1200"}
    one = _one(WORLDWIDE, **apart)
    assert one["limits"] == "the DME stands 120 m from the VOR"
    assert (one["dme_lon"], one["dme_lat"], one["dme_elev_ft"]) == (float(lon), float(lat), 1200.0)
    near_lon, near_lat, _ = geodesy.direct(-167.5, 41.4, 90.0, 9.9 / 1852.0)
    near = _one(WORLDWIDE, dme_latitude_deg=str(near_lat), dme_longitude_deg=str(near_lon), dme_elevation_ft="1200")
    assert near["limits"] == "" and math.isnan(near["dme_lon"]) and math.isnan(near["dme_elev_ft"])
    half = _one(WORLDWIDE, dme_latitude_deg=str(lat))
    assert half["limits"] == "the place of the DME cannot be used" and math.isnan(half["dme_lat"])
    assert math.isnan(_one(WORLDWIDE, type="VOR", **apart)["dme_lon"])
    assert (
        "1.9 km from the NDB"
        in _one(
            WORLDWIDE, type="NDB-DME", frequency_khz="365", dme_latitude_deg="41.4166667", dme_longitude_deg="-167.5"
        )["limits"]
    )


def test_the_government_table():
    one = _one(GOVERNMENT)
    assert (one["class"], one["status"], one["elev_ft"], one["channel"]) == ("VH/DH", "OPERATIONAL IFR", 1240.5, "86X")
    assert (one["id"], one["country"], one["in_service"]) == ("XQV VOR/DME", "US", True)
    assert _one(GOVERNMENT, MAG_VARN_HEMIS="W")["decl_deg"] == -11.0
    assert math.isnan(_one(GOVERNMENT, NAV_TYPE="DME")["decl_deg"])
    assert _one(GOVERNMENT, NAV_TYPE="DME", ALT_CODE="")["class"] == "DH"
    for hemisphere in ("", "X"):
        lost = _one(GOVERNMENT, MAG_VARN_HEMIS=hemisphere)
        assert math.isnan(lost["decl_deg"]) and "declination" in lost["limits"]
    assert _one(GOVERNMENT, MAG_VARN="0", MAG_VARN_HEMIS="")["decl_deg"] == 0.0
    tacan = _one(GOVERNMENT, NAV_TYPE="TACAN", FREQ="", CHAN="113Y")
    assert (tacan["freq"], tacan["channel"], tacan["limits"]) == ("", "113Y", "")
    ndb = _one(GOVERNMENT, NAV_TYPE="NDB", FREQ="365", NDB_CLASS_CODE="MHW", CHAN="")
    assert (ndb["freq"], ndb["class"], ndb["limits"]) == ("365", "MHW", "")
    for kind in ("VOT", "FAN MARKER", "CONSOLAN"):
        assert kind in _one(GOVERNMENT, NAV_TYPE=kind)["reason"]
    assert _one(GOVERNMENT, NAV_STATUS="DECOMMISSIONED")["in_service"] == np.False_


def test_government_positions():
    decimal = _one(GOVERNMENT, LAT_DECIMAL="41.4", LONG_DECIMAL="-167.5")
    assert (decimal["lat"], decimal["lon"], decimal["limits"]) == (41.4, -167.5, "")
    differ = _one(GOVERNMENT, LAT_DECIMAL="41.41", LONG_DECIMAL="-167.5")
    assert differ["lat"] == 41.41 and "lie 1.1 km apart" in differ["limits"]
    south = _one(GOVERNMENT, LAT_HEMIS="S", LONG_HEMIS="E")
    assert (south["lat"], south["lon"]) == (-41.4, 167.5)
    for change in ({"LAT_HEMIS": ""}, {"LAT_MIN": "60"}, {"LONG_SEC": "-1"}, {"LONG_DEG": "190"}, {"LAT_DEG": ""}):
        assert _one(GOVERNMENT, **change)["reason"] == reasons.SENTENCES[reasons.NO_POSITION]
    apart = _one(GOVERNMENT, TACAN_DME_LAT_DECIMAL="41.401", TACAN_DME_LONG_DECIMAL="-167.5")
    assert apart["limits"] == "the DME stands 111 m from the VOR" and apart["dme_lat"] == 41.401


@pytest.mark.parametrize(
    ("lat", "lon"),
    [
        ("41,4", "-167,5"),
        ("41°24.0'N", "167°30.0'W"),
        ("N41 24 00", "W167 30 00"),
        ("412400N", "1673000W"),
        ("41.4 N", "167.5 W"),
        (" 41,4 ", "−167,5"),
    ],
)
def test_plain_positions(lat, lon):
    one = _one(PLAIN, lat=lat, lon=lon)
    assert (one["lat"], one["lon"], one["reason"]) == (pytest.approx(41.4), pytest.approx(-167.5), "")


def test_a_plain_position_in_one_cell():
    got = read({"ident": ["XQV", "XQW", "XQX"], "position": ["41°24'N 167°30'W", "somewhere", ""]})
    assert (got.columns["lat"][0], got.columns["lon"][0]) == (pytest.approx(41.4), pytest.approx(-167.5))
    assert got.reasons[0] == "" and "somewhere" in got.reasons[1]
    assert got.reasons[2] == reasons.SENTENCES[reasons.NO_POSITION]
    assert got.columns["kind"].tolist() == ["", "", ""]  # not given is not refused


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"ident": ""}, "no ident"),
        ({"ident": "  "}, "no ident"),
        ({"lat": ""}, "no usable position"),
        ({"lat": "91"}, "beyond 90"),
        ({"lon": "-181"}, "beyond 180"),
        ({"lat": "85.01"}, "nearer a pole"),
        ({"lat": "41 24"}, "hemisphere letter"),
        ({"kind": "ILS"}, "the kind 'ILS' is not one of VOR, "),
    ],
)
def test_rows_that_cannot_be_used(change, words):
    got = read(_table({}, {"ident": "XQW", **change}, of=PLAIN))
    assert got.reasons[0] == "" and words in got.reasons[1]


def test_plain_cells_as_people_write_them():
    one = _one(PLAIN, kind="vor-dme", freq="113,9 MHz", elev_ft="1 240 ft", decl_deg="W 3,5", status="U/S")
    assert (one["kind"], one["freq"], one["elev_ft"], one["decl_deg"]) == ("VOR/DME", "113.90", 1240.0, -3.5)
    assert (one["class"], one["in_service"], one["limits"]) == ("H", np.False_, "")
    doubtful = _one(PLAIN, freq="high", elev_ft="5,000", decl_deg="east")
    assert doubtful["reason"] == "" and math.isnan(doubtful["elev_ft"]) and math.isnan(doubtful["decl_deg"])
    for words in ("freq 'high'", "elev_ft '5,000'", "decl_deg 'east'"):
        assert f"{words} cannot be read" in doubtful["limits"]


def test_cells_that_are_numbers():
    got = read({"ident": ["XQV"], "kind": ["VOR"], "freq": [113.9], "lat": [41], "lon": [-1e-5], "elev_ft": [None]})
    assert got.good.all() and got.columns["freq"][0] == "113.90" and np.isnan(got.columns["elev_ft"][0])
    assert (got.columns["lat"][0], got.columns["lon"][0]) == (41.0, -1e-5)
    assert read({"ident": ["XQV"], "lat": [float("nan")], "lon": [1.0]}).reasons[0] != ""


@pytest.mark.parametrize(
    ("cell", "degrees"),
    [
        ("4E", 4.0), ("4 E", 4.0), ("E4", 4.0), ("e 4", 4.0), ("W 3.5", -3.5), ("3,5W", -3.5), ("4°E", 4.0),
        ("11.0°E", 11.0), ("3.4° W", -3.4),
        ("-3.5", -3.5), ("−3.5", -3.5), ("+2", 2.0), ("0W", 0.0), ("0.0°", 0.0), ("180W", -180.0),
    ],
)  # fmt: skip
def test_declinations(cell, degrees):
    assert parse_declination(cell) == degrees


@pytest.mark.parametrize(
    "cell", ["E", "4N", "E4W", "-4E", "+4W", "181E", "4E5", "4 E 5", "four", "1E2", "nan", "inf", "--4", "4 5"]
)
def test_what_is_no_declination(cell):
    assert parse_declination(cell) is None


@given(st.floats(-180.0, 180.0))
def test_a_declination_as_we_print_it_is_read_back(degrees):
    assert parse_declination(text.format_variation(degrees)) == pytest.approx(degrees, abs=0.05 + 1e-6)


@given(st.text(max_size=12))
def test_any_declination_cell_is_a_number_or_refused(cell):
    value = parse_declination(cell)
    assert value is None or math.isnan(value) or abs(value) <= 180.0


@given(st.integers(108_000 // 50, 117_950 // 50), st.sampled_from(["VOR", "VOR/DME", "VORTAC", "TACAN", "DME", ""]))
def test_vhf_frequencies_there_and_back(step, kind):
    khz = 50.0 * step
    words = frequencies.frequency_text(khz, kind)
    assert len(words) == 6
    assert frequencies.frequency_khz([words, words + " MHz", f"{khz:.0f}"], [kind] * 3).tolist() == [khz] * 3
    assert frequencies.frequency_codes([khz, khz + 20.0], [kind] * 2).tolist() == [0, 2 if kind else 0]


@given(st.integers(1900, 17500), st.sampled_from(["NDB", "NDB/DME"]))
def test_ndb_frequencies_there_and_back(tenths, kind):
    khz = tenths / 10.0
    words = frequencies.frequency_text(khz, kind)
    assert frequencies.frequency_khz([words, words + "kHz"], [kind] * 2).tolist() == [khz] * 2
    assert frequencies.frequency_codes([khz, 100.0, 2_000.0, 0.0], [kind] * 4).tolist() == [0, 1, 1, 2]


def test_frequencies_that_are_none():
    got = frequencies.frequency_khz(["", "VHF", "113.9 GHz", "MHz", None], ["VOR"] * 5)
    assert np.isnan(got).all()
    assert frequencies.frequency_text(np.nan, "VOR") == ""
    assert frequencies.frequency_codes([np.nan, 5.0, 5.0], ["VOR", "WPT", ""]).tolist() == [0, 0, 0]


def test_channels():
    """Channel 17X is 108.00, 59Y 112.25, 70X 112.30, 126Y 117.95: ends of the pairing, ICAO Annex 10 from memory."""
    ends = {"17X": 108_000.0, "59Y": 112_250.0, "70X": 112_300.0, "126Y": 117_950.0}
    for channel, khz in {**ends, "086x": 113_900.0, "CH 86": 113_900.0}.items():
        assert channels.channel_khz(channel) == (khz, True)
    assert channels.channel_khz("1X") == (134_400.0, False) and channels.channel_khz("69Y") == (134_250.0, False)
    for channel in ("0X", "127X", "", "X", "86Z", "1000X"):
        assert np.isnan(channels.channel_khz(channel)[0])
    every = {channels.channel_khz(f"{n}{letter}") for n in range(1, 127) for letter in "XY"}
    assert len(every) == 252
    assert all((108_000.0 <= khz <= 117_950.0) == spoken for khz, spoken in every)


def test_channel_and_frequency_that_do_not_fit():
    one = _one(WORLDWIDE, dme_channel="073X")
    assert one["limits"] == "the channel 73X belongs to 112.60 MHz, not to 113.90"
    assert "the channel 'Q' is not 1 to 126" in _one(WORLDWIDE, dme_channel="Q")["limits"]
    military = _one(WORLDWIDE, type="TACAN", frequency_khz="134500", dme_channel="002X")
    assert (military["freq"], military["channel"], military["limits"]) == ("", "2X", "")
    wrong = _one(WORLDWIDE, type="TACAN", frequency_khz="134500", dme_channel="")
    assert wrong["limits"] == "the frequency 134.50 MHz is not possible" and wrong["freq_check"] == "impossible"
    assert _one(WORLDWIDE, type="NDB-DME", frequency_khz="365")["limits"] == ""


def test_notes_on_frequencies_and_idents():
    one = _one(WORLDWIDE, frequency_khz="11495", dme_channel="")
    assert one["limits"] == "the frequency 11.495 MHz is not possible" and one["freq"] == "11.495"
    low = _one(PLAIN, kind="NDB", freq="175")
    assert low["limits"] == "the frequency 175 kHz is outside 190 to 1750 kHz" and low["freq_check"] == "unusual"
    assert "the ident Wau_NDB_ is not" in _one(PLAIN, ident="Wau_NDB_")["limits"]
    assert _one(PLAIN, ident="FIXAB", kind="WPT", freq="")["limits"] == ""


def test_repeats():
    """9 m apart is the same place, 11 m another; another kind or ident is another aid; a repeat of a repeat is one."""
    places = [geodesy.direct(-167.5, 41.4, 45.0, metres / 1852.0)[:2] for metres in (0.0, 9.0, 11.0, 9.0, 9.0, 0.0)]
    kinds, idents = ["VOR"] * 3 + ["NDB", "VOR", "VOR"], ["XQV", "xqv", "XQV", "XQV", "XQW", "XQV"]
    got = read({
        "ident": idents, "kind": kinds, "lat": [float(lat) for _, lat in places],
        "lon": [float(lon) for lon, _ in places],
    })  # fmt: skip
    assert got.good.tolist() == [True, False, True, True, True, False]
    assert got.reasons[1] == got.reasons[5] == "it repeats row 1: the same ident, kind and place"
    bad_first = read(_table({"lat": ""}, {}, {}, of=PLAIN))
    assert bad_first.good.tolist() == [False, True, False] and "row 2" in bad_first.reasons[2]


@given(st.floats(-180.0, 180.0), st.floats(-84.0, 84.0), st.floats(0.0, 360.0), st.floats(0.0, 30.0))
def test_repeats_are_found_by_distance_alone(lon, lat, course, metres):
    """Everywhere, across the antimeridian too: against the geodesic distance."""
    lon2, lat2, _ = geodesy.direct(lon, lat, course, metres / 1852.0)
    got = read({"ident": ["XQV"] * 2, "lat": [lat, float(lat2)], "lon": [lon, float(lon2)]})
    if abs(metres - 10.0) > 1e-3:
        assert got.good.tolist() == [True, metres > 10.0]


def test_repeats_are_found_in_every_direction():
    """Wherever the first of the two lies in its cube, and to whichever side the second lies."""
    rng = np.random.default_rng(10)
    n = 500
    lon, lat = rng.uniform(-180.0, 180.0, n), np.degrees(np.arcsin(rng.uniform(-0.99, 0.99, n)))
    metres = np.where(np.arange(n) % 2, 9.99, 10.01)
    lon2, lat2, _ = geodesy.direct(lon, lat, rng.uniform(0.0, 360.0, n), metres / 1852.0)
    got = read({
        "ident": [f"{k:03d}" for k in range(n)] * 2,
        "lon": [*lon.tolist(), *lon2.tolist()], "lat": [*lat.tolist(), *lat2.tolist()],
    })  # fmt: skip
    assert got.good[:n].all()
    assert got.good[n:].tolist() == (np.arange(n) % 2 == 0).tolist()


def test_many_rows_in_one_place_do_not_take_for_ever():
    n = 20_000
    got = read({"ident": ["XQV"] * n, "lat": ["41.4"] * n, "lon": ["-167.5"] * n})
    assert got.good.sum() == 1


def test_keys_are_unique_and_readable():
    got = read({"ident": ["XQV", "XQV", "XQW"], "kind": ["NDB"] * 3, "lat": ["1", "2", "3"], "lon": ["4", "5", "6"]})
    assert got.columns["id"].tolist() == ["XQV NDB", "XQV NDB 2", "XQW NDB"]
    given_ids = read({"id": ["7", ""], "ident": ["XQV", "XQV"], "lat": ["1", "2"], "lon": ["4", "5"]})
    assert given_ids.columns["id"].tolist() == ["7", "XQV"]


def test_status_words():
    silent = ["Out of Service", "UNSERVICEABLE", "u/s", "FALSE_INDICATION", "IN_CONSTRUCTION", "Closed", "shut down"]
    working = ["", None, "OPERATIONAL", "OPERATIONAL RESTRICTED", "in service", "enclosed", "PARTIAL"]
    assert not in_service(silent).any() and in_service(working).all()
    assert in_service(np.array([["", "u/s"]], dtype=object)).tolist() == [[True, False]]


STATIONS = st.fixed_dictionaries({
    "ident": st.text("ABCXYZ019", min_size=1, max_size=4),
    "kind": st.sampled_from([*navaids.KINDS, ""]),
    "lat": st.floats(-85.0, 85.0),
    "lon": st.floats(-180.0, 180.0),
    "elev_ft": st.one_of(st.just(""), st.floats(-1_300.0, 20_000.0).map(lambda ft: f"{ft:.1f}")),
    "decl_deg": st.one_of(st.just(""), st.floats(-180.0, 180.0).map(text.format_variation)),
    "freq": st.sampled_from(["", "113.90", "365", "117.95", "11.495", "175"]),
    "channel": st.sampled_from(["", "86X", "2X", "126Y"]),
    "status": st.sampled_from(["", "out of service", "OPERATIONAL"]),
    "class": st.sampled_from(["", "H", "VL/DH", "MH"]),
})  # fmt: skip


@given(st.lists(STATIONS, min_size=1, max_size=6))
def test_what_is_read_can_be_read_again(rows):
    """The clean columns as a plain table give the same columns: nothing drifts by saving and loading."""
    first = read({name: [row[name] for row in rows] for name in rows[0]})
    again = read({name: first.columns[name] for name in reading.TEXTS + reading.NUMBERS})
    assert again.form == "plain"
    assert again.reasons.tolist() == first.reasons.tolist()
    for name in set(reading.TEXTS + reading.CHECKS) - {"limits"}:
        assert again.columns[name].tolist() == first.columns[name].tolist()
    for name in reading.NUMBERS:
        np.testing.assert_array_equal(again.columns[name], first.columns[name])


@given(st.dictionaries(st.sampled_from(sorted(PLAIN)), st.text(max_size=10)))
def test_any_text_gives_a_reason_or_a_navaid(change):
    one = _one(PLAIN, **change)
    usable = one["ident"] and abs(one["lat"]) <= 85.0 and abs(one["lon"]) <= 180.0
    assert bool(one["reason"]) or usable
