"""A real road's alignment (LandXML, buildingSMART Finland, CC-BY 4.0), offset both ways.

The judge here is the alignment's own geometry: true lines and arcs in closed form.
"""

from pathlib import Path

import numpy as np
import pytest

from plugin.core.exchange.landxml import Part, read_landxml
from plugin.core.exchange.landxml.alignments import chords
from plugin.core.lines.bundle import Lines
from plugin.core.lines.guide import lay
from plugin.core.lines.requests import Requests
from plugin.core.lines.sides import Basis, Rule

from ..core.lines_shapes import along

ROAD = Path(__file__).parents[3] / "shared" / "real" / "road_alignment.xml"

pytestmark = pytest.mark.skipif(not ROAD.exists(), reason="the real road is not beside the project")


@pytest.fixture(scope="module")
def segments():
    (alignment,) = read_landxml(ROAD, parts=[Part.ALIGNMENTS]).alignments
    assert len(alignment.parts) == 1 and len(alignment.segments) == 15
    return alignment.segments


@pytest.fixture(scope="module")
def drawn(segments):
    parts = [chords(segment, 1e-4)[:, :2] for segment in segments]
    return np.concatenate([parts[0][:1], *(part[1:] for part in parts)])


def measure(segments, points):
    """Return the signed distance (right +) from the true elements, of points beside one."""
    best = np.full(len(points), np.inf)
    for segment in segments:
        a, b = segment.points[0], segment.points[-1]
        if segment.kind == "line":
            d = (b - a) / np.hypot(*(b - a))
            t = (points - a) @ d
            signed = (points - a) @ np.array([d[1], -d[0]])
            beside = (t >= 0) & (t <= np.hypot(*(b - a)))
        else:
            away = points - segment.centre
            radius = np.hypot(*(a - segment.centre))
            sweep = segment.length / radius
            begin = np.arctan2(*(a - segment.centre)[::-1])
            turned = segment.turn * (np.arctan2(away[:, 1], away[:, 0]) - begin) % (2 * np.pi)
            # Turning left, the centre is on the left and the right is outside.
            signed = segment.turn * (np.hypot(*away.T) - radius)
            beside = turned <= sweep
        nearer = beside & (np.abs(signed) < np.abs(best))
        best = np.where(nearer, signed, best)
    return best


@pytest.mark.parametrize("back", [False, True])
@pytest.mark.parametrize("rule", [Rule.RIGHT, Rule.LEFT])
def test_one_metre_beside_the_alignment(segments, drawn, back, rule):
    line = Lines.from_arrays([drawn[::-1] if back else drawn])
    found = lay(Requests(line, np.zeros(1, int), np.ones(1), [rule]), Basis())
    assert len(found.pieces.lines) == 1 and not found.flagged
    xy = found.pieces.lines.xy
    right = (rule is Rule.RIGHT) != back  # of the alignment as it is stationed
    samples = np.vstack([along(xy, 20_000), xy])
    signed = measure(segments, samples)
    signed = signed[np.isfinite(signed)]
    assert len(signed) > 0.995 * len(samples)
    assert np.abs(signed - (1.0 if right else -1.0)).max() <= 0.001
    start = drawn[-1] if back else drawn[0]
    assert np.hypot(*(xy[0] - start)) == pytest.approx(1.0, abs=1e-6)
    assert found.proof.error.max() < 1e-6


def test_the_judge_knows_the_declared_length(segments):
    assert sum(segment.length for segment in segments) == pytest.approx(1266.246237, abs=2e-6)
