"""The pairs of faces of two surfaces that share plan area, block by block."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from ..mesh import Tin
from .difference import Heights, heights
from .frame import Pairs, Side, meet
from .grid import Boxes, Grid, within
from .pairs import candidates
from .rows import common_origin, pack, select

Ints = NDArray[np.int64]

_LARGER = 64.0  # times as much plan area, from where on a pair is seen from its smaller face


class Overlay:
    """Two surfaces over the same ground.

    Parameters
    ----------
    upper, lower : Tin
        The surfaces.
    """

    def __init__(self, upper: Tin, lower: Tin) -> None:
        self.origin = common_origin(upper, lower)
        window = np.concatenate(
            (
                np.maximum(upper.extent[:2], lower.extent[:2]) - self.origin,
                np.minimum(upper.extent[2:], lower.extent[2:]) - self.origin,
            )
        )
        found = [select(tin, window, self.origin) for tin in (upper, lower)]
        self.empty = any(len(face) == 0 for face, _ in found)
        if self.empty:
            return
        boxes = [within(box, window) for _, box in found]
        self._grid = Grid.over(boxes[0], boxes[1])
        orders = [self._grid.order(box[0]) for box in boxes]
        self.upper, self.lower = (
            Side(pack(tin, face.take(order), self.origin))
            for tin, (face, _), order in zip((upper, lower), found, orders, strict=True)
        )
        self._boxes: list[Boxes] = [
            (box[0].take(order, axis=0), box[1].take(order, axis=0))
            for box, order in zip(boxes, orders, strict=True)
        ]

    def pairs(self) -> Iterator[tuple[Pairs, float]]:
        """Yield the pairs that share plan area, in blocks, and the share of the work done."""
        if self.empty:
            return
        least, sizes = _LARGER * self.upper.rows.size, self.lower.rows.size
        for one, other, done in candidates(self._grid, *self._boxes):
            small = least.take(one) < sizes.take(other)
            if small.any():
                some = np.flatnonzero(small)
                pairs = meet(self.lower, self.upper, other.take(some), one.take(some))
                yield replace(pairs, swapped=True), done
                some = np.flatnonzero(~small)
                one, other = one.take(some), other.take(some)  # noqa: PLW2901
            yield meet(self.upper, self.lower, one, other), done

    def first(self, pairs: Pairs) -> Side:
        """Return the surface of the first faces of pairs."""
        return self.lower if pairs.swapped else self.upper

    def second(self, pairs: Pairs) -> Side:
        """Return the surface of the second faces of pairs."""
        return self.upper if pairs.swapped else self.lower

    def heights(self, pairs: Pairs) -> Heights:
        """Return how high the first face of pairs lies above the second."""
        return heights(self.first(pairs), self.second(pairs), pairs)
