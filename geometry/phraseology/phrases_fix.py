"""Phrases that say where to hold: directions, navaids, radials, bearings, courses, distances."""

from __future__ import annotations

from .clearance import BEARING, COURSE, INBOUND, OUTBOUND, PRESENT, RADIAL, Line
from .cursor import Cursor
from .heard import Distance, Heard, Offset
from .tokens import RefusedError
from .words import BEARING as BEARING_WORDS
from .words import BEFORE, HOLD, LEG, MILE
from .words import COURSE as COURSE_WORDS

_SIDES = {"inbound": INBOUND, "outbound": OUTBOUND, "inbd": INBOUND, "outbd": OUTBOUND}
_THE_FIX = {"fix", "point", "intersection", "crossing"}
_FLOWN = {"course", "track", "heading", "crs", "trk"}


def offset(at: Cursor, heard: Heard) -> bool:
    """9 miles before QLF; 9 DME northwest of QLF; 9 miles short of."""
    start = at.i
    distance = at.number()
    unit = _mile(at) if distance else ""
    if not unit:
        return False
    octant, side = "", ""
    for words in sorted(BEFORE, key=len, reverse=True):
        at.skip("on")
        if at.take_all(words):
            side = BEFORE[words]
            break
    if not side:
        at.skip("to", "the")
        octant = at.direction()
        if not octant or not at.take("of", "from"):
            return False
    ident, kind = at.place(True) or ("", "")
    at.skip("the")
    if not ident and at.word() in _THE_FIX:
        return False
    if heard.offset is not None:
        raise RefusedError(f"the clearance says “{heard.offset.words}” as well as “{at.quote(start, at.i - 1)}”")
    heard.offset = Offset(distance.value, unit, side, octant, ident, kind, at.quote(start, at.i - 1))
    return True


def _mile(at: Cursor) -> str:
    """mile or dme, if it is next."""
    at.take("nautical")
    if at.take_of(MILE):
        return "dme" if at.take("dme") else "mile"
    if at.take("dme", "d"):
        at.take_of(MILE)
        return "dme"
    return ""


def line(at: Cursor, heard: Heard) -> bool:
    """The 045 radial of OBL; OBL R-045; bearing 075 from WYR; inbound track 225; OBL 045/17."""
    start = at.i
    found = _angle(at, "")
    ident, kind = "", ""
    if found is None:
        at.i = start
        place = at.place(True)
        if place is None:
            return False
        ident, kind = place
        if _radial_and_distance(at, heard, ident, kind):
            return True
        found = _angle(at, ident)
        if found is None:
            return False
    what, deg = found
    if what == INBOUND and any(token.text in ("track", "trk") for token in at.found[start : at.i]):
        heard.wording.add("icao")
    here, owner = at.i, at.owner()
    if ident and owner[0] not in ("", ident):
        at.i = here
    else:
        ident, kind = owner[0] or ident, owner[1] or kind
    if not ident and what in (COURSE, INBOUND, OUTBOUND) and at.take("to"):
        ident, kind = at.place(True) or ("", "")
    if what in (COURSE, INBOUND, OUTBOUND) and ident:
        heard.places.append(("bare", ident, kind))
        ident, kind = "", ""
    said_bearing = any(token.text in BEARING_WORDS for token in at.found[start : at.i])
    heard.lines.append(Line(what, at.checked(deg), ident, kind, either=what == COURSE and said_bearing))
    return True


def _radial_and_distance(at: Cursor, heard: Heard, ident: str, kind: str) -> bool:
    """045/17, /045/17 or 045017 after an ident."""
    here = at.i
    at.take("/")
    radial = at.number()
    if radial is not None and radial.figures:
        distance = at.number() if at.take("/") else None
        deg, nm = radial.value, distance.value if distance else 0.0
        if not distance and len(radial.figures) == 6:
            deg, nm = float(radial.figures[:3]), float(radial.figures[3:])
        if nm:
            at.take("dme", "nm")
            heard.lines.append(Line(RADIAL, at.checked(deg), ident, kind))
            heard.distances.append(Distance(nm, "", ident))
            return True
    at.i = here
    return False


def _angle(at: Cursor, ident: str) -> tuple[str, float] | None:
    """A radial, bearing or course; ident, the navaid that was said before it."""
    start = at.i
    for read in (_number_first, _word_first):
        found = read(at, bool(ident))
        if found is not None:
            return found
        at.i = start
    return None


def _number_first(at: Cursor, owned: bool) -> tuple[str, float] | None:
    deg = at.degrees()
    if deg is None:
        return None
    if at.take("radial", "radials", "rad", "r"):
        return RADIAL, deg
    side = _SIDES.get(at.take("inbound", "outbound", "inbd", "outbd"), "")
    if at.take_of(BEARING_WORDS):
        return _bearing(at, deg, owned)
    if at.take_of(COURSE_WORDS):
        side = side or _SIDES.get(at.take("inbound", "outbound", "inbd", "outbd"), "")
        return side or COURSE, deg
    return (side, deg) if side else None


def _word_first(at: Cursor, owned: bool) -> tuple[str, float] | None:
    if at.take("radial", "r"):
        at.take("-")
        deg = at.degrees()
        return None if deg is None else (RADIAL, deg)
    if at.word() in ("qdm", "qdr"):
        to = at.take("qdm", "qdr") == "qdm"
        deg = at.degrees()
        return None if deg is None else (BEARING, deg + 180.0 if to and deg <= 180.0 else deg - 180.0 * to)
    side = _SIDES.get(at.take("inbound", "outbound", "inbd", "outbd"), "")
    if at.take_of(BEARING_WORDS):
        at.skip("of", "is")
        deg = at.degrees()
        return None if deg is None else _bearing(at, deg, owned)
    named = at.take_of(COURSE_WORDS)
    if not (side or named):
        return None
    at.skip("of", "is", ":")
    deg = at.degrees()
    if deg is None:
        return None
    here, after = at.i, _SIDES.get(at.take("inbound", "outbound", "inbd", "outbd"), "")
    if at.number():
        here, after = here, ""
    at.i = here + bool(after)
    return side or after or COURSE, deg


