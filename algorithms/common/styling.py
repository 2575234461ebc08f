"""How the layers look and what their metadata says, in the project and in the file."""

from __future__ import annotations

from pathlib import Path

from qgis.core import (
    QgsMapLayer,
    QgsNotSupportedException,
    QgsProcessingContext,
    QgsProcessingLayerPostProcessorInterface,
    QgsProcessingUtils,
    QgsProviderRegistry,
    QgsVectorLayer,
)
from qgis.PyQt.QtXml import QDomDocument

from .schema import LayerSchema
from .texts import caution, tr

STYLES = Path(__file__).resolve().parents[2] / "plugin" / "styles"

# QGIS keeps no reference to a post-processor: without this list it would be gone before its layer is loaded.
_kept: list[QgsProcessingLayerPostProcessorInterface] = []
_KEEP_AT_MOST = 200


class _Dress(QgsProcessingLayerPostProcessorInterface):
    """Gives a layer that is loaded into the project its style and metadata."""

    def __init__(self, schema: LayerSchema):
        super().__init__()
        self.schema = schema

    def postProcessLayer(self, layer, context, feedback):
        dress(layer, self.schema)
        layer.triggerRepaint()


def style_path(schema: LayerSchema) -> Path | None:
    """The QML file of a layer; None where it shows nothing or the file is not there."""
    path = STYLES / f"{schema.style}.qml"
    return path if schema.style and path.is_file() else None


def dark_path(schema: LayerSchema) -> Path | None:
    """The QML file of a layer for dark maps, None where there is none."""
    path = STYLES / "dark" / f"{schema.style}.qml"
    return path if schema.style and path.is_file() else None


def dress(layer: QgsMapLayer, schema: LayerSchema) -> None:
    """Set style and metadata of a layer in memory."""
    path = style_path(schema)
    if path:
        layer.loadNamedStyle(str(path))
    _describe(layer, schema)


def _describe(layer: QgsMapLayer, schema: LayerSchema) -> None:
    metadata = layer.metadata()
    metadata.setTitle(tr(schema.title))
    metadata.setType("dataset")
    metadata.setAbstract(caution())
    metadata.setKeywords({"gmd:topicCategory": [], "fixwright": [schema.name, "training", "not for navigation"]})
    metadata.setLanguage("en")
    metadata.setCrs(layer.crs())
    layer.setMetadata(metadata)


def dress_when_loaded(destination: str, schema: LayerSchema, context: QgsProcessingContext) -> None:
    """Dress a layer again when it is loaded into the project, where it will be: QGIS 3.22 reads no temporal settings
    from a file's own style."""
    if context.willLoadLayerOnCompletion(destination):
        del _kept[: max(0, len(_kept) - _KEEP_AT_MOST)]
        _kept.append(_Dress(schema))
        context.layerToLoadOnCompletionDetails(destination).setPostProcessor(_kept[-1])


def finish_output(destination: str, schema: LayerSchema, context: QgsProcessingContext) -> None:
    """Dress one output of a run: in memory, or in its file; and again when it is loaded into the project.

    Call from postProcessAlgorithm, which runs in the main thread.
    """
    dress_when_loaded(destination, schema, context)
    path = Path(destination.partition("|")[0])
    if path.is_file():
        dress_file(destination, schema)
        return
    layer = QgsProcessingUtils.mapLayerFromString(destination, context)
    if layer is not None:
        dress(layer, schema)


def dress_file(source: str, schema: LayerSchema) -> None:
    """Write metadata and, into a GeoPackage, the style, so that whoever opens the file has them."""
    layer = QgsVectorLayer(source, schema.title, "ogr")
    if not layer.isValid():
        return
    dress(layer, schema)
    _save_metadata(source, layer)
    if style_path(schema) and source.partition("|")[0].lower().endswith(".gpkg"):
        layer.saveStyleToDatabase("default", "", True, "")
        dark = dark_path(schema)
        if dark:
            document = QDomDocument()
            document.setContent(dark.read_text(encoding="utf-8"))
            layer.importNamedStyle(document)  # by a file's name QGIS would take the style that the database has
            layer.saveStyleToDatabase("dark", tr("for dark maps"), False, "")


def _save_metadata(source: str, layer: QgsVectorLayer) -> bool:
    """Metadata into a GeoPackage, or beside another file; False where the format takes none."""
    try:
        good, _ = QgsProviderRegistry.instance().saveLayerMetadata("ogr", source, layer.metadata())
        return good
    except QgsNotSupportedException:
        return False
