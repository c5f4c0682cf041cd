"""The linear unit and the coordinate system that a file says it is in."""

from dataclasses import dataclass

from ...text import translate
from ...units import (
    CENTIMETRE,
    FOOT,
    INCH,
    KILOMETRE,
    METRE,
    MILLIMETRE,
    US_SURVEY_FOOT,
    LinearUnit,
)
from .node import Node

MILE = LinearUnit("mile", "mi", 1609.344)
"""International mile of 5280 international feet."""

LINEAR_UNITS = {
    "millimeter": MILLIMETRE,
    "centimeter": CENTIMETRE,
    "meter": METRE,
    "kilometer": KILOMETRE,
    "foot": FOOT,
    "ussurveyfoot": US_SURVEY_FOOT,
    "inch": INCH,
    "mile": MILE,
}
"""Values of ``linearUnit`` in the LandXML 1.2 schema, in lower case."""


@dataclass(frozen=True)
class CoordinateSystem:
    """What the file says about its coordinate system, as it stands there."""

    name: str = ""
    description: str = ""
    epsg: str = ""
    vertical: str = ""


def read_units(node: Node) -> LinearUnit | None:
    """Return the linear unit of a ``Units`` element, None when it names none.

    ``elevationUnit`` is not looked at: its default is metre even in files in feet, and the third
    coordinate of a point is in the linear unit like the other two.

    Raises
    ------
    ExchangeError
        The unit is none of the schema's, or two different ones are given.
    """
    found: dict[str, LinearUnit] = {}
    for child in node.children:
        word = child.get("linearUnit")
        if child.tag not in {"Metric", "Imperial"} or not word:
            continue
        if word.lower() not in LINEAR_UNITS:
            raise child.place.error(
                translate(
                    "Core",
                    "linearUnit='{word}' is not a unit of LandXML (meter, foot, USSurveyFoot, ...): correct it.",
                ).format(word=word)
            )
        found[word.lower()] = LINEAR_UNITS[word.lower()]
    if len(found) > 1:
        raise node.place.error(
            translate("Core", "two different linear units are given ({units}): keep one.").format(
                units=", ".join(found)
            )
        )
    return next(iter(found.values()), None)


def read_coordinate_system(node: Node) -> CoordinateSystem:
    """Return what a ``CoordinateSystem`` element says."""
    epsg = node.get("epsgCode")
    return CoordinateSystem(
        name=node.get("name") or node.get("horizontalCoordinateSystemName"),
        description=node.get("desc"),
        epsg=epsg.upper().removeprefix("EPSG:").strip(),
        vertical=node.get("verticalCoordinateSystemName") or node.get("verticalDatum"),
    )
