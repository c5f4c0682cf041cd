"""The parameters and outputs of stakes, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterBoolean,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterFileDestination,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
)

from ..core.text import translate
from .parameters import name_field
from .station_parameters import add_station_parameters

if TYPE_CHECKING:
    from .stake_points import StakePoints


def add_parameters(to: "StakePoints") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _where(to)
    _heights(to)
    _advanced(to)
    _results(to)


def _where(to: "StakePoints") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.LINES,
            translate("StakePoints", "Lines"),
            [QgsProcessing.SourceType.TypeVectorLine],
        ),
        translate("StakePoints", "Lines to set out, in a projected CRS."),
    )
    to.add(
        to.length(
            to.INTERVAL, translate("StakePoints", "Interval"), "50", optional=True, plan=True
        ),
        translate(
            "StakePoints",
            "Points stand at the stations that are multiples of this, and at both ends. 0 or blank: at the ends only.",
        ),
    )
    also = {
        "vertices": translate("StakePoints", "Vertices"),
        "arcs": translate("StakePoints", "Ends of arcs"),
        "breaks": translate("StakePoints", "Breaks of grade"),
    }
    to.add(
        to.choice(
            to.AT,
            translate("StakePoints", "Also at"),
            also,
            ["breaks"],
            multiple=True,
            optional=True,
        ),
        translate(
            "StakePoints",
            "More places along the line. Ends of arcs are those of true arcs (circular strings); a break of grade is a vertex where the grade along the line changes by the amount below.",
        ),
    )
    to.add(
        QgsProcessingParameterString(
            to.STATION_LIST, translate("StakePoints", "Listed stations"), None, False, True
        ),
        translate(
            "StakePoints",
            "Stations that get a point wherever a line has them, such as 1+12.50, 2+00 in feet or 0+112.500 in metres.",
        ),
    )
    to.add(
        QgsProcessingParameterBoolean(to.ON_LINE, translate("StakePoints", "On the line"), True),
        translate("StakePoints", "Set out the line itself."),
    )
    for name, label in (
        (to.OFFSETS_RIGHT, translate("StakePoints", "Offsets to the right")),
        (to.OFFSETS_LEFT, translate("StakePoints", "Offsets to the left")),
    ):
        to.add(
            to.length(name, label, None, optional=True, many=True, plan=True),
            translate(
                "StakePoints",
                "Distances in plan, several at once, without a minus sign. The side is that of the line, looking from its first to its last vertex.",
            ),
        )


def _heights(to: "StakePoints") -> None:
    sources = {
        "line": translate("StakePoints", "The line"),
        "surface": translate("StakePoints", "The surface"),
    }
    to.add(
        to.choice(to.Z_FROM, translate("StakePoints", "Design heights from"), sources, "line"),
        translate(
            "StakePoints",
            "From the line: every point of a station gives the height of the line there, as a stake set back from the line does. From the surface: the height under the point itself.",
        ),
    )
    to.add(
        to.surface(to.SURFACE, translate("StakePoints", "Surface"), optional=True),
        translate("StakePoints", "The design. It must be in the CRS of the lines."),
    )
    to.add(
        to.length(to.DEPTH, translate("StakePoints", "Depth"), "0"),
        translate(
            "StakePoints",
            "Lowers the design heights: positive is below the line or the surface, a minus sign raises.",
        ),
    )
    to.add(
        to.surface(to.GROUND, translate("StakePoints", "Ground"), optional=True),
        translate(
            "StakePoints",
            "The ground as it is, for cut and fill. It must be in the CRS of the lines.",
        ),
    )


def _advanced(to: "StakePoints") -> None:
    to.add(
        QgsProcessingParameterNumber(
            to.BREAK_CHANGE,
            translate("StakePoints", "Break of grade (percent)"),
            Qgis.ProcessingNumberParameterType.Double,
            0.5,
            False,
            0.001,
        ),
        translate("StakePoints", "Smallest change of the grade along the line that counts."),
        advanced=True,
    )
    to.add(
        name_field(to.NAME_FIELD, translate("StakePoints", "Field with names"), to.LINES),
        advanced=True,
    )
    add_station_parameters(to, to.LINES)
    to.add(to.vertical_unit(), advanced=True)


def _results(to: "StakePoints") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.OUTPUT,
            translate("StakePoints", "Stake points"),
            QgsProcessing.SourceType.TypeVectorPoint,
        ),
        translate(
            "StakePoints",
            "Points at the design height with the fields: number, source_id, line; station (text), station_value; reason (start, end, interval, vertex, arc, break, listed); side, compass_side, signed_offset (+ right, - left), offset (in two styles); east, north; design, ground; cut_fill (ground less design: + cut, - fill), mark (C or F with feet and tenths, or metres); grade_next (percent, + rises) and next_distance; flag, why.",
        ),
    )
    to.add(
        QgsProcessingParameterFileDestination(
            to.CSV, translate("StakePoints", "Table"), "CSV (*.csv)", None, True
        ),
        translate("StakePoints", "The same as a table; columns of numbers name their unit."),
    )
    to.add(
        to.html_output(to.HTML, translate("StakePoints", "Report")),
        translate("StakePoints", "Page with a table for each line, made to be printed."),
    )
    for name, label in {
        "STAKE_COUNT": translate("StakePoints", "Number of points"),
        "CUT_MAX": translate("StakePoints", "Largest cut (unit of heights)"),
        "FILL_MAX": translate("StakePoints", "Largest fill (unit of heights)"),
        "FLAGGED_COUNT": translate("StakePoints", "Number of flagged points"),
    }.items():
        to.addOutput(QgsProcessingOutputNumber(name, label))
