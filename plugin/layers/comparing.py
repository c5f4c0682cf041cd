"""Two surfaces of any kind compared: exactly where both are TINs, else in prisms of pixels."""

from collections.abc import Iterator

import numpy as np

from ..core.depth.zones import Zones
from ..core.measure.cells import classify, failing_corners
from ..core.measure.classes import Classes, Sums
from ..core.measure.pair import Pair
from ..core.measure.pixels import Prisms, figures_of
from ..core.measure.volumes import Volumes, areas_of, between_tins, by_sign
from ..core.progress import Progress, silent
from ..core.tin import Tin
from ..core.tolerance import Tolerance
from .differences import Differences
from .surfaces import Surface

Outlines = np.ndarray
"""(k + 1, g) object: outline of each zone (the last is outside all) and group."""


class TinComparison:
    """Two TINs, cell by cell."""

    pixel = 0.0
    """Side of a pixel; 0 where the comparison is exact."""

    def __init__(
        self,
        upper: Surface,
        lower: Surface,
        zones: Zones | None,
        tolerance: Tolerance,
        progress: Progress = silent,
    ) -> None:
        self._zones, self._tolerance = zones, tolerance
        self.pair = Pair.of(upper.data, lower.data, zones, tolerance, progress)
        self.sign = by_sign(self.pair)

    def volumes(self, z_scale: float, progress: Progress = silent) -> Volumes:
        """Return cut and fill."""
        return between_tins(self.pair, self._zones, self._tolerance, z_scale, progress)

    def classify(
        self,
        classes: Classes,
        *,
        less: np.ndarray | None = None,
        group: np.ndarray | None = None,
        progress: Progress = silent,
    ) -> tuple[Sums, Outlines | None]:
        """Divide the ground by classes of the difference; see `classify` of core."""
        return classify(
            self.pair, classes, self._tolerance.snap, less=less, group=group, progress=progress
        )

    def failing(
        self, less: np.ndarray, low: np.ndarray, high: np.ndarray, progress: Progress = silent
    ) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
        """Return where the difference leaves its limits; see `failing_corners` of core."""
        return failing_corners(self.pair, less, low, high, progress)


class RasterComparison:
    """Surfaces of which at least one is a raster, pixel by pixel."""

    def __init__(self, upper: Surface, lower: Surface, zones: Zones | None, *_: object) -> None:
        self._differences = Differences(upper, lower)
        self._zones = zones
        self.pixel = abs(self._differences.grid.width)
        self.fits = self._differences.fits
        self.sign = Classes(np.zeros(1), self._differences.slack, level=True)

    def _prisms(
        self,
        classes: Classes,
        less: np.ndarray | None,
        group: np.ndarray | None,
        progress: Progress,
    ) -> Prisms:
        prisms = self._new(classes, less, group)
        for row, strip in self.strips(progress):
            prisms.add(row, strip)
        return prisms

    def _new(self, classes: Classes, less: np.ndarray | None, group: np.ndarray | None) -> Prisms:
        polygons = np.zeros(0, object) if self._zones is None else self._zones.polygons
        return Prisms(self._differences.grid, polygons, classes, less=less, group=group)

    def strips(self, progress: Progress) -> Iterator[tuple[int, np.ndarray]]:
        """Yield first row and difference of strips."""
        for row, strip in self._differences.strips():
            yield row, strip
            progress((row + len(strip)) / self._differences.grid.rows)

    def volumes(self, z_scale: float, progress: Progress = silent) -> Volumes:
        """Return cut and fill."""
        prisms = self._prisms(self.sign, None, None, progress)
        return Volumes(
            figures_of(prisms.sums(), z_scale),
            areas_of(self._zones),
            prisms.missing(),
            np.nan,
            np.nan,
            self.sign.slack,
        )

    def classify(
        self,
        classes: Classes,
        *,
        less: np.ndarray | None = None,
        group: np.ndarray | None = None,
        progress: Progress = silent,
    ) -> tuple[Sums, Outlines | None]:
        """Divide the pixels by classes of the difference."""
        prisms = self._prisms(classes, less, group, progress)
        return prisms.sums(), None if group is None else prisms.outlines()

    def failing(
        self, less: np.ndarray, low: np.ndarray, high: np.ndarray, progress: Progress = silent
    ) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
        """Return the centres of pixels beyond the limits, the difference there and the zone."""
        found = [(np.zeros((0, 2)), np.zeros(0), np.zeros(0, np.int64))]
        grid = self._differences.grid
        prisms = self._new(self.sign, less, None)
        for first, strip in self.strips(progress):
            off, zone = prisms.add(first, strip)
            bad = (off < low[zone]) | (off > high[zone])
            row, column = np.nonzero(bad)
            x = grid.left + (column + 0.5) * grid.width
            y = grid.top + (first + row + 0.5) * grid.height
            found.append((np.column_stack((x, y)), off[bad], zone[bad]))
        xy, off, zone = (np.concatenate(some) for some in zip(*found, strict=True))
        return xy, off, zone, np.full(len(off), self.pixel)


def compare(
    upper: Surface,
    lower: Surface,
    zones: Zones | None,
    tolerance: Tolerance,
    progress: Progress = silent,
) -> TinComparison | RasterComparison:
    """Return the comparison of two surfaces in disjoint zones, or everywhere."""
    both = isinstance(upper.data, Tin) and isinstance(lower.data, Tin)
    kind = TinComparison if both else RasterComparison
    return kind(upper, lower, zones, tolerance, progress)
