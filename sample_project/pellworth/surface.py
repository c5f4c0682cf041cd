"""The finished surface of the Pellworth loop, its zones and lines, from the stated figures."""

import math
from dataclasses import dataclass

import numpy as np

from . import figures as f

KINDS = {
    "crown": "ridge",
    "gutter lip": "top",
    "flow line": "valley",
    "curb front": "top",
    "strip break": "toe",
    "walk back": "toe",
    "bank top": "ridge",
    "garden rim": "top",
    "garden floor": "toe",
    "garden corner": "valley",
}
"""Kind of break at each line where the grade changes by more than `LEAST_CHANGE`; the other
lines of the section (lane edge beside the bay, back of curb, walk front) change it by less."""

LEAST_CHANGE = 3.0
"""Percent. Every stated break is above it, everything else (twists of strips on arcs, grade
breaks of the profile, the tapers of the bay) below, but for the face of the curb where the lane
turns: there the 450 % of the face itself turn, along an edge 0.1 ft long."""


@dataclass(frozen=True)
class Line:
    """A line of the design: 3D vertices along face edges; ``side`` is left, right or ""."""

    name: str
    side: str
    points: np.ndarray
    closed: bool = False


@dataclass(frozen=True)
class Zone:
    """A zone: its section of the schedule and its rings (the first one is the shell)."""

    name: str
    section: str
    priority: int
    rings: tuple

    @property
    def depth(self):
        """Return the depth as the plan writes it."""
        return f.SECTIONS[self.section]

    @property
    def widen(self):
        """Return how far the bottom carries on past the zone, as the plan writes it."""
        return f.WIDEN.get(self.section, "0")

    @property
    def batter(self):
        """Return the run to rise of the sides, as the plan writes it."""
        return f.BATTER.get(self.section, "0")

    @property
    def rule(self):
        """Return the rules that its grades have to keep, as the check of grades names them."""
        return f.RULES.get(self.section)


@dataclass(frozen=True)
class Site:
    """The design and its truths.

    ``vertices (n, 3)`` and counter-clockwise ``faces (m, 3)`` are the surface, ``sections (m,)``
    names the section of each face without regard to the crossing laid over them.
    """

    vertices: np.ndarray
    faces: np.ndarray
    sections: np.ndarray
    lines: tuple
    zones: tuple
    outline: np.ndarray

    def heights(self, xy):
        """Return the true heights at map positions (k, 2); NaN outside the design."""
        return self.locate(xy)[0]

    def sections_at(self, xy):
        """Return the section at map positions, the crossing included; "" outside."""
        face = self.locate(xy)[1]
        names = np.where(face >= 0, self.sections[face], "")
        crossing = next(zone for zone in self.zones if zone.section == "crossing").rings[0]
        way = np.roll(crossing, -1, axis=0) - crossing
        to = np.asarray(xy, float)[:, None] - crossing
        within = (way[:, 0] * to[..., 1] - way[:, 1] * to[..., 0] > 0).all(axis=1)
        return np.where(within, "crossing", names)

    def locate(self, xy, block=2000):
        """Try every face at every position: slow, and too simple to be wrong.

        Returns heights (NaN outside) and face numbers (-1 outside).
        """
        xy = np.asarray(xy, float)
        corner = self.vertices[self.faces]
        origin = corner[:, 0, :2]
        a, b = corner[:, 1, :2] - origin, corner[:, 2, :2] - origin
        det = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
        z, face = np.full(len(xy), np.nan), np.full(len(xy), -1)
        for start in range(0, len(xy), block):
            p = xy[start : start + block, None, :] - origin
            s = (p[..., 0] * b[:, 1] - p[..., 1] * b[:, 0]) / det
            t = (a[:, 0] * p[..., 1] - a[:, 1] * p[..., 0]) / det
            within = np.minimum(np.minimum(s, t), 1 - s - t)
            best = within.argmax(axis=1)
            row = np.arange(len(best))
            s, t, c = s[row, best], t[row, best], corner[best, :, 2]
            height = c[:, 0] + s * (c[:, 1] - c[:, 0]) + t * (c[:, 2] - c[:, 0])
            hit = within[row, best] >= -1e-9
            z[start : start + block] = np.where(hit, height, np.nan)
            face[start : start + block] = np.where(hit, best, -1)
        return z, face


