"""The rules for sides as people see them, and the layers that they need."""

from collections.abc import Iterable

from ..core.errors import UndercourseError
from ..core.lines.reference import Reference
from ..core.lines.sides import NEEDS_REFERENCE, NEEDS_SURFACE, Rule
from ..core.text import translate


def side_labels() -> dict[str, str]:
    """Return the words for sides and what people see for them."""
    return {
        str(Rule.RIGHT): translate("Guidelines", "Right of the line"),
        str(Rule.LEFT): translate("Guidelines", "Left of the line"),
        str(Rule.TOWARD): translate("Guidelines", "Toward the reference"),
        str(Rule.AWAY): translate("Guidelines", "Away from the reference"),
        str(Rule.INSIDE): translate("Guidelines", "Inside the reference areas"),
        str(Rule.OUTSIDE): translate("Guidelines", "Outside the reference areas"),
        str(Rule.UPHILL): translate("Guidelines", "Uphill on the surface"),
        str(Rule.DOWNHILL): translate("Guidelines", "Downhill on the surface"),
        str(Rule.STEEPER): translate("Guidelines", "Where the surface is steeper"),
        str(Rule.FLATTER): translate("Guidelines", "Where the surface is flatter"),
        str(Rule.COMPASS): translate("Guidelines", "Facing a compass side"),
    }


def require_areas(rules: Iterable[Rule], reference: Reference, label: str) -> None:
    """Refuse a reference without areas where a rule asks for inside or outside.

    ``label`` is what people call the reference.
    """
    for rule in (Rule.INSIDE, Rule.OUTSIDE):
        if rule in rules and not len(reference.areas):
            message = translate("Guidelines", "{label}: the side “{side}” needs polygons, and there are none in it. Choose a layer with areas, or another side.")  # fmt: skip # noqa: E501
            raise UndercourseError(message.format(label=label, side=side_labels()[rule]))


def lacking_layer(rule: Rule, *, reference: bool, surface: bool) -> str | None:
    """Say which layer a rule needs that is not given; None where nothing is lacking.

    ``reference`` and ``surface`` tell whether those layers are given.
    """
    side = side_labels()[rule]
    if rule in NEEDS_REFERENCE and not reference:
        return translate(
            "Guidelines", "The side “{side}” needs a reference: choose a layer for Reference."
        ).format(side=side)
    if rule in NEEDS_SURFACE and not surface:
        return translate(
            "Guidelines", "The side “{side}” needs a surface: choose a layer for Surface."
        ).format(side=side)
    return None
