"""Chosen layers on clear ground at a chart's scale, georeferenced."""

from __future__ import annotations

import math
from pathlib import Path

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCsException,
    QgsMapLayer,
    QgsPointXY,
    QgsProcessing,
    QgsProcessingAlgorithm,
    QgsProcessingException,
    QgsProcessingParameterCrs,
    QgsProcessingParameterExtent,
    QgsProcessingParameterMultipleLayers,
    QgsProcessingParameterString,
    QgsRectangle,
    QgsVectorLayer,
    QgsWkbTypes,
)

from .common import local, schema, styling
from .common.fileoutput import FileAlgorithm
from .common.specs import Choice, Number, shown
from .common.texts import tr

FORMATS = ("pdf", "png")
EPSG_4326 = "EPSG:4326"


class ChartOverlay(FileAlgorithm):
    """Chart overlay."""

    ID = "chartoverlay"
    GROUP = "briefing"
    NEEDS = ("numpy", "pyproj", "osgeo")

    def flags(self):
        return super().flags() | QgsProcessingAlgorithm.Flag.FlagNoThreading

    def displayName(self):
        return tr("Chart overlay")

    def tags(self):
        return tr("overlay,chart,transparent,georeferenced,pdf,png,world file,scale,print").split(",")

    def what(self):
        return tr(
            "Draws chosen layers on clear ground at a chart's scale, to be laid on a chart: a georeferenced PDF with "
            "lines and text as such, or a PNG with world file. The georeferencing is read back by GDAL before the "
            "file is put in its place. A cancelled or failed run leaves no file and keeps an older one."
        )

    def assumed(self):
        return tr(
            "Layers of the open project are drawn as they are shown there; files as their own style has it, and our "
            "layers without one in our style. Without CRS the projection is the azimuthal equidistant one about the "
            "middle: give the chart's own projection to lie on it everywhere. The scale is true at the middle of the "
            "map, whatever the projection stretches there. Without EXTENT everything in the layers is shown, with a "
            "margin of 5 mm."
        )

    def cited(self):
        return tr(
            "ISO 32000-1 and its extension for geospatial features (by GDAL's PDF driver); world file: common "
            "practice, its figures are for the middle of a pixel; World Geodetic System 1984."
        )

    def declare(self):
        self.add_other(
            QgsProcessingParameterMultipleLayers("LAYERS", tr("Layers"), QgsProcessing.SourceType.TypeMapLayer),
            tr("What is drawn, the topmost first."),
        )
        scale = tr("The number after 1 : of the chart.")
        self.add(
            Number("SCALE", tr("Scale, 1 to"), 1000, 10_000_000, scale, default=250_000, dynamic=False, decimals=0)
        )
        self.add_other(
            QgsProcessingParameterExtent("EXTENT", tr("Extent"), None, True),
            tr("What is shown. Not given: all that is in the layers. The map is widened to whole pixels."),
        )
        self.add_other(
            QgsProcessingParameterCrs("CRS", tr("Projection"), None, True),
            tr("The chart's projection. Not given: about the middle of the map."),
        )
        dots = tr("Dots an inch: of a PNG its pixels, of a PDF what is drawn as a picture in it.")
        self.add(Number("DPI", tr("Resolution"), 72, 1200, dots, "dpi", default=300, dynamic=False, decimals=0))
        self.add(
            Choice("FORMAT", tr("Format"), FORMATS, tr("Not given: by the ending of OUTPUT, else pdf."),
                   optional=True, dynamic=False)
        )  # fmt: skip
        self.add_other(
            QgsProcessingParameterString("TITLE", tr("Title"), None, False, True),
            tr("What the file is called inside. Not given: Training area."),
        )
        self.add_file(
            "OUTPUT", tr("File"), tr("PDF (*.pdf);;PNG (*.png)"),
            tr("The file; its folder must be there. Beside a PNG stand a world file (.pgw), .prj and .png.aux.xml."),
        )  # fmt: skip

    def check(self, parameters, context):
        layers = self.parameterAsLayerList(parameters, "LAYERS", context)
        if not layers:
            return tr("LAYERS has no layer that can be opened; give at least one.")
        for layer in layers:
            if layer.isSpatial() and not layer.crs().isValid():
                return tr("LAYERS: {} has no coordinate reference system; set the layer's own first.").format(
                    shown(layer.name())
                )
        crs = self.parameterAsCrs(parameters, "CRS", context)
        if "CRS" in parameters and (not crs.isValid() or crs.isGeographic()):
            return tr("CRS is {}; a chart has one scale only in a projection, in metres or feet.").format(
                shown(crs.authid() or str(parameters["CRS"]))
            )
        output = self.wanted_file(parameters, "OUTPUT")
        ending, kind = Path(output).suffix.lower().lstrip("."), self.constant(parameters, "FORMAT")
        if output and kind is None and ending not in FORMATS:
            return tr("OUTPUT is {}, whose ending tells no format; its name must end in .pdf or .png.").format(
                shown(output)
            )
        if output and kind is not None and ending != kind:
            return tr("OUTPUT is {}, but FORMAT is {}; its name must end in .{}.").format(shown(output), kind, kind)
        return ""

    def compute(self, run):
        from .common import overlay

        layers = [
            self._dressed(layer, run) for layer in self.parameterAsLayerList(run.parameters, "LAYERS", run.context)
        ]
        output = self.wanted_file(run.parameters, "OUTPUT")
        kind = run.constant("FORMAT") or Path(output).suffix.lower().lstrip(".") or FORMATS[0]
        scale, dpi = run.constant("SCALE"), run.constant("DPI")
        crs, extent = self._view(run, layers, scale)
        dots, step = (overlay.PDF_DPI, overlay.PDF_STEP) if kind == "pdf" else (dpi, 1)
        frame = overlay.frame_for(extent, scale, dots, units_per_metre(crs, extent.center(), run.context), step)
        problem = overlay.frame_problem(frame, scale, kind)
        if problem:
            raise QgsProcessingException(problem)
        title = str(run.parameters.get("TITLE", "")).strip() or tr("Training area")
        note = tr("1 : {} at the middle. For training and briefing, not for navigation.").format(thousands(scale))
        parts = overlay.draw(layers, crs, frame, dpi, kind, title, note)
        place = Path(self.place_of(run.parameters, "OUTPUT", kind))
        self.made["OUTPUT"] = {str(place.with_suffix(f".{ending}")): data for ending, data in parts.items()}
        run.rows_in = run.rows_out = len(layers)
        run.feedback.pushInfo(
            tr("{} by {} mm; a millimetre is {} m").format(
                f"{frame.width_mm:.1f}", f"{frame.height_mm:.1f}", f"{scale / 1000.0:g}"
            )
        )

    def _dressed(self, layer: QgsMapLayer, run) -> QgsMapLayer:
        """A copy to draw: as the project shows it, else by its own style, else by ours where it is one of ours."""
        copy = layer.clone()
        project = run.context.project()
        if project is not None and project.mapLayer(layer.id()) is not None:
            return copy
        if not isinstance(copy, QgsVectorLayer) or wears_its_own_style(copy):
            return copy
        described = ours(copy)
        if described is not None:
            styling.dress(copy, described)
        return copy

    def _view(self, run, layers, scale: float):
        """The projection, and the extent in it."""
        asked = self.parameterAsCrs(run.parameters, "CRS", run.context)
        given = "EXTENT" in run.parameters
        wgs84 = QgsCoordinateReferenceSystem(EPSG_4326)
        if not asked.isValid():
            places = _places(layers, run.context)
            if given:
                middle = self.parameterAsExtent(run.parameters, "EXTENT", run.context, wgs84).center()
                asked = local.crs(middle.x(), middle.y())
            elif places:
                asked = local.crs(*local.middle([p.x() for p in places], [p.y() for p in places]))
            else:
                raise QgsProcessingException(tr("LAYERS hold nothing that can be drawn, and EXTENT is not given."))
        if given:
            return asked, self.parameterAsExtent(run.parameters, "EXTENT", run.context, asked)
        extent = QgsRectangle()
        extent.setMinimal()
        for place in _transformed(_places(layers, run.context), wgs84, asked, run.context):
            extent.combineExtentWith(place.x(), place.y())
        if extent.isNull() and extent.xMinimum() > extent.xMaximum():
            raise QgsProcessingException(tr("LAYERS hold nothing that can be drawn, and EXTENT is not given."))
        extent.grow(0.005 * scale * units_per_metre(asked, extent.center(), run.context))
        return asked, extent


