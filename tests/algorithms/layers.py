"""Small layers and runs for the tests of the algorithms; not a test itself.

Idents and places are invented.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

core = pytest.importorskip("qgis.core", reason="needs QGIS")

NAVAIDS = ("ident:string", "kind:string", "elev_ft:double", "decl_deg:double", "rad:double", "nm:double", "turn:string")
DATE = "2026-09-01"

STATIONS = (
    ((11.25, 48.5), "QZB", "VOR/DME", 1200.0, 2.0, 305.0, 14.0, "right"),
    ((-167.5, 41.4), "QLF", "VORTAC", 1240.0, 11.0, 45.5, 9.0, "left"),
    ((179.95, 10.0), "QAM", "VOR", 30.0, 8.0, 90.0, 20.0, "right"),
)


class Feedback(core.QgsProcessingFeedback):
    """Keeps what was said; cancels itself when told to, or when so many batches are done."""

    def __init__(self, cancel_at: float | None = None):
        super().__init__(False)
        self.lines: list[str] = []
        self.cancel_at = cancel_at
        if cancel_at == 0:
            self.cancel()
        self.progressChanged.connect(self._look)

    def _look(self, progress):
        if self.cancel_at is not None and progress >= self.cancel_at:
            self.cancel()

    def pushInfo(self, text):
        self.lines.append(text)

    def pushWarning(self, text):
        self.lines.append(text)

    def reportError(self, text, fatal=False):
        self.lines.append(text)


@dataclass
class Made:
    """What a run gave: the algorithm's results, and the log's lines."""

    results: dict
    log: list[str]

    @property
    def counts(self) -> tuple[int, int, int]:
        return tuple(self.results[name] for name in ("ROWS_IN", "ROWS_OUT", "ROWS_REJECTED"))

    def layer(self, name: str):
        value = self.results[name]
        return value if isinstance(value, core.QgsVectorLayer) else opened(value)

    def rows(self, name: str) -> list[dict]:
        return rows(self.layer(name))

    def reasons(self) -> dict[str, str]:
        """Reasons of the rejected rows by source id."""
        return {row["source_id"]: row["reason"] for row in self.rows("REJECTS")}


def layer(fields, features, crs="EPSG:4326", kind="Point"):
    """A layer in memory from rows of (place, value, ...): the place as (x, y), WKT or None."""
    named = "&".join(f"field={field}" for field in fields)
    made = core.QgsVectorLayer(f"{kind}?crs={crs}&{named}", "points", "memory")
    assert made.isValid()
    made_features = []
    for place, *values in features:
        feature = core.QgsFeature(made.fields())
        feature.setAttributes(list(values))
        if isinstance(place, str):
            feature.setGeometry(core.QgsGeometry.fromWkt(place))
        elif place is not None:
            feature.setGeometry(core.QgsGeometry(core.QgsPoint(*place)))
        made_features.append(feature)
    assert made.dataProvider().addFeatures(made_features)[0]
    made.updateExtents()
    return made


def stations(**changes):
    """The three stations; changes, field=value, set a field of the second one."""
    names = [field.partition(":")[0] for field in NAVAIDS]
    features = [list(row) for row in STATIONS]
    for name, value in changes.items():
        features[1][1 + names.index(name)] = value
    return layer(NAVAIDS, features)


def opened(source: str):
    made = core.QgsVectorLayer(source, "opened", "ogr")
    assert made.isValid(), source
    return made


def saved(made, path) -> str:
    """Write a layer into a GeoPackage."""
    options = core.QgsVectorFileWriter.SaveVectorOptions()
    options.driverName = "GPKG"
    transforms = core.QgsCoordinateTransformContext()
    error = core.QgsVectorFileWriter.writeAsVectorFormatV3(made, str(path), transforms, options)
    assert error[0] == core.QgsVectorFileWriter.WriterError.NoError, error
    return str(path)


def rows(made) -> list[dict]:
    """Rows as dictionaries, NULL as None, the shape under 'geometry'."""
    out = []
    for feature in made.getFeatures():
        row = {k: None if v == core.NULL else v for k, v in zip(made.fields().names(), feature.attributes())}
        row["geometry"] = feature.geometry()
        out.append(row)
    return out


def algorithm(name: str):
    return core.QgsApplication.processingRegistry().createAlgorithmById(f"fixwright:{name}")


def sinks(name: str) -> list[str]:
    return list(algorithm(name).sinks)


def run(name: str, feedback=None, skip=(), **parameters) -> Made:
    """Run an algorithm as processing.run does, every output in memory that is not given or skipped."""
    import processing

    feedback = feedback or Feedback()
    for sink in sinks(name):
        if sink not in skip:
            parameters.setdefault(sink, "memory:")
    results = processing.run(f"fixwright:{name}", parameters, feedback=feedback)
    return Made(results, feedback.lines)


def refusal(name: str, **parameters) -> str:
    """Why an algorithm refuses parameters; '' where it takes them."""
    context = core.QgsProcessingContext()
    for sink in sinks(name):
        parameters.setdefault(sink, "memory:")
    good, text = algorithm(name).checkParameterValues(parameters, context)
    assert good == (text == "")
    return text


def field(name: str):
    return core.QgsProperty.fromField(name)


def expression(text: str):
    return core.QgsProperty.fromExpression(text)


def of_stations(**more) -> dict:
    """Ordinary parameters of fixradialdistance over stations()."""
    return {"RADIAL": field("rad"), "DISTANCE": field("nm"), "DATE": DATE, **more}


def some_fixes():
    return run("fixradialdistance", INPUT=stations(), **of_stations()).layer("FIXES")


def some_holds(**more):
    return run("designholds", INPUT=some_fixes(), DATE=DATE, **more).layer("HOLDS")


def ordinary(name: str) -> dict:
    """Parameters with which an algorithm gives three rows for three."""
    if name == "fixradialdistance":
        return {"INPUT": stations(), **of_stations()}
    if name == "fixalongtrack":
        return {"INPUT": stations(), "COURSE": field("rad"), "DISTANCE": 9, "SIDE": "beyond", "DATE": DATE}
    if name == "designholds":
        return {"INPUT": some_fixes(), "LEG_MIN": 1, "DATE": DATE}
    if name in ("entrysectors", "flyholds"):
        arrives = {"ARRIVAL_COURSE": 120, "WIND_FROM": 240, "WIND_SPEED": 20, "DATE": DATE}
        return {"INPUT": some_holds(), **arrives}
    assert name == "protectedareas", f"no ordinary parameters for {name} yet"
    return {"INPUT": some_holds()}
