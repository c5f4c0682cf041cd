"""The parameters and outputs of the check of a design, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterExpression,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
)

from ..core.measure.issues import CODES, code_title
from ..core.text import translate
from ..core.tin.spikes import SPREAD, STEEP
from .parameters import name_field

if TYPE_CHECKING:
    from .check_design import CheckDesign


def add_parameters(to: "CheckDesign") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    to.add(
        to.surface(to.DESIGN, translate("CheckDesign", "Design")),
        translate(
            "CheckDesign",
            "The surface to check: a design, existing ground, or a depth surface (can it drain?). A mesh layer, a polygon layer with heights, or a raster of up to 4 million pixels, which is triangulated between the centres of its pixels. Its CRS must be projected.",
        ),
    )
    _zones(to)
    _limits(to)
    to.add(to.vertical_unit(), advanced=True)
    _results(to)


def _zones(to: "CheckDesign") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.ZONES,
            translate("CheckDesign", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
            None,
            True,
        ),
        translate(
            "CheckDesign",
            "Polygons that are to be used with the design, checked for overlaps, gaps, and ground past the design. Zones in another CRS are moved to that of the design.",
        ),
    )
    to.add(
        QgsProcessingParameterExpression(
            to.WATER, translate("CheckDesign", "Zones meant to hold water"), None, to.ZONES, True
        ),
        translate(
            "CheckDesign",
            "An expression that is true for zones in which water is meant to stand, for example \"name\" = 'Rain garden'. A pond that lies in them (99 % of it) is a note and not a finding; one that reaches past them is a finding.",
        ),
    )
    to.add(
        name_field(to.NAME_FIELD, translate("CheckDesign", "Field with the names"), to.ZONES),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterField(
            to.PRIORITY_FIELD,
            translate("CheckDesign", "Field with the priority of each zone"),
            None,
            to.ZONES,
            Qgis.ProcessingFieldParameterDataType.Numeric,
            optional=True,
        ),
        translate(
            "CheckDesign",
            "Where zones overlap, the one with the lower number wins: such an overlap is a note and not a finding. Left blank, a field called “priority” is used if there is one.",
        ),
        advanced=True,
    )


def _limits(to: "CheckDesign") -> None:
    to.add(
        to.length(to.MIN_POND, translate("CheckDesign", "Shallowest pond"), "6 mm"),
        translate(
            "CheckDesign",
            "Water that stands less deep than this is passed over. All borders of the surface let water off, those of holes too; no pipe and no soil takes any. With a unit, or in the unit of heights: 6 mm, 1/4 in, 0.02 ft.",
        ),
    )
    to.add(
        to.length(to.SPIKE, translate("CheckDesign", "Smallest spike"), "0.3 m"),
        translate(
            "CheckDesign",
            "A point is a spike when it is off the plane of its neighbours by more than this, {spread:g} times as far as most of them are, and rises from that plane by more than {steep:.0f} %. Points on the border are not judged. With a unit, or in the unit of heights: 0.3 m, 1 ft.",
        ).format(spread=SPREAD, steep=100 * STEEP),
    )
    to.add(
        to.length(
            to.ZONE_GAP, translate("CheckDesign", "Widest gap between zones"), "50 mm", plan=True
        ),
        translate(
            "CheckDesign",
            "Zones that leave a gap of up to this are meant to meet. Wider ones are meant to be apart, unless zones enclose the ground between them. With a unit, or in the unit of the plan.",
        ),
        advanced=True,
    )


def _results(to: "CheckDesign") -> None:
    columns = translate(
        "CheckDesign",
        "number (as in the report), flag (short code), what, weight (error: wrong; check: may be meant; note: good to know), why, what_to_do, feature (face, point or zone), area, volume (plan units), height (how deep or high), level (of the water)",
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.ISSUES,
            translate("CheckDesign", "Findings"),
            QgsProcessing.SourceType.TypeVectorPoint,
        ),
        translate("CheckDesign", "One point for each finding, with the fields: {columns}.").format(
            columns=columns
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.AREAS,
            translate("CheckDesign", "Ground they cover"),
            QgsProcessing.SourceType.TypeVectorPolygon,
            None,
            True,
        ),
        translate(
            "CheckDesign",
            "What findings cover: the water of ponds, holes, faces, overlaps and gaps. The same fields and numbers.",
        ),
    )
    to.add(
        to.html_output(to.HTML, translate("CheckDesign", "Report")),
        translate(
            "CheckDesign",
            "A page with the verdict, a plan, each finding with its place and what to do, and what was looked at.",
        ),
    )
    for name, label in _numbers().items():
        to.addOutput(QgsProcessingOutputNumber(name, label))


def _numbers() -> dict[str, str]:
    numbers = {
        "COUNT": translate("CheckDesign", "Number of findings (errors and checks)"),
        "ERROR_COUNT": translate("CheckDesign", "Number of errors"),
        "CHECK_COUNT": translate("CheckDesign", "Number of things to check"),
        "NOTE_COUNT": translate("CheckDesign", "Number of notes"),
        "POND_AREA": translate("CheckDesign", "Area of ponds that are not meant (CRS unit)"),
        "POND_VOLUME": translate("CheckDesign", "Volume of ponds that are not meant (CRS unit)"),
        "HOLE_AREA": translate("CheckDesign", "Area of holes (CRS unit)"),
        "UNZONED_AREA": translate("CheckDesign", "Area of the design in no zone (CRS unit)"),
    }
    for code in CODES:
        numbers[f"{code.upper()}_COUNT"] = translate("CheckDesign", "Findings: {what}").format(
            what=code_title(code)
        )
    return numbers
