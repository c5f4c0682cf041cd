"""A thickness measured at right angles to the surface."""

from .outcome import SquareOutcome
from .squaring import square_off
from .thickness import square_depth

__all__ = ["SquareOutcome", "square_depth", "square_off"]
