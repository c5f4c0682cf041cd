"""The long run on sides: lines whose right answer is known because they were made that way.

Run: python -m tests.benchmarks.long_sides [cases, default 1000000] [seed]

Every case is a line that runs about eastward in its own small world (or an island, run round
anticlockwise), with what its rule looks at (a reference, an area, a slope, a wind) placed on its
left or on its right. The world is then
turned by any angle, mirrored or not, the line drawn back or not, and all of it moved to
coordinates of state-plane size. Mirroring and drawing back each swap right and left, and that is
the truth. What was laid is judged by winding: the area between the stretch of the source and its
guideline is run round clockwise when the guideline lies on the right. Neither uses the code under
test. Printed are the cases by rule, how many were flagged, and how many lie on the wrong side.
"""

import sys
import time
from dataclasses import dataclass, field

import numpy as np
import shapely

from plugin.core.lines.bundle import Lines
from plugin.core.lines.guide import lay
from plugin.core.lines.reference import Reference
from plugin.core.lines.requests import Requests
from plugin.core.lines.sides import Basis, Rule

SPACING = 4000.0
CORNER = np.array([2_000_000.0, 6_000_000.0])
RULES = (
    Rule.RIGHT,
    Rule.LEFT,
    Rule.TOWARD,
    Rule.AWAY,
    Rule.INSIDE,
    Rule.OUTSIDE,
    Rule.UPHILL,
    Rule.DOWNHILL,
    Rule.STEEPER,
    Rule.FLATTER,
    Rule.COMPASS,
)
TO_THE_LEFT = frozenset(RULES) - {
    Rule.RIGHT, Rule.AWAY, Rule.OUTSIDE, Rule.DOWNHILL, Rule.FLATTER
}  # fmt: skip


@dataclass
class Count:
    """What came of the cases of one rule."""

    cases: int = 0
    flagged: int = 0
    wrong: int = 0
    pieces: int = 0
    codes: dict[str, int] = field(default_factory=dict)


def centre_line(rng):
    """An eastward line: straight pieces, waves or an arc, with vertices at uneven steps."""
    count = int(rng.integers(2, 40))
    x = np.sort(rng.uniform(0, 120, count))
    x[[0, -1]] = 0, 120
    x = x[np.append(True, np.diff(x) > 0.5)]
    kind = rng.integers(4)
    if kind == 0:
        y = rng.uniform(-0.3, 0.3) * x
    elif kind == 1:
        steep = rng.uniform(0.05, 0.5)
        y = np.cumsum(np.append(0, rng.normal(0, steep, len(x) - 1) * np.diff(x)))
    elif kind == 2:
        length, phase = rng.uniform(40, 200), rng.uniform(0, 6)
        y = 0.06 * length * np.sin(2 * np.pi * x / length + phase)
    else:
        radius = rng.uniform(120, 600)
        y = rng.choice([-1, 1]) * (np.sqrt(radius**2 - (x - 60) ** 2) - radius)
    y = y + rng.normal(0, 0.002, len(x))  # as surveyed
    return np.column_stack([x, y])


