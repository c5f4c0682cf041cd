"""What reading any vector source has in common: request, units of the job, what is skipped."""

from collections.abc import Iterator, Sequence
from typing import Any

from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransformContext,
    QgsFeature,
    QgsFeatureRequest,
    QgsProcessingContext,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
    QgsVectorLayer,
)

from ..core.errors import Cancelled, UndercourseError
from ..core.text import translate
from .crs import describe_crs, same_plan
from .tables import Source, field_indices

_ASK_EVERY = 256


class Reading:
    """One pass over the features of a source, with geometry in the CRS of the job.

    Parameters
    ----------
    source
        Layer or feature source.
    names
        Fields to read.
    crs
        CRS of the job; a source in another one is moved in plan, its heights stay.
    context, feedback
        Of the run; both may be missing.
    name
        What the user calls the input.
    judged
        Whether the caller refuses invalid geometries itself, and says where they are: QGIS then
        need not stop at them. Leaving them out stays the user's choice.
    """

    def __init__(
        self,
        source: Source,
        names: Sequence[str] = (),
        *,
        crs: QgsCoordinateReferenceSystem | None = None,
        context: QgsProcessingContext | None = None,
        feedback: QgsProcessingFeedback | None = None,
        name: str = "",
        judged: bool = False,
    ) -> None:
        self.source = source
        self._judged = judged
        self.name = name or _name(source)
        self.feedback = feedback
        self.columns: dict[str, list[Any]] = {field: [] for field in names}
        self._indices = field_indices(source.fields(), names, self.name)
        self._request = QgsFeatureRequest().setSubsetOfAttributes(self._indices)
        own = source.crs() if isinstance(source, QgsVectorLayer) else source.sourceCrs()
        if crs is not None and crs.isValid() and own.isValid() and not same_plan(own, crs):
            self._request.setDestinationCrs(crs, _transforms(context))
            self.warn(
                translate(
                    "Layers",
                    "“{name}” is in {own} and was moved to {crs} in plan; its heights were left as they are.",
                ).format(name=self.name, own=describe_crs(own), crs=describe_crs(crs))
            )
        self._empty: list[int] = []

    def features(self) -> Iterator[QgsFeature]:
        """Yield the features that have a geometry; count the others."""
        total = max(self.source.featureCount(), 1)
        for number, feature in enumerate(self._all()):
            if self.feedback is not None and number % _ASK_EVERY == 0:
                if self.feedback.isCanceled():
                    raise Cancelled
                self.feedback.setProgress(5.0 * number / total)
            if not feature.hasGeometry() or feature.geometry().isEmpty():
                self._empty.append(feature.id())
                continue
            yield feature

    def _all(self) -> Iterator[QgsFeature]:
        stops = QgsFeatureRequest.InvalidGeometryCheck.GeometryAbortOnInvalid
        source = self.source
        if (
            self._judged
            and isinstance(source, QgsProcessingFeatureSource)
            and source.invalidGeometryCheck() == stops
        ):
            unchecked = Qgis.ProcessingFeatureSourceFlag.SkipGeometryValidityChecks
            return source.getFeatures(self._request, unchecked)
        return source.getFeatures(self._request)

    def keep(self, feature: QgsFeature) -> None:
        """Append the wanted attributes of a feature to the columns."""
        for column, index in zip(self.columns.values(), self._indices, strict=True):
            column.append(feature.attribute(index))

    def finish(self) -> None:
        """Say which features were left out."""
        if self._empty:
            self.warn(
                translate(
                    "Layers",
                    "“{name}”: {count} features have no geometry and were left out: {ids}.",
                ).format(name=self.name, count=len(self._empty), ids=listed(self._empty))
            )

    def warn(self, sentence: str) -> None:
        """Hand a sentence to the log of the run."""
        if self.feedback is not None:
            self.feedback.pushWarning(sentence)

    def refuse(self, feature: int, why: str) -> UndercourseError:
        """Return the error about one feature."""
        return UndercourseError(
            translate("Layers", "“{name}”, feature {id}: {why}").format(
                name=self.name, id=feature, why=why
            )
        )


def listed(ids: Sequence[int], most: int = 10) -> str:
    """Return ids as text, the first few of many."""
    text = ", ".join(str(identifier) for identifier in list(ids)[:most])
    return text if len(ids) <= most else text + ", ..."


def _transforms(context: QgsProcessingContext | None) -> QgsCoordinateTransformContext:
    return QgsCoordinateTransformContext() if context is None else context.transformContext()


def _name(source: Source) -> str:
    return source.name() if isinstance(source, QgsVectorLayer) else source.sourceName()
