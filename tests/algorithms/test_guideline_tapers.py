"""Tapered guidelines, as a user lays them in QGIS."""

import numpy as np
import pytest
from qgis.core import QgsProcessingException

from tests.algorithms.test_guidelines import layer, rows, run, vertices

__all__ = ["run"]  # the fixture
EAST = [(2000, 1000, 10), (2100, 1000, 12)]


def test_from_end_to_end(run):
    made = run(layer([EAST], attributes=[["curb"]]), TAPER="1 ft > 3 ft", SIDE="left")
    (row,) = rows(made["GUIDELINES"])
    (xyz,) = vertices(made["GUIDELINES"])
    assert xyz[:, :3].tolist() == [[2000, 1001, 10], [2100, 1003, 12]]
    assert (row["signed_offset"], row["signed_offset_end"]) == (-1.0, -3.0)
    assert (row["offset"], row["label"]) == ("1.00 ft to 3.00 ft", "L 1.00 ft to 3.00 ft")
    assert row["sentence"].startswith("1.00 ft to 3.00 ft to the LEFT of 'curb', seen driving east")
    assert made["MAX_DISTANCE_ERROR"] < 1e-6


def test_at_stations_and_by_field(run):
    text = "10+20: 2; 10+50: 4 ft; 10+80: 1"
    drawn = layer([EAST, EAST], attributes=[[text], [None]])
    made = run(drawn, TAPER_FIELD="name", OFFSETS="5", START_STATION="10+00")
    one, other = vertices(made["GUIDELINES"])
    assert one[:, :2].tolist() == [[2000, 998], [2020, 998], [2050, 996], [2080, 999], [2100, 999]]
    assert other[:, 1].tolist() == [995, 995]
    assert rows(made["GUIDELINES"])[0]["offset"] == "2.00 ft to 1.00 ft (between: 4.00 ft)"


def test_a_tapered_guideline_passes_the_check_of_its_side(run):
    import processing
    from qgis.core import QgsProcessingContext

    drawn = layer([EAST])
    made = run(drawn, TAPER="1 > 3", SIDE="left")
    context = QgsProcessingContext()
    given = {"LINES": drawn, "GUIDELINES": made["GUIDELINES"], "OUTPUT": "TEMPORARY_OUTPUT"}
    results = processing.run("undercourse:check_sides", given, context=context)
    assert results["PASS_COUNT"] == 1


def test_a_taper_is_laid_on_both_parts_of_a_split_line(run):
    from tests.algorithms.test_guidelines import shapes

    crossing = shapes("LineString", ["LineString (2000 1010, 2050 1000, 2100 990)"])
    made = run(layer([EAST]), TAPER="1 > 3", SIDE="toward", REFERENCE=crossing, ON_SWAP="split")
    one, other = vertices(made["GUIDELINES"])
    assert one[:, :2] == pytest.approx(np.array([[2000, 1001], [2050, 1002]]))
    assert other[:, :2] == pytest.approx(np.array([[2050, 998], [2100, 997]]))


def table(rows, columns="station=string&field=offset=string&field=line=string"):
    """A table in memory, as a CSV file gives it."""
    from qgis.core import QgsFeature, QgsVectorLayer

    made = QgsVectorLayer(f"None?field={columns.replace('=string', ':string')}", "tapers", "memory")
    features = []
    for row in rows:
        feature = QgsFeature(made.fields())
        feature.setAttributes(list(row))
        features.append(feature)
    made.dataProvider().addFeatures(features)
    return made


def test_a_table_gives_each_line_its_taper(run):
    drawn = layer([EAST, EAST, EAST], attributes=[["curb"], ["strip"], [None]])
    listed = [("0+00", "1 ft", "curb"), ("1+00", "3", "curb"), ("0+50", "24 in", None)]
    made = run(drawn, TAPER_TABLE=table([*listed, ("0+80", "4 ft", "")]), OFFSETS="")
    one, two, three = (xyz[:, :2].tolist() for xyz in vertices(made["GUIDELINES"]))
    assert one == [[2000, 999], [2100, 997]]
    assert two == three == [[2000, 998], [2050, 998], [2080, 996], [2100, 996]]


