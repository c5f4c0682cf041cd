"""What is wrong with the points, edges and faces of a design, as issues with places."""

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, silent
from ..text import translate
from ..tin import Tin
from ..tin.health import crack_vertices
from ..tin.joined import Joined, with_one_vertex_a_place
from ..tin.spikes import find_spikes
from ..tolerance import Tolerance
from .face_check import check_faces, check_holes, check_overlaps, check_pieces, check_rim
from .issues import MOST_OF_A_CODE, Issue, Issues, JobScale, Weight

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def check_surface(
    tin: Tin,
    tolerance: Tolerance,
    scale: JobScale,
    spike: float,
    progress: Progress = silent,
) -> tuple[Issues, Tin]:
    """Look for what is wrong with a surface.

    Parameters
    ----------
    tin : Tin
        The surface as it was given.
    tolerance : Tolerance
        ``snap`` is the width below which points are one and faces are slivers.
    scale : JobScale
        The units.
    spike : float
        How far a vertex must be off the plane of its neighbours, in units of height.
    progress : Progress
        Told the share done.

    Returns
    -------
    issues : Issues
        What was found.
    joined : Tin
        The surface with one vertex for each place, as water sees it.
    """
    issues = Issues()
    joined = with_one_vertex_a_place(tin, tolerance.snap)
    progress(0.15)
    _points(issues, tin, joined, tolerance, scale)
    check_faces(issues, tin, tolerance, scale)
    progress(0.3)
    one = joined.tin
    check_overlaps(issues, one, joined.source, tolerance, scale)
    progress(0.55)
    _edges(issues, one, tolerance)
    _spikes(issues, one, scale, spike)
    progress(0.8)
    check_rim(issues, one, tolerance, scale)
    check_holes(issues, one, tolerance, scale)
    check_pieces(issues, one, tolerance, scale)
    progress(1.0)
    return issues, one


def _points(
    issues: Issues, tin: Tin, joined: Joined, tolerance: Tolerance, scale: JobScale
) -> None:
    """Find points in one place in plan, at one height or at several, and points without a face."""
    xyz = tin.vertices
    used = np.zeros(len(xyz), dtype=bool)
    used[tin.faces] = True
    known = np.flatnonzero(np.isfinite(xyz).all(axis=1))
    solid, plan = joined.solid[known], joined.plan[known]
    # Those that an edge joins are ends of a sliver, and those that an upright edge joins are top
    # and foot of a wall.
    ends = tin.edges.ends
    run = xyz[ends[:, 1], :2] - xyz[ends[:, 0], :2]
    tied = np.zeros(len(xyz), dtype=bool)
    tied[ends[np.hypot(*run.T) <= tolerance.snap]] = True
    double = (solid != known) & used[known] & used[solid] & ~(tied[known] & tied[solid])
    one, other, total = *_first(solid[double], known[double]), int(double.sum())
    text = translate(
        "Core",
        "Points {one} and {other} lie in one place at one height: faces there may not be joined.",
    )
    issues.add(
        (
            Issue("duplicate_vertex", text.format(one=a + 1, other=b + 1), xy, Weight.ERROR)
            for a, b, xy in zip(one.tolist(), other.tolist(), _places(xyz[other]), strict=True)
        ),
        "duplicate_vertex",
        Weight.ERROR,
        total,
    )
    apart = (plan != known) & (solid == known) & (solid != plan)
    one, other = plan[apart], known[apart]
    loose = ~(tied[one] & tied[other])
    one, other, total = *_first(one[loose], other[loose]), int(loose.sum())
    text = translate(
        "Core",
        "Points {one} and {other} lie in one place in plan, {apart} apart in height: one is wrong, or the surface is torn.",
    )
    rise = np.abs(xyz[other, 2] - xyz[one, 2])
    issues.add(
        (
            Issue(
                "two_heights",
                text.format(one=a + 1, other=b + 1, apart=scale.depth(dz)),
                xy,
                Weight.ERROR,
                height=dz,
            )
            for a, b, dz, xy in zip(
                one.tolist(), other.tolist(), rise.tolist(), _places(xyz[other]), strict=True
            )
        ),
        "two_heights",
        Weight.ERROR,
        total,
    )
    idle = known[~used[known]]
    _one_by_one(
        issues,
        "unused_vertex",
        Weight.NOTE,
        idle,
        xyz,
        translate("Core", "Point {number} belongs to no face."),
    )


def _one_by_one(
    issues: Issues, code: str, weight: Weight, vertices: Ints, xyz: Floats, text: str
) -> None:
    (some,) = _first(vertices)
    issues.add(
        (
            Issue(code, text.format(number=v + 1), xy, weight, feature=v + 1)
            for v, xy in zip(some.tolist(), _places(xyz[some]), strict=True)
        ),
        code,
        weight,
        len(vertices),
    )


def _edges(issues: Issues, tin: Tin, tolerance: Tolerance) -> None:
    """Find edges of three faces or more, and vertices on the side of a face."""
    crowded = tin.edges.nonmanifold
    ends = tin.edges.ends[crowded[:MOST_OF_A_CODE]]
    middle = tin.vertices[ends].mean(axis=1)
    text = translate("Core", "More than two faces share the edge between points {one} and {other}.")
    issues.add(
        (
            Issue("crowded_edge", text.format(one=a + 1, other=b + 1), xy, Weight.ERROR)
            for (a, b), xy in zip(ends.tolist(), _places(middle), strict=True)
        ),
        "crowded_edge",
        Weight.ERROR,
        len(crowded),
    )
    _one_by_one(
        issues,
        "crack",
        Weight.ERROR,
        crack_vertices(tin, tolerance),
        tin.vertices,
        translate("Core", "Point {number} lies on the side of a face without being its corner."),
    )


def _spikes(issues: Issues, tin: Tin, scale: JobScale, limit: float) -> None:
    spikes = find_spikes(tin, limit, scale.z_scale)
    above = translate(
        "Core",
        "Point {number} stands {off} above the plane of its neighbours, which keep to it within about {spread}.",
    )
    below = translate(
        "Core",
        "Point {number} lies {off} below the plane of its neighbours, which keep to it within about {spread}.",
    )
    issues.add(
        (
            Issue(
                "spike",
                (above if off > 0 else below).format(
                    number=v + 1, off=scale.depth(abs(off)), spread=scale.depth(spread)
                ),
                xy,
                feature=v + 1,
                height=off,
            )
            for v, off, spread, xy in zip(
                spikes.vertex.tolist(),
                spikes.off.tolist(),
                spikes.spread.tolist(),
                _places(tin.vertices[spikes.vertex]),
                strict=True,
            )
        ),
        "spike",
        Weight.CHECK,
        len(spikes.vertex),
    )


def _first(*arrays: Ints) -> tuple[Ints, ...]:
    """Return as much of arrays as is listed at most."""
    return tuple(array[:MOST_OF_A_CODE] for array in arrays)


def _places(points: Floats) -> list[tuple[float, float]]:
    return [(x, y) for x, y in points[:, :2].tolist()]
