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


def finish_output(destination: str, schema: LayerSchema, context: QgsProcessingContext) -> None:
    """Dress one output of a run: in memory, or in its file; and again when it is loaded into the project.

    Call from postProcessAlgorithm, which runs in the main thread.
    """
    if context.willLoadLayerOnCompletion(destination):
        del _kept[: max(0, len(_kept) - _KEEP_AT_MOST)]
        _kept.append(_Dress(schema))
        context.layerToLoadOnCompletionDetails(destination).setPostProcessor(_kept[-1])
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


def _save_metadata(source: str, layer: QgsVectorLayer) -> bool:
    """Metadata into a GeoPackage, or beside another file; False where the format takes none."""
    try:
        good, _ = QgsProviderRegistry.instance().saveLayerMetadata("ogr", source, layer.metadata())
        return good
    except QgsNotSupportedException:
        return False
