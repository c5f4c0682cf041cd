"""What lies between the strips at the corners of outlines.

At a corner of the zone the rays of the two strips fan out: either both strips are carried on to
the line in which their planes meet (mitre), or a cone about the corner lies between them (round).
Where the outline turns the other way the strips overlap and the lower one counts; one that would
end before the line in which they meet is carried on to it. At the edge of the design a strip is
carried straight on.

Heights are those of sections at right angles to the border. Where the foot is uneven, sections
that begin on both sides of an inward corner can differ where they come to lie beside each other,
farther out than the strips at the corner itself: a small jump stays, as it does in the sections.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...vectors import cross, dot, turned
from ..meeting import meeting
from .facets import NONE, Facets, facets_about, through
from .outline import Outlines
from .strips import Feet, Strips

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Fans:
    """Cones about corners.

    Parameters
    ----------
    zone, node : (c,) int
        Their zones and apices.
    place : (c,) float
        As of `Facets`.
    apex : (c, 2) float
        Plan positions.
    height : (c,) float
        Height there, less the design where sides follow it.
    begin : (c, 2) float
        Unit vector of the first ray.
    angle : (c,) float
        From the first to the last ray.
    slope : (c,) float
        Rise over run.
    before, after : (c,) int
        Facets beside them, -1 for none.
    """

    zone: Ints
    node: Ints
    place: Floats
    apex: Floats
    height: Floats
    begin: Floats
    angle: Floats
    slope: Floats
    before: Ints
    after: Ints

    def __len__(self) -> int:
        """Return the number of cones."""
        return len(self.zone)


def corner_facets(
    lines: Outlines, feet: Feet, strips: Strips, limit: float
) -> tuple[Facets, Ints, Fans]:
    """Carry strips on around corners.

    Parameters
    ----------
    lines, feet, strips : Outlines, Feet, Strips
        The links and their strips.
    limit : float
        Longest mitre as a multiple of the run; 0 for cones at all corners.

    Returns
    -------
    facets : Facets
        The strips, then the facets that carry some of them on in another plane.
    nodes : (k,) int
        Node about which each facet lies, -1 for strips.
    fans : Fans
        Cones, which need more facets the farther they reach.
    """
    work = _Corners(lines, feet, strips)
    work.straight_on()
    work.past_the_design()
    rounded = work.turns(limit)
    return work.result(rounded)


class _Corners:
    """The node at the end of each link, with the link before (one) and the link after (two)."""

    def __init__(self, lines: Outlines, feet: Feet, strips: Strips) -> None:
        self.lines, self.feet, self.strips = lines, feet, strips
        self.facets = strips.facets
        two = feet.after
        self.two = two
        self.apex, self.height = feet.ends[:, 1], feet.foot[:, 1]
        self.ways = feet.way, feet.way[two]
        self.outs = feet.out, feet.out[two]
        self.turn = np.arctan2(cross(*self.ways), dot(*self.ways))
        self.side = feet.side, feet.side[two]
        self.strip = strips.of, strips.of[two]
        self.inner = (self.strip[0] >= 0) & (self.strip[0] == self.strip[1]) & feet.straight
        self.slanted = strips.slanted[:, 1], strips.slanted[two, 0]
        along = strips.along[:, 1], strips.along[two, 0]
        slopes = feet.slope, feet.slope[two]
        one, other = (
            along[k][:, None] * self.ways[k] + slopes[k][:, None] * self.outs[k] for k in (0, 1)
        )
        self.gradients = one, other
        self.more: list[Facets] = []
        self.nodes: list[Ints] = []
        self.links: list[tuple[Ints, Ints]] = []
        self.edge: list[Ints] = []
        self.count = len(self.facets)
        # Facet that borders on the corner from either side.
        self.beside = [self.strip[0].copy(), self.strip[1].copy()]

    def straight_on(self) -> None:
        """Let strips in a straight line share the ray between them."""
        rows = np.flatnonzero(
            self.feet.straight & ~self.inner & (self.strip[0] >= 0) & (self.strip[1] >= 0)
        )
        self.facets.last[self.strip[0][rows]] = -self.facets.first[self.strip[1][rows]]
        self._link(rows)

    def past_the_design(self) -> None:
        """Carry strips straight on where the outline goes on along the edge of the design."""
        is_open = self.lines.beyond < 0
        for end, beside in ((0, is_open[self.two]), (1, is_open)):
            rows = np.flatnonzero(self.side[end] & beside)
            way = self.ways[end][rows]
            self._carry(end, rows, way if end == 0 else -way)
            self.edge.append(self.beside[end][rows])

    def turns(self, limit: float) -> Ints:
        """Carry strips to the lines where they meet; return the corners to be rounded."""
        none_open = (self.lines.beyond >= 0) & (self.lines.beyond[self.two] >= 0)
        here = (self.side[0] | self.side[1]) & none_open & ~self.feet.straight
        met = meeting(self.outs, self.gradients)
        outward = here & (self.turn > 0)
        mitre = outward & met.mitred(limit)
        rows = np.flatnonzero(mitre)
        self._carry(0, rows, met.ray[rows])
        self._carry(1, rows, met.ray[rows])
        self._link(rows)
        inward = here & (self.turn < 0)
        for end in (0, 1):
            rows = np.flatnonzero(inward & self.side[end] & met.later(end))
            self._carry(end, rows, met.ray[rows])
        return np.flatnonzero(outward & ~mitre)

    def result(self, rounded: Ints) -> tuple[Facets, Ints, Fans]:
        """Return facets, their nodes, and the cones at some corners."""
        facets = Facets.joined(self.facets, *self.more)
        nodes = np.concatenate((np.full(len(self.facets), NONE, dtype=np.int64), *self.nodes))
        for one, other in self.links:
            facets.after[one], facets.before[other] = other, one
        facets.at_edge[np.concatenate(self.edge)] = True
        fans = Fans(
            self.lines.zone[rounded],
            self.lines.nodes[rounded, 1],
            rounded + 0.5,
            self.apex[rounded],
            self.height[rounded],
            self.outs[0][rounded],
            self.turn[rounded],
            self.feet.slope[rounded],
            self.beside[0][rounded],
            self.beside[1][rounded],
        )
        return facets, nodes, fans

    def _carry(self, end: int, rows: Ints, ray: Floats) -> None:
        """Carry a strip (0 before, 1 after the corner) on to a ray from the corner."""
        strip = self.strip[end][rows]
        joined = (strip >= 0) & ~self.slanted[end][rows]
        some = rows[joined]
        bound = -turned(ray[joined]) if end == 0 else turned(ray[joined])
        line = self.facets.last if end == 0 else self.facets.first
        line[strip[joined]] = through(self.apex[some], bound)
        rows, ray = rows[~joined], ray[~joined]
        if not len(rows):
            return
        out = self.outs[end][rows]
        made = facets_about(
            self.lines.zone[rows],
            rows + (0.3 if end == 0 else 0.6),
            self.apex[rows],
            self.height[rows],
            np.stack((out, ray) if end == 0 else (ray, out), axis=1),
            self.gradients[end][rows],
        )
        number = self.count + np.arange(len(rows))
        self.count += len(rows)
        self.more.append(made)
        self.nodes.append(self.lines.nodes[rows, 1])
        strip = self.strip[end][rows]
        known = strip >= 0
        self._note(strip[known], number[known], end)
        self.beside[end][rows] = number

    def _link(self, rows: Ints) -> None:
        """Note that the facets on both sides of a corner agree along the ray between them."""
        one, other = self.beside[0][rows], self.beside[1][rows]
        both = (one >= 0) & (other >= 0)
        self._note(one[both], other[both], 0)

    def _note(self, one: Ints, other: Ints, end: int) -> None:
        self.links.append((one, other) if end == 0 else (other, one))
