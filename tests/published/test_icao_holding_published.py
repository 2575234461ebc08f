"""ICAO holding areas beyond the template's lines: limiting distance, rectangle, area navigation, clearances, speeds."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import atmosphere
from fixwright.geometry.protection import (
    icao,
    icao_dme,
    icao_entries,
    icao_lines,
    icao_rnav,
    icao_speeds,
    parts,
    rectangle,
)
from fixwright.geometry.protection.areas import Options


def test_the_limiting_distance_of_the_worked_example():
    """Diagram I-4-3-App C-15, p. I-4-3-App C-56: 14 000 ft, 220 kt, fix at 30 NM, towards: limiting distance 35 NM. The
    values on the way are computed from the published formulas of p. I-4-3-App C-13."""
    values = icao_lines.lines(np.array([220.0]), np.array([14000.0]), np.array([1.0]))
    made = icao_dme.lines(values, icao_dme.horizontal_nm(np.array([30.0]), 14.0), 0.0, 14000.0)
    got = {name: float(np.ravel(a)[0]) for name, a in made.items()}
    assert got["DL"] == 35.0
    assert got["D"] == pytest.approx(30.0, abs=1e-9)
    assert got["Ds"] == pytest.approx(29.912, abs=0.002)
    assert got["DL unrounded"] == pytest.approx(35.01, abs=0.03)
    assert got["ds"] == pytest.approx(4.677, abs=0.005)
    assert float(values["r"][0]) == pytest.approx(2.461, abs=0.002)


@pytest.mark.parametrize(
    ("limit", "alt", "rounded"),
    [(35.01, 14000.0, 35.0), (35.24, 14000.0, 35.0), (35.25, 14000.0, 36.0), (35.5, 15000.0, 36.0),
     (35.6, 15000.0, 36.0), (35.49, 14001.0, 35.0), (35.0, 14000.0, 35.0), (35.0, 20000.0, 35.0)],
)  # fmt: skip
def test_rounding_towards_the_station(limit, alt, rounded):
    """Published, p. I-4-3-App C-13: up, but down where the decimals are below 0.25, above 14 000 ft below 0.5."""
    assert float(icao_dme.rounded_limit_nm(limit, True, alt)) == rounded


@pytest.mark.parametrize(
    ("limit", "alt", "rounded"),
    [(20.75, 14000.0, 20.0), (20.76, 14000.0, 21.0), (20.5, 15000.0, 20.0), (20.51, 15000.0, 21.0),
     (20.0, 9000.0, 20.0)],
)  # fmt: skip
def test_rounding_away_from_the_station(limit, alt, rounded):
    """From memory of the same page: down, but up where the decimals are above 0.75, above 14 000 ft above 0.5."""
    assert float(icao_dme.rounded_limit_nm(limit, False, alt)) == rounded


def test_arcs_of_the_limiting_distance():
    """p. I-4-3-App C-14: d1 = 0.25 NM and 1.25 % of D, d2 of DL; the arcs DL1 and DL2 are DLs less and plus d2."""
    values = icao_lines.lines(np.array([220.0]), np.array([14000.0]), np.array([1.0]))
    made = icao_dme.lines(values, icao_dme.horizontal_nm(np.array([30.0]), 14.0), 0.0, 14000.0)
    got = {name: float(np.ravel(a)[0]) for name, a in made.items()}
    assert got["d1"] == pytest.approx(0.625) and got["d2"] == pytest.approx(0.6875)
    assert got["DLs"] == pytest.approx((35.0**2 - 0.027 * 14.0**2) ** 0.5)
    assert got["DL2"] - got["DLs"] == pytest.approx(0.6875) == got["DLs"] - got["DL1"]


RECTANGLES = [
    # Table I-4-3-App C-5, TAS 160 kt, wind 59 kt, 1 minute: computed from its formulas; a) published, d) from memory.
    ("45/180", "x_max", 13.950, False),
    ("45/180", "y_max", 5.523, False),
    ("racetrack", "x_max", 9.757, True),
    ("racetrack", "x_min", -4.939, True),
    ("racetrack", "y_max", 5.106, True),
    ("racetrack", "y_min", -5.350, True),
]


@pytest.mark.parametrize(("procedure", "name", "expected", "memory"), RECTANGLES)
def test_extents_of_the_rectangle(procedure, name, expected, memory):
    got = rectangle.extents(procedure, 160.0, 59.0, 1.0)[name]
    assert float(got) == pytest.approx(expected, abs=0.005)
    assert (rectangle.EXTENTS[procedure][name].mark == "from memory") == memory


@pytest.mark.parametrize(
    ("tas", "wind", "minutes"),
    [(89.9, 50.0, 1.0), (290.1, 50.0, 1.0), (160.0, 65.1, 1.0), (160.0, 50.0, 0.9), (160.0, 50.0, 3.1)],
)
def test_the_rectangle_says_nothing_outside_its_bounds(tas, wind, minutes):
    """Published with the table: TAS 90 to 290 kt, wind to 65 kt, 1 to 3 minutes."""
    assert all(np.isnan(v) for v in rectangle.extents("racetrack", tas, wind, minutes).values())
    assert all(np.isfinite(v) for v in rectangle.extents("racetrack", 290.0, 65.0, 3.0).values())


def test_lines_of_area_navigation_holds():
    """p. III-3-7-4 (print damaged): 220 kt, 10 000 ft, K 1.1958, D 4.4 NM: computed from the published formulas."""
    values = icao.lines(220.0, 10000.0, 1.0, tas_kt=1.1958 * 220.0)
    made = icao_rnav.lines(values, 4.4)
    assert float(made["XE"]) == pytest.approx(11.814, abs=0.01)
    assert float(made["YE"]) == pytest.approx(5.269, abs=0.01)


def test_along_is_four_fifths_of_across():
    """ICAO Doc 8168 Vol II, Part III, Section 1 (from memory): ATT = 0.8 XTT, printed to hundredths; and the half-width
    1.5 XTT plus 2 NM en route of RNAV 5 is 5.77 NM, 1.5 XTT plus 1 NM of RNAV 1 is 2.5 NM."""
    for one in icao_rnav.SPECIFICATIONS:
        assert one.att_nm == pytest.approx(0.8 * one.xtt_nm, abs=0.005)
    widths = {one.name.split(",")[0]: 1.5 * one.xtt_nm for one in icao_rnav.SPECIFICATIONS}
    assert widths["RNAV 5"] + 2.0 == pytest.approx(5.77, abs=0.005)
    assert widths["RNAV 1"] + 1.0 == pytest.approx(2.5, abs=0.005)


@pytest.mark.parametrize("ias, alt, minutes", [(220.0, 10000.0, 1.0), (90.0, 3000.0, 1.0), (265.0, 30000.0, 1.5)])
def test_the_strays_of_the_document_are_xe_and_ye(ias, alt, minutes):
    """XE stands for a direct entry at 90 degrees to the axis, YE for a parallel one at 70 (Table I-4-3-App C-4, from
    memory): the displacement of single arrivals, counted for any heading, gives both."""
    values = {k: v[None] for k, v in icao.lines(ias, alt, minutes).items()}
    run = icao_entries.timed_run(values)
    for headings, line, axis in (([90.0], "XE", 0), ([-70.0], "YE", 1)):
        arrivals = icao_entries.Arrivals.of([np.array(headings)])
        assert float(icao_entries.strays(values, run, arrivals)[axis][0]) == pytest.approx(
            float(values[line][0]), abs=1e-9
        )
    rnav = icao_rnav.lines(values, np.array([5.0]))
    for headings, line, axis in (([90.0], "XE", 0), ([-70.0], "YE", 1)):
        got = icao_entries.strays(rnav, icao_rnav.run(rnav), icao_entries.Arrivals.of([np.array(headings)]))[axis][0]
        assert float(got) == pytest.approx(float(rnav[line][0]), abs=1e-9)


SPEEDS = [
    # Table II-4-1-2 as reproduced in Somalia AIP ENR 1.5 and USAF AFMAN 11-217V1 (2005), Table 18.4.
    (14000.0, "", False, 230.0),
    (14000.0, "A/B", False, 170.0),
    (14001.0, "", False, 240.0),
    (20000.0, "", False, 240.0),
    (20001.0, "", False, 265.0),
    (34000.0, "", False, 265.0),
    (14000.0, "", True, 280.0),
    (14000.0, "A/B", True, 170.0),
    # From memory of the same chapter: helicopters.
    (6000.0, "H", False, 100.0),
    (6001.0, "H", False, 170.0),
]


@pytest.mark.parametrize(("alt", "category", "turbulence", "expected"), SPEEDS)
def test_holding_speeds(alt, category, turbulence, expected):
    assert float(icao_speeds.area_ias_kt(alt, category, turbulence)) == expected


@pytest.mark.parametrize(("alt", "turbulence", "mach"), [(34001.0, False, 0.83), (40000.0, True, 0.83)])
def test_mach_numbers(alt, turbulence, mach):
    """Same table: above 34 000 ft Mach 0.83."""
    assert _mach(alt, turbulence) == pytest.approx(mach, abs=1e-6)


def test_the_lesser_of_280_kt_and_mach_080():
    """Same table, in turbulence above 14 000 ft: Mach 0.80 takes over where 280 kt would be faster."""
    for alt in (15000.0, 20000.0, 30000.0, 33000.0, 34000.0):
        assert float(icao_speeds.area_ias_kt(alt, turbulence=True)) <= 280.0
        assert _mach(alt, True) <= 0.80 + 1e-6
    assert float(icao_speeds.area_ias_kt(20000.0, turbulence=True)) == 280.0
    assert _mach(34000.0, True) == pytest.approx(0.80, abs=1e-6)


def _mach(alt: float, turbulence: bool) -> float:
    tas = float(atmosphere.cas_to_tas_kt(float(icao_speeds.area_ias_kt(alt, turbulence=turbulence)), alt))
    return tas / float(atmosphere.isa(alt).sound_kt)


def test_clearances_of_the_buffer():
    """Table II-4-1-1 as quoted in licence examination texts: 300 m (984 ft) inside and in the first mile, 60 m (197 ft)
    in the fifth, by steps of a mile; between (from memory) 150, 120, 90 m, printed 492, 394, 294 ft."""
    rows = (parts.INSIDE, *parts.BUFFER)
    assert [row.to_nm for row in rows] == [0.0, 1.0, 2.0, 3.0, 4.0, 5.0]
    assert [row.inner_m for row in rows] == [300.0, 300.0, 150.0, 120.0, 90.0, 60.0]
    assert [row.inner_ft for row in rows] == [984.0, 984.0, 492.0, 394.0, 294.0, 197.0]
    assert [row.mark for row in rows] == ["published", "published", *["from memory"] * 3, "published"]
    assert parts.moc_ft(parts.INSIDE, Options(moc_factor=2.0)) == 1969.0
