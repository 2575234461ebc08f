"""VOR/DME holds: limiting distance, radial and area, also against flights that end their leg at a reading."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry.protection import icao, icao_dme, icao_lines, icao_template, shapes
from fixwright.geometry.protection.areas import Designs, Options

QUADRILATERAL = np.array([(-0.6, -1.8), (0.6, -1.9), (0.6, 1.9), (-0.6, 1.8)])


def designs(station, *, ias=170.0, alt=8000.0, leg=5.0, fix=QUADRILATERAL, arrivals=None, minutes=1.0) -> Designs:
    station, ias, alt, leg, minutes = np.broadcast_arrays(
        *[np.atleast_1d(np.asarray(a, float)) for a in (station, ias, alt, leg, minutes)]
    )
    n = len(station)
    return Designs(ias, alt, minutes, leg, station, np.full(n, 1000.0), [fix] * n, [arrivals] * n)


def limits_of(made: icao.Figures) -> icao_dme.Limits:
    station = np.where(made.dme["towards"], made.dme["Ds"], -made.dme["Ds"])
    return icao_dme.Limits(station, made.dme["DL1"], made.dme["DL2"], np.full(len(station), np.nan))


def test_only_a_dme_leg_with_a_station_is_a_vor_dme_hold():
    given = designs([30.0, np.nan, 30.0, -30.0], leg=[5.0, 5.0, np.nan, 5.0])
    assert icao.figures(given, Options()).kind.tolist() == [icao.DME, icao.TIMED, icao.TIMED, icao.DME]
    assert (icao.figures(given, Options(navigation="rnav")).kind == icao.RNAV).all()
    names = {v.name for v in icao.values(given, Options()) if v.row == 3}
    assert {"DL", "DLs", "RL", "RL2"} <= names and "RL" not in {
        v.name for v in icao.values(given, Options()) if v.row == 0
    }


def test_the_limit_is_not_inside_the_leg_s_own_reading():
    """The pilot flies to the leg's reading; the document's rounding may not put the limit before it (derived here)."""
    made = icao.figures(designs([30.0, -30.0], leg=9.0), Options())
    slant = made.dme["D"]
    assert made.dme["DL"].tolist() == pytest.approx([slant[0] + 9.0, slant[1] - 9.0])
    made = icao.figures(designs([30.0, -30.0], leg=0.5), Options())
    assert (made.dme["DL"] == np.round(made.dme["DL"])).all()


@pytest.mark.parametrize("station", [25.0, -30.0])
def test_corners_of_the_outbound_end_lie_on_arcs_and_lines(station):
    made = icao.figures(designs([station]), Options(entries="none"))
    fix, limits = shapes.points(made.tolerance_areas_nm), limits_of(made)
    built = icao_dme.build(made.values, limits, fix, made.arrivals)
    corners, values = built.corners_nm[0], {k: float(v[0]) for k, v in made.values.items()}
    assert built.made.all() and corners.shape == (4, 2)
    away = np.hypot(corners[:, 0] - station, corners[:, 1])
    np.testing.assert_allclose(away, [limits.inner_nm[0], limits.outer_nm[0]] * 2, atol=1e-9)
    # By hand: tangent of the wind circles of g and i1 over the outermost corner of the tolerance area.
    drift = np.arcsin(values["w'"] / values["v"])
    for pair, way in ((corners[:2], 1.0), (corners[2:], -1.0)):
        lean = np.radians(180.0 - way * 5.0) - way * drift
        normal = np.array([np.cos(lean - way * np.pi / 2.0), np.sin(lean - way * np.pi / 2.0)])
        turn = []
        for t in np.radians(np.arange(0.0, 181.0)):
            place = np.array([values["ac"] + values["r"] * np.sin(t), values["r"] * (1.0 - np.cos(t))])
            turn.append(place @ normal + values["Wc"] + np.degrees(t) / 45.0 * values["E45"])
        height = max(turn) + (QUADRILATERAL @ normal).max()
        np.testing.assert_allclose(pair @ normal, height, atol=1e-9)
        assert (np.diff(pair, axis=0) @ [np.cos(lean), np.sin(lean)] > 0.0) == (station > 0.0)


def test_the_limiting_radial_leaves_the_turn_on_one_side():
    """RL less the tolerance of 4.5 degrees touches the area of the turn from b and c, or is up to a degree above."""
    made = icao.figures(designs([-20.0, -12.0, 20.0]), Options())
    fix = shapes.points(made.tolerance_areas_nm)
    station = np.array([-20.0, -12.0, 20.0])
    radial, beyond = icao_dme.limiting_radial_deg(made.values, fix, station)
    assert np.isnan(radial[2]) and (radial[:2] == np.round(radial[:2])).all()
    np.testing.assert_allclose(beyond[:2] - radial[:2], 4.5)
    for k in range(2):
        discs = []
        for turn in (icao_template.first_turn(made.values), icao_template.early_turn(made.values)):
            u, s, w = (part[k] for part in turn.places())
            discs += [(a + x, b + y, c) for a, b, c in zip(u, s, w) for x, y in QUADRILATERAL]
        u, s, w = np.array(discs).T
        from_station = np.hypot(u - station[k], s)
        edge = np.degrees(np.arctan2(s, u - station[k]) + np.arcsin(w / from_station)).max()
        assert edge + 4.5 <= radial[k] < edge + 5.5 + 1e-6


def test_a_fix_too_near_is_refused_and_one_nearly_so_takes_the_radial():
    """Away from the station: far off the arcs end every leg; nearer the line on the holding side misses them and RL2
    takes their place; nearer still the hold cannot be built."""
    stations = -np.arange(40.0, 6.0, -1.0)
    given = designs(stations, leg=4.0)
    said = icao.refusals(given, Options(entries="none"))
    refused = said != ""
    assert not refused[0] and refused[-1] and np.all(np.diff(refused.astype(int)) >= 0)
    assert "too near" in said[-1]
    made = icao.figures(given, Options(entries="none"))
    rows = np.flatnonzero(~refused)
    limits, bad = icao._dme_limits(made.take(rows), Options(entries="none"))
    assert not bad.any() and np.isfinite(limits.radial_deg).any() and np.isnan(limits.radial_deg[0])
    with_radial = rows[np.isfinite(limits.radial_deg)]
    drawn = [d for d in icao.drawing(given, Options(entries="none")) if d.row == with_radial[0]]
    assert {"RL2", "DL1", "DL2", "C1"} <= {d.letter for d in drawn}


def test_a_limit_below_the_station_s_height_is_refused():
    given = designs([-8.0], alt=40_000.0, leg=3.0, minutes=1.5)
    assert icao.refusals(given, Options())[0] != ""
    assert "cone" in icao.areas(designs([6.0], alt=30_000.0, minutes=1.5), Options(entries="none"))[0].limits


def test_areas_grow_with_wind_and_fix():
    alpha = np.radians(np.arange(0.0, 360.0, 3.0))

    def size(options, fix=QUADRILATERAL, which=0):
        made = icao.figures(designs([30.0, -80.0], ias=200.0, fix=fix), options)
        assert np.isnan(icao._dme_limits(made, options)[0].radial_deg).all()
        rows, ways = np.repeat([0, 1], len(alpha)), shapes.Ways.of(np.tile(alpha, 2))
        return icao.reaches(made, options)[which](rows, ways).height

    for which in (0, 1):
        calm, windy = (size(Options(wind_kt=w), which=which) for w in (30.0, 50.0))
        assert (windy - calm).min() > -1e-9 and (windy - calm).max() > 0.5
        assert (size(Options(), 1.3 * QUADRILATERAL, which) - size(Options(), which=which)).min() > -1e-9
    assert (size(Options(), which=1) - size(Options())).min() >= -1e-9


# --- flights


def flown(values, station, inner, outer, radial, kind, rng, count, corners):
    """Places (P, 2) of flights whose outbound leg ends at a distance from the station, or at a radial that lies up to
    9 degrees nearer the inbound one than the value given; steps of a second.

    Full wind from anywhere, heading within 5 degrees, turn 5 to 11 s after the fix, 5 to 11 s after the reading.
    """
    v, w, rate = values["v"], values["w'"], np.radians(values["R"])
    arrive, outbound, first, second, end = {
        "circuit": (0.0, 180.0, 1, 1, 360.0), "arc right": (90.0, 180.0, 1, 1, 360.0),
        "arc left": (-90.0, -180.0, -1, -1, -405.0), "reciprocal": (180.0, 150.0, -1, 1, 360.0),
    }[kind]  # fmt: skip
    at = np.array(corners)[rng.integers(0, len(corners), count)].astype(float)
    blow = rng.uniform(0.0, 2.0 * np.pi, count)
    wind = w * np.stack([np.cos(blow), np.sin(blow)], axis=1)
    heading = np.full(count, np.radians(arrive))
    goal = np.radians(outbound + rng.uniform(-5.0, 5.0, count))
    stage, left = np.zeros(count, dtype=int), rng.uniform(5.0, 11.0, count)
    ends_at = np.where(np.isfinite(radial), radial - rng.uniform(0.0, 9.0, count), np.inf)
    limit, last = rng.uniform(inner, outer, count), np.full(count, np.radians(end))
    distance, places = np.hypot(at[:, 0] - station, at[:, 1]), [at]
    for _ in range(2000):
        if (stage == 5).all():
            break
        turn = np.where(stage == 1, first * rate, np.where(stage == 4, second * rate, 0.0))
        aim = np.where(stage == 1, goal, last)
        over = ((stage == 1) | (stage == 4)) & (np.sign(turn) * (heading + turn - aim) >= 0.0)
        new = np.where(over, aim, heading + turn)
        middle = (heading + new) / 2.0
        step = v * np.stack([np.cos(middle), np.sin(middle)], axis=1) + wind
        at = np.where((stage < 5)[:, None], at + step, at)
        heading = np.where(stage < 5, new, heading)
        places.append(at)
        now = np.hypot(at[:, 0] - station, at[:, 1])
        met = (stage == 2) & ((now >= limit) if station > 0.0 else (now <= limit))
        past = np.degrees(np.arctan2(at[:, 1], at[:, 0] - station)) >= ends_at
        met |= (stage == 2) & past
        left = np.where((stage == 0) | (stage == 3), left - 1.0, left)
        gone = ((stage == 0) | (stage == 3)) & (left <= 0.0)
        left = np.where(met, rng.uniform(5.0, 11.0, count), left)
        stage = np.where(over | met | gone, stage + 1, stage)
        distance = now
    assert (stage == 5).all(), f"{(stage != 5).sum()} flights never met their distance, {distance.max():.1f} NM off"
    return np.concatenate(places)


@pytest.mark.parametrize("station", [30.0, -40.0])
@pytest.mark.parametrize("kind", ["circuit", "arc right", "arc left", "reciprocal"])
def test_flights_that_end_at_a_reading_stay_inside(station, kind):
    """No more than 0.1 % of their time outside, not farther than 0.2 NM: better than the template holds circuits."""
    rng = np.random.default_rng(7)
    given = designs([station, station], ias=[120.0, 200.0], alt=[4000.0, 9000.0])
    options = Options(slow_ias_kt=np.nan)
    made = icao.figures(given, options)
    limits, bad = icao._dme_limits(made, options)
    assert not bad.any()
    alpha = np.radians(np.arange(0.0, 360.0, 1.0))
    normals = np.stack([np.cos(alpha), np.sin(alpha)])
    shape = icao.reaches(made, options)[0 if kind == "circuit" else 1]
    basic = icao.reaches(made, options)[0]
    alone = 0.0
    for k in range(2):
        values = {name: float(a[k]) for name, a in made.values.items()}
        ends = (limits.inner_nm[k], limits.outer_nm[k], limits.radial_deg[k])
        places = flown(values, station, *ends, kind, rng, 400, QUADRILATERAL)
        height = shape(np.full(len(alpha), k), shapes.Ways.of(alpha)).height
        out = (places @ normals - height).max(axis=1)
        print(kind, station, k, f"{100.0 * (out > 0.0).mean():.3f} % {out.max():.2f} NM")
        assert (out > 0.0).mean() <= 0.001 and out.max() <= 0.2
        mine = basic(np.full(len(alpha), k), shapes.Ways.of(alpha)).height
        alone = max(alone, float((places @ normals - mine).max()))
    assert kind != "reciprocal" or alone > 0.3


def test_the_sheet_of_a_vor_dme_hold():
    values = icao_lines.lines(np.array([220.0]), np.array([14000.0]), np.array([1.0]))
    made = icao_dme.lines(values, np.array([29.912]), np.array([0.0]), np.array([14000.0]))
    assert {line.name for line in icao_dme.LINES} - set(made) == {"RL", "RL2"}


def test_marks_of_a_vor_dme_sheet():
    """Away from the station the form and its rounding are from memory; a limit that is the leg's own reading, and R,
    are ours."""
    sheet = {(v.row, v.name): v for v in icao.values(designs([30.0, -30.0, 30.0], leg=[0.5, 0.5, 9.0]), Options())}
    assert [sheet[row, "DL"].mark for row in range(3)] == ["published", "from memory", "derived"]
    assert [sheet[row, "DL unrounded"].mark for row in range(3)] == ["published", "from memory", "published"]
    assert sheet[1, "RL"].mark == "derived" and sheet[2, "DL"].formula == "the reading that the leg itself gives"
