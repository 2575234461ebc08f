"""The files of the project: what git tracks or would track, not what was generated. Prints them separated by NUL."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
GENERATED = {".git", ".build", ".venv", "demo", "build", "__pycache__"}
LEFT_BEHIND = (".pyc", ".aux.xml", "-wal", "-shm", "-journal")
"""Ends of the names of files that Python, GDAL and SQLite leave beside ours; .gitignore has the same."""


def project_files(root: Path = ROOT) -> list[str]:
    """Paths below root, sorted, with forward slashes; in a copy without git, everything but what ./do generates."""
    if (root / ".git").exists():
        found = _tracked_or_new(root)
    else:
        found = _all_but_generated(root)
    return sorted(path for path in found if (root / path).is_file())


def _tracked_or_new(root: Path) -> list[str]:
    # safe.directory: the checkout may belong to another user than the one who runs this, as in a container
    command = ["git", "-c", "safe.directory=*", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    listing = subprocess.run(command, cwd=root, check=True, stdout=subprocess.PIPE).stdout
    return [os.fsdecode(path) for path in listing.split(b"\0") if path]


def _all_but_generated(root: Path) -> list[str]:
    found = []
    for folder, folders, files in os.walk(root):
        folders[:] = [name for name in folders if name not in GENERATED and not name.endswith(".egg-info")]
        found += [
            (Path(folder) / name).relative_to(root).as_posix() for name in files if not name.endswith(LEFT_BEHIND)
        ]
    return found


if __name__ == "__main__":
    sys.stdout.buffer.write(b"".join(os.fsencode(path) + b"\0" for path in project_files()))
