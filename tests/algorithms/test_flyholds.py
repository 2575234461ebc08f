"""Holds flown in wind as an algorithm: lines with times, events, UTC."""

from __future__ import annotations

import datetime
from itertools import groupby

import pytest

from fixwright.tests.algorithms.layers import (
    DATE,
    core,
    expression,
    field,
    layer,
    opened,
    refusal,
    rows,
    run,
    saved,
    some_holds,
)
from fixwright.tests.algorithms.test_same_result import command_line, plain  # noqa: F401 (a fixture)

WIND = {"WIND_FROM": 240, "WIND_SPEED": 20, "DATE": DATE}

NO_TIME = (
    "it must be a time in UTC such as 14:05, 14:05:20 or 2026-09-01T14:05:20, in the years 2000 to 2099, or empty."
)


def one_hold(**more):
    """Inbound 072 true, TAS 118 kt at sea level, one minute by the FAA's rules."""
    point = layer(("ident:string",), [((11.25, 48.5), "A")])
    asked = {"FIX_FIELD": "ident", "INBOUND": 72, "NORTH": "true", "IAS": 118, "ALTITUDE": 0, "LEG_MIN": 1,
             "RULES": "faa", "DATE": DATE}  # fmt: skip
    return run("designholds", INPUT=point, **{**asked, **more}).layer("HOLDS")


def measures(geometry) -> list[float]:
    return [vertex.m() for vertex in geometry.vertices()]


def test_measures_increase():
    """M is the time: it increases along each line, from start_s to end_s; each line begins when the one before ends."""
    made = run("flyholds", INPUT=some_holds(), ARRIVAL_COURSE=120, **WIND)
    assert made.counts == (3, 3, 0)
    for hold, lines in groupby(made.rows("FLOWN"), lambda row: row["hold"]):
        lines = list(lines)
        assert [row["circuit"] for row in lines] == [0, 1, 2, 3], hold
        for row in lines:
            m = measures(row["geometry"])
            assert all(b > a for a, b in zip(m, m[1:])) or "QAM" in hold
            assert all(b >= a for a, b in zip(m, m[1:]))  # a cut at 180 degrees stands in both pieces
            assert (m[0], m[-1]) == pytest.approx((row["start_s"], row["end_s"]))
        assert [row["start_s"] for row in lines[1:]] == pytest.approx([row["end_s"] for row in lines[:-1]])
        assert lines[0]["start_s"] == -240.0


def test_calm_is_the_racetrack():
    """The legs last as long as those of the pattern, and the line lies on it."""
    holds = some_holds()
    made = run("flyholds", INPUT=holds, CIRCUITS=1, DATE=DATE)
    circuits = [row for row in made.rows("FLOWN") if row["circuit"] == 1]
    by_hold = {feature["hold"]: feature for feature in holds.getFeatures()}
    assert len(circuits) == 3
    for row in circuits:
        hold = by_hold[row["hold"]]
        assert row["end_s"] - row["start_s"] == pytest.approx(hold["circuit_s"], abs=1e-6)
        assert (row["outbound_s"], row["inbound_s"], row["stopwatch_s"]) == pytest.approx((60.0, 60.0, 60.0), abs=1e-6)
        assert row["outbound_heading_deg"] == pytest.approx(hold["outbound_model_deg"])
        assert row["inbound_heading_deg"] == pytest.approx(hold["inbound_model_deg"])
    source = some_holds()
    fixes = run("fixradialdistance", INPUT=layer_of_stations(), RADIAL=45, DISTANCE=9, DATE=DATE).layer("FIXES")
    designed = run("designholds", INPUT=fixes, DATE=DATE)
    flown = run("flyholds", INPUT=designed.layer("HOLDS"), CIRCUITS=1, DATE=DATE).rows("FLOWN")[1]["geometry"]
    ring = core.QgsGeometry(designed.rows("PATTERNS")[0]["geometry"].constGet().boundary())
    assert flown.hausdorffDistance(ring) * 111_000 < 12.0
    assert source.featureCount() == 3


def layer_of_stations():
    return layer(("ident:string", "decl_deg:double", "elev_ft:double"), [((11.25, 48.5), "QZB", 2.0, 1200.0)])


