"""Surfaces with known slope breaks, and ways to move them about."""

import numpy as np

from plugin.core.breaks import KINDS, Search, find_breaks
from plugin.core.progress import silent
from plugin.core.tin import Tin


def breaks_of(tin, minimum, progress=silent, **more):
    """Return the lines of a search."""
    return find_breaks(tin, Search(minimum, **more), progress).lines


def extruded(profile, ys=(0.0, 4.0, 9.0, 15.0), slope_along=0.0, seed=1):
    """Return vertices and faces of a profile [(x, z), ...] carried along y, diagonals at random."""
    profile = np.asarray(profile, float)
    ys = np.asarray(ys, float)
    columns, rows = len(profile), len(ys)
    x, y = np.tile(profile[:, 0], rows), np.repeat(ys, columns)
    z = np.tile(profile[:, 1], rows) + slope_along * y
    corner = (np.arange(rows - 1)[:, None] * columns + np.arange(columns - 1)).ravel()
    a, b, c, d = corner, corner + 1, corner + columns + 1, corner + columns
    turn = np.random.default_rng(seed).random(len(a)) < 0.5
    one = np.where(turn[:, None], np.column_stack((a, b, c)), np.column_stack((a, b, d)))
    two = np.where(turn[:, None], np.column_stack((a, c, d)), np.column_stack((b, c, d)))
    return np.column_stack((x, y, z)), np.concatenate((one, two))


def cone(facets, radius=10.0, height=3.0):
    """Return a right cone over a regular polygon; its apex is the last vertex."""
    turn = 2 * np.pi * np.arange(facets) / facets
    rim = np.column_stack((radius * np.cos(turn), radius * np.sin(turn), np.zeros(facets)))
    first = np.arange(facets)
    faces = np.column_stack((first, (first + 1) % facets, np.full(facets, facets)))
    return np.vstack((rim, [0.0, 0.0, height])), faces


def rough(size, relief, seed):
    """Return a grid of 1-unit squares with moved corners, random heights and diagonals."""
    random = np.random.default_rng(seed)
    vertices, faces = extruded([(i, 0.0) for i in range(size + 1)], range(size + 1), seed=seed)
    vertices[:, :2] += random.uniform(-0.2, 0.2, (len(vertices), 2))
    vertices[:, 2] = random.uniform(0, relief, len(vertices))
    return vertices, faces


def shuffled(vertices, faces, seed):
    """Return the same surface with vertices and faces in another order."""
    random = np.random.default_rng(seed)
    order = random.permutation(len(vertices))
    place = np.empty_like(order)
    place[order] = np.arange(len(order))
    return vertices[order], place[faces][random.permutation(len(faces))]


def moved(vertices, degrees=0.0, shift=(0.0, 0.0, 0.0), mirror=False):
    """Return the vertices mirrored in x, then turned about the origin, then shifted."""
    vertices = np.array(vertices, float)
    if mirror:
        vertices[:, 0] = -vertices[:, 0]
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    vertices[:, :2] = vertices[:, :2] @ np.array([[c, s], [-s, c]])
    return vertices + np.asarray(shift)


def tin(vertices, faces):
    return Tin.from_arrays(vertices, faces)


def words(lines):
    """Return the kind of each line as its word."""
    return [str(KINDS[code]) for code in lines.kind]


def at_x(lines, x):
    """Return the number of the only line that lies wholly at that x."""
    found = [i for i in range(len(lines)) if np.allclose(lines.line(i)[:, 0], x)]
    assert len(found) == 1, f"{len(found)} lines at x = {x}"
    return found[0]
