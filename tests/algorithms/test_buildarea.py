"""Build training area, as a script and as qgis_process run it: the files, what is in them, what is refused."""

from __future__ import annotations

import csv
import getpass
import json
import os
import re
import sqlite3
import subprocess
import unicodedata
import zipfile
from pathlib import Path

import pytest
from qgis.core import (
    QgsDateTimeRange,
    QgsFeature,
    QgsFeatureRequest,
    QgsGeometry,
    QgsProcessingException,
    QgsProject,
    QgsProperty,
    QgsUnitTypes,
    QgsVectorLayer,
    QgsVectorLayerTemporalContext,
)

DATE = "2026-09-01"
COUNTS = {"navaids": 14, "fixes": 12, "holds": 12, "patterns": 12, "tracks": 48, "areas": 84, "by_rule": 42,
          "rejects": 0}  # fmt: skip
DRAWN = ["holds", "fixes", "navaids", "controlling", "events", "flown", "by_rule", "tracks", "patterns", "failing",
         "sectors", "areas"]  # fmt: skip
FILES = {"training-area.gpkg", "training-area.qgz", "briefing.pdf"}
CAUTION = "not for navigation"


def sample_parameters(root, folder, plan="plan.csv"):
    samples = root / "sample_layers"
    return {
        "NAVAIDS": f"{samples / 'navaids.gpkg'}|layername=navaids",
        "PLAN": f"{samples / 'plan.gpkg'}|layername=plan" if plan == "plan.gpkg" else str(samples / plan),
        "AIRCRAFT": str(samples / "aircraft.csv"),
        "DATE": DATE,
        "TITLE": "Quillandra Reach",
        "FOLDER": str(folder),
    }


def run(parameters, **options):
    import processing

    return processing.run("fixwright:buildarea", parameters, **options)


def run_unprinted(parameters):
    """The same without the time that printing takes."""
    from qgis.core import QgsProcessingContext, QgsProcessingFeedback

    from fixwright.algorithms.buildarea import BuildArea

    algorithm = BuildArea(lambda layers, path, **options: Path(path).write_bytes(b"%PDF-"))
    algorithm.initAlgorithm()
    results, good = algorithm.run(parameters, QgsProcessingContext(), QgsProcessingFeedback(False))
    assert good
    return results


def layer(folder, name):
    opened = QgsVectorLayer(f"{Path(folder) / 'training-area.gpkg'}|layername={name}", name, "ogr")
    assert opened.isValid(), name
    return opened


def contents(folder, name):
    """Rows with their shapes, as text."""
    found = layer(folder, name)
    return [(f.geometry().asWkt(9), [str(v) for v in f.attributes()[1:]]) for f in found.getFeatures()]


def apart_deg(one: str, other: str) -> float:
    """How far the vertices of two shapes as text lie apart at most; infinite where one has more."""
    if one == other:
        return 0.0
    ones, others = ([(v.x(), v.y()) for v in QgsGeometry.fromWkt(text).vertices()] for text in (one, other))
    if len(ones) != len(others):
        return float("inf")
    return max(max(abs(a - c), abs(b - d)) for (a, b), (c, d) in zip(ones, others))


def texts_of_pages(path):
    raw = subprocess.run(["pdftotext", "-layout", str(path), "-"], capture_output=True, check=True).stdout
    return unicodedata.normalize("NFKC", raw.decode("utf-8")).split("\f")[:-1]


def write_plan(path, rows):
    names = list(dict.fromkeys(name for row in rows for name in row))
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, names)
        writer.writeheader()
        writer.writerows(rows)
    return str(path)


@pytest.fixture(scope="module")
def area(root, provider, tmp_path_factory):
    """The sample area, built once: folder and results."""
    folder = tmp_path_factory.mktemp("area")
    return folder, run(sample_parameters(root, folder))


def test_all_twelve_exercises_give_a_hold(area):
    folder, results = area
    assert (results["ROWS_IN"], results["ROWS_OUT"], results["ROWS_REJECTED"]) == (12, 12, 0)
    assert {path.name for path in folder.iterdir()} == FILES
    for name, count in COUNTS.items():
        assert layer(folder, name).featureCount() == count, name
    assert [f["hold"] for f in layer(folder, "holds").getFeatures()] == [f"E{i:02d}" for i in range(1, 13)]
    for output, name in (("HOLDS", "holds"), ("TRACKS", "tracks"), ("REJECTS", "rejects")):
        assert Path(results[output].partition("|")[0]) == folder / "training-area.gpkg"
        assert results[output].endswith(f"layername={name}")
    assert results["PROJECT"] == str(folder / "training-area.qgz")
    assert results["SHEET"] == str(folder / "briefing.pdf")


