"""Edges of 2,000,000 triangles from their corner indices, beside trimesh and a sort.

Run: python -m tests.benchmarks.bench_tin_edges [squares along a side]

Given in row order and shuffled (vertices and faces in random order, the worst for caches). Best
of five in this process, turn by turn, so that a busy machine slows all of them.
"""

import sys
import time

import numpy as np
import trimesh

from plugin.core.tin import pair_half_edges

RUNS = 5


def faces_of_grid(size, mixed):
    index = np.arange((size + 1) ** 2).reshape(size + 1, size + 1)
    a, b = index[:-1, :-1].ravel(), index[:-1, 1:].ravel()
    c, d = index[1:, 1:].ravel(), index[1:, :-1].ravel()
    faces = np.stack([a, b, c, a, c, d], axis=1).reshape(-1, 3)
    if mixed:
        random = np.random.default_rng(0)
        faces = random.permutation((size + 1) ** 2)[faces][random.permutation(len(faces))]
    return np.ascontiguousarray(faces)


def by_sorting(faces):
    """Edges by sorting packed ends: the least that a sort can do."""
    start, stop = faces.ravel(), np.roll(faces, -1, axis=1).ravel()
    key = (np.minimum(start, stop) << 32) | np.maximum(start, stop)
    order = np.argsort(key, kind="stable")
    ordered = key[order]
    return ordered[np.concatenate([[True], ordered[1:] != ordered[:-1]])]


def by_trimesh(faces):
    edges = np.sort(trimesh.geometry.faces_to_edges(faces), axis=1)
    return trimesh.grouping.group_rows(edges, require_count=2)


def main():
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    for mixed in (True, False):
        faces = faces_of_grid(size, mixed)
        seconds = {pair_half_edges: [], by_sorting: [], by_trimesh: []}
        for _ in range(RUNS):
            for work, took in seconds.items():
                start = time.perf_counter()
                work(faces)
                took.append(time.perf_counter() - start)
        ours, sort, mesh = (min(took) for took in seconds.values())
        edges = pair_half_edges(faces)
        start = time.perf_counter()
        _ = edges.neighbours
        across = time.perf_counter() - start
        print(
            f"{len(faces)} faces, {'shuffled' if mixed else 'in rows'}: ours {ours:.3f} s"
            f" (+ neighbours {across:.3f} s), sort alone {sort:.3f} s = {sort / ours:.1f} x,"
            f" trimesh pairs {mesh:.3f} s = {mesh / ours:.1f} x"
        )


if __name__ == "__main__":
    main()