class _Builder:
    """Collects vertices, one for each place, and faces."""

    def __init__(self):
        self.index, self.faces, self.sections = {}, [], []

    def vertex(self, uv, z):
        east, north = f.ground(uv)
        key = (float(east), float(north), round(float(z), f.DECIMALS))
        return self.index.setdefault(key, len(self.index))

    def row(self, uv, z):
        return [self.vertex(p, h) for p, h in zip(uv, np.broadcast_to(z, len(uv)), strict=True)]

    def face(self, section, *corners):
        if len(set(corners)) == 3:
            self.faces.append(corners)
            self.sections.append(section)

    def strip(self, section, inner, outer):
        """Fill between two rows of as many vertices, two faces for each pair of steps."""
        for a, b, c, d in zip(inner, inner[1:], outer, outer[1:], strict=False):
            self.face(section, a, b, d)
            self.face(section, a, d, c)

    def points(self, row):
        return np.array(list(self.index))[row]


def _between_rings(builder, section, outer, outer_uv, inner, inner_uv, centre):
    """Fill between two rings that both see the centre, going round by angle."""

    def turned(uv):
        angle = np.arctan2(*(np.asarray(uv) - centre).T[::-1]) % (2 * math.pi)
        order = np.argsort(angle, kind="stable")
        return order, angle[order]

    (a_order, a_angle), (b_order, b_angle) = turned(outer_uv), turned(inner_uv)
    a, b = [outer[k] for k in a_order], [inner[k] for k in b_order]
    a_angle = np.append(a_angle, a_angle[0] + 2 * math.pi)
    b_angle = np.append(b_angle, b_angle[0] + 2 * math.pi)
    i = j = 0
    while i < len(a) or j < len(b):
        if j == len(b) or (i < len(a) and a_angle[i + 1] <= b_angle[j + 1]):
            builder.face(section, a[i % len(a)], a[(i + 1) % len(a)], b[j % len(b)])
            i += 1
        else:
            builder.face(section, a[i % len(a)], b[(j + 1) % len(b)], b[j % len(b)])
            j += 1


def _garden(builder):
    """Add the rain garden; return its rim (row, positions) and its lines."""
    corners = np.array(f.RIM)
    sides = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
    cells = [math.ceil(side / f.RIM_STEP) for side in sides]
    rim_uv, is_corner = f.divide(corners, cells)
    floor_uv, _ = f.divide(f.inset(corners, f.GARDEN_DEPTH * f.GARDEN_RATIO), cells)
    rim = builder.row(rim_uv, f.RIM_HEIGHT)
    floor = builder.row(floor_uv, f.RIM_HEIGHT - f.GARDEN_DEPTH)
    builder.strip("rain garden", [*rim, rim[0]], [*floor, floor[0]])
    middle = builder.vertex(floor_uv.mean(axis=0), f.RIM_HEIGHT - f.GARDEN_DEPTH)
    for a, b in zip(floor, [*floor[1:], floor[0]], strict=True):
        builder.face("rain garden", a, b, middle)
    rows = [("garden rim", rim, True), ("garden floor", floor, True)]
    creases = [[a, b] for a, b, c in zip(rim, floor, is_corner, strict=True) if c]
    return rim, rim_uv, rows + [("garden corner", crease, False) for crease in creases]


