"""What entries to an ICAO hold need beyond the template: its moves by E, and steps of our own.

The document draws, for entries from everywhere, the template moved with its point E round the circle through the
corners of the fix tolerance area, and turned templates for the sectors; of these the list of curves could not be seen.
STEPS says which step is whose, so that the document's own can take a step's place in this file alone.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .. import entries
from ..angles import cosd, sind
from . import shapes
from .icao_lines import DOC


class Step(NamedTuple):
    """A step of the entry area: name, what it adds, source, mark."""

    name: str
    text: str
    source: str
    mark: str


_APP_C = f"{DOC}, Part I, Section 4, Chapter 3, Appendix C, 3.3.3.2"
_OURS = "derived here from the template's own tolerances, see DEVELOPERS.md"
STEPS = (
    Step("E", "template moved with E round the circle through the tolerance area's corners", _APP_C, "from memory"),
    Step("E on C", "template moved as far on the C axis alone: offset and direct entries do not stray on D", _OURS,
         "derived here"),
    Step("first turns", "turn to the outbound heading from every arrival heading, right and left, from point c", _OURS,
         "derived here"),
    Step("entry legs", "end of the outbound leg of an offset entry flown 5 degrees off to either side, of a parallel "
         "one flown 5 degrees outwards, and the turn from there", _OURS, "derived here"),
    Step("shifted turn", "inbound turn after a direct entry, whose outbound leg lies nearer the axis than that of the "
         "template", _OURS, "derived here"),
)  # fmt: skip


class _Leg(NamedTuple):
    """A limit of the outbound leg of an entry: heading; seconds by which flight and wind of the leg differ from what XE
    and YE count; the longest leg, s."""

    heading_deg: float
    later_s: float
    wind_later_s: float
    longest_s: float


_OFFSET_DEG, _LONGEST_S = 180.0 - entries.OFFSET_DEG, entries.ICAO_LONGEST_OFFSET_S
_LEGS = {
    entries.TEARDROP: (
        _Leg(_OFFSET_DEG - 5.0, 6.0, -6.0, _LONGEST_S + 21.0),
        _Leg(_OFFSET_DEG + 5.0, 6.0, -6.0, _LONGEST_S + 21.0),
        _Leg(_OFFSET_DEG + 5.0, -20.0, -20.0, _LONGEST_S - 5.0),
    ),
    entries.PARALLEL: (_Leg(175.0, 6.0, -6.0, np.inf),),
}
"""As the template has them: latest i2 and i4, (t + 21) v and with start and first turn t + 20 s of wind; earliest i3,
(t - 5) v and t + 6 s. Parallel ones are mirrored."""
_INBOUND = {entries.TEARDROP: (1, 360.0), entries.PARALLEL: (-1, 405.0)}
"""Way of the turn inbound after these, and its end."""


ALONG_INBOUND_DEG = 5.0
ALONG_INBOUND_SOURCE = (
    f"{DOC}, p. I-4-3-App C-16 case 1.1 a): entry along the inbound track needs no more area; 5 degrees, the tolerance "
    "of a heading, derived here"
)
NOTE = (
    "entry area: moves of E from memory of ICAO Doc 8168 Vol II, I-4-3-App C, the other curves derived here; uniform "
    "flights stay inside as they do in the template"
)


class Arrivals(NamedTuple):
    """Arrivals to protect of N holds: everywhere (N,) of bool, or headings in the frame (N, K), NaN for none."""

    everywhere: np.ndarray
    heading_deg: np.ndarray

    @classmethod
    def of(cls, arrivals: list) -> Arrivals:
        """From a design's list: None for everywhere, else an array of headings."""
        given = [np.zeros(0) if a is None else np.atleast_1d(np.asarray(a, dtype=np.float64)) for a in arrivals]
        most = max((len(g) for g in given), default=0)
        headings = np.full((len(given), most), np.nan)
        for i, g in enumerate(given if most else []):
            headings[i, : len(g)] = g
        return cls(np.array([a is None for a in arrivals], dtype=bool), np.mod(headings + 180.0, 360.0) - 180.0)

    def any(self) -> np.ndarray:
        """Whether a hold has an arrival that needs more than the template."""
        return self.everywhere | (np.abs(self.heading_deg) > ALONG_INBOUND_DEG).any(axis=1)


