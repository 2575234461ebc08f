"""QGIS 4 (Qt 6) knows Qt's enums only by their scope, and the plugin repository reports unscoped ones of QGIS too.

Source: the Qt 6 check of the plugin repository, which runs QGIS's own conversion script; PyQt6 documentation, "Enums".
"""

from __future__ import annotations

import ast
import enum
import importlib

import pytest

MODULES = ("qgis.core", "qgis.gui", "qgis.analysis", "qgis.PyQt.QtCore", "qgis.PyQt.QtGui", "qgis.PyQt.QtWidgets",
           "qgis.PyQt.QtXml", "qgis.PyQt.QtSvg", "qgis.PyQt.QtPrintSupport")  # fmt: skip


@pytest.fixture(scope="module")
def classes(qgis_app):
    found = {}
    for name in MODULES:
        module = importlib.import_module(name)
        found.update({key: value for key, value in vars(module).items() if isinstance(value, type)})
    return found


def unscoped(source: str, classes: dict) -> list[str]:
    """Uses of Class.member, in words, where the member belongs to an enum of that class."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if not (isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in classes):
            continue
        owner = classes[node.value.id]
        member = getattr(owner, node.attr, None)
        kind = type(member)
        if not isinstance(member, (int, enum.Enum)) or kind in (int, bool):
            continue
        scopes = [name for name in dir(owner) if getattr(owner, name, None) is kind]
        if scopes and kind is not owner:
            name, member = node.value.id, node.attr
            found.append(f"line {node.lineno}: {name}.{member}, write {name}.{scopes[0]}.{member}")
    return found


def test_the_check_finds_what_it_looks_for(classes):
    bad = "Qt.AlignLeft, QgsProcessing.TypeVectorPoint, QgsWkbTypes.Point, QFont.Bold, QgsFeatureSink.FastInsert"
    assert len(unscoped(bad, classes)) == 5
    good = "Qt.AlignmentFlag.AlignLeft, QgsProcessing.SourceType.TypeVectorPoint, QgsFeature.attributes, QFont.Weight"
    assert unscoped(good, classes) == []


@pytest.mark.parametrize("folder", ["algorithms", "plugin"])
def test_enums_are_scoped(root, classes, folder):
    files = sorted((root / folder).rglob("*.py"))
    assert files
    found = {str(path.relative_to(root)): unscoped(path.read_text(encoding="utf-8"), classes) for path in files}
    assert {path: lines for path, lines in found.items() if lines} == {}
