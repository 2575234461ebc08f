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
ENVELOPES = 1000
FLIGHTS_TIMES = 10
HOLDS, AIRSPACES = 1000, 5000
LAND_CELLS = 3601


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
    from qgis.core import QgsFeature, QgsGeometry, QgsPoint, QgsVectorLayer

    layer = QgsVectorLayer("Point?crs=EPSG:4326&field=name:string&field=inbound:double", "points", "memory")
    features = []
    for i in range(count):
        feature = QgsFeature(layer.fields())
        feature.setAttributes([f"P{i}", i * 137.508 % 360.0])
        feature.setGeometry(QgsGeometry(QgsPoint(i * 222.492 % 360.0 - 180.0, 130.0 * i / count - 65.0)))
        features.append(feature)
    layer.dataProvider().addFeatures(features)
    save(layer, path)


def save(layer, path: Path) -> None:
    """Write a layer into a GeoPackage."""
    from qgis.core import QgsCoordinateTransformContext, QgsVectorFileWriter

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


def airspace_cases(holds: int, airspaces: int):
    """Holding areas of 8 NM among airspaces of 4 to 16 NM over 24 degrees, 60 corners each: our call; QGIS's own index
    and distances of the same shapes in degrees; exercises among each other. Last: how many contacts there are."""
    import numpy as np
    from qgis.core import QgsFeature, QgsGeometry, QgsRectangle, QgsSpatialIndex

    from fixwright.geometry import airspace, geodesy, separation, shapes, wkb

    random = np.random.default_rng(1)

    def discs(count, radius_nm, spread):
        lon, lat = 10.0 + random.uniform(-spread, spread, count), 50.0 + random.uniform(-spread, spread, count)
        radius = radius_nm * random.uniform(0.33, 1.33, count)
        azimuth = np.linspace(0.0, 360.0, 60)
        x, y, _ = geodesy.direct(
            lon[:, None], lat[:, None], azimuth, radius[:, None] * random.uniform(0.7, 1.0, (count, 60))
        )
        rings = np.stack([x, y], axis=2)
        rings[:, -1] = rings[:, 0]
        return rings

    areas, zones = discs(holds, 8.0, 5.0), discs(airspaces, 12.0, 12.0)
    first = shapes.gather([[[ring]] for ring in areas], filled=True)
    others = airspace.spaces(
        shapes.gather([[[ring]] for ring in zones], filled=True), ["GND"] * airspaces, ["FL 95"] * airspaces
    )
    low = 2000.0 + np.arange(holds) % 10 * 1000.0
    made = []
    for rings in (areas, zones):
        offsets = np.arange(len(rings) + 1) * rings.shape[1]
        geometries = [QgsGeometry() for _ in rings]
        for geometry, blob in zip(geometries, wkb.multipolygons(rings.reshape(-1, 2), offsets)):
            geometry.fromWkb(blob)
        made.append(geometries)

    def ours():
        return airspace.contacts(first, low, low + 500.0, others, within_nm=2.0, within_ft=500.0)

    def qgis():
        index = QgsSpatialIndex()
        for i, geometry in enumerate(made[1]):
            feature = QgsFeature(i)
            feature.setGeometry(geometry)
            index.addFeature(feature)
        for geometry in made[0]:
            box = QgsRectangle(geometry.boundingBox())
            box.grow(2.0 / 38.0)
            for i in index.intersects(box):
                geometry.distance(made[1][i])

    def exercises():
        separation.pairs(first, low, low + 500.0)

    return ours, qgis, exercises, len(ours().row)


