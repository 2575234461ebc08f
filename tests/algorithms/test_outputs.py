"""What is written, where, and what is left when a run stops or fails."""

from __future__ import annotations

import resource

import pytest

from fixwright.tests.algorithms.layers import (
    DATE,
    NAVAIDS,
    STATIONS,
    Feedback,
    algorithm,
    core,
    expression,
    field,
    layer,
    of_stations,
    opened,
    rows,
    run,
    saved,
    some_fixes,
    stations,
)


def test_foreign_fields_pass_into_fixes_holds_and_rejects_only():
    fixes = run("fixradialdistance", INPUT=stations(), **of_stations())
    names = fixes.layer("FIXES").fields().names()
    assert names[-7:] == ["ident", "kind", "elev_ft", "decl_deg", "rad", "nm", "turn"]
    assert fixes.rows("FIXES")[1]["turn"] == "left"
    holds = run("designholds", INPUT=fixes.layer("FIXES"), DATE=DATE)
    assert "ident" in holds.layer("HOLDS").fields().names()
    # a column called turn came with the navaids: the hold's own turn stands
    assert [row["turn"] for row in holds.rows("HOLDS")] == ["right"] * 3
    assert not {"ident", "nm"} & set(holds.layer("PATTERNS").fields().names() + holds.layer("TRACKS").fields().names())


def test_names_that_collide():
    """Ours win, compared without case; of two foreign ones that differ in case the second gets a number; no fid."""
    fields = ("Fix:string", "LIMITS:string", "FID:integer", "note:string", "Note:string", "NOTE_2:string",
              "decl_deg:double")  # fmt: skip
    source = layer(fields, [((11.0, 48.0), "a", "b", 7, "c", "d", "e", 2.0)])
    (row,) = run("fixradialdistance", INPUT=source, RADIAL=90, DISTANCE=10, DATE=DATE).rows("FIXES")
    assert row["fix"].startswith("point 1")
    assert not {"Fix", "LIMITS", "FID", "fid"} & set(row)
    assert (row["note"], row["Note_3"], row["NOTE_2"]) == ("c", "d", "e")
    (row,) = run("fixradialdistance", INPUT=source, RADIAL=expression("-1"), DISTANCE=10, DATE=DATE).rows("REJECTS")
    assert (row["Fix"], row["LIMITS"], row["source_id"]) == ("a", "b", "1")
    assert "FID" not in row


def test_input_with_fid(tmp_path):
    """Twice over the same GeoPackage key, and with a column fid that holds one number for all."""
    source = saved(stations(), tmp_path / "in.gpkg")
    out = str(tmp_path / "out.gpkg")
    made = run("fixradialdistance", INPUT=source, **of_stations(FIXES=out))
    assert made.counts == (3, 3, 0)
    assert [feature.id() for feature in opened(out).getFeatures()] == [1, 2, 3]
    fields = ("fid:integer", *NAVAIDS)
    source = layer(fields, [(place, 5, *rest) for place, *rest in STATIONS])
    made = run("fixradialdistance", INPUT=source, **of_stations(FIXES=str(tmp_path / "again.gpkg")))
    assert made.layer("FIXES").featureCount() == 3


def test_source_id_is_the_feature_id(tmp_path):
    source = saved(stations(rad=400.0), tmp_path / "in.gpkg")
    made = run("fixradialdistance", INPUT=source, **of_stations())
    assert list(made.reasons()) == ["2"]


def test_tables_of_one_geopackage(tmp_path):
    path = tmp_path / "all.gpkg"
    places = {name: f"ogr:dbname='{path}' table=\"{name.lower()}\" (geom)"
              for name in ("HOLDS", "PATTERNS", "TRACKS", "REJECTS")}  # fmt: skip
    made = run("designholds", INPUT=some_fixes(), DATE=DATE, **places)
    assert made.counts == (3, 3, 0)
    counts = {name: opened(f"{path}|layername={name.lower()}").featureCount() for name in places}
    assert counts == {"HOLDS": 3, "PATTERNS": 3, "TRACKS": 12, "REJECTS": 0}


@pytest.mark.parametrize("ending", ["gpkg", "geojson", "fgb", "csv"])
def test_formats(ending, tmp_path):
    out = str(tmp_path / f"out.{ending}")
    made = run("fixradialdistance", INPUT=stations(), **of_stations(FIXES=out))
    assert [row["fix"] for row in made.rows("FIXES")] == ["QZB R305 14.0 NM", "QLF R045.5 9.0 NM", "QAM R090 20.0 NM"]


