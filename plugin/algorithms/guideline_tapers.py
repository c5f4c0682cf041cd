"""Tapers as people write them, and what is said of them."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from ..core.errors import LengthTextError, UndercourseError
from ..core.lines.stationing import Stationing
from ..core.lines.taper import Taper
from ..core.lines.words import plain_length
from ..core.text import translate
from ..core.units import LinearUnit, parse_length, parse_station
from ..layers.tables import is_blank

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
        written = [(parse_station(s, unit), parse_length(o, unit)) for s, _, o in pairs]
        if (np.diff([station for station, _ in written]) <= 0).any():
            raise LengthTextError(translate("Guidelines", "the stations of a taper have to rise."))
        places: Written = list(written)
    else:
        places = [(None, parse_length(item, unit)) for item in text.split(">")]
        if len(places) != 2:
            raise LengthTextError(
                translate(
                    "Guidelines",
                    "“{text}” is no taper: write it like 1 ft > 3 ft, or like 0+00: 1 ft; 1+00: 3 ft.",
                ).format(text=text)
            )
    if min(offset for _, offset in places) <= 0:
        raise LengthTextError(
            translate(
                "Guidelines",
                "the offsets of a taper are above 0 all along, since at 0 the guideline would change sides.",
            )
        )
    return places


def tapers_of(
    values: Sequence[Any] | None,
    ids: np.ndarray,
    default: Written | None,
    unit: LinearUnit,
    field: str,
    stations: Stationing,
) -> list[Taper | None]:
    """Return the taper of each line: its own where it has one, else that of the run.

    Raises
    ------
    UndercourseError
        A text cannot be read, none of its stations is on the line, or a closed line would not
        end with the offset it starts with; the feature is named.
    """
    result: list[Taper | None] = []
    for k, identifier in enumerate(ids.tolist()):
        written = default
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
        along = np.array([float(s or 0.0) for s, _ in written]) - float(stations.start[k])
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
