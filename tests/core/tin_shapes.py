"""Surfaces for the tests: small ones by hand, random ones, and those of a folder of real files."""

import os
import re
from pathlib import Path

import numpy as np
from scipy.spatial import Delaunay

from plugin.core.tin import Tin

REAL = Path(os.environ.get("UNDERCOURSE_REAL_DATA", Path(__file__).parents[3] / "shared" / "real"))


def square(z=(0.0, 0.0, 0.0, 0.0)) -> Tin:
    """A 10 x 10 square of two faces."""
    vertices = [(0, 0, z[0]), (10, 0, z[1]), (10, 10, z[2]), (0, 10, z[3])]
    return Tin.from_arrays(vertices, [(0, 1, 2), (0, 2, 3)])


def grid_faces(columns: int, rows: int) -> np.ndarray:
    """Two faces a cell over ``columns x rows`` vertices."""
    index = np.arange(columns * rows).reshape(rows, columns)
    a, b = index[:-1, :-1].ravel(), index[:-1, 1:].ravel()
    c, d = index[1:, 1:].ravel(), index[1:, :-1].ravel()
    return np.stack([np.c_[a, b, c], np.c_[a, c, d]], axis=1).reshape(-1, 3)


def random_tin(seed: int, count: int = 60, shift: float = 0.0, height=None) -> Tin:
    """Delaunay triangles of random points, vertices, faces and corners in random order."""
    rng = np.random.default_rng(seed)
    # On a grid of 1/1024, so that a shift by a whole number keeps every difference exact.
    plan = np.unique(rng.integers(0, 100 * 1024, (count, 2)), axis=0) / 1024.0
    rng.shuffle(plan)
    faces = Delaunay(plan).simplices
    z = rng.uniform(0, 5, len(plan)) if height is None else height(plan)
    faces = faces[rng.permutation(len(faces))]
    flip = rng.random(len(faces)) < 0.5
    faces[flip] = faces[flip, ::-1]
    return Tin.from_arrays(np.column_stack([plan + shift, z]), faces)


def read_real(name: str) -> Tin:
    """Read a TIN of one of the real files; visible faces only."""
    text = (REAL / f"{name}.xml").read_text(encoding="latin-1")
    points = re.findall(r'<P id="(\d+)">([^<]+)</P>', text)
    number = {int(name): row for row, (name, _) in enumerate(points)}
    vertices = np.array([[float(word) for word in given.split()] for _, given in points])
    faces = [
        [number[int(word)] for word in given.split()]
        for attributes, given in re.findall(r"<F([^>]*)>([^<]+)</F>", text)
        if 'i="1"' not in attributes
    ]
    return Tin.from_arrays(vertices[:, [1, 0, 2]], faces)
