"""Widenings, batters, thickness and joining, as dialogs, fields and scripts give them."""

import numpy as np
import pytest
import shapely
import shapely.affinity
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsVectorLayer,
)

from plugin.algorithms.zone_values import read_ends, read_manner, read_tolerance
from plugin.core.depth.manner import BatterRule, Corners
from plugin.core.units import FOOT, METRE, US_SURVEY_FOOT
from plugin.layers.crs import JobUnits
from plugin.layers.meshes import read_ply, write_ply
from tests.core.cut_shapes import sheet

FEET = "EPSG:2264"  # US survey feet
METRES = "EPSG:3875"
ORIGIN = (1_500_000.0, 600_000.0)
USFT = JobUnits(US_SURVEY_FOOT, US_SURVEY_FOOT)


class Log(QgsProcessingFeedback):
    def __init__(self):
        super().__init__(False)
        self.warnings = []

    def pushWarning(self, warning):
        self.warnings.append(warning)


def box(west, south, east, north):
    return shapely.box(west + ORIGIN[0], south + ORIGIN[1], east + ORIGIN[0], north + ORIGIN[1])


def zones(*shapes, crs=FEET, **columns):
    """A layer with a column for each name; values are texts, or None."""
    fields = "".join(f"&field={name}:string" for name in columns)
    layer = QgsVectorLayer(f"Polygon?crs={crs}{fields}", "zones", "memory")
    features = []
    for row, shape in enumerate(shapes):
        feature = QgsFeature(layer.fields())
        feature.setGeometry(QgsGeometry.fromWkt(getattr(shape, "wkt", shape)))
        feature.setAttributes([values[row] for values in columns.values()])
        features.append(feature)
    assert layer.dataProvider().addFeatures(features)[0]
    return layer


@pytest.fixture
def algorithm(provider):
    return next(a for a in provider.algorithms() if a.name() == "depth_tin").create()


@pytest.fixture
def ends(algorithm):
    def call(layer, job=USFT, **parameters):
        return read_ends(algorithm, {"ZONES": layer, **parameters}, QgsProcessingContext(), job)

    return call


@pytest.fixture
def run(provider, tmp_path):
    import processing

    def call(
        layer, feedback=None, height=lambda plan: 100 + 0 * plan[:, 0], crs=FEET, **parameters
    ):
        path = tmp_path / "design.ply"
        tin = sheet(11, 11, 10.0, 0.0, 1, ORIGIN, height)
        write_ply(path, tin, QgsCoordinateReferenceSystem(crs))
        parameters = {
            "DESIGN": str(path),
            "ZONES": layer,
            "TIN": str(tmp_path / "result.ply"),
            **parameters,
        }
        return processing.run("undercourse:depth_tin", parameters, feedback=feedback)

    return call


def depth_at(result, *places, height=100.0):
    """Depth below a level design at places, by the faces that hold them."""
    ply = read_ply(result["TIN"])
    corners = ply.vertices[ply.faces]
    plan = corners[..., :2] - ORIGIN
    depths = []
    for place in places:
        a, b, c = (plan[:, k] for k in range(3))

        def area(p, q, r):
            u, v = q - p, r - p
            return u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]

        x = np.broadcast_to(np.array(place, dtype=float), a.shape)
        weights = (
            np.stack((area(x, b, c), area(a, x, c), area(a, b, x)), axis=1) / area(a, b, c)[:, None]
        )
        face = int(np.flatnonzero((weights >= -1e-9).all(axis=1))[0])
        depths.append(height - float(weights[face] @ corners[face, :, 2]))
    return depths


ZONE = box(40, 40, 60, 60)


def test_the_bottom_carries_on_by_a_length_with_its_unit(run):
    """1 ft past the edge, as past the back of a curb (common practice, no source)."""
    result = run(zones(ZONE), DEPTH="2", WIDEN="1 ft")
    inside, strip, beyond, corner = depth_at(result, (50, 50), (60.9, 50), (61.1, 50), (60.9, 60.9))
    assert inside == pytest.approx(2) and strip == pytest.approx(2)
    assert beyond == pytest.approx(0, abs=1e-9)
    assert corner == pytest.approx(2)  # mitred