def test_layers_have_the_fields_of_their_schema_and_the_plans_own(area):
    from fixwright.algorithms.common.areafiles import described

    for described_layer in described():
        names = layer(area[0], described_layer.name).fields().names()
        assert names[1 : 1 + len(described_layer.names)] == list(described_layer.names), described_layer.name
    holds = next(layer(area[0], "holds").getFeatures())
    assert holds["remarks"] == "First hold: everything given."


def test_every_child_layer_joins_on_the_holds(area):
    holds = {f["hold"] for f in layer(area[0], "holds").getFeatures()}
    for name in ("patterns", "tracks", "areas"):
        assert {f["hold"] for f in layer(area[0], name).getFeatures()} == holds, name


def test_the_areas_are_those_of_the_step_alone(area):
    import processing

    source = f"{area[0] / 'training-area.gpkg'}|layername=holds"
    alone = processing.run("fixwright:protectedareas", {"INPUT": source, "AREAS": "memory:"})["AREAS"]
    apart = [(f["hold"], f["part"], f["area_nm2"], f["limits"]) for f in alone.getFeatures()]
    within = [(f["hold"], f["part"], f["area_nm2"], f["limits"]) for f in layer(area[0], "areas").getFeatures()]
    assert within == [(hold, part, pytest.approx(size, rel=1e-9), said) for hold, part, size, said in apart]


@pytest.mark.parametrize("basis", ["aids", "gnss"])
def test_the_areas_lie_over_the_fix_tolerance_where_asked(root, area, tmp_path, basis):
    """As the steps alone have them; the project shows them. By default the areas say what they lack."""
    import processing

    results = run_unprinted({**sample_parameters(root, tmp_path), "FIX_BASIS": basis})
    holds = f"{tmp_path / 'training-area.gpkg'}|layername=holds"
    found = {f["fix"]: f["area_nm2"] for f in layer(tmp_path, "tolerances").getFeatures()}
    # the rules of each row say how good its aids are
    rules = QgsProperty.fromField("rules")
    asked = {"INPUT": holds, "BASIS": basis, "RULES": rules, "AREAS": "memory:", "REJECTS": "memory:"}
    steps = processing.run("fixwright:fixtolerance", asked)
    alone = {f["fix"]: f["area_nm2"] for f in steps["AREAS"].getFeatures()}
    assert found == {fix: pytest.approx(size, rel=1e-9) for fix, size in alone.items()} and len(found) > 5
    fixes = {f["hold"]: f["fix"] for f in layer(tmp_path, "holds").getFeatures()}
    without = [hold for hold, fix in fixes.items() if fix not in found]
    assert len(without) == steps["REJECTS"].featureCount()
    said = {f["hold"]: str(f["limits"]) for f in layer(tmp_path, "holds").getFeatures()}
    areas, plain = (
        {f["hold"]: f for f in layer(folder, "areas").getFeatures() if f["part"] == "buffer_5"}
        for folder in (tmp_path, area[0])
    )
    for hold in fixes:
        assert "over the fix as a point" in plain[hold]["limits"]
        assert (hold in without) == ("over the fix as a point" in areas[hold]["limits"])
        assert (hold in without) == ("as a point, without a tolerance" in said[hold])
        more = areas[hold].geometry().boundingBox().width() - plain[hold].geometry().boundingBox().width()
        assert more == 0.0 if hold in without else more > 0.0, hold
    project = QgsProject()
    assert project.read(results["PROJECT"])
    shown = [node.layer().source().partition("layername=")[2] for node in project.layerTreeRoot().findLayers()]
    assert [name for name in shown if name != "tolerances"] == DRAWN and "tolerances" in shown
    project.clear()


def test_styles_and_caution_are_in_the_file(area):
    with sqlite3.connect(f"file:{area[0] / 'training-area.gpkg'}?mode=ro", uri=True) as database:
        default = database.execute("SELECT f_table_name FROM layer_styles WHERE useAsDefault").fetchall()
        dark = database.execute("SELECT f_table_name FROM layer_styles WHERE styleName = 'dark'").fetchall()
        metadata = " ".join(text for (text,) in database.execute("SELECT metadata FROM gpkg_metadata"))
    assert sorted(name for (name,) in default) == sorted([*DRAWN, "tolerances"])
    assert sorted(name for (name,) in dark) == sorted([*DRAWN, "tolerances"])
    assert metadata.count(CAUTION) >= len(COUNTS)
    assert layer(area[0], "navaids").renderer().type() == "categorizedSymbol"


