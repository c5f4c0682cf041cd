"""Sides and directions in words, and the sentence that a foreman can read out."""

from dataclasses import dataclass

import numpy as np

from ..text import translate
from ..units import LinearUnit
from .bundle import Lines
from .direction import headings, sense

WINDS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
"""The eight winds in script order: bearing = 45 degrees x index."""


def wind_word(wind: int) -> str:
    """Return the name of a wind by its index 0 to 7 (north, clockwise)."""
    return (
        translate("Core", "north"),
        translate("Core", "north-east"),
        translate("Core", "east"),
        translate("Core", "south-east"),
        translate("Core", "south"),
        translate("Core", "south-west"),
        translate("Core", "west"),
        translate("Core", "north-west"),
    )[wind % 8]


def loud_side(side: int) -> str:
    """Return "RIGHT" for +1, "LEFT" for -1: the word nobody may overhear."""
    return translate("Core", "RIGHT") if side > 0 else translate("Core", "LEFT")


def plain_length(value: float, unit: LinearUnit) -> str:
    """Return a length with two decimals, or a third where it is needed: ``"1.00 ft"``.

    Made to be read out: "ft" is the foot of the job, as it is where lengths are read.
    """
    base = unit.base
    number = abs(value) * unit.to(base)
    decimals = 2 if abs(round(number, 2) - number) < 5e-4 else 3
    return f"{number:.{decimals}f} {'ft' if base.is_feet else base.symbol}"


def short_label(side: int, value: float, unit: LinearUnit) -> str:
    """Return the label of a guideline on a map: ``"R 1.00 ft"``."""
    letter = translate("Core", "R") if side > 0 else translate("Core", "L")
    return f"{letter} {plain_length(value, unit)}"


@dataclass(frozen=True)
class Ways:
    """The two ways to drive each line, in words.

    Parameters
    ----------
    along, against
        "north-east", "clockwise", or "from its first to its last vertex" where the line turns so
        far that neither holds; one for each line.
    """

    along: list[str]
    against: list[str]


def ways(lines: Lines) -> Ways:
    """Name the direction of each line and the opposite one."""
    winds = headings(lines).wind
    rings = sense(lines)
    along, against = [], []
    for wind, ring in zip(winds.tolist(), rings.tolist(), strict=True):
        if wind >= 0:
            along.append(wind_word(wind))
            against.append(wind_word(wind + 4))
        elif ring:
            both = (translate("Core", "clockwise"), translate("Core", "anticlockwise"))
            along.append(both[0] if ring > 0 else both[1])
            against.append(both[1] if ring > 0 else both[0])
        else:
            along.append(translate("Core", "from its first to its last vertex"))
            against.append(translate("Core", "from its last to its first vertex"))
    return Ways(along, against)


def faces(wind: int, ring: int, side: int) -> str:
    """Return where a side lies: a wind, inside or outside of a loop, or "varies".

    Parameters
    ----------
    wind
        Index of the wind, -1 = none holds.
    ring
        +1 = runs clockwise, -1 = anticlockwise, 0 = neither (`sense`).
    side
        +1 right, -1 left.
    """
    if wind >= 0:
        return wind_word(wind)
    if ring:
        # The right of a clockwise loop is its inside.
        return translate("Core", "inside") if ring == side else translate("Core", "outside")
    return translate("Core", "varies")


def sentence(
    name: str, side: int, offset: float | str, unit: LinearUnit, there: str, back: str
) -> str:
    """Return the sentence for the foreman.

    Parameters
    ----------
    name
        What people call the line.
    side
        Side as seen by the driver going ``there``: +1 right, -1 left.
    offset
        Distance, without regard to its sign, or what is said of one that changes.
    unit
        Its unit.
    there, back
        The way driven first and the way back, in words (`ways`).

    Examples
    --------
    >>> from plugin.core.units import FOOT
    >>> sentence("back of curb", 1, 1.0, FOOT, "north-east", "south-west")
    "1.00 ft to the RIGHT of 'back of curb', seen driving north-east; LEFT driving south-west"
    """
    return translate("Core", "{offset} to the {side} of '{name}', seen driving {there}; {other} driving {back}").format(  # noqa: E501
        offset=offset if isinstance(offset, str) else plain_length(offset, unit),
        side=loud_side(side),
        name=name,
        there=there,
        other=loud_side(-side),
        back=back,
    )  # fmt: skip


def bearing_text(bearing: float) -> str:
    """Return a bearing as three figures and a tenth: ``"045.0°"``; empty when there is none."""
    if not np.isfinite(bearing):
        return ""
    shown = round(float(bearing) % 360.0, 1) % 360.0
    return f"{shown:05.1f}°"
