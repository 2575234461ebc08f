"""Every figure of a rule stands in a table beside its source."""

from __future__ import annotations

import importlib
import math
import re
from pathlib import Path

import pytest

from fixwright.geometry import flight, holds
from fixwright.geometry.protection import icao

GEOMETRY = Path(__file__).resolve().parents[2] / "geometry"
MODULES = sorted(
    ".".join(("fixwright", "geometry", *path.relative_to(GEOMETRY).with_suffix("").parts))
    for path in GEOMETRY.rglob("*.py")
    if path.name != "__init__.py"
)
A_DOCUMENT = re.compile(
    r"ICAO|FAA|AIM|Doc |Order|Annex|CFR|Manual|Glossary|WMM|Magnetic Model|NOAA|Navy|BIPM|ISO|RFC", re.IGNORECASE
)
OF_A_DOCUMENT = {"published", "from memory"}
OF_OUR_OWN = {"computed", "derived", "derived here", "common practice", "chosen here"}


def _entries(value, path):
    """All named tuples with a source in a module's value, however nested."""
    if hasattr(value, "_fields"):
        if "source" in value._fields:
            yield path, value
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _entries(item, f"{path}[{key!r}]")
    elif isinstance(value, (tuple, list)):
        for k, item in enumerate(value):
            yield from _entries(item, f"{path}[{k}]")


def _all_entries():
    for name in MODULES:
        module = importlib.import_module(name)
        for attribute, value in vars(module).items():
            if attribute.isupper() and not attribute.startswith("_"):
                yield from _entries(value, f"{name}.{attribute}")


ENTRIES = dict(_all_entries())


def test_the_tables_are_found():
    """Were the walk broken, the tests below would pass on nothing."""
    for table in ("holds.SPEED_LIMITS", "holds.LEG_RULES", "flight.TURN_RULES", "icao.LINES", "atmosphere.FIGURES"):
        assert any(f".{table}[" in path for path in ENTRIES), table
    assert len(ENTRIES) > 70


@pytest.mark.parametrize("path", ENTRIES)
def test_every_entry_names_its_source(path):
    """A document where the figure is one's; where it is common practice or our own choice, the words say why."""
    entry = ENTRIES[path]
    mark = getattr(entry, "mark", "published")
    assert mark in OF_A_DOCUMENT | OF_OUR_OWN
    assert entry.source.strip()
    if mark in OF_A_DOCUMENT:
        assert A_DOCUMENT.search(entry.source), f"{path}: {entry.source!r} names no document"


def test_single_figures_name_their_source():
    """A constant beside a table has a NAME_SOURCE of its own."""
    found = [name for name in vars(holds) if name.endswith("_SOURCE")]
    assert len(found) >= 3
    for name in found:
        assert A_DOCUMENT.search(getattr(holds, name))
        stem = name[: -len("SOURCE")]
        assert any(other.startswith(stem) and other != name for other in vars(holds)), name


@pytest.mark.parametrize("table", [holds.SPEED_LIMITS, holds.LEG_RULES], ids=["speeds", "legs"])
def test_bands_of_altitude_cover_the_sky_once(table):
    assert set(table) == set(holds.RULES)
    for rows in table.values():
        tops = [row.up_to_ft for row in rows]
        assert tops == sorted(set(tops)) and tops[-1] == math.inf


def test_a_speed_limit_is_a_speed_or_a_mach_number():
    for rows in holds.SPEED_LIMITS.values():
        for row in rows:
            assert math.isfinite(row.ias_kt) != math.isfinite(row.mach)
            assert 90.0 <= row.ias_kt <= 310.0 or 0.5 < row.mach < 1.0


def test_both_rule_sets_have_a_turn():
    assert set(flight.TURN_RULES) == set(flight.RULES) == set(holds.RULES)
    assert all(0.0 < rule.bank_deg < 45.0 and rule.rate_dps == 3.0 for rule in flight.TURN_RULES.values())


def test_lines_of_the_template_are_numbered():
    assert [line.number for line in icao.LINES] == list(range(1, len(icao.LINES) + 1))
    assert len({line.name for line in icao.LINES}) == len(icao.LINES)
    assert {line.mark for line in icao.LINES} == {"published", "from memory"}
    assert all(line.formula for line in icao.LINES)
    # What is from memory says so in the source of every area.
    assert "from memory" in icao.MEMORY_NOTE and "confirmed" in icao.MEMORY_NOTE
