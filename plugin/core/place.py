"""Where a window lies in a raster."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Place:
    """Place of a window, and how much of it is halo.

    Parameters
    ----------
    row, column : int
        First row and first column of the window without its halo.
    above, below, left, right : int
        Rows and columns of the halo.
    """

    row: int = 0
    column: int = 0
    above: int = 0
    below: int = 0
    left: int = 0
    right: int = 0

    def size(self, shape: tuple[int, ...]) -> tuple[int, int]:
        """Return rows and columns without the halo, of a window of that shape."""
        return shape[0] - self.above - self.below, shape[1] - self.left - self.right

    def own(self, shape: tuple[int, ...]) -> tuple[slice, slice]:
        """Return what is not halo, of a window of that shape."""
        rows, columns = self.size(shape)
        return slice(self.above, self.above + rows), slice(self.left, self.left + columns)
