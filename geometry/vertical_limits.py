"""Vertical limits of airspace as people write them, and the altitudes that they are.

Reading is strict: a text that names no limit, or two, or one from a datum that is not known here, is refused in words.
What a limit leaves open (no reference: above mean sea level) is said.
"""

from __future__ import annotations

import re
from typing import NamedTuple

import numpy as np

from . import atmosphere
from .text import parse_number
from .units import FT_M

UNREAD, ALTITUDE, GROUND, PRESSURE, UNLIMITED = -1, 0, 1, 2, 3
"""What a limit counts from: not read; mean sea level; the ground below; the standard atmosphere's 1013.25 hPa level;
no limit above."""

PLAIN_UNITS = ("none", "ft", "m", "fl")
"""What a limit without a unit is taken in; none: it is refused."""

LOWEST_FT, HIGHEST_FT = -2000.0, 100_000.0
"""Beyond these a figure is a slip of the pen: no airspace begins lower (the shore of the Dead Sea lies at -1 410 ft),
and FL 999 stands for no limit in some data. Chosen here."""
MAX_CHARS = 120

_METRES, _KILOMETRES = 1.0 / FT_M, 1000.0 / FT_M
_UNITS = {"FT": 1.0, "'": 1.0, "M": _METRES, "KM": _KILOMETRES}

_PLAIN = str.maketrans(
    {
        **dict.fromkeys("\u2212\u2013\u2014\u2010\u2011\ufe63\uff0d", "-"),
        **dict.fromkeys(
            "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u3000\t\r\n_", " "
        ),
        **dict.fromkeys("\u2032\u2019\u2018\u02b9\u00b4`", "'"),
    }
)

# Longest first: what is left must not begin with a part of what is replaced. (pattern, canonical word)
_WORDS = (
    (r"(?:ABOVE|ABV) (?:THE )?(?:MEAN SEA ?LEVEL|SEA ?LEVEL|MSL)|A\.M\.S\.L|A\.S\.L", "AMSL"),
    (r"MEAN SEA ?LEVEL|SEA ?LEVEL|ALTITUDE|AMSL|ASL|ALT|MSL|QNH|M\.S\.L", "MSL"),
    (r"(?:ABOVE|ABV) (?:THE )?(?:GROUND|GND|SURFACE|SFC|TERRAIN)(?: LEVEL)?", "AGL"),
    (r"AGND|ASFC|AGL|HEI|A\.G\.L", "AGL"),
    (r"(?:THE )?(?:GROUND|SURFACE|GRD|GND|SFC)(?: LEVEL)?", "GND"),
    (r"STANDARD|STD|QNE", "STD"),
    (r"UNLIMITED|UNLIM|UNLTD|UNL|NO UPPER LIMIT|NO LIMIT", "UNL"),
    (r"FLIGHT ?LEVEL|F/L|FL", "FL"),
    (r"KILOMETRES?|KILOMETERS?|KM", "KM"),
    (r"METRES?|METERS?|MTRS?|M", "M"),
    (r"FEET|FOOT|FT", "FT"),
)
_WORD = re.compile("|".join(rf"(?<![A-Z])(?P<w{i}>{pattern})(?![A-Z])\.?" for i, (pattern, _) in enumerate(_WORDS)))
_REFERENCES = {"MSL": ALTITUDE, "AMSL": ALTITUDE, "AGL": GROUND, "GND": GROUND, "STD": PRESSURE}
_BARE = {"GND": GROUND, "MSL": ALTITUDE, "UNL": UNLIMITED}
_LEVEL = re.compile(r"(?:STD ?)?(?:FL ?(?P<after>[0-9]+)|(?P<before>[0-9]{1,3}) ?FL)(?: ?\(?STD\)?)?")
_FLIGHT_PLAN = re.compile(r"(?P<letter>[FA])(?P<three>[0-9]{3})|(?P<metric>[SM])(?P<four>[0-9]{4})")
_FIGURES = r"[+-]? ?[0-9][0-9., ']*?"
_REFERENCE = "MSL|AMSL|AGL|GND|STD"
_GENERAL = re.compile(
    rf"(?:(?P<lead>{_REFERENCE}) ?)?(?P<figures>{_FIGURES}) ?(?P<unit>FT|KM|M|')?(?: ?\(?(?P<tail>{_REFERENCE})\)?)?"
)
_GROUPED = re.compile(r"([+-]?)([1-9][0-9]{0,2}(?:([.,' ])[0-9]{3})(?:\3[0-9]{3})*)(?:([.,])([0-9]+))?")

_COULD_BE_DECIMALS = re.compile(r"[1-9][0-9]{1,2}[.,][0-9]{3}")

