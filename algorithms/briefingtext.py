"""The column of each hold for a phone, and a row of a logbook."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from qgis.core import QgsProcessing, QgsProcessingParameterString

from .common import holdrows, schema
from .common.fileoutput import FileAlgorithm
from .common.specs import Choice, Number, shown
from .common.texts import caution, tr
from .common.values import field_index, number, text

FORMATS = ("html", "text")
_ENDINGS = {".html": "html", ".htm": "html", ".txt": "text"}
_FILE_ENDINGS = {"html": "html", "text": "txt"}
RELATED = {
    "ENTRIES": ("entries", "hold"), "FLOWN": ("flown", "hold"), "TESTS": ("tests", "hold"), "SLIPS": ("slips", "fix"),
    "FIXES": ("fixes", "fix"), "NAVAIDS": ("navaids", "ident"), "AIRSPACE": ("airspace_contacts", "hold"),
}  # fmt: skip
"""Optional inputs: the layer each is, and the field by which its rows join."""


class BriefingText(FileAlgorithm):
    """Briefing for a phone. column(hold, fix, navaid, tables, least_slip_nm) words a hold as the sheet does."""

    ID = "briefingtext"
    GROUP = "briefing"

    def __init__(self, column: Callable):
        super().__init__()
        self.column = column

    def createInstance(self):
        return type(self)(self.column)

    def displayName(self):
        return tr("Briefing for a phone")

    def tags(self):
        return tr("briefing,phone,html,text,logbook,csv,exercise,spreadsheet").split(",")

    def what(self):
        return tr(
            "Writes what a sheet says of each hold into one file for a phone: a page of HTML that loads nothing and "
            "runs nothing, or plain text. Figures are rounded as on the sheet. LOGBOOK is a CSV file with a row an "
            "exercise, as planned: fix, entry, circuits, times, conditions; cells that a spreadsheet would take for a "
            "formula are made safe, numbers stay numbers. A cancelled or failed run leaves no file and keeps an older "
            "one."
        )

    def assumed(self):
        return tr(
            "Rows of the other layers join on hold, slips on the fix. What is derived in the holds layer is computed "
            "anew from its essentials, for the day in its var_date. A layer that is not given leaves its part out. "
            "The conduct of the exercise is left blank, to be agreed before the flight."
        )

    def cited(self):
        return tr(
            "FAA AIM 5-3-8 and ICAO Doc 8168 (what a hold is flown by, see Design holds); WHATWG HTML; RFC 4180; "
            "OWASP, CSV Injection; the list for the conduct of an exercise is common practice."
        )

    def declare(self):
        self.add_source(
            "INPUT", tr("Holds"), QgsProcessing.SourceType.TypeVectorPoint, tr("The holds layer of Design holds.")
        )
        for name, words in (
            ("ENTRIES", tr("The table entries of Entry sectors.")),
            ("FLOWN", tr("The layer flown of Fly holds in wind: headings, times, circuits with UTC.")),
            ("TESTS", tr("A table of tests of these holds.")),
            ("SLIPS", tr("The table slips, by fix.")),
            ("FIXES", tr("The fixes layer, for what the holds do not know of their fix.")),
            ("NAVAIDS", tr("Navaids, for names and frequencies.")),
            ("AIRSPACE", tr("The table of airspace near, or any with fields hold, text and hours.")),
        ):
            label = tr(schema.LAYERS[RELATED[name][0]].title)
            self.add_source(name, label, QgsProcessing.SourceType.TypeVector, words, optional=True)
        self.add(
            Number("LEAST_SLIP", tr("Least slip"), 0, 400, tr("Slips that move the fix by less are left out."), "NM",
                   default=0.1, dynamic=False, advanced=True)
        )  # fmt: skip
        for name, label, words in (
            ("TITLE", tr("Title"), tr("What stands above all holds. Not given: Training area.")),
            ("NAVAID_DATA", tr("Navaid data"), tr("What and of when the navaid data are. Not given: nothing is said.")),
        ):
            self.add_other(QgsProcessingParameterString(name, label, None, False, True), words)
        self.add(
            Choice("FORMAT", tr("Format"), FORMATS, tr("Not given: by the ending of OUTPUT, else html."),
                   optional=True, dynamic=False)
        )  # fmt: skip
        whole = tr("Its folder must be there. It takes the place of an older one only when it is whole.")
        self.add_file("OUTPUT", tr("File for the phone"), tr("HTML (*.html);;Text (*.txt)"), whole, optional=True)
        self.add_file("LOGBOOK", tr("Logbook"), tr("CSV (*.csv)"), whole, optional=True)
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        if "OUTPUT" not in parameters and "LOGBOOK" not in parameters:
            return tr("Neither OUTPUT nor LOGBOOK is given; give at least one of them.")
        for name, (_, key) in RELATED.items():
            if name in parameters:
                fields = self.source_fields(parameters, context, name)
                if field_index(fields, key) < 0:
                    return tr("{} has no field {} to join the holds by.").format(name, key)
        output = self.wanted_file(parameters, "OUTPUT")
        ending, kind = Path(output).suffix.lower(), self.constant(parameters, "FORMAT")
        if output and kind is None and ending not in _ENDINGS:
            return tr("OUTPUT is {}, whose ending tells no format; give FORMAT, or an ending of {}.").format(
                shown(output), ", ".join(_ENDINGS)
            )
        if output and kind is not None and _ENDINGS.get(ending, kind) != kind:
            return tr("OUTPUT is {}, but FORMAT is {}; make them agree.").format(shown(output), kind)
        logbook = self.wanted_file(parameters, "LOGBOOK")
        if logbook and Path(logbook).suffix.lower() != ".csv":
            return tr("LOGBOOK is {}; its name must end in .csv.").format(shown(logbook))
        return holdrows.missing_fields("INPUT", self.source_fields(parameters, context))

    def compute(self, run):
        from .common import logbook
        from .common.columntext import as_html, as_text

        source = run.source()
        run.sink("REJECTS", source.fields())
        holds = _holds(run, source)
        if run.feedback.isCanceled():
            return
        related = {name: _rows_by(run, name, key) for name, (_, key) in RELATED.items() if name in run.parameters}
        columns, pages = [], []
        for hold in holds:
            tables = {
                RELATED[name][0]: found.get(_key(hold.get(RELATED[name][1])), []) for name, found in related.items()
            }
            fix = next(iter(tables.pop("fixes", [])), {})
            tables.pop("navaids", None)
            navaid = _navaid(hold, related.get("NAVAIDS", {}))
            columns.append(self.column(hold, fix, navaid, tables, run.constant("LEAST_SLIP")))
            pages.append(logbook.row_of(hold, *(tables.get(name, []) for name in ("entries", "flown", "tests"))))
        if not holds:
            run.feedback.pushWarning(tr("No row gave a hold, so there is no file."))
            return
        if "OUTPUT" in run.parameters:
            output = self.wanted_file(run.parameters, "OUTPUT")
            kind = run.constant("FORMAT") or _ENDINGS.get(Path(output).suffix.lower(), FORMATS[0])
            page = {"html": as_html, "text": as_text}[kind]
            data = page(
                str(run.parameters.get("TITLE", "")).strip() or tr("Training area"), columns, _notes(run, holds)
            )
            self.made["OUTPUT"] = {self.place_of(run.parameters, "OUTPUT", _FILE_ENDINGS[kind]): data}
        if "LOGBOOK" in run.parameters:
            self.made["LOGBOOK"] = {self.place_of(run.parameters, "LOGBOOK", "csv"): logbook.encoded(pages)}


def _holds(run, source) -> list[dict]:
    """The good holds as dictionaries of all their fields, the derived ones computed anew."""
    import numpy as np

    from ..geometry import plan
    from .common.dates import read_day

    reader = holdrows.hold_reader(run, source, more_texts=("var_date",))
    today = read_day(None)[0]
    names = [field.name() for field in source.fields()]
    holds = []
    for rows in run.batches(reader):
        columns = holdrows.hold_columns(rows)
        reasons = rows.reasons.copy()
        found: dict[int, dict] = {}
        for day in dict.fromkeys(rows["var_date"].tolist()):
            of_day = np.flatnonzero(rows["var_date"] == day)
            known, problem = read_day(day, "var_date") if day else (today, "")
            if problem:
                reasons[of_day] = np.where(reasons[of_day] != "", reasons[of_day], problem.rstrip("."))
                continue
            made = plan.holds_from_columns({name: column[of_day] for name, column in columns.items()}, known.year)
            reasons[of_day] = np.where(reasons[of_day] != "", reasons[of_day], made.reasons)
            derived = {name: made.columns[name] for name in _DERIVED}
            for k, i in enumerate(of_day.tolist()):
                found[i] = {name: float(column[k]) for name, column in derived.items()}
                found[i]["var_date"] = known.text
        for i in run.settle(rows, reasons).tolist():
            own = _typed(dict(zip(names, rows.features[i].attributes())), "holds")
            holds.append({**own, **found[i]})
    return holds


_DERIVED = (
    "inbound_model_deg", "inbound_station_deg", "outbound_model_deg", "tas_kt", "bank_deg", "rate_dps", "radius_nm",
    "width_nm", "length_nm", "circuit_s", "outbound_end_dme_nm", "lat", "lon", "var_deg",
)  # fmt: skip


def _typed(row: dict, layer: str) -> dict:
    """Attributes as numbers and text, as the layer's schema has them, whatever a text file made of them."""
    kinds = {column.name: column.kind for column in schema.LAYERS[layer].columns} if layer in schema.LAYERS else {}
    return {
        name: text(value) if kinds.get(name, schema.TEXT) == schema.TEXT else number(value)
        for name, value in row.items()
    }


