"""From the elements that were heard to one clearance: what they mean together, and where they contradict."""

from __future__ import annotations

import math
from dataclasses import replace

from ..angles import wrap180
from ..text import format_altitude, format_course
from . import clearance as said
from . import octants
from .clearance import Clearance, Fix, Line
from .heard import Distance, Heard, Offset
from .telling import understood
from .tokens import RefusedError

AGREE_DEG = 5.0
"""How far two courses that are said of one line may lie apart: our own choice."""
_WAYS = {said.COURSE: "course", said.INBOUND: "inbound course", said.OUTBOUND: "outbound course"}


def settle(heard: Heard) -> Clearance:
    """The clearance. Errors: RefusedError where something is missing or contradicts."""
    if not heard.get("hold"):
        raise RefusedError("the clearance does not say “hold”")
    place = _main_place(heard)
    heard.lines = [_sure(heard, line) if line.either else line for line in heard.lines]
    lines = [line if line.ident or line.kind not in (said.RADIAL, said.BEARING) else
             replace(line, ident=_owner(heard, place)[0]) for line in heard.lines]  # fmt: skip
    spoken = [line for line in lines if line.kind in (said.RADIAL, said.BEARING)]
    radials = list({(line.ident, line.deg): line for line in spoken}.values())
    _one_kind(heard, place, lines)
    present = any(line.kind == said.PRESENT for line in lines)
    course = _flown(heard, _one_course(lines, present))
    fix = _fix(heard, place, radials, course, present)
    radial = _holding_radial(heard, fix, radials, lines)
    one = _on_line(heard, fix, radial, course, present)
    one = _with_leg(heard, one)
    one = replace(
        one,
        turn=heard.get("turn"),
        level=heard.get("level"),
        alt_ft=heard.get("alt_ft", math.nan),
        alt_to_ft=heard.get("alt_to_ft", math.nan),
        ias_kt=heard.get("ias_kt", math.nan),
        area_ias_kt=heard.get("area_ias_kt", math.nan),
        efc=heard.get("efc"),
        leave=heard.get("leave"),
        rules=_rules(heard.wording),
    )
    timed = {"faa": "inbound", "icao": "outbound"}.get(one.rules, "")
    if timed and heard.get("leg_side", timed) != timed:
        heard.assumed.append(f"“{heard.said['leg_side']}” is taken for the {timed} leg, which these rules time")
    if one.level == "fl":
        heard.assumed.append(f"flight level {one.alt_ft / 100.0:03.0f} as {format_altitude(one.alt_ft)}")
    heard.understood[:0] = understood(one)
    return one


def _deg(line: Line) -> str:
    return format_course(line.deg)


def _rules(wording: set[str]) -> str:
    """Whose wording it is, where that is clear."""
    strong = [rules for rules in ("icao", "faa") if rules in wording]
    if len(strong) == 1:
        return strong[0]
    return "faa" if not strong and "weak faa" in wording else ""


def _main_place(heard: Heard) -> tuple[str, str]:
    """The navaid or point of the fix, and the kind that was said."""
    by_role: dict[str, tuple[str, str]] = {}
    for role, ident, kind in heard.places:
        before = by_role.get(role)
        if before and before[0] != ident:
            raise RefusedError(f"the clearance names {before[0]} as well as {ident}")
        by_role[role] = (ident, kind or (before[1] if before else ""))
    places = [by_role[role] for role in ("fix", "limit", "bare") if role in by_role]
    for other in places[1:]:
        if other[0] != places[0][0]:
            if "limit" in by_role and by_role["limit"] == other:
                raise RefusedError(f"the clearance is to {other[0]}, but the hold is at {places[0][0]}")
            raise RefusedError(f"the clearance names {places[0][0]} as well as {other[0]}")
    kind = next((kind for _, kind in places if kind), "")
    return (places[0][0], kind) if places else ("", "")


