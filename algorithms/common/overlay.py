"""A map on clear ground at a scale, as a georeferenced PDF or a PNG with a world file."""

from __future__ import annotations

import math
import os
import shutil
import tempfile
from typing import NamedTuple

from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsFillSymbol,
    QgsLayoutExporter,
    QgsLayoutItemLabel,
    QgsLayoutItemMap,
    QgsLayoutItemPage,
    QgsLayoutPoint,
    QgsLayoutSize,
    QgsMapLayer,
    QgsPointXY,
    QgsPrintLayout,
    QgsProcessingException,
    QgsProject,
    QgsProjectMetadata,
    QgsRectangle,
    QgsUnitTypes,
)
from qgis.PyQt.QtGui import QColor, QFont

from .texts import caution, tr

MM_PER_INCH = 25.4
PDF_DPI, PDF_STEP = 72.0, 12
"""Pages come in whole points; in dozens of them a page is whole pixels at 150 and at 300 dots an inch too."""
MOST_PIXELS = 60_000_000
"""A picture of more would take more than a gigabyte of memory while it is drawn. Our own choice."""
MOST_MM = 5_000.0
"""PDF readers draw pages up to 200 inches. Source: ISO 32000-1, annex C.2."""
NOTE_PT = 7.0
NOTE_MM, NOTE_WIDTH_MM = 4.0, 100.0
"""Room for the scale and the caution in one line, which is never left out."""


class Frame(NamedTuple):
    """A picture's frame: its size in dots and how many go to an inch, the extent in the projection, a dot's size there.

    A dot is a pixel of a PNG; of a PDF it is a point, since pages come in whole points.
    """

    width_px: int
    height_px: int
    dpi: float
    extent: QgsRectangle
    pixel: float

    @property
    def width_mm(self) -> float:
        return self.width_px * MM_PER_INCH / self.dpi

    @property
    def height_mm(self) -> float:
        return self.height_px * MM_PER_INCH / self.dpi


def frame_for(extent: QgsRectangle, scale: float, dpi: float, units_per_metre: float, step: int = 1) -> Frame:
    """The frame about the middle of an extent that is 1 : scale there, large enough for the line of words.

    step: the frame is so many dots wide and high, or a multiple; units_per_metre: how long a metre on the ground at
    the middle is in the projection, by its units and its own enlargement there.
    """
    pixel = scale * MM_PER_INCH / 1000.0 / dpi * units_per_metre
    least = (mm / MM_PER_INCH * dpi for mm in (NOTE_WIDTH_MM, NOTE_MM))
    sides = (max(side / pixel, dots) for side, dots in zip((extent.width(), extent.height()), least))
    width, height = (step * math.ceil(dots / step - 1e-9) for dots in sides)
    x, y = extent.center().x(), extent.center().y()
    half_x, half_y = width * pixel / 2.0, height * pixel / 2.0
    return Frame(width, height, dpi, QgsRectangle(x - half_x, y - half_y, x + half_x, y + half_y), pixel)


def frame_problem(frame: Frame, scale: float, kind: str) -> str:
    """Why a frame is too large, in a sentence; '' where it is not."""
    if kind == "png" and frame.width_px * frame.height_px > MOST_PIXELS:
        return tr(
            "SCALE 1 : {} at DPI {} gives a picture of {} by {} pixels; the most is {} in all: choose a smaller scale, "
            "fewer dots or a smaller EXTENT."
        ).format(f"{scale:.0f}", f"{frame.dpi:g}", frame.width_px, frame.height_px, MOST_PIXELS)
    if kind == "pdf" and max(frame.width_mm, frame.height_mm) > MOST_MM:
        return tr(
            "SCALE 1 : {} gives a page of {} by {} mm; the most is {} mm: choose a smaller scale or EXTENT."
        ).format(f"{scale:.0f}", f"{frame.width_mm:.0f}", f"{frame.height_mm:.0f}", f"{MOST_MM:.0f}")
    return ""


