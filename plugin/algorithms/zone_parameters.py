"""The parameters of zones with a depth each, as all depth surfaces take them."""

from typing import TYPE_CHECKING, Any

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterString,
)

from ..core.depth.manner import BatterRule, Beyond, Corners, ThicknessRule
from ..core.depth.zones import Outside
from ..core.text import translate
from ..core.tolerance import MOST_JOIN_METRES, SNAP_METRES
from ..layers.tables import usual_field

if TYPE_CHECKING:
    from .base import UndercourseAlgorithm

ZONES = "ZONES"
DEPTH = "DEPTH"
DEPTH_FIELD = "DEPTH_FIELD"
THICKNESS = "THICKNESS"
THICKNESS_FIELD = "THICKNESS_FIELD"
WIDEN = "WIDEN"
WIDEN_FIELD = "WIDEN_FIELD"
BATTER = "BATTER"
BATTER_FIELD = "BATTER_FIELD"
BATTER_RULE = "BATTER_RULE"
CORNERS = "CORNERS"
OUTSIDE = "OUTSIDE"
BEYOND = "BEYOND"
PRIORITY_FIELD = "PRIORITY_FIELD"
SNAP = "SNAP"

_ANY = Qgis.ProcessingFieldParameterDataType.Any


def add_zone_parameters(algorithm: "UndercourseAlgorithm") -> None:
    """Add zones, depths, how bottoms end, what happens outside, and priority."""
    _add_zones(algorithm)
    _add_depths(algorithm)
    _add_widening(algorithm)
    _add_batter(algorithm)
    _add_outside(algorithm)
    add_manner_parameters(algorithm)
    algorithm.add(
        _field(
            PRIORITY_FIELD,
            translate("Zones", "Field with the priority of each zone"),
            Qgis.ProcessingFieldParameterDataType.Numeric,
        ),
        translate(
            "Zones",
            "Where zones overlap, the one with the lower number wins (1 before 2). Without it an overlap stops the run.",
        ),
        advanced=True,
    )
    add_snap_parameter(algorithm)


