"""Lines of position as they are drawn: on the geodesic or the arc, past the fix, chords within the tolerance."""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from fixwright.geometry import position_lines

WGS84 = Geodesic.WGS84
NM = 1852.0

lons = st.one_of(st.floats(-180.0, 180.0), st.floats(179.0, 180.0))
lats = st.floats(-80.0, 80.0)


def _fix(lon, lat, bearing, nm):
    at = WGS84.Direct(lat, lon, bearing, nm * NM)
    return at["lon2"], at["lat2"]


def _polar(lon, lat, place):
    line = WGS84.Inverse(lat, lon, float(place[1]), float(place[0]))
    return line["azi1"], line["s12"]


def _middles(line: np.ndarray) -> np.ndarray:
    """Middles of the chords as a map in longitude and latitude draws them."""
    return (line[1:] + line[:-1]) / 2.0


@settings(max_examples=40)
@given(lons, lats, st.floats(0.0, 360.0), st.floats(0.05, 400.0), st.sampled_from([1.0, 5.0, 50.0]))
def test_a_radial(lon, lat, bearing, nm, tolerance_m):
    """From the station through the fix to 3 NM past it, nowhere farther from the geodesic than the tolerance."""
    line = position_lines.radial_line(lon, lat, *_fix(lon, lat, bearing, nm), tolerance_m)
    assert _polar(lon, lat, line[0])[1] < 1e-3
    assert _polar(lon, lat, line[-1])[1] == pytest.approx((nm + position_lines.PAST_FIX_NM) * NM, abs=1e-3)
    assert np.ptp(line[:, 0]) < 180.0 or max(abs(line[:, 1])) > 80.0
    for place in (*line[1:], *_middles(line)):
        azimuth, dist = _polar(lon, lat, place)
        assert abs(dist * math.sin(math.radians(azimuth - bearing))) < tolerance_m


@settings(max_examples=40)
@given(lons, st.floats(-75.0, 75.0), st.floats(0.0, 360.0), st.floats(0.05, 200.0), st.sampled_from([1.0, 5.0, 50.0]))
def test_an_arc(lon, lat, bearing, nm, tolerance_m):
    """15 degrees to either side of the fix, vertices on the arc, chords within the tolerance of it."""
    line = position_lines.arc_line(lon, lat, *_fix(lon, lat, bearing, nm), tolerance_m)
    for place in line:
        assert _polar(lon, lat, place)[1] == pytest.approx(nm * NM, abs=1e-3)
    for place, off in ((line[0], -15.0), (line[-1], 15.0)):
        assert abs(math.remainder(_polar(lon, lat, place)[0] - bearing - off, 360.0)) < 1e-4
    for place in _middles(line):
        assert abs(_polar(lon, lat, place)[1] - nm * NM) < tolerance_m


def test_lines_over_the_antimeridian_stay_in_one_piece():
    fix = _fix(179.8, 10.0, 90.0, 40.0)
    assert fix[0] < 0.0
    for line in (position_lines.radial_line(179.8, 10.0, *fix), position_lines.arc_line(179.8, 10.0, *fix)):
        assert np.ptp(line[:, 0]) < 2.0 and line[:, 0].max() > 180.0
