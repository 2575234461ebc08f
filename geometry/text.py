"""Positions and figures as text: what people write is read, what a sheet prints is written.

Latitude comes before longitude in text, as everywhere in the trade; in numbers longitude comes first, as
everywhere in this package. Reading is strict: what could mean two things is refused in one sentence.
"""

from __future__ import annotations

import math
import re

import numpy as np

EXAMPLE = "41°11.284'N 167°44.979'W"
STYLES = ("dm", "dms", "decimal", "iso6709")
"""Degrees and minutes; degrees, minutes and seconds; decimal degrees with a sign; ISO 6709 in degrees."""

DEFAULT_DIGITS = {"dm": 3, "dms": 1, "decimal": 6, "iso6709": 6}
MOST_DIGITS = {"dm": 9, "dms": 7, "decimal": 12, "iso6709": 12}
"""Decimals of the last unit: more would print what a float does not hold."""

MAX_CHARS = 1000
"""Longer text is refused unread."""

# Typographic variants, brought to one sign each before anything is read.
_PLAIN = str.maketrans(
    {
        **dict.fromkeys("\u2212\u2013\u2010\u2011\ufe63\uff0d", "-"),
        **dict.fromkeys("\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000", " "),
        **dict.fromkeys("\u00ba\u02da", "°"),
        **dict.fromkeys("\u2032\u2019\u2018\u02b9\u00b4`", "'"),
        **dict.fromkeys("\u2033\u201d\u201c\u02ba", '"'),
    }
)
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_VALUE = re.compile(
    rf"(?P<lead>[NSEW])? ?(?P<sign>[+-])? ?(?P<deg>{_NUMBER})"
    rf"(?:°|(?:° ?|[ :-])(?P<min>{_NUMBER})(?:'|(?:' ?|[ :-])(?P<sec>{_NUMBER})\"?)?)?"
    r" ?(?P<tail>[NSEW])?"
)
_ISO_6709 = re.compile(rf"([+-])({_NUMBER})([+-])({_NUMBER})(?:([+-])({_NUMBER}))?(?:CRS([A-Za-z0-9_:.-]+))?/?")
_WGS_84 = {"WGS_84", "WGS84", "WGS-84", "EPSG:4326", "EPSG_4326", "EPSG:4979", "EPSG_4979"}
_BEARING_DISTANCE = re.compile(r"([A-Z]{2,5})([0-9]{3})([0-9]{3})")
_PLAIN_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_GROUPED_NUMBER = re.compile(r"[+-]?[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?")
_THOUSANDS_OR_DECIMALS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")

# Most degrees, and how many digits of a run of figures are degrees.
_LIMIT = {"latitude": 90.0, "longitude": 180.0}
_DEGREE_DIGITS = {"latitude": 2, "longitude": 3}
_LETTERS = {"latitude": "NS", "longitude": "EW"}


class PositionError(ValueError):
    """Text that is not one position; the message is one sentence for the user."""


def parse_position(text: str) -> tuple[float, float]:
    """A position as people write it.

    Read are, latitude first or each with its letter: decimal degrees with a sign or letter (decimal comma
    where it can be nothing else); degrees and minutes; degrees, minutes, seconds with symbols, spaces, colons
    or hyphens; AIP style 411117.0N 1674458.7W; flight plan 4620N07805W and 46N078W; ISO 6709.
    Parameters: text. Returns: lon, lat, degrees; -180 to 180 and -90 to 90.
    Errors: PositionError, one sentence, for anything else, anything ambiguous and anything out of range.
    Source: ICAO Doc 4444 item 15 and Annex 15 (from memory); ISO 6709; common practice.

    >>> parse_position("46°20'N 078°05'W") == parse_position("4620N07805W")
    True
    """
    plain = _plain(text)
    if _ISO_6709.fullmatch(plain):
        lat, lon, _ = parse_iso6709(text)
        return lon, lat
    first, second = _halves(plain.upper(), text)
    if _has_letter(first, "EW") and _has_letter(second, "NS"):
        first, second = second, first
    if bool(_has_letter(first, "NSEW")) != bool(_has_letter(second, "NSEW")):
        raise _error(text, "only one of the two values has a hemisphere letter")
    lat = _value(first, "latitude", text)
    return _value(second, "longitude", text), lat


