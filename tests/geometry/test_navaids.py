from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import navaids, reasons


@pytest.mark.parametrize(
    ("text", "kind"),
    [("vor-dme", "VOR/DME"), ("VOR DME", "VOR/DME"), (" vor / dme ", "VOR/DME"), ("VORDME", ""), ("NDB-DME", "NDB/DME"),
     ("vortac", "VORTAC"), ("Tacan", "TACAN"), ("DME", "DME"), ("ndb", "NDB"), ("wpt", "WPT"), ("", ""), (None, ""),
     ("ILS", ""), (7, "")],
)  # fmt: skip
def test_clean_kind(text, kind):
    assert navaids.clean_kind(text) == kind


def test_what_each_kind_gives():
    """Radials: VOR, TACAN and localizer by their own alignment. Bearings: NDB, by the aircraft's compass. Slant range:
    what has a DME. An unknown kind is not refused."""
    kinds = np.array([*navaids.KINDS, ""], dtype=object)
    radials = {"LOC", "LOC/DME", "VOR", "VOR/DME", "VORTAC", "TACAN", ""}
    bearings = {"NDB", "NDB/DME"}
    ranges = {"VOR/DME", "VORTAC", "TACAN", "DME", "NDB/DME", "LOC/DME", ""}
    assert set(kinds[navaids.gives_radials(kinds)]) == radials
    assert set(kinds[navaids.gives_bearings(kinds)]) == bearings
    assert set(kinds[navaids.gives_range(kinds)]) == ranges
    assert navaids.gives_radials(np.array([["VOR"], ["NDB"]], dtype=object)).tolist() == [[True], [False]]


heights = st.floats(-5.0, 10.0)


@given(heights, st.floats(0.001, 400.0))
def test_slant_range_there_and_back(height, ground):
    """To a millimetre of slant range; the ground distance of a steep range is worth what the range is."""
    slant = float(navaids.slant_from_ground_nm(ground, height))
    back, code = navaids.ground_from_slant_nm(slant, height)
    if int(code):
        assert slant - abs(height) < 1e-9
        return
    assert abs(float(navaids.slant_from_ground_nm(back, height)) - slant) * 1852.0 < 1e-3
    if ground > 0.05:
        assert abs(float(back) - ground) * 1852.0 < 1e-3


@given(heights, st.one_of(st.just(0.0), st.floats(1e-6, 400.0)))
def test_a_slant_range_is_longer_than_height_and_ground(height, slant):
    ground, code = navaids.ground_from_slant_nm(slant, height)
    assert (int(code) == reasons.SLANT_TOO_SHORT) == (abs(height) >= slant)
    if int(code):
        assert np.isnan(ground)
    else:
        assert float(ground) <= slant


def test_above_and_below_the_station_alike():
    up, down = navaids.ground_from_slant_nm(5.0, [1.0, -1.0])[0]
    assert up == down


def test_heights_in_miles():
    assert float(navaids.height_nm(6076.115486, 0.0)) == pytest.approx(1.0, abs=1e-9)
    assert float(navaids.height_nm(1000.0, 3000.0)) < 0.0
    assert np.isnan(navaids.height_nm(1000.0, np.nan))


@given(st.floats(0.0, 360.0), st.floats(-60.0, 60.0), st.floats(-60.0, 60.0))
def test_three_norths(value, decl, var):
    got = navaids.true_from(value, [navaids.STATION, navaids.MODEL, navaids.TRUE], decl, var)
    assert got.tolist() == [value + decl, value + var, value]


def test_a_north_needs_only_its_own_declination():
    got = navaids.true_from(10.0, [0, 1, 2], [np.nan, np.nan, np.nan], [np.nan, 3.0, np.nan])
    assert np.isnan(got[0]) and got[1] == 13.0 and got[2] == 10.0


def test_nan_spoils_its_own_row_only():
    ground, code = navaids.ground_from_slant_nm([5.0, np.nan, 5.0], [1.0, 1.0, np.nan])
    assert np.isfinite(ground[0]) and np.isnan(ground[1:]).all()
    assert code.tolist() == [0, 0, 0]
