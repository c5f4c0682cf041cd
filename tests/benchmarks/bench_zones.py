"""Ten thousand zones: drawn together, settled, widened and cut, beside plain GEOS on the same.

Run: ``python -m tests.benchmarks.bench_zones [zones a side]``. Ratios are to buffering all zones
with GEOS and uniting the result once, in the same process: that neither says who wins where
zones meet nor keeps them apart.
"""

import sys
import time
import warnings
from dataclasses import replace

import numpy as np
import shapely

from plugin.core.depth.joining import join_borders
from plugin.core.depth.manner import Corners, Manner
from plugin.core.depth.widen import widen
from plugin.core.depth.zones import Zones, resolve
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance
from tests.core.cut_shapes import polygons, sheet

SIZE = 10.0


def net(count, noise, random):
    """Zones side by side with bent borders of five edges, each corner shaken in each zone."""
    steps = np.arange(count + 1.0)
    knots = np.stack(np.meshgrid(steps, steps), -1) * SIZE + random.uniform(
        -2, 2, (count + 1, count + 1, 2)
    )

    def border(a, b):
        if tuple(a) > tuple(b):
            return border(b, a)[::-1]
        share = np.linspace(0, 1, 6)[:, None]
        across = np.array([a[1] - b[1], b[0] - a[0]])
        return a + share * (b - a) + 0.05 * np.sin(np.pi * share) * across

    made = []
    for i in range(count):
        for j in range(count):
            q = [knots[i, j], knots[i, j + 1], knots[i + 1, j + 1], knots[i + 1, j]]
            ring = np.vstack([border(q[k], q[(k + 1) % 4])[:-1] for k in range(4)])
            made.append(shapely.Polygon(ring + random.uniform(-noise, noise, ring.shape)))
    return polygons(*made)


def timed(label, work, reference=None):
    begin = time.perf_counter()
    result = work()
    took = time.perf_counter() - begin
    ratio = f"  {took / reference:6.1f} x" if reference else ""
    print(f"{label:52s} {took:8.2f} s{ratio}", flush=True)
    return result, took


def main(count):
    random = np.random.default_rng(0)
    clean = net(count, 0.0, random)
    depths = random.choice([0.1, 0.2, 0.3, 0.5], len(clean))
    widths = random.choice([0.0, 0.3, 0.5, 1.0], len(clean))
    zones = Zones(clean, depths, np.arange(len(clean)), widths=widths)
    tolerance = Tolerance()
    print(f"{len(clean)} zones, {len(shapely.get_coordinates(clean))} corners")

    def plain():
        wide = shapely.buffer(clean, widths, join_style="mitre", mitre_limit=4.0)
        return shapely.union_all(wide)

    _, reference = timed("GEOS: buffer all, unite once", plain)
    timed("draw together: nothing to do", lambda: join_borders(clean, 1e-4), reference)
    shaken = net(count, 5e-3, np.random.default_rng(0))
    timed("draw together: every border 5 mm off", lambda: join_borders(shaken, 0.02), reference)
    settled, _ = timed(
        "settle (checks, joins, overlaps)", lambda: resolve(zones, tolerance), reference
    )
    still = replace(settled, widths=np.zeros(len(settled)))
    timed("widen: no zone is", lambda: widen(still, Manner(), tolerance), reference)
    wide, _ = timed("widen: mitred", lambda: widen(settled, Manner(), tolerance), reference)
    rounded = Manner(corners=Corners.ROUND)
    timed("widen: rounded", lambda: widen(settled, rounded, tolerance), reference)
    cells = int(count * SIZE / 3)
    tin = sheet(cells, cells, 3.0, 0.15)
    timed(
        f"cut a TIN of {len(tin.faces)} faces by them",
        lambda: cut_tin(tin, wide.polygons, tolerance),
        reference,
    )


if __name__ == "__main__":
    warnings.simplefilter("ignore")
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
