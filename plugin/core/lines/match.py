"""Which line a guideline was laid from, by how evenly it keeps away from it."""

from dataclasses import dataclass

import numpy as np
import shapely

from ..runs import count_up
from .bundle import Lines
from .stations import point_at

SAMPLES = 33
"""Places of each guideline that are looked at."""
CLEARLY = 2.0
"""The best line must fit so many times better than the next."""


@dataclass(frozen=True)
class Match:
    """The line that fits each guideline best.

    Parameters
    ----------
    line : (g,) int
        That line, -1 where none is near.
    misfit : (g,) float
        Median difference of the distance from the one expected.
    clear : (g,) bool
        False where another line fits about as well.
    other : (g,) int
        The next best line, -1 where there is none.
    """

    line: np.ndarray
    misfit: np.ndarray
    clear: np.ndarray
    other: np.ndarray

    def taken(self, named: np.ndarray) -> "Match":
        """Return the match where each guideline names its line, so that it is no matter of fit."""
        return Match(self.line, self.misfit, np.ones(len(named), bool), self.other)


def best_lines(
    guidelines: Lines, lines: Lines, expected: np.ndarray, tolerance: float, reach: float = 3.0
) -> Match:
    """Find the line that each guideline fits best.

    Parameters
    ----------
    guidelines, lines
        What was laid, and what it may have been laid from.
    expected : (g,) float
        Distance each should keep, NaN where it is not known: then the evenness counts alone.
    tolerance
        Misfits that differ by less are alike.
    reach
        Lines are looked for within so many expected distances (or nearest lines, where nothing is
        expected).
    """
    count = len(guidelines)
    owner = np.repeat(np.arange(count), SAMPLES)
    share = (count_up(np.full(count, SAMPLES)) + 0.5) / SAMPLES
    places = shapely.points(point_at(guidelines, owner, share * guidelines.lengths[owner]))
    tree = shapely.STRtree(lines.geometries)
    nearest = shapely.distance(
        guidelines.geometries, lines.geometries[tree.nearest(guidelines.geometries)]
    )
    limit = reach * np.where(np.isfinite(expected), expected, nearest) + nearest + 10 * tolerance
    pair, candidate = tree.query(guidelines.geometries, predicate="dwithin", distance=limit)
    rows = (pair[:, None] * SAMPLES + np.arange(SAMPLES)).ravel()
    away = shapely.distance(places[rows], np.repeat(lines.geometries[candidate], SAMPLES))
    away = away.reshape(-1, SAMPLES)
    wanted = np.where(np.isfinite(expected[pair]), expected[pair], np.median(away, axis=1))
    # Medians, since corners and pieces beyond an end keep other distances by right.
    misfit = np.median(np.abs(away - wanted[:, None]), axis=1)
    misfit = misfit + 1e-3 * np.where(np.isfinite(expected[pair]), 0.0, np.median(away, axis=1))
    order = np.lexsort((candidate, misfit, pair))
    pair, candidate, misfit = pair[order], candidate[order], misfit[order]
    line, other = np.full(count, -1), np.full(count, -1)
    best, second = np.full(count, np.inf), np.full(count, np.inf)
    first = np.flatnonzero(np.diff(pair, prepend=-1))
    line[pair[first]], best[pair[first]] = candidate[first], misfit[first]
    after = first + 1
    after = after[(after < len(pair)) & (np.append(pair, -1)[after] == pair[after - 1])]
    other[pair[after]], second[pair[after]] = candidate[after], misfit[after]
    alike = (second <= CLEARLY * best) | (second - best <= tolerance)
    return Match(line, best, ~alike | (other < 0), other)