def test_round_corners_leave_out_what_is_farther_than_the_width(run):
    result = run(zones(ZONE), DEPTH="2", WIDEN="1", CORNERS="round")
    corner, side = depth_at(result, (60.8, 60.8), (60.9, 50))
    assert corner == pytest.approx(0, abs=1e-9) and side == pytest.approx(2)


def test_the_field_counts_before_the_value_for_all(run):
    layer = zones(box(20, 40, 30, 60), box(60, 40, 70, 60), past=["6 in", None])
    result = run(layer, DEPTH="2", WIDEN="2 ft", WIDEN_FIELD="past")
    assert depth_at(result, (30.4, 50), (30.6, 50), (71.9, 50), (72.1, 50)) == pytest.approx(
        [2, 0, 2, 0], abs=1e-9
    )


def test_fields_of_usual_names_are_used_when_nothing_is_chosen(ends):
    layer = zones(ZONE, widen=["1"], batter=["2:1"], depth=["1"])
    found = ends(layer)
    assert (found.widen_field, found.batter_field) == ("widen", "batter")
    chosen = ends(layer, WIDEN="0", BATTER="0")
    assert (chosen.widen_field, chosen.batter_field) == ("", "")
    assert ends(zones(ZONE)).widen_field == ""


@pytest.mark.parametrize(
    ("text", "job", "width"),
    [
        ("1", JobUnits(US_SURVEY_FOOT, METRE), 1.0),  # the plan's unit, not that of the heights
        ("6 in", USFT, 0.5),
        ("0.3 m", JobUnits(METRE, FOOT), 0.3),
        ("300 mm", JobUnits(METRE, METRE), 0.3),
    ],
)
def test_widths_are_in_plan_units(ends, text, job, width):
    assert ends(zones(ZONE), job, WIDEN=text).widen == pytest.approx(width, abs=1e-15)


def test_a_batter_climbs_by_its_ratio(run):
    result = run(zones(ZONE), DEPTH="2", BATTER="1 1/2:1")
    # 3 of run for 2 of rise: halfway down after 1.5.
    assert depth_at(result, (61.5, 50), (62.9, 50), (63.1, 50)) == pytest.approx(
        [1.0, 0.1 / 1.5, 0.0], abs=1e-6
    )


def test_batters_of_zones_count_before_the_one_for_all(run):
    layer = zones(box(10, 40, 30, 60), box(60, 40, 80, 60), side=["3:1", None])
    result = run(layer, DEPTH="2", BATTER="1:1", BATTER_FIELD="side")
    assert depth_at(result, (33, 50), (81, 50)) == pytest.approx([1.0, 1.0], abs=1e-6)


