"""Surfaces of LandXML files that can be read, with what deviates from the schema in them."""

import math

import numpy as np
import pytest

from plugin.core.errors import Cancelled, ExchangeError
from plugin.core.exchange.landxml import Part, no_tin_reason
from plugin.core.units import FOOT, INCH, KILOMETRE, METRE, US_SURVEY_FOOT

from .landxml_texts import FACES, NAMESPACE, POINTS, codes, landxml, read, surface


def test_northing_comes_first_and_becomes_y(tmp_path):
    tin = read(tmp_path, landxml(surface())).surfaces[0].tin
    assert tin.vertices.tolist() == [[0, 0, 10], [100, 0, 11], [100, 100, 12], [0, 100, 13]]
    assert tin.faces.tolist() == [[0, 1, 2], [0, 2, 3]]


@pytest.mark.parametrize(
    "root",
    [
        '<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.0" version="1.0">',
        '<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.1" version="1.1">',
        '<LandXML xmlns="http://www.landxml.org/schema/LandXML-2.0" version="2.0">',
        '<LandXML xmlns="http://www.inframodel.fi/inframodel" version="1.2">',
        '<LandXML version="1.2">',
    ],
)
def test_any_namespace_is_read(tmp_path, root):
    file = read(tmp_path, landxml(surface(), root=root))
    assert len(file.surfaces[0].tin.faces) == 2
    assert file.version in root and file.namespace in root


def test_prefixed_elements_are_read(tmp_path):
    text = landxml(surface(), root=f'<LandXML xmlns:lx="{NAMESPACE}" version="1.2">')
    for tag in ("LandXML", "Units", "Metric", "Surfaces", "Surface", "Definition", "Pnts", "Faces"):
        text = text.replace(f"<{tag}", f"<lx:{tag}").replace(f"</{tag}", f"</lx:{tag}")
    text = text.replace("<P ", "<lx:P ").replace("</P>", "</lx:P>")
    text = text.replace("<F>", "<lx:F>").replace("</F>", "</lx:F>")
    file = read(tmp_path, text)
    assert len(file.surfaces[0].tin.faces) == 2
    assert file.unit is METRE and file.namespace == NAMESPACE


@pytest.mark.parametrize("encoding", ["ISO-8859-1", "UTF-8", "UTF-16", "windows-1252"])
def test_declared_encoding_is_followed(tmp_path, encoding):
    text = landxml(surface(name="Höhe Straße")).replace("UTF-8", encoding)
    file = read(tmp_path, text.encode(encoding))
    assert file.surfaces[0].name == "Höhe Straße"


@pytest.mark.parametrize(
    ("units", "unit"),
    [
        ('<Units><Metric linearUnit="meter"/></Units>', METRE),
        ('<Units><Metric linearUnit="kilometer"/></Units>', KILOMETRE),
        ('<Units><Imperial linearUnit="foot" elevationUnit="meter"/></Units>', FOOT),
        ('<Units><Imperial linearUnit="USSurveyFoot"/></Units>', US_SURVEY_FOOT),
        ('<Units><Imperial linearUnit="inch"/></Units>', INCH),
    ],
)
def test_units_are_told_apart_and_change_nothing(tmp_path, units, unit):
    file = read(tmp_path, landxml(surface(), units=units))
    assert file.unit is unit
    # elevationUnit in particular: 10 stays 10.
    assert file.surfaces[0].tin.vertices[0, 2] == 10.0


def test_missing_units_are_reported(tmp_path):
    file = read(tmp_path, landxml(surface(), units=""))
    assert file.unit is None and codes(file) == ["no_unit"]


def test_the_coordinate_system_is_taken_as_written(tmp_path):
    system = (
        '<CoordinateSystem name="GK21" desc="zone" epsgCode="EPSG:3875" verticalDatum="N2000"/>'
    )
    found = read(tmp_path, landxml(surface(), system=system)).system
    assert (found.name, found.epsg, found.vertical) == ("GK21", "3875", "N2000")


def test_ids_with_gaps_from_any_start_in_any_order(tmp_path):
    points = '<P id="9000000001">0 0 1</P>\n<P id="7">0 1 2</P>\n<P id="512">1 1 3</P>'
    tin = read(tmp_path, landxml(surface(points, "<F>512 7 9000000001</F>"))).surfaces[0].tin
    assert sorted(tin.vertices[tin.faces[0], 2]) == [1.0, 2.0, 3.0]


@pytest.mark.parametrize("wrong", [1, 8, 9000000000, 9000000002])
def test_missing_points_are_found_among_scattered_ids(tmp_path, wrong):
    points = '<P id="9000000001">0 0 1</P>\n<P id="7">0 1 2</P>\n<P id="512">1 1 3</P>'
    with pytest.raises(ExchangeError, match=f"face 512 7 {wrong} names a point"):
        read(tmp_path, landxml(surface(points, f"<F>512 7 {wrong}</F>")))


