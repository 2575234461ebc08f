"""The plugin object that QGIS makes, with a window or without."""

from __future__ import annotations

from qgis.core import QgsApplication

from .provider import FixwrightProvider


class FixwrightPlugin:
    """Registers the provider. iface is None in qgis_process, and nothing here needs it yet."""

    def __init__(self, iface):
        self.iface = iface
        self.provider: FixwrightProvider | None = None

    def initProcessing(self):
        """What QGIS calls without a window."""
        if self.provider is None:
            self.provider = FixwrightProvider()
            QgsApplication.processingRegistry().addProvider(self.provider)

    def initGui(self):
        """What QGIS calls with a window."""
        self.initProcessing()

    def unload(self):
        """Take back everything."""
        if self.provider is not None:
            QgsApplication.processingRegistry().removeProvider(self.provider)
            self.provider = None
