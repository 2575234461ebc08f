"""Routes to holds: places in the order flown, arrivals up to the fix, in one piece across 180 degrees."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import geodesy, plan
from fixwright.geometry.plan.hold_routes import hold_routes
from fixwright.geometry.routes import Route


def holds(lon=(11.0,), turn=("right",), lat=48.0, inbound=90.0):
    n = len(lon)
    words = {"hold": [f"E{i}" for i in range(n)], "fix": [f"F{i}" for i in range(n)], "rules": ["icao"] * n,
             "turn": list(turn) * (n // len(turn)), "leg_kind": ["time"] * n, "leg_end": [""] * n}  # fmt: skip
    numbers = {"lon": lon, "lat": [lat] * n, "inbound_true_deg": [inbound] * n, "leg_min": [1.0] * n,
               "leg_nm": [np.nan] * n, "ias_kt": [100.0] * n, "area_ias_kt": [100.0] * n, "alt_ft": [4000.0] * n,
               "alt_to_ft": [np.nan] * n, "isa_dev_c": [0.0] * n}  # fmt: skip
    columns = {key: np.array(value, dtype=object) for key, value in words.items()}
    columns.update({key: np.array(value, dtype=float) for key, value in numbers.items()})
    made = plan.holds_from_columns(columns, 2026.5)
    assert made.good.all(), made.reasons
    return made


@pytest.mark.parametrize(("turn", "side"), [("right", 1.0), ("left", -1.0)])
def test_corners_of_the_pattern(turn, side):
    """Straight leg and two radii, measured by geodesics from the fix, on the holding side."""
    made = holds(turn=(turn,))
    (route,) = hold_routes(made, [], 2.0)
    assert route.what == ("fix", "outbound", "outbound end", "inbound", "fix") and route.arrival == -1
    straight, radius = made.holds.straight_nm[0], made.holds.radius_nm[0]
    u, s = geodesy.to_frame(11.0, 48.0, 90.0, side, route.lon, route.lat)
    assert u == pytest.approx([0.0, 0.0, -straight, -straight, 0.0], abs=1e-6)
    assert s == pytest.approx([0.0, 2 * radius, 2 * radius, 0.0, 0.0], abs=1e-6)
    assert np.array_equal(route.line, route.ring)
    assert np.array_equal(route.ring[0], route.ring[-1])


def test_an_arrival_leads_up_to_the_fix():
    made = holds()
    beyond = Route([10.0, 10.5, 11.01, 12.0], [47.5, 47.8, 48.0, 48.5])
    at_fix = Route([10.0, 11.0], [48.5, 48.0])
    away = Route([11.0, 12.0], [48.0, 48.5])
    routes = hold_routes(made, [beyond, at_fix, away], 2.0)
    assert [route.arrival for route in routes] == [0, 1]
    assert routes[0].what[:4] == ("arrival", "arrival", "arrival", "fix")
    assert routes[0].lon[:3].tolist() == [10.0, 10.5, 11.01]
    assert routes[1].what[:2] == ("arrival", "fix"), "the end of the line is the fix itself"
    assert len(routes[1].line) == 1 + len(routes[1].ring)


def test_across_180_degrees_in_one_piece():
    made = holds(lon=(179.98,), lat=10.0, inbound=270.0)
    (route,) = hold_routes(made, [Route([-179.5, -179.99], [10.5, 10.0])], 2.0)
    assert np.ptp(route.line[:, 0]) < 1.0 and np.abs(np.diff(route.line[:, 0])).max() < 1.0
    assert route.line[0, 0] == pytest.approx(180.5)


def test_rows_that_failed_have_no_route():
    made = holds(lon=(11.0, 12.0))
    made.reasons[0] = "no"
    (route,) = hold_routes(made, [], 2.0)
    assert route.hold == 1 and route.lon[0] == pytest.approx(12.0, abs=1e-12)
    made.reasons[1] = "no"
    assert hold_routes(made, [], 2.0) == []
