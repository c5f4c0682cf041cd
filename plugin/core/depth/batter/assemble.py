"""Putting cells back among the untouched faces."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress
from ..patchwork import Part, Patchwork
from .cells import DESIGN, LOW, PLAN, Cells, Splits, insert_all, whole_faces
from .facets import Facets
from .ground import Ground
from .merge import triangles_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_STRAIGHT = 1e-2  # of eps


def assemble(
    patch: Patchwork,
    ground: Ground,
    facets: Facets,
    cells: Cells,
    splits: Splits,
    progress: Progress,
) -> tuple[Patchwork, float, int]:
    """Return the mesh with its sides.

    Parameters
    ----------
    patch, ground : Patchwork, Ground
        The mesh.
    facets : Facets
        Planes of the sides.
    cells, splits : Cells, Splits
        What was split.
    progress : Progress
        Told the share done.

    Returns
    -------
    patch : Patchwork
        Untouched faces first, in their order.
    residual : float
        Greatest difference of heights that were made equal.
    failed : int
        Rings that could not be triangulated well.
    """
    touched = np.zeros(len(patch.faces), dtype=bool)
    touched[cells.face] = True
    around = np.unique(ground.across[touched])
    around = around[around >= 0]
    around = around[~touched[around]]
    cells = insert_all(Cells.joined([cells, whole_faces(ground, around)]), splits)
    progress(0.3)
    residual = _agree(ground, cells, touched)
    corners, cell, failed = triangles_of(cells, len(ground.xy), _STRAIGHT * ground.eps)
    progress(0.8)
    touched[around] = True
    kept = np.flatnonzero(~touched)
    points, faces = _points(ground.xy, cells, corners)
    facet = cells.facet[cell]
    source = np.concatenate((kept, cells.face[cell]))
    dug = np.concatenate((np.zeros(len(kept), dtype=bool), facet >= 0))
    zone, parts = patch.zone[source], patch.part[source]
    zone[dug], parts[dug] = facets.zone[facet[facet >= 0]], Part.BATTER
    made = replace(
        patch,
        points=points,
        faces=np.vstack((patch.faces[kept], faces)),
        heights=np.vstack((patch.heights[kept], cells.values[corners, LOW])),
        design=np.vstack((patch.design[kept], cells.values[corners, DESIGN])),
        zone=zone,
        parent=patch.parent[source],
        part=parts,
    )
    return made, residual, failed


def _points(xy: Floats, cells: Cells, corners: Ints) -> tuple[Floats, Ints]:
    """Return the points, with those new ones that are used, and the faces."""
    node = cells.node[corners]
    new, first = np.unique(node[node >= len(xy)], return_index=True)
    spots = cells.values[corners[node >= len(xy)][first], PLAN]
    later = node >= len(xy)
    node = node.copy()
    node[later] = len(xy) + np.searchsorted(new, node[later])
    return np.vstack((xy, spots)), node


def _agree(ground: Ground, cells: Cells, touched: NDArray[np.bool_]) -> float:
    """Give corners of sides a height that others at their node have but for rounding.

    The height of a face that no side has changed counts first, and stays as it is. Returned is
    the greatest change.
    """
    lowered = np.repeat(cells.facet >= 0, cells.sizes)
    wanted = np.zeros(max(int(cells.node.max(initial=0)) + 1, len(ground.xy)), dtype=bool)
    wanted[cells.node[lowered]] = True
    entries = np.flatnonzero(wanted[cells.node])
    beside = np.flatnonzero(wanted[ground.faces].any(axis=1) & ~touched)
    corner = np.flatnonzero(wanted[ground.faces[beside]].ravel())
    node = np.concatenate((cells.node[entries], ground.faces[beside].ravel()[corner]))
    height = np.concatenate((cells.values[entries, LOW], ground.heights[beside].ravel()[corner]))
    steep = np.hypot(*ground.gradients(cells.face, ground.heights[cells.face]).T)
    steepest = np.zeros(len(wanted))
    np.maximum.at(steepest, cells.node, np.repeat(steep, cells.sizes))
    fixed = np.ones(len(node), dtype=bool)
    fixed[: len(entries)] = ~lowered[entries]
    order = np.lexsort((height, node))
    node, height, fixed = node[order], height[order], fixed[order]
    allowed = 4.0 * (ground.noise + ground.eps * (1.0 + steepest[node]))
    apart = np.ones(len(node), dtype=bool)
    apart[1:] = (node[1:] != node[:-1]) | (height[1:] - height[:-1] > allowed[1:])
    number = np.cumsum(apart) - 1
    pick = np.lexsort((~fixed, number))
    common = (
        height[pick[np.searchsorted(number, np.arange(number[-1] + 1))]] if len(node) else height
    )
    settled = np.empty(len(node))
    settled[order] = common[number]
    own = lowered[entries]
    change = np.abs(settled[: len(entries)] - cells.values[entries, LOW])[own]
    cells.values[entries[own], LOW] = settled[: len(entries)][own]
    return float(change.max(initial=0.0))
