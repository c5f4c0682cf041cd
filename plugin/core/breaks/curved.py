"""Second-degree surfaces fitted to parts, kept as sums that add up when parts are joined.

The surface ``z = c . (1, x, y, x^2, xy, y^2)`` nearest to a part in heights follows from the
integrals over the part of ``x^i y^j`` up to the fourth degree, of ``z`` times those up to the
second, and of ``z^2``. They are taken about the part's centroid; moving the centroid moves them by
the binomial theorem. On a triangle they come from the values at six points, exactly up to the
fourth degree: Dunavant, "High degree efficient symmetrical Gaussian quadrature rules for the
triangle" (1985), rule of degree 4; from memory, and tested against closed forms.
"""

from dataclasses import dataclass
from math import comb

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 13

POWERS = tuple((total - j, j) for total in range(5) for j in range(total + 1))
"""Exponents (i, j) of x and y of the 15 plan integrals; the first six are the basis."""
_ROW = {power: row for row, power in enumerate(POWERS)}
BASIS = POWERS[:6]

_A, _B = 0.445948490915965, 0.091576213509771
_WEIGHT_A, _WEIGHT_B = 0.223381589678011, 0.109951743655322
_POINTS = np.array(
    [(1 - 2 * s, s, s) for s in (_A, _B)]
    + [(s, 1 - 2 * s, s) for s in (_A, _B)]
    + [(s, s, 1 - 2 * s) for s in (_A, _B)]
)
_WEIGHTS = np.array([_WEIGHT_A, _WEIGHT_B] * 3)


@dataclass(frozen=True)
class Curved:
    """Parts of a surface, each with what a second-degree fit needs.

    Parameters
    ----------
    centre : (2, k) float
        Place in plan that the integrals are taken about.
    plan : (15, k) float
        Integrals of ``x^i y^j``, in the order of `POWERS`.
    height : (6, k) float
        Integrals of ``z x^i y^j`` for the basis.
    square : (k,) float
        Integral of ``z^2``.
    """

    centre: Floats
    plan: Floats
    height: Floats
    square: Floats

    @classmethod
    def of_triangles(cls, corners: Floats, group: Ints, centre: Floats) -> "Curved":
        """Return the parts that groups of triangles make.

        Parameters
        ----------
        corners : (m, 3, 3) float
            Corners of each triangle, counter-clockwise in plan.
        group : (m,) int
            Part of each; quickest where triangles of a part follow each other.
        centre : (2, k) float
            Centroid of each part.
        """
        count = centre.shape[1]

        def integrals(begin: int, end: int) -> tuple[int, Floats]:
            own = group[begin:end]
            values = _integrals(corners[begin:end], centre.take(own, axis=1))
            first = int(own.min())
            return first, np.stack([np.bincount(own - first, row) for row in values])

        total = np.zeros((len(POWERS) + len(BASIS) + 1, count))
        # One after the other, so that the sums do not depend on which block is ready first.
        for first, some in in_blocks(integrals, len(corners), _BLOCK):
            total[:, first : first + some.shape[1]] += some
        plan, height, square = np.split(total, (len(POWERS), len(POWERS) + len(BASIS)))
        return cls(centre.copy(), plan, height, square[0])

    def take(self, rows: Ints) -> "Curved":
        """Return the given parts."""
        return Curved(
            self.centre[:, rows], self.plan[:, rows], self.height[:, rows], self.square[rows]
        )

    def together(self, one: Ints, other: Ints) -> "Curved":
        """Return the parts that pairs of parts make, (p,)."""
        a, b = self.take(one), self.take(other)
        centre = (a.centre * a.plan[0] + b.centre * b.plan[0]) / (a.plan[0] + b.plan[0])
        a, b = a._about(centre), b._about(centre)
        return Curved(centre, a.plan + b.plan, a.height + b.height, a.square + b.square)

    def with_planes(self, heights: Floats, gradients: Floats) -> "Curved":
        """Return the same parts of plan under planes.

        Parameters
        ----------
        heights : (k,) float
            Height of each plane at the centre.
        gradients : (k, 2) float
            Its gradient.
        """
        east, north = gradients.T

        def integral(i: int, j: int) -> Floats:
            level = heights * self.plan[_ROW[i, j]]
            slope = east * self.plan[_ROW[i + 1, j]] + north * self.plan[_ROW[i, j + 1]]
            return np.asarray(level + slope, dtype=np.float64)

        height = np.stack([integral(i, j) for i, j in BASIS])
        square = heights * height[0] + east * height[1] + north * height[2]
        return Curved(self.centre, self.plan, height, square)

    def _about(self, centre: Floats) -> "Curved":
        """Return the same parts with their integrals taken about other places."""
        dx, dy = self.centre - centre
        return Curved(
            centre,
            _moved(self.plan, POWERS, dx, dy),
            _moved(self.height, BASIS, dx, dy),
            self.square,
        )

    @property
    def misfit(self) -> Floats:
        """Integral of the squared height difference from the fit of each part, (k,) float."""
        matrix, right = self._normal_equations()
        solved = np.linalg.solve(matrix, right[:, :, None])[:, :, 0]
        left = self.square / self.plan[0] - (solved * right).sum(axis=1)
        return np.maximum(left, 0.0) * self.plan[0]

    def _normal_equations(self) -> tuple[Floats, Floats]:
        """Return matrices (k, 6, 6) and right sides (k, 6), scaled to the size of the parts."""
        area = self.plan[0]
        scale = np.sqrt(np.maximum(area, 1e-300))
        matrix = np.empty((len(area), 6, 6))
        right = np.empty((len(area), 6))
        for row, (i, j) in enumerate(BASIS):
            right[:, row] = self.height[row] / (area * scale ** (i + j))
            for column, (k, m) in enumerate(BASIS):
                total = i + j + k + m
                matrix[:, row, column] = self.plan[_ROW[i + k, j + m]] / (area * scale**total)
        # Long narrow parts say nothing about the bend across them: hold it near zero there.
        matrix[:, range(3, 6), range(3, 6)] += 1e-9
        matrix[:, (1, 2), (1, 2)] += 1e-13
        return matrix, right