def test_utc_across_midnight():
    made = run("flyholds", INPUT=one_hold(), START_UTC="23:55:30", CIRCUITS=2, **WIND)
    lines, events = made.rows("FLOWN"), made.rows("EVENTS")
    assert lines[0]["start_utc"] == "2026-09-01T23:51:30"
    start = datetime.datetime(2026, 9, 1, 23, 55, 30)
    for row in events:
        at = datetime.datetime.fromisoformat(row["utc"])
        assert abs((at - start).total_seconds() - row["time_s"]) <= 0.5 + 1e-6
    assert events[-1]["utc"].startswith("2026-09-02T00:0")
    assert lines[-1]["end_utc"] == events[-1]["utc"]


def test_no_start_no_utc():
    made = run("flyholds", INPUT=one_hold(), **WIND)
    assert {row["utc"] for row in made.rows("EVENTS")} == {None}
    assert {row["start_utc"] for row in made.rows("FLOWN")} == {None}


@pytest.mark.parametrize(
    ("start", "leave", "end"),
    [
        ("09:40", "09:58", "2026-09-01T09:58:00"),
        ("09:40:00Z", "2026-09-01 09:58", "2026-09-01T09:58:00"),
        ("2026-12-31T23:50", "00:08", "2027-01-01T00:08:00"),
        (datetime.datetime(2026, 9, 1, 9, 40), "09:58", "2026-09-01T09:58:00"),
    ],
)
def test_leaving_on_time(start, leave, end):
    """Wind 340/22, inbound 072, TAS 118 kt: four circuits in 18 minutes, the last of 329.5 s, or each of 270.0 s.
    Derived here by the sum of air legs and wind; the adjustment itself: FAA AIM 5-3-8 k."""
    asked = {"INPUT": one_hold(), "WIND_FROM": 340, "WIND_SPEED": 22, "DATE": DATE, "LEAVE_UTC": leave}
    start = str(start).replace(" ", "T") if isinstance(start, datetime.datetime) else start
    for adjust, length in (("last", 329.5), ("all", 270.0)):
        lines = run("flyholds", START_UTC=start, ADJUST=adjust, **asked).rows("FLOWN")
        assert [row["circuit"] for row in lines] == [0, 1, 2, 3, 4]
        assert lines[-1]["end_s"] - lines[-1]["start_s"] == pytest.approx(length, abs=0.1)
        assert lines[-1]["end_utc"] == end
        assert f"leave at {end[11:]}Z" in lines[0]["text"]


def test_a_time_to_leave_that_cannot_be_met():
    made = run("flyholds", INPUT=one_hold(), START_UTC="09:40", LEAVE_UTC="09:41", CIRCUITS=1, **WIND)
    assert made.counts == (1, 1, 0)
    assert "the shortest circuit in this wind takes" in made.rows("FLOWN")[0]["text"]


def test_expect_further_clearance_is_only_said():
    asked = {"INPUT": one_hold(), "START_UTC": "23:50", **WIND}
    plain, said = run("flyholds", **asked), run("flyholds", EFC_UTC="00:15", **asked)
    assert [row["time_s"] for row in plain.rows("EVENTS")] == [row["time_s"] for row in said.rows("EVENTS")]
    assert [row["geometry"].asWkt(9) for row in plain.rows("FLOWN")] == [
        row["geometry"].asWkt(9) for row in said.rows("FLOWN")
    ]
    assert said.rows("FLOWN")[0]["text"] == (
        "expect further clearance at 00:15:00Z: no clearance to leave; it matters when radio contact is lost "
        "(14 CFR 91.185)"
    )


