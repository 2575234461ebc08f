"""Holds that fail a test, as shapes to draw over everything that looks as if they could be flown."""

from __future__ import annotations

from collections.abc import Iterable

from qgis.core import QgsFeature, QgsGeometry

from .texts import tr

INNER = ("basic", "primary")
"""Parts of areas that stand for the hold; rings about them overlap the neighbours'."""


def failed_tests(tests: Iterable[QgsFeature]) -> dict[str, list[tuple[str, str]]]:
    """Tests that do not hold, by hold: the test in words and its sentence, in the order of the tests.

    Parameters: tests, features with the fields of the tests layer, or their attributes in its order.
    """
    found: dict[str, list[tuple[str, str]]] = {}
    for hold, test, ok, *_, text in (feature.attributes() for feature in tests):
        if ok == 0:
            found.setdefault(str(hold), []).append((str(test).replace("_", " "), str(text)))
    return found


def in_words(failed: list[tuple[str, str]]) -> str:
    """The tests of one hold, each once: 'minimum altitude, airspace'."""
    return ", ".join(dict.fromkeys(test for test, _ in failed))


def failing_features(
    failed: dict[str, list[tuple[str, str]]], areas: Iterable[QgsFeature], patterns: Iterable[QgsFeature]
) -> list[QgsFeature]:
    """Features of the layer of failing holds, in the order of failed.

    Parameters: failed, of failed_tests; areas and patterns, features with the fields hold and, areas, part. A hold
    without an area is drawn by its pattern.
    """
    inner: dict[str, list[QgsGeometry]] = {}
    for feature in areas:
        if feature["hold"] in failed and feature["part"] in INNER:
            inner.setdefault(feature["hold"], []).append(feature.geometry())
    own = {feature["hold"]: [feature.geometry()] for feature in patterns if feature["hold"] in failed}
    made = []
    for hold, tests in failed.items():
        shapes = inner.get(hold) or own.get(hold)
        if not shapes:
            continue
        shape = QgsGeometry.unaryUnion(shapes) if len(shapes) > 1 else QgsGeometry(shapes[0])
        shape.convertToMultiType()
        feature = QgsFeature()
        sentences = tr(". ").join(dict.fromkeys(text.rstrip(".") for _, text in tests)) + "."
        feature.setAttributes([hold, len(tests), in_words(tests), sentences])
        feature.setGeometry(shape)
        made.append(feature)
    return made