def parse_latitude(text: str) -> float:
    """One latitude in any form of parse_position but ISO 6709. Returns degrees, north positive. Errors as there."""
    return _value(_single(text), "latitude", text)


def parse_longitude(text: str) -> float:
    """One longitude in any form of parse_position but ISO 6709. Returns degrees, east positive. Errors as there."""
    return _value(_single(text), "longitude", text)


def parse_iso6709(text: str) -> tuple[float, float, float | None]:
    """An ISO 6709 string such as +27.5916+086.5640+8850CRSWGS_84/.

    Degrees, degrees and minutes, or degrees, minutes and seconds by the count of figures; the closing solidus
    may be missing. Parameters: text. Returns: lat, lon in degrees, height in metres or None.
    Errors: PositionError; also for a reference system that is not WGS 84. Source: ISO 6709 Annex H.
    """
    match = _ISO_6709.fullmatch(_plain(text))
    if not match:
        raise _error(text, "it is not an ISO 6709 string such as +41.18807-167.74965/")
    lat_sign, lat, lon_sign, lon, height_sign, height, crs = match.groups()
    if crs is not None and crs.upper() not in _WGS_84:
        raise _error(text, f"its reference system {crs[:40]} is not WGS 84")
    units = []
    values = []
    for axis, sign, figures in (("latitude", lat_sign, lat), ("longitude", lon_sign, lon)):
        value, unit = _run_of_figures(figures, axis, text)
        units.append(unit)
        values.append(-value if sign == "-" else value)
    if units[0] != units[1]:
        raise _error(text, "its latitude and longitude are not in the same units")
    return values[0], values[1], None if height is None else float(height_sign + height)


def parse_bearing_distance(text: str) -> tuple[str, float, float]:
    """A place by bearing and distance from a point, as in a flight plan: DUB180040.

    Parameters: text, the point's two to five letters, three figures of magnetic bearing, three of NM.
    Returns: ident, bearing in degrees [0, 360), distance in NM. Errors: PositionError.
    Source: ICAO Doc 4444, Appendix 2, item 15 (from memory).

    >>> parse_bearing_distance("DUB180040")
    ('DUB', 180.0, 40.0)
    """
    match = _BEARING_DISTANCE.fullmatch(_plain(text).upper())
    if not match:
        raise _error(text, "it is not a point with bearing and distance such as DUB180040")
    ident, bearing, distance = match.groups()
    if int(bearing) > 360:
        raise _error(text, "its bearing is more than 360 degrees")
    return ident, float(int(bearing) % 360), float(distance)


def parse_number(text) -> float | None:
    """A number from a table's cell, whatever the country wrote it.

    Decimal point or comma, thousands set off by spaces, typographic minus. Parameters: text, or a number, or
    None. Returns: the number; NaN for an empty cell; None for text that is no number, is not finite, or could
    be two ('5,000' is five, or five thousand).

    >>> parse_number("12,5"), parse_number("5 000"), parse_number("VOR")
    (12.5, 5000.0, None)
    """
    if text is None:
        return math.nan
    if isinstance(text, (int, float, np.integer, np.floating)) and not isinstance(text, bool):
        return None if math.isinf(text) else float(text)
    if not isinstance(text, str) or len(text) > MAX_CHARS:
        return None
    plain = text.translate(_PLAIN).strip()
    if not plain:
        return math.nan
    if _THOUSANDS_OR_DECIMALS.fullmatch(plain):
        return None
    if _GROUPED_NUMBER.fullmatch(plain):
        plain = plain.replace(" ", "")
    elif not _PLAIN_NUMBER.fullmatch(plain):
        return None
    number = float(plain.replace(",", "."))
    return number if math.isfinite(number) else None


