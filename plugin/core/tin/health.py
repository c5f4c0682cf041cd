"""What is wrong with a surface, with places."""

from collections.abc import Callable, Collection, Iterable

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding
from ..runs import count_up
from ..text import translate
from ..tolerance import Tolerance
from .bins import Bins
from .mesh import Tin
from .overlaps import overlapping_faces
from .weld import same_place

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_OF_A_KIND = 1000
"""So many findings of one kind are listed; one more then tells how many there are in all."""

STEEP = 10.0
"""Rise over run from which a face counts as upright in practice (5.7 degrees off the plumb)."""


def examine(tin: Tin, tolerance: Tolerance, codes: Collection[str] | None = None) -> list[Finding]:
    """List what may be wrong with a surface.

    Parameters
    ----------
    tin : Tin
        The surface.
    tolerance : Tolerance
        ``snap`` is the width below which vertices coincide, faces are slivers and overlaps are
        passed over.
    codes : collection of str
        Look for these only, which takes less time; None for all.

    Returns
    -------
    list of Finding
        With these codes, ``feature`` being the face number from 1 where one face is meant:

        ``no_area`` the corners of the face lie on one line; ``upright`` vertical, it has no
        slope; ``steep`` rises more than 10 to 1; ``sliver`` thinner in plan than ``snap``;
        ``duplicate_vertex`` two vertices in one place; ``unused_vertex``; ``crowded_edge`` more
        than two faces share an edge; ``overlap`` two faces lie over one another in plan;
        ``crack`` a vertex lies on a border edge without being its corner; ``piece`` a part that
        shares no edge with the largest part.
    """
    findings: list[Finding] = []
    for check, told in (
        (_faces, {"no_area", "upright", "steep", "sliver"}),
        (_vertices, {"duplicate_vertex", "unused_vertex"}),
        (_edges, {"crowded_edge"}),
        (_cracks, {"crack"}),
        (_overlaps, {"overlap"}),
        (_pieces, {"piece"}),
    ):
        if codes is None or told.intersection(codes):
            found = check(tin, tolerance)
            findings.extend(one for one in found if codes is None or one.code in codes)
    return findings


def _listed(
    code: str, items: Ints, places: Floats, sentence: Callable[[int], str], *, face: bool
) -> Iterable[Finding]:
    """Yield a finding for each item, and one with the full number when there are too many."""
    for item, (x, y) in zip(items[:MOST_OF_A_KIND].tolist(), places.tolist(), strict=False):
        yield Finding(code, sentence(item), (x, y), item + 1 if face else None)
    if len(items) > MOST_OF_A_KIND:
        why = translate("Core", "{count} such places in all; the first {listed} are listed.")
        yield Finding(code, why.format(count=len(items), listed=MOST_OF_A_KIND))


def face_kinds(tin: Tin, tolerance: Tolerance) -> dict[str, NDArray[np.bool_]]:
    """Tell which faces are ``no_area``, ``upright``, ``steep``, ``sliver``, as in `examine`.

    Returns
    -------
    dict of (m,) bool
        By code; a face is of one kind at most.
    """
    corners = tin.vertices[tin.faces]
    sides = np.roll(corners, -1, axis=1) - corners
    plan_side = np.hypot(sides[..., 0], sides[..., 1]).max(axis=1)
    side = np.sqrt(np.einsum("ijk,ijk->ij", sides, sides)).max(axis=1)
    width = 2.0 * tin.sloped_areas / side  # height over the longest side
    with np.errstate(invalid="ignore", divide="ignore"):
        plan_width = np.where(plan_side > 0.0, 2.0 * tin.plan_areas / plan_side, 0.0)
    steepness = np.hypot(tin.gradients[:, 0], tin.gradients[:, 1])
    no_area = width <= tin.rounding
    upright = tin.without_plan_area & ~no_area
    steep = (steepness > STEEP) & ~no_area
    sliver = (plan_width <= tolerance.snap) & ~(no_area | upright | steep)
    return {"no_area": no_area, "upright": upright, "steep": steep, "sliver": sliver}


def _faces(tin: Tin, tolerance: Tolerance) -> Iterable[Finding]:
    kinds = face_kinds(tin, tolerance)
    middle = tin.vertices[tin.faces][..., :2].mean(axis=1)
    texts = {
        "no_area": translate(
            "Core", "The corners of face {face} lie on one line: it has no area; remove it."
        ),
        "upright": translate(
            "Core", "Face {face} stands upright: it is kept, but has no slope and no plan area."
        ),
        "steep": translate(
            "Core", "Face {face} rises more than 10 to 1: check that a wall is meant."
        ),
        "sliver": translate(
            "Core", "Face {face} is thinner in plan than two points can be told apart."
        ),
    }
    for code, mask in kinds.items():
        bad = np.flatnonzero(mask)
        yield from _listed(code, bad, middle[bad], _with_face(texts[code]), face=True)


def _with_face(text: str) -> Callable[[int], str]:
    return lambda face: text.format(face=face + 1)


