"""Slips and setting errors against figures computed with geographiclib; the model's variation by pygeomag.

The stations and fixes are invented; the sea is the only thing below them.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from pygeomag import GeoMag

from fixwright.geometry import fixes, magnetism, slips
from fixwright.geometry.fixes import Station

NM = 1852.0
YEAR = 2026.66575
"""2026-09-01."""
LON, LAT, ELEV_FT, DECL = -167.5, 41.4, 1240.0, 11.0
RADIAL, GROUND_NM, ALT_FT = 210.70, 17.0, 10_000.0


def _rows(name: str) -> list[dict[str, str]]:
    with open(Path(__file__).parent / "data" / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="module")
def fix():
    station = Station.of(LON, LAT, ELEV_FT, DECL, "VOR/DME")
    return fixes.radial_distance(station, RADIAL, GROUND_NM, slant=False, alt_ft=ALT_FT, year=YEAR)


@pytest.fixture(scope="module")
def landed(fix):
    station = Station.of(LON, LAT, ELEV_FT, DECL, "VOR/DME")
    at_station = magnetism.declination_deg(LON, LAT, year=YEAR)
    return slips.slips(station, fix.lon, fix.lat, radial_deg=fix.radial_deg, dme_nm=fix.dme_nm,
                       var_station_deg=at_station, var_fix_deg=fix.var_deg)  # fmt: skip


def test_the_fix_itself(fix):
    """The fix whose slips follow: 17.0 NM on true azimuth 221.7. Geographiclib; variation by a general package."""
    assert (fix.lat[0], fix.lon[0]) == pytest.approx((41.1880661, -167.7496448), abs=1e-7)
    assert fix.course_true_deg[0] == pytest.approx(41.535, abs=0.0005)
    assert fix.course_model_deg[0] == pytest.approx(33.74, abs=0.03)
    assert fix.course_station_deg[0] == pytest.approx(30.7, abs=1e-6)


@pytest.mark.parametrize("row", _rows("slips.csv"), ids=lambda row: row["slip"])
def test_slips_of_one_fix(landed, row):
    assert row["source"]
    assert landed[row["slip"]][0] == pytest.approx(float(row["expected_nm"]), abs=float(row["tolerance_nm"]))


def test_a_radial_in_tenths_is_no_slip_where_it_has_tenths(landed):
    assert landed["radial_tenth"][0] == pytest.approx(0.0, abs=1e-9)
    assert np.isnan(landed["side"][0])


def test_slips_computed_again():
    """Every slip of a second invented station by geographiclib and pygeomag alone: a place is set, and measured."""
    lon, lat, elev, decl, alt = -28.3, 54.2, 410.0, -14.0, 9000.0
    azimuth, ground = 108.43, 31.27
    at = Geodesic.WGS84.Direct(lat, lon, azimuth, ground * NM)
    model = GeoMag(coefficients_file="wmm/WMM_2025.COF", high_resolution=False)
    at_station = model.calculate(lat, lon, 0.0, YEAR).d
    at_fix = model.calculate(at["lat2"], at["lon2"], alt * 0.0003048, YEAR).d
    shown = Geodesic.WGS84.Inverse(at["lat2"], at["lon2"], lat, lon)["azi1"] - at_fix
    radial = (azimuth - decl) % 360.0
    height = (alt - elev) * 0.3048 / NM

    def moved(azimuth_set, distance=ground):
        there = Geodesic.WGS84.Direct(lat, lon, azimuth_set, distance * NM)
        return Geodesic.WGS84.Inverse(at["lat2"], at["lon2"], there["lat2"], there["lon2"])["s12"] / NM

    def set_to(step):
        there = [round(x * 60.0 / step) * step / 60.0 for x in (at["lat2"], at["lon2"])]
        return Geodesic.WGS84.Inverse(at["lat2"], at["lon2"], *there)["s12"] / NM

    leg = Geodesic.WGS84.Inverse(54.0, -27.9, at["lat2"], at["lon2"])
    back = Geodesic.WGS84.Direct(54.0, -27.9, leg["azi1"] + 180.0, leg["s12"])
    expected = {
        "radial_whole": moved(122.0 + decl),  # radial 122.43
        "radial_tenth": moved(122.4 + decl),
        "radial_reciprocal": moved(azimuth + 180.0),
        "course_reciprocal_station": moved(shown + 180.0 + decl),
        "course_reciprocal_model": moved(shown + 180.0 + at_station),
        "north_model": moved(radial + at_station),
        "declination_sign": moved(radial - decl),
        "dme_as_ground": moved(azimuth, (ground**2 + height**2) ** 0.5),
        "position_0_1": set_to(0.1),
        "position_0_01": set_to(0.01),
        "position_0_001": set_to(0.001),
        "side": Geodesic.WGS84.Inverse(at["lat2"], at["lon2"], back["lat2"], back["lon2"])["s12"] / NM,
    }
    station = Station.of(lon, lat, elev, decl, "VOR/DME")
    got = slips.slips(station, at["lon2"], at["lat2"], radial_deg=radial, dme_nm=(ground**2 + height**2) ** 0.5,
                      var_station_deg=at_station, var_fix_deg=at_fix, point_lon=-27.9, point_lat=54.0)  # fmt: skip
    assert list(got) == list(expected)
    for key, value in expected.items():
        assert got[key][0] == pytest.approx(value, abs=1e-6), key


MEASURES = {
    "worst_radial_distance": slips.worst_radial_distance_nm,
    "worst_position": slips.worst_position_nm,
    "rounded_position": slips.rounded_position_nm,
    "rounded_radial_distance": slips.rounded_radial_distance_nm,
    "wrong_north": slips.wrong_north_nm,
}


@pytest.mark.parametrize("row", _rows("setting_error.csv"), ids=lambda row: f"{row['quantity']} {row['inputs']}")
def test_setting_errors(row):
    got = MEASURES[row["quantity"]](*[float(x) for x in row["inputs"].split()])
    assert row["source"]
    assert float(got) * NM == pytest.approx(float(row["expected_m"]), abs=float(row["tolerance_m"]))


def test_before_for_beyond_is_twice_the_distance():
    """A fix 9.0 NM beyond a station set 9.0 before it: 18 NM. Geographiclib."""
    station = Station.of(LON, LAT, ELEV_FT, DECL, "VOR/DME")
    fix, _, _ = fixes.along_track(station, 9.0, beyond=True, course_deg=320.0, north=2, year=YEAR)
    assert (fix.lat[0], fix.lon[0]) == pytest.approx((41.5148944, -167.6283464), abs=1e-7)
    got = slips.slips(station, fix.lon, fix.lat, point_lon=LON, point_lat=LAT)
    assert got["side"][0] == pytest.approx(18.0, abs=1e-6)
