"""Square thickness below a real road (open data, CC-BY 4.0), where it is at hand."""

import numpy as np
import pytest

from plugin.core.exchange.landxml import read_landxml

from .square_shapes import distances, squared, whole, whole_faults
from .tin_shapes import REAL

ROAD = REAL / "road_finished.xml"
pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")


@pytest.mark.parametrize("thickness", [0.3, 0.7, -0.3])
def test_whole_road(thickness):
    tin = read_landxml(ROAD).surface().tin
    before, after, outcome = squared(tin, [whole(tin)], [thickness])
    assert whole_faults(before, after) == []
    off = np.abs(distances(after, tin) - thickness).max(axis=1)
    assert off[outcome.flags == ""].max() <= outcome.allowed * 1.001
    assert (off > outcome.allowed).mean() < 0.06
    assert outcome.largest_residual < 0.12 * abs(thickness)
    assert outcome.held <= 5 and outcome.trimmed <= 10