def draw(
    layers: list[QgsMapLayer], crs: QgsCoordinateReferenceSystem, frame: Frame, dpi: float, kind: str, title: str,
    note: str,
) -> dict[str, bytes]:  # fmt: skip
    """Draw layers, the topmost first. dpi, of what is drawn as pixels; kind, pdf or png. Call in the main thread.

    Returns: the file's parts by ending, the main one last: for a PNG its world file, its .prj and .aux.xml.
    Errors: QgsProcessingException where it cannot be drawn, or is not georeferenced.
    """
    from osgeo import gdal

    project = QgsProject()
    layout, item = None, None
    folder = tempfile.mkdtemp(prefix="fixwright-overlay-")
    path = os.path.join(folder, f"overlay.{kind}")
    gdal.PushErrorHandler("CPLQuietErrorHandler")  # QGIS lets GDAL try what a format does not have
    try:
        layout, item = _layout(project, layers, crs, frame, dpi, title, note)
        exporter = QgsLayoutExporter(layout)
        result = exporter.exportToPdf(path, _pdf(dpi)) if kind == "pdf" else exporter.exportToImage(path, _png(frame))
        if result != QgsLayoutExporter.ExportResult.Success:
            why = getattr(exporter, "errorMessage", lambda: "")() or tr("result {}").format(result)
            raise QgsProcessingException(tr("The overlay cannot be drawn: {}").format(why))
        (_georeference_png if kind == "png" else _georeference_pdf)(path, crs, frame, title, note)
        _look(path, frame)
        endings = ("pdf",) if kind == "pdf" else ("pgw", "prj", "png.aux.xml", "png")
        return {ending: _read(f"{path[:-4]}.{ending}") for ending in endings}
    finally:
        if item is not None:
            item.setLayers([])
        del item, layout, project
        gdal.PopErrorHandler()
        shutil.rmtree(folder, ignore_errors=True)


def _layout(project, layers, crs, frame: Frame, dpi: float, title: str, note: str):
    """A page without a ground, a map that fills it, a line of words in the corner."""
    project.setCrs(crs)
    about = QgsProjectMetadata()
    about.setTitle(title)
    about.setAuthor("")
    about.setAbstract(caution())
    project.setMetadata(about)
    layout = QgsPrintLayout(project)
    layout.renderContext().setDpi(dpi)
    millimetres = QgsUnitTypes.LayoutUnit.LayoutMillimeters
    size = QgsLayoutSize(frame.width_mm, frame.height_mm, millimetres)
    pages = layout.pageCollection()
    pages.clear()
    page = QgsLayoutItemPage(layout)
    page.setPageSize(size)
    page.setPageStyleSymbol(QgsFillSymbol.createSimple({"style": "no", "outline_style": "no"}))
    pages.addPage(page)
    item = QgsLayoutItemMap(layout)
    layout.addLayoutItem(item)
    item.setBackgroundEnabled(False)
    item.setFrameEnabled(False)
    item.setKeepLayerSet(True)
    item.setLayers(layers)
    item.setCrs(crs)
    item.setExtent(frame.extent)  # a new map item has no extent, and then does not take one by its size
    item.attemptMove(QgsLayoutPoint(0.0, 0.0, millimetres))
    item.attemptResize(size)
    item.setExtent(frame.extent)
    layout.setReferenceMap(item)
    words = QgsLayoutItemLabel(layout)
    words.setText(note)
    words.setBackgroundEnabled(False)
    face = QFont("DejaVu Sans")
    face.setPointSizeF(NOTE_PT)
    words.setFont(face)
    words.setFontColor(QColor("#000000"))
    layout.addLayoutItem(words)
    words.attemptMove(QgsLayoutPoint(1.0, max(0.0, frame.height_mm - NOTE_MM), millimetres))
    words.attemptResize(QgsLayoutSize(max(1.0, frame.width_mm - 2.0), NOTE_MM, millimetres))
    return layout, item


