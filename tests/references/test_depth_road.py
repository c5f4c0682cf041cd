"""Depth surfaces below a real road's finished grade beside the subgrade its designers made.

Files: buildingSMART Finland, InfraModel sample data, CC BY 4.0; they are not part of the project.
Shares are exact plan areas from overlays of both surfaces. What the two show of the designers'
rule: below the lanes lies a plane 0.79 m under the crown up to station 634 and 0.71 m from 635 on,
at a cross slope of 2.9 and 3.0 % (the lanes: 3.0 %). It is carried on past the edge of the gravel,
under the side of the fill, to the edge of the soil cutting, and runs from there to the bottom of
the ditch; the ditch and what lies beyond are the finished grade itself.

``python -m tests.references.test_depth_road picture.png`` draws where the two agree.
"""

import sys
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely
from shapely.ops import substring

from plugin.core.depth.manner import Beyond
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Outside, Zones
from plugin.core.exchange.landxml import read_landxml
from plugin.core.tin import Tin
from plugin.core.tin.overlay import cells, integrate

from ..core.tin_shapes import REAL

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")

NEAR = 0.01
CHANGE = 634.5  # station along the centre line at which the section changes
DEPTHS = np.array([0.785, 0.71])
CENTRE, GRAVEL, PAVEMENT = "42", ("44", "46"), ("45", "43")  # left and right edges
TO_CUTTING = np.array([1.225, 1.107])  # from the edge of the gravel, before and after the change


@cache
def road():
    """Finished grade and subgrade, and the breaklines of the finished grade by name."""
    finished, subgrade = (
        read_landxml(REAL / f"road_{name}.xml") for name in ("finished", "subgrade")
    )
    lines = {line.name: line.coordinates[:, :2] for line in finished.lines}
    return finished.surface().tin, subgrade.surface().tin, lines


@cache
def between(left, right):
    """The road between two of its lines as two zones, before and after the change."""
    lines = road()[2]
    spot = shapely.LineString(lines[CENTRE]).interpolate(CHANGE)
    edges = [shapely.LineString(lines[name]) for name in (left, right)]
    zones = []
    for part in (0, 1):
        ends = [(0.0, edge.project(spot), edge.length)[part : part + 2] for edge in edges]
        one, two = (
            np.array(substring(edge, *end).coords) for edge, end in zip(edges, ends, strict=True)
        )
        zones.append(shapely.Polygon(np.concatenate((one, two[::-1]))))
    return Zones(np.array(zones), DEPTHS, np.arange(2))


def shifted(tin, height):
    return Tin(tin.vertices + np.array((0.0, 0.0, height)), tin.faces)


def agreement(result, zone=None):
    """Plan area shared with the subgrade and of it within 1 cm; of zones 0 and 1, then the rest."""
    subgrade = road()[1]
    labels = [0, 1, -1] if zone is not None else [-1]
    high = integrate(result, shifted(subgrade, NEAR), zone).of_upper(labels)
    low = integrate(result, shifted(subgrade, -NEAR), zone).of_upper(labels)
    return high.area, high.area - high.area_above - low.area_below


def test_the_two_surfaces_share_nearly_all():
    finished, subgrade, _ = road()
    found = integrate(finished, subgrade)
    assert found.total.area[0] == pytest.approx(22176.84, abs=0.01)
    assert found.uncovered_upper == pytest.approx(326.70, abs=0.01)
    assert found.uncovered_lower == pytest.approx(73.05, abs=0.01)
    assert found.total.cut[0] == pytest.approx(9935.21, abs=0.01)
    assert found.total.fill[0] < 0.02


@pytest.mark.parametrize(("depth", "share"), [(0.0, 0.195), (0.71, 0.216), (0.785, 0.210)])
def test_the_whole_road_lowered_by_one_depth(depth, share):
    """One depth for all meets a fifth of the subgrade: ditches, or one of the two sections."""
    area, near = agreement(shifted(road()[0], -depth))
    assert near[0] / area[0] == pytest.approx(share, abs=0.01)


def test_one_depth_each_below_the_lanes():
    """Between the edges of the gravel nearly everything agrees within 1 cm."""
    zones = between(*GRAVEL)
    dug = depth_surface(road()[0], zones)
    area, near = agreement(dug.tin, dug.zone)
    assert (near[:2] / area[:2] > 0.99).all()
    assert area[:2].sum() / area.sum() == pytest.approx(0.42, abs=0.01)
    # The finished grade itself beside them: the ditches and the slopes beyond.
    assert near[2] / area[2] == pytest.approx(0.336, abs=0.01)
    assert near.sum() / area.sum() == pytest.approx(0.615, abs=0.01)


@pytest.mark.parametrize(("depth", "zone"), [(0.785, 0), (0.71, 1)])
def test_each_depth_fits_its_own_half(depth, zone):
    dug = depth_surface(road()[0], replace(between(*GRAVEL), depths=np.array([depth, depth])))
    area, near = agreement(dug.tin, dug.zone)
    assert near[zone] / area[zone] > 0.99
    assert near[1 - zone] / area[1 - zone] < 0.01


