"""One result, whichever way it is asked for: processing.run, qgis_process, Python's own run(), constants and fields."""

from __future__ import annotations

import os
import subprocess

import pytest

from fixwright.tests.algorithms.layers import DATE, core, expression, of_stations, opened, rows, run, saved, stations


def program() -> str:
    """Debian 12's qgis_process is a broken wrapper around qgis_process.bin."""
    for path in ("/usr/bin/qgis_process.bin", "/usr/bin/qgis_process"):
        if os.access(path, os.X_OK):
            return path
    if os.environ.get("FIXWRIGHT_REQUIRE_QGIS") == "1":
        pytest.fail("qgis_process is not there")
    pytest.skip("needs qgis_process")


@pytest.fixture(scope="module")
def command_line(root, tmp_path_factory):
    """Runs an algorithm by qgis_process in a new profile that knows this checkout as the plugin fixwright."""
    binary = program()
    folder = tmp_path_factory.mktemp("command-line")
    (folder / "plugins").mkdir()
    (folder / "plugins" / "fixwright").symlink_to(root, target_is_directory=True)
    profile = folder / "config" / "profiles" / "default" / "QGIS"
    profile.mkdir(parents=True)
    (profile / "QGIS3.ini").write_text("[PythonPlugins]\nfixwright=true\n", encoding="utf-8")
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    environment.update(
        QGIS_CUSTOM_CONFIG_PATH=str(folder / "config"), QGIS_PLUGINPATH=str(folder / "plugins"),
        QT_QPA_PLATFORM="offscreen",
    )  # fmt: skip

    def ask(*words: str, **more: str) -> subprocess.CompletedProcess:
        return subprocess.run(
            [binary, *words], cwd=folder, env={**environment, **more}, text=True, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        )  # fmt: skip

    return ask


def plain(made) -> list[dict]:
    return [{**row, "fid": None, "geometry": row["geometry"].asWkb().data()} for row in rows(made)]


def test_the_whole_line(command_line, tmp_path):
    """Fixes, holds and areas, each step from the file of the step before: the same rows to the last bit."""
    source = saved(stations(), tmp_path / "navaids.gpkg")
    steps = (
        ("fixradialdistance", {"RADIAL": "field:rad", "DISTANCE": "expression:nm", "NORTH": "station", "DATE": DATE},
         ("FIXES", "REJECTS")),
        ("designholds", {"TURN": "field:turn", "LEG_MIN": "1", "RULES": "faa", "IAS": "100", "DATE": DATE},
         ("HOLDS", "PATTERNS", "TRACKS", "REJECTS")),
        ("protectedareas", {"TOLERANCE": "10"}, ("AREAS", "REJECTS")),
    )  # fmt: skip
    for name, given, outputs in steps:
        python = {sink: str(tmp_path / f"python-{name}-{sink}.gpkg") for sink in outputs}
        shell = {sink: str(tmp_path / f"shell-{name}-{sink}.gpkg") for sink in outputs}
        run(name, INPUT=source, **given, **python)
        words = [f"{key}={value}" for key, value in {"INPUT": source, **given, **shell}.items()]
        said = command_line("run", f"fixwright:{name}", "--", *words)
        assert said.returncode == 0, said.stdout
        assert "3 rows in, 3 gave output, 0 rejected" in said.stdout
        for sink in outputs:
            assert plain(opened(python[sink])) == plain(opened(shell[sink]))
        source = python[outputs[0]]


def test_refused_by_the_command_line(command_line, tmp_path):
    source = saved(stations(), tmp_path / "navaids.gpkg")
    said = command_line("run", "fixwright:fixradialdistance", "--", f"INPUT={source}", "RADIAL=400", "DISTANCE=10",
                        f"FIXES={tmp_path / 'out.gpkg'}")  # fmt: skip
    assert said.returncode != 0
    assert "RADIAL is 400; it must be a number between 0 and 360 degrees." in said.stdout
    assert not (tmp_path / "out.gpkg").exists()


def test_help_on_the_command_line(command_line):
    said = command_line("help", "fixwright:designholds")
    assert said.returncode == 0
    assert "not for navigation" in said.stdout and "0: right" in said.stdout


def test_constant_field_and_expression_agree():
    source = stations()
    by_constant = run("fixradialdistance", INPUT=source, RADIAL=45.5, DISTANCE=9, NORTH="model", DATE=DATE)
    by_expression = run("fixradialdistance", INPUT=source, RADIAL=expression("91 / 2"), DISTANCE=expression("9"),
                        NORTH=expression("'MODEL'"), DATE=DATE)  # fmt: skip
    assert plain(by_constant.layer("FIXES")) == plain(by_expression.layer("FIXES"))


def test_a_thread_of_its_own(qgis_app):
    """As the dialog runs it: in a worker thread, with the results handed over at the end."""
    from fixwright.tests.algorithms.layers import Feedback, algorithm

    context, feedback = core.QgsProcessingContext(), Feedback()
    made = algorithm("fixradialdistance")
    parameters = {"INPUT": stations(), **of_stations(FIXES="memory:")}
    assert made.checkParameterValues(parameters, context)[0]
    task = core.QgsProcessingAlgRunnerTask(made, parameters, context, feedback)
    results = []
    task.executed.connect(lambda good, values: results.append((good, values)))
    core.QgsApplication.taskManager().addTask(task)
    while not results:
        qgis_app.processEvents()
    good, values = results[0]
    assert good and values["ROWS_OUT"] == 3
    threaded = core.QgsProcessingUtils.mapLayerFromString(values["FIXES"], context)
    assert plain(threaded) == plain(run("fixradialdistance", INPUT=stations(), **of_stations()).layer("FIXES"))
