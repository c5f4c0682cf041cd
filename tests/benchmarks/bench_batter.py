"""Sides on 25 of 50 zones in 1,000,000 triangles, beside the plain cut by the same zones.

Run: python -m tests.benchmarks.bench_batter [squares along a side]

The surface and the zones are those of `bench_cut`; depths lie between 0.2 and 0.9, batters are
1.5:1. Both rules, mitred and rounded corners, row order and shuffled. Times are the best of
three in this process, the plain cut's and the sides' own; the ratio is that of the whole (cut and
sides) to the cut alone.
"""

import sys
import time

import numpy as np

from plugin.core.depth.batter import batter
from plugin.core.depth.manner import BatterRule, Corners, Manner
from plugin.core.depth.patchwork import Patchwork
from plugin.core.depth.zones import Zones
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance
from tests.core.batter_shapes import lowered_patch

from .bench_breaks import best
from .bench_cut import ZONES, blobs, sheet


def plain_cut(vertices, faces, zones):
    return cut_tin(Tin.from_arrays(vertices, faces), zones.polygons, Tolerance())


def sides(patch: Patchwork, zones: Zones, manner: Manner):
    return batter(patch, zones, manner, Tolerance())


def main():
    sizes = [int(word) for word in sys.argv[1:] if word.isdigit()]
    size = sizes[0] if sizes else 708
    depths = np.linspace(0.2, 0.9, ZONES)
    batters = np.where(np.arange(ZONES) % 2 == 0, 1.5, 0.0)
    zones = Zones(blobs(size), depths, np.arange(ZONES), batters=batters)
    print(f"{2 * size * size:,} triangles, {ZONES} zones, {(batters > 0).sum()} with a batter")
    for mixed in (True, False):
        vertices, faces = sheet(size, mixed)
        tin = Tin.from_arrays(vertices, faces)
        print("shuffled" if mixed else "row order")
        alone, cut = best(plain_cut, vertices, faces, zones)
        print(f"  cut                  {alone:6.2f} s  {len(cut.zone):,} faces")
        patch, local = lowered_patch(tin, cut, zones)
        for rule in BatterRule:
            for corners in Corners:
                manner = Manner(corners=corners, rule=rule)
                seconds, (made, outcome) = best(sides, patch, local, manner)
                print(
                    f"  sides {rule:6} {corners:6}  {seconds:6.2f} s  {len(made.faces):,} faces, "
                    f"{outcome.facets:,} planes, {outcome.faces:,} faces of sides"
                    f"   x {(alone + seconds) / alone:.2f}"
                )


if __name__ == "__main__":
    start = time.perf_counter()
    main()
    print(f"in all {time.perf_counter() - start:.0f} s")