def thousands(number: float) -> str:
    """250000 as '250 000'."""
    return f"{number:,.0f}".replace(",", " ")


def wears_its_own_style(layer: QgsVectorLayer) -> bool:
    """Give a layer the style that was saved with it, in its file or beside it, which Processing does not read; False
    where there is none."""
    try:
        _, found = layer.loadDefaultStyle()
    except (TypeError, RuntimeError):
        return False
    return bool(found)


def ours(layer: QgsVectorLayer):
    """The schema that a layer follows, by its shape and all of its fields; None where it is none of ours."""
    names = {field.name().lower() for field in layer.fields()}
    kind = QgsWkbTypes.geometryType(layer.wkbType())
    found = [
        one
        for one in schema.LAYERS.values()
        if one.style and QgsWkbTypes.geometryType(one.wkb_type) == kind and set(one.names) <= names
    ]
    return max(found, key=lambda one: len(one.names), default=None)


def _places(layers, context) -> list[QgsPointXY]:
    """Corners of everything in the layers, in degrees: of vector layers each row's own, of others the extent's."""
    wgs84 = QgsCoordinateReferenceSystem(EPSG_4326)
    found = []
    for layer in layers:
        corners = []
        if isinstance(layer, QgsVectorLayer):
            for feature in layer.getFeatures():
                geometry = feature.geometry()  # kept: its parts live no longer than it does
                for part in geometry.parts() if not geometry.isNull() else ():
                    corners += _corners(part.boundingBox())
        else:
            corners = _corners(layer.extent())
        found += _transformed(corners, layer.crs(), wgs84, context)
    return found


