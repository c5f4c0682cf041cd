"""The parameters and outputs of the search for slope breaks, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterNumber,
)

from ..core.breaks import BREAK_KINDS, Measure
from ..core.breaks.known import MOST_ANGLE
from ..core.text import translate
from .slope_rows import kind_labels

if TYPE_CHECKING:
    from .slope_breaks import SlopeBreaks


def add_parameters(to: "SlopeBreaks") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _thresholds(to)
    _lines(to)
    _known(to)
    _results(to)
    for name, label in _numbers().items():
        to.addOutput(QgsProcessingOutputNumber(name, label))


def _thresholds(to: "SlopeBreaks") -> None:
    to.add(
        to.surface(to.DESIGN, translate("SlopeBreaks", "Design")),
        translate(
            "SlopeBreaks",
            "The surface whose breaks are wanted: a mesh layer, a polygon layer with heights (triangles or planar faces), or a raster of up to 4 million pixels, which is triangulated between the centres of its pixels. Its CRS must be projected.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.MIN_CHANGE,
            translate("SlopeBreaks", "Smallest slope change (percent)"),
            Qgis.ProcessingNumberParameterType.Double,
            2.0,
            False,
            0.001,
        ),
        translate(
            "SlopeBreaks",
            "Breaks whose slope changes by less are left out. In percent of grade: 2 % beside 7 % in the same direction is a change of 5, +2 % beside -2 % a change of 4. In degrees where the change is measured as an angle.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.KEEP_CHANGE,
            translate("SlopeBreaks", "Slope change that continues a line (percent)"),
            Qgis.ProcessingNumberParameterType.Double,
            None,
            True,
            0.001,
        ),
        translate(
            "SlopeBreaks",
            "A line that reaches the smallest slope change somewhere goes on while its change is at least this. Blank: the smallest slope change itself.",
        ),
    )


def _lines(to: "SlopeBreaks") -> None:
    to.add(
        to.length(
            to.TOLERANCE,
            translate("SlopeBreaks", "Width over which slopes are taken"),
            "0",
            plan=True,
        ),
        translate(
            "SlopeBreaks",
            "0 compares face with face, exactly. Greater: patches of about this width and more are compared, so that noise and fillets do not tear lines apart.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.SMOOTHING,
            translate("SlopeBreaks", "Smoothing passes, face by face"),
            Qgis.ProcessingNumberParameterType.Integer,
            0,
            False,
            0,
            20,
        ),
        translate(
            "SlopeBreaks",
            "For large surfaces with a little noise: before faces are compared, the slope of each is averaged so many times with those of its neighbours that differ from it by less than about the smallest slope change. Five passes take out 5 mm of noise on triangles of a metre in a fraction of the time that a width takes. Breaks smaller than twice the smallest slope change may fade, so ask for about half of what you look for. 0: none, exact.",
        ),
        advanced=True,
    )
    to.add(
        to.length(to.GAP, translate("SlopeBreaks", "Longest gap to bridge"), "0", plan=True),
        translate(
            "SlopeBreaks",
            "Ends of lines that run on towards each other, both convex or both concave, are joined over gaps up to this.",
        ),
        advanced=True,
    )
    to.add(
        to.length(to.MIN_LENGTH, translate("SlopeBreaks", "Shortest line"), "0"),
        translate(
            "SlopeBreaks",
            "Lines shorter than this in plan are left out, after edges have been joined. With a unit, or in the unit of the CRS: 5 ft, 1.5 m. 0 keeps all.",
        ),
    )
    to.add(
        to.choice(
            to.KINDS,
            translate("SlopeBreaks", "Kinds"),
            kind_labels(),
            [str(kind) for kind in BREAK_KINDS],
            multiple=True,
        ),
        translate(
            "SlopeBreaks",
            "Kinds of breaks to keep. The lines of one kind are the same whatever other kinds are kept. Outer edge: the outline of the design and of its holes as closed lines, with the surface and its grade on their left.",
        ),
    )
    to.add(
        to.choice(
            to.MEASURE,
            translate("SlopeBreaks", "Slope change measured as"),
            {
                str(Measure.GRADE): translate("SlopeBreaks", "Difference in grade, percent"),
                str(Measure.ANGLE): translate("SlopeBreaks", "Angle between the faces, degrees"),
            },
            str(Measure.GRADE),
        ),
        translate(
            "SlopeBreaks",
            "What the smallest slope change is given in. The angle is the one between the normals of the two faces, as mesh programs measure it.",
        ),
        advanced=True,
    )
    to.add(to.vertical_unit(), advanced=True)


def _known(to: "SlopeBreaks") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.KNOWN,
            translate("SlopeBreaks", "Breaklines already drawn"),
            [QgsProcessing.SourceType.TypeVectorLine],
            None,
            True,
        ),
        translate(
            "SlopeBreaks",
            "Lines to compare the breaks with: which breaks they explain, which breaks are not drawn, and which drawn lines are no break. Their heights have no part in it.",
        ),
    )
    to.add(
        to.length(
            to.KNOWN_DISTANCE,
            translate("SlopeBreaks", "Drawn lines match within"),
            "0.1 m",
            plan=True,
        ),
        translate(
            "SlopeBreaks",
            "A break is drawn where a drawn line runs beside it within this distance, nearly parallel. Where two breaks lie that near, a drawn line stands for the one it is clearly nearer to (half as far or less). Breaks found over a width lie up to half that width off.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.KNOWN_ANGLE,
            translate("SlopeBreaks", "Drawn lines match up to an angle of (degrees)"),
            Qgis.ProcessingNumberParameterType.Double,
            MOST_ANGLE,
            False,
            0.1,
            60.0,
        ),
        translate(
            "SlopeBreaks",
            "Lines that run more askew do not match. Directions are taken over twice the distance, so that small jogs do not count; what way lines are drawn has no part in it.",
        ),
        advanced=True,
    )


def _results(to: "SlopeBreaks") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.BREAKS,
            translate("SlopeBreaks", "Slope breaks"),
            QgsProcessing.SourceType.TypeVectorLine,
        ),
        translate(
            "SlopeBreaks",
            "Lines with heights and the fields: line (its number); kind; change, change_min, change_max (size of the slope change, percent: mean, smallest, largest); grade_left, grade_right and their least and greatest values (percent, + rises away from the line); angle (degrees, mean); length (in plan, CRS unit); z_start, z_end; fall (z_start less z_end, + falls along the line); confidence (percent of the length whose change is beyond doubt, from how uneven the patches are), bridged (length of gaps); drawn (percent of the length that drawn lines explain); wall_pair and wall_height (beside a near-vertical face, at its foot or top: number of the line at its other end, and its mean height); flag and why for lines to look at. Figures beside an upright face are empty, as are the change and the right side of an outer edge.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.PATCHES,
            translate("SlopeBreaks", "Patches of one slope"),
            QgsProcessing.SourceType.TypeVectorPolygon,
            None,
            True,
        ),
        translate(
            "SlopeBreaks",
            "Areas between breaks that one plane fits, with the fields: patch, grade (percent), fall_bearing (downhill, clockwise from grid north), area, residual (root mean square height from the plane), faces. They cover the design without gaps, but for upright faces. Without a width over which slopes are taken they are the flat parts of the design.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.COMPARISON,
            translate("SlopeBreaks", "Breaks and drawn lines compared"),
            QgsProcessing.SourceType.TypeVectorLine,
            None,
            True,
        ),
        translate(
            "SlopeBreaks",
            "Made where drawn lines are given: the lines cut where the answer changes, with the fields: state (both: a break that is drawn; missing: a break that is not drawn; no_break: drawn, but no break), line and kind (number and kind of the break), drawn_id and drawn_name (the drawn line), drawn_share (percent of that drawn line that is a break), from_dist and to_dist (distances along the line), length.",
        ),
    )
    to.add(
        to.html_output(to.HTML, translate("SlopeBreaks", "Report")),
        translate(
            "SlopeBreaks",
            "A page with the thresholds, the lines by kind, a plan, the longest lines, those that are flagged, and how drawn lines compare.",
        ),
    )


def _numbers() -> dict[str, str]:
    numbers = {
        "COUNT": translate("SlopeBreaks", "Number of lines"),
        "LENGTH": translate("SlopeBreaks", "Length of all lines (CRS unit)"),
        "FLAGGED": translate("SlopeBreaks", "Number of flagged lines"),
        "UNMEASURED": translate("SlopeBreaks", "Number of edges that cannot be measured"),
        "PATCH_COUNT": translate("SlopeBreaks", "Number of patches"),
        "LARGEST_MOVE": translate("SlopeBreaks", "Largest move of a vertex (CRS unit)"),
        "EXPLAINED_LENGTH": translate("SlopeBreaks", "Length of breaks that are drawn (CRS unit)"),
        "MISSING_LENGTH": translate("SlopeBreaks", "Length of breaks not drawn (CRS unit)"),
        "NO_BREAK_LENGTH": translate(
            "SlopeBreaks", "Length of drawn lines that are no break (CRS unit)"
        ),
    }
    for kind, label in kind_labels().items():
        numbers[f"{kind.upper()}_COUNT"] = translate("SlopeBreaks", "{kind}: lines").format(
            kind=label
        )
        numbers[f"{kind.upper()}_LENGTH"] = translate("SlopeBreaks", "{kind}: length").format(
            kind=label
        )
    return numbers
