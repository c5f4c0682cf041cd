"""The surface carried on beyond its borders."""

from .extend import Extended, extend
from .manner import Pick, Rule

__all__ = ["Extended", "Pick", "Rule", "extend"]
