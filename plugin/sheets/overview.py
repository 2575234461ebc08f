"""The first page: a map of everything and the index of holds."""

from __future__ import annotations

from qgis.core import QgsFeature, QgsRectangle

from ...algorithms.common import local as local_crs
from ...algorithms.common.texts import tr
from ..styles import inks
from . import areamap, figures, page, picture, surroundings
from .content import Content
from .figures import Row
from .holdmap import copied, scale_text
from .page import GUTTER_MM, Sheet, line_height

MAP_MM = (0.36, 0.6)
"""Least and greatest height of the map, in heights of the page; the index takes the rest."""
MARK_LETTERS = 12
"""Longer names of holds stand in the index only; the map then shows numbers."""
NAME_MM = 44.0
BROKEN = " !"
SHOWN = ("fixes", "patterns", "tracks", "areas")


class Overview:
    """The overview; answers, whether what the holds are may be seen."""

    def __init__(self, sheet: Sheet, content: Content, answers: bool = True):
        self.sheet, self.content, self.answers = sheet, content, answers
        self.paper = sheet.paper
        self.numbered = any(len(row.word("hold")) > MARK_LETTERS for _, row in content.holds)
        self.cells: list[tuple[int, float]] = []

    def put(self) -> None:
        """Map and index."""
        sheet, paper = self.sheet, self.paper
        sheet.new_page()
        count = len(self.content.holds)
        holds = tr("{} hold").format(count) if count == 1 else tr("{} holds").format(count)
        room = paper.right - paper.left - page.text_width(holds, inks.FIGURE_PT, True) - GUTTER_MM
        title = page.shortened(self.content.title, room, inks.NAME_PT, True)
        sheet.text(paper.left, 12.0, title, inks.NAME_PT, bold=True)
        sheet.text(paper.right, 13.6, holds, inks.FIGURE_PT, bold=True, right=True)
        index = self._rows()
        spare = paper.foot - 22.0 - 9.0 - 11.0 - sum(rows[-1] for rows in index)
        least, most = (share * paper.height_mm for share in MAP_MM)
        height = max(least, min(most, spare))
        self._map(22.0, height)
        self._index(index, 22.0 + height + 9.0)

    def number_pages(self, pages: list[int]) -> None:
        """Page numbers of the holds into the index, when they are known."""
        for (index_page, y), number in zip(self.cells, pages):
            self.sheet.go_to(index_page)
            self.sheet.text(self.paper.right, y, str(number), right=True)

    def _map(self, top: float, tall: float) -> None:
        sheet, paper, content = self.sheet, self.paper, self.content
        layers = content.layers
        local = content.local(
            *local_crs.middle(*([row.number(name) for _, row in content.holds] for name in ("lon", "lat")))
        )
        width = paper.right - paper.left
        shown = SHOWN if self.answers else ()
        drawn = {name: local.copy(layers[name], layers[name].getFeatures()) for name in shown}
        places = []
        if self.answers:
            drawn["holds"] = local.copy(layers["holds"], self._marked())
            for name in ("patterns", "holds"):
                picture.only_obstacle(drawn[name])
            for name in ("fixes", "tracks"):  # the holds' labels and the index name them
                drawn[name].setLabelsEnabled(False)
            picture.name_by(drawn["holds"], "hold")
            box = picture.box_of([drawn["fixes"], drawn["tracks"]])
            for feature in areamap.inner(drawn["areas"]):
                box.combineExtentWith(feature.geometry().boundingBox())
            places.append((box, 6.0))
        named = {(row.word("navaid"), round(row.number("navaid_lon"), 4)) for _, row in content.holds}
        for feature, row in content.navaids:
            place = content.lon_lat(feature, "navaids")
            if place and (not self.answers or (row.word("ident"), round(place[0], 4)) in named):
                point = local.point(*place)
                places.append((QgsRectangle(point, point), 9.0))
        scale, seen = picture.fitted(places, width, tall)
        navaids = content.seen_navaids(local, seen, scale)
        if scale > 1_500_000.0:
            picture.without_roses(navaids)
        order = [navaids]
        if self.answers:
            order = [drawn["holds"], drawn["fixes"], navaids, drawn["tracks"], drawn["patterns"]]
            order += areamap.tinted(local, drawn["areas"])
        order += surroundings.airspace(content, local, seen) + surroundings.beneath(content)
        item = picture.put_map(sheet, local, order, seen, paper.left, top, width, tall)
        below = top + tall + 1.2
        picture.put_scale_bar(sheet, item, scale, paper.left, below, 40.0)
        sheet.text(paper.column(4), below + 1.5, scale_text(scale), inks.NOTE_PT)
        sheet.text(paper.right, below + 1.5, tr("True north is up in the middle. Courses are magnetic."), inks.NOTE_PT,
                   right=True)  # fmt: skip

    def _marked(self) -> list[QgsFeature]:
        """The holds as the map calls them: by name, or by number where the names are long; and that they fail."""
        return [
            copied(feature, hold=(str(number) if self.numbered else row.word("hold")) + self._mark(row))
            for number, (feature, row) in enumerate(self.content.holds, start=1)
        ]

    def _rows(self) -> list[tuple[Row, list[str], list[str], float]]:
        """Rows of the index: the hold, its name and its fix in lines, and how tall that is."""
        holds = [row for _, row in self.content.holds]
        names = [row.word("hold") for row in holds]
        if self.numbered:
            names = [f"{number}  {name}" for number, name in enumerate(names, start=1)]
        marks = [self._mark(row) if self.answers else "" for row in holds]
        widest = max(page.text_width(name + mark, inks.TEXT_PT, True) for name, mark in zip(names, marks))
        name_mm = max(12.0, min(NAME_MM, widest + 1.0))
        self.fix_x = self.paper.left + name_mm + 3.0
        self.altitude_x = self.paper.left + 101.0
        rows = []
        for name, mark, row in zip(names, marks, holds):
            name = page.clipped(name + mark, name_mm, inks.TEXT_PT, 5, True) or [""]
            said = row.word("fix") if self.answers else ""
            fix = page.clipped(said, self.altitude_x - 25.0 - self.fix_x, inks.TEXT_PT, 5)
            rows.append((row, name, fix, max(len(name), len(fix)) * line_height(inks.TEXT_PT) + 0.9))
        return rows

    def _mark(self, row: Row) -> str:
        if self.content.failed(row):
            return " " + tr("FAILS")
        return BROKEN if row.word("limits") else ""

    def _index(self, rows: list[tuple[Row, list[str], list[str], float]], top: float) -> None:
        """The table of holds, over as many pages as it takes."""
        paper, left = self.paper, self.paper.left
        columns = [(tr("Hold"), left, False)]  # head, left or right edge, right-aligned
        if self.answers:
            columns.append((tr("Fix"), self.fix_x, False))
        columns.append((tr("Altitude, ft"), self.altitude_x, True))
        if self.answers:
            columns += [
                (tr("Inbound"), left + 117.0, True), (tr("Turns"), left + 123.0, False),
                (tr("Leg"), left + 135.0, False), (tr("IAS, kt"), left + 175.0, True),
            ]  # fmt: skip
        columns.append((tr("Page"), paper.right, True))
        y = self._head(columns, top)
        for row, name, fix, height in rows:
            if y + height > paper.foot - 6.0:
                self.sheet.new_page()
                title = page.shortened(self.content.title, paper.right - left, inks.NAME_PT, True)
                self.sheet.text(left, 12.0, title, inks.NAME_PT, bold=True)
                y = self._head(columns, 24.0)
            self.sheet.texts(left, y, name, bold=True)
            self.sheet.text(self.altitude_x, y, figures.altitude(row).replace(" ft", ""), right=True)
            if self.answers:
                self.sheet.texts(self.fix_x, y, fix)
                cells = (
                    figures.course(row.number("inbound_model_deg")),
                    figures.turns(row),
                    figures.leg(row),
                    f"{row.number('ias_kt'):.0f}",
                )
                for (_, x, right), value in zip(columns[3:7], cells):
                    self.sheet.text(x, y, value, right=right)
            self.cells.append((self.sheet.page_count - 1, y))
            y += height
        if self.answers:
            self._legend(rows, y)

    def _legend(self, rows, y: float) -> None:
        notes = []
        if any(self._mark(row) == BROKEN for row, *_ in rows):
            notes.append(tr("!  a limit is broken: see the hold's page"))
        if any(self.content.failed(row) for row, *_ in rows):
            notes.append(tr("FAILS  a test does not hold: not to be flown as it is"))
        self.sheet.text(self.paper.left, y + 1.0, "    ".join(notes), inks.NOTE_PT)

    def _head(self, columns, y: float) -> float:
        for head, x, right in columns:
            self.sheet.text(x, y, head, inks.NOTE_PT, ink=inks.GREY, right=right)
        y += line_height(inks.NOTE_PT) + 0.6
        self.sheet.hairline(y)
        return y + 0.9