def test_many_batches(monkeypatch):
    """The same rows whether they come in one batch or in many, keys counted across them."""
    from fixwright.algorithms.common import columns

    source = layer(NAVAIDS, [STATIONS[i % 2] for i in range(23)])
    whole = run("fixradialdistance", INPUT=source, **of_stations())
    monkeypatch.setattr(columns, "ROWS_AT_A_TIME", 4)
    pieces = run("fixradialdistance", INPUT=source, **of_stations())
    assert pieces.counts == (23, 23, 0)
    assert [row["fix"] for row in pieces.rows("FIXES")] == [row["fix"] for row in whole.rows("FIXES")]
    assert len({row["fix"] for row in pieces.rows("FIXES")}) == 23


@pytest.mark.parametrize("target", ["memory:", "{}/out.gpkg"])
def test_cancelled_half_way(target, tmp_path, monkeypatch):
    """Whole batches stay, the counts add up, and the log says how far it came."""
    from fixwright.algorithms.common import columns

    monkeypatch.setattr(columns, "ROWS_AT_A_TIME", 4)
    source = layer(NAVAIDS, [STATIONS[i % 2] for i in range(22)])
    source.dataProvider().changeAttributeValues({2: {4: 400.0}})
    feedback = Feedback(cancel_at=50)
    made = run("fixradialdistance", feedback, INPUT=source, **of_stations(FIXES=target.format(tmp_path)))
    assert made.counts == (12, 11, 1)
    assert made.layer("FIXES").featureCount() == 11
    assert "stopped after 12 of 22 rows" in made.log
    assert "12 rows in, 11 gave output, 1 rejected" in made.log


def test_progress():
    seen = []
    feedback = Feedback()
    feedback.progressChanged.connect(seen.append)
    run("fixradialdistance", feedback, INPUT=stations(), **of_stations())
    assert seen[-1] == 100.0


def test_a_failing_run_leaves_no_file(tmp_path, monkeypatch):
    from fixwright.geometry import plan

    def fails(*args, **more):
        raise ValueError("broken on purpose")

    monkeypatch.setattr(plan, "pattern_rows", fails)
    targets = {name: str(tmp_path / f"{name}.gpkg") for name in ("HOLDS", "PATTERNS", "TRACKS", "REJECTS")}
    with pytest.raises(core.QgsProcessingException, match="broken on purpose"):
        run("designholds", INPUT=some_fixes(), DATE=DATE, **targets)
    assert list(tmp_path.iterdir()) == []


def test_a_failing_run_leaves_the_other_tables(tmp_path, monkeypatch):
    from fixwright.geometry import plan

    path = saved(stations(), tmp_path / "all.gpkg")

    def fails(*args, **more):
        raise ValueError("broken on purpose")

    monkeypatch.setattr(plan, "pattern_rows", fails)
    places = {name: f"ogr:dbname='{path}' table=\"{name.lower()}\" (geom)" for name in ("HOLDS", "PATTERNS")}
    with pytest.raises(core.QgsProcessingException, match="broken on purpose"):
        run("designholds", INPUT=some_fixes(), DATE=DATE, **places)
    assert opened(path).dataProvider().subLayerCount() == 1
    assert len(rows(opened(path))) == 3


@pytest.mark.parametrize("ending", ["gpkg", "geojson"])
@pytest.mark.parametrize("count", [200, 5000])
def test_a_full_disk(count, ending, tmp_path):
    """QGIS tells of a full disk late or not at all: small outputs fail only when the file is closed."""
    source = layer(NAVAIDS, [STATIONS[i % 2] for i in range(count)])
    _, most = resource.getrlimit(resource.RLIMIT_FSIZE)
    out = tmp_path / f"out.{ending}"
    resource.setrlimit(resource.RLIMIT_FSIZE, (120_000, most))  # bytes a file: a write beyond gives an error
    try:
        with pytest.raises(core.QgsProcessingException, match="FIXES"):
            run("fixradialdistance", INPUT=source, **of_stations(FIXES=str(out)))
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    assert list(tmp_path.iterdir()) == []


def test_a_sink_that_cannot_be_made(tmp_path):
    with pytest.raises(core.QgsProcessingException, match="Could not create"):
        run("fixradialdistance", INPUT=stations(), **of_stations(FIXES=str(tmp_path / "no folder" / "out.gpkg")))


# Styles and metadata


def look(made) -> str:
    """What a layer's renderer draws: its kind and the symbol layers."""
    renderer = made.renderer()
    symbols = renderer.symbols(core.QgsRenderContext())
    return " ".join([renderer.type()] + [part.layerType() + str(part.properties()) for s in symbols for part in s])


def styled(name: str, kind: str):
    from fixwright.algorithms.common import schema, styling

    made = layer((), [], kind=kind)
    assert made.loadNamedStyle(str(styling.style_path(schema.LAYERS[name])))[1]
    return made


def test_each_layer_has_its_style():
    from fixwright.algorithms.common import schema, styling

    for described in schema.LAYERS.values():
        if described.geometry == schema.TABLE:
            assert described.style == ""
            continue
        path = styling.style_path(described)
        assert path is not None, described.name
        made = layer((), [], kind=core.QgsWkbTypes.displayString(described.wkb_type))
        message, good = made.loadNamedStyle(str(path))
        assert good, message


