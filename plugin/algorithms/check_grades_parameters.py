"""The parameters and outputs of the check of grades, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterFile,
    QgsProcessingParameterString,
)

from ..core.measure.grade_rules import Measure
from ..core.text import translate
from .parameters import name_field
from .zone_parameters import PRIORITY_FIELD, add_snap_parameter

if TYPE_CHECKING:
    from .check_grades import CheckGrades

_ANY = Qgis.ProcessingFieldParameterDataType.Any


def add_parameters(to: "CheckGrades") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _what(to)
    _limits(to)
    _gutters(to)
    _advanced(to)
    _results(to)


def measure_labels() -> dict[str, str]:
    """Return what people read for each measure of a grade."""
    return {
        str(Measure.MAX_SLOPE): translate("CheckGrades", "Steepest slope"),
        str(Measure.ALONG): translate("CheckGrades", "Along the lines"),
        str(Measure.ACROSS): translate("CheckGrades", "Across the lines (cross slope)"),
    }


def _what(to: "CheckGrades") -> None:
    to.add(
        to.surface(to.DESIGN, translate("CheckGrades", "Design")),
        translate(
            "CheckGrades",
            "The surface whose grades are checked: a mesh layer, a polygon layer with heights (triangles or planar faces), or a raster. Its CRS must be projected.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.ZONES,
            translate("CheckGrades", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
            None,
            True,
        ),
        translate(
            "CheckGrades",
            "Polygons that are judged one by one. The faces of the design are cut along their borders. Left blank, the whole design is one zone. Zones in another CRS are moved to that of the design.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.LINES,
            translate("CheckGrades", "Lines of travel"),
            [QgsProcessing.SourceType.TypeVectorLine],
            None,
            True,
        ),
        translate(
            "CheckGrades",
            "Lines that grades along and across are measured by: each face is seen in the direction of the nearest line at its centre. Needed for these two only. Which way a line is drawn does not matter.",
        ),
    )


def _limits(to: "CheckGrades") -> None:
    to.add(
        QgsProcessingParameterString(
            to.RULE, translate("CheckGrades", "Rules for all"), None, False, True
        ),
        translate(
            "CheckGrades",
            "Names of rules, with commas between several: ada_walk_running, ada_walk_cross, ada_ramp_running, ada_ramp_cross, ada_counter_slope, ada_flare, ada_parking, prowag_route_grade, prowag_route_cross, prowag_ramp_running, prowag_gutter_break. A rule says what is measured, its limit, and where it comes from. It holds for zones without one of their own.",
        ),
    )
    to.add(
        _zone_field(to, to.RULE_FIELD, translate("CheckGrades", "Field with the rules of each zone")),
        translate("CheckGrades", "Holds one or several names of rules for each zone; zones where it is blank are judged by the rules for all, or else by the grades below."),  # noqa: E501
    )  # fmt: skip
    to.add(
        to.choice(
            to.ALONG,
            translate("CheckGrades", "Grades are measured"),
            measure_labels(),
            str(Measure.MAX_SLOPE),
        ),
        translate(
            "CheckGrades",
            "What the least and the greatest grade hold for; rules say it themselves. The steepest slope is that of the face in any direction. All grades are judged by their size: up or down, left or right makes no difference.",
        ),
    )
    to.add(
        QgsProcessingParameterString(
            to.MAX_GRADE, translate("CheckGrades", "Greatest grade"), None, False, True
        ),
        translate(
            "CheckGrades",
            "Limit for zones without a rule: 2 %, 1:48 (rise to run), 1 in 20, 3:1 (run to rise); a number alone is percent. 1:48 is 2.083 %, which is neither 2 % nor 2.1 %.",
        ),
    )
    to.add(
        QgsProcessingParameterString(
            to.MIN_GRADE, translate("CheckGrades", "Least grade"), None, False, True
        ),
        translate(
            "CheckGrades",
            "Least grade for zones without a rule, such as what water needs to drain; written as the greatest one.",
        ),
    )
    to.add(
        _zone_field(
            to, to.MAX_FIELD, translate("CheckGrades", "Field with the greatest grade of each zone")
        ),
        translate(
            "CheckGrades",
            "Numbers in percent, or texts such as 1:48; zones where it is blank get the greatest grade above.",
        ),
        advanced=True,
    )
    to.add(
        _zone_field(
            to, to.MIN_FIELD, translate("CheckGrades", "Field with the least grade of each zone")
        ),
        translate(
            "CheckGrades",
            "Numbers in percent, or texts such as 1:200; zones where it is blank get the least grade above.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterString(
            to.NEAR, translate("CheckGrades", "Margin for near misses"), "0.1 %"
        ),
        translate(
            "CheckGrades",
            "What passes with less than this to spare is marked near, as a class of its own: it holds the limit in the design, but leaves little for building it. What fails by less is marked just, and still fails. The verdict itself forgives nothing but the rounding of coordinates.",
        ),
    )


def _gutters(to: "CheckGrades") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.GUTTERS,
            translate("CheckGrades", "Gutter lines"),
            [QgsProcessing.SourceType.TypeVectorLine],
            None,
            True,
        ),
        translate(
            "CheckGrades",
            "Lines along edges of a TIN across which the change of grade is checked, such as the bottom of the gutter in front of curb ramps: the grade on one side less that on the other, walking straight across. With rules of the measure break it is checked where such a line meets a zone with that rule; without, all along the lines.",
        ),
    )
    to.add(
        QgsProcessingParameterString(
            to.MAX_CHANGE,
            translate("CheckGrades", "Greatest change of grade at gutters"),
            None,
            False,
            True,
        ),
        translate(
            "CheckGrades",
            "As 13.3 %. Left blank, it is that of the first rule with the measure break: of those that come with the plugin, prowag_gutter_break.",
        ),
        advanced=True,
    )
    to.add(
        to.length(
            to.GUTTER_WIDTH,
            translate("CheckGrades", "Edges follow a gutter line within"),
            "5 mm",
            plan=True,
        ),
        translate(
            "CheckGrades", "An edge of the design lies on a gutter line when it is no farther away than this all along."  # noqa: E501
        ),
        advanced=True,
    )  # fmt: skip


def _advanced(to: "CheckGrades") -> None:
    to.add(
        to.length(
            to.REACH,
            translate("CheckGrades", "Farthest line that counts"),
            None,
            optional=True,
            plan=True,
        ),
        translate(
            "CheckGrades",
            "Faces whose centre lies farther from any line are not checked along and across, and their area is told. Left blank, the nearest line counts however far it is.",
        ),
        advanced=True,
    )
    to.add(
        to.length(
            to.NARROW,
            translate("CheckGrades", "Areas narrower than this do not count"),
            "5 mm",
            plan=True,
        ),
        translate(
            "CheckGrades",
            "Where the border of a zone runs a hair beside the line it is meant to follow, a sliver of the next face lies in the zone. Such areas are told, but do not make a zone fail. Measured as mean width: twice the area over the perimeter.",
        ),
        advanced=True,
    )
    to.add(
        to.length(
            to.ROUNDING,
            translate("CheckGrades", "Coordinates are rounded to"),
            None,
            optional=True,
            plan=True,
        ),
        translate(
            "CheckGrades",
            "The last digit of the coordinates in the file that the design came from, 0.001 for three decimals. A grade passes when it would pass with the coordinates off by half of that. Left blank, nothing but the digits of the numbers themselves is allowed for.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterFile(
            to.RULES,
            translate("CheckGrades", "Rule file"),
            extension="csv",
            optional=True,
        ),
        translate(
            "CheckGrades",
            "A table of rules of your own instead of those of the plugin: CSV with the columns name, measure (max_slope, along, across, break), min, max, source, note.",
        ),
        advanced=True,
    )
    to.add(
        name_field(
            to.NAME_FIELD, translate("CheckGrades", "Field with names of the zones"), to.ZONES
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterField(
            PRIORITY_FIELD,
            translate("CheckGrades", "Field with the priority of each zone"),
            None,
            to.ZONES,
            Qgis.ProcessingFieldParameterDataType.Numeric,
            False,
            True,
        ),
        translate(
            "CheckGrades",
            "Where zones overlap, the one with the lower number wins (1 before 2). Without it an overlap stops the run.",
        ),
        advanced=True,
    )
    add_snap_parameter(to)
    to.add(to.vertical_unit(), advanced=True)


def _results(to: "CheckGrades") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.OUTPUT,
            translate("CheckGrades", "Areas that fail or nearly fail"),
            QgsProcessing.SourceType.TypeVectorPolygon,
        ),
        translate(
            "CheckGrades",
            "Joined areas with the fields: zone_id, zone, rule, measure; result (fail, near, or thin for slivers that do not count); flag (steep, just_steep, near_steep, flat, just_flat, near_flat); grade_min, grade_max, grade_mean (by area), limit_min, limit_max, over (by how much the worst place misses the limit, minus with that to spare), all in percent; area, width; x, y of the worst place; why.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.BREAKS,
            translate("CheckGrades", "Changes of grade at gutters"),
            QgsProcessing.SourceType.TypeVectorLine,
            None,
            True,
        ),
        translate(
            "CheckGrades",
            "Edges on the gutter lines with the fields: zone_id, zone, rule, result (pass, near, fail), flag; change, grade_left, grade_right (going away from the edge, + rises), limit_max, over, in percent; length; why.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.SUMMARY,
            translate("CheckGrades", "Summary by zone"),
            QgsProcessing.SourceType.TypeVector,
            None,
            True,
        ),
        translate(
            "CheckGrades",
            "A table with one row for each zone and limit: zone_id, zone, rule, source, measure, limit_min, limit_max, result (pass, near, fail, unchecked); area, area_checked, fail_area, fail_share (percent of the area checked), just_area, near_area, thin_area; grade_min, grade_max, grade_mean (by area); worst, x, y (the worst place); length_checked, length_fail (of gutters); verdict.",
        ),
    )
    to.add(
        to.html_output(to.HTML, translate("CheckGrades", "Report")),
        translate(
            "CheckGrades", "Page with the verdict on each zone, a plan, the rules with their sources, and all figures."  # noqa: E501
        ),
    )  # fmt: skip
    for name, label in {
        "PASS_COUNT": translate("CheckGrades", "Number of verdicts that pass"),
        "NEAR_COUNT": translate("CheckGrades", "Number of verdicts that pass with little to spare"),
        "FAIL_COUNT": translate("CheckGrades", "Number of verdicts that fail"),
        "UNCHECKED_COUNT": translate("CheckGrades", "Number of verdicts that cannot be given"),
        "AREA_CHECKED": translate("CheckGrades", "Area checked (square CRS units)"),
        "FAIL_AREA": translate("CheckGrades", "Area that fails (square CRS units)"),
        "FAIL_LENGTH": translate("CheckGrades", "Length of gutters that fails (CRS units)"),
        "LARGEST_MOVE": translate("CheckGrades", "Largest move of a zone border (CRS units)"),
    }.items():
        to.addOutput(QgsProcessingOutputNumber(name, label))


def _zone_field(to: "CheckGrades", name: str, label: str) -> QgsProcessingParameterField:
    return QgsProcessingParameterField(name, label, None, to.ZONES, _ANY, False, True)
