"""`pip install .` gives the geometry to a Python without QGIS, as fixwright.geometry and under no other name."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest


@pytest.fixture(scope="module")
def installed(root, tmp_path_factory) -> Path:
    """A folder with the installed package. Built from a copy: the build writes beside its sources."""
    folder = tmp_path_factory.mktemp("plain")
    source = folder / "source"
    source.mkdir()
    for name in ("pyproject.toml", "README.md", "LICENSE", "__init__.py"):
        shutil.copy(root / name, source)
    shutil.copytree(root / "geometry", source / "geometry", ignore=shutil.ignore_patterns("__pycache__"))
    target = folder / "site"
    options = ["--quiet", "--no-index", "--no-deps", "--no-build-isolation", "--target", str(target)]
    command = [sys.executable, "-m", "pip", "install", *options, str(source)]
    run = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    assert run.returncode == 0, run.stdout
    return target


def python(code: str, site: Path) -> subprocess.CompletedProcess:
    """Runs code in a Python that sees the installed package and, where QGIS is installed, must not see that."""
    blocker = "import sys; sys.modules['qgis'] = sys.modules['PyQt5'] = sys.modules['PyQt6'] = None\n"
    environment = {**os.environ, "PYTHONPATH": str(site), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run([sys.executable, "-c", blocker + code], cwd=site.parent, env=environment,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)  # fmt: skip


def test_every_module_imports_without_qgis(root, installed):
    geometry = root / "geometry"
    modules = [".".join(("fixwright", "geometry", *path.relative_to(geometry).with_suffix("").parts))
               for path in sorted(geometry.rglob("*.py")) if path.name != "__init__.py"]  # fmt: skip
    assert "fixwright.geometry.fixes" in modules
    code = "import importlib\n" + "".join(f"importlib.import_module({name!r})\n" for name in modules)
    run = python(code + "import fixwright; print(fixwright.__file__)", installed)
    assert run.returncode == 0, run.stdout
    assert Path(run.stdout.strip().splitlines()[-1]).resolve() == (installed / "fixwright" / "__init__.py").resolve()


def test_no_bare_name(installed):
    assert sorted(path.name for path in installed.iterdir() if not path.name.endswith(".dist-info")) == ["fixwright"]
    run = python("import geometry", installed)
    assert "ModuleNotFoundError: No module named 'geometry'" in run.stdout


def test_what_is_installed(installed):
    """The package and its geometry; nothing that needs QGIS but the door, which imports nothing."""
    found = {path.relative_to(installed / "fixwright").parts[0] for path in (installed / "fixwright").rglob("*.py")}
    assert found == {"__init__.py", "geometry"}
