"""Areas and volumes between two surfaces, exact for triangles."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ...progress import Progress, silent
from ..mesh import Tin
from .between import Between
from .difference import level_of, split
from .ledger import Ledger
from .shared import extremes
from .walk import Overlay

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def integrate(
    upper: Tin,
    lower: Tin,
    upper_label: ArrayLike | None = None,
    lower_label: ArrayLike | None = None,
    z_scale: float = 1.0,
    progress: Progress = silent,
    *,
    level: float | None = None,
) -> Between:
    """Measure what lies between two surfaces over the ground they share.

    Exact: every pair of faces over one another is clipped and integrated in closed form. Which
    of the two is called upper only settles the sign: exchanged, cut and fill change places.

    Parameters
    ----------
    upper, lower : Tin
        The surfaces, each single-valued in plan. Faces without plan area count for nothing.
    upper_label, lower_label : (m,) int, optional
        Label of each face, -1 for none, by which figures are told apart.
    z_scale : float
        Plan units in one unit of height, for volumes.
    progress : Progress
        Told the share done.
    level : float, optional
        Where the difference of two faces is nowhere greater than this they count as level;
        the rounding of the coordinates (`level_of`) when left out.

    Raises
    ------
    ValueError
        There is not one label a face.
    """
    numbers = [_labels(tin, given) for tin, given in ((upper, upper_label), (lower, lower_label))]
    level = level_of(upper, lower) if level is None else level
    ground = Overlay(upper, lower)
    (names, own), (other_names, other_own) = numbers
    ledger = Ledger(len(names) * len(other_names))
    alone = len(names) * len(other_names) == 1
    if not ground.empty:
        key_upper = own[ground.upper.rows.face] * len(other_names)
        key_lower = other_own[ground.lower.rows.face]
    for pairs, done in ground.pairs():
        if len(pairs):
            high = ground.heights(pairs)
            parts = split(pairs, high, level)
            least, most = high.least, high.most
            if pairs.swapped:
                parts, least, most = parts.turned(), -most, -least
            line = None
            if alone:
                wanted = (least < ledger.least[0]) | (most > ledger.most[0])
            else:
                line = ledger.lines(key_upper[pairs.upper] + key_lower[pairs.lower])
                wanted = (least < ledger.least[line]) | (most > ledger.most[line])
            ledger.add(line, parts)
            # Only where the bounds reach past what has been met is the exact range asked for.
            some = np.flatnonzero(wanted & (parts.area > 0))
            if len(some):
                least, most = extremes(ground, pairs, high, some)
                at = np.zeros(len(some), dtype=np.int64) if line is None else line[some]
                ledger.extend(at, least, most)
        progress(done)
    keys, figures = ledger.figures(z_scale)
    labels = np.stack((names[keys // len(other_names)], other_names[keys % len(other_names)]), 1)
    return Between(
        labels,
        figures,
        _areas(upper, names, own),
        _areas(lower, other_names, other_own),
        level,
    )


def _labels(tin: Tin, given: ArrayLike | None) -> tuple[Ints, Ints]:
    """Return the labels that occur, sorted, and the number of the label of each face."""
    if given is None:
        return np.array([-1]), np.zeros(len(tin.faces), dtype=np.int64)
    label = np.asarray(given, dtype=np.int64)
    if label.shape != (len(tin.faces),):
        raise ValueError("there must be one label a face")
    names, own = np.unique(label, return_inverse=True)
    return names, own.reshape(-1)


def _areas(tin: Tin, names: Ints, own: Ints) -> dict[int, float]:
    areas = np.where(tin.without_plan_area, 0.0, tin.plan_areas)
    sums = np.bincount(own, areas, len(names))
    return {int(name): float(area) for name, area in zip(names, sums, strict=True)}
