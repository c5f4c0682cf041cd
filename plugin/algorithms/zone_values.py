"""The values of the parameters of zones, and what is wrong with them."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from qgis.core import QgsProcessingContext

from ..core.depth.manner import BatterRule, Beyond, Corners, Manner, ThicknessRule
from ..core.errors import LengthTextError, UndercourseError
from ..core.text import translate
from ..core.tolerance import MOST_JOIN_METRES, Tolerance
from ..core.units import describe_length, parse_batter
from ..layers.crs import JobUnits
from . import zone_parameters as shared
from .parameters import about
from .zone_inputs import Ends, parse_width

if TYPE_CHECKING:
    from .base import UndercourseAlgorithm


def read_ends(
    algorithm: "UndercourseAlgorithm",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    job: JobUnits,
) -> Ends:
    """Return how thick zones are and how their bottoms end, for `read_zones`.

    Raises
    ------
    UndercourseError
        A value for all cannot be, such as a negative width.
    """
    widen = algorithm.text(parameters, shared.WIDEN, context)
    batter = algorithm.text(parameters, shared.BATTER, context)
    width = _read(algorithm, shared.WIDEN, lambda: parse_width(widen, job.plan)) if widen else 0.0
    return Ends(
        width,
        shared.field_or_usual(algorithm, parameters, context, shared.WIDEN_FIELD, widen, "widen"),
        parse_batter(batter) if batter else 0.0,
        shared.field_or_usual(
            algorithm, parameters, context, shared.BATTER_FIELD, batter, "batter"
        ),
        algorithm.word(parameters, shared.THICKNESS, context) == ThicknessRule.SQUARE,
        algorithm.text(parameters, shared.THICKNESS_FIELD, context),
        job.plan,
    )


def read_manner(
    algorithm: "UndercourseAlgorithm",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    job: JobUnits,
) -> Manner:
    """Return how bottoms end."""
    return Manner(
        corners=Corners(algorithm.word(parameters, shared.CORNERS, context)),
        rule=BatterRule(algorithm.word(parameters, shared.BATTER_RULE, context)),
        z_scale=job.vertical.to(job.plan),
    )


def read_beyond(
    algorithm: "UndercourseAlgorithm", parameters: dict[str, Any], context: QgsProcessingContext
) -> Beyond:
    """Return what happens past the edge of the design."""
    return Beyond(algorithm.word(parameters, shared.BEYOND, context))


def read_tolerance(
    algorithm: "UndercourseAlgorithm",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    job: JobUnits,
) -> Tolerance:
    """Return the tolerances of the run.

    Raises
    ------
    UndercourseError
        The distance to join borders within is negative, or no slip any more.
    """
    join = algorithm.length_value(parameters, shared.SNAP, context, job.plan)
    if join is None:
        return Tolerance.for_unit(job.plan.metres)
    most = MOST_JOIN_METRES / job.plan.metres
    if not 0 <= join <= most * (1 + 1e-9):
        raise UndercourseError(
            about(
                algorithm.parameterDefinition(shared.SNAP),
                translate(
                    "Zones",
                    "{value} is not between 0 and {most}: borders farther apart than that are meant to be apart, mend them in the layer.",
                ).format(
                    value=describe_length(join, job.plan), most=describe_length(most, job.plan)
                ),
            )
        )
    return Tolerance.for_unit(job.plan.metres, join=join)


def fault_of_zones(
    algorithm: "UndercourseAlgorithm", parameters: dict[str, Any], context: QgsProcessingContext
) -> str | None:
    """Return what is wrong with the parameters of zones, as far as they tell it, or None."""
    fault = shared.missing_depth(algorithm, parameters, context)
    batter = algorithm.text(parameters, shared.BATTER, context)
    if fault is None and batter:
        try:
            _read(algorithm, shared.BATTER, lambda: parse_batter(batter))
        except UndercourseError as error:
            return str(error)
    return fault


def _read(algorithm: "UndercourseAlgorithm", name: str, read: Callable[[], float]) -> float:
    """Return the value of a parameter; what keeps it from being read names the parameter."""
    try:
        return read()
    except LengthTextError as error:
        raise UndercourseError(about(algorithm.parameterDefinition(name), str(error))) from error
