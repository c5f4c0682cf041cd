"""Real files of a road: counts, areas and lengths to the digits that were published for them.

Files: buildingSMART Finland, InfraModel sample data, CC BY 4.0. They are not part of the project;
the figures were computed independently of it.
"""

import numpy as np
import pytest

from plugin.core.exchange.landxml import read_landxml
from plugin.core.units import METRE

from .tin_shapes import REAL

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")

SURFACES = [
    ("road_finished", 6547, 11959, "22503.5393", "23389.5815", 63),
    ("road_subgrade", 4997, 8881, "22249.8854", "22779.7827", 39),
    ("road_ground", 19872, 36067, "69488.6133", "70602.8982", 175),
]


@pytest.mark.parametrize("in_blocks", [True, False])
@pytest.mark.parametrize(("name", "points", "faces", "plan", "sloped", "breaklines"), SURFACES)
def test_surfaces(name, points, faces, plan, sloped, breaklines, in_blocks):
    file = read_landxml(REAL / f"{name}.xml", in_blocks=in_blocks)
    record = file.surface()
    assert (record.point_count, len(record.tin.faces)) == (points, faces)
    assert (f"{record.plan_area:.4f}", f"{record.sloped_area:.4f}") == (plan, sloped)
    assert [line.kind for line in file.lines] == ["breakline"] * breaklines
    assert file.findings == () and file.unit is METRE
    assert (file.system.epsg, file.system.vertical) == ("3875", "N2000")
    assert file.namespace == "http://www.inframodel.fi/inframodel"


def test_the_alignment():
    (found,) = read_landxml(REAL / "road_alignment.xml").alignments
    kinds = [segment.kind for segment in found.segments]
    assert kinds.count("line") == 8 and kinds.count("arc") == 7 and len(found.parts) == 1
    assert found.declared_length == 1266.246238
    # The sum of the lengths printed in the file; each is rounded to 1e-6.
    assert found.length == pytest.approx(1266.246237, abs=15 * 5e-7)
    assert found.station_start == 0.0 and found.profiles == 1


def test_arcs_of_the_alignment_are_tangent_to_its_lines():
    (found,) = read_landxml(REAL / "road_alignment.xml").alignments
    for before, after in zip(found.segments, found.segments[1:], strict=False):
        arc, line = (before, after) if before.kind == "arc" else (after, before)
        spoke = (before.points[-1] - arc.centre) / np.hypot(*(before.points[-1] - arc.centre))
        along = np.diff(line.points[[0, -1]], axis=0)[0]
        # Coordinates are printed to 1e-6: that is the error of a direction over a line's length.
        assert abs(spoke @ along) < 2e-5


def test_the_ground_holds_data_points_and_names_of_codes():
    file = read_landxml(REAL / "road_ground.xml")
    assert {point.kind for point in file.points} == {"data"} and len(file.points) == 14235
    assert file.lines[0].description == "Centerline of road"
