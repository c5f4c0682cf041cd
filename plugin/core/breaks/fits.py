"""Planes fitted to parts of a surface, kept as sums that add up when parts are joined.

For a part with plan area ``A``, centroid ``c`` and the second moments ``S`` about it (integrals
of products of ``p - c`` over the part, taken in plan), the plane nearest to the part in heights
passes through ``c`` with the gradient ``S_xy^-1 S_xz``; the integral of the squared height
difference that remains is ``S_zz - S_xz . gradient``. For two parts, A, c and S of both together
follow from theirs alone (the parallel axis theorem). On a triangle ``S`` is ``A / 12`` times the
sum of the products of its corners' differences from the centroid, which is exact.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 13

XX, XY, YY, XZ, YZ, ZZ = range(6)
_PRODUCTS = ((0, 0), (0, 1), (1, 1), (0, 2), (1, 2), (2, 2))


@dataclass(frozen=True)
class Fits:
    """Parts of a surface, each with what a plane fit needs.

    Parameters
    ----------
    area : (k,) float
        Plan area.
    centre : (3, k) float
        Centroid.
    moments : (6, k) float
        Second moments about the centroid: xx, xy, yy, xz, yz, zz.
    """

    area: Floats
    centre: Floats
    moments: Floats

    @classmethod
    def of_triangles(cls, corners: Floats) -> "Fits":
        """Return one part for each triangle.

        Parameters
        ----------
        corners : (m, 3, 3) float
            Corners of each, counter-clockwise in plan.
        """
        count = len(corners)
        fits = cls(np.empty(count), np.empty((3, count)), np.empty((6, count)))

        def some(begin: int, end: int) -> None:
            origin, first, second = corners[begin:end].transpose(1, 2, 0).copy()
            first -= origin
            second -= origin
            area = 0.5 * (first[0] * second[1] - first[1] * second[0])
            third = (first + second) / 3.0
            fits.area[begin:end] = area
            np.add(origin, third, out=fits.centre[:, begin:end])
            first -= third
            second -= third
            area = area / 12.0
            for row, (i, j) in enumerate(_PRODUCTS):
                moment = third[i] * third[j]
                moment += first[i] * first[j]
                moment += second[i] * second[j]
                np.multiply(moment, area, out=fits.moments[row, begin:end])

        in_blocks(some, count, _BLOCK)
        return fits

    def together(self, one: Ints, other: Ints) -> "Fits":
        """Return the parts that pairs of parts make, (p,)."""
        a, b = self.area.take(one), self.area.take(other)
        area = a + b
        away = self.centre.take(other, axis=1)
        away -= self.centre.take(one, axis=1)
        moments = self.moments.take(one, axis=1)
        moments += self.moments.take(other, axis=1)
        weight = a * b / area
        for row, (i, j) in enumerate(_PRODUCTS):
            moments[row] += weight * away[i] * away[j]
        away *= b / area
        away += self.centre.take(one, axis=1)
        return Fits(area, away, moments)

    def gathered(self, group: Ints, count: int) -> "Fits":
        """Return the parts that groups of parts make.

        Parameters
        ----------
        group : (k,) int
            Group of each part, 0 .. count - 1; every group has a part.
        count
            Number of groups.
        """
        size = np.bincount(group, minlength=count)
        member = np.empty(count, np.int64)
        member[group] = np.arange(len(group))
        fits = self.take(member)
        # Most parts stay alone; sums are needed for the others only.
        several = np.flatnonzero(size > 1)
        if len(several):
            number = np.full(count, -1)
            number[several] = np.arange(len(several))
            some = np.flatnonzero(size.take(group) > 1)
            sums = self.take(some)._summed(number[group[some]], len(several))
            fits.put(several, sums)
        return fits

    def _summed(self, group: Ints, count: int) -> "Fits":
        """Do `gathered` with sums for all."""
        area = np.bincount(group, self.area, count).astype(np.float64)
        whole = np.where(area > 0, area, 1.0)  # upright faces have no plan area, and no place
        centre = np.stack(
            [np.bincount(group, row * self.area, count) / whole for row in self.centre]
        )
        away = self.centre - centre.take(group, axis=1)
        moments = np.empty((6, count))
        for row, (i, j) in enumerate(_PRODUCTS):
            spread = self.moments[row] + self.area * away[i] * away[j]
            moments[row] = np.bincount(group, spread, count)
        return Fits(area, centre, moments)

    def put(self, rows: Ints, parts: "Fits") -> None:
        """Write parts over the given rows."""
        self.area[rows] = parts.area
        self.centre[:, rows] = parts.centre
        self.moments[:, rows] = parts.moments

    def take(self, rows: Ints) -> "Fits":
        """Return the given parts."""
        return Fits(
            self.area.take(rows), self.centre.take(rows, axis=1), self.moments.take(rows, axis=1)
        )

    @property
    def gradients(self) -> Floats:
        """Gradient of the plane of each part, (k, 2) float; 0 for a part without plan area."""
        m = self.moments
        determinant = m[XX] * m[YY] - m[XY] ** 2
        with np.errstate(divide="ignore", invalid="ignore"):
            east = (m[XZ] * m[YY] - m[YZ] * m[XY]) / determinant
            north = (m[YZ] * m[XX] - m[XZ] * m[XY]) / determinant
        return np.where(determinant[:, None] > 0, np.column_stack((east, north)), 0.0)

    @property
    def misfit(self) -> Floats:
        """Integral of the squared height difference from the plane of each part, (k,) float."""
        m = self.moments
        determinant = m[XX] * m[YY]
        determinant -= m[XY] * m[XY]
        explained = m[XZ] * m[XZ] * m[YY]
        explained -= 2.0 * m[XZ] * m[YZ] * m[XY]
        explained += m[YZ] * m[YZ] * m[XX]
        with np.errstate(divide="ignore", invalid="ignore"):
            explained /= determinant
        return np.maximum(m[ZZ] - np.where(determinant > 0, explained, 0.0), 0.0)

    def misfit_from(self, rows: Ints, planes: "Fits", which: Ints) -> Floats:
        """Return the integral of the squared height difference of parts from given planes.

        Parameters
        ----------
        rows : (p,) int
            Parts of this.
        planes, which
            The plane of each is that of part ``which`` (p,) of ``planes``.
        """
        east, north = planes.gradients.take(which, 0).T
        away = self.centre.take(rows, axis=1) - planes.centre.take(which, axis=1)
        lift = away[2] - east * away[0] - north * away[1]
        m = self.moments.take(rows, axis=1)
        spread = m[ZZ] - 2.0 * (east * m[XZ] + north * m[YZ])
        spread += east * east * m[XX] + 2.0 * east * north * m[XY] + north * north * m[YY]
        return self.area.take(rows) * lift * lift + np.maximum(spread, 0.0)

    @property
    def residual(self) -> Floats:
        """Root mean square height difference from the plane of each part, (k,) float."""
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.where(self.area > 0, np.sqrt(self.misfit / self.area), 0.0)
