"""Other algorithms as steps of one: run on its own layers in its own thread, quietly, their tables handed back."""

from __future__ import annotations

from qgis.core import QgsFeature, QgsProcessingException, QgsProcessingFeedback, QgsProcessingUtils

from .texts import tr

IN_MEMORY = "memory:"


class _Quiet(QgsProcessingFeedback):
    """Hands warnings, cancel and its share of the progress on; counts of a step are not those of the whole."""

    def __init__(self, feedback, name: str, between: tuple[float, float]):
        super().__init__(False)
        self.feedback, self.name, self.between = feedback, name, between
        feedback.canceled.connect(self.cancel)
        self.progressChanged.connect(self._hand_on)
        if feedback.isCanceled():
            self.cancel()

    def _hand_on(self, progress: float) -> None:
        low, high = self.between
        self.feedback.setProgress(low + (high - low) * progress / 100.0)

    def pushInfo(self, info):
        pass

    def pushWarning(self, warning):
        self.feedback.pushWarning(f"{self.name}: {warning}")

    def reportError(self, error, fatalError=False):
        self.feedback.reportError(f"{self.name}: {error}", False)


def run_step(
    algorithm, parameters: dict, sinks: tuple[str, ...], context, feedback, between: tuple[float, float] = (0.0, 100.0)
) -> dict[str, list[QgsFeature]]:
    """Run an algorithm and hand back the features of some of its sinks.

    Parameters: algorithm; parameters but for the sinks; sinks, names of those wanted; between, the share of the whole
    progress that is the step's, percent. Returns: features by sink.
    Errors: QgsProcessingException with the step's own sentence where its parameters are refused or it fails.
    """
    step = algorithm.create()
    quiet = _Quiet(feedback, step.displayName(), between)
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
