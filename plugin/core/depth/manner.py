"""How the bottom of a zone ends: its corners and its sides."""

from dataclasses import dataclass
from enum import StrEnum


class ThicknessRule(StrEnum):
    """How a thickness is measured."""

    PLUMB = "plumb"
    SQUARE = "square"


class Corners(StrEnum):
    """How outside corners are carried around."""

    MITRE = "mitre"
    ROUND = "round"


class BatterRule(StrEnum):
    """What the ratio of a batter counts from."""

    LEVEL = "level"
    """Run per rise above the horizontal, in the section at right angles to the edge."""
    DESIGN = "design"
    """Run over which the depth below the design becomes one less."""


class Beyond(StrEnum):
    """What happens where bottoms and sides run past the edge of the design."""

    STOP = "stop"
    """They end there."""
    CARRY = "carry"
    """The design is first carried on with its slope as far as they reach."""


@dataclass(frozen=True)
class Manner:
    """How bottoms end.

    Parameters
    ----------
    corners : Corners
        Of widened bottoms and of batters.
    mitre_limit : float
        A mitre reaches at most this many times the offset from its corner; sharper corners are
        rounded in batters and cut square in widenings.
    rule : BatterRule
        What a batter counts from.
    z_scale : float
        Plan units in one unit of height.
    """

    corners: Corners = Corners.MITRE
    mitre_limit: float = 4.0
    rule: BatterRule = BatterRule.LEVEL
    z_scale: float = 1.0
