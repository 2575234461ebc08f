"""Positions and figures as text: every form read, every ambiguity refused, every style there and back."""

from __future__ import annotations

import math
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import text
from fixwright.geometry.text import PositionError, format_position, parse_position

LAT, LON = 41 + 11 / 60 + 17 / 3600, -(167 + 44 / 60 + 58.5 / 3600)

SAME_PLACE = [
    "41°11'17\"N 167°44'58.5\"W",
    "41° 11' 17\" N, 167° 44' 58.5\" W",
    "41°11′17″N 167°44′58.5″W",
    "41º11’17”N 167º44’58.5”W",
    "41°11'17''N 167°44'58.5''W",
    "N41°11'17\" W167°44'58.5\"",
    "N41 11 17 W167 44 58.5",
    "41 11 17 N 167 44 58.5 W",
    "41 11 17n/167 44 58,5w",
    "W167 44 58.5; N41 11 17",
    "167°44'58.5\"W 41°11'17\"N",
    "41:11:17N 167:44:58.5W",
    "41-11-17N 167-44-58.5W",
    "411117N1674458.5W",
    "411117.0N 1674458.5W",
    "N411117.0 W1674458.5",
    "+41 11 17 -167 44 58.5",
    "+41°11'17\" \u2212167°44'58.5\"",
    "+411117-1674458.5/",
    "+411117.0-1674458.5+12CRSWGS_84/",
    "\u00a041\u202f11\u200917\u2009N\u00a0167 44 58,5 W ",
]


@pytest.mark.parametrize("written", SAME_PLACE)
def test_forms_of_one_place(written):
    lon, lat = parse_position(written)
    assert lat == pytest.approx(LAT, abs=1e-13)
    assert lon == pytest.approx(LON, abs=1e-13)


@pytest.mark.parametrize(
    ("written", "lon", "lat"),
    [
        ("41.188 -167.75", -167.75, 41.188),
        ("41.188, -167.75", -167.75, 41.188),
        ("41.188,-167.75", -167.75, 41.188),
        ("\u221241.188\t".strip() + "; 167.75", 167.75, -41.188),
        ("41,188 -167,75", -167.75, 41.188),
        ("41,5, 10,25", 10.25, 41.5),
        ("41,5; 10,25", 10.25, 41.5),
        ("41,5N,10,25W", -10.25, 41.5),
        ("41.188N 167.75W", -167.75, 41.188),
        ("S41.188 E167.75", 167.75, -41.188),
        ("41.5° -10.25°", -10.25, 41.5),
        ("50, 10", 10.0, 50.0),
        ("4620N07805W", -(78 + 5 / 60), 46 + 20 / 60),
        ("4620.5N07805.25W", -(78 + 5.25 / 60), 46 + 20.5 / 60),
        ("46N078W", -78.0, 46.0),
        ("46°20'N 078°05'W", -(78 + 5 / 60), 46 + 20 / 60),
        ("46 20.5N 78 5.25W", -(78 + 5.25 / 60), 46 + 20.5 / 60),
        ("+4620.5-07805.25/", -(78 + 5.25 / 60), 46 + 20.5 / 60),
        ("+46.5-078.25", -78.25, 46.5),
        ("90N 180W", -180.0, 90.0),
        ("90S 180E", 180.0, -90.0),
        ("-0.5 -0.25", -0.25, -0.5),
        ("00°30'S 000°15'W", -0.25, -0.5),
        ("-00.5-000.25/", -0.25, -0.5),
    ],
)
def test_forms(written, lon, lat):
    assert parse_position(written) == pytest.approx((lon, lat), abs=1e-13)