class Sector(NamedTuple):
    """Headings of one kind of entry, from and to, mirrored for a turn away from the holding side; where there is one.
    (N,) each."""

    from_deg: np.ndarray
    to_deg: np.ndarray
    given: np.ndarray


def sectors(arrivals: Arrivals, kind: int) -> list[Sector]:
    """The sector of one kind whole where arrivals come from everywhere, and each arrival that may enter so."""
    free = entries.FREEDOM_DEG
    sector = entries.SECTORS[kind]
    low, high = sector.from_deg - free, sector.to_deg + free
    if kind == entries.PARALLEL:
        low, high = 360.0 - high, 180.0
    out = []
    nobody = np.full(len(arrivals.everywhere), np.nan)
    for k, heading in enumerate([nobody, *arrivals.heading_deg.T]):
        found = entries.entry(heading, 0.0, 1)
        given = ((found.entry == kind) | (found.also == kind)) & ~(np.abs(heading) <= ALONG_INBOUND_DEG)
        if kind == entries.PARALLEL:
            # Beyond the reciprocal of the inbound course the turn is a few degrees the other way: as if from there.
            heading = np.where(heading > 0.0, 180.0, -heading)
        elif kind == entries.TEARDROP:
            heading = np.mod(heading, 360.0)
        heading = np.where(given, heading, 0.0)
        whole = arrivals.everywhere if k == 0 else np.zeros_like(arrivals.everywhere)
        out.append(Sector(np.where(whole, low, heading), np.where(whole, high, heading), given | whole))
    return [one for one in out if one.given.any()]


class Run(NamedTuple):
    """The outbound leg as XE and YE count it: straight distance, how far aside, and seconds of wind. (N,) each."""

    along_nm: np.ndarray
    aside_nm: np.ndarray
    wind_s: np.ndarray


def timed_run(values: dict[str, np.ndarray]) -> Run:
    """The outbound leg of a timed hold: t + 15 s of flight and of wind, spread by 5 degrees of heading."""
    seconds = values["t"] + 15.0
    along = seconds * values["v"]
    return Run(along, along * np.tan(np.radians(5.0)), seconds)


def strays(values: dict[str, np.ndarray], run: Run, arrivals: Arrivals) -> tuple[np.ndarray, np.ndarray]:
    """Greatest displacement on the C and the D axis that arrivals need: XE and YE for arrivals from everywhere.

    For single arrivals XE and YE are counted with their heading in place of the 90 and 70 degrees of the document, and
    never exceed them. Returns: (N,), (N,) NM. Source: lines XE, YE (from memory); other headings derived here.
    """
    v, r, rate, w = values["v"], values["r"], values["R"], values["w'"]
    on_c = np.where(arrivals.everywhere, values["XE"], 0.0)
    on_d = np.where(arrivals.everywhere, values["YE"], 0.0)
    for kind in range(len(entries.ENTRIES)):
        for one in sectors(arrivals, kind):
            a, single = one.to_deg, one.given & ~arrivals.everywhere
            if kind == entries.DIRECT:
                c = r * sind(a) + r + run.along_nm + (11.0 + run.wind_s + (285.0 - a) / rate) * w
                d = np.zeros_like(c)
            elif kind == entries.PARALLEL:
                c = r * sind(a) + r + run.along_nm + (11.0 + run.wind_s + (285.0 - a) / rate) * w
                d = 11.0 * v * sind(a) + r * (1.0 + cosd(a)) + run.aside_nm
                d = d + (11.0 + run.wind_s + (195.0 - a) / rate) * w
            else:
                turned = np.abs(150.0 - a)
                c = r * np.abs(0.5 - sind(a)) + 1.5 * r + run.along_nm * cosd(30.0)
                c = c + (11.0 + run.wind_s + (turned + 135.0) / rate) * w
                d = np.zeros_like(c)
            c = np.minimum(c - 11.0 * v * cosd(a), values["XE"])
            on_c = np.where(single, np.fmax(on_c, c), on_c)
            on_d = np.where(single, np.fmax(on_d, np.minimum(d, values["YE"])), on_d)
    return on_c, on_d


