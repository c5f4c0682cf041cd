"""The Pellworth loop as it is dug: the stated truth at any place, without any surface model.

Every bottom lies its depth below the design and carries on past the edge of its zone by the
stated width; where two bottoms lie over one place the deeper counts. Around the rain garden a
side climbs at the stated ratio from its level rim until it meets the lawn's own bottom.
"""

import numpy as np
import shapely

from plugin.core.units import US_SURVEY_FOOT, parse_length, parse_ratio

from . import figures as f

NEAR = 1e-3
"""Nearer than this (ft) to a border a place may count to either side."""


def feet(text):
    return parse_length(text, US_SURVEY_FOOT)


class Dug:
    """The truth, and where it is sure.

    Parameters
    ----------
    site : Site
        The finished design.
    """

    def __init__(self, site):
        self.site = site
        zones = {}
        for zone in site.zones:
            shape = shapely.Polygon(zone.rings[0], zone.rings[1:])
            zones.setdefault(zone.section, []).append(shape)
        self.shapes = {section: shapely.union_all(parts) for section, parts in zones.items()}
        self.shapes["lane"] = self.shapes["lane"].difference(self.shapes["crossing"])
        self.depths = {section: feet(text) for section, text in f.SECTIONS.items()}
        corner = f.ground(f.RIM)
        way = np.roll(corner, -1, axis=0) - corner
        way /= np.linalg.norm(way, axis=1)[:, None]
        outward = np.stack([way[:, 1], -way[:, 0]], axis=1)
        middle = corner.mean(axis=0)
        if ((middle - corner[0]) * outward[0]).sum() > 0:
            outward = -outward
        self._rim = corner, outward

    def depth(self, xy):
        """Return the depth of the bottoms at places (k, 2), and where it is sure."""
        points = shapely.points(np.asarray(xy, float))
        depth, sure = np.full(len(points), np.nan), np.ones(len(points), bool)
        for section, shape in self.shapes.items():
            shapely.prepare([shape, border := shape.boundary])
            depth[shapely.contains(shape, points)] = self.depths[section]
            sure &= ~shapely.dwithin(border, points, NEAR)
        for section, text in f.WIDEN.items():
            width, shape = feet(text), self.shapes[section]
            apart = shapely.distance(shape, points)
            beside = (apart > 0) & (apart < width)
            depth = np.where(beside, np.fmax(depth, self.depths[section]), depth)
            # Outside corners are mitred: they reach further than the width.
            mitred = shapely.buffer(shape, width + NEAR, join_style="mitre")
            shapely.prepare(mitred)
            sure &= (np.abs(apart - width) > NEAR) & (
                (apart < width) | ~shapely.contains(mitred, points)
            )
        return depth, sure

    def side(self, xy):
        """Return the height of the garden's sides at places outside it, infinite inside."""
        corner, outward = self._rim
        apart = np.einsum("kij,ij->ki", np.asarray(xy, float)[:, None] - corner, outward).max(1)
        run = parse_ratio(f.BATTER["rain garden"])
        level = f.RIM_HEIGHT - self.depths["rain garden"]
        return np.where(apart > 0, level + apart / run, np.inf)

    def heights(self, xy):
        """Return heights as dug at places (k, 2), the depth of the bottoms, and where sure.

        NaN beyond the edge of the design.
        """
        depth, sure = self.depth(xy)
        return np.minimum(self.site.heights(xy) - depth, self.side(xy)), depth, sure