def test_ids_from_zero_are_read(tmp_path):
    points = '<P id="0">0 0 1</P>\n<P id="1">0 1 2</P>\n<P id="2">1 1 3</P>'
    assert len(read(tmp_path, landxml(surface(points, "<F>0 1 2</F>"))).surfaces[0].tin.faces) == 1


def test_faces_may_come_before_points_and_in_several_lists(tmp_path):
    body = (
        '<Surfaces><Surface name="FG"><Definition surfType="TIN"><Faces><F>1 2 3</F></Faces>'
        f"<Faces><F>1 3 4</F></Faces><Pnts>{POINTS}</Pnts></Definition></Surface></Surfaces>"
    )
    file = read(tmp_path, landxml(body))
    assert len(file.surfaces[0].tin.faces) == 2
    assert codes(file) == ["several_lists"]


def test_invisible_faces_are_not_in_the_surface(tmp_path):
    faces = '<F i="1">1 2 3</F>\n<F n="1 0 0" b="6" i="0">1 3 4</F>'
    declared = ' area2DSurf="5000.0"'
    file = read(tmp_path, landxml(surface(faces=faces, more=declared)))
    record = file.surfaces[0]
    assert record.tin.plan_area == record.plan_area == 5000.0
    assert (len(record.tin.faces), record.hidden_count) == (1, 1)
    # The declared area counts visible faces; the point of the invisible face is not stray.
    assert codes(file) == [] and len(record.unused) == 0


def test_declared_areas_are_compared(tmp_path):
    more = ' area2DSurf="10000.00" area3DSurf="10000.5"'
    file = read(tmp_path, landxml(surface(more=more)))
    # Both planes: (11-10)/100 and (12-11)/100; (12-13)/100 and (13-10)/100: areas by hand.
    sloped = 5000 * (math.sqrt(1 + 2e-4) + math.sqrt(1 + 1e-3))
    assert file.surfaces[0].sloped_area == pytest.approx(sloped, rel=1e-12)
    assert codes(file) == ["declared_area"]
    assert "area3DSurf=10000.5" in file.findings[0].why and f"{sloped:.4f}" in file.findings[0].why
    right = read(tmp_path, landxml(surface(more=f' area3DSurf="{sloped:.1f}"')))
    assert codes(right) == []


def test_points_in_no_face_are_given_as_points(tmp_path):
    points = POINTS + '\n<P id="77">50 500 5</P>'
    file = read(tmp_path, landxml(surface(points)))
    assert codes(file) == ["unused_point"]
    assert [(point.kind, point.name, point.xyz) for point in file.points] == [
        ("unused", "77", (500.0, 50.0, 5.0))
    ]
    assert len(file.surfaces[0].tin.vertices) == 4 and file.surfaces[0].point_count == 5


def test_a_point_given_twice_at_the_same_place_is_reported(tmp_path):
    file = read(tmp_path, landxml(surface(POINTS + '\n<P id="3">100 100 12.0</P>')))
    assert codes(file) == ["repeated_point"] and "line 8" in file.findings[0].why
    assert len(file.surfaces[0].tin.vertices) == 4


@pytest.mark.parametrize("ids", ["2 2 3", "2 3 3", "2 3 2"])
def test_a_face_that_names_a_point_twice_is_left_out_and_reported(tmp_path, ids):
    file = read(tmp_path, landxml(surface(faces=f"{FACES}\n<F>{ids}</F>")))
    assert codes(file) == ["flat_face"] and "line 11" in file.findings[0].why
    assert len(file.surfaces[0].tin.faces) == 2 and file.surfaces[0].left_out == 1


def test_faces_with_missing_points_can_be_left_out(tmp_path):
    text = landxml(surface(faces="<F>1 2 3</F>\n<F>1 3 99</F>\n<F>1 3 4</F>"))
    file = read(tmp_path, text, leave_out_broken_faces=True)
    assert codes(file) == ["missing_point"]
    assert "line 10" in file.findings[0].why and "1 3 99" in file.findings[0].why
    assert len(file.surfaces[0].tin.faces) == 2


def test_vertical_and_nearly_vertical_faces_are_kept_and_reported(tmp_path):
    points = POINTS + '\n<P id="5">0 0 20</P>\n<P id="6">-0.01 0 30</P>'
    file = read(tmp_path, landxml(surface(points, FACES + "\n<F>1 2 5</F>\n<F>1 2 6</F>")))
    assert codes(file) == ["vertical_face", "steep_face"]
    assert len(file.surfaces[0].tin.faces) == 4
    assert file.findings[1].place == pytest.approx((100 / 3, -0.01 / 3))


def test_point_reference_may_point_ahead_and_through_another(tmp_path):
    points = POINTS.replace('<P id="4">100 0 13</P>', '<P id="4" pntRef="A"/>')
    later = (
        '<CgPoints><CgPoint name="A" pntRef="B"/><CgPoint name="B">100 0 13</CgPoint></CgPoints>'
    )
    file = read(tmp_path, landxml(surface(points) + later))
    assert file.surfaces[0].tin.vertices[3].tolist() == [0, 100, 13]


