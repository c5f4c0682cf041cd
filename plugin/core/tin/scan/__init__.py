"""The surface on a grid: heights and faces at the centres of pixels, row by row."""

from .scan import Scan

__all__ = ["Scan"]
