"""Depth surfaces on a grid."""

from .lowering import CARRY, Lowering
from .tally import Tally

__all__ = ["CARRY", "Lowering", "Tally"]