def moves(template: shapes.Reach, values, run: Run, arrivals: Arrivals, fix: shapes.Reach, circle_nm) -> shapes.Reach:
    """Where the template's origin goes for entries: steps E and E on C.

    Parameters: template, the template's Reach; fix, the tolerance area's; circle_nm (N,), the radius of the circle
    round the fix through its corners, used for arrivals from everywhere; single arrivals keep to the area itself.
    """
    count = len(circle_nm)
    every = np.arange(count)
    on_c, on_d = strays(values, run, arrivals)
    out_c = template(every, shapes.Ways.of(np.full(count, np.pi))).height
    out_d = template(every, shapes.Ways.of(np.full(count, 1.5 * np.pi))).height
    du, ds = -np.maximum(on_c - out_c, 0.0), -np.maximum(on_d - out_d, 0.0)
    nothing, single = np.zeros(count), np.where(arrivals.everywhere, 0.0, 1.0)
    # Single arrivals keep to the tolerance area, and may each stray on one axis only.
    places = [(nothing, nothing), (du, nothing), (nothing, single * ds), (du, single * ds)]
    u, s = (np.stack(side, axis=1) for side in zip(*places))
    round_circle = shapes.Discs(du[:, None], ds[:, None], np.asarray(circle_nm)[:, None])
    over_area = shapes.Sum(fix, shapes.Discs(u, s, 0.0))
    return shapes.Hull(over_area, shapes.OnlyWhere(arrivals.everywhere, round_circle))


class _Fan(NamedTuple):
    """Constants of first turns from headings low to high of N holds: run to c, radius, drift a radian, and by angle
    addition what is needed without a sine for each direction."""

    run: np.ndarray
    radius: np.ndarray
    growth: np.ndarray
    low: np.ndarray
    high: np.ndarray
    reach: np.ndarray
    lag: np.ndarray
    best: np.ndarray

    @classmethod
    def of(cls, values, low_rad, high_rad) -> _Fan:
        """From the lines of N templates. At heading a the turn's centre lies run along it and radius abeam: reach
        away, tilt ahead of it; its height, less growth a, is greatest lag short of that."""
        run, r, growth = values["ac"], values["r"], np.degrees(values["E45"] / 45.0)
        reach = np.hypot(run, r)
        lag = np.arctan2(r, run) + np.arcsin(np.clip(growth / reach, 0.0, 1.0))
        best = np.sqrt(np.maximum(reach**2 - growth**2, 0.0))
        return cls(run, r, growth, np.asarray(low_rad, float), np.asarray(high_rad, float), reach, lag, best)

    def centre(self, angle) -> tuple[np.ndarray, np.ndarray]:
        """Centre of the turn begun at c after arriving on a heading, for each hold."""
        c, s = np.cos(angle), np.sin(angle)
        return self.run * c - self.radius * s, self.run * s + self.radius * c

    def peak(self, rows, alpha, low, high) -> tuple[np.ndarray, np.ndarray]:
        """Heading whose centre, less its drift, reaches farthest in a direction, and whether it is between two."""
        angle = low + np.mod(alpha - self.lag[rows] - low, 2.0 * np.pi)
        return angle, angle <= high


