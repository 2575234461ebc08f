"""Other algorithms as steps of one: run on its own layers in its own thread, quietly, their tables handed back."""

from __future__ import annotations

from qgis.core import QgsFeature, QgsProcessingException, QgsProcessingFeedback, QgsProcessingUtils

from .texts import tr

IN_MEMORY = "memory:"


class _Quiet(QgsProcessingFeedback):
    """Hands warnings and cancel on; counts and progress of a step are not those of the whole."""

    def __init__(self, feedback, name: str):
        super().__init__(False)
        self.feedback, self.name = feedback, name
        feedback.canceled.connect(self.cancel)
        if feedback.isCanceled():
            self.cancel()

    def pushInfo(self, info):
        pass

    def pushWarning(self, warning):
        self.feedback.pushWarning(f"{self.name}: {warning}")

    def reportError(self, error, fatalError=False):
        self.feedback.reportError(f"{self.name}: {error}", False)


def run_step(algorithm, parameters: dict, sinks: tuple[str, ...], context, feedback) -> dict[str, list[QgsFeature]]:
    """Run an algorithm and hand back the features of some of its sinks.

    Parameters: algorithm; parameters but for the sinks; sinks, names of those wanted. Returns: features by sink.
    Errors: QgsProcessingException with the step's own sentence where its parameters are refused or it fails.
    """
    step = algorithm.create()
    quiet = _Quiet(feedback, step.displayName())
    asked = {**parameters, **{name: IN_MEMORY for name in sinks}}
    good, why = step.checkParameterValues(asked, context)
    if not good:
        raise QgsProcessingException(tr("{}: {}").format(step.displayName(), why))
    if not step.prepare(asked, context, quiet):
        raise QgsProcessingException(tr("{} cannot be prepared.").format(step.displayName()))
    results = step.runPrepared(asked, context, quiet)
    found = {}
    for name in sinks:
        layer = QgsProcessingUtils.mapLayerFromString(str(results.get(name, "")), context)
        found[name] = [] if layer is None else list(layer.getFeatures())
    return found
