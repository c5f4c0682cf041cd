"""Zones whose borders nearly meet: drawn together, said, and never at the cost of a zone."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
import shapely.affinity
from hypothesis import example, given, settings
from hypothesis import strategies as st

from plugin.core.depth.joining import join_borders
from plugin.core.depth.zones import resolve, snapped
from plugin.core.errors import ZoneError
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance

from .cut_shapes import cut_faults, polygons, random_case, sheet, zones_of

LEFT = shapely.box(0, 0, 2, 1)
CENTIMETRE = Tolerance(join=0.01)
SEEDS = st.integers(0, 2**31)


def joined(*shapes, reach=0.01):
    return join_borders(polygons(*shapes), reach)


@pytest.mark.parametrize("gap", [1e-6, 1e-5, 1e-3, 0.009])
def test_a_gap_closes_onto_the_larger_zone(gap):
    done = joined(LEFT, shapely.box(2 + gap, 0, 3, 1))
    assert done.polygons[0] is not None and done.polygons[0].equals(LEFT)
    assert done.polygons[1].equals(shapely.box(2, 0, 3, 1))
    assert done.count == 1 and done.moved == pytest.approx(gap, rel=1e-6)


@pytest.mark.parametrize("overlap", [1e-6, 1e-3, 0.009])
def test_a_thin_overlap_opens_onto_the_larger_zone(overlap):
    done = joined(LEFT, shapely.box(2 - overlap, 0, 3, 1))
    assert done.polygons[1].equals(shapely.box(2, 0, 3, 1))


def test_what_is_farther_stays_as_it_is():
    shapes = polygons(LEFT, shapely.box(2.0101, 0, 3, 1))
    done = join_borders(shapes, 0.01)
    assert done.count == 0 and done.moved == 0 and done.place is None
    assert all(a is b for a, b in zip(done.polygons, shapes, strict=True))


def test_shared_borders_and_corners_on_edges_are_left_bit_for_bit():
    shapes = polygons(LEFT, shapely.box(2, 0, 3, 1), shapely.box(0.7, 1, 2.2, 3))
    far = shapely.affinity.rotate(shapely.MultiPolygon(list(shapes)), 31.7)
    far = shapely.affinity.translate(far, 500_000.1, 10_000_000.3)
    shapes = shapely.get_parts(far)
    done = join_borders(shapes, 1e-4)
    assert all(a is b for a, b in zip(done.polygons, shapes, strict=True))


def test_corners_of_a_neighbour_are_taken_into_the_edges_that_pass_them():
    bent = shapely.Polygon([(2.004, -1), (4, -1), (4, 2), (2.004, 2)])
    knee = shapely.Polygon(
        [(0, -1), (2, -1), (2.006, 0.5), (1.999, 1.2), (2.007, 1.6), (2, 2), (0, 2), (-3, 0)]
    )
    done = joined(knee, bent)
    assert done.polygons[0].equals(knee)
    taken = shapely.get_coordinates(done.polygons[1]).tolist()
    assert all(corner in taken for corner in ([2.006, 0.5], [1.999, 1.2], [2.007, 1.6]))
    assert done.polygons[1].intersection(knee).area == 0
    assert done.polygons[1].union(knee).area == pytest.approx(knee.area + done.polygons[1].area)
    assert done.polygons[1].union(knee).geom_type == "Polygon"


def test_a_zone_narrower_than_the_reach_is_not_folded_away():
    strip = shapely.box(2.001, 0, 2.009, 1)
    done = joined(LEFT, strip)
    assert done.polygons[1].equals(strip)


def test_a_zone_that_would_lose_half_of_itself_stays():
    strip = shapely.Polygon([(2.001, 0), (2.0095, 0), (2.0095, 0.9), (2.0101, 1), (2.001, 1)])
    assert joined(LEFT, strip).polygons[1].equals(strip)


def test_what_comes_near_by_joining_is_joined_too():
    """The side of the middle zone tilts as its corner goes home, towards a third one."""
    floor = shapely.box(-0.008, 0, 10, 10)
    middle = shapely.box(0, 10.004, 5, 14)
    third = shapely.box(-2, 10.5, -0.012, 11.5)
    done = joined(floor, middle, third).polygons
    corners = shapely.points(shapely.get_coordinates(done[2])[:-1])
    assert (shapely.distance(corners, done[1]) < 1e-9).sum() == 2


@settings(deadline=None, max_examples=150)
@example(662)  # mending leaves edges that cross by rounding
@given(SEEDS)
def test_whatever_is_joined_stays_valid(seed):
    _, zones = random_case(seed)
    done = join_borders(zones.polygons, 0.02)
    assert shapely.is_valid(done.polygons).all()
    assert not shapely.is_empty(done.polygons).any()


def test_folds_are_mended():
    """A sliver of a corner that turns over as its neighbours go to the same edge."""
    corners = [(2.002, 0), (3, 0), (3, 1), (2.002, 1), (2.009, 0.4), (2.004, 0.39), (2.005, 0.6)]
    assert shapely.Polygon(corners).is_valid
    done = joined(LEFT, shapely.Polygon(corners))
    assert done.polygons[1].is_valid
    assert done.polygons[1].equals(shapely.box(2, 0, 3, 1))


def test_a_zone_in_the_hole_of_another_is_drawn_to_its_rim():
    frame = shapely.box(0, 0, 9, 9) - shapely.box(3, 3, 6, 6)
    done = joined(frame, shapely.box(3.005, 3.003, 5.996, 5.998))
    assert done.polygons[1].equals(shapely.box(3, 3, 6, 6))


def cells(random, noise, count=5):
    """A net of zones that share bent borders, every corner shaken on its own in each zone."""
    steps = np.arange(count + 1.0)
    knots = np.stack(np.meshgrid(steps, steps), -1) * 3 + random.uniform(
        -0.7, 0.7, (count + 1,) * 2 + (2,)
    )

    def side(a, b):
        bend = 0.05 if tuple(b) > tuple(a) else -0.05
        middle = 0.5 * (a + b) + bend * np.array([a[1] - b[1], b[0] - a[0]])
        return [a, middle]

    made = []
    for i in range(count):
        for j in range(count):
            q = [knots[i, j], knots[i, j + 1], knots[i + 1, j + 1], knots[i + 1, j]]
            ring = np.array([p for k in range(4) for p in side(q[k], q[(k + 1) % 4])])
            made.append(shapely.Polygon(ring + random.uniform(-noise, noise, ring.shape)))
    return polygons(*made)


@settings(deadline=None, max_examples=40)
@given(SEEDS, st.sampled_from([1e-9, 1e-7, 1e-5, 2e-3]))
def test_a_shaken_net_of_zones_closes_wholly(seed, noise):
    shapes = cells(np.random.default_rng(seed), noise)
    done = join_borders(shapes, 0.01)
    assert shapely.is_valid(done.polygons).all()
    whole = shapely.union_all(done.polygons)
    assert whole.geom_type == "Polygon" and not whole.interiors
    assert abs(shapely.area(done.polygons).sum() - whole.area) < 1e-9
    assert done.moved <= 2 * np.sqrt(2) * 2 * noise + 1e-12
    far = [
        a.boundary.hausdorff_distance(b.boundary)
        for a, b in zip(shapes, done.polygons, strict=True)
    ]
    assert max(far) <= done.moved + 1e-12


@settings(deadline=None, max_examples=20)
@given(SEEDS)
def test_the_order_of_the_zones_does_not_matter(seed):
    random = np.random.default_rng(seed)
    shapes = cells(random, 2e-3)
    order = random.permutation(len(shapes))
    one, other = join_borders(shapes, 0.01), join_borders(shapes[order], 0.01)
    assert shapely.equals_exact(one.polygons[order], other.polygons).all()
    assert (one.moved, one.count) == (other.moved, other.count)


@settings(deadline=None, max_examples=20)
@given(SEEDS, st.sampled_from([1e-7, 1e-5, 2e-3]))
def test_a_shaken_net_cuts_a_surface_without_gaps(seed, noise):
    shapes = cells(np.random.default_rng(seed), noise)
    zones = resolve(zones_of(*((shape, 1) for shape in shapes)), CENTIMETRE)
    tin = sheet(16, 16, 1.0, 0.15, seed=seed % 89)
    cut = cut_tin(tin, zones.polygons, CENTIMETRE)
    assert cut_faults(tin, cut, zones.polygons) == []
    assert cut.closed_gaps == 0
    middle = shapely.union_all(shapes).buffer(0.01).buffer(-0.5)
    spots = cut.tin.vertices[cut.tin.faces, :2].mean(axis=1)
    assert (cut.zone[shapely.contains_xy(middle, *spots.T)] >= 0).all()


def test_resolving_says_how_far_borders_were_drawn():
    zones = resolve(zones_of((LEFT, 1), (shapely.box(2.004, 0, 3, 1), 2)), CENTIMETRE)
    assert zones.settling.joined == 1
    assert zones.settling.largest_move == pytest.approx(0.004)
    (finding,) = snapped(zones)
    assert finding.code == "snapped" and "nearly met: 1, " in finding.why and "0.004" in finding.why
    assert snapped(resolve(zones_of((LEFT, 1)), CENTIMETRE)) == []
    again = resolve(zones, CENTIMETRE)
    assert again.settling == zones.settling and again.largest_move == zones.largest_move
    rounding = resolve(zones_of((LEFT, 1), (shapely.box(2 + 5e-7, 0, 3, 1), 2)), CENTIMETRE)
    assert rounding.polygons[1].equals(shapely.box(2, 0, 3, 1))
    assert rounding.largest_move == 0 and snapped(rounding) == []


def test_an_overlap_wider_than_the_reach_is_still_refused():
    with pytest.raises(ZoneError, match="overlap"):
        resolve(zones_of((LEFT, 1), (shapely.box(1.98, 0, 3, 1), 2)), CENTIMETRE)
    resolve(zones_of((LEFT, 1), (shapely.box(1.98, 0, 3, 1), 2)), replace(CENTIMETRE, join=0.03))


def test_a_tolerated_overlap_is_left_to_the_larger_zone():
    """A wedge: 12 mm at one end, none at the other; only half of it is near enough to be drawn."""
    wedge = shapely.Polygon([(1.988, 0), (2.5, 0), (2.5, 1), (2, 1)])
    done = resolve(zones_of((wedge, 2), (LEFT, 1)), CENTIMETRE).polygons
    assert done[1].equals(LEFT)
    assert done[0].intersection(LEFT).area < 1e-12
