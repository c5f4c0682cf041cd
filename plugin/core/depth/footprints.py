"""Where in plan the parts of a depth surface lie, as polygons."""

import numpy as np
import shapely
from numpy.typing import NDArray

from .patchwork import Part
from .surface import DepthSurface


def footprints(surface: DepthSurface, part: Part) -> NDArray[np.object_]:
    """Return the plan outline of a part of each zone, (k,) object; None where there is none."""
    outlines = np.full(len(surface.zones), None, dtype=object)
    rows = np.flatnonzero((surface.part == part) & (surface.zone >= 0))
    if not len(rows):
        return outlines
    triangles = shapely.polygons(surface.tin.vertices[surface.tin.faces[rows]][..., :2])
    zone = surface.zone[rows]
    order = np.argsort(zone, kind="stable")
    for some in np.split(order, np.flatnonzero(np.diff(zone[order])) + 1):
        with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
            outlines[zone[some[0]]] = shapely.coverage_union_all(triangles[some])
    return outlines
