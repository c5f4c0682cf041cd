"""Profiles of surfaces along cross sections, whether they are TINs or rasters."""

from ..core.measure.section_quantities import Profiler
from ..core.measure.sections import TIE, grid_places, profiles_at, profiles_of_tin
from ..core.progress import Progress, silent
from ..core.tin import Tin
from .rasters import RasterSource
from .sampling import raster_heights


def profiler(surface: Tin | RasterSource, metres: float, progress: Progress = silent) -> Profiler:
    """Return the function that makes the profiles of a surface.

    Parameters
    ----------
    surface
        The surface.
    metres
        Metres in a plan unit.
    progress
        Told the share done.
    """
    if isinstance(surface, Tin):
        return lambda sections: profiles_of_tin(sections, surface, TIE / metres, progress)

    def of_raster(sections):
        section, offset = grid_places(sections, surface.transform, surface.width, surface.height)
        heights = raster_heights(surface, sections.places(section, offset))
        return profiles_at(section, offset, heights)

    return of_raster