def _vertices(tin: Tin, tolerance: Tolerance) -> Iterable[Finding]:
    used = np.zeros(len(tin.vertices), dtype=bool)
    used[tin.faces] = True
    live = np.flatnonzero(used)
    first = live[same_place(tin.vertices[live], tolerance.snap)]
    double = np.flatnonzero(first != live)
    partner = dict(zip(live[double].tolist(), first[double].tolist(), strict=True))
    text = translate(
        "Core", "Vertices {one} and {other} lie in one place: faces there may not be joined."
    )
    yield from _listed(
        "duplicate_vertex",
        live[double],
        tin.vertices[live[double], :2],
        lambda v: text.format(one=partner[v] + 1, other=v + 1),
        face=False,
    )
    idle = np.flatnonzero(~used & np.isfinite(tin.vertices).all(axis=1))
    unused = translate("Core", "Vertex {vertex} belongs to no face.")
    yield from _listed(
        "unused_vertex",
        idle,
        tin.vertices[idle, :2],
        lambda v: unused.format(vertex=v + 1),
        face=False,
    )


def _edges(tin: Tin, _tolerance: Tolerance) -> Iterable[Finding]:
    crowded = tin.edges.nonmanifold
    text = translate(
        "Core", "More than two faces share the edge between vertices {one} and {other}."
    )
    ends = tin.edges.ends
    yield from _listed(
        "crowded_edge",
        crowded,
        tin.vertices[ends[crowded], :2].mean(axis=1),
        lambda e: text.format(one=int(ends[e, 0]) + 1, other=int(ends[e, 1]) + 1),
        face=False,
    )


def crack_vertices(tin: Tin, tolerance: Tolerance) -> Ints:
    """Return the border vertices that lie on a border edge: its faces are not joined there."""
    border = tin.edges.ends[tin.edges.boundary]
    if len(border) == 0:
        return np.zeros(0, dtype=np.int64)
    origin = np.array(tin.extent[:2])
    plan = tin.vertices[:, :2] - origin
    start, stop = plan[border[:, 0]], plan[border[:, 1]]
    bins = Bins.over(np.minimum(start, stop), np.maximum(start, stop), tolerance.snap)
    cell, edge = bins.entries(np.arange(len(border)))
    vertex = np.unique(border)
    home = bins.of_points(plan[vertex])
    first = np.searchsorted(cell, home, side="left")
    count = np.searchsorted(cell, home, side="right") - first
    point = np.repeat(vertex, count)
    within = count_up(count)
    on = edge[np.repeat(first, count) + within]
    other = (border[on] != point[:, None]).all(axis=1)
    point, on = point[other], on[other]
    along = stop[on] - start[on]
    from_start = plan[point] - start[on]
    squared = np.einsum("ij,ij->i", along, along)
    with np.errstate(invalid="ignore", divide="ignore"):
        share = np.einsum("ij,ij->i", along, from_start) / squared
    length = np.sqrt(squared)
    ends_clear = (share * length > tolerance.snap) & ((1.0 - share) * length > tolerance.snap)
    off = np.hypot(*(from_start - share[:, None] * along).T)
    rise = tin.vertices[border[on, 0], 2] * (1.0 - share) + tin.vertices[border[on, 1], 2] * share
    level = np.abs(tin.vertices[point, 2] - rise) <= 10.0 * tolerance.snap
    return np.unique(point[ends_clear & (off <= tolerance.snap) & level])


def _cracks(tin: Tin, tolerance: Tolerance) -> Iterable[Finding]:
    bad = crack_vertices(tin, tolerance)
    text = translate(
        "Core", "Vertex {vertex} lies on the side of a face without being its corner: a crack."
    )
    yield from _listed(
        "crack",
        bad,
        tin.vertices[bad, :2],
        lambda v: text.format(vertex=v + 1),
        face=False,
    )


def _overlaps(tin: Tin, tolerance: Tolerance) -> Iterable[Finding]:
    pairs, places = overlapping_faces(tin, tolerance.snap)
    text = translate("Core", "Faces {one} and {other} lie over one another in plan: remove one.")
    yield from _listed(
        "overlap",
        np.arange(len(pairs)),
        places,
        lambda k: text.format(one=int(pairs[k, 0]) + 1, other=int(pairs[k, 1]) + 1),
        face=False,
    )


def _pieces(tin: Tin, _tolerance: Tolerance) -> Iterable[Finding]:
    count = np.bincount(tin.pieces)
    small = np.flatnonzero(np.arange(len(count)) != count.argmax())
    if len(small) == 0:
        return
    first = np.unique(tin.pieces, return_index=True)[1]
    places = tin.vertices[tin.faces[first[small]], :2].mean(axis=1)
    text = translate(
        "Core", "A part of {count} faces shares no edge with the largest part of the surface."
    )
    yield from _listed(
        "piece", small, places, lambda p: text.format(count=int(count[p])), face=False
    )