def test_coordinates_win_over_a_reference(tmp_path):
    points = POINTS.replace('<P id="4">', '<P id="4" pntRef="A">')
    later = '<CgPoints><CgPoint name="A">5 5 5</CgPoint></CgPoints>'
    file = read(tmp_path, landxml(surface(points) + later))
    assert file.surfaces[0].tin.vertices[3].tolist() == [0, 100, 13]


@pytest.mark.parametrize("coordinates", ["100, 0, 13", "100,0,13", "100 , 0 , 13"])
def test_commas_that_can_only_separate_are_read_and_reported(tmp_path, coordinates):
    points = POINTS.replace("100 0 13", coordinates)
    file = read(tmp_path, landxml(surface(points)))
    assert file.surfaces[0].tin.vertices[3].tolist() == [0, 100, 13]
    assert codes(file) == ["commas"] and "line 7" in file.findings[0].why


def test_numbers_may_have_exponents_and_signs(tmp_path):
    points = POINTS.replace("100 0 13", "+1.0E2 -0.0 130e-1")
    tin = read(tmp_path, landxml(surface(points))).surfaces[0].tin
    assert tin.vertices[3].tolist() == [0, 100, 13]


TWO = landxml(surface(name="EG") + surface(POINTS.replace("13", "23"), name="FG"))


def test_of_several_surfaces_the_named_one_is_read(tmp_path):
    file = read(tmp_path, TWO, surface="FG")
    assert file.surface("FG").tin.vertices[3, 2] == 23.0
    assert file.surface("EG").tin is None  # not looked at


def test_of_several_surfaces_one_must_be_named(tmp_path):
    file = read(tmp_path, TWO)
    with pytest.raises(ExchangeError, match=r"holds 2 surfaces.*'EG', 'FG'"):
        file.surface()
    with pytest.raises(ExchangeError, match=r"no surface called 'XG'.*'EG', 'FG'"):
        file.surface("XG")


def test_two_surfaces_of_one_name_are_refused(tmp_path):
    file = read(tmp_path, landxml(surface() + "\n" + surface()))
    with pytest.raises(ExchangeError, match=r"2 surfaces called 'FG' \(lines 3, 12\)"):
        file.surface("FG")


def test_a_fault_in_what_is_not_wanted_does_no_harm(tmp_path):
    broken = surface(POINTS.replace("13", "x"), name="EG") + surface(name="FG")
    assert read(tmp_path, landxml(broken), surface="FG").surface("FG").tin is not None
    lines = "<Breaklines><Breakline><PntList3D>1 2</PntList3D></Breakline></Breaklines>"
    bad_lines = landxml(surface(source=f"<SourceData>{lines}</SourceData>"))
    assert read(tmp_path, bad_lines, parts=[Part.SURFACES]).surfaces[0].tin is not None


def test_a_grid_surface_says_that_it_is_not_read(tmp_path):
    text = landxml(surface().replace("TIN", "grid").replace("1 2 3", "1 2 3 4"))
    file = read(tmp_path, text)
    reason = no_tin_reason(file.surfaces[0], file.name)
    assert "line 3" in str(reason) and "grid surface" in str(reason)


def test_a_surface_without_faces_says_so(tmp_path):
    file = read(tmp_path, landxml('<Surfaces><Surface name="FG"/></Surfaces>'))
    assert "no visible faces" in str(no_tin_reason(file.surfaces[0], file.name))


def test_what_is_not_read_is_counted(tmp_path):
    body = "<Parcels><Parcel/><Parcel/></Parcels><Roadways><Roadway/></Roadways>"
    assert read(tmp_path, landxml(body)).not_read == {"Parcel": 2, "Roadway": 1}


def test_progress_rises_to_one_and_cancel_stops(tmp_path):
    shares = []
    read(tmp_path, landxml(surface()), progress=shares.append)
    assert shares == sorted(shares) and shares[-1] == pytest.approx(0.95)

    def cancel(share):
        raise Cancelled

    with pytest.raises(Cancelled):
        read(tmp_path, landxml(surface()), progress=cancel)


def test_the_file_is_not_changed_and_nothing_is_added(tmp_path):
    text = landxml(surface())
    read(tmp_path, text)
    assert [path.name for path in tmp_path.iterdir()] == ["design.xml"]
    assert (tmp_path / "design.xml").read_text() == text


def test_faces_are_turned_counter_clockwise(tmp_path):
    tin = read(tmp_path, landxml(surface(faces="<F>3 2 1</F>\n<F>4 3 1</F>"))).surfaces[0].tin
    a, b, c = (tin.vertices[tin.faces[:, k], :2] for k in range(3))
    assert (np.linalg.det(np.stack((b - a, c - a), axis=-1)) > 0).all()