def test_the_project_opens_with_valid_styled_layers_wherever_the_folder_goes(area, tmp_path):
    moved = tmp_path / "elsewhere"
    moved.mkdir()
    for name in FILES:
        (moved / name).write_bytes((area[0] / name).read_bytes())
    project = QgsProject()
    assert project.read(str(moved / "training-area.qgz"))
    assert project.title() == "Quillandra Reach"
    assert CAUTION in project.metadata().abstract()
    order = [node.layer() for node in project.layerTreeRoot().findLayers()]
    assert [node.source().partition("layername=")[2] for node in order] == DRAWN
    for opened in order:
        assert opened.isValid()
        assert opened.source().startswith(str(moved)), opened.source()
        named = not opened.source().endswith(("=fixes", "=flown"))  # a fix is named by its hold, a flight by its events
        assert opened.labelsEnabled() == named and (opened.labeling() is not None or not named)
    assert project.crs().isValid() and not project.crs().isGeographic()
    view = project.viewSettings().defaultViewExtent()
    assert 50_000 < view.width() < 500_000 and 50_000 < view.height() < 500_000
    project.clear()


@pytest.mark.parametrize(("name", "first"), [("events", "utc"), ("flown", "start_utc")])
def test_the_project_plays_the_flights(root, area, tmp_path, name, first):
    """The temporal controller finds them in the project as it was written, on QGIS 3.22 too: it forgets the settings of
    a file's own style, and those of a layer that it clones."""
    project = QgsProject()
    assert project.read(str(area[0] / "training-area.qgz"))
    (opened,) = [found for found in project.mapLayers().values() if found.source().endswith(f"={name}")]
    plays = opened.temporalProperties()
    assert plays.isActive() and plays.startField() == first
    if name == "flown":
        assert plays.endField() == "end_utc"
    else:
        assert plays.fixedDuration() == 1.0
    others = [found for found in project.mapLayers().values() if found.source().rpartition("=")[2] not in
              ("events", "flown")]  # fmt: skip
    assert not any(found.temporalProperties().isActive() for found in others)
    project.clear()


def test_the_clock_of_the_project_is_set_for_the_flights(root, area):
    """The temporal controller opens with their time, in steps in which they are seen to move; and it finds each where
    it is at a time of day."""
    project = QgsProject()
    assert project.read(str(area[0] / "training-area.qgz"))
    clock = project.timeSettings()
    (flown,) = [found for found in project.mapLayers().values() if found.source().endswith("=flown")]
    times = sorted(time for row in flown.getFeatures() for time in (row["start_utc"], row["end_utc"]) if time)
    span = clock.temporalRange()
    assert [end.toUTC().toString("yyyy-MM-ddTHH:mm:ss") for end in (span.begin(), span.end())] == [times[0], times[-1]]
    assert clock.timeStep() == 10.0 and clock.timeStepUnit() == QgsUnitTypes.TemporalUnit.TemporalSeconds
    context = QgsVectorLayerTemporalContext()
    context.setLayer(flown)
    first = min((row for row in flown.getFeatures() if row["start_utc"]), key=lambda row: row["start_utc"])
    frame = QgsDateTimeRange(span.begin().addSecs(30), span.begin().addSecs(40))
    wanted = QgsFeatureRequest().setFilterExpression(flown.temporalProperties().createFilterString(context, frame))
    shown = [(row["hold"], row["circuit"]) for row in flown.getFeatures(wanted) if row["start_utc"]]
    assert shown == [(first["hold"], first["circuit"])]
    project.clear()


