"""Stations: distance along a line, printed as surveyors stake it."""

import re
from fractions import Fraction

from ..errors import LengthTextError
from ..text import translate
from .linear import LinearUnit
from .numbers import plain

_STATION = re.compile(r"([+-]?)([0-9]+)\+([0-9]+(?:\.[0-9]*)?)")
_DISTANCE = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)")


def format_station(value: float, unit: LinearUnit) -> str:
    """Return a station as text: ``12+50.00`` in feet, ``1+250.000`` in other units.

    Parameters
    ----------
    value
        Distance along the line, start station included.
    unit
        Its unit: a full station is 100 feet, or 1000 of any other unit.
    """
    digits, decimals = (2, 2) if unit.is_feet else (3, 3)
    scaled = round(abs(value) * 10**decimals)
    full, rest = divmod(scaled, 10 ** (digits + decimals))
    sign = "-" if value < 0 and scaled else ""
    whole, part = divmod(rest, 10**decimals)
    return f"{sign}{full}+{whole:0{digits}d}.{part:0{decimals}d}"


def parse_station(text: str | float, unit: LinearUnit) -> float:
    """Return the distance that a station text means; inverse of `format_station`.

    Parameters
    ----------
    text
        ``12+50.00`` in feet, ``1+250.000`` in other units, or a plain distance.
    unit
        Unit of the line.

    Raises
    ------
    LengthTextError
        If it is no station, or its part after the plus has not the two digits of a station in
        feet or the three of one in metres (which hints at the other unit).
    """
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        return float(text)
    cleaned = plain(str(text)).replace(" ", "")
    if _DISTANCE.fullmatch(cleaned):
        return float(cleaned)
    match = _STATION.fullmatch(cleaned)
    digits = 2 if unit.is_feet else 3
    if match is None or len(match[3].partition(".")[0]) != digits:
        example = "12+50.00" if unit.is_feet else "1+250.000"
        raise LengthTextError(
            translate(
                "Core",
                "'{text}' is not a station in this job's unit ({unit}): write it like {example}.",
            ).format(text=str(text).strip(), unit=unit.name, example=example)
        )
    value = int(match[2]) * 10**digits + Fraction(match[3])
    return float(-value if match[1] == "-" else value)
