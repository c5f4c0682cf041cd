"""Lines, sections and bodies that the tests of cross sections share."""

import numpy as np

from plugin.core.lines.stakes import Wanted, set_out
from plugin.core.lines.stationing import Stationing
from plugin.core.measure.endareas import spans_of, volumes
from plugin.core.measure.section_areas import areas_between
from plugin.core.measure.section_lines import sections_at
from plugin.core.measure.sections import profiles_of_tin
from plugin.core.measure.strip import strips, within
from plugin.core.tin import Tin

from .lines_shapes import lines_of

__all__ = ["lines_of", "measured", "sections_every", "trench"]


def sections_every(lines, interval, left, right, arcs=None, listed=()):
    """Sections at both ends and at round stations."""
    wanted = Wanted(interval, np.array(listed, float))
    stakes = set_out(lines, Stationing.of(lines), wanted, np.zeros(1))
    return sections_at(lines, stakes.line, stakes.distance, left, right, arcs)


def trench(stations, cuts, base, batter, shift=(0.0, 0.0, 0.0), half=200.0):
    """Level ground, and a trench in it along x with sides of ``batter`` run to rise."""
    stations, cuts = np.asarray(stations, float), np.asarray(cuts, float)
    rows = []
    for x, h in zip(stations, cuts, strict=True):
        out = base / 2 + batter * h
        row = [(-out, 0.0), (-base / 2, -h), (base / 2, -h), (out, 0.0)]
        rows += [(x, y, z) for y, z in row]
    faces = []
    for k in range(len(stations) - 1):
        for j in range(3):
            a = 4 * k + j
            faces += [(a, a + 4, a + 5), (a, a + 5, a + 1)]
    points = np.array(rows) + shift
    faces = np.array(faces)
    sides = points[faces[:, 1:], :2] - points[faces[:, :1], :2]
    area = np.abs(np.linalg.det(sides))
    bottom = Tin.from_arrays(points, faces[area > 1e-9])
    x = np.array([stations[0], stations[-1]])
    corners = [(x[0], -half), (x[1], -half), (x[1], half), (x[0], half)]
    ground = Tin.from_arrays(
        np.array([(a, b, 0.0) for a, b in corners]) + shift, [(0, 1, 2), (0, 2, 3)]
    )
    return ground, bottom


def measured(lines, sections, upper, lower, left, right, arcs=None):
    """Areas, volumes by both formulas, and the exact ones, of cut and fill."""
    spans = spans_of(sections, lines, left, right, arcs)
    areas, middles = (
        areas_between(profiles_of_tin(at, upper), profiles_of_tin(at, lower), len(at))
        for at in (sections, spans.middle)
    )
    cut = volumes(spans, sections, areas.cut, middles.cut)
    fill = volumes(spans, sections, areas.fill, middles.fill)
    ground = strips(sections, lines, left, right, arcs)
    exact = within(upper, lower, ground[0].shape)
    return areas, cut, fill, exact
