"""Words that several algorithms say the same way."""

from __future__ import annotations

from qgis.PyQt.QtCore import QCoreApplication

CONTEXT = "Fixwright"


def tr(text: str) -> str:
    """A text in the user's language."""
    return QCoreApplication.translate(CONTEXT, text)


def caution() -> str:
    """The usual caution, for help and for every layer's metadata."""
    return tr(
        "For training and briefing, not for navigation. Published procedures are designed and approved by licensed "
        "people under the rules of the state, which take precedence."
    )