def _owner(heard: Heard, place: tuple[str, str]) -> tuple[str, str]:
    """The navaid of a radial that is said without one."""
    if heard.offset and heard.offset.ident:
        return heard.offset.ident, heard.offset.navaid_kind
    if place[0]:
        return place
    named = [(line.ident, line.navaid_kind) for line in heard.lines if line.ident]
    named += [(distance.ident, "") for distance in heard.distances if distance.ident]
    return named[0] if named else ("", "")


def _sure(heard: Heard, line: Line) -> Line:
    """A bearing that is said neither from nor to a navaid: with a distance it is that of the fix, from the navaid."""
    if heard.offset and heard.offset.octant and _lies_along(heard.offset.octant, line.deg):
        reverse = not octants.fits(heard.offset.octant, line.deg)
        return Line(said.BEARING, (line.deg + 180.0 * reverse) % 360.0)
    if heard.distances or "between" in heard.single:
        return Line(said.BEARING, line.deg)
    return line


def _one_kind(heard: Heard, place: tuple[str, str], lines: list[Line]) -> None:
    """Errors: RefusedError where one navaid is called by two kinds."""
    named = [*((ident, kind) for _, ident, kind in heard.places), *((line.ident, line.navaid_kind) for line in lines)]
    if heard.offset:
        named.append((heard.offset.ident or place[0], heard.offset.navaid_kind))
    called: dict[str, str] = {}
    for ident, kind in named:
        if kind and called.setdefault(ident, kind) != kind:
            raise RefusedError(f"the clearance calls {ident} {called[ident]} as well as {kind}")


def _one_course(lines: list[Line], present: bool) -> Line | None:
    """The course that is said, once or as inbound and outbound of one line. Errors: RefusedError for two."""
    courses = [line for line in lines if line.kind in (said.COURSE, said.INBOUND, said.OUTBOUND)]
    if not courses:
        return None
    if present:
        raise RefusedError(f"the clearance says the present course as well as {_deg(courses[0])}")
    sure = next((line for line in courses if line.kind != said.COURSE), courses[0])
    for line in courses:
        apart = abs(float(wrap180(line.deg - sure.deg)))
        reverse = {line.kind, sure.kind} == {said.INBOUND, said.OUTBOUND}
        either = line.kind == said.COURSE != sure.kind
        if not (apart == 180.0 if reverse else apart == 0.0 or either and apart == 180.0):
            one, other = (f"the {_WAYS[course.kind]} {_deg(course)}" for course in (sure, line))
            raise RefusedError(f"the clearance says {one} as well as {other}")
    return sure


def _flown(heard: Heard, course: Line | None) -> Line | None:
    """The course over a fix before, beyond or in a direction of a navaid: it is the inbound one, and where the words
    leave that to the direction of the pattern it must be known before the fix is."""
    if course is None or course.kind != said.COURSE or heard.offset is None:
        return course
    if heard.offset.side or not heard.get("direction"):
        return replace(course, kind=said.INBOUND)
    return replace(course, kind=said.INBOUND, deg=_course_inbound(heard, course, heard.get("direction")))


def _fix(heard: Heard, place: tuple[str, str], radials: list[Line], course: Line | None, present: bool) -> Fix:
    """The fix that the elements make."""
    if heard.offset:
        return _offset_fix(heard, heard.offset, place, radials, course, present)
    ident, kind = _owner(heard, place)
    if not ident:
        raise RefusedError("the clearance names no fix and no navaid")
    distances = list({(d.nm, d.unit, d.ident or ident): d for d in heard.distances}.values())
    crossing = _crossing(heard, ident, place, radials, distances)
    if crossing:
        return crossing
    ends = heard.get("between", ())
    if len(distances) > 1:
        raise RefusedError(f"the clearance says {distances[0].nm:g} as well as {distances[1].nm:g} miles")
    if distances and ends and distances[0].nm not in ends:
        raise RefusedError(f"the fix at {distances[0].nm:g} DME is neither {ends[0]:g} nor {ends[1]:g} DME")
    if not distances and not ends:
        return Fix(said.OVERHEAD, ident, kind)
    own = [line for line in radials if line.ident == (distances[0].ident if distances else "") or line.ident == ident]
    if not own:
        far = f"{distances[0].nm:g} DME of {distances[0].ident or ident}" if distances else "a DME distance"
        raise RefusedError(f"{far} is an arc; say the radial on which the fix lies")
    if distances and distances[0].ident and distances[0].ident != own[0].ident:
        raise RefusedError(f"the radial is of {own[0].ident}, but the distance of {distances[0].ident}")
    if place[0] and place[0] != own[0].ident:
        raise RefusedError(f"the clearance names {place[0]} as the fix as well as a distance of {own[0].ident}")
    nm, unit = (distances[0].nm, distances[0].unit) if distances else (math.nan, "dme")
    if distances and not 0.0 < nm <= 400.0:
        raise RefusedError(f"{nm:g} is no distance of a fix; it must be more than 0 and up to 400 NM")
    by_bearing = own[0].kind == said.BEARING
    kind = own[0].navaid_kind or kind
    return Fix(said.RADIAL_DISTANCE, own[0].ident, kind, own[0].deg, nm, unit, bearing=by_bearing)


