"""Cross sections of a real road beside plane sections made by a reference library.

Files: buildingSMART Finland, InfraModel sample data, CC BY 4.0; they are not part of the project.
The reference is trimesh: the surface's faces cut by the vertical plane of a section, its segments
compared one by one. The volume of the strip stands beside a grid of heights of both surfaces.
"""

from functools import cache

import numpy as np
import pytest

from plugin.core.exchange.landxml import Part, read_landxml
from plugin.core.exchange.landxml.alignments import chords
from plugin.core.lines.bundle import Lines
from plugin.core.lines.stakes import Wanted, set_out
from plugin.core.lines.stationing import Stationing
from plugin.core.measure.section_lines import sections_at
from plugin.core.measure.sections import profiles_of_tin

from ..core.section_shapes import measured
from ..core.tin_shapes import REAL, read_real

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
trimesh = pytest.importorskip("trimesh")

WIDTH = 15.0


@cache
def alignment():
    """The road's centre line as dense chords of its arcs."""
    (found,) = read_landxml(REAL / "road_alignment.xml", parts=[Part.ALIGNMENTS]).alignments
    parts = [chords(segment, 1e-4)[:, :2] for segment in found.segments]
    return Lines.from_arrays([np.concatenate(parts)], 1e-4)


def sections(interval):
    lines = alignment()
    stakes = set_out(lines, Stationing.of(lines), Wanted(interval), np.zeros(1))
    return sections_at(lines, stakes.line, stakes.distance, WIDTH, WIDTH)


@cache
def surface(name):
    return read_real(f"road_{name}")


def plane_section(tin, cut, k):
    """Offsets and heights of the ends of trimesh's segments in the plane of a section."""
    origin = np.append(cut.foot[k], 0.0)
    local = tin.vertices - origin
    mesh = trimesh.Trimesh(local, tin.faces, process=False)
    ahead = np.array([-cut.right[k, 1], cut.right[k, 0], 0.0])
    segments = trimesh.intersections.mesh_plane(mesh, ahead, np.zeros(3))
    along = np.array([cut.right[k, 0], cut.right[k, 1], 0.0])
    return segments @ along, segments[:, :, 2]


@pytest.mark.parametrize("name", ["ground", "finished", "subgrade"])
def test_profiles_are_those_of_the_reference(name):
    tin, cut = surface(name), sections(60.0)
    profiles = profiles_of_tin(cut, tin)
    compared = 0
    for k in range(1, len(cut) - 1):
        offset, height = plane_section(tin, cut, k)
        kept = (np.abs(offset) < WIDTH - 1e-6).all(axis=1) & (np.ptp(offset, axis=1) > 1e-5)
        middle = offset[kept].mean(axis=1)
        z = profiles.heights(np.full(len(middle), k), middle)
        assert np.isfinite(z).all()
        # Where the file has faces over one another, the reference has both.
        wrong = np.abs(z - height[kept].mean(axis=1)) > 1e-6
        assert wrong.mean() < 0.02
        compared += len(middle)
        inside = np.clip(offset, -WIDTH, WIDTH)
        rows = profiles.rows(k)
        covered = (profiles.stop - profiles.start)[rows].sum()
        assert covered <= np.ptp(inside, axis=1).sum() + 1e-6
    assert compared > 200


def test_volumes_of_the_road_come_together_as_sections_get_denser():
    lines, ground, finished = alignment(), surface("ground"), surface("finished")
    off = []
    for interval in (40.0, 10.0, 2.5):
        _, cut, fill, exact = measured(lines, sections(interval), ground, finished, WIDTH, WIDTH)
        total = exact.total
        off.append(
            (cut.average.sum() / total.cut[0] - 1.0, fill.average.sum() / total.fill[0] - 1.0)
        )
    first, _, last = np.abs(off)
    assert last.max() < first.max()
    # What is left is the bends: end areas go along the line.
    assert (last < 0.01).all()


def test_the_strip_holds_what_a_grid_of_heights_holds():
    """A 0.5 m grid over the strip, heights face by face: the exact volume to a few per mille."""
    lines, ground, finished = alignment(), surface("ground"), surface("finished")
    dense = sections(5.0)
    *_, exact = measured(lines, dense, ground, finished, WIDTH, WIDTH)
    step = 0.5
    stakes = np.arange(step / 2, lines.lengths[0], step)
    rows = sections_at(lines, np.zeros(len(stakes), int), stakes, WIDTH, WIDTH)
    offsets = np.arange(-WIDTH + step / 2, WIDTH, step)
    section = np.repeat(np.arange(len(stakes)), len(offsets))
    offset = np.tile(offsets, len(stakes))
    xy = rows.places(section, offset)
    gap = ground.sample(xy)[0] - finished.sample(xy)[0]
    # Ground beside a bend is as much longer or shorter than the line as its radius is.
    turned = np.gradient(np.unwrap(np.arctan2(rows.right[:, 1], rows.right[:, 0])), stakes)
    size = step * step * (1.0 + turned[section] * offset)
    cut = np.nansum(np.maximum(gap, 0) * size)
    fill = np.nansum(np.maximum(-gap, 0) * size)
    assert cut == pytest.approx(exact.total.cut[0], rel=5e-3)
    assert fill == pytest.approx(exact.total.fill[0], rel=5e-3)
