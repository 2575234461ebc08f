"""What the algorithms share that measure fixes from a layer of navaids or other points."""

from __future__ import annotations

from qgis.core import QgsProcessing

from .base import FixwrightAlgorithm
from .specs import Choice
from .texts import tr

NORTHS = ("station", "model", "true")
DME_SITE = ("dme_lon", "dme_lat", "dme_elev_ft")
"""Fields of the DME's own site, where the input has them."""


class StationAlgorithm(FixwrightAlgorithm):
    """An algorithm whose INPUT are the navaids or points that define fixes."""

    GROUP = "fixes"

    def declare_stations(self) -> None:
        """Add the input and the fields that describe a navaid."""
        self.add_source(
            "INPUT",
            tr("Navaids or points"),
            QgsProcessing.SourceType.TypeVectorPoint,
            tr("Points to measure from, in any CRS."),
        )
        self.add_field("IDENT_FIELD", tr("Ident"), ("ident",), tr("The name a fix is called by."))
        self.add_field(
            "DECLINATION_FIELD",
            tr("Declination"),
            ("decl_deg",),
            tr(
                "How far east of true north the station's own north lies, degrees: a VOR's radials are counted from it."
            ),
        )
        self.add_field("ELEVATION_FIELD", tr("Elevation"), ("elev_ft",), tr("Feet above sea level, for slant ranges."))
        self.add_field(
            "KIND_FIELD",
            tr("Kind of navaid"),
            ("kind", "type"),
            tr("VOR, VOR/DME, VORTAC, TACAN, DME, NDB, NDB/DME or WPT; an NDB has no declination of its own."),
        )

    def add_north(self, dynamic: bool = True) -> None:
        """Add the choice of the north that angles are counted from."""
        self.add(
            Choice(
                "NORTH",
                tr("North"),
                NORTHS,
                tr(
                    "What angles are counted from: the station's own declination, the World Magnetic Model at the "
                    "place and date, or true north."
                ),
                default="station",
                dynamic=dynamic,
            )
        )

    def fields_found(self, parameters: dict, context) -> dict[str, str | None]:
        """The input's fields by what they mean: ident, decl, elev, kind; None where there is none."""
        fields = self.source_fields(parameters, context)
        names = dict(ident="IDENT_FIELD", decl="DECLINATION_FIELD", elev="ELEVATION_FIELD", kind="KIND_FIELD")
        return {key: self.field(parameters, fields, name) for key, name in names.items()}

    def no_declination(self, parameters: dict, context) -> str:
        """The sentence for radials without any declination; '' where there may be one."""
        found = self.fields_found(parameters, context)
        if self.constant(parameters, "NORTH") != "station" or found["decl"] or found["kind"]:
            return ""
        return tr(
            "NORTH is station, but the input has no field with the stations' declination; name it in "
            "DECLINATION_FIELD, or choose model or true."
        )

    def write_fixes(self, run, mark) -> None:
        """Read the input, mark fixes, write them; rejected rows to REJECTS.

        mark(rows, station, naming) gives the FixRows of a batch, one fix a row or, with owner, any number.
        """
        import numpy as np

        from ...geometry import navaids, plan, wkb
        from ...geometry.fixes import Station
        from ...geometry.plan.marking import Naming

        source, day = run.source(), run.day()
        fixes = run.sink("FIXES", source.fields())
        run.sink("REJECTS", source.fields())
        found = self.fields_found(run.parameters, run.context)
        there = [field.name() for field in source.fields()]
        dme = {name: name if name in there else None for name in DME_SITE}
        reader = run.reader(
            source,
            numbers={"decl": found["decl"], "elev": found["elev"], **dme},
            texts={"ident": found["ident"], "kind": found["kind"]},
            whole_rows=fixes.connected or run.keeps_rejects,
        )
        keys = plan.Keys()

        for rows in run.batches(reader):
            known = {word: navaids.clean_kind(word) for word in set(rows["kind"])}
            kind = np.array([known[word] for word in rows["kind"]], dtype=object)
            naming = Naming(rows.names("ident", tr("point {}")), keys, day.text)
            site = [rows[name] for name in DME_SITE]
            made = mark(rows, Station.of(rows.lon, rows.lat, rows["elev"], rows["decl"], kind, *site), naming)
            run.settle(rows, made.row_reasons(len(rows)))
            if fixes.connected:
                owner = np.arange(len(rows)) if made.owner is None else made.owner
                good = np.flatnonzero((made.reasons == "") & (rows.reasons[owner] == ""))
                shapes = wkb.points(made.columns["lon"], made.columns["lat"])
                fixes.write_rows(good, made.columns, shapes, rows, owner)