def test_layers_loaded_into_the_open_project_are_dressed(root, tmp_path, empty_project):
    """As the dialog does it: what is loaded on completion has its style and plays in time."""
    from qgis.core import QgsProcessingContext, QgsProcessingFeedback

    from fixwright.algorithms.buildarea import BuildArea

    algorithm = BuildArea(lambda layers, path, **options: Path(path).write_bytes(b"%PDF-"))
    algorithm.initAlgorithm()
    context = QgsProcessingContext()
    context.setProject(empty_project)
    algorithm.run({**sample_parameters(root, tmp_path), "START": "1405Z"}, context, QgsProcessingFeedback(False))
    loads = context.layersToLoadOnCompletion()
    plays = {}
    for source, details in loads.items():
        opened = QgsVectorLayer(source, details.name, "ogr")
        if details.postProcessor() is not None:
            details.postProcessor().postProcessLayer(opened, context, QgsProcessingFeedback(False))
        plays[source.rpartition("=")[2]] = opened.temporalProperties().isActive()
    assert {name for name, active in plays.items() if active} == {"events", "flown"}
    crossed = [f["utc"] for f in layer(tmp_path, "events").getFeatures() if f["event"] == "fix" and f["time_s"] == 0.0]
    assert set(crossed) == {f"{DATE}T14:05:00"}


def test_no_path_and_nobody_in_the_files(area):
    """No absolute path, and no name of the person who ran it, in project, database and sheet."""
    with zipfile.ZipFile(area[0] / "training-area.qgz") as archive:
        (name,) = [n for n in archive.namelist() if n.endswith(".qgs")]
        project = archive.read(name).decode("utf-8")
    assert name == "training-area.qgs"
    sources = re.findall(r"<datasource>([^<]+)</datasource>", project)
    assert len(sources) == len(DRAWN) and all(s.startswith("./training-area.gpkg|") for s in sources)
    assert ".training-area-" not in project
    assert not re.search(r'saveUser(Full)?="[^"]', project)
    assert not re.search(r"<author>[^<]", project)
    for file in FILES:
        data = (area[0] / file).read_bytes() if file != "training-area.qgz" else project.encode()
        assert str(area[0]).encode() not in data, file
        assert f"/{getpass.getuser()}/".encode() not in data, file


def test_the_briefing_has_a_page_a_hold_and_the_caution_on_each(area):
    found = texts_of_pages(area[0] / "briefing.pdf")
    assert len(found) == 13
    for page in found:
        assert CAUTION in page
        assert f"World Magnetic Model 2025 of {DATE}" in page
        assert "Navaid data:" in page and "Made 20" in page
    holds = {f["hold"]: f["fix"] for f in layer(area[0], "holds").getFeatures()}
    for (hold, fix), page in zip(holds.items(), found[1:]):
        assert hold in page and fix in page
        assert hold in found[0] and fix in found[0]


def test_rerun_gives_the_same_layers(root, area, tmp_path):
    run_unprinted(sample_parameters(root, tmp_path))
    for name in COUNTS:
        assert contents(tmp_path, name) == contents(area[0], name), name


def test_again_into_the_same_folder(root, tmp_path):
    """Older files are replaced whole, and nothing is left beside."""
    for name in FILES:
        (tmp_path / name).write_text("old")
    (tmp_path / "training-area.gpkg-wal").write_text("old")
    run_unprinted(sample_parameters(root, tmp_path))
    assert {path.name for path in tmp_path.iterdir()} == FILES
    assert layer(tmp_path, "holds").featureCount() == 12
    assert (tmp_path / "briefing.pdf").read_bytes().startswith(b"%PDF-")


def test_numbers_in_a_geopackage_or_typed_in_text_give_the_same(root, area, tmp_path):
    run_unprinted(sample_parameters(root, tmp_path, plan="plan.gpkg"))
    for name in ("patterns", "tracks", "areas"):
        assert contents(tmp_path, name) == contents(area[0], name), name


def test_wrong_rows_go_to_the_rejects_and_the_others_are_built(root, tmp_path):
    good = {"exercise": "Good", "navaid": "OBL", "radial_deg": "90", "distance_nm": "8", "alt_ft": "4000"}
    plan = write_plan(
        tmp_path / "plan.csv",
        [
            good,
            {**good, "exercise": "No such navaid", "navaid": "QQQ"},
            {**good, "exercise": "Radial", "radial_deg": "361"},
            {**good, "exercise": "Text", "distance_nm": "twelve"},
            {**good, "exercise": "Word", "turn": "sideways"},
            {**good, "exercise": "Altitude", "alt_ft": ""},
        ],
    )
    folder = tmp_path / "out"
    results = run({**sample_parameters(root, folder), "PLAN": plan})
    assert (results["ROWS_IN"], results["ROWS_OUT"], results["ROWS_REJECTED"]) == (6, 1, 5)
    rejects = {f["exercise"]: (f["source_id"], f["reason"]) for f in layer(folder, "rejects").getFeatures()}
    assert set(rejects) == {"No such navaid", "Radial", "Text", "Word", "Altitude"}
    assert "QQQ" in rejects["No such navaid"][1]
    assert "between 0 and 360" in rejects["Radial"][1]
    assert "'twelve' is not a number" in rejects["Text"][1]
    assert "sideways" in rejects["Word"][1]
    assert len({source_id for source_id, _ in rejects.values()}) == 5
    project = QgsProject()
    assert project.read(str(folder / "training-area.qgz"))
    assert len(project.mapLayers()) == len(DRAWN) + 1, "the rejects are shown where there are any"
    project.clear()
    assert len(texts_of_pages(folder / "briefing.pdf")) == 2


