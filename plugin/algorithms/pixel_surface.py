"""A raster that was given as a surface, as triangles."""

from dataclasses import replace

import numpy as np

from ..core.errors import UndercourseError
from ..core.text import translate
from ..core.tin.pixels import of_pixels
from ..layers.rasters import RasterSource
from ..layers.surfaces import Surface

MOST_PIXELS = 4_000_000


def triangulated(surface: Surface) -> Surface:
    """Return a surface as a TIN: a raster between the centres of its pixels.

    Raises
    ------
    UndercourseError
        The raster has too many pixels, or no three neighbouring ones with heights.
    """
    source = surface.data
    if not isinstance(source, RasterSource):
        return surface
    if source.width * source.height > MOST_PIXELS:
        raise UndercourseError(
            translate(
                "Base",
                "The raster has {count:,} pixels, more than {most:,}: clip it, or make its pixels larger.",
            ).format(count=source.width * source.height, most=MOST_PIXELS)
        )
    with source.opened():
        window = source.read(0, 0, source.width, source.height)
    heights = np.where(source.missing(window), np.nan, window.astype(float))
    return replace(surface, data=of_pixels(heights, source.transform))
