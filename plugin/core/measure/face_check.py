"""What is wrong with the faces of a design, with the ground they cover."""

from collections.abc import Callable, Iterator
from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from ..depth.overlays import mended, unite
from ..text import translate
from ..tin import Tin
from ..tin.health import face_kinds
from ..tin.overlaps import overlapping_faces
from ..tin.rim import skinny_rim
from ..tin.weld import hang_together
from ..tolerance import Tolerance
from .issues import MOST_OF_A_CODE, Issue, Issues, JobScale, Weight, point_on

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_PAIRS = 20_000
"""Outlines are made of so many pairs of faces that lie over one another."""


def check_faces(issues: Issues, tin: Tin, tolerance: Tolerance, scale: JobScale) -> None:
    """Find faces that are hardly any, or too steep; those that hang together are one issue."""
    texts = {
        "no_area": translate(
            "Core",
            "Faces without area ({count}, the first is face {face}): their corners lie on one line.",
        ),
        "upright": translate(
            "Core",
            "Upright faces ({count}, the first is face {face}), up to {rise} high: they have no slope and no plan area.",
        ),
        "steep": translate(
            "Core",
            "Faces that rise more than 10 to 1 ({count}, the first is face {face}), up to {rise} high.",
        ),
        "sliver": translate(
            "Core",
            "Faces thinner in plan than two points can be told apart, {width} ({count}, the first is face {face}).",
        ),
    }
    for code, mask in face_kinds(tin, tolerance).items():

        def tell(faces: Ints, code: str = code) -> Issue:
            z = tin.vertices[tin.faces[faces], 2]
            rise = float(np.ptp(z, axis=1).max())
            why = texts[code].format(
                count=len(faces),
                face=int(faces[0]) + 1,
                rise=scale.depth(rise),
                width=f"{tolerance.snap:.2g} {scale.plan.symbol}",
            )
            return _patch(tin, tolerance, code, why, faces, rise)

        faces = np.flatnonzero(mask)
        if code == "sliver":
            # Where two points nearly coincide it is too small to matter; a flat one may not be.
            tiny = _shortest_sides(tin, faces) <= tolerance.snap
            _in_patches(issues, tin, code, faces[tiny], tell, Weight.NOTE)
            faces = faces[~tiny]
        _in_patches(issues, tin, code, faces, tell)


def _shortest_sides(tin: Tin, faces: Ints) -> Floats:
    corners = tin.vertices[tin.faces[faces]][..., :2]
    sides = np.roll(corners, -1, axis=1) - corners
    return np.asarray(np.hypot(sides[..., 0], sides[..., 1]).min(axis=1))


def _in_patches(
    issues: Issues,
    tin: Tin,
    code: str,
    faces: Ints,
    tell: Callable[[Ints], Issue],
    weight: Weight = Weight.CHECK,
) -> None:
    """Add an issue for each set of faces that hang together over edges."""
    if not len(faces):
        return
    row = np.full(len(tin.faces), -1, dtype=np.int64)
    row[faces] = np.arange(len(faces))
    pair = tin.edges.faces
    pair = pair[(pair >= 0).all(axis=1)]
    pair = row[pair]
    pair = pair[(pair >= 0).all(axis=1)]
    root = hang_together(len(faces), pair[:, 0], pair[:, 1])
    order = np.argsort(root, kind="stable")
    patches = np.split(faces[order], np.flatnonzero(np.diff(root[order])) + 1)
    told = (replace(tell(patch), weight=weight) for patch in patches)
    issues.add(told, code, weight, len(patches))


def _middle(corners: Floats) -> tuple[float, float]:
    x, y = corners.mean(axis=(0, 1)).tolist()
    return x, y


def _patch(
    tin: Tin,
    tolerance: Tolerance,
    code: str,
    why: str,
    faces: Ints,
    rise: float | None = None,
) -> Issue:
    """Return an issue over faces: its extent is theirs, its place a point on it."""
    corners = tin.vertices[tin.faces[faces]][..., :2]
    solid = faces[~tin.without_plan_area[faces]]
    extent = _united(tin.vertices[tin.faces[solid]][..., :2], tolerance)
    place = point_on(extent) if extent is not None else _middle(corners)
    area = float(tin.plan_areas[faces].sum())
    return Issue(
        code,
        why,
        place,
        extent=extent,
        feature=int(faces[0]) + 1,
        area=area,
        height=rise,
    )


