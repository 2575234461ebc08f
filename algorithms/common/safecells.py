"""Cells of a CSV file that no spreadsheet takes for a formula.

Source: OWASP, CSV Injection: cells that begin with = + - @, a tab or a carriage return; an apostrophe before them
makes them text. Full-width forms of the four signs are taken for them by some spreadsheets (common practice).
"""

from __future__ import annotations

import re

_BEGINS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?", re.ASCII)


def safe(value):
    """A cell as it can be written: a number stays one, also as text; text that would be a formula gets an apostrophe.

    Spaces before such a sign do not hide it.
    """
    if not isinstance(value, str) or _NUMBER.fullmatch(value):
        return value
    return "'" + value if value.startswith(_BEGINS) or value.lstrip().startswith(_BEGINS) else value
