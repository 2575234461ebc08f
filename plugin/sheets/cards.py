"""The set-up card of a hold: what to set in whatever is in the panel, what must be seen, the trap, the way on."""

from __future__ import annotations

import datetime
import math

from ...algorithms.common.texts import tr
from ...geometry import geodesy, magnetism, navaids, setup_card, text
from ..styles import inks
from . import blocks, figures, holdpage, page
from .blocks import Block, Item
from .content import Content, station
from .figures import Row
from .page import Sheet, line_height

WORD_MM = 11.0
"""Room for the word that says what a sentence is."""


def put(sheet: Sheet, content: Content, hold: Row) -> None:
    """A hold's card: on the left how the point is made, on the right how the hold is flown."""
    paper = sheet.paper
    sheet.new_page()
    y = holdpage.head(sheet, content, hold)
    words = content.aircraft.get(hold.word("aircraft").casefold(), "")
    points, ways = setup_card.equipment(words)
    facts = facts_of(content, hold)
    panel = (
        tr("In the panel of the {}: {}.").format(hold.word("aircraft"), words)
        if words
        else tr("No equipment is given for the aircraft, so all ways are shown.")
    )
    sheet.text(paper.left, y, panel)
    y += line_height(inks.TEXT_PT) + 1.5
    made = setup_card.point_parts(facts, points)
    lacking = not made
    if lacking:
        made = setup_card.point_parts(facts)
    columns = (
        (tr("How the point is made"), made),
        (tr("How the hold is flown"), setup_card.hold_parts(facts, ways)),
    )
    for number, (head, parts) in enumerate(columns):
        x, width, here = paper.column(6 * number), paper.span(6), y
        sheet.text(x, here, head, inks.FIGURE_PT, bold=True)
        here += line_height(inks.FIGURE_PT) + 1.0
        if number == 0 and lacking:
            none = tr("Nothing in this panel makes this point. What would:")
            here = blocks.put(sheet, Block("", [Item(none, bold=True)]), x, here, width)
        for part in parts:
            here = _part(sheet, part, x, here, width)


def _part(sheet: Sheet, part: setup_card.Part, x: float, y: float, width: float) -> float:
    """One way: its name, then what to set, to see, to beware of and to do after, each beside its word."""
    sheet.text(x, y, tr(setup_card.TITLES[part.way]), bold=True)
    y += line_height(inks.TEXT_PT) + 0.4
    named = (tr("Set"), part.set), (tr("See"), part.see), (tr("Trap"), part.trap), (tr("Then"), part.onward)
    for name, said in named:
        if said:
            sheet.text(x, y, name, ink=inks.GREY)
            y = sheet.texts(x + WORD_MM, y, page.wrapped(said, width - WORD_MM, inks.TEXT_PT)) + 0.8
    return y + 3.0


def facts_of(content: Content, hold: Row) -> setup_card.Facts:
    """What the card needs of a hold."""
    kind = hold.word("navaid_kind")
    fix = content.fix_row(hold)
    at = station(hold) or (math.nan, math.nan)
    lon, lat = hold.number("lon"), hold.number("lat")
    bearing = math.nan
    if math.isfinite(at[0]):
        bearing = float(geodesy.inverse(lon, lat, *at)[0])
    along = fix.word("method") == "along_track"
    travels = fix.number("course_true_deg")
    ahead = abs((bearing - travels + 180.0) % 360.0 - 180.0) < 90.0
    flown = sorted(content.rows("flown", hold), key=lambda row: row.number("circuit"))
    circuit = next((row for row in flown if row.number("circuit") == 1.0), Row())
    entered = next(iter(content.rows("entries", hold)), Row())
    return setup_card.Facts(
        ident=hold.word("navaid"),
        gives_radial=bool(kind) and bool(navaids.gives_radials(kind)),
        gives_bearing=bool(kind) and bool(navaids.gives_radials(kind) or navaids.gives_bearings(kind)),
        on_track=along,
        side=tr("before") if ahead else tr("beyond"),
        radial_station_deg=hold.number("radial_deg"),
        radial_model_deg=_by_model(hold, at),
        ground_nm=hold.number("dist_nm"),
        slant_nm=hold.number("dme_nm") if kind and navaids.gives_range(kind) else math.nan,
        second=_second(hold),
        lon=lon,
        lat=lat,
        station_lon=at[0],
        station_lat=at[1],
        decl_deg=hold.number("navaid_decl_deg"),
        inbound_model_deg=hold.number("inbound_model_deg"),
        inbound_selector_deg=hold.number("inbound_station_deg") if figures.has_selector(hold) else math.nan,
        outbound_model_deg=hold.number("outbound_model_deg"),
        turn=figures.turns(hold),
        leg=figures.leg(hold),
        heading_out_deg=math.nan if figures.is_calm(flown) else circuit.number("outbound_heading_deg"),
        heading_in_deg=math.nan if figures.is_calm(flown) else circuit.number("inbound_heading_deg"),
        leg_end=_leg_end(hold, circuit),
        outbound_end_dme_nm=hold.number("outbound_end_dme_nm"),
        arrival_model_deg=entered.number("arrival_course_deg"),
        entry=figures.entry(hold, entered.word("entry")),
    )


def _second(hold: Row) -> str:
    """What the second navaid of a crossing shows: 'FYX DME 23.0', 'KVN radial 164'."""
    if hold.word("method") != "crossing" or not hold.word("navaid_2"):
        return ""
    return f"{hold.word('navaid_2')} {figures.second_line(hold)}"


def _leg_end(hold: Row, circuit: Row) -> str:
    """What ends the outbound leg, as a pilot sees it."""
    seconds = figures.timed(circuit.number("stopwatch_s"))
    if seconds:
        return tr("{} on the stopwatch").format(seconds)
    if hold.word("leg_end") == "dme":
        return tr("to DME {:.1f}").format(hold.number("outbound_end_dme_nm"))
    if hold.word("leg_end") == "along_track":
        return tr("for {} along the track").format(text.format_nm(hold.number("leg_nm")))
    seconds = figures.timed(circuit.number("outbound_s"))
    return tr("{} from the end of the turn").format(seconds) if seconds else figures.leg(hold)


def _by_model(hold: Row, at: tuple[float, float]) -> float:
    """The fix's radial counted from the magnetic model's north at the station."""
    declination, date = hold.number("navaid_decl_deg"), hold.word("var_date")
    if not (math.isfinite(at[0]) and math.isfinite(declination) and date):
        return math.nan
    year = magnetism.decimal_year(datetime.date.fromisoformat(date))
    variation = float(magnetism.declination_deg(*at, year=year))
    return (hold.number("radial_deg") + declination - variation) % 360.0
