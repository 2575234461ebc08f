"""The zip that users install: reproducible, within the plugin repository's rules, and it works in a fresh profile.

Source of the rules: the validator of the QGIS project's plugin repository, as its source stood in July 2026, and the
repository's published requirements for plugins.
"""

from __future__ import annotations

import configparser
import json
import os
import re
import stat
import subprocess
import sys
import urllib.parse
import zipfile
from pathlib import Path

import pytest

TOP = "fixwright"
REFUSED_PARTS = {"__pycache__", ".git", "__MACOSX", "..", "tests", ".ci", "tools", ".build", ".venv"}
REFUSED_SUFFIXES = {".pyc", ".sh", ".bat", ".cmd", ".ps1", ".exe", ".dll", ".so"}
REQUIRED_KEYS = ("name", "description", "version", "qgisMinimumVersion", "author", "about")
ADDRESSES = ("email", "tracker", "repository", "homepage")


def build(root: Path, folder: Path) -> Path:
    command = [sys.executable, str(root / "tools" / "package.py"), str(folder)]
    run = subprocess.run(command, capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    return Path(run.stdout.strip())


@pytest.fixture(scope="module")
def zip_path(root, tmp_path_factory):
    return build(root, tmp_path_factory.mktemp("dist"))


@pytest.fixture(scope="module")
def archive(zip_path):
    with zipfile.ZipFile(zip_path) as opened:
        yield opened


@pytest.fixture(scope="module")
def metadata(archive):
    parser = configparser.ConfigParser(interpolation=None)
    parser.optionxform = str
    parser.read_string(archive.read(f"{TOP}/metadata.txt").decode("utf-8"))
    return parser["general"]


def test_the_same_bytes_twice(root, zip_path, tmp_path):
    assert build(root, tmp_path).read_bytes() == zip_path.read_bytes()


def test_size_and_names(zip_path, archive):
    assert zip_path.stat().st_size <= 25 * 1024 * 1024
    names = archive.namelist()
    assert names == sorted(names)
    assert len(names) == len(set(names))
    assert {name.split("/")[0] for name in names} == {TOP}
    assert TOP.isidentifier() and TOP.isascii()
    assert {f"{TOP}/{name}" for name in ("__init__.py", "metadata.txt", "LICENSE", "README.md")} <= set(names)
    assert {name.split("/")[1] for name in names} == {
        "__init__.py", "metadata.txt", "LICENSE", "README.md", "CHANGELOG.md",
        "geometry", "algorithms", "plugin", "sample_layers",
    }  # fmt: skip
    for name in names:
        parts = Path(name).parts
        assert not REFUSED_PARTS & set(parts), name
        assert Path(name).suffix not in REFUSED_SUFFIXES, name
        assert not any(part.startswith(".") for part in parts), name


def test_plain_files_with_one_date(archive):
    for entry in archive.infolist():
        assert entry.date_time == (1980, 1, 1, 0, 0, 0), entry.filename
        mode = entry.external_attr >> 16
        assert stat.S_ISREG(mode) and stat.S_IMODE(mode) == 0o644, entry.filename


def test_metadata(metadata, archive):
    for key in REQUIRED_KEYS:
        assert metadata.get(key, "").strip(), key
    assert "plugin" not in metadata["name"].lower()
    assert "/" not in metadata["author"]
    assert "\n" not in metadata["description"]
    for key in ("name", "description", "about", "changelog"):
        assert not re.search(r"<[a-zA-Z/]", metadata[key]), f"{key} holds HTML"
    assert metadata["hasProcessingProvider"] == "yes"
    assert metadata["qgisMinimumVersion"] == "3.22"
    assert metadata["qgisMaximumVersion"] == "4.99"  # empty would mean 3.99: not offered in QGIS 4
    assert "supportsQt6" not in metadata  # deprecated there
    assert all(tag.strip() for tag in metadata["tags"].split(","))
    icon = archive.read(f"{TOP}/{metadata['icon']}")
    assert b"<svg" in icon


def test_addresses_are_all_empty_or_all_valid(metadata):
    """Empty: not published yet, and "./do package" says so. Once one is set all must be."""
    values = {key: metadata[key].strip() for key in ADDRESSES}
    if not any(values.values()):
        return
    assert re.fullmatch(r"[^@\s]+@[^@\s]+\.[^@\s]+", values["email"])
    for key in ("tracker", "repository", "homepage"):
        address = urllib.parse.urlsplit(values[key])
        assert address.scheme in ("http", "https") and "." in address.netloc, key


def test_one_version_everywhere(metadata, root):
    version = metadata["version"]
    assert re.fullmatch(r"\d+\.\d+\.\d+", version)
    pyproject = (root / "pyproject.toml").read_text(encoding="utf-8")
    assert re.search(r'^version = "(.*)"$', pyproject, re.MULTILINE).group(1) == version
    changelog = (root / "CHANGELOG.md").read_text(encoding="utf-8")
    assert re.search(r"^## (\S+)", changelog, re.MULTILINE).group(1) == version


def test_changelog_in_metadata_is_the_newest_entry(metadata, root):
    newest = re.split(r"^## ", (root / "CHANGELOG.md").read_text(encoding="utf-8"), flags=re.MULTILINE)[1]
    expected = [re.sub(r"^- ", "", line.strip()) for line in newest.splitlines() if line.strip()]
    assert [line.strip() for line in metadata["changelog"].splitlines() if line.strip()] == expected


def qgis_process_program() -> str:
    """Debian 12's qgis_process is a broken wrapper around qgis_process.bin."""
    for path in ("/usr/bin/qgis_process.bin", "/usr/bin/qgis_process"):
        if os.access(path, os.X_OK):
            return path
    if os.environ.get("FIXWRIGHT_REQUIRE_QGIS") == "1":
        pytest.fail("qgis_process is not there")
    pytest.skip("needs qgis_process")


def test_the_installed_zip_runs(archive, tmp_path):
    """Unpacked where QGIS's plugin manager puts it, in a new profile: one fix by radial and distance."""
    program = qgis_process_program()
    profile = tmp_path / "config" / "profiles" / "default"
    archive.extractall(profile / "python" / "plugins")
    (profile / "QGIS").mkdir()
    (profile / "QGIS" / "QGIS3.ini").write_text("[PythonPlugins]\nfixwright=true\n", encoding="utf-8")
    station = {
        "type": "Feature",
        "properties": {"ident": "QZB", "decl_deg": 2.0, "elev_ft": 1200},
        "geometry": {"type": "Point", "coordinates": [11.25, 48.5]},
    }
    (tmp_path / "stations.geojson").write_text(json.dumps({"type": "FeatureCollection", "features": [station]}))
    environment = {key: value for key, value in os.environ.items() if key not in ("QGIS_PLUGINPATH", "PYTHONPATH")}
    environment |= {
        "QGIS_CUSTOM_CONFIG_PATH": str(tmp_path / "config"),
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    parameters = ["INPUT=stations.geojson", "RADIAL=305", "DISTANCE=14", "DISTANCE_KIND=ground", "NORTH=station",
                  "DATE=2026-09-01", "FIXES=out.geojson"]  # fmt: skip
    run = subprocess.run(
        [program, "run", "fixwright:fixradialdistance", "--", *parameters],
        cwd=tmp_path, env=environment, text=True,
        stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
    )  # fmt: skip
    assert run.returncode == 0, run.stdout
    (fix,) = json.loads((tmp_path / "out.geojson").read_text(encoding="utf-8"))["features"]
    # Reference: the PyPI package geographiclib, direct problem on WGS 84, azimuth 305 + 2 degrees, 14 NM of 1852 m.
    from geographiclib.geodesic import Geodesic

    expected = Geodesic.WGS84.Direct(48.5, 11.25, 307.0, 14 * 1852.0)
    assert fix["geometry"]["coordinates"][0] == pytest.approx(expected["lon2"], abs=1e-7)
    assert fix["geometry"]["coordinates"][1] == pytest.approx(expected["lat2"], abs=1e-7)
    assert fix["properties"]["navaid"] == "QZB"
