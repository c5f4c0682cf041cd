"""Long run of the cut and the depth surface over random, nearly degenerate cases.

Run: python -m tests.benchmarks.long_cut [cases, 10000] [first seed, 0]

Every case is a surface of up to 242 faces (near site coordinates of 1e7 half of the time) and up
to ten zones whose borders lie 1e-12 to 1e-2 beside its vertices and edges and beside each other.
It prints what is wrong with the cut and with the depth surface, with the seed; nothing is meant
to be printed but the last line.
"""

import sys
import time
from collections import Counter

import numpy as np

from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Outside, resolve
from plugin.core.errors import ZoneError
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance
from tests.core.cut_shapes import cut_faults, depth_faults, random_case


def faults_of(seed):
    """Return the faults, the largest move and the number of faces divided one at a time."""
    tin, zones = random_case(seed)
    tolerance = Tolerance()
    disjoint = resolve(zones, tolerance).polygons
    cut = cut_tin(tin, disjoint, tolerance)
    faults = cut_faults(tin, cut, disjoint)
    random = np.random.default_rng(seed)
    outside = list(Outside)[random.integers(3)]
    depth = float(random.choice([0.3, 0.5, -1.0]))
    try:
        surface = depth_surface(tin, zones, outside, depth, tolerance)
    except ZoneError:
        if outside is not Outside.LEAVE_OUT or (cut.zone >= 0).any():
            faults.append("refused")
        return faults, cut
    return faults + depth_faults(tin, zones, outside, depth, surface), cut


def main():
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    start = time.perf_counter()
    kinds, move, fallbacks, closed = Counter(), 0.0, 0, 0
    for seed in range(first, first + cases):
        faults, cut = faults_of(seed)
        move = max(move, cut.largest_move)
        fallbacks += cut.fallbacks
        closed += cut.closed_gaps
        if faults:
            kinds.update(faults)
            print(f"seed {seed}: {', '.join(faults)}", flush=True)
    print(
        f"{cases:,} cases in {time.perf_counter() - start:.0f} s; faults: {dict(kinds) or 'none'}; "
        f"largest move {move:.2e}, slits closed {closed:,}, faces divided one at a time "
        f"{fallbacks:,}"
    )


if __name__ == "__main__":
    main()
