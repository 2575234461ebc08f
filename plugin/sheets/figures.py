"""What a sheet says of a hold: a row of the holds layer as words and figures, ready to set."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from qgis.core import NULL

from ...algorithms.common.texts import tr
from ...geometry import entries, text

DASH = "–"
CALM_KT = 0.5
TIME_STEP_S = 5.0
"""Times to fly by are shown to this step."""


class Row(dict):
    """Attributes of a feature by field name; a missing or empty one is NaN as a number and '' as a word."""

    def number(self, name: str) -> float:
        value = self.get(name)
        if value is None or value == NULL or isinstance(value, str):
            return math.nan
        return float(value)

    def word(self, name: str) -> str:
        value = self.get(name)
        return "" if value is None or value == NULL else str(value)


@dataclass(frozen=True)
class Line:
    """A line of a column: what it is, and its figures."""

    name: str
    value: str


def course(deg: float) -> str:
    return text.format_course(deg) or DASH


def tenths(deg: float) -> str:
    return text.format_course_tenths(deg) or DASH


def radial(deg: float) -> str:
    """A radial in whole degrees, with tenths where it has any: radials are given as they were defined."""
    exact = tenths(deg)
    return exact[:-2] if exact.endswith(".0") else exact


def turned(deg: float) -> float:
    """The opposite course."""
    return math.fmod(deg + 180.0, 360.0)


def altitude(row: Row) -> str:
    """'5 000 ft', or both ends of a block."""
    low, high = row.number("alt_ft"), row.number("alt_to_ft")
    if math.isfinite(high) and high > low:
        return f"{text.format_altitude(low)[:-3]}{DASH}{text.format_altitude(high)}"
    return text.format_altitude(low) or DASH


def leg(row: Row) -> str:
    """The leg in a few words: '1:00 outbound', 'outbound to D23.0', '4.0 NM outbound'."""
    if row.word("leg_kind") == "distance":
        length = text.format_nm(row.number("leg_nm"))
        if row.word("leg_end") == "dme":
            return tr("outbound to D{}").format(f"{row.number('outbound_end_dme_nm'):.1f}")
        if row.word("leg_end") == "inbound_length":
            return tr("{} inbound").format(length)
        return tr("{} outbound").format(length)
    time = text.format_duration(row.number("leg_min") * 60.0)
    return tr("{} inbound").format(time) if row.word("rules") == "faa" else tr("{} outbound").format(time)


def timed(seconds: float) -> str:
    """A time as flown, to five seconds: '1:25'. '' for NaN."""
    return text.format_duration(TIME_STEP_S * math.floor(seconds / TIME_STEP_S + 0.5)) if math.isfinite(seconds) else ""


_TIME = re.compile(r"(fuel for |leave by )?(?<![:\d.])(\d+):(\d\d)(:\d\d)?(Z?)(?![:\d])")


def as_flown(said: str) -> str:
    """A sentence of a layer with its times to five seconds; how long the fuel lasts is never rounded up."""

    def rounded(found: re.Match) -> str:
        latest, *parts, zulu = found.groups("")
        if zulu and not parts[2]:
            return found[0]  # hours and minutes
        seconds = 0
        for part in filter(None, parts):
            seconds = 60 * seconds + int(part.lstrip(":"))
        step = int(TIME_STEP_S)
        seconds = (seconds if latest else seconds + step // 2) // step * step
        if zulu:
            return f"{latest}{seconds // 3600 % 24:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}Z"
        return latest + text.format_duration(seconds)

    return _TIME.sub(rounded, said)


def entry(hold: Row, name: str) -> str:
    """The word of the hold's rules for an entry: teardrop (FAA) is offset (ICAO)."""
    if name in entries.ENTRIES:
        return entries.WORDS["faa" if hold.word("rules") == "faa" else "icao"][entries.ENTRIES.index(name)]
    return name


def turns(row: Row) -> str:
    return tr("left") if row.word("turn") == "left" else tr("right")


def has_selector(row: Row) -> bool:
    """Whether a course selector shows the course: the station is aligned and its declination known."""
    return math.isfinite(row.number("navaid_decl_deg"))


def strip(row: Row) -> list[Line]:
    """The figures to fly by."""
    aligned = has_selector(row)
    return [
        Line(tr("Inbound, magnetic"), course(row.number("inbound_model_deg"))),
        Line(
            tr("On the selector of {}").format(row.word("navaid")) if aligned else tr("On the selector"),
            course(row.number("inbound_station_deg")) if aligned else DASH,
        ),
        Line(tr("Outbound, magnetic"), course(row.number("outbound_model_deg"))),
        Line(tr("Turns"), turns(row)),
        Line(tr("Leg"), leg(row)),
        Line(tr("Speed"), f"{row.number('ias_kt'):.0f} kt IAS"),
    ]