_ELSEWHERE = re.compile(r"NOTAM|NOTIFIED|PROMULGATED|AIP|\bTB[NAD]\b|\bVARIABLE\b|\bSEE\b")
_TWO = re.compile(
    r"[/;]|\bOR\b|\bAND\b|(?<!\bUP) TO |WHICHEVER|HIGHER|LOWER|(?:[0-9]|FT|KM|M|GND|MSL|AGL|STD) ?- ?(?:[0-9]|FL|UNL)"
)
_OTHER_DATUM = re.compile(r"\b(?:QFE|AAL|AAE|AFE|ARP|AERODROME|W84|WGS ?84|ELLIPSOID|FLOOR|CEILING|BASE|TOP)\b")
_SAME_TWICE = {
    "GND/GND": "GND", "GND (GND)": "GND", "GND/MSL": "GND", "MSL/GND": "GND", "GND OR MSL": "GND",
    "GND/AGL": "GND", "AGL/GND": "GND",
}  # fmt: skip
_NOTHING = re.compile(r"N ?/ ?A|N\.A|-+|NIL|NONE|NULL|UNKNOWN|UNK")
_SLASH = re.compile(r" ?/ ?")


class Limit(NamedTuple):
    """One limit: what it counts from, its feet above that (inf for none), what was assumed, why it is refused."""

    reference: int
    value_ft: float
    assumed: str = ""
    problem: str = ""


class Limits(NamedTuple):
    """N limits as columns: reference (N,) int, value_ft (N,) float, texts, assumed and problems (N,) str."""

    reference: np.ndarray
    value_ft: np.ndarray
    text: np.ndarray
    assumed: np.ndarray
    problem: np.ndarray


def read_limits(texts, plain_unit: str = "none") -> Limits:
    """read_limit of many texts, as columns. Errors: ValueError for an unknown plain_unit."""
    made = [read_limit(text, plain_unit) for text in texts]
    reference, value, assumed, problem = zip(*made) if made else ((), (), (), ())
    columns = [np.empty(len(made), dtype=object) for _ in range(3)]
    for column, values in zip(columns, ([_shown(text) for text in texts], assumed, problem)):
        column[:] = values
    return Limits(np.array(reference, dtype=np.int64), np.array(value, dtype=np.float64), *columns)


def read_limit(text, plain_unit: str = "none") -> Limit:
    """A vertical limit as people write it.

    Read are: ground (GND, SFC, ...), unlimited (UNL, ...), sea level (MSL); flight levels (FL 95, FL095); heights and
    altitudes in feet, metres or kilometres with a reference before or after (4500 FT AMSL, 1500ft AGL, MSL 4500 ft,
    9500 ft STD); the flight plan's F095, A045, M0840, S1130. Thousands may be set off by comma, point, space or
    apostrophe; decimals by comma or point.
    Parameters: text, or a number; plain_unit, one of PLAIN_UNITS, for figures without a unit.
    Returns: Limit; reference UNREAD, NaN and a sentence where it is refused.
    Errors: ValueError for an unknown plain_unit.
    Source: ICAO Annex 15 and Doc 8126 (GND, SFC, UNL, FL, AMSL, AGL), Doc 4444 Appendix 2 item 15 (F, A, S, M),
    AIXM CODE_DIST_VER (STD, HEI): all from memory.

    >>> read_limit("FL 95")[:2], read_limit("1500ft AGL")[:2], read_limit("4.500 FT AMSL")[:2]
    ((2, 9500.0), (1, 1500.0), (0, 4500.0))
    >>> read_limit("BY NOTAM").problem
    "'BY NOTAM' says that the limit stands elsewhere; write the limit itself"
    """
    if plain_unit not in PLAIN_UNITS:
        raise ValueError(f"plain_unit is {plain_unit!r}; it must be one of {', '.join(PLAIN_UNITS)}")
    shown = _shown(text)
    if not shown:
        return _refused("the limit is empty")
    if len(shown) > MAX_CHARS:
        return _refused(f"the limit is longer than {MAX_CHARS} characters")
    plain = " ".join(shown.upper().translate(_PLAIN).split()).rstrip(".;, ")
    if _ELSEWHERE.search(plain):
        return _refused(f"{shown!r} says that the limit stands elsewhere; write the limit itself")
    if _OTHER_DATUM.search(plain):
        return _refused(f"{shown!r} counts from a place that is not known here; write it above sea level or ground")
    if _NOTHING.fullmatch(plain):
        return _refused(f"{shown!r} says that no limit is given; write the limit itself, or leave it empty")
    plain = _WORD.sub(_canonical, plain)
    plain = _SAME_TWICE.get(_SLASH.sub("/", plain), plain)
    if _TWO.search(plain):
        return _refused(f"{shown!r} names more than one limit; write the one that counts")
    return _in_range(
        _bare(plain) or _level(plain, shown) or _flight_plan(plain) or _figure(plain, shown, plain_unit), shown
    )


