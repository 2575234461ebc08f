"""The briefing: an overview of a training area, then the pages of its holds, as a PDF or as pictures."""

from __future__ import annotations

import contextlib
import datetime
import os
import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from qgis.core import (
    Qgis,
    QgsLayoutExporter,
    QgsMapLayer,
    QgsPrintLayout,
    QgsProcessingException,
    QgsVectorLayer,
)

from ...algorithms.common.texts import caution, tr
from ..styles import inks
from . import cards, figures, holdpage, knee, page, student, talk
from .content import NEEDED, Content
from .overview import Overview
from .page import GUTTER_MM, Sheet

PNG_DPI = 150.0
LAYERS = NEEDED


@dataclass
class Options:
    """How a briefing is printed.

    edition, of algorithms.briefingsheet.EDITIONS; paper, a name of page.PAPERS, for a talk always 16:9; png, pictures
    of the pages instead of a PDF: path is then a folder; overview, whether instructor and student have one before the
    holds; title; navaid_data, what and of when the navaids are; made, today (UTC) where it is None; aircraft, words of
    the equipment by name; airspace layers; under, layers below everything, topmost first; cancelled(), asked between
    pages; progress(share).
    """

    edition: str = "instructor"
    paper: str = page.A4.name
    png: bool = False
    overview: bool = True
    title: str = ""
    navaid_data: str = ""
    made: datetime.date | None = None
    aircraft: dict[str, str] = field(default_factory=dict)
    airspace: list[QgsVectorLayer] = field(default_factory=list)
    under: list[QgsMapLayer] = field(default_factory=list)
    cancelled: Callable[[], bool] = lambda: False
    progress: Callable[[float], None] = lambda share: None


class Cancelled(Exception):
    """The user stopped it; nothing was put in its place."""


