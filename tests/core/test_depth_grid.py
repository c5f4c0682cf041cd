"""Zones on a grid: which pixels, lowered how, whatever the window."""

import itertools

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.grid import Lowering
from plugin.core.depth.grid.spans import ZoneSpans, count_pixels, lower, missing_pixels
from plugin.core.depth.zones import Outside, Zones
from plugin.core.grid import Grid
from plugin.core.place import Place

FAR = 10_000_000.0


def grid(columns=40, rows=30, left=0.0, top=30.0, width=1.0, height=-1.0):
    return Grid(left, top, width, height, columns, rows)


def labels(polygons, on):
    """Zone of each pixel, -1 outside, from the spans of the whole grid."""
    spans = ZoneSpans(np.asarray(polygons, dtype=object), on).strip(0, on.rows)
    table = np.full((on.rows, on.columns), -1)
    for row, start, stop, zone in zip(spans.row, spans.start, spans.stop, spans.zone, strict=True):
        assert (table[row, start:stop] == -1).all()
        table[row, start:stop] = zone
    return table


def centres(on):
    x = on.left + (np.arange(on.columns) + 0.5) * on.width
    y = on.top + (np.arange(on.rows) + 0.5) * on.height
    return np.stack(np.meshgrid(x, y), axis=-1)


def zones(polygons, depths):
    return Zones(
        np.asarray(polygons, dtype=object), np.asarray(depths, float), np.arange(len(depths))
    )


def star(rng, on, holes=False):
    """A polygon with many corners about a random point."""
    turn = np.sort(rng.uniform(0, 2 * np.pi, rng.integers(3, 40)))
    size = rng.uniform(1, 12) * rng.uniform(0.3, 1, len(turn))
    middle = (on.left + rng.uniform(0, 40) * on.width, on.top + rng.uniform(0, 30) * on.height)
    ring = np.column_stack([np.cos(turn), np.sin(turn)]) * size[:, None] + middle
    shape = shapely.make_valid(shapely.Polygon(ring))
    return shape.difference(shapely.Point(middle).buffer(2.1)) if holes else shape


@given(
    st.integers(0, 10**6),
    st.sampled_from([0.0, FAR]),
    st.sampled_from([(1.0, -1.0), (0.3, -0.7), (0.5, 0.5)]),
)
@settings(max_examples=60, deadline=None)
def test_pixels_are_those_whose_centre_lies_inside(seed, shift, step):
    """Reference library: shapely, point in polygon."""
    rng = np.random.default_rng(seed)
    on = grid(left=shift, top=shift + 30, width=step[0], height=step[1])
    shape = star(rng, on, holes=bool(rng.integers(2)))
    points = shapely.points(centres(on))
    sure = shapely.distance(points, shape.boundary) > 1e-6
    table = labels([shape], on)
    assert np.array_equal((table == 0)[sure], shapely.contains(shape, points)[sure])


def test_centres_on_a_shared_border_belong_to_one_zone():
    # Borders run exactly through pixel centres, upright, level and at 45 degrees.
    box = shapely.box
    four = [box(0, 15.5, 20.5, 30), box(20.5, 15.5, 40, 30), box(0, 0, 20.5, 15.5)]
    four.append(box(20.5, 0, 40, 15.5))
    table = labels(four, grid())
    assert (table >= 0).all()
    # Column 20 and row 14 have their centres on the borders: left and below get them.
    assert np.unique(table[:14, :21]).tolist() == [0]
    assert np.unique(table[:14, 21:]).tolist() == [1]
    assert np.unique(table[14:, :21]).tolist() == [2]
    assert np.unique(table[14:, 21:]).tolist() == [3]
    halves = [
        shapely.Polygon([(0, 0), (30, 0), (30, 30)]),
        shapely.Polygon([(0, 0), (30, 30), (0, 30)]),
    ]
    table = labels(halves, grid(30, 30))
    assert (table >= 0).all()
    assert (np.diag(np.fliplr(table)) == 1).all()


