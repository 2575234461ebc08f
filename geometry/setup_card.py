"""The set-up card: how a point is made and how its hold is flown with whatever is in the panel, in the trade's words.

Two axes. How the point is made: a distance along the track, a radial and a distance, latitude and longitude, or not at
all, when needles find it. How the hold is flown: by a holding function, along a course with sequencing suspended, or
with needles and stopwatch. Each says what to set, in the steps it takes, what must then be seen, the trap that belongs
to it, and how the route goes on.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from . import slips, text

ALONG_TRACK, RADIAL_DISTANCE, POSITION, NOT_AT_ALL = POINTS = (
    "along_track", "radial_distance", "position", "not_at_all",
)  # fmt: skip
FUNCTION, SUSPENDED, NEEDLES = WAYS = ("function", "suspended", "needles")
TITLES = {
    ALONG_TRACK: "Distance along the track",
    RADIAL_DISTANCE: "Radial and distance",
    POSITION: "Latitude and longitude",
    NOT_AT_ALL: "No point: found by needles",
    FUNCTION: "A holding function",
    SUSPENDED: "A course, sequencing suspended",
    NEEDLES: "Needles and stopwatch",
}
_WORDS = (
    (ALONG_TRACK, ("along",)),
    (RADIAL_DISTANCE, ("radial",)),
    (POSITION, ("latitude", "longitude", "position", "coordinate")),
    (NOT_AT_ALL, ("not at all", "no point")),
    (FUNCTION, ("holding function", "function")),
    (SUSPENDED, ("suspend", "sequencing")),
    (NEEDLES, ("needle", "stopwatch", "raw data")),
)
RADIAL_STEPS_DEG = (1.0, 0.1)
DISTANCE_STEP_NM = 0.1
POSITION_STEP_MIN = 0.01
"""Steps in which equipment is set: common practice."""


class Part(NamedTuple):
    """One way on one axis: key of TITLES, and sentences of what to set, what must be seen, the trap, the way on."""

    way: str
    set: str
    see: str
    trap: str
    onward: str


@dataclass(frozen=True)
class Facts:
    """What a card needs of one hold; NaN or '' where it is not known or does not apply.

    ident of the navaid; whether it gives radials, and bearings to a needle; on_track, whether the fix lies along a
    track; side, before or beyond the navaid; radial_station_deg by the station's own north, radial_model_deg by the
    model at the station; ground distance, and slant distance where it has a DME; second, what the other navaid of a
    crossing shows; place; station's place and declination; courses at the fix from the model's north, as on the
    selector; leg in words; the day's headings, NaN for still air; leg_end, what ends the outbound leg then; arrival
    course and its entry.
    """

    ident: str
    gives_radial: bool
    gives_bearing: bool
    on_track: bool
    side: str
    radial_station_deg: float
    radial_model_deg: float
    ground_nm: float
    slant_nm: float
    second: str
    lon: float
    lat: float
    station_lon: float
    station_lat: float
    decl_deg: float
    inbound_model_deg: float
    inbound_selector_deg: float
    outbound_model_deg: float
    turn: str
    leg: str
    heading_out_deg: float
    heading_in_deg: float
    leg_end: str
    outbound_end_dme_nm: float
    arrival_model_deg: float
    entry: str


def equipment(words: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Which ways an aircraft has, from the words of its equipment; on an axis that the words leave open, all.

    Returns: ways to make the point, of POINTS; ways to hold, of WAYS.

    >>> equipment("radial and distance; a course with sequencing suspended")
    (('radial_distance',), ('suspended',))
    >>> equipment("needles and stopwatch")
    (('not_at_all',), ('needles',))
    """
    said = words.casefold()
    found = {way for way, marks in _WORDS if any(mark in said for mark in marks)}
    points = tuple(way for way in POINTS if way in found)
    ways = tuple(way for way in WAYS if way in found)
    if not points and ways == (NEEDLES,):
        points = (NOT_AT_ALL,)
    return points or POINTS, ways or WAYS


def point_parts(facts: Facts, points: tuple[str, ...] = POINTS) -> list[Part]:
    """Ways to make the point, those that the fix allows. Errors: ValueError for a way that is none of POINTS."""
    makers = {
        ALONG_TRACK: _along_track, RADIAL_DISTANCE: _radial_distance, POSITION: _position, NOT_AT_ALL: _by_needles,
    }  # fmt: skip
    return _made(makers, points, facts)


def hold_parts(facts: Facts, ways: tuple[str, ...] = WAYS) -> list[Part]:
    """Ways to fly the hold. Errors: ValueError for a way that is none of WAYS."""
    return _made({FUNCTION: _function, SUSPENDED: _suspended, NEEDLES: _needles}, ways, facts)


