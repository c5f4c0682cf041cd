"""Cutting the sides of zones into a mesh."""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from ...findings import Finding
from ...progress import Progress, part, silent
from ...tolerance import Tolerance
from ..manner import BatterRule, Manner
from ..patchwork import Part, Patchwork
from ..zones import Zones
from .assemble import assemble
from .ground import RIM, Ground, regions
from .near import nodes_near, outline_nodes
from .outline import outlines_of
from .remarks import leaving, open_edges
from .sides import sides_of
from .split import split_faces

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

_REACH = 20.0  # cutting moves borders by less than this many times the snap distance
_FIRST_REACH = 1.5  # of the run that the greatest drop has under a level surface
_FARTHER = 4.0


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
    progress = _rising(progress)
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


def _rising(progress: Progress) -> Progress:
    """Return a progress that never goes back, also where a step has to be done again."""
    farthest = 0.0

    def report(share: float) -> None:
        nonlocal farthest
        farthest = max(farthest, share)
        progress(farthest)

    return report


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
    foot = outline_nodes(patch.faces, regions(patch), wanted, len(patch.points))
    if not len(foot):
        return patch
    slopes = np.zeros(len(zones))
    slopes[wanted] = 1.0 / (zones.batters[wanted] * manner.z_scale)
    drop = np.abs(np.asarray(zones.depths) + np.asarray(zones.squares))
    reach = _FIRST_REACH * float((drop[wanted] / slopes[wanted]).max())
    follow = manner.rule is BatterRule.DESIGN
    progress(0.05)
    while True:
        near = nodes_near(patch.points, foot, reach)
        ground = Ground.part_of(patch, near, follow, outside_only, tolerance.snap)
        progress(0.1)
        lines = outlines_of(ground, wanted, zones.polygons, _REACH * tolerance.snap)
        sides = sides_of(ground, lines, slopes, manner, tolerance.chord, part(progress, 0.1, 0.4))
        if not (ground.across[sides.reached.face] == RIM).any():
            break
        reach *= _FARTHER
    outcome.sides += int(np.count_nonzero(sides.stands))
    outcome.facets += len(sides.facets)
    outcome.findings += open_edges(ground, lines, zones, origin)
    outcome.findings += leaving(ground, sides.facets, sides.reached, zones, origin)
    if not len(sides.reached.face):
        return patch
    cells, splits, crooked = split_faces(
        ground, sides.facets, sides.reached, part(progress, 0.4, 0.75)
    )
    made, residual, failed = assemble(
        patch, ground, sides.facets, cells, splits, part(progress, 0.75, 1)
    )
    outcome.crooked += crooked + failed
    outcome.largest_residual = max(outcome.largest_residual, residual)
    return made
