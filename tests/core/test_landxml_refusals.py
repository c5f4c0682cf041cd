"""What cannot be read is refused in one sentence that names the file, the line and the element."""

import pytest

from plugin.core.errors import ExchangeError

from .landxml_texts import FACES, POINTS, alignment, landxml, read, surface

PNTS = "Definition/Pnts/P"
FACE = "Definition/Faces/F"
CURVE = (
    '<Curve rot="cw" {attributes}><Start>0 0</Start><Center>0 10</Center><End>10 10</End></Curve>'
)
SPIRAL = "<Spiral {attributes}><Start>0 0</Start><PI>50 0</PI><End>99 5</End></Spiral>"


def points(last: str) -> str:
    return landxml(surface(POINTS.replace('<P id="4">100 0 13</P>', last)))


def faces(last: str) -> str:
    return landxml(surface(faces=FACES.replace("<F>1 3 4</F>", last)))


def breakline(text: str) -> str:
    lines = f"<SourceData><Breaklines>\n<Breakline>{text}</Breakline></Breaklines></SourceData>"
    return landxml(surface(source=lines))


CASES = {
    "two values": (points('<P id="4">100 0</P>'), 7, PNTS, "holds 2 numbers"),
    "four values": (points('<P id="4">100 0 13 5</P>'), 7, PNTS, "holds 4 numbers"),
    "no values": (points('<P id="4"></P>'), 7, PNTS, "holds 0 numbers"),
    "nan": (points('<P id="4">100 NaN 13</P>'), 7, PNTS, "'NaN' is not a finite number"),
    "infinity": (points('<P id="4">100 0 1e999</P>'), 7, PNTS, "'1e999' is not a finite number"),
    "word": (points('<P id="4">100 0 high</P>'), 7, PNTS, "'high' is not a finite number"),
    "underscore": (points('<P id="4">1_00 0 13</P>'), 7, PNTS, "'1_00' is not a finite number"),
    "too large": (
        points('<P id="4">1' + "0" * 16 + " 0 13</P>"),
        7,
        PNTS,
        "too large for a coordinate",
    ),
    "two dots": (points('<P id="4">1.0.0 0 13</P>'), 7, PNTS, "'1.0.0' is not"),
    "decimal commas": (points('<P id="4">100,5 0,5 13,5</P>'), 7, PNTS, "decimal commas"),
    "no id": (points("<P>100 0 13</P>"), 7, PNTS, "has no id"),
    "negative id": (points('<P id="-4">100 0 13</P>'), 7, PNTS, "'-4' is not a point id"),
    "broken id": (points('<P id="4.5">100 0 13</P>'), 7, PNTS, "'4.5' is not a point id"),
    "id twice": (points('<P id="3">100 0 13</P>'), 7, PNTS, "id 3 was already given.*line 6"),
    "no such reference": (points('<P id="4" pntRef="A"/>'), 7, PNTS, "pntRef='A' names no point"),
    "two ids": (faces("<F>1 3</F>"), 10, FACE, "holds 2"),
    "six ids": (faces("<F>1 2 3 4 1 2</F>"), 10, FACE, "holds 6"),
    "missing point": (faces("<F>1 3 99</F>"), 10, FACE, "face 1 3 99 names a point"),
    "word in face": (faces("<F>1 3 x</F>"), 10, FACE, "'x' is not a point id"),
    "all points equal": (
        landxml(
            surface('<P id="1">5 5 5</P>\n<P id="2">5 5 5</P>\n<P id="3">5 5 5</P>', "<F>1 2 3</F>")
        ),
        3,
        'Surface "FG"',
        "one point",
    ),
    "second definition": (
        landxml(surface().replace("</Surface>", '\n<Definition surfType="TIN"/></Surface>')),
        12,
        "Definition",
        "second definition",
    ),
    "unknown unit": (
        landxml(surface(), units='<Units><Imperial linearUnit="cubit"/></Units>'),
        2,
        "Units/Imperial",
        "linearUnit='cubit'",
    ),
    "two units": (
        landxml("", '<Units><Metric linearUnit="meter"/><Imperial linearUnit="foot"/></Units>'),
        2,
        "Units",
        "two different linear units",
    ),
    "odd list": (
        breakline("<PntList3D>1 2 3 4</PntList3D>"),
        4,
        "Breaklines/Breakline/PntList3D",
        "4 numbers do not make up points of 3",
    ),
    "empty list": (breakline("<PntList2D> </PntList2D>"), 4, "PntList2D", "0 numbers"),
    "one point line": (breakline("<PntList2D>1 2</PntList2D>"), 4, "PntList2D", "two points"),
    "commas in triples": (
        breakline("<PntList2D>1,2,3 4,5,6</PntList2D>"),
        4,
        "PntList2D",
        "commas",
    ),
    "commas in pairs": (breakline("<PntList2D>1,2 3,4</PntList2D>"), 4, "PntList2D", "commas"),
    "no list": (breakline(""), 4, "Breakline", "no point list"),
    "no rot": (
        alignment(CURVE.format(attributes="").replace('rot="cw"', "")),
        4,
        "Curve",
        "rot=''",
    ),
    "bad rot": (
        alignment(CURVE.format(attributes="").replace("cw", "left")),
        4,
        "Curve",
        "rot='left'",
    ),
    "no centre": (
        alignment(CURVE.format(attributes="").replace("<Center>0 10</Center>", "")),
        4,
        "Curve",
        "neither a Center nor a radius",
    ),
    "radius too small": (
        alignment(CURVE.format(attributes='radius="5"').replace("<Center>0 10</Center>", "")),
        4,
        "Curve",
        "no arc of radius 5.0000 joins",
    ),
    "centre aside": (
        alignment(CURVE.format(attributes="").replace("0 10</C", "0 12</C")),
        4,
        "Curve",
        "the centre is 12.0000 from the start and 10.1980 from the end",
    ),
    "no start": (alignment("<Line><End>0 0</End></Line>"), 4, "Line", "the Start point is missing"),
    "empty start": (
        alignment("<Line><Start/><End>0 0</End></Line>"),
        4,
        "Line/Start",
        "neither coordinates nor a pntRef",
    ),
    "one coordinate": (
        alignment("<Line><Start>1</Start><End>0 0</End></Line>"),
        4,
        "Line/Start",
        "here are 1 numbers",
    ),
    "spiral law": (
        alignment(SPIRAL.format(attributes='spiType="radioid" length="100"')),
        4,
        "Spiral",
        "'radioid' are not read.*clothoid",
    ),
    "spiral length": (alignment(SPIRAL.format(attributes='rot="cw"')), 4, "Spiral", "its length"),
    "spiral radius": (
        alignment(SPIRAL.format(attributes='rot="cw" length="100" radiusStart="INF"')),
        4,
        "Spiral",
        "radiusEnd is missing",
    ),
    "spiral too tight": (
        alignment(
            SPIRAL.format(attributes='rot="cw" length="100" radiusStart="INF" radiusEnd="0.1"')
        ),
        4,
        "Spiral",
        "too small",
    ),
    "unknown geometry": (alignment("<Wave/>"), 4, "CoordGeom/Wave", "not known"),
    "word for a number": (
        alignment('<Line length="long"><Start>0 0</Start><End>0 9</End></Line>'),
        4,
        "Line",
        "length='long' is not a number",
    ),
    "chain of one": (alignment("<Chain>A</Chain>"), 4, "Chain", "two or more points"),
    "chain of nowhere": (alignment("<Chain>A B</Chain>"), 4, "Chain", "pntRef='A'"),
    "station equation": (
        alignment(
            "<Line><Start>0 0</Start><End>0 9</End></Line>", more="\n<StaEquation staBack='1'/>"
        ),
        6,
        "StaEquation",
        "staInternal and staAhead",
    ),
}


