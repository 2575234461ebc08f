"""Words for a phone: the column of a hold."""

from __future__ import annotations


def word_hold(hold: dict, fix: dict, navaid: dict, tables: dict, least_slip_nm: float):
    """column.column, whose libraries are loaded only when a hold is worded."""
    from . import column

    return column.column(hold, fix, navaid, tables, least_slip_nm)