def check_overlaps(
    issues: Issues, tin: Tin, source: Ints, tolerance: Tolerance, scale: JobScale
) -> None:
    """Find where faces lie over one another; what hangs together is one issue.

    ``source`` (m,) int holds the number by which each face is known.
    """
    pairs, _ = overlapping_faces(tin, tolerance.snap)
    if not len(pairs):
        return
    origin = np.floor(np.array(tin.extent[:2]))
    some = pairs[:MOST_PAIRS]
    plan = tin.vertices[:, :2] - origin
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        one, other = (shapely.polygons(plan[tin.faces[side]]) for side in some.T)
        whole = shapely.union_all(shapely.intersection(one, other))
        parts = shapely.get_parts(whole)
        parts = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
        home = shapely.STRtree(parts).nearest(shapely.intersection(one, other))
    text = translate(
        "Core",
        "Faces lie over one another on {area} ({count} pairs, the first are faces {one} and {other}).",
    )

    def tell(number: int) -> Issue:
        own = np.flatnonzero(home == number)
        first = source[some[own[0] if len(own) else 0]]
        extent = shapely.transform(parts[number], lambda xy: xy + origin)
        area = float(parts[number].area)
        why = text.format(
            count=len(own), one=first[0] + 1, other=first[1] + 1, area=scale.area(area)
        )
        return Issue(
            "overlap", why, point_on(extent), Weight.ERROR, extent, int(first[0]) + 1, area
        )

    issues.add((tell(k) for k in range(len(parts))), "overlap", Weight.ERROR, len(parts))


def check_rim(issues: Issues, tin: Tin, tolerance: Tolerance, scale: JobScale) -> None:
    """Find long skinny faces at the border; those that hang together are one issue."""
    text = translate(
        "Core",
        "Long skinny faces at the edge of the design ({count}), {length} long on {area}: they bridge a bay of its outline.",
    )

    def tell(faces: Ints) -> Issue:
        corners = tin.vertices[tin.faces[faces]][..., :2]
        sides = np.roll(corners, -1, axis=1) - corners
        length = float(np.hypot(sides[..., 0], sides[..., 1]).max())
        area = float(tin.plan_areas[faces].sum())
        why = text.format(count=len(faces), length=scale.length(length), area=scale.area(area))
        return _patch(tin, tolerance, "skinny_rim", why, faces)

    _in_patches(issues, tin, "skinny_rim", skinny_rim(tin), tell)


def check_holes(issues: Issues, tin: Tin, tolerance: Tolerance, scale: JobScale) -> None:
    """Find inner borders that enclose ground; closed seams enclose none."""
    text = translate("Core", "The surface has a hole of {area} (corners: {count}).")

    def found() -> Iterator[Issue]:
        for loop in (part for whole in tin.boundary_loops() for part in _simple(whole)):
            xy = tin.vertices[loop, :2]
            local = xy - xy[0]
            after = np.roll(local, -1, axis=0)
            area = -0.5 * float((local[:, 0] * after[:, 1] - local[:, 1] * after[:, 0]).sum())
            around = float(np.hypot(*(after - local).T).sum())
            if area > 0.5 * tolerance.snap * around:
                extent = shapely.Polygon(xy)
                yield Issue(
                    "hole",
                    text.format(area=scale.area(area), count=len(loop)),
                    point_on(extent),
                    extent=extent,
                    area=area,
                )

    issues.take(found())


def _simple(loop: Ints) -> list[Ints]:
    """Split a loop where it comes back to a vertex: holes may touch the outer border."""
    if len(np.unique(loop)) == len(loop):
        return [loop]
    parts = []
    path: list[int] = []
    place: dict[int, int] = {}
    for vertex in loop.tolist():
        if vertex in place:
            ring = path[place[vertex] :]
            parts.append(np.array(ring, dtype=np.int64))
            for gone in ring:
                del place[gone]
            del path[len(path) - len(ring) :]
        place[vertex] = len(path)
        path.append(vertex)
    parts.append(np.array(path, dtype=np.int64))
    return [part for part in parts if len(part) >= 3]


def check_pieces(issues: Issues, tin: Tin, tolerance: Tolerance, scale: JobScale) -> None:
    """Find pieces that share no edge with the largest one."""
    number = tin.pieces
    count = np.bincount(number)
    area = np.bincount(number, tin.plan_areas)
    small = np.flatnonzero(np.arange(len(count)) != area.argmax())
    if not len(small):
        return
    order = np.argsort(number, kind="stable")
    ends = np.cumsum(count)
    text = translate(
        "Core",
        "A piece of {area} (faces: {count}) shares no edge with the largest piece of the surface.",
    )

    def tell(piece: int) -> Issue:
        faces = order[ends[piece] - count[piece] : ends[piece]]
        why = text.format(count=int(count[piece]), area=scale.area(float(area[piece])))
        return _patch(tin, tolerance, "piece", why, faces)

    listed = small[np.argsort(-area[small], kind="stable")][:MOST_OF_A_CODE]
    issues.add((tell(int(p)) for p in listed), "piece", Weight.CHECK, len(small))


def _united(triangles: Floats, tolerance: Tolerance) -> shapely.Geometry | None:
    """Return the union of triangles (k, 3, 2) that mostly share whole edges; None of none."""
    if not len(triangles):
        return None
    origin = np.floor(triangles[0, 0])
    shapes = shapely.polygons(triangles - origin)
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        try:
            whole = shapely.coverage_union_all(shapes)
        except shapely.GEOSException:  # they lie over one another
            whole = unite(shapes, tolerance)
        return _placed(whole, origin)


def _placed(shape: shapely.Geometry, origin: Floats) -> shapely.Geometry | None:
    """Return a shape moved to its place and mended there; None if nothing is left of it."""
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        moved = mended(shapely.transform(shape, lambda xy: xy + origin))
    return None if moved.is_empty else moved
