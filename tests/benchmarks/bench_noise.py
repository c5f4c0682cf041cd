"""Recall, precision and fragments of slope breaks over noise, on planted sites.

Run: python -m tests.benchmarks.bench_noise

Sites: `tests.core.breaks_sites`, breaks of 4 % and of 5 % (2 % beside 7 %) and a pond of 3:1; in
feet on triangles about 3 ft wide, and in metres on triangles about 1 m wide. Thresholds 2 % to
start and 1.5 % to continue; gaps up to 3 units, lines from 8 units on. Each cell: shares of planted
and of found length within 3 ft or 1 m of the other, how many lines were found where seven
are right (eight with the curb), and how many of them lie along each planted line of one kind.
Means of five sites.
"""

from dataclasses import dataclass, field

import numpy as np

from plugin.core.breaks import Search, find_breaks
from plugin.core.tin import Tin

from ..core.breaks_sites import fragments, planted, recall_precision, retriangulated

SITES = 5


@dataclass(frozen=True)
class Case:
    """Sites of one sort, with the noises and widths tried on them."""

    title: str
    spacing: float
    near: float
    noises: tuple[float, ...]
    widths: tuple[float, ...]
    again: bool = False
    site: dict = field(default_factory=dict)


FEET = (0.0, 0.01, 0.02, 0.03, 0.05, 0.08)
METRES = (0.0, 0.0025, 0.005, 0.0075, 0.01)
CASES = (
    Case("ft, random triangles", 3.0, 3.0, FEET, (0.0, 5.0, 8.0, 11.0)),
    Case("ft, re-triangulated", 3.0, 3.0, FEET[:4], (5.0, 8.0, 11.0), again=True),
    Case("ft, with a curb", 3.0, 3.0, FEET[:4], (5.0, 8.0, 11.0), site={"curb": True}),
    Case(
        "ft, edges across breaks", 3.0, 3.0, FEET[:4], (5.0, 8.0, 11.0), site={"on_breaks": False}
    ),
    Case("ft, the same, finer", 2.0, 3.0, FEET[:4], (5.0, 8.0, 11.0), site={"on_breaks": False}),
    Case("m, even noise", 1.0, 1.0, METRES, (0.0, 2.0, 3.0, 5.0)),
    Case("m, normal noise", 1.0, 1.0, METRES, (0.0, 2.0, 3.0, 5.0), site={"normal": True}),
)


def main():
    for case in CASES:
        print(f"\n{case.title}: recall precision lines fragments, by width")
        print("  noise | " + " | ".join(f"{width:>22g}" for width in case.widths))
        for noise in case.noises:
            cells = [cell(case, noise, width) for width in case.widths]
            print(f"{noise:7g} | " + " | ".join(cells), flush=True)


def cell(case, noise, width):
    found = []
    for seed in range(SITES):
        site = planted(noise, seed, case.spacing, **case.site)
        if case.again:
            site = retriangulated(site, seed)
        tin = Tin.from_arrays(site.vertices, site.faces)
        search = Search(0.02, 0.015, support=width, gap=3.0, min_length=8.0)
        lines = find_breaks(tin, search).lines
        shares = recall_precision(lines, site.breaks.values(), case.near)
        found.append((*shares, len(lines), fragments(lines, site.breaks, case.near).mean()))
    return "{:.3f} {:.3f} {:5.1f} {:5.2f}".format(*np.mean(found, axis=0))


if __name__ == "__main__":
    main()
