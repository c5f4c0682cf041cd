"""Moving the surface below zones at right angles to its faces."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, part, silent
from ...tin import Tin
from ...tolerance import Tolerance
from ..manner import Manner
from ..patchwork import Patchwork
from ..zones import Zones
from .borders import Borders, find_borders
from .folds import Placed, place, unfold
from .mitre import Freedom, Limits
from .outcome import SquareOutcome, untouched
from .seams import Pieces, Seams, find_seams, insert_stops
from .sheet import Sheet, spread_out, widths_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_JOIN = 0.1  # of the hairline: nodes on a border nearer than this become one
_TRIES = 4


def square_off(
    patch: Patchwork,
    zones: Zones,
    manner: Manner,
    tolerance: Tolerance,
    progress: Progress = silent,
    *,
    outside: float = 0.0,
) -> tuple[Patchwork, SquareOutcome]:
    """Move the faces of zones by a thickness at right angles to each of them.

    Each point goes where the moved planes of its zone's faces meet, by the shortest plan move
    that brings it there; where they do not meet in a point, to the point of least squares of the
    distances. Points on a border slide along it only where it is straight, so every zone keeps
    its plan outline; the points of either side of a border stand in the faces of both. Faces
    that the thickness leaves nothing of are taken out, and those around them meet in their place.

    Parameters
    ----------
    patch : Patchwork
        A design cut by zones and lowered plumb; its points count from nearby.
    zones : Zones
        Its ``squares`` are used: positive into the ground, negative out of it.
    manner : Manner
        Its ``z_scale``, and the mitre limit: in thicknesses, how far a point is drawn out to meet
        planes that all but share a line.
    tolerance : Tolerance
        ``plane`` says when planes are met, ``chord`` which residuals are counted.
    progress : Progress
        Told the share done.
    outside : float
        Thickness of the faces outside all zones, in units of height.

    Returns
    -------
    patch : Patchwork
        It covers the same plan area once; every border edge is shared by its two faces.
    outcome : SquareOutcome
        How well the thickness is kept.
    """
    squares = np.append(np.asarray(zones.squares, dtype=np.float64), outside)
    thickness = squares[patch.zone] * manner.z_scale
    moving = thickness != 0.0
    if not moving.any():
        return patch, untouched(len(patch.faces))
    borders = find_borders(patch.points, patch.faces, patch.zone, moving, tolerance.snap)
    progress(0.1)
    stiff = np.zeros(len(moving), dtype=bool)
    for attempt in range(_TRIES):
        if attempt == _TRIES - 1:
            stiff = moving
        job = _Job(patch, borders, moving, thickness, stiff, manner, tolerance)
        job.move(part(progress, 0.1, 0.8))
        divided, bad = job.put_together()
        if not len(bad):
            break
        stiff = stiff | np.isin(patch.zone, bad)
    progress(0.85)
    result, source = job.result(divided)
    progress(0.95)
    return result, job.outcome(source)


@dataclass(eq=False)
class _Job:
    """One run, with the faces that have to stay where they are in plan."""

    patch: Patchwork
    borders: Borders
    moving: Flags
    thickness: Floats
    stiff: Flags
    manner: Manner
    tolerance: Tolerance

    def move(self, progress: Progress) -> None:
        """Move the nodes of every zone."""
        used = self.patch.points[self.patch.faces[:, 0]]
        extent = float(np.ptp(used, axis=0).max())
        limits = Limits(
            self.tolerance.plane * extent, self.tolerance.chord, self.manner.mitre_limit
        )
        self.far = 1e-9 * extent
        self.sheet: Sheet = spread_out(
            self.patch,
            self.borders,
            self.moving,
            self.thickness,
            self.stiff,
            self.manner.z_scale,
            self.tolerance.hairline,
            limits,
        )
        progress(0.2)
        self.first = self.sheet.nodes.copy()
        used_nodes = np.zeros(len(self.sheet.home), dtype=bool)
        used_nodes[self.sheet.nodes[self.moving]] = True
        self.sheet.solve(used_nodes)
        progress(0.5)
        unfold(self.sheet, part(progress, 0.5, 0.9))
        self.placed: Placed = place(self.sheet, self.borders.chains)

    def put_together(self) -> tuple[Pieces, Ints]:
        """Return the faces divided by nodes of the other side, and zones where that fails."""
        sheet, patch = self.sheet, self.patch
        seams = find_seams(
            sheet,
            self.first,
            self.borders,
            patch.faces,
            self.placed.chainage,
            _JOIN * self.tolerance.hairline,
        )
        point, self.plan = self._points(seams)
        self.rows = np.flatnonzero(sheet.alive | ~self.moving)
        nodes = sheet.nodes[self.rows]
        heights = self.heights(self.rows, nodes)
        self.points = point[nodes]
        self.open, stops = self._stops(seams, nodes)
        divided = insert_stops(
            Pieces(self.points[self.open], heights[self.open], self.rows[self.open], stops),
            seams,
            self.plan,
            sheet.normals,
            self.far,
        )
        upright = sheet.floor[divided.source] < 0.0
        bad = ~upright & ~(widths_of(self.plan, divided.points) > 0.0)
        return divided, self._zones_about(divided.points[bad])

    def heights(self, rows: Ints, nodes: Ints) -> Floats:
        """Return the heights at the corners of faces, in plan units."""
        sheet = self.sheet
        moved = self.moving[rows]
        heights = sheet.heights[rows]
        heights[moved] = (sheet.home[:, 2] + sheet.move[:, 2])[nodes[moved]]
        return heights

    def _zones_about(self, points: Ints) -> Ints:
        """Return the zones of faces at points: on a border either side may be the one to blame."""
        if not points.size:
            return np.empty(0, dtype=np.int64)
        marked = np.zeros(len(self.plan), dtype=bool)
        marked[points] = True
        return np.unique(self.patch.zone[self.rows[marked[self.points].any(axis=1)]])

    def _points(self, seams: Seams) -> tuple[Ints, Floats]:
        """Return the point of each node, and the plan positions of all points."""
        sheet, patch = self.sheet, self.patch
        point = sheet.point.copy()
        old = len(patch.points)
        point[seams.node] = seams.point[seams.stop]
        # Ends of chains keep their points: which of their stops it is does not matter.
        fixed = seams.node[np.isnan(self.placed.chainage[seams.node])]
        point[fixed] = sheet.point[fixed]
        used = np.zeros(len(point), dtype=bool)
        used[sheet.nodes[sheet.alive]] = True
        free = used & (sheet.freedom == Freedom.FREE) & (sheet.move[:, :2] != 0.0).any(axis=1)
        moved = np.flatnonzero(free)
        point[moved] = old + len(seams.new) + np.arange(len(moved))
        return point, np.vstack((patch.points, seams.new, sheet.places[moved]))

    def _stops(self, seams: Seams, nodes: Ints) -> tuple[Ints, Ints]:
        """Return the faces with stops on their sides, and the stops at the ends of each side.

        The stops are -1 at sides that are on no chain.
        """
        nothing = np.empty(0, dtype=np.int64), np.empty((0, 3, 2), dtype=np.int64)
        if not len(seams.side_key):
            return nothing
        on_chain = np.zeros(len(self.sheet.home), dtype=bool)
        on_chain[seams.node] = True
        faces = np.flatnonzero(on_chain[nodes].sum(axis=1) > 1)
        stops = np.full((len(faces), 3, 2), -1, dtype=np.int64)
        count = len(self.sheet.home)
        for k in range(3):
            key = nodes[faces, k] * count + nodes[faces, (k + 1) % 3]
            at = np.minimum(np.searchsorted(seams.side_key, key), len(seams.side_key) - 1)
            hit = seams.side_key[at] == key
            stops[hit, k] = seams.side_stops[at[hit]]
        between = np.abs(stops[..., 1] - stops[..., 0]) > 1
        keep = between.any(axis=1)
        return faces[keep], stops[keep]

    def result(self, divided: Pieces) -> tuple[Patchwork, Ints]:
        """Return the patchwork, and the face each of its faces comes from, in their order."""
        patch, scale = self.patch, self.manner.z_scale
        whole = np.ones(len(self.rows), dtype=bool)
        whole[self.open] = False
        kept = self.rows[whole]
        source = np.concatenate((kept, divided.source))
        order = np.argsort(source, kind="stable")
        source = source[order]
        points = np.concatenate((self.points[whole], divided.points))[order]
        heights = self.heights(kept, self.sheet.nodes[kept])
        heights = np.concatenate((heights, divided.heights))[order] / scale
        fresh = points != patch.faces[source]
        still = ~self.moving[source] & ~fresh.any(axis=1)
        heights[still] = patch.heights[source[still]]
        design = patch.design[source]
        design[fresh] = self._design_at(points[fresh], np.nonzero(fresh)[0], source)
        laid = Patchwork(
            self.plan,
            points,
            heights,
            design,
            patch.zone[source],
            patch.parent[source],
            patch.part[source],
        )
        return laid, source

    def _design_at(self, points: Ints, face: Ints, source: Ints) -> Floats:
        """Return the height of the design at corners that are not where they were."""
        patch = self.patch
        height = np.full(len(self.plan), np.nan)
        height[patch.faces] = patch.design
        new = np.unique(points)
        new = new[new >= len(patch.points)]
        if len(new):
            given = np.column_stack((patch.points, np.nan_to_num(height[: len(patch.points)])))
            height[new] = Tin(given, patch.faces).sample(self.plan[new])[0]
        result = height[points]
        lost = np.isnan(result)
        if lost.any():  # beside the design by rounding: on the plane of the face it comes from
            row = source[face[lost]]
            normal = self.sheet.normals[row]
            off = self.plan[points[lost]] - patch.points[patch.faces[row, 0]]
            rise = np.maximum(normal[:, 2], 1e-3) * self.manner.z_scale
            result[lost] = patch.design[row, 0] - np.einsum("ij,ij->i", normal[:, :2], off) / rise
        return result

    def outcome(self, source: Ints) -> SquareOutcome:
        """Return how well the thickness is kept by faces that come from those given."""
        sheet, scale = self.sheet, self.manner.z_scale
        used = np.zeros(len(sheet.home), dtype=bool)
        used[sheet.nodes[sheet.alive]] = True
        residual = np.where(used, sheet.residual, 0.0)
        allowed = self.tolerance.chord
        missed = residual > allowed
        held = missed & (self.placed.share < 1.0)
        nodes = sheet.nodes[source]
        moved = self.moving[source]
        flags = np.full(len(source), "", dtype="<U14")
        flags[moved & missed[nodes].any(axis=1)] = "mitre_residual"
        flags[moved & held[nodes].any(axis=1)] = "folded"
        worst = int(residual.argmax())
        places = sheet.places
        at = (float(places[worst, 0]), float(places[worst, 1])) if missed.any() else None
        moves = np.hypot(*sheet.move[used, :2].T)
        return replace(
            untouched(0),
            largest_residual=float(residual.max(initial=0.0)) / scale,
            missed=int(missed.sum()),
            allowed=allowed / scale,
            worst=at,
            largest_move=float(moves.max(initial=0.0)),
            trimmed=int((self.moving & ~sheet.alive).sum()),
            held=int(held.sum()),
            held_at=places[held],
            missed_at=places[missed],
            flags=flags,
        )
