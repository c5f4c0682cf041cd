"""Putting cells back among the untouched faces."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress
from ..patchwork import Part, Patchwork
from .cells import DESIGN, LOW, PLAN, Cells, insert, whole_faces
from .facets import Facets
from .ground import Ground
from .join import join_near
from .merge import triangles_of
from .splits import Splits

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_STRAIGHT = 1e-2  # of eps
_NEAR = 0.1  # of eps


def assemble(
    patch: Patchwork,
    ground: Ground,
    facets: Facets,
    parts: list[Cells],
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
    parts, splits : list of Cells, Splits
        What was split.
    progress : Progress
        Told the share done.

    Returns
    -------
    patch : Patchwork
        Faces that no side touches keep their numbers.
    residual : float
        Greatest difference of heights that were made equal.
    failed : int
        Rings that could not be triangulated well.
    """
    touched = np.zeros(len(ground.faces), dtype=bool)
    for some in parts:
        touched[some.face] = True
    around = np.unique(ground.across[touched])
    around = around[around >= 0]
    splits = splits.whole()
    beside = insert(whole_faces(ground, around[~touched[around]]), splits)[0]
    beside = beside.take(np.flatnonzero(beside.sizes > 3))
    cells = Cells.joined([*(insert(some, splits)[0] for some in parts), beside])
    cells, joined = join_near(cells, len(ground.xy), _NEAR * ground.eps)
    progress(0.3)
    residual = _agree(ground, cells, touched, joined)
    corners, cell, failed = triangles_of(cells, len(ground.xy), _STRAIGHT * ground.eps)
    progress(0.8)
    touched[beside.face] = True
    holes = ground.rows[touched]
    points, faces = _points(ground.xy, cells, corners)
    facet, source = cells.facet[cell], ground.rows[cells.face[cell]]
    dug = facet >= 0
    zone = np.where(dug, facets.zone[facet], patch.zone[source])
    kind = np.where(dug, Part.BATTER, patch.part[source])
    made = replace(
        patch,
        points=points,
        faces=_filled(patch.faces, holes, faces),
        heights=_filled(patch.heights, holes, cells.values[corners, LOW]),
        design=_filled(patch.design, holes, cells.values[corners, DESIGN]),
        zone=_filled(patch.zone, holes, zone),
        parent=_filled(patch.parent, holes, patch.parent[source]),
        part=_filled(patch.part, holes, kind),
    )
    return made, residual, failed


def _filled(old: NDArray, holes: Ints, new: NDArray) -> NDArray:
    """Put new rows in the place of some old ones, and the rest of them behind."""
    more = len(new) - len(holes)
    result = np.empty((len(old) + max(more, 0), *old.shape[1:]), dtype=old.dtype)
    result[: len(old)] = old
    result[holes[: len(new)]] = new[: len(holes)]
    if more >= 0:
        result[len(old) :] = new[len(holes) :]
        return result
    return np.delete(result, holes[len(new) :], axis=0)


def _points(xy: Floats, cells: Cells, corners: Ints) -> tuple[Floats, Ints]:
    """Return the points, with those new ones that are used, and the faces."""
    node = cells.node[corners]
    count = len(xy)
    new = np.flatnonzero(node.ravel() >= count)
    name = node.ravel()[new] - count
    spot = np.empty((int(name.max(initial=-1)) + 1, 2))
    used = np.zeros(len(spot), dtype=bool)
    spot[name], used[name] = cells.values[corners.ravel()[new], PLAN], True
    node.ravel()[new] = count + (np.cumsum(used) - 1)[name]
    return np.vstack((xy, spot[used])), node


def _agree(ground: Ground, cells: Cells, touched: NDArray[np.bool_], joined: Ints) -> float:
    """Give corners of sides, and those at joined nodes, a height that others there have too.

    Heights that differ by rounding become one. That of a face which no side has changed counts
    first, and stays as it is. Returned is the greatest change.
    """
    lowered = np.repeat(cells.facet >= 0, cells.sizes)
    wanted = np.zeros(max(int(cells.node.max(initial=0)) + 1, len(ground.xy)), dtype=bool)
    wanted[cells.node[lowered]] = True
    is_joined = np.zeros(len(wanted), dtype=bool)
    is_joined[joined] = wanted[joined] = True
    entries = np.flatnonzero(wanted[cells.node])
    beside = np.flatnonzero(wanted[ground.faces].any(axis=1) & ~touched)
    corner = np.flatnonzero(wanted[ground.faces[beside]].ravel())
    node = np.concatenate((cells.node[entries], ground.faces[beside].ravel()[corner]))
    height = np.concatenate((cells.values[entries, LOW], ground.heights[beside].ravel()[corner]))
    steep = np.hypot(*ground.slopes.T)
    face = np.concatenate((cells.face[cells.owner[entries]], beside[corner // 3]))
    fixed = np.ones(len(node), dtype=bool)
    fixed[: len(entries)] = ~lowered[entries]
    order = np.argsort(node)
    node, height, fixed = node[order], height[order], fixed[order]
    fresh = np.append(True, node[1:] != node[:-1])[: len(node)]
    head, place = np.flatnonzero(fresh), np.cumsum(fresh) - 1
    if not len(node):
        return 0.0
    steepest = np.maximum.reduceat(steep[face[order]], head)
    allowed = 4.0 * (ground.noise + ground.eps * (1.0 + steepest))
    wide = np.maximum.reduceat(height, head) - np.minimum.reduceat(height, head) > allowed
    # Where a surface jumps there is more than one height.
    some = np.flatnonzero(wide[place])
    within = some[np.lexsort((height[some], node[some]))]
    order[some], height[some], fixed[some] = order[within], height[within], fixed[within]
    apart = fresh.copy()
    apart[some[1:]] |= (height[some[1:]] - height[some[:-1]]) > allowed[place[some[1:]]]
    number, first = np.cumsum(apart) - 1, np.flatnonzero(apart)
    pick = np.minimum.reduceat(np.where(fixed, np.arange(len(node)), len(node)), first)
    common = height[np.where(pick < len(node), pick, first)]
    settled = np.empty(len(node))
    settled[order] = common[number]
    own = lowered[entries] | is_joined[cells.node[entries]]
    change = np.abs(settled[: len(entries)] - cells.values[entries, LOW])[own]
    cells.values[entries[own], LOW] = settled[: len(entries)][own]
    return float(change.max(initial=0.0))
