"""Navaids out of a CSV file."""

from __future__ import annotations

from qgis.core import (
    QgsFields,
    QgsProcessingException,
    QgsProcessingParameterFile,
    QgsProcessingParameterString,
)

from .common import schema
from .common.base import FixwrightAlgorithm
from .common.texts import tr

ROWS_AT_A_TIME = 5000


class ImportNavaids(FixwrightAlgorithm):
    """Import navaids."""

    ID = "importnavaids"
    GROUP = "data"

    def displayName(self):
        return tr("Import navaids")

    def tags(self):
        return tr("CSV,table,VOR,DME,NDB,TACAN,declination,frequency,navaid,data").split(",")

    def what(self):
        return tr(
            "Reads a table of navaids into the navaids layer. Three forms are known by their headers: a government's "
            "survey table (nav_id, nav_type), the public-domain worldwide table (type, latitude_deg, longitude_deg), "
            "and any table with ident and a position (lat and lon, or position) under our own names. Units, letters "
            "of the hemisphere and kinds are made one; a DME that stands more than 10 m from its VOR keeps a place of "
            "its own; what is doubtful stands in limits."
        )

    def assumed(self):
        return tr(
            "Comma, semicolon or tab, whichever the header has most of. An empty cell is a missing value and nothing "
            "else is: NA is an ident and a country. A frequency without a unit is MHz, of an NDB kHz, and kHz from "
            "1 000 up. Declinations are east positive unless they say W. Repeats of an earlier row are rejected; "
            "source_id of a rejected row counts from 1 below the header."
        )

    def cited(self):
        return tr(
            "FAA NASR, layout of NAV_BASE; column names of the public-domain worldwide table; ICAO Annex 10 Vol I "
            "(channels, from memory); FAA AIM 1-1-2, 1-1-3 (frequencies); aeronautical glossary, slaved declination."
        )

    def declare(self):
        self.add_other(
            QgsProcessingParameterFile(
                "INPUT", tr("CSV file"), fileFilter=tr("Tables (*.csv *.txt *.tsv);;All files (*)")
            ),
            tr("Text with a line of headers and a row a navaid."),
        )
        self.add_other(
            QgsProcessingParameterString("ENCODING", tr("Encoding"), None, False, True),
            tr("Such as utf-8 or latin-1. Not given: UTF-8, and Latin-1 with a warning where the file is none."),
            advanced=True,
        )
        self.add_sink("NAVAIDS", "navaids")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        return self._table(parameters, context)[1]

    def compute(self, run):
        from ..geometry import wkb
        from ..geometry.navaid_data import reading

        table, problem = self._table(run.parameters, run.context)
        if problem:
            raise QgsProcessingException(problem)
        if table.note:
            run.feedback.pushWarning(tr("INPUT: {}").format(table.note))
        fields = QgsFields()
        for header in table.headers:
            fields.append(schema.new_field(header, schema.TEXT))
        navaids, rejects = run.sink("NAVAIDS"), run.sink("REJECTS", fields)
        read = reading.read(table.columns())
        why = [of_cells or of_navaid for of_cells, of_navaid in zip(table.reasons, read.reasons)]
        shapes = wkb.points(read.columns["lon"], read.columns["lat"])
        for start in range(0, len(why), ROWS_AT_A_TIME):
            rows = range(start, min(start + ROWS_AT_A_TIME, len(why)))
            good, bad = [i for i in rows if not why[i]], [i for i in rows if why[i]]
            navaids.write({name: values[good] for name, values in read.columns.items()}, [shapes[i] for i in good])
            rejects.write(
                {"source_id": [str(i + 1) for i in bad], "reason": [why[i] for i in bad]},
                None,
                [table.rows[i] for i in bad],
            )
            run.rows_in += len(rows)
            run.rows_out += len(good)
            run.rows_rejected += len(bad)
            run.feedback.setProgress(100.0 * run.rows_in / len(why))
            if run.feedback.isCanceled():
                run.feedback.pushInfo(tr("stopped after {} of {} rows").format(run.rows_in, len(why)))
                return

    def _table(self, parameters, context):
        """The file as a table, and '' or the sentence that says why it is no table of navaids."""
        from ..geometry.navaid_data import reading
        from .common import csvtable

        path = self.parameterAsFile(parameters, "INPUT", context)
        try:
            table = csvtable.read(path, str(parameters.get("ENCODING", "")).strip())
        except csvtable.TableError as error:
            return None, tr("INPUT is no table of navaids: {}.").format(error)
        try:
            reading.read({header: () for header in table.headers})
        except ValueError as error:
            return None, tr("INPUT is no table of navaids: {}.").format(error)
        return table, ""
