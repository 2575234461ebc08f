"""The base of all algorithms: parameters declared once, checked before anything runs, read as columns.

An algorithm says what it takes in declare(), what it refuses besides in check(), and what it does in compute(run).
Imports of numpy and of geometry stay inside methods, so that the provider loads without them.
"""

from __future__ import annotations

from pathlib import Path

from qgis.core import (
    QgsFields,
    QgsProcessing,
    QgsProcessingAlgorithm,
    QgsProcessingException,
    QgsProcessingFeatureSource,
    QgsProcessingOutputNumber,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterEnum,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
    QgsProperty,
    QgsPropertyDefinition,
    QgsWkbTypes,
)
from qgis.PyQt.QtCore import QUrl
from qgis.PyQt.QtGui import QIcon

from . import help as helps
from . import schema, styling
from .libraries import missing_libraries
from .run import Run
from .specs import Choice, Number, not_given, wrong
from .texts import tr
from .values import field_index, given, healed, no_field, number, property_problem

ROOT = Path(__file__).resolve().parents[2]
SHAPEFILE_NAME_LENGTH = 10

GROUPS = {"fixes": "Fixes", "holds": "Holds", "plan": "Plan", "tests": "Tests", "data": "Data", "briefing": "Briefing"}

_DECIMALS = {"ft": 0, "kt": 1, "m": 1}
"""Decimals that dialogs show of a number, by unit; three where it is not here. Values are not rounded."""

_GEOMETRY_TYPES = {
    QgsProcessing.SourceType.TypeVectorPoint: QgsWkbTypes.GeometryType.PointGeometry,
    QgsProcessing.SourceType.TypeVectorLine: QgsWkbTypes.GeometryType.LineGeometry,
    QgsProcessing.SourceType.TypeVectorPolygon: QgsWkbTypes.GeometryType.PolygonGeometry,
}
_SHAPE_WORDS = {
    QgsProcessing.SourceType.TypeVectorPoint: "points",
    QgsProcessing.SourceType.TypeVectorLine: "lines",
    QgsProcessing.SourceType.TypeVectorPolygon: "polygons",
}


