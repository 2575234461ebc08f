"""What a table of navaids gets wrong or leaves out."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .common.base import FixwrightAlgorithm
from .common.navaidtable import navaid_fields, no_ident
from .common.specs import Number
from .common.texts import tr


class AuditNavaids(FixwrightAlgorithm):
    """Audit navaids."""

    ID = "auditnavaids"
    GROUP = "data"

    def displayName(self):
        return tr("Audit navaids")

    def tags(self):
        return tr("check,declination,variation,frequency,ident,ambiguous,elevation,VOR,DME,NDB,navaid,data").split(",")

    def what(self):
        return tr(
            "Tells what is doubtful in a layer of navaids: the station's declination against the magnetic model, "
            "idents that several navaids within reach share, aids of one site that differ, frequencies that cannot "
            "be, missing elevations and declinations, what is out of service. One row a finding, the gravest first."
        )

    def assumed(self):
        return tr(
            "Fields are found by their names (ident, kind or type, freq, elev_ft, decl_deg, status, id and the like). "
            "A finding is a prompt to look at the state's own publication: stations are out of date by design, and "
            "some are aligned to true north. An empty status counts as in service."
        )

    def cited(self):
        return tr(
            "World Magnetic Model 2025; FAA AIM 1-1-2, 1-1-3 (frequencies); aeronautical glossary, slaved "
            "declination; ICAO Doc 8168 Vol II, I-4-3-App C-13 (slant range); the thresholds are common practice or "
            "chosen here. Each row names its own source."
        )

    def declare(self):
        self.add_source(
            "INPUT",
            tr("Navaids"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("Points with a field ident and, where known, the other fields of the navaids layer, in any CRS."),
        )
        within = tr("How near each other navaids of one ident are told of.")
        self.add(Number("SAME_IDENT_WITHIN", tr("Same ident within"), 0.5, 5000, within, "NM", 300, dynamic=False))
        self.add_date()
        self.add_sink("FINDINGS", "findings")
        self.add_sink("REJECTS", "rejects")

    def check(self, parameters, context):
        return no_ident("INPUT", self.source_fields(parameters, context))

    def compute(self, run):
        import numpy as np

        from ..geometry import audit, wkb
        from ..geometry.navaid_data import reading

        source, day = run.source(), run.day()
        findings = run.sink("FINDINGS")
        run.sink("REJECTS", source.fields())
        texts = navaid_fields(source.fields())
        batches = list(run.batches(run.reader(source, texts=texts, whole_rows=run.keeps_rejects)))
        columns = {name: [cell for rows in batches for cell in rows[name]] for name in texts}
        for name in ("lon", "lat"):
            columns[name] = np.concatenate([getattr(rows, name) for rows in batches] or [np.empty(0)])
        table = reading.read(columns)
        done = 0
        for rows in batches:
            run.settle(rows, table.reasons[done : done + len(rows)])
            done += len(rows)
        found = audit.audit(table.taken(), day.year, same_ident_nm=run.constant("SAME_IDENT_WITHIN"))
        findings.write(found._asdict(), wkb.points(found.lon, found.lat))
