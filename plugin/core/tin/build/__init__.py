"""Building a surface of points, breaklines and a boundary."""

from .build import build_tin
from .manner import Boundary, Breaklines, Built, Manner, Points

__all__ = ["Boundary", "Breaklines", "Built", "Manner", "Points", "build_tin"]
