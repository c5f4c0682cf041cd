"""The report page: order, escaping, nothing active, nothing half-written."""

from datetime import date

import pytest

from plugin.documents.cautions import cautions, conventions
from plugin.documents.report import Report

DAY = date(2024, 3, 1)


def test_every_text_is_escaped():
    nasty = '<script>alert(1)</script>&"'
    page = (
        Report(nasty, [(nasty, nasty)])
        .verdict(nasty)
        .heading(nasty)
        .paragraph(nasty)
        .table([nasty], [[nasty]], caption=nasty)
        .bullets([nasty])
        .svg("<svg></svg>", nasty)
        .html(DAY)
    )
    assert "<script" not in page
    assert page.count("&lt;script&gt;") >= 9


def test_verdict_comes_before_tables_and_cautions_close_the_page():
    page = Report("Depths").table(["a"], [[1]]).verdict("All is well.").html(DAY)
    order = [page.index(text) for text in ("<h1>", "2024-03-01", "All is well.", "<table>")]
    assert order == sorted(order)
    assert all(page.index(text) > page.index("<table>") for text in cautions())
    assert all(rule in page for _, rule in conventions())


def test_nothing_remote_and_nothing_active():
    page = Report("Depths").svg("<svg></svg>").html(DAY)
    assert "http" not in page
    assert "<script" not in page and "onload" not in page


def test_flagged_verdict_looks_different():
    assert 'class="verdict flagged"' in Report("x").verdict("No.", flagged=True).html(DAY)
    assert 'class="verdict"' in Report("x").verdict("Yes.").html(DAY)


def test_write_replaces_whole_or_not_at_all(tmp_path):
    target = tmp_path / "report.html"
    Report("One").write(target, DAY)
    before = target.read_text(encoding="utf-8")

    class Broken:
        def __str__(self) -> str:
            raise RuntimeError("no text")

    with pytest.raises(RuntimeError):
        Report("Two").table(["a"], [[Broken()]]).write(target, DAY)
    assert target.read_text(encoding="utf-8") == before
    assert list(tmp_path.iterdir()) == [target]
