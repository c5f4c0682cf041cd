"""Typical sections as drawn: everything inside the picture, no words over words or lines."""

import itertools
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest
import shapely

from plugin.core.depth.courses.schedule import read_schedule
from plugin.core.text import use_translator
from plugin.core.units import METRE, US_SURVEY_FOOT
from plugin.documents.drawn_text import fitted, text_width, wrapped
from plugin.documents.section_drawing import EDGE, RIGHT, TOP, draw

COLUMNS = ("course", "thickness", "widen", "batter", "rule")
SVG = "{http://www.w3.org/2000/svg}"

SIX_THIN = [
    ("surface course of a name that goes on and on", "20 mm", 0, 0),
    ("regulating", "15 mm", 0, 0),
    ("binder", "40 mm", 0, 0),
    ("base <&>", "60 mm", "0.1 m", "1"),
    ("sand", "25 mm", "0.15 m", "1", "square"),
    ("capping", "900 mm", "0.45 m", "1.5:1"),
]
FLAT = [(f"lift {n}", "0.1 m", f"{0.3 * (6 - n):.1f} m", "3:1") for n in range(1, 7)]
PLAIN = [("topsoil", "4 in", 0, 0)]
WIDENED = [("slab", "0.375", 0, 0), ("bedding", "4 in", "0.4", 0)]
FAR = [("cut", "1 ft", "60 ft", "4:1")]
TALL = [("skin", "1 mm", 0, 0), ("fill", "9 m", 0, "1")]
CASES = [SIX_THIN, FLAT, PLAIN, WIDENED, FAR, TALL]


def section(courses, unit=METRE, name="a section"):
    rows = [
        dict(zip(COLUMNS, course, strict=False)) | {"section": name, "order": n}
        for n, course in enumerate(courses, 1)
    ]
    return read_schedule(rows, unit, unit).sections[0]


def picture(courses, unit=METRE, **more):
    return ET.fromstring(draw(section(courses, unit, **more), 1, unit, unit))


def size(root):
    return float(root.get("width")), float(root.get("height"))


