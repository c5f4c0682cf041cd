"""Guidelines beside true arcs are true arcs, as files hold them."""

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import shapely
from qgis.core import QgsCompoundCurve, QgsVectorLayer, QgsWkbTypes

from tests.algorithms.test_guidelines import METRES, Log, plane, rows, run, shapes
from tests.core.test_lines_arc_corners import path
from tests.core.tin_shapes import REAL

__all__ = ["run"]  # the fixture
STREET = "CompoundCurveZ ((0 0 10, 50 0 11), CircularStringZ (50 0 11, 64.142135623731 5.857864376269 12, 70 20 13), (70 20 13, 70 60 14))"  # noqa: E501  # fmt: skip


def parts(found):
    """Return (is an arc, points) of each component of each feature."""
    result = []
    for feature in found.getFeatures():
        geometry = feature.geometry()
        curve = geometry.constGet()
        assert isinstance(curve, QgsCompoundCurve)
        result.append([
            (own.hasCurvedSegments(), np.array([(p.x(), p.y(), p.z(), p.m()) for p in own.points()]))
            for own in (curve.curveAt(n) for n in range(curve.nCurves()))
        ])  # fmt: skip
    return result


@pytest.mark.parametrize(("side", "radius"), [("right", 21.5), ("left", 18.5)])
def test_an_arc_between_tangents_stays_one(run, tmp_path, side, radius):
    path = tmp_path / "g.gpkg"
    run(shapes("CompoundCurveZ", [STREET]), OFFSETS="1.5", SIDE=side, GUIDELINES=str(path))
    back = QgsVectorLayer(str(path), "back", "ogr")
    assert back.wkbType() == QgsWkbTypes.Type.CompoundCurveZM
    ((first, arc, last),) = parts(back)
    assert [is_arc for is_arc, _ in (first, arc, last)] == [False, True, False]
    assert np.hypot(*(arc[1][:, :2] - (50, 20)).T) == pytest.approx(radius, abs=1e-9)
    assert arc[1][[0, -1], 2].tolist() == [11, 13]
    assert arc[1][:, 3] == pytest.approx([50, 50 + 5 * np.pi, 50 + 10 * np.pi], abs=1e-9)
    assert last[1][-1, :2] == pytest.approx((70 + (1.5 if side == "right" else -1.5), 60))


def test_as_chords_when_asked_for_and_with_heights_of_a_surface(run, tmp_path):
    street = shapes("CompoundCurveZ", [STREET])
    made = run(street, ARCS="chords")["GUIDELINES"]
    assert made.wkbType() == QgsWkbTypes.Type.LineStringZM
    surface = plane(tmp_path)
    made = run(street, Z_FROM="surface", SURFACE=surface)["GUIDELINES"]
    assert made.wkbType() == QgsWkbTypes.Type.LineStringZM


def test_multipart_split_and_taper_work_beside_arcs(run):
    street = shapes("CompoundCurveZ", [STREET])
    made = run(street, PARTS="multi", OFFSETS="1, 2")["GUIDELINES"]
    assert made.wkbType() == QgsWkbTypes.Type.MultiCurveZM
    assert made.featureCount() == 2
    made = run(street, TAPER="1 > 2")["GUIDELINES"]
    assert made.featureCount() == 1
    crossing = shapes("LineString", ["LineString (0 5, 25 0, 60 -10)"])
    made = run(street, SIDE="toward", REFERENCE=crossing, ON_SWAP="split", MIN_SHARE=60)
    assert {row["side_line"] for row in rows(made["GUIDELINES"])} <= {"left", "right"}


def test_a_full_circle_keeps_its_arcs(run):
    circle = shapes("CircularString", ["CircularString (10 0, 0 10, -10 0, 0 -10, 10 0)"])
    made = run(circle, SIDE="right", OFFSETS="2")["GUIDELINES"]  # anticlockwise: right is outside
    (found,) = parts(made)
    assert all(is_arc for is_arc, _ in found)
    for _, xyz in found:
        assert np.hypot(*xyz[:, :2].T) == pytest.approx(12.0, abs=1e-9)


