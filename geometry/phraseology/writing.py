"""Clearances in words: as text for the sheet, and digit by digit for reading aloud."""

from __future__ import annotations

import math
from typing import NamedTuple

from .. import text
from . import clearance as said
from . import octants
from .clearance import Clearance
from .numbers import altitude_words, digit_by_digit, trimmed
from .words import ALPHABET

WORDINGS = ("icao", "faa")
SPELLED_UP_TO = 4
"""Longer idents are five-letter name-codes, made to be said as words (ICAO Annex 11, App. 2, from memory)."""


class Phrase(NamedTuple):
    """The same words twice: as text, and as they are read aloud."""

    text: str
    spoken: str


def write(clearance: Clearance, wording: str) -> Phrase:
    """A clearance in the wording of FAA or ICAO.

    Parameters: clearance; wording, faa or icao. Returns: Phrase; no clearance is without a fix and a line.
    Errors: ValueError for another wording.
    Source: FAA AIM 5-3-8 i (order and elements), Order 7110.65 4-6-1, 4-6-4 (from memory); ICAO Doc 4444, 12.3 (from
    memory).
    """
    if wording not in WORDINGS:
        raise ValueError(f"wording is {wording!r}; it must be one of {', '.join(WORDINGS)}")
    parts = (_faa if wording == "faa" else _icao)(clearance)
    whole = [", ".join(part for part in side if part) + "." for side in zip(*parts)]
    return Phrase(*[sentence[0].upper() + sentence[1:] for sentence in whole])


def _faa(c: Clearance) -> list[Phrase]:
    """Direction, fix, line, leg, turns if left, altitude, EFC."""
    at, along = _fix_and_line(c, "faa")
    towards = f"hold {octants.name(c.direction)} of" if c.direction else "hold at"
    parts = [_joined(_same(towards), at, along)]
    if math.isfinite(c.leg_nm):
        parts.append(_joined(_number(c.leg_nm, "faa"), _same("mile legs")))
    elif math.isfinite(c.leg_min):
        parts.append(_joined(_minutes(c.leg_min, "faa"), _same("minute legs")))
    if c.turn == "left":
        parts.append(_same("left turns"))
    return [*parts, *_level(c, "faa"), *_speed(c, "faa"), *_times(c, "faa")]


def _icao(c: Clearance) -> list[Phrase]:
    """Fix, level, direction and inbound track, hand of the pattern if left, outbound leg, EFC."""
    fix = c.fix
    by_dme = fix.kind == said.RADIAL_DISTANCE and fix.unit == "dme"
    if fix.kind == said.RADIAL_DISTANCE:
        far = _joined(_number(fix.distance_nm, "icao"), _same("DME fix" if by_dme else "mile fix"))
        at = _joined(_same("the"), _degrees(fix.radial_deg, "icao"), _same(f"{fix.line_name} of"), _ident(fix.ident),
                     _same("at"), far)  # fmt: skip
    else:
        at, _ = _fix_and_line(c, "icao")
    parts = [_joined(_same("cleared to"), at), *_level(c, "icao")]
    hold = f"hold {octants.name(c.direction)}" if c.direction else "hold"
    if c.line.kind == said.PRESENT:
        parts.append(_same(f"{hold} on present track"))
    elif c.line.kind == said.UNSAID:
        parts.append(_same(hold))
    else:
        parts += [_same(hold), _joined(_same("inbound track"), _degrees(c.inbound_deg, "icao"), _same("degrees"))]
    if c.turn == "left":
        parts.append(_same("left hand pattern"))
    if math.isfinite(c.leg_nm):
        parts.append(_joined(_same("outbound leg"), _number(c.leg_nm, "icao"), _same("miles")))
    elif math.isfinite(c.leg_min):
        unit = "minute" if c.leg_min == 1.0 else "minutes"
        parts.append(_joined(_same("outbound leg"), _minutes(c.leg_min, "icao"), _same(unit)))
    return [*parts, *_speed(c, "icao"), *_times(c, "icao")]