def test_a_plan_without_one_good_row_gives_no_briefing(root, tmp_path):
    from qgis.core import QgsProcessingFeedback

    plan = write_plan(tmp_path / "plan.csv", [{"exercise": "Lost", "navaid": "QQQ", "alt_ft": "4000"}])
    feedback = QgsProcessingFeedback(False)
    results = run({**sample_parameters(root, tmp_path / "out"), "PLAN": plan}, feedback=feedback)
    assert results["ROWS_REJECTED"] == 1
    assert "SHEET" not in results
    assert "No row gave a hold" in feedback.textLog()
    assert {path.name for path in (tmp_path / "out").iterdir()} == FILES - {"briefing.pdf"}


def refused(parameters) -> str:
    with pytest.raises(QgsProcessingException) as caught:
        run(parameters)
    return str(caught.value)


def test_bad_parameters_are_refused_in_a_sentence(root, tmp_path):
    good = sample_parameters(root, tmp_path / "out")
    no_exercise = write_plan(tmp_path / "a.csv", [{"navaid": "OBL", "alt_ft": "4000"}])
    no_place = write_plan(tmp_path / "b.csv", [{"exercise": "E", "alt_ft": "4000"}])
    (tmp_path / "file").write_text("a file")
    memory = QgsVectorLayer("Point?crs=EPSG:4326&field=name:string", "m", "memory")
    memory.dataProvider().addFeatures([QgsFeature(memory.fields())])
    empty = QgsVectorLayer("None?field=exercise:string&field=navaid:string", "e", "memory")
    cases = (
        ({"PLAN": no_exercise}, "PLAN has no column exercise"),
        ({"PLAN": no_place}, "nothing says where a fix is"),
        ({"PLAN": empty}, "PLAN has no rows"),
        ({"NAVAIDS": memory}, "NAVAIDS has no field ident"),
        ({"AIRCRAFT": str(root / "sample_layers" / "navaids.csv")}, "AIRCRAFT has no column"),
        ({"DATE": "2019-05-01"}, "2025-01-01 to 2029-12-31"),
        ({"DATE": "1/9/2026"}, "must be a date"),
        ({"TOLERANCE": 0}, "TOLERANCE"),
        ({"WIND_FROM": 270, "WIND_SPEED": 301}, "WIND_SPEED is 301; it must be a number between 0 and 300 kt"),
        ({"START": "905"}, "START is '905'; it must be a time in UTC"),
        ({"FOLDER": str(tmp_path / "file")}, "which is a file"),
        ({"FOLDER": str(tmp_path / "file" / "below")}, "cannot be written into"),
    )
    for change, sentence in cases:
        assert sentence in refused({**good, **change}), change
    assert not (tmp_path / "out").exists(), "something was made before the parameters were checked"


def test_a_folder_without_the_right_to_write_is_refused(root, tmp_path):
    """Root may write everywhere; a folder of the kernel takes no file from anybody."""
    folder = tmp_path / "locked"
    folder.mkdir()
    folder.chmod(0o555)
    if os.access(folder, os.W_OK):
        folder = Path("/proc/fixwright")
        assert not folder.parent.joinpath("x").exists()
    assert "cannot be written into" in refused(sample_parameters(root, folder))


def test_a_cancelled_run_leaves_nothing(root, tmp_path):
    from qgis.core import QgsProcessingFeedback

    (tmp_path / "training-area.gpkg").write_text("old")
    feedback = QgsProcessingFeedback(False)
    feedback.cancel()
    run(sample_parameters(root, tmp_path), feedback=feedback)
    assert [path.name for path in tmp_path.iterdir()] == ["training-area.gpkg"]
    assert (tmp_path / "training-area.gpkg").read_text() == "old"


