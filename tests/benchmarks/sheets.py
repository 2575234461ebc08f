"""How long fifty pages of a briefing take, with terrain and airspace, and how much memory. Needs QGIS.

    python3 tests/benchmarks/sheets.py FOLDER

Reported is what a page of many costs against a page of few; seconds compare within one run only.
"""

from __future__ import annotations

import os
import resource
import sys
import time
from pathlib import Path

FEW, MANY = 10, 50
ROOT = Path(__file__).resolve().parents[2]


def layers_of(folder: Path, count: int) -> dict:
    """The layers of an area of so many exercises, with all tests, over the sample terrain and airspace."""
    from qgis.core import QgsProcessingContext, QgsProcessingFeedback, QgsVectorLayer

    from fixwright.algorithms.buildarea import BuildArea
    from fixwright.algorithms.common import areafiles

    folder.mkdir(parents=True, exist_ok=True)
    plan = folder / "plan.csv"
    rows = [f"X{i:02d},OBL,{i * 360 // count},{8 + i % 12},{3000 + 500 * (i % 15)}" for i in range(count)]
    plan.write_text("\n".join(["exercise,navaid,radial_deg,distance_nm,alt_ft", *rows]) + "\n", encoding="utf-8")
    samples = ROOT / "sample_layers"
    algorithm = BuildArea(lambda layers, path, **options: None)
    algorithm.initAlgorithm()
    results, good = algorithm.run(
        {
            "NAVAIDS": f"{samples / 'navaids.gpkg'}|layername=navaids", "PLAN": str(plan), "DATE": "2026-09-01",
            "DEM": str(samples / "terrain.tif"), "FOLDER": str(folder),
            **{n: f"{samples / 'airspace.gpkg'}|layername={n.lower()}" for n in ("AIRSPACE", "ROUTES", "PLACES")},
        },
        QgsProcessingContext(), QgsProcessingFeedback(False),
    )  # fmt: skip
    assert good, results
    path = folder / "training-area.gpkg"
    return {d.name: QgsVectorLayer(f"{path}|layername={d.name}", d.title, "ogr") for d in areafiles.described()}


def seconds(layers: dict, path: Path) -> tuple[float, int]:
    """Wall time of printing, and the pages."""
    from qgis.core import QgsRasterLayer, QgsVectorLayer

    from fixwright.algorithms.common import shading
    from fixwright.plugin.sheets import print_briefing

    samples = ROOT / "sample_layers"
    airspace = [QgsVectorLayer(f"{samples / 'airspace.gpkg'}|layername={n}", n, "ogr")
                for n in ("airspace", "routes", "places")]  # fmt: skip
    under = [shading.shaded(QgsRasterLayer(str(samples / "terrain.tif"), "terrain"))]
    start = time.perf_counter()
    pages = print_briefing(layers, str(path), airspace=airspace, under=under)
    return time.perf_counter() - start, pages


def main(folder: Path) -> None:
    """Print what pages cost."""
    found = {}
    for count in (FEW, MANY):
        layers = layers_of(folder / str(count), count)
        found[count], pages = seconds(layers, folder / f"{count}.pdf")
        layers.clear()
        print(f"{count} holds: {pages} pages in {found[count]:.1f} s")
    print(f"a hold of {MANY} costs {found[MANY] / MANY / (found[FEW] / FEW):.2f} x what a hold of {FEW} does")
    print(f"peak memory of this process {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    import run

    kept = run.start_qgis(Path(sys.argv[1]))
    main(Path(sys.argv[1]))
    sys.stdout.flush()
    os._exit(0)  # QGIS ended by Python's own clearing up crashes
