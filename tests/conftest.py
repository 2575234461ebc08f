"""Makes the checkout importable as the package "fixwright", whatever its folder is called, and sets hypothesis up."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

import pytest
from hypothesis import settings

ROOT = Path(__file__).resolve().parent.parent

_folder = tempfile.TemporaryDirectory(prefix="fixwright-")  # kept: it goes when the run ends
os.symlink(ROOT, os.path.join(_folder.name, "fixwright"), target_is_directory=True)
sys.path.insert(0, _folder.name)

# Inside a virtual environment Debian's pyproj looks for its database in the wrong place.
if Path("/usr/share/proj/proj.db").exists():
    os.environ.setdefault("PROJ_DATA", "/usr/share/proj")

settings.register_profile("fixwright", deadline=None)
settings.register_profile("fixwright-ci", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("fixwright-ci" if os.environ.get("CI") else "fixwright")


def pytest_sessionstart(session):
    """Where QGIS is required, a run without it must not look like a good one: no test may skip for want of it."""
    if os.environ.get("FIXWRIGHT_REQUIRE_QGIS") == "1":
        try:
            import qgis.core  # noqa: F401
        except ImportError as error:
            pytest.exit(f"FIXWRIGHT_REQUIRE_QGIS is set, but QGIS cannot be imported: {error}", returncode=2)


@pytest.fixture(scope="session")
def root() -> Path:
    """The checkout."""
    return ROOT
