"""Ponds of a million faces, beside one queue over all vertices, in one process.

Run: python -m tests.benchmarks.bench_ponding [vertices along a side]

The reference finds levels only, no areas and no outlines; it gets the same surface.
"""

import sys
import time

import numpy as np

from plugin.core.measure.filling import fill
from plugin.core.measure.ponding import find_ponds
from plugin.core.tin import Tin
from tests.core.pond_shapes import flooded
from tests.core.tin_shapes import grid_faces


def surface(size, rough):
    x, y = np.meshgrid(np.arange(float(size)), np.arange(float(size)))
    z = 5 * np.sin(x / 20) * np.cos(y / 17) + 0.01 * x
    z += np.random.default_rng(0).normal(0, rough, z.shape)
    plan = np.column_stack((x.ravel(), y.ravel()))
    return Tin.from_arrays(np.column_stack((plan, z.ravel())), grid_faces(size, size))


def timed(work):
    start = time.perf_counter()
    result = work()
    return time.perf_counter() - start, result


def main():
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 708
    for rough in (0.0, 0.01, 1.0):
        tin = surface(size, rough)
        _ = tin.edges
        levels, filled = timed(lambda tin=tin: fill(tin))
        whole, ponds = timed(lambda tin=tin: find_ponds(tin, 0.006))
        queue, reference = timed(lambda tin=tin: flooded(tin))
        assert (filled.level == reference).all()
        print(
            f"{len(tin.faces):,} faces, roughness {rough}: {len(ponds):,} ponds; "
            f"levels {levels:.2f} s, ponds {whole:.2f} s; "
            f"queue over vertices {queue:.2f} s: {queue / levels:.1f} times the levels"
        )


if __name__ == "__main__":
    main()
