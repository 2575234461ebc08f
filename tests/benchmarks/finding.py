"""What a search for holds costs: 20 navaids, 36 radials, 10 distances, both sides, over terrain, masts and airspace.

    python tests/benchmarks/finding.py [altitude in feet]        (needs QGIS)

Against GDAL and numpy reading every cell of the same raster once; all ratios are within one run on one machine. The
seconds are those of this machine; two cores were meant to need less than BUDGET_S. At the lowest and the highest
altitude half of the places come too near airspace, in between nearly all places pass the cheap tests.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import run as bench

NAVAIDS, RADIAL_STEP, DISTANCES, CELLS, MASTS, SPACES = 20, 10, 10, 3601, 300, 60
ALTITUDES_FT = (3500, 5500, 9000)
BUDGET_S = 60.0
WEST, NORTH, DEGREES = 9.0, 47.5, 2.0
HOME = "10.0,46.5"


def make(folder: Path) -> None:
    """Two degrees of hills in cells of two seconds, navaids on the ground, masts, airspace of three kinds of limits."""
    import numpy as np
    from osgeo import gdal, osr
    from qgis.core import QgsFeature, QgsGeometry, QgsPoint, QgsVectorLayer

    cell = DEGREES / (CELLS - 1)
    y, x = np.mgrid[0:CELLS, 0:CELLS] / CELLS
    draw = np.random.default_rng(1)
    heights = 350.0 + 250.0 * np.sin(9.0 * x) * np.cos(7.0 * y) + 60.0 * np.sin(40.0 * x) * np.sin(31.0 * y)
    heights = np.maximum(heights + draw.normal(0.0, 5.0, (CELLS, CELLS)), 0.0)
    made = gdal.GetDriverByName("GTiff").Create(str(folder / "hills.tif"), CELLS, CELLS, 1, gdal.GDT_Int16)
    made.SetGeoTransform((WEST, cell, 0.0, NORTH, 0.0, -cell))
    wgs84 = osr.SpatialReference()
    wgs84.ImportFromEPSG(4326)
    made.SetProjection(wgs84.ExportToWkt())
    made.GetRasterBand(1).WriteArray(heights.astype(np.int16))
    made.FlushCache()
    del made

    def places(count: int) -> np.ndarray:
        return np.stack([draw.uniform(9.5, 10.5, count), draw.uniform(46.1, 46.9, count)], axis=1)

    def ground_ft(lon: float, lat: float) -> float:
        return float(heights[int((NORTH - lat) / cell), int((lon - WEST) / cell)]) / 0.3048

    def layer(name: str, kind: str, fields: str, rows: list) -> None:
        made = QgsVectorLayer(f"{kind}?crs=EPSG:4326&{fields}", name, "memory")
        features = []
        for shape, *values in rows:
            feature = QgsFeature(made.fields())
            feature.setAttributes(values)
            feature.setGeometry(shape)
            features.append(feature)
        made.dataProvider().addFeatures(features)
        bench.save(made, folder / f"{name}.gpkg")

    fields = "&".join(f"field={name}" for name in ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double",
                                                   "class:string"))  # fmt: skip
    layer("stations", "Point", fields, [
        (QgsGeometry(QgsPoint(*place)), f"Q{k:02d}", "VOR/DME", ground_ft(*place) + 60.0, 3.0, "H")
        for k, place in enumerate(places(NAVAIDS).tolist())
    ])  # fmt: skip
    layer("masts", "Point", "field=name:string&field=elev_ft:double&field=across_ft:double", [
        (QgsGeometry(QgsPoint(*place)), f"M{k}", ground_ft(*place) + 400.0, 100.0)
        for k, place in enumerate(places(MASTS).tolist())
    ])  # fmt: skip
    limits = (("GND", "3500 ft AMSL"), ("6500 ft AMSL", "FL 95"), ("GND", "1500 ft AGL"))
    layer("spaces", "Polygon", "field=name:string&field=lower:string&field=upper:string", [
        (QgsGeometry(QgsPoint(*place)).buffer(draw.uniform(0.03, 0.08), 15), f"S{k}", *limits[k % 3])
        for k, place in enumerate(places(SPACES).tolist())
    ])  # fmt: skip


def find(folder: Path, altitude_ft: float) -> dict:
    import processing

    return processing.run(
        "fixwright:findholds",
        {
            "NAVAIDS": str(folder / "stations.gpkg"), "HOME": HOME, "RADIUS": 45, "RADIAL_STEP": RADIAL_STEP,
            "DISTANCE_FROM": 4, "DISTANCE_TO": 4 + 3 * (DISTANCES - 1), "DISTANCE_STEP": 3, "ALTITUDE": altitude_ft,
            "IAS": 95, "AREA_IAS": 120, "DEM": str(folder / "hills.tif"), "OBSTACLES": str(folder / "masts.gpkg"),
            "AIRSPACE": str(folder / "spaces.gpkg"), "DATE": "2026-09-01",
            "PLAN": bench.fresh(folder / f"plan-{altitude_ft:.0f}.gpkg"),
        },
    )  # fmt: skip


def read_once(folder: Path) -> None:
    """GDAL's reading of every cell, with the greatest of each square of 16 by numpy."""
    from osgeo import gdal

    heights = gdal.Open(str(folder / "hills.tif")).ReadAsArray()
    n = len(heights) // 16 * 16
    heights[:n, :n].reshape(n // 16, 16, n // 16, 16).max(axis=(1, 3))


def apart(folder: Path, altitude_ft: float) -> tuple[float, ...]:
    """Seconds on the clock and of the processor, places, proposals, peak memory in MB: in a process of its own."""
    words = [sys.executable, __file__, "--once", str(folder), str(altitude_ft)]
    said = subprocess.run(words, capture_output=True, text=True, check=True).stdout.split()[-5:]
    return tuple(map(float, said))


def report(folder: Path, altitudes=ALTITUDES_FT) -> None:
    make(folder)
    by_reading = bench.best(lambda: read_once(folder))
    print(f"\nfindholds over {CELLS} x {CELLS} cells, {MASTS} masts, {SPACES} airspaces:")
    bench.report("GDAL and numpy: every cell read once", by_reading)
    for altitude in altitudes:
        wall, used, looked_at, proposed, memory = apart(folder, altitude)
        bench.report(f"{looked_at:.0f} places at {altitude:.0f} ft, {proposed:.0f} proposed", (wall, used), by_reading)
        print(f"    meant: under {BUDGET_S:.0f} s on two cores; peak memory {memory:.0f} MB")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--once"]:
        work = Path(sys.argv[2])
        kept = bench.start_qgis(work)
        at, used = time.perf_counter(), time.process_time()
        result = find(work, float(sys.argv[3]))
        seconds, used = time.perf_counter() - at, time.process_time() - used
        print(seconds, used, result["ROWS_IN"], result["ROWS_OUT"], bench.peak_of_this_process())
    else:
        with tempfile.TemporaryDirectory(prefix="fixwright-bench-") as made:
            kept = bench.start_qgis(Path(made))
            report(Path(made), [float(value) for value in sys.argv[1:]] or ALTITUDES_FT)
    sys.stdout.flush()
    os._exit(0)  # QGIS ended by Python's own clearing up crashes
