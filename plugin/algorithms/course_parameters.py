"""The parameters and results of course surfaces."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterFolderDestination,
)

from ..core.depth.zones import Outside
from ..core.text import translate
from . import zone_parameters as shared

if TYPE_CHECKING:
    from .course_surfaces import CourseSurfaces


def add_inputs(algorithm: "CourseSurfaces") -> None:
    """Add what goes in."""
    algorithm.add(
        algorithm.surface(algorithm.DESIGN, translate("CourseSurfaces", "Design"), ("tin",)),
        translate(
            "CourseSurfaces",
            "The finished surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.",
        ),
    )
    algorithm.add(
        QgsProcessingParameterFeatureSource(
            algorithm.ZONES,
            translate("CourseSurfaces", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
        ),
        translate(
            "CourseSurfaces",
            "Polygons with the name of their section. Zones in another CRS are moved to that of the design.",
        ),
    )
    algorithm.add(
        QgsProcessingParameterField(
            algorithm.SECTION_FIELD,
            translate("CourseSurfaces", "Field with the section of each zone"),
            None,
            algorithm.ZONES,
            Qgis.ProcessingFieldParameterDataType.Any,
            False,
            True,
        ),
        translate(
            "CourseSurfaces",
            "Names a section of the schedule; capitals do not matter. Left blank, a field called “section” is used.",
        ),
    )
    algorithm.add(
        QgsProcessingParameterFeatureSource(
            algorithm.SCHEDULE,
            translate("CourseSurfaces", "Schedule"),
            [QgsProcessing.SourceType.TypeVector],
        ),
        translate(
            "CourseSurfaces",
            "A table (CSV, sheet, database) with one row for each course and the columns: section; order, 1 for the uppermost; course; thickness, greater than 0, with its unit or in the unit of the heights (0.15 ft, 8 1/2 in, 60 mm). If wanted: widen, how far its underside carries on past the edge of the zone; batter, run to rise of its sides (1.5:1), upright without; rule, plumb (vertical, taken without) or square (at right angles to the design); swell, loose volume over volume in place (1.25); density, in tonnes per cubic metre or with a unit (145 lb/ft3); note. Rows are counted from 1 below the names of the columns.",
        ),
    )
    algorithm.add(
        algorithm.choice(
            algorithm.OUTSIDE,
            translate("CourseSurfaces", "Outside all zones"),
            {
                str(Outside.KEEP): translate("CourseSurfaces", "Keep the design"),
                str(Outside.LEAVE_OUT): translate("CourseSurfaces", "Leave it out"),
            },
            str(Outside.KEEP),
        ),
        translate(
            "CourseSurfaces",
            "Whether each surface carries the design on where nothing is dug. Quantities are the same.",
        ),
    )
    shared.add_manner_parameters(algorithm)
    algorithm.add(
        QgsProcessingParameterField(
            algorithm.PRIORITY_FIELD,
            translate("CourseSurfaces", "Field with the priority of each zone"),
            None,
            algorithm.ZONES,
            Qgis.ProcessingFieldParameterDataType.Numeric,
            False,
            True,
        ),
        translate(
            "CourseSurfaces",
            "Where zones overlap, the one with the lower number wins (1 before 2). Without it an overlap stops the run.",
        ),
        advanced=True,
    )
    shared.add_snap_parameter(algorithm)
    algorithm.add(algorithm.vertical_unit(), advanced=True)


def add_results(algorithm: "CourseSurfaces") -> None:
    """Add what comes out."""
    algorithm.add(
        QgsProcessingParameterFolderDestination(
            algorithm.FOLDER, translate("CourseSurfaces", "Folder of the surfaces")
        ),
        translate(
            "CourseSurfaces",
            "Gets one mesh a surface, interface_1.ply and so on from the top down, and interfaces.csv, which says whose underside each is. Surfaces of an earlier run that its list names are replaced.",
        ),
    )
    kinds = QgsProcessing.SourceType
    algorithm.add(
        QgsProcessingParameterFeatureSink(
            algorithm.FACES,
            translate("CourseSurfaces", "Faces"),
            kinds.TypeVectorPolygon,
            None,
            True,
            False,
        ),
        translate(
            "CourseSurfaces",
            "The triangles of all surfaces with heights, with the fields: interface (1 is the uppermost), zone, name, section, course, depth (mean of the face, + below the design), part, parent (face of the design, from 1), flag and why.",
        ),
    )
    algorithm.add(
        QgsProcessingParameterFeatureSink(
            algorithm.QUANTITIES,
            translate("CourseSurfaces", "Quantities"),
            kinds.TypeVector,
            None,
            True,
            True,
        ),
        translate(
            "CourseSurfaces",
            "A table with one row for each course of each zone: plan area and area on the slope of its underside, volume, loose volume (with a swell factor) in plan units, cubic yards and cubic metres, and tonnes (with a density).",
        ),
    )
    algorithm.add(
        algorithm.html_output(algorithm.HTML, translate("CourseSurfaces", "Report")),
        translate(
            "CourseSurfaces",
            "A page with a drawn typical section for each section, the quantities in feet and in metres, the schedule as read, what was flagged, and the cautions.",
        ),
    )


def numbers() -> dict[str, str]:
    """Return the labels of the numeric results by name."""
    return {
        "ZONE_COUNT": translate("CourseSurfaces", "Number of zones"),
        "SECTION_COUNT": translate("CourseSurfaces", "Number of sections that zones have"),
        "INTERFACE_COUNT": translate("CourseSurfaces", "Number of surfaces"),
        "FACE_COUNT": translate("CourseSurfaces", "Number of faces of all surfaces"),
        "PLAN_AREA": translate("CourseSurfaces", "Plan area of what is dug"),
        "VOLUME": translate("CourseSurfaces", "Volume between the design and the lowest surface"),
        "LOOSE_VOLUME": translate("CourseSurfaces", "Loose volume of courses with a swell factor"),
        "TONNES": translate("CourseSurfaces", "Tonnes of courses with a density"),
        "LARGEST_MOVE": translate("CourseSurfaces", "Largest move of a zone border"),
        "FLAG_COUNT": translate("CourseSurfaces", "Things that may be wrong"),
    }
