"""Planes, lines and checks of grades, for the tests."""

import numpy as np

from plugin.core.lines.bundle import Lines
from plugin.core.measure.grade_check import Asked, check_tin
from plugin.core.measure.grade_rules import Measure
from plugin.core.measure.grades import Limit
from plugin.core.tin import Tin
from plugin.core.tolerance import Tolerance

from .cut_shapes import sheet

NAN = float("nan")
METRES = Tolerance.for_unit(1.0)


def plane(slope, bearing=90.0, origin=(0.0, 0.0), seed=1, size=11):
    """A plane on random triangles that rises by ``slope`` towards a bearing."""
    way = np.array([np.sin(np.radians(bearing)), np.cos(np.radians(bearing))])
    return sheet(size, size, 10.0, 0.2, seed, origin, lambda plan: 100.0 + slope * (plan @ way))


def line(bearing, origin=(0.0, 0.0)):
    """A line through the middle of such a plane."""
    way = np.array([np.sin(np.radians(bearing)), np.cos(np.radians(bearing))])
    return lines(np.array([50.0, 50.0]) + np.outer([-200.0, 200.0], way) + origin)


def lines(*coordinates):
    return Lines.from_arrays([np.asarray(xy, float) for xy in coordinates])


def limit(measure=Measure.MAX_SLOPE, high=NAN, low=NAN, zone=0):
    return Limit(zone, measure, low, high)


def checked(tin, *limits, zones=None, near=0.001, **asked):
    return check_tin(tin, zones, Asked(limits, near, **asked), METRES)


def verdict(tin, *limits, **asked):
    """The verdict on one limit, and the flags of its areas."""
    (row,) = checked(tin, *limits, **asked).rows
    return row.verdict, sorted({one.flag for one in row.areas})


def turned(xy, degrees, origin=(0.0, 0.0)):
    """Plan places turned counter-clockwise about 0, 0 and then moved."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return np.asarray(xy, float) @ np.array([(c, s), (-s, c)]) + origin


def ramp(grades, widths, length=20.0, origin=(0.0, 0.0), turn=0.0):
    """Strips side by side that rise eastward by ``grades``; the borders between run north.

    They are then turned by ``turn`` degrees and moved.
    """
    x = np.concatenate(([0.0], np.cumsum(widths)))
    z = np.concatenate(([0.0], np.cumsum(np.multiply(grades, widths))))
    count = len(x)
    vertices = [(a, y, h) for y in (0.0, length) for a, h in zip(x, z, strict=True)]
    faces = []
    for k in range(count - 1):
        faces += [(k, k + 1, count + k + 1), (k, count + k + 1, count + k)]
    x, y, z = np.transpose(vertices)
    plan = turned(np.column_stack((x, y)), turn, origin)
    return Tin.from_arrays(np.column_stack((plan, z)), faces)