def _crossing(heard: Heard, ident: str, place, radials: list[Line], distances: list[Distance]) -> Fix | None:
    """Two lines of different navaids that cross."""
    idents = list(dict.fromkeys(line.ident for line in radials))
    if len(idents) > 2 or len(radials) > len(idents):
        raise RefusedError(f"the clearance says the {_deg(radials[0])} radial as well as the {_deg(radials[1])}")
    elsewhere = [d for d in distances if d.ident and radials and d.ident != radials[0].ident]
    if len(idents) == 2:
        if distances:
            raise RefusedError("the clearance says two radials and a distance; two lines make a fix")
        if any(role != "bare" for role, _, _ in heard.places) or place[0] not in ("", *idents):
            raise RefusedError(f"the clearance names {place[0]} as the fix as well as a crossing")
        one, two = radials
        first = Fix(said.CROSSING, one.ident, one.navaid_kind, one.deg, bearing=one.kind == said.BEARING)
        return replace(first, ident_2=two.ident, radial_2_deg=two.deg, bearing_2=two.kind == said.BEARING)
    if elsewhere and len(distances) == 1 and place[0] in ("", radials[0].ident, elsewhere[0].ident):
        one, arc = radials[0], elsewhere[0]
        first = Fix(said.CROSSING, one.ident, one.navaid_kind, one.deg, bearing=one.kind == said.BEARING)
        return replace(first, ident_2=arc.ident, distance_2_nm=arc.nm)
    return None


def _offset_fix(heard: Heard, offset: Offset, place, radials: list[Line], course: Line | None, present: bool) -> Fix:
    """So far from a navaid: on a radial, or along a course."""
    ident, kind = (offset.ident, offset.navaid_kind) if offset.ident else place
    if not ident:
        raise RefusedError(f"“{offset.words}” does not say of what")
    if place[0] and place[0] != ident:
        raise RefusedError(f"the clearance names {place[0]} as well as {ident}")
    if heard.distances:
        raise RefusedError(f"the clearance says “{offset.words}” as well as {heard.distances[0].nm:g} miles")
    if not 0.0 < offset.nm <= 400.0:
        raise RefusedError(f"“{offset.words}” is no distance of a fix; it must be more than 0 and up to 400 NM")
    own = [line for line in radials if line.ident == ident]
    if own:
        radial = own[0]
        if offset.octant:
            _check_octant(heard, offset.octant, radial.deg, f"the {_deg(radial)} radial", "the fix")
        elif offset.side == "beyond":
            raise RefusedError(f"“{offset.words}” on the {_deg(radial)} radial does not say which way you fly")
        by_bearing = radial.kind == said.BEARING
        return Fix(said.RADIAL_DISTANCE, ident, kind, radial.deg, offset.nm, offset.unit, bearing=by_bearing)
    if offset.unit == "dme":
        heard.assumed.append(f"“{offset.words}” is measured along the ground")
    side = offset.side
    if not side and course:
        flown = course.deg + (180.0 if course.kind == said.OUTBOUND else 0.0)
        if octants.fits(offset.octant, flown):
            side = "beyond"
        elif octants.fits(offset.octant, flown + 180.0):
            side = "before"
        else:
            raise RefusedError(
                f"a fix {octants.name(offset.octant)} of {ident} is neither before nor beyond it on the course "
                f"{format_course(flown)}"
            )
    elif not course and not present:
        raise RefusedError(f"“{offset.words}” needs a radial or a course, or “on present course” with a position")
    return Fix(said.OFFSET, ident, kind, distance_nm=offset.nm, unit="mile", side=side, octant=offset.octant)