def _pdf(dpi: float):
    settings = QgsLayoutExporter.PdfExportSettings()
    settings.dpi = dpi
    settings.textRenderFormat = Qgis.TextRenderFormat.AlwaysText
    settings.rasterizeWholeImage = False
    settings.forceVectorOutput = False
    settings.appendGeoreference = False  # QGIS rounds the page to whole pixels downwards, which is up to a pixel off
    settings.exportMetadata = True
    return settings


def _png(frame: Frame):
    from qgis.PyQt.QtCore import QSize

    settings = QgsLayoutExporter.ImageExportSettings()
    settings.dpi = frame.dpi
    settings.imageSize = QSize(frame.width_px, frame.height_px)
    settings.generateWorldFile = False
    settings.exportMetadata = True
    return settings


def geotransform(frame: Frame) -> tuple[float, ...]:
    """GDAL's six numbers: the upper left corner of the upper left pixel, and the steps from pixel to pixel."""
    return frame.extent.xMinimum(), frame.pixel, 0.0, frame.extent.yMaximum(), 0.0, -frame.pixel


def _georeference_png(path: str, crs, frame: Frame, title: str, note: str) -> None:
    """World file (the middle of the first pixel, by custom), .prj, and what GDAL keeps beside a picture."""
    x, step, _, y, _, down = geotransform(frame)
    numbers = (step, 0.0, 0.0, down, x + step / 2.0, y + down / 2.0)
    with open(f"{path[:-4]}.pgw", "w", encoding="ascii") as file:
        file.write("".join(f"{number:.12f}\n" for number in numbers))
    with open(f"{path[:-4]}.prj", "w", encoding="ascii", errors="replace") as file:
        file.write(crs.toWkt(QgsCoordinateReferenceSystem.WktVariant.WKT1_ESRI))
    picture = _opened(path, update=False)
    picture.SetProjection(_wkt(crs))
    picture.SetGeoTransform(geotransform(frame))
    picture.SetMetadata({"TITLE": title, "DESCRIPTION": note, "CAUTION": caution()})
    picture = None


def _georeference_pdf(path: str, crs, frame: Frame, title: str, note: str) -> None:
    """The page's corners, by GDAL's own pixels of it; title and caution stand in the file already."""
    page = _opened(path, update=True)
    x, step, _, y, _, down = geotransform(frame)
    across, along = frame.width_px / page.RasterXSize, frame.height_px / page.RasterYSize
    page.SetProjection(_wkt(crs))
    page.SetGeoTransform((x, step * across, 0.0, y, 0.0, down * along))
    page = None


def _wkt(crs: QgsCoordinateReferenceSystem) -> str:
    return crs.toWkt(QgsCoordinateReferenceSystem.WktVariant.WKT_PREFERRED_GDAL)


def _opened(path: str, update: bool):
    """A file opened by GDAL.

    Errors: QgsProcessingException where this GDAL cannot: not every one reads a PDF.
    """
    from osgeo import gdal

    try:
        made = gdal.Open(path, gdal.GA_Update if update else gdal.GA_ReadOnly)
    except RuntimeError:
        made = None
    if made is None:
        kind = path[-3:].upper()
        raise QgsProcessingException(
            tr("The {} could not be georeferenced: GDAL here does not read it; choose another FORMAT.").format(kind)
        )
    return made


def _look(path: str, frame: Frame) -> None:
    """Read the file back: its corners must be where they were drawn, to half a pixel as GDAL reads them.

    Errors: QgsProcessingException where they are not.
    """
    made = _opened(path, update=False)
    found, size = made.GetGeoTransform(can_return_null=True), (made.RasterXSize, made.RasterYSize)
    made = None
    box = frame.extent
    wanted = QgsPointXY(box.xMinimum(), box.yMaximum()), QgsPointXY(box.xMaximum(), box.yMinimum())
    for (i, j), corner in zip(((0, 0), size), wanted):
        place = found or (math.nan,) * 6
        at = QgsPointXY(place[0] + i * place[1] + j * place[2], place[3] + i * place[4] + j * place[5])
        if not at.distance(corner) <= 0.5 * abs(place[1]):
            raise QgsProcessingException(tr("The overlay's corners are not where they belong; nothing was written."))


def _read(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read()
