"""Cutting a surface by polygons, exactly and without cracks."""

from .cutting import cut_tin
from .result import CutTin

__all__ = ["CutTin", "cut_tin"]