def _holding_radial(heard: Heard, fix: Fix, radials: list[Line], lines: list[Line]) -> Line | None:
    """The radial on which to hold, None where there is none."""
    if fix.kind == said.CROSSING and not math.isfinite(fix.distance_2_nm):
        spoken = [line for line in lines if line.kind in (said.RADIAL, said.BEARING)]
        if len(spoken) > len(radials):
            return spoken[-1]
        if not any(line.kind not in (said.RADIAL, said.BEARING) for line in lines):
            along = [line for line in radials if _lies_along(heard.get("direction"), line.deg)]
            held = along[0] if len(along) == 1 else radials[0]
            why = "the one in that direction" if len(along) == 1 else "named first"
            heard.assumed.append(f"held on the {_deg(held)} {held.kind} of {held.ident}, {why}")
            return held
        return None
    return radials[0] if radials else None


def _lies_along(point: str, deg: float) -> bool:
    """Whether a line leads towards a point of the compass, one way or the other."""
    return bool(point) and (octants.fits(point, deg) or octants.fits(point, deg + 180.0))


def _check_octant(heard: Heard, point: str, deg: float, what: str, whose: str) -> None:
    """Errors: RefusedError where a direction does not agree with a course. A hair outside is a note."""
    outside = octants.outside_deg(point, deg)
    if outside > octants.ADJACENT_DEG:
        raise RefusedError(
            f"{octants.name(point)} does not agree with {what}: {whose} would lie {octants.name(octants.octant(deg))}"
        )
    if outside > 0.0:
        heard.assumed.append(f"{what} lies {outside:g} degrees outside {octants.name(point)}, taken as meant")


def _on_line(heard: Heard, fix: Fix, radial: Line | None, course: Line | None, present: bool) -> Clearance:
    """The inbound course, from the line and the direction of the pattern."""
    direction = heard.get("direction")
    if present:
        return Clearance(fix, Line(said.PRESENT), direction)
    if course:
        inbound = _course_inbound(heard, course, direction)
        if radial and not fix.kind == said.CROSSING and radial.ident == fix.ident and fix.kind == said.OVERHEAD:
            if abs(float(wrap180(inbound - radial.deg - 180.0))) > AGREE_DEG:
                raise RefusedError(f"inbound {format_course(inbound)} is not along the {_deg(radial)} radial")
        return Clearance(fix, Line(said.INBOUND, inbound), direction, inbound)
    if radial is None:
        if heard.get("published"):
            raise RefusedError("“as published” refers to a chart, which is not here; say the radial, bearing or course")
        what = "on the course by which the fix is approached (FAA AIM 5-3-8 c)"
        heard.assumed.append(f"the clearance gives no radial, bearing or course: held {what}")
        return Clearance(fix, Line(said.UNSAID), direction)
    what = f"the {_deg(radial)} {'bearing' if radial.kind == said.BEARING else 'radial'}"
    outbound = radial.deg
    if direction and not (fix.kind == said.OVERHEAD and fix.ident == radial.ident):
        towards, away = (octants.outside_deg(direction, deg) for deg in (outbound, outbound + 180.0))
        if away < towards:
            if not heard.offset and ("fix", radial.ident) in [(role, ident) for role, ident, _ in heard.places]:
                raise RefusedError(
                    f"{octants.name(direction)} of {radial.ident} does not agree with {what}; if the pattern lies "
                    f"{octants.name(direction)} of the fix, say so"
                )
            outbound = (outbound + 180.0) % 360.0
            what = f"{what}, flown away from {radial.ident}"
    elif not direction and not (fix.kind == said.OVERHEAD and fix.ident == radial.ident):
        heard.assumed.append(f"inbound towards {radial.ident}, since no direction is said")
    if direction:
        _check_octant(heard, direction, outbound, what, "the pattern")
    ident = "" if radial.ident == fix.ident else radial.ident
    line = Line(radial.kind, radial.deg, ident, radial.navaid_kind)
    return Clearance(fix, line, direction, (outbound + 180.0) % 360.0)


