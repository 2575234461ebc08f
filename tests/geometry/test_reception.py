"""Rows about reception: which stations a fix has, what is known of them, and what else could define it."""

from __future__ import annotations

import numpy as np
import pytest

from fixwright.geometry import fix_crossing, geodesy, navaids, plan, reasons
from fixwright.geometry.coverage import other_ways
from fixwright.geometry.fix_crossing import Lines
from fixwright.geometry.fixes import Station
from fixwright.geometry.plan import reception
from fixwright.geometry.plan.marking import Naming

YEAR = 2026.7


def words(*values) -> np.ndarray:
    return np.array(values, dtype=object)


NAVAIDS = {
    "ident": words("XQA", "XQB", "XQC", "XQA", "XQA"),
    "kind": words("VOR/DME", "VOR/DME", "NDB", "NDB", "VOR/DME"),
    "lon": np.array([-20.0, -19.6, -20.3, -20.0, -40.0]),
    "lat": np.array([40.0, 40.4, 40.5, 40.0, 40.0]),
    "elev_ft": np.array([500.0, 800.0, np.nan, np.nan, 100.0]),
    "decl_deg": np.array([-5.0, -4.0, np.nan, np.nan, 0.0]),
    "class": words("L", "VL/DL", "MH", "", "H"),
    "status": words("", "unserviceable", "", "", ""),
    "dme_lon": np.array([np.nan, -19.62, np.nan, np.nan, np.nan]),
    "dme_lat": np.array([np.nan, 40.4, np.nan, np.nan, np.nan]),
    "dme_elev_ft": np.array([np.nan, 900.0, np.nan, np.nan, np.nan]),
}


def station(*index) -> Station:
    return Station.of(*[NAVAIDS[name][list(index)] for name in ("lon", "lat", "elev_ft", "decl_deg", "kind")])


def naming(*index) -> Naming:
    return Naming(NAVAIDS["ident"][list(index)], plan.Keys(), "2026-09-01")


def measured(alt_ft=5_000.0) -> dict:
    """Radial 090 at 15 NM from XQA."""
    made = plan.mark_radial_distance(
        station(0), naming(0), np.array([90.0]), np.array([15.0]), slant=False, alt_ft=alt_ft, north=navaids.STATION,
        year=YEAR,
    )  # fmt: skip
    assert made.reasons.tolist() == [""]
    return made.columns


def crossing(first: int, second: int, kinds=(0, 0), values=(60.0, 200.0), alt_ft=5_000.0) -> dict:
    lines = [
        Lines(station(i), np.array([kind]), np.array([value])) for i, kind, value in zip((first, second), kinds, values)
    ]
    one, _ = plan.mark_crossing(
        *lines, naming(first), NAVAIDS["ident"][[second]], slant=False, alt_ft=alt_ft, north=navaids.STATION, year=YEAR
    )
    assert one.reasons.tolist() == [""]
    return one.columns


def told(rows: dict, name: str) -> list:
    """ok of each row of a test."""
    return [ok for test, ok in zip(rows["test"], rows["ok"]) if test == name]


def test_a_measured_fix_has_one_station_with_radial_and_distance():
    found = reception.heard(measured(), NAVAIDS)
    assert (found.row.tolist(), found.first.tolist(), found.second.tolist()) == ([0], [0], [-1])
    assert found.pairs.azimuth.tolist() == found.pairs.distance.tolist() == [True]
    assert found.pairs.classes.tolist() == ["L"] and np.isnan(found.cut.deg).all()
    rows = reception.test_rows(measured(), found, rules=0)
    assert rows["test"].tolist() == ["status", "service_volume", "line_of_sight", "cone", "dme_overhead"]
    assert rows["ok"].tolist() == [1] * 5 and {type(ok) for ok in rows["ok"]} == {int}


