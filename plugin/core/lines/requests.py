"""What guidelines are asked for, and what did not become one."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from .arcs import Arcs
from .bundle import Lines
from .sides import Rule
from .stationing import Stationing
from .taper import Taper


@dataclass(frozen=True)
class Requests:
    """What is wanted.

    Parameters
    ----------
    lines
        The source lines.
    line
        Source line of each request, (r,) int.
    distance
        Offset of each request, (r,) float, > 0.
    rules
        Rule of each request, r of them.
    stationing
        Stations of the lines, for the sentences; from 0 on when it is not given.
    tapers
        The taper of each request, None for a constant offset; ``distance`` is then its largest.
    arcs
        The arcs of the lines.
    """

    lines: Lines
    line: np.ndarray
    distance: np.ndarray
    rules: list[Rule]
    stationing: Stationing | None = None
    tapers: list[Taper | None] | None = None
    arcs: Arcs | None = None

    def taper(self, request: int) -> Taper | None:
        """Return the taper of a request, None where its offset is constant."""
        return self.tapers[request] if self.tapers else None

    def arcs_beside(self, which: np.ndarray) -> Arcs:
        """Return the arcs of the lines of some requests, one line after the other."""
        line = np.asarray(self.line, np.int64)[which]
        arcs = self.arcs if self.arcs is not None else Arcs.none(self.lines)
        return arcs.take(self.lines, line)

    def part(self, begin: int, end: int) -> "Requests":
        """Return the requests ``begin .. end - 1``."""
        rows = slice(begin, end)
        return replace(
            self,
            line=self.line[rows],
            distance=self.distance[rows],
            rules=self.rules[rows],
            tapers=self.tapers[rows] if self.tapers else None,
        )

    @cached_property
    def stations(self) -> Stationing:
        """Stations of the lines."""
        return self.stationing or Stationing.of(self.lines)

    def station(self, request: int, distance: float) -> float:
        """Return the station at a distance along the line of a request."""
        return float(self.stations.station(int(self.line[request]), distance))


@dataclass(frozen=True)
class Flagged:
    """A request, or a part of one, that did not become a guideline.

    Parameters
    ----------
    request
        Number of the request.
    code, why
        Short word and sentence.
    start, stop
        Distances along the source that it is about; on a ring ``stop`` may lie before ``start``.
    shapes
        Plan lines to draw with their side: +1 right or -1 left candidate, 0 the source itself.
    """

    request: int
    code: str
    why: str
    start: float
    stop: float
    shapes: list[tuple[int, np.ndarray]]
