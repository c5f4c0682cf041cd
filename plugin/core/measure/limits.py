"""How far a depth may be off what is asked, written as people write it."""

import math
import re
from dataclasses import dataclass

from ..errors import LengthTextError
from ..text import translate
from ..units import LinearUnit, parse_length

ANY = "any"
"""Written instead of a length where there is no limit."""
_UNIT = re.compile(r"^[\d\s./]+(\D*)$")


@dataclass(frozen=True)
class Limits:
    """How far a depth may differ from the depth asked for.

    Parameters
    ----------
    less : float
        How much shallower it may be, >= 0; infinite for any.
    more : float
        How much deeper it may be, >= 0; infinite for any.
    """

    less: float
    more: float


def parse_limits(text: str | float, unit: LinearUnit) -> Limits:
    """Return written limits in a unit.

    Parameters
    ----------
    text
        One length for both ways (``0.05``, ``1/2 in``, ``+/- 0.05 ft``), or one for each way:
        ``-0 / +0.05 ft``, - for shallower and + for deeper. ``any`` stands for no limit:
        ``-0 / +any``. A unit behind the last length counts for one before it without its own.
    unit
        Unit of the result, and of lengths without one.

    Raises
    ------
    LengthTextError
        The text cannot be read.
    """
    written = str(text).strip().replace("\N{MINUS SIGN}", "-").replace("\N{EN DASH}", "-")
    written = re.sub(r"^(\+\s*/?\s*-|\N{PLUS-MINUS SIGN})\s*", "", written)
    if not written.startswith(("+", "-")):
        both = _length(written, written, unit)
        return Limits(both, both)
    pieces = re.split(r"[/,;\s]+(?=[+\-])", written)
    found: dict[str, str] = {}
    for piece in pieces:
        sign, rest = piece[:1], piece[1:].strip()
        if sign not in "+-" or not rest or sign in found:
            raise _unreadable(written)
        found[sign] = rest
    if len(found) != 2:
        raise _unreadable(written)
    behind = _UNIT.match(found[pieces[-1][:1]])
    values = {}
    for sign, rest in found.items():
        bare = _UNIT.match(rest)
        lacks = bare is not None and not bare[1] and behind is not None
        values[sign] = _length(rest + (behind[1] if lacks and behind else ""), written, unit)
    return Limits(values["-"], values["+"])


def _length(text: str, whole: str, unit: LinearUnit) -> float:
    if text.strip().lower() == ANY:
        return math.inf
    try:
        value = parse_length(text, unit)
    except LengthTextError as error:
        raise _unreadable(whole) from error
    if value < 0:
        raise _unreadable(whole)
    return value


def _unreadable(text: str) -> LengthTextError:
    return LengthTextError(
        translate(
            "Core",
            "'{text}' is no tolerance: write one length for both ways, such as 0.05 ft, or one for each way, such as -0 / +0.05 ft (- shallower, + deeper; “any” for no limit).",
        ).format(text=text)
    )