class World:
    """One line with its turn, mirror, sense of drawing and place."""

    ring = False

    def __init__(self, rng, cell):
        self.line = self.source(rng)
        self.left = 1 if rng.random() < 0.5 else -1  # +1: what rules look at lies on the left
        self.mirror, self.back = rng.random(2) < 0.5
        self.angle = rng.uniform(0, 2 * np.pi)
        self.slope = rng.uniform(0.02, 0.6), rng.uniform(-0.3, 0.3)
        self.gap = rng.uniform(1.5, 30)
        self.origin = CORNER + SPACING * np.array(cell)

    def source(self, rng):
        return centre_line(rng)

    def out(self, xy):
        """Return world coordinates of points of the small world."""
        xy = np.array(xy, float)
        if self.mirror:
            xy[:, 1] *= -1
        c, s = np.cos(self.angle), np.sin(self.angle)
        return xy @ np.array([[c, s], [-s, c]]) + self.origin

    def home(self, xy):
        c, s = np.cos(self.angle), np.sin(self.angle)
        xy = (xy - self.origin) @ np.array([[c, -s], [s, c]])
        if self.mirror:
            xy[:, 1] *= -1
        return xy

    @property
    def drawn(self):
        return self.out(self.line)[:: -1 if self.back else 1]

    def truth(self, rule):
        """Return +1 when the guideline belongs on the right of the line as drawn."""
        if rule in (Rule.RIGHT, Rule.LEFT):
            return 1 if rule is Rule.RIGHT else -1
        there = self.left if rule in TO_THE_LEFT else -self.left
        swapped = (-1 if self.mirror else 1) * (-1 if self.back else 1)
        return -there * swapped

    def beside(self, gap):
        """Return the line moved up or down in its small world."""
        return np.add(self.line, (0.0, self.left * gap))

    def reference(self, kind):
        if kind == 0:
            return shapely.LineString(self.out(self.beside(self.gap)))
        x, y = self.line.mean(0)
        above = np.abs(self.line[:, 1] - y).max() + 60 + self.gap
        return shapely.Point(self.out([(x, y + self.left * above)])[0])

    def area(self):
        far = self.beside(40.0)[::-1]
        return shapely.Polygon(self.out(np.vstack([self.line, far])))

    def up(self, own):
        """Return how far points are on the left of the line."""
        return own[:, 1] - np.interp(own[:, 0], *self.line.T)

    def ground(self, xy, steeper):
        """Heights: up to the side looked at, or steeper there, and any fall along the line."""
        own = self.home(xy)
        up = self.up(own) * self.left
        across, ahead = self.slope
        if steeper:
            return 100 - np.where(up > 0, across + 0.05, across / 3) * np.abs(up)
        return 100 + across * up + (0 if self.ring else 0.1 * ahead * own[:, 0])


class Island(World):
    """A closed line, drawn anticlockwise in its small world: its left is its inside."""

    ring = True

    def source(self, rng):
        count = int(rng.integers(5, 40))
        t = np.sort(rng.uniform(0, 2 * np.pi, count))
        t = t[np.append(True, np.diff(t) > 0.1)]
        self.wave = rng.uniform(20, 60), rng.uniform(0, 0.15), int(rng.integers(1, 4))
        xy = self.radius(t)[:, None] * np.column_stack([np.cos(t), np.sin(t)])
        full = max(np.diff(t).max(initial=0), t[0] + 2 * np.pi - t[-1]) < 1.6
        return np.vstack([xy, xy[:1]]) if full else self.source(rng)

    def radius(self, t):
        size, depth, lobes = self.wave
        return size * (1 + depth * np.sin(lobes * t))

    def reference(self, kind):
        if kind and self.left > 0:
            return shapely.Point(self.out([(0, 0)])[0])
        return shapely.LineString(self.out(self.line * (0.7 if self.left > 0 else 1.5)))

    def area(self):
        if self.left > 0:
            return shapely.Polygon(self.out(self.line))
        return shapely.Polygon(self.out(self.line * 2), [self.out(self.line)])

    def up(self, own):
        """Return the fall of a tent whose contour lines are the ring made smaller and larger."""
        a, b = self.line[:-1], self.line[1:]
        best = np.full(len(own), np.inf)
        for p, q in zip(a, b, strict=True):
            normal = np.array([q[1] - p[1], p[0] - q[0]])
            reach = own @ normal / (p @ normal)  # 1 on the line through this side
            within = (p[0] * own[:, 1] - p[1] * own[:, 0] >= 0) & (
                q[0] * own[:, 1] - q[1] * own[:, 0] <= 0
            )
            best = np.where(within & (reach > 0), reach, best)
        return 30 * (1 - np.where(np.isfinite(best), best, 1.0))


def sampler(worlds, steeper):
    columns = int(np.ceil(np.sqrt(len(worlds))))

    def sample(xy):
        cell = np.rint((xy - CORNER) / SPACING).astype(int)
        number = cell[:, 1] * columns + cell[:, 0]
        z = np.empty(len(xy))
        order = np.argsort(number, kind="stable")
        ids, start = np.unique(number[order], return_index=True)
        for n, rows in zip(ids, np.split(order, start[1:]), strict=True):
            z[rows] = worlds[n].ground(xy[rows], steeper)
        return z

    return sample