INTO_BEND = "CompoundCurve((0 0,50 0),CircularString(50 0,52.679491924311 10,50 20),(50 20,50 60))"


def test_at_an_inner_corner_with_a_bend_the_guideline_is_one_and_measured_itself(run):
    made = run(shapes("CompoundCurve", [INTO_BEND]), OFFSETS="2", SIDE="left")
    assert (made["GUIDELINE_COUNT"], made["LOST_COUNT"], made["CHORD_COUNT"]) == (1, 0, 0)
    assert made["MAX_DISTANCE_ERROR"] < 1e-8
    ((first, *bend, last),) = parts(made["GUIDELINES"])
    # Two arcs, since its station runs to that of the corner along the first.
    assert [is_arc for is_arc, _ in (first, *bend, last)] == [False, True, True, False]
    centre = np.array([50 - np.sqrt(300), 10.0])
    for _, arc in bend:
        assert np.hypot(*(arc[:, :2] - centre).T) == pytest.approx(18.0, abs=1e-9)
    meet = [centre[0] + np.sqrt(18**2 - 8**2), 2.0]
    assert first[1][-1, :2] == pytest.approx(meet, abs=1e-6)
    # As chords the error is told, too: a tenth of a millimetre, in feet.
    made = run(shapes("CompoundCurve", [INTO_BEND]), OFFSETS="2", SIDE="left", ARCS="chords")
    assert made["GUIDELINE_COUNT"] == 1
    assert 1e-4 < made["MAX_DISTANCE_ERROR"] < 1e-4 / 0.3048


