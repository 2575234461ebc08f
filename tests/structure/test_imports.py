"""Who may import whom: the floors of geometry/, and geometry <- algorithms <- plugin."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

# Lowest first: a file, or a folder of files, imports only from floors below its own. A new one gets its floor here.
FLOORS = (
    {"units", "angles", "clock", "ranges", "text", "reasons", "convex", "planar", "meridian", "waypoint_names",
     "wmm2025", "sources"},
    {"geodesy", "magnetism", "atmosphere", "leg_ends", "polygons", "wkb"},
    {"navaids", "flight", "racetrack", "crossings", "routes", "position_lines", "frame_map", "circuit", "segments",
     "nearness", "shapes", "terrain_grid", "vertical_limits"},
    {"fixes", "entries", "meetings", "cones"},
    {"holds", "entry_paths", "flight_parts", "hold_events", "leaving", "rules_of_thumb", "fix_crossing", "tolerance",
     "coverage", "slips", "navaid_data", "audit", "clearances", "terrain_cells"},
    {"flown", "setup_card", "phraseology", "protection", "obstacles", "airspace", "separation", "debrief", "search",
     "search_bounds"},
    {"plan"},
)  # fmt: skip

OUTSIDE = {
    "__future__", "calendar", "collections", "dataclasses", "datetime", "decimal", "enum", "functools", "heapq",
    "importlib", "itertools", "math", "re", "struct", "typing", "unicodedata", "numpy", "pyproj",
}  # fmt: skip
ONLY_IN = {"shapely": "polygons"}
# No state of the world in geometry/: the same input gives the same result.
FORBIDDEN_CALLS = {"open", "print", "input", "now", "today", "utcnow"}
FORBIDDEN_NUMPY = {"random", "load", "loadtxt", "genfromtxt", "fromfile", "memmap", "save", "savez", "savetxt"}

GEOMETRY = sorted((ROOT / "geometry").rglob("*.py"))


def floor_of(name: str) -> int:
    for floor, names in enumerate(FLOORS):
        if name in names:
            return floor
    raise AssertionError(f"geometry/{name} stands on no floor: give it one in FLOORS (tests/structure/test_imports.py)")


def parts_of(path: Path) -> tuple[str, ...]:
    """('holds',), ('protection', 'icao'); ('protection',) for its __init__.py, () for that of geometry itself."""
    parts = path.relative_to(ROOT / "geometry").with_suffix("").parts
    return parts[:-1] if parts[-1] == "__init__" else parts


def imported_parts(path: Path) -> list[tuple[str, ...]]:
    """The same for every relative import of a file of geometry/, names of values cut off."""
    package = path.parent.relative_to(ROOT / "geometry").parts
    found = []
    for level, name in imports(path):
        if level:
            assert level - 1 <= len(package), f"{named(path)} imports from outside geometry/: {'.' * level}{name}"
            found.append(package[: len(package) - (level - 1)] + tuple(name.split(".")))
    return found


def imports(path: Path) -> list[tuple[int, str]]:
    """(level, dotted name) of every import anywhere in the file; "from . import a, b" gives both names."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(0, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            if node.module:
                found.append((node.level, node.module))
            else:
                found += [(node.level, alias.name) for alias in node.names]
    return found


def python_files(*folders: str) -> list[Path]:
    return sorted(path for folder in folders for path in (ROOT / folder).rglob("*.py"))


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("path", GEOMETRY, ids=named)
def test_geometry_imports_from_below_only(path):
    parts = parts_of(path)
    if not parts:
        assert imports(path) == [], "geometry/__init__.py imports something: then one missing library hides all of it"
        return
    floor = floor_of(parts[0])
    for target in imported_parts(path):
        if target[0] != parts[0]:
            assert floor_of(target[0]) < floor, f"{named(path)} imports {'.'.join(target)}, which is not below it"


def test_no_circle_inside_a_folder():
    """Files of one folder may build on each other, one way."""
    wanted = {parts_of(path): {target for target in imported_parts(path)} for path in GEOMETRY}
    wanted = {parts: targets & set(wanted) - {parts} for parts, targets in wanted.items()}
    while wanted:
        free = [parts for parts, targets in wanted.items() if not targets & set(wanted)]
        assert free, f"these import each other in a circle: {sorted('.'.join(parts) for parts in wanted)}"
        for parts in free:
            del wanted[parts]


@pytest.mark.parametrize("path", GEOMETRY, ids=named)
def test_geometry_uses_nothing_of_the_world(path):
    for level, name in imports(path):
        top = name.split(".")[0]
        if level == 0 and top in ONLY_IN:
            assert parts_of(path) == (ONLY_IN[top],), f"only {ONLY_IN[top]}.py imports {top}, not {named(path)}"
        elif level == 0:
            assert top in OUTSIDE, f"{named(path)} imports {name}: not among what geometry/ may use"
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            assert called not in FORBIDDEN_CALLS, f"{named(path)}:{node.lineno} calls {called}()"
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in ("np", "numpy"):
            assert node.attr not in FORBIDDEN_NUMPY, f"{named(path)}:{node.lineno} uses numpy.{node.attr}"


@pytest.mark.parametrize("path", python_files("geometry", "algorithms", "plugin"), ids=named)
def test_imports_run_one_way(path):
    """geometry <- algorithms <- plugin, and never the package by its own name: QGIS may load it under another."""
    home = path.relative_to(ROOT).parts
    may_import = {"geometry": ("geometry",), "algorithms": ("geometry", "algorithms"),
                  "plugin": ("geometry", "algorithms", "plugin")}[home[0]]  # fmt: skip
    for level, name in imports(path):
        if level == 0:
            assert name.split(".")[0] not in ("fixwright", "geometry", "algorithms", "plugin"), (
                f"{named(path)} imports {name}: write a relative import")  # fmt: skip
            continue
        assert level <= len(home), f"{named(path)} imports from outside the package: {'.' * level}{name}"
        target = home[: len(home) - level] + tuple(name.split("."))
        assert target[0] in may_import, f"{named(path)} imports {'/'.join(target)}"


def test_the_only_door_imports_nothing_by_itself():
    """pytest and tools import the root under other names, where relative imports would fail."""
    body = ast.parse((ROOT / "__init__.py").read_text(encoding="utf-8")).body
    assert [type(node) for node in body] == [ast.Expr, ast.FunctionDef]
    assert body[1].name == "classFactory"