def test_a_cancel_at_the_end_leaves_the_old_files(root, tmp_path):
    """When the layers are written but not yet in their place."""
    from qgis.core import QgsProcessingFeedback

    class StopsLate(QgsProcessingFeedback):
        def __init__(self):
            super().__init__(False)
            self.progressChanged.connect(lambda share: self.cancel() if share >= 80 else None)

    (tmp_path / "training-area.gpkg").write_text("old")
    run(sample_parameters(root, tmp_path), feedback=StopsLate())
    assert [path.name for path in tmp_path.iterdir()] == ["training-area.gpkg"]
    assert (tmp_path / "training-area.gpkg").read_text() == "old"


class BadInk:
    """What can go wrong when the layers are done: a printer that raises."""

    def __init__(self, error):
        self.error = error

    def __call__(self, layers, path, **options):
        Path(path).write_bytes(b"%PDF-half")
        raise self.error


def old_files(folder):
    folder.mkdir(exist_ok=True)
    for name in FILES:
        (folder / name).write_text(f"old {name}")


def failed(algorithm, parameters) -> str:
    """What a run that is no success says."""
    from qgis.core import QgsProcessingContext, QgsProcessingFeedback

    algorithm.initAlgorithm()
    feedback = QgsProcessingFeedback(False)
    results, good = algorithm.run(parameters, QgsProcessingContext(), feedback)
    assert not good and not results
    return feedback.textLog()


@pytest.mark.parametrize("error", [QgsProcessingException("no ink"), ValueError("no ink"), OSError("no ink")])
def test_a_printer_that_fails_fails_the_run_and_leaves_the_old_files(root, tmp_path, error):
    from fixwright.algorithms.buildarea import BuildArea

    old_files(tmp_path)
    assert "no ink" in failed(BuildArea(BadInk(error)), sample_parameters(root, tmp_path))
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {name: f"old {name}" for name in FILES}


def test_a_run_that_fails_leaves_no_folder_of_its_own(root, tmp_path):
    from fixwright.algorithms.buildarea import BuildArea

    failed(BuildArea(BadInk(ValueError("no ink"))), sample_parameters(root, tmp_path / "new"))
    assert list(tmp_path.iterdir()) == []


def test_a_project_that_cannot_be_written_fails_the_run(root, tmp_path, monkeypatch):
    from fixwright.algorithms import buildarea
    from fixwright.algorithms.common import areafiles

    monkeypatch.setattr(areafiles.QgsProject, "write", lambda project, path: False)
    old_files(tmp_path)
    said = failed(buildarea.BuildArea(BadInk(None)), sample_parameters(root, tmp_path))
    assert "cannot be written" in said and "training-area.qgz" in said
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {name: f"old {name}" for name in FILES}


def test_a_file_that_cannot_be_replaced_leaves_all_old_ones(root, tmp_path, monkeypatch):
    """As where somebody has the old briefing open: what was put in its place before goes back."""
    from fixwright.algorithms.buildarea import BuildArea
    from fixwright.algorithms.common import areafiles

    replace = os.replace

    def held_open(source, target):
        if "whole-" in str(source) and str(target).endswith("briefing.pdf"):
            raise PermissionError(13, "Permission denied")
        replace(source, target)

    monkeypatch.setattr(areafiles.os, "replace", held_open)
    old_files(tmp_path)
    (tmp_path / "training-area.gpkg-wal").write_text("old log")
    printer = BuildArea(lambda layers, path, **options: Path(path).write_bytes(b"%PDF-"))
    said = failed(printer, sample_parameters(root, tmp_path))
    assert "briefing.pdf cannot be replaced (Permission denied)" in said
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {
        **{name: f"old {name}" for name in FILES}, "training-area.gpkg-wal": "old log"}  # fmt: skip


def test_a_folder_where_a_file_goes_is_refused(root, tmp_path):
    (tmp_path / "briefing.pdf").mkdir()
    assert "briefing.pdf is a folder, where a file is to be written" in refused(sample_parameters(root, tmp_path))


