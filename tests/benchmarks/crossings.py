"""10 000 crossings of two radials against the direct and inverse geodesics of their own rounds. Prints a ratio.

    python tests/benchmarks/crossings.py

The ratio is within one run on one machine; the seconds beside it are only for orientation.
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
COUNT = 10_000
REPEATS = 5


def best(work) -> float:
    """Seconds of the fastest of some repeats."""
    times = []
    for _ in range(REPEATS):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "fixwright").symlink_to(ROOT, target_is_directory=True)
        sys.path.insert(0, folder)
        from fixwright.geometry import crossings, geodesy

        rng = np.random.default_rng(3)
        lon, lat = rng.uniform(-180, 180, COUNT), rng.uniform(-80, 80, COUNT)
        at_lon, at_lat, _ = geodesy.direct(lon, lat, rng.uniform(0, 360, COUNT), rng.uniform(1, 150, COUNT))
        lon2, lat2, _ = geodesy.direct(at_lon, at_lat, rng.uniform(0, 360, COUNT), rng.uniform(1, 150, COUNT))
        azimuth, azimuth2 = (geodesy.inverse(x, y, at_lon, at_lat)[0] for x, y in ((lon, lat), (lon2, lat2)))

        done = {"direct": 0, "inverse": 0}
        original = {name: getattr(geodesy, name) for name in done}

        def counting(name):
            def call(*arguments):
                done[name] += np.broadcast(*arguments).size
                return original[name](*arguments)

            return call

        for name in done:
            setattr(geodesy, name, counting(name))
        crossings.radial_radial(lon, lat, azimuth, lon2, lat2, azimuth2)
        for name in done:
            setattr(geodesy, name, original[name])

        ours = best(lambda: crossings.radial_radial(lon, lat, azimuth, lon2, lat2, azimuth2))
        metres = np.full(done["direct"], 100_000.0)
        ahead = [np.resize(a, done["direct"]) for a in (lon, lat, azimuth)]
        back = [np.resize(a, done["inverse"]) for a in (lon, lat, at_lon, at_lat)]
        theirs = best(lambda: geodesy.GEOD.fwd(*ahead, metres)) + best(lambda: geodesy.GEOD.inv(*back))
    print(f"{COUNT} crossings of two radials: {done['direct']} direct and {done['inverse']} inverse geodesics")
    print(f"crossings {ours:.3f} s, the same geodesics alone {theirs:.3f} s: {ours / theirs:.2f} x")


if __name__ == "__main__":
    main()
