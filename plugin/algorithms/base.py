"""What all algorithms share: texts, parameters, checks, errors, progress and results."""

from pathlib import Path
from typing import Any

from qgis.core import (
    NULL,
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsFields,
    QgsMapLayer,
    QgsProcessingAlgorithm,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
    QgsProcessingOutputMapLayer,
    QgsProcessingParameterDefinition,
)
from qgis.PyQt.QtGui import QIcon

from .. import environment
from ..core.errors import Cancelled, LengthTextError, UndercourseError
from ..core.progress import Progress
from ..core.text import translate
from ..core.units import METRE, LinearUnit, parse_length, parse_lengths
from ..layers.crs import JobUnits, job_units
from ..layers.loading import Style, load_mesh, name_output
from ..layers.sinks import Sink
from ..layers.surfaces import Surface, read_surface
from . import help_text
from . import parameters as shared

_ICONS = Path(__file__).parent.parent / "icons"


class UndercourseAlgorithm(QgsProcessingAlgorithm):
    """Base of the algorithms.

    A subclass gives `name_id`, `group_id`, the texts, ``initAlgorithm``, `prepare` (which reads
    layers, in the main thread) and `run` (which works, in any thread). Bad input is raised in
    either as `UndercourseError`, and reaches the user as that one sentence.
    """

    name_id = ""
    group_id = ""

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

    def prepare(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        """Read the layers; called in the main thread."""

    def run(
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
        if advanced:
            parameter.setFlags(parameter.flags() | Qgis.ProcessingParameterFlag.Advanced)
        if parameter.type() == "fileDestination" and "*.ply" in parameter.fileFilter():
            # As a layer, so that models can hand it to the next surface parameter.
            name, label = parameter.name(), parameter.description()
            self.addParameter(parameter, False)
            self.addOutput(QgsProcessingOutputMapLayer(name, label))
            return
        self.addParameter(parameter)

    def word(self, parameters: dict[str, Any], name: str, context: QgsProcessingContext) -> str:
        """Return the word of a choice; empty when an optional one is blank."""
        return self.parameterAsEnumString(parameters, name, context) or ""

    def words(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> list[str]:
        """Return the words of a multiple choice."""
        return list(self.parameterAsEnumStrings(parameters, name, context))

    def length_value(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        unit: LinearUnit,
    ) -> float | None:
        """Return a length in ``unit``, which it also has when it names none; None when blank."""
        text = self._text(parameters, name, context)
        return parse_length(text, unit) if text else None

    def length_values(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        unit: LinearUnit,
    ) -> list[float]:
        """Return a list of lengths in ``unit``; empty when blank."""
        text = self._text(parameters, name, context)
        return parse_lengths(text, unit) if text else []

    def _text(self, parameters: dict[str, Any], name: str, context: QgsProcessingContext) -> str:
        return (self.parameterAsString(parameters, name, context) or "").strip()

    # --- inputs ------------------------------------------------------------------------------

    def layer_surface(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> Surface | None:
        """Read a surface parameter (in `prepare`); None when an optional one is blank."""
        layer = self.parameterAsLayer(parameters, name, context)
        if layer is None:
            if self._is_blank(parameters, name):
                return None
            raise self._cannot_open(parameters, name)
        kinds = ("tin", "raster")
        accepted = self.parameterDefinition(name).dataTypes()
        if Qgis.ProcessingSourceType.Raster not in accepted:
            kinds = ("tin",)
        elif Qgis.ProcessingSourceType.Mesh not in accepted:
            kinds = ("raster",)
        return Surface(layer.name(), layer.crs(), read_surface(layer, feedback, kinds))

    def source(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> QgsProcessingFeatureSource | None:
        """Return a feature source; None when an optional one is blank."""
        source = self.parameterAsSource(parameters, name, context)
        if source is None and not self._is_blank(parameters, name):
            raise self._cannot_open(parameters, name)
        return source

    def units(
        self,
        of: QgsCoordinateReferenceSystem | QgsMapLayer | QgsProcessingFeatureSource | Surface,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
    ) -> JobUnits:
        """Return the units of the job from the CRS of its design, and VERTICAL_UNIT if any."""
        if isinstance(of, QgsProcessingFeatureSource):
            of = of.sourceCrs()
        elif not isinstance(of, QgsCoordinateReferenceSystem):
            of = of.crs if isinstance(of, Surface) else of.crs()
        has_word = self.parameterDefinition(shared.VERTICAL_UNIT) is not None
        word = self.word(parameters, shared.VERTICAL_UNIT, context) if has_word else ""
        return job_units(of, word or "same")

    def _is_blank(self, parameters: dict[str, Any], name: str) -> bool:
        value = parameters.get(name)
        optional = self.parameterDefinition(name).flags() & Qgis.ProcessingParameterFlag.Optional
        return bool(optional) and (value is None or value in ("", NULL))

    def _cannot_open(self, parameters: dict[str, Any], name: str) -> UndercourseError:
        return UndercourseError(
            translate(
                "Base", "{label}: “{value}” cannot be opened, check the path and the layer name."
            ).format(label=self.parameterDefinition(name).description(), value=parameters.get(name))
        )

    # --- results -----------------------------------------------------------------------------

    def sink(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        fields: QgsFields,
        kind: Qgis.WkbType,
        crs: QgsCoordinateReferenceSystem,
    ) -> Sink | None:
        """Open a feature sink; None when the output was not asked for.

        Everything that can fail is checked before: opening empties an existing file.
        """
        sink, identifier = self.parameterAsSink(parameters, name, context, fields, kind, crs)
        label = self.parameterDefinition(name).description()
        if sink is None:
            if self._is_blank(parameters, name):
                return None
            raise self._cannot_write(parameters, name)
        return Sink(sink, identifier, fields, label)

    def file(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> str | None:
        """Return the path of a file destination; None when it was not asked for."""
        if self._is_blank(parameters, name):
            return None
        path = self.parameterAsFileOutput(parameters, name, context)
        if path and not Path(path).parent.is_dir():
            raise self._cannot_write(parameters, name)
        return path or None

    def raster_file(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> str:
        """Return the path of a raster destination."""
        path = self.parameterAsOutputLayer(parameters, name, context)
        if not path or not Path(path).parent.is_dir():
            raise self._cannot_write(parameters, name)
        return path

    def _cannot_write(self, parameters: dict[str, Any], name: str) -> UndercourseError:
        return UndercourseError(
            translate(
                "Base", "{label}: “{value}” cannot be written, check that its folder exists."
            ).format(label=self.parameterDefinition(name).description(), value=parameters.get(name))
        )

    def named_output(
        self,
        context: QgsProcessingContext,
        destination: str,
        name: str,
        style: Style | None = None,
        group: str = "",
    ) -> None:
        """Name and style a result for when Desktop loads it."""
        name_output(context, destination, name, style, group)

    def load_mesh(
        self,
        parameters: dict[str, Any],
        output: str,
        context: QgsProcessingContext,
        path: str,
        name: str,
        style: Style | None = None,
    ) -> None:
        """Have a written mesh loaded in Desktop, unless it only feeds the next step of a model."""
        load_mesh(context, path, output, name, style)

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
        sentence = environment.problem() or self._check_lengths(parameters, context)
        if sentence is None:
            ok, told = super().checkParameterValues(parameters, context)
            if not ok:
                return False, told
            sentence = self.check(parameters, context)
        return sentence is None, sentence or ""

    def _check_lengths(
        self, parameters: dict[str, Any], context: QgsProcessingContext
    ) -> str | None:
        for parameter in self.parameterDefinitions():
            if not shared.is_length(parameter):
                continue
            text = self._text(parameters, parameter.name(), context)
            if not text:
                continue
            read = parse_lengths if shared.takes_many(parameter) else parse_length
            try:
                read(text, METRE)
            except LengthTextError as error:
                return translate("Base", "{label}: {why}").format(
                    label=parameter.description(), why=error
                )
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
            self.prepare(parameters, context, feedback)
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
            return self.run(parameters, context, feedback)
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
