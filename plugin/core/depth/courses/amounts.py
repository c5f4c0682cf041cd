"""Densities and swell factors as a schedule writes them.

Conversions: the pound is 0.45359237 kg and the foot 0.3048 m (international yard and pound
agreement of 1959; EPSG 9002 for the foot), so that 1 lb/ft3 is 16.01846 kg/m3.
"""

import math
import re

from ...errors import UndercourseError
from ...text import translate
from ...units.numbers import DECIMAL, plain

POUND = 0.45359237
"""Kilograms in a pound."""

SHORT_TON = 0.90718474
"""Tonnes in a short ton of 2,000 lb."""

MOST_DENSITY = 8.0
"""Tonnes per cubic metre; nothing that is laid is denser than steel (7.85, from memory)."""

MOST_SWELL = 3.0
"""A greater factor is a percentage written without its sign."""

_TONNES = {
    **dict.fromkeys(("t/m3", "t/m³", "t/m^3", "tonne/m3", "tonnes/m3"), 1.0),
    **dict.fromkeys(("kg/m3", "kg/m³", "kg/m^3"), 1e-3),
    **dict.fromkeys(("lb/ft3", "lb/ft³", "lb/ft^3", "lbs/ft3", "pcf"), POUND / 0.3048**3 / 1000),
    **dict.fromkeys(("lb/yd3", "lb/yd³", "lb/yd^3", "lbs/yd3"), POUND / 0.9144**3 / 1000),
}
_WRITTEN = re.compile(rf"({DECIMAL}) ?(.*)")


def parse_density(value: str | float) -> float:
    """Return a written density in tonnes per cubic metre.

    Parameters
    ----------
    value
        A number in t/m3, or a text with its unit: ``2.35 t/m3``, ``2350 kg/m3``, ``145 lb/ft3``.

    Raises
    ------
    UndercourseError
        It cannot be read, is not positive, or is denser than steel.

    Examples
    --------
    >>> from plugin.core.depth.courses.amounts import parse_density
    >>> parse_density("2400 kg/m3")
    2.4
    """
    match = _WRITTEN.fullmatch(plain(str(value)))
    unit = match[2].replace(" ", "") if match else ""
    factor = 1.0 if unit == "" else _TONNES.get(unit)
    if match is None or factor is None:
        raise UndercourseError(
            translate(
                "Core",
                "the density “{value}” cannot be read: write 2.35 (tonnes per cubic metre), 2350 kg/m3 or 145 lb/ft3.",
            ).format(value=value)
        )
    density = float(match[1]) * factor
    if not 0.0 < density <= MOST_DENSITY:
        raise UndercourseError(
            translate(
                "Core",
                "the density “{value}” is {density:g} tonnes per cubic metre, which nothing is: write the number with its unit, like 145 lb/ft3.",
            ).format(value=value, density=density)
        )
    return density


def parse_swell(value: str | float) -> float:
    """Return a written swell factor: loose volume over volume in place.

    Parameters
    ----------
    value
        A number from 1, e.g. ``1.25``.

    Raises
    ------
    UndercourseError
        It is no number, less than 1, or greater than 3.
    """
    try:
        factor = float(plain(str(value)))
    except ValueError:
        factor = math.nan
    if not 1.0 <= factor <= MOST_SWELL:
        raise UndercourseError(
            translate(
                "Core",
                "the swell “{value}” is no factor from 1 to 3: write 1.25 where the loose volume is a quarter more.",
            ).format(value=value)
        )
    return factor
