"""Where stations start: parameters that every algorithm with stations shares."""

from typing import Any

import numpy as np
from qgis.core import (
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingParameterField,
    QgsProcessingParameterString,
)

from ..core.errors import LengthTextError, UndercourseError
from ..core.lines.stationing import Stationing
from ..core.text import translate
from ..core.units import LinearUnit, parse_station
from ..layers.lines import LineTable
from ..layers.tables import column_values, plain_value
from .base import UndercourseAlgorithm
from .line_inputs import NamedLines
from .parameters import about, choice

STATIONS = "STATIONS"
START_STATION = "START_STATION"
STATION_FIELD = "STATION_FIELD"


def add_station_parameters(to: UndercourseAlgorithm, lines: str, *, advanced: bool = True) -> None:
    """Add the parameters that say where stations start on the lines of parameter ``lines``."""
    to.add(
        choice(
            STATIONS,
            translate("Base", "Stations"),
            {
                "start": translate("Base", "Counted from a start station"),
                "m": translate("Base", "Counted from the M of the first vertex"),
            },
            "start",
        ),
        translate(
            "Base",
            "A station is the plan distance along the line from its first vertex, plus the start station. Lines of alignments have their station as M.",
        ),
        advanced=advanced,
    )
    to.add(
        QgsProcessingParameterString(
            START_STATION, translate("Base", "Start station"), "0", False, True
        ),
        translate(
            "Base",
            "Station of the first vertex: 12+50.00 in feet, 1+250.000 in metres, or a plain distance in the unit of the CRS.",
        ),
        advanced=advanced,
    )
    to.add(
        QgsProcessingParameterField(
            STATION_FIELD,
            translate("Base", "Field with start stations"),
            None,
            lines,
            optional=True,
        ),
        translate("Base", "Start station of each line; where it is empty the one above holds."),
        advanced=advanced,
    )


def station_field(
    algorithm: UndercourseAlgorithm, parameters: dict[str, Any], context: QgsProcessingContext
) -> list[str]:
    """Return the field that has to be read with the lines, if any."""
    name = algorithm.text(parameters, STATION_FIELD, context)
    return [name] if name else []


def read_stationing(
    algorithm: UndercourseAlgorithm,
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    sources: NamedLines,
    unit: LinearUnit,
) -> Stationing:
    """Return the stations of lines as read, counted along their arcs.

    Where a feature has several parts, each part goes on at the station where the one before ended,
    so that no station comes twice on one line.

    Raises
    ------
    UndercourseError
        A start station cannot be read, or lines have no M to count from.
    """
    table, lines, arcs = sources.table, sources.lines, sources.arcs
    if algorithm.word(parameters, STATIONS, context) == "m":
        return Stationing.of(lines, _first_m(table), arcs)
    text = algorithm.text(parameters, START_STATION, context) or "0"
    try:
        usual = parse_station(text, unit)
    except LengthTextError as error:
        definition = algorithm.parameterDefinition(START_STATION)
        raise UndercourseError(about(definition, str(error))) from error
    start = np.full(len(lines), usual)
    for name in station_field(algorithm, parameters, context):
        start = column_values(
            table.columns[name],
            table.ids,
            lambda v: parse_station(plain_value(v), unit),
            name,
            usual,
        )
    if _has_m(table):
        message = translate(
            "Base",
            "The lines have M values, which are not used: choose “Counted from the M of the first vertex” if they are stations.",
        )
        feedback.pushInfo(message)
    return Stationing.of(lines, start + _before(table, Stationing.of(lines, 0.0, arcs)), arcs)


def listed_stations(
    algorithm: UndercourseAlgorithm,
    parameters: dict[str, Any],
    name: str,
    context: QgsProcessingContext,
    stationing: Stationing,
    unit: LinearUnit,
) -> np.ndarray:
    """Return the stations that a parameter lists, (k,) float.

    Raises
    ------
    UndercourseError
        One cannot be read, or no line has it.
    """
    text = algorithm.text(parameters, name, context)
    items = [item for item in text.replace(";", ",").split(",") if item.strip()]
    definition = algorithm.parameterDefinition(name)
    try:
        stations = [parse_station(item, unit) for item in items]
    except LengthTextError as error:
        raise UndercourseError(about(definition, str(error))) from error
    every = np.arange(len(stationing.length))
    for station, item in zip(stations, items, strict=True):
        if not np.isfinite(stationing.distance(every, station)).any():
            message = translate("Base", "no line has a station {station}.")
            raise UndercourseError(about(definition, message.format(station=item.strip())))
    return np.array(stations, float)


def _before(table: LineTable, alone: Stationing) -> np.ndarray:
    """Return the length of the earlier parts of the same feature, (k,) float."""
    total = np.cumsum(alone.lengths) - alone.lengths
    head = np.flatnonzero(table.parts == 0)
    return total - total[head[np.searchsorted(head, np.arange(len(total)), "right") - 1]]


def _has_m(table: LineTable) -> bool:
    return any(xyz.shape[1] > 3 and np.isfinite(xyz[:, 3]).any() for xyz in table.coordinates)


def _first_m(table: LineTable) -> np.ndarray:
    first = np.array([xyz[0, 3] if xyz.shape[1] > 3 else np.nan for xyz in table.coordinates])
    bare = np.flatnonzero(~np.isfinite(first))
    if len(bare):
        raise UndercourseError(
            translate(
                "Base",
                "Feature {id} has no M at its first vertex: count its stations from a start station.",
            ).format(id=table.ids[bare[0]])
        )
    return first
