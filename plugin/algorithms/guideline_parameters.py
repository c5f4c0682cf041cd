"""The parameters and outputs of the guidelines algorithm, with their help."""

from typing import TYPE_CHECKING

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingOutputNumber,
    QgsProcessingParameterExpression,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
)

from ..core.lines.corners import Join
from ..core.lines.direction import Travel
from ..core.lines.sides import Rule
from ..core.lines.words import WINDS, wind_word
from ..core.text import translate
from .side_rules import side_labels
from .station_parameters import add_station_parameters

if TYPE_CHECKING:
    from .guidelines import Guidelines


def add_parameters(to: "Guidelines") -> None:
    """Add all parameters and outputs, in the order of the dialog."""
    _what(to)
    _tapers(to)
    _side(to)
    _travel_and_heights(to)
    _advanced(to)
    _results(to)


def _what(to: "Guidelines") -> None:
    to.add(
        QgsProcessingParameterFeatureSource(
            to.LINES,
            translate("Guidelines", "Lines"),
            [QgsProcessing.SourceType.TypeVectorLine],
        ),
        translate(
            "Guidelines",
            "Lines to lay guidelines beside, in a projected CRS. Each part of a multipart line is a line of its own.",
        ),
    )
    to.add(
        to.length(
            to.OFFSETS, translate("Guidelines", "Offsets"), "1", optional=True, many=True, plan=True
        ),
        translate(
            "Guidelines",
            "Distance from the line in plan, always without a minus sign: the side is said below. Several at once: 1 ft, 2 ft or 1..5 step 1. Without a unit it is in the unit of the CRS.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.OFFSET_FIELD,
            translate("Guidelines", "Field with offsets"),
            None,
            to.LINES,
            optional=True,
        ),
        translate(
            "Guidelines",
            "Offsets of each line, as a number or a text; where it is empty the offsets above hold.",
        ),
    )


def _tapers(to: "Guidelines") -> None:
    to.add(
        QgsProcessingParameterString(to.TAPER, translate("Guidelines", "Taper"), None, False, True),
        translate(
            "Guidelines",
            "An offset that changes along the line, instead of the offsets above: 1 ft > 3 ft from the start of the line to its end, or 0+00: 1 ft; 1+00: 3 ft at stations, linear between them and constant beyond. It stays on one side, so no offset of it is 0.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterField(
            to.TAPER_FIELD,
            translate("Guidelines", "Field with tapers"),
            None,
            to.LINES,
            optional=True,
        ),
        translate("Guidelines", "Taper of each line, as text; where it is empty the one above holds, or else the offsets."),  # noqa: E501
        advanced=True,
    )  # fmt: skip

    to.add(
        QgsProcessingParameterFeatureSource(
            to.TAPER_TABLE,
            translate("Guidelines", "Table of tapers"),
            [QgsProcessing.SourceType.TypeVector],
            None,
            True,
        ),
        translate(
            "Guidelines",
            "A table (CSV, sheet, database) with one row for each place and the columns: station; offset, above 0, with its unit or in that of the CRS; and if wanted line, the name of the line that the row is for (rows without it are for all other lines). The stations of one line rise from row to row. A taper in the field of a line goes before.",
        ),
        advanced=True,
    )