def make_land(folder: Path, count: int, cells: int) -> None:
    """A degree of hills with noise in cells of a second, and holds over it with their areas."""
    import numpy as np
    import processing
    from osgeo import gdal, osr
    from qgis.core import QgsProperty

    y, x = np.mgrid[0:cells, 0:cells] / cells
    noise = np.random.default_rng(1).normal(0.0, 15.0, (cells, cells))
    heights = 600.0 + 400.0 * np.sin(9.0 * x) * np.cos(7.0 * y) + 150.0 * np.sin(40.0 * x) * np.sin(31.0 * y) + noise
    made = gdal.GetDriverByName("GTiff").Create(str(folder / "land.tif"), cells, cells, 1, gdal.GDT_Int16)
    made.SetGeoTransform((10.0, 1.0 / (cells - 1), 0.0, 47.0, 0.0, -1.0 / (cells - 1)))
    wgs84 = osr.SpatialReference()
    wgs84.ImportFromEPSG(4326)
    made.SetProjection(wgs84.ExportToWkt())
    made.GetRasterBand(1).WriteArray(np.maximum(heights, 0.0).astype(np.int16))
    made.FlushCache()
    make_points(folder / "world.gpkg", count)
    places = QgsProperty.fromExpression
    there = {"INPUT": str(folder / "world.gpkg"), "EXPRESSION": (
        "make_point(10.35 + 0.3 * (($id * 0.6180339) % 1), 46.35 + 0.3 * (($id * 0.7548777) % 1))"
    ), "OUTPUT_GEOMETRY": 2, "OUTPUT": "memory:"}  # fmt: skip
    points = processing.run("native:geometrybyexpression", there)["OUTPUT"]
    holds = {"INPUT": points, "FIX_FIELD": "name", "INBOUND": places('"inbound"'), "NORTH": "true", "LEG_MIN": 1,
             "ALTITUDE": 6000, "DATE": "2026-09-01", "HOLDS": fresh(folder / "holds.gpkg")}  # fmt: skip
    processing.run("fixwright:designholds", holds)
    areas = {"INPUT": str(folder / "holds.gpkg"), "AREAS": fresh(folder / "areas.gpkg")}
    processing.run("fixwright:protectedareas", areas)


def minimum(folder: Path) -> None:
    """minimumaltitude of all holds over the land."""
    import processing

    processing.run(
        "fixwright:minimumaltitude",
        {
            "AREAS": str(folder / "areas.gpkg"),
            "HOLDS": str(folder / "holds.gpkg"),
            "DEM": str(folder / "land.tif"),
            "TESTS": fresh(folder / "tests.gpkg"),
            "CONTROLLING": fresh(folder / "controlling.gpkg"),
        },
    )