def test_overhead_reads_no_distance():
    made = plan.mark_overhead(
        station(0), naming(0), course_deg=np.array([90.0]), north=navaids.STATION, alt_ft=5_000.0, year=YEAR
    )
    found = reception.heard(made.columns, NAVAIDS)
    assert found.pairs.azimuth.tolist() == [True] and found.pairs.distance.tolist() == [False]
    tests = set(reception.test_rows(made.columns, found, rules=0)["test"])
    assert tests == {"status", "service_volume", "line_of_sight"}


@pytest.mark.parametrize(
    ("kinds", "values"), [((0, 0), (60.0, 200.0)), ((0, 1), (60.0, 20.0)), ((1, 0), (20.0, 200.0))]
)
def test_a_crossing_has_two_and_the_angle_of_its_lines(kinds, values):
    """The cut measured anew is the one that the crossing was solved with."""
    columns = crossing(0, 1, kinds, values)
    found = reception.heard(columns, None)
    assert found.row.tolist() == [0, 0]
    assert found.pairs.ident.tolist() == ["XQA", "XQB"]
    assert found.pairs.azimuth.tolist() == [kind == fix_crossing.RADIAL for kind in kinds]
    assert found.pairs.distance.tolist() == [kind == fix_crossing.DISTANCE for kind in kinds]
    assert found.cut.deg[0] == pytest.approx(columns["cut_deg"][0], abs=1e-6) and np.isnan(found.cut.deg[1])
    rows = reception.test_rows(columns, found, rules=0)
    assert rows["test"].tolist().count("cut_angle") == 1
    assert rows["value"][rows["test"] == "cut_angle"] == pytest.approx(columns["cut_deg"], abs=1e-6)


def test_a_crossing_of_one_stations_lines_is_one_pair():
    columns = crossing(0, 0, (0, 1), (60.0, 20.0))
    found = reception.heard(columns, NAVAIDS)
    assert found.row.tolist() == [0]
    assert found.pairs.azimuth.tolist() == found.pairs.distance.tolist() == [True]
    assert np.isnan(found.cut.deg).all()


def test_what_the_table_says_of_a_station():
    """Ident, kind and the nearest place: not the NDB of the same ident, not the VOR of that ident far away."""
    found = reception.heard(crossing(0, 1), NAVAIDS)
    assert (found.first.tolist(), found.second.tolist()) == ([0], [1])
    assert found.pairs.classes.tolist() == ["L", "VL/DL"]
    assert found.pairs.in_service.tolist() == [True, False]
    assert found.pairs.station.dme_lon.tolist() == [-20.0, -19.62]
    assert found.pairs.station.dme_elev_ft.tolist() == [500.0, 900.0]
    rows = reception.test_rows(crossing(0, 1), found, rules=0)
    assert told(rows, "status") == [1, 0]


def test_a_station_of_another_place_or_kind_is_not_it():
    for changes in ({"navaid_lat": np.array([40.1])}, {"navaid_kind": words("VORTAC")}, {"navaid": words("XQZ")}):
        assert reception.heard({**measured(), **changes}, NAVAIDS).first.tolist() == [-1], changes
    for kind in ("", "vor-dme"):
        assert reception.heard({**measured(), "navaid_kind": words(kind)}, NAVAIDS).first.tolist() == [0]


def test_a_missing_elevation_is_taken_from_the_table():
    columns = {**measured(), "navaid_elev_ft": np.array([np.nan])}
    assert np.isnan(reception.heard(columns, None).pairs.station.elev_ft).all()
    assert reception.heard(columns, NAVAIDS).pairs.station.elev_ft.tolist() == [500.0]


def test_without_a_table_the_fix_itself_may_tell_class_and_status():
    columns = {**measured(), "class": words("T"), "status": words("closed")}
    rows = reception.test_rows(columns, reception.heard(columns, None), rules=0)
    assert told(rows, "status") == [0] and told(rows, "service_volume") == [1]
    # the table goes before
    assert reception.heard(columns, NAVAIDS).pairs.classes.tolist() == ["L"]
    # and what stands in the fix's columns is not said of the second station
    both = {**crossing(0, 1), "class": words("T"), "status": words("closed")}
    assert reception.heard(both, None).pairs.classes.tolist() == ["T", ""]


