"""Things that a side is told by: points, lines and areas, ready for nearest-point questions."""

from collections.abc import Sequence
from functools import cached_property

import numpy as np
import shapely

ON_END = 1e-3
"""A line that ends no farther than this beyond a reference ends on it, in plan units: more than
the chord of an arc lies off the arc, where the line may have been cut."""


class Reference:
    """A set of reference geometries.

    Parameters
    ----------
    geometries
        shapely points, lines or polygons in plan, single or multi; empty ones are left out.
    """

    def __init__(self, geometries: Sequence[shapely.Geometry] | np.ndarray) -> None:
        given = np.asarray(geometries, dtype=object)
        self.features: np.ndarray = given[~shapely.is_empty(given)] if len(given) else given
        self.single: np.ndarray = shapely.get_parts(self.features)
        kind = shapely.get_dimensions(self.single)
        self.areas: np.ndarray = self.single[kind == 2]
        outlines = np.concatenate([shapely.boundary(self.areas), self.single[kind == 1]])
        a, b = _segments(outlines)
        points = shapely.get_coordinates(self.single[kind == 0])
        self._a = np.concatenate([a, points])
        self._b = np.concatenate([b, points])

    def __len__(self) -> int:
        """Return the number of geometries that are not empty."""
        return len(self.features)

    @cached_property
    def _tree(self) -> shapely.STRtree:
        pairs = np.stack([self._a, self._b], axis=1)
        return shapely.STRtree(shapely.linestrings(pairs))

    @cached_property
    def _area_tree(self) -> shapely.STRtree:
        return shapely.STRtree(self.areas)

    @cached_property
    def _single_tree(self) -> shapely.STRtree:
        return shapely.STRtree(self.single)

    def nearest(self, xy: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Return the nearest reference point to each point.

        Returns
        -------
        place : (p, 2) float
            Inside an area the point itself.
        distance : (p,) float
            0 inside an area.
        """
        found = self._tree.query_nearest(shapely.points(xy), all_matches=False)[1]
        a, b = self._a[found], self._b[found]
        step = b - a
        size = np.maximum((step * step).sum(1), 1e-300)
        along = np.clip(((xy - a) * step).sum(1) / size, 0.0, 1.0)
        place = a + along[:, None] * step
        inside = self.covers(xy)
        place[inside] = xy[inside]
        gap = place - xy
        return place, np.hypot(gap[:, 0], gap[:, 1])

    def covers(self, xy: np.ndarray) -> np.ndarray:
        """Tell which points lie in an area or on its border, (p,) bool."""
        inside = np.zeros(len(xy), bool)
        if len(self.areas) and len(xy):
            inside[self._area_tree.query(shapely.points(xy), predicate="intersects")[0]] = True
        return inside

    def crossed_by(self, lines: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Find lines that pass through a reference line or in and out of an area.

        A line that ends on a reference does not pass through it.

        Returns
        -------
        crossed : (k,) bool
        place : (k, 2) float
            One place where it happens; NaN elsewhere.
        """
        crossed = np.zeros(len(lines), bool)
        place = np.full((len(lines), 2), np.nan)
        if not len(self.single):
            return crossed, place
        line, single = self._single_tree.query(lines, predicate="crosses")
        for k, s in zip(line, single, strict=True):
            edge = self.single[s]
            edge = shapely.boundary(edge) if shapely.get_dimensions(edge) == 2 else edge
            where = shapely.get_coordinates(shapely.intersection(lines[k], edge))
            ends = shapely.get_coordinates(lines[k])[[0, -1]]
            if not np.array_equal(*ends):
                away = np.hypot(*(where[:, None] - ends).transpose(2, 0, 1)).min(axis=1)
                where = where[away > ON_END]
            if len(where):
                crossed[k], place[k] = True, where[0]
        return crossed, place


def _segments(lines: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    xy, owner = shapely.get_coordinates(shapely.get_parts(lines), return_index=True)
    same = np.flatnonzero(owner[1:] == owner[:-1])
    return xy[same], xy[same + 1]
