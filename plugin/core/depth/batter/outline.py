"""The outlines of zones in a mesh that was cut by them.

An outline consists of the sides of faces of the zone that have no face of the zone across. It is
walked with the zone on the left, so that outward is to the right.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ...tin.weld import hang_together
from .ground import RIM, Ground

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_NONE = -1
_FAR = 5.0  # of the reach; nodes closer together tell no direction


@dataclass(frozen=True, eq=False)
class Outlines:
    """Links of the outlines, in the order in which they follow each other.

    Parameters
    ----------
    zone : (b,) int
        Zone on the left.
    face, beyond : (b,) int
        Face on the left and face on the right, -1 where there is none.
    nodes : (b, 2) int
        First and last node.
    foot, head : (b, 2) float
        Heights of the left face and of the right face at both nodes; NaN without a face.
    design : (b, 2) float
        Height of the design at both nodes, of the left face.
    way : (b, 2) float
        Unit vector along the border as it was given.
    after : (b,) int
        The link that follows.
    """

    zone: Ints
    face: Ints
    beyond: Ints
    nodes: Ints
    foot: Floats
    head: Floats
    design: Floats
    way: Floats
    after: Ints

    def __len__(self) -> int:
        """Return the number of links."""
        return len(self.zone)


def outlines_of(
    ground: Ground, wanted: Flags, polygons: NDArray[np.object_], reach: float
) -> Outlines:
    """Find the outlines of some zones.

    Parameters
    ----------
    ground : Ground
        The mesh.
    wanted : (k,) bool
        Zones to look at.
    polygons : (k,) object
        The zones as they were cut, at the origin of the mesh.
    reach : float
        How far the cut may have moved a border.
    """
    across, region, faces = ground.across, ground.region, ground.faces
    inside = np.flatnonzero(np.append(wanted, False)[region])
    side_of = across[inside]
    beyond_region = np.where(side_of >= 0, region[side_of], _NONE)
    row, side = np.nonzero((beyond_region != region[inside][:, None]) & (side_of != RIM))
    face = inside[row]
    after = _following(faces, across, region, face, side)
    order, after = _in_order(after)
    face, side = face[order], side[order]
    nodes = np.column_stack((faces[face, side], faces[face, (side + 1) % 3]))
    beyond = across[face, side]
    there = beyond >= 0
    opposite = faces[beyond]
    head = np.full((len(face), 2), np.nan)
    for end in (0, 1):
        for corner in range(3):
            same = there & (opposite[:, corner] == nodes[:, end])
            head[same, end] = ground.heights[beyond[same], corner]
    pick = np.column_stack((side, (side + 1) % 3))
    zone = region[face]
    return Outlines(
        zone,
        face,
        beyond,
        nodes,
        np.take_along_axis(ground.heights[face], pick, axis=1),
        head,
        np.take_along_axis(ground.design[face], pick, axis=1),
        _ways(ground.xy[nodes], zone, after, wanted, polygons, reach),
        after,
    )


def _following(faces: Ints, across: Ints, region: Ints, face: Ints, side: Ints) -> Ints:
    """Return the link that follows each, by turning about its last node through the zone."""
    key = face * 3 + side
    order = np.argsort(key)
    turning = np.arange(len(face))
    result_face, result_side = face.copy(), (side + 1) % 3
    while len(turning):
        f, k = result_face[turning], result_side[turning]
        g = across[f, k]
        inner = (g >= 0) & (region[g] == region[f])
        turning, f, k, g = turning[inner], f[inner], k[inner], g[inner]
        pivot = faces[f, k]
        # The same edge seen from across ends at the pivot; the next side begins there.
        begins = (faces[g] == pivot[:, None]).argmax(axis=1)
        result_face[turning], result_side[turning] = g, begins
    found = np.searchsorted(key[order], result_face * 3 + result_side)
    return order[np.minimum(found, len(order) - 1)]


def _in_order(after: Ints) -> tuple[Ints, Ints]:
    """Lay the links of each loop one after the other; return their order and the new `after`."""
    count = len(after)
    leader, jump = np.arange(count), after
    rounds = max(count, 1).bit_length()
    for _ in range(rounds):
        leader, jump = np.minimum(leader, leader[jump]), jump[jump]
    last = leader[after] == after
    steps, jump = np.where(last, 0, 1), np.where(last, np.arange(count), after)
    for _ in range(rounds):
        steps, jump = steps + steps[jump], jump[jump]
    order = np.lexsort((-steps, leader))
    place = np.empty(count, dtype=np.int64)
    place[order] = np.arange(count)
    return order, place[after[order]]


def runs(after: Ints, joins: Flags) -> tuple[Ints, Ints, Ints]:
    """Join links to runs where ``joins`` says that a link and the one after it are of one run.

    Returns
    -------
    run : (b,) int
        Run of each link; a run has the number of one of its links.
    first, last : (b,) int
        First and last link of each run, at the number of the run.
    """
    count = len(after)
    rows = np.flatnonzero(joins)
    run = hang_together(count, rows, after[rows])
    starts = np.ones(count, dtype=bool)
    starts[after[rows]] = False
    first, last = np.arange(count), np.arange(count)
    first[run[starts]] = np.flatnonzero(starts)
    last[run[~joins]] = np.flatnonzero(~joins)
    return run, first, last


def _ways(
    ends: Floats,
    zone: Ints,
    after: Ints,
    wanted: Flags,
    polygons: NDArray[np.object_],
    reach: float,
) -> Floats:
    """Return the direction of the given border along each link.

    A cut moves nodes by up to ``reach``, which turns short links at will. So all links along one
    segment of the zone's outline have one direction: that from the first of their nodes to the
    last, or where these are close together that of the segment.
    """
    step = ends[:, 1] - ends[:, 0]
    length = np.hypot(*step.T)
    way = step / np.where(length > 0, length, 1.0)[:, None]
    segment, given = _segments(ends, zone, wanted, polygons, reach)
    along = np.einsum("ij,ij->i", given, way)
    known = (segment >= 0) & (np.abs(along) > 0.5)
    backward = along < 0
    joins = known & known[after] & (segment == segment[after]) & (backward == backward[after])
    joins[after == np.arange(len(after))] = False
    run, first, last = runs(after, joins)
    chord = (ends[last, 1] - ends[first, 0])[run]
    length = np.hypot(*chord.T)
    far = known & (length > _FAR * reach)
    near = known & ~far
    way[near] = np.where(backward[near, None], -given[near], given[near])
    way[far] = chord[far] / length[far, None]
    return way


def _segments(
    ends: Floats, zone: Ints, wanted: Flags, polygons: NDArray[np.object_], reach: float
) -> tuple[Ints, Floats]:
    """Return the outline segment both ends of each link lie nearest to, and its direction."""
    nearest = np.full(len(ends), _NONE, dtype=np.int64)
    outlines, owner = shapely.get_parts(shapely.boundary(polygons[wanted]), return_index=True)
    points, line = shapely.get_coordinates(outlines, return_index=True)
    joined = np.flatnonzero(line[1:] == line[:-1])
    joined = joined[(points[joined] != points[joined + 1]).any(axis=1)]
    if not len(joined) or not len(ends):
        return nearest, np.zeros((len(ends), 2))
    segment_zone = np.flatnonzero(wanted)[owner[line[joined]]]
    given = points[joined + 1] - points[joined]
    given /= np.hypot(*given.T)[:, None]
    shapes = shapely.linestrings(np.stack((points[joined], points[joined + 1]), axis=1))
    link, segment = shapely.STRtree(shapes).query(
        shapely.points(ends.mean(axis=1)), predicate="dwithin", distance=reach
    )
    own = segment_zone[segment] == zone[link]
    link, segment = link[own], segment[own]
    off = _distances(ends[link], points[joined[segment]], points[joined[segment] + 1])
    order = np.lexsort((segment, off, link))
    link, segment = link[order], segment[order]
    best = np.append(True, link[1:] != link[:-1])[: len(link)]
    nearest[link[best]] = segment[best]
    return nearest, given[nearest]


def _distances(ends: Floats, start: Floats, stop: Floats) -> Floats:
    """Return the greater distance of two points (k, 2, 2) from each segment."""
    chord = (stop - start)[:, None]
    off = ends - start[:, None]
    share = (off * chord).sum(axis=2) / (chord * chord).sum(axis=2)
    off -= np.clip(share, 0.0, 1.0)[:, :, None] * chord
    return np.sqrt((off * off).sum(axis=2)).max(axis=1)
