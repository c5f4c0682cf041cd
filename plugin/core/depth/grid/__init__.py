"""Depth surfaces on a grid."""

from .feet import FARTHEST
from .lowering import CARRY, Lowering
from .tally import Tally

__all__ = ["CARRY", "FARTHEST", "Lowering", "Tally"]