def first_turns(values: dict[str, np.ndarray], from_deg, to_deg, way: int = 1) -> shapes.Reach:
    """Turns to the outbound heading from all arrival headings between two, begun at c, 11 s after the fix.

    Place without wind at heading psi after arriving at a: 11 v (cos a, sin a) + r (sin psi - sin a, cos a - cos psi),
    wind radius Wc + (psi - a) E. The reach is a part of a plus a part of psi, each greatest at an end or where its own
    slope is 0; where that would turn backwards, the turn has not begun: a disc of radius Wc at c.
    Parameters: values, lines of N templates; from_deg, to_deg (N,), 0 to 180 to the holding side, negative beyond
    it; way -1 mirrors all to the other side (parallel entries). Derived here.
    """
    fan = _Fan.of(values, np.radians(from_deg), np.minimum(np.radians(to_deg), np.pi))
    wind = values["Wc"]
    with np.errstate(invalid="ignore"):
        beam = np.arccos(np.clip(-fan.growth / fan.radius, -1.0, 1.0))
    ends = [(angle, *fan.centre(angle)) for angle in (fan.low, fan.high)]
    at_c = shapes.Discs(
        np.stack([fan.run * np.cos(a) for a in (fan.low, fan.high)], axis=1),
        way * np.stack([fan.run * np.sin(a) for a in (fan.low, fan.high)], axis=1),
        np.stack([wind, wind], axis=1),
    )
    out_of_turn = np.sqrt(np.maximum(fan.radius**2 - fan.growth**2, 0.0))

    def reach(rows, ways):
        alpha, side = way * ways.alpha_rad, way * ways.sin
        low, high, e, r = fan.low[rows], fan.high[rows], fan.growth[rows], fan.radius[rows]
        arrive, between = fan.peak(rows, alpha, low, high)
        headings = [(np.where(between, arrive, low), np.where(between, fan.best[rows] - e * arrive, -np.inf))]
        for angle, u, s in ends:
            headings.append((angle[rows], u[rows] * ways.cos + s[rows] * side - e * angle[rows]))
        peak = low + np.mod(alpha + beam[rows] - low, 2.0 * np.pi)
        turned = [(peak, np.where(peak <= np.pi, out_of_turn[rows] + e * peak, -np.inf)),
                  (np.full_like(peak, np.pi), r * side + e * np.pi)]  # fmt: skip
        best, best_a, best_psi = np.full(len(rows), -np.inf), low, low
        for a, part in headings:
            for psi, other in turned:
                height = np.where(psi >= a, part + other, -np.inf)
                better = height > best
                best = np.where(better, height, best)
                best_a, best_psi = np.where(better, a, best_a), np.where(better, psi, best_psi)
        u, s = _on_turn(fan, rows, best_a, best_psi)
        w = wind[rows] + e * (best_psi - best_a)
        turn = shapes.Touch(
            u * ways.cos + s * side + w, u + w * ways.cos, way * s + w * ways.sin
        )  # fmt: skip
        # Straight after the fix: c on the heading that points that way.
        ahead = low + np.mod(alpha - low, 2.0 * np.pi) <= high
        w = fan.run[rows] + wind[rows]
        straight = shapes.Touch(np.where(ahead, w, -np.inf), w * ways.cos, w * ways.sin)
        return shapes.farther(shapes.farther(turn, at_c(rows, ways)), straight)

    return reach


def entry_legs(
    values: dict[str, np.ndarray], run: Run, from_deg, to_deg, kind: int, step_deg: float = 1.0
) -> shapes.Reach:
    """Ends of the outbound leg of an entry, and the turns inbound from there, after arriving on all headings between
    two.

    All turn alike from the last of their outbound headings on; before it they are at most 10 degrees apart. Between
    the two headings the places of the legs differ by the arc of the first turns' centres, up to the first outbound
    heading; what little of it lies beyond is left to the two ends.
    Parameters: from_deg, to_deg (N,), 105 to 185 for an offset entry, 65 to 180, mirrored as first_turns, for a
    parallel one; kind, of _LEGS. Derived here.
    """
    way, end = _INBOUND[kind]
    arrive_deg = np.stack([from_deg, to_deg], axis=1)
    first = np.radians(np.maximum(from_deg, np.minimum(to_deg, min(leg.heading_deg for leg in _LEGS[kind]))))
    fan = _Fan.of(values, np.radians(from_deg), first)
    common = max(leg.heading_deg for leg in _LEGS[kind])
    column = {name: values[name][:, None] for name in ("v", "w'", "r", "ac", "Wc", "E45")}
    v, w, r, e = column["v"], column["w'"], column["r"], column["E45"] / 45.0
    begun, turned, shifts, on_shifts = [], [], [], []
    for leg in _LEGS[kind]:
        heading = leg.heading_deg
        back = r * np.sign(heading - arrive_deg)  # an arrival beyond the track turns back to it
        along = np.clip(run.along_nm[:, None] + leg.later_s * v, 0.0, leg.longest_s * v)
        blown = column["Wc"] + np.clip(run.wind_s[:, None] + leg.wind_later_s, 0.0, leg.longest_s) * w
        wind = blown + np.abs(heading - arrive_deg) * e
        u = column["ac"] * cosd(arrive_deg) + back * (sind(heading) - sind(arrive_deg)) + along * cosd(heading)
        s = column["ac"] * sind(arrive_deg) + back * (cosd(arrive_deg) - cosd(heading)) + along * sind(heading)
        begun.append((u, way * s, wind))
        on = (r * (sind(common) - sind(heading)), r * (cosd(heading) - cosd(common)), (common - heading) * e)
        turned.append((u + on[0], way * (s + on[1]), wind + on[2]))
        u, s = r * sind(heading) + along * cosd(heading), along * sind(heading) - r * cosd(heading)
        shifts.append((u, way * s, blown + heading * e))
        on_shifts.append((u + on[0], way * (s + on[1]), blown + common * e))
    nothing = np.zeros_like(values["v"])
    turn = shapes.Turn(
        nothing, nothing, way * common, way, values["r"], 0.0, values["E45"] / 45.0, 0.0, end - common, step_deg
    )
    begun, turned, shifts, on_shifts = (
        shapes.Discs(*[np.concatenate(parts, axis=1) for parts in zip(*of)])
        for of in (begun, turned, shifts, on_shifts)
    )
    wide = fan.low < fan.high
    if wide.any():
        arc = shapes.OnlyWhere(wide, _arc(fan, way))
        begun = shapes.Hull(begun, shapes.Sum(arc, shifts))
        turned = shapes.Hull(turned, shapes.Sum(arc, on_shifts))
    return shapes.Hull(begun, shapes.Sum(turned, shapes.turning(turn, len(nothing))))