@pytest.mark.parametrize("heading", [0.0, 40.0])
def test_a_straight_guideline_that_ends_before_an_arc_of_its_line_keeps_its_distance(run, heading):
    """A line into a loop of 356 degrees and out: straight pieces stop where the loop is near."""
    street, loop, end = ("go", 30.0), ("bend", 8.6, 356.0), ("go", 25.0)
    dense, _ = path(street, loop, end, heading=heading, dense=True)
    line, arcs = path(street, loop, end, heading=heading)
    a, b = (np.flatnonzero(arcs.ends(line))[n] for n in (0, -1))
    ends = [f"{x:.12f} {y:.12f}" for x, y in line.xy[[0, a, (a + b) // 2, b, -1]]]
    drawn = "CompoundCurve(({0},{1}),CircularString({1},{2},{3}),({3},{4}))".format(*ends)
    for side in ("left", "right"):
        made = run(shapes("CompoundCurve", [drawn]), OFFSETS="2", SIDE=side)
        assert made["GUIDELINE_COUNT"] > 1
        for found in parts(made["GUIDELINES"]):
            for is_arc, xyz in found:
                share = np.linspace(0, 1, 21)[:, None]
                spots = xyz[:, :2]
                if not is_arc:
                    spots = np.vstack([p + share * (q - p) for p, q in pairwise(spots)])
                away = shapely.distance(shapely.points(spots), dense.geometries[0])
                assert away.min() > 2.0 - 2e-6
        assert made["MAX_DISTANCE_ERROR"] < 1e-6 and made["CHORD_COUNT"] == 0


def test_parts_of_a_split_line_keep_their_arcs(run):
    street = shapes("CompoundCurveZ", [STREET])
    crossing = shapes("LineString", ["LineString (40 20, 80 -10)"])
    made = run(
        street, SIDE="toward", REFERENCE=crossing, ON_SWAP="split", OFFSETS="1.5", MIN_SHARE=50
    )
    found = parts(made["GUIDELINES"])
    assert len(found) > 1
    arcs = [xyz for own in found for is_arc, xyz in own if is_arc]
    assert len(arcs) >= 2  # the line swaps within its bend
    for xyz in arcs:
        away = np.hypot(*(xyz[:, :2] - (50, 20)).T)
        assert np.abs(np.abs(away - 20.0) - 1.5).max() < 1e-6


@pytest.mark.parametrize("side", ["toward", "away"])
def test_every_part_of_a_line_that_a_reference_crosses_in_a_bend_is_laid(run, side):
    """Left of the line before the crossing and right of it from there on; all true arcs."""
    crossing = shapes("LineString", ["LineString (20 10, 90 -5, 90 40)"])
    made = run(
        shapes("CompoundCurveZ", [STREET]), SIDE=side, REFERENCE=crossing, ON_SWAP="split", OFFSETS="1.5"  # noqa: E501
    )  # fmt: skip
    signs = [row["signed_offset"] for row in rows(made["GUIDELINES"])]
    assert signs == ([-1.5, 1.5] if side == "toward" else [1.5, -1.5])
    assert (made["FLAGGED_COUNT"], made["LOST_COUNT"], made["CHORD_COUNT"]) == (0, 0, 0)


@pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
@pytest.mark.parametrize("side", ["right", "left"])
def test_the_real_alignment_both_ways_written_and_read_back(run, tmp_path, side):
    """LandXML alignment of the InfraModel sample (buildingSMART Finland, CC BY 4.0)."""
    import processing

    source = str(tmp_path / "al.gpkg")
    processing.run(
        "undercourse:read_landxml",
        {"INPUT": str(Path(REAL) / "road_alignment.xml"), "ALIGNMENTS": source},
    )
    path = str(tmp_path / "g.gpkg")
    log = Log()
    run(source, feedback=log, SIDE=side, OFFSETS="3 m", STATIONS="m", GUIDELINES=path)
    (given,) = parts(QgsVectorLayer(source, "al", "ogr"))
    (laid,) = parts(QgsVectorLayer(path, "g", "ogr"))
    arcs, beside = ([xyz for is_arc, xyz in own if is_arc] for own in (given, laid))
    assert len(arcs) == len(beside) > 3
    sign = 1.0 if side == "right" else -1.0
    for arc, other in zip(arcs, beside, strict=True):
        centre, radius = _circle(arc)
        turns_right = _cross(arc) < 0
        expected = radius - sign * 3.0 * (1 if turns_right else -1)
        assert np.hypot(*(other[:, :2] - centre).T) == pytest.approx(expected, abs=1e-6)
        # Stations at both ends of the arc are those of the alignment itself.
        assert other[[0, -1], 3] == pytest.approx(arc[[0, -1], 3], abs=1e-6)


def _cross(arc):
    a, b = arc[1, :2] - arc[0, :2], arc[2, :2] - arc[0, :2]
    return a[0] * b[1] - a[1] * b[0]


def _circle(arc):
    (bx, by), (cx, cy) = arc[1:, :2] - arc[0, :2]
    d = 2 * (bx * cy - by * cx)
    x = (cy * (bx**2 + by**2) - by * (cx**2 + cy**2)) / d
    y = (bx * (cx**2 + cy**2) - cx * (bx**2 + by**2)) / d
    return arc[0, :2] + (x, y), np.hypot(x, y)


STEEP = "CompoundCurveZ((0 0 1, 50 0 2),CircularStringZ(50 0 2, 52.679491924311 10 2.5, 50 20 3),(50 20 3, 50 60 4))"  # noqa: E501  # fmt: skip


def square_beside(curve, share, offset):
    """Return a place on a written curve, and its M and Z, a share of the way along one part."""
    is_arc, points = curve
    if not is_arc:
        run = np.append(0, np.hypot(*np.diff(points[:, :2], axis=0).T).cumsum())
        return np.array([np.interp(share * run[-1], run, column) for column in points.T])
    centre = np.array([50 - np.sqrt(300), 10.0])
    start, stop = (np.arctan2(*(points[n, :2] - centre)[::-1]) for n in (0, -1))
    angle = start + share * (stop - start)
    place = centre + (20 + offset) * np.array([np.cos(angle), np.sin(angle)])
    half = angle <= (start + stop) / 2
    a, b, t = (points[0], points[1], 2 * share) if half else (points[1], points[2], 2 * share - 1)
    return np.concatenate((place, (a + t * (b - a))[2:]))


@pytest.mark.parametrize(("side", "offset"), [("right", 2.0), ("left", -2.0)])
def test_m_and_z_are_those_square_beside_at_sharp_corners_with_an_arc(run, side, offset):
    """Bends of 30 degrees where an arc begins and ends: every part but the tips is exact."""
    made = run(shapes("CompoundCurveZ", [STEEP]), OFFSETS="2", SIDE=side, MITRE_LIMIT=3)
    (found,) = parts(made["GUIDELINES"])
    bend = 20 * np.radians(60)
    seen = 0
    for curve in found:
        for share in np.linspace(0.01, 0.99, 25):
            x, y, z, m = square_beside(curve, share, offset)
            to = np.array([x, y]) - (50 - np.sqrt(300), 10.0)
            angle = np.degrees(np.arctan2(to[1], to[0]))
            if abs(y + offset) < 1e-6 and x < 50:
                station, height = x, 1 + x / 50
            elif abs(x - 50 - offset) < 1e-6 and y > 20:
                station, height = 30 + bend + y, 3 + (y - 20) / 40
            elif abs(np.hypot(*to) - 20 - offset) < 1e-6 and abs(angle) < 30:
                station = 50 + 20 * np.radians(angle + 30)
                height = 2 + (angle + 30) / 60
            else:
                continue
            inner = 50 + bend if side == "right" else 50
            if abs(station - inner) <= 4:
                continue  # two places are square beside the tip: they are reconciled there
            seen += 1
            assert m == pytest.approx(station, abs=1e-5)
            assert z == pytest.approx(height, abs=1e-5)
    assert seen > 60


def at_shares(curve, count=13):
    """Points (x, y, z, m) along one part of a written curve, as readers of the file see them."""
    is_arc, points = curve
    if not is_arc:
        share = np.linspace(0, 1, count)[:, None]
        return np.concatenate([a + share * (b - a) for a, b in pairwise(points)])
    centre, radius = _circle(points)
    turn = np.unwrap(np.arctan2(*(points[:, 1::-1] - centre[::-1]).T))
    angle = np.linspace(turn[0], turn[2], count)
    order = np.argsort(turn)
    rest = [np.interp(angle, turn[order], points[order, n]) for n in (2, 3)]
    return np.column_stack((centre[0] + radius * np.cos(angle), centre[1] + radius * np.sin(angle), *rest))  # noqa: E501  # fmt: skip


BEND_AND_BEND = "CompoundCurveZ(CircularStringZ(0 0 100,2.5872734806213451 -10.941744482298949 99.770001599296961,0.70872564885450373 -22.027177014375003 99.540003198593908),CircularStringZ(0.70872564885450373 -22.027177014375003 99.540003198593908,-17.542771118059324 -17.087212485959782 99.651838977499196,-29.459096540613071 -5.6668969009497339 99.749179449038522))"  # noqa: E501  # fmt: skip


def test_stations_along_an_arc_run_to_those_of_its_inner_corner_within_the_offset(run):
    """Wherever that stretch begins, between two chords too: the arc is written as two."""
    first = _circle(np.array([(0, 0), (2.5872734806213451, -10.941744482298949), (0.70872564885450373, -22.027177014375003)]))  # noqa: E501  # fmt: skip
    length = 22.637622
    for offset in np.append(np.linspace(2.9, 3.1, 31), 3.0):
        made = run(
            shapes("CompoundCurveZ", [BEND_AND_BEND], METRES), SIDE="right", OFFSETS=f"{offset:.6f}"
        )
        (found,) = parts(made["GUIDELINES"])
        own = at_shares(found[0])
        start = np.arctan2(*(-first[0])[::-1])
        angle = (start - np.arctan2(*(own[:, 1::-1] - first[0][::-1]).T)) % (2 * np.pi)
        angle[angle > 6.0] = 0.0
        assert np.abs(own[:, 3] - first[1] * angle).max() < 1e-3, offset
        assert found[1][0] and found[1][1][-1, 3] == pytest.approx(length, abs=0.05)


SLIVER = "CompoundCurveZ(CircularStringZ(0 0 100,-1.4603790526966733 4.6207304750131053 100.1,1.5933982255532122 21.435016828568578 100.4),(1.5933982255532122 21.435016828568578 100.4,2.1630858386548431 30.922426571647701 100.3),(2.1630858386548431 30.922426571647701 100.3,0 0 100))"  # noqa: E501  # fmt: skip


def test_what_is_left_of_a_corner_after_an_arc_comes_no_nearer_than_the_offset(run):
    made = run(shapes("CompoundCurveZ", [SLIVER], METRES), SIDE="right", OFFSETS="3")
    line = shapely.linestrings([(2.1630858386548431, 30.922426571647701), (0, 0)])
    for found in parts(made["GUIDELINES"]):
        for own in found:
            away = shapely.distance(shapely.points(at_shares(own)[:, :2]), line)
            assert away.min() > 3.0 - 1e-6


SHORT_INNER = "CompoundCurveZ((0 0 100,0 -10 99),(0 -10 99,2.9354457792 -10.6189914792 98),CircularStringZ(2.9354457792 -10.6189914792 98,12.4809761297 -29.0502174514 97.5,25.093449357 -36.866237803 97))"  # noqa: E501  # fmt: skip


@pytest.mark.parametrize("join", ["round", "bevel", "mitre"])
def test_from_an_inner_corner_close_to_an_outer_one_stations_run_on_round_its_tip(run, join):
    """Beyond the offset from the inner corner all is that of the outer corner, with an arc too."""
    lines = shapes("CompoundCurveZ", [SHORT_INNER], METRES)
    (found,) = parts(run(lines, SIDE="left", OFFSETS="3", JOIN=join)["GUIDELINES"])
    rows = np.concatenate([at_shares(own) for own in found])
    along = np.append(0.0, np.hypot(*np.diff(rows[:, :2], axis=0).T).cumsum())
    assert (np.diff(rows[:, 3]) >= -1e-9).all()
    inner = along[np.hypot(*(rows[:, :2] - (3.0, -7.5665)).T).argmin()]
    tip = (along > inner + 3.0) & (rows[:, 3] <= 13.0 + 1e-6)
    assert tip.any()
    assert rows[tip, 3] == pytest.approx(13.0, abs=1e-5)
    assert rows[tip, 2] == pytest.approx(98.0, abs=1e-5)


CLOSED = "CompoundCurveZ(CircularStringZ(0 0 100, 0.0896 -2.011 100, -3.1042 -5.5504 100.1),(-3.1042 -5.5504 100.1, -2.084 -2.7292 100.1),CircularStringZ(-2.084 -2.7292 100.1, 28.8249 11.6232 100.2, 42.0535 -0.3281 100.3),(42.0535 -0.3281 100.3, 43.3738 -3.022 100.5),CircularStringZ(43.3738 -3.022 100.5, 44.1586 -8.7964 100.9, 41.3333 -13.8932 101.3),(41.3333 -13.8932 101.3, 41.5156 -14.3588 102.1),(41.5156 -14.3588 102.1, 0 0 100))"  # noqa: E501  # fmt: skip


def test_a_ring_that_starts_at_an_inner_corner_near_an_arc_ends_as_it_starts(run):
    line = shapes("CompoundCurveZ", [CLOSED], METRES)
    made = run(line, SIDE="right", OFFSETS="0.3", JOIN="bevel")
    (found,) = parts(made["GUIDELINES"])
    first, last = found[0][1][0], found[-1][1][-1]
    assert last[:3] == pytest.approx(first[:3], abs=1e-9)
    length = next(line.getFeatures()).geometry().length()  # of chords, at QGIS's own tolerance
    assert last[3] - first[3] == pytest.approx(length, abs=0.01)