def _rows_by(run, parameter: str, key: str) -> dict[str, list[dict]]:
    """Rows of an optional input by the field that joins them."""
    source = run.source(parameter)
    fields = source.fields()
    index, names = field_index(fields, key), [field.name() for field in fields]
    found: dict[str, list[dict]] = {}
    for feature in source.getFeatures():
        row = _typed(dict(zip(names, feature.attributes())), RELATED[parameter][0])
        found.setdefault(_key(feature[index]), []).append(row)
    return found


def _key(value) -> str:
    return text(value).casefold()


def _navaid(hold: dict, navaids: dict[str, list[dict]]) -> dict:
    """The navaid of a hold's fix: of its ident, the one of its kind, else the first."""
    named = navaids.get(_key(hold.get("navaid")), [])
    kind = _key(hold.get("navaid_kind"))
    return next((one for one in named if kind and _key(one.get("kind")) == kind), named[0] if named else {})


def _notes(run, holds: list[dict]) -> list[str]:
    """Caution, navaid data, day of the variation."""
    days = ", ".join(dict.fromkeys(hold["var_date"] for hold in holds))
    data = str(run.parameters.get("NAVAID_DATA", "")).strip()
    said = [caution(), tr("Variation: World Magnetic Model 2025 of {}.").format(days)]
    return said + ([tr("Navaid data: {}.").format(data.rstrip("."))] if data else [])
