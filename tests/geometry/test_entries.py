"""Entry sectors: the rule by whole degrees, and what must hold of any hold."""

from __future__ import annotations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from fixwright.geometry import entries

NM_M = 1852.0
degrees = st.floats(0.0, 360.0)
side = st.sampled_from([1, -1])


@given(degrees, degrees, side)
def test_the_mirror_image_of_an_entry(heading, inbound, turn):
    """The other side with the heading mirrored in the course: the same entry."""
    one = entries.entry(heading, inbound, turn)
    other = entries.entry(2.0 * inbound - heading, inbound, -turn)
    assert (int(one.entry), int(one.also)) == (int(other.entry), int(other.also))


@given(degrees, degrees, side, st.floats(-720.0, 720.0))
def test_only_the_angle_between_matters(heading, inbound, turn, by):
    x = (turn * (heading - inbound)) % 360.0
    if min(abs(x - edge) for edge in (105, 110, 115, 175, 180, 185, 285, 290, 295)) > 1e-6:
        one, other = entries.entry(heading, inbound, turn), entries.entry(heading + by, inbound + by, turn)
        assert (int(one.entry), int(one.also)) == (int(other.entry), int(other.also))


@given(degrees, degrees, side)
def test_the_other_entry_is_the_one_beyond_the_boundary(heading, inbound, turn):
    """It is what a heading 5.1 degrees either way would give, and never the entry itself."""
    found = entries.entry(heading, inbound, turn)
    around = {int(entries.entry(heading + off, inbound, turn).entry) for off in (-5.1, 5.1)} - {int(found.entry)}
    if int(found.also) >= 0:
        assert int(found.also) in around
    elif around:
        # Between 5.0 and 5.1 degrees off the boundary.
        x = (turn * (heading - inbound)) % 360.0
        assert min(abs(abs(x - edge) - 5.05) for edge in (110, 180, 290)) < 0.06


def test_boundaries_belong_to_one_sector():
    """Both ends of the 70 degree line to direct, the outbound course itself to the teardrop."""
    x = np.array([0.0, 110.0, 110.0 + 1e-7, 180.0, 180.0 + 1e-7, 290.0 - 1e-7, 290.0, 360.0])
    words = [entries.ENTRIES[code] for code in entries.entry(x, 0.0, 1).entry]
    assert words == ["direct", "direct", "teardrop", "teardrop", "parallel", "parallel", "direct", "direct"]
    # A course that is no whole number in binary does not move the boundary.
    assert int(entries.entry(110.1 + 72.3, 72.3 + 0.1, 1).entry) == entries.DIRECT


def test_no_entry_without_a_heading():
    found = entries.entry([np.nan, 10.0, np.inf], [0.0, np.nan, 0.0], 1)
    assert found.entry.tolist() == [-1, -1, -1] and found.also.tolist() == [-1, -1, -1]


@given(degrees, side, degrees)
def test_headings_of_the_sectors_hold_their_entries(inbound, turn, heading):
    low, high = entries.sector_headings(inbound, turn)
    inside = (heading - low[0]) % 360.0 < (high[0] - low[0]) % 360.0
    assert inside.sum() == 1
    edge = min(np.abs((heading - low[0] + 180.0) % 360.0 - 180.0).min(),
               np.abs((heading - high[0] + 180.0) % 360.0 - 180.0).min())  # fmt: skip
    if edge > 1e-6:
        assert int(np.flatnonzero(inside)[0]) == int(entries.entry(heading, inbound, turn).entry)


