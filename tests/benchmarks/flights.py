"""How long flights take: arrival, entry and five circuits in wind, as lines and events.

The cost of a hold must not grow with their number: reported is what a hold of many costs against a hold of few, and
against one pyproj call for as many vertices. Seconds compare within one run only.
"""

from __future__ import annotations

import time

import numpy as np
from pyproj import Geod

FEW, MANY, CIRCUITS = 1_000, 10_000, 5


def holds_in_wind(count: int):
    """Holds of both rules and sides, timed and by distance, spread over the earth; wind and arrival of each."""
    from fixwright.geometry import holds

    i = np.arange(count)
    hold = holds.design(
        i * 222.492 % 360.0 - 180.0, 130.0 * i / count - 65.0, inbound_deg=i * 137.508 % 360.0, north=2,
        side=np.where(i % 2, 1, -1), rules=i // 2 % 2, leg_min=np.where(i % 5 < 3, 1.0, np.nan),
        leg_nm=np.where(i % 5 < 3, np.nan, 5.0), leg_end=holds.ALONG_TRACK, ias_kt=90.0 + i % 100, alt_ft=5000.0,
        year=2026.6657,
    )  # fmt: skip
    return hold, i * 99.7 % 360.0, 5.0 + i % 25, i * 61.8 % 360.0


def seconds(count: int) -> tuple[float, int]:
    """Processor time of flights, their lines and events, and how many vertices and events that gives."""
    from fixwright.geometry import flown

    hold, wind_from, wind, course = holds_in_wind(count)
    start = time.process_time()
    flight = flown.fly(hold, wind_from, wind, arrival_true_deg=course, circuits=CIRCUITS)
    lines = flown.lines(hold, flight, 5.0, by_circuit=True)
    events = flown.events(hold, flight)
    return time.process_time() - start, len(lines.seconds) + len(events.row)


def report() -> None:
    """Print what flights cost."""
    few, _ = min(seconds(FEW) for _ in range(3))
    many, places = min(seconds(MANY) for _ in range(3))
    k = np.arange(places)
    start = time.process_time()
    Geod(ellps="WGS84").fwd(k * 222.492 % 360.0 - 180.0, 130.0 * k / places - 65.0, k * 137.508 % 360.0, 200.0 + k)
    bare = time.process_time() - start
    print(f"\n{MANY} holds, {CIRCUITS} circuits each, lines and events: {many:.2f} s processor, {places} places")
    print(f"  {many / bare:5.2f} x one pyproj call for as many places ({bare:.2f} s)")
    print(f"  a hold of {MANY} costs {many / MANY / (few / FEW):5.2f} x what a hold of {FEW} does")


if __name__ == "__main__":
    report()
