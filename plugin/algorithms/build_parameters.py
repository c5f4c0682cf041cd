"""The parameters of `build_tin`."""

from typing import TYPE_CHECKING

from qgis.core import (
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
)

from ..core.text import translate

if TYPE_CHECKING:
    from .build_tin import BuildTin


def add_inputs(to: "BuildTin") -> None:
    """Add what the surface is built of."""
    to.add(
        QgsProcessingParameterFeatureSource(
            to.POINTS,
            translate("BuildTin", "Points"),
            [QgsProcessing.SourceType.TypeVectorPoint],
            None,
            True,
        ),
        translate(
            "BuildTin",
            "Measured or designed points, with Z or with a field of heights. Points on a breakline that are of another height are left out and flagged.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.HEIGHT_FIELD,
            translate("BuildTin", "Field with the heights of the points"),
            None,
            to.POINTS,
            optional=True,
        ),
        translate("BuildTin", "Left blank, the Z of the points is their height."),
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.BREAKLINES,
            translate("BuildTin", "Breaklines"),
            [QgsProcessing.SourceType.TypeVectorLine],
            None,
            True,
        ),
        translate(
            "BuildTin",
            "Lines with Z that become edges of the surface: crowns, curbs, flowlines, tops and toes. Every vertex is kept exactly; true arcs become chords within 1 mm.",
        ),
    )
    to.add(
        to.choice(
            to.LINE_HEIGHTS,
            translate("BuildTin", "Breaklines without heights"),
            {
                "refuse": translate("BuildTin", "Are refused"),
                "surface": translate("BuildTin", "Take them from the points and other lines"),
            },
            "refuse",
        ),
        translate(
            "BuildTin",
            "What to do with vertices of breaklines that have no height. Taken from the surface, a line changes only which edges there are: drawn from point to point it has the heights of those points.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.BOUNDARY,
            translate("BuildTin", "Boundary"),
            [
                QgsProcessing.SourceType.TypeVectorPolygon,
                QgsProcessing.SourceType.TypeVectorLine,
            ],
            None,
            True,
        ),
        translate(
            "BuildTin",
            "Polygons with their holes, or closed lines: a line within another is a hole, one within a hole an island. What lies off it is left out and counted. With heights the boundary becomes the edge of the surface, and points off it count for nothing; without, the surface of all points is cut along it and changes nowhere else. Left blank, the surface reaches to the convex hull.",
        ),
    )
    to.add(
        to.length(
            to.MAX_EDGE,
            translate("BuildTin", "Longest edge at the border"),
            optional=True,
            plan=True,
        ),
        translate(
            "BuildTin",
            "Faces at the border with a longer outer edge are dropped, one after the other from the outside; breaklines stay. Left blank, none is.",
        ),
    )
    to.add(
        to.length(to.SAME_HEIGHT, translate("BuildTin", "Heights that count as one"), "3 mm"),
        translate(
            "BuildTin",
            "Where breaklines meet, or points lie in one place or on a line, heights that differ by no more are one. Where they differ by more neither is picked: both are left out there and flagged.",
        ),
    )
    to.add(
        to.length(to.SNAP, translate("BuildTin", "Snap distance"), "0.1 mm", plan=True),
        translate(
            "BuildTin",
            "A breakline goes through the points and vertices it passes within this distance; two of them nearer than twice that are one.",
        ),
        advanced=True,
    )
    to.add(to.vertical_unit(), advanced=True)


def add_outputs(to: "BuildTin") -> None:
    """Add what comes out."""
    to.add(
        to.mesh_output(to.TIN, translate("BuildTin", "Surface")),
        translate("BuildTin", "The surface as a mesh, with the exact heights of the points."),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.FACES,
            translate("BuildTin", "Faces"),
            QgsProcessing.SourceType.TypeVectorPolygon,
            None,
            True,
            False,
        ),
        translate("BuildTin", "The faces as triangles with heights, with the field: face."),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.ISSUES,
            translate("BuildTin", "Places to look at"),
            QgsProcessing.SourceType.TypeVectorPoint,
            None,
            True,
        ),
        translate(
            "BuildTin",
            "A point where something may be wrong, with the fields: flag (crossing, duplicate, off_line, boundary, no_height, uncovered, alone, lost), why, feature.",
        ),
    )
    to.add(
        to.html_output(to.HTML, translate("BuildTin", "Report")),
        translate("BuildTin", "Page with what was built, what became of the breaklines, what may be wrong and a plan."),
    )  # fmt: skip
    for name, label in numbers().items():
        to.addOutput(QgsProcessingOutputNumber(name, label))


def numbers() -> dict[str, str]:
    """Return the labels of the numeric results."""
    return {
        "POINT_COUNT": translate("BuildTin", "Points in the surface"),
        "VERTEX_COUNT": translate("BuildTin", "Vertices"),
        "FACE_COUNT": translate("BuildTin", "Faces"),
        "PLAN_AREA": translate("BuildTin", "Plan area"),
        "LINE_LENGTH": translate("BuildTin", "Length of the breaklines"),
        "LENGTH_INSIDE": translate("BuildTin", "Length of the breaklines within the boundary"),
        "LENGTH_HONOURED": translate("BuildTin", "Length of the breaklines along edges"),
        "MERGED_COUNT": translate("BuildTin", "Points merged with another or with a line"),
        "DUPLICATE_COUNT": translate("BuildTin", "Places where points disagree"),
        "CROSSING_COUNT": translate("BuildTin", "Crossings of breaklines at one height"),
        "CONFLICT_COUNT": translate("BuildTin", "Places where breaklines disagree"),
        "OUTSIDE_COUNT": translate("BuildTin", "Points left out off the boundary"),
        "DROPPED_COUNT": translate("BuildTin", "Faces dropped for long edges"),
        "UNCOVERED_AREA": translate("BuildTin", "Area within the boundary without surface"),
        "LARGEST_MOVE": translate("BuildTin", "Largest move of a merged point"),
        "FLAG_COUNT": translate("BuildTin", "Things that may be wrong"),
    }
