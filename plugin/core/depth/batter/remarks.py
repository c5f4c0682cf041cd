"""What sides have to say about places where they cannot be right."""

import numpy as np
from numpy.typing import NDArray

from ...findings import Finding
from ...text import translate
from ..zones import Zones
from .facets import Facets
from .flood import Reached
from .ground import Ground
from .outline import Outlines

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def open_edges(ground: Ground, lines: Outlines, zones: Zones, origin: Floats) -> list[Finding]:
    """Tell of zones that end at the edge of the design, one finding a zone."""
    found = []
    rows = np.flatnonzero(lines.beyond < 0)
    ends = ground.xy[lines.nodes[rows]]
    length = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    for zone in np.unique(lines.zone[rows]):
        some = np.flatnonzero(lines.zone[rows] == zone)
        x, y = ends[some[length[some].argmax()]].mean(axis=0) + origin
        why = translate(
            "Core",
            "Zone {zone} ends at the edge of the design over {length:.4g} of its outline, near {x:.3f}, {y:.3f}: it has no side there; carry the design on past its edge to get one.",
        ).format(zone=zones.ids[zone], length=length[some].sum(), x=x, y=y)
        found.append(Finding("open_edge", why, (float(x), float(y)), int(zones.ids[zone])))
    return found


def leaving(
    ground: Ground, facets: Facets, reached: Reached, zones: Zones, origin: Floats
) -> list[Finding]:
    """Tell of sides that run off the design before they meet it, one finding a zone.

    Where a zone itself ends at the edge of the design its sides do so too; that is told already.
    """
    found = []
    off = reached.off[~facets.at_edge[reached.facet[reached.off]]]
    zone = facets.zone[reached.facet[off]]
    for row in np.unique(zone):
        some = reached.face[off[zone == row]]
        x, y = ground.xy[ground.faces[some[0]]].mean(axis=0) + origin
        why = translate(
            "Core",
            "The side of zone {zone} does not reach the surface before the edge of the design, at {count} faces, the first near {x:.3f}, {y:.3f}: carry the design on past its edge, or take a steeper batter.",
        ).format(zone=zones.ids[row], count=len(np.unique(some)), x=x, y=y)
        found.append(Finding("no_daylight", why, (float(x), float(y)), int(zones.ids[row])))
    return found
