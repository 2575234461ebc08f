"""Fixwright: design, check, brief and debrief training fixes and holds. QGIS enters by classFactory."""


def classFactory(iface):
    """The plugin object that QGIS asks for; iface is None when there is no window."""
    from .plugin.plugin import FixwrightPlugin

    return FixwrightPlugin(iface)
