"""What all algorithms share: texts, parameters, checks, errors, progress and results."""

from pathlib import Path
from typing import Any

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProcessingOutputMapLayer,
    QgsProcessingParameterDefinition,
)
from qgis.PyQt.QtGui import QIcon

from .. import environment
from ..core.errors import Cancelled, LengthTextError, UndercourseError
from ..core.progress import Progress
from ..core.text import translate
from ..core.units import METRE, parse_length, parse_lengths
from . import help_text
from . import parameters as shared
from .results import Results

_ICONS = Path(__file__).parent.parent / "icons"


class UndercourseAlgorithm(Results):
    """Base of the algorithms.

    A subclass gives `name_id`, `group_id`, the texts, ``initAlgorithm``, `read` (reads layers,
    in the main thread) and `work` (computes and writes, in any thread). Bad input is raised in
    either as `UndercourseError`, and reaches the user as that one sentence.
    """

    name_id = ""
    group_id = ""

    def __init_subclass__(cls) -> None:
        # QGIS calls methods of these names itself.
        taken = {"run", "prepare"} & cls.__dict__.keys()
        if taken:
            message = f"{cls.__name__} must name its steps read and work, not {taken}"
            raise TypeError(message)

    # --- texts, for subclasses to give -------------------------------------------------------

    def title(self) -> str:
        """Return the name that people see."""
        raise NotImplementedError

    def summary(self) -> str:
        """Return one sentence on what comes out."""
        raise NotImplementedError

    def description(self) -> list[str]:
        """Return the paragraphs of the help, plain text."""
        return [self.summary()]

    def keywords(self) -> list[str]:
        """Return words under which people look for it."""
        return []

    # --- work, for subclasses to give --------------------------------------------------------

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        """Return the sentence that keeps the parameters from running, or None."""
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        """Read the layers; called in the main thread."""

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        """Do the work and return the results by output id."""
        raise NotImplementedError

    # --- parameters --------------------------------------------------------------------------

    surface = staticmethod(shared.surface)
    choice = staticmethod(shared.choice)
    length = staticmethod(shared.length)
    vertical_unit = staticmethod(shared.vertical_unit)
    mesh_output = staticmethod(shared.mesh_output)
    html_output = staticmethod(shared.html_output)

    def add(
        self,
        parameter: QgsProcessingParameterDefinition,
        help: str = "",  # noqa: A002
        *,
        advanced: bool = False,
    ) -> None:
        """Add a parameter with its help, which states the sign convention where there is one."""
        if help:
            parameter.setHelp(help)
        if parameter.type() in {"number", "distance"} and not parameter.metadata():
            parameter.setMetadata({"widget_wrapper": {"decimals": 3}})
        if advanced:
            parameter.setFlags(parameter.flags() | Qgis.ProcessingParameterFlag.Advanced)
        if parameter.type() == "fileDestination" and "*.ply" in parameter.fileFilter():
            # As a layer, so that models can hand it to the next surface parameter.
            name, label = parameter.name(), parameter.description()
            added = self.addParameter(parameter, False)
            added = added and self.addOutput(QgsProcessingOutputMapLayer(name, label))
        else:
            name = parameter.name()
            added = self.addParameter(parameter)
        if not added:
            message = f"{self.name_id} has a parameter {name} already"
            raise ValueError(message)

    def progress(
        self, feedback: QgsProcessingFeedback, start: float = 0.0, stop: float = 1.0
    ) -> Progress:
        """Return a progress that fills a share of the bar and stops the run on Cancel."""

        def report(fraction: float) -> None:
            if feedback.isCanceled():
                raise Cancelled
            share = min(max(fraction, 0.0), 1.0)
            feedback.setProgress(100.0 * (start + (stop - start) * share))

        return report

    def warn(self, feedback: QgsProcessingFeedback, sentence: str) -> None:
        """Put a warning in the log."""
        feedback.pushWarning(sentence)

    # --- what QGIS calls ---------------------------------------------------------------------

    def createInstance(self) -> "UndercourseAlgorithm":
        return type(self)()

    def name(self) -> str:
        return self.name_id

    def displayName(self) -> str:
        return self.title()

    def groupId(self) -> str:
        return self.group_id

    def group(self) -> str:
        return help_text.group_title(self.group_id)

    def shortDescription(self) -> str:
        return self.summary()

    def shortHelpString(self) -> str:
        return help_text.page(self)

    def tags(self) -> list[str]:
        return self.keywords()

    def icon(self) -> QIcon:
        return QIcon(self.svgIconPath())

    def svgIconPath(self) -> str:
        return str(_ICONS / f"{self.name_id}.svg")

    def canExecute(self) -> tuple[bool, str]:
        problem = environment.problem()
        return problem is None, problem or ""

    def checkParameterValues(
        self, parameters: dict[str, Any], context: QgsProcessingContext
    ) -> tuple[bool, str]:
        # `canExecute` is not asked by qgis_process and by scripts.
        sentence = environment.problem()
        for parameter in self.parameterDefinitions() if sentence is None else ():
            sentence = sentence or self._check_one(parameter, parameters, context)
        if sentence is None:
            ok, told = super().checkParameterValues(parameters, context)
            if not ok:
                return False, told
            sentence = self.check(parameters, context)
        return sentence is None, sentence or ""

    def _check_one(
        self,
        parameter: QgsProcessingParameterDefinition,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
    ) -> str | None:
        """Say what is wrong with a value, more plainly than QGIS's own check."""
        name = parameter.name()
        if shared.is_length(parameter):
            text = self.text(parameters, name, context)
            read = parse_lengths if shared.takes_many(parameter) else parse_length
            try:
                _ = read(text, METRE) if text else None
            except LengthTextError as error:
                return shared.about(parameter, str(error))
        elif name in parameters and not self.is_blank(parameters, name):
            labels = shared.choice_labels(parameter)
            if labels and not parameter.checkValueIsAcceptable(parameters[name], context):
                return shared.about(
                    parameter,
                    translate("Base", "“{value}” is not one of: {words}.").format(
                        value=parameters[name], words=", ".join(labels)
                    ),
                )
            files = QgsProcessing.SourceType.TypeFile
            if parameter.type() == "multilayer" and parameter.layerType() != files:
                lost = self.lost_layers(parameters, name, context)
                return str(lost) if lost is not None else None
            if parameter.type() == "layer" and not self.parameterAsLayer(parameters, name, context):
                return str(self.cannot_open(parameters, name))
        return None

    def prepareAlgorithm(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> bool:
        # An error is kept for processAlgorithm: raised here, scripts would lose its sentence.
        self._failure: Exception | None = None
        try:
            self.read(parameters, context, feedback)
        except (UndercourseError, QgsProcessingException, Cancelled) as error:
            self._failure = error
        return True

    def processAlgorithm(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        try:
            if self._failure is not None:
                raise self._failure
            return self.work(parameters, context, feedback)
        except Cancelled:
            return {}
        except UndercourseError as error:
            raise QgsProcessingException(str(error)) from error
        except MemoryError as error:
            raise QgsProcessingException(
                translate(
                    "Base",
                    "There is not enough memory for a design of this size: cut it into parts.",
                )
            ) from error
        except OSError as error:
            raise QgsProcessingException(
                translate("Base", "“{path}” cannot be read or written: {why}.").format(
                    path=error.filename or "", why=error.strerror or error
                )
            ) from error