def test_figures_in_a_crosswind():
    """Inbound 072, wind 340/22, TAS 118 kt, one minute inbound: heading in 061.26, out 282.33, 70.18 s straight
    outbound, 76.3 s on the stopwatch from abeam. By the sum of air legs and wind, derived here."""
    hold = one_hold()
    var = next(hold.getFeatures())["var_deg"]
    made = run("flyholds", INPUT=hold, WIND_FROM=340, WIND_SPEED=22, DATE=DATE)
    row = made.rows("FLOWN")[1]
    assert row["inbound_heading_deg"] + var == pytest.approx(61.26, abs=0.05)
    assert row["outbound_heading_deg"] + var == pytest.approx(282.33, abs=0.05)
    assert (row["outbound_s"], row["stopwatch_s"]) == pytest.approx((70.18, 76.3), abs=0.1)
    assert row["inbound_s"] == pytest.approx(60.0)
    inbound = next(row for row in made.rows("EVENTS") if row["event"] == "on_course")
    assert (inbound["gs_kt"], inbound["drift_deg"]) == pytest.approx((116.70, 10.74), abs=0.01)


def test_events():
    made = run("flyholds", INPUT=one_hold(), ARRIVAL_COURSE=100, START_UTC="14:05", CIRCUITS=1, **WIND)
    events = made.rows("EVENTS")
    times = [row["time_s"] for row in events]
    assert all(after - before > -1e-9 for before, after in zip(times, times[1:]))
    assert events[0]["event"] == "arrival" and events[1]["event"] == "slow_down"
    assert events[1]["utc"] == "2026-09-01T14:02:00"  # three minutes before the fix: FAA AIM 5-3-8 d
    crossings = [row for row in events if row["event"] == "fix"]
    assert [row["circuit"] for row in crossings] == [0, 1, 1]
    fix = core.QgsGeometry.fromPointXY(core.QgsPointXY(11.25, 48.5))
    assert all(row["geometry"].distance(fix) * 111_000 < 1.0 for row in crossings)
    assert all(row["text"] for row in events)


def test_timing_from_the_later_of_both():
    """A left hold by ICAO's rules with the wind from the holding side: abeam comes while still turning."""
    hold = one_hold(RULES="icao", TURN="left")
    by_abeam, by_later = (
        run("flyholds", INPUT=hold, WIND_FROM=162, WIND_SPEED=15, DATE=DATE, TIMING=timing).rows("FLOWN")[1]
        for timing in ("abeam", "later_of_both")
    )
    assert by_abeam["stopwatch_s"] == pytest.approx(60.0) and by_later["stopwatch_s"] == pytest.approx(60.0)
    assert by_abeam["outbound_s"] != pytest.approx(by_later["outbound_s"], abs=1.0)


def test_rules_of_thumb():
    """Inbound 072, TAS 118 kt, wind 340/22, one minute inbound: single drift rolls out 0.733 NM right of the course and
    2.220 before the fix, double 0.319 and 2.100, triple (FAA AIM 5-3-8 j.8(c)) 0.065 left and 1.906. Derived here by
    the sum of air legs and wind. The next outbound time: US Navy CNATRA P-871, chapter 4."""
    hold = one_hold()
    found = run("flyholds", INPUT=hold, WIND_FROM=340, WIND_SPEED=22, DATE=DATE).rows("BY_RULE")
    assert [row["rule"] for row in found] == ["single", "double", "triple"] * 2
    assert [row["timing"] for row in found] == ["exact"] * 3 + ["adjusted"] * 3
    found, adjusted = found[:3], found[3:]
    for first, then in zip(found, adjusted):
        m = measures(then["geometry"])
        assert m[0] == 0.0 and abs(then["inbound_s"] - 60.0) < abs(first["inbound_s"] - 60.0)
        assert then["inbound_s"] + then["next_outbound_s"] == pytest.approx(first["next_outbound_s"] + 60.0)
    assert [row["off_course_nm"] for row in found] == pytest.approx([0.733, 0.319, -0.065], abs=0.002)
    assert [row["before_fix_nm"] for row in found] == pytest.approx([2.220, 2.100, 1.906], abs=0.003)
    fix = core.QgsGeometry.fromPointXY(core.QgsPointXY(11.25, 48.5))
    for row in found:
        assert row["hold"] and row["outbound_s"] == pytest.approx(70.18, abs=0.1)
        assert row["inbound_s"] + row["next_outbound_s"] == pytest.approx(120.0)
        m = measures(row["geometry"])
        assert m[0] == 0.0 and all(b > a for a, b in zip(m, m[1:]))
        start = core.QgsGeometry(next(row["geometry"].vertices()).clone())
        assert start.distance(fix) < 1e-6 and row["text"].startswith(row["rule"].capitalize())
    icao = run("flyholds", INPUT=one_hold(RULES="icao"), WIND_FROM=340, WIND_SPEED=22, DATE=DATE).rows("BY_RULE")
    assert {(row["inbound_s"], row["next_outbound_s"]) for row in icao} == {(None, None)}