def _made(makers, ways, facts: Facts) -> list[Part]:
    unknown = [way for way in ways if way not in makers]
    if unknown:
        raise ValueError(f"{unknown[0]} is no way; it must be one of {', '.join(makers)}")
    parts = [makers[way](facts) for way in makers if way in ways]
    return [part for part in parts if part is not None]


def _along_track(facts: Facts) -> Part | None:
    if not (facts.on_track and math.isfinite(facts.ground_nm) and facts.ident):
        return None
    course = text.format_course(facts.inbound_model_deg)
    return Part(
        ALONG_TRACK,
        f"On the leg to {facts.ident}, a point {_nm(facts.ground_nm, 1)} {facts.side} {facts.ident}.",
        f"Course {course}; at the point {_nm(facts.ground_nm, 1)} to {facts.ident} along the ground"
        + (f", DME {facts.slant_nm:.1f}." if math.isfinite(facts.slant_nm) else "."),
        "Before and beyond are one sign apart: the wrong one lies "
        f"{_nm(2.0 * facts.ground_nm, 1)} away. A leg set afresh from present position turns the course.",
        f"The leg goes on to {facts.ident}: take the point out, or pass it, and the route is as it was.",
    )


def _radial_distance(facts: Facts) -> Part | None:
    if facts.ident and _overhead(facts):
        return Part(
            RADIAL_DISTANCE,
            f"{facts.ident} itself, by its ident: no radial and no distance.",
            _navigator(facts),
            "Others may have the same ident: compare course and distance before it is taken.",
            "Go on by the next point of the route.",
        )
    if not (facts.ident and math.isfinite(facts.radial_station_deg) and facts.gives_radial):
        return None
    by_station, by_model = (text.format_course_tenths(d) for d in (facts.radial_station_deg, facts.radial_model_deg))
    moves = []
    for step in RADIAL_STEPS_DEG:
        moved = float(
            slips.rounded_radial_distance_nm(
                facts.station_lon, facts.station_lat, facts.radial_station_deg, facts.decl_deg, facts.ground_nm, step,
                DISTANCE_STEP_NM,
            )
        )  # fmt: skip
        if math.isfinite(moved):
            moves.append(f"to {step:g}° and {DISTANCE_STEP_NM:g} NM by {_nm(moved, 2)}")
    radial = f"Radial {by_station} where the equipment uses the station's declination"
    if by_model and by_model != by_station:
        radial += f"; {by_model} where it uses its own model of variation"
    elif by_model:
        radial += ", and the same where it uses its own model of variation"
    rounding = f" Rounding moves the point: {'; '.join(moves)}." if moves else ""
    wrong = float(slips.wrong_north_nm(facts.ground_nm, facts.radial_model_deg - facts.radial_station_deg))
    other = f"The other number lands {_nm(wrong, 2)} off. " if by_model != by_station and math.isfinite(wrong) else ""
    return Part(
        RADIAL_DISTANCE,
        f"{facts.ident}, {_nm(facts.ground_nm, 1)} along the ground. {radial}.{rounding}",
        _navigator(facts),
        f"{other}The reciprocal lands {_nm(2.0 * facts.ground_nm, 1)} off. A distance asked for is along the ground, "
        "a DME reading is slant.",
        "Go on by the next point of the route, not by the point that was made.",
    )


def _position(facts: Facts) -> Part | None:
    moved = float(slips.rounded_position_nm(facts.lon, facts.lat, POSITION_STEP_MIN))
    if not math.isfinite(moved):
        return None
    place = text.format_position(facts.lon, facts.lat, "dm", 2)
    metres = f" Rounding to {POSITION_STEP_MIN:g} minute moves the point {moved * 1852.0:.0f} m."
    away = facts.ident and not _overhead(facts) and math.isfinite(facts.ground_nm)
    read = f", and that it is {_nm(facts.ground_nm, 1)} from {facts.ident}" if away else ""
    return Part(
        POSITION,
        f"{place}.{metres}",
        f"The place read back from the screen{read}. {_navigator(facts)}",
        "Minutes and decimals, not minutes and seconds; the letters N or S, E or W. A minute of latitude is a mile.",
        "The point stands alone: set the course to the next point of the route before leaving.",
    )


