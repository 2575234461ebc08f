"""Sheets to print: the briefing of a training area."""

from __future__ import annotations


def print_briefing(layers: dict, path: str, **options) -> int:
    """briefing.print_briefing, whose libraries are loaded only when something is printed."""
    from . import briefing

    return briefing.print_briefing(layers, path, **options)