@pytest.mark.parametrize(("text", "line", "element", "why"), CASES.values(), ids=CASES.keys())
def test_the_sentence_names_line_and_element(tmp_path, text, line, element, why):
    whole = text if text.startswith("<?xml") else landxml(text)
    with pytest.raises(ExchangeError, match=why) as caught:
        read(tmp_path, whole)
    sentence = str(caught.value)
    assert sentence.startswith(f"design.xml, line {line}, LandXML/")
    assert element in sentence.split(": ", maxsplit=1)[0]
    assert sentence.endswith(".") and "\n" not in sentence
    assert [path.name for path in tmp_path.iterdir()] == ["design.xml"]


AMBIGUOUS = (
    '<CgPoints><CgPoint name="A">1 1</CgPoint>\n<CgPoint name="A">2 2</CgPoint>\n'
    '<CgPoint name="L1" pntRef="L2"/><CgPoint name="L2" pntRef="L1"/></CgPoints>'
)


def test_a_reference_to_two_places_names_both(tmp_path):
    line = '<Line><Start pntRef="A"/><End>0 0</End></Line>'
    with pytest.raises(ExchangeError, match=r"line 7.*the point of line 3 or of line 4"):
        read(tmp_path, landxml(f"{AMBIGUOUS}\n{alignment(line)}"), parts=["alignments"])


