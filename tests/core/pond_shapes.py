"""Surfaces with ponds whose level, area and volume are known in closed form."""

import heapq
from itertools import pairwise

import numpy as np
from scipy.spatial import Delaunay

from plugin.core.tin import Tin

STEP = 0.25
"""Fall of a channel's sides, rise over run."""


def cone_pit(sides=12, radius=10.0, depth=3.0):
    """Return a pyramid pit of n sides, rim at height 0, in ground that falls away from it."""
    angle = 2 * np.pi * np.arange(sides) / sides
    ring = np.column_stack((np.cos(angle), np.sin(angle)))
    vertices = np.concatenate([
        [[0.0, 0.0, -depth]],
        np.column_stack((radius * ring, np.zeros(sides))),
        np.column_stack((2 * radius * ring, np.full(sides, -5.0))),
    ])  # fmt: skip
    one = 1 + np.arange(sides)
    two = 1 + (np.arange(sides) + 1) % sides
    faces = np.concatenate([
        np.column_stack((np.zeros(sides, int), one, two)),
        np.column_stack((one, one + sides, two + sides)),
        np.column_stack((one, two + sides, two)),
    ])  # fmt: skip
    return Tin.from_arrays(vertices, faces)


def channel(bottom, width=400.0):
    """Return a V-shaped channel along x, its bottom at these heights every 10, sides of 1:4."""
    bottom = np.asarray(bottom, float)
    x = 10.0 * np.arange(len(bottom))
    y = np.array([-width, 0.0, width])
    plan = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    z = np.repeat(bottom, 3) + STEP * np.abs(plan[:, 1])
    cell = (np.arange(len(x) - 1)[:, None] * 3 + np.arange(2)).ravel()
    faces = np.concatenate([
        np.column_stack((cell, cell + 3, cell + 4)),
        np.column_stack((cell, cell + 4, cell + 1)),
    ])  # fmt: skip
    return Tin.from_arrays(np.column_stack((plan, z)), faces)


def channel_levels(bottom):
    """Return the water level along a channel: the lower of the highest bottoms on either hand."""
    up = np.maximum.accumulate(bottom)
    down = np.maximum.accumulate(bottom[::-1])[::-1]
    return np.minimum(up, down)


def channel_water(bottom, level):
    """Return area and volume of water at one level over a channel.

    Where it is d deep it is 2 d / step wide, and d^2 / step is its section; d is linear in x.
    """
    area = volume = 0.0
    for before, after in pairwise(level - bottom):
        one, two, run = before, after, 10.0
        if one <= 0 and two <= 0:
            continue
        if one < 0 or two < 0:
            deep = max(one, two)
            run *= deep / abs(one - two)
            one, two = deep, 0.0
        area += run * (one + two) / STEP
        volume += run * (one * one + one * two + two * two) / 3 / STEP
    return area, volume


def flooded(tin):
    """Return the filled level of each vertex by one queue over all of them.

    Method: priority flood (Barnes, Lehman and Mulla 2014, from memory), on the edges of a TIN.
    """
    z = tin.vertices[:, 2]
    beside = [[] for _ in z]
    for a, b in tin.edges.ends.tolist():
        beside[a].append(b)
        beside[b].append(a)
    level = np.full(len(z), np.inf)
    border = np.unique(tin.edges.ends[tin.edges.boundary])
    level[border] = z[border]
    queue = [(level[v], v) for v in border.tolist()]
    heapq.heapify(queue)
    while queue:
        height, v = heapq.heappop(queue)
        if height > level[v]:
            continue
        for w in beside[v]:
            rise = max(height, z[w])
            if rise < level[w]:
                level[w] = rise
                heapq.heappush(queue, (rise, w))
    used = np.zeros(len(z), bool)
    used[tin.faces] = True
    return np.where(used, level, z)


def bowls(seed, count=400, size=100.0):
    """Return random smooth ground with several hollows, on random triangles."""
    rng = np.random.default_rng(seed)
    plan = rng.uniform(0, size, (count, 2))
    edge = np.linspace(0, size, 12)
    rim = np.concatenate([np.column_stack((edge, np.full(12, side))) for side in (0, size)])
    plan = np.unique(np.concatenate([plan, rim, rim[:, ::-1]]), axis=0)
    z = 0.02 * plan[:, 0]
    for place in np.stack(np.meshgrid((25, 50, 75), (25, 50, 75)), axis=-1).reshape(-1, 2):
        middle, wide, deep = place + rng.uniform(-5, 5, 2), rng.uniform(5, 10), rng.uniform(0.5, 3)
        z -= deep * np.exp(-((plan - middle) ** 2).sum(axis=1) / wide**2)
    return Tin.from_arrays(np.column_stack((plan, z)), Delaunay(plan).simplices)
