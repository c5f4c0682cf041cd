"""Slope breaks: where the slope of a surface changes, as lines with a kind and grades."""

from .change import WALL_GRADE, Measure, measure_edges, steep_edges
from .find import Found, Search, find_breaks
from .kinds import BREAK_KINDS, KINDS, Kind, classify
from .lines import BreakLines, Spread
from .patches import Patches

__all__ = [
    "BREAK_KINDS",
    "KINDS",
    "WALL_GRADE",
    "BreakLines",
    "Found",
    "Kind",
    "Measure",
    "Patches",
    "Search",
    "Spread",
    "classify",
    "find_breaks",
    "measure_edges",
    "steep_edges",
]
