"""Thickness square to the faces against closed forms and an independent construction."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.manner import Manner
from plugin.core.depth.square import square_depth
from plugin.core.tin import Tin

from .cut_shapes import sheet, signed_areas
from .square_shapes import distances, fan, origin_of, prism, squared, surface, whole, whole_faults

# Run over rise, thickness and horizontal width in mm as a road agency's guide for placing riprap
# prints them (Table 1; scribd 560492703).
RIPRAP = [
    (n, thickness, width)
    for thickness, *widths in (
        (350, 783, 631),
        (450, 1006, 811),
        (550, 1230, 992),
        (700, 1566, 1262),
        (1000, 2236, 1803),
        (1200, 2684, 2163),
        (1500, 3355, 2704),
        (2000, 4473, 3606),
        (2500, 5591, 4507),
    )
    for n, width in zip((2.0, 1.5), widths, strict=True)
]

# Secants of slopes run : rise, an identity, to the digits of the usual tables.
SECANTS = [(0.5, 2.23607), (1, 1.41421), (1.5, 1.20185), (2, 1.11803), (4, 1.03078), (20, 1.00125)]


@pytest.mark.parametrize(("run", "thickness", "width"), RIPRAP)
def test_riprap_widths(run, thickness, width):
    """Horizontal width of a layer on a slope, within the millimetre of the table."""
    tin = prism([(0.0, 0.0), (20.0, 20.0 / run)])
    _, after, outcome = squared(tin, [whole(tin)], [thickness / 1000])
    plumb = after.design - after.heights
    np.testing.assert_allclose(1000 * plumb * run, width, atol=1.0)
    np.testing.assert_allclose(plumb, square_depth(1 / run, 0.0, thickness / 1000), rtol=1e-12)
    assert outcome.largest_residual < 1e-12


@pytest.mark.parametrize(("run", "secant"), SECANTS)
def test_secants(run, secant):
    assert square_depth(0.0, 1 / run, 1.0) == pytest.approx(secant, abs=5e-6)
    # Heights in feet, plan in metres: the slope in true proportions.
    assert square_depth(1 / (run * 0.3048), 0.0, 2.0, 0.3048) == pytest.approx(2 * secant, abs=1e-5)


def test_volume_is_thickness_times_sloped_area():
    """Of a layer square to one plane (identity)."""
    tin = sheet(9, 9, height=lambda xy: 0.4 * xy[:, 0] - 0.3 * xy[:, 1])
    zone = shapely.Polygon([(1.2, 1.3), (6.9, 0.8), (5.1, 6.6)])
    before, after, _ = squared(tin, [zone], [0.25])
    inside = after.zone == 0
    depth = (after.design - after.heights)[inside].mean(axis=1)
    volume = (signed_areas(after.points, after.faces[inside]) * depth).sum()
    sloped = zone.area * np.sqrt(1 + 0.25)
    assert volume == pytest.approx(0.25 * sloped, rel=1e-4)  # the border is noded on a grid
    cut = signed_areas(before.points, before.faces[before.zone == 0]).sum()
    assert volume == pytest.approx(0.25 * cut * np.sqrt(1 + 0.25), rel=1e-12)


def section(profile, thickness):
    """The profile moved at right angles by GEOS, corners mitred; its ends carried on."""
    (x0, z0), (x1, z1) = profile[0], profile[1]
    (x2, z2), (x3, z3) = profile[-2], profile[-1]
    far = 50.0
    start = x0 - far, z0 - far * (z1 - z0) / (x1 - x0)
    stop = x3 + far, z3 + far * (z3 - z2) / (x3 - x2)
    line = shapely.LineString([start, *profile[1:-1], stop])
    return shapely.offset_curve(line, -thickness, join_style="mitre", mitre_limit=1e3)


PROFILES = {
    "crown": [(0, 9.8), (5, 10), (10, 9.5)],
    "ditch": [(0, 10), (4, 8), (10, 9.5)],
    "ditch with a bottom": [(0, 10), (4, 8), (5, 8), (10, 9.5)],
    "bench": [(0, 10), (3, 9.9), (5, 9), (6, 8.9), (8, 7.5), (12, 7.4)],
    "narrow top": [(0, 5), (4.9, 9.9), (5.1, 9.9), (10, 7)],
    "narrow curb": [(0, 9.9), (5, 10), (5.1, 10.1), (5.25, 10.1), (5.3, 10), (12, 9.8)],
    "narrow bottom": [(0, 12), (4.9, 7), (5.1, 7.02), (10, 11)],
}


@pytest.mark.parametrize("thickness", [0.02, 0.3, -0.02, -0.3])
@pytest.mark.parametrize("name", PROFILES)
def test_sections_are_parallel_curves(name, thickness):
    """Every section of a prism is the parallel of its profile, as GEOS draws it (offset_curve)."""
    profile = PROFILES[name]
    tin = prism(profile)
    before, after, outcome = squared(tin, [whole(tin)], [thickness])
    assert whole_faults(before, after) == []
    assert outcome.held == 0 and outcome.largest_residual < 1e-9
    curve = section(profile, thickness)
    corner = shapely.points(after.points[after.faces][..., 0], after.heights)
    assert shapely.distance(corner, curve).max() < 1e-9
    # And between the points too: the edges of the result run along the curve.
    x = np.linspace(0.01, tin.extent[2] - 0.01, 97)
    z, _ = surface(after).sample(np.column_stack((x, np.full(len(x), 4.321))))
    assert shapely.distance(shapely.points(x, z), curve).max() < 1e-9


def test_narrow_top_vanishes():
    tin = prism(PROFILES["narrow top"], rows=11)
    before, after, outcome = squared(tin, [whole(tin)], [0.3])
    assert outcome.trimmed == 20 and len(after.faces) == len(before.faces) - 20
    gone = tin.vertices[tin.faces][..., 0].min(axis=1)
    assert not np.isin(np.flatnonzero(np.abs(gone - 4.9) < 1e-9), after.parent).any()


def lowest_of_planes(tin, xy, thickness):
    """The lowest of all moved planes of a surface: the truth below one that is arched."""
    a, b, c = (tin.vertices[tin.faces[:, k]] for k in range(3))
    normal = np.cross(b - a, c - a)
    normal /= np.sqrt((normal**2).sum(axis=1))[:, None]
    level = np.einsum("ij,ij->i", normal, a) - thickness
    return ((level - xy @ normal[:, :2].T) / normal[:, 2]).min(axis=1)


def test_hipped_end():
    """Three planes meet in a point: a pyramid's tip and both ends of a ridge."""
    rim = np.array([(0, 0, 0), (9, 0, 0), (9, 5, 0), (0, 5, 0)], dtype=float)
    ridge = np.array([(2.5, 2.0, 3.0), (5.0, 2.0, 3.0)])
    faces = [(0, 1, 5), (0, 5, 4), (1, 2, 5), (2, 3, 4), (2, 4, 5), (3, 0, 4)]
    tin = Tin.from_arrays(np.vstack((rim, ridge)), faces)
    inner = shapely.box(0.9, 0.9, 8.1, 4.1)
    before, after, _ = squared(tin, [inner], [0.35])
    assert whole_faults(before, after) == []
    tips = np.unique(after.faces[after.zone == 0])
    top = tips[np.isin(tips, np.arange(len(before.points)), invert=True)]
    height = np.zeros(len(after.points))
    height[after.faces[after.zone == 0]] = after.heights[after.zone == 0]
    on_ridge = top[height[top] > 1.9]
    assert len(on_ridge) >= 2
    truth = lowest_of_planes(tin, after.points[on_ridge], 0.35)
    np.testing.assert_allclose(height[on_ridge], truth, atol=1e-12)