def _fix_and_line(c: Clearance, wording: str) -> tuple[Phrase, Phrase]:
    fix, line = c.fix, c.line
    owner = _ident(line.ident or fix.ident)
    if fix.kind == said.RADIAL_DISTANCE:
        unit = "DME fix" if fix.unit == "dme" else "mile fix"
        at = _joined(_same("the"), _number(fix.distance_nm, wording), _same(unit))
        if line.kind not in (said.RADIAL, said.BEARING) or line.deg != fix.radial_deg:
            at = _joined(_same("the"), _ident(fix.ident), _degrees(fix.radial_deg, wording), _same(fix.line_name),
                         _number(fix.distance_nm, wording), _same(unit))  # fmt: skip
    elif fix.kind == said.CROSSING:
        second = (
            _joined(_degrees(fix.radial_2_deg, wording), _same(fix.line_2_name))
            if math.isfinite(fix.radial_2_deg)
            else _joined(_number(fix.distance_2_nm, wording), _same("DME arc"))
        )
        at = _joined(_same("the intersection of the"), _ident(fix.ident), _degrees(fix.radial_deg, wording),
                     _same(f"{fix.line_name} and the"), _ident(fix.ident_2), second)  # fmt: skip
    elif fix.kind == said.OFFSET:
        where = fix.side or f"{octants.name(fix.octant)} of"
        at = _joined(_same("the fix"), _number(fix.distance_nm, wording), _same(f"miles {where}"), _ident(fix.ident))
    else:
        at = _ident(fix.ident)
    if line.kind == said.UNSAID:
        return at, _same("")
    if line.kind == said.PRESENT:
        return at, _same("on present course")
    if line.kind == said.RADIAL:
        if fix.kind == said.OVERHEAD and owner == at:
            owner = _same("")
        return at, _joined(_same("on the"), owner, _degrees(line.deg, wording), _same("radial"))
    if line.kind == said.BEARING:
        return at, _joined(_same("on the"), _degrees(line.deg, wording), _same("bearing from"), owner)
    return at, _joined(_same("on the"), _degrees(c.inbound_deg, wording), _same("inbound course"))


def _level(c: Clearance, wording: str) -> list[Phrase]:
    if not math.isfinite(c.alt_ft):
        return []

    def level(feet: float) -> Phrase:
        if c.level == "fl":
            figures = f"{round(feet / 100.0):03d}"
            return Phrase(f"flight level {figures}", f"flight level {digit_by_digit(figures, wording)}")
        unit = " feet" if wording == "icao" else ""
        return Phrase(text.format_altitude(feet).replace(" ft", "") + unit, altitude_words(feet, wording) + unit)

    if math.isfinite(c.alt_to_ft) and c.alt_to_ft > c.alt_ft:
        between = "through" if wording == "faa" else "to"
        return [_joined(_same("maintain block"), level(c.alt_ft), _same(between), level(c.alt_to_ft))]
    return [_joined(_same("maintain"), level(c.alt_ft))]


def _speed(c: Clearance, wording: str) -> list[Phrase]:
    if not math.isfinite(c.area_ias_kt):
        return []
    return [_joined(_same("maximum holding airspeed is"), _number(round(c.area_ias_kt), wording), _same("knots"))]


def _times(c: Clearance, wording: str) -> list[Phrase]:
    at = "" if wording == "faa" else "at"
    parts = []
    if c.efc:
        parts.append(_joined(_same(f"expect further clearance {at}".strip()), _time(c.efc, wording)))
    if c.leave:
        parts.append(_joined(_same("leave the fix at"), _time(c.leave, wording)))
    return parts


def _joined(*parts: Phrase) -> Phrase:
    return Phrase(*[" ".join(part for part in side if part) for side in zip(*parts)])


def _same(words: str) -> Phrase:
    return Phrase(words, words)


def _degrees(deg: float, wording: str) -> Phrase:
    figures = text.format_course(deg)
    return Phrase(figures, digit_by_digit(figures, wording))


def _number(value: float, wording: str) -> Phrase:
    figures = trimmed(value)
    return Phrase(figures, digit_by_digit(figures, wording))


def _minutes(value: float, wording: str) -> Phrase:
    if value % 1.0 == 0.5 and value > 1.0:
        whole = f"{math.floor(value)}"
        return Phrase(f"{whole}½", f"{digit_by_digit(whole, wording)} and a half")
    return _number(value, wording)


def _time(utc: str, wording: str) -> Phrase:
    figures = utc[-5:].replace(":", "")
    return Phrase(figures, digit_by_digit(figures, wording))


def _ident(ident: str) -> Phrase:
    letters = {word[0]: word for word in ALPHABET}
    spelled = ident.isascii() and ident.isalpha() and len(ident) <= SPELLED_UP_TO
    return Phrase(ident, " ".join(letters[char.lower()] for char in ident) if spelled else ident)
