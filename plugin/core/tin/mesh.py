"""The triangulated surface itself."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ..blocks import in_blocks
from ..errors import SurfaceError
from ..text import translate
from . import boundary, locate, planes
from .edges import Edges, edges_of, pair_half_edges

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 16


@dataclass(frozen=True, eq=False)
class Tin:
    """A triangulated surface; its arrays cannot be written to.

    Make one with `Tin.from_arrays`, which checks and orients the faces. What follows from the
    arrays (edges, planes, ...) is worked out when it is first asked for, and kept.

    Parameters
    ----------
    vertices : (n, 3) float
        x, y, z.
    faces : (m, 3) int
        Vertex indices, counter-clockwise seen from above. A face without plan area (a vertical
        one) runs against its neighbours.
    """

    vertices: Floats
    faces: Ints

    @classmethod
    def from_arrays(cls, vertices: ArrayLike, faces: ArrayLike) -> "Tin":
        """Return the surface of these vertices and faces, each face turned counter-clockwise.

        Parameters
        ----------
        vertices : (n, 3) float
            x, y, z.
        faces : (m, 3) int
            Vertex indices from 0.

        Raises
        ------
        SurfaceError
            There is no face, an index points at no vertex, a face names a vertex twice, or a
            coordinate of a used vertex is not a finite number.
        """
        points = np.array(vertices, dtype=np.float64, ndmin=2)
        corners = np.array(faces, dtype=np.int64, ndmin=2)
        _check(points, corners)
        thin, slopes = planes.turned_with_gradients(
            points, corners, planes.coordinate_rounding(points)
        )
        if thin.any() and not thin.all():
            boundary.turn_flat_faces(corners, thin)
        tin = cls(_locked(points), _locked(corners))
        # What has come along is put where the cached properties look first.
        vars(tin).update(without_plan_area=_locked(thin), gradients=_locked(slopes))
        return tin

    @cached_property
    def extent(self) -> tuple[float, float, float, float]:
        """Smallest x, smallest y, largest x and largest y of the faces."""
        used = np.zeros(len(self.vertices), dtype=bool)
        used[self.faces] = True
        plan = self.vertices[used, :2]
        (xmin, ymin), (xmax, ymax) = plan.min(axis=0), plan.max(axis=0)
        return float(xmin), float(ymin), float(xmax), float(ymax)

    @cached_property
    def rounding(self) -> float:
        """Width within which plan coordinates cannot be told apart for rounding."""
        return planes.coordinate_rounding(self.vertices)

    def _per_face(self, measure: Callable[..., NDArray], result: NDArray, *more: float) -> NDArray:
        return _locked(planes.per_face(measure, self.vertices, self.faces, result, *more))

    @cached_property
    def without_plan_area(self) -> NDArray[np.bool_]:
        """Faces that are vertical or collinear in plan within `rounding`, (m,) bool."""
        flat = np.empty(len(self.faces), dtype=bool)
        return self._per_face(planes.without_plan_area, flat, self.rounding)

    @cached_property
    def plan_areas(self) -> Floats:
        """Plan area of each face, (m,) float; never negative."""
        return self._per_face(planes.plan_areas, np.empty(len(self.faces)))

    @cached_property
    def sloped_areas(self) -> Floats:
        """Area of each face on its slope, (m,) float."""
        return self._per_face(planes.sloped_areas, np.empty(len(self.faces)))

    @cached_property
    def gradients(self) -> Floats:
        """Rise over run of each face along x and y, (m, 2) float.

        NaN for a face `without_plan_area`.
        """
        slopes = np.empty((len(self.faces), 2))
        return self._per_face(planes.gradients, slopes, self.rounding)

    @property
    def plan_area(self) -> float:
        """Sum of the plan areas."""
        return float(self.plan_areas.sum())

    @property
    def sloped_area(self) -> float:
        """Sum of the areas on the slope."""
        return float(self.sloped_areas.sum())

    @cached_property
    def edges(self) -> Edges:
        """The edges, with their faces."""
        return pair_half_edges(self.faces)

    @cached_property
    def quick_edges(self) -> Edges:
        """The same edges in whatever order was quickest, for searches over all of them."""
        return edges_of(self.faces)

    @property
    def neighbours(self) -> Ints:
        """Face across side k (corner k to corner k + 1), (m, 3) int, -1 where there is none."""
        return self.edges.neighbours

    @cached_property
    def pieces(self) -> Ints:
        """Number of the connected piece each face belongs to, (m,) int.

        Faces that share an edge are in one piece. Pieces are numbered by their first face.
        """
        return _locked(boundary.pieces(self.edges))

    def boundary_loops(self) -> list[Ints]:
        """Return the borders as vertex indices, the surface on their left.

        Outer borders run counter-clockwise, holes clockwise; the first vertex is not repeated.
        """
        return boundary.loops(self.faces, self.edges)

    @cached_property
    def _locator(self) -> locate.Locator:
        return locate.Locator(self)

    def locate(self, xy: ArrayLike) -> Ints:
        """Return the face that holds each point in plan, (k,) int, -1 outside the surface.

        A point on a shared edge or vertex is given one of the faces there, always the same
        one, whatever other points are asked for with it.

        Parameters
        ----------
        xy : (k, 2) float
            Points; more columns are ignored.
        """
        return self._locator.faces(_points(xy))

    def sample(self, xy: ArrayLike) -> tuple[Floats, Ints]:
        """Return the height of the surface at each point, and the face it was read from.

        Parameters
        ----------
        xy : (k, 2) float
            Points; more columns are ignored.

        Returns
        -------
        z : (k,) float
            NaN outside the surface.
        face : (k,) int
            -1 outside the surface.
        """
        return self._locator.heights(_points(xy))


def _locked(array: NDArray) -> NDArray:
    array.flags.writeable = False
    return array


def _points(xy: ArrayLike) -> Floats:
    points = np.asarray(xy, dtype=np.float64)
    if points.ndim != 2 or points.shape[1] < 2:
        raise ValueError("points must be an array of shape (k, 2)")
    return points[:, :2]


def _check(vertices: Floats, faces: Ints) -> None:
    if faces.size == 0:
        raise SurfaceError(translate("Core", "The surface has no faces."))
    if vertices.ndim != 2 or vertices.shape[1] != 3 or faces.ndim != 2 or faces.shape[1] != 3:
        raise SurfaceError(
            translate(
                "Core", "A surface needs three coordinates a vertex and three corners a face."
            )
        )
    blocks = in_blocks(
        lambda begin, end: _doubts(faces[begin:end], len(vertices)), len(faces), _BLOCK
    )
    outside, twice = np.array(blocks).any(axis=0)
    if outside:
        bad = ((faces < 0) | (faces >= len(vertices))).any(axis=1)
        raise SurfaceError(
            translate(
                "Core", "Face {face} points at a vertex that does not exist: repair the surface."
            ).format(face=int(bad.argmax()) + 1)
        )
    if twice:
        raise SurfaceError(
            translate(
                "Core", "Face {face} names the same vertex twice: remove it from the surface."
            ).format(face=int(_twice(faces).argmax()) + 1)
        )
    if not np.isfinite(vertices).all():
        finite = np.isfinite(vertices).all(axis=1)
        broken = ~finite[faces].all(axis=1)
        if broken.any():
            raise SurfaceError(
                translate(
                    "Core",
                    "A corner of face {face} has no usable coordinates: repair the surface.",
                ).format(face=int(broken.argmax()) + 1)
            )


def _doubts(faces: Ints, vertices: int) -> tuple[bool, bool]:
    """Tell whether an index points at no vertex, and whether a face names a vertex twice."""
    return bool(faces.min() < 0 or faces.max() >= vertices), bool(_twice(faces).any())


def _twice(faces: Ints) -> NDArray[np.bool_]:
    one, two, three = faces.T
    return (one == two) | (two == three) | (three == one)
