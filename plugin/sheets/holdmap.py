"""The pictures of a hold: the map with area, navaid and what lies round it; the pattern by itself; the norths."""

from __future__ import annotations

import math

from qgis.core import QgsFeature, QgsPointXY, QgsRectangle, QgsVectorLayer

from ...algorithms.common.texts import tr
from ...geometry import text
from ..styles import inks
from . import areamap, figures, page, picture, placed, surroundings
from .content import Content, every, station
from .figures import Row
from .page import GUTTER_MM, Sheet, line_height

BELOW_MAP_MM = 8.5
"""Room below a map for its scale bar and notes."""
NORTHS_MM = 32.0
"""Height of the norths with their notes, below the pattern."""
NORTHS_WIDE_MM = 20.0
ROSE_MM = 26.0
NAVAID_SHARE = 2.6
"""A map is drawn up to this many times smaller for the navaid to be on it."""
ARC_MM = 9.0
ROUND_FIX_MM = 15.0
"""Room about the fix, on the picture of the pattern: each entry sector has its words in it."""


def put_pictures(sheet: Sheet, content: Content, hold: Row, top: float, tall: float) -> float:
    """Left the map, right the pattern with entry sectors and arrival, below it the norths. Returns: the y below."""
    paper = sheet.paper
    put_map(sheet, content, hold, paper.left, top, paper.span(8), tall)
    side, left = paper.span(4), paper.column(8)
    detail = tall - NORTHS_MM
    put_pattern(sheet, content, hold, left, top, side, detail)
    put_norths(sheet, hold, left, top + detail + 7.0, top + tall, side)
    return top + tall + BELOW_MAP_MM


def put_map(
    sheet: Sheet, content: Content, hold: Row, left: float, top: float, wide: float, tall: float, notes: bool = True
) -> None:
    """The map of a hold with its area, the line that defines its fix, navaids, airspace, obstacle and terrain."""
    local = content.local(hold.number("lon"), hold.number("lat"))
    areas, tracks, patterns = (content.copy(local, name, hold) for name in ("areas", "tracks", "patterns"))
    controlling = surroundings.controlling(content, local, hold)
    fix = content.fix(hold)
    fixes = local.copy(content.layers["fixes"], [fix] if fix else [])
    at = station(hold)
    there = local.point(*at) if at else None

    picture.only_obstacle(patterns)
    box = picture.box_of([patterns, tracks])
    for feature in areamap.inner(areas):
        box.combineExtentWith(feature.geometry().boundingBox())
    box.combineExtentWith(0.0, 0.0)
    scale, seen = picture.fitted([(box, 4.0)], wide, tall)
    if there:
        wider = [(box, 4.0), (QgsRectangle(there, there), ROSE_MM / 2.0 + 2.0)]
        with_navaid = picture.fitted(wider, wide, tall)
        if with_navaid[0] <= NAVAID_SHARE * scale:
            scale, seen = with_navaid
    navaids = content.seen_navaids(local, seen, scale)
    picture.widen_roses(navaids, ROSE_MM)
    for layer in (fixes, navaids):
        picture.label_at_every_scale(layer)
    tracks.setLabelsEnabled(False)
    courses = placed.leg_labels(hold, tracks, scale)
    picture.label_at(fixes, _place(hold, patterns, there, scale, courses))
    lines = _defining(local, hold, there, scale, _on_dme(content.fix_row(hold))) if there else []
    failed = surroundings.failed_hatch(local, areas) if content.failed(hold) else []
    order = [*placed.leg_layers(local, courses, scale), fixes, navaids, *controlling]
    order += [tracks, patterns, *lines, *failed, *areamap.tinted(local, areas), *areamap.edges(local, areas)]
    order += surroundings.airspace(content, local, seen) + surroundings.beneath(content)
    item = picture.put_map(sheet, local, order, seen, left, top, wide, tall)
    below = top + tall + 1.0
    picture.put_scale_bar(sheet, item, scale, left, below + 0.2, 40.0)
    caption = scale_text(scale)
    if notes and areas.featureCount():
        caption = tr("Tinted: basic area for {} kt.   {}").format(f"{hold.number('area_ias_kt'):.0f}", caption)
    sheet.text(left + wide, below, caption, inks.NOTE_PT, right=True)
    if there and not seen.contains(there):
        far = page.shortened(_far_note(hold, there), wide - 50.0, inks.NOTE_PT)
        sheet.text(left + wide, below + line_height(inks.NOTE_PT), far, inks.NOTE_PT, right=True)


