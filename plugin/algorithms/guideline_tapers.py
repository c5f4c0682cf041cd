"""Tapers as people write them, and what is said of them."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from qgis.core import QgsProcessingFeatureSource

from ..core.errors import LengthTextError, UndercourseError
from ..core.lines.stationing import Stationing
from ..core.lines.taper import Taper
from ..core.lines.words import plain_length
from ..core.text import translate
from ..core.units import LinearUnit, parse_length, parse_station
from ..layers.tables import (
    Source,
    column_lengths,
    column_texts,
    column_values,
    is_blank,
    plain_value,
    read_table,
    usual_field,
)

Written = list[tuple[float | None, float]]
"""Station (None: an end of the line) and offset of each stated place."""


def parse_taper(text: str, unit: LinearUnit) -> Written:
    """Return the places of a taper.

    Parameters
    ----------
    text
        ``1 ft > 3 ft`` from the start of the line to its end, or ``0+00: 1 ft; 1+00: 3 ft`` at
        stations.
    unit
        Unit of the plan.

    Raises
    ------
    LengthTextError
        It is no taper, an offset is not above 0, or stations do not rise.
    """
    if ":" in text:
        pairs = [item.rpartition(":") for item in text.split(";") if item.strip()]
        places: Written = [(parse_station(s, unit), parse_length(o, unit)) for s, _, o in pairs]
    else:
        places = [(None, parse_length(item, unit)) for item in text.split(">")]
        if len(places) != 2:
            raise LengthTextError(
                translate(
                    "Guidelines",
                    "“{text}” is no taper: write it like 1 ft > 3 ft, or like 0+00: 1 ft; 1+00: 3 ft.",
                ).format(text=text)
            )
    return _checked(places)


def _checked(places: Written) -> Written:
    stations = [station for station, _ in places if station is not None]
    if (np.diff(stations) <= 0).any():
        raise LengthTextError(translate("Guidelines", "the stations of a taper have to rise."))
    if min(offset for _, offset in places) <= 0:
        raise LengthTextError(
            translate(
                "Guidelines",
                "the offsets of a taper are above 0 all along, since at 0 the guideline would change sides.",
            )
        )
    return places


def read_tapers(source: Source, names: Sequence[str], unit: LinearUnit) -> list[Written | None]:
    """Return the taper that a table gives each line.

    Parameters
    ----------
    source
        A table with the columns station and offset, and if wanted line: the name of the line that
        a row is for. Rows without it are for all other lines.
    names
        Names of the lines.
    unit
        Unit of the plan.

    Raises
    ------
    UndercourseError
        A column is missing, a value cannot be read, stations do not rise, or no line has the name.
    """
    label = source.sourceName() if isinstance(source, QgsProcessingFeatureSource) else source.name()
    wanted = [usual_field(source, name) or name for name in ("station", "offset")]
    line = usual_field(source, "line")
    table = read_table(source, [*wanted, *([line] if line else [])], label)
    if not len(table.ids):
        message = translate("Guidelines", "“{table}”, the table of tapers has no rows: fill it in, or leave it out.")  # fmt: skip # noqa: E501
        raise UndercourseError(message.format(table=label))
    row = translate("Guidelines", "Row")
    station = column_values(
        table.columns[wanted[0]], table.ids, lambda v: parse_station(plain_value(v), unit), wanted[0], thing=row
    )  # fmt: skip # noqa: E501
    offset = column_lengths(table.columns[wanted[1]], table.ids, unit, wanted[1], thing=row)
    owner = column_texts(table.columns[line]) if line else [""] * len(table.ids)
    found: dict[str, Written] = {}
    for name, s, o in zip(owner, station.tolist(), offset.tolist(), strict=True):
        found.setdefault(name, []).append((s, o))
    for name, places in found.items():
        if name and name not in names:
            message = translate("Guidelines", "Table of tapers: no line is called “{name}”.")
            raise UndercourseError(message.format(name=name))
        try:
            _checked(places)
        except LengthTextError as error:
            message = translate("Guidelines", "Table of tapers, line “{name}”: {why}")
            if not name:
                message = translate("Guidelines", "Table of tapers, rows without a line: {why}")
            raise UndercourseError(message.format(name=name, why=error)) from error
    return [found.get(name, found.get("")) for name in names]


def tapers_of(
    values: Sequence[Any] | None,
    ids: np.ndarray,
    default: Sequence[Written | None],
    unit: LinearUnit,
    field: str,
    stations: Stationing,
) -> list[Taper | None]:
    """Return the taper of each line: its own where it has one, else the usual one.

    Raises
    ------
    UndercourseError
        A text cannot be read, none of its stations is on the line, or a closed line would not
        end with the offset it starts with; the feature is named.
    """
    result: list[Taper | None] = []
    for k, identifier in enumerate(ids.tolist()):
        written = default[k]
        try:
            if values is not None and not is_blank(values[k]):
                written = parse_taper(str(values[k]), unit)
            result.append(None if written is None else _on_line(written, stations, k))
        except LengthTextError as error:
            where = translate("Guidelines", "Feature {id}, field “{field}”: {why}")
            if values is None or is_blank(values[k]):
                where = translate("Guidelines", "Feature {id}, taper: {why}")
            raise UndercourseError(where.format(id=identifier, field=field, why=error)) from error
    return result


def _on_line(written: Written, stations: Stationing, k: int) -> Taper:
    length = float(stations.length[k])
    offset = np.array([o for _, o in written])
    if written[0][0] is None:
        taper = Taper(np.array([0.0, length]), offset)
    else:
        along = stations.beyond(k, np.array([float(s or 0.0) for s, _ in written]))
        if along[-1] < 0 or along[0] > length:
            raise LengthTextError(
                translate("Guidelines", "none of the stations of the taper is on the line.")
            )
        taper = Taper(along, offset)
    ends = taper.at(np.array([0.0, length]))
    if stations.closed[k] and abs(ends[0] - ends[1]) > 1e-9:
        raise LengthTextError(
            translate("Guidelines", "a closed line has to end with the offset that it starts with.")
        )
    return taper


def ends_of(taper: Taper, length: float) -> tuple[float, float]:
    """Return the offsets of a taper at both ends of a line."""
    start, stop = taper.at(np.array([0.0, length]))
    return float(start), float(stop)


def taper_text(taper: Taper, length: float, unit: LinearUnit) -> str:
    """Return a taper in words: ``1.00 ft to 3.00 ft``, with its extreme where it lies between."""
    start, stop = ends_of(taper, length)
    inside = taper.offset[(taper.distance > 0) & (taper.distance < length)]
    text = translate("Guidelines", "{start} to {stop}").format(
        start=plain_length(start, unit), stop=plain_length(stop, unit)
    )
    beyond = [o for o in inside if not min(start, stop) <= o <= max(start, stop)]
    if beyond:
        text += translate("Guidelines", " (between: {more})").format(
            more=", ".join(plain_length(float(o), unit) for o in beyond)
        )
    return text
