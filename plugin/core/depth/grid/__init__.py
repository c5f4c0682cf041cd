"""Depth surfaces on a grid."""

from .lowering import CARRY, Lowering
from .rays import FARTHEST
from .tally import Tally

__all__ = ["CARRY", "FARTHEST", "Lowering", "Tally"]
