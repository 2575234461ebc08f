"""The libraries that geometry needs: looked for only when something runs, so that a missing one hides nothing."""

from __future__ import annotations

import importlib

from .texts import tr

_DEBIAN = {
    "numpy": "python3-numpy", "pyproj": "python3-pyproj", "shapely": "python3-shapely", "osgeo": "python3-gdal",
}  # fmt: skip
_PYPI = {"osgeo": "GDAL"}
"""Names by which pip knows a library that is imported by another."""


def missing_libraries(needed: tuple[str, ...]) -> str:
    """The sentence on what to install; '' where everything is there."""
    missing = [name for name in needed if not _is_there(name)]
    if not missing:
        return ""
    return tr(
        "The Python of this QGIS has no {}; install it there (Debian and Ubuntu: apt install {}; elsewhere: python3 "
        "-m pip install {}) and start QGIS again."
    ).format(" and no ".join(missing), " ".join(_DEBIAN[name] for name in missing),
             " ".join(_PYPI.get(name, name) for name in missing))  # fmt: skip


def _is_there(name: str) -> bool:
    try:
        importlib.import_module(name)
    except ImportError:
        return False
    return True