class FixwrightAlgorithm(QgsProcessingAlgorithm):
    """An algorithm of Fixwright."""

    ID = ""
    GROUP = ""
    NEEDS: tuple[str, ...] = ("numpy", "pyproj")

    def __init__(self):
        super().__init__()
        self.specs: dict[str, Number | Choice] = {}
        self.sources: dict[str, QgsProcessing.SourceType] = {}
        self.fields: dict[str, tuple[str, tuple[str, ...]]] = {}
        self.sinks: dict[str, str] = {}
        self.outputs: list[tuple[str, str]] = []

    # What a subclass says

    def declare(self) -> None:
        """Add the parameters and sinks."""
        raise NotImplementedError

    def check(self, parameters: dict, context) -> str:
        """Why these (healed) parameters cannot be run, in a sentence, beyond their own ranges; '' if they can."""
        return ""

    def compute(self, run: Run) -> None:
        """Do the work of one run."""
        raise NotImplementedError

    def what(self) -> str:
        """What the algorithm does, a few sentences for the help."""
        raise NotImplementedError

    def assumed(self) -> str:
        """What is assumed for empty values, for the help."""
        raise NotImplementedError

    def cited(self) -> str:
        """Documents and paragraphs behind it, for the help."""
        raise NotImplementedError

    # What QGIS asks for

    def name(self) -> str:
        return self.ID

    def createInstance(self):
        return type(self)()

    def group(self) -> str:
        return tr(GROUPS[self.GROUP])

    def groupId(self) -> str:
        return self.GROUP

    def tr(self, text: str) -> str:
        return tr(text)

    def svgIconPath(self) -> str:
        return str(ROOT / "plugin" / "icons" / f"{self.ID}.svg")

    def icon(self) -> QIcon:
        return QIcon(self.svgIconPath())

    def helpUrl(self) -> str:
        return QUrl.fromLocalFile(str(ROOT / "README.md")).toString()

    def shortDescription(self) -> str:
        return self.what().split(". ")[0].rstrip(".") + "."

    def shortHelpString(self) -> str:
        inputs = [
            (definition.description(), definition.help())
            for definition in self.parameterDefinitions()
            if not definition.isDestination()
        ]
        return helps.compose(self.what(), inputs, list(self.sinks.values()), self.assumed(), self.cited())

    def initAlgorithm(self, config=None):
        self.declare()
        for name, label in (
            ("ROWS_IN", tr("Rows read")),
            ("ROWS_OUT", tr("Rows that gave output")),
            ("ROWS_REJECTED", tr("Rows rejected")),
        ):
            self.addOutput(QgsProcessingOutputNumber(name, label))

    # Parameters

    def add(self, spec: Number | Choice) -> None:
        """Add a number or a choice."""
        if isinstance(spec, Number):
            template = QgsPropertyDefinition.StandardPropertyTemplate.Double
            label = f"{spec.label} ({spec.unit})" if spec.unit else spec.label
            definition = QgsProcessingParameterNumber(
                spec.name, label, QgsProcessingParameterNumber.Type.Double, spec.default, spec.optional,
                spec.minimum, spec.maximum,
            )  # fmt: skip
            decimals = _DECIMALS.get(spec.unit, 3) if spec.decimals is None else spec.decimals
            definition.setMetadata({"widget_wrapper": {"decimals": decimals}})
        else:
            template = QgsPropertyDefinition.StandardPropertyTemplate.String
            default = None if spec.default is None else spec.words.index(spec.default)
            definition = QgsProcessingParameterEnum(
                spec.name, spec.label, list(spec.words), False, default, spec.optional
            )
        if spec.dynamic:
            definition.setIsDynamic(True)
            definition.setDynamicPropertyDefinition(QgsPropertyDefinition(spec.name, spec.label, template))
            definition.setDynamicLayerParameterName(spec.of)
        self.specs[spec.name] = spec
        self.add_other(definition, helps.spec_help(spec), advanced=spec.advanced)

    def add_source(self, name: str, label: str, kind, text: str, optional: bool = False) -> None:
        """Add an input layer of a kind of geometry; its CRS is needed."""
        self.sources[name] = kind
        self.add_other(QgsProcessingParameterFeatureSource(name, label, [kind], None, optional), text)

    def add_field(self, name: str, label: str, found: tuple[str, ...], text: str, source: str = "INPUT") -> None:
        """Add an optional field of an input; not given, the first of the names in found that is there is used."""
        self.fields[name] = (source, found)
        text = f"{text} {tr('Not given: the field {}, if there is one.').format(tr(' or ').join(found))}"
        self.add_other(
            QgsProcessingParameterField(
                name, label, None, source, QgsProcessingParameterField.DataType.Any, False, True
            ),
            text,
        )

    def add_tolerance(self, text: str) -> None:
        """Add the tolerance of drawn curves; text says what it means for the layers that are drawn."""
        label = tr("Tolerance of drawn curves")
        self.add(Number("TOLERANCE", label, 0.1, 1000, text, "m", default=5, dynamic=False, advanced=True))

    def add_date(self) -> None:
        """Add the day whose magnetic variation is used."""
        self.add_other(
            QgsProcessingParameterString("DATE", tr("Date of the magnetic variation"), None, False, True),
            tr("The day for which the World Magnetic Model is taken, such as 2026-09-01. Not given: today (UTC)."),
        )

    def add_sink(self, name: str, layer: str) -> None:
        """Add an output layer; all of them may be skipped."""
        described = schema.LAYERS[layer]
        self.sinks[name] = layer
        self.add_other(
            QgsProcessingParameterFeatureSink(name, tr(described.title), described.source_type, None, True, True),
            helps.sink_help(layer),
        )

    def add_other(self, definition: QgsProcessingParameterDefinition, text: str, advanced: bool = False) -> None:
        """Add any parameter, with its help."""
        definition.setHelp(text)
        if advanced:
            definition.setFlags(definition.flags() | QgsProcessingParameterDefinition.Flag.FlagAdvanced)
        self.addParameter(definition)

    # Values

    def healed(self, parameters: dict) -> dict:
        """A copy of the parameters in the one form that the code reads.

        What is not given is gone; field: and expression: are properties; choices are codes and numbers floats where
        they are allowed ones, and stay as they are where not.
        """
        out = {}
        for name, value in parameters.items():
            if name not in self.sinks:
                value = healed(value)
                if value is None:
                    continue
            out[name] = value
        for name, spec in self.specs.items():
            if name in out and not isinstance(out[name], QgsProperty):
                value = spec.code(out[name]) if isinstance(spec, Choice) else number(out[name])
                out[name] = out[name] if value is None else value
        return out

    def constant(self, parameters: dict, name: str):
        """The constant that a number or a choice has in healed parameters, its default included.

        A choice gives its word. None where it is not given or comes from a field or an expression.
        """
        spec = self.specs[name]
        value = parameters.get(name, spec.default)
        if isinstance(value, QgsProperty):
            return None
        return spec.words[value] if isinstance(spec, Choice) and isinstance(value, int) else value

    def field(self, parameters: dict, fields: QgsFields, name: str) -> str | None:
        """The field that a field parameter means: the one named, else the first of its usual names that is there."""
        there = [field.name() for field in fields]
        wanted = (str(parameters[name]),) if name in parameters else self.fields[name][1]
        for candidate in wanted:
            index = field_index(fields, candidate)
            if index >= 0:
                return there[index]
        return None

    def source_fields(self, parameters: dict, context, name: str = "INPUT") -> QgsFields:
        """The fields of an input layer."""
        return self.parameterAsSource(parameters, name, context).fields()

    def sink_is_wanted(self, parameters: dict, name: str) -> bool:
        """Whether an output was asked for."""
        return given(parameters.get(name))

    # Check

    def checkParameterValues(self, parameters, context):
        problem = missing_libraries(self.NEEDS)
        if problem:
            return False, problem
        values = self.healed(parameters)
        problem = self._spec_problem(values)
        if problem:
            return False, problem
        good, text = super().checkParameterValues(values, context)
        if not good:
            return False, text
        problem = self._source_problem(values, context) or self._date_problem(values) or self._sink_problem(values)
        problem = problem or self.check(values, context)
        return not problem, problem

    def _spec_problem(self, values: dict) -> str:
        """The first number or choice that is not allowed."""
        for name, spec in self.specs.items():
            value = values.get(name)
            if value is None:
                if spec.default is None and not spec.optional:
                    return not_given(spec)
            elif isinstance(value, QgsProperty):
                if not spec.dynamic:
                    return tr("{} takes one value for the whole run, not a field or an expression.").format(name)
            elif isinstance(spec, Choice):
                if spec.code(value) is None:
                    return wrong(spec, value) + "."
            elif number(value) is None or not spec.minimum <= value <= spec.maximum:
                return wrong(spec, value) + "."
        return ""

    def _source_problem(self, values: dict, context) -> str:
        """What is wrong with the input layers, and with the fields that parameters name in them."""
        sources = {}
        for name, kind in self.sources.items():
            if name in values:
                sources[name] = self.parameterAsSource(values, name, context)
                problem = _layer_problem(name, sources[name], kind)
                if problem:
                    return problem
        for name, (source, _) in self.fields.items():
            if name in values and source in sources and self.field(values, sources[source].fields(), name) is None:
                return no_field(name, str(values[name]), sources[source].fields())
        for name, spec in self.specs.items():
            if isinstance(values.get(name), QgsProperty) and spec.of in sources:
                problem = property_problem(name, values[name], sources[spec.of].fields())
                if problem:
                    return problem
        return ""

    def _date_problem(self, values: dict) -> str:
        if self.parameterDefinition("DATE") is None:
            return ""
        from .dates import read_day

        return read_day(values.get("DATE"))[1]

    def _sink_problem(self, values: dict) -> str:
        """A Shapefile cuts field names to ten letters, and later steps would not find them."""
        for name, layer in self.sinks.items():
            value = values.get(name)
            target = value.sink.staticValue() if hasattr(value, "sink") else value
            if not given(target) or not str(target).partition("|")[0].lower().endswith((".shp", ".dbf")):
                continue
            long = [n for n in schema.LAYERS[layer].names if len(n) > SHAPEFILE_NAME_LENGTH]
            if long:
                return tr(
                    "{} is a Shapefile, which cuts field names to {} letters ({} and others would be lost); choose a "
                    "GeoPackage (.gpkg)."
                ).format(name, SHAPEFILE_NAME_LENGTH, long[0])
        return ""

    # Run

    def prepareAlgorithm(self, parameters, context, feedback):
        """Models and scripts may run an algorithm without asking whether its parameters are good."""
        good, text = self.checkParameterValues(parameters, context)
        if not good:
            raise QgsProcessingException(text)
        return True

    def processAlgorithm(self, parameters, context, feedback):
        run = Run(self, self.healed(parameters), context, feedback)
        self.outputs = run.carry_out()
        return run.results()

    def postProcessAlgorithm(self, context, feedback):
        for destination, layer in self.outputs:
            styling.finish_output(destination, schema.LAYERS[layer], context)
        return {}


def _layer_problem(name: str, source: QgsProcessingFeatureSource, kind) -> str:
    """Why a layer cannot be an input of a kind of geometry; '' if it can."""
    if kind not in _GEOMETRY_TYPES:
        return ""
    found = QgsWkbTypes.geometryType(source.wkbType())
    if found not in (_GEOMETRY_TYPES[kind], QgsWkbTypes.GeometryType.UnknownGeometry):
        return tr("{} must have {}; the layer given has {}.").format(
            name, tr(_SHAPE_WORDS[kind]), QgsWkbTypes.displayString(source.wkbType())
        )
    if not source.sourceCrs().isValid():
        return tr("{} has no coordinate reference system; set the layer's own first.").format(name)
    return ""
