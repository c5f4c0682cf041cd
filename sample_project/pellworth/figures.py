"""Pellworth drop-off loop: the invented sample site, from stated geometry.

One way in, along a crowned lane that turns left twice round an island, one way out. Everything
follows from the figures at the head of this module, so the true height, zone and break at any
place are known without any surface model. Offsets are right positive, looking along the
alignment; heights and lengths in US survey feet.

The lane runs up the east leg, along the school front with a bus bay on its right, and down the
west leg. From the crown outwards on both sides: lane, gutter, curb, planting strip; then on the
right (outside) a walk and the lawn, on the left (island) the lawn bank, the upper lawn and a rain
garden. The figures are the sample's own and no recommendation.
"""

import itertools
import math
from dataclasses import dataclass

import numpy as np

EPSG = 6588
"""NAD83(2011) / Texas South Central (ftUS): axis unit US survey foot (EPSG registry)."""

# --- where it lies ----------------------------------------------------------------------------
ORIGIN = (2_148_300.0, 13_712_450.0)
TURN = math.radians(17.0)
DECIMALS = 6
"""Coordinates are those of the files: rounded, so that every machine makes the same ones."""

# --- alignment (local frame: leg 2 on the v axis, street along the u axis) ----------------------
LEG, FRONT, RADIUS = 110.0, 170.0, 40.0
WIDTH = FRONT + 2 * RADIUS
ARC = RADIUS * math.pi / 2
LENGTH = 2 * LEG + 2 * ARC + FRONT
START_STATION = 1000.0
STEP, ARC_CELLS = 10.0, 30

# --- profile of the crown -----------------------------------------------------------------------
PROFILE = ((0.0, 512.40), (LENGTH / 2, 512.40 + 0.005 * LENGTH / 2), (LENGTH, 512.40))

# --- bus bay: widening on the right of the front, stations from the start of the line -----------
BAY_WIDTH = 9.0
_BAY = LEG + ARC + 10.0
BAY = ((_BAY, 0.0), (_BAY + 45.0, BAY_WIDTH), (_BAY + 105.0, BAY_WIDTH), (_BAY + 150.0, 0.0))

# --- cross section: half width of lane, then widths and grades outward (rise over run) ----------
LANE, LANE_GRADE = 9.0, -0.02
GUTTER, GUTTER_GRADE = 1.5, -0.06
FACE, FACE_RISE = 0.1, 0.45
TOP, TOP_GRADE = 0.5, 0.02
STRIP_LEFT, STRIP_RIGHT, STRIP_GRADE = 6.0, 5.0, 0.03
WALK, WALK_GRADE = 6.0, 0.015
BANK = 10.0
OUTER = 44.0
"""Outer edge of the design, from the centreline."""
LAWN_GRADES = ((0.0, 0.09), (190.0, 0.065), (330.0, 0.065), (LENGTH, 0.09))

CURB_BACK = LANE + GUTTER + FACE + TOP
STRIP_BREAK = CURB_BACK + STRIP_LEFT
BANK_TOP = STRIP_BREAK + BANK
WALK_FRONT, WALK_BACK = CURB_BACK + STRIP_RIGHT, CURB_BACK + STRIP_RIGHT + WALK

# --- rain garden: straight rim, 3:1 sides, level floor ------------------------------------------
RIM = ((168.0, 38.0), (168.0, 70.0), (148.0, 84.0), (102.0, 84.0), (84.0, 66.0), (90.0, 38.0))
RIM_HEIGHT, GARDEN_DEPTH, GARDEN_RATIO = 513.5, 1.8, 3.0
RIM_STEP = 4.0

# --- a crossing laid over the lane: two corners on each side ------------------------------------
CROSSING = ((62.0, -LANE), (70.0, LANE), (82.0, LANE), (74.0, -LANE))
"""Station from the start and offset of its corners: askew, so that it cuts the surface."""

SECTIONS = {
    "lane": "1.10 ft",
    "bus bay": "1'-4 1/2\"",
    "curb": "1.15 ft",
    "walk": "8 1/2 in",
    "planting strip": "0.60 ft",
    "lawn": "0.35 ft",
    "rain garden": "1.60 ft",
    "crossing": "15 in",
}
"""Depth of each section below the finished design, as its plan would write it."""

WIDEN = {"lane": "0.50 ft", "curb": "0.75 ft", "walk": "0.40 ft"}
RULES = {"walk": "ada_walk_running, ada_walk_cross"}
"""How far the lowest course of a section reaches beyond its zone."""

BATTER = {"rain garden": "1.5:1"}
"""Sides of the excavation, run to rise; upright elsewhere."""


def along(table, station):
    """Interpolate a table of (station, value) pairs."""
    stations, values = np.array(table).T
    return np.interp(station, stations, values)


def crown(station):
    """Return the height of the crown."""
    return along(PROFILE, station)


def bay(station):
    """Return the width of the bus bay."""
    return along(BAY, station)