def test_across_180_degrees(tmp_path):
    """The project shows the area, not the world."""
    fields = "field=ident:string&field=kind:string&field=elev_ft:double&field=decl_deg:double"
    navaids = QgsVectorLayer(f"Point?crs=EPSG:4326&{fields}", "n", "memory")
    station = QgsFeature(navaids.fields())
    station.setAttributes(["QZA", "VOR/DME", 100.0, 12.0])
    station.setGeometry(QgsGeometry.fromWkt("POINT(179.95 -10)"))
    navaids.dataProvider().addFeatures([station])
    plan = write_plan(
        tmp_path / "plan.csv",
        [
            {"exercise": str(k), "navaid": "QZA", "radial_deg": str(k), "distance_nm": "9", "alt_ft": "5000"}
            for k in (10, 90, 180, 270)
        ],
    )
    run_unprinted({"NAVAIDS": navaids, "PLAN": plan, "DATE": DATE, "FOLDER": str(tmp_path / "out")})
    project = QgsProject()
    assert project.read(str(tmp_path / "out" / "training-area.qgz"))
    assert project.viewSettings().defaultViewExtent().width() < 200_000
    project.clear()
    for feature in layer(tmp_path / "out", "areas").getFeatures():
        for part in feature.geometry().asMultiPolygon():
            longitudes = [point.x() for point in part[0]]
            assert max(longitudes) - min(longitudes) < 1.0


