"""Whether coordinates lie where their CRS is made for."""

from collections.abc import Sequence

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCoordinateTransformContext,
    QgsCsException,
    QgsPointXY,
)

from ..core.measure.unit_check import Reading
from ..core.units import LinearUnit

_MARGIN = 0.25
"""Degrees by which a site may lie past the area of use: published boxes are drawn closely."""


class AreaOfUse:
    """The area of use of a CRS.

    Parameters
    ----------
    crs
        A projected CRS.
    unit
        Its plan unit.
    """

    def __init__(self, crs: QgsCoordinateReferenceSystem, unit: LinearUnit) -> None:
        self._unit = unit
        plane = crs.horizontalCrs() if crs.horizontalCrs().isValid() else crs
        self._bounds = plane.bounds()
        degrees = QgsCoordinateReferenceSystem("EPSG:4326")
        self._transform = QgsCoordinateTransform(plane, degrees, QgsCoordinateTransformContext())
        self.known = not self._bounds.isEmpty() and self._transform.isValid()

    def holds(self, x: float, y: float) -> bool:
        """Tell whether a place lies in the area of use, or close to it."""
        try:
            there = self._transform.transform(QgsPointXY(x, y))
        except QgsCsException:
            return False
        west, east = self._bounds.xMinimum() - _MARGIN, self._bounds.xMaximum() + _MARGIN
        longitude = there.x()
        if west > east:  # across the antimeridian
            in_width = longitude >= west or longitude <= east
        else:
            in_width = west <= longitude <= east
        low, high = self._bounds.yMinimum() - _MARGIN, self._bounds.yMaximum() + _MARGIN
        return in_width and low <= there.y() <= high

    def first_that_fits(self, x: float, y: float, readings: Sequence[Reading]) -> Reading | None:
        """Return the first way to read the coordinates by which they lie in the area."""
        for reading in readings:
            factor = reading.unit.to(self._unit)
            one, two = (y, x) if reading.swapped else (x, y)
            if self.holds(one * factor, two * factor):
                return reading
        return None
