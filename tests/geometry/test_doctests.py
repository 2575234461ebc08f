"""The examples in geometry's docstrings give what they say, and the modules that a user meets first have some."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest

GEOMETRY = Path(__file__).resolve().parents[2] / "geometry"
MODULES = sorted(
    ".".join(("fixwright", "geometry", *path.relative_to(GEOMETRY).with_suffix("").parts))
    for path in GEOMETRY.rglob("*.py")
    if path.name != "__init__.py"
)
WITH_EXAMPLES = {"angles", "atmosphere", "flight", "geodesy", "holds", "magnetism", "navaids", "text"}


@pytest.mark.parametrize("name", MODULES)
def test_examples(name):
    result = doctest.testmod(importlib.import_module(name), optionflags=doctest.NORMALIZE_WHITESPACE)
    assert result.failed == 0
    if name.rsplit(".", 1)[1] in WITH_EXAMPLES:
        assert result.attempted > 0