def test_qgis_process_gives_the_same(root, area, tmp_path):
    import fixwright

    programs = ("/usr/bin/qgis_process.bin", "/usr/bin/qgis_process")  # the second is broken where there is the first
    program = next(path for path in programs if os.access(path, os.X_OK))
    settings = tmp_path / "config" / "profiles" / "default" / "QGIS"
    settings.mkdir(parents=True)
    (settings / "QGIS3.ini").write_text("[PythonPlugins]\nfixwright=true\n", encoding="utf-8")
    environment = {
        **{key: value for key, value in os.environ.items() if key != "PYTHONPATH"},
        "QGIS_CUSTOM_CONFIG_PATH": str(tmp_path / "config"),
        "QGIS_PLUGINPATH": str(Path(fixwright.__file__).parents[1]),
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    command = [program, "--json", "run", "fixwright:buildarea", "--"]
    command += [f"{name}={value}" for name, value in sample_parameters(root, "out").items()]
    done = subprocess.run(
        command, cwd=tmp_path, env=environment, text=True, stdin=subprocess.DEVNULL, capture_output=True
    )
    assert done.returncode == 0, done.stdout + done.stderr
    results = json.loads(done.stdout[done.stdout.index("{") :])["results"]
    assert results["ROWS_OUT"] == 12
    assert {path.name for path in (tmp_path / "out").iterdir()} == FILES
    for name in COUNTS:
        one, other = contents(tmp_path / "out", name), contents(area[0], name)
        assert [row for _, row in one] == [row for _, row in other], name
        # the last bit of a sum may differ from program to program, and with it the ninth decimal of the text
        assert all(apart_deg(a, b) <= 2e-9 for (a, _), (b, _) in zip(one, other)), name


def surroundings(root):
    samples = root / "sample_layers"
    return {
        "DEM": str(samples / "terrain.tif"),
        "OBSTACLES": f"{samples / 'obstacles.gpkg'}|layername=obstacles",
        **{name: f"{samples / 'airspace.gpkg'}|layername={name.lower()}" for name in ("AIRSPACE", "ROUTES", "PLACES")},
    }


def attributes(folder, name):
    found = layer(folder, name)
    return [dict(zip(found.fields().names(), feature.attributes())) for feature in found.getFeatures()]


def test_the_area_is_tested_by_every_step(root, tmp_path):
    """Each test stands for each hold; four of the invented holds fail, each for a reason of its own."""
    results = run({**sample_parameters(root, tmp_path), **surroundings(root)})
    tests = attributes(tmp_path, "tests")
    holds = {row["hold"] for row in attributes(tmp_path, "holds")}
    for name in ("speed", "area_speed", "leg_time", "minimum_altitude", "airspace", "separation", "lowest_level"):
        assert {row["hold"] for row in tests if row["test"] == name} == holds, name
    assert {"status", "service_volume", "line_of_sight"} <= {row["test"] for row in tests}
    bad = {(row["hold"], row["test"]) for row in tests if row["ok"] == 0}
    assert bad == {
        ("E05", "minimum_altitude"), ("E05", "lowest_level"), ("E07", "airspace"), ("E07", "lowest_level"),
        ("E09", "status"), ("E11", "cut_angle"),
    }  # fmt: skip
    assert all(row["text"] and row["source"] for row in tests if row["ok"] == 0)
    (mast,) = [row for row in attributes(tmp_path, "controlling") if row["hold"] == "E05" and row["controls"] == 1]
    assert mast["name"] == "Tarn Ridge mast"
    for name in ("airspace_contacts", "levels", "slips", "alternatives"):
        assert attributes(tmp_path, name), name
    pages = texts_of_pages(results["SHEET"])
    failing = {page.split()[0] for page in pages[1:] if "FAILS:" in page}
    assert failing == {"E05", "E07", "E09", "E11"}
    assert pages[0].count("FAILS") == 9, "four holds in the index and on the map, and the legend"


def test_a_hold_that_fails_is_drawn_so_in_file_and_project(root, tmp_path):
    """The layer of failing holds lies over the areas and is switched on; the holds say it too."""
    results = run_unprinted({**sample_parameters(root, tmp_path), **surroundings(root)})
    failed: dict[str, list] = {}
    for row in attributes(tmp_path, "tests"):
        if row["ok"] == 0:
            failed.setdefault(row["hold"], []).append(row)
    assert results["FAILING"].endswith("training-area.gpkg|layername=failing")
    made = {feature["hold"]: feature for feature in layer(tmp_path, "failing").getFeatures()}
    assert set(made) == set(failed) and len(made) == 4
    basic = {f["hold"]: f.geometry() for f in layer(tmp_path, "areas").getFeatures() if f["part"] == "basic"}
    for hold, feature in made.items():
        names = [row["test"].replace("_", " ") for row in failed[hold]]
        assert (feature["failed"], feature["tests"]) == (len(names), ", ".join(names))
        assert all(row["text"] in feature["text"] for row in failed[hold])
        assert feature.geometry().symDifference(basic[hold]).area() < 1e-9
    for row in attributes(tmp_path, "holds"):
        assert (row["failed"] or "") == (made[row["hold"]]["tests"] if row["hold"] in made else ""), row["hold"]
    project = QgsProject()
    assert project.read(results["PROJECT"])
    order = [node.layer().name() for node in project.layerTreeRoot().findLayers() if node.isVisible()]
    assert order.index("Holds that fail a test") < order.index("Protected areas")
    project.clear()


def test_steps_alone_say_the_same(root, tmp_path):
    """What the area says of terrain is what the algorithm says that is run on its layers."""
    import processing

    near = {**surroundings(root), "HORIZONTAL_ACCURACY": "field:across_ft", "VERTICAL_ACCURACY": "field:up_ft"}
    run_unprinted({**sample_parameters(root, tmp_path), **surroundings(root)})
    source = {name: f"{tmp_path / 'training-area.gpkg'}|layername={name.lower()}" for name in ("AREAS", "HOLDS")}
    given = {name: value for name, value in near.items() if name not in ("AIRSPACE", "ROUTES", "PLACES")}
    alone = processing.run("fixwright:minimumaltitude", {**source, **given, "TESTS": "memory:"})["TESTS"]
    names = alone.fields().names()
    apart = [dict(zip(names, feature.attributes())) for feature in alone.getFeatures()]
    within = [row for row in attributes(tmp_path, "tests") if row["test"] == "minimum_altitude"]
    for row in within:
        row.pop("fid")
    assert sorted(within, key=lambda row: row["hold"]) == sorted(apart, key=lambda row: row["hold"])


def test_nothing_to_test_against_is_said(root, tmp_path):
    """Without terrain, obstacles and airspace nothing is claimed of them."""
    run_unprinted(sample_parameters(root, tmp_path))
    names = {row["test"] for row in attributes(tmp_path, "tests")}
    assert not names & {"minimum_altitude", "airspace"} and {"speed", "separation"} <= names


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"DEM": "nowhere.tif"}, "DEM"),
        ({"OBSTACLES": "navaids"}, "OBSTACLES has no field with the elevation"),
        ({"ROUTES": "routes without width"}, "ROUTES"),
    ],
)
def test_surroundings_that_cannot_be_used_are_refused(root, tmp_path, changes, said):
    from qgis.core import QgsProcessingContext

    from fixwright.algorithms.buildarea import BuildArea

    made = {
        name: QgsVectorLayer(f"{kind}?crs=EPSG:4326&field=name:string", name, "memory")
        for name, kind in (("navaids", "Point"), ("routes without width", "LineString"))
    }
    algorithm = BuildArea(None)
    algorithm.initAlgorithm()
    given = {name: made.get(value, value) for name, value in changes.items()}
    good, why = algorithm.checkParameterValues({**sample_parameters(root, tmp_path), **given}, QgsProcessingContext())
    assert not good and said in why