def fix_lines(row: Row, fix: Row, navaid: Row) -> list[Line]:
    """How the fix is found."""
    station = " ".join(part for part in (row.word("navaid_kind"), navaid.word("freq")) if part)
    lat, lon = row.number("lat"), row.number("lon")
    north, east = (text.format_position(lon, lat).split(" ") + ["", ""])[:2]
    lines = [Line(tr("Position"), north), Line("", east)]
    if row.word("navaid"):
        named = " ".join(part for part in (row.word("navaid"), navaid.word("name")) if part)
        lines += [
            *(
                [Line(tr("Measured from"), named), Line("", station)]
                if navaid.word("name")
                else [Line(tr("Measured from"), f"{named} {station}".rstrip())]
            ),
            Line(_radial_name(row), tenths(row.number("radial_deg"))),
            Line(tr("Distance, ground"), text.format_nm(row.number("dist_nm")) or DASH),
            Line(tr("Distance, DME"), text.format_nm(row.number("dme_nm")) or DASH),
            Line(tr("Station elevation"), text.format_altitude(row.number("navaid_elev_ft")) or DASH),
            Line(tr("Station declination"), text.format_variation(row.number("navaid_decl_deg")) or DASH),
        ]
    if row.word("method") == "crossing" and row.word("navaid_2"):
        lines.append(Line(tr("And from"), f"{row.word('navaid_2')} {second_line(row)}"))
    if fix.word("method") == "along_track":
        lines.append(Line(tr("Course at fix, magnetic"), tenths(fix.number("course_model_deg"))))
    lines.append(Line(tr("Variation, model"), text.format_variation(row.number("var_deg")) or DASH))
    return [line for line in lines if line.value and line.value != DASH]


def second_line(row: Row) -> str:
    """What the second navaid of a crossing gives: 'radial 164', 'bearing 164', 'DME 23.0', '23.0 NM'."""
    if row.word("line_2") == "distance":
        dme = row.number("dme_2_nm")
        return tr("DME {:.1f}").format(dme) if math.isfinite(dme) else text.format_nm(row.number("dist_2_nm"))
    word = tr("bearing {}") if row.word("navaid_2_kind").startswith("NDB") else tr("radial {}")
    return word.format(radial(row.number("radial_2_deg")))


def _radial_name(row: Row) -> str:
    return tr("Bearing from it") if row.word("navaid_kind").startswith("NDB") else tr("Radial")


def course_table(row: Row) -> list[tuple[str, str, str, str]]:
    """Courses in the three norths: a head and two rows."""
    true, model, station = (row.number(f"inbound_{north}_deg") for north in ("true", "model", "station"))
    if not has_selector(row):
        station = math.nan
    return [
        ("", tr("true"), tr("magnetic"), tr("selector")),
        (tr("Inbound"), tenths(true), tenths(model), tenths(station)),
        (tr("Outbound"), tenths(turned(true)), tenths(turned(model)), tenths(turned(station))),
    ]


def timing_lines(row: Row) -> list[Line]:
    """The leg and the times of a circuit without wind."""
    turn_s = 180.0 / row.number("rate_dps")
    leg_s = (row.number("circuit_s") - 2.0 * turn_s) / 2.0
    lines = [Line(tr("Leg"), leg(row))]
    if row.word("leg_kind") == "distance":
        ends = {
            "dme": tr("at a DME reading"),
            "along_track": tr("by distance along the track"),
            "inbound_length": tr("by the inbound leg's length"),
        }
        lines.append(Line(tr("It ends"), ends.get(row.word("leg_end"), DASH)))
    lines += [
        Line(tr("Each straight leg"), timed(leg_s) or DASH),
        Line(tr("Each turn"), timed(turn_s) or DASH),
        Line(tr("Circuit"), timed(row.number("circuit_s")) or DASH),
        Line(tr("DME, outbound end"), text.format_nm(row.number("outbound_end_dme_nm")) or DASH),
    ]
    return [line for line in lines if line.value != DASH]


def wind(rows: list[Row]) -> str:
    """The wind of flown rows or of entries: 'Wind 330/22', or 'Calm'."""
    if is_calm(rows):
        return tr("Calm")
    return tr("Wind {}/{:.0f}").format(course(rows[0].number("wind_from_true_deg")), rows[0].number("wind_kt"))


