"""Stacks of courses: closed forms by hand, sums, and surfaces that never cross."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.courses.schedule import read_schedule
from plugin.core.depth.courses.stack import stack_courses
from plugin.core.depth.manner import BatterRule, Beyond, Manner
from plugin.core.depth.zones import Zones
from plugin.core.errors import ZoneError
from plugin.core.tolerance import Tolerance
from plugin.core.units import FOOT, METRE

from .cut_shapes import FAR, polygons, sheet

RUN = 1e-3
TOLERANCE = Tolerance(step=RUN)


def level(plan):
    return np.full(len(plan), 100.0)


def slope(plan):
    return 100 + 0.02 * plan[:, 0] - 0.01 * plan[:, 1]


def schedule(*rows, unit=FOOT):
    """Rows of (section, thickness, widen, batter, rule), numbered from the top in each section."""
    orders = {}
    made = []
    for section, thickness, *more in rows:
        orders[section] = orders.get(section, 0) + 1
        widen, batter, rule = [*more, *[None] * (3 - len(more))]
        made.append(
            {
                "section": section,
                "order": orders[section],
                "course": f"{section} {orders[section]}",
                "thickness": thickness,
                "widen": widen,
                "batter": batter,
                "rule": rule,
            }
        )
    return read_schedule(made, unit, unit)


def stacked(design, plan, *pairs, priority=None, beyond=Beyond.STOP, **manner):
    """Stack the sections of a schedule below (polygon, section) pairs."""
    shapes, names = zip(*pairs, strict=True)
    ids = np.arange(1, len(pairs) + 1)
    zones = Zones(polygons(*shapes), np.zeros(len(pairs)), ids, priority)
    sections = plan.of_zones(names, ids.tolist())
    return stack_courses(
        design, zones, sections, manner=Manner(**manner), beyond=beyond, tolerance=TOLERANCE
    )


def depths(stack, design, points):
    """Depth of each interface at some places, NaN where there is none: (k, n)."""
    top, _ = design.sample(points)
    return np.array([top - one.surface.tin.sample(points)[0] for one in stack.interfaces])


def tapered(side, depth):
    """Volume of a square pit whose four upright sides run `RUN` inwards."""
    return depth * (side**2 - 2 * side * RUN + 4 * RUN**2 / 3)


# --- published sections --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("inches", "together"),
    [((2, 8), 10), ((4, 8), 12), ((1.5, 1.5, 8), 11)],
)
def test_published_pavements(inches, together):
    """Godley TX ch. 94: 2 + 8 = 10 in and 4 + 8 = 12 in; Coshocton OH: 1 1/2 + 1 1/2 + 8 = 11."""
    design = sheet(21, 21, 2.0, height=slope)
    plan = schedule(*(("street", f"{thick} in") for thick in inches))
    stack = stacked(design, plan, (shapely.box(9, 9, 29, 29), "street"))
    below = depths(stack, design, np.array([[19.3, 17.2]]))[:, 0]
    assert below * 12 == pytest.approx(np.cumsum(inches))
    assert below[-1] * 12 == pytest.approx(together)
    volumes = [tapered(20, thick / 12) for thick in inches]
    assert stack.quantities.volumes == pytest.approx(volumes, rel=1e-9)
    assert stack.quantities.plan_areas == pytest.approx([400.0] * len(inches), rel=1e-12)
    face = (20 - 2 * RUN) ** 2 * np.sqrt(1 + 0.02**2 + 0.01**2)
    assert stack.quantities.sloped_areas == pytest.approx([face] * len(inches), rel=1e-9)


# --- a walk beside a lane ------------------------------------------------------------------

LANE, WALK = shapely.box(0, 0, 20, 30), shapely.box(20, 0, 26, 30)
BESIDE = (
    ("lane", 0.15),
    ("lane", 0.25),
    ("lane", 0.70, 0.5),
    ("walk", 0.375),
    ("walk", 0.333, 0.25),
)


def test_a_walk_beside_a_lane_stacks_without_gaps_or_overlaps():
    """By hand in the section at right angles to the border, 30 long between the ends.

    Surface 2: the walk's bedding (0.708) reaches 0.25 below the lane (0.40). Surface 3: the
    lane's base (1.10) reaches 0.5 below the walk. West of the lane the design ends.
    """
    design = sheet(31, 16, 2.0, height=slope)
    stack = stacked(design, schedule(*BESIDE), (LANE, "lane"), (WALK, "walk"))
    x = np.array([10.0, 19.5, 19.8, 20.2, 20.6, 25.9, 26.2, 26.3])
    found = depths(stack, design, np.column_stack((x, np.full(len(x), 13.7))))
    assert found == pytest.approx(
        np.array(
            [
                [0.15, 0.15, 0.15, 0.375, 0.375, 0.375, 0, 0],
                [0.40, 0.40, 0.708, 0.708, 0.708, 0.708, 0.708, 0],
                [1.10, 1.10, 1.10, 1.10, 0.708, 0.708, 0.708, 0],
            ]
        )
    )
    quantities = stack.quantities
    assert quantities.zone.tolist() == [0, 0, 0, 1, 1]
    # Upright sides run `RUN` inside the deeper pit: half of that times their height is not dug.
    half = RUN / 2
    walk_1 = 0.375 * 6 - half * (0.375 - 0.15) - half * 0.375
    surface_2_east = 0.708 * 6.5 - half * (0.708 - 0.40) - half * 0.708
    surface_2_west = 0.40 * 19.75 + 0.708 * 0.75 - half * (0.708 - 0.40)
    surface_3_west = 1.10 * 20.5 - half * (1.10 - 0.708)
    by_hand = [
        0.15 * 20,
        0.25 * 19.75,
        surface_3_west - surface_2_west,
        walk_1,
        surface_2_east - 0.15 * 0.25 - walk_1,
    ]
    assert quantities.volumes == pytest.approx(30 * np.array(by_hand), rel=1e-9)
    lowest = surface_3_west + 0.708 * 5.75 - half * 0.708
    assert quantities.volumes.sum() == pytest.approx(30 * lowest, rel=1e-9)
    assert quantities.unassigned == pytest.approx(0, abs=1e-9)


# --- sums, crossings -----------------------------------------------------------------------


def between(design, stack):
    """Volume between the design and the lowest surface, from depths at the corners of faces."""
    surface = stack.interfaces[-1].surface
    return float((surface.tin.plan_areas * surface.depths[surface.tin.faces].mean(axis=1)).sum())


@settings(max_examples=25, deadline=None)
@given(
    st.integers(0, 10_000),
    st.lists(
        st.lists(
            st.tuples(
                st.sampled_from([0.1, 0.25, 1.0]),
                st.sampled_from([0.0, 0.0, 0.3, 1.1]),
            ),
            min_size=1,
            max_size=3,
        ),
        min_size=3,
        max_size=3,
    ),
)
def test_courses_sum_up_and_surfaces_do_not_cross(seed, made):
    random = np.random.default_rng(seed)
    origin = FAR if seed % 2 else (0, 0)
    design = sheet(9, 9, 2.0, 0.2, seed, origin)
    split = random.uniform(5, 11)
    cells = (
        shapely.box(1, 2, split, 13),
        shapely.box(split, 3, 15, 9),
        shapely.box(split, 9, 17, 14),
    )
    pairs = [
        (shapely.transform(cell, lambda xy: xy + origin), f"s{n}") for n, cell in enumerate(cells)
    ]
    rows = [(f"s{n}", *course) for n, courses in enumerate(made) for course in courses]
    stack = stacked(design, schedule(*rows), *pairs)
    total = between(design, stack)
    assert stack.quantities.volumes.sum() + stack.quantities.unassigned == pytest.approx(
        total, rel=1e-9
    )
    assert abs(stack.quantities.unassigned) <= 1e-6 * total
    points = random.uniform(0, 16, (400, 2)) + origin
    found = depths(stack, design, points)
    found = np.vstack((np.zeros(400), found))[:, np.isfinite(found[0])]
    assert found.shape[1] > 100 and (np.diff(found, axis=0) > -1e-7).all()


# --- past the edge of the design -----------------------------------------------------------


def test_floors_past_the_edge_end_there_or_go_on_with_the_slope_of_the_design():
    """A zone up to the eastern edge, its base 1 wider: 12 x 12 in all, 11 of them on the design."""
    design = sheet(11, 11, 2.0, height=slope)
    plan = schedule(("lane", 0.3), ("lane", 0.5, 1.0))
    zone = (shapely.box(10, 5, 20, 15), "lane")
    stopped = stacked(design, plan, zone)
    assert stopped.quantities.volumes.sum() == pytest.approx(11 * 12 * 0.8, rel=1e-3)
    assert [finding.code for finding in stopped.findings] == ["beyond"]
    carried = stacked(design, plan, zone, beyond=Beyond.CARRY)
    upper, lower = carried.quantities.volumes
    assert upper == pytest.approx(tapered(10, 0.3), rel=1e-9)
    assert upper + lower == pytest.approx(tapered(12, 0.8), rel=1e-9)
    assert [finding.code for finding in carried.findings] == ["carried"]
    first, second = carried.interfaces
    for interface, east in ((first, 20.0), (second, 21.0)):
        tin = interface.surface.tin
        shown = tin.vertices[tin.faces[interface.wanted]].reshape(-1, 3)
        assert shown[:, 0].max() == pytest.approx(east, abs=1e-9)
        assert set(interface.parent.tolist()) <= set(range(len(design.faces)))
    floor = second.surface.tin.sample(np.array([[20.5, 8.3]]))[0]
    assert floor == pytest.approx(slope(np.array([[20.5, 8.3]])) - 0.8)


def test_sides_past_the_edge_come_to_an_end():
    design = sheet(21, 21, 2.0, height=level)
    plan = schedule(("pond", 1, 0, 3), ("pond", 1, 0, 3))
    zone = (shapely.box(24, 12, 38, 26), "pond")
    stopped = stacked(design, plan, zone)
    assert "no_daylight" in {finding.code for finding in stopped.findings}
    carried = stacked(design, plan, zone, beyond=Beyond.CARRY)
    assert carried.quantities.volumes.sum() == pytest.approx(frustum(14, 2, 3), rel=1e-9)
    assert "no_daylight" not in {finding.code for finding in carried.findings}


# --- what else -----------------------------------------------------------------------------


def test_a_section_with_fewer_courses_stays_at_its_last():
    design = sheet(11, 11, 2.0, height=level)
    plan = schedule(("deep", 0.5), ("deep", 0.5), ("deep", 0.5), ("thin", 0.25))
    stack = stacked(
        design, plan, (shapely.box(2, 2, 8, 8), "deep"), (shapely.box(12, 12, 18, 18), "thin")
    )
    assert len(stack.interfaces) == 3
    found = depths(stack, design, np.array([[5.0, 5.0], [15.0, 15.0], [10.0, 10.0]]))
    by_hand = np.array([[0.5, 0.25, 0], [1.0, 0.25, 0], [1.5, 0.25, 0]])
    assert found == pytest.approx(by_hand, abs=1e-12)
    last = stack.interfaces[-1]
    assert set(last.course[last.zone == 1].tolist()) == {1}
    assert stack.quantities.volumes == pytest.approx(
        [tapered(6, 0.5)] * 3 + [tapered(6, 0.25)], rel=1e-9
    )
    assert stack.quantities.plan_areas == pytest.approx([36.0] * 4)


def test_an_upper_course_that_is_wider_stays_in_the_surfaces_below():
    """12 x 12 wide 0.3 deep, and 8 x 8 in it 1.0 deep."""
    design = sheet(11, 11, 2.0, height=slope)
    plan = schedule(("bed", 0.3, 2.0), ("bed", 0.7))
    stack = stacked(design, plan, (shapely.box(6, 6, 14, 14), "bed"))
    found = depths(stack, design, np.array([[10.1, 9.7], [5.0, 10.3], [3.0, 3.0]]))
    assert found == pytest.approx(np.array([[0.3, 0.3, 0], [1.0, 0.3, 0]]), abs=1e-9)
    upper, lower = stack.quantities.volumes
    assert upper == pytest.approx(tapered(12, 0.3), rel=1e-9)
    assert lower == pytest.approx(tapered(8, 0.7), rel=1e-9)
    assert not stack.findings


def frustum(side, depth, ratio):
    """Volume of a square pit with sides of a ratio, mitred at the corners, below a level design."""
    top = side + 2 * ratio * depth
    return depth / 3 * (side**2 + top**2 + side * top)


@pytest.mark.parametrize("rule", list(BatterRule))
def test_sides_of_both_courses_below_a_level_design(rule):
    design = sheet(21, 21, 2.0, height=level)
    plan = schedule(("garden", 0.25, 0, "1.5:1"), ("garden", 1.35, 0, "1.5:1"))
    stack = stacked(design, plan, (shapely.box(11, 11, 29, 29), "garden"), rule=rule)
    upper, lower = stack.quantities.volumes
    assert upper == pytest.approx(frustum(18, 0.25, 1.5), rel=1e-9)
    assert upper + lower == pytest.approx(frustum(18, 1.6, 1.5), rel=1e-9)
    outline = (18 + 2 * 1.5 * 1.6) ** 2
    assert stack.quantities.plan_areas[1] == pytest.approx(outline, rel=1e-9)
    on_slope = 18**2 + (outline - 18**2) * np.hypot(1, 1.5) / 1.5
    assert stack.quantities.sloped_areas[1] == pytest.approx(on_slope, rel=1e-9)


def test_flat_sides_above_an_upright_trench():
    """Topsoil 0.5 with sides 2:1, below it a trench of 3 as wide as the strip, upright."""
    design = sheet(21, 21, 2.0, height=level)
    plan = schedule(("trench", 0.5, 0, 2), ("trench", 3))
    stack = stacked(design, plan, (shapely.box(13, 13, 27, 27), "trench"))
    x = np.array([20.0, 12.999, 12.5, 12.1, 11.9])
    found = depths(stack, design, np.column_stack((x, np.full(len(x), 20.1))))
    by_hand = np.array([[0.5, 0.4995, 0.25, 0.05, 0], [3.5, 0.4995, 0.25, 0.05, 0]])
    # The edge of a ledge moves by up to the grid on which borders are noded.
    assert found == pytest.approx(by_hand, abs=TOLERANCE.node_grid)
    upper, lower = stack.quantities.volumes
    assert upper == pytest.approx(frustum(14, 0.5, 2), rel=1e-5)
    assert lower == pytest.approx(14**2 * 3, rel=1e-3)
    assert stack.quantities.crossed.max() < 1e-4 * lower


@pytest.mark.parametrize(("ratio", "secant"), [(2.0, 1.11803), (1.5, 1.20185), (3.0, 1.05409)])
def test_courses_square_to_a_slope(ratio, secant):
    """Secants as printed in tables of slopes; a layer t thick square to a plane holds t times
    its area on the slope, and a plumb one t times its plan area (identities)."""
    design = sheet(11, 11, 2.0, height=lambda plan: 100 + plan[:, 0] / ratio)
    rows = [
        ("bank", 0.25, 0, 0, "plumb"),
        ("bank", 0.45, 0, 0, "square"),
        ("bank", 0.6, 0, 0, "square"),
    ]
    stack = stacked(design, schedule(*rows, unit=METRE), (shapely.box(4, 4, 16, 16), "bank"))
    found = depths(stack, design, np.array([[9.3, 10.1]]))[:, 0]
    by_hand = [0.25, 0.25 + 0.45 * secant, 0.25 + 1.05 * secant]
    assert found == pytest.approx(by_hand, rel=1e-5)
    plumb, upper, lower = stack.quantities.volumes
    exact = np.hypot(1, 1 / ratio)
    assert plumb == pytest.approx(0.25 * 144, rel=1e-3)
    assert upper == pytest.approx(0.45 * exact * 144, rel=1e-3)
    assert lower == pytest.approx(0.6 * exact * 144, rel=1e-3)
    on_slope = stack.quantities.sloped_areas[1]
    assert upper / on_slope == pytest.approx(0.45, rel=1e-3)


def test_a_side_that_a_ledge_cannot_follow_is_flagged():
    """Sides from the level on a steep design, over the 3 units from their own edge to a ledge."""
    design = sheet(41, 41, 2.0, height=lambda plan: 100 + 0.2 * plan[:, 0])
    plan = schedule(("cut", 2, 0, 2), ("cut", 0.1, 3))
    shape = shapely.box(30, 30, 50, 50)
    stack = stacked(design, plan, (shape, "cut"), rule=BatterRule.LEVEL)
    assert {finding.code for finding in stack.findings} == {"crossing"}
    assert stack.findings[0].why.startswith("Zone 1: at “cut 1” a surface comes above")
    assert not stacked(design, plan, (shape, "cut"), rule=BatterRule.DESIGN).findings


def test_heights_in_another_unit_than_the_plan():
    design = sheet(11, 11, 2.0, height=level)
    plan = schedule(("lane", 0.5), unit=METRE)
    stack = stacked(
        design,
        plan,
        (shapely.box(5, 5, 15, 15), "lane"),
        z_scale=1 / 0.3048,
    )
    assert stack.quantities.volumes == pytest.approx([tapered(10, 0.5 / 0.3048)], rel=1e-9)


def test_loose_volume_and_mass():
    """1 m3 of 2,350 kg/m3 with a swell of 1.25; a cubic foot is 0.3048^3 m3."""
    rows = [
        {"section": "a", "order": 1, "course": "x", "thickness": "1", "swell": 1.25},
        {"section": "a", "order": 2, "course": "y", "thickness": "1", "density": "2350 kg/m3"},
    ]
    design = sheet(11, 11, 2.0, height=level)
    found = stacked(
        design, read_schedule(rows, FOOT, FOOT), (shapely.box(5, 5, 15, 15), "a")
    ).quantities
    loose, tonnes = found.loose(), found.tonnes(0.3048)
    assert loose[0] == pytest.approx(1.25 * found.volumes[0]) and np.isnan(loose[1])
    assert np.isnan(tonnes[0])
    assert tonnes[1] == pytest.approx(2.35 * 0.3048**3 * tapered(10, 1.0), rel=1e-9)


def test_overlaps_are_refused_or_settled_by_priority():
    design = sheet(11, 11, 2.0, height=level)
    plan = schedule(("lane", 0.5), ("walk", 0.25))
    pairs = [(shapely.box(2, 2, 10, 10), "lane"), (shapely.box(8, 2, 14, 10), "walk")]
    with pytest.raises(ZoneError, match="Zones 1 and 2 overlap"):
        stacked(design, plan, *pairs)
    stack = stacked(design, plan, *pairs, priority=np.array([2.0, 1.0]))
    assert depths(stack, design, np.array([[9.0, 5.0]]))[0] == pytest.approx(0.25)


def test_a_pit_that_a_neighbour_swallows_is_no_cause_for_alarm_while_another_shows():
    design = sheet(11, 11, 2.0, height=level)
    inner = shapely.box(7, 7, 13, 13)
    plan = schedule(("bed", 0.3, 1.0), ("bed", 0.7), ("deep", 5))
    ring = (shapely.box(3, 3, 17, 17) - inner, "deep")
    assert not stacked(design, plan, (inner, "bed"), ring).findings
    over = (shapely.box(3, 3, 17, 17), "deep")
    stack = stacked(design, plan, (inner, "bed"), over, priority=np.array([2.0, 1.0]))
    assert [(found.code, found.feature) for found in stack.findings] == [("covered", 1)]


def test_what_may_be_wrong_is_told_once():
    design = sheet(11, 11, 2.0, height=level)
    plan = schedule(("lane", 0.5), ("lane", 0.5), ("lane", 0.5))
    stack = stacked(design, plan, (shapely.box(-4, 2, 10, 10), "lane"))
    assert [finding.code for finding in stack.findings] == ["beyond"]