def format_position(lon: float, lat: float, style: str = "dm", digits: int | str | None = None) -> str:
    """A position as text that parse_position reads back.

    Parameters: lon, any longitude, lat -90 to 90, degrees; style, one of STYLES; digits, decimals of the last
    unit (minutes, seconds or degrees), default DEFAULT_DIGITS, up to MOST_DIGITS; in the decimal and iso6709
    styles also "all", every figure the float has. Rounded half away from zero, carried into the next unit.
    Returns: text; '' where lon or lat is not finite.
    Errors: ValueError for an unknown style, digits out of range, a latitude beyond 90.

    >>> format_position(-167.74965, 41.18806667)
    "41°11.284'N 167°44.979'W"
    """
    digits = _digits(style, digits)
    lon, lat = float(lon), float(lat)
    if not (math.isfinite(lon) and math.isfinite(lat)):
        return ""
    if abs(lat) > 90.0:
        raise ValueError(f"lat is {lat}; it must be between -90 and 90 degrees")
    if abs(lon) > 180.0:
        lon = max(-180.0, lon - 360.0 * math.floor((lon + 180.0) / 360.0))
    if style == "decimal":
        return f"{_signed(lat, digits)}, {_signed(lon, digits)}"
    if style == "iso6709":
        return f"{_signed(lat, digits, 2)}{_signed(lon, digits, 3)}/"
    return f"{_sexagesimal(lat, 'NS', style, digits)} {_sexagesimal(lon, 'EW', style, digits)}"


def format_positions(lon, lat, style: str = "dm", digits: int | str | None = None) -> list[str]:
    """format_position for sequences of equal length. Errors: as it, and ValueError for unequal lengths."""
    if len(lon) != len(lat):
        raise ValueError(f"lon has {len(lon)} values and lat {len(lat)}; they must be as many")
    return [format_position(x, y, style, digits) for x, y in zip(lon, lat)]


def format_course(deg: float) -> str:
    """A course in three figures, 360 for north, to the whole degree. '' for NaN.

    >>> format_course(72.4), format_course(359.7)
    ('072', '360')
    """
    return _course(deg, 0)


def format_course_tenths(deg: float) -> str:
    """A course to the tenth of a degree, 360.0 for north. '' for NaN."""
    return _course(deg, 1)


def format_altitude(ft: float) -> str:
    """An altitude in whole feet, thousands set off: '5 000 ft'. '' for NaN."""
    return "" if not math.isfinite(ft) else _fixed(ft, 0, group=" ") + " ft"


def format_nm(nm: float, digits: int = 1) -> str:
    """A distance in NM, '9.0 NM'. '' for NaN."""
    return "" if not math.isfinite(nm) else _fixed(nm, digits) + " NM"


def format_duration(seconds: float) -> str:
    """A duration to the whole second: '1:25', from an hour on '1:05:20'. '' for NaN."""
    if not math.isfinite(seconds):
        return ""
    total = _units(abs(seconds), 1)
    minutes, rest = divmod(total, 60)
    hours, minutes = divmod(minutes, 60)
    text = f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
    return "-" + text if seconds < 0.0 and total else text


def format_variation(deg: float) -> str:
    """A variation or declination, east positive: '11.0°E', '3.4°W', '0.0°'. '' for NaN."""
    if not math.isfinite(deg):
        return ""
    figures = _fixed(abs(deg), 1)
    letter = "" if figures == "0.0" else "E" if deg > 0.0 else "W"
    return f"{figures}°{letter}"


