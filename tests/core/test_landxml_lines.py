"""Breaklines, boundaries, contours, plan features, data points and coordinate-geometry points."""

import math

import numpy as np
import pytest

from plugin.core.exchange.landxml import Part

from .landxml_texts import codes, landxml, read, surface

FEATURE = (
    '<Feature code="IM_coding"><Property label="terrainCoding" value="D124"/>'
    '<Property label="terrainCodingDesc" value="Toe of slope"/></Feature>'
)


def source(elements: str) -> str:
    return landxml(surface(source=f"<SourceData>\n{elements}\n</SourceData>"))


def test_a_breakline_with_its_texts(tmp_path):
    text = source(
        f'<Breaklines><Breakline brkType="wall" name="W1" desc="low wall">{FEATURE}'
        "<PntList3D>2 1 5 20 10 6\n30 10 7</PntList3D></Breakline></Breaklines>"
    )
    (line,) = read(tmp_path, text).lines
    assert line.coordinates.tolist() == [[1, 2, 5], [10, 20, 6], [10, 30, 7]]
    assert (line.kind, line.type, line.name, line.surface) == ("breakline", "wall", "W1", "FG")
    assert (line.code, line.description, line.line) == ("D124", "Toe of slope", 4)


def test_a_line_without_heights_is_given_none(tmp_path):
    text = source(
        "<Breaklines><Breakline><PntList2D>2 1 20 10</PntList2D></Breakline></Breaklines>"
    )
    file = read(tmp_path, text)
    (line,) = file.lines
    assert line.coordinates[:, :2].tolist() == [[1, 2], [10, 20]]
    assert np.isnan(line.coordinates[:, 2]).all()  # not 0, which would be a depth
    assert not line.has_heights and codes(file) == ["no_height"]


def test_heights_of_zero_throughout_are_reported(tmp_path):
    text = source(
        "<Breaklines><Breakline><PntList3D>2 1 0 20 10 0</PntList3D></Breakline></Breaklines>"
    )
    assert codes(read(tmp_path, text)) == ["zero_height"]


def test_each_point_list_is_a_line(tmp_path):
    text = source(
        '<Breaklines><Breakline name="B"><PntList3D>0 0 1 1 1 1</PntList3D>'
        "<PntList3D>5 5 1 6 6 1</PntList3D></Breakline></Breaklines>"
    )
    assert [line.name for line in read(tmp_path, text).lines] == ["B", "B"]


@pytest.mark.parametrize("word", ["outer", "void", "island"])
def test_boundaries_are_closed(tmp_path, word):
    text = source(
        f'<Boundaries><Boundary bndType="{word}"><PntList3D>0 0 1 0 9 1 9 9 1</PntList3D></Boundary>'
        f'<Boundary bndType="{word}"><PntList3D>0 0 1 0 9 1 9 9 1 0 0 1</PntList3D></Boundary></Boundaries>'
    )
    file = read(tmp_path, text)
    first, second = file.lines
    assert first.coordinates.tolist() == second.coordinates.tolist()
    assert (first.kind, first.type) == ("boundary", word) and codes(file) == []


@pytest.mark.parametrize(
    ("element", "attribute"), [("Boundary", "bndType"), ("Breakline", "brkType")]
)
def test_unknown_types_are_read_and_reported(tmp_path, element, attribute):
    text = source(f'<{element} {attribute}="fancy"><PntList3D>0 0 1 0 9 1</PntList3D></{element}>')
    file = read(tmp_path, text)
    assert codes(file) == ["unknown_type"] and file.lines[0].type == "fancy"
    assert "line 4" in file.findings[0].why and "fancy" in file.findings[0].why


def test_a_contour_takes_its_height_from_its_attribute(tmp_path):
    text = source(
        '<Contours><Contour elev="12.5"><PntList2D>0 0 0 9</PntList2D></Contour></Contours>'
    )
    (line,) = read(tmp_path, text).lines
    assert line.kind == "contour" and line.coordinates[:, 2].tolist() == [12.5, 12.5]


