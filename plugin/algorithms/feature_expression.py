"""Values by an expression, feature by feature."""

from typing import Any

from qgis.core import (
    QgsExpression,
    QgsExpressionContext,
    QgsFeatureRequest,
    QgsProcessingFeatureSource,
)

from ..core.errors import UndercourseError
from ..core.text import translate
from ..layers.tables import is_blank


def values_by_expression(
    source: QgsProcessingFeatureSource, text: str, scope: QgsExpressionContext, label: str
) -> dict[int, Any]:
    """Return what the expression gives for each feature id; blank ones are left out.

    ``label`` is what people call the expression, for messages.

    Raises
    ------
    UndercourseError
        The expression cannot be read, or fails on a feature.
    """
    expression = QgsExpression(text)
    if expression.hasParserError():
        why = translate("Base", "{label}: {why}")
        raise UndercourseError(why.format(label=label, why=expression.parserErrorString().strip()))
    scope.setFields(source.fields())
    expression.prepare(scope)
    request = QgsFeatureRequest()
    if not expression.needsGeometry():
        request.setFlags(QgsFeatureRequest.Flag.NoGeometry)
    found: dict[int, Any] = {}
    for feature in source.getFeatures(request):
        scope.setFeature(feature)
        value = expression.evaluate(scope)
        if expression.hasEvalError():
            why = translate("Base", "{label}, feature {id}: {why}")
            raise UndercourseError(
                why.format(label=label, id=feature.id(), why=expression.evalErrorString().strip())
            )
        if not is_blank(value):
            found[feature.id()] = value
    return found
