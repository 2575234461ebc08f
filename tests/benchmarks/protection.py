"""What protected areas cost, through the algorithm and into a file: every hold another speed, level and course.

    python tests/benchmarks/protection.py [holds of the template] [holds of the envelope]

The seconds are those of this machine; two cores were meant to need less than BUDGET. Memory is told for a quarter of
the holds too: it does not grow with them.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import run as bench

BUDGET = (("template", 10_000, 20.0), ("envelope", 1_000, 60.0))
"""Construction, holds with entries from everywhere and all buffers, seconds."""


def make_holds(path: Path, count: int) -> None:
    """Holds over the globe up to 65 degrees."""
    import processing
    from qgis.core import QgsProperty

    bench.make_points(path.with_suffix(".points.gpkg"), count)
    number = "to_int(substr(name, 2))"
    asked = {
        "FIX_FIELD": "name", "INBOUND": QgsProperty.fromField("inbound"), "NORTH": "true", "LEG_MIN": 1, "IAS": 90,
        "TURN": QgsProperty.fromExpression(f"{number} % 2"),
        "AREA_IAS": QgsProperty.fromExpression(f"100 + ({number} * 0.618034 % 1) * 100"),
        "ALTITUDE": QgsProperty.fromExpression(f"2000 + ({number} * 0.414214 % 1) * 8000"),
    }  # fmt: skip
    processing.run(
        "fixwright:designholds",
        {"INPUT": str(path.with_suffix(".points.gpkg")), **asked, "DATE": "2026-09-01", "HOLDS": str(path)},
    )


def areas(folder: Path, construction: str, count: int) -> tuple[float, float, int]:
    """Seconds on the clock and of the processor, and features, of all parts of a construction."""
    import processing
    from qgis.core import QgsVectorLayer

    holds = folder / f"holds-{count}.gpkg"
    if not holds.exists():
        make_holds(holds, count)
    target = bench.fresh(folder / f"areas-{construction}.gpkg")
    at, used = time.perf_counter(), time.process_time()
    made = processing.run(
        "fixwright:protectedareas",
        {"INPUT": str(holds), "CONSTRUCTION": construction, "ENTRY": "all", "AREAS": target},
    )
    seconds, used = time.perf_counter() - at, time.process_time() - used
    if made["ROWS_OUT"] != count:
        raise RuntimeError(f"{made['ROWS_OUT']} of {count} holds gave areas")
    return seconds, used, QgsVectorLayer(target, "areas", "ogr").featureCount()


def apart(folder: Path, construction: str, count: int) -> tuple[float, ...]:
    """The same in a process of its own, with its peak memory in MB."""
    words = [sys.executable, __file__, "--once", str(folder), construction, str(count)]
    said = subprocess.run(words, capture_output=True, text=True, check=True).stdout.split()[-4:]
    return tuple(map(float, said))


def report(folder: Path, budget=BUDGET) -> None:
    print("\nprotected areas, entries from everywhere, all buffers, into a GeoPackage:")
    for construction, count, seconds in budget:
        few = apart(folder, construction, count // 4)
        all_ = apart(folder, construction, count)
        print(
            f"{construction:10} {count:6} holds {all_[0]:7.2f} s wall (meant: under {seconds:.0f} s) {all_[1]:7.2f} s "
            f"processor, {all_[2]:.0f} parts; peak memory {all_[3]:.0f} MB, a quarter of the holds {few[3]:.0f} MB"
        )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--once"]:
        work = Path(sys.argv[2])
        kept = bench.start_qgis(work)
        result = areas(work, sys.argv[3], int(sys.argv[4]))
        print(*result, bench.peak_of_this_process())
    else:
        counts = [int(value) for value in sys.argv[1:]] or [count for _, count, _ in BUDGET]
        with tempfile.TemporaryDirectory(prefix="fixwright-bench-") as made:
            report(Path(made), [(b[0], count, b[2]) for b, count in zip(BUDGET, counts)])
    sys.stdout.flush()
    os._exit(0)  # QGIS ended by Python's own clearing up crashes
