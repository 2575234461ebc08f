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

    ident, kind of the navaid; on_track, whether the fix lies along a track; side, before or beyond the navaid;
    radial_station_deg by the station's own north, radial_model_deg by the model at the station; ground and slant
    distance; place; courses at the fix from the model's north, as on the selector; leg in words; the day's headings
    and stopwatch; arrival course; station's place and declination; whether it gives radials and a distance.
    """

    ident: str
    gives_radial: bool
    gives_range: bool
    on_track: bool
    side: str
    radial_station_deg: float
    radial_model_deg: float
    ground_nm: float
    slant_nm: float
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
    stopwatch_s: float
    outbound_end_dme_nm: float
    arrival_model_deg: float


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
            moves.append(f"{step:g}° and {DISTANCE_STEP_NM:g} NM: {_nm(moved, 2)}")
    wrong = float(slips.wrong_north_nm(facts.ground_nm, facts.radial_model_deg - facts.radial_station_deg))
    set_ = f"{facts.ident}, {_nm(facts.ground_nm, 1)} along the ground. Radial {by_station} where the equipment uses "
    set_ += f"the station's declination; {by_model} where it uses its own model of variation."
    see = f"Set in steps of {'; of '.join(moves)} off." if moves else ""
    if math.isfinite(facts.slant_nm):
        see = f"DME {facts.slant_nm:.1f} over the point. " + see
    return Part(
        RADIAL_DISTANCE,
        set_,
        f"Course to {facts.ident} {text.format_course(facts.inbound_selector_deg)} on the selector there "
        f"if inbound on the radial. {see}".strip()
        if math.isfinite(facts.inbound_selector_deg)
        else see,
        (f"The other number lands {_nm(wrong, 2)} off. " if math.isfinite(wrong) else "")
        + f"The reciprocal lands {_nm(2.0 * facts.ground_nm, 1)} off. A distance asked for is along the ground, "
        "a DME reading is slant.",
        "Go on by the next point of the route, not by the point that was made.",
    )


def _position(facts: Facts) -> Part | None:
    moved = float(slips.rounded_position_nm(facts.lon, facts.lat, POSITION_STEP_MIN))
    if not math.isfinite(moved):
        return None
    place = text.format_position(facts.lon, facts.lat, "dm", 2)
    check = f"{_nm(facts.ground_nm, 1)} from {facts.ident} on the navigator" if facts.ident else "the distance"
    return Part(
        POSITION,
        f"{place} (to {POSITION_STEP_MIN:g} minute; this moves the point {moved * 1852.0:.0f} m).",
        f"Read it back from the screen. {check.capitalize() if not facts.ident else check}"
        + (f"; DME {facts.slant_nm:.1f} over the point." if math.isfinite(facts.slant_nm) else "."),
        "Minutes and decimals, not minutes and seconds; the letters N or S, E or W. A slip of a minute is a mile.",
        "The point stands alone: set the course to the next point of the route before leaving.",
    )


def _by_needles(facts: Facts) -> Part | None:
    if not facts.ident:
        return None
    selector = text.format_course(facts.inbound_selector_deg)
    if not facts.gives_radial:
        set_ = f"{facts.ident} tuned and identified; the needle points to it."
        see = f"Inbound {text.format_course(facts.inbound_model_deg)} magnetic on the needle's head or tail."
    else:
        set_ = f"{facts.ident} tuned and identified" + (f"; {selector} on the course selector." if selector else ".")
        see = (
            f"Needle centred on radial {text.format_course(facts.radial_station_deg)}"
            if math.isfinite(facts.radial_station_deg)
            else "Needle centred"
        )
        see += f" and DME {facts.slant_nm:.1f}." if math.isfinite(facts.slant_nm) else "."
    trap = "The selector shows a course, the radial is where one is: they are reciprocals when inbound."
    if facts.gives_radial and not math.isfinite(facts.slant_nm):
        trap += " Without a distance the point is not made by this needle alone: use a second one, or the time."
    return Part(NOT_AT_ALL, set_, see, trap, "Turn to the next course, set it, then centre the needle.")


def _function(facts: Facts) -> Part:
    return Part(
        FUNCTION,
        f"Inbound course {text.format_course(facts.inbound_model_deg)} magnetic, {facts.turn} turns, leg {facts.leg}.",
        f"The racetrack on the {facts.turn} of the inbound course; outbound "
        f"{text.format_course(facts.outbound_model_deg)}; its entry agrees with the briefing's.",
        "Some take the leg as the inbound length, some as the outbound; some ask for the direction from the fix, not "
        "the inbound course. Draw the pattern in the mind first, compare after.",
        "Leave the hold with the function's exit before the last inbound turn, and see the next leg become active.",
    )


def _suspended(facts: Facts) -> Part:
    return Part(
        SUSPENDED,
        f"Course {text.format_course(facts.inbound_model_deg)} to the point, sequencing suspended before the point is "
        "reached. Heading and stopwatch fly the rest.",
        "Course deviation and distance to the point; the distance grows outbound. "
        + _by_heading(facts),
        "Resumed too early it runs to the next leg; forgotten, it never does. After passing, to becomes from.",
        "Inbound for the last time, resume sequencing, and see the next leg become active over the point.",
    )


def _needles(facts: Facts) -> Part:
    selector = text.format_course(facts.inbound_selector_deg)
    return Part(
        NEEDLES,
        (f"{selector} on the course selector; " if selector else "")
        + f"heading mark on {text.format_course(facts.outbound_model_deg)} outbound; stopwatch at zero.",
        _by_heading(facts)
        + (
            f" DME {facts.outbound_end_dme_nm:.1f} at the outbound end."
            if math.isfinite(facts.outbound_end_dme_nm)
            else ""
        ),
        "The needle senses wrongly while flying away from the course set. The clock starts abeam, not at roll-out, "
        "where abeam can be told.",
        "Over the fix turn to the next course, set it, note the time.",
    )


def _by_heading(facts: Facts) -> str:
    """The day's headings, or those of still air."""
    if math.isfinite(facts.heading_out_deg) and math.isfinite(facts.heading_in_deg):
        clock = f", {text.format_duration(facts.stopwatch_s)}" if math.isfinite(facts.stopwatch_s) else ""
        return (
            f"In the day's wind outbound {text.format_course(facts.heading_out_deg)}{clock}, inbound "
            f"{text.format_course(facts.heading_in_deg)}."
        )
    return f"In still air outbound {text.format_course(facts.outbound_model_deg)}, {facts.leg}."


def _nm(value: float, digits: int) -> str:
    return text.format_nm(value, digits)