@given(st.integers(0, 10**6), st.sampled_from([0.0, FAR]))
@settings(max_examples=30, deadline=None)
def test_a_partition_leaves_no_pixel_out_and_gives_none_twice(seed, shift):
    rng = np.random.default_rng(seed)
    # Voronoi cells of points on a half-pixel grid: many borders through centres.
    seeds = np.unique(rng.integers(0, (80, 60), (25, 2)) / 2.0, axis=0) + shift
    area = shapely.box(shift - 1, shift - 1, shift + 41, shift + 31)
    cells = shapely.get_parts(shapely.voronoi_polygons(shapely.MultiPoint(seeds), extend_to=area))
    table = labels(cells, grid(left=shift, top=shift + 30))
    assert (table >= 0).all()


def test_zones_that_overlap_by_a_rounding_lower_no_pixel_twice():
    on = grid()
    shapes = [shapely.box(0, 0, 20.5 + 1e-9, 30), shapely.box(20.5 - 1e-9, 0, 40, 30)]
    table = labels(shapes, on)
    assert (table[:, :21] == 0).all()
    assert (table[:, 21:] == 1).all()


def test_zones_beyond_the_grid_and_empty_ones():
    on = grid()
    shapes = [shapely.box(-50, -50, -1, 90), shapely.Polygon(), None, shapely.box(-9, 10, 99, 12)]
    table = labels(shapes, on)
    assert np.unique(table).tolist() == [-1, 3]
    assert (table[18:20] == 3).all()
    assert (table == 3).sum() == 80


@given(st.integers(0, 10**6), st.lists(st.integers(1, 29), max_size=6), st.sampled_from(Outside))
@settings(max_examples=60, deadline=None)
def test_windows_do_not_matter(seed, cuts, outside):
    rng = np.random.default_rng(seed)
    on = grid()
    shapes = [star(rng, on)]
    for _ in range(3):
        shape = star(rng, on)
        shapes.append(shape.difference(shapely.union_all(shapes)))
    design = rng.uniform(0, 9, (30, 40)).astype(np.float32)
    design[rng.random((30, 40)) < 0.1] = -9999
    design[rng.random((30, 40)) < 0.05] = np.nan

    def run(stops):
        work = Lowering(
            zones(shapes, [1, 2, 3, -4]), on, outside, 0.5, -9999.0, np.dtype(np.float32)
        )
        parts = [work.window(Place(a), design[a:b].copy()) for a, b in itertools.pairwise(stops)]
        return np.vstack(parts), work.tally

    whole, tally = run([0, 30])
    parts, tally_of_parts = run([0, *sorted(set(cuts)), 30])
    assert whole.tobytes() == parts.tobytes()
    assert np.array_equal(tally.pixels, tally_of_parts.pixels)
    assert (tally.lowest, tally.highest) == (tally_of_parts.lowest, tally_of_parts.highest)
    # And against the plain definition, pixel by pixel.
    table = labels(shapes, on)
    here = ~(np.isnan(design) | (design == -9999))
    depth = np.array([1, 2, 3, -4, 0.5 if outside is Outside.USE_DEPTH else 0.0])[table]
    expected = np.where(here, (design - depth).astype(np.float32), design)
    if outside is Outside.LEAVE_OUT:
        expected[(table < 0) & here] = -9999
    assert np.array_equal(whole, expected, equal_nan=True)
    assert tally.pixels[:-1].tolist() == [((table == k) & here).sum() for k in range(4)]
    lowered = ((table < 0) & here).sum() if outside is Outside.USE_DEPTH else 0
    assert tally.pixels[-1] == lowered


