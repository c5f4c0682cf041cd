"""What became of what a surface was built of."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TypeVar

import numpy as np
import shapely
from numpy.typing import NDArray

from ...findings import Finding
from ..mesh import Tin
from . import remarks
from .limits import within
from .manner import Points
from .places import Clash

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Placed = TypeVar("Placed", Clash, Finding)


def count_inside(area: shapely.Geometry | None, xy: Floats) -> int:
    """Return how many points lie in the area, all where there is none."""
    return len(xy) if area is None else int(within(area, xy).sum())


def inside_of(area: shapely.Geometry | None, found: Sequence[Placed]) -> list[Placed]:
    """Return what has its place in the area; all where there is none."""
    if area is None or not found:
        return list(found)
    places = np.array([one.place or (np.nan, np.nan) for one in found], dtype=np.float64)
    return [one for one, on in zip(found, within(area, places), strict=True) if on]


@dataclass(frozen=True, eq=False)
class UsedPoints:
    """Which points hold, and which of them are in a face.

    Parameters
    ----------
    place : (k,) int
        Place of each point, -1 for one that does not hold.
    number : (p,) int
        Vertex of each place, -1 for one that is none.
    plan : (n, 2) float
        The vertices.
    faces : (m, 3) int
        The surface.
    """

    place: Ints
    number: Ints
    plan: Floats
    faces: Ints

    @cached_property
    def _rows(self) -> tuple[Ints, Ints, NDArray[np.bool_]]:
        """Points that are vertices, these vertices, and whether they are in a face."""
        at = np.where(self.place >= 0, self.number[self.place], -1)
        rows = np.flatnonzero(at >= 0)
        return rows, at[rows], np.isin(at[rows], self.faces)

    @property
    def xy(self) -> Floats:
        """The points in a face, one row each."""
        _, at, there = self._rows
        return np.asarray(self.plan[at[there]])

    def alone(self, points: Points) -> list[Finding]:
        """Say which points are in no face."""
        rows, at, there = self._rows
        return [
            remarks.without_face(int(points.ids[row]), place_of(self.plan[vertex]))
            for row, vertex in zip(rows[~there], at[~there], strict=True)
        ]


def place_of(xy: Floats) -> tuple[float, float]:
    """Return a place as two numbers."""
    return float(xy[0]), float(xy[1])


def uncovered_area(tin: Tin, area: shapely.Geometry) -> tuple[float, tuple[float, float]]:
    """Return how much of an area has no surface, and a place in the largest part of it."""
    if area.area - tin.plan_area <= 1e-6 * area.area:
        return 0.0, (0.0, 0.0)
    rings = [
        shapely.linestrings(tin.vertices[[*loop, loop[0]], :2]) for loop in tin.boundary_loops()
    ]
    bare = shapely.difference(area, shapely.build_area(shapely.multilinestrings(rings)))
    parts = shapely.get_parts(bare)
    if not len(parts):
        return 0.0, (0.0, 0.0)
    largest = parts[shapely.area(parts).argmax()]
    return float(area.area - tin.plan_area), place_of(
        shapely.get_coordinates(shapely.point_on_surface(largest))[0]
    )


def in_order(findings: list[Finding], origin: Floats) -> list[Finding]:
    """Return the findings at their true places, in an order of their own."""
    found = sorted(findings, key=lambda one: (one.code, one.place or (0.0, 0.0), one.why))
    shift = place_of(origin)
    return [
        replace(one, place=(one.place[0] + shift[0], one.place[1] + shift[1]))
        if one.place is not None
        else one
        for one in found
    ]