def test_references_in_a_circle_end(tmp_path):
    line = '<Line><Start pntRef="L1"/><End>0 0</End></Line>'
    with pytest.raises(ExchangeError, match="pntRef='L1' names no point"):
        read(tmp_path, landxml(f"{AMBIGUOUS}\n{alignment(line)}"), parts=["alignments"])


BOMB = (
    '<?xml version="1.0"?>\n<!DOCTYPE LandXML [\n<!ENTITY a "aaaaaaaaaa">\n'
    '<!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">\n]>\n<LandXML>&b;</LandXML>'
)


@pytest.mark.parametrize(
    "text",
    [
        BOMB,
        '<?xml version="1.0"?>\n<!DOCTYPE LandXML SYSTEM "file:///etc/hostname">\n<LandXML/>',
        '<?xml version="1.0"?>\n<!DOCTYPE LandXML [<!ENTITY x SYSTEM "other.xml">]>\n<LandXML>&x;</LandXML>',
        '<?xml version="1.0"?>\n<!DOCTYPE LandXML [<!ENTITY % x SYSTEM "other.dtd"> %x;]>\n<LandXML/>',
    ],
)
def test_document_types_and_entities_are_refused(tmp_path, text):
    (tmp_path / "other.xml").write_text("<Surfaces/>")
    with pytest.raises(ExchangeError, match=r"line 2, .*DOCTYPE.*not allowed"):
        read(tmp_path, text)


def test_an_undeclared_entity_is_refused(tmp_path):
    with pytest.raises(ExchangeError, match=r"line 3.*not well-formed"):
        read(tmp_path, landxml("&nothing;"))


@pytest.mark.parametrize("share", [0.2, 0.5, 0.8, 0.98])
def test_a_file_cut_short_is_refused_with_its_line(tmp_path, share):
    text = landxml(surface())
    cut = text[: int(len(text) * share)]
    with pytest.raises(ExchangeError, match=r"line \d+, column \d+: this is not well-formed"):
        read(tmp_path, cut)


def test_an_empty_file_is_refused(tmp_path):
    with pytest.raises(ExchangeError, match="not well-formed"):
        read(tmp_path, "")


def test_a_file_that_is_not_there_is_refused(tmp_path):
    from plugin.core.exchange.landxml import read_landxml

    with pytest.raises(ExchangeError, match=r"nowhere\.xml cannot be read"):
        read_landxml(tmp_path / "nowhere.xml")


def test_another_kind_of_xml_is_refused(tmp_path):
    with pytest.raises(ExchangeError, match="line 1, kml: this is not a LandXML file"):
        read(tmp_path, "<kml/>")


def test_an_unknown_encoding_is_refused(tmp_path):
    with pytest.raises(ExchangeError, match=r"design\.xml.*encoding"):
        read(tmp_path, landxml("").replace("UTF-8", "klingon"))


def test_bytes_that_are_not_of_the_declared_encoding_are_refused(tmp_path):
    with pytest.raises(ExchangeError, match="not well-formed"):
        read(tmp_path, landxml(surface(name="Straße")).encode("latin-1"))
