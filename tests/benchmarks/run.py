"""Where the time goes: holds over many points, against a bare run that reads and writes as much. Prints ratios.

    python tests/benchmarks/run.py [points]        (default 100 000; needs QGIS)

All ratios are within one run on one machine; the seconds beside them are only for orientation.
"""

from __future__ import annotations

import cProfile
import os
import pstats
import subprocess
import sys
import tempfile
import time
from itertools import islice
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
REPEATS = 3
BATCH = 5000
CROSSINGS = 10_000


def start_qgis(folder: Path):
    """QGIS without a window, this checkout as the package fixwright, our provider registered."""
    (folder / "plugins").mkdir(exist_ok=True)
    link = folder / "plugins" / "fixwright"
    if not link.exists():
        link.symlink_to(ROOT, target_is_directory=True)
    sys.path.insert(0, str(folder / "plugins"))
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    os.environ["QGIS_CUSTOM_CONFIG_PATH"] = str(folder / "profile")
    if Path("/usr/share/proj/proj.db").exists():
        os.environ.setdefault("PROJ_DATA", "/usr/share/proj")
    from qgis.core import QgsApplication

    QgsApplication.setPrefixPath(os.environ.get("QGIS_PREFIX_PATH", "/usr"), True)
    app = QgsApplication([], False)
    app.initQgis()
    sys.path.append(os.path.join(QgsApplication.pkgDataPath(), "python", "plugins"))
    from processing.core.Processing import Processing

    from fixwright.plugin.provider import FixwrightProvider

    Processing.initialize()
    provider = FixwrightProvider()
    QgsApplication.processingRegistry().addProvider(provider)
    return app, provider


def make_points(path: Path, count: int) -> None:
    """Points spread evenly over the globe up to 65 degrees, each with a name and an inbound course."""
    from qgis.core import (
        QgsCoordinateTransformContext,
        QgsFeature,
        QgsGeometry,
        QgsPoint,
        QgsVectorFileWriter,
        QgsVectorLayer,
    )

    layer = QgsVectorLayer("Point?crs=EPSG:4326&field=name:string&field=inbound:double", "points", "memory")
    features = []
    for i in range(count):
        feature = QgsFeature(layer.fields())
        feature.setAttributes([f"P{i}", i * 137.508 % 360.0])
        feature.setGeometry(QgsGeometry(QgsPoint(i * 222.492 % 360.0 - 180.0, 130.0 * i / count - 65.0)))
        features.append(feature)
    layer.dataProvider().addFeatures(features)
    options = QgsVectorFileWriter.SaveVectorOptions()
    options.driverName = "GPKG"
    QgsVectorFileWriter.writeAsVectorFormatV3(layer, str(path), QgsCoordinateTransformContext(), options)


def fresh(path: Path) -> str:
    path.unlink(missing_ok=True)
    return str(path)


def ours(folder: Path) -> None:
    """designholds, patterns only: one course from a field, the rest constants."""
    import processing
    from qgis.core import QgsProperty

    processing.run(
        "fixwright:designholds",
        {
            "INPUT": str(folder / "points.gpkg"),
            "FIX_FIELD": "name",
            "INBOUND": QgsProperty.fromField("inbound"),
            "NORTH": "true",
            "LEG_MIN": 1,
            "ALTITUDE": 5000,
            "DATE": "2026-09-01",
            "PATTERNS": fresh(folder / "patterns.gpkg"),
        },
    )


class Bare:
    """Read the points, write polygons prepared beforehand, as many vertices and attributes as ours."""

    def __init__(self, folder: Path):
        from qgis.core import QgsFields, QgsVectorLayer

        self.folder = folder
        made = QgsVectorLayer(str(folder / "patterns.gpkg"), "patterns", "ogr")
        self.fields = QgsFields()
        for field in list(made.fields())[1:]:
            self.fields.append(field)
        self.geometries, self.attributes = [], []
        for feature in made.getFeatures():
            self.geometries.append(feature.geometry())
            self.attributes.append(feature.attributes()[1:])
        self.vertices = sum(geometry.constGet().nCoordinates() for geometry in self.geometries)

    def __call__(self) -> None:
        from qgis.core import (
            QgsCoordinateReferenceSystem,
            QgsFeature,
            QgsFeatureSink,
            QgsProcessingContext,
            QgsProcessingUtils,
            QgsVectorLayer,
            QgsWkbTypes,
        )

        sink, _ = QgsProcessingUtils.createFeatureSink(
            fresh(self.folder / "bare.gpkg"),
            QgsProcessingContext(),
            self.fields,
            QgsWkbTypes.Type.MultiPolygon,
            QgsCoordinateReferenceSystem("EPSG:4326"),
        )
        points = QgsVectorLayer(str(self.folder / "points.gpkg"), "points", "ogr").getFeatures()
        done = 0
        while True:
            batch = list(islice(points, BATCH))
            if not batch:
                break
            out = []
            for source in batch:
                source.geometry()
                source.attributes()
                feature = QgsFeature()
                feature.setAttributes(self.attributes[done])
                feature.setGeometry(self.geometries[done])
                out.append(feature)
                done += 1
            assert sink.addFeatures(out, QgsFeatureSink.Flag.FastInsert)
        del sink


