"""Breaks of a real road beside the breaklines its designers drew.

File: buildingSMART Finland, InfraModel sample data, CC BY 4.0; not part of the project. Of the 63
drawn lines those parts count that really are breaks, by the exact change of 2 % between faces.
"""

import pytest
import shapely

from plugin.core.breaks import Search, find_breaks
from plugin.core.exchange.landxml import read_landxml

from ..core.tin_shapes import REAL

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")


@pytest.fixture(scope="module")
def road():
    finished = read_landxml(REAL / "road_finished.xml")
    drawn = [shapely.LineString(line.coordinates[:, :2]) for line in finished.lines]
    return finished.surface().tin, shapely.MultiLineString(drawn)


def plan(lines):
    return shapely.multilinestrings(
        [shapely.LineString(lines.line(n)[:, :2]) for n in range(len(lines))]
    )


@pytest.mark.parametrize(
    ("support", "recall", "precision"), [(0.0, 1.0, 0.94), (0.5, 0.97, 0.96), (2.0, 0.97, 0.99)]
)
def test_drawn_breaklines_that_are_breaks_are_found(road, support, recall, precision):
    tin, drawn = road
    assert len(drawn.geoms) == 63
    exact = plan(find_breaks(tin, Search(0.02)).lines)
    real = shapely.intersection(drawn, shapely.buffer(exact, 0.02))
    assert shapely.length(real) > 10_000
    lines = find_breaks(tin, Search(0.02, 0.01, support=support, gap=support)).lines
    found, near = plan(lines), max(support, 0.1)
    share = shapely.length(shapely.intersection(real, shapely.buffer(found, near)))
    assert share / shapely.length(real) >= recall - 1e-9
    share = shapely.length(shapely.intersection(found, shapely.buffer(drawn, near)))
    assert share / shapely.length(found) >= precision
    # The crown runs whole from end to end.
    assert lines.length.max() > 1200