@pytest.mark.parametrize(
    ("columns", "parameters", "part"),
    [
        ({"widen": ["1", "-6 in"]}, {}, "Zone 2, field “widen”: '-6 in' is negative"),
        ({"widen": ["1", "wide"]}, {}, "Zone 2, field “widen”: 'wide' cannot be read as a length"),
        ({"batter": ["1", "-2:1"]}, {}, "Zone 2, field “batter”: '-2:1' is negative"),
        ({"batter": ["1", "1:2"]}, {}, "Zone 2, field “batter”: '1:2' can be run to rise or rise"),
        ({"batter": ["1", "2 %"]}, {}, "Zone 2, field “batter”: '2 %' is a side of 50:1"),
        ({}, {"WIDEN": "-1 ft"}, "Carry the bottom on by: '-1 ft' is negative"),
        ({}, {"WIDEN": "far"}, "Carry the bottom on by: 'far' cannot be read"),
        ({}, {"BATTER": "steep"}, "Batter of the sides.*'steep' cannot be read as a batter"),
        ({}, {"BATTER": "-1"}, "Batter of the sides.*'-1' is negative"),
        ({}, {"SNAP": "0.2 ft"}, r"Join borders.*0\.200 usft .* is not between 0 and 0\.164 usft"),
        ({}, {"SNAP": "-1 mm"}, "Join borders.*is not between 0"),
        (
            {"rule": ["plumb", "slanted"]},
            {"THICKNESS_FIELD": "rule"},
            "Zone 2, field “rule”: 'slanted' is no",
        ),
        ({}, {"WIDEN_FIELD": "nothing"}, "nothing"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(run, tmp_path, columns, parameters, part):
    layer = zones(box(10, 10, 20, 20), box(40, 10, 50, 20), **columns)
    with pytest.raises(QgsProcessingException, match=part):
        run(layer, DEPTH="2", **parameters)
    assert not (tmp_path / "result.ply").exists()


def test_thickness_may_be_square_for_all_or_zone_by_zone(algorithm, provider):
    from plugin.algorithms.zone_inputs import read_zones

    layer = zones(box(10, 10, 20, 20), box(40, 10, 50, 20), how=["Square", None])
    crs = QgsCoordinateReferenceSystem(FEET)
    context = QgsProcessingContext()

    def read(**parameters):
        found = read_ends(algorithm, {"ZONES": layer, **parameters}, context, USFT)
        return read_zones(layer, "", 0.5, "", unit=US_SURVEY_FOOT, crs=crs, ends=found)

    done = read(THICKNESS_FIELD="how")
    assert (done.squares.tolist(), done.depths.tolist()) == ([0.5, 0.0], [0.0, 0.5])
    done = read(THICKNESS="square")
    assert (done.squares.tolist(), done.depths.tolist()) == ([0.5, 0.5], [0.0, 0.0])
    assert read().squares.tolist() == [0.0, 0.0]


def test_manner_and_tolerance_come_from_their_parameters(algorithm):
    context = QgsProcessingContext()
    manner = read_manner(
        algorithm, {"CORNERS": "round", "BATTER_RULE": "design"}, context, JobUnits(METRE, FOOT)
    )
    assert (manner.corners, manner.rule) == (Corners.ROUND, BatterRule.DESIGN)
    assert manner.z_scale == pytest.approx(0.3048)
    plain = read_manner(algorithm, {}, context, USFT)
    assert (plain.corners, plain.rule) == (Corners.MITRE, BatterRule.LEVEL)
    assert (
        read_tolerance(algorithm, {"SNAP": "10 mm"}, context, JobUnits(METRE, METRE)).join == 0.01
    )
    usual = read_tolerance(algorithm, {}, context, USFT)
    assert usual.join == usual.snap == pytest.approx(1e-4 * 3937 / 1200)
    assert read_tolerance(algorithm, {"SNAP": "0"}, context, USFT).join == 0
    most = read_tolerance(algorithm, {"SNAP": "50 mm"}, context, USFT)
    assert most.join == pytest.approx(0.05 * 3937 / 1200)


def test_gaps_up_to_the_snap_distance_close_and_are_told(run):
    layer = zones(box(20, 40, 40, 60), box(40.02, 40, 55, 60))
    log = Log()
    result = run(layer, log, DEPTH="2", SNAP="0.05 ft")
    assert depth_at(result, (40.01, 50)) == pytest.approx([2.0])
    assert result["LARGEST_MOVE"] == pytest.approx(0.02, rel=1e-6)
    told = [warning for warning in log.warnings if "nearly met" in warning]
    assert len(told) == 1 and "nearly met: 1, " in told[0] and "0.02" in told[0]
    log = Log()
    result = run(layer, log, DEPTH="2")
    assert depth_at(result, (40.01, 50)) == pytest.approx([0.0], abs=1e-9)
    assert not any("nearly met" in warning for warning in log.warnings)


def test_gaps_of_a_millionth_close_without_being_asked(run):
    layer = zones(box(20, 40, 40, 60), box(40.000001, 40, 55, 60.000002))
    result = run(layer, DEPTH="2")
    assert result["VOLUME_BELOW"] == pytest.approx(2 * 35 * 20, rel=1e-4)


# --- zones as they come ---------------------------------------------------------------------


def volume(shape, depth=2.0):
    return pytest.approx(shape.area * depth, abs=1.1e-3 * shape.length)


HOLED = box(20, 20, 80, 80) - box(40, 40, 60, 60)
TWICE = shapely.Polygon([(0, 0), (20, 0), (20, 0), (20, 20), (20, 20), (0, 20), (0, 0), (0, 0)])
MULTI = shapely.MultiPolygon([box(10, 10, 30, 30), box(60, 60, 90, 90)])
TOUCHES_ITSELF = shapely.Polygon(
    [(10, 10), (40, 10), (40, 40), (25, 10), (10, 40)], [[(30, 12), (38, 12), (38, 25)]]
)


@pytest.mark.parametrize(
    "shape",
    [
        HOLED,
        MULTI,
        shapely.affinity.translate(TWICE, *ORIGIN),
        shapely.affinity.translate(TOUCHES_ITSELF, *ORIGIN),
    ],
)
def test_holes_parts_doubled_corners_and_rings_that_touch_are_no_trouble(run, shape):
    result = run(zones(shape), DEPTH="2")
    assert result["VOLUME_BELOW"] == volume(shape)


def test_a_ring_that_touches_itself_at_a_hole_is_cut_as_it_is(run):
    """A hole that touches the outline at one point, as drawn by a ring that comes back."""
    shape = box(20, 20, 80, 80) - shapely.Polygon(
        [(ORIGIN[0] + x, ORIGIN[1] + y) for x, y in ((20, 50), (50, 40), (50, 60))]
    )
    assert shape.is_valid
    result = run(zones(shape), DEPTH="2")
    assert result["VOLUME_BELOW"] == volume(shape)


def test_a_ring_that_crosses_itself_is_refused_with_the_place(run):
    bow = (
        "POLYGON ((1500010 600010, 1500050 600050, 1500050 600010, 1500010 600050, 1500010 600010))"
    )
    with pytest.raises(QgsProcessingException, match=r"(?i)self-intersection.*1500030 600030"):
        run(zones(bow), DEPTH="2")


def test_overlaps_need_a_priority_and_depth_0_may_have_it(run):
    layer = zones(box(20, 20, 60, 60), box(40, 40, 80, 80), depth=["2", "0"], rank=["2", "1"])
    with pytest.raises(QgsProcessingException, match="Zones 1 and 2 overlap"):
        run(layer)
    first = QgsVectorLayer(
        f"Polygon?crs={FEET}&field=depth:double&field=rank:integer", "z", "memory"
    )
    features = []
    for shape, values in ((box(20, 20, 60, 60), [2.0, 2]), (box(40, 40, 80, 80), [0.0, 1])):
        feature = QgsFeature(first.fields())
        feature.setGeometry(QgsGeometry.fromWkt(shape.wkt))
        feature.setAttributes(values)
        features.append(feature)
    assert first.dataProvider().addFeatures(features)[0]
    result = run(first, PRIORITY_FIELD="rank")
    assert result["VOLUME_BELOW"] == pytest.approx(2 * (1600 - 400), rel=1e-4)


def test_zones_run_past_the_design_and_raise_it(run):
    log = Log()
    layer = zones(box(-20, 40, 20, 60), box(50, 40, 70, 60), depth=["2", "-1"])
    result = run(layer, log)
    assert result["VOLUME_BELOW"] == pytest.approx(2 * 20 * 20, rel=1e-4)
    assert result["VOLUME_ABOVE"] == pytest.approx(20 * 20, rel=2e-4)
    assert any("runs past the design" in warning for warning in log.warnings)


def test_a_deeper_neighbour_takes_a_zone_wholly_and_the_run_goes_on(run):
    layer = zones(box(40, 40, 60, 60), box(60.2, 48, 60.4, 52), depth=["2", "1"], widen=["1", "0"])
    result = run(layer)
    assert depth_at(result, (60.3, 50)) == pytest.approx([2.0])