@pytest.mark.parametrize(
    ("written", "because"),
    [
        ("", "empty"),
        ("   ", "empty"),
        ("somewhere nice", "letters"),
        ("abc", "told apart"),
        ("41.5", "told apart"),
        ("41,18", "told apart"),
        ("50 10", "one value"),
        ("41 11 17 167 44 58", "told apart"),
        ("41°11'17\" 167°44'58\"", "hemisphere letter of its latitude is missing"),
        ("41°30' 10°20'", "hemisphere letter of its latitude is missing"),
        ("+41°30', 10°20'", "hemisphere letter of its longitude is missing"),
        ("462000 0780500", "hemisphere letter of its latitude is missing"),
        ("41.5N", "two hemisphere letters"),
        ("41.5N 10.5", "two hemisphere letters"),
        ("41.5N 10.5N", "not the hemisphere of a longitude"),
        ("41.5E 10.5W", "not the hemisphere of a latitude"),
        ("N41.5N E", "letters"),
        ("-41.5S 010E", "both a sign and a hemisphere letter"),
        ("91N 010E", "beyond 90"),
        ("90.0000001 10.0", "beyond 90"),
        ("90°00'01\"N 010°E", "beyond 90"),
        ("41N 181E", "beyond 180"),
        ("41N 1800000.1E", "beyond 180"),
        ("+41.5+180.5/", "beyond 180"),
        ("41°60'N 010°E", "less than 60"),
        ("41°59'60\"N 010°E", "less than 60"),
        ("416000N0100000E", "less than 60"),
        ("415960N0100000E", "less than 60"),
        ("+4160+01000/", "less than 60"),
        ("46200N 010E", "figures"),
        ("4620N 7805W", "figures"),
        ("+4.5+010.5/", "figures"),
        ("+4620-078.5/", "same units"),
        ("41.5°30'N 010°E", "last unit"),
        ("41°11.5'30\"N 010°E", "last unit"),
        ("41.5.5 10.5", "not a latitude"),
        ("41,N 10E", "not a latitude"),
        ("41.N 10E", "not a latitude"),
        ("41'11°N 10E", "not a latitude"),
        ("1e1 2.0", "hemisphere letters"),
        ("nan nan", "hemisphere letters"),
        ("41\x00N 10E", "no place"),
        ("41N\n10E", "no place"),
        ("41N\x1b[31m 10E", "no place"),
        ("\u200b41N 10E", "no place"),
        ("٤١N ٠١٠E", "no place"),
        ("４１N 010E", "no place"),
        ("41N 10E" * 200, "longer than"),
        ("+41.5+010.5CRSXYZ/", "not WGS 84"),
    ],
)
def test_refused_in_one_sentence(written, because):
    with pytest.raises(PositionError) as refused:
        parse_position(written)
    message = str(refused.value)
    assert because in message
    assert message.isprintable() and len(message) < 350
    assert "write for example" in message


@pytest.mark.parametrize("wrong", [None, 41.5, b"41N 10E", ["41N", "10E"]])
def test_what_is_not_text_is_refused(wrong):
    with pytest.raises(PositionError):
        parse_position(wrong)


def test_the_error_is_a_value_error_and_shortens_what_it_quotes():
    assert issubclass(PositionError, ValueError)
    with pytest.raises(PositionError) as refused:
        parse_position("9" * 900)
    assert len(str(refused.value)) < 300


@given(st.text(max_size=60) | st.text(alphabet="0123456789 .,;/+-NSEW°'\"CR", max_size=40))
def test_any_text_gives_a_place_on_earth_or_a_refusal(written):
    try:
        lon, lat = parse_position(written)
    except PositionError:
        return
    assert -180.0 <= lon <= 180.0
    assert -90.0 <= lat <= 90.0


@pytest.mark.parametrize("unit", ["1", "1 ", "1.", "-", "+1", "N", "1,", "°", "' ", "1:", " "])
def test_long_repetitions_end(unit):
    for length in (text.MAX_CHARS, 1_000_000):
        with pytest.raises(PositionError):
            parse_position((unit * length)[:length] + "x")
        assert text.parse_number((unit * length)[:length] + "x") is None


def test_single_values():
    assert text.parse_latitude("41,188") == 41.188
    assert text.parse_latitude("41°30'S") == -41.5
    assert text.parse_latitude("-41°30'") == -41.5
    assert text.parse_latitude("413000S") == -41.5
    assert text.parse_longitude("W 167 30") == -167.5
    assert text.parse_longitude("1673000W") == -167.5
    assert text.parse_longitude("-167.5") == -167.5
    for function, wrong in (
        (text.parse_latitude, "41°30'W"),
        (text.parse_latitude, "41 30"),
        (text.parse_latitude, "90.5"),
        (text.parse_latitude, ""),
        (text.parse_longitude, "41N"),
        (text.parse_longitude, "1,234.5"),
    ):
        with pytest.raises(PositionError):
            function(wrong)


def test_iso_6709_height():
    assert text.parse_iso6709("+27.5916+086.5640+8850CRSWGS_84/") == (27.5916, 86.564, 8850.0)
    assert text.parse_iso6709("-27.5-086.5-12.5/") == (-27.5, -86.5, -12.5)
    assert text.parse_iso6709("+00-025/") == (0.0, -25.0, None)
    for wrong in ("27.5+086.5/", "+27.5/", "+27.5 +086.5/", "+27.5+086.5+/"):
        with pytest.raises(PositionError):
            text.parse_iso6709(wrong)