def test_rules_of_thumb_may_be_left_out():
    made = run("flyholds", INPUT=one_hold(), skip=("BY_RULE",), **WIND)
    assert "BY_RULE" not in made.results and made.counts == (1, 1, 0)


def test_roll_time_makes_each_turn_longer():
    """In still air the legs keep their minute, and each turn takes the roll time more; from each row too."""
    holds = some_holds()
    plain = run("flyholds", INPUT=holds, CIRCUITS=1, DATE=DATE).rows("FLOWN")
    rolled = run("flyholds", INPUT=holds, CIRCUITS=1, DATE=DATE, ROLL_TIME=expression("$id")).rows("FLOWN")
    for before, after in zip(plain, rolled):
        if after["circuit"] == 0:
            continue
        number = [row["hold"] for row in plain if row["circuit"] == 1].index(after["hold"]) + 1
        longer = (after["end_s"] - after["start_s"]) - (before["end_s"] - before["start_s"])
        assert longer == pytest.approx(2.0 * number)
        for name in ("outbound_s", "stopwatch_s", "inbound_s"):
            assert after[name] == pytest.approx(before[name])
    events = [row["event"] for row in run("flyholds", INPUT=one_hold(), CIRCUITS=1, ROLL_TIME=5, **WIND).rows("EVENTS")]
    assert events.count("turn_start") == events.count("turn_end") == 2
    wrong = run("flyholds", INPUT=holds, DATE=DATE, ROLL_TIME=expression("if($id = 2, 16, 0)"))
    assert wrong.reasons() == {"2": "ROLL_TIME is 16; it must be a number between 0 and 15 s"}


def test_along_an_arc_no_teardrop():
    """Sector 1 or 3 only: ICAO Doc 8168 Vol I, I-6-1 (from memory)."""
    asked = {"INPUT": one_hold(), "DATE": DATE, "ARRIVAL_COURSE": 72 + 140, "ARRIVAL_NORTH": "true"}
    plain, arc = (run("flyholds", ON_ARC=on_arc, **asked).rows("FLOWN")[0] for on_arc in ("no", "yes"))
    assert (plain["entry"], arc["entry"]) == ("teardrop", "direct")
    assert "along the DME arc no teardrop entry, so direct" in arc["text"]
    asked["ARRIVAL_COURSE"] = 72 + 150
    assert run("flyholds", ON_ARC="yes", **asked).rows("FLOWN")[0]["entry"] == "parallel"


def test_a_wind_from_each_row():
    """An empty or odd wind, a fraction of a circuit: rejects, each with its reason; the others are flown."""
    holds = some_holds()
    made = run("flyholds", INPUT=holds, WIND_FROM=expression("if($id = 1, NULL, 240)"), DATE=DATE,
               WIND_SPEED=expression("if($id = 2, 999, 20)"), CIRCUITS=expression("if($id = 3, 1.5, 2)"))  # fmt: skip
    assert made.counts == (3, 0, 3)
    assert made.reasons() == {
        "1": "WIND_FROM is empty; it must be a number between 0 and 360 degrees",
        "2": "WIND_SPEED is 999; it must be a number between 0 and 300 kt",
        "3": "CIRCUITS is 1.5; it must be a whole number",
    }
    made = run("flyholds", INPUT=holds, WIND_FROM=expression("$id * 100"), WIND_SPEED=expression("$id * 5"),
               CIRCUITS=expression("$id - 1"), DATE=DATE)  # fmt: skip
    lines = made.rows("FLOWN")
    assert [(row["wind_from_true_deg"], row["wind_kt"]) for row in lines if row["circuit"] == 0] == [
        (100.0, 5.0), (200.0, 10.0), (300.0, 15.0),
    ]  # fmt: skip
    assert [row["circuit"] for row in lines] == [0, 0, 1, 0, 1, 2]


