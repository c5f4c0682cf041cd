"""Facets: the planes of a side, each between two rays that run outward from the foot."""

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from ...vectors import dot, turned

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

NONE = -1
_ANYWHERE = (0.0, 0.0, 1.0)


@dataclass(eq=False)
class Facets:
    """Facets. A line or plane is held as (a, b, c) of the function ``a x + b y + c``.

    Parameters
    ----------
    zone : (k,) int
        Zone each belongs to.
    place : (k,) float
        Where along the outlines it stands; orders the facets.
    first, last : (k, 3) float
        Distance inward from the ray the facet begins at and from the one it ends at; rays turn
        counter-clockwise with the outline.
    front : (k, 3) float
        Distance outward from the foot; 1 everywhere for facets about a single node.
    plane : (k, 3) float
        Height, less that of the design where sides follow it.
    before, after : (k,) int
        Facets across the two rays that have the same heights there, -1 for none.
    at_edge : (k,) bool
        Facets carried on along the edge of the design.
    """

    zone: Ints
    place: Floats
    first: Floats
    last: Floats
    front: Floats
    plane: Floats
    before: Ints
    after: Ints
    at_edge: NDArray[np.bool_]

    def __len__(self) -> int:
        """Return the number of facets."""
        return len(self.zone)

    def take(self, rows: Ints) -> "Facets":
        """Return some of the facets; their neighbours keep their old numbers."""
        return Facets(*(getattr(self, field.name)[rows] for field in fields(self)))

    @staticmethod
    def joined(*some: "Facets") -> "Facets":
        """Return facets one after the other; their neighbours keep their old numbers."""
        names = [field.name for field in fields(Facets)]
        return Facets(*(np.concatenate([getattr(one, name) for one in some]) for name in names))


def facets_about(
    zone: Ints, place: Floats, apex: Floats, height: Floats, rays: Floats, gradient: Floats
) -> Facets:
    """Return facets between two directions from a node, without neighbours.

    Parameters
    ----------
    zone, place : (k,) int, (k,) float
        As in `Facets`.
    apex : (k, 2) float
        The nodes.
    height : (k,) float
        Of the foot there.
    rays : (k, 2, 2) float
        Unit vectors, the second counter-clockwise of the first by less than half a turn.
    gradient : (k, 2) float
        Of the planes.
    """
    nobody = np.full(len(zone), NONE, dtype=np.int64)
    return Facets(
        zone,
        place,
        through(apex, turned(rays[:, 0])),
        through(apex, -turned(rays[:, 1])),
        np.tile(_ANYWHERE, (len(zone), 1)),
        through(apex, gradient, height),
        nobody,
        nobody.copy(),
        np.zeros(len(zone), dtype=bool),
    )


def through(point: Floats, gradient: Floats, value: Floats | float = 0.0) -> Floats:
    """Return the functions (k, 3) with that gradient and that value at a point."""
    return np.column_stack((gradient, value - dot(gradient, point)))


def at(functions: Floats, xy: Floats) -> Floats:
    """Return the value of each function at its point, (k,) float."""
    return functions[:, 0] * xy[:, 0] + functions[:, 1] * xy[:, 1] + functions[:, 2]
