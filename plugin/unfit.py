"""What Undercourse shows in Processing where its libraries are missing or broken.

The real algorithms cannot be imported there. These stand in under the same ids, so that the
toolbox, a model and ``qgis_process`` answer with the sentence of `environment.problem` and not
with "algorithm not found".
"""

from qgis.core import QgsProcessingAlgorithm, QgsProcessingException

from .provider import ALGORITHMS, UndercourseProvider


class UnfitAlgorithm(QgsProcessingAlgorithm):
    """Stands in for one algorithm and refuses to run."""

    def __init__(self, name: str, reason: str):
        super().__init__()
        self._name = name
        self._reason = reason

    def createInstance(self):
        return UnfitAlgorithm(self._name, self._reason)

    def name(self):
        return self._name

    def displayName(self):
        return self._name.replace("_", " ").capitalize()

    def shortHelpString(self):
        return self._reason

    def initAlgorithm(self, configuration=None):
        """Ask for nothing: there is nothing to run."""

    def canExecute(self):
        return False, self._reason

    def checkParameterValues(self, parameters, context):
        # qgis_process and processing.run ask here, not in canExecute.
        return False, self._reason

    def processAlgorithm(self, parameters, context, feedback):
        raise QgsProcessingException(self._reason)


class UnfitProvider(UndercourseProvider):
    """Stands in for the provider; ``reason`` is the sentence of `environment.problem`."""

    def __init__(self, reason: str):
        super().__init__()
        self._reason = reason

    def warningMessage(self):
        return self._reason

    def loadAlgorithms(self):
        for name, _ in ALGORITHMS:
            self.addAlgorithm(UnfitAlgorithm(name, self._reason))