class Briefing:
    """One run: layers by name in, pages out."""

    def __init__(self, layers: dict[str, QgsVectorLayer], options: Options):
        self.options = options
        self.content = Content(layers, options.title or tr("Training area"), options.aircraft)
        self.content.airspace, self.content.under = options.airspace, options.under
        made = options.made or datetime.datetime.now(datetime.timezone.utc).date()
        self.made = made.isoformat()
        self.layout = QgsPrintLayout(self.content.project)
        self.layout.setName(tr("Briefing"))
        papers = {paper.name: paper for paper in page.PAPERS}
        self.sheet = Sheet(self.layout, page.WIDE if options.edition == "talk" else papers[options.paper])

    def set(self) -> None:
        """Set all pages. Errors: Cancelled."""
        holds = [row for _, row in self.content.holds]
        edition = self.options.edition
        overview = None
        if edition in ("instructor", "student") and self.options.overview:
            overview = Overview(self.sheet, self.content, answers=edition == "instructor")
            overview.put()
        pages = []
        pairs = [holds[i : i + 2] for i in range(0, len(holds), 2)] if edition == "knee" else [[hold] for hold in holds]
        putters = {"instructor": holdpage.put, "student": student.put, "talk": talk.put, "card": cards.put}
        for number, pair in enumerate(pairs):
            if self.options.cancelled():
                raise Cancelled
            pages.append(self.sheet.page_count + 1)
            if edition == "knee":
                knee.put_pair(self.sheet, self.content, pair)
            else:
                putters[edition](self.sheet, self.content, pair[0])
            self.options.progress(0.5 * (number + 1) / len(pairs))
        if overview:
            overview.number_pages(pages)
        for number in range(self.sheet.page_count):
            self.sheet.go_to(number)
            self._foot(number + 1)
        self.sheet.finish()

    def _foot(self, number: int) -> None:
        """Caution, dates and page, on every page."""
        sheet, paper = self.sheet, self.sheet.paper
        sheet.hairline(paper.foot)
        wide = paper.right - paper.left
        y = sheet.texts(paper.left, paper.foot + 0.8, page.balanced(caution(), wide, inks.NOTE_PT)[:2], inks.NOTE_PT)
        dates = sorted({row.word("var_date") for _, row in self.content.holds} - {""})
        facts = tr("Navaid data: {}.  Variation: World Magnetic Model 2025 of {}.  Made {}.").format(
            self.options.navaid_data or tr("no date given"), ", ".join(dates) or figures.DASH, self.made
        )
        folio = tr("Page {} of {}").format(number, sheet.page_count)
        room = wide - page.text_width(folio, inks.NOTE_PT) - GUTTER_MM
        sheet.text(paper.left, y, page.shortened(facts, room, inks.NOTE_PT), inks.NOTE_PT)
        sheet.text(paper.right, y, folio, inks.NOTE_PT, right=True)

    def export(self, path: str) -> None:
        """Write beside the place and put it there when it is whole. Errors: QgsProcessingException, Cancelled."""
        try:
            if self.options.png:
                self._export_pictures(path)
            else:
                self._export_pdf(path)
        except OSError as error:
            raise QgsProcessingException(tr("The briefing {} cannot be written: {}").format(path, error)) from error

    def _export_pdf(self, path: str) -> None:
        beside = f"{path}.part.pdf"
        settings = QgsLayoutExporter.PdfExportSettings()
        settings.textRenderFormat = Qgis.TextRenderFormat.AlwaysText
        settings.rasterizeWholeImage = False
        settings.appendGeoreference = False
        settings.exportMetadata = True
        try:
            exporter = QgsLayoutExporter(self.layout)
            result = exporter.exportToPdf(beside, settings)
            self._whole(exporter, result, _is_pdf(beside), path)
            os.replace(beside, path)
        finally:
            with contextlib.suppress(OSError):
                Path(beside).unlink()

    def _export_pictures(self, folder: str) -> None:
        """Pages as briefing-01.png and so on."""
        os.makedirs(folder, exist_ok=True)
        beside = tempfile.mkdtemp(prefix=".briefing-", dir=folder)
        digits = max(2, len(str(self.sheet.page_count)))
        try:
            for number in range(self.sheet.page_count):
                if self.options.cancelled():
                    raise Cancelled
                exporter = QgsLayoutExporter(self.layout)
                settings = QgsLayoutExporter.ImageExportSettings()
                settings.dpi = PNG_DPI
                settings.pages = [number]
                settings.generateWorldFile = False
                made = os.path.join(beside, "page.png")
                result = exporter.exportToImage(made, settings)
                found = sorted(Path(beside).glob("page*.png"))
                self._whole(exporter, result, len(found) == 1, folder)
                os.replace(found[0], os.path.join(beside, f"briefing-{number + 1:0{digits}d}.png"))
                self.options.progress(0.5 + 0.5 * (number + 1) / self.sheet.page_count)
            for made in sorted(Path(beside).glob("briefing-*.png")):
                os.replace(made, os.path.join(folder, made.name))
        finally:
            shutil.rmtree(beside, ignore_errors=True)

    @staticmethod
    def _whole(exporter: QgsLayoutExporter, result, written: bool, path: str) -> None:
        if result != QgsLayoutExporter.ExportResult.Success or not written:
            reason = getattr(exporter, "errorMessage", lambda: "")() or tr("result {}").format(result)
            raise QgsProcessingException(tr("The briefing {} cannot be written: {}").format(path, reason))

    def close(self) -> None:
        """Let go of layout and layers in an order that QGIS survives."""
        for item in self.layout.items():
            if hasattr(item, "setLayers"):
                item.setLayers([])
        self.sheet = None
        self.layout = None
        self.content.close()


def print_briefing(layers: dict[str, QgsVectorLayer], path: str, **options) -> int:
    """Print the briefing of a training area.

    Parameters: layers, valid vector layers by name, all of LAYERS and any of content.BY_HOLD and slips, with the
    fields of their schema and the styles they are to have; path of the PDF, or of a folder for pictures; options, see
    Options. Call in the main thread. Returns: number of pages; 0 where it was cancelled, and then nothing is written.
    Errors: ValueError for layers that are missing or without a hold; QgsProcessingException where the file cannot
    be written, and then an older file of that name is still there.
    """
    briefing = Briefing(layers, Options(**options))
    try:
        if not briefing.content.holds:
            raise ValueError("the layer holds has no rows, so there is nothing to brief")
        briefing.set()
        if briefing.options.cancelled():
            raise Cancelled
        briefing.export(path)
        return briefing.sheet.page_count
    except Cancelled:
        return 0
    finally:
        briefing.close()


def _is_pdf(path: str) -> bool:
    try:
        with open(path, "rb") as file:
            return file.read(5) == b"%PDF-"
    except OSError:
        return False
