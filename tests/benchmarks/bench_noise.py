"""Recall and precision of slope breaks over noise, on planted sites.

Run: python -m tests.benchmarks.bench_noise

Sites: `tests.core.breaks_sites`, triangles about 3 ft wide, breaks of 4 and 5 % and a pond of 3:1.
Noise: heights off by up to so much both ways, evenly spread. Thresholds 2 % to start and 1.5 % to
continue; gaps up to 3 ft, lines from 8 ft on. Shares of length within 3 ft, means of five sites;
``lines`` is their number (eight stated, counting the kinds round the pond).
"""

import numpy as np

from plugin.core.breaks import Search, find_breaks
from plugin.core.tin import Tin

from ..core.breaks_sites import planted, recall_precision

NOISE = (0.0, 0.01, 0.02, 0.03, 0.05, 0.08)
WIDTHS = (0.0, 5.0, 8.0, 11.0)
SITES = 5


def main():
    print(
        "noise ft | "
        + " | ".join(f"width {width:g} ft: recall precision lines" for width in WIDTHS)
    )
    for noise in NOISE:
        cells = []
        for width in WIDTHS:
            found = []
            for seed in range(SITES):
                site = planted(noise, seed)
                tin = Tin.from_arrays(site.vertices, site.faces)
                search = Search(0.02, 0.015, support=width, gap=3.0, min_length=8.0)
                lines = find_breaks(tin, search).lines
                found.append((*recall_precision(lines, site.breaks.values(), 3.0), len(lines)))
            cells.append("{:.3f} {:.3f} {:5.1f}".format(*np.mean(found, axis=0)))
        print(f"{noise:8.2f} | " + " | ".join(cells))


if __name__ == "__main__":
    main()