def winding(source, piece, start, stop):
    """Return +1 when the band between a stretch of the source and a piece is run clockwise."""
    step = np.hypot(*np.diff(source, axis=0).T)
    station = np.append(0, np.cumsum(step))
    at = np.unique(np.concatenate([[start], station[(station > start) & (station < stop)], [stop]]))
    near = np.column_stack([np.interp(at, station, source[:, k]) for k in (0, 1)])
    band = np.vstack([near, piece[::-1]]) - source[0]
    x, y = band.T
    return -int(np.sign((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()))


def batch(rng, size, counts, rules=RULES):
    """Lay and judge ``size`` worlds by every rule; return the number of cases so far."""
    columns = int(np.ceil(np.sqrt(size)))
    kinds = [Island if rng.random() < 0.2 else World for _ in range(size)]
    worlds = [kind(rng, (n % columns, n // columns)) for n, kind in enumerate(kinds)]
    lines = Lines.from_arrays([w.drawn for w in worlds])
    distance = rng.choice([0.25, 0.75, 1.0, 1.5, 2.0], size)
    kinds = rng.integers(0, 2, size)
    basis = {
        Rule.TOWARD: Basis(Reference([w.reference(k) for w, k in zip(worlds, kinds, strict=True)])),
        Rule.INSIDE: Basis(Reference([w.area() for w in worlds])),
        Rule.UPHILL: Basis(sample=sampler(worlds, steeper=False)),
        Rule.STEEPER: Basis(sample=sampler(worlds, steeper=True)),
    }
    basis |= {
        Rule.AWAY: basis[Rule.TOWARD],
        Rule.OUTSIDE: basis[Rule.INSIDE],
        Rule.DOWNHILL: basis[Rule.UPHILL],
        Rule.FLATTER: basis[Rule.STEEPER],
    }
    for rule in rules:
        if rule is Rule.COMPASS:
            by_wind(worlds, lines, distance, counts[rule])
            continue
        truth = np.array([w.truth(rule) for w in worlds])
        asked = Requests(lines, np.arange(size), distance, [rule] * size)
        count(worlds, lay(asked, basis.get(rule, Basis())), truth, counts[rule])
    return sum(own.cases for own in counts.values())


def by_wind(worlds, lines, distance, tally):
    """Ask each line for the wind that its looked-at side faces most nearly."""
    faced = np.array([w.out([(0, 0), (0, w.left)]) for w in worlds])
    ahead = faced[:, 1] - faced[:, 0]
    rings = np.array([w.ring for w in worlds])
    wind = np.rint(np.degrees(np.arctan2(*ahead.T)) / 45).astype(int) % 8
    for number in range(8):
        some = np.flatnonzero((wind == number) & ~rings)
        if not len(some):
            continue
        asked = Requests(lines, some, distance[some], [Rule.COMPASS] * len(some))
        truth = np.array([worlds[k].truth(Rule.COMPASS) for k in some])
        count([worlds[k] for k in some], lay(asked, Basis(bearing=45.0 * number)), truth, tally)


def count(worlds, found, truth, tally):
    pieces = found.pieces
    tally.cases += len(worlds)
    for code in found.verdicts.code:
        tally.flagged += bool(code)
        if code:
            tally.codes[code] = tally.codes.get(code, 0) + 1
    tally.flagged += sum(item.code == "unproved" for item in found.flagged)
    for n, request in enumerate(pieces.source.tolist()):
        rows = pieces.lines.line(n)
        station = pieces.station[rows]
        judged = winding(worlds[request].drawn, pieces.lines.xy[rows], station[0], station[-1])
        tally.pieces += 1
        tally.wrong += judged != truth[request] or np.sign(pieces.offsets[n]) != truth[request]


def main():
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    counts = {rule: Count() for rule in RULES}
    done, number, begin = 0, 0, time.time()
    while done < wanted:
        done = batch(np.random.default_rng([seed, number]), 1000, counts)
        number += 1
        if number % 10 == 0:
            print(f"{done} cases, {time.time() - begin:.0f} s", flush=True)
    total = Count()
    for rule, own in counts.items():
        share = 100 * own.flagged / own.cases
        print(
            f"{rule:9s} {own.cases:8d} cases {own.pieces:8d} guidelines {own.wrong:3d} wrong {share:6.3f} % flagged {own.codes}"
        )  # noqa: E501
        total.cases += own.cases
        total.wrong += own.wrong
        total.flagged += own.flagged
    share = 100 * total.flagged / total.cases
    print(f"{total.cases} cases: {total.wrong} on the wrong side, {share:.3f} % flagged")
    return 1 if total.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