@pytest.mark.parametrize("facets", [3, 4, 5, 12, 60])
@pytest.mark.parametrize("thickness", [0.4, -0.4])
def test_cone(facets, thickness):
    """All facets of a regular cone meet below its tip, t sec(a) down (by symmetry)."""
    angle = 2 * np.pi * np.arange(facets) / facets
    rim = np.column_stack((10 * np.cos(angle), 10 * np.sin(angle), np.zeros(facets)))
    tin = fan(rim, (0.0, 0.0, 4.0))
    before, after, _ = squared(tin, [shapely.Point(0, 0).buffer(3, quad_segs=1)], [thickness])
    assert whole_faults(before, after) == []
    slope = 4.0 / (10 * np.cos(np.pi / facets))
    inside = after.zone == 0
    shift = origin_of(tin)
    away = np.hypot(*np.moveaxis(after.points[after.faces] + shift, 2, 0))
    at_tip = (away < 1e-9) & inside[:, None]
    assert at_tip.sum() >= facets
    down = thickness * np.sqrt(1 + slope**2)
    np.testing.assert_allclose(after.heights[at_tip], 4.0 - down, atol=1e-12)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6), st.sampled_from([0.05, 0.2]))
def test_arched_surfaces(seed, thickness):
    """Where at most three planes meet the result is the lowest of the moved planes."""
    random = np.random.default_rng(seed)
    angle = np.sort(random.uniform(0, 2 * np.pi, 3)) + np.array([0.0, 0.3, 0.6])
    if np.diff(np.append(angle, angle[0] + 2 * np.pi)).max() > 0.9 * np.pi:
        return
    rim = np.column_stack((8 * np.cos(angle), 8 * np.sin(angle), random.uniform(-1, 0, 3)))
    tin = fan(rim, (0.0, 0.0, random.uniform(1, 4)))
    zone = shapely.Polygon(0.6 * rim[:, :2])
    before, after, _ = squared(tin, [zone], [thickness])
    assert whole_faults(before, after) == []
    origin = origin_of(tin)
    inside = shapely.contains_xy(zone.buffer(-3 * thickness), after.points + origin)
    corner = inside[after.faces] & (after.zone == 0)[:, None]
    assert corner.any()
    truth = lowest_of_planes(tin, after.points[after.faces[corner]] + origin, thickness)
    np.testing.assert_allclose(after.heights[corner], truth, atol=1e-9)


