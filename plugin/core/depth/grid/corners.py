"""What lies between the sides of two edges at their corner.

At an outside corner either both planes are carried on to the line in which they meet (mitre) or a
cone stands on the corner (round; also where a mitre would reach too far, or the planes meet
elsewhere). At an inside corner the two sides overlap and the better one counts; one that ends
before the line in which they meet is carried on to it.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...vectors import cross, dot
from ..manner import Corners, Manner
from ..meeting import meeting
from .edges import Edges

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Sectors:
    """Parts of the plane between two rays from a corner, less than half a turn apart.

    A value changes from the corner by ``gradient . way + cone * distance``.

    Parameters
    ----------
    corner : (c,) int
        Corner each stands on.
    begin, end : (c, 2) float
        Unit vectors along the rays, counter-clockwise.
    gradient : (c, 2) float
        Of a plane.
    cone : (c,) float
        Change with a unit of distance from the corner.
    """

    corner: Ints
    begin: Floats
    end: Floats
    gradient: Floats
    cone: Floats

    def __len__(self) -> int:
        """Return the number of sectors."""
        return len(self.corner)

    @staticmethod
    def joined(some: "list[Sectors]") -> "Sectors":
        """Return sectors one after the other."""
        return Sectors(
            *(
                np.concatenate([getattr(one, name) for one in some])
                for name in ("corner", "begin", "end", "gradient", "cone")
            )
        )

    @property
    def width(self) -> Floats:
        """Angle between the rays."""
        return np.arctan2(cross(self.begin, self.end), dot(self.begin, self.end))


def sectors_of(
    edges: Edges, corners: Ints, along: Floats, rates: Floats, manner: Manner
) -> Sectors:
    """Return the sectors of some corners.

    Parameters
    ----------
    edges : Edges
        Edges and their corners.
    corners : (c,) int
        The corners.
    along : (c, 2) float
        Change of the value with a unit of way along the edge before and the edge after each
        corner, near it.
    rates : (k,) float
        Change of the value with a unit of way outwards, of each edge.
    manner : Manner
        Its corners count.
    """
    limit = manner.mitre_limit if manner.corners is Corners.MITRE else 0.0
    before, after = edges.before[corners], edges.after[corners]
    outs = edges.out[before], edges.out[after]
    ways = edges.way[before], edges.way[after]
    slopes = rates[before], rates[after]
    one, two = (along[:, k, None] * ways[k] + slopes[k][:, None] * outs[k] for k in (0, 1))
    met = meeting(outs, (one, two))
    outward = edges.turn[corners] > 0
    mitre = np.flatnonzero(outward & met.mitred(limit))
    rounded = np.setdiff1d(np.flatnonzero(outward), mitre)
    late = np.flatnonzero(~outward & edges.active[before] & met.later(0))
    early = np.flatnonzero(~outward & edges.active[after] & met.later(1))
    meet = met.ray
    flat = np.zeros((len(rounded), 2))
    return Sectors(
        corners[np.concatenate([mitre, mitre, rounded, late, early])],
        np.vstack([outs[0][mitre], meet[mitre], outs[0][rounded], outs[0][late], meet[early]]),
        np.vstack([meet[mitre], outs[1][mitre], outs[1][rounded], meet[late], outs[1][early]]),
        np.vstack([one[mitre], two[mitre], flat, one[late], two[early]]),
        np.concatenate(
            [np.zeros(2 * len(mitre)), slopes[0][rounded], np.zeros(len(late) + len(early))]
        ),
    )