def put_pattern(sheet: Sheet, content: Content, hold: Row, left: float, top: float, wide: float, tall: float) -> None:
    """The pattern by itself with the entry sectors, the arrival and the entry as they are flown."""
    local = content.local(hold.number("lon"), hold.number("lat"))
    tracks, patterns = (content.copy(local, name, hold) for name in ("tracks", "patterns"))
    picture.only_obstacle(patterns)
    fix = content.fix(hold)
    mark = local.copy(content.layers["fixes"], [fix] if fix else [])
    mark.setLabelsEnabled(False)  # its name stands above and on the map
    tracks.setLabelsEnabled(False)
    box = picture.box_of([patterns, tracks])
    box.combineExtentWith(0.0, 0.0)
    here = QgsRectangle(0.0, 0.0, 0.0, 0.0)
    scale, seen = picture.fitted([(box, 7.5), (here, ROUND_FIX_MM)], wide, tall)
    beside = content.seen_navaids(local, seen, scale)
    picture.without_roses(beside)
    courses = placed.leg_labels(hold, tracks, scale, 0.0)
    arriving = surroundings.entry(content, local, hold)
    sectors = content.copy(local, "sectors", hold)
    words = []
    if sectors and sectors.featureCount():
        surroundings.widen_sectors(sectors, seen)
        taken = [(0.0, 0.0), *_drawn([patterns, *arriving], scale, seen)] + [
            at for label in courses for at in label.covers()
        ]
        said = surroundings.sector_words(content, hold)
        words = [placed.sector_layer(local, placed.sector_labels(said, taken, placed.frame_mm(seen, scale)), scale)]
        arriving.append(sectors)
    order = [*placed.leg_layers(local, courses, scale), *words, mark, beside, tracks, *arriving, patterns]
    item = picture.put_map(sheet, local, order, seen, left, top, wide, tall)
    below = top + tall + 1.0
    picture.put_scale_bar(sheet, item, scale, left, below + 0.2, 24.0)
    sheet.text(left + wide, below, scale_text(scale), inks.NOTE_PT, right=True)


def _drawn(layers: list[QgsVectorLayer], scale: float, seen: QgsRectangle) -> list[placed.Place]:
    """Lines of layers as places in mm from the fix."""
    mm = 1000.0 / scale
    found = []
    for layer in layers:
        for feature in every(layer):
            corners = [QgsPointXY(vertex) for vertex in feature.geometry().vertices()]
            for start, end in zip(corners, corners[1:]):
                pieces = picture.along(start, end, max(1, int(start.distance(end) * mm / 2.0)))
                found += [(p.x() * mm, p.y() * mm) for p in pieces if seen.contains(p)]
    return found


def _place(
    hold: Row, patterns: QgsVectorLayer, there: QgsPointXY | None, scale: float, courses: list[placed.LegLabel]
) -> str:
    """Where the fix's name may stand: off the pattern, the courses beside its legs and the line to the navaid."""
    mm = 1000.0 / scale
    here = QgsPointXY(0.0, 0.0)
    taken = _drawn([patterns], scale, patterns.extent()) + [at for label in courses for at in label.covers()]
    if there and there.distance(here) > 1.0:
        reach = min(1.0, 40.0 / mm / there.distance(here))
        line = picture.along(here, QgsPointXY(there.x() * reach, there.y() * reach))[4:]
        taken += [(p.x() * mm, p.y() * mm) for p in line]
    width = page.text_width(hold.word("fix"), inks.NOTE_PT)
    return picture.roomiest(width, line_height(inks.NOTE_PT), taken)


def _on_dme(fix: Row) -> bool:
    return fix.word("method") == "radial_distance" and math.isfinite(fix.number("dme_nm"))


def _defining(local: picture.Local, hold: Row, there: QgsPointXY, scale: float, arc: bool) -> list[QgsVectorLayer]:
    """The line from the navaid to the fix and the arc across its end; a dotted line where neither defines it."""
    here = QgsPointXY(0.0, 0.0)
    distance = text.format_nm(hold.number("dist_nm"))
    method = hold.word("method")
    word = "B" if hold.word("navaid_kind").startswith("NDB") else "R"
    radial = f"{word}{figures.radial(hold.number('radial_deg'))}"
    if method == "crossing":
        return local.lines(_crossing(local, hold, there, radial, scale))
    if there.distance(here) < 1.0:
        return []
    label = {"radial_distance": f"{radial}  {distance}", "along_track": distance}.get(method, "")
    lines = [([there, here], label, "solid" if label else "dot")]
    if arc:
        lines.append((_arc(there, here, scale), "", "solid"))
    return local.lines(lines)