def test_raising_mirrors_lowering():
    profile = np.array(PROFILES["bench"])
    tin, mirrored = prism(profile), prism(profile * (1, -1))
    _, raised, _ = squared(tin, [whole(tin)], [-0.2])
    _, lowered, _ = squared(mirrored, [whole(tin)], [0.2])
    x = np.column_stack((np.linspace(0.1, 11.9, 50), np.full(50, 3.3)))
    up, down = surface(raised).sample(x)[0], surface(lowered).sample(x)[0]
    np.testing.assert_allclose(up, -down, atol=1e-12)


def test_plumb_depth_comes_on_top():
    tin = prism(PROFILES["ditch"])
    _, alone, _ = squared(tin, [whole(tin)], [0.2])
    _, both, _ = squared(tin, [whole(tin)], [0.2], depths=[1.5])
    np.testing.assert_allclose(both.heights, alone.heights - 1.5, atol=1e-12)
    np.testing.assert_array_equal(both.points, alone.points)


def test_heights_in_another_unit():
    """Heights in feet and plan in metres give the same surface as metres throughout."""
    foot = 0.3048
    profile = np.array(PROFILES["bench"])
    _, metres, one = squared(prism(profile), [whole(prism(profile))], [0.2])
    feet = prism(profile / (1, foot))
    _, scaled, other = squared(feet, [whole(feet)], [0.2 / foot], manner=Manner(z_scale=foot))
    np.testing.assert_allclose(scaled.points, metres.points, atol=1e-9)
    np.testing.assert_allclose(scaled.heights * foot, metres.heights, atol=1e-9)
    assert one.largest_move == pytest.approx(other.largest_move, rel=1e-9)


def test_noise_is_met_by_least_squares_and_said_so():
    random = np.random.default_rng(5)
    tin = sheet(20, 20, height=lambda xy: random.uniform(0, 0.4, len(xy)))
    before, after, outcome = squared(tin, [shapely.box(3.3, 3.3, 15.7, 15.7)], [0.3])
    assert whole_faults(before, after) == []
    inside = after.zone == 0
    off = np.abs(distances(after, tin)[inside] - 0.3)
    assert outcome.missed > 50 and outcome.largest_residual > 0.002
    assert off.max() == pytest.approx(outcome.largest_residual, rel=1e-6)
    unflagged = outcome.flags[inside] == ""
    assert unflagged.any() and off[unflagged].max() <= outcome.allowed * (1 + 1e-9)
    (finding,) = [f for f in outcome.findings((100.0, 200.0)) if f.code == "mitre_residual"]
    assert str(outcome.missed) in finding.why
    assert finding.place == (outcome.worst[0] + 100.0, outcome.worst[1] + 200.0)