@pytest.mark.parametrize("dtype", [np.float32, np.float64])
def test_a_height_is_rounded_once(dtype):
    rng = np.random.default_rng(1)
    design = rng.uniform(0.2, 0.3, (30, 40)).astype(dtype)
    depth = 0.1  # no binary fraction
    spans = ZoneSpans(np.array([shapely.box(0, 0, 40, 30)], dtype=object), grid()).strip(0, 30)
    result = design.copy()
    lower(result, spans, np.array([depth, 0.0]))
    assert result.dtype == dtype
    assert np.array_equal(result, (design.astype(np.float64) - depth).astype(dtype))


def test_missing_pixels_keep_their_bits():
    design = np.full((30, 40), 5.0, dtype=np.float32)
    odd = np.array([0x7FC12345], dtype=np.uint32).view(np.float32)[0]  # a NaN with a payload
    design[3, 3], design[4, 4] = odd, np.float32(-3.4e38)
    work = Lowering(
        zones([shapely.box(0, 0, 40, 30)], [2.0]),
        grid(),
        Outside.KEEP,
        0.0,
        -3.4e38,
        np.dtype(np.float32),
    )
    result = work.window(Place(), design.copy())
    assert result[3, 3].tobytes() == odd.tobytes()
    assert result[4, 4] == np.float32(-3.4e38)
    assert np.count_nonzero(result == 3.0) == 1198
    assert work.tally.pixels.tolist() == [1198, 0]
    assert (work.tally.lowest, work.tally.highest) == (3.0, 3.0)


def test_a_height_that_comes_out_as_nodata_is_counted_with_its_place():
    design = np.full((30, 40), 5.0, dtype=np.float32)
    design[0, 0] = 0.0  # missing
    design[7, 9] = 2.0
    work = Lowering(
        zones([shapely.box(0, 0, 40, 30)], [2.0]),
        grid(),
        Outside.KEEP,
        0.0,
        0.0,
        np.dtype(np.float32),
    )
    work.window(Place(), design)
    assert work.tally.clashes == 1
    assert work.tally.clash == (7, 9)


def test_pixels_left_out_do_not_count_as_clashes():
    work = Lowering(
        zones([shapely.box(0, 0, 10, 30)], [1.0]),
        grid(),
        Outside.LEAVE_OUT,
        0.0,
        4.0,
        np.dtype(np.float32),
    )
    result = work.window(Place(), np.full((30, 40), 6.0, dtype=np.float32))
    assert (result[:, :10] == 5.0).all()
    assert (result[:, 10:] == 4.0).all()
    assert work.tally.clashes == 0
    assert (work.tally.lowest, work.tally.highest) == (5.0, 5.0)
    with pytest.raises(ValueError, match="nodata"):
        Lowering(work.zones, grid(), Outside.LEAVE_OUT, 0.0, None, np.dtype(np.float32))


def test_whole_numbers_become_the_type_of_the_result():
    work = Lowering(
        zones([shapely.box(0, 0, 40, 30)], [0.25]),
        grid(),
        Outside.KEEP,
        0.0,
        -1.0,
        np.dtype(np.float32),
    )
    result = work.window(Place(), np.full((30, 40), 7, dtype=np.int16))
    assert result.dtype == np.float32
    assert (result == 6.75).all()


def test_counts_without_and_with_missing_pixels():
    on = grid()
    spans = ZoneSpans(np.array([shapely.box(0, 0, 4, 30)], dtype=object), on).strip(0, 30)
    assert count_pixels(spans, 1, None).tolist() == [120, 0]
    missing = np.zeros((30, 40), dtype=bool)
    missing[:, 3] = True
    assert count_pixels(spans, 1, missing).tolist() == [90, 0]
    rest = spans.rest(30, 40)
    assert count_pixels(rest, 1, missing).tolist() == [0, 30 * 36]


def test_nothing_missing_is_none():
    assert missing_pixels(np.zeros((2, 2), np.float32), None) is None
    assert missing_pixels(np.zeros((2, 2), np.float32), np.nan) is None
    assert missing_pixels(np.zeros((2, 2), np.float32), 0.0).all()
