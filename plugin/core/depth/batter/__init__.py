"""Sides that climb from the bottoms of zones until they meet what lies around them."""

from .batter import BatterOutcome, batter

__all__ = ["BatterOutcome", "batter"]
