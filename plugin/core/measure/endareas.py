"""Volumes from the areas of cross sections: by average end areas and by the prismoidal formula.

Between two sections a distance L apart, with areas A1 and A2 and Am half way between them:

average end area    V = L (A1 + A2) / 2
prismoidal          V = L (A1 + 4 Am + A2) / 6

The first is exact where the area changes in proportion to the distance (a prism, a wedge), the
second where it changes with its square too (a pyramid, any body between two parallel planes whose
sides are ruled surfaces). Am is the area of a true section half way, not the mean of A1 and A2.
Both formulas are in every handbook of earthwork (an engineering handbook, p. 412; Vose, Handbook
of railroad construction, 1857, p. 83).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ..lines.arcs import Arcs
from ..lines.bundle import Lines
from ..lines.stationing import Stationing
from .section_lines import Sections, sections_at

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def average_end_area(length: ArrayLike, first: ArrayLike, last: ArrayLike) -> Floats:
    """Return volumes by average end areas.

    Parameters
    ----------
    length : (n,) float
        Distances between the sections.
    first, last : (n,) float
        Areas at either end.
    """
    return np.asarray(length, float) * (np.asarray(first, float) + np.asarray(last, float)) / 2.0


def prismoidal(length: ArrayLike, first: ArrayLike, middle: ArrayLike, last: ArrayLike) -> Floats:
    """Return volumes by the prismoidal formula.

    Parameters
    ----------
    length : (n,) float
        Distances between the outer sections.
    first, middle, last : (n,) float
        Areas at one end, half way, and at the other end.
    """
    ends = np.asarray(first, float) + np.asarray(last, float)
    return np.asarray(length, float) * (ends + 4.0 * np.asarray(middle, float)) / 6.0


@dataclass(frozen=True, eq=False)
class Spans:
    """The stretches of line between neighbouring sections.

    Parameters
    ----------
    first, last : (n,) int
        Sections at either end.
    length : (n,) float
        Distance between them along the line and its arcs.
    middle : Sections
        A section half way along each.
    """

    first: Ints
    last: Ints
    length: Floats
    middle: Sections

    def __len__(self) -> int:
        """Return the number of stretches."""
        return len(self.first)


def spans_of(
    sections: Sections,
    lines: Lines,
    left: float,
    right: float,
    arcs: Arcs | None = None,
    snap: float = 1e-4,
) -> Spans:
    """Return the stretches between neighbouring sections, which are in order along each line.

    Parameters
    ----------
    sections : Sections
        The sections.
    lines, left, right, arcs, snap
        As they were given to `sections_at`.
    """
    first = np.flatnonzero(sections.line[1:] == sections.line[:-1])
    line, distance = sections.line[first], sections.distance
    along = Stationing.of(lines, 0.0, arcs)
    length = along.station(line, distance[first + 1]) - along.station(line, distance[first])
    at = (distance[first] + distance[first + 1]) / 2.0
    middle = sections_at(lines, line, at, left, right, arcs, snap)
    return Spans(first, first + 1, length, middle)


@dataclass(frozen=True, eq=False)
class Volumes:
    """Volumes of one kind (cut or fill) over each stretch, cubic plan units.

    Parameters
    ----------
    average, prismoidal : (n,) float
        By either formula.
    """

    average: Floats
    prismoidal: Floats


def volumes(spans: Spans, sections: Sections, area: Floats, middle: Floats) -> Volumes:
    """Return the volumes over stretches.

    Parameters
    ----------
    spans : Spans
        The stretches.
    sections : Sections
        The sections at their ends.
    area : (s,) float
        Area on each section.
    middle : (n,) float
        Area on the section half way along each stretch.

    Notes
    -----
    At a corner of the line a section is longer than square, and so are its areas: they count times
    the cosine of half the turn, so that a prism carried round a corner keeps its volume.
    """
    own = area * sections.square
    half = middle * spans.middle.square
    a, b = own[spans.first], own[spans.last]
    return Volumes(average_end_area(spans.length, a, b), prismoidal(spans.length, a, half, b))
