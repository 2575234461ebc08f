"""Slips as an algorithm: one worked fix line by line, the sample area, what is left out.

The station of the worked fix does not exist and lies on open ocean: VOR/DME, 41.4 N 167.5 W, elevation 1 240 ft,
declination 11 E; 1 September 2026. Distances computed with geographiclib, variation with an independent evaluation of
the World Magnetic Model 2025.
"""

from __future__ import annotations

import pytest
from geographiclib.geodesic import Geodesic

from fixwright.geometry import slips
from fixwright.tests.algorithms.layers import DATE, layer, refusal, run, some_fixes, stations

NM = 1852.0
FIELDS = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double")
QLF = ((-167.5, 41.4), "QLF", "VOR/DME", 1240.0, 11.0)
KEYS = [slip.key for slip in slips.SLIPS]


def _station(**changes):
    names = [field.partition(":")[0] for field in FIELDS]
    values = [changes.get(name, value) for name, value in zip(names, QLF[1:])]
    return layer(FIELDS, [(QLF[0], *values)])


def _worked(**more):
    """Radial 210.70 and 17.0 NM along the ground: true azimuth 221.7."""
    given = {"RADIAL": 210.7, "DISTANCE": 17, "DISTANCE_KIND": "ground", "ALTITUDE": 10_000, "DATE": DATE, **more}
    return run("fixradialdistance", INPUT=_station(), **given).layer("FIXES")


def _slips(fixes, least=0.0, **more) -> list[dict]:
    made = run("fixslips", INPUT=fixes, LEAST=least, DATE=DATE, **more)
    assert made.counts[2] == 0
    return made.rows("SLIPS")


@pytest.mark.parametrize(
    ("slip", "nm", "tolerance"),
    [
        # what is set, how far from the fix one lands
        ("radial_whole", 0.089, 0.001),  # radial 211
        ("radial_tenth", 0.0, 0.001),  # 210.7 has tenths
        ("north_model", 0.933, 0.002),  # 210.7 by the model's variation
        ("course_reciprocal_station", 0.902, 0.002),  # 213.74, the reciprocal of the course displayed
        ("course_reciprocal_model", 0.031, 0.002),  # the same by the model's variation
        ("radial_reciprocal", 34.000, 0.001),  # radial 030.7
        ("declination_sign", 6.487, 0.001),
        ("dme_as_ground", 0.061, 0.001),  # the DME reading there at 10 000 ft, set along the ground
        ("position_0_1", 42.0 / NM, 0.5 / NM),
        ("position_0_01", 7.6 / NM, 0.05 / NM),
        ("position_0_001", 0.4 / NM, 0.05 / NM),
    ],
)
def test_one_fix_line_by_line(slip, nm, tolerance):
    (row,) = [row for row in _slips(_worked()) if row["slip"] == slip]
    assert row["distance_nm"] == pytest.approx(nm, abs=tolerance)
    told = slips.SLIPS[KEYS.index(slip)]
    assert (row["text"], row["source"]) == (told.sentence, told.source)
    assert row["fix"] == "QLF R210.7 17.0 NM"


def test_each_line_once_and_the_farthest_first():
    found = _slips(_worked())
    assert sorted(row["slip"] for row in found) == sorted(set(KEYS) - {"side"})
    distances = [row["distance_nm"] for row in found]
    assert distances == sorted(distances, reverse=True)


def test_what_is_under_a_tenth_of_a_mile_is_left_out_unless_asked_for():
    """Of the worked fix four slips are worth a line on a sheet; common practice: those over about 0.1 NM."""
    made = run("fixslips", INPUT=_worked(), DATE=DATE)
    kept = ["radial_reciprocal", "declination_sign", "north_model", "course_reciprocal_station"]
    assert [row["slip"] for row in made.rows("SLIPS")] == kept
    assert made.counts == (1, 1, 0)
    assert [row["slip"] for row in _slips(_worked(), 0.92)] == kept[:3]
    none = run("fixslips", INPUT=_worked(), DATE=DATE, LEAST=100)
    assert none.counts == (1, 1, 0) and none.layer("SLIPS").featureCount() == 0


def test_before_for_beyond():
    """A fix 9.0 NM beyond, set 9.0 before: 18 NM. Computed with geographiclib."""
    fixes = run("fixalongtrack", INPUT=_station(), COURSE=320, NORTH="true", DISTANCE=9, SIDE="beyond", DATE=DATE)
    (row,) = [row for row in _slips(fixes.layer("FIXES")) if row["slip"] == "side"]
    assert row["distance_nm"] == pytest.approx(18.0, abs=1e-5)
    assert "before for beyond" in row["text"]