def build():
    """Return the site."""
    s = f.stations()
    builder = _Builder()
    rails = dict(zip(("left", "right"), f.section(s), strict=True))
    rows = {
        side: [builder.row(f.local(s, rail.offset), f.crown(s) + rail.rise) for rail in group]
        for side, group in rails.items()
    }
    for side, group in rows.items():
        for section, inner, outer in zip(f.STRIPS[side], group, group[1:], strict=False):
            builder.strip(section, inner, outer)

    rim, rim_uv, garden_rows = _garden(builder)
    top, left = rows["left"][-1], rails["left"][-1]
    top_uv = f.local(s, left.offset)
    ends = np.array([builder.points([top[-1]])[0, 2], builder.points([top[0]])[0, 2]])
    share = np.linspace(0, 1, math.ceil((top_uv[0, 0] - top_uv[-1, 0]) / f.STEP) + 1)[1:-1]
    street_uv = top_uv[-1] + share[:, None] * (top_uv[0] - top_uv[-1])
    street = builder.row(street_uv, ends[0] + share * (ends[1] - ends[0]))
    ring, ring_uv = [*top, *street], np.concatenate([top_uv, street_uv])
    _between_rings(builder, "lawn", ring, ring_uv, rim, rim_uv, np.mean(f.RIM, axis=0))

    vertices, faces = np.array(list(builder.index)), np.array(builder.faces)
    a, b, c = (vertices[faces[:, k], :2] for k in range(3))
    area = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    faces[area < 0] = faces[area < 0][:, ::-1]

    lines = [
        Line(rail.name, side, vertices[row])
        for side in rails
        for rail, row in zip(rails[side], rows[side], strict=True)
        if not (side == "right" and rail.name == "crown")
    ]
    lines += [Line(name, "", vertices[row], closed) for name, row, closed in garden_rows]
    return Site(
        vertices,
        faces,
        np.array(builder.sections, object),
        tuple(lines),
        _zones(vertices, rows, rails, street, rim),
        _outline(vertices, rows, street),
    )


def _outline(vertices, rows, street):
    """Return the border of the design, counter-clockwise, not closed."""
    west = [row[-1] for row in [*rows["right"][::-1], *rows["left"][1:]]]
    east = [row[0] for row in [*rows["left"][:0:-1], *rows["right"]]]
    ring = [*rows["right"][-1], *west[1:], *street, *east[:-1]]
    ring = [a for a, b in zip(ring, [ring[-1], *ring], strict=False) if a != b]
    return vertices[ring]


def _zones(vertices, rows, rails, street, rim):
    """Return the zones; their borders follow the lines of the design."""

    def rail(side, name):
        names = [each.name for each in rails[side]]
        return rows[side][names.index(name)]

    def band(inner, outer):
        ring = [*inner, *outer[::-1]]
        ring = [a for a, b in zip(ring, [ring[-1], *ring], strict=False) if a != b]
        return vertices[ring, :2]

    s = f.stations()
    start, stop = (int(np.flatnonzero(s == f.BAY[k][0])[0]) for k in (0, -1))
    edge, lip = rail("right", "lane edge"), rail("right", "gutter lip")
    inside = [*rail("left", "strip break"), *rail("left", "bank top")[-1:], *street]
    inside += rail("left", "bank top")[:1]
    crossing = np.array([f.place(station, offset) for station, offset in f.CROSSING])
    if np.linalg.det(crossing[1:3] - crossing[0]) < 0:
        crossing = crossing[::-1]
    rings = [
        ("Crossing", "crossing", 1, crossing),
        ("Lane", "lane", 2, band(rail("left", "gutter lip"), edge)),
        ("Bus bay", "bus bay", 2, band(edge[start : stop + 1], lip[start : stop + 1])),
    ]
    for side, word in (("left", "island side"), ("right", "school side")):
        back = rail(side, "back of curb")
        strip = rail(side, "strip break" if side == "left" else "walk front")
        rings.append((f"Curb, {word}", "curb", 2, band(rail(side, "gutter lip"), back)))
        rings.append((f"Planting strip, {word}", "planting strip", 2, band(back, strip)))
    walk_back = rail("right", "walk back")
    rings += [
        ("Walk", "walk", 2, band(rail("right", "walk front"), walk_back)),
        ("Lawn, school side", "lawn", 2, band(walk_back, rail("right", "outer edge"))),
        ("Rain garden", "rain garden", 2, vertices[rim, :2]),
    ]
    zones = [Zone(name, section, priority, (ring,)) for name, section, priority, ring in rings]
    island = (vertices[inside, :2], vertices[rim, :2])
    zones.append(Zone("Lawn, island", "lawn", 2, island))
    return tuple(zones[1:] + zones[:1])  # drawn in this order: the crossing lies on the lane
