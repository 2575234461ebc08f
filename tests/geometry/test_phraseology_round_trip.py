"""Written, read and written again: the same words, for many random holds in each wording, as text and as read aloud."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import phraseology, plan
from fixwright.geometry.fix_crossing import DISTANCE, RADIAL, Lines
from fixwright.geometry.fixes import Station
from fixwright.geometry.plan.marking import Naming

N = 640
"""Holds of each way to define a fix; of all four more than 2 000 can be said."""
YEAR = 2026.67
AIDS = (
    ("OBL", "VOR/DME", -40.02, 43.03, 640.0, -14.0), ("KVN", "VORTAC", -40.86, 43.42, 1210.0, -12.5),
    ("KUD", "VOR", -40.3, 42.38, 150.0, -16.0), ("WYR", "NDB", -39.7, 43.66, 40.0, np.nan),
    ("BKQ", "NDB/DME", -39.92, 42.6, 260.0, np.nan), ("ANTIM", "VOR/DME", 179.95, -17.0, 30.0, 12.0),
    ("QEL", "WPT", -40.52, 42.92, np.nan, np.nan),
)  # fmt: skip
IDENTS = phraseology.Idents([(aid[0], "") for aid in AIDS])


def stations(index) -> tuple[Station, np.ndarray]:
    ident, kind, lon, lat, elev, decl = (np.array(column, dtype=object)[index] for column in zip(*AIDS))
    return Station.of(*(a.astype(float) for a in (lon, lat, elev, decl)), kind), ident


def some_fixes(way: str, g) -> dict[str, np.ndarray]:
    usable = len(AIDS) if way in ("along", "overhead") else len(AIDS) - 1
    index = g.integers(0, usable, N)
    at, ident = stations(index)
    naming = Naming(ident, None, "2026-09-01")
    radial = np.where(g.random(N) < 0.5, g.integers(0, 360, N), np.round(g.uniform(0, 360, N), 2)).astype(float)
    distance, alt = np.round(g.uniform(6, 60, N), 1), g.integers(20, 200, N) * 100.0
    if way == "radial":
        made = plan.mark_radial_distance(at, naming, radial, distance, slant=False, alt_ft=alt, north=0, year=YEAR)
    elif way == "along":
        made = plan.mark_along_track(
            at, naming, distance / 2.0, beyond=g.random(N) < 0.5, course_deg=radial, north=0, from_lon=np.nan,
            from_lat=np.nan, alt_ft=alt, year=YEAR,
        )  # fmt: skip
    elif way == "overhead":
        made = plan.mark_overhead(at, naming, course_deg=radial, north=0, alt_ft=alt, year=YEAR)
    else:
        near = np.array([3, 2, 0, 1, 0, 5])
        other, second = stations(near[index])
        kind = np.where(np.isin(other.kind, ["VOR/DME", "VORTAC"]) & (g.random(N) < 0.5), DISTANCE, RADIAL)
        lines = Lines(at, np.full(N, RADIAL), radial)
        made, _ = plan.mark_crossing(
            lines, Lines(other, kind, np.where(kind == RADIAL, g.uniform(0, 360, N), distance)), naming, second,
            slant=kind == DISTANCE, alt_ft=alt, north=0, year=YEAR,
        )  # fmt: skip
    good = made.reasons == ""
    return {name: np.asarray(column)[good] for name, column in made.columns.items()}


def some_holds(way: str, g) -> dict[str, np.ndarray]:
    fixes = some_fixes(way, g)
    n = len(fixes["lon"])
    on_line = g.random(n) < 0.7
    inbound = np.where(on_line, np.nan, g.uniform(0, 360, n)) if way != "along" else np.full(n, np.nan)
    by_miles = g.random(n) < 0.4
    own_time = g.random(n) < 0.5
    made = plan.design_holds(
        fixes, fixes["fix"], None, inbound_deg=inbound, north=np.full(n, 0), turn=g.integers(0, 2, n),
        leg_min=np.where(own_time & ~by_miles, g.choice([1.5, 2.0, 2.5, 3.0, 0.8], n), np.nan),
        leg_nm=np.where(by_miles, np.round(g.uniform(3, 12, n), 1), np.nan), leg_end=np.full(n, 1),
        ias_kt=np.full(n, 95.0), area_ias_kt=np.where(g.random(n) < 0.3, g.integers(95, 200, n), np.nan),
        alt_ft=fixes["alt_ft"], alt_to_ft=np.where(g.random(n) < 0.2, fixes["alt_ft"] + 2000.0, np.nan),
        isa_dev_c=np.full(n, np.nan), rules=g.integers(0, 2, n), var_date="2026-09-01", year=YEAR,
    )  # fmt: skip
    return made.take(np.flatnonzero(made.reasons == "")).columns


@pytest.fixture(scope="module")
def clearances():
    """Clearances of more than 2 000 holds, with random times."""
    g = np.random.Generator(np.random.PCG64(20260901))
    made = []
    for way in ("radial", "along", "overhead", "crossing"):
        holds = some_holds(way, g)
        n = len(holds["hold"])
        clock = [f"{hour:02d}:{minute:02d}" for hour, minute in zip(g.integers(0, 24, n), g.integers(0, 60, n))]
        times = [time if draw < 0.7 else "" for time, draw in zip(clock, g.random(n))]
        leave = [time if draw < 0.2 else "" for time, draw in zip(clock[::-1], g.random(n))]
        said, reasons = phraseology.from_holds(holds, YEAR, times, leave)
        assert all((one is None) == (why != "") for one, why in zip(said, reasons))
        made += [one for one in said if one]
    assert len(made) >= 2000
    return made


@pytest.mark.parametrize("wording", phraseology.WORDINGS)
@pytest.mark.parametrize("side", ["text", "spoken"])
def test_written_read_and_written_again_is_the_same(clearances, wording, side):
    for clearance in clearances:
        phrase = phraseology.write(clearance, wording)
        reading = phraseology.read(getattr(phrase, side), idents=IDENTS)
        assert reading.refused == "", getattr(phrase, side)
        assert phraseology.write(reading.clearance, wording) == phrase


@pytest.mark.parametrize("wording", phraseology.WORDINGS)
def test_the_row_read_is_the_row_said(clearances, wording):
    """Every cell, not only the words; what a wording does not say aside."""
    for clearance in clearances:
        reading = phraseology.read(phraseology.write(clearance, wording).text, idents=IDENTS)
        said, heard = phraseology.plan_cells(clearance), phraseology.plan_cells(reading.clearance)
        assert heard.pop("rules", wording) == wording
        said.pop("rules")
        if said["turn"] == "right":
            said.pop("turn")
        assert {k: v for k, v in heard.items() if k != "navaid_kind"} == pytest.approx(
            {k: (round(v, 1) if k in ("leg_nm", "area_ias_kt") else v) for k, v in said.items() if k != "navaid_kind"}
        )


def test_through_the_whole_chain(clearances):
    """Words to a plan, the plan to holds, the holds to words: the same words in a hundred holds of each wording."""
    columns = {name: np.array(column, dtype=object) for name, column in zip(("ident", "kind"), zip(*AIDS))}
    columns.update({name: np.array(column, dtype=float)
                    for name, column in zip(("lon", "lat", "elev_ft", "decl_deg"), list(zip(*AIDS))[2:])})  # fmt: skip
    step = len(clearances) // 200
    for wording in phraseology.WORDINGS:
        chosen = [clearance for clearance in clearances if clearance.rules == wording][::step]
        phrases = [phraseology.write(clearance, wording) for clearance in chosen]
        table = {"clearance": [phrase.text for phrase in phrases], "rules": [wording] * len(phrases),
                 "leg_end": ["along_track"] * len(phrases)}  # fmt: skip
        built = plan.build(table, columns, None, var_date="2026-09-01", year=YEAR, tolerance_m=1000.0)
        lost = [reason for reason in built.reasons if reason]
        assert len(lost) <= 3, lost
        efc, leave = ([built.spoken.plan[name][i] for i in built.rows] for name in ("efc_utc", "leave_utc"))
        again, reasons = phraseology.from_holds(built.holds, YEAR, efc, leave)
        assert not any(reasons)
        for i, clearance in zip(built.rows, again):
            assert phraseology.write(clearance, wording).text == phrases[i].text


def test_what_cannot_be_said_says_why():
    g = np.random.Generator(np.random.PCG64(1))
    holds = some_holds("radial", g)
    for change, why in (({"navaid": ""}, "a position alone"), ({"radial_deg": np.nan}, "no radial or bearing"),
                        ({"dist_nm": 500.0}, "too far")):  # fmt: skip
        row = {name: column[:1].copy() for name, column in holds.items()}
        for name, value in change.items():
            row[name][0] = value
        (said,), (reason,) = phraseology.from_holds(row, YEAR)
        assert said is None and why in reason


def test_an_ndb_has_bearings_and_no_radials(clearances):
    """What a line is called follows its own navaid, the second of a crossing too."""
    ndbs, crossings = {aid[0] for aid in AIDS if aid[1].startswith("NDB")}, 0
    for clearance in clearances:
        fix = clearance.fix
        for ident, deg, bearing in ((fix.ident, fix.radial_deg, fix.bearing),
                                    (fix.ident_2, fix.radial_2_deg, fix.bearing_2)):  # fmt: skip
            assert np.isnan(deg) or bearing == (ident in ndbs)
        if fix.ident_2 in ndbs and np.isfinite(fix.radial_2_deg):
            crossings += 1
            figures = f"{fix.radial_2_deg or 360.0:03.0f}"
            assert f"and the {fix.ident_2} {figures} bearing" in phraseology.write(clearance, "faa").text
    assert crossings > 20
