"""The parameters and outputs of the check of guidelines, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterNumber,
)

from ..core.lines.words import WINDS, wind_word
from ..core.text import translate
from .parameters import name_field
from .side_rules import side_labels
from .station_parameters import add_station_parameters

if TYPE_CHECKING:
    from .check_sides import CheckSides

STATED, NONE = "stated", "none"


def add_parameters(to: "CheckSides") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _what(to)
    _asked(to)
    _basis(to)
    _advanced(to)
    _results(to)


def _what(to: "CheckSides") -> None:
    lines = [QgsProcessing.SourceType.TypeVectorLine]
    to.add(
        QgsProcessingParameterFeatureSource(to.LINES, translate("CheckSides", "Lines"), lines),
        translate(
            "CheckSides",
            "The lines that the guidelines should have been laid from, in a projected CRS.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.GUIDELINES, translate("CheckSides", "Guidelines"), lines
        ),
        translate(
            "CheckSides",
            "Lines to check, made here or elsewhere. They must be in the CRS of the lines.",
        ),
    )


def _asked(to: "CheckSides") -> None:
    to.add(
        to.length(
            to.OFFSET, translate("CheckSides", "Offset asked for"), None, optional=True, plan=True
        ),
        translate(
            "CheckSides",
            "Distance that every guideline should keep from its line. Left blank, each guideline's own is taken from the field below, or from a field “signed_offset”; without any, only the sides are checked.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.OFFSET_FIELD,
            translate("CheckSides", "Field with offsets"),
            None,
            to.GUIDELINES,
            optional=True,
        ),
        translate("CheckSides", "Offset of each guideline, as a number or a text; a sign is left out of account."),  # noqa: E501
    )  # fmt: skip
    sides = {
        STATED: translate("CheckSides", "As the guidelines state it"),
        NONE: translate("CheckSides", "Any, but the same all along"),
        **side_labels(),
    }
    to.add(
        to.choice(to.SIDE, translate("CheckSides", "Side asked for"), sides, STATED),
        translate(
            "CheckSides",
            "Where the guidelines should lie. “As the guidelines state it” takes the field below, or a field “side” or “signed_offset” (+ right, - left) of the guidelines. The other choices are the rules for sides of guidelines, judged anew on the lines.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.SIDE_FIELD,
            translate("CheckSides", "Field with sides"),
            None,
            to.GUIDELINES,
            optional=True,
        ),
        translate("CheckSides", "Side of each guideline in the words right and left."),
    )
    to.add(
        to.length(to.TOLERANCE, translate("CheckSides", "Tolerance"), "0.01", plan=True),
        translate(
            "CheckSides",
            "Largest error of the distance that passes, in plan, and the longest stretch on the wrong side that may be rounding.",
        ),
    )


def _basis(to: "CheckSides") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.REFERENCE,
            translate("CheckSides", "Reference"),
            [QgsProcessing.SourceType.TypeVectorAnyGeometry],
            None,
            True,
        ),
        translate("CheckSides", "What the sides toward, away, inside and outside look at."),
    )
    to.add(
        to.surface(to.SURFACE, translate("CheckSides", "Surface"), optional=True),
        translate("CheckSides", "What the sides uphill, downhill, steeper and flatter look at."),
    )
    winds = {word: wind_word(number) for number, word in enumerate(WINDS)}
    to.add(
        to.choice(to.COMPASS, translate("CheckSides", "Compass side"), winds, "north"),
        translate("CheckSides", "The wind that the side faces, for the side compass."),
    )


def _advanced(to: "CheckSides") -> None:
    to.add(
        QgsProcessingParameterField(
            to.LINE_FIELD,
            translate("CheckSides", "Field with the line of each guideline"),
            None,
            to.GUIDELINES,
            optional=True,
        ),
        translate(
            "CheckSides",
            "Name of the line that each guideline belongs to, or its feature id. Left blank, a field “source_id” is used if there is one; without it each guideline belongs to the line it fits best.",
        ),
        advanced=True,
    )
    to.add(
        name_field(
            to.NAME_FIELD, translate("CheckSides", "Field with names of the lines"), to.LINES
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterNumber(
            to.CORNER_LIMIT,
            translate("CheckSides", "Corner limit"),
            Qgis.ProcessingNumberParameterType.Double,
            2.0,
            False,
            1.0,
            100.0,
        ),
        translate(
            "CheckSides",
            "Farthest that the tip of a corner may lie from its line, in offsets, as in the mitre limit of guidelines; the ends of a tip that is cut square there may lie a little farther.",
        ),
        advanced=True,
    )
    add_station_parameters(to, to.LINES)
    to.add(to.vertical_unit(), advanced=True)


def _results(to: "CheckSides") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.OUTPUT,
            translate("CheckSides", "Checked guidelines"),
            QgsProcessing.SourceType.TypeVectorLine,
        ),
        translate(
            "CheckSides",
            "The guidelines with the fields: guideline_id, part, name; line_id, line; result (pass, fail, unclear), flag; side_asked, side (found), offset_asked, offset_min, offset_max (beside the line), offset_mean (signed: + right), corner_max (farthest corner), wrong_share (percent of the length); station_from, station_to and x, y of the place to look at; why.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.PLACES,
            translate("CheckSides", "Places to look at"),
            QgsProcessing.SourceType.TypeVectorPoint,
            None,
            True,
        ),
        translate("CheckSides", "One point for each guideline that does not pass."),
    )
    to.add(
        to.html_output(to.HTML, translate("CheckSides", "Report")),
        translate("CheckSides", "Page with the verdict, what is wrong and where, and sketches."),
    )
    for name, label in {
        "PASS_COUNT": translate("CheckSides", "Number of guidelines that pass"),
        "FAIL_COUNT": translate("CheckSides", "Number of guidelines that fail"),
        "UNCLEAR_COUNT": translate("CheckSides", "Number of guidelines that cannot be judged"),
    }.items():
        to.addOutput(QgsProcessingOutputNumber(name, label))
