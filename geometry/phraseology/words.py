"""Words of holding clearances: the tables that writing and reading share.

Sources: FAA AIM 5-3-8 i and j.2(c) and Order 7110.65 4-6-1 and 4-6-4 for FAA wording; ICAO Doc 4444, 12.3 (from
memory) for ICAO wording; figures and letters ICAO Annex 10 Vol II, 5.2.1 (from memory) and FAA AIM 4-2-7 to 4-2-12;
the other variants are common practice.
"""

from __future__ import annotations

from .octants import NAMES, OCTANTS

DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "niner")
"""Figures as they are spoken on the radio."""
POINT = {"faa": "point", "icao": "decimal"}

UNITS = {word: value for value, word in enumerate(DIGITS)}
UNITS.update({"oh": 0, "nine": 9, "wun": 1, "too": 2, "tree": 3, "fower": 4, "fife": 5, "ait": 8})
TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip

ALPHABET = (
    "alfa", "bravo", "charlie", "delta", "echo", "foxtrot", "golf", "hotel", "india", "juliett", "kilo", "lima", "mike",
    "november", "oscar", "papa", "quebec", "romeo", "sierra", "tango", "uniform", "victor", "whiskey", "xray",
    "yankee", "zulu",
)  # fmt: skip
LETTERS = {word: word[0] for word in ALPHABET}
LETTERS.update(alpha="a", juliet="j", whisky="w")

DIRECTIONS = {(name,): point for name, point in zip(NAMES, OCTANTS)}
DIRECTIONS.update({(point.lower(),): point for point in OCTANTS})
for _point, _name in zip(OCTANTS, NAMES):
    if len(_point) == 2:
        DIRECTIONS[(_name[:5], _name[5:])] = _point
DIRECTIONS.update({(name + "ern",): point for name, point in zip(NAMES, OCTANTS)})

KINDS = {
    ("vor",): "VOR", ("vortac",): "VOR", ("vor", "/", "dme"): "VOR", ("vor", "-", "dme"): "VOR", ("omni",): "VOR",
    ("tacan",): "TACAN", ("ndb",): "NDB", ("beacon",): "NDB", ("locator",): "NDB",
    ("non", "-", "directional", "beacon"): "NDB", ("nondirectional", "beacon"): "NDB", ("radio", "beacon"): "NDB",
    ("intersection",): "", ("waypoint",): "", ("wpt",): "", ("fix",): "", ("station",): "", ("navaid",): "",
    ("int",): "",
}  # fmt: skip
"""What a navaid may be called. A VORTAC and a VOR/DME count as VOR, so that either word finds either."""

MILE = {"mile", "miles", "nm", "nmi", "mi"}
MINUTE = {"minute", "minutes", "min", "mins"}
SECOND = {"second", "seconds", "sec", "secs"}
LEG = {"leg", "legs"}
FEET = {"feet", "ft", "foot"}
KNOTS = {"knot", "knots", "kt", "kts", "kias"}
DEGREES = {"degree", "degrees", "deg"}
UTC = {"z", "zulu", "utc", "gmt"}
COURSE = {"course", "crs", "track", "trk"}
BEARING = {"bearing", "brg"}
PATTERN = {"turn", "turns", "pattern", "patterns", "circuit", "circuits", "racetrack", "hold", "holding"}
TURNS = {"left": "left", "right": "right", "lefthand": "left", "righthand": "right", "lh": "left", "rh": "right"}
HOLD = {"hold", "holding", "holds"}
NEEDS_LEVEL = {"maintain", "climb", "descend"}
STARTS = HOLD | NEEDS_LEVEL | {"cleared", "proceed", "enter"}
STOPS = {
    "not", "dont", "don", "cancel", "cancelled", "disregard", "negative", "correction", "unable", "unless", "or",
    "either", "if", "except", "instead", "never", "no", "neither",
}  # fmt: skip
"""Words that turn the meaning of the others round: what they leave is not guessed."""
ROUTES = {"airway", "victor", "jet", "v", "j", "localizer", "localiser", "ils", "route", "sid", "star"}
FILLERS = {
    "the", "a", "an", "at", "on", "and", "of", "in", "to", "with", "by", "is", "be", "your", "you", "it", "that",
    "then", "please", "over", "overhead", "direct", "via", "from", "this", "all", "using", "make", "fly", "as",
    "for", "limit", "clearance", "enter", "established", "also", "located", "lies", "lie", "which", "inbound", "along",
    "upon", "reaching", "arrival", "fix", "point", "position", "where", "crosses", "meets", "intersects",
    "intersection", "crossing", "waypoint", "station", "vor", "standard", "magnetic", "hand", "roger", "good", "now",
    "go", "ahead", "copy", "intersecting", "revised",
}  # fmt: skip
"""Words that carry nothing of their own where they stand alone."""
BEFORE = {("before",): "before", ("short", "of"): "before", ("prior", "to"): "before", ("this", "side", "of"): "before",
          ("ahead", "of"): "before", ("beyond",): "beyond", ("past",): "beyond", ("after",): "beyond",
          ("the", "far", "side", "of"): "beyond"}  # fmt: skip

VOCABULARY = (
    set(UNITS) | set(TEENS) | set(TENS) | MILE | MINUTE | SECOND | LEG | FEET | KNOTS | DEGREES | UTC | COURSE | BEARING
    | PATTERN | set(TURNS) | STARTS | STOPS | FILLERS | {"hundred", "thousand", "point", "decimal", "half", "radial",
    "dme", "r", "d", "fl", "flight", "level", "efc", "eat", "eac", "expect", "expected", "leave", "depart", "time",
    "maximum", "max", "speed", "airspeed", "present", "current", "block", "between", "through", "qdm", "qdr",
    "outbound", "published", "charted", "nonstandard", "airway", "localizer", "localiser", "ils", "delay", "true",
    "until", "till", "further", "heading", "vector", "vectors", "anticipate", "request", "requesting",
    "cross", "report", "squawk", "contact", "radar", "reduce", "increase", "resume", "continue", "when"}
    | {word for phrase in (*KINDS, *DIRECTIONS, *BEFORE) for word in phrase}
)  # fmt: skip
"""Words that are no name of a navaid unless they stand where only a name can."""
