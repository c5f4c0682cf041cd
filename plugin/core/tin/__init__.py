"""The surface as a triangulated irregular network: topology, planes, health, location."""

from .edges import Edges, pair_half_edges
from .mesh import Tin

__all__ = ["Edges", "Tin", "pair_half_edges"]