def _bearing(at: Cursor, deg: float, owned: bool) -> tuple[str, float]:
    """A bearing from a station, or to it; without either word whichever the direction says."""
    if at.word() in ("from", "of") or owned:
        return BEARING, deg
    if at.word() == "to" and deg <= 360.0:
        return BEARING, (deg + 180.0) % 360.0
    return COURSE, deg


def bearing_to(at: Cursor, heard: Heard) -> bool:
    """The navaid after 'bearing to'."""
    if heard.lines and heard.lines[-1].kind == BEARING and not heard.lines[-1].ident and at.take("to"):
        place = at.place(True)
        if place:
            heard.lines[-1] = Line(BEARING, heard.lines[-1].deg, *place)
        return True
    return False


def between(at: Cursor, heard: Heard) -> bool:
    """Between 17 and 22 DME; between D17 and D22."""
    start = at.i
    if not at.take("between"):
        return False
    one = _end(at)
    if not one or not at.take("and"):
        return False
    other = _end(at)
    if not other or not (one[1] or other[1]):
        return False
    if one[0] == other[0]:
        raise RefusedError(f"“{at.quote(start, at.i - 1)}” leaves no leg")
    heard.put("between", (one[0], other[0]), at.quote(start, at.i - 1))
    heard.wording.add("icao")
    at.take("fix", "fixes")
    ident, _ = at.owner()
    if ident:
        heard.places.append(("bare", ident, ""))
    return True


def _end(at: Cursor) -> tuple[float, str] | None:
    """One end of a leg: 17, 17 DME, D17."""
    at.skip("the")
    before = "dme" if at.take("dme", "d") else ""
    found = at.number()
    return (found.value, _mile(at) or before) if found else None


def outbound_end(at: Cursor, heard: Heard) -> bool:
    """Outbound to 22 DME; legs to 22 DME: where the leg ends, not how long it is."""
    start = at.i
    outbound = at.take("outbound", "outbd")
    if not (at.take_of(LEG) or outbound):
        return False
    if not at.take("to", "until", "till", "limit", "end", "ends"):
        return False
    at.skip("at", "of", "is", "the")
    end = _end(at)
    if not end or not end[1]:
        return False
    at.take("fix")
    heard.put("outbound_end", end[0], at.quote(start, at.i - 1))
    return True


def distance(at: Cursor, heard: Heard, after_line: bool) -> bool:
    """17 DME; DME 17; the OBL 17 DME fix; 17 mile fix; 17 miles from OBL."""
    start = at.i
    ident = ""
    found = _distance(at, after_line)
    if found is None:
        at.i = start
        place = at.place(True)
        found = _distance(at, False) if place else None
        if found is None:
            return False
        ident = place[0]
    at.take("fix", "arc")
    if not ident:
        ident, _ = at.owner()
    heard.distances.append(Distance(found[0], found[1], ident))
    return True


def _distance(at: Cursor, after_line: bool) -> tuple[float, str] | None:
    if at.take("dme", "d"):
        found = at.number()
        at.take_of(MILE)
        return (found.value, "dme") if found else None
    found = at.number()
    unit = _mile(at) if found else ""
    if unit == "mile":
        one = at.found[at.i - 1].text == "mile" and found.value != 1.0
        if at.word() not in ("fix", "arc", "from", "on", "out", "along") and (one or not after_line):
            return None
    at.take("out")
    return (found.value, unit) if found and unit else None


def direction(at: Cursor, heard: Heard, after_hold: bool) -> bool:
    """Northeast of, north-east, NE."""
    start = at.i
    point = at.direction()
    if not point:
        return False
    if at.i == start + 1 and len(at.found[start].text) == 1 and not (after_hold or at.word() == "of"):
        return False
    heard.put("direction", point, at.quote(start, at.i - 1))
    if at.word() == "of":
        heard.wording.add("weak faa")
    return True


def present(at: Cursor, heard: Heard) -> bool:
    """On present course; along your current track."""
    start = at.i
    if not at.take("present", "current"):
        return False
    if at.take("position"):
        raise RefusedError(f"“{at.quote(start, at.i - 1)}” is no fix; say a navaid, or “on present course” to one")
    if not at.take_of(_FLOWN):
        return False
    deg = at.degrees()
    heard.lines.append(Line(PRESENT) if deg is None else Line(COURSE, at.checked(deg)))
    if at.found[start + 1].text == "heading":
        heard.assumed.append("the present heading is taken as the present course")
    return True


def published(at: Cursor, heard: Heard) -> bool:
    """As published."""
    at.take("as")
    if not at.take("published", "charted", "depicted"):
        return False
    heard.single["published"] = True
    return True


def place(at: Cursor, heard: Heard, role: str) -> bool:
    """A navaid by its ident or name."""
    found = at.place(bool(role))
    if not found:
        return False
    heard.places.append((role or "bare", *found))
    return True


def hold(at: Cursor, heard: Heard) -> bool:
    """The verb."""
    if not at.take_of(HOLD):
        return False
    at.take("pattern", "racetrack", "circuit")
    heard.single["hold"] = True
    return True
