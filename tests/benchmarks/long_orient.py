"""The long run on directions: lines whose right direction is known because they were made so.

Run: python -m tests.benchmarks.long_orient [cases, default 200000] [seed]

Every case is a line (or the pieces of one) that is right when it runs about eastward in its own
small world, or anticlockwise round it, with what its rule looks at made separately. The world is
then turned by any angle, mirrored or not, the lines drawn back or not, and all of it moved to
coordinates of state-plane size. Drawing back swaps what is to be turned, mirroring swaps the way
round, and that is the truth; it does not use the code under test. Printed are the cases by rule,
how many were flagged, and how many were turned wrongly; the command fails when one was.
"""

import sys
import time
from itertools import pairwise

import numpy as np

from plugin.core.lines.bundle import Lines
from plugin.core.lines.heading_votes import Track
from plugin.core.lines.links import link
from plugin.core.lines.orient import Basis, Rule, orient

SPACING = 4000.0
CORNER = np.array([2_000_000.0, 6_000_000.0])
BATCH = 400


def eastward(rng, length):
    """A line that runs about eastward: waves, an arc or straight pieces."""
    x = np.sort(rng.uniform(0, length, int(rng.integers(2, 40))))
    x = np.unique(np.round(np.concatenate([[0.0], x, [length]]), 2))
    kind = rng.integers(3)
    if kind == 0:
        y = rng.normal(0, 0.02 * length) * np.sin(x / length * rng.uniform(1, 8))
    elif kind == 1:
        y = rng.uniform(-0.9, 0.9) / length * x * (length - x)
    else:
        y = np.cumsum(rng.normal(0, 0.1, len(x)) * np.diff(x, prepend=0.0))
    return np.column_stack([x, y])


def ring(rng):
    """A star-shaped ring, or an open bend of 200 degrees and more, run anticlockwise."""
    count = int(rng.integers(8, 60))
    sweep = 2 * np.pi if rng.random() < 0.5 else np.radians(rng.uniform(200, 330))
    angle = np.sort(rng.uniform(0, sweep, count))
    angle = np.concatenate([[0.0], angle[np.diff(angle, prepend=0.0) > 0.02], [sweep]])
    wobble = 0.5 if sweep > 6.28 else 0.03
    radius = 60.0 * (1.0 + wobble * np.sin(angle * 3 + rng.uniform(0, 6)) * rng.random())
    xy = radius[:, None] * np.column_stack([np.cos(angle), np.sin(angle)])
    if sweep > 6.28:
        xy[-1] = xy[0]
    return xy


def case(rng, rule):
    """Return the lines of a world, and the road by which they are turned, if any."""
    if rule in (Rule.CLOCKWISE, Rule.ANTICLOCKWISE):
        xy = ring(rng)
        return [xy if rule is Rule.ANTICLOCKWISE else xy[::-1]], None
    length = rng.uniform(40, 400)
    xy = eastward(rng, length)
    if rule is Rule.UP_STATION:
        road = eastward(rng, length * rng.uniform(0.9, 1.5))
        # Beside the line, wherever both wander.
        road[:, 1] += rng.choice([-1, 1]) * (np.ptp(xy[:, 1]) + np.ptp(road[:, 1])) * 0.5
        return [xy], road
    if rule in (Rule.DOWNHILL, Rule.UPHILL):
        z = -0.02 * xy[:, 0] + rng.normal(0, 0.0005, len(xy)).cumsum()
        z = z if rule is Rule.DOWNHILL else -z
        return [np.column_stack([xy, z])], None
    if rule is Rule.LONGEST:
        stops = {0, len(xy) - 1, *rng.integers(1, max(len(xy) - 1, 2), 3).tolist()}
        return [xy[a : b + 1] for a, b in pairwise(sorted(stops))], None
    return [xy], None


def world(rng, place):
    """Return a function that moves a world to its place."""
    angle, mirror = rng.uniform(0, 2 * np.pi), rng.choice([-1.0, 1.0])
    c, s = np.cos(angle), np.sin(angle)

    def move(xy):
        plan = xy[:, :2] * (1.0, mirror) @ np.array([[c, s], [-s, c]]) + place
        return np.column_stack([plan, xy[:, 2:]])

    return move, mirror, angle


def batch(rng, rule, counts):
    drawn, owner, truth, roads, bearings = [], [], [], [], []
    one_bearing = rng.uniform(0, 360)
    for n in range(BATCH):
        lines, road = case(rng, rule)
        place = CORNER + SPACING * np.array([n % 20, n // 20])
        move, mirror, angle = world(rng, place)
        east = (90.0 - np.degrees(angle)) % 360.0
        bearings.append(east)
        longest = int(np.argmax([np.hypot(*np.diff(xy[:, :2], axis=0).T).sum() for xy in lines]))
        backs = rng.random(len(lines)) < 0.5
        for xy, back in zip(lines, backs, strict=True):
            drawn.append(move(xy)[:: -1 if back else 1])
            owner.append(n)
            right = -1 if back else 1
            if rule is Rule.LONGEST:
                right = 1 if back == backs[longest] else -1
            if rule in (Rule.CLOCKWISE, Rule.ANTICLOCKWISE):
                right *= int(mirror)
            truth.append(right)
        if road is not None:
            roads.append(move(road))
    packed = Lines.from_arrays(drawn)
    truth = np.array(truth)
    links = link(packed, 0.001, owner) if rule is Rule.LONGEST else None
    track = Track(Lines.from_arrays(roads)) if roads else None
    found = orient(packed, rule, Basis(track, one_bearing), links)
    if rule is Rule.BEARING:
        # The truth is known only where the bearing lies well on one side of the world's east.
        facing = np.cos(np.radians(one_bearing - np.array(bearings)))
        truth = np.where(np.abs(facing) > 0.75, truth * np.sign(facing), 0).astype(int)
    known = truth != 0
    counts["cases"] += int(known.sum())
    counts["flagged"] += int((known & (found.turn == 0)).sum())
    counts["wrong"] += int((known & (found.turn != 0) & (found.turn != truth)).sum())


def main() -> int:
    most = int(sys.argv[1]) if len(sys.argv) > 1 else 200_000
    rng = np.random.default_rng(int(sys.argv[2]) if len(sys.argv) > 2 else 1)
    began, wrong = time.perf_counter(), 0
    for rule in Rule:
        counts = {"cases": 0, "flagged": 0, "wrong": 0}
        while counts["cases"] < most / len(Rule):
            batch(rng, rule, counts)
        wrong += counts["wrong"]
        share = 100.0 * counts["flagged"] / counts["cases"]
        print(
            f"{rule:14} {counts['cases']:8} cases  {counts['flagged']:6} flagged ({share:.2f} %)"
            f"  {counts['wrong']:4} wrong"
        )
    print(f"{time.perf_counter() - began:.0f} s, {wrong} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