def wedges(folder: Path) -> None:
    """QGIS's own wedge buffers over the same points."""
    import processing

    processing.run(
        "native:wedgebuffers",
        {
            "INPUT": str(folder / "points.gpkg"),
            "AZIMUTH": 45,
            "WIDTH": 90,
            "OUTER_RADIUS": 0.05,
            "INNER_RADIUS": 0,
            "OUTPUT": fresh(folder / "wedges.gpkg"),
        },
    )


def geometry_cases(count: int):
    """Two calls without QGIS: our design and rings of all points, and one pyproj call over as many vertices."""
    import numpy as np
    from pyproj import Geod

    from fixwright.geometry import plan

    i = np.arange(count)
    fix = {"lon": i * 222.492 % 360.0 - 180.0, "lat": 130.0 * i / count - 65.0}
    names = np.array([f"P{k}" for k in i], dtype=object)
    vertices = []

    def rings():
        total = 0
        keys = plan.Keys()
        for start in range(0, count, BATCH):
            part = slice(start, start + BATCH)
            made = plan.design_holds(
                {name: column[part] for name, column in fix.items()},
                names[part],
                keys,
                inbound_deg=i[part] * 137.508 % 360.0,
                north=2,
                turn=0,
                leg_min=1.0,
                leg_nm=np.nan,
                leg_end=-1,
                ias_kt=90.0,
                area_ias_kt=np.nan,
                alt_ft=5000.0,
                alt_to_ft=np.nan,
                isa_dev_c=0.0,
                rules=0,
                var_date="2026-09-01",
                year=2026.6657,
            )
            total += len(plan.pattern_rows(made).coords)
        vertices[:] = [total]

    geod = Geod(ellps="WGS84")

    def pyproj():
        n = vertices[0]
        k = np.arange(n)
        geod.fwd(k * 222.492 % 360.0 - 180.0, 130.0 * k / n - 65.0, k * 137.508 % 360.0, 200.0 + k % 5000)

    return rings, pyproj


class Rounds:
    """Stands in for geometry's geodesy: keeps the arguments of its direct and inverse calls."""

    def __init__(self, geodesy):
        self.geodesy, self.calls = geodesy, []
        self.GEOD = geodesy.GEOD

    def direct(self, *given):
        self.calls.append(("fwd", given))
        return self.geodesy.direct(*given)

    def inverse(self, *given):
        self.calls.append(("inv", given))
        return self.geodesy.inverse(*given)


def crossing_cases(count: int):
    """Crossings over the globe up to 80 degrees, stations 1 to 151 NM from each place, cuts of 5 to 85 degrees.

    For each pair of lines: its name, our call, the same pyproj calls as its rounds made (the one for the start of two
    arcs left out), and their number of rounds. Two radials: two direct and one inverse a round; with an arc: one of
    each, and the rounds of both solutions count.
    """
    import numpy as np
    from pyproj import Geod

    from fixwright.geometry import crossings, geodesy

    i = np.arange(count)
    lon, lat = i * 222.492 % 360.0 - 180.0, 160.0 * i / count - 80.0
    bearing, cut = i * 137.508 % 360.0, 5.0 + i * 61.803 % 80.0
    one_nm, two_nm = 1.0 + i * 38.197 % 150.0, 1.0 + i * 11.803 % 150.0
    first, second = geodesy.direct(lon, lat, bearing, one_nm), geodesy.direct(lon, lat, bearing + cut, two_nm)
    abeam = geodesy.direct(lon, lat, bearing + 90.0 + cut, two_nm)
    rays = [(at[0], at[1], at[2] + 180.0) for at in (first, second)]
    arcs = [(at[0], at[1], radius) for at, radius in ((first, one_nm), (second, two_nm), (abeam, two_nm))]
    cases = (
        ("two radials", crossings.radial_radial, (*rays[0], *rays[1]), 0, 3),
        ("radial and arc", crossings.radial_arc, (*rays[0], *arcs[2]), 0, 2),
        ("two arcs", crossings.arc_arc, (*arcs[0], *arcs[1]), 1, 2),
    )
    geod = Geod(ellps="WGS84")
    out = []
    for name, solve, lines, start, calls_a_round in cases:
        crossings.geodesy = Rounds(geodesy)
        try:
            found = solve(*lines)
            calls = crossings.geodesy.calls[start:]
        finally:
            crossings.geodesy = geodesy
        found = found if isinstance(found[0], tuple) else (found,)
        assert (np.isfinite(found[0].lon)).all(), name
        ready = []
        for which, given in calls:
            spread = [np.ascontiguousarray(a, dtype=np.float64) for a in np.broadcast_arrays(*given)]
            spread[3] = spread[3] * 1852.0 if which == "fwd" else spread[3]
            ready.append((getattr(geod, which), spread))

        def ours(solve=solve, lines=lines):
            solve(*lines)

        def bare(ready=ready):
            for solver, given in ready:
                solver(*given)

        out.append((name, ours, bare, len(calls) / calls_a_round))
    return out


