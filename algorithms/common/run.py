"""One run of an algorithm: its inputs read in batches, its sinks, counts, progress and cancel."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

from qgis.core import QgsFields, QgsProcessingException

from .texts import tr


class Run:
    """What an algorithm's compute() works with."""

    def __init__(self, algorithm, parameters: dict, context, feedback):
        self.algorithm, self.parameters, self.context, self.feedback = algorithm, parameters, context, feedback
        self.rows_in = self.rows_out = self.rows_rejected = 0
        self._sinks: dict[str, object] = {}
        self._rejects = None
        # One thread writes while the next batch is read and computed: QGIS lets Python run on in that time. One for
        # all sinks, since several may be tables of one file.
        self._writer = ThreadPoolExecutor(max_workers=1)

    def carry_out(self) -> list[tuple[str, str]]:
        """Do the whole run. Returns: (destination, layer name) of what was written.

        Cancelled before it begins, it writes nothing; if it fails, what was begun is taken away.
        """
        if self.feedback.isCanceled():
            self.feedback.pushInfo(tr("stopped before the first row"))
            return []
        try:
            self.algorithm.compute(self)
            for sink in self._sinks.values():
                sink.close()
        except BaseException:
            for sink in self._sinks.values():
                sink.discard()
            raise
        finally:
            self._writer.shutdown()
        self.feedback.pushInfo(
            tr("{} rows in, {} gave output, {} rejected").format(self.rows_in, self.rows_out, self.rows_rejected)
        )
        return [(sink.destination, sink.schema.name) for sink in self._sinks.values() if sink.destination]

    def results(self) -> dict:
        """What the algorithm returns: outputs by parameter, and the counts."""
        out = {name: sink.destination for name, sink in self._sinks.items() if sink.destination}
        out.update(ROWS_IN=self.rows_in, ROWS_OUT=self.rows_out, ROWS_REJECTED=self.rows_rejected)
        return out

    def source(self, name: str = "INPUT"):
        """An input layer; None for an optional one not given."""
        if name not in self.parameters:
            return None
        source = self.algorithm.parameterAsSource(self.parameters, name, self.context)
        if source is None:
            raise QgsProcessingException(self.algorithm.invalidSourceError(self.parameters, name))
        return source

    def sink(self, name: str, foreign: QgsFields | None = None):
        """Open an output. foreign, the input's fields, pass on where its layer takes them."""
        from .sinks import Sink

        layer = self.algorithm.sinks[name]
        sink = Sink(self.algorithm, self.parameters, self.context, name, layer, foreign, self._writer)
        self._sinks[name] = sink
        if layer == "rejects":
            self._rejects = sink
        return sink

    @property
    def keeps_rejects(self) -> bool:
        """Whether rejected rows are written somewhere."""
        return self._rejects is not None and self._rejects.connected

    def constant(self, name: str):
        """A number or a choice's word that is the same for all rows."""
        return self.algorithm.constant(self.parameters, name)

    def day(self):
        """The day of the magnetic variation."""
        from .dates import read_day

        day, problem = read_day(self.parameters.get("DATE"))
        if problem:
            raise QgsProcessingException(problem)
        return day

    def field(self, parameter: str, source) -> str | None:
        """The field of a source that a field parameter means."""
        return self.algorithm.field(self.parameters, source.fields(), parameter)

    def reader(
        self, source, *, numbers=None, texts=None, whole_rows: bool = True, rows_at_a_time: int | None = None,
        of: str = "INPUT", shapes: bool = False,
    ):  # fmt: skip
        """A reader of the source that also gives every dynamic number and choice of that input as a column.

        shapes: of rows that are no points; their features hold the shapes.
        """
        from .columns import ROWS_AT_A_TIME, Reader, ShapeReader

        specs = [spec for spec in self.algorithm.specs.values() if spec.dynamic and spec.of == of]
        return (ShapeReader if shapes else Reader)(
            source,
            self.context,
            self.algorithm.createExpressionContext(self.parameters, self.context, source),
            numbers=numbers,
            texts=texts,
            parameters={spec: self.parameters.get(spec.name) for spec in specs},
            whole_rows=whole_rows,
            rows_at_a_time=rows_at_a_time or ROWS_AT_A_TIME,
        )

    def batches(self, reader):
        """The reader's batches, with progress after each, until the end or a cancel."""
        total = reader.source.featureCount()
        for rows in reader:
            yield rows
            self.rows_in += len(rows)
            if total > 0:
                self.feedback.setProgress(100.0 * self.rows_in / total)
            if self.feedback.isCanceled():
                self.feedback.pushInfo(
                    tr("stopped after {} of {} rows").format(self.rows_in, total if total >= 0 else tr("unknown"))
                )
                return

    def settle(self, rows, reasons):
        """Close the account of a batch: rejected rows to REJECTS. Returns: indices of the good rows.

        reasons, '' or a sentence for each row; a reason of the reading itself goes before them.
        """
        import numpy as np

        why = np.where(rows.reasons != "", rows.reasons, reasons)
        bad = np.flatnonzero(why != "")
        if len(bad) and self.keeps_rejects:
            columns = {"source_id": [rows.ids[i] for i in bad], "reason": why[bad]}
            self._rejects.write(columns, None, rows.attributes(bad.tolist()))
        self.rows_rejected += len(bad)
        self.rows_out += len(rows) - len(bad)
        return np.flatnonzero(why == "")

    def refuse(self, source_ids: list, reasons: list) -> None:
        """Reject rows of inputs whose fields do not follow in REJECTS: what names each row, and why."""
        if source_ids and self.keeps_rejects:
            self._rejects.write({"source_id": list(source_ids), "reason": list(reasons)})
        self.rows_rejected += len(source_ids)
