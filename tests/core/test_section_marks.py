"""Lines and zone borders on sections."""

import numpy as np
import pytest
import shapely

from plugin.core.measure.section_marks import borders_of, crossings, stretches_in

from .section_shapes import lines_of, sections_every


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_lines_are_marked_where_they_cross(shift):
    road = lines_of([(shift, shift), (shift + 100, shift)])
    sections = sections_every(road, 50.0, 10.0, 10.0)
    beside = [(shift + x, shift + y, z) for x, y, z in [(-10, -6, 1), (50, -6, 4), (110, 4, 7)]]
    along = [(shift + 50, shift - 9), (shift + 50, shift + 9)]  # on a section, crosses none
    found = crossings(sections, lines_of(beside, along))
    assert found.section.tolist() == [0, 1, 2]
    assert found.line.tolist() == [0, 0, 0]
    assert found.offset == pytest.approx([6.0, 6.0, -(4 - 10 * 10 / 60)], abs=1e-6)
    # Heights between its vertices; at a vertex it is one crossing, not two.
    assert found.z == pytest.approx([1.5, 4.0, 6.5], abs=1e-6)


def test_zones_and_their_borders():
    road = lines_of([(0, 0), (100, 0)])
    sections = sections_every(road, 50.0, 10.0, 10.0)
    zones = [shapely.box(-5, -4, 200, 3), shapely.box(-5, -8, 60, -4), shapely.box(70, 5, 80, 9)]
    found = stretches_in(sections, zones, road)
    rows = list(zip(found.section.tolist(), found.zone.tolist(), strict=True))
    assert rows == [(0, 0), (0, 1), (1, 0), (1, 1), (2, 0)]
    assert found.start == pytest.approx([-3, 4, -3, 4, -3])
    assert found.stop == pytest.approx([4, 8, 4, 8, 4])
    borders = borders_of(found, sections)
    first = borders.section == 0
    assert borders.offset[first] == pytest.approx([-3, 4, 8])
    assert borders.before[first].tolist() == [-1, 0, 1]
    assert borders.after[first].tolist() == [0, 1, -1]


def test_a_zone_past_the_reach_has_no_border_at_the_end_of_the_section():
    road = lines_of([(0, 0), (100, 0)])
    sections = sections_every(road, 0.0, 10.0, 10.0)
    borders = borders_of(stretches_in(sections, [shapely.box(-5, -40, 200, 3)], road), sections)
    assert borders.offset == pytest.approx([-3, -3])
    assert np.all(borders.after == 0)


def test_zones_that_end_with_the_line_are_seen_whole():
    """At state-plane size and askew: rounding alone would say which zones the ends have."""
    turn = np.array([[0.8, -0.6], [0.6, 0.8]])
    corner = np.array([2148222.1, 13712437.3])
    road = lines_of(np.array([(0.0, 0.0), (90.3, 0.0)]) @ turn.T + corner)
    zones = [
        shapely.transform(shapely.box(0, low, 90.3, high), lambda xy: xy @ turn.T + corner)
        for low, high in ((-20, -7), (-7, 4), (4, 20))
    ]
    sections = sections_every(road, 0.0, 30.0, 30.0)
    found = stretches_in(sections, zones, road)
    assert found.section.tolist() == [0, 0, 0, 1, 1, 1]
    assert found.start == pytest.approx([-20, -4, 7] * 2, abs=1e-6)