def best(work) -> tuple[float, float]:
    """The least wall and processor time of a few repeats, in seconds."""
    wall, processor = [], []
    for _ in range(REPEATS):
        at, used = time.perf_counter(), time.process_time()
        work()
        wall.append(time.perf_counter() - at)
        processor.append(time.process_time() - used)
    return min(wall), min(processor)


def peak_memory(folder: Path) -> tuple[float, float]:
    """Peak memory in MB of a process that starts QGIS, and of one that makes the patterns too."""
    out = []
    for what in ("--idle", "--once"):
        run = subprocess.run([sys.executable, __file__, what, str(folder)], capture_output=True, text=True, check=True)
        out.append(float(run.stdout.split()[-1]))
    return tuple(out)


def report(name: str, seconds: tuple[float, float], to: tuple[float, float] | None = None) -> None:
    ratio = "" if to is None else f"   {seconds[0] / to[0]:5.2f} x wall, {seconds[1] / to[1]:5.2f} x processor"
    print(f"{name:52} {seconds[0]:7.2f} s wall {seconds[1]:7.2f} s processor{ratio}")


def main(folder: Path, count: int) -> None:
    make_points(folder / "points.gpkg", count)
    ours(folder)
    bare = Bare(folder)
    print(f"{count} points, {bare.vertices} vertices, {len(bare.fields)} attributes\n")
    by_bare = best(bare)
    report("bare: read, write prepared polygons", by_bare)
    report("designholds, PATTERNS only", best(lambda: ours(folder)), by_bare)
    report("native:wedgebuffers (other shapes)", best(lambda: wedges(folder)), by_bare)
    rings, pyproj = geometry_cases(count)
    by_rings = best(rings)
    by_pyproj = best(pyproj)
    report("pyproj, one call over as many vertices", by_pyproj)
    report("geometry alone (design and rings)", by_rings, by_pyproj)
    print(f"\n{CROSSINGS} crossings:")
    for name, crossing, rounds_alone, rounds in crossing_cases(CROSSINGS):
        by_rounds = best(rounds_alone)
        report(f"pyproj, the calls of {rounds:.0f} rounds", by_rounds)
        report(name, best(crossing), by_rounds)
    idle, once = peak_memory(folder)
    print(f"\npeak memory {once:.0f} MB, of which QGIS itself {idle:.0f} MB")
    print("\ndesignholds, by function (own time, with the profiler's overhead):")
    profile = cProfile.Profile()
    profile.runcall(ours, folder)
    stats = pstats.Stats(profile)
    total = stats.total_tt
    lines = sorted(((row[2], place) for place, row in stats.stats.items()), reverse=True)[:20]
    for seconds, (file, _, function) in lines:
        print(f"  {100 * seconds / total:5.1f} %  {Path(file).name}: {function}")


if __name__ == "__main__":
    if sys.argv[1:2] in (["--idle"], ["--once"]):
        work = Path(sys.argv[2])
        kept = start_qgis(work)
        if sys.argv[1] == "--once":
            ours(work)
        # not getrusage: that carries over the peak of the process that started this one
        status = Path("/proc/self/status").read_text(encoding="utf-8")
        print(next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM")) / 1024.0)
    else:
        with tempfile.TemporaryDirectory(prefix="fixwright-bench-") as made:
            kept = start_qgis(Path(made))  # let go, the provider is gone from the registry
            main(Path(made), int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
    sys.stdout.flush()
    os._exit(0)  # QGIS ended by Python's own clearing up crashes