def altitude_ft(reference, value_ft, qnh_hpa=atmosphere.STANDARD_QNH_HPA, ground_ft=np.nan) -> np.ndarray:
    """Altitude of limits, as an altimeter set to the QNH shows it.

    A pressure level is moved by the height at which the standard atmosphere has the QNH; the temperature is left out,
    since the altimeters of both leave it out. Parameters: reference, a code; value_ft, above it; qnh_hpa > 0;
    ground_ft, elevation of the ground that a height counts from, NaN where it is not known. They broadcast.
    Returns: feet of the broadcast shape; inf for no limit; NaN for one not read, or above an unknown ground.
    Source: ICAO Doc 7488 through atmosphere.pressure_altitude_ft.

    >>> round(float(altitude_ft(PRESSURE, 5274.0, 1003.25)))
    5000
    """
    reference, value, qnh, ground = np.broadcast_arrays(
        np.asarray(reference), *(np.asarray(a, dtype=np.float64) for a in (value_ft, qnh_hpa, ground_ft))
    )
    below = {
        ALTITUDE: np.zeros(value.shape),
        GROUND: ground,
        PRESSURE: -atmosphere.pressure_altitude_ft(np.zeros(value.shape), qnh),
    }
    out = np.where(reference == UNLIMITED, np.inf, np.nan)
    for code, base in below.items():
        out = np.where(reference == code, base + value, out)
    return out


def _shown(text) -> str:
    """The text as it stands, a whole number without a point."""
    if text is None:
        return ""
    if isinstance(text, (float, np.floating)):
        return "" if np.isnan(text) else f"{float(text):.10g}"
    return str(text).strip()


def _refused(problem: str) -> Limit:
    return Limit(UNREAD, float("nan"), "", problem)


def _canonical(match: re.Match) -> str:
    return _WORDS[int(match.lastgroup[1:])][1]


def _bare(plain: str) -> Limit | None:
    """A limit of one word."""
    if plain not in _BARE:
        return None
    return Limit(_BARE[plain], float("inf") if plain == "UNL" else 0.0)


def _level(plain: str, shown: str) -> Limit | None:
    match = _LEVEL.fullmatch(plain)
    if not match:
        return None
    figures = match["after"] or match["before"]
    if len(figures) > 3:
        return _refused(f"{shown!r} has a flight level of more than three figures; FL 95 is 9 500 ft")
    return Limit(PRESSURE, 100.0 * int(figures))


def _flight_plan(plain: str) -> Limit | None:
    """F095 and A045 in hundreds of feet, S1130 and M0840 in tens of metres."""
    match = _FLIGHT_PLAN.fullmatch(plain)
    if not match:
        return None
    letter = match["letter"] or match["metric"]
    feet = 100.0 * int(match["three"]) if match["letter"] else 10.0 * int(match["four"]) * _METRES
    return Limit(PRESSURE if letter in "FS" else ALTITUDE, feet)


def _figure(plain: str, shown: str, plain_unit: str) -> Limit:
    match = _GENERAL.fullmatch(plain)
    if not match:
        return _refused(f"{shown!r} is no vertical limit; write for example 4500 ft AMSL, 1500 ft AGL, FL 95, GND, UNL")
    if match["lead"] and match["tail"]:
        return _refused(f"{shown!r} names two references; write one")
    unit, word = match["unit"], match["lead"] or match["tail"]
    value = _value(match["figures"], unit)
    if value is None:
        return _refused(f"the figures of {shown!r} could be read in two ways, or in none; write them as 4500 or 4 500")
    assumed = ""
    if unit is None:
        if value == 0.0 and word is None:
            return Limit(GROUND, 0.0, "0 is taken as the ground")
        if plain_unit == "none" and value != 0.0:
            return _refused(f"{shown!r} has no unit; write ft or m behind it, or FL before it")
        if plain_unit == "fl" and value != 0.0:
            if word is not None or value != int(value) or not 0.0 <= value <= 999.0:
                return _refused(f"{shown!r} is no flight level")
            return Limit(PRESSURE, 100.0 * value, f"{shown} is taken as a flight level")
        unit = "M" if plain_unit == "m" else "FT"
        assumed = f"{shown} is taken in {unit.lower()}" if value else ""
    if word is None:
        said = f"{shown} is taken above mean sea level"
        return Limit(ALTITUDE, value * _UNITS[unit], f"{assumed}; {said}" if assumed else said)
    return Limit(_REFERENCES[word], value * _UNITS[unit], assumed)


def _value(figures: str, unit: str | None) -> float | None:
    """Figures as a number; of feet and metres three figures after a point or comma are thousands, never decimals.

    None where they could be either: 15.240 m is 50 ft to the millimetre as tables of surveyors have it, 4.500 m is not.
    """
    figures = figures.replace("- ", "-").replace("+ ", "+").strip()
    grouped = _GROUPED.fullmatch(figures)
    if grouped:
        sign, whole, mark, point, decimals = grouped.groups()
        if unit == "KM" and mark in ".,":
            return None
        if unit == "M" and mark in ".," and point is None and _COULD_BE_DECIMALS.fullmatch(whole):
            return None
        if point is not None and point == mark:
            return None
        whole = re.sub("[., ']", "", whole)
        return float(f"{sign}{whole}.{decimals or 0}")
    value = parse_number(figures)
    return None if value is None or np.isnan(value) else value


def _in_range(limit: Limit, shown: str) -> Limit:
    if limit.reference in (UNREAD, UNLIMITED) or LOWEST_FT <= limit.value_ft <= HIGHEST_FT:
        return limit
    return _refused(f"{shown!r} is not between {LOWEST_FT:.0f} and {HIGHEST_FT:.0f} ft")