def _side(to: "Guidelines") -> None:
    to.add(
        to.choice(to.SIDE, translate("Guidelines", "Side"), side_labels(), str(Rule.RIGHT)),
        translate(
            "Guidelines",
            "Which side of the line. Right and left look from the first to the last vertex of the line; in signed offsets + is right and - is left. The other rules do not depend on how the line is drawn.",
        ),
    )
    to.add(
        QgsProcessingParameterField(
            to.SIDE_FIELD,
            translate("Guidelines", "Field with sides"),
            None,
            to.LINES,
            optional=True,
        ),
        translate(
            "Guidelines",
            "Side of each line, by the words of the parameter above (right, left, toward ...); where it is empty the side above holds.",
        ),
    )
    to.add(
        QgsProcessingParameterExpression(
            to.SIDE_EXPRESSION,
            translate("Guidelines", "Expression for sides"),
            None,
            to.LINES,
            True,
        ),
        translate(
            "Guidelines",
            "Gives the word of the side for each line, such as if(\"kind\" = 'curb', 'away', 'toward'); it goes before the field. Where it gives nothing, the field or the side above holds.",
        ),
        advanced=True,
    )
    to.add(
        to.choice(
            to.ON_SWAP,
            translate("Guidelines", "Where the side changes along a line"),
            {
                "flag": translate("Guidelines", "Flag the line"),
                "split": translate("Guidelines", "Split the line there"),
            },
            "flag",
        ),
        translate(
            "Guidelines",
            "Flag: both candidates go to the flagged lines, and nothing is laid. Split: the line is split where the side changes, each part gets its own proved side, and says so; stretches that do not tell a side are flagged.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterFeatureSource(
            to.REFERENCE,
            translate("Guidelines", "Reference"),
            [QgsProcessing.SourceType.TypeVectorAnyGeometry],
            None,
            True,
        ),
        translate(
            "Guidelines",
            "Points, lines or polygons that the sides toward, away, inside and outside look at. In another CRS it is moved to that of the lines.",
        ),
    )
    to.add(
        to.surface(to.SURFACE, translate("Guidelines", "Surface"), optional=True),
        translate(
            "Guidelines",
            "Surface that the sides uphill, downhill, steeper and flatter look at, as far away as the offset, and that heights may be taken from. It must be in the CRS of the lines.",
        ),
    )
    winds = {word: wind_word(number) for number, word in enumerate(WINDS)}
    to.add(
        to.choice(to.COMPASS, translate("Guidelines", "Compass side"), winds, "north"),
        translate(
            "Guidelines",
            "The wind that the side faces, for the side compass: north means the side of the line that lies towards grid north.",
        ),
    )


def _travel_and_heights(to: "Guidelines") -> None:
    travels = {
        str(Travel.ALONG): translate("Guidelines", "Along the line"),
        str(Travel.AGAINST): translate("Guidelines", "Against the line"),
        str(Travel.BEARING): translate("Guidelines", "At a bearing"),
        str(Travel.NEAREST): translate("Guidelines", "The nearer of its two ways to a bearing"),
    }
    to.add(
        to.choice(to.TRAVEL, translate("Guidelines", "Machine drives"), travels, str(Travel.ALONG)),
        translate(
            "Guidelines",
            "Which way the machine drives. It does not move a guideline: it says on which side the driver sees it. At a bearing: lines that run more than 1 1/2 winds (67.5 degrees) off it either way are flagged. The nearer way: of its two ways each line takes the one nearer to the bearing, and only closed lines and those square to it are flagged.",
        ),
    )
    to.add(
        QgsProcessingParameterNumber(
            to.BEARING,
            translate("Guidelines", "Bearing of travel (degrees)"),
            Qgis.ProcessingNumberParameterType.Double,
            0.0,
            False,
            0.0,
            360.0,
        ),
        translate(
            "Guidelines",
            "Clockwise from grid north: 90 is east. Used when the machine drives at a bearing, or the nearer way to it.",
        ),
    )
    sources = {
        "line": translate("Guidelines", "The line"),
        "surface": translate("Guidelines", "The surface"),
        "none": translate("Guidelines", "None, plan only"),
    }
    to.add(
        to.choice(to.Z_FROM, translate("Guidelines", "Heights from"), sources, "line"),
        translate(
            "Guidelines",
            "From the line: at each station the height of the line there, level round the tip of an outer corner; at an inner corner heights run to the mean of both sides along no more than the offset. From the surface: its height under the guideline, with a vertex wherever it crosses an edge of the surface (or at every pixel). Lines without heights give plan lines; a missing height is never written as 0.",
        ),
    )
    to.add(
        to.length(to.DEPTH, translate("Guidelines", "Depth"), "0"),
        translate(
            "Guidelines",
            "Lowers the guideline: positive is below the line or the surface, a minus sign raises. Without a unit it is in the unit of heights.",
        ),
    )