def test_bearing_distance():
    assert text.parse_bearing_distance("dub180040") == ("DUB", 180.0, 40.0)
    assert text.parse_bearing_distance("KORUM360005") == ("KORUM", 0.0, 5.0)
    for wrong in ("DUB361040", "DUB18040", "D180040", "DUB180040X", "4620N07805W180040", "", "DUB 180 040"):
        with pytest.raises(PositionError):
            text.parse_bearing_distance(wrong)


LATITUDES = st.floats(-90.0, 90.0)
LONGITUDES = st.floats(-180.0, 180.0)
UNITS_PER_DEGREE = {"dm": 60, "dms": 3600, "decimal": 1, "iso6709": 1}


@given(LONGITUDES, LATITUDES, st.sampled_from(text.STYLES), st.data())
def test_there_and_back_to_the_printed_figure(lon, lat, style, data):
    digits = data.draw(st.integers(0, text.MOST_DIGITS[style]))
    written = format_position(lon, lat, style, digits)
    back_lon, back_lat = parse_position(written)
    half = 0.5000011 * 10.0**-digits / UNITS_PER_DEGREE[style] + 6e-14
    assert abs(back_lon - lon) <= half
    assert abs(back_lat - lat) <= half
    assert format_position(back_lon, back_lat, style, digits) == written


@given(LONGITUDES, LATITUDES, st.sampled_from(["decimal", "iso6709"]))
def test_every_figure_there_and_back_exactly(lon, lat, style):
    back = parse_position(format_position(lon, lat, style, "all"))
    assert back == (lon, lat)
    assert [math.copysign(1.0, x) for x in back] == [math.copysign(1.0, x) for x in (lon, lat)]


@given(st.integers(0, 89), st.integers(0, 59), st.integers(0, 59_999))
def test_minutes_and_seconds_stay_below_sixty(degrees, minutes, thousandths):
    exact = Decimal(degrees) + Decimal(minutes) / 60 + Decimal(thousandths) / 3_600_000
    written = format_position(0.0, float(exact), "dms", 3).split()[0]
    assert written == f"{degrees:02d}°{minutes:02d}'{thousandths // 1000:02d}.{thousandths % 1000:03d}\"N"


@given(st.integers(0, 90 * 60_000 - 1))
def test_half_a_unit_is_rounded_away_from_zero(thousandths):
    """The nearest float to a half may lie a hair below it."""
    degrees, rest = divmod(thousandths + 1, 60_000)
    expected = f"{degrees:02d}°{rest // 1000:02d}.{rest % 1000:03d}'"
    assert format_position(0.0, (thousandths + 0.5) / 60_000).startswith(expected + "N")
    assert format_position(0.0, -(thousandths + 0.5) / 60_000).startswith(expected + "S")


@pytest.mark.parametrize(
    ("lat", "style", "digits", "written"),
    [
        (59 + 59.9995 / 3600, "dms", 3, "59°01'00.000\"N"),
        (59 + 59.9994 / 3600, "dms", 3, "59°00'59.999\"N"),
        (59 + 59 / 60 + 59.96 / 3600, "dms", 1, "60°00'00.0\"N"),
        (41 + 59.9995 / 60, "dm", 3, "42°00.000'N"),
        (-(41 + 59.9994 / 60), "dm", 3, "41°59.999'S"),
        (41.5, "dm", 0, "41°30'N"),
        (89.9999999, "dms", 1, "90°00'00.0\"N"),
        (-1e-9, "dm", 3, "00°00.000'N"),
        (0.0005 / 60, "dm", 3, "00°00.001'N"),
        (7.25, "dms", 0, "07°15'00\"N"),
    ],
)
def test_rounding_carries(lat, style, digits, written):
    assert format_position(0.0, lat, style, digits).split()[0] == written


def test_styles():
    assert format_position(LON, LAT) == "41°11.283'N 167°44.975'W"
    assert format_position(LON, LAT, "dms") == "41°11'17.0\"N 167°44'58.5\"W"
    assert format_position(LON, LAT, "decimal") == "41.188056, -167.749583"
    assert format_position(LON, LAT, "iso6709") == "+41.188056-167.749583/"
    assert format_position(7.5, -3.25, "iso6709", 2) == "-03.25+007.50/"
    assert format_position(5e-324, -1e-7, "decimal", "all").startswith("-0.0000001, 0.000")


def test_unwrapped_longitudes_are_brought_back():
    assert format_position(180.5, 10.0, "decimal", 1) == "10.0, -179.5"
    assert format_position(-180.5, 10.0, "decimal", 1) == "10.0, 179.5"
    assert format_position(180.0, 10.0) == "10°00.000'N 180°00.000'E"
    assert format_position(-180.0, 10.0) == "10°00.000'N 180°00.000'W"


