"""Legs that end at a DME reading, against the published rule and an independent library."""

from __future__ import annotations

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fixwright.geometry import holds

WGS84 = Geodesic.WGS84
YEAR = 2026.66575
FT_PER_NM = 1852.0 / 0.3048


def _hold(**changes) -> holds.Holds:
    values = dict(
        inbound_deg=90.0, north=2, side=1, rules=1, leg_min=np.nan, leg_nm=5.0, leg_end=holds.DME_END, ias_kt=120.0,
        alt_ft=8000.0, year=YEAR,
    )
    values.update(changes)
    return holds.design(values.pop("lon", 10.0), values.pop("lat", 50.0), **values)


def test_a_dme_hold_towards_the_station():
    """FAA AIM 5-3-8, FIG 5-3-5: fix at DME 10, leg 5, inbound towards the navaid: outbound ends at DME 15."""
    station = WGS84.Direct(50.0, 10.0, 90.0, math.sqrt(100.0 - (8000.0 / FT_PER_NM) ** 2) * 1852.0)
    hold = _hold(inbound_deg=90.0, navaid_lon=station["lon2"], navaid_lat=station["lat2"], navaid_elev_ft=0.0)
    assert hold.outbound_end_dme_nm[0] == pytest.approx(15.0, abs=1e-4)


def test_a_dme_hold_away_from_the_station():
    """FAA AIM 5-3-8, FIG 5-3-6: with the inbound course away from the navaid the leg is subtracted: fix
    at DME 28, leg 8, outbound ends at DME 20 (the figure's numbers from memory)."""
    station = WGS84.Direct(50.0, 10.0, 270.0, math.sqrt(28.0**2 - (8000.0 / FT_PER_NM) ** 2) * 1852.0)
    site = dict(navaid_lon=station["lon2"], navaid_lat=station["lat2"], navaid_elev_ft=0.0)
    hold = _hold(inbound_deg=90.0, leg_nm=8.0, **site)
    assert hold.outbound_end_dme_nm[0] == pytest.approx(20.0, abs=1e-4)


@settings(max_examples=40)
@given(
    st.floats(-180.0, 180.0),
    st.floats(-85.0, 85.0),
    st.floats(0.0, 360.0),
    st.sampled_from([1, -1]),
    st.floats(5.0, 60.0),
    st.floats(1.0, 15.0),
    st.floats(0.0, 20000.0),
    st.floats(-20.0, 20.0),
    st.booleans(),
)
def test_the_end_of_a_dme_leg_read_on_the_spot(lon, lat, inbound, side, away, leg, height_ft, off, towards):
    """FAA AIM 5-3-8 j: outbound ends at the fix's DME reading plus the leg, or minus it. The outbound end is placed
    with geographiclib from the straight length and the radius, and the slant range measured there. The length is solved
    in the plane of the fix, which differs from the ellipsoid by less than a metre over 60 NM."""
    station = WGS84.Direct(lat, lon, inbound + off + (0.0 if towards else 180.0), away * 1852.0)
    hold = _hold(
        lon=lon, lat=lat, inbound_deg=inbound, side=side, leg_nm=leg, alt_ft=height_ft, navaid_lon=station["lon2"],
        navaid_lat=station["lat2"], navaid_elev_ft=0.0,
    )
    assume(hold.code[0] == 0)
    length, radius = float(hold.straight_nm[0]), float(hold.radius_nm[0])
    bearing = inbound + side * math.degrees(math.atan2(2.0 * radius, -length))
    end = WGS84.Direct(lat, lon, bearing, math.hypot(length, 2.0 * radius) * 1852.0)
    ground = WGS84.Inverse(end["lat2"], end["lon2"], station["lat2"], station["lon2"])["s12"] / 1852.0
    height = height_ft / FT_PER_NM
    reading = math.hypot(ground, height)
    at_fix = math.hypot(away, height)
    assert reading == pytest.approx(float(hold.outbound_end_dme_nm[0]), abs=1e-7)
    assert reading == pytest.approx(at_fix + (leg if towards else -leg), abs=0.0005)