def whole_raster(folder: Path) -> None:
    """GDAL's reading of every cell once, with the greatest of each square of 32 by numpy."""
    from osgeo import gdal

    heights = gdal.Open(str(folder / "land.tif")).ReadAsArray()
    n = len(heights) // 32 * 32
    heights[:n, :n].reshape(n // 32, 32, n // 32, 32).max(axis=(1, 3))


def envelope_case(count: int):
    """Envelopes and outlines of so many different holds with every entry, over fix tolerance areas of their own."""
    import numpy as np

    from fixwright.geometry.protection import envelope
    from fixwright.tests.geometry.test_envelope_simulation import designs

    holds = designs(count)
    air, corners = np.array([hold[:4] for hold in holds]).T, [hold.corners_nm for hold in holds]

    def ours():
        for made in envelope.hold_envelopes(*air, 5.0, tolerance_areas_nm=corners):
            for one in made:
                envelope.outline(one, 5.0)

    return ours


def flights_case(times: int) -> None:
    """The envelope against so many times the flights of the tests: none may be outside by more than a centimetre."""
    from fixwright.tests.geometry.test_envelope_simulation import FLIGHTS, OUTSIDE_M, compared, designs

    found: dict[str, list] = {}
    for number, design in enumerate(designs()):
        for name, one in compared(design, times * FLIGHTS, 1000 + number).items():
            found.setdefault(name, []).append(one)
    for name, of in found.items():
        outside, larger = max(one.outside_m for one in of), sorted(one.larger for one in of)
        assert outside <= OUTSIDE_M, f"{name}: a flight is {outside} m outside"
        print(
            f"  {name:32} farthest outside {outside:8.4f} m, envelope larger than the hull reached by "
            f"{100.0 * larger[len(larger) // 2]:.2f} % (median), {100.0 * larger[-1]:.2f} % (most)"
        )


def best(work) -> tuple[float, float]:
    """The least wall and processor time of a few repeats, in seconds."""
    wall, processor = [], []
    for _ in range(REPEATS):
        at, used = time.perf_counter(), time.process_time()
        work()
        wall.append(time.perf_counter() - at)
        processor.append(time.process_time() - used)
    return min(wall), min(processor)


def peak_memory(folder: Path, whats: tuple[str, ...] = ("--idle", "--once")) -> tuple[float, ...]:
    """Peak memory in MB of processes that start QGIS: one does nothing more, one makes the patterns too."""
    out = []
    for what in whats:
        run = subprocess.run([sys.executable, __file__, what, str(folder)], capture_output=True, text=True, check=True)
        out.append(float(run.stdout.split()[-1]))
    return tuple(out)


def peak_of_this_process() -> float:
    """Peak memory in MB; not getrusage, which carries over the peak of the process that started this one."""
    status = Path("/proc/self/status").read_text(encoding="utf-8")
    return next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM")) / 1024.0


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
    ours_call, by_qgis, exercises, count = airspace_cases(HOLDS, AIRSPACES)
    print(f"\n{HOLDS} holds among {AIRSPACES} airspaces, {count} within 2 NM:")
    by_index = best(by_qgis)
    report("QGIS: index, distances in degrees", by_index)
    report("airspace contacts", best(ours_call), by_index)
    report("exercises among each other", best(exercises), by_index)
    make_land(folder, HOLDS, LAND_CELLS)
    by_reading = best(lambda: whole_raster(folder))
    print(f"\n{HOLDS} holding areas over {LAND_CELLS} x {LAND_CELLS} cells:")
    report("GDAL and numpy: every cell read once", by_reading)
    report("minimumaltitude", best(lambda: minimum(folder)), by_reading)
    print(f"peak memory {peak_memory(folder, ('--minimum',))[0]:.0f} MB")
    print(f"\n{ENVELOPES} envelopes with all entries, against {count} points of patterns:")
    report("envelopes and their outlines", best(envelope_case(ENVELOPES)), by_rings)
    print(f"\n40 designs, {FLIGHTS_TIMES} times the flights of the tests:")
    flights_case(FLIGHTS_TIMES)
    idle, once = peak_memory(folder)
    print(f"\npeak memory {once:.0f} MB, of which QGIS itself {idle:.0f} MB")
    import protection

    protection.report(folder)
    import flights

    flights.report()
    import finding

    finding.report(folder)
    print("\ndesignholds, by function (own time, with the profiler's overhead):")
    profile = cProfile.Profile()
    profile.runcall(ours, folder)
    stats = pstats.Stats(profile)
    total = stats.total_tt
    lines = sorted(((row[2], place) for place, row in stats.stats.items()), reverse=True)[:20]
    for seconds, (file, _, function) in lines:
        print(f"  {100 * seconds / total:5.1f} %  {Path(file).name}: {function}")


if __name__ == "__main__":
    if sys.argv[1:2] in (["--idle"], ["--once"], ["--minimum"]):
        work = Path(sys.argv[2])
        kept = start_qgis(work)
        if sys.argv[1] == "--once":
            ours(work)
        elif sys.argv[1] == "--minimum":
            minimum(work)
        print(peak_of_this_process())
    else:
        with tempfile.TemporaryDirectory(prefix="fixwright-bench-") as made:
            kept = start_qgis(Path(made))  # let go, the provider is gone from the registry
            main(Path(made), int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
    sys.stdout.flush()
    os._exit(0)  # QGIS ended by Python's own clearing up crashes