def test_no_position_prints_nothing():
    assert format_position(math.nan, 10.0) == ""
    assert format_position(10.0, math.inf) == ""
    assert text.format_positions([10.0, math.nan], [50.0, 50.0]) == ["50°00.000'N 010°00.000'E", ""]


@pytest.mark.parametrize(
    "wrong",
    [
        {"style": "utm"},
        {"digits": -1},
        {"digits": 10},
        {"digits": "all"},
        {"digits": 1.5},
        {"digits": True},
        {"style": "decimal", "digits": 13},
    ],
)
def test_calls_that_make_no_sense(wrong):
    with pytest.raises(ValueError, match="style|digits"):
        format_position(10.0, 50.0, **wrong)
    with pytest.raises(ValueError, match="lat is 90.5"):
        format_position(10.0, 90.5)
    with pytest.raises(ValueError, match="lon has 1 values and lat 2"):
        text.format_positions([1.0], [1.0, 2.0])


@pytest.mark.parametrize(
    ("deg", "whole", "tenths"),
    [
        (0.0, "360", "360.0"),
        (360.0, "360", "360.0"),
        (-0.4, "360", "359.6"),
        (359.96, "360", "360.0"),
        (359.5, "360", "359.5"),
        (0.5, "001", "000.5"),
        (72.0, "072", "072.0"),
        (72.4499, "072", "072.4"),
        (-90.0, "270", "270.0"),
        (725.04, "005", "005.0"),
        (math.nan, "", ""),
        (math.inf, "", ""),
    ],
)
def test_courses(deg, whole, tenths):
    assert text.format_course(deg) == whole
    assert text.format_course_tenths(deg) == tenths


@given(st.floats(-1e6, 1e6))
def test_a_course_is_001_to_360(deg):
    assert 1 <= int(text.format_course(deg)) <= 360
    assert 0.1 <= float(text.format_course_tenths(deg)) <= 360.0


def test_figures_of_a_sheet():
    assert [text.format_altitude(ft) for ft in (5000.0, 999.5, 12500, -1240, 1234567, 0.0, -0.2, math.nan)] == [
        "5 000 ft", "1 000 ft", "12 500 ft", "-1 240 ft", "1 234 567 ft", "0 ft", "0 ft", "",
    ]  # fmt: skip
    assert [text.format_nm(nm) for nm in (9.0, 0.05, 12.34, math.nan)] == ["9.0 NM", "0.1 NM", "12.3 NM", ""]
    assert text.format_nm(4.567, 2) == "4.57 NM"
    assert [text.format_duration(s) for s in (85.0, 59.6, 0.0, 3599.5, 3600.0, 3920.0, -25.0, -0.1, math.nan)] == [
        "1:25", "1:00", "0:00", "1:00:00", "1:00:00", "1:05:20", "-0:25", "0:00", "",
    ]  # fmt: skip
    assert [text.format_variation(deg) for deg in (11.0, -3.44, 0.04, -0.04, -0.05, 179.96, math.nan)] == [
        "11.0°E", "3.4°W", "0.0°", "0.0°", "0.1°W", "180.0°E", "",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("cell", "number"),
    [
        ("5", 5.0),
        (" 12.5 ", 12.5),
        ("12,5", 12.5),
        ("-3,25", -3.25),
        ("\u22123.25", -3.25),
        ("+7", 7.0),
        (".5", 0.5),
        ("5.", 5.0),
        ("0,125", 0.125),
        ("5 000", 5000.0),
        ("5\u202f000", 5000.0),
        ("1\u00a0234\u2009567,5", 1234567.5),
        ("1e3", 1000.0),
        ("1E-05", 1e-5),
        (7, 7.0),
        (7.5, 7.5),
        (np.int64(7), 7.0),
        (np.float32(7.5), 7.5),
    ],
)
def test_numbers(cell, number):
    assert text.parse_number(cell) == number


@pytest.mark.parametrize("cell", ["", "  ", "\u00a0", None, math.nan])
def test_an_empty_cell_is_not_a_number(cell):
    assert math.isnan(text.parse_number(cell))


@pytest.mark.parametrize(
    "cell",
    "VOR|5,000|12,345|1.234,5|1,234.5|12 34|5 00|nan|inf|1e999|0x10|1_000|٥|--5".split("|")
    + [math.inf, True, np.True_, [], b"5"],
)
def test_what_is_no_number_or_two(cell):
    assert text.parse_number(cell) is None


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_printed_float_is_read_back_exactly(value):
    assert text.parse_number(repr(value)) == value
