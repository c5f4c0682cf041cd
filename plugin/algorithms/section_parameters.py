"""The parameters and outputs of cross sections, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterFileDestination,
    QgsProcessingParameterMultipleLayers,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
)

from ..core.text import translate
from .parameters import name_field
from .station_parameters import add_station_parameters

if TYPE_CHECKING:
    from .cross_sections import CrossSections


def add_parameters(to: "CrossSections") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _where(to)
    _what(to)
    _advanced(to)
    _results(to)


def _where(to: "CrossSections") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.LINES,
            translate("CrossSections", "Lines"),
            [QgsProcessing.SourceType.TypeVectorLine],
        ),
        translate(
            "CrossSections",
            "Lines to cut sections across, in a projected CRS: an alignment, a centreline. Sections look from the first to the last vertex; true arcs are kept.",
        ),
    )
    to.add(
        to.length(
            to.INTERVAL, translate("CrossSections", "Interval"), "50", optional=True, plan=True
        ),
        translate(
            "CrossSections",
            "Sections stand at the stations that are multiples of this, and at both ends. 0 or blank: at the ends, or at listed stations alone where there are any.",
        ),
    )
    to.add(
        QgsProcessingParameterString(
            to.STATION_LIST, translate("CrossSections", "Listed stations"), None, False, True
        ),
        translate(
            "CrossSections",
            "Stations that get a section wherever a line has them, such as 1+12.50, 2+00 in feet or 0+112.500 in metres.",
        ),
    )
    to.add(
        to.length(to.WIDTH, translate("CrossSections", "Width to each side"), "30", plan=True),
        translate(
            "CrossSections",
            "How far sections reach from the line, to the left and to the right.",
        ),
    )
    for name, label, text in (
        (
            to.WIDTH_LEFT,
            translate("CrossSections", "Width to the left"),
            translate(
                "CrossSections",
                "Where it differs from the one above. Left of the line, looking from its first to its last vertex; without a sign.",
            ),
        ),
        (
            to.WIDTH_RIGHT,
            translate("CrossSections", "Width to the right"),
            translate(
                "CrossSections",
                "Where it differs from the one above. Right of the line, looking from its first to its last vertex; without a sign.",
            ),
        ),
    ):
        to.add(to.length(name, label, None, optional=True, plan=True), text, advanced=True)


def _what(to: "CrossSections") -> None:
    to.add(
        QgsProcessingParameterMultipleLayers(
            to.SURFACES,
            translate("CrossSections", "Surfaces"),
            QgsProcessing.SourceType.TypeMapLayer,
        ),
        translate(
            "CrossSections",
            "Mesh layers, polygon layers with heights (triangles or planar faces) and rasters, in the CRS of the lines. TINs are exact at every edge that a section crosses. Rasters have a height wherever a section crosses a row or a column of pixel centres and at its ends, interpolated between the centres, and run straight from one to the next. The order is that of the plots.",
        ),
    )
    for name, label, text in (
        (
            to.UPPER,
            translate("CrossSections", "Areas: upper surface"),
            translate(
                "CrossSections",
                "Usually the ground. Cut is where it lies above the lower surface, fill where it lies below. Left blank, the first of the surfaces.",
            ),
        ),
        (
            to.LOWER,
            translate("CrossSections", "Areas: lower surface"),
            translate(
                "CrossSections",
                "Usually the design. Left blank, the first of the surfaces that is not the upper one.",
            ),
        ),
    ):
        to.add(to.surface(name, label, optional=True), text)
    to.add(
        QgsProcessingParameterFeatureSource(
            to.GUIDELINES,
            translate("CrossSections", "Guidelines"),
            [QgsProcessing.SourceType.TypeVectorLine],
            optional=True,
        ),
        translate(
            "CrossSections",
            "Lines that are marked where sections cross them, with name, offset and height.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.ZONES,
            translate("CrossSections", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
            optional=True,
        ),
        translate(
            "CrossSections",
            "Polygons whose borders are marked where sections cross them; plots name the zones between.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.SCALE,
            translate("CrossSections", "Vertical exaggeration"),
            Qgis.ProcessingNumberParameterType.Double,
            5.0,
            False,
            0.1,
            100.0,
        ),
        translate(
            "CrossSections",
            "How many times larger heights are drawn than widths; 1 draws to one scale. Data are never exaggerated.",
        ),
    )


def _advanced(to: "CrossSections") -> None:
    for name, label, layer in (
        (to.NAME_FIELD, translate("CrossSections", "Field with names of lines"), to.LINES),
        (
            to.GUIDE_NAME_FIELD,
            translate("CrossSections", "Field with names of guidelines"),
            to.GUIDELINES,
        ),
        (to.ZONE_NAME_FIELD, translate("CrossSections", "Field with names of zones"), to.ZONES),
    ):
        to.add(name_field(name, label, layer), advanced=True)
    add_station_parameters(to, to.LINES)
    papers = {
        "auto": translate("CrossSections", "Letter for jobs in feet, A4 for others"),
        "letter": translate("CrossSections", "Letter"),
        "a4": translate("CrossSections", "A4"),
    }
    to.add(
        to.choice(to.PAPER, translate("CrossSections", "Paper"), papers, "auto"),
        translate("CrossSections", "Size of the pages of the plots."),
        advanced=True,
    )
    to.add(to.vertical_unit(), advanced=True)


def _results(to: "CrossSections") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.SECTIONS,
            translate("CrossSections", "Sections"),
            QgsProcessing.SourceType.TypeVectorLine,
        ),
        translate(
            "CrossSections",
            "Lines with heights, left to right, one for each section and surface, with the fields: number, source_id, line, station (text), station_value, surface, title; offset_left, offset_right (where the surface begins and ends, + right, - left), height_min, height_max, height_on_line, gaps; left_east, left_north, right_east, right_north (the whole section), bearing (the way it looks); flag, why. An atlas of a print layout steps through them.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.MARKS,
            translate("CrossSections", "Marks"),
            QgsProcessing.SourceType.TypeVectorPoint,
            optional=True,
        ),
        translate(
            "CrossSections",
            "Points where sections cross guidelines and borders of zones, with the fields: number, line, station, station_value, kind (guideline, zone_border), name, signed_offset (+ right, - left), side, height (of the guideline, else of the first surface there), surface, height_surface, difference (guideline less surface).",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.AREAS,
            translate("CrossSections", "Areas"),
            QgsProcessing.SourceType.TypeVector,
            optional=True,
        ),
        translate(
            "CrossSections",
            "Table with one row for each section: area and width of cut and of fill in plan units, width where both surfaces are there, largest cut and fill; volumes to the next section by average end areas and by the prismoidal formula (with a true section half way) in cubic plan units, and the sums so far in cubic yards and cubic metres; flag, why.",
        ),
    )
    to.add(
        QgsProcessingParameterFileDestination(
            to.CSV, translate("CrossSections", "Table of points"), "CSV (*.csv)", None, True
        ),
        translate(
            "CrossSections",
            "Every point of every section: station, offset (+ right, - left), place, and the height of each surface. Where a surface jumps there are two rows for one offset.",
        ),
    )
    to.add(
        QgsProcessingParameterFileDestination(
            to.PDF, translate("CrossSections", "Plots"), "PDF (*.pdf)", None, True
        ),
        translate(
            "CrossSections",
            "Sections drawn to a stated scale, several on a page, with a grid, offsets and elevations.",
        ),
    )
    to.add(
        to.html_output(to.HTML, translate("CrossSections", "Report")),
        translate(
            "CrossSections",
            "Page with the volumes by each method and why they differ, areas by station, and some of the sections.",
        ),
    )
    for name, label in {
        "SECTION_COUNT": translate("CrossSections", "Number of sections"),
        "FLAGGED_COUNT": translate("CrossSections", "Number of flagged sections"),
        "CUT_AVERAGE": translate("CrossSections", "Cut by average end areas (cubic plan units)"),
        "FILL_AVERAGE": translate("CrossSections", "Fill by average end areas (cubic plan units)"),
        "CUT_PRISMOIDAL": translate("CrossSections", "Cut by the prismoidal formula"),
        "FILL_PRISMOIDAL": translate("CrossSections", "Fill by the prismoidal formula"),
        "CUT_EXACT": translate("CrossSections", "Exact cut (TINs only)"),
        "FILL_EXACT": translate("CrossSections", "Exact fill (TINs only)"),
    }.items():
        to.addOutput(QgsProcessingOutputNumber(name, label))