def _integrals(corners: Floats, centre: Floats) -> Floats:
    """Return the integrals over triangles (m, 3, 3) about places (2, m): plan, height, square."""
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = 0.5 * (first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0])
    x, y, z = corners.transpose(2, 1, 0).copy()
    x -= centre[0]
    y -= centre[1]
    result = np.zeros((len(POWERS) + len(BASIS) + 1, len(area)))
    values = np.empty((len(POWERS), len(area)))
    for shares, weight in zip(_POINTS, _WEIGHTS, strict=True):
        at_x, at_y, at_z = shares @ x, shares @ y, shares @ z
        values[0] = weight * area
        for row, (i, j) in enumerate(POWERS[1:], 1):
            # From the product of one degree less.
            lower, more = ((i - 1, j), at_x) if i else ((i, j - 1), at_y)
            np.multiply(values[_ROW[lower]], more, out=values[row])
        result[: len(POWERS)] += values
        heights = values[: len(BASIS)] * at_z
        result[len(POWERS) : -1] += heights
        result[-1] += heights[0] * at_z
    return result


def _moved(values: Floats, powers: tuple[tuple[int, int], ...], dx: Floats, dy: Floats) -> Floats:
    """Return integrals taken about places that lie ``(dx, dy)`` back."""
    result = np.zeros_like(values)
    for row, (i, j) in enumerate(powers):
        for a in range(i + 1):
            for b in range(j + 1):
                factor = comb(i, a) * comb(j, b) * dx ** (i - a) * dy ** (j - b)
                result[row] += factor * values[_ROW[a, b]]
    return result