def _on_turn(fan: _Fan, rows, arrive, heading) -> tuple[np.ndarray, np.ndarray]:
    """Place on a turn, without wind."""
    c, s = np.cos(arrive), np.sin(arrive)
    r, run = fan.radius[rows], fan.run[rows]
    return run * c + r * (np.sin(heading) - s), run * s + r * (c - np.cos(heading))


def shifted_turns(values: dict[str, np.ndarray], from_deg, to_deg) -> shapes.Reach:
    """By how much a direct entry shifts the inbound turn, and the wind that its first turn adds or, shorter than the
    template's, takes away.

    Parameters: as first_turns. Derived here.
    """
    fan = _Fan.of(values, np.radians(from_deg), np.radians(to_deg))
    return shapes.Sum(_arc(fan), shapes.Discs(-fan.run[:, None], -fan.radius[:, None], 0.0))


def _arc(fan: _Fan, way: int = 1) -> shapes.Reach:
    """Centres of the first turns, each with the wind that its turn takes away: a disc of radius -growth a.

    Heights may be those of negative radii: it is there to be added to. way -1 mirrors it to the other side.
    """
    ends = [(*fan.centre(angle), -fan.growth * angle) for angle in (fan.low, fan.high)]
    u, s, radius = (np.stack(parts, axis=1) for parts in zip(*ends))
    at_ends = shapes.Discs(u, way * s, radius)

    def reach(rows, ways):
        touch = at_ends(rows, ways)
        angle, between = fan.peak(rows, way * ways.alpha_rad, fan.low[rows], fan.high[rows])
        at = np.flatnonzero(between)
        if len(at):
            rows, angle = rows[at], angle[at]
            cos, sin, run, r = ways.cos[at], ways.sin[at], fan.run[rows], fan.radius[rows]
            c, s, w = np.cos(angle), np.sin(angle), -fan.growth[rows] * angle
            u, s = run * c - r * s, way * (run * s + r * c)
            height = u * cos + s * sin + w
            better = height > touch.height[at]
            for part, new in zip(touch, (height, u + w * cos, s + w * sin)):
                part[at[better]] = new[better]
        return touch

    return reach


def whole(
    template: shapes.Reach,
    inbound: shapes.Reach,
    values: dict[str, np.ndarray],
    run: Run,
    arrivals: Arrivals,
    fix: shapes.Reach,
    circle_nm: np.ndarray,
    step_deg: float = 1.0,
) -> shapes.Reach:
    """Basic area and what the entries need, joined by common tangents.

    Parameters: template over a point fix; inbound, its inbound turn; values, run, arrivals of N holds; fix,
    the tolerance area; circle_nm (N,). A hold without an arrival that needs more keeps its basic area.
    Source: STEPS.
    """
    parts = []
    for kind, way in ((entries.DIRECT, 1), (entries.PARALLEL, -1)):
        for one in sectors(arrivals, kind):
            parts.append(shapes.OnlyWhere(one.given, first_turns(values, one.from_deg, one.to_deg, way)))
            if kind == entries.DIRECT:
                shifted = shifted_turns(values, one.from_deg, one.to_deg)
                parts.append(shapes.OnlyWhere(one.given, shapes.Sum(inbound, shifted)))
    for kind in _LEGS:
        for one in sectors(arrivals, kind):
            legs = entry_legs(values, run, one.from_deg, one.to_deg, kind, step_deg)
            parts.append(shapes.OnlyWhere(one.given, legs))
    moved = shapes.Sum(template, moves(template, values, run, arrivals, fix, circle_nm))
    return shapes.Hull(moved, shapes.Sum(shapes.Hull(*parts), fix)) if parts else moved