def test_what_cannot_be_flown_is_a_reject():
    holds = some_holds(RULES="icao")
    made = run("flyholds", INPUT=holds, WIND_FROM=expression("inbound_true_deg"), DATE=DATE,
               WIND_SPEED=expression("if($id = 2, 120, 5)"))  # fmt: skip
    assert made.counts == (3, 2, 1)
    assert made.reasons() == {"2": "the wind is too strong: the inbound course cannot be made good"}
    flown = {row["hold"] for row in made.rows("FLOWN")}
    assert len(flown) == 2 and flown == {row["hold"] for row in made.rows("EVENTS")}


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"WIND_SPEED": -1}, "WIND_SPEED is -1; it must be a number between 0 and 300 kt."),
        ({"WIND_SPEED": float("inf")}, "WIND_SPEED is inf; it must be a number between 0 and 300 kt."),
        ({"WIND_SPEED": 20},
         "WIND_FROM is not given, though WIND_SPEED is 20 kt; it must be a number between 0 and 360 degrees."),
        ({"CIRCUITS": 100}, "CIRCUITS is 100; it must be a number between 0 and 99."),
        ({"CIRCUITS": 2.5}, "CIRCUITS is 2.5; it must be a whole number from 0 to 99."),
        ({"START_UTC": "25:00"}, f"START_UTC is '25:00'; {NO_TIME}"),
        ({"START_UTC": "2026-02-30T10:00"}, f"START_UTC is '2026-02-30T10:00'; {NO_TIME}"),
        ({"START_UTC": "14:05+02:00"}, f"START_UTC is '14:05+02:00'; {NO_TIME}"),
        ({"LEAVE_UTC": "14:05"}, "LEAVE_UTC is given without START_UTC; the time to leave is counted from there."),
        ({"START_UTC": "2026-09-01T14:05", "LEAVE_UTC": "2026-09-01T14:00"},
         "LEAVE_UTC is 2026-09-01T14:00:00; it must not be before START_UTC, 2026-09-01T14:05:00."),
        ({"START_UTC": "14:05", "LEAVE_UTC": "2026-08-31T14:00"},
         "LEAVE_UTC is 2026-08-31T14:00:00; it must not be before START_UTC, 2026-09-01T14:05:00."),
        ({"EFC_UTC": "soon"}, f"EFC_UTC is 'soon'; {NO_TIME}"),
        ({"START_UTC": "field:utc"}, "START_UTC takes one value for the whole run, not a field or an expression."),
        ({"TIMING": "never"}, "TIMING is 'never'; it must be one of 0 abeam, 1 later_of_both."),
        ({"ROLL_TIME": 15.5}, "ROLL_TIME is 15.5; it must be a number between 0 and 15 s."),
        ({"ON_ARC": "maybe"}, "ON_ARC is 'maybe'; it must be one of 0 no, 1 yes."),
        ({"ADJUST": 2}, "ADJUST is 2; it must be one of 0 last, 1 all."),
    ],
)  # fmt: skip
def test_refused(given, said):
    assert refusal("flyholds", INPUT=some_holds(), DATE=DATE, **given) == said


def test_a_moment_in_all_forms():
    from qgis.PyQt.QtCore import QDate, QDateTime, Qt, QTime

    from fixwright.algorithms.common.moments import read_moment

    day = datetime.date(2026, 9, 1)
    expected = datetime.datetime(2026, 3, 8, 2, 30, 20)
    for zone in (Qt.TimeSpec.UTC, Qt.TimeSpec.LocalTime):
        value = QDateTime(QDate(2026, 7, 8), QTime(2, 30, 20), zone)
        assert read_moment(value, "X")[0].on(day) == expected.replace(month=7)
    east = datetime.timezone(datetime.timedelta(hours=5))
    for value in ("2026-03-08T02:30:20", " 2026-03-08 02:30:20z ", expected, expected.replace(tzinfo=east)):
        assert read_moment(value, "X")[0].on(day) == expected
    for value in ("02:30", "02:30:00Z", "0230", "0230z", "02:30 Z", QTime(2, 30), datetime.time(2, 30)):
        assert read_moment(value, "X")[0].on(day) == datetime.datetime(2026, 9, 1, 2, 30)
    assert read_moment(None, "X") == read_moment(" ", "X") == (None, "")
    for value in ("2026-03-08", "2:30", "02:60", "24:00", "1999-01-01T00:00", "2026-03-08T", 14.05, "230"):
        assert read_moment(value, "X")[0] is None and read_moment(value, "X")[1], value