def _crossing(local: picture.Local, hold: Row, there: QgsPointXY, radial: str, scale: float):
    """Both lines of a crossing: radials from their navaids, or arcs about them."""
    here = QgsPointXY(0.0, 0.0)
    second = hold.number("navaid_2_lon"), hold.number("navaid_2_lat")
    dme = hold.number("dme_nm")
    arc = f"{hold.word('navaid')} DME {dme:.1f}" if math.isfinite(dme) else text.format_nm(hold.number("dist_nm"))
    lines = [(there, hold.word("line"), arc if hold.word("line") == "distance" else radial)]
    if all(math.isfinite(value) for value in second):
        said = f"{hold.word('navaid_2')} {figures.second_line(hold)}"
        lines.append((local.point(*second), hold.word("line_2"), said))
    made = []
    for station_, kind, said in lines:
        if station_.distance(here) < 1.0:
            continue
        made.append((_arc(station_, here, scale, 2.0) if kind == "distance" else [station_, here], said, "solid"))
    return made


def _arc(centre: QgsPointXY, here: QgsPointXY, scale: float, times: float = 1.0) -> list[QgsPointXY]:
    """An arc about a navaid through the fix."""
    length = centre.distance(here)
    half = min(math.pi, times * ARC_MM * scale / 1000.0 / length)
    toward = math.atan2(here.x() - centre.x(), here.y() - centre.y())
    swept = [toward + half * (k / 12.0 - 1.0) for k in range(25)]
    return [QgsPointXY(centre.x() + length * math.sin(a), centre.y() + length * math.cos(a)) for a in swept]


def _far_note(hold: Row, there: QgsPointXY) -> str:
    """Where the navaid is that lies beyond the map."""
    course = picture.bearing(QgsPointXY(0.0, 0.0), there) - hold.number("var_deg")
    return tr("{} is {} from the fix, on course {}").format(
        hold.word("navaid"), text.format_nm(hold.number("dist_nm")), figures.course(course % 360.0)
    )


def put_norths(sheet: Sheet, hold: Row, left: float, top: float, bottom: float, wide: float) -> None:
    """True north, the model's and the station's, from one foot, with their angles in figures."""
    variation, declination = hold.number("var_deg"), hold.number("navaid_decl_deg")
    varies = tr("variation {}").format(text.format_variation(variation))
    is_set = tr("set to {}").format(text.format_variation(declination))
    most = bottom - 0.5 - (top + line_height(inks.TEXT_PT))
    arrows = [
        (0.0, min(22.0, most), "N", (), tr("true, up")),
        (variation, min(17.0, 0.78 * most), "M", (1.6, 0.8), varies),
        (declination, min(12.0, 0.55 * most), hold.word("navaid"), (0.6, 0.6), is_set),
    ]
    arrows = [arrow for arrow in arrows if math.isfinite(arrow[0])]
    west = min(angle for angle, *_ in arrows) < 0.0
    most_left = min(length * math.sin(math.radians(angle)) for angle, length, *_ in arrows)
    foot_x = left + NORTHS_WIDE_MM / 2.0 + (4.0 if most_left < -NORTHS_WIDE_MM / 4.0 else 0.0)
    foot_y = bottom - 0.5
    text_x, room = left + NORTHS_WIDE_MM + GUTTER_MM, wide - NORTHS_WIDE_MM - GUTTER_MM
    sheet.text(left, top, tr("Norths"), bold=True)
    y = top + 0.6
    for angle, length, letter, dashes, note in arrows:
        sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        length = min(length, NORTHS_WIDE_MM / 2.0 / max(abs(sine), 1e-9))
        tip_x, tip_y = foot_x + length * sine, foot_y - length * max(cosine, 0.0)
        sheet.rule([(foot_x, foot_y), (tip_x, tip_y)], 0.3, inks.BLACK, dashes, 1.4)
        to_left = angle < 0.0 or (angle == 0.0 and not west)
        sheet.text(tip_x + (-1.2 if to_left else 1.2), tip_y - 1.0, letter, inks.NOTE_PT, bold=True, right=to_left)
        lines = page.wrapped(f"{letter}  {note}", room, inks.NOTE_PT)[:2]
        y = sheet.texts(text_x, y, lines, inks.NOTE_PT) + 0.3
    more = tr("Model of {}. Courses on the maps are magnetic.").format(hold.word("var_date"))
    sheet.texts(text_x, y, page.wrapped(more, room, inks.NOTE_PT), inks.NOTE_PT, ink=inks.GREY)


def scale_text(scale: float) -> str:
    """A scale in figures."""
    return "1 : " + text.format_altitude(scale)[:-3]


def copied(feature: QgsFeature, **values) -> QgsFeature:
    """A feature with other values."""
    made = QgsFeature(feature)
    for name, value in values.items():
        made[name] = value
    return made
