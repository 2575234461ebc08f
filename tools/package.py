"""Builds the zip that QGIS installs: always the same bytes from the same files.

Usage: tools/package.py FOLDER        writes FOLDER/fixwright-VERSION.zip and prints its path
"""

from __future__ import annotations

import configparser
import sys
import zipfile
from pathlib import Path

from project_files import ROOT, project_files

NAME = "fixwright"
FILES = ("__init__.py", "metadata.txt", "LICENSE", "README.md", "CHANGELOG.md")
FOLDERS = ("geometry", "algorithms", "plugin", "sample_layers")
KINDS = {
    ".py", ".svg", ".qml", ".png", ".csv", ".gpkg", ".tif", ".geojson", ".json", ".html", ".md", ".txt", ".qm", ".ts",
}  # fmt: skip
ADDRESSES = ("email", "homepage", "tracker", "repository")
LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the first date that a zip can hold
PLAIN_FILE = 0o100644 << 16


def read_metadata(root: Path = ROOT) -> dict[str, str]:
    """The [general] section of metadata.txt."""
    parser = configparser.ConfigParser(interpolation=None)
    parser.optionxform = str
    parser.read_string((root / "metadata.txt").read_text(encoding="utf-8"))
    return dict(parser["general"])


def shipped(root: Path = ROOT) -> list[str]:
    """Paths of what a user gets; stops at a missing file and at a kind of file that nobody decided to ship."""
    chosen = [path for path in project_files(root) if path in FILES or path.split("/")[0] in FOLDERS]
    missing = [name for name in FILES if name not in chosen]
    missing += [name for name in FOLDERS if not any(path.startswith(name + "/") for path in chosen)]
    if missing:
        raise SystemExit(f"package: not there: {', '.join(missing)}")
    strange = [path for path in chosen if path not in FILES and Path(path).suffix not in KINDS]
    if strange:
        raise SystemExit(f"package: of no kind that ships (tools/package.py, KINDS): {', '.join(strange)}")
    return chosen


def build(folder: Path, root: Path = ROOT) -> Path:
    """Writes the zip into folder and returns its path."""
    folder.mkdir(parents=True, exist_ok=True)
    target = folder / f"{NAME}-{read_metadata(root)['version']}.zip"
    beside = target.with_suffix(".part")
    with zipfile.ZipFile(beside, "w") as archive:
        for path in shipped(root):
            entry = zipfile.ZipInfo(f"{NAME}/{path}", LONG_AGO)
            entry.external_attr = PLAIN_FILE
            entry.create_system = 3
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, (root / path).read_bytes(), compresslevel=9)
    beside.replace(target)
    return target


if __name__ == "__main__":
    print(build(Path(sys.argv[1])))
    empty = [key for key in ADDRESSES if not read_metadata().get(key)]
    if empty:
        print(f"Not ready to publish: {', '.join(empty)} not set in metadata.txt.", file=sys.stderr)
