"""Times of a day as people write them."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry.clock import parse_clock


@given(st.times(), st.one_of(st.none(), st.dates(datetime.date(2000, 1, 1), datetime.date(2099, 12, 31))))
def test_every_form_of_a_time(time, day):
    """With and without the seconds, the colon, the day, a Z (ISO 8601; four figures: common practice of the trade)."""
    time = time.replace(microsecond=0)
    forms = {time.isoformat()}
    if time.second == 0:
        forms |= {f"{time:%H:%M}", f"{time:%H%M}"}
    begins_with = [""] if day is None else [f"{day.isoformat()}{between}" for between in "T t"]
    for form in forms:
        for zone in ("", "Z", "z", " Z"):
            for begins in begins_with:
                found = parse_clock(f" {begins}{form}{zone} ")
                assert found is not None and (found.day, found.time) == (day, time)


@pytest.mark.parametrize(
    "words",
    ["", "Z", "14", "2:30", "905", "14:5", "24:00", "2400", "14:60", "1460", "14:05:60", "14.05", "14:05+02:00", "noon",
     "2026-02-30T10:00", "2026-09-01", "2026-09-01T", "1999-12-31T10:00", "2100-01-01T10:00", "140520", "١٤:٠٥"],
)  # fmt: skip
def test_what_is_no_time(words):
    assert parse_clock(words) is None