def _advanced(to: "Guidelines") -> None:
    to.add(
        QgsProcessingParameterString(
            to.CROSS_GRADE,
            translate("Guidelines", "Cross grade away from the line"),
            "0",
            False,
            True,
        ),
        translate(
            "Guidelines",
            "For heights from the line: + rises and - falls going away from the line, on whichever side the guideline lies. -2 % or -1:50 falls 2 % away from the line. The depth comes on top.",
        ),
        advanced=True,
    )
    to.add(
        to.choice(
            to.PARTS,
            translate("Guidelines", "Pieces"),
            {
                "single": translate("Guidelines", "Each piece a feature"),
                "multi": translate("Guidelines", "The pieces of a line and offset in one feature"),
            },
            "single",
        ),
        translate(
            "Guidelines",
            "Where a line bends too tightly its guideline comes in pieces: one feature each, or one multipart feature for each line, offset and side.",
        ),
        advanced=True,
    )
    joins = {
        str(Join.MITRE): translate("Guidelines", "Mitre"),
        str(Join.ROUND): translate("Guidelines", "Round"),
        str(Join.BEVEL): translate("Guidelines", "Bevel"),
    }
    to.add(
        to.choice(to.JOIN, translate("Guidelines", "Corners"), joins, str(Join.MITRE)),
        translate(
            "Guidelines",
            "How the outside of a corner is passed; no corner comes nearer to the line than the offset. Mitre: in one point, cut beyond the limit. Round: around the arc. Bevel: cut square at the offset.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterNumber(
            to.MITRE_LIMIT,
            translate("Guidelines", "Mitre limit"),
            Qgis.ProcessingNumberParameterType.Double,
            2.0,
            False,
            1.0,
            100.0,
        ),
        translate(
            "Guidelines", "Farthest that the tip of a mitre may lie from its corner, in offsets."
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterField(
            to.NAME_FIELD,
            translate("Guidelines", "Field with names"),
            None,
            to.LINES,
            optional=True,
        ),
        translate(
            "Guidelines",
            "What people call each line, for the sentences. Left blank, a field called “name” is used if there is one, else the feature id.",
        ),
        advanced=True,
    )
    to.add(
        QgsProcessingParameterNumber(
            to.MIN_SHARE,
            translate("Guidelines", "Least evidence (percent of the length)"),
            Qgis.ProcessingNumberParameterType.Double,
            90.0,
            False,
            50.0,
            100.0,
        ),
        translate(
            "Guidelines",
            "Share of a line's length that must support the side. Below it, or where more than 2 % of the length says the other side, the line is flagged.",
        ),
        advanced=True,
    )
    add_station_parameters(to, to.LINES)
    to.add(to.vertical_unit(), advanced=True)

    to.add(
        to.choice(
            to.ARCS,
            translate("Guidelines", "True arcs"),
            {
                "keep": translate("Guidelines", "Kept as arcs"),
                "chords": translate("Guidelines", "As chords"),
            },
            "keep",
        ),
        translate(
            "Guidelines",
            "Beside a true arc of a line (circular strings, compound curves) lies a true arc about the same centre, and the result holds curves. As chords: dense vertices within 0.1 mm of it. Heights from the surface and tapers always give chords. Stations run along the arcs themselves.",
        ),
        advanced=True,
    )


def _results(to: "Guidelines") -> None:
    to.add(
        QgsProcessingParameterFeatureSink(
            to.GUIDELINES,
            translate("Guidelines", "Guidelines"),
            QgsProcessing.SourceType.TypeVectorLine,
        ),
        translate(
            "Guidelines",
            "Lines whose M is the station on the source (round a closed line it runs on past its end), with the fields: source_id, part, name; side_line, signed_offset (+ right, - left; of a taper at its start), signed_offset_end (of a taper), offset (in two styles), label, rule, compass_side; travel and side_driver, travel_back and side_driver_back, travel_bearing; evidence (percent), weakest_station, weakest_x, weakest_y (where the least speaks for the side); length; station_from, station_to on the line (a piece that passes the start of a closed line ends at a smaller station than it begins); z_from; flag, why; sentence.",
        ),
    )
    to.add(
        QgsProcessingParameterFeatureSink(
            to.FLAGGED,
            translate("Guidelines", "Flagged lines"),
            QgsProcessing.SourceType.TypeVectorLine,
            None,
            True,
        ),
        translate(
            "Guidelines",
            "What did not become a guideline, in plan, with flag and why: both candidates of lines whose side is not settled, and stretches without a guideline.",
        ),
    )
    to.add(
        to.html_output(to.HTML, translate("Guidelines", "Report")),
        translate(
            "Guidelines",
            "Page with the side of every guideline in words, for both driving directions, and sketches.",
        ),
    )
    for name, label in {
        "GUIDELINE_COUNT": translate("Guidelines", "Number of guidelines"),
        "FLAGGED_COUNT": translate(
            "Guidelines", "Number of lines whose side is not settled, per offset"
        ),
        "LOST_COUNT": translate("Guidelines", "Number of stretches without a guideline"),
        "LENGTH": translate("Guidelines", "Length of all guidelines (CRS unit)"),
        "MAX_DISTANCE_ERROR": translate("Guidelines", "Largest error of the distance (CRS unit)"),
        "CHORD_COUNT": translate("Guidelines", "Number of stretches beside arcs that stay chords"),
    }.items():
        to.addOutput(QgsProcessingOutputNumber(name, label))
