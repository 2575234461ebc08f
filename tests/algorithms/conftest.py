"""Real QGIS without a window, started once a run, in a profile of its own."""

from __future__ import annotations

import gc
import os
import sys

import pytest


@pytest.fixture(scope="session", autouse=True)
def qgis_app(tmp_path_factory):
    """The running application; every test of this folder has it."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    os.environ["QGIS_CUSTOM_CONFIG_PATH"] = str(tmp_path_factory.mktemp("profile"))
    try:
        from qgis.core import QgsApplication, QgsProject
    except ImportError as error:
        if os.environ.get("FIXWRIGHT_REQUIRE_QGIS") == "1":
            raise
        pytest.skip(f"needs QGIS: {error}")

    QgsApplication.setPrefixPath(os.environ.get("QGIS_PREFIX_PATH", "/usr"), True)
    app = QgsApplication([], False)
    app.initQgis()
    sys.path.append(os.path.join(QgsApplication.pkgDataPath(), "python", "plugins"))
    yield app
    # Whatever still refers to the project when QGIS ends makes Python crash after the last test.
    QgsProject.instance().layoutManager().clear()
    QgsProject.instance().clear()
    gc.collect()
    app.exitQgis()


@pytest.fixture(scope="session", autouse=True)
def provider(qgis_app):
    """Our provider in the registry, beside QGIS's own algorithms, so that processing.run("fixwright:...") works."""
    from processing.core.Processing import Processing
    from qgis.core import QgsApplication

    from fixwright.plugin.provider import FixwrightProvider

    Processing.initialize()
    ours = FixwrightProvider()
    QgsApplication.processingRegistry().addProvider(ours)
    yield ours
    QgsApplication.processingRegistry().removeProvider(ours)


@pytest.fixture(autouse=True)
def empty_project(qgis_app):
    """Each test starts and leaves with an empty project."""
    from qgis.core import QgsProject

    yield QgsProject.instance()
    QgsProject.instance().layoutManager().clear()
    QgsProject.instance().clear()
