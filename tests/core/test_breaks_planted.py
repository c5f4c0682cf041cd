"""Planted slope breaks found again: random triangles, noise, fillets, cones.

The sites and their truths are in `breaks_sites`. Recall and precision are shares of length within
one triangle's size of the truth.
"""

import numpy as np
import pytest
import shapely

from plugin.core.breaks import KINDS, Kind, Search, find_breaks
from plugin.core.breaks.outlines import outlines
from plugin.core.tin import Tin

from .breaks_shapes import extruded, moved, shuffled
from .breaks_sites import LENGTH, WIDTH, planted, recall_precision

WANTED = Search(0.02, 0.015, support=8.0, gap=3.0, min_length=8.0)


def search(site, wanted=WANTED):
    tin = Tin.from_arrays(site.vertices, site.faces)
    return tin, find_breaks(tin, wanted)


@pytest.mark.parametrize("spacing", [1.5, 3.0])
def test_without_noise_all_is_found_and_nothing_else(spacing):
    site = planted(seed=1, spacing=spacing)
    _, found = search(site)
    recall, precision = recall_precision(found.lines, site.breaks.values(), spacing)
    assert recall == pytest.approx(1.0)
    assert precision >= 0.99
    # Three straight lines whole; the two rings of the pond in parts by kind.
    straight = [n for n in range(len(found.lines)) if found.lines.length[n] > 0.99 * LENGTH]
    assert len(straight) == 3
    assert len(found.lines) <= 9


@pytest.mark.parametrize("noise", [0.01, 0.02, 0.03])
@pytest.mark.parametrize("seed", [1, 2])
def test_with_noise_of_the_heights(noise, seed):
    """Up to 0.03 ft (9 mm) both ways on triangles of 3 ft."""
    site = planted(noise, seed)
    _, found = search(site)
    recall, precision = recall_precision(found.lines, site.breaks.values(), 3.0)
    assert recall >= 0.99
    assert precision >= 0.97
    # The edge of the lawn, 2 % beside 7 %, is one line with the full change.
    lawn = shapely.buffer(site.breaks["edge of lawn"], 3.0)
    own = [
        n
        for n in range(len(found.lines))
        if shapely.within(shapely.LineString(found.lines.line(n)[:, :2]), lawn)
    ]
    assert len(own) == 1
    assert found.lines.change.mean[own[0]] == pytest.approx(0.05, abs=0.002)


def test_rounded_edges_are_found_once_at_their_middle():
    site = planted(0.01, 1, fillet=2.0)
    _, found = search(site)
    recall, precision = recall_precision(found.lines, site.breaks.values(), 3.0)
    assert recall >= 0.99 and precision >= 0.97


@pytest.mark.parametrize(("width", "chords"), [(1.0, 4), (1.5, 6), (0.5, 2), (1.0, 1)])
def test_a_fillet_gives_one_line_with_the_full_change(width, chords):
    """2 % and 7 % joined by a parabola of some chords: one toe at its middle, 5 % in all."""
    x = np.concatenate(
        ([0, 5, 10], 15 + width * (np.arange(chords + 1) / chords - 0.5), [20, 25, 30])
    )
    share = np.clip((x - 15) / width + 0.5, 0, 1)
    bent = np.where(share < 1, 0.05 * width * share * share / 2, 0.05 * (x - 15))
    vertices, faces = extruded(np.column_stack((x, 0.02 * x + bent)), ys=np.arange(0, 41.0))
    lines = find_breaks(Tin.from_arrays(vertices, faces), Search(0.02, 0.01, support=2.0)).lines
    assert len(lines) == 1
    assert KINDS[lines.kind[0]] is Kind.TOE
    assert lines.change.mean[0] == pytest.approx(0.05, abs=0.001)
    assert np.abs(lines.line(0)[:, 0] - 15).max() <= width / 2 + 1e-9
    assert lines.length[0] == pytest.approx(40, abs=0.5)


def test_a_vertical_curve_has_no_break():
    """A crest curve of 4 % in all over 80 units (K = 20 units a percent) in flats of 2 units."""
    x = np.arange(0, 121, 2.0)
    z = np.where(x < 20, 0.02 * x, np.where(x > 100, 1.2 - 0.02 * (x - 60), 0))
    curve = (x >= 20) & (x <= 100)
    z[curve] = 0.4 + 0.02 * (x[curve] - 20) - 0.04 / 80 * (x[curve] - 20) ** 2 / 2
    z[x > 100] = 0.4 - 0.02 * (x[x > 100] - 100)
    vertices, faces = extruded(np.column_stack((x, z)), ys=np.arange(0, 31, 3.0))
    tin = Tin.from_arrays(vertices, faces)
    assert len(find_breaks(tin, Search(0.02, 0.01, support=6.0)).lines) == 0


def test_a_strip_at_the_rim_keeps_its_only_break():
    vertices, faces = extruded([(0, 0), (10, 0.2), (20, 0.4), (21, 0.9)], ys=np.arange(0, 21.0))
    lines = find_breaks(Tin.from_arrays(vertices, faces), Search(0.02, support=3.0)).lines
    assert len(lines) == 1
    assert lines.line(0)[:, 0] == pytest.approx(20)


def test_a_ditch_keeps_both_edges_of_its_bottom_when_it_is_wide_enough():
    ditch = [(0, 2), (6, 0), (10, 0), (16, 2)]
    vertices, faces = extruded(ditch, ys=np.arange(0, 31.0))
    tin = Tin.from_arrays(vertices, faces)
    assert len(find_breaks(tin, Search(0.02, support=2.0)).lines) == 2
    line = find_breaks(tin, Search(0.02, support=6.0)).lines
    assert len(line) == 1
    assert KINDS[line.kind[0]] is Kind.VALLEY


