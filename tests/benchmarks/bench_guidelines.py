"""Guidelines of 1,000 lines of 200 vertices with heights, against others in the same process.

Run: python -m tests.benchmarks.bench_guidelines [--tight] [--host] [--many]

The reference is what one would write with shapely: `offset_curve` and heights by projecting every
vertex of the result back to its source. ``--tight`` uses lines that bend so tightly that most of
them need trimming, ``--host`` adds QGIS's own offset (which loses heights), and ``--many`` lays
10,000 lines and prints the memory they took.
"""

import resource
import statistics
import sys
import time

import numpy as np
import shapely

from plugin.core.lines.bundle import Lines
from plugin.core.lines.guide import lay
from plugin.core.lines.parallel import parallels
from plugin.core.lines.prove import prove
from plugin.core.lines.requests import Requests
from plugin.core.lines.sides import Basis, Rule

OFFSET = 5.0


def coordinates(count, vertices=200, bend=0.08, seed=0):
    """Lines in UTM-size coordinates, 1 to 4 m a segment."""
    rng = np.random.default_rng(seed)
    result = []
    for _ in range(count):
        heading = np.cumsum(rng.normal(0, bend, vertices))
        step = np.column_stack([np.cos(heading), np.sin(heading)])
        xy = np.cumsum(step * rng.uniform(1, 4, (vertices, 1)), axis=0)
        xy += rng.uniform((5e5, 6e6), (6e5, 6.1e6))
        z = 100 + np.cumsum(rng.normal(0, 0.02, vertices))
        result.append(np.column_stack([xy, z]))
    return result


def with_shapely(lines):
    """Offset by GEOS (positive left) and heights by projection."""
    offset = shapely.offset_curve(lines.geometries, -OFFSET, join_style="mitre", mitre_limit=2.0)
    xy, owner = shapely.get_coordinates(offset, return_index=True)
    station = shapely.line_locate_point(lines.geometries[owner], shapely.points(xy))
    order = np.argsort(owner, kind="stable")
    z = np.empty(len(xy))
    for k, rows in enumerate(np.split(order, np.cumsum(np.bincount(owner))[:-1])):
        own = lines.line(k)
        z[rows] = np.interp(station[rows], lines.stations[own], lines.z[own])
    return np.column_stack([xy, z])


def with_host(lines):
    """Return a function that runs QGIS's own offset."""
    from qgis.core import QgsApplication, QgsGeometry, QgsLineString

    app = QgsApplication([], False)
    app.initQgis()
    packed = [
        QgsGeometry(QgsLineString(*lines.xy[lines.line(k)].T.tolist())) for k in range(len(lines))
    ]
    from qgis.core import Qgis

    mitre = Qgis.JoinStyle.Miter
    return app, lambda: [g.offsetCurve(-OFFSET, 8, mitre, 2.0) for g in packed]


def timed(action, times=5):
    action()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        action()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def main():
    bend = 0.6 if "--tight" in sys.argv else 0.08
    given = coordinates(1000, bend=bend)
    lines = Lines.from_arrays(given)
    result = parallels(lines, OFFSET)
    proof = prove(lines, result)
    print(
        f"1,000 lines x 200 vertices: {len(result.lines)} pieces, {len(result.lost)} stretches lost,"
        f" all proved: {bool(proof.holds(result.offsets, 1e-6).all())},"
        f" largest distance error {proof.error.max():.1e}"
    )

    def fresh():
        return Lines.from_arrays(given)

    reference = timed(lambda: with_shapely(fresh()))

    def proved(thorough):
        own = fresh()
        prove(own, parallels(own, OFFSET), thorough=thorough)

    def product():
        own = fresh()
        lay(Requests(own, every, distance, [Rule.RIGHT] * len(own)), Basis())

    every, distance = np.arange(len(lines)), np.full(len(lines), OFFSET)
    rows = [
        ("shapely offset_curve + heights by projection", reference),
        ("parallels with heights and stations", timed(lambda: parallels(fresh(), OFFSET))),
        ("the same, distance and side proved in closed form", timed(lambda: proved(False))),
        ("the same, distance measured by GEOS as well", timed(lambda: proved(True))),
        ("guidelines as they are laid, from rule to proof", timed(product)),
    ]
    if "--host" in sys.argv:
        app, offset = with_host(lines)
        rows.append(("QGIS's own offset, plan only", timed(offset)))
        app.exitQgis()
    for name, seconds in rows:
        print(f"{name:52s} {seconds:7.3f} s   {reference / seconds:5.1f} x")
    if "--many" in sys.argv:
        many = Lines.from_arrays(coordinates(10_000))
        asked = Requests(many, np.arange(10_000), np.full(10_000, OFFSET), [Rule.RIGHT] * 10_000)
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        start = time.perf_counter()
        lay(asked, Basis())
        taken = time.perf_counter() - start
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(f"10,000 lines: {taken:.1f} s, peak {peak:.0f} MB ({before:.0f} MB before)")


if __name__ == "__main__":
    main()
