"""The parameters and outputs of pass lines, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
)

from ..core.lines.passes import Fit
from ..core.text import translate
from .parameters import name_field

if TYPE_CHECKING:
    from .pass_lines import PassLines


def add_parameters(to: "PassLines") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _where(to)
    _how(to)
    _advanced(to)
    _results(to)


def _where(to: "PassLines") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.ZONES,
            translate("PassLines", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
        ),
        translate("PassLines", "Areas to drive over, in a projected CRS."),
    )
    to.add(
        to.length(to.WIDTH, translate("PassLines", "Working width"), "8", plan=True),
        translate("PassLines", "Width that one pass covers. Without a unit it is in the unit of the CRS."),  # noqa: E501
    )  # fmt: skip
    to.add(
        QgsProcessingParameterString(
            to.OVERLAP, translate("PassLines", "Overlap"), "0", False, True
        ),
        translate(
            "PassLines",
            "By how much neighbouring passes overlap at least: a length such as 6 in, or a share of the width such as 10 %.",
        ),
    )


def _how(to: "PassLines") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.ALONG,
            translate("PassLines", "Along"),
            [QgsProcessing.SourceType.TypeVectorLine],
            None,
            True,
        ),
        translate(
            "PassLines",
            "Lines that the passes are parallel to; each zone takes the one nearest to it, carried straight on at its ends. Their direction is that of the first pass.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.BEARING,
            translate("PassLines", "Bearing (degrees)"),
            Qgis.ProcessingNumberParameterType.Double,
            None,
            True,
            0.0,
            360.0,
        ),
        translate(
            "PassLines",
            "Direction of the first pass, clockwise from grid north, where no line is given. Blank: along the longer side of each zone.",
        ),
    )
    to.add(
        to.choice(
            to.FIT,
            translate("PassLines", "Spread"),
            {
                str(Fit.EVEN): translate("PassLines", "Evenly between both edges"),
                str(Fit.FIXED): translate("PassLines", "Fixed overlap from the first edge"),
            },
            str(Fit.EVEN),
        ),
        translate(
            "PassLines",
            "Evenly: the outer passes run along both edges, and the overlap grows until the passes fit. Fixed: the overlap is kept from the first edge on, and the last pass overlaps more.",
        ),
    )
    to.add(
        to.choice(
            to.TRAVEL,
            translate("PassLines", "Machine drives"),
            {
                "to_and_fro": translate("PassLines", "To and fro"),
                "one_way": translate("PassLines", "Always the same way"),
            },
            "to_and_fro",
        ),
        translate("PassLines", "To and fro: every other pass is driven back."),
    )
    to.add(
        to.choice(
            to.START_SIDE,
            translate("PassLines", "First pass"),
            {
                "left": translate("PassLines", "On the left"),
                "right": translate("PassLines", "On the right"),
            },
            "left",
        ),
        translate(
            "PassLines", "Side on which it starts, looking in the direction of the first pass."
        ),
    )


def _advanced(to: "PassLines") -> None:
    to.add(
        to.length(to.END_MARGIN, translate("PassLines", "Margin to turn"), "0", plan=True),
        translate("PassLines", "Length left free at both ends of each pass."),
        advanced=True,
    )
    to.add(
        to.surface(to.SURFACE, translate("PassLines", "Surface"), optional=True),
        translate("PassLines", "Gives the passes heights. It must be in the CRS of the zones."),
        advanced=True,
    )
    to.add(
        to.length(to.DEPTH, translate("PassLines", "Depth"), "0"),
        translate("PassLines", "Depth of the passes below the surface; a minus sign raises."),
        advanced=True,
    )
    to.add(
        name_field(to.NAME_FIELD, translate("PassLines", "Field with names"), to.ZONES),
        advanced=True,
    )
    to.add(to.vertical_unit(), advanced=True)


def _results(to: "PassLines") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.OUTPUT,
            translate("PassLines", "Pass lines"),
            QgsProcessing.SourceType.TypeVectorLine,
        ),
        translate(
            "PassLines",
            "Lines in the direction they are driven, with the fields: zone_id, zone, order (in the zone), pass (its number), piece; travel (wind) and bearing; ahead (as the line runs); signed_offset from the line (+ right, - left); width, length.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.LEFT_OVER,
            translate("PassLines", "Left over"),
            QgsProcessing.SourceType.TypeVectorPolygon,
            None,
            True,
        ),
        translate("PassLines", "What no pass covers, with its area."),
    )
    to.add(
        to.html_output(to.HTML, translate("PassLines", "Report")),
        translate("PassLines", "Page with the figures of each zone and a plan."),
    )
    for name, label in {
        "PASS_COUNT": translate("PassLines", "Number of passes"),
        "LENGTH": translate("PassLines", "Length of all passes (CRS unit)"),
        "AREA": translate("PassLines", "Area of the zones (square CRS units)"),
        "COVERED": translate("PassLines", "Area covered (square CRS units)"),
        "LEFT_OVER_AREA": translate("PassLines", "Area left over (square CRS units)"),
        "TWICE": translate("PassLines", "Area covered more than once (square CRS units)"),
    }.items():
        to.addOutput(QgsProcessingOutputNumber(name, label))