@pytest.mark.parametrize(
    ("rows_", "sentence"),
    [
        ([("0+00", "1", "kerb")], "no line is called “kerb”"),
        ([("0+50", "1", ""), ("0+20", "2", "")], "the stations of a taper have to rise"),
        ([("0+00", "0", "")], "the offsets of a taper are above 0"),
        ([("0+00", "wide", "")], "Row 1, field “offset”: .wide. cannot be read"),
        ([("here", "1", "")], "Row 1, field “station”: "),
    ],
)
def test_a_bad_table_is_refused_in_one_sentence(run, rows_, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(layer([EAST], attributes=[["curb"]]), TAPER_TABLE=table(rows_))


def test_a_table_without_its_columns_is_refused(run):
    with pytest.raises(QgsProcessingException, match="has no field “offset”"):
        run(layer([EAST]), TAPER_TABLE=table([("0+00", "1")], "station=string&field=width=string"))


def test_on_arcs_the_stations_of_a_taper_are_those_of_the_arc(run):
    """At the end of the bend, 50 + 10 pi along, the offset is as the table says."""
    from tests.algorithms.test_guideline_arcs import STREET, parts
    from tests.algorithms.test_guidelines import shapes

    text = f"0: 1; {50 + 10 * np.pi:.9f}: 3"
    made = run(shapes("CompoundCurveZ", [STREET]), TAPER=text)
    (((_, xyz),),) = parts(made["GUIDELINES"])
    assert xyz[-1, 0] == pytest.approx(73.0, abs=1e-9)
    away = np.hypot(*(xyz[:, :2] - (50, 20)).T)
    beside = np.argmin(np.abs(xyz[:, 3] - (50 + 5 * np.pi)))
    stated = 1 + 2 * xyz[beside, 3] / (50 + 10 * np.pi)
    assert away[beside] - 20 == pytest.approx(stated, abs=2e-4)


LARGE = "CircularStringZ (200 0 1, 141.4213562373095 141.4213562373095 3, 0 200 5)"
HALF = "CircularStringZ (20 0 1, 0 20 3, -20 0 5)"


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize(
    ("arc", "taper"),
    [
        (LARGE, "1 > 6"),
        (LARGE, "1 > 40"),
        (LARGE, "100: 1; 200: 12"),
        (HALF, "10: 1; 40: 4"),
        (HALF, "10: 1; 40: 6"),
        (HALF, "1 > 6"),
    ],
)
def test_tapers_beside_arcs_are_laid_on_both_sides(run, arc, taper, side):
    """Square to the arc the offset is the stated one, within what chords leave."""
    from tests.algorithms.test_guideline_arcs import parts
    from tests.algorithms.test_guidelines import shapes

    made = run(shapes("CircularStringZ", [arc]), TAPER=taper, SIDE=side)
    assert (made["GUIDELINE_COUNT"], made["FLAGGED_COUNT"]) == (1, 0)
    (((_, xyz),),) = parts(made["GUIDELINES"])
    radius = 200.0 if arc == LARGE else 20.0
    turned = np.mod(np.arctan2(xyz[:, 1], xyz[:, 0]) + 0.1, 2 * np.pi) * radius - 0.1 * radius
    places = [item.split(":") for item in taper.split(";")] if ":" in taper else None
    if places:
        stated = np.interp(turned, *np.array(places, float).T)
    else:
        ends = [float(item) for item in taper.split(">")]
        length = radius * np.pi / (2 if arc == LARGE else 1)
        stated = np.interp(turned, [0, length], ends)
    sign = 1.0 if side == "right" else -1.0  # anticlockwise: right is outside
    away = sign * (np.hypot(xyz[:, 0], xyz[:, 1]) - radius)
    assert away[2:-2] == pytest.approx(stated[2:-2], abs=2e-2)


def test_an_empty_table_of_tapers_is_refused(run):
    with pytest.raises(QgsProcessingException, match="the table of tapers has no rows"):
        run(layer([EAST]), TAPER_TABLE=table([]))


def test_a_taper_that_cannot_be_read_names_its_parameter(run):
    with pytest.raises(QgsProcessingException, match="Taper: the stations of a taper have to rise"):
        run(layer([EAST]), TAPER="0+50: 1; 0+20: 3")


def test_the_side_is_judged_at_the_largest_offset(run):
    """A narrow strip north of the line, and another area that only the wide end reaches."""
    from tests.algorithms.test_guidelines import shapes

    near = "Polygon ((2000 1000, 2100 1000, 2100 1002, 2000 1002, 2000 1000))"
    far = "Polygon ((2000 995, 2100 995, 2100 997.5, 2000 997.5, 2000 995))"
    areas = shapes("Polygon", [near, far])
    made = run(layer([EAST]), TAPER="1 > 3", SIDE="inside", REFERENCE=areas)
    assert [row["side_line"] for row in rows(made["GUIDELINES"])] == ["right"]
    made = run(layer([EAST]), OFFSETS="1", SIDE="inside", REFERENCE=areas)
    assert [row["side_line"] for row in rows(made["GUIDELINES"])] == ["left"]


@pytest.mark.parametrize(
    ("taper", "sentence"),
    [
        ("1 > -1", "Taper: the offsets of a taper are above 0"),
        ("1 > 2 > 3", "Taper: “1 > 2 > 3” is no taper"),
        ("1 > x", "Taper: "),
        ("0+50: 1; 0+20: 2", "the stations of a taper have to rise"),
        ("9+00: 1; 9+50: 2", "Feature 1, taper: none of the stations of the taper is on the line"),
    ],
)
def test_bad_tapers_are_refused_in_one_sentence(run, taper, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(layer([EAST]), TAPER=taper)


def test_a_ring_has_to_end_as_it_starts(run):
    ring = [(0, 0, 1), (40, 0, 1), (40, 40, 1), (0, 40, 1), (0, 0, 1)]
    with pytest.raises(QgsProcessingException, match="a closed line has to end with the offset"):
        run(layer([ring]), TAPER="1 > 2")
