"""Grades along and across a real road, beside differences of sampled heights.

Files: buildingSMART Finland, InfraModel sample data, CC BY 4.0; not part of the project. The
judge is the surface itself, sampled a hair apart along and square to the true alignment.
"""

import numpy as np
import pytest

from plugin.core.exchange.landxml import read_landxml
from plugin.core.exchange.landxml.alignments import chords
from plugin.core.lines.bundle import Lines
from plugin.core.measure.grade_check import FAIL
from plugin.core.measure.grade_rules import Measure
from plugin.core.measure.tangents import tangents

from ..core.grade_shapes import checked, limit
from ..core.tin_shapes import REAL

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")


@pytest.fixture(scope="module")
def road():
    tin = read_landxml(REAL / "road_finished.xml").surface().tin
    (alignment,) = read_landxml(REAL / "road_alignment.xml").alignments
    parts = [chords(segment, 1e-4)[:, :2] for segment in alignment.segments]
    drawn = np.concatenate([parts[0][:1], *(part[1:] for part in parts)])
    return tin, Lines.from_arrays([drawn])


def test_areas_by_grade_are_those_of_sampled_heights(road):
    tin, line = road
    reach = 3.0
    along, across = checked(
        tin,
        limit(Measure.ALONG, 0.03),
        limit(Measure.ACROSS, 0.035),
        lines=line,
        reach=reach,
        step=0.001,
    ).rows
    assert along.figures.checked == pytest.approx(across.figures.checked)
    # Points spread evenly over the strip, measured by heights 2 mm apart.
    rng = np.random.default_rng(3)
    segment = rng.choice(len(line.segments), 60_000, p=line.segment_lengths / line.lengths[0])
    share, off = rng.random(60_000), rng.uniform(-reach, reach, 60_000)
    way = line.segment_directions[segment]
    xy = line.xy[line.segments[segment]] + (share * line.segment_lengths[segment])[:, None] * way
    xy += off[:, None] * np.column_stack((-way[:, 1], way[:, 0]))
    ways = tangents(line, xy).direction
    small = 1e-3
    for row, step in ((along, ways), (across, np.column_stack((-ways[:, 1], ways[:, 0])))):
        ahead, behind = (tin.sample(xy + sign * small * step)[0] for sign in (1, -1))
        grade = np.abs(ahead - behind) / (2 * small)
        grade = grade[np.isfinite(grade)]
        share = row.figures.failed / row.figures.checked
        assert (grade > row.limit.high).mean() == pytest.approx(share, abs=0.02)
        assert grade.mean() == pytest.approx(row.figures.mean, rel=0.03)


def test_the_carriageway_is_crowned_at_three_percent(road):
    """Most of the lane falls 3 % to the side, which shows in the file; a few places do not."""
    tin, line = road
    (row,) = checked(
        tin, limit(Measure.ACROSS, 0.0305, 0.0295), lines=line, reach=3.0, step=0.001, near=0.0
    ).rows
    assert row.verdict == FAIL
    assert row.figures.mean == pytest.approx(0.03, abs=0.002)