def _error(text, reason: str) -> PositionError:
    shown = "".join(char if char.isprintable() else "?" for char in str(text)[:60])
    more = "..." if len(str(text)) > 60 else ""
    return PositionError(f"the position “{shown}{more}” cannot be read: {reason}; write for example {EXAMPLE}")


def _plain(text) -> str:
    """Text with one sign for each meaning and single spaces; nothing else than ASCII and the degree sign."""
    if not isinstance(text, str):
        raise _error(text, "it is not text")
    if len(text) > MAX_CHARS:
        raise _error(text, f"it is longer than {MAX_CHARS} characters")
    plain = text.translate(_PLAIN).strip(" \t\r\n")
    if not plain:
        raise _error(text, "it is empty")
    if not all(" " <= char <= "~" or char == "°" for char in plain):
        raise _error(text, "it holds a character that has no place in a position")
    return re.sub(" (?=[°'\"])", "", " ".join(plain.split()).replace("''", '"'))


def _decimal_commas(plain: str) -> str:
    """Commas between figures as points, if the text has no point of its own."""
    return plain if "." in plain else re.sub("(?<=[0-9]),(?=[0-9])", ".", plain)


def _single(text) -> str:
    return _decimal_commas(_plain(text).upper())


def _halves(plain: str, text) -> tuple[str, str]:
    """The two values of a position, still text."""
    plain = _decimal_commas(plain)
    letters = [i for i, char in enumerate(plain) if char in "NSEW"]
    if len(letters) == 2:
        at = letters[1] if letters[0] == 0 else letters[0] + 1
        first, second = plain[:at].strip(" ,;/"), plain[at:].strip(" ,;/")
        if not first or not second:
            raise _error(text, "it is not a latitude and a longitude")
        return first, second
    if letters:
        raise _error(text, "it must have two hemisphere letters or none")
    halves = [half.strip() for half in re.split("[,;/]", plain)]
    if len(halves) == 1:
        halves = re.split(" (?=[+-])", plain)
    if len(halves) == 1:
        halves = plain.split(" ")
        if len(halves) == 2 and all(half.isdigit() and len(half) < 4 for half in halves):
            raise _error(text, "it could be degrees and minutes of one value, so a comma or letters are needed")
    if len(halves) != 2 or not all(halves):
        raise _error(text, "its two values cannot be told apart without hemisphere letters")
    return halves[0], halves[1]


def _has_letter(part: str, letters: str) -> bool:
    return part[0] in letters or part[-1] in letters


def _value(part: str, axis: str, text) -> float:
    match = _VALUE.fullmatch(part)
    if not match:
        raise _error(text, f"“{part[:40]}” is not a {axis}")
    letter = match["lead"] or match["tail"]
    if match["lead"] and match["tail"]:
        raise _error(text, f"its {axis} has two hemisphere letters")
    if letter and letter not in _LETTERS[axis]:
        raise _error(text, f"{letter} is not the hemisphere of a {axis}")
    if letter and match["sign"]:
        raise _error(text, f"its {axis} has both a sign and a hemisphere letter")
    whole_figures = len(match["deg"].partition(".")[0])
    run = match["min"] is None and whole_figures > 3 and "°" not in part
    if not letter and (run or (match["min"] is not None and not match["sign"])):
        raise _error(text, f"the hemisphere letter of its {axis} is missing")
    if run:
        value, _ = _run_of_figures(match["deg"], axis, text)
    else:
        value = _sum(match["deg"], match["min"], match["sec"], axis, text)
    return -value if letter in ("S", "W") or match["sign"] == "-" else value


def _run_of_figures(figures: str, axis: str, text) -> tuple[float, int]:
    """DD, DDMM or DDMMSS (DDD... for a longitude) with decimals: degrees, and how many units were given."""
    whole, point, decimals = figures.partition(".")
    digits = _DEGREE_DIGITS[axis]
    if len(whole) not in (digits, digits + 2, digits + 4):
        raise _error(text, f"a {axis} has {digits}, {digits + 2} or {digits + 4} figures, not {len(whole)}")
    groups: list[str | None] = [whole[:digits], whole[digits : digits + 2] or None, whole[digits + 2 :] or None]
    units = 3 - groups.count(None)
    groups[units - 1] = f"{groups[units - 1]}{point}{decimals}"
    return _sum(groups[0], groups[1], groups[2], axis, text), units


