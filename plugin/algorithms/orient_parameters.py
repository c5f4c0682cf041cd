"""The parameters of the algorithm that orients lines."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterBoolean,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterNumber,
)

from ..core.lines.orient import DEFAULT_SHARE, Rule
from ..core.text import translate

if TYPE_CHECKING:
    from .orient_lines import OrientLines


def rule_labels() -> dict[str, str]:
    """Return what people see for each rule."""
    return {
        Rule.LONGEST: translate("OrientLines", "As the longest of the pieces that touch"),
        Rule.UP_STATION: translate("OrientLines", "Up-station along the reference"),
        Rule.BEARING: translate("OrientLines", "By a bearing"),
        Rule.CLOCKWISE: translate("OrientLines", "Clockwise"),
        Rule.ANTICLOCKWISE: translate("OrientLines", "Anticlockwise"),
        Rule.DOWNHILL: translate("OrientLines", "Downhill"),
        Rule.UPHILL: translate("OrientLines", "Uphill"),
    }


def add_parameters(to: "OrientLines") -> None:
    """Add all parameters in the order in which the dialog shows them."""
    _lines(to)
    _rule(to)
    _join(to)
    _fine(to)
    _results(to)


def _lines(to: "OrientLines") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.LINES,
            translate("OrientLines", "Lines"),
            [QgsProcessing.SourceType.TypeVectorLine],
        ),
        translate(
            "OrientLines",
            "Lines to give a direction, in a projected CRS. Each part of a multipart line is a line of its own, and a feature of its own in the result.",
        ),
    )


def _rule(to: "OrientLines") -> None:
    to.add(
        to.choice(
            to.RULE,
            translate("OrientLines", "Direction"),
            {str(rule): label for rule, label in rule_labels().items()},
            str(Rule.LONGEST),
        ),
        translate(
            "OrientLines",
            "Longest: the longest piece of each chain of touching pieces sets the direction of all. Up-station: stations along the reference grow along the line. Bearing: within 67.5 degrees of it. Clockwise and anticlockwise, seen from above: closed lines, and open ones that clearly go round. Downhill and uphill: on the surface, or by the heights of the lines.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.REFERENCE,
            translate("OrientLines", "Reference (for up-station)"),
            [QgsProcessing.SourceType.TypeVectorLine],
            None,
            True,
        ),
        translate(
            "OrientLines",
            "Lines whose direction is right, such as an alignment, for the rule up-station. The nearest one counts at each place.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.BEARING,
            translate("OrientLines", "Bearing (degrees clockwise from grid north)"),
            Qgis.ProcessingNumberParameterType.Double,
            0.0,
            False,
            0.0,
            360.0,
        ),
        translate(
            "OrientLines", "For the rule by a bearing: 0 north, 90 east, 180 south, 270 west."
        ),
    )
    to.add(
        to.surface(
            to.SURFACE, translate("OrientLines", "Surface (for downhill, uphill)"), optional=True
        ),
        translate(
            "OrientLines",
            "For the rules downhill and uphill: a mesh, a polygon layer with Z, or a raster, in the CRS of the lines. Left blank, the heights of the lines themselves count.",
        ),
    )


def _join(to: "OrientLines") -> None:
    to.add(
        QgsProcessingParameterBoolean(
            to.JOIN, translate("OrientLines", "Join pieces that touch"), False
        ),
        translate(
            "OrientLines",
            "Makes one line of each chain of pieces, before the rule is tried on it. Ends whose heights differ by more than allowed are flagged and not joined.",
        ),
    )
    to.add(
        to.length(
            to.TOLERANCE, translate("OrientLines", "Ends touch within"), "0.01 ft", plan=True
        ),
        translate(
            "OrientLines",
            "Plan distance between two ends that are meant to be one, for joining and for the rule longest. Joined ends move to the middle between them, an end on an arc stays; the largest move is told.",
        ),
    )


def _fine(to: "OrientLines") -> None:
    to.add(
        to.length(
            to.HEIGHT_TOLERANCE,
            translate("OrientLines", "Greatest difference of heights at a joint"),
            "0.02 ft",
        ),
        translate("OrientLines", "Ends that differ by more are not joined, and are flagged."),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterField(
            to.NAME_FIELD,
            translate("OrientLines", "Field with names"),
            None,
            to.LINES,
            optional=True,
        ),
        translate(
            "OrientLines",
            "What people call each line. Left blank, a field called “name” is used if there is one, else the feature id.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterBoolean(
            to.WITHIN_NAME, translate("OrientLines", "Only pieces of one name touch"), True
        ),
        translate(
            "OrientLines",
            "Keeps a curb from being chained or joined to a walk that it meets. Without a field with names it has no effect.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterNumber(
            to.MIN_SHARE,
            translate("OrientLines", "Least evidence (percent)"),
            Qgis.ProcessingNumberParameterType.Double,
            100.0 * DEFAULT_SHARE,
            False,
            50.0,
            100.0,
        ),
        translate(
            "OrientLines",
            "Of the length that tells a direction this share must agree (of the enclosed area, for lines that go round); otherwise the line is flagged.",
        ),
        advanced=True,
    )
    to.add(to.vertical_unit(), advanced=True)


def _results(to: "OrientLines") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.OUTPUT,
            translate("OrientLines", "Oriented lines"),
            QgsProcessing.SourceType.TypeVectorLine,
        ),
        translate(
            "OrientLines",
            "All lines with their attributes, and what was done: flipped, evidence, flag, why. A field that has one of these names already is kept with “_in” after its name.",
        ),
    )
    to.add(
        to.html_output(to.HTML, translate("OrientLines", "Report")),
        translate("OrientLines", "A page with a plan, and a table of what was turned and flagged."),
    )
    for name, label in (
        ("LINE_COUNT", translate("OrientLines", "Lines read")),
        ("FLIPPED_COUNT", translate("OrientLines", "Lines turned round")),
        ("FLAGGED_COUNT", translate("OrientLines", "Lines flagged")),
        ("JOINED_COUNT", translate("OrientLines", "Pieces joined")),
        ("JOINED_LINES", translate("OrientLines", "Lines made of joined pieces")),
        ("NOT_JOINED_COUNT", translate("OrientLines", "Places where pieces were not joined")),
        ("LARGEST_MOVE", translate("OrientLines", "Largest move of an end")),
    ):
        to.addOutput(QgsProcessingOutputNumber(name, label))
