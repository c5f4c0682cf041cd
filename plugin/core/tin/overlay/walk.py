"""The pairs of faces of two surfaces that share plan area, block by block."""

from collections.abc import Iterator
from functools import cached_property

from ..mesh import Tin
from .frame import Frames, Pairs, Slopes, meet
from .pairs import Grid, candidates
from .rows import Rows, common_origin, pack, select


class Overlay:
    """Two surfaces over the same ground.

    Parameters
    ----------
    upper, lower : Tin
        The surfaces.
    """

    def __init__(self, upper: Tin, lower: Tin) -> None:
        self.origin = common_origin(upper, lower)
        window = (
            max(upper.extent[0], lower.extent[0]),
            max(upper.extent[1], lower.extent[1]),
            min(upper.extent[2], lower.extent[2]),
            min(upper.extent[3], lower.extent[3]),
        )
        self._boxes = []
        self._rows: list[Rows] = []
        found = [select(tin, window, self.origin) for tin in (upper, lower)]
        self.empty = any(len(face) == 0 for face, _, _ in found)
        if self.empty:
            return
        self._grid = Grid.over(*((low, high) for _, low, high in found))
        for tin, (face, low, high) in zip((upper, lower), found, strict=True):
            order = self._grid.order(low)
            self._rows.append(pack(tin, face[order], self.origin))
            self._boxes.append((low.take(order, axis=0), high.take(order, axis=0)))

    @property
    def upper(self) -> Rows:
        """Faces of the upper surface."""
        return self._rows[0]

    @property
    def lower(self) -> Rows:
        """Faces of the lower surface."""
        return self._rows[1]

    @cached_property
    def slopes(self) -> Slopes:
        """Slopes of the upper faces."""
        return Slopes(self.upper)

    @cached_property
    def frames(self) -> Frames:
        """Frames of the lower faces."""
        return Frames(self.lower)

    def pairs(self) -> Iterator[tuple[Pairs, float]]:
        """Yield the pairs that share plan area, in blocks, and the share of the work done."""
        if self.empty:
            return
        one_box, other_box = self._boxes
        for one, other, done in candidates(self._grid, one_box, other_box):
            yield meet(self.upper, self.frames, one, other), done / len(self.upper)
