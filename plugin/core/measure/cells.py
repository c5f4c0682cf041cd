"""The ground of two TINs by class of their difference: exact figures, and the borders."""

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, silent
from ..runs import count_up
from ..tin.overlay import Cells, cells
from ..tin.overlay.polygons import Polygons
from .borders import Borders
from .classes import Book, Classes, Sums
from .pair import Pair

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

X, Y, D = 0, 1, 2
GRID = 1e-2
"""Spacing of the grid on which borders are joined, in snap distances."""


def classify(
    pair: Pair,
    classes: Classes,
    snap: float,
    *,
    less: Floats | None = None,
    group: Ints | None = None,
    progress: Progress = silent,
) -> tuple[Sums, NDArray[np.object_] | None]:
    """Divide the ground of two TINs by the class of their difference.

    Every cell of the overlay lies under one plane of either surface, so that the difference is
    linear over it; it is clipped at the limits of the classes, and each part is integrated in
    closed form (plan area times the difference at its centroid).

    Parameters
    ----------
    pair : Pair
        The surfaces.
    classes : Classes
        The classes.
    snap : float
        Two places nearer than this are one.
    less : (k + 1,) float, optional
        Height taken off the difference in each zone, the last outside all.
    group : (c,) or (k + 1, c) int, optional
        Group of each class, in each zone, for outlines; none are made when left out.
    progress : Progress
        Told the share done.

    Returns
    -------
    Sums
        Figures of each zone (the last is outside all) and class.
    (k + 1, g) object, or None
        Outline of each zone and group; None where there is no ground.
    """
    rows = pair.zones + 1
    book = Book(rows, len(classes))
    less = np.zeros(rows) if less is None else less
    origin = np.floor(np.array(pair.upper.extent[:2]))
    borders = Borders(GRID * snap)
    table = np.broadcast_to(0 if group is None else group, (rows, len(classes)))
    groups = int(table.max()) + 1
    for block in cells(pair.upper, pair.lower, split=False, progress=progress):
        zone = pair.zone_of(block.upper, block.lower)
        ground = _padded(block, origin, less[zone])
        row, number, parts = _clipped(ground, classes)
        area, volume = _integrals(parts)
        height = parts.values[..., D]
        valid = parts.valid
        least = np.where(valid, height, np.inf).min(axis=1)
        most = np.where(valid, height, -np.inf).max(axis=1)
        some = area > 0
        book.add(zone[row][some], number[some], area[some], volume[some], least[some], most[some])
        if group is not None:
            label = zone[row] * groups + table[zone[row], number]
            borders.add(parts.values[valid][:, :D], parts.count, label)
    if group is None:
        return book.sums(), None

    def label_of(xy: Floats) -> Ints:
        difference, zone = pair.at(xy + origin)
        owner = np.maximum(zone, 0)
        number = classes.of(difference - less[owner])
        return np.where(number < 0, -1, zone * groups + table[owner, number])

    shapes = borders.outlines(label_of, rows * groups, origin)
    return book.sums(), shapes.reshape(rows, groups)


def failing_corners(
    pair: Pair, less: Floats, low: Floats, high: Floats, progress: Progress = silent
) -> tuple[Floats, Floats, Ints, Floats]:
    """Return where the difference leaves its limits the farthest, one corner of each such cell.

    Between corners it is linear, so that the worst place of any region is among them.

    Parameters
    ----------
    pair : Pair
        The surfaces.
    less, low, high : (k + 1,) float
        Height taken off the difference in each zone, and its limits there.
    progress : Progress
        Told the share done.

    Returns
    -------
    xy : (p, 2) float
    difference : (p,) float
        Less what is taken off.
    zone : (p,) int
    width : (p,) float
        Mean width of the cell: that of an upright step is next to nothing.
    """
    nothing = np.zeros(0)
    found = [(np.zeros((0, 2)), nothing, np.zeros(0, np.int64), nothing)]
    origin = np.floor(np.array(pair.upper.extent[:2]))
    for block in cells(pair.upper, pair.lower, split=False, progress=progress):
        zone = pair.zone_of(block.upper, block.lower)
        ground = _padded(block, origin, less[zone])
        off = ground.values[..., D]
        width = _widths(ground)
        for excess in (low[zone][:, None] - off, off - high[zone][:, None]):
            beyond = np.where(ground.valid, excess, -np.inf)
            worst = beyond.argmax(axis=1)
            row = np.flatnonzero(beyond.max(axis=1) > 0)
            corner = ground.values[row, worst[row]]
            found.append((corner[:, :D] + origin, corner[:, D], zone[row], width[row]))
    xy, difference, owner, widths = zip(*found, strict=True)
    return (
        np.concatenate(xy),
        np.concatenate(difference),
        np.concatenate(owner),
        np.concatenate(widths),
    )