def _corners(box: QgsRectangle) -> list[QgsPointXY]:
    xs, ys = (box.xMinimum(), box.xMaximum()), (box.yMinimum(), box.yMaximum())
    return [QgsPointXY(x, y) for x in xs for y in ys if math.isfinite(x) and math.isfinite(y)]


def _transformed(places, source, target, context) -> list[QgsPointXY]:
    """Places in another system; those that have none there are left out."""
    transform = QgsCoordinateTransform(source, target, context.transformContext())
    found = []
    for place in places:
        try:
            moved = transform.transform(place)
        except QgsCsException:
            continue
        if math.isfinite(moved.x()) and math.isfinite(moved.y()):
            found.append(moved)
    return found


def units_per_metre(crs: QgsCoordinateReferenceSystem, middle: QgsPointXY, context) -> float:
    """How long a metre on the ground is in a projection at a place: the mean of a step to the east and one north.

    Errors: QgsProcessingException where the projection does not reach there.
    """
    from ..geometry import geodesy
    from ..geometry.units import NM_M

    wgs84 = QgsCoordinateReferenceSystem(EPSG_4326)
    (place,) = _transformed([middle], crs, wgs84, context) or [None]
    if place is None:
        raise QgsProcessingException(tr("CRS does not reach the middle of the map; choose another."))
    step_m = 100.0
    lon, lat, _ = geodesy.direct(place.x(), place.y(), [0.0, 90.0, 180.0, 270.0], step_m / NM_M)
    ends = _transformed([QgsPointXY(x, y) for x, y in zip(lon.tolist(), lat.tolist())], wgs84, crs, context)
    if len(ends) != 4:
        raise QgsProcessingException(tr("CRS does not reach the middle of the map; choose another."))
    return (ends[0].distance(ends[2]) + ends[1].distance(ends[3])) / (4.0 * step_m)
