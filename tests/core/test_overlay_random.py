"""Overlays of random surfaces, beside shapely's intersections, and what must not change them."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.tin import Tin
from plugin.core.tin.overlay import cells, integrate

from .tin_shapes import grid_faces, random_tin

SEEDS = st.integers(0, 10**6)
FIGURES = ("area", "area_above", "area_below", "cut", "fill", "least", "most")


def by_intersection(upper, lower):
    """Area, cut, fill, least and most by shapely, one pair of triangles after the other."""
    one, other = (shapely.polygons(tin.vertices[tin.faces][..., :2]) for tin in (upper, lower))
    first, second = shapely.STRtree(other).query(one)
    shared = shapely.intersection(one[first], other[second])
    real = shapely.area(shared) > 0
    first, second, shared = first[real], second[real], shared[real]
    totals = np.zeros(3)
    least, most = np.inf, -np.inf
    for a, b, cell in zip(first, second, shared, strict=True):
        ring = shapely.get_coordinates(cell)[:-1]
        above = plane(upper, a, ring) - plane(lower, b, ring)
        least, most = min(least, above.min()), max(most, above.max())
        for k in range(1, len(ring) - 1):
            place = [0, k, k + 1]
            (ax, ay), (bx, by) = ring[k] - ring[0], ring[k + 1] - ring[0]
            area = abs(ax * by - ay * bx) / 2
            totals += (area, *fans(area, above[place]))
    return *totals, least, most


def fans(area, heights):
    """Volume above and below 0 of a triangle, by cutting off the lone corner."""
    low, middle, high = np.sort(heights)
    whole = area * heights.sum() / 3
    if low >= 0 or high <= 0:
        return max(whole, 0.0), max(-whole, 0.0)
    if middle <= 0:
        tip = area * high / (high - low) * high / (high - middle) * high / 3
        return tip, tip - whole
    tip = area * -low / (high - low) * -low / (middle - low) * -low / 3
    return whole + tip, tip


def plane(tin, face, xy):
    corner = tin.vertices[tin.faces[face, 0]]
    return corner[2] + (xy - corner[:2]) @ tin.gradients[face]


def moved(tin, change):
    return Tin.from_arrays(change(tin.vertices), tin.faces)


def assert_same(found, expected, relative=1e-9):
    for name in FIGURES:
        value, wanted = getattr(found, name)[0], getattr(expected, name)[0]
        assert value == pytest.approx(wanted, rel=relative, abs=relative), name


@settings(max_examples=25, deadline=None)
@given(SEEDS, SEEDS, st.integers(4, 60), st.integers(4, 60))
def test_beside_intersections(seed, other, count, other_count):
    upper, lower = random_tin(seed, count), random_tin(other, other_count)
    area, cut, fill, least, most = by_intersection(upper, lower)
    found = integrate(upper, lower).total
    assert found.area[0] == pytest.approx(area, rel=1e-11)
    assert found.cut[0] == pytest.approx(cut, rel=1e-10, abs=1e-9)
    assert found.fill[0] == pytest.approx(fill, rel=1e-10, abs=1e-9)
    if area == 0:
        assert np.isnan(found.least[0]) and np.isnan(found.most[0])
        return
    assert found.least[0] == pytest.approx(least, abs=1e-9)
    assert found.most[0] == pytest.approx(most, abs=1e-9)


@settings(max_examples=25, deadline=None)
@given(SEEDS, SEEDS)
def test_exchanging_the_surfaces_exchanges_cut_and_fill(seed, other):
    upper, lower = random_tin(seed, 80), random_tin(other, 30)
    one, two = integrate(upper, lower), integrate(lower, upper)
    assert one.total.cut[0] == pytest.approx(two.total.fill[0], rel=1e-11, abs=1e-10)
    assert one.total.fill[0] == pytest.approx(two.total.cut[0], rel=1e-11, abs=1e-10)
    assert one.total.area_above[0] == pytest.approx(two.total.area_below[0], rel=1e-9, abs=1e-9)
    assert one.total.least[0] == pytest.approx(-two.total.most[0], abs=1e-10)
    assert one.uncovered_upper == pytest.approx(two.uncovered_lower, abs=1e-9)


@settings(max_examples=25, deadline=None)
@given(SEEDS, SEEDS, st.sampled_from([1e4, 1e7, -1e7]))
def test_the_place_of_the_site_does_not_matter(seed, other, shift):
    upper, lower = random_tin(seed, 60), random_tin(other, 60)
    far = [moved(tin, lambda v: v + np.array((shift, shift / 4, 0))) for tin in (upper, lower)]
    assert_same(integrate(*far).total, integrate(upper, lower).total)


@settings(max_examples=25, deadline=None)
@given(SEEDS, SEEDS)
def test_the_order_of_the_faces_does_not_matter(seed, other):
    upper, lower = random_tin(seed, 60), random_tin(other, 60)
    order = np.random.default_rng(seed).permutation(len(upper.faces))
    turned = np.roll(upper.faces[order], 1, axis=1)
    mixed = Tin.from_arrays(upper.vertices, turned)
    assert_same(integrate(mixed, lower).total, integrate(upper, lower).total, 1e-11)


def grid_tin(columns, rows, height, *, diagonal=0, shift=(0.0, 0.0), turn=0.0):
    """A grid of unit cells, its diagonals running one way, the other, or at random (a seed)."""
    y, x = np.divmod(np.arange(columns * rows, dtype=float), columns)
    spin = np.array([(np.cos(turn), np.sin(turn)), (-np.sin(turn), np.cos(turn))])
    xy = np.column_stack((x, y)) @ spin + shift
    faces = grid_faces(columns, rows).reshape(-1, 2, 3)
    other = np.stack((faces[:, 0, [0, 1]], faces[:, 1, [1, 2]]), axis=1).reshape(-1, 4)
    a, b, c, d = other.T
    flipped = np.stack((np.stack((a, b, d), 1), np.stack((b, c, d), 1)), axis=1)
    if diagonal > 1:
        chosen = np.random.default_rng(diagonal).random(len(faces)) < 0.5
    else:
        chosen = np.full(len(faces), diagonal == 1)
    faces = np.where(chosen[:, None, None], flipped, faces).reshape(-1, 3)
    return Tin.from_arrays(np.column_stack((xy, height(xy[:, 0], xy[:, 1]))), faces)


def slope(x, y):
    return 100 + 0.3 * x - 0.2 * y


@pytest.mark.parametrize("diagonal", [0, 1, 2, 3])
@pytest.mark.parametrize("turn", [0.0, 1e-9, -1e-9, 1e-13, 1e-6])
@pytest.mark.parametrize("shift", [(0.0, 0.0), (0.5, 0.0), (0.5, 0.5), (1e-9, 0.0), (0.0, -1e-12)])
@pytest.mark.parametrize("origin", [0.0, 1e7])
def test_edges_that_coincide_or_nearly_do(diagonal, turn, shift, origin):
    """A plane under a plane on grids whose edges lie on one another, turned and moved a little."""
    place = np.array((origin, origin / 2))

    def height(x, y):
        return slope(x - place[0], y - place[1])

    upper = grid_tin(13, 9, height, shift=place)
    lower = grid_tin(
        13, 9, lambda x, y: height(x, y) - 0.71, diagonal=diagonal, shift=place + shift, turn=turn
    )
    found = integrate(upper, lower)
    shared = (12 - abs(shift[0])) * (8 - abs(shift[1]))
    # A turn moves the borders by less than turn x 12; far away coordinates are rounded to 2e-9.
    near = 1e-9 + 300 * abs(turn) + origin * 1e-14
    total = found.total
    assert total.area[0] == pytest.approx(shared, abs=near)
    assert total.cut[0] == pytest.approx(0.71 * total.area[0], abs=1e-9 + origin * 1e-14)
    assert total.fill[0] == 0 and total.area_above[0] == total.area[0]
    assert found.uncovered_upper == pytest.approx(96 - shared, abs=near)
    rounding = 1e-9 + origin * 1e-15
    assert 0.71 - rounding < total.least[0] <= total.most[0] < 0.71 + rounding


@settings(max_examples=20, deadline=None)
@given(SEEDS, st.floats(-1e-8, 1e-8), st.sampled_from([0.0, 1e7]))
def test_a_surface_beside_itself(seed, turn, origin):
    """Level throughout, whatever its diagonals; turned by next to nothing, next to level."""
    rng = np.random.default_rng(seed)
    rough = rng.uniform(0, 3, 70)

    def heights(east, north):
        return rough

    tin = grid_tin(10, 7, heights, shift=(origin, origin))
    same = integrate(tin, tin).total
    assert same.area[0] == pytest.approx(54, abs=1e-9) and same.area_above[0] == 0
    assert same.cut[0] < 1e-12 and same.fill[0] < 1e-12
    spun = grid_tin(10, 7, heights, shift=(origin, origin), turn=turn)
    near = integrate(tin, spun).total
    assert near.area[0] == pytest.approx(54, abs=1e-6)
    assert near.cut[0] < 1e-5 and near.fill[0] < 1e-5


@settings(max_examples=20, deadline=None)
@given(SEEDS, SEEDS, st.floats(-0.5, 0.5))
def test_the_same_surface_triangulated_anew(seed, other, bend):
    """Diagonals of planar cells may run either way: strips of planes along x."""
    profile = np.random.default_rng(seed).uniform(0, 2, 12)
    heights = [grid_tin(12, 8, lambda x, y: np.interp(x, range(12), profile) + bend * y)]
    heights.append(
        grid_tin(12, 8, lambda x, y: np.interp(x, range(12), profile) + bend * y, diagonal=seed + 2)
    )
    lower = random_tin(other, 50)
    lower = moved(lower, lambda v: v * (0.12, 0.09, 0.5))
    first, second = (integrate(tin, lower).total for tin in heights)
    assert_same(first, second, 1e-10)


@settings(max_examples=20, deadline=None)
@given(SEEDS, SEEDS, st.booleans())
def test_cells_add_up(seed, other, split):
    """Cells run counter-clockwise on both planes, of one sign each, and add up to the total."""
    upper, lower = random_tin(seed, 50), random_tin(other, 40)
    total = integrate(upper, lower).total
    sums = np.zeros(3)
    for block in cells(upper, lower, split=split):
        assert len(block.upper_z) == len(block.lower_z) == len(block.xy) == block.offsets[-1]
        for k, (start, stop) in enumerate(zip(block.offsets[:-1], block.offsets[1:], strict=True)):
            ring = block.xy[start:stop]
            above = (block.upper_z - block.lower_z)[start:stop]
            assert block.upper_z[start:stop] == pytest.approx(plane(upper, block.upper[k], ring))
            assert block.lower_z[start:stop] == pytest.approx(plane(lower, block.lower[k], ring))
            if block.sign[k]:
                assert (block.sign[k] * above >= -1e-9).all()
            x, y = (ring - ring[0]).T
            doubled = x[1:-1] * y[2:] - x[2:] * y[1:-1]
            assert (doubled >= -1e-9).all()
            volume = doubled / 6 @ (above[0] + above[1:-1] + above[2:])
            sums += (doubled.sum() / 2, max(volume, 0), max(-volume, 0))
    assert sums[0] == pytest.approx(total.area[0], rel=1e-9)
    assert sums[1] - sums[2] == pytest.approx(total.net[0], abs=1e-8)
    if split:
        assert sums[1] == pytest.approx(total.cut[0], abs=1e-8)


@pytest.mark.parametrize("turn", [0.0, 1e-13, 1e-9])
def test_cells_are_no_hairlines(turn):
    """Edges that all but coincide leave no cells narrower than the rounding between them."""
    upper, lower = (
        grid_tin(13, 9, slope, diagonal=way, shift=(1e6, 1e6), turn=turn * way) for way in (0, 1)
    )
    total = 0.0
    for block in cells(upper, lower):
        for start, stop in zip(block.offsets[:-1], block.offsets[1:], strict=True):
            cell = shapely.Polygon(block.xy[start:stop] - 1e6)
            assert cell.area > 0.5 * upper.rounding * shapely.minimum_bounding_radius(cell)
            total += cell.area
    assert total == pytest.approx(96, abs=1e-5)
    assert (block.sign == 0).all()


def clustered(seed, small):
    """Large faces, and among them many that are thousands of times smaller."""
    rng = np.random.default_rng(seed)
    plan = np.concatenate(
        (rng.uniform(0, 1000, (40, 2)), 500 + rng.uniform(0, 0.3, (small, 2)), CORNERS)
    )
    return delaunay(plan, rng.uniform(0, 1, len(plan)))


CORNERS = 1000.0 * np.array([(0, 0), (1, 0), (1, 1), (0, 1)])


def delaunay(plan, z):
    from scipy.spatial import Delaunay

    return Tin.from_arrays(np.column_stack((plan, z)), Delaunay(plan).simplices)


def test_crowds_of_small_faces_among_large_ones():
    """Bins too coarse for the small faces are divided again; nothing is lost or met twice."""
    upper, lower = clustered(1, 3000), clustered(2, 2500)
    found = integrate(upper, lower)
    assert found.total.area[0] == pytest.approx(1e6, rel=1e-12)
    assert found.uncovered_upper == pytest.approx(0, abs=1e-5)
    near = integrate(small_faces(upper), small_faces(lower))
    one, other = (
        shapely.union_all(shapely.polygons(tin.vertices[tin.faces][..., :2]))
        for tin in (small_faces(upper), small_faces(lower))
    )
    assert near.total.area[0] == pytest.approx(shapely.intersection(one, other).area, rel=1e-9)


def small_faces(tin):
    return Tin(tin.vertices, tin.faces[tin.plan_areas < 1e-3])


@pytest.mark.parametrize("count", [0, 1, 4000])
@pytest.mark.parametrize("side", [1.0, 0.01])
def test_a_large_plane_under_small_faces(count, side):
    """Faces down to ten million times narrower than the plane under them lose few digits."""
    rng = np.random.default_rng(count)
    plan = np.concatenate((rng.uniform(0, side, (count, 2)), side * CORNERS / 1000)) + 500
    above = 0.2 + rng.uniform(-0.1, 0.1, len(plan))
    small = delaunay(plan, slope(*plan.T) + above)
    plane = Tin.from_arrays(np.column_stack((CORNERS, slope(*CORNERS.T))), [(0, 1, 2), (0, 2, 3)])
    over, under = integrate(small, plane).total, integrate(plane, small).total
    assert over.area[0] == pytest.approx(small.plan_area, rel=1e-10)
    prisms = small.plan_areas @ above[small.faces].mean(axis=1)
    assert over.cut[0] == pytest.approx(prisms, rel=1e-9)
    assert over.least[0] == pytest.approx(above.min(), abs=1e-11)
    assert over.most[0] == pytest.approx(above.max(), abs=1e-11)
    assert (under.least[0], under.most[0]) == (-over.most[0], -over.least[0])
    assert under.area[0] == pytest.approx(over.area[0], rel=1e-13)
    assert under.fill[0] == pytest.approx(over.cut[0], rel=1e-13)


@pytest.mark.parametrize("sign", [1, -1])
def test_extremes_are_found_wherever_they_lie(sign):
    """A hill at one end of many small faces, a pit at the other, over one large plane."""
    rng = np.random.default_rng(4)
    plan = np.concatenate((rng.uniform(0, 1, (6000, 2)), CORNERS / 1000))
    hill, pit = (
        np.exp(-50 * ((plan - spot) ** 2).sum(axis=1)) for spot in ((0.4, 0.3), (0.6, 0.8))
    )
    z = sign * (3 * hill - 2 * pit) + 0.1 * plan[:, 0]
    small = delaunay(plan, z)
    plane = Tin.from_arrays(np.column_stack((CORNERS - 500, np.zeros(4))), [(0, 1, 2), (0, 2, 3)])
    label = (plan[small.faces, 0].mean(axis=1) > 0.5).astype(int)
    for labels in (None, label):
        total = integrate(small, plane, labels).total
        assert (total.least[0], total.most[0]) == pytest.approx((z.min(), z.max()), abs=1e-10)
    by_label = integrate(plane, small, None, label).of_lower([0, 1])
    for row in (0, 1):
        own = z[small.faces[label == row]]
        assert by_label.most[row] == pytest.approx(-own.min(), abs=1e-10)
        assert by_label.least[row] == pytest.approx(-own.max(), abs=1e-10)
