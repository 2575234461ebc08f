"""The briefing: an overview of a training area, then a page a hold, as one PDF."""

from __future__ import annotations

import contextlib
import datetime
import math
import os
from pathlib import Path

from qgis.core import (
    Qgis,
    QgsFeature,
    QgsFeatureRequest,
    QgsGeometry,
    QgsLayoutExporter,
    QgsPointXY,
    QgsPrintLayout,
    QgsProcessingException,
    QgsProject,
    QgsProjectMetadata,
    QgsRectangle,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ...algorithms.common import local as local_crs
from ...algorithms.common.texts import caution, tr
from ...geometry import geodesy, text
from ..styles import inks
from . import figures, page, picture
from .figures import Row
from .page import GUTTER_MM, LEFT, RIGHT, Sheet, column, line_height, span

LAYERS = ("navaids", "fixes", "holds", "patterns", "tracks", "areas")

FOOT_MM = 276.0
PICTURE_MM = 128.0
OVERVIEW_MM = (118.0, 176.0)
"""Least and greatest height of the overview's map; the index takes the rest of the page."""
MAIN_MM = span(8)
SIDE_MM = span(4)
DETAIL_MM = 84.0
ROSE_MM = 26.0
NORTHS_MM = 20.0
ALTITUDE_X = 113.0
MARK_LETTERS = 12
"""Longer names of holds stand in the index only; the overview's map then shows numbers."""
NAVAID_SHARE = 2.0
"""A map is drawn up to this many times smaller for the navaid to be on it."""
ARC_MM = 9.0
MOST_DAY_LINES = 7


class Briefing:
    """One run: layers by name in, pages out."""

    def __init__(self, layers: dict[str, QgsVectorLayer], title: str, navaid_data: str, made: datetime.date):
        missing = [name for name in LAYERS if name not in layers or not layers[name].isValid()]
        if missing:
            raise ValueError(f"layers lacks {', '.join(missing)}; a briefing needs all of {', '.join(LAYERS)}")
        self.layers = layers
        self.title = title
        self.navaid_data = navaid_data
        self.made = made.isoformat()
        self.project = QgsProject()
        self.project.setEllipsoid("EPSG:7030")
        nobody = QgsProjectMetadata()
        nobody.setTitle(title)
        nobody.setAuthor("")
        self.project.setMetadata(nobody)
        self.layout = QgsPrintLayout(self.project)
        self.layout.setName(tr("Briefing"))
        self.sheet = Sheet(self.layout)
        self.locals: list[picture.Local] = []
        self.by_hold = {name: _by_hold(layers[name]) for name in ("patterns", "tracks", "areas")}
        self.day = {name: _by_hold(layers[name]) if name in layers else {} for name in ("flown", "entries")}
        self.holds = [(feature, _row(feature)) for feature in _all(layers["holds"])]
        self.numbered = any(len(row.word("hold")) > MARK_LETTERS for _, row in self.holds)
        self.fixes = {_row(feature).word("fix"): feature for feature in _all(layers["fixes"])}
        self.navaids = [(feature, _row(feature)) for feature in _all(layers["navaids"])]

    def set(self) -> None:
        """Set all pages."""
        self.overview()
        for number, (feature, row) in enumerate(self.holds):
            self.hold_page(feature, row)
            self.hold_pages[number] = self.sheet.page_count
        self.fill_page_numbers()

    # -- overview ---------------------------------------------------------------------------------------------

    def overview(self) -> None:
        """The map of everything, and the index of holds."""
        sheet = self.sheet
        sheet.new_page()
        count = len(self.holds)
        holds = tr("{} hold").format(count) if count == 1 else tr("{} holds").format(count)
        room = RIGHT - LEFT - page.text_width(holds, inks.FIGURE_PT, True) - GUTTER_MM
        sheet.text(LEFT, 12.0, page.shortened(self.title, room, inks.NAME_PT, True), inks.NAME_PT, bold=True)
        sheet.text(RIGHT, 13.6, holds, inks.FIGURE_PT, bold=True, right=True)
        self.hold_pages: dict[int, int] = {}
        index = self._index_rows()
        spare = FOOT_MM - 22.0 - 9.0 - 11.0 - sum(rows[-1] for rows in index)
        height = max(OVERVIEW_MM[0], min(OVERVIEW_MM[1], spare))
        self.overview_map(22.0, height)
        self._index(index, 22.0 + height + 9.0)

    def overview_map(self, top: float, tall: float) -> None:
        sheet = self.sheet
        local = self._local(
            *local_crs.middle(*([row.number(name) for _, row in self.holds] for name in ("lon", "lat")))
        )
        width = RIGHT - LEFT
        drawn = {name: local.copy(self.layers[name], _all(self.layers[name])) for name in ("fixes", *self.by_hold)}
        drawn["holds"] = local.copy(self.layers["holds"], self._marked_holds())
        picture.only_obstacle(drawn["patterns"])
        drawn["fixes"].setLabelsEnabled(False)  # the holds' labels and the index name them
        places = [(picture.box_of(drawn.values()), 6.0)]
        named = {(row.word("navaid"), round(row.number("navaid_lon"), 4)) for _, row in self.holds}
        for feature, row in self.navaids:
            place = _lon_lat(feature, self.layers["navaids"], self.project)
            if place and (row.word("ident"), round(place[0], 4)) in named:
                point = local.point(*place)
                places.append((QgsRectangle(point, point), 9.0))
        scale, seen = picture.fitted(places, width, tall)
        navaids = self._navaids(local, seen)
        if scale > 1_500_000.0:
            picture.without_roses(navaids)
        order = [drawn["holds"], drawn["fixes"], navaids, drawn["tracks"], drawn["patterns"], drawn["areas"]]
        item = picture.put_map(sheet, local, order, seen, LEFT, top, width, tall)
        below = top + tall + 1.2
        picture.put_scale_bar(sheet, item, scale, LEFT, below, 40.0)
        sheet.text(column(4), below + 1.5, _scale_text(scale), inks.NOTE_PT)
        sheet.text(RIGHT, below + 1.5, tr("True north is up in the middle. Courses are magnetic."), inks.NOTE_PT,
                   right=True)  # fmt: skip

    def _marked_holds(self) -> list[QgsFeature]:
        """The holds as the overview's map calls them: by name, or by number where the names are long."""
        if not self.numbered:
            return [feature for feature, _ in self.holds]
        marked = []
        for number, (feature, _) in enumerate(self.holds, start=1):
            copied = QgsFeature(feature)
            copied["hold"] = str(number)
            marked.append(copied)
        return marked

    def _index_rows(self) -> list[tuple[Row, list[str], list[str], float]]:
        """Rows of the index: the hold, its name and its fix in lines, and how tall that is."""
        names = [row.word("hold") for _, row in self.holds]
        if self.numbered:
            names = [f"{number}  {name}" for number, name in enumerate(names, start=1)]
        widest = max(page.text_width(name + " !", inks.TEXT_PT, True) for name in names)
        name_mm = max(12.0, min(44.0, widest + 1.0))
        self.fix_x = LEFT + name_mm + 3.0
        rows = []
        for name, (_, row) in zip(names, self.holds):
            name = page.wrapped(name, name_mm, inks.TEXT_PT, True)[:5] or [""]
            if row.word("limits"):
                name[-1] += " !"
            fix = page.wrapped(row.word("fix"), ALTITUDE_X - 25.0 - self.fix_x, inks.TEXT_PT)[:5]
            rows.append((row, name, fix, max(len(name), len(fix)) * line_height(inks.TEXT_PT) + 0.9))
        return rows

    def _index(self, rows: list[tuple[Row, list[str], list[str], float]], top: float) -> None:
        """The table of holds, over as many pages as it takes."""
        columns = (  # head, left or right edge, right-aligned
            (tr("Hold"), LEFT, False),
            (tr("Fix"), self.fix_x, False),
            (tr("Altitude, ft"), ALTITUDE_X, True),
            (tr("Inbound"), 129.0, True),
            (tr("Turns"), 135.0, False),
            (tr("Leg"), 147.0, False),
            (tr("IAS, kt"), 187.0, True),
            (tr("Page"), RIGHT, True),
        )
        y = self._index_head(columns, top)
        self.index_cells: list[tuple[int, float]] = []
        for row, name, fix, height in rows:
            if y + height > FOOT_MM - 6.0:
                self.sheet.new_page()
                self.sheet.text(LEFT, 12.0, page.shortened(self.title, RIGHT - LEFT, inks.NAME_PT, True),
                                inks.NAME_PT, bold=True)  # fmt: skip
                y = self._index_head(columns, 24.0)
            self.sheet.texts(columns[0][1], y, name, bold=True)
            self.sheet.texts(columns[1][1], y, fix)
            cells = (
                figures.altitude(row).replace(" ft", ""),
                figures.course(row.number("inbound_model_deg")),
                figures.turns(row),
                figures.leg(row),
                f"{row.number('ias_kt'):.0f}",
            )
            for (_, x, right), value in zip(columns[2:7], cells):
                self.sheet.text(x, y, value, right=right)
            self.index_cells.append((self.sheet.page_count - 1, y))
            y += height
        if any(row.word("limits") for row, *_ in rows):
            self.sheet.text(LEFT, y + 1.0, tr("!  a limit is broken: see the hold's page"), inks.NOTE_PT)

    def _index_head(self, columns, y: float) -> float:
        for head, x, right in columns:
            self.sheet.text(x, y, head, inks.NOTE_PT, ink=inks.GREY, right=right)
        y += line_height(inks.NOTE_PT) + 0.6
        self.sheet.hairline(y)
        return y + 0.9

    def fill_page_numbers(self) -> None:
        """Page numbers into the index and the foot of each page, when they are known."""
        for number, (index_page, y) in enumerate(self.index_cells):
            self.sheet.go_to(index_page)
            self.sheet.text(RIGHT, y, str(self.hold_pages[number]), right=True)
        for number in range(self.sheet.page_count):
            self.sheet.go_to(number)
            self._foot(number + 1)
        self.sheet.finish()

    def _foot(self, number: int) -> None:
        """Caution, dates and page, on every page."""
        sheet = self.sheet
        sheet.hairline(FOOT_MM)
        y = sheet.texts(LEFT, FOOT_MM + 0.8, page.wrapped(caution(), RIGHT - LEFT, inks.NOTE_PT), inks.NOTE_PT)
        dates = sorted({row.word("var_date") for _, row in self.holds} - {""})
        facts = tr("Navaid data: {}.  Variation: World Magnetic Model 2025 of {}.  Made {}.").format(
            self.navaid_data or tr("no date given"), ", ".join(dates) or figures.DASH, self.made
        )
        folio = tr("Page {} of {}").format(number, sheet.page_count)
        room = RIGHT - LEFT - page.text_width(folio, inks.NOTE_PT) - GUTTER_MM
        sheet.text(LEFT, y, page.shortened(facts, room, inks.NOTE_PT), inks.NOTE_PT)
        sheet.text(RIGHT, y, folio, inks.NOTE_PT, right=True)

    # -- a hold -----------------------------------------------------------------------------------------------

    def hold_page(self, feature: QgsFeature, row: Row) -> None:
        """The page of a hold: name and altitude, figures to fly by, picture, figures to check by."""
        self.sheet.new_page()
        y = self._head(row)
        y = self._strip(row, y)
        self._pictures(row, y)
        y += PICTURE_MM + 9.0
        y = self._columns(row, y)
        y = self._in_wind(row, y)
        self._notes(row, y)

    def _head(self, row: Row) -> float:
        sheet = self.sheet
        height = figures.altitude(row)
        sheet.text(RIGHT, 12.0, height, inks.NAME_PT, bold=True, right=True)
        room = RIGHT - LEFT - page.text_width(height, inks.NAME_PT, True) - 2.0 * GUTTER_MM
        y = sheet.texts(
            LEFT, 12.0, page.wrapped(row.word("hold"), room, inks.NAME_PT, True)[:2], inks.NAME_PT, bold=True
        )
        if row.word("fix") != row.word("hold"):
            room = RIGHT - LEFT - page.text_width(figures.rules(row), inks.TEXT_PT) - GUTTER_MM
            sheet.text(RIGHT, y + 0.5, figures.rules(row), right=True)
            y = sheet.texts(
                LEFT, y, page.wrapped(row.word("fix"), room, inks.FIGURE_PT, True)[:2], inks.FIGURE_PT, bold=True
            )
        remarks = row.word("remarks")
        if remarks:
            y = sheet.texts(LEFT, y, page.wrapped(remarks, RIGHT - LEFT, inks.TEXT_PT)[:2])
        return y + 1.5

    def _strip(self, row: Row, y: float) -> float:
        """The figures to fly by, in a row between hairlines."""
        self.sheet.hairline(y)
        for place, line in zip((0, 2, 4, 6, 7, 10), figures.strip(row)):
            self.sheet.text(column(place), y + 0.8, line.name, inks.NOTE_PT, ink=inks.GREY)
            self.sheet.text(column(place), y + 4.0, line.value, inks.FIGURE_PT, bold=True)
        self.sheet.hairline(y + 9.6)
        return y + 11.6

    def _columns(self, row: Row, top: float) -> float:
        """Three columns of figures to check by."""
        navaid = self._navaid_of(row)
        fix = self.fixes.get(row.word("fix"))
        area = next((_row(feature) for feature in self.by_hold["areas"].get(row.word("hold"), [])), Row())
        ends = [
            self._column(0, tr("Fix"), figures.fix_lines(row, _row(fix) if fix else Row(), navaid), top),
            self._column(4, tr("Times in still air"), figures.timing_lines(row), self._course_column(row, top)),
            self._column(8, tr("Speeds and sizes"), figures.size_lines(row, area), top),
        ]
        return max(ends) + 2.0

    def _course_column(self, row: Row, y: float) -> float:
        sheet, left, width = self.sheet, column(4), span(4)
        sheet.text(left, y, tr("Courses"), bold=True)
        for number, cells in enumerate(figures.course_table(row)):
            points = inks.TEXT_PT if number else inks.NOTE_PT
            ink = inks.BLACK if number else inks.GREY
            if number:
                y += line_height(inks.TEXT_PT)
            sheet.text(left, y, cells[0], points, ink=ink)
            for k, value in enumerate(cells[1:]):
                sheet.text(left + width - (2 - k) * 15.0, y + (0.0 if number else 0.6), value, points, ink=ink,
                           right=True)  # fmt: skip
        return y + line_height(inks.TEXT_PT) + 1.6

    def _column(self, place: int, head: str, lines: list[figures.Line], y: float) -> float:
        sheet, left, width = self.sheet, column(place), span(4)
        sheet.text(left, y, head, bold=True)
        y += line_height(inks.TEXT_PT)
        for line in lines:
            sheet.text(left, y, line.name, ink=inks.BLACK)
            room = width - page.text_width(line.name, inks.TEXT_PT) - 1.5
            value = page.shortened(line.value, room, inks.TEXT_PT)
            sheet.text(left + width, y, value, right=True)
            y += line_height(inks.TEXT_PT)
        return y

    def _in_wind(self, row: Row, top: float) -> float:
        """What is flown on the day, across the page; nothing where nothing was flown."""
        flown, entered = (
            [_row(f) for f in self.day[name].get(row.word("hold"), [])] for name in ("flown", "entries")
        )
        sentences = figures.day_sentences(flown, entered)
        if not sentences:
            return top
        self.sheet.hairline(top)
        head = figures.day_head(flown)
        self.sheet.text(LEFT, top + 1.2, head, bold=True)
        y = top + 1.2 + line_height(inks.TEXT_PT)
        lines = [line for said in sentences for line in page.wrapped(said, RIGHT - LEFT, inks.TEXT_PT)]
        return self.sheet.texts(LEFT, y, lines[:MOST_DAY_LINES], inks.TEXT_PT) + 2.0

    def _notes(self, row: Row, top: float) -> None:
        """Limits that are broken and what was assumed, as large as fits."""
        area_limits = [_row(f).word("limits") for f in self.by_hold["areas"].get(row.word("hold"), [])]
        columns = (
            (0, tr("Limits"), _sentences(row.word("limits"), tr("No limit that was tested is broken."))),
            (0, tr("About the area"), _sentences("; ".join(dict.fromkeys(area_limits)), "")),
            (6, tr("Assumed"), _sentences(row.word("assumed"), tr("Nothing: all was given."))),
        )
        self.sheet.hairline(top)
        ends: dict[int, float] = {}
        for place, head, body in columns:
            if not body:
                continue
            y = ends.get(place, top + 1.2)
            important = head == columns[0][1]
            self.sheet.text(column(place), y, head, bold=True)
            y += line_height(inks.TEXT_PT)
            room = FOOT_MM - y - 0.5
            points = inks.TEXT_PT if important or place else inks.NOTE_PT
            lines = page.wrapped(body, span(6), points)
            if len(lines) * line_height(points) > room - (8.0 if important else 0.0):
                points = inks.NOTE_PT
                lines = page.wrapped(body, span(6), points)
            most = max(1, int(room / line_height(points)))
            if len(lines) > most:
                lines = lines[:most]
                lines[-1] = page.shortened(lines[-1] + " " + tr("… all of it in the holds layer"), span(6), points)
            ends[place] = self.sheet.texts(column(place), y, lines, points) + 1.0

    # -- pictures ---------------------------------------------------------------------------------------------

    def _pictures(self, row: Row, top: float) -> None:
        """Left the hold with its area and navaid, right the pattern by itself and the norths."""
        sheet = self.sheet
        local = self._local(row.number("lon"), row.number("lat"))
        key = row.word("hold")
        areas = local.copy(self.layers["areas"], self.by_hold["areas"].get(key, []))
        tracks = local.copy(self.layers["tracks"], self.by_hold["tracks"].get(key, []))
        patterns = local.copy(self.layers["patterns"], self.by_hold["patterns"].get(key, []))
        fix = self.fixes.get(row.word("fix"))
        fixes = local.copy(self.layers["fixes"], [fix] if fix else [])
        station = _station(row)
        there = local.point(*station) if station else None

        picture.only_obstacle(patterns)
        box = picture.box_of([areas, patterns, tracks])
        box.combineExtentWith(0.0, 0.0)
        scale, seen = picture.fitted([(box, 6.0)], MAIN_MM, PICTURE_MM)
        if there:
            wider = [(box, 6.0), (QgsRectangle(there, there), ROSE_MM / 2.0 + 2.0)]
            with_navaid = picture.fitted(wider, MAIN_MM, PICTURE_MM)
            if with_navaid[0] <= NAVAID_SHARE * scale:
                scale, seen = with_navaid
        navaids = self._navaids(local, seen)
        picture.widen_roses(navaids, ROSE_MM)
        for layer in (fixes, tracks, navaids):
            picture.label_at_every_scale(layer)
        lines = self._defining(local, row, there, scale, self._on_dme(fix)) if there else []
        order = [fixes, navaids, tracks, patterns, *lines, areas]
        item = picture.put_map(sheet, local, order, seen, LEFT, top, MAIN_MM, PICTURE_MM)
        below = top + PICTURE_MM + 1.0
        picture.put_scale_bar(sheet, item, scale, LEFT, below + 0.2, 40.0)
        tinted = tr("Tinted: basic area for {} kt.").format(f"{row.number('area_ias_kt'):.0f}")
        caption = f"{tinted if areas.featureCount() else ''}   {_scale_text(scale)}"
        sheet.text(LEFT + MAIN_MM, below, caption.strip(), inks.NOTE_PT, right=True)
        if there and not seen.contains(there):
            far = page.shortened(self._far_note(row, there), MAIN_MM - 50.0, inks.NOTE_PT)
            sheet.text(LEFT + MAIN_MM, below + line_height(inks.NOTE_PT), far, inks.NOTE_PT, right=True)

        box = picture.box_of([patterns, tracks])
        box.combineExtentWith(0.0, 0.0)
        left = column(8)
        scale, seen = picture.fitted([(box, 5.0)], SIDE_MM, DETAIL_MM)
        mark = local.copy(self.layers["fixes"], [fix] if fix else [])
        mark.setLabelsEnabled(False)  # its name stands above and on the other map
        beside = self._navaids(local, seen)
        picture.without_roses(beside)
        item = picture.put_map(sheet, local, [mark, beside, tracks, patterns], seen, left, top, SIDE_MM, DETAIL_MM)
        below = top + DETAIL_MM + 1.0
        picture.put_scale_bar(sheet, item, scale, left, below + 0.2, 24.0)
        sheet.text(left + SIDE_MM, below, _scale_text(scale), inks.NOTE_PT, right=True)
        self._norths(row, left, below + 8.0, top + PICTURE_MM)

    def _on_dme(self, fix: QgsFeature | None) -> bool:
        return bool(fix) and _row(fix).word("method") == "radial_distance" and math.isfinite(_row(fix).number("dme_nm"))

    def _defining(self, local: picture.Local, row: Row, there: QgsPointXY, scale: float, arc: bool) -> list:
        """The line from the navaid to the fix and the arc across its end; a dotted line where neither defines it."""
        here = QgsPointXY(0.0, 0.0)
        length = there.distance(here)
        if length < 1.0:
            return []
        distance = text.format_nm(row.number("dist_nm"))
        method = row.word("method")
        if method == "radial_distance":
            word = "B" if row.word("navaid_kind").startswith("NDB") else "R"
            label = f"{word}{figures.radial(row.number('radial_deg'))}  {distance}"
        elif method == "along_track":
            label = distance
        else:
            label = ""
        style = "solid" if label else "dot"
        lines = [([there, here], label, style)]
        if arc and method == "radial_distance":
            half = ARC_MM * scale / 1000.0 / length
            toward = math.atan2(here.x() - there.x(), here.y() - there.y())
            swept = [toward + half * (k / 12.0 - 1.0) for k in range(25)]
            points = [
                QgsPointXY(there.x() + length * math.sin(a), there.y() + length * math.cos(a)) for a in swept
            ]
            lines.append((points, "", "solid"))
        return local.lines(lines)

    def _far_note(self, row: Row, there: QgsPointXY) -> str:
        """Where the navaid is that lies beyond the map."""
        course = picture.bearing(QgsPointXY(0.0, 0.0), there) - row.number("var_deg")
        return tr("{} is {} from the fix, on course {}").format(
            row.word("navaid"), text.format_nm(row.number("dist_nm")), figures.course(course % 360.0)
        )

    def _norths(self, row: Row, left: float, top: float, bottom: float) -> None:
        """True north, the model's and the station's, from one foot, with their angles in figures."""
        sheet = self.sheet
        variation, declination = row.number("var_deg"), row.number("navaid_decl_deg")
        varies = tr("variation {}").format(text.format_variation(variation))
        is_set = tr("set to {}").format(text.format_variation(declination))
        arrows = [
            (0.0, 22.0, "N", (), tr("true, up")),
            (variation, 17.0, "M", (1.6, 0.8), varies),
            (declination, 12.0, row.word("navaid"), (0.6, 0.6), is_set),
        ]
        arrows = [arrow for arrow in arrows if math.isfinite(arrow[0])]
        west = min(angle for angle, *_ in arrows) < 0.0
        most_left = min(length * math.sin(math.radians(angle)) for angle, length, *_ in arrows)
        foot_x = left + NORTHS_MM / 2.0 + (4.0 if most_left < -NORTHS_MM / 4.0 else 0.0)
        foot_y = bottom - 0.5
        text_x, room = left + NORTHS_MM + GUTTER_MM, SIDE_MM - NORTHS_MM - GUTTER_MM
        sheet.text(left, top, tr("Norths"), bold=True)
        y = top + line_height(inks.TEXT_PT) + 0.5
        for angle, length, letter, dashes, note in arrows:
            sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
            length = min(length, NORTHS_MM / 2.0 / max(abs(sine), 1e-9))
            tip_x, tip_y = foot_x + length * sine, foot_y - length * max(cosine, 0.0)
            sheet.rule([(foot_x, foot_y), (tip_x, tip_y)], 0.3, inks.BLACK, dashes, 1.4)
            to_left = angle < 0.0 or (angle == 0.0 and not west)
            sheet.text(tip_x + (-1.2 if to_left else 1.2), tip_y - 1.0, letter, inks.NOTE_PT, bold=True, right=to_left)
            lines = page.wrapped(f"{letter}  {note}", room, inks.NOTE_PT)[:2]
            y = sheet.texts(text_x, y, lines, inks.NOTE_PT) + 0.6
        more = tr("Model of {}. Courses on the maps are magnetic.").format(row.word("var_date"))
        sheet.texts(text_x, y, page.wrapped(more, room, inks.NOTE_PT), inks.NOTE_PT, ink=inks.GREY)

    # -- what maps need ---------------------------------------------------------------------------------------

    def _local(self, lon: float, lat: float) -> picture.Local:
        local = picture.Local(self.project, lon, lat)
        self.locals.append(local)
        return local

    def _navaids(self, local: picture.Local, seen: QgsRectangle) -> QgsVectorLayer:
        """The navaids that a map shows."""

        def inside(geometry: QgsGeometry) -> bool:
            return geometry.type() == QgsWkbTypes.GeometryType.PointGeometry and seen.intersects(geometry.boundingBox())

        return local.copy(self.layers["navaids"], [feature for feature, _ in self.navaids], inside)

    def _navaid_of(self, row: Row) -> Row:
        """The navaid that defines a hold's fix: of its ident, the nearest to the place the hold knows."""
        station = _station(row)
        best, least = Row(), math.inf
        for feature, navaid in self.navaids:
            if not station or navaid.word("ident").upper() != row.word("navaid").upper():
                continue
            place = _lon_lat(feature, self.layers["navaids"], self.project)
            if place:
                _, _, apart = geodesy.inverse(*station, *place)
                if float(apart) < least:
                    best, least = navaid, float(apart)
        return best

    def export(self, path: str) -> None:
        """Write the PDF beside its place and put it there when it is whole.

        Errors: QgsProcessingException, and then no new file is there.
        """
        beside = f"{path}.part.pdf"
        settings = QgsLayoutExporter.PdfExportSettings()
        settings.textRenderFormat = Qgis.TextRenderFormat.AlwaysText
        settings.rasterizeWholeImage = False
        settings.appendGeoreference = False
        settings.exportMetadata = True
        try:
            exporter = QgsLayoutExporter(self.layout)
            result = exporter.exportToPdf(beside, settings)
            if result != QgsLayoutExporter.ExportResult.Success or not _is_pdf(beside):
                reason = getattr(exporter, "errorMessage", lambda: "")() or tr("result {}").format(result)
                raise QgsProcessingException(tr("The briefing {} cannot be written: {}").format(path, reason))
            os.replace(beside, path)
        except OSError as error:
            raise QgsProcessingException(tr("The briefing {} cannot be written: {}").format(path, error)) from error
        finally:
            with contextlib.suppress(OSError):
                Path(beside).unlink()

    def close(self) -> None:
        """Let go of layout and layers in an order that QGIS survives."""
        for item in self.layout.items():
            if hasattr(item, "setLayers"):
                item.setLayers([])
        self.sheet = None
        self.layout = None
        self.locals.clear()
        self.project = None


def print_briefing(
    layers: dict[str, QgsVectorLayer], path: str, *, title: str = "", navaid_data: str = "",
    made: datetime.date | None = None,
) -> int:  # fmt: skip
    """Print the briefing of a training area.

    Parameters: layers, valid vector layers by name, all of LAYERS, with the fields of their schema and the styles
    they are to have; path of the PDF; title; navaid_data, what and of when the navaids are; made, today (UTC) where
    it is None. Call in the main thread. Returns: number of pages.
    Errors: ValueError for layers that are missing or without a hold; QgsProcessingException where the file cannot
    be written, and then an older file of that name is still there.
    """
    briefing = Briefing(
        layers, title or tr("Training area"), navaid_data, made or datetime.datetime.now(datetime.timezone.utc).date()
    )
    try:
        if not briefing.holds:
            raise ValueError("the layer holds has no rows, so there is nothing to brief")
        briefing.set()
        briefing.export(path)
        return briefing.sheet.page_count
    finally:
        briefing.close()


def _all(layer: QgsVectorLayer) -> list[QgsFeature]:
    return list(layer.getFeatures(QgsFeatureRequest()))


def _row(feature: QgsFeature) -> Row:
    return Row(zip(feature.fields().names(), feature.attributes()))


def _by_hold(layer: QgsVectorLayer) -> dict[str, list[QgsFeature]]:
    found: dict[str, list[QgsFeature]] = {}
    for feature in _all(layer):
        found.setdefault(_row(feature).word("hold"), []).append(feature)
    return found


def _station(row: Row) -> tuple[float, float] | None:
    lon, lat = row.number("navaid_lon"), row.number("navaid_lat")
    return (lon, lat) if math.isfinite(lon) and math.isfinite(lat) else None


def _lon_lat(feature: QgsFeature, layer: QgsVectorLayer, project: QgsProject) -> tuple[float, float] | None:
    from qgis.core import QgsCoordinateReferenceSystem, QgsCoordinateTransform

    geometry = QgsGeometry(feature.geometry())
    if geometry.isNull() or geometry.isEmpty():
        return None
    to_wgs84 = QgsCoordinateTransform(
        layer.crs(), QgsCoordinateReferenceSystem("EPSG:4326"), project.transformContext()
    )
    geometry.transform(to_wgs84)
    point = next(geometry.vertices())
    return point.x(), point.y()


def _scale_text(scale: float) -> str:
    return "1 : " + text.format_altitude(scale)[:-3]


def _sentences(joined: str, empty: str) -> str:
    """Sentences joined with semicolons, the first letter a capital, a full stop at the end."""
    if not joined:
        return empty
    return joined[0].upper() + joined[1:] + ("" if joined.endswith(".") else ".")


def _is_pdf(path: str) -> bool:
    try:
        with open(path, "rb") as file:
            return file.read(5) == b"%PDF-"
    except OSError:
        return False
