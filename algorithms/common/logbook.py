"""A row of a logbook for each hold, as planned, in a CSV file that a spreadsheet opens."""

from __future__ import annotations

import csv
import io
import math

from .safecells import safe

COLUMNS = (
    "date", "exercise", "fix", "navaid", "rules", "entry", "circuits", "start_utc", "end_utc", "minutes", "turns",
    "inbound_magnetic_deg", "altitude_ft", "ias_kt", "wind_from_true_deg", "wind_kt", "isa_dev_c", "qnh_hpa",
    "tests_not_met", "state", "remarks",
)  # fmt: skip
"""What a row holds: remarks are for the pilot, state says that nothing has been flown yet."""


def row_of(hold: dict, entries: list[dict], flown: list[dict], tests: list[dict]) -> dict:
    """A row from a hold and the rows of other layers that join on it."""
    starts = sorted(row["start_utc"] for row in flown if row.get("start_utc"))
    ends = sorted(row["end_utc"] for row in flown if row.get("end_utc"))
    circuits = [row["circuit"] for row in flown if _is_number(row.get("circuit"))]
    words = [row.get("entry") or "" for row in (*entries, *flown)]
    seconds = [(row["start_s"], row["end_s"]) for row in flown if _is_number(row.get("start_s"), row.get("end_s"))]
    wind = next((row for row in (*flown, *entries) if _is_number(row.get("wind_kt"))), {})
    return {
        "date": starts[0][:10] if starts else "",
        "exercise": hold["hold"],
        "fix": hold.get("fix", ""),
        "navaid": hold.get("navaid", ""),
        "rules": hold.get("rules", ""),
        "entry": "; ".join(dict.fromkeys(word for word in words if word)),
        "circuits": _rounded(max(circuits), 0) if circuits else "",
        "start_utc": starts[0] if starts else "",
        "end_utc": ends[-1] if ends else "",
        "minutes": _rounded((max(e for _, e in seconds) - min(s for s, _ in seconds)) / 60.0, 1) if seconds else "",
        "turns": hold.get("turn", ""),
        "inbound_magnetic_deg": _rounded(hold.get("inbound_model_deg"), 0),
        "altitude_ft": _rounded(hold.get("alt_ft"), 0),
        "ias_kt": _rounded(hold.get("ias_kt"), 0),
        "wind_from_true_deg": _rounded(wind.get("wind_from_true_deg"), 0),
        "wind_kt": _rounded(wind.get("wind_kt"), 0),
        "isa_dev_c": _rounded(hold.get("isa_dev_c"), 1),
        "qnh_hpa": _rounded(hold.get("qnh_hpa"), 2),
        "tests_not_met": "; ".join(row.get("test", "") for row in tests if row.get("ok") == 0),
        "state": "planned",
        "remarks": "",
    }


def encoded(rows: list[dict]) -> bytes:
    """The file: RFC 4180, UTF-8 with the mark by which spreadsheets know it."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS)
    writer.writeheader()
    writer.writerows({name: safe(_clean(value)) for name, value in row.items()} for row in rows)
    return out.getvalue().encode("utf-8-sig")


def _clean(value):
    from ...geometry.waypoint_names import clean

    return clean(value) if isinstance(value, str) else value


def _is_number(*values) -> bool:
    return all(isinstance(value, (int, float)) and math.isfinite(value) for value in values)


def _rounded(value, digits: int):
    if not _is_number(value):
        return ""
    return round(value, digits) if digits else math.floor(value + 0.5)