def is_calm(rows: list[Row]) -> bool:
    """Whether rows are of still air, or there are none."""
    speed = rows[0].number("wind_kt") if rows else math.nan
    return not math.isfinite(speed) or speed < CALM_KT


def day_head(flown: list[Row]) -> str:
    """The wind that the day's figures are for."""
    return tr("On the day: calm") if is_calm(flown) else tr("On the day: {} kt, true").format(wind(flown).lower())


def day_sentences(flown: list[Row], entered: list[Row]) -> list[str]:
    """What is flown on the day, in sentences a pilot can act on: headings and times, entry, time to leave."""
    flown = sorted(flown, key=lambda row: row.number("circuit"))
    said = []
    circuit = next((row for row in flown if row.number("circuit") == 1.0), None)
    if circuit is not None:
        stopwatch, outbound = timed(circuit.number("stopwatch_s")), timed(circuit.number("outbound_s"))
        for_time = tr("{} on the stopwatch").format(stopwatch) if stopwatch else tr("{} from the turn").format(outbound)
        said.append(
            tr("Outbound {}, {}. Inbound {}, {} on the course. One circuit {}.").format(
                course(circuit.number("outbound_heading_deg")),
                for_time,
                course(circuit.number("inbound_heading_deg")),
                timed(circuit.number("inbound_s")),
                timed(circuit.number("end_s") - circuit.number("start_s")),
            )
        )
    elif not is_calm(entered):
        said.append(tr("No circuit can be flown in this wind as the hold is."))
    for row in entered:
        arriving = tr("Arriving on {}, heading {}: ").format(
            course(row.number("arrival_course_deg")), course(row.number("arrival_heading_deg"))
        )
        said.append(arriving + as_flown(row.word("text")))
    for row in flown:
        words = as_flown(row.word("text"))
        if words:
            said.append(words[0].upper() + words[1:] + ("" if words.endswith(".") else "."))
    return said


def thumb_sentences(by_rule: list[Row]) -> list[str]:
    """What three times the drift does beside the exact circuit."""
    for row in by_rule:
        off = row.number("off_course_nm")
        if row.word("rule") != "triple" or not math.isfinite(off):
            continue
        where = (
            tr("on the course")
            if abs(off) < 0.05
            else tr("{} {} of the course").format(text.format_nm(abs(off)), tr("right") if off > 0.0 else tr("left"))
        )
        said = tr("By the rule of thumb, three times the drift: outbound {}; the turn ends {}, {} before the fix.")
        ahead = text.format_nm(row.number("before_fix_nm"))
        return [said.format(course(row.number("outbound_heading_deg")), where, ahead)]
    return []


def size_lines(row: Row, area: Row) -> list[Line]:
    """Speeds, the turn, the pattern and its area."""
    lines = [
        Line(tr("Altitude"), altitude(row)),
        Line(tr("IAS"), f"{row.number('ias_kt'):.0f} kt"),
        Line(tr("TAS, ISA {}").format(_signed(row.number("isa_dev_c"))), f"{row.number('tas_kt'):.0f} kt"),
        Line(tr("Bank"), f"{row.number('bank_deg'):.0f}°"),
        Line(tr("Rate of turn"), f"{row.number('rate_dps'):.1f}°/s"),
        Line(tr("Radius of turn"), text.format_nm(row.number("radius_nm"), 2)),
        Line(tr("Pattern, length"), text.format_nm(row.number("length_nm"))),
        Line(tr("Pattern, width"), text.format_nm(row.number("width_nm"))),
        Line(tr("Area, made for"), f"{row.number('area_ias_kt'):.0f} kt IAS"),
    ]
    if math.isfinite(area.number("wind_kt")):
        lines.append(Line(tr("Area, wind"), f"{area.number('wind_kt'):.0f} kt"))
    if math.isfinite(area.number("area_nm2")):
        lines.append(Line(tr("Area, size"), f"{area.number('area_nm2'):.0f} NM²"))
    return lines


def _signed(degrees: float) -> str:
    if not math.isfinite(degrees) or round(degrees) == 0:
        return ""
    return f"{'+' if degrees > 0 else '−'}{abs(degrees):.0f}"


def rules(row: Row) -> str:
    """The document whose rules the hold follows."""
    return tr("Rules of FAA AIM 5-3-8") if row.word("rules") == "faa" else tr("Rules of ICAO Doc 8168")