def test_style_and_caution_in_the_file(tmp_path):
    path = tmp_path / "holds.gpkg"
    places = {name: f"ogr:dbname='{path}' table=\"{name.lower()}\" (geom)"
              for name in ("HOLDS", "PATTERNS", "TRACKS", "REJECTS")}  # fmt: skip
    run("designholds", INPUT=some_fixes(), DATE=DATE, **places)
    for name in places:
        made = opened(f"{path}|layername={name.lower()}")
        assert "not for navigation" in made.metadata().abstract(), name
        count, _, names, _, _ = made.listStylesInDatabase()
        assert (count > 0 and "default" in names) == (name != "REJECTS"), name
    # whoever opens the file sees the style without asking for it
    assert look(opened(f"{path}|layername=patterns")) == look(styled("patterns", "Polygon"))


def test_caution_and_style_of_a_layer_in_memory():
    made = run("designholds", INPUT=some_fixes(), DATE=DATE).layer("PATTERNS")
    assert "not for navigation" in made.metadata().abstract()
    assert made.metadata().keywords()["fixwright"][0] == "patterns"
    assert look(made) == look(styled("patterns", "Polygon"))


def test_layers_loaded_into_the_project_are_styled(empty_project, tmp_path):
    """As the dialog does it: the outputs are loaded on completion, and their post-processors are still alive."""
    import gc

    context = core.QgsProcessingContext()
    context.setProject(empty_project)
    targets = {}
    for name in ("HOLDS", "PATTERNS"):
        target = "memory:" if name == "HOLDS" else str(tmp_path / "patterns.gpkg")
        targets[name] = core.QgsProcessingOutputLayerDefinition(target, empty_project)
    made = algorithm("designholds").create()
    results, good = made.run({"INPUT": some_fixes(), "DATE": DATE, **targets}, context, Feedback())
    assert good
    del made
    gc.collect()
    waiting = context.layersToLoadOnCompletion()
    assert len(waiting) == 2
    for source, details in waiting.items():
        loaded = core.QgsProcessingUtils.mapLayerFromString(source, context)
        loaded.setMetadata(core.QgsLayerMetadata())
        details.postProcessor().postProcessLayer(loaded, context, Feedback())
        assert "not for navigation" in loaded.metadata().abstract()


def test_empty_text_is_null(tmp_path):
    out = str(tmp_path / "fixes.gpkg")
    run("fixradialdistance", INPUT=stations(), **of_stations(FIXES=out))
    for row in rows(opened(out)):
        assert row["limits"] is None and row["navaid_2"] is None and row["cut_deg"] is None


def test_counts_are_outputs(provider):
    made = algorithm("designholds")
    names = {output.name() for output in made.outputDefinitions()}
    assert {"ROWS_IN", "ROWS_OUT", "ROWS_REJECTED"} <= names


def test_in_a_model(tmp_path):
    """A model hands the layer of one step to the next; a dynamic value inside it is a property."""
    model = core.QgsProcessingModelAlgorithm("two steps", "tests")
    child = core.QgsProcessingModelChildAlgorithm("fixwright:fixradialdistance")
    source = core.QgsProcessingModelParameter("navaids")
    model.addModelParameter(core.QgsProcessingParameterFeatureSource("navaids", "Navaids"), source)
    static = core.QgsProcessingModelChildParameterSource.fromStaticValue
    child.setChildId("fix")
    child.addParameterSources("INPUT", [core.QgsProcessingModelChildParameterSource.fromModelParameter("navaids")])
    child.addParameterSources("RADIAL", [static(field("rad"))])
    child.addParameterSources("DISTANCE", [static(10)])
    child.addParameterSources("DATE", [static(DATE)])
    model.addChildAlgorithm(child)
    hold = core.QgsProcessingModelChildAlgorithm("fixwright:designholds")
    hold.setChildId("hold")
    hold.addParameterSources("INPUT", [core.QgsProcessingModelChildParameterSource.fromChildOutput("fix", "FIXES")])
    hold.addParameterSources("DATE", [static(DATE)])
    output = core.QgsProcessingModelOutput("holds")
    output.setChildId("hold")
    output.setChildOutputName("HOLDS")
    hold.setModelOutputs({"holds": output})
    model.addChildAlgorithm(hold)
    # only what the model or a later child needs is made; the rest is skipped
    context, feedback = core.QgsProcessingContext(), Feedback()
    out = str(tmp_path / "holds.gpkg")
    results, good = model.run({"navaids": stations(), "hold:holds": out}, context, feedback)
    assert good, feedback.lines
    assert [row["hold"] for row in rows(opened(out))][0] == "QZB R305 10.0 NM"