@pytest.mark.parametrize("zone", ["UTC", "America/New_York", "Pacific/Kiritimati"])
def test_the_machines_time_zone_changes_nothing(zone, command_line, tmp_path):  # noqa: F811
    """By qgis_process in another zone, at an hour that does not exist there: the same rows as by processing.run."""
    source = saved(some_holds(), tmp_path / "holds.gpkg")
    asked = {"WIND_FROM": "expression:200 + $id * 20", "WIND_SPEED": "20", "ARRIVAL_COURSE": "120",
             "DATE": "2026-03-08", "START_UTC": "2026-03-08T02:10", "LEAVE_UTC": "02:40", "EFC_UTC": "02:45",
             "ADJUST": "all"}  # fmt: skip
    python = {sink: str(tmp_path / f"python-{sink}.gpkg") for sink in ("FLOWN", "EVENTS", "BY_RULE", "REJECTS")}
    shell = {sink: str(tmp_path / f"shell-{sink}.gpkg") for sink in python}
    run("flyholds", INPUT=source, **asked, **python)
    words = [f"{key}={value}" for key, value in {"INPUT": source, **asked, **shell}.items()]
    said = command_line("run", "fixwright:flyholds", "--", *words, TZ=zone)
    assert said.returncode == 0, said.stdout
    assert "3 rows in, 3 gave output, 0 rejected" in said.stdout
    for sink in python:
        assert plain(opened(python[sink])) == plain(opened(shell[sink]))
    events = rows(opened(shell["EVENTS"]))
    crossed = [row["utc"] for row in events if row["event"] == "fix" and row["time_s"] == 0.0]
    assert crossed == ["2026-03-08T02:10:00"] * 3


@pytest.mark.parametrize(("name", "field_of_time"), [("EVENTS", "utc"), ("FLOWN", "start_utc")])
def test_the_temporal_controller_plays_them(name, field_of_time, tmp_path):
    """The style makes the layer temporal; a step shows what happens in it, and nothing of another hour.

    QGIS 3.22 reads no temporal settings from a file's style when it opens the file, but does when asked for the style.
    """
    from qgis.PyQt.QtCore import QDate, QDateTime, Qt, QTime

    asked = {"INPUT": one_hold(), "START_UTC": "14:05", "CIRCUITS": 2, **WIND}
    assert run("flyholds", **asked).layer(name).temporalProperties().isActive()
    out = str(tmp_path / "out.gpkg")
    run("flyholds", **asked, **{name: out})
    made = opened(out)
    made.loadDefaultStyle()
    plays = made.temporalProperties()
    assert plays.isActive() and plays.startField() == field_of_time
    context = core.QgsVectorLayerTemporalContext()
    context.setLayer(made)

    def seen(hour, minute):
        first = QDateTime(QDate(2026, 9, 1), QTime(hour, minute, 0), Qt.TimeSpec.UTC)
        step = core.QgsDateTimeRange(first, first.addSecs(5))
        return list(made.getFeatures(plays.createFilterString(context, step)))

    assert 0 < len(seen(14, 5)) < made.featureCount()
    assert seen(16, 5) == [] and seen(12, 5) == []


def test_a_line_across_180_degrees():
    """The third station lies at the meridian: its lines are cut there, and none reaches round the earth."""
    made = run("flyholds", INPUT=some_holds(), ARRIVAL_COURSE=field("inbound_model_deg"), **WIND)
    for row in made.rows("FLOWN"):
        for part in row["geometry"].parts():
            box = part.boundingBox()
            assert box.width() < 1.0 and -180.0 <= box.xMinimum() and box.xMaximum() <= 180.0
