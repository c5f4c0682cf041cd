"""The stages of digging, one after the other on a patchwork."""

from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from ..errors import ZoneError
from ..findings import Finding
from ..progress import Progress, part
from ..text import translate
from ..tin import Tin
from ..tin.cut import CutTin, cut_tin
from ..tolerance import Tolerance
from .batter import batter
from .ground import Ground, until_daylight
from .manner import Manner
from .patchwork import Part, Patchwork, lay
from .square import square_off
from .zones import Outside, Zones

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_TRIES = 4


@dataclass(frozen=True, eq=False)
class Laid:
    """A patchwork with where it came from, and what the stages had to say.

    Parameters
    ----------
    ground : Ground
        The design, perhaps carried on.
    patchwork : Patchwork
        The pieces of the ground, where they have been put so far.
    cut : CutTin
        The ground, cut by the zones.
    origin : (2,) float
        Where the points of the patchwork count from.
    findings : list of Finding
        Places to look at.
    largest_residual : float
        Greatest distance from a thickness asked for at right angles.
    missed : (j, 2) float
        Points where such a thickness is not kept, counted from the origin.
    shifted : (m,) bool
        Faces that do not lie within a single face of the design, because their corners have
        moved in plan.
    """

    ground: Ground
    patchwork: Patchwork
    cut: CutTin
    origin: Floats
    findings: list[Finding] = field(default_factory=list)
    largest_residual: float = 0.0
    missed: Floats = field(default_factory=lambda: np.empty((0, 2)))
    shifted: NDArray[np.bool_] = field(default_factory=lambda: np.empty(0, dtype=bool))


def lay_pits(
    ground: Ground,
    pits: Zones,
    outside: Outside,
    outside_depth: float,
    tolerance: Tolerance,
    progress: Progress,
) -> Laid:
    """Cut the ground by pits and lay its pieces down plumb.

    Parameters
    ----------
    ground : Ground
        The design, perhaps carried on.
    pits : Zones
        Disjoint.
    outside, outside_depth
        What becomes of the rest.
    tolerance : Tolerance
        In plan units.
    progress : Progress
        Told the share done.
    """
    cut = cut_tin(ground.tin, pits.polygons, tolerance, progress)
    elsewhere = outside_depth if outside is Outside.USE_DEPTH else 0.0
    depths = np.append(np.asarray(pits.depths, dtype=np.float64), elsewhere)
    origin = np.floor(ground.tin.vertices[:, :2].min(axis=0))
    laid = lay(cut, depths, origin, lower_rest=outside is Outside.USE_DEPTH)
    return Laid(ground, laid, cut, origin, shifted=np.zeros(len(laid.faces), dtype=bool))


def square_off_pits(
    laid: Laid, pits: Zones, manner: Manner, tolerance: Tolerance, progress: Progress
) -> Laid:
    """Move the bottoms that are specified at right angles to the design."""
    if not pits.squares.any():
        return laid
    moved, outcome = square_off(laid.patchwork, pits, manner, tolerance, progress)
    return replace(
        laid,
        patchwork=moved,
        findings=laid.findings + outcome.findings(laid.origin),
        largest_residual=outcome.largest_residual,
        missed=np.vstack((outcome.missed_at, outcome.held_at)),
        shifted=np.append(pits.squares != 0.0, False)[moved.zone],
    )


def slope_sides(
    laid: Laid, pits: Zones, manner: Manner, tolerance: Tolerance, progress: Progress
) -> Laid:
    """Let batters climb from the edges of the pits that have any."""
    if not pits.batters.any():
        return laid
    x, y = laid.origin.tolist()
    base = laid.patchwork
    # Batters take the number of the face they are cut into along as their parent.
    numbered = replace(base, parent=np.arange(len(base.faces)))
    sloped, outcome = batter(
        numbered, _moved(pits, -laid.origin), manner, tolerance, progress, (x, y)
    )
    under = sloped.parent
    sloped = replace(sloped, parent=base.parent[under])
    found = list(outcome.findings)
    if outcome.crooked:
        why = translate(
            "Core",
            "At {count} places a batter’s plane could not be cut in, because the piece there is too small to be told from rounding: the surface is whole, but off by as much.",
        ).format(count=outcome.crooked)
        found.append(Finding("crooked", why))
    return replace(
        laid,
        patchwork=sloped,
        findings=laid.findings + found,
        shifted=laid.shifted[under],
    )


def without_design(laid: Laid) -> Laid:
    """Leave out what is the design itself.

    Raises
    ------
    ZoneError
        Nothing is left.
    """
    kept = laid.patchwork.part != Part.DESIGN
    if not kept.any():
        raise ZoneError(
            translate(
                "Core",
                "No zone meets the design, so that nothing is left of it: check that both have the same coordinate reference system.",
            )
        )
    return replace(laid, patchwork=laid.patchwork.take(kept), shifted=laid.shifted[kept])


def without_extension(laid: Laid) -> Laid:
    """Leave out what was carried on but is neither bottom nor side of a pit."""
    if not laid.ground.distance:
        return laid
    patchwork = laid.patchwork
    kept = (patchwork.zone >= 0) | (patchwork.parent < laid.ground.count)
    return replace(laid, patchwork=patchwork.take(kept), shifted=laid.shifted[kept])


def dig(
    ground: Ground,
    pits: Zones,
    outside: Outside,
    outside_depth: float,
    manner: Manner,
    tolerance: Tolerance,
    progress: Progress,
) -> Laid:
    """Run all stages from the cut to the batters on disjoint pits."""
    laid = lay_pits(ground, pits, outside, outside_depth, tolerance, part(progress, 0.0, 0.6))
    laid = square_off_pits(laid, pits, manner, tolerance, part(progress, 0.6, 0.75))
    laid = slope_sides(laid, pits, manner, tolerance, part(progress, 0.75, 1.0))
    if outside is Outside.LEAVE_OUT:
        laid = without_design(laid)
    return without_extension(laid)


def dig_past_the_edge(
    tin: Tin,
    pits: Zones,
    outside: Outside,
    outside_depth: float,
    manner: Manner,
    tolerance: Tolerance,
    progress: Progress,
) -> Laid:
    """Carry the design on as far as pits and their sides reach, and dig.

    Where a side has not come to an end by then, once more with twice the room.
    """
    later = part(progress, 0.2, 1.0)
    ground, laid = until_daylight(
        tin,
        pits,
        manner,
        tolerance,
        lambda ground: dig(ground, pits, outside, outside_depth, manner, tolerance, later),
        lambda laid: laid.findings,
        _TRIES,
        part(progress, 0.0, 0.2),
    )
    return replace(laid, findings=laid.findings + ground.findings)


def _moved(zones: Zones, way: Floats) -> Zones:
    return replace(zones, polygons=shapely.transform(zones.polygons, lambda xy: xy + way))