def carried():
    """The lanes alone, their planes carried on to the edge of the soil cutting, and lowered."""
    zones = between(*PAVEMENT)
    flat = replace(zones, depths=np.zeros(2))
    lanes = depth_surface(road()[0], flat, Outside.LEAVE_OUT).tin
    edge = 0.25  # from the edge of the pavement to that of the gravel
    wide = replace(zones, widths=TO_CUTTING + edge)
    return depth_surface(lanes, wide, Outside.LEAVE_OUT, beyond=Beyond.CARRY)


def test_lanes_carried_on_to_the_edge_of_the_cutting():
    """The designers carry the plane of the lanes on, not the side of the fill above it."""
    dug = carried()
    area, near = agreement(dug.tin, dug.zone)
    assert (near[:2] / area[:2] > 0.99).all()
    assert area.sum() == pytest.approx(12239.4, abs=1.0)
    widened = depth_surface(road()[0], replace(between(*GRAVEL), widths=TO_CUTTING))
    below_side, near_side = agreement(widened.tin, widened.zone)
    assert below_side[:2] == pytest.approx(area[:2], rel=0.01)
    assert (near_side[:2] / below_side[:2] < 0.8).all()


def test_three_quarters_of_the_subgrade_are_made_again():
    """Carried bottoms and the finished grade beyond; the rest runs from cutting to ditch."""
    finished, subgrade, _ = road()
    _, near = agreement(carried().tin)
    _, ditches = agreement(finished)
    whole = integrate(finished, subgrade).total.area[0]
    assert (near[0] + ditches[0]) / whole == pytest.approx(0.745, abs=0.01)


# --- the picture -------------------------------------------------------------------------------

CLASSES = (
    ("bottom at 0.785 m agrees within 1 cm", "#5e3c99"),
    ("bottom at 0.71 m agrees within 1 cm", "#b2abd2"),
    ("finished grade itself, within 1 cm", "#cfd6dc"),
    ("between cutting and ditch, or another end", "#fdb863"),
    ("bottom differs by more than 1 cm", "#b35806"),
)


def classes():
    """Polygons of cells and the number of the class each belongs to."""
    finished, subgrade, _ = road()
    dug = carried()
    polygons, kinds = [], []
    cover = shapely.union_all(shapely.polygons(dug.tin.vertices[dug.tin.faces][..., :2]))
    shapely.prepare(cover)
    for upper, inside in ((dug.tin, True), (finished, False)):
        for block in cells(upper, subgrade, split=False):
            worst = np.maximum.reduceat(np.abs(block.upper_z - block.lower_z), block.offsets[:-1])
            rings = np.split(block.xy, block.offsets[1:-1])
            if inside:
                kind = np.where(worst <= NEAR, dug.zone[block.upper], 4)
                shown = np.ones(len(block), dtype=bool)
            else:
                kind = np.where(worst <= NEAR, 2, 3)
                middle = np.array([ring.mean(axis=0) for ring in rings])
                shown = ~shapely.contains_xy(cover, *middle.T)
            polygons += [ring for ring, show in zip(rings, shown, strict=True) if show]
            kinds.append(kind[shown])
    return polygons, np.concatenate(kinds)


def draw(path):
    """Draw the classes of the whole road and of three places."""
    import matplotlib as mpl

    mpl.use("Agg")
    import matplotlib.pyplot as plt
    from matplotlib.collections import PolyCollection
    from matplotlib.patches import Patch

    polygons, kinds = classes()
    lines = road()[2]
    origin = np.floor(lines[CENTRE].min(axis=0))
    colours = np.array([colour for _, colour in CLASSES])[kinds]
    local = [ring - origin for ring in polygons]
    figure, axes = plt.subplot_mosaic("aaa;bcd", figsize=(17, 13), height_ratios=(1.1, 1))
    axis = shapely.LineString(lines[CENTRE] - origin)
    places = {"b": (250.0, "0.785 m"), "c": (CHANGE, "the change"), "d": (900.0, "0.71 m")}
    for name, plot in axes.items():
        cell_collection = PolyCollection(local, facecolors=colours, edgecolors="none")
        plot.add_collection(cell_collection)
        plot.set_aspect("equal")
        plot.autoscale()
        if name in places:
            station, title = places[name]
            x, y = axis.interpolate(station).coords[0]
            plot.set(
                xlim=(x - 17, x + 17), ylim=(y - 14, y + 14), title=f"station {station:g}: {title}"
            )
            for line, style in ((CENTRE, "-."), *((edge, "-") for edge in GRAVEL)):
                plot.plot(*(lines[line] - origin).T, style, color="#2f3e4c", linewidth=1)
        else:
            for key, (station, _) in places.items():
                plot.annotate(key, axis.interpolate(station).coords[0], fontsize=14, weight="bold")
    areas = np.bincount(kinds, [shapely.Polygon(ring).area for ring in local], len(CLASSES))
    handles = [
        Patch(color=colour, label=f"{text}: {area / areas.sum():.1%}")
        for (text, colour), area in zip(CLASSES, areas, strict=True)
    ]
    axes["a"].legend(handles=handles, loc="lower right", fontsize=12)
    axes["a"].set_title(
        "Depth surface of the lanes, carried on to the edge of the soil cutting, against the subgrade"
    )
    figure.tight_layout()
    figure.savefig(path, dpi=75)


if __name__ == "__main__":
    draw(sys.argv[1])
