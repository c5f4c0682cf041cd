"""The sides that stand on the outlines of zones, and the faces they reach."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress
from ...runs import count_up
from ...vectors import cross, dot
from ..manner import Corners, Manner
from .cones import coarse, fine
from .corners import corner_facets
from .facets import Facets
from .flood import Reached, spread
from .ground import Ground
from .outline import Outlines
from .strips import Feet, strips_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_STRAIGHT = 1e-9  # radians between links in one line


@dataclass(frozen=True, eq=False)
class Sides:
    """The sides of all zones.

    Parameters
    ----------
    stands : (b,) bool
        Links of the outlines that a side stands on.
    facets : Facets
        Their planes.
    reached : Reached
        Where these lie below the surface.
    """

    stands: Flags
    facets: Facets
    reached: Reached


def sides_of(
    ground: Ground,
    lines: Outlines,
    slopes: Floats,
    manner: Manner,
    chord: float,
    progress: Progress,
) -> Sides:
    """Let sides stand on all links of outlines beside which the surface lies higher.

    Parameters
    ----------
    ground : Ground
        The mesh.
    lines : Outlines
        Outlines of the zones with sides.
    slopes : (k,) float
        Rise over run of the sides of each zone.
    manner : Manner
        Corners.
    chord : float
        How far chords may lie within the arcs of cones.
    progress : Progress
        Told the share done.
    """
    higher = np.where(np.isnan(lines.head), -np.inf, lines.head - lines.foot)
    side = higher.max(axis=1, initial=-np.inf) > ground.noise + ground.eps
    feet = _feet(ground, lines, side, slopes)
    strips = strips_of(lines, feet, 0.1 * ground.eps, 10 * ground.noise)
    limit = manner.mitre_limit if manner.corners is Corners.MITRE else 0.0
    plain, nodes, fans = corner_facets(lines, feet, strips, limit)
    sectors = coarse(plain, fans)
    apex = np.concatenate((nodes, fans.node[sectors.fan[len(plain) :]]))
    stands = np.flatnonzero(strips.of >= 0)
    about, around = _faces_at(ground, apex)
    reached = spread(
        ground,
        sectors.facets,
        np.concatenate((lines.beyond[stands], around)),
        np.concatenate((strips.of[stands], about)),
        progress,
    )
    if not len(fans):
        return Sides(side, sectors.facets, reached)
    sectors, reached = fine(ground, sectors, reached, fans, plain, chord)
    return Sides(side, sectors.facets, reached)


def _feet(ground: Ground, lines: Outlines, side: Flags, slopes: Floats) -> Feet:
    values = ground.heights[lines.face]
    foot = lines.foot
    if ground.follow:
        values = values - ground.design[lines.face]
        foot = foot - lines.design
    ways = lines.way, lines.way[lines.after]
    turn = np.arctan2(cross(*ways), dot(*ways))
    out = np.column_stack((lines.way[:, 1], -lines.way[:, 0]))
    return Feet(
        ground.xy[lines.nodes],
        foot,
        lines.way,
        out,
        lines.after,
        np.abs(turn) <= _STRAIGHT,
        side,
        slopes[lines.zone],
        ground.gradients(lines.face, values),
    )


def _faces_at(ground: Ground, node: Ints) -> tuple[Ints, Ints]:
    """Return pairs of rows of ``node`` and faces around that node; -1 has none."""
    wanted = np.zeros(len(ground.xy) + 1, dtype=bool)
    wanted[node] = True
    wanted[-1] = False
    near = np.flatnonzero(wanted[ground.faces].any(axis=1))
    corner = ground.faces[near].ravel()
    face = np.repeat(near, 3)
    order = np.argsort(corner, kind="stable")
    begin = np.searchsorted(corner[order], node, side="left")
    count = np.searchsorted(corner[order], node, side="right") - begin
    row = np.repeat(np.arange(len(node)), count)
    offset = count_up(count)
    return row, face[order[begin[row] + offset]]
