"""The parameters and outputs of the check of depths, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterMapLayer,
    QgsProcessingParameterString,
)

from ..core.text import translate
from .measured_zones import ZONES, add_priority, add_zones

if TYPE_CHECKING:
    from .check_depth import CheckDepth

_ANY = Qgis.ProcessingFieldParameterDataType.Any


def add_parameters(to: "CheckDepth") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _what(to)
    _asked(to)
    _lines(to)
    _advanced(to)
    _results(to)


def _what(to: "CheckDepth") -> None:
    to.add(
        to.surface(to.DESIGN, translate("CheckDepth", "Design")),
        translate(
            "CheckDepth",
            "The finished grade that depths count from, positive below it. A mesh, a polygon layer with heights, or a raster, in a projected CRS.",
        ),
    )
    kinds = [
        Qgis.ProcessingSourceType.Mesh,
        Qgis.ProcessingSourceType.VectorPolygon,
        Qgis.ProcessingSourceType.VectorPoint,
        Qgis.ProcessingSourceType.Raster,
    ]
    to.add(
        QgsProcessingParameterMapLayer(
            to.ACTUAL, translate("CheckDepth", "Actual surface or points"), None, True, kinds
        ),
        translate(
            "CheckDepth",
            "What was dug or is planned below the design: a surface, or surveyed points with heights. In the CRS and height unit of the design. May be left blank when only the cover over lines is checked.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.HEIGHT_FIELD,
            translate("CheckDepth", "Field with heights of points"),
            None,
            to.ACTUAL,
            _ANY,
            optional=True,
        ),
        translate("CheckDepth", "Height of each point. Left blank, the Z of the points is taken."),
    )
    add_zones(
        to,
        translate(
            "CheckDepth",
            "Polygons with the depth asked for. Left blank, one depth is asked for everywhere; ground outside the zones is not checked.",
        ),
    )


def _asked(to: "CheckDepth") -> None:
    to.add(
        to.length(to.DEPTH, translate("CheckDepth", "Depth asked for"), None, optional=True),
        translate(
            "CheckDepth",
            "Depth below the design, measured vertically, positive down: that of all zones, or of those whose field is blank.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.DEPTH_FIELD,
            translate("CheckDepth", "Field with depths asked for"),
            None,
            ZONES,
            _ANY,
            optional=True,
        ),
        translate(
            "CheckDepth",
            "Depth of each zone, as a number or with its unit. With no field and no depth given, a field called “depth” is used.",
        ),
    )
    to.add(
        QgsProcessingParameterString(
            to.TOLERANCE, translate("CheckDepth", "Tolerance"), "1/2 in", False, False
        ),
        translate(
            "CheckDepth",
            "One length for both ways (0.05 ft), or one for each way: -0 / +0.05 ft, where - is shallower and + is deeper than asked; “any” for no limit, so that -0 / +any asks for at least the depth. Heights within 0.2 mm of a limit keep it.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.TOLERANCE_FIELD,
            translate("CheckDepth", "Field with tolerances"),
            None,
            ZONES,
            _ANY,
            optional=True,
        ),
        translate(
            "CheckDepth",
            "Tolerance of each zone, written in the same way; blank ones take the one for all.",
        ),
    )


def _lines(to: "CheckDepth") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.LINES,
            translate("CheckDepth", "Lines that need cover"),
            [QgsProcessing.SourceType.TypeVectorLine],
            None,
            True,
        ),
        translate(
            "CheckDepth",
            "Lines with heights, such as the top of a pipe: the least cover under the design, and where it is.",
        ),
    )
    to.add(
        to.length(to.COVER, translate("CheckDepth", "Least cover asked for"), None, optional=True),
        translate(
            "CheckDepth",
            "Vertical distance from the line up to the design. Left blank, it is the depth asked for.",
        ),
    )


def _advanced(to: "CheckDepth") -> None:
    to.add(
        to.length(
            to.NARROW,
            translate("CheckDepth", "Strips not judged, narrower than"),
            "10 mm",
            plan=True,
        ),
        translate(
            "CheckDepth",
            "An upright step between zones lies in one of them with a little width. Failing strips that are nowhere wider than this are told, but do not fail a zone. 0 judges all.",
        ),
        advanced=True,
    )
    add_priority(to)
    to.add(to.vertical_unit(), advanced=True)


def _results(to: "CheckDepth") -> None:
    for name, label, kind, help_text in (
        (
            to.OUTPUT,
            translate("CheckDepth", "Checked ground or points"),
            QgsProcessing.SourceType.TypeVectorAnyGeometry,
            translate(
                "CheckDepth",
                "Of a surface, polygons for each zone and kind: zone_id, zone, result (pass, fail, not judged), kind (pass, shallow, deep, strip), depth_asked, tolerance, area, share in percent. Of points, the points: result (pass, fail, unmatched), kind, design, actual, depth_found, depth_asked, deviation (found less asked: + deeper), why.",
            ),
        ),
        (
            to.WORST,
            translate("CheckDepth", "Worst places"),
            QgsProcessing.SourceType.TypeVectorPoint,
            translate(
                "CheckDepth",
                "The worst place of each region that fails, of each zone's points and of each line, the farthest off first: kind, depth_found, depth_asked, deviation, beyond (how far past its limit), area of its region, why.",
            ),
        ),
        (
            to.SUMMARY,
            translate("CheckDepth", "Table by zone"),
            QgsProcessing.SourceType.TypeVector,
            translate(
                "CheckDepth",
                "One row for each zone, the total and each line: what was asked, areas or numbers of points that pass, are too shallow or too deep, share within tolerance, least, mean and greatest deviation, result, flag and why.",
            ),
        ),
    ):
        to.add(QgsProcessingParameterFeatureSink(name, label, kind, None, True), help_text)
    to.add(
        to.html_output(to.HTML, translate("CheckDepth", "Report")),
        translate(
            "CheckDepth",
            "Page with a verdict for each zone, a plan, the worst places and histograms.",
        ),
    )
    for name, label in {
        "PASS_COUNT": translate("CheckDepth", "Number of zones that pass"),
        "FAIL_COUNT": translate("CheckDepth", "Number of zones that fail"),
        "UNCHECKED_COUNT": translate("CheckDepth", "Number of zones not or not wholly checked"),
        "PASS_SHARE": translate("CheckDepth", "Share within tolerance, percent"),
        "SHALLOW_AREA": translate("CheckDepth", "Area too shallow, square plan units"),
        "DEEP_AREA": translate("CheckDepth", "Area too deep, square plan units"),
        "UNMATCHED_COUNT": translate("CheckDepth", "Number of points not checked"),
        "LEAST_COVER": translate("CheckDepth", "Least cover over the lines, height units"),
        "LINE_FAIL_COUNT": translate("CheckDepth", "Number of lines with too little cover"),
    }.items():
        to.addOutput(QgsProcessingOutputNumber(name, label))