def test_what_cannot_be_tested_is_neither_passed_nor_failed():
    rows = reception.test_rows(measured(np.nan), reception.heard(measured(np.nan), None), rules=0)
    assert rows["ok"].tolist() == [None] * 5
    text = dict(zip(rows["test"], rows["text"]))
    assert text["status"] == "The status of XQA is not known: no table of navaids lists it"
    assert "altitude" in text["line_of_sight"] and "no class is given" in text["service_volume"]


def test_fixes_without_a_station_have_no_rows():
    point = {"lon": np.array([-20.0, np.nan]), "lat": np.array([40.0, np.nan]), "method": words("coordinates", "")}
    for table in (None, NAVAIDS, {name: values[:0] for name, values in NAVAIDS.items()}):
        found = reception.heard(point, table)
        assert len(found.row) == 0
        rows = reception.test_rows(point, found, rules=0)
        assert {len(values) for values in rows.values()} == {0}
    waypoint = {**measured(), "navaid_kind": words("WPT")}
    assert len(reception.heard(waypoint, NAVAIDS).row) == 0


def test_a_bad_row_spoils_itself_alone():
    columns = {name: np.concatenate([values] * 3) for name, values in measured().items()}
    columns["navaid_lat"] = np.array([40.0, np.nan, 40.0])
    columns["lon"] = np.where([True, True, False], columns["lon"], np.nan)
    found = reception.heard(columns, NAVAIDS)
    assert found.row.tolist() == [0]


def test_the_key_is_the_holds():
    columns = {**measured(), "hold": words("North hold")}
    assert set(reception.test_rows(columns, reception.heard(columns, None), rules=0)["hold"]) == {"North hold"}
    others, _ = reception.alternative_rows(
        columns, reception.heard(columns, NAVAIDS), _all_working(), rules=0, count=3, year=YEAR
    )
    assert set(others["fix"]) == {"XQA R090 15.0 NM"}


# Other ways


def _all_working() -> dict:
    return {**NAVAIDS, "status": words(*[""] * 5)}


def test_the_fixs_own_way_is_left_out():
    table = _all_working()
    every = other_ways.METHODS
    for columns, own in ((measured(), (0, 0, -1)), (crossing(0, 1), (1, 0, 1))):
        found = reception.heard(columns, table)
        ways, _ = reception.alternative_rows(columns, found, table, rules=0, count=50, year=YEAR)
        keys = {(m, a, b) for m, a, b in zip(ways["method"], ways["navaid"], ways["navaid_2"])}
        method, first, second = own
        ident = [*table["ident"], ""]
        assert (every[method], ident[first], ident[second]) not in keys
        assert (every[method], ident[second], ident[first]) not in keys
        assert ways["rank"].tolist() == list(range(1, len(ways["rank"]) + 1))
        assert (np.diff(ways["error_nm"]) >= 0.0).all()
        short, fix = reception.alternative_rows(columns, found, table, rules=0, count=2, year=YEAR)
        assert short["text"].tolist() == ways["text"][:2].tolist() and fix.tolist() == [0, 0]


def test_the_own_way_is_told_where_another_station_has_the_ident():
    """Left out is the station that defines the fix, not every station of its ident."""
    table = {name: np.concatenate([values, values[:1]]) for name, values in _all_working().items()}
    table["lon"][-1], table["decl_deg"][-1] = -19.9, -5.0
    ways, _ = reception.alternative_rows(
        measured(), reception.heard(measured(), table), table, rules=0, count=50, year=YEAR
    )
    assert ("radial_distance", "XQA") in set(zip(ways["method"], ways["navaid"]))


def test_no_navaids_no_ways():
    empty = {name: values[:0] for name, values in NAVAIDS.items()}
    ways, fix = reception.alternative_rows(
        measured(), reception.heard(measured(), empty), empty, rules=0, count=5, year=YEAR
    )
    assert len(fix) == 0 and {len(values) for values in ways.values()} == {0}


