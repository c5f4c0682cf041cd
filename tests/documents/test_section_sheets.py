"""Plots of cross sections: to scale, whole, labelled."""

import numpy as np
import pytest

from plugin.core.units import METRE, US_SURVEY_FOOT
from plugin.documents.drawing import Label, Stroke
from plugin.documents.drawn_text import text_width
from plugin.documents.pdf_pages import A4, LETTER, write_pdf
from plugin.documents.section_plot import LEFT, View, plot
from plugin.documents.section_sheets import (
    MARGIN,
    Head,
    page_scale,
    scale_text,
    sheets,
)


def view(number=0, height=2.0, reach=(-30.0, 40.0), guides=(), zones=()):
    ground = np.array([(reach[0], 100.0), (0.0, 100.0 + height), (reach[1], 100.5)])
    design = np.array([(-12.0, 100.0), (12.0, 101.0)])
    return View(
        f"{number}+00.00", "cut 1", [[ground], [design]], 0, 1, list(guides), list(zones), reach
    )


HEAD = Head("Cross sections", ["Surfaces: ground, grade"], ["ground", "grade"], True)


@pytest.mark.parametrize("unit", [METRE, US_SURVEY_FOOT])
@pytest.mark.parametrize("page", [LETTER, A4])
def test_nothing_is_drawn_past_the_page(unit, page):
    views = [
        view(
            k,
            guides=[
                (-30.0, 101.0, "Back of curb, island side, as it was staked out"),
                (39.9, np.nan, "Edge of the walk on the side of the school"),
            ],
            zones=[(-30.0, 0.0, "Lane"), (-5.0, 3.0, "Crossing"), (0.0, 40.0, "Lawn")],
        )
        for k in range(9)
    ]
    pages = sheets(views, HEAD, page, unit, unit, 5.0)
    for sheet in pages:
        for shape in sheet.shapes:
            if isinstance(shape, Label):
                size = text_width(shape.text, shape.size, bold=shape.bold)
                low = {"start": 0.0, "middle": -size / 2, "end": -size}[shape.anchor]
                if shape.upward:
                    size, low = 0.0, 0.0
                assert shape.x + low >= MARGIN - 12, shape
                assert shape.x + low + size <= page[0] - MARGIN + 12, shape
                assert MARGIN <= shape.y <= page[1] - MARGIN + 6, shape
            else:
                points = np.array(shape.points)
                assert (points >= MARGIN - 1).all(), shape
                assert (points <= np.array(page) - MARGIN + 1).all(), shape
    titles = [s.text for sheet in pages for s in sheet.shapes if isinstance(s, Label) and s.bold]
    assert [t for t in titles if t.endswith("+00.00")] == [f"{k}+00.00" for k in range(9)]
    assert all(any("drawn 5 times" in t for t in titles) for _ in pages)


@pytest.mark.parametrize(("unit", "step"), [(US_SURVEY_FOOT, 12.0), (METRE, 1.0)])
def test_the_scale_on_paper_is_the_one_stated(unit, step):
    views = [view()]
    scale, ratio = page_scale(views, LETTER, unit, unit, 4.0, 500.0)
    assert ratio % step == 0
    # Points on paper, times the ratio, are lengths on the ground.
    assert scale.across * ratio / 72 * 0.0254 == pytest.approx(unit.metres)
    assert scale.up / scale.across == pytest.approx(4.0)
    drawing = plot(views[0], scale)
    profile = next(s for s in drawing.shapes if isinstance(s, Stroke) and s.width == 1.5)
    (x0, y0), (x1, y1) = profile.points[0], profile.points[1]
    assert x0 == pytest.approx(LEFT)
    assert x1 - x0 == pytest.approx(30 * scale.across)
    assert y0 - y1 == pytest.approx(2 * scale.up)


def test_scales_in_words():
    assert scale_text(120, 5.0, US_SURVEY_FOOT) == (
        "Widths 1:120 (1 in = 10 ft), heights 1:24 (1 in = 2 ft): drawn 5 times as high as wide."
    )
    assert scale_text(100, 1.0, METRE) == "Widths 1:100, heights the same."


def test_a_section_too_tall_for_a_page_is_drawn_smaller():
    low, _ = page_scale([view(height=2.0)], A4, METRE, METRE, 10.0, 600.0)
    tall, _ = page_scale([view(height=60.0)], A4, METRE, METRE, 10.0, 600.0)
    assert tall.across < low.across
    assert len(sheets([view(height=60.0)], HEAD, A4, METRE, METRE, 10.0)) == 1


def test_names_close_together_stand_in_rows():
    guides = [(k * 0.1, 100.0, f"line number {k}") for k in range(3)]
    scale, _ = page_scale([view(guides=guides)], LETTER, METRE, METRE, 5.0, 600.0)
    drawing = plot(view(guides=guides), scale)
    heights = {s.text: s.y for s in drawing.shapes if isinstance(s, Label) and "number" in s.text}
    assert len(heights) == 3 and len(set(heights.values())) == 3


def test_texts_in_a_drawing_are_escaped():
    hostile = view(zones=[(-30.0, 40.0, "<b>&")])
    scale, _ = page_scale([hostile], LETTER, METRE, METRE, 5.0, 600.0)
    markup = plot(hostile, scale).svg("<script>")
    assert "<b>" not in markup and "<script>" not in markup
    assert "&lt;b&gt;&amp;" in markup


def test_the_file_has_every_page_and_no_half(tmp_path, qgis_app):
    views = [view(k) for k in range(9)]
    pages = sheets(views, HEAD, LETTER, METRE, METRE, 5.0)
    path = tmp_path / "plots.pdf"
    write_pdf(path, "Cross sections", pages)
    content = path.read_bytes()
    assert content.count(b"/Type /Page\n") + content.count(b"/Type /Page ") == len(pages) > 1
    path.write_bytes(b"older")

    def stop(share):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_pdf(path, "Cross sections", pages, stop)
    assert path.read_bytes() == b"older"
    assert [p.name for p in tmp_path.iterdir()] == ["plots.pdf"]