def _add_zones(algorithm: "UndercourseAlgorithm") -> None:
    algorithm.add(
        QgsProcessingParameterFeatureSource(
            ZONES,
            translate("Zones", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
        ),
        translate(
            "Zones",
            "Polygons below which a depth holds. Zones in another CRS are moved to that of the design.",
        ),
    )


def _add_depths(algorithm: "UndercourseAlgorithm") -> None:
    algorithm.add(
        _field(DEPTH_FIELD, translate("Zones", "Field with the depth of each zone"), _ANY),
        translate(
            "Zones",
            "Positive is below the design, a minus sign raises, 0 stays on it. Numbers are in the unit of the heights; texts may name their unit (0.2 ft, 2 1/2 in, 60 mm). Left blank together with the depth for all, a field called “depth” is used if there is one.",
        ),
    )
    algorithm.add(
        algorithm.length(DEPTH, translate("Zones", "Depth for all"), None, optional=True),
        translate(
            "Zones",
            "Depth of zones that have none in the field, or of all without a field, and of the design outside all zones where that is chosen. Positive is below the design, a minus sign raises. With a unit, or in the unit of the heights: 0.2 ft, 2 1/2 in, 60 mm.",
        ),
    )
    algorithm.add(
        algorithm.choice(
            THICKNESS,
            translate("Zones", "Depth is measured"),
            {
                str(ThicknessRule.PLUMB): translate("Zones", "Plumb (vertically)"),
                str(ThicknessRule.SQUARE): translate("Zones", "Square to the slope"),
            },
            str(ThicknessRule.PLUMB),
        ),
        translate(
            "Zones",
            "Plumb is how a machine holds a depth; square, at right angles to the design, is how a placed thickness is specified. On a slope of gradient g, square t is t × √(1 + g²) plumb: 5 % more at 3:1.",
        ),
    )
    algorithm.add(
        _field(
            THICKNESS_FIELD, translate("Zones", "Field that says how each depth is measured"), _ANY
        ),
        translate(
            "Zones",
            "Holds the word plumb or square for each zone. Blank ones are measured as chosen for all.",
        ),
        advanced=True,
    )


def _add_widening(algorithm: "UndercourseAlgorithm") -> None:
    algorithm.add(
        algorithm.length(
            WIDEN, translate("Zones", "Carry the bottom on by"), None, optional=True, plan=True
        ),
        translate(
            "Zones",
            "How far the bottom carries on past the edge of its zone, measured in plan. The plan often stops at the back of curb while the cut has to run 1 ft past it (common practice). Where bottoms meet, the deeper one wins. With a unit, or in the unit of the plan.",
        ),
    )
    algorithm.add(
        _field(WIDEN_FIELD, translate("Zones", "Field with how far each bottom carries on"), _ANY),
        translate(
            "Zones",
            "Numbers in the unit of the plan, or texts with a unit (1 ft, 300 mm); blank ones get what is given for all. Left blank together with the value for all, a field called “widen” is used if there is one.",
        ),
        advanced=True,
    )


def _add_batter(algorithm: "UndercourseAlgorithm") -> None:
    algorithm.add(
        QgsProcessingParameterString(
            BATTER, translate("Zones", "Batter of the sides, run to rise"), None, False, True
        ),
        translate(
            "Zones",
            "From the edge of the bottom the side climbs by this ratio until it meets the design or a neighbour: 1.5:1 (or 1.5) runs 1.5 for each 1 it rises. 0 or blank is upright. What slope will stand is for local code and a competent person to say.",
        ),
    )
    algorithm.add(
        _field(BATTER_FIELD, translate("Zones", "Field with the batter of each zone"), _ANY),
        translate(
            "Zones",
            "Texts like 1.5:1, or numbers, the run for each 1 of rise; blank ones get what is given for all. Left blank together with the batter for all, a field called “batter” is used if there is one.",
        ),
        advanced=True,
    )


def _add_outside(algorithm: "UndercourseAlgorithm") -> None:
    algorithm.add(
        algorithm.choice(
            OUTSIDE,
            translate("Zones", "Outside all zones"),
            {
                str(Outside.KEEP): translate("Zones", "Keep the design"),
                str(Outside.LEAVE_OUT): translate("Zones", "Leave it out"),
                str(Outside.USE_DEPTH): translate("Zones", "Use the depth for all"),
            },
            str(Outside.KEEP),
        ),
        translate(
            "Zones",
            "What becomes of the design where no zone is. The depth for all is always measured plumb there.",
        ),
    )


def add_manner_parameters(algorithm: "UndercourseAlgorithm") -> None:
    """Add what happens past the design, what batters count from, and how corners go round."""
    algorithm.add(
        algorithm.choice(
            BEYOND,
            translate("Zones", "Past the edge of the design"),
            {
                str(Beyond.STOP): translate("Zones", "Stop"),
                str(Beyond.CARRY): translate("Zones", "Carry its slope on"),
            },
            str(Beyond.STOP),
        ),
        translate(
            "Zones",
            "Where zones, bottoms or sides reach past the edge of the design: nothing is made there, or the design is carried on with its slope as far as they reach.",
        ),
    )
    algorithm.add(
        algorithm.choice(
            BATTER_RULE,
            translate("Zones", "Batters count from"),
            {
                str(BatterRule.LEVEL): translate("Zones", "The level"),
                str(BatterRule.DESIGN): translate("Zones", "The design"),
            },
            str(BatterRule.LEVEL),
        ),
        translate(
            "Zones",
            "From the level, the ratio is the true run to rise of the side. From the design, it is the run over which the depth below the design becomes one less: even runouts on sloping ground.",
        ),
        advanced=True,
    )
    algorithm.add(
        algorithm.choice(
            CORNERS,
            translate("Zones", "Outside corners"),
            {
                str(Corners.MITRE): translate("Zones", "Mitred"),
                str(Corners.ROUND): translate("Zones", "Rounded"),
            },
            str(Corners.MITRE),
        ),
        translate(
            "Zones",
            "How bottoms that carry on and batters go round outside corners. A mitre reaches 4 times the width at most: sharper corners are cut square in bottoms and rounded in batters.",
        ),
        advanced=True,
    )


def add_snap_parameter(algorithm: "UndercourseAlgorithm") -> None:
    """Add the distance within which borders are meant to be one."""
    algorithm.add(
        algorithm.length(
            SNAP,
            translate("Zones", "Join borders of zones nearer than"),
            None,
            optional=True,
            plan=True,
        ),
        translate(
            "Zones",
            "Gaps and overlaps between neighbours up to this distance are closed before anything else: the smaller zone gives way, and the largest move is reported. Left blank it is {usual}; at most {most}. Zones farther apart than that are meant to be apart.",
        ).format(usual=f"{1000 * SNAP_METRES:g} mm", most=f"{1000 * MOST_JOIN_METRES:g} mm"),
        advanced=True,
    )


def depth_field(
    algorithm: "UndercourseAlgorithm", parameters: dict[str, Any], context: QgsProcessingContext
) -> str:
    """Return the field with the depths, empty for none.

    With neither a field nor a depth given it is the field called "depth" of the zones, if any.
    """
    depth = algorithm.text(parameters, DEPTH, context)
    return field_or_usual(algorithm, parameters, context, DEPTH_FIELD, depth, "depth")


def field_or_usual(
    algorithm: "UndercourseAlgorithm",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    name: str,
    for_all: str,
    usual: str,
) -> str:
    """Return the field chosen; with neither field nor value for all, the one of usual name."""
    field = algorithm.text(parameters, name, context)
    if field or for_all:
        return field
    return usual_field(algorithm.source(parameters, ZONES, context), usual)


def missing_depth(
    algorithm: "UndercourseAlgorithm", parameters: dict[str, Any], context: QgsProcessingContext
) -> str | None:
    """Return what to say when the parameters give no depth, or None."""
    has_depth = bool(algorithm.text(parameters, DEPTH, context))
    if not has_depth and not depth_field(algorithm, parameters, context):
        return translate(
            "Zones",
            "There is no depth: choose the field with the depth of each zone, or give a depth for all.",
        )
    if not has_depth and algorithm.word(parameters, OUTSIDE, context) == Outside.USE_DEPTH:
        return translate(
            "Zones",
            "Outside all zones the depth for all is to be used, but it is empty: give it.",
        )
    return None


def _field(
    name: str, label: str, kind: Qgis.ProcessingFieldParameterDataType
) -> QgsProcessingParameterField:
    return QgsProcessingParameterField(name, label, None, ZONES, kind, False, True)