def _by_needles(facts: Facts) -> Part | None:
    if not (facts.ident and facts.gives_bearing):
        return None
    selector = text.format_course(facts.inbound_selector_deg) if facts.gives_radial else ""
    set_ = f"{facts.ident} tuned and identified"
    set_ += f"; {selector} on the course selector." if selector else "; the needle points to it."
    dme = f" DME {facts.slant_nm:.1f}" if math.isfinite(facts.slant_nm) else ""
    if _overhead(facts):
        see = "Overhead, to becomes from" if facts.gives_radial else "Overhead, the needle falls to its tail"
        see += f"; the DME goes no lower than {facts.slant_nm:.1f}." if dme else "."
        trap = "Close in the needle is restless: hold the heading until it has fallen."
    else:
        second = f" and {facts.second}" if facts.second else ""
        see = f"Over the point {_shown(facts)}{second}."
        if facts.gives_radial:
            trap = "The selector shows a course, the radial is where one is: they are reciprocals when inbound."
        else:
            trap = "The needle says nothing of the wind: with no correction the track to the beacon is a curve."
        if not dme and not second:
            trap += " Without a distance this needle alone makes no point: use a second one, or the time."
    return Part(NOT_AT_ALL, set_, see, trap, "Turn to the next course, set it, then centre the needle.")


def _overhead(facts: Facts) -> bool:
    return facts.ground_nm < DISTANCE_STEP_NM / 2.0


def _navigator(facts: Facts) -> str:
    """What is seen of a point that was made: course and distance to go, and what the navaid shows over it."""
    shown = _shown(facts)
    course = f"Course {text.format_course(facts.inbound_model_deg)}, the distance to go counting down"
    return f"{course}; over the point {shown}." if shown else f"{course} to 0.0."


def _shown(facts: Facts) -> str:
    """What the navaid shows over the point: 'OBL radial 320, DME 17.0'; '' for nothing."""
    angle = text.format_course_tenths(facts.radial_station_deg).replace(".0", "")
    shown = [f"{'radial' if facts.gives_radial else 'bearing'} {angle}"] if angle and facts.gives_bearing else []
    if math.isfinite(facts.slant_nm):
        shown.append(f"DME {facts.slant_nm:.1f}")
    if facts.ident and facts.gives_bearing and _overhead(facts):
        shown = shown[1:]  # no radial overhead
    return f"{facts.ident} {', '.join(shown)}" if shown else ""


def _function(facts: Facts) -> Part:
    arrival = text.format_course(facts.arrival_model_deg)
    entry = f"; arriving on {arrival}, its entry is {facts.entry}" if arrival and facts.entry else ""
    return Part(
        FUNCTION,
        f"Inbound course {text.format_course(facts.inbound_model_deg)} magnetic, {facts.turn} turns, leg {facts.leg}.",
        f"The racetrack on the {facts.turn} of the inbound course; outbound "
        f"{text.format_course(facts.outbound_model_deg)}{entry}.",
        "Some take the leg as the inbound length, some as the outbound; some ask for the direction from the fix, not "
        "the inbound course. Draw the pattern in the mind first, compare after.",
        "Leave the hold with the function's exit before the last inbound turn, and see the next leg become active.",
    )


def _suspended(facts: Facts) -> Part:
    return Part(
        SUSPENDED,
        f"Course {text.format_course(facts.inbound_model_deg)} to the point, sequencing suspended before the point is "
        "reached. Heading and stopwatch fly the rest.",
        f"Course deviation and distance to the point; the distance grows outbound. {_by_heading(facts)}",
        "Resumed too early it runs to the next leg; forgotten, it never does. After passing, to becomes from.",
        "Inbound for the last time, resume sequencing, and see the next leg become active over the point.",
    )


def _needles(facts: Facts) -> Part:
    selector = text.format_course(facts.inbound_selector_deg) if facts.gives_radial else ""
    mark = f"eading mark on {text.format_course(facts.outbound_model_deg)} outbound; stopwatch at zero."
    see = _by_heading(facts)
    if math.isfinite(facts.outbound_end_dme_nm) and "DME" not in see:
        see += f" DME {facts.outbound_end_dme_nm:.1f} at the outbound end."
    trap = "The clock starts abeam, not at roll-out, where abeam can be told."
    if facts.gives_radial:
        trap = f"The needle senses wrongly while flying away from the course set. {trap}"
    return Part(
        NEEDLES, f"{selector} on the course selector; h{mark}" if selector else f"H{mark}", see, trap,
        "Over the fix turn to the next course, set it, note the time.",
    )  # fmt: skip


def _by_heading(facts: Facts) -> str:
    """The day's headings, or those of still air."""
    windy = math.isfinite(facts.heading_out_deg) and math.isfinite(facts.heading_in_deg)
    out, back = (
        (facts.heading_out_deg, facts.heading_in_deg) if windy else (facts.outbound_model_deg, facts.inbound_model_deg)
    )
    end = f"{',' if facts.leg_end[:1].isdigit() else ''} {facts.leg_end}" if facts.leg_end else ""
    air = "In the day's wind" if windy else "In still air"
    return f"{air} outbound {text.format_course(out)}{end}, inbound {text.format_course(back)}."


def _nm(value: float, digits: int) -> str:
    return text.format_nm(value, digits)
