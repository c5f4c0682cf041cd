"""Long run of the whole depth surface over random, nearly degenerate cases.

Run: python -m tests.benchmarks.long_depth [cases, 10000] [first seed, 0]

The cases are those of `long_cut`, whose borders lie 1e-12 to 1e-2 beside vertices and edges of the
surface and beside each other. Zones get widths, batters and thicknesses square to the slope at
random, corners and rules in turn. It prints what is wrong, with the seed: cracks, edges with more
than two faces, faces turned over, bottoms off their planes, areas and volumes that do not add up,
faces labelled with another zone than the one around them. Nothing is meant to be printed but the
last line.
"""

import sys
import time
from collections import Counter

import numpy as np
import shapely

from plugin.core.depth.patchwork import Part
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Outside
from plugin.core.errors import ZoneError
from plugin.core.tin.cut.lookup import zones_around
from tests.core.cut_shapes import random_case
from tests.core.depth_shapes import incentres, pit_faults, random_ways


def mislabelled(surface):
    """Tell whether a face of a bottom or of the design lies in another zone."""
    rows = np.flatnonzero(np.isin(surface.part, (Part.BOTTOM, Part.DESIGN)))
    spots, radius, _ = incentres(surface.tin, rows)
    wide = radius > 2e-3 + 4 * surface.largest_move
    found = zones_around(spots[wide], radius[wide], surface.zones.polygons)
    return not np.array_equal(found, surface.zone[rows[wide]])


def faults_of(seed):
    """Return the faults, and the surface or None where nothing is left."""
    tin, zones = random_case(seed)
    random = np.random.default_rng(seed)
    zones, manner = random_ways(random, zones, square=random.random() < 0.5)
    outside = list(Outside)[random.integers(3)]
    try:
        surface = depth_surface(tin, zones, outside, 0.4, manner=manner)
    except ZoneError as error:
        return ([] if "No zone meets" in str(error) else [f"refused: {error}"]), None
    except shapely.GEOSException as error:
        return [f"geometry: {error}"], None
    faults = pit_faults(tin, surface, outside, 0.4, manner.rule)
    if mislabelled(surface):
        faults.append("wrong zones")
    return faults, surface


def main():
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    start = time.perf_counter()
    kinds, findings, parts = Counter(), Counter(), Counter()
    for seed in range(first, first + cases):
        faults, surface = faults_of(seed)
        if surface is not None:
            findings.update({finding.code for finding in surface.findings})
            parts.update({Part(number).name.lower() for number in np.unique(surface.part)})
        if faults:
            kinds.update(fault.split(" ")[0] for fault in faults)
            print(f"seed {seed}: {', '.join(faults)}", flush=True)
    print(
        f"{cases:,} cases in {time.perf_counter() - start:.0f} s; faults: {dict(kinds) or 'none'}; "
        f"cases with {dict(parts)}; findings in {dict(findings)}"
    )


if __name__ == "__main__":
    main()