def test_sectors_are_drawn_where_the_aeroplane_comes_from():
    """Measured with geographiclib: a point of a sector lies on the bearing of a heading of that sector, turned back."""
    lon, lat = np.array([10.0, 179.98, -20.0]), np.array([50.0, -33.5, 84.0])
    inbound, turn = np.array([73.0, 262.5, 10.0]), np.array([1, -1, 1])
    coords, offsets = entries.sector_rings(lon, lat, inbound, turn, 8.0)
    assert len(offsets) == 10 and offsets[-1] == len(coords)
    area = np.zeros(3)
    for ring in range(9):
        i, code = divmod(ring, 3)
        points = coords[offsets[ring] : offsets[ring + 1]]
        assert (points[0] == points[-1]).all() and (points[0] == [lon[i], lat[i]]).all()
        assert np.ptp(points[:, 0]) < 180.0
        lines = [Geodesic.WGS84.Inverse(lat[i], lon[i], y, x) for x, y in points[1:-1]]
        dist = np.array([line["s12"] for line in lines]) / NM_M
        assert dist.max() == pytest.approx(8.0, abs=1e-6)
        far = [line["azi1"] + 180.0 for line, d in zip(lines, dist) if d > 7.999][1:-1]
        assert set(entries.entry(np.array(far), inbound[i], turn[i]).entry.tolist()) == {code}
        polygon = Geodesic.WGS84.Polygon()
        for x, y in points[:-1]:
            polygon.AddPoint(y, x)
        area[i] += abs(polygon.Compute(False, True)[2]) / NM_M**2
    np.testing.assert_allclose(area, np.pi * 8.0**2, rtol=0.003)


@given(degrees, degrees, st.floats(60.0, 300.0), st.floats(0.0, 0.9), degrees, side, st.sampled_from([0, 1]))
def test_headings_to_fly(course, inbound, tas, share, wind_from, turn, rules):
    """The velocity over the ground on each heading lies along the track it is for."""
    found = entries.arrive(course, inbound, turn, tas, wind_from, share * tas, rules, 90.0)

    def track(heading):
        heading, wind = np.radians(heading), np.radians(wind_from)
        return np.degrees(np.arctan2(tas * np.sin(heading) - share * tas * np.sin(wind),
                                     tas * np.cos(heading) - share * tas * np.cos(wind)))  # fmt: skip

    def apart(a, b):
        return abs((a - b + 180.0) % 360.0 - 180.0)

    assert apart(track(found.heading_deg), course) < 1e-6
    entry = int(found.by_heading.entry)
    assert entry == int(entries.entry(found.heading_deg, inbound, turn).entry)
    offset = inbound + 180.0 - turn * 30.0
    if entry == entries.DIRECT:
        assert np.isnan(found.outbound_heading_deg) and np.isnan(found.first_leg_s)
    elif entry == entries.PARALLEL:
        assert apart(track(found.outbound_heading_deg), inbound + 180.0) < 1e-6
    elif rules == 0:
        assert apart(track(found.outbound_heading_deg), offset) < 1e-6
    else:
        assert apart(found.outbound_heading_deg, offset) < 1e-9


def test_first_leg_times():
    """FAA one minute at every level; ICAO the outbound time, the 30 degree track at most a minute and a half."""
    parallel, teardrop = 200.0, 150.0
    for course, entry in ((parallel, entries.PARALLEL), (teardrop, entries.TEARDROP)):
        found = entries.arrive(course, 360.0, 1, 120.0, 0.0, 0.0, [0, 0, 0, 1, 1], [60.0, 90.0, 120.0, 90.0, 120.0])
        assert (found.by_heading.entry == entry).all()
        longest = 90.0 if entry == entries.TEARDROP else 120.0
        assert found.first_leg_s.tolist() == [60.0, 90.0, longest, 60.0, 60.0]


def test_a_course_that_cannot_be_made_good_has_no_entry():
    found = entries.arrive(90.0, 360.0, 1, 100.0, [0.0, 0.0], [120.0, 20.0], 1, 60.0)
    assert found.by_heading.entry.tolist() == [-1, entries.DIRECT]
    assert found.by_course.entry.tolist() == [entries.DIRECT, entries.DIRECT]
    assert np.isnan(found.heading_deg[0])
