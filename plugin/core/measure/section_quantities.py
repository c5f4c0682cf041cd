"""Areas and volumes between two surfaces along lines, by sections and exactly."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..lines.arcs import Arcs
from ..lines.bundle import Lines
from ..progress import Progress, part, silent
from ..tin import Tin
from .endareas import Spans, Volumes, spans_of, volumes
from .section_areas import SectionAreas, areas_between
from .section_lines import Sections
from .sections import Profiles
from .strip import strips, within

Floats = NDArray[np.float64]
Profiler = Callable[[Sections], Profiles]


@dataclass(frozen=True, eq=False)
class Strip:
    """The ground that sections are of: beside which lines, how far, and how exactly.

    Parameters
    ----------
    lines : Lines
        The lines.
    left, right : float
        How far it reaches to either side.
    arcs : Arcs or None
        True arcs of the lines.
    snap : float
        Places nearer than this to each other are one.
    """

    lines: Lines
    left: float
    right: float
    arcs: Arcs | None
    snap: float


@dataclass(frozen=True, eq=False)
class Quantities:
    """What lies between two surfaces along lines.

    Parameters
    ----------
    areas : SectionAreas
        On each section.
    spans : Spans
        The stretches between neighbouring sections.
    cut, fill : Volumes
        Where the upper surface lies above the lower one, and where below, over each stretch.
    exact : (4,) float or None
        Exact volume of cut and of fill between the first and the last section of each line, and
        the plan area of either; None where a surface is no TIN.
    twice : float
        Plan area that end areas count twice (`Ground`).
    """

    areas: SectionAreas
    spans: Spans
    cut: Volumes
    fill: Volumes
    exact: Floats | None
    twice: float


def quantities(
    sections: Sections,
    strip: Strip,
    profiles: tuple[Profiles, Profiles],
    profilers: tuple[Profiler, Profiler],
    tins: tuple[Tin, Tin] | None,
    z_scale: float,
    progress: Progress = silent,
) -> Quantities:
    """Measure what lies between two surfaces along lines.

    Parameters
    ----------
    sections : Sections
        The sections.
    strip : Strip
        What they were made with.
    profiles : (Profiles, Profiles)
        The upper and the lower surface along them.
    profilers : (callable, callable)
        Make the profiles of the upper and the lower surface along more sections.
    tins : (Tin, Tin) or None
        Both surfaces, for the exact volume.
    z_scale : float
        Plan units in one vertical unit.
    progress : Progress
        Told the share done.
    """
    areas = areas_between(*profiles, len(sections), z_scale)
    spans = spans_of(sections, strip.lines, strip.left, strip.right, strip.arcs, strip.snap)
    progress(0.1)
    upper, lower = (make(spans.middle) for make in profilers)
    middle = areas_between(upper, lower, len(spans), z_scale)
    progress(0.3)
    ground = strips(sections, strip.lines, strip.left, strip.right, strip.arcs, strip.snap)
    exact = None
    if tins is not None:
        exact = np.zeros(4)
        for number, piece in enumerate(ground.values()):
            share = part(progress, 0.3 + 0.7 * number / len(ground), 1.0)
            found = within(*tins, piece.shape, z_scale, share)
            if found is not None:
                total = found.total
                exact += [
                    float(values[0])
                    for values in (total.cut, total.fill, total.area_above, total.area_below)
                ]
    return Quantities(
        areas,
        spans,
        volumes(spans, sections, areas.cut, middle.cut),
        volumes(spans, sections, areas.fill, middle.fill),
        exact,
        sum(piece.twice for piece in ground.values()),
    )