def test_a_plan_feature_is_a_line_with_its_arcs_as_chords(tmp_path):
    text = landxml(
        '<PlanFeatures><PlanFeature name="curb" desc="back of curb"><CoordGeom>'
        "<Line><Start>0 0 10</Start><End>0 10 11</End></Line>"
        '<Curve rot="ccw"><Start>0 10 11</Start><Center>10 10 0</Center><End>10 20 13</End></Curve>'
        "</CoordGeom></PlanFeature></PlanFeatures>"
    )
    file = read(tmp_path, text, chord=0.01)
    (line,) = file.lines
    assert (line.kind, line.name, line.description) == ("feature", "curb", "back of curb")
    xyz = line.coordinates
    assert xyz[0].tolist() == [0, 0, 10] and xyz[1].tolist() == [10, 0, 11]
    assert xyz[-1].tolist() == [20, 10, 13]
    arc = xyz[1:]
    assert np.hypot(arc[:, 0] - 10, arc[:, 1] - 10) == pytest.approx(np.full(len(arc), 10.0))
    # Heights rise evenly along the arc.
    angle = np.arctan2(arc[:, 1] - 10, arc[:, 0] - 10) + math.pi / 2
    assert arc[:, 2] == pytest.approx(11 + 2 * angle / (math.pi / 2))
    assert codes(file) == []


def test_points_with_their_texts(tmp_path):
    text = landxml(
        '<CgPoints><CgPoints name="inner"><CgPoint name="101" code="BM" desc="bench mark">5 7 3</CgPoint>'
        '</CgPoints><CgPoint name="102" pntRef="101"/><CgPoint name="103">1 2</CgPoint></CgPoints>'
    )
    first, second, third = read(tmp_path, text).points
    assert (first.kind, first.name, first.code, first.description) == (
        "point",
        "101",
        "BM",
        "bench mark",
    )
    assert first.xyz == second.xyz == (7.0, 5.0, 3.0)
    assert third.xyz[:2] == (2.0, 1.0) and math.isnan(third.xyz[2])


def test_data_points_are_points_and_not_lines(tmp_path):
    text = source(f"<DataPoints>{FEATURE}<PntList3D>1 2 3 4 5 6</PntList3D></DataPoints>")
    file = read(tmp_path, text)
    assert [(point.kind, point.xyz, point.code) for point in file.points] == [
        ("data", (2, 1, 3), "D124"),
        ("data", (5, 4, 6), "D124"),
    ]
    assert file.lines == ()


def test_lines_of_another_surface_are_not_read(tmp_path):
    lines = "<SourceData><Breakline><PntList3D>0 0 1 0 9 1</PntList3D></Breakline></SourceData>"
    text = landxml(surface(name="EG", source=lines) + surface(name="FG"))
    assert len(read(tmp_path, text).lines) == 1
    assert read(tmp_path, text, surface="FG").lines == ()


@pytest.mark.parametrize("part", list(Part))
def test_only_the_part_that_is_wanted_is_read(tmp_path, part):
    text = landxml(
        surface(
            source="<SourceData><Breakline><PntList3D>0 0 1 0 9 1</PntList3D></Breakline></SourceData>"
        )
        + '<CgPoints><CgPoint name="1">0 0 0</CgPoint></CgPoints>'
        + '<Alignments><Alignment name="A"><CoordGeom><Line><Start>0 0</Start><End>1 1</End></Line>'
        "</CoordGeom></Alignment></Alignments>"
    )
    file = read(tmp_path, text, parts=[part])
    found = {
        Part.SURFACES: any(one.tin is not None for one in file.surfaces),
        Part.LINES: bool(file.lines),
        Part.ALIGNMENTS: bool(file.alignments),
        Part.POINTS: bool(file.points),
    }
    assert [one for one, there in found.items() if there] == [part]
