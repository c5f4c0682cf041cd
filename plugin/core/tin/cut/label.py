"""Which zone each face lies in, told by the borders beside it rather than by a point in it.

Faces away from all borders take the zone of their grid cell. Near them, faces that hang together
without crossing a border are one group, and the borders around the group say its zone.
"""

import numpy as np
from numpy.typing import NDArray

from ..edges import pair_half_edges
from ..weld import hang_together
from .lookup import OUTSIDE, zones_around, zones_at
from .near import Marks

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def zones_of_cells(marks: Marks, polygons: NDArray[np.object_]) -> Ints:
    """Return the zone of each unmarked cell of a grid, (rows, columns) int.

    All cells of a run between marked ones lie in one zone: one point of each run is looked up.
    """
    rows, columns = marks.marked.shape
    begins = ~marks.marked
    begins[:, 1:] &= marks.marked[:, :-1]
    row, column = np.nonzero(begins)
    points = marks.corner + (np.column_stack((column, row)) + 0.5) * marks.cell
    # Borders are known on the surface only, where cells at its far edges reach beyond it.
    points = np.minimum(points, marks.far_corner)
    zone = np.append(zones_at(points, polygons), OUTSIDE)
    run = np.cumsum(begins.ravel()) - 1
    return zone[run].reshape(rows, columns)


def label_faces(
    faces: Ints,
    xy: Floats,
    borders: Ints,
    sides: Ints,
    polygons: NDArray[np.object_],
    thin: float,
) -> tuple[Ints, Ints]:
    """Return the zone of faces near borders.

    Parameters
    ----------
    faces : (f, 3) int
        Faces, none of which crosses a border.
    xy : (n, 2) float
        Positions of the nodes.
    borders, sides : (b, 2) int
        Edges that are borders (lower node first), and the zones left and right of them.
    polygons : (k,) object
        The zones.
    thin : float
        Slits narrower than this on average may be turned inside out by snapping: what their
        borders say raises no doubt.

    Returns
    -------
    zone : (f,) int
        `OUTSIDE` outside all.
    doubtful : (d,) int
        Faces of groups to which borders ascribe different zones.
    """
    edges = pair_half_edges(faces)
    ends = edges.ends
    row, is_border = _rows_of(ends, borders, len(xy))
    one, other = edges.faces.T
    joins = (one >= 0) & (other >= 0) & ~is_border
    group = hang_together(len(faces), one[joins], other[joins])

    border = np.flatnonzero(is_border)
    length = np.hypot(*(xy[ends[border, 1]] - xy[ends[border, 0]]).T)
    border, length = border[length > 0], length[length > 0]  # a vertical edge has no sides
    face = edges.faces[border].ravel()
    said = sides[row[border]].ravel()
    weight = np.repeat(length, 2)
    there = face >= 0
    face, said, weight = face[there], said[there], weight[there]
    area = 0.5 * _doubled_areas(faces, xy)
    around = np.bincount(group[face], weight, len(faces))
    is_thin = np.bincount(group, area, len(faces)) < 0.5 * thin * around
    beside_thin = is_thin[group[edges.faces[border]]] & (edges.faces[border] >= 0)
    trusted = np.repeat(~beside_thin.any(axis=1), 2)[there]
    weight = np.where(trusted, weight, _LITTLE * weight)
    zone_of_group = _most_said(group[face], said, weight, len(faces))
    # Where borders disagree, a point well inside the group settles it.
    asked = np.unique(group[face[said != zone_of_group[group[face]]]])
    spots, clear, groups = _inner_spots(faces, xy, group, asked)
    settled = clear > thin
    zone_of_group[groups[settled]] = zones_around(spots[settled], clear[settled], polygons)
    contradicts = trusted & (said != zone_of_group[group[face]])
    doubtful_group = np.zeros(len(faces), dtype=bool)
    doubtful_group[group[face[contradicts]]] = True
    unknown = np.unique(group)
    unknown = unknown[zone_of_group[unknown] == _UNSAID]
    spots, clear, groups = _inner_spots(faces, xy, group, unknown)
    zone_of_group[groups] = zones_around(spots, clear, polygons)
    return zone_of_group[group], np.flatnonzero(doubtful_group[group])


_UNSAID = -2
_LITTLE = 1e-6  # weight of a border that is not to be trusted, where there is no other


def _rows_of(ends: Ints, borders: Ints, width: int) -> tuple[Ints, NDArray[np.bool_]]:
    """Return the row of each edge among the borders, and whether it is there at all."""
    if not len(borders):
        return np.zeros(len(ends), dtype=np.int64), np.zeros(len(ends), dtype=bool)
    key = borders[:, 0] * width + borders[:, 1]
    order = np.argsort(key)
    wanted = ends[:, 0] * width + ends[:, 1]
    row = order[np.minimum(np.searchsorted(key[order], wanted), len(key) - 1)]
    return row, key[row] == wanted


def _inner_spots(faces: Ints, xy: Floats, group: Ints, wanted: Ints) -> tuple[Floats, Floats, Ints]:
    """Return the incentre and inradius of the fattest face of some groups, and the groups."""
    some = np.flatnonzero(np.isin(group, wanted))
    corners = xy[faces[some]]
    opposite = np.stack(
        [np.hypot(*(corners[:, k - 2] - corners[:, k - 1]).T) for k in range(3)], axis=1
    )
    around = np.maximum(opposite.sum(axis=1), np.finfo(np.float64).tiny)
    radius = _doubled_areas(faces[some], xy) / around
    order = np.lexsort((radius, group[some]))
    last = np.append(np.diff(group[some][order]) != 0, True)[: len(order)]
    fattest = order[last]
    spots = np.einsum("ik,ikj->ij", opposite[fattest], corners[fattest])
    spots /= around[fattest][:, None]
    return spots, radius[fattest], group[some[fattest]]


def _most_said(group: Ints, said: Ints, weight: Floats, count: int) -> Ints:
    """Return for each group the zone with the most border, `_UNSAID` where there is none."""
    zone = np.full(count, _UNSAID, dtype=np.int64)
    pair, inverse = np.unique(np.column_stack((group, said)), axis=0, return_inverse=True)
    total = np.bincount(inverse.reshape(-1), weights=weight, minlength=len(pair))
    order = np.lexsort((total, pair[:, 0]))
    zone[pair[order, 0]] = pair[order, 1]  # the greatest is written last
    return zone


def _doubled_areas(faces: Ints, xy: Floats) -> Floats:
    a, b, c = (xy[faces[:, k]] for k in range(3))
    return np.abs(
        (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    )
