"""Cutting the sides of zones into a mesh."""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from ...findings import Finding
from ...progress import Progress, part, silent
from ...tin.edges import pair_half_edges
from ...tolerance import Tolerance
from ..manner import BatterRule, Corners, Manner
from ..patchwork import Part, Patchwork
from ..zones import Zones
from .assemble import assemble
from .cones import coarse, fine
from .corners import corner_facets
from .facets import Facets, cross, dot
from .flood import Reached, spread
from .ground import Ground
from .outline import Outlines, outlines_of
from .remarks import leaving, open_edges
from .split import split_faces
from .strips import Feet, strips_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_STRAIGHT = 1e-9  # radians between links in one line
_EPS_SHARE = 1e-3  # of the snap distance
_EPS_EXTENT = 1e-10
_ROUNDING = 1e-12
_REACH = 20.0  # cutting moves borders by less than this many times the snap distance


@dataclass
class BatterOutcome:
    """What `batter` has to say.

    Parameters
    ----------
    findings : list of Finding
        ``open_edge``: a zone ends at the edge of the design, where it can have no side;
        ``no_daylight``: a side runs off the design before it meets the surface.
    sides : int
        Edges of the mesh that a side stands on.
    facets : int
        Planes of all sides.
    faces : int
        Faces of the result that are (parts of) sides.
    largest_residual : float
        Greatest amount by which the heights of two faces at a common corner differed and were
        made equal.
    crooked : int
        Places where a plane could not be cut in because a piece was too small.
    """

    findings: list[Finding] = field(default_factory=list)
    sides: int = 0
    facets: int = 0
    faces: int = 0
    largest_residual: float = 0.0
    crooked: int = 0


def batter(
    patch: Patchwork,
    zones: Zones,
    manner: Manner,
    tolerance: Tolerance,
    progress: Progress = silent,
    origin: tuple[float, float] = (0.0, 0.0),
) -> tuple[Patchwork, BatterOutcome]:
    """Let the sides of zones climb from the edge of their bottoms at the batter of each zone.

    A side stands on each edge of a zone's bottom beside which the surface lies higher, and ends
    where it first meets that surface. Where several sides lie over one place the lowest counts.
    Zones that raise (depth and thickness together less than 0) have sides that fall; they change
    the design outside all zones only, and come before the sides that climb.

    Parameters
    ----------
    patch : Patchwork
        A mesh cut by the zones, with the heights of their bottoms.
    zones : Zones
        The disjoint (widened) regions the mesh was cut by, **at the same origin** as
        ``patch.points``; its batters are run per rise. A batter of 0 has no side here.
    manner : Manner
        Rule and corners.
    tolerance : Tolerance
        In plan units.
    progress : Progress
        Told the share done.
    origin : (float, float)
        Where ``patch.points`` count from, for the places of findings.

    Returns
    -------
    patch : Patchwork
        The mesh with sides: faces of part `Part.BATTER` carry the row of the zone they belong
        to. All other faces have the heights they had. Untouched when no zone has a batter.
    outcome : BatterOutcome
        Findings and counts.
    """
    outcome = BatterOutcome()
    drop = np.asarray(zones.depths) + np.asarray(zones.squares)
    for raising in (True, False):
        wanted = (zones.batters > 0) & ((drop < 0) if raising else (drop > 0))
        half = part(progress, 0.0, 0.4) if raising else part(progress, 0.4, 1.0)
        if wanted.any() and len(patch.faces):
            turned = _mirrored(patch) if raising else patch
            turned = _cut_sides(
                turned, zones, wanted, manner, tolerance, raising, outcome, np.array(origin), half
            )
            patch = _mirrored(turned) if raising else turned
        half(1.0)
    outcome.faces = int(np.count_nonzero(patch.part == Part.BATTER))
    return patch, outcome


def _mirrored(patch: Patchwork) -> Patchwork:
    return replace(patch, heights=-patch.heights, design=-patch.design)


def _cut_sides(
    patch: Patchwork,
    zones: Zones,
    wanted: Flags,
    manner: Manner,
    tolerance: Tolerance,
    outside_only: bool,
    outcome: BatterOutcome,
    origin: Floats,
    progress: Progress,
) -> Patchwork:
    edges = pair_half_edges(patch.faces)
    region = np.where(patch.part == Part.BATTER, -1, patch.zone)
    extent = float(np.ptp(patch.points, axis=0).max())
    scale = max(extent, float(np.abs(patch.heights).max()))
    follow = manner.rule is BatterRule.DESIGN
    ground = Ground(
        patch.points,
        patch.faces,
        patch.heights,
        patch.design,
        region,
        region >= 0 if outside_only else np.zeros(len(region), dtype=bool),
        edges.neighbours,
        follow,
        max(_EPS_SHARE * tolerance.snap, _EPS_EXTENT * extent),
        _ROUNDING * scale,
    )
    progress(0.15)
    lines = outlines_of(ground, wanted, zones.polygons, _REACH * tolerance.snap)
    if not len(lines):
        return patch
    higher = np.where(np.isnan(lines.head), -np.inf, lines.head - lines.foot).max(axis=1)
    side = higher > ground.noise + ground.eps
    outcome.sides += int(np.count_nonzero(side))
    outcome.findings += open_edges(ground, lines, zones, origin)
    if not side.any():
        return patch
    slopes = np.zeros(len(zones))
    slopes[wanted] = 1.0 / (zones.batters[wanted] * manner.z_scale)
    facets, reached = _facets(ground, lines, side, slopes, manner, tolerance.chord, progress)
    outcome.facets += len(facets)
    outcome.findings += leaving(ground, facets, reached, zones, origin)
    progress(0.4)
    cells, splits, crooked = split_faces(ground, facets, reached, part(progress, 0.4, 0.75))
    outcome.crooked += crooked
    made, residual, failed = assemble(patch, ground, facets, cells, splits, part(progress, 0.75, 1))
    outcome.largest_residual = max(outcome.largest_residual, residual)
    outcome.crooked += failed
    return made


def _facets(
    ground: Ground,
    lines: Outlines,
    side: Flags,
    slopes: Floats,
    manner: Manner,
    chord: float,
    progress: Progress,
) -> tuple[Facets, Reached]:
    """Return the facets of all sides and the faces they reach."""
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
        part(progress, 0.2, 0.35),
    )
    if not len(fans):
        return sectors.facets, reached
    sectors, reached = fine(ground, sectors, reached, fans, plain, chord)
    return sectors.facets, reached


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
    offset = np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)
    return row, face[order[begin[row] + offset]]
