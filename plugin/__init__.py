"""What QGIS shows: the plugin object, the provider, styles, icons, sheets."""