# Terrain


class Wall:
    """Flat ground with a wall between two meridians; cells of 0.4 NM."""

    def __init__(self, height_ft: float, unknown=()):
        self.height_ft, self.unknown, self.asked = height_ft, unknown, 0

    def cells(self, lon, lat):
        return np.full(np.shape(lon), 0.4), np.full(np.shape(lon), 0.4 * 2.0**0.5)

    def highest_ft(self, lon, lat):
        self.asked += 1
        out = np.where((lon > -19.85) & (lon < -19.84), self.height_ft, 100.0)
        for west, east in self.unknown:
            out = np.where((lon > west) & (lon < east), np.nan, out)
        return np.where(np.isfinite(lon), out, np.nan)


@pytest.mark.parametrize(
    ("wall", "ok", "said"),
    [
        (Wall(1_000.0), 1, "Terrain: the line from XQA clears it by"),
        (Wall(6_000.0), 0, "above the line to the fix"),
        (Wall(1_000.0, [(-19.9, -19.8)]), None, "The terrain is not known at"),
        (Wall(1_000.0, [(-90.0, 90.0)]), None, "is not known"),
        (Wall(6_000.0, [(-19.8, -19.7)]), 0, "above the line to the fix"),
    ],
)
def test_terrain(wall, ok, said):
    columns = measured()
    rows = reception.test_rows(columns, reception.heard(columns, NAVAIDS), rules=0, terrain=wall)
    assert told(rows, "terrain") == [ok] and told(rows, "line_of_sight") == []
    assert said in dict(zip(rows["test"], rows["text"]))["terrain"]
    assert wall.asked == 1


def test_the_antenna_counts():
    columns = measured()
    found = reception.heard(columns, NAVAIDS)
    low, high = (reception.clearances(found.pairs, Wall(1_000.0), antenna_ft) for antenna_ft in (0.0, 100.0))
    assert 0.0 < float(high.margin_ft[0] - low.margin_ft[0]) < 100.0


def test_no_terrain_is_read_for_beacons():
    columns = {**measured(), "navaid_kind": words("NDB")}
    wall = Wall(6_000.0)
    clearance = reception.clearances(reception.heard(columns, None).pairs, wall, 0.0)
    assert wall.asked == 0 and clearance.samples.tolist() == [0]


def test_a_dme_read_alone_is_seen_from_its_own_place():
    """XQB's DME stands 0.9 NM west of its VOR; a crossing by its arc looks along the line from the DME."""

    class Places(Wall):
        def highest_ft(self, lon, lat):
            self.first = lon[0]
            return super().highest_ft(lon, lat)

    places = Places(0.0)
    found = reception.heard(crossing(0, 1, (0, 1), (60.0, 20.0)), NAVAIDS)
    reception.clearances(found.pairs, places, 0.0)
    assert places.first == pytest.approx(-19.62, abs=1e-9)


def test_a_station_on_no_cell():
    """Outside the raster nothing is known, whatever the size of its cells."""

    class Nowhere:
        def cells(self, lon, lat):
            return np.full(np.shape(lon), np.nan), np.full(np.shape(lon), np.nan)

        def highest_ft(self, lon, lat):
            return np.full(np.shape(lon), np.nan)

    clearance = reception.clearances(reception.heard(measured(), NAVAIDS).pairs, Nowhere(), 0.0)
    assert clearance.code.tolist() == [reasons.NO_TERRAIN]
    assert clearance.missing[0] == clearance.samples[0] == 15


def test_samples_lie_closer_than_half_a_cell():
    class Counted(Wall):
        def highest_ft(self, lon, lat):
            _, _, apart = geodesy.inverse(lon[:-1], lat[:-1], lon[1:], lat[1:])
            self.widest = apart.max()
            return super().highest_ft(lon, lat)

    counted = Counted(0.0)
    reception.clearances(reception.heard(measured(), NAVAIDS).pairs, counted, 0.0)
    assert 0.15 < counted.widest < 0.2