def _sum(degrees: str, minutes: str | None, seconds: str | None, axis: str, text) -> float:
    if (minutes and "." in degrees) or (seconds and "." in minutes):
        raise _error(text, f"only the last unit of its {axis} may have decimals")
    minute, second = float(minutes or 0.0), float(seconds or 0.0)
    if minute >= 60.0 or second >= 60.0:
        raise _error(text, f"the minutes and seconds of its {axis} must be less than 60")
    value = float(degrees) + (minute + second / 60.0) / 60.0
    if value > _LIMIT[axis]:
        raise _error(text, f"its {axis} is beyond {_LIMIT[axis]:.0f} degrees")
    return value


def _digits(style: str, digits: int | str | None) -> int | str:
    if style not in STYLES:
        raise ValueError(f"style is {style!r}; it must be one of {', '.join(STYLES)}")
    if digits is None:
        return DEFAULT_DIGITS[style]
    if digits == "all" and style in ("decimal", "iso6709"):
        return digits
    if isinstance(digits, bool) or not isinstance(digits, int) or not 0 <= digits <= MOST_DIGITS[style]:
        raise ValueError(f"digits is {digits!r}; in style {style} it must be 0 to {MOST_DIGITS[style]}")
    return digits


def _units(value: float, scale: int) -> int:
    """A value not below zero in whole units of 1 / scale, half rounded up; a hair below half is half."""
    return math.floor(value * scale + 0.5 + 1e-6)


def _decimals(units: int, digits: int, width: int = 1) -> str:
    """Whole units of 10**-digits as figures with a point, zeros before it to the width."""
    whole, rest = divmod(units, 10**digits)
    return f"{whole:0{width}d}" + (f".{rest:0{digits}d}" if digits else "")


def _fixed(value: float, digits: int, group: str = "") -> str:
    units = _units(abs(value), 10**digits)
    whole, point, rest = _decimals(units, digits).partition(".")
    sign = "-" if value < 0.0 and units else ""
    return f"{sign}{int(whole):,}".replace(",", group) + point + rest


def _signed(value: float, digits: int | str, iso_width: int = 0) -> str:
    if digits == "all":
        figures, negative = np.format_float_positional(abs(value), trim="0"), math.copysign(1.0, value) < 0.0
        whole, point, rest = figures.partition(".")
        figures = whole.zfill(iso_width) + point + rest
    else:
        units = _units(abs(value), 10**digits)
        figures, negative = _decimals(units, digits, max(iso_width, 1)), value < 0.0 and units > 0
    return ("-" if negative else "+" if iso_width else "") + figures


def _sexagesimal(value: float, letters: str, style: str, digits: int) -> str:
    scale = 10**digits
    width = 2 if letters == "NS" else 3
    units = _units(abs(value) * (60.0 if style == "dm" else 3600.0), scale)
    letter = letters[1] if value < 0.0 and units else letters[0]
    if style == "dm":
        degrees, minutes = divmod(units, 60 * scale)
        return f"{degrees:0{width}d}°{_decimals(minutes, digits, 2)}'{letter}"
    minutes, seconds = divmod(units, 60 * scale)
    degrees, minutes = divmod(minutes, 60)
    return f"{degrees:0{width}d}°{minutes:02d}'{_decimals(seconds, digits, 2)}\"{letter}"


def _course(deg: float, digits: int) -> str:
    if not math.isfinite(deg):
        return ""
    full = 360 * 10**digits
    return _decimals(_units(deg % 360.0, 10**digits) % full or full, digits, 3)
