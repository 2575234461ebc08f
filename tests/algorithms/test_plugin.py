"""The plugin object, as QGIS makes it without a window; in a process of its own, where no provider is registered."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

SCRIPT = """
import os
from qgis.core import QgsApplication
QgsApplication.setPrefixPath(os.environ.get("QGIS_PREFIX_PATH", "/usr"), True)
app = QgsApplication([], False)
app.initQgis()
import fixwright
registry = QgsApplication.processingRegistry()
plugin = fixwright.classFactory(None)
print(registry.providerById("fixwright") is None)
plugin.initProcessing()
plugin.initGui()
print(registry.algorithmById("fixwright:designholds") is not None)
plugin.unload()
plugin.unload()
print(registry.providerById("fixwright") is None)
del plugin
app.exitQgis()
"""


def test_registered_and_taken_back(qgis_app, tmp_path):
    import fixwright

    package = Path(fixwright.__file__).parent
    environment = {**os.environ, "PYTHONPATH": str(package.parent), "QGIS_CUSTOM_CONFIG_PATH": str(tmp_path)}
    run = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, text=True, env=environment)
    assert run.returncode == 0, run.stderr
    assert run.stdout.split() == ["True", "True", "True"], run.stderr


def test_nothing_heavy_is_imported_by_loading(qgis_app, tmp_path):
    """numpy, pyproj and shapely come in only when something runs: a missing one must not hide the provider."""
    import fixwright

    package = Path(fixwright.__file__).parent
    blocked = "import sys\nfor name in ('numpy', 'pyproj', 'shapely'): sys.modules[name] = None\n"
    environment = {**os.environ, "PYTHONPATH": str(package.parent), "QGIS_CUSTOM_CONFIG_PATH": str(tmp_path)}
    run = subprocess.run([sys.executable, "-c", blocked + SCRIPT], capture_output=True, text=True, env=environment)
    assert run.returncode == 0, run.stderr
    assert run.stdout.split() == ["True", "True", "True"], run.stderr
