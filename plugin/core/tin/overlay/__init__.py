"""Two surfaces over the same ground: what lies between them, and the cells they divide it into."""

from .between import Between, Figures
from .difference import level_of
from .integral import integrate
from .mosaic import Cells, cells

__all__ = ["Between", "Cells", "Figures", "cells", "integrate", "level_of"]