def test_what_applies_to_other_kinds():
    position = {"position_0_1", "position_0_01", "position_0_001"}
    radial = {"radial_whole", "radial_tenth", "radial_reciprocal"}
    for kind, decl, more in (
        ("NDB", None, radial), ("WPT", None, set()), ("VOR", 11.0, set(KEYS) - position - {"side", "dme_as_ground"}),
    ):  # fmt: skip
        fixes = run("fixradialdistance", INPUT=_station(kind=kind, decl_deg=decl), RADIAL=210.7, DISTANCE=17, DATE=DATE)
        assert {row["slip"] for row in _slips(fixes.layer("FIXES"))} == position | more, kind


def test_a_dme_of_its_own_site():
    """The reading is of the DME where it stands: dme_lon and dme_lat pass through the fixes layer."""
    fields = (*FIELDS, "dme_lon:double", "dme_lat:double", "dme_elev_ft:double")
    source = layer(fields, [(*QLF, -167.46, 41.42, 1500.0)])
    fixes = run("fixradialdistance", INPUT=source, RADIAL=210.7, DISTANCE=17, DISTANCE_KIND="slant", ALTITUDE=20_000,
                DATE=DATE)  # fmt: skip
    (fix,) = fixes.rows("FIXES")
    ground = Geodesic.WGS84.Inverse(41.42, -167.46, fix["lat"], fix["lon"])["s12"] / NM
    (row,) = [row for row in _slips(fixes.layer("FIXES")) if row["slip"] == "dme_as_ground"]
    assert row["distance_nm"] == pytest.approx(17.0 - ground, abs=1e-6)


def test_several_fixes_one_after_the_other():
    found = _slips(some_fixes(), 0.1)
    fixes = [feature["fix"] for feature in some_fixes().getFeatures()]
    assert list(dict.fromkeys(row["fix"] for row in found)) == fixes
    for fix in fixes:
        distances = [row["distance_nm"] for row in found if row["fix"] == fix]
        assert distances == sorted(distances, reverse=True)


def test_holds_have_the_slips_of_their_fixes():
    fixes = some_fixes()
    holds = run("designholds", INPUT=fixes, DATE=DATE).layer("HOLDS")
    plain = [(row["fix"], row["slip"], row["distance_nm"]) for row in _slips(fixes)]
    of_holds = [(row["fix"], row["slip"], row["distance_nm"]) for row in _slips(holds)]
    assert of_holds == [(fix, slip, pytest.approx(nm, abs=1e-9)) for fix, slip, nm in plain]


def test_a_crossing_has_slips_of_its_first_station():
    fields = FIELDS
    source = layer(fields, [QLF, ((-168.2, 41.1), "KVT", "VOR/DME", 300.0, 10.0)])
    fixes = run("fixcrossing", INPUT=source, A_IDENT="QLF", A_KIND="radial", A_VALUE=210.7, B_IDENT="KVT",
                B_KIND="radial", B_VALUE=70, DATE=DATE)  # fmt: skip
    found = {row["slip"]: row["distance_nm"] for row in _slips(fixes.layer("FIXES"))}
    (fix,) = fixes.rows("FIXES")
    assert found["radial_reciprocal"] == pytest.approx(2.0 * fix["dist_nm"], rel=1e-6)


def test_rows_without_a_place():
    source = some_fixes()
    second = [feature.id() for feature in source.getFeatures()][1]
    from qgis.core import QgsGeometry

    assert source.dataProvider().changeGeometryValues({second: QgsGeometry()})
    made = run("fixslips", INPUT=source, DATE=DATE)
    assert made.counts == (3, 2, 1) and made.reasons() == {str(second): "the row has no point"}


def test_the_date_is_that_of_the_model():
    """The declination wrong by the model's drift: 2029 is not 2025."""
    early, late = (
        {row["slip"]: row["distance_nm"] for row in run("fixslips", INPUT=_worked(), LEAST=0, DATE=day).rows("SLIPS")}
        for day in ("2025-01-01", "2029-12-31")
    )
    assert abs(early["north_model"] - late["north_model"]) > 0.005
    assert early["declination_sign"] == late["declination_sign"]


def test_fields_and_parameters():
    from fixwright.algorithms.common import schema

    made = run("fixslips", INPUT=some_fixes(), DATE=DATE)
    assert tuple(made.layer("SLIPS").fields().names()) == schema.LAYERS["slips"].names
    assert "INPUT has no field fix and no field method" in refusal("fixslips", INPUT=stations())
    assert "LEAST is -1; it must be a number between 0 and 400 NM" in refusal("fixslips", INPUT=some_fixes(), LEAST=-1)
    assert "must be a date" in refusal("fixslips", INPUT=some_fixes(), DATE="tomorrow")