def _widths(ground: Polygons) -> Floats:
    """Return twice the area over the outline."""
    area, _ = _integrals(ground)
    following = ground.following[..., None]
    side = np.take_along_axis(ground.values, following, axis=1) - ground.values
    length = np.where(ground.valid, np.hypot(side[..., X], side[..., Y]), 0.0).sum(axis=1)
    return 2.0 * area / np.maximum(length, np.finfo(np.float64).tiny)


def _padded(block: Cells, origin: Floats, less: Floats) -> Polygons:
    """Return the cells with place and difference at their corners."""
    count = np.diff(block.offsets)
    values = np.zeros((len(count), int(count.max(initial=1)), 3))
    row, column = np.repeat(np.arange(len(count)), count), count_up(count)
    values[row, column, :D] = block.xy - origin
    values[row, column, D] = block.upper_z - block.lower_z - less[row]
    return Polygons(values, count)


def _clipped(ground: Polygons, classes: Classes) -> tuple[Ints, Ints, Polygons]:
    """Return the parts of cells in each class they reach, the cell and the class of each."""
    height, valid = ground.values[..., D], ground.valid
    height[...] = classes.settled(height.ravel()).reshape(height.shape)
    first, last = classes.range_of(
        np.where(valid, height, np.inf).min(axis=1), np.where(valid, height, -np.inf).max(axis=1)
    )
    many = last > first
    whole, crossed = np.flatnonzero(~many), np.flatnonzero(many)
    count = last[crossed] - first[crossed] + 1
    row = np.repeat(crossed, count)
    number = first[row] + count_up(count)
    parts = Polygons(ground.values[row], ground.count[row])
    edges = classes.edges
    if len(row):
        for side, limit in ((1.0, number - 1), (-1.0, number)):
            there = (limit >= 0) & (limit < len(edges))
            at = edges[np.clip(limit, 0, len(edges) - 1)]
            off = side * (parts.values[..., D] - at[:, None])
            parts = parts.clip(np.where(there[:, None], off, 1.0))
            # What lies on the limit lies on it exactly.
            near = np.abs(parts.values[..., D] - at[:, None]) <= classes.slack
            np.copyto(parts.values[..., D], at[:, None], where=near & there[:, None])
    corners = max(ground.values.shape[1], parts.values.shape[1])
    values = np.zeros((len(whole) + len(row), corners, 3))
    values[: len(whole), : ground.values.shape[1]] = ground.values[whole]
    values[len(whole) :, : parts.values.shape[1]] = parts.values
    return (
        np.concatenate((whole, row)),
        np.concatenate((first[whole], number)),
        Polygons(values, np.concatenate((ground.count[whole], parts.count))),
    )


def _integrals(parts: Polygons) -> tuple[Floats, Floats]:
    """Return plan area and integral of the difference, as a fan of triangles each."""
    values = parts.values
    off = values[..., :D] - values[:, :1, :D]
    one, two = off[:, 1:-1], off[:, 2:]
    doubled = one[..., X] * two[..., Y] - one[..., Y] * two[..., X]
    there = np.arange(2, values.shape[1]) < parts.count[:, None]
    area = np.where(there, 0.5 * doubled, 0.0)
    mean = (values[:, :1, D] + values[:, 1:-1, D] + values[:, 2:, D]) / 3.0
    return np.maximum(area.sum(axis=1), 0.0), (area * mean).sum(axis=1)