def _course_inbound(heard: Heard, course: Line, direction: str) -> float:
    """The inbound course of a course that is said with a direction, with 'inbound' or 'outbound', or alone."""
    if course.kind == said.OUTBOUND:
        inbound = (course.deg + 180.0) % 360.0
    else:
        inbound = course.deg
    if course.kind == said.COURSE and direction:
        as_inbound = octants.outside_deg(direction, inbound + 180.0)
        if octants.outside_deg(direction, inbound) < as_inbound:
            inbound = (inbound + 180.0) % 360.0
            heard.assumed.append(
                f"{_deg(course)} is taken as the outbound course, since the pattern lies {octants.name(direction)}"
            )
    elif course.either:
        raise RefusedError(
            f"the {_deg(course)} bearing is neither from nor to the station; say which, or the direction"
        )
    elif course.kind == said.COURSE:
        heard.assumed.append(f"{_deg(course)} is taken as the inbound course")
    if direction:
        _check_octant(heard, direction, inbound + 180.0, f"the inbound course {format_course(inbound)}", "the pattern")
    return inbound


def _with_leg(heard: Heard, one: Clearance) -> Clearance:
    """The leg: in minutes, in miles, between two DMEs, or to a DME outbound."""
    minutes, miles = heard.get("leg_min", math.nan), heard.get("leg_nm", math.nan)
    ends, name = heard.get("between", ()), "between"
    if not ends and "outbound_end" in heard.single:
        ends, name = (one.fix.distance_nm, heard.get("outbound_end")), "outbound_end"
    by_miles = [heard.said[key] for key in ("leg_nm", name) if key in heard.said]
    if math.isfinite(minutes) and by_miles:
        raise RefusedError(
            f"the leg is said in minutes (“{heard.said['leg_min']}”) as well as in miles (“{by_miles[-1]}”)"
        )
    if "standard_leg" in heard.said and (math.isfinite(minutes) or by_miles):
        other = heard.said.get("leg_min", by_miles[0] if by_miles else "")
        raise RefusedError(f"the clearance says “{heard.said['standard_leg']}” as well as “{other}”")
    if not ends:
        return replace(one, leg_min=minutes, leg_nm=miles)
    fix = one.fix
    if fix.kind != said.RADIAL_DISTANCE:
        raise RefusedError(f"“{heard.said[name]}” does not say on which radial the fix lies, and at what distance")
    length = abs(ends[0] - ends[1])
    if not length > 0.0:
        raise RefusedError(f"“{heard.said[name]}” leaves no leg")
    if math.isfinite(miles) and miles != length:
        raise RefusedError(f"“{heard.said['leg_nm']}” is not the {length:g} miles between {ends[0]:g} and {ends[1]:g}")
    away = abs(float(wrap180(one.inbound_deg - fix.radial_deg))) < 90.0
    expected = max(ends) if away else min(ends)
    if not math.isfinite(fix.distance_nm):
        heard.assumed.append(f"the fix is at {expected:g} DME, the inbound end")
        fix = replace(fix, distance_nm=expected)
    elif fix.distance_nm != expected:
        way = "away from" if away else "towards"
        raise RefusedError(
            f"inbound {way} {fix.ident} between {ends[0]:g} and {ends[1]:g} DME ends at {expected:g} DME, not at "
            f"{fix.distance_nm:g}"
        )
    return replace(one, fix=fix, leg_nm=length)
