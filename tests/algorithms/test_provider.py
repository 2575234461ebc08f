"""What every algorithm has: a name that stays, group, tags, icon, help, counts; and how every one behaves."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fixwright.tests.algorithms.layers import Feedback, algorithm, core, ordinary, rows, run, sinks

ROW_BY_ROW = ("fixradialdistance", "fixalongtrack", "designholds", "entrysectors", "flyholds", "protectedareas")
"""Algorithms where each input row gives output or a reject."""


@pytest.fixture
def algorithms(provider):
    return list(provider.algorithms())


def test_the_provider(provider, root):
    assert (provider.id(), provider.name()) == ("fixwright", "Fixwright")
    assert Path(provider.svgIconPath()).is_file()
    assert f"version={provider.versionInfo()}\n" in (root / "metadata.txt").read_text(encoding="utf-8")
    assert set(ROW_BY_ROW) <= {a.name() for a in provider.algorithms()}


def test_names_and_groups(algorithms):
    for a in algorithms:
        assert re.fullmatch("[a-z0-9]+", a.name())
        assert a.id() == f"fixwright:{a.name()}"
        assert a.displayName() and a.displayName()[0].isupper()
        assert re.fullmatch("[a-z]+", a.groupId()) and a.group()
        assert len(a.tags()) >= 3 and all(tag.strip() == tag and tag for tag in a.tags())
        assert type(a.create()) is type(a)


def test_icons(algorithms):
    for a in algorithms:
        path = Path(a.svgIconPath())
        assert path.is_file() and path.stem == a.name(), a.name()
        assert not a.icon().isNull()
    assert len({a.svgIconPath() for a in algorithms}) == len(algorithms)


def test_help(algorithms, root):
    headings = ["INPUTS", "OUTPUTS", "WHAT IS ASSUMED", "SOURCES", "CAUTION"]
    for a in algorithms:
        text = a.shortHelpString()
        lines = text.split("\n")
        places = [lines.index(heading) for heading in headings]
        assert places == sorted(places), a.name()
        assert len(text) > 800, a.name()
        assert "not for navigation" in lines[-1]
        assert a.shortDescription().endswith(".") and "\n" not in a.shortDescription()
        assert a.helpUrl() == (root / "README.md").resolve().as_uri()


def test_every_parameter_has_help(algorithms):
    for a in algorithms:
        for definition in a.parameterDefinitions():
            assert len(definition.help()) > 10, (a.name(), definition.name())
            assert definition.description(), (a.name(), definition.name())


def test_numbers_have_ranges_and_choices_list_their_words(algorithms):
    for a in algorithms:
        for spec in a.specs.values():
            definition = a.parameterDefinition(spec.name)
            assert definition.isDynamic() == spec.dynamic
            if definition.type() == "number":
                assert (definition.minimum(), definition.maximum()) == (spec.minimum, spec.maximum)
                assert f"{spec.minimum:.10g} and {spec.maximum:.10g}" in definition.help()
            else:
                assert definition.options() == list(spec.words)
                assert all(f"{i} {word}" in definition.help() for i, word in enumerate(spec.words))


def test_help_says_what_each_field_means(algorithms):
    from fixwright.algorithms.common import schema

    for a in algorithms:
        for name in a.sinks.values():
            for column in schema.LAYERS[name].columns:
                assert f"{column.name}: {column.meaning}" in a.shortHelpString()


def test_all_sinks_are_optional(algorithms):
    for a in algorithms:
        for definition in a.parameterDefinitions():
            if definition.type() == "sink":
                assert definition.flags() & core.QgsProcessingParameterDefinition.Flag.FlagOptional


def test_choices_are_those_of_the_geometry(provider):
    """The words stand in algorithms/ too, since geometry needs numpy and the provider must load without."""
    from fixwright.algorithms import designholds, flyholds, protectedareas
    from fixwright.algorithms.common import holdrows, stations
    from fixwright.geometry import circuit, flown, holds, navaids
    from fixwright.geometry.protection import constructions, icao, icao_speeds

    assert stations.NORTHS == navaids.NORTHS
    assert (designholds.TURNS, designholds.LEG_ENDS, designholds.RULES) == (holds.TURNS, holds.LEG_ENDS, holds.RULES)
    assert holdrows.WORDS == {"rules": holds.RULES, "turn": holds.TURNS, "leg_kind": holds.LEG_KINDS,
                              "leg_end": holds.LEG_ENDS}  # fmt: skip
    assert flyholds.TIMINGS == (circuit.CLOCKS[circuit.ABEAM], circuit.CLOCKS[circuit.LATER_OF_BOTH])
    assert (flyholds.ADJUST, flyholds.MOST_CIRCUITS) == (flown.ADJUST, flown.MOST_CIRCUITS)
    assert protectedareas.CONSTRUCTIONS == tuple(constructions.CONSTRUCTIONS)
    assert (protectedareas.ENTRIES, protectedareas.NAVIGATIONS) == (icao.ENTRIES, icao.NAVIGATIONS)
    assert tuple(protectedareas.CATEGORIES.values()) == icao_speeds.CATEGORIES
    assert [word.lower() or "any" for word in icao_speeds.CATEGORIES] == list(protectedareas.CATEGORIES)


@pytest.mark.parametrize("name", ROW_BY_ROW)
def test_ordinary_run(name):
    made = run(name, **ordinary(name))
    assert made.counts == (3, 3, 0)
    assert made.log[-2 if made.log[-1].startswith("Results") else -1] == "3 rows in, 3 gave output, 0 rejected"
    for sink in sinks(name):
        layer = made.layer(sink)
        if sink not in ("EVENTS", "CONSTRUCTION_LINES", "LINE_VALUES"):
            counts = {"REJECTS": 0, "TRACKS": 12, "SECTORS": 9, "FLOWN": 12, "BY_RULE": 9, "AREAS": 21}
            assert layer.featureCount() == counts.get(sink, 3)
        if sink not in ("REJECTS", "ENTRIES", "LINE_VALUES"):
            assert layer.crs().authid() == "EPSG:4326"
            assert all(row["geometry"].isGeosValid() for row in rows(layer))


@pytest.mark.parametrize("name", ROW_BY_ROW)
def test_layers_have_their_fields_in_order(name):
    from fixwright.algorithms.common import schema

    made = run(name, **ordinary(name))
    layers = algorithm(name).sinks
    for sink in sinks(name):
        described = schema.LAYERS[layers[sink]]
        names = tuple(made.layer(sink).fields().names())
        assert names[: len(described.names)] == described.names
        if not described.takes_foreign:
            assert names == described.names
        assert made.layer(sink).wkbType() == described.wkb_type


def test_geometry_fills_every_field():
    """No field of a layer is left empty because its column has another name in the geometry, or none."""
    import numpy as np

    from fixwright.algorithms.common import schema
    from fixwright.geometry import plan
    from fixwright.geometry.fixes import Station
    from fixwright.geometry.plan.marking import Naming

    station = Station.of([11.25], 48.5, 1200.0, 2.0, "VOR/DME")
    naming = Naming(np.array(["QZB"], dtype=object), plan.Keys(), "2026-09-01")
    fixes = plan.mark_radial_distance(station, naming, 45.0, 9.0, slant=False, alt_ft=4000.0, north=0, year=2026.5)
    empty = ("leg_min", "leg_nm", "ias_kt", "area_ias_kt", "alt_to_ft", "isa_dev_c", "inbound_deg")
    nothing = dict.fromkeys(empty, np.nan)
    codes = dict.fromkeys(("north", "turn", "leg_end", "rules"), -1)
    holds = plan.design_holds(
        fixes.columns, fixes.columns["fix"], plan.Keys(), alt_ft=4000.0, var_date="", year=2026.5, **nothing, **codes
    )
    wind = plan.Wind(np.array([240.0]), np.array([20.0]))
    flights = plan.fly_rows(holds, wind, timing=0, arrival_true_deg=120.0, circuits=1)
    protected = plan.protect(holds, explained=True)
    made = {
        "sectors": plan.sector_rows(holds, 3.0).columns,
        "entries": plan.entry_rows(holds, [0], [120.0], ["course"], wind).columns,
        "flown": plan.flown_rows(flights).columns,
        "events": plan.event_rows(flights)[0],
        "fixes": fixes.columns,
        "holds": holds.columns,
        "patterns": plan.pattern_rows(holds).columns,
        "tracks": plan.track_rows(holds).columns,
        "areas": protected.areas.columns,
        "construction_lines": protected.lines.columns,
        "line_values": protected.values,
    }
    by_the_tests = {"holds": {"failed"}}  # known only when they have run
    for name, columns in made.items():
        assert set(schema.LAYERS[name].names) - by_the_tests.get(name, set()) == set(columns), name


@pytest.mark.parametrize("name", ROW_BY_ROW)
def test_all_outputs_skipped(name):
    made = run(name, skip=sinks(name), **ordinary(name))
    assert made.counts == (3, 3, 0)
    assert not set(sinks(name)) & set(made.results)


@pytest.mark.parametrize("name", ROW_BY_ROW)
def test_one_output_at_a_time_is_the_same(name):
    parameters = ordinary(name)
    whole = run(name, **parameters)
    for sink in sinks(name):
        alone = run(name, skip=set(sinks(name)) - {sink}, **parameters)
        assert _plain(alone.rows(sink)) == _plain(whole.rows(sink))


@pytest.mark.parametrize("name", ROW_BY_ROW)
def test_each_empty_field_is_a_reject_or_an_assumption(name):
    """An empty cell anywhere in the second row: no exception, and the row counts as output or as a reject."""
    parameters = ordinary(name)
    source = parameters.pop("INPUT")
    rejected = set()
    for field in source.fields().names():
        changed = source.clone()
        second = [feature.id() for feature in changed.getFeatures()][1]
        index = changed.fields().indexOf(field)
        original = changed.getFeature(second)[index]
        assert changed.dataProvider().changeAttributeValues({second: {index: None}})
        made = run(name, INPUT=changed, **parameters)
        assert made.counts in ((3, 3, 0), (3, 2, 1)), field
        if made.counts[2]:
            rejected.add(field)
            assert set(made.reasons()) == {str(second)}
        # a clone shares its rows with the original
        assert changed.dataProvider().changeAttributeValues({second: {index: original}})
    essentials = {"hold", "rules", "inbound_true_deg", "turn", "leg_kind", "leg_min", "ias_kt", "area_ias_kt", "alt_ft",
                  "isa_dev_c"}  # fmt: skip
    needed = {
        "fixradialdistance": {"rad", "nm", "decl_deg"},
        "fixalongtrack": {"rad", "decl_deg"},
        "designholds": {"course_true_deg"},
        "entrysectors": essentials,
        "flyholds": essentials,
        "protectedareas": essentials,
    }
    assert rejected == needed[name]


@pytest.mark.parametrize("name", ROW_BY_ROW)
def test_cancelled_at_once(name, tmp_path):
    """Nothing is begun, so nothing half done is left."""
    parameters = ordinary(name)
    for sink in sinks(name):
        parameters[sink] = str(tmp_path / f"{sink}.gpkg")
    made = run(name, feedback=Feedback(cancel_at=0), **parameters)
    assert made.counts == (0, 0, 0)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ROW_BY_ROW)
def test_run_without_asking_first(name):
    """A script may call run() without checkParameterValues: bad parameters are refused all the same."""
    context = core.QgsProcessingContext()
    parameters = {**ordinary(name), "TOLERANCE" if name == "protectedareas" else "DATE": "never"}
    feedback = Feedback()
    results, good = algorithm(name).run(parameters, context, feedback)
    assert not good and not results
    assert any("never" in line for line in feedback.lines)


def _plain(made: list[dict]) -> list[dict]:
    return [{**row, "geometry": row["geometry"].asWkt(9)} for row in made]
