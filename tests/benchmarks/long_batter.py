"""Long run of the sides over random, nearly degenerate cases.

Run: python -m tests.benchmarks.long_batter [cases, 2000] [first seed, 0]

Surfaces and zones are those of `long_cut`; batters of 0.5, 1.5 and 3 or upright, both rules, both
kinds of corners, mitre limits from 1.5 to 1000, by chance. It prints what is wrong, with the
seed; nothing is meant to be printed but the last line. It also counts the faces that would turn
over when their corners are rounded to coordinates of 10,000,000.
"""

import sys
import time
from collections import Counter

import numpy as np

from tests.core.batter_shapes import dug_at_random, mesh_problems
from tests.core.cut_shapes import FAR, signed_areas


def faults_of(seed):
    """Return the faults, the outcome, and faces that rounding turns over."""
    made, before, outcome = dug_at_random(seed)
    faults = mesh_problems(made, before)
    if outcome.crooked:
        faults.append("left out a split")
    given = signed_areas((before.points + FAR) - FAR, before.faces) <= 0
    there = signed_areas((made.points + FAR) - FAR, made.faces) <= 0
    return faults, outcome, int(there.sum()) - int(given.sum())


def main():
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    start = time.perf_counter()
    kinds, residual, turned, sides = Counter(), 0.0, 0, 0
    for seed in range(first, first + cases):
        faults, outcome, over = faults_of(seed)
        residual = max(residual, outcome.largest_residual)
        turned += over
        sides += outcome.faces
        if over:
            print(f"seed {seed}: {over} faces turn over at site coordinates", flush=True)
        if faults:
            kinds.update(word.strip("0123456789 ") for word in faults)
            print(f"seed {seed}: {', '.join(faults)}", flush=True)
    print(
        f"{cases:,} cases in {time.perf_counter() - start:.0f} s, {sides:,} faces of sides; faults: "
        f"{dict(kinds) or 'none'}; largest residual {residual:.2e}; {turned} faces would turn over "
        "at site coordinates"
    )


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    main()
