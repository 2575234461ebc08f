"""Racetracks on the earth against an exact construction of its own: scalar, with geographiclib on WGS 84.

The construction: a frame point (u, s) in NM is the place at hypot(u, s) on the azimuth inbound + side * atan2(s, u)
from the fix (the azimuthal equidistant plane at the fix); the racetrack is what keeps the distance r from the segment
between the centres of its turns, (0, r) and (-L, r). Derived here; shape of FAA AIM 5-3-8 and ICAO Doc 8168 Vol I.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fixwright.geometry import geodesy, racetrack

WGS84 = Geodesic.WGS84
CM = 0.01


def exact_place(lon, lat, inbound, side, u, s):
    """Place of a frame point, by geographiclib."""
    end = WGS84.Direct(lat, lon, inbound + side * math.degrees(math.atan2(s, u)), math.hypot(u, s) * 1852.0)
    return end["lon2"], end["lat2"]


def exact_frame(lon, lat, inbound, side, x, y):
    """Frame point of a place, by geographiclib."""
    out = WGS84.Inverse(lat, lon, y, x)
    beta = math.radians(side * ((out["azi1"] - inbound + 180.0) % 360.0 - 180.0))
    return out["s12"] / 1852.0 * math.cos(beta), out["s12"] / 1852.0 * math.sin(beta)


def off_the_curve_m(u, s, radius, length) -> float:
    """Distance of a frame point from the racetrack, metres."""
    nearest = min(0.0, max(-length, u))
    return abs(math.hypot(u - nearest, s - radius) - radius) * 1852.0


def flown_nm(u, s, radius, length) -> float:
    """How far along the racetrack from the fix the nearest point of the curve lies, in the direction of flight."""
    half = math.pi * radius
    if u >= 0.0:
        return radius * math.atan2(u, radius - s) if s < 2.0 * radius or u > 0.0 else half
    if u <= -length:
        return half + length + radius * math.atan2(-length - u, s - radius)
    return half - u if s > radius else 2.0 * half + length + (u + length)


def metres_apart(x1, y1, x2, y2) -> float:
    return WGS84.Inverse(y1, x1, y2, x2)["s12"]


with open(Path(__file__).parent / "data" / "racetrack_places.csv", encoding="utf-8", newline="") as file:
    PLACES = list(csv.DictReader(file))


@pytest.mark.parametrize("row", PLACES, ids=lambda r: f"{r['fix_lat_deg']} {r['u_nm']} {r['s_nm']}")
def test_places_of_the_frame(row):
    """Computed with geographiclib on WGS 84 to 1e-9 degree: holds at 50 N, on the antimeridian, at 85 N."""
    g = {k: float(v) for k, v in row.items() if k not in ("turn", "source")}
    side = -1 if row["turn"] == "left" else 1
    hold = (g["fix_lon_deg"], g["fix_lat_deg"], g["inbound_true_deg"], side)
    lon, lat = geodesy.place(*hold, g["u_nm"], g["s_nm"])
    assert float(lat) == pytest.approx(g["lat_deg"], abs=2e-9)
    assert (float(lon) - g["lon_deg"] + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=2e-9)
    # And the racetrack of this radius and length passes there.
    coords, _ = racetrack.rings(*hold, g["radius_nm"], g["straight_nm"], 0.01)
    assert min(metres_apart(x, y, g["lon_deg"], g["lat_deg"]) for x, y in coords) < 20.0
    assert off_the_curve_m(g["u_nm"], g["s_nm"], g["radius_nm"], g["straight_nm"]) < 1e-9


@pytest.mark.parametrize(("radius_nm", "tolerance_m", "chords"), [(0.9, 5.0, 21), (2.2, 5.0, 32), (2.2, 0.5, 101)])
def test_chords_of_a_half_turn(radius_nm, tolerance_m, chords):
    """Sagitta of a chord: n = ceil(angle / (2 arccos(1 - tol / radius))). Computed by hand for these three."""
    assert int(geodesy.chord_count(math.pi, radius_nm, tolerance_m)) == chords
    sagitta = radius_nm * 1852.0 * (1.0 - math.cos(math.pi / chords / 2.0))
    assert sagitta <= tolerance_m < radius_nm * 1852.0 * (1.0 - math.cos(math.pi / (chords - 1) / 2.0))


HOLDS = dict(
    lon=st.one_of(st.floats(-180.0, 180.0), st.floats(179.9, 180.0), st.floats(-180.0, -179.9)),
    lat=st.one_of(st.floats(-85.0, 85.0), st.sampled_from([-85.0, 85.0, 0.0])),
    inbound=st.one_of(st.floats(0.0, 360.0), st.sampled_from([0.0, 90.0, 180.0, 270.0, 360.0])),
    side=st.sampled_from([1, -1]),
    radius=st.floats(0.2, 5.0),
    length=st.floats(0.3, 25.0),
)


@settings(max_examples=40)
@given(**HOLDS)
def test_vertices_lie_on_the_true_racetrack(lon, lat, inbound, side, radius, length):
    """Within 1 cm of the curve, in the order flown, all the way round; its four corners are vertices within 1 cm."""
    coords, offsets = racetrack.rings(lon, lat, inbound, side, radius, length)
    assert offsets.tolist() == [0, len(coords)]
    assert coords[0].tolist() == coords[-1].tolist()
    assert np.all(np.abs(coords[:, 0] - lon) <= 180.0)
    frame = [exact_frame(lon, lat, inbound, side, x, y) for x, y in coords]
    assert max(off_the_curve_m(u, s, radius, length) for u, s in frame) < CM
    along = [flown_nm(u, s, radius, length) for u, s in frame[1:-1]]
    assert all(b > a for a, b in zip(along, along[1:])), "not in the order flown"
    for u, s in ((0.0, 0.0), (0.0, 2.0 * radius), (-length, 2.0 * radius), (-length, 0.0)):
        corner = exact_place(lon, lat, inbound, side, u, s)
        assert min(metres_apart(x, y, *corner) for x, y in coords) < CM


@settings(max_examples=30)
@given(**HOLDS, tolerance=st.sampled_from([5.0, 5.0, 50.0]))
@example(lon=10.0, lat=85.0, inbound=90.0, side=1, radius=3.5, length=5.0, tolerance=5.0)
def test_chords_stay_within_the_tolerance(lon, lat, inbound, side, radius, length, tolerance):
    """A layer in degrees draws straight in longitude and latitude: points on those chords, brought to the frame with
    geographiclib, are no farther from the racetrack than the tolerance (and 1 cm)."""
    coords, _ = racetrack.rings(lon, lat, inbound, side, radius, length, tolerance)
    worst = 0.0
    for a, b in zip(coords, coords[1:]):
        for k in (0.25, 0.5, 0.75):
            u, s = exact_frame(lon, lat, inbound, side, *(a + k * (b - a)))
            worst = max(worst, off_the_curve_m(u, s, radius, length))
    assert worst <= tolerance + CM


@settings(max_examples=25)
@given(**HOLDS)
def test_legs_are_the_ring_cut_at_its_corners(lon, lat, inbound, side, radius, length):
    """Four lines, turn out, outbound, turn in, inbound: each ends where the next begins, at the exact corners."""
    coords, offsets = racetrack.legs(lon, lat, inbound, side, radius, length)
    ring, _ = racetrack.rings(lon, lat, inbound, side, radius, length)
    parts = [coords[a:b] for a, b in zip(offsets, offsets[1:])]
    assert len(parts) == 4
    corners = ((0.0, 0.0), (0.0, 2.0 * radius), (-length, 2.0 * radius), (-length, 0.0), (0.0, 0.0))
    for part, start, end in zip(parts, corners, corners[1:]):
        assert metres_apart(*part[0], *exact_place(lon, lat, inbound, side, *start)) < CM
        assert metres_apart(*part[-1], *exact_place(lon, lat, inbound, side, *end)) < CM
    joined = np.concatenate([parts[0]] + [part[1:] for part in parts[1:]])
    np.testing.assert_allclose(joined, ring, rtol=0.0, atol=1e-12)