def words(root):
    """The box that each text takes at most."""
    boxes = {}
    for element in root.iter(SVG + "text"):
        text = "".join(part for part in (element.text, *(e.tail for e in element)) if part)
        tall = float(element.get("font-size"))
        wide = text_width(text, tall, bold=element.get("font-weight") == "700")
        x, y = float(element.get("x")), float(element.get("y"))
        x -= {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor")]
        boxes[text] = shapely.box(x, y - 0.76 * tall, x + wide, y + 0.22 * tall)
    return boxes


def outline(element):
    """The polygon of a filled path of M, L and Z."""
    rings = [
        [tuple(map(float, pair.split(","))) for pair in re.split(r"[ML ]+", ring) if pair]
        for ring in element.get("d").split("Z")
        if ring.strip()
    ]
    return shapely.Polygon(rings[0], rings[1:])


def bodies(root, kind):
    return [
        outline(path)
        for path in root.iter(SVG + "path")
        if (path.get("fill") or "").startswith(f"url(#{kind}")
    ]


def shared(one, other):
    with np.errstate(invalid="ignore"):  # GEOS leaves flags set
        return shapely.intersection(one, other).area


@pytest.mark.parametrize("courses", CASES)
def test_words_lie_inside_the_picture_and_apart(courses):
    root = picture(courses)
    width, height = size(root)
    boxes = words(root)
    page = shapely.box(0, 0, width, height)
    for text, box in boxes.items():
        assert page.contains(box), text
    for (one, first), (other, second) in itertools.combinations(boxes.items(), 2):
        assert shared(first, second) < 0.5, (one, other)


@pytest.mark.parametrize("courses", CASES)
def test_no_words_lie_over_courses_or_dimensions(courses):
    root = picture(courses)
    drawn = bodies(root, "course") + bodies(root, "beside")
    for text, box in words(root).items():
        for body in drawn:
            assert shared(box, body) < 0.5, text
    # Dimension lines and the lines down to them never come left of the zone's edge.
    for path in root.iter(SVG + "path"):
        if path.get("stroke-dasharray") == "2 2":
            assert all(float(x) >= EDGE for x in re.findall(r"M([\d.]+),", path.get("d")))


@pytest.mark.parametrize("courses", CASES)
def test_courses_are_to_scale_and_fit_without_gaps(courses):
    root = picture(courses)
    found = section(courses)
    parts = bodies(root, "course")
    tops = [part.bounds[1] for part in parts]
    bottoms = [part.bounds[3] for part in parts]
    assert tops[0] == TOP and tops[1:] == bottoms[:-1]
    drawn = np.array(bottoms) - tops
    true = np.array([course.thickness for course in found.courses])
    assert drawn / drawn.sum() == pytest.approx(true / true.sum(), abs=0.2 / drawn.sum())
    assert max(part.bounds[2] for part in parts) <= RIGHT
    together = shapely.union_all(parts)
    assert together.area == pytest.approx(sum(part.area for part in parts), rel=1e-3)


@pytest.mark.parametrize("courses", CASES)
def test_labels_keep_to_their_column_also_in_wordy_languages(courses):
    use_translator(lambda _, text: text.replace("square", "perpendiculairement à la pente"))
    try:
        root = picture(courses)
    finally:
        use_translator(None)
    leaders = [
        float(match[1])
        for path in root.iter(SVG + "path")
        if (match := re.match(r"M([\d.]+),[\d.]+ L[\d.]+,[\d.]+ H[\d.]+$", path.get("d")))
    ]
    assert len(leaders) == len(courses)
    foot = max(body.bounds[3] for body in bodies(root, "course"))
    for text, box in words(root).items():
        west, _, east, south = box.bounds
        if west < min(leaders) and TOP < south < foot:
            assert east <= min(leaders), text


def test_the_exaggeration_is_that_of_the_drawing():
    root = picture(SIX_THIN)
    told = next(text for text in words(root) if text.startswith("Heights"))
    times = float(re.search(r"Heights ([\d.]+) times", told)[1])
    capping = bodies(root, "course")[-1]
    east = max(x for x, y in capping.exterior.coords if y == capping.bounds[3])
    up = (capping.bounds[3] - capping.bounds[1]) / 0.9
    across = (east - EDGE) / 0.45
    assert up / across == pytest.approx(times, rel=0.01)


def test_sides_climb_at_their_ratio_and_end_at_the_design():
    (pit,) = bodies(picture([("soil", "1 m", "0.5 m", "1.5:1")]), "course")
    corners = sorted({(round(x, 1), round(y, 1)) for x, y in pit.exterior.coords})
    toe = max(x for x, y in corners if y == pit.bounds[3])
    top = max(x for x, y in corners if y == TOP)
    assert (top - toe) / (toe - EDGE) == pytest.approx(1.5 / 0.5, rel=0.01)


def test_thicknesses_stand_in_two_styles_and_all_widenings_are_dimensioned():
    texts = " ".join(words(picture(WIDENED, US_SURVEY_FOOT)))
    assert "0.375 usft (4.5 in)" in texts and "0.333 usft (4.0 in)" in texts
    assert "in all 0.708 usft (8.5 in)" in texts
    assert "bedding: 0.400 usft (4.8 in) past the edge" in texts
    texts = " ".join(words(picture(FLAT)))
    assert "0.100 m (100 mm)" in texts and texts.count("3:1 (run to") == 6


def test_what_is_laid_ends_at_its_thickness_and_what_is_dug_beside_it_is_told_apart():
    root = picture(WIDENED)
    slab, bedding = bodies(root, "course")
    (beside,) = bodies(root, "beside")
    assert slab.bounds[2] == EDGE and bedding.bounds[2] > EDGE
    assert beside.bounds == (EDGE, TOP, bedding.bounds[2], bedding.bounds[1])


def test_texts_are_escaped_and_the_whole_name_is_kept():
    markup = draw(section(SIX_THIN, name="<b>&"), 1, METRE, METRE)
    assert "&lt;b&gt;&amp;" in markup and "base &lt;&amp;&gt;" in markup and "<b>" not in markup
    assert "surface course of a name that goes on and on</title>" in markup


def test_ids_of_patterns_differ_between_drawings():
    one, other = (
        set(re.findall(r'id="(\w+)"', draw(section(FLAT), n, METRE, METRE))) for n in (1, 2)
    )
    assert one and not one & other


def test_texts_are_made_to_fit():
    assert fitted("short", 100, 12) == ("short", "")
    cut, whole = fitted("a long & winding name", 80, 12)
    assert cut.endswith("…") and whole == "a long & winding name"
    assert text_width(cut.replace("&amp;", "&"), 12) <= 80
    lines = wrapped("one two three fourfivesixseveneightnineten", 60, 11)
    assert all(text_width(line, 11) <= 60 for line in lines) and lines[-1].endswith("…")
    assert wrapped("", 60, 11) == [""]