@pytest.mark.parametrize("width", [2.0, 8.0, 12.0])
@pytest.mark.parametrize("beyond", [0.02, -0.02])
def test_the_face_of_a_curb_keeps_both_its_lines_over_any_width_that_it_is_high_for(width, beyond):
    """6 in high on a batter of 0.1 ft: a step as long as 2 m w, here 0.04 w, is less than that."""
    profile = [(0, 0.6), (30, 0), (30.1, 0.5), (60, 0.5 + beyond * 29.9)]
    vertices, faces = extruded(profile, np.arange(0, 61, 3.0), slope_along=0.01)
    lines = find_breaks(Tin.from_arrays(vertices, faces), Search(0.02, support=width)).lines
    assert sorted(float(x) for n in range(len(lines)) for x in set(lines.line(n)[:, 0])) == [
        30,
        30.1,
    ]
    np.testing.assert_allclose(lines.length, 60)
    np.testing.assert_allclose(np.sort(lines.change.mean), sorted((5.02, 5 - beyond)))


@pytest.mark.parametrize("degrees", [30.0, 215.0])
def test_turning_moving_and_shuffling_change_nothing(degrees):
    site = planted(0.02, 3)
    _, here = search(site)
    order = shuffled(site.vertices, site.faces, 7)
    there = find_breaks(Tin.from_arrays(*order), WANTED).lines
    assert there.coordinates.tobytes() == here.lines.coordinates.tobytes()
    away = moved(site.vertices, degrees, shift=(1e7, 1e7, 0))
    turned = find_breaks(Tin.from_arrays(away, site.faces), WANTED).lines
    assert turned.length.sum() == pytest.approx(here.lines.length.sum(), rel=0.01)


def test_patches_cover_the_site_and_meet_along_the_breaks():
    site = planted(0.02, 1)
    tin, found = search(site)
    shapes = outlines(tin, found.patches, found.points)
    assert shapely.is_valid(shapes).all()
    assert shapely.area(shapes).sum() == pytest.approx(WIDTH * LENGTH, rel=1e-9)
    assert shapely.area(shapely.union_all(shapes)) == pytest.approx(WIDTH * LENGTH, rel=1e-9)
    borders = shapely.union_all(shapely.boundary(shapes))
    for n in range(len(found.lines)):
        line = shapely.LineString(found.lines.line(n)[:, :2])
        if found.lines.bridged[n] == 0:
            assert shapely.length(shapely.difference(line, shapely.buffer(borders, 1e-6))) < 1e-6
    # The lawn is one patch of 7 %, square to the street, and 1 % along it.
    lawn = max(range(len(shapes)), key=lambda n: shapes[n].area)
    assert found.patches.fits.gradients[lawn] == pytest.approx([0.07, 0.01], abs=1e-3)


def test_gaps_between_ends_that_run_on_are_bridged():
    vertices, faces = extruded([(0, 0), (10, 0.5), (20, 0)], ys=np.arange(0, 41.0))
    # The crest is cut away over 2 units: there the change is below the threshold.
    crest = (vertices[:, 0] == 10) & (vertices[:, 1] > 19) & (vertices[:, 1] < 22)
    vertices[crest, 2] = 0.05
    tin = Tin.from_arrays(vertices, faces)
    ridges = Search(0.06, kinds=[Kind.RIDGE])
    apart = find_breaks(tin, ridges).lines
    whole = find_breaks(tin, Search(0.06, gap=4.0, kinds=[Kind.RIDGE])).lines
    assert len(whole) < len(apart)
    assert whole.bridged.sum() > 0
    assert (whole.edges == -1).sum() == 1


def test_a_line_goes_on_while_its_change_keeps_above_the_lower_threshold():
    """A crease of 6 % that fades to 3 % and 1 %."""
    ys = np.arange(0, 31.0)
    vertices, faces = extruded([(0, 0), (10, 0), (20, 0)], ys=ys)
    height = np.interp(vertices[:, 1], [0, 10, 11, 20, 21, 30], [0.3, 0.3, 0.15, 0.15, 0.05, 0.05])
    crest = vertices[:, 0] == 10
    vertices[crest, 2] = height[crest]
    tin = Tin.from_arrays(vertices, faces)

    def ridge(**more):
        lines = find_breaks(tin, Search(0.05, kinds=[Kind.RIDGE], **more)).lines
        return [line for line in map(lines.line, range(len(lines))) if (line[:, 0] == 10).all()]

    (strict,), (kept,) = ridge(), ridge(keep=0.02)
    assert strict[:, 1].max() <= 11
    assert 20 <= kept[:, 1].max() <= 21


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("along", [0.0, 0.02])
def test_a_narrow_bottom_gives_one_straight_line_along_its_middle(seed, along):
    """A ditch with a bottom 0.4 wide in quads 5 long: its teeth are cut off across the line."""
    profile = [(0, 2), (6, 0), (6.4, 0), (12.4, 2)]
    vertices, faces = extruded(profile, np.arange(0, 61, 5), slope_along=along, seed=seed)
    found = find_breaks(Tin.from_arrays(vertices, faces), Search(0.02, support=0.5))
    assert len(found.lines) == 1
    line = found.lines.line(0)
    inner = line[(line[:, 1] > 4) & (line[:, 1] < 56)]
    np.testing.assert_allclose(inner[:, 0], 6.2, atol=0.03)
    # On the bottom, whatever the line does along itself.
    np.testing.assert_allclose(inner[:, 2], along * inner[:, 1], atol=2e-3)
    assert (np.diff(line[:, 1]) != 0).all()
    moved = np.hypot(*(found.points - vertices)[:, :2].T)
    assert moved.max() <= 0.5 + 1e-9