def local(station, offset):
    """Return plan positions in the local frame; on arcs exactly on the concentric arc."""
    s, o = np.broadcast_arrays(np.asarray(station, float), np.asarray(offset, float))
    first, second, third = LEG, LEG + ARC, LEG + ARC + FRONT
    fourth = third + ARC
    one, two = (s - first) / RADIUS, (s - third) / RADIUS + math.pi / 2
    pieces = [s <= first, s <= second, s <= third, s <= fourth, s > fourth]
    u = np.select(
        pieces,
        [
            WIDTH + o,
            WIDTH - RADIUS + (RADIUS + o) * np.cos(one),
            WIDTH - RADIUS - (s - second),
            RADIUS + (RADIUS + o) * np.cos(two),
            -o,
        ],
    )
    v = np.select(
        pieces,
        [
            s,
            LEG + (RADIUS + o) * np.sin(one),
            LEG + RADIUS + o,
            LEG + (RADIUS + o) * np.sin(two),
            LEG - (s - fourth),
        ],
    )
    return np.stack([u, v], axis=-1)


def ground(uv):
    """Return map coordinates (easting, northing) of local ones."""
    u, v = np.moveaxis(np.asarray(uv, float), -1, 0)
    east = ORIGIN[0] + u * math.cos(TURN) - v * math.sin(TURN)
    north = ORIGIN[1] + u * math.sin(TURN) + v * math.cos(TURN)
    return np.round(np.stack([east, north], axis=-1), DECIMALS)


def place(station, offset):
    """Return map coordinates of a station and offset."""
    return ground(local(station, offset))


def stations():
    """Return the stations of all cross sections, from the start of the line."""
    marks = [0.0, LEG, LEG + ARC, *(s for s, _ in BAY), LEG + ARC + FRONT]
    marks += [LEG + 2 * ARC + FRONT, LENGTH]
    marks.append(LENGTH / 2)
    marks = sorted(set(marks))
    cuts = []
    for a, b in itertools.pairwise(marks):
        on_arc = LEG <= a < LEG + ARC or LEG + ARC + FRONT <= a < LENGTH - LEG
        cells = ARC_CELLS if on_arc else math.ceil((b - a) / STEP - 1e-9)
        cuts.append(np.linspace(a, b, cells, endpoint=False))
    return np.append(np.concatenate(cuts), LENGTH)


@dataclass(frozen=True)
class Rail:
    """A line along the lane: offset and height above the crown at every station."""

    name: str
    offset: np.ndarray
    rise: np.ndarray


def section(s):
    """Return the rails of the left and of the right side, from the crown outwards.

    The heights are the closed form of the cross section: each rail is its inner neighbour's
    height plus grade times width.
    """
    zero = np.zeros_like(s)
    lawn = along(LAWN_GRADES, s)
    left, right = [Rail("crown", zero, zero)], [Rail("crown", zero, zero)]

    def add(side, name, width, grade):
        last = side[-1]
        side.append(Rail(name, last.offset + width, last.rise + grade * width))

    for side, strip in ((left, STRIP_LEFT), (right, STRIP_RIGHT)):
        if side is right:
            add(side, "lane edge", LANE + zero, LANE_GRADE)
            add(side, "gutter lip", bay(s), LANE_GRADE)
        else:
            add(side, "gutter lip", LANE + zero, LANE_GRADE)
        add(side, "flow line", GUTTER + zero, GUTTER_GRADE)
        add(side, "curb front", FACE + zero, FACE_RISE / FACE)
        add(side, "back of curb", TOP + zero, TOP_GRADE)
        add(side, "walk front" if side is right else "strip break", strip + zero, STRIP_GRADE)
    add(left, "bank top", BANK + zero, lawn)
    add(right, "walk back", WALK + zero, WALK_GRADE)
    add(right, "outer edge", OUTER - right[-1].offset, lawn)
    return [Rail(r.name, -r.offset, r.rise) for r in left], right


STRIPS = {
    "left": ("lane", "curb", "curb", "curb", "planting strip", "lawn"),
    "right": ("lane", "bus bay", "curb", "curb", "curb", "planting strip", "walk", "lawn"),
}
"""Section between each rail and the next, from the crown outwards."""


def inset(corners, distance):
    """Return a convex counter-clockwise polygon moved inwards by a distance (mitred)."""
    p = np.asarray(corners, float)
    way = np.roll(p, -1, axis=0) - p
    way /= np.linalg.norm(way, axis=1)[:, None]
    inward = np.stack([-way[:, 1], way[:, 0]], axis=1)
    before = np.roll(inward, 1, axis=0)
    share = 1 + (before * inward).sum(axis=1)
    return p + distance * (before + inward) / share[:, None]


def divide(corners, step):
    """Return a closed ring with extra points on its straight sides, and which are corners."""
    p = np.asarray(corners, float)
    points, is_corner = [], []
    for a, b, c in zip(p, np.roll(p, -1, axis=0), step, strict=True):
        points.append(a + (b - a) * np.linspace(0, 1, c, endpoint=False)[:, None])
        is_corner += [True] + [False] * (c - 1)
    return np.concatenate(points), np.array(is_corner)
